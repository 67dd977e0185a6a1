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
		"The two ways in section, seen along the table. Each has a track that the saddle has worn down beside a strip that it never reaches. A dial on a foot stands on the strip and reads the track. The oil line comes from the pump and branches to both ways; the branch to the front is the one that was blocked.", 420, 270)
	const top = 80.0
	at := func(x, down float64) drawing.Point { return drawing.Point{X: x, Y: top + down} }
	depth := func(d unit.Length) float64 { return 26 * float64(max(d, 0)/most) }
	for _, way := range []struct {
		left, down float64
		name       string
	}{{20, depth(front), "front way"}, {280, depth(rear), "rear way"}} {
		c.Face(drawing.Body, at(way.left, 0), at(way.left+40, 0), at(way.left+40, way.down), at(way.left+130, way.down), at(way.left+130, 80), at(way.left, 80))
		c.Line(drawing.Marked, at(way.left+40, way.down), at(way.left+130, way.down))
		c.Words(at(way.left+6, 72), drawing.Start, way.name)
	}
	// The foot stands on the strip; the dial's stem reaches the track.
	c.Box(drawing.Steel, at(26, -14), at(56, 0), 0)
	c.Line(drawing.Visible, at(56, -10), at(92, -10))
	c.Plunger(at(90, depth(front)), 24, 0.1)
	c.Label(at(156, 18), drawing.Start, notebook.Say("{} deep", notebook.Stepped(front, 1*um, notebook.FineLengths)))
	c.Label(at(365, -8), drawing.Middle, notebook.Say("{} deep", notebook.Stepped(rear, 1*um, notebook.FineLengths)))
	// The line below, with its two branches.
	c.Line(drawing.Visible, at(210, 160), at(210, 120), at(125, 120), at(125, depth(front)))
	c.Line(drawing.Visible, at(210, 120), at(385, 120), at(385, depth(rear)))
	c.Box(drawing.Solid, at(120, 92), at(130, 110), 0)
	c.Leader(at(20, 110), drawing.Start, "blocked", at(118, 101))
	c.Words(at(220, 160), drawing.Start, "from the pump")
	// The track, 90 units wide, is 45 mm of way: half a millimetre a unit.
	c.Exaggerated("Depths", math.Round(26*0.5e-3/float64(most)/10)*10)
	return c.Item(notebook.Say("At the last date the front track lies {} below its strip, the rear one {}.", notebook.Stepped(front, 1*um, notebook.FineLengths), notebook.Stepped(rear, 1*um, notebook.FineLengths)))
}
