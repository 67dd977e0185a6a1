package squaring

// Two dials on a bar carried by the spindle show, as second minus first,
//
//	d0   = tilt * span + mismatch      with the second dial toward the azimuth
//	d180 = -tilt * span + mismatch     with the bar turned half a turn
//
// so half their difference is the tilt and half their sum is how far the dials
// disagree: what they would still show over a table square to the spindle. One
// position alone cannot tell the two apart.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// DialPair is one pair of readings, taken together.
type DialPair struct {
	// First and Second are what the two dials showed.
	First, Second unit.Length
	// Turned says that the bar had been turned half a turn, so that the first
	// dial stood where the second stands otherwise.
	Turned bool
}

// TwoDialOptions says what the gauge is.
type TwoDialOptions struct {
	// Span is the distance between the two stems, above zero, and SpanU its
	// standard uncertainty.
	Span, SpanU unit.Length
	// First and Second are the dials. Each is corrected for its own gain.
	First, Second Indicator
	// OneWay says that every reading was approached from the same side, so that
	// hysteresis shifts all of a dial's readings alike and drops out.
	OneWay bool
	// Mismatch is what the second dial shows over the first on a square table,
	// known from an earlier reversal; nil when it is not known. It is used only
	// when all readings were taken in one position.
	Mismatch *unit.Length
	// MismatchU is the standard uncertainty of Mismatch.
	MismatchU unit.Length
}

// TwoDials is what a two-dial gauge says about one direction of the machine.
type TwoDials struct {
	// Tilt is table slope minus spindle tilt toward the second dial's place
	// unturned, corrected for gain, with its standard uncertainty.
	Tilt MeasuredSlope
	// DegreesOfFreedom are the effective ones of Tilt's uncertainty, +Inf when
	// it rests on the dials' steps.
	DegreesOfFreedom float64
	// Mismatch is what the second dial shows over the first on a table square
	// to the spindle, as shown, and MismatchU its standard uncertainty.
	Mismatch, MismatchU unit.Length
	// Believed is the tilt that the readings would seem to give, the bar
	// unturned, were the dials believed alike: their mean difference as shown
	// over the span (or, read turned only, Tilt plus Mismatch over the span).
	Believed Slope
	// WhenAlike is the tilt that is left when the head is set until both dials
	// show the same: minus Mismatch over the span.
	WhenAlike Slope
	// Scatter is the standard deviation of one difference about the mean of its
	// position (zero without repeats), Rounding what the dials' steps and
	// hysteresis leave in one. Repeats on the same mark do not lessen the
	// rounding, so the mean of a position is granted the larger of Rounding and
	// Scatter over the root of their number.
	Scatter, Rounding unit.Length
	// Reversed says that both positions were read.
	Reversed bool
}

// position gathers the readings of one position of the bar.
type position struct {
	n            int
	shown, moved float64 // mean of second minus first, as shown and corrected
	squares      float64 // of the corrected differences about their mean
}

// add takes in one difference, as shown and corrected.
func (p *position) add(shown, moved float64) {
	p.n++
	p.shown += (shown - p.shown) / float64(p.n)
	step := moved - p.moved
	p.moved += step / float64(p.n)
	p.squares += step * (moved - p.moved)
}

// ReadTwoDials returns tilt and mismatch from one or more pairs of readings.
// Pairs must be there both unturned and turned, or the mismatch be given:
// otherwise nothing tells a tilted head from dials that disagree.
//
// The readings must be finite. Both dials are taken to stand the same distance
// from the spindle; half a turn changes nothing else.
func ReadTwoDials(readings []DialPair, options TwoDialOptions) (TwoDials, error) {
	if err := options.validate(); err != nil {
		return TwoDials{}, err
	}
	straight, turned, err := gather(readings, options)
	if err != nil {
		return TwoDials{}, err
	}
	if (straight.n == 0 || turned.n == 0) && options.Mismatch == nil {
		return TwoDials{}, fmt.Errorf("squaring: the bar was read in one position only and its mismatch is not given: turn it half a turn and read again, or a tilted head cannot be told from dials that disagree")
	}
	g := TwoDials{Rounding: options.rounding(), Reversed: straight.n > 0 && turned.n > 0}
	spare := max(0, straight.n-1) + max(0, turned.n-1)
	if spare > 0 {
		g.Scatter = unit.Length(math.Sqrt((straight.squares + turned.squares) / float64(spare)))
	}
	if g.Reversed {
		g.reverse(straight, turned, spare, options)
	} else {
		g.single(straight, turned, spare, options)
	}
	over := func(l unit.Length) Slope { return Slope(float64(l) / float64(options.Span)) }
	g.Believed, g.WhenAlike = g.Tilt.Slope+over(g.Mismatch), -over(g.Mismatch)
	if straight.n > 0 {
		g.Believed = over(unit.Length(straight.shown))
	}
	return g, nil
}

