package actionshop

import "gonum.org/v1/gonum/unit"

// HolePattern is four reamed holes, stepped off on the dials of the mill, and
// their diagonals over pins.
type HolePattern struct {
	// X and Y are the sides as the dials had them.
	X, Y unit.Length
	// AC runs from the front left hole to the rear right one, BD from the front
	// right to the rear left, both read to Step.
	AC, BD, Step unit.Length
	// TrueSkew is how far the corner at the front left is open over a right
	// angle, rise over run: tested against, never shown as known.
	TrueSkew float64
}

// Holes returns the shop's four holes.
func Holes() HolePattern {
	return HolePattern{X: 300 * mm, Y: 160 * mm, AC: 339.995 * mm, BD: 340.005 * mm, Step: 0.005 * mm, TrueSkew: 35e-6}
}
