package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// lengthsOf returns lengths from micrometres.
func lengthsOf(values ...float64) []unit.Length {
	l := make([]unit.Length, len(values))
	for i, v := range values {
		l[i] = unit.Length(v) * um
	}
	return l
}

func TestReverseStraightedge(t *testing.T) {
	// Constructed: way and edge known, both zero at their ends.
	first := lengthsOf(0, 2.4, 3.2, 3.4, 2.2, 1.3, 0.2, 0.1, 0)
	second := lengthsOf(0, 4.0, 7.0, 8.6, 6.6, 4.1, 2.0, 0.7, 0)
	way := []float64{0, 3.2, 5.1, 6.0, 4.4, 2.7, 1.1, 0.4, 0}
	edge := []float64{0, -0.8, -1.9, -2.6, -2.2, -1.4, -0.9, -0.3, 0}
	readings := make([]ReversalReading, len(first))
	for i := range first {
		readings[i] = ReversalReading{unit.Length(i) * 100 * mm, first[i], second[i]}
	}
	s, err := ReverseStraightedge(readings, Gauge{RepeatU: 1 * um})
	if err != nil {
		t.Fatal(err)
	}
	for i := range way {
		if got := float64(s.Motion.Points[i].Height / um); math.Abs(got-way[i]) > 1e-9 {
			t.Errorf("way %d = %g um, want %g", i, got, way[i])
		}
		if got := float64(s.Reference.Points[i].Height / um); math.Abs(got-edge[i]) > 1e-9 {
			t.Errorf("edge %d = %g um, want %g", i, got, edge[i])
		}
	}
	// In the middle: half a sum of two readings, less half of each end's.
	if got, want := float64(s.Motion.U(4)/um), math.Sqrt(0.5*(1+0.25+0.25)); math.Abs(got-want) > 1e-9 {
		t.Errorf("uncertainty in the middle = %g um, want %g", got, want)
	}
}

// bar2025 is the shop's table D5: travel in mm, readings in um.
var bar2025 = [][3]float64{
	{-240, 0, 0}, {-180, -4, 10}, {-120, -8, 16}, {-60, -14, 18}, {0, -20, 20}, {60, -22, 18}, {120, -26, 14}, {180, -28, 12}, {240, -28, 10},
}

