package book

import (
	"bytes"
	"encoding/json"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/notebook"
)

// lessonInput is a book of one lesson with the given prose and items.
func lessonInput(prose string, items ...notebook.Item) Input {
	about := notebook.About{Slug: "one", Title: "One & only", Question: "What?", Asked: "I <ask>", Track: notebook.Ways, Summary: "Sum.", Minutes: 3}
	lesson := notebook.NewLesson(about, func() struct{} { return struct{}{} },
		func(*struct{}) []notebook.Field { return nil },
		func(struct{}) (*notebook.Sheet, error) { return &notebook.Sheet{Items: items}, nil })
	return Input{Lessons: []notebook.Lesson{lesson},
		Module: fstest.MapFS{"examples/one/lesson.md": {Data: []byte(prose)}},
		Assets: fstest.MapFS{"site.css": {Data: []byte("body{}")}}}
}

func figure(name string) notebook.Figure {
	return notebook.Figure{Name: name, Label: "Tilt", Value: notebook.Of(-238e-6, 8e-6, notebook.Slopes)}
}

func TestMakeRefuses(t *testing.T) {
	good := notebook.CheckRow("agrees", "slope-thou-per-foot", 83.3333333)
	bad := notebook.CheckRow("agrees", "slope-thou-per-foot", 83)
	tests := []struct {
		name  string
		input Input
		want  string
	}{
		{"an item named and not made", lessonInput("one\n\n{{tlit}}\n\n{{tilt}}", figure("tilt")),
			`examples/one/lesson.md:3: the sheet has no item "tlit"; did you mean tilt?`},
		{"an item made and not shown", lessonInput("one", figure("tilt")), `the figure "tilt" is made and never shown`},
		{"a check outside its tolerance", lessonInput("\n{{agrees}}", bad), `examples/one/lesson.md:2: check "agrees" fails: computed 83`},
		{"a check without a row", lessonInput("{{agrees}}", notebook.CheckRow("agrees", "none", 1)), `check "agrees" fails`},
		{"two equal names", lessonInput("{{tilt}}", figure("tilt"), figure("tilt")), `two items are called "tilt"`},
		{"an unknown directive", lessonInput("{{paint blue}}"), `lesson.md:1: {{paint blue}}: no such directive`},
		{"an unknown lesson", lessonInput("{{page two}}"), `no lesson is called "two"`},
		{"unknown code", lessonInput("{{code Nothing}}"), `examples/one/lesson.md:1: no declaration called Nothing`},
		{"an unknown formula", lessonInput("{{math nothing}}"), `no formula "nothing"`},
		{"no prose", Input{Lessons: lessonInput("").Lessons, Module: fstest.MapFS{}, Assets: fstest.MapFS{}}, "has no prose"},
	}
	if _, err := Make(lessonInput("{{agrees}}", good)); err != nil {
		t.Fatalf("a right lesson is refused: %v", err)
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			book, err := Make(test.input)
			if book != nil || err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("Make gave %v, %v, want %q", book, err, test.want)
			}
		})
	}
}

func TestLessonsAreReadInTheOrderTaught(t *testing.T) {
	lesson := func(slug string, after ...string) notebook.Lesson {
		return notebook.Lesson{About: notebook.About{Slug: slug, After: after}}
	}
	if problems := checkAfter([]notebook.Lesson{lesson("one"), lesson("two", "one"), lesson("three", "one", "two")}); len(problems) > 0 {
		t.Errorf("a right order is refused: %v", problems)
	}
	for name, lessons := range map[string][]notebook.Lesson{
		"a lesson that is not there": {lesson("one", "none")},
		"one taught later":           {lesson("one", "two"), lesson("two")},
		"itself":                     {lesson("one", "one")},
	} {
		if problems := checkAfter(lessons); len(problems) != 1 {
			t.Errorf("%s gives %v, want one problem", name, problems)
		}
	}
}

