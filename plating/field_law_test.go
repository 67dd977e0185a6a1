package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// nickelLike is Butler-Volmer kinetics of the size met in nickel baths, with a
// limit: made up for tests, not a bath's figures.
var nickelLike = Kinetics{Exchange: 0.1, Cathodic: 0.5, Anodic: 1.5, Temperature: 328.15, Limit: 1500}

// hangingPlate is a thin plate in a tank with an anode to either side, seen from
// above; the left anode stands nearer by the given shift.
func hangingPlate(shift float64) Section {
	at := unit.Length(shift)
	return Section{Depth: 0.1 * unit.Metre, Outlines: []Outline{
		Box("tank", RoleWall, -.1, -.075, .1, .075),
		Box("left", RoleAnode, -.09+at, -.03, -.085+at, .03),
		Box("right", RoleAnode, .085, -.03, .09, .03),
		Box("plate", RolePart, -.0008, -.022, .0008, .022),
	}}
}

// bathConditions drives 2 A through 8 S/m with kinetics at the cathode.
var bathConditions = Conditions{Conductivity: 8, Current: 2 * unit.Ampere, Cathode: nickelLike}

// agree fails the test when two profiles differ by more than a share of the
// mean at evenly spaced places; the second is read backwards when asked.
func agree(t *testing.T, what string, a, b Profile, length float64, backwards bool, tol float64) {
	t.Helper()
	for k := 1; k < 20; k++ {
		at := length * float64(k) / 20
		other := at
		if backwards {
			other = length - at
		}
		got, want := float64(a.At(unit.Length(at))/a.Mean), float64(b.At(unit.Length(other))/b.Mean)
		if !scalar.EqualWithinAbs(got, want, tol) {
			t.Errorf("%s: current density at %.4g m = %v of the mean, want %v", what, at, got, want)
		}
	}
}

func TestPrimaryDoesNotDependOnConductivity(t *testing.T) {
	f, err := NewField(hangingPlate(0.01), 160)
	if err != nil {
		t.Fatal(err)
	}
	a, err := f.Solve(Conditions{Conductivity: 8, Current: 2})
	if err != nil {
		t.Fatal(err)
	}
	b, err := f.Solve(Conditions{Conductivity: 0.1, Current: 5})
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range profile(t, a, "plate").Samples {
		o := profile(t, b, "plate").Samples[i]
		if got, want := float64(s.CurrentDensity/a.Mean), float64(o.CurrentDensity/b.Mean); !scalar.EqualWithinRel(got, want, 1e-9) {
			t.Fatalf("current density = %v and %v of the mean at two conductivities", got, want)
		}
	}
	if got, want := float64(a.Resistance())*8, float64(b.Resistance())*0.1; !scalar.EqualWithinRel(got, want, 1e-9) {
		t.Errorf("resistance times conductivity = %v and %v", got, want)
	}
}

func TestLargeWagnerNumberIsEven(t *testing.T) {
	before := math.Inf(1)
	for _, resistance := range []AreaResistance{0, 1e-3, 1e-2, 1e-1, 10} {
		c := Conditions{Conductivity: 8, Current: 2, Cathode: Kinetics{Resistance: resistance}}
		d := solved(t, hangingPlate(0.02), 160, c)
		if d.Spread >= before {
			t.Errorf("spread = %v at %v ohm m2, want less than %v at less", d.Spread, resistance, before)
		}
		before = d.Spread
	}
	// Wa = 8*10/0.044 = 1800: what is left goes as 1/Wa.
	if before > 1e-3 {
		t.Errorf("spread at a Wagner number of 1800 = %v, want below 0.001", before)
	}
}

func TestSuperposition(t *testing.T) {
	// With straight-line kinetics, currents of two cell voltages add.
	f, err := NewField(hangingPlate(0.02), 160)
	if err != nil {
		t.Fatal(err)
	}
	at := func(v unit.Voltage) []Sample {
		d, err := f.Solve(Conditions{Conductivity: 8, Voltage: v, Cathode: Kinetics{Resistance: 1e-3}, Anode: Kinetics{Resistance: 2e-3}})
		if err != nil {
			t.Fatal(err)
		}
		return profile(t, d, "plate").Samples
	}
	a, b, sum := at(0.7), at(1.1), at(1.8)
	for i := range sum {
		if got := a[i].CurrentDensity + b[i].CurrentDensity; !scalar.EqualWithinRel(float64(got), float64(sum[i].CurrentDensity), 1e-8) {
			t.Fatalf("current densities %v and %v, together %v", a[i].CurrentDensity, b[i].CurrentDensity, sum[i].CurrentDensity)
		}
	}
}

