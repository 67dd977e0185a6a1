package plating

// The boundary-integral equations of a section and their reduction to the
// electrodes. With potentials p and outward gradients q on the elements,
//
//	H p = G q + c 1,   sum of area times q = 0 over the electrodes
//
// On insulators q = 0, so their p is eliminated once; what is left is one
// matrix from the potentials at the electrodes to the gradients there,
//
//	q = D p,  D 1 = 0
//
// The unknown constant c carries the charge balance: it is the potential at
// infinity where there is one, and on a closed section it goes to zero with the
// size of the elements, which measures them. With an anode at infinity there is
// no balance to keep and p is counted from infinity.

import (
	"errors"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"
)

// system is a section on one mesh.
type system struct {
	section  Section
	loops    []loop
	elements []element
	// electrodes and insulators are indices of elements.
	electrodes, insulators []int
	// h and g are the integrals over elements (columns) seen from the middles
	// of elements (rows); the columns of g are the electrodes only.
	h, g *mat.Dense
	// walls is the factorisation of the insulators' own equations, shifted by
	// their mean potential so that a wholly insulating wall has one solution.
	walls *factors
	network
}

// network is a field reduced to its electrodes' elements, in two dimensions or
// three.
type network struct {
	roles []Role
	// area holds the area of each element in m2.
	area []float64
	// farAnode is true when the current comes from infinity.
	farAnode bool
	// single and double are the matrices G and H of the equations
	//
	//	G j + kappa H p = c d,  sum of area times j = 0
	//
	// between current densities j and potentials p. In two dimensions G is the
	// identity, for which single is nil, and H is D above, which has the balance
	// in it. balance is d, nil where the balance is no equation of its own.
	single, double *mat.Dense
	balance        []float64
	// lossOfPotential gives, from the potentials at the electrodes, the charge
	// in units of gradient times area that the mesh loses before c makes it
	// good; nil where that is not measured.
	lossOfPotential []float64
}

// newSystem meshes the loops and reduces their equations.
func newSystem(section Section, loops []loop, elements int) (*system, error) {
	s := &system{section: section, loops: loops}
	s.farAnode = section.farAnode()
	var err error
	if s.elements, err = newMesher(section, loops).mesh(elements); err != nil {
		return nil, err
	}
	for i := range s.elements {
		if role := s.elements[i].role; role.electrode() {
			s.electrodes = append(s.electrodes, i)
			s.roles = append(s.roles, role)
		} else {
			s.insulators = append(s.insulators, i)
		}
	}
	n := len(s.elements)
	s.h, s.g = mat.NewDense(n, n, nil), mat.NewDense(n, len(s.electrodes), nil)
	s.assemble(func(int) bool { return true })
	return s, s.reduce()
}

// assemble fills h and g where either element of a pair lies on one of the
// chosen outlines.
func (s *system) assemble(chosen func(outline int) bool) {
	k := kernel{s.section.Axisymmetric}
	column := make([]int, len(s.elements))
	for e, i := range s.electrodes {
		column[i] = e
	}
	for i := range s.elements {
		h, g := s.h.RawRowView(i), s.g.RawRowView(i)
		all := chosen(s.elements[i].edge.outline)
		for j := range s.elements {
			if all || chosen(s.elements[j].edge.outline) {
				h[j] = 0
			}
		}
		for j := range s.elements {
			el := &s.elements[j]
			if !all && !chosen(el.edge.outline) {
				continue
			}
			v := s.pair(k, i, j)
			h[j] += v.h
			h[el.after] += v.m * el.slope
			h[el.before] -= v.m * el.slope
			if el.role.electrode() {
				g[column[j]] = v.g
			}
		}
	}
	s.closeRows()
}

// pair returns the integrals of element j seen from the middle of element i,
// with the mirror image where there is one.
func (s *system) pair(k kernel, i, j int) integrals {
	el, x := &s.elements[j], s.elements[i].mid
	var v integrals
	if i == j {
		v = k.self(el)
	} else {
		v = k.pair(x, el)
	}
	if !s.section.Mirror {
		return v
	}
	if el.flat {
		// The image lies on the element itself, and its normal points back.
		return integrals{g: 2 * v.g}
	}
	return v.plus(k.pair(r2.Vec{X: x.X, Y: -x.Y}, el))
}

