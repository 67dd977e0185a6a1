package notebook

import (
	"time"
)

// FieldKind says what is typed into a field.
type FieldKind string

// The kinds of field.
const (
	MeasureField FieldKind = "measure" // a number with a unit
	NumberField  FieldKind = "number"  // a number without a unit
	CountField   FieldKind = "count"   // a whole number
	ChoiceField  FieldKind = "choice"  // one of a list of words
	WordsField   FieldKind = "words"   // free text, a name
	DayField     FieldKind = "day"     // a date, 2025-05-24
	RowsField    FieldKind = "rows"    // a table of readings
	FileField    FieldKind = "file"    // a small file, kept with what is typed
)

// Spec says what a field is called, what may be typed into it and why.
type Spec struct {
	// Label is the field's name on the page and in every message.
	Label string
	// Help says in a sentence what to type and where to read it.
	Help string
	// Units are the units the reader may choose from; the first is the one in
	// which the demo data are shown. Needed for a measure.
	Units []Unit
	// Limits bound the value, in SI.
	Limits Limits
	// Options are the words of a choice.
	Options []string
	// Decimals is the number of decimals in which a default value is written;
	// zero means as many as it needs.
	Decimals int
	// Group, when not empty, folds the field away, together with its
	// neighbours of the same group, under that heading: what is set once and
	// seldom changed.
	Group string
	// MinRows and MaxRows bound the rows of a table; MaxRows 0 means 200.
	MinRows, MaxRows int
	// MostBytes bounds a file; 0 means [MostAttached]. Accept lists the endings
	// of the names that a browser offers, as ".stl".
	MostBytes int
	Accept    string
}

// Limits are the least and greatest accepted values, in SI, ends included
// unless Open.
type Limits struct {
	Min, Max  float64
	HasMin    bool
	HasMax    bool
	OpenAtMin bool
}

// Between accepts lo to hi, ends included.
func Between[T ~float64](lo, hi T) Limits {
	return Limits{Min: float64(lo), Max: float64(hi), HasMin: true, HasMax: true}
}

// AtLeast accepts lo and more.
func AtLeast[T ~float64](lo T) Limits { return Limits{Min: float64(lo), HasMin: true} }

// AboveUpTo accepts values above lo, up to hi.
func AboveUpTo[T ~float64](lo, hi T) Limits {
	return Limits{Min: float64(lo), Max: float64(hi), HasMin: true, HasMax: true, OpenAtMin: true}
}

// Field binds one place of a lesson's inputs to what the reader types. Make
// one with [Measure], [Number], [Count], [Choice], [Words], [Day], [Rows] or
// [File].
type Field struct {
	Name string
	Kind FieldKind
	Spec
	// Optional fields may be left empty.
	Optional bool

	get     func() (si float64, given bool)
	set     func(si float64, given bool)
	getText func() string
	setText func(string)
	setFile func(Attachment)
	rows    *rowsBinding
}

// rowsBinding binds a table to a slice of structs.
type rowsBinding struct {
	// numbers are those that the rows kept had as written, from 1.
	numbers []int
	// columns describes the columns, bound to a scratch row.
	columns []Field
	count   func() int
	// row returns the columns bound to row i.
	row func(i int) []Field
	// resize makes the slice n blank rows long, in a new backing array.
	resize func(n int)
}

// Measure binds a value with a unit, held in SI.
func Measure[T ~float64](name string, p *T, s Spec) Field {
	return Field{Name: name, Kind: MeasureField, Spec: s,
		get: func() (float64, bool) { return float64(*p), true },
		set: func(si float64, _ bool) { *p = T(si) }}
}

// MeasureMaybe binds a value with a unit that may be left empty: nil then.
func MeasureMaybe[T ~float64](name string, p **T, s Spec) Field {
	f := Field{Name: name, Kind: MeasureField, Spec: s, Optional: true}
	f.get = func() (float64, bool) {
		if *p == nil {
			return 0, false
		}
		return float64(**p), true
	}
	f.set = func(si float64, given bool) {
		*p = nil
		if given {
			v := T(si)
			*p = &v
		}
	}
	return f
}

// Number binds a pure number.
func Number(name string, p *float64, s Spec) Field {
	f := Measure(name, p, s)
	f.Kind = NumberField
	return f
}

// Count binds a whole number.
func Count(name string, p *int, s Spec) Field {
	return Field{Name: name, Kind: CountField, Spec: s,
		get: func() (float64, bool) { return float64(*p), true },
		set: func(x float64, _ bool) { *p = int(x) }}
}

// Choice binds one of the spec's options.
func Choice(name string, p *string, s Spec) Field {
	return textField(name, ChoiceField, p, s)
}

// Words binds free text of at most 80 characters: the name of a part.
func Words(name string, p *string, s Spec) Field {
	f := textField(name, WordsField, p, s)
	f.Optional = true
	return f
}

func textField(name string, kind FieldKind, p *string, s Spec) Field {
	return Field{Name: name, Kind: kind, Spec: s,
		getText: func() string { return *p },
		setText: func(text string) { *p = text }}
}

// dayLayout is how a date is written: ISO 8601 calendar date.
const dayLayout = "2006-01-02"

// Day binds a date.
func Day(name string, p *time.Time, s Spec) Field {
	return Field{Name: name, Kind: DayField, Spec: s,
		getText: func() string { return p.Format(dayLayout) },
		setText: func(text string) { *p, _ = time.Parse(dayLayout, text) }}
}

// Rows binds a table of readings to a slice. The function binds the columns of
// one row; a new row starts as the zero R.
func Rows[R any](name string, p *[]R, s Spec, columns func(*R) []Field) Field {
	if s.MaxRows == 0 {
		s.MaxRows = 200
	}
	return Field{Name: name, Kind: RowsField, Spec: s, rows: &rowsBinding{
		columns: columns(new(R)),
		count:   func() int { return len(*p) },
		row:     func(i int) []Field { return columns(&(*p)[i]) },
		resize:  func(n int) { *p = make([]R, n) },
	}}
}

// Columns returns the columns of a table field, or nil.
func (f Field) Columns() []Field {
	if f.rows == nil {
		return nil
	}
	return f.rows.columns
}

// Grouped returns the fields folded away under one heading: see [Spec].
func Grouped(heading string, fields ...Field) []Field {
	grouped := make([]Field, len(fields))
	for i, f := range fields {
		f.Group = heading
		grouped[i] = f
	}
	return grouped
}
