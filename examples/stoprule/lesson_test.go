package stoprule

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

func decisionText(t *testing.T, s *notebook.Sheet) string {
	t.Helper()
	return s.Find("decision").(notebook.Verdict).Text.In(notebook.Metric)
}

// Residual 9, scatter 8: 0.74, go; residual 4: 0.38, stop (definition, printed
// with the exercises to two figures).
func TestExercises(t *testing.T) {
	s := work(t, func(*Inputs) {})
	for name, want := range map[string]float64{"exercise-go": 0.74, "exercise-stop": 0.38} {
		if got := s.Find(name).(notebook.Exercise).Answer.SI; math.Abs(got-want) > 0.005 {
			t.Errorf("%s = %v, want %v", name, got, want)
		}
	}
}

func TestDecisions(t *testing.T) {
	one := func(residual, u, scatter, limit squaring.Slope) func(*Inputs) {
		return func(in *Inputs) {
			in.Directions = []Direction{{Name: sideToSide, Residual: residual * 1e-6, ResidualU: u * 1e-6, Scatter: scatter * 1e-6, Trials: 200}}
			in.Limit = limit * 1e-6
		}
	}
	tests := []struct {
		name   string
		change func(*Inputs)
		want   string
	}{
		{"good already", one(4, 2, 8, 30), "Stop. What stands"},
		{"far out", one(60, 5, 8, 30), "One more try"},
		{"no better", one(9, 4, 30, 12), "Stop trying"},
		{"hopeless limit", one(4, 1, 8, 1), "Leave it"},
	}
	for _, test := range tests {
		if got := decisionText(t, work(t, test.change)); !strings.HasPrefix(got, test.want) {
			t.Errorf("%s: %q, want it to begin with %q", test.name, got, test.want)
		}
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
		"one direction": func(in *Inputs) { in.Directions = in.Directions[:1] },
		"hopeless":      func(in *Inputs) { in.Limit = 1e-12 },
		"far out":       func(in *Inputs) { in.Directions[0].Residual = 5e-3 },
		"generous":      func(in *Inputs) { in.Limit = 9e-3 },
	} {
		if got := names(work(t, change)); got != want {
			t.Errorf("%s: items\n%s\nwant\n%s", name, got, want)
		}
	}
}

func TestBadInputs(t *testing.T) {
	for name, change := range map[string]func(*Inputs){
		"none":       func(in *Inputs) { in.Directions = nil },
		"twice":      func(in *Inputs) { in.Directions[1].Name = in.Directions[0].Name },
		"no scatter": func(in *Inputs) { in.Directions[0].Scatter = 0 },
		"nan":        func(in *Inputs) { in.Directions[0].Residual = squaring.Slope(math.NaN()) },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
