package squaring

// Whether work will come within its tolerance, from the shares that make up its
// error. Two ways, side by side: the law of propagation (JCGM 100:2008, clause
// 5), which takes the sum as normal, and the propagation of distributions by
// trials (JCGM 101:2008, clause 7), which takes each share as it is.

import (
	"fmt"
	"math"
)

// maxOrderShares is the most shares of one order.
const maxOrderShares = 64

// OrderShare is one source's part in the error of the work, in the error's own
// SI unit.
type OrderShare struct {
	// Source says in words where it comes from.
	Source string
	// Value is what it adds on the mean, with its sign.
	Value float64
	// Spread and Width say how it varies: Width is the standard deviation of a
	// normal share, the half-width of a rectangular or triangular one, and not
	// used when fixed. It must not be negative.
	Spread Spread
	Width  float64
}

// Uncertainty returns the standard uncertainty of the share: that of its spread by
// its width.
func (s OrderShare) Uncertainty() float64 { return s.Spread.Uncertainty(s.Width) }

// Correlation says that two shares go together.
type Correlation struct {
	// First and Second are the shares' places in the list, from zero.
	First, Second int
	// Coefficient lies between -1 and 1.
	Coefficient float64
}

// Order is a piece of work to be promised.
type Order struct {
	// Shares make up the error. Those not named in Correlations are taken as
	// independent.
	Shares       []OrderShare
	Correlations []Correlation
	// Model gives the error from the shares, in their order; nil is their sum.
	// It must not change the slice, and is called from several goroutines.
	Model func(shares []float64) float64
	// Tolerance is what the drawing allows of the error, one- or two-sided.
	Tolerance Tolerance
}

// Forecast is what the law of propagation says of an order.
type Forecast struct {
	// Mean is the error to be expected, Uncertainty its standard uncertainty.
	Mean, Uncertainty float64
	// Conforming is the chance that a part lies within the tolerance, the error
	// taken as normal.
	Conforming float64
	// Parts hold, for each share, its part of the variance. They sum to one; a
	// share that counters another has a negative part. All are zero when
	// nothing spreads.
	Parts []float64
	// Largest is the share with the largest part, and -1 when nothing spreads.
	Largest int
	// Halved and Corrected are the chances of conforming were the share's
	// spread halved, and were its value brought to zero.
	Halved, Corrected []float64
	// Improve is the share to improve first: the one of which halving the
	// spread or correcting the value gains most; -1 when none gains. ByValue
	// says that correcting gains it.
	Improve int
	ByValue bool
}

func (o Order) validate() error {
	if err := o.Tolerance.validate(); err != nil {
		return err
	}
	if len(o.Shares) == 0 || len(o.Shares) > maxOrderShares {
		return fmt.Errorf("squaring: %d shares, must be 1 to %d", len(o.Shares), maxOrderShares)
	}
	for i, s := range o.Shares {
		name := fmt.Sprintf("share %d (%s)", i+1, s.Source)
		if err := finite("value of "+name, s.Value); err != nil {
			return err
		}
		if err := notNegativeNumber("width of "+name, s.Width); err != nil {
			return err
		}
		if !s.Spread.valid() {
			return fmt.Errorf("squaring: spread of %s is %q, must be fixed, normal, rectangular or triangular", name, s.Spread)
		}
	}
	_, err := o.correlation()
	return err
}

// correlation returns the matrix of coefficients.
func (o Order) correlation() ([][]float64, error) {
	n := len(o.Shares)
	c := make([][]float64, n)
	for i := range c {
		c[i] = make([]float64, n)
		c[i][i] = 1
	}
	for i, pair := range o.Correlations {
		if pair.First < 0 || pair.Second < 0 || pair.First >= n || pair.Second >= n || pair.First == pair.Second {
			return nil, fmt.Errorf("squaring: correlation %d is between shares %d and %d, must be between two of the %d", i+1, pair.First+1, pair.Second+1, n)
		}
		if !(math.Abs(pair.Coefficient) <= 1) {
			return nil, fmt.Errorf("squaring: correlation %d is %g, must lie between -1 and 1", i+1, pair.Coefficient)
		}
		c[pair.First][pair.Second], c[pair.Second][pair.First] = pair.Coefficient, pair.Coefficient
	}
	_, err := lowerRoot(c)
	return c, err
}

