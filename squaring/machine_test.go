package squaring

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

const (
	machineUM = 1e-6 // metres in a micrometre, radians in a um/m
	machineMM = 1e-3
)

// slideOf is a slide whose errors are the same everywhere, in um and urad.
func slideOf(ex, ey, ez, ea, eb, ec float64) Motion {
	return func(unit.Length) (AxisErrors, AxisErrors) {
		return AxisErrors{unit.Length(ex * machineUM), unit.Length(ey * machineUM), unit.Length(ez * machineUM),
			unit.Angle(ea * machineUM), unit.Angle(eb * machineUM), unit.Angle(ec * machineUM)}, AxisErrors{}
	}
}

func vectorMM(x, y, z float64) Vector {
	return Vector{unit.Length(x * machineMM), unit.Length(y * machineMM), unit.Length(z * machineMM)}
}

func positionMM(x, y, z, quill float64) Position {
	return Position{X: unit.Length(x * machineMM), Y: unit.Length(y * machineMM), Z: unit.Length(z * machineMM), Quill: unit.Length(quill * machineMM)}
}

// fullMachine is case MA-52 with worn-looking, varying slides.
func fullMachine() Machine {
	return Machine{X: slideOf(4, -3, 5, 10, -20, 15), Y: slideOf(2, 6, -4, -12, 8, 25), Z: slideOf(-1, 3, 7, 5, 18, -9),
		C0Y: 30 * machineUM, B0Z: -40 * machineUM, A0Z: 20 * machineUM}
}

// The cases are constructed: the inputs are made up, the outputs exact
// arithmetic of the chain, worked elsewhere with another program.
func TestWorkErrorCases(t *testing.T) {
	tests := []struct {
		name         string
		machine      Machine
		at           Position
		point        Vector
		want         [3]float64 // um, first order
		tol          float64    // um: the arithmetic is exact
		exact        [3]float64 // um
		exactTol     float64    // um: printed to five decimals; order of the turns differs by 1e-4
		exactChecked bool
	}{
		{"all 21 errors", fullMachine(), positionMM(250, -100, 150, 0), vectorMM(40, 60, 80),
			[3]float64{-0.280, 8.000, 0.940}, 1e-6, [3]float64{-0.27997, 8.00002, 0.93989}, 2e-4, true},
		{"only C0Y", Machine{C0Y: 50 * machineUM}, positionMM(300, 120, 0, 0), vectorMM(0, 0, 50),
			[3]float64{-6, 0, 0}, 1e-9, [3]float64{-6, 0, 0}, 2e-4, true},
		{"Abbe arm of EBX", Machine{X: slideOf(0, 0, -8, 0, 40, 0)}, positionMM(200, 0, 0, 0), vectorMM(0, 0, 100),
			[3]float64{4, 0, -8}, 1e-6, [3]float64{4, 0, -8.00008}, 1e-6, true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, _, err := test.machine.WorkError(test.at, test.point)
			if err != nil {
				t.Fatal(err)
			}
			exact, err := test.machine.WorkErrorExact(test.at, test.point)
			if err != nil {
				t.Fatal(err)
			}
			for k, v := range []unit.Length{got.X, got.Y, got.Z} {
				near(t, "first order "+string("xyz"[k]), float64(v)/machineUM, test.want[k], test.tol)
			}
			for k, v := range []unit.Length{exact.X, exact.Y, exact.Z} {
				near(t, "exact "+string("xyz"[k]), float64(v)/machineUM, test.exact[k], test.exactTol)
			}
		})
	}
}

// A first-order error differs from the exact one by products of two errors: a
// tenth of every error makes a hundredth of the difference.
func TestFirstOrderIsFirstOrder(t *testing.T) {
	at, point := positionMM(250, -100, 150, 0), vectorMM(40, 60, 80)
	gap := func(k float64) float64 {
		m := Machine{X: slideOf(4*k, -3*k, 5*k, 10*k, -20*k, 15*k), Y: slideOf(2*k, 6*k, -4*k, -12*k, 8*k, 25*k),
			Z: slideOf(-k, 3*k, 7*k, 5*k, 18*k, -9*k), C0Y: unit.Angle(30 * k * machineUM), B0Z: unit.Angle(-40 * k * machineUM), A0Z: unit.Angle(20 * k * machineUM)}
		first, _, err := m.WorkError(at, point)
		if err != nil {
			t.Fatal(err)
		}
		exact, err := m.WorkErrorExact(at, point)
		if err != nil {
			t.Fatal(err)
		}
		return float64(exact.Minus(first).Norm())
	}
	// 1000 and 100 times the errors, so that rounding (1e-16 m) plays no part;
	// third-order terms bend the ratio by a few hundredths.
	near(t, "ratio of second-order terms", gap(1000)/gap(100), 100, 10)
}

