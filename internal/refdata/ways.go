package refdata

// waysRows holds cases of a table on worn ways that can be worked by hand.
func waysRows() []Row {
	wave := Source{Title: "A straight bar on two supports that stand on a sine", Section: "difference and mean of the two heights"}
	pad := Source{Author: "common to textbooks of strength of materials", Title: "Rectangle under an off-centre load within its core", Section: "P/A (1 + 6 e/L)"}
	const depth = ", wear 10 µm times the sine of π u/300 mm, bearing 300 mm"
	return []Row{
		{ID: "ways-chord-slope", What: "slope of the table at u = 0" + depth, Value: -20.0 / 0.3, Unit: "µm/m", Tolerance: 1e-6, Source: wave, Known: Computed},
		{ID: "ways-chord-height", What: "height of the table at u = 60 mm, as anywhere: the waves lift one end as much as they sink the other" + depth, Value: 0, Unit: "µm", Tolerance: 1e-6, Source: wave, Known: Computed},
		// The outermost of the model's cells has its middle half a cell inside the
		// edge, which makes its pressure 0.6 % less than that of the edge.
		{ID: "ways-pad-peak", What: "peak pressure under a pad of 300 by 60 mm, 1200 N standing 30 mm off its middle", Value: 320.0 / 3, Unit: "kPa", Tolerance: 0.8, Source: pad, Known: FromMemory},
	}
}
