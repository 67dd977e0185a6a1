package squaring

import (
	"math"
	"testing"
)

// overBar turns differences in mm over the 190 mm bar into slopes.
func overBar(values ...float64) []Slope {
	slopes := make([]Slope, len(values))
	for i, v := range values {
		slopes[i] = Slope(v / 190)
	}
	return slopes
}

// rounding of a difference of two readings of a 0.002 mm dial read to half a
// division.
const barRounding = Slope(0.001 / 190 / 3.4641016 * 1.4142136)

// The demonstration shop's tightening trials: printed means and deviations, and
// the made-up truth within three standard uncertainties of the mean.
func TestSummariseShift(t *testing.T) {
	tests := []struct {
		name                  string
		trials                []Slope
		mean, deviation       float64
		trueMean, trueScatter float64
	}{
		{"round, side", overBar(0.010, 0.012, 0.006, 0.012, 0.011, 0.012), 55.3, 12.3, 46, 14},
		{"round, nod", overBar(-0.008, -0.010, -0.009, -0.014, -0.018, -0.017), -66.7, 22.5, -70, 20},
		{"crosswise, side", overBar(0.003, 0.004, 0.002, 0.004, 0.003, 0.003), 16.7, 4.0, 12, 8},
		{"crosswise, nod", overBar(-0.004, -0.004, -0.003, -0.008, -0.006, -0.004), -25.4, 9.7, -28, 10},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s, err := SummariseShift(test.trials, barRounding)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "mean", s.Mean.Microradians(), test.mean, 0.05)
			near(t, "deviation", s.Deviation.Microradians(), test.deviation, 0.05)
			near(t, "true mean", s.Mean.Microradians(), test.trueMean, 3*s.MeanU.Microradians())
			if low, high := s.DeviationLow.Microradians(), s.DeviationHigh.Microradians(); !(low < test.trueScatter && test.trueScatter < high) {
				t.Errorf("deviation lies between %.1f and %.1f, truth %.0f", low, high, test.trueScatter)
			}
		})
	}
}

// Exercise: crosswise nod mean -25.4 +/- 4.0, leave +0.005 mm over 190 mm
// standing, and expect a single result inside +/- 27 (95 %, 5 degrees).
func TestSetOff(t *testing.T) {
	s, err := SummariseShift(overBar(-0.004, -0.004, -0.003, -0.008, -0.006, -0.004), barRounding)
	if err != nil {
		t.Fatal(err)
	}
	off := s.SetOff()
	near(t, "set-off mm over 190", float64(off.Slope.Rise(190*mm)/mm), 0.005, 0.0005)
	near(t, "u", off.Uncertainty.Microradians(), 4.0, 0.1)
	half, err := s.Interval(0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "prediction", half.Microradians(), 27, 0.5)
	near(t, "prediction by formula", half.Microradians(), 2.5706*s.Deviation.Microradians()*math.Sqrt(7.0/6), 0.01)
	if s.DegreesOfFreedom != 5 {
		t.Errorf("%v degrees of freedom, want 5", s.DegreesOfFreedom)
	}
}

// Round against crosswise: both axes shift differently, and Welch's formula by
// hand for the nod: difference -41.3, u 10.0.
func TestCompareShifts(t *testing.T) {
	round, err := SummariseShift(overBar(-0.008, -0.010, -0.009, -0.014, -0.018, -0.017), 0)
	if err != nil {
		t.Fatal(err)
	}
	cross, err := SummariseShift(overBar(-0.004, -0.004, -0.003, -0.008, -0.006, -0.004), 0)
	if err != nil {
		t.Fatal(err)
	}
	d, err := CompareShifts(round, cross)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "difference", d.Mean.Microradians(), -41.2, 0.1)
	near(t, "u", d.MeanU.Microradians(), math.Hypot(22.5, 9.7)/math.Sqrt(6), 0.05)
	if d.Chance > 0.01 || d.Chance < 0.0005 {
		t.Errorf("chance %v, want about 0.004", d.Chance)
	}
	swapped, err := CompareShifts(cross, round)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "swapped", float64(swapped.Mean), float64(-d.Mean), 1e-18)
	near(t, "swapped scatter chance", swapped.ScatterChance, d.ScatterChance, 1e-9)
	same, err := CompareShifts(cross, cross)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "alike", same.Chance, 1, 1e-12)
}

func TestShiftRoundingRules(t *testing.T) {
	s, err := SummariseShift(overBar(0.004, 0.004, 0.004), barRounding)
	if err != nil {
		t.Fatal(err)
	}
	if s.Deviation != barRounding || !math.IsInf(s.DegreesOfFreedom, 1) || s.DeviationHigh != 0 {
		t.Errorf("trials on one mark: %+v", s)
	}
}

