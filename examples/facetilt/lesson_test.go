package facetilt

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
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

func figure(s *notebook.Sheet, name string) notebook.Quantity {
	return s.Find(name).(notebook.Figure).Value
}

// By hand: 238 um/m over a step of 50 mm is 11.9 um, and down 60 mm in both
// directions 14.28 times root two.
func TestDemo(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if got := figure(s, "step").SI; math.Abs(got-11.9e-6) > 1e-9 {
		t.Errorf("step %g", got)
	}
	if got := figure(s, "hole").SI; math.Abs(got-14.28e-6*math.Sqrt2) > 1e-9 {
		t.Errorf("hole %g", got)
	}
	if v := s.Find("answer").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Error(v.Text.In(notebook.Metric))
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

// The table lower on the right means, to the spindle, a low left side: fed to the
// right the front is high and the heel cuts; fed to the left the front does.
func TestEdgesChangeWithTheFeed(t *testing.T) {
	heel := work(t, func(in *Inputs) { in.Hollow = 0 })
	if text := heel.Find("marks").(notebook.Verdict).Text.In(notebook.Metric); !strings.HasPrefix(text, "The heel makes 100") {
		t.Error(text)
	}
	front := work(t, func(in *Inputs) { in.Hollow, in.Feed = 0, left })
	if text := front.Find("marks").(notebook.Verdict).Text.In(notebook.Metric); !strings.HasPrefix(text, "The front of the cutter makes 100") {
		t.Error(text)
	}
}

func TestPlaces(t *testing.T) {
	square := work(t, func(in *Inputs) { in.TiltX, in.TiltY, in.TiltXU, in.TiltYU, in.Hollow = 0, 0, 1e-6, 1e-6, 0 })
	if v := square.Find("answer").(notebook.Verdict); v.Tone != notebook.Good {
		t.Error(v.Text.In(notebook.Metric))
	}
	gap := work(t, func(in *Inputs) { in.Cutter, in.StepOver = 30*mm, 60*mm })
	if v := gap.Find("uncut").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Error(v.Text.In(notebook.Metric))
	}
	work(t, func(in *Inputs) { in.Passes, in.Width = 1, 400*mm })
	work(t, func(in *Inputs) { in.TiltX = -10e-3 * squaring.Slope(1); in.Hollow = -1 * mm })
}

func TestBadInputs(t *testing.T) {
	for inputs, want := range map[string]string{
		`"tilt-x": "20"`:   "unit",
		`"cutter": "0 mm"`: "below the least",
		`"feed": "up"`:     "not one of",
		`"passes": 2, "width": "10 mm", "cutter": "20 mm", "step-over": "500 mm"`: "miss the face",
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "facetilt", "format": 1, "inputs": {` + inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want a message with %q", inputs, err, want)
		}
	}
}
