package square

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/examples/actionshop"
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

// The made-up truth lies within three stated standard uncertainties.
func TestRecoversTruth(t *testing.T) {
	s := work(t, func(*Inputs) {})
	for _, run := range actionshop.SquareRuns() {
		letter := strings.ToLower(run.Axis)
		for name, want := range map[string]float64{"lean-" + letter: run.TrueLean, "square-" + letter: run.TrueSquare} {
			q := s.Find(name).(notebook.Figure).Value
			if math.Abs(q.SI-want) > 3*q.U {
				t.Errorf("%s = %g, u %g, want %g", name, q.SI, q.U, want)
			}
		}
	}
	if v := s.Find("own").(notebook.Verdict); v.Tone != notebook.Good {
		t.Errorf("own: %s", v.Text.In(notebook.Metric))
	}
	if v := s.Find("knee").(notebook.Verdict); v.Tone != notebook.Good {
		t.Errorf("knee: %s", v.Text.In(notebook.Metric))
	}
}

// By hand: -53 and +27 urad; 60 urad over 120 mm is 7.2 um.
func TestExercises(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if got := s.Find("exercise-lean").(notebook.Exercise).Answer.SI; math.Abs(got+53.3e-6) > 0.1e-6 {
		t.Errorf("exercise-lean = %g", got)
	}
	if got := s.Find("exercise-shift").(notebook.Exercise).Answer.SI; math.Abs(got-7.2e-6) > 1e-9 {
		t.Errorf("exercise-shift = %g", got)
	}
}

func TestVerdicts(t *testing.T) {
	leaning := work(t, func(in *Inputs) {
		for i := range in.X {
			in.X[i].Marked += in.X[i].Height * 200e-6
			in.X[i].Turned += in.X[i].Height * 200e-6
		}
	})
	if v := leaning.Find("knee").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Errorf("knee: %s", v.Text.In(notebook.Metric))
	}
	two := work(t, func(in *Inputs) {
		for i := range in.X {
			in.X[i].Marked += in.X[i].Height * 200e-6
			in.X[i].Turned -= in.X[i].Height * 200e-6
		}
	})
	if v := two.Find("own").(notebook.Verdict); v.Tone != notebook.Watch {
		t.Errorf("own: %s", v.Text.In(notebook.Metric))
	}
}

func TestSameItemsAlways(t *testing.T) {
	names := func(s *notebook.Sheet) string {
		var all []string
		for _, item := range s.Items {
			all = append(all, item.Kind()+" "+item.ItemName())
		}
		return strings.Join(all, "\n")
	}
	want := names(work(t, func(*Inputs) {}))
	for name, change := range map[string]func(*Inputs){
		"x only":      func(in *Inputs) { in.Y = nil },
		"y only":      func(in *Inputs) { in.X = nil },
		"two heights": func(in *Inputs) { in.X, in.Y = in.X[:2], in.Y[:2] },
		"no rise":     func(in *Inputs) { in.Rise, in.Step = 0, 0 },
	} {
		if got := names(work(t, change)); got != want {
			t.Errorf("%s: items\n%s\nwant\n%s", name, got, want)
		}
	}
}

func TestBadInputs(t *testing.T) {
	for name, change := range map[string]func(*Inputs){
		"nothing":    func(in *Inputs) { in.X, in.Y = nil, nil },
		"one height": func(in *Inputs) { in.X = in.X[:1] },
		"nan":        func(in *Inputs) { in.Y[1].Turned = unit.Length(math.NaN()) },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
