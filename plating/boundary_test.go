package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r2"
)

// elementOn returns the element that is the whole of an edge.
func elementOn(a, b r2.Vec, bulge float64, axisymmetric bool) *element {
	e := newEdge(a, b, bulge)
	el := &element{s0: 0, s1: e.length}
	el.place(&e, axisymmetric)
	return el
}

// byQuadrature integrates the kernel with very many points.
func byQuadrature(k kernel, x r2.Vec, el *element) integrals {
	integral := func(part func(g, h, s float64) float64) float64 {
		sum := 0.0
		const pieces = 400
		for i := range pieces {
			from, to := el.length*float64(i)/pieces, el.length*float64(i+1)/pieces
			sum += quad.Fixed(func(s float64) float64 {
				y, t := el.edge.at(s)
				g, h := k.source(x, y, r2.Vec{X: t.Y, Y: -t.X})
				return part(g, h, s-el.length/2)
			}, from, to, 8, quad.Legendre{}, 0)
		}
		return sum
	}
	return integrals{
		g: integral(func(g, _, _ float64) float64 { return g }),
		h: integral(func(_, h, _ float64) float64 { return h }),
		m: integral(func(_, h, s float64) float64 { return h * s }),
	}
}

func TestPair(t *testing.T) {
	// Against brute-force quadrature, from far away to a tenth of the element's
	// length. The rules of integrate are good to one part in a million of an
	// element's own scale; the closed forms are better.
	points := []r2.Vec{{X: 3, Y: 2}, {X: 1.2, Y: 0.4}, {X: 1.5, Y: 0.05}, {X: 0.3, Y: -0.2}, {X: 2.1, Y: 1.1}}
	for _, axisymmetric := range []bool{false, true} {
		k := kernel{axisymmetric}
		for _, bulge := range []float64{0, 0.2, -0.2} {
			el := elementOn(r2.Vec{X: 1}, r2.Vec{X: 2, Y: 0.2}, bulge, axisymmetric)
			for _, x := range points {
				got, want := k.pair(x, el), byQuadrature(k, x, el)
				for _, v := range []struct {
					name      string
					got, want float64
				}{{"g", got.g, want.g}, {"h", got.h, want.h}, {"m", got.m, want.m}} {
					if !scalar.EqualWithinAbsOrRel(v.got, v.want, 3e-6, 3e-6) {
						t.Errorf("axisymmetric %v, bulge %v, from %v: %s = %v, want %v", axisymmetric, bulge, x, v.name, v.got, v.want)
					}
				}
			}
		}
	}
}

func TestSelf(t *testing.T) {
	// The integrals seen from the middle are the limit of those seen from beside
	// it: g is continuous there. The limit is taken by Richardson's rule from two
	// distances; its own error is of their order squared.
	for _, axisymmetric := range []bool{false, true} {
		k := kernel{axisymmetric}
		for _, bulge := range []float64{0, 0.15} {
			el := elementOn(r2.Vec{X: 1}, r2.Vec{X: 1.5, Y: 0.3}, bulge, axisymmetric)
			beside := func(d float64) float64 {
				left, right := r2.Add(el.mid, r2.Scale(d, el.normal)), r2.Sub(el.mid, r2.Scale(d, el.normal))
				return (k.pair(left, el).g + k.pair(right, el).g) / 2
			}
			want := 2*beside(1e-4) - beside(2e-4)
			if got := k.self(el).g; !scalar.EqualWithinRel(got, want, 1e-5) {
				t.Errorf("axisymmetric %v, bulge %v: g from the middle = %v, want %v", axisymmetric, bulge, got, want)
			}
		}
	}
}

func TestRowsOfClosedLoop(t *testing.T) {
	// Over a closed loop the sum of h is -1 seen from inside and 0 from outside,
	// with arcs, straight lines and rings alike (Gauss's law); good to the rules
	// of integrate.
	for _, axisymmetric := range []bool{false, true} {
		s := Section{Axisymmetric: axisymmetric, Depth: 1, Unbounded: true, Outlines: []Outline{
			{Name: "part", Role: RolePart, Closed: true, Corners: []Corner{{X: 1}, {X: 2, Bulge: 0.6}, {X: 2, Y: 1}, {X: 1, Y: 1, Bulge: -0.1}}},
			Circle("anode", RoleAnode, 9, 0, 1)}}
		loops, err := s.loops()
		if err != nil {
			t.Fatal(err)
		}
		elements, err := newMesher(s, loops).mesh(80)
		if err != nil {
			t.Fatal(err)
		}
		for _, test := range []struct {
			x    r2.Vec
			want float64
		}{{r2.Vec{X: 1.5, Y: 0.5}, 1}, {r2.Vec{X: 2.2, Y: 0.5}, 1}, {r2.Vec{X: 1.5, Y: 1.2}, 0}, {r2.Vec{X: 4, Y: 3}, 0}} {
			sum := 0.0
			for i := range elements {
				if elements[i].loop == 0 {
					sum += kernel{axisymmetric}.pair(test.x, &elements[i]).h
				}
			}
			// The normals of a hole point into it.
			if !scalar.EqualWithinAbs(sum, test.want, 1e-5) {
				t.Errorf("axisymmetric %v: sum of h from %v = %v, want %v", axisymmetric, test.x, sum, test.want)
			}
		}
	}
}

func TestEllipticKE(t *testing.T) {
	// The series below 1e-5 meets mathext at the border: its next terms are of the
	// order m1 squared times a logarithm, 1e-9.
	k, e := ellipticKE(0.99999e-5)
	if wantK, wantE := mathext.CompleteK(1-0.99999e-5), mathext.CompleteE(1-0.99999e-5); !scalar.EqualWithinRel(k, wantK, 1e-8) || !scalar.EqualWithinRel(e, wantE, 1e-8) {
		t.Errorf("ellipticKE(1e-5) = %v, %v, want %v, %v", k, e, wantK, wantE)
	}
	if k, e := ellipticKE(1); !scalar.EqualWithinRel(k, math.Pi/2, 1e-14) || !scalar.EqualWithinRel(e, math.Pi/2, 1e-14) {
		t.Errorf("ellipticKE(1) = %v, %v, want pi/2 twice", k, e)
	}
}

func TestMeshKeepsTheNumber(t *testing.T) {
	s := hangingPlate(0)
	loops, err := s.loops()
	if err != nil {
		t.Fatal(err)
	}
	m := newMesher(s, loops)
	for _, want := range []int{200, 400, 1000} {
		got, err := m.mesh(want)
		if err != nil {
			t.Fatal(err)
		}
		if len(got) > want || float64(len(got)) < 0.9*float64(want) {
			t.Errorf("mesh(%d) has %d elements", want, len(got))
		}
		for i := range got {
			el := &got[i]
			// The backs of the anodes stand 10 mm from the wall; filling an edge
			// evenly may stretch elements by half.
			if el.role == RoleAnode && math.Abs(el.mid.X) > 0.0899 && el.length > 15e-3 {
				t.Errorf("mesh(%d) has an anode element of %v m beside a gap of 0.01 m", want, el.length)
			}
		}
		sum := map[int]float64{}
		for i := range got {
			sum[got[i].edge.outline] += got[i].length
		}
		if !scalar.EqualWithinRel(sum[3], 2*(.044+.0016), 1e-9) {
			t.Errorf("elements of the plate sum to %v m", sum[3])
		}
	}
}
