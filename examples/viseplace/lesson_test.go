package viseplace

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

func TestDefaultsAreTheShopsPockets(t *testing.T) {
	in := Defaults()
	if len(in.Depths) != 9 {
		t.Fatalf("%d depths", len(in.Depths))
	}
	// The truth of the front way in 2025, to three standard uncertainties of
	// single stations; where no pocket is left only a bound is known.
	for i, want := range []float64{4.6, 18.4, 41.5, 56.3, 0, 43.5, 28.2, 13.8, 4.9} {
		if got := float64(in.Depths[i].Depth / um); want > 0 && math.Abs(got-want) > 9 {
			t.Errorf("depth %d is %g um, truth %g", i+1, got, want)
		}
	}
}

func TestWorkRecoversTheHiddenTruth(t *testing.T) {
	c, err := choose(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	// Slopes of the true table: 25.6 um/m at X = 0, about -82 at X = +180.
	if miss := math.Abs(float64(c.here.spot.Lean)*1e6 - (-82 - 25.6)); miss > 2*float64(c.here.spot.LeanU)*1e6 {
		t.Errorf("lean %g um/m, u %g", float64(c.here.spot.Lean)*1e6, float64(c.here.spot.LeanU)*1e6)
	}
	// The flank is straight: under 0.1 um in truth.
	if miss := math.Abs(float64(c.here.spot.Bow)); miss > 2*float64(c.here.spot.BowU) {
		t.Errorf("bow at the flank %g um, u %g", float64(c.here.spot.Bow/um), float64(c.here.spot.BowU/um))
	}
	for _, check := range worked(t, Defaults()).Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestThePick(t *testing.T) {
	in := Defaults()
	c, err := choose(in)
	if err != nil {
		t.Fatal(err)
	}
	if !c.enough {
		t.Errorf("no place keeps %g um", float64(in.Tolerance/um))
	}
	for _, p := range c.all {
		if s := p.spot; keeps(in, s) && p.ahead.Uneven() < c.pick.ahead.Uneven() {
			t.Errorf("%g mm is fairer than the pick and keeps the tolerance", float64(s.Place/mm))
		}
	}
	// The scenario's conclusion: small work belongs on the straight flank.
	if c.pick.spot.Place < 120*mm {
		t.Errorf("the pick is %g mm", float64(c.pick.spot.Place/mm))
	}
	in.Tolerance = 0.01 * um
	v := worked(t, in).Find("answer").(notebook.Verdict)
	if v.Tone != notebook.Watch {
		t.Errorf("a hundredth of a micrometre: %s", v.Text.In(notebook.Metric))
	}
}

func TestNoWearToCome(t *testing.T) {
	in := Defaults()
	in.Rate = 0
	c, err := choose(in)
	if err != nil {
		t.Fatal(err)
	}
	for i := range c.start {
		if c.here.ahead.Worn[i] != c.start[i] {
			t.Fatalf("wear at station %d without a rate", i+1)
		}
	}
	worked(t, in)
}

func TestMostUsedPlaceWearsByTheRate(t *testing.T) {
	// With the vise left where it is the most used place loses what rate times
	// hours say.
	c, err := choose(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for i, d := range c.here.ahead.Worn {
		most = math.Max(most, float64(d-c.start[i]))
	}
	if want := float64(c.added); math.Abs(most-want) > 0.01*want {
		t.Errorf("deepest %g um, rate times hours %g um", most*1e6, want*1e6)
	}
}

func TestExerciseAnswers(t *testing.T) {
	sheet := worked(t, Defaults())
	for _, name := range []string{"exercise-sliding", "exercise-lean"} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok {
			t.Fatalf("no exercise %q", name)
		}
		for _, wrong := range e.Wrong {
			if math.Abs(wrong.Value.SI-e.Answer.SI) < 0.05*math.Abs(e.Answer.SI) {
				t.Errorf("%s: a wrong turn gives the answer", name)
			}
		}
	}
	// From 20 to 90 mm of the saddle's middle: 70 mm.
	if e := sheet.Find("exercise-sliding").(notebook.Exercise); math.Abs(e.Answer.SI-0.070) > 1e-9 {
		t.Errorf("sliding %g m", e.Answer.SI)
	}
}

func TestBadInput(t *testing.T) {
	tests := []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"part too long", func(in *Inputs) { in.Part = 900 * mm }, "part of 900 mm"},
		{"vise off the table", func(in *Inputs) { in.Now = 400 * mm }, "middle at 400 mm"},
		{"head set nowhere", func(in *Inputs) { in.Set = 900 * mm }, "head was set"},
		{"depths out of order", func(in *Inputs) { in.Depths[2].Place = -900 * mm }, "place 3"},
		{"saddle off the way", func(in *Inputs) { in.Stroke = 600 * mm }, "off the way"},
		{"table tips", func(in *Inputs) { in.Saddle = 120 * mm }, "tips"},
		{"no load", func(in *Inputs) { in.TableWeight, in.ViseWeight, in.Thrust = 0, 0, 0 }, "not both zero"},
		{"not a number", func(in *Inputs) { in.Readings[1].Normal = math.NaN() }, "station 2"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func FuzzWork(f *testing.F) {
	f.Add(8.5, 56e-6, -0.18, 0.15, 0.18, 0.46)
	f.Add(1000.0, 0.0, 0.0, 0.01, 0.001, 1.0)
	f.Fuzz(func(t *testing.T, normal, depth, now, part, stroke, saddle float64) {
		if !(depth >= 0 && depth < 5e-3) {
			return // the form refuses it
		}
		in := Defaults()
		in.Readings[3].Normal, in.Depths[4].Depth = normal, unit.Length(depth)
		in.Now, in.Part, in.Stroke, in.Saddle = unit.Length(now), unit.Length(part), unit.Length(stroke), unit.Length(saddle)
		sheet, err := Work(in)
		if err != nil {
			return
		}
		if err := sheet.Validate(); err != nil {
			t.Error(err)
		}
	})
}

func BenchmarkWork(b *testing.B) {
	in := Defaults()
	for b.Loop() {
		if _, err := Work(in); err != nil {
			b.Fatal(err)
		}
	}
}
