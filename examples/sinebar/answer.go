package sinebar

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func length(l unit.Length) notebook.Quantity {
	return notebook.Exact(l, notebook.Lengths).WithDigits(6)
}
func short(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func fine(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}
func arc(a unit.Angle) notebook.Quantity {
	return notebook.Stepped(a, 0.1*squaring.Arcsecond, arcs)
}
func degrees(a unit.Angle) notebook.Quantity {
	return notebook.Stepped(a, 0.0001*squaring.Degree, notebook.Angles)
}
func taper(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 0.0001*squaring.InchPerFoot, tapers)
}

// setUpItems adds the drawing of a cone on a sine bar.
func setUpItems(s *notebook.Sheet, in Inputs, w worked) error {
	c := drawing.New("bar", "A cone on a sine bar",
		"A bar with two rollers, one on the plate and one on a stack of blocks. A cone lies on the bar with its small end up the slope, and its top line is level; a dial runs along it.", 420, 230)
	const plate = 190.0
	c.Box(drawing.Steel, drawing.Point{X: 20, Y: plate}, drawing.Point{X: 400, Y: plate + 16}, 0)
	// The slope is drawn at ten degrees, whatever the taper.
	const slopeDrawn = 10 * math.Pi / 180
	sin, cos := math.Sincos(slopeDrawn)
	low := drawing.Point{X: 70, Y: plate - 10}
	on := func(along, up float64) drawing.Point { return low.Add(along*cos-up*sin, -along*sin-up*cos) }
	high := on(206, 0)
	c.Circle(drawing.Steel, low, 10)
	c.Circle(drawing.Steel, high, 10)
	c.Box(drawing.Brass, drawing.Point{X: high.X - 16, Y: high.Y + 10}, drawing.Point{X: high.X + 16, Y: plate}, 0)
	c.Face(drawing.Body, on(-14, 10), on(220, 10), on(220, 22), on(-14, 22))
	// The cone's top is level, so it is as much lower at the small end.
	c.Face(drawing.Steel, on(20, 22), on(20, 22+64), on(20, 22+64).Add(172*cos, 0), on(192, 22))
	c.Plunger(drawing.Point{X: 190, Y: on(20, 86).Y}, 18, 0.1)
	c.Dimension(drawing.Point{X: high.X + 20, Y: plate}, drawing.Point{X: high.X + 20, Y: high.Y + 10}, -14, notebook.Say("{}", notebook.Stepped(w.stack, 1*um, notebook.Lengths)))
	c.Words(drawing.Point{X: 30, Y: 60}, drawing.Start, "large end")
	c.Words(drawing.Point{X: 288, Y: 78}, drawing.Start, "small end:")
	c.Words(drawing.Point{X: 288, Y: 98}, drawing.Start, "plus when high")
	item, err := c.Item(notebook.Say("Set to the included angle, {}, the bar lifts the axis by half of it and the cone's own slope takes the other half: its top line is level. The slope is drawn as 10°.", degrees(w.included)))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "clamp", Text: notebook.Plain("Put a stop at the low end and clamp or hold the cone: it rolls. Never machine on a sine bar that is only stacked up; a sine plate that locks is made for that.")})
	return nil
}

// coneItems adds what the two diameters say.
func coneItems(s *notebook.Sheet, in Inputs, w worked) error {
	off := w.angle.Angle - w.included
	s.Add(
		notebook.Figure{Name: "taper-found", Label: "Taper by two diameters", Value: notebook.Of(w.taper.Slope, w.taper.Uncertainty, tapers), Note: notebook.Say("On diameter. It should be {}.", taper(w.nominal))},
		notebook.Figure{Name: "included-found", Label: "Included angle", Value: notebook.Of(w.angle.Angle, w.angle.Uncertainty, notebook.Angles), Note: notebook.Say("Each side stands at half of it to the axis. It should be {}.", degrees(w.included))},
		notebook.Figure{Name: "off-found", Label: "By the diameters it is off by", Value: notebook.Of(off, w.angle.Uncertainty, arcs), Note: notebook.Plain("Plus: it tapers too much.")},
	)
	return nil
}

