package diagonals

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func fine(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.FineLengths) }
func side(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.001*mm, notebook.Lengths)
}
func slope(s squaring.Slope) notebook.Quantity { return notebook.Exact(s, notebook.Slopes) }
func of(m squaring.MeasuredSlope) notebook.Quantity {
	return notebook.Of(m.Slope, m.Uncertainty, notebook.Slopes)
}
func seconds(m squaring.MeasuredAngle) notebook.Quantity {
	return notebook.Of(m.Angle, m.Uncertainty, notebook.Same(notebook.ArcSecond))
}

// answerItems adds skew, scale and what to do about a pattern.
func answerItems(s *notebook.Sheet, in Inputs, w worked) error {
	v := notebook.Verdict{Name: "answer", Tone: notebook.Watch}
	size, doubt := squaring.Slope(math.Abs(float64(w.skew.Slope))), 2*w.skew.Uncertainty
	switch {
	case size <= doubt:
		v.Text = notebook.Say("These diagonals cannot tell the travels from square: {u}. ", of(w.skew))
	case w.skew.Slope > 0:
		v.Text = notebook.Say("The travels are open by {u} at the front left: as the tool goes back over the work it drifts left. ", of(w.skew))
	default:
		v.Text = notebook.Say("The travels are closed by {u} at the front left: as the tool goes back over the work it drifts right. ", notebook.Of(-w.skew.Slope, w.skew.Uncertainty, notebook.Slopes))
	}
	words := "The limit of {} lies inside the doubt: measure a larger rectangle."
	switch {
	case size+doubt <= in.Limit:
		v.Tone, words = notebook.Good, "That is within the {} that the work allows."
	case size-doubt > in.Limit:
		v.Tone, words = notebook.Stop, "That is beyond the {} that the work allows: correct the coordinates."
	}
	v.Text = append(v.Text, notebook.Say(words, slope(in.Limit))...)
	cross := w.skew.Slope.Rise(in.Y)
	s.Add(v,
		notebook.Figure{Name: "skew", Label: "Skew of the travels", Value: of(w.skew), Note: notebook.Plain("Plus when the corner at the front left is wider than a right angle.")},
		notebook.Figure{Name: "scale", Label: "What the screws make too long", Value: notebook.Of(w.scale.Slope, w.scale.Uncertainty, notebook.Slopes),
			Note: notebook.Say("{} on the diagonal of {}. Warm work reads here too: steel grows by {} for each degree Celsius.", notebook.Stepped(w.scale.Slope.Rise(w.asked), 0.1*um, notebook.FineLengths), side(w.asked), slope(11.5e-6))},
		correctionTable(in, w),
		notebook.Figure{Name: "drift", Label: "Drift over the y side", Value: notebook.Of(cross, w.skew.Uncertainty.Rise(in.Y), notebook.FineLengths),
			Note: notebook.Plain("To the left, going back. A pattern turned over shows it twice.")},
		notebook.Caution{Name: "pins", Text: notebook.Plain("Stop the spindle and let it run down before you reach over the work with pins or a vernier. Deburr the holes first: reamed edges cut.")},
	)
	return nil
}

// correctionTable lists where to send the tool for a true rectangle.
func correctionTable(in Inputs, w worked) notebook.Table {
	t := notebook.Table{Name: "correction", Title: "Where to go for a true rectangle",
		Columns: []notebook.Column{notebook.Col("Hole"), notebook.ColIn("x on the dial", notebook.Lengths), notebook.ColIn("y on the dial", notebook.Lengths), notebook.ColIn("moved in x by", notebook.FineLengths)},
		Note:    notebook.Plain("For the sides asked for, from the hole at the front left. Always come to a hole from the same side, so that lost motion drops out.")}
	shift := w.skew.Slope.Rise(in.Y)
	for i, name := range []string{"A, front left", "B, front right", "C, rear right", "D, rear left"} {
		x, y := [4]unit.Length{0 * mm, in.X, in.X, 0 * mm}[i], [4]unit.Length{0 * mm, 0 * mm, in.Y, in.Y}[i]
		move := shift
		if y == 0 {
			move = 0 * mm
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(name), notebook.Val(side(x + move)), notebook.Val(side(y)), notebook.Val(fine(move))})
	}
	return t
}

