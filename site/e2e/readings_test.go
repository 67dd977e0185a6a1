package e2e

// What a reader does with readings: wrong entries, files, another visit, rows.

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// anyMeasure is the first single measure of a page's form.
func (p *tab) anyMeasure() box {
	p.t.Helper()
	name := ask[string](p, `() => document.querySelector('form.readings .field[data-kind="measure"]')?.dataset.field ?? ""`)
	if name == "" {
		p.t.Skip("the lesson has no single measure")
	}
	return box{Field: name}
}

const measureField = `data-kind="measure"><label`

func TestInvalidEntryKeepsTheLastGoodAnswer(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, measureField)
	c := findChange(t, s, slug)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	p.typeInto(c.at, c.text)
	p.answered("yours")
	good := p.items()

	wrong := p.anyMeasure()
	was := p.valueOf(wrong)
	p.typeInto(wrong, "furlongs 12")
	p.await("a problem at its box", `(b) => (`+boxFunction+`)(b).getAttribute("aria-invalid") === "true" && document.querySelector(".field > .problem:not([hidden])").textContent.includes("furlongs")`, wrong)
	message := ask[string](p, `(b) => { const e = (`+boxFunction+`)(b); return e.getAttribute("aria-describedby").split(" ").map((id) => document.getElementById(id)).filter((n) => n.matches(".problem") && n.checkVisibility()).map((n) => n.textContent).join(" "); }`, wrong)
	if !strings.Contains(message, "furlongs") {
		t.Errorf("the box is described by %q, which does not name what was typed", message)
	}
	if p.items() != good {
		t.Error("a wrong entry changed the answers")
	}
	if state := p.state(); !strings.Contains(state, "last good readings") {
		t.Errorf("the form says %q, and not that the answers are the last good ones", state)
	}
	for _, violation := range p.axe(t) {
		t.Errorf("with a problem shown: %s", violation)
	}

	p.typeInto(wrong, was)
	p.answered("yours")
	if left := ask[int](p, `() => document.querySelectorAll("[aria-invalid], .problem:not([hidden])").length`); left != 0 {
		t.Errorf("%d marks are left after the entry was put right", left)
	}
	p.quiet(s.server.URL)
}

// A problem in a table stands in the cell that it is about, whatever rows are
// left empty above it.
func TestProblemStandsInItsCell(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, rowsField)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	field, rows := p.firstTable()
	columns := ask[[]string](p, `(f) => [...document.querySelectorAll('.field[data-field="' + f + '"] thead th[data-column]')].map((h) => h.dataset.kind)`, field)
	column := slices.Index(columns, "measure")
	if column < 0 || rows < 2 {
		t.Skip("the table has no measured column, or too few rows")
	}
	ask[bool](p, `(f) => {
		const row = document.querySelector('.field[data-field="' + f + '"] tbody > tr');
		for (const box of row.querySelectorAll("input")) { box.value = ""; box.dispatchEvent(new InputEvent("input", { bubbles: true })); }
		return true;
	}`, field)
	at := box{field, 2, column}
	p.typeInto(at, "abc")
	p.await("a message in the cell", `(b) => { const e = (`+boxFunction+`)(b), note = e.nextElementSibling; return e.ariaInvalid === "true" && Boolean(note) && note.textContent.includes("abc") && e.getAttribute("aria-describedby") === note.id; }`, at)
	p.typeInto(at, "1")
	p.await("a cell without a message", `(b) => { const e = (`+boxFunction+`)(b); return !e.ariaInvalid && !e.nextElementSibling && !e.hasAttribute("aria-describedby"); }`, at)
	p.quiet(s.server.URL)
}

// A unit typed into the box is taken, and shown in the list beside it.
func TestUnitTypedIntoTheBox(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, measureField)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	name := ask[string](p, `() => [...document.querySelectorAll('.field[data-kind="measure"]')].find((f) => f.querySelector(".entry > select.unit"))?.dataset.field ?? ""`)
	if name == "" {
		t.Skip("no measure with a choice of units")
	}
	units := ask[[]string](p, `(name) => [...document.querySelectorAll('[data-field="' + name + '"] .unit option')].map((o) => o.value)`, name)
	p.typeInto(box{Field: name}, "3.25 "+units[1])
	p.keys(kb.Tab)
	p.await("the unit beside the box", `(name, unit) => document.querySelector('[data-field="' + name + '"] select.unit').value === unit`, name, units[1])
	if got := p.valueOf(box{Field: name}); got != "3.25" {
		t.Errorf("the box holds %q, want 3.25", got)
	}
}

