package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func arcsec(values ...float64) []Slope {
	s := make([]Slope, len(values))
	for i, v := range values {
		s[i] = Slope(v) * ArcSecond
	}
	return s
}

// jack is a constructed plate of 800 by 600 mm, foot spacing 100 mm, read to
// 0.1 arc second; there is no publication to match.
func jack() PlateLines {
	return PlateLines{
		SWtoNE: arcsec(18.5, 17.8, 17.1, 16.8, 17.5, 19.7, 21.6, 21.6, 20.8, 20.0),
		NWtoSE: arcsec(14.4, 13.8, 13.3, 13.0, 12.8, 13.3, 16.0, 18.1, 17.9, 16.2),
		SWtoSE: arcsec(15.7, 15.4, 15.6, 16.6, 18.1, 20.4, 21.4, 20.8),
		NWtoNE: arcsec(6.7, 6.4, 6.8, 8.1, 10.0, 11.1, 11.7, 11.4),
		SWtoNW: arcsec(16.8, 16.1, 15.5, 14.7, 14.2, 13.6),
		SEtoNE: arcsec(10.3, 10.0, 9.6, 9.0, 8.6, 7.6),
		WtoE:   arcsec(6.9, 6.3, 6.0, 6.7, 8.7, 11.9, 13.6, 12.5),
		StoN:   arcsec(8.3, 8.1, 9.1, 9.1, 8.1, 6.8),
	}
}

// heightAt returns the height of the survey's point at x, y in mm.
func heightAt(t *testing.T, s PlateSurvey, x, y float64) float64 {
	t.Helper()
	for _, p := range s.Points {
		if math.Abs(float64(p.X/mm)-x) < 1e-6 && math.Abs(float64(p.Y/mm)-y) < 1e-6 {
			return float64(p.Height / um)
		}
	}
	t.Fatalf("no point at %g, %g mm", x, y)
	return 0
}

func TestClassicalPlate(t *testing.T) {
	s, err := SurveyPlateClassical(800*mm, 600*mm, jack(), 0.1*ArcSecond)
	if err != nil {
		t.Fatal(err)
	}
	// Heights above the lowest point, and closures, worked by hand with the
	// classical method; a thousandth of a micrometre.
	for i, want := range []float64{-0.096963, -0.048481} {
		if got := float64(s.Closure[i] / um); math.Abs(got-want) > 1e-5 {
			t.Errorf("closure %d = %.6f um, want %.6f", i, got, want)
		}
	}
	lowest := heightAt(t, s, 480, 240)
	for _, want := range []struct{ x, y, z float64 }{
		{0, 0, 4.645}, {80, 60, 4.334}, {400, 300, 0.766}, {800, 600, 4.645}, {0, 600, 4.208}, {800, 0, 4.208},
		{480, 240, 0}, {100, 0, 3.475}, {400, 0, 0.208}, {500, 0, 0.202}, {400, 600, 0.499}, {0, 300, 5.857}, {800, 300, 5.566}, {100, 300, 4.766}, {400, 500, 1.154},
	} {
		got := heightAt(t, s, want.x, want.y) - lowest
		if want.x != 0 && want.x != 800 && want.y == 300 && want.x != 400 || want.x == 400 && want.y == 500 {
			// The middle lines: laid between the sides, so off by up to the closure.
			if math.Abs(got-want.z) > 0.1 {
				t.Errorf("height at %g, %g = %.3f um, want %.3f", want.x, want.y, got, want.z)
			}
			continue
		}
		if math.Abs(got-want.z) > 0.001 {
			t.Errorf("height at %g, %g = %.3f um, want %.3f", want.x, want.y, got, want.z)
		}
	}
	var high, low unit.Length
	for _, p := range s.Points {
		high, low = max(high, p.Height), min(low, p.Height)
	}
	if got := float64((high - low) / um); math.Abs(got-5.85655) > 0.001 {
		t.Errorf("classical flatness = %.5f um, want 5.85655", got)
	}
	// Over the 45 points of the six outer lines.
	var outer []SurfacePoint
	for _, p := range s.Points {
		side := atEnd(p.X, 0.8) || atEnd(p.Y, 0.6)
		diagonal := math.Abs(float64(p.X)*0.6-float64(p.Y)*0.8) < 1e-9 || math.Abs(float64(p.X)*0.6+float64(p.Y)*0.8-0.48) < 1e-9
		if side || diagonal {
			outer = append(outer, p)
		}
	}
	if len(outer) != 45 {
		t.Fatalf("%d outer points, want 45", len(outer))
	}
	for reference, want := range map[Reference]float64{LeastSquares: 5.70033, MinimumZone: 5.61729} {
		f, err := FlatnessOf(outer, reference)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(f.Value / um); math.Abs(got-want) > 0.001 {
			t.Errorf("%v = %.5f um, want %.5f", reference, got, want)
		}
	}
}

