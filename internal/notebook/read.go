package notebook

// Reading the reader's JSON. The same document is what a page saves and loads,
// what a browser sends on each keystroke and what "work -in" takes:
//
//	{
//	  "lesson": "sweep",
//	  "format": 1,
//	  "inputs": {
//	    "radius": "110 mm",
//	    "readings": {
//	      "units": {"azimuth": "°", "reading": "thou"},
//	      "rows": [[0, 0.00], [45, "-0.5"]]
//	    }
//	  }
//	}
//
// A field that is left out keeps its default. A number may be typed with a
// decimal comma or as a fraction. Everything wrong is reported at once.

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"time"
)

// Format is the version of the input document that this code writes.
const Format = 1

// maxInput bounds the input document, in bytes.
const maxInput = 1 << 20

// member is one name and value of a JSON object, with its place in the text.
type member struct {
	name   string
	value  json.RawMessage
	offset int
}

// reader reads one input document.
type reader struct {
	text     []byte
	problems []Problem
}

// readInputs sets the fields from the document and returns what is wrong.
func readInputs(text []byte, slug string, fields []Field) []Problem {
	r := &reader{text: text}
	if len(text) > maxInput {
		return []Problem{{Message: fmt.Sprintf("the file has %d bytes; the most is %d", len(text), maxInput)}}
	}
	if r.syntax() {
		return r.problems
	}
	for _, m := range r.object(text, 0, "the file") {
		switch m.name {
		case "lesson":
			r.readSlug(m, slug)
		case "format":
			r.readFormat(m)
		case "inputs":
			r.readFields(m, fields)
		default:
			r.add(m.offset, Problem{Message: unknownName(m.name, []string{"lesson", "format", "inputs"})})
		}
	}
	return r.problems
}

func (r *reader) readSlug(m member, slug string) {
	var got string
	if json.Unmarshal(m.value, &got) != nil || got != slug {
		r.add(m.offset, Problem{Message: fmt.Sprintf("this file is for the lesson %s, not for %q", quoted(strings.Trim(string(m.value), `"`)), slug)})
	}
}

func (r *reader) readFormat(m member) {
	var got int
	if json.Unmarshal(m.value, &got) != nil || got < 1 || got > Format {
		r.add(m.offset, Problem{Message: fmt.Sprintf("the file's format is %s; this program reads 1 to %d", clip(m.value), Format)})
	}
}

func (r *reader) readFields(m member, fields []Field) {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	for _, in := range r.object(m.value, m.offset, "inputs") {
		at := indexOf(names, in.name)
		if at < 0 {
			r.add(in.offset, Problem{Field: "", Message: unknownName(in.name, names)})
			continue
		}
		r.readField(in, fields[at])
	}
}

// readField sets one field, scalar or table.
func (r *reader) readField(m member, f Field) {
	if f.Kind == RowsField {
		r.readRows(m, f)
		return
	}
	if err := setScalar(f, m.value, Unit{}); err != nil {
		r.add(m.offset, Problem{Field: f.Name, Label: f.Label, Message: err.Error()})
	}
}

// setScalar sets a field from a JSON string, number or null. The unit, when it
// has a scale, is that of the table's column.
func setScalar(f Field, value json.RawMessage, unit Unit) error {
	text, err := scalarText(value)
	if err != nil {
		return err
	}
	if strings.TrimSpace(text) == "" && f.Optional && f.set != nil {
		f.set(0, false)
		return nil
	}
	switch f.Kind {
	case MeasureField:
		return setMeasure(f, text, unit)
	case NumberField, CountField:
		return setNumber(f, text)
	case ChoiceField:
		return setChoice(f, text)
	case DayField:
		if _, err := time.Parse(dayLayout, strings.TrimSpace(text)); err != nil {
			return fmt.Errorf("%s is not a date; write it as 2025-05-24", quoted(text))
		}
		f.setText(strings.TrimSpace(text))
		return nil
	case WordsField:
		return setWords(f, text)
	}
	return fmt.Errorf("a field of kind %q cannot be read", f.Kind)
}

// scalarText returns a JSON string's text, or a number's or null's as typed.
func scalarText(value json.RawMessage) (string, error) {
	value = bytes.TrimSpace(value)
	if len(value) == 0 || bytes.Equal(value, []byte("null")) {
		return "", nil
	}
	switch value[0] {
	case '"':
		var text string
		err := json.Unmarshal(value, &text)
		return text, err
	case '{', '[':
		return "", fmt.Errorf("%s is not a single value", clip(value))
	case 't', 'f':
		return "", fmt.Errorf("%s is not a value that can be typed here", clip(value))
	}
	return string(value), nil
}

