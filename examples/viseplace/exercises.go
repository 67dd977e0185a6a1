package viseplace

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet) error {
	in := Defaults()
	c, err := choose(in)
	if err != nil {
		return err
	}
	slides, err := slidingExercise(in.Saddle, in.Stroke, 250*mm)
	if err != nil {
		return err
	}
	s.Add(slides, leanExercise(in.Set, c.here.spot, 50*mm, in.Part))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-sliding", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			saddle, stroke := notebook.Steps(r, 15, 25, 20*mm), notebook.Steps(r, 10, 20, 10*mm)
			return slidingExercise(saddle, stroke, saddle/2+notebook.Steps(r, -4, 4, stroke/10))
		}},
		{Name: "exercise-lean", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			spot := wear.Spot{Lean: notebook.Either(r, notebook.Steps(r, 20, 120, wear.Slope(1e-6))), LeanU: notebook.Steps(r, 3, 8, wear.Slope(1e-6))}
			return leanExercise(notebook.Steps(r, -5, 5, 50*mm), spot, notebook.Steps(r, 4, 16, 5*mm), notebook.Steps(r, 8, 15, 20*mm)), nil
		}},
	}
}

// slidingExercise asks how far a place of the way slides on the saddle.
func slidingExercise(saddle, stroke, from unit.Length) (notebook.Exercise, error) {
	slid, err := wear.SlidingAt(saddle, wear.Placement{Place: 0, Stroke: stroke}, []unit.Length{from})
	if err != nil {
		return notebook.Exercise{}, err
	}
	return notebook.Exercise{Name: "exercise-sliding",
		Ask: notebook.Say("The saddle is {} long and the table travels {} about the middle of the work. How far does a place of the way {} from the middle of the work slide on the saddle in one stroke?",
			at(saddle), at(stroke), at(from)),
		Answer: at(slid[0]),
		Worked: []notebook.Text{
			notebook.Say("It is on the saddle while the saddle's middle is within {} of it.", at(saddle/2)),
			notebook.Say("The saddle's middle runs from −{} to {}; it comes that near from {} on.", at(stroke/2), at(stroke/2), at(from-saddle/2)),
			notebook.Say("That leaves {}. The middle of the work slides the whole {}.", at(slid[0]), at(stroke)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: at(stroke), Why: notebook.Plain("Only places that the saddle never leaves slide the whole stroke.")},
			{Value: at(0 * mm), Why: notebook.Plain("The work is short, but the saddle is long: the way wears far beyond the vise.")},
		}}, nil
}

// leanExercise asks for the step between passes on a table that leans against
// the head.
func leanExercise(set unit.Length, spot wear.Spot, over, part unit.Length) notebook.Exercise {
	step := func(l unit.Length) unit.Length { return unit.Length(math.Abs(float64(spot.Lean.Rise(l)))) }
	return notebook.Exercise{Name: "exercise-lean",
		Ask: notebook.Say("The head was set square at u = {} and the table leans {u} against it where the vise stands. A face {} long is milled along y in passes {} apart. How high is the step that the passes leave?",
			at(set), lean(spot), at(part), at(over)),
		Answer: notebook.Of(step(over), spot.LeanU.Rise(over), notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Plain("A lean across the feed tips the cutter's plane: each pass stands off the one before by lean times step-over."),
			notebook.Say("{} times {} is {}.", lean(spot), at(over), fine(step(over))),
			notebook.Plain("Set the head square where the vise stands and it is gone."),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(0), Why: notebook.Plain("The head is square, but to the table at another place.")},
			{Value: fine(step(part)), Why: notebook.Plain("That is over the length of the part, not from pass to pass.")},
		}}
}
