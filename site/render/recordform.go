package render

import (
	"html"
	"strconv"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// RecordForm returns the form of a record that is no lesson: the same fields,
// with the day and buttons to put it in or to leave it.
func RecordForm(name, title string, fields []notebook.Field) string {
	var b strings.Builder
	b.WriteString(`<form class="readings record" data-lesson="` + html.EscapeString(name) + `" data-format="` + strconv.Itoa(notebook.Format) +
		`" aria-label="` + html.EscapeString(title) + `" autocomplete="off" spellcheck="false" novalidate>`)
	b.WriteString(`<div class="day-field"><label for="day-` + html.EscapeString(name) + `">Day</label><input type="date" id="day-` + html.EscapeString(name) + `" name="day"></div>`)
	var inside strings.Builder
	writeFields(&inside, fields)
	b.WriteString(ofItsOwn(name).Replace(inside.String()))
	b.WriteString(`<div class="actions"><button type="button" data-do="put">Put in</button> <button type="button" data-do="leave">Leave it</button></div>`)
	b.WriteString(`<div class="state"><output aria-live="polite"></output> <progress aria-label="Working" hidden></progress> ` +
		`<button type="button" data-do="cancel" hidden>Cancel</button>` +
		`<div aria-live="polite"><ul class="problem problems" hidden></ul></div></div></form>`)
	return b.String()
}

// ofItsOwn puts the record's name into every id of its fields, since a page
// holds the forms of several records.
func ofItsOwn(name string) *strings.Replacer {
	var pairs []string
	for _, begin := range []string{`id="in-`, `for="in-`, `id="help-`, `id="problem-`, `aria-describedby="help-`, `aria-describedby="problem-`, ` problem-`} {
		pairs = append(pairs, begin, begin+html.EscapeString(name)+"-")
	}
	return strings.NewReplacer(pairs...)
}
