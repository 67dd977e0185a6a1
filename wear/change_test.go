package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// compared compares the two level surveys of the shop.
func compared(t *testing.T, along bool, options ChangeOptions) Change {
	t.Helper()
	change, err := CompareSlopes(leveled(t, level2019, along).SlopePoints(), leveled(t, level2025, along).SlopePoints(), options)
	if err != nil {
		t.Fatal(err)
	}
	return change
}

// unwornEnd is the station whose bearing places, u = 180 to 540 mm, the vise
// left of centre has spared.
var unwornEnd = []unit.Length{360 * mm}

func TestCompareRecoversTheFloor(t *testing.T) {
	for _, test := range []struct {
		name  string
		along bool
		want  float64 // um/m, hidden truth
	}{{"along", true, lean2025Along - lean2019Along}, {"across", false, lean2025Across - lean2019Across}} {
		change := compared(t, test.along, ChangeOptions{Unworn: unwornEnd})
		if change.Assumed {
			t.Errorf("%s: an unworn station was named and is called assumed", test.name)
		}
		miss := float64(change.Floor/MicrometrePerMetre) - test.want
		if u := float64(change.FloorU / MicrometrePerMetre); math.Abs(miss) > 2*u || u > 6 {
			t.Errorf("%s: floor misses %g by %.1f, standard uncertainty %.1f um/m", test.name, test.want, miss, u)
		}
		if change.SameP > 1e-6 {
			t.Errorf("%s: the ways changed and the chance of none is %g", test.name, change.SameP)
		}
	}
}

func TestCompareRecoversTheWear(t *testing.T) {
	change := compared(t, true, ChangeOptions{Unworn: unwornEnd})
	for i, s := range change.Stations {
		truth := pose[i].along2 - pose[i].along
		if miss := float64(s.Own/MicrometrePerMetre) - truth; math.Abs(miss) > 3*float64(s.OwnU/MicrometrePerMetre)+2 {
			t.Errorf("station %d: own change misses %.1f by %.1f um/m", i+1, truth, miss)
		}
		// Changes of more than 30 um/m must be seen; the one of 2 must not.
		if math.Abs(truth) > 30 && !s.Changed {
			t.Errorf("station %d: a change of %.1f um/m is not called real (adjusted chance %.3g)", i+1, truth, s.Adjusted)
		}
		if math.Abs(truth) < 5 && s.Changed {
			t.Errorf("station %d: a change of %.1f um/m is called real", i+1, truth)
		}
	}
	if s := change.Stations[0]; s.OwnU != 0 || s.P != 1 {
		t.Errorf("the station that stands for the floor has its own change %g, chance %g", float64(s.OwnU), s.P)
	}
}

// TestMeanIsNotTheFloor shows why an unworn station is asked for: across the
// table the wear all leans one way, and the mean takes it for the floor.
func TestMeanIsNotTheFloor(t *testing.T) {
	change := compared(t, false, ChangeOptions{})
	if !change.Assumed {
		t.Error("no unworn station was named and the floor is not called assumed")
	}
	miss := float64(change.Floor/MicrometrePerMetre) - (lean2025Across - lean2019Across)
	if miss < 20 {
		t.Errorf("mean of all changes misses the floor by %.1f um/m only; the wear across should hide it", miss)
	}
	if inner := float64(change.FloorU / MicrometrePerMetre); inner < 5 {
		t.Errorf("standard uncertainty of the mean = %.1f um/m; the scatter of the changes should show", inner)
	}
}

func TestShapeOfTheChangeNeedsNoFloor(t *testing.T) {
	difference, err := Difference(leveled(t, level2019, true).SlopePoints(), leveled(t, level2025, true).SlopePoints())
	if err != nil {
		t.Fatal(err)
	}
	moved := append([]SlopePoint(nil), difference...)
	for i := range moved {
		moved[i].Slope += 45 * MicrometrePerMetre
	}
	one, err1 := ProfileFromSlopes(difference, ProfileOptions{})
	two, err2 := ProfileFromSlopes(moved, ProfileOptions{})
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	a, _, err1 := one.Less(LeastSquares)
	b, _, err2 := two.Less(LeastSquares)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	for i := range a.Points {
		if math.Abs(float64(a.Points[i].Height-b.Points[i].Height)) > 1e-17 {
			t.Errorf("point %d moved with the floor", i)
		}
	}
}

