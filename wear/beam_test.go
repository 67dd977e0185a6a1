package wear

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// TestSagShape holds the coefficients of w L^4/(E I) against values derived by
// double integration of the bending moment; the figure for beams on their ends,
// 5/384, and those for the Airy and the Bessel points are the textbooks'.
func TestSagShape(t *testing.T) {
	for _, test := range []struct {
		name              string
		a, end, mid, span float64
	}{
		{"ends", 0, 0, 5.0 / 384, 5.0 / 384},
		{"Airy", Airy, -8.309811e-5, 5.163801e-4, 5.994782e-4},
		{"Bessel", Bessel, 1.831121e-4, 3.256630e-4, 3.313054e-4},
		{"quarter", 0.25, 1.139323e-3, -1.627604e-4, 1.302083e-3},
	} {
		high, low := math.Inf(-1), math.Inf(1)
		for i := range 2001 {
			y := sagShape(1, test.a, float64(i)/2000)
			high, low = math.Max(high, y), math.Min(low, y)
		}
		for _, pair := range [][2]float64{{sagShape(1, test.a, 0), test.end}, {sagShape(1, test.a, 1), test.end}, {sagShape(1, test.a, 0.5), test.mid}, {high - low, test.span}} {
			if math.Abs(pair[0]-pair[1]) > 1e-7 {
				t.Errorf("%s: got %.9g, want %.9g", test.name, pair[0], pair[1])
			}
		}
		if y := sagShape(1, test.a, test.a); math.Abs(y) > 1e-15 {
			t.Errorf("%s: sag at the support = %g", test.name, y)
		}
	}
}

func TestBeamSag(t *testing.T) {
	iron := Beam{Length: 1, Width: 25 * mm, Height: 60 * mm, Stiffness: 110e9, Density: 7200}
	places := make([]unit.Length, 11)
	for i := range places {
		places[i] = unit.Length(i) / 10
	}
	sag, err := BeamSag(iron, Airy, places)
	if err != nil {
		t.Fatal(err)
	}
	// Constructed: straightedge of 25 by 60 mm iron on its Airy points, um.
	want := []float64{-0.1778, -0.1689, -0.0352, 0.4200, 0.9069, 1.1049, 0.9069, 0.4200, -0.0352, -0.1689, -0.1778}
	for i := range want {
		if got := float64(sag[i] / um); math.Abs(got-want[i]) > 1e-4 {
			t.Errorf("sag at %g m = %.4f um, want %.4f", float64(places[i]), got, want[i])
		}
	}
	long := Beam{Length: 2, Width: 50 * mm, Height: 150 * mm, Stiffness: 110e9, Density: 7200}
	for _, test := range []struct{ support, place, want float64 }{{0, 1, 71.3211}, {2 * Airy, 1, 2.82845}, {2 * Airy, 0, -0.45517}, {2 * Bessel, 1, 1.78381}, {2 * Bessel, 0, 1.00299}} {
		sag, err := BeamSag(long, unit.Length(test.support), []unit.Length{unit.Length(test.place)})
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(sag[0] / um); math.Abs(got-test.want) > 1e-4 {
			t.Errorf("support %g m, place %g m: %.5f um, want %.5f", test.support, test.place, got, test.want)
		}
	}
	for name, bad := range map[string]func() ([]unit.Length, error){
		"no height":    func() ([]unit.Length, error) { b := iron; b.Height = 0; return BeamSag(b, 0, places) },
		"stiffness":    func() ([]unit.Length, error) { b := iron; b.Stiffness = math.NaN(); return BeamSag(b, 0, places) },
		"supports":     func() ([]unit.Length, error) { return BeamSag(iron, 0.5, places) },
		"off the beam": func() ([]unit.Length, error) { return BeamSag(iron, 0.1, []unit.Length{1.2}) },
	} {
		if _, err := bad(); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
