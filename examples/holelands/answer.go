package holelands

import (
	"math"
	"sort"

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
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func doubtful(l, u unit.Length) notebook.Quantity {
	return notebook.Of(l, u, notebook.FineLengths)
}

// setUpItems adds the bodies and their signs.
func setUpItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	c := drawing.New("bodies", "Four bodies and their signs",
		"The mill from the front, with numbers on table, saddle, knee and spindle, and the axes' signs.", 420, 330)
	mill := c.MillFront(drawing.Point{X: 116, Y: 306}, 270)
	for i, p := range []drawing.Point{mill.Table, mill.Saddle, mill.Knee, mill.Quill} {
		c.Number(p, i+1)
	}
	for i, words := range []string{"1  table: X, right is plus", "2  saddle: Y, back is plus", "3  knee: Z, up is plus", "4  quill: out is plus"} {
		c.Note(drawing.Point{X: 226, Y: 60 + 22*float64(i)}, drawing.Start, words)
	}
	c.Frame(drawing.Point{X: 300, Y: 250}, "x", "z")
	item, err := c.Item(notebook.Plain("Table on saddle on knee: an error of the knee carries all three, one of the table only the work. The spindle stands on the column and shares none of them. Each slide has three small shifts and three small turns, and three angles say how square their lines of travel are: twenty-one."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "drill", Text: notebook.Plain("Clamp work before you drill it: a drill that breaks through grabs and spins it. Isolate the spindle before a hand, a pin or a gauge goes under it.")})
	return nil
}

// holeItems adds where the holes land.
func holeItems(s *notebook.Sheet, in Inputs, w worked) error {
	first := w.holes[0].off
	worst, at, worstU := unit.Length(0), 0, unit.Length(0)
	t := notebook.Table{Name: "holes-table", Title: "Where each hole lands, counted from the first",
		Columns: []notebook.Column{notebook.Col("Hole"), notebook.ColIn("Wanted, right", notebook.Lengths), notebook.ColIn("back", notebook.Lengths), notebook.ColIn("Lands too far right", notebook.FineLengths), notebook.ColIn("too far back", notebook.FineLengths),
			notebook.ColIn("Bottom lies right of its top", notebook.FineLengths), notebook.ColIn("behind it", notebook.FineLengths)},
		Note: notebook.Say("Holes {} deep by the quill. The uncertainty is that of squareness, knee and head as given, each by itself.", length(in.Depth))}
	wanted, landedAt := plot.Series{Label: "wanted", Style: plot.Dots}, plot.Series{Label: "landed, drawn too far", Style: plot.Dots}
	spread := unit.Length(0)
	for i, h := range w.holes {
		d := h.off.Minus(first)
		// The first hole's uncertainty is shared where the errors are: what is
		// left is that of the difference along the arms.
		ux, uy := unit.Length(math.Abs(float64(in.SkewU)*float64(h.hole.V-w.holes[0].hole.V))), unit.Length(0)
		if off := unit.Length(math.Hypot(float64(d.X), float64(d.Y))); off > worst {
			worst, at, worstU = off, i, max(ux, uy)
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(notebook.Whole(i + 1)), notebook.Val(length(h.hole.U)), notebook.Val(length(h.hole.V)), notebook.Val(doubtful(d.X, ux)), notebook.Val(fine(d.Y)),
			notebook.Val(fine(h.lean.X)), notebook.Val(fine(h.lean.Y))})
		spread = max(spread, max(h.hole.U-w.holes[0].hole.U, w.holes[0].hole.U-h.hole.U), max(h.hole.V-w.holes[0].hole.V, w.holes[0].hole.V-h.hole.V))
	}
	times := 1.0
	if worst > 0 {
		times = math.Max(1, math.Round(0.12*float64(spread)/float64(worst)/100)*100)
	}
	for _, h := range w.holes {
		d := h.off.Minus(first)
		wanted.X, wanted.Y = append(wanted.X, float64(h.hole.U)), append(wanted.Y, float64(h.hole.V))
		landedAt.X, landedAt.Y = append(landedAt.X, float64(h.hole.U)+times*float64(d.X)), append(landedAt.Y, float64(h.hole.V)+times*float64(d.Y))
	}
	v := notebook.Verdict{Name: "pattern", Tone: notebook.Good, Text: notebook.Say("Drill it: the worst hole, number {}, lands {u} from its place against the first. Twice that is within the circle of {}.", notebook.Whole(at+1), doubtful(worst, worstU), fine(in.Zone))}
	if 2*(worst+2*worstU) > in.Zone {
		v.Tone, v.Text = notebook.Watch, notebook.Say("Too near to say: hole {} lands {u} from its place against the first, and half of {} is allowed.", notebook.Whole(at+1), doubtful(worst, worstU), fine(in.Zone))
	}
	if 2*(worst-2*worstU) > in.Zone {
		v.Tone, v.Text = notebook.Stop, notebook.Say("Correct the coordinates first: hole {} lands {u} from its place against the first, and half of {} is allowed. Type in where it lands, with the sign turned.", notebook.Whole(at+1), doubtful(worst, worstU), fine(in.Zone))
	}
	chart, err := plot.XY{Name: "pattern-chart", Title: "The pattern as it lands",
		Caption: notebook.Say("Seen from above, errors drawn {} times too large, counted from the first hole.", notebook.Whole(int(times))),
		X:       plot.Axis{Label: "To the right", Show: notebook.Lengths}, Y: plot.Axis{Label: "To the back", Show: notebook.Lengths}, Series: []plot.Series{wanted, landedAt}}.Chart()
	if err != nil {
		return err
	}
	second := w.holes[0].second
	s.Add(v, t, chart,
		notebook.Figure{Name: "second-x", Label: "A second, longer tool lands to the right by", Value: fine(second.X), Note: notebook.Say("In the first hole: longer by {}, so the knee goes down as much. Knee and spindle then lean against one another over that length.", length(in.Longer))},
		notebook.Figure{Name: "second-y", Label: "And to the back by", Value: fine(second.Y)})
	return nil
}

