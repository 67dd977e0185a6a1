package groundbar

import (
	"sort"

	"example.org/thouspan/examples/actionshop"
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

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	var middle actionshop.BarReading
	rows := actionshop.GroundBar()
	first, last := rows[0], rows[len(rows)-1]
	for _, r := range rows {
		if r.Travel == 0 {
			middle = r
		}
	}
	separated, err := wear.ReverseBar([]wear.ReversalReading{
		{Position: -first.Travel, First: first.Up, Second: first.Down}, {Position: -middle.Travel, First: middle.Up, Second: middle.Down}, {Position: -last.Travel, First: last.Up, Second: last.Down}},
		wear.Gauge{Step: actionshop.DialD})
	if err != nil {
		return err
	}
	reading := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }
	machine := separated.Motion.Points[1].Height
	s.Add(notebook.Exercise{Name: "exercise-middle",
		Ask: notebook.Say("At one end both readings are {} and {}, in the middle {} with the edge up and {} with it down, at the other end {} and {}. How far does the machine depart in the middle from the line through its ends?",
			reading(first.Up), reading(first.Down), reading(middle.Up), reading(middle.Down), reading(last.Up), reading(last.Down)),
		Answer: notebook.Of(machine, separated.Motion.U(1), notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("Half the differences are {}, {} and {}.", reading((first.Up-first.Down)/2), reading((middle.Up-middle.Down)/2), reading((last.Up-last.Down)/2)),
			notebook.Say("The line through the ends passes the middle at {}.", reading((first.Up-first.Down+last.Up-last.Down)/4)),
			notebook.Say("The machine is {} below it.", reading(-machine)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: reading((middle.Up - middle.Down) / 2), Why: notebook.Plain("The line was left in: the bar does not lie parallel to the travel, and that is not the machine.")},
			{Value: reading((middle.Up+middle.Down)/2 - (first.Up+first.Down+last.Up+last.Down)/4), Why: notebook.Plain("Half the sum was taken: that is the bar.")},
			{Value: reading(middle.Up - (first.Up+last.Up)/2), Why: notebook.Plain("One run was believed: it holds the bar too.")},
		}})
	bar := wear.Beam{Length: 500 * mm, Width: 25 * mm, Height: 50 * mm, Stiffness: 210e9, Density: 7850}
	onEnds, err := wear.BeamSag(bar, 0, []unit.Length{250 * mm})
	if err != nil {
		return err
	}
	lying := bar
	lying.Height = 25 * mm
	flat, err := wear.BeamSag(lying, 0, []unit.Length{250 * mm})
	if err != nil {
		return err
	}
	s.Add(notebook.Exercise{Name: "exercise-sag",
		Ask: notebook.Say("A steel bar of {} by {} stands upright, {} high, on blocks under its very ends. How far does it hang in the middle?",
			place(bar.Length), place(bar.Width), place(bar.Height)),
		Answer: notebook.Exact(onEnds[0], notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Plain("5/384 of w L⁴/(E I); for a rectangle that is 5/32 of ρ g L⁴/(E h²): the width drops out."),
			notebook.Say("With 7850 kg/m³ and 210 GPa it comes to {}.", notebook.Exact(onEnds[0], notebook.FineLengths)),
		},
		Wrong: []notebook.WrongTurn{{Value: notebook.Exact(flat[0], notebook.FineLengths), Why: notebook.Plain("The bar was laid flat: half the height hangs four times as far.")}}})
	return nil
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
