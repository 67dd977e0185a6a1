package book

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"runtime"
	"slices"
	"sort"
	"sync"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/refdata"
)

// ChartDrawer draws a chart as SVG: id is unique on the site, option is the
// ECharts option, width and height are in CSS pixels.
type ChartDrawer func(id string, option json.RawMessage, width, height int) (string, error)

// Input is everything that the pages are made from.
type Input struct {
	// Lessons are the lessons in teaching order.
	Lessons []notebook.Lesson
	// Demo works a lesson on its demo; nil: Lesson.Demo. It is called for
	// several lessons at a time.
	Demo func(notebook.Lesson) (*notebook.Sheet, error)
	// Module is the module's source tree: the prose, formulas and shown code.
	Module fs.FS
	// Assets are the style sheets, scripts and pictures, by name.
	Assets fs.FS
	// Charts draws the charts; nil leaves each chart as its table.
	Charts ChartDrawer
	// ChartScript reports whether assets/echarts.min.js will be there for the
	// browser.
	ChartScript bool
	// Live reports whether assets/live.js will be there for the browser.
	Live bool
	// Progress, when not nil, is told what is being done.
	Progress func(string)
}

// Book is the finished pages.
type Book struct {
	// Files maps a path below the site's folder to its bytes.
	Files map[string][]byte
	// Checks are the checks of every lesson, in order.
	Checks []LessonCheck
}

// LessonCheck is a check with the lesson it belongs to.
type LessonCheck struct {
	Lesson notebook.About
	notebook.Check
}

// Make works every lesson and returns the pages. The error joins everything
// that is wrong: items named and not made, made and not shown, checks outside
// their tolerance, each with its file and line.
func Make(in Input) (*Book, error) {
	book := &Book{Files: map[string][]byte{}}
	terms, err := in.loadTerms()
	if err != nil {
		return nil, err
	}
	matcher := newTermMatcher(terms)
	problems := checkAfter(in.Lessons)
	worked, errs := in.workAll(matcher)
	problems = append(problems, errs...)
	for _, w := range worked {
		if w.sheet == nil {
			continue
		}
		for _, check := range w.sheet.Checks() {
			book.Checks = append(book.Checks, LessonCheck{w.About, check})
		}
	}
	if err := errors.Join(problems...); err != nil {
		return nil, err
	}
	return book, in.write(book, worked, terms)
}

// workAll works the lessons, as many at once as there are processors, and
// returns them in their order with what is wrong.
func (in Input) workAll(matcher *termMatcher) ([]workedLesson, []error) {
	worked := make([]workedLesson, len(in.Lessons))
	wrong := make([][]error, len(in.Lessons))
	places := make(chan struct{}, runtime.GOMAXPROCS(0))
	var waiting sync.WaitGroup
	for i, lesson := range in.Lessons {
		places <- struct{}{}
		in.tell("lesson " + lesson.Slug)
		waiting.Go(func() {
			worked[i], wrong[i] = in.work(lesson, matcher)
			<-places
		})
	}
	waiting.Wait()
	return worked, slices.Concat(wrong...)
}

// write adds the pages, the machine-readable lists and the assets to the book.
func (in Input) write(book *Book, worked []workedLesson, terms []term) error {
	for i, w := range worked {
		page, err := in.lessonPage(worked, i)
		if err != nil {
			return err
		}
		book.Files[w.Slug+"/index.html"] = page
		if in.Charts == nil || len(w.options.list) == 0 {
			continue
		}
		if book.Files[w.Slug+"/"+optionsFile], err = w.options.script(); err != nil {
			return err
		}
	}
	var err error
	if book.Files["index.html"], err = in.homePage(worked); err != nil {
		return err
	}
	if book.Files["checks/index.html"], err = in.checksPage(book.Checks); err != nil {
		return err
	}
	if in.hasPages() {
		if err := in.writePages(book, worked, terms); err != nil {
			return err
		}
	}
	if book.Files["checks.json"], err = checksJSON(book.Checks); err != nil {
		return err
	}
	if book.Files["lessons.json"], err = lessonsJSON(in.Lessons); err != nil {
		return err
	}
	return in.addAssets(book)
}

func (in Input) tell(what string) {
	if in.Progress != nil {
		in.Progress(what)
	}
}

