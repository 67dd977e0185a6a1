package squaring

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Angles in the shop's units; multiply a number by one of these.
const (
	// Degree is 1/360 of a turn.
	Degree unit.Angle = math.Pi / 180
	// Arcminute is 1/60 of a degree.
	Arcminute = Degree / 60
	// Arcsecond is 1/60 of an arc minute, 4.848 urad.
	Arcsecond = Arcminute / 60
)

// Lengths in the shop's units; multiply a number by one of these.
const (
	// Inch is 25.4 mm exactly (International Yard and Pound Agreement, 1959).
	Inch unit.Length = 0.0254
	// Thou is a thousandth of an inch, 25.4 um.
	Thou = Inch / 1000
	// Foot is 12 inches, 304.8 mm.
	Foot = 12 * Inch
)

// errNotFinite says that a measured or typed value is NaN or infinite.
var errNotFinite = errors.New("is not a finite number")

// finite returns an error naming the value unless x is finite.
func finite(what string, x float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("squaring: %s %w", what, errNotFinite)
	}
	return nil
}

// positiveLength returns an error naming the length unless it is finite and
// above zero.
func positiveLength(what string, length unit.Length) error {
	if err := finite(what, float64(length)); err != nil {
		return err
	}
	if length <= 0 {
		return fmt.Errorf("squaring: %s is %s, must be above zero", what, millimetres(length))
	}
	return nil
}

// notNegative returns an error naming the length unless it is finite and zero
// or more.
func notNegative(what string, length unit.Length) error {
	if err := finite(what, float64(length)); err != nil {
		return err
	}
	if length < 0 {
		return fmt.Errorf("squaring: %s is %s, must not be negative", what, millimetres(length))
	}
	return nil
}

// notNegativeNumber returns an error naming the number unless it is finite and
// zero or more.
func notNegativeNumber(what string, x float64) error {
	if err := finite(what, x); err != nil {
		return err
	}
	if x < 0 {
		return fmt.Errorf("squaring: %s is %g, must not be negative", what, x)
	}
	return nil
}

// millimetres writes a length for a message.
func millimetres(length unit.Length) string {
	return fmt.Sprintf("%.6g mm", float64(length)*1e3)
}

// degrees writes an angle for a message.
func degrees(angle unit.Angle) string {
	return fmt.Sprintf("%.6g deg", float64(angle/Degree))
}
