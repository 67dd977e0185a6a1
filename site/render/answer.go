package render

// The answer to a reader's document, as the browser takes it.

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"example.org/thouspan/internal/notebook"
)

// answer is what the browser gets back: either items or problems.
type answer struct {
	Items    map[string]answerItem `json:"items"`
	Problems []notebook.Problem    `json:"problems"`
}

// answerItem is the inside of one item in each shape in which a page may show
// it, and the option of a chart that is drawn, under its system of units.
type answerItem struct {
	Block  string          `json:"block"`
	Inline string          `json:"inline"`
	Option json.RawMessage `json:"option,omitempty"`
}

// Drawn says which charts the page draws now, by name, and in which units.
type Drawn struct {
	System notebook.System
	Charts []string
}

// Answer works the lesson on the reader's document and returns JSON: the
// inside of every item under its name, or what is wrong with the document. It
// never panics: a fault of our own comes back as a problem too.
func Answer(l notebook.Lesson, document []byte, drawn Drawn) (text []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			text = encodeAnswer(answer{Problems: []notebook.Problem{{Message: faultMessage(l.Slug, fault)}}})
		}
	}()
	if document == nil {
		document = []byte{}
	}
	sheet, err := l.Work(document)
	if err != nil {
		return encodeAnswer(answer{Problems: problemsOf(err)})
	}
	items := make(map[string]answerItem, len(sheet.Items))
	for _, item := range sheet.Items {
		answered, err := answerOf(item, drawn)
		if err != nil {
			return encodeAnswer(answer{Problems: []notebook.Problem{{Message: faultMessage(l.Slug, err)}}})
		}
		items[item.ItemName()] = answered
	}
	return encodeAnswer(answer{Items: items})
}

// AnswerProblem returns the answer that consists of one problem.
func AnswerProblem(message string) []byte {
	return encodeAnswer(answer{Problems: []notebook.Problem{{Message: message}}})
}

func answerOf(item notebook.Item, drawn Drawn) (answerItem, error) {
	out := answerItem{Block: Block(item), Inline: Inline(item)}
	chart, ok := item.(notebook.Chart)
	if !ok || !slices.Contains(drawn.Charts, chart.Name) {
		return out, nil
	}
	var err error
	out.Option, err = ChartOptions(chart, drawn.System)
	return out, err
}

// problemsOf returns what is wrong with the document, or the error as one
// problem.
func problemsOf(err error) []notebook.Problem {
	var input *notebook.InputError
	if errors.As(err, &input) && len(input.Problems) > 0 {
		return input.Problems
	}
	return []notebook.Problem{{Message: err.Error()}}
}

// faultMessage says that the program, not the reader, is at fault.
func faultMessage(slug string, fault any) string {
	return fmt.Sprintf("this is a fault of the program, not of your readings: %v. "+
		"Please save the readings to a file and report it with that file (lesson %s)", fault, slug)
}

// encodeAnswer returns the answer as JSON. It always holds both members, so
// that the browser need not ask which are there.
func encodeAnswer(a answer) []byte {
	if a.Items == nil {
		a.Items = map[string]answerItem{}
	}
	if a.Problems == nil {
		a.Problems = []notebook.Problem{}
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(a); err != nil {
		return []byte(`{"items":{},"problems":[{"message":"the answer cannot be written as JSON; please report it"}]}`)
	}
	return b.Bytes()
}
