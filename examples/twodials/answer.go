package twodials

import (
	"math"
	"sort"
	"time"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// slope, height and length are values without an uncertainty.
func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 1*squaring.Microradian, notebook.Slopes)
}
func height(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func tilt(m squaring.MeasuredSlope) notebook.Quantity {
	return notebook.Of(m.Slope, m.Uncertainty, notebook.Slopes)
}

// answerItems adds tilt and mismatch in both directions.
func answerItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	s.Add(
		directionVerdict("answer-side", in, results[0]), directionVerdict("answer-nod", in, results[1]),
		tiltFigure("tilt-x", "Tilt side to side, x", results[0]), tiltFigure("tilt-y", "Tilt front to back, y", results[1]),
		mismatchFigure(results), mismatchVerdict(results), believedTable(results), doubtTable(in, results),
	)
	return nil
}

// directionVerdict says what the head does in one direction.
func directionVerdict(name string, in Inputs, r result) notebook.Verdict {
	v := notebook.Verdict{Name: name, Tone: notebook.Note}
	if !r.read {
		v.Text = notebook.Plain("There are no readings " + r.name + ".")
		return v
	}
	half, err := squaring.CoverageFactor(0.95, r.gauge.DegreesOfFreedom)
	if err != nil {
		half = 2
	}
	t, u := r.gauge.Tilt.Slope, squaring.Slope(half)*r.gauge.Tilt.Uncertainty
	size := squaring.Slope(math.Abs(float64(t)))
	high := r.plus
	if t < 0 {
		high = r.minus
	}
	switch {
	case size <= u && size+u <= in.Limit:
		v.Tone, v.Text = notebook.Good, notebook.Say("Between "+r.minus+" and "+r.plus+" the head cannot be told from square, {u}, and it is within {}.", tilt(r.gauge.Tilt), slope(in.Limit))
	case size+u <= in.Limit:
		v.Tone, v.Text = notebook.Good, notebook.Say("Measured from the spindle the table is high on the "+high+" by {u}: within {}, doubt included.", notebook.Of(size, r.gauge.Tilt.Uncertainty, notebook.Slopes), slope(in.Limit))
	case size-u > in.Limit:
		v.Tone, v.Text = notebook.Stop, notebook.Say("Measured from the spindle the table is high on the "+high+" by {u}: beyond {}, doubt or not. The dials as marked differ by {}, and of that {} is their own mismatch.",
			notebook.Of(size, r.gauge.Tilt.Uncertainty, notebook.Slopes), slope(in.Limit), height(r.gauge.Believed.Rise(in.Span)), height(r.gauge.Mismatch))
	default:
		v.Tone, v.Text = notebook.Watch, notebook.Say("Between "+r.minus+" and "+r.plus+" the tilt is {u}: the limit of {} lies inside the doubt. Repeat the readings, or use a longer bar.", tilt(r.gauge.Tilt), slope(in.Limit))
	}
	return v
}

// tiltFigure is the tilt in one direction.
func tiltFigure(name, label string, r result) notebook.Figure {
	f := notebook.Figure{Name: name, Label: label}
	if !r.read {
		f.Unknown = "there are no readings in this direction"
		return f
	}
	f.Value = tilt(r.gauge.Tilt)
	f.Note = notebook.Plain("Table slope less spindle tilt, by reversal; plus when the table looks high on the " + r.plus + ". Each dial is corrected for its own gain.")
	return f
}

// mismatch averages what the two directions say of the gauge.
func mismatch(results [2]result) (value, u unit.Length, known bool) {
	weights := 0.0
	sum := 0.0
	for _, r := range results {
		if !r.read {
			continue
		}
		w := 1 / math.Max(float64(r.gauge.MismatchU*r.gauge.MismatchU), 1e-18)
		sum += w * float64(r.gauge.Mismatch)
		weights += w
	}
	if weights == 0 {
		return 0, 0, false
	}
	return unit.Length(sum / weights), unit.Length(1 / math.Sqrt(weights)), true
}

