package sweep

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/squaring"
)

// drawingItems adds the plan of the sweep and the lean of the spindle.
func drawingItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	plan, err := planDrawing(in, sweep)
	if err != nil {
		return err
	}
	lean, err := leanDrawing(sweep)
	if err != nil {
		return err
	}
	s.Add(plan, lean)
	return nil
}

// planDrawing shows the sweep from above: where 0 degrees is, which way the
// azimuth grows, where each reading was taken and where the table is high.
func planDrawing(in Inputs, sweep squaring.Sweep) (notebook.Drawing, error) {
	c := drawing.New("plan", "Where to read",
		"A circle on the mill's table with the readings numbered round it. Right is 0 degrees, the column side 90, left 180, the operator's side 270; the azimuth grows anticlockwise.", 420, 368)
	centre := drawing.Point{X: 210, Y: 166}
	const r = 112
	c.TablePlan(drawing.Point{X: 14, Y: 28}, drawing.Point{X: 406, Y: 304})
	c.Circle(drawing.Thin, centre, r)
	c.Line(drawing.Centre, centre.Add(-r-24, 0), centre.Add(r+24, 0))
	c.Line(drawing.Centre, centre.Add(0, -r-18), centre.Add(0, r+18))
	c.Words(drawing.Point{X: 210, Y: 18}, drawing.Middle, "column, rear 90°")
	c.Words(drawing.Point{X: 210, Y: 326}, drawing.Middle, "operator, front 270°")
	c.Words(drawing.Point{X: 390, Y: 156}, drawing.End, "right 0°")
	c.Words(drawing.Point{X: 27, Y: 156}, drawing.Start, "left 180°")
	c.TurnArrow(drawing.Visible, centre, 84, 0.15, 1.2)
	c.Frame(drawing.Point{X: 30, Y: 356}, "x", "y")
	c.Label(drawing.Point{X: 400, Y: 356}, drawing.End, notebook.Say("radius {}", length(in.Radius)))
	if steepest := sweep.Tilt.Steepest(); steepest > 0 {
		azimuth := float64(sweep.Tilt.Azimuth())
		c.Arrow(drawing.Marked, centre, drawing.Polar(centre, 46, azimuth))
		c.Note(drawing.Polar(centre, 66, azimuth).Add(0, 4), drawing.Middle, "high")
	}
	for i, reading := range in.Readings {
		at := drawing.Polar(centre, r, float64(reading.Azimuth))
		if len(in.Readings) <= 16 {
			c.Number(at, i+1)
		} else {
			c.Circle(drawing.Solid, at, 3)
		}
	}
	return c.Item(notebook.Plain("The table from above. The numbers are the readings in the order taken; the arrow in the middle points to where the table is high against the spindle. A dial reads plus when its stem is pushed in, so where the table is higher."))
}

// leanDrawing shows the spindle against the table from the front and from the
// right, the tilt drawn larger.
func leanDrawing(sweep squaring.Sweep) (notebook.Drawing, error) {
	times := exaggeration(sweep.Tilt.Steepest())
	c := drawing.New("lean", "How the spindle stands to the table",
		"Two views of the spindle over the table, from the front and from the right-hand side, its lean drawn larger than it is.", 420, 322)
	for _, v := range []struct {
		middle             float64
		tilt, uncertainty  squaring.Slope
		seen, first, words string
	}{
		{105, sweep.Tilt.X, sweep.TiltU.X, "seen from the front", "x", "side tilt"},
		{315, sweep.Tilt.Y, sweep.TiltU.Y, "seen from the right", "y", "nod"},
	} {
		drawLean(c, v.middle, float64(v.tilt)*times)
		c.Words(drawing.Point{X: v.middle, Y: 20}, drawing.Middle, v.seen)
		c.Frame(drawing.Point{X: v.middle - 90, Y: 282}, v.first, "z")
		c.Label(drawing.Point{X: v.middle + 15, Y: 262}, drawing.Middle, notebook.Say(v.words+" {}", notebook.Of(v.tilt, v.uncertainty, notebook.Slopes)))
	}
	c.Exaggerated("The lean is", times)
	return c.Item(notebook.Say("The table drawn level and the spindle leaning to it. The brass line is the plane that the stylus turns in, square to the spindle; where it comes nearest to the table the dial reads most. The lean is drawn {} times too large.", notebook.Stepped(times, 1, notebook.Numbers)))
}

// exaggeration returns a round factor that draws the tilt about eight degrees
// steep, a thousand when there is hardly any.
func exaggeration(tilt squaring.Slope) float64 {
	const drawn, most = 0.14, 1000
	factor := drawn / math.Max(float64(tilt), drawn/most)
	power := math.Pow(10, math.Floor(math.Log10(factor)))
	for _, m := range []float64{5, 2, 1} {
		if factor >= m*power*(1-1e-9) {
			return m * power
		}
	}
	return power
}

// drawLean draws one view: the table level, the spindle and the plane square to
// it leaning. The drawn slope is table less spindle, so the plane falls to the
// right when it is positive.
func drawLean(c *drawing.Canvas, middle, slope float64) {
	const table, nose, reach = 212, 160, 72
	c.TableFront(drawing.Point{X: middle - 96, Y: table}, drawing.Point{X: middle + 96, Y: table}, 14)
	at := drawing.Point{X: middle, Y: nose}
	angle := math.Atan(slope)
	left, right := at.Add(-reach*math.Cos(angle), -reach*math.Sin(angle)), at.Add(reach*math.Cos(angle), reach*math.Sin(angle))
	c.Face(drawing.Wedge, at, right, drawing.Point{X: right.X, Y: nose})
	c.Face(drawing.Wedge, at, left, drawing.Point{X: left.X, Y: nose})
	c.Spindle(at, 52, 118, angle)
	c.Line(drawing.Marked, left, right)
	for _, end := range []drawing.Point{left, right} {
		c.Line(drawing.Thin, end, drawing.Point{X: end.X, Y: table - 4})
		c.Circle(drawing.Solid, drawing.Point{X: end.X, Y: table - 3}, 2.5)
	}
}
