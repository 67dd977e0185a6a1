package notebook

import (
	"errors"
	"strings"
	"testing"
)

// filed is a lesson with one file field.
func filed(most int) Lesson {
	type inputs struct{ Own Attachment }
	return NewLesson(About{Slug: "filed"}, func() inputs { return inputs{} }, func(in *inputs) []Field {
		return []Field{File("own", &in.Own, Spec{Label: "Own part", MostBytes: most, Accept: ".stl"})}
	}, func(in inputs) (*Sheet, error) {
		sheet := &Sheet{}
		sheet.Add(Verdict{Name: "held", Tone: Note, Text: Plain(in.Own.Name + "|" + string(in.Own.Data))})
		return sheet, nil
	})
}

func TestFileField(t *testing.T) {
	document := func(text string) []byte {
		return []byte(`{"lesson": "filed", "format": 1, "inputs": {"own": ` + quoteJSON(text) + `}}`)
	}
	for _, test := range []struct{ text, want, wantErr string }{
		{"", "|", ""},
		{"knob.stl;base64,aGVsbG8=", "knob.stl|hello", ""},
		{`C:\parts\knob.stl;base64,aGVsbG8=`, "knob.stl|hello", ""},
		{"empty.stl;base64,", "|", ""},
		{"knob.stl", "", "is not a file"},
		{"knob.stl;base64,a?", "", "not base64"},
		{"knob.stl;base64,aGVsbG8gaGVsbG8=", "", "has 11 bytes; the most is 8"},
		{"a;b;base64,aGVsbG8=", "", "semicolon"},
		{strings.Repeat("x", 81) + ";base64,aGVsbG8=", "", "81 characters"},
	} {
		sheet, err := filed(8).Work(document(test.text))
		var input *InputError
		switch {
		case test.wantErr != "":
			if !errors.As(err, &input) || input.Problems[0].Field != "own" || !strings.Contains(err.Error(), test.wantErr) {
				t.Errorf("%.40q: error = %v, want one at the field with %q", test.text, err, test.wantErr)
			}
		case err != nil:
			t.Errorf("%.40q: %v", test.text, err)
		default:
			if got := sheet.Find("held").(Verdict).Text.In(Metric); got != test.want {
				t.Errorf("%.40q: held %q, want %q", test.text, got, test.want)
			}
		}
	}
	// The template holds no file, and a file given by its path takes its place.
	if text := string(filed(0).Template()); !strings.Contains(text, `"own": ""`) {
		t.Errorf("template = %s", text)
	}
	sheet, err := filed(0).WorkWith(nil, map[string]Attachment{"own": {Name: "a/b.stl", Data: []byte("x")}})
	if err != nil {
		t.Fatal(err)
	}
	if got := sheet.Find("held").(Verdict).Text.In(Metric); got != "b.stl|x" {
		t.Errorf("held %q", got)
	}
	for name, file := range map[string]Attachment{"other": {Data: []byte("x")}, "own": {Name: "b.stl"}} {
		if _, err := filed(0).WorkWith(nil, map[string]Attachment{name: file}); err == nil {
			t.Errorf("field %q with %d bytes: no error", name, len(file.Data))
		}
	}
	// The largest file fits the document.
	big := document("part.stl" + attachedMark + strings.Repeat("AAAA", MostAttached/3))
	if _, err := filed(0).Work(big); err != nil {
		t.Errorf("a file of 2 MB: %.200v", err)
	}
}
