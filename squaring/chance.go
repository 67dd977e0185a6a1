package squaring

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// below returns the chance that Student's t lies below x; the normal
// distribution's when the degrees of freedom are infinite.
func below(x, degreesOfFreedom float64) float64 {
	if math.IsInf(degreesOfFreedom, 1) {
		return distuv.UnitNormal.CDF(x)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degreesOfFreedom}.CDF(x)
}

// twoSidedChance returns the chance that Student's t lies as far from zero as x,
// or farther.
func twoSidedChance(x, degreesOfFreedom float64) float64 {
	return 2 * below(-math.Abs(x), degreesOfFreedom)
}

// varianceChance returns the two-sided chance of a ratio of two variances with
// the given degrees of freedom, were they alike.
func varianceChance(ratio, first, second float64) float64 {
	under := distuv.F{D1: first, D2: second}.CDF(ratio)
	return 2 * math.Min(under, 1-under)
}

// chiSquaredQuantile returns what chi-squared stays below with the given
// probability.
func chiSquaredQuantile(probability, degreesOfFreedom float64) float64 {
	return distuv.ChiSquared{K: degreesOfFreedom}.Quantile(probability)
}
