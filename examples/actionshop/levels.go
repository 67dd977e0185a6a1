package actionshop

import (
	"time"

	"gonum.org/v1/gonum/unit"
)

// LevelReading is one station of a level survey: the table stands at the travel
// Travel, and the level on it is read along x and across y, each time as it
// stands and turned end for end. Readings are in divisions, positive when the
// bubble has run toward the marked end of the level, which points right or to
// the back in the first reading of each pair.
type LevelReading struct {
	Travel                     unit.Length
	AlongNormal, AlongTurned   float64
	AcrossNormal, AcrossTurned float64
}

// LevelDivision is the slope that moves the bubble by one division, as rise
// over run; the bubble is read to half a division.
const LevelDivision = 20e-6

// BearingLength is the distance along x between the two places where the table
// bears on the saddle.
const BearingLength = 360 * mm

// mm is the millimetre in which the shop writes its tables.
const mm = unit.Milli * unit.Metre

// FirstLevelSurvey returns the level readings of 2019-05-18.
func FirstLevelSurvey() (time.Time, []LevelReading) {
	return time.Date(2019, 5, 18, 0, 0, 0, 0, time.UTC), []LevelReading{
		{-360 * mm, 11.5, -8.5, 0.5, 3.0},
		{-240 * mm, 12.0, -8.5, 1.0, 2.5},
		{-120 * mm, 10.0, -6.5, 1.0, 2.0},
		{0 * mm, 6.5, -3.0, 1.0, 2.5},
		{120 * mm, 4.0, 0.0, 0.5, 2.5},
		{240 * mm, 3.5, 0.0, 0.5, 3.0},
		{360 * mm, 4.5, -1.5, -0.5, 3.5},
	}
}

// SecondLevelSurvey returns the level readings of 2025-05-24.
func SecondLevelSurvey() (time.Time, []LevelReading) {
	return time.Date(2025, 5, 24, 0, 0, 0, 0, time.UTC), []LevelReading{
		{-360 * mm, 11.5, -13.5, -4.0, 1.5},
		{-240 * mm, 11.5, -14.0, -3.0, 1.0},
		{-120 * mm, 11.0, -13.5, -2.0, 0.0},
		{0 * mm, 8.5, -10.5, -1.0, -1.0},
		{120 * mm, 4.5, -6.5, -1.5, -1.0},
		{240 * mm, 2.0, -4.0, -2.0, 0.0},
		{360 * mm, 2.0, -4.0, -2.5, 0.5},
	}
}
