package scraping

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

func tenth(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 0.1*um, notebook.FineLengths) }

// setUp adds the drawing and the cautions.
func (r result) setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "The plane under the worn ways",
		"The front way from the side, its wear drawn much too large, with the new plane that touches its lowest place, and the metal between them hatched. Above, the straightedge that is rubbed on it.", 420, 250)
	w := r.ways
	n := len(w.Places)
	first, last := w.Places[0], w.Places[n-1]
	deepest := 1 * um
	for i := range w.Places {
		deepest = max(deepest, w.Front[i]+r.plan.Front[i])
	}
	x := func(u unit.Length) float64 { return 40 + 340*float64((u-first)/(last-first)) }
	y := func(depth unit.Length) float64 { return 112 + 66*float64(depth/deepest) }
	worn, plane := []drawing.Point{}, []drawing.Point{}
	for i, u := range w.Places {
		worn = append(worn, drawing.Point{X: x(u), Y: y(w.Front[i])})
		plane = append([]drawing.Point{{X: x(u), Y: y(w.Front[i] + r.plan.Front[i])}}, plane...)
	}
	body := append(append([]drawing.Point{}, worn...), drawing.Point{X: 380, Y: 206}, drawing.Point{X: 40, Y: 206})
	c.Face(drawing.Body, body...)
	c.HatchFace(append(append([]drawing.Point{}, worn...), plane...)...)
	c.Line(drawing.Visible, worn...)
	c.Line(drawing.Marked, plane...)
	c.Soft(drawing.Steel, 3, drawing.Point{X: 70, Y: 60}, drawing.Point{X: 350, Y: 60}, drawing.Point{X: 350, Y: 84}, drawing.Point{X: 70, Y: 84})
	for _, at := range []float64{0.2203, 1 - 0.2203} {
		c.Arrow(drawing.Visible, drawing.Point{X: 70 + 280*at, Y: 30}, drawing.Point{X: 70 + 280*at, Y: 58})
	}
	c.Words(drawing.Point{X: 210, Y: 22}, drawing.Middle, "straightedge, held at two places")
	c.Words(drawing.Point{X: 210, Y: 198}, drawing.Middle, "the new plane: heavy line")
	c.Frame(drawing.Point{X: 372, Y: 82}, "u", "z")
	c.Exaggerated("Depth", math.Max(math.Round(66/float64(deepest)/(340/float64(last-first))/100)*100, 1))
	item, err := c.Item(notebook.Say("Front way. Hatched: what comes off, up to {}. Nothing is put on: the plane touches the lowest place.", micron(r.plan.Most)))
	if err != nil {
		return err
	}
	s.Add(item,
		notebook.Caution{Name: "caution-lift", Text: notebook.Plain("The table weighs 80 kg and more. Take it off with a hoist or two people, its screw and gib out first, and set it down on wood where it cannot tip. Never put a hand between table and saddle.")},
		notebook.Caution{Name: "caution-scraper", Text: notebook.Plain("A scraper is a chisel that you lean on. Push away from the body, keep the other hand behind the edge, and cap the blade when it lies. Blue and solvent: gloves, air, and rags in a closed tin.")})
	return nil
}

