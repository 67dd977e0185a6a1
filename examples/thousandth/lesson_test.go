package thousandth

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

// By hand: 0.0012 over 8 is 150 um/m; 0.0001 over 8 is 12.5, and 0.04 of 8 is
// half a per cent of 150, 0.75: together 12.52.
func TestSlope(t *testing.T) {
	s := work(t, func(*Inputs) {})
	q := s.Find("slope").(notebook.Figure).Value
	if math.Abs(q.SI-150e-6) > 1e-12 || math.Abs(q.U-12.5225e-6) > 1e-10 {
		t.Errorf("slope %g u %g", q.SI, q.U)
	}
	if v := s.Find("limit-verdict").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Errorf("%s", v.Text.In(notebook.Metric))
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestLimit(t *testing.T) {
	for tone, reading := range map[notebook.Tone]unit.Length{notebook.Good: 5 * um, notebook.Watch: -17 * um, notebook.Stop: -60 * um} {
		s := work(t, func(in *Inputs) { in.Reading = reading })
		if v := s.Find("limit-verdict").(notebook.Verdict); v.Tone != tone {
			t.Errorf("%g um: %s %s", float64(reading/um), v.Tone, v.Text.In(notebook.Metric))
		}
	}
	work(t, func(in *Inputs) { in.Reading = 0 })
}

func TestBadInputs(t *testing.T) {
	for inputs, want := range map[string]string{`"span": "8"`: "unit", `"span": "0 in"`: "below the least", `"reading": "x thou"`: "number", `"limit": "-1 mm"`: "0"} {
		_, err := Lesson().Work([]byte(`{"lesson": "thousandth", "format": 1, "inputs": {` + inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want a message with %q", inputs, err, want)
		}
	}
}
