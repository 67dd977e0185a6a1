package wear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"gonum.org/v1/gonum/unit"
)

// surfaceOf returns points from rows of x mm, y mm, height um.
func surfaceOf(rows [][3]float64) []SurfacePoint {
	points := make([]SurfacePoint, len(rows))
	for i, r := range rows {
		points[i] = SurfacePoint{unit.Length(r[0]) * mm, unit.Length(r[1]) * mm, unit.Length(r[2]) * um}
	}
	return points
}

// gridOf returns points of a grid of 100 mm pitch, rows from the front.
func gridOf(z [][]float64) []SurfacePoint {
	var points []SurfacePoint
	for j, row := range z {
		for i, h := range row {
			points = append(points, SurfacePoint{unit.Length(100*i) * mm, unit.Length(100*j) * mm, unit.Length(h) * um})
		}
	}
	return points
}

var plate25 = [][]float64{
	{0, 3, 5, 4, 2}, {2, 6, 9, 7, 3}, {4, 8, 12, 9, 5}, {3, 6, 8, 7, 2}, {-1, 2, 6, 3, 0},
}

// TestFlatnessCases holds both references against cases whose answers were found
// by linear programming and by brute force over all triples of points and pairs
// of edges. The five points are those of a question in a public engineering
// forum on the flatness of a set of points; the answers are ours.
func TestFlatnessCases(t *testing.T) {
	var saddle [][3]float64
	for x := -1.0; x <= 1; x++ {
		for y := -1.0; y <= 1; y++ {
			saddle = append(saddle, [3]float64{x, y, 7 * x * y})
		}
	}
	tests := []struct {
		name        string
		points      []SurfacePoint
		least, zone float64    // um
		slopes      [2]float64 // of the zone; NaN where several zones are equally narrow
		tolerance   float64    // figures stated
	}{
		{"five points", surfaceOf([][3]float64{{11.5, 7, 1100}, {18.5, 6.9, 1030}, {4.5, 13, 1020}, {25.5, 30, 1030}, {11.5, 37.5, 1020}}),
			72.097313, 67.262295, [2]float64{-0.000428571, -0.002622951}, 1e-4},
		{"saddle", surfaceOf(saddle), 14, 14, [2]float64{0, 0}, 1e-9},
		{"plate", gridOf(plate25), 12.16, 12, [2]float64{math.NaN(), math.NaN()}, 1e-4},
		{"scattered", surfaceOf([][3]float64{{0, 0, 0}, {600, 0, 0}, {600, 400, 0}, {0, 400, 12}, {300, 200, -5}, {300, 0, 4}, {300, 400, 2}}),
			12.333333, 11, [2]float64{math.NaN(), math.NaN()}, 1e-6}, // several planes reach 11
		{"three points", surfaceOf([][3]float64{{0, 0, 4}, {10, 0, -7}, {0, 10, 9}}), 0, 0, [2]float64{-1.1e-3, 0.5e-3}, 1e-9},
		{"plane", gridOf([][]float64{{1, 2, 3}, {3, 4, 5}, {5, 6, 7}}), 0, 0, [2]float64{1e-5, 2e-5}, 1e-9},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			least, err := FlatnessOf(test.points, LeastSquares)
			if err != nil {
				t.Fatal(err)
			}
			zone, err := FlatnessOf(test.points, MinimumZone)
			if err != nil {
				t.Fatal(err)
			}
			if got := float64(least.Value / um); math.Abs(got-test.least) > test.tolerance {
				t.Errorf("least squares = %.7f um, want %.7f", got, test.least)
			}
			if got := float64(zone.Value / um); math.Abs(got-test.zone) > test.tolerance {
				t.Errorf("minimum zone = %.7f um, want %.7f", got, test.zone)
			}
			for i, got := range []Slope{zone.Plane.SlopeX, zone.Plane.SlopeY} {
				if want := test.slopes[i]; math.Abs(float64(got)-want) > 1e-8 {
					t.Errorf("slope %d of the zone = %.9f, want %.9f", i, float64(got), want)
				}
			}
			if len(zone.Highest) == 0 || len(zone.Lowest) == 0 {
				t.Errorf("contacts %v, %v", zone.Highest, zone.Lowest)
			}
		})
	}
}

