package actionshop

import (
	"time"

	"gonum.org/v1/gonum/unit"
)

// RunReading is the fine dial D, standing still over three tracks of the table
// while the table travels: in front, in the middle and at the back. Each track
// was zeroed at its first place.
type RunReading struct {
	Travel, Front, Middle, Rear unit.Length
}

// RunTrack is how far the outer tracks of a table run lie from the middle one.
const RunTrack = 80 * mm

// FirstTableRun returns the table run of 2019-05-18.
func FirstTableRun() (time.Time, []RunReading) {
	return time.Date(2019, 5, 18, 0, 0, 0, 0, time.UTC), runs([][3]float64{
		{0, 0, 0}, {-4, -2, -2}, {-6, -4, -4}, {-6, -6, -4}, {-6, -6, -4}, {-6, -6, -4}, {-6, -4, -4},
		{-6, -6, -2}, {-4, -4, -2}, {-4, 0, -2}, {0, 0, 0}, {2, 2, 2}, {6, 6, 4},
	})
}

// SecondTableRun returns the table run of 2025-05-24.
func SecondTableRun() (time.Time, []RunReading) {
	return time.Date(2025, 5, 24, 0, 0, 0, 0, time.UTC), runs([][3]float64{
		{0, 0, 0}, {-4, -2, -4}, {-6, -4, -2}, {-12, -10, -6}, {-16, -12, -8}, {-18, -12, -10}, {-20, -14, -10},
		{-18, -14, -8}, {-16, -12, -8}, {-12, -10, -6}, {-10, -10, -6}, {-10, -6, -4}, {-8, -4, -2},
	})
}

// runs writes down a run in thousandths of a millimetre, a place every 60 mm.
func runs(readings [][3]float64) []RunReading {
	rows := make([]RunReading, len(readings))
	for i, r := range readings {
		rows[i] = RunReading{Travel: unit.Length(-360+60*i) * mm, Front: unit.Length(r[0]) * mm / 1000,
			Middle: unit.Length(r[1]) * mm / 1000, Rear: unit.Length(r[2]) * mm / 1000}
	}
	return rows
}

// KneeReading is the fine dial D on the blade of a square that stands on the
// table, at a height of the knee: as the square is marked and turned end for
// end, in x and in y. Plus means that the blade has come toward the dial, which
// stands to the right or at the back.
type KneeReading struct {
	Raised                             unit.Length
	MarkedX, MarkedY, TurnedX, TurnedY unit.Length
}

// SquareOnKnee returns the readings on the 200 mm square of 2025-05-24.
func SquareOnKnee() []KneeReading {
	return []KneeReading{
		{0 * mm, 0.000 * mm, 0.000 * mm, 0.000 * mm, 0.000 * mm},
		{50 * mm, 0.002 * mm, -0.002 * mm, -0.002 * mm, -0.006 * mm},
		{100 * mm, 0.004 * mm, -0.002 * mm, 0.000 * mm, -0.008 * mm},
		{150 * mm, 0.008 * mm, -0.004 * mm, 0.000 * mm, -0.012 * mm},
	}
}
