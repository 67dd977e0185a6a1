package bestplace

import (
	"math"
	"slices"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 1*squaring.Microradian, notebook.Slopes)
}
func fine(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}
func place(l unit.Length) notebook.Quantity { return notebook.Stepped(l, 1*mm, notebook.Lengths) }
func chance(p float64) notebook.Quantity    { return notebook.Stepped(p, 0.01, notebook.Percents) }

// fed says in words what is fed.
func fed(a unit.Angle) string {
	if math.Abs(math.Cos(float64(a))) > 0.5 {
		return byTable
	}
	return bySaddle
}

// setUpItems adds caution and drawing.
func setUpItems(s *notebook.Sheet, in Inputs, w worked) error {
	c := drawing.New("table", "The table from above",
		"The table from above with the part where it would lie now and where it lies best, and arrows for the way that the cutter goes over it.", 420, 196)
	from, to := in.reach()
	half := math.Max(math.Max(math.Abs(float64(from)), math.Abs(float64(to))), 0.05)
	scale := 180 / half
	at := func(u unit.Length, v float64) drawing.Point {
		return drawing.Point{X: 210 + float64(u)*scale, Y: 88 - v*scale}
	}
	c.TablePlan(drawing.Point{X: 20, Y: 40}, drawing.Point{X: 400, Y: 136})
	c.Line(drawing.Centre, drawing.Point{X: 210, Y: 32}, drawing.Point{X: 210, Y: 144})
	deep := math.Min(float64(in.Deep), 84/scale)
	part := func(style drawing.Style, u unit.Length) {
		c.Box(style, at(u-in.Long/2, -deep/2), at(u+in.Long/2, deep/2), 2)
	}
	part(drawing.Steel, w.now.U)
	part(drawing.Brass, w.set.U)
	if fed(w.set.Feed) == byTable {
		c.Arrow(drawing.Marked, at(w.set.U-in.Long/2, 0), at(w.set.U+in.Long/2, 0))
	} else {
		c.Arrow(drawing.Marked, at(w.set.U, -deep/2), at(w.set.U, deep/2))
	}
	c.Frame(drawing.Point{X: 24, Y: 186}, "u, plus to the right", "v")
	c.Words(drawing.Point{X: 400, Y: 24}, drawing.End, "column")
	c.Words(drawing.Point{X: 400, Y: 168}, drawing.End, "brass: best; steel: now")
	item, err := c.Item(notebook.Say("With the head set for it, the part's middle lies best at {}, fed "+fed(w.set.Feed)+"; now it would lie at {}. A table moved right brings places left of its middle under the spindle.", place(w.set.U), place(w.now.U)))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "vise", Text: notebook.Plain("A vise is heavy: move it with a hoist or with two people, and keep fingers from under it. Isolate the machine first, and take the cutter out before you lean over the table.")})
	return nil
}

// answerItems adds the decision and the choices in order.
func answerItems(s *notebook.Sheet, in Inputs, w worked) error {
	doubt := 2 * math.Hypot(w.set.ChanceU, w.stand.ChanceU)
	v := notebook.Verdict{Name: "decision", Tone: notebook.Good}
	switch {
	case w.now.Chance >= 0.95:
		v.Text = notebook.Say("Leave all as it is: the face keeps {} with a chance of {}. The best of all would be {}.", fine(in.Limit), chance(w.now.Chance), chance(w.set.Chance))
	case w.stand.Chance+doubt >= w.set.Chance && w.stand.Chance >= 0.5:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("Move the part, leave the head: middle at {}, fed "+fed(w.stand.Feed)+": the chance is {}; where it lies now it is {}. Setting the head anew gains nothing that can be told.", place(w.stand.U), chance(w.stand.Chance), chance(w.now.Chance))
	case w.set.Chance >= 0.5:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("Put its middle at {}, feed "+fed(w.set.Feed)+", and set the head until a sweep over that place shows {} side to side and {} front to back. The chance is then {}; as things stand it is {}.",
			place(w.set.U), slope(w.set.Shows.X), slope(w.set.Shows.Y), chance(w.set.Chance), chance(w.now.Chance))
	default:
		v.Tone = notebook.Stop
		v.Text = notebook.Say("Refuse it on this machine: even at its best, middle at {}, the face comes out at {u} and {} is allowed. The chance is {}.", place(w.set.U), notebook.Of(w.set.Zone, w.set.ZoneU, notebook.FineLengths), fine(in.Limit), chance(w.set.Chance))
	}
	figure := func(name, label string, c squaring.FaceChoice) notebook.Figure {
		return notebook.Figure{Name: name, Label: label, Value: notebook.Of(c.Chance, math.Max(c.ChanceU, 0.002), notebook.Percents),
			Note: notebook.Say("Middle at {}, fed "+fed(c.Feed)+": {u} wide on the mean, {} allowed.", place(c.U), notebook.Of(c.Zone, c.ZoneU, notebook.FineLengths), fine(in.Limit))}
	}
	s.Add(v, figure("now", "Chance as things stand", w.now), figure("stand", "Best chance, head left alone", w.stand), figure("set", "Best chance, head set for it", w.set))
	t := notebook.Table{Name: "best", Title: "The best eight ways",
		Columns: []notebook.Column{notebook.ColIn("Middle at u", notebook.Lengths), notebook.Col("Fed"), notebook.Col("Head"), notebook.ColIn("Sweep there shows, side", notebook.Slopes), notebook.ColIn("front to back", notebook.Slopes),
			notebook.ColIn("Zone", notebook.FineLengths), notebook.ColIn("Chance", notebook.Percents)},
		Note: notebook.Say("Of {} that were tried. The zone's uncertainty is what it scatters by from one setting to the next. Chances are counted over 400 draws: do not split hairs.", notebook.Whole(len(w.choices)))}
	for _, c := range w.choices[:min(8, len(w.choices))] {
		head := "as it stands"
		if c.Reset {
			head = "set"
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(c.U)), notebook.Str(fed(c.Feed)), notebook.Str(head), notebook.Val(slope(c.Shows.X)), notebook.Val(slope(c.Shows.Y)),
			notebook.Val(notebook.Of(c.Zone, c.ZoneU, notebook.FineLengths)), notebook.Val(chance(c.Chance))})
	}
	s.Add(t)
	return nil
}

