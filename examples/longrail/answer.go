package longrail

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// place is a position or a length as it is said: to the millimetre.
func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(x, u unit.Length) notebook.Quantity { return notebook.Of(x, u, notebook.FineLengths) }

func percent(p float64) notebook.Quantity {
	step := 0.01
	if p > 0.99 || p < 0.01 {
		step = 0.001
	}
	return notebook.Stepped(math.Min(math.Max(p, 0.001), 0.999), step, notebook.Percents)
}

// sure is the chance of keeping the tolerance from which on a setting will do.
const sure = 0.95

// answerItems adds where and how.
func answerItems(s *notebook.Sheet, in Inputs, r rail) error {
	s.Add(answer(in, r),
		notebook.Figure{Name: "bow-here", Label: "Bow where you would lay it", Value: fine(r.here.Bow, r.here.BowU),
			Note: notebook.Say("With its middle at u = {}. Plus: high in the middle. It keeps its tolerance with a chance of {}.", place(in.Place), percent(r.hereFits))},
		notebook.Figure{Name: "bow-best", Label: "Bow at the straightest place, one setting", Value: fine(r.best.Bow, r.best.BowU),
			Note: notebook.Say("With its middle at u = {}. It keeps its tolerance with a chance of {}.", place(r.best.Place), percent(r.oneFits))},
		notebook.Figure{Name: "bow-two", Label: "Bow in two settings", Value: fine(r.two.Bow, r.two.BowU),
			Note: notebook.Say("Left piece with its middle at u = {}, right piece at u = {}, {} each. It keeps its tolerance with a chance of {}.", place(r.two.Places[0]), place(r.two.Places[1]), place(r.two.Piece), percent(r.twoFits))},
		twoVerdict(in, r),
	)
	chart, err := shapeChart(in, r)
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// answer says which way to take.
func answer(in Inputs, r rail) notebook.Verdict {
	tolerance := notebook.Stepped(in.Tolerance, 1*um, notebook.FineLengths)
	v := notebook.Verdict{Name: "answer", Tone: notebook.Good}
	switch {
	case r.hereFits >= sure:
		v.Text = notebook.Say("Lay it where you would: at u = {} a rail of {} bows {u}, within {}.", place(in.Place), place(in.Length), fine(r.here.Bow, r.here.BowU), tolerance)
	case r.oneFits >= sure && r.oneFits >= r.twoFits-0.02:
		v.Text = notebook.Say("One setting will do, at u = {}: a rail of {} bows {u} there, within {}.", place(r.best.Place), place(in.Length), fine(r.best.Bow, r.best.BowU), tolerance)
	case r.twoFits >= sure:
		v.Text = notebook.Say("Cut it in two settings, the left piece at u = {} and the right one at u = {}: it then bows {u}, within {}.", place(r.two.Places[0]), place(r.two.Places[1]), fine(r.two.Bow, r.two.BowU), tolerance)
	case math.Max(r.oneFits, r.twoFits) >= 0.5:
		v.Tone = notebook.Watch
		better, words := r.best.Bow, "one setting"
		u := r.best.BowU
		if r.twoFits > r.oneFits {
			better, u, words = r.two.Bow, r.two.BowU, "two settings"
		}
		v.Text = notebook.Say("It is a gamble: the best way, "+words+", leaves a bow of {u}, which keeps {} with a chance of {} only. Survey more stations, or leave metal to scrape.", fine(better, u), tolerance, percent(math.Max(r.oneFits, r.twoFits)))
	default:
		v.Tone = notebook.Stop
		v.Text = notebook.Say("Not on this machine: at its best place a rail of {} bows {u}, and {u} in two settings, against {}. Send it out, or scrape it straight afterwards.", place(in.Length), fine(r.best.Bow, r.best.BowU), fine(r.two.Bow, r.two.BowU), tolerance)
	}
	return v
}

// twoVerdict says what the second setting gains.
func twoVerdict(in Inputs, r rail) notebook.Verdict {
	gain := math.Abs(float64(r.best.Bow)) - math.Abs(float64(r.two.Bow))
	v := notebook.Verdict{Name: "gain", Tone: notebook.Note}
	if u := math.Hypot(float64(r.best.BowU), float64(r.two.BowU)); gain < u {
		v.Text = notebook.Plain("The second setting gains less than these readings can tell. One setting at the straightest place is quicker and has no joint.")
		return v
	}
	v.Text = notebook.Say("The second setting takes {} off the bow, and adds a joint whose angle hangs on a dial read over {}.", notebook.Stepped(unit.Length(gain), 0.1*um, notebook.FineLengths), place(in.Overlap))
	return v
}

// shapeChart draws the rail as it comes out, in one setting where it is usually
// laid, at the best place, and in two settings.
func shapeChart(in Inputs, r rail) (notebook.Chart, error) {
	const samples = 25
	var series []plot.Series
	for _, one := range []struct {
		label string
		at    unit.Length
	}{{"where you would lay it", in.Place}, {"straightest place", r.best.Place}} {
		line := plot.Series{Label: one.label, Style: plot.Curve}
		heights := r.table.Shape(one.at, in.Length, samples)
		for _, p := range heights {
			line.X, line.Y = append(line.X, float64(p.Position)), append(line.Y, float64(p.Height))
		}
		series = append(series, line)
	}
	two := plot.Series{Label: "two settings", Style: plot.Curve}
	for _, p := range r.two.Shape {
		two.X, two.Y = append(two.X, float64(p.Position)), append(two.Y, float64(p.Height))
	}
	return plot.XY{Name: "shape-chart", Title: "The rail as it comes out, above the line through its ends",
		Caption: notebook.Plain("Left end of the rail at zero. High where the table sank under the cutter."),
		X:       plot.Axis{Label: "Along the rail", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths},
		Series: append(series, two),
		Limits: []plot.Limit{{Label: "tolerance", Y: float64(in.Tolerance)}, {Label: "tolerance", Y: -float64(in.Tolerance)}}}.Chart()
}

// mapItems adds the map over places and lengths, and the table by length.
func mapItems(s *notebook.Sheet, in Inputs, r rail) error {
	const columns, rows = 25, 8
	run := r.to - r.from
	strip := plot.Strip{Name: "bow-map", Title: "Bow by length and place",
		Caption: notebook.Plain("Plus: high in the middle. Blank: the part would reach beyond the stations. Read along a row for one length; the map is palest where the motion is straightest."),
		X:       plot.Axis{Label: "Middle of the part u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Length of the part", Show: notebook.Lengths},
		Value: plot.Axis{Label: "Bow", Show: notebook.FineLengths}}
	table := notebook.Table{Name: "lengths", Title: "The straightest place for each length",
		Columns: []notebook.Column{notebook.ColIn("Length", notebook.Lengths), notebook.ColIn("Straightest at u", notebook.Lengths), notebook.ColIn("Bow there", notebook.FineLengths), notebook.ColIn("Worst at u", notebook.Lengths), notebook.ColIn("Bow there", notebook.FineLengths)}}
	for i := range columns {
		strip.Xs = append(strip.Xs, float64(r.from+run*(unit.Length(i)+0.5)/columns))
	}
	middle := (r.from + r.to) / 2
	for j := range rows {
		length := run * unit.Length(j+1) / rows
		cells := make([]float64, columns)
		var best, worst wear.Spot
		for i := range cells {
			cells[i] = math.NaN()
			spot, err := r.table.Spot(unit.Length(strip.Xs[i]), length, middle)
			if err != nil {
				continue // it reaches beyond the stations
			}
			cells[i] = float64(spot.Bow)
			if best.Length == 0 || math.Abs(float64(spot.Bow)) < math.Abs(float64(best.Bow)) {
				best = spot
			}
			if worst.Length == 0 || math.Abs(float64(spot.Bow)) > math.Abs(float64(worst.Bow)) {
				worst = spot
			}
		}
		strip.Ys, strip.Values = append(strip.Ys, float64(length)), append(strip.Values, cells)
		if best.Length > 0 {
			table.Rows = append(table.Rows, []notebook.Cell{notebook.Val(place(length)), notebook.Val(place(best.Place)), notebook.Val(fine(best.Bow, best.BowU)), notebook.Val(place(worst.Place)), notebook.Val(fine(worst.Bow, worst.BowU))})
		}
	}
	chart, err := strip.Chart()
	if err != nil {
		return err
	}
	s.Add(chart, table)
	return mythItems(s, in, r)
}

// mythItems adds the numbers that correct what people get wrong.
func mythItems(s *notebook.Sheet, in Inputs, r rail) error {
	half, err := r.table.Spot(in.Place, in.Length/2, in.Place)
	if err != nil {
		return err
	}
	s.Add(notebook.Figure{Name: "half-length", Label: "Bow of a rail of half the length at the same place", Value: fine(half.Bow, half.BowU)})
	return nil
}
