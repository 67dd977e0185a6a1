package plating

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestBake(t *testing.T) {
	// A-H1: ASTM B850-98 (2009), read in a reproduction; and the hardness
	// guide beside it. Exact figures of the table.
	for tensile, hours := range map[float64]float64{1001: 8, 1100: 8, 1150: 10, 1401: 16, 1500: 16, 1550: 18, 1650: 20, 1800: 22} {
		b, err := BakeForTensile(unit.Pressure(tensile * 1e6))
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(b.Least) / 3600; !b.Needed || got != hours {
			t.Errorf("%v MPa: %v h, want %v", tensile, got, hours)
		}
	}
	for hardness, hours := range map[float64]float64{31: 8, 32: 8, 34: 10, 37: 12, 40: 14, 44: 16, 46: 18, 48: 20, 50: 22, 51: 22, 33: 10} {
		b, err := BakeForHardness(hardness)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(b.Least) / 3600; !b.Needed || got != hours {
			t.Errorf("%v HRC: %v h, want %v", hardness, got, hours)
		}
		if b.From != Celsius(190) || b.To != Celsius(220) {
			t.Errorf("%v HRC: %v to %v K, want 190 to 220 degrees Celsius", hardness, float64(b.From), float64(b.To))
		}
	}
	soft, err := BakeForHardness(20)
	if err != nil || soft.Needed || soft.Least != 0 {
		t.Errorf("20 HRC: %+v, %v; want no bake", soft, err)
	}
	weak, err := BakeForTensile(600e6)
	if err != nil || weak.Needed {
		t.Errorf("600 MPa: %+v, %v; want no bake", weak, err)
	}
	for _, hardness := range []float64{-1, 51.5, 60, 200, math.NaN()} {
		if _, err := BakeForHardness(hardness); err == nil {
			t.Errorf("%v HRC: no error", hardness)
		}
	}
	for _, strength := range []float64{0, -1, 1.9e9, math.NaN(), math.Inf(1)} {
		if _, err := BakeForTensile(unit.Pressure(strength)); err == nil {
			t.Errorf("%v Pa: no error", strength)
		}
	}
	if _, err := BakeForHardness(55); !strings.Contains(err.Error(), "specialist") {
		t.Errorf("55 HRC: %v, want it refused", err)
	}
}

func TestBakeNeverShortens(t *testing.T) {
	last := unit.Time(0)
	for hardness := 0.0; hardness <= 51; hardness += 0.25 {
		b, err := BakeForHardness(hardness)
		if err != nil {
			t.Fatal(err)
		}
		if b.Least < last {
			t.Errorf("%v HRC bakes %v s, less than softer steel", hardness, float64(b.Least))
		}
		last = b.Least
	}
}

func TestStressRelief(t *testing.T) {
	// A-H2: ISO 9587:2007, read: 31 HRC and more, and surface-hardened parts.
	for _, test := range []struct {
		hardness float64
		surface  bool
		want     bool
	}{{30, false, false}, {31, false, true}, {20, true, true}} {
		if got := StressReliefNeeded(test.hardness, test.surface); got != test.want {
			t.Errorf("%v HRC, surface hardened %v: %v, want %v", test.hardness, test.surface, got, test.want)
		}
	}
}

func TestSafetyLimits(t *testing.T) {
	// A-S1 and A-S3, read.
	want := []float64{0.015, 0.1, 1, 10} // mg/m3
	for i, l := range NickelAirLimits() {
		if got := float64(l.Limit) * 1e6; !scalar.EqualWithinRel(got, want[i], 1e-9) || l.Body == "" || l.Source == "" {
			t.Errorf("limit %d: %v mg/m3 by %q, want %v", i+1, got, l.Body, want[i])
		}
	}
	if got := float64(SewerNickelLimit()) * 1000; !scalar.EqualWithinRel(got, 3.98, 1e-9) {
		t.Errorf("sewer limit = %v mg/L, want 3.98", got)
	}
	dilution, err := DilutionToLimit(75*GramPerLitre, SewerNickelLimit())
	if err != nil || !scalar.EqualWithinRel(dilution, 75/3.98e-3, 1e-9) {
		t.Errorf("dilution = %v, %v; want %v", dilution, err, 75/3.98e-3)
	}
	// 30 m3 of air at 1 mg/m3 holds 30 mg, which is 0.4 mL of a 75 g/L bath.
	mist, err := MistToLimit(30, 75*GramPerLitre, 1*mgPerCubicMetre)
	if err != nil || !scalar.EqualWithinRel(float64(mist)*1e6, 0.4, 1e-9) {
		t.Errorf("mist = %v mL, %v; want 0.4", float64(mist)*1e6, err)
	}
}

func TestAirForHydrogen(t *testing.T) {
	// 2 A all to gas: 0.9 L/h at room temperature (arithmetic, rounded).
	flow, err := AirForHydrogen(2*unit.Ampere, 1, Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	if got := flow * 3.6e6; !scalar.EqualWithinAbs(got, 0.9, 0.01) {
		t.Errorf("hydrogen = %v L/h, want 0.9", got)
	}
	thin, err := AirForHydrogen(2*unit.Ampere, HydrogenLowerLimit/4, Celsius(20))
	if err != nil || !scalar.EqualWithinRel(thin, 100*flow, 1e-9) {
		t.Errorf("air for 1 %% = %v, %v; want a hundred times the gas", thin, err)
	}
	for name, call := range map[string]func() error{
		"fraction": func() error { _, err := AirForHydrogen(1, 0, 300); return err },
		"current":  func() error { _, err := AirForHydrogen(-1, 0.01, 300); return err },
		"limit":    func() error { _, err := DilutionToLimit(1, 0); return err },
		"room":     func() error { _, err := MistToLimit(0, 1, 1); return err },
	} {
		if call() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
