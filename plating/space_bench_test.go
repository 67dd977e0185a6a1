package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// plateInSpace is a rounded plate between two rods in a tank.
func plateInSpace(steps, around int) Space {
	mm := millimetre
	tank := Space{Length: 200 * mm, Width: 120 * mm, Depth: 150 * mm, Bodies: []Body{
		{Name: "plate", Role: RolePart, Solid: Block{X: 1.6 * mm, Y: 44 * mm, Z: 60 * mm, Round: 0.4 * mm, Steps: steps}, At: Point{100 * mm, 60 * mm, 75 * mm}}}}
	for _, x := range []unit.Length{20 * mm, 180 * mm} {
		rod := UprightRod("rod", 10*mm, 120*mm, around)
		tank.Bodies = append(tank.Bodies, Body{Name: map[bool]string{true: "left", false: "right"}[x < 100*mm], Role: RoleAnode, Solid: rod, At: Point{x, 60 * mm, 15 * mm}})
	}
	return tank
}

// BenchmarkSpace2000 measures a plate and two anodes from solids to the
// distribution, with the coarser mesh.
func BenchmarkSpace2000(b *testing.B) {
	b.ReportAllocs()
	c := bathConditions
	c.Current = 1.5 * unit.Ampere
	c.Cathode.Limit = 15 * AmperePerSquareDecimetre
	for b.Loop() {
		f, err := NewSpaceField(plateInSpace(5, 3))
		if err != nil {
			b.Fatal(err)
		}
		d, err := f.Solve(c)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(f.Triangles()), "triangles")
		b.ReportMetric(float64(d.Steps), "steps")
	}
}

// BenchmarkMeshArea measures the area of a million triangles.
func BenchmarkMeshArea(b *testing.B) {
	n := 708
	m := Mesh{Name: "ripple"}
	for i := range n {
		for j := range n {
			m.Points = append(m.Points, Point{unit.Length(i), unit.Length(j), unit.Length(math.Sin(float64(i * j)))})
			if k := i*n + j; i > 0 && j > 0 {
				m.Triangles = append(m.Triangles, [3]int{k - n - 1, k - n, k}, [3]int{k - n - 1, k, k - 1})
			}
		}
	}
	for b.Loop() {
		if _, err := m.Surface(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(m.Triangles)), "triangles")
}
