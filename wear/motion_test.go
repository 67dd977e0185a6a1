package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// truthOf returns the true heights of the motion against u, growing, in um.
func truthOf(height func(poseRow) float64) []float64 {
	truth := make([]float64, len(pose))
	for i, p := range pose {
		truth[len(pose)-1-i] = height(p)
	}
	return truth
}

func height2019(p poseRow) float64 { return p.height }
func height2025(p poseRow) float64 { return p.height2 }

// TestMotionRecoversTheHeights holds the motion from the level readings against
// the hidden heights, which no level can read, within the stated uncertainty.
func TestMotionRecoversTheHeights(t *testing.T) {
	for _, test := range []struct {
		name  string
		rows  []levelRow
		truth func(poseRow) float64
	}{{"2019", level2019, height2019}, {"2025", level2025, height2025}} {
		motion, err := MotionFromSlopes(leveled(t, test.rows, true).SlopePoints(), MotionOptions{Bearing: 360 * mm})
		if err != nil {
			t.Fatal(err)
		}
		truth := truthOf(test.truth)
		miss := motion.Profile
		miss.Points = append([]Point(nil), miss.Points...)
		for i := range miss.Points {
			miss.Points[i].Height -= unit.Length(truth[i]) * um
		}
		less, _, err := miss.Less(LeastSquares)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range less.Points {
			u := float64(less.U(i) / um)
			if math.Abs(float64(p.Height/um)) > 2.5*u || u > 3 {
				t.Errorf("%s: motion at u = %g mm misses by %.2f um, standard uncertainty %.2f", test.name, float64(p.Position/mm), float64(p.Height/um), u)
			}
		}
	}
}

// TestBearingMatters feeds the exact slopes of 2025 and compares the hollow over
// 480 mm: cumulating the level alone makes it nearly half as deep again.
func TestBearingMatters(t *testing.T) {
	slopes := make([]SlopePoint, len(pose))
	for i, p := range pose {
		slopes[i] = SlopePoint{Position: unit.Length(-p.travel) * mm, Slope: Slope(p.along2) * MicrometrePerMetre, U: 0.1 * MicrometrePerMetre}
	}
	at := []unit.Length{-240 * mm, -120 * mm, 0, 120 * mm, 240 * mm}
	bow := func(points []Point) float64 {
		s, err := StraightnessOf(points, EndPoints)
		if err != nil {
			t.Fatal(err)
		}
		return float64(s.Value / um)
	}
	var inner []Point
	for i, h := range truthOf(height2025)[1:6] {
		inner = append(inner, Point{at[i], unit.Length(h) * um})
	}
	truth := bow(inner)
	cumulated, err := ProfileFromSlopes(slopes, ProfileOptions{At: at})
	if err != nil {
		t.Fatal(err)
	}
	if over := bow(cumulated.Points) / truth; over < 1.3 || over > 1.6 {
		t.Errorf("the cumulated level shows %.2f times the true hollow, want 1.3 to 1.6", over)
	}
	motion, err := MotionFromSlopes(slopes, MotionOptions{At: at, Bearing: 360 * mm})
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := motion.Straightness(EndPoints); math.Abs(bow(motion.Points)-truth) > 2*float64(s.U/um) || s.U > 2*um {
		t.Errorf("motion shows a hollow of %.2f um, standard uncertainty %.2f, truth %.2f", bow(motion.Points), float64(s.U/um), truth)
	}
}

// TestMotionOfDrawnWays draws ways from the model itself and counts how far the
// heights miss, in units of their stated uncertainty.
func TestMotionOfDrawnWays(t *testing.T) {
	random := newNormal(41)
	const ways, lively = 150, 4e-7 // 1/m: hollows of some 40 um in a metre
	var squares, n float64
	for range ways {
		const cells, pitch = 60, 20e-3
		h := make([]float64, cells+1)
		slope := 100e-6
		for i := range cells { // the exact joint law of slope and height over a cell
			a, b := random(), random()
			h[i+1] = h[i] + slope*pitch + math.Sqrt(lively)*math.Pow(pitch, 1.5)*(a/2+b/math.Sqrt(12))
			slope += math.Sqrt(lively*pitch) * a
		}
		at := func(u float64) float64 { return h[int(math.Round((u+0.6)/pitch))] }
		var slopes []SlopePoint
		for u := -0.4; u < 0.41; u += 0.1 {
			slopes = append(slopes, SlopePoint{unit.Length(u), Slope((at(u+0.18)-at(u-0.18))/0.36 + 3e-6*random()), 3e-6, 0})
		}
		motion, err := MotionFromSlopes(slopes, MotionOptions{Bearing: 0.36})
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range motion.Points {
			u := float64(p.Position)
			motion.Points[i].Height -= unit.Length((at(u+0.18) + at(u-0.18)) / 2)
		}
		less, _, err := motion.Less(EndPoints)
		if err != nil {
			t.Fatal(err)
		}
		middle := len(less.Points) / 2
		r := float64(less.Points[middle].Height / less.U(middle))
		squares, n = squares+r*r, n+1
	}
	// 150 squares of unit normals have the mean 1 with standard deviation 0.12;
	// the liveliness is fitted, so a little more is expected.
	if mean := squares / n; mean < 0.7 || mean > 1.5 {
		t.Errorf("mean squared miss is %.2f of the stated variance, want about 1", mean)
	}
}

