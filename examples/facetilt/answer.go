package facetilt

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// fine is a height, length a length and slope a slope without an uncertainty.
func fine(l unit.Length) notebook.Quantity     { return notebook.Exact(l, notebook.FineLengths) }
func length(l unit.Length) notebook.Quantity   { return notebook.Exact(l, notebook.Lengths) }
func slope(s squaring.Slope) notebook.Quantity { return notebook.Exact(s, notebook.Slopes) }

// answerItems adds flatness, hollow, step and the marks.
func answerItems(s *notebook.Sheet, in Inputs, w worked) error {
	flat, f := w.fine.Flatness(), w.surface
	doubt := unit.Length(math.Hypot(float64(f.DishU), float64(f.StepU)))
	v := notebook.Verdict{Name: "answer", Tone: notebook.Watch}
	pattern := "The face comes out flat within {u}, and {} is allowed. "
	switch {
	case flat+2*doubt <= in.Limit:
		v.Tone, pattern = notebook.Good, pattern+"Cut it."
	case flat-2*doubt > in.Limit:
		v.Tone, pattern = notebook.Stop, pattern+"Set the head, feed another way, or take smaller steps."
	default:
		pattern += "Too near to say from these figures: cut a test piece."
	}
	v.Text = notebook.Say(pattern, notebook.Of(flat, doubt, notebook.FineLengths), fine(in.Limit))
	all := float64(w.fine.Leading + w.fine.Trailing)
	marks := notebook.Verdict{Name: "marks", Tone: notebook.Note, Text: notebook.Say("The front of the cutter makes {} of the face, its heel the rest. Along the feed the front is low by {}: on its way out the heel clears by up to {}.",
		notebook.Stepped(float64(w.fine.Leading)/all, 0.01, notebook.Percents), slope(-f.Along.Slope), fine(f.HeelLift))}
	if f.Along.Slope > 0 {
		marks.Text = notebook.Say("The heel makes {} of the face: it is low by {} along the feed and cuts again where the front has passed. That drags and shines.",
			notebook.Stepped(float64(w.fine.Trailing)/all, 0.01, notebook.Percents), slope(f.Along.Slope))
	}
	uncut := notebook.Verdict{Name: "uncut", Tone: notebook.Good, Text: notebook.Plain("The passes reach every point of the face.")}
	if w.fine.Uncut > 0 {
		uncut.Tone, uncut.Text = notebook.Stop, notebook.Say("The passes leave {} of the face uncut: add passes or take smaller steps.",
			notebook.Stepped(float64(w.fine.Uncut)/float64(len(w.fine.Heights)), 0.001, notebook.Percents))
	}
	s.Add(v, marks, uncut,
		notebook.Figure{Name: "dish", Label: "Hollow of one pass", Value: notebook.Of(f.Dish, f.DishU, notebook.FineLengths), Note: notebook.Plain("Over the width that one pass leaves standing, at the middle of its track.")},
		notebook.Figure{Name: "step", Label: "Step between passes", Value: notebook.Of(f.Step, f.StepU, notebook.FineLengths), Note: notebook.Say("Passes {} apart; none with one pass.", length(in.StepOver))},
		notebook.Caution{Name: "guard", Text: notebook.Plain("Keep hands and rule away from a turning cutter: stop the spindle, and let it run down, before you feel a face or brush off chips. Wear eye protection.")},
	)
	return tiltDrawing(s, w)
}

// tiltDrawing draws the cutter leaning along the feed and across it.
func tiltDrawing(s *notebook.Sheet, w worked) error {
	c := drawing.New("lean", "Along the feed and across it", "The cutter seen from the side of the feed, where its lean makes a hollow, and along the feed, where its lean makes steps.", 420, 252)
	for _, view := range []struct {
		middle float64
		lean   squaring.Slope
		words  string
	}{{105, w.surface.Along.Slope, "from the side: hollow"}, {315, w.surface.Across.Slope, "along the feed: steps"}} {
		angle := 0.0
		if view.lean != 0 {
			angle = 0.1 * math.Copysign(1, float64(view.lean))
		}
		at := drawing.Point{X: view.middle, Y: 166}
		c.Spindle(at, 48, 110, -angle)
		a, b := drawing.Polar(at, 74, math.Pi+angle), drawing.Polar(at, 74, angle)
		c.Face(drawing.Steel, drawing.Point{X: view.middle - 92, Y: math.Max(a.Y, b.Y)}, drawing.Point{X: view.middle + 92, Y: math.Max(a.Y, b.Y)},
			drawing.Point{X: view.middle + 92, Y: 212}, drawing.Point{X: view.middle - 92, Y: 212})
		c.Line(drawing.Marked, a, b)
		c.Words(drawing.Point{X: view.middle, Y: 20}, drawing.Middle, view.words)
		c.Label(drawing.Point{X: view.middle, Y: 240}, drawing.Middle, notebook.Say("{}", slope(view.lean)))
	}
	c.Arrow(drawing.Visible, drawing.Point{X: 60, Y: 222}, drawing.Point{X: 150, Y: 222})
	item, err := c.Item(notebook.Plain("The arrow is the cutter's way over the work. The lean is drawn about 6° whatever it is; plus means that the front, or the left of the feed, is high."))
	if err != nil {
		return err
	}
	s.Add(item)
	return nil
}

