package threesquares

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

// The shop's square is truly out by 28 um/m, and both ways find it within two of
// their standard uncertainties. By hand: openings of 3.5, -1.5 and 6.5 um.
func TestDemo(t *testing.T) {
	s := work(t, func(*Inputs) {})
	for i, want := range []float64{28.75, -11.25, 3.75} {
		q := s.Find("error-" + ordinal[i]).(notebook.Figure).Value
		if math.Abs(q.SI*1e6-want) > 1e-9 {
			t.Errorf("the %s square is out by %g, want %g um/m", ordinal[i], q.SI*1e6, want)
		}
	}
	for _, name := range []string{"error-first", "reference"} {
		q := s.Find(name).(notebook.Figure).Value
		if math.Abs(q.SI-28e-6) > 2*q.U {
			t.Errorf("%s: %g (u %g), truth 28e-6", name, q.SI, q.U)
		}
	}
	for _, name := range []string{"best", "same", "rounds", "agree"} {
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

func TestVerdicts(t *testing.T) {
	tone := func(s *notebook.Sheet, name string) notebook.Tone { return s.Find(name).(notebook.Verdict).Tone }
	dirty := work(t, func(in *Inputs) { in.Comparisons[1].Opening = 40 * um })
	if tone(dirty, "same") != notebook.Stop {
		t.Error("a hair between the blades goes unseen")
	}
	once := work(t, func(in *Inputs) {
		in.Comparisons = []Comparison{{firstSecond, 3 * um}, {secondThird, -2 * um}, {firstThird, 7 * um}}
		for i := range in.Corners {
			in.Corners[i].Second = nil
		}
	})
	if tone(once, "same") != notebook.Note || tone(once, "rounds") != notebook.Note {
		t.Error("one round is said to be checked")
	}
	shifted := work(t, func(in *Inputs) {
		second := []unit.Length{15 * um, -30 * um, 5 * um, -2 * um}
		for i := range in.Corners {
			in.Corners[i].First = second[i]
			begun := second[(i+1)%4]
			in.Corners[i].Second = &begun
		}
	})
	if text := shifted.Find("rounds").(notebook.Verdict).Text.In(notebook.Metric); !strings.Contains(text, "corner") || tone(shifted, "rounds") != notebook.Stop {
		t.Errorf("a round begun at another corner: %s", text)
	}
	if s := work(t, func(in *Inputs) { in.Limit = 5 * squaring.Microradian }); tone(s, "best") != notebook.Watch {
		t.Errorf("limit 5 um/m: %s", tone(s, "best"))
	}
	all := work(t, func(in *Inputs) {
		for i := range in.Comparisons {
			in.Comparisons[i].Opening = 20 * um
		}
	})
	if tone(all, "best") != notebook.Stop {
		t.Errorf("three squares out by 50 um/m: %s", tone(all, "best"))
	}
}

func TestBadInputs(t *testing.T) {
	for name, change := range map[string]func(*Inputs){
		"a pair is missing":  func(in *Inputs) { in.Comparisons = in.Comparisons[:4] },
		"half a second":      func(in *Inputs) { in.Corners[2].Second = nil },
		"nan":                func(in *Inputs) { in.Corners[1].First = unit.Length(math.NaN()) },
		"two corners":        func(in *Inputs) { in.Corners = in.Corners[:2] },
		"nothing over which": func(in *Inputs) { in.Height = 0 },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
