package wear

// A forecast carries the readings' uncertainty forward. The line is fitted by
// least squares. When every reading states its uncertainty, that is what the
// forecast uses; when none does, the scatter about the line stands in, with
// Student's t for the few readings it was found from.
//
// The date at which a line reaches a limit is a ratio of two uncertain numbers.
// Its set of dates is found by Fieller's theorem (E. C. Fieller, Some problems
// in interval estimation, Journal of the Royal Statistical Society B 16 (1954)
// 175, from memory): all dates t at which the line's interval at t holds the
// limit. While the rate cannot be told from zero that set has no end: the honest
// answer is "never, or not before".

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// MeasuredDepth is a depth of wear at a clock, time since any fixed moment by
// the calendar or by hours under power, with its standard uncertainty.
type MeasuredDepth struct {
	Clock    unit.Time
	Depth, U unit.Length
}

// depthData are readings as numbers: weights are 1/U, or 1 when no reading
// states its uncertainty.
type depthData struct {
	t, y, w []float64
	known   bool
}

// readDepths checks readings of which all or none state their uncertainty; it
// wants one more than the parameters where none does.
func readDepths(readings []MeasuredDepth, parameters int) (depthData, error) {
	d := depthData{known: len(readings) > 0 && readings[0].U > 0}
	least := parameters + 1
	if d.known {
		least = parameters
	}
	if len(readings) < least {
		return d, fmt.Errorf("wear: the fit needs %d readings (%d if all state their uncertainty), got %d", parameters+1, parameters, len(readings))
	}
	for i, r := range readings {
		if !finite(float64(r.Clock)) || !finite(float64(r.Depth)) || !(r.U >= 0) || !finite(float64(r.U)) {
			return d, fmt.Errorf("wear: reading %d: clock %g s, depth %g m and its standard uncertainty %g m must be finite, the last zero or more", i+1, float64(r.Clock), float64(r.Depth), float64(r.U))
		}
		if (r.U > 0) != d.known {
			return d, fmt.Errorf("wear: reading %d: all readings must state their uncertainty, or none", i+1)
		}
		w := 1.0
		if d.known {
			w = 1 / float64(r.U)
		}
		d.t, d.y, d.w = append(d.t, float64(r.Clock)), append(d.y, float64(r.Depth)), append(d.w, w)
	}
	return d, nil
}

// Forecast is a straight line through dated depths, for reading forward.
type Forecast struct {
	// Rate is the slope of the line, RateU its standard uncertainty.
	Rate, RateU WearRate
	// Scatter is the standard deviation of the depths about the line; zero when
	// the readings state their uncertainty, for that is used instead.
	Scatter unit.Length
	// Freedom is the number of degrees of freedom of Scatter; infinite when the
	// readings state their uncertainty.
	Freedom float64
	// Agreement is the chance of depths that scatter about the line as much as
	// these, if their stated uncertainties and the straight line are right: below
	// 0.05 one of the two is wrong. It is 1 where there is nothing to judge by.
	Agreement float64

	line  line
	scale float64 // standard deviation of a reading of weight 1
}

// ForecastLine fits a straight line for reading forward. Two readings are enough
// if both state their uncertainty.
//
// It trusts that the law stays straight and that errors are independent from
// reading to reading: an error common to all shifts the line and leaves its
// rate.
//
// It returns an error for too few readings, readings of which only some state
// their uncertainty, readings at one clock, or a value that is not finite.
func ForecastLine(readings []MeasuredDepth) (Forecast, error) {
	d, err := readDepths(readings, 2)
	if err != nil {
		return Forecast{}, err
	}
	l := fitLine(d.t, d.y, d.w)
	if first, last := ends(d.t); !(last > first) || !(l.sxx > 0) || !finite(l.sxx) || !finite(l.rss) {
		return Forecast{}, errors.New("wear: the readings were all taken at one clock, or their values are too far apart to fit")
	}
	f := Forecast{Rate: WearRate(l.slope), Freedom: math.Inf(1), Agreement: 1, line: l, scale: 1}
	spare := float64(len(readings) - 2)
	if d.known && spare > 0 {
		f.Agreement = chiSquareAbove(l.rss, spare)
	}
	if !d.known {
		f.Freedom, f.scale = spare, math.Sqrt(l.rss/spare)
		f.Scatter = unit.Length(f.scale)
	}
	f.RateU = WearRate(f.scale / math.Sqrt(l.sxx))
	return f, nil
}

// At returns the depth of the line at a clock and its standard uncertainty
// there.
func (f Forecast) At(clock unit.Time) (depth, u unit.Length) {
	if f.scale == 0 && f.line.sum == 0 {
		return 0, 0
	}
	x := float64(clock)
	return unit.Length(f.line.at(x)), unit.Length(f.scale * math.Sqrt(f.line.variance(x)))
}

