package book

// The search: an index made when the site is built, kept in one classic script
// that a page loads when somebody searches, so that it also works from a disk.
// assets/find.js reads it.
//
// A document is a thing that can be found: a lesson, a section of one, a term,
// a formula, a page. Words are kept with the documents that hold them, each with
// a weight: what stands in a title weighs most, then questions and terms, then
// headings and the titles of items, then prose.

import (
	"encoding/json"
	"fmt"
	"html"
	"math"
	"regexp"
	"sort"
	"strconv"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// found is one document of the index.
type found struct {
	kind, address, title, where, excerpt string
	weights                              map[string]float64
}

// The weights of a word by where it stands. Prose gets one and the logarithm of
// how often, up to proseMost.
const (
	titleWeight   = 14
	askedWeight   = 8
	headingWeight = 6
	itemWeight    = 4
	alsoWeight    = 9
	proseMost     = 4
	weightMost    = 25
	shortestWord  = 2
	excerptLength = 110
)

// stopWords are too common to find anything.
var stopWords = strings.Fields("a an and are as at be been but by can did do does for from had has have how i if in into is it its no not of on one or so than that the then there they this to up was what when where which who why will with you your")

var wordPattern = regexp.MustCompile(`[\p{L}\p{N}]+(?:['’-][\p{L}\p{N}]+)*`)

// searchWords returns the words of a text as they are indexed: lower case,
// hyphened words whole and in parts, without stop words and bare numbers.
func searchWords(text string) []string {
	var list []string
	take := func(word string) {
		if len(word) < shortestWord || strings.Trim(word, "0123456789") == "" {
			return
		}
		i := sort.SearchStrings(stopWords, word)
		if i < len(stopWords) && stopWords[i] == word {
			return
		}
		list = append(list, word)
	}
	for _, word := range wordPattern.FindAllString(strings.ToLower(text), -1) {
		word = strings.ReplaceAll(strings.ReplaceAll(word, "’s", ""), "'s", "")
		take(strings.ReplaceAll(word, "-", ""))
		if strings.Contains(word, "-") {
			for _, part := range strings.Split(word, "-") {
				take(part)
			}
		}
	}
	return list
}

// add counts the words of a text with a weight.
func (f *found) add(text string, weight float64) {
	for _, word := range searchWords(text) {
		f.weights[word] = math.Max(f.weights[word], weight)
	}
}

// addProse counts the words of prose by how often they stand there.
func (f *found) addProse(text string) {
	counts := map[string]int{}
	for _, word := range searchWords(text) {
		counts[word]++
	}
	for word, n := range counts {
		f.weights[word] += math.Min(1+math.Log2(float64(n)), proseMost)
	}
}

func newFound(kind, address, title, where, excerpt string) *found {
	f := &found{kind: kind, address: address, title: title, where: where, excerpt: shorten(excerpt), weights: map[string]float64{}}
	f.add(title, titleWeight)
	return f
}

// shorten cuts a text at a word, for the line below a result.
func shorten(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	runes := []rune(text)
	if len(runes) <= excerptLength {
		return text
	}
	cut := string(runes[:excerptLength])
	if i := strings.LastIndexByte(cut, ' '); i > 0 {
		cut = cut[:i]
	}
	return cut + " …"
}

// blocks hold no running text.
var blocks = [][2]string{{"<svg", "</svg>"}, {"<script", "</script>"}, {"<form", "</form>"}, {"<math", "</math>"},
	{`<figure class="code">`, "</figure>"}, {"<table", "</table>"}, {"<pre", "</pre>"}}

var (
	inchOrHead = regexp.MustCompile(`<span class="inch">(?:[^<]|</?[bi]>|<span class="u">(?:[^<]|</?i>)*</span>)*</span>|<h[1-3][^>]*>[^\n]*</h[1-3]>`)
	anyTag     = regexp.MustCompile(`<[^>]*>`)
	subHead    = regexp.MustCompile(`<h3[^>]*>(.*?)</h3>`)
)

// plainText returns the running text of some HTML.
func plainText(body string) string {
	for _, block := range blocks {
		body = without(body, block[0], block[1])
	}
	body = inchOrHead.ReplaceAllString(body, " ")
	return html.UnescapeString(anyTag.ReplaceAllString(body, " "))
}

// without cuts from each start to the next end.
func without(text, start, end string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, start)
		b.WriteString(before)
		if !found {
			return b.String()
		}
		_, text, _ = strings.Cut(rest, end)
		b.WriteByte(' ')
	}
}

