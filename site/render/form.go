package render

// The form in which a reader types readings. It is written from the lesson's
// fields alone and holds the demo's values, so that it can be read where no
// script runs; the page's script wakes it.

import (
	"html"
	"strconv"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// Form returns the lesson's form, holding the demo's values. Everything in it
// is read-only, and its buttons are hidden, until the page's script wakes it.
func Form(l notebook.Lesson) string {
	var b strings.Builder
	b.WriteString(`<form class="readings" data-lesson="` + html.EscapeString(l.Slug) +
		`" data-format="` + strconv.Itoa(notebook.Format) + `" aria-label="Readings" autocomplete="off" spellcheck="false" novalidate>`)
	b.WriteString(`<p class="asleep">These are the demo’s readings. To work your own without a browser’s scripts, use the terminal: ` +
		`<code>go run ./site work ` + html.EscapeString(l.Slug) + ` -in FILE.json</code></p>`)
	b.WriteString(`<p class="awake" hidden>Type your own readings over the demo’s. A unit beside a box says what the numbers in it are in; ` +
		`choosing another does not change the numbers.</p>`)
	writeFields(&b, l.Fields())
	writeActions(&b)
	b.WriteString(`</form><div class="machine-panel" hidden></div>`)
	return b.String()
}

// writeFields writes the fields in order; those of a group are folded away
// together.
func writeFields(b *strings.Builder, fields []notebook.Field) {
	group := ""
	for _, f := range fields {
		if f.Group != group {
			if group != "" {
				b.WriteString("</div></details>")
			}
			if group = f.Group; group != "" {
				b.WriteString(`<details class="group"><summary>` + html.EscapeString(group) + `</summary><div class="fields">`)
			}
		}
		if f.Kind == notebook.RowsField {
			writeRowsField(b, f)
		} else {
			writeField(b, f)
		}
	}
	if group != "" {
		b.WriteString("</div></details>")
	}
}

// writeActions writes the buttons and the line that says whose readings the
// answers below are computed from.
func writeActions(b *strings.Builder) {
	b.WriteString(`<div class="actions" hidden>` +
		`<button type="button" data-do="save">Save to a file</button> ` +
		`<button type="button" data-do="load">Load from a file</button> ` +
		`<button type="button" data-do="demo">Back to the demo</button>` +
		`<input type="file" accept=".json,application/json" aria-label="File of readings" hidden>` +
		`</div>` +
		`<div class="actions machine-tools" hidden>` +
		`<button type="button" data-machine="take" aria-expanded="false">Take from your machine</button> ` +
		`<button type="button" data-machine="put" aria-expanded="false">Put into your machine</button>` +
		`</div>`)
	b.WriteString(`<div class="state"><output aria-live="polite">Computed from the demo’s readings.</output> ` +
		`<progress aria-label="Computing" hidden></progress> ` +
		`<button type="button" data-do="cancel" hidden>Cancel</button>` +
		`<div aria-live="polite"><ul class="problem problems" hidden></ul></div></div>`)
}

// writeField writes a single value with its label, unit and help.
func writeField(b *strings.Builder, f notebook.Field) {
	name := html.EscapeString(f.Name)
	number, _ := f.TypedParts()
	described := "problem-" + name
	if f.Help != "" {
		described = "help-" + name + " " + described
	}
	b.WriteString(`<div class="field" data-field="` + name + `" data-kind="` + string(f.Kind) + `">`)
	b.WriteString(`<label for="in-` + name + `">` + html.EscapeString(f.Label) + optionalWord(f) + `</label>`)
	attrs := ` id="in-` + name + `" aria-describedby="` + described + `"`
	b.WriteString(`<span class="entry">`)
	if f.Kind == notebook.FileField {
		writeFile(b, f, number, attrs)
	} else {
		writeInput(b, f, number, attrs)
	}
	writeUnits(b, f)
	b.WriteString(`</span>`)
	if f.Help != "" {
		b.WriteString(`<p class="help" id="help-` + name + `">` + html.EscapeString(f.Help) + `</p>`)
	}
	b.WriteString(`<p class="problem" id="problem-` + name + `" hidden></p></div>`)
}

// optionalWord says beside a label that the field may be left empty.
func optionalWord(f notebook.Field) string {
	if f.Optional {
		return ` <span class="optional">(optional)</span>`
	}
	return ""
}

// writeInput writes the box, or the list of words, that holds a value; attrs
// are its further attributes.
func writeInput(b *strings.Builder, f notebook.Field, value, attrs string) {
	if f.Kind == notebook.ChoiceField {
		b.WriteString("<select" + attrs + " disabled>")
		for _, option := range f.Options {
			writeOption(b, option, option == value, "")
		}
		b.WriteString("</select>")
		return
	}
	b.WriteString(`<input type="` + inputType(f.Kind) + `"` + inputMode(f) + attrs +
		` value="` + html.EscapeString(value) + `" readonly>`)
}

// writeFile writes the box that holds a file as text, out of sight, the words
// that say which it is, and the button that picks one.
func writeFile(b *strings.Builder, f notebook.Field, value, attrs string) {
	b.WriteString(`<input type="hidden" value="` + html.EscapeString(value) + `"><output class="held">No file.</output> ` +
		`<span class="tools" hidden><input type="file" accept="` + html.EscapeString(f.Accept) + `" data-most="` + strconv.Itoa(f.MostBytes) + `"` + attrs + `> ` +
		`<button type="button" data-do="detach" hidden>Leave it out</button></span>`)
}

func inputType(kind notebook.FieldKind) string {
	if kind == notebook.DayField {
		return "date"
	}
	return "text"
}

// inputMode returns the attributes that choose a phone's keyboard. A field
// that may be negative says so, since some phones' decimal keyboard has no
// minus sign: the script gives those the full one.
func inputMode(f notebook.Field) string {
	signed := ""
	if !f.Limits.HasMin || f.Limits.Min < 0 {
		signed = " data-signed"
	}
	switch f.Kind {
	case notebook.CountField:
		return ` inputmode="numeric"` + signed
	case notebook.MeasureField, notebook.NumberField:
		return ` inputmode="decimal"` + signed
	}
	return ""
}

// writeUnits writes the choice of units, or the unit when there is only one.
func writeUnits(b *strings.Builder, f notebook.Field) {
	switch {
	case len(f.Units) == 0 || len(f.Units) == 1 && f.Units[0].Symbol == "":
		return
	case len(f.Units) == 1:
		b.WriteString(`<span class="unit" data-unit="` + html.EscapeString(f.Units[0].Symbol) + `" data-also="` +
			html.EscapeString(strings.Join(f.Units[0].Plain, "|")) + `">` + html.EscapeString(f.Units[0].Symbol) + "</span>")
		return
	}
	b.WriteString(`<select class="unit" aria-label="Unit of ` + html.EscapeString(f.Label) + `" disabled>`)
	for i, u := range f.Units {
		writeOption(b, u.Symbol, i == 0, strings.Join(u.Plain, "|"))
	}
	b.WriteString("</select>")
}

// writeOption writes one choice; also lists other spellings of it.
func writeOption(b *strings.Builder, text string, selected bool, also string) {
	b.WriteString("<option") // its value is its text
	if also != "" {
		b.WriteString(` data-also="` + html.EscapeString(also) + `"`)
	}
	if selected {
		b.WriteString(" selected")
	}
	b.WriteString(">" + html.EscapeString(text) + "</option>")
}

// writeRowsField writes a table of readings.
func writeRowsField(b *strings.Builder, f notebook.Field) {
	name, columns := html.EscapeString(f.Name), f.Columns()
	b.WriteString(`<div class="field rows" data-field="` + name + `" data-kind="rows" data-label="` + html.EscapeString(f.Label) +
		`" data-min="` + strconv.Itoa(f.MinRows) + `" data-max="` + strconv.Itoa(f.MaxRows) + `">`)
	b.WriteString(`<div class="scroll" role="group" tabindex="0" aria-label="` + html.EscapeString(f.Label) + `" aria-describedby="help-` + name + `">`)
	b.WriteString(`<table><caption>` + html.EscapeString(f.Label) + `</caption><thead><tr><th scope="col">Row</th>`)
	for _, c := range columns {
		b.WriteString(`<th scope="col" data-column="` + html.EscapeString(c.Name) + `" data-kind="` + string(c.Kind) +
			`" data-label="` + html.EscapeString(c.Label) + `"><span class="label">` + html.EscapeString(c.Label) + optionalWord(c) + "</span> ")
		writeUnits(b, c)
		b.WriteString("</th>")
	}
	b.WriteString(`<td class="tools" hidden></td></tr></thead><tbody>`)
	for i, row := range f.TypedRows() {
		writeRow(b, columns, row, strconv.Itoa(i+1))
	}
	b.WriteString(`</tbody></table><template class="row">`)
	writeRow(b, columns, make([]string, len(columns)), "")
	b.WriteString(`</template></div>`)
	writeRowsHelp(b, f)
	b.WriteString(`<p class="tools" hidden><button type="button" data-do="add">Add a row</button> ` +
		`<span class="hint">Enter moves down; cells copied from a spreadsheet can be pasted.</span></p>`)
	b.WriteString(`<p class="problem" id="problem-` + name + `" hidden></p></div>`)
}

// writeRow writes one row of a table of readings.
func writeRow(b *strings.Builder, columns []notebook.Field, values []string, number string) {
	b.WriteString(`<tr><th scope="row">` + number + "</th>")
	for j, c := range columns {
		b.WriteString("<td>")
		writeInput(b, c, values[j], ` aria-label="`+html.EscapeString(c.Label+", row "+number)+`"`)
		b.WriteString("</td>")
	}
	b.WriteString(`<td class="tools" hidden><button type="button" data-do="remove" aria-label="Remove row ` + number + `">×</button></td></tr>`)
}

// writeRowsHelp writes the help of a table and of each of its columns.
func writeRowsHelp(b *strings.Builder, f notebook.Field) {
	b.WriteString(`<div class="help" id="help-` + html.EscapeString(f.Name) + `">`)
	if f.Help != "" {
		b.WriteString("<p>" + html.EscapeString(f.Help) + "</p>")
	}
	for _, c := range f.Columns() {
		if c.Help != "" {
			b.WriteString("<p><b>" + html.EscapeString(c.Label) + ":</b> " + html.EscapeString(c.Help) + "</p>")
		}
	}
	b.WriteString("</div>")
}
