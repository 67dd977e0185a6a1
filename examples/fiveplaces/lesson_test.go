package fiveplaces

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"gonum.org/v1/gonum/unit"
)

func work(t *testing.T, change func(*Inputs)) *notebook.Sheet {
	t.Helper()
	in := Defaults()
	change(&in)
	s, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	return s
}

// The hidden truth: slopes of the table on its ways in 2025, by travel in mm, in
// um/m, of which a straight line between two is near enough here; the top is a
// parabola of -8 um at 500 mm.
var truth = map[float64]float64{-360: 79.1, -240: 95.1, -120: 79.6, 0: 25.6, 120: -52.2, 240: -107.0, 360: -106.7}

func trueSlope(x float64) float64 {
	lo := math.Floor(x/120) * 120
	t := (x - lo) / 120
	if t == 0 {
		return truth[lo]
	}
	return truth[lo]*(1-t) + truth[lo+120]*t
}

func TestRecoversTruth(t *testing.T) {
	w, err := Defaults().work()
	if err != nil {
		t.Fatal(err)
	}
	if d := w.form.curve + 32e-6; math.Abs(d) > 2.5*w.form.curveU || w.form.curveU > 25e-6 {
		t.Errorf("bend of the top %g u %g, want -32e-6", w.form.curve, w.form.curveU)
	}
	for _, p := range w.places {
		x := float64(p.travel / mm)
		want := (trueSlope(x) - trueSlope(0)) * 1e-6
		// Reading between the truth's stations adds up to 8 um/m.
		if miss := math.Abs(float64(p.ways.Slope) - want); miss > 2*float64(p.ways.Uncertainty)+8e-6 {
			t.Errorf("ways at %g mm: %v u %v, want %.0f um/m", x, p.ways.Slope, p.ways.Uncertainty, want*1e6)
		}
		if sum := p.head.Slope + p.ways.Slope + p.top.Slope - p.whole.Slope; math.Abs(float64(sum)) > 1e-15 {
			t.Errorf("the shares at %g mm miss the whole by %v", x, sum)
		}
	}
	s := work(t, func(*Inputs) {})
	if v := s.Find("answer").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Error(v.Text.In(notebook.Metric))
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

// A moved head moves the head's share, and neither ways, top nor runs.
func TestHeadMovesNothingElse(t *testing.T) {
	in := Defaults()
	before, err := in.work()
	if err != nil {
		t.Fatal(err)
	}
	for i := range in.Sweeps {
		s := &in.Sweeps[i]
		for k, p := range []*unit.Length{&s.R0, &s.R1, &s.R2, &s.R3, &s.R4, &s.R5, &s.R6, &s.R7, &s.Closing} {
			*p += 240e-6 * in.Radius * unit.Length(math.Cos(float64(k)*math.Pi/4))
		}
	}
	after, err := in.work()
	if err != nil {
		t.Fatal(err)
	}
	for i := range after.places {
		a, b := before.places[i], after.places[i]
		if math.Abs(float64(b.head.Slope-a.head.Slope)-240e-6) > 1e-12 || math.Abs(float64(b.ways.Slope-a.ways.Slope)) > 1e-12 || b.top != a.top {
			t.Errorf("place %d: head %v to %v, ways %v to %v", i, a.head.Slope, b.head.Slope, a.ways.Slope, b.ways.Slope)
		}
	}
}

func TestPlaces(t *testing.T) {
	work(t, func(in *Inputs) { in.WorkAt = 900 * mm })
	if v := work(t, func(in *Inputs) { in.WorkAt = 0 }).Find("answer").(notebook.Verdict); v.Tone == notebook.Stop {
		t.Error(v.Text.In(notebook.Metric))
	}
}

func TestBadInputs(t *testing.T) {
	for inputs, want := range map[string]string{
		`"radius": "110"`: "unit",
		`"bar": {"rows": [[-240, 0, 0], [0, 0, 0], [60, 0, 0], [61, 0, 0]]}`:                        "in common",
		`"bar": {"rows": [[60, 0, 0], [0, 0, 0], [-60, 0, 0], [-120, 0, 0]]}`:                       "left to right",
		`"run": {"rows": [[0, 0], [0, 1], [60, 0]]}`:                                                "twice",
		`"sweeps": {"rows": [[0,0,0,0,0,0,0,0,0,0], [0,0,0,0,0,0,0,0,0,0], [9,0,0,0,0,0,0,0,0,0]]}`: "left to right",
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "fiveplaces", "format": 1, "inputs": {` + inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want a message with %q", inputs, err, want)
		}
	}
}
