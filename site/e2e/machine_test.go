package e2e

// The reader's own machine: its page, and the buttons at each lesson's form.

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// machinePage opens the page of the machine and waits until its script runs.
func (p *tab) machinePage(s *built) {
	p.t.Helper()
	p.visit(s.server.URL + "/machine/index.html")
	p.listed()
}

// listed waits until the entries that are kept are listed.
func (p *tab) listed() {
	p.t.Helper()
	p.await("the lists of the machine", `() => Boolean(document.querySelector(".machine-app:not([hidden]) [data-group=machine] .entries > *"))`)
}

// call presses one of the page's buttons and waits for what it says.
func (p *tab) call(button, says string) {
	p.t.Helper()
	p.do(chromedp.Click(chromedp.CSS(`.machine-app [data-call="` + button + `"]`)))
	p.said(says)
}

// said waits until the page says something.
func (p *tab) said(words string) {
	p.t.Helper()
	p.await("the words "+words, `(words) => document.querySelector(".machine-state").textContent.includes(words)`, words)
}

// give gives one of the page's boxes a file.
func (p *tab) give(id, text string) {
	p.t.Helper()
	file := filepath.Join(p.t.TempDir(), "given.json")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		p.t.Fatal(err)
	}
	p.do(chromedp.SetUploadFiles(chromedp.CSS("#"+id), []string{file}, chromedp.NodeReady))
}

// entries counts the entries that are listed.
func (p *tab) entries() int {
	p.t.Helper()
	return ask[int](p, `() => document.querySelectorAll(".entry-row").length`)
}

// setBox types a value into a box of the machine's page or panel.
func (p *tab) setBox(selector, value string) {
	p.t.Helper()
	if !ask[bool](p, `(selector, value) => {
		const box = document.querySelector(selector);
		if (!box) return false;
		box.value = value;
		box.dispatchEvent(new Event("input", { bubbles: true }));
		box.dispatchEvent(new Event("change", { bubbles: true }));
		return box.value === value;
	}`, selector, value) {
		p.t.Fatalf("the box %s does not take %q", selector, value)
	}
}

// pressWords presses the button with the given words inside a place.
func (p *tab) pressWords(place, words string) {
	p.t.Helper()
	p.await("the button "+words, `(place, words) => {
		const button = [...document.querySelectorAll(place + " button")].find((b) => b.textContent.includes(words) && b.checkVisibility());
		if (button) button.click();
		return Boolean(button);
	}`, place, words)
}

// Readings put in at a lesson are listed on the machine's page, are there at the
// next visit, and taken again give the same document and the same answers.
func TestPutIntoTheMachineAndTake(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, `data-lesson="`+s.lessons[0]+`"`)
	c := findChange(t, s, slug)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	p.typeInto(c.at, c.text)
	p.answered("yours")
	mine, typed := p.items(), p.save()

	p.do(chromedp.Click(chromedp.CSS(`[data-machine="put"]`)))
	p.await("the panel", `() => Boolean(document.querySelector(".machine-panel #machine-day"))`)
	for _, violation := range p.axe(t) {
		t.Errorf("with the panel open: %s", violation)
	}
	hostile := `<img src=x onerror=alert(1)>`
	p.setBox("#machine-day", "2025-05-24")
	p.setBox("#machine-name", hostile)
	p.pressWords(".machine-panel", "Put in")
	p.await("it is put in", `() => document.querySelector(".machine-panel").textContent.includes("Put in: ")`)

	p.press("demo")
	p.answered("demo")
	p.do(chromedp.Click(chromedp.CSS(`[data-machine="take"]`)))
	p.pressWords(".machine-panel", "2025-05-24: "+hostile)
	p.answered("yours")
	if d := firstDifference(mine, p.items()); d != "" {
		t.Errorf("taken again they give other answers: %s", d)
	}
	if again := p.save(); !bytes.Equal(again, typed) {
		t.Errorf("taken again the readings are\n%s\nbut were\n%s", again, typed)
	}

	p.machinePage(s)
	if n := p.entries(); n != 1 {
		t.Errorf("%d entries are listed, want 1", n)
	}
	if got := ask[string](p, `() => document.querySelector(".entry-more").textContent + document.querySelectorAll(".entry-row img").length`); got != "2025-05-24, "+hostile+"0" && got != hostile+"0" {
		t.Errorf("the hostile name is shown as %q", got)
	}
	p.quiet(s.server.URL)
}

