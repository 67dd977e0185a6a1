package render

import (
	"encoding/json"
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
)

// drillLesson is a lesson with a drill that works, one that fails and one
// that panics.
func drillLesson() notebook.Lesson {
	return trialLesson().WithDrills(
		notebook.Drill{Name: "exercise-rise", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			rise := notebook.Steps(r, 1, 9, 10e-6)
			return notebook.Exercise{Name: "exercise-rise", Ask: notebook.Say("Rise <{}>?", notebook.Exact(rise, notebook.FineLengths)),
				Answer: notebook.Exact(2*rise, notebook.FineLengths), Worked: []notebook.Text{notebook.Plain("Twice & done.")},
				Wrong: []notebook.WrongTurn{{Value: notebook.Exact(3*rise, notebook.FineLengths), Why: notebook.Plain("Thrice.")}}}, nil
		}},
		notebook.Drill{Name: "exercise-broken", Draw: func(*rand.Rand) (notebook.Exercise, error) {
			return notebook.Exercise{}, errors.New("no bar")
		}},
		notebook.Drill{Name: "exercise-fault", Draw: func(*rand.Rand) (notebook.Exercise, error) { panic("oh") }},
	)
}

func TestDrillAsJSON(t *testing.T) {
	var got struct{ Ask, Help, Solution, Problem string }
	if err := json.Unmarshal(Drill(drillLesson(), "exercise-rise", 7), &got); err != nil {
		t.Fatal(err)
	}
	e, err := draw(drillLesson(), "exercise-rise", 7)
	if err != nil {
		t.Fatal(err)
	}
	if got.Problem != "" || !strings.HasPrefix(got.Ask, `<p class="ask">Rise &lt;<span class="q">`) {
		t.Errorf("asks %q, problem %q", got.Ask, got.Problem)
	}
	if !strings.Contains(got.Solution, Quantity(e.Answer, true)) || !strings.Contains(got.Solution, "Twice &amp; done.") || !strings.Contains(got.Solution, "Thrice.") {
		t.Errorf("the solution is %q", got.Solution)
	}
	if !strings.Contains(got.Help, ">µm<") || !strings.Contains(got.Help, ">thou<") {
		t.Errorf("the help is %q", got.Help)
	}
}

func TestMarkAsJSON(t *testing.T) {
	e, err := draw(drillLesson(), "exercise-rise", 7)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct{ typed, grade, said string }{
		{e.Answer.In(notebook.Inch).String(), "right", `<span class="metric">`},
		{e.Wrong[0].Value.In(notebook.Metric).String(), "turn", "Thrice."},
		{`<img src=x onerror=alert(1)>`, "unread", "&lt;img"},
		{"\x00\xff", "unread", "not a number"},
		{"7 m", "wrong", "Too large."},
	}
	for _, test := range tests {
		var got struct{ Grade, Said, Problem string }
		if err := json.Unmarshal(Mark(drillLesson(), "exercise-rise", 7, test.typed), &got); err != nil {
			t.Fatal(err)
		}
		if got.Grade != test.grade || !strings.Contains(got.Said, test.said) || strings.Contains(got.Said, "<img") || got.Problem != "" {
			t.Errorf("Mark(%q) = %+v, want grade %s with %q", test.typed, got, test.grade, test.said)
		}
	}
}

func TestDrillSaysWhatIsWrong(t *testing.T) {
	tests := []struct {
		name string
		seed int
		want string
	}{
		{"exercise-none", 1, `no drill \"exercise-none\"`},
		{"exercise-rise", -1, "0 to 999999"},
		{"exercise-broken", 1, "no bar"},
		{"exercise-fault", 1, "fault of the program"},
	}
	for _, test := range tests {
		for what, got := range map[string][]byte{"Drill": Drill(drillLesson(), test.name, test.seed), "Mark": Mark(drillLesson(), test.name, test.seed, "1 mm")} {
			if !strings.Contains(string(got), `"problem":"`) || !strings.Contains(string(got), test.want) {
				t.Errorf("%s(%s, %d) = %s, want a problem with %s", what, test.name, test.seed, got, test.want)
			}
		}
	}
}

func TestDrillPlace(t *testing.T) {
	place := DrillPlace(drillLesson(), "exercise-rise")
	found := map[string]bool{}
	for _, e := range elements(t, place) {
		if id, ok := attribute(e, "id"); ok {
			found[id] = true
		}
	}
	if !strings.Contains(place, `data-drill="exercise-rise" hidden`) || !found["try-exercise-rise"] || !found["try-exercise-rise-said"] {
		t.Errorf("the place is %s", place)
	}
	if got := DrillPlace(drillLesson(), "exercise-none"); got != "" {
		t.Errorf("an exercise without a drill has the place %s", got)
	}
}

func TestExerciseInTheTerminal(t *testing.T) {
	e, err := draw(drillLesson(), "exercise-rise", 7)
	if err != nil {
		t.Fatal(err)
	}
	rise := notebook.Exact(e.Answer.SI/2, notebook.FineLengths)
	plain := func(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }
	if got, want := TerminalExercise(e, notebook.Inch), plain("? Rise <"+rise.In(notebook.Inch).String()+">?\n"); got != want {
		t.Errorf("asks %q, want %q", got, want)
	}
	want := plain("= " + e.Answer.In(notebook.Metric).String() + "\n  1. Twice & done.\n  If you got " + e.Wrong[0].Value.In(notebook.Metric).String() + ": Thrice.\n")
	if got := TerminalSolution(e, notebook.Metric); got != want {
		t.Errorf("works %q, want %q", got, want)
	}
	if got := TerminalMarking(notebook.Mark(e, "x"), notebook.Metric); !strings.HasPrefix(got, `? "x" is not a number`) || !strings.HasSuffix(got, "\n") {
		t.Errorf("marks %q", got)
	}
}
