package squaring

// What further rows do to what is known: the low-rank update of the covariance,
// and the free combinations that the rows settle.

import (
	"fmt"

	"gonum.org/v1/gonum/mat"
)

// reduction is the part of an update that belongs to the rows alone.
type reduction struct {
	// lower is the Cholesky factor of W = 1 + A C A'.
	lower *mat.TriDense
	// The singular directions of M = A N, whitened by the factor, that the rows
	// see: directions are over the free combinations, images over the rows.
	directions, images [][]float64
	sigma              []float64
}

// reduce works out what weighted, scaled rows see.
func (k knowledge) reduce(rows [][]surveyTerm) (*reduction, error) {
	m := len(rows)
	w := mat.NewSymDense(m, nil)
	for i := range rows {
		for j := i; j < m; j++ {
			w.SetSym(i, j, k.bilinear(rows[i], rows[j]))
		}
		w.SetSym(i, i, w.At(i, i)+1)
	}
	var chol mat.Cholesky
	if !chol.Factorize(w) {
		return nil, fmt.Errorf("its readings and those before it do not go together in double precision")
	}
	r := &reduction{lower: mat.NewTriDense(m, mat.Lower, nil)}
	chol.LTo(r.lower)
	return r, r.see(k, rows)
}

// see finds the free combinations that the rows see.
func (r *reduction) see(k knowledge, rows [][]surveyTerm) error {
	q := k.freeCount()
	var columns [][]float64
	var numbers []int
	for j := range q {
		column := make([]float64, len(rows))
		for i, row := range rows {
			for _, t := range row {
				column[i] += t.weight * k.free.At(t.unknown, j)
			}
		}
		if norm2(column) > freeTolerance {
			r.forward(column)
			columns, numbers = append(columns, column), append(numbers, j)
		}
	}
	if len(columns) == 0 {
		return nil
	}
	seen := mat.NewDense(len(rows), len(columns), nil)
	for j, column := range columns {
		seen.SetCol(j, column)
	}
	var svd mat.SVD
	if !svd.Factorize(seen, mat.SVDThin) {
		return fmt.Errorf("the singular values of its readings did not settle")
	}
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	for s, sigma := range svd.Values(nil) {
		if sigma <= freeTolerance {
			break
		}
		direction := make([]float64, q)
		for j, number := range numbers {
			direction[number] = v.At(j, s)
		}
		r.directions = append(r.directions, direction)
		r.images = append(r.images, mat.Col(nil, s, &u))
		r.sigma = append(r.sigma, sigma)
	}
	return nil
}

// left returns what of a share along the free combinations the rows do not
// settle.
func (r *reduction) left(free []float64) []float64 {
	left := append([]float64(nil), free...)
	for _, direction := range r.directions {
		var share float64
		for j, d := range direction {
			share += d * free[j]
		}
		for j, d := range direction {
			left[j] -= share * d
		}
	}
	return left
}

// forward replaces v by L^-1 v.
func (r *reduction) forward(v []float64) {
	for i := range v {
		for j := range i {
			v[i] -= r.lower.At(i, j) * v[j]
		}
		v[i] /= r.lower.At(i, i)
	}
}

// bilinear returns s' cov t.
func (k knowledge) bilinear(s, t []surveyTerm) float64 {
	raw := k.cov.RawMatrix()
	var sum float64
	for _, a := range s {
		row := raw.Data[a.unknown*raw.Stride:]
		var inner float64
		for _, b := range t {
			inner += b.weight * row[b.unknown]
		}
		sum += a.weight * inner
	}
	return sum
}

// update returns what is known once the rows have been read:
//
//	cov' = cov - K~ K~' + (Na - K~ U)(Na - K~ U)',  K~ = cov A' L'^-1
//
// with Na = N V / sigma the settled combinations and U their images.
func (k knowledge) update(rows [][]surveyTerm) (knowledge, error) {
	r, err := k.reduce(rows)
	if err != nil {
		return knowledge{}, err
	}
	n, m, s := len(k.scale), len(rows), len(r.sigma)
	gain := mat.NewDense(n, m, nil)
	for i, row := range rows {
		gain.SetCol(i, k.covTimes(row))
	}
	line := make([]float64, m)
	for i := range n {
		mat.Row(line, i, gain)
		r.forward(line)
		gain.SetRow(i, line)
	}
	out := knowledge{scale: k.scale, cov: mat.DenseCopyOf(k.cov)}
	var product mat.Dense
	product.Mul(gain, gain.T())
	out.cov.Sub(out.cov, &product)
	if s == 0 {
		out.free = k.free
		return out, nil
	}
	directions := mat.NewDense(s, k.freeCount(), nil)
	images := mat.NewDense(m, s, nil)
	for j := range s {
		directions.SetRow(j, r.directions[j])
		images.SetCol(j, r.images[j])
	}
	settled := mat.NewDense(n, s, nil)
	settled.Mul(k.free, directions.T())
	for j := range s {
		for i := range n {
			settled.Set(i, j, settled.At(i, j)/r.sigma[j])
		}
	}
	var carried mat.Dense
	carried.Mul(gain, images)
	settled.Sub(settled, &carried)
	product.Reset()
	product.Mul(settled, settled.T())
	out.cov.Add(out.cov, &product)
	out.free = remaining(k.free, directions)
	return out, nil
}

// remaining returns an orthonormal basis of the free combinations square to the
// settled directions; nil when none is left.
func remaining(free, directions *mat.Dense) *mat.Dense {
	n, q := free.Dims()
	s, _ := directions.Dims()
	if s == q {
		return nil
	}
	var qr mat.QR
	qr.Factorize(directions.T())
	var full mat.Dense
	qr.QTo(&full)
	left := mat.NewDense(n, q-s, nil)
	left.Mul(free, full.Slice(0, q, s, q))
	return left
}
