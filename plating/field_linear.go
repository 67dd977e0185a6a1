package plating

// The linear equations of a step of Newton's method. The first are solved by
// factors L and U. Those of later steps differ by the slope of the kinetics
// alone, so that the same factors make them nearly solved, and the method of
// generalised minimal residuals (Y. Saad, M. H. Schultz, "GMRES: a generalized
// minimal residual algorithm for solving nonsymmetric linear systems", SIAM J.
// Sci. Stat. Comput. 7 (1986) 856; from memory) does the rest.

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// tangent is the equations of one step: on each element the unknown stands for
// both changes, j = a u and eta = b u with b/a the slope of overpotential
// against current density, so that neither a slope of zero nor a very large one
// spoils them. After the elements come the constant of the balance, where there
// is one, and the cell voltage, when the current is prescribed.
type tangent struct {
	p    *problem
	a, b []float64
	// current and potential have room for a product.
	current, potential []float64
}

// newTangent returns the equations at the given slopes.
func newTangent(p *problem, slope []float64) *tangent {
	n := len(slope)
	t := &tangent{p: p, a: make([]float64, n), b: make([]float64, n), current: make([]float64, n), potential: make([]float64, n)}
	// The bath's own resistance over an area sets what a large slope is.
	bath := p.resistance * p.cathodeArea
	for e, r := range slope {
		if math.IsInf(r, 0) {
			t.b[e] = bath
			continue
		}
		t.a[e] = bath / (bath + r)
		t.b[e] = bath * r / (bath + r)
	}
	return t
}

// multiply sets dst to the left-hand sides at x.
func (t *tangent) multiply(dst, x []float64) {
	p, n := t.p, len(t.a)
	for e := range n {
		t.current[e], t.potential[e] = t.a[e]*x[e], t.b[e]*x[e]
	}
	p.product(dst[:n], t.current, t.potential, p.kappa)
	at := n
	if p.balance != nil {
		for e, d := range p.balance {
			dst[e] -= d * x[at]
		}
		dst[at] = p.charge(t.current)
		at++
	}
	if p.c.Current > 0 {
		for e, f := range p.field {
			dst[e] += p.kappa * f * x[at]
		}
		dst[at] = p.cathodeCurrent(t.current) / p.cathodeArea
	}
}

// fill sets m to the equations.
func (t *tangent) fill(m *mat.Dense) {
	p, n := t.p, len(t.a)
	size, _ := m.Dims()
	inParallel(n, func(from, to int) {
		for e := from; e < to; e++ {
			row, double := m.RawRowView(e), p.double.RawRowView(e)
			for k := range n {
				row[k] = p.kappa * double[k] * t.b[k]
			}
			if p.single == nil {
				row[e] += t.a[e]
			} else {
				for k, g := range p.single.RawRowView(e) {
					row[k] += g * t.a[k]
				}
			}
		}
	})
	at := n
	if p.balance != nil {
		total := floats.Sum(p.area)
		for e, d := range p.balance {
			m.Set(e, at, -d)
			m.Set(at, e, t.a[e]*p.area[e]/total)
		}
		m.Set(at, at, 0)
		at++
	}
	if p.c.Current > 0 {
		for e, f := range p.field {
			share := 0.0
			if p.cathodic(e) {
				share = t.a[e] * p.area[e] / p.cathodeArea
			}
			m.Set(e, at, p.kappa*f)
			m.Set(at, e, share)
		}
		m.Set(at, at, 0)
		if size > n+1 {
			m.Set(at, n, 0)
			m.Set(n, at, 0)
		}
	}
}

// stepAccuracy is the share of a miss that may be left by a step, and
// mostRounds how many rounds the factors of an earlier step are tried for.
const (
	stepAccuracy = 1e-7
	mostRounds   = 40
)

// solve returns the unknowns that take a miss to zero, by the factors that the
// problem has from an earlier step or by new ones.
func (t *tangent) solve(miss []float64) ([]float64, error) {
	right := make([]float64, len(miss))
	floats.ScaleTo(right, -1, miss)
	if f := t.p.factors; f != nil {
		if x, ok := minimalResidual(t.multiply, f.solveOne, right, stepAccuracy, mostRounds); ok {
			return x, nil
		}
	}
	if t.p.newton == nil {
		t.p.newton = mat.NewDense(len(miss), len(miss), nil)
	}
	t.fill(t.p.newton)
	t.p.factors = factorize(t.p.newton)
	t.p.factors.solveOne(right)
	for _, v := range right {
		if !isFinite(v) {
			return nil, errSingular
		}
	}
	return right, nil
}

// minimalResidual solves A x = b by the method of generalised minimal
// residuals, where multiply gives A x and prepare solves roughly in place. It
// returns the answer, and whether no more than the given share of b was left
// after so many rounds.
func minimalResidual(multiply func(dst, x []float64), prepare func([]float64), b []float64, share float64, rounds int) ([]float64, bool) {
	size, first := len(b), floats.Norm(b, 2)
	x := make([]float64, size)
	if first == 0 {
		return x, true
	}
	basis := [][]float64{floats.ScaleTo(make([]float64, size), 1/first, b)}
	prepared := make([]float64, size)
	var columns [][]float64
	var turns [][2]float64
	left := []float64{first}
	for k := range rounds {
		copy(prepared, basis[k])
		prepare(prepared)
		next := make([]float64, size)
		multiply(next, prepared)
		column := make([]float64, k+2)
		for i, v := range basis {
			column[i] = floats.Dot(v, next)
			floats.AddScaled(next, -column[i], v)
		}
		column[k+1] = floats.Norm(next, 2)
		if !isFinite(column[k+1]) {
			return nil, false
		}
		if column[k+1] > 0 {
			floats.Scale(1/column[k+1], next)
		}
		// Turn the new column into the triangle, and the residual with it.
		for i, t := range turns {
			column[i], column[i+1] = t[0]*column[i]+t[1]*column[i+1], t[0]*column[i+1]-t[1]*column[i]
		}
		r := math.Hypot(column[k], column[k+1])
		if r == 0 {
			return nil, false
		}
		turn := [2]float64{column[k] / r, column[k+1] / r}
		column[k] = r
		turns, columns = append(turns, turn), append(columns, column)
		left = append(left, -turn[1]*left[k])
		left[k] *= turn[0]
		if math.Abs(left[k+1]) <= share*first {
			combine(x, basis, columns, left)
			prepare(x)
			return x, true
		}
		basis = append(basis, next)
	}
	return nil, false
}

// combine adds to x the vectors of the basis in the shares that solve the
// triangle of columns for the residual.
func combine(x []float64, basis, columns [][]float64, residual []float64) {
	shares := make([]float64, len(columns))
	for i := len(columns) - 1; i >= 0; i-- {
		shares[i] = residual[i]
		for j := i + 1; j < len(columns); j++ {
			shares[i] -= columns[j][i] * shares[j]
		}
		shares[i] /= columns[i][i]
		floats.AddScaled(x, shares[i], basis[i])
	}
}
