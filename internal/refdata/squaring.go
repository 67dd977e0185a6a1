package refdata

// squaringRows holds figures for slopes, dials, sweeps and what a tilt leaves.
func squaringRows() []Row {
	var rows []Row
	for _, group := range [][]Row{leverRows(), lineRows(), repeatRows(), ringRows(), reversalRows(), tiltRows(), setOffRows()} {
		rows = append(rows, group...)
	}
	return rows
}

// leverRows are printed factors of a slanted lever.
func leverRows() []Row {
	booklet := Source{Title: "Reference booklet of a measuring-instrument maker", Year: "2019",
		Section: "lever indicators, factor by angle; older printings cut the last digit where newer ones round it"}
	return []Row{
		{ID: "lever-10", What: "factor of a lever indicator at 10° to the surface", Value: 0.98, Unit: "1", Tolerance: 0.01, Source: booklet, Known: Read},
		{ID: "lever-20", What: "factor of a lever indicator at 20° to the surface", Value: 0.94, Unit: "1", Tolerance: 0.01, Source: booklet, Known: Read},
		{ID: "lever-30", What: "factor of a lever indicator at 30° to the surface", Value: 0.87, Unit: "1", Tolerance: 0.01, Source: booklet, Known: Read},
	}
}

// lineRows are certified figures of a straight line.
func lineRows() []Row {
	norris := Source{Author: "NIST/ITL", Title: "Statistical Reference Datasets, linear least squares", Section: "set Norris"}
	return []Row{
		{ID: "dial-norris-constant", What: "constant of the certified line Norris", Value: -0.262323073774029, Unit: "1", Tolerance: 1e-9, Source: norris, Known: Read},
		{ID: "dial-norris-slope", What: "slope of the certified line Norris", Value: 1.00211681802045, Unit: "1", Tolerance: 1e-9, Source: norris, Known: Read},
		{ID: "dial-norris-slope-sd", What: "standard deviation of the slope of the certified line Norris", Value: 0.429796848199937e-3, Unit: "1",
			Tolerance: 1e-12, Source: norris, Known: Read},
		{ID: "dial-norris-residual-sd", What: "residual standard deviation of the certified line Norris", Value: 0.884796396144373, Unit: "1",
			Tolerance: 1e-9, Source: norris, Known: Read},
	}
}

// repeatRows are the GUM's worked figures on repeats and coverage.
func repeatRows() []Row {
	repeats := Source{Author: "JCGM", Title: "JCGM 100, Guide to the expression of uncertainty in measurement", Year: "2008",
		Section: "4.4.3, twenty temperatures"}
	table := Source{Author: "JCGM", Title: "JCGM 100, Guide to the expression of uncertainty in measurement", Year: "2008", Section: "table G.2"}
	gauge := Source{Author: "JCGM", Title: "JCGM 100, Guide to the expression of uncertainty in measurement", Year: "2008", Section: "H.1, end gauge"}
	return []Row{
		{ID: "dial-gum-repeats-mean", What: "mean of twenty repeats", Value: 100.145, Unit: "1", Tolerance: 5e-4, Source: repeats, Known: Read},
		{ID: "dial-gum-repeats-u", What: "standard deviation of the mean of twenty repeats", Value: 0.333, Unit: "1", Tolerance: 5e-4, Source: repeats, Known: Read},
		{ID: "dial-gum-t-16", What: "coverage factor for 95 % with 16 degrees of freedom", Value: 2.12, Unit: "1", Tolerance: 0.005, Source: table, Known: Read},
		{ID: "dial-gum-h1-u", What: "combined standard uncertainty of the end gauge", Value: 32, Unit: "nm", Tolerance: 0.5, Source: gauge, Known: Read},
		{ID: "dial-gum-h1-nu", What: "effective degrees of freedom of the end gauge", Value: 16.7, Unit: "1", Tolerance: 0.1, Source: gauge, Known: Read},
	}
}

// ringRows are sums over an even ring of readings.
func ringRows() []Row {
	sums := func(which string) Source {
		return Source{Title: "Sums over an even ring", Section: which + ", exact arithmetic on the stated readings"}
	}
	const four = ", for 0.030, 0.010, −0.010 and −0.006 mm at 0, 90, 180 and 270° on a radius of 150 mm"
	const twelve = ", for 12, 18, 21, 19, 13, 4, −5, −11, −14, −12, −6 and 3 µm every 30° on a radius of 150 mm"
	return []Row{
		{ID: "ring-four-x", What: "slope toward 0°" + four, Value: 133.3333, Unit: "µm/m", Tolerance: 1e-4, Source: sums("half the difference over the radius"), Known: Computed},
		{ID: "ring-four-y", What: "slope toward 90°" + four, Value: 53.3333, Unit: "µm/m", Tolerance: 1e-4, Source: sums("half the difference over the radius"), Known: Computed},
		{ID: "ring-four-plane", What: "what no plane explains" + four, Value: 4, Unit: "µm", Tolerance: 1e-6,
			Source: sums("a quarter of right and left less rear and front"), Known: Computed},
		{ID: "ring-twelve", What: "steepest slope" + twelve, Value: 24.070611, Unit: "arcsec", Tolerance: 1e-5, Source: sums("twice the mean of reading times cosine and sine"), Known: Computed},
		{ID: "ring-twelve-azimuth", What: "azimuth of the steepest slope" + twelve, Value: 62.036372, Unit: "°", Tolerance: 1e-5,
			Source: sums("twice the mean of reading times cosine and sine"), Known: Computed},
		{ID: "ring-twelve-sd", What: "standard deviation of one reading about the plane" + twelve, Value: 0.241531713, Unit: "µm", Tolerance: 1e-8,
			Source: sums("root of the squared residuals over nine"), Known: Computed},
	}
}

