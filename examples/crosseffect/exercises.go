package crosseffect

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	e := w.effect
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	rate := e.XY * e.YX / (e.XX * e.YY)
	shown := w.plan.AfterFirst.X
	if w.plan.First == squaring.NodAxis {
		shown = w.plan.AfterFirst.Y
	}
	aim := map[squaring.Axis]squaring.Slope{squaring.SideAxis: in.AimX, squaring.NodAxis: in.AimY}[w.plan.First]
	s.Add(
		note("wrong-zero", notebook.Say("Set to zero the first axis is spoiled by the second by {}. Leave that standing and the second turn takes it away.", slope(shown-aim))),
		note("wrong-forever", notebook.Say("It nears square, but by the factor {} each round of two. Each round is two slackenings, two tightenings and two sweeps.", number(rate))),
		note("wrong-loose", notebook.Say("Tightening shifts both ways too, and that shift is in these readings. Mean and scatter of it by itself are the matter of another page; here one change scatters by {} and {}.", slope(e.Scatter.X), slope(e.Scatter.Y))),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	of := func(x float64) squaring.Slope { return squaring.Slope(x) * squaring.Microradian }
	cross, err := crossExercise(of(200), of(-44))
	if err != nil {
		return err
	}
	leave, err := leaveExercise(-0.2, of(150), of(-100))
	if err != nil {
		return err
	}
	s.Add(cross, leave)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	step := 10 * squaring.Microradian
	return []notebook.Drill{
		{Name: "exercise-cross", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return crossExercise(notebook.Either(r, notebook.Steps(r, 8, 30, step)), notebook.Either(r, notebook.Steps(r, 1, 7, step)))
		}},
		{Name: "exercise-leave", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return leaveExercise(notebook.Either(r, notebook.Steps(r, 1, 6, 0.05)), notebook.Either(r, notebook.Steps(r, 8, 30, step)), notebook.Either(r, notebook.Steps(r, 8, 30, step)))
		}},
	}
}

// crossExercise asks for a cross-effect from one turn.
func crossExercise(asked, other squaring.Slope) (notebook.Exercise, error) {
	effect := float64(other / asked)
	return notebook.Exercise{Name: "exercise-cross",
		Ask: notebook.Say("You ask {} of the side tilt and nothing of the nod. The sweep's front-to-back tilt goes from {} to {}. What does one unit of side tilt do to the nod?",
			slope(asked), slope(0), slope(other)),
		Answer: number(effect),
		Worked: []notebook.Text{notebook.Say("The nod changed by {} for {} asked: {}.", slope(other), slope(asked), number(effect))},
		Wrong: []notebook.WrongTurn{
			{Value: number(1 / effect), Why: notebook.Plain("Upside down: it is the change for each unit asked.")},
			{Value: number(-effect), Why: notebook.Plain("The sign was lost: it says which way the nod is dragged.")},
		}}, nil
}

// leaveExercise asks what to leave standing on the nod before the side tilt is
// turned, own effects taken as one and the nod's effect on the side as nothing.
func leaveExercise(drag float64, side, nod squaring.Slope) (notebook.Exercise, error) {
	e := squaring.CrossEffect{XX: 1, YY: 1, YX: drag}
	plan, err := e.Plan(squaring.Gradient{X: side, Y: nod}, squaring.Gradient{}, 5*squaring.Microradian)
	// The second turn, of the side tilt by minus what stands, drags the nod.
	leave := squaring.Slope(drag) * side
	return notebook.Exercise{Name: "exercise-leave",
		Ask: notebook.Say("The sweep shows {} side to side and {} front to back. Each unit of side tilt gives {} of nod, and the nod leaves the side tilt alone. You turn the nod first. To what figure do you set it, so that both are zero at the end?",
			slope(side), slope(nod), number(drag)),
		Answer: slope(leave),
		Worked: []notebook.Text{
			notebook.Say("The side tilt has to change by {}; that drags the nod by {}.", slope(-side), slope(squaring.Slope(drag)*-side)),
			notebook.Say("Leave the opposite standing: {}. In all the nod is asked to change by {}.", slope(leave), slope(plan.Turn.Y)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(0), Why: notebook.Plain("Set to zero it is spoiled by the turn that follows.")},
			{Value: slope(-leave), Why: notebook.Plain("The sign was not turned: that doubles the error.")},
			{Value: slope(squaring.Slope(drag) * nod), Why: notebook.Plain("The nod's own figure was taken: it is the side tilt's turn that drags.")},
		}}, err
}

// checkItems sets the map and the plan against exact arithmetic.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	trial := func(askedX, askedY, x, y float64) squaring.AxisTrial {
		of := func(v float64) squaring.Slope { return squaring.Slope(v) * squaring.Microradian }
		return squaring.AxisTrial{Asked: squaring.Gradient{X: of(askedX), Y: of(askedY)}, After: squaring.Gradient{X: of(x), Y: of(y)}}
	}
	e, err := squaring.FitCrossEffect([]squaring.AxisTrial{trial(100, 0, 90, -20), trial(0, 100, 10, 80)}, squaring.Gradient{X: 1e-6, Y: 1e-6})
	if err != nil {
		return err
	}
	p, err := e.Plan(squaring.Gradient{X: -200e-6, Y: -300e-6}, squaring.Gradient{}, 5*squaring.Microradian)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-cross", "cross-side-on-nod", e.YX),
		notebook.CheckRow("check-side", "cross-turn-side", p.Turn.X.Microradians()),
		notebook.CheckRow("check-nod", "cross-turn-nod", p.Turn.Y.Microradians()),
		notebook.CheckRow("check-rate", "cross-rate", e.XY*e.YX/(e.XX*e.YY)),
	)
	return nil
}
