package refdata

// surveyRows holds two published networks of levelled lines with their
// solutions: seven lines between two known heights and three unknown ones,
// adjusted with equal weights and with weights by length; and a loop of four
// points run forward and back, with its test for blunders.
func surveyRows() []Row {
	network := Source{Author: "C. D. Ghilani and P. R. Wolf", Title: "Adjustment Computations: Spatial Data Analysis", Year: "2006",
		Section: "chapter 12, adjustment of level nets"}
	row := func(id, what string, value float64) Row {
		return Row{ID: id, What: "height of " + what + " in a network of seven levelled lines", Value: value, Unit: "ft",
			Tolerance: 0.0006, Source: network, Known: FromMemory}
	}
	program := Source{Author: "GNU Gama", Title: "Sample 1D vertical least square adjustment, printed results", Year: "version 1.5.09",
		Section: "adjusted heights; analysis of observations"}
	loop := func(id, what, unit string, value, tolerance float64) Row {
		return Row{ID: id, What: what + " in a loop of four points levelled forward and back", Value: value, Unit: unit,
			Tolerance: tolerance, Source: program, Known: Read}
	}
	return []Row{
		loop("survey-loop-height-2", "height of point 2", "m", 999.27487, 6e-6),
		loop("survey-loop-height-3", "height of point 3", "m", 997.93325, 6e-6),
		loop("survey-loop-height-4", "height of point 4", "m", 998.77513, 6e-6),
		loop("survey-loop-u-2", "standard deviation of point 2", "mm", 3.1, 0.06),
		loop("survey-loop-u-3", "standard deviation of point 3", "mm", 3.5, 0.06),
		loop("survey-loop-u-4", "standard deviation of point 4", "mm", 3.1, 0.06),
		loop("survey-loop-scale", "standard deviation of a line, from the residuals,", "mm", 5.42, 0.006),
		loop("survey-loop-worst", "largest normalized residual", "1", 1.68, 0.006),
		row("survey-network-a", "A, equal weights,", 105.141),
		row("survey-network-b", "B, equal weights,", 104.483),
		row("survey-network-c", "C, equal weights,", 106.188),
		row("survey-network-a-length", "A, weights by length,", 105.150),
		row("survey-network-b-length", "B, weights by length,", 104.489),
		row("survey-network-c-length", "C, weights by length,", 106.197),
	}
}
