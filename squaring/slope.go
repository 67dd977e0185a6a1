package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Slope is rise over run: metres per metre, the tangent of the angle. It is
// positive when the far end of the run (the right, or the back of the machine)
// is high. A hundred microradians, 0.1 mm/m, is 0.030 mm over 300 mm and
// 0.0012 in per foot.
type Slope float64

// Slopes in the shop's units; multiply a number by one of these.
const (
	// Microradian is one micrometre per metre, one microinch per inch.
	Microradian Slope = 1e-6
	// MillimetrePerMetre is a thousand microradians.
	MillimetrePerMetre Slope = 1e-3
	// MillimetrePer300 is one millimetre over 300 mm.
	MillimetrePer300 Slope = 1e-3 / 0.300
	// InchPerFoot is one inch over twelve inches.
	InchPerFoot Slope = 1.0 / 12
)

// SlopeFromRise returns the slope of a rise over a span.
//
//	slope = rise / span
//
// The span must be finite and above zero, the rise finite.
func SlopeFromRise(rise, span unit.Length) (Slope, error) {
	if err := finite("rise", float64(rise)); err != nil {
		return 0, err
	}
	if err := positiveLength("span", span); err != nil {
		return 0, err
	}
	s := Slope(float64(rise) / float64(span))
	return s, finite("slope of that rise over that span", float64(s))
}

// SlopeFromAngle returns the slope of a surface at the angle to level:
//
//	slope = tan(angle)
//
// The angle must lie between -90 and +90 degrees, ends excluded.
func SlopeFromAngle(angle unit.Angle) (Slope, error) {
	if err := finite("angle", float64(angle)); err != nil {
		return 0, err
	}
	if math.Abs(float64(angle)) >= math.Pi/2 {
		return 0, fmt.Errorf("squaring: angle is %s, must lie between -90 and +90 deg", degrees(angle))
	}
	return Slope(math.Tan(float64(angle))), nil
}

// Rise returns how far the surface rises over the span; a negative span gives
// the rise the other way.
func (s Slope) Rise(span unit.Length) unit.Length {
	return unit.Length(float64(s) * float64(span))
}

// PerFoot returns the rise over one foot.
func (s Slope) PerFoot() unit.Length { return s.Rise(Foot) }

// Per300 returns the rise over 300 mm, the span of most published tolerances.
func (s Slope) Per300() unit.Length { return s.Rise(300 * unit.Milli * unit.Metre) }

// PerMetre returns the rise over one metre.
func (s Slope) PerMetre() unit.Length { return s.Rise(1 * unit.Metre) }

// Angle returns the exact angle to level, atan(slope).
func (s Slope) Angle() unit.Angle { return unit.Angle(math.Atan(float64(s))) }

// LinearAngle returns the angle as the shop reckons it, equal to the slope in
// radians. It differs from [Slope.Angle] by slope^3/3: 0.00007 arc second at
// one millimetre per metre, 0.37 arc second at one degree.
func (s Slope) LinearAngle() unit.Angle { return unit.Angle(s) }

// Arcseconds returns the number of arc seconds of [Slope.LinearAngle].
func (s Slope) Arcseconds() float64 { return float64(s.LinearAngle() / Arcsecond) }

// Microradians returns the number of microradians (um per metre).
func (s Slope) Microradians() float64 { return float64(s / Microradian) }

// String returns the slope in microradians, for messages and tests.
func (s Slope) String() string { return fmt.Sprintf("%.4g urad", s.Microradians()) }

// MeasuredSlope is a slope with its standard uncertainty.
type MeasuredSlope struct {
	// Slope is the best estimate.
	Slope Slope
	// Uncertainty is the standard uncertainty (GUM) of Slope, never negative.
	Uncertainty Slope
}

// MeasureSlope returns the slope of a rise over a span with the uncertainty
// that both bring:
//
//	u(slope)^2 = (u(rise)/span)^2 + (slope u(span)/span)^2
//
// (JCGM 100:2008, 5.1.2). Rise and span are taken as independent. The span
// must be above zero and the uncertainties not negative.
func MeasureSlope(rise, riseU, span, spanU unit.Length) (MeasuredSlope, error) {
	s, err := SlopeFromRise(rise, span)
	if err != nil {
		return MeasuredSlope{}, err
	}
	if err := notNegative("uncertainty of the rise", riseU); err != nil {
		return MeasuredSlope{}, err
	}
	if err := notNegative("uncertainty of the span", spanU); err != nil {
		return MeasuredSlope{}, err
	}
	u := math.Hypot(float64(riseU)/float64(span), float64(s)*float64(spanU)/float64(span))
	return MeasuredSlope{Slope: s, Uncertainty: Slope(u)}, nil
}

// Gradient is the slope of a plane in both directions of the machine.
type Gradient struct {
	// X is dz/dx, positive when the right is high.
	X Slope
	// Y is dz/dy, positive when the back (the column side) is high.
	Y Slope
}

// GradientToward returns the gradient of a plane that climbs by the steepest
// slope toward the azimuth (0 = right, anticlockwise from above).
func GradientToward(azimuth unit.Angle, steepest Slope) Gradient {
	sin, cos := math.Sincos(float64(azimuth))
	return Gradient{X: steepest * Slope(cos), Y: steepest * Slope(sin)}
}

// Steepest returns the slope in the direction of steepest climb, never
// negative.
func (g Gradient) Steepest() Slope { return Slope(math.Hypot(float64(g.X), float64(g.Y))) }

// Azimuth returns the direction of steepest climb, from 0 (right) up to a full
// turn, anticlockwise from above; zero for a level plane.
func (g Gradient) Azimuth() unit.Angle {
	a := math.Atan2(float64(g.Y), float64(g.X))
	if a < 0 {
		a += 2 * math.Pi
	}
	return unit.Angle(a)
}

// Along returns the slope met going toward the azimuth.
func (g Gradient) Along(azimuth unit.Angle) Slope {
	sin, cos := math.Sincos(float64(azimuth))
	return g.X*Slope(cos) + g.Y*Slope(sin)
}

// Height returns the height of the plane at (x, y) above its height at the
// origin.
func (g Gradient) Height(x, y unit.Length) unit.Length { return g.X.Rise(x) + g.Y.Rise(y) }

// Plus returns g + h.
func (g Gradient) Plus(h Gradient) Gradient { return Gradient{X: g.X + h.X, Y: g.Y + h.Y} }

// Minus returns g - h.
func (g Gradient) Minus(h Gradient) Gradient { return Gradient{X: g.X - h.X, Y: g.Y - h.Y} }
