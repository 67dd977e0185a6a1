package book

import (
	"fmt"
	"html"
	"html/template"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"io/fs"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
	"github.com/yuin/goldmark/parser"
)

// chartWidth is the width, in CSS pixels, at which charts are drawn into the
// page; the SVG scales from there.
const chartWidth = 680

// workedLesson is a lesson worked on its demo and its prose as HTML.
type workedLesson struct {
	notebook.Lesson
	sheet *notebook.Sheet
	body  string
	// formulas are the lesson's formulas in the order of their file.
	formulas []Formula
	// options are the options of the page's charts for the browser.
	options *chartOptions
	// shown are the places on the page of the items and formulas shown there.
	shown map[string]bool
	// terms are the places of the glossary's terms that the page uses.
	terms []string
}

// work works one lesson and turns its prose into HTML, in which the terms that
// the matcher finds are linked.
func (in Input) work(lesson notebook.Lesson, terms *termMatcher) (workedLesson, []error) {
	w := workedLesson{Lesson: lesson}
	dir := path.Join("examples", lesson.Slug)
	file := path.Join(dir, "lesson.md")
	demo := in.Demo
	if demo == nil {
		demo = notebook.Lesson.Demo
	}
	sheet, err := demo(lesson)
	if err != nil {
		return w, []error{fmt.Errorf("%s/lesson.go: %w", dir, err)}
	}
	w.sheet = sheet
	source, err := fs.ReadFile(in.Module, file)
	if err != nil {
		return w, []error{fmt.Errorf("book: the lesson %s has no prose: %w", lesson.Slug, err)}
	}
	if w.formulas, err = LoadFormulas(in.Module, dir); err != nil {
		return w, []error{err}
	}
	w.shown = map[string]bool{}
	page := &lessonProse{in: in, lesson: lesson, sheet: sheet, dir: dir, formulas: w.formulas, shownAt: map[string]int{}, places: w.shown,
		options: &chartOptions{}}
	var links []parser.ASTTransformer
	linker := &termLinker{termMatcher: terms, seen: map[string]bool{}}
	if terms != nil {
		links = append(links, linker)
	}
	body, problems := prose(source, file, page.resolve, links...)
	w.body, w.terms, w.options = body, linker.used, page.options
	return w, append(problems, page.leftOver(file)...)
}

// lessonProse resolves the directives of one lesson.
type lessonProse struct {
	in       Input
	lesson   notebook.Lesson
	sheet    *notebook.Sheet
	dir      string
	formulas []Formula
	// places are those on the page to which other pages can link.
	places map[string]bool
	// shownAt holds the line at which each item is first shown.
	shownAt map[string]int
	// options gathers the charts' options.
	options *chartOptions
}

// resolve returns the HTML of one directive.
func (p *lessonProse) resolve(d directive) (string, error) {
	switch d.verb {
	case "form":
		if d.argument == "" {
			return render.Form(p.lesson), nil
		}
	case "math":
		return p.formula(d)
	case "code":
		return p.code(d.argument)
	case "page":
		return p.link(d.argument)
	}
	if d.argument != "" {
		return "", fmt.Errorf("{{%s %s}}: no such directive; known are form, math, code, page and the items' names", d.verb, d.argument)
	}
	return p.item(d)
}

// item shows an item of the sheet.
func (p *lessonProse) item(d directive) (string, error) {
	item := p.sheet.Find(d.verb)
	if item == nil {
		return "", fmt.Errorf("the sheet has no item %q%s", d.verb, p.didYouMean(d.verb))
	}
	if check, ok := item.(notebook.Check); ok && !check.Pass() {
		return "", fmt.Errorf("check %q fails: computed %v, published %v %s, accepted within %v (%s)", d.verb,
			check.Computed, check.Row.Value, check.Row.Unit, check.Row.Tolerance, check.Row.Source)
	}
	if _, before := p.shownAt[d.verb]; !before {
		p.shownAt[d.verb] = d.line
	}
	if !d.block {
		return render.WrappedInline(item), nil
	}
	if chart, ok := item.(notebook.Chart); ok {
		shown, err := p.chart(chart)
		return p.place("item-"+d.verb, shown), err
	}
	return p.place("item-"+d.verb, render.Wrapped(item)) + render.DrillPlace(p.lesson, d.verb), nil
}