func setMeasure(f Field, text string, unit Unit) error {
	if strings.TrimSpace(text) == "" {
		return fmt.Errorf("is empty; type a number")
	}
	if unit.Scale == 0 {
		number, typed, ok := splitUnit(text, f.Units)
		if !ok {
			return fmt.Errorf("%s has no unit that fits here; write a number and one of %s", quoted(text), unitList(f.Units))
		}
		text, unit = number, typed
	} else if number, typed, ok := splitUnit(text, f.Units); ok {
		text, unit = number, typed
	}
	x, err := parseNumber(text)
	if err != nil {
		return err
	}
	si := unit.ToSI(x)
	if math.IsInf(si, 0) {
		return fmt.Errorf("%s is too large", quoted(text))
	}
	if err := f.Limits.check(si, unit); err != nil {
		return err
	}
	f.set(si, true)
	return nil
}

func setNumber(f Field, text string) error {
	x, err := parseNumber(text)
	if err != nil {
		return err
	}
	if f.Kind == CountField && x != math.Trunc(x) {
		return fmt.Errorf("%s is not a whole number", quoted(text))
	}
	if f.Kind == CountField && math.Abs(x) > 1e9 {
		return fmt.Errorf("%s is too large", quoted(text))
	}
	if err := f.Limits.check(x, One); err != nil {
		return err
	}
	f.set(x, true)
	return nil
}

func setChoice(f Field, text string) error {
	for _, option := range f.Options {
		if text == option {
			f.setText(text)
			return nil
		}
	}
	return fmt.Errorf("%s is not one of: %s", quoted(text), orList(f.Options))
}

// maxWords bounds free text, in characters.
const maxWords = 80

func setWords(f Field, text string) error {
	text = strings.TrimSpace(text)
	if n := len([]rune(text)); n > maxWords {
		return fmt.Errorf("%s has %d characters; the most is %d", quoted(text), n, maxWords)
	}
	for _, c := range text {
		if c < ' ' || c == 0x7f {
			return fmt.Errorf("%s holds a control character", quoted(text))
		}
	}
	f.setText(text)
	return nil
}

// readRows sets a table.
func (r *reader) readRows(m member, f Field) {
	columns := f.Columns()
	units := make([]Unit, len(columns))
	for i, c := range columns {
		if len(c.Units) > 0 {
			units[i] = c.Units[0]
		}
	}
	var rows json.RawMessage
	for _, in := range r.object(m.value, m.offset, f.Label) {
		switch in.name {
		case "units":
			r.readUnits(in, f, units)
		case "rows":
			rows = in.value
		default:
			r.add(in.offset, Problem{Field: f.Name, Label: f.Label, Message: unknownName(in.name, []string{"units", "rows"})})
		}
	}
	if rows == nil {
		r.add(m.offset, Problem{Field: f.Name, Label: f.Label, Message: `has no "rows"`})
		return
	}
	var cells [][]json.RawMessage
	if err := json.Unmarshal(rows, &cells); err != nil {
		r.add(m.offset, Problem{Field: f.Name, Label: f.Label, Message: "its rows are not a list of lists: [[0, 1.5], [45, 2]]"})
		return
	}
	r.readCells(m, f, units, cells)
}

func (r *reader) readUnits(m member, f Field, units []Unit) {
	columns := f.Columns()
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.Name
	}
	for _, in := range r.object(m.value, m.offset, f.Label) {
		at := indexOf(names, in.name)
		if at < 0 {
			r.add(in.offset, Problem{Field: f.Name, Label: f.Label, Message: unknownName(in.name, names)})
			continue
		}
		var symbol string
		found := false
		if json.Unmarshal(in.value, &symbol) == nil {
			for _, u := range columns[at].Units {
				if u.named(symbol) {
					units[at], found = u, true
				}
			}
		}
		if !found {
			r.add(in.offset, Problem{Field: f.Name, Column: in.name, Label: labelAt(f, 0, in.name),
				Message: fmt.Sprintf("%s is not a unit for this; use %s", clip(in.value), unitList(columns[at].Units))})
		}
	}
}

