package refdata

// thermalRows are growths and leans by warmth.
func thermalRows() []Row {
	growth := Source{Title: "Linear expansion, by definition", Section: "length × expansion × temperature change; the expansion of steel, 11.5, and of aluminium, 23.1 per million and kelvin, are those of D. A. Swyt, J. Res. NIST 99 (1994), section 1"}
	propagated := Source{Author: "JCGM", Title: "JCGM 100, Guide to the expression of uncertainty in measurement", Year: "2008",
		Section: "5.1.2, the law of propagation on the stated inputs"}
	column := Source{Title: "A column whose front is warmer, derived", Section: "height × expansion × difference over depth"}
	return []Row{
		{ID: "warm-steel", What: "growth of 300 mm of steel warmed by 5 K", Value: 17.25, Unit: "µm", Tolerance: 1e-9, Source: growth, Known: Computed},
		{ID: "warm-steel-u", What: "its standard uncertainty, expansion within ±1 per million anywhere, temperature change 0.5 K", Value: 1.930188, Unit: "µm", Tolerance: 1e-6,
			Source: propagated, Known: Computed},
		{ID: "warm-aluminium", What: "growth of 250 mm of aluminium cooled by 3 K", Value: -17.325, Unit: "µm", Tolerance: 1e-9, Source: growth, Known: Computed},
		{ID: "warm-column", What: "lean of a column 500 mm high and 200 mm deep, front 1 K warmer, 10 per million and kelvin", Value: 25, Unit: "µm/m", Tolerance: 1e-6,
			Source: column, Known: Computed},
	}
}
