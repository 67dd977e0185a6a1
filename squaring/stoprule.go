package squaring

// A try is worth making when it is likely to end nearer than what stands now.
// With the set-off right, a new setting ends anywhere within its scatter s about
// zero, however carefully it was begun; so the nearer the present setting, the
// less a new one can gain. With a residual r known exactly,
//
//	P(better) = Phi(r/s) - Phi(-r/s)
//
// and Student's t stands for Phi when s comes from few trials.

import (
	"fmt"
	"math"
)

// NextTry is a decision: leave the head as it is, or try once more.
type NextTry struct {
	// Residual is the tilt that stands now, bolts tight, and ResidualU its
	// standard uncertainty.
	Residual, ResidualU Slope
	// Scatter is the standard deviation of one setting about where it was
	// aimed, above zero, and DegreesOfFreedom how well it is known: zero for
	// known.
	Scatter          Slope
	DegreesOfFreedom float64
	// Aim is where a new setting would end on the mean: zero when the set-off
	// is right.
	Aim Slope
	// Tolerance is the tilt that the work allows either way; zero when there is
	// none.
	Tolerance Slope
}

// TryChances is what a new try promises.
type TryChances struct {
	// Better is the chance that a new try ends nearer to zero than the head
	// stands now.
	Better float64
	// Within is the chance that a new try ends within the tolerance, and
	// WithinNow that the head already stands within it. Both are zero without a
	// tolerance.
	Within, WithinNow float64
	// Worth says that another try is worth it: the head is likelier outside the
	// tolerance than within it, or there is none, and the try is likelier to
	// better it than to worsen it.
	Worth bool
}

// Chances returns what a new try promises. The scatter must be above zero; the
// other values must be finite and the uncertainties not negative.
func (n NextTry) Chances() (TryChances, error) {
	if err := n.validate(); err != nil {
		return TryChances{}, err
	}
	c := TryChances{Better: n.better()}
	if n.Tolerance > 0 {
		c.Within = n.inside(float64(n.Tolerance))
		c.WithinNow = n.withinNow()
	}
	c.Worth = c.Better > 0.5 && c.WithinNow <= 0.5
	return c, nil
}

func (n NextTry) validate() error {
	for _, check := range []error{
		finite("residual", float64(n.Residual)), finite("aim", float64(n.Aim)),
		notNegativeNumber("uncertainty of the residual", float64(n.ResidualU)),
		notNegativeNumber("scatter of a setting", float64(n.Scatter)),
		notNegativeNumber("tolerance", float64(n.Tolerance)),
	} {
		if check != nil {
			return check
		}
	}
	if n.Scatter == 0 {
		return fmt.Errorf("squaring: scatter of a setting is zero, must be above zero")
	}
	if !(n.DegreesOfFreedom >= 0) {
		return fmt.Errorf("squaring: degrees of freedom are %g, must not be negative", n.DegreesOfFreedom)
	}
	return nil
}

// degrees returns the degrees of freedom as the t distribution takes them.
func (n NextTry) degrees() float64 {
	if n.DegreesOfFreedom == 0 {
		return math.Inf(1)
	}
	return n.DegreesOfFreedom
}

// inside returns the chance that a new try ends within the distance of zero.
func (n NextTry) inside(distance float64) float64 {
	distance = math.Abs(distance)
	s, aim := float64(n.Scatter), float64(n.Aim)
	return math.Max(0, below((distance-aim)/s, n.degrees())-below((-distance-aim)/s, n.degrees()))
}

// better averages inside over where the head may stand now, a normal spread
// about the residual.
func (n NextTry) better() float64 {
	r, u := float64(n.Residual), float64(n.ResidualU)
	if u == 0 {
		return n.inside(r)
	}
	// Simpson's rule over six standard deviations either way; the kink at zero
	// costs less than 1e-4 with this many steps.
	const steps = 600
	sum, weights := 0.0, 0.0
	for i := 0; i <= steps; i++ {
		z := -6 + 12*float64(i)/steps
		w := simpsonWeight(i, steps) * math.Exp(-z*z/2)
		sum += w * n.inside(r+z*u)
		weights += w
	}
	return sum / weights
}

// simpsonWeight is the weight of point i of Simpson's rule.
func simpsonWeight(i, steps int) float64 {
	switch {
	case i == 0 || i == steps:
		return 1
	case i%2 == 1:
		return 4
	}
	return 2
}

// withinNow returns the chance that the head stands within the tolerance now.
func (n NextTry) withinNow() float64 {
	r, u, tolerance := float64(n.Residual), float64(n.ResidualU), float64(n.Tolerance)
	if u == 0 {
		if math.Abs(r) <= tolerance {
			return 1
		}
		return 0
	}
	return below((tolerance-r)/u, math.Inf(1)) - below((-tolerance-r)/u, math.Inf(1))
}

// Break returns the residual below which a new try, aimed at zero, is likelier to
// worsen than to better: 0.674 of a scatter that is known, more of one with few
// degrees of freedom. The residual is taken as known, and Aim does not enter.
func (n NextTry) Break() Slope {
	if n.Scatter <= 0 {
		return 0
	}
	return Slope(twoSided(0.5, n.degrees())) * n.Scatter
}

// TriesNeeded returns the number of tries after which the chance of having had
// one within the tolerance reaches the given probability, each try standing by
// itself, and false when no number would.
func (c TryChances) TriesNeeded(probability float64) (int, bool) {
	if !(probability > 0 && probability < 1) || c.Within <= 0 {
		return 0, false
	}
	if c.Within >= 1 {
		return 1, true
	}
	tries := math.Ceil(math.Log(1-probability) / math.Log(1-c.Within))
	if tries > 1e6 {
		return 0, false
	}
	return max(1, int(tries)), true
}
