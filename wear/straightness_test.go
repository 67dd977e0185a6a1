package wear

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"gonum.org/v1/gonum/unit"
)

// pointsOf returns points from positions in mm and heights in um.
func pointsOf(x, z []float64) []Point {
	points := make([]Point, len(x))
	for i := range x {
		points[i] = Point{unit.Length(x[i]) * mm, unit.Length(z[i]) * um}
	}
	return points
}

func values(t *testing.T, points []Point) (end, least, zone Straightness) {
	t.Helper()
	var err error
	for reference, s := range map[Reference]*Straightness{EndPoints: &end, LeastSquares: &least, MinimumZone: &zone} {
		if *s, err = StraightnessOf(points, reference); err != nil {
			t.Fatalf("%v: %v", reference, err)
		}
	}
	return end, least, zone
}

// TestStraightnessCases holds the three references against cases constructed
// for the purpose, whose answers were found by linear programming and by brute
// force over all pairs of points; there is no publication to match.
func TestStraightnessCases(t *testing.T) {
	level := []float64{0, 5, 7.5, 7.5, 5, 7.5, 2.5, -5, -7.5}
	mirror := []float64{0}
	for i, tilt := range []float64{12, 14, 13, 9, 8, 6, 9, 11, 13, 10} {
		mirror = append(mirror, mirror[i]+tilt*float64(ArcSecond.Rise(100*mm)/um))
	}
	tests := []struct {
		name             string
		x, z             []float64
		end, least, zone float64 // um
		slope            float64 // of the minimum zone, um/m; NaN where it is not one slope
		tolerance        float64 // figures stated
	}{
		{"level, 250 mm base", steps(9, 250), level, 12.1875, 13.3333, 12.1875, -3.75, 1e-4},
		{"autocollimator, 100 mm base", steps(11, 100), mirror, 4.8481, 4.3237, 4.1555, 49.17396, 1e-4},
		{"crown", steps(11, 100), crown(11, 160), 40, 40, 40, 0, 1e-9},
		{"unequal steps", []float64{0, 80, 200, 410, 500, 640, 800}, []float64{0, 5, 2, 7, 6, -1, 3}, 8.8625, 8.0718, 7.640625, -1.5625, 1e-4},
		{"straight", steps(7, 60), []float64{1, 3, 5, 7, 9, 11, 13}, 0, 0, 0, 2000.0 / 60, 1e-9},
		{"two points", []float64{0, 500}, []float64{3, -4}, 0, 0, 0, -14, 1e-9},
		{"two heights at each end", []float64{0, 0, 100, 100}, []float64{0, 4, 0, 4}, 4, 4, 4, 0, 1e-9},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			end, least, zone := values(t, pointsOf(test.x, test.z))
			for _, got := range []struct {
				s    Straightness
				want float64
			}{{end, test.end}, {least, test.least}, {zone, test.zone}} {
				if test.name == "two heights at each end" && got.s.Reference == EndPoints {
					continue // which of the two heights ends the line is not laid down
				}
				if v := float64(got.s.Value / um); math.Abs(v-got.want) > test.tolerance {
					t.Errorf("%v = %.6f um, want %.6f", got.s.Reference, v, got.want)
				}
			}
			if slope := float64(zone.Line.Slope / MicrometrePerMetre); math.Abs(slope-test.slope) > test.tolerance {
				t.Errorf("slope of the zone = %.6f um/m, want %.6f", slope, test.slope)
			}
		})
	}
}

func steps(n int, pitch float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = float64(i) * pitch
	}
	return x
}

// crown returns n heights h*s*(1-s) over s from 0 to 1.
func crown(n int, h float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		s := float64(i) / float64(n-1)
		z[i] = h * s * (1 - s)
	}
	return z
}