func TestScale(t *testing.T) {
	// Twice the size at twice the conductivity and the same kinetics has the same
	// Wagner number: the same shares, to the rounding of the mesh.
	grow := hangingPlate(0.01)
	grow = grow.clone()
	for _, o := range grow.Outlines {
		for i := range o.Corners {
			o.Corners[i].X *= 2
			o.Corners[i].Y *= 2
		}
	}
	c := Conditions{Conductivity: 8, Current: 2, Cathode: Kinetics{Resistance: 1e-3}}
	a := solved(t, hangingPlate(0.01), 160, c)
	c.Conductivity = 16
	b := solved(t, grow, 160, c)
	for i, s := range profile(t, a, "plate").Samples {
		o := profile(t, b, "plate").Samples[i]
		if got, want := float64(s.CurrentDensity/a.Mean), float64(o.CurrentDensity/b.Mean); !scalar.EqualWithinRel(got, want, 1e-6) {
			t.Fatalf("current density = %v and %v of the mean at two sizes", got, want)
		}
	}
}

func TestMirrorImage(t *testing.T) {
	// The section seen in a mirror, its outlines then running the other way, has
	// the same current at mirrored places.
	image := hangingPlate(0.01).clone()
	for _, o := range image.Outlines {
		for i := range o.Corners {
			o.Corners[i].X *= -1
		}
	}
	a := solved(t, hangingPlate(0.01), 160, bathConditions)
	b := solved(t, image, 160, bathConditions)
	for i, s := range profile(t, a, "plate").Samples {
		o := profile(t, b, "plate").Samples[i]
		if !scalar.EqualWithinRel(float64(s.CurrentDensity), float64(o.CurrentDensity), 1e-6) || !scalar.EqualWithinAbs(float64(s.X), -float64(o.X), 1e-12) {
			t.Fatalf("current density = %v at x %v, in the mirror %v at %v", s.CurrentDensity, float64(s.X), o.CurrentDensity, float64(o.X))
		}
	}
}

func TestMirrorLine(t *testing.T) {
	// The upper half of a symmetric tank with half the current is the whole tank.
	half := Section{Depth: 0.1 * unit.Metre, Mirror: true, Outlines: []Outline{
		openLine("tank", RoleWall, -.1, 0, -.1, .075, .1, .075, .1, 0),
		openLine("left", RoleAnode, -.08, 0, -.08, .03, -.075, .03, -.075, 0),
		openLine("right", RoleAnode, .085, 0, .085, .03, .09, .03, .09, 0),
		openLine("plate", RolePart, .0008, 0, .0008, .022, -.0008, .022, -.0008, 0),
	}}
	whole := solved(t, hangingPlate(0.01), 400, bathConditions)
	c := bathConditions
	c.Current /= 2
	d := solved(t, half, 200, c)
	// Two meshes of the same fineness, but not the same mesh: 1 %.
	if !scalar.EqualWithinRel(float64(d.Voltage), float64(whole.Voltage), 2e-3) || !scalar.EqualWithinRel(d.Spread, whole.Spread, 0.01) {
		t.Errorf("half: %v V, spread %v; whole: %v V, spread %v", float64(d.Voltage), d.Spread, float64(whole.Voltage), whole.Spread)
	}
	if !scalar.EqualWithinRel(float64(d.Thinnest.CurrentDensity), float64(whole.Thinnest.CurrentDensity), 0.01) {
		t.Errorf("thinnest in the half %v, in the whole %v", d.Thinnest.CurrentDensity, whole.Thinnest.CurrentDensity)
	}
}

func TestDirectionOfOutlineDoesNotMatter(t *testing.T) {
	turned := hangingPlate(0.01).clone()
	for _, o := range turned.Outlines {
		for i, j := 0, len(o.Corners)-1; i < j; i, j = i+1, j-1 {
			o.Corners[i], o.Corners[j] = o.Corners[j], o.Corners[i]
		}
	}
	a := solved(t, hangingPlate(0.01), 160, bathConditions)
	b := solved(t, turned, 160, bathConditions)
	if !scalar.EqualWithinRel(float64(a.Voltage), float64(b.Voltage), 1e-9) || !scalar.EqualWithinRel(a.Spread, b.Spread, 1e-9) {
		t.Errorf("voltage %v and spread %v, turned %v and %v", float64(a.Voltage), a.Spread, float64(b.Voltage), b.Spread)
	}
	samples := profile(t, b, "plate").Samples
	for i := 1; i < len(samples); i++ {
		if samples[i].Along <= samples[i-1].Along {
			t.Fatalf("sample %d lies at %v after %v", i, float64(samples[i].Along), float64(samples[i-1].Along))
		}
	}
}

// channel is a cross-section of a channel with a stepped cathode, at a distance
// from the axis.
func channel(from unit.Length) []Outline {
	at := func(name string, role Role, xy ...float64) Outline {
		o := openLine(name, role, xy...)
		for i := range o.Corners {
			o.Corners[i].X += from
		}
		return o
	}
	return []Outline{
		at("part", RolePart, 0, 0, .02, 0, .02, .01, .04, .01), at("right", RoleWall, .04, .01, .04, .04),
		at("anode", RoleAnode, .04, .04, 0, .04), at("left", RoleWall, 0, .04, 0, 0),
	}
}