// chartItems adds the zone over the places, for both feeds and both heads.
func chartItems(s *notebook.Sheet, in Inputs, w worked) error {
	sorted := append([]squaring.FaceChoice(nil), w.choices...)
	slices.SortStableFunc(sorted, func(a, b squaring.FaceChoice) int {
		switch {
		case a.U < b.U:
			return -1
		case a.U > b.U:
			return 1
		}
		return 0
	})
	series := map[string]*plot.Series{}
	for _, feed := range []string{byTable, bySaddle} {
		for _, head := range []string{"head as it stands", "head set"} {
			name := head + ", fed by table"
			if feed == bySaddle {
				name = head + ", fed by saddle"
			}
			series[feed+head] = &plot.Series{Label: name, Style: plot.Line}
		}
	}
	for _, c := range sorted {
		head := "head as it stands"
		if c.Reset {
			head = "head set"
		}
		one := series[fed(c.Feed)+head]
		one.X, one.Y, one.U = append(one.X, float64(c.U)), append(one.Y, float64(c.Zone)), append(one.U, float64(c.ZoneU))
	}
	var all []plot.Series
	for _, feed := range []string{byTable, bySaddle} {
		for _, head := range []string{"head as it stands", "head set"} {
			all = append(all, *series[feed+head])
		}
	}
	chart, err := plot.XY{Name: "zones", Title: "How wide the zone comes out, place by place",
		Caption: notebook.Say("The mean of what may happen, one standard deviation either way. Below {} the face is good.", fine(in.Limit)),
		X:       plot.Axis{Label: "Middle of the part u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Zone", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Series: all, Limits: []plot.Limit{{Label: "allowed", Y: float64(in.Limit)}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// faced returns the map of a choice, in so many points.
func faced(w worked, c squaring.FaceChoice, columns, rows int) (squaring.HeightMap, error) {
	m, f := w.job.Machine, w.job.Face
	m.Tilt, f.U, f.Feed = c.Tilt, c.U, c.Feed
	cut, err := m.Face(f, columns, rows)
	if err != nil {
		return squaring.HeightMap{}, err
	}
	return cut.Map()
}

// showItems adds the two faces as maps, and what a straightedge shows on them.
func showItems(s *notebook.Sheet, in Inputs, w worked) error {
	t := notebook.Table{Name: "shows", Title: "What you would find on the face",
		Columns: []notebook.Column{notebook.Col("Face"), notebook.ColIn("Straightedge along the feed", notebook.FineLengths), notebook.ColIn("Across the feed", notebook.FineLengths),
			notebook.ColIn("Flat within", notebook.FineLengths), notebook.ColIn("Parallel to the table within", notebook.FineLengths), notebook.ColIn("Cut by the front", notebook.Percents)},
		Note: notebook.Plain("The straightedge's gap is at its widest, laid through the middle. The parts that scatter are left out: this is the head exactly as set.")}
	for _, one := range []struct {
		name, item, title string
		choice            squaring.FaceChoice
	}{{"as things stand", "map-now", "The face as things stand", w.now}, {"at its best", "map-best", "The face at its best", w.set}} {
		m, err := faced(w, one.choice, 61, 41)
		if err != nil {
			return err
		}
		along, err := m.StraightedgeAlong(len(m.Across) / 2)
		if err != nil {
			return err
		}
		across, err := m.StraightedgeAcross(len(m.Along) / 2)
		if err != nil {
			return err
		}
		low, high := m.Range()
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(one.name), notebook.Val(fine(along.Gap)), notebook.Val(fine(across.Gap)), notebook.Val(fine(m.Flatness())), notebook.Val(fine(high - low)),
			notebook.Val(chance(float64(m.Leading) / float64(max(1, m.Leading+m.Trailing))))})
		strip, err := faceMap(one.item, one.title, w, one.choice)
		if err != nil {
			return err
		}
		s.Add(strip)
	}
	s.Add(t)
	return nil
}

// faceMap draws a face from above, its own slope taken out.
func faceMap(name, title string, w worked, c squaring.FaceChoice) (notebook.Chart, error) {
	m, err := faced(w, c, 16, 11)
	if err != nil {
		return notebook.Chart{}, err
	}
	m = m.Levelled()
	var along, across []float64
	for _, a := range m.Along {
		along = append(along, float64(a))
	}
	values := make([][]float64, len(m.Across))
	for row, a := range m.Across {
		across = append(across, float64(a))
		for column := range m.Along {
			values[row] = append(values[row], float64(m.Height(row, column)))
		}
	}
	return plot.Strip{Name: name, Title: title,
		Caption: notebook.Say("Height above the plane that lies best through the face; it spans {}. The feed, "+fed(c.Feed)+", goes to the right of the picture.", fine(m.Flatness())),
		X:       plot.Axis{Label: "Along the feed", Show: notebook.Lengths}, Xs: along, Y: plot.Axis{Label: "Across", Show: notebook.Lengths}, Ys: across,
		Value: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Values: values, Height: 320}.Chart()
}
