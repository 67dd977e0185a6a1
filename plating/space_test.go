package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"
)

// solvedSpace returns the distribution in a space.
func solvedSpace(t *testing.T, s Space, c Conditions) SpaceDistribution {
	t.Helper()
	f, err := NewSpaceField(s)
	if err != nil {
		t.Fatal(err)
	}
	d, err := f.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// resistance fails the test unless the cell's is the wanted one.
func resistance(t *testing.T, what string, d SpaceDistribution, want, tol float64) {
	t.Helper()
	if got := float64(d.Resistance()); !scalar.EqualWithinRel(got, want, tol) {
		t.Errorf("%s: resistance = %v ohm, want %v within %v of it; %+v", what, got, want, tol, d.Change)
	}
}

// primary is a bath of 8 S/m with one ampere and no kinetics.
var primary = Conditions{Conductivity: 8 * SiemensPerMetre, Current: 1 * unit.Ampere}

func TestFacetIntegrals(t *testing.T) {
	f := newFacet(r3.Vec{X: 0.1, Z: 0.2}, r3.Vec{X: 1.2, Y: 0.1}, r3.Vec{X: 0.4, Y: 0.9, Z: 0.3})
	m := Mesh{Points: []Point{pointAt(f.a), pointAt(f.b), pointAt(f.c)}, Triangles: [][3]int{{0, 1, 2}}}
	fine, err := m.Mesh(64)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []r3.Vec{{X: 0.5, Y: 0.3, Z: 0.5}, {X: 0.5, Y: 0.3, Z: -0.2}, {X: 2, Y: -1, Z: 0.3}, {X: -0.4, Y: 0.1, Z: 0.1}} {
		var want kernelPair
		for k := range fine.Triangles {
			small := newFacet(fine.corners(k))
			for _, y := range small.places() {
				p := pointKernel(r3.Sub(y, x), small.normal)
				want.g += p.g * small.area / 3
				want.h += p.h * small.area / 3
			}
		}
		g, h := f.exact(x)
		// 4096 copies of a rule exact for squares leave about 1e-7.
		if !scalar.EqualWithinRel(g, want.g, 1e-6) || !scalar.EqualWithinAbs(h, want.h, 1e-6) {
			t.Errorf("exact(%v) = %v, %v, quadrature %v, %v", x, g, h, want.g, want.h)
		}
	}
}

// TestBoxDoesNotDependOnScreen holds the sum over images and modes against the
// same sum with another share between the two.
func TestBoxDoesNotDependOnScreen(t *testing.T) {
	f := newFacet(r3.Vec{X: 0.1, Y: 0.1, Z: 0.2}, r3.Vec{X: 0.16, Y: 0.1, Z: 0.21}, r3.Vec{X: 0.12, Y: 0.15, Z: 0.2})
	x, y := r3.Vec{X: 0.9, Y: 0.7, Z: 0.1}, r3.Vec{X: 0.12, Y: 0.11, Z: 0.25}
	sum := func(b box, x r3.Vec) kernelPair {
		var k kernelPair
		for _, m := range b.mirrors() {
			v := b.seen(&f, m.of(x))
			k.g += v.g
			k.h += v.h
		}
		var at waves
		modes := b.modes()
		g, h := make([]float64, len(modes)), make([]float64, len(modes))
		for _, p := range f.places() {
			at.at(b, p)
			b.overFacet(&at, &f, modes, g, h)
		}
		at.at(b, x)
		for i, m := range modes {
			wave := m.weight * at.cos[0][m.m[0]] * at.cos[1][m.m[1]] * at.cos[2][m.m[2]]
			k.g += wave * g[i]
			k.h += wave * h[i]
		}
		return k
	}
	a := newBox([3]float64{1, 0.8, 0.3})
	b := a
	b.a *= 1.3
	b.reach /= 1.3
	// The constant that the sum leaves open drops out of differences in g.
	ax, bx, ay, by := sum(a, x), sum(b, x), sum(a, y), sum(b, y)
	if got, want := bx.g-by.g, ax.g-ay.g; !scalar.EqualWithinRel(got, want, 1e-5) {
		t.Errorf("difference of g = %v with another screen, want %v", got, want)
	}
	for _, p := range [][2]float64{{bx.h, ax.h}, {by.h, ay.h}} {
		if !scalar.EqualWithinAbs(p[0], p[1], 1e-5*math.Abs(ay.h)) {
			t.Errorf("h = %v with another screen, want %v", p[0], p[1])
		}
	}
}

// ballIn is a space without bounds that holds a ball of 20 mm.
func ballIn(around int) Space {
	return Space{Unbounded: true, Bodies: []Body{{Name: "ball", Role: RolePart, Solid: Ball("ball", 20*millimetre, around)}}}
}

func TestBallAndHemisphere(t *testing.T) {
	// J. Newman, K. Thomas-Alyea, Electrochemical Systems, 2004: 1/(4 pi kappa a)
	// and, on an insulating plane, twice that (exact).
	want := 1 / (4 * math.Pi * 8 * 0.01)
	d := solvedSpace(t, ballIn(10), primary)
	// Facets with corners on the sphere lie within it: at 20 around by
	// 1 - (2 pi/20)^2/6 = 1.6 %.
	resistance(t, "ball", d, want, 0.02)
	if d.Spread > 0.01 {
		t.Errorf("spread over a ball = %v, want 0 within 0.01", d.Spread)
	}
	half := Spun{Around: 10, Turned: Turned{Name: "half", Profile: []ProfilePoint{{}, {R: Exactly(10 * millimetre)}, {X: Exactly(10 * millimetre), Arc: 10 * millimetre}}}}
	h := solvedSpace(t, Space{Unbounded: true, Mirror: true, Bodies: []Body{{Name: "half", Role: RolePart, Solid: half}}}, primary)
	// The ball's own mesh cut at the middle: the floor is exact.
	resistance(t, "hemisphere", h, 2*float64(d.Resistance()), 1e-9)
}

func TestConcentricBalls(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// A shell about a ball: R = (1/a - 1/b)/(4 pi kappa), exact.
	out, err := Ball("out", 80*millimetre, 8).Mesh(1)
	if err != nil {
		t.Fatal(err)
	}
	in, err := Ball("in", 60*millimetre, 8).Mesh(1)
	if err != nil {
		t.Fatal(err)
	}
	shell := Mesh{Name: "shell", Points: append(append([]Point{}, out.Points...), in.Points...), Triangles: append([][3]int{}, out.Triangles...)}
	for _, k := range in.Triangles {
		n := len(out.Points)
		shell.Triangles = append(shell.Triangles, [3]int{k[0] + n, k[2] + n, k[1] + n})
	}
	middle := Point{50 * millimetre, 50 * millimetre, 50 * millimetre}
	s := Space{Length: 100 * millimetre, Width: 100 * millimetre, Depth: 100 * millimetre, Bodies: []Body{
		{Name: "ball", Role: RolePart, Solid: Ball("ball", 20*millimetre, 8), At: middle},
		{Name: "shell", Role: RoleAnode, Solid: shell, At: middle}}}
	d := solvedSpace(t, s, primary)
	// The shell's facets are those of 8 around, cut in four but still flat:
	// its inner radius is a mean 4 % small, the ball's at 16 around 2.5 %.
	resistance(t, "shell", d, (1/0.01-1/0.03)/(4*math.Pi*8), 0.03)
}

func TestSpaceParallelPlates(t *testing.T) {
	w, h := 60*millimetre, 40*millimetre
	s := Space{Length: 102 * millimetre, Width: w, Depth: h, Bodies: []Body{
		{Name: "plate", Role: RolePart, Solid: Block{X: 1 * millimetre, Y: w, Z: h, Steps: 4}, At: Point{0.5 * millimetre, w / 2, h / 2}},
		{Name: "anode", Role: RoleAnode, Solid: Block{X: 1 * millimetre, Y: w, Z: h, Steps: 4}, At: Point{101.5 * millimetre, w / 2, h / 2}}}}
	// Exact: an even field. What is left is the rule of three places for far
	// facets.
	d := solvedSpace(t, s, primary)
	resistance(t, "plates", d, 0.1/(8*0.06*0.04), 1e-5)
	if d.Spread > 1e-3 {
		t.Errorf("spread between plates that fill the tank = %v, want below 1e-3", d.Spread)
	}
	if d.ChargeError > 1e-9 {
		t.Errorf("charge error = %v, want rounding only", d.ChargeError)
	}
}

// wallSheet is a sheet in the plane X = 0 that faces +X, with its places along
// Y and Z.
func wallSheet(ys, zs []float64) Mesh {
	w := newWelder(1)
	for i := 1; i < len(ys); i++ {
		for j := 1; j < len(zs); j++ {
			at := func(y, z float64) int { return w.add(r3.Vec{Y: y, Z: z}) }
			addQuad(w, true, at(ys[i-1], zs[j-1]), at(ys[i], zs[j-1]), at(ys[i], zs[j]), at(ys[i-1], zs[j]))
		}
	}
	return w.mesh("sheet")
}

func TestRodBesideWall(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// A rod of radius 5 with its axis 20 from a wall that is the anode, from the
	// floor to the surface: R 2 pi kappa L = acosh(4), and the greatest current
	// density over the least is 25/15 (conformal map, exact). The tank's other
	// walls, 60 and more rods' radii away, insulate.
	mm := millimetre
	s := Space{Length: 400 * mm, Width: 600 * mm, Depth: 20 * mm, Bodies: []Body{
		{Name: "rod", Role: RolePart, Solid: UprightRod("rod", 10*mm, 20*mm, 10), At: Point{20 * mm, 300 * mm, 0}},
		{Name: "wall", Role: RoleAnode, Solid: wallSheet([]float64{0, .12, .2, .24, .265, .28, .2875, .295, .305, .3125, .32, .335, .36, .4, .48, .6}, []float64{0, .01, .02})}}}
	c := primary
	c.Current = 0.2
	d := solvedSpace(t, s, c)
	resistance(t, "rod beside wall", d, math.Acosh(4)/(2*math.Pi*8*0.02), 0.02)
	if got := float64(d.Thickest.CurrentDensity / d.Thinnest.CurrentDensity); !scalar.EqualWithinRel(got, 25.0/15, 0.03) {
		t.Errorf("greatest over least current density = %v, want %v", got, 25.0/15)
	}
}

func TestDiscOnFloor(t *testing.T) {
	// J. Newman, "Resistance for flow of current to a disk", J. Electrochem. Soc.
	// 113 (1966) 501: R = 1/(4 kappa a), half the mean in the middle.
	disc := Spun{Around: 10, Turned: Turned{Name: "disc", Profile: []ProfilePoint{{}, {R: Exactly(10 * millimetre)}, {X: Exactly(1 * millimetre), R: Exactly(10 * millimetre)}, {X: Exactly(1 * millimetre)}}}}
	m, err := disc.Mesh(2)
	if err != nil {
		t.Fatal(err)
	}
	// Only the top, laid into the floor.
	top := Mesh{Name: "disc", Points: m.Shifted(Point{Z: -1 * millimetre}).Points}
	for i := range m.Triangles {
		if a, b, c := m.corners(i); a.Z+b.Z+c.Z > 2.999e-3 {
			top.Triangles = append(top.Triangles, m.Triangles[i])
		}
	}
	d := solvedSpace(t, Space{Unbounded: true, Mirror: true, Bodies: []Body{{Name: "disc", Role: RolePart, Solid: top}}}, primary)
	resistance(t, "disc", d, 1/(4*8*0.01), 0.02)
	if got := float64(d.Thinnest.CurrentDensity / d.Mean); !scalar.EqualWithinAbs(got, 0.5, 0.02) {
		t.Errorf("current density in the middle = %v of the mean, want 0.5", got)
	}
}

func TestPrismAgreesWithPlane(t *testing.T) {
	// A plate and an anode from floor to surface are a plane section.
	mm := millimetre
	section := Section{Depth: 20 * mm, Outlines: []Outline{
		Box("tank", RoleWall, 0, 0, 80*mm, 60*mm),
		Box("plate", RolePart, 20*mm, 20*mm, 24*mm, 40*mm),
		Box("anode", RoleAnode, 60*mm, 15*mm, 64*mm, 45*mm)}}
	space := Space{Length: 80 * mm, Width: 60 * mm, Depth: 20 * mm, Bodies: []Body{
		{Name: "plate", Role: RolePart, Solid: Block{X: 4 * mm, Y: 20 * mm, Z: 20 * mm, Steps: 3}, At: Point{22 * mm, 30 * mm, 10 * mm}},
		{Name: "anode", Role: RoleAnode, Solid: Block{X: 4 * mm, Y: 30 * mm, Z: 20 * mm, Steps: 3}, At: Point{62 * mm, 30 * mm, 10 * mm}}}}
	c := bathConditions
	c.Current = 0.2
	flat := solved(t, section, 200, c)
	d := solvedSpace(t, space, c)
	resistance(t, "prism", d, float64(flat.Resistance()), 0.01)
	if !scalar.EqualWithinRel(d.Spread, flat.Spread, 0.03) {
		t.Errorf("spread over the prism = %v, the section's is %v", d.Spread, flat.Spread)
	}
	profile, _ := flat.Profile("plate")
	skin, _ := d.Skin("plate")
	for _, f := range skin.Facets {
		// The face to the anode, away from its edges.
		if y := float64(f.Middle.Y) * 1e3; float64(f.Middle.X) > 23.9e-3 && y > 21 && y < 39 {
			along := (4 + y - 20) * 1e-3
			want := float64(profile.At(unit.Length(along)) / flat.Mean)
			if got := float64(f.CurrentDensity / d.Mean); !scalar.EqualWithinAbs(got, want, 0.02) {
				t.Errorf("current density at y = %.1f mm is %v of the mean, the section's %v", y, got, want)
			}
		}
	}
}

func TestRodAgreesWithRings(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// A rod with round ends in an unbounded bath, with kinetics, against the
	// axisymmetric solver.
	mm := millimetre
	r, h := 5*mm, 15*mm
	section := Section{Axisymmetric: true, Unbounded: true, Outlines: []Outline{{Name: "rod", Role: RolePart, Corners: []Corner{
		{Y: -h - r, Bulge: math.Tan(math.Pi / 8)}, {X: r, Y: -h}, {X: r, Y: h, Bulge: math.Tan(math.Pi / 8)}, {Y: h + r}}}}}
	rod := Spun{Around: 10, Turned: Turned{Name: "rod", Profile: []ProfilePoint{{X: Exactly(-h - r)}, {X: Exactly(-h), R: Exactly(r), Arc: r}, {X: Exactly(h), R: Exactly(r)}, {X: Exactly(h + r), Arc: r}}}}
	c := bathConditions
	c.Current = 0.3
	rings := solved(t, section, 120, c)
	d := solvedSpace(t, Space{Unbounded: true, Bodies: []Body{{Name: "rod", Role: RolePart, Solid: rod}}}, c)
	// Facets within the round: 20 around take 1.6 % off it.
	resistance(t, "rod", d, float64(rings.Resistance()), 0.02)
	for _, p := range [][2]float64{{float64(d.Thinnest.CurrentDensity / d.Mean), float64(rings.Thinnest.CurrentDensity / rings.Mean)},
		{float64(d.Thickest.CurrentDensity / d.Mean), float64(rings.Thickest.CurrentDensity / rings.Mean)}} {
		if !scalar.EqualWithinRel(p[0], p[1], 0.03) {
			t.Errorf("extreme current density = %v of the mean, on rings %v", p[0], p[1])
		}
	}
}

func TestScreenTable(t *testing.T) {
	s := newScreen(2)
	for x := 0.001; x < screenCut; x += 0.0137 {
		left, slope := s.at(x)
		bell := 2 / math.SqrtPi * x * math.Exp(-x*x)
		// A cubic over steps of 0.0074 is good to 1e-10.
		if !scalar.EqualWithinAbs(left, math.Erfc(x), 1e-9) || !scalar.EqualWithinAbs(slope, math.Erfc(x)+bell, 1e-9) {
			t.Fatalf("at(%v) = %v, %v, want %v, %v", x, left, slope, math.Erfc(x), math.Erfc(x)+bell)
		}
		// What the screen takes off, with a of 2 per metre; the series below 0.2
		// is good to 1e-8.
		to := r3.Vec{X: x / 2}
		if x > 0.01 {
			k, r := s.smooth(to, r3.Vec{X: 1}), x/2
			g, h := math.Erf(x)/r, (math.Erf(x)-bell)/(r*r)
			if !scalar.EqualWithinAbsOrRel(k.g, g, 1e-7, 1e-7) || !scalar.EqualWithinAbsOrRel(k.h, h, 1e-6, 1e-6) {
				t.Fatalf("smooth at %v = %v, want %v, %v", x, k, g, h)
			}
		}
	}
}
