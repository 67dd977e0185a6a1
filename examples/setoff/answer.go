package setoff

import (
	"math"

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
func chance(p float64) notebook.Quantity {
	return notebook.Exact(p, notebook.Numbers).WithDigits(2)
}

// setUpItems adds the cautions and the order of the bolts.
func setUpItems(s *notebook.Sheet, _ Inputs, _, _, _ shifts) error {
	order, err := orderDrawing()
	if err != nil {
		return err
	}
	s.Add(
		notebook.Caution{Name: "support", Text: notebook.Plain("Isolate the machine. Hold the head up with a jack or a hoist before you slacken its bolts, and keep it held until they are tight: it can swing.")},
		notebook.Caution{Name: "tighten", Text: notebook.Plain("A trial ends with every bolt at full torque. Never leave bolts short of tight because the reading is good: a head that slips in a cut throws the work.")},
		order,
	)
	return nil
}

// orderDrawing shows four bolts on their ring and the crosswise order.
func orderDrawing() (notebook.Drawing, error) {
	c := drawing.New("order", "The order of the bolts",
		"Two rings of four bolts. On the left they are numbered one to four round the ring; on the right one is opposite two and three opposite four.", 420, 210)
	for _, ring := range []struct {
		x      float64
		words  string
		number [4]int
	}{{105, "each in turn", [4]int{1, 2, 3, 4}}, {315, "crosswise", [4]int{1, 3, 2, 4}}} {
		centre := drawing.Point{X: ring.x, Y: 112}
		c.Circle(drawing.Body, centre, 80)
		c.Circle(drawing.Steel, centre, 26)
		c.Words(drawing.Point{X: ring.x, Y: 18}, drawing.Middle, ring.words)
		for i, n := range ring.number {
			c.Number(drawing.Polar(centre, 56, math.Pi/4+float64(i)*math.Pi/2), n)
		}
	}
	return c.Item(notebook.Plain("The head's bolts seen from the front. Crosswise, go three times round: nipped, half torque, full torque."))
}

// answerItems adds what to leave standing.
func answerItems(s *notebook.Sheet, in Inputs, chosen, _, _ shifts) error {
	side, err := leaveItems("side", "side to side", "right", in, chosen.side)
	if err != nil {
		return err
	}
	nod, err := leaveItems("nod", "front to back", "back", in, chosen.nod)
	if err != nil {
		return err
	}
	s.Add(side...)
	s.Add(nod...)
	return nil
}

// leaveItems are the verdict and the figures of one direction.
func leaveItems(name, direction, plus string, in Inputs, shift squaring.Shift) ([]notebook.Item, error) {
	half, err := shift.Interval(0.95)
	if err != nil {
		return nil, err
	}
	off := shift.SetOff()
	within := squaring.NextTry{Scatter: shift.NextU(), Tolerance: in.Limit}
	if !math.IsInf(shift.DegreesOfFreedom, 1) {
		within.DegreesOfFreedom = shift.DegreesOfFreedom
	}
	p := 1.0
	if within.Scatter > 0 {
		chances, err := within.Chances()
		if err != nil {
			return nil, err
		}
		p = chances.Within
	}
	verdict := notebook.Verdict{Name: "leave-" + name, Tone: notebook.Note, Text: notebook.Say(
		"Before the last pass leave the "+direction+" difference, "+plus+" less other end, standing at {} over {}. One tightening in twenty then ends farther than {} from square.",
		height(off.Slope.Rise(in.Span)), length(in.Span), slope(half))}
	if shift.Mean < 2*shift.MeanU && shift.Mean > -2*shift.MeanU {
		verdict.Text = notebook.Say("The "+direction+" shift cannot be told from nothing, {u}: leave nothing standing. One tightening in twenty ends farther than {} from where it was.",
			notebook.Of(shift.Mean, shift.MeanU, notebook.Slopes), slope(half))
	}
	return []notebook.Item{verdict,
		notebook.Figure{Name: "shift-" + name, Label: "Mean shift " + direction, Value: notebook.Of(shift.Mean, shift.MeanU, notebook.Slopes),
			Note: notebook.Say("Over {} trials. This part can be set off.", notebook.Whole(shift.Count))},
		notebook.Figure{Name: "scatter-" + name, Label: "Scatter of one tightening, " + direction, Value: notebook.Stepped(shift.Deviation, 0.1*squaring.Microradian, notebook.Slopes),
			Note: scatterNote(shift)},
		notebook.Figure{Name: "within-" + name, Label: "Chance of ending within the limit, " + direction, Value: chance(p),
			Note: notebook.Say("With the set-off made and the bolts tightened, within {} either way.", slope(in.Limit))},
	}, nil
}

// scatterNote says how well the scatter itself is known.
func scatterNote(shift squaring.Shift) notebook.Text {
	if shift.DeviationHigh == 0 {
		return notebook.Plain("All trials fell on one mark: the dial's own step is what is given.")
	}
	return notebook.Say("Standard deviation. This part cannot be set off, and {} trials pin it down only to between {} and {} (95 %).",
		notebook.Whole(shift.Count), slope(shift.DeviationLow), slope(shift.DeviationHigh))
}

// tableItems adds both ways side by side.
func tableItems(s *notebook.Sheet, in Inputs, _, round, cross shifts) error {
	table := notebook.Table{Name: "ways", Title: "Both ways of tightening",
		Columns: []notebook.Column{notebook.Col("Bolts tightened"), notebook.Col("Direction"), notebook.Col("Trials"), notebook.ColIn("Mean shift", notebook.Slopes),
			notebook.ColIn("Scatter", notebook.Slopes), notebook.ColIn("Next one, 95 %, ±", notebook.Slopes)}}
	for _, way := range []struct {
		name string
		shifts
	}{{inTurn, round}, {crosswise, cross}} {
		if !way.known {
			continue
		}
		for i, shift := range []squaring.Shift{way.side, way.nod} {
			half, err := shift.Interval(0.95)
			if err != nil {
				return err
			}
			table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(way.name), notebook.Str([]string{"side to side", "front to back"}[i]), notebook.Val(notebook.Whole(shift.Count)),
				notebook.Val(notebook.Of(shift.Mean, shift.MeanU, notebook.Slopes)), notebook.Val(slope(shift.Deviation)), notebook.Val(slope(half))})
		}
	}
	s.Add(table)
	compare, err := compareVerdict(round, cross)
	if err != nil {
		return err
	}
	s.Add(compare)
	return nil
}

