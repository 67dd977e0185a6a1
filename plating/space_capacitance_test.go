package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/spatial/r3"

	"example.org/thouspan/internal/refdata"
)

// capacitances returns the capacitance over 4 pi eps of a body of one metre that
// stands on the mirror of an unbounded space, which makes it whole, on the mesh
// and on that of twice the steps.
func capacitances(t *testing.T, solid Solid) (coarse, fine float64) {
	t.Helper()
	f, err := NewSpaceField(Space{Unbounded: true, Mirror: true, Bodies: []Body{{Name: "body", Role: RolePart, Solid: solid}}})
	if err != nil {
		t.Fatal(err)
	}
	of := func(s *spaceSystem) float64 {
		d, err := s.solve(Conditions{Conductivity: 1, Current: 1})
		if err != nil {
			t.Fatal(err)
		}
		// The same Laplace equation: half the body has R = 1/(2 pi kappa C).
		return 1 / (2 * math.Pi * float64(d.Resistance()))
	}
	return of(f.coarse), of(f.fine)
}

// published returns the value of a row.
func published(t *testing.T, id string) float64 {
	t.Helper()
	row, ok := refdata.Find(id)
	if !ok {
		t.Fatalf("no row %s", id)
	}
	return row.Value
}

// holdsToCapacitance fails the test unless two meshes come near a published
// capacitance at the order of the method, and their extrapolation nearer.
func holdsToCapacitance(t *testing.T, id string, coarse, fine, tol, extrapolatedTol float64) {
	t.Helper()
	want := published(t, id)
	order := math.Log2(math.Abs(coarse-want) / math.Abs(fine-want))
	if !scalar.EqualWithinRel(fine, want, tol) || order < 1.5 {
		t.Errorf("%s: %v on the coarser mesh, %v on the finer, want %v; order %v", id, coarse, fine, want, order)
	}
	// An order of two leaves a third of the change.
	if got := fine + (fine-coarse)/3; !scalar.EqualWithinRel(got, want, extrapolatedTol) {
		t.Errorf("%s: extrapolated to %v, want %v", id, got, want)
	}
}

func TestCubeCapacitance(t *testing.T) {
	coarse, fine := capacitances(t, Block{X: 1, Y: 1, Z: 1, Steps: 4, Half: [3]bool{false, false, true}})
	// 384 triangles on half a cube leave 0.13 %.
	holdsToCapacitance(t, "space-cube", coarse, fine, 2e-3, 1e-3)
}

func TestSquarePlateCapacitance(t *testing.T) {
	// The plate is a sheet in the mirror; its back is the image.
	coarse, fine := capacitances(t, floorSquare{10})
	holdsToCapacitance(t, "space-square", coarse, fine, 3e-3, 1e-3)
}

// floorSquare is a square of one metre in the plane Z = 0, facing upwards, with
// so many steps to a side that grow shorter towards the edges.
type floorSquare struct{ steps int }

func (s floorSquare) Mesh(finer int) (Mesh, error) {
	n := s.steps * finer
	w := newWelder(1)
	at := func(i, j int) int {
		x := func(k int) float64 { return -math.Cos(math.Pi*float64(k)/float64(n)) / 2 }
		return w.add(r3.Vec{X: x(i), Y: x(j)})
	}
	for i := range n {
		for j := range n {
			a, b, c, d := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
			if (2*i < n) == (2*j < n) {
				addQuad(w, true, a, b, c, d)
			} else {
				addQuad(w, true, b, c, d, a)
			}
		}
	}
	return w.mesh("square"), nil
}
