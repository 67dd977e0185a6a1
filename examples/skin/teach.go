package skin

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/plating"
)

// addDrawing draws the part from its profile, to scale.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	if a.in.Own.Given() {
		return a.addOwnDrawing(sheet)
	}
	places, radii, err := a.plain.Trace(24)
	if err != nil {
		return notebook.InField("points", err)
	}
	c := drawing.New("part", "The part, drawn from its points", "The outline of the turned part, mirrored about its axis, with its points numbered.", 420, 240)
	view := fit(places, radii)
	var upper, lower []drawing.Point
	for i := range places {
		upper = append(upper, view.At(float64(places[i]), float64(radii[i])))
		lower = append(lower, view.At(float64(places[i]), -float64(radii[i])))
	}
	outline := append([]drawing.Point(nil), upper...)
	for i := len(lower) - 1; i >= 0; i-- {
		outline = append(outline, lower[i])
	}
	c.Face(drawing.Brass, outline...)
	c.Line(drawing.Centre, drawing.Point{X: 15, Y: 120}, drawing.Point{X: 405, Y: 120})
	for i, p := range a.in.Points {
		if len(a.in.Points) <= 12 {
			at := view.At(float64(p.Place), float64(p.Diameter)/2)
			c.Number(at.Add(0, -12), i+1)
		}
	}
	item, err := c.Item(notebook.Plain("To scale, from the points as they stand in the form. If it does not look like your part, a point is wrong. Up to twelve points are numbered."))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// fit returns the view that fits a profile into the drawing.
func fit(places, radii []unit.Length) drawing.View {
	lo, hi, r := math.Inf(1), math.Inf(-1), 0.0
	for i := range places {
		lo, hi = math.Min(lo, float64(places[i])), math.Max(hi, float64(places[i]))
		r = math.Max(r, float64(radii[i]))
	}
	scale := math.Min(360/math.Max(hi-lo, 1e-6), 90/math.Max(r, 1e-6))
	return drawing.View{Origin: drawing.Point{X: 210 - scale*(lo+hi)/2, Y: 120}, Along: scale, Up: scale}
}

// shapes of the lesson's comparisons.
func exact(v unit.Length) plating.Dimension { return plating.Exactly(v) }

// addWrong adds the numbers that correct what people say.
func addWrong(sheet *notebook.Sheet) error {
	thread, err := plating.Thread{Diameter: exact(8 * mm), Pitch: exact(1.25 * mm), Length: exact(20 * mm)}.Surface()
	if err != nil {
		return err
	}
	rod, err := plating.Rod{Diameter: exact(8 * mm), Length: exact(20 * mm), OpenEnds: 2}.Surface()
	if err != nil {
		return err
	}
	_, sharp, err := plating.Knurl{Degrees: 90}.Bounds()
	if err != nil {
		return err
	}
	spring, err := plating.Spring{WireDiameter: exact(1 * mm), MeanDiameter: exact(8 * mm), Pitch: exact(2 * mm), Turns: 10}.Surface()
	if err != nil {
		return err
	}
	envelope, err := plating.Rod{Diameter: exact(9 * mm), Length: exact(20 * mm), OpenEnds: 2}.Surface()
	if err != nil {
		return err
	}
	hexagon, err := plating.Hexagon{AcrossFlats: exact(17 * mm), Length: exact(30 * mm), OpenEnds: 2}.Surface()
	if err != nil {
		return err
	}
	round, err := plating.Rod{Diameter: exact(17 * mm), Length: exact(30 * mm), OpenEnds: 2}.Surface()
	if err != nil {
		return err
	}
	ratio := func(a, b unit.Area) notebook.Quantity {
		return notebook.Exact(float64(a/b), notebook.Numbers).WithDigits(3)
	}
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	note("wrong-thread", notebook.Say("An M8 thread has {} times the skin of a plain rod of 8 mm.", ratio(thread.Area, rod.Area)))
	note("wrong-knurl", notebook.Say("Perfectly sharp 90° teeth make it {} times; real ones are blunt, so somewhere between 1 and that.", notebook.Exact(sharp, notebook.Numbers).WithDigits(3)))
	note("wrong-spring", notebook.Say("An open spring of ten turns has {} times the skin of the cylinder that it fills.", ratio(spring.Area, envelope.Area)))
	note("wrong-hexagon", notebook.Say("A hexagon has {} times the skin of a round bar that fits between its flats.", ratio(hexagon.Area, round.Area)))
	return nil
}

// addChecks sets shapes beside their closed forms.
func addChecks(sheet *notebook.Sheet) error {
	mm2 := func(s plating.Surface) float64 { return float64(s.Area) * 1e6 }
	ball, err := plating.Turned{Profile: []plating.ProfilePoint{{X: exact(-10 * mm), R: exact(0)}, {X: exact(10 * mm), R: exact(0), Arc: 10 * mm}}}.Surface()
	if err != nil {
		return err
	}
	torus, err := plating.Torus{MeanDiameter: exact(24 * mm), SectionDiameter: exact(6 * mm)}.Surface()
	if err != nil {
		return err
	}
	cove3, err := plating.Turned{Profile: []plating.ProfilePoint{{X: exact(0), R: exact(13 * mm)}, {X: exact(3 * mm), R: exact(10 * mm), Arc: -3 * mm}}}.Surface()
	if err != nil {
		return err
	}
	thread, err := plating.Thread{Diameter: exact(8 * mm), Pitch: exact(1.25 * mm), Length: exact(1 * mm)}.Surface()
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-ball", "plating-area-ball", mm2(ball)),
		notebook.CheckRow("check-torus", "plating-area-torus", mm2(torus)),
		notebook.CheckRow("check-cove", "plating-area-cove", mm2(cove3)),
		notebook.CheckRow("check-thread", "plating-area-m8", mm2(thread)),
		notebook.Caution{Name: "caution-edges", Text: notebook.Plain("Cut foil edges and turned burrs cut fingers, and a cut finger in a nickel bath is how an allergy starts. Break the edges, and cover cuts.")})
	return nil
}
