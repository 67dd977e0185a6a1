package workbench

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
)

// Fields returns the form of a lesson or of a machine's record, and whether
// there is one.
func Fields(of string) ([]notebook.Field, bool) {
	if record, ok := machine.FindRecord(of); ok {
		return record.Fields(), true
	}
	if lesson, ok := examples.Find(of); ok {
		return lesson.Fields(), true
	}
	return nil, false
}

// inputs are a lesson's inputs by name, in order, as typed.
type inputs struct {
	names  []string
	values map[string]json.RawMessage
}

// inputsOf reads an entry's inputs.
func inputsOf(raw json.RawMessage) inputs {
	in := inputs{values: map[string]json.RawMessage{}}
	for _, m := range notebook.NewReading(raw, machine.MaxBytes).Object(raw, 0, "inputs") {
		in.set(m.Name, m.Value)
	}
	return in
}

// template returns a lesson's inputs as its demo gives them.
func template(slug string) (inputs, error) {
	lesson, ok := examples.Find(slug)
	if !ok {
		return inputs{}, fmt.Errorf("workbench: there is no lesson %q", slug)
	}
	e, err := machine.FromDocument(lesson.Template(), "2000-01-01")
	if err != nil {
		return inputs{}, fmt.Errorf("workbench: template of %s: %w", slug, err)
	}
	return inputsOf(e.Inputs), nil
}

func (in *inputs) set(name string, value json.RawMessage) {
	if _, there := in.values[name]; !there {
		in.names = append(in.names, name)
	}
	in.values[name] = value
}

func (in *inputs) setText(name, text string) { in.set(name, quoted(text)) }

// text returns a single value as typed, or nothing.
func (in inputs) text(name string) string { return cellText(in.values[name]) }

// raw returns the inputs as a JSON object.
func (in inputs) raw() json.RawMessage {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, name := range in.names {
		if i > 0 {
			b.WriteByte(',')
		}
		b.Write(quoted(name))
		b.WriteByte(':')
		b.Write(in.values[name])
	}
	b.WriteByte('}')
	return b.Bytes()
}

// cell is one value of a table as typed: its text, and the unit that its
// column's head gives it.
type cell struct {
	text, unit string
}

// grid is a table of readings as typed: its rows by the names of its columns.
type grid []map[string]cell

// column copies a column's cells by name.
func (in inputs) grid(slug, field string) grid {
	fields, _ := Fields(slug)
	var columns []notebook.Field
	for _, f := range fields {
		if f.Name == field {
			columns = f.Columns()
		}
	}
	var table struct {
		Units map[string]string   `json:"units"`
		Rows  [][]json.RawMessage `json:"rows"`
	}
	if len(columns) == 0 || json.Unmarshal(in.values[field], &table) != nil {
		return nil
	}
	var rows grid
	for _, values := range table.Rows {
		row, empty := map[string]cell{}, true
		for j, c := range columns {
			if j >= len(values) {
				break
			}
			text := strings.TrimSpace(cellText(values[j]))
			unit := table.Units[c.Name]
			if unit == "" && len(c.Units) > 0 {
				unit = c.Units[0].Symbol
			}
			if text == "" || !endsInDigit(text) {
				unit = "" // empty, a word, or typed with its own unit
			}
			empty = empty && text == ""
			row[c.Name] = cell{text, unit}
		}
		if !empty {
			rows = append(rows, row)
		}
	}
	return rows
}

// endsInDigit reports whether a typed value ends without a unit of its own.
func endsInDigit(text string) bool {
	last := text[len(text)-1]
	return last >= '0' && last <= '9' || last == '.'
}

// typed returns a cell as one would type it alone: "0.5 thou".
func (c cell) typed() string {
	if c.unit == "" {
		return c.text
	}
	return c.text + " " + c.unit
}

// setGrid sets a table of readings; the columns in the order of the lesson's
// form, each unit in the head where a column has one alone.
func (in *inputs) setGrid(slug, field string, rows grid) {
	fields, _ := Fields(slug)
	for _, f := range fields {
		if f.Name == field {
			in.set(field, tableOf(f.Columns(), rows))
		}
	}
}

// tableOf writes a table of readings.
func tableOf(columns []notebook.Field, rows grid) json.RawMessage {
	heads := map[string]string{}
	var units []string
	for _, c := range columns {
		if unit, one := oneUnit(rows, c.Name); one && unit != "" {
			heads[c.Name] = unit
			units = append(units, string(quoted(c.Name))+":"+string(quoted(unit)))
		}
	}
	lines := make([]string, len(rows))
	for i, row := range rows {
		cells := make([]string, len(columns))
		for j, c := range columns {
			text := row[c.Name].typed()
			if heads[c.Name] != "" && row[c.Name].unit != "" {
				text = row[c.Name].text
			}
			cells[j] = string(quoted(text))
		}
		lines[i] = "[" + strings.Join(cells, ",") + "]"
	}
	return json.RawMessage(`{"units":{` + strings.Join(units, ",") + `},"rows":[` + strings.Join(lines, ",") + `]}`)
}

// oneUnit returns the unit that all of a column's cells with a unit share, and
// whether they do.
func oneUnit(rows grid, column string) (unit string, one bool) {
	for _, row := range rows {
		c := row[column]
		if c.unit == "" {
			continue
		}
		if unit != "" && unit != c.unit {
			return "", false
		}
		unit = c.unit
	}
	return unit, true
}

// cellText returns a JSON string's text, a number as it is written, or nothing.
func cellText(raw json.RawMessage) string {
	raw = bytes.TrimSpace(raw)
	var text string
	switch {
	case len(raw) == 0 || bytes.Equal(raw, []byte("null")):
		return ""
	case json.Unmarshal(raw, &text) == nil:
		return text
	}
	return string(raw)
}

func quoted(text string) json.RawMessage {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if enc.Encode(text) != nil {
		return json.RawMessage(`""`)
	}
	return bytes.TrimRight(b.Bytes(), "\n")
}

// fits reports whether a form takes a value in the field of the given name.
func fits(fields []notebook.Field, name string, value json.RawMessage) bool {
	document := json.RawMessage("{" + string(quoted(name)) + ":" + string(value) + "}")
	r := notebook.NewReading(document, machine.MaxBytes)
	r.Inputs(notebook.Member{Value: document}, fields)
	return len(r.Problems) == 0
}