func TestShiftRejects(t *testing.T) {
	nan := Slope(math.NaN())
	for _, in := range [][]Slope{nil, {1}, {1, nan}, {1, Slope(math.Inf(1))}} {
		if s, err := SummariseShift(in, 0); err == nil {
			t.Errorf("%v: %+v, want an error", in, s)
		}
	}
	if _, err := SummariseShift([]Slope{1, 2}, -1); err == nil {
		t.Error("a negative rounding was accepted")
	}
	if _, err := CompareShifts(Shift{}, Shift{}); err == nil {
		t.Error("nothing was compared with nothing")
	}
	if half, err := (Shift{}).Interval(0.95); err != nil || half != 0 {
		t.Errorf("interval of nothing: %v, %v", half, err)
	}
}

// Source: definition, Phi(r/s) - Phi(-r/s), to the digits printed with the
// exercises: r = s 0.68, half 0.38, quarter 0.20; residual 9 of 8 0.74, 4 0.38.
func TestChances(t *testing.T) {
	tests := []struct{ residual, want, tol float64 }{{8, 0.682689, 1e-6}, {4, 0.382925, 1e-6}, {2, 0.197413, 1e-6}, {9, 0.74, 0.005}}
	for _, test := range tests {
		for _, sign := range []float64{1, -1} {
			c, err := NextTry{Residual: Slope(sign*test.residual) * Microradian, Scatter: 8 * Microradian}.Chances()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "better", c.Better, test.want, test.tol)
			if c.Worth != (test.want > 0.5) {
				t.Errorf("residual %v: worth %v", test.residual, c.Worth)
			}
		}
	}
	near(t, "break", NextTry{Scatter: 8 * Microradian}.Break().Microradians(), 8*0.67449, 1e-4)
	// Whatever the degrees of freedom, the chance is even there.
	for _, degrees := range []float64{0, 1, 5, 40} {
		try := NextTry{Scatter: 8 * Microradian, DegreesOfFreedom: degrees}
		try.Residual = try.Break()
		c, err := try.Chances()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "chance at the break", c.Better, 0.5, 1e-9)
	}
}

// An uncertain residual: against P(|N| < |R|) for two independent normals, which
// is (2/pi) atan(sqrt(r-variance)/sqrt(s-variance)) when both are centred.
func TestChancesUncertainResidual(t *testing.T) {
	for _, u := range []float64{2, 8, 20} {
		c, err := NextTry{ResidualU: Slope(u), Scatter: 8}.Chances()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "better", c.Better, 2/math.Pi*math.Atan(u/8), 2e-4)
	}
	// A residual that is nearly exact gives the exact one's answer.
	c, err := NextTry{Residual: 9, ResidualU: 0.01, Scatter: 8}.Chances()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "better", c.Better, 0.739, 1e-3)
}

func TestChancesTolerance(t *testing.T) {
	c, err := NextTry{Residual: 30, ResidualU: 5, Scatter: 8, DegreesOfFreedom: 5, Tolerance: 20, Aim: 4}.Chances()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "within by t", c.Within, below(2, 5)-below(-3, 5), 1e-12)
	near(t, "within now", c.WithinNow, 0.02275, 1e-4)
	if !c.Worth {
		t.Error("a try that is likely better was refused")
	}
	tries, ok := TryChances{Within: 0.5}.TriesNeeded(0.95)
	if !ok || tries != 5 {
		t.Errorf("tries %d, %v, want 5", tries, ok)
	}
	if _, ok := (TryChances{}).TriesNeeded(0.95); ok {
		t.Error("no chance, yet tries suffice")
	}
	// Within the tolerance already: leave it, however likely a better try is.
	c, err = NextTry{Residual: 15, ResidualU: 1, Scatter: 8, Tolerance: 20}.Chances()
	if err != nil {
		t.Fatal(err)
	}
	if c.Worth {
		t.Errorf("good enough, yet worth another try: %+v", c)
	}
}

func TestChancesReject(t *testing.T) {
	nan := Slope(math.NaN())
	for _, n := range []NextTry{{}, {Scatter: -1}, {Scatter: nan}, {Scatter: 1, Residual: nan}, {Scatter: 1, ResidualU: -1}, {Scatter: 1, Aim: nan},
		{Scatter: 1, Tolerance: -1}, {Scatter: 1, DegreesOfFreedom: -1}, {Scatter: 1, DegreesOfFreedom: math.NaN()}} {
		if c, err := n.Chances(); err == nil {
			t.Errorf("%+v: %+v, want an error", n, c)
		}
	}
}
