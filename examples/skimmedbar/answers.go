package skimmedbar

import (
	"math"
	"sort"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(value, u unit.Length) notebook.Quantity {
	return notebook.Of(value, u, notebook.FineLengths)
}

// setUp adds the drawing and the caution.
func setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "A bar skimmed along the table", "Seen from the front. The table runs in a hollow under the cutter. The cutter takes less in the middle, and the bar comes out thick there.", 420, 250)
	c.TableFront(drawing.Point{X: 30, Y: 170}, drawing.Point{X: 390, Y: 170}, 24)
	top := []drawing.Point{{X: 70, Y: 170}}
	for i := range 21 {
		t := float64(i)/10 - 1
		top = append(top, drawing.Point{X: 210 + 140*t, Y: 136 + 9*t*t})
	}
	top = append(top, drawing.Point{X: 350, Y: 170})
	c.Face(drawing.Body, top...)
	c.Line(drawing.Marked, top[1:22]...)
	c.Line(drawing.Hidden, drawing.Point{X: 70, Y: 145}, drawing.Point{X: 350, Y: 145})
	c.Spindle(drawing.Point{X: 250, Y: 134}, 60, 84, 0)
	c.Leader(drawing.Point{X: 24, Y: 106}, drawing.Start, "cut on straight ways", drawing.Point{X: 92, Y: 145})
	c.Words(drawing.Point{X: 14, Y: 24}, drawing.Start, "the cut, upside down the motion")
	c.Note(drawing.Point{X: 210, Y: 244}, drawing.Middle, "Crown of the bar drawn some thousand times too large.")
	item, err := c.Item(notebook.Plain("The heavy line is the cut. Where the table sinks the cutter takes less: thick bar, low table."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-cut", Text: notebook.Plain(
		"Clamp the bar at both ends and along its length: a long bar that works loose under the cutter is thrown. Wear eye protection, stop the spindle before you touch the bar, take chips off with a brush. Break the edges before you handle it.")})
	return nil
}

// answers adds the verdict, the figures, the table and the chart.
func (r result) answers(s *notebook.Sheet) error {
	points := r.motion.Points
	length := points[len(points)-1].Position - points[0].Position
	s.Add(notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: r.sentence(length)},
		notebook.Figure{Name: "motion", Label: "Motion of the table, largest departure", Value: fine(r.depth, r.depthU),
			Note: notebook.Say("At u = {}, from the line through the ends. Minus: the table sinks there.", place(r.depthAt))},
		notebook.Figure{Name: "zone", Label: "Straightness of the motion, minimum zone", Value: fine(r.zone.Value, r.zone.U),
			Note: notebook.Say("By least squares {u}.", fine(r.least.Value, r.least.U))},
		notebook.Figure{Name: "part", Label: "Worst bow of a part of your length", Value: notebook.Exact(r.part.Value, notebook.FineLengths).WithDigits(2),
			Note: notebook.Say("Over {}, with its left end at u = {}. The bar is taken as straight between the places measured, so a short part comes out better than this says.", place(r.in.PartLength), place(r.from))},
		r.table())
	chart, err := r.chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

func (r result) sentence(length unit.Length) notebook.Text {
	size := fine(unit.Length(math.Abs(float64(r.depth))), r.depthU)
	switch {
	case math.Abs(float64(r.depth)) < 2*float64(r.depthU):
		return notebook.Say("Over {} this bar cannot be told from straight: it departs by {u}.", place(length), size)
	case r.depth < 0:
		return notebook.Say("Over {} the bar is thick in its middle: the table runs in a hollow of {u}, deepest at u = {}.", place(length), size, place(r.depthAt))
	}
	return notebook.Say("Over {} the bar is thin in its middle: the table runs over a crown of {u}, highest at u = {}.", place(length), size, place(r.depthAt))
}

func (r result) sorted() []Reading {
	rows := append([]Reading(nil), r.in.Readings...)
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].Place < rows[j].Place })
	return rows
}

func (r result) table() notebook.Table {
	t := notebook.Table{Name: "heights", Title: "From thickness to motion", Columns: []notebook.Column{notebook.ColIn("Place u", notebook.Lengths), notebook.ColIn("Thickness", notebook.Lengths), notebook.ColIn("Motion", notebook.FineLengths)},
		Note: notebook.Plain("The line through the ends is taken off: a bar clamped a little askew is tapered, and that is not the motion.")}
	for i, row := range r.sorted() {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(row.Place)), notebook.Val(notebook.Stepped(row.Thickness, r.in.Step, notebook.Lengths)),
			notebook.Val(fine(r.motion.Points[i].Height, r.motion.U(i)))})
	}
	return t
}

