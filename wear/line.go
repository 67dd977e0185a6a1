package wear

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// line is y = yMean + slope (x - xMean), fitted by least squares about the means
// of the data, which keeps full accuracy where the abscissae are large and close
// together (N. R. Draper and H. Smith, Applied Regression Analysis, 1998, chapter
// 1, from memory; held to the certified values of the NIST Norris data). Sums are
// of squared weights.
type line struct {
	xMean, yMean, slope   float64
	n, sum, sxx, syy, rss float64
}

// fitLine fits a line with the given weights, nil for equal ones: a weight is one
// over a standard deviation. With one abscissa sxx is 0 and the slope is 0.
func fitLine(x, y, w []float64) line {
	squares := make([]float64, len(x))
	for i := range squares {
		squares[i] = 1
		if w != nil {
			squares[i] = w[i] * w[i]
		}
	}
	l := line{xMean: stat.Mean(x, squares), yMean: stat.Mean(y, squares), n: float64(len(x))}
	var sxy float64
	for i, v := range squares {
		dx, dy := x[i]-l.xMean, y[i]-l.yMean
		l.sum, l.sxx, l.syy, sxy = l.sum+v, l.sxx+v*dx*dx, l.syy+v*dy*dy, sxy+v*dx*dy
	}
	if l.sxx > 0 {
		l.slope = sxy / l.sxx
	}
	for i, v := range squares {
		r := y[i] - l.at(x[i])
		l.rss += v * r * r
	}
	return l
}

func (l line) at(x float64) float64 { return l.yMean + l.slope*(x-l.xMean) }

// variance returns that of the line at x, in units of the variance of a reading
// of weight 1.
func (l line) variance(x float64) float64 {
	if l.sxx == 0 {
		return 1 / l.sum
	}
	d := x - l.xMean
	return 1/l.sum + d*d/l.sxx
}

// freedom returns the degrees of freedom that the readings leave.
func (l line) freedom() float64 { return l.n - 2 }

// scatter returns the standard deviation about the line of a reading of weight 1;
// zero where two readings leave none.
func (l line) scatter() float64 {
	if l.n <= 2 {
		return 0
	}
	return math.Sqrt(l.rss / l.freedom())
}

// rSquared returns the share of the variance that the line takes up; 1 when all
// values are equal.
func (l line) rSquared() float64 {
	if l.syy == 0 {
		return 1
	}
	return 1 - l.rss/l.syy
}