func TestPlateByLeastSquares(t *testing.T) {
	u := 0.05 * ArcSecond
	least, err := SurveyPlate(800*mm, 600*mm, jack(), u)
	if err != nil {
		t.Fatal(err)
	}
	classical, err := SurveyPlateClassical(800*mm, 600*mm, jack(), u)
	if err != nil {
		t.Fatal(err)
	}
	if least.Freedom != 2 || len(least.Points) != 55 {
		t.Errorf("%d degrees of freedom over %d points, want 2 over 55", least.Freedom, len(least.Points))
	}
	var sumLeast, sumClassical float64
	for i := range least.Points {
		if d := float64((least.Points[i].Height - classical.Points[i].Height) / um); math.Abs(d) > 0.15 {
			t.Errorf("point %d: the two ways differ by %.3f um", i, d)
		}
		sumLeast += least.Covariance.At(i, i)
		sumClassical += classical.Covariance.At(i, i)
	}
	if !(sumLeast < sumClassical) {
		t.Errorf("mean variance by least squares %g, classical %g: it must be less", sumLeast, sumClassical)
	}
	f, err := least.Flatness(MinimumZone)
	if err != nil {
		t.Fatal(err)
	}
	if f.U <= 0 || math.Abs(float64(f.Value/um)-5.6) > 0.2 {
		t.Errorf("flatness = %g um, standard uncertainty %g", float64(f.Value/um), float64(f.U/um))
	}
}

// TestPlateRecoversASurface reads a known surface along the eight lines, each
// with a zero of its own, and compares.
func TestPlateRecoversASurface(t *testing.T) {
	surface := func(x, y float64) float64 { return 30e-6*x*x - 20e-6*x*y + 15e-6*y*y*y }
	var lines PlateLines
	p := plate{length: 0.9, width: 0.5, lines: lines.lines()}
	counts := [8]int{10, 10, 8, 8, 6, 6, 8, 6}
	for k := range p.lines {
		l := &p.lines[k]
		n := counts[k]
		base := math.Hypot((l.x1-l.x0)*p.length, (l.y1-l.y0)*p.width) / float64(n)
		for i := range n {
			z := func(i int) float64 {
				t := float64(i) / float64(n)
				return surface((l.x0+t*(l.x1-l.x0))*p.length, (l.y0+t*(l.y1-l.y0))*p.width)
			}
			l.slopes = append(l.slopes, Slope((z(i+1)-z(i))/base+1e-4*float64(k-3)))
		}
	}
	lines = PlateLines{p.lines[0].slopes, p.lines[1].slopes, p.lines[2].slopes, p.lines[3].slopes, p.lines[4].slopes, p.lines[5].slopes, p.lines[6].slopes, p.lines[7].slopes}
	for name, work := range map[string]func(unit.Length, unit.Length, PlateLines, Slope) (PlateSurvey, error){"least squares": SurveyPlate, "classical": SurveyPlateClassical} {
		s, err := work(0.9, 0.5, lines, 0)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(s.Closure[0])) > 1e-12 || math.Abs(float64(s.Closure[1])) > 1e-12 {
			t.Errorf("%s: closures %v of exact readings", name, s.Closure)
		}
		miss := make([]SurfacePoint, len(s.Points))
		for i, q := range s.Points {
			miss[i] = SurfacePoint{q.X, q.Y, q.Height - unit.Length(surface(float64(q.X), float64(q.Y)))}
		}
		f, err := FlatnessOf(miss, LeastSquares)
		if err != nil {
			t.Fatal(err)
		}
		if f.Value > 1e-12 {
			t.Errorf("%s: the surface comes out wrong by %g m beyond a plane", name, float64(f.Value))
		}
	}
}

