package actionshop

import (
	"time"

	"gonum.org/v1/gonum/unit"
)

// YearOfUse is how long the mill ran in a calendar year and how often its oil
// pump was pulled.
type YearOfUse struct {
	Year  int
	Hours unit.Time
	Pulls int
}

// UseBook returns the hours under power and the pulls of the oil pump by year:
// 2019 from 18 May on, 2025 up to 24 May.
func UseBook() []YearOfUse {
	return []YearOfUse{
		{2019, 190 * hour, 95}, {2020, 330 * hour, 160}, {2021, 300 * hour, 150}, {2022, 320 * hour, 260},
		{2023, 290 * hour, 280}, {2024, 310 * hour, 300}, {2025, 120 * hour, 118},
	}
}

// hour is an hour under power.
const hour = 3600 * unit.Second

// FirstAndLastUse returns the days between which the use book was kept.
func FirstAndLastUse() (first, last time.Time) { return date(2019, 5, 18), date(2025, 5, 24) }

// OutletCleared returns the day on which the front oil outlet was found blocked
// and cleared.
func OutletCleared() time.Time { return date(2022, 9, 17) }

func date(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}

// WearStep is the depth of wear of the front and the rear way at u = -180 mm,
// where the vise lives: the step from the strip beside the track, which the
// saddle never reaches, by dial D on a foot, the mean of five.
type WearStep struct {
	Date        time.Time
	Front, Rear unit.Length
}

// WearStepU is the standard uncertainty of such a mean, WearStepAt its place on
// the table.
const (
	WearStepU  = 0.001 * mm
	WearStepAt = -180 * mm
)

// WearSteps returns the steps from 2019 to 2025. They were made from the wear of
// the ways with errors of one standard uncertainty, and rounded to a micrometre.
func WearSteps() []WearStep {
	const um = mm / 1000
	return []WearStep{
		{date(2019, 5, 18), 25 * um, 18 * um}, {date(2020, 5, 23), 32 * um, 20 * um}, {date(2021, 5, 22), 37 * um, 22 * um},
		{date(2021, 11, 20), 40 * um, 21 * um}, {date(2022, 5, 21), 43 * um, 24 * um}, {date(2022, 11, 19), 46 * um, 25 * um},
		{date(2023, 5, 20), 48 * um, 26 * um}, {date(2024, 5, 25), 50 * um, 25 * um}, {date(2025, 5, 24), 52 * um, 27 * um},
	}
}
