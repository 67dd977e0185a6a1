package plating

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// The included angles of common thread forms in degrees.
const (
	ISOThread         = 60.0 // ISO metric and unified
	WhitworthThread   = 55.0
	TrapezoidalThread = 30.0 // ISO metric trapezoidal
	AcmeThread        = 29.0
)

// DiameterGrowth returns how much a plated pin grows on its diameter: twice the
// thickness. A bore shrinks by as much.
func DiameterGrowth(thickness unit.Length) unit.Length { return 2 * thickness }

// PitchDiameterGrowth returns how much an external thread grows on its pitch
// diameter when each flank takes a thickness; an internal thread shrinks by as
// much:
//
//	growth = 2 t / sin(angle/2)
//
// so 4 t at 60 degrees (ASME B1.1-2019, section 7, as described in a gauge
// trade article, read; exact geometry). The included angle of the thread is in
// degrees, above 0 and below 180; the thickness is that on the flanks, which is
// often not the mean over the part.
func PitchDiameterGrowth(thickness unit.Length, degrees float64) (unit.Length, error) {
	factor, err := PitchDiameterFactor(degrees)
	if err != nil {
		return 0, err
	}
	if err := notNegative("thickness on the flank", float64(thickness), inMicrometre); err != nil {
		return 0, err
	}
	return thickness * unit.Length(factor), nil
}

// PitchDiameterFactor returns the growth of the pitch diameter over the
// thickness on a flank, for an included angle in degrees above 0 and below 180.
func PitchDiameterFactor(degrees float64) (float64, error) {
	if !(degrees > 0 && degrees < 180) {
		return 0, fmt.Errorf("plating: thread angle is %.4g degrees, must be above 0 and below 180", degrees)
	}
	return 2 / math.Sin(degrees/2*math.Pi/180), nil
}

// FlankThicknessLimit returns the thickness on the flanks that uses up an
// allowance on the pitch diameter. The allowance is zero or more.
func FlankThicknessLimit(allowance unit.Length, degrees float64) (unit.Length, error) {
	factor, err := PitchDiameterFactor(degrees)
	if err != nil {
		return 0, err
	}
	if err := notNegative("allowance", float64(allowance), inMicrometre); err != nil {
		return 0, err
	}
	return allowance / unit.Length(factor), nil
}
