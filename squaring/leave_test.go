package squaring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// Derived from the geometry and recomputed to nine figures; no printed table of
// dish depth was found.
func TestDish(t *testing.T) {
	tests := []struct {
		name            string
		diameter, width float64 // mm
		tilt            Slope
		dish, heel, tol float64 // um
	}{
		{"100 over 80, 0.02/300", 100, 80, 0.02 * MillimetrePer300, 1.33333333, 6.6666667, 1e-7},
		{"100 over 100, 0.02/300", 100, 100, 0.02 * MillimetrePer300, 3.33333333, 6.6666667, 1e-7},
		{"50 over 40, 0.1 degree", 50, 40, Slope(math.Tan(math.Pi / 1800)), 17.4532837, 87.2664182, 1e-6},
		{"120 over 90, 200 urad", 120, 90, 200 * Microradian, 4.0626, 24, 1e-3},
		{"100 over 80, 167 urad", 100, 80, 167 * Microradian, 3.34, 16.7, 1e-3},
		{"80 over 60, 100 urad", 80, 60, 100 * Microradian, 1.35425, 8, 1e-4},
		{"120 over 60, 100 urad", 120, 60, 100 * Microradian, 0.80385, 12, 1e-4},
		{"75 over 75, 100 urad", 75, 75, 100 * Microradian, 3.75, 7.5, 1e-6},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			f := Facing{Tilt: Gradient{X: test.tilt}, TiltU: Gradient{X: test.tilt / 10},
				Diameter: unit.Length(test.diameter) * mm, Width: unit.Length(test.width) * mm}
			s, err := f.Surface()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "dish um", float64(s.Dish/um), test.dish, test.tol)
			near(t, "u(dish) um", float64(s.DishU/um), test.dish/10, 1e-3*test.dish)
			near(t, "heel lift um", float64(s.HeelLift/um), test.heel, 1e-4)
			near(t, "step", float64(s.Step), 0, 0)
		})
	}
}

// A tilted end mill of 0.5 in radius for a hollow of 2 in: sin(tilt) = 0.5/2 (rule
// read in a public note on tilted end mills). It holds at the bottom only: over
// a groove 0.5 in wide the depth is 0.01674682 in, and the circle through its
// edges and bottom has a radius of 1.874399 in. Recomputed.
func TestHollowByTiltedEndMill(t *testing.T) {
	tilt, err := SlopeFromAngle(unit.Angle(math.Asin(0.5 / 2)))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tilt", float64(tilt.Angle()/Degree), 14.4775122, 1e-7)
	s, err := Facing{Tilt: Gradient{X: tilt}, Diameter: 1 * Inch, Width: 0.5 * Inch}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	depth := float64(s.Dish / Inch)
	near(t, "depth in", depth, 0.01674682, 1e-8)
	near(t, "radius in", (0.25*0.25+depth*depth)/(2*depth), 1.874399, 1e-6)
}

// 231 urad over a 50 mm step-over: 11.6 um. 100 urad over 50 mm: 5 um.
func TestStep(t *testing.T) {
	for tilt, want := range map[float64]float64{231: 11.55, 100: 5} {
		s, err := Facing{Tilt: Gradient{Y: Slope(-tilt) * Microradian}, TiltU: Gradient{Y: 10 * Microradian},
			Diameter: 120 * mm, Width: 90 * mm, StepOver: 50 * mm}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "step um", float64(s.Step/um), want, 1e-9)
		near(t, "u(step) um", float64(s.StepU/um), 0.5, 1e-9)
		near(t, "dish um", float64(s.Dish/um), 0, 1e-9)
		near(t, "drop um", math.Abs(float64(s.Drop/um)), tilt*0.09, 1e-9)
	}
}

// The demonstration machine as found and as left: published with the made-up
// data as computed effects, two decimals.
func TestFacingAsFoundAndLeft(t *testing.T) {
	for _, test := range []struct{ x, y, dish, step float64 }{{-232, -231, 4.71, 11.55}, {9, -14, 0.18, 0.70}} {
		s, err := Facing{Tilt: Gradient{X: Slope(test.x) * Microradian, Y: Slope(test.y) * Microradian},
			Diameter: 120 * mm, Width: 90 * mm, StepOver: 50 * mm}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "dish um", float64(s.Dish/um), test.dish, 0.005)
		near(t, "step um", float64(s.Step/um), test.step, 0.005)
	}
}