// The action shop's machine, saved, changed, deleted, undone, loaded, merged.
func TestMachinePage(t *testing.T) {
	s := site(t)
	p := blank(t)
	p.machinePage(s)
	p.call("shop", "This is the action shop")
	all := p.entries()
	if all < 40 {
		t.Fatalf("the action shop has %d entries", all)
	}
	p.do(chromedp.Click(chromedp.CSS(`[data-call="save"]`)))
	shop := string(p.saved("machine-*.json", "}\n"))
	if want, err := command(s.program, "card", "-template"); err != nil || shop != want {
		t.Errorf("the file saved is not the terminal's, %v: %s", err, firstDifference(want, shop))
	}

	p.pressWords("[data-group=gauges] .entry-row", "Delete")
	p.said("Deleted: A gauge")
	if n := p.entries(); n != all-1 {
		t.Errorf("%d entries after one of %d was deleted", n, all)
	}
	p.call("undo", "Undone.")
	p.do(chromedp.Click(chromedp.CSS(`[data-call="save"]`)))
	if again := string(p.saved("machine-*.json", "}\n")); again != shop {
		t.Errorf("the undone file differs: %s", firstDifference(shop, again))
	}

	// Renamed here, and merged with the file as it was: both are kept.
	p.pressWords("[data-group=readings] .entry-row", "Change")
	p.setBox(".entry-row #machine-name", "renamed")
	p.pressWords(".entry-row form", "Change it")
	p.said("Changed: ")
	p.give("merge-file", shop)
	p.said("is merged: 1 added, ")
	p.said("Held differently in both files, and kept twice: ")
	if n := p.entries(); n != all+1 {
		t.Errorf("%d entries after the merge, want %d", n, all+1)
	}
	p.pressWords(".entry-row", "Keep this one")
	p.said("Kept one version")
	if n := p.entries(); n != all {
		t.Errorf("%d entries after one was chosen, want %d", n, all)
	}

	// Back over the choice, the merge and the new name.
	for i, want := range []int{all + 1, all, all} {
		p.call("undo", "Undone. Steps before it that can be undone: "+strconv.Itoa(3-i)+".")
		if n := p.entries(); n != want {
			t.Errorf("%d entries after step %d back, want %d", n, i+1, want)
		}
	}
	p.do(chromedp.Click(chromedp.CSS(`[data-call="save"]`)))
	if again := string(p.saved("machine-*.json", "}\n")); again != shop {
		t.Errorf("the file after three steps back differs: %s", firstDifference(shop, again))
	}

	p.give("load-file", `{"machine": 1, "entries": [{"id": "a", "date": "2025-02-30", "of": "sweep", "inputs": {}}]}`)
	p.said(`"2025-02-30" is not a date`)
	if n := p.entries(); n != all {
		t.Error("a file with a fault took the place of what was kept")
	}
	p.give("load-file", string(s.template(t, s.lessons[0])))
	p.said("is loaded: 1 entries.")
	p.visit(s.server.URL + "/machine/index.html")
	p.listed()
	if n := p.entries(); n != 1 {
		t.Errorf("%d entries at the next visit, want 1", n)
	}
	p.call("clear", "Everything is deleted")
	if left := ask[bool](p, `() => localStorage.getItem("thouspan:machine") === null`); !left {
		t.Error("something is kept after everything was deleted")
	}
	p.quiet(s.server.URL)
}

// A record is typed, refused with a fault at its field, put right, and changed.
func TestRecordOfTheMachine(t *testing.T) {
	s := site(t)
	p := blank(t)
	p.machinePage(s)
	p.pressWords("[data-group=nickel]", "Add what the bath is")
	p.await("the form", `() => document.activeElement.matches("form.record [name=day]")`)
	p.setBox("form.record [name=day]", "2025-05-24")
	p.typeInto(box{Field: "volume"}, "-3")
	p.pressWords("form.record", "Put in")
	p.await("a fault at the box", `() => Boolean(document.querySelector('form.record [data-field=volume] [aria-invalid]') && document.querySelector("form.record [data-field=volume] .problem:not([hidden])")?.textContent.includes("below the least"))`)
	for _, violation := range p.axe(t) {
		t.Errorf("with a fault shown: %s", violation)
	}
	p.typeInto(box{Field: "volume"}, "3")
	p.pressWords("form.record", "Put in")
	p.said("Put in: The bath, 2025-05-24.")
	p.pressWords("[data-group=nickel] .entry-row", "Change")
	p.await("the form with what was typed", `() => document.querySelector("form.record [data-field=volume] input")?.value === "3" && document.querySelector("form.record [name=day]").value === "2025-05-24"`)
	p.typeInto(box{Field: "volume"}, "3.2")
	p.pressWords("form.record", "Put in")
	p.said("Changed: The bath")
	if got := ask[string](p, `() => document.querySelector("[data-group=nickel] .entry-says").textContent`); got != "volume 3.2 L" {
		t.Errorf("the bath is listed as %q", got)
	}
	p.quiet(s.server.URL)
}