func shopBar(t *testing.T) Separated {
	t.Helper()
	var readings []ReversalReading
	for _, r := range bar2025 {
		readings = append(readings, ReversalReading{unit.Length(-r[0]) * mm, unit.Length(r[1]) * um, unit.Length(r[2]) * um})
	}
	s, err := ReverseBar(readings, Gauge{Step: 2 * um})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestReverseBarRecoversTheMotion holds the motion against the hidden truth at
// the places that both have.
func TestReverseBarRecoversTheMotion(t *testing.T) {
	s := shopBar(t)
	truth := truthOf(height2025)
	for i, p := range s.Motion.Points {
		k := 3 + int(math.Round(float64(p.Position/mm)/120))
		if math.Mod(float64(p.Position/mm), 120) != 0 {
			continue
		}
		want := truth[k] - truth[1] - (truth[5]-truth[1])*float64(k-1)/4
		if miss := float64(p.Height/um) - want; math.Abs(miss) > 2.5*float64(s.Motion.U(i)/um)+1e-9 {
			t.Errorf("motion at u = %g mm misses %.2f um by %.2f, standard uncertainty %.2f", float64(p.Position/mm), want, miss, float64(s.Motion.U(i)/um))
		}
	}
	// The bar: 6 um of bow in its middle, with a wave of 3 um on it that is
	// zero there.
	middle := len(s.Reference.Points) / 2
	if got := float64(s.Reference.Points[middle].Height / um); math.Abs(got-6) > 3 {
		t.Errorf("bar stands out by %g um in its middle, want about 6", got)
	}
}

func TestReversalErrors(t *testing.T) {
	good := []ReversalReading{{0, 0, 0}, {1, 0, 0}, {2, 0, 0}}
	tests := []struct {
		name     string
		readings []ReversalReading
		gauge    Gauge
		want     string
	}{
		{"two", good[:2], Gauge{}, "at least 3 places, got 2"},
		{"same place", []ReversalReading{{0, 0, 0}, {1, 0, 0}, {1, 0, 0}}, Gauge{}, "two readings at 1000 mm"},
		{"not a number", []ReversalReading{{0, 0, 0}, {1, unitNaN, 0}, {2, 0, 0}}, Gauge{}, "place 2"},
		{"place", []ReversalReading{{unitNaN, 0, 0}, {1, 0, 0}, {2, 0, 0}}, Gauge{}, "point 1"},
		{"gauge", good, Gauge{Step: -1}, "gauge with steps of -1000 mm"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := ReverseBar(test.readings, test.gauge)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func TestThreePlates(t *testing.T) {
	a, b, c, u, err := ThreePlates(lengthsOf(0, 2, 3, 2, 0), lengthsOf(0, -1, -1.5, -1.5, 0), lengthsOf(0, 5, 7.5, 4.5, 0), 1*um)
	if err != nil {
		t.Fatal(err)
	}
	for name, pair := range map[string][2][]unit.Length{"a": {a, lengthsOf(0, -2, -3, -2, 0)}, "b": {b, lengthsOf(0, 4, 6, 4, 0)}, "c": {c, lengthsOf(0, 1, 1.5, 0.5, 0)}} {
		for i := range pair[0] {
			if math.Abs(float64(pair[0][i]-pair[1][i])) > 1e-18 {
				t.Errorf("plate %s, place %d: %g, want %g", name, i, float64(pair[0][i]), float64(pair[1][i]))
			}
		}
	}
	if math.Abs(float64(u/um)-math.Sqrt(0.75)) > 1e-12 {
		t.Errorf("uncertainty = %g um, want sqrt(3)/2", float64(u/um))
	}
	// Whitworth, Miscellaneous Papers, 1840: two plates fitted to one that
	// stands hollow by c both stand out by c, and show 2c against each other.
	a, b, c, _, err = ThreePlates(lengthsOf(0), lengthsOf(0), lengthsOf(2), 0)
	if err != nil || a[0] != -1*um || b[0] != 1*um || c[0] != 1*um {
		t.Errorf("plates %v, %v, %v, %v; want -1, 1, 1 um", a, b, c, err)
	}
	for _, bad := range [][3][]unit.Length{{nil, nil, nil}, {lengthsOf(1), lengthsOf(1, 2), lengthsOf(1)}, {{unitNaN}, lengthsOf(1), lengthsOf(1)}} {
		if _, _, _, _, err := ThreePlates(bad[0], bad[1], bad[2], 0); err == nil {
			t.Errorf("no error from %v", bad)
		}
	}
}

func TestThreeProbes(t *testing.T) {
	// Constructed, with lift and pitch of the carriage in the readings: the
	// profile 0, 1, 3, 4.5, 4, 2.5, 1.5, 0 um.
	a := lengthsOf(0.2, 1.5, 1.9, 3.7, 5.2, 2.6)
	b := lengthsOf(0.7, 3.7, 3.3, 3.6, 3.4, 1.4)
	c := lengthsOf(2.2, 5.4, 2.7, 2.5, 2.1, -0.3)
	readings := make([]ProbeReading, len(a))
	for i := range a {
		readings[i] = ProbeReading{a[i], b[i], c[i]}
	}
	p, err := ThreeProbes(50*mm, readings, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0, 1, 3, 4.5, 4, 2.5, 1.5, 0} {
		if got := float64(p.Points[i].Height / um); math.Abs(got-want) > 1e-9 {
			t.Errorf("place %d = %g um, want %g", i, got, want)
		}
	}
	// A zero error of 0.2 um over ten steps: -2.5 um in the middle, exact
	// algebra; it must show as the uncertainty.
	flat := make([]ProbeReading, 9)
	bent, err := ThreeProbes(50*mm, flat, 0, 0.2*um)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(bent.U(5) / um); math.Abs(got-2.5) > 1e-9 {
		t.Errorf("uncertainty from the zeros = %g um, want 2.5", got)
	}
	for name, bad := range map[string]func() (Profile, error){
		"none":  func() (Profile, error) { return ThreeProbes(1, nil, 0, 0) },
		"pitch": func() (Profile, error) { return ThreeProbes(0, flat, 0, 0) },
		"u":     func() (Profile, error) { return ThreeProbes(1, flat, -1, 0) },
		"value": func() (Profile, error) { return ThreeProbes(1, []ProbeReading{{unitNaN, 0, 0}}, 0, 0) },
	} {
		if _, err := bad(); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// TestThreeProbesUncertainty compares the stated uncertainty with repeats.
func TestThreeProbesUncertainty(t *testing.T) {
	random := newNormal(71)
	u, zero := 0.5*um, 0.1*um
	base, err := ThreeProbes(50*mm, make([]ProbeReading, 9), u, zero)
	if err != nil {
		t.Fatal(err)
	}
	const draws = 3000
	var squares float64
	for range draws {
		readings := make([]ProbeReading, 9)
		offset := unit.Length(random()) * zero
		for i := range readings {
			readings[i] = ProbeReading{unit.Length(random())*u + offset, unit.Length(random()) * u, unit.Length(random()) * u}
		}
		p, err := ThreeProbes(50*mm, readings, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		squares += math.Pow(float64(p.Points[5].Height), 2) / draws
	}
	if ratio := math.Sqrt(squares) / float64(base.U(5)); math.Abs(ratio-1) > 0.06 {
		t.Errorf("scatter over stated uncertainty = %g", ratio)
	}
}

func TestSkimmedBarRecoversTheMotion(t *testing.T) {
	// The shop's table D10 against the hidden truth at the places both have, a
	// line removed; read to 1 um.
	u := []float64{-300, -200, -100, 0, 100, 200, 300}
	thickness := []float64{19.976, 19.979, 19.983, 19.985, 19.982, 19.977, 19.971}
	places := make([]SkimmedPlace, len(u))
	for i := range u {
		places[i] = SkimmedPlace{unit.Length(u[i]) * mm, unit.Length(thickness[i]) * mm}
	}
	profile, err := MotionFromSkimmedBar(places, Gauge{Step: 1 * um, RepeatU: 0.5 * um})
	if err != nil {
		t.Fatal(err)
	}
	s, err := profile.Straightness(EndPoints)
	if err != nil {
		t.Fatal(err)
	}
	// Hidden truth over 600 mm in the middle: 13.0 um.
	if miss := float64(s.Value/um) - 13; math.Abs(miss) > 2.5*float64(s.U/um) {
		t.Errorf("hollow = %.2f um, standard uncertainty %.2f, want 13.0", float64(s.Value/um), float64(s.U/um))
	}
	if middle := profile.Points[3].Height; middle > profile.Points[0].Height {
		t.Error("a bar thick in its middle must tell of a motion that is low there")
	}
	for _, bad := range [][]SkimmedPlace{nil, places[:2], {{0, 0}, {1, 0.02}, {2, 0.02}}, {{0, 0.02}, {0, 0.02}, {2, 0.02}}, {{0, unitNaN}, {1, 0.02}, {2, 0.02}}} {
		if _, err := MotionFromSkimmedBar(bad, Gauge{}); err == nil {
			t.Errorf("no error from %v", bad)
		}
	}
}

func TestMethodsAgree(t *testing.T) {
	// Level, ground bar and dial see one motion: the hollow over 480 mm.
	motion, err := MotionFromSlopes(leveled(t, level2025, true).SlopePoints(), MotionOptions{Bearing: 360 * mm, At: []unit.Length{-240 * mm, 0, 240 * mm}})
	if err != nil {
		t.Fatal(err)
	}
	level, err := motion.Straightness(EndPoints)
	if err != nil {
		t.Fatal(err)
	}
	bar := shopBar(t).Motion
	middle := len(bar.Points) / 2
	difference := float64(level.Value/um) + float64(bar.Points[middle].Height/um)
	u := math.Hypot(float64(level.U/um), float64(bar.U(middle)/um))
	if math.Abs(difference) > 2.5*u {
		t.Errorf("level and bar differ by %.2f um, standard uncertainty %.2f", difference, u)
	}
}

func FuzzReverseBar(f *testing.F) {
	f.Add(-0.24, 0.0, 0.24, 0.0, -2e-5, -2.8e-5, 2e-5, 2e-6)
	f.Add(0.0, 1e-300, 1e308, 1.0, -1.0, 1.0, 0.5, 0.0)
	f.Fuzz(func(t *testing.T, x0, x1, x2, a, b, c, d, step float64) {
		s, err := ReverseBar([]ReversalReading{{unit.Length(x0), unit.Length(a), unit.Length(d)}, {unit.Length(x1), unit.Length(b), unit.Length(a)}, {unit.Length(x2), unit.Length(c), 0}}, Gauge{Step: unit.Length(step)})
		if err != nil {
			return
		}
		for i := range s.Motion.Points {
			if !finite(float64(s.Motion.Points[i].Height)) || !finite(float64(s.Reference.U(i))) {
				t.Errorf("place %d: %v, %v", i, s.Motion.Points[i], s.Reference.U(i))
			}
		}
	})
}
