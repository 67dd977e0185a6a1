package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// oneAmpere drives 1 A through 8 S/m without kinetics.
var oneAmpere = Conditions{Conductivity: 8, Current: 1 * unit.Ampere}

// openLine returns an open outline through points given as x, y, x, y ... in m.
func openLine(name string, role Role, xy ...float64) Outline {
	o := Outline{Name: name, Role: role}
	for i := 0; i < len(xy); i += 2 {
		o.Corners = append(o.Corners, Corner{X: unit.Length(xy[i]), Y: unit.Length(xy[i+1])})
	}
	return o
}

// arcLine returns an open outline of quarter circles about the origin, from an
// angle through so many quarters.
func arcLine(name string, role Role, radius, from float64, quarters int) Outline {
	o := Outline{Name: name, Role: role}
	for k := 0; k <= quarters; k++ {
		sin, cos := math.Sincos(from + float64(k)*math.Pi/2)
		o.Corners = append(o.Corners, Corner{X: unit.Length(radius * cos), Y: unit.Length(radius * sin), Bulge: math.Tan(math.Pi / 8)})
	}
	// Cosines of right angles are not quite zero, and must not cross the axis.
	for k := range o.Corners {
		if math.Abs(float64(o.Corners[k].X)) < 1e-12*radius {
			o.Corners[k].X = 0
		}
		if math.Abs(float64(o.Corners[k].Y)) < 1e-12*radius {
			o.Corners[k].Y = 0
		}
	}
	return o
}

// solved returns the distribution of a section, failing the test on an error.
func solved(t testing.TB, s Section, elements int, c Conditions) Distribution {
	t.Helper()
	f, err := NewField(s, elements)
	if err != nil {
		t.Fatalf("NewField: %v", err)
	}
	d, err := f.Solve(c)
	if err != nil {
		t.Fatalf("Solve: %v", err)
	}
	return d
}

// profile returns the named profile, failing the test when there is none.
func profile(t testing.TB, d Distribution, name string) Profile {
	t.Helper()
	p, ok := d.Profile(name)
	if !ok {
		t.Fatalf("no profile of %q", name)
	}
	return p
}

// disc is a disc flush in an insulating plane with the anode at infinity.
func disc(radius unit.Length) Section {
	return Section{Axisymmetric: true, Mirror: true, Unbounded: true, Outlines: []Outline{
		{Name: "disc", Role: RolePart, Corners: []Corner{{}, {X: radius}}}}}
}

func TestDiscPrimary(t *testing.T) {
	// J. Newman, "Resistance for flow of current to a disk", J. Electrochem. Soc.
	// 113 (1966) 501 (from memory): R = 1/(4 kappa a), j = 0.5/sqrt(1-(r/a)2) of
	// the mean. The demands: 0.1 % on R and 1 % on j within 0.95 a at 40 elements.
	d := solved(t, disc(10*millimetre), 40, oneAmpere)
	if got := float64(d.Resistance()); !scalar.EqualWithinRel(got, 3.1250, 1e-3) {
		t.Errorf("resistance = %v ohm, want 3.1250", got)
	}
	for _, s := range profile(t, d, "disc").Samples {
		x := float64(s.X / (10 * millimetre))
		want := 0.5 / math.Sqrt(1-x*x)
		if got := float64(s.CurrentDensity / d.Mean); x < 0.95 && !scalar.EqualWithinRel(got, want, 0.01) {
			t.Errorf("current density at %.3f a = %v of the mean, want %v", x, got, want)
		}
	}
}

