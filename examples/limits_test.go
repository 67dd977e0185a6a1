package examples

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"testing"

	"example.org/thouspan/internal/notebook"
)

// document is an input document in the making.
type document struct {
	Lesson string         `json:"lesson"`
	Format int            `json:"format"`
	Inputs map[string]any `json:"inputs"`
}

// template returns the lesson's demo as a document.
func template(t testing.TB, l notebook.Lesson) document {
	t.Helper()
	var d document
	if err := json.Unmarshal(l.Template(), &d); err != nil {
		t.Fatal(err)
	}
	return d
}

// extremes returns what a reader could type into the field at its very limits.
func extremes(f notebook.Field) []any {
	switch f.Kind {
	case notebook.ChoiceField:
		var all []any
		for _, option := range f.Options {
			all = append(all, option)
		}
		return all
	case notebook.DayField:
		return []any{"0001-01-01", "9999-12-31"}
	case notebook.WordsField:
		return []any{"", "<script>alert(1)</script>"}
	case notebook.FileField:
		return []any{"", "empty.stl;base64,", "knob.stl;base64,c29saWQga25vYg==", "<b>;base64,AAECAwQ=", "knob.stl", ";base64,!"}
	}
	unit := notebook.One
	if len(f.Units) > 0 {
		unit = f.Units[0]
	}
	var all []any
	typed := func(si float64) {
		text := strconv.FormatFloat(unit.FromSI(si), 'g', -1, 64)
		if unit.Symbol != "" {
			text += " " + unit.Symbol
		}
		all = append(all, text)
	}
	if f.Limits.HasMin {
		typed(f.Limits.Min)
		if f.Limits.OpenAtMin {
			typed(f.Limits.Min + 1e-9)
		}
	} else if f.Kind != notebook.CountField {
		typed(-1e12)
	}
	if f.Limits.HasMax {
		typed(f.Limits.Max)
	} else if f.Kind != notebook.CountField {
		typed(1e12)
	}
	if f.Optional {
		all = append(all, "")
	}
	return all
}

// variations calls try with each document that differs from the demo in one
// field, or in one column of one table, taken to its limits; and with tables
// emptied, cut to one row and with a row repeated.
func variations(t testing.TB, l notebook.Lesson, try func(what string, d document)) {
	for _, f := range l.Fields() {
		if f.Kind == notebook.RowsField {
			tableVariations(t, l, f, try)
			continue
		}
		for _, value := range extremes(f) {
			d := template(t, l)
			d.Inputs[f.Name] = value
			try(fmt.Sprintf("%s = %v", f.Name, value), d)
		}
	}
}

func tableVariations(t testing.TB, l notebook.Lesson, f notebook.Field, try func(what string, d document)) {
	rowsOf := func(d document) []any { return d.Inputs[f.Name].(map[string]any)["rows"].([]any) }
	set := func(d document, rows []any) document {
		d.Inputs[f.Name].(map[string]any)["rows"] = rows
		return d
	}
	rows := rowsOf(template(t, l))
	try(f.Name+" emptied", set(template(t, l), []any{}))
	if len(rows) == 0 {
		return
	}
	try(f.Name+" cut to one row", set(template(t, l), rows[:1]))
	try(f.Name+" with its first row twice", set(template(t, l), append([]any{rows[0]}, rows...)))
	for c, column := range f.Columns() {
		for _, value := range extremes(column) {
			one, all := template(t, l), template(t, l)
			rowsOf(one)[0].([]any)[c] = value
			try(fmt.Sprintf("%s, first %s = %v", f.Name, column.Name, value), one)
			for _, row := range rowsOf(all) {
				row.([]any)[c] = value
			}
			try(fmt.Sprintf("%s, every %s = %v", f.Name, column.Name, value), all)
		}
	}
}

// TestEveryLessonStandsItsLimits takes each field of each lesson to its limits,
// one at a time: the lesson must give a sheet or say what is wrong, and may not
// panic or make a value that cannot be printed.
func TestEveryLessonStandsItsLimits(t *testing.T) {
	if testing.Short() {
		t.Skip("takes every field of every lesson to its limits; skipped with -short")
	}
	for _, lesson := range Lessons() {
		t.Run(lesson.Slug, func(t *testing.T) {
			t.Parallel()
			variations(t, lesson, func(what string, d document) {
				text, err := json.Marshal(d)
				if err != nil {
					t.Fatal(err)
				}
				defer func() {
					if fault := recover(); fault != nil {
						t.Errorf("%s: panic: %v", what, fault)
					}
				}()
				sheet, err := lesson.Work(text)
				var input *notebook.InputError
				if err != nil && !errors.As(err, &input) || err == nil && sheet == nil {
					t.Errorf("%s: %v", what, err)
				}
			})
		})
	}
}

// FuzzWork gives the lessons documents that nobody would type.
func FuzzWork(f *testing.F) {
	for i, lesson := range Lessons() {
		f.Add(i, lesson.Template())
	}
	f.Fuzz(func(t *testing.T, i int, text []byte) {
		lessons := Lessons()
		lesson := lessons[uint(i)%uint(len(lessons))]
		sheet, err := lesson.Work(text)
		var input *notebook.InputError
		if err != nil && !errors.As(err, &input) || err == nil && sheet == nil {
			t.Errorf("lesson %s: %v", lesson.Slug, err)
		}
	})
}
