package refdata

// wearLawRows holds figures for the law of wear, for forecasts and for money over
// years.
func wearLawRows() []Row {
	article := Source{Title: "Encyclopaedia article on the wear coefficient", Section: "mild steel on mild steel, K = 7e-3, H = 1.176e9 Pa (read); exact arithmetic on them"}
	shigley := Source{Author: "R. G. Budynas and J. K. Nisbett", Title: "Shigley's Mechanical Engineering Design", Section: "boundary-lubricated bearings, first example"}
	overlap := Source{Title: "Saddle of 300 mm on a stroke of 200 mm", Section: "the stroke for which the saddle covers a place, exact geometry"}
	histogram := Source{Title: "Law of wear by zones", Section: "exact arithmetic on the stated load, distance and shares"}
	pad := Source{Title: "Linear pressure under an eccentric load", Section: "mean times 1 plus or minus 6 e/L"}
	const zones = ", for 2e-8 mm³/(N·m), 1500 N, 80 mm and 1.5e6 m, 0.40 of it in a zone of 100 mm"
	return append([]Row{
		{ID: "law-with-three", What: "volume worn by 100 N over 1000 m, V = K W s/(3 H)", Value: 198.4127, Unit: "mm³", Tolerance: 1e-3, Source: article, Known: Computed},
		{ID: "law-without-three", What: "volume worn by 100 N over 1000 m, V = K W s/H", Value: 595.2381, Unit: "mm³", Tolerance: 1e-3, Source: article, Known: Computed},
		{ID: "law-inch-factor", What: "1 in³·min/(lbf·ft·h)", Value: 201.44130, Unit: "mm³/(N·m)", Tolerance: 1e-4,
			Source: Source{Title: "Definitions of the inch and the pound-force", Section: "0.0254 m and 4.4482216152605 N"}, Known: Computed},
		{ID: "law-bushing", What: "life of a 1 in bushing under 700 lbf at 33 ft/min until 0.005 in is worn", Value: 2180, Unit: "h", Tolerance: 5, Source: shigley, Known: FromMemory},
		{ID: "law-saddle-sliding", What: "sliding 100 mm from the end of a worn bed, a stroke", Value: 100, Unit: "mm", Tolerance: 1e-9, Source: overlap, Known: Computed},
		{ID: "law-zone-depth", What: "depth worn" + zones, Value: 2.25, Unit: "µm", Tolerance: 1e-9, Source: histogram, Known: Computed},
		{ID: "law-pad-most", What: "highest pressure under 1200 N, 30 mm off the middle of a pad of 300 by 60 mm", Value: 0.1066667, Unit: "N/mm²", Tolerance: 1e-6, Source: pad, Known: Computed},
		{ID: "parabola-bow", What: "rise of the parabola 160 (x/L)(1 − x/L) µm above its chord", Value: 40, Unit: "µm", Tolerance: 0.5,
			Source: Source{Title: "Parabola above its chord", Section: "by definition; the tolerance is that of the spline between stations"}, Known: Computed},
	}, forecastRows()...)
}

func forecastRows() []Row {
	norris := Source{Author: "NIST", Title: "Statistical Reference Datasets, linear regression, Norris", Section: "data read; interval by the formula of the line"}
	fieller := Source{Author: "E. C. Fieller", Title: "Some problems in interval estimation, J. Royal Statistical Society B 16", Year: "1954",
		Section: "the theorem, from memory; exact arithmetic on the stated readings, worked independently"}
	sliding := Source{Author: "W. Q. Meeker and L. A. Escobar", Title: "Statistical Methods for Reliability Data, sliding wear of a metal alloy", Year: "1998",
		Section: "unit 101 at 10 g, data read; fit worked independently"}
	const six = ", for 2.0, 6.1, 8.7, 12.2, 16.1, 22.4 µm in years 0, 1.5, 3, 4, 6, 8 and a limit of 30 µm"
	return []Row{
		{ID: "norris-at-500", What: "half width of the 95 % interval of the Norris line at 500", Value: 0.307889, Unit: "1", Tolerance: 1e-5, Source: norris, Known: Computed},
		{ID: "fieller-at", What: "year in which the line meets the limit" + six, Value: 11.28250, Unit: "yr", Tolerance: 1e-4, Source: fieller, Known: Computed},
		{ID: "fieller-low", What: "least year at 95 %" + six, Value: 10.48414, Unit: "yr", Tolerance: 1e-4, Source: fieller, Known: Computed},
		{ID: "fieller-high", What: "greatest year at 95 %" + six, Value: 12.26603, Unit: "yr", Tolerance: 1e-4, Source: fieller, Known: Computed},
		{ID: "sliding-power", What: "wear at 1000 cycles by a power law", Value: 10.619, Unit: "µm", Tolerance: 0.001, Source: sliding, Known: Computed},
		{ID: "sliding-line", What: "wear at 1000 cycles by a straight line", Value: 15.953, Unit: "µm", Tolerance: 0.001, Source: sliding, Known: Computed},
		{ID: "annuity", What: "worth today of 1 a year for ten years at 5 %, paid at mid-year", Value: 7.912424, Unit: "1", Tolerance: 1e-5,
			Source: Source{Title: "Present worth of an annuity", Section: "(1 − 1.05⁻¹⁰)/0.05 × 1.05^½, by definition"}, Known: Computed},
	}
}