func TestDiscSecondary(t *testing.T) {
	// J. Newman, "Current distribution on a rotating disk below the limiting
	// current", J. Electrochem. Soc. 113 (1966) 1235 (from memory); the figures
	// were computed by a Legendre series and by rings, which agree to 1e-4. The
	// tolerance is what they are stated to, 0.05 %, and 0.2 % at the edge.
	tests := []struct {
		wagner, resistance         float64
		centre, middle, outer, end float64
	}{
		{1, 2.34368, 0.88259, 0.92923, 1.08406, 1.1932},
		{10, 13.81194, 0.98530, 0.99163, 1.01007, 1.0210},
	}
	for _, test := range tests {
		c := oneAmpere
		c.Cathode.Resistance = AreaResistance(test.wagner * 0.01 / 8)
		d := solved(t, disc(10*millimetre), 200, c)
		if got := float64(d.Voltage) * 4 * 8 * 0.01; !scalar.EqualWithinRel(got, test.resistance, 5e-4) {
			t.Errorf("Wa %v: resistance times 4 kappa a = %v, want %v", test.wagner, got, test.resistance)
		}
		p := profile(t, d, "disc")
		for _, at := range []struct{ share, want, tol float64 }{
			{0, test.centre, 5e-4}, {0.5, test.middle, 5e-4}, {0.9, test.outer, 5e-4}, {1, test.end, 2e-3},
		} {
			if got := float64(p.At(unit.Length(at.share)*10*millimetre) / d.Mean); !scalar.EqualWithinRel(got, at.want, at.tol) {
				t.Errorf("Wa %v: current density at %v a = %v of the mean, want %v", test.wagner, at.share, got, at.want)
			}
		}
	}
}

func TestStripPrimary(t *testing.T) {
	// j = (2/pi)/sqrt(1-(x/a)2) of the mean with the anode far away, exact. An
	// anode at 40 a changes it by about (a/40 a)2/2, well below 0.5 %.
	s := Section{Mirror: true, Depth: 1 * unit.Metre, Outlines: []Outline{
		openLine("strip", RolePart, -1, 0, 1, 0), arcLine("anode", RoleAnode, 40, 0, 2)}}
	d := solved(t, s, 160, oneAmpere)
	p := profile(t, d, "strip")
	for x, want := range map[float64]float64{0: 0.63662, 0.5: 0.73511, 0.9: 1.46051} {
		if got := float64(p.At(unit.Length(1+x)) / d.Mean); !scalar.EqualWithinRel(got, want, 5e-3) {
			t.Errorf("current density at %v a = %v of the mean, want %v", x, got, want)
		}
	}
}

func TestCoplanarStrips(t *testing.T) {
	// G/kappa = K(k')/(2 K(k)) per length for strips from a to b, k = a/b:
	// conformal map, exact; tolerance 1e-4, what the figures are stated to.
	for k, want := range map[float64]float64{0.5: 0.639631, 0.2: 0.950335} {
		s := Section{Mirror: true, Unbounded: true, Depth: 1 * unit.Metre, Outlines: []Outline{
			openLine("part", RolePart, -1, 0, -k, 0), openLine("anode", RoleAnode, k, 0, 1, 0)}}
		d := solved(t, s, 200, oneAmpere)
		if got := 1 / float64(d.Resistance()) / 8; !scalar.EqualWithinRel(got, want, 1e-4) {
			t.Errorf("k %v: G/kappa = %v, want %v", k, got, want)
		}
	}
}