// Laws: errors superpose; a tool placed by the exact chain is where the first
// order says; a quill's tilt moves the tool only by the quill's travel.
func TestMachineLaws(t *testing.T) {
	at := positionMM(120, -40, 30, 60)
	m := fullMachine()
	m.Tilt = Gradient{X: 232 * Microradian, Y: 231 * Microradian}
	whole, err := m.Deviation(at)
	if err != nil {
		t.Fatal(err)
	}
	var sum Vector
	for _, part := range []Machine{{X: m.X}, {Y: m.Y}, {Z: m.Z}, {C0Y: m.C0Y}, {B0Z: m.B0Z}, {A0Z: m.A0Z}, {Tilt: m.Tilt}} {
		d, err := part.Deviation(at)
		if err != nil {
			t.Fatal(err)
		}
		sum = sum.Plus(d.Tool)
	}
	near(t, "superposition", float64(whole.Tool.Minus(sum).Norm()), 0, 1e-16)

	landed, err := m.ToolInWork(at)
	if err != nil {
		t.Fatal(err)
	}
	// 1e-9 m: products of 100 um/m with 250 mm of 100 um/m.
	near(t, "exact against first order", float64(landed.Minus(at.AtTool()).Minus(whole.Tool).Norm()), 0, 1e-8)

	lean, err := Machine{Tilt: m.Tilt}.Deviation(positionMM(300, 0, 0, 60))
	if err != nil {
		t.Fatal(err)
	}
	// Exercise of the action shop: 60 mm by quill at 232 um/m lean 13.9 um.
	near(t, "lean of a quill hole, um", float64(lean.Tool.X)/machineUM, 13.92, 0.005)
	still, err := Machine{Tilt: m.Tilt}.Deviation(positionMM(300, 20, 60, 0))
	if err != nil {
		t.Fatal(err)
	}
	if still.Tool != (Vector{}) {
		t.Errorf("a hole fed by the knee leans %v with a tilted spindle, want none", still.Tool)
	}
}

// Mirror the machine left to right: x displacements, and turns about y and z,
// change sign, and with them the x part of the deviation alone.
func TestMachineMirror(t *testing.T) {
	m := Machine{X: slideOf(4, -3, 5, 10, -20, 15), C0Y: 30 * machineUM, B0Z: -40 * machineUM, A0Z: 20 * machineUM,
		Tilt: Gradient{X: 100 * Microradian, Y: 50 * Microradian}}
	mirrored := Machine{X: slideOf(-4, -3, 5, 10, 20, -15), C0Y: -30 * machineUM, B0Z: 40 * machineUM, A0Z: 20 * machineUM,
		Tilt: Gradient{X: -100 * Microradian, Y: 50 * Microradian}}
	a, err := m.Deviation(positionMM(150, 40, 20, 10))
	if err != nil {
		t.Fatal(err)
	}
	b, err := mirrored.Deviation(positionMM(-150, 40, 20, 10))
	if err != nil {
		t.Fatal(err)
	}
	b.Tool.X = -b.Tool.X
	near(t, "mirrored deviation", float64(a.Tool.Minus(b.Tool).Norm()), 0, 1e-16)
}

// The first-order uncertainty against draws of every error.
func TestDeviationUncertaintyAgainstDraws(t *testing.T) {
	u := AxisErrors{EX: 1e-6, EY: 2e-6, EZ: 3e-6, EA: 10e-6, EB: 20e-6, EC: 5e-6}
	m := Machine{X: func(unit.Length) (AxisErrors, AxisErrors) { return AxisErrors{}, u },
		C0Y: 0, C0YU: 30e-6, TiltU: Gradient{X: 15 * Microradian}}
	at := positionMM(200, -80, 20, 50)
	got, err := m.Deviation(at)
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(44, 1))
	const draws = 40000
	var sums [3]float64
	for range draws {
		drawn := AxisErrors{}
		drawn.EX, drawn.EY, drawn.EZ = u.EX*unit.Length(random.NormFloat64()), u.EY*unit.Length(random.NormFloat64()), u.EZ*unit.Length(random.NormFloat64())
		drawn.EA, drawn.EB, drawn.EC = u.EA*unit.Angle(random.NormFloat64()), u.EB*unit.Angle(random.NormFloat64()), u.EC*unit.Angle(random.NormFloat64())
		one := Machine{X: func(unit.Length) (AxisErrors, AxisErrors) { return drawn, AxisErrors{} },
			C0Y: 30e-6 * unit.Angle(random.NormFloat64()), Tilt: Gradient{X: Slope(15e-6 * random.NormFloat64())}}
		landed, err := one.ToolInWork(at)
		if err != nil {
			t.Fatal(err)
		}
		d := landed.Minus(at.AtTool())
		for k, v := range []unit.Length{d.X, d.Y, d.Z} {
			sums[k] += float64(v) * float64(v)
		}
	}
	for k, v := range []unit.Length{got.U.X, got.U.Y, got.U.Z} {
		// A standard deviation of 40,000 draws is known to 1/sqrt(80000): 0.35 %.
		near(t, "uncertainty over drawn, "+string("xyz"[k]), float64(v)/math.Sqrt(sums[k]/draws), 1, 0.015)
	}
}

