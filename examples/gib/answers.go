package gib

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(value, u unit.Length) notebook.Quantity {
	return notebook.Of(value, u, notebook.FineLengths)
}

func micron(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }

// setUp adds the drawing and the caution.
func setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "Push and pull across the ways",
		"Seen from above. The table in its saddle, worn narrow in the stretch that is most used, with the tapered gib along its front. Two arrows push and pull the table across; a dial that stands on the saddle points at the table's side.", 420, 250)
	c.Face(drawing.Body, drawing.Point{X: 130, Y: 66}, drawing.Point{X: 290, Y: 66}, drawing.Point{X: 290, Y: 196}, drawing.Point{X: 130, Y: 196})
	top, low := []drawing.Point{}, []drawing.Point{}
	for i := range 41 {
		x := 30 + 9*float64(i)
		worn := 7 * math.Exp(-math.Pow((x-250)/60, 2))
		top = append(top, drawing.Point{X: x, Y: 92 + worn})
		low = append([]drawing.Point{{X: x, Y: 152 - worn}}, low...)
	}
	c.Face(drawing.Steel, append(top, low...)...)
	c.Face(drawing.Brass, drawing.Point{X: 134, Y: 164}, drawing.Point{X: 286, Y: 156}, drawing.Point{X: 286, Y: 176}, drawing.Point{X: 134, Y: 176})
	c.Words(drawing.Point{X: 60, Y: 128}, drawing.Start, "table")
	c.Words(drawing.Point{X: 136, Y: 192}, drawing.Start, "saddle")
	c.Leader(drawing.Point{X: 300, Y: 214}, drawing.Start, "gib, its screw", drawing.Point{X: 284, Y: 166})
	c.Arrow(drawing.Marked, drawing.Point{X: 210, Y: 138}, drawing.Point{X: 210, Y: 108})
	c.Arrow(drawing.Marked, drawing.Point{X: 224, Y: 108}, drawing.Point{X: 224, Y: 138})
	c.Words(drawing.Point{X: 234, Y: 128}, drawing.Start, "push, pull")
	c.Plunger(drawing.Point{X: 98, Y: 92}, 20, 0.1)
	c.Frame(drawing.Point{X: 350, Y: 80}, "x", "y")
	c.Note(drawing.Point{X: 210, Y: 244}, drawing.Middle, "Wear drawn some hundred times too large.")
	item, err := c.Item(notebook.Plain("The gib fills the gap between the way and the saddle. Where the way is worn the gap is wider, but the gib is one piece."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-push", Text: notebook.Plain(
		"Isolate the machine, no cutter in the spindle. Push and pull by hand on the table's edge, not with a bar: a bar springs the casting and a hand slips between table and column.")})
	return nil
}

// answers adds the verdict, the figures and the table.
func (r result) answers(s *notebook.Sheet) error {
	g := r.set
	yaw := unit.Length(float64(g.Yaw) * float64(r.in.Reach))
	turns := notebook.Figure{Name: "turns", Label: "Turn the gib's screw", Value: notebook.Stepped(g.Turns, 0.05, notebook.Numbers), Note: notebook.Plain("In turns, inward; minus is outward. Then try the whole travel by hand before you trust it.")}
	s.Add(r.verdict(),
		notebook.Figure{Name: "close", Label: "Close the gib by", Value: notebook.Of(g.Close, g.Tight.U, notebook.FineLengths),
			Note: notebook.Say("Minus: open it. The tight place is X = {}; there the oil keeps its {} with a chance of {}.", place(g.Tight.Travel), micron(r.in.Film), notebook.Stepped(r.in.Chance, 0.01, notebook.Percents))},
		turns,
		notebook.Figure{Name: "uneven", Label: "What no setting takes out", Value: fine(g.Uneven, g.UnevenU),
			Note: notebook.Say("Play at X = {} less that at X = {}: the wear of the ways.", place(g.Loose.Travel), place(g.Tight.Travel))},
		notebook.Figure{Name: "worst", Label: "Play that stays at the loose place", Value: fine(g.Worst, g.Loose.U),
			Note: notebook.Say("The oil's film, the margin for the reading, and the wear.")},
		notebook.Figure{Name: "yaw", Label: "The table can turn by", Value: notebook.Exact(float64(g.Yaw), notebook.Slopes).WithDigits(2),
			Note: notebook.Say("Over a guide of {}. At {} from its middle that is {} across.", place(r.in.Guide), place(r.in.Reach), micron(yaw))},
		r.table())
	return nil
}

