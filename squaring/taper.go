package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// HalfAngleFromTaper returns the angle of a cone's side to its axis from its
// taper: the change of diameter per length along the axis, so 0.6024 in per
// foot is 0.6024*InchPerFoot.
//
//	half angle = atan(taper / 2)
//
// The taper must be finite.
func HalfAngleFromTaper(taper Slope) (unit.Angle, error) {
	if err := finite("taper", float64(taper)); err != nil {
		return 0, err
	}
	return unit.Angle(math.Atan(float64(taper) / 2)), nil
}

// TaperFromHalfAngle returns the change of diameter per length along the axis
// of a cone whose side stands at the angle to its axis:
//
//	taper = 2 tan(half angle)
//
// The angle must lie between -90 and +90 degrees, ends excluded.
func TaperFromHalfAngle(half unit.Angle) (Slope, error) {
	s, err := SlopeFromAngle(half)
	return 2 * s, err
}

// TaperFromDiameters returns the taper between two diameters the length apart
// along the axis, positive when large exceeds small. The length must be above
// zero and the diameters finite.
func TaperFromDiameters(large, small, length unit.Length) (Slope, error) {
	return SlopeFromRise(large-small, length)
}

// SineBar is a bar with two equal rollers a known distance apart.
type SineBar struct {
	// Length is the distance between the rollers' axes, above zero.
	Length unit.Length
	// LengthU is the standard uncertainty of Length.
	LengthU unit.Length
}

// Stack returns the height of blocks under one roller that sets the angle:
//
//	height = length sin(angle)
//
// The angle must lie between -90 and +90 degrees.
func (b SineBar) Stack(angle unit.Angle) (unit.Length, error) {
	if err := positiveLength("sine bar length", b.Length); err != nil {
		return 0, err
	}
	if err := finite("angle", float64(angle)); err != nil {
		return 0, err
	}
	if math.Abs(float64(angle)) > math.Pi/2 {
		return 0, fmt.Errorf("squaring: angle is %s, must lie between -90 and +90 deg", degrees(angle))
	}
	return unit.Length(float64(b.Length) * math.Sin(float64(angle))), nil
}

// Angle returns the angle that a stack of blocks sets, and its standard
// uncertainty:
//
//	angle = asin(height / length)
//	u(angle)^2 = tan(angle)^2 ((u(height)/height)^2 + (u(length)/length)^2)
//
// so that a bar is worth little near 90 degrees. At height zero the first term
// is u(height)/length. The stack must be shorter than the bar.
func (b SineBar) Angle(height, heightU unit.Length) (angle, uncertainty unit.Angle, err error) {
	if err := positiveLength("sine bar length", b.Length); err != nil {
		return 0, 0, err
	}
	if err := notNegative("uncertainty of the sine bar length", b.LengthU); err != nil {
		return 0, 0, err
	}
	if err := finite("stack height", float64(height)); err != nil {
		return 0, 0, err
	}
	if err := notNegative("uncertainty of the stack height", heightU); err != nil {
		return 0, 0, err
	}
	sin := float64(height) / float64(b.Length)
	if math.Abs(sin) >= 1 {
		return 0, 0, fmt.Errorf("squaring: stack height is %s, must be shorter than the bar, %s",
			millimetres(height), millimetres(b.Length))
	}
	cos := math.Sqrt(1 - sin*sin)
	length := float64(b.Length)
	u := math.Hypot(float64(heightU)/length, sin*float64(b.LengthU)/length) / cos
	return unit.Angle(math.Asin(sin)), unit.Angle(u), nil
}