func (r result) chart() (notebook.Chart, error) {
	motion, bar := plot.Series{Label: "motion", Style: plot.Line}, plot.Series{Label: "thickness", Style: plot.Line}
	rows := r.sorted()
	first, last := rows[0], rows[len(rows)-1]
	for i, row := range rows {
		x := float64(row.Place)
		line := float64(first.Thickness) + float64(last.Thickness-first.Thickness)*float64(row.Place-first.Place)/float64(last.Place-first.Place)
		bar.X, bar.Y = append(bar.X, x), append(bar.Y, float64(row.Thickness)-line)
		motion.X, motion.Y, motion.U = append(motion.X, x), append(motion.Y, float64(r.motion.Points[i].Height)), append(motion.U, float64(r.motion.U(i)))
	}
	return plot.XY{Name: "motion-chart", Title: "The bar, and the motion that made it", Caption: notebook.Plain("Both above the lines through their ends. One is the other upside down."),
		X: plot.Axis{Label: "Place on the table u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: []plot.Series{bar, motion}}.Chart()
}

// agreement sets the shop's three ways of finding one motion side by side: the
// hollow in the middle of the 480 mm that all three cover.
func agreement(s *notebook.Sheet) error {
	_, rows := actionshop.SecondLevelSurvey()
	stations := make([]wear.LevelStation, len(rows))
	for i, r := range rows {
		stations[i] = wear.LevelStation{Position: -r.Travel, Normal: r.AlongNormal, Turned: r.AlongTurned}
	}
	survey, err := wear.ReadLevel(stations, wear.LevelOptions{Division: actionshop.LevelDivision})
	if err != nil {
		return err
	}
	at := []unit.Length{-240 * mm, 0, 240 * mm}
	level, err := wear.MotionFromSlopes(survey.SlopePoints(), wear.MotionOptions{Bearing: actionshop.BearingLength, At: at})
	if err != nil {
		return err
	}
	var pairs []wear.ReversalReading
	for _, r := range actionshop.GroundBar() {
		pairs = append(pairs, wear.ReversalReading{Position: -r.Travel, First: r.Up, Second: r.Down})
	}
	bar, err := wear.ReverseBar(pairs, wear.Gauge{Step: actionshop.DialD})
	if err != nil {
		return err
	}
	var places []wear.SkimmedPlace
	for _, r := range actionshop.SkimmedBar() {
		places = append(places, wear.SkimmedPlace{Position: r.Place, Thickness: r.Thickness})
	}
	skim, err := wear.MotionFromSkimmedBar(places, wear.Gauge{Step: actionshop.Micrometer, RepeatU: 0.5 * um})
	if err != nil {
		return err
	}
	straight, err := level.Straightness(wear.EndPoints)
	if err != nil {
		return err
	}
	middle := len(bar.Motion.Points) / 2
	depth, u := skimmedOver(skim)
	ways := []struct {
		name     string
		value, u unit.Length
	}{{"level, turned end for end", straight.Value, straight.U}, {"ground bar, rolled over", -bar.Motion.Points[middle].Height, bar.Motion.U(middle)}, {"skimmed bar", depth, u}}
	t := notebook.Table{Name: "three-ways", Title: "One hollow by three ways: the action shop, 2025", Columns: []notebook.Column{notebook.Col("Way"), notebook.ColIn("Hollow", notebook.FineLengths)},
		Note: notebook.Say("In the middle of {}. These rows keep the shop's readings, whatever you type.", place(480*mm))}
	var weight, mean float64
	for _, way := range ways {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(way.name), notebook.Val(fine(way.value, way.u))})
		w := 1 / float64(way.u*way.u)
		weight, mean = weight+w, mean+w*float64(way.value)
	}
	mean /= weight
	t.Rows = append(t.Rows, []notebook.Cell{notebook.Str("all three, weighted"), notebook.Val(fine(unit.Length(mean), unit.Length(1/math.Sqrt(weight))))})
	s.Add(t)
	return nil
}

// skimmedOver returns the hollow of the skimmed bar in the middle of 480 mm, its
// ends taken on straight lines between the places measured, with its standard
// uncertainty.
func skimmedOver(p wear.Profile) (depth, u unit.Length) {
	// Weights of the places: 1 in the middle, less half of each end, which lies
	// 40 of 100 mm beyond the inner place.
	w := make([]float64, len(p.Points))
	n := len(w)
	w[n/2] = -1
	w[0], w[1], w[n-2], w[n-1] = 0.5*0.4, 0.5*0.6, 0.5*0.6, 0.5*0.4
	var value, variance float64
	for i := range w {
		value += w[i] * float64(p.Points[i].Height)
		for j := range w {
			variance += w[i] * w[j] * p.Covariance.At(i, j)
		}
	}
	return unit.Length(value), unit.Length(math.Sqrt(variance))
}

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	x, z := []float64{0, 80, 200, 410, 500, 640, 800}, []float64{0, 5, 2, 7, 6, -1, 3}
	points := make([]wear.Point, len(x))
	for i := range x {
		points[i] = wear.Point{Position: unit.Length(x[i]) * mm, Height: unit.Length(z[i]) * um}
	}
	for i, name := range []string{"ends", "zone"} {
		straight, err := wear.StraightnessOf(points, []wear.Reference{wear.EndPoints, wear.MinimumZone}[i])
		if err != nil {
			return err
		}
		s.Add(notebook.CheckRow("check-"+name, "straight-steps-"+name, float64(straight.Value/um)))
	}
	return nil
}