// blame is one of the errors and what it does at a hole.
type blame struct {
	name  string
	moves squaring.Vector
}

// blames returns what each of the errors does to the tool in the work at one
// position against another, one at a time, the largest sideways first.
func blames(m squaring.Machine, at, from squaring.Position) ([]blame, error) {
	var list []blame
	add := func(name string, alone squaring.Machine) error {
		here, err := alone.Deviation(at)
		if err != nil {
			return err
		}
		there, err := alone.Deviation(from)
		list = append(list, blame{name, here.Tool.Minus(there.Tool)})
		return err
	}
	only := func(motion squaring.Motion, keep func(*squaring.AxisErrors, squaring.AxisErrors)) squaring.Motion {
		if motion == nil {
			return nil
		}
		return func(travel unit.Length) (squaring.AxisErrors, squaring.AxisErrors) {
			e, _ := motion(travel)
			var one squaring.AxisErrors
			keep(&one, e)
			return one, squaring.AxisErrors{}
		}
	}
	keeps := []func(*squaring.AxisErrors, squaring.AxisErrors){
		func(o *squaring.AxisErrors, e squaring.AxisErrors) { o.EX = e.EX }, func(o *squaring.AxisErrors, e squaring.AxisErrors) { o.EY = e.EY },
		func(o *squaring.AxisErrors, e squaring.AxisErrors) { o.EZ = e.EZ }, func(o *squaring.AxisErrors, e squaring.AxisErrors) { o.EA = e.EA },
		func(o *squaring.AxisErrors, e squaring.AxisErrors) { o.EB = e.EB }, func(o *squaring.AxisErrors, e squaring.AxisErrors) { o.EC = e.EC },
	}
	for _, axis := range "XYZ" {
		for k, keep := range keeps {
			alone := squaring.Machine{}
			switch axis {
			case 'X':
				alone.X = only(m.X, keep)
			case 'Y':
				alone.Y = only(m.Y, keep)
			default:
				alone.Z = only(m.Z, keep)
			}
			if err := add("E"+string("XYZABC"[k])+string(axis), alone); err != nil {
				return nil, err
			}
		}
	}
	for name, alone := range map[string]squaring.Machine{"C0Y": {C0Y: m.C0Y}, "B0Z": {B0Z: m.B0Z}, "A0Z": {A0Z: m.A0Z}, "spindle": {Tilt: m.Tilt}} {
		if err := add(name, alone); err != nil {
			return nil, err
		}
	}
	sort.Slice(list, func(i, j int) bool {
		a, b := math.Hypot(float64(list[i].moves.X), float64(list[i].moves.Y)), math.Hypot(float64(list[j].moves.X), float64(list[j].moves.Y))
		if a != b {
			return a > b
		}
		return list[i].name < list[j].name
	})
	return list, nil
}

