package examples

import (
	"encoding/json"
	"testing"
)

func TestEveryLessonWorksOnItsDemo(t *testing.T) {
	seen := map[string]bool{}
	for _, lesson := range Lessons() {
		t.Run(lesson.Slug, func(t *testing.T) {
			if seen[lesson.Slug] {
				t.Fatalf("two lessons are called %s", lesson.Slug)
			}
			seen[lesson.Slug] = true
			if lesson.Title == "" || lesson.Question == "" || lesson.Asked == "" || lesson.Track == "" || lesson.Summary == "" || lesson.Minutes <= 0 {
				t.Errorf("the lesson lacks title, question, asked, track, summary or minutes: %+v", lesson.About)
			}
			sheet, err := lesson.Demo()
			if err != nil {
				t.Fatal(err)
			}
			if len(sheet.Checks()) == 0 {
				t.Error("the lesson checks nothing against a published value")
			}
			for _, check := range sheet.Checks() {
				if !check.Pass() {
					t.Errorf("check %s: computed %v, published %v %s, tolerance %v", check.Name, check.Computed, check.Row.Value, check.Row.Unit, check.Row.Tolerance)
				}
			}
			typed, err := lesson.Work(lesson.Template())
			if err != nil {
				t.Fatalf("the template of the lesson is refused by it: %v", err)
			}
			one, errOne := json.Marshal(sheet)
			two, errTwo := json.Marshal(typed)
			if errOne != nil || errTwo != nil || string(one) != string(two) {
				t.Errorf("the demo and its own template give different answers (%v, %v)", errOne, errTwo)
			}
		})
	}
}

func TestFind(t *testing.T) {
	for _, lesson := range Lessons() {
		if got, ok := Find(lesson.Slug); !ok || got.Title != lesson.Title {
			t.Errorf("Find(%q) = %q, %v", lesson.Slug, got.Title, ok)
		}
	}
	if _, ok := Find("no-such-lesson"); ok {
		t.Error("Find found a lesson that is not there")
	}
}
