package desk

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/thouspan/examples"
	"example.org/thouspan/examples/workbench"
	"example.org/thouspan/internal/machine"
)

// ask carries out a call and returns its reply.
func ask(t *testing.T, call string, q Request) reply {
	t.Helper()
	request, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	var r reply
	if err := json.Unmarshal(Answer(call, request), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// good is ask for a call that must not fail.
func good(t *testing.T, call string, q Request) reply {
	t.Helper()
	r := ask(t, call, q)
	if len(r.Problems) > 0 {
		t.Fatalf("%s: %v", call, r.Problems)
	}
	return r
}

func template(t *testing.T, slug string) string {
	t.Helper()
	lesson, ok := examples.Find(slug)
	if !ok {
		t.Fatalf("no lesson %q", slug)
	}
	return string(lesson.Template())
}

// A file that is not there yet is an empty one, and its lists are lists.
func TestNothingKeptYet(t *testing.T) {
	if got := string(Answer("show", []byte(`{"file":""}`))); !strings.Contains(got, `"problems":[]`) || !strings.Contains(got, `"entries":[]`) {
		t.Errorf("got %s", got)
	}
}

// Put in, listed, taken out again as it was put in, changed, deleted.
func TestPutTakeChangeRemove(t *testing.T) {
	document := template(t, "sweep")
	in := good(t, "put", Request{Document: document, Day: "2025-05-24", Name: "<i>mine</i>", Head: "as found", Travel: "150 mm"})
	if len(in.Entries) != 1 || in.Entries[0].Key != in.Key || in.Entries[0].Kind != "lesson" || in.Entries[0].Name != "<i>mine</i>" || len(in.Entries[0].Problems) > 0 {
		t.Fatalf("entries %+v", in.Entries)
	}
	list := good(t, "choices", Request{File: in.File, Lesson: "sweep"})
	if len(list.Choices) != 1 || list.Choices[0].Key != in.Key || len(list.Asks) != 2 {
		t.Fatalf("choices %+v, asks %v", list.Choices, list.Asks)
	}
	out := good(t, "take", Request{File: in.File, Lesson: "sweep", Key: in.Key})
	var was, is any
	if json.Unmarshal([]byte(document), &was) != nil || json.Unmarshal([]byte(out.Document), &is) != nil {
		t.Fatal("no JSON")
	}
	a, _ := json.Marshal(was)
	b, _ := json.Marshal(is)
	if string(a) != string(b) {
		t.Errorf("taken out\n%s\nput in\n%s", b, a)
	}
	changed := good(t, "change", Request{File: in.File, Key: in.Key, Day: "2025-05-25", Name: "theirs"})
	if len(changed.Entries) != 1 || changed.Entries[0].Day != "2025-05-25" || changed.Entries[0].Head != "" || changed.Said == "" {
		t.Errorf("changed to %+v", changed.Entries)
	}
	if r := ask(t, "remove", Request{File: changed.File, Key: in.Key}); len(r.Problems) == 0 {
		t.Error("an entry that is gone was removed")
	}
	left := good(t, "remove", Request{File: changed.File, Key: changed.Key})
	if len(left.Entries) != 0 {
		t.Errorf("left %+v", left.Entries)
	}
}

// The same id, renamed in one of two files: both are kept until one is chosen.
func TestMergeAndKeep(t *testing.T) {
	shop := good(t, "shop", Request{})
	key := shop.Entries[0].Key
	mine := good(t, "change", Request{File: shop.File, Key: key, Day: shop.Entries[0].Day, Name: "renamed here"})
	mine = good(t, "put", Request{File: mine.File, Document: template(t, "amps"), Day: "2025-07-01"})
	merged := good(t, "merge", Request{File: shop.File, Text: mine.File, Today: "2025-08-01"})
	if len(merged.Merged.Added) != 2 || len(merged.Merged.Conflicts) != 1 || merged.Merged.Same != len(shop.Entries)-1 {
		t.Fatalf("merged %+v", merged.Merged)
	}
	conflicted := 0
	for _, e := range merged.Entries {
		if e.Versions == 2 {
			conflicted++
			key = e.Key
		}
	}
	if conflicted != 2 {
		t.Fatalf("%d entries of a doubled id, want 2", conflicted)
	}
	kept := good(t, "keep", Request{File: merged.File, Key: key})
	if len(kept.Entries) != len(shop.Entries)+1 {
		t.Errorf("%d entries after one was chosen, want %d", len(kept.Entries), len(shop.Entries)+1)
	}
	if again := good(t, "merge", Request{File: merged.File, Text: mine.File, Today: "2025-08-01"}); again.File != merged.File || len(again.Merged.Added) != 0 {
		t.Errorf("merged again it changed: %+v", again.Merged)
	}
}

// A single lesson's document is loaded and merged as an entry of today.
func TestLessonDocumentIsTaken(t *testing.T) {
	r := good(t, "open", Request{Text: template(t, "amps"), Today: "2025-08-01"})
	if len(r.Entries) != 1 || r.Entries[0].Of != "amps" || r.Entries[0].Day != "2025-08-01" {
		t.Errorf("entries %+v", r.Entries)
	}
	m := good(t, "merge", Request{File: r.File, Text: template(t, "sweep"), Today: "2025-08-02"})
	if len(m.Entries) != 2 {
		t.Errorf("entries %+v", m.Entries)
	}
}

// A record with a fault is refused at its field; a lesson's is kept and marked.
func TestFaultsOfInputs(t *testing.T) {
	bath := `{"lesson":"bath","format":1,"inputs":{"volume":"3 kg"}}`
	r := ask(t, "put", Request{Document: bath, Day: "2025-05-24"})
	if len(r.Problems) != 1 || r.Problems[0].Field != "volume" {
		t.Errorf("problems %+v", r.Problems)
	}
	lesson := strings.Replace(template(t, "sweep"), `"110 mm"`, `"-110 mm"`, 1)
	in := good(t, "put", Request{Document: lesson, Day: "2025-05-24"})
	if p := in.Entries[0].Problems; len(p) != 1 || !strings.Contains(p[0], "Radius of the sweep") {
		t.Errorf("problems %v", p)
	}
}

// A record put in another's place keeps its id; what a newer program wrote in it
// stays.
func TestRecordIsReplaced(t *testing.T) {
	file := `{"machine":1,"entries":[{"id":"mine","date":"2025-05-24","of":"bath","colour":"green","inputs":{"volume":"3 L"}}]}`
	key := good(t, "show", Request{File: file}).Entries[0].Key
	r := good(t, "put", Request{File: file, Key: key, Day: "2025-06-01", Document: `{"lesson":"bath","format":1,"inputs":{"volume":"3.1 L"}}`})
	for _, want := range []string{`"id": "mine"`, `"colour": "green"`, `"volume": "3.1 L"`, `"date": "2025-06-01"`} {
		if !strings.Contains(r.File, want) {
			t.Errorf("the file lacks %s:\n%s", want, r.File)
		}
	}
	if len(r.Entries) != 1 {
		t.Errorf("%d entries", len(r.Entries))
	}
}

func TestShareAndGather(t *testing.T) {
	shop := good(t, "shop", Request{})
	shared := good(t, "share", Request{File: shop.File, Document: template(t, "sweep"), Today: "2025-08-01"})
	if len(shared.Used) < 4 || !strings.Contains(strings.Join(shared.Used, "\n"), "from gauge A, lever of 2025-05-24") {
		t.Errorf("used %v", shared.Used)
	}
	list := good(t, "choices", Request{File: shop.File, Lesson: "survey"})
	if len(list.Choices) != 1 || list.Choices[0].Key != workbench.GatheredKey {
		t.Fatalf("choices %+v", list.Choices)
	}
	taken := good(t, "take", Request{File: shop.File, Lesson: "survey", Key: list.Choices[0].Key})
	lesson, _ := examples.Find("survey")
	if _, err := lesson.Work([]byte(taken.Document)); err != nil {
		t.Error(err)
	}
}

// What is hostile in a file is text on the card.
func TestCardEscapes(t *testing.T) {
	file := `{"machine":1,"entries":[{"id":"a","date":"2025-05-24","of":"machine","inputs":{"name":"<script>alert(1)</script>","jobs":{"units":{},"rows":[["<img src=x onerror=alert(1)>","` + machine.JobHole + `","60 mm","5 µm"]]}}}]}`
	r := good(t, "card", Request{File: file, Today: "2025-06-01"})
	if strings.Contains(r.Card.Items, "<img") || !strings.Contains(r.Card.Items, "&lt;img") {
		t.Errorf("items %s", r.Card.Items)
	}
	if r.Card.Title != "<script>alert(1)</script>" {
		t.Errorf("title %q; the page sets it as text", r.Card.Title)
	}
	if bad := ask(t, "card", Request{File: file, Today: ""}); len(bad.Problems) == 0 {
		t.Error("a card of no day was written")
	}
}

func FuzzAnswer(f *testing.F) {
	f.Add("put", `{"document":"{\"lesson\":\"bath\",\"inputs\":{}}","day":"2025-05-24"}`)
	f.Add("merge", `{"file":"{\"machine\":1,\"entries\":[]}","text":"{\"lesson\":\"x\",\"inputs\":{}}","today":"2025-05-24"}`)
	f.Add("choices", `{"lesson":"scale"}`)
	f.Add("card", `{"today":"2025-05-24"}`)
	f.Add("nothing", `[]`)
	f.Fuzz(func(t *testing.T, call, request string) {
		var r reply
		if err := json.Unmarshal(Answer(call, []byte(request)), &r); err != nil {
			t.Fatalf("no JSON: %v", err)
		}
		for _, p := range r.Problems {
			if strings.Contains(p.Message, "fault of the program") {
				t.Fatalf("%s %s: %s", call, request, p.Message)
			}
		}
	})
}
