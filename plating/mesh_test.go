package plating

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestMeshesOfSolids(t *testing.T) {
	mm := millimetre
	const r = 2.0
	for _, test := range []struct {
		name         string
		solid        Solid
		area, volume float64 // mm2 and mm3
		tol          float64 // share that flat facets at 8 steps may take off
	}{
		{"square block", Block{X: 10 * mm, Y: 20 * mm, Z: 30 * mm, Steps: 5}, 2200, 6000, 1e-12},
		// Flats, quarter cylinders and a ball; the inner block, slabs, cylinders
		// and a ball.
		{"round block", Block{X: 10 * mm, Y: 20 * mm, Z: 30 * mm, Round: r * mm, Steps: 5},
			2*(6*16+16*26+6*26) + math.Pi/2*r*4*(6+16+26) + 4*math.Pi*r*r,
			6*16*26 + 2*r*(6*16+16*26+6*26) + math.Pi*r*r*(6+16+26) + 4*math.Pi/3*r*r*r, 1e-3},
		{"rod", UprightRod("rod", 10*mm, 30*mm, 12), math.Pi*10*30 + math.Pi*50, math.Pi * 25 * 30, 2e-3},
		{"ball", Ball("ball", 10*mm, 12), math.Pi * 100, math.Pi / 6 * 1000, 2e-3},
	} {
		m, err := test.solid.Mesh(8)
		if err != nil {
			t.Fatalf("%s: %v", test.name, err)
		}
		s, err := m.Surface()
		if err != nil {
			t.Fatalf("%s: %v", test.name, err)
		}
		if got := float64(s.Area) * 1e6; !scalar.EqualWithinRel(got, test.area, test.tol) {
			t.Errorf("%s: area = %v mm2, want %v", test.name, got, test.area)
		}
		if got := float64(m.Volume()) * 1e9; !scalar.EqualWithinRel(got, test.volume, 3*test.tol) {
			t.Errorf("%s: volume = %v mm3, want %v", test.name, got, test.volume)
		}
		if err := (spaceCheck{space: Space{Bodies: []Body{{Name: test.name}}}, tolerance: 1e-9}).closed(test.name, m); err != nil {
			t.Error(err)
		}
	}
}

func TestFinerMeshKeepsItsShape(t *testing.T) {
	m, err := Ball("ball", 10*millimetre, 6).Mesh(1)
	if err != nil {
		t.Fatal(err)
	}
	fine, err := m.Mesh(3)
	if err != nil {
		t.Fatal(err)
	}
	a, _ := m.Surface()
	b, _ := fine.Surface()
	if !scalar.EqualWithinRel(float64(a.Area), float64(b.Area), 1e-9) || len(fine.Triangles) != 9*len(m.Triangles) {
		t.Errorf("cut in nine: %v m2 in %d triangles, was %v in %d", float64(b.Area), len(fine.Triangles), float64(a.Area), len(m.Triangles))
	}
}

// stlText and stlBinary write a mesh in millimetres.
func stlText(m Mesh) string {
	var b strings.Builder
	fmt.Fprintf(&b, "solid %s\n", m.Name)
	for t := range m.Triangles {
		p, q, r := m.corners(t)
		fmt.Fprintf(&b, "facet normal 0 0 0\n outer loop\n  vertex %g %g %g\n  vertex %g %g %g\n  vertex %g %g %g\n endloop\nendfacet\n",
			p.X*1e3, p.Y*1e3, p.Z*1e3, q.X*1e3, q.Y*1e3, q.Z*1e3, r.X*1e3, r.Y*1e3, r.Z*1e3)
	}
	return b.String() + "endsolid " + m.Name + "\n"
}
func stlBinary(m Mesh) []byte {
	var b bytes.Buffer
	b.Write(append([]byte("solid in name only"), make([]byte, 62)...))
	put := func(v any) { _ = binary.Write(&b, binary.LittleEndian, v) }
	put(uint32(len(m.Triangles)))
	for t := range m.Triangles {
		p, q, r := m.corners(t)
		for _, x := range []float64{0, 0, 0, p.X, p.Y, p.Z, q.X, q.Y, q.Z, r.X, r.Y, r.Z} {
			put(float32(x * 1e3))
		}
		put(uint16(0))
	}
	return b.Bytes()
}

func TestReadSTL(t *testing.T) {
	m, err := Block{Name: "a plate", X: 10 * millimetre, Y: 20 * millimetre, Z: 30 * millimetre, Steps: 3}.Mesh(1)
	if err != nil {
		t.Fatal(err)
	}
	for form, data := range map[string][]byte{"text": []byte(stlText(m)), "binary": stlBinary(m)} {
		got, err := ReadSTL(bytes.NewReader(data), millimetre)
		if err != nil {
			t.Fatalf("%s: %v", form, err)
		}
		// Single precision holds seven digits.
		if len(got.Triangles) != len(m.Triangles) || len(got.Points) != len(m.Points) || !scalar.EqualWithinRel(float64(got.Volume()), 6e-6, 1e-6) {
			t.Errorf("%s: %d triangles, %d points, volume %v", form, len(got.Triangles), len(got.Points), float64(got.Volume()))
		}
	}
	text := stlText(m)
	for name, test := range map[string]struct {
		data string
		one  unit.Length
		want string
	}{
		"empty":       {"", millimetre, "ends at line 0"},
		"no unit":     {text, 0, "unit of the mesh file"},
		"cut short":   {text[:len(text)/2], millimetre, "mesh file"},
		"goes on":     {text + "facet", millimetre, "after its end"},
		"not a mesh":  {"hello\n", millimetre, "line 1 of the mesh file does not begin"},
		"NaN":         {strings.Replace(text, "vertex -5", "vertex NaN", 1), millimetre, "must be a finite number"},
		"two numbers": {strings.Replace(text, "vertex -5 ", "vertex ", 1), millimetre, "2 numbers"},
		"no area":     {"solid\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 0 0\nvertex 1 0 0\nendloop\nendfacet\nendsolid\n", millimetre, "triangle 1"},
		"no size":     {"solid\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 0 0\nvertex 0 0 0\nendloop\nendfacet\nendsolid\n", millimetre, "must have a size"},
		"order":       {strings.Replace(text, "outer loop", "endloop", 1), millimetre, "must be \"outer loop\""},
	} {
		if _, err := ReadSTL(strings.NewReader(test.data), test.one); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: error = %v, want one with %q", name, err, test.want)
		}
	}
}

func FuzzReadSTL(f *testing.F) {
	m, err := Block{X: 1 * millimetre, Y: 1 * millimetre, Z: 1 * millimetre, Steps: 1}.Mesh(1)
	if err != nil {
		f.Fatal(err)
	}
	f.Add([]byte(stlText(m)))
	f.Add(stlBinary(m))
	f.Add([]byte("solid x\nfacet normal 1e999 0 0\nouter loop\nvertex 1e308 -1e308 0\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := ReadSTL(bytes.NewReader(data), millimetre)
		if err != nil {
			return
		}
		if s, err := got.Surface(); err == nil && !(float64(s.Area) > 0) {
			t.Errorf("area of a mesh read = %v", float64(s.Area))
		}
	})
}
