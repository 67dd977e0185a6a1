package defects

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/plating"
)

// density shows a current density.
func density(j plating.CurrentDensity) notebook.Quantity {
	return notebook.Exact(j, notebook.CurrentDensities)
}

// addWrong adds the numbers that correct what people say, and the sketch of the
// panel's cell.
func addWrong(sheet *notebook.Sheet) error {
	burnt := actionshop.PlatingLog()[4]
	j := plating.CurrentDensity(float64(burnt.Current) / float64(burnt.Area))
	count := map[plating.Defect]notebook.Quantity{}
	for _, d := range plating.Defects() {
		causes, err := plating.Causes(d, plating.Circumstances{})
		if err != nil {
			return err
		}
		count[d] = notebook.Whole(len(causes))
	}
	sheet.Add(
		notebook.Verdict{Name: "wrong-mean", Tone: notebook.Note, Text: notebook.Say(
			"Run 5 had a mean of {}, but 1.77 times that at the corners: {}. The corner decides.", density(j), density(1.77*j))},
		notebook.Verdict{Name: "wrong-dose", Tone: notebook.Note, Text: notebook.Say(
			"{} causes stand behind burnt corners, {} behind round pits, {} behind peeling from the base. Change two at once, and you will never know which it was, nor what the other one did to the bath.",
			count[plating.BurntCorners], count[plating.RoundPits], count[plating.PeelsFromBase])},
		notebook.Verdict{Name: "wrong-nickel", Tone: notebook.Note, Text: notebook.Plain(
			"None of the shop's six bad runs lacked nickel. Two were pH, one current, one activation, one foreign metal, one a coat too thick for its thread.")},
	)
	return drawCell(sheet)
}

// drawCell draws the panel's cell from above.
func drawCell(sheet *notebook.Sheet) error {
	c := drawing.New("cell", "The cell with the sloping cathode, from above", "A small four-sided cell. The anode stands along one end; the panel slopes away from it, so that one end is near and the other far.", 420, 230)
	point := func(x, y float64) drawing.Point { return drawing.Point{X: x, Y: y} }
	// Plan of the 267 mL cell: long wall 127, short wall 47.6, anode wall 63.5.
	const scale, left, top = 2.4, 50.0, 45.0
	a, b := point(left, top), point(left+127*scale, top)
	d, e := point(left, top+63.5*scale), point(left+47.6*scale, top+63.5*scale)
	c.Face(drawing.Bath, a, b, e, d)
	c.Line(drawing.Visible, d, a, b)
	c.Line(drawing.Visible, d, e)
	c.Line(drawing.Visible, b, e)
	c.Box(drawing.Nickel, point(left+2, top+8), point(left+12, top+63.5*scale-8), 2)
	c.Line(drawing.Marked, point(b.X-8, b.Y+6), point(e.X+2, e.Y-6))
	c.Leader(point(150, 28), drawing.Middle, "anode, plus", point(left+8, top+12))
	c.Leader(point(300, 150), drawing.Start, "panel, minus", point(262, 116))
	c.Words(point(e.X+10, e.Y+18), drawing.Start, "high end")
	c.Words(point(b.X-4, b.Y-8), drawing.End, "low end")
	item, err := c.Item(notebook.Plain("Near the anode the panel gets much current, far from it little: one panel shows what the bath does at every current density between."))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// addChecks sets the panel and the corner beside published figures.
func addChecks(sheet *notebook.Sheet) error {
	near, err := plating.Panel{Current: 1 * unit.Ampere}.At(10 * mm)
	if err != nil {
		return err
	}
	far, err := plating.Panel{Current: 2 * unit.Ampere}.At(50 * mm)
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-near", "panel-formula-1", float64(near/plating.AmperePerSquareDecimetre)),
		notebook.CheckRow("check-far", "panel-formula-5", float64(far/plating.AmperePerSquareDecimetre)))
	return nil
}

// addCautions adds what can hurt someone, each at its step.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-test", Text: notebook.Plain("Every test here puts hands near nickel salts and live clips: gloves, goggles, supply off while you hang or lift, no food, and the panel's bath back into the tank, not into the sink.")},
		notebook.Caution{Name: "caution-strip", Text: notebook.Plain("Stripping bad nickel means strong acid or current the other way, with mist and nickel waste. Never with cyanide or chromic acid. A licensed plater does it more safely than you.")},
		notebook.Caution{Name: "caution-carbon", Text: notebook.Plain("Active carbon and filter cakes from the bath are nickel waste. Peroxide foams and heats: dilute, little by little, in the cold bath, and only if you know why.")},
	)
	return nil
}