func TestCompareCountsFalseAlarms(t *testing.T) {
	// Two surveys that differ by the floor alone, 2000 times: Holm lets one
	// station or more be called changed in at most 5 % of them.
	random := newNormal(31)
	const surveys = 2000
	alarms := 0
	for range surveys {
		before, after := make([]SlopePoint, 9), make([]SlopePoint, 9)
		for i := range before {
			x := unit.Length(i) * 100 * mm
			before[i] = SlopePoint{x, Slope(random()) * 3e-6, 3e-6, 0}
			after[i] = SlopePoint{x, 50e-6 + Slope(random())*4e-6, 4e-6, 0}
		}
		change, err := CompareSlopes(before, after, ChangeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range change.Stations {
			if s.Changed {
				alarms++
				break
			}
		}
	}
	// 5 % of 2000 is 100, standard deviation 10; Holm stays at or below.
	if alarms > 130 || alarms < 50 {
		t.Errorf("%d of %d unchanged surveys raise an alarm, want 50 to 130", alarms, surveys)
	}
}

func TestAdjust(t *testing.T) {
	// By hand from the two definitions.
	p := []float64{0.01, 0.04, 0.03, 0.005}
	for _, test := range []struct {
		control Control
		want    []float64
	}{
		{Holm, []float64{0.03, 0.06, 0.06, 0.02}},
		{BenjaminiHochberg, []float64{0.02, 0.04, 0.04, 0.02}},
	} {
		got := adjust(p, test.control)
		for i := range got {
			if math.Abs(got[i]-test.want[i]) > 1e-15 {
				t.Errorf("control %d: adjusted %v, want %v", test.control, got, test.want)
				break
			}
		}
	}
}

func TestUnwornStationsThatDisagree(t *testing.T) {
	before := []SlopePoint{{0, 0, 1e-6, 0}, {1, 0, 1e-6, 0}, {2, 0, 1e-6, 0}}
	after := []SlopePoint{{2, 80e-6, 1e-6, 0}, {0, 10e-6, 1e-6, 0}, {1, 30e-6, 1e-6, 0}}
	change, err := CompareSlopes(before, after, ChangeOptions{Unworn: []unit.Length{0, 1}})
	if err != nil {
		t.Fatal(err)
	}
	// 10 and 30 um/m: mean 20, their scatter sqrt(200) over sqrt(2) = 10.
	if math.Abs(float64(change.Floor)-20e-6) > 1e-18 || math.Abs(float64(change.FloorU)-10e-6) > 1e-18 {
		t.Errorf("floor = %g, %g; want 20e-6, 10e-6", float64(change.Floor), float64(change.FloorU))
	}
	if change.Stations[2].OwnU < 10e-6 {
		t.Errorf("the doubt about the floor is lost: own change has uncertainty %g", float64(change.Stations[2].OwnU))
	}
}

func TestCompareErrors(t *testing.T) {
	good := []SlopePoint{{0, 0, 1e-6, 0}, {1, 0, 1e-6, 0}}
	tests := []struct {
		name          string
		before, after []SlopePoint
		options       ChangeOptions
		want          string
	}{
		{"none", nil, good, ChangeOptions{}, "earlier survey: wear: a profile needs"},
		{"one", good, good[:1], ChangeOptions{}, "later survey"},
		{"more", good, append(good[:2:2], SlopePoint{2, 0, 1e-6, 0}), ChangeOptions{}, "2 stations, the later one 3"},
		{"elsewhere", good, []SlopePoint{{0, 0, 1e-6, 0}, {1.1, 0, 1e-6, 0}}, ChangeOptions{}, "no station within 0.5 mm of 1000 mm"},
		{"no uncertainty", good, []SlopePoint{{0, 0, 1e-6, 0}, {1, 0, 0, 0}}, ChangeOptions{}, "station 2: standard uncertainties"},
		{"unworn where none stands", good, good, ChangeOptions{Unworn: []unit.Length{0.3}}, "no station stands at 300 mm"},
		{"unworn but none", good, good, ChangeOptions{Unworn: []unit.Length{}}, "no unworn station"},
		{"freedom", good, []SlopePoint{{0, 0, 1e-6, 0.3}, {1, 0, 1e-6, 0}}, ChangeOptions{}, "station 1: 0.3 degrees of freedom"},
		{"level", good, good, ChangeOptions{Level: 0.9}, "level of false alarms 0.9"},
		{"control", good, good, ChangeOptions{Control: 5}, "no control of number 5"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := CompareSlopes(test.before, test.after, test.options)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func FuzzCompare(f *testing.F) {
	f.Add(1e-4, 2e-4, 1e-6, 1e-6, 7.0)
	f.Add(1e300, -1e300, 1e-300, 1e300, 0.0)
	f.Add(0.0, 0.0, 1e-200, 1e-200, -3.0)
	f.Add(1000.0, -1500.0, 800.0, 300.0, 1e-5)
	f.Add(-220.0, 2570.0, 8505.0, 1.9, -10.8) // nearly a million million degrees of freedom
	f.Fuzz(func(t *testing.T, s0, s1, u0, u1, freedom float64) {
		before := []SlopePoint{{0, Slope(s0), Slope(u0), freedom}, {1, Slope(s1), Slope(u1), 2}, {2, 0, 1e-6, 0}}
		after := []SlopePoint{{0, Slope(s1), Slope(u1), freedom}, {1, 0, Slope(u0), freedom}, {2, Slope(s0), 2e-6, 4}}
		change, err := CompareSlopes(before, after, ChangeOptions{})
		if err != nil {
			return
		}
		for _, s := range change.Stations {
			if !finite(float64(s.Own)) || !finite(float64(s.OwnU)) || !(s.P >= 0 && s.P <= 1) || !(s.Adjusted >= 0 && s.Adjusted <= 1) {
				t.Errorf("station %v", s)
			}
		}
	})
}
