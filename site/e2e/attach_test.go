package e2e

// A file put into a form: the shape of the reader's own part.

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// pick gives a field of the form a file of the given name and text.
func (p *tab) pick(field, name, text string) {
	p.t.Helper()
	file := filepath.Join(p.t.TempDir(), name)
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		p.t.Fatal(err)
	}
	p.do(chromedp.SetUploadFiles(chromedp.CSS(`form.readings .field[data-field="`+field+`"] input[type="file"]`), []string{file}, chromedp.NodeReady))
}

// itemText returns the words of an item, each gap one space.
func (p *tab) itemText(name string) string {
	p.t.Helper()
	return ask[string](p, `(name) => document.querySelector('[data-item="' + name + '"] .metric, [data-item="' + name + '"]').closest("[data-item]").textContent.replace(/\s+/g, " ")`, name)
}

// corner is a corner cut off a block, so many mm along each edge, as an STL file.
func corner(size float64) string {
	at := [4]string{"0 0 0", fmt.Sprintf("%g 0 0", size), fmt.Sprintf("0 %g 0", size), fmt.Sprintf("0 0 %g", size)}
	text := "solid corner\n"
	for _, f := range [4][3]int{{0, 2, 1}, {0, 3, 2}, {0, 1, 3}, {1, 2, 3}} {
		text += "facet normal 0 0 0\nouter loop\n"
		for _, k := range f {
			text += "vertex " + at[k] + "\n"
		}
		text += "endloop\nendfacet\n"
	}
	return text + "endsolid corner\n"
}

func TestFileOfAPart(t *testing.T) {
	s := site(t)
	p := open(t, s.server.URL+"/skin/index.html")
	p.awake()
	before := p.itemText("drawn")
	if !strings.Contains(p.itemText("own"), "No file was given") {
		t.Errorf("without a file the page says %q", p.itemText("own"))
	}
	// A file that is none leaves the answers; the field says why.
	p.pick("own", "hello.stl", "hello")
	p.await("a problem at the field", `() => document.querySelector('.field[data-field="own"] > .problem').textContent.includes("solid")`)
	if got := p.itemText("drawn"); got != before {
		t.Errorf("a bad file changed the answer to %q", got)
	}
	// One that is too large is not even taken.
	p.pick("own", "large.stl", strings.Repeat(" ", 2<<20+1))
	p.await("its size to be named", `() => document.querySelector('.field[data-field="own"] > .problem').textContent.includes("2097153 bytes")`)
	// A corner of 20 mm: three half squares and a triangle, 9.46 cm2 and 1.33 cm3.
	p.pick("own", "corner.stl", corner(20))
	p.answered("yours")
	p.await("its area", `() => document.querySelector('[data-item="drawn"]').textContent.includes("9.4")`)
	if got := p.itemText("volume"); !strings.Contains(got, "1.33") {
		t.Errorf("volume: %q", got)
	}
	// What is saved is what the terminal takes; what is kept comes back.
	document := p.save()
	if !strings.Contains(string(document), `"own": "corner.stl;base64,`) {
		t.Fatalf("the saved readings hold no file: %.300s", document)
	}
	if sheet, err := s.work(t, "skin", document); err != nil || !strings.Contains(string(sheet), "triangles without a gap") {
		t.Errorf("the terminal on the saved readings: %v", err)
	}
	p.visit(s.server.URL + "/skin/index.html")
	p.awake()
	p.answered("yours")
	if got := ask[string](p, `() => document.querySelector('.field[data-field="own"] .held').textContent`); !strings.Contains(got, "corner.stl, ") {
		t.Errorf("at the next visit the field says %q", got)
	}
	ask[bool](p, `() => document.querySelector('.field[data-field="own"]').closest("details").open = true`)
	p.press("detach")
	p.answered("demo")
	if got := p.itemText("drawn"); got != before {
		t.Errorf("without the file again: %q, want %q", got, before)
	}
	p.load(document)
	p.answered("yours")
	p.await("the loaded file's area", `() => document.querySelector('[data-item="drawn"]').textContent.includes("9.4")`)
	p.quiet(s.server.URL)
}
