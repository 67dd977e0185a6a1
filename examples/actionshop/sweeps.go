package actionshop

import (
	"time"

	"gonum.org/v1/gonum/unit"
)

// thou is a thousandth of an inch, the mark of the shop's oldest indicator.
const thou unit.Length = 25.4e-6

// Sweep is one round of lever indicator A on the sweep arm: eight readings 45
// degrees apart, from the right anticlockwise seen from above, and one back at
// the right. A gauge block was slid under the stylus at each place.
type Sweep struct {
	Date time.Time
	// Head is "found" before the head was touched, "left" after.
	Head string
	// Travel is where the table stood, positive to the right.
	Travel   unit.Length
	Readings [8]unit.Length
	Closing  unit.Length
}

// The sweep arm and its indicator. A reading is rounded to half a division, and
// one turn of the hand is thirty thousandths.
const (
	SweepRadius   = 110 * mm
	LeverDivision = 0.5 * thou
	LeverTurn     = 30 * thou
)

// SweepAsFound returns the sweep of 2025-05-24 before the head was reset.
func SweepAsFound() Sweep {
	return sweep("found", 0*mm, 0, 0, -0.5, 0, 1, 2, 2.5, 2, 1)
}

// SweepsAsLeft returns the sweeps of 2025-05-24 after the head was reset, at
// five places of the table.
func SweepsAsLeft() []Sweep {
	return []Sweep{
		sweep("left", -300*mm, 0.25, 0, -0.25, -0.5, -0.5, -0.5, -0.25, 0, 0.25),
		sweep("left", -150*mm, 0, 0, -0.25, -0.5, -0.5, -0.5, -0.25, 0, 0),
		sweep("left", 0*mm, 0, 0, 0, -0.25, 0, 0, 0, 0, 0),
		sweep("left", 150*mm, 0, 0, 0, 0.25, 0.25, 0.75, 0.75, 0.5, 0.25),
		sweep("left", 300*mm, 0.25, 0, 0, 0.25, 0.75, 1, 1, 0.5, 0.25),
	}
}

// sweep writes down a round in thousandths of an inch.
func sweep(head string, travel, closing unit.Length, readings ...float64) Sweep {
	s := Sweep{Date: time.Date(2025, 5, 24, 0, 0, 0, 0, time.UTC), Head: head, Travel: travel, Closing: closing * thou}
	for i, r := range readings {
		s.Readings[i] = unit.Length(r) * thou
	}
	return s
}

// TrueTilt is what the made-up machine's head really did: spindle tilt less table
// slope at the middle of the travel, as rise over run in x and y, and what the
// second dial of the two-dial gauge showed over the first on a square table.
// Lessons are tested against it and never show it as known.
type TrueTilt struct {
	Date                         time.Time
	FoundX, FoundY, LeftX, LeftY float64
	Mismatch                     unit.Length
}

// TrueTilts returns the truth of the four dates on which the head was set.
func TrueTilts() []TrueTilt {
	const urad = 1e-6
	day := func(year int, month time.Month, day int) time.Time {
		return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	}
	return []TrueTilt{
		{day(2019, 5, 18), 240 * urad, -310 * urad, 58 * urad, 66 * urad, 0.012 * mm},
		{day(2021, 5, 22), 83 * urad, 98 * urad, 61 * urad, 59 * urad, 0.012 * mm},
		{day(2023, 5, 20), 96 * urad, 101 * urad, 171 * urad, 184 * urad, 0.034 * mm},
		{day(2025, 5, 24), 232 * urad, 231 * urad, -9 * urad, 14 * urad, 0.034 * mm},
	}
}
