package threeplates

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(value, u unit.Length) notebook.Quantity {
	return notebook.Of(value, u, notebook.FineLengths)
}

func tenth(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 0.1*um, notebook.FineLengths) }

// setUp adds the drawings and the caution.
func setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "Two at a time",
		"Three straightedges, two at a time edge to edge: A on B, A on C, B on C. B and C stand out in their middles, A is hollow. The gap between two edges is read at places from the marked end on.", 420, 260)
	edge := func(left drawing.Point, bulge float64, up bool, name string) {
		back := 26.0
		if up {
			back = -26
		}
		points := []drawing.Point{}
		for i := range 21 {
			t := float64(i)/10 - 1
			y := bulge * (1 - t*t)
			if !up {
				y = -y
			}
			points = append(points, left.Add(15*float64(i), y))
		}
		face := append(append([]drawing.Point{}, points...), left.Add(300, back), left.Add(0, back))
		c.Face(drawing.Body, face...)
		c.Line(drawing.Marked, points...)
		c.Words(left.Add(14, back/2+5), drawing.Start, name)
	}
	for i, pair := range []struct {
		upper, lower   string
		bulge1, bulge2 float64
	}{{"A", "B", -6, 8}, {"A", "C", -6, 3}, {"B", "C", 8, 3}} {
		y := 42 + 76*float64(i)
		touch := math.Max(pair.bulge1+pair.bulge2, 0)
		edge(drawing.Point{X: 34, Y: y - touch/2}, pair.bulge1, true, pair.upper)
		edge(drawing.Point{X: 34, Y: y + 3 + touch/2}, pair.bulge2, false, pair.lower)
		c.Words(drawing.Point{X: 350, Y: y + 6}, drawing.Start, pair.upper+" + "+pair.lower)
	}
	c.Note(drawing.Point{X: 210, Y: 252}, drawing.Middle, "Marked end left. Shapes a thousand times too large.")
	pairs, err := c.Item(notebook.Plain("Heavy: the edges. Each is plus where it stands out of its body, so a pair shows the sum of both. Marked end always left: an edge that is turned end for end is another edge."))
	if err != nil {
		return err
	}
	d := drawing.New("probe-drawing", "Three probes on a carriage",
		"Seen from the side: a carriage that runs above a way carries three probes in a row, one pitch apart, A behind, C ahead, and a level. The carriage is moved by one pitch from reading to reading.", 420, 210)
	way := []drawing.Point{}
	for i := range 37 {
		x := 24 + 10.3*float64(i)
		way = append(way, drawing.Point{X: x, Y: 156 - 10*math.Sin(float64(i)/6)})
	}
	d.Face(drawing.Body, append(append([]drawing.Point{}, way...), drawing.Point{X: 395, Y: 190}, drawing.Point{X: 24, Y: 190})...)
	d.Line(drawing.Marked, way...)
	d.Soft(drawing.Steel, 3, drawing.Point{X: 92, Y: 56}, drawing.Point{X: 292, Y: 52}, drawing.Point{X: 292, Y: 70}, drawing.Point{X: 92, Y: 74})
	d.Level(drawing.Point{X: 192, Y: 54}, 90, 0.02, 0.2, false)
	for i, name := range names {
		x := 122 + 70*float64(i)
		y := way[int(math.Round((x-24)/10.3))].Y
		d.Box(drawing.Brass, drawing.Point{X: x - 4, Y: 66}, drawing.Point{X: x + 4, Y: y - 12}, 0)
		d.Line(drawing.Visible, drawing.Point{X: x, Y: y - 12}, drawing.Point{X: x, Y: y})
		d.Words(drawing.Point{X: x + 9, Y: 94}, drawing.Start, name)
	}
	d.Dimension(drawing.Point{X: 122, Y: 120}, drawing.Point{X: 192, Y: 120}, 0, notebook.Plain("pitch"))
	d.Arrow(drawing.Marked, drawing.Point{X: 312, Y: 62}, drawing.Point{X: 382, Y: 62})
	d.Words(drawing.Point{X: 312, Y: 50}, drawing.Start, "one pitch")
	probes, err := d.Item(notebook.Plain("Probes read plus when the surface is high. The carriage may lift and tilt as it likes."))
	if err != nil {
		return err
	}
	s.Add(pairs, probes, notebook.Caution{Name: "caution-edge", Text: notebook.Plain("A straightedge of 500 mm weighs 5 kg and falls off its back. Lay it on two blocks, feet clear, and lift it with two hands; its corners cut.")})
	return nil
}

