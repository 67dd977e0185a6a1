package squaring

// Uncertainties that are judged and not measured (Type B evaluation): what limits
// say, and how well such a judgement is itself known.

import (
	"fmt"
	"math"
)

// Spread says how a value is spread about its middle.
type Spread string

const (
	// FixedSpread: the same on every part, and known.
	FixedSpread Spread = "fixed"
	// NormalSpread: bell-shaped, its width the standard deviation.
	NormalSpread Spread = "normal"
	// RectangularSpread: anywhere within the width either way, all alike likely.
	RectangularSpread Spread = "rectangular"
	// TriangularSpread: never beyond the width either way, and the likelier the
	// nearer to the middle: the sum of two alike rectangular ones.
	TriangularSpread Spread = "triangular"
)

// valid reports whether the spread is one of the four.
func (s Spread) valid() bool {
	return s == FixedSpread || s == NormalSpread || s == RectangularSpread || s == TriangularSpread
}

// Uncertainty returns the standard uncertainty of a value that is spread by a
// width, in the width's unit: the width of a normal spread itself, and of limits
// the width either way (JCGM 100:2008, 4.3.7 and 4.3.9)
//
//	over root three when rectangular, over root six when triangular
//
// A triangle is for limits of which one knows that the middle is likelier: where
// nothing is known but the limits, it promises too much. A fixed value, or a
// spread that is none of the four, has none.
func (s Spread) Uncertainty(width float64) float64 {
	switch s {
	case NormalSpread:
		return width
	case RectangularSpread:
		return width / math.Sqrt(3)
	case TriangularSpread:
		return width / math.Sqrt(6)
	}
	return 0
}

// DegreesFromReliability returns the degrees of freedom of a standard uncertainty
// that was judged, from how far the judgement may be out: its own standard
// uncertainty, as a part of it (JCGM 100:2008, G.4.2).
//
//	nu = 1 / (2 reliability^2)
//
// So a figure that is good to a quarter of itself counts like nine readings. The
// reliability must lie between 0, known for certain and +Inf degrees, and 1. The
// formula is a first-order one, for normal readings: near 1 it is a rough guide.
func DegreesFromReliability(reliability float64) (float64, error) {
	if !(reliability >= 0 && reliability <= 1) {
		return 0, fmt.Errorf("squaring: uncertainty of the uncertainty is %g of it, must lie between 0 and 1", reliability)
	}
	return 1 / (2 * reliability * reliability), nil
}
