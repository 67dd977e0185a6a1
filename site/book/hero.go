package book

import (
	"fmt"
	"html"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// heroSpans are the spans, in metres, over which the home page draws one
// thousandth of an inch.
var heroSpans = [3]float64{6 * 0.0254, 10 * 0.0254, 24 * 0.0254}

// The hero drawing's measures, in units of its view box.
const (
	heroWidth   = 440
	heroPerM    = 640.0 // units a metre, along
	heroTimes   = 3000  // exaggeration of heights
	heroLeft    = 12.0
	heroRow     = 108.0
	heroFirst   = 70.0
	heroThou    = 25.4e-6
	heroHeights = 336
)

// spanDrawing returns the home page's drawing: the same thousandth over three
// spans, to one scale, and the slope that each makes.
func spanDrawing() string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="0 0 %d %d" role="img" aria-labelledby="hero-title hero-desc">`, heroWidth, heroHeights)
	b.WriteString(`<title id="hero-title">One thousandth over three spans</title>`)
	fmt.Fprintf(&b, `<desc id="hero-desc">Three wedges to one scale, heights drawn %d times too large. Each rises one thousandth of an inch, 25.4 micrometres; the longer the span, the smaller the slope.</desc>`, heroTimes)
	for i, span := range heroSpans {
		base := heroFirst + float64(i)*heroRow
		right := heroLeft + span*heroPerM
		top := base - heroThou*heroTimes*heroPerM
		fmt.Fprintf(&b, `<path class="hero-wedge" d="M%.1f %.1fH%.1fV%.1fZ"/>`, heroLeft, base, right, top)
		fmt.Fprintf(&b, `<path class="hero-rise" d="M%.1f %.1fL%.1f %.1f"/>`, heroLeft, base, right, top)
		fmt.Fprintf(&b, `<path class="hero-line" d="M%.1f %.1fv10M%.1f %.1fv10M%.1f %.1fH%.1f"/>`, heroLeft, base, right, base, heroLeft, base+6, right)
		rise := notebook.Exact(heroThou, notebook.FineLengths)
		over := notebook.Pair{Metric: notebook.Millimetre, Inch: notebook.InchUnit}
		heroText(&b, heroLeft, base+26, "hero-label", "over {}: {}", notebook.Exact(span, over).WithDigits(3),
			notebook.Exact(heroThou/span, notebook.Slopes).WithDigits(3))
		if i == 0 {
			heroText(&b, right+8, base-18, "hero-label", "{} high, each time", rise)
		}
	}
	fmt.Fprintf(&b, `<text class="hero-note" x="%.1f" y="%d">Heights drawn %d times too large.</text></svg>`, heroLeft, heroHeights-4, heroTimes)
	return b.String()
}

// heroText writes a label in both systems of units.
func heroText(b *strings.Builder, x, y float64, class, pattern string, quantities ...notebook.Quantity) {
	text := notebook.Say(pattern, quantities...)
	for _, s := range notebook.Systems() {
		fmt.Fprintf(b, `<text class="%s %s" x="%.1f" y="%.1f">%s</text>`, class, s, x, y, html.EscapeString(text.In(s)))
	}
}
