package refdata

import "slices"

// restoreRows holds the screw, the gib, error separation and putting ways right.
func restoreRows() []Row {
	return slices.Concat(positioning(), gib(), puttingRight(), errorSeparation())
}

// positioning holds lost motion and positioning: the quantities of ISO 230-2 on
// constructed readings, and the handwheel.
func positioning() []Row {
	iso := Source{Author: "ISO", Title: "ISO 230-2, Determination of accuracy and repeatability of positioning", Year: "2014",
		Section: "formulas, from memory (text not read); exact arithmetic on five runs each way at five places"}
	thread := Source{Title: "Screw of 5 threads to the inch, handwheel of 200 divisions", Section: "exact arithmetic"}
	const readings = ", for the constructed set of five places and five runs"
	return []Row{
		{ID: "iso-lost", What: "largest lost motion B" + readings, Value: 3.3, Unit: "µm", Tolerance: 1e-6, Source: iso, Known: Computed},
		{ID: "iso-repeat", What: "largest repeatability from both sides R" + readings, Value: 4.145378, Unit: "µm", Tolerance: 1e-6, Source: iso, Known: Computed},
		{ID: "iso-systematic", What: "systematic error from both sides E" + readings, Value: 6.7, Unit: "µm", Tolerance: 1e-6, Source: iso, Known: Computed},
		{ID: "iso-mean-range", What: "range of the means M" + readings, Value: 3.65, Unit: "µm", Tolerance: 1e-6, Source: iso, Known: Computed},
		{ID: "iso-accuracy", What: "accuracy from both sides A" + readings, Value: 7.637112, Unit: "µm", Tolerance: 1e-6, Source: iso, Known: Computed},
		{ID: "screw-handwheel", What: "lost motion of 0.010 in on a lead of 0.200 in, at the handwheel", Value: 18, Unit: "°", Tolerance: 1e-9, Source: thread, Known: Computed},
		{ID: "screw-square-flanks", What: "lost motion of a square thread of small lead whose flanks have lost 0.02 and 0.03 mm", Value: 0.05, Unit: "mm", Tolerance: 2e-4,
			Source: Source{Title: "Square thread", Section: "sum of the wear of both flanks; the tolerance is the lead angle"}, Known: Computed},
	}
}

// gib holds what a gib's setting must keep.
func gib() []Row {
	normal := Source{Author: "common to tables of the normal law", Title: "One-sided quantile", Section: "0.95: 1.6449"}
	return []Row{
		{ID: "gib-margin", What: "margin that keeps a film at a place read to 1 µm with a chance of 95 %", Value: 1.6449, Unit: "µm", Tolerance: 1e-4, Source: normal, Known: FromMemory},
		{ID: "gib-turns", What: "turns of a gib screw of 1 mm pitch, on a taper of 1 in 50, for 20 µm of play", Value: 1, Unit: "1", Tolerance: 1e-9,
			Source: Source{Title: "Wedge", Section: "play = taper × pitch × turns, by definition"}, Known: Computed},
	}
}

// puttingRight holds scraping, sag and overhang.
func puttingRight() []Row {
	beam := Source{Title: "Uniform beam under its own weight, by double integration of the bending moment", Section: "iron of 25 by 60 mm, 1 m long, E = 110 GPa, 7200 kg/m³"}
	arm := Source{Author: "common to textbooks of strength of materials", Title: "Beam held at one end", Section: "P L³/(3 E I), w L⁴/(8 E I)"}
	const table = " of a table section of 200 by 60 mm iron reaching out 350 mm"
	return []Row{
		{ID: "sag-bessel-end", What: "droop of the ends of the iron straightedge on its Bessel points", Value: 0.39179, Unit: "µm", Tolerance: 1e-4, Source: beam, Known: Computed},
		{ID: "sag-airy-range", What: "range of the sag of the iron straightedge on its Airy points", Value: 1.28266, Unit: "µm", Tolerance: 2e-4, Source: beam, Known: Computed},
		{ID: "overhang-load", What: "droop under 400 N" + table, Value: 14.43603, Unit: "µm", Tolerance: 1e-4, Source: arm, Known: Computed},
		{ID: "overhang-weight", What: "droop under 500 N/m" + table, Value: 2.36841, Unit: "µm", Tolerance: 1e-4, Source: arm, Known: Computed},
		{ID: "points-spacing-25", What: "mean spacing of 25 points in a square inch", Value: 5.08, Unit: "mm", Tolerance: 1e-9, Source: Source{Title: "Side of each point's square", Section: "25.4 mm/√n, by definition"}, Known: Computed},
	}
}

// errorSeparation holds three plates and three probes.
func errorSeparation() []Row {
	plates := Source{Author: "J. Whitworth", Title: "Miscellaneous Papers: on plane metallic surfaces (1840)", Year: "1858",
		Section: "the method, read; exact arithmetic on gaps of −2 + 4, −2 + 1 and 4 + 1 times a crown"}
	probes := Source{Title: "Second difference of three probes, as algebra", Section: "exact arithmetic on the constructed readings"}
	return []Row{
		{ID: "plates-a", What: "plate A in its middle, for gaps AB = 3, AC = −1.5, BC = 7.5 µm", Value: -3, Unit: "µm", Tolerance: 1e-9, Source: plates, Known: Computed},
		{ID: "plates-b", What: "plate B in its middle, for the same gaps", Value: 6, Unit: "µm", Tolerance: 1e-9, Source: plates, Known: Computed},
		{ID: "probes-top", What: "highest place of the way by three probes, six readings", Value: 4.5, Unit: "µm", Tolerance: 1e-9, Source: probes, Known: Computed},
		{ID: "probes-zero", What: "bend in the middle of ten pitches from zeros that are 0.2 µm out of line", Value: -2.5, Unit: "µm", Tolerance: 1e-9, Source: probes, Known: Computed},
	}
}
