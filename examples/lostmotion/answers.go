package lostmotion

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(value, u unit.Length) notebook.Quantity {
	return notebook.Of(value, u, notebook.FineLengths)
}

func micron(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }

// setUp adds the drawing and the cautions.
func setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "Both sides of a thread",
		"Seen from the front, a nut and its screw in section. The nut is held in the saddle, the screw turns in the table and carries it along. While the table comes up, to the right, the left flanks of the screw lean on the nut; turned back, the screw must first cross the play before its right flanks lean on it. A dial against a block on the table shows where the table stands.", 420, 260)
	c.TableFront(drawing.Point{X: 30, Y: 84}, drawing.Point{X: 300, Y: 84}, 18)
	c.Box(drawing.Steel, drawing.Point{X: 236, Y: 52}, drawing.Point{X: 270, Y: 84}, 1)
	c.Line(drawing.Visible, drawing.Point{X: 270, Y: 66}, drawing.Point{X: 316, Y: 66})
	c.Dial(drawing.Point{X: 346, Y: 66}, 30, 0.12)
	c.Words(drawing.Point{X: 253, Y: 44}, drawing.Middle, "block")
	// The nut above, the screw's thread below, with play on the left flanks.
	nut := []drawing.Point{{X: 60, Y: 130}}
	for i := range 4 {
		x := 60 + 62*float64(i)
		nut = append(nut, drawing.Point{X: x, Y: 166}, drawing.Point{X: x + 8, Y: 190}, drawing.Point{X: x + 24, Y: 190}, drawing.Point{X: x + 32, Y: 166})
	}
	nut = append(nut, drawing.Point{X: 278, Y: 166}, drawing.Point{X: 278, Y: 130})
	c.Face(drawing.Body, nut...)
	screw := []drawing.Point{{X: 30, Y: 232}, {X: 30, Y: 196}, {X: 56, Y: 196}}
	for i := range 4 {
		x := 60 + 62*float64(i)
		screw = append(screw, drawing.Point{X: x + 24, Y: 196}, drawing.Point{X: x + 32, Y: 170}, drawing.Point{X: x + 50, Y: 170}, drawing.Point{X: x + 58, Y: 196})
	}
	screw = append(screw, drawing.Point{X: 320, Y: 196}, drawing.Point{X: 320, Y: 232})
	c.Face(drawing.Steel, screw...)
	c.Words(drawing.Point{X: 66, Y: 148}, drawing.Start, "nut, held in the saddle")
	c.Words(drawing.Point{X: 40, Y: 222}, drawing.Start, "screw")
	c.Leader(drawing.Point{X: 330, Y: 160}, drawing.Start, "play", drawing.Point{X: 240, Y: 182})
	c.Arrow(drawing.Marked, drawing.Point{X: 326, Y: 214}, drawing.Point{X: 396, Y: 214})
	c.Words(drawing.Point{X: 330, Y: 206}, drawing.Start, "up: X +")
	c.Note(drawing.Point{X: 210, Y: 254}, drawing.Middle, "Play drawn some fifty times too large.")
	item, err := c.Item(notebook.Plain("The screw goes with the table. One of its flanks leans on the nut while the table comes up, the other while it comes down. Between them lies the play. The dial reads plus when the table has gone too far right."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-isolate", Text: notebook.Plain("Isolate the machine: a dial stands by the spindle and both your hands are on the table.")},
		notebook.Caution{Name: "caution-climb", Text: notebook.Plain("Do not climb mill on a screw with play. The cutter drags the table forward by all of the lost motion at once: it bites, breaks, and throws the work. Cut against the feed, or lock what does not move and take next to nothing. Stand out of the line of the cutter, behind a guard, with eye protection.")})
	return nil
}

// varies reports whether the lost motion differs along the travel by more than
// chance.
func (r result) varies() bool { return r.p.VariesP < 0.01 }

