package crosseffect

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 1*squaring.Microradian, notebook.Slopes)
}
func uncertain(s, u squaring.Slope) notebook.Quantity { return notebook.Of(s, u, notebook.Slopes) }
func number(x float64) notebook.Quantity              { return notebook.Stepped(x, 0.01, notebook.Numbers) }

// setUpItems adds the cautions and the drawing of what one turn does.
func setUpItems(s *notebook.Sheet, _ Inputs, w worked) error {
	c := drawing.New("turns", "What each axis does to both",
		"Two pairs of arrows from one point: side tilt to the right, nod upward. For each axis one arrow shows what was asked and a second what came.", 420, 260)
	origin := drawing.Point{X: 150, Y: 150}
	const reach = 96.0
	c.Line(drawing.Thin, origin.Add(-110, 0), origin.Add(130, 0))
	c.Line(drawing.Thin, origin.Add(0, 96), origin.Add(0, -120))
	for _, axis := range []struct {
		words          string
		askedX, askedY float64
		gotX, gotY     float64
		wordsAt        drawing.Point
		anchor         drawing.Anchor
	}{
		{"side tilt asked", 1, 0, w.effect.XX, w.effect.YX, drawing.Point{X: 276, Y: 146}, drawing.Start},
		{"nod asked", 0, 1, w.effect.XY, w.effect.YY, drawing.Point{X: 166, Y: 36}, drawing.Start},
	} {
		c.Arrow(drawing.Visible, origin, origin.Add(reach*axis.askedX, -reach*axis.askedY))
		// What came, kept on the paper.
		size := math.Max(1, math.Hypot(axis.gotX, axis.gotY)/1.2)
		c.Arrow(drawing.Marked, origin, origin.Add(reach*axis.gotX/size, -reach*axis.gotY/size))
		c.Words(axis.wordsAt, axis.anchor, axis.words)
	}
	c.Words(drawing.Point{X: 412, Y: 200}, drawing.End, "slanted: what came")
	c.Words(drawing.Point{X: 20, Y: 170}, drawing.Start, "left high")
	c.Words(drawing.Point{X: 160, Y: 246}, drawing.Start, "front high")
	c.Note(drawing.Point{X: 276, Y: 166}, drawing.Start, "right high: plus")
	c.Note(drawing.Point{X: 166, Y: 54}, drawing.Start, "back high: plus")
	item, err := c.Item(notebook.Say("As the sweep shows it. One unit asked of the side tilt gives {} of side tilt and {} of nod; one unit asked of the nod gives {} of side tilt and {} of nod.",
		number(w.effect.XX), number(w.effect.YX), number(w.effect.XY), number(w.effect.YY)))
	if err != nil {
		return err
	}
	s.Add(item,
		notebook.Caution{Name: "support", Text: notebook.Plain("Isolate the machine. Hold the head up with a jack or a hoist before you slacken its bolts, and keep it held until they are tight: it can swing.")},
		notebook.Caution{Name: "tighten", Text: notebook.Plain("Read with every bolt at full torque. Bolts left short of tight hold a good reading until the first cut, and then the head moves in the work.")})
	return nil
}

// planItems adds what to turn first, to what, and then what.
func planItems(s *notebook.Sheet, in Inputs, w worked) error {
	p := w.plan
	first, second := p.First, squaring.NodAxis
	turns := map[squaring.Axis][2]squaring.Slope{squaring.SideAxis: {p.Turn.X, p.TurnU.X}, squaring.NodAxis: {p.Turn.Y, p.TurnU.Y}}
	shown := map[squaring.Axis]squaring.Slope{squaring.SideAxis: p.AfterFirst.X, squaring.NodAxis: p.AfterFirst.Y}
	aim := map[squaring.Axis]squaring.Slope{squaring.SideAxis: in.AimX, squaring.NodAxis: in.AimY}
	if first == squaring.NodAxis {
		second = squaring.SideAxis
	}
	v := notebook.Verdict{Name: "plan", Tone: notebook.Note, Text: notebook.Say(
		"Turn the "+string(first)+" first, until the sweep shows {} that way, not {}. Then turn the "+string(second)+" to {}: it brings the first right.",
		slope(shown[first]), slope(aim[first]), slope(aim[second]))}
	want := w.aim.Minus(w.now)
	if math.Abs(float64(want.X)) <= float64(in.Limit) && math.Abs(float64(want.Y)) <= float64(in.Limit) {
		v.Tone, v.Text = notebook.Good, notebook.Say("Leave it: both ways are within {}.", slope(in.Limit))
	}
	s.Add(v,
		notebook.Figure{Name: "turn-side", Label: "Ask of the side tilt", Value: uncertain(turns[squaring.SideAxis][0], turns[squaring.SideAxis][1]), Note: notebook.Plain("In the sweep's sign. The uncertainty is the map's.")},
		notebook.Figure{Name: "turn-nod", Label: "Ask of the nod", Value: uncertain(turns[squaring.NodAxis][0], turns[squaring.NodAxis][1]), Note: notebook.Plain("In the sweep's sign.")},
		turnsFigure(in, w))
	return nil
}

// turnsFigure says how long it takes without the map.
func turnsFigure(in Inputs, w worked) notebook.Figure {
	f := notebook.Figure{Name: "by-turns", Label: "Settings needed, each axis to zero by itself", Value: notebook.Whole(max(0, w.plan.ByTurns)),
		Note: notebook.Say("To come within {} both ways. With the map it is two.", slope(in.Limit))}
	if w.plan.ByTurns < 0 {
		f.Unknown = "one axis upsets the other by more than it is set right: it never gets there"
	}
	return f
}

