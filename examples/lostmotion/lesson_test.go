package lostmotion

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"gonum.org/v1/gonum/unit"
)

func worked(t *testing.T, in Inputs) *notebook.Sheet {
	t.Helper()
	sheet, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := sheet.Validate(); err != nil {
		t.Fatal(err)
	}
	return sheet
}

// trueLost is the lost motion that the demonstration's runs were made from.
func trueLost(x float64) float64 {
	return 42e-6 + 34e-6*math.Exp(-math.Pow((x-0.18)/0.13, 2)/2)
}

func TestRecoversTheScrew(t *testing.T) {
	in := Defaults()
	r, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range r.p.Targets {
		if off := float64(lost(p)) - trueLost(float64(p.Place)); math.Abs(off) > 2.5*float64(p.LostU) {
			t.Errorf("X = %g mm: lost motion %g, u %g, truth %g", float64(p.Place/mm), float64(lost(p)), float64(p.LostU), trueLost(float64(p.Place)))
		}
	}
	if !r.varies() {
		t.Errorf("a screw worn in one place is not seen: P = %g", r.p.VariesP)
	}
	sheet := worked(t, in)
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	// 10 of 200 divisions on a screw of a fifth of an inch: 18 degrees.
	if e := sheet.Find("exercise-wheel").(notebook.Exercise); math.Abs(e.Answer.SI*180/math.Pi-18) > 1e-9 {
		t.Errorf("exercise-wheel = %g degrees, want 18", e.Answer.SI*180/math.Pi)
	}
}

func TestEvenPlayIsTheNut(t *testing.T) {
	in := Defaults()
	for i := range in.Readings {
		in.Readings[i].Down = in.Readings[i].Up + 40*um
		if i%2 == 0 {
			in.Readings[i].Down += 2 * um
		}
	}
	if v := worked(t, in).Find("answer").(notebook.Verdict); v.Tone != notebook.Good || !strings.Contains(v.Text.In(notebook.Metric), "all along") {
		t.Errorf("answer = %s", v.Text.In(notebook.Metric))
	}
}

func TestOnePlace(t *testing.T) {
	in := Defaults()
	in.Readings = in.Readings[:5]
	if v := worked(t, in).Find("answer").(notebook.Verdict); !strings.Contains(v.Text.In(notebook.Metric), "other places") {
		t.Errorf("answer = %s", v.Text.In(notebook.Metric))
	}
}

func TestOrderDoesNotMatter(t *testing.T) {
	in := Defaults()
	turned := Defaults()
	for i := range in.Readings {
		turned.Readings[i] = in.Readings[len(in.Readings)-1-i]
	}
	a, b := worked(t, in).Find("lost").(notebook.Figure), worked(t, turned).Find("lost").(notebook.Figure)
	if math.Abs(a.Value.SI-b.Value.SI) > 1e-15 {
		t.Errorf("lost motion %g and, runs turned about, %g", a.Value.SI, b.Value.SI)
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"one run", func(in *Inputs) { in.Readings = in.Readings[:6] }, "one run at X = -120 mm"},
		{"not a number", func(in *Inputs) { in.Readings[1].Up = unit.Length(math.NaN()) }, "run 2"},
		{"no lead", func(in *Inputs) { in.Lead = 0 }, "lead 0 mm"},
		{"no nut", func(in *Inputs) { in.Nut = 0 }, "nut of 0 mm"},
	} {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}
