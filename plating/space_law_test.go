package plating

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// smallTank is a block and a block anode askew in a tank whose lengths
// are in the given unit.
func smallTank(in unit.Length) Space {
	return Space{Length: 100 * in, Width: 80 * in, Depth: 60 * in, Bodies: []Body{
		{Name: "block", Role: RolePart, Solid: Block{X: 6 * in, Y: 20 * in, Z: 16 * in, Steps: 3}, At: Point{30 * in, 35 * in, 33 * in}},
		{Name: "anode", Role: RoleAnode, Solid: Block{X: 12 * in, Y: 12 * in, Z: 40 * in, Steps: 1}, At: Point{80 * in, 45 * in, 30 * in}}}}
}

func TestSpaceKeepsCharge(t *testing.T) {
	c := bathConditions
	c.Current = 0.2
	f, err := NewSpaceField(smallTank(millimetre))
	if err != nil {
		t.Fatal(err)
	}
	solve := func(c Conditions) SpaceDistribution {
		d, err := f.Solve(c)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	d := solve(c)
	anode, _ := d.Skin("anode")
	// The balance is one of the equations, and the current another.
	if d.ChargeError > 1e-8 || !scalar.EqualWithinRel(float64(d.Current), 0.2, 1e-8) || !scalar.EqualWithinRel(float64(anode.Current), -0.2, 1e-8) {
		t.Errorf("cathodes take %v A, anodes %v, error %v; want 0.2, -0.2 and rounding", float64(d.Current), float64(anode.Current), d.ChargeError)
	}
	if got := d.Ohmic + d.Cathode + d.Anode + d.Rest; !scalar.EqualWithinRel(float64(got), float64(d.Voltage), 1e-12) {
		t.Errorf("shares of the voltage sum to %v, want %v", float64(got), float64(d.Voltage))
	}
	if d.Residual > largestResidual || d.Steps == 0 || d.Change == (Change{}) {
		t.Errorf("residual %v after %d steps, change %+v", d.Residual, d.Steps, d.Change)
	}
	// At the voltage that was found, the current is found again.
	again := solve(Conditions{Conductivity: 8, Voltage: d.Voltage, Cathode: nickelLike})
	if !scalar.EqualWithinRel(float64(again.Current), 0.2, 1e-7) {
		t.Errorf("current at the voltage found = %v A, want 0.2", float64(again.Current))
	}
	// No place passes its limit, whatever the current.
	c.Current = unit.Current(0.9 * 1500 * float64(d.Skins[0].Area))
	if most := solve(c).Thickest.CurrentDensity; most > 1500 {
		t.Errorf("current density near the limit = %v A/m2, must stay below 1500", float64(most))
	}
}

func TestSpaceScales(t *testing.T) {
	a := solvedSpace(t, smallTank(millimetre), primary)
	b := solvedSpace(t, smallTank(1*unit.Metre), primary)
	// Resistance goes as one over the size, shares of the mean stay.
	if got, want := float64(b.Resistance()), float64(a.Resistance())/1000; !scalar.EqualWithinRel(got, want, 1e-9) {
		t.Errorf("resistance of a thousand times the tank = %v, want %v", got, want)
	}
	if !scalar.EqualWithinRel(a.Spread, b.Spread, 1e-7) {
		t.Errorf("spread = %v and %v, must not depend on the size", a.Spread, b.Spread)
	}
}

func TestSpaceSuperposes(t *testing.T) {
	f, err := NewSpaceField(smallTank(millimetre))
	if err != nil {
		t.Fatal(err)
	}
	solve := func(v unit.Voltage) SpaceDistribution {
		d, err := f.Solve(Conditions{Conductivity: 8, Voltage: v, Cathode: Kinetics{Resistance: 1e-3}})
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	one, two, three := solve(1), solve(2), solve(3)
	for i, f := range three.Skins[0].Facets {
		sum := float64(one.Skins[0].Facets[i].CurrentDensity + two.Skins[0].Facets[i].CurrentDensity)
		if !scalar.EqualWithinRel(float64(f.CurrentDensity), sum, 1e-8) {
			t.Fatalf("current density on triangle %d at 3 V = %v, at 1 and 2 V together %v", i, float64(f.CurrentDensity), sum)
		}
	}
}

func TestSpaceMirrors(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// A block in the middle of a tank, and its half against the wall of half the
	// tank: the wall is the mirror.
	mm := millimetre
	whole := Space{Length: 80 * mm, Width: 60 * mm, Depth: 60 * mm, Bodies: []Body{
		{Name: "block", Role: RolePart, Solid: Block{X: 6 * mm, Y: 20 * mm, Z: 16 * mm, Round: 1 * mm, Steps: 2}, At: Point{25 * mm, 30 * mm, 25 * mm}},
		{Name: "anode", Role: RoleAnode, Solid: Block{X: 6 * mm, Y: 20 * mm, Z: 40 * mm, Steps: 2}, At: Point{70 * mm, 30 * mm, 30 * mm}}}}
	half := Space{Length: 80 * mm, Width: 30 * mm, Depth: 60 * mm, Bodies: []Body{
		{Name: "block", Role: RolePart, Solid: Block{X: 6 * mm, Y: 20 * mm, Z: 16 * mm, Round: 1 * mm, Steps: 2, Half: [3]bool{false, true, false}}, At: Point{25 * mm, 0, 25 * mm}},
		{Name: "anode", Role: RoleAnode, Solid: Block{X: 6 * mm, Y: 20 * mm, Z: 40 * mm, Steps: 2, Half: [3]bool{false, true, false}}, At: Point{70 * mm, 0, 30 * mm}}}}
	c := bathConditions
	c.Current = 0.2
	a := solvedSpace(t, whole, c)
	c.Current = 0.1
	b := solvedSpace(t, half, c)
	// The same facets; the screens of the two boxes differ.
	if !scalar.EqualWithinRel(float64(a.Voltage), float64(b.Voltage), 1e-4) || !scalar.EqualWithinRel(a.Spread, b.Spread, 1e-3) {
		t.Errorf("whole tank %v V, spread %v; half %v V, %v", float64(a.Voltage), a.Spread, float64(b.Voltage), b.Spread)
	}
	if !scalar.EqualWithinRel(float64(a.Skins[0].Area), 2*float64(b.Skins[0].Area), 1e-9) {
		t.Errorf("area of the half block = %v, want half of %v", float64(b.Skins[0].Area), float64(a.Skins[0].Area))
	}
}

func TestHalfTurnedSolidMirrors(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// A rod in the middle of a tank with a plate anode to either side, and its
	// half against the mirror.
	mm := millimetre
	rod := UprightRod("rod", 10*mm, 20*mm, 8)
	anode := Block{X: 4 * mm, Y: 20 * mm, Z: 30 * mm, Steps: 2}
	whole := Space{Length: 80 * mm, Width: 40 * mm, Depth: 40 * mm, Bodies: []Body{
		{Name: "rod", Role: RolePart, Solid: rod, At: Point{40 * mm, 18 * mm, 8 * mm}},
		{Name: "left", Role: RoleAnode, Solid: anode, At: Point{10 * mm, 20 * mm, 20 * mm}},
		{Name: "right", Role: RoleAnode, Solid: anode, At: Point{70 * mm, 20 * mm, 20 * mm}}}}
	rod.Half = true
	half := Space{Length: 40 * mm, Width: 40 * mm, Depth: 40 * mm, Bodies: []Body{
		{Name: "rod", Role: RolePart, Solid: rod, At: Point{0, 18 * mm, 8 * mm}},
		{Name: "right", Role: RoleAnode, Solid: anode, At: Point{30 * mm, 20 * mm, 20 * mm}}}}
	c := bathConditions
	c.Current = 0.2
	a := solvedSpace(t, whole, c)
	c.Current = 0.1
	b := solvedSpace(t, half, c)
	// The screens of the two boxes differ, and so do a few diagonals.
	if !scalar.EqualWithinRel(float64(a.Voltage), float64(b.Voltage), 1e-3) || !scalar.EqualWithinRel(a.Spread, b.Spread, 0.01) {
		t.Errorf("whole tank %v V, spread %v; half %v V, %v", float64(a.Voltage), a.Spread, float64(b.Voltage), b.Spread)
	}
	if !scalar.EqualWithinRel(float64(a.Skins[0].Area), 2*float64(b.Skins[0].Area), 1e-9) {
		t.Errorf("area of the half rod = %v, want half of %v", float64(b.Skins[0].Area), float64(a.Skins[0].Area))
	}
	rod.Around = 6
	if _, err := rod.Mesh(1); err == nil || !strings.Contains(err.Error(), "multiple of four") {
		t.Errorf("half of six steps gave %v", err)
	}
}

func TestSpaceRepeats(t *testing.T) {
	c := bathConditions
	c.Current = 0.2
	a, b := solvedSpace(t, smallTank(millimetre), c), solvedSpace(t, smallTank(millimetre), c)
	for i, f := range a.Skins[0].Facets {
		if f != b.Skins[0].Facets[i] {
			t.Fatalf("triangle %d differs between two runs: %+v, %+v", i, f, b.Skins[0].Facets[i])
		}
	}
}

func TestSpaceGrowth(t *testing.T) {
	c := bathConditions
	c.Current = 0.2
	d := solvedSpace(t, smallTank(millimetre), c)
	nickel := Nickel().Deposit()
	g, err := d.Grow(nickel, ConstantEfficiency(0.95), 30*unit.Minute)
	if err != nil {
		t.Fatal(err)
	}
	// Faraday's law over the whole part.
	if want := float64(nickel.Equivalent) * 0.95 * 0.2 * 1800; !scalar.EqualWithinRel(float64(g.Mass), want, 1e-7) {
		t.Errorf("mass = %v kg, want %v", float64(g.Mass), want)
	}
	if !(g.Thinnest.Thickness < g.Mean && g.Mean < g.Thickest.Thickness) || g.Thickest.Triangle != d.Thickest.Triangle {
		t.Errorf("growth %v, %v, %v at triangle %d, want in order and at %d", float64(g.Thinnest.Thickness), float64(g.Mean), float64(g.Thickest.Thickness), g.Thickest.Triangle, d.Thickest.Triangle)
	}
	places, area, share, err := d.Over(d.Mean)
	if err != nil || len(places) == 0 || !(share > 0 && share < 1) || !scalar.EqualWithinRel(float64(area), share*float64(d.Skins[0].Area), 1e-12) {
		t.Errorf("over the mean: %d places, %v m2, share %v, %v", len(places), float64(area), share, err)
	}
	if _, _, _, err := d.Over(0); err == nil {
		t.Error("a limit of zero gave no error")
	}
	var none SpaceDistribution
	if _, err := none.Grow(nickel, ConstantEfficiency(1), 1); err == nil || none.Resistance() != 0 {
		t.Error("the zero distribution gave a coat")
	}
}

func TestSpaceErrors(t *testing.T) {
	mm := millimetre
	cube := func(edge unit.Length) Mesh {
		m, err := Block{X: edge, Y: edge, Z: edge, Steps: 1}.Mesh(1)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	open, turned, twice, flat := cube(10*mm), cube(10*mm), cube(10*mm), cube(10*mm)
	open.Triangles = open.Triangles[1:]
	for i, k := range turned.Triangles {
		turned.Triangles[i] = [3]int{k[0], k[2], k[1]}
	}
	twice.Triangles = append(twice.Triangles, twice.Triangles[4])
	flat.Triangles = append(flat.Triangles, [3]int{0, 0, 1})
	at := func(x unit.Length) Point { return Point{x, 50 * mm, 50 * mm} }
	anode := Body{Name: "anode", Role: RoleAnode, Solid: cube(10 * mm), At: at(80 * mm)}
	part := func(s Solid, x unit.Length) []Body {
		return []Body{{Name: "part", Role: RolePart, Solid: s, At: at(x)}, anode}
	}
	for _, test := range []struct {
		name, want string
		bodies     []Body
	}{
		{"open", "triangle 1 of body \"part\" has a free side", part(open, 20*mm)},
		{"inwards", "triangle 1 of body \"part\" faces inwards", part(turned, 20*mm)},
		{"twice", "triangles 5 and", part(twice, 20*mm)},
		{"no area", "has no area", part(flat, 20*mm)},
		{"outside", "outside the tank", part(cube(10*mm), 2*mm)},
		{"touching", "touches triangle", part(cube(10*mm), 70*mm)},
		{"crossing", "touches triangle", part(cube(10*mm), 73*mm)},
		{"within", "lies within", part(cube(2*mm), 80*mm)},
		{"around", "lies within", part(cube(30*mm), 80*mm)},
		{"no part", "no part", []Body{anode}},
		{"no anode", "no anode", part(cube(10*mm), 20*mm)[:1]},
		{"one name", "name of its own", []Body{anode, anode}},
		{"wall", "must be a part", []Body{{Name: "wall", Role: RoleWall, Solid: cube(10 * mm), At: at(20 * mm)}}},
		{"no solid", "no solid", []Body{{Name: "part", Role: RolePart}}},
		{"NaN", "must be finite", part(cube(10*mm), unit.Length(math.NaN()))},
		{"too thick a rounding", "rounding of block", part(Block{X: 1 * mm, Y: 1 * mm, Z: 1 * mm, Round: 1 * mm, Steps: 1}, 20*mm)},
		{"steps", "steps of block", part(Block{X: 1 * mm, Y: 1 * mm, Z: 1 * mm}, 20*mm)},
		{"too many", "at most 6000", part(Block{X: 9 * mm, Y: 9 * mm, Z: 9 * mm, Steps: 40}, 20*mm)},
		{"off the axis", "must begin and end on it", part(Spun{Around: 8, Turned: Turned{Profile: []ProfilePoint{{R: Exactly(1 * mm)}, {X: Exactly(1 * mm), R: Exactly(1 * mm)}}}}, 20*mm)},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := NewSpaceField(Space{Length: 100 * mm, Width: 100 * mm, Depth: 100 * mm, Bodies: test.bodies})
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "plating: ") {
				t.Errorf("error = %v, want one with %q", err, test.want)
			}
		})
	}
	f, err := NewSpaceField(smallTank(mm))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Solve(Conditions{}); err == nil {
		t.Error("empty conditions gave no error")
	}
}

