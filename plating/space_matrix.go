package plating

// The boundary-integral equations of a space. With the potentials p and the
// gradients q out of the bath at the facets,
//
//	H p = G q + c 1,   sum of area times q = 0
//
// where the constant c carries the charge balance (in a box it is the mean
// potential times the share of the box that is bath). With an anode at infinity
// there is no balance to keep and no c. The rows are divided by the diagonal of
// G, so that what is left of one is a current density.

import (
	"math"
	"runtime"
	"sync"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// spaceSystem is a space on one mesh.
type spaceSystem struct {
	space  Space
	facets []facet
	network
}

// newSpaceSystem sets up the equations of facets.
func newSpaceSystem(space Space, facets []facet) *spaceSystem {
	s := &spaceSystem{space: space, facets: facets}
	s.farAnode = space.farAnode()
	for _, f := range s.facets {
		s.roles = append(s.roles, space.Bodies[f.body].Role)
		s.area = append(s.area, f.area)
	}
	n := len(s.facets)
	s.single, s.double = mat.NewDense(n, n, nil), mat.NewDense(n, n, nil)
	s.assemble(s.single, s.double)
	if !s.farAnode {
		s.balance = make([]float64, n)
	}
	for i := range n {
		scale := 1 / s.single.At(i, i)
		floats.Scale(scale, s.single.RawRowView(i))
		floats.Scale(scale, s.double.RawRowView(i))
		if !s.farAnode {
			s.balance[i] = scale
		}
	}
	if !s.farAnode {
		floats.Scale(float64(n)/floats.Sum(s.balance), s.balance)
	}
	return s
}

// assemble fills g and h with the integrals over facets (columns) seen from the
// middles of facets (rows), times 4 pi.
func (s *spaceSystem) assemble(g, h *mat.Dense) {
	n := len(s.facets)
	row := s.openRow
	if !s.space.Unbounded {
		b := newBox(s.space.sides())
		mirrors := b.mirrors()
		low, high := s.facets[0].a, s.facets[0].a
		for _, f := range s.facets {
			for _, v := range [3]r3.Vec{f.a, f.b, f.c} {
				low, high = lower(low, v), upper(high, v)
			}
		}
		row = func(i int, g, h []float64) {
			for _, m := range mirrors {
				// An image too far from the box about all facets is not seen.
				x := m.of(s.facets[i].mid)
				if r3.Norm(r3.Sub(x, lower(upper(x, low), high))) <= b.reach {
					s.addImage(b, x, g, h)
				}
			}
		}
	}
	inParallel(n, func(from, to int) {
		for i := from; i < to; i++ {
			row(i, g.RawRowView(i), h.RawRowView(i))
		}
	})
	if !s.space.Unbounded {
		newBox(s.space.sides()).addModes(g, h, s.facets)
	}
	s.closeRows(h)
}

// openRow fills a row of an unbounded space.
func (s *spaceSystem) openRow(i int, g, h []float64) {
	x := s.facets[i].mid
	below := x
	below.Z = -x.Z
	for j := range s.facets {
		k := s.facets[j].seen(x)
		g[j], h[j] = k.g, k.h
		if s.space.Mirror {
			k = s.facets[j].seen(below)
			g[j] += k.g
			h[j] += k.h
		}
	}
}

// addImage adds to a row of a box the share of one image of its place.
func (s *spaceSystem) addImage(b box, x r3.Vec, g, h []float64) {
	for j := range s.facets {
		k := b.seen(&s.facets[j], x)
		g[j] += k.g
		h[j] += k.h
	}
}

// closeRows adds the share of the bath seen by each middle to the diagonal: half
// of the round, the whole for a facet in a side of the box, corrected so that a
// constant potential drives no current. For that all rows must have one sum: a
// whole round in an unbounded space, and in a box the share of it that is bath,
// which is taken as the mean of the rows.
func (s *spaceSystem) closeRows(h *mat.Dense) {
	n := len(s.facets)
	sums := make([]float64, n)
	for i := range n {
		share := 2 * math.Pi
		if s.facets[i].flush {
			share = 4 * math.Pi
		}
		h.Set(i, i, h.At(i, i)+share)
		sums[i] = floats.Sum(h.RawRowView(i))
	}
	want := 4 * math.Pi
	if !s.space.Unbounded {
		want = floats.Sum(sums) / float64(n)
	}
	for i := range n {
		h.Set(i, i, h.At(i, i)+want-sums[i])
	}
}

// inParallel calls f on a run of the numbers below n from each of a few
// goroutines, no more than there are processors, and waits for all.
func inParallel(n int, f func(from, to int)) {
	workers := min(runtime.GOMAXPROCS(0), 8, n)
	var group sync.WaitGroup
	for w := range workers {
		group.Go(func() { f(w*n/workers, (w+1)*n/workers) })
	}
	group.Wait()
}
