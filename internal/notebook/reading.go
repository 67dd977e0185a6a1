package notebook

// Reading JSON that a person may have typed: every fault is noted with its line
// and column, and numbers are kept as they are written.

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
)

// Reading is one JSON text being read and what was found wrong with it so far.
// Make one with [NewReading].
type Reading struct {
	Problems []Problem
	text     []byte
}

// Member is one name and value of a JSON object, or one value of a list, with
// its place in the text.
type Member struct {
	// Name is empty for a value of a list.
	Name  string
	Value json.RawMessage
	// At is the offset of the value in the whole text, in bytes.
	At int
}

// NewReading begins to read a text of at most the given number of bytes. Text
// that is longer, or that is not JSON, is a problem already.
func NewReading(text []byte, most int) *Reading {
	r := &Reading{text: text}
	if len(text) > most {
		r.Problems = []Problem{{Message: fmt.Sprintf("the file has %d bytes; the most is %d", len(text), most)}}
		return r
	}
	r.syntax()
	return r
}

// Object returns the members of a JSON object that stands at the given offset
// of the text, in order. A name that comes twice is a problem.
func (r *Reading) Object(value []byte, base int, what string) []Member {
	dec := json.NewDecoder(bytes.NewReader(value))
	if open, err := dec.Token(); err != nil || open != json.Delim('{') {
		r.Add(base, Problem{Message: what + ": expected an object in braces: {…}"})
		return nil
	}
	var members []Member
	seen := map[string]bool{}
	for dec.More() {
		token, err := dec.Token()
		name, isName := token.(string)
		var raw json.RawMessage
		if err != nil || !isName || dec.Decode(&raw) != nil {
			r.Add(base, Problem{Message: what + ": this is not JSON"})
			return nil
		}
		offset := base + int(dec.InputOffset()) - len(raw)
		if seen[name] {
			r.Add(offset, Problem{Message: fmt.Sprintf("%s comes twice in %s", quoted(name), what)})
		}
		seen[name] = true
		members = append(members, Member{name, raw, offset})
	}
	return members
}

// List returns the values of a JSON list that stands at the given offset of
// the text, in order.
func (r *Reading) List(value []byte, base int, what string) []Member {
	dec := json.NewDecoder(bytes.NewReader(value))
	if open, err := dec.Token(); err != nil || open != json.Delim('[') {
		r.Add(base, Problem{Message: what + ": expected a list in brackets: […]"})
		return nil
	}
	var members []Member
	for dec.More() {
		var raw json.RawMessage
		if dec.Decode(&raw) != nil {
			r.Add(base, Problem{Message: what + ": this is not JSON"})
			return nil
		}
		members = append(members, Member{Value: raw, At: base + int(dec.InputOffset()) - len(raw)})
	}
	return members
}

// Inputs sets the fields from the inputs of a lesson, an object that stands in
// the text, and notes what is wrong with them.
func (r *Reading) Inputs(inputs Member, fields []Field) {
	reader{r}.readFields(inputs, fields)
}

// syntax notes text that is not JSON, at its place.
func (r *Reading) syntax() {
	var whole json.RawMessage
	err := json.Unmarshal(r.text, &whole)
	var bad *json.SyntaxError
	if !errors.As(err, &bad) {
		return
	}
	switch {
	case int(bad.Offset) >= len(r.text) && strings.Contains(bad.Error(), "unexpected end"):
		r.Add(len(r.text), Problem{Message: "the text ends too soon: a brace, bracket or quotation mark is not closed"})
	case strings.Contains(bad.Error(), "after top-level value"):
		r.Add(int(bad.Offset)-1, Problem{Message: "there is more text after the closing brace"})
	default:
		r.Add(int(bad.Offset)-1, Problem{Message: "this is not JSON: " + bad.Error()})
	}
}

// Add notes a problem that stands at an offset of the text.
func (r *Reading) Add(offset int, p Problem) {
	offset = max(0, min(offset, len(r.text)))
	before := r.text[:offset]
	p.Line = bytes.Count(before, []byte("\n")) + 1
	p.Col = len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:]))) + 1
	r.Problems = append(r.Problems, p)
}

// UnknownName says that a name is not known, and which is nearest.
func UnknownName(name string, known []string) string {
	text := fmt.Sprintf("%s is not a name that is known here", quoted(name))
	if near := Nearest(name, known); len(near) > 0 {
		return text + "; did you mean " + orList(near) + "?"
	}
	return text + "; known are " + strings.Join(known, ", ")
}
