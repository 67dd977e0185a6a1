package thousandth

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// fine, length and slope are values without an uncertainty.
func fine(l unit.Length) notebook.Quantity   { return notebook.Exact(l, notebook.FineLengths) }
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Exact(s, notebook.Slopes)
}

// answerItems adds the slope in a sentence, in every way it is said, and against
// the limit.
func answerItems(s *notebook.Sheet, in Inputs, measured squaring.MeasuredSlope, limit squaring.Slope) error {
	s.Add(
		notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: notebook.Say("{} over {} is a slope of {u}.",
			fine(in.Reading), length(in.Span), notebook.Of(measured.Slope, measured.Uncertainty, notebook.Slopes))},
		notebook.Figure{Name: "slope", Label: "Slope", Value: notebook.Of(measured.Slope, measured.Uncertainty, notebook.Slopes),
			Note: notebook.Say("Plus when the far end is high. The reading's doubt is {} of it, the span's {}.",
				slope(in.readingShare()), slope(in.spanShare(measured)))},
		waysTable(measured),
		limitVerdict(in, measured, limit),
		notebook.Caution{Name: "isolate", Text: notebook.Plain("Isolate the machine before a hand or a dial goes near the spindle, and turn the spindle by hand. Take the dial out before the machine is switched on again.")},
	)
	return wedgeItem(s, in, measured)
}

// readingShare and spanShare are what the doubt of the reading, and of the span,
// leaves in the slope.
func (in Inputs) readingShare() squaring.Slope {
	return squaring.Slope(float64(in.ReadingU) / float64(in.Span))
}
func (in Inputs) spanShare(measured squaring.MeasuredSlope) squaring.Slope {
	return squaring.Slope(math.Abs(float64(measured.Slope)) * float64(in.SpanU) / float64(in.Span))
}

// waysTable says the slope in every unit.
func waysTable(measured squaring.MeasuredSlope) notebook.Table {
	t := notebook.Table{Name: "ways", Title: "The same slope, as the shop says it",
		Columns: []notebook.Column{notebook.Col("Said as"), notebook.Col("Value"), notebook.Col("Who says so")}}
	row := func(as string, u notebook.Unit, who string) {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(as), notebook.Val(notebook.Of(measured.Slope, measured.Uncertainty, notebook.Same(u))), notebook.Str(who)})
	}
	row("micrometres in a metre", notebook.MicrometrePerMetre, "this book; microinches in an inch are the same number")
	row("millimetres over 300 mm", notebook.MillimetrePer300, "standards for machine tools")
	row("millimetres in a metre", notebook.MillimetrePerMetre, "levels, builders of machines")
	row("thousandths in a foot", notebook.ThouPerFoot, "the inch shop")
	row("inches in a foot", notebook.InchPerFoot, "old drawings, tapers")
	t.Rows = append(t.Rows, []notebook.Cell{notebook.Str("arc seconds"),
		notebook.Val(notebook.Of(measured.Slope.LinearAngle(), unit.Angle(measured.Uncertainty), notebook.Same(notebook.ArcSecond))), notebook.Str("levels and autocollimators")})
	return t
}

// limitVerdict sets the slope against the limit, over one span.
func limitVerdict(in Inputs, measured squaring.MeasuredSlope, limit squaring.Slope) notebook.Verdict {
	size, doubt := squaring.Slope(math.Abs(float64(measured.Slope))), 2*measured.Uncertainty
	allowed := fine(limit.Rise(in.Span))
	say := func(tone notebook.Tone, words string) notebook.Verdict {
		return notebook.Verdict{Name: "limit-verdict", Tone: tone, Text: notebook.Say("A limit of {} over {} allows {} on your span of {}; the dial differs by {}. "+words,
			fine(in.Limit), length(in.LimitSpan), allowed, length(in.Span), fine(in.Reading))}
	}
	switch {
	case size+doubt <= limit:
		return say(notebook.Good, "Within it, doubt included.")
	case size-doubt > limit:
		return say(notebook.Stop, "Beyond it, doubt included.")
	}
	return say(notebook.Watch, "Too near to say: measure more surely, or over a longer span.")
}

// wedgeItem draws the reading over its span.
func wedgeItem(s *notebook.Sheet, in Inputs, measured squaring.MeasuredSlope) error {
	c := drawing.New("wedge", "A rise over a span", "Two dials stand on a sloping face, a span apart; the wedge between the face and a level line is the difference that they show.", 420, 262)
	rise := 44 * sign(float64(in.Reading))
	left, right := drawing.Point{X: 84, Y: 150 + rise/2}, drawing.Point{X: 336, Y: 150 - rise/2}
	low := drawing.Point{X: right.X, Y: left.Y}
	c.Face(drawing.Wedge, left, right, low)
	c.Face(drawing.Steel, left.Add(-48, rise*48/252), right.Add(48, -rise*48/252), drawing.Point{X: 384, Y: 190}, drawing.Point{X: 36, Y: 190})
	c.Line(drawing.Hidden, left, low)
	c.Plunger(left, 22, 0)
	c.Plunger(right, 22, 0.1*sign(float64(in.Reading)))
	c.Dimension(drawing.Point{X: left.X, Y: 226}, drawing.Point{X: right.X, Y: 226}, 0, notebook.Say("span {}", length(in.Span)))
	c.Label(drawing.Point{X: 210, Y: 40}, drawing.Middle, notebook.Say("difference {}", fine(in.Reading)))
	if measured.Slope != 0 {
		c.Exaggerated("The slope is", round(44.0/252/math.Abs(float64(measured.Slope))))
	}
	item, err := c.Item(notebook.Plain("The far dial's stem is pushed in farther when that end is high. The difference belongs to the whole span between the two stems."))
	if err != nil {
		return err
	}
	s.Add(item)
	return nil
}

