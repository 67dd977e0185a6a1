package squaring

// Which reading looks wrong. Each residual over its own standard deviation is a
// standard normal deviate if the reading is sound. The worst that passes the
// critical value is proposed for removal, the answer is worked out again without
// it by a rank-one step, and so on: a proposal, never done unasked.
//
// Source of the method: W. Baarda, A Testing Procedure for Use in Geodetic
// Networks, 1968 (from memory): data snooping and internal reliability.

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

const (
	// leastRedundancy is the redundancy below which a reading counts as checked
	// by nothing: what is left is rounding.
	leastRedundancy = 1e-6
	// alike is the size of the correlation of two tests above which one error
	// cannot be told from the other.
	alike = 0.95
	// mostSuspects is the most that are named: beyond that the survey, not a
	// reading, is wrong.
	mostSuspects = 20
)

// SurveySuspect is a reading that looks wrong.
type SurveySuspect struct {
	// Reading is its place in [Adjustment.Readings].
	Reading int
	// Test is its residual over that residual's standard deviation, with the
	// suspects before it left out.
	Test float64
	// Error is how wrong it seems, in SI: what the reading says less what the
	// others say. ErrorU is its standard uncertainty.
	Error, ErrorU float64
	// OrElse are the places in Readings of those whose errors would show in
	// the same way: any of them may be the wrong one.
	OrElse []int
	// ChiSquare and Redundancy are those of the adjustment without this
	// reading and the suspects before it.
	ChiSquare  float64
	Redundancy int
}

// Suspects returns the readings that look wrong, in the order in which one
// would leave them out: each is the worst of what is left. Nothing has been left
// out of the adjustment. At most half of the redundancy is spent, and at most twenty
// readings are named.
func (a *Adjustment) Suspects() []SurveySuspect {
	critical := criticalValue(a.options.FalseAlarm)
	x := append([]float64(nil), a.x...)
	known := knowledge{scale: a.known.scale, cov: mat.DenseCopyOf(a.known.cov), free: a.known.free}
	rows := make([][]surveyTerm, len(a.equations))
	for i, e := range a.equations {
		rows[i] = known.weighted(e)
	}
	out := make([]bool, len(rows))
	chi := a.ChiSquare
	var suspects []SurveySuspect
	for spare := a.Redundancy; spare > a.Redundancy/2 && len(suspects) < mostSuspects; {
		worst, test, redundancy := a.worst(rows, out, x, known)
		if worst < 0 || math.Abs(test) <= critical {
			break
		}
		spare--
		chi -= test * test
		residual := test * math.Sqrt(redundancy)
		u := a.equations[worst].u
		suspects = append(suspects, SurveySuspect{Reading: worst, Test: test, Error: residual * u / redundancy,
			ErrorU: u / math.Sqrt(redundancy), OrElse: known.twins(rows, out, worst, redundancy),
			ChiSquare: math.Max(chi, 0), Redundancy: spare})
		out[worst] = true
		known.forget(rows[worst], redundancy, residual, x)
	}
	return suspects
}

// worst returns the reading with the largest test among those not left out, or
// -1 when none can be tested.
func (a *Adjustment) worst(rows [][]surveyTerm, out []bool, x []float64, known knowledge) (worst int, test, redundancy float64) {
	worst = -1
	for i, row := range rows {
		if out[i] {
			continue
		}
		r := 1 - known.quadratic(row)
		if r <= leastRedundancy {
			continue
		}
		t := (a.equations[i].value/a.equations[i].u - dotTerms(row, x)) / math.Sqrt(r)
		if worst < 0 || math.Abs(t) > math.Abs(test) {
			worst, test, redundancy = i, t, r
		}
	}
	return worst, test, redundancy
}

// twins returns the readings whose tests move with that of the given one.
func (k knowledge) twins(rows [][]surveyTerm, out []bool, of int, redundancy float64) []int {
	var twins []int
	for i, row := range rows {
		if i == of || out[i] {
			continue
		}
		r := 1 - k.quadratic(row)
		if r > leastRedundancy && math.Abs(k.bilinear(row, rows[of])) > alike*math.Sqrt(r*redundancy) {
			twins = append(twins, i)
		}
	}
	return twins
}

// forget takes a reading out of the solution x and of the covariance.
func (k knowledge) forget(row []surveyTerm, redundancy, residual float64, x []float64) {
	c := k.covTimes(row)
	for i := range x {
		x[i] -= c[i] * residual / redundancy
		for j := range x {
			k.cov.Set(i, j, k.cov.At(i, j)+c[i]*c[j]/redundancy)
		}
	}
}
