package e2e

// Exercises with new numbers: drawn, answered, marked, as a reader does.

import (
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// solved is what the terminal says of a drawn exercise.
type solved struct{ ask, answer, turn, why string }

var solvedParts = regexp.MustCompile(`(?s)^\? (.*)\n= ([^\n]*)\n.*?\n  If you got ([^:]*): ([^\n]*)`)

// solve asks the terminal for the answer and the first wrong turn of a drawn
// exercise. Sentences are folded there: only the first line of why is kept.
func (s *built) solve(t *testing.T, slug, name, seed string, units string) solved {
	t.Helper()
	said, err := command(s.program, "work", slug, "-exercise", name, "-seed", seed, "-solve", "-units", units)
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	m := solvedParts.FindStringSubmatch(said)
	if m == nil {
		t.Fatalf("the terminal's exercise cannot be read: %s", said)
	}
	return solved{ask: plain(m[1]), answer: m[2], turn: m[3], why: m[4]}
}

// drill is one exercise on a page that can be drawn anew.
type drill struct {
	p    *tab
	name string
}

func (d drill) at(what string) string { return `.drill[data-drill="` + d.name + `"] ` + what }

// text returns the visible text of a part of the drill.
func (d drill) text(what string) string {
	d.p.t.Helper()
	return plain(ask[string](d.p, `(at) => document.querySelector(at)?.innerText ?? ""`, d.at(what)))
}

// press presses the button that draws, by the keyboard.
func (d drill) press() {
	d.p.t.Helper()
	if !ask[bool](d.p, `(at) => { const b = document.querySelector(at); b.focus(); return document.activeElement === b; }`, d.at("button.draw")) {
		d.p.t.Fatal("the button that draws cannot be reached")
	}
	d.p.keys(kb.Enter)
}

// draw presses the button and returns the number drawn.
func (d drill) draw() string {
	d.p.t.Helper()
	before := d.text(".number")
	d.press()
	d.p.await("another exercise", `([at, before]) => { const n = document.querySelector(at); return Boolean(n && n.innerText !== before); }`, []string{d.at(".number"), before})
	return strings.Trim(strings.TrimPrefix(d.text(".number"), "Draw "), ".")
}

// answer types an answer over what stands in the box, presses Enter and
// returns the grade and what is said.
func (d drill) answer(text string) (grade, said string) {
	d.p.t.Helper()
	if !ask[bool](d.p, `(at) => { const e = document.querySelector(at); e.focus(); e.select(); return document.activeElement === e; }`, d.at("input")) {
		d.p.t.Fatal("the box for the answer cannot be typed into")
	}
	d.p.keys(text)
	d.p.keys(kb.Enter)
	d.p.await("a mark", `(at) => Boolean(document.querySelector(at).dataset.grade)`, d.at(".said"))
	return ask[string](d.p, `(at) => document.querySelector(at).dataset.grade`, d.at(".said")), d.text(".said")
}

func TestExerciseWithNewNumbers(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, `class="drill"`)
	p := open(t, s.server.URL+"/"+slug+"/index.html")
	p.awake()
	d := drill{p, ask[string](p, `() => document.querySelector(".drill").dataset.drill`)}
	first := d.draw()
	second := d.draw()
	if first == second {
		t.Errorf("two draws gave the same number, %s", first)
	}
	want := s.solve(t, slug, d.name, second, "metric")
	if got := d.text(".ask"); got != want.ask {
		t.Errorf("draw %s asks %q on the page and %q in the terminal", second, got, want.ask)
	}
	if grade, said := d.answer(want.turn); grade != "turn" || !strings.Contains(said, plain(want.why)) {
		t.Errorf("the wrong turn %s is marked %s: %s", want.turn, grade, said)
	}
	if grade, said := d.answer("12"); grade != "unread" || !strings.Contains(said, "of what?") {
		t.Errorf("a number without its unit is marked %s: %s", grade, said)
	}
	if violations := p.axe(t); len(violations) > 0 {
		t.Errorf("after a wrong answer: %s", strings.Join(violations, "\n"))
	}
	p.do(chromedp.Click(chromedp.CSS(`[data-set-units="inch"]`)))
	inch := s.solve(t, slug, d.name, second, "inch")
	if got := d.text(".ask"); got != inch.ask {
		t.Errorf("draw %s asks %q in inches on the page and %q in the terminal", second, got, inch.ask)
	}
	if grade, said := d.answer(inch.answer); grade != "right" || !strings.Contains(said, inch.answer) {
		t.Errorf("the right answer %s is marked %s: %s", inch.answer, grade, said)
	}
	if !ask[bool](p, `(at) => document.activeElement === document.querySelector(at)`, d.at("input")) {
		t.Error("the focus left the box")
	}
	d.answer(inch.answer)
	if got := d.text(".tally"); got != "One right at this sitting." {
		t.Errorf("one exercise answered right, twice, is counted as %q", got)
	}
	if violations := p.axe(t); len(violations) > 0 {
		t.Errorf("after the right answer: %s", strings.Join(violations, "\n"))
	}
}

// A question of an exercise and one of the form wait for each other, and
// neither takes the other's place.
func TestExerciseAndFormShareTheProgram(t *testing.T) {
	s := site(t)
	slug := s.lessonWith(t, `class="drill"`)
	worker := `const asked = []; onmessage = ({ data }) => {
		if (data.start) { postMessage({ ready: true, module: {} }); return; }
		if (!data.id) return;
		const isDrill = data.call === "drill";
		asked.push(isDrill ? "drill" : data.args[0]);
		const answer = isDrill ? { ask: "<p class=ask>" + asked.filter((x) => x === "drill").length + "</p>", help: "", solution: "" } :
			{ items: { asked: { block: JSON.stringify(asked), inline: "" } }, problems: [] };
		setTimeout(() => postMessage({ id: data.id, answer: JSON.stringify(answer) }), 300);
	};`
	p := open(t, s.variant(t, liveWith(t, worker))+"/"+slug+"/index.html")
	p.awake()
	ask[bool](p, `() => {
		for (const fold of document.querySelectorAll("form.readings details")) fold.open = true;
		document.addEventListener("figures", ({ detail }) => { window.asked = JSON.parse(detail.asked.block); });
		return true;
	}`)
	c := changes(t, s.template(t, slug))[0]
	d := drill{p, ask[string](p, `() => document.querySelector(".drill").dataset.drill`)}
	p.typeInto(c.at, "1")
	d.press()
	p.typeInto(c.at, "123")
	p.await("the drawn exercise", `(at) => document.querySelector(at)?.innerText === "1"`, d.at(".ask"))
	p.await("the answer to the last keystroke", `() => Boolean(window.asked && window.asked.at(-1).includes("123"))`)
	if n := ask[int](p, `() => window.asked.filter((x) => x === "drill").length`); n != 1 {
		t.Errorf("the exercise was asked for %d times, want once", n)
	}
}