// sectionsSkipped are parts of a lesson that hold nothing to look for.
var sectionsSkipped = map[string]bool{"code": true, "checks": true, "readings": true}

// documents returns everything that can be found.
func (s *surroundings) documents() []*found {
	var docs []*found
	matcher := newTermMatcher(s.terms)
	for _, w := range s.worked {
		list := lessonDocuments(w)
		list[0].add(s.otherWords(matcher, w.About), headingWeight)
		docs = append(docs, list...)
	}
	for _, t := range s.terms {
		meaning := strings.TrimSpace(plainText(s.meanings[t.ID]))
		d := newFound("term", "glossary/index.html#"+t.ID, t.Name, "Glossary", meaning)
		d.add(strings.Join(t.Forms, " "), titleWeight)
		d.add(strings.Join(t.Also, " "), alsoWeight)
		d.addProse(meaning)
		docs = append(docs, d)
	}
	for _, p := range around {
		d := newFound("page", p.Slug+"/index.html", p.Title, "", p.Says)
		d.add(p.Short+" "+p.Says, askedWeight)
		docs = append(docs, d)
		if p.Slug == "story" || p.Slug == "notation" || p.Slug == "programmers" {
			docs = append(docs, sectionDocuments(s.inside[p.Slug], p.Slug, p.Title, nil)...)
		}
	}
	return docs
}

// otherWords returns what the trade also calls the things that a lesson's title
// and question are about: a question about a sweep is found by "tram".
func (s *surroundings) otherWords(matcher *termMatcher, about notebook.About) string {
	if matcher == nil {
		return ""
	}
	var list []string
	for _, word := range matcher.pattern.FindAllString(about.Title+". "+about.Asked+". "+about.Question, -1) {
		for _, t := range s.terms {
			if t.ID == matcher.byForm[strings.ToLower(word)] {
				list = append(list, t.Also...)
			}
		}
	}
	return strings.Join(list, " ")
}

// lessonDocuments returns a lesson, its sections and its formulas.
func lessonDocuments(w workedLesson) []*found {
	address := w.Slug + "/index.html"
	whole := newFound("lesson", address, w.Title, string(w.Track), w.Question)
	whole.add(w.Question+" "+w.Asked, askedWeight)
	whole.add(w.Summary, headingWeight)
	items := map[string]string{}
	for _, item := range w.sheet.Items {
		items[item.ItemName()] = itemTitle(item)
	}
	docs := append([]*found{whole}, sectionDocuments(w.body, w.Slug, w.Title, items)...)
	for _, d := range docs[1:] { // what its sections say counts a little for the whole
		for word, weight := range d.weights {
			whole.weights[word] = math.Max(whole.weights[word], weight/2)
		}
	}
	for _, f := range w.formulas {
		if w.shown[formulaPlace(f.Name)] {
			d := newFound("formula", address+"#"+formulaPlace(f.Name), upperFirst(f.Spoken), w.Title, "")
			for word, weight := range d.weights {
				d.weights[word] = weight / 2 // a formula is said in a sentence, not named
			}
			docs = append(docs, d)
		}
	}
	return docs
}

var itemPlace = regexp.MustCompile(`data-item="([^"]+)"`)

// sectionDocuments returns the sections of a page; items are the titles of its
// items by name.
func sectionDocuments(body, slug, title string, items map[string]string) []*found {
	var docs []*found
	for _, p := range parts(body) {
		if p.ID == "" || sectionsSkipped[p.ID] {
			continue
		}
		text := string(p.HTML)
		prose := strings.TrimSpace(plainText(text))
		d := newFound("section", slug+"/index.html#"+p.ID, p.Title, title, prose)
		// Every lesson has the same headings; what tells them apart is the lesson.
		for word := range d.weights {
			d.weights[word] = headingWeight
		}
		d.add(title, itemWeight)
		for _, m := range subHead.FindAllStringSubmatch(text, -1) {
			d.add(html.UnescapeString(anyTag.ReplaceAllString(m[1], "")), headingWeight)
		}
		for _, m := range sayingStart.FindAllStringSubmatch(text, -1) {
			d.add(html.UnescapeString(m[1]), itemWeight)
		}
		for _, m := range itemPlace.FindAllStringSubmatch(text, -1) {
			d.add(items[m[1]], itemWeight)
		}
		d.addProse(prose)
		docs = append(docs, d)
	}
	return docs
}

