package render

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
)

// decoded is the answer as a reader of its JSON sees it.
type decoded struct {
	Items map[string]struct {
		Block, Inline string
		Option        map[string]json.RawMessage
	}
	Problems []notebook.Problem
}

func decode(t *testing.T, text []byte) decoded {
	t.Helper()
	var got decoded
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatalf("the answer is not JSON: %v\n%s", err, text)
	}
	if (len(got.Items) == 0) == (len(got.Problems) == 0) {
		t.Fatalf("want items or problems, got %d and %d", len(got.Items), len(got.Problems))
	}
	return got
}

func trialDocument(inputs string) []byte {
	return []byte(`{"lesson": "trial", "format": 1, "inputs": {` + inputs + `}}`)
}

func TestAnswerGivesEveryItem(t *testing.T) {
	lesson := trialLesson()
	got := decode(t, Answer(lesson, trialDocument(`"part": "</script><b>", "radius": "2 in"`),
		Drawn{System: notebook.Inch, Charts: []string{"picture", "double", "no such"}}))
	if len(got.Problems) > 0 {
		t.Fatalf("problems: %v", got.Problems)
	}
	sheet, err := lesson.Work(trialDocument(`"part": "</script><b>", "radius": "2 in"`))
	if err != nil {
		t.Fatal(err)
	}
	for _, item := range sheet.Items {
		it, ok := got.Items[item.ItemName()]
		if !ok {
			t.Errorf("the answer lacks %s", item.ItemName())
			continue
		}
		if it.Block != Block(item) || it.Inline != Inline(item) {
			t.Errorf("%s is answered otherwise than rendered: %+v", item.ItemName(), it)
		}
	}
	if block := got.Items["double"].Block; !strings.Contains(block, "4.00") || !strings.Contains(block, "102") {
		t.Errorf("twice 2 in is shown as %s", block)
	}
	if block := got.Items["word"].Block; strings.Contains(block, "<b>.") || !strings.Contains(block, "&lt;/script&gt;") {
		t.Errorf("a reader's words are not shown as text: %s", block)
	}
	if option := got.Items["picture"].Option; len(option) != 1 || string(option["inch"]) != `{"a":2}` {
		t.Errorf("the chart's options are %s", option)
	}
	if got.Items["double"].Option != nil {
		t.Error("a figure has a chart's options")
	}
}

func TestAnswerNamesWhatIsWrong(t *testing.T) {
	tests := []struct {
		name     string
		document []byte
		want     notebook.Problem // Message: words that the message must hold
	}{
		{"a value", trialDocument(`"radius": "3 m"`), notebook.Problem{Field: "radius", Label: "Radius & reach", Message: `"3 m"`}},
		{"a cell", trialDocument(`"stations": {"rows": [["x", 1, "left"]]}`),
			notebook.Problem{Field: "stations", Row: 1, Column: "place", Label: "Stations, row 1, Place", Message: `"x"`}},
		{"the lesson's function", trialDocument(`"part": "refused"`),
			notebook.Problem{Field: "stations", Row: 2, Column: "reading", Label: "Stations, row 2, Reading", Message: "one turn off"}},
		{"a fault of our own", trialDocument(`"part": "fault"`), notebook.Problem{Message: "report it"}},
		{"a sheet of our own", trialDocument(`"part": "unsound"`), notebook.Problem{Message: "Not A Name"}},
		{"no JSON", []byte("{"), notebook.Problem{Message: "ends too soon"}},
		{"nothing", nil, notebook.Problem{Message: "ends too soon"}},
		{"bytes that are no text", []byte{0xff, 0xfe, 0}, notebook.Problem{Message: "not JSON"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := decode(t, Answer(trialLesson(), test.document, Drawn{}))
			if len(got.Problems) != 1 {
				t.Fatalf("got %d problems, want 1: %v", len(got.Problems), got.Problems)
			}
			p := got.Problems[0]
			if p.Field != test.want.Field || p.Row != test.want.Row || p.Column != test.want.Column || p.Label != test.want.Label {
				t.Errorf("the problem stands at %+v, want %+v", p, test.want)
			}
			if !strings.Contains(p.Message, test.want.Message) {
				t.Errorf("the message %q lacks %q", p.Message, test.want.Message)
			}
		})
	}
}

func TestAnswerProblem(t *testing.T) {
	got := decode(t, AnswerProblem("no such lesson"))
	if len(got.Problems) != 1 || got.Problems[0].Message != "no such lesson" {
		t.Errorf("got %v", got.Problems)
	}
}

func FuzzAnswer(f *testing.F) {
	f.Add(trialLesson().Template())
	f.Add(trialDocument(`"radius": "1/0 mm"`))
	f.Add(trialDocument(`"part": "fault"`))
	f.Add([]byte(`{"inputs": {"stations": {"rows": [[{}]]}}}`))
	f.Fuzz(func(t *testing.T, document []byte) {
		decode(t, Answer(trialLesson(), document, Drawn{Charts: []string{"picture"}}))
	})
}