func TestMinimumZoneNamesItsContacts(t *testing.T) {
	// The unequal steps of the case above: lower contacts at x = 0 and 640,
	// upper at 410.
	points := pointsOf([]float64{0, 80, 200, 410, 500, 640, 800}, []float64{0, 5, 2, 7, 6, -1, 3})
	_, _, zone := values(t, points)
	if len(zone.Highest) != 1 || zone.Highest[0] != 3 || len(zone.Lowest) != 2 || zone.Lowest[0] != 0 || zone.Lowest[1] != 5 {
		t.Errorf("contacts above %v, below %v; want [3] and [0 5]", zone.Highest, zone.Lowest)
	}
	middle := (points[3].Height - zone.Line.At(points[3].Position)) + (points[0].Height - zone.Line.At(points[0].Position))
	if math.Abs(float64(middle)) > 1e-18 {
		t.Errorf("the line is off the middle of the zone by %g m", float64(middle))
	}
	backward := make([]Point, len(points))
	for i := range points {
		backward[i] = points[len(points)-1-i]
	}
	_, _, zone = values(t, backward)
	if len(zone.Highest) != 1 || backward[zone.Highest[0]] != points[3] || len(zone.Lowest) != 2 {
		t.Errorf("points given backward: contacts above %v, below %v are not the same points", zone.Highest, zone.Lowest)
	}
}

// zoneByPairs finds the minimum zone by trying the line through every pair of
// points: the slope of the best zone always joins two of them.
func zoneByPairs(points []Point) float64 {
	best := math.Inf(1)
	for i, a := range points {
		for _, b := range points[i+1:] {
			if a.Position == b.Position {
				continue
			}
			l := lineThrough(a, b)
			high, low := math.Inf(-1), math.Inf(1)
			for _, p := range points {
				d := float64(p.Height - l.At(p.Position))
				high, low = math.Max(high, d), math.Min(low, d)
			}
			best = math.Min(best, high-low)
		}
	}
	return best
}

// zoneByProgramme finds the minimum zone by the simplex method. It solves the
// dual: weights a, b >= 0 on the points with sum(a) = sum(b) = 1 and equal
// means of position, making sum(a z) - sum(b z) greatest. Places run from -1 to 1
// and heights, their end-point line taken off, likewise, so that the programme
// loses no figures to their size.
func zoneByProgramme(t *testing.T, points []Point) float64 {
	n := len(points)
	first, last := points[0], points[0]
	for _, p := range points {
		if p.Position < first.Position {
			first = p
		}
		if p.Position > last.Position {
			last = p
		}
	}
	base, size := lineThrough(first, last), 0.0
	for _, p := range points {
		size = math.Max(size, math.Abs(float64(p.Height-base.At(p.Position))))
	}
	if size == 0 {
		return 0
	}
	cost := make([]float64, 2*n)
	a := mat.NewDense(3, 2*n, nil)
	for i, p := range points {
		x, z := 2*float64(p.Position-first.Position)/float64(last.Position-first.Position)-1, float64(p.Height-base.At(p.Position))/size
		cost[i], cost[n+i] = -z, z
		a.SetCol(i, []float64{1, 0, x})
		a.SetCol(n+i, []float64{0, 1, -x})
	}
	value, _, err := lp.Simplex(cost, a, []float64{1, 1, 0}, 1e-12, nil)
	if err != nil {
		t.Fatalf("oracle: %v; points %v", err, points)
	}
	return -value * size
}

// roughProfile returns n points in order, with duplicates and collinear runs
// when asked.
func roughProfile(random *rand.Rand, n int, hard bool) []Point {
	points := make([]Point, n)
	x, slope := 0.0, 20*(random.Float64()-0.5)
	for i := range points {
		if !hard || random.IntN(4) > 0 {
			x += math.Ceil(10 * random.Float64())
		}
		z := slope*x + 30*random.NormFloat64()
		if hard {
			z = math.Round(z/10)*10 + 5*x
		}
		points[i] = Point{unit.Length(x) * mm, unit.Length(z) * um}
	}
	points[n-1].Position += 10 * mm // at least two places
	return points
}

