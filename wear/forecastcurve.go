package wear

// Wear that slows down. Running-in follows a power of the distance more often
// than a straight line; wear that ends when the cause ends (a high spot worn
// away, an outlet cleared) levels off.
//
// A curve y = a + A (1 - exp(-t/T)) is straight in a and A once T is given, so
// the profile of its likelihood over T needs no search: for each T on a fine
// grid the line is fitted, and a depth y at a clock is held possible when
//
//	(RSS(T) - RSS(best))/s^2 + (y - prediction(T))^2/variance(T)
//
// is within the quantile for some T (D. M. Bates and D. G. Watts, Nonlinear
// Regression Analysis and Its Applications, 1988, chapter 6, from memory). T
// without bound is the straight line, and belongs to the grid.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// PowerTrend is a power law of the clock through depths, fitted as a straight
// line through their logarithms.
type PowerTrend struct {
	// Exponent is the power of the clock, ExponentU its standard uncertainty: 1
	// is wear in proportion to use.
	Exponent, ExponentU float64
	// Scatter is the standard deviation of the natural logarithm of the depths
	// about the line, with Freedom degrees of freedom.
	Scatter, Freedom float64
	// RSquared is the share of the variance of the logarithms taken up.
	RSquared float64

	line line
}

// FitPower fits a power law to depths that all lie above zero at clocks above
// zero, by least squares on their logarithms: each reading counts by its share,
// not by its size. Uncertainties that the readings state are not used.
//
// It returns an error for fewer than three readings, a clock or depth that is
// not above zero, or readings at one clock.
func FitPower(readings []MeasuredDepth) (PowerTrend, error) {
	if len(readings) < 3 {
		return PowerTrend{}, fmt.Errorf("wear: a power law with its uncertainty needs at least 3 readings, got %d", len(readings))
	}
	x, y := make([]float64, len(readings)), make([]float64, len(readings))
	for i, r := range readings {
		if !(r.Clock > 0) || !(r.Depth > 0) || !finite(float64(r.Clock)) || !finite(float64(r.Depth)) {
			return PowerTrend{}, fmt.Errorf("wear: reading %d: clock %g s and depth %g m must be above zero for a power law", i+1, float64(r.Clock), float64(r.Depth))
		}
		x[i], y[i] = math.Log(float64(r.Clock)), math.Log(float64(r.Depth))
	}
	if first, last := ends(x); !(last > first) {
		return PowerTrend{}, errors.New("wear: the readings were all taken at one clock")
	}
	l := fitLine(x, y, nil)
	return PowerTrend{Exponent: l.slope, ExponentU: l.scatter() / math.Sqrt(l.sxx), Scatter: l.scatter(), Freedom: l.freedom(), RSquared: l.rSquared(), line: l}, nil
}

// At returns the depth of the curve at a clock above zero.
func (p PowerTrend) At(clock unit.Time) unit.Length {
	return unit.Length(math.Exp(p.line.at(math.Log(float64(clock)))))
}

// Interval returns the interval that holds one new reading at a clock above zero
// with the given chance.
func (p PowerTrend) Interval(clock unit.Time, chance float64) (low, high unit.Length) {
	x := math.Log(float64(clock))
	y, half := p.line.at(x), coverageFactor(chance, p.Freedom)*p.Scatter*math.Sqrt(1+p.line.variance(x))
	return unit.Length(math.Exp(y - half)), unit.Length(math.Exp(y + half))
}

// Saturating is a curve through depths that levels off.
type Saturating struct {
	// Settling is the time in which the growth falls to a share of 1/e; it is
	// infinite when the straight line fits best.
	Settling unit.Time
	// Final is the depth at which the best curve levels off; infinite for the
	// line.
	Final unit.Length
	// Scatter and Freedom are as in [Forecast].
	Scatter unit.Length
	Freedom float64

	origin float64
	curves []settledCurve
	best   int
	scale  float64
}

// settledCurve is the line in 1 - exp(-t/settling), or in t, of best fit.
type settledCurve struct {
	settling float64
	line     line
}

// abscissa returns the curve's variable at a time since the origin.
func (c settledCurve) abscissa(t float64) float64 {
	if math.IsInf(c.settling, 1) {
		return t
	}
	return -math.Expm1(-t/c.settling) * c.settling
}

// settlingGrid is how many settling times are tried.
const settlingGrid = 160