func mismatchFigure(results [2]result) notebook.Figure {
	f := notebook.Figure{Name: "mismatch", Label: "Mismatch of the dials"}
	value, u, known := mismatch(results)
	if !known {
		f.Unknown = "there are no readings"
		return f
	}
	f.Value = notebook.Of(value, u, notebook.FineLengths)
	f.Note = notebook.Plain("What the second dial shows over the first on a table square to the spindle. It belongs to the gauge and not to the machine, so both directions must show the same.")
	return f
}

// mismatchVerdict says whether the two directions tell the same of the gauge.
func mismatchVerdict(results [2]result) notebook.Verdict {
	v := notebook.Verdict{Name: "mismatch-verdict", Tone: notebook.Note}
	if !results[0].read || !results[1].read {
		v.Text = notebook.Plain("With one direction only, nothing checks the mismatch. Read the other too: it must come out the same.")
		return v
	}
	a, b := results[0].gauge, results[1].gauge
	apart := unit.Length(math.Abs(float64(a.Mismatch - b.Mismatch)))
	u := unit.Length(math.Hypot(float64(a.MismatchU), float64(b.MismatchU)))
	if apart <= 3*u {
		v.Tone, v.Text = notebook.Good, notebook.Say("Both directions show the same mismatch, {} and {}, as near as {} of doubt lets them.", height(a.Mismatch), height(b.Mismatch), height(u))
		return v
	}
	v.Tone, v.Text = notebook.Watch, notebook.Say("The mismatch is {} side to side and {} front to back. A gauge does not change by turning it to the other direction: a dial slipped in its clamp, or a reading is wrong. Read again.", height(a.Mismatch), height(b.Mismatch))
	return v
}

// believedTable sets the reversal beside what is usually believed.
func believedTable(results [2]result) notebook.Table {
	t := notebook.Table{Name: "believed", Title: "What the dials say, and what is so",
		Columns: []notebook.Column{notebook.Col("Direction"), notebook.ColIn("Dials believed alike", notebook.Slopes), notebook.ColIn("By reversal", notebook.Slopes), notebook.ColIn("Left, were the dials set alike", notebook.Slopes)},
		Note:    notebook.Plain("Set the head until both dials show the same, and the last column is the tilt that stays.")}
	for _, r := range results {
		if r.read {
			t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(r.name), notebook.Val(slope(r.gauge.Believed)), notebook.Val(tilt(r.gauge.Tilt)), notebook.Val(slope(r.gauge.WhenAlike))})
		}
	}
	return t
}

// doubtTable says where the uncertainty comes from.
func doubtTable(in Inputs, results [2]result) notebook.Table {
	t := notebook.Table{Name: "doubt", Title: "Where the doubt comes from",
		Columns: []notebook.Column{notebook.Col("Direction"), notebook.ColIn("Rounding, hysteresis", notebook.FineLengths), notebook.ColIn("Repeats", notebook.FineLengths), notebook.ColIn("Tilt", notebook.Slopes)},
		Note:    notebook.Plain("Standard uncertainties: of one difference by rounding and hysteresis, of one difference by repeats, and of the tilt. Repeats that fall on the same mark do not make the rounding smaller; repeats that scatter do show how well you read.")}
	for _, r := range results {
		if !r.read {
			continue
		}
		scatter := notebook.Str("no repeats")
		if len(in.Pairs) > 2 && r.gauge.Scatter > 0 {
			scatter = notebook.Val(height(r.gauge.Scatter))
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(r.name), notebook.Val(height(r.gauge.Rounding)), scatter,
			notebook.Val(notebook.Stepped(r.gauge.Tilt.Uncertainty, 0.1*squaring.Microradian, notebook.Slopes))})
	}
	return t
}

// dated is the gauge read at one date in one direction.
type dated struct {
	day             time.Time
	head, direction string
	gauge           squaring.TwoDials
}

