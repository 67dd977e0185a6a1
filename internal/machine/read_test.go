package machine

import (
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
)

func TestReadNamesWhatIsWrong(t *testing.T) {
	entry := func(members string) string { return "{\"machine\": 1, \"entries\": [\n  {" + members + "}\n]}" }
	good := `"id": "a", "date": "2025-05-24", "of": "sweep", "inputs": {}`
	tests := []struct{ name, text, want string }{
		{"empty", "", "line 1, column 1: the text ends too soon"},
		{"not JSON", "{\n machine: 1}", "line 2, column 2: this is not JSON"},
		{"a list", "[1]", "expected an object in braces"},
		{"neither", `{"a": 1}`, `neither the member "machine"`},
		{"a newer format", `{"machine": 2, "entries": []}`, "line 1, column 13: the file's format: 2 is not a format that this program reads, 1 to 1"},
		{"a wild format", `{"machine": "one", "entries": []}`, `"one" is not a format`},
		{"no entries", `{"machine": 1}`, `no "entries"`},
		{"entries are no list", `{"machine": 1, "entries": {}}`, "expected a list in brackets"},
		{"an entry is no object", `{"machine": 1, "entries": [7]}`, "Entry 1: expected an object"},
		{"no date", entry(`"id": "a", "dtae": "2025-05-24", "of": "sweep", "inputs": {}`), `line 2, column 3: Entry 1: has no "date"; is it "dtae"?`},
		{"no inputs", entry(`"id": "a", "date": "2025-05-24", "of": "sweep"`), `Entry 1: has no "inputs"`},
		{"a day that is none", entry(`"id": "a", "date": "2025-02-30", "of": "sweep", "inputs": {}`), `line 2, column 23: Entry 1, date: "2025-02-30" is not a date`},
		{"a year out of range", entry(`"id": "a", "date": "0001-01-01", "of": "sweep", "inputs": {}`), "between the years 1900 and 2199"},
		{"an id with a slash", entry(`"id": "a/b", "date": "2025-05-24", "of": "sweep", "inputs": {}`), `"a/b" holds something else than letters`},
		{"an empty id", entry(`"id": "", "date": "2025-05-24", "of": "sweep", "inputs": {}`), "has 0 characters; it takes 1 to 80"},
		{"a long name", entry(good + `, "name": "` + strings.Repeat("n", 81) + `"`), "Entry 1, name: has 81 characters; the most is 80"},
		{"a control character", entry(good + `, "name": "a\u0007"`), "control character"},
		{"a head that is none", entry(good + `, "head": "off"`), `"off" is neither "as found" nor "as left"`},
		{"a travel without unit", entry(good + `, "travel": "150"`), "Entry 1, travel: \"150\" has no unit"},
		{"a travel too long", entry(good + `, "travel": "15 m"`), `"15 m" has no unit that fits`},
		{"inputs are a list", entry(`"id": "a", "date": "2025-05-24", "of": "sweep", "inputs": []`), "Entry 1, inputs: expected an object"},
		{"inputs of format nought", entry(good + `, "format": 0`), "0 is not a format"},
		{"a name twice", entry(good + `, "id": "b"`), `"id" comes twice in Entry 1`},
		{"a name twice, deep", entry(`"id": "a", "date": "2025-05-24", "of": "sweep", "inputs": {"x": {"b": 1, "b": 2}}`), `the name "b" comes twice`},
		{"text after the end", entry(good) + "x", "there is more text after the closing brace"},
		{"a number for a text", entry(`"id": 7, "date": "2025-05-24", "of": "sweep", "inputs": {}`), "Entry 1, id: 7 is not a text"},
		{"lesson's document, unknown member", `{"lesson": "sweep", "inputs": {}, "input": 1}`, `"input" is not a name that is known here; did you mean inputs?`},
		{"lesson's document, newer", `{"lesson": "sweep", "format": 9, "inputs": {}}`, "9 is not a format"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			f, problems := Read([]byte(test.text), "2025-05-24")
			if f != nil || len(problems) == 0 {
				t.Fatalf("Read gave a file, problems %v", problems)
			}
			if got := problemError(problems).Error(); !strings.Contains(got, test.want) {
				t.Errorf("got\n%s\nwant in it: %s", got, test.want)
			}
		})
	}
}

func TestReadBounds(t *testing.T) {
	many := `{"machine":1,"entries":[` + strings.TrimSuffix(strings.Repeat("{},", MaxEntries+1), ",") + `]}`
	if _, problems := Read([]byte(many), ""); len(problems) != 1 || !strings.Contains(problems[0].Message, "the most is 5000") {
		t.Errorf("%d entries: %v", MaxEntries+1, problems)
	}
	if _, problems := Read(make([]byte, MaxBytes+1), ""); len(problems) != 1 || !strings.Contains(problems[0].Message, "the most is 4194304") {
		t.Errorf("a file that is too large: %v", problems)
	}
}

