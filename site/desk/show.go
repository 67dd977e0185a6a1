package desk

import (
	"strings"

	"example.org/thouspan/examples"
	"example.org/thouspan/examples/workbench"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
)

// shown is one entry as the page lists it.
type shown struct {
	Key string `json:"key"`
	Day string `json:"day"`
	Of  string `json:"of"`
	// Kind is "lesson", "record" or "unknown".
	Kind string `json:"kind"`
	// Title is the lesson's or record's, Says what the entry holds in short.
	Title  string `json:"title"`
	Says   string `json:"says"`
	Name   string `json:"name"`
	Head   string `json:"head"`
	Travel string `json:"travel"`
	// Versions is how many entries share its id: more than one is a conflict.
	Versions int `json:"versions"`
	// Problems say what is wrong with its inputs, a line each.
	Problems []string `json:"problems"`
	// Document is a record's, for its form.
	Document string `json:"document,omitempty"`
}

// show returns the file's text and its entries, newest first.
func show(f *machine.File) reply {
	text := f.Write()
	r := reply{File: string(text), Entries: []shown{}}
	// Read back, so that the place of each fault is that in the text.
	f, problems := machine.Read(text, "")
	if len(problems) > 0 {
		return reply{Problems: problems}
	}
	versions := map[string]int{}
	for _, e := range f.Entries {
		versions[e.ID]++
	}
	faults := map[string][]string{}
	for _, found := range f.Check(text, workbench.Fields) {
		for _, p := range found.Problems {
			p.Line = 0 // the text is not shown on the page
			faults[found.Entry.Key()] = append(faults[found.Entry.Key()], p.String())
		}
	}
	for i := len(f.Entries) - 1; i >= 0; i-- {
		e := f.Entries[i]
		s := shown{Key: e.Key(), Day: e.Day, Of: e.Of, Kind: "unknown", Title: titled(e), Says: workbench.Says(e), Name: e.Name, Head: e.Head, Travel: e.Travel,
			Versions: versions[e.ID], Problems: append([]string{}, faults[e.Key()]...)}
		if e.InputsFormat > notebook.Format {
			s.Problems = append(s.Problems, "it is of a newer format; it is kept, and cannot be worked here")
		}
		if _, ok := machine.FindRecord(e.Of); ok {
			s.Kind, s.Document = "record", string(e.Document())
		} else if _, ok := examples.Find(e.Of); ok {
			s.Kind = "lesson"
		}
		r.Entries = append(r.Entries, s)
	}
	return r
}

// titled names what an entry is of, with its own name when it has one.
func titled(e machine.Entry) string {
	title := e.Of
	if record, ok := machine.FindRecord(e.Of); ok {
		title = record.Title
	} else if lesson, ok := examples.Find(e.Of); ok {
		title = lesson.Title
	}
	if e.Name != "" {
		title += " (" + strings.TrimSpace(e.Name) + ")"
	}
	return title
}
