package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestPitchDiameterFactor(t *testing.T) {
	// A-T1: exact geometry, printed to five figures.
	tests := []struct{ degrees, want float64 }{
		{ISOThread, 4}, {WhitworthThread, 4.3314}, {TrapezoidalThread, 7.7274}, {AcmeThread, 7.9879},
	}
	for _, test := range tests {
		got, err := PitchDiameterFactor(test.degrees)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinAbs(got, test.want, 5e-5) {
			t.Errorf("factor at %v degrees = %v, want %v", test.degrees, got, test.want)
		}
	}
	for _, degrees := range []float64{0, -60, 180, math.NaN(), math.Inf(1)} {
		if _, err := PitchDiameterFactor(degrees); err == nil {
			t.Errorf("%v degrees: no error", degrees)
		}
	}
}

func TestGrowth(t *testing.T) {
	// A-T1: 10 um on the flanks of a 60 degree thread is 40 um. A-T2: 12.5 um
	// takes a 20.000 mm pin to 20.025 and a bore to 19.975. Exact.
	got, err := PitchDiameterGrowth(10*micrometre, ISOThread)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinAbs(float64(got/micrometre), 40, 1e-9) {
		t.Errorf("pitch diameter grows %v um, want 40", float64(got/micrometre))
	}
	pin, bore := 20*millimetre, 20*millimetre
	pin += DiameterGrowth(12.5 * micrometre)
	bore -= DiameterGrowth(12.5 * micrometre)
	if !scalar.EqualWithinAbs(float64(pin/millimetre), 20.025, 1e-9) || !scalar.EqualWithinAbs(float64(bore/millimetre), 19.975, 1e-9) {
		t.Errorf("pin %v and bore %v mm, want 20.025 and 19.975", float64(pin/millimetre), float64(bore/millimetre))
	}
	if _, err := PitchDiameterGrowth(-1*micrometre, ISOThread); err == nil {
		t.Error("a negative thickness: no error")
	}
	if _, err := FlankThicknessLimit(unit.Length(math.NaN()), ISOThread); err == nil {
		t.Error("an allowance that is no number: no error")
	}
}

func TestThumbScrewExercise(t *testing.T) {
	// M4 x 0.7 at 6g, allowance 0.022 mm (ISO 4042:1999, table 2, read in a
	// reproduction): 5.5 um, and 18.8 min at 1.5 A/dm2 and 95 %. Arithmetic,
	// rounded to 0.1.
	limit, err := FlankThicknessLimit(22*micrometre, ISOThread)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinAbs(float64(limit/micrometre), 5.5, 1e-9) {
		t.Errorf("limit = %v um, want 5.5", float64(limit/micrometre))
	}
	got, err := Nickel().Deposit().TimeFor(limit, 1.5*AmperePerSquareDecimetre, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinAbs(float64(got/minute), 18.8, 0.05) {
		t.Errorf("time = %v min, want 18.8", float64(got/minute))
	}
}
