package render

import (
	"encoding/json"
	"fmt"
	"html"
	"strconv"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// Block returns the inside of an item shown on its own: what stands within
// <… data-item="NAME" data-shape="block">.
func Block(item notebook.Item) string {
	var b strings.Builder
	switch item := item.(type) {
	case notebook.Figure:
		writeFigure(&b, item)
	case notebook.Table:
		writeTable(&b, item)
	case notebook.Chart:
		writeChartText(&b, item)
	case notebook.Drawing:
		b.WriteString(item.SVG)
		writeCaption(&b, item.Title, item.Caption)
	case notebook.Verdict:
		writeVerdict(&b, item)
	case notebook.Check:
		writeCheck(&b, item)
	case notebook.Caution:
		writeCaution(&b, item)
	case notebook.Exercise:
		writeExercise(&b, item)
	}
	return b.String()
}

// Inline returns the inside of an item named within a sentence: a figure's
// value, a verdict's or a caution's sentence, or the item's title.
func Inline(item notebook.Item) string {
	switch item := item.(type) {
	case notebook.Figure:
		if item.Unknown != "" {
			return `<em class="unknown">not known</em>`
		}
		return Quantity(item.Value, false)
	case notebook.Verdict:
		return Text(item.Text)
	case notebook.Caution:
		return Text(item.Text)
	case notebook.Table:
		return html.EscapeString(item.Title)
	case notebook.Chart:
		return html.EscapeString(item.Title)
	case notebook.Drawing:
		return html.EscapeString(item.Title)
	case notebook.Check:
		return html.EscapeString(item.Row.What)
	}
	return html.EscapeString(item.ItemName())
}

// Tag returns the element that holds an item of this kind on its own.
func Tag(kind string) string {
	switch kind {
	case "chart", "drawing":
		return "figure"
	case "caution":
		return "aside"
	case "exercise":
		return "section"
	}
	return "div"
}

// Wrapped returns the item shown on its own, with the element around it by
// which the browser finds it.
func Wrapped(item notebook.Item) string {
	tag := Tag(item.Kind())
	name := html.EscapeString(item.ItemName())
	role := ""
	if tag == "aside" {
		role = ` role="note"` // not a landmark: a page may have several
	}
	return "<" + tag + role + ` class="item ` + item.Kind() + `" data-item="` + name + `" data-shape="block">` +
		Block(item) + "</" + tag + ">"
}

// WrappedInline returns the item named within a sentence, with the element
// around it by which the browser finds it.
func WrappedInline(item notebook.Item) string {
	return `<span class="in-line" data-item="` + html.EscapeString(item.ItemName()) + `" data-shape="inline">` + Inline(item) + "</span>"
}

// Quantity returns a value in both systems of units, of which the style sheet
// shows one; with its standard uncertainty when asked for and stated.
func Quantity(q notebook.Quantity, withU bool) string {
	return inBoth(func(s notebook.System) string { return quantityIn(q, s, withU) })
}

// inBoth returns what one gives for each system of units, side by side for the
// style sheet to choose from, or once where they are alike.
func inBoth(one func(notebook.System) string) string {
	return `<span class="q">` + sideBySide(one) + "</span>"
}

// sideBySide is [inBoth] without an element around the two.
func sideBySide(one func(notebook.System) string) string {
	metric, inch := one(notebook.Metric), one(notebook.Inch)
	if metric == inch {
		return metric
	}
	return `<span class="metric">` + metric + `</span><span class="inch">` + inch + "</span>"
}

func quantityIn(q notebook.Quantity, s notebook.System, withU bool) string {
	shown := q.In(s)
	text := html.EscapeString(shown.String())
	if withU && shown.U != "" {
		unit := strings.TrimPrefix(shown.String(), shown.Value)
		text += ` <span class="u">(<i>u</i>&nbsp;` + html.EscapeString(shown.U+unit) + ")</span>"
	}
	return text
}

// bareQuantity returns a table cell's number without its unit, which the column's
// head shows, and without an element around both systems: the cell is one.
func bareQuantity(q notebook.Quantity) string {
	return sideBySide(func(s notebook.System) string {
		shown := q.In(s)
		text := html.EscapeString(shown.Value)
		if shown.U != "" {
			text += ` <span class="u">(<i>u</i>&nbsp;` + html.EscapeString(shown.U) + ")</span>"
		}
		return text
	})
}

// Text returns a sentence as HTML, its quantities in both systems of units.
func Text(text notebook.Text) string {
	var b strings.Builder
	for _, span := range text {
		if span.Quantity == nil {
			b.WriteString(html.EscapeString(span.Words))
			continue
		}
		b.WriteString(Quantity(*span.Quantity, span.WithU))
	}
	return b.String()
}

func writeFigure(b *strings.Builder, f notebook.Figure) {
	b.WriteString(`<span class="label">` + html.EscapeString(f.Label) + "</span>")
	if f.Unknown != "" {
		b.WriteString(`<span class="value unknown">not known: ` + html.EscapeString(f.Unknown) + "</span>")
		return
	}
	b.WriteString(`<span class="value">` + figureValue(f.Value) + "</span>")
	if len(f.Note) > 0 {
		b.WriteString(`<span class="note">` + Text(f.Note) + "</span>")
	}
}

// figureValue returns a figure's value with its uncertainty set apart.
func figureValue(q notebook.Quantity) string {
	return inBoth(func(s notebook.System) string {
		shown := q.In(s)
		unit := strings.TrimPrefix(shown.String(), shown.Value)
		text := `<b>` + html.EscapeString(shown.Value) + "</b>" + html.EscapeString(unit)
		if shown.U != "" {
			text += ` <span class="u">standard uncertainty&nbsp;` + html.EscapeString(shown.U+unit) + "</span>"
		}
		return text
	})
}

func writeTable(b *strings.Builder, t notebook.Table) {
	b.WriteString(`<div class="scroll" tabindex="0" role="group" aria-label="` + html.EscapeString(t.Title) + `"><table>`)
	if t.Title != "" {
		b.WriteString("<caption>" + html.EscapeString(t.Title) + "</caption>")
	}
	b.WriteString("<thead><tr>")
	for _, c := range t.Columns {
		class := ""
		if c.Show != nil {
			class = ` class="num"`
		}
		b.WriteString(`<th scope="col"` + class + ">" + html.EscapeString(c.Label) + columnUnit(c) + "</th>")
	}
	b.WriteString("</tr></thead><tbody>")
	for _, row := range t.Rows {
		b.WriteString("<tr>")
		for i, cell := range row {
			writeCell(b, cell, i == 0, t.Columns[i].Show != nil)
		}
		b.WriteString("</tr>")
	}
	if len(t.Rows) == 0 {
		b.WriteString(`<tr><td class="none" colspan="` + strconv.Itoa(len(t.Columns)) + `">nothing to show for these readings</td></tr>`)
	}
	b.WriteString("</tbody></table></div>")
	if len(t.Note) > 0 {
		b.WriteString(`<p class="note">` + Text(t.Note) + "</p>")
	}
}

// columnUnit returns the unit in a column's head, in both systems.
func columnUnit(c notebook.Column) string {
	if c.Show == nil {
		return ""
	}
	metric, inch := c.Show.Metric.Symbol, c.Show.Inch.Symbol
	if metric == "" && inch == "" {
		return ""
	}
	if metric == inch {
		return `<span class="unit">` + html.EscapeString(metric) + "</span>"
	}
	return `<span class="unit"><span class="metric">` + html.EscapeString(metric) + `</span><span class="inch">` + html.EscapeString(inch) + "</span></span>"
}

func writeCell(b *strings.Builder, c notebook.Cell, head, unitInHead bool) {
	class, inside := "", html.EscapeString(c.Words)
	if c.Quantity != nil {
		class = "num"
		if unitInHead {
			inside = bareQuantity(*c.Quantity)
		} else {
			inside = Quantity(*c.Quantity, true)
		}
	}
	if c.Mark != "" {
		class += " marked"
		inside += ` <span class="mark">` + html.EscapeString(c.Mark) + "</span>"
	}
	attr := ""
	if class != "" {
		attr = ` class="` + strings.TrimSpace(class) + `"`
	}
	if head {
		b.WriteString(`<th scope="row"` + attr + ">" + inside + "</th>")
		return
	}
	b.WriteString("<td" + attr + ">" + inside + "</td>")
}

// writeChartText writes what stands below a chart's plot: the caption and the
// table of its data. The plot itself is the page's.
func writeChartText(b *strings.Builder, c notebook.Chart) {
	defer writeCaption(b, c.Title, c.Says()) // the caption must be a figure's last child
	if c.Unknown != "" {
		// The page keeps the place of the numbers: the next answer may have some.
		b.WriteString(`<details class="data" hidden></details>`)
		return
	}
	b.WriteString(`<details class="data"><summary>The numbers of this chart</summary>`)
	data := c.Data
	if data.Title == "" {
		data.Title = c.Title
	}
	writeTable(b, data)
	b.WriteString("</details>")
}

// ChartOptions returns a chart's options in the given systems, each under the
// system's name, as JSON that is safe inside a script element. A chart that is
// not known has none.
func ChartOptions(c notebook.Chart, systems ...notebook.System) (json.RawMessage, error) {
	options := map[string]json.RawMessage{}
	for _, system := range systems {
		if c.Unknown != "" {
			break
		}
		option, err := c.Option(system)
		if err != nil {
			return nil, fmt.Errorf("chart %q: %w", c.Name, err)
		}
		options[system.String()] = option
	}
	return json.Marshal(options)
}

func writeCaption(b *strings.Builder, title string, caption notebook.Text) {
	b.WriteString("<figcaption>")
	if title != "" {
		b.WriteString("<b>" + html.EscapeString(title) + ".</b> ")
	}
	b.WriteString(Text(caption) + "</figcaption>")
}

// toneWord is the word that goes with a verdict, so that its colour is never
// needed to read it.
func toneWord(t notebook.Tone) string {
	switch t {
	case notebook.Good:
		return "Good"
	case notebook.Watch:
		return "Look again"
	case notebook.Stop:
		return "Stop"
	}
	return "Note"
}

func writeVerdict(b *strings.Builder, v notebook.Verdict) {
	b.WriteString(`<p class="verdict-text" data-tone="` + html.EscapeString(string(v.Tone)) + `"><b class="tone">` +
		toneWord(v.Tone) + `</b> ` + Text(v.Text) + "</p>")
}

func writeCheck(b *strings.Builder, c notebook.Check) {
	word, class := "agrees", "pass"
	if !c.Pass() {
		word, class = "does not agree", "fail"
	}
	unit := c.Row.Unit
	if unit == "1" {
		unit = ""
	} else {
		unit = "&nbsp;" + html.EscapeString(unit)
	}
	b.WriteString(`<p class="check-line ` + class + `"><b>` + html.EscapeString(c.Row.What) + "</b>: computed " +
		html.EscapeString(CheckNumber(c, c.Computed)) + unit + ", published " +
		html.EscapeString(CheckNumber(c, c.Row.Value)) + unit +
		", accepted within " + html.EscapeString(strconv.FormatFloat(c.Row.Tolerance, 'g', 3, 64)) + unit +
		`: <b class="result">` + word + `</b>. <span class="source">` + html.EscapeString(c.Row.Source.String()) +
		` <span class="known">(` + html.EscapeString(string(c.Row.Known)) + ")</span></span></p>")
}

// CheckNumber returns a check's computed or published value, to the digits of
// its tolerance.
func CheckNumber(c notebook.Check, x float64) string {
	return notebook.FormatNumber(x, toleranceDecimals(c.Row.Tolerance))
}

// toleranceDecimals returns the decimals that show a difference of the size of
// the tolerance.
func toleranceDecimals(tolerance float64) int {
	for decimals := 0; decimals < 9; decimals++ {
		if tolerance >= 1 {
			return decimals
		}
		tolerance *= 10
	}
	return 9
}

func writeCaution(b *strings.Builder, c notebook.Caution) {
	b.WriteString(`<p><b class="tone">Caution</b> ` + Text(c.Text))
	if c.Body != "" {
		b.WriteString(` <span class="source">` + html.EscapeString(c.Body) + "</span>")
	}
	b.WriteString("</p>")
}

func writeExercise(b *strings.Builder, e notebook.Exercise) {
	b.WriteString(`<p class="ask">` + Text(e.Ask) + "</p><details><summary>Answer</summary>" + solution(e) + "</details>")
}