// chart shows a chart: its plot as SVG, its caption and its numbers. Its options
// for the browser go into a file of their own.
func (p *lessonProse) chart(c notebook.Chart) (string, error) {
	height := c.Height
	if height == 0 {
		height = 320
	}
	plot, hidden := "", ""
	if c.Unknown != "" {
		hidden = " hidden"
	} else if p.in.Charts != nil {
		option, err := c.Option(notebook.Metric)
		if err != nil {
			return "", fmt.Errorf("chart %q: %w", c.Name, err)
		}
		svg, err := p.in.Charts(p.lesson.Slug+"-"+c.Name, option, chartWidth, height)
		if err != nil {
			return "", fmt.Errorf("chart %q: %w", c.Name, err)
		}
		plot = svg
	}
	if err := p.options.add(c); err != nil {
		return "", err
	}
	inside := render.Block(c)
	if plot == "" {
		inside = strings.Replace(inside, `<details class="data">`, `<details class="data" open>`, 1)
	}
	return `<figure class="item chart" data-item="` + html.EscapeString(c.Name) + `" data-shape="block">` +
		`<div class="plot" data-height="` + strconv.Itoa(height) + `"` + hidden + `>` + plot + "</div>" +
		inside + "</figure>", nil
}

func (p *lessonProse) didYouMean(name string) string {
	names := make([]string, len(p.sheet.Items))
	for i, item := range p.sheet.Items {
		names[i] = item.ItemName()
	}
	near := notebook.Nearest(name, names)
	if len(near) == 0 {
		return ""
	}
	return "; did you mean " + strings.Join(near, ", ") + "?"
}

func (p *lessonProse) formula(d directive) (string, error) {
	for _, f := range p.formulas {
		if f.Name != d.argument {
			continue
		}
		if d.block {
			return p.place(formulaPlace(f.Name), `<div class="formula" tabindex="0" role="group" aria-label="formula">`+f.Block+"</div>"), nil
		}
		return p.place(formulaPlace(f.Name), f.Inline), nil
	}
	return "", fmt.Errorf("formulas.tex has no formula %q", d.argument)
}

// place gives the first element of the HTML a place on the page to which other
// pages can link, the first time that it is shown.
func (p *lessonProse) place(id, html string) string {
	if p.places[id] {
		return html
	}
	p.places[id] = true
	tag := strings.IndexAny(html, " >")
	if tag < 0 {
		return html
	}
	return html[:tag] + ` id="` + id + `"` + html[tag:]
}

// code shows a declaration, of the lesson's own package or of one named.
func (p *lessonProse) code(argument string) (string, error) {
	dir, name := p.dir, argument
	if pkg, rest, ok := strings.Cut(argument, "."); ok && isPackage(pkg) {
		dir, name = pkg, rest
	}
	return p.in.showCode(dir, name)
}

// showCode shows the declaration called name from the files of a folder.
func (in Input) showCode(dir, name string) (string, error) {
	cut, err := cutCode(in.Module, dir, name)
	if err != nil {
		return "", err
	}
	return codeFigure(cut.file, cut.text)
}

// codeFigure shows Go code under the name of its file.
func codeFigure(file, text string) (string, error) {
	coloured, err := highlight(text)
	if err != nil {
		return "", err
	}
	return `<figure class="code"><figcaption>` + html.EscapeString(file) + `</figcaption><pre class="chroma" tabindex="0"><code>` +
		coloured + "</code></pre></figure>", nil
}

// isPackage reports whether the name is one of the packages that lessons show.
func isPackage(name string) bool {
	return name == "squaring" || name == "wear" || name == "plating"
}

