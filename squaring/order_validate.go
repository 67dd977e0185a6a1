package squaring

import "math"

// Validation is the law of propagation set against the trials of the same order.
type Validation struct {
	// Low and High are how far the ends of the law's 95 % interval lie from
	// those of the trials.
	Low, High float64
	// Tolerance is how far they may lie: half a unit in the first significant
	// digit of the standard uncertainty.
	Tolerance float64
	// Agree says that both ends lie within it. When it is false believe the
	// trials.
	Agree bool
}

// Against sets the law's interval, mean and standard uncertainty with the normal
// factor, against that of the trials (JCGM 101:2008, clause 8, from memory). With
// fewer than some 10 000 trials the trials' own ends may be in doubt by as much
// as the tolerance.
func (f Forecast) Against(t Trials) Validation {
	half := twoSided(0.05, math.Inf(1)) * f.Uncertainty
	v := Validation{Low: math.Abs(f.Mean - half - t.Low), High: math.Abs(f.Mean + half - t.High)}
	if f.Uncertainty > 0 {
		v.Tolerance = math.Pow(10, math.Floor(math.Log10(f.Uncertainty))) / 2
	}
	// A last bit of rounding is no disagreement.
	slack := 1e-12 * (math.Abs(f.Mean) + half)
	v.Agree = v.Low <= v.Tolerance+slack && v.High <= v.Tolerance+slack
	return v
}
