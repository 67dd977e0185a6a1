package render

// Exercises drawn anew: their place on the page, and what the browser and the
// terminal get when one is drawn or an answer is marked.

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// DrillPlace returns what stands below an exercise of which the lesson has a
// drill: hidden, until the page's script wakes it. It returns nothing when
// there is no drill.
func DrillPlace(l notebook.Lesson, exercise string) string {
	if _, ok := l.Drill(exercise); !ok {
		return ""
	}
	name := html.EscapeString(exercise)
	id := "try-" + name
	return `<div class="drill" data-lesson="` + html.EscapeString(l.Slug) + `" data-drill="` + name + `" hidden>` +
		`<p class="actions"><button type="button" class="draw">Try it with new numbers</button></p>` +
		`<form class="try" aria-label="The exercise with new numbers" hidden>` +
		`<div class="fresh"></div>` +
		`<label for="` + id + `">Your answer, with its unit</label>` +
		`<div class="entry"><input type="text" id="` + id + `" maxlength="80" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="go" aria-describedby="` + id + `-help ` + id + `-said">` +
		`<button type="submit">Mark</button></div>` +
		`<p class="help" id="` + id + `-help"></p></form>` +
		`<p class="said" id="` + id + `-said" role="status"></p>` +
		`<details class="solution" hidden><summary>Show the answer</summary><div></div></details>` +
		`<p class="tally" hidden></p></div>`
}

// drawn is an exercise drawn anew, as the browser takes it.
type drawn struct {
	Ask      string `json:"ask"`
	Help     string `json:"help"`
	Solution string `json:"solution"`
	Problem  string `json:"problem,omitempty"`
}

// marked is a marked answer, as the browser takes it.
type marked struct {
	Grade   notebook.Grade `json:"grade"`
	Said    string         `json:"said"`
	Problem string         `json:"problem,omitempty"`
}

// Drill returns an exercise of the lesson drawn anew, as JSON: its question,
// what to type and its worked answer as HTML, or what went wrong. It never
// panics.
func Drill(l notebook.Lesson, name string, seed int) []byte {
	e, err := draw(l, name, seed)
	if err != nil {
		return encodeDrill(drawn{Problem: err.Error()})
	}
	return encodeDrill(drawn{Ask: `<p class="ask">` + Text(e.Ask) + "</p>", Help: help(e), Solution: solution(e)})
}

// Mark marks a typed answer to an exercise drawn anew and returns JSON: the
// grade and what to say as HTML, or what went wrong. It never panics.
func Mark(l notebook.Lesson, name string, seed int, typed string) []byte {
	e, err := draw(l, name, seed)
	if err != nil {
		return encodeDrill(marked{Problem: err.Error()})
	}
	m := notebook.Mark(e, typed)
	return encodeDrill(marked{Grade: m.Grade, Said: Text(m.Said)})
}

// draw draws an exercise; a fault of our own comes back as an error.
func draw(l notebook.Lesson, name string, seed int) (e notebook.Exercise, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("this is a fault of the program, not of your answer: %v. Please report it (lesson %s, exercise %s, draw %d)", fault, l.Slug, name, seed)
		}
	}()
	d, ok := l.Drill(name)
	if !ok {
		return e, fmt.Errorf("the lesson %s has no drill %q", l.Slug, name)
	}
	return d.At(seed)
}

// help says what to type, in the reader's units, and how near is near enough.
func help(e notebook.Exercise) string {
	within := notebook.Exact(notebook.AcceptedShare, notebook.Percents).WithDigits(1)
	if e.Within > 0 {
		within = notebook.Exact(e.Within, e.Answer.Show).WithDigits(1)
	}
	near := Text(notebook.Say(" Within {}, or half of the last digit, counts as right.", within))
	unit := func(s notebook.System) string { return html.EscapeString(e.Answer.Show.In(s).Symbol) }
	if unit(notebook.Metric)+unit(notebook.Inch) == "" {
		return "A number without a unit." + near
	}
	return "In " + inBoth(unit) + " or any unit that measures the same." + near
}

// solution returns an exercise's answer, its steps and its wrong turns.
func solution(e notebook.Exercise) string {
	var b strings.Builder
	b.WriteString(`<p class="answer">` + Quantity(e.Answer, true) + "</p>")
	if len(e.Worked) > 0 {
		b.WriteString("<ol>")
		for _, step := range e.Worked {
			b.WriteString("<li>" + Text(step) + "</li>")
		}
		b.WriteString("</ol>")
	}
	for _, wrong := range e.Wrong {
		b.WriteString(`<p class="wrong">If you got ` + Quantity(wrong.Value, false) + ": " + Text(wrong.Why) + "</p>")
	}
	return b.String()
}

func encodeDrill(v any) []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return []byte(`{"problem":"the exercise cannot be written as JSON; please report it"}`)
	}
	return b.Bytes()
}

// TerminalExercise returns an exercise's question as text.
func TerminalExercise(e notebook.Exercise, s notebook.System) string {
	return plainLine("? "+e.Ask.In(s), "  ")
}

// TerminalMarking returns what is said to an answer as text.
func TerminalMarking(m notebook.Marking, s notebook.System) string {
	word := map[notebook.Grade]string{notebook.Right: "+ ", notebook.Unread: "? "}[m.Grade]
	if word == "" {
		word = "- "
	}
	return plainLine(word+m.Said.In(s), "  ")
}

// TerminalSolution returns an exercise's answer, its steps and its wrong turns
// as text.
func TerminalSolution(e notebook.Exercise, s notebook.System) string {
	var b strings.Builder
	b.WriteString(plainLine("= "+e.Answer.In(s).Full(), "  "))
	for i, step := range e.Worked {
		b.WriteString(plainLine(fmt.Sprintf("  %d. %s", i+1, step.In(s)), "     "))
	}
	for _, wrong := range e.Wrong {
		b.WriteString(plainLine("  If you got "+wrong.Value.In(s).String()+": "+wrong.Why.In(s), "     "))
	}
	return b.String()
}

// plainLine returns a sentence folded for the terminal, as a line.
func plainLine(text, indent string) string {
	lead := text[:len(text)-len(strings.TrimLeft(text, " "))]
	return strings.ReplaceAll(lead+fold(text, indent), "\u00a0", " ") + "\n"
}
