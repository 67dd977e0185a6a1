package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

const atmosphere unit.Pressure = 101325

func TestHydrogen(t *testing.T) {
	// A-F1, CODATA 2018, read: R = 8.314462618 J/(mol K).
	if !scalar.EqualWithinRel(gasConstant, 8.314462618, 1e-9) {
		t.Errorf("gas constant = %v, want 8.314462618 J/(mol K)", gasConstant)
	}
	// A-C4: 5 % of 3 A over 2 h: 5.597e-3 mol, 0.1369 L at 25 degrees Celsius
	// and 101325 Pa. Computed, 0.1 %.
	h, err := HydrogenFromCharge(6*AmpereHour, 0.95, Celsius(25), atmosphere)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(h.Amount); !scalar.EqualWithinRel(got, 5.597e-3, 1e-3) {
		t.Errorf("amount = %v mol, want 5.597e-3", got)
	}
	if got := float64(h.Volume / unit.Litre); !scalar.EqualWithinRel(got, 0.1369, 1e-3) {
		t.Errorf("volume = %v L, want 0.1369", got)
	}
	// 13.85 A h at 5 %: 0.026 mol of acid (exercise, two figures).
	h, err = HydrogenFromCharge(13.85*AmpereHour, 0.95, Celsius(25), atmosphere)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(h.Acid); !scalar.EqualWithinAbs(got, 0.026, 0.0005) {
		t.Errorf("acid = %v mol, want 0.026", got)
	}
}

func TestHydrogenErrors(t *testing.T) {
	for name, call := range map[string]func() error{
		"charge":      func() error { _, err := HydrogenFromCharge(-1, 0.95, 300, atmosphere); return err },
		"efficiency":  func() error { _, err := HydrogenFromCharge(1, 95, 300, atmosphere); return err },
		"temperature": func() error { _, err := HydrogenFromCharge(1, 0.95, 0, atmosphere); return err },
		"pressure":    func() error { _, err := HydrogenFromCharge(1, 0.95, 300, unit.Pressure(math.NaN())); return err },
	} {
		if call() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
