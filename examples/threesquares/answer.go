package threesquares

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 0.1*squaring.Microradian, notebook.Slopes)
}
func fine(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func measured(m squaring.MeasuredSlope) notebook.Quantity {
	return notebook.Of(m.Slope, m.Uncertainty, notebook.Slopes)
}

// turned is an angle as a slope, to first order.
func turned(a squaring.MeasuredAngle) squaring.MeasuredSlope {
	return squaring.MeasuredSlope{Slope: squaring.Slope(a.Angle), Uncertainty: squaring.Slope(a.Uncertainty)}
}

// ordinal names the three squares.
var ordinal = [3]string{"first", "second", "third"}

// setUpItems adds the drawing of two squares blade to blade.
func setUpItems(s *notebook.Sheet, in Inputs, w worked) error {
	c := drawing.New("blades", "Two squares, blade to blade",
		"Two squares stand on a plate with their blades toward each other. The blades touch at the foot and stand open at the top, by the sum of both squares' errors.", 420, 218)
	const foot, top = 176.0, 44.0
	sum := w.squares.Errors[0].Slope + w.squares.Errors[1].Slope
	lean := 7.0
	if sum < 0 {
		lean = -7
	}
	c.Box(drawing.Steel, drawing.Point{X: 40, Y: foot}, drawing.Point{X: 380, Y: foot + 16}, 0)
	middle := 210.0
	for i, side := range []float64{-1, 1} {
		// Blades open at the top when the sum is plus: each leans back.
		x := middle + side*2
		if lean < 0 {
			x = middle + side*9
		}
		c.Face(drawing.Steel, drawing.Point{X: x, Y: foot}, drawing.Point{X: x + side*lean, Y: top}, drawing.Point{X: x + side*(lean+15), Y: top}, drawing.Point{X: x + side*15, Y: foot})
		c.Box(drawing.Body, drawing.Point{X: x + side*10, Y: foot - 16}, drawing.Point{X: x + side*94, Y: foot}, 0)
		c.Words(drawing.Point{X: middle + side*96, Y: 110}, drawing.Middle, ordinal[i])
	}
	c.Words(drawing.Point{X: middle, Y: 28}, drawing.Middle, "open: plus")
	c.Exaggerated("The opening is", math.Round(2*math.Abs(lean)/(foot-top)/math.Max(math.Abs(float64(sum)), 1e-6)/100)*100)
	item, err := c.Item(notebook.Say("Blade to blade the two errors add: what stands open at the top over {} is the first square's error plus the second's. A square is plus when it is more open than a right angle.", length(in.Height)))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "edges", Text: notebook.Plain("Squares and blocks have sharp edges: stone the burrs off before you handle them, and lift a heavy block with the legs or with a second pair of hands.")})
	return nil
}

