package solid

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
)

// bounds lie between the tints, in shares of the mean.
var bounds = [drawing.Tints - 1]float64{0.5, 0.7, 0.9, 1.1, 1.4, 1.8, 2.4}

// boundWords are the bounds as they are written.
var boundWords = []string{"50", "70", "90", "110", "140", "180", "240"}

// band returns the tint of a share.
func band(share float64) int {
	return sort.SearchFloat64s(bounds[:], share)
}

// view is a direction from which the part is seen.
type view struct {
	words string
	// azimuth is counted from the right anode towards the far wall, elevation
	// upwards; both in degrees.
	azimuth, elevation float64
}

// views are the three sides.
var views = []view{{"right", 0, 0}, {"near, above", -52, 28}, {"behind, below", 128, -28}}

// frame returns the directions to the right, upward and towards the viewer.
func (v view) frame() (right, up, toward r3.Vec) {
	sinA, cosA := math.Sincos(v.azimuth * math.Pi / 180)
	sinE, cosE := math.Sincos(v.elevation * math.Pi / 180)
	toward = r3.Vec{X: cosE * cosA, Y: cosE * sinA, Z: sinE}
	right = r3.Unit(r3.Cross(r3.Vec{Z: 1}, toward))
	return right, r3.Cross(toward, right), toward
}

// Sizes of the drawing of the views.
const (
	viewsWidth, viewsHeight = 420, 400
	viewTop, viewBottom     = 34, 316
)

