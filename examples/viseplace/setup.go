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

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet) error {
	in := Defaults()
	c, err := choose(in)
	if err != nil {
		return err
	}
	// A place 250 mm from the middle of the work.
	slid, err := wear.SlidingAt(in.Saddle, wear.Placement{Place: 0, Stroke: in.Stroke}, []unit.Length{250 * mm})
	if err != nil {
		return err
	}
	s.Add(notebook.Exercise{Name: "exercise-sliding",
		Ask: notebook.Say("The saddle is {} long and the table travels {} about the middle of the work. How far does a place of the way {} from the middle of the work slide on the saddle in one stroke?",
			at(in.Saddle), at(in.Stroke), at(250*mm)),
		Answer: at(slid[0]),
		Worked: []notebook.Text{
			notebook.Say("It is on the saddle while the saddle's middle is within {} of it.", at(in.Saddle/2)),
			notebook.Say("The saddle's middle runs from −{} to {}; it comes that near from {} on.", at(in.Stroke/2), at(in.Stroke/2), at(250*mm-in.Saddle/2)),
			notebook.Say("That leaves {}. The middle of the work slides the whole {}.", at(slid[0]), at(in.Stroke)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: at(in.Stroke), Why: notebook.Plain("Only places that the saddle never leaves slide the whole stroke.")},
			{Value: at(0 * mm), Why: notebook.Plain("The work is short, but the saddle is long: the way wears far beyond the vise.")},
		}})
	const over = 50 * mm
	step := c.here.spot.Lean.Rise(over)
	s.Add(notebook.Exercise{Name: "exercise-lean",
		Ask: notebook.Say("The head was set square at u = {} and the table leans {u} against it where the vise stands. A face is milled along y in passes {} apart. What step do the passes leave?",
			at(in.Set), lean(c.here.spot), at(over)),
		Answer: notebook.Of(unit.Length(math.Abs(float64(step))), c.here.spot.LeanU.Rise(over), notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Plain("A lean across the feed tips the cutter's plane: each pass stands off the one before by lean times step-over."),
			notebook.Say("{} times {} is {}.", lean(c.here.spot), at(over), fine(unit.Length(math.Abs(float64(step))))),
			notebook.Plain("Set the head square where the vise stands and it is gone."),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(0), Why: notebook.Plain("The head is square, but to the table at another place.")},
			{Value: fine(unit.Length(math.Abs(float64(c.here.spot.Lean.Rise(in.Part))))), Why: notebook.Plain("That is over the length of the part, not from pass to pass.")},
		}})
	return nil
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