// squareItems adds the errors of the three squares.
func squareItems(s *notebook.Sheet, in Inputs, w worked) error {
	best, worst := 0, 0
	size := func(i int) squaring.Slope { return squaring.Slope(math.Abs(float64(w.squares.Errors[i].Slope))) }
	var groups []string
	var values, us []float64
	for i, e := range w.squares.Errors {
		if size(i) < size(best) {
			best = i
		}
		if size(i) > size(worst) {
			worst = i
		}
		s.Add(notebook.Figure{Name: "error-" + ordinal[i], Label: "The " + ordinal[i] + " square is out by", Value: measured(e),
			Note: notebook.Say("Over the {} read: {}. Plus: more open than a right angle.", length(in.Height), fine(e.Slope.Rise(in.Height)))})
		groups = append(groups, ordinal[i])
		values, us = append(values, float64(e.Slope)), append(us, float64(e.Uncertainty))
	}
	v := notebook.Verdict{Name: "best", Tone: notebook.Good, Text: notebook.Say("Keep the "+ordinal[best]+" square as your own: it is out by {u}. Mark each with its error and the date.", measured(w.squares.Errors[best]))}
	if size(best)+2*w.squares.Errors[best].Uncertainty > in.Limit {
		v.Tone, v.Text = notebook.Watch, notebook.Say("The truest is the "+ordinal[best]+", out by {u}; whether that is within {} is not sure. Use it with its error taken off.", measured(w.squares.Errors[best]), slope(in.Limit))
	}
	if size(best)-2*w.squares.Errors[best].Uncertainty > in.Limit {
		v.Tone, v.Text = notebook.Stop, notebook.Say("None is within {}: the truest, the "+ordinal[best]+", is out by {u}. It still serves, with its error taken off.", slope(in.Limit), measured(w.squares.Errors[best]))
	}
	same := notebook.Verdict{Name: "same", Tone: notebook.Note, Text: notebook.Plain("Each pair was compared once: nothing tells whether the same thing would be found again. Compare each twice.")}
	if w.squares.Scatter > 0 || w.squares.Chance < 1 {
		same.Tone, same.Text = notebook.Good, notebook.Say("Repeats of a pair scatter by {}, as the stated uncertainty of {} leads one to expect.", slope(w.squares.Scatter), slope(squaring.Slope(in.OpeningU/in.Height)))
		if !w.squares.Same {
			same.Tone, same.Text = notebook.Stop, notebook.Say("Repeats of a pair scatter by {}, far more than {}: not the same thing was measured each time. Dirt, a burr, the blade's other edge, or a square that slipped. The uncertainties here are from that scatter.", slope(w.squares.Scatter), slope(squaring.Slope(in.OpeningU/in.Height)))
		}
	}
	chart, err := plot.Bars{Name: "squares-chart", Title: "How far each square is out", What: "Square", Groups: groups,
		Caption: notebook.Say("The bars' strokes are one standard uncertainty either way. The "+ordinal[worst]+" is out most, by {}.", slope(w.squares.Errors[worst].Slope)),
		Value:   plot.Axis{Label: "More open than a right angle", Show: notebook.Slopes}, Series: []plot.BarSeries{{Label: "error", Values: values, U: us}},
		Limits: []plot.Limit{{Label: "limit", Y: float64(in.Limit)}, {Label: "limit", Y: -float64(in.Limit)}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(v, same, chart)
	return nil
}

// cornerItems adds the reference and the corners.
func cornerItems(s *notebook.Sheet, in Inputs, w worked) error {
	even := 180 - 360/float64(len(in.Corners))
	s.Add(notebook.Figure{Name: "reference", Label: "The square that read the corners is out by", Value: measured(turned(w.polygon.Reference)),
		Note: notebook.Say("Against an even corner of {}. It follows from the corners alone.", notebook.Exact(unit.Angle(even)*squaring.Degree, notebook.Angles))})
	t := notebook.Table{Name: "corners-table", Title: "The corners of the block",
		Columns: []notebook.Column{notebook.Col("Corner"), notebook.ColIn("More open than an even one", notebook.Slopes), notebook.ColIn("Over its height", notebook.FineLengths)},
		Note:    notebook.Plain("They sum to nothing: what one corner is too open another is too tight.")}
	var groups []string
	var values, us, raw []float64
	for i, corner := range w.polygon.Corners {
		m := turned(corner)
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(fmt.Sprint(i + 1)), notebook.Val(measured(m)), notebook.Val(fine(m.Slope.Rise(in.Side)))})
		groups = append(groups, fmt.Sprint(i+1))
		values, us = append(values, float64(m.Slope)), append(us, float64(m.Uncertainty))
		mean := 0.0
		for _, round := range w.rounds {
			mean += float64(round[i]) / float64(len(w.rounds))
		}
		raw = append(raw, mean)
	}
	chart, err := plot.Bars{Name: "corners-chart", Title: "The corners, as read and as they are", What: "Corner", Groups: groups,
		Caption: notebook.Say("As read, all corners share the square's error, {}. Taken out, they sum to nothing.", slope(turned(w.polygon.Reference).Slope)),
		Value:   plot.Axis{Label: "More open", Show: notebook.Slopes},
		Series:  []plot.BarSeries{{Label: "as read", Values: raw}, {Label: "the block's own", Values: values, U: us}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(t, chart, roundVerdict(w))
	return nil
}

// roundVerdict says whether the second round saw the same block.
func roundVerdict(w worked) notebook.Verdict {
	v := notebook.Verdict{Name: "rounds", Tone: notebook.Note, Text: notebook.Plain("One round was read. A second one would tell whether the same corners were measured.")}
	if len(w.polygon.Rounds) == 0 {
		return v
	}
	r := w.polygon.Rounds[0]
	switch {
	case r.Same:
		v.Tone, v.Text = notebook.Good, notebook.Say("Both rounds saw the same block: their differences are {} times what the stated uncertainty explains.", notebook.Exact(r.Ratio, notebook.Numbers).WithDigits(2))
	case r.BegunAt > 1 || r.Backward:
		way := ""
		if r.Backward {
			way = ", going the other way round"
		}
		v.Tone, v.Text = notebook.Stop, notebook.Say("The second round did not see the corners in this order. It agrees best when begun at corner {}"+way+". Number the corners on the block.", notebook.Whole(r.BegunAt))
	default:
		v.Tone, v.Text = notebook.Stop, notebook.Say("The second round saw something else: its differences are {} times what the stated uncertainty explains. Clean block and plate and read both again.", notebook.Exact(r.Ratio, notebook.Numbers).WithDigits(2))
	}
	return v
}

// workItems adds what a square that is out does to a block.
func workItems(s *notebook.Sheet, in Inputs, w worked) error {
	t := notebook.Table{Name: "out", Title: "A block squared with each of them",
		Columns: []notebook.Column{notebook.Col("Square"), notebook.ColIn("Out over the block", notebook.FineLengths), notebook.ColIn("With its error taken off, doubt", notebook.FineLengths)},
		Note:    notebook.Say("Over {}.", length(in.Side))}
	for i, e := range w.squares.Errors {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(ordinal[i]), notebook.Val(fine(e.Slope.Rise(in.Side))), notebook.Val(fine(e.Uncertainty.Rise(in.Side)))})
	}
	s.Add(t)
	// The shop's square is the first; the corners were read with it.
	a, b := w.squares.Errors[0], turned(w.polygon.Reference)
	u := squaring.Slope(math.Hypot(float64(a.Uncertainty), float64(b.Uncertainty)))
	v := notebook.Verdict{Name: "agree", Tone: notebook.Good, Text: notebook.Say("If the corners were read with the first square, both ways agree on it: {u} from the three squares, {u} from the corners.", measured(a), measured(b))}
	if math.Abs(float64(a.Slope-b.Slope)) > 2*float64(u) {
		v.Tone, v.Text = notebook.Watch, notebook.Say("If the corners were read with the first square, the two ways do not agree: {u} from the three squares, {u} from the corners.", measured(a), measured(b))
	}
	s.Add(v)
	return nil
}
