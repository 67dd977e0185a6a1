package square

import (
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

// setUpItems adds the caution and the drawing.
func setUpItems(s *notebook.Sheet, _ Inputs, results [2]result) error {
	own := results[0].square.Square.Slope
	if !results[0].read {
		own = results[1].square.Square.Slope
	}
	// The blade is drawn 1 in 19 out: away from the dial when its error is plus.
	const drawn, high = 7.0, 130.0
	side := -math.Copysign(drawn, float64(own))
	times := drawn / high / math.Max(math.Abs(float64(own)), 1e-6)
	times = math.Round(times/100) * 100
	c := drawing.New("positions", "The square, both ways round",
		"A square on the table with a still dial at its blade: on the left as marked, on the right turned end for end, so that its blade leans the other way. The knee goes up.", 420, 212)
	for i, words := range []string{"as marked", "turned end for end"} {
		x := 105 + 210*float64(i)
		lean := side
		if i == 1 {
			lean = -side
		}
		foot := drawing.Point{X: x - 30, Y: 166}
		c.Face(drawing.Steel, foot, foot.Add(lean, -high), foot.Add(lean+16, -high), foot.Add(16, 0))
		if i == 0 {
			c.Box(drawing.Body, foot.Add(-46, -14), foot.Add(17, 0), 0)
		} else {
			c.Box(drawing.Body, foot.Add(-1, -14), foot.Add(62, 0), 0)
		}
		c.Box(drawing.Steel, drawing.Point{X: x - 94, Y: 166}, drawing.Point{X: x + 94, Y: 180}, 0)
		tip := foot.Add(16+lean*0.6, -80)
		c.Line(drawing.Visible, tip, tip.Add(24, 0))
		c.Circle(drawing.Solid, tip.Add(2, 0), 2.5)
		c.Dial(tip.Add(44, 0), 20, 0.1)
		c.Arrow(drawing.Marked, drawing.Point{X: x + 84, Y: 160}, drawing.Point{X: x + 84, Y: 120})
		c.Words(drawing.Point{X: x, Y: 20}, drawing.Middle, words)
	}
	c.Words(drawing.Point{X: 190, Y: 110}, drawing.Middle, "knee")
	c.Exaggerated("The blade's error is", times)
	item, err := c.Item(notebook.Plain("The dial stays, the knee goes up. Turned end for end about the upright, the blade's own error changes sign and the lean of the knee does not. Keep the dial on the same side of the blade."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "isolate", Text: notebook.Plain(
		"Isolate the spindle before a dial or a hand goes between it and the table. Raise the knee by hand and watch the dial: a knee run up into a dial or a head crushes fingers and breaks castings.")})
	return nil
}

// noReadings is why a direction is not known.
const noReadings = "there are no readings in this direction"

// answerItems adds lean and square in both directions.
func answerItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	s.Add(kneeVerdict(in, results), squareVerdict(results))
	for i, letter := range []string{"x", "y"} {
		r := results[i]
		lean := notebook.Figure{Name: "lean-" + letter, Label: "Lean of the knee " + r.name}
		own := notebook.Figure{Name: "square-" + letter, Label: "The square's own error, " + r.name}
		if !r.read {
			lean.Unknown, own.Unknown = noReadings, noReadings
		} else {
			lean.Value, own.Value = measured(r.square.Lean), measured(r.square.Square)
			lean.Note = notebook.Say("Plus when the table goes to the "+r.plus+" as it rises. One reading scatters by {} about the lines; its rounding leaves {}.", height(r.square.Scatter), height(r.square.Rounding))
			own.Note = notebook.Plain("As marked. Plus adds to the dial as the knee rises.")
		}
		s.Add(lean, own)
	}
	return nil
}

// kneeVerdict sets the lean against the limit.
func kneeVerdict(in Inputs, results [2]result) notebook.Verdict {
	v := notebook.Verdict{Name: "knee", Tone: notebook.Good, Text: notebook.Say("The knee rises square to the table within {}, doubt included.", slope(in.Limit))}
	for _, r := range results {
		if !r.read {
			continue
		}
		lean := r.square.Lean
		size := squaring.Slope(math.Abs(float64(lean.Slope)))
		switch {
		case size-2*lean.Uncertainty > in.Limit:
			v.Tone = notebook.Stop
			v.Text = notebook.Say("The knee leans "+r.name+" by {u}: more than {}, doubt or not.", measured(lean), slope(in.Limit))
			return v
		case size+2*lean.Uncertainty > in.Limit:
			v.Tone = notebook.Watch
			v.Text = notebook.Say("Whether the knee is within {} "+r.name+" cannot be said: {u}.", slope(in.Limit), measured(lean))
		}
	}
	return v
}

