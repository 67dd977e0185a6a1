package holelands

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	steep := squaring.Gradient{X: in.ShownX, Y: in.ShownY}.Steepest()
	oval, err := squaring.Hole{Feed: squaring.ByKnee, Tilt: squaring.Gradient{X: steep}, Diameter: in.Bore}.Made()
	if err != nil {
		return notebook.InField("bore", err)
	}
	arm := unit.Length(0)
	for _, st := range in.Ways {
		arm = max(arm, unit.Length(math.Abs(float64(st.Along))))
	}
	high := in.Work + 100*mm
	s.Add(
		note("wrong-scale", notebook.Say("A readout tells what the slide did, not where the work went. A slope of the table of {} carries a point {} above the table sideways by {}, and no scale on the slide sees it.", slope(squaring.Slope(arm)), length(high), fine(arm*high))),
		note("wrong-both", notebook.Say("The head's lean does not move a hole at its top, when every hole is drilled with the same quill: it is the same everywhere. Between two tools whose lengths differ by {} it does, by {}.", length(in.Longer), fine(in.Longer*unit.Length(steep)))),
		note("wrong-oval", notebook.Say("A bore gauge finds nothing of it: {} out of round for a lean of {}, while the bore leans by {} over its depth.", notebook.Stepped(oval.Ovality, 0.0001*um, notebook.FineLengths), slope(steep), fine(in.Depth*unit.Length(steep)))),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	of := squaring.Microradian
	skew, err := skewExercise(35*of, 160*mm)
	if err != nil {
		return err
	}
	tool, err := toolExercise(-60*of, 200*of, 80*mm)
	if err != nil {
		return err
	}
	s.Add(skew, tool)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	step := 10 * squaring.Microradian
	return []notebook.Drill{
		{Name: "exercise-skew", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return skewExercise(notebook.Either(r, notebook.Steps(r, 2, 20, 5*squaring.Microradian)), notebook.Steps(r, 4, 25, 10*mm))
		}},
		{Name: "exercise-tool", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return toolExercise(notebook.Either(r, notebook.Steps(r, 2, 12, step)), notebook.Either(r, notebook.Steps(r, 3, 30, step)), notebook.Steps(r, 4, 15, 10*mm))
		}},
	}
}

// skewExercise asks where a hole moved to the back lands on skew travels.
func skewExercise(skew squaring.Slope, back unit.Length) (notebook.Exercise, error) {
	// The saddle goes to the front for the hole to be farther back.
	d, err := squaring.Machine{C0Y: unit.Angle(skew)}.Deviation(squaring.Position{Y: -back})
	return notebook.Exercise{Name: "exercise-skew",
		Ask:    notebook.Say("The travels are out of square by {}: plus when a hole moved to the back drifts to the left. A hole is drilled {} behind another on the dials. How far to the right of its place does it land?", slope(skew), length(back)),
		Answer: fine(d.Tool.X),
		Worked: []notebook.Text{notebook.Say("Slope times way, to the left: {}.", fine(d.Tool.X))},
		Wrong: []notebook.WrongTurn{
			{Value: fine(-d.Tool.X), Why: notebook.Plain("The sign was not turned: plus drifts to the left.")},
			{Value: fine(d.Tool.X / 2), Why: notebook.Plain("Halved: the two travels do not share it, one is the datum.")},
			{Value: fine(0 * mm), Why: notebook.Plain("The dials are true; it is their directions that are not square.")},
		}}, err
}

// toolExercise asks by how much a longer tool misses, in the direction of x.
func toolExercise(knee, shown squaring.Slope, longer unit.Length) (notebook.Exercise, error) {
	m := squaring.Machine{B0Z: unit.Angle(knee), Tilt: squaring.Gradient{X: -shown}}
	short, err := m.Deviation(squaring.Position{})
	if err != nil {
		return notebook.Exercise{}, err
	}
	long, err := m.Deviation(squaring.Position{Z: -longer, Quill: longer})
	miss := long.Tool.X - short.Tool.X
	return notebook.Exercise{Name: "exercise-tool",
		Ask: notebook.Say("The knee leans {} to the right as it rises, and the sweep shows {} side to side, table less spindle. A second tool is {} longer, so the knee goes down as much. How far to the right of the first does it land?",
			slope(knee), slope(shown), length(longer)),
		Answer: fine(miss),
		Worked: []notebook.Text{
			notebook.Say("The spindle's axis carries the tip by minus what the sweep shows times the length: {}.", fine(-longer*unit.Length(shown))),
			notebook.Say("Going down, the knee carries the work by minus its lean times the way, so the tool lands the other way: {}. Together {}.", fine(longer*unit.Length(knee)), fine(miss)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(-longer * unit.Length(shown)), Why: notebook.Plain("The knee was forgotten.")},
			{Value: fine(longer * unit.Length(knee)), Why: notebook.Plain("The head was forgotten.")},
			{Value: fine(-longer * unit.Length(shown+knee)), Why: notebook.Plain("The sign of the knee: it goes down, not up.")},
		}}, err
}

// checkItems sets the chain of bodies against hand-worked cases.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	at := squaring.Position{X: 250 * mm, Y: -100 * mm, Z: 150 * mm}
	point := squaring.Vector{X: 40 * mm, Y: 60 * mm, Z: 80 * mm}
	slide := func(x, y, z, a, b, c float64) squaring.Motion {
		return func(unit.Length) (squaring.AxisErrors, squaring.AxisErrors) {
			u := unit.Angle(1e-6)
			return squaring.AxisErrors{EX: unit.Length(x) * um, EY: unit.Length(y) * um, EZ: unit.Length(z) * um, EA: unit.Angle(a) * u, EB: unit.Angle(b) * u, EC: unit.Angle(c) * u}, squaring.AxisErrors{}
		}
	}
	full := squaring.Machine{X: slide(4, -3, 5, 10, -20, 15), Y: slide(2, 6, -4, -12, 8, 25), Z: slide(-1, 3, 7, 5, 18, -9), C0Y: 30e-6, B0Z: -40e-6, A0Z: 20e-6}
	first, _, err := full.WorkError(at, point)
	if err != nil {
		return err
	}
	exact, err := full.WorkErrorExact(at, point)
	if err != nil {
		return err
	}
	skew, _, err := squaring.Machine{C0Y: 50e-6}.WorkError(squaring.Position{X: 300 * mm, Y: 120 * mm}, squaring.Vector{Z: 50 * mm})
	if err != nil {
		return err
	}
	arm, _, err := squaring.Machine{X: slide(0, 0, -8, 0, 40, 0)}.WorkError(squaring.Position{X: 200 * mm}, squaring.Vector{Z: 100 * mm})
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-x", "body-x", float64(first.X/um)),
		notebook.CheckRow("check-y", "body-y", float64(first.Y/um)),
		notebook.CheckRow("check-z", "body-z", float64(first.Z/um)),
		notebook.CheckRow("check-exact", "body-exact-z", float64(exact.Z/um)),
		notebook.CheckRow("check-skew", "body-skew", float64(skew.X/um)),
		notebook.CheckRow("check-arm", "body-arm", float64(arm.X/um)),
	)
	return nil
}
