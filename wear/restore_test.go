package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

func TestGrinding(t *testing.T) {
	plan, err := PlanScraping(truth2025(), 50*mm, byHand)
	if err != nil {
		t.Fatal(err)
	}
	g, err := PlanGrinding(plan, GrindOptions{DeepestU: 3 * um, SetUpU: 4 * um, Clean: 5 * um, Cut: 5 * um, Layer: 80 * um})
	if err != nil {
		t.Fatal(err)
	}
	// One-sided factor of 0.95 from tables of the normal law: 1.6449; 3, 4, 5 is
	// a right-angled triangle.
	near(t, "margin", float64(g.Margin/um), 1.6449*5, 1e-3)
	near(t, "depth", float64(g.Depth), float64(plan.Most+g.Margin+5*um), 1e-15)
	near(t, "left of the layer", float64(g.Left), float64(80*um-g.Depth), 1e-15)
	if g.Cuts != int(math.Ceil(float64(g.Depth/um)/5)) || !(g.Deeper > g.Margin) {
		t.Errorf("%+v", g)
	}
	// What is left bare: nothing stays above the ground plane but by the chance.
	normal, clean := newNormal(5), 0
	const draws = 4000
	for range draws {
		deeper := 3*normal() + 4*normal()
		if deeper < float64((g.Depth-plan.Most)/um)-5 {
			clean++
		}
	}
	if share := float64(clean) / draws; share < 0.94 || share > 0.96 {
		t.Errorf("clean in %.3f of the draws, want 0.95", share)
	}
}

func TestLining(t *testing.T) {
	l := Lining{Thickness: 800 * um, ThicknessU: 4 * um, Glue: 100 * um, GlueU: 12 * um, Proud: 50 * um}
	f, err := l.Fit(120*um, 3*um)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mill", float64(f.Mill/um), 800+100-120-50, 1e-9)
	near(t, "u", float64(f.U/um), 13, 1e-9) // 3, 4, 12
	near(t, "thinnest", float64(f.Thinnest/um), 120+50-100, 1e-9)
	if f.Pack != 0 {
		t.Errorf("packing %g um", float64(f.Pack/um))
	}
	l.Thickness = 30 * um
	if f, _ = l.Fit(120*um, 0); f.Mill != 0 || math.Abs(float64(f.Pack/um)-40) > 1e-9 {
		t.Errorf("a sheet of 30 um: mill %g, pack %g um, want 0 and 40", float64(f.Mill/um), float64(f.Pack/um))
	}
}

func TestChanceThrough(t *testing.T) {
	// Two standard deviations either way, from tables: 0.02275 and 0.97725.
	for depth, want := range map[unit.Length]float64{40 * um: 0.022750, 50 * um: 0.5, 60 * um: 0.977250} {
		p, err := ChanceThrough(depth, 3*um, 50*um, 4*um)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "chance", p, want, 1e-6)
	}
}

func TestTwist(t *testing.T) {
	way := func(rise float64) Profile {
		p := Profile{Covariance: mat.NewSymDense(3, []float64{9e-12, 0, 0, 0, 9e-12, 0, 0, 0, 9e-12})}
		for i := range 3 {
			p.Points = append(p.Points, Point{unit.Length(i) * 100 * mm, unit.Length(rise*float64(i)) * um})
		}
		return p
	}
	twist, err := Twist(way(-10), way(9), 190*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "twist", float64(twist[2].Slope), 38e-6/0.19, 1e-12)
	near(t, "u", float64(twist[2].U), math.Sqrt2*3e-6/0.19, 1e-12)
}

func TestOverhang(t *testing.T) {
	// Constructed: 200 by 60 mm of iron reaching out 350 mm, P L^3/(3 E I) and
	// w L^4/(8 E I) with w L^3/(6 E I); textbooks of strength of materials.
	b := Beam{Width: 200 * mm, Height: 60 * mm, Stiffness: 110e9, Density: 500 / 9.80665 / 0.2 / 0.06}
	droop, slope, err := b.Overhang(350*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "droop by its own 500 N/m", float64(droop/um), 2.36841, 1e-5)
	near(t, "slope", float64(slope), 9.02252e-6, 1e-11)
	loaded, _, err := b.Overhang(350*mm, 400*unit.Newton)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "droop by 400 N", float64((loaded-droop)/um), 14.43603, 1e-5)
}

func TestTwoProbes(t *testing.T) {
	// A known way under a carriage that lifts as it likes and tilts as its level
	// says, with dials whose zeros differ.
	z := []float64{0, 1, 3, 4.5, 4, 2.5, 1.5, 0}
	var readings []ProbePair
	for i := range len(z) - 1 {
		lift, tilt := 3*math.Sin(float64(i)), Slope(2e-5*math.Cos(float64(i)))
		readings = append(readings, ProbePair{A: unit.Length(z[i]-lift) * um, B: unit.Length(z[i+1]-lift)*um - tilt.Rise(100*mm) + 7*um, Tilt: tilt})
	}
	p, err := TwoProbes(100*mm, readings, 1*um, 5e-6)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range z {
		near(t, "height", float64(p.Points[i].Height/um), want, 1e-9)
	}
	// One step: sqrt(2) um of two dials and 0.5 um of tilt over 100 mm. A bridge
	// of n = 7 such steps: sigma sqrt(k (n-k)/n) at k.
	near(t, "u", float64(p.U(3)/um), 1.5*math.Sqrt(3*4.0/7), 1e-9)
	if _, err := TwoProbes(0, readings, 0, 0); err == nil || !strings.Contains(err.Error(), "pitch") {
		t.Errorf("error = %v", err)
	}
}

func TestRestoreRefuses(t *testing.T) {
	nan := unit.Length(math.NaN())
	way := Profile{Points: []Point{{0, 0}, {1, 0}}}
	_, chance := PlanGrinding(ScrapePlan{}, GrindOptions{Cut: 1, Chance: 0.3})
	_, cut := PlanGrinding(ScrapePlan{}, GrindOptions{})
	_, negative := PlanGrinding(ScrapePlan{}, GrindOptions{Cut: 1, Layer: -1})
	_, lining := Lining{}.Fit(0, 0)
	_, sunk := Lining{Thickness: 1}.Fit(nan, 0)
	_, coat := ChanceThrough(0, 0, 0, 0)
	_, apart := Twist(way, way, 0)
	_, places := Twist(way, Profile{Points: []Point{{0, 0}, {2, 0}}}, 1)
	_, number := Twist(way, Profile{}, 1)
	_, _, section := Beam{}.Overhang(1, 0)
	_, _, reach := Beam{Width: 1, Height: 1, Stiffness: 1, Density: 1}.Overhang(-1, 0)
	_, dial := TwoProbes(1, []ProbePair{{A: nan}}, 0, 0)
	for want, err := range map[string]error{"chance 0.3": chance, "cut of 0": cut, "-1e+06 um": negative, "lining 0 mm": lining, "NaN mm": sunk,
		"coat of 0": coat, "0 mm apart": apart, "place 2": places, "rear way with 0": number, "must be above zero": section, "overhang of -1000": reach, "reading 1": dial} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}