func TestSaveAndLoadRoundTrip(t *testing.T) {
	s := site(t)
	for _, slug := range s.lessons {
		t.Run(slug, func(t *testing.T) {
			t.Parallel()
			c := findChange(t, s, slug)
			p := open(t, s.server.URL+"/"+slug+"/index.html")
			p.awake()
			demo := p.items()
			p.typeInto(c.at, c.text)
			p.answered("yours")
			mine, file := p.items(), p.save()

			p.press("demo")
			p.answered("demo")
			if d := firstDifference(demo, p.items()); d != "" {
				t.Errorf("the way back to the demo gives other answers than the page as built: %s", d)
			}
			p.load(file)
			p.answered("yours")
			if d := firstDifference(mine, p.items()); d != "" {
				t.Errorf("the saved file gives other answers than those it was saved with: %s", d)
			}
			if again := p.save(); string(again) != string(file) {
				t.Errorf("the loaded file is saved as\n%s\nbut was\n%s", again, file)
			}
			// The terminal's own template loads too, and is the demo.
			p.load(s.template(t, slug))
			p.answered("demo")
			if d := firstDifference(demo, p.items()); d != "" {
				t.Errorf("the terminal's template gives other answers than the demo: %s", d)
			}
			p.quiet(s.server.URL)
		})
	}
}

func TestReadingsAreThereAtTheNextVisit(t *testing.T) {
	s := site(t)
	slug := s.lessons[0]
	c := findChange(t, s, slug)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	demo := p.items()
	p.typeInto(c.at, c.text)
	p.answered("yours")
	mine := p.items()

	p.do(reload)
	p.answered("yours")
	if p.items() != mine {
		t.Error("after a reload the answers are not those of the reader's readings")
	}
	if got := p.valueOf(c.at); got != c.text {
		t.Errorf("after a reload the box holds %q, want %q", got, c.text)
	}
	if state := p.state(); !strings.Contains(state, "your readings") {
		t.Errorf("the form says %q, and not that the readings are the reader's", state)
	}
	p.press("demo")
	p.answered("demo")
	if p.items() != demo {
		t.Error("the way back does not lead to the demo's answers")
	}
	p.press("demo")
	p.answered("yours")
	if p.items() != mine {
		t.Error("the reader's readings did not come back")
	}
	p.press("demo")
	p.answered("demo")
	p.do(reload)
	p.awake()
	if got := p.valueOf(c.at); got == c.text {
		t.Error("readings that were left for the demo came back at the next visit")
	}
	p.quiet(s.server.URL)
}

// A file can hold anything. It is shown as text, named in a message, and
// changes nothing unless it can be worked.
func TestHostileFiles(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, measureField)
	const script = `<img src=x onerror="window.hacked=1"><script>window.hacked=1</script>`
	quote := func(text string) string { return `"` + strings.ReplaceAll(text, `"`, `\"`) + `"` }
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	measure := p.anyMeasure().Field
	tests := []struct{ name, text, want string }{
		{"not JSON", script, "line 1"},
		{"another lesson", `{"lesson": ` + quote(script) + `}`, "<img"},
		{"a name that is none", `{"inputs": {` + quote(script) + `: 1}}`, "<img"},
		{"a newer format", `{"format": 99}`, "99"},
		{"a bare number", `{"inputs": {` + quote(measure) + `: 0.02}}`, "0.02"},
		{"a list for a number", `{"inputs": {` + quote(measure) + `: [[[]]]}}`, "[[[]]]"},
		{"the object's own names", `{"inputs": {"__proto__": {"polluted": 1}, "constructor": 1}}`, "__proto__"},
		{"nested deeply", strings.Repeat("[", 100000), "not loaded"},
		{"too large", `{"lesson": "` + strings.Repeat("x", 3<<20) + `"}`, "bytes"},
		{"nothing", "", "not loaded"},
		{"bytes that are no text", "\xff\xfe\x00\x01", "not loaded"},
	}
	before := p.items()
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p.t = t
			ask[bool](p, `() => { document.querySelector("ul.problems").replaceChildren(); return true; }`)
			p.load([]byte(test.text))
			p.await("a message about the file", `() => document.querySelector("ul.problems").childElementCount > 0`)
			list := ask[string](p, `() => document.querySelector("ul.problems").textContent`)
			if !strings.Contains(list, "not loaded") || !strings.Contains(list, test.want) {
				t.Errorf("the message %.300q does not hold %q", list, test.want)
			}
			if ask[bool](p, `() => Boolean(window.hacked || {}.polluted || document.querySelector("main img, main script:not([type])"))`) {
				t.Error("the file's text was run or became part of the page")
			}
			if p.items() != before {
				t.Error("the file changed the answers")
			}
		})
	}
	p.t = t
	c := findChange(t, s, slug)
	p.typeInto(c.at, c.text)
	p.answered("yours")
	p.quiet(s.server.URL)
}