// The zone is exact up to rounding: each of a few dozen operations on numbers of
// the size of the heights rounds by one part in 10^16, so 1e-12 of the range of
// the heights leaves a margin of a hundred.
func TestMinimumZoneAgainstOracles(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for trial := range 1000 {
		points := roughProfile(random, 2+random.IntN(40), trial%2 == 1)
		switch trial % 10 {
		case 3: // every point twice
			points = append(points, points...)
		case 5: // all on one hull
			for i := range points {
				x := float64(points[i].Position)
				points[i].Height = unit.Length(x * (0.5 - x) * 1e-3)
			}
		case 7: // all on one line
			for i := range points {
				points[i].Height = Slope(2e-5).Rise(points[i].Position)
			}
		}
		_, _, zone := values(t, points)
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			low, high = math.Min(low, float64(p.Height)), math.Max(high, float64(p.Height))
		}
		if want := zoneByPairs(points); math.Abs(float64(zone.Value)-want) > 1e-12*(high-low) {
			t.Fatalf("trial %d: zone = %.17g, all pairs give %.17g; points %v", trial, float64(zone.Value), want, points)
		}
		if dual := zoneByProgramme(t, points); math.Abs(float64(zone.Value)-dual) > 1e-12*(high-low) {
			t.Fatalf("trial %d: zone = %.17g, linear programme gives %.17g", trial, float64(zone.Value), dual)
		}
		if len(zone.Highest)+len(zone.Lowest) < 3 && len(points) > 2 {
			t.Fatalf("trial %d: contacts %v and %v; a zone stands on at least three", trial, zone.Highest, zone.Lowest)
		}
	}
}

func TestStraightnessLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		points := roughProfile(random, 3+random.IntN(30), false)
		end, least, zone := values(t, points)
		if zone.Value > end.Value*(1+1e-12) || zone.Value > least.Value*(1+1e-12) {
			t.Fatalf("zone %g above end points %g or least squares %g", float64(zone.Value), float64(end.Value), float64(least.Value))
		}
		changes := []struct {
			name   string
			change func(Point) Point
			factor float64
		}{
			{"line added", func(p Point) Point {
				return Point{p.Position, p.Height + 3*um + Slope(2e-5).Rise(p.Position)}
			}, 1},
			{"scaled", func(p Point) Point { return Point{p.Position, 2.5 * p.Height} }, 2.5},
			{"turned over", func(p Point) Point { return Point{p.Position, -p.Height} }, 1},
			{"reversed", func(p Point) Point { return Point{-p.Position, p.Height} }, 1},
		}
		for _, c := range changes {
			moved := make([]Point, len(points))
			for i, p := range points {
				moved[i] = c.change(p)
			}
			end2, least2, zone2 := values(t, moved)
			for _, pair := range [][2]Straightness{{end, end2}, {least, least2}, {zone, zone2}} {
				want := c.factor * float64(pair[0].Value)
				// Rounding of heights that are up to ten times the zone.
				if math.Abs(float64(pair[1].Value)-want) > 1e-12*want+1e-17 {
					t.Errorf("%s: %v = %.15g, want %.15g", c.name, pair[0].Reference, float64(pair[1].Value), want)
				}
			}
		}
	}
}