// barItems adds what blocks to build and what the dial says.
func barItems(s *notebook.Sheet, in Inputs, w worked) error {
	off := w.byDial.Angle - w.included
	u := w.byDial.Uncertainty
	v := notebook.Verdict{Name: "decision", Tone: notebook.Good, Text: notebook.Say("Leave it: by bar and dial the included angle is off by {u}, within {} doubt included.", notebook.Of(off, u, arcs), arc(in.Limit))}
	size := unit.Angle(math.Abs(float64(off)))
	switch {
	case size-2*u > in.Limit:
		v.Tone, v.Text = notebook.Stop, notebook.Say("Set the slide over: the included angle is off by {u}, more than {}. Turn the slide by half of it, {}.", notebook.Of(off, u, arcs), arc(in.Limit), arc(off/2))
	case size+2*u > in.Limit:
		v.Tone, v.Text = notebook.Watch, notebook.Say("It cannot be said: off by {u}, and {} is allowed. A longer run on the dial or a longer bar is surer.", notebook.Of(off, u, arcs), arc(in.Limit))
	}
	exact, err := squaring.SineBar{Length: in.Bar}.Stack(w.included)
	if err != nil {
		return err
	}
	both := unit.Angle(math.Hypot(float64(u), float64(w.angle.Uncertainty)))
	agree := notebook.Verdict{Name: "agree", Tone: notebook.Good, Text: notebook.Say("Diameters and dial agree: they differ by {u}.", notebook.Of(w.angle.Angle-w.byDial.Angle, both, arcs))}
	if math.Abs(float64(w.angle.Angle-w.byDial.Angle)) > 2*float64(both) {
		agree.Tone, agree.Text = notebook.Watch, notebook.Say("Diameters and dial do not agree: they differ by {u}. Is the cone round and its side straight, and was the way between the diameters taken along the axis?", notebook.Of(w.angle.Angle-w.byDial.Angle, both, arcs))
	}
	s.Add(v, agree,
		notebook.Figure{Name: "stack", Label: "Build under the roller", Value: length(w.stack), Note: notebook.Say("Exactly it would be {}; the blocks build it to {}.", length(exact), short(in.Block))},
		notebook.Figure{Name: "set", Label: "The bar is then set to", Value: notebook.Of(w.set.Angle, w.set.Uncertainty, notebook.Angles), Note: notebook.Say("The rounding to the blocks puts in {}; it is known, so it is taken out below.", arc(w.set.Angle-w.included))},
		notebook.Figure{Name: "by-dial", Label: "Included angle by bar and dial", Value: notebook.Of(w.byDial.Angle, u, notebook.Angles), Note: notebook.Say("The dial's {} over {} is {}.", fine(in.Rise), short(in.Run), arc(w.set.Angle-w.byDial.Angle))})
	return sureChart(s, in, w)
}

// sureChart draws how sure the bar is at each angle.
func sureChart(s *notebook.Sheet, in Inputs, w worked) error {
	var x, y []float64
	for d := 1.0; d <= 85; d++ {
		angle := unit.Angle(d) * squaring.Degree
		stack, err := squaring.SineBar{Length: in.Bar}.Stack(angle)
		if err != nil {
			return err
		}
		_, u, err := squaring.SineBar{Length: in.Bar, LengthU: in.BarU}.Angle(stack, in.StackU)
		if err != nil {
			return err
		}
		x, y = append(x, float64(angle)), append(y, float64(u))
	}
	chart, err := plot.XY{Name: "sure", Title: "How sure the bar is of its angle",
		Caption: notebook.Say("Standard uncertainty of the angle, from {} of the stack and {} of the bar. It grows with the tangent: at your {} it is {}.", fine(in.StackU), fine(in.BarU), degrees(w.set.Angle), arc(w.set.Uncertainty)),
		X:       plot.Axis{Label: "Angle set", Show: notebook.Angles}, Y: plot.Axis{Label: "Standard uncertainty", Show: arcs, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{{Label: "sine bar", Style: plot.Curve, X: x, Y: y}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// workItems adds the table of tapers and what an error does in the socket.
func workItems(s *notebook.Sheet, in Inputs, w worked) error {
	t := notebook.Table{Name: "table", Title: "Tapers by name, and the blocks on this bar",
		Columns: []notebook.Column{notebook.Col("Taper"), notebook.ColIn("On diameter", tapers), notebook.ColIn("Half angle", notebook.Angles), notebook.ColIn("Included", notebook.Angles), notebook.ColIn("Blocks", notebook.Lengths)}}
	for _, one := range standards() {
		half, err := squaring.HalfAngleFromTaper(one.taper)
		if err != nil {
			return err
		}
		stack, err := squaring.SineBar{Length: in.Bar}.Stack(2 * half)
		if err != nil {
			return err
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(one.name), notebook.Val(taper(one.taper)), notebook.Val(degrees(half)), notebook.Val(degrees(2 * half)), notebook.Val(length(stack))})
	}
	off := w.byDial.Angle - w.included
	gap := in.Run * unit.Length(math.Abs(float64(off))/2)
	where := "at its small end"
	if off > 0 {
		where = "at its large end"
	}
	s.Add(t, notebook.Verdict{Name: "socket", Tone: notebook.Note, Text: notebook.Say("In a true socket the cone bears "+where+" only, and stands off each side by {} at the other end over {}. A shank that bears at one end wobbles and frets.", fine(gap), short(in.Run))})
	return nil
}
