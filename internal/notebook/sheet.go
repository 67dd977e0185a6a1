package notebook

import (
	"encoding/json"
	"fmt"

	"example.org/thouspan/internal/refdata"
)

// Sheet is what a lesson's function returns: an ordered list of named items.
type Sheet struct {
	Items []Item
}

// Item is one named thing on a sheet: a [Figure], [Table], [Chart], [Drawing],
// [Verdict], [Check], [Caution] or [Exercise].
type Item interface {
	// ItemName is the name by which the prose shows the item: lower case
	// letters, digits and hyphens, unique on the sheet.
	ItemName() string
	// Kind is the item's kind in one lower-case word: "figure".
	Kind() string
}

// Add appends items to the sheet.
func (s *Sheet) Add(items ...Item) { s.Items = append(s.Items, items...) }

// Find returns the item with the given name, or nil.
func (s *Sheet) Find(name string) Item {
	for _, item := range s.Items {
		if item.ItemName() == name {
			return item
		}
	}
	return nil
}

// Checks returns the sheet's checks, in order.
func (s *Sheet) Checks() []Check {
	var checks []Check
	for _, item := range s.Items {
		if check, ok := item.(Check); ok {
			checks = append(checks, check)
		}
	}
	return checks
}

// Figure is one computed value with a label.
type Figure struct {
	Name  string
	Label string
	Value Quantity
	// Note says what the value means, in a sentence; may be empty.
	Note Text
	// Unknown, when not empty, says why the value is not known from these
	// readings; Value is then not shown.
	Unknown string
}

// Table is rows of cells under labelled columns.
type Table struct {
	Name    string
	Title   string
	Columns []Column
	Rows    [][]Cell
	// Note is shown below the table; may be empty.
	Note Text
}

// Column heads a table's column.
type Column struct {
	Label string
	// Show, when set, is the pair of units of every quantity in the column:
	// the unit is then shown once, in the head.
	Show *Pair
}

// Col returns a column head with no unit of its own.
func Col(label string) Column { return Column{Label: label} }

// ColIn returns a column head whose quantities are all shown in the pair.
func ColIn(label string, show Pair) Column { return Column{Label: label, Show: &show} }

// Cell is one place of a table: a quantity, or words.
type Cell struct {
	Quantity *Quantity
	Words    string
	// Mark, when not empty, says in a word why the cell stands out; it is
	// shown beside the value.
	Mark string
}

// Val returns a cell holding a quantity, shown with its uncertainty if it has
// one.
func Val(q Quantity) Cell { return Cell{Quantity: &q} }

// Str returns a cell holding words.
func Str(words string) Cell { return Cell{Words: words} }

// Marked returns the cell with a word that says why it stands out.
func (c Cell) Marked(word string) Cell {
	c.Mark = word
	return c
}

// Chart is a picture of data, drawn by ECharts from its option JSON. Build one
// with package plot.
type Chart struct {
	Name  string
	Title string
	// Caption says in a sentence what the chart shows, with the numbers that
	// matter; it is also what a screen reader says.
	Caption Text
	// Unknown, when not empty, says why there is nothing to draw from these
	// readings; caption, options and data are then not shown and may be left out.
	Unknown string
	// Option makes the ECharts option in one system of units. It is made only
	// for a chart that is drawn. It holds no functions and no NaN, and names
	// colours by the tokens of package plot.
	Option func(System) (json.RawMessage, error)
	// Data is the chart as a table: what a reader gets who cannot see it, or
	// who wants the numbers.
	Data Table
	// Height is the drawn height in CSS pixels; zero means 320.
	Height int
}

// Drawing is a line drawing computed from the result.
type Drawing struct {
	Name  string
	Title string
	// Caption says in a sentence what is drawn and what is exaggerated.
	Caption Text
	// SVG is the drawing, made with package drawing: one <svg> element that
	// takes its colours from the page's style sheet.
	SVG string
}

// Tone says how a verdict should be taken.
type Tone string

// The tones of a verdict.
const (
	Good  Tone = "good"  // go on
	Watch Tone = "watch" // look again before you go on
	Stop  Tone = "stop"  // do not go on
	Note  Tone = "note"  // worth knowing
)

// Verdict is an answer in a sentence, with the numbers in it.
type Verdict struct {
	Name string
	Tone Tone
	Text Text
}

// Check sets a computed value beside a published one.
type Check struct {
	Name string
	// Row is the published value.
	Row refdata.Row
	// Computed is our value, in the row's unit.
	Computed float64
}

// CheckRow returns the check of a computed value, in the row's unit, against
// the row of package refdata with the given ID. An ID that is not there gives
// a check that fails and says so.
func CheckRow(name, id string, computed float64) Check {
	row, ok := refdata.Find(id)
	if !ok {
		row = refdata.Row{ID: id, What: "no row of this name in refdata"}
	}
	return Check{Name: name, Row: row, Computed: computed}
}

// Pass reports whether the computed value lies within the row's tolerance.
func (c Check) Pass() bool { return c.Row.Tolerance > 0 && c.Row.Pass(c.Computed) }