// itemTitle is what an item is called on the page.
func itemTitle(item notebook.Item) string {
	switch item := item.(type) {
	case notebook.Figure:
		return item.Label
	case notebook.Table:
		return item.Title
	case notebook.Chart:
		return item.Title
	case notebook.Drawing:
		return item.Title
	}
	return ""
}

// findIndex is the index as the script holds it.
type findIndex struct {
	// Docs are [kind, address, title, where, excerpt].
	Docs [][5]string `json:"docs"`
	// Words are the words in order, one a line, each followed by its documents:
	// how far on the number of the document is, in base 36, then the weight as a
	// capital letter from A.
	Words string `json:"words"`
	// Same are groups of words of which one is as good as another.
	Same [][]string `json:"same"`
	Stop []string   `json:"stop"`
}

// index returns the script that holds the index.
func (s *surroundings) index() ([]byte, error) {
	made := findIndex{Same: sameWords, Stop: stopWords}
	words := map[string][]string{}
	last := map[string]int{}
	for n, d := range s.documents() {
		made.Docs = append(made.Docs, [5]string{d.kind, d.address, d.title, d.where, d.excerpt})
		for _, word := range sortedKeys(d.weights) {
			letter := string(rune('A' + int(math.Min(math.Round(d.weights[word]), weightMost))))
			words[word] = append(words[word], strconv.FormatInt(int64(n-last[word]), 36)+letter)
			last[word] = n
		}
	}
	var b strings.Builder
	for _, word := range sortedKeys(words) {
		b.WriteString(word + " " + strings.Join(words[word], "") + "\n")
	}
	made.Words = b.String()
	text, err := json.Marshal(made)
	if err != nil {
		return nil, err
	}
	return []byte("window.thouspan.findIndex = " + string(text) + ";\n"), nil
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	sort.Strings(keys)
	return keys
}

// sameWords are words that a shop uses for one another.
var sameWords = [][]string{
	{"tram", "tramming", "trammed", "square", "squareness", "perpendicular"},
	{"indicator", "dial", "clock", "dti", "gauge", "gage"},
	{"thou", "thousandth", "mil"},
	{"micron", "micrometre", "micrometer", "um", "µm"},
	{"head", "spindle"},
	{"nod", "fore", "aft"},
	{"vise", "vice", "jaw"},
	{"backlash", "play", "slop", "slack"},
	{"ways", "slideway", "slideways", "bedways", "guideway", "slides"},
	{"wear", "worn"},
	{"amps", "ampere", "current"},
	{"nickel", "plating", "plate", "electroplating"},
	{"burn", "burnt", "burning"},
	{"level", "bubble", "vial"},
	{"dro", "readout", "scales", "travel"},
	{"straightedge", "straight-edge", "ground", "bar"},
	{"hollow", "dish", "concave"},
	{"hole", "bore", "drill", "drilled", "reamed"},
	{"uncertainty", "doubt", "accuracy", "error"},
	{"unsure", "uncertain"},
	{"brittle", "embrittlement", "bake", "snap"},
	{"oil", "lubrication", "oiler"},
	{"calliper", "caliper"},
	{"metre", "meter"},
	{"sulfate", "sulphate"},
	{"millimetre", "millimeter", "mm"},
	{"inch", "inches", "imperial"},
	{"pit", "pits", "pitting", "pinholes"},
	{"peel", "peeling", "flake", "blister"},
	{"rebuild", "regrind", "rescrape"},
	{"temperature", "warm", "heat"},
	{"tolerance", "limit", "limits"},
	{"part", "workpiece", "job"},
}

// search returns the inside of the page of results. Without a script it holds
// what can be found as lists.
func (s *surroundings) search() (string, error) {
	var terms []string
	for _, t := range s.terms {
		terms = append(terms, `<a href="../glossary/index.html#`+t.ID+`">`+html.EscapeString(t.Name)+"</a>")
	}
	return fmt.Sprintf(`<div class="find-page" hidden></div>
<div class="without">
<p class="no-script">Searching needs the script of this page, and here it does not run. Below is everything that has a name.</p>
<h2 id="by-question">By the question you have</h2>
%s<h2 id="by-term">By the word</h2>
<p>%s</p>
</div>
`, s.byTrackList(func(w workedLesson) string {
		return `<a href="../` + w.Slug + `/index.html">` + html.EscapeString(w.Asked) + "</a>"
	}), strings.Join(terms, ", ")), nil
}
