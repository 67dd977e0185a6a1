package stoprule

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
func chance(p float64) notebook.Quantity {
	return notebook.Stepped(p, 0.01, notebook.Numbers)
}

// answerItems adds the decision.
func answerItems(s *notebook.Sheet, in Inputs, all []weighed) error {
	now, next := both(all)
	table := notebook.Table{Name: "chances", Title: "What stands, and what a new try promises",
		Columns: []notebook.Column{notebook.Col("Direction"), notebook.ColIn("Tilt now", notebook.Slopes), notebook.ColIn("Scatter", notebook.Slopes), notebook.ColIn("Even chance at", notebook.Slopes),
			notebook.Col("Within the limit now"), notebook.Col("Within it after a try"), notebook.Col("A try is nearer")},
		Note: notebook.Say("Chances. The limit is {} either way in each direction; the scatter's own doubt is counted (Student's t). A tilt below the even chance, were it known exactly, is likelier to be worsened by a try than bettered.", slope(in.Limit))}
	for _, w := range all {
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(w.Name), notebook.Val(notebook.Of(w.Residual, w.ResidualU, notebook.Slopes)), notebook.Val(slope(w.Scatter)), notebook.Val(slope(w.try.Break())),
			notebook.Val(chance(w.chances.WithinNow)), notebook.Val(chance(w.chances.Within)), notebook.Val(chance(w.chances.Better))})
	}
	dice, err := diceDrawing(in, all)
	if err != nil {
		return err
	}
	s.Add(decision(in, all, now, next), table,
		notebook.Figure{Name: "now", Label: "Chance that all is within the limit now", Value: chance(now), Note: notebook.Plain("Of what stands, its doubt counted.")},
		notebook.Figure{Name: "next", Label: "Chance that all is within it after one more try", Value: chance(next), Note: notebook.Plain("A try throws every direction again, the good one too.")},
		timeFigure(in, next), dice,
		notebook.Caution{Name: "support", Text: notebook.Plain("Each try slackens a heavy head. Isolate the machine, hold the head up with a jack or a hoist first, and end with every bolt at full torque, whatever the reading says.")},
	)
	return nil
}

// decision says stop or go.
func decision(in Inputs, all []weighed, now, next float64) notebook.Verdict {
	v := notebook.Verdict{Name: "decision"}
	better := 0
	for _, w := range all {
		if w.chances.Better > 0.5 {
			better++
		}
	}
	switch {
	case now >= 0.95:
		v.Tone, v.Text = notebook.Good, notebook.Say("Stop. What stands is within {} with a chance of {}; a new try would be with {}. Cut.", slope(in.Limit), chance(now), chance(next))
	case next <= now:
		v.Tone, v.Text = notebook.Watch, notebook.Say("Stop trying. What stands is within {} with a chance of {}, and a new try only with {}. Measure more surely, or scatter less: another way of tightening, cleaner faces, more passes.", slope(in.Limit), chance(now), chance(next))
	case better == 0:
		v.Tone, v.Text = notebook.Watch, notebook.Say("Leave it. The chance of being within {} would go from {} to {}, but in no direction is a new try likelier to end nearer than farther.", slope(in.Limit), chance(now), chance(next))
	default:
		v.Tone, v.Text = notebook.Note, notebook.Say("One more try is worth it: the chance of being within {} goes from {} to {}.", slope(in.Limit), chance(now), chance(next))
	}
	return v
}

// timeFigure says how long it takes to be within the limit nine times in ten.
func timeFigure(in Inputs, next float64) notebook.Figure {
	f := notebook.Figure{Name: "time", Label: "Time until a try has likely succeeded"}
	tries, ok := squaring.TryChances{Within: next}.TriesNeeded(0.9)
	if !ok {
		f.Unknown = "with this scatter hardly any try ends within the limit"
		return f
	}
	f.Value = notebook.Stepped(in.Minutes*unit.Time(tries), 60*unit.Second, notebook.Minutes)
	f.Note = notebook.Say("Nine times in ten it takes no more than this many tries: {}.", notebook.Whole(tries))
	return f
}

// diceDrawing shows where a new try ends, for the direction that stands farther out: a bell over
// the tilt, with the limits and what stands now.
func diceDrawing(in Inputs, all []weighed) (notebook.Drawing, error) {
	w := all[0]
	for _, other := range all {
		if math.Abs(float64(other.Residual)) > math.Abs(float64(w.Residual)) {
			w = other
		}
	}
	s := float64(w.Scatter)
	reach := math.Max(3.2*s, math.Max(1.2*math.Abs(float64(w.Residual)), math.Min(1.2*float64(in.Limit), 14*s)))
	view := drawing.View{Origin: drawing.Point{X: 210, Y: 172}, Along: 190 / reach, Up: 128}
	c := drawing.New("dice", "Where a new try ends",
		"A bell-shaped curve over the tilt, highest at zero, with upright lines for the limits and for what stands now.", 420, 228)
	var bell []drawing.Point
	for i := 0; i <= 160; i++ {
		x := reach * (float64(i)/80 - 1)
		bell = append(bell, view.At(x, math.Exp(-x*x/(2*s*s))))
	}
	c.Line(drawing.Thin, view.At(-reach, 0), view.At(reach, 0))
	c.Line(drawing.Visible, bell...)
	for _, limit := range []float64{-float64(in.Limit), float64(in.Limit)} {
		if math.Abs(limit) <= reach {
			c.Line(drawing.Hidden, view.At(limit, 0), view.At(limit, 1.02))
			c.Words(view.At(limit, 1.06), drawing.Middle, "limit")
		}
	}
	c.Arrow(drawing.Marked, view.At(float64(w.Residual), 0).Add(0, 44), view.At(float64(w.Residual), 0).Add(0, 3))
	anchor, at := drawing.Start, view.At(float64(w.Residual), 0).Add(8, 38)
	if at.X > 260 {
		anchor, at = drawing.End, at.Add(-16, 0)
	}
	c.Label(at, anchor, notebook.Say("now {}", slope(w.Residual)))
	return c.Item(notebook.Say("A new setting "+w.Name+" ends anywhere under the curve, scatter {}, however carefully it was begun. The nearer the head stands to the middle now, the less there is to win.", slope(w.Scatter)))
}

