package threelines

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(s wear.Straightness) notebook.Quantity {
	return notebook.Of(s.Value, s.U, notebook.FineLengths)
}

// answers adds the verdict, the figures, the table and the caution.
func (r result) answers(s *notebook.Sheet) error {
	end, least, zone := r.lines[0], r.lines[1], r.lines[2]
	points := r.profile.Points
	length := points[len(points)-1].Position - points[0].Position
	gauge := wear.Gauge{Step: r.in.Step, RepeatU: r.in.RepeatU}
	s.Add(
		notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: notebook.Say(
			"Over {} this line is straight within {u}: that is the minimum zone, the least that any straight line can give. From the end points it is {u}, by least squares {u}.",
			place(length), fine(zone), fine(end), fine(least))},
		table(r),
		notebook.Figure{Name: "zone", Label: "Straightness, minimum zone", Value: fine(zone), Note: notebook.Say("One reading alone is sure to {}.", notebook.Stepped(gauge.U(), 0.1*um, notebook.FineLengths))},
		notebook.Figure{Name: "trials", Label: "The same, from 4000 repeats drawn from the errors", Value: notebook.Of(r.trials.Mean, r.trials.U, notebook.FineLengths),
			Note: notebook.Say("Middle 95 % from {} to {}. The mean is {} above the value itself: errors of reading only ever widen a range.",
				notebook.Stepped(r.trials.Low, 0.1*um, notebook.FineLengths), notebook.Stepped(r.trials.High, 0.1*um, notebook.FineLengths), notebook.Stepped(r.trials.Bias, 0.1*um, notebook.FineLengths))},
		notebook.Figure{Name: "local", Label: "Worst local straightness", Value: notebook.Exact(r.local.Value, notebook.FineLengths).WithDigits(2),
			Note: notebook.Say("Over {}, from {} on.", place(r.in.Stretch), place(r.from))},
		notebook.Figure{Name: "least-over-zone", Label: "Least squares over minimum zone", Value: notebook.Exact(share(least, zone), notebook.Percents)},
		notebook.Caution{Name: "caution-run", Text: notebook.Plain("Isolate the machine before you set the dial under the spindle, and run the table by hand: a dial that is run into is thrown.")},
	)
	return nil
}

// share is by how much one value exceeds another.
func share(a, b wear.Straightness) float64 {
	if b.Value <= 0 {
		return 0
	}
	return float64(a.Value/b.Value) - 1
}

func table(r result) notebook.Table {
	t := notebook.Table{Name: "lines", Title: "Three lines through one profile", Columns: []notebook.Column{notebook.Col("Line"),
		notebook.ColIn("Straightness", notebook.FineLengths), notebook.ColIn("Root mean square", notebook.FineLengths), notebook.ColIn("Climbs", notebook.Slopes), notebook.ColIn("Highest at", notebook.Lengths), notebook.ColIn("Lowest at", notebook.Lengths)},
		Note: notebook.Plain("Climb is counted from the line through the ends. The root mean square weighs every place alike, and does not hang on the two worst. Where several places are equally far out the first is named.")}
	for i, line := range r.lines {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(references[i].String()), notebook.Val(fine(line)), notebook.Val(notebook.Stepped(line.RMS, 0.1*um, notebook.FineLengths)),
			notebook.Val(notebook.Stepped(line.Line.Slope, 0.1e-6, notebook.Slopes)),
			notebook.Val(place(r.profile.Points[line.Highest[0]].Position)), notebook.Val(place(r.profile.Points[line.Lowest[0]].Position))})
	}
	return t
}

// pictures adds the chart and the drawing of the zone.
func (r result) pictures(s *notebook.Sheet) error {
	chart, err := r.chart()
	if err != nil {
		return err
	}
	zone, err := r.drawing()
	if err != nil {
		return err
	}
	s.Add(chart, zone)
	return nil
}

