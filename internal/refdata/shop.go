package refdata

// shopRows holds figures for readings over spans, dials, faces, holes and orders.
func shopRows() []Row {
	var rows []Row
	for _, group := range [][]Row{spanRows(), faceRows(), cornerRows(), orderRows()} {
		rows = append(rows, group...)
	}
	return rows
}

// spanRows are conversions of a reading over a span.
func spanRows() []Row {
	inch := Source{Author: "Six national standards laboratories", Title: "International Yard and Pound Agreement", Year: "1959", Section: "1 in = 25.4 mm exactly; arithmetic from there"}
	second := Source{Author: "BIPM", Title: "The International System of Units", Year: "2019", Section: "table 8, 1 arc second = π/648 000 rad"}
	return []Row{
		{ID: "span-thou-6", What: "0.001 in over 6 in", Value: 166.6667, Unit: "µm/m", Tolerance: 1e-3, Source: inch, Known: Computed},
		{ID: "span-twelve-8", What: "0.0012 in over 8 in", Value: 150, Unit: "µm/m", Tolerance: 1e-6, Source: inch, Known: Computed},
		{ID: "span-twelve-300", What: "0.0012 in over 8 in, taken to 300 mm", Value: 0.045, Unit: "mm", Tolerance: 1e-9, Source: inch, Known: Computed},
		{ID: "span-limit-8", What: "0.025 mm over 300 mm, taken to 8 in", Value: 0.000666667, Unit: "in", Tolerance: 1e-9, Source: inch, Known: Computed},
		{ID: "span-arcsec", What: "0.02 mm over 1000 mm", Value: 4.12530, Unit: "arcsec", Tolerance: 1e-5, Source: second, Known: Computed},
	}
}

// faceRows are what a tilted cutter leaves.
func faceRows() []Row {
	ellipse := Source{Title: "Plane geometry of a tilted circle", Section: "its depth over a chord, exact"}
	return []Row{
		{ID: "face-dish-50-40", What: "hollow of a 50 mm cutter over 40 mm, tilted by 0.1°", Value: 17.4532837, Unit: "µm", Tolerance: 1e-6, Source: ellipse, Known: Computed},
		{ID: "face-heel-50", What: "how far the high side of a 50 mm cutter clears, tilted by 0.1°", Value: 87.2664626, Unit: "µm", Tolerance: 1e-4, Source: ellipse, Known: Computed},
		{ID: "face-dish-80-60", What: "hollow of an 80 mm cutter over 60 mm at 100 µm/m", Value: 1.35, Unit: "µm", Tolerance: 0.006, Source: ellipse, Known: Computed},
		{ID: "face-dish-120-60", What: "hollow of a 120 mm cutter over 60 mm at 100 µm/m", Value: 0.80, Unit: "µm", Tolerance: 0.006, Source: ellipse, Known: Computed},
		{ID: "face-dish-75-75", What: "hollow of a 75 mm cutter over its whole width at 100 µm/m", Value: 3.75, Unit: "µm", Tolerance: 0.006, Source: ellipse, Known: Computed},
		{ID: "face-dish-120-90-200", What: "hollow of a 120 mm cutter over 90 mm at 200 µm/m", Value: 4.06, Unit: "µm", Tolerance: 0.006, Source: ellipse, Known: Computed},
	}
}

// cornerRows are of diagonals and closed corners.
func cornerRows() []Row {
	diagonals := Source{Title: "Plane geometry of a parallelogram", Section: "skew from its diagonals, to first order"}
	closure := Source{Title: "Plane geometry of a polygon", Section: "four interior corners sum to 360°"}
	return []Row{
		{ID: "corner-skew", What: "skew of a rectangle of 300 by 160 mm whose diagonals are 339.995 and 340.005 mm", Value: 35.4167, Unit: "µm/m", Tolerance: 1e-3, Source: diagonals, Known: Computed},
		{ID: "corner-skew-u", What: "its standard uncertainty, each diagonal read to 0.005 mm", Value: 7.229, Unit: "µm/m", Tolerance: 1e-3, Source: diagonals, Known: Computed},
		{ID: "corner-reference", What: "reference angle less 90°, corners read 4.2, −1.6, 3.0 and −2.4″ over it", Value: -0.8, Unit: "arcsec", Tolerance: 1e-9, Source: closure, Known: Computed},
		{ID: "corner-first", What: "the first of those corners less 90°", Value: 3.4, Unit: "arcsec", Tolerance: 1e-9, Source: closure, Known: Computed},
	}
}

// orderRows are of conformity and of trials.
func orderRows() []Row {
	sums := func(section string) Source {
		return Source{Author: "JCGM", Title: "JCGM 101, Propagation of distributions using a Monte Carlo method", Year: "2008", Section: section}
	}
	risks := Source{Author: "JCGM", Title: "JCGM 106, The role of measurement uncertainty in conformity assessment", Year: "2012",
		Section: "the integrals of 9.5, computed for a process of deviation 0.12, tolerance ±0.2 and measurement 0.02"}
	normal := Source{Title: "The normal distribution's own definition", Section: "JCGM 106:2012, 7.3 and 8.3"}
	return []Row{
		{ID: "order-four-normal", What: "sum of four normal inputs of uncertainty 1: half of the 95 % interval", Value: 3.92, Unit: "1", Tolerance: 0.02, Source: sums("9.2.2"), Known: FromMemory},
		{ID: "order-four-rectangular", What: "sum of four rectangular inputs of uncertainty 1: half of the 95 % interval", Value: 3.88, Unit: "1", Tolerance: 0.02, Source: sums("9.2.3"), Known: FromMemory},
		{ID: "order-squares-mean", What: "sum of two squares about zero, uncertainty 0.005 each: mean", Value: 50e-6, Unit: "1", Tolerance: 1e-6, Source: sums("9.4"), Known: Read},
		{ID: "order-squares-deviation", What: "the same: standard deviation, where the law of propagation gives zero", Value: 50e-6, Unit: "1", Tolerance: 1e-6, Source: sums("9.4"), Known: Read},
		{ID: "order-conform", What: "chance of conforming, 0.017 measured with 0.002 against 0.020", Value: 0.9331928, Unit: "1", Tolerance: 1e-7, Source: normal, Known: Computed},
		{ID: "order-guard", What: "the same at the full guard band, 0.016", Value: 0.9772499, Unit: "1", Tolerance: 1e-7, Source: normal, Known: Computed},
		{ID: "order-process", What: "share of that process within tolerance", Value: 0.904419, Unit: "1", Tolerance: 1e-6, Source: risks, Known: Computed},
		{ID: "order-consumer", What: "its parts accepted that should not be", Value: 0.0111435, Unit: "1", Tolerance: 1e-6, Source: risks, Known: Computed},
		{ID: "order-producer", What: "its parts refused that should not be", Value: 0.0157411, Unit: "1", Tolerance: 1e-6, Source: risks, Known: Computed},
	}
}
