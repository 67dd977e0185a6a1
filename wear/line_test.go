package wear

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// norris is the data set Norris of the NIST Statistical Reference Datasets
// (StRD), linear regression, lower level of difficulty: 36 pairs, as read in
// several open test suites.
var norris = [][2]float64{
	{0.2, 0.1}, {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2}, {226.5, 228.1},
	{666.3, 668.5}, {996.3, 998.5}, {448.6, 449.1}, {777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3},
	{0.6, 0.1}, {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8},
	{556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3},
	{0.3, 0.6}, {556.8, 557.6}, {339.1, 339.3}, {887.2, 888.0}, {999.0, 998.5}, {779.0, 778.9},
	{11.1, 10.2}, {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2}, {0.5, 0.2},
}

func norrisLine(t *testing.T) Forecast {
	t.Helper()
	readings := make([]MeasuredDepth, len(norris))
	for i, xy := range norris {
		readings[i] = MeasuredDepth{Clock: unit.Time(xy[0]), Depth: unit.Length(xy[1])}
	}
	f, err := ForecastLine(readings)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestLineOnNorris(t *testing.T) {
	f := norrisLine(t)
	start, startU := f.At(0)
	for _, test := range []struct {
		name      string
		got, want float64
	}{ // NIST certifies 15 digits; nine are asked for
		{"intercept", float64(start), -0.262323073774029},
		{"its standard uncertainty", float64(startU), 0.232818234301152},
		{"slope", float64(f.Rate), 1.00211681802045},
		{"its standard uncertainty ", float64(f.RateU), 0.000429796848199937},
		{"scatter", float64(f.Scatter), 0.884796396144373},
		{"R squared", f.line.rSquared(), 0.999993745883712},
		{"degrees of freedom", f.Freedom, 34},
	} {
		t.Run(test.name, func(t *testing.T) {
			if math.Abs(test.got/test.want-1) > 1e-9 {
				t.Errorf("got %.15g, want %.15g", test.got, test.want)
			}
		})
	}
}

// TestLinePredictsOnNorris holds the limits around the Norris line against values
// computed from its certified statistics and Student's t; six digits.
func TestLinePredictsOnNorris(t *testing.T) {
	f := norrisLine(t)
	near(t, "t for 34 degrees of freedom", coverageFactor(0.95, 34), 2.032245, 1e-6)
	for _, test := range []struct{ x, fit, mean, reading float64 }{
		{500, 500.79609, 0.307889, 1.824292},
		{1100, 1102.06618, 0.665913, 1.917468},
	} {
		clock := unit.Time(test.x)
		low, high := f.Interval(clock, 0.95, 0)
		near(t, "fit", float64(low+high)/2, test.fit, 1e-5)
		near(t, "half width of the line", float64(high-low)/2, test.mean, 1e-5)
		low, high = f.Interval(clock, 0.95, f.Scatter)
		near(t, "half width of a reading", float64(high-low)/2, test.reading, 1e-5)
	}
}

// handbookLine returns forty readings that have the line, the scatter and the spread
// of the pressure and temperature data of the NIST/SEMATECH e-Handbook of
// Statistical Methods. The data themselves were not at hand. Their mean temperature
// and its spread follow from two of the three standard deviations of the line in
// section 4.5.1.2 (from memory); the third is left to be found.
func handbookLine(t *testing.T) Forecast {
	t.Helper()
	const n, scatter = 40, 4.299099
	square := func(fit float64) float64 { return math.Pow(fit/scatter, 2) - 1.0/n }
	ratio := math.Sqrt(square(1.2441620) / square(1.1976162))
	mean := (65 + 25*ratio) / (1 + ratio)
	spread := (mean - 25) / math.Sqrt(square(1.1976162)*n)
	r := make([]MeasuredDepth, n)
	for i := range r {
		// Both signs of place and of residual in all four pairings: the residuals
		// have neither a mean nor a slope.
		x, e := mean+spread*float64(2*(i%2)-1), scatter*math.Sqrt((n-2.0)/n)*float64(2*(i/2%2)-1)
		r[i] = MeasuredDepth{Clock: unit.Time(x), Depth: unit.Length(7.749695 + 3.930123*x + e)}
	}
	f, err := ForecastLine(r)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestPredictionOfHandbook(t *testing.T) {
	f := handbookLine(t)
	near(t, "scatter", float64(f.Scatter), 4.299099, 1e-9)
	at, _ := f.At(47)
	holdsRow(t, "handbook-at-47", float64(at))
	for id, x := range map[string]unit.Time{"25": 25, "45": 45, "65": 65} {
		_, u := f.At(x)
		holdsRow(t, "handbook-fit-"+id, float64(u))
		low, high := f.Interval(x, 0.95, f.Scatter)
		holdsRow(t, "handbook-half-"+id, float64(high-low)/2)
		holdsRow(t, "handbook-reading-"+id, float64(high-low)/2/coverageFactor(0.95, f.Freedom))
	}
}