func (r result) chart() (notebook.Chart, error) {
	heights := plot.Series{Label: "heights", Style: plot.Line}
	for i, p := range r.profile.Points {
		heights.X, heights.Y, heights.U = append(heights.X, float64(p.Position)), append(heights.Y, float64(p.Height)), append(heights.U, float64(r.profile.U(i)))
	}
	ends := []float64{heights.X[0], heights.X[len(heights.X)-1]}
	series := []plot.Series{heights}
	line := func(label string, l wear.Line, by unit.Length) plot.Series {
		return plot.Series{Label: label, Style: plot.Curve, X: ends, Y: []float64{float64(l.At(unit.Length(ends[0])) + by), float64(l.At(unit.Length(ends[1])) + by)}}
	}
	half := r.lines[2].Value / 2
	series = append(series, line(references[0].String(), r.lines[0].Line, 0), line(references[1].String(), r.lines[1].Line, 0),
		line("zone, upper", r.lines[2].Line, half), line("zone, lower", r.lines[2].Line, -half))
	return plot.XY{Name: "lines-chart", Title: "Heights above the line through the ends", Caption: notebook.Plain("With one standard uncertainty either way. The zone's two lines are as near to one another as any two parallel lines that hold all heights."),
		X: plot.Axis{Label: "Place", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: series}.Chart()
}

// drawing draws how the minimum zone is found: a hull of straight edges round
// the heights, and the zone along one of them.
func (r result) drawing() (notebook.Drawing, error) {
	c := drawing.New("zone-drawing", "A zone that touches at three places",
		"The heights with two parallel lines that hold them. One line touches at two places, the other at a place between them: tilt the pair either way and it must open.", 420, 240)
	points := r.profile.Points
	first, last := points[0].Position, points[len(points)-1].Position
	high, low := points[0].Height, points[0].Height
	for _, p := range points {
		high, low = max(high, p.Height), min(low, p.Height)
	}
	tall := math.Max(float64(high-low), 1e-9)
	view := drawing.View{Along: 350 / float64(last-first), Up: 140 / tall}
	view.Origin = drawing.Point{X: 210 - view.Along*float64(first+last)/2, Y: 110 + view.Up*float64(high+low)/2}
	at := func(p wear.Point) drawing.Point { return view.At(float64(p.Position), float64(p.Height)) }
	curve := make([]drawing.Point, len(points))
	for i, p := range points {
		curve[i] = at(p)
	}
	zone := r.lines[2]
	for _, side := range []unit.Length{zone.Value / 2, -zone.Value / 2} {
		c.Line(drawing.Centre, at(wear.Point{Position: first, Height: zone.Line.At(first) + side}), at(wear.Point{Position: last, Height: zone.Line.At(last) + side}))
	}
	c.Line(drawing.Marked, curve...)
	for _, contacts := range [][]int{zone.Highest, zone.Lowest} {
		for _, i := range contacts[:min(len(contacts), 6)] {
			c.Circle(drawing.Solid, curve[i], 3.5)
		}
	}
	if times := view.Times(); times >= 1 {
		power := math.Pow(10, math.Floor(math.Log10(times)))
		c.Exaggerated("Heights", math.Round(times/power)*power)
	}
	return c.Item(notebook.Say("The zone is {u} wide. It touches at the dots.", fine(zone)))
}

// unequal is the profile of the first exercise and of three checks.
func unequal() []wear.Point {
	x, z := []float64{0, 80, 200, 410, 500, 640, 800}, []float64{0, 5, 2, 7, 6, -1, 3}
	points := make([]wear.Point, len(x))
	for i := range x {
		points[i] = wear.Point{Position: unit.Length(x[i]) * mm, Height: unit.Length(z[i]) * um}
	}
	return points
}

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	for i, name := range []string{"ends", "least", "zone"} {
		straight, err := wear.StraightnessOf(unequal(), references[i])
		if err != nil {
			return err
		}
		s.Add(notebook.CheckRow("check-"+name, "straight-steps-"+name, float64(straight.Value/um)))
	}
	return nil
}
