package jaw

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
	return notebook.Stepped(s, 1*squaring.Microradian, notebook.Slopes)
}
func height(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func measured(m squaring.MeasuredSlope) notebook.Quantity {
	return notebook.Of(m.Slope, m.Uncertainty, notebook.Slopes)
}
func long(m squaring.MeasuredLength) notebook.Quantity {
	return notebook.Of(m.Length, m.Uncertainty, notebook.FineLengths)
}

// setUpItems adds the cautions and the drawing of the four errors.
func setUpItems(s *notebook.Sheet, in Inputs, r result) error {
	c := drawing.New("four", "Four errors of one vise",
		"Four small sketches. Twist: the jaw from above, turned against the travel. Hollow: the jaw from above, worn back in the middle. Lean: the jaw from the side, its top leaning back. Lift: the work from the side, its moving-jaw side lifted off the bottom.", 420, 330)
	drawTwistAndHollow(c)
	drawLeanAndLift(c)
	c.Note(drawing.Point{X: 210, Y: 324}, drawing.Middle, "Sketches: every error is drawn far larger than it is.")
	item, err := c.Item(notebook.Plain("Twist and hollow are seen from above, the table's travel dash-dotted. Lean and lift are seen from the left-hand side of the machine, the fixed jaw at the back. Not to scale."))
	if err != nil {
		return err
	}
	s.Add(item,
		notebook.Caution{Name: "isolate", Text: notebook.Plain("Isolate the spindle before you put a dial in it or lean over the vise. A vise of this size can weigh more than a person should lift: use a hoist or a second person.")},
		notebook.Caution{Name: "throw", Text: notebook.Plain("A part that touches a jaw only at its ends, or that has lifted off its parallels, can be thrown by the cutter. If a parallel under it can be pulled out by hand, do not cut. Take the vise handle off before the spindle is switched on.")})
	return nil
}

// drawTwistAndHollow draws the jaw from above, twice.
func drawTwistAndHollow(c *drawing.Canvas) {
	for i, words := range []string{"twist", "hollow"} {
		x := 105 + 210*float64(i)
		c.Words(drawing.Point{X: x, Y: 20}, drawing.Middle, words)
		c.Line(drawing.Centre, drawing.Point{X: x - 90, Y: 104}, drawing.Point{X: x + 90, Y: 104})
		if i == 0 {
			c.Face(drawing.Steel, drawing.Point{X: x - 70, Y: 84}, drawing.Point{X: x + 70, Y: 94}, drawing.Point{X: x + 70, Y: 58}, drawing.Point{X: x - 70, Y: 48})
			continue
		}
		var edge []drawing.Point
		for n := 0; n <= 20; n++ {
			v := float64(n)/10 - 1
			edge = append(edge, drawing.Point{X: x + 70*v, Y: 90 - 12*(1-v*v)})
		}
		c.Face(drawing.Steel, append(edge, drawing.Point{X: x + 70, Y: 50}, drawing.Point{X: x - 70, Y: 50})...)
	}
}

// drawLeanAndLift draws jaw and work from the side, twice.
func drawLeanAndLift(c *drawing.Canvas) {
	for i, words := range []string{"lean", "lift"} {
		x, base := 105+210*float64(i), 290.0
		c.Words(drawing.Point{X: x, Y: 150}, drawing.Middle, words)
		c.Box(drawing.Body, drawing.Point{X: x - 90, Y: base}, drawing.Point{X: x + 90, Y: base + 14}, 0)
		lean := 0.0
		if i == 0 {
			lean = 14
		}
		c.Face(drawing.Steel, drawing.Point{X: x - 44, Y: base}, drawing.Point{X: x - 44 - lean, Y: base - 80}, drawing.Point{X: x - 84, Y: base - 80}, drawing.Point{X: x - 84, Y: base})
		c.Face(drawing.Steel, drawing.Point{X: x + 50, Y: base - 4}, drawing.Point{X: x + 50, Y: base - 84}, drawing.Point{X: x + 84, Y: base - 84}, drawing.Point{X: x + 84, Y: base - 4})
		if i == 0 {
			c.Face(drawing.Body, drawing.Point{X: x - 44, Y: base}, drawing.Point{X: x - 56, Y: base - 68}, drawing.Point{X: x + 36, Y: base - 84}, drawing.Point{X: x + 48, Y: base - 16})
			continue
		}
		c.Face(drawing.Wedge, drawing.Point{X: x - 44, Y: base}, drawing.Point{X: x + 50, Y: base - 14}, drawing.Point{X: x + 50, Y: base})
		c.Face(drawing.Body, drawing.Point{X: x - 44, Y: base}, drawing.Point{X: x - 44, Y: base - 70}, drawing.Point{X: x + 50, Y: base - 84}, drawing.Point{X: x + 50, Y: base - 14})
	}
}

// turnItems adds the twist and how far to tap.
func turnItems(s *notebook.Sheet, in Inputs, r result) error {
	yaw := r.run.Yaw
	tap := r.run.TapAt(in.Tap - in.Bolt)
	v := notebook.Verdict{Name: "turn", Tone: notebook.Good, Text: notebook.Say("The jaw is turned {u} to the travel: within {}, doubt included. Leave it.", measured(yaw), slope(in.Limit))}
	if math.Abs(float64(yaw.Slope))+2*float64(yaw.Uncertainty) > float64(in.Limit) {
		way := "toward the dial"
		if tap.Length > 0 {
			way = "away from the dial"
		}
		v.Tone = notebook.Note
		v.Text = notebook.Say("The jaw is turned {u} to the travel. Tap the place at {} "+way+" by {}.", measured(yaw), length(in.Tap), height(unit.Length(math.Abs(float64(tap.Length)))))
	}
	twist := notebook.Figure{Name: "twist", Label: "Twist of the jaw to the travel", Value: measured(yaw),
		Note: notebook.Say("Plus when its right end is nearer to the dial, the hollow taken out. Over a part of {} that is {}.", length(in.Part), height(yaw.Slope.Rise(in.Part)))}
	chart, err := jawChart(in, r)
	if err != nil {
		return err
	}
	s.Add(v, twist, tapFigure(in, r), chart)
	return nil
}

// tapFigure is what the last tap did.
func tapFigure(in Inputs, r result) notebook.Figure {
	f := notebook.Figure{Name: "last-tap", Label: "What the last tap turned"}
	if !r.hasBefore {
		f.Unknown = "there is no run from before the tap"
		return f
	}
	u := squaring.Slope(math.Hypot(float64(r.run.Yaw.Uncertainty), float64(r.before.Yaw.Uncertainty)))
	f.Value = notebook.Of(r.run.Yaw.Slope-r.before.Yaw.Slope, u, notebook.Slopes)
	f.Note = notebook.Say("At the place where you tap, {} from the bolt, the jaw went {}.", length(in.Tap-in.Bolt), height((r.run.Yaw.Slope - r.before.Yaw.Slope).Rise(in.Tap-in.Bolt)))
	return f
}

// jawChart draws the runs and the fitted curve.
func jawChart(in Inputs, r result) (notebook.Chart, error) {
	now := plot.Series{Label: "now", Style: plot.Dots}
	for _, p := range in.Run {
		now.X, now.Y = append(now.X, float64(p.Place)), append(now.Y, float64(p.Shown))
		now.U = append(now.U, float64(max(r.run.Scatter, r.run.Rounding)))
	}
	low, high := now.X[0], now.X[0]
	for _, x := range now.X {
		low, high = math.Min(low, x), math.Max(high, x)
	}
	curve := plot.Series{Label: "line and hollow", Style: plot.Curve}
	line := plot.Series{Label: "line alone", Style: plot.Curve}
	for i := 0; i <= 40; i++ {
		x := unit.Length(low + (high-low)*float64(i)/40)
		curve.X, curve.Y = append(curve.X, float64(x)), append(curve.Y, float64(r.run.Expect(x)))
	}
	ends := [2]unit.Length{unit.Length(low), unit.Length(high)}
	for _, x := range ends {
		line.X, line.Y = append(line.X, float64(x)), append(line.Y, float64(r.run.Expect(x)))
	}
	series := []plot.Series{now, curve, line}
	if r.hasBefore {
		before := plot.Series{Label: "before the tap", Style: plot.Dots}
		for _, p := range in.Before {
			before.X, before.Y = append(before.X, float64(p.Place)), append(before.Y, float64(p.Shown))
		}
		series = append(series, before)
	}
	return plot.XY{Name: "jaw-chart", Title: "The run along the jaw",
		Caption: notebook.Say("The line through the ends turns by {}; between line and curve lies the hollow, {}.", slope(r.run.Yaw.Slope), height(r.run.Hollow.Length)),
		X:       plot.Axis{Label: "Place along the jaw", Show: notebook.Lengths}, Y: plot.Axis{Label: "Dial", Show: notebook.FineLengths}, Series: series}.Chart()
}

// hollowItems adds the hollow and what a part makes of it.
func hollowItems(s *notebook.Sheet, in Inputs, r result) error {
	gap := r.run.SitsBack(in.Part)
	v := notebook.Verdict{Name: "hollow-verdict", Tone: notebook.Good, Text: notebook.Say("The jaw cannot be told from straight.")}
	switch {
	case r.run.Hollow.Length > 2*r.run.Hollow.Uncertainty:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("The jaw is worn hollow. Zero at both ends does not make it straight: a part of {} in the middle spans a gap of {}, and a short one sits up to {} back.", length(in.Part), height(gap.Length), height(r.run.Hollow.Length))
	case r.run.Hollow.Length < -2*r.run.Hollow.Uncertainty:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("The jaw stands out in the middle by {}: a long part rocks on it.", height(-r.run.Hollow.Length))
	}
	s.Add(v,
		notebook.Figure{Name: "hollow", Label: "Hollow of the jaw", Value: long(r.run.Hollow), Note: notebook.Say("Over the {} that were read, against the line through the ends. A travel that is curved itself looks the same.", length(r.run.Length))},
		notebook.Figure{Name: "gap", Label: "Gap behind the part", Value: long(gap), Note: notebook.Say("Behind the middle of a part of {}.", length(in.Part))})
	return nil
}

// leanItems adds the lean and the shim.
func leanItems(s *notebook.Sheet, in Inputs, r result) error {
	note := notebook.Plain("Plus when its top stands away from the work. Read with one face of the block only, the block's own error is still in it: turn it upside down.")
	if in.LeanOver != nil {
		note = notebook.Say("Plus when its top stands away from the work. The block's own error, {} over the same height, has dropped out.", height((in.Lean-*in.LeanOver)/2))
	}
	s.Add(
		notebook.Figure{Name: "lean", Label: "Lean of the jaw", Value: measured(r.lean), Note: note},
		notebook.Figure{Name: "shim", Label: "Shim high on the jaw", Value: notebook.Of(r.lean.Slope.Rise(in.JawHeight), r.lean.Uncertainty.Rise(in.JawHeight), notebook.FineLengths),
			Note: notebook.Say("At {} above the bottom of the jaw it stands the work upright. A minus sign puts it at the bottom.", length(in.JawHeight))})
	return nil
}

// liftItems adds the lift.
func liftItems(s *notebook.Sheet, in Inputs, r result) error {
	lift, err := in.liftSlope()
	if err != nil {
		return err
	}
	s.Add(notebook.Figure{Name: "lift", Label: "Tip of the work by the lift", Value: measured(lift),
		Note: notebook.Say("The moving jaw carries its side of the work up by {} over the {} from jaw to jaw. A round bar between work and moving jaw lets the work stay down on its parallels and flat on the fixed jaw.", height(in.Lift), length(in.Deep))})
	return nil
}

// liftSlope is the lift over the depth of the work.
func (in Inputs) liftSlope() (squaring.MeasuredSlope, error) {
	u := squaring.Indicator{Division: in.Step, ReadTo: 1}.RoundingU() * unit.Length(math.Sqrt2)
	s, err := squaring.MeasureSlope(in.Lift, u, in.Deep, 0*mm)
	return s, notebook.InField("deep", err)
}

// expected is how far the second face comes out, as a slope, in one way of
// holding. The lean tips the work against the fixed jaw; the lift tips it
// further, unless a round bar lets it float; the shim takes the lean away.
func (in Inputs) expected(r result, holding string) (squaring.MeasuredSlope, error) {
	lift, err := in.liftSlope()
	if err != nil {
		return lift, err
	}
	switch holding {
	case withBar:
		return r.lean, nil
	case withShim:
		return squaring.MeasuredSlope{Uncertainty: r.lean.Uncertainty}, nil
	}
	return squaring.MeasuredSlope{Slope: r.lean.Slope + lift.Slope, Uncertainty: squaring.Slope(math.Hypot(float64(r.lean.Uncertainty), float64(lift.Uncertainty)))}, nil
}

// blockItems adds what a block comes out like, and the blocks that did.
func blockItems(s *notebook.Sheet, in Inputs, r result) error {
	table := notebook.Table{Name: "holding", Title: "How far the second face comes out",
		Columns: []notebook.Column{notebook.Col("Held"), notebook.ColIn("Out of square", notebook.Slopes), notebook.ColIn("Over the part", notebook.FineLengths)},
		Note:    notebook.Say("Over the height of {}, from lean and lift. The faces stay parallel to one another all the same.", length(in.High))}
	best := ""
	for _, holding := range []string{asClamped, withBar, withShim} {
		out, err := in.expected(r, holding)
		if err != nil {
			return err
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(holding), notebook.Val(measured(out)), notebook.Val(notebook.Of(out.Slope.Rise(in.High), out.Uncertainty.Rise(in.High), notebook.FineLengths))})
		if best == "" && math.Abs(float64(out.Slope))+2*float64(out.Uncertainty) <= float64(in.Limit) {
			best = holding
		}
	}
	v := notebook.Verdict{Name: "block", Tone: notebook.Stop, Text: notebook.Say("No way of holding keeps the block square within {}, doubt included. Dress the jaw, or square it on an angle plate.", slope(in.Limit))}
	if best != "" {
		v.Tone, v.Text = notebook.Good, notebook.Say("To keep the block square within {}, doubt included, hold it: "+best+".", slope(in.Limit))
	}
	trials, err := trialTable(in, r)
	if err != nil {
		return err
	}
	s.Add(v, table, trials)
	return nil
}

// trialTable sets the blocks that were squared beside what was expected.
func trialTable(in Inputs, r result) (notebook.Table, error) {
	t := notebook.Table{Name: "trials-table", Title: "The blocks that were squared",
		Columns: []notebook.Column{notebook.Col("Held"), notebook.ColIn("By a square", notebook.FineLengths), notebook.ColIn("By turning it, halved", notebook.FineLengths), notebook.ColIn("Expected", notebook.FineLengths)},
		Note:    notebook.Say("Over {}. Where the two readings differ, the square's own error, or a burr, is between them.", length(in.High))}
	for i, trial := range in.Trials {
		out, err := in.expected(r, trial.Holding)
		if err != nil {
			return t, notebook.InRow("trials", i+1, "holding", fmt.Errorf("%w", err))
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(trial.Holding), notebook.Val(height(trial.BySquare)), notebook.Val(height(trial.ByReverse / 2)),
			notebook.Val(notebook.Of(out.Slope.Rise(in.High), out.Uncertainty.Rise(in.High), notebook.FineLengths))})
	}
	return t, nil
}