// compareVerdict says whether the order of the bolts matters.
func compareVerdict(round, cross shifts) (notebook.Verdict, error) {
	v := notebook.Verdict{Name: "compare", Tone: notebook.Note}
	if !round.known || !cross.known {
		v.Text = notebook.Plain("Two trials each way, at least, would say whether the order of the bolts matters. Six each way are better.")
		return v, nil
	}
	side, err := squaring.CompareShifts(round.side, cross.side)
	if err != nil {
		return v, err
	}
	nod, err := squaring.CompareShifts(round.nod, cross.nod)
	if err != nil {
		return v, err
	}
	least := math.Min(side.Chance, nod.Chance)
	// Two directions are looked at, so each is granted half of one in twenty.
	if least < 0.025 {
		v.Tone = notebook.Good
		v.Text = notebook.Say("The order matters: tightened in turn the head shifts {u} more side to side and {u} more front to back than crosswise. Were both ways alike, means so far apart would come with a chance of {} and {}.",
			notebook.Of(side.Mean, side.MeanU, notebook.Slopes), notebook.Of(nod.Mean, nod.MeanU, notebook.Slopes), chance(side.Chance), chance(nod.Chance))
		return v, nil
	}
	v.Text = notebook.Say("These trials cannot tell the two ways apart: the means differ by {u} side to side and {u} front to back.",
		notebook.Of(side.Mean, side.MeanU, notebook.Slopes), notebook.Of(nod.Mean, nod.MeanU, notebook.Slopes))
	return v, nil
}

// chartItems adds the trials in order, one chart a direction.
func chartItems(s *notebook.Sheet, in Inputs, chosen, _, _ shifts) error {
	for i, chart := range []struct{ name, title string }{{"trials-side", "Shift at each tightening, side to side"}, {"trials-nod", "Shift at each tightening, front to back"}} {
		shift := []squaring.Shift{chosen.side, chosen.nod}[i]
		series := map[string]*plot.Series{inTurn: {Label: "in turn", Style: plot.Dots}, crosswise: {Label: "crosswise", Style: plot.Dots}}
		for n, t := range in.Trials {
			change := []unit.Length{t.Side, t.Nod}[i]
			one := series[t.How]
			one.X, one.Y = append(one.X, float64(n+1)), append(one.Y, float64(change)/float64(in.Span))
		}
		half, err := shift.Interval(0.95)
		if err != nil {
			return err
		}
		low, high := float64(shift.Mean-half), float64(shift.Mean+half)
		all := []plot.Series{{Label: "next one, 95 %", Style: plot.Band, X: []float64{0.5, float64(len(in.Trials)) + 0.5}, Low: []float64{low, low}, High: []float64{high, high}}}
		for _, way := range []string{inTurn, crosswise} {
			if len(series[way].X) > 0 {
				all = append(all, *series[way])
			}
		}
		c, err := plot.XY{Name: chart.name, Title: chart.title,
			Caption: notebook.Say("Each point is one tightening. The band is where the next one, tightened "+in.How+", should fall: {} either way of {}.", slope(half), slope(shift.Mean)),
			X:       plot.Axis{Label: "Trial", Range: notebook.Between(0.5, float64(len(in.Trials))+0.5)}, Y: plot.Axis{Label: "Shift", Show: notebook.Slopes}, Series: all}.Chart()
		if err != nil {
			return err
		}
		s.Add(c)
	}
	return nil
}

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, chosen, _, _ shifts) error {
	shift := chosen.nod
	half, err := shift.Interval(0.95)
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-mean", notebook.Say("The mean is sure to {}, and still a single tightening may end {} from it. What the mean tells is what to leave standing; how near you end is told by the scatter.", slope(shift.MeanU), slope(half))),
		note("wrong-few", notebook.Say("{} trials give a scatter of {}; the true one may be anything from {} to {}. A few trials settle a mean, not a scatter.",
			notebook.Whole(shift.Count), slope(shift.Deviation), slope(shift.DeviationLow), slope(shift.DeviationHigh))),
		note("wrong-slack", notebook.Say("Bolts left short of tight hold a good reading until the first heavy cut. The shift they still owe is {}: set that off, and tighten.", slope(shift.Mean))),
	)
	return nil
}
