package book

import (
	"fmt"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/site/render"
)

// notation returns the inside of the page of signs and letters.
func (s *surroundings) notation() (string, error) {
	return s.markdown("notation.md", map[string]func(directive) (string, error){
		"frame": func(directive) (string, error) { return frameDrawing() },
		"shown": func(d directive) (string, error) { return shownSlope(d.argument) },
	})
}

// shownSlope shows a slope and its standard uncertainty, "182.09 11.65" in
// µm/m, as the pages round them.
func shownSlope(argument string) (string, error) {
	var value, u float64
	if _, err := fmt.Sscanf(argument, "%g %g", &value, &u); err != nil {
		return "", fmt.Errorf("{{shown %s}}: want a value and its uncertainty", argument)
	}
	return `<span class="sample">` + render.Quantity(notebook.Of(value*1e-6, u*1e-6, notebook.Slopes), true) + "</span>", nil
}

// frameDrawing draws the mill from the front, from its side and its table from
// above, with the axes, the azimuths and the signs of the two tilts.
func frameDrawing() (string, error) {
	c := drawing.New("frame", "The frame of the machine",
		"Three views of a knee mill. From the front x runs to the right and z up; a positive side tilt has the spindle's plane high on the right. From the right-hand side y runs toward the column and z up; a positive nod has the plane high at the back. From above azimuth 0 is to the right, 90 at the column, and it grows anticlockwise.",
		420, 560)
	c.Words(drawing.Point{X: 105, Y: 22}, drawing.Middle, "from the front")
	c.Words(drawing.Point{X: 318, Y: 22}, drawing.Middle, "from the right")
	c.MillFront(drawing.Point{X: 105, Y: 270}, 210)
	c.MillSide(drawing.Point{X: 325, Y: 270}, 210)
	axes(c, drawing.Point{X: 10, Y: 262}, "x", "z")
	axes(c, drawing.Point{X: 204, Y: 262}, "y", "z")
	c.Note(drawing.Point{X: 105, Y: 292}, drawing.Middle, "side tilt: a turn about y")
	c.Note(drawing.Point{X: 318, Y: 292}, drawing.Middle, "nod: a turn about x")
	sweepPlan(c)
	svg, err := c.SVG()
	if err != nil {
		return "", err
	}
	return `<figure class="item drawing">` + svg + "<figcaption><b>The frame.</b> It stands still; the table moves in it. A slope is positive when the right, or the back, is high.</figcaption></figure>", nil
}

// axes draws two axes from a corner: one to the right, one up.
func axes(c *drawing.Canvas, corner drawing.Point, along, up string) {
	c.Arrow(drawing.Marked, corner, corner.Add(32, 0))
	c.Arrow(drawing.Marked, corner, corner.Add(0, -36))
	c.Words(corner.Add(36, 5), drawing.Start, along)
	c.Words(corner.Add(0, -42), drawing.Middle, up)
}

// sweepPlan draws the table from above with the azimuths of a sweep.
func sweepPlan(c *drawing.Canvas) {
	const r = 52.0
	centre := drawing.Point{X: 210, Y: 438}
	c.TablePlan(drawing.Point{X: 30, Y: 372}, drawing.Point{X: 390, Y: 504})
	c.Circle(drawing.Centre, centre, r)
	c.TurnArrow(drawing.Marked, centre, r-16, 0.15, 1.35)
	for i, words := range []string{"0°", "90°", "180°", "270°"} {
		at := drawing.Polar(centre, r, float64(i)*halfPi)
		c.Circle(drawing.Solid, at, 3)
		switch i {
		case 0:
			c.Words(at.Add(8, 5), drawing.Start, words)
		case 1:
			c.Words(at.Add(9, 4), drawing.Start, words)
		case 2:
			c.Words(at.Add(-8, 5), drawing.End, words)
		default:
			c.Words(at.Add(9, 5), drawing.Start, words)
		}
	}
	axes(c, drawing.Point{X: 60, Y: 460}, "x", "y")
	c.Note(drawing.Point{X: 210, Y: 338}, drawing.Middle, "from above: the column")
	c.Note(drawing.Point{X: 210, Y: 524}, drawing.Middle, "operator")
	c.Words(drawing.Point{X: 296, Y: 551}, drawing.End, "table to the right: X plus, u = −X")
	c.Arrow(drawing.Visible, drawing.Point{X: 306, Y: 546}, drawing.Point{X: 366, Y: 546})
}

const halfPi = 1.5707963267948966
