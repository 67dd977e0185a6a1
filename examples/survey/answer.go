package survey

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// answerItems adds the answer in a sentence or two and whether the readings hang
// together.
func (o outcome) answerItems(s *notebook.Sheet) error {
	readings, priors := 0, 0
	for _, r := range o.adjustment.Readings {
		if r.Prior {
			priors++
		} else {
			readings++
		}
	}
	text := notebook.Say(fmt.Sprintf("{} readings and {} assumptions (smooth curves, a flat top, the bearing), adjusted together for {} unknowns of the machine and of the gauges. With the head %s:", o.in.Head),
		notebook.Whole(readings), notebook.Whole(priors), notebook.Whole(len(o.adjustment.Parameters)))
	answers := 0
	for _, part := range []struct{ name, plus, minus string }{
		{"side-work", "side tilt at the work {u}", "side tilt at the work {u}"}, {"nod-work", "nod there {u}", "nod there {u}"},
		{"bow", "a part comes out thicker in the middle by {u}", "a part comes out thinner in the middle by {u}"},
		{"knee-y", "the knee leans {u} to the back as it rises", "the knee leans {u} to the front as it rises"},
	} {
		e, err := o.predict(part.name)
		if err != nil {
			return err
		}
		if !told(e) {
			continue
		}
		answers++
		words := part.plus
		if e.Value < 0 {
			words = part.minus
		}
		if part.name == "bow" || part.name == "knee-y" {
			e.Value = math.Abs(e.Value)
		}
		text = text.And(notebook.Say(words+";", quantity(e)))
	}
	free := len(o.adjustment.Undetermined())
	switch {
	case free == 0:
		text = text.And(notebook.Plain("nothing in the model is left open."))
	case answers == 0:
		text = text.And(notebook.Plain("these readings tell none of what you ask for. What they cannot tell stands below."))
	default:
		text = text.And(notebook.Say("{} things these readings cannot tell; they stand below.", notebook.Whole(free)))
	}
	tone := notebook.Good
	if free > 0 {
		tone = notebook.Watch
	}
	s.Add(notebook.Verdict{Name: "answer", Tone: tone, Text: text}, o.fitVerdict())
	return nil
}

// predict returns the estimate of one of the page's features by its name.
func (o outcome) predict(name string) (squaring.Estimate, error) {
	for _, f := range features(o.in) {
		if f.name == name {
			return o.adjustment.Predict(f.Feature)
		}
	}
	return squaring.Estimate{}, fmt.Errorf("no feature %q", name)
}

// fitVerdict says whether the readings agree with one another as well as was
// stated.
func (o outcome) fitVerdict() notebook.Verdict {
	a := o.adjustment
	v := notebook.Verdict{Name: "fit", Tone: notebook.Good}
	if a.Redundancy == 0 {
		v.Tone = notebook.Watch
		v.Text = notebook.Plain("Do the readings agree? Nobody can say: there are just enough of them, and none checks another.")
		return v
	}
	ratio := notebook.Stepped(math.Sqrt(a.ChiSquare/float64(a.Redundancy)), 0.01, notebook.Numbers)
	switch {
	case a.Chance < 0.01:
		v.Tone = notebook.Stop
		v.Text = notebook.Say("The readings contradict one another: their misfit is {} times what their stated uncertainties allow. Either a reading is wrong (see below) or the uncertainties were stated too small.", ratio)
	case a.Chance > 0.99:
		v.Text = notebook.Say("The readings agree better than was stated: their misfit is {} of what their uncertainties allow. They were stated with caution, so the doubts given here err to the large side.", ratio)
	default:
		v.Text = notebook.Say("The readings agree as well as they should: their misfit is {} of what their stated uncertainties allow.", ratio)
	}
	return v
}

// machineItems adds a figure for each feature.
func (o outcome) machineItems(s *notebook.Sheet) error {
	for _, f := range features(o.in) {
		e, err := o.adjustment.Predict(f.Feature)
		if err != nil {
			return notebook.InField("length", err)
		}
		s.Add(figure(f, e, o.noteOn(f.name)))
	}
	return nil
}

// figure shows an estimate, or says that the readings do not tell it.
func figure(f feature, e squaring.Estimate, note notebook.Text) notebook.Figure {
	item := notebook.Figure{Name: f.name, Label: f.label, Note: note}
	if !told(e) {
		item.Unknown = notTold
		return item
	}
	item.Value = quantity(e)
	if e.FromPrior > 0.5 {
		item.Note = item.Note.And(notebook.Say("Take care: {} of its doubt is assumption, not reading.", notebook.Quantity{SI: e.FromPrior, Show: notebook.Percents, Step: 0.01}))
	}
	return item
}

