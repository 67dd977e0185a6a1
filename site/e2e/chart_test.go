package e2e

// Charts that come alive.

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// lively opens the first lesson with a chart, scrolled to it.
func lively(t *testing.T, s *built) *tab {
	t.Helper()
	if !s.chartsDrawn() {
		t.Skip("the site was built without its chart program")
	}
	p := open(t, s.server.URL+"/"+s.lessonWith(t, `class="item chart"`)+"/index.html")
	p.await("a chart that can be reached", `() => document.querySelector("figure.chart .plot").tabIndex === 0`)
	ask[bool](p, `() => { document.querySelector("figure.chart").scrollIntoView({ block: "center", behavior: "instant" }); return true; }`)
	return p
}

const isLive = `() => Boolean(document.querySelector("figure.chart .plot [_echarts_instance_] svg"))`

func TestChartsStayStillUntilWanted(t *testing.T) {
	s := site(t)
	p := lively(t, s)
	if !ask[bool](p, `() => new Promise((r) => setTimeout(() => r(!window.echarts && Boolean(document.querySelector("figure.chart .plot svg"))), 500))`) {
		t.Error("the chart program was loaded, or the picture removed, before anybody asked for it")
	}
	p.quiet(s.server.URL)
}

func TestChartAnswersToTheKeyboard(t *testing.T) {
	s := site(t)
	p := lively(t, s)
	ask[bool](p, `() => { document.querySelector("figure.chart .plot").focus(); return true; }`)
	p.await("a live chart", isLive)
	p.keys(kb.ArrowRight)
	p.await("the first point in words", `() => document.querySelector('p.visually-hidden[aria-live="polite"]').textContent !== ""`)
	first := ask[string](p, `() => document.querySelector('p.visually-hidden[aria-live="polite"]').textContent`)
	p.keys(kb.ArrowRight)
	second := ask[string](p, `() => document.querySelector('p.visually-hidden[aria-live="polite"]').textContent`)
	if first == second {
		t.Errorf("two points are both read as %q", first)
	}
	p.quiet(s.server.URL)
}

// A live chart takes the page's units and light.
func TestChartFollowsUnitsAndLight(t *testing.T) {
	s := site(t)
	p := lively(t, s)
	ask[bool](p, `() => { document.querySelector("figure.chart .plot").focus(); return true; }`)
	p.await("a live chart", isLive)
	texts := func() string {
		return ask[string](p, `() => [...document.querySelectorAll("figure.chart .plot")][0].querySelector("svg").textContent`)
	}
	fills := func() string {
		return ask[string](p, `() => [...new Set([...document.querySelector("figure.chart .plot svg").querySelectorAll("text")].map((e) => e.getAttribute("fill")))].sort().join(" ")`)
	}
	option := ask[map[string]any](p, `() => window.thouspan.chartOptions[document.querySelector("figure.chart").dataset.item]`)
	metric, light := texts(), fills()
	p.do(chromedp.Click(chromedp.CSS(`[data-set-units="inch"]`)), chromedp.Click(chromedp.CSS(`[data-set-theme="dark"]`)))
	p.await("the chart in other colours", `(light) => [...new Set([...document.querySelector("figure.chart .plot svg").querySelectorAll("text")].map((e) => e.getAttribute("fill")))].sort().join(" ") !== light`, light)
	same := strings.EqualFold(asJSON(t, option["metric"]), asJSON(t, option["inch"]))
	if inch := texts(); (inch == metric) != same {
		t.Errorf("the chart in metric reads %q, in inch %q", metric, inch)
	}
	p.quiet(s.server.URL)
}

// New readings bring the chart alive with the new figures.
func TestChartTakesNewFigures(t *testing.T) {
	s := site(t)
	if !s.chartsDrawn() {
		t.Skip("the site was built without its chart program")
	}
	slug := s.lessonWith(t, `class="item chart"`)
	c := findChange(t, s, slug)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	p.typeInto(c.at, c.text)
	p.answered("yours")
	ask[bool](p, `() => { document.querySelector("figure.chart").scrollIntoView({ block: "center", behavior: "instant" }); return true; }`)
	p.await("a live chart", isLive)
	p.quiet(s.server.URL)
}

// A chart that the new readings do not give makes way for the sentence that says
// so, and comes back with the next readings that give it.
func TestChartThatIsNotKnown(t *testing.T) {
	s := site(t)
	p := lively(t, s)
	ask[bool](p, `() => { document.querySelector("figure.chart .plot").focus(); return true; }`)
	p.await("a live chart", isLive)
	const answer = `(block, option) => {
		const figure = document.querySelector("figure.chart");
		document.dispatchEvent(new CustomEvent("figures", { detail: { [figure.dataset.item]: { block, option } } }));
	}`
	ask[bool](p, `() => {
		window.kept = { block: document.querySelector("figure.chart figcaption").outerHTML + document.querySelector("figure.chart details.data").outerHTML,
			option: window.thouspan.chartOptions[document.querySelector("figure.chart").dataset.item] };
		(`+answer+`)('<figcaption>not known: one survey only</figcaption><details class="data" hidden></details>', { metric: null, inch: null });
		return true;
	}`)
	p.await("the sentence in the chart's place", `() => {
		const figure = document.querySelector("figure.chart");
		return figure.querySelector(".plot").hidden && figure.querySelector("details.data").hidden && figure.textContent.includes("one survey only");
	}`)
	ask[bool](p, `() => { (`+answer+`)(window.kept.block, window.kept.option); return true; }`)
	p.await("the chart again", `() => {
		const figure = document.querySelector("figure.chart");
		return !figure.querySelector(".plot").hidden && figure.querySelector(".plot svg").getBoundingClientRect().height > 100 && !figure.querySelector("details.data").hidden;
	}`)
	p.quiet(s.server.URL)
}
