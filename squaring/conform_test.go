package squaring

import (
	"math"
	"testing"
)

// Source: JCGM 106:2012, clause 7, one-sided limit -5.40 V, -5.47 V measured, u
// 0.05 V: 0.92 (from memory; recomputed 0.9192433).
func TestConformance(t *testing.T) {
	p, err := Tolerance{Low: math.Inf(-1), High: -5.40}.Conformance(-5.47, 0.05)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one-sided", p, 0.9192433, 1e-7)
	// JCGM 106 table of z: 0.80 0.84162, 0.90 1.28155, 0.95 1.64485, 0.99
	// 2.32635, 0.999 3.09023 (recomputed).
	for p, z := range map[float64]float64{0.80: 0.84162, 0.90: 1.28155, 0.95: 1.64485, 0.99: 2.32635, 0.999: 3.09023} {
		got, err := Tolerance{Low: math.Inf(-1), High: z}.Conformance(0, 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "table of z", got, p, 2e-6)
	}
}

// A squareness limit of 0.020 mm over 300, u 0.002, constructed: at 0.017 the
// chance is 0.9331928; 95 % is reached at 0.0167103; a guard band of 2 u leaves
// 0.016, with 0.977250 at the limit.
func TestGuardBand(t *testing.T) {
	limit := Tolerance{Low: math.Inf(-1), High: 0.020}
	p, err := limit.Conformance(0.017, 0.002)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "at 0.017", p, 0.9331928, 1e-7)
	if p, err = limit.Conformance(0.0167103, 0.002); err != nil {
		t.Fatal(err)
	}
	near(t, "at 0.0167103", p, 0.95, 1e-6)
	drawn, err := limit.Accept(2, 0.002)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "accept to", drawn.High, 0.016, 1e-15)
	if p, err = limit.Conformance(drawn.High, 0.002); err != nil {
		t.Fatal(err)
	}
	near(t, "at the guard band", p, 0.977250, 1e-6)
	if _, err := Within(0.003).Accept(2, 0.002); err == nil {
		t.Error("a guard band wider than the tolerance was accepted")
	}
}

// Process N(1500, 0.12), tolerance +/- 0.2, u 0.02: inputs in part from memory,
// results recomputed by 30-figure integration.
func TestGlobalRisks(t *testing.T) {
	tolerance := Tolerance{Low: 1499.8, High: 1500.2}
	for _, test := range []struct{ accept, consumer, producer float64 }{{0.2, 0.0111435, 0.0157411}, {0.16, 0.000256467, 0.0931212}} {
		r, err := tolerance.GlobalRisks(Tolerance{Low: 1500 - test.accept, High: 1500 + test.accept}, 1500, 0.12, 0.02)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "conforming", r.Conforming, 0.904419, 1e-6)
		near(t, "consumer", r.Consumer, test.consumer, 1e-6)
		near(t, "producer", r.Producer, test.producer, 1e-6)
	}
}

// Far in the tail nothing cancels, and a mirrored tolerance gives the same.
func TestConformanceLaws(t *testing.T) {
	p, err := Tolerance{Low: 0, High: 1}.Conformance(-8, 1)
	if err != nil {
		t.Fatal(err)
	}
	if !(p > 6e-16 && p < 6.3e-16) {
		t.Errorf("eight sigma out: %v", p)
	}
	for _, v := range []float64{-3, -0.2, 0.4, 2} {
		a, err := Tolerance{Low: -1, High: 0.5}.Conformance(v, 0.7)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Tolerance{Low: -0.5, High: 1}.Conformance(-v, 0.7)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mirrored", a, b, 1e-14)
	}
}

func TestConformRejects(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, tolerance := range []Tolerance{{}, {Low: 1}, {Low: nan, High: 1}, {Low: inf, High: inf}} {
		if _, err := tolerance.Conformance(0, 1); err == nil {
			t.Errorf("%+v accepted", tolerance)
		}
		if _, err := tolerance.Accept(1, 1); err == nil {
			t.Errorf("%+v accepted", tolerance)
		}
	}
	for _, in := range [][2]float64{{nan, 1}, {0, 0}, {0, -1}, {0, nan}, {0, inf}} {
		if _, err := Within(1).Conformance(in[0], in[1]); err == nil {
			t.Errorf("value %v, u %v accepted", in[0], in[1])
		}
	}
	if _, err := Within(1).GlobalRisks(Within(1), nan, 1, 1); err == nil {
		t.Error("a mean that is not a number was accepted")
	}
	if _, err := Within(1).GlobalRisks(Within(1), 0, 0, 1); err == nil {
		t.Error("no process deviation accepted")
	}
}
