package actionshop

import (
	"time"

	"gonum.org/v1/gonum/unit"
)

// PocketReading is what is left of the flaking at one place u of the table's
// ways: the mean depth of the pockets found and how many of five were found, on
// the front and on the rear way.
type PocketReading struct {
	Place      unit.Length
	Front      unit.Length
	FrontFound int
	Rear       unit.Length
	RearFound  int
}

// Flaking as new, measured where nothing has run: mean depth and spread of
// single pockets; PocketsLookedFor at each station and way.
const (
	FlakingNew       = 52 * um
	FlakingSpread    = 6 * um
	PocketsLookedFor = 5
)

const um = unit.Micro * unit.Metre

// FirstPockets returns the flaking of 2019-05-18.
func FirstPockets() (time.Time, []PocketReading) {
	return time.Date(2019, 5, 18, 0, 0, 0, 0, time.UTC), []PocketReading{
		{-480 * mm, 54 * um, 5, 57 * um, 5},
		{-360 * mm, 43 * um, 5, 51 * um, 5},
		{-240 * mm, 36 * um, 5, 43 * um, 5},
		{-120 * mm, 17 * um, 5, 30 * um, 5},
		{0 * mm, 11 * um, 4, 23 * um, 5},
		{120 * mm, 8 * um, 5, 20 * um, 5},
		{240 * mm, 21 * um, 5, 30 * um, 5},
		{360 * mm, 34 * um, 5, 40 * um, 5},
		{480 * mm, 52 * um, 5, 53 * um, 5},
	}
}

// SecondPockets returns the flaking of 2025-05-24; a depth of zero with none
// found means that the pockets are gone.
func SecondPockets() (time.Time, []PocketReading) {
	return time.Date(2025, 5, 24, 0, 0, 0, 0, time.UTC), []PocketReading{
		{-480 * mm, 43 * um, 5, 53 * um, 5},
		{-360 * mm, 34 * um, 5, 40 * um, 5},
		{-240 * mm, 13 * um, 5, 30 * um, 5},
		{-120 * mm, 6 * um, 1, 16 * um, 5},
		{0 * mm, 0 * um, 0, 15 * um, 5},
		{120 * mm, 10 * um, 4, 25 * um, 5},
		{240 * mm, 24 * um, 5, 31 * um, 5},
		{360 * mm, 37 * um, 5, 43 * um, 5},
		{480 * mm, 51 * um, 5, 48 * um, 5},
	}
}
