package wear

import (
	"math"
	"strings"
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

func norrisTrend(t *testing.T) Trend {
	t.Helper()
	readings := make([]DatedDepth, len(norris))
	for i, xy := range norris {
		readings[i] = DatedDepth{unit.Time(xy[0]), unit.Length(xy[1])}
	}
	trend, err := FitTrend(readings)
	if err != nil {
		t.Fatal(err)
	}
	return trend
}

func TestTrendOnNorris(t *testing.T) {
	trend := norrisTrend(t)
	tests := []struct {
		name      string
		got, want float64
		relative  float64 // NIST certifies 15 digits; nine are asked for
	}{
		{"intercept", float64(trend.Start), -0.262323073774029, 1e-9},
		{"its standard uncertainty", float64(trend.StartU), 0.232818234301152, 1e-9},
		{"slope", float64(trend.Rate), 1.00211681802045, 1e-9},
		{"its standard uncertainty ", float64(trend.RateU), 0.000429796848199937, 1e-9},
		{"scatter", float64(trend.Scatter), 0.884796396144373, 1e-9},
		{"R squared", trend.RSquared, 0.999993745883712, 1e-9},
		{"degrees of freedom", trend.Freedom, 34, 1e-15},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if math.Abs(test.got/test.want-1) > test.relative {
				t.Errorf("got %.15g, want %.15g", test.got, test.want)
			}
		})
	}
}

// TestTrendPrediction holds the limits around the Norris line against values
// computed from its certified statistics and Student's t; six digits.
func TestTrendPrediction(t *testing.T) {
	trend := norrisTrend(t)
	factor := trend.Coverage(0.95)
	if math.Abs(factor-2.032245) > 1e-6 {
		t.Errorf("t for 34 degrees of freedom = %.7f, want 2.032245", factor)
	}
	for _, test := range []struct{ x, fit, mean, reading float64 }{
		{500, 500.79609, 0.307889, 1.824292},
		{1100, 1102.06618, 0.665913, 1.917468},
	} {
		depth, lineU, readingU := trend.At(unit.Time(test.x))
		for _, pair := range [][2]float64{{float64(depth), test.fit}, {factor * float64(lineU), test.mean}, {factor * float64(readingU), test.reading}} {
			if math.Abs(pair[0]-pair[1]) > 1e-5 {
				t.Errorf("at %g: got %.7g, want %.7g", test.x, pair[0], pair[1])
			}
		}
	}
}

func TestTrendErrors(t *testing.T) {
	tests := []struct {
		name     string
		readings []DatedDepth
		want     string
	}{
		{"two", []DatedDepth{{0, 0}, {1, 1}}, "at least 3 readings, got 2"},
		{"one date", []DatedDepth{{5, 0}, {5, 1}, {5, 2}}, "all have the clock 5 s"},
		{"not a number", []DatedDepth{{0, 0}, {1, unitNaN}, {2, 2}}, "reading 2"},
		{"too large", []DatedDepth{{0, 1e308}, {1, -1e308}, {2, 1e308}}, "too large"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := FitTrend(test.readings)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
	var none Trend
	if depth, u, _ := none.At(3); depth != 0 || u != 0 || !math.IsNaN(none.Coverage(0.95)) {
		t.Error("the zero trend says something")
	}
}