func TestMakeWritesThePages(t *testing.T) {
	book, err := Make(lessonInput("Lead.\n\n## Answer\n\n{{tilt}}\n\nIt is {{tilt}}.", figure("tilt")))
	if err != nil {
		t.Fatal(err)
	}
	page := string(book.Files["one/index.html"])
	for _, want := range []string{
		"<title>One &amp; only · Thouspan</title>",
		`<section class="part part-answer">`,
		`<div id="item-tilt" class="item figure" data-item="tilt" data-shape="block">`,
		`<span class="in-line" data-item="tilt" data-shape="inline">`,
		`<span class="metric">−238`, `<span class="inch">−2.86`,
		"connect-src &#39;none&#39;",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if home := string(book.Files["index.html"]); !strings.Contains(home, "I &lt;ask&gt;") || strings.Contains(home, "I <ask>") {
		t.Error("the home page does not show the lesson's question as text")
	}
	for _, name := range []string{"checks.json", "lessons.json"} {
		if !json.Valid(book.Files[name]) {
			t.Errorf("%s is not JSON", name)
		}
	}
}

var (
	linkTarget = regexp.MustCompile(`(?:href|src|content)="([^"#:]+\.(?:html|css|js|svg))(?:#[^"]*)?"`)
	linkPlace  = regexp.MustCompile(`href="([^"#:]*)#([^"]+)"`)
	idAttr     = regexp.MustCompile(`\sid="([^"]+)"`)
)

func wholeBookErr() (*Book, error) {
	return Make(Input{Lessons: examples.Lessons(), Module: os.DirFS("../.."), Assets: os.DirFS("../assets")})
}

// sharedBook is the real book, made once for the tests that only read it.
var sharedBook = sync.OnceValues(wholeBookErr)

func theBook(t testing.TB) *Book {
	t.Helper()
	book, err := sharedBook()
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// wholeBook makes the real book, charts left out.
func wholeBook(t testing.TB) *Book {
	t.Helper()
	book, err := wholeBookErr()
	if err != nil {
		t.Fatal(err)
	}
	return book
}

func TestWholeBookHasNoBrokenLinksAndNoEqualIDs(t *testing.T) {
	book := theBook(t)
	for name, data := range book.Files {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		for _, m := range linkTarget.FindAllSubmatch(data, -1) {
			target := join(name, string(m[1]))
			if _, ok := book.Files[target]; !ok {
				t.Errorf("%s leads to %s, which is not there", name, target)
			}
		}
		for _, m := range linkPlace.FindAllSubmatch(data, -1) {
			target := name
			if len(m[1]) > 0 {
				target = join(name, string(m[1]))
			}
			if !bytes.Contains(book.Files[target], []byte(`id="`+string(m[2])+`"`)) {
				t.Errorf("%s leads to %s#%s, a place that is not there", name, target, m[2])
			}
		}
		seen := map[string]bool{}
		for _, m := range idAttr.FindAllSubmatch(data, -1) {
			if id := string(m[1]); seen[id] {
				t.Errorf("%s has the id %q twice", name, id)
			} else {
				seen[id] = true
			}
		}
	}
}

// join returns the path that a relative link leads to.
func join(page, link string) string {
	dir := ""
	if i := strings.LastIndexByte(page, '/'); i >= 0 {
		dir = page[:i]
	}
	for strings.HasPrefix(link, "../") {
		link, dir = link[3:], ""
	}
	if dir == "" {
		return link
	}
	return dir + "/" + link
}

func TestTwoBooksAreEqual(t *testing.T) {
	if testing.Short() {
		t.Skip("makes the book a second time; skipped with -short")
	}
	one, two := theBook(t), wholeBook(t)
	if len(one.Files) != len(two.Files) {
		t.Fatalf("%d files and %d files", len(one.Files), len(two.Files))
	}
	for name, data := range one.Files {
		if !bytes.Equal(data, two.Files[name]) {
			t.Errorf("%s differs between two runs", name)
		}
	}
}

func BenchmarkMake(b *testing.B) {
	for b.Loop() {
		wholeBook(b)
	}
}
