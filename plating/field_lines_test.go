package plating

import (
	"math"
	"strings"
	"testing"
)

// linesOf solves a section and returns its lines of current.
func linesOf(t *testing.T, section Section, elements int, c Conditions, each int) (Distribution, [][]LinePoint) {
	t.Helper()
	f, err := NewField(section, elements)
	if err != nil {
		t.Fatal(err)
	}
	d, err := f.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	lines, err := f.Lines(d, c.Conductivity, each)
	if err != nil {
		t.Fatal(err)
	}
	return d, lines
}

// Between two cylinders about one axis the current runs along the radii.
func TestLinesBetweenCylindersAreRadii(t *testing.T) {
	_, lines := linesOf(t, Section{Depth: 0.1, Outlines: []Outline{
		Circle("anode", RoleAnode, 0, 0, 0.05), Circle("rod", RolePart, 0, 0, 0.01)}}, 160, oneAmpere, 12)
	if len(lines) != 12 {
		t.Fatalf("%d lines, want 12", len(lines))
	}
	for i, line := range lines {
		first, last := line[0], line[len(line)-1]
		turn := math.Remainder(math.Atan2(float64(last.Y), float64(last.X))-math.Atan2(float64(first.Y), float64(first.X)), 2*math.Pi)
		if math.Abs(turn) > 0.01 {
			t.Errorf("line %d turns by %.3f rad", i, turn)
		}
		if r := math.Hypot(float64(last.X), float64(last.Y)); math.Abs(r-0.05) > 0.0002 {
			t.Errorf("line %d ends at a radius of %.4f m, want by the anode's 0.05", i, r)
		}
	}
}

// In a duct between two plates it runs straight, and the insulating walls hold it
// in.
func TestLinesInADuctAreStraight(t *testing.T) {
	_, lines := linesOf(t, Section{Depth: 0.1, Outlines: []Outline{
		openLine("part", RolePart, 0, 0, 0, 0.04), openLine("wall", RoleWall, 0, 0.04, 0.1, 0.04),
		openLine("anode", RoleAnode, 0.1, 0.04, 0.1, 0), openLine("floor", RoleWall, 0.1, 0, 0, 0)}}, 200, oneAmpere, 4)
	for i, l := range lines {
		first, last := l[0], l[len(l)-1]
		if math.Abs(float64(last.Y-first.Y)) > 0.0005 || math.Abs(float64(last.X)-0.1) > 1e-9 {
			t.Errorf("line %d runs from (%.4f, %.4f) to (%.4f, %.4f) m", i, float64(first.X), float64(first.Y), float64(last.X), float64(last.Y))
		}
		if want := 0.005 + 0.01*float64(i); math.Abs(math.Abs(float64(first.Y)-0.02)-math.Abs(want-0.02)) > 0.002 {
			t.Errorf("line %d begins at %.4f m, want each a quarter of the current", i, float64(first.Y))
		}
	}
	if len(lines) != 4 {
		t.Errorf("%d lines, want 4", len(lines))
	}
}

// In a tank with a mirror every line ends by an anode and stays on its side.
func TestLinesEndAtTheAnodes(t *testing.T) {
	d, lines := linesOf(t, hangingPlate(0.001), 160, bathConditions, 10)
	if len(lines) < 10 {
		t.Fatalf("%d lines, want 10 to a part", len(lines))
	}
	for i, l := range lines {
		last, nearest := l[len(l)-1], math.Inf(1)
		for _, p := range d.Profiles {
			if p.Role != RoleAnode {
				continue
			}
			for _, s := range p.Samples {
				nearest = math.Min(nearest, math.Hypot(float64(s.X-last.X), float64(s.Y-last.Y))-float64(s.Length))
			}
		}
		for _, p := range l {
			if math.Abs(float64(p.X)) > 0.1 || math.Abs(float64(p.Y)) > 0.075 {
				t.Errorf("line %d leaves the tank at (%.1f, %.1f) mm", i, float64(p.X)*1e3, float64(p.Y)*1e3)
				break
			}
		}
		if nearest > 0.0005 {
			t.Errorf("line %d ends %.1f mm from an anode after %d points", i, nearest*1e3, len(l))
		}
	}
}

func TestLinesRefuse(t *testing.T) {
	f, err := NewField(hangingPlate(0.001), 160)
	if err != nil {
		t.Fatal(err)
	}
	d, err := f.Solve(bathConditions)
	if err != nil {
		t.Fatal(err)
	}
	other, err := NewField(hangingPlate(0.002), 160)
	if err != nil {
		t.Fatal(err)
	}
	for name, ask := range map[string]func() error{
		"0 lines":             func() error { _, err := f.Lines(d, 8, 0); return err },
		"201 lines":           func() error { _, err := f.Lines(d, 8, 201); return err },
		"conductivity is NaN": func() error { _, err := f.Lines(d, Conductivity(math.NaN()), 4); return err },
		"not of this field":   func() error { _, err := other.Lines(d, 8, 4); return err },
	} {
		if err := ask(); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func BenchmarkLines(b *testing.B) {
	f, err := NewField(hangingPlate(0.001), 160)
	if err != nil {
		b.Fatal(err)
	}
	d, err := f.Solve(bathConditions)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := f.Lines(d, 8, 16); err != nil {
			b.Fatal(err)
		}
	}
}