// Free text in a file that is otherwise sound is shown as text.
func TestHostileWords(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, `data-kind="words"><label`)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	name := ask[string](p, `() => document.querySelector('.field[data-kind="words"]').dataset.field`)
	const words = `<img src=x onerror=hacked=1>"'&`
	text, err := json.Marshal(map[string]any{"lesson": slug, "inputs": map[string]any{name: words}})
	if err != nil {
		t.Fatal(err)
	}
	p.load(text)
	p.answered("yours")
	if got := p.valueOf(box{Field: name}); got != words {
		t.Errorf("the box holds %q, want %q", got, words)
	}
	if ask[bool](p, `() => Boolean(window.hacked || document.querySelector("main img"))`) {
		t.Error("the words became part of the page")
	}
	p.quiet(s.server.URL)
}

const rowsField = `data-kind="rows"`

// firstTable returns the first table of readings and its number of rows.
func (p *tab) firstTable() (field string, rows int) {
	p.t.Helper()
	field = ask[string](p, `() => document.querySelector(".field.rows").dataset.field`)
	return field, p.countRows(field)
}

func (p *tab) countRows(field string) int {
	p.t.Helper()
	return ask[int](p, `(f) => document.querySelectorAll('.field[data-field="' + f + '"] tbody > tr').length`, field)
}

func TestEnterMovesDownAndAddsARow(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, rowsField)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	field, rows := p.firstTable()
	if most := ask[int](p, `(f) => Number(document.querySelector('.field[data-field="' + f + '"]').dataset.max)`, field); rows >= most {
		t.Skip("the demo fills the table")
	}
	column := ask[int](p, `(f) => [...document.querySelectorAll('.field[data-field="' + f + '"] tbody > tr:first-child > td:not(.tools) > :is(input, select)')].findIndex((c) => c.matches("input"))`, field)
	at := func() []int {
		return ask[[]int](p, `() => { const row = document.activeElement.closest("tr"); return row ? [row.rowIndex, [...row.querySelectorAll("td:not(.tools) > :is(input, select)")].indexOf(document.activeElement)] : [-1, -1]; }`)
	}
	first := p.valueOf(box{field, 1, column})
	p.typeInto(box{field, 1, column}, first)
	for i := 2; i <= rows+1; i++ {
		p.keys(kb.Enter)
		if got := at(); got[0] != i || got[1] != column {
			t.Fatalf("Enter led to row %d, column %d, want row %d, column %d", got[0], got[1], i, column)
		}
	}
	if got := p.countRows(field); got != rows+1 {
		t.Errorf("Enter on the last row gave %d rows, want %d", got, rows+1)
	}
	p.keys(kb.Enter)
	if got := p.countRows(field); got != rows+1 {
		t.Errorf("Enter on an empty row gave %d rows, want still %d", got, rows+1)
	}
	p.do(chromedp.KeyEvent(kb.Enter, chromedp.KeyModifiers(chromedp.ModifierShift)))
	if got := at(); got[0] != rows {
		t.Errorf("Shift-Enter led to row %d, want %d", got[0], rows)
	}
	p.quiet(s.server.URL)
}

