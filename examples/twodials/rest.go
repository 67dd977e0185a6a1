package twodials

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// setUpItems adds the cautions and the drawing of both positions.
func setUpItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	positions, err := positionsDrawing(in, results)
	if err != nil {
		return err
	}
	s.Add(
		notebook.Caution{Name: "isolate", Text: notebook.Plain("Isolate the machine before you reach between spindle and table, and take the bar out before it is switched on again. A bar of this length thrown by a spindle that starts can kill.")},
		notebook.Caution{Name: "support", Text: notebook.Plain("Hold the head up with a jack or a hoist before you slacken its bolts: it can swing. Bring every bolt to full torque before you cut.")},
		positions,
	)
	return nil
}

// positionsDrawing shows the bar as marked and turned, with what the dials
// showed in the first direction that was read.
func positionsDrawing(in Inputs, results [2]result) (notebook.Drawing, error) {
	r := results[0]
	if !r.read {
		r = results[1]
	}
	first, second := map[string]unit.Length{}, map[string]unit.Length{}
	for _, p := range in.Pairs {
		if p.Direction == r.name {
			first[p.Position], second[p.Position] = p.First, p.Second
		}
	}
	c := drawing.New("positions", "The bar in both positions",
		"A bar in the spindle with a dial at either end, over the table: above as marked, with the first dial on the left or in front, below turned half a turn, with the first dial on the other side.", 420, 390)
	for i, position := range []string{asMarked, halfTurned} {
		base := 170 + 190*float64(i)
		drawBar(c, base)
		left, right, a, b := "first", "second", first[position], second[position]
		if position == halfTurned {
			left, right, a, b = "second", "first", second[position], first[position]
		}
		c.Words(drawing.Point{X: 210, Y: base - 146}, drawing.Middle, position+", "+r.name)
		c.Label(drawing.Point{X: 58, Y: base - 96}, drawing.Middle, notebook.Plain(left))
		c.Label(drawing.Point{X: 362, Y: base - 96}, drawing.Middle, notebook.Plain(right))
		c.Label(drawing.Point{X: 58, Y: base - 78}, drawing.Middle, notebook.Say("{}", shown(in, a)))
		c.Label(drawing.Point{X: 362, Y: base - 78}, drawing.Middle, notebook.Say("{}", shown(in, b)))
	}
	return c.Item(notebook.Say("The bar carries two dials {} apart. Turned half a turn each dial stands where the other stood: what belongs to the table changes sides, what belongs to the dials does not. Not to scale.", length(in.Span)))
}

// drawBar draws spindle, bar and dials over the table whose top is at base.
func drawBar(c *drawing.Canvas, base float64) {
	c.Box(drawing.Steel, drawing.Point{X: 96, Y: base - 66}, drawing.Point{X: 324, Y: base - 54}, 2)
	c.Box(drawing.Steel, drawing.Point{X: 196, Y: base - 96}, drawing.Point{X: 224, Y: base - 54}, 2)
	c.Box(drawing.Body, drawing.Point{X: 182, Y: base - 138}, drawing.Point{X: 238, Y: base - 96}, 2)
	c.Line(drawing.Centre, drawing.Point{X: 210, Y: base - 142}, drawing.Point{X: 210, Y: base - 12})
	for _, x := range []float64{110, 310} {
		c.Plunger(drawing.Point{X: x, Y: base}, 22, 0.1)
	}
	c.Face(drawing.Body, drawing.Point{X: 40, Y: base}, drawing.Point{X: 380, Y: base}, drawing.Point{X: 380, Y: base + 12}, drawing.Point{X: 40, Y: base + 12})
}

// shown is a reading as the dial shows it.
func shown(in Inputs, l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, squaring.Indicator{Division: in.Division, ReadTo: in.ReadTo}.Resolution(), notebook.Lengths)
}

