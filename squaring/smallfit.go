package squaring

// Linear least squares in up to five unknowns, without allocation. Each row of
// the design is rotated into an upper triangle by Givens rotations, which is a
// QR decomposition taken row by row: nothing is squared, so it loses no more
// figures than Householder's, and the triangle is all that is kept. The
// covariance is sigma^2 (R'R)^-1 and the leverage of a row x is |R'^-1 x|^2.
// Source of the method: G. H. Golub and C. F. Van Loan, Matrix Computations,
// chapter 5 (from memory).

import "math"

// maxUnknowns is the most unknowns of a smallFit: a sweep's mean and two
// harmonics.
const maxUnknowns = 5

// row5 is one row of a design, or one set of unknowns; those beyond the fit's
// own number are zero.
type row5 [maxUnknowns]float64

// smallFit is a least-squares fit in progress. Its zero value, with unknowns
// set, is a fit of no readings.
type smallFit struct {
	unknowns int
	rows     int
	r        [maxUnknowns]row5 // upper triangle
	z        row5              // rotated readings
	rss      float64           // residual sum of squares
}

// add takes in one reading y with its row of the design, both already divided
// by the reading's standard deviation if those differ.
func (f *smallFit) add(x row5, y float64) {
	f.rows++
	for i := 0; i < f.unknowns; i++ {
		if x[i] == 0 {
			continue
		}
		if f.r[i][i] == 0 {
			// No row has reached this unknown yet: the row becomes the
			// triangle's own.
			f.r[i], f.z[i] = x, y
			return
		}
		h := math.Sqrt(f.r[i][i]*f.r[i][i] + x[i]*x[i])
		c, s := f.r[i][i]/h, x[i]/h
		for j := i; j < f.unknowns; j++ {
			f.r[i][j], x[j] = c*f.r[i][j]+s*x[j], c*x[j]-s*f.r[i][j]
		}
		f.z[i], y = c*f.z[i]+s*y, c*y-s*f.z[i]
	}
	f.rss += y * y
}

// weakest returns the ratio of the least to the greatest diagonal element of
// the triangle: zero when an unknown cannot be told, near zero when it hardly
// can.
func (f *smallFit) weakest() float64 {
	least, most := math.Inf(1), 0.0
	for i := 0; i < f.unknowns; i++ {
		d := math.Abs(f.r[i][i])
		least, most = math.Min(least, d), math.Max(most, d)
	}
	if most == 0 {
		return 0
	}
	return least / most
}

// solve returns the unknowns. The fit must not be singular.
func (f *smallFit) solve() row5 {
	var b row5
	for i := f.unknowns - 1; i >= 0; i-- {
		b[i] = f.z[i]
		for j := i + 1; j < f.unknowns; j++ {
			b[i] -= f.r[i][j] * b[j]
		}
		b[i] /= f.r[i][i]
	}
	return b
}

// half returns R'^-1 x: its square is the leverage of the row x, and its
// product with another row's is their covariance over sigma^2.
func (f *smallFit) half(x row5) row5 {
	var v row5
	for i := 0; i < f.unknowns; i++ {
		v[i] = x[i]
		for j := 0; j < i; j++ {
			v[i] -= f.r[j][i] * v[j]
		}
		v[i] /= f.r[i][i]
	}
	return v
}

// covariance returns (R'R)^-1, the covariance of the unknowns over sigma^2.
func (f *smallFit) covariance() [maxUnknowns]row5 {
	var halves, c [maxUnknowns]row5
	for i := 0; i < f.unknowns; i++ {
		var one row5
		one[i] = 1
		halves[i] = f.half(one)
		for j := 0; j <= i; j++ {
			c[i][j] = dot5(halves[i], halves[j])
			c[j][i] = c[i][j]
		}
	}
	return c
}

// first returns the fit to the first unknowns alone: the triangle's leading
// corner is that fit's own, and what the others explained joins its residuals.
func (f *smallFit) first(unknowns int) smallFit {
	g := *f
	g.unknowns = unknowns
	for i := unknowns; i < f.unknowns; i++ {
		g.rss += f.z[i] * f.z[i]
		g.z[i], g.r[i] = 0, row5{}
	}
	return g
}

// degreesOfFreedom returns the readings beyond the unknowns, zero or more.
func (f *smallFit) degreesOfFreedom() int { return max(0, f.rows-f.unknowns) }

// dot5 returns the scalar product of two rows.
func dot5(a, b row5) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
