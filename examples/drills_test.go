package examples

import (
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
)

// TestDrills draws every drill of every lesson: the right answer as printed is
// marked right in both systems of units, and every wrong turn as printed is
// marked as itself.
func TestDrills(t *testing.T) {
	draws := 200 // of each drill
	if testing.Short() {
		draws = 20
	}
	for _, lesson := range Lessons() {
		t.Run(lesson.Slug, func(t *testing.T) {
			for _, drill := range lesson.Drills() {
				asked, turns := map[string]bool{}, 0
				for seed := range draws {
					e, err := drill.At(seed)
					if err != nil {
						t.Fatal(err)
					}
					if e.Name != drill.Name {
						t.Fatalf("the drill %s draws %s", drill.Name, e.Name)
					}
					asked[e.Ask.In(notebook.Metric)] = true
					turns += len(e.Wrong)
					markAsPrinted(t, seed, e)
				}
				if least := draws / 20; len(asked) < least {
					t.Errorf("%s: %d draws ask %d different questions, want %d at least", drill.Name, draws, len(asked), least)
				}
				if turns == 0 {
					t.Errorf("%s: no draw has a wrong turn that can be told from the answer", drill.Name)
				}
			}
		})
	}
}

// markAsPrinted marks the answer and the wrong turns as a page prints them.
func markAsPrinted(t *testing.T, seed int, e notebook.Exercise) {
	t.Helper()
	for _, system := range notebook.Systems() {
		words := func(m notebook.Marking) string { return m.Said.In(system) }
		if typed := e.Answer.In(system).Full(); notebook.Mark(e, typed).Grade != notebook.Right {
			t.Errorf("%s, draw %d: the answer %q is marked: %s\n%s", e.Name, seed, typed, words(notebook.Mark(e, typed)), e.Ask.In(system))
		}
		if text := e.Ask.In(system); strings.Contains(text, "not finite") {
			t.Errorf("%s, draw %d asks %q", e.Name, seed, text)
		}
		for i, wrong := range e.Wrong {
			typed := wrong.Value.In(system).String()
			m := notebook.Mark(e, typed)
			if m.Grade != notebook.Turn || !strings.HasSuffix(words(m), wrong.Why.In(system)) {
				t.Errorf("%s, draw %d: the wrong turn %d, %q, is marked: %s; right is %s", e.Name, seed, i+1, typed, words(m), e.Answer.In(system))
			}
		}
		for _, step := range e.Worked {
			if text := step.In(system); text == "" || strings.Contains(text, "not finite") {
				t.Errorf("%s, draw %d: a step is %q", e.Name, seed, text)
			}
		}
	}
}

// TestDrillsBelongToExercises: each lesson has a drill, and each drill stands
// below an exercise of its lesson.
func TestDrillsBelongToExercises(t *testing.T) {
	for _, lesson := range Lessons() {
		if len(lesson.Drills()) == 0 {
			t.Errorf("%s has no drill", lesson.Slug)
		}
		sheet, err := lesson.Demo()
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, drill := range lesson.Drills() {
			if _, ok := sheet.Find(drill.Name).(notebook.Exercise); !ok || seen[drill.Name] {
				t.Errorf("%s: the drill %s belongs to no exercise, or comes twice", lesson.Slug, drill.Name)
			}
			seen[drill.Name] = true
		}
	}
}
