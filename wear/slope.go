package wear

import (
	"math"

	"gonum.org/v1/gonum/unit"
)

// Slope is rise over run: a pure number, 1e-6 being one micrometre in a metre.
// It is positive when the right (slopes along x) or the back (slopes across y)
// is high.
type Slope float64

// The shop's ways of saying a slope. An arc second is taken as the tangent of
// the angle by its small-angle value pi/648000; at one degree the two differ by
// one part in ten thousand.
const (
	MicrometrePerMetre Slope = 1e-6
	MillimetrePerMetre Slope = 1e-3
	InchPerFoot        Slope = 1.0 / 12
	ArcSecond          Slope = math.Pi / 648000
)

// Rise returns the difference of height that the slope makes over a run.
func (s Slope) Rise(run unit.Length) unit.Length {
	return unit.Length(float64(s) * float64(run))
}