// What a newer program wrote besides is kept and written again.
func TestUnknownMembersAreKept(t *testing.T) {
	text := `{"machine": 1, "colour": {"of": ["paint", 1.50]}, "entries": [
  {"id": "a", "date": "2025-05-24", "of": "holograph", "weather": "wet", "format": 7, "inputs": {"z": "1 parsec"}}]}`
	f, problems := Read([]byte(text), "")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	want := `{
  "machine": 1,
  "colour": {
    "of": ["paint", 1.50]
  },
  "entries": [
    {
      "id": "a",
      "date": "2025-05-24",
      "of": "holograph",
      "weather": "wet",
      "format": 7,
      "inputs": {
        "z": "1 parsec"
      }
    }
  ]
}
`
	if got := string(f.Write()); got != want {
		t.Errorf("written as\n%s\nwant\n%s", got, want)
	}
}

// A single lesson's document, today's format, becomes an entry of the day.
func TestFormatNoughtIsImported(t *testing.T) {
	document := `{"lesson": "sweep", "format": 1, "inputs": {"radius": "110.0 mm", "readings": {"units": {"shown": "thou"}, "rows": [[0, 0.00], [45, "-0,5"]]}}}`
	f, problems := Read([]byte(document), "2025-05-24")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	e := f.Entries[0]
	if len(f.Entries) != 1 || e.Of != "sweep" || e.Day != "2025-05-24" || e.ID == "" {
		t.Errorf("got %+v", f.Entries)
	}
	if want := `{"radius":"110.0 mm","readings":{"units":{"shown":"thou"},"rows":[[0,0.00],[45,"-0,5"]]}}`; string(e.Inputs) != want {
		t.Errorf("inputs %s, want %s", e.Inputs, want)
	}
	if _, problems := Read([]byte(document), ""); len(problems) == 0 {
		t.Error("a document of no day was taken")
	}
	back, err := FromDocument(e.Document(), e.Day)
	if err != nil || string(back.Inputs) != string(e.Inputs) {
		t.Errorf("the document of the entry read back: %s, %v", back.Inputs, err)
	}
}

// What is wrong inside an entry's inputs is named at its place in the file.
func TestCheckSaysLineAndColumn(t *testing.T) {
	text := []byte("{\"machine\": 1, \"entries\": [{\"id\": \"a\", \"date\": \"2025-05-24\", \"of\": \"bath\", \"inputs\": {\n  \"volume\": \"3 L\",\n  \"ph\": \"17\"}}]}")
	f, problems := Read(text, "")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	found := f.Check(text, func(of string) ([]notebook.Field, bool) {
		r, ok := FindRecord(of)
		if !ok {
			return nil, false
		}
		return r.Fields(), true
	})
	if len(found) != 1 || len(found[0].Problems) != 1 {
		t.Fatalf("found %+v", found)
	}
	if got, want := found[0].Problems[0].String(), "line 3, column 9: pH: 17 is above the most, 14"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Every record's form, as it is given first, reads back what it shows.
func TestRecordsReadTheirOwnForm(t *testing.T) {
	for _, record := range Records() {
		names := map[string]bool{}
		for _, f := range record.Fields() {
			if names[f.Name] {
				t.Errorf("%s: two fields are called %q", record.Name, f.Name)
			}
			names[f.Name] = true
			if f.Kind == notebook.RowsField || f.Optional {
				continue
			}
			document := []byte(`{` + quote(f.Name) + `: ` + quote(f.Typed()) + `}`)
			r := notebook.NewReading(document, MaxBytes)
			r.Inputs(notebook.Member{Value: document}, record.Fields())
			if len(r.Problems) > 0 {
				t.Errorf("%s, %s: %v", record.Name, f.Name, r.Problems)
			}
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, seed := range []string{"", "{}", `{"machine":1,"entries":[]}`, `{"lesson":"sweep","format":1,"inputs":{"a":"1 mm"}}`,
		`{"machine":1,"unmerged":{"a":[1,2]},"entries":[{"id":"a","date":"2025-05-24","of":"x","inputs":{"\u00b5":"\ud800"},"later":[{"a":1e999}]}]}`,
		`{"machine":1,"unmerged":[],"entries":[{"id":"a","date":"2025-05-24","of":"x","inputs":{}},{"id":"a","date":"2025-05-24","of":"x","inputs":{"b":0.10}}]}`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		file, problems := Read(text, "2025-05-24")
		if (file == nil) == (len(problems) == 0) {
			t.Fatalf("file %v, problems %v", file, problems)
		}
		if file == nil {
			return
		}
		written := file.Write()
		again, problems := Read(written, "")
		if len(problems) > 0 {
			t.Fatalf("its own text is not read: %v\n%s", problems, written)
		}
		if string(again.Write()) != string(written) {
			t.Fatalf("written again it differs:\n%s\n%s", written, again.Write())
		}
		if !Equal(Merge(file, again).File, file) {
			t.Fatalf("merged with itself it differs:\n%s", written)
		}
		file.Check(text, func(string) ([]notebook.Field, bool) { return Records()[1].Fields(), true })
	})
}
