package book

// The glossary is one Markdown file: a heading of the second level for each
// term, a line "forms:" with the other words that mean it, then what it means.
// Each term is linked from its first use on every lesson's page; "forms: none"
// keeps a term whose word has plainer uses from being linked, and "forms: only"
// links the listed words alone.

import (
	"bytes"
	"fmt"
	"html"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"sort"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// term is one entry of the glossary.
type term struct {
	// Name is its heading, ID its place on the page.
	Name, ID string
	// Forms are the words, in lower case, that are linked to it.
	Forms []string
	// Also are words under which it is found.
	Also   []string
	source []byte
	line   int
}

const glossaryFile = pagesDir + "/glossary.md"

// loadTerms reads the glossary; none when the module has no pages around the
// lessons.
func (in Input) loadTerms() ([]term, error) {
	if !in.hasPages() {
		return nil, nil
	}
	source, err := fs.ReadFile(in.Module, glossaryFile)
	if err != nil {
		return nil, err
	}
	return parseTerms(source)
}

// parseTerms reads the entries of a glossary, in order of name.
func parseTerms(source []byte) ([]term, error) {
	var terms []term
	seen := map[string]int{}
	line := 1
	for i, block := range bytes.Split(source, []byte("\n## ")) {
		at := line
		line += bytes.Count(block, []byte("\n")) + 1
		if i == 0 {
			continue // what stands before the first term
		}
		t, err := parseTerm(string(block), at)
		if err != nil {
			return nil, sourceError{glossaryFile, at, err}
		}
		for _, form := range t.Forms {
			if before, ok := seen[form]; ok {
				return nil, sourceError{glossaryFile, at, fmt.Errorf("%q means two things: see line %d", form, before)}
			}
			seen[form] = at
		}
		terms = append(terms, t)
	}
	sort.SliceStable(terms, func(i, j int) bool { return strings.ToLower(terms[i].Name) < strings.ToLower(terms[j].Name) })
	return terms, nil
}

// parseTerm reads one entry: its name, its lines "forms:" and "also:", and its
// meaning.
func parseTerm(block string, line int) (term, error) {
	name, rest, _ := strings.Cut(block, "\n")
	t := term{Name: strings.TrimSpace(name), line: line}
	t.ID = termID(t.Name)
	linked := true
	for {
		head, below, _ := strings.Cut(strings.TrimLeft(rest, "\n"), "\n")
		list, isForms := strings.CutPrefix(head, "forms:")
		also, isAlso := strings.CutPrefix(head, "also:")
		switch {
		case isForms && strings.TrimSpace(list) == "none":
			linked = false
		case isForms && strings.HasPrefix(strings.TrimSpace(list), "only "):
			linked = false
			t.Forms = append(t.Forms, words(strings.TrimPrefix(strings.TrimSpace(list), "only "))...)
		case isForms:
			t.Forms = append(t.Forms, words(list)...)
		case isAlso:
			t.Also = append(t.Also, words(also)...)
		default:
			t.source = []byte(strings.TrimSpace(rest))
			if len(t.source) == 0 || t.Name == "" {
				return t, fmt.Errorf("the term %q has no meaning", t.Name)
			}
			if linked {
				t.Forms = append([]string{strings.ToLower(t.Name), strings.ToLower(t.Name) + "s"}, t.Forms...)
				sort.Strings(t.Forms)
				t.Forms = slices.Compact(t.Forms)
			}
			return t, nil
		}
		rest = below
	}
}

// words splits a list at its commas.
func words(list string) []string {
	var out []string
	for _, word := range strings.Split(list, ",") {
		if word = strings.ToLower(strings.TrimSpace(word)); word != "" {
			out = append(out, word)
		}
	}
	return out
}

var notInID = regexp.MustCompile(`[^a-z0-9]+`)

// termID returns a term's place on the page.
func termID(name string) string {
	return strings.Trim(notInID.ReplaceAllString(strings.ToLower(name), "-"), "-")
}

// termMatcher finds the terms in words.
type termMatcher struct {
	pattern *regexp.Regexp
	byForm  map[string]string // a term's place by each of its forms
}

// newTermMatcher returns what finds the terms, the longest form first; nil when
// there are none.
func newTermMatcher(terms []term) *termMatcher {
	m := &termMatcher{byForm: map[string]string{}}
	var forms []string
	for _, t := range terms {
		for _, form := range t.Forms {
			m.byForm[form] = t.ID
			forms = append(forms, form)
		}
	}
	if len(forms) == 0 {
		return nil
	}
	sort.Slice(forms, func(i, j int) bool {
		return len(forms[i]) > len(forms[j]) || len(forms[i]) == len(forms[j]) && forms[i] < forms[j]
	})
	for i, form := range forms {
		forms[i] = regexp.QuoteMeta(form)
	}
	m.pattern = regexp.MustCompile(`(?i)\b(?:` + strings.Join(forms, "|") + `)\b`)
	return m
}

// termLinker links each term at its first use on one page.
type termLinker struct {
	*termMatcher
	// used are the places of the terms linked so far, in order.
	used []string
	seen map[string]bool
}

// Transform links the terms in running text: not in headings, code, quotations
// in bold, links or directives.
func (l *termLinker) Transform(doc *ast.Document, reader text.Reader, _ parser.Context) {
	var found []*ast.Text
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *ast.Heading, *ast.CodeSpan, *ast.Link, *ast.AutoLink, *ast.Emphasis, *ast.CodeBlock, *ast.FencedCodeBlock:
			return ast.WalkSkipChildren, nil
		case *ast.Text:
			if entering {
				found = append(found, n)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, n := range found {
		l.link(n, reader.Source())
	}
}

// link links the terms first used in one run of text.
func (l *termLinker) link(n *ast.Text, source []byte) {
	start, end := n.Segment.Start, n.Segment.Stop
	parent := n.Parent()
	at := start
	for _, m := range l.pattern.FindAllIndex(source[start:end], -1) {
		from, to := start+m[0], start+m[1]
		place := l.byForm[strings.ToLower(string(source[from:to]))]
		if l.seen[place] || hyphened(source, from, to) {
			continue
		}
		l.seen[place] = true
		l.used = append(l.used, place)
		if from > at {
			parent.InsertBefore(parent, n, ast.NewTextSegment(text.NewSegment(at, from)))
		}
		link := ast.NewLink()
		link.Destination = []byte("../glossary/index.html#" + place)
		link.SetAttributeString("class", []byte("term"))
		link.AppendChild(link, ast.NewTextSegment(text.NewSegment(from, to)))
		parent.InsertBefore(parent, n, link)
		at = to
	}
	n.Segment = text.NewSegment(at, end)
}

// hyphened reports whether the word is only a part of a hyphened one.
func hyphened(source []byte, from, to int) bool {
	return from > 0 && source[from-1] == '-' || to < len(source) && source[to] == '-'
}

// glossary returns the inside of the glossary's page.
func (s *surroundings) glossary() (string, error) {
	var b strings.Builder
	letter := ""
	letters := ""
	var body strings.Builder
	for _, t := range s.terms {
		if first := strings.ToUpper(t.Name[:1]); first != letter {
			if letter != "" {
				body.WriteString("</dl>\n")
			}
			letter = first
			letters += `<a href="#letter-` + strings.ToLower(letter) + `">` + letter + "</a> "
			body.WriteString(`<h2 id="letter-` + strings.ToLower(letter) + `">` + letter + "</h2>\n<dl>\n")
		}
		meaning, err := s.meaning(t)
		if err != nil {
			return "", err
		}
		s.meanings[t.ID] = meaning
		body.WriteString(`<dt id="` + t.ID + `">` + html.EscapeString(t.Name) + "</dt>\n<dd>" + meaning + s.usedIn(t) + "</dd>\n")
	}
	b.WriteString(`<nav class="letters" aria-label="Letters">` + letters + "</nav>\n" + body.String() + "</dl>\n")
	return b.String(), nil
}

// meaning returns a term's meaning as HTML.
func (s *surroundings) meaning(t term) (string, error) {
	body, err := s.markdownText(t.source, path.Base(glossaryFile), nil)
	if err != nil {
		return "", fmt.Errorf("%s:%d: the term %q: %w", glossaryFile, t.line, t.Name, err)
	}
	return body, nil
}

// usedIn returns the links to the lessons that use the term.
func (s *surroundings) usedIn(t term) string {
	var links []string
	for _, w := range s.worked {
		for _, place := range w.terms {
			if place == t.ID {
				links = append(links, `<a href="../`+w.Slug+`/index.html">`+html.EscapeString(w.Title)+"</a>")
			}
		}
	}
	if len(links) == 0 {
		return ""
	}
	return `<p class="used-in">In ` + strings.Join(links, ", ") + "</p>\n"
}

// termLink returns a link to a term: "name" or "name|words".
func (s *surroundings) termLink(argument string) (string, error) {
	name, shown, _ := strings.Cut(argument, "|")
	if shown = strings.TrimSpace(shown); shown == "" {
		shown = strings.TrimSpace(name)
	}
	for _, t := range s.terms {
		if t.ID == termID(name) {
			return `<a class="term" href="../glossary/index.html#` + t.ID + `">` + html.EscapeString(shown) + "</a>", nil
		}
	}
	return "", fmt.Errorf("the glossary has no term %q", name)
}