// The action shop's travels are open by 35 um/m: a hole moved to the back
// drifts left, and the diagonals of 300 x 160 mm differ by 0.0099 mm.
func TestDiagonalsOfTheActionShop(t *testing.T) {
	m := Machine{C0Y: 35 * machineUM}
	spans, err := m.BodyDiagonals(Position{}, 300*machineMM, 160*machineMM, 0)
	if err != nil {
		t.Fatal(err)
	}
	// The scenario prints 0.0099 mm.
	near(t, "B-D less A-C, mm", float64(spans[1].Length-spans[0].Length)/machineMM, 0.0099, 0.00005)
	near(t, "asked, mm", float64(spans[0].Asked)/machineMM, 340, 1e-9)
	hole, err := m.ToolInWork(positionMM(0, -160, 0, 0))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "drift of a hole 160 mm back, um", float64(hole.X)/machineUM, -5.6, 1e-6)
}

// In a box the four body diagonals give back the three squarenesses.
func TestBodyDiagonalsGiveSquareness(t *testing.T) {
	m := Machine{C0Y: 35 * machineUM, B0Z: -60 * machineUM, A0Z: 20 * machineUM, C0YU: 10 * machineUM}
	const a, b, c = 0.300, 0.200, 0.150
	spans, err := m.BodyDiagonals(Position{}, a, b, c)
	if err != nil {
		t.Fatal(err)
	}
	d := math.Sqrt(a*a + b*b + c*c)
	var e [4]float64
	for i, s := range spans {
		e[i] = float64(s.Error()) / machineUM
	}
	// 0.01 um/m: the relation is first order.
	near(t, "sum of the four", e[0]+e[1]+e[2]+e[3], 0, 0.01)
	near(t, "C0Y", (e[1]+e[2]-e[0]-e[3])*d/(4*a*b), 35, 0.02)
	near(t, "B0Z", (e[0]+e[2]-e[1]-e[3])*d/(4*a*c), -60, 0.02)
	near(t, "A0Z", (e[2]+e[3]-e[0]-e[1])*d/(4*b*c), 20, 0.02)
	near(t, "uncertainty from C0Y, um", float64(spans[0].U)/machineUM, 10*a*b/d, 1e-9)
}

func TestWaysRoundTrip(t *testing.T) {
	ways := WayMotion(func(x unit.Length) (unit.Length, float64, float64, unit.Length, unit.Angle) {
		return -35e-6 + x*x*1e-4, 25e-6 - 3e-4*float64(x), 88e-6, 2e-6, 11e-6
	})
	m := Machine{X: MotionFromWays(ways)}
	back := WaysFromMotion(m.X)
	for _, x := range []unit.Length{-0.36, 0, 0.18} {
		h, a, c, s, y := ways(x)
		h2, a2, c2, s2, y2 := back(x)
		near(t, "height", float64(h2), float64(h), 1e-18)
		near(t, "along", a2, a, 1e-18)
		near(t, "across", c2, c, 1e-18)
		near(t, "sideways", float64(s2), float64(s), 1e-18)
		near(t, "yaw", float64(y2), float64(y), 1e-18)
		// At the spindle the chain gives the ways' own height and sideways.
		e, _, err := m.WorkError(Position{X: x}, Vector{X: -x})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "height at the spindle", float64(e.Z), float64(h), 1e-18)
		near(t, "sideways at the spindle", float64(e.Y), float64(s), 1e-18)
		// Away from it, the slopes tell.
		top, err := m.TopHeight(Position{X: x}, 0.1, -0.05)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "height beside the spindle", float64(top), float64(h)+0.1*a-0.05*c, 1e-17)
	}
	if MotionFromWays(nil) != nil || WaysFromMotion(nil) != nil {
		t.Error("no ways and no motion must give none")
	}
}