// Which edge cuts: a table high on the right against the spindle's plane means
// that the plane falls to the right against the table, so that a cutter going
// right is low in front.
func TestCuttingEdge(t *testing.T) {
	tests := []struct {
		feed unit.Angle
		tilt Gradient
		want CuttingEdge
	}{
		{0, Gradient{X: 200e-6}, LeadingEdge}, {180 * Degree, Gradient{X: 200e-6}, TrailingEdge},
		{0, Gradient{X: -200e-6}, TrailingEdge}, {90 * Degree, Gradient{Y: 200e-6}, LeadingEdge},
		{90 * Degree, Gradient{Y: -200e-6}, TrailingEdge}, {0, Gradient{Y: 200e-6}, BothEdges}, {0, Gradient{X: 15e-6}, BothEdges},
	}
	for _, test := range tests {
		s, err := Facing{Tilt: test.tilt, TiltU: Gradient{10e-6, 10e-6}, Feed: test.feed, Diameter: 100 * mm, Width: 50 * mm}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		if s.Cuts != test.want {
			t.Errorf("feed %v, tilt %v: %q cuts, want %q", float64(test.feed/Degree), test.tilt, s.Cuts, test.want)
		}
	}
}

// The surface against a cutter's circle in three dimensions, sampled: the lowest
// point of either half at each distance across, and the dish of an offset cut.
func TestFacingAgainstCircle(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	for range 20 {
		f := Facing{Tilt: Gradient{X: Slope(random.NormFloat64()) * 3e-4, Y: Slope(random.NormFloat64()) * 3e-4},
			Feed: unit.Angle(random.Float64() * 2 * math.Pi), Diameter: 100 * mm, Width: unit.Length(40+30*random.Float64()) * mm,
			Offset: unit.Length(15*(random.Float64()-0.5)) * mm, StepOver: 30 * mm}
		s, err := f.Surface()
		if err != nil {
			t.Fatal(err)
		}
		// Heights of the two halves of the circle, plane against table.
		lowest := func(v float64) float64 {
			u := math.Sqrt(0.05*0.05 - v*v)
			a, q := float64(s.Along.Slope), float64(s.Across.Slope)
			return math.Min(q*v+a*u, q*v-a*u)
		}
		right, left := float64(f.Offset-f.Width/2), float64(f.Offset+f.Width/2)
		chord := (lowest(left) - lowest(right)) / (left - right)
		deepest := 0.0
		for i := 0; i <= 4000; i++ {
			v := right + (left-right)*float64(i)/4000
			deepest = math.Max(deepest, lowest(right)+chord*(v-right)-lowest(v))
			height, err := f.Profile(unit.Length(v))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "profile", float64(height), lowest(v), 1e-11)
		}
		near(t, "dish", float64(s.Dish), deepest, 1e-11)
		near(t, "slope of the edges' line", float64(s.Slope.Slope), chord, 1e-10)
		near(t, "drop", float64(s.Drop), lowest(left)-lowest(right), 1e-11)
	}
}

func TestFacingRejects(t *testing.T) {
	good := Facing{Diameter: 100 * mm, Width: 80 * mm, StepOver: 10 * mm}
	nan := math.NaN()
	for name, change := range map[string]func(*Facing){
		"tilt": func(f *Facing) { f.Tilt.X = Slope(nan) }, "steep": func(f *Facing) { f.Tilt.Y = 2 },
		"u": func(f *Facing) { f.TiltU.Y = -1 }, "feed": func(f *Facing) { f.Feed = unit.Angle(nan) },
		"diameter": func(f *Facing) { f.Diameter = 0 }, "width": func(f *Facing) { f.Width = 0 },
		"wide": func(f *Facing) { f.Width = 101 * mm }, "offset": func(f *Facing) { f.Offset = 11 * mm },
		"offset nan": func(f *Facing) { f.Offset = unit.Length(nan) }, "step-over": func(f *Facing) { f.StepOver = -1 * mm },
	} {
		f := good
		change(&f)
		if s, err := f.Surface(); err == nil {
			t.Errorf("%s: %+v, want an error", name, s)
		}
		if _, err := f.Profile(0); err == nil {
			t.Errorf("%s: profile, want an error", name)
		}
	}
	if _, err := good.Profile(51 * mm); err == nil {
		t.Error("a profile beyond the cutter was accepted")
	}
	if _, err := good.Profile(-51 * mm); err == nil {
		t.Error("a profile beyond the cutter was accepted")
	}
}

