package e2e

// The program in its worker when it is slow, stuck, broken or missing. A
// worker of a few lines takes its place.

import (
	"encoding/json"
	"strings"
	"testing"
	"time"
)

// liveWith returns assets/live.js with another worker.
func liveWith(t *testing.T, worker string) map[string]string {
	t.Helper()
	return map[string]string{"assets/live.js": "window.thouspanLive = { worker: " + asJSON(t, worker) + `, packed: "" };`}
}

func asJSON(t *testing.T, value any) string {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// formWith opens a lesson's page whose worker is the given one.
func formWith(t *testing.T, s *built, worker string) (*tab, change) {
	t.Helper()
	slug := s.lessons[0]
	p := open(t, s.variant(t, liveWith(t, worker))+"/"+slug+"/index.html")
	p.awake()
	return p, changes(t, s.template(t, slug))[0]
}

func TestLongWorkShowsProgressAndCanBeCancelled(t *testing.T) {
	s := site(t)
	p, c := formWith(t, s, `let n = 0; onmessage = ({ data }) => { if (data.start) postMessage({ ready: true }); };`)
	before := p.items()
	p.typeInto(c.at, c.text)
	p.await("progress and a way to stop", `() => document.querySelector("progress").checkVisibility() && document.querySelector("[data-do=cancel]").checkVisibility()`)
	p.press("cancel")
	p.await("that it stopped", `() => !document.querySelector("progress").checkVisibility() && document.querySelector(".state output").textContent.startsWith("Stopped")`)
	if p.items() != before {
		t.Error("a cancelled calculation changed the answers")
	}
	p.typeInto(c.at, c.text+"1")
	p.await("a new start", `() => document.querySelector("progress").checkVisibility()`)
}

func TestNewestKeystrokeWins(t *testing.T) {
	s := site(t)
	// A worker that takes 400 ms an answer and gives back what it was asked.
	p, c := formWith(t, s, `let asked = []; onmessage = ({ data }) => {
		if (data.start) { postMessage({ ready: true }); return; }
		if (!data.id) return;
		asked.push(data.args[0]);
		setTimeout(() => postMessage({ id: data.id, answer: JSON.stringify({ items: { asked: { block: JSON.stringify(asked), inline: "" } }, problems: [] }) }), 400);
	};`)
	ask[bool](p, `() => { document.addEventListener("figures", ({ detail }) => { window.asked = JSON.parse(detail.asked.block); }); return true; }`)
	p.typeInto(c.at, "1")
	for _, key := range strings.Split("23456789", "") {
		p.keys(key)
		time.Sleep(60 * time.Millisecond)
	}
	p.await("the answer to the last keystroke", `() => Boolean(window.asked && window.asked.at(-1).includes("123456789"))`)
	if n := ask[int](p, `() => window.asked.length`); n > 5 {
		t.Errorf("%d questions were asked for nine keystrokes within 0.6 s, at 0.4 s an answer; the pending ones should have given way", n)
	}
}

// A question that has run for long is not waited for when a newer one comes.
func TestLongWorkGivesWayToANewKeystroke(t *testing.T) {
	s := site(t)
	p, c := formWith(t, s, `let asked = []; onmessage = ({ data }) => {
		if (data.start) { postMessage({ ready: true, module: {} }); return; }
		if (!data.id) return;
		asked.push(data.args[0]);
		if (data.args[0].includes("23")) postMessage({ id: data.id, answer: JSON.stringify({ items: { asked: { block: String(asked.length), inline: "" } }, problems: [] }) });
	};`)
	ask[bool](p, `() => { document.addEventListener("figures", ({ detail }) => { window.asked = detail.asked.block; }); return true; }`)
	p.typeInto(c.at, "2")
	p.await("work that never ends", `() => document.querySelector("progress").checkVisibility()`)
	time.Sleep(700 * time.Millisecond)
	p.keys("3")
	p.answered("yours")
	if n := ask[string](p, `() => window.asked`); n != "1" {
		t.Errorf("the worker that answered had been asked %s times, want once: it should have been a fresh one", n)
	}
	if ask[bool](p, `() => document.querySelector("progress").checkVisibility()`) {
		t.Error("progress is still shown")
	}
}

func TestBrokenProgramIsSaid(t *testing.T) {
	s := site(t)
	tests := []struct{ name, worker string }{
		{"does not start", `onmessage = () => postMessage({ failed: "no memory" });`},
		{"throws", `onmessage = () => { throw new Error("no memory"); };`},
		{"ends while it works", `onmessage = ({ data }) => data.practise || postMessage(data.start ? { ready: true } : { failed: "no memory" });`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p, c := formWith(t, s, test.worker)
			before := p.items()
			p.typeInto(c.at, c.text)
			p.await("why there is no answer", `() => document.querySelector(".state output").textContent.includes("no memory")`)
			if state := p.state(); !strings.Contains(state, "still the demo") {
				t.Errorf("the form says %q, and not whose answers stand there", state)
			}
			if p.items() != before {
				t.Error("the answers changed")
			}
		})
	}
}

func TestMissingProgramIsSaid(t *testing.T) {
	s := site(t)
	slug := s.lessons[0]
	p := open(t, s.variant(t, map[string]string{"assets/live.js": ""})+"/"+slug+"/index.html")
	p.awake()
	c := changes(t, s.template(t, slug))[0]
	p.typeInto(c.at, c.text)
	p.await("why there is no answer", `() => document.querySelector(".state output").textContent.includes("cannot be computed here")`)
}
