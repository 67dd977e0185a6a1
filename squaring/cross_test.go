package squaring

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// trialsOf makes trials of a known head.
func trialsOf(c CrossEffect, noise Slope, turns ...Gradient) []AxisTrial {
	random := rand.New(rand.NewPCG(6, 0))
	var trials []AxisTrial
	for _, turn := range turns {
		before := Gradient{X: Slope(random.NormFloat64()) * 100e-6, Y: Slope(random.NormFloat64()) * 100e-6}
		after := before.Plus(c.apply(turn))
		after.X += noise * Slope(random.NormFloat64())
		after.Y += noise * Slope(random.NormFloat64())
		trials = append(trials, AxisTrial{Asked: turn, Before: before, After: after})
	}
	return trials
}

func TestCrossEffectRecovers(t *testing.T) {
	head := CrossEffect{XX: 0.95, XY: 0.18, YX: -0.07, YY: 1.04}
	turns := []Gradient{{X: 200e-6}, {Y: 200e-6}, {X: -150e-6}, {Y: -100e-6}, {X: 100e-6, Y: -200e-6}, {X: 50e-6, Y: 250e-6}}
	exact, err := FitCrossEffect(trialsOf(head, 0, turns[:2]...), Gradient{})
	if err != nil {
		t.Fatal(err)
	}
	for i, pair := range [4][2]float64{{exact.XX, head.XX}, {exact.XY, head.XY}, {exact.YX, head.YX}, {exact.YY, head.YY}} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("figure %d of an exact map: %g, want %g", i, pair[0], pair[1])
		}
	}
	noisy, err := FitCrossEffect(trialsOf(head, 6e-6, turns...), Gradient{X: 6e-6, Y: 6e-6})
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range [4][3]float64{{noisy.XX, head.XX, noisy.XXU}, {noisy.XY, head.XY, noisy.XYU}, {noisy.YX, head.YX, noisy.YXU}, {noisy.YY, head.YY, noisy.YYU}} {
		if math.Abs(f[0]-f[1]) > 3*f[2] || f[2] > 0.05 || f[2] < 0.005 {
			t.Errorf("figure %d: %g u %g, want %g", i, f[0], f[2], f[1])
		}
	}
	if noisy.DegreesOfFreedom != 4 {
		t.Errorf("%d degrees of freedom, want 4", noisy.DegreesOfFreedom)
	}
}

// The plan lands where it was aimed, in two turns, where setting each axis to
// zero by itself takes more.
func TestCrossPlan(t *testing.T) {
	head := CrossEffect{XX: 0.95, XY: 0.3, YX: -0.2, YY: 1.04, XXU: 0.02, XYU: 0.02, YXU: 0.02, YYU: 0.02}
	now, aim := Gradient{X: 232e-6, Y: -231e-6}, Gradient{X: 5e-6}
	p, err := head.Plan(now, aim, 10e-6)
	if err != nil {
		t.Fatal(err)
	}
	end := now.Plus(head.apply(p.Turn))
	if end.Minus(aim).Steepest() > 1e-15 {
		t.Errorf("the plan ends at %v, want %v", end, aim)
	}
	second := Gradient{X: p.Turn.X}
	if p.First == SideAxis {
		second = Gradient{Y: p.Turn.Y}
	}
	if end := p.AfterFirst.Plus(head.apply(second)); end.Minus(aim).Steepest() > 1e-15 {
		t.Errorf("after the first and the second turn the tilt is %v, want %v", end, aim)
	}
	if p.ByTurns < 3 {
		t.Errorf("by turns it takes %d, want more than the plan's two", p.ByTurns)
	}
	// The turns' uncertainty is what a thousand maps drawn about this one give.
	random := rand.New(rand.NewPCG(7, 0))
	var x, y float64
	for range 4000 {
		m := head
		m.XX += m.XXU * random.NormFloat64()
		m.XY += m.XYU * random.NormFloat64()
		m.YX += m.YXU * random.NormFloat64()
		m.YY += m.YYU * random.NormFloat64()
		d := m.solve(aim.Minus(now)).Minus(p.Turn)
		x, y = x+float64(d.X)*float64(d.X), y+float64(d.Y)*float64(d.Y)
	}
	// First order, 4000 draws: within a tenth.
	if got := math.Sqrt(x / 4000); math.Abs(got/float64(p.TurnU.X)-1) > 0.1 {
		t.Errorf("u of the side turn %g, drawing gives %g", float64(p.TurnU.X), got)
	}
	if got := math.Sqrt(y / 4000); math.Abs(got/float64(p.TurnU.Y)-1) > 0.1 {
		t.Errorf("u of the nod %g, drawing gives %g", float64(p.TurnU.Y), got)
	}
	// Independent axes need one turn each; a head whose axes upset one another
	// more than they set themselves never gets there by turns.
	if p, err = (CrossEffect{XX: 1, YY: 1}).Plan(now, Gradient{}, 10e-6); err != nil || p.ByTurns != 2 || p.AfterFirst.X != now.X && p.AfterFirst.Y != now.Y {
		t.Errorf("independent axes: %+v, %v", p, err)
	}
	if p, err = (CrossEffect{XX: 1, XY: 1.5, YX: 1.5, YY: 1}).Plan(now, Gradient{}, 10e-6); err != nil || p.ByTurns != -1 {
		t.Errorf("a head that cannot be set by turns: %+v, %v", p, err)
	}
}

func TestCrossRefuses(t *testing.T) {
	one := AxisTrial{Asked: Gradient{X: 1e-4}, After: Gradient{X: 1e-4}}
	for want, trials := range map[string][]AxisTrial{
		"one way only":   {one, one},
		"same direction": {one, {Asked: Gradient{Y: 1e-4}, After: Gradient{X: 1e-4}}},
		"trial 2":        {one, {Asked: Gradient{Y: Slope(math.NaN())}}},
	} {
		if _, err := FitCrossEffect(trials, Gradient{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if _, err := FitCrossEffect(nil, Gradient{X: -1}); err == nil || !strings.Contains(err.Error(), "negative") {
		t.Errorf("%v", err)
	}
	if _, err := (CrossEffect{}).Plan(Gradient{}, Gradient{}, 1e-6); err == nil {
		t.Error("a map of zeros is accepted")
	}
	if _, err := (CrossEffect{XX: 1, YY: 1}).Plan(Gradient{}, Gradient{}, 0); err == nil {
		t.Error("a limit of zero is accepted")
	}
}