// TestFlatnessFromCorners holds two planes of the workshop on the 5 x 5 plate.
func TestFlatnessFromCorners(t *testing.T) {
	points := gridOf(plate25)
	three, err := PlaneThrough(points[0], points[4], points[20])
	if err != nil {
		t.Fatal(err)
	}
	// Parallel to the other diagonal: through one diagonal and a point that
	// lies beside its middle as the other diagonal's middle does.
	sw, se, nw, ne := points[0], points[4], points[20], points[24]
	lifted := se
	lifted.Height += (sw.Height + ne.Height - se.Height - nw.Height) / 2
	diagonal, err := PlaneThrough(sw, ne, lifted)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name                  string
		plane                 Plane
		slopeX, slopeY, value float64 // um/mm and um
	}{{"three corners", three, 0.005, -0.0025, 12.5}, {"diagonals", diagonal, 0.00375, -0.00375, 12}} {
		f, err := FlatnessFrom(points, test.plane)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(f.Value/um)-test.value) > 1e-9 || math.Abs(float64(test.plane.SlopeX)*1e3-test.slopeX) > 1e-12 || math.Abs(float64(test.plane.SlopeY)*1e3-test.slopeY) > 1e-12 {
			t.Errorf("%s: %g um with slopes %g, %g; want %g with %g, %g", test.name, float64(f.Value/um), float64(test.plane.SlopeX)*1e3, float64(test.plane.SlopeY)*1e3, test.value, test.slopeX, test.slopeY)
		}
	}
}

// flatByProgramme finds the minimum zone by the general simplex method of gonum
// on the dual. The plane of least squares is taken off and everything scaled to
// 1, so that the programme loses no figures to the size of the data.
func flatByProgramme(t *testing.T, points []SurfacePoint) float64 {
	frame, err := newPlaneFrame(points)
	if err != nil {
		t.Fatal(err)
	}
	n := len(points)
	cost := make([]float64, 2*n)
	a := mat.NewDense(4, 2*n, nil)
	for i := range points {
		x, y, z := frame.x[i], frame.y[i], frame.z[i]
		cost[i], cost[n+i] = -z, z
		a.SetCol(i, []float64{1, 0, x, y})
		a.SetCol(n+i, []float64{0, 1, -x, -y})
	}
	value, _, err := lp.Simplex(cost, a, []float64{1, 1, 0, 0}, 1e-12, nil)
	if err != nil {
		t.Fatalf("oracle: %v; points %v", err, points)
	}
	return -value * frame.scaleZ
}

// roughSurface returns points of one of five kinds: scattered, on a coarse grid
// with many in line and many alike, every point twice, all on the hull of a bowl,
// all in one plane.
func roughSurface(random *rand.Rand, kind int) []SurfacePoint {
	points := make([]SurfacePoint, 4+random.IntN(40))
	for i := range points {
		x, y, z := random.Float64(), random.Float64(), 20*random.NormFloat64()
		switch kind {
		case 1:
			x, y, z = float64(random.IntN(5))/4, float64(random.IntN(5))/4, float64(random.IntN(4))
		case 3:
			z = 50 * (x*x + y*y)
		case 4:
			z = 0
		}
		points[i] = SurfacePoint{unit.Length(x), unit.Length(y), unit.Length(z+300*x-40*y) * um}
		if kind == 2 && i%2 == 1 {
			points[i] = points[i-1]
		}
	}
	return points
}

