package notebook

import "fmt"

// Lesson is one worked example: what it is called, what is typed, and the pure
// function from that to a sheet. Make one with [NewLesson].
type Lesson struct {
	About
	bind   func() binding
	drills []Drill
}

// About says what a lesson is, for lists, menus and the page's head.
type About struct {
	// Slug is the lesson's folder below examples/ and its address.
	Slug string
	// Title is its name.
	Title string
	// Question is what the reader asks, in the reader's words.
	Question string
	// Asked is the short form for the home page: "I swept the head".
	Asked string
	// Track is the chapter it belongs to.
	Track Track
	// Summary says in a sentence or two what the lesson answers.
	Summary string
	// Minutes is the reading time.
	Minutes int
	// After are the slugs of the lessons to read before, in teaching order; most
	// readers come for one answer and need none of them.
	After []string
}

// Track is a chapter of the book.
type Track string

// The chapters, in order.
const (
	Foundations Track = "Foundations"
	Spindle     Track = "The spindle"
	Ways        Track = "The table and its ways"
	Holding     Track = "Holding and cutting"
	Nickel      Track = "Nickel"
	Deciding    Track = "Deciding"
)

// Tracks returns the chapters in order.
func Tracks() []Track {
	return []Track{Foundations, Spindle, Ways, Holding, Nickel, Deciding}
}

// binding is one set of inputs with the fields and the function bound to it.
type binding struct {
	fields []Field
	work   func() (*Sheet, error)
}

// NewLesson returns a lesson. Defaults returns the demo's inputs, a new copy
// each time; form binds the fields to one set of inputs; work is the lesson's
// pure function.
func NewLesson[In any](about About, defaults func() In, form func(*In) []Field, work func(In) (*Sheet, error)) Lesson {
	return Lesson{About: about, bind: func() binding {
		in := defaults()
		return binding{fields: form(&in), work: func() (*Sheet, error) { return work(in) }}
	}}
}

// Fields returns the lesson's form, holding the demo's values.
func (l Lesson) Fields() []Field { return l.bind().fields }

// Template returns the demo's inputs as an input document, for a person to
// edit.
func (l Lesson) Template() []byte { return writeInputs(l.Slug, l.Fields()) }

// Demo works the lesson on the demo's inputs.
func (l Lesson) Demo() (*Sheet, error) { return l.Work(nil) }

// Work works the lesson on an input document; nil means the demo's inputs, as
// the form shows them, so that typing a demo reading over itself changes
// nothing. The error is an [*InputError] when the inputs are at fault.
func (l Lesson) Work(document []byte) (*Sheet, error) { return l.WorkWith(document, nil) }

// WorkWith works the lesson as [Lesson.Work] does, with files put into the file
// fields of the given names, in the place of what the document holds there.
func (l Lesson) WorkWith(document []byte, files map[string]Attachment) (*Sheet, error) {
	b := l.bind()
	if document == nil {
		document = writeInputs(l.Slug, b.fields)
	}
	if problems := readInputs(document, l.Slug, b.fields); len(problems) > 0 {
		return nil, &InputError{Problems: problems}
	}
	if problems := setFiles(files, b.fields); len(problems) > 0 {
		return nil, &InputError{Problems: problems}
	}
	sheet, err := b.work()
	if err != nil {
		return nil, &InputError{Problems: []Problem{problemOf(err, b.fields)}}
	}
	if err := sheet.Validate(); err != nil {
		return nil, fmt.Errorf("lesson %s: %w", l.Slug, err)
	}
	return sheet, nil
}
