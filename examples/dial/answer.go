package dial

import (
	"math"

	"example.org/thouspan/examples/actionshop"
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
func number(x float64, digits int) notebook.Quantity {
	return notebook.Exact(x, notebook.Numbers).WithDigits(digits)
}
func degrees(a unit.Angle) notebook.Quantity {
	return notebook.Stepped(a, 1*squaring.Degree, notebook.Angles)
}

// setUpItems adds the drawing and the caution.
func setUpItems(s *notebook.Sheet, _ Inputs, _ squaring.Calibration) error {
	c := drawing.New("run", "A run over gauge blocks", "A dial on a stand over a plate, with gauge blocks of growing height set under its stem one after the other.", 420, 218)
	c.Box(drawing.Steel, drawing.Point{X: 20, Y: 180}, drawing.Point{X: 400, Y: 194}, 0)
	for i := range 4 {
		x, h := 60+70*float64(i), 14+16*float64(i)
		c.Box(drawing.Glass, drawing.Point{X: x, Y: 180 - h}, drawing.Point{X: x + 44, Y: 180}, 0)
		c.Number(drawing.Point{X: x + 22, Y: 202}, i+1)
	}
	c.Plunger(drawing.Point{X: 292, Y: 118}, 26, 0.2)
	c.Line(drawing.Visible, drawing.Point{X: 318, Y: 70}, drawing.Point{X: 372, Y: 70}, drawing.Point{X: 372, Y: 180})
	item, err := c.Item(notebook.Plain("Up through the blocks and down again, the zero untouched. What is shown falling less what is shown rising is the hysteresis; how it grows with the blocks is the gain."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "blocks", Text: notebook.Plain("Gauge blocks are hard and brittle and their edges cut. Lift the stem before you slide one under, and wipe the acid of your fingers off afterwards. Check the dial on a plate, not in a spindle that can start.")})
	return nil
}

// answerItems adds gain, hysteresis and scatter.
func answerItems(s *notebook.Sheet, in Inputs, c squaring.Calibration) error {
	chart, err := errorChart(in, c)
	if err != nil {
		return err
	}
	off := c.Gain - 1
	v := notebook.Verdict{Name: "answer", Tone: notebook.Good, Text: notebook.Say("This dial cannot be told from a true one in gain: it shows {u} of what it moves.", notebook.Of(c.Gain, c.GainU, notebook.Numbers))}
	if math.Abs(off) > 2*c.GainU {
		v.Tone = notebook.Watch
		v.Text = notebook.Say("This dial shows {u} times what it moves. Divide its readings by that. Read back from the other side it shows {} more.", notebook.Of(c.Gain, c.GainU, notebook.Numbers), height(c.Hysteresis))
	}
	s.Add(v,
		notebook.Figure{Name: "gain", Label: "Gain", Value: notebook.Of(c.Gain, c.GainU, notebook.Numbers), Note: notebook.Plain("Shown over moved, from the slope of the run.")},
		notebook.Figure{Name: "hysteresis", Label: "Hysteresis", Value: notebook.Of(c.Hysteresis, c.HysteresisU, notebook.FineLengths), Note: notebook.Plain("Falling less rising, at the same height. It vanishes from readings that are all approached from the same side.")},
		notebook.Figure{Name: "scatter", Label: "Scatter of one reading", Value: height(c.ReadingU), Note: notebook.Say("Standard deviation: {} by the residuals, {} by rounding to {}. The larger counts.", height(c.Scatter), height(c.Rounding), height(in.Step))},
		chart)
	return nil
}

// errorChart draws what the dial shows too much, rising and falling.
func errorChart(in Inputs, c squaring.Calibration) (notebook.Chart, error) {
	rising, falling := plot.Series{Label: "rising", Style: plot.Line}, plot.Series{Label: "falling", Style: plot.Line}
	low, high := math.Inf(1), math.Inf(-1)
	for _, b := range in.Blocks {
		x := float64(b.Height)
		rising.X, rising.Y = append(rising.X, x), append(rising.Y, float64(b.Rising-b.Height))
		falling.X, falling.Y = append(falling.X, x), append(falling.Y, float64(b.Falling-b.Height))
		low, high = math.Min(low, x), math.Max(high, x)
	}
	line := plot.Series{Label: "fitted, rising", Style: plot.Curve, X: []float64{low, high}}
	for _, x := range line.X {
		line.Y = append(line.Y, float64(c.Zero)+(c.Gain-1)*x)
	}
	return plot.XY{Name: "errors", Title: "What the dial shows too much", Caption: notebook.Say("The slope is the gain less one; the distance of the two lines is the hysteresis, {}.", height(c.Hysteresis)),
		X: plot.Axis{Label: "Block", Show: notebook.Lengths}, Y: plot.Axis{Label: "Shown less block", Show: notebook.FineLengths}, Series: []plot.Series{rising, falling, line}}.Chart()
}

// correctItems corrects one reading and says what the dial does to a tilt.
func correctItems(s *notebook.Sheet, in Inputs, c squaring.Calibration) error {
	d := c.Of(squaring.Indicator{Division: in.Step, ReadTo: 1, StylusAngle: in.StylusAngle, StylusAngleU: in.StylusAngleU})
	h, err := d.Measure(in.Reading)
	if err != nil {
		return notebook.InField("reading", err)
	}
	// The run's scatter is part of every reading, as far as it exceeds the
	// rounding.
	factor, _ := d.Factor()
	one := max(h.Rounding, c.ReadingU*unit.Length(factor))
	u := unit.Length(math.Hypot(float64(one), float64(h.Scale)))
	tilt, err := squaring.SlopeFromRise(h.Value, in.Span)
	if err != nil {
		return notebook.InField("span", err)
	}
	lag, err := squaring.SlopeFromRise(c.Hysteresis, in.Span)
	if err != nil {
		return notebook.InField("span", err)
	}
	table := notebook.Table{Name: "levers", Title: "A slanted lever",
		Columns: []notebook.Column{notebook.ColIn("Angle to the surface", notebook.Angles), notebook.Col("True move over shown"), notebook.ColIn("Shown for a tenth of a millimetre", notebook.FineLengths)}}
	for _, angle := range []unit.Angle{0, 5, 10, 15, 20, 30, 45} {
		lever := squaring.Indicator{StylusAngle: angle * squaring.Degree}
		factor, _ := lever.Factor()
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Val(degrees(angle * squaring.Degree)), notebook.Val(number(factor, 3)), notebook.Val(height(lever.Shown(100 * um)))})
	}
	s.Add(
		notebook.Figure{Name: "true", Label: "The true move behind that reading", Value: notebook.Of(h.Value, u, notebook.FineLengths), Note: notebook.Say("Of its uncertainty one reading makes {}, gain and stylus {}.", height(one), height(h.Scale))},
		notebook.Figure{Name: "tilt", Label: "As a slope over the span", Value: notebook.Of(tilt, squaring.Slope(u/in.Span), notebook.Slopes), Note: notebook.Say("Over {}.", length(in.Span))},
		notebook.Figure{Name: "lag", Label: "What hysteresis alone could be taken for", Value: slope(lag), Note: notebook.Say("{} over {}: what a reading approached from the wrong side looks like.", height(c.Hysteresis), length(in.Span))},
		table)
	return nil
}