// mapItems adds the map.
func mapItems(s *notebook.Sheet, in Inputs, w worked) error {
	e := w.effect
	cell := func(x, u float64) notebook.Cell { return notebook.Val(notebook.Of(x, u, notebook.Numbers)) }
	s.Add(notebook.Table{Name: "map", Title: "What one unit asked does",
		Columns: []notebook.Column{notebook.Col("Asked of"), notebook.Col("Side tilt changes by"), notebook.Col("Nod changes by")},
		Rows: [][]notebook.Cell{
			{notebook.Str("the side tilt"), cell(e.XX, e.XXU), cell(e.YX, e.YXU)},
			{notebook.Str("the nod"), cell(e.XY, e.XYU), cell(e.YY, e.YYU)},
		},
		Note: notebook.Say("One change scatters about the map by {} side to side and {} front to back, from {} turns.", slope(e.Scatter.X), slope(e.Scatter.Y), notebook.Whole(len(in.Trials)))})
	v := notebook.Verdict{Name: "cross", Tone: notebook.Note, Text: notebook.Plain("These turns cannot tell the cross-effects from nothing: set each axis by itself.")}
	// Two figures are looked at, so each is granted more than two deviations.
	side, nod := math.Abs(e.YX) > 2.24*e.YXU, math.Abs(e.XY) > 2.24*e.XYU
	if side || nod {
		v.Tone, v.Text = notebook.Watch, notebook.Say("They do upset one another: of each unit of side tilt the nod gets {u}, and of each unit of nod the side tilt gets {u}.",
			notebook.Of(e.YX, e.YXU, notebook.Numbers), notebook.Of(e.XY, e.XYU, notebook.Numbers))
	}
	s.Add(v)
	return nil
}

// pathItems adds both ways to the aim as paths.
func pathItems(s *notebook.Sheet, in Inputs, w worked) error {
	planned := []squaring.Gradient{w.now, w.plan.AfterFirst, w.aim}
	byTurns := byTurnsPath(in, w)
	series := func(label string, path []squaring.Gradient) plot.Series {
		line := plot.Series{Label: label, Style: plot.Line}
		for _, g := range path {
			line.X, line.Y = append(line.X, float64(g.X)), append(line.Y, float64(g.Y))
		}
		return line
	}
	chart, err := plot.XY{Name: "path", Title: "The way to square",
		Caption: notebook.Say("From what is shown now, {} and {}. With the map the first turn goes past zero on purpose; without it each turn undoes a part of the one before.", slope(in.NowX), slope(in.NowY)),
		X:       plot.Axis{Label: "Side to side", Show: notebook.Slopes}, Y: plot.Axis{Label: "Front to back", Show: notebook.Slopes},
		Series: []plot.Series{series("by the map", planned), series("each to zero in turn", byTurns)}}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	t := notebook.Table{Name: "path-table", Title: "What each setting leaves", Columns: []notebook.Column{notebook.Col("Setting"),
		notebook.ColIn("Side to side, by the map", notebook.Slopes), notebook.ColIn("Front to back, by the map", notebook.Slopes),
		notebook.ColIn("Side to side, in turn", notebook.Slopes), notebook.ColIn("Front to back, in turn", notebook.Slopes)}}
	for i := range max(len(planned), len(byTurns)) {
		a, b := planned[min(i, len(planned)-1)], byTurns[min(i, len(byTurns)-1)]
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(notebook.Whole(i)), notebook.Val(slope(a.X)), notebook.Val(slope(a.Y)), notebook.Val(slope(b.X)), notebook.Val(slope(b.Y))})
	}
	left := byTurns[min(2, len(byTurns)-1)].Minus(w.aim)
	face, err := squaring.Facing{Tilt: left, Diameter: 100 * mm, Width: 80 * mm, StepOver: 50 * mm}.Surface()
	if err != nil {
		return err
	}
	s.Add(t, notebook.Verdict{Name: "work", Tone: notebook.Note, Text: notebook.Say(
		"Set each to zero once and go to work, and {} and {} still stand. A face cut to the right, 80 mm wide with a cutter of 100, is then {} hollow and has steps of {} each 50 mm.",
		slope(left.X), slope(left.Y), fine(face.Dish), fine(face.Step))})
	return nil
}

func fine(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}

// most is the most settings that the path by turns is drawn for.
const most = 8

// byTurnsPath sets each axis to the aim by itself, in turn.
func byTurnsPath(in Inputs, w worked) []squaring.Gradient {
	path := []squaring.Gradient{w.now}
	at, axis := w.now, w.plan.First
	for range most {
		left := w.aim.Minus(at)
		if math.Abs(float64(left.X)) <= float64(in.Limit) && math.Abs(float64(left.Y)) <= float64(in.Limit) || left.Steepest() > 0.05 {
			break
		}
		e := w.effect
		if axis == squaring.SideAxis {
			turn := left.X / squaring.Slope(e.XX)
			at, axis = at.Plus(squaring.Gradient{X: left.X, Y: squaring.Slope(e.YX) * turn}), squaring.NodAxis
		} else {
			turn := left.Y / squaring.Slope(e.YY)
			at, axis = at.Plus(squaring.Gradient{X: squaring.Slope(e.XY) * turn, Y: left.Y}), squaring.SideAxis
		}
		path = append(path, at)
	}
	return path
}
