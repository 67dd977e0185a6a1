package pockets

import (
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
)

// setUp adds the drawing and the caution.
func setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "Pockets in a way, new and worn",
		"A section through a way. Above, as new: pockets of somewhat different depths. Below, worn: the surface has come down, the pockets are shallower and the shallowest one is gone.", 420, 270)
	depths := []float64{56, 64, 28, 60, 50}
	for i, worn := range []float64{0, 32} {
		top := 60 + 120*float64(i)
		c.Box(drawing.Body, drawing.Point{X: 30, Y: top + worn}, drawing.Point{X: 390, Y: top + 76}, 0)
		for k, depth := range depths {
			x := 66 + 72*float64(k)
			left := depth - worn
			if left <= 0 {
				c.Line(drawing.Hidden, drawing.Point{X: x - 18, Y: top}, drawing.Point{X: x, Y: top + depth}, drawing.Point{X: x + 18, Y: top})
				continue
			}
			half := 18 * left / depth
			c.Face(drawing.Wedge, drawing.Point{X: x - half, Y: top + worn}, drawing.Point{X: x, Y: top + depth}, drawing.Point{X: x + half, Y: top + worn})
		}
	}
	c.Line(drawing.Hidden, drawing.Point{X: 30, Y: 180}, drawing.Point{X: 390, Y: 180})
	c.Dimension(drawing.Point{X: 400, Y: 180}, drawing.Point{X: 400, Y: 212}, 4, nil)
	c.Words(drawing.Point{X: 30, Y: 48}, drawing.Start, "as new")
	c.Words(drawing.Point{X: 30, Y: 172}, drawing.Start, "worn: the third pocket is gone")
	item, err := c.Item(notebook.Plain("Section through a way, depths drawn some hundred times too large. The broken line is the surface as new."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-ways", Text: notebook.Plain(
		"Isolate the machine before you reach under the table. Run the table by hand, and take your fingers out before you move it: table and saddle shear. Scraped edges cut. Take old oil up with a cloth and keep it off your skin.")})
	return nil
}

// shop is the flaking of the exercises.
var shop = wear.PocketOptions{New: 52 * um, Spread: 6.2 * um, Floor: 3 * um}
