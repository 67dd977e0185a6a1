package refdata

// closureRows are three squares compared two by two.
func closureRows() []Row {
	pairs := Source{Title: "Three sums of two, solved", Section: "first and second 8, second and third 2, first and third −4; exact"}
	propagated := Source{Author: "JCGM", Title: "JCGM 100, Guide to the expression of uncertainty in measurement", Year: "2008",
		Section: "5.1.2: three comparisons of standard uncertainty 1, each counted half"}
	return []Row{
		{ID: "three-first", What: "first of three squares whose sums two by two are 8, 2 and −4 µm/m", Value: 1, Unit: "µm/m", Tolerance: 1e-9, Source: pairs, Known: Computed},
		{ID: "three-second", What: "second of them", Value: 7, Unit: "µm/m", Tolerance: 1e-9, Source: pairs, Known: Computed},
		{ID: "three-third", What: "third of them", Value: -5, Unit: "µm/m", Tolerance: 1e-9, Source: pairs, Known: Computed},
		{ID: "three-u", What: "standard uncertainty of each, each comparison known to 1 µm/m", Value: 0.8660254, Unit: "µm/m", Tolerance: 1e-7, Source: propagated, Known: Computed},
	}
}
