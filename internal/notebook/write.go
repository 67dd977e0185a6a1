package notebook

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// writeInputs returns the fields as an input document, each value in its first
// unit, laid out for a person to edit.
func writeInputs(slug string, fields []Field) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "{\n  \"lesson\": %s,\n  \"format\": %d,\n  \"inputs\": {", quoteJSON(slug), Format)
	for i, f := range fields {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, "\n    %s: ", quoteJSON(f.Name))
		if f.Kind == RowsField {
			writeRows(&b, f)
		} else {
			b.WriteString(quoteJSON(f.Typed()))
		}
	}
	b.WriteString("\n  }\n}\n")
	return b.Bytes()
}

func writeRows(b *bytes.Buffer, f Field) {
	b.WriteString("{\n      \"units\": {")
	first := true
	for _, c := range f.Columns() {
		if len(c.Units) == 0 {
			continue
		}
		if !first {
			b.WriteString(", ")
		}
		first = false
		b.WriteString(quoteJSON(c.Name) + ": " + quoteJSON(c.Units[0].Symbol))
	}
	b.WriteString("},\n      \"rows\": [")
	for i, row := range f.TypedRows() {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n        [")
		for j, text := range row {
			if j > 0 {
				b.WriteString(", ")
			}
			b.WriteString(cellJSON(f.Columns()[j], text))
		}
		b.WriteByte(']')
	}
	b.WriteString("\n      ]\n    }")
}

// cellJSON writes a table's cell: a bare number where it is one, null where it
// is empty, else a string.
func cellJSON(column Field, text string) string {
	switch {
	case text == "" && column.Kind != WordsField:
		return "null"
	case column.Kind == ChoiceField || column.Kind == WordsField || column.Kind == DayField:
		return quoteJSON(text)
	}
	return text
}

// Typed returns the field's present value as it would be typed: "110 mm".
func (f Field) Typed() string {
	number, unit := f.TypedParts()
	if unit == "" || number == "" {
		return number
	}
	return number + " " + unit
}

// TypedParts returns the field's present value and its unit as typed.
func (f Field) TypedParts() (number, unit string) {
	if f.getText != nil {
		return f.getText(), ""
	}
	var u = One
	if len(f.Units) > 0 {
		u = f.Units[0]
	}
	si, given := f.get()
	if !given {
		return "", u.Symbol
	}
	return typedNumber(u.FromSI(si), f.Decimals), u.Symbol
}

// TypedRows returns a table's present values as typed, in the first unit of
// each column.
func (f Field) TypedRows() [][]string {
	rows := make([][]string, f.rows.count())
	for i := range rows {
		for _, c := range f.rows.row(i) {
			number, _ := c.TypedParts()
			rows[i] = append(rows[i], number)
		}
	}
	return rows
}

// typedNumber writes a number with the given decimals, or with as many of
// twelve significant digits as it needs.
func typedNumber(x float64, decimals int) string {
	if decimals > 0 {
		text := strconv.FormatFloat(x, 'f', decimals, 64)
		if strings.Trim(text, "-0.") == "" {
			return strings.TrimPrefix(text, "-")
		}
		return text
	}
	return strconv.FormatFloat(roundTo(x, 12), 'g', -1, 64)
}

func quoteJSON(text string) string {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(text); err != nil {
		return `""`
	}
	return strings.TrimSuffix(b.String(), "\n")
}
