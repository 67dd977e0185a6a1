package wear

// A straight line through depths of which some are known only as bounds, and the
// date at which it reaches a limit. Its intervals are those of the profile of the
// likelihood: they need not be even about the best value.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// BoundedDepth is a depth of wear at a clock, known exactly (Low = High) or
// between bounds: a gauge that shows nothing below 5 um gives Low minus
// infinity and High 5 um.
type BoundedDepth struct {
	Clock     unit.Time
	Low, High unit.Length
}

// BoundedTrend is a straight line through bounded depths.
type BoundedTrend struct {
	// Start is the depth at clock zero, Rate the slope of the line and Scatter
	// the standard deviation about it, with standard uncertainties from the
	// curvature of the likelihood: right for many readings, too small for few.
	Start, StartU     unit.Length
	Rate, RateU       WearRate
	Scatter, ScatterU unit.Length
	// RateLow and RateHigh bound the rate with a chance of 95 % by the profile
	// of the likelihood, which need not be even about Rate and holds for few
	// readings too.
	RateLow, RateHigh WearRate
	// LogLikelihood is the greatest log likelihood, depths taken in micrometres
	// and clocks in the unit of the readings.
	LogLikelihood float64
}

// FitBoundedTrend fits a straight line to depths of which some are known only as
// bounds, by maximum likelihood with normal scatter about the line.
//
// It returns an error for fewer than three readings, fewer than two exact ones
// or exact ones that a line meets without scatter, a low bound above the high
// one, a value that is not a number, or readings at one clock.
func FitBoundedTrend(readings []BoundedDepth) (BoundedTrend, error) {
	if len(readings) < 3 {
		return BoundedTrend{}, fmt.Errorf("wear: a trend with bounds needs at least 3 readings, got %d", len(readings))
	}
	var clock float64
	for i, r := range readings {
		if !finite(float64(r.Clock)) || math.IsNaN(float64(r.Low)) || math.IsNaN(float64(r.High)) || r.Low > r.High {
			return BoundedTrend{}, fmt.Errorf("wear: bounded reading %d: clock %g s, depth %g to %g m; the clock must be finite and the bounds in order", i+1, float64(r.Clock), float64(r.Low), float64(r.High))
		}
		clock = math.Max(clock, math.Abs(float64(r.Clock)))
	}
	const micro = 1e-6
	rows := make([]censoredReading, len(readings))
	exact, scale := 0, 1e-3
	for i, r := range readings {
		rows[i] = censoredReading{float64(r.Low) / micro, float64(r.High) / micro, 1, []float64{1, float64(r.Clock) / clock}}
		if r.Low == r.High {
			exact++
			scale = math.Max(scale, math.Abs(rows[i].low)/10)
		}
	}
	if exact < 2 || clock == 0 {
		return BoundedTrend{}, fmt.Errorf("wear: a trend with bounds needs 2 exact readings at different clocks, got %d", exact)
	}
	fit, err := fitCensored(rows, normalLaw, scale)
	if err != nil {
		return BoundedTrend{}, fmt.Errorf("wear: trend with bounds: %w", err)
	}
	low, high, err := profileInterval(rows, normalLaw, fit, 1, boundedDrop(readings, 0.95))
	if err != nil {
		return BoundedTrend{}, fmt.Errorf("wear: trend with bounds: %w", err)
	}
	u := func(j int) float64 { return math.Sqrt(fit.covariance.At(j, j)) * micro }
	return BoundedTrend{
		Start: unit.Length(fit.coefficients[0] * micro), StartU: unit.Length(u(0)),
		Rate: WearRate(fit.coefficients[1] * micro / clock), RateU: WearRate(u(1) / clock),
		Scatter: unit.Length(fit.scale * micro), ScatterU: unit.Length(u(2)),
		RateLow: WearRate(low * micro / clock), RateHigh: WearRate(high * micro / clock),
		LogLikelihood: fit.logLikelihood,
	}, nil
}

