package groundbar

import (
	"sort"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// sortedReadings returns the readings in order of place.
func sortedReadings(rows []Reading) []Reading {
	sorted := append([]Reading(nil), rows...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].Travel > sorted[j].Travel })
	return sorted
}

// setUp adds the drawing and the caution.
func setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "The bar from above, and rolled over from below",
		"Seen from the front. Above: the bar lies on two blocks on the table, its marked edge up, the dial above it. Below: the bar is rolled about its length, its marked edge down, the dial below it. The dial stands still and the table travels.", 420, 440)
	const blocks, thick = 62, 18
	for i, top := range []float64{96, 306} {
		c.TableFront(drawing.Point{X: 40, Y: top + thick + blocks}, drawing.Point{X: 380, Y: top + thick + blocks}, 22)
		for _, x := range []float64{136, 284} {
			c.Box(drawing.Steel, drawing.Point{X: x - 11, Y: top + thick}, drawing.Point{X: x + 11, Y: top + thick + blocks}, 0)
		}
		c.Box(drawing.Body, drawing.Point{X: 80, Y: top}, drawing.Point{X: 340, Y: top + thick}, 0)
		edge := top + thick*float64(i)
		c.Line(drawing.Marked, drawing.Point{X: 82, Y: edge}, drawing.Point{X: 338, Y: edge})
		if i == 0 {
			c.Plunger(drawing.Point{X: 210, Y: edge}, 20, 0.05)
		} else {
			dialBelow(c, drawing.Point{X: 210, Y: edge})
		}
	}
	c.Words(drawing.Point{X: 20, Y: 20}, drawing.Start, "1  edge up")
	c.Words(drawing.Point{X: 20, Y: 268}, drawing.Start, "2  rolled over, edge down")
	c.Frame(drawing.Point{X: 352, Y: 62}, "x", "z")
	item, err := c.Item(notebook.Plain("The heavy line is the marked edge. Roll the bar about its length: left stays left. The same places of the edge come under the dial both times."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-bar", Text: notebook.Plain(
		"Isolate the machine before you put a dial and your hands near the spindle. A ground bar is heavy and its edges cut: lift it with both hands, keep fingers out from under it, and stop it against rolling off its blocks.")})
	return nil
}

// dialBelow draws a dial under an edge, its stem pointing up to the tip.
func dialBelow(c *drawing.Canvas, tip drawing.Point) {
	c.Box(drawing.Steel, tip.Add(-2, 3), tip.Add(2, 14), 0)
	c.Circle(drawing.Solid, tip.Add(0, 2.5), 2.5)
	c.Dial(tip.Add(0, 32), 18, 0.05)
}

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	separated, err := wear.ReverseStraightedge([]wear.ReversalReading{{Position: 0}, {Position: 0.3, First: 3.4 * um, Second: 8.6 * um}, {Position: 0.6}}, wear.Gauge{})
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-way", "reversal-way", float64(separated.Motion.Points[1].Height/um)),
		notebook.CheckRow("check-edge", "reversal-edge", float64(separated.Reference.Points[1].Height/um)))
	for _, c := range []struct {
		name, row string
		support   float64
	}{{"check-ends", "sag-on-ends", 0}, {"check-airy", "sag-airy", wear.Airy}} {
		// A beam with w L^4/(E I) of one metre.
		beam := wear.Beam{Length: 1, Width: 1, Height: 1, Stiffness: 12 * 9.80665, Density: 1}
		sag, err := wear.BeamSag(beam, unit.Length(c.support), []unit.Length{0.5})
		if err != nil {
			return err
		}
		s.Add(notebook.CheckRow(c.name, c.row, float64(sag[0])))
	}
	return nil
}
