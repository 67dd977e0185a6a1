package squaring

import (
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// four returns four like shares of mean 0 and standard uncertainty 1.
func four(spread Spread) Order {
	o := Order{Tolerance: Within(3)}
	width := 1.0
	if spread == RectangularSpread {
		width = math.Sqrt(3)
	}
	for range 4 {
		o.Shares = append(o.Shares, OrderShare{Source: "input", Spread: spread, Width: width})
	}
	return o
}

// JCGM 101:2008, 9.2.2 and 9.2.3 (from memory, recomputed): four inputs of
// uncertainty 1. A million trials settle an end of the interval to about 0.01.
func TestFourInputs(t *testing.T) {
	for _, test := range []struct {
		spread Spread
		high   float64
	}{{NormalSpread, 3.91993}, {RectangularSpread, 3.879407}} {
		o := four(test.spread)
		f, err := o.Forecast()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(f.Uncertainty-2) > 1e-12 || f.Mean != 0 || math.Abs(f.Parts[2]-0.25) > 1e-12 {
			t.Errorf("%s: u %g, mean %g, part %g, want 2, 0 and 0.25", test.spread, f.Uncertainty, f.Mean, f.Parts[2])
		}
		got, err := o.Trials(TrialOptions{Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.High-test.high) > 0.015 || math.Abs(got.Low+test.high) > 0.015 || math.Abs(got.Deviation-2) > 0.006 {
			t.Errorf("%s: [%g, %g], deviation %g, want +-%g and 2", test.spread, got.Low, got.High, got.Deviation, test.high)
		}
		if got.ShortHigh-got.ShortLow > got.High-got.Low {
			t.Errorf("%s: the shortest range %g is longer than the middle one %g", test.spread, got.ShortHigh-got.ShortLow, got.High-got.Low)
		}
		if test.spread == NormalSpread && math.Abs(got.Conforming-f.Conforming) > 4*got.ConformingU {
			t.Errorf("conforming %g by trials, %g by the law", got.Conforming, f.Conforming)
		}
	}
}

// JCGM 101:2008, 9.4, comparison loss (seen, recomputed): the sum of two squares
// with uncertainty 0.005, where the law of propagation fails at zero.
func TestSumOfSquares(t *testing.T) {
	squares := func(x []float64) float64 { return x[0]*x[0] + x[1]*x[1] }
	for _, test := range []struct{ x1, lawU, mean, deviation float64 }{{0, 0, 50e-6, 50e-6}, {0.010, 100e-6, 150e-6, 111.803e-6}} {
		o := Order{Model: squares, Tolerance: Tolerance{Low: math.Inf(-1), High: 149.787e-6},
			Shares: []OrderShare{{"x1", test.x1, NormalSpread, 0.005}, {"x2", 0, NormalSpread, 0.005}}}
		f, err := o.Forecast()
		if err != nil {
			t.Fatal(err)
		}
		got, err := o.Trials(TrialOptions{Seed: 2})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(f.Uncertainty-test.lawU) > 1e-12 || math.Abs(f.Mean-test.x1*test.x1) > 1e-18 {
			t.Errorf("x1 = %g: law gives %g, u %g", test.x1, f.Mean, f.Uncertainty)
		}
		// One per cent: four standard deviations of a million trials.
		if math.Abs(got.Mean/test.mean-1) > 0.01 || math.Abs(got.Deviation/test.deviation-1) > 0.01 {
			t.Errorf("x1 = %g: trials give %g, deviation %g, want %g and %g", test.x1, got.Mean, got.Deviation, test.mean, test.deviation)
		}
		if test.x1 == 0 && (got.ShortLow > 0.5e-6 || math.Abs(got.ShortHigh-149.787e-6) > 1.5e-6 || math.Abs(got.Conforming-0.95) > 0.001) {
			t.Errorf("shortest range [%g, %g], want [0, 149.787e-6]; conforming %g, want 0.95", got.ShortLow, got.ShortHigh, got.Conforming)
		}
	}
}

// Equal seeds give equal results however many cores share the work, and other
// seeds others.
func TestTrialsReproduce(t *testing.T) {
	o := four(RectangularSpread)
	o.Correlations = []Correlation{{0, 1, 0.5}}
	run := func(cores int, seed uint64) Trials {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		got, err := o.Trials(TrialOptions{Trials: 50_001, Seed: seed, Inspection: Inspection{Uncertainty: 0.2, Accept: Within(2.5)}})
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	one, three, other := run(1, 7), run(3, 7), run(3, 8)
	if !slices.Equal(one.Sorted, three.Sorted) || one.Mean != three.Mean || one.Risks != three.Risks || one.Conforming != three.Conforming {
		t.Error("the number of cores changes the result")
	}
	if one.Mean == other.Mean {
		t.Error("another seed gives the same result")
	}
}

// The risks by trials are those of the integrals (JCGM 106:2012, 9.5, inputs in
// part from memory, computed): process N(0, 0.12), tolerance 0.2, u 0.02.
func TestTrialRisks(t *testing.T) {
	o := Order{Shares: []OrderShare{{"process", 0, NormalSpread, 0.12}}, Tolerance: Within(0.2)}
	for _, test := range []struct{ accept, consumer, producer float64 }{{0.2, 0.0111435, 0.0157411}, {0.16, 0.000256467, 0.0931212}} {
		got, err := o.Trials(TrialOptions{Seed: 3, Inspection: Inspection{Uncertainty: 0.02, Accept: Within(test.accept)}})
		if err != nil {
			t.Fatal(err)
		}
		// About four standard deviations of a million trials.
		if math.Abs(got.Risks.Consumer-test.consumer) > 3e-4 || math.Abs(got.Risks.Producer-test.producer) > 1e-3 || math.Abs(got.Risks.Conforming-0.904419) > 1.2e-3 {
			t.Errorf("accept %g: %+v, want consumer %g, producer %g", test.accept, got.Risks, test.consumer, test.producer)
		}
	}
}

// A one-sided tolerance: the Zener diode of JCGM 106:2012, clause 7 (from
// memory, recomputed), and the guard band built on a squareness tolerance.
func TestOrderOneSided(t *testing.T) {
	for _, test := range []struct{ high, value, u, want float64 }{{-5.40, -5.47, 0.05, 0.9192433}, {0.020, 0.017, 0.002, 0.9331928}, {0.020, 0.016, 0.002, 0.9772499}} {
		f, err := Order{Shares: []OrderShare{{"fixed", test.value, FixedSpread, 0}, {"doubt", 0, NormalSpread, test.u}},
			Tolerance: Tolerance{Low: math.Inf(-1), High: test.high}}.Forecast()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(f.Conforming-test.want) > 1e-7 {
			t.Errorf("limit %g, value %g: %.7f, want %.7f", test.high, test.value, f.Conforming, test.want)
		}
		if f.Largest != 1 || f.Parts[0] != 0 || f.Parts[1] != 1 {
			t.Errorf("parts %v, largest %d", f.Parts, f.Largest)
		}
	}
}

// Correlated shares come out as correlated as was asked, of whatever spread, and
// the law and the trials agree on the sum.
func TestCorrelatedShares(t *testing.T) {
	for _, spreads := range [][2]Spread{{NormalSpread, NormalSpread}, {RectangularSpread, RectangularSpread}, {NormalSpread, RectangularSpread},
		{TriangularSpread, TriangularSpread}, {NormalSpread, TriangularSpread}, {RectangularSpread, TriangularSpread}} {
		for _, r := range []float64{-1, -0.6, 0.3, 0.95, 1} {
			if spreads[0] != spreads[1] && math.Abs(r) == 1 {
				continue
			}
			o := Order{Tolerance: Within(1), Correlations: []Correlation{{1, 0, r}},
				Shares: []OrderShare{{"a", 0.1, spreads[0], 1}, {"b", -0.2, spreads[1], 2}}}
			f, err := o.Forecast()
			if err != nil {
				t.Fatal(err)
			}
			got, err := o.Trials(TrialOptions{Trials: 400_000, Seed: 4})
			if err != nil {
				t.Fatal(err)
			}
			a, b := o.Shares[0].Uncertainty(), o.Shares[1].Uncertainty()
			want := math.Sqrt(a*a + b*b + 2*r*a*b)
			if math.Abs(f.Uncertainty-want) > 1e-9 || math.Abs(got.Deviation-want) > 0.006*math.Hypot(a, b) || math.Abs(got.Mean+0.1) > 0.02 {
				t.Errorf("%v, r %g: u %g by the law, %g by trials, want %g; mean %g", spreads, r, f.Uncertainty, got.Deviation, want, got.Mean)
			}
		}
	}
}

// What to improve first: the large spread when centred, the offset when not.
func TestImproveFirst(t *testing.T) {
	o := Order{Tolerance: Within(10), Shares: []OrderShare{{"setting", 0, NormalSpread, 8}, {"dial", 0, RectangularSpread, 3}, {"ways", 1, FixedSpread, 0}}}
	f, err := o.Forecast()
	if err != nil {
		t.Fatal(err)
	}
	if f.Improve != 0 || f.ByValue || f.Largest != 0 {
		t.Errorf("improve %d, by value %v, largest %d; want the setting's spread", f.Improve, f.ByValue, f.Largest)
	}
	o.Shares[2].Value = 14
	if f, err = o.Forecast(); err != nil || f.Improve != 2 || !f.ByValue {
		t.Errorf("improve %d, by value %v (%v); want the ways' value", f.Improve, f.ByValue, err)
	}
	sum := 0.0
	for _, p := range f.Parts {
		sum += p
	}
	if math.Abs(sum-1) > 1e-12 {
		t.Errorf("the parts sum to %g", sum)
	}
	still := Order{Tolerance: Within(1), Shares: []OrderShare{{"fixed", 0.5, FixedSpread, 0}}}
	if f, err = still.Forecast(); err != nil || f.Conforming != 1 || f.Largest != -1 || f.Improve != -1 {
		t.Errorf("nothing spreads: %+v, %v", f, err)
	}
}

func TestOrderRefuses(t *testing.T) {
	nan := math.NaN()
	for want, change := range map[string]func(*Order){
		"tolerance runs":   func(o *Order) { o.Tolerance = Tolerance{} },
		"1 to 64":          func(o *Order) { o.Shares = nil },
		"value of share 2": func(o *Order) { o.Shares[1].Value = nan },
		"width of share 1": func(o *Order) { o.Shares[0].Width = -1 },
		"spread of":        func(o *Order) { o.Shares[0].Spread = "odd" },
		"between two":      func(o *Order) { o.Correlations = []Correlation{{0, 9, 0.1}} },
		"-1 and 1":         func(o *Order) { o.Correlations = []Correlation{{0, 1, nan}} },
		"contradict":       func(o *Order) { o.Correlations = []Correlation{{0, 1, 1}, {1, 2, 1}, {0, 2, -1}} },
		"not a finite":     func(o *Order) { o.Model = func([]float64) float64 { return nan } },
	} {
		o := four(NormalSpread)
		change(&o)
		if _, err := o.Forecast(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("forecast: %v, want a message with %q", err, want)
		}
		if _, err := o.Trials(TrialOptions{Trials: 1000}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("trials: %v, want a message with %q", err, want)
		}
	}
	for want, options := range map[string]TrialOptions{"1000 to": {Trials: 3}, "uncertainty of the inspection": {Inspection: Inspection{Uncertainty: -1}},
		"range of acceptance": {Inspection: Inspection{Uncertainty: 1}}} {
		if _, err := four(NormalSpread).Trials(options); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want a message with %q", err, want)
		}
	}
}

func BenchmarkTrials(b *testing.B) {
	o := four(NormalSpread)
	o.Shares = append(o.Shares, four(RectangularSpread).Shares...)
	for name, options := range map[string]TrialOptions{"chance": {}, "inspected": {Inspection: Inspection{Uncertainty: 0.3, Accept: Within(2.5)}}} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := o.Trials(options); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// JCGM 101:2008, clause 8 and examples 9.2 and 9.4 (from memory): the law stands
// for four normal shares, and for four rectangular ones too at one digit, 3.92
// against 3.88; it fails where the model is a sum of squares about zero.
func TestForecastAgainstTrials(t *testing.T) {
	four := func(spread Spread, width float64) Order {
		o := Order{Tolerance: Within(4)}
		for range 4 {
			o.Shares = append(o.Shares, OrderShare{Source: "x", Spread: spread, Width: width})
		}
		return o
	}
	squares := Order{Tolerance: Within(1e-4), Shares: []OrderShare{{"x", 0.010, NormalSpread, 0.005}, {"y", 0, NormalSpread, 0.005}},
		Model: func(x []float64) float64 { return x[0]*x[0] + x[1]*x[1] }}
	for _, test := range []struct {
		name  string
		order Order
		agree bool
	}{{"normal", four(NormalSpread, 1), true}, {"rectangular", four(RectangularSpread, math.Sqrt(3)), true}, {"squares", squares, false},
		{"fixed", Order{Tolerance: Within(1), Shares: []OrderShare{{"a", 0.3, FixedSpread, 0}}}, true}} {
		t.Run(test.name, func(t *testing.T) {
			law, err := test.order.Forecast()
			if err != nil {
				t.Fatal(err)
			}
			trials, err := test.order.Trials(TrialOptions{Trials: 100_000, Seed: 8})
			if err != nil {
				t.Fatal(err)
			}
			if v := law.Against(trials); v.Agree != test.agree {
				t.Errorf("%+v, want agreement %v", v, test.agree)
			}
		})
	}
}

// An inspection that refuses nothing lets every bad piece through, and keeps back no
// good one.
func TestInspectionThatRefusesNothing(t *testing.T) {
	o := Order{Tolerance: Within(1), Shares: []OrderShare{{"setting", 0, NormalSpread, 1}}}
	got, err := o.Trials(TrialOptions{Trials: 10_000, Seed: 3, Inspection: Inspection{Uncertainty: 0.1, Accept: Within(math.Inf(1))}})
	if err != nil {
		t.Fatal(err)
	}
	r := got.Risks
	if r.Producer != 0 || r.Conforming != got.Conforming || math.Abs(r.Consumer-(1-got.Conforming)) > 1e-12 {
		t.Errorf("risks %+v, conforming %g", r, got.Conforming)
	}
}

// Law and trials agree only when both ends do: half a unit in the first digit of an
// uncertainty of 1 is 0.5.
func TestAgainstEachEnd(t *testing.T) {
	law := Forecast{Uncertainty: 1}
	for _, test := range []struct {
		low, high float64
		want      bool
	}{{-1.96, 1.96, true}, {-2.4, 1.5, true}, {-2.6, 1.96, false}, {-1.96, 2.6, false}, {-1.3, 1.96, false}, {-1.96, 1.3, false}} {
		if v := law.Against(Trials{Low: test.low, High: test.high}); v.Agree != test.want || v.Tolerance != 0.5 {
			t.Errorf("trials from %g to %g: %+v, want agree %v", test.low, test.high, v, test.want)
		}
	}
}
