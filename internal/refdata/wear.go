package refdata

// wearRows holds figures for levels, straightness and trends.
func wearRows() []Row {
	var rows []Row
	rows = append(rows, levelRows()...)
	rows = append(rows, straightnessRows()...)
	rows = append(rows, separationRows()...)
	rows = append(rows, plateRows()...)
	rows = append(rows, boundedRows()...)
	rows = append(rows, trendRows()...)
	rows = append(rows, survivingRows()...)
	return rows
}

func levelRows() []Row {
	second := Source{Author: "BIPM", Title: "The International System of Units", Year: "2019",
		Section: "table 8, 1 arc second = π/648 000 rad"}
	reversal := Source{Title: "Reversal of a level, as algebra",
		Section: "a sum and a difference of two readings hold the level's zero and the surface apart"}
	return []Row{
		{ID: "level-002-arcsec", What: "0.02 mm/m as an angle", Value: 4.125296, Unit: "arcsec",
			Tolerance: 1e-6, Source: second, Known: Computed},
		{ID: "level-arcsec-100mm", What: "rise of 1 arc second over 100 mm", Value: 0.4848137, Unit: "µm",
			Tolerance: 1e-7, Source: second, Known: Computed},
		{ID: "level-reversal-surface", What: "surface, for readings of +0.035 mm/m and, turned end for end, −0.011 mm/m on the surface's own sign",
			Value: 0.012, Unit: "mm/m", Tolerance: 1e-9, Source: reversal, Known: Computed},
		{ID: "level-reversal-zero", What: "zero of the level, for the same two readings",
			Value: 0.023, Unit: "mm/m", Tolerance: 1e-9, Source: reversal, Known: Computed},
	}
}

func straightnessRows() []Row {
	definition := func(which string) Source {
		return Source{Author: "ISO", Title: "ISO 12780-1, Straightness: vocabulary and parameters", Year: "2011",
			Section: which + " reference line, by definition (text not read); exact arithmetic on the stated heights"}
	}
	const level = ", for a level on a 250 mm base with divisions of 20 µm/m reading 1, 0.5, 0, −0.5, 0.5, −1, −1.5, −0.5"
	const steps = ", for heights of 0, 5, 2, 7, 6, −1, 3 µm at 0, 80, 200, 410, 500, 640, 800 mm"
	return []Row{
		{ID: "straight-level-ends", What: "straightness from the end points" + level, Value: 12.1875, Unit: "µm",
			Tolerance: 1e-4, Source: Source{Title: "End-point line, by definition", Section: "exact arithmetic on the stated readings"}, Known: Computed},
		{ID: "straight-level-least", What: "straightness by least squares" + level, Value: 13.3333, Unit: "µm",
			Tolerance: 1e-4, Source: definition("least squares"), Known: Computed},
		{ID: "straight-level-zone", What: "straightness by minimum zone" + level, Value: 12.1875, Unit: "µm",
			Tolerance: 1e-4, Source: definition("minimum zone"), Known: Computed},
		{ID: "straight-level-rms", What: "root mean square from the least squares line" + level, Value: 4.324778, Unit: "µm",
			Tolerance: 1e-6, Source: definition("least squares"), Known: Computed},
		{ID: "straight-collimator-rms", What: "root mean square from the least squares line, for tilts of 12, 14, 13, 9, 8, 6, 9, 11, 13, 10 arcsec on a 100 mm base",
			Value: 1.367785, Unit: "µm", Tolerance: 1e-6, Source: definition("least squares"), Known: Computed},
		{ID: "straight-parabola-rms", What: "root mean square of the parabola 160 (x/L)(1 − x/L) µm at 11 places from its least squares line",
			Value: 14.130817, Unit: "µm", Tolerance: 1e-6, Source: definition("least squares"), Known: Computed},
		{ID: "straight-steps-ends", What: "straightness from the end points" + steps, Value: 8.8625, Unit: "µm",
			Tolerance: 1e-4, Source: Source{Title: "End-point line, by definition", Section: "exact arithmetic on the stated heights"}, Known: Computed},
		{ID: "straight-steps-least", What: "straightness by least squares" + steps, Value: 8.0718, Unit: "µm",
			Tolerance: 1e-4, Source: definition("least squares"), Known: Computed},
		{ID: "straight-steps-zone", What: "straightness by minimum zone" + steps, Value: 7.640625, Unit: "µm",
			Tolerance: 1e-6, Source: definition("minimum zone"), Known: Computed},
	}
}

