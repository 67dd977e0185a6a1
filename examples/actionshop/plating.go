package actionshop

import (
	"time"

	"gonum.org/v1/gonum/unit"
)

// PlatedPart is a kind of part that the shop plates and its drawn area.
type PlatedPart struct {
	Name, What string
	// Area is that of one part, as the current sees it.
	Area unit.Area
}

// cm2 is the square centimetre and gram the gram in which the shop writes its
// plating book.
const (
	cm2  unit.Area = 1e-4
	gram           = unit.Milli * unit.Kilogram
)

// PlatedParts returns the parts of the plating log.
func PlatedParts() []PlatedPart {
	return []PlatedPart{
		{"coupon", "brass strip 50 x 25 x 0.5 mm, wholly immersed", 25.75 * cm2},
		{"plate", "brass escutcheon 44 x 19 x 1.6 mm", 18.74 * cm2},
		{"sleeve", "mild-steel sleeve, 9 mm outside, 6 mm inside, 28 mm long; bore counted at 0.13, as the lesson corners computes it", 9.31 * cm2},
		{"lever", "mild-steel valve lever, drawn area", 14.60 * cm2},
		{"screw", "M4 x 0.7 thumb screw, drawn area with thread", 6.90 * cm2},
	}
}

// Escutcheon is the plate of run 3.
const (
	EscutcheonLength    = 44 * mm
	EscutcheonWidth     = 19 * mm
	EscutcheonThickness = 1.6 * mm
)

// PlatingRun is one run of the log of the three-litre nickel bath.
type PlatingRun struct {
	Run int
	Day time.Time
	// Load says how many of which part, and Area is theirs together.
	Load string
	Area unit.Area
	// Current is as read on the supply, Time by the clock.
	Current unit.Current
	Time    unit.Time
	// Before and After are the readings of the dry load on the scale.
	Before, After unit.Mass
	Bath          unit.Temperature
	PH            float64
	Looks         string
}

// The steps to which the shop's gauges read, and the shop's figure for what
// handling adds to a gain: with rounding it comes to a standard uncertainty of
// 0.008 g.
const (
	ScaleStep     = 0.01 * gram
	ScaleHandling = 0.0069 * gram
	SupplyStep    = 0.01 * unit.Ampere
)

// PlatingLog returns the runs of the log, in order.
func PlatingLog() []PlatingRun {
	run := func(n int, year int, month time.Month, day int, load string, area, amps, minutes, before, after, celsius, ph float64, looks string) PlatingRun {
		return PlatingRun{n, time.Date(year, month, day, 0, 0, 0, 0, time.UTC), load, unit.Area(area) * cm2,
			unit.Current(amps) * unit.Ampere, unit.Time(minutes*60) * unit.Second,
			unit.Mass(before) * gram, unit.Mass(after) * gram, unit.Temperature(celsius + 273.15), ph, looks}
	}
	return []PlatingRun{
		run(1, 2023, time.October, 7, "1 coupon", 25.75, 0.52, 40, 5.32, 5.69, 54, 4.0, "even, satin"),
		run(2, 2023, time.October, 7, "1 coupon", 25.75, 1.03, 20, 5.27, 5.62, 55, 4.0, "even, satin"),
		run(3, 2023, time.October, 8, "4 plates", 74.94, 2.25, 45, 44.33, 46.09, 55, 4.1, "good"),
		run(4, 2023, time.November, 18, "6 sleeves", 55.86, 1.68, 45, 46.18, 47.50, 54, 4.2, "good; bore mouth thin"),
		run(5, 2024, time.January, 13, "4 plates", 74.94, 6.74, 12, 44.51, 45.86, 48, 4.3, "dark rough corners (burnt)"),
		run(6, 2024, time.January, 13, "1 coupon", 25.75, 0.77, 30, 5.27, 5.67, 55, 4.1, "good"),
		run(7, 2024, time.March, 2, "5 levers", 73.0, 2.19, 40, 80.96, 82.47, 55, 4.3, "peeled from two levers on bending"),
		run(8, 2024, time.May, 11, "10 screws", 69.0, 1.38, 30, 59.05, 59.77, 54, 4.4, "tight in the nut"),
		run(9, 2024, time.August, 24, "6 plates", 112.42, 3.37, 45, 66.59, 69.17, 55, 4.6, "pin pits on upper faces"),
		run(10, 2024, time.November, 16, "6 sleeves", 55.86, 1.68, 45, 46.21, 47.48, 54, 4.8, "dull band inside mouth"),
		run(11, 2025, time.February, 8, "1 coupon", 25.75, 0.77, 30, 5.35, 5.73, 55, 5.0, "grey, hazy"),
		run(12, 2025, time.February, 9, "1 coupon", 25.75, 0.77, 30, 5.28, 5.68, 55, 4.0, "after acid correction and low-current purge: good"),
		run(13, 2025, time.April, 26, "5 levers", 73.0, 2.19, 40, 81.02, 82.54, 55, 4.0, "good; bend test sound"),
		run(14, 2025, time.May, 10, "10 screws", 69.0, 1.03, 18, 59.03, 59.35, 55, 4.0, "runs in the nut"),
	}
}