func (o TwoDialOptions) validate() error {
	if err := positiveLength("span between the dials", o.Span); err != nil {
		return err
	}
	for _, check := range []error{
		notNegative("uncertainty of the span", o.SpanU), notNegative("uncertainty of the mismatch", o.MismatchU),
		o.First.validate(), o.Second.validate(),
	} {
		if check != nil {
			return check
		}
	}
	if o.Mismatch != nil {
		return finite("mismatch", float64(*o.Mismatch))
	}
	return nil
}

// gather sorts the readings by position.
func gather(readings []DialPair, o TwoDialOptions) (straight, turned position, err error) {
	if len(readings) == 0 {
		return straight, turned, fmt.Errorf("squaring: no readings of the two dials")
	}
	first, _ := o.First.Factor()
	second, _ := o.Second.Factor()
	for i, r := range readings {
		for _, x := range []unit.Length{r.First, r.Second} {
			if !(math.Abs(float64(x)) <= float64(maxLength)) {
				return straight, turned, fmt.Errorf("squaring: a dial of reading %d shows %s, must be a number within %s", i+1, millimetres(x), millimetres(maxLength))
			}
		}
		p := &straight
		if r.Turned {
			p = &turned
		}
		p.add(float64(r.Second-r.First), second*float64(r.Second)-first*float64(r.First))
	}
	return straight, turned, nil
}

// rounding returns the standard uncertainty of one difference from the dials'
// steps and, unless read one way, from hysteresis: each reading lies somewhere
// between its dial's rising and falling reading.
func (o TwoDialOptions) rounding() unit.Length {
	sum := 0.0
	for _, d := range []Indicator{o.First, o.Second} {
		factor, _ := d.Factor()
		sum = math.Hypot(sum, factor*float64(d.RoundingU()))
		if !o.OneWay {
			sum = math.Hypot(sum, factor*float64(rounding(d.Hysteresis)))
		}
	}
	return unit.Length(sum)
}

// meanU returns the standard uncertainty of the mean of n differences, and its
// degrees of freedom (zero when it is the rounding's).
func (g *TwoDials) meanU(n, spare int) (u, degrees float64) {
	byScatter := float64(g.Scatter) / math.Sqrt(float64(n))
	if byScatter > float64(g.Rounding) {
		return byScatter, float64(spare)
	}
	return float64(g.Rounding), 0
}

// reverse works out tilt and mismatch from both positions.
func (g *TwoDials) reverse(straight, turned position, spare int, o TwoDialOptions) {
	twice := 2 * float64(o.Span)
	tilt := (straight.moved - turned.moved) / twice
	g.Mismatch = unit.Length((straight.shown + turned.shown) / 2)
	u0, nu0 := g.meanU(straight.n, spare)
	u1, nu1 := g.meanU(turned.n, spare)
	g.MismatchU = unit.Length(math.Hypot(u0, u1) / 2)
	g.setTilt(tilt, Budget{{"unturned", u0 / twice, nu0}, {"turned", u1 / twice, nu1}}, o)
}

// single works out the tilt from one position and the given mismatch. Gain acts
// on the difference from the mismatch alone.
func (g *TwoDials) single(straight, turned position, spare int, o TwoDialOptions) {
	p, sign := straight, 1.0
	if p.n == 0 {
		p, sign = turned, -1
	}
	first, _ := o.First.Factor()
	second, _ := o.Second.Factor()
	factor := (first + second) / 2
	span := float64(o.Span)
	g.Mismatch, g.MismatchU = *o.Mismatch, o.MismatchU
	u, nu := g.meanU(p.n, spare)
	tilt := sign * factor * (p.shown - float64(*o.Mismatch)) / span
	g.setTilt(tilt, Budget{{"readings", u / span, nu}, {"mismatch", factor * float64(o.MismatchU) / span, 0}}, o)
}

// setTilt sets the tilt with what gain and span add to its uncertainty.
func (g *TwoDials) setTilt(tilt float64, readings Budget, o TwoDialOptions) {
	first, firstU := o.First.Factor()
	second, secondU := o.Second.Factor()
	// Each dial carries half of the tilt.
	scale := math.Hypot(math.Hypot(firstU/first, secondU/second)/2, float64(o.SpanU)/float64(o.Span))
	whole := append(readings, Share{Source: "gain and span", Uncertainty: math.Abs(tilt) * scale})
	g.Tilt = MeasuredSlope{Slope: Slope(tilt), Uncertainty: Slope(whole.Combined())}
	g.DegreesOfFreedom = whole.DegreesOfFreedom()
}
