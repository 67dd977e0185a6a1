package wear

// A straight line is fitted by ordinary least squares about the means of the
// data, which keeps full accuracy where the clock readings are large and close
// together (N. R. Draper and H. Smith, Applied Regression Analysis, 1998,
// chapter 1, from memory; held to the certified values of the NIST Norris data
// in the test).

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/unit"
)

// WearRate is depth of wear per time, in m/s.
type WearRate float64

// The shop's ways of saying a wear rate. A year is 365.25 days.
const (
	MicrometrePerYear         WearRate = 1e-6 / (365.25 * 86400)
	MicrometrePerThousandHour WearRate = 1e-6 / (1000 * 3600)
)

// DatedDepth is a depth of wear and the clock at which it was measured: time
// since any fixed moment, by the calendar or by hours under power.
type DatedDepth struct {
	Clock unit.Time
	Depth unit.Length
}

// Trend is a straight line through dated depths.
type Trend struct {
	// Start is the depth on the line at clock zero, StartU its standard
	// uncertainty.
	Start, StartU unit.Length
	// Rate is the slope of the line, RateU its standard uncertainty.
	Rate, RateU WearRate
	// Scatter is the standard deviation of the depths about the line, with
	// Freedom degrees of freedom.
	Scatter unit.Length
	Freedom float64
	// RSquared is the share of the variance of the depths that the line takes
	// up; 1 when all depths are equal.
	RSquared float64

	line line
}

// FitTrend fits a straight line to dated depths by ordinary least squares. The
// scatter about the line is all that it knows of the uncertainty: it holds
// chance errors, not an error common to all readings, and it does not know
// whether the law is straight. Running-in is not.
//
// It returns an error for fewer than three readings, a reading that is not
// finite, or readings that were all taken at one clock.
func FitTrend(readings []DatedDepth) (Trend, error) {
	if len(readings) < 3 {
		return Trend{}, fmt.Errorf("wear: a trend with its uncertainty needs at least 3 readings, got %d", len(readings))
	}
	x, y := make([]float64, len(readings)), make([]float64, len(readings))
	for i, r := range readings {
		x[i], y[i] = float64(r.Clock), float64(r.Depth)
		if !finite(x[i]) || !finite(y[i]) {
			return Trend{}, fmt.Errorf("wear: trend reading %d: clock %g s and depth %g m must be finite", i+1, x[i], y[i])
		}
	}
	l := fitLine(x, y)
	if !(l.sxx > 0) || !finite(l.sxx) {
		return Trend{}, fmt.Errorf("wear: trend readings all have the clock %g s, or clocks too far apart to compare", x[0])
	}
	if !finite(l.sd) || !finite(l.slope) {
		return Trend{}, errors.New("wear: trend readings are too large to fit")
	}
	atZero, atZeroU := l.at(0)
	return Trend{
		Start: unit.Length(atZero), StartU: unit.Length(atZeroU),
		Rate: WearRate(l.slope), RateU: WearRate(l.sd / math.Sqrt(l.sxx)),
		Scatter: unit.Length(l.sd), Freedom: l.freedom, RSquared: l.rSquared,
		line: l,
	}, nil
}

// At returns the depth of the line at a clock, the standard uncertainty of the
// line there, and that of one new reading there, which scatters as the readings
// did. Beyond the readings it trusts that the law stays straight.
func (t Trend) At(clock unit.Time) (depth, lineU, readingU unit.Length) {
	y, u := t.line.at(float64(clock))
	return unit.Length(y), unit.Length(u), unit.Length(math.Hypot(u, t.line.sd))
}

// Coverage returns the factor by which a standard uncertainty of the trend is
// multiplied for an interval with the given chance of holding the value, by
// Student's t: 0.95 for the usual interval. The chance must lie between 0 and
// 1; outside it, and for a trend that was not fitted, the factor is NaN.
func (t Trend) Coverage(chance float64) float64 {
	if !(chance > 0 && chance < 1) || !(t.Freedom > 0) {
		return math.NaN()
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: t.Freedom}.Quantile((1 + chance) / 2)
}

// line is y = yMean + slope*(x - xMean).
type line struct {
	xMean, yMean, slope float64
	sxx, sd, freedom    float64
	n, rSquared         float64
}

// fitLine fits a line by least squares. With fewer than three points sd is 0;
// with one abscissa sxx is 0 and the slope is taken as 0.
func fitLine(x, y []float64) line {
	l := line{xMean: stat.Mean(x, nil), yMean: stat.Mean(y, nil), n: float64(len(x)), freedom: float64(len(x) - 2), rSquared: 1}
	var sxy, syy, rss float64
	for i := range x {
		dx, dy := x[i]-l.xMean, y[i]-l.yMean
		l.sxx += dx * dx
		sxy += dx * dy
		syy += dy * dy
	}
	if l.sxx > 0 {
		l.slope = sxy / l.sxx
	}
	for i := range x {
		r := y[i] - l.yMean - l.slope*(x[i]-l.xMean)
		rss += r * r
	}
	if l.freedom > 0 {
		l.sd = math.Sqrt(rss / l.freedom)
	}
	if syy > 0 {
		l.rSquared = 1 - rss/syy
	}
	return l
}

// at returns the line at x and its standard uncertainty there.
func (l line) at(x float64) (y, u float64) {
	if !(l.sxx > 0) {
		return l.yMean, 0
	}
	d := x - l.xMean
	return l.yMean + l.slope*d, l.sd * math.Sqrt(1/l.n+d*d/l.sxx)
}
