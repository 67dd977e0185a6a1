package book

// The pages around the lessons: what is looked up, the story, the ledger, the
// tables for the wall. Their prose stands in site/book/pages as Markdown with
// the same directives as a lesson's and a few of its own.

import (
	"fmt"
	"html"
	"html/template"
	"io/fs"
	"path"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
)

// pagesDir holds the prose of the pages around the lessons; without it only the
// lessons, the home page and the ledger are made.
const pagesDir = "site/book/pages"

// pageAbout says what a page around the lessons is.
type pageAbout struct {
	// Slug is its folder, Title its heading, Short its name in menus.
	Slug, Title, Short string
	// Says is what it is for, in a sentence.
	Says string
	// Shelf groups the pages in the foot of every page.
	Shelf string
}

// around lists the pages around the lessons in the order of the foot's menu.
var around = []pageAbout{
	{"machine", "Your machine", "Your machine", "Keeps one machine and its bath in this browser: gauges, readings by date, plating log, and the card to hang on the machine.", "At the machine"},
	{"story", "The action shop, 2019 to 2025", "The story", "One worn mill, one small bath, six years of readings: what was believed, what was true, and which lesson each reading feeds.", "The book"},
	{"wrong", "What people get wrong", "What people get wrong", "What is said in every shop, each with the number that corrects it.", "The book"},
	{"search", "Search", "Search", "Finds questions, terms, sections and formulas on every page of this book, with no network.", "The book"},
	{"glossary", "Glossary", "Glossary", "Every trade word of this book, said plainly, with a number to remember it by.", "Look up"},
	{"notation", "Notation", "Notation", "The frame, the signs, the letters, the units, and how doubt and rounding are shown.", "Look up"},
	{"formulas", "Index of formulas", "Formulas", "Every formula of the lessons, as it is written and as it is said.", "Look up"},
	{"checks", "Every check", "Checks", "Every value on these pages that is checked against a published one, with its source and how it is known.", "Under the pages"},
	{"sources", "Sources", "Sources", "Every source that a check rests on, how it is known, and which checks rest on it.", "Under the pages"},
	{"programmers", "For programmers", "For programmers", "The same models in another program: packages, signs, units, errors, and the document that the lessons read.", "Under the pages"},
	{"wall-metric", "A hundredth over a span", "Metric sheet", "One sheet for the wall: what 0.01 mm is over the usual spans.", "On the wall"},
	{"wall-inch", "A thousandth over a span", "Inch sheet", "One sheet for the wall: what 0.001 in is over the usual spans.", "On the wall"},
}

// hasPages reports whether the module holds the pages around the lessons.
func (in Input) hasPages() bool {
	_, err := fs.Stat(in.Module, pagesDir)
	return err == nil
}

// shelf is a group of pages in the foot.
type shelf struct {
	Name  string
	Pages []pageAbout
}

// shelves returns the pages that are made, group by group.
func (in Input) shelves() []shelf {
	var list []shelf
	for _, p := range around {
		if p.Slug != "checks" && !in.hasPages() {
			continue
		}
		if len(list) == 0 || list[len(list)-1].Name != p.Shelf {
			list = append(list, shelf{Name: p.Shelf})
		}
		last := &list[len(list)-1]
		last.Pages = append(last.Pages, p)
	}
	return list
}

// findPage returns the page around the lessons with the given slug.
func findPage(slug string) pageAbout {
	for _, p := range around {
		if p.Slug == slug {
			return p
		}
	}
	return pageAbout{}
}

// pageData fills the template of a page around the lessons.
type pageData struct {
	pageAbout
	HTML template.HTML
}

// page returns a page around the lessons with the given inside.
func (in Input) page(slug, inside string) ([]byte, error) {
	about := findPage(slug)
	return in.frame(frameData{Title: about.Title, Description: about.Says, Root: "../", Body: "page",
		Data: pageData{about, template.HTML(inside)}})
}

// writePages makes every page around the lessons.
func (in Input) writePages(book *Book, worked []workedLesson, terms []term) error {
	made := &surroundings{in: in, worked: worked, terms: terms, checks: book.Checks, inside: map[string]string{}, meanings: map[string]string{}}
	makers := []struct {
		slug string
		make func() (string, error)
	}{
		{"glossary", made.glossary}, {"formulas", made.formulas}, {"sources", made.sources}, {"wrong", made.wrong},
		{"notation", made.notation}, {"story", made.story}, {"programmers", made.programmers},
		{"wall-metric", made.wallMetric}, {"wall-inch", made.wallInch}, {"search", made.search}, {"machine", made.machine},
	}
	for _, m := range makers {
		in.tell("page " + m.slug)
		inside, err := m.make()
		if err != nil {
			return fmt.Errorf("book: the page %s: %w", m.slug, err)
		}
		made.inside[m.slug] = inside
		if book.Files[m.slug+"/index.html"], err = in.page(m.slug, inside); err != nil {
			return err
		}
	}
	index, err := made.index()
	if err != nil {
		return err
	}
	book.Files["assets/find-index.js"] = index
	return nil
}

