package plating

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"slices"
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
		"no area":     {"solid\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 0 0\nvertex 1 0 0\nendloop\nendfacet\nendsolid\n", millimetre, "no triangles"},
		"open":        {strings.Replace(text, text[strings.Index(text, "facet"):strings.Index(text, "endfacet")+9], "", 1), millimetre, "not closed"},
		"inside out":  {stlText(flipped(m)), millimetre, "face inwards"},
		"twice":       {strings.Replace(text, "endsolid", text[strings.Index(text, "facet"):strings.Index(text, "endfacet")+9]+"endsolid", 1), millimetre, "the same way"},
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
		if s, err := got.Within(1 * millimetre); err != nil || !(float64(s.Area) > 0) {
			t.Errorf("area of a mesh read = %v, %v", float64(s.Area), err)
		}
		if coarse, err := got.Remeshed(60); err == nil && len(coarse.Triangles) > 60 {
			t.Errorf("coarsened to %d triangles", len(coarse.Triangles))
		}
	})
}

// flipped returns the mesh inside out.
func flipped(m Mesh) Mesh {
	m.Triangles = slices.Clone(m.Triangles)
	for t, k := range m.Triangles {
		m.Triangles[t] = [3]int{k[0], k[2], k[1]}
	}
	return m
}

func TestRemeshed(t *testing.T) {
	mm := millimetre
	for _, test := range []struct {
		name      string
		solid     Solid
		triangles int
		tol       float64 // of area and volume
	}{
		{"box cut up", Block{X: 10 * mm, Y: 20 * mm, Z: 30 * mm, Steps: 1}, 300, 1e-12},
		{"box coarsened", Block{X: 10 * mm, Y: 20 * mm, Z: 30 * mm, Steps: 16}, 100, 1e-9},
		{"ball coarsened", Ball("ball", 10*mm, 24), 200, 0.06},
		{"rod coarsened", UprightRod("rod", 10*mm, 30*mm, 24), 120, 0.06},
		{"round box", Block{X: 10 * mm, Y: 20 * mm, Z: 30 * mm, Round: 1 * mm, Steps: 6}, 200, 0.05},
	} {
		m, err := test.solid.Mesh(1)
		if err != nil {
			t.Fatal(err)
		}
		before := slices.Clone(m.Triangles)
		got, err := m.Remeshed(test.triangles)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if !slices.Equal(before, m.Triangles) {
			t.Errorf("%s: the mesh was changed", test.name)
		}
		was, _ := m.Surface()
		is, err := got.Surface()
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %d triangles to %d, area by %.2g, volume by %.2g", test.name, len(m.Triangles), len(got.Triangles), float64(is.Area/was.Area)-1, float64(got.Volume()/m.Volume())-1)
		if n := len(got.Triangles); n > test.triangles || n < test.triangles-1 ||
			!scalar.EqualWithinRel(float64(is.Area), float64(was.Area), test.tol) || !scalar.EqualWithinRel(float64(got.Volume()), float64(m.Volume()), test.tol) {
			t.Errorf("%s: %d triangles, area %v and volume %v, was %v and %v", test.name, n, float64(is.Area), float64(got.Volume()), float64(was.Area), float64(m.Volume()))
		}
	}
	box, _ := Block{X: 1 * mm, Y: 1 * mm, Z: 1 * mm, Steps: 1}.Mesh(1)
	for want, m := range map[string]Mesh{"face inwards": flipped(box), "has no triangles": {}, "not closed": {Points: box.Points, Triangles: box.Triangles[1:]}} {
		if _, err := m.Remeshed(100); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Remeshed = %v, want an error with %q", err, want)
		}
	}
	for _, n := range []int{-1, 11, 100_001} {
		if _, err := box.Remeshed(n); err == nil || !strings.Contains(err.Error(), "must be 12 to 100000") {
			t.Errorf("Remeshed(%d) = %v", n, err)
		}
	}
}

func TestWithin(t *testing.T) {
	mm := millimetre
	for _, test := range []struct {
		name  string
		solid Solid
		want  float64 // mm of added area for each mm outward
		tol   float64
	}{
		// Twelve edges of a right angle; a ball's area is 4 pi r2; a bar's rims
		// are quarter rings.
		{"box", Block{X: 10 * mm, Y: 20 * mm, Z: 30 * mm, Steps: 3}, math.Pi / 2 * 240, 1e-9},
		{"ball", Ball("ball", 10*mm, 24), 8 * math.Pi * 5, 0.01},
		{"rod", UprightRod("rod", 10*mm, 30*mm, 24), 2*math.Pi*30 + math.Pi*math.Pi*10, 0.01},
	} {
		m, err := test.solid.Mesh(1)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Within(0.1 * mm)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(s.U) * 1e6 / 0.1; !scalar.EqualWithinRel(got, test.want, test.tol) {
			t.Errorf("%s: %v mm2 for a mm, want %v", test.name, got, test.want)
		}
	}
	box, _ := Block{X: 1 * mm, Y: 1 * mm, Z: 1 * mm, Steps: 1}.Mesh(1)
	for _, u := range []float64{-1, math.NaN(), math.Inf(1)} {
		if _, err := box.Within(unit.Length(u)); err == nil || !strings.Contains(err.Error(), "must be 0 mm or more") {
			t.Errorf("Within(%v) = %v", u, err)
		}
	}
	if _, err := flipped(box).Within(0); err == nil {
		t.Error("a mesh inside out has an uncertainty")
	}
}