// noteOn says what a figure's sign means.
func (o outcome) noteOn(name string) notebook.Text {
	switch name {
	case "side-middle", "side-work":
		return notebook.Plain("Spindle less table: plus when the plane square to the spindle is high on the right.")
	case "nod-middle", "nod-work":
		return notebook.Plain("Spindle less table: plus when that plane is high at the back.")
	case "bow":
		return notebook.Say("{} long, its middle at u = {}: plus when it comes out thicker in the middle.", place(o.in.Length), place(o.in.Place))
	case "hole":
		return notebook.Say("Over {} of quill at the work: how far the bottom lies to the right of the top.", place(o.in.Depth))
	case "skew":
		return notebook.Plain("Plus when a hole moved to the back drifts to the left. What the table does sideways between the holes counts with it.")
	case "jaw-angle":
		return notebook.Plain("Plus when the jaw comes toward the operator to the right.")
	case "jaw-hollow":
		return notebook.Plain("How far the jaw's middle lies behind its ends.")
	case "knee-x", "knee-y":
		return notebook.Plain("Against the table in the middle of its travel: plus when the work moves right, or back, as it rises.")
	}
	return notebook.Plain("In the middle of the travel: plus when the right, or the back, is high.")
}

// motionItems adds the curves: how the table rises and tips along its travel.
func (o outcome) motionItems(s *notebook.Sheet) error {
	stations := o.stations()
	table := notebook.Table{Name: "motion", Title: "The table along its travel, counted from X = 0",
		Columns: []notebook.Column{notebook.ColIn("Travel X", notebook.Lengths), notebook.ColIn("Height", notebook.FineLengths),
			notebook.ColIn("Slope along", notebook.Slopes), notebook.ColIn("Slope across", notebook.Slopes)},
		Note: notebook.Plain("Height of the table's plane under the spindle. A dash: not told by these readings.")}
	var height, slope plot.Series
	height.Label, slope.Label = "all together", "all together"
	height.Style, slope.Style = plot.Line, plot.Line
	for _, x := range stations {
		row := []notebook.Cell{notebook.Val(place(x))}
		for i, f := range []squaring.Feature{squaring.TableHeight("", x), squaring.TableSlope("", squaring.AlongX, x), squaring.TableSlope("", squaring.AlongY, x)} {
			e, err := o.adjustment.Predict(f)
			if err != nil {
				return err
			}
			if !told(e) {
				row = append(row, notebook.Str("–"))
				continue
			}
			row = append(row, notebook.Val(quantity(e)))
			switch i {
			case 0:
				add(&height, float64(x), e.Value, e.U)
			case 1:
				add(&slope, float64(x), e.Value, e.U)
			}
		}
		table.Rows = append(table.Rows, row)
	}
	s.Add(table)
	heights, err := chartOf("height-chart", "Height of the table under the spindle", notebook.FineLengths,
		notebook.Plain("With one standard uncertainty either way, counted from X = 0. The dots are the table run on the middle track as read, moved up or down to lie on the curve on average: it holds the form of the top besides."),
		height, o.runAlone(height))
	if err != nil {
		return err
	}
	series, face, err := o.sweepsAlone(slope)
	if err != nil {
		return err
	}
	slopes, err := chartOf("slope-chart", "Slope of the table along x", notebook.Slopes,
		notebook.Plain("The dots are the sweeps taken one by one, shifted to agree at X = 0. They see the bend of the table's top besides the motion; the level beside them tells the two apart."), series...)
	if err != nil {
		return err
	}
	s.Add(heights, slopes, face)
	return nil
}

func add(s *plot.Series, x, y, u float64) {
	s.X, s.Y, s.U = append(s.X, x), append(s.Y, y), append(s.U, u)
}

// chartOf draws series that have points; without any it draws the zero line.
func chartOf(name, title string, show notebook.Pair, caption notebook.Text, series ...plot.Series) (notebook.Chart, error) {
	var drawn []plot.Series
	for _, s := range series {
		if len(s.X) > 0 {
			drawn = append(drawn, s)
		}
	}
	if len(drawn) == 0 {
		caption = notebook.Plain("These readings do not tell it: the line is the place from which it would be counted.")
		drawn = []plot.Series{{Label: "not told", Style: plot.Curve, X: []float64{-0.1, 0.1}, Y: []float64{0, 0}}}
	}
	return plot.XY{Name: name, Title: title, Caption: caption, X: plot.Axis{Label: "Travel X", Show: notebook.Lengths},
		Y: plot.Axis{Label: title, Show: show}, Series: drawn}.Chart()
}

// stations are the places at which the curves are shown: as surveyed, in even
// steps.
func (o outcome) stations() []unit.Length {
	low, high := -o.in.Place-o.in.Length/2, -o.in.Place+o.in.Length/2
	reach := func(x unit.Length) { low, high = min(low, x), max(high, x) }
	for _, r := range o.in.Sweep {
		reach(r.Travel)
	}
	for _, r := range o.in.Run {
		reach(r.Travel)
	}
	for _, r := range o.in.Level {
		reach(r.Travel)
	}
	for _, r := range o.in.Bar {
		reach(r.Travel)
	}
	step := 60 * mm
	for (high-low)/step > 16 {
		step *= 2
	}
	var list []unit.Length
	for i := math.Ceil(float64(low/step) - 1e-9); unit.Length(i)*step <= high+step/1000; i++ {
		list = append(list, unit.Length(i)*step)
	}
	if len(list) == 0 {
		list = []unit.Length{low}
	}
	return list
}

