package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Share is one source's part of a standard uncertainty, in the unit of the
// result (sensitivity times the source's own standard uncertainty).
type Share struct {
	// Source says in words where it comes from.
	Source string
	// Uncertainty is the standard uncertainty it alone would give the result,
	// in the result's SI unit, never negative.
	Uncertainty float64
	// DegreesOfFreedom says how well Uncertainty itself is known; zero means
	// that it is taken as known (JCGM 100:2008, G.4.3).
	DegreesOfFreedom float64
}

// Budget is the list of the independent sources of a result's uncertainty.
type Budget []Share

// Combined returns the combined standard uncertainty, the root of the sum of
// squares (JCGM 100:2008, 5.1.2).
func (b Budget) Combined() float64 {
	sum := 0.0
	for _, s := range b {
		sum = math.Hypot(sum, s.Uncertainty)
	}
	return sum
}

// DegreesOfFreedom returns the effective degrees of freedom of the combined
// uncertainty by the Welch-Satterthwaite formula (JCGM 100:2008, G.4.1):
//
//	nu = u^4 / sum(u_i^4 / nu_i)
//
// and +Inf when every source is taken as known.
func (b Budget) DegreesOfFreedom() float64 {
	u := b.Combined()
	if u == 0 {
		return math.Inf(1)
	}
	sum := 0.0
	for _, s := range b {
		if s.DegreesOfFreedom > 0 {
			sum += math.Pow(s.Uncertainty/u, 4) / s.DegreesOfFreedom
		}
	}
	return 1 / sum
}

// CoverageFactor returns the factor by which a standard uncertainty is
// multiplied so that the interval on both sides of the result holds the value
// with the given probability: the quantile of Student's t, or of the normal
// distribution when the degrees of freedom are infinite (JCGM 100:2008, G.3).
//
// The probability must lie between 0 and 1, ends excluded, and the degrees of
// freedom be above zero.
func CoverageFactor(probability, degreesOfFreedom float64) (float64, error) {
	if !(probability > 0 && probability < 1) {
		return 0, fmt.Errorf("squaring: coverage probability is %g, must lie between 0 and 1", probability)
	}
	if !(degreesOfFreedom > 0) {
		return 0, fmt.Errorf("squaring: degrees of freedom are %g, must be above zero", degreesOfFreedom)
	}
	factor := twoSided(1-probability, degreesOfFreedom)
	if math.IsInf(factor, 0) {
		return 0, fmt.Errorf("squaring: with %g degrees of freedom no factor covers %g", degreesOfFreedom, probability)
	}
	return factor, nil
}

// twoSided returns the t beyond which, on both sides together, the given
// probability lies.
func twoSided(outside, degreesOfFreedom float64) float64 {
	// The tail is kept small and positive for accuracy.
	if math.IsInf(degreesOfFreedom, 1) || degreesOfFreedom > 1e6 {
		return -distuv.UnitNormal.Quantile(outside / 2)
	}
	return -distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degreesOfFreedom}.Quantile(outside / 2)
}