// Derived: 60 mm by quill at 232 urad leans 13.9 um; 50 mm at 0.02/300 3.33 um;
// -60 urad of knee over 120 mm, 7.2 um.
func TestHoleShift(t *testing.T) {
	m, err := Hole{Feed: ByQuill, Tilt: Gradient{X: 232e-6}, TiltU: Gradient{X: 9e-6}, Depth: 60 * mm}.Made()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "shift um", float64(m.Shift/um), 13.92, 1e-9)
	near(t, "u um", float64(m.ShiftU/um), 0.54, 1e-9)
	// The table is high on the right against the spindle: the hole runs left.
	near(t, "shift x um", float64(m.ShiftX/um), -13.92, 1e-9)
	m, err = Hole{Feed: ByQuill, Tilt: Gradient{X: 0.02 * MillimetrePer300}, Depth: 50 * mm}.Made()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "shift um", float64(m.Shift/um), 3.33333, 1e-5)
	m, err = Hole{Feed: ByKnee, KneeLean: Gradient{X: 20e-6, Y: -60e-6}, Depth: 120 * mm, Diameter: 20 * mm}.Made()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "shift y um", float64(m.ShiftY/um), 7.2, 1e-9)
	near(t, "shift x um", float64(m.ShiftX/um), -2.4, 1e-9)
}

// Ovality D (1 - cos t): 50 mm at 1 degree 7.615242 um and at 0.02/300 0.000111
// um; 40 mm at 300 urad 0.0018 um and at 1 degree 6 um. A quill leaves none.
func TestOvality(t *testing.T) {
	degree := Slope(math.Tan(math.Pi / 180))
	for _, test := range []struct {
		diameter  float64
		tilt      Slope
		want, tol float64
	}{{50, degree, 7.615242, 1e-6}, {50, 0.02 * MillimetrePer300, 0.000111, 1e-6}, {40, 300 * Microradian, 0.0018, 1e-6}, {40, degree, 6.092, 1e-3}} {
		h := Hole{Feed: ByKnee, Tilt: Gradient{Y: test.tilt}, Diameter: unit.Length(test.diameter) * mm, Depth: 10 * mm}
		m, err := h.Made()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ovality um", float64(m.Ovality/um), test.want, test.tol)
		h.Feed = ByQuill
		if m, err := h.Made(); err != nil || m.Ovality != 0 {
			t.Errorf("a quill left %v oval, %v", float64(m.Ovality), err)
		}
	}
}

func TestHoleUncertaintyNearZero(t *testing.T) {
	m, err := Hole{Feed: ByQuill, TiltU: Gradient{X: 9e-6, Y: 12e-6}, Depth: 100 * mm}.Made()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u um", float64(m.ShiftU/um), 1.2, 1e-9)
}

func TestHoleRejects(t *testing.T) {
	nan := Slope(math.NaN())
	for name, h := range map[string]Hole{
		"feed": {}, "tilt": {Feed: ByQuill, Tilt: Gradient{X: nan}}, "steep": {Feed: ByQuill, Tilt: Gradient{X: 2}},
		"u": {Feed: ByQuill, TiltU: Gradient{Y: -1}}, "knee": {Feed: ByKnee, KneeLean: Gradient{Y: nan}},
		"knee u": {Feed: ByKnee, KneeLeanU: Gradient{Y: Slope(math.Inf(1))}},
		"depth":  {Feed: ByQuill, Depth: -1 * mm}, "diameter": {Feed: ByQuill, Diameter: unit.Length(math.NaN())},
	} {
		if m, err := h.Made(); err == nil {
			t.Errorf("%s: %+v, want an error", name, m)
		}
	}
}