// closeRows sets the diagonal of h from the identity that a constant potential
// drives no current: over the loop on which i lies, the sum of the row is 1
// for a hole and 0 for the outermost loop.
func (s *system) closeRows() {
	for i := range s.elements {
		row := s.h.RawRowView(i)
		want := 0.0
		if s.loops[s.elements[i].loop].hole {
			want = 1
		}
		for j := range s.elements {
			if s.elements[j].loop == s.elements[i].loop {
				want -= row[j]
			}
		}
		row[i] += want
	}
}

// factorWalls factorises the equations of the insulators.
func (s *system) factorWalls() {
	n := len(s.insulators)
	if n == 0 {
		return
	}
	a := mat.NewDense(n, n, nil)
	for r, i := range s.insulators {
		row, from := a.RawRowView(r), s.h.RawRowView(i)
		for c, j := range s.insulators {
			row[c] = from[j] + s.shift()
		}
	}
	s.walls = factorize(a)
}

// shift is the weight of each insulator's potential in the mean that is added
// to every equation, and taken off again through c.
func (s *system) shift() float64 {
	if s.farAnode || len(s.insulators) == 0 {
		return 0
	}
	return 1 / float64(len(s.insulators))
}

// reduce eliminates the insulators and solves for the electrodes' gradients.
func (s *system) reduce() error {
	if s.walls == nil {
		s.factorWalls()
	}
	ne, nw := len(s.electrodes), len(s.insulators)
	s.area = make([]float64, ne)
	for e, i := range s.electrodes {
		s.area[e] = s.elements[i].area
		if !s.section.Axisymmetric {
			s.area[e] *= float64(s.section.Depth)
		}
	}
	// Columns: potentials, gradients, constant; rows: electrodes.
	reduced := s.columns(s.electrodes)
	// wallAnswer holds, in the same columns, the insulators' potentials.
	var wallAnswer *mat.Dense
	if nw > 0 {
		wallAnswer = s.columns(s.insulators)
		if err := s.walls.solve(wallAnswer); err != nil {
			return err
		}
		fromWalls := mat.NewDense(ne, nw, nil)
		for r, i := range s.electrodes {
			row, from := fromWalls.RawRowView(r), s.h.RawRowView(i)
			for c, j := range s.insulators {
				row[c] = from[j] + s.shift()
			}
		}
		var product mat.Dense
		product.Mul(fromWalls, wallAnswer)
		reduced.Sub(reduced, &product)
	}
	return s.solveGradients(reduced, wallAnswer)
}

// columns returns the rows of H_e, G_e and 1 for some elements, where e are the
// electrodes.
func (s *system) columns(rows []int) *mat.Dense {
	ne := len(s.electrodes)
	c := mat.NewDense(len(rows), 2*ne+1, nil)
	for r, i := range rows {
		row, h := c.RawRowView(r), s.h.RawRowView(i)
		for e, j := range s.electrodes {
			row[e] = h[j]
		}
		copy(row[ne:], s.g.RawRowView(i))
		row[2*ne] = 1
	}
	return c
}

// solveGradients turns the reduced equations S p = T q + c v, with the charge
// balance, into D and the measure of lost charge.
func (s *system) solveGradients(reduced, wallAnswer *mat.Dense) error {
	ne := len(s.electrodes)
	size := ne + 1
	if s.farAnode {
		size = ne
	}
	a, answer := mat.NewDense(size, size, nil), mat.NewDense(size, ne+1, nil)
	a.Slice(0, ne, 0, ne).(*mat.Dense).Copy(reduced.Slice(0, ne, ne, 2*ne))
	answer.Slice(0, ne, 0, ne).(*mat.Dense).Copy(reduced.Slice(0, ne, 0, ne))
	if size > ne {
		total := 0.0
		for _, area := range s.area {
			total += area
		}
		for e := range s.area {
			a.Set(e, ne, reduced.At(e, 2*ne))
			a.Set(ne, e, s.area[e]/total)
		}
		answer.Set(ne, ne, 1/total)
	}
	if err := factorize(a).solve(answer); err != nil {
		return err
	}
	s.double = mat.DenseCopyOf(answer.Slice(0, ne, 0, ne))
	if size > ne && !s.section.Unbounded {
		s.measureLoss(answer, wallAnswer)
	}
	return nil
}

