package twodials

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

func figure(t *testing.T, s *notebook.Sheet, name string) notebook.Figure {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure %q", name)
	}
	return f
}

func text(t *testing.T, s *notebook.Sheet, name string) string {
	t.Helper()
	v, ok := s.Find(name).(notebook.Verdict)
	if !ok {
		t.Fatalf("no verdict %q", name)
	}
	return v.Text.In(notebook.Metric)
}

// The setting of 2023: dials alike, head far out. The made-up truth lies within
// three stated standard uncertainties.
func TestRecoversTruth(t *testing.T) {
	s := work(t, func(*Inputs) {})
	truth := actionshop.TrueTilts()[2]
	for name, want := range map[string]float64{"tilt-x": -truth.LeftX, "tilt-y": -truth.LeftY, "mismatch": float64(truth.Mismatch)} {
		q := figure(t, s, name).Value
		if math.Abs(q.SI-want) > 3*q.U {
			t.Errorf("%s = %g, u %g, want %g", name, q.SI, q.U, want)
		}
	}
	for name, want := range map[string]string{"answer-side": "high on the left", "answer-nod": "operator's side", "mismatch-verdict": "same mismatch"} {
		if got := text(t, s, name); !strings.Contains(got, want) {
			t.Errorf("%s: %q, want it to say %q", name, got, want)
		}
	}
	if rows := len(s.Find("history").(notebook.Table).Rows); rows != 16 {
		t.Errorf("%d readings in the history, want 16", rows)
	}
}

// The setting of 2025 by reversal: nothing left that can be told.
func TestAsLeft(t *testing.T) {
	s := work(t, func(in *Inputs) {
		for i := range in.Pairs {
			in.Pairs[i].First, in.Pairs[i].Second = 0.600*mm, 0.635*mm
		}
	})
	if got := text(t, s, "answer-side"); !strings.Contains(got, "cannot be told from square") {
		t.Errorf("answer-side: %q", got)
	}
}

func TestMismatchDisagrees(t *testing.T) {
	s := work(t, func(in *Inputs) { in.Pairs[2].Second += 0.1 * mm })
	if got := text(t, s, "mismatch-verdict"); !strings.Contains(got, "Read again") {
		t.Errorf("mismatch-verdict: %q", got)
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
		"one direction":   func(in *Inputs) { in.Pairs = in.Pairs[:2] },
		"the other":       func(in *Inputs) { in.Pairs = in.Pairs[2:] },
		"no history":      func(in *Inputs) { in.Visits = nil },
		"repeats":         func(in *Inputs) { in.Pairs = append(in.Pairs, in.Pairs...) },
		"no uncertainty":  func(in *Inputs) { in.SpanU, in.First, in.Second = 0, Dial{Gain: 1}, Dial{Gain: 1} },
		"one pass, alike": func(in *Inputs) { in.StepOver, in.Approach = 0, oneSide },
	} {
		if got := names(work(t, change)); got != want {
			t.Errorf("%s: items\n%s\nwant\n%s", name, got, want)
		}
	}
}

func TestBadInputs(t *testing.T) {
	for name, test := range map[string]struct {
		change func(*Inputs)
		want   string
	}{
		"not turned": {func(in *Inputs) { in.Pairs = in.Pairs[:1] }, "half a turn"},
		"wide":       {func(in *Inputs) { in.Width = 200 * mm }, "wider than the cutter"},
		"nan":        {func(in *Inputs) { in.Pairs[0].First = unit.Length(math.NaN()) }, "must be a number"},
		"visit":      {func(in *Inputs) { in.Visits[3].SecondTurn = unit.Length(math.Inf(1)) }, "must be a number"},
	} {
		in := Defaults()
		test.change(&in)
		if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want a message with %q", name, err, test.want)
		}
	}
}

// By hand: 0.070/380 is 184.2 um/m, sure to 7.6; 1.5 thou over 190 is 200.5.
func TestExercises(t *testing.T) {
	s := work(t, func(*Inputs) {})
	reverse := s.Find("exercise-reverse").(notebook.Exercise).Answer
	if math.Abs(reverse.SI+184.2e-6) > 0.1e-6 || math.Abs(reverse.U-7.6e-6) > 0.05e-6 {
		t.Errorf("exercise-reverse: %g, u %g", reverse.SI, reverse.U)
	}
	if single := s.Find("exercise-single").(notebook.Exercise).Answer.SI; math.Abs(single-200.5e-6) > 0.1e-6 {
		t.Errorf("exercise-single: %g", single)
	}
}