// boundedDrop returns by how much the log likelihood may fall short within an
// interval. For n readings that are all exact the fall at the end of Student's
// interval is n/2 log(1 + t^2/(n-2)), whatever the readings: with few of them far
// more than half the chi-square quantile, since the scatter is found from them
// too. A reading that is only a bound tells less of the scatter; it
// counts as a third of one, which the coverage in the tests bears out.
func boundedDrop(readings []BoundedDepth, chance float64) float64 {
	n := 0.0
	for _, r := range readings {
		if r.Low == r.High {
			n++
		} else {
			n += 1.0 / 3
		}
	}
	n = math.Max(n, 3)
	t := coverageFactor(chance, n-2)
	return n / 2 * math.Log1p(t*t/(n-2))
}

// ReachBounded returns when a straight line through depths of which some are
// known only as bounds reaches a limit. The dates are those at which the
// likelihood, made best over rate and scatter, is short of its greatest value by
// no more than the drop of the interval of the rate; they are sought up to ten
// spans of the readings before the first and beyond the last.
//
// It returns an error for a chance outside 0 to 1 or what [FitBoundedTrend]
// would refuse.
func ReachBounded(readings []BoundedDepth, limit unit.Length, chance float64) (Crossing, error) {
	trend, err := FitBoundedTrend(readings)
	if err != nil {
		return Crossing{}, err
	}
	if !(chance > 0 && chance < 1) || !finite(float64(limit)) {
		return Crossing{}, fmt.Errorf("wear: chance %g must lie between 0 and 1 and the limit %g m be finite", chance, float64(limit))
	}
	first, last := readings[0].Clock, readings[0].Clock
	for _, r := range readings {
		first, last = min(first, r.Clock), max(last, r.Clock)
	}
	const spans = 10
	span := float64(last - first)
	begin, horizon := float64(first)-spans*span, float64(last)+spans*span
	drop := boundedDrop(readings, chance)
	inside := func(date float64) bool { return boundedExcess(readings, trend, limit, date, span) <= drop }
	crossing := Crossing{At: unit.Time(math.Inf(1)), Low: unit.Time(math.Inf(-1)), High: unit.Time(math.Inf(1))}
	if trend.Rate > 0 {
		crossing.At = unit.Time(float64(limit-trend.Start) / float64(trend.Rate))
	}
	at := float64(crossing.At)
	switch {
	case at > begin && at < horizon:
		low, noLow := edge(inside, at, begin, span/50)
		high, noHigh := edge(inside, at, horizon, span/50)
		crossing.Kind = [2][2]Reaching{{Bounded, NotBefore}, {NotAfter, Anytime}}[side(noLow)][side(noHigh)]
		if !noLow {
			crossing.Low = unit.Time(low)
		}
		if !noHigh {
			crossing.High = unit.Time(high)
		}
	case inside(horizon):
		low, noLow := edge(inside, horizon, begin, span/50)
		if crossing.Kind = NotBefore; noLow {
			crossing.Kind = Anytime
		} else {
			crossing.Low = unit.Time(low)
		}
	case trend.Rate > 0:
		crossing.Kind, crossing.Low = NotBefore, unit.Time(horizon)
	default:
		crossing.Kind = Never
	}
	return crossing, nil
}

// side returns 1 for true.
func side(b bool) int {
	if b {
		return 1
	}
	return 0
}

// edge returns where a set that holds from ends on the way to another date, going
// in steps that double; open reports that it holds all the way.
func edge(inside func(float64) bool, from, to, step float64) (at float64, open bool) {
	in, out := from, from
	for direction := math.Copysign(1, to-from); ; step *= 2 {
		if out = in + direction*step; direction*(out-to) >= 0 {
			out = to
		}
		if !inside(out) {
			break
		}
		if in = out; out == to {
			return to, true
		}
	}
	for range 25 {
		if middle := (in + out) / 2; inside(middle) {
			in = middle
		} else {
			out = middle
		}
	}
	return in, false
}

// boundedExcess returns by how much the log likelihood falls short of its
// greatest value when the line is held to reach the limit at a date.
func boundedExcess(readings []BoundedDepth, trend BoundedTrend, limit unit.Length, date, span float64) float64 {
	const micro = 1e-6
	rows := make([]censoredReading, len(readings))
	for i, r := range readings {
		rows[i] = censoredReading{float64(r.Low-limit) / micro, float64(r.High-limit) / micro, 1, []float64{(float64(r.Clock) - date) / span}}
	}
	at, err := fitCensored(rows, normalLaw, float64(trend.Scatter)/micro)
	if err != nil {
		return math.Inf(1)
	}
	return trend.LogLikelihood - at.logLikelihood
}
