package wear

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Beam is a bar, a straightedge or a table of one section from end to end.
type Beam struct {
	// Length, Width and Height are its outer sizes; the section is a full
	// rectangle.
	Length, Width, Height unit.Length
	// Stiffness is Young's modulus in Pa: about 110e9 for grey iron, 210e9 for
	// steel (common practice).
	Stiffness float64
	// Density is in kg/m^3: about 7200 for grey iron, 7850 for steel (common
	// practice).
	Density float64
}

// gravity is the standard acceleration of free fall, exact by convention (third
// General Conference on Weights and Measures, 1901), in m/s^2.
const gravity = 9.80665

// Airy and Bessel are the distances of two supports from the ends, as shares of
// the length: at Airy's, (1 - 1/sqrt(3))/2, the end faces stay upright; at
// Bessel's the length of the neutral line changes least (rounded to eight
// figures).
const (
	Airy   = 0.21132486540518713
	Bessel = 0.22030994
)

// BeamSag returns how far the beam hangs below the line through its two supports
// at each place, counted from its left end, under its own weight: positive down.
// The supports stand at equal distances from the ends.
//
// The deflection is that of a slender beam (Euler and Bernoulli), without shear:
// for a height below a fifth of the length.
//
// It returns an error for a size, stiffness or density that is not above zero,
// supports beyond the middle, or a place off the beam.
func BeamSag(beam Beam, support unit.Length, places []unit.Length) ([]unit.Length, error) {
	for _, x := range []float64{float64(beam.Length), float64(beam.Width), float64(beam.Height), beam.Stiffness, beam.Density} {
		if !(x > 0) || !finite(x) {
			return nil, fmt.Errorf("wear: a beam of %.6g by %.6g by %.6g mm, %g Pa and %g kg/m^3; all must be above zero",
				float64(beam.Length)*1e3, float64(beam.Width)*1e3, float64(beam.Height)*1e3, beam.Stiffness, beam.Density)
		}
	}
	if !(support >= 0) || !(support < beam.Length/2) {
		return nil, fmt.Errorf("wear: supports %.6g mm from the ends of a beam of %.6g mm; it must be 0 or more and less than half", float64(support)*1e3, float64(beam.Length)*1e3)
	}
	// w/(EI) of a rectangle: density g b h / (E b h^3/12).
	size := 12 * beam.Density * gravity / (beam.Stiffness * float64(beam.Height*beam.Height))
	sag := make([]unit.Length, len(places))
	for i, x := range places {
		if !(x >= 0 && x <= beam.Length) {
			return nil, fmt.Errorf("wear: place %d at %.6g mm is off the beam of %.6g mm", i+1, float64(x)*1e3, float64(beam.Length)*1e3)
		}
		sag[i] = unit.Length(size * sagShape(float64(beam.Length), float64(support), float64(x)))
	}
	return sag, nil
}

// sagShape returns E I/w times the deflection at x of a beam of length l on
// supports at a from either end. The curvature is the bending moment,
// -x^2/2 outside and l(x-a)/2 - x^2/2 between the supports, integrated twice
// with the deflection zero at the supports.
func sagShape(l, a, x float64) float64 {
	if x > l/2 {
		x = l - x
	}
	// y'' = x^2/2 for x < a; y'' = x^2/2 - l (x-a)/2 beyond; symmetric about l/2.
	slopeAtA := -(between(l, a, l/2) - between(l, a, a)) // y'(a), from y'(l/2) = 0
	if x >= a {
		t := x - a
		// y = y'(a) t + the double integral of y'' from a.
		return slopeAtA*t + (math.Pow(x, 4)-math.Pow(a, 4))/24 - a*a*a*t/6 - l*t*t*t/12
	}
	t := a - x
	return -slopeAtA*t + (math.Pow(x, 4)-math.Pow(a, 4))/24 + a*a*a*t/6
}

// between returns the first integral of y” between the supports.
func between(l, a, x float64) float64 { return x*x*x/6 - l*(x-a)*(x-a)/4 }