// A sweep sees table slope less spindle tilt; a run of the table never sees the
// spindle.
func TestSweepSeesTheDifference(t *testing.T) {
	m := Machine{Tilt: Gradient{X: 240 * Microradian, Y: -310 * Microradian},
		X: MotionFromWays(func(unit.Length) (unit.Length, float64, float64, unit.Length, unit.Angle) {
			return 0, 100e-6, 60e-6, 0, 0
		})}
	at := positionMM(0, 0, 0, 0)
	read := func(deg float64) float64 {
		h, err := m.SweepHeight(at, 0.110, unit.Angle(deg)*Degree)
		if err != nil {
			t.Fatal(err)
		}
		return float64(h)
	}
	near(t, "along x, um/m", (read(0)-read(180))/0.220/machineUM, -140, 1e-9)
	near(t, "along y, um/m", (read(90)-read(270))/0.220/machineUM, 370, 1e-9)
	run, err := m.TopHeight(positionMM(-100, 0, 0, 0), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	m.Tilt = Gradient{}
	same, err := m.TopHeight(positionMM(-100, 0, 0, 0), 0, 0)
	if err != nil || run != same {
		t.Errorf("a run of the table changes from %v to %v with the spindle's tilt (%v)", run, same, err)
	}
}

func TestNamedErrors(t *testing.T) {
	m := fullMachine()
	named, err := m.NamedErrors(10*machineMM, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(named) != 21 {
		t.Fatalf("NamedErrors gives %d errors, want 21", len(named))
	}
	byName := map[string]NamedError{}
	for _, e := range named {
		byName[e.Name] = e
	}
	// The standard counts the tool relative to the work: our table up 5 um is
	// the tool 5 um low.
	near(t, "EZX", float64(byName["EZX"].Length), -5e-6, 1e-18)
	near(t, "EBX", float64(byName["EBX"].Angle), 20e-6, 1e-18)
	near(t, "C0Y", float64(byName["C0Y"].Angle), 30e-6, 1e-18)
	if got := byName["EZX"].String(); got != "EZX -5.00 um" {
		t.Errorf("String = %q", got)
	}
	if got := (NamedError{}).String(); got != "no error named" {
		t.Errorf("zero String = %q", got)
	}
	// A table that rises to the right by 1 um a millimetre stands, for the
	// standard's coordinate 10 mm, at our travel -10 mm.
	sloped := Machine{X: func(x unit.Length) (AxisErrors, AxisErrors) { return AxisErrors{EZ: x / 1000}, AxisErrors{} }}
	named, err = sloped.NamedErrors(10*machineMM, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "EZX at 10 mm", float64(named[2].Length), 10e-6, 1e-18)
}

func TestMachineRejects(t *testing.T) {
	nan := unit.Length(math.NaN())
	bad := Machine{X: func(unit.Length) (AxisErrors, AxisErrors) {
		return AxisErrors{EB: unit.Angle(math.Inf(1))}, AxisErrors{}
	}}
	negative := Machine{C0YU: -1e-6}
	tests := []struct {
		name string
		run  func() error
		want string
	}{
		{"travel not a number", func() error { _, err := Machine{}.Deviation(Position{X: nan}); return err }, "travel X"},
		{"quill not a number", func() error { _, err := Machine{}.ToolInWork(Position{Quill: nan}); return err }, "quill"},
		{"point not a number", func() error { _, _, err := Machine{}.WorkError(Position{}, Vector{Z: nan}); return err }, "point z"},
		{"motion infinite", func() error { _, err := bad.Deviation(Position{}); return err }, "EBX"},
		{"motion infinite, exact", func() error { _, err := bad.WorkErrorExact(Position{}, Vector{}); return err }, "EBX"},
		{"motion infinite, named", func() error { _, err := bad.NamedErrors(0, 0, 0); return err }, "EBX"},
		{"negative uncertainty", func() error { _, err := negative.Deviation(Position{}); return err }, "C0Y"},
		{"spindle tilt", func() error {
			_, err := Machine{Tilt: Gradient{X: Slope(math.NaN())}}.Deviation(Position{})
			return err
		}, "spindle tilt along x"},
		{"form of the top", func() error {
			_, err := Machine{Top: func(u, v unit.Length) unit.Length { return nan }}.TopHeight(Position{}, 0, 0)
			return err
		}, "form of the top"},
		{"no span", func() error { _, err := Machine{}.Span(Position{}, Position{}); return err }, "the same"},
		{"no box", func() error { _, err := Machine{}.BodyDiagonals(Position{}, 0, 0, 0); return err }, "the same"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := test.run()
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "squaring: ") {
				t.Errorf("error %v, want one of squaring naming %q", err, test.want)
			}
		})
	}
}

func BenchmarkDeviation(b *testing.B) {
	m := fullMachine()
	at := positionMM(250, -100, 150, 60)
	for b.Loop() {
		if _, err := m.Deviation(at); err != nil {
			b.Fatal(err)
		}
	}
}
