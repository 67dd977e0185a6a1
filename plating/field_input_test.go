package plating

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func TestNewFieldErrors(t *testing.T) {
	nan := unit.Length(math.NaN())
	// with returns the plate's section after a change.
	with := func(change func(*Section)) Section {
		s := hangingPlate(0).clone()
		change(&s)
		return s
	}
	tests := []struct {
		name    string
		section Section
		want    []string
	}{
		{"empty", Section{Depth: 1}, []string{"no part"}},
		{"no depth", with(func(s *Section) { s.Depth = 0 }), []string{"depth", "0 mm"}},
		{"no anode", with(func(s *Section) { s.Outlines[1].Role, s.Outlines[2].Role = RoleShield, RoleShield }), []string{"no anode"}},
		{"two of one name", with(func(s *Section) { s.Outlines[2].Name = "left" }), []string{"outline 3", `"left"`}},
		{"unknown role", with(func(s *Section) { s.Outlines[1].Role = 9 }), []string{`"left"`, "role"}},
		{"one corner", with(func(s *Section) { s.Outlines[3].Corners = s.Outlines[3].Corners[:1] }), []string{`"plate"`, "1 corners"}},
		{"NaN", with(func(s *Section) { s.Outlines[3].Corners[2].X = nan }), []string{"corner 3", `"plate"`, "finite"}},
		{"infinite bulge", with(func(s *Section) { s.Outlines[3].Corners[0].Bulge = math.Inf(1) }), []string{"corner 1", `"plate"`}},
		{"large bulge", with(func(s *Section) { s.Outlines[3].Corners[0].Bulge = 50 }), []string{"bulge", `"plate"`, "50"}},
		{"no length", with(func(s *Section) { s.Outlines[3].Corners[1] = s.Outlines[3].Corners[0] }), []string{"no length", `"plate"`, "corners 1 and 2", "(-0.8, -22) mm"}},
		{"open", with(func(s *Section) { s.Outlines[3].Closed = false }), []string{`"plate"`, "open", "(-0.8, "}},
		{"outside", with(func(s *Section) { s.Outlines[3] = Box("plate", RolePart, .2, 0, .21, .01) }), []string{`part "plate"`, "outside", `"tank"`}},
		{"through the wall", with(func(s *Section) { s.Outlines[3] = Box("plate", RolePart, 0, 0, .001, .09) }), []string{`"tank"`, `"plate"`, "crosses", "75) mm"}},
		{"touching an anode", with(func(s *Section) { s.Outlines[3] = Box("plate", RolePart, .08, 0, .085, .01) }), []string{`anode "right"`, `part "plate"`, "touches"}},
		{"a hair from an anode", with(func(s *Section) { s.Outlines[3] = Box("plate", RolePart, .08, 0, .084999, .05) }), []string{"1000 boundary elements", "gap"}},
		{"a flat arc through the other side", with(func(s *Section) { s.Outlines[3].Corners[1].Bulge = -0.08 }), []string{`"plate"`, "crosses itself"}},
		{"in an anode", with(func(s *Section) { s.Outlines[3] = Box("plate", RolePart, .086, 0, .087, .01) }), []string{`"plate"`, `"right"`, "inside"}},
		{"crossing itself", with(func(s *Section) {
			c := s.Outlines[3].Corners
			c[1], c[2] = c[2], c[1]
		}), []string{`"plate"`, "crosses itself"}},
		{"folding back", with(func(s *Section) {
			s.Outlines[3].Corners = append(s.Outlines[3].Corners, Corner{X: -.0008, Y: .05}, Corner{X: -.0008, Y: 0})
		}), []string{`"plate"`, "folds back"}},
		{"rounding too large", with(func(s *Section) { s.Outlines[3].Corners[0].Round = 5 * millimetre }), []string{"rounding of corner 1", "5 mm"}},
		{"negative rounding", with(func(s *Section) { s.Outlines[3].Corners[0].Round = -1 * millimetre }), []string{"rounding of corner 1", "-1 mm"}},
		{"no tank", Section{Depth: 1, Outlines: []Outline{Box("plate", RolePart, 0, 0, 1, 1), Box("anode", RoleAnode, 2, 0, 3, 1)}}, []string{"outside"}},
		{"beyond the axis", Section{Axisymmetric: true, Unbounded: true, Outlines: []Outline{Circle("ring", RolePart, 1, 0, 2)}}, []string{`"ring"`, "axis"}},
		{"along the axis", Section{Axisymmetric: true, Unbounded: true, Outlines: []Outline{openLine("rod", RolePart, 0, 0, 0, 1, 1, 1, 1, 0, 0, 0)}}, []string{`"rod"`, "along the axis"}},
		{"below the mirror", Section{Depth: 1, Mirror: true, Unbounded: true, Outlines: []Outline{Box("plate", RolePart, 0, -1, 1, 1), Box("anode", RoleAnode, 2, 1, 3, 2)}}, []string{`"plate"`, "mirror"}},
		{"wall in the mirror", Section{Depth: 1, Mirror: true, Unbounded: true, Outlines: []Outline{
			openLine("plate", RolePart, 0, 0, 1, 0), openLine("floor", RoleWall, 2, 0, 3, 0), openLine("anode", RoleAnode, 4, 0, 5, 0)}}, []string{`"floor"`, "mirror"}},
		{"part joined to anode", Section{Depth: 1, Outlines: []Outline{
			openLine("part", RolePart, 0, 0, 1, 0), openLine("anode", RoleAnode, 1, 0, 1, 1), openLine("wall", RoleWall, 1, 1, 0, 1, 0, 0)}}, []string{`"part"`, `"anode"`, "touches"}},
		{"three ends", Section{Depth: 1, Outlines: []Outline{
			openLine("part", RolePart, 0, 0, 1, 0), openLine("a", RoleAnode, 1, 1, 0, 1), openLine("b", RoleWall, 1, 0, 1, 1),
			openLine("c", RoleWall, 0, 1, 0, 0), openLine("d", RoleWall, 0, 0, .5, .5)}}, []string{"3 outlines end"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := NewField(test.section, 60)
			if err == nil {
				t.Fatal("NewField gave no error")
			}
			for _, want := range append(test.want, "plating: ") {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %q lacks %q", err, want)
				}
			}
		})
	}
	if _, err := NewField(hangingPlate(0), 3); err == nil {
		t.Error("NewField with 3 elements gave no error")
	}
}