func TestLargeRingIsPlane(t *testing.T) {
	// A ring of 40 m radius bends by 0.04/40 over the width of its section: 0.1 %.
	const radius = 40
	plane := solved(t, Section{Depth: 2 * math.Pi * radius * unit.Metre, Outlines: channel(0)}, 160,
		Conditions{Conductivity: 8, Current: 500, Cathode: nickelLike})
	rings := solved(t, Section{Axisymmetric: true, Outlines: channel(radius)}, 160,
		Conditions{Conductivity: 8, Current: 500, Cathode: nickelLike})
	if !scalar.EqualWithinRel(float64(rings.Voltage), float64(plane.Voltage), 1e-3) {
		t.Errorf("voltage on rings = %v, on the plane %v", float64(rings.Voltage), float64(plane.Voltage))
	}
	agree(t, "rings against plane", profile(t, rings, "part"), profile(t, plane, "part"), 0.05, false, 2e-3)
}

func TestCurrentAndVoltageAreInverse(t *testing.T) {
	f, err := NewField(hangingPlate(0.01), 160)
	if err != nil {
		t.Fatal(err)
	}
	c := bathConditions
	c.Cathode.Equilibrium, c.Anode = -0.25, Kinetics{Equilibrium: -0.25, Exchange: 1, Cathodic: 1, Anodic: 1, Temperature: 328.15}
	for _, current := range []unit.Current{0.001, 0.5, 2, 10, 13} {
		c.Current, c.Voltage = current, 0
		d, err := f.Solve(c)
		if err != nil {
			t.Fatalf("%v A: %v", float64(current), err)
		}
		if limit := nickelLike.Limit; d.Thickest.CurrentDensity > limit {
			t.Errorf("%v A: thickest place has %v, over the limit %v", float64(current), d.Thickest.CurrentDensity, limit)
		}
		c.Current, c.Voltage = 0, d.Voltage
		back, err := f.Solve(c)
		if err != nil {
			t.Fatalf("%v V: %v", float64(d.Voltage), err)
		}
		// The residual left is 1e-9 of the mean current density.
		if !scalar.EqualWithinRel(float64(back.Current), float64(current), 1e-7) {
			t.Errorf("%v A gives %v V, which gives %v A", float64(current), float64(d.Voltage), float64(back.Current))
		}
	}
}

func TestLinearKineticsIsSmallButlerVolmer(t *testing.T) {
	// At overpotentials far below RT/F the Butler-Volmer law is a straight line of
	// slope RT/((ac+aa) F j0); what is left is of second order in eta F/RT, here
	// 1e-3.
	k := symmetric(1e5, 328.15)
	f, err := NewField(hangingPlate(0), 160)
	if err != nil {
		t.Fatal(err)
	}
	a, err := f.Solve(Conditions{Conductivity: 8, Current: 1, Cathode: k})
	if err != nil {
		t.Fatal(err)
	}
	line := Kinetics{Resistance: AreaResistance(gasConstant * 328.15 / (2 * Faraday * 1e5))}
	b, err := f.Solve(Conditions{Conductivity: 8, Current: 1, Cathode: line})
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinRel(a.Spread, b.Spread, 1e-3) || !scalar.EqualWithinRel(float64(a.Cathode), float64(b.Cathode), 1e-3) {
		t.Errorf("Butler-Volmer: spread %v, %v V; straight line: %v, %v V", a.Spread, float64(a.Cathode), b.Spread, float64(b.Cathode))
	}
}

func TestThiefAndShieldEvenTheEdge(t *testing.T) {
	bare := hangingPlate(0)
	thieved := bare.clone()
	thieved.Outlines = append(thieved.Outlines, Circle("upper thief", RoleThief, 0, .028, .0015), Circle("lower thief", RoleThief, 0, -.028, .0015))
	shielded := bare.clone()
	for _, x := range []unit.Length{-.012, .012} {
		for _, y := range []unit.Length{.022, -.022} {
			name := map[bool]string{true: "left", false: "right"}[x < 0] + map[bool]string{true: " upper", false: " lower"}[y > 0] + " shield"
			shielded.Outlines = append(shielded.Outlines, Box(name, RoleShield, x-.001, y-.008, x+.001, y+.008))
		}
	}
	without := solved(t, bare, 240, bathConditions)
	for name, s := range map[string]Section{"thief": thieved, "shield": shielded} {
		with := solved(t, s, 300, bathConditions)
		if with.Spread > 0.9*without.Spread {
			t.Errorf("%s: spread = %v, without %v", name, with.Spread, without.Spread)
		}
		if name == "thief" && (with.Utilisation > 0.95 || with.Utilisation < 0.3) {
			t.Errorf("thief: utilisation = %v, want well inside 0 to 1", with.Utilisation)
		}
	}
	if without.Utilisation != 1 {
		t.Errorf("utilisation without thief = %v, want 1", without.Utilisation)
	}
}
