package e2e

// The search in every page's head, the page of results, and the ledger.

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// firstResults are the titles of the first results in sight.
func (p *tab) firstResults() string {
	p.t.Helper()
	return ask[string](p, `() => [...document.querySelectorAll(".results li a")].filter((a) => a.checkVisibility()).slice(0, 3).map((a) => a.textContent).join(" | ")`)
}

// searching waits for a page whose search is awake.
func (p *tab) searching() {
	p.t.Helper()
	p.await("the search", `() => Boolean(document.querySelector("form.find:not([hidden]), .find-page:not([hidden])"))`)
}

// By the keyboard alone: a slash, a word, an arrow, Enter. From a server and
// from a disk.
func TestSearchByKeyboard(t *testing.T) {
	s := site(t)
	lesson := s.lessons[0] + "/index.html"
	for name, address := range map[string]string{"served": s.server.URL + "/", "disk": fileAddress(t, s, "") + "/"} {
		t.Run(name, func(t *testing.T) {
			p := open(t, address+lesson)
			p.searching()
			p.keys("/")
			p.await("the focus in the box", `() => document.activeElement.id === "find"`)
			p.keys("backlsh")
			p.await("a result", `() => document.querySelectorAll(".find-panel:not([hidden]) .results a").length > 0`)
			if got := p.firstResults(); !strings.HasPrefix(got, "backlash") {
				t.Errorf("backlsh finds %s", got)
			}
			if said := ask[string](p, `() => document.querySelector(".find-panel [role=status]").textContent`); !strings.Contains(said, "found") {
				t.Errorf("the status says %q", said)
			}
			p.keys(kb.ArrowDown + kb.ArrowDown + kb.ArrowUp)
			p.await("the focus on the first result", `() => document.activeElement === document.querySelector(".results a")`)
			p.keys(kb.Enter)
			p.await("the glossary", `() => /\/glossary\/(index\.html)?$/.test(location.pathname) && location.hash === "#backlash"`)
			p.quiet(strings.TrimSuffix(address, "/"))
		})
	}
}

func TestSearchPanelCloses(t *testing.T) {
	s := site(t)
	p := open(t, s.server.URL+"/"+s.lessons[0]+"/index.html")
	p.searching()
	p.keys("/tilt")
	p.await("a result", `() => document.querySelectorAll(".find-panel:not([hidden]) .results a").length > 0`)
	p.keys(kb.ArrowDown + kb.Escape)
	p.await("a closed panel, the focus back in the box", `() => document.querySelector(".find-panel").hidden && document.activeElement.id === "find"`)
	p.keys(kb.Enter)
	p.await("the page of results", `() => /\/search\/(index\.html)?$/.test(location.pathname) && document.querySelectorAll(".results a").length > 5`)
}

func TestSearchPage(t *testing.T) {
	s := site(t)
	p := blank(t)
	p.size(360, 740)
	for _, address := range []string{"search/index.html?q=tram%20head", "search/index.html#q=tram%20head"} {
		p.visit("about:blank")
		p.visit(s.server.URL + "/" + address)
		p.await("results", `() => document.querySelectorAll(".results a").length > 3`)
		if got := ask[string](p, `() => document.querySelector(".find-page input").value`); got != "tram head" {
			t.Errorf("%s fills the box with %q", address, got)
		}
	}
	if wide := ask[bool](p, `() => document.documentElement.scrollWidth > innerWidth`); wide {
		t.Error("results run off the side of a phone")
	}
	for _, light := range p.axe(t) {
		t.Error(light)
	}
	ask[bool](p, `() => { const b = document.querySelector(".find-page input"); b.value = "<b>zzqx</b>"; b.dispatchEvent(new Event("input")); return true; }`)
	p.await("a word that nothing was found", `() => document.querySelector(".found").textContent.startsWith("Nothing found for “<b>zzqx</b>”")`)
	p.quiet(s.server.URL)
}

// With the index out of reach the box says so.
func TestSearchWithoutItsIndex(t *testing.T) {
	s := site(t)
	address := s.variant(t, map[string]string{"assets/find-index.js": "window.thouspan.findIndex = undefined;"})
	p := open(t, address+"/search/index.html?q=tilt")
	p.await("a word about it", `() => (document.querySelector(".found")?.textContent || "").startsWith("Search does not work")`)
}

// The open panel on a phone: nothing runs off, axe finds nothing.
func TestSearchPanelOnAPhone(t *testing.T) {
	s := site(t)
	p := blank(t)
	p.size(360, 740)
	p.visit(s.server.URL + "/" + s.lessons[0] + "/index.html")
	p.searching()
	p.keys("/level")
	p.await("a result", `() => document.querySelectorAll(".find-panel:not([hidden]) .results a").length > 0`)
	if wide := ask[bool](p, `() => document.documentElement.scrollWidth > innerWidth || document.querySelector(".find-panel").getBoundingClientRect().right > innerWidth`); wide {
		t.Error("the panel runs off the side of a phone")
	}
	for _, violation := range p.axe(t) {
		t.Error(violation)
	}
}

func TestLedgerSortsAndFilters(t *testing.T) {
	s := site(t)
	p := open(t, s.server.URL+"/checks/index.html")
	p.await("the filters", `() => !document.querySelector(".ledger-filters").hidden`)
	all := ask[int](p, `() => document.querySelectorAll(".ledger-table tbody tr").length`)
	column := `const cells = () => [...document.querySelectorAll(".ledger-table tbody tr:not([hidden])")].map((r) => Number(r.cells[5].textContent));`
	for _, want := range []string{"ascending", "descending"} {
		if sorted := ask[bool](p, `(want) => { `+column+` const head = document.querySelectorAll(".ledger-table thead th")[5]; head.querySelector("button").click();
			const list = cells(); return head.getAttribute("aria-sort") === want && list.every((x, i) => !i || (want === "ascending" ? list[i - 1] <= x : list[i - 1] >= x)); }`, want); !sorted {
			t.Errorf("the margin is not sorted %s", want)
		}
	}
	if marked := ask[int](p, `() => document.querySelectorAll("[aria-sort]").length`); marked != 1 {
		t.Errorf("%d columns are marked as sorted, want 1", marked)
	}
	shown := ask[[]int](p, `() => { const known = [...document.querySelectorAll(".ledger-filters label")].find((l) => l.textContent.startsWith("How known")).querySelector("select");
		known.value = "from memory"; known.dispatchEvent(new Event("input"));
		const rows = [...document.querySelectorAll(".ledger-table tbody tr:not([hidden])")];
		return [rows.length, rows.filter((r) => r.cells[8].textContent === "from memory").length]; }`)
	if shown[0] == 0 || shown[0] == all || shown[0] != shown[1] {
		t.Errorf("of %d rows %d are shown and %d are from memory", all, shown[0], shown[1])
	}
	if said := ask[string](p, `() => document.querySelector(".ledger-filters [role=status]").textContent`); !strings.Contains(said, "of") {
		t.Errorf("the status says %q", said)
	}
	for _, violation := range p.axe(t) {
		t.Error(violation)
	}
	p.quiet(s.server.URL)
}
