package plating

import (
	"fmt"
	"math"
)

// EfficiencyPoint is a cathode efficiency at one current density.
type EfficiencyPoint struct {
	CurrentDensity CurrentDensity
	// Efficiency is a fraction, 0 or more and at most 1.
	Efficiency float64
}

// EfficiencyCurve is the cathode efficiency of a bath against current density:
// straight lines between its points, level beyond the first and the last. Its
// points must have strictly increasing current densities.
type EfficiencyCurve []EfficiencyPoint

// ConstantEfficiency returns the curve that is the same at every current
// density.
func ConstantEfficiency(efficiency float64) EfficiencyCurve {
	return EfficiencyCurve{{Efficiency: efficiency}}
}

// Validate returns what is wrong with the curve: no points, a current density
// that is negative, not finite or not above the one before it, or an efficiency
// outside 0 to 1.
func (c EfficiencyCurve) Validate() error {
	if len(c) == 0 {
		return fmt.Errorf("plating: efficiency curve has no points")
	}
	for i, p := range c {
		if err := notNegative(fmt.Sprintf("current density of efficiency point %d", i+1), float64(p.CurrentDensity), inAPerDM2); err != nil {
			return err
		}
		if !(p.Efficiency >= 0 && p.Efficiency <= 1) {
			return fmt.Errorf("plating: efficiency of point %d is %.4g, must be 0 to 1", i+1, p.Efficiency)
		}
		if i > 0 && p.CurrentDensity <= c[i-1].CurrentDensity {
			return fmt.Errorf("plating: current density of efficiency point %d is %s, must be above that of the point before, %s",
				i+1, inAPerDM2.of(float64(p.CurrentDensity)), inAPerDM2.of(float64(c[i-1].CurrentDensity)))
		}
	}
	return nil
}

// At returns the efficiency at a current density. It returns NaN for an empty
// curve or a current density that is not a number.
func (c EfficiencyCurve) At(j CurrentDensity) float64 {
	if len(c) == 0 || math.IsNaN(float64(j)) {
		return math.NaN()
	}
	if j <= c[0].CurrentDensity {
		return c[0].Efficiency
	}
	for i := 1; i < len(c); i++ {
		a, b := c[i-1], c[i]
		if j <= b.CurrentDensity {
			s := float64(j-a.CurrentDensity) / float64(b.CurrentDensity-a.CurrentDensity)
			return a.Efficiency + s*(b.Efficiency-a.Efficiency)
		}
	}
	return c[len(c)-1].Efficiency
}

// metalShare returns the mean of efficiency times current density, in A/m2,
// while the current density runs evenly from one value to another. The product
// is a parabola between the curve's points, so Simpson's rule piece by piece is
// exact.
func (c EfficiencyCurve) metalShare(from, to CurrentDensity) float64 {
	lo, hi := min(from, to), max(from, to)
	if hi-lo <= 1e-12*hi {
		return float64(hi) * c.At(hi)
	}
	simpson := func(a, b CurrentDensity) float64 {
		mid := (a + b) / 2
		sum := float64(a)*c.At(a) + 4*float64(mid)*c.At(mid) + float64(b)*c.At(b)
		return sum / 6 * float64(b-a)
	}
	total, at := 0.0, lo
	for _, p := range c {
		if p.CurrentDensity > at && p.CurrentDensity < hi {
			total += simpson(at, p.CurrentDensity)
			at = p.CurrentDensity
		}
	}
	total += simpson(at, hi)
	return total / float64(hi-lo)
}
