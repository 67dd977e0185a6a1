package book

// The sheets for the wall: what one small rise is over the usual spans.

import (
	"fmt"
	"html"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// wallColumn is one column of a sheet: a slope in one unit.
type wallColumn struct {
	head string
	unit notebook.Unit
}

// wallSheet is what one sheet shows.
type wallSheet struct {
	rise     unit.Length
	riseText string
	spans    []unit.Length
	spanUnit notebook.Unit
	columns  []wallColumn
	rule     string
}

// wallMetric returns the inside of the metric sheet.
func (s *surroundings) wallMetric() (string, error) {
	const mm = unit.Milli * unit.Metre
	return wallSheet{rise: 0.01 * mm, riseText: "0.01 mm",
		spans:    []unit.Length{25 * mm, 50 * mm, 100 * mm, 150 * mm, 200 * mm, 250 * mm, 300 * mm, 500 * mm, 1000 * mm},
		spanUnit: notebook.Millimetre,
		columns:  []wallColumn{{"µm in 1 m", notebook.MicrometrePerMetre}, {"mm over 300", notebook.MillimetrePer300}},
		rule:     "Twice the span, half the slope. Say the span."}.html()
}

// wallInch returns the inside of the inch sheet.
func (s *surroundings) wallInch() (string, error) {
	var spans []unit.Length
	for _, inches := range []unit.Length{1, 2, 4, 6, 8, 10, 12, 18, 24} {
		spans = append(spans, inches*squaring.Inch)
	}
	return wallSheet{rise: squaring.Thou, riseText: "0.001 in", spans: spans, spanUnit: notebook.InchUnit,
		columns: []wallColumn{{"thou in 1 ft", notebook.ThouPerFoot}, {"µin in 1 in", notebook.MicrometrePerMetre}},
		rule:    "Twice the span, half the slope. Say the span."}.html()
}

// html returns the sheet.
func (w wallSheet) html() (string, error) {
	var b strings.Builder
	fmt.Fprintf(&b, `<div class="wall"><div class="scroll" tabindex="0" role="group" aria-label="%s over the usual spans"><table><caption>%s over</caption>`, w.riseText, w.riseText)
	fmt.Fprintf(&b, `<thead><tr><th scope="col">span, %s</th>`, html.EscapeString(w.spanUnit.Symbol))
	for _, c := range w.columns {
		b.WriteString(`<th scope="col" class="num">` + html.EscapeString(c.head) + "</th>")
	}
	b.WriteString("</tr></thead><tbody>\n")
	for _, span := range w.spans {
		slope, err := squaring.SlopeFromRise(w.rise, span)
		if err != nil {
			return "", err
		}
		length := notebook.Quantity{SI: float64(span), Show: notebook.Same(w.spanUnit), Step: w.spanUnit.Scale}
		b.WriteString(`<tr><th scope="row" class="num">` + length.In(notebook.Metric).Value + "</th>")
		for _, c := range w.columns {
			b.WriteString(`<td class="num">` + notebook.Exact(slope, notebook.Same(c.unit)).In(notebook.Metric).Value + "</td>")
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody></table></div>\n<p class=\"rule\">" + html.EscapeString(w.rule) + "</p></div>\n")
	return b.String(), nil
}