// answers adds the verdict, the figures and the tables.
func (r result) answers(s *notebook.Sheet) error {
	turns, err := r.screw.Handwheel(lost(r.most))
	if err != nil {
		return err
	}
	spread := lost(r.most) - lost(r.least)
	spreadU := unit.Length(math.Hypot(float64(r.most.LostU), float64(r.least.LostU)))
	s.Add(r.verdict(spread, spreadU),
		notebook.Figure{Name: "lost", Label: "Lost motion at its most", Value: fine(lost(r.most), r.most.LostU),
			Note: notebook.Say("At X = {}, from {} runs each way.", place(r.most.Place), notebook.Whole(r.runs))},
		notebook.Figure{Name: "nut", Label: "What the nut can take out", Value: fine(lost(r.least), r.least.LostU),
			Note: notebook.Say("The lost motion where it is least, at X = {}. Closed further the nut binds there. Leave the oil some of it.", place(r.least.Place))},
		notebook.Figure{Name: "left", Label: "What stays in the worn stretch", Value: fine(spread, spreadU),
			Note: notebook.Plain("The screw's own wear. Only a new screw takes it out.")},
		notebook.Figure{Name: "wheel", Label: "At the handwheel", Value: notebook.Stepped(turns, math.Pi/1800, notebook.Angles),
			Note: notebook.Say("{} divisions.", notebook.Stepped(float64(lost(r.most)/r.in.Division), 0.1, notebook.Numbers))},
		notebook.Figure{Name: "flanks", Label: "Metal gone from the flanks", Value: fine(r.flanks, r.flanksU),
			Note: notebook.Plain("Both flanks of screw and nut together, square to the faces, if all of the play is wear and none was left by the maker or lies in the end bearing.")},
		notebook.Figure{Name: "travel", Label: "Travel that wears off another 10 µm of the nut", Value: notebook.Exact(r.travel, notebook.Same(notebook.Metre)).WithDigits(2),
			Note: notebook.Say("On one side, at the wear factor that is stated. It is known to a factor of ten at best. That is {} full strokes of {}.", notebook.Exact(float64(r.travel/(500*mm)), notebook.Numbers).WithDigits(2), place(500*mm))},
		r.table(), r.positions())
	return nil
}

func (r result) verdict(spread, spreadU unit.Length) notebook.Verdict {
	v := notebook.Verdict{Name: "answer", Tone: notebook.Note}
	switch {
	case len(r.p.Targets) < 2:
		v.Text = notebook.Say("The table waits {u} at X = {}. Read other places too: one cannot tell a worn nut from a worn screw.", fine(lost(r.most), r.most.LostU), place(r.most.Place))
	case r.varies():
		v.Tone = notebook.Watch
		v.Text = notebook.Say("The table waits {u} at X = {} and {u} at X = {}: the screw itself is worn there. The nut can take out no more than the least of them; {u} stay.",
			fine(lost(r.most), r.most.LostU), place(r.most.Place), fine(lost(r.least), r.least.LostU), place(r.least.Place), fine(spread, spreadU))
	default:
		v.Tone = notebook.Good
		v.Text = notebook.Say("The table waits {u} all along: what differs is chance. That is the nut, the end bearing or both, and can be adjusted away.", fine(r.mean()))
	}
	return v
}

// mean returns the mean size of the lost motion and its standard uncertainty.
func (r result) mean() (mean, u unit.Length) {
	var squares float64
	n := unit.Length(len(r.p.Targets))
	for _, t := range r.p.Targets {
		squares += float64(t.LostU * t.LostU)
	}
	return unit.Length(math.Abs(float64(r.p.MeanLost))), unit.Length(math.Sqrt(squares)) / n
}

func (r result) table() notebook.Table {
	t := notebook.Table{Name: "places", Title: "Place by place", Columns: []notebook.Column{notebook.ColIn("Place X", notebook.Lengths), notebook.ColIn("Coming up", notebook.FineLengths), notebook.ColIn("Coming down", notebook.FineLengths), notebook.ColIn("Up less down", notebook.FineLengths)},
		Note: notebook.Plain("Means. Up less down is minus where the table stops short: the play lies between screw and table.")}
	root := math.Sqrt(float64(r.runs))
	for _, p := range r.p.Targets {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(p.Place)), notebook.Val(fine(p.UpMean, p.UpS/unit.Length(root))), notebook.Val(fine(p.DownMean, p.DownS/unit.Length(root))), notebook.Val(fine(p.Lost, p.LostU))})
	}
	return t
}