// The tolerance is that of straightness: a few dozen roundings, each of one part
// in 10^16 of the size of the heights.
func TestFlatZoneAgainstLinearProgramming(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	tried := 0
	for trial := 0; tried < 1000; trial++ {
		points := roughSurface(random, trial%5)
		zone, err := FlatnessOf(points, MinimumZone)
		if err != nil {
			if strings.Contains(err.Error(), "one line") {
				continue
			}
			t.Fatal(err)
		}
		tried++
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			low, high = math.Min(low, float64(p.Height)), math.Max(high, float64(p.Height))
		}
		if want := flatByProgramme(t, points); math.Abs(float64(zone.Value)-want) > 1e-12*(high-low) {
			t.Fatalf("trial %d: zone = %.17g, linear programme gives %.17g", trial, float64(zone.Value), want)
		}
	}
}

// TestManyPointsAreTheSameProgramme holds the rounds over a few points against
// those over all, on surfaces larger than a few blocks.
func TestManyPointsAreTheSameProgramme(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 8))
	for name, height := range map[string]func(x, y float64) float64{
		"rough": func(x, y float64) float64 { return 20*math.Sin(3*x)*y + random.NormFloat64() },
		"bowl":  func(x, y float64) float64 { return 20 * (x*x + y*y) },
		"plane": func(x, y float64) float64 { return 20*x - 3*y },
		"spike": func(x, y float64) float64 { return math.Round(2 * math.Exp(-1000*(x-0.5)*(x-0.5))) },
	} {
		points := make([]SurfacePoint, 20_000)
		for i := range points {
			x, y := float64(i%141)/140, float64(i/141)/140
			points[i] = SurfacePoint{unit.Length(x), unit.Length(y), unit.Length(height(x, y)) * um}
		}
		frame, err := newPlaneFrame(points)
		if err != nil {
			t.Fatal(err)
		}
		few, err := frame.narrowest()
		if err != nil {
			t.Fatal(err)
		}
		all, err := frame.exchangeAll()
		if err != nil {
			t.Fatal(err)
		}
		near(t, name, few.half, all.half, 1e-12)
	}
}

func TestFlatnessLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 8))
	for range 60 {
		points := make([]SurfacePoint, 30)
		for i := range points {
			points[i] = SurfacePoint{unit.Length(random.Float64()), unit.Length(random.Float64()), unit.Length(random.NormFloat64()) * um}
		}
		zone, err := FlatnessOf(points, MinimumZone)
		if err != nil {
			t.Fatal(err)
		}
		least, err := FlatnessOf(points, LeastSquares)
		if err != nil {
			t.Fatal(err)
		}
		if zone.Value > least.Value*(1+1e-12) {
			t.Errorf("zone %g above least squares %g", float64(zone.Value), float64(least.Value))
		}
		c, s := math.Cos(0.7), math.Sin(0.7)
		for name, change := range map[string]func(SurfacePoint) SurfacePoint{
			"plane added": func(p SurfacePoint) SurfacePoint { p.Height += 3*um + p.X*2e-5 - p.Y*1e-5; return p },
			"turned over": func(p SurfacePoint) SurfacePoint { p.Height = -p.Height; return p },
			"rotated": func(p SurfacePoint) SurfacePoint {
				return SurfacePoint{unit.Length(c*float64(p.X) - s*float64(p.Y)), unit.Length(s*float64(p.X) + c*float64(p.Y)), p.Height}
			},
			"moved": func(p SurfacePoint) SurfacePoint { p.X += 12; p.Y -= 5; return p },
		} {
			moved := make([]SurfacePoint, len(points))
			for i, p := range points {
				moved[i] = change(p)
			}
			again, err := FlatnessOf(moved, MinimumZone)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(float64(again.Value/zone.Value)-1) > 1e-9 {
				t.Errorf("%s: zone = %g, was %g", name, float64(again.Value), float64(zone.Value))
			}
		}
	}
}