// ladderItems adds the rule as a table and as a curve.
func ladderItems(s *notebook.Sheet, in Inputs, all []weighed) error {
	table := notebook.Table{Name: "ladder", Title: "The rule, for a scatter that is known",
		Columns: []notebook.Column{notebook.Col("What stands, over the scatter"), notebook.Col("A new try is nearer with chance")}}
	for _, ratio := range []float64{0.25, 0.5, 0.674, 1, 1.5, 2, 3} {
		chances, err := squaring.NextTry{Residual: squaring.Slope(ratio) * squaring.Microradian, Scatter: 1 * squaring.Microradian}.Chances()
		if err != nil {
			return err
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Val(notebook.Exact(ratio, notebook.Numbers)), notebook.Val(chance(chances.Better))})
	}
	chart, err := curve(in, all)
	if err != nil {
		return err
	}
	s.Add(table, chart)
	return nil
}

// curve draws the chance against what stands, one curve a direction.
func curve(in Inputs, all []weighed) (notebook.Chart, error) {
	reach := 0.0
	for _, w := range all {
		reach = math.Max(reach, math.Max(3*float64(w.Scatter), 1.2*math.Abs(float64(w.Residual))))
	}
	var series []plot.Series
	for i, w := range all {
		line := plot.Series{Label: w.Name, Style: plot.Curve}
		for n := 0; n <= 60; n++ {
			try := w.try
			try.Residual, try.ResidualU = squaring.Slope(reach*float64(n)/60), 0
			chances, err := try.Chances()
			if err != nil {
				return notebook.Chart{}, err
			}
			line.X, line.Y = append(line.X, float64(try.Residual)), append(line.Y, chances.Better)
		}
		now := plot.Series{Label: fmt.Sprintf("now, %s", w.Name), Style: plot.Dots, X: []float64{math.Abs(float64(all[i].Residual))}, Y: []float64{w.chances.Better}}
		series = append(series, line, now)
	}
	return plot.XY{Name: "curve", Title: "Chance that a new try ends nearer",
		Caption: notebook.Plain("Curves for a tilt that is known exactly; the points are what stands, its doubt counted. Below one half, a try is likelier to worsen than to better."),
		X:       plot.Axis{Label: "Tilt that stands", Show: notebook.Slopes, Range: notebook.AtLeast(0.0)},
		Y:       plot.Axis{Label: "Chance", Range: notebook.Between(0.0, 1.0)}, Series: series, Limits: []plot.Limit{{Label: "even", Y: 0.5}}}.Chart()
}

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, all []weighed) error {
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	w := all[0]
	half, err := squaring.NextTry{Residual: w.Scatter / 2, Scatter: w.Scatter, DegreesOfFreedom: float64(w.Trials - 1)}.Chances()
	if err != nil {
		return err
	}
	now, next := both(all)
	s.Add(
		note("wrong-dead-on", notebook.Say("One more tap will not bring it dead on. With a scatter of {} and {} standing, the next try is nearer with chance {}.", slope(w.Scatter), slope(w.Scatter/2), chance(half.Better))),
		note("wrong-one", notebook.Say("Bettering one direction throws the other again. Both within the limit: {} now, {} after a try.", chance(now), chance(next))),
		note("wrong-doubt", notebook.Say("What stands is not known exactly: {u}. Part of what you would correct is the sweep's own doubt.", notebook.Of(w.Residual, w.ResidualU, notebook.Slopes))),
	)
	return nil
}

// checkItems sets what this lesson computes with against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ []weighed) error {
	for _, check := range []struct {
		name, row string
		ratio     squaring.Slope
	}{{"check-one", "better-1", 1}, {"check-half", "better-half", 0.5}, {"check-quarter", "better-quarter", 0.25}} {
		chances, err := squaring.NextTry{Residual: check.ratio, Scatter: 1}.Chances()
		if err != nil {
			return err
		}
		s.Add(notebook.CheckRow(check.name, check.row, chances.Better))
	}
	p, err := squaring.Tolerance{Low: math.Inf(-1), High: -5.40}.Conformance(-5.47, 0.05)
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-conform", "conform-zener", p))
	return nil
}
