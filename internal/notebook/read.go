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
	"fmt"
	"math"
	"strings"
	"time"
)

// Format is the version of the input document that this code writes.
const Format = 1

// maxInput bounds the input document, in bytes: a file in base64 and readings.
const maxInput = 3 << 20

// reader reads one input document: a [Reading] that knows fields.
type reader struct {
	*Reading
}

// readInputs sets the fields from the document and returns what is wrong.
func readInputs(text []byte, slug string, fields []Field) []Problem {
	r := reader{NewReading(text, maxInput)}
	if len(r.Problems) > 0 {
		return r.Problems
	}
	for _, m := range r.Object(text, 0, "the file") {
		switch m.Name {
		case "lesson":
			r.readSlug(m, slug)
		case "format":
			r.readFormat(m)
		case "inputs":
			r.readFields(m, fields)
		default:
			r.Add(m.At, Problem{Message: UnknownName(m.Name, []string{"lesson", "format", "inputs"})})
		}
	}
	return r.Problems
}

func (r reader) readSlug(m Member, slug string) {
	var got string
	if json.Unmarshal(m.Value, &got) != nil || got != slug {
		r.Add(m.At, Problem{Message: fmt.Sprintf("this file is for the lesson %s, not for %q", quoted(strings.Trim(string(m.Value), `"`)), slug)})
	}
}

func (r reader) readFormat(m Member) {
	var got int
	if json.Unmarshal(m.Value, &got) != nil || got < 1 || got > Format {
		r.Add(m.At, Problem{Message: fmt.Sprintf("the file's format is %s; this program reads 1 to %d", clip(m.Value), Format)})
	}
}

func (r reader) readFields(m Member, fields []Field) {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	for _, in := range r.Object(m.Value, m.At, "inputs") {
		at := indexOf(names, in.Name)
		if at < 0 {
			r.Add(in.At, Problem{Field: "", Message: UnknownName(in.Name, names)})
			continue
		}
		r.readField(in, fields[at])
	}
}

// readField sets one field, scalar or table.
func (r reader) readField(m Member, f Field) {
	if f.Kind == RowsField {
		r.readRows(m, f)
		return
	}
	if err := setScalar(f, m.Value, Unit{}); err != nil {
		r.Add(m.At, Problem{Field: f.Name, Label: f.Label, Message: err.Error()})
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
	case FileField:
		return setFileText(f, text)
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
func (r reader) readRows(m Member, f Field) {
	columns := f.Columns()
	units := make([]Unit, len(columns))
	for i, c := range columns {
		if len(c.Units) > 0 {
			units[i] = c.Units[0]
		}
	}
	var rows json.RawMessage
	for _, in := range r.Object(m.Value, m.At, f.Label) {
		switch in.Name {
		case "units":
			r.readUnits(in, f, units)
		case "rows":
			rows = in.Value
		default:
			r.Add(in.At, Problem{Field: f.Name, Label: f.Label, Message: UnknownName(in.Name, []string{"units", "rows"})})
		}
	}
	if rows == nil {
		r.Add(m.At, Problem{Field: f.Name, Label: f.Label, Message: `has no "rows"`})
		return
	}
	var cells [][]json.RawMessage
	if err := json.Unmarshal(rows, &cells); err != nil {
		r.Add(m.At, Problem{Field: f.Name, Label: f.Label, Message: "its rows are not a list of lists: [[0, 1.5], [45, 2]]"})
		return
	}
	r.readCells(m, f, units, cells)
}

func (r reader) readUnits(m Member, f Field, units []Unit) {
	columns := f.Columns()
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.Name
	}
	for _, in := range r.Object(m.Value, m.At, f.Label) {
		at := indexOf(names, in.Name)
		if at < 0 {
			r.Add(in.At, Problem{Field: f.Name, Label: f.Label, Message: UnknownName(in.Name, names)})
			continue
		}
		var symbol string
		found := false
		if json.Unmarshal(in.Value, &symbol) == nil {
			for _, u := range columns[at].Units {
				if u.named(symbol) {
					units[at], found = u, true
				}
			}
		}
		if !found {
			r.Add(in.At, Problem{Field: f.Name, Column: in.Name, Label: labelAt(f, 0, in.Name),
				Message: fmt.Sprintf("%s is not a unit for this; use %s", clip(in.Value), unitList(columns[at].Units))})
		}
	}
}

func (r reader) readCells(m Member, f Field, units []Unit, cells [][]json.RawMessage) {
	kept, numbers := dropEmpty(cells)
	if len(kept) < f.MinRows || len(kept) > f.MaxRows {
		r.Add(m.At, Problem{Field: f.Name, Label: f.Label,
			Message: fmt.Sprintf("has %d rows; it takes %d to %d", len(kept), f.MinRows, f.MaxRows)})
		return
	}
	columns := f.Columns()
	f.rows.resize(len(kept))
	f.rows.numbers = numbers
	for i, row := range kept {
		number := numbers[i]
		if len(row) > len(columns) {
			r.Add(m.At, Problem{Field: f.Name, Row: number, Label: labelAt(f, number, ""),
				Message: fmt.Sprintf("has %d values for %d columns", len(row), len(columns))})
			continue
		}
		for j, bound := range f.rows.row(i) {
			var value json.RawMessage
			if j < len(row) {
				value = row[j]
			}
			if err := setScalar(bound, value, units[j]); err != nil {
				r.Add(m.At, Problem{Field: f.Name, Row: number, Column: bound.Name,
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
