package refdata

// platingRows holds Faraday's law, nickel baths, fits and baking.
func platingRows() []Row {
	var rows []Row
	for _, group := range [][]Row{faradayRows(), nickelTimeRows(), bathRows(), fitRows(), bakeRows(), areaRows()} {
		rows = append(rows, group...)
	}
	return rows
}

// Sources of the plating rows.
var (
	sourceCODATA = Source{Author: "CODATA", Title: "Recommended values of the fundamental physical constants", Year: "2018",
		Section: "Faraday constant"}
	sourceEquivalents = Source{Title: "Electrochemical equivalents, handbook table at 100 % efficiency as reproduced by a plating supplier"}
	sourceTutorial    = Source{Title: "Surface-finishing tutorial no. 166 of a parts supplier", Year: "2013", Section: "table 1"}
	sourceRudy        = Source{Author: "S. F. Rudy", Title: "Clarifying facts about nickel plating, Finishing & Coating",
		Section: "table of thickness, mass, charge and minutes"}
	sourceNickelHandbook = Source{Author: "Nickel Institute", Title: "Nickel Plating Handbook", Year: "2014",
		Section: "time table at 95.5 % efficiency"}
	sourceGroover = Source{Author: "M. P. Groover", Title: "Fundamentals of Modern Manufacturing",
		Section: "electroplating, plate of 130 x 160 x 3.2 mm"}
	sourceNBS = Source{Author: "D. N. Craig and others, NBS", Title: "Determination of the value of the faraday with a silver coulometer",
		Year: "1960"}
	sourceIUPAC = Source{Author: "IUPAC, J. Meija and others", Title: "Atomic weights of the elements, Pure Appl. Chem. 88 265", Year: "2016",
		Section: "arithmetic from the atomic weights"}
	sourceSulfamate = Source{Title: "Data sheet of a supplier of nickel sulfamate concentrate"}
	sourceRinse     = Source{Title: "Trade note on rinsing", Section: "single tank"}
	sourceISO4042   = Source{Author: "ISO", Title: "ISO 4042", Year: "1999", Section: "tables 1 and 2, as reproduced on the web"}
	sourceASMEB1    = Source{Author: "ASME", Title: "B1.1", Year: "2019", Section: "section 7, as described in a gauge trade article"}
	sourceB850      = Source{Author: "ASTM", Title: "B850-98", Year: "2009", Section: "bake table, as reproduced by a job shop"}
)

func faradayRows() []Row {
	return []Row{
		{ID: "plating-faraday", What: "Faraday constant", Value: 96485.33212, Unit: "C/mol", Tolerance: 1e-4, Source: sourceCODATA, Known: Read},
		{ID: "plating-silver", What: "silver laid down by one coulomb", Value: 1.117972, Unit: "mg/C", Tolerance: 1.2e-5, Source: sourceNBS, Known: Read},
		{ID: "plating-nickel-ampere-hour", What: "nickel laid down by one ampere hour at 100 %", Value: 1.095, Unit: "g", Tolerance: 0.001,
			Source: sourceEquivalents, Known: Read},
		{ID: "plating-copper-ampere-hour", What: "copper laid down by one ampere hour at 100 %", Value: 1.186, Unit: "g", Tolerance: 0.001,
			Source: sourceEquivalents, Known: Read},
		{ID: "plating-nickel-thou", What: "charge for 0.001 in of nickel on a square foot at 100 %", Value: 19, Unit: "A·h", Tolerance: 0.5,
			Source: sourceEquivalents, Known: Read},
		{ID: "plating-nickel-ampere-minute", What: "nickel of 1 A·min on 1 dm² at 100 %", Value: 0.205, Unit: "µm", Tolerance: 0.001,
			Source: sourceTutorial, Known: Read},
		{ID: "plating-groover", What: "mean thickness of nickel on the plate, 25 A for 60 min at 95 %", Value: 0.06729, Unit: "mm", Tolerance: 1.5e-4,
			Source: sourceGroover, Known: Computed},
	}
}

func nickelTimeRows() []Row {
	return []Row{
		{ID: "plating-2um-mass", What: "nickel in 2 µm on 1 dm²", Value: 0.18, Unit: "g", Tolerance: 0.005, Source: sourceRudy, Known: Read},
		{ID: "plating-2um-charge", What: "charge for 2 µm on 1 dm² at 95.5 %", Value: 0.17, Unit: "A·h", Tolerance: 0.005, Source: sourceRudy, Known: Read},
		{ID: "plating-2um-half", What: "2 µm at 0.5 A/dm², 95.5 %", Value: 20, Unit: "min", Tolerance: 0.5, Source: sourceRudy, Known: Read},
		{ID: "plating-2um-two", What: "2 µm at 2 A/dm², 95.5 %", Value: 5.1, Unit: "min", Tolerance: 0.05, Source: sourceRudy, Known: Read},
		{ID: "plating-4um-four", What: "4 µm at 4 A/dm², 95.5 %", Value: 5.1, Unit: "min", Tolerance: 0.05, Source: sourceRudy, Known: Read},
		{ID: "plating-16um-two", What: "16 µm at 2 A/dm², 95.5 %", Value: 40.89, Unit: "min", Tolerance: 0.05, Source: sourceNickelHandbook, Known: FromMemory},
	}
}

