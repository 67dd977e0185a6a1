package current

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// addAlong adds the chart of the coat along the coupon, with shields and thieves
// beside it.
func (a answer) addAlong(sheet *notebook.Sheet) error {
	var series []plot.Series
	for _, h := range a.helps {
		if h.s.in.Sideways != a.in.Sideways {
			continue
		}
		line := plot.Series{Label: h.name, Style: plot.Curve}
		line.X, line.Y = h.s.along()
		series = append(series, line)
	}
	dots := plot.Series{Label: "with uncertainty", Style: plot.Dots}
	mean := float64(a.places[1].thickness) / a.places[1].share
	for i, x := range []unit.Length{strip / 2, a.in.Width / 2, a.in.Width - strip/2} {
		dots.X, dots.Y, dots.U = append(dots.X, float64(x)), append(dots.Y, a.places[i].share), append(dots.U, float64(a.places[i].u)/mean)
	}
	chart, err := plot.XY{Name: "along", Title: "Nickel along the coupon, of the mean",
		Caption: notebook.Say("From the left edge to the right. The dots are means over {}. A coat of the mean everywhere would lie at 100 %.", size(strip)),
		X:       plot.Axis{Label: "From the left edge", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)},
		Y:       plot.Axis{Label: "Of the mean", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series:  append(series, dots), Limits: []plot.Limit{{Label: "even", Y: 1}},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// along returns the middles of pieces of the coupon, short ones near the edges,
// and the mean share of each.
func (s solved) along() (places, shares []float64) {
	const n = 12
	p := s.profile()
	end := func(i int) unit.Length {
		return unit.Length(1-math.Cos(math.Pi*float64(i)/n)) / 2 * s.in.Width
	}
	for i := range n {
		places = append(places, float64(end(i)+end(i+1))/2)
		shares = append(shares, float64(p.MeanBetween(end(i), end(i+1))/p.Mean))
	}
	return places, shares
}

// tries is how many places of the anode each chart tries.
const tries = 5

// addDistance adds the chart of what the anode's distance does.
func (a answer) addDistance(sheet *notebook.Sheet) error {
	most := a.in.TankLength - anodeThickness - clear
	left, middle, right := plot.Series{Label: "left edge", Style: plot.Line}, plot.Series{Label: "middle", Style: plot.Line}, plot.Series{Label: "right edge", Style: plot.Line}
	for i := range tries {
		to := 10*mm + unit.Length(i)/(tries-1)*(most-10*mm)
		s, err := a.plain.moved(to, a.in.Sideways)
		if err != nil {
			return notebook.InField("tank-length", err)
		}
		x := s.shares()
		left.X, middle.X, right.X = append(left.X, float64(to)), append(middle.X, float64(to)), append(right.X, float64(to))
		left.Y, middle.Y, right.Y = append(left.Y, x.left), append(middle.Y, x.middle), append(right.Y, x.right)
	}
	chart, err := plot.XY{Name: "distance", Title: "Anode near or far",
		Caption: notebook.Plain("The mean stays the same. Near, the coupon mirrors the anode; far, its own edges and the tank decide."),
		X:       plot.Axis{Label: "Coupon to anode", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)},
		Y:       plot.Axis{Label: "Of the mean", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series:  []plot.Series{left, middle, right}, Marks: []plot.Mark{{Label: "yours", X: float64(a.in.Distance)}},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// addSideways adds the chart of what pushing the anode sideways does.
func (a answer) addSideways(sheet *notebook.Sheet) error {
	most := a.in.TankWidth/2 - clear - a.in.AnodeWidth/2
	left, right := plot.Series{Label: "left edge", Style: plot.Line}, plot.Series{Label: "right edge", Style: plot.Line}
	for i := range tries {
		to := most * (2*unit.Length(i)/(tries-1) - 1)
		s, err := a.plain.moved(a.in.Distance, to)
		if err != nil {
			return notebook.InField("sideways", err)
		}
		x := s.shares()
		left.X, right.X = append(left.X, float64(to)), append(right.X, float64(to))
		left.Y, right.Y = append(left.Y, x.left), append(right.Y, x.right)
	}
	slope := (right.Y[tries-1] - right.Y[0]) / float64(2*most)
	chart, err := plot.XY{Name: "sideways", Title: "Anode to one side",
		Caption: notebook.Say("Over the whole width each {} moves {} of the mean to the edge on that side.", size(10*mm), share(slope*0.01)),
		X:       plot.Axis{Label: "Anode off the middle", Show: notebook.Lengths},
		Y:       plot.Axis{Label: "Of the mean", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series:  []plot.Series{left, right}, Marks: []plot.Mark{{Label: "yours", X: float64(a.in.Sideways)}},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// addWagner adds the chart of the edges against the Wagner number, with
// straight-line kinetics in this tank.
func (a answer) addWagner(sheet *notebook.Sheet) error {
	edge := plot.Series{Label: "thicker edge over middle", Style: plot.Line}
	for _, wa := range []float64{0.01, 0.03, 0.1, 0.3, 1, 3, 10} {
		c := a.in.conditions(1)
		c.Cathode = plating.Kinetics{Resistance: plating.AreaResistance(wa * float64(a.in.Width) / float64(a.in.Conductivity))}
		d, err := a.plain.field.Solve(c)
		if err != nil {
			return notebook.InField("conductivity", err)
		}
		s := a.plain
		s.d = d
		x := s.shares()
		edge.X, edge.Y = append(edge.X, wa), append(edge.Y, max(x.left, x.right)/x.middle)
	}
	mine, err := a.in.wagner()
	if err != nil {
		return notebook.InField("conductivity", err)
	}
	var marks []plot.Mark
	if mine >= edge.X[0] && mine <= edge.X[len(edge.X)-1] {
		marks = append(marks, plot.Mark{Label: "yours", X: mine})
	}
	chart, err := plot.XY{Name: "wagner-chart", Title: "What the bath's own kinetics even out",
		Caption: notebook.Say("The same tank with an overpotential that rises in a straight line. This bath has {}.", number(mine)),
		X:       plot.Axis{Label: "Wagner number", Show: notebook.Numbers, Log: true},
		Y:       plot.Axis{Label: "Edge over middle", Show: notebook.Numbers, Range: notebook.AtLeast(0.0)},
		Series:  []plot.Series{edge}, Marks: marks,
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// coatScale is how many times too thick the coat is drawn, linesOfCurrent how many
// lines of the same current are drawn.
const (
	coatScale      = 300
	linesOfCurrent = 14
)

// addDrawing draws the tank from above, the coat on the coupon, and arrows from
// the anode that are as long as the current density where they end.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("tank", "The tank from above", "A tank with a coupon taped to its left wall and an anode in the bath. The nickel on the coupon is drawn thick; arrows show where much current arrives, thin lines the way it takes.", 420, 340)
	scale := math.Min(340/float64(a.in.TankLength), 270/float64(a.in.TankWidth))
	across := float64(a.in.TankWidth / 2)
	v := drawing.View{Origin: drawing.Point{X: 60, Y: 30 + across*scale}, Along: scale, Up: scale}
	c.Box(drawing.Bath, v.At(0, across), v.At(float64(a.in.TankLength), -across), 3)
	half, d, off, w := float64(a.in.Width/2), float64(a.in.Distance), float64(a.in.Sideways), float64(a.in.AnodeWidth/2)
	c.Box(drawing.Nickel, v.At(d, off+w), v.At(d+float64(anodeThickness), off-w), 1)
	c.Box(drawing.Brass, v.At(-0.002, half), v.At(0, -half), 0)
	lines, err := a.plain.field.Lines(a.plain.d, a.in.Conductivity, linesOfCurrent)
	if err != nil {
		return err
	}
	for _, line := range lines {
		way := make([]drawing.Point, len(line))
		for i, p := range line {
			way[i] = v.At(float64(p.X), float64(p.Y))
		}
		c.Line(drawing.Thin, way...)
	}
	mean := float64(a.places[1].thickness) / a.places[1].share
	coat := []drawing.Point{v.At(0, -half)}
	places, local := a.plain.along()
	for i, x := range places {
		to := coatScale * mean * local[i]
		coat = append(coat, v.At(to, x-half))
		if i%3 == 1 {
			length := math.Min(0.3*local[i], 0.7) * d
			c.Arrow(drawing.Marked, v.At(to+0.002+length, x-half), v.At(to+0.002, x-half))
		}
	}
	c.Face(drawing.Nickel, append(coat, v.At(0, half))...)
	c.Dimension(v.At(0, -across), v.At(d, -across), 18, notebook.Say("{}", size(a.in.Distance)))
	c.Words(v.At(d+float64(anodeThickness)/2, off+w).Add(0, -8), drawing.Middle, "anode")
	c.Words(v.At(0, half).Add(8, -8), drawing.Start, "right edge")
	c.Words(v.At(0, -half).Add(8, 18), drawing.Start, "left edge")
	c.Handle(v.At(d+float64(anodeThickness)/2, off), "Anode",
		drawing.Grip{Field: "distance", Says: "from the coupon", PerUnit: 1 / scale, Step: 0.005, Units: lengths},
		drawing.Grip{Field: "sideways", Says: "off the middle", PerUnit: 1 / scale, Step: 0.005, Units: lengths})
	c.Exaggerated("The nickel is", coatScale)
	item, err := c.Item(notebook.Say("Drag the anode, or move it by the arrow keys. The coupon is taped flat to the wall, its right edge above. Each thin line carries the same share of the current. The anode stands {} off the middle.", size(a.in.Sideways)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}
