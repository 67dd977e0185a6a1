package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Shift is how far something moves each time the same thing is done to it: the
// tilt of a head when its bolts are brought from nipped to tight.
type Shift struct {
	// Count is the number of trials.
	Count int
	// Mean is their mean and MeanU its standard uncertainty.
	Mean, MeanU Slope
	// Deviation is the standard deviation of one trial about the mean: the
	// trials' own, or the rounding of one reading when that is larger.
	Deviation Slope
	// DegreesOfFreedom are those of Deviation: Count - 1, or +Inf when it is
	// the rounding's.
	DegreesOfFreedom float64
	// DeviationLow and DeviationHigh hold the true standard deviation 95 times
	// in a hundred, were the trials normally distributed; few trials settle a
	// mean and not a scatter.
	DeviationLow, DeviationHigh Slope
}

// SummariseShift returns mean and scatter of two or more trials, each read with
// the given standard uncertainty from rounding. The trials must be finite and
// are taken as alike and independent.
func SummariseShift(trials []Slope, rounding Slope) (Shift, error) {
	if len(trials) < 2 {
		return Shift{}, fmt.Errorf("squaring: %d trial of the shift, at least 2 are needed", len(trials))
	}
	if err := notNegativeNumber("rounding of a trial", float64(rounding)); err != nil {
		return Shift{}, err
	}
	lengths := make([]unit.Length, len(trials)) // the same sums serve
	for i, t := range trials {
		lengths[i] = unit.Length(t)
	}
	mean, deviation, err := meanAndDeviation("trial", lengths)
	if err != nil {
		return Shift{}, err
	}
	n := float64(len(trials))
	s := Shift{Count: len(trials), Mean: Slope(mean), Deviation: Slope(deviation), DegreesOfFreedom: n - 1}
	// (n-1) s^2 / sigma^2 follows chi-squared with n-1 degrees of freedom.
	s.DeviationLow = s.Deviation * Slope(math.Sqrt((n-1)/chiSquaredQuantile(0.975, n-1)))
	s.DeviationHigh = s.Deviation * Slope(math.Sqrt((n-1)/chiSquaredQuantile(0.025, n-1)))
	if rounding > s.Deviation {
		s.Deviation, s.DegreesOfFreedom = rounding, math.Inf(1)
	}
	s.MeanU = s.Deviation / Slope(math.Sqrt(n))
	return s, nil
}

// NextU returns the standard uncertainty of the next single trial about Mean:
// its own scatter and the mean's.
func (s Shift) NextU() Slope {
	if s.Count == 0 {
		return 0
	}
	return s.Deviation * Slope(math.Sqrt(1+1/float64(s.Count)))
}

// Interval returns the half width of the interval about Mean that holds the next
// single trial with the given probability (a prediction interval):
//
//	half = t s sqrt(1 + 1/n)
func (s Shift) Interval(probability float64) (Slope, error) {
	if s.Count == 0 {
		return 0, nil
	}
	t, err := CoverageFactor(probability, s.DegreesOfFreedom)
	return Slope(t) * s.NextU(), err
}

// SetOff returns what to leave standing before the shift so that, on the mean,
// nothing is left after it.
func (s Shift) SetOff() MeasuredSlope { return MeasuredSlope{Slope: -s.Mean, Uncertainty: s.MeanU} }

// ShiftDifference is one way of doing a thing against another.
type ShiftDifference struct {
	// Mean is the first mean less the second, MeanU its standard uncertainty.
	Mean, MeanU Slope
	// Chance is the chance of means as far apart as these or farther, were the
	// two ways alike (Welch's test, two-sided).
	Chance float64
	// ScatterChance is the same for the ratio of the two standard deviations
	// (F test, two-sided).
	ScatterChance float64
}

// CompareShifts sets two ways of doing the same thing side by side. Both must
// hold at least two trials.
func CompareShifts(first, second Shift) (ShiftDifference, error) {
	if first.Count < 2 || second.Count < 2 {
		return ShiftDifference{}, fmt.Errorf("squaring: %d and %d trials to compare, at least 2 of each are needed", first.Count, second.Count)
	}
	budget := Budget{{"first", float64(first.MeanU), finiteDegrees(first)}, {"second", float64(second.MeanU), finiteDegrees(second)}}
	d := ShiftDifference{Mean: first.Mean - second.Mean, MeanU: Slope(budget.Combined()), Chance: 1, ScatterChance: 1}
	if d.MeanU > 0 {
		d.Chance = twoSidedChance(float64(d.Mean/d.MeanU), budget.DegreesOfFreedom())
	}
	if first.Deviation > 0 && second.Deviation > 0 {
		ratio := float64(first.Deviation / second.Deviation)
		d.ScatterChance = varianceChance(ratio*ratio, float64(first.Count-1), float64(second.Count-1))
	}
	return d, nil
}

// finiteDegrees returns the degrees of freedom as a budget wants them: zero for
// a deviation taken as known.
func finiteDegrees(s Shift) float64 {
	if math.IsInf(s.DegreesOfFreedom, 1) {
		return 0
	}
	return s.DegreesOfFreedom
}