func TestStraightnessErrors(t *testing.T) {
	good := pointsOf([]float64{0, 1, 2}, []float64{0, 1, 0})
	tests := []struct {
		name      string
		points    []Point
		reference Reference
		want      string
	}{
		{"none", nil, MinimumZone, "at least 2 points, got 0"},
		{"one", good[:1], EndPoints, "at least 2 points, got 1"},
		{"not a number", []Point{good[0], {1 * mm, unitNaN}}, MinimumZone, "point 2"},
		{"infinite place", []Point{{unit.Length(math.Inf(-1)), 0}, good[0]}, LeastSquares, "point 1"},
		{"one place", []Point{good[1], good[1]}, MinimumZone, "all points lie at 1 mm"},
		{"no such reference", good, Reference(9), "no reference 9"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := StraightnessOf(test.points, test.reference)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func TestStraightnessKeepsTheCallersPoints(t *testing.T) {
	points := pointsOf([]float64{5, 1, 3}, []float64{0, 1, 7})
	before := append([]Point(nil), points...)
	values(t, points)
	for i := range points {
		if points[i] != before[i] {
			t.Errorf("point %d changed from %v to %v", i, before[i], points[i])
		}
	}
}

func TestLocalStraightness(t *testing.T) {
	// A tent of 10 um over 1 m, its ridge at 400 mm: over any 300 mm that holds
	// the ridge in its middle the end-point bow is the largest, found by hand
	// as 150 mm times (25 + 16.667) um/m over 2 = 3.125 um.
	points := pointsOf([]float64{0, 250, 400, 550, 1000}, []float64{0, 6.25, 10, 7.5, 0})
	worst, from, err := LocalStraightness(points, 300*mm, EndPoints)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(worst.Value / um); math.Abs(got-3.125) > 1e-9 || math.Abs(float64(from/mm)-250) > 1e-9 {
		t.Errorf("worst = %g um from %g mm, want 3.125 from 250", got, float64(from/mm))
	}
	whole, _, err := LocalStraightness(points, 1000*mm, MinimumZone)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, zone := values(t, points); math.Abs(float64(whole.Value-zone.Value)) > 1e-18 {
		t.Errorf("over its whole length %g, straightness itself %g", float64(whole.Value), float64(zone.Value))
	}
	for _, length := range []unit.Length{0, -1, 2, unitNaN} {
		if _, _, err := LocalStraightness(points, length, MinimumZone); err == nil {
			t.Errorf("a stretch of %g m gave no error", float64(length))
		}
	}
}

func FuzzStraightness(f *testing.F) {
	f.Add(0.0, 0.0, 1.0, 2.0, 2.0, -1.0, 3.0, 0.5)
	f.Add(0.0, 1e300, 1.0, -1e300, 2.0, 1e300, 3.0, 0.0)
	f.Add(0.0, 0.0, 0.0, 1.0, 0.0, 2.0, 1e-320, 3.0)
	f.Add(-360.0, -16.1, -360.0, 1.0, 0.0, -35.3, 360.0, -20.7)
	f.Fuzz(func(t *testing.T, x0, z0, x1, z1, x2, z2, x3, z3 float64) {
		points := []Point{{unit.Length(x0), unit.Length(z0)}, {unit.Length(x1), unit.Length(z1)},
			{unit.Length(x2), unit.Length(z2)}, {unit.Length(x3), unit.Length(z3)}}
		for _, reference := range []Reference{MinimumZone, LeastSquares, EndPoints} {
			s, err := StraightnessOf(points, reference)
			if err == nil && (!finite(float64(s.Value)) || s.Value < 0 || len(s.Highest) == 0 || len(s.Lowest) == 0) {
				t.Errorf("%v of %v = %v", reference, points, s)
			}
		}
	})
}

func BenchmarkMinimumZone(b *testing.B) {
	random := rand.New(rand.NewPCG(5, 6))
	points := make([]Point, 1_000_000)
	for i := range points {
		x := float64(i) * 1e-6
		points[i] = Point{unit.Length(x), unit.Length(20e-6*math.Sin(3*x) + 1e-6*random.NormFloat64())}
	}
	for b.Loop() {
		if _, err := StraightnessOf(points, MinimumZone); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMinimumZoneOfCrown(b *testing.B) { // every point is on the hull
	points := make([]Point, 1_000_000)
	for i := range points {
		x := float64(i) * 1e-6
		points[i] = Point{unit.Length(x), unit.Length(x * (1 - x))}
	}
	for b.Loop() {
		if _, err := StraightnessOf(points, MinimumZone); err != nil {
			b.Fatal(err)
		}
	}
}

// TestRootMeanSquare holds the deviations' root mean square from the least squares
// line against three constructed profiles, worked with another programme.
func TestRootMeanSquare(t *testing.T) {
	slopes := func(base, division float64, readings ...float64) []Point {
		points := []Point{{}}
		for _, r := range readings {
			last := points[len(points)-1]
			points = append(points, Point{last.Position + unit.Length(base), last.Height + unit.Length(base*division*r)})
		}
		return points
	}
	var parabola []Point
	for i := range 11 {
		x := float64(i) / 10
		parabola = append(parabola, Point{unit.Length(x), unit.Length(160e-6 * x * (1 - x))})
	}
	for id, points := range map[string][]Point{
		"straight-level-rms":      slopes(0.25, 20e-6, 1, 0.5, 0, -0.5, 0.5, -1, -1.5, -0.5),
		"straight-collimator-rms": slopes(0.1, math.Pi/648000, 12, 14, 13, 9, 8, 6, 9, 11, 13, 10),
		"straight-parabola-rms":   parabola,
	} {
		s, err := StraightnessOf(points, LeastSquares)
		if err != nil {
			t.Fatal(err)
		}
		holdsRow(t, id, float64(s.RMS/um))
	}
	if s, err := StraightnessOf([]Point{{0, 1}, {1, 1}, {2, 1}}, LeastSquares); err != nil || s.RMS != 0 {
		t.Errorf("straight: %g, %v", float64(s.RMS), err)
	}
}
