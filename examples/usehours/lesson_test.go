package usehours

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

func TestFrontWoreFaster(t *testing.T) {
	r, err := work(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	// Hidden truth: the front way lost 25.7 um at its deepest, the rear one 10.8,
	// in the same shape.
	if want := 25.7 / 10.8; want < r.ratio.Low || want > r.ratio.High {
		t.Errorf("ratio %g, from %g to %g, truth %g", r.ratio.Times, r.ratio.Low, r.ratio.High, want)
	}
	sheet := worked(t, Defaults())
	if v := sheet.Find("answer").(notebook.Verdict); v.Tone != notebook.Watch || !strings.Contains(v.Text.In(notebook.Metric), "front way") {
		t.Errorf("answer: %s", v.Text.In(notebook.Metric))
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	// 0.7 of 100 and 0.3 of 300 mm; 1e-7 x 0.020 x 60,000 mm; by hand.
	if e := sheet.Find("exercise-use").(notebook.Exercise); math.Abs(e.Answer.SI-0.16) > 1e-12 {
		t.Errorf("exercise-use = %g, want 0.16", e.Answer.SI)
	}
	if e := sheet.Find("exercise-wear").(notebook.Exercise); math.Abs(e.Answer.SI-0.12e-6) > 1e-15 {
		t.Errorf("exercise-wear = %g, want 0.12e-6", e.Answer.SI)
	}
}

func TestWaysExchanged(t *testing.T) {
	in := Defaults()
	for i, d := range in.Depths {
		in.Depths[i] = Depth{d.Place, d.RearBefore, d.RearAfter, d.FrontBefore, d.FrontAfter}
	}
	r, err := work(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	turned, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(turned.ratio.Times*r.ratio.Times-1) > 1e-9 {
		t.Errorf("ratios %g and, ways exchanged, %g", r.ratio.Times, turned.ratio.Times)
	}
}

func TestTwiceTheLoadHalfTheFactor(t *testing.T) {
	in := Defaults()
	r, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	in.Load, in.Thrust = 2*in.Load, 2*in.Thrust
	twice, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(twice.rear.factor/r.rear.factor)-0.5) > 1e-4 || math.Abs(twice.ratio.Times-r.ratio.Times) > 1e-3 {
		t.Errorf("factor %g of what it was, ratio %g, was %g", float64(twice.rear.factor/r.rear.factor), twice.ratio.Times, r.ratio.Times)
	}
}

func TestElsewhereDoesNotExplainIt(t *testing.T) {
	in := Defaults()
	in.Uses = []Use{{Place: 60 * mm, Stroke: 100 * mm, Share: 1}}
	in.LoadAt = 50 * mm
	if v := worked(t, in).Find("front-agrees").(notebook.Verdict); v.Tone != notebook.Watch {
		t.Errorf("work at the other end: %s", v.Text.In(notebook.Metric))
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"order", func(in *Inputs) { in.Depths[1].Place = in.Depths[0].Place }, "does not lie beyond"},
		{"shares", func(in *Inputs) { in.Uses[0].Share = 0.5 }, "share"},
		{"off the way", func(in *Inputs) { in.Uses[0].Place = -500 * mm }, "front way"},
		{"no wear", func(in *Inputs) {
			for i := range in.Depths {
				in.Depths[i].FrontAfter = in.Depths[i].FrontBefore - 1*um
			}
		}, "not deeper"},
		{"not a number", func(in *Inputs) { in.Depths[2].RearAfter = unit.Length(math.NaN()) }, "rear way"},
		{"bushing", func(in *Inputs) { in.Bore = 0 }, "bushing"},
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