// reversalRows are sums and differences of a gauge or a square turned round.
func reversalRows() []Row {
	gauge := Source{Title: "Reversal of a two-dial gauge, as algebra", Section: "half the difference and half the sum of +18 and −6 µm, over 250 mm"}
	jaw := Source{Title: "A line and a parabola, exact", Section: "readings of 100 µm/m and 8 µm at both ends, at −60, −30, 0, 30 and 60 mm"}
	turn := Source{Title: "Closure of the inside angles of four faces", Section: "they make a whole turn; a jaw that leans back 100 µm/m closes each angle cut flat on it by as much"}
	square := Source{Title: "Reversal of a square, as algebra", Section: "half the sum and half the difference of +18 and −6 µm over 250 mm"}
	return []Row{
		{ID: "gauge-reversal-tilt", What: "tilt, for differences of +18 and, turned, −6 µm over 250 mm", Value: 48, Unit: "µm/m", Tolerance: 1e-9, Source: gauge, Known: Computed},
		{ID: "gauge-reversal-mismatch", What: "mismatch of the dials, for the same", Value: 6, Unit: "µm", Tolerance: 1e-9, Source: gauge, Known: Computed},
		{ID: "jaw-yaw", What: "twist of a jaw, for readings made of 100 µm/m and a hollow of 8 µm", Value: 100, Unit: "µm/m", Tolerance: 1e-6, Source: jaw, Known: Computed},
		{ID: "jaw-hollow", What: "hollow of the jaw, for the same", Value: 8, Unit: "µm", Tolerance: 1e-6, Source: jaw, Known: Computed},
		{ID: "block-jaw-last", What: "last angle of a block cut flat on a jaw that leans back 100 µm/m", Value: 300, Unit: "µm/m", Tolerance: 1e-6, Source: turn, Known: Computed},
		{ID: "block-jaw-taper", What: "taper of opposite faces of that block", Value: 200, Unit: "µm/m", Tolerance: 1e-6, Source: turn, Known: Computed},
		{ID: "block-bed-taper", What: "taper of opposite faces, the second cut flat on true parallels", Value: 0, Unit: "µm/m", Tolerance: 1e-6, Source: turn, Known: Computed},
		{ID: "square-reversal-axis", What: "lean of the travel, for +18 and, turned, −6 µm over 250 mm", Value: 4.950355, Unit: "arcsec", Tolerance: 1e-6, Source: square, Known: Computed},
		{ID: "square-reversal-square", What: "error of the square, for the same", Value: 9.900711, Unit: "arcsec", Tolerance: 1e-6, Source: square, Known: Computed},
	}
}

// tiltRows are what a tilted cutter and a leaning hole leave.
func tiltRows() []Row {
	circle := Source{Title: "A circle tipped along the feed, derived", Section: "sin(tilt) (R − √(R² − W²/4)); no printed table was found"}
	axis := Source{Title: "A leaning axis, derived", Section: "depth × slope; a circle seen aslant, D (1 − cos tilt)"}
	return []Row{
		{ID: "dish-100-80", What: "hollow of a 100 mm cutter over 80 mm, tilt 0.02/300", Value: 1.33333333, Unit: "µm", Tolerance: 1e-7, Source: circle, Known: Computed},
		{ID: "dish-100-100", What: "hollow of a 100 mm cutter over 100 mm, tilt 0.02/300", Value: 3.33333333, Unit: "µm", Tolerance: 1e-7, Source: circle, Known: Computed},
		{ID: "dish-120-90", What: "hollow of a 120 mm cutter over 90 mm, tilt 200 µm/m", Value: 4.06, Unit: "µm", Tolerance: 0.005, Source: circle, Known: Computed},
		{ID: "step-231-50", What: "step between passes 50 mm apart, tilt 231 µm/m", Value: 11.55, Unit: "µm", Tolerance: 1e-6, Source: axis, Known: Computed},
		{ID: "hole-232-60", What: "lean of a hole 60 mm deep, tilt 232 µm/m", Value: 13.92, Unit: "µm", Tolerance: 1e-6, Source: axis, Known: Computed},
		{ID: "oval-40-300", What: "ovality of a 40 mm bore, tilt 300 µm/m", Value: 0.0018, Unit: "µm", Tolerance: 1e-6, Source: axis, Known: Computed},
		{ID: "oval-50-degree", What: "ovality of a 50 mm bore, tilt 1°", Value: 7.615242, Unit: "µm", Tolerance: 1e-6, Source: axis, Known: Computed},
	}
}

// setOffRows are chances and conformity.
func setOffRows() []Row {
	normal := Source{Title: "Normal distribution", Section: "Φ(r/s) − Φ(−r/s), by definition"}
	conform := Source{Author: "JCGM", Title: "JCGM 106, The role of measurement uncertainty in conformity assessment", Year: "2012",
		Section: "clause 7, one-sided tolerance: −5.47 V, u 0.05 V, limit −5.40 V"}
	return []Row{
		{ID: "better-1", What: "chance that a new try lies nearer, residual equal to the scatter", Value: 0.682689, Unit: "1", Tolerance: 1e-6, Source: normal, Known: Computed},
		{ID: "better-half", What: "chance that a new try lies nearer, residual half the scatter", Value: 0.382925, Unit: "1", Tolerance: 1e-6, Source: normal, Known: Computed},
		{ID: "better-quarter", What: "chance that a new try lies nearer, residual a quarter of the scatter", Value: 0.197413, Unit: "1", Tolerance: 1e-6, Source: normal, Known: Computed},
		{ID: "conform-zener", What: "chance of conforming", Value: 0.92, Unit: "1", Tolerance: 0.005, Source: conform, Known: FromMemory},
	}
}
