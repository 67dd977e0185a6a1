package panel

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/plating"
)

// thickScale is how many drawing metres stand for 1 A/m2 on the panel.
const thickScale = 1.2e-5

// addDrawing draws the cell from above with the current along the panel.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("cell", "The cell from above",
		"A cell with one slanted side. The anode closes the left side, the panel the slanted one; its upper end is nearest to the anode. Behind the panel the current density is drawn as a wedge that is thick at the near end.", 420, 280)
	outlines := plating.PanelSection().Outlines
	v := drawing.View{Origin: drawing.Point{X: 56, Y: 226}, Along: 2400, Up: 2400}
	at := func(k plating.Corner) drawing.Point { return v.At(float64(k.X), float64(k.Y)) }
	anode, panel := outlines[0].Corners, outlines[2].Corners
	c.Face(drawing.Bath, at(anode[0]), at(anode[1]), at(panel[0]), at(panel[1]))
	c.Box(drawing.Nickel, at(anode[0]).Add(-10, 0), at(anode[1]), 1)
	a.drawWedge(c, v)
	c.Line(drawing.Marked, at(panel[0]), at(panel[1]))
	dx, dy := float64(panel[1].X-panel[0].X), float64(panel[1].Y-panel[0].Y)
	length := math.Hypot(dx, dy)
	for _, mark := range []struct {
		along float64
		words string
	}{{float64(a.in.From), "good from"}, {float64(a.in.To), "good to"}} {
		share := mark.along / length
		on := v.At(float64(panel[0].X)+share*dx, float64(panel[0].Y)+share*dy)
		c.Circle(drawing.Solid, on, 3)
		c.Leader(on.Add(-30, 40), drawing.End, mark.words, on)
	}
	c.Leader(drawing.Point{X: 40, Y: 40}, drawing.Middle, "anode", at(anode[1]).Add(-5, 30))
	c.Words(at(panel[0]).Add(-4, -10), drawing.Middle, "high-current end")
	c.Words(at(panel[1]).Add(-10, 24), drawing.Middle, "low-current end")
	item, err := c.Item(notebook.Say("The panel carries {}. The wedge behind it is the computed current density, up to {} at {} from the end.",
		notebook.Exact(a.in.Current, notebook.Currents), density(a.bath.At(2*mm)), place(2*mm)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// drawWedge draws the current density as a wedge on the panel's back.
func (a answer) drawWedge(c *drawing.Canvas, v drawing.View) {
	panel := plating.PanelSection().Outlines[2].Corners
	dx, dy := float64(panel[1].X-panel[0].X), float64(panel[1].Y-panel[0].Y)
	length := math.Hypot(dx, dy)
	// Out of the cell: to the right of the way down the panel, seen from above.
	nx, ny := -dy/length, dx/length
	wedge := []drawing.Point{v.At(float64(panel[1].X), float64(panel[1].Y)), v.At(float64(panel[0].X), float64(panel[0].Y))}
	per := thickScale * 2 / float64(a.in.Current)
	for _, s := range a.bath.Samples {
		if s.Along < 2*mm {
			continue
		}
		thick := per * float64(s.CurrentDensity)
		wedge = append(wedge, v.At(float64(s.X)+thick*nx, float64(s.Y)+thick*ny))
	}
	c.Face(drawing.Wedge, wedge...)
}
