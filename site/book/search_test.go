package book

import (
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/dop251/goja"
)

// searcher runs the site's own script over the whole book's index.
var searcher = sync.OnceValues(func() (func(string) []string, error) {
	book, err := sharedBook()
	if err != nil {
		return nil, err
	}
	script, err := os.ReadFile("../assets/find.js")
	if err != nil {
		return nil, err
	}
	vm := goja.New()
	for _, source := range []string{"var window = {thouspan: {}};", string(script), string(book.Files["assets/find-index.js"]),
		`var index = window.thouspan.openIndex(window.thouspan.findIndex);
		function look(text) { return window.thouspan.find(index, text, 40).map((r) => r.address); }`} {
		if _, err := vm.RunString(source); err != nil {
			return nil, err
		}
	}
	look, _ := goja.AssertFunction(vm.Get("look"))
	return func(text string) []string {
		value, err := look(goja.Undefined(), vm.ToValue(text))
		if err != nil {
			panic(err)
		}
		var addresses []string
		if err := vm.ExportTo(value, &addresses); err != nil {
			panic(err)
		}
		return addresses
	}, nil
})

// What somebody at the machine types, and what must be among the first.
func TestSearchRanks(t *testing.T) {
	if testing.Short() {
		t.Skip("runs the page's script in an interpreter; skipped with -short")
	}
	find, err := searcher()
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, query, want string
		within            int // the wanted address is among so many first
	}{
		{"a term by its name", "backlash", "glossary/index.html#backlash", 1},
		{"a term by another word", "lost motion", "glossary/index.html#backlash", 2},
		{"a term by a beginning", "hyster", "glossary/index.html#hysteresis", 1},
		{"one letter wrong", "hysterisis", "glossary/index.html#hysteresis", 1},
		{"one letter missing", "backlsh", "glossary/index.html#backlash", 1},
		{"two letters swapped", "azimtuh", "glossary/index.html#azimuth", 1},
		{"a word and its plural", "pockets", "glossary/index.html#pocket", 2},
		{"a lesson by its title", "amps minutes microns", "amps/index.html", 1},
		{"a lesson by the question asked", "I swept the head", "sweep/index.html", 3},
		{"the words of the trade: tram", "tram the head", "sweep/index.html", 12},
		{"two dials", "two dials", "twodials/index.html", 2},
		{"British spelling", "vice jaw", "jaw/index.html", 3},
		{"burnt corners", "burnt corner", "corners/index.html", 4},
		{"oil", "oil line shut", "oilline/index.html", 2},
		{"thread after plating", "thread plating", "allowance/index.html", 6},
		{"embrittlement", "brittle", "glossary/index.html#hydrogen-embrittlement", 3},
		{"a page around the lessons", "notation", "notation/index.html", 1},
		{"surface plate", "surface plate", "plate/index.html", 4},
		{"small words count for nothing", "what is the span", "glossary/index.html#span", 2},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := find(test.query)
			for i, address := range got {
				if address == test.want && i < test.within {
					return
				}
			}
			t.Errorf("%q finds %s, want %s among the first %d", test.query, strings.Join(got[:min(len(got), 8)], " "), test.want, test.within)
		})
	}
}

func TestSearchFindsNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("runs the page's script in an interpreter; skipped with -short")
	}
	find, err := searcher()
	if err != nil {
		t.Fatal(err)
	}
	for _, query := range []string{"", "   ", "the of and", "zzqx", "<script>", "\\", "((("} {
		if got := find(query); len(got) != 0 {
			t.Errorf("%q finds %v", query, got)
		}
	}
	if got := find(strings.Repeat("squareness ", 200)); len(got) == 0 {
		t.Error("a long query finds nothing")
	}
}

// Every address of the index leads to a place that is there.
func TestSearchLeadsToPlaces(t *testing.T) {
	if testing.Short() {
		t.Skip("runs the page's script in an interpreter; skipped with -short")
	}
	book := theBook(t)
	index := string(book.Files["assets/find-index.js"])
	if len(index) > 300_000 {
		t.Errorf("the index has grown to %d bytes", len(index))
	}
	seen := map[string]bool{}
	for _, kind := range []string{"lesson", "section", "term", "formula", "page"} {
		for _, rest := range strings.Split(index, `["`+kind+`","`)[1:] {
			address, _, _ := strings.Cut(rest, `"`)
			file, place, _ := strings.Cut(address, "#")
			page, ok := book.Files[file]
			if !ok || place != "" && !strings.Contains(string(page), `id="`+place+`"`) {
				t.Errorf("the index leads to %s, which is not there", address)
			}
			if seen[address] {
				t.Errorf("the index has %s twice", address)
			}
			seen[address] = true
		}
	}
	if len(seen) < 300 {
		t.Errorf("the index has %d addresses only", len(seen))
	}
}

func TestSearchWords(t *testing.T) {
	got := strings.Join(searchWords("The T-slot's run-out is 0.02 mm; nickel–zinc, É!"), " ")
	if want := "tslot slot runout run out mm nickel zinc é"; got != want {
		t.Errorf("searchWords = %q, want %q", got, want)
	}
}
