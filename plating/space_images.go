package plating

// The Green function of an insulating box by P. P. Ewald's sum. The mirror
// images of a place x in the box with sides L stand at s x + 2 m L, with signs s
// and whole numbers m for each axis. Their sum of 1/(4 pi r), less an even
// background that carries off the charge, is
//
//	G = sum over images of erfc(a r)/(4 pi r)
//	  + (1/V) sum over modes k of w exp(-k^2/4a^2)/k^2 c(x) c(y) + constant
//
// where a mode is a product c of cosines cos(pi m x/L), k^2 the sum of the
// squares of pi m/L, and w is 2 for each m above zero. The constant drops out
// because the charges on the electrodes add to nothing.

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// Screen and cut of the sum: a is so many times one over the box's mean side,
// which balances images against modes, and both are left off where
// exp(-cut^2) is under a millionth.
const (
	screenPerSide = 3.4
	screenCut     = 3.8
)

// mirror is a sign and a shift in m for each axis.
type mirror struct{ sign, shift [3]float64 }

// of returns the image of a place.
func (m mirror) of(x r3.Vec) r3.Vec {
	return r3.Vec{X: m.sign[0]*x.X + m.shift[0], Y: m.sign[1]*x.Y + m.shift[1], Z: m.sign[2]*x.Z + m.shift[2]}
}

// box is an insulating box of the given sides in m.
type box struct {
	sides [3]float64
	screen
}

// newBox returns the box with its screen.
func newBox(sides [3]float64) box {
	a := screenPerSide / math.Cbrt(sides[0]*sides[1]*sides[2])
	return box{sides, newScreen(a)}
}

// mirrors returns the images that can come within the screen's reach of the
// box.
func (b box) mirrors() []mirror {
	var axes [3][][2]float64
	for i, l := range b.sides {
		most := int(math.Ceil((b.reach/l + 1) / 2))
		for m := -most; m <= most; m++ {
			for _, sign := range []float64{1, -1} {
				// The image of the box spans the shift to the shift plus
				// the sign times the side.
				low := 2*float64(m)*l + math.Min(0, sign*l)
				if low <= l+b.reach && low+l >= -b.reach {
					axes[i] = append(axes[i], [2]float64{sign, 2 * float64(m) * l})
				}
			}
		}
	}
	var all []mirror
	for _, x := range axes[0] {
		for _, y := range axes[1] {
			for _, z := range axes[2] {
				all = append(all, mirror{[3]float64{x[0], y[0], z[0]}, [3]float64{x[1], y[1], z[1]}})
			}
		}
	}
	return all
}

// mode is a standing wave of the box: how many half waves along each axis, and
// its weight in the sum, times 4 pi.
type mode struct {
	m      [3]int
	weight float64
}

// modes returns the modes of the sum.
func (b box) modes() []mode {
	most := 2 * b.a * screenCut
	volume := b.sides[0] * b.sides[1] * b.sides[2]
	var n [3]int
	for i, l := range b.sides {
		n[i] = int(most * l / math.Pi)
	}
	var all []mode
	for x := range n[0] + 1 {
		for y := range n[1] + 1 {
			for z := range n[2] + 1 {
				kk, weight := 0.0, 4*math.Pi/volume
				for i, m := range [3]int{x, y, z} {
					k := math.Pi * float64(m) / b.sides[i]
					kk += k * k
					if m > 0 {
						weight *= 2
					}
				}
				if kk > 0 && kk <= most*most {
					all = append(all, mode{[3]int{x, y, z}, weight * math.Exp(-kk/(4*b.a*b.a)) / kk})
				}
			}
		}
	}
	return all
}

// waves holds cosines and sines of the half waves at one place, along each
// axis.
type waves struct{ cos, sin [3][]float64 }

// at fills in the waves at a place.
func (w *waves) at(b box, x r3.Vec) {
	for i, l := range b.sides {
		n := int(2*b.a*screenCut*l/math.Pi) + 1
		if w.cos[i] == nil {
			w.cos[i], w.sin[i] = make([]float64, n), make([]float64, n)
		}
		for m := range n {
			w.sin[i][m], w.cos[i][m] = math.Sincos(math.Pi * float64(m) * component(x, i) / l)
		}
	}
}

// addModes adds the modes' share to the integrals g and h, 4 pi times those of
// the sum: rows are the middles of facets, columns the facets.
func (b box) addModes(g, h *mat.Dense, facets []facet) {
	modes := b.modes()
	n := len(facets)
	seen := mat.NewDense(n, len(modes), nil)
	overG, overH := mat.NewDense(n, len(modes), nil), mat.NewDense(n, len(modes), nil)
	inParallel(n, func(from, to int) {
		var w waves
		for i := from; i < to; i++ {
			f := &facets[i]
			w.at(b, f.mid)
			row := seen.RawRowView(i)
			for k, m := range modes {
				row[k] = m.weight * w.cos[0][m.m[0]] * w.cos[1][m.m[1]] * w.cos[2][m.m[2]]
			}
			for _, y := range f.places() {
				w.at(b, y)
				b.overFacet(&w, f, modes, overG.RawRowView(i), overH.RawRowView(i))
			}
		}
	})
	blas64.Gemm(blas.NoTrans, blas.Trans, 1, seen.RawMatrix(), overG.RawMatrix(), 1, g.RawMatrix())
	blas64.Gemm(blas.NoTrans, blas.Trans, 1, seen.RawMatrix(), overH.RawMatrix(), 1, h.RawMatrix())
}

// overFacet adds the share of one of the three places of a facet to the
// integrals of the modes over it, and of their slopes along the normal into
// the body.
func (b box) overFacet(w *waves, f *facet, modes []mode, g, h []float64) {
	third := f.area / 3
	slope := [3]float64{}
	for i, l := range b.sides {
		slope[i] = third * component(f.normal, i) * math.Pi / l
	}
	for k, m := range modes {
		x, y, z := m.m[0], m.m[1], m.m[2]
		cx, cy, cz := w.cos[0][x], w.cos[1][y], w.cos[2][z]
		g[k] += third * cx * cy * cz
		h[k] += slope[0]*float64(x)*w.sin[0][x]*cy*cz + slope[1]*float64(y)*w.sin[1][y]*cx*cz + slope[2]*float64(z)*w.sin[2][z]*cx*cy
	}
}
