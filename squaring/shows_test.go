package squaring

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func TestStraightedge(t *testing.T) {
	nan := unit.Length(math.NaN())
	tests := []struct {
		name              string
		heights           []unit.Length
		gap               unit.Length
		place, left, rest unit.Length
	}{
		{"hollow", []unit.Length{0, -3e-6, -4e-6, -3e-6, 0}, 4e-6, 2, 0, 4},
		{"hollow on a ramp", []unit.Length{0, 7e-6, 16e-6, 27e-6, 40e-6}, 4e-6, 2, 0, 4},
		{"crown rocks", []unit.Length{0, 3e-6, 4e-6, 3e-6, 0}, 6e-6, 4, 1, 2},
		{"flat", []unit.Length{2e-6, 2e-6, 2e-6, 2e-6, 2e-6}, 0, 0, 0, 4},
		{"ridge beside a hollow", []unit.Length{nan, 0, -2e-6, 6e-6, 0}, 9e-6, 4, 1, 3},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			m := HeightMap{Along: []unit.Length{0, 1, 2, 3, 4}, Across: []unit.Length{0}, Heights: test.heights}
			g, err := m.StraightedgeAlong(0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "gap, um", float64(g.Gap)*1e6, float64(test.gap)*1e6, 1e-9)
			if g.Left != test.left || g.Right != test.rest || test.gap > 0 && g.Place != test.place {
				t.Errorf("rests at %v and %v, widest at %v; want %v, %v, %v", g.Left, g.Right, g.Place, test.left, test.rest, test.place)
			}
			turned := HeightMap{Along: []unit.Length{0}, Across: m.Along, Heights: test.heights}
			if across, err := turned.StraightedgeAcross(0); err != nil || across != g {
				t.Errorf("laid the other way it shows %+v (%v), want %+v", across, err, g)
			}
		})
	}
	m := HeightMap{Along: []unit.Length{0, 1}, Across: []unit.Length{0}, Heights: []unit.Length{0, nan}}
	for _, row := range []int{-1, 0, 1} {
		if _, err := m.StraightedgeAlong(row); err == nil {
			t.Errorf("row %d is accepted", row)
		}
	}
	if _, err := m.StraightedgeAcross(2); err == nil {
		t.Error("a column beyond the map is accepted")
	}
}

// A straightedge across one pass of a tilted cutter shows the hollow that the
// formula gives.
func TestStraightedgeShowsTheDish(t *testing.T) {
	tilt := Gradient{X: 200e-6}
	s, err := Facing{Tilt: tilt, Diameter: 0.120, Width: 0.090}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	m, err := CutFace{Tilt: tilt, Diameter: 0.120, Length: 0.2, Width: 0.090, Tracks: []unit.Length{0.045}, Columns: 3, Rows: 201}.Map()
	if err != nil {
		t.Fatal(err)
	}
	g, err := m.StraightedgeAcross(1)
	if err != nil {
		t.Fatal(err)
	}
	// The sine of the tilt against the tilt: 2e-8 of 4 um.
	near(t, "gap, um", float64(g.Gap)*1e6, float64(s.Dish)*1e6, 1e-6)
}

func TestWall(t *testing.T) {
	// A spindle whose plane is high on the right by 232 um/m: going down, its
	// axis goes to the right.
	w := Wall{Tilt: Gradient{X: -232e-6, Y: 100e-6}, TiltU: Gradient{X: 10e-6, Y: 20e-6}, Depth: 0.060, Wander: -3e-6, WanderU: 1e-6}
	m, err := w.Made()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "lean, um/m", m.Lean.Slope.Microradians(), 232, 1e-9)
	near(t, "gap, um", float64(m.Gap.Length)*1e6, 13.92, 1e-9)
	near(t, "u of the gap, um", float64(m.Gap.Uncertainty)*1e6, 0.6, 1e-9)
	near(t, "straightness, um", float64(m.Straightness.Length)*1e6, 3, 1e-9)
	if !m.AtTop {
		t.Error("the gap is at the foot, want the top: the foot stands out to the right")
	}
	// The two walls of a slot lean alike, so that their gaps change ends.
	w.Outward = 180 * Degree
	other, err := w.Made()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "lean of the other wall, um/m", other.Lean.Slope.Microradians(), -232, 1e-9)
	if other.AtTop {
		t.Error("both walls open at the top")
	}
	for name, bad := range map[string]Wall{
		"nan": {Tilt: Gradient{X: Slope(math.NaN())}}, "depth": {Depth: -1}, "direction": {Outward: unit.Angle(math.Inf(1))},
		"wander": {Wander: unit.Length(math.NaN())}, "uncertainty": {TiltU: Gradient{Y: -1}}, "steep": {Tilt: Gradient{X: 2}}, "wander's": {WanderU: -1},
	} {
		if m, err := bad.Made(); err == nil {
			t.Errorf("%s: accepted as %+v", name, m)
		}
	}
}

// The wall is the envelope of a tilted cylinder fed along: points of its surface
// lie as far out as the exact cylinder reaches, whatever it leans along the feed.
func TestWallAgainstCylinder(t *testing.T) {
	const a, b, r = 3e-3, 40e-3, 0.010 // spindle's tilt along x and y
	m, err := Wall{Tilt: Gradient{X: -a, Y: -b}, Depth: 0.05}.Made()
	if err != nil {
		t.Fatal(err)
	}
	axis := [3]float64{-a, -b, 1}
	// Of all points of the cylinder at height z, fed along y: the least x. A
	// point (x, 0, z) is on it when its distance from some place of the axis,
	// shifted along y, is r; the plane of axis and feed leaves out y.
	reach := func(z float64) float64 {
		// Least distance from the point to the axis, over all feeds: that in
		// the plane square to y, scaled by the axis's lean there.
		lean := math.Hypot(axis[0], axis[2])
		return axis[0]*z/axis[2] - r*lean/axis[2]
	}
	// 1e-9: exact.
	near(t, "lean", float64(m.Lean.Slope), (reach(-0.05)-reach(0))/0.05, 1e-12)
}

func TestBoreGauge(t *testing.T) {
	h := Hole{Feed: ByKnee, Tilt: Gradient{X: Slope(math.Tan(math.Pi / 180))}, Diameter: 0.050}
	made, err := h.Made()
	if err != nil {
		t.Fatal(err)
	}
	short, err := h.Across(0)
	if err != nil {
		t.Fatal(err)
	}
	long, err := h.Across(90 * Degree)
	if err != nil {
		t.Fatal(err)
	}
	// 50 mm at one degree: minor axis 49.9923848 mm, ovality 7.615242 um.
	near(t, "short, mm", float64(short)*1e3, 49.9923848, 1e-7)
	near(t, "ovality, um", float64(long-short)*1e6, 7.615242, 1e-6)
	near(t, "ovality as made, um", float64(made.Ovality)*1e6, 7.615242, 1e-6)
	h.Feed = ByQuill
	if round, err := h.Across(0); err != nil || round != 0.050 {
		t.Errorf("by quill the gauge shows %v (%v), want 50 mm", round, err)
	}
	if _, err := h.Across(unit.Angle(math.NaN())); err == nil {
		t.Error("a direction of NaN is accepted")
	}
	if _, err := (Hole{}).Across(0); err == nil {
		t.Error("a hole fed by nothing is accepted")
	}
}