// shopItems sets the shop's four dials side by side.
func shopItems(s *notebook.Sheet, _ Inputs, _ squaring.Calibration) error {
	table := notebook.Table{Name: "four", Title: "The action shop's four dials",
		Columns: []notebook.Column{notebook.Col("Dial"), notebook.ColIn("Division", notebook.FineLengths), notebook.Col("Gain"), notebook.ColIn("Hysteresis", notebook.FineLengths), notebook.ColIn("Scatter of one", notebook.FineLengths)}}
	for _, run := range actionshop.DialRuns() {
		var blocks []Block
		for _, b := range run.Blocks {
			blocks = append(blocks, Block{b.Block, b.Rising, b.Falling})
		}
		c, err := squaring.CalibrateIndicator(readings(blocks), run.Step)
		if err != nil {
			return err
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(run.Name), notebook.Val(height(run.Division)), notebook.Val(notebook.Of(c.Gain, c.GainU, notebook.Numbers)),
			notebook.Val(notebook.Of(c.Hysteresis, c.HysteresisU, notebook.FineLengths)), notebook.Val(height(c.ReadingU))})
	}
	s.Add(table)
	return nil
}

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, c squaring.Calibration) error {
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	near := 20 * um
	s.Add(
		note("wrong-finer", notebook.Say("A finer dial is not a truer dial. Near null this gain costs {} in {}; the hysteresis costs {} wherever the hand stands.", height(near*unit.Length(math.Abs(c.Gain-1))), height(near), height(c.Hysteresis))),
		note("wrong-zero", notebook.Say("Setting the zero does not mend the gain: at {} shown the dial is out by {}.", height(in.Reading), height(in.Reading-in.Reading/unit.Length(c.Gain)))),
		note("wrong-slant", notebook.Say("A slanted lever reads long, not short: at {} a move of {} shows as {}.", degrees(30*squaring.Degree), height(10*um), height(squaring.Indicator{StylusAngle: 30 * squaring.Degree}.Shown(10*um)))),
	)
	return nil
}

// checkItems sets what this lesson computes with against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ squaring.Calibration) error {
	for _, check := range []struct {
		name, row string
		angle     unit.Angle
	}{{"check-ten", "lever-10", 10}, {"check-twenty", "lever-20", 20}, {"check-thirty", "lever-30", 30}} {
		factor, _ := squaring.Indicator{StylusAngle: check.angle * squaring.Degree}.Factor()
		s.Add(notebook.CheckRow(check.name, check.row, factor))
	}
	var list []unit.Length
	for _, v := range []float64{96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72} {
		list = append(list, unit.Length(v)*um)
	}
	repeats, err := squaring.Indicator{}.Measure(list...)
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-mean", "dial-gum-repeats-mean", float64(repeats.Value/um)), notebook.CheckRow("check-repeats", "dial-gum-repeats-u", float64(repeats.Uncertainty/um)))
	return nil
}
