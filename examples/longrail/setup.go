package longrail

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// setUpItems adds the drawing and the cautions.
func setUpItems(s *notebook.Sheet, in Inputs, r rail) error {
	d, err := settingsDrawing(in, r)
	if err != nil {
		return err
	}
	s.Add(d,
		notebook.Caution{Name: "caution-level", Text: notebook.Plain("Isolate the machine before you lean over the table to read the vial: the spindle and a powered feed must not be able to start.")},
		notebook.Caution{Name: "caution-rail", Text: notebook.Plain("A long rail hangs over the table's end. Support it before the clamps are slack, keep the aisle where it swings free, and clamp on both sides of the cut: a rail that lifts under the cutter is thrown. Stop and isolate the spindle before you set the second piece.")})
	return nil
}

// settingsDrawing draws the table with the rail in its first and second setting.
func settingsDrawing(in Inputs, r rail) (notebook.Drawing, error) {
	c := drawing.New("settings-drawing", "The rail in two settings",
		"Seen from the front. Above, the rail lies on the table with its left piece over the place where that is cut; below, it has been moved so that its right piece lies over its own place. The stretch that both settings share is shaded.", 420, 300)
	start := in.Length - r.two.Piece
	left := []unit.Length{r.two.Places[0] - r.two.Piece/2, r.two.Places[1] - r.two.Piece/2 - start}
	// The table is longer than the run of its stations by a bearing.
	ends := [2]unit.Length{r.from - in.Bearing/2, r.to + in.Bearing/2}
	reach := 0.0
	for _, u := range []unit.Length{ends[0], ends[1], left[0], left[0] + in.Length, left[1], left[1] + in.Length} {
		reach = math.Max(reach, math.Abs(float64(u)))
	}
	scale := 190 / reach
	at := func(u unit.Length, y float64) drawing.Point {
		return drawing.Point{X: 210 + float64(u)*scale, Y: y}
	}
	for k, y := range []float64{70, 190} {
		c.TableFront(at(ends[0], y), at(ends[1], y), 22)
		c.Box(drawing.Steel, at(left[k], y-16), at(left[k]+in.Length, y), 0)
		c.Box(drawing.Wedge, at(left[k]+start, y-16), at(left[k]+r.two.Piece, y), 0)
		cut := left[k] + start*unit.Length(k)
		c.Line(drawing.Marked, at(cut, y-18), at(cut+r.two.Piece, y-18))
		c.Label(drawing.Point{X: 210, Y: y - 30}, drawing.Middle, notebook.Say([]string{"First: cut with its middle at u = {}", "Second: cut with its middle at u = {}"}[k], place(r.two.Places[k])))
	}
	c.Frame(drawing.Point{X: 20, Y: 285}, "x", "z")
	return c.Item(notebook.Say("Pieces of {}, overlap {} (shaded). The line above the rail is what is cut in that setting.", place(r.two.Piece), place(in.Overlap)))
}

// checkItems adds the checks against published values.
func checkItems(s *notebook.Sheet) error {
	var slopes []wear.SlopePoint
	for i := range 11 {
		u := unit.Length(100*(i-5)) * mm
		slopes = append(slopes, wear.SlopePoint{Position: u, Slope: wear.Slope(-320e-6 * float64(u)), U: 0.5e-6})
	}
	table, err := wear.MapTable(slopes, 0)
	if err != nil {
		return err
	}
	spot, err := table.Spot(0, 1*unit.Metre, 0)
	if err != nil {
		return err
	}
	two, err := table.InTwoSettings(0.9*unit.Metre, 200*mm, 0)
	if err != nil {
		return err
	}
	straight, err := wear.StraightnessOf([]wear.Point{{Position: 0, Height: 0}, {Position: 80 * mm, Height: 5 * um}, {Position: 200 * mm, Height: 2 * um}, {Position: 410 * mm, Height: 7 * um},
		{Position: 500 * mm, Height: 6 * um}, {Position: 640 * mm, Height: -1 * um}, {Position: 800 * mm, Height: 3 * um}}, wear.EndPoints)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-parabola", "parabola-bow", math.Abs(float64(spot.Bow/um))),
		// The same parabola in two settings joins into itself: 0.81 of the bow.
		notebook.CheckRow("check-joined", "parabola-bow", math.Abs(float64(two.Bow/um))/0.81),
		notebook.CheckRow("check-ends", "straight-steps-ends", float64(straight.Value/um)),
	)
	return nil
}