// history works every reading of the gauge, those of the day last.
func (in Inputs) history(results [2]result) ([]dated, error) {
	var all []dated
	for i, v := range in.Visits {
		gauge, err := squaring.ReadTwoDials([]squaring.DialPair{{First: v.First, Second: v.Second}, {First: v.FirstTurned, Second: v.SecondTurn, Turned: true}}, in.options())
		if err != nil {
			return nil, notebook.InRow("visits", i+1, "first", err)
		}
		all = append(all, dated{v.Day, v.Head, v.Direction, gauge})
	}
	for _, r := range results {
		if r.read {
			all = append(all, dated{in.Day, "these readings", r.name, r.gauge})
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].day.Before(all[j].day) })
	return all, nil
}

// historyItems adds every reading of the gauge, worked.
func historyItems(s *notebook.Sheet, in Inputs, results [2]result) error {
	all, err := in.history(results)
	if err != nil {
		return err
	}
	table := notebook.Table{Name: "history", Title: "Every reading of the gauge",
		Columns: []notebook.Column{notebook.Col("Date"), notebook.Col("Head"), notebook.Col("Direction"), notebook.ColIn("Dials believed", notebook.Slopes),
			notebook.ColIn("By reversal", notebook.Slopes), notebook.ColIn("Mismatch", notebook.FineLengths)}}
	for _, d := range all {
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(d.day.Format("2006-01-02")), notebook.Str(d.head), notebook.Str(d.direction),
			notebook.Val(slope(d.gauge.Believed)), notebook.Val(tilt(d.gauge.Tilt)), notebook.Val(notebook.Of(d.gauge.Mismatch, d.gauge.MismatchU, notebook.FineLengths))})
	}
	chart, err := mismatchChart(all)
	if err != nil {
		return err
	}
	tilts, err := tiltChart(all)
	if err != nil {
		return err
	}
	s.Add(table, chart, tilts)
	return nil
}

// mismatchChart draws the mismatch by date.
func mismatchChart(all []dated) (notebook.Chart, error) {
	series := plot.Series{Label: "mismatch", Style: plot.Dots}
	for _, d := range all {
		series.X, series.Y, series.U = append(series.X, plot.Day(d.day)), append(series.Y, float64(d.gauge.Mismatch)), append(series.U, float64(d.gauge.MismatchU))
	}
	return plot.XY{Name: "mismatch-chart", Title: "Mismatch of the gauge over the years",
		Caption: notebook.Plain("One point a reading. The mismatch belongs to the gauge: it changes when the gauge is dropped or a dial is moved, and at no other time."),
		X:       plot.Axis{Label: "Date", Dates: true}, Y: plot.Axis{Label: "Mismatch", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{series}}.Chart()
}

// tiltChart draws what the dials seemed to say beside what was so, as the head
// was left each time.
func tiltChart(all []dated) (notebook.Chart, error) {
	var groups []string
	believed, reversed := plot.BarSeries{Label: "dials believed"}, plot.BarSeries{Label: "by reversal"}
	letters := map[string]string{sideToSide: "x", frontToBack: "y"}
	for _, d := range all {
		if d.head == "found" {
			continue
		}
		groups = append(groups, d.day.Format("2006-01-02")+" "+letters[d.direction])
		believed.Values = append(believed.Values, float64(d.gauge.Believed))
		reversed.Values = append(reversed.Values, float64(d.gauge.Tilt.Slope))
		reversed.U = append(reversed.U, float64(d.gauge.Tilt.Uncertainty))
	}
	believed.U = make([]float64, len(believed.Values))
	return plot.Bars{Name: "tilt-chart", Title: "Each time the head was set: believed, and so",
		Caption: notebook.Plain("As the head was left, x side to side and y front to back. Where the two bars differ the dials disagreed by as much."),
		What:    "Setting", Groups: groups, Horizontal: true, Value: plot.Axis{Label: "Tilt", Show: notebook.Slopes},
		Series: []plot.BarSeries{believed, reversed}}.Chart()
}