// link returns a link to another lesson: "slug" or "slug|words".
func (p *lessonProse) link(argument string) (string, error) {
	slug, words, _ := strings.Cut(argument, "|")
	for _, l := range p.in.Lessons {
		if l.Slug == strings.TrimSpace(slug) {
			if words = strings.TrimSpace(words); words == "" {
				words = l.Title
			}
			return `<a href="../` + l.Slug + `/index.html">` + html.EscapeString(words) + "</a>", nil
		}
	}
	return "", fmt.Errorf("no lesson is called %q", slug)
}

// leftOver returns the items that were made and are not shown.
func (p *lessonProse) leftOver(file string) []error {
	var problems []error
	for _, item := range p.sheet.Items {
		if _, shown := p.shownAt[item.ItemName()]; !shown {
			problems = append(problems, sourceError{file, 1,
				fmt.Errorf("the %s %q is made and never shown", item.Kind(), item.ItemName())})
		}
	}
	return problems
}

// part is one section of a lesson's page.
type part struct {
	ID, Title string
	HTML      template.HTML
}

// heading matches a second-level heading that a line is made of. It is tried
// only where one begins: looked for in the whole of a body, past its pictures,
// the pattern takes a quarter of the time of a page.
var heading = regexp.MustCompile(`^<h2 id="([^"]+)">(.*)</h2>(?:\n|$)`)

// parts splits a lesson's body at its second-level headings. What stands
// before the first has no title.
func parts(body string) []part {
	var list []part
	open, from := part{}, 0
	for at := 0; at < len(body); {
		if m := headingAt(body[at:]); m != nil {
			if at > 0 {
				open.HTML = template.HTML(body[from:at])
				list = append(list, open)
			}
			open, from = part{ID: m[1], Title: html.UnescapeString(m[2])}, at
		}
		line := strings.IndexByte(body[at:], '\n')
		if line < 0 {
			break
		}
		at += line + 1
	}
	open.HTML = template.HTML(body[from:])
	return append(list, open)
}

// headingAt returns the match of a heading at the text's start, or nil.
func headingAt(text string) []string {
	if !strings.HasPrefix(text, "<h2 ") {
		return nil
	}
	return heading.FindStringSubmatch(text)
}

// lessonPage returns the page of the i-th worked lesson.
func (in Input) lessonPage(worked []workedLesson, i int) ([]byte, error) {
	w := worked[i]
	data := lessonData{About: w.About, Number: i + 1, Of: len(worked), Parts: parts(w.body)}
	for j := range data.Parts {
		if data.Parts[j].ID == "checks" {
			data.Parts[j].HTML += in.checkSources(w)
		}
	}
	if i > 0 {
		data.Previous = &worked[i-1].About
	}
	if i+1 < len(worked) {
		data.Next = &worked[i+1].About
	}
	for _, before := range worked[:i] {
		if slices.Contains(w.After, before.Slug) {
			data.Before = append(data.Before, before.About)
		}
	}
	frame := frameData{Title: w.Title, Description: w.Summary, Root: "../", Body: "lesson", Data: data}
	if in.Charts != nil && len(w.options.list) > 0 {
		frame.ChartOptions = optionsFile
	}
	return in.frame(frame)
}

// checkAfter returns what is wrong with the lessons that are to be read before
// others: each must be there, and be taught before.
func checkAfter(lessons []notebook.Lesson) []error {
	var problems []error
	taught := map[string]bool{}
	for _, l := range lessons {
		for _, slug := range l.After {
			if !taught[slug] {
				problems = append(problems, fmt.Errorf("book: the lesson %s is to be read after %q, which is not taught before it", l.Slug, slug))
			}
		}
		taught[l.Slug] = true
	}
	return problems
}

// lessonData fills the lesson's template.
type lessonData struct {
	notebook.About
	Number, Of     int
	Parts          []part
	Previous, Next *notebook.About
	// Before are the lessons to read before this one.
	Before []notebook.About
}
