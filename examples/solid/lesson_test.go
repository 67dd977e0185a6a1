package solid

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/examples/ownpart"
	"example.org/thouspan/examples/ownpart/ownparttest"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// figure returns the value of a figure of the sheet.
func figure(t *testing.T, sheet *notebook.Sheet, name string) float64 {
	t.Helper()
	f, ok := sheet.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure called %s", name)
	}
	return f.Value.SI
}

// fewIn returns the tank of the inputs on a coarse mesh.
func fewIn(t *testing.T, in Inputs) answer {
	t.Helper()
	s, err := layout{in: in, steps: fewSteps}.solve()
	if err != nil {
		t.Fatal(err)
	}
	return answer{in: in, plain: s, skin: s.facets()}
}

func TestDefaults(t *testing.T) {
	sheet, err := Lesson().Demo()
	if err != nil {
		t.Fatal(err)
	}
	if err := sheet.Validate(); err != nil {
		t.Fatal(err)
	}
	// The log counts 74.94 cm2 and 2.25 A for four plates with square edges;
	// roundings and their facets take 1.3 % off.
	if got := figure(t, sheet, "amps"); !scalar.EqualWithinRel(got, 2.25, 0.015) {
		t.Errorf("amps = %v, want 2.25", got)
	}
	if got := figure(t, sheet, "order"); got < 1.5 || got > 4 {
		t.Errorf("order of convergence = %v, want about 2", got)
	}
	if got := figure(t, sheet, "charge"); got > 1e-9 {
		t.Errorf("charge lost = %v, want below 1e-9", got)
	}
	if n := strings.Count(sheet.Find("views").(notebook.Drawing).SVG, "tint7"); n < 2 {
		t.Errorf("the darkest tint stands %d times in the drawing", n)
	}
	if svg := sheet.Find("tank").(notebook.Drawing).SVG; !strings.Contains(svg, `data-across="distance"`) || !strings.Contains(svg, `data-up="sideways"`) {
		t.Error("the anode has no handle")
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestSpotsAgainstHiddenShares(t *testing.T) {
	// The readings were made from shares on a mesh of 1264 triangles; the quick
	// one has 560 and must come within what its refinement changed, a tenth.
	s, err := layout{in: Defaults(), steps: quickSteps}.solve()
	if err != nil {
		t.Fatal(err)
	}
	a := answer{in: Defaults(), plain: s, skin: s.facets()}
	truth := actionshop.PlateShares()
	for i, s := range a.spots()[:4] {
		t.Logf("%s: computed %.2f, made with %.2f", s.name, s.share, truth[i])
		if !scalar.EqualWithinRel(s.share, truth[i], 0.1) {
			t.Errorf("%s: computed %.2f of the mean, made with %.2f", s.name, s.share, truth[i])
		}
	}
}

func TestMirrorsChangeNothing(t *testing.T) {
	// The whole tank against the quarter beyond its mirrors: sideways by a
	// thousandth of a millimetre is no mirror.
	in := Defaults()
	in.Part = onePlate
	quarter := fewIn(t, in)
	in.Sideways = 1e-6
	half := fewIn(t, in)
	if quarter.plain.share() != 0.5*half.plain.share() {
		t.Fatalf("shares solved are %v and %v", quarter.plain.share(), half.plain.share())
	}
	if a, b := quarter.plain.d, half.plain.d; !scalar.EqualWithinRel(a.Spread, b.Spread, 0.01) || !scalar.EqualWithinRel(float64(a.Voltage), float64(b.Voltage), 1e-3) ||
		!scalar.EqualWithinRel(float64(b.Current), 2*float64(a.Current), 1e-9) {
		t.Errorf("beyond mirrors spread %v, %v V, %v A; without %v, %v V, %v A", a.Spread, float64(a.Voltage), float64(a.Current), b.Spread, float64(b.Voltage), float64(b.Current))
	}
	// The drawn skin is the whole part, in both.
	whole := 0.0
	for _, x := range []answer{quarter, half} {
		area := x.meanArea()
		if whole != 0 && !scalar.EqualWithinRel(area, whole, 1e-9) {
			t.Errorf("drawn skins have %v and %v m2", whole, area)
		}
		whole = area
	}
}

// meanArea returns the area of the drawn skin.
func (a answer) meanArea() float64 {
	sum := 0.0
	for _, f := range a.skin {
		sum += f.area
	}
	return sum
}

func TestAnodeDrawsTheCoat(t *testing.T) {
	// One anode: its face gets more; pushed aside: the edge there gets more.
	in := Defaults()
	in.Part, in.Anodes, in.Distance, in.Sideways = onePlate, oneSide, 30*mm, 25*mm
	a := fewIn(t, in)
	front, back := a.meanShare(func(f facet) bool { return f.normal.X > 0.999 }), a.meanShare(func(f facet) bool { return f.normal.X < -0.999 })
	far, near := a.meanShare(func(f facet) bool { return f.normal.Y > 0.999 }), a.meanShare(func(f facet) bool { return f.normal.Y < -0.999 })
	if front <= back || far <= near {
		t.Errorf("faces get %v and %v, edges %v and %v", front, back, far, near)
	}
	if whole := a.meanShare(func(facet) bool { return true }); !scalar.EqualWithinRel(whole, 1, 1e-6) {
		t.Errorf("mean over the skin = %v of the mean", whole)
	}
}

func TestTurnedParts(t *testing.T) {
	for _, part := range []string{screw, ownTurned} {
		in := Defaults()
		in.Part = part
		s, err := layout{in: in, steps: 4}.solve()
		if err != nil {
			t.Fatal(err)
		}
		a := answer{in: in, plain: s, skin: s.facets()}
		// The mesh is closed and whole: its facets' directions add to nothing.
		sum := [3]float64{}
		for _, f := range a.skin {
			sum[0] += f.area * f.normal.X
			sum[1] += f.area * f.normal.Y
			sum[2] += f.area * f.normal.Z
		}
		if math.Hypot(math.Hypot(sum[0], sum[1]), sum[2]) > 1e-9*a.meanArea() {
			t.Errorf("%s: the drawn skin does not close: %v", part, sum)
		}
		if part == screw {
			spots := a.spots()
			if end, neck := spots[0].share, spots[4].share; !(end > 1 && neck < 1) {
				t.Errorf("shank's end gets %v, neck %v of the mean", end, neck)
			}
		}
	}
}

func TestBadInput(t *testing.T) {
	for want, change := range map[string]func(*Inputs){
		"115 mm from the middle": func(in *Inputs) { in.Distance = 115 * mm },
		"touches the part":       func(in *Inputs) { in.PlateThickness, in.Rounding, in.Distance = 40*mm, 1*mm, 20*mm },
		"tank of 110 mm":         func(in *Inputs) { in.TankDepth, in.AnodeHeight = 110*mm, 90*mm },
		"radius of 1 mm":         func(in *Inputs) { in.Rounding = 1 * mm },
		"anode of 124 mm":        func(in *Inputs) { in.AnodeHeight = 124 * mm },
		"reaches 65 mm":          func(in *Inputs) { in.Sideways = 35 * mm },
		"must lie above":         func(in *Inputs) { in.Part = ownTurned; in.Points[1].Place = -1 * mm },
		"profile is 0 mm":        func(in *Inputs) { in.Part = ownTurned; in.Points = []Point{{5 * mm, 5 * mm}, {5 * mm, 6 * mm}} },
		"at most 6000":           func(in *Inputs) { in.Part = ownTurned; in.Mesh = finer; in.Points = spike() },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Work gave %v, want an error with %q", err, want)
		}
	}
}

// spike is a profile too long for its mesh.
func spike() []Point {
	var points []Point
	for i := range 12 {
		points = append(points, Point{unit.Length(i) * 10 * mm, 1*mm + unit.Length(i%2)*mm/10})
	}
	return points
}

// block is a block of 30 by 20 by 10 mm off its origin, as an STL file in cut
// pieces.
func block(t *testing.T, steps int) notebook.Attachment {
	m, err := plating.Block{X: 30 * mm, Y: 20 * mm, Z: 10 * mm, Steps: steps}.Mesh(1)
	if err != nil {
		t.Fatal(err)
	}
	return notebook.Attachment{Name: "block.stl", Data: ownparttest.STL(m.Shifted(plating.Point{X: 100 * mm}))}
}

func TestOwnPart(t *testing.T) {
	for _, steps := range []int{1, 12} {
		in := Defaults()
		in.Own.File = block(t, steps)
		sheet, err := Work(in)
		if err != nil {
			t.Fatal(err)
		}
		if err := sheet.Validate(); err != nil {
			t.Fatal(err)
		}
		// 22 cm2 at 3 A/dm2.
		if got := figure(t, sheet, "amps"); !scalar.EqualWithinRel(got, 0.66, 1e-6) {
			t.Errorf("%d steps: amps = %v, want 0.66", steps, got)
		}
		rows := sheet.Find("spots").(notebook.Table).Rows
		right, up := rows[0][1].Quantity.SI, rows[4][1].Quantity.SI
		left := rows[1][1].Quantity.SI
		if !scalar.EqualWithinRel(right, left, 0.05) || !(right > 1.1 && up < 1) {
			t.Errorf("%d steps: right side %v, left %v, upper %v of the mean", steps, right, left, up)
		}
		t.Log(sheet.Find("own").(notebook.Verdict).Text.In(notebook.Metric))
	}
	for want, change := range map[string]func(*Inputs){
		"tank of 200 mm is too small":     func(in *Inputs) { in.Own.Unit = ownpart.Inch },
		"does not begin with the word":    func(in *Inputs) { in.Own.File.Data = []byte("x") },
		"touches the part, which reaches": func(in *Inputs) { in.Distance = 16 * mm },
	} {
		in := Defaults()
		in.Own.File = block(t, 1)
		change(&in)
		if _, err := Work(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Work gave %v, want an error with %q", err, want)
		}
	}
}

func TestDrills(t *testing.T) {
	for _, d := range Lesson().Drills() {
		for seed := range 20 {
			if _, err := d.At(seed); err != nil {
				t.Error(err)
			}
		}
	}
	// 1/(4 pi 8 0.6606782 0.02) ohm.
	if got := cubeExercise(20*mm, 8*plating.SiemensPerMetre).Answer.SI; !scalar.EqualWithinRel(got, 0.75280, 1e-4) {
		t.Errorf("resistance about the cube = %v, want 0.75280", got)
	}
}

func BenchmarkWork(b *testing.B) {
	for b.Loop() {
		if _, err := Work(Defaults()); err != nil {
			b.Fatal(err)
		}
	}
}
