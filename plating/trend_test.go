package plating

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/stat"
)

// logReadings returns the log's runs with their pH, leaving out the ones named.
func logReadings(t *testing.T, leaveOut ...int) []EfficiencyReading {
	t.Helper()
	ph := []float64{4.0, 4.0, 4.1, 4.2, 4.3, 4.1, 4.3, 4.4, 4.6, 4.8, 5.0, 4.0, 4.0, 4.0}
	var readings []EfficiencyReading
next:
	for i, row := range platingLog() {
		for _, out := range leaveOut {
			if row.run == out {
				continue next
			}
		}
		w, err := benchRun(row.amps, row.minutes, row.before, row.after).Efficiency()
		if err != nil {
			t.Fatal(err)
		}
		readings = append(readings, EfficiencyReading{w.Efficiency, w.U, ph[i]})
	}
	return readings
}

func TestTrendOfTheLog(t *testing.T) {
	// The hidden truth falls from 95.0 to 95.5 % at pH 4.0 to 91.5 % at 5.0
	// and is back at 95 after correction. Run 5 was burnt at 9 A/dm2.
	trend, err := EfficiencyTrend(logReadings(t, 5))
	if err != nil {
		t.Fatal(err)
	}
	for ph, truth := range map[float64]float64{4.0: 0.952, 4.6: 0.935, 5.0: 0.915} {
		got, u := trend.At(ph)
		if math.Abs(got-truth) > 2*u+0.004 {
			t.Errorf("pH %v: %v +- %v, truth %v", ph, got, u, truth)
		}
	}
	if trend.Slope+2*trend.SlopeU > 0 {
		t.Errorf("slope %v +- %v per pH, want one surely below zero", trend.Slope, trend.SlopeU)
	}
	if len(trend.Residuals) != 13 {
		t.Errorf("%d residuals, want 13", len(trend.Residuals))
	}
}

func TestChangeOfStateOfTheLog(t *testing.T) {
	// The sleeves at pH 4.2 and 4.8 (runs 4 and 10): truth -2.5 %. The single
	// coupons at pH 5.0 and 4.0 (runs 11 and 12): truth +3.5 %, which one
	// coupon each does not show.
	all := logReadings(t)
	sleeves, err := CompareStates(all[3:4], all[9:10])
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(sleeves.Change+0.025) > 2*sleeves.U || sleeves.InUncertainties() > -2 {
		t.Errorf("sleeves: %v +- %v, want -0.025, told from nothing", sleeves.Change, sleeves.U)
	}
	coupons, err := CompareStates(all[10:11], all[11:12])
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(coupons.Change-0.035) > 2*coupons.U || coupons.InUncertainties() > 2 {
		t.Errorf("coupons: %v +- %v, want 0.035, not told from nothing", coupons.Change, coupons.U)
	}
}

func TestPoolAgainstDraws(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	us := []float64{0.02, 0.01, 0.005, 0.02}
	const n = 20000
	sum, squares := 0.0, 0.0
	for range n {
		var r []EfficiencyReading
		for _, u := range us {
			r = append(r, EfficiencyReading{0.95 + u*random.NormFloat64(), u, 0})
		}
		p, err := PoolEfficiency(r)
		if err != nil {
			t.Fatal(err)
		}
		sum += p.Efficiency - 0.95
		squares += (p.Efficiency - 0.95) * (p.Efficiency - 0.95)
	}
	// 1/u^2 sums to 2500 + 10000 + 40000 + 2500.
	if want := 1 / math.Sqrt(55000); math.Abs(sum/n) > 0.05*want || !scalar.EqualWithinRel(math.Sqrt(squares/n), want, 0.02) {
		t.Errorf("draws: off by %v, scatter %v; want 0 and %v", sum/n, math.Sqrt(squares/n), want)
	}
}

func TestTrendAgainstLeastSquares(t *testing.T) {
	readings := logReadings(t)
	trend, err := EfficiencyTrend(readings)
	if err != nil {
		t.Fatal(err)
	}
	var x, y, w []float64
	for _, r := range readings {
		x, y, w = append(x, r.Explain), append(y, r.Efficiency), append(w, 1/(r.U*r.U))
	}
	intercept, slope := stat.LinearRegression(x, y, w, false)
	if !scalar.EqualWithinRel(trend.Slope, slope, 1e-9) || !scalar.EqualWithinRel(trend.Level-trend.Slope*trend.Centre, intercept, 1e-9) {
		t.Errorf("line %v + %v x, want %v + %v x", trend.Level-trend.Slope*trend.Centre, trend.Slope, intercept, slope)
	}
}

func TestEnlargement(t *testing.T) {
	// Two runs four standard uncertainties apart: chi-squared 8 for one degree
	// of freedom.
	p, err := PoolEfficiency([]EfficiencyReading{{0.90, 0.01, 0}, {0.94, 0.01, 0}})
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinRel(p.ChiSquared, 8, 1e-9) || !scalar.EqualWithinRel(p.U, 0.01/math.Sqrt2*math.Sqrt(8), 1e-9) {
		t.Errorf("chi-squared %v, u %v; want 8 and 0.02", p.ChiSquared, p.U)
	}
	one, err := PoolEfficiency([]EfficiencyReading{{0.90, 0.01, 0}})
	if err != nil || one.U != 0.01 || one.Efficiency != 0.90 {
		t.Errorf("one run pools to %v +- %v, %v", one.Efficiency, one.U, err)
	}
}

func TestTrendErrors(t *testing.T) {
	good := EfficiencyReading{0.95, 0.01, 4}
	tests := []struct {
		name    string
		call    func() error
		wantErr string
	}{
		{"none", func() error { _, err := PoolEfficiency(nil); return err }, "0 runs are too few"},
		{"NaN", func() error { _, err := PoolEfficiency([]EfficiencyReading{{math.NaN(), 1, 1}}); return err }, "run 1 is not finite"},
		{"no uncertainty", func() error { _, err := PoolEfficiency([]EfficiencyReading{{0.9, 0, 1}}); return err }, "standard uncertainty of run 1 is 0"},
		{"tiny", func() error { _, err := PoolEfficiency([]EfficiencyReading{{0.9, 1e-200, 1}}); return err }, "too small"},
		{"second state", func() error { _, err := CompareStates([]EfficiencyReading{good}, nil); return err }, "second state"},
		{"two for a line", func() error { _, err := EfficiencyTrend([]EfficiencyReading{good, good}); return err }, "needs 3"},
		{"no spread", func() error { _, err := EfficiencyTrend([]EfficiencyReading{good, good, good}); return err }, "no line can be drawn"},
	}
	for _, test := range tests {
		if err := test.call(); err == nil || !strings.Contains(err.Error(), test.wantErr) {
			t.Errorf("%s: error = %v, want one with %q", test.name, err, test.wantErr)
		}
	}
	if (Difference{}).InUncertainties() != 0 {
		t.Error("the zero difference must be zero uncertainties")
	}
}

func BenchmarkEfficiencyTrend(b *testing.B) {
	random := rand.New(rand.NewPCG(11, 12))
	var r []EfficiencyReading
	for range 1000 {
		r = append(r, EfficiencyReading{0.95 + 0.01*random.NormFloat64(), 0.01, 4 + random.Float64()})
	}
	for b.Loop() {
		if _, err := EfficiencyTrend(r); err != nil {
			b.Fatal(err)
		}
	}
}