func TestBandsSettleWhereASharpEdgeDoesNot(t *testing.T) {
	// A sharp cube without kinetics: its edges have no highest current density,
	// so that the single triangle goes on growing (by 2^(1/3) and more for sides
	// half as long), while the mean over a tenth of the skin settles.
	var peaks, bands []float64
	for _, steps := range []int{4, 8} {
		field, err := NewSpaceField(Space{Unbounded: true, Bodies: []Body{{Name: "cube", Role: RolePart, Solid: Block{X: 1, Y: 1, Z: 1, Steps: steps}}}})
		if err != nil {
			t.Fatal(err)
		}
		d, err := field.Solve(Conditions{Conductivity: 1, Current: 1 * unit.Ampere})
		if err != nil {
			t.Fatal(err)
		}
		if !(d.Thick < d.Thickest.CurrentDensity && d.Thick > d.Mean && d.Thin >= d.Thinnest.CurrentDensity && d.Thin < d.Mean) {
			t.Errorf("%d steps: thickest %v, thick %v, mean %v, thin %v, thinnest %v", steps, d.Thickest.CurrentDensity, d.Thick, d.Mean, d.Thin, d.Thinnest.CurrentDensity)
		}
		t.Logf("%d steps: peak %.3f, tenth %.3f (change %.3f) of the mean", steps, float64(d.Thickest.CurrentDensity/d.Mean), float64(d.Thick/d.Mean), d.ThickChange)
		peaks, bands = append(peaks, float64(d.Thickest.CurrentDensity/d.Mean)), append(bands, float64(d.Thick/d.Mean))
	}
	if grown, settled := peaks[1]/peaks[0]-1, math.Abs(bands[1]/bands[0]-1); !(grown > 0.2 && settled < 0.05) {
		t.Errorf("the single triangle grew by %v, the tenth by %v", grown, settled)
	}
	// A ball has one current density everywhere.
	field, err := NewSpaceField(Space{Unbounded: true, Bodies: []Body{{Name: "ball", Role: RolePart, Solid: Ball("ball", 1, 8)}}})
	if err != nil {
		t.Fatal(err)
	}
	d, err := field.Solve(Conditions{Conductivity: 1, Current: 1 * unit.Ampere})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(d.Thick/d.Thin)-1) > 0.1 {
		t.Errorf("a ball's tenths have %v and %v", d.Thick, d.Thin)
	}
}