// sweepsAlone returns the slope curve with each sweep of the standing head
// worked by itself, and what the farthest one would say by itself.
func (o outcome) sweepsAlone(curve plot.Series) ([]plot.Series, notebook.Verdict, error) {
	v := notebook.Verdict{Name: "face-value", Tone: notebook.Note, Text: notebook.Plain("There is no sweep away from the middle to compare.")}
	dots := plot.Series{Label: "sweeps alone", Style: plot.Dots}
	var far SweepRow
	var farTilt squaring.Slope
	for _, row := range o.in.Sweep {
		if row.Head != o.in.Head {
			continue
		}
		tilt := firstHarmonic(row, o.in)
		middle, err := o.predict("side-middle")
		if err != nil {
			return nil, v, err
		}
		if told(middle) {
			add(&dots, float64(row.Travel), float64(tilt)+middle.Value, float64(o.in.SweepU/o.in.Radius)*math.Sqrt(2.0/8))
		}
		if math.Abs(float64(row.Travel)) >= math.Abs(float64(far.Travel)) {
			far, farTilt = row, tilt
		}
	}
	if far.Travel == 0 {
		return []plot.Series{curve, dots}, v, nil
	}
	e, err := o.adjustment.Predict(squaring.SpindleSquareness(o.in.Head, "", squaring.AlongX, far.Travel))
	if err != nil {
		return nil, v, err
	}
	if told(e) {
		v.Text = notebook.Say("The sweep at X = {}, worked by itself, says that the spindle stands {} off the table. All the readings together say {u}. The difference is the bend of the table's top, which the sweep rides over and the level, staying at one place of the table, does not.",
			place(far.Travel), tidied(-float64(farTilt), squaring.SlopeValue), quantity(e))
	}
	return []plot.Series{curve, dots}, v, nil
}

// runAlone is the middle track of the table run as read, moved to lie about the
// curve.
func (o outcome) runAlone(curve plot.Series) plot.Series {
	dots := plot.Series{Label: "run as read", Style: plot.Dots}
	if len(curve.X) == 0 {
		return dots
	}
	var shift float64
	for _, r := range o.in.Run {
		e, err := o.adjustment.Predict(squaring.TableHeight("", r.Travel))
		if err != nil || !told(e) {
			return dots
		}
		shift += (e.Value - float64(r.Middle)) / float64(len(o.in.Run))
	}
	for _, r := range o.in.Run {
		add(&dots, float64(r.Travel), float64(r.Middle)+shift, float64(o.in.DialU))
	}
	return dots
}

// firstHarmonic is the slope along x of one even sweep, drift removed.
func firstHarmonic(row SweepRow, in Inputs) squaring.Slope {
	var sum float64
	for i, shown := range row.Shown[:8] {
		drift := (row.Shown[8] - row.Shown[0]) * unit.Length(float64(i)/8)
		sum += float64(shown-drift) / in.Gain * math.Cos(float64(i)*math.Pi/4) / 4
	}
	return squaring.Slope(sum / float64(in.Radius))
}

// gaugeItems adds what the adjustment says of the gauges and of the table's top.
func (o outcome) gaugeItems(s *notebook.Sheet) error {
	table := notebook.Table{Name: "gauges", Title: "What the readings say of the gauges and of the table's top",
		Columns: []notebook.Column{notebook.Col("Which"), notebook.Col("Value"), notebook.Col("Share of assumption")},
		Note:    notebook.Plain("Nobody measured these on purpose: each gauge was turned or shared, so the adjustment could not help finding them.")}
	row := func(name string, e squaring.Estimate) {
		value, share := notebook.Str(notTold), notebook.Str("")
		if told(e) {
			value = notebook.Val(quantity(e))
			share = notebook.Val(notebook.Quantity{SI: e.FromPrior, Show: notebook.Percents, Step: 0.01})
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(name), value, share})
	}
	for _, p := range o.adjustment.Parameters {
		switch p.Name {
		case "mismatch of " + theGauge, "error of " + theSquare, "zero of " + theLevel:
			row(p.Name, p.Estimate)
		}
	}
	stations := o.stations()
	for _, f := range []struct {
		name string
		squaring.Feature
	}{
		{"table top at the far end of the travel, above the plane of its middle", squaring.TopForm(stations[len(stations)-1], 0)},
		{"table top on the outer track, above that plane", squaring.TopForm(0, o.in.Track)},
	} {
		e, err := o.adjustment.Predict(f.Feature)
		if err != nil {
			return err
		}
		row(f.name, e)
	}
	s.Add(table)
	return nil
}
