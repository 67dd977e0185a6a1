package refdata

// typeBRows are judged uncertainties: limits, and how well a judgement is known.
func typeBRows() []Row {
	gum := func(section string) Source {
		return Source{Author: "JCGM", Title: "JCGM 100, Guide to the expression of uncertainty in measurement", Year: "2008", Section: section}
	}
	limits := gum("4.4.5, limits of 96 and 104 °C; printed 2.3 and 1.6")
	reliability := gum("G.4.2, half the inverse square of the relative uncertainty of the uncertainty")
	return []Row{
		{ID: "gum-limits-rectangular", What: "standard uncertainty of a value anywhere between limits 8 apart", Value: 2.3, Unit: "1", Tolerance: 0.05, Source: limits, Known: FromMemory},
		{ID: "gum-limits-triangular", What: "the same where the middle is the likelier the nearer", Value: 1.6, Unit: "1", Tolerance: 0.05, Source: limits, Known: FromMemory},
		{ID: "gum-reliability-10", What: "degrees of freedom of an uncertainty judged good to 10 %", Value: 50, Unit: "1", Tolerance: 1e-9, Source: reliability, Known: Read},
		{ID: "gum-reliability-25", What: "degrees of freedom of an uncertainty judged good to 25 %", Value: 8, Unit: "1", Tolerance: 1e-9, Source: reliability, Known: Read},
		{ID: "gum-reliability-50", What: "degrees of freedom of an uncertainty judged good to 50 %", Value: 2, Unit: "1", Tolerance: 1e-9, Source: reliability, Known: Read},
	}
}