// lowerRoot returns the lower triangle L with L L' = c, by Cholesky's method; a
// row that hangs on those before it gets a zero on the diagonal. It is an error
// when no set of variables can be correlated so.
func lowerRoot(c [][]float64) ([][]float64, error) {
	const slack = 1e-9
	l := make([][]float64, len(c))
	for i := range c {
		l[i] = make([]float64, i+1)
		for j := 0; j <= i; j++ {
			rest := c[i][j]
			for k := 0; k < j; k++ {
				rest -= l[i][k] * l[j][k]
			}
			switch {
			case i == j && rest < -slack, i != j && l[j][j] == 0 && math.Abs(rest) > slack:
				return nil, fmt.Errorf("squaring: the correlations contradict one another at share %d", i+1)
			case i == j && rest > slack:
				l[i][i] = math.Sqrt(rest)
			case i != j && l[j][j] > 0:
				l[i][j] = rest / l[j][j]
			}
		}
	}
	return l, nil
}

// value returns the error for given shares.
func (o Order) value(shares []float64) float64 {
	if o.Model != nil {
		return o.Model(shares)
	}
	sum := 0.0
	for _, s := range shares {
		sum += s
	}
	return sum
}

// Forecast works an order out by the law of propagation of uncertainty. Each
// share's effect is half the change of the model between one standard
// uncertainty up and one down (JCGM 100:2008, 5.1.3 note 2, from memory), exact
// for a sum. Where the model bends, as in a sum of squares about zero, this
// fails and only [Order.Trials] tells.
func (o Order) Forecast() (Forecast, error) {
	if err := o.validate(); err != nil {
		return Forecast{}, err
	}
	f, err := o.propagate()
	if err != nil {
		return Forecast{}, err
	}
	f.Improve = -1
	best := f.Conforming
	for i, s := range o.Shares {
		halved, corrected := s, s
		halved.Width, corrected.Value = s.Width/2, 0
		for byValue, share := range map[bool]OrderShare{false: halved, true: corrected} {
			changed, err := o.with(i, share).propagate()
			if err != nil {
				return Forecast{}, err
			}
			if byValue {
				f.Corrected = append(f.Corrected, changed.Conforming)
			} else {
				f.Halved = append(f.Halved, changed.Conforming)
			}
		}
		if f.Halved[i] > best {
			best, f.Improve, f.ByValue = f.Halved[i], i, false
		}
		if f.Corrected[i] > best {
			best, f.Improve, f.ByValue = f.Corrected[i], i, true
		}
	}
	return f, nil
}

// with returns the order with one share changed.
func (o Order) with(i int, share OrderShare) Order {
	o.Shares = append([]OrderShare{}, o.Shares...)
	o.Shares[i] = share
	return o
}

// propagate works out mean, uncertainty, chance and parts.
func (o Order) propagate() (Forecast, error) {
	c, err := o.correlation()
	if err != nil {
		return Forecast{}, err
	}
	n := len(o.Shares)
	shares, effect := make([]float64, n), make([]float64, n)
	for i, s := range o.Shares {
		shares[i] = s.Value
	}
	f := Forecast{Mean: o.value(shares), Parts: make([]float64, n), Largest: -1}
	for i, s := range o.Shares {
		shares[i] = s.Value + s.Uncertainty()
		up := o.value(shares)
		shares[i] = s.Value - s.Uncertainty()
		effect[i] = (up - o.value(shares)) / 2
		shares[i] = s.Value
	}
	variance := 0.0
	for i := range effect {
		for j := range effect {
			f.Parts[i] += effect[i] * c[i][j] * effect[j]
		}
		variance += f.Parts[i]
	}
	f.Uncertainty = math.Sqrt(math.Max(0, variance))
	if err := finite("mean error of the work", f.Mean); err != nil {
		return Forecast{}, err
	}
	if err := finite("uncertainty of the work", f.Uncertainty); err != nil {
		return Forecast{}, err
	}
	if f.Uncertainty == 0 {
		clear(f.Parts)
		if f.Mean >= o.Tolerance.Low && f.Mean <= o.Tolerance.High {
			f.Conforming = 1
		}
		return f, nil
	}
	for i := range f.Parts {
		f.Parts[i] /= variance
		if f.Largest < 0 || f.Parts[i] > f.Parts[f.Largest] {
			f.Largest = i
		}
	}
	f.Conforming, err = o.Tolerance.Conformance(f.Mean, f.Uncertainty)
	return f, err
}
