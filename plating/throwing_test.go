package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
)

func TestThrowingPower(t *testing.T) {
	// A-D17: exact, printed in percent to 0.001.
	tests := []struct{ k, m, haringBlum, heatley, field float64 }{
		{5, 5, 0, 0, 0},
		{5, 4, 20, 25, 14.286},
		{5, 2, 60, 75, 60},
		{5, 1, 80, 100, 100},
	}
	for _, test := range tests {
		got, err := ThrowingPowerFromMasses(test.k, test.m)
		if err != nil {
			t.Fatal(err)
		}
		for name, pair := range map[string][2]float64{"Haring-Blum": {got.HaringBlum, test.haringBlum}, "Heatley": {got.Heatley, test.heatley}, "Field": {got.Field, test.field}} {
			if !scalar.EqualWithinAbs(100*pair[0], pair[1], 5e-4) {
				t.Errorf("K %v, M %v, %s = %v %%, want %v", test.k, test.m, name, 100*pair[0], pair[1])
			}
		}
	}
}

func TestCurrentRatio(t *testing.T) {
	// A-D18: exact, K 5.
	for wagner, want := range map[float64]float64{0: 5, 1: 3, 10: 1.3636} {
		got, err := CurrentRatio(5, wagner)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinAbs(got, want, 5e-5) {
			t.Errorf("Wa %v: ratio %v, want %v", wagner, got, want)
		}
	}
}

func TestThrowingErrors(t *testing.T) {
	for _, pair := range [][2]float64{{1, 1}, {0, 1}, {5, 0}, {5, -1}, {math.NaN(), 1}, {5, math.Inf(1)}, {1.5, 0.4}} {
		if _, err := ThrowingPowerFromMasses(pair[0], pair[1]); err == nil {
			t.Errorf("ratios %v: no error", pair)
		}
	}
	for _, pair := range [][2]float64{{1, 1}, {5, -1}, {5, math.NaN()}} {
		if _, err := CurrentRatio(pair[0], pair[1]); err == nil {
			t.Errorf("ratio and Wagner number %v: no error", pair)
		}
	}
}
