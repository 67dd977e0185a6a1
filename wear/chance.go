package wear

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// normalFrom is the number of degrees of freedom from which Student's law and the
// normal one agree to six figures; the normal one is free of rounding.
const normalFrom = 1e6

// normalBelow returns the chance that a normal variable of mean 0 and standard
// deviation 1 is below z; normalAbove that it is above, without loss far out.
func normalBelow(z float64) float64 { return distuv.UnitNormal.CDF(z) }

func normalAbove(z float64) float64 { return distuv.UnitNormal.Survival(z) }

// normalQuantile returns the z that a normal variable is below with chance p.
func normalQuantile(p float64) float64 { return distuv.UnitNormal.Quantile(p) }

// chanceBelow returns the chance that Student's t with the given degrees of
// freedom, or the normal law where they are infinite, is below z.
func chanceBelow(z, freedom float64) float64 {
	if freedom >= normalFrom {
		return normalBelow(z)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.CDF(z)
}

// twoSided returns the chance that Student's t is farther from zero than t.
func twoSided(t, freedom float64) float64 {
	if freedom >= normalFrom {
		return 2 * normalAbove(math.Abs(t))
	}
	return math.Min(2*distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Survival(math.Abs(t)), 1)
}

// coverageFactor returns the two-sided factor of a chance by Student's t, or by
// the normal law where the freedom is infinite; NaN for a chance outside 0 to 1.
func coverageFactor(chance, freedom float64) float64 {
	if !(chance > 0 && chance < 1) || !(freedom > 0) {
		return math.NaN()
	}
	if freedom >= normalFrom {
		return normalQuantile((1 + chance) / 2)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Quantile((1 + chance) / 2)
}

// chiSquareAbove returns the chance that chi-square with the given degrees of
// freedom is above q.
func chiSquareAbove(q, freedom float64) float64 { return distuv.ChiSquared{K: freedom}.Survival(q) }

// likelihoodDrop returns by how much the log likelihood of one parameter may fall
// short of its greatest value within an interval of the given chance.
func likelihoodDrop(chance float64) float64 { return distuv.ChiSquared{K: 1}.Quantile(chance) / 2 }

// fisherAbove returns the chance of a ratio of variances above f.
func fisherAbove(f, upper, lower float64) float64 {
	if math.IsInf(f, 1) {
		return 0
	}
	return distuv.F{D1: upper, D2: lower}.Survival(f)
}