func (r *reader) readCells(m member, f Field, units []Unit, cells [][]json.RawMessage) {
	kept, numbers := dropEmpty(cells)
	if len(kept) < f.MinRows || len(kept) > f.MaxRows {
		r.add(m.offset, Problem{Field: f.Name, Label: f.Label,
			Message: fmt.Sprintf("has %d rows; it takes %d to %d", len(kept), f.MinRows, f.MaxRows)})
		return
	}
	columns := f.Columns()
	f.rows.resize(len(kept))
	for i, row := range kept {
		number := numbers[i]
		if len(row) > len(columns) {
			r.add(m.offset, Problem{Field: f.Name, Row: number, Label: labelAt(f, number, ""),
				Message: fmt.Sprintf("has %d values for %d columns", len(row), len(columns))})
			continue
		}
		for j, bound := range f.rows.row(i) {
			var value json.RawMessage
			if j < len(row) {
				value = row[j]
			}
			if err := setScalar(bound, value, units[j]); err != nil {
				r.add(m.offset, Problem{Field: f.Name, Row: number, Column: bound.Name,
					Label: labelAt(f, number, bound.Name), Message: err.Error()})
			}
		}
	}
}

// dropEmpty leaves out rows in which nothing is typed, and returns the number,
// from 1, that each kept row had.
func dropEmpty(cells [][]json.RawMessage) (kept [][]json.RawMessage, numbers []int) {
	for i, row := range cells {
		empty := true
		for _, cell := range row {
			text, err := scalarText(cell)
			if err != nil || strings.TrimSpace(text) != "" {
				empty = false
			}
		}
		if !empty {
			kept, numbers = append(kept, row), append(numbers, i+1)
		}
	}
	return kept, numbers
}

// object returns the members of a JSON object that stands at the given offset
// of the text, in order. A name that comes twice is a problem.
func (r *reader) object(value []byte, base int, what string) []member {
	dec := json.NewDecoder(bytes.NewReader(value))
	if open, err := dec.Token(); err != nil || open != json.Delim('{') {
		r.add(base, Problem{Message: what + ": expected an object in braces: {…}"})
		return nil
	}
	var members []member
	seen := map[string]bool{}
	for dec.More() {
		token, err := dec.Token()
		name, isName := token.(string)
		var raw json.RawMessage
		if err != nil || !isName || dec.Decode(&raw) != nil {
			r.add(base, Problem{Message: what + ": this is not JSON"})
			return nil
		}
		offset := base + int(dec.InputOffset()) - len(raw)
		if seen[name] {
			r.add(offset, Problem{Message: fmt.Sprintf("%s comes twice in %s", quoted(name), what)})
		}
		seen[name] = true
		members = append(members, member{name, raw, offset})
	}
	return members
}

// syntax returns the problem of text that is not JSON, at its place, and
// whether there is one.
func (r *reader) syntax() bool {
	var whole json.RawMessage
	err := json.Unmarshal(r.text, &whole)
	var bad *json.SyntaxError
	if !errors.As(err, &bad) {
		return false
	}
	switch {
	case int(bad.Offset) >= len(r.text) && strings.Contains(bad.Error(), "unexpected end"):
		r.add(len(r.text), Problem{Message: "the text ends too soon: a brace, bracket or quotation mark is not closed"})
	case strings.Contains(bad.Error(), "after top-level value"):
		r.add(int(bad.Offset)-1, Problem{Message: "there is more text after the closing brace"})
	default:
		r.add(int(bad.Offset)-1, Problem{Message: "this is not JSON: " + bad.Error()})
	}
	return true
}

// add notes a problem that stands at an offset of the text.
func (r *reader) add(offset int, p Problem) {
	offset = max(0, min(offset, len(r.text)))
	before := r.text[:offset]
	p.Line = bytes.Count(before, []byte("\n")) + 1
	p.Col = len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:]))) + 1
	r.problems = append(r.problems, p)
}

// unknownName says that a name is not known, and which is nearest.
func unknownName(name string, known []string) string {
	text := fmt.Sprintf("%s is not a name that is known here", quoted(name))
	if near := Nearest(name, known); len(near) > 0 {
		return text + "; did you mean " + orList(near) + "?"
	}
	return text + "; known are " + strings.Join(known, ", ")
}

func indexOf(names []string, name string) int {
	for i, n := range names {
		if n == name {
			return i
		}
	}
	return -1
}

// clip returns JSON text short enough for a message.
func clip(value []byte) string {
	const most = 40
	runes := []rune(string(bytes.TrimSpace(value)))
	if len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return string(runes)
}