func (r result) positions() notebook.Table {
	p := r.p
	t := notebook.Table{Name: "positioning", Title: "The same readings as ISO 230-2 counts them", Columns: []notebook.Column{notebook.Col("Quantity"), notebook.ColIn("Both sides", notebook.FineLengths), notebook.ColIn("Always up", notebook.FineLengths), notebook.ColIn("Always down", notebook.FineLengths)},
		Note: notebook.Plain("What one side wins over both: come to every dimension from the same side and the lost motion is gone from the work, though not from the machine.")}
	one := func(x unit.Length) notebook.Cell {
		return notebook.Val(notebook.Stepped(x, 0.1*um, notebook.FineLengths))
	}
	for _, row := range []struct {
		words          string
		both, up, down unit.Length
	}{{"repeatability R", p.Repeat, p.UpRepeat, p.DownRepeat}, {"systematic error E", p.Systematic, p.UpSystematic, p.DownSystematic}, {"accuracy A", p.Accuracy, p.UpAccuracy, p.DownAccuracy}} {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(row.words), one(row.both), one(row.up), one(row.down)})
	}
	return t
}

// charts adds the charts.
func (r result) charts(s *notebook.Sheet) error {
	n := len(r.p.Targets)
	x, up, down := make([]float64, n), plot.Series{Label: "coming up", Style: plot.Line}, plot.Series{Label: "coming down", Style: plot.Line}
	size := plot.Series{Label: "lost motion", Style: plot.Line}
	root := math.Sqrt(float64(r.runs))
	for i, p := range r.p.Targets {
		x[i] = float64(p.Place)
		up.Y, up.U = append(up.Y, float64(p.UpMean)), append(up.U, float64(p.UpS)/root)
		down.Y, down.U = append(down.Y, float64(p.DownMean)), append(down.U, float64(p.DownS)/root)
		size.Y, size.U = append(size.Y, float64(lost(p))), append(size.U, float64(p.LostU))
	}
	up.X, down.X, size.X = x, x, x
	along := plot.Axis{Label: "Place X", Show: notebook.Lengths}
	both, err := plot.XY{Name: "both-chart", Title: "Where the table stood, from either side", Caption: notebook.Plain("A common slope is the lead of the screw. The gap is the lost motion."),
		X: along, Y: plot.Axis{Label: "Stood less sent", Show: notebook.FineLengths}, Series: []plot.Series{up, down}}.Chart()
	if err != nil {
		return err
	}
	gap, err := plot.XY{Name: "lost-chart", Title: "Lost motion along the travel", Caption: notebook.Plain("Below the level line the nut can take it out; what stands above it is the screw's own wear."),
		X: along, Y: plot.Axis{Label: "Lost motion", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)}, Series: []plot.Series{size},
		Limits: []plot.Limit{{Label: "nut", Y: float64(lost(r.least))}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(both, gap)
	return nil
}

// harm adds what it does to the work and what people get wrong.
func (r result) harm(s *notebook.Sheet) error {
	chip, jump := r.in.Chip, lost(r.most)
	tone, text := notebook.Watch, notebook.Say("In a climb cut at X = {} a tooth that should take {} takes up to {}, once: its own feed and the lost motion together.", place(r.most.Place), micron(chip), micron(chip+jump))
	if jump > chip {
		tone, text = notebook.Stop, notebook.Say("No climb cuts: at X = {} a tooth that should take {} can take {}, its own feed and the lost motion together.", place(r.most.Place), micron(chip), micron(chip+jump))
	}
	s.Add(notebook.Verdict{Name: "climb", Tone: tone, Text: text},
		notebook.Verdict{Name: "holes", Tone: notebook.Note, Text: notebook.Say("Two holes of which one was come to from the left and one from the right stand {u} wrong apart. Both from the same side: {}, the scatter and the lead alone.",
			fine(lost(r.most), r.most.LostU), micron(max(r.p.UpAccuracy, r.p.DownAccuracy)))},
		notebook.Verdict{Name: "wrong-one", Tone: notebook.Note, Text: notebook.Say("By the reading at X = {} alone, the play is {}; at X = {} it is {}. A nut closed until nothing is felt at the second binds at the first by {}.",
			place(r.least.Place), micron(lost(r.least)), place(r.most.Place), micron(lost(r.most)), micron(lost(r.most)-lost(r.least)))})
	return nil
}
