package refdata

import (
	"fmt"
	"math"
	"sort"
)

// Known says how a published figure came to us.
type Known string

// The ways of knowing a figure, from the strongest to the weakest.
const (
	// Read: the figure was read in the cited text or data file.
	Read Known = "read"
	// Computed: the figure follows from a definition, an identity or exact
	// arithmetic on stated inputs; the source names the definition.
	Computed Known = "computed from a definition"
	// FromMemory: the figure is remembered from the cited text, not read.
	FromMemory Known = "from memory"
	// CommonPractice: a rule of the trade with no single text behind it.
	CommonPractice Known = "common practice"
)

// Source is where a figure was published.
type Source struct {
	// Author is the person or body that published the figure.
	Author string
	// Title is the title of the text or data set.
	Title string
	// Year is the year of that edition; empty when it is not known.
	Year string
	// Section is the clause, table, page or case within it.
	Section string
}

// String returns the source as one line: author, title (year), section.
func (s Source) String() string {
	text := s.Title
	if s.Author != "" {
		text = s.Author + ", " + text
	}
	if s.Year != "" {
		text += " (" + s.Year + ")"
	}
	if s.Section != "" {
		text += ", " + s.Section
	}
	return text
}

// Row is one published figure.
type Row struct {
	// ID is short, lower case and unique: "gum-h3-slope".
	ID string
	// What says in words which figure this is, inputs included.
	What string
	// Value is the published figure, in Unit.
	Value float64
	// Unit is the unit of Value and Tolerance; "1" for a pure number.
	Unit string
	// Tolerance is the largest accepted distance from Value, in Unit. It is
	// never zero: it says which digits were published.
	Tolerance float64
	// Source is where the figure was published.
	Source Source
	// Known says how the figure came to us.
	Known Known
}

// Pass reports whether a computed value, in the row's unit, lies within the
// row's tolerance. NaN and infinities never pass.
func (r Row) Pass(computed float64) bool {
	return math.Abs(computed-r.Value) <= r.Tolerance
}

// validate returns what is wrong with the row, or nil.
func (r Row) validate() error {
	switch {
	case r.ID == "":
		return fmt.Errorf("refdata: a row (%s) has no id", r.What)
	case r.What == "" || r.Unit == "" || r.Source.Title == "":
		return fmt.Errorf("refdata: row %s lacks what, unit or a source's title", r.ID)
	case math.IsNaN(r.Value) || math.IsInf(r.Value, 0):
		return fmt.Errorf("refdata: row %s: value %g is not finite", r.ID, r.Value)
	case !(r.Tolerance > 0) || math.IsInf(r.Tolerance, 0):
		return fmt.Errorf("refdata: row %s: tolerance %g is not above zero", r.ID, r.Tolerance)
	}
	switch r.Known {
	case Read, Computed, FromMemory, CommonPractice:
		return nil
	}
	return fmt.Errorf("refdata: row %s: how known %q is not one of the four", r.ID, r.Known)
}

// Rows returns every row, sorted by ID. The slice is the caller's own.
func Rows() []Row {
	var all []Row
	for _, group := range groups() {
		all = append(all, group...)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].ID < all[j].ID })
	return all
}

// Find returns the row with the given ID, and whether there is one.
func Find(id string) (Row, bool) {
	for _, group := range groups() {
		for _, row := range group {
			if row.ID == id {
				return row, true
			}
		}
	}
	return Row{}, false
}

// groups lists the tables of rows, one function a file. Add a subject here.
func groups() [][]Row {
	return [][]Row{
		angleRows(),
		currentRows(),
		fieldRows(),
		placeRows(),
		platingRows(),
		processRows(),
		restoreRows(),
		shopRows(),
		squaringRows(),
		surveyRows(),
		bodyRows(),
		closureRows(),
		crossRows(),
		taperRows(),
		typeBRows(),
		thermalRows(),
		wearRows(),
		wearLawRows(),
		waysRows(),
	}
}