func separationRows() []Row {
	beam := Source{Title: "Uniform beam under its own weight, by double integration of the bending moment", Section: "two supports at equal distances from the ends"}
	const readings = ", for readings of 3.4 and 8.6 µm in the middle and 0 at both ends, the reference turned over between"
	identity := Source{Title: "Reversal of a straightedge, as algebra", Section: "half the sum and half the difference of two runs"}
	return []Row{
		{ID: "sag-on-ends", What: "sag in the middle of a beam on its ends, in w L⁴/(E I)", Value: 5.0 / 384, Unit: "1",
			Tolerance: 1e-9, Source: Source{Author: "common to textbooks of strength of materials", Title: "Beam on two supports, uniform load", Section: "5/384"}, Known: Computed},
		{ID: "sag-airy", What: "sag in the middle of a beam on its Airy points, in w L⁴/(E I)", Value: 5.163801e-4, Unit: "1",
			Tolerance: 1e-9, Source: beam, Known: Computed},
		{ID: "reversal-way", What: "way in the middle" + readings, Value: 6.0, Unit: "µm", Tolerance: 1e-9, Source: identity, Known: Computed},
		{ID: "reversal-edge", What: "straightedge in the middle" + readings, Value: -2.6, Unit: "µm", Tolerance: 1e-9, Source: identity, Known: Computed},
	}
}

func plateRows() []Row {
	moody := Source{Author: "J. C. Moody", Title: "How to calibrate surface plates in the plant, The Tool Engineer", Year: "1955",
		Section: "the method, from memory; exact arithmetic on readings along eight lines of a plate of 800 by 600 mm"}
	zone := Source{Author: "ISO", Title: "ISO 12781-1, Flatness: vocabulary and parameters", Year: "2011",
		Section: "minimum zone reference planes, by definition (text not read); linear programming on the stated points"}
	grade := Source{Author: "US General Services Administration", Title: "Federal Specification GGG-P-463c", Section: "40 + D²/25 microinches, as quoted by two calibration pages; specification not read"}
	return []Row{
		{ID: "plate-classical", What: "highest less lowest height of the plate, classical way", Value: 5.85655, Unit: "µm", Tolerance: 0.001, Source: moody, Known: Computed},
		{ID: "plate-closure-we", What: "closure of the line W to E", Value: -0.096963, Unit: "µm", Tolerance: 1e-5, Source: moody, Known: Computed},
		{ID: "plate-closure-sn", What: "closure of the line S to N", Value: -0.048481, Unit: "µm", Tolerance: 1e-5, Source: moody, Known: Computed},
		{ID: "flat-scattered-zone", What: "minimum zone of heights 0, 0, 0, 12, −5, 4, 2 µm at (0, 0), (600, 0), (600, 400), (0, 400), (300, 200), (300, 0), (300, 400) mm",
			Value: 11, Unit: "µm", Tolerance: 1e-6, Source: zone, Known: Computed},
		{ID: "plate-grade-12", What: "grade AA limit of a plate of 12 by 12 in", Value: 51.52, Unit: "µin", Tolerance: 1e-6, Source: grade, Known: Read},
		// At this diagonal, 1098.85 mm, the metric form gives 2.932 µm.
		{ID: "plate-din-630", What: "grade 1 limit of a plate 630 mm long", Value: 16.3, Unit: "µm", Tolerance: 1e-9,
			Source: Source{Author: "DIN", Title: "DIN 876", Section: "10 + L/100 micrometres, as printed in a data page of a plate's maker; standard not read"}, Known: Read},
		{ID: "plate-grade-metric", What: "grade AA limit of a plate of 24 by 36 in, by the rounded metric form", Value: 2.932, Unit: "µm", Tolerance: 0.016 * 2.932,
			Source: Source{Author: "Sandia National Laboratories", Title: "comparison of level, autocollimator and interferometer on surface plates",
				Section: "1 + 1.6e-6 D² µm, D in mm: a rounded conversion, within about 1.5 % of the inch form"}, Known: Read},
	}
}

func boundedRows() []Row {
	likelihood := Source{Author: "J. Tobin", Title: "Estimation of relationships for limited dependent variables, Econometrica 26", Year: "1958",
		Section: "the likelihood, from memory; exact arithmetic on the stated readings"}
	tobin := Source{Author: "R survival package", Title: "data set tobin (J. Tobin, Econometrica 26, 1958)", Section: "fit published in the test of an open port"}
	const gauge = ", for depths of <5, <5, <5, 8.1, 9.4, 12.2, 13.6, 16.4 µm in years 1 to 8"
	return []Row{
		{ID: "bounded-rate", What: "rate by maximum likelihood" + gauge, Value: 2.222238, Unit: "µm/yr", Tolerance: 1e-5, Source: likelihood, Known: Computed},
		{ID: "bounded-start", What: "depth in year 0" + gauge, Value: -1.488251, Unit: "µm", Tolerance: 1e-5, Source: likelihood, Known: Computed},
		{ID: "bounded-scatter", What: "scatter about the line" + gauge, Value: 0.442691, Unit: "µm", Tolerance: 1e-5, Source: likelihood, Known: Computed},
		{ID: "tobin-intercept", What: "intercept of the fit to Tobin's durable goods", Value: 15.1448663607, Unit: "1", Tolerance: 2e-4, Source: tobin, Known: Read},
		{ID: "tobin-age", What: "coefficient of age in the fit to Tobin's durable goods", Value: -0.129059284097, Unit: "1", Tolerance: 2e-6, Source: tobin, Known: Read},
		{ID: "tobin-quant", What: "coefficient of quant in the fit to Tobin's durable goods", Value: -0.0455416629543, Unit: "1", Tolerance: 1e-6, Source: tobin, Known: Read},
		{ID: "tobin-scale", What: "scale of the fit to Tobin's durable goods", Value: 5.57253976309, Unit: "1", Tolerance: 1e-4, Source: tobin, Known: Read},
	}
}