// planItems adds the plan.
func (r result) planItems(s *notebook.Sheet) error {
	p := r.plan
	way := "front"
	if p.MostRear {
		way = "rear"
	}
	cubic := notebook.Pair{Metric: notebook.Unit{Symbol: "cm³", Scale: 1e-6}, Inch: notebook.Unit{Symbol: "in³", Scale: 0.0254 * 0.0254 * 0.0254}}
	v := notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: notebook.Say("Take off up to {u}, most at u = {} on the "+way+" way, in {} to {} passes there; {} in all. Everything on these ways then sits {u} lower.",
		fine(p.Most, r.mostU), place(p.MostAt), notebook.Whole(p.FewestPasses), notebook.Whole(p.MostPasses), notebook.Exact(float64(p.Volume), cubic).WithDigits(2), fine(p.Sinks, r.sinksU))}
	if float64(p.Most) < 2*float64(r.mostU) {
		v.Tone, v.Text = notebook.Good, notebook.Say("Within what these depths are sure to, the ways lie in one plane already: the most to take off is {u}. Blue them and look before you touch them.", fine(p.Most, r.mostU))
	}
	more := r.other.Volume - p.Volume
	words := "Kept level across it would take {} more."
	if r.in.Across == level {
		words, more = "Let lean, it would take {} less.", -more
	}
	twist, twistU := r.mostTwist()
	s.Add(v,
		notebook.Figure{Name: "most", Label: "Most to take off", Value: fine(p.Most, r.mostU), Note: notebook.Say("At u = {}, "+way+" way. The uncertainty is from drawing all depths anew {} times.", place(p.MostAt), notebook.Whole(draws))},
		notebook.Figure{Name: "sinks", Label: "The surface comes down by", Value: fine(p.Sinks, r.sinksU), Note: notebook.Plain("In its middle, against the highest place as it is now. So much lower stand the table, its screw and its gib.")},
		notebook.Figure{Name: "volume", Label: "Metal to come off", Value: notebook.Exact(float64(p.Volume), cubic).WithDigits(2), Note: notebook.Say(words, notebook.Exact(float64(more), cubic).WithDigits(2))},
		notebook.Figure{Name: "across", Label: "The new plane leans across by", Value: notebook.Stepped(float64(p.Across), 1e-6, notebook.Slopes), Note: notebook.Say("Along it leans by {}. The head is trammed to it afterwards; the knee must be scraped to it.", notebook.Stepped(float64(p.Along), 1e-6, notebook.Slopes))},
		notebook.Figure{Name: "twist", Label: "Twist of the ways as they are", Value: notebook.Of(twist, twistU, notebook.Slopes), Note: notebook.Plain("The largest difference of slope across between two places: a long part comes out in wind by that.")},
		r.passTable())
	front, rear := plot.Series{Label: "front way", Style: plot.Line}, plot.Series{Label: "rear way", Style: plot.Line}
	for i, u := range p.Places {
		front.X, front.Y = append(front.X, float64(u)), append(front.Y, float64(p.Front[i]))
		rear.X, rear.Y = append(rear.X, float64(u)), append(rear.Y, float64(p.Rear[i]))
	}
	chart, err := plot.XY{Name: "plan-chart", Title: "What to take off, by place", Caption: notebook.Plain("Least where the ways are worn most, and zero where the plane touches."),
		X: plot.Axis{Label: "Place u", Show: notebook.Lengths}, Y: plot.Axis{Label: "To take off", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)}, Series: []plot.Series{front, rear},
		Limits: []plot.Limit{{Label: "one heavy pass", Y: float64(r.in.Heavy)}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// mostTwist returns the largest difference of slope across between two places.
func (r result) mostTwist() (twist, u float64) {
	low, high := r.twist[0], r.twist[0]
	for _, p := range r.twist {
		if p.Slope < low.Slope {
			low = p
		}
		if p.Slope > high.Slope {
			high = p
		}
	}
	return float64(high.Slope - low.Slope), math.Hypot(float64(high.U), float64(low.U))
}

func (r result) passTable() notebook.Table {
	t := notebook.Table{Name: "passes", Title: "Passes by place", Columns: []notebook.Column{notebook.ColIn("Place u", notebook.Lengths), notebook.ColIn("Front", notebook.FineLengths), notebook.Col("Heavy passes"), notebook.ColIn("Rear", notebook.FineLengths), notebook.Col("Heavy passes")},
		Note: notebook.Plain("Begin where the number is largest and let the others join in when their turn comes. Spot after each round: the marks are the truth, the table is the forecast.")}
	for i, u := range r.plan.Places {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(u)), notebook.Val(micron(r.plan.Front[i])), notebook.Val(notebook.Whole(r.plan.FrontPasses[i])), notebook.Val(micron(r.plan.Rear[i])), notebook.Val(notebook.Whole(r.plan.RearPasses[i]))})
	}
	return t
}
