package sinebar

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
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

// By hand: 3.767 mm over 75 mm is 50.2267 mm/m, against 0.6024 in per foot,
// 50.2: 26.7 um/m of taper, half of it on each side: 5.5 arc seconds included.
func TestDemo(t *testing.T) {
	s := work(t, func(*Inputs) {})
	q := s.Find("off-found").(notebook.Figure).Value
	if math.Abs(q.SI-26.667e-6) > 0.05e-6 {
		t.Errorf("off by %g rad", q.SI)
	}
	for _, name := range []string{"decision", "agree"} {
		if v := s.Find(name).(notebook.Verdict); v.Tone != notebook.Good {
			t.Errorf("%s: %s", name, v.Text.In(notebook.Metric))
		}
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

// The rounding of the stack is known, and drops out: blocks ten times as coarse
// with the dial reading that they then give say the same.
func TestRoundingDropsOut(t *testing.T) {
	in := Defaults()
	w, err := in.work()
	if err != nil {
		t.Fatal(err)
	}
	coarse := in
	coarse.Block = 0.1 * mm
	c, err := coarse.work()
	if err != nil {
		t.Fatal(err)
	}
	if c.stack == w.stack {
		t.Fatal("both stacks are alike")
	}
	rise := math.Tan(float64(c.set.Angle - w.byDial.Angle))
	coarse.Rise = in.Run * unit.Length(rise)
	if c, err = coarse.work(); err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(c.byDial.Angle-w.byDial.Angle)) > 1e-12 {
		t.Errorf("coarse blocks say %g, fine ones %g", float64(c.byDial.Angle), float64(w.byDial.Angle))
	}
}

func TestVerdicts(t *testing.T) {
	for want, change := range map[notebook.Tone]func(*Inputs){
		notebook.Stop:  func(in *Inputs) { in.Rise = 20 * um },
		notebook.Watch: func(in *Inputs) { in.Limit = 5 * squaring.Arcsecond },
	} {
		s := work(t, change)
		if v := s.Find("decision").(notebook.Verdict); v.Tone != want {
			t.Errorf("want %s: %s", want, v.Text.In(notebook.Metric))
		}
	}
	if v := work(t, func(in *Inputs) { in.Large += 0.02 * mm }).Find("agree").(notebook.Verdict); v.Tone != notebook.Watch {
		t.Error("a wrong diameter goes unseen")
	}
	work(t, func(in *Inputs) { in.Nominal = own })
	work(t, func(in *Inputs) { in.Nominal, in.Taper, in.Rise = own, 0, 0 })
}

func TestBadInputs(t *testing.T) {
	for inputs, want := range map[string]string{`"large": "20 mm"`: "small diameter", `"bar": "5"`: "unit", `"apart": "0 mm"`: "0", `"nominal": "Brown"`: "not one of"} {
		_, err := Lesson().Work([]byte(`{"lesson": "sinebar", "format": 1, "inputs": {` + inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want a message with %q", inputs, err, want)
		}
	}
}