func trendRows() []Row {
	norris := Source{Author: "NIST", Title: "Statistical Reference Datasets, linear regression, Norris", Section: "certified values"}
	return []Row{
		{ID: "norris-intercept", What: "intercept of the Norris line", Value: -0.262323073774029, Unit: "1",
			Tolerance: 1e-9, Source: norris, Known: Read},
		{ID: "norris-intercept-u", What: "standard deviation of the intercept of the Norris line", Value: 0.232818234301152, Unit: "1",
			Tolerance: 1e-9, Source: norris, Known: Read},
		{ID: "norris-slope", What: "slope of the Norris line", Value: 1.00211681802045, Unit: "1",
			Tolerance: 1e-9, Source: norris, Known: Read},
		{ID: "norris-slope-u", What: "standard deviation of the slope of the Norris line", Value: 0.000429796848199937, Unit: "1",
			Tolerance: 1e-12, Source: norris, Known: Read},
		{ID: "norris-scatter", What: "residual standard deviation of the Norris line", Value: 0.884796396144373, Unit: "1",
			Tolerance: 1e-9, Source: norris, Known: Read},
	}
}

// survivingRows holds the share of parts that last how long when some are still
// good, and the scatter of a reading about a line.
func survivingRows() []Row {
	miller := Source{Author: "R. G. Miller", Title: "Survival Analysis, acute leukaemia, maintained arm", Year: "1997",
		Section: "as filed with the R survival package (aml): its reference output"}
	const lives = ", of 9, 13, 13+, 18, 23, 28+, 31, 34, 45+, 48, 161+ weeks"
	var rows []Row
	for _, r := range []struct {
		time     string
		share, u float64
	}{{"9", 0.909, 0.0867}, {"13", 0.818, 0.1163}, {"18", 0.716, 0.1397}, {"23", 0.614, 0.1526}, {"31", 0.491, 0.1642}, {"34", 0.368, 0.1627}, {"48", 0.184, 0.1535}} {
		rows = append(rows,
			Row{ID: "surviving-" + r.time, What: "share that lasts beyond " + r.time + " weeks" + lives, Value: r.share, Unit: "1", Tolerance: 0.0005, Source: miller, Known: Read},
			Row{ID: "surviving-" + r.time + "-u", What: "its standard error at " + r.time + " weeks (M. Greenwood)" + lives, Value: r.u, Unit: "1", Tolerance: 0.00005, Source: miller, Known: Read})
	}
	handbook := Source{Author: "NIST/SEMATECH", Title: "e-Handbook of Statistical Methods, pressure and temperature", Section: "4.5.1.2"}
	for _, r := range []struct {
		at                 string
		fit, reading, half float64
	}{{"25", 1.1976162, 4.462795, 9.034456}, {"45", 0.6803245, 4.352596, 8.811370}, {"65", 1.2441620, 4.475510, 9.060197}} {
		rows = append(rows,
			Row{ID: "handbook-fit-" + r.at, What: "standard deviation of the line of pressure on temperature at " + r.at, Value: r.fit, Unit: "1", Tolerance: 1e-6, Source: handbook, Known: FromMemory},
			Row{ID: "handbook-reading-" + r.at, What: "standard deviation of a reading from that line at " + r.at, Value: r.reading, Unit: "1", Tolerance: 1e-5, Source: handbook, Known: FromMemory},
			Row{ID: "handbook-half-" + r.at, What: "half width of the 95 % interval of a reading at " + r.at, Value: r.half, Unit: "1", Tolerance: 1e-5, Source: handbook, Known: FromMemory})
	}
	return append(rows, Row{ID: "handbook-at-47", What: "pressure by the line of the handbook at 47", Value: 192.4655, Unit: "1", Tolerance: 1e-4,
		Source: Source{Author: "NIST/SEMATECH", Title: "e-Handbook of Statistical Methods, pressure and temperature", Section: "4.1.3"}, Known: Read})
}