func TestFieldSolveErrors(t *testing.T) {
	f, err := NewField(hangingPlate(0), 80)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name string
		c    Conditions
		want string
	}{
		{"no conductivity", Conditions{Current: 1}, "conductivity"},
		{"neither", Conditions{Conductivity: 8}, "exactly one"},
		{"both", Conditions{Conductivity: 8, Current: 1, Voltage: 1}, "exactly one"},
		{"NaN", Conditions{Conductivity: 8, Current: unit.Current(math.NaN())}, "current"},
		{"negative", Conditions{Conductivity: 8, Voltage: -1}, "voltage"},
		{"bad kinetics", Conditions{Conductivity: 8, Current: 1, Cathode: Kinetics{Exchange: 1}}, "at the cathode"},
		{"bad anode", Conditions{Conductivity: 8, Current: 1, Anode: Kinetics{Resistance: -1}}, "at the anode"},
		{"over the limit", Conditions{Conductivity: 8, Current: 20, Cathode: nickelLike}, "limiting 15 A/dm2"},
		{"below rest", Conditions{Conductivity: 8, Voltage: 0.1, Anode: Kinetics{Equilibrium: 0.3}}, "voltage at rest, 0.3 V"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if _, err := f.Solve(test.c); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("Solve gave %v, want an error with %q", err, test.want)
			}
		})
	}
}

func TestZeroDistribution(t *testing.T) {
	var d Distribution
	if d.Resistance() != 0 {
		t.Errorf("resistance of nothing = %v, want 0", d.Resistance())
	}
	if _, ok := d.Profile("x"); ok {
		t.Error("nothing has a profile")
	}
	if _, _, err := d.Over(1); err == nil {
		t.Error("Over of nothing gave no error")
	}
	if _, err := d.Grow(Nickel().Deposit(), ConstantEfficiency(1), 1); err == nil {
		t.Error("Grow of nothing gave no error")
	}
	if j := (Profile{}).At(0); !math.IsNaN(float64(j)) {
		t.Errorf("At of nothing = %v, want NaN", j)
	}
}

func TestSectionIsNotChanged(t *testing.T) {
	s := hangingPlate(0)
	f, err := NewField(s, 60)
	if err != nil {
		t.Fatal(err)
	}
	s.Outlines[3].Corners[0].X = 99
	got := f.Section()
	if got.Outlines[3].Corners[0].X == 99 {
		t.Error("the field shares corners with the caller's section")
	}
	got.Outlines[3].Corners[0].X = 98
	if f.Section().Outlines[3].Corners[0].X == 98 {
		t.Error("the field shares corners with the section it returned")
	}
}

// FuzzField hands a box of any corners to a tank: an error or a finite answer,
// and no panic.
func FuzzField(f *testing.F) {
	f.Add(-.0008, -.022, .0008, .022, 0.0, 0.0, 2.0, false)
	f.Add(.01, .01, .03, .02, 0.5, 0.0, 1.0, true)
	f.Add(-.2, 0., .2, .01, -1.0, 0.0, 1.0, false)
	f.Add(0., 0., 0., 0., 0.0, 0.0, 0.0, true)
	f.Add(.01, .01, .03, .02, 0.0, 0.002, 1e9, false)
	// A flat arc that crosses the other side by less than its chord does.
	f.Add(1./3000, .01, .00025, .02, 0.01875, 0.0, 1./9, true)
	f.Fuzz(func(t *testing.T, x0, y0, x1, y1, bulge, round, current float64, axisymmetric bool) {
		tank := Box("tank", RoleWall, -.1, -.075, .1, .075)
		if axisymmetric {
			tank = openLine("tank", RoleWall, 0, -.075, .1, -.075, .1, .075, 0, .075)
		}
		part := Box("part", RolePart, unit.Length(x0), unit.Length(y0), unit.Length(x1), unit.Length(y1))
		part.Corners[1].Bulge, part.Corners[3].Round = bulge, unit.Length(round)
		field, err := NewField(Section{Axisymmetric: axisymmetric, Depth: 0.1, Outlines: []Outline{
			tank, Box("anode", RoleAnode, .08, -.03, .09, .03), part}}, 60)
		if err != nil {
			return
		}
		d, err := field.Solve(Conditions{Conductivity: 8, Current: unit.Current(current), Cathode: nickelLike})
		if err != nil {
			return
		}
		for _, v := range []float64{float64(d.Voltage), float64(d.Mean), d.Spread, float64(d.Thinnest.CurrentDensity), float64(d.Thickest.CurrentDensity)} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("answer is not finite: %+v", d)
			}
		}
	})
}
