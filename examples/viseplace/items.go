package viseplace

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// at is a position or a length as it is said: to the millimetre.
func at(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func bow(s wear.Spot) notebook.Quantity { return notebook.Of(s.Bow, s.BowU, notebook.FineLengths) }

func lean(s wear.Spot) notebook.Quantity { return notebook.Of(s.Lean, s.LeanU, notebook.Slopes) }

func turn(s wear.Spot) notebook.Quantity { return notebook.Of(s.Turn, s.TurnU, notebook.Slopes) }

func fine(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 0.1*um, notebook.FineLengths) }

// placeItems adds what a part finds by place.
func placeItems(s *notebook.Sheet, in Inputs, c choice) error {
	s.Add(answer(in, c),
		notebook.Figure{Name: "bow-here", Label: "Bow of the part where the vise stands", Value: bow(c.here.spot),
			Note: notebook.Say("Over {} with its middle at u = {}. Plus: high in the middle.", at(in.Part), at(in.Now))},
		notebook.Figure{Name: "lean-here", Label: "Lean of the table there against the head", Value: lean(c.here.spot),
			Note: notebook.Say("The head was set square at u = {}. Set it again where you work.", at(in.Set))},
		notebook.Figure{Name: "turn-here", Label: "Change of lean while the part passes", Value: turn(c.here.spot),
			Note: notebook.Plain("By so much do holes bored at its two ends lean against one another.")},
		placeTable(in, c),
	)
	x := make([]float64, len(c.all))
	bows, bowU, leans, leanU := make([]float64, len(x)), make([]float64, len(x)), make([]float64, len(x)), make([]float64, len(x))
	for i, p := range c.all {
		s := p.spot
		x[i], bows[i], bowU[i], leans[i], leanU[i] = float64(s.Place), float64(s.Bow), float64(s.BowU), float64(s.Lean), float64(s.LeanU)
	}
	band := func(y, u []float64) plot.Series {
		b := plot.Series{Label: "± 2u", Style: plot.Band, X: x, Low: make([]float64, len(x)), High: make([]float64, len(x))}
		for i := range x {
			b.Low[i], b.High[i] = y[i]-2*u[i], y[i]+2*u[i]
		}
		return b
	}
	along := plot.Axis{Label: "Place of the part u", Show: notebook.Lengths}
	marks := []plot.Mark{{Label: "now", X: float64(in.Now)}, {Label: "pick", X: float64(c.pick.spot.Place)}}
	bowChart, err := plot.XY{Name: "bow-chart", Title: "Bow of the usual part, by place", Caption: notebook.Plain("Plus: high in its middle. Where the band holds zero the readings cannot tell the bow from none."),
		X: along, Y: plot.Axis{Label: "Bow", Show: notebook.FineLengths, Range: notebook.Between(-1.3*in.Tolerance, 1.3*in.Tolerance)}, Series: []plot.Series{{Label: "bow", Style: plot.Curve, X: x, Y: bows}, band(bows, bowU)},
		Limits: []plot.Limit{{Label: "tolerance", Y: float64(in.Tolerance)}, {Label: "tolerance", Y: -float64(in.Tolerance)}}, Marks: marks}.Chart()
	if err != nil {
		return err
	}
	leanChart, err := plot.XY{Name: "lean-chart", Title: "Lean of the table against the head, by place", Caption: notebook.Plain("What a head that was set square at one place is out by at another."),
		X: along, Y: plot.Axis{Label: "Lean", Show: notebook.Slopes}, Series: []plot.Series{{Label: "lean", Style: plot.Curve, X: x, Y: leans}, band(leans, leanU)}, Marks: marks}.Chart()
	if err != nil {
		return err
	}
	s.Add(bowChart, leanChart)
	return nil
}

// answer says where to put the vise.
func answer(in Inputs, c choice) notebook.Verdict {
	p := c.pick
	v := notebook.Verdict{Name: "answer", Tone: notebook.Good}
	switch moved := math.Abs(float64(p.spot.Place - in.Now)); {
	case !c.enough:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("At no place are these readings sure that a part of {} keeps to a bow of {} and to ends that lean by {}. It comes nearest at u = {}, with a bow of {u} and ends that lean {u}.", at(in.Part), fine(in.Tolerance), notebook.Stepped(in.Tip, 1e-6, notebook.Slopes), at(p.spot.Place), bow(p.spot), turn(p.spot))
	case moved < 0.03:
		v.Text = notebook.Say("Leave the vise where it is, at u = {}: a part of {} bows {u} there, and no place that keeps its tolerances is fairer to the ways.", at(in.Now), at(in.Part), bow(c.here.spot))
	default:
		v.Text = notebook.Say("Move the vise from u = {} to u = {}: of the places where a part of {} keeps its tolerances it is the fairest to the ways. The bow there is {u} and its ends lean {u} against one another; here it is {u} and {u}.",
			at(in.Now), at(p.spot.Place), at(in.Part), bow(p.spot), turn(p.spot), bow(c.here.spot), turn(c.here.spot))
	}
	v.Text = v.Text.And(notebook.Say("Set the head square there: the table leans {u} against it as it was set.", lean(p.spot)))
	return v
}

