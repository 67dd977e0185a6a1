package warmarm

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 0.1*squaring.Microradian, notebook.Slopes)
}
func fine(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.01*um, notebook.FineLengths)
}
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func warmer(t unit.Temperature) notebook.Quantity {
	return notebook.Exact(t, steps)
}
func degrees(t unit.Temperature) notebook.Quantity {
	return notebook.Stepped(t, 0.1*kelvin, notebook.Temperatures)
}
func minutes(t unit.Time) notebook.Quantity { return notebook.Stepped(t, 0.5*minute, notebook.Minutes) }

// setUpItems adds the caution and the drawing of the arm.
func setUpItems(s *notebook.Sheet, in Inputs, w sweep) error {
	c := drawing.New("arm", "The arm on the spindle",
		"A spindle with an arm that goes down along its axis and out to a dial on the table. The part along the axis is marked: it alone moves the stylus up and down.", 420, 236)
	nose := drawing.Point{X: 130, Y: 56}
	c.Spindle(nose, 62, 52, 0)
	foot, out := drawing.Point{X: 130, Y: 150}, drawing.Point{X: 270, Y: 150}
	c.Box(drawing.Steel, drawing.Point{X: 124, Y: 56}, drawing.Point{X: 136, Y: 156}, 0)
	c.Box(drawing.Steel, drawing.Point{X: 124, Y: 145}, drawing.Point{X: 276, Y: 156}, 0)
	c.Plunger(drawing.Point{X: out.X, Y: 200}, 20, 0.08)
	c.TableFront(drawing.Point{X: 40, Y: 200}, drawing.Point{X: 390, Y: 200}, 18)
	c.Line(drawing.Marked, drawing.Point{X: 130, Y: 60}, foot)
	c.Dimension(drawing.Point{X: 124, Y: 56}, drawing.Point{X: 124, Y: 150}, 34, notebook.Say("{}", length(in.Drop)))
	c.Label(drawing.Point{X: 236, Y: 70}, drawing.Start, notebook.Say("{} warmer", warmer(in.Warm)))
	c.Leader(drawing.Point{X: 84, Y: 116}, drawing.End, "grows", drawing.Point{X: 126, Y: 111})
	item, err := c.Item(notebook.Say("Only the length along the spindle's axis counts. As the arm cools by all of its {} the stylus rises by {u}, and the dial reads less. The arm that goes out changes the radius by as little, which does nothing.",
		warmer(in.Warm), notebook.Of(w.growth, w.growthU, notebook.FineLengths)))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "isolate", Text: notebook.Plain("Isolate the spindle before you hang an arm and a dial on it, and turn it by hand: an arm that is thrown round breaks fingers.")})
	return nil
}

