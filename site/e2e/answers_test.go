package e2e

// The browser's answers against the terminal's, on the same readings, digit by
// digit.

import (
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// shown is a sentence or a value as printed in both systems of units.
type shown struct{ Metric, Inch string }

// sheetItem is an item of the terminal's JSON.
type sheetItem struct {
	Kind, Name, Unknown string
	Value, Answer       shown
	Note, Text, Caption shown
	Table               struct {
		Columns []string
		Rows    [][]json.RawMessage
	}
}

// pageItem is an item as a reader sees it in one system of units.
type pageItem struct {
	Value   string
	Text    string
	Caption string
	Units   []string
	Rows    [][]string
}

// readItems reads every item of the page in the given system of units.
const readItems = `(system) => {
	const items = {};
	for (const element of document.querySelectorAll('[data-item][data-shape="block"]')) {
		const copy = element.cloneNode(true);
		copy.querySelectorAll(system === "metric" ? ".inch" : ".metric").forEach((e) => e.remove());
		copy.querySelectorAll(".plot, .tone, .mark, figcaption > b").forEach((e) => e.remove());
		const text = (selector) => [...copy.querySelectorAll(selector)].slice(0, 1).map((e) => e.textContent).join("").replace(/[\s\u00a0]+/g, " ").trim();
		items[element.dataset.item] = {
			value: text(".value, .answer").replace(/standard uncertainty (.*)$/, "(u $1)"),
			text: text(".verdict-text"),
			caption: text("figcaption"),
			units: [...copy.querySelectorAll("thead th")].map((e) => e.querySelector(".unit")?.textContent ?? ""),
			rows: [...copy.querySelectorAll("tbody tr")].map((row) => [...row.children].map((cell) => (cell.querySelector(".q") ?? cell).textContent.replace(/[\s\u00a0]+/g, " ").trim())),
		};
	}
	return items;
}`

func plain(text string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00a0", " ")), " ")
}

// differ compares the terminal's sheet with the page, and returns how many
// values it compared and how they differ.
func differ(t *testing.T, p *tab, sheet []byte) (compared int, differences []string) {
	t.Helper()
	var terminal struct{ Sheet struct{ Items []sheetItem } }
	if err := json.Unmarshal(sheet, &terminal); err != nil {
		t.Fatal(err)
	}
	for _, system := range []string{"metric", "inch"} {
		pick := func(s shown) string {
			if system == "inch" {
				return plain(s.Inch)
			}
			return plain(s.Metric)
		}
		page := ask[map[string]pageItem](p, readItems, system)
		for _, item := range terminal.Sheet.Items {
			seen, ok := page[item.Name]
			if !ok {
				continue // shown within a sentence only
			}
			same := func(what, want, got string) {
				compared++
				if want != got {
					differences = append(differences, fmt.Sprintf("%s, %s, %s: the terminal has %q, the page %q", item.Name, what, system, want, got))
				}
			}
			switch item.Kind {
			case "figure":
				want := pick(item.Value)
				if item.Unknown != "" {
					want = plain("not known: " + item.Unknown)
				}
				same("value", want, seen.Value)
			case "exercise":
				same("answer", pick(item.Answer), seen.Value)
			case "verdict":
				same("text", pick(item.Text), seen.Text)
			case "chart", "drawing":
				same("caption", pick(item.Caption), seen.Caption)
			}
			if item.Kind != "chart" && item.Kind != "table" || len(item.Table.Rows) == 0 {
				continue
			}
			same("rows", fmt.Sprint(len(item.Table.Rows)), fmt.Sprint(len(seen.Rows)))
			for i := 0; i < len(item.Table.Rows) && i < len(seen.Rows); i++ {
				for j := 0; j < len(item.Table.Rows[i]) && j < len(seen.Rows[i]); j++ {
					same(fmt.Sprintf("row %d, column %d", i+1, j+1), cellText(t, item.Table.Rows[i][j], seen.Units[j], pick), seen.Rows[i][j])
				}
			}
		}
	}
	return compared, differences
}

// cellText returns a cell of the terminal's table as the page prints it: the
// unit only in the column's head.
func cellText(t *testing.T, cell json.RawMessage, unit string, pick func(shown) string) string {
	t.Helper()
	var words string
	if json.Unmarshal(cell, &words) == nil {
		return plain(words)
	}
	var s shown
	if err := json.Unmarshal(cell, &s); err != nil {
		t.Fatalf("cell %s: %v", cell, err)
	}
	text := pick(s)
	if unit == "" {
		return text
	}
	text = strings.ReplaceAll(text, " "+unit, "")
	return strings.ReplaceAll(text, unit, "")
}

// change is a new value for one box of a lesson's form.
type change struct {
	at       box
	text     string
	document []byte // the demo's document with it
}

var numberAtFront = regexp.MustCompile(`^-?\d+(\.\d+)?`)

// nudge returns a number near the given one, as a person types it.
func nudge(number string, factor float64) (string, bool) {
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || x == 0 {
		return "", false
	}
	text := strconv.FormatFloat(x*factor, 'f', 4, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	return text, text != number
}

// changes returns nudges of single values of a lesson's form, those of tables
// first.
func changes(t *testing.T, template []byte) []change {
	t.Helper()
	var document map[string]any
	if err := json.Unmarshal(template, &document); err != nil {
		t.Fatal(err)
	}
	inputs := document["inputs"].(map[string]any)
	var tables, singles []change
	encode := func() []byte {
		text, err := json.Marshal(document)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	for _, name := range slices.Sorted(maps.Keys(inputs)) {
		value := inputs[name]
		switch value := value.(type) {
		case string:
			number := numberAtFront.FindString(value)
			for _, factor := range []float64{1.02, 0.98} {
				if text, ok := nudge(number, factor); ok && (number == value || strings.Contains(value, " ")) && !strings.Contains(value[len(number):], "-") {
					inputs[name] = text + value[len(number):]
					singles = append(singles, change{box{Field: name}, text, encode()})
				}
			}
			inputs[name] = value
		case map[string]any:
			rows := value["rows"].([]any)
			for i := range rows {
				row := rows[i].([]any)
				for j := len(row) - 1; j >= 0; j-- {
					x, ok := row[j].(float64)
					if !ok {
						continue
					}
					for _, factor := range []float64{1.05, 0.95} {
						if text, ok := nudge(strconv.FormatFloat(x, 'f', -1, 64), factor); ok {
							row[j] = text
							tables = append(tables, change{box{name, i + 1, j}, text, encode()})
						}
					}
					row[j] = x
				}
			}
		}
	}
	return append(tables, singles...)
}

// unrounded are the members of the terminal's JSON that no reader sees.
var unrounded = regexp.MustCompile(`"(si|u|computed)": [^,\n]*`)

// asShown returns the terminal's JSON without what is not shown.
func asShown(sheet []byte) string { return unrounded.ReplaceAllString(string(sheet), "") }

// findChange returns a change that the lesson takes and that changes what its
// sheet shows.
func findChange(t *testing.T, s *built, slug string) change {
	t.Helper()
	template := s.template(t, slug)
	demo, err := s.work(t, slug, template)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range changes(t, template) {
		if got, err := s.work(t, slug, c.document); err == nil && asShown(got) != asShown(demo) {
			return c
		}
	}
	t.Fatalf("no change of one value was found that changes the answers of %s", slug)
	return change{}
}

// Every lesson: a reading typed in the browser gives the figures of the
// terminal on the file that the browser saves.
func TestTypedReadingsGiveTheTerminalsFigures(t *testing.T) {
	s := site(t)
	for _, slug := range s.lessons {
		t.Run(slug, func(t *testing.T) {
			t.Parallel()
			c := findChange(t, s, slug)
			p := open(t, s.server.URL+"/"+slug+"/index.html")
			p.awake()
			before := p.items()
			p.typeInto(c.at, c.text)
			p.answered("yours")
			if p.items() == before {
				t.Errorf("%q was typed into %+v, and the page says what it said before", c.text, c.at)
			}
			sheet, err := s.work(t, slug, p.save())
			if err != nil {
				t.Fatalf("the terminal refuses the file that the browser saved: %v", err)
			}
			compared, differences := differ(t, p, sheet)
			if compared == 0 {
				t.Error("nothing on the page was compared")
			}
			for i, d := range differences {
				if i == 10 {
					t.Errorf("and %d more", len(differences)-i)
					break
				}
				t.Error(d)
			}
			first, later := p.timeTyping(c)
			t.Logf("%d values agree; keystroke to figures: first %v, later %v", compared-len(differences), first.Round(time.Millisecond), later.Round(time.Millisecond))
			p.quiet(s.server.URL)
		})
	}
}

// timeTyping measures from a keystroke to new figures: in a page just loaded,
// and the median of nine once the program runs.
func (p *tab) timeTyping(c change) (first, later time.Duration) {
	p.t.Helper()
	p.press("demo")
	p.answered("demo")
	p.do(reload)
	p.awake()
	demo := p.valueOf(c.at)
	first = p.timeOne(c.at, c.text)
	var times []time.Duration
	for i := range 9 {
		times = append(times, p.timeOne(c.at, []string{demo, c.text}[i%2]))
	}
	slices.Sort(times)
	return first, times[len(times)/2]
}

// timeOne measures from the last keystroke of a text to new figures.
func (p *tab) timeOne(at box, text string) time.Duration {
	p.t.Helper()
	ask[bool](p, `() => {
		window.taken = new Promise((resolve) => {
			let began = 0;
			document.addEventListener("input", () => { began = performance.now(); }, true);
			document.addEventListener("figures", () => resolve(performance.now() - began), { once: true });
		});
		return true;
	}`)
	p.typeInto(at, text)
	ms := ask[float64](p, `() => Promise.race([window.taken, new Promise((r) => setTimeout(() => r(-1), 50000))])`)
	if ms < 0 {
		p.t.Errorf("no new figures 50 s after %q was typed into %+v: %s", text, at, p.state())
	}
	return time.Duration(ms * float64(time.Millisecond))
}

// The page as built shows the terminal's figures on the demo.
func TestPagesAsBuiltShowTheTerminalsFigures(t *testing.T) {
	s := site(t)
	for _, slug := range s.lessons {
		t.Run(slug, func(t *testing.T) {
			t.Parallel()
			p := open(t, s.server.URL+"/"+slug+"/index.html")
			said, err := command(s.program, "work", slug, "-json")
			if err != nil {
				t.Fatalf("%v\n%s", err, said)
			}
			compared, differences := differ(t, p, []byte(said))
			if compared == 0 {
				t.Error("nothing on the page was compared")
			}
			for _, d := range differences {
				t.Error(d)
			}
		})
	}
}
