package setoff

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

func value(t *testing.T, s *notebook.Sheet, name string) notebook.Quantity {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure %q", name)
	}
	return f.Value
}

func text(t *testing.T, s *notebook.Sheet, name string) string {
	t.Helper()
	v, ok := s.Find(name).(notebook.Verdict)
	if !ok {
		t.Fatalf("no verdict %q", name)
	}
	return v.Text.In(notebook.Metric)
}

// The made-up truth lies within three stated standard uncertainties of each mean.
func TestRecoversTruth(t *testing.T) {
	round, cross := actionshop.TrueShifts()
	for how, truth := range map[string]actionshop.TrueShift{inTurn: round, crosswise: cross} {
		s := work(t, func(in *Inputs) { in.How = how })
		for name, want := range map[string]float64{"shift-side": truth.SideMean, "shift-nod": truth.NodMean} {
			if q := value(t, s, name); math.Abs(q.SI-want) > 3*q.U {
				t.Errorf("%s, %s = %g, u %g, want %g", how, name, q.SI, q.U, want)
			}
		}
	}
}

// Printed with the data: crosswise nod -25.4, leave +0.005 mm over 190 mm, next
// within 27; and the order of the bolts matters.
func TestAnswer(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if q := value(t, s, "shift-nod"); math.Abs(q.SI+25.4e-6) > 0.1e-6 {
		t.Errorf("shift-nod = %g", q.SI)
	}
	leave := s.Find("exercise-leave").(notebook.Exercise).Answer
	if math.Abs(leave.SI-4.83e-6) > 0.01e-6 {
		t.Errorf("exercise-leave = %g", leave.SI)
	}
	next := s.Find("exercise-next").(notebook.Exercise).Answer
	if math.Abs(next.SI-26.9e-6) > 0.2e-6 {
		t.Errorf("exercise-next = %g", next.SI)
	}
	if got := text(t, s, "compare"); !strings.Contains(got, "The order matters") {
		t.Errorf("compare: %q", got)
	}
	if got := text(t, s, "leave-nod"); !strings.Contains(got, "4.8") {
		t.Errorf("leave-nod: %q", got)
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
		"in turn":      func(in *Inputs) { in.How = inTurn },
		"two trials":   func(in *Inputs) { in.Trials = []Trial{in.Trials[1], in.Trials[3]} },
		"all alike":    func(in *Inputs) { in.Trials = []Trial{in.Trials[1], in.Trials[1], in.Trials[1]} },
		"perfect dial": func(in *Inputs) { in.Step, in.Trials = 0, []Trial{in.Trials[1], in.Trials[1]} },
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
		"too few":    {func(in *Inputs) { in.Trials = in.Trials[:1] }, "fewer than 2"},
		"no span":    {func(in *Inputs) { in.Span = 0 }, "span"},
		"not finite": {func(in *Inputs) { in.Trials[1].Nod = unit.Length(math.NaN()) }, "finite"},
	} {
		in := Defaults()
		test.change(&in)
		if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want a message with %q", name, err, test.want)
		}
	}
}
