package sweep

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// turnItems adds which way and how far to turn the head.
func turnItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	turn, err := squaring.TurnHead(sweep, squaring.HeadOptions{PivotY: in.PivotBehind})
	if err != nil {
		return err
	}
	right, rear, left, front := turn.Targets[0], turn.Targets[1], turn.Targets[2], turn.Targets[3]
	s.Add(
		turnVerdict("turn-nod", "Nod the head", turn.Nod, "rear", "front", rear.Now, rear.AfterNod, front.Now),
		turnVerdict("turn-side", "Turn the head", turn.Side, "right", "left", right.AfterNod, right.AfterBoth, left.AfterNod),
		targetTable(in, turn),
	)
	return nil
}

// turnVerdict says in a sentence how to turn one axis: the way, the amount, and
// what the dial goes from and to while it stands at one place.
func turnVerdict(name, do string, turn squaring.AxisTurn, here, opposite string, now, then, across unit.Length) notebook.Verdict {
	if turn.Way == squaring.NoTurn {
		return notebook.Verdict{Name: name, Tone: notebook.Good, Text: notebook.Say(
			do+"? No: between "+here+" and "+opposite+" the readings cannot tell it from square, {u}. There is nothing to turn by.",
			notebook.Of(-turn.Turn, turn.Uncertainty, notebook.Slopes))}
	}
	size := squaring.Slope(math.Abs(float64(turn.Turn)))
	return notebook.Verdict{Name: name, Tone: notebook.Note, Text: notebook.Say(
		do+" "+string(turn.Way)+", by {u}. With the dial standing at the "+here+" it shows {} now and must come to {}. Then the "+opposite+", which shows {}, comes to the same.",
		notebook.Of(size, turn.Uncertainty, notebook.Slopes), height(now), height(then), height(across))}
}

// targetTable lists what the dial shows now and will show.
func targetTable(in Inputs, turn squaring.HeadTurn) notebook.Table {
	t := notebook.Table{Name: "targets", Title: "What the dial shows, counted from the sweep's own zero",
		Columns: []notebook.Column{notebook.Col("Place"), notebook.ColIn("Now", notebook.FineLengths),
			notebook.ColIn("Nod right", notebook.FineLengths), notebook.ColIn("Side right too", notebook.FineLengths)},
		Note: notebook.Say("From the fitted plane, in the dial's own units, with the nod pivot {} behind the spindle. When both are right all four are alike.", length(in.PivotBehind)),
	}
	for _, target := range turn.Targets {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(target.Place), notebook.Val(height(target.Now)),
			notebook.Val(height(target.AfterNod)), notebook.Val(height(target.AfterBoth))})
	}
	return t
}

// workItems adds what the tilt does to a face and to a hole.
func workItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	along, err := in.face(sweep, 0)
	if err != nil {
		return notebook.InField("width", err)
	}
	hole, err := squaring.Hole{Feed: squaring.ByQuill, Tilt: sweep.Tilt, TiltU: sweep.TiltU, Depth: in.Depth, Diameter: 40 * mm}.Made()
	if err != nil {
		return notebook.InField("depth", err)
	}
	table, err := faceTable(in, sweep)
	if err != nil {
		return err
	}
	s.Add(
		notebook.Figure{Name: "dish", Label: "Hollow of one pass along x", Value: notebook.Of(along.Dish, along.DishU, notebook.FineLengths),
			Note: notebook.Say("A cutter of {} over a width of {}, fed along x.", length(in.Cutter), length(in.Width))},
		notebook.Figure{Name: "step", Label: "Step between passes along x", Value: notebook.Of(along.Step, along.StepU, notebook.FineLengths),
			Note: notebook.Say("Passes {} apart.", length(in.StepOver))},
		table,
		notebook.Figure{Name: "hole", Label: "Lean of a hole by quill", Value: notebook.Of(hole.Shift, hole.ShiftU, notebook.FineLengths),
			Note: notebook.Say("Over {} the bottom lies {} to the right of the top and {} to the back of it.", length(in.Depth), height(hole.ShiftX), height(hole.ShiftY))},
	)
	return nil
}

// face is the face cut with the cutter going toward the azimuth.
func (in Inputs) face(sweep squaring.Sweep, feed unit.Angle) (squaring.FacedSurface, error) {
	return squaring.Facing{Tilt: sweep.Tilt, TiltU: sweep.TiltU, Feed: feed, Diameter: in.Cutter, Width: in.Width, StepOver: in.StepOver}.Surface()
}

// faceTable lists the four ways of feeding.
func faceTable(in Inputs, sweep squaring.Sweep) (notebook.Table, error) {
	t := notebook.Table{Name: "faces", Title: "What is left, by the way of feeding",
		Columns: []notebook.Column{notebook.Col("Cutter goes"), notebook.ColIn("Hollow", notebook.FineLengths), notebook.ColIn("Step", notebook.FineLengths),
			notebook.ColIn("High side clears by", notebook.FineLengths), notebook.Col("The surface is made by")},
		Note: notebook.Plain("The hollow comes from the tilt along the feed, the step from the tilt across it. The sweep sees the table's top; where the table's travel runs at another slope, that slope counts.")}
	for i, way := range [4]string{"right", "to the back", "left", "to the front"} {
		face, err := in.face(sweep, unit.Angle(i)*90*squaring.Degree)
		if err != nil {
			return t, err
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(way), notebook.Val(notebook.Of(face.Dish, face.DishU, notebook.FineLengths)),
			notebook.Val(notebook.Of(face.Step, face.StepU, notebook.FineLengths)), notebook.Val(height(face.HeelLift)), notebook.Str(string(face.Cuts))})
	}
	return t, nil
}