// round rounds to two figures.
func round(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x))-1)
	return math.Round(x/power) * power
}

// sign returns -1, 0 or 1.
func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// ladderItems adds the reading over a ladder of spans, and the slope's rise over
// the same ladder.
func ladderItems(s *notebook.Sheet, in Inputs, measured squaring.MeasuredSlope, _ squaring.Slope) error {
	t := notebook.Table{Name: "ladder-table", Title: "One reading, and one slope, over a ladder of spans",
		Columns: []notebook.Column{notebook.Col("Span"), notebook.ColIn("Your reading over it would be a slope of", notebook.Slopes), notebook.ColIn("Your slope would show over it", notebook.FineLengths)}}
	var names []string
	var slopes []float64
	for _, span := range append([]unit.Length{in.Span}, 50*mm, 100*mm, 6*squaring.Inch, 200*mm, 10*squaring.Inch, 300*mm, 12*squaring.Inch, 500*mm, 24*squaring.Inch, 1000*mm) {
		over, err := squaring.SlopeFromRise(in.Reading, span)
		if err != nil {
			return err
		}
		cell := notebook.Val(length(span))
		name := fmt.Sprintf("%.0f mm", float64(span/mm))
		if len(t.Rows) == 0 {
			cell, name = cell.Marked("yours"), "yours"
		}
		t.Rows = append(t.Rows, []notebook.Cell{cell, notebook.Val(slope(over)), notebook.Val(fine(measured.Slope.Rise(span)))})
		names, slopes = append(names, name), append(slopes, float64(over))
	}
	chart, err := plot.Bars{Name: "ladder", Title: "The same reading over other spans", What: "Span", Groups: names, Horizontal: true,
		Caption: notebook.Say("{} on the dial: over {} it is {}, over {} it is {}.", fine(in.Reading), length(50*mm), slope(squaring.Slope(slopes[1])), length(1000*mm), slope(squaring.Slope(slopes[len(slopes)-1]))),
		Value:   plot.Axis{Label: "Slope", Show: notebook.Slopes}, Series: []plot.BarSeries{{Label: "slope", Values: slopes}}, Height: 360}.Chart()
	if err != nil {
		return err
	}
	s.Add(t, chart)
	return nil
}

// wallItems adds the table for the wall.
func wallItems(s *notebook.Sheet, _ Inputs, _ squaring.MeasuredSlope, _ squaring.Slope) error {
	wall := func(name, title string, rise unit.Length, spans []unit.Length) error {
		t := notebook.Table{Name: name, Title: title, Columns: []notebook.Column{notebook.ColIn("Over", notebook.Lengths), notebook.ColIn("µm in a metre", notebook.Same(notebook.MicrometrePerMetre)),
			notebook.ColIn("mm over 300 mm", notebook.Same(notebook.MillimetrePer300)), notebook.ColIn("thou in a foot", notebook.Same(notebook.ThouPerFoot)), notebook.ColIn("arc seconds", notebook.Same(notebook.ArcSecond))}}
		for _, span := range spans {
			over, err := squaring.SlopeFromRise(rise, span)
			if err != nil {
				return err
			}
			in := func(u notebook.Unit) notebook.Cell { return notebook.Val(notebook.Exact(over, notebook.Same(u))) }
			t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(length(span)), in(notebook.MicrometrePerMetre), in(notebook.MillimetrePer300), in(notebook.ThouPerFoot),
				notebook.Val(notebook.Exact(over.LinearAngle(), notebook.Same(notebook.ArcSecond)))})
		}
		s.Add(t)
		return nil
	}
	var inches, metric []unit.Length
	for _, x := range []unit.Length{1, 2, 4, 6, 8, 10, 12, 18, 24, 36} {
		inches = append(inches, x*squaring.Inch)
	}
	for _, x := range []unit.Length{25, 50, 100, 150, 190, 220, 300, 500, 1000} {
		metric = append(metric, x*mm)
	}
	if err := wall("wall-inch", "0.001 in over the usual spans", 1*squaring.Thou, inches); err != nil {
		return err
	}
	return wall("wall-metric", "0.01 mm over the usual spans", 0.01*mm, metric)
}