func TestConcentricCylinders(t *testing.T) {
	// R = ln(b/a)/(2 pi kappa L), exact; the printed 0.57261 ohm is rounded to
	// five digits. Plane arcs, and the same cell as rings between end walls.
	want := math.Log(10) / (2 * math.Pi * 8 * 0.08)
	c := Conditions{Conductivity: 8, Current: 0.5 * unit.Ampere}
	plane := Section{Depth: 80 * millimetre, Outlines: []Outline{
		Circle("rod", RolePart, 0, 0, 5*millimetre), Circle("anode", RoleAnode, 0, 0, 50*millimetre)}}
	rings := Section{Axisymmetric: true, Outlines: []Outline{
		openLine("rod", RolePart, .005, 0, .005, .08), openLine("lid", RoleWall, .005, .08, .05, .08),
		openLine("anode", RoleAnode, .05, .08, .05, 0), openLine("floor", RoleWall, .05, 0, .005, 0)}}
	for name, test := range map[string]struct {
		section Section
		tol     float64
	}{"plane": {plane, 1e-5}, "rings": {rings, 2e-4}} {
		d := solved(t, test.section, 200, c)
		if got := float64(d.Resistance()); !scalar.EqualWithinRel(got, want, test.tol) {
			t.Errorf("%s: resistance = %v ohm, want %v", name, got, want)
		}
		if got := float64(d.Voltage); !scalar.EqualWithinRel(got, 0.28630, 2e-4) {
			t.Errorf("%s: voltage = %v, want 0.28630 V", name, got)
		}
		if got := d.Mean / AmperePerSquareDecimetre; !scalar.EqualWithinRel(float64(got), 1.9894, 1e-4) {
			t.Errorf("%s: inner current density = %v A/dm2, want 1.9894", name, got)
		}
		anode := profile(t, d, "anode")
		if got := -anode.Mean / AmperePerSquareDecimetre; !scalar.EqualWithinRel(float64(got), 0.19894, 1e-4) {
			t.Errorf("%s: outer current density = %v A/dm2, want 0.19894", name, got)
		}
	}
}

func TestCylinderBesidePlane(t *testing.T) {
	// Two cylinders 40 apart are one beside a plane at 20 and its image, with
	// twice the resistance: R 2 pi kappa L = acosh(20/5), jmax/jmin = 25/15 and
	// jmax/jmean = sqrt(25/15), exact. The extremes are read a half element off
	// the exact points.
	s := Section{Depth: 1 * unit.Metre, Unbounded: true, Outlines: []Outline{
		Circle("part", RolePart, -20, 0, 5), Circle("anode", RoleAnode, 20, 0, 5)}}
	d := solved(t, s, 240, oneAmpere)
	if got := float64(d.Resistance()) / 2 * 2 * math.Pi * 8; !scalar.EqualWithinRel(got, 2.06344, 1e-5) {
		t.Errorf("R 2 pi kappa L = %v, want 2.06344", got)
	}
	if got := float64(d.Thickest.CurrentDensity / d.Thinnest.CurrentDensity); !scalar.EqualWithinRel(got, 1.66667, 1e-3) {
		t.Errorf("jmax/jmin = %v, want 1.66667", got)
	}
	if got := float64(d.Thickest.CurrentDensity / d.Mean); !scalar.EqualWithinRel(got, 1.29099, 1e-3) {
		t.Errorf("jmax/jmean = %v, want 1.29099", got)
	}
}

func TestUnitCircle(t *testing.T) {
	// A circle of radius 1 in the unit of length has a logarithmic capacity of 1,
	// where the single-layer equation alone has no single solution. The charge
	// balance must carry it: R = ln(b/a)/(2 pi kappa L), exact; arcs, so 1e-5.
	s := Section{Depth: 1 * unit.Metre, Outlines: []Outline{Circle("rod", RolePart, 0, 0, 0.2), Circle("anode", RoleAnode, 0, 0, 1)}}
	d := solved(t, s, 200, oneAmpere)
	if got, want := float64(d.Resistance()), math.Log(5)/(2*math.Pi*8); !scalar.EqualWithinRel(got, want, 1e-5) {
		t.Errorf("resistance = %v ohm, want %v", got, want)
	}
}

// duct is a plane duct with the cathode on the floor and the anode as lid.
func duct(width, height float64) Section {
	return Section{Depth: 0.1 * unit.Metre, Outlines: []Outline{
		openLine("part", RolePart, 0, 0, width, 0), openLine("right", RoleWall, width, 0, width, height),
		openLine("anode", RoleAnode, width, height, 0, height), openLine("left", RoleWall, 0, height, 0, 0)}}
}

