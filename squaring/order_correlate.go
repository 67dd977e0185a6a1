package squaring

// Shares that go together are drawn from correlated normal numbers, each put
// through the function that gives it its spread: the number itself, or the
// quantile of its chance. The correlation of two such shares is a power series in
// that of their numbers,
//
//	r = sum over k of a_k b_k q^k
//
// with a and b the coefficients of the two functions, of unit variance, in
// normalised Hermite polynomials (Mehler's formula, from memory). It rises with q,
// and is turned round by halving. Two rectangular shares have a closed form,
// q = 2 sin(pi r / 6) (W. H. Kruskal, Ordinal measures of association, JASA 53,
// 1958, from memory), which holds where the series is slow.

import (
	"math"
	"slices"
)

// hermiteTerms is the number of coefficients: those of the triangle fall as the
// square of their number, so that its variance is met to 1e-5.
const hermiteTerms = 60

// value returns a share's value, of width one, for a standard normal number.
func (s Spread) value(z float64) float64 {
	switch s {
	case NormalSpread:
		return z
	case RectangularSpread:
		return math.Erf(z / math.Sqrt2)
	case TriangularSpread:
		tail := math.Erfc(math.Abs(z) / math.Sqrt2) // both tails together
		return math.Copysign(1-math.Sqrt(tail), z)
	}
	return 0
}

// hermite returns the coefficients of the spread's value, of unit variance, in the
// normalised Hermite polynomials 1 to hermiteTerms.
func (s Spread) hermite() []float64 {
	coefficients := make([]float64, hermiteTerms)
	const reach, step = 10.0, 0.01
	for i := range int(2*reach/step) + 1 {
		z := -reach + step*float64(i)
		weighed := s.value(z) / s.Uncertainty(1) * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * step
		before, h := 0.0, 1.0
		for k := range coefficients {
			before, h = h, (z*h-math.Sqrt(float64(k))*before)/math.Sqrt(float64(k+1))
			coefficients[k] += weighed * h
		}
	}
	return coefficients
}

// seriesAt returns the correlation of two shares whose numbers are correlated by q.
func seriesAt(a, b []float64, q float64) float64 {
	sum, power := 0.0, 1.0
	for k := range a {
		power *= q
		sum += a[k] * b[k] * power
	}
	return sum
}

// normalFor returns the correlation of the normal numbers behind two shares that
// are to be correlated by r; beyond 1 when no numbers give that much.
func normalFor(first, second Spread, r float64, coefficients map[Spread][]float64) float64 {
	switch {
	case first == FixedSpread || second == FixedSpread || first == NormalSpread && second == NormalSpread:
		return r
	case first == RectangularSpread && second == RectangularSpread:
		return 2 * math.Sin(math.Pi*r/6)
	}
	a, b := coefficients[first], coefficients[second]
	most := seriesAt(a, b, 1)
	if first == second {
		r *= most // what the coefficients left out lack
	}
	if math.Abs(r) > most {
		return r / most
	}
	low, high := -1.0, 1.0
	for range 60 {
		middle := (low + high) / 2
		if seriesAt(a, b, middle) < r {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// normalCorrelation returns the correlation of the normal numbers behind the
// shares.
func (o Order) normalCorrelation(c [][]float64) [][]float64 {
	coefficients := map[Spread][]float64{}
	for _, s := range o.Shares {
		if s.Spread != FixedSpread && coefficients[s.Spread] == nil {
			coefficients[s.Spread] = s.Spread.hermite()
		}
	}
	n := make([][]float64, len(c))
	for i := range c {
		n[i] = slices.Clone(c[i])
		for j := range c[i] {
			if i != j && c[i][j] != 0 {
				n[i][j] = normalFor(o.Shares[i].Spread, o.Shares[j].Spread, c[i][j], coefficients)
			}
		}
	}
	return n
}
