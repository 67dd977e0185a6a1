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
	// Group is the part of the page that lists it: "machine", "gauges",
	// "readings", "nickel" or "other".
	Group string `json:"group"`
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
		s := shown{Key: e.Key(), Day: e.Day, Of: e.Of, Title: titleOf(e.Of), Says: workbench.Says(e), Name: e.Name, Head: e.Head, Travel: e.Travel,
			Versions: versions[e.ID], Problems: append([]string{}, faults[e.Key()]...)}
		if e.InputsFormat > notebook.Format {
			s.Problems = append(s.Problems, "it is of a newer format; it is kept, and cannot be worked here")
		}
		s.Kind, s.Group = kindOf(e.Of)
		if s.Kind == "record" {
			s.Document = string(e.Document())
		}
		r.Entries = append(r.Entries, s)
	}
	return r
}

// kindOf says what an entry is of, and the part of the page that lists it.
func kindOf(of string) (kind, group string) {
	if _, ok := machine.FindRecord(of); ok {
		groups := map[string]string{machine.RecordMachine: "machine", machine.RecordGauge: "gauges"}
		if group, ok := groups[of]; ok {
			return "record", group
		}
		return "record", "nickel"
	}
	lesson, ok := examples.Find(of)
	switch {
	case !ok:
		return "unknown", "other"
	case lesson.Track == notebook.Nickel:
		return "lesson", "nickel"
	}
	return "lesson", "readings"
}

// titleOf is the title of a lesson or record.
func titleOf(of string) string {
	if record, ok := machine.FindRecord(of); ok {
		return record.Title
	}
	if lesson, ok := examples.Find(of); ok {
		return lesson.Title
	}
	return of
}

// titled names what an entry is of, with its own name when it has one.
func titled(e machine.Entry) string {
	if e.Name == "" {
		return titleOf(e.Of)
	}
	return titleOf(e.Of) + " (" + strings.TrimSpace(e.Name) + ")"
}