func bathRows() []Row {
	return []Row{
		{ID: "plating-watts-240", What: "nickel in 240 g/L NiSO4·6H2O with 45 g/L NiCl2·6H2O", Value: 64.71, Unit: "g/L", Tolerance: 0.03, Source: sourceIUPAC, Known: Computed},
		{ID: "plating-watts-300", What: "nickel in 300 g/L NiSO4·6H2O with 45 g/L NiCl2·6H2O", Value: 78.10, Unit: "g/L", Tolerance: 0.04, Source: sourceIUPAC, Known: Computed},
		{ID: "plating-heptahydrate", What: "NiSO4·7H2O for 300 g/L of NiSO4·6H2O", Value: 320.56, Unit: "g/L", Tolerance: 0.16, Source: sourceIUPAC, Known: Computed},
		{ID: "plating-sulfamate", What: "nickel in a concentrate of 550 g/L nickel sulfamate, as tetrahydrate", Value: 100, Unit: "g/L", Tolerance: 0.5,
			Source: sourceSulfamate, Known: Read},
		{ID: "plating-rinse", What: "rinse ratio of one tank, 99 parts of water to 1 of drag-out", Value: 100, Unit: "1", Tolerance: 0.5, Source: sourceRinse, Known: Read},
	}
}

func fitRows() []Row {
	return []Row{
		{ID: "plating-pitch-diameter", What: "growth of a 60° thread's pitch diameter over the thickness on a flank", Value: 4, Unit: "1", Tolerance: 1e-6,
			Source: sourceASMEB1, Known: Read},
		{ID: "plating-acme", What: "the same for a 29° thread", Value: 7.99, Unit: "1", Tolerance: 0.005, Source: sourceASMEB1, Known: Read},
		{ID: "plating-m4-g", What: "fundamental deviation of an M4 × 0.7 screw at g", Value: 22, Unit: "µm", Tolerance: 0.5, Source: sourceISO4042, Known: Read},
		{ID: "plating-m6-f-class", What: "largest nominal coating on M6 × 1 at f, length up to 5 diameters", Value: 10, Unit: "µm", Tolerance: 0.5, Source: sourceISO4042, Known: Read},
		{ID: "plating-m5-e-class", What: "largest nominal coating on M5 × 0.8 at e, length 10 to 15 diameters", Value: 10, Unit: "µm", Tolerance: 0.5, Source: sourceISO4042, Known: Read},
		{ID: "plating-allowance-10", What: "allowance for 10 µm on a thread 5 to 10 diameters long", Value: 50, Unit: "µm", Tolerance: 0.5, Source: sourceISO4042, Known: Read},
	}
}

func areaRows() []Row {
	pappus := Source{Author: "Pappus of Alexandria", Title: "Collection", Section: "book VII: surface of revolution, length times path of the centroid; checked by quadrature"}
	iso68 := Source{Author: "ISO", Title: "ISO 68-1", Section: "basic profile, crest flat P/8, root flat P/4, flanks 0.625 P; summed by rings"}
	return []Row{
		{ID: "plating-area-ball", What: "ball of 20 mm, as half a turn of arc about the axis", Value: 1256.637, Unit: "mm²", Tolerance: 0.001, Source: pappus, Known: Computed},
		{ID: "plating-area-torus", What: "ring of 24 mm mean diameter and 6 mm section", Value: 1421.223, Unit: "mm²", Tolerance: 0.001, Source: pappus, Known: Computed},
		{ID: "plating-area-cove", What: "hollow quarter round of 3 mm on a shaft of 20 mm", Value: 328.366, Unit: "mm²", Tolerance: 0.001, Source: pappus, Known: Computed},
		{ID: "plating-area-m8", What: "M8 × 1.25 thread, each millimetre of length", Value: 37.121, Unit: "mm²", Tolerance: 0.019, Source: iso68, Known: Computed},
	}
}

func bakeRows() []Row {
	return []Row{
		{ID: "plating-bake-1050", What: "shortest bake of plated steel of 1001 to 1100 MPa", Value: 8, Unit: "h", Tolerance: 0.01, Source: sourceB850, Known: Read},
		{ID: "plating-bake-1450", What: "shortest bake of plated steel of 1401 to 1500 MPa", Value: 16, Unit: "h", Tolerance: 0.01, Source: sourceB850, Known: Read},
		{ID: "plating-bake-1750", What: "shortest bake of plated steel of 1701 to 1800 MPa", Value: 22, Unit: "h", Tolerance: 0.01, Source: sourceB850, Known: Read},
		{ID: "plating-bake-44hrc", What: "shortest bake of plated steel of 43 to 45 HRC", Value: 16, Unit: "h", Tolerance: 0.01, Source: sourceB850, Known: Read},
	}
}
