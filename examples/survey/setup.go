package survey

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/squaring"
)

// setUpItems adds the drawing of the machine with what each reading sees, and
// the cautions.
func (o outcome) setUpItems(s *notebook.Sheet) error {
	drawn, err := o.chainDrawing()
	if err != nil {
		return err
	}
	s.Add(drawn,
		notebook.Caution{Name: "isolate", Text: notebook.Plain(
			"Isolate the machine, at the plug or the lockable switch, before a hand, a dial or a bar goes near the spindle. Spindle in neutral, turned by hand. Take dials and gauges out before the machine is switched on again.")},
		notebook.Caution{Name: "knee", Text: notebook.Plain(
			"A knee rises slowly and with great force. Keep fingers from between square and head, watch that the dial's stem has travel left, and stop before anything touches.")},
		notebook.Caution{Name: "head", Text: notebook.Plain(
			"Whatever the answer says of the head: hold it up with a jack or a hoist made for it before a bolt is slackened, and bring every bolt to full torque before the spindle is switched on.")})
	return nil
}

// tilts returns the side tilt of the head and the slope of the table at the work,
// zero where they are not told.
func (o outcome) tilts() (head, table float64, err error) {
	e, err := o.predict("side-middle")
	if err != nil {
		return 0, 0, err
	}
	if told(e) {
		head = e.Value
	}
	e, err = o.adjustment.Predict(squaring.TableSlope("", squaring.AlongX, -o.in.Place))
	if told(e) {
		table = e.Value
	}
	return head, table, err
}

// chainDrawing draws the mill from the front, spindle and table leaning as they
// were found to, alike enlarged.
func (o outcome) chainDrawing() (notebook.Drawing, error) {
	head, slope, err := o.tilts()
	if err != nil {
		return notebook.Drawing{}, err
	}
	const drawn = 6 * math.Pi / 180 // the larger of the two as drawn
	times := 0.0
	if most := math.Max(math.Abs(head), math.Abs(slope)); most > 0 {
		times = significant(drawn / most)
	}
	c := drawing.New("setup-drawing", "One machine and what each reading sees of it",
		"The mill from the front: a spindle that leans, a table that leans on its worn ways, its bent top, the knee whose travel leans, and the whole machine leaning to the plumb line. Numbers mark what the readings see.", 440, 420)
	middle := drawing.Point{X: 190, Y: 190}
	angle := slope * times
	at := func(x, down float64) drawing.Point {
		return middle.Add(x*math.Cos(angle)+down*math.Sin(angle), -x*math.Sin(angle)+down*math.Cos(angle))
	}
	c.Spindle(drawing.Point{X: 190, Y: 140}, 60, 105, -head*times)
	c.Face(drawing.Body, at(-150, 0), at(150, 0), at(150, 24), at(-150, 24))
	c.Line(drawing.Marked, at(-150, 3), at(-75, -1), at(0, -3), at(75, -1), at(150, 3))
	c.Box(drawing.Steel, middle.Add(-72, 34), middle.Add(72, 56), 0)
	c.Box(drawing.Body, middle.Add(-52, 58), middle.Add(52, 110), 3)
	c.Line(drawing.Centre, middle.Add(-16, 118), middle.Add(-6, 62))
	c.Level(at(-112, 0), 66, angle, 0.4, false)
	c.Line(drawing.Hidden, drawing.Point{X: 352, Y: 60}, drawing.Point{X: 352, Y: 200})
	c.Circle(drawing.Solid, drawing.Point{X: 352, Y: 206}, 6)
	c.Number(drawing.Point{X: 236, Y: 74}, 1)
	c.Number(at(20, 36), 2)
	c.Number(at(128, 38), 3)
	c.Number(at(92, -16), 4)
	c.Number(middle.Add(20, 84), 5)
	c.Number(drawing.Point{X: 352, Y: 44}, 6)
	for i, words := range []string{"spindle against table: sweep, two dials", "height of motion: run, ground and skimmed bar",
		"slope of motion: sweep, level, outer tracks", "form of the top: sweep, table run", "lean of the knee: square, both ways", "lean of the machine: level"} {
		y := 318 + 15*float64(i)
		c.Note(drawing.Point{X: 70, Y: y}, drawing.Start, string(rune('1'+i))+"  "+words)
	}
	c.Frame(drawing.Point{X: 20, Y: 400}, "x", "z")
	if times > 0 {
		c.Exaggerated("Tilts", times)
	}
	return c.Item(notebook.Say("The spindle is drawn leaning by {}, the table at the work by {}; plus when the right is high. No reading sees one number alone.",
		tidied(head, squaring.SlopeValue), tidied(slope, squaring.SlopeValue)))
}

// significant rounds a number above zero to one significant digit.
func significant(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	return math.Round(x/power) * power
}
