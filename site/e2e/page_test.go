package e2e

// What holds for every page: quiet, whole without a script, fit for a phone.

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// reload loads the page again.
var reload = chromedp.Reload()

func TestEveryPageIsQuiet(t *testing.T) {
	s := site(t)
	for _, path := range s.pages {
		t.Run(path, func(t *testing.T) {
			t.Parallel()
			p := open(t, s.server.URL+"/"+path)
			p.await("a page that is loaded", `() => document.readyState === "complete"`)
			paint := ask[float64](p, `() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0`)
			t.Logf("the first words stood there after %.0f ms", paint)
			ask[bool](p, `() => { for (let y = 0; y < document.body.scrollHeight; y += 600) scrollTo(0, y); return true; }`)
			p.quiet(s.server.URL)
		})
	}
}

// A page whose scripts do nothing holds every answer, and nothing that only a
// script could make work.
func TestEveryPageIsWholeWithoutAScript(t *testing.T) {
	s := site(t)
	address := s.variant(t, map[string]string{"assets/page.js": ""})
	for _, path := range s.pages {
		t.Run(path, func(t *testing.T) {
			t.Parallel()
			p := open(t, address+"/"+path)
			faults := ask[[]string](p, `() => {
				const faults = [];
				for (const item of document.querySelectorAll("[data-item]")) {
					if (!item.textContent.trim() && !item.querySelector("svg")) faults.push("the item " + item.dataset.item + " is empty");
				}
				for (const chart of document.querySelectorAll("figure.chart")) {
					if (!chart.querySelector(".plot svg") && !chart.querySelector("details.data").open) faults.push("the chart " + chart.dataset.item + " shows neither picture nor table");
				}
				for (const box of document.querySelectorAll("input, select")) {
					if (box.checkVisibility() && !box.readOnly && !box.disabled) faults.push("the box " + (box.id || box.ariaLabel) + " takes what nothing will compute");
				}
				for (const button of document.querySelectorAll("button")) {
					if (button.checkVisibility()) faults.push("the button " + button.textContent + " does nothing");
				}
				return faults;
			}`)
			for _, fault := range faults {
				t.Error(fault)
			}
		})
	}
}

// On the smallest phone nothing runs off the side, and nothing is too small to
// be hit by a thumb.
func TestEveryPageFitsAPhone(t *testing.T) {
	s := site(t)
	for _, path := range s.pages {
		t.Run(path, func(t *testing.T) {
			t.Parallel()
			p := blank(t)
			p.size(360, 740)
			p.visit(s.server.URL + "/" + path)
			if strings.Contains(ask[string](p, `() => document.querySelector("form.readings") ? "form" : ""`), "form") {
				p.awake()
			}
			for _, fault := range ask[[]string](p, `() => {
				const faults = [];
				if (document.documentElement.scrollWidth > innerWidth) {
					const wide = [...document.querySelectorAll("main *")].filter((e) => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".scroll, pre, .formula"));
					faults.push("the page is " + document.documentElement.scrollWidth + " px wide, because of " + wide.slice(0, 3).map((e) => e.outerHTML.slice(0, 80)).join("  "));
				}
				for (const e of document.querySelectorAll("button, input, select, summary, nav a, .door")) {
					if (!e.checkVisibility()) continue;
					const { width, height } = e.getBoundingClientRect();
					if (width < 24 || height < 24) faults.push(e.outerHTML.slice(0, 120) + " is " + width.toFixed(0) + " px by " + height.toFixed(0));
				}
				return faults;
			}`) {
				t.Error(fault)
			}
		})
	}
}

func TestUnitsAndLightAreRemembered(t *testing.T) {
	s := site(t)
	p := open(t, s.server.URL+"/"+s.lessons[0]+"/index.html")
	visible := func() (metric, inch int) {
		counts := ask[[]int](p, `() => [".q .metric", ".q .inch"].map((q) => [...document.querySelectorAll("[data-item] " + q)].filter((e) => getComputedStyle(e).display !== "none").length)`)
		return counts[0], counts[1]
	}
	if metric, inch := visible(); metric == 0 || inch != 0 {
		t.Errorf("at first %d metric and %d inch values are shown, want only metric", metric, inch)
	}
	p.await("the switches", `() => !document.querySelector(".switches").hidden`)
	p.do(chromedp.Click(chromedp.CSS(`[data-set-units="inch"]`)), chromedp.Click(chromedp.CSS(`[data-set-theme="dark"]`)))
	if metric, inch := visible(); metric != 0 || inch == 0 {
		t.Errorf("after the switch %d metric and %d inch values are shown, want only inch", metric, inch)
	}
	if ground := ask[string](p, `() => getComputedStyle(document.body).backgroundColor`); !isDark(ground) {
		t.Errorf("the dark page's ground is %s", ground)
	}
	for _, path := range s.pages {
		p.visit(s.server.URL + "/" + path)
		if got := ask[string](p, `() => document.documentElement.dataset.units + " " + document.documentElement.dataset.theme + " " + document.querySelector('[data-set-units="inch"]').ariaPressed`); got != "inch dark true" {
			t.Errorf("%s forgot the choice: %s", path, got)
		}
	}
	p.quiet(s.server.URL)
}

// isDark reports whether a computed colour, "rgb(r, g, b)", is dark.
func isDark(colour string) bool {
	for _, part := range strings.Split(strings.Trim(colour, "rgb()"), ",") {
		if len(strings.TrimSpace(part)) > 2 {
			return false
		}
	}
	return true
}

// With storage blocked, the switches and the form work, and the page says that
// nothing is kept.
func TestBlockedStorage(t *testing.T) {
	s := site(t)
	slug := s.lessons[0]
	c := findChange(t, s, slug)
	p := blank(t)
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("blocked", "SecurityError"); } });`})
	p.visit(s.server.URL + "/" + slug + "/index.html")
	p.awake()
	p.do(chromedp.Click(chromedp.CSS(`[data-set-units="inch"]`)))
	if got := ask[string](p, `() => document.documentElement.dataset.units`); got != "inch" {
		t.Errorf("the units are %s", got)
	}
	p.typeInto(c.at, c.text)
	p.answered("yours")
	if state := p.state(); !strings.Contains(state, "does not keep them") {
		t.Errorf("the form says %q, and not that nothing is kept", state)
	}
	p.quiet(s.server.URL)
}
