package refdata

// placeRows are faces cut on ways of a simple form.
func placeRows() []Row {
	square := Source{Title: "A head square to straight ways, by definition", Section: "it leaves a plane"}
	arc := Source{Title: "Ways of a steady bend, derived", Section: "an eighth of the change of slope over a metre, 600 µm/m, times 0.6 m squared"}
	return []Row{
		{ID: "place-square", What: "flatness left by the best setting of a head on straight ways", Value: 0, Unit: "µm", Tolerance: 0.02, Source: square, Known: Computed},
		{ID: "place-bow", What: "flatness of a narrow part of 600 mm cut on bent ways", Value: 27, Unit: "µm", Tolerance: 0.05, Source: arc, Known: Computed},
	}
}
