package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Tolerance is what a drawing or a standard allows of a value, in the value's SI
// unit. Leave a side infinite when it has no limit.
type Tolerance struct {
	// Low and High are the limits: Low below High.
	Low, High float64
}

// Within returns the tolerance of limits either way of zero.
func Within(limit float64) Tolerance { return Tolerance{Low: -limit, High: limit} }

func (t Tolerance) validate() error {
	if math.IsNaN(t.Low) || math.IsNaN(t.High) || !(t.Low < t.High) || math.IsInf(t.Low, 1) || math.IsInf(t.High, -1) {
		return fmt.Errorf("squaring: tolerance runs from %g to %g, must run upward", t.Low, t.High)
	}
	return nil
}

// Conformance returns the chance that the true value lies within the tolerance,
// for a measured value with standard uncertainty u, taken as normal with nothing
// known beforehand (JCGM 106:2012, 7.3 and 7.4):
//
//	p = Phi((high - value)/u) - Phi((low - value)/u)
//
// The value must be finite and u above zero.
func (t Tolerance) Conformance(value, u float64) (float64, error) {
	if err := t.validate(); err != nil {
		return 0, err
	}
	if err := finite("measured value", value); err != nil {
		return 0, err
	}
	if !(u > 0) || math.IsInf(u, 0) {
		return 0, fmt.Errorf("squaring: standard uncertainty of the measured value is %g, must be above zero", u)
	}
	// Subtract the smaller tails, so that nothing cancels.
	under, over := distuv.UnitNormal.CDF((t.Low-value)/u), distuv.UnitNormal.CDF((value-t.High)/u)
	if (t.Low-value)/u > 0 {
		return distuv.UnitNormal.CDF((value-t.Low)/u) - over, nil
	}
	return math.Max(0, 1-under-over), nil
}

// Accept returns the range of measured values that may be accepted when each
// limit is drawn in by a guard band of factor times u (JCGM 106:2012, 8.3). A
// factor of 2 leaves at most 2.3 % risk at the limit; a negative factor widens.
// It is an error when nothing is left between the limits.
func (t Tolerance) Accept(factor, u float64) (Tolerance, error) {
	if err := t.validate(); err != nil {
		return Tolerance{}, err
	}
	if err := finite("guard band factor", factor); err != nil {
		return Tolerance{}, err
	}
	if err := notNegativeNumber("standard uncertainty", u); err != nil {
		return Tolerance{}, err
	}
	drawn := Tolerance{Low: t.Low + factor*u, High: t.High - factor*u}
	if !(drawn.Low < drawn.High) {
		return Tolerance{}, fmt.Errorf("squaring: a guard band of %g leaves nothing of a tolerance %g wide: measure more surely", factor*u, t.High-t.Low)
	}
	return drawn, nil
}

// Risks are the chances of deciding wrongly about the parts of a process.
type Risks struct {
	// Conforming is the share of parts that lie within the tolerance.
	Conforming float64
	// Consumer is the share of all parts that are accepted and should not be;
	// Producer that of those refused that should not be.
	Consumer, Producer float64
}

// GlobalRisks returns the risks of accepting every part that measures within
// accept, when the process makes parts of the given mean and standard deviation
// and each is measured with standard uncertainty u (JCGM 106:2012, 9.5), both
// taken as normal. Deviation and u must be above zero. The integrals are taken
// to about 1e-7.
func (t Tolerance) GlobalRisks(accept Tolerance, mean, deviation, u float64) (Risks, error) {
	for _, check := range []error{t.validate(), accept.validate(), finite("process mean", mean)} {
		if check != nil {
			return Risks{}, check
		}
	}
	if !(deviation > 0 && u > 0) || math.IsInf(deviation+u, 0) {
		return Risks{}, fmt.Errorf("squaring: standard deviation of the process is %g and of the measurement %g, both must be above zero", deviation, u)
	}
	accepted := func(truth float64) float64 {
		return distuv.UnitNormal.CDF((accept.High-truth)/u) - distuv.UnitNormal.CDF((accept.Low-truth)/u)
	}
	inside := normalIntegral(t.Low, t.High, mean, deviation, u, accepted)
	whole := normalIntegral(math.Inf(-1), math.Inf(1), mean, deviation, u, accepted)
	conforming := distuv.UnitNormal.CDF((t.High-mean)/deviation) - distuv.UnitNormal.CDF((t.Low-mean)/deviation)
	return Risks{Conforming: conforming, Consumer: math.Max(0, whole-inside), Producer: math.Max(0, conforming-inside)}, nil
}

// normalIntegral integrates f times the normal density from low to high by
// Simpson's rule, within nine deviations of the mean, in steps of no more than
// a fortieth of the narrower of the two spreads.
func normalIntegral(low, high, mean, deviation, narrow float64, f func(float64) float64) float64 {
	low, high = math.Max(low, mean-9*deviation), math.Min(high, mean+9*deviation)
	if !(low < high) {
		return 0
	}
	step := math.Min(deviation, narrow) / 40
	steps := 2 * int(math.Min(2e5, math.Ceil((high-low)/(2*step))))
	density := distuv.Normal{Mu: mean, Sigma: deviation}
	sum := 0.0
	for i := 0; i <= steps; i++ {
		x := low + (high-low)*float64(i)/float64(steps)
		sum += simpsonWeight(i, steps) * density.Prob(x) * f(x)
	}
	return sum * (high - low) / float64(steps) / 3
}