// addAssets copies the assets and makes the style sheets of the charts' colours
// and of shown code.
func (in Input) addAssets(book *Book) error {
	entries, err := fs.ReadDir(in.Assets, ".")
	if err != nil {
		return fmt.Errorf("book: the assets cannot be read: %w", err)
	}
	for _, entry := range entries {
		if entry.IsDir() {
			continue
		}
		data, err := fs.ReadFile(in.Assets, entry.Name())
		if err != nil {
			return err
		}
		book.Files["assets/"+entry.Name()] = data
	}
	code, err := codeStyle()
	if err != nil {
		return err
	}
	book.Files["assets/code.css"] = code
	book.Files["assets/tokens.css"] = tokenStyle()
	return nil
}

// checkEntry is one check in checks.json.
type checkEntry struct {
	ID        string        `json:"id"`
	Lesson    string        `json:"lesson"`
	What      string        `json:"what"`
	Computed  float64       `json:"computed"`
	Published float64       `json:"published"`
	Unit      string        `json:"unit"`
	Tolerance float64       `json:"tolerance"`
	Source    string        `json:"source"`
	Known     refdata.Known `json:"known"`
	Pass      bool          `json:"pass"`
}

func checksJSON(checks []LessonCheck) ([]byte, error) {
	entries := make([]checkEntry, len(checks))
	for i, c := range checks {
		entries[i] = checkEntry{c.Row.ID, c.Lesson.Slug, c.Row.What, c.Computed, c.Row.Value, c.Row.Unit,
			c.Row.Tolerance, c.Row.Source.String(), c.Row.Known, c.Pass()}
	}
	return marshal(entries)
}

// lessonEntry is one lesson in lessons.json.
type lessonEntry struct {
	Slug   string       `json:"slug"`
	Title  string       `json:"title"`
	Track  string       `json:"track"`
	After  []string     `json:"after,omitempty"`
	Inputs []fieldEntry `json:"inputs"`
}

// fieldEntry is one field of a lesson's inputs, or one column of a table.
type fieldEntry struct {
	Name     string       `json:"name"`
	Kind     string       `json:"kind"`
	Label    string       `json:"label"`
	Help     string       `json:"help,omitempty"`
	Units    []string     `json:"units,omitempty"`
	Options  []string     `json:"options,omitempty"`
	Min      *float64     `json:"min,omitempty"` // SI
	Max      *float64     `json:"max,omitempty"` // SI
	MinRows  int          `json:"minRows,omitempty"`
	MaxRows  int          `json:"maxRows,omitempty"`
	Optional bool         `json:"optional,omitempty"`
	Columns  []fieldEntry `json:"columns,omitempty"`
	// MostBytes bounds a file.
	MostBytes int `json:"mostBytes,omitempty"`
}

func lessonsJSON(lessons []notebook.Lesson) ([]byte, error) {
	entries := make([]lessonEntry, len(lessons))
	for i, l := range lessons {
		entries[i] = lessonEntry{l.Slug, l.Title, string(l.Track), l.After, fieldEntries(l.Fields())}
	}
	return marshal(entries)
}

func fieldEntries(fields []notebook.Field) []fieldEntry {
	entries := make([]fieldEntry, len(fields))
	for i, f := range fields {
		e := fieldEntry{Name: f.Name, Kind: string(f.Kind), Label: f.Label, Help: f.Help, Options: f.Options,
			MinRows: f.MinRows, Optional: f.Optional, MostBytes: f.MostBytes}
		if f.Kind == notebook.RowsField {
			e.MaxRows, e.Columns = f.MaxRows, fieldEntries(f.Columns())
		}
		for _, u := range f.Units {
			e.Units = append(e.Units, u.Symbol)
		}
		if f.Limits.HasMin {
			e.Min = &f.Limits.Min
		}
		if f.Limits.HasMax {
			e.Max = &f.Limits.Max
		}
		entries[i] = e
	}
	return entries
}

// marshal returns indented JSON with a last newline.
func marshal(v any) ([]byte, error) {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return nil, err
	}
	return append(text, '\n'), nil
}

// knownTotals counts checks by how their published figures are known, in the
// order of strength.
func knownTotals(checks []LessonCheck) []knownTotal {
	counts := map[refdata.Known]int{}
	for _, c := range checks {
		counts[c.Row.Known]++
	}
	var totals []knownTotal
	for known, n := range counts {
		totals = append(totals, knownTotal{known, n})
	}
	rank := map[refdata.Known]int{refdata.Read: 0, refdata.Computed: 1, refdata.FromMemory: 2, refdata.CommonPractice: 3}
	sort.Slice(totals, func(i, j int) bool { return rank[totals[i].Known] < rank[totals[j].Known] })
	return totals
}

// knownTotal is how many checks are known in one way.
type knownTotal struct {
	Known refdata.Known
	Count int
}