func TestRemovedRowLeavesTheAnswer(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, rowsField)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	field, rows := p.firstTable()
	// A table may be folded away, and what cannot be seen takes no focus.
	ask[bool](p, `(f) => {
		for (const d of document.querySelectorAll("form.readings details")) d.open = true;
		document.querySelector('.field[data-field="' + f + '"] tbody > tr:nth-child(2) [data-do=remove]').click();
		return true;
	}`, field)
	if got := p.countRows(field); got != rows-1 {
		t.Errorf("%d rows are left of %d", got, rows)
	}
	numbers := ask[string](p, `(f) => [...document.querySelectorAll('.field[data-field="' + f + '"] tbody th')].map((e) => e.textContent).join(" ")`, field)
	if !strings.HasPrefix(numbers, "1 2") {
		t.Errorf("the rows are numbered %s", numbers)
	}
	if focus := ask[string](p, `() => document.activeElement.dataset.do ?? document.activeElement.tagName`); focus != "remove" {
		t.Errorf("the focus went to %s", focus)
	}
	p.await("an answer or a problem", `() => ["yours", "stale"].includes(document.documentElement.dataset.readings)`)
	p.quiet(s.server.URL)
}

// Cells copied from a spreadsheet fill the table from the focused cell on, and
// add the rows they need; decimal commas are understood.
func TestPasteFromASpreadsheet(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, rowsField)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	field, rows := p.firstTable()
	columns := ask[int](p, `(f) => document.querySelectorAll('.field[data-field="' + f + '"] thead th[data-column]').length`, field)
	most := ask[int](p, `(f) => Number(document.querySelector('.field[data-field="' + f + '"]').dataset.max)`, field)
	// The demo's own rows, the last of them twice, with decimal commas.
	cells := ask[[][]string](p, `(f) => [...document.querySelectorAll('.field[data-field="' + f + '"] tbody > tr')].map((r) => [...r.querySelectorAll("td:not(.tools) > :is(input, select)")].map((c) => c.value))`, field)
	cells = append(cells, cells[len(cells)-1])
	var lines []string
	for _, row := range cells {
		lines = append(lines, strings.ReplaceAll(strings.Join(row, "\t"), ".", ","))
	}
	prevented := ask[bool](p, `(b, text) => {
		const cell = (`+boxFunction+`)(b);
		cell.focus();
		const data = new DataTransfer();
		data.setData("text/plain", text);
		return !cell.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
	}`, box{field, 1, 0}, strings.Join(lines, "\r\n")+"\r\n")
	if !prevented {
		t.Error("the browser was left to paste everything into one cell")
	}
	want := min(rows+1, most)
	if got := p.countRows(field); got != want {
		t.Errorf("the table has %d rows after %d were pasted, want %d", got, rows+1, want)
	}
	if got, want := p.valueOf(box{field, want, columns - 1}), cells[len(cells)-1][columns-1]; strings.ReplaceAll(got, ",", ".") != want {
		t.Errorf("the last cell holds %q, want %q", got, want)
	}
	p.await("an answer or a problem", `() => ["yours", "stale"].includes(document.documentElement.dataset.readings)`)
	if slips := ask[string](p, `() => [...document.querySelectorAll(".problem:not([hidden])")].map((e) => e.textContent).filter((m) => /comma|not a number/.test(m)).join(" ")`); slips != "" {
		t.Errorf("pasted numbers were not understood: %s", slips)
	}
	p.quiet(s.server.URL)
}

// While figures change above the form, what is being typed stays in its place
// and keeps the focus.
func TestTypingKeepsFocusAndPlace(t *testing.T) {
	s := site(t)
	slug := s.lessons[0]
	c := findChange(t, s, slug)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	p.typeInto(c.at, c.text)
	p.answered("yours")
	top := ask[float64](p, `() => document.activeElement.getBoundingClientRect().top`)
	p.keys("1")
	p.answered("yours")
	got := ask[[]float64](p, `(b) => [document.activeElement.getBoundingClientRect().top, document.activeElement === (`+boxFunction+`)(b) ? 1 : 0, document.activeElement.selectionStart]`, c.at)
	if got[1] != 1 || int(got[2]) != len(c.text)+1 {
		t.Errorf("the focus or the caret moved: %v", got)
	}
	if d := got[0] - top; d > 2 || d < -2 {
		t.Errorf("the box moved by %.0f px while typing", d)
	}
}
