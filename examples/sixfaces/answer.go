package sixfaces

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 1*squaring.Microradian, notebook.Slopes)
}
func height(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func measured(m squaring.MeasuredSlope) notebook.Quantity {
	return notebook.Of(m.Slope, m.Uncertainty, notebook.Slopes)
}

// pairName names two faces.
func pairName(p squaring.FacePair) string { return fmt.Sprintf("%d and %d", p.A, p.B) }

// setUpItems adds the caution and the section of the block.
func setUpItems(s *notebook.Sheet, in Inputs, chosen way, _ []way) error {
	section, err := sectionDrawing(chosen)
	if err != nil {
		return err
	}
	s.Add(section, notebook.Caution{Name: "throw", Text: notebook.Plain(
		"Stop the spindle before you turn the block or knock it down, and take the vise handle off before you start it. A block held on a round bar or by a leaning face has less hold: take light cuts, and stop if a parallel comes loose.")})
	return nil
}

// sectionDrawing shows faces 1 to 4 with their inside angles drawn larger.
func sectionDrawing(chosen way) (notebook.Drawing, error) {
	angle := map[[2]squaring.Face]float64{}
	worst := 1e-6
	for _, p := range chosen.block.Neighbours {
		angle[[2]squaring.Face{p.A, p.B}] = float64(p.Angle.Slope)
		if p.B <= 4 {
			worst = math.Max(worst, math.Abs(float64(p.Angle.Slope)))
		}
	}
	times := math.Max(1, math.Round(0.13/worst/10)*10)
	// Face 1 is the left side, upright; 2 the top, 4 the bottom, 3 the right. A
	// face runs off from its corner with face 1 at that corner's angle.
	const side = 150.0
	top, bottom := times*angle[[2]squaring.Face{1, 2}], times*angle[[2]squaring.Face{1, 4}]
	right := top + times*angle[[2]squaring.Face{2, 3}]
	c := drawing.New("section", "The block in section", "A four-sided figure: face 1 on the left, 2 on top, 3 on the right and 4 below, its angles drawn larger than they are.", 420, 290)
	upper, lower := drawing.Point{X: 130, Y: 50}, drawing.Point{X: 130, Y: 50 + side}
	// An open angle at the top lifts the far end of face 2; at the bottom it
	// sinks that of face 4.
	far := upper.Add(side, -side*math.Tan(top))
	// Face 3 comes down from there; an open angle there carries its foot out.
	run := math.Tan(right)
	x := far.X + run*(lower.Y-far.Y)
	foot := drawing.Point{X: x, Y: lower.Y + (x-lower.X)*math.Tan(bottom)}
	c.Face(drawing.Steel, upper, far, foot, lower)
	c.Number(drawing.Point{X: 112, Y: 125}, 1)
	c.Number(drawing.Point{X: (upper.X + far.X) / 2, Y: (upper.Y+far.Y)/2 - 18}, 2)
	c.Number(drawing.Point{X: (far.X+foot.X)/2 + 18, Y: 125}, 3)
	c.Number(drawing.Point{X: (lower.X + foot.X) / 2, Y: (lower.Y+foot.Y)/2 + 18}, 4)
	c.Exaggerated("Out of square is", times)
	return c.Item(notebook.Plain("Faces 1 to 4 in the order in which they are named, not in that of cutting: 1, then 2, then 4, then 3. Face 1 is what the others are measured from."))
}

// answerItems adds the angles and tapers of the chosen way.
func answerItems(s *notebook.Sheet, in Inputs, chosen way, _ []way) error {
	square, taper := chosen.block.WorstSquare, chosen.block.WorstParallel
	v := notebook.Verdict{Name: "answer", Tone: notebook.Good, Text: notebook.Say("The block comes out square within {} and parallel within {}, doubt included.", slope(in.Limit), slope(in.Wedged))}
	out := math.Abs(float64(square.Angle.Slope))+2*float64(square.Angle.Uncertainty) > float64(in.Limit)
	wedged := float64(taper.Angle.Slope)+2*float64(taper.Angle.Uncertainty) > float64(in.Wedged)
	if out || wedged {
		v.Tone = notebook.Stop
		v.Text = notebook.Say("Worst angle: faces "+pairName(square)+", out by {u}. Worst taper: faces "+pairName(taper)+", {u}. Allowed are {} and {}, doubt included.",
			measured(square.Angle), measured(taper.Angle), slope(in.Limit), slope(in.Wedged))
	}
	angles := notebook.Table{Name: "angles", Title: "Inside angles, less a right angle",
		Columns: []notebook.Column{notebook.Col("Faces"), notebook.ColIn("Angle", notebook.Slopes), notebook.ColIn("Over the block", notebook.FineLengths)},
		Note:    notebook.Say("Plus is open, minus is closed, over {}.", length(in.Size))}
	for _, p := range chosen.block.Neighbours {
		angles.Rows = append(angles.Rows, []notebook.Cell{notebook.Str(pairName(p)), notebook.Val(measured(p.Angle)), notebook.Val(notebook.Of(p.Angle.Slope.Rise(in.Size), p.Angle.Uncertainty.Rise(in.Size), notebook.FineLengths))})
	}
	tapers := notebook.Table{Name: "tapers", Title: "Taper between opposite faces",
		Columns: []notebook.Column{notebook.Col("Faces"), notebook.ColIn("Taper", notebook.Slopes), notebook.ColIn("Over the block", notebook.FineLengths)}}
	for _, p := range chosen.block.Opposites {
		tapers.Rows = append(tapers.Rows, []notebook.Cell{notebook.Str(pairName(p)), notebook.Val(measured(p.Angle)), notebook.Val(notebook.Of(p.Angle.Slope.Rise(in.Size), p.Angle.Uncertainty.Rise(in.Size), notebook.FineLengths))})
	}
	s.Add(v, angles, tapers,
		notebook.Figure{Name: "worst-square", Label: "Worst angle, faces " + pairName(square), Value: measured(square.Angle), Note: notebook.Say("Over {} that is {}.", length(in.Size), height(square.Angle.Slope.Rise(in.Size)))},
		notebook.Figure{Name: "worst-taper", Label: "Worst taper, faces " + pairName(taper), Value: measured(taper.Angle), Note: notebook.Say("A calliper sees this, {} over {}, and not the angle.", height(taper.Angle.Slope.Rise(in.Size)), length(in.Size))})
	return nil
}

// wayItems sets the four ways side by side.
func wayItems(s *notebook.Sheet, in Inputs, chosen way, ways []way) error {
	table := notebook.Table{Name: "ways", Title: "Four ways of doing it",
		Columns: []notebook.Column{notebook.Col("Second of a pair"), notebook.Col("Held by"), notebook.ColIn("Worst angle", notebook.Slopes), notebook.ColIn("Worst taper", notebook.Slopes)}}
	angles, tapers := plot.BarSeries{Label: "worst angle"}, plot.BarSeries{Label: "worst taper"}
	var groups []string
	for _, w := range ways {
		seat := notebook.Str(w.seat)
		if w.seat == chosen.seat && w.holding == chosen.holding {
			seat = seat.Marked("chosen")
		}
		square, taper := w.block.WorstSquare.Angle, w.block.WorstParallel.Angle
		table.Rows = append(table.Rows, []notebook.Cell{seat, notebook.Str(w.holding), notebook.Val(measured(square)), notebook.Val(measured(taper))})
		angles.Values, angles.U = append(angles.Values, math.Abs(float64(square.Slope))), append(angles.U, float64(square.Uncertainty))
		tapers.Values, tapers.U = append(tapers.Values, float64(taper.Slope)), append(tapers.U, float64(taper.Uncertainty))
		groups = append(groups, map[string]string{flatOnBed: "parallels", flatOnJaw: "jaw"}[w.seat]+map[string]string{bar: ", bar", noBar: ", no bar"}[w.holding])
	}
	chart, err := plot.Bars{Name: "ways-chart", Title: "Worst angle and worst taper, four ways",
		Caption: notebook.Plain("Named by where the second of two opposite faces was seated, and by whether a round bar let the work float."),
		What:    "Way", Groups: groups, Horizontal: true, Value: plot.Axis{Label: "Out", Show: notebook.Slopes}, Series: []plot.BarSeries{angles, tapers}}.Chart()
	if err != nil {
		return err
	}
	s.Add(table, chart)
	return nil
}

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, chosen way, ways []way) error {
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	onBed, onJaw, noBarOnBed := ways[0].block, ways[2].block, ways[1].block
	s.Add(
		note("wrong-calliper", notebook.Say("A calliper says parallel, so it must be square? Seated on the parallels the worst taper is {}, and the worst angle {}.", slope(onBed.WorstParallel.Angle.Slope), slope(onBed.WorstSquare.Angle.Slope))),
		note("wrong-cancel", notebook.Say("Turned over, the jaw's error cancels? Only on the parallels. Flat on the jaw throughout, the worst taper is {} and the last angle {}.", slope(onJaw.WorstParallel.Angle.Slope), slope(onJaw.WorstSquare.Angle.Slope))),
		note("wrong-bar", notebook.Say("A round bar is for rough stock only? Without it the same vise gives {} where it gives {} with it.", slope(noBarOnBed.WorstSquare.Angle.Slope), slope(onBed.WorstSquare.Angle.Slope))),
	)
	return nil
}

// checkItems sets what this lesson computes with against exact figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ way, _ []way) error {
	errors := squaring.ViseErrors{JawLean: squaring.MeasuredSlope{Slope: 100e-6}}
	onJaw, err := squaring.SquareBlock(squaring.SixFaces(squaring.OnJaw, false), errors)
	if err != nil {
		return err
	}
	onBed, err := squaring.SquareBlock(squaring.SixFaces(squaring.OnBed, false), errors)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-last", "block-jaw-last", onJaw.WorstSquare.Angle.Slope.Microradians()),
		notebook.CheckRow("check-taper", "block-jaw-taper", onJaw.WorstParallel.Angle.Slope.Microradians()),
		notebook.CheckRow("check-parallel", "block-bed-taper", onBed.WorstParallel.Angle.Slope.Microradians()),
	)
	return nil
}
