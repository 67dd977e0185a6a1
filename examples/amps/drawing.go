package amps

import (
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
)

// addDrawing draws the small tank from the front: supply, anodes and work, with
// the polarity and the set current.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("tank", "The small tank from the front",
		"A supply above a tank of nickel bath. Its plus goes to a bagged nickel anode on either side, its minus to the work in the middle.", 420, 330)
	drawTank(c)
	drawWork(c, a.parts())
	drawSupply(c, a)
	drawNames(c)
	item, err := c.Item(notebook.Say(
		"Plus to both anodes, minus to the work, the same distance on both sides. {} over {} is a mean of {}. Not to scale.",
		a.current(), notebook.Exact(a.load.Area, notebook.Areas), notebook.Exact(a.setting.CurrentDensity, notebook.CurrentDensities)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// parts returns how many parts are drawn: those on the rack, at most four.
func (a answer) parts() int {
	n := 0
	for _, p := range a.in.Parts {
		n += min(p.Count, 4)
	}
	return max(1, min(n, 4))
}

// The tank on the canvas.
const (
	tankLeft, tankRight = 70.0, 350.0
	tankTop, tankFoot   = 145.0, 300.0
	bathTop             = 165.0
	tankMiddle          = (tankLeft + tankRight) / 2
	anodeHalf           = 9.0
	anodeOut            = 105.0 // from the middle to an anode
	railHeight          = 130.0
)

// drawTank draws the vessel, its bath and the two anodes in their bags.
func drawTank(c *drawing.Canvas) {
	c.Box(drawing.Bath, drawing.Point{X: tankLeft, Y: bathTop}, drawing.Point{X: tankRight, Y: tankFoot}, 4)
	c.Line(drawing.Visible, drawing.Point{X: tankLeft, Y: tankTop}, drawing.Point{X: tankLeft, Y: tankFoot},
		drawing.Point{X: tankRight, Y: tankFoot}, drawing.Point{X: tankRight, Y: tankTop})
	for _, side := range []float64{-1, 1} {
		x := tankMiddle + side*anodeOut
		c.Line(drawing.Visible, drawing.Point{X: x, Y: railHeight}, drawing.Point{X: x, Y: bathTop + 8})
		c.Box(drawing.Nickel, drawing.Point{X: x - anodeHalf, Y: bathTop - 6}, drawing.Point{X: x + anodeHalf, Y: tankFoot - 22}, 2)
		c.Box(drawing.Hidden, drawing.Point{X: x - anodeHalf - 5, Y: bathTop + 2}, drawing.Point{X: x + anodeHalf + 5, Y: tankFoot - 15}, 4)
		// The ions go from anode to work.
		for _, y := range []float64{bathTop + 45, bathTop + 85} {
			c.Arrow(drawing.Thin, drawing.Point{X: x - side*(anodeHalf+10), Y: y}, drawing.Point{X: x - side*(anodeHalf+38), Y: y})
		}
	}
}

// drawWork hangs some parts on a wire in the middle.
func drawWork(c *drawing.Canvas, parts int) {
	const gap = 8.0
	height := (tankFoot - 30 - (bathTop + 12) - gap*float64(parts-1)) / float64(parts)
	height = min(height, 70)
	c.Line(drawing.Visible, drawing.Point{X: tankMiddle, Y: railHeight}, drawing.Point{X: tankMiddle, Y: bathTop + 12 + float64(parts)*(height+gap) - gap})
	for i := range parts {
		top := bathTop + 12 + float64(i)*(height+gap)
		c.Box(drawing.Brass, drawing.Point{X: tankMiddle - 24, Y: top}, drawing.Point{X: tankMiddle + 24, Y: top + height}, 2)
	}
}

// drawSupply draws the supply with its wires and its two readings.
func drawSupply(c *drawing.Canvas, a answer) {
	left, right := tankMiddle-105.0, tankMiddle+105.0
	c.Box(drawing.Body, drawing.Point{X: left, Y: 12}, drawing.Point{X: right, Y: 82}, 6)
	c.Box(drawing.Glass, drawing.Point{X: left + 14, Y: 22}, drawing.Point{X: right - 14, Y: 50}, 3)
	c.Label(drawing.Point{X: tankMiddle - 45, Y: 41}, drawing.Middle, notebook.Say("{}", a.current()))
	c.Label(drawing.Point{X: tankMiddle + 45, Y: 41}, drawing.Middle, notebook.Say("{}", a.time()))
	plus := []drawing.Point{{X: left + 25, Y: 70}, {X: right - 25, Y: 70}}
	for i, side := range []float64{-1, 1} {
		x := tankMiddle + side*anodeOut
		c.Circle(drawing.Solid, plus[i], 3)
		c.Words(plus[i].Add(-side*12, 5), drawing.Middle, "+")
		c.Line(drawing.Marked, plus[i], drawing.Point{X: plus[i].X, Y: 105}, drawing.Point{X: x, Y: 105}, drawing.Point{X: x, Y: railHeight})
	}
	minus := drawing.Point{X: tankMiddle, Y: 70}
	c.Circle(drawing.Solid, minus, 3)
	c.Words(minus.Add(12, 5), drawing.Middle, "−")
	c.Line(drawing.Visible, minus, drawing.Point{X: tankMiddle, Y: railHeight})
}

// drawNames names the things.
func drawNames(c *drawing.Canvas) {
	c.Leader(drawing.Point{X: 58, Y: 215}, drawing.End, "anode", drawing.Point{X: tankMiddle - anodeOut, Y: 215})
	c.Leader(drawing.Point{X: 58, Y: 265}, drawing.End, "bag", drawing.Point{X: tankMiddle - anodeOut - anodeHalf - 5, Y: 265})
	c.Leader(drawing.Point{X: 362, Y: 240}, drawing.Start, "work", drawing.Point{X: tankMiddle + 24, Y: 240})
	c.Leader(drawing.Point{X: 362, Y: 190}, drawing.Start, "bath", drawing.Point{X: tankRight - 12, Y: 190})
	c.Note(drawing.Point{X: tankMiddle, Y: 320}, drawing.Middle, "nickel goes from the anodes to the work")
}
