package bubble

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// setUpDrawing draws the level on the table at the steepest station, as it
// stands and turned end for end, with the readings that it shows.
func setUpDrawing(latest survey) (notebook.Drawing, error) {
	steep := 0
	for i, p := range latest.along.Points {
		if abs(p.Slope) > abs(latest.along.Points[steep].Slope) {
			steep = i
		}
	}
	const drawn = 5 * math.Pi / 180 // the tilt as drawn
	slope := float64(latest.along.Points[steep].Slope)
	angle := math.Copysign(drawn, slope)
	reading := latest.rows[steep]
	most := math.Max(math.Max(math.Abs(reading.AlongNormal), math.Abs(reading.AlongTurned)), 1)
	c := drawing.New("setup-drawing", "The level on the table, and turned end for end",
		"Seen from the front. The table leans; the level stands on its middle with the marked end to the right, then on the same spot with the marked end to the left. The bubble runs to the high side both times.", 420, 372)
	tableWithLevel(c, drawing.Point{X: 210, Y: 100}, angle, reading.AlongNormal/most, false)
	c.Label(drawing.Point{X: 210, Y: 22}, drawing.Middle, notebook.Say("Marked end right: read {} divisions", read(reading.AlongNormal)))
	tableWithLevel(c, drawing.Point{X: 210, Y: 268}, angle, -reading.AlongTurned/most, true)
	c.Label(drawing.Point{X: 210, Y: 190}, drawing.Middle, notebook.Say("Turned, marked end left: read {} divisions", read(reading.AlongTurned)))
	c.Frame(drawing.Point{X: 20, Y: 345}, "x", "z")
	if slope != 0 {
		c.Exaggerated("Tilt", significant(drawn/math.Abs(slope)))
	}
	return c.Item(notebook.Say("Station X = {}, slope {}. The dot is the marked end. Plus: the bubble has run toward the dot.",
		place(reading.Travel), notebook.Of(latest.along.Points[steep].Slope, latest.along.Points[steep].SlopeU, notebook.Slopes)))
}

// tableWithLevel draws a leaning table on its saddle with the level on it.
func tableWithLevel(c *drawing.Canvas, middle drawing.Point, angle, bubble float64, turned bool) {
	at := func(x, down float64) drawing.Point {
		return middle.Add(x*math.Cos(angle)+down*math.Sin(angle), -x*math.Sin(angle)+down*math.Cos(angle))
	}
	c.Box(drawing.Steel, middle.Add(-70, 34), middle.Add(70, 58), 0)
	c.Face(drawing.Body, at(-165, 0), at(165, 0), at(165, 26), at(-165, 26))
	c.Line(drawing.Thin, at(-165, 8), at(165, 8))
	c.Level(middle, 130, angle, bubble, turned)
}

// significant rounds a number above zero to one significant digit.
func significant(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	return math.Round(x/power) * power
}

// linesDrawing draws the three lines through the motion.
func linesDrawing(r ride) (notebook.Drawing, error) {
	c := drawing.New("lines-drawing", "Three lines through one motion",
		"The height of the motion along the table with the line through its ends, the line of least squares, and the minimum zone, which is the narrowest pair of parallel lines that holds it.", 420, 300)
	points := r.above.Points
	first, last := points[0].Position, points[len(points)-1].Position
	high, low := points[0].Height, points[0].Height
	for _, p := range points {
		high, low = max(high, p.Height), min(low, p.Height)
	}
	tall := math.Max(float64(high-low), 1e-9)
	view := drawing.View{Along: 340 / float64(last-first), Up: 150 / tall}
	view.Origin = drawing.Point{X: 210 - view.Along*float64(first+last)/2, Y: 135 + view.Up*float64(high+low)/2}
	at := func(x, h unit.Length) drawing.Point { return view.At(float64(x), float64(h)) }
	curve := make([]drawing.Point, len(points))
	for i, p := range points {
		curve[i] = at(p.Position, p.Height)
	}
	zone := r.lines[2]
	for _, side := range []unit.Length{zone.Value / 2, -zone.Value / 2} {
		c.Line(drawing.Centre, at(first, zone.Line.At(first)+side), at(last, zone.Line.At(last)+side))
	}
	c.Line(drawing.Thin, at(first, r.lines[0].Line.At(first)), at(last, r.lines[0].Line.At(last)))
	c.Line(drawing.Hidden, at(first, r.lines[1].Line.At(first)), at(last, r.lines[1].Line.At(last)))
	c.Line(drawing.Marked, curve...)
	for _, contacts := range [][]int{zone.Highest, zone.Lowest} {
		for _, i := range contacts[:min(len(contacts), 5)] {
			c.Circle(drawing.Solid, curve[i], 3.5)
		}
	}
	key(c)
	c.Exaggerated("Heights", significant(view.Times()))
	return c.Item(notebook.Say("Seen from the front, left end of the table to the left. The minimum zone touches at the dots and is {} wide.",
		notebook.Of(zone.Value, zone.U, notebook.FineLengths)))
}

// key names the lines below the drawing.
func key(c *drawing.Canvas) {
	for i, k := range []struct {
		style drawing.Style
		words string
	}{{drawing.Marked, "motion"}, {drawing.Thin, wear.EndPoints.String()}, {drawing.Hidden, wear.LeastSquares.String()}, {drawing.Centre, wear.MinimumZone.String()}} {
		at := drawing.Point{X: 24 + 196*float64(i%2), Y: 248 + 20*float64(i/2)}
		c.Line(k.style, at, at.Add(34, 0))
		c.Words(at.Add(42, 5), drawing.Start, k.words)
	}
}
