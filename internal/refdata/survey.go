package refdata

// surveyRows holds a published network of levelled lines with its solution:
// seven lines between two known heights and three unknown ones, adjusted with
// equal weights and with weights by length.
func surveyRows() []Row {
	network := Source{Author: "C. D. Ghilani and P. R. Wolf", Title: "Adjustment Computations: Spatial Data Analysis", Year: "2006",
		Section: "chapter 12, adjustment of level nets"}
	row := func(id, what string, value float64) Row {
		return Row{ID: id, What: "height of " + what + " in a network of seven levelled lines", Value: value, Unit: "ft",
			Tolerance: 0.0006, Source: network, Known: FromMemory}
	}
	return []Row{
		row("survey-network-a", "A, equal weights,", 105.141),
		row("survey-network-b", "B, equal weights,", 104.483),
		row("survey-network-c", "C, equal weights,", 106.188),
		row("survey-network-a-length", "A, weights by length,", 105.150),
		row("survey-network-b-length", "B, weights by length,", 104.489),
		row("survey-network-c-length", "C, weights by length,", 106.197),
	}
}