// A survey is put together from the readings of several lessons.
func TestSurveyIsTakenTogether(t *testing.T) {
	s := site(t)
	if !contains(s.lessons, "survey") {
		t.Skip("the lesson is not among those tested")
	}
	p := blank(t)
	p.machinePage(s)
	p.call("shop", "This is the action shop")
	p.visit(s.server.URL + "/survey/index.html")
	p.awake()
	p.do(chromedp.Click(chromedp.CSS(`[data-machine="take"]`)))
	p.pressWords(".machine-panel", "put together from what other entries hold")
	p.answered("yours")
	if got := ask[string](p, `() => document.querySelector(".machine-panel").textContent`); !strings.Contains(got, "5 sweeps, head as left") {
		t.Errorf("the panel says %q", got)
	}
	if got := p.valueOf(box{Field: "gain"}); got != "0.9821" {
		t.Errorf("the gain is %q, want the checked dial's", got)
	}
	p.quiet(s.server.URL)
}

func contains(list []string, one string) bool {
	for _, x := range list {
		if x == one {
			return true
		}
	}
	return false
}

// The card says what the terminal's says, and on paper it is alone on one side.
func TestCardIsPrinted(t *testing.T) {
	s := site(t)
	p := blank(t)
	p.machinePage(s)
	p.call("shop", "This is the action shop")
	p.setBox("#card-day", "2025-06-01")
	ask[bool](p, `() => { window.printed = 0; window.print = () => { window.printed++; }; return true; }`)
	p.call("print", "The card is written")
	p.await("the printer", `() => window.printed === 1`)
	shown := ask[string](p, `() => document.querySelector(".card").textContent`)
	said, err := command(s.program, "card", "-date", "2025-06-01")
	if err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"The action shop’s mill", "Written 2025-06-01. From readings of 2025-05-24.", "Dowel holes through a lever block", "too close to tell", "in 357 days", "94.68", "long action rail", "take it"} {
		if !strings.Contains(shown, words) || !strings.Contains(said, words) {
			t.Errorf("%q is not both on the page's card and on the terminal's", words)
		}
	}
	for _, violation := range p.axe(t) {
		t.Errorf("with the card shown: %s", violation)
	}
	for _, paper := range []struct {
		name          string
		width, height float64 // in
	}{{"A4", 8.27, 11.69}, {"letter", 8.5, 11}} {
		pdf := p.pdf(paper.width, paper.height)
		if n := bytes.Count(pdf, []byte("/Type /Page\n")); n != 1 {
			t.Errorf("on %s the card takes %d sides, want 1", paper.name, n)
		}
	}
	p.quiet(s.server.URL)
}

// pdf prints the page on paper of the given size, in inches.
func (p *tab) pdf(width, height float64) []byte {
	p.t.Helper()
	return call(p, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: width, PaperHeight: height}).Data
}

// Storage that is full, or blocked, is said; what was typed is not lost.
func TestMachineWithoutStorage(t *testing.T) {
	s := site(t)
	for name, words := range map[string]string{"QuotaExceededError": "storage is full", "SecurityError": "does not keep anything"} {
		t.Run(name, func(t *testing.T) {
			p := blank(t)
			p.machinePage(s)
			ask[bool](p, `(name) => { Storage.prototype.setItem = () => { throw new DOMException("no", name); }; return true; }`, name)
			p.call("shop", words)
			if p.entries() < 40 {
				t.Error("the entries are not shown")
			}
			p.do(chromedp.Click(chromedp.CSS(`[data-call="save"]`)))
			if text := p.saved("machine-*.json", "}\n"); !json.Valid(text) {
				t.Error("they cannot be saved to a file")
			}
			p.quiet(s.server.URL)
		})
	}
}
