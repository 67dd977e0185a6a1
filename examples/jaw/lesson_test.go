package jaw

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

// The made-up turn of each setting lies within three stated standard
// uncertainties.
func TestRecoversTruth(t *testing.T) {
	for i, run := range actionshop.JawRuns() {
		s := work(t, func(in *Inputs) { in.Run = points(run) })
		q := s.Find("twist").(notebook.Figure).Value
		if math.Abs(q.SI-run.TrueYaw) > 3*q.U {
			t.Errorf("setting %d: twist %g, u %g, want %g", i+1, q.SI, q.U, run.TrueYaw)
		}
	}
}

// Lean 0.012 in 45 is 267 um/m; lean and lift over a 60 mm block make the 46 um
// that the shop's block came out, and the bar leaves 16 where 15 to 18 was read.
func TestBlocks(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if q := s.Find("lean").(notebook.Figure).Value; math.Abs(q.SI-266.7e-6) > 0.1e-6 {
		t.Errorf("lean = %g", q.SI)
	}
	rows := s.Find("holding").(notebook.Table).Rows
	for i, want := range []float64{46e-6, 16e-6, 0} {
		if got := rows[i][2].Quantity.SI; math.Abs(got-want) > 1e-9 {
			t.Errorf("row %d: %g, want %g", i+1, got, want)
		}
	}
	for name, want := range map[string]float64{"exercise-lean": 16e-6, "exercise-lift": 46e-6} {
		if got := s.Find(name).(notebook.Exercise).Answer.SI; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s = %g, want %g", name, got, want)
		}
	}
	if v := s.Find("block").(notebook.Verdict).Text.In(notebook.Metric); !strings.Contains(v, "shim") {
		t.Errorf("block: %q", v)
	}
	if v := s.Find("hollow-verdict").(notebook.Verdict).Text.In(notebook.Metric); !strings.Contains(v, "worn hollow") {
		t.Errorf("hollow: %q", v)
	}
}

func TestTap(t *testing.T) {
	s := work(t, func(in *Inputs) { in.Run = points(actionshop.JawRuns()[0]) })
	if v := s.Find("turn").(notebook.Verdict).Text.In(notebook.Metric); !strings.Contains(v, "away from the dial") {
		t.Errorf("turn: %q", v)
	}
	s = work(t, func(in *Inputs) { in.Run, in.Limit = points(actionshop.JawRuns()[1]), 100e-6 })
	if v := s.Find("turn").(notebook.Verdict).Text.In(notebook.Metric); !strings.Contains(v, "toward the dial") {
		t.Errorf("turn: %q", v)
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
	over := 0.010 * mm
	want := names(work(t, func(*Inputs) {}))
	for name, change := range map[string]func(*Inputs){
		"no run before, no trials": func(in *Inputs) { in.Before, in.Trials = nil, nil },
		"block turned over":        func(in *Inputs) { in.LeanOver = (*unit.Length)(&over) },
		"three points":             func(in *Inputs) { in.Run = []Point{in.Run[0], in.Run[3], in.Run[6]} },
		"all zero": func(in *Inputs) {
			for i := range in.Run {
				in.Run[i].Shown = 0
			}
			in.Lean, in.Lift = 0, 0
		},
		"crowned": func(in *Inputs) {
			for i := range in.Run {
				in.Run[i].Shown = -in.Run[i].Shown
			}
		},
		"tight limit": func(in *Inputs) { in.Limit = 1e-9 },
	} {
		if got := names(work(t, change)); got != want {
			t.Errorf("%s: items\n%s\nwant\n%s", name, got, want)
		}
	}
}

func TestBadInputs(t *testing.T) {
	for name, change := range map[string]func(*Inputs){
		"two places": func(in *Inputs) { in.Run = []Point{in.Run[0], in.Run[1], in.Run[0]} },
		"same place": func(in *Inputs) { in.Tap = in.Bolt },
		"nan":        func(in *Inputs) { in.Before[2].Shown = unit.Length(math.NaN()) },
		"no height":  func(in *Inputs) { in.JawHeight = 0 },
		"no depth":   func(in *Inputs) { in.Deep = 0 },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
