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
	if err := beam.check(); err != nil {
		return nil, err
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

// check returns what is wrong with a beam.
func (b Beam) check() error {
	for _, x := range []float64{float64(b.Length), float64(b.Width), float64(b.Height), b.Stiffness, b.Density} {
		if !(x > 0) || !finite(x) {
			return fmt.Errorf("wear: a beam of %.6g by %.6g by %.6g mm, %g Pa and %g kg/m^3; all must be above zero",
				float64(b.Length)*1e3, float64(b.Width)*1e3, float64(b.Height)*1e3, b.Stiffness, b.Density)
		}
	}
	return nil
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

// Overhang returns how far the tip of a beam droops, and its slope there, where
// it reaches out from a face that holds it level, under its own weight and a load
// at the tip: a table run out beyond its saddle,
//
//	droop = P r^3/(3 E I) + w r^4/(8 E I),  slope = P r^2/(2 E I) + w r^3/(6 E I).
//
// Only the beam's section counts, not its length. The face that holds is taken as
// rigid: a real saddle and its ways give too.
//
// It returns an error for a section that is not above zero, a negative reach or a
// load that is not finite.
func (b Beam) Overhang(reach unit.Length, load unit.Force) (droop unit.Length, slope Slope, err error) {
	b.Length = 1 * unit.Metre
	if err := b.check(); err != nil {
		return 0, 0, err
	}
	if !(reach >= 0) || !finite(float64(reach)) || !finite(float64(load)) {
		return 0, 0, fmt.Errorf("wear: overhang of %.6g mm under %g N; the reach must be zero or more and both finite", float64(reach)*1e3, float64(load))
	}
	r, p := float64(reach), float64(load)
	section := float64(b.Width * b.Height)
	stiff := b.Stiffness * section * float64(b.Height*b.Height) / 12
	w := b.Density * gravity * section
	return unit.Length((p/3 + w*r/8) * r * r * r / stiff), Slope((p/2 + w*r/6) * r * r / stiff), nil
}
