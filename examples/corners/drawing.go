package corners

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/plating"
)

// coatScale is how many times too thick the coat is drawn.
const coatScale = 100

// addDrawing draws the tank from above, the coat on the plates and what burns.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("tank", "The tank from above",
		"A tank with an anode at either side and plates seen on edge between them. The nickel on the plates is drawn thick; it is thickest at their edges. Thin lines show the way of the current: they crowd at the edges.", 420, 300)
	along := math.Min(370/float64(a.in.TankLength), 230/float64(a.in.TankWidth))
	v := drawing.View{Origin: drawing.Point{X: 210, Y: 148}, Along: along, Up: along}
	half, across := float64(a.in.TankLength/2), float64(a.in.TankWidth/2)
	c.Box(drawing.Bath, v.At(-half, across), v.At(half, -across), 3)
	for _, o := range a.plain.field.Section().Outlines {
		if o.Role == plating.RoleAnode {
			x0, x1, y := float64(o.Corners[0].X), float64(o.Corners[2].X), float64(o.Corners[1].Y)
			c.Box(drawing.Nickel, v.At(x0, y), v.At(x1, -y), 1)
		}
	}
	if err := a.drawLines(c, v); err != nil {
		return err
	}
	a.drawPlates(c, v)
	c.Line(drawing.Centre, v.At(-half, 0), v.At(half, 0))
	dimension := v.At(float64(a.in.Thickness/2), -across)
	c.Dimension(drawing.Point{X: dimension.X, Y: dimension.Y}, v.At(float64(a.in.Thickness/2+a.in.Right), -across), -16, notebook.Say("{}", size(a.in.Right)))
	c.Leader(drawing.Point{X: 60, Y: 20}, drawing.Middle, "anode", v.At(-float64(a.in.Thickness/2+a.in.Left+anodeThickness/2), float64(a.in.AnodeWidth)/2.2))
	c.Leader(drawing.Point{X: 270, Y: 18}, drawing.Start, "plate, on edge", v.At(0, float64(a.in.outermost()-a.in.Width/4)))
	c.Exaggerated("The nickel is", coatScale)
	item, err := c.Item(notebook.Say("{} plates of {} in the cut, {} of nickel on average. Each thin line carries the same share of a plate's current. The dash-dotted line is where the tank is the same on both sides.",
		notebook.Whole(a.in.Count), size(a.in.Width), fine(a.grown.Mean)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// linesEach is how many lines of current go to each plate, on one side of the
// mirror.
const linesEach = 10

// drawLines draws the ways of the current, on both sides of the mirror.
func (a answer) drawLines(c *drawing.Canvas, v drawing.View) error {
	lines, err := a.plain.field.Lines(a.plain.d, a.in.Conductivity, linesEach)
	if err != nil {
		return err
	}
	for _, line := range lines {
		for _, sign := range []float64{1, -1} {
			way := make([]drawing.Point, len(line))
			for i, p := range line {
				way[i] = v.At(float64(p.X), sign*float64(p.Y))
			}
			c.Line(drawing.Thin, way...)
		}
	}
	return nil
}

// drawPlates draws the plates and their coat, on both sides of the mirror, and
// marks what burns.
func (a answer) drawPlates(c *drawing.Canvas, v drawing.View) {
	for _, p := range a.plain.d.Profiles {
		if p.Role != plating.RolePart {
			continue
		}
		for _, sign := range []float64{1, -1} {
			var metal, coat []drawing.Point
			var burnt [][]drawing.Point
			open := false
			for i, s := range p.Samples {
				nx, ny := outward(p.Samples, i)
				thick := coatScale * a.thickness(s.CurrentDensity)
				metal = append(metal, v.At(float64(s.X), sign*float64(s.Y)))
				out := v.At(float64(s.X)+thick*nx, sign*(float64(s.Y)+thick*ny))
				coat = append(coat, out)
				if s.CurrentDensity <= a.in.Burns {
					open = false
					continue
				}
				if !open {
					burnt = append(burnt, nil)
					open = true
				}
				burnt[len(burnt)-1] = append(burnt[len(burnt)-1], out)
			}
			c.Face(drawing.Nickel, coat...)
			c.Face(drawing.Brass, metal...)
			for _, line := range burnt {
				if len(line) > 1 {
					c.Line(drawing.Marked, line...)
				}
			}
		}
	}
}

// thickness returns the coat in m after the run at a current density.
func (a answer) thickness(j plating.CurrentDensity) float64 {
	v, err := a.nickel.Rate(max(j, 0), a.in.Efficiency)
	if err != nil {
		return 0
	}
	return float64(v) * float64(a.in.Time)
}

// outward returns the direction out of the metal at a sample, from its
// neighbours along the outline.
func outward(samples []plating.Sample, i int) (x, y float64) {
	before, after := samples[max(i-1, 0)], samples[min(i+1, len(samples)-1)]
	dx, dy := float64(after.X-before.X), float64(after.Y-before.Y)
	length := math.Hypot(dx, dy)
	if length == 0 {
		return 0, 0
	}
	// The outlines of plates run anticlockwise, with the metal on their left.
	return dy / length, -dx / length
}
