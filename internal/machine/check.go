package machine

import (
	"bytes"
	"encoding/json"

	"example.org/thouspan/internal/notebook"
)

// Fields finds the form of a lesson or record by its slug or name.
type Fields func(of string) ([]notebook.Field, bool)

// EntryProblems is an entry with what is wrong with its inputs.
type EntryProblems struct {
	Entry    Entry
	Problems []notebook.Problem
}

// Check reads the inputs of every entry by the form of what it is of and
// returns the entries that have problems, in order, each problem with its line
// and column in the text that the file was read from. Entries of a lesson, or
// of a format, that this program does not know are left alone.
func (f *File) Check(text []byte, fields Fields) []EntryProblems {
	var found []EntryProblems
	for _, e := range f.Entries {
		if problems := e.Check(text, fields); len(problems) > 0 {
			found = append(found, EntryProblems{e, problems})
		}
	}
	return found
}

// Check returns what is wrong with one entry's inputs: see [File.Check].
func (e Entry) Check(text []byte, fields Fields) []notebook.Problem {
	form, known := fields(e.Of)
	if !known || e.InputsFormat > notebook.Format || e.at >= len(text) {
		return nil
	}
	r := notebook.NewReading(text, MaxBytes)
	// The inputs as they stand in the text, spaces and all, so that the places
	// of its problems are right.
	r.Inputs(notebook.Member{Value: objectAt(text, e.at), At: e.at}, form)
	return r.Problems
}

// objectAt returns the JSON value that begins at an offset of the text.
func objectAt(text []byte, at int) json.RawMessage {
	var raw json.RawMessage
	if json.NewDecoder(bytes.NewReader(text[at:])).Decode(&raw) != nil {
		return nil
	}
	return raw
}
