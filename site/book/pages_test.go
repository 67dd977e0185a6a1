package book

import (
	"regexp"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/refdata"
)

// plain returns a page's text in metric units, spaces made one.
func plain(page []byte) string {
	text := anyTag.ReplaceAllString(string(page), " ")
	return strings.Join(strings.Fields(strings.NewReplacer("\u00a0", " ", "&#34;", `"`, "&nbsp;", " ").Replace(text)), " ")
}

func TestPagesHoldWhatTheyPromise(t *testing.T) {
	book := theBook(t)
	tests := []struct {
		page string
		want []string
	}{
		{"story", []string{"316 µm/m", "3.79 thou/ft", "twodials/index.html", "The front oil outlet is found", "dark rough corners (burnt)", "190 h"}},
		{"notation", []string{"The frame of the machine", "182 µm/m", "12 µm/m", "then u = −X"}},
		{"formulas", []string{"the tilt is the first difference", "../twodials/index.html#formula-tilt", "<math display=\"block\""}},
		{"sources", []string{"JCGM, JCGM 100, Guide to the expression of uncertainty in measurement (2008)", "From memory", "../checks/index.html#twodials-check-t"}},
		{"checks", []string{"../sources/index.html#source-jcgm-jcgm-100", "../twodials/index.html#item-check-t", `<table class="ledger-table">`}},
		{"wrong", []string{"It is out a thou.", "../twodials/index.html#what-people-get-wrong", "&ldquo;More pulls cure it.&rdquo;"}},
		{"programmers", []string{"17.1 minutes at 3 A/dm2", "MotionFromWays", "the tool is 35.5 um too high", `"lesson": "thousandth"`, "squaring: "}},
		{"search", []string{`class="find-page" hidden`, "It is out a thou", "glossary/index.html#sweep"}},
		{"wall-metric", []string{"0.01 mm over", ">33.3<", ">0.0100<"}},
		{"wall-inch", []string{"0.001 in over", ">83.3<", ">1.00<"}},
		{"twodials", []string{`id="formula-tilt"`, `id="item-check-t"`, "These rest on:", `class="term"`}},
	}
	for _, test := range tests {
		data := book.Files[test.page+"/index.html"]
		page := string(data) + plain(data)
		for _, want := range test.want {
			if !strings.Contains(page, want) && !strings.Contains(strings.ToLower(page), strings.ToLower(want)) {
				t.Errorf("the page %s lacks %q", test.page, want)
			}
		}
	}
}

// Every page's foot leads to every page around the lessons.
func TestEveryPageLeadsToAllPages(t *testing.T) {
	book := theBook(t)
	for name, data := range book.Files {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		for _, p := range around {
			if !strings.Contains(string(data), p.Slug+`/index.html">`+p.Short+"</a>") {
				t.Errorf("%s does not lead to %s", name, p.Slug)
			}
		}
	}
}

func TestEveryFormulaAndCheckIsListed(t *testing.T) {
	book := theBook(t)
	formulas := string(book.Files["formulas/index.html"])
	listed := strings.Count(formulas, `<div class="formula"`)
	shown := 0
	place := regexp.MustCompile(` id="formula-[^"]+"`)
	for name, data := range book.Files {
		if strings.HasSuffix(name, ".html") {
			shown += len(place.FindAll(data, -1))
		}
	}
	if listed == 0 || listed < shown {
		t.Errorf("the index lists %d formulas, the lessons show %d", listed, shown)
	}
	sources := string(book.Files["sources/index.html"])
	for _, check := range book.Checks {
		if !strings.Contains(sources, `../checks/index.html#`+check.RowID()+`"`) {
			t.Errorf("the sources do not list the check %s", check.RowID())
		}
	}
}

// Nothing that people get wrong is left without what corrects it.
func TestEverySayingIsCorrected(t *testing.T) {
	page := string(theBook(t).Files["wrong/index.html"])
	if n := strings.Count(page, "<dd></dd>"); n > 0 {
		t.Errorf("%d sayings have nothing that corrects them, such as %s", n, page[max(0, strings.Index(page, "<dd></dd>")-200):strings.Index(page, "<dd></dd>")])
	}
	if n := strings.Count(page, "<dt>"); n < 120 {
		t.Errorf("only %d sayings were collected", n)
	}
}

func TestMargin(t *testing.T) {
	row := refdata.Row{Value: 10, Tolerance: 0.5, Unit: "1"}
	check := LessonCheck{Check: notebook.Check{Name: "one", Row: row, Computed: 9.8}}
	if got := check.MarginText(); got != "0.40" {
		t.Errorf("the margin of 9.8 against 10 within 0.5 is %s, want 0.40", got)
	}
	if got := check.UnitText(); got != "" {
		t.Errorf("the unit of a pure number is shown as %q", got)
	}
}

func TestSayings(t *testing.T) {
	w := workedLesson{body: "<h2 id=\"why\">Why</h2>\n<p><strong>&ldquo;No.&rdquo;</strong> x</p>\n<h2 id=\"what-people-get-wrong\">What people get wrong</h2>\n" +
		"<p><strong>&ldquo;A.&rdquo;</strong> It is <span class=\"in-line\" data-item=\"a\" data-shape=\"inline\">3</span>.</p>\n<p>More.</p>\n<p><strong>&ldquo;B.&rdquo;</strong> Two.</p>\n" +
		"<p><strong>&ldquo;C.&rdquo;</strong></p>\n<div class=\"item verdict\"><p class=\"verdict-text\" data-tone=\"note\"><b class=\"tone\">Note</b> Three.</p></div>\n<h2 id=\"exercises\">E</h2>\n"}
	got := sayings(w)
	if len(got) != 3 || strings.TrimSpace(got[2].corrected) != "Three." || got[0].said != "&ldquo;A.&rdquo;" || strings.TrimSpace(got[0].corrected) != `It is <span class="in-line">3</span>.` || strings.TrimSpace(got[1].corrected) != "Two." {
		t.Errorf("sayings = %q", got)
	}
}

func TestSettingsAgreeWithTheShopsTruth(t *testing.T) {
	list, err := settings()
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != 4 {
		t.Fatalf("%d settings, want 4", len(list))
	}
	// The truth from which the readings were made, in µm/m: the larger of side
	// tilt and nod as found, and the mismatch in µm. Rounding to half a division
	// leaves 8 µm/m and 1.4 µm; three of those are granted.
	truth := []struct{ found, mismatch float64 }{{310, 12}, {98, 12}, {101, 34}, {232, 34}}
	for i, want := range truth {
		if got := float64(list[i].found.Slope) * 1e6; got < want.found-26 || got > want.found+26 {
			t.Errorf("setting %d: found %.0f µm/m, want about %.0f", i, got, want.found)
		}
		if got := float64(list[i].mismatch.Length) * 1e6; got < want.mismatch-4.2 || got > want.mismatch+4.2 {
			t.Errorf("setting %d: mismatch %.1f µm, want about %.0f", i, got, want.mismatch)
		}
	}
}