// squareVerdict says whether both directions find the same error of the square.
func squareVerdict(results [2]result) notebook.Verdict {
	v := notebook.Verdict{Name: "own", Tone: notebook.Note}
	a, b := results[0].square.Square, results[1].square.Square
	if !results[0].read || !results[1].read {
		v.Text = notebook.Plain("With one direction only, nothing checks the square's error. Read the other too: the same square must show the same error.")
		return v
	}
	u := squaring.Slope(math.Hypot(float64(a.Uncertainty), float64(b.Uncertainty)))
	if math.Abs(float64(a.Slope-b.Slope)) <= float64(3*u) {
		mean := (a.Slope + b.Slope) / 2
		v.Tone, v.Text = notebook.Good, notebook.Say("Both directions find the same error of the square, {} and {}. Mark it on the square: over {} it is {}.", slope(a.Slope), slope(b.Slope), length(100*mm), height(mean.Rise(100*mm)))
		return v
	}
	v.Tone, v.Text = notebook.Watch, notebook.Say("The square seems out by {} in one direction and {} in the other. It is the same square: something under its foot, a dial that slipped, or the other face was read.", slope(a.Slope), slope(b.Slope))
	return v
}

// chartItems adds the readings of both directions.
func chartItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	for i, letter := range []string{"x", "y"} {
		r := results[i]
		name, title := "lines-"+letter, "Dial against height, blade facing "+r.name
		if !r.read {
			s.Add(notebook.Chart{Name: name, Title: title, Unknown: noReadings})
			continue
		}
		marked, turned := plot.Series{Label: "as marked", Style: plot.Line}, plot.Series{Label: "turned", Style: plot.Line}
		knee := plot.Series{Label: "knee alone", Style: plot.Curve}
		caption := notebook.Say("Half way between the two lies the knee, {} over the height read.", slope(r.square.Lean.Slope))
		for _, row := range r.rows {
			h := float64(row.Height)
			marked.X, marked.Y = append(marked.X, h), append(marked.Y, float64(row.Marked))
			turned.X, turned.Y = append(turned.X, h), append(turned.Y, float64(row.Turned))
			knee.X, knee.Y = append(knee.X, h), append(knee.Y, float64(r.square.Lean.Slope)*h)
		}
		chart, err := plot.XY{Name: name, Title: title, Caption: caption,
			X: plot.Axis{Label: "Knee raised by", Show: notebook.Lengths}, Y: plot.Axis{Label: "Dial", Show: notebook.FineLengths},
			Series: []plot.Series{marked, turned, knee}}.Chart()
		if err != nil {
			return err
		}
		s.Add(chart)
	}
	return nil
}

// workItems adds where a hole goes when the knee moves between two tools.
func workItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	hole := squaring.Hole{Feed: squaring.ByKnee, Depth: in.Rise}
	hole.KneeLean = squaring.Gradient{X: results[0].square.Lean.Slope, Y: results[1].square.Lean.Slope}
	hole.KneeLeanU = squaring.Gradient{X: results[0].square.Lean.Uncertainty, Y: results[1].square.Lean.Uncertainty}
	made, err := hole.Made()
	if err != nil {
		return err
	}
	for i, shift := range []notebook.Figure{
		{Name: "shift-x", Label: "The second tool lands to the right by", Value: notebook.Of(made.ShiftX, made.ShiftXU, notebook.FineLengths)},
		{Name: "shift-y", Label: "The second tool lands to the back by", Value: notebook.Of(made.ShiftY, made.ShiftYU, notebook.FineLengths)},
	} {
		shift.Note = notebook.Say("With the knee raised by {} between the two tools. Lowered, it lands the other way.", length(in.Rise))
		if !results[i].read {
			shift.Unknown = noReadings
		}
		s.Add(shift)
	}
	return nil
}

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	r := results[0]
	if !r.read {
		r = results[1]
	}
	believed := r.square.Lean.Slope + r.square.Square.Slope
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-trust", notebook.Say("Trust the square and the knee seems to lean "+r.name+" by {}. Turned round, {} of that was the square.", slope(believed), slope(r.square.Square.Slope))),
		note("wrong-blocks", notebook.Say("Every block squared by it is wrong alike: {} over {}.", height(r.square.Square.Slope.Rise(60*mm)), length(60*mm))),
		note("wrong-long", notebook.Say("A reach of {} on the knee between a drill and a reamer shifts the hole by {}. Short tools and a high knee keep it small.", length(in.Rise), height(r.square.Lean.Slope.Rise(in.Rise)))),
	)
	return nil
}

// checkItems sets what this lesson computes with against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ [2]result) error {
	r, err := squaring.ReverseSquare([]squaring.EdgeReading{{}, {Height: 250 * mm, Reading: 18 * um}, {Turned: true}, {Height: 250 * mm, Reading: -6 * um, Turned: true}}, 0*mm)
	if err != nil {
		return err
	}
	bore, err := squaring.Hole{Feed: squaring.ByKnee, Tilt: squaring.Gradient{Y: squaring.Slope(math.Tan(math.Pi / 180))}, Diameter: 50 * mm}.Made()
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-axis", "square-reversal-axis", r.Lean.Slope.Arcseconds()),
		notebook.CheckRow("check-square", "square-reversal-square", r.Square.Slope.Arcseconds()),
		notebook.CheckRow("check-oval", "oval-50-degree", float64(bore.Ovality/um)),
	)
	return nil
}
