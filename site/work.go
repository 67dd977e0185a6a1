package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
)

const workHead = `Works one lesson in the terminal, on the demo's readings or on your own.

  go run ./site work LESSON -template > mine.json     print the readings, to edit
  go run ./site work LESSON -in mine.json             work the lesson on them

The file is the same that a page saves and loads. A machine's file, which the
page "Your machine" saves, is taken too: the newest entry for the lesson counts,
or with -date the newest up to that day. The survey is put together from the
entries of other lessons, the lesson on the scale from the plated runs.

A lesson that takes a file, a part's shape from an STL file, takes it by its path:

  go run ./site work skin -file own=knob.stl

  go run ./site work LESSON -exercise NAME            ask one of its exercises
  go run ./site work LESSON -exercise NAME -seed 4711 ask it with other numbers
  ... -answer "150 µm/m"                              mark your answer
  ... -solve                                          show how it is worked`

// runWork works one lesson, or lists them.
func runWork(args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	flags := newFlags("work", workHead, stderr)
	in := flags.String("in", "", "`FILE` with your readings as JSON; - reads standard input")
	asJSON := flags.Bool("json", false, "print the answer as JSON: SI values, standard uncertainties, and as shown")
	template := flags.Bool("template", false, "print the demo's readings as JSON, to edit")
	units := flags.String("units", "metric", "`metric` or inch")
	date := flags.String("date", "", "`DAY`, as 2025-05-24: leave out what a machine's file holds of later days")
	added := map[string]notebook.Attachment{}
	flags.Func("file", "`FIELD=PATH`: put a file into that field of the lesson; may be given again", func(text string) error { return addFile(added, text) })
	var asked exerciseOptions
	asked.register(flags)
	words, err := parse(flags, args)
	if err != nil {
		return err
	}
	system, err := systemNamed(*units)
	if err != nil {
		return err
	}
	if len(words) == 0 {
		listLessons(stdout)
		return nil
	}
	if len(words) > 1 {
		return fmt.Errorf("work takes one lesson, not %d: %s", len(words), strings.Join(words, " "))
	}
	lesson, err := lessonNamed(words[0])
	if err != nil {
		return err
	}
	if *template {
		_, err := stdout.Write(lesson.Template())
		return err
	}
	if err := asked.check(*in); err != nil {
		return err
	}
	if asked.draws() {
		return asked.run(lesson, nil, system, stdout)
	}
	document, err := readDocument(*in, stdin)
	if err != nil {
		return err
	}
	if document, err = fromMachine(document, lesson.Slug, *date, stderr); err != nil {
		return inputError(*in, err)
	}
	sheet, err := lesson.WorkWith(document, added)
	if err != nil {
		return inputError(*in, err)
	}
	if asked.name != "" {
		return asked.run(lesson, sheet, system, stdout)
	}
	if *asJSON {
		return writeSheetJSON(stdout, lesson, sheet)
	}
	_, err = io.WriteString(stdout, render.Terminal(lesson, sheet, system))
	return err
}

func systemNamed(name string) (notebook.System, error) {
	for _, s := range notebook.Systems() {
		if s.String() == name {
			return s, nil
		}
	}
	return notebook.Metric, fmt.Errorf("-units %q: it is metric or inch", name)
}

// lessonNamed finds a lesson, or says which are near.
func lessonNamed(slug string) (notebook.Lesson, error) {
	if lesson, ok := examples.Find(slug); ok {
		return lesson, nil
	}
	var slugs []string
	for _, l := range examples.Lessons() {
		slugs = append(slugs, l.Slug)
	}
	if near := notebook.Nearest(slug, slugs); len(near) > 0 {
		return notebook.Lesson{}, fmt.Errorf("no lesson is called %q; did you mean %s?", slug, strings.Join(near, " or "))
	}
	return notebook.Lesson{}, fmt.Errorf("no lesson is called %q; there are: %s", slug, strings.Join(slugs, ", "))
}

// addFile reads a file that is to be put into a field: "own=knob.stl".
func addFile(added map[string]notebook.Attachment, text string) error {
	field, name, ok := strings.Cut(text, "=")
	if !ok {
		return fmt.Errorf("%q is not FIELD=PATH", text)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	added[field] = notebook.Attachment{Name: filepath.Base(name), Data: data}
	return nil
}

// readDocument reads the reader's file; no name means the demo.
func readDocument(name string, stdin io.Reader) ([]byte, error) {
	switch name {
	case "":
		return nil, nil
	case "-":
		return io.ReadAll(stdin)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("the readings cannot be read: %w", err)
	}
	if len(data) == 0 {
		return nil, fmt.Errorf("%s is empty; print a file to edit with -template", name)
	}
	return data, nil
}

// inputError names the file before each of its problems.
func inputError(name string, err error) error {
	var input *notebook.InputError
	if name == "" || !errors.As(err, &input) {
		return err
	}
	lines := make([]string, len(input.Problems))
	for i, p := range input.Problems {
		lines[i] = "  " + p.String()
	}
	return fmt.Errorf("%s: nothing was worked, because of\n%s", name, strings.Join(lines, "\n"))
}

func listLessons(w io.Writer) {
	fmt.Fprintln(w, "The lessons:")
	for _, track := range notebook.Tracks() {
		first := true
		for _, l := range examples.Lessons() {
			if l.Track != track {
				continue
			}
			if first {
				fmt.Fprintf(w, "\n%s\n", track)
				first = false
			}
			fmt.Fprintf(w, "  %-16s %s. %s\n", l.Slug, l.Title, l.Question)
		}
	}
	fmt.Fprintln(w, "\nWork one: go run ./site work LESSON")
}

// writeSheetJSON prints the sheet for other tools.
func writeSheetJSON(w io.Writer, lesson notebook.Lesson, sheet *notebook.Sheet) error {
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(struct {
		Lesson string          `json:"lesson"`
		Sheet  *notebook.Sheet `json:"sheet"`
	}{lesson.Slug, sheet})
}
