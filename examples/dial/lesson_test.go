package dial

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/examples/actionshop"
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

// The made-up truth of all four dials lies within 2.5 stated standard
// uncertainties.
func TestRecoversTruth(t *testing.T) {
	for _, run := range actionshop.DialRuns() {
		s := work(t, func(in *Inputs) {
			in.Step, in.Blocks = run.Step, nil
			for _, b := range run.Blocks {
				in.Blocks = append(in.Blocks, Block{b.Block, b.Rising, b.Falling})
			}
		})
		for name, want := range map[string]float64{"gain": run.TrueGain, "hysteresis": float64(run.TrueHysteresis)} {
			q := s.Find(name).(notebook.Figure).Value
			if math.Abs(q.SI-want) > 2.5*q.U {
				t.Errorf("%s: %s = %g, u %g, want %g", run.Name, name, q.SI, q.U, want)
			}
		}
	}
}

// By hand: 0.2 mm at 20 degrees is 187.94 um; 50 um at a gain of 0.985 over 220
// mm is 230.7 um/m.
func TestExercises(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if got := s.Find("exercise-lever").(notebook.Exercise).Answer.SI; math.Abs(got-187.94e-6) > 0.01e-6 {
		t.Errorf("exercise-lever = %g", got)
	}
	if got := s.Find("exercise-gain").(notebook.Exercise).Answer.SI; math.Abs(got-230.7e-6) > 0.1e-6 {
		t.Errorf("exercise-gain = %g", got)
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
		"two blocks": func(in *Inputs) { in.Blocks = []Block{in.Blocks[0], in.Blocks[5]} },
		"perfect":    func(in *Inputs) { in.Step, in.Blocks = 0, []Block{{}, {1 * mm, 1 * mm, 1 * mm}} },
		"slanted":    func(in *Inputs) { in.StylusAngle, in.StylusAngleU = 30*squaring.Degree, 5*squaring.Degree },
	} {
		if got := names(work(t, change)); got != want {
			t.Errorf("%s: items\n%s\nwant\n%s", name, got, want)
		}
	}
}

func TestBadInputs(t *testing.T) {
	for name, change := range map[string]func(*Inputs){
		"one block":   func(in *Inputs) { in.Blocks = in.Blocks[:1] },
		"blocks same": func(in *Inputs) { in.Blocks = []Block{{}, {}, {}} },
		"wrong unit":  func(in *Inputs) { in.Blocks = []Block{{}, {1 * mm, 25.4 * mm, 25.4 * mm}} },
		"nan":         func(in *Inputs) { in.Blocks[2].Falling = unit.Length(math.NaN()) },
		"no span":     func(in *Inputs) { in.Span = 0 },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