// TestFlatnessUncertainty compares the first order with small random changes.
func TestFlatnessUncertainty(t *testing.T) {
	points := gridOf([][]float64{{0, 3, 5, 4.3}, {2, 6, 9.7, 7}, {4.4, 8, 12, 9}, {3, 6.1, 8, 7.2}})
	covariance := mat.NewSymDense(len(points), nil)
	for i := range points {
		covariance.SetSym(i, i, 1e-18*float64(1+i%3))
	}
	random := newNormal(51)
	for _, reference := range []Reference{LeastSquares, MinimumZone} {
		f, err := Surface{points, covariance}.Flatness(reference)
		if err != nil {
			t.Fatal(err)
		}
		var squares float64
		const draws = 3000
		for range draws {
			drawn := append([]SurfacePoint(nil), points...)
			for i := range drawn {
				drawn[i].Height += unit.Length(random() * math.Sqrt(covariance.At(i, i)))
			}
			g, err := FlatnessOf(drawn, reference)
			if err != nil {
				t.Fatal(err)
			}
			squares += math.Pow(float64(g.Value-f.Value), 2)
		}
		if sd := math.Sqrt(squares / draws); math.Abs(sd/float64(f.U)-1) > 0.06 {
			t.Errorf("%v: scatters by %g, first order says %g", reference, sd, float64(f.U))
		}
	}
}

func TestFlatnessErrors(t *testing.T) {
	good := gridOf(plate25)
	bad := append([]SurfacePoint(nil), good...)
	bad[3].Y = unitNaN
	tests := []struct {
		name      string
		points    []SurfacePoint
		reference Reference
		want      string
	}{
		{"none", nil, MinimumZone, "got 0"},
		{"two", good[:2], MinimumZone, "at least 3 points, got 2"},
		{"one line", good[:5], MinimumZone, "in one line"},
		{"not a number", bad, LeastSquares, "surface point 4"},
		{"end points", good, EndPoints, "no end points to measure flatness from"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := FlatnessOf(test.points, test.reference)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
	if _, err := PlaneThrough(good[0], good[1], good[2]); err == nil {
		t.Error("no error from three points in one line")
	}
	if _, err := FlatnessFrom(nil, Plane{}); err == nil {
		t.Error("no error from no points")
	}
	if _, err := (Surface{good, mat.NewSymDense(2, nil)}).Flatness(MinimumZone); err == nil {
		t.Error("no error from a covariance of another size")
	}
}

func FuzzFlatness(f *testing.F) {
	f.Add(0.0, 1.0, 2.0, 0.0, 1e300, -1.0, 3.0, 0.5)
	f.Add(0.0, 1e-300, 1.0, 1e-9, 1.0, 1.0, 1.0, 1.0)
	f.Add(1.0, 1.0, 1.0, 1.0, 0.0, 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, x0, x1, y0, y1, z0, z1, z2, z3 float64) {
		points := []SurfacePoint{{unit.Length(x0), unit.Length(y0), unit.Length(z0)}, {unit.Length(x1), unit.Length(y0), unit.Length(z1)},
			{unit.Length(x1), unit.Length(y1), unit.Length(z2)}, {unit.Length(x0), unit.Length(y1), unit.Length(z3)}, {unit.Length(y0), unit.Length(x0), 0}}
		for _, reference := range []Reference{MinimumZone, LeastSquares} {
			f, err := FlatnessOf(points, reference)
			if err == nil && (!finite(float64(f.Value)) || f.Value < 0) {
				t.Errorf("%v of %v = %v", reference, points, f)
			}
		}
	})
}

func BenchmarkFlatZone(b *testing.B) {
	for _, n := range []int{100_000, 1_000_000} {
		for name, height := range map[string]func(x, y, noise float64) float64{
			"rough": func(x, y, noise float64) float64 { return 20e-6*math.Sin(3*x)*y + 1e-6*noise },
			"bowl":  func(x, y, _ float64) float64 { return 20e-6 * (x*x + y*y) }, // all on the hull
		} {
			b.Run(fmt.Sprintf("%s-%d", name, n), func(b *testing.B) {
				random := rand.New(rand.NewPCG(5, 6))
				points := make([]SurfacePoint, n)
				for i := range points {
					x, y := random.Float64(), random.Float64()
					points[i] = SurfacePoint{unit.Length(x), unit.Length(y), unit.Length(height(x, y, random.NormFloat64()))}
				}
				b.ReportAllocs()
				for b.Loop() {
					if _, err := FlatnessOf(points, MinimumZone); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