// drawItems draws the rectangle, its skew made large, and how the doubt falls
// with size.
func drawItems(s *notebook.Sheet, in Inputs, w worked) error {
	c := drawing.New("holes", "Four holes, their skew drawn large", "Four holes from above, front left A, front right B, rear right C, rear left D, with both diagonals; the rectangle that was asked for is dashed.", 420, 280)
	scale := math.Min(260/float64(in.X), 150/float64(in.Y))
	width, height := float64(in.X)*scale, float64(in.Y)*scale
	lean := 0.0
	if w.skew.Slope != 0 {
		lean = math.Copysign(math.Min(28, 0.16*height+4), float64(w.skew.Slope))
	}
	a := drawing.Point{X: 210 - width/2, Y: 215}
	b, cc, d := a.Add(width, 0), a.Add(width-lean, -height), a.Add(-lean, -height)
	c.Line(drawing.Hidden, a, b, a.Add(width, -height), a.Add(0, -height), a)
	c.Line(drawing.Visible, a, b, cc, d, a)
	c.Line(drawing.Marked, a, cc)
	c.Line(drawing.Marked, b, d)
	for i, p := range []drawing.Point{a, b, cc, d} {
		c.Circle(drawing.Steel, p, 7)
		c.Words(p.Add([4]float64{-16, 16, 16, -16}[i], [4]float64{20, 20, -10, -10}[i]), drawing.Middle, [4]string{"A", "B", "C", "D"}[i])
	}
	c.Label(drawing.Point{X: 210, Y: 244}, drawing.Middle, notebook.Say("{}", side(in.X)))
	c.Frame(drawing.Point{X: 14, Y: 262}, "x", "y")
	if w.skew.Slope != 0 && height > 0 {
		times := math.Abs(lean) / height / math.Abs(float64(w.skew.Slope))
		power := math.Pow(10, math.Floor(math.Log10(times))-1)
		c.Exaggerated("The skew is", math.Round(times/power)*power)
	}
	item, err := c.Item(notebook.Say("From above. A to C is {}, B to D {}. The dashed rectangle is what the dials were asked for.", side(w.ac.Length), side(w.bd.Length)))
	if err != nil {
		return err
	}
	chart, err := sizeChart(in, w)
	if err != nil {
		return err
	}
	s.Add(item, chart)
	return nil
}

// sizeChart draws how surely a rectangle of the same shape tells the skew, by its
// size.
func sizeChart(in Inputs, w worked) (notebook.Chart, error) {
	series := plot.Series{Label: "standard uncertainty", Style: plot.Curve}
	yours := plot.Series{Label: "yours", Style: plot.Dots, X: []float64{float64(w.asked)}, Y: []float64{float64(w.skew.Uncertainty)}}
	for i := 0; i <= 40; i++ {
		size := float64(w.asked) * (0.4 + 2.6*float64(i)/40)
		series.X, series.Y = append(series.X, size), append(series.Y, float64(w.skew.Uncertainty)*float64(w.asked)/size)
	}
	return plot.XY{Name: "size", Title: "A larger rectangle tells more",
		Caption: notebook.Say("Standard uncertainty of the skew from one reading of each diagonal, the shape kept. Twice the size, half the doubt: {} at yours.", slope(w.skew.Uncertainty)),
		X:       plot.Axis{Label: "Diagonal", Show: notebook.Lengths}, Y: plot.Axis{Label: "Uncertainty of the skew", Show: notebook.Slopes, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{series, yours}}.Chart()
}

// blockItems adds the block that proves its own corners.
func blockItems(s *notebook.Sheet, in Inputs, _ worked) error {
	round := make([]unit.Angle, len(in.Corners))
	for i, c := range in.Corners {
		round[i] = c.Over
	}
	p, err := squaring.ClosePolygon([][]unit.Angle{round}, in.CornerU)
	if err != nil {
		return notebook.InField("corners", err)
	}
	t := notebook.Table{Name: "corners-table", Title: "A block against one unknown angle",
		Columns: []notebook.Column{notebook.Col("Corner"), notebook.ColIn("Over the reference", notebook.Same(notebook.ArcSecond)), notebook.ColIn("Over 90°", notebook.Same(notebook.ArcSecond))},
		Note:    notebook.Say("Four corners sum to 360°, so the reference is 90° and {u}. The last column sums to nothing.", seconds(p.Reference))}
	for i, c := range p.Corners {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(fmt.Sprint(i + 1)), notebook.Val(notebook.Stepped(round[i], 0.1*squaring.Arcsecond, notebook.Same(notebook.ArcSecond))), notebook.Val(seconds(c))})
	}
	s.Add(t)
	return nil
}
