package e2e

// Handles in drawings: dragged by a pointer and moved by keys.

import (
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"
)

// numberIn returns the number that stands in a box.
func (p *tab) numberIn(b box) float64 {
	p.t.Helper()
	x, err := strconv.ParseFloat(p.valueOf(b), 64)
	if err != nil {
		p.t.Fatalf("box %+v holds %q", b, p.valueOf(b))
	}
	return x
}

func TestHandleMovesTheAnode(t *testing.T) {
	s := site(t)
	p := open(t, s.server.URL+"/current/index.html")
	p.awake()
	distance, sideways := box{Field: "distance"}, box{Field: "sideways"}
	before := p.numberIn(distance)
	if !ask[bool](p, `() => { const h = document.querySelector(".handle"); if (!h || h.tabIndex !== 0) return false; h.focus(); return document.activeElement === h; }`) {
		t.Fatal("the handle cannot be reached by keys")
	}
	p.keys(kb.ArrowRight)
	p.answered("yours")
	if got := p.numberIn(distance); got <= before {
		t.Errorf("an arrow to the right took the distance from %v to %v mm", before, got)
	}
	// The drawing was drawn anew; the handle keeps the focus and goes on.
	if !ask[bool](p, `() => document.activeElement.matches(".handle")`) {
		t.Error("the handle lost the focus when the drawing changed")
	}
	across := p.numberIn(sideways)
	p.keys(kb.ArrowDown)
	p.await("the anode moved to the left edge", `(x) => Number(document.querySelector('.field[data-field=sideways] input').value) < x`, across)
	// By pointer: 40 pixels to the left.
	at := p.numberIn(distance)
	ask[bool](p, `() => {
		const h = document.querySelector(".handle"); h.scrollIntoView({block: "center"});
		const r = h.getBoundingClientRect(); const x = r.x + r.width / 2, y = r.y + r.height / 2;
		const send = (type, x) => document.elementFromPoint(x, y).dispatchEvent(new PointerEvent(type, {bubbles: true, clientX: x, clientY: y, button: 0, pointerId: 1}));
		send("pointerdown", x); send("pointermove", x - 20); send("pointermove", x - 40); send("pointerup", x - 40);
		return true;
	}`)
	if got := p.numberIn(distance); got >= at {
		t.Errorf("dragged to the left the distance went from %v to %v mm", at, got)
	}
	p.answered("yours")
	p.quiet(s.server.URL)
}

func TestWholePartIsSolvedInTime(t *testing.T) {
	s := site(t)
	p := open(t, s.server.URL+"/solid/index.html")
	p.awake()
	p.typeInto(box{Field: "distance"}, "60")
	p.answered("yours")
	began := time.Now()
	p.typeInto(box{Field: "distance"}, "65")
	p.await("the answer to be asked for", `() => document.documentElement.dataset.readings === "pending"`)
	p.answered("yours")
	t.Logf("a new place of the anode took %v in the browser", time.Since(began).Round(10*time.Millisecond))
	p.quiet(s.server.URL)
}