// edgeItems adds the three edges.
func (r result) edgeItems(s *notebook.Sheet) error {
	best := 0
	var series []plot.Series
	t := notebook.Table{Name: "edges", Title: "The three edges", Columns: []notebook.Column{notebook.ColIn("Place", notebook.Lengths), notebook.ColIn("A", notebook.FineLengths), notebook.ColIn("B", notebook.FineLengths), notebook.ColIn("C", notebook.FineLengths)},
		Note: notebook.Plain("Above the line through each one's ends, plus where it stands out.")}
	for i, g := range r.in.Gaps {
		row := []notebook.Cell{notebook.Val(place(g.Place))}
		for _, e := range r.edges {
			row = append(row, notebook.Val(fine(e.Points[i].Height, e.U(i))))
		}
		t.Rows = append(t.Rows, row)
	}
	for k, e := range r.edges {
		if r.zones[k].Value < r.zones[best].Value {
			best = k
		}
		height, u, at := farthest(e)
		word := "stands out"
		if height < 0 {
			word = "is hollow"
		}
		s.Add(notebook.Figure{Name: []string{"edge-a", "edge-b", "edge-c"}[k], Label: "Edge " + names[k] + ", straightness by minimum zone", Value: fine(r.zones[k].Value, r.zones[k].U),
			Note: notebook.Say("It "+word+" by {u} at {}.", fine(unit.Length(math.Abs(float64(height))), u), place(at))})
		series = append(series, seriesOf("edge "+names[k], plot.Line, e))
	}
	chart, err := plot.XY{Name: "edges-chart", Title: "Each edge by itself", Caption: notebook.Plain("Plus stands out of the body. No master was used."),
		X: plot.Axis{Label: "From the marked end", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height of the edge", Show: notebook.FineLengths}, Series: series}.Chart()
	if err != nil {
		return err
	}
	v := notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: notebook.Say("Edge "+names[best]+" is the straightest: {u} over its length. A is out by {u}, B by {u}, C by {u}.",
		fine(r.zones[best].Value, r.zones[best].U), fine(r.zones[0].Value, r.zones[0].U), fine(r.zones[1].Value, r.zones[1].U), fine(r.zones[2].Value, r.zones[2].U))}
	s.Add(v, t, chart)
	return nil
}

func seriesOf(label string, style plot.Style, p wear.Profile) plot.Series {
	line := plot.Series{Label: label, Style: style}
	for i, q := range p.Points {
		line.X, line.Y, line.U = append(line.X, float64(q.Position)), append(line.Y, float64(q.Height)), append(line.U, float64(p.U(i)))
	}
	return line
}

// probeItems adds the probes beside edge B.
func (r result) probeItems(s *notebook.Sheet) error {
	chart, err := plot.XY{Name: "probes-chart", Title: "Edge B, by three ways", Caption: notebook.Plain("All above the lines through their ends. The bars are one standard uncertainty; those of the three probes are mostly their zeros."),
		X: plot.Axis{Label: "From the marked end", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths},
		Series: []plot.Series{seriesOf("three edges", plot.Line, r.edges[1]), seriesOf("three probes", plot.Line, r.three), seriesOf("two probes, level", plot.Line, r.two)}}.Chart()
	if err != nil {
		return err
	}
	n := len(r.three.Points) - 1
	bend := r.in.ZeroU * unit.Length(float64(n*n)/8)
	s.Add(chart, r.agreement(),
		notebook.Figure{Name: "three-probes", Label: "By three probes", Value: fine(r.threeZone.Value, r.threeZone.U), Note: notebook.Plain("Straightness by minimum zone.")},
		notebook.Figure{Name: "two-probes", Label: "By two probes and a level", Value: fine(r.twoZone.Value, r.twoZone.U), Note: notebook.Plain("Straightness by minimum zone.")},
		notebook.Figure{Name: "bend", Label: "What the zeros of three probes may bend into it", Value: notebook.Exact(bend, notebook.FineLengths).WithDigits(2),
			Note: notebook.Say("One standard uncertainty in the middle: zeros sure to {}, {} pitches. It grows with the square of their number.", tenth(r.in.ZeroU), notebook.Whole(n))})
	return nil
}

// agreement sets the three ways side by side where they share places.
func (r result) agreement() notebook.Verdict {
	worst, off, at, found := 0.0, 0*um, 0*um, false
	for _, other := range []wear.Profile{r.three, r.two} {
		for i, p := range other.Points {
			for k, q := range r.edges[1].Points {
				// Both are above the lines through their own ends, so the ends must be
				// the same places.
				if math.Abs(float64(q.Position-r.edges[1].Points[0].Position-p.Position)) > 0.5e-3 || !r.sameSpan(other) {
					continue
				}
				u := math.Hypot(float64(other.U(i)), float64(r.edges[1].U(k)))
				if u < 1e-12 { // both are zero at their ends, but for rounding
					continue
				}
				if z := math.Abs(float64(p.Height-q.Height)) / u; z > worst || !found {
					worst, off, at, found = z, p.Height-q.Height, q.Position, true
				}
			}
		}
	}
	v := notebook.Verdict{Name: "agree", Tone: notebook.Note, Text: notebook.Plain("Probes and edges do not share their ends, so that their heights cannot be set side by side.")}
	if !found {
		return v
	}
	z := notebook.Stepped(worst, 0.1, notebook.Numbers)
	if worst > 3.2 { // one chance in 700 a place, in 50 for a dozen of them
		v.Tone, v.Text = notebook.Watch, notebook.Say("The ways disagree: at {} by {}, {} standard uncertainties of the difference. Suspect the probes' zeros, or an edge that was turned end for end.", place(at), tenth(off), z)
		return v
	}
	v.Tone, v.Text = notebook.Good, notebook.Say("The ways agree: the largest difference, at {}, is {}, {} standard uncertainties.", place(at), tenth(off), z)
	return v
}

// sameSpan reports whether a probed profile is as long as the edges.
func (r result) sameSpan(p wear.Profile) bool {
	e := r.edges[1].Points
	return math.Abs(float64(e[len(e)-1].Position-e[0].Position-p.Points[len(p.Points)-1].Position)) < 0.5e-3
}

// wrongItems adds what people get wrong.
func (r result) wrongItems(s *notebook.Sheet) error {
	gap, k, l := r.closest()
	a, _, _ := farthest(r.edges[0])
	s.Add(
		notebook.Verdict{Name: "wrong-pair", Tone: notebook.Note, Text: notebook.Say("Here "+names[k]+" and "+names[l]+" fit best: they differ by no more than {}. By themselves they are out by {} and {}.", tenth(gap), tenth(r.zones[k].Value), tenth(r.zones[l].Value))},
		notebook.Verdict{Name: "wrong-first", Tone: notebook.Note, Text: notebook.Say("Fit B and C to A as it is, {} at its farthest, and each becomes its mirror image. Laid on one another they then gape by {}: twice A's error, and that is how you find it.",
			tenth(a), tenth(unit.Length(2*math.Abs(float64(a)))))})
	return nil
}

// closest returns the two edges that fit one another best, and the largest gap
// between them.
func (r result) closest() (gap unit.Length, k, l int) {
	gap = unit.Length(math.Inf(1))
	for _, pair := range []struct {
		k, l int
		gap  func(Gap) unit.Length
	}{{0, 1, func(g Gap) unit.Length { return g.AB }}, {0, 2, func(g Gap) unit.Length { return g.AC }}, {1, 2, func(g Gap) unit.Length { return g.BC }}} {
		most := 0 * um
		for _, g := range r.in.Gaps {
			most = max(most, unit.Length(math.Abs(float64(pair.gap(g)))))
		}
		if most < gap {
			gap, k, l = most, pair.k, pair.l
		}
	}
	return gap, k, l
}