// TestPlateCovariance compares the stated uncertainty with repeated surveys.
func TestPlateCovariance(t *testing.T) {
	u := 0.2 * ArcSecond
	for name, work := range map[string]func(unit.Length, unit.Length, PlateLines, Slope) (PlateSurvey, error){"least squares": SurveyPlate, "classical": SurveyPlateClassical} {
		random := newNormal(61)
		base, err := work(800*mm, 600*mm, jack(), u)
		if err != nil {
			t.Fatal(err)
		}
		const draws = 400
		squares := make([]float64, len(base.Points))
		var scatter float64
		for range draws {
			drawn := jack()
			for _, line := range []*[]Slope{&drawn.SWtoNE, &drawn.NWtoSE, &drawn.SWtoSE, &drawn.NWtoNE, &drawn.SWtoNW, &drawn.SEtoNE, &drawn.WtoE, &drawn.StoN} {
				for i := range *line {
					(*line)[i] += Slope(random()) * u
				}
			}
			s, err := work(800*mm, 600*mm, drawn, u)
			if err != nil {
				t.Fatal(err)
			}
			for i := range s.Points {
				squares[i] += math.Pow(float64(s.Points[i].Height-base.Points[i].Height), 2) / draws
			}
			scatter += float64(s.Scatter*s.Scatter) / draws
		}
		for i := range squares {
			// The scatter of 400 draws is known to 3.5 %.
			if want := math.Sqrt(base.Covariance.At(i, i)); math.Abs(math.Sqrt(squares[i])-want) > 0.15*want+1e-12 {
				t.Errorf("%s: point %d scatters by %g, stated %g", name, i, math.Sqrt(squares[i]), want)
			}
		}
		if name == "least squares" && math.Abs(math.Sqrt(scatter)/float64(u)-1) > 0.12 {
			t.Errorf("scatter found %g, given %g", math.Sqrt(scatter), float64(u))
		}
	}
}

func TestPlateErrors(t *testing.T) {
	odd, wild := jack(), jack()
	odd.WtoE = odd.WtoE[:7]
	wild.StoN[2] = Slope(math.NaN())
	tests := []struct {
		name          string
		length, width unit.Length
		lines         PlateLines
		u             Slope
		want          string
	}{
		{"no length", 0, 1, jack(), 0, "a side of the plate is 0 mm"},
		{"width not a number", 1, unitNaN, jack(), 0, "a side of the plate is NaN mm"},
		{"odd", 1, 1, odd, 0, "line WtoE of the plate has 7 steps"},
		{"empty", 1, 1, PlateLines{}, 0, "line SWtoNE of the plate has 0 steps"},
		{"reading", 1, 1, wild, 0, "line StoN of the plate, step 3"},
		{"uncertainty", 1, 1, jack(), -1, "standard uncertainty of a reading on the plate is -1"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			for _, work := range []func(unit.Length, unit.Length, PlateLines, Slope) (PlateSurvey, error){SurveyPlate, SurveyPlateClassical} {
				_, err := work(test.length, test.width, test.lines, test.u)
				if err == nil || !strings.Contains(err.Error(), test.want) {
					t.Errorf("error = %v, want one about %q", err, test.want)
				}
			}
		})
	}
}

func BenchmarkSurveyPlate(b *testing.B) {
	lines := jack()
	for b.Loop() {
		if _, err := SurveyPlate(800*mm, 600*mm, lines, 1e-7); err != nil {
			b.Fatal(err)
		}
	}
}
