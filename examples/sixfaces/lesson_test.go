package sixfaces

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

// The shop's blocks: 16 um over 60 mm by the jaw's lean alone with a round bar,
// and 46 as clamped, each face against face 1.
func TestBlocks(t *testing.T) {
	for holding, want := range map[string]float64{bar: 16e-6, noBar: 46e-6} {
		rows := work(t, func(in *Inputs) { in.Holding = holding }).Find("angles").(notebook.Table).Rows
		if got := -rows[0][2].Quantity.SI; rows[0][0].Words != "1 and 2" || math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: faces %s out by %g, want %g", holding, rows[0][0].Words, got, want)
		}
	}
}

func TestAnswers(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if v := s.Find("answer").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Errorf("answer: %s", v.Text.In(notebook.Metric))
	}
	s = work(t, func(in *Inputs) {
		in.Lean, in.Lift, in.Square = 0, 0, 0
		in.LeanU, in.BedU, in.LiftU, in.SquareU = 1e-6, 1e-6, 1e-6, 1e-6
	})
	if v := s.Find("answer").(notebook.Verdict); v.Tone != notebook.Good {
		t.Errorf("answer: %s", v.Text.In(notebook.Metric))
	}
	if got := s.Find("exercise-last").(notebook.Exercise).Answer.SI; math.Abs(got-300e-6) > 1e-12 {
		t.Errorf("exercise-last = %g", got)
	}
	if got := s.Find("exercise-parallel").(notebook.Exercise).Answer.SI; math.Abs(got-6e-6) > 1e-12 {
		t.Errorf("exercise-parallel = %g", got)
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
		"on the jaw": func(in *Inputs) { in.Seat = flatOnJaw },
		"no bar":     func(in *Inputs) { in.Holding = noBar },
		"perfect": func(in *Inputs) {
			*in = Inputs{Seat: flatOnBed, Holding: bar, Size: in.Size, Limit: in.Limit, Wedged: in.Wedged}
		},
		"dreadful": func(in *Inputs) { in.Lean, in.Lift, in.BedX, in.BedY, in.Square = 10e-3, 10e-3, -10e-3, 10e-3, -10e-3 },
	} {
		if got := names(work(t, change)); got != want {
			t.Errorf("%s: items\n%s\nwant\n%s", name, got, want)
		}
	}
}

func TestBadInputs(t *testing.T) {
	for name, change := range map[string]func(*Inputs){
		"nan":      func(in *Inputs) { in.Lean = squaring.Slope(math.NaN()) },
		"negative": func(in *Inputs) { in.LiftU = -1 },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