func TestParallelPlates(t *testing.T) {
	// 300 A/m2 over 0.1 m of 8 S/m: 3.750 V, exact.
	d := solved(t, duct(0.2, 0.1), 100, Conditions{Conductivity: 8, Current: 300 * 0.2 * 0.1 * unit.Ampere})
	if got := float64(d.Voltage); !scalar.EqualWithinRel(got, 3.750, 1e-5) {
		t.Errorf("voltage = %v, want 3.750 V", got)
	}
	if d.Spread > 1e-4 {
		t.Errorf("spread between parallel plates = %v, want 0 to 1e-4", d.Spread)
	}
}

func TestSphereAndHemisphere(t *testing.T) {
	// 1/(4 pi kappa a) and 1/(2 pi kappa a), exact; five digits printed.
	sphere := Section{Axisymmetric: true, Unbounded: true, Outlines: []Outline{arcLine("ball", RolePart, .01, -math.Pi/2, 2)}}
	hemisphere := Section{Axisymmetric: true, Unbounded: true, Mirror: true, Outlines: []Outline{arcLine("ball", RolePart, .01, 0, 1)}}
	for want, s := range map[float64]Section{0.99472: sphere, 1.98944: hemisphere} {
		d := solved(t, s, 60, oneAmpere)
		if got := float64(d.Resistance()); !scalar.EqualWithinRel(got, want, 1e-5) {
			t.Errorf("resistance = %v ohm, want %v", got, want)
		}
	}
}

// wedge is a sector of the unit circle with a corner of the given angle at the
// origin: an electrode along the floor, and beyond the corner a line of the
// given role. The anode is the middle half of the arc.
func wedge(degrees float64, role Role) Section {
	beta := degrees * math.Pi / 180
	at := func(share float64) Corner {
		sin, cos := math.Sincos(beta * share)
		return Corner{X: unit.Length(cos), Y: unit.Length(sin), Bulge: math.Tan(beta / 16)}
	}
	return Section{Depth: 1 * unit.Metre, Outlines: []Outline{
		openLine("part", RolePart, 0, 0, 1, 0),
		{Name: "gap", Role: RoleWall, Corners: []Corner{at(0), at(0.25)}},
		{Name: "anode", Role: RoleAnode, Corners: []Corner{at(0.25), at(0.5), at(0.75)}},
		{Name: "other gap", Role: RoleWall, Corners: []Corner{at(0.75), at(1)}},
		{Name: "side", Role: role, Corners: []Corner{{X: at(1).X, Y: at(1).Y}, {}}},
	}}
}

func TestCornerExponents(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// j goes as s^p, p = pi/(2 beta) - 1 for electrode against insulator and
	// pi/beta - 1 for electrode against electrode: exact as s goes to 0. The
	// next term of the series is smaller by s^(pi/beta), so the slope is fitted
	// nearer the corner the wider it is. With 10 elements or fewer in the fit and
	// what is left of that term, 0.02 absolute, or 0.04 where the current dies
	// away and elements are coarser.
	for _, test := range []struct {
		role Role
		want map[float64]float64
	}{
		{RoleWall, map[float64]float64{45: 1, 90: 0, 135: -1. / 3, 180: -1. / 2, 270: -2. / 3}},
		{RolePart, map[float64]float64{45: 3, 90: 1, 135: 1. / 3, 270: -1. / 3}},
	} {
		for degrees, want := range test.want {
			s := wedge(degrees, test.role)
			d := solved(t, s, 500, oneAmpere)
			near, far := 1e-4, 0.02
			if degrees <= 90 {
				near, far = 0.02, 0.2
			} else if degrees > 180 {
				far = 3e-3
			}
			var x, y []float64
			for _, sample := range profile(t, d, "part").Samples {
				if a := float64(sample.Along); a > near && a < far {
					x, y = append(x, math.Log(a)), append(y, math.Log(math.Abs(float64(sample.CurrentDensity))))
				}
			}
			if len(x) < 3 {
				t.Fatalf("%v degrees against %v: %d elements to fit", degrees, test.role, len(x))
			}
			tol := 0.02
			if want > 0 {
				tol = 0.04
			}
			if got := slopeOf(x, y); !scalar.EqualWithinAbs(got, want, tol) {
				t.Errorf("%v degrees against %v: exponent = %v, want %v", degrees, test.role, got, want)
			}
		}
	}
}

