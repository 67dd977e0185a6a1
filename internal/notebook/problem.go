package notebook

import (
	"errors"
	"fmt"
	"strings"
)

// Problem is one thing wrong with what the reader typed.
type Problem struct {
	// Field is the name of the field, empty when the problem is not in one.
	Field string `json:"field,omitempty"`
	// Row is the row of a table, counted from 1; 0 when not in a row.
	Row int `json:"row,omitempty"`
	// Column is the name of the table's column, empty when not in one.
	Column string `json:"column,omitempty"`
	// Label says where it is in words: "Radius", "Readings, row 3, Azimuth".
	Label string `json:"label,omitempty"`
	// Message says what is wrong, with the value and the limit.
	Message string `json:"message"`
	// Line and Col are where it stands in the JSON text, counted from 1; 0
	// when not known.
	Line int `json:"line,omitempty"`
	Col  int `json:"col,omitempty"`
}

// String returns the problem as one line.
func (p Problem) String() string {
	text := p.Message
	if p.Label != "" {
		text = p.Label + ": " + text
	}
	if p.Line > 0 {
		text = fmt.Sprintf("line %d, column %d: %s", p.Line, p.Col, text)
	}
	return text
}

// InputError holds everything found wrong with what the reader typed.
type InputError struct {
	Problems []Problem
}

// Error returns every problem, one a line.
func (e *InputError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// placed is an error of a lesson's function that belongs to a field.
type placed struct {
	field  string
	row    int
	column string
	err    error
}

func (p placed) Error() string { return p.err.Error() }
func (p placed) Unwrap() error { return p.err }

// InField returns the error as belonging to the named field.
func InField(field string, err error) error {
	return InRow(field, 0, "", err)
}

// InRow returns the error as belonging to a row and column of the named table.
// The row is counted from 1 among those that the lesson got; the message counts
// it as the person wrote it, empty rows included.
func InRow(field string, row int, column string, err error) error {
	if err == nil {
		return nil
	}
	return placed{field: field, row: row, column: column, err: err}
}

// problemOf turns an error of a lesson's function into a problem of the form.
func problemOf(err error, fields []Field) Problem {
	problem := Problem{Message: err.Error()}
	var at placed
	if errors.As(err, &at) {
		problem.Field, problem.Row, problem.Column = at.field, at.row, at.column
		for _, f := range fields {
			if f.Name == at.field {
				problem.Row = f.written(at.row)
				problem.Label = labelAt(f, problem.Row, at.column)
				if at.row == 0 && f.leftOut() {
					problem.Message += " (rows are counted without the empty ones)"
				}
			}
		}
	}
	return problem
}

// written returns the number that a row had as the person wrote it.
func (f Field) written(row int) int {
	if f.rows == nil || row < 1 || row > len(f.rows.numbers) {
		return row
	}
	return f.rows.numbers[row-1]
}

// leftOut reports whether a table was written with empty rows before others, so
// that what counts its readings counts otherwise than the person does.
func (f Field) leftOut() bool {
	return f.rows != nil && len(f.rows.numbers) > 0 && f.rows.numbers[len(f.rows.numbers)-1] > len(f.rows.numbers)
}

// labelAt names a field, and in a table the row and the column, in words.
func labelAt(f Field, row int, column string) string {
	label := f.Label
	if row > 0 {
		label += fmt.Sprintf(", row %d", row)
	}
	for _, c := range f.Columns() {
		if c.Name == column {
			label += ", " + c.Label
		}
	}
	return label
}