// workItems adds what the tilt leaves on a face.
func workItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	facing := squaring.Facing{Diameter: in.Cutter, Width: in.Width, StepOver: in.StepOver}
	if results[0].read {
		facing.Tilt.X, facing.TiltU.X = results[0].gauge.Tilt.Slope, results[0].gauge.Tilt.Uncertainty
	}
	if results[1].read {
		facing.Tilt.Y, facing.TiltU.Y = results[1].gauge.Tilt.Slope, results[1].gauge.Tilt.Uncertainty
	}
	face, err := facing.Surface()
	if err != nil {
		return notebook.InField("width", err)
	}
	dish := notebook.Figure{Name: "dish", Label: "Hollow of one pass along x", Value: notebook.Of(face.Dish, face.DishU, notebook.FineLengths),
		Note: notebook.Say("A cutter of {} over a width of {}, from the tilt side to side.", length(in.Cutter), length(in.Width))}
	step := notebook.Figure{Name: "step", Label: "Step between passes along x", Value: notebook.Of(face.Step, face.StepU, notebook.FineLengths),
		Note: notebook.Say("Passes {} apart, from the tilt front to back.", length(in.StepOver))}
	if !results[0].read {
		dish.Unknown = "there are no readings side to side"
	}
	if !results[1].read {
		step.Unknown = "there are no readings front to back"
	}
	s.Add(dish, step)
	return nil
}

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	apart := 3 * squaring.Thou
	whole, err := squaring.SlopeFromRise(apart, in.Span)
	if err != nil {
		return notebook.InField("span", err)
	}
	value, _, _ := mismatch(results)
	alike, err := squaring.SlopeFromRise(-value, in.Span)
	if err != nil {
		return notebook.InField("span", err)
	}
	fine := results[0].gauge.Rounding
	if !results[0].read {
		fine = results[1].gauge.Rounding
	}
	s.Add(
		note("wrong-alike", notebook.Say("Dials alike mean a square head only if the dials agree. With a mismatch of {} over {}, setting them alike leaves a tilt of {}.", height(value), length(in.Span), slope(alike))),
		note("wrong-half", notebook.Say("Two dials {} apart over {} are a tilt of {}: all of the difference over the span, and not half of it, {}.", height(apart), length(in.Span), slope(whole), slope(whole/2))),
		note("wrong-finer", notebook.Say("A finer dial is not a truer one. One difference of these two dials is sure to {} by rounding and hysteresis, which over the span is {}; gain hardly matters near zero.", height(fine), slope(squaring.Slope(fine/in.Span)))),
		note("wrong-zero", notebook.Say("Zeroing both dials on one setting block does not make them alike for good: each setting has its own scatter. Ten settings that scatter by {} still leave {} in their mean.", height(3*um), notebook.Exact(3*um/unit.Length(math.Sqrt(10)), notebook.FineLengths).WithDigits(2))),
	)
	return nil
}

// checkItems sets what this lesson computes with against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ [2]result) error {
	gauge, err := squaring.ReadTwoDials([]squaring.DialPair{{Second: 18 * um}, {Second: -6 * um, Turned: true}}, squaring.TwoDialOptions{Span: 250 * mm})
	if err != nil {
		return err
	}
	var readings []unit.Length
	for _, v := range []float64{96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72} {
		readings = append(readings, unit.Length(v)*um)
	}
	repeats, err := squaring.Indicator{}.Measure(readings...)
	if err != nil {
		return err
	}
	t, err := squaring.CoverageFactor(0.95, 16)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-tilt", "gauge-reversal-tilt", gauge.Tilt.Slope.Microradians()),
		notebook.CheckRow("check-mismatch", "gauge-reversal-mismatch", float64(gauge.Mismatch/um)),
		notebook.CheckRow("check-mean", "dial-gum-repeats-mean", float64(repeats.Value/um)),
		notebook.CheckRow("check-repeats", "dial-gum-repeats-u", float64(repeats.Uncertainty/um)),
		notebook.CheckRow("check-t", "dial-gum-t-16", t),
	)
	return nil
}