// TestMotionWithoutBearing walks a bed: the motion is then the profile, and
// between exact slopes the least bent way is that of the trapezoids.
func TestMotionWithoutBearing(t *testing.T) {
	var slopes []SlopePoint
	for u := -0.5; u < 0.51; u += 0.05 {
		slopes = append(slopes, SlopePoint{unit.Length(u), Slope(200e-6 * u * u), 1e-8, 0})
	}
	motion, err := MotionFromSlopes(slopes, MotionOptions{})
	if err != nil {
		t.Fatal(err)
	}
	profile, err := ProfileFromSlopes(slopes, ProfileOptions{Rule: Trapezoid})
	if err != nil {
		t.Fatal(err)
	}
	for i := range motion.Points {
		if d := float64(motion.Points[i].Height - profile.Points[i].Height); math.Abs(d) > 1e-10 {
			t.Errorf("at %g m: motion and profile differ by %g m", float64(motion.Points[i].Position), d)
		}
	}
}

func TestMotionOfAStraightWay(t *testing.T) {
	slopes := []SlopePoint{{-0.3, 51e-6, 3e-6, 0}, {-0.1, 49e-6, 3e-6, 0}, {0.1, 50.5e-6, 3e-6, 0}, {0.3, 49.5e-6, 3e-6, 0}}
	motion, err := MotionFromSlopes(slopes, MotionOptions{Bearing: 0.36})
	if err != nil {
		t.Fatal(err)
	}
	if motion.Liveliness != 0 {
		t.Errorf("slopes equal within their errors give liveliness %g, want 0", motion.Liveliness)
	}
	s, err := motion.Straightness(MinimumZone)
	if err != nil {
		t.Fatal(err)
	}
	if s.Value > 1e-12 {
		t.Errorf("straightness = %g m, want none", float64(s.Value))
	}
}

func TestMotionErrors(t *testing.T) {
	good := leveled(t, level2025, true).SlopePoints()
	exact := append([]SlopePoint(nil), good...)
	exact[1].U = 0
	tests := []struct {
		name    string
		slopes  []SlopePoint
		options MotionOptions
		want    string
	}{
		{"two stations", good[:2], MotionOptions{}, "from 3 to 300 stations, got 2"},
		{"exact slope", exact, MotionOptions{}, "station 2: standard uncertainty of the slope 0"},
		{"bearing", good, MotionOptions{Bearing: -1}, "bearing length -1000 mm"},
		{"bearing not a number", good, MotionOptions{Bearing: unitNaN}, "bearing length NaN"},
		{"outside", good, MotionOptions{At: []unit.Length{1}}, "outside the run"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := MotionFromSlopes(test.slopes, test.options)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func FuzzMotion(f *testing.F) {
	f.Add(-0.36, 0.0, 0.36, 1e-4, -1e-4, 2e-5, 2e-6, 0.36)
	f.Add(0.0, 1e-300, 2e-300, 1.0, 1.0, 1.0, 1.0, 0.0)
	f.Add(-1e308, 0.0, 1e308, 1e308, 1.0, -1e308, 1e308, 10.0)
	f.Add(0.0, 1.0, 2.0, 0.0, 0.0, 0.0, 1e-300, 1e-9)
	f.Fuzz(func(t *testing.T, x0, x1, x2, s0, s1, s2, u, bearing float64) {
		slopes := []SlopePoint{{unit.Length(x0), Slope(s0), Slope(u), 0}, {unit.Length(x1), Slope(s1), Slope(u), 3}, {unit.Length(x2), Slope(s2), Slope(u), 0}}
		motion, err := MotionFromSlopes(slopes, MotionOptions{Bearing: unit.Length(bearing)})
		if err != nil {
			return
		}
		for i, p := range motion.Points {
			if !finite(float64(p.Height)) || !finite(float64(motion.U(i))) {
				t.Errorf("point %v, uncertainty %v of %v", p, motion.U(i), slopes)
			}
		}
	})
}

func BenchmarkMotion(b *testing.B) {
	survey, err := ReadLevel(stations(level2025, true), shopLevel)
	if err != nil {
		b.Fatal(err)
	}
	slopes := survey.SlopePoints()
	for b.Loop() {
		if _, err := MotionFromSlopes(slopes, MotionOptions{Bearing: 360 * mm}); err != nil {
			b.Fatal(err)
		}
	}
}