// armItems adds what the arm does to a sweep.
func armItems(s *notebook.Sheet, in Inputs, w sweep) error {
	share := 0.0 // relative uncertainty of the growth
	if w.growth != 0 {
		share = math.Abs(float64(w.growthU / w.growth))
	}
	of := func(x squaring.Slope) notebook.Quantity {
		return notebook.Of(x, x*squaring.Slope(share), notebook.Slopes)
	}
	verdict := notebook.Verdict{Name: "arm-verdict", Tone: notebook.Good, Text: notebook.Say("Go on: a level table would seem to lean {} under this arm, and you bear {}.", slope(w.seems), slope(in.Limit))}
	wait := notebook.Figure{Name: "wait", Label: "Wait before the sweep", Value: minutes(0),
		Note: notebook.Plain("Nothing to wait for.")}
	if w.seems > in.Limit {
		// The false tilt goes down as the warmth does.
		t := in.Cools * unit.Time(math.Log(float64(w.seems/in.Limit))/math.Log(3))
		wait.Value = minutes(t)
		wait.Note = notebook.Say("Until the false tilt is down to {}. Hang the arm up and go and do something else; do not hold it.", slope(in.Limit))
		verdict.Tone, verdict.Text = notebook.Watch, notebook.Say("Wait {}: a level table seems to lean {} under this arm, more than the {} that you bear. Or read the first place again at the end: that takes it down to {}.",
			minutes(t), slope(w.seems), slope(in.Limit), slope(w.closed))
		if w.closed > in.Limit {
			verdict.Tone, verdict.Text = notebook.Stop, notebook.Say("Wait {}: a level table seems to lean {} under this arm, and {} even with the closing reading taken out. You bear {}.", minutes(t), slope(w.seems), slope(w.closed), slope(in.Limit))
		}
	}
	var x, cooling, seen []float64
	for i, at := range w.at {
		x, seen = append(x, float64(at)), append(seen, float64(w.readings[i]))
	}
	var fx []float64
	for i := range 61 {
		t := in.Takes * unit.Time(i) / 60
		fx, cooling = append(fx, float64(t)), append(cooling, float64(w.growth)*(in.left(t)-1))
	}
	chart, err := plot.XY{Name: "cooling", Title: "What the dial shows on a level table",
		Caption: notebook.Say("The arm cools from one reading to the next. The last point is the first place read again: it does not close by {}.", fine(w.readings[in.Count])),
		X:       plot.Axis{Label: "Time since the first reading", Show: notebook.Minutes}, Y: plot.Axis{Label: "Dial", Show: notebook.FineLengths},
		Series: []plot.Series{{Label: "the arm", Style: plot.Curve, X: fx, Y: cooling}, {Label: "readings", Style: plot.Dots, X: x, Y: seen}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(verdict, wait,
		notebook.Figure{Name: "growth", Label: "The arm has grown by", Value: notebook.Of(w.growth, w.growthU, notebook.FineLengths), Note: notebook.Plain("Along the spindle. Plus: the stylus stands lower than cold.")},
		notebook.Figure{Name: "false", Label: "A level table seems to lean by", Value: of(w.seems), Note: notebook.Say("From {} readings in {}, closing reading not used.", notebook.Whole(in.Count), minutes(in.Takes))},
		notebook.Figure{Name: "closed", Label: "And with the closing reading", Value: of(w.closed), Note: notebook.Plain("An even drift is taken out; what is left is that cooling is not even.")},
		chart)
	return nil
}

// partResult is a part measured warm with a warm micrometer.
type partResult struct {
	// part and gauge are what each has grown since 20 degrees.
	part, gauge, partU, gaugeU unit.Length
	cold, u                    unit.Length
}

// partCold returns the part's length at the reference temperature.
func (in Inputs) partCold() (partResult, error) {
	var r partResult
	var err error
	r.part, r.partU, err = squaring.Warming{Length: in.Part, Expansion: in.Metal, ExpansionU: in.MetalU, Change: in.PartT - reference, ChangeU: in.PartTU}.Growth()
	if err != nil {
		return r, notebook.InField("part", err)
	}
	r.gauge, r.gaugeU, err = squaring.Warming{Length: in.Part, Expansion: in.Gauge, ExpansionU: in.GaugeU, Change: in.GaugeT - reference, ChangeU: in.GaugeTU}.Growth()
	if err != nil {
		return r, notebook.InField("part", err)
	}
	// A grown micrometer reads too little, a grown part too much.
	r.cold = in.Part - r.part + r.gauge
	r.u = unit.Length(math.Hypot(float64(r.partU), float64(r.gaugeU)))
	return r, nil
}

// partItems adds the part's length when it is cold.
func partItems(s *notebook.Sheet, in Inputs, _ sweep) error {
	r, err := in.partCold()
	if err != nil {
		return err
	}
	off := r.cold - in.Part
	s.Add(
		notebook.Figure{Name: "cold", Label: "The part at 20 °C", Value: notebook.Of(r.cold, r.u, notebook.Lengths), Note: notebook.Plain("The uncertainty is that of the warmth alone, not of the reading.")},
		notebook.Figure{Name: "off", Label: "The reading at 20 °C, less this one", Value: notebook.Of(off, r.u, notebook.FineLengths),
			Note: notebook.Say("The part has grown by {u}, the micrometer by {u}.", notebook.Of(r.part, r.partU, notebook.FineLengths), notebook.Of(r.gauge, r.gaugeU, notebook.FineLengths))},
	)
	budget := notebook.Table{Name: "warm-budget", Title: "Where the doubt in the part comes from",
		Columns: []notebook.Column{notebook.Col("Source"), notebook.ColIn("Standard uncertainty", notebook.FineLengths)}}
	rise, gaugeRise := float64(in.PartT-reference), float64(in.GaugeT-reference)
	for _, row := range []struct {
		source string
		u      float64
	}{
		{"the part's temperature", float64(in.Part) * float64(in.Metal) * float64(in.PartTU)},
		{"how much the part's metal expands", float64(in.Part) * float64(in.MetalU) * math.Abs(rise)},
		{"the micrometer's temperature", float64(in.Part) * float64(in.Gauge) * float64(in.GaugeTU)},
		{"how much the micrometer expands", float64(in.Part) * float64(in.GaugeU) * math.Abs(gaugeRise)},
	} {
		budget.Rows = append(budget.Rows, []notebook.Cell{notebook.Str(row.source), notebook.Val(notebook.Stepped(unit.Length(row.u), 0.01*um, notebook.FineLengths))})
	}
	var x, part, low, high []float64
	for i := range 41 {
		t := 5*kelvin + 273.15 + kelvin*unit.Temperature(i)
		g, _, err := squaring.Warming{Length: in.Part, Expansion: in.Metal, Change: t - reference}.Growth()
		if err != nil {
			return err
		}
		u := float64(in.Part) * math.Hypot(float64(in.MetalU)*float64(t-reference), float64(in.Metal)*float64(in.PartTU))
		x, part = append(x, float64(t)), append(part, float64(g))
		low, high = append(low, float64(g)-2*u), append(high, float64(g)+2*u)
	}
	chart, err := plot.XY{Name: "part-chart", Title: "How much the part has grown",
		Caption: notebook.Say("Counted from 20 °C. At {} it is {}. The band is two standard uncertainties either way.", degrees(in.PartT), fine(r.part)),
		X:       plot.Axis{Label: "The part is at", Show: notebook.Temperatures}, Y: plot.Axis{Label: "Grown by", Show: notebook.FineLengths},
		Series: []plot.Series{{Label: "the part", Style: plot.Curve, X: x, Y: part}, {Label: "± 2u", Style: plot.Band, X: x, Low: low, High: high}},
		Marks:  mark(in.PartT)}.Chart()
	if err != nil {
		return err
	}
	s.Add(budget, chart)
	return nil
}

// mark marks the part's temperature where the chart reaches it.
func mark(t unit.Temperature) []plot.Mark {
	if t < 278.15*kelvin || t > 318.15*kelvin {
		return nil
	}
	return []plot.Mark{{Label: "your part", X: float64(t)}}
}

// columnItems adds the lean of the column and what it does.
func columnItems(s *notebook.Sheet, in Inputs, w sweep) error {
	nod, err := squaring.ColumnNod(in.Height, in.Depth, in.Column, in.Front)
	if err != nil {
		return notebook.InField("height", err)
	}
	one, err := squaring.ColumnNod(in.Height, in.Depth, in.Column, 1*kelvin)
	if err != nil {
		return notebook.InField("height", err)
	}
	u := one * squaring.Slope(in.FrontU)
	hole, err := squaring.Hole{Feed: squaring.ByQuill, Tilt: squaring.Gradient{Y: -nod}, TiltU: squaring.Gradient{Y: u}, Depth: 60 * mm}.Made()
	if err != nil {
		return err
	}
	s.Add(
		notebook.Figure{Name: "nod", Label: "The warm column leans the head back by", Value: notebook.Of(nod, u, notebook.Slopes),
			Note: notebook.Say("Each {} between front and back makes {}. The warmth is taken as falling evenly from front to back.", warmer(1*kelvin), slope(one))},
		notebook.Figure{Name: "hole", Label: "A hole 60 mm deep by quill then leans", Value: notebook.Of(hole.ShiftY, hole.ShiftYU, notebook.FineLengths), Note: notebook.Plain("Plus: the bottom of the hole lies to the back of its top.")},
		notebook.Verdict{Name: "evening", Tone: notebook.Note, Text: notebook.Say("A head set true with the column warm is out by {} in the evening.", slope(nod))},
	)
	table := notebook.Table{Name: "what", Title: "The same warmth, three ways",
		Columns: []notebook.Column{notebook.Col("What is warm"), notebook.ColIn("By", steps), notebook.ColIn("It grows", notebook.FineLengths), notebook.Col("What you see")},
		Rows: [][]notebook.Cell{
			{notebook.Str("the sweep arm"), notebook.Val(warmer(in.Warm)), notebook.Val(fine(w.growth)), notebook.Str("a tilt that is not there, a round that does not close")},
			{notebook.Str("the part"), notebook.Val(warmer(in.PartT - reference)), notebook.Val(fine(in.Part * unit.Length(float64(in.Metal)*float64(in.PartT-reference)))), notebook.Str("a part that is small when cold")},
			{notebook.Str("the column's front"), notebook.Val(warmer(in.Front)), notebook.Val(fine(in.Height * unit.Length(float64(in.Column)*float64(in.Front)))), notebook.Str("a nod that goes away in the evening")},
		}}
	s.Add(table)
	return nil
}