// TrueEfficiencies returns the efficiencies from which the log was made, run by
// run: hidden from the lessons, there for their tests to recover.
func TrueEfficiencies() []float64 {
	return []float64{0.955, 0.955, 0.950, 0.950, 0.915, 0.950, 0.945, 0.940, 0.935, 0.925, 0.915, 0.950, 0.950, 0.950}
}

// PlateSpot is a place on an escutcheon of run 3 where its growth was measured.
type PlateSpot struct {
	Place string
	// Growth over both faces, by a micrometer that reads 0.001 mm.
	Growth unit.Length
}

// PlateSpots returns the growth of an escutcheon of run 3 by place.
func PlateSpots() []PlateSpot {
	return []PlateSpot{
		{"corner, 1 mm in", 0.093 * mm},
		{"long edge, middle, 1 mm in", 0.060 * mm},
		{"centre of the face", 0.036 * mm},
		{"quarter point", 0.041 * mm},
	}
}

// PlateShares returns the shares of local to mean thickness from which the
// places were made, in the same order: hidden truth. They were computed in three
// dimensions for the load as the lesson solid hangs it, on 1264 triangles.
func PlateShares() []float64 { return []float64{1.77, 1.14, 0.675, 0.774} }

// BathEntry is an entry of the bath book.
type BathEntry struct {
	// Month is the first day of the month.
	Month time.Time
	// Hot is how long the bath was warm, Area what went through it.
	Hot  unit.Time
	Area unit.Area
	// Water was added to hold the level.
	Water unit.Volume
	// Charge is what passed in that month, from the log.
	Charge unit.Charge
}

// The bath of the bath book.
const (
	BathVolume     = 3 * unit.Litre
	BathNickel     = 75.0 // g/L of nickel metal at the start
	DragOutPerArea = 0.6e-4 * unit.Metre
	DragOutDips    = 4
)

// BathBook returns the entries of the bath book, in order. The charge of a
// month is the sum of current times time over its runs.
func BathBook() []BathEntry {
	rows := []struct {
		year             int
		month            time.Month
		hours, dm2, mils float64
	}{
		{2023, time.October, 2.6, 1.9, 150},
		{2023, time.November, 0.8, 0.6, 40},
		{2024, time.January, 0.8, 1.0, 40},
		{2024, time.March, 0.7, 0.8, 40},
		{2024, time.May, 0.6, 0.8, 30},
		{2024, time.August, 0.9, 1.2, 50},
		{2024, time.November, 0.9, 0.7, 50},
		{2025, time.February, 1.2, 0.6, 60},
	}
	var book []BathEntry
	for _, r := range rows {
		e := BathEntry{Month: time.Date(r.year, r.month, 1, 0, 0, 0, 0, time.UTC), Hot: unit.Time(r.hours*3600) * unit.Second,
			Area: unit.Area(r.dm2) * 100 * cm2, Water: unit.Volume(r.mils) * 1e-3 * unit.Litre}
		for _, run := range PlatingLog() {
			if run.Day.Year() == r.year && run.Day.Month() == r.month {
				e.Charge += unit.Charge(float64(run.Current) * float64(run.Time))
			}
		}
		book = append(book, e)
	}
	return book
}