// mapItems adds the face as a map and as a section.
func mapItems(s *notebook.Sheet, in Inputs, w worked) error {
	face, err := in.face(w.feed, 13, 13).Map()
	if err != nil {
		return err
	}
	coarse := face.Levelled()
	lowest, _ := w.fine.Range()
	var along, across []float64
	for _, a := range coarse.Along {
		along = append(along, float64(a))
	}
	values := make([][]float64, len(coarse.Across))
	for row, a := range coarse.Across {
		across = append(across, float64(a))
		for column := range coarse.Along {
			values[row] = append(values[row], float64(coarse.Height(row, column)))
		}
	}
	low, high := coarse.Range()
	strip, err := plot.Strip{Name: "map", Title: "The face from above",
		Caption: notebook.Say("Height above the plane that lies best through the face: its slope as a whole is taken out. The feed goes to the right; the points shown span {}. A blank was never cut.", fine(high-low)),
		X:       plot.Axis{Label: "Along the feed", Show: notebook.Lengths}, Xs: along, Y: plot.Axis{Label: "Across", Show: notebook.Lengths}, Ys: across,
		Value: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Values: values, Height: 360}.Chart()
	if err != nil {
		return err
	}
	section, err := sectionChart(in, w, lowest)
	if err != nil {
		return err
	}
	s.Add(strip, section)
	return nil
}

// sectionChart draws the face across the feed, at its middle.
func sectionChart(in Inputs, w worked, lowest unit.Length) (notebook.Chart, error) {
	series := plot.Series{Label: "face", Style: plot.Curve}
	middle := len(w.fine.Along) / 2
	for row := 0; row < len(w.fine.Across); row += 4 {
		across, h := w.fine.Across[row], w.fine.Height(row, middle)
		if math.IsNaN(float64(h)) {
			if n := len(series.X); n > 0 && (len(series.Gaps) == 0 || series.Gaps[len(series.Gaps)-1] != n-1) {
				series.Gaps = append(series.Gaps, n-1)
			}
			continue
		}
		series.X, series.Y = append(series.X, float64(across)), append(series.Y, float64(h-lowest))
	}
	if n := len(series.Gaps); n > 0 && series.Gaps[n-1] == len(series.X)-1 {
		series.Gaps = series.Gaps[:n-1]
	}
	if len(series.X) == 0 {
		series.X, series.Y = []float64{0}, []float64{0}
	}
	return plot.XY{Name: "section", Title: "Across the feed, half-way along",
		Caption: notebook.Say("{} passes. Where two overlap the lower one is left.", notebook.Whole(in.Passes)),
		X:       plot.Axis{Label: "Across, from the right edge", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: []plot.Series{series}}.Chart()
}

// feedItems adds the four ways of feeding.
func feedItems(s *notebook.Sheet, in Inputs, _ worked) error {
	t := notebook.Table{Name: "feeds", Title: "The same head, fed four ways",
		Columns: []notebook.Column{notebook.Col("Cutter goes"), notebook.ColIn("Flat within", notebook.FineLengths), notebook.ColIn("Hollow", notebook.FineLengths),
			notebook.ColIn("Step", notebook.FineLengths), notebook.Col("Made by")},
		Note: notebook.Plain("The face keeps its length along the feed. There and back make the same face; only which edge makes it changes.")}
	for _, way := range []string{right, back, left, toward} {
		m, err := in.face(feeds()[way], 61, 81).Map()
		if err != nil {
			return err
		}
		f, err := in.surface(feeds()[way])
		if err != nil {
			return err
		}
		cell := notebook.Str(way)
		if way == in.Feed {
			cell = cell.Marked("yours")
		}
		t.Rows = append(t.Rows, []notebook.Cell{cell, notebook.Val(fine(m.Flatness())), notebook.Val(notebook.Of(f.Dish, f.DishU, notebook.FineLengths)),
			notebook.Val(notebook.Of(f.Step, f.StepU, notebook.FineLengths)), notebook.Str(string(f.Cuts))})
	}
	s.Add(t)
	return nil
}

// holeItems adds what the same lean does to a hole.
func holeItems(s *notebook.Sheet, in Inputs, _ worked) error {
	hole, err := squaring.Hole{Feed: squaring.ByQuill, Tilt: in.tilt(), TiltU: in.tiltU(), Depth: in.Depth, Diameter: 40 * mm}.Made()
	if err != nil {
		return notebook.InField("depth", err)
	}
	bored, err := squaring.Hole{Feed: squaring.ByKnee, Tilt: in.tilt(), Diameter: 40 * mm}.Made()
	if err != nil {
		return err
	}
	s.Add(
		notebook.Figure{Name: "hole", Label: "Lean of a hole by quill", Value: notebook.Of(hole.Shift, hole.ShiftU, notebook.FineLengths),
			Note: notebook.Say("Over {} the bottom lies {} to the right of the top and {} to the back of it.", length(in.Depth), fine(hole.ShiftX), fine(hole.ShiftY))},
		notebook.Figure{Name: "oval", Label: "How oval a bore of 40 mm comes out", Value: notebook.Exact(bored.Ovality, notebook.FineLengths).WithDigits(2),
			Note: notebook.Plain("Bored by raising the knee, so that the circle stands askew to the travel. By quill it is round.")},
	)
	return nil
}
