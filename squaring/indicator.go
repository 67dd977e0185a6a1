package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Indicator is a dial indicator or a lever (test) indicator. Its zero value is
// an ideal dial that shows every length exactly.
type Indicator struct {
	// Division is the value of one division of the dial, zero or more.
	Division unit.Length
	// ReadTo is the part of a division to which it is read: 0.5 for half a
	// division, up to 1. Zero means half a division.
	ReadTo float64
	// Turn is the length shown by one whole turn of the hand. Zero means that
	// it is not known, or that the hand does not go round.
	Turn unit.Length
	// Gain is the length shown over the length moved, from a run over gauge
	// blocks ([CalibrateIndicator]). Zero means exactly one.
	Gain float64
	// GainU is the standard uncertainty of Gain.
	GainU float64
	// Hysteresis is what the dial shows falling minus what it shows rising at
	// the same height.
	Hysteresis unit.Length
	// StylusAngle is the angle between a lever's stylus and the surface, zero
	// for a plunger square to the surface. A slanted lever shows too much: the
	// true move is what it shows times the cosine.
	StylusAngle unit.Angle
	// StylusAngleU is the standard uncertainty of StylusAngle.
	StylusAngleU unit.Angle
}

// maxStylusAngle is the most slant for which the cosine is trusted: beyond
// it a few degrees change everything, and the stylus must be set again.
const maxStylusAngle = 60 * Degree

// validate returns what is wrong with the indicator, or nil.
func (d Indicator) validate() error {
	for _, check := range []error{
		notNegative("division", d.Division), notNegative("one turn of the dial", d.Turn),
		notNegativeNumber("indicator gain", d.Gain), notNegativeNumber("uncertainty of the indicator gain", d.GainU),
		finite("hysteresis", float64(d.Hysteresis)), finite("stylus angle", float64(d.StylusAngle)),
		notNegativeNumber("uncertainty of the stylus angle", float64(d.StylusAngleU)),
	} {
		if check != nil {
			return check
		}
	}
	if !(d.ReadTo >= 0 && d.ReadTo <= 1) {
		return fmt.Errorf("squaring: indicator read to %g of a division, must lie between 0 and 1", d.ReadTo)
	}
	if d.Gain != 0 && (d.Gain < 0.5 || d.Gain > 2) {
		return fmt.Errorf("squaring: indicator gain is %g, must lie between 0.5 and 2 (shown over moved)", d.Gain)
	}
	if d.StylusAngle < -maxStylusAngle || d.StylusAngle > maxStylusAngle {
		return fmt.Errorf("squaring: stylus angle is %s, must lie within %s of the surface; set the stylus again",
			degrees(d.StylusAngle), degrees(maxStylusAngle))
	}
	return nil
}

// Resolution returns the step to which the dial is read.
func (d Indicator) Resolution() unit.Length {
	readTo := d.ReadTo
	if readTo == 0 {
		readTo = 0.5
	}
	return d.Division * unit.Length(readTo)
}

// RoundingU returns the standard uncertainty that rounding to [Indicator.Resolution]
// leaves in one reading: the step over root twelve, the standard deviation of
// an even spread one step wide (JCGM 100:2008, 4.3.7 and F.2.2.1).
func (d Indicator) RoundingU() unit.Length { return rounding(d.Resolution()) }

// rounding returns a step over root twelve.
func rounding(step unit.Length) unit.Length { return step / unit.Length(math.Sqrt(12)) }

// Factor returns the true move over the move shown, and its standard
// uncertainty:
//
//	factor = cos(stylus angle) / gain
//	(u/factor)^2 = (u(gain)/gain)^2 + (tan(stylus angle) u(stylus angle))^2
//
// To first order: at a stylus angle of zero its uncertainty does not show.
func (d Indicator) Factor() (factor, uncertainty float64) {
	gain := d.Gain
	if gain == 0 {
		gain = 1
	}
	sin, cos := math.Sincos(float64(d.StylusAngle))
	factor = cos / gain
	return factor, math.Hypot(factor*d.GainU/gain, sin/gain*float64(d.StylusAngleU))
}

// True returns the move behind the move that the dial shows.
func (d Indicator) True(shown unit.Length) unit.Length {
	factor, _ := d.Factor()
	return shown * unit.Length(factor)
}

// Shown returns what the dial shows for a move.
func (d Indicator) Shown(move unit.Length) unit.Length {
	factor, _ := d.Factor()
	return move / unit.Length(factor)
}

// Height is a move measured by an indicator, with its standard uncertainty.
type Height struct {
	// Value is the move, corrected for gain and stylus angle, positive when the
	// stem was pushed in.
	Value unit.Length
	// Uncertainty is the combined standard uncertainty of Value.
	Uncertainty unit.Length
	// Repeats is the standard deviation of the mean of the repeats, and zero
	// for a single reading.
	Repeats unit.Length
	// Rounding is the standard uncertainty from reading the dial in steps.
	Rounding unit.Length
	// Scale is the standard uncertainty from gain and stylus angle.
	Scale unit.Length
	// DegreesOfFreedom are the effective degrees of freedom of Uncertainty,
	// +Inf when it rests on the dial's step alone.
	DegreesOfFreedom float64
}

// Measure returns the move shown by one or more repeated readings, each taken
// from the dial's zero.
//
// The repeats already hold the rounding when they scatter by more than a step,
// and say nothing of it when they all fall on the same mark. So of the standard
// deviation of their mean (Type A) and the rounding of one reading (Type B) the
// larger is taken, not both. The readings must be finite.
func (d Indicator) Measure(readings ...unit.Length) (Height, error) {
	if err := d.validate(); err != nil {
		return Height{}, err
	}
	if len(readings) == 0 {
		return Height{}, fmt.Errorf("squaring: no readings of the indicator")
	}
	mean, deviation, err := meanAndDeviation("reading", readings)
	if err != nil {
		return Height{}, err
	}
	n := float64(len(readings))
	factor, factorU := d.Factor()
	h := Height{
		Value:    unit.Length(factor * mean),
		Repeats:  unit.Length(factor * deviation / math.Sqrt(n)),
		Rounding: unit.Length(factor) * d.RoundingU(),
		Scale:    unit.Length(factorU * math.Abs(mean)),
	}
	reading := Share{Source: "rounding", Uncertainty: float64(h.Rounding)}
	if h.Repeats > h.Rounding {
		reading = Share{Source: "repeats", Uncertainty: float64(h.Repeats), DegreesOfFreedom: n - 1}
	}
	budget := Budget{reading, {Source: "gain and stylus angle", Uncertainty: float64(h.Scale)}}
	h.Uncertainty, h.DegreesOfFreedom = unit.Length(budget.Combined()), budget.DegreesOfFreedom()
	return h, nil
}

// meanAndDeviation returns the mean of the lengths and their standard deviation
// (n - 1 in the divisor; zero for one length). A value that is not finite is
// named by its number.
func meanAndDeviation(what string, lengths []unit.Length) (mean, deviation float64, err error) {
	for i, x := range lengths {
		if err := finite(fmt.Sprintf("%s %d", what, i+1), float64(x)); err != nil {
			return 0, 0, err
		}
		// A running mean and sum of squares: no cancellation (B. P. Welford,
		// Technometrics 4 (1962)).
		step := float64(x) - mean
		mean += step / float64(i+1)
		deviation += step * (float64(x) - mean)
	}
	if len(lengths) < 2 {
		return mean, 0, nil
	}
	return mean, math.Sqrt(deviation / float64(len(lengths)-1)), nil
}