// Caution warns at the step where work can hurt someone.
type Caution struct {
	Name string
	Text Text
	// Body names who issued a figure given in the text; empty when there is
	// none.
	Body string
}

// Exercise is a question with its computed answer.
type Exercise struct {
	Name string
	Ask  Text
	// Answer is the computed answer.
	Answer Quantity
	// Worked says how the answer is found, a step a sentence.
	Worked []Text
	// Wrong lists the usual wrong turns, each with the value it gives.
	Wrong []WrongTurn
	// Within is how far from the answer, in SI, counts as right when it is
	// marked; zero means the usual share of [AcceptedShare].
	Within float64
}

// WrongTurn is a usual mistake and the answer that it leads to.
type WrongTurn struct {
	Value Quantity
	Why   Text
}

func (f Figure) ItemName() string   { return f.Name }
func (t Table) ItemName() string    { return t.Name }
func (c Chart) ItemName() string    { return c.Name }
func (d Drawing) ItemName() string  { return d.Name }
func (v Verdict) ItemName() string  { return v.Name }
func (c Check) ItemName() string    { return c.Name }
func (c Caution) ItemName() string  { return c.Name }
func (e Exercise) ItemName() string { return e.Name }

func (Figure) Kind() string   { return "figure" }
func (Table) Kind() string    { return "table" }
func (Chart) Kind() string    { return "chart" }
func (Drawing) Kind() string  { return "drawing" }
func (Verdict) Kind() string  { return "verdict" }
func (Check) Kind() string    { return "check" }
func (Caution) Kind() string  { return "caution" }
func (Exercise) Kind() string { return "exercise" }

// Validate returns the first thing wrong with the sheet: a name that is empty,
// ill-formed or used twice, a value that is not finite, a table whose rows do
// not fit its columns, or a chart without its options.
func (s *Sheet) Validate() error {
	seen := map[string]bool{}
	for _, item := range s.Items {
		name := item.ItemName()
		if !validName(name) {
			return fmt.Errorf("notebook: a %s is called %q; a name is lower-case letters, digits and hyphens", item.Kind(), name)
		}
		if seen[name] {
			return fmt.Errorf("notebook: two items are called %q", name)
		}
		seen[name] = true
		if err := validateItem(item); err != nil {
			return fmt.Errorf("notebook: %s %q: %w", item.Kind(), name, err)
		}
	}
	return nil
}

// validateItem returns what is wrong inside one item.
func validateItem(item Item) error {
	switch item := item.(type) {
	case Figure:
		if item.Unknown == "" {
			return finite(item.Label, item.Value)
		}
	case Table:
		return item.validate()
	case Chart:
		return item.validate()
	case Drawing:
		if item.SVG == "" {
			return fmt.Errorf("it has no drawing")
		}
		return finiteText(item.Caption)
	case Verdict:
		return finiteText(item.Text)
	case Exercise:
		return item.validate()
	}
	return nil
}

func (t Table) validate() error {
	for i, row := range t.Rows {
		if len(row) != len(t.Columns) {
			return fmt.Errorf("row %d has %d cells for %d columns", i+1, len(row), len(t.Columns))
		}
		for j, cell := range row {
			if cell.Quantity == nil {
				continue
			}
			if err := finite(fmt.Sprintf("row %d, %s", i+1, t.Columns[j].Label), *cell.Quantity); err != nil {
				return err
			}
		}
	}
	return nil
}

// Says returns the caption, or that the chart is not known and why.
func (c Chart) Says() Text {
	if c.Unknown != "" {
		return Plain("not known: " + c.Unknown)
	}
	return c.Caption
}

func (c Chart) validate() error {
	if c.Unknown != "" {
		return nil
	}
	if c.Option == nil {
		return fmt.Errorf("it has no option to draw by")
	}
	if len(c.Data.Columns) == 0 {
		return fmt.Errorf("it has no table of its data")
	}
	return c.Data.validate()
}

func (e Exercise) validate() error {
	if err := finite("answer", e.Answer); err != nil {
		return err
	}
	for _, wrong := range e.Wrong {
		if err := finite("wrong turn", wrong.Value); err != nil {
			return err
		}
	}
	return finiteText(e.Ask)
}

// finite returns an error when the quantity cannot be printed.
func finite(label string, q Quantity) error {
	if !q.Finite() {
		return fmt.Errorf("%s: the value %g with standard uncertainty %g is not finite", label, q.SI, q.U)
	}
	return nil
}

func finiteText(t Text) error {
	for _, span := range t {
		if span.Quantity != nil {
			if err := finite("text", *span.Quantity); err != nil {
				return err
			}
		}
	}
	return nil
}

// validName reports whether a name is lower-case letters, digits and hyphens,
// beginning with a letter.
func validName(name string) bool {
	for i, r := range name {
		letter := r >= 'a' && r <= 'z'
		if !letter && (i == 0 || r != '-' && (r < '0' || r > '9')) {
			return false
		}
	}
	return name != ""
}