// Interval returns the interval that holds, with the given chance, the depth at
// a clock; or, with the standard uncertainty of a reading, that reading. Pass
// Scatter for a reading like those of the fit. It is NaN for a chance outside 0
// to 1.
func (f Forecast) Interval(clock unit.Time, chance float64, reading unit.Length) (low, high unit.Length) {
	depth, u := f.At(clock)
	half := unit.Length(coverageFactor(chance, f.Freedom) * math.Hypot(float64(u), float64(reading)))
	return depth - half, depth + half
}

// ChanceAbove returns the chance that the depth is above a limit at a clock.
func (f Forecast) ChanceAbove(limit unit.Length, clock unit.Time) float64 {
	depth, u := f.At(clock)
	switch z := float64(depth-limit) / float64(u); {
	case u == 0 && depth > limit:
		return 1
	case u == 0:
		return 0
	default:
		return chanceBelow(z, f.Freedom)
	}
}

// Reaching says what the readings know of the date at which a limit is reached.
type Reaching int

const (
	// Bounded: from Low to High.
	Bounded Reaching = iota
	// NotBefore: never, or not before Low.
	NotBefore
	// NotAfter: it was passed at High or before.
	NotAfter
	// Never: the depth is falling, or does not get there.
	Never
	// Anytime: the readings exclude no date.
	Anytime
)

// String returns the answer in words.
func (r Reaching) String() string {
	switch r {
	case Bounded:
		return "between two dates"
	case NotBefore:
		return "never, or not before"
	case NotAfter:
		return "passed already"
	case Never:
		return "never"
	}
	return "at any date, or never: the readings cannot say"
}

// Crossing is when a limit is reached.
type Crossing struct {
	// At is the clock at which the best curve reaches the limit; infinite when
	// it never does.
	At unit.Time
	// Kind says which of Low and High bound the date.
	Kind Reaching
	// Low and High bound the date with the chance that was asked for; minus and
	// plus infinity where there is no bound.
	Low, High unit.Time
}

// Reach returns when the line reaches a limit that lies above it, with the set
// of dates that the readings allow at the given chance, by Fieller's theorem.
// With the standard uncertainty of a reading it is the date at which such a
// reading first may show the limit.
//
// It returns an error for a chance outside 0 to 1, a limit that is not finite, a
// negative uncertainty, or a forecast that was not fitted.
func (f Forecast) Reach(limit unit.Length, chance float64, reading unit.Length) (Crossing, error) {
	if !(f.line.sxx > 0) {
		return Crossing{}, errors.New("wear: the forecast was not fitted")
	}
	k := coverageFactor(chance, f.Freedom)
	if math.IsNaN(k) || !finite(float64(limit)) || !(reading >= 0) || !finite(float64(reading)) {
		return Crossing{}, fmt.Errorf("wear: chance %g must lie between 0 and 1, the limit %g m be finite, and the uncertainty of a reading %g m zero or more", chance, float64(limit), float64(reading))
	}
	l := f.line
	below := l.yMean - float64(limit) // negative while the limit lies ahead
	k2 := k * k * f.scale * f.scale
	a := l.slope*l.slope - k2/l.sxx
	b := below * l.slope
	c := below*below - k2/l.sum - k*k*float64(reading)*float64(reading)
	crossing := Crossing{At: unit.Time(math.Inf(1)), Low: unit.Time(math.Inf(-1)), High: unit.Time(math.Inf(1))}
	if l.slope != 0 {
		crossing.At = unit.Time(l.xMean - below/l.slope)
	}
	root := math.Sqrt(math.Max(b*b-a*c, 0))
	first, second := (-b-root)/a, (-b+root)/a
	first, second = l.xMean+math.Min(first, second), l.xMean+math.Max(first, second)
	switch {
	case below < 0 && (a > 0 && l.slope < 0 || l.slope == 0 && f.scale == 0):
		crossing.Kind, crossing.At = Never, unit.Time(math.Inf(1))
	case a > 0:
		crossing.Kind, crossing.Low, crossing.High = Bounded, unit.Time(first), unit.Time(second)
	case b*b-a*c <= 0 || a == 0:
		crossing.Kind = Anytime
	case below < 0:
		crossing.Kind, crossing.Low = NotBefore, unit.Time(second)
	default:
		crossing.Kind, crossing.High = NotAfter, unit.Time(first)
	}
	if crossing.Kind == NotBefore && l.slope <= 0 {
		crossing.At = unit.Time(math.Inf(1))
	}
	return crossing, nil
}