// addViews draws the part from three sides.
func (a answer) addViews(sheet *notebook.Sheet) error {
	c := drawing.New("views", "The coat from three sides", "The part from the right, from near and above, and from behind and below. Each triangle is the darker the more nickel it gets; the thickest and the thinnest place in sight are marked with their thickness.", viewsWidth, viewsHeight)
	reach := 0.0
	for _, f := range a.skin {
		for _, x := range f.corners {
			reach = math.Max(reach, math.Max(r3.Norm(x)/((viewBottom-viewTop)/2-6), math.Hypot(x.X, x.Y)/60))
		}
	}
	for i, v := range views {
		a.drawView(c, v, drawing.Point{X: viewsWidth * (float64(i) + 0.5) / 3, Y: (viewTop + viewBottom) / 2}, 1/reach)
	}
	const step = 44
	left := (viewsWidth - step*drawing.Tints) / 2.0
	c.TintScale(drawing.Point{X: left, Y: 346}, step, boundWords)
	c.Note(drawing.Point{X: viewsWidth / 2, Y: 394}, drawing.Middle, "per cent of the mean")
	item, err := c.Item(notebook.Say("The mean is {}. Seen from the side named. A ring marks the thickest triangle in sight, a dot the thinnest.", fine(a.plain.grown.Mean)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// drawView draws the part as one view shows it.
func (a answer) drawView(c *drawing.Canvas, v view, middle drawing.Point, scale float64) {
	right, up, toward := v.frame()
	at := func(x r3.Vec) drawing.Point {
		return drawing.Point{X: middle.X + scale*r3.Dot(x, right), Y: middle.Y - scale*r3.Dot(x, up)}
	}
	var seen []facet
	for _, f := range a.skin {
		if r3.Dot(f.normal, toward) > 1e-9 {
			seen = append(seen, f)
		}
	}
	// The far ones first, so that the near ones cover them.
	sort.SliceStable(seen, func(i, j int) bool { return r3.Dot(seen[i].middle, toward) < r3.Dot(seen[j].middle, toward) })
	var run [][]drawing.Point
	for i, f := range seen {
		run = append(run, []drawing.Point{at(f.corners[0]), at(f.corners[1]), at(f.corners[2])})
		if i == len(seen)-1 || band(seen[i+1].share) != band(f.share) {
			c.Tint(band(f.share), run...)
			run = nil
		}
	}
	a.markExtremes(c, seen, at)
	c.Words(drawing.Point{X: middle.X, Y: 18}, drawing.Middle, v.words)
}

// markExtremes marks the thickest and the thinnest of the facets in sight that
// are not covered.
func (a answer) markExtremes(c *drawing.Canvas, seen []facet, at func(r3.Vec) drawing.Point) {
	if len(seen) == 0 {
		return
	}
	thick, thin := seen[0], seen[0]
	for i, f := range seen {
		if covered(seen[i+1:], f, at) {
			continue
		}
		if f.share > thick.share {
			thick = f
		}
		if f.share < thin.share {
			thin = f
		}
	}
	p, q := at(thick.middle), at(thin.middle)
	c.Circle(drawing.Visible, p, 5)
	c.Circle(drawing.Solid, q, 3.5)
	label := func(x drawing.Point, t unit.Length) {
		anchor, off := drawing.Start, 9.0
		if x.X > viewsWidth-60 {
			anchor, off = drawing.End, -9
		}
		c.Label(x.Add(off, 5), anchor, notebook.Say("{}", fine(t)))
	}
	label(p, a.plain.coat(thick.share))
	if math.Abs(p.Y-q.Y) < 16 && math.Abs(p.X-q.X) < 60 {
		q.Y = p.Y + math.Copysign(17, q.Y-p.Y)
	}
	label(q, a.plain.coat(thin.share))
}

// covered reports whether the middle of a facet lies behind one of the nearer
// ones.
func covered(nearer []facet, f facet, at func(r3.Vec) drawing.Point) bool {
	p := at(f.middle)
	side := func(a, b drawing.Point) float64 { return (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X) }
	for _, g := range nearer {
		x, y, z := at(g.corners[0]), at(g.corners[1]), at(g.corners[2])
		s, t, u := side(x, y), side(y, z), side(z, x)
		if s > 0 && t > 0 && u > 0 || s < 0 && t < 0 && u < 0 {
			return true
		}
	}
	return false
}

// addBands adds the chart of how much of the skin has how much.
func (a answer) addBands(sheet *notebook.Sheet) error {
	areas := make([]float64, drawing.Tints)
	total := 0.0
	for _, f := range a.skin {
		areas[band(f.share)] += f.area
		total += f.area
	}
	groups := []string{"under " + boundWords[0] + " %"}
	for i := 1; i < len(boundWords); i++ {
		groups = append(groups, boundWords[i-1]+" to "+boundWords[i]+" %")
	}
	groups = append(groups, "over "+boundWords[len(boundWords)-1]+" %")
	for i := range areas {
		areas[i] /= total
	}
	chart, err := plot.Bars{Name: "bands", Title: "How much of the skin has how much",
		Caption: notebook.Say("Of the part that is drawn. {} of its skin lies within a tenth of the mean, {}.", share(areas[3]), fine(a.plain.grown.Mean)),
		What:    "Coat, of the mean", Groups: groups, Horizontal: true,
		Value:  plot.Axis{Label: "Share of the skin", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series: []plot.BarSeries{{Label: "share of the skin", Values: areas}},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// addTank draws the tank from above, with a handle on the right anode.
func (a answer) addTank(sheet *notebook.Sheet) error {
	in := a.in
	c := drawing.New("tank", "The tank from above", "The tank with the part in its middle and the anodes at its ends. The right anode can be dragged, or moved by the arrow keys.", 420, 320)
	scale := math.Min(370/float64(in.TankLength), 240/float64(in.TankWidth))
	v := drawing.View{Origin: drawing.Point{X: 210, Y: 160}, Along: scale, Up: scale}
	half, across := float64(in.TankLength/2), float64(in.TankWidth/2)
	c.Box(drawing.Bath, v.At(-half, across), v.At(half, -across), 3)
	for _, h := range a.plain.anodes() {
		x, y, w := float64(h.at[0]), float64(h.at[1]), float64(in.AnodeWidth/2)
		c.Box(drawing.Nickel, v.At(x-float64(anodeThickness/2), y+w), v.At(x+float64(anodeThickness/2), y-w), 1)
	}
	parts, err := a.plain.part()
	if err != nil {
		return err
	}
	for _, h := range parts {
		x, y := float64(h.size[0]/2), float64(h.size[1]/2)
		if in.flat() {
			c.Box(drawing.Brass, v.At(float64(h.at[0])-x, float64(h.at[1])+y), v.At(float64(h.at[0])+x, float64(h.at[1])-y), 0)
		} else {
			c.Circle(drawing.Brass, v.At(0, 0), x*scale)
		}
	}
	c.Line(drawing.Centre, v.At(-half, 0), v.At(half, 0))
	c.Dimension(v.At(0, -across), v.At(float64(in.Distance), -across), -16, notebook.Say("{}", size(in.Distance)))
	c.Leader(drawing.Point{X: 160, Y: 24}, drawing.End, "part", v.At(0, float64(parts[0].at[1])))
	c.Leader(drawing.Point{X: 280, Y: 24}, drawing.Start, "anode", v.At(float64(in.Distance+anodeThickness/2), float64(in.Sideways+0.4*in.AnodeWidth)))
	c.Handle(v.At(float64(in.Distance+anodeThickness/2), float64(in.Sideways)), "Right anode",
		drawing.Grip{Field: "distance", Says: "from the middle", PerUnit: 1 / scale, Step: 0.005, Units: lengths},
		drawing.Grip{Field: "sideways", Says: "off the middle", PerUnit: 1 / scale, Step: 0.005, Units: lengths})
	item, err := c.Item(notebook.Say("Its bath is {} deep. Drag the right anode, or move it by the arrow keys; a left one goes along.", notebook.Exact(in.TankDepth, notebook.Lengths).WithDigits(3)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}
