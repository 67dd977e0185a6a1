package oilline

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"gonum.org/v1/gonum/unit"
)

// setUpItems adds the drawing and the cautions at the step.
func setUpItems(s *notebook.Sheet, f found) error {
	set, err := setUpDrawing(f)
	if err != nil {
		return err
	}
	s.Add(set)
	s.Add(notebook.Caution{Name: "caution-reach", Text: notebook.Plain(
		"Isolate the machine before you reach under the table: spindle and powered feed must not be able to start. Block a raised table or knee; do not trust a screw that you are about to oil. Keep your skin off the open end of a line while someone works the pump, and wipe up oil at once: more shops lose people to floors than to cutters.")})
	return nil
}

// setUpDrawing draws the two ways in section with their worn tracks, the oil line
// and the dial on its foot.
func setUpDrawing(f found) (notebook.Drawing, error) {
	last := 0
	for i, r := range f.front {
		if r.Clock > f.front[last].Clock {
			last = i
		}
	}
	front, rear := f.front[last].Depth, f.rear[last].Depth
	most := max(front, rear, 1*um)
	c := drawing.New("setup-drawing", "The worn track beside its unworn strip, and the oil line",
		"The two ways in section, seen along the table. Each has a track that the saddle has worn down beside a strip that it never reaches. A dial on a foot stands on the strip and reads the track. The oil line comes from the pump and branches to both ways; the branch to the front is the one that was blocked.", 420, 330)
	depth := func(d unit.Length) float64 { return 26 * float64(max(d, 0)/most) }
	wayAt := func(x, down float64) {
		c.Face(drawing.Body, drawing.Point{X: x, Y: 130}, drawing.Point{X: x + 40, Y: 130}, drawing.Point{X: x + 40, Y: 130 + down},
			drawing.Point{X: x + 130, Y: 130 + down}, drawing.Point{X: x + 130, Y: 210}, drawing.Point{X: x, Y: 210})
		c.Line(drawing.Marked, drawing.Point{X: x + 40, Y: 130 + down}, drawing.Point{X: x + 130, Y: 130 + down})
	}
	wayAt(30, depth(front))
	wayAt(260, depth(rear))
	// The foot straddles the step; the dial's stem reaches the track.
	c.Box(drawing.Steel, drawing.Point{X: 36, Y: 116}, drawing.Point{X: 66, Y: 130}, 0)
	c.Line(drawing.Visible, drawing.Point{X: 66, Y: 120}, drawing.Point{X: 104, Y: 120})
	c.Plunger(drawing.Point{X: 100, Y: 130 + depth(front)}, 24, 0.1)
	c.Words(drawing.Point{X: 95, Y: 198}, drawing.Middle, "front way")
	c.Words(drawing.Point{X: 325, Y: 198}, drawing.Middle, "rear way")
	c.Label(drawing.Point{X: 170, Y: 150}, drawing.Start, notebook.Say("{} deep", notebook.Stepped(front, 1*um, notebook.FineLengths)))
	c.Label(drawing.Point{X: 254, Y: 120}, drawing.End, notebook.Say("{} deep", notebook.Stepped(rear, 1*um, notebook.FineLengths)))
	// The line below, with its two branches.
	c.Line(drawing.Visible, drawing.Point{X: 210, Y: 296}, drawing.Point{X: 210, Y: 250}, drawing.Point{X: 115, Y: 250}, drawing.Point{X: 115, Y: 130 + depth(front)})
	c.Line(drawing.Visible, drawing.Point{X: 210, Y: 250}, drawing.Point{X: 345, Y: 250}, drawing.Point{X: 345, Y: 130 + depth(rear)})
	c.Face(drawing.Solid, drawing.Point{X: 110, Y: 222}, drawing.Point{X: 120, Y: 222}, drawing.Point{X: 120, Y: 240}, drawing.Point{X: 110, Y: 240})
	c.Leader(drawing.Point{X: 24, Y: 240}, drawing.Start, "blocked", drawing.Point{X: 108, Y: 231})
	c.Words(drawing.Point{X: 222, Y: 296}, drawing.Start, "from the pump")
	// The track, 90 units wide, is 45 mm of way: half a millimetre a unit.
	c.Exaggerated("Depths", math.Round(26*0.5e-3/float64(most)/10)*10)
	return c.Item(notebook.Say("At the last date the front track lies {} below its strip, the rear one {}.", notebook.Stepped(front, 1*um, notebook.FineLengths), notebook.Stepped(rear, 1*um, notebook.FineLengths)))
}
