package e2e

// Using a lesson's form as a reader does.

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// box names a box of the form: a field, or a cell of a table (row from 1).
type box struct {
	Field  string `json:"field"`
	Row    int    `json:"row"`
	Column int    `json:"column"` // from 0
}

// boxFunction finds a box's element.
const boxFunction = `(box) => {
	const field = document.querySelector('form.readings .field[data-field="' + box.field + '"]');
	if (!box.row) return field.querySelector(".entry > input, .entry > select:not(.unit)");
	const row = field.querySelectorAll("tbody > tr")[box.row - 1];
	return row && row.querySelectorAll("td:not(.tools) > :is(input, select)")[box.column];
}`

// typeInto opens what is folded over a box, focuses it, selects what is in it
// and types over it, key by key.
func (p *tab) typeInto(b box, text string) {
	p.t.Helper()
	if !ask[bool](p, `(box) => { const e = (`+boxFunction+`)(box); if (!e) return false; for (let fold = e.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true; e.scrollIntoView({block: "center"}); e.focus(); if (e.select) e.select(); return document.activeElement === e; }`, b) {
		p.t.Fatalf("the box %+v cannot be typed into", b)
	}
	if text == "" {
		p.keys(kb.Backspace)
		return
	}
	p.keys(text)
}

// valueOf returns what stands in a box.
func (p *tab) valueOf(b box) string {
	p.t.Helper()
	return ask[string](p, `(box) => (`+boxFunction+`)(box)?.value ?? "no such box"`, b)
}

// press clicks one of the form's buttons by what it does.
func (p *tab) press(what string) {
	p.t.Helper()
	p.do(chromedp.Click(chromedp.CSS(`form.readings [data-do="` + what + `"]`)))
}

// awake waits until the form can be typed into.
func (p *tab) awake() {
	p.t.Helper()
	p.await("a form that is awake", `() => !document.querySelector(".actions")?.hidden && !document.querySelector("form.readings input[readonly]")`)
}

// answered waits until the answers on the page are computed from the given
// readings: "yours" or "demo".
func (p *tab) answered(whose string) {
	p.t.Helper()
	p.await("answers computed from: "+whose, `(whose) => document.documentElement.dataset.readings === whose`, whose)
}

// save saves the readings and returns the file's text.
func (p *tab) save() []byte {
	p.t.Helper()
	p.press("save")
	return p.saved("*.json", "}\n")
}

// saved waits for a file that the page saves, whose name has the given form and
// whose text ends so, and returns its text.
func (p *tab) saved(name, end string) []byte {
	p.t.Helper()
	for began := time.Now(); time.Since(began) < patience; time.Sleep(20 * time.Millisecond) {
		files, err := filepath.Glob(filepath.Join(p.downloads, name))
		if err != nil {
			p.t.Fatal(err)
		}
		for _, file := range files {
			if text, err := os.ReadFile(file); err == nil && strings.HasSuffix(string(text), end) {
				if err := os.Remove(file); err != nil { // so that the next one is told from it
					p.t.Fatal(err)
				}
				return text
			}
		}
	}
	p.t.Fatalf("no file %s was saved", name)
	return nil
}

// load gives the form a file of the given text.
func (p *tab) load(text []byte) {
	p.t.Helper()
	file := filepath.Join(p.t.TempDir(), "readings.json")
	if err := os.WriteFile(file, text, 0o644); err != nil {
		p.t.Fatal(err)
	}
	p.do(chromedp.SetUploadFiles(chromedp.CSS(`form.readings .actions input[type="file"]`), []string{file}, chromedp.NodeReady))
}

// items returns the text of every item on the page, for telling whether the
// page changed.
func (p *tab) items() string {
	p.t.Helper()
	return ask[string](p, `() => [...document.querySelectorAll("[data-item]")].map((e) => {
		const c = e.cloneNode(true);
		c.querySelectorAll(".plot, script").forEach((x) => x.remove());
		return e.dataset.item + ": " + c.textContent.replace(/\s+/g, " ");
	}).join("\n")`)
}

// firstDifference returns the first line in which two texts differ, or nothing.
func firstDifference(want, got string) string {
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(a), len(b)) {
		x, y := "nothing", "nothing"
		if i < len(a) {
			x = a[i]
		}
		if i < len(b) {
			y = b[i]
		}
		if x != y {
			return fmt.Sprintf("\n  %.600s\nbecame\n  %.600s", x, y)
		}
	}
	return ""
}