// placeTable sets the places of note side by side.
func placeTable(in Inputs, c choice) notebook.Table {
	t := notebook.Table{Name: "places", Title: "Places of note", Columns: []notebook.Column{notebook.Col("Chosen for"), notebook.ColIn("Place u", notebook.Lengths),
		notebook.ColIn("Bow", notebook.FineLengths), notebook.ColIn("Lean", notebook.Slopes), notebook.ColIn("Change of lean", notebook.Slopes), notebook.ColIn("Ways uneven by", notebook.FineLengths)},
		Note: notebook.Say("“Uneven” is the root mean square of the way's depths about their best line after {} of work at each place.", notebook.Exact(unit.Time(in.Years)*year, notebook.Same(notebook.Year)).WithDigits(2))}
	for _, row := range []struct {
		words string
		p     place
	}{{"where it stands", c.here}, {"least bow", c.straight}, {"least lean", c.level}, {"least change of lean", c.steady}, {"fairest to the ways", c.fairest}, {"the pick", c.pick}} {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(row.words), notebook.Val(at(row.p.spot.Place)), notebook.Val(bow(row.p.spot)), notebook.Val(lean(row.p.spot)),
			notebook.Val(turn(row.p.spot)), notebook.Val(fine(row.p.ahead.Uneven()))})
	}
	return t
}

// aheadItems adds what the years make of the ways.
func aheadItems(s *notebook.Sheet, in Inputs, c choice) error {
	now, nowAt := wear.History{Places: c.here.ahead.Places, Worn: c.start}.Deepest()
	here, hereAt := c.here.ahead.Deepest()
	pick, pickAt := c.pick.ahead.Deepest()
	years := notebook.Exact(unit.Time(in.Years)*year, notebook.Same(notebook.Year)).WithDigits(2)
	fineDepth := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }
	s.Add(
		notebook.Figure{Name: "deepest-here", Label: "Deepest wear ahead, the vise left where it is", Value: fineDepth(here),
			Note: notebook.Say("At u = {}, after {}; now {} at u = {}.", at(hereAt), years, fineDepth(now), at(nowAt))},
		notebook.Figure{Name: "deepest-pick", Label: "The same, the vise at the pick", Value: fineDepth(pick), Note: notebook.Say("At u = {}.", at(pickAt))},
		fairVerdict(c, here, pick),
	)
	var x, start, aheadHere, aheadAt []float64
	for i := 0; i < len(c.start); i += 2 {
		x, start = append(x, float64(c.here.ahead.Places[i])), append(start, float64(c.start[i]))
		aheadHere, aheadAt = append(aheadHere, float64(c.here.ahead.Worn[i])), append(aheadAt, float64(c.pick.ahead.Worn[i]))
	}
	ahead, err := plot.XY{Name: "ahead-chart", Title: "The way now and ahead", Caption: notebook.Plain("Depth of wear, the load moving to what still stands. The wear spreads over the saddle's length to either side of the work: moving the vise by less than that changes little."),
		X: plot.Axis{Label: "Place on the way u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Depth of wear", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{{Label: "now", Style: plot.Curve, X: x, Y: start}, {Label: "vise left where it is", Style: plot.Curve, X: x, Y: aheadHere}, {Label: "vise at the pick", Style: plot.Curve, X: x, Y: aheadAt}}}.Chart()
	if err != nil {
		return err
	}
	var places, uneven, plain []float64
	for _, p := range c.all {
		places = append(places, float64(p.spot.Place))
		uneven, plain = append(uneven, float64(p.ahead.Uneven())), append(plain, float64(p.plain))
	}
	fair, err := plot.XY{Name: "fair-chart", Title: "How uneven the way will be, by where the vise lives", Caption: notebook.Plain("Least where the work wears down the hollow's surroundings instead of deepening it."),
		X: plot.Axis{Label: "Place of the vise u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Uneven by", Show: notebook.FineLengths},
		Series: []plot.Series{{Label: "the load followed", Style: plot.Curve, X: places, Y: uneven}, {Label: "as if pressed evenly", Style: plot.Curve, X: places, Y: plain}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(ahead, fair)
	return nil
}

// fairVerdict says what moving the vise spares.
func fairVerdict(c choice, here, pick unit.Length) notebook.Verdict {
	v := notebook.Verdict{Name: "fair", Tone: notebook.Note}
	spared := here - pick
	if spared < 0.5*um && spared > -0.5*um {
		v.Text = notebook.Plain("For the deepest place of the ways it is all one: moving the vise spares it less than half a micrometre.")
		return v
	}
	if spared > 0 {
		v.Text = notebook.Say("Moving the vise spares the deepest place {} of the {} that the most used place will lose.", fine(spared), fine(c.added))
		return v
	}
	v.Text = notebook.Say("The pick deepens the deepest place by {} more than where the vise stands: it is chosen for the part and for an even way, not for the least depth.", fine(-spared))
	return v
}
