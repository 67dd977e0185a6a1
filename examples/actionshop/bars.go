package actionshop

import "gonum.org/v1/gonum/unit"

// BarReading is a pair of dial readings on the ground bar at one travel: with
// its marked edge up and the dial above it, and rolled over with the dial below.
type BarReading struct {
	Travel, Up, Down unit.Length
}

// DialD is the step to which the finest dial is read.
const DialD = 0.002 * mm

// GroundBar returns the readings on the 500 mm ground bar of 2025-05-24.
func GroundBar() []BarReading {
	return []BarReading{
		{-240 * mm, 0.000 * mm, 0.000 * mm},
		{-180 * mm, -0.004 * mm, 0.010 * mm},
		{-120 * mm, -0.008 * mm, 0.016 * mm},
		{-60 * mm, -0.014 * mm, 0.018 * mm},
		{0 * mm, -0.020 * mm, 0.020 * mm},
		{60 * mm, -0.022 * mm, 0.018 * mm},
		{120 * mm, -0.026 * mm, 0.014 * mm},
		{180 * mm, -0.028 * mm, 0.012 * mm},
		{240 * mm, -0.028 * mm, 0.010 * mm},
	}
}

// Thickness is the thickness of the skimmed bar at a place u on the table,
// positive to the right of its middle.
type Thickness struct {
	Place, Thickness unit.Length
}

// Micrometer is the step to which the micrometer is read.
const Micrometer = 0.001 * mm

// SkimmedBar returns the thickness of the long bar that was skimmed in one
// setting in line with x.
func SkimmedBar() []Thickness {
	return []Thickness{
		{-300 * mm, 19.976 * mm}, {-200 * mm, 19.979 * mm}, {-100 * mm, 19.983 * mm}, {0 * mm, 19.985 * mm},
		{100 * mm, 19.982 * mm}, {200 * mm, 19.977 * mm}, {300 * mm, 19.971 * mm},
	}
}
