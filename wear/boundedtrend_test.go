package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func TestBoundedTrend(t *testing.T) {
	trend, err := FitBoundedTrend(gauged())
	if err != nil {
		t.Fatal(err)
	}
	for i, pair := range [][2]float64{
		{float64(trend.Start / um), -1.488251}, {float64(trend.Rate) * 1e6, 2.222238}, {float64(trend.Scatter / um), 0.442691}, {trend.LogLikelihood, -3.873212},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-5 {
			t.Errorf("value %d = %.7g, want %.7g", i, pair[0], pair[1])
		}
	}
	if !(trend.RateLow < trend.Rate && trend.Rate < trend.RateHigh) {
		t.Errorf("rate %g outside %g to %g", float64(trend.Rate), float64(trend.RateLow), float64(trend.RateHigh))
	}
	// Eight readings, three of them bounds, count as six: Student's factor for four
	// degrees of freedom is 2.78, and the curvature divides the scatter by six and
	// not four: 2.78 sqrt(6/4) = 3.4 either way, and not even.
	if r := float64((trend.RateHigh - trend.RateLow) / trend.RateU); r < 6.5 || r > 8.5 {
		t.Errorf("interval is %.2f standard uncertainties wide", r)
	}
}

// TestBoundedTrendWithoutBounds agrees with least squares.
func TestBoundedTrendWithoutBounds(t *testing.T) {
	var bounded []BoundedDepth
	var exact []MeasuredDepth
	for i, w := range []float64{2.0, 6.1, 8.7, 12.2, 16.1, 22.4} {
		clock, depth := unit.Time([]float64{0, 1.5, 3, 4, 6, 8}[i]), unit.Length(w)*um
		bounded, exact = append(bounded, BoundedDepth{clock, depth, depth}), append(exact, MeasuredDepth{Clock: clock, Depth: depth})
	}
	a, err := FitBoundedTrend(bounded)
	if err != nil {
		t.Fatal(err)
	}
	b, err := ForecastLine(exact)
	if err != nil {
		t.Fatal(err)
	}
	start, _ := b.At(0)
	if math.Abs(float64(a.Rate/b.Rate)-1) > 1e-7 || math.Abs(float64(a.Start/start)-1) > 1e-6 {
		t.Errorf("line %g + %g t, least squares %g + %g t", float64(a.Start), float64(a.Rate), float64(start), float64(b.Rate))
	}
	// Maximum likelihood divides by n, least squares by n-2.
	if want := float64(b.Scatter) * math.Sqrt(4.0/6); math.Abs(float64(a.Scatter)/want-1) > 1e-6 {
		t.Errorf("scatter %g, want %g", float64(a.Scatter), want)
	}
}

func TestBoundedTrendErrors(t *testing.T) {
	inf := unit.Length(math.Inf(1))
	for _, test := range []struct {
		name     string
		readings []BoundedDepth
		want     string
	}{
		{"two", gauged()[:2], "at least 3 readings, got 2"},
		{"one exact", gauged()[:4], "2 exact readings at different clocks, got 1"},
		{"order", append(gauged(), BoundedDepth{9, 2, 1}), "reading 9"},
		{"clock", append(gauged(), BoundedDepth{unit.Time(math.NaN()), 1, 1}), "reading 9"},
		{"not a number", append(gauged(), BoundedDepth{9, unitNaN, inf}), "reading 9"},
		{"one clock", []BoundedDepth{{1, 1e-6, 1e-6}, {1, 2e-6, 2e-6}, {1, 3e-6, 3e-6}}, "too few places"},
		{"no scatter", []BoundedDepth{{1, 1e-6, 1e-6}, {2, 2e-6, 2e-6}, {3, 3e-6, 3e-6}}, "wear: trend with bounds"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := FitBoundedTrend(test.readings)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func FuzzBoundedTrend(f *testing.F) {
	f.Add(1.0, 2.0, 3.0, 4.0, 8e-6, 9e-6, 12e-6, 5e-6)
	f.Add(0.0, 1e-300, 1e300, 1.0, 1e-9, 1e9, 0.0, -5e-6)
	f.Fuzz(func(t *testing.T, t0, t1, t2, t3, a, b, c, floor float64) {
		exact := func(clock, depth float64) BoundedDepth {
			return BoundedDepth{unit.Time(clock), unit.Length(depth), unit.Length(depth)}
		}
		trend, err := FitBoundedTrend([]BoundedDepth{exact(t0, a), exact(t1, b), exact(t2, c), {unit.Time(t3), unit.Length(math.Inf(-1)), unit.Length(floor)}})
		if err == nil && (!finite(float64(trend.Start)) || !finite(float64(trend.Rate)) || !finite(float64(trend.RateLow))) {
			t.Errorf("trend %+v", trend)
		}
	})
}

// TestWhatForgettingBoundsDoes: the two shortcuts with the same gauge, by ordinary
// least squares, constructed: leaving the bounds out, and writing the floor.
func TestWhatForgettingBoundsDoes(t *testing.T) {
	for _, test := range []struct {
		name        string
		first       int
		start, rate float64
	}{{"left out", 4, -0.54, 2.08}, {"written as the floor", 1, 1.532143, 1.734524}} {
		var r []MeasuredDepth
		for i, w := range []float64{5, 5, 5, 8.1, 9.4, 12.2, 13.6, 16.4} {
			if i+1 >= test.first {
				r = append(r, MeasuredDepth{Clock: unit.Time(i+1) * testYear, Depth: unit.Length(w) * um})
			}
		}
		f, err := ForecastLine(r)
		if err != nil {
			t.Fatal(err)
		}
		start, _ := f.At(0)
		near(t, test.name+": start", float64(start/um), test.start, 1e-5)
		near(t, test.name+": rate", float64(f.Rate/MicrometrePerYear), test.rate, 1e-5)
	}
}
