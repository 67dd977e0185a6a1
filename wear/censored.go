package wear

// A reading below what the gauge can show is not nothing: it says that the value
// is below the gauge's floor. Left out, it biases a fit; written as the floor, it
// biases it too. Maximum likelihood takes every reading for what it says: an
// exact value gives its density, a bound or an interval gives its probability
// (J. Tobin, Estimation of relationships for limited dependent variables,
// Econometrica 26 (1958) 24, from memory).
//
// The model is y = x'b + s e with e from a fixed law. In the parameters b/s and
// 1/s the log likelihood is concave for every law with a log-concave density
// (R. J. Olsen, Note on the uniqueness of the maximum likelihood estimator for
// the Tobit model, Econometrica 46 (1978) 1211, from memory), so Newton's method
// with halved steps finds the one maximum.

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// law is the law of an error with location 0 and scale 1.
type law int

const (
	normalLaw law = iota
	// smallestLaw is the law of smallest extremes: the logarithm of a Weibull
	// variable.
	smallestLaw
)

// logDensity returns the logarithm of the density at z and its first two
// derivatives.
func (l law) logDensity(z float64) (f, first, second float64) {
	if l == smallestLaw {
		e := math.Exp(z)
		return z - e, 1 - e, -e
	}
	return -z*z/2 - math.Log(2*math.Pi)/2, -z, -1
}

// tails returns the chances of lying below and above z.
func (l law) tails(z float64) (below, above float64) {
	if l == smallestLaw {
		return -math.Expm1(-math.Exp(z)), math.Exp(-math.Exp(z))
	}
	return normalBelow(z), normalAbove(z)
}

// chance returns the chance of lying between a and b, worked in the tail where
// nothing is lost.
func (l law) chance(a, b float64) float64 {
	belowA, aboveA := l.tails(a)
	belowB, aboveB := l.tails(b)
	if belowA > 0.5 {
		return aboveA - aboveB
	}
	return belowB - belowA
}

// censoredReading is a value known to lie from low to high: equal for an exact
// reading, infinite on a side that is not bounded.
type censoredReading struct {
	low, high float64
	count     float64   // how many alike; 1 for one
	x         []float64 // covariates, 1 first for an intercept
}

// censoredFit is a maximum likelihood fit.
type censoredFit struct {
	coefficients  []float64
	scale         float64
	logLikelihood float64
	// covariance is that of the coefficients and, last, of the scale.
	covariance *mat.SymDense
}

// fitCensored fits the model by maximum likelihood. start is a rough scale of
// the errors, above zero.
func fitCensored(readings []censoredReading, l law, start float64) (censoredFit, error) {
	k := len(readings[0].x)
	theta := make([]float64, k+1)
	if err := firstGuess(readings, theta, start); err != nil {
		return censoredFit{}, err
	}
	for range 200 {
		value, gradient, information := censoredLikelihood(readings, l, theta)
		if !finite(value) {
			return censoredFit{}, errors.New("the likelihood cannot be computed: readings too far apart in size")
		}
		var factor mat.Cholesky
		if !factor.Factorize(information) {
			return censoredFit{}, errors.New("the readings do not fix the fit: too few are exact, or they lie at too few places")
		}
		var step mat.VecDense
		if err := factor.SolveVecTo(&step, gradient); err != nil && !isCondition(err) {
			return censoredFit{}, errors.New("the readings do not fix the fit")
		}
		gain := mat.Dot(&step, gradient)
		if gain < 1e-14*(1+math.Abs(value)) {
			return finishCensored(theta, value, &factor)
		}
		if !takeStep(readings, l, theta, &step, value) {
			return finishCensored(theta, value, &factor)
		}
	}
	return censoredFit{}, errors.New("the fit does not settle: the readings do not bound it")
}

// firstGuess puts the least-squares line through the readings' middles into
// theta, as b/s and 1/s. The scale is no less than what that line leaves, so that
// no reading lies where its chance is nought.
func firstGuess(readings []censoredReading, theta []float64, scale float64) error {
	k := len(theta) - 1
	a, b := mat.NewDense(len(readings), k, nil), mat.NewVecDense(len(readings), nil)
	for i, r := range readings {
		middle := (r.low + r.high) / 2
		if math.IsInf(r.low, -1) {
			middle = r.high
		} else if math.IsInf(r.high, 1) {
			middle = r.low
		}
		a.SetRow(i, r.x)
		b.SetVec(i, middle)
	}
	var solution mat.VecDense
	if err := solution.SolveVec(a, b); err != nil {
		return errors.New("the readings do not fix the fit: they lie at too few places")
	}
	var off mat.VecDense
	off.MulVec(a, &solution)
	off.SubVec(b, &off)
	scale = math.Max(scale, mat.Norm(&off, 2)/math.Sqrt(float64(len(readings))))
	for j := range k {
		theta[j] = solution.AtVec(j) / scale
	}
	theta[k] = 1 / scale
	return nil
}

// takeStep moves theta along the step, halved until the likelihood rises and
// the scale stays above zero; false when it cannot rise.
func takeStep(readings []censoredReading, l law, theta []float64, step *mat.VecDense, value float64) bool {
	trial := make([]float64, len(theta))
	for t := 1.0; t > 1e-10; t /= 2 {
		for j := range theta {
			trial[j] = theta[j] + t*step.AtVec(j)
		}
		if trial[len(trial)-1] <= 0 {
			continue
		}
		if after, _, _ := censoredLikelihood(readings, l, trial); after > value {
			copy(theta, trial)
			return true
		}
	}
	return false
}

