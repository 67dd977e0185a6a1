package squaring

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// Arithmetic on the coefficients' definition; inputs ours.
func TestGrowth(t *testing.T) {
	tests := []struct {
		name         string
		warming      Warming
		growth, u    float64 // um
		growthMicron float64 // microinches
	}{
		{"steel 300 mm, 5 K", Warming{Length: 300 * mm, Expansion: SteelExpansion, Change: 5 * unit.Kelvin,
			ExpansionU: 1e-6 / Expansion(math.Sqrt(3)), ChangeU: 0.5 * unit.Kelvin}, 17.25, 1.930188, 0},
		{"steel 12 in, 5 K", Warming{Length: 12 * Inch, Expansion: SteelExpansion, Change: 5 * unit.Kelvin}, 17.526, 0, 690},
		{"aluminium 250 mm, -3 K", Warming{Length: 250 * mm, Expansion: AluminiumExpansion, Change: -3 * unit.Kelvin}, -17.325, 0, 0},
		{"steel 100 mm, 1 K", Warming{Length: 100 * mm, Expansion: SteelExpansion, Change: 1 * unit.Kelvin}, 1.15, 0, 0},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			growth, u, err := test.warming.Growth()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "growth um", float64(growth/um), test.growth, 1e-9)
			near(t, "u um", float64(u/um), test.u, 1e-6)
			if test.growthMicron != 0 {
				near(t, "growth uin", float64(growth/Inch)*1e6, test.growthMicron, 1e-9)
			}
		})
	}
}

// 500 mm of column, 200 mm deep, 1 K warmer in front, 10 per million: 25 urad,
// 5.157 arc seconds. Derived for a gradient that falls evenly.
func TestColumnNod(t *testing.T) {
	s, err := ColumnNod(500*mm, 200*mm, 10e-6, 1*unit.Kelvin)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "urad", s.Microradians(), 25, 1e-9)
	near(t, "arc seconds", s.Arcseconds(), 5.157, 5e-4)
}

func TestWarmingRejects(t *testing.T) {
	nan := math.NaN()
	for _, w := range []Warming{
		{Length: -1 * mm}, {Length: unit.Length(nan)}, {Length: 1, Expansion: Expansion(nan)},
		{Length: 1, ExpansionU: -1}, {Length: 1, ChangeU: unit.Temperature(nan)},
		{Length: 1, Change: unit.Temperature(math.Inf(1))}, {Length: 1e300, Expansion: 1e10, Change: 1e10},
	} {
		if growth, u, err := w.Growth(); err == nil {
			t.Errorf("%+v: growth %v, u %v, want an error", w, float64(growth), float64(u))
		}
	}
	if _, err := ColumnNod(1, 0, SteelExpansion, 1); err == nil {
		t.Error("a column of no depth was accepted")
	}
}
