package wear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sort"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/unit"
)

// Trials is the distribution of a result found by drawing the readings many
// times from their errors (JCGM 101:2008, clause 7).
type Trials struct {
	// Mean and U are the mean and the standard deviation of the draws.
	Mean, U unit.Length
	// Low and High bound the middle 95 % of the draws.
	Low, High unit.Length
	// Bias is Mean less the value computed from the readings themselves. A
	// range always grows when errors are added to a profile, so the value from
	// the readings is itself too large by about as much.
	Bias unit.Length
}

// StraightnessTrials draws the heights of the profile from the normal
// distribution with its covariance, the given number of times, and returns the
// distribution of the straightness. Equal seeds give equal answers.
//
// It returns an error for a profile without covariance, a number of trials
// outside 100 to 1,000,000, or a profile that [StraightnessOf] would refuse.
func (p Profile) StraightnessTrials(reference Reference, trials int, seed uint64) (Trials, error) {
	if err := p.check(); err != nil {
		return Trials{}, err
	}
	if p.Covariance == nil {
		return Trials{}, fmt.Errorf("wear: the profile has no covariance to draw from")
	}
	if trials < 100 || trials > 1_000_000 {
		return Trials{}, fmt.Errorf("wear: %d trials; the number must be from 100 to 1,000,000", trials)
	}
	measured, err := StraightnessOf(p.Points, reference)
	if err != nil {
		return Trials{}, err
	}
	root, err := symmetricRoot(p.Covariance)
	if err != nil {
		return Trials{}, err
	}
	random := rand.New(rand.NewPCG(seed, 0x57656172))
	n := len(p.Points)
	normal, shift := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	drawn, values := make([]Point, n), make([]float64, trials)
	for t := range values {
		for i := 0; i < n; i++ {
			normal.SetVec(i, random.NormFloat64())
		}
		shift.MulVec(root, normal)
		for i, point := range p.Points {
			drawn[i] = Point{point.Position, point.Height + unit.Length(shift.AtVec(i))}
		}
		s, err := StraightnessOf(drawn, reference)
		if err != nil {
			return Trials{}, err
		}
		values[t] = float64(s.Value)
	}
	return summarise(values, measured.Value), nil
}

// summarise returns the distribution of drawn values; it sorts them.
func summarise(values []float64, measured unit.Length) Trials {
	mean, sd := stat.MeanStdDev(values, nil)
	sort.Float64s(values)
	quantile := func(p float64) unit.Length {
		return unit.Length(stat.Quantile(p, stat.Empirical, values, nil))
	}
	return Trials{Mean: unit.Length(mean), U: unit.Length(sd), Low: quantile(0.025), High: quantile(0.975),
		Bias: unit.Length(mean) - measured}
}

// symmetricRoot returns the symmetric matrix r with r*r = c for a covariance
// that may be singular, as that of heights above a first point always is. The
// symmetric root is the one that does not depend on how the eigenvectors were
// chosen, so that every processor draws the same profiles.
func symmetricRoot(c *mat.SymDense) (*mat.Dense, error) {
	var eigen mat.EigenSym
	if !eigen.Factorize(c, true) {
		return nil, fmt.Errorf("wear: the covariance of the profile cannot be factorized")
	}
	values := eigen.Values(nil)
	var vectors mat.Dense
	eigen.VectorsTo(&vectors)
	largest := values[len(values)-1]
	for _, v := range values {
		if !(v >= -1e-9*math.Abs(largest)) {
			return nil, fmt.Errorf("wear: the covariance of the profile has a negative variance %g m^2", v)
		}
	}
	var scaled, root mat.Dense
	scaled.Apply(func(_, j int, v float64) float64 { return v * math.Sqrt(math.Max(values[j], 0)) }, &vectors)
	root.Mul(&scaled, vectors.T())
	return &root, nil
}
