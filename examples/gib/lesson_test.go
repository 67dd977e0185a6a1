package gib

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

// truePlay is the play that the demonstration's readings were made from.
func truePlay(x float64) float64 {
	return 26e-6 + 34e-6*math.Exp(-math.Pow((x-0.18)/0.15, 2)/2)
}

func TestRecoversThePlay(t *testing.T) {
	r, err := work(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range r.plays {
		if off := float64(p.Clear) - truePlay(float64(p.Travel)); math.Abs(off) > 2.5*float64(p.U) {
			t.Errorf("X = %g mm: play %g, u %g, truth %g", float64(p.Travel/mm), float64(p.Clear), float64(p.U), truePlay(float64(p.Travel)))
		}
		// The setting keeps the film at every place, by the truth.
		if left := truePlay(float64(p.Travel)) - float64(r.set.Close); left < float64(r.in.Film) {
			t.Errorf("X = %g mm: %g of film left, want %g", float64(p.Travel/mm), left, float64(r.in.Film))
		}
	}
	sheet := worked(t, Defaults())
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	// 55 - (30 - 10), by hand.
	if e := sheet.Find("exercise-setting").(notebook.Exercise); math.Abs(e.Answer.SI-35e-6) > 1e-12 {
		t.Errorf("exercise-setting = %g, want 35e-6", e.Answer.SI)
	}
}

func TestVerdicts(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		tone   notebook.Tone
		want   string
	}{
		{"as it is", func(*Inputs) {}, notebook.Watch, "no one setting"},
		{"patient work", func(in *Inputs) { in.Rock = 60 * um }, notebook.Good, "within"},
		{"too tight", func(in *Inputs) { in.Film = 40 * um; in.Rock = 100 * um }, notebook.Good, "Open the gib"},
	} {
		in := Defaults()
		test.change(&in)
		if v := worked(t, in).Find("answer").(notebook.Verdict); v.Tone != test.tone || !strings.Contains(v.Text.In(notebook.Metric), test.want) {
			t.Errorf("%s: %s", test.name, v.Text.In(notebook.Metric))
		}
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"one place", func(in *Inputs) { in.Readings = in.Readings[:3] }, "two places"},
		{"pulled more", func(in *Inputs) { in.Readings[1].Pulled = 40 * um }, "below zero"},
		{"not a number", func(in *Inputs) { in.Readings[1].Pushed = unit.Length(math.NaN()) }, "play at X = -360 mm is NaN"},
		{"chance", func(in *Inputs) { in.Chance = 2 }, "chance 2"},
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