// measureLoss finds the loss of charge that the mesh would have with c = 0. The
// last column of answer is the response to one unit of charge left over. With
// w the mean over the insulators, c is what was solved for less w of their
// potentials; one unit of lost charge changes it by a fixed amount. On an
// unbounded section c is the potential at infinity, which is not zero, and tells
// nothing of the mesh.
func (s *system) measureLoss(answer, wallAnswer *mat.Dense) {
	ne, nw := len(s.electrodes), len(s.insulators)
	mean := make([]float64, 2*ne+1) // w of wallAnswer's columns
	for r := range nw {
		for c, v := range wallAnswer.RawRowView(r) {
			mean[c] += v * s.shift()
		}
	}
	// constant returns c of a solution with zero potentials at the electrodes,
	// or of one with potential 1 at electrode k, by its column in answer.
	constant := func(column int) float64 {
		solved := answer.At(ne, column)
		wall := solved * mean[2*ne]
		for e := range ne {
			wall += mean[ne+e] * answer.At(e, column)
		}
		if column < ne {
			wall -= mean[column]
		}
		return solved - wall
	}
	unit := constant(ne)
	s.lossOfPotential = make([]float64, ne)
	for e := range ne {
		s.lossOfPotential[e] = -constant(e) / unit
	}
}

// product sets dst to G j + kappa H p; either may be nil for zero.
func (s *network) product(dst, current, potential []float64, kappa float64) {
	inParallel(len(dst), func(from, to int) {
		for i := from; i < to; i++ {
			dst[i] = 0
			if potential != nil {
				dst[i] = kappa * floats.Dot(s.double.RawRowView(i), potential)
			}
			switch {
			case current == nil:
			case s.single == nil:
				dst[i] += current[i]
			default:
				dst[i] += floats.Dot(s.single.RawRowView(i), current)
			}
		}
	})
}

// loss returns the charge, as gradient times area, that the mesh loses with the
// given potentials at the electrodes; zero where that is not measured.
func (s *network) loss(potential []float64) float64 {
	sum := 0.0
	for e, l := range s.lossOfPotential {
		sum += l * potential[e]
	}
	return sum
}

// factors is a square matrix in factors L and U with their exchanges of rows.
type factors struct {
	lu        *mat.Dense
	exchanges []int
}

// factorize returns the factors of a matrix, which they take the place of. The
// condition number that [mat.LU] finds as well is left out: graded elements
// have a large one and are sound, and it costs as much as a tenth of the rest.
func factorize(a *mat.Dense) *factors {
	n, _ := a.Dims()
	f := &factors{a, make([]int, n)}
	lapack64.Getrf(a.RawMatrix(), f.exchanges)
	return f
}

// solvedTogether is how many columns are solved at a time: few enough for them
// to stay in a processor's cache.
const solvedTogether = 64

// solve replaces the columns of b by the answers to them, and returns an error
// when the equations have none.
func (f *factors) solve(b *mat.Dense) error {
	rows, columns := b.Dims()
	inParallel((columns+solvedTogether-1)/solvedTogether, func(from, to int) {
		for k := from; k < to; k++ {
			part := b.Slice(0, rows, k*solvedTogether, min((k+1)*solvedTogether, columns)).(*mat.Dense)
			block := mat.DenseCopyOf(part)
			lapack64.Getrs(blas.NoTrans, f.lu.RawMatrix(), block.RawMatrix(), f.exchanges)
			part.Copy(block)
		}
	})
	for i := range rows {
		for _, v := range b.RawRowView(i) {
			if !isFinite(v) {
				return errSingular
			}
		}
	}
	return nil
}

// errSingular is returned for equations without a single solution.
var errSingular = errors.New("plating: the equations of the field have no single solution")

// solveOne replaces one column by the answer to it.
func (f *factors) solveOne(b []float64) {
	for i, j := range f.exchanges {
		b[i], b[j] = b[j], b[i]
	}
	n := len(b)
	lu := f.lu.RawMatrix()
	x := blas64.Vector{N: n, Inc: 1, Data: b}
	blas64.Trsv(blas.NoTrans, blas64.Triangular{Uplo: blas.Lower, Diag: blas.Unit, N: n, Data: lu.Data, Stride: lu.Stride}, x)
	blas64.Trsv(blas.NoTrans, blas64.Triangular{Uplo: blas.Upper, Diag: blas.NonUnit, N: n, Data: lu.Data, Stride: lu.Stride}, x)
}
