package viseplace

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// setUpItems adds the drawing and the cautions.
func setUpItems(s *notebook.Sheet, in Inputs, c choice) error {
	d, err := placesDrawing(in, c)
	if err != nil {
		return err
	}
	s.Add(d,
		notebook.Caution{Name: "caution-level", Text: notebook.Plain("Isolate the machine before you lean over the table to read the vial: the spindle and a powered feed must not be able to start.")},
		notebook.Caution{Name: "caution-vise", Text: notebook.Plain("A vise weighs 30 kg and more, and a swivel base lets half of it go when you do not expect it. Slide it along the table on two hands and a helper's, or use a hoist; keep fingers out from under it, and the handle off. Do not stand it where the head or a turning cutter can meet it at the end of the travel.")})
	return nil
}

// placesDrawing draws the table on its saddle with the vise where it stands and
// at the pick, and the wear of the way below.
func placesDrawing(in Inputs, c choice) (notebook.Drawing, error) {
	c0 := drawing.New("places-drawing", "The vise where it stands and where it should",
		"Seen from the front: the table with the vise where it stands, drawn solid, and at the chosen place, dashed. Below, the wear of the way along the table, and the stretch of the way that the saddle covers while a part is cut at either place.", 420, 300)
	scale := 380 / float64(in.Table)
	x := func(u unit.Length) float64 { return 210 + scale*float64(u) }
	point := func(u unit.Length, y float64) drawing.Point { return drawing.Point{X: x(u), Y: y} }
	c0.TableFront(drawing.Point{X: 20, Y: 92}, drawing.Point{X: 400, Y: 92}, 20)
	for _, v := range []struct {
		u     unit.Length
		style drawing.Style
		words string
		y     float64
	}{{in.Now, drawing.Steel, "now", 52}, {c.pick.spot.Place, drawing.Glass, "pick", 30}} {
		c0.Box(v.style, drawing.Point{X: x(v.u) - 22, Y: 68}, drawing.Point{X: x(v.u) + 22, Y: 92}, 2)
		c0.Words(drawing.Point{X: x(v.u), Y: v.y}, drawing.Middle, v.words)
		c0.Line(drawing.Centre, drawing.Point{X: x(v.u), Y: v.y + 4}, drawing.Point{X: x(v.u), Y: 92})
	}
	most := 1 * um
	for _, d := range c.start {
		most = max(most, d)
	}
	curve := make([]drawing.Point, len(c.start))
	for i, u := range c.here.ahead.Places {
		curve[i] = point(u, 180+50*float64(c.start[i]/most))
	}
	c0.Line(drawing.Thin, drawing.Point{X: 20, Y: 180}, drawing.Point{X: 400, Y: 180})
	c0.Line(drawing.Marked, curve...)
	c0.Words(drawing.Point{X: 24, Y: 172}, drawing.Start, "wear of the way")
	for k, u := range []unit.Length{in.Now, c.pick.spot.Place} {
		y := 248 + 16*float64(k)
		half := in.Saddle/2 + in.Stroke/2
		left, right := point(max(u-half, -in.Table/2), y), point(min(u+half, in.Table/2), y)
		c0.Line([]drawing.Style{drawing.Visible, drawing.Hidden}[k], left, right)
		c0.Note(drawing.Point{X: (left.X + right.X) / 2, Y: y - 3}, drawing.Middle, []string{"used now", "used at the pick"}[k])
	}
	c0.Exaggerated("Wear", math.Max(math.Round(50/float64(most)/scale/100)*100, 1))
	return c0.Item(notebook.Say("The work now stands at u = {}; the pick is u = {}. Deepest wear now: {}.", at(in.Now), at(c.pick.spot.Place), notebook.Stepped(most, 1*um, notebook.FineLengths)))
}

// checkItems adds the checks against published values.
func checkItems(s *notebook.Sheet) error {
	slid, err := wear.SlidingAt(300*mm, wear.Placement{Place: 250 * mm, Stroke: 200 * mm}, []unit.Length{100 * mm})
	if err != nil {
		return err
	}
	zones := []wear.Zone{{Length: 100 * mm, Share: 0.05}, {Length: 100 * mm, Share: 0.15}, {Length: 100 * mm, Share: 0.40}, {Length: 100 * mm, Share: 0.30}, {Length: 100 * mm, Share: 0.10}}
	worn, err := wear.WearByUse(2e-8*wear.CubicMillimetrePerNewtonMetre, 1500*unit.Newton, 80*mm, 1.5e6*unit.Metre, zones)
	if err != nil {
		return err
	}
	pad, err := wear.PressureUnderPad(1200*unit.Newton, 300*mm, 60*mm, 30*mm)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-sliding", "law-saddle-sliding", float64(slid[0]/mm)),
		notebook.CheckRow("check-zone", "law-zone-depth", float64(worn[2].Depth/um)),
		notebook.CheckRow("check-pad", "law-pad-most", float64(pad.Most)/1e6),
		notebook.CheckRow("check-factor", "law-inch-factor", float64(wear.CubicInchMinutePerPoundFootHour/wear.CubicMillimetrePerNewtonMetre)),
	)
	return nil
}
