package squaring

import (
	"math"
	"testing"

	"example.org/thouspan/internal/refdata"
)

// row returns a published figure.
func row(t *testing.T, id string) refdata.Row {
	t.Helper()
	r, ok := refdata.Find(id)
	if !ok {
		t.Fatalf("there is no row %q", id)
	}
	return r
}

// JCGM 100:2008, 4.4.5: limits of 96 and 104 degrees. The full figures are 4 over
// root three and over root six.
func TestSpreadUncertainty(t *testing.T) {
	for _, test := range []struct {
		spread Spread
		id     string
		want   float64
	}{{RectangularSpread, "gum-limits-rectangular", 2.309401}, {TriangularSpread, "gum-limits-triangular", 1.632993}} {
		got := test.spread.Uncertainty(4)
		near(t, string(test.spread), got, test.want, 1e-6)
		if r := row(t, test.id); !r.Pass(got) {
			t.Errorf("%s: %v, published %v", test.spread, got, r.Value)
		}
	}
	if got := NormalSpread.Uncertainty(4); got != 4 {
		t.Errorf("normal: %v, want the width", got)
	}
	if got := FixedSpread.Uncertainty(4) + Spread("").Uncertainty(4); got != 0 {
		t.Errorf("fixed and none: %v, want 0", got)
	}
}

// JCGM 100:2008, G.4.2. The end gauge of H.1 takes three of its degrees of freedom
// from such judgements: 25 %, 10 % and 50 %.
func TestDegreesFromReliability(t *testing.T) {
	for id, reliability := range map[string]float64{"gum-reliability-10": 0.10, "gum-reliability-25": 0.25, "gum-reliability-50": 0.50} {
		got, err := DegreesFromReliability(reliability)
		if err != nil {
			t.Fatal(err)
		}
		if r := row(t, id); !r.Pass(got) {
			t.Errorf("%g: %v, published %v", reliability, got, r.Value)
		}
	}
	known, err := DegreesFromReliability(0)
	if err != nil || !math.IsInf(known, 1) {
		t.Errorf("known for certain: %v, %v", known, err)
	}
	// Infinite degrees weigh in a budget as those that are not given.
	near(t, "budget", Budget{{"certain", 3, known}, {"readings", 4, 9}}.DegreesOfFreedom(), Budget{{"certain", 3, 0}, {"readings", 4, 9}}.DegreesOfFreedom(), 1e-9)
	for _, bad := range []float64{-0.1, 1.1, math.NaN(), math.Inf(1)} {
		if nu, err := DegreesFromReliability(bad); err == nil {
			t.Errorf("DegreesFromReliability(%v) = %v, want an error", bad, nu)
		}
	}
}

// What the formula says is what readings do: an uncertainty from n readings
// scatters by one over root 2 (n - 1), near enough from ten on.
func TestReliabilityOfReadings(t *testing.T) {
	for _, nu := range []float64{10, 30, 100} {
		// The standard deviation of chi over its mean, by the gamma function.
		first, _ := math.Lgamma((nu + 1) / 2)
		second, _ := math.Lgamma(nu / 2)
		mean := math.Sqrt2 * math.Exp(first-second)
		relative := math.Sqrt(nu-mean*mean) / mean
		got, err := DegreesFromReliability(relative)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "degrees", got, nu, 0.05*nu) // first order: the rest is of the order of one degree's quarter
	}
}

// A triangular share is the sum of two rectangular ones of half its width, drawn
// alone or through a normal number: a quarter lies beyond half the width.
func TestTriangularShare(t *testing.T) {
	one := OrderShare{Source: "triangle", Spread: TriangularSpread, Width: 2}
	half := OrderShare{Source: "half", Spread: RectangularSpread, Width: 1}
	// The third pair only sends the draws through correlated numbers.
	other := OrderShare{Source: "other", Spread: NormalSpread, Width: 0}
	for name, o := range map[string]Order{
		"drawn":      {Tolerance: Within(1), Shares: []OrderShare{one}},
		"sum of two": {Tolerance: Within(1), Shares: []OrderShare{half, half}},
		"correlated": {Tolerance: Within(1), Shares: []OrderShare{one, other}, Correlations: []Correlation{{0, 1, 0.5}}},
	} {
		got, err := o.Trials(TrialOptions{Trials: 400_000, Seed: 7})
		if err != nil {
			t.Fatal(err)
		}
		// Four standard deviations of 400,000 trials.
		near(t, name+", within half the width", got.Conforming, 0.75, 4*math.Sqrt(0.75*0.25/400_000))
		near(t, name+", deviation", got.Deviation, 2/math.Sqrt(6), 0.003)
		if got.Sorted[0] < -2 || got.Sorted[len(got.Sorted)-1] > 2 {
			t.Errorf("%s: drawn from %v to %v, beyond the width", name, got.Sorted[0], got.Sorted[len(got.Sorted)-1])
		}
	}
}

// The series agrees with what is known in closed form: a normal and a rectangular
// share r root(pi/3), two rectangular ones 6/pi asin(q/2) where the series is quick.
func TestHermiteSeries(t *testing.T) {
	normal, rectangular := NormalSpread.hermite(), RectangularSpread.hermite()
	near(t, "first of the normal", normal[0], 1, 1e-9)
	for _, c := range normal[1:] {
		near(t, "later of the normal", c, 0, 1e-9)
	}
	for _, q := range []float64{-0.9, -0.3, 0.2, 0.8} {
		near(t, "normal and rectangular", seriesAt(normal, rectangular, q), q*math.Sqrt(3/math.Pi), 1e-8)
		near(t, "two rectangular", seriesAt(rectangular, rectangular, q), 6/math.Pi*math.Asin(q/2), 1e-5)
	}
	triangular := TriangularSpread.hermite()
	near(t, "variance of the triangle", seriesAt(triangular, triangular, 1), 1, 1e-5)
}