// surroundings makes the pages around the lessons from what the lessons gave.
type surroundings struct {
	in     Input
	worked []workedLesson
	terms  []term
	checks []LessonCheck
	// inside holds the pages made so far, by slug, meanings those of the terms,
	// by place.
	inside, meanings map[string]string
}

// lesson returns the worked lesson with the given slug.
func (s *surroundings) lesson(slug string) (workedLesson, error) {
	for _, w := range s.worked {
		if w.Slug == slug {
			return w, nil
		}
	}
	return workedLesson{}, fmt.Errorf("no lesson is called %q", slug)
}

// markdown turns a page's prose into HTML; own resolves the directives that
// only this page knows.
func (s *surroundings) markdown(name string, own map[string]func(directive) (string, error)) (string, error) {
	file := path.Join(pagesDir, name)
	source, err := fs.ReadFile(s.in.Module, file)
	if err != nil {
		return "", err
	}
	return s.markdownText(source, file, own)
}

func (s *surroundings) markdownText(source []byte, file string, own map[string]func(directive) (string, error)) (string, error) {
	body, problems := prose(source, file, func(d directive) (string, error) {
		if f, ok := own[d.verb]; ok {
			return f(d)
		}
		return s.resolve(d)
	})
	if len(problems) > 0 {
		return "", problems[0]
	}
	return body, nil
}

// resolve returns the HTML of a directive that every page around the lessons
// knows.
func (s *surroundings) resolve(d directive) (string, error) {
	switch d.verb {
	case "q":
		q, err := shopQuantity(d.argument)
		return render.Quantity(q, false), err
	case "of":
		return s.itemOf(d)
	case "page":
		return s.link(d.argument)
	case "term":
		return s.termLink(d.argument)
	case "code":
		pkg, name, _ := strings.Cut(d.argument, ".")
		return s.in.showCode(pkg, name)
	}
	return "", fmt.Errorf("{{%s %s}}: no such directive; known are q, of, page, term, code and the page's own", d.verb, d.argument)
}

// itemOf shows an item of a lesson's demo: "{{of sweep tilt-x}}".
func (s *surroundings) itemOf(d directive) (string, error) {
	slug, name, _ := strings.Cut(d.argument, " ")
	w, err := s.lesson(slug)
	if err != nil {
		return "", err
	}
	item := w.sheet.Find(strings.TrimSpace(name))
	if item == nil {
		return "", fmt.Errorf("the lesson %s has no item %q", slug, name)
	}
	if d.block {
		tag := render.Tag(item.Kind())
		return "<" + tag + ` class="item ` + item.Kind() + `">` + render.Block(item) + "</" + tag + ">", nil
	}
	if f, ok := item.(notebook.Figure); ok && f.Unknown == "" {
		return render.Quantity(f.Value, true), nil
	}
	return render.Inline(item), nil
}

// link returns a link to a lesson or to a page around the lessons: "slug",
// "slug#place", each with "|words".
func (s *surroundings) link(argument string) (string, error) {
	target, words, _ := strings.Cut(argument, "|")
	slug, place, hasPlace := strings.Cut(strings.TrimSpace(target), "#")
	words = strings.TrimSpace(words)
	title := findPage(slug).Title
	if w, err := s.lesson(slug); err == nil {
		title = w.Title
	}
	if title == "" {
		return "", fmt.Errorf("no lesson and no page is called %q", slug)
	}
	if words == "" {
		words = title
	}
	address := "../" + slug + "/index.html"
	if hasPlace {
		address += "#" + place
	}
	return `<a href="` + html.EscapeString(address) + `">` + html.EscapeString(words) + "</a>", nil
}

// shopUnits are the units that {{q ...}} takes, with the pair that shows them.
var shopUnits = []struct {
	unit notebook.Unit
	pair notebook.Pair
}{
	{notebook.MicrometrePerMetre, notebook.Slopes}, {notebook.Micrometre, notebook.FineLengths}, {notebook.Millimetre, notebook.Lengths},
	{notebook.AmperePerDM2, notebook.CurrentDensities}, {notebook.SquareCentimetre, notebook.Areas}, {notebook.Celsius, notebook.Temperatures},
	{notebook.Litre, notebook.Volumes}, {notebook.Thou, notebook.FineLengths},
}

// shopQuantity reads "0.02 mm" and returns it as both systems show it, to the
// digits that were written.
func shopQuantity(text string) (notebook.Quantity, error) {
	number, symbol, _ := strings.Cut(strings.TrimSpace(text), " ")
	var value float64
	if _, err := fmt.Sscanf(number, "%g", &value); err != nil {
		return notebook.Quantity{}, fmt.Errorf("{{q %s}}: %q is not a number", text, number)
	}
	digits := len(strings.TrimLeft(strings.ReplaceAll(strings.TrimLeft(number, "-+"), ".", ""), "0"))
	for _, u := range shopUnits {
		if u.unit.Symbol == strings.TrimSpace(symbol) {
			return notebook.Exact(u.unit.ToSI(value), u.pair).WithDigits(max(digits, 2)), nil
		}
	}
	return notebook.Quantity{}, fmt.Errorf("{{q %s}}: the unit %q is not one of these pages'", text, symbol)
}