// slopeOf returns the slope of the least-squares line.
func slopeOf(x, y []float64) float64 {
	n := float64(len(x))
	var sx, sy, sxx, sxy float64
	for i := range x {
		sx, sy, sxx, sxy = sx+x[i], sy+y[i], sxx+x[i]*x[i], sxy+x[i]*y[i]
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}

func TestDuctWithWavyAnode(t *testing.T) {
	// Width 0.05 m, height 0.03 m, 8 S/m, anode at 1 V (1 + 0.1 cos(pi x/L)):
	// exact Fourier solution. With area resistance 1e-3 ohm m2 the mean is
	// 210.526 A/m2 and the ripple 0.048622 of it, without it 0.058592. The demand
	// on a mesh is 1 %; 0.1 % is met.
	for resistance, want := range map[AreaResistance]float64{1e-3: 0.048622, 0: 0.058592} {
		f, err := NewField(duct(0.05, 0.03), 200)
		if err != nil {
			t.Fatal(err)
		}
		p, err := newProblem(&f.fine.network, Conditions{Conductivity: 8, Voltage: 1, Cathode: Kinetics{Resistance: resistance}})
		if err != nil {
			t.Fatal(err)
		}
		p.offset = make([]float64, len(p.area))
		for e, i := range f.fine.electrodes {
			if !p.cathodic(e) {
				p.offset[e] = 0.1 * math.Cos(math.Pi*f.fine.elements[i].mid.X/0.05)
			}
		}
		st, err := p.solve()
		if err != nil {
			t.Fatal(err)
		}
		mean, ripple, length := 0.0, 0.0, 0.0
		for e, i := range f.fine.electrodes {
			if p.cathodic(e) {
				el := &f.fine.elements[i]
				length += el.length
				mean += st.current[e] * el.length
				ripple += 2 * st.current[e] * el.length * math.Cos(math.Pi*el.mid.X/0.05)
			}
		}
		if resistance > 0 && !scalar.EqualWithinRel(mean/length, 210.526, 1e-3) {
			t.Errorf("mean = %v A/m2, want 210.526", mean/length)
		}
		if got := ripple / mean; !scalar.EqualWithinRel(got, want, 1e-3) {
			t.Errorf("area resistance %v: ripple = %v of the mean, want %v", resistance, got, want)
		}
	}
}

func TestThrowingCell(t *testing.T) {
	// Near gap l and far gap 5 l on the two sides of an anode, Wa = kappa r/l:
	// near over far is (5 + Wa)/(1 + Wa), exact for an anode that fills the cell.
	// Here it leaves slits of 0.5 %, through which no current has cause to pass,
	// and whose mouths it bends: tolerance 0.5 %.
	const l, width, slit = 0.02, 0.02, 1e-4
	s := Section{Depth: 0.05 * unit.Metre, Outlines: []Outline{
		openLine("near", RolePart, 0, width, 0, 0), openLine("floor", RoleWall, 0, 0, 6*l+.002, 0),
		openLine("far", RolePart, 6*l+.002, 0, 6*l+.002, width), openLine("lid", RoleWall, 6*l+.002, width, 0, width),
		Box("anode", RoleAnode, unit.Length(l), slit, l+.002, width-slit)}}
	f, err := NewField(s, 300)
	if err != nil {
		t.Fatal(err)
	}
	for wagner, want := range map[float64]float64{0: 5, 1: 3, 10: 1.3636} {
		c := oneAmpere
		c.Cathode.Resistance = AreaResistance(wagner * l / 8)
		d, err := f.Solve(c)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(profile(t, d, "near").Mean / profile(t, d, "far").Mean); !scalar.EqualWithinRel(got, want, 5e-3) {
			t.Errorf("Wa %v: near over far = %v, want %v", wagner, got, want)
		}
	}
}
