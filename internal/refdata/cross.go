package refdata

// crossRows are a map of two axes and the turns that it gives.
func crossRows() []Row {
	solved := Source{Title: "Two linear equations, solved", Section: "a turn of 100 of the side tilt changes the tilts by 90 and −20, one of the nod by 10 and 80; exact"}
	return []Row{
		{ID: "cross-side-on-nod", What: "what one unit of side tilt does to the nod, from 100 asked and −20 found", Value: -0.2, Unit: "1", Tolerance: 1e-9, Source: solved, Known: Computed},
		{ID: "cross-turn-side", What: "turn of the side tilt that takes away −200 and −300 µm/m together", Value: 175.675676, Unit: "µm/m", Tolerance: 1e-5, Source: solved, Known: Computed},
		{ID: "cross-turn-nod", What: "turn of the nod for the same", Value: 418.918919, Unit: "µm/m", Tolerance: 1e-5, Source: solved, Known: Computed},
		{ID: "cross-rate", What: "factor by which setting each in turn nears square in each round of two", Value: -0.0277778, Unit: "1", Tolerance: 1e-6, Source: solved, Known: Computed},
	}
}