func (r result) verdict() notebook.Verdict {
	g := r.set
	v := notebook.Verdict{Name: "answer", Tone: notebook.Good}
	if g.Close >= 0 {
		v.Text = notebook.Say("Close the gib by {}, as the tight place at X = {} allows.", micron(g.Close), place(g.Tight.Travel))
	} else {
		v.Text = notebook.Say("Open the gib by {}: at X = {} the oil has no room.", micron(-g.Close), place(g.Tight.Travel))
	}
	if g.Possible {
		v.Text = v.Text.And(notebook.Say("Then {u} of play stay at X = {}, within the {} that the work bears.", fine(g.Worst, g.Loose.U), place(g.Loose.Travel), micron(r.in.Rock)))
		return v
	}
	v.Tone = notebook.Watch
	v.Text = v.Text.And(notebook.Say("Then {u} stay at X = {}, more than the {} that the work bears: no one setting neither binds nor rocks. Set it by the tight place all the same, and where it is loose draw the table's lock lightly while you cut.", fine(g.Worst, g.Loose.U), place(g.Loose.Travel), micron(r.in.Rock)))
	return v
}

func (r result) table() notebook.Table {
	t := notebook.Table{Name: "map", Title: "Play along the travel", Columns: []notebook.Column{notebook.ColIn("Place X", notebook.Lengths), notebook.Col("Tries"), notebook.ColIn("Play now", notebook.FineLengths), notebook.ColIn("Play after setting", notebook.FineLengths)},
		Note: notebook.Plain("The uncertainty is that of the mean: the scatter of all places together, or the dial's rounding where that is more.")}
	for i, p := range r.plays {
		after := r.set.After[i]
		cell := notebook.Val(fine(after.Clear, after.U))
		if after.Clear > r.in.Rock {
			cell = cell.Marked("rocks")
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(p.Travel)), notebook.Val(notebook.Whole(r.tries[i])), notebook.Val(fine(p.Clear, p.U)), cell})
	}
	return t
}

// chart adds the map.
func (r result) chart(s *notebook.Sheet) error {
	now, after := plot.Series{Label: "now", Style: plot.Line}, plot.Series{Label: "after setting", Style: plot.Line}
	for i, p := range r.plays {
		now.X, now.Y, now.U = append(now.X, float64(p.Travel)), append(now.Y, float64(p.Clear)), append(now.U, float64(p.U))
		a := r.set.After[i]
		after.X, after.Y, after.U = append(after.X, float64(a.Travel)), append(after.Y, float64(a.Clear)), append(after.U, float64(a.U))
	}
	chart, err := plot.XY{Name: "map-chart", Title: "Play along the travel", Caption: notebook.Plain("Setting the gib moves the whole curve down and leaves its shape. It must stay above the oil's film and should stay below what the work bears."),
		X: plot.Axis{Label: "Place X", Show: notebook.Lengths}, Y: plot.Axis{Label: "Play", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{now, after}, Limits: []plot.Limit{{Label: "film", Y: float64(r.in.Film)}, {Label: "rocks", Y: float64(r.in.Rock)}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// harm adds what it does to the work and what people get wrong.
func (r result) harm(s *notebook.Sheet) error {
	g := r.set
	byLoose := g.Loose.Clear - r.in.Film
	s.Add(notebook.Verdict{Name: "work", Tone: notebook.Note, Text: notebook.Say("As it is set now, a side cut that pulls where it pushed before moves the table across by up to {} at X = {} and {} at X = {}; after setting by up to {}.",
		micron(g.Loose.Clear), place(g.Loose.Travel), micron(g.Tight.Clear), place(g.Tight.Travel), micron(g.Worst))},
		notebook.Verdict{Name: "wrong-loose", Tone: notebook.Note, Text: notebook.Say("Set where it is loose, at X = {}, the gib would close by {}; at X = {} there are only {}. It would bind there by {}.",
			place(g.Loose.Travel), micron(byLoose), place(g.Tight.Travel), micron(g.Tight.Clear), micron(max(byLoose-g.Tight.Clear, 0)))},
		notebook.Verdict{Name: "wrong-middle", Tone: notebook.Note, Text: notebook.Say("The mean of all places is {}. No place has it: the tightest has {}, the loosest {}.", micron(r.mean()), micron(g.Tight.Clear), micron(g.Loose.Clear))},
		notebook.Figure{Name: "margin", Label: "Margin for the reading of the tight place", Value: notebook.Stepped(unit.Length(r.factor())*g.Tight.U, 0.1*um, notebook.FineLengths),
			Note: notebook.Say("{} standard uncertainties. More tries make it smaller: four times as many halve it.", notebook.Stepped(r.factor(), 0.01, notebook.Numbers))})
	return nil
}

func (r result) mean() unit.Length {
	var sum unit.Length
	for _, p := range r.plays {
		sum += p.Clear
	}
	return sum / unit.Length(len(r.plays))
}