// censoredLikelihood returns the log likelihood, its gradient and minus its
// second derivatives in theta = (b/s, 1/s).
func censoredLikelihood(readings []censoredReading, l law, theta []float64) (float64, *mat.VecDense, *mat.SymDense) {
	k := len(theta) - 1
	tau := theta[k]
	gradient, information := mat.NewVecDense(k+1, nil), mat.NewSymDense(k+1, nil)
	low, high := mat.NewVecDense(k+1, nil), mat.NewVecDense(k+1, nil)
	var value float64
	for _, r := range readings {
		a, b := censoredEdge(r.x, r.low, theta, low), censoredEdge(r.x, r.high, theta, high)
		if r.low == r.high {
			f, first, second := l.logDensity(a)
			value += r.count * (f + math.Log(tau))
			gradient.AddScaledVec(gradient, r.count*first, low)
			gradient.SetVec(k, gradient.AtVec(k)+r.count/tau)
			information.SymRankOne(information, -r.count*second, low)
			information.SetSym(k, k, information.At(k, k)+r.count/tau/tau)
			continue
		}
		p := l.chance(a, b)
		value += r.count * math.Log(p)
		slope := mat.NewVecDense(k+1, nil)
		for _, edge := range []struct {
			z, sign float64
			v       *mat.VecDense
		}{{a, -1, low}, {b, 1, high}} {
			if math.IsInf(edge.z, 0) {
				continue
			}
			f, first, _ := l.logDensity(edge.z)
			density := edge.sign * math.Exp(f) / p
			slope.AddScaledVec(slope, density, edge.v)
			information.SymRankOne(information, -r.count*density*first, edge.v)
		}
		gradient.AddScaledVec(gradient, r.count, slope)
		information.SymRankOne(information, r.count, slope)
	}
	return value, gradient, information
}

// censoredEdge returns z = y/s - x'b/s and puts its derivatives into v.
func censoredEdge(x []float64, y float64, theta []float64, v *mat.VecDense) float64 {
	k := len(theta) - 1
	if math.IsInf(y, 0) {
		return y
	}
	z := theta[k] * y
	for j, xj := range x {
		z -= theta[j] * xj
		v.SetVec(j, -xj)
	}
	v.SetVec(k, y)
	return z
}

// finishCensored turns theta and its information into coefficients and scale
// with their covariance.
func finishCensored(theta []float64, value float64, factor *mat.Cholesky) (censoredFit, error) {
	k := len(theta) - 1
	scale := 1 / theta[k]
	fit := censoredFit{coefficients: make([]float64, k), scale: scale, logLikelihood: value}
	jacobian := mat.NewDense(k+1, k+1, nil)
	for j := range k {
		fit.coefficients[j] = theta[j] * scale
		jacobian.Set(j, j, scale)
		jacobian.Set(j, k, -theta[j]*scale*scale)
	}
	jacobian.Set(k, k, -scale*scale)
	var inverse mat.SymDense
	if err := factor.InverseTo(&inverse); err != nil && !isCondition(err) {
		return censoredFit{}, errors.New("the readings do not fix the fit")
	}
	fit.covariance = congruence(jacobian, &inverse)
	return fit, nil
}

// profileInterval returns the interval of a coefficient in which the likelihood,
// made best over everything else, is short of its greatest value by no more than
// drop. The coefficient is held by taking its share off the readings.
func profileInterval(readings []censoredReading, l law, fit censoredFit, j int, drop float64) (low, high float64, err error) {
	u := math.Sqrt(fit.covariance.At(j, j))
	excess := func(b float64) (float64, error) {
		held := make([]censoredReading, len(readings))
		for i, r := range readings {
			x := append(append([]float64(nil), r.x[:j]...), r.x[j+1:]...)
			held[i] = censoredReading{r.low - b*r.x[j], r.high - b*r.x[j], r.count, x}
		}
		at, err := fitCensored(held, l, fit.scale)
		return fit.logLikelihood - at.logLikelihood - drop, err
	}
	ends := [2]float64{}
	for k, side := range []float64{-1, 1} {
		if ends[k], err = crossing(excess, fit.coefficients[j], side*u); err != nil {
			return 0, 0, err
		}
	}
	return ends[0], ends[1], nil
}

// crossing returns where f rises through zero, going from a point where it is
// below zero in steps that double, then by the secant that keeps the zero between
// its ends (the Illinois rule: an end that stays is given half its value).
func crossing(f func(float64) (float64, error), from, step float64) (float64, error) {
	inside, outside, above := from, from+step, 0.0
	below, err := f(from)
	for range 40 {
		if err != nil {
			break
		}
		if above, err = f(outside); err != nil || above > 0 {
			break
		}
		inside, below, outside, step = outside, above, outside+2*step, 2*step
	}
	last := 0
	for range 60 {
		if err != nil || !(above > 0) || math.Abs(outside-inside) <= 1e-10*math.Abs(step) {
			break
		}
		at := inside - below*(outside-inside)/(above-below)
		var v float64
		if v, err = f(at); v > 0 {
			if outside, above = at, v; last == 1 {
				below /= 2
			}
			last = 1
		} else {
			if inside, below = at, v; last == -1 {
				above /= 2
			}
			last = -1
		}
	}
	return (inside + outside) / 2, err
}