// ForecastSaturating fits a curve that levels off. It tries settling times from
// a tenth of the span of the readings to fifty times it, and the straight line.
//
// It returns an error for fewer than four readings (three when all state their
// uncertainty), fewer than three different clocks, or what [ForecastLine] would
// refuse.
func ForecastSaturating(readings []MeasuredDepth) (Saturating, error) {
	d, err := readDepths(readings, 3)
	if err != nil {
		return Saturating{}, err
	}
	first, last := d.t[0], d.t[0]
	clocks := map[float64]bool{}
	for _, t := range d.t {
		first, last = math.Min(first, t), math.Max(last, t)
		clocks[t] = true
	}
	span := last - first
	if len(clocks) < 3 || !finite(span) {
		return Saturating{}, fmt.Errorf("wear: a curve needs readings at 3 different clocks, got %d", len(clocks))
	}
	s := Saturating{origin: first, Freedom: math.Inf(1), scale: 1}
	for k := 0; k <= settlingGrid; k++ {
		c := settledCurve{settling: span / 10 * math.Pow(500, float64(k)/(settlingGrid-1))}
		if k == settlingGrid {
			c.settling = math.Inf(1)
		}
		x := make([]float64, len(d.t))
		for i, t := range d.t {
			x[i] = c.abscissa(t - first)
		}
		c.line = fitLine(x, d.y, d.w)
		if !finite(c.line.rss) || !(c.line.sxx > 0) {
			return Saturating{}, errors.New("wear: the readings are too far apart in size to fit")
		}
		s.curves = append(s.curves, c)
		if c.line.rss < s.curves[s.best].line.rss {
			s.best = k
		}
	}
	best := s.curves[s.best]
	if !d.known {
		s.Freedom = float64(len(d.t) - 3)
		s.scale = math.Sqrt(best.line.rss / s.Freedom)
		s.Scatter = unit.Length(s.scale)
	}
	s.Settling, s.Final = unit.Time(best.settling), unit.Length(best.line.at(best.settling))
	if math.IsInf(best.settling, 1) {
		s.Final = unit.Length(math.Copysign(math.Inf(1), best.line.slope))
	}
	return s, nil
}

// At returns the depth of the best curve at a clock.
func (s Saturating) At(clock unit.Time) unit.Length {
	if len(s.curves) == 0 {
		return 0
	}
	c := s.curves[s.best]
	return unit.Length(c.line.at(c.abscissa(float64(clock) - s.origin)))
}

// Interval returns the interval of the depth, or of a reading with the given
// standard uncertainty, at a clock: the values that some curve of the family
// meets without fitting the readings significantly worse than the best.
func (s Saturating) Interval(clock unit.Time, chance float64, reading unit.Length) (low, high unit.Length) {
	q := coverageFactor(chance, s.Freedom)
	if math.IsNaN(q) || len(s.curves) == 0 {
		return unit.Length(math.NaN()), unit.Length(math.NaN())
	}
	bottom, top := math.Inf(1), math.Inf(-1)
	least := s.curves[s.best].line.rss
	for _, c := range s.curves {
		spare := q*q*s.scale*s.scale - (c.line.rss - least)
		if spare < 0 {
			continue
		}
		x := c.abscissa(float64(clock) - s.origin)
		variance := c.line.variance(x)
		if r := float64(reading); r > 0 && s.scale > 0 {
			variance += r * r / s.scale / s.scale
		}
		half := math.Sqrt(spare * variance)
		bottom, top = math.Min(bottom, c.line.at(x)-half), math.Max(top, c.line.at(x)+half)
	}
	return unit.Length(bottom), unit.Length(top)
}

// Reach returns when the curve reaches a limit between two clocks, with the
// dates whose interval holds the limit. Beyond the later clock nothing is said:
// a crossing that is still open there is [NotBefore], and one that even the
// upper edge does not reach by then is [Never] as far as it was looked.
//
// It returns an error for a chance outside 0 to 1, a limit that is not finite,
// clocks out of order, or a curve that was not fitted.
func (s Saturating) Reach(limit unit.Length, chance float64, from, to unit.Time) (Crossing, error) {
	if len(s.curves) == 0 {
		return Crossing{}, errors.New("wear: the curve was not fitted")
	}
	if !(chance > 0 && chance < 1) || !finite(float64(limit)) || !(to > from) || !finite(float64(to-from)) {
		return Crossing{}, fmt.Errorf("wear: chance %g must lie between 0 and 1, the limit %g m be finite, and the clocks %g and %g s in order", chance, float64(limit), float64(from), float64(to))
	}
	high := func(t float64) bool { _, h := s.Interval(unit.Time(t), chance, 0); return h < limit }
	low := func(t float64) bool { l, _ := s.Interval(unit.Time(t), chance, 0); return l < limit }
	middle := func(t float64) bool { return s.At(unit.Time(t)) < limit }
	crossing := Crossing{
		At:   unit.Time(lastBelow(middle, float64(from), float64(to))),
		Low:  unit.Time(lastBelow(high, float64(from), float64(to))),
		High: unit.Time(lastBelow(low, float64(from), float64(to))),
	}
	switch {
	case math.IsInf(float64(crossing.Low), 1):
		crossing.Kind, crossing.Low = Never, unit.Time(math.Inf(-1))
	case math.IsInf(float64(crossing.High), 1):
		crossing.Kind = NotBefore
	case math.IsInf(float64(crossing.High), -1):
		crossing.Kind, crossing.High, crossing.Low = NotAfter, from, unit.Time(math.Inf(-1))
	}
	return crossing, nil
}

// lastBelow returns the clock up to which a condition that holds first and then
// no more does hold: minus infinity if it fails at once, infinity if it holds
// throughout.
func lastBelow(holds func(float64) bool, from, to float64) float64 {
	if !holds(from) {
		return math.Inf(-1)
	}
	const steps = 200
	for i := 1; i <= steps; i++ {
		if t := from + (to-from)*float64(i)/steps; !holds(t) {
			at, _ := edge(holds, t-(to-from)/steps, t, (to-from)/steps)
			return at
		}
	}
	return math.Inf(1)
}
