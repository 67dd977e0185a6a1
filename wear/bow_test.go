package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func TestBowOfCut(t *testing.T) {
	slopes := leveled(t, level2025, true).SlopePoints()
	// Hidden truth: 13.0 um over 600 mm in the middle, 1.4 um over 150 mm there,
	// below 0.1 um over 150 mm on the flanks.
	for _, test := range []struct{ place, length, want float64 }{
		{0, 600, 13.0}, {0, 150, 1.4}, {-180, 150, 0}, {240, 150, 0},
	} {
		bow, err := BowOfCut(slopes, 360*mm, unit.Length(test.place)*mm, unit.Length(test.length)*mm)
		if err != nil {
			t.Fatal(err)
		}
		if miss := float64(bow.Value/um) - test.want; math.Abs(miss) > 2.5*float64(bow.U/um) || bow.U > 2*um {
			t.Errorf("bow of %g mm at u = %g mm = %.2f um, standard uncertainty %.2f, want %.1f", test.length, test.place, float64(bow.Value/um), float64(bow.U/um), test.want)
		}
	}
}

func TestBowOfCutSigns(t *testing.T) {
	// Slopes that fall to the left and rise to the right: a hollow. The work
	// comes out high in the middle; turned over, low by as much.
	hollow := []SlopePoint{{-0.3, -60e-6, 1e-6, 0}, {-0.1, -20e-6, 1e-6, 0}, {0.1, 20e-6, 1e-6, 0}, {0.3, 60e-6, 1e-6, 0}}
	crown := append([]SlopePoint(nil), hollow...)
	for i := range crown {
		crown[i].Slope = -crown[i].Slope
	}
	a, err1 := BowOfCut(hollow, 0, 0, 0.4)
	b, err2 := BowOfCut(crown, 0, 0, 0.4)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	// A slope of 200e-6 per metre is a hollow of 200e-6 (0.2)^2/2 = 4 um.
	if math.Abs(float64(a.Value/um)-4) > 0.05 || a.Value != -b.Value {
		t.Errorf("bows = %g and %g um, want +4 and -4", float64(a.Value/um), float64(b.Value/um))
	}
}

func TestBowOfCutErrors(t *testing.T) {
	slopes := leveled(t, level2025, true).SlopePoints()
	for _, test := range []struct {
		place, length unit.Length
		want          string
	}{
		{0, 0, "part of 0 mm"}, {0, 0.8, "part of 800 mm"}, {0, unitNaN, "part of NaN mm"},
		{0.3, 0.2, "part from 200 to 400 mm reaches beyond"}, {unitNaN, 0.2, "reaches beyond"},
	} {
		if _, err := BowOfCut(slopes, 0.36, test.place, test.length); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("error = %v, want one about %q", err, test.want)
		}
	}
}
