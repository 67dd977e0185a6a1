package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// fiveTargets is a constructed case of five targets and five runs, in um.
func fiveTargets() []Target {
	up := [][]float64{{1.2, 0.8, 1.0, 1.4, 1.1}, {2.6, 2.2, 2.9, 2.4, 2.4}, {3.1, 3.7, 3.3, 3.5, 3.4}, {4.9, 4.4, 4.6, 5.0, 4.6}, {4.0, 4.3, 3.8, 4.1, 3.8}}
	down := [][]float64{{-2.1, -1.7, -2.0, -1.9, -2.3}, {-0.6, -1.0, -0.7, -0.9, -0.8}, {0.4, 0.1, 0.5, 0.2, 0.3}, {1.9, 1.5, 1.6, 1.8, 1.7}, {1.3, 0.9, 1.1, 1.0, 1.2}}
	targets := make([]Target, 5)
	for i := range targets {
		targets[i].Place = unit.Length(100*i) * mm
		for j := range up[i] {
			targets[i].Up = append(targets[i].Up, unit.Length(up[i][j])*um)
			targets[i].Down = append(targets[i].Down, unit.Length(down[i][j])*um)
		}
	}
	return targets
}

// The definitions are those of ISO 230-2:2014, from memory; the digits are
// arithmetic on the constructed runs.
func TestPositioning(t *testing.T) {
	p, err := ReadPositioning(fiveTargets())
	if err != nil {
		t.Fatal(err)
	}
	repeat := []float64{3.994427, 4.145378, 3.863441, 3.806126, 3.640492}
	lost := []float64{3.1, 3.3, 3.1, 3.0, 2.9}
	for i, r := range p.Targets {
		near(t, "lost motion", float64(r.Lost/um), lost[i], 1e-9)
		near(t, "repeatability", float64(r.Repeat/um), repeat[i], 1e-6)
	}
	for _, test := range []struct {
		what string
		got  unit.Length
		want float64
	}{{"B", p.Lost, 3.3}, {"mean B", p.MeanLost, 3.08}, {"R up", p.UpRepeat, 1.058301}, {"R down", p.DownRepeat, 0.894427}, {"R", p.Repeat, 4.145378},
		{"E up", p.UpSystematic, 3.6}, {"E down", p.DownSystematic, 3.7}, {"E", p.Systematic, 6.7}, {"M", p.MeanRange, 3.65},
		{"A up", p.UpAccuracy, 4.537112}, {"A down", p.DownAccuracy, 4.463441}, {"A", p.Accuracy, 7.637112}} {
		near(t, test.what, float64(test.got/um), test.want, 1e-6)
	}
	if p.LostAt != 100*mm || p.VariesP < 0.01 || p.VariesP > 0.5 {
		t.Errorf("largest at %g mm, chance of alike %g", float64(p.LostAt/mm), p.VariesP)
	}
	// A screw worn at one place.
	worn := fiveTargets()
	for j := range worn[2].Down {
		worn[2].Down[j] -= 3 * um
	}
	if p, _ := ReadPositioning(worn); p.VariesP > 1e-6 || p.LostAt != 200*mm {
		t.Errorf("worn screw: largest at %g mm, chance of alike %g", float64(p.LostAt/mm), p.VariesP)
	}
}

func TestVariesIsCalibrated(t *testing.T) {
	normal, small := newNormal(12), 0
	const count = 2000
	for range count {
		targets := make([]Target, 5)
		for i := range targets {
			for range 3 {
				targets[i].Up = append(targets[i].Up, unit.Length(5+normal())*um)
				targets[i].Down = append(targets[i].Down, unit.Length(normal())*um)
			}
		}
		p, err := ReadPositioning(targets)
		if err != nil {
			t.Fatal(err)
		}
		if p.VariesP < 0.05 {
			small++
		}
	}
	if small < 70 || small > 130 { // 100 +- 3 standard deviations of 9.7
		t.Errorf("%d of %d alike screws are called uneven at 5 %%", small, count)
	}
}

func TestScrew(t *testing.T) {
	// Five threads an inch, 0.010 in of lost motion: 18 degrees, 10 of 200
	// divisions. Exact.
	screw := Screw{Lead: 0.2 * inch * unit.Metre, Pitch: 25 * mm}
	turn, err := screw.Handwheel(0.010 * inch * unit.Metre)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "degrees", float64(turn)*180/math.Pi, 18, 1e-9)
	near(t, "divisions", float64(turn)/2/math.Pi*200, 10, 1e-9)
	// A square thread of tiny lead: the sum of the two depths.
	lost, err := Screw{Lead: 1e-9, Pitch: 25 * mm}.LostMotion(0.02*mm, 0.03*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "square thread", float64(lost/mm), 0.05, 1e-9)
	trapezoid, err := Screw{Lead: 5 * mm, Pitch: 25 * mm, Flank: unit.Angle(15 * math.Pi / 180)}.LostMotion(0.02*mm, 0.03*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "trapezoidal thread", float64(trapezoid/mm), 0.05/math.Cos(math.Pi/12)/math.Cos(math.Atan(5/math.Pi/25)), 1e-12)
	// Twice the nut wears half as deep; the volume is the law's.
	s := Screw{Lead: 5 * mm, Pitch: 25 * mm, Nut: 50 * mm, Depth: 2.5 * mm}
	depth, err := s.NutWear(1e-7*perNewton, 500*newton, 1000*unit.Metre)
	if err != nil {
		t.Fatal(err)
	}
	slid := 1000 / 0.005 * math.Hypot(math.Pi*0.025, 0.005)
	area := math.Pi * 0.025 * 0.0025 * 10
	near(t, "nut", float64(depth), 1e-16*500*slid/area, 1e-15)
	s.Nut *= 2
	half, _ := s.NutWear(1e-7*perNewton, 500*newton, 1000*unit.Metre)
	near(t, "longer nut", float64(half), float64(depth)/2, 1e-15)
}

func TestScrewRefuses(t *testing.T) {
	one := fiveTargets()
	one[1].Up = one[1].Up[:1]
	one[1].Down = one[1].Down[:1]
	nan := fiveTargets()
	nan[2].Down[3] = unit.Length(math.NaN())
	_, none := ReadPositioning(nil)
	_, runs := ReadPositioning(one)
	_, value := ReadPositioning(nan)
	_, lead := Screw{}.LostMotion(0, 0)
	_, nut := Screw{Lead: 1, Pitch: 1}.NutWear(1, 1, 1)
	_, wheel := Screw{}.Handwheel(1)
	for want, err := range map[string]error{"no targets": none, "target 2": runs, "target 3, run 4": value, "screw of lead": lead, "nut of": nut, "lead 0": wheel} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}