// blameItems adds the twenty-one errors by their names, and which counts.
func blameItems(s *notebook.Sheet, in Inputs, w worked) error {
	first := w.holes[0].off
	far := 0
	for i, h := range w.holes {
		if h.off.Minus(first).Norm() > w.holes[far].off.Minus(first).Norm() {
			far = i
		}
	}
	at := position(in.Holes[far], in.Work, in.Quill)
	list, err := blames(w.machine, at, position(in.Holes[0], in.Work, in.Quill))
	if err != nil {
		return err
	}
	named, err := w.machine.NamedErrors(-at.X, -at.Y, -at.Z)
	if err != nil {
		return err
	}
	values := map[string]notebook.Quantity{"spindle": slope(w.machine.Tilt.Steepest())}
	for _, n := range named {
		if n.Turns() {
			values[n.Name] = notebook.Stepped(n.Angle, 1e-6, notebook.Slopes)
		} else {
			values[n.Name] = fine(n.Length)
		}
	}
	t := notebook.Table{Name: "blames", Title: "The errors by name, at the hole that is farthest out against the first",
		Columns: []notebook.Column{notebook.Col("Name"), notebook.Col("Value there"), notebook.ColIn("Moves the tool right", notebook.FineLengths), notebook.ColIn("back", notebook.FineLengths), notebook.ColIn("up", notebook.FineLengths)},
		Note:    notebook.Say("Hole {}, at the top of the work; what an error does at the first hole too is taken off. Names and signs of the values as ISO 230-1 has them, the tool against the work: E, the direction of the error, the slide. Those of saddle and knee that nobody here measures are nought.", notebook.Whole(far+1))}
	for _, b := range list {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(b.name), notebook.Val(values[b.name]), notebook.Val(fine(b.moves.X)), notebook.Val(fine(b.moves.Y)), notebook.Val(fine(b.moves.Z))})
	}
	sum, err := w.machine.Deviation(at)
	if err != nil {
		return err
	}
	exact := w.holes[far].off
	s.Add(t,
		notebook.Verdict{Name: "worst", Tone: notebook.Note, Text: notebook.Say("What puts hole {} out against the first comes most from "+list[0].name+": {} to the right and {} to the back. Next is "+list[1].name+". A lean of the head is the same at every hole.", notebook.Whole(far+1), fine(list[0].moves.X), fine(list[0].moves.Y))},
		notebook.Figure{Name: "order", Label: "The plain sum misses the exact chain by", Value: notebook.Exact(exact.Minus(sum.Tool).Norm(), notebook.FineLengths), Note: notebook.Plain("Products of two errors: small enough to forget.")})
	return nil
}

// gaugeItems adds what square and bore gauge show.
func gaugeItems(s *notebook.Sheet, in Inputs, w worked) error {
	wall, err := squaring.Wall{Tilt: squaring.Gradient{X: in.ShownX, Y: in.ShownY}, TiltU: squaring.Gradient{X: in.ShownU, Y: in.ShownU}, Outward: sides()[in.Faces], Depth: in.Wall}.Made()
	if err != nil {
		return notebook.InField("wall", err)
	}
	end := "at the foot; it touches at the top"
	if wall.AtTop {
		end = "at the top; it touches at the foot"
	}
	t := notebook.Table{Name: "gauges", Title: "What you would find on the bore",
		Columns: []notebook.Column{notebook.Col("Bored by"), notebook.ColIn("Gauge along x, less nominal", notebook.FineLengths), notebook.ColIn("Gauge along y, less nominal", notebook.FineLengths), notebook.ColIn("A pin leans right", notebook.Slopes), notebook.ColIn("back", notebook.Slopes)},
		Note:    notebook.Plain("No gauge inside the bore sees its lean. A pin in it and a square on the face do.")}
	for _, feed := range []squaring.HoleFeed{squaring.ByQuill, squaring.ByKnee} {
		h := squaring.Hole{Feed: feed, Tilt: squaring.Gradient{X: in.ShownX, Y: in.ShownY}, TiltU: squaring.Gradient{X: in.ShownU, Y: in.ShownU},
			KneeLean: squaring.Gradient{X: in.KneeX, Y: in.KneeY}, KneeLeanU: squaring.Gradient{X: in.KneeU, Y: in.KneeU}, Depth: in.Depth, Diameter: in.Bore}
		x, err := h.Across(0 * squaring.Degree)
		if err != nil {
			return notebook.InField("bore", err)
		}
		y, err := h.Across(90 * squaring.Degree)
		if err != nil {
			return notebook.InField("bore", err)
		}
		made, err := h.Made()
		if err != nil {
			return notebook.InField("bore", err)
		}
		small := func(l unit.Length) notebook.Cell {
			return notebook.Val(notebook.Stepped(l, 0.0001*um, notebook.FineLengths))
		}
		// The pin leans up the way that the hole leans down.
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(string(feed)), small(x - in.Bore), small(y - in.Bore), notebook.Val(slope(-made.Lean.X)), notebook.Val(slope(-made.Lean.Y))})
	}
	s.Add(notebook.Figure{Name: "wall-gap", Label: "A square on the table stands off the wall by", Value: notebook.Of(wall.Gap.Length, wall.Gap.Uncertainty, notebook.FineLengths),
		Note: notebook.Say("Over {}, "+end+". The wall is plane whatever the head does.", length(in.Wall))}, t)
	return nil
}
