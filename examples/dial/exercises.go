package dial

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ squaring.Calibration) error {
	s.Add(leverExercise(20*squaring.Degree, 0.200*mm), gainExercise(0.985, 50*um, 220*mm))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-lever", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return leverExercise(notebook.Steps(r, 3, 9, 5*squaring.Degree), notebook.Steps(r, 5, 30, 0.010*mm)), nil
		}},
		{Name: "exercise-gain", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			gain := 1 + notebook.Either(r, notebook.Steps(r, 12, 50, 0.001))
			return gainExercise(gain, notebook.Steps(r, 6, 40, 2*um), notebook.Steps(r, 8, 16, 20*mm)), nil
		}},
	}
}

// leverExercise asks how far a surface moved under a slanted lever.
func leverExercise(angle unit.Angle, shown unit.Length) notebook.Exercise {
	lever := squaring.Indicator{StylusAngle: angle}
	return notebook.Exercise{Name: "exercise-lever",
		Ask:    notebook.Say("A lever stands at {} to the surface and shows {}. How far has the surface moved?", degrees(angle), height(shown)),
		Answer: height(lever.True(shown)),
		Worked: []notebook.Text{notebook.Say("What it shows times the cosine: {} times {}.", height(shown), number(math.Cos(float64(angle)), 4))},
		Wrong: []notebook.WrongTurn{
			{Value: height(lever.Shown(shown)), Why: notebook.Plain("Divided by the cosine.")},
			{Value: height(shown), Why: notebook.Plain("Taken as shown.")},
			{Value: height(shown * unit.Length(math.Sin(float64(angle)))), Why: notebook.Plain("The sine was taken: flat on the surface, at no angle, a lever shows the whole movement.")},
		}}
}

// gainExercise asks for the tilt that a dial of known gain tells of.
func gainExercise(gain float64, shown, across unit.Length) notebook.Exercise {
	dial := squaring.Indicator{Gain: gain}
	over := func(l unit.Length) notebook.Quantity { return slope(squaring.Slope(l / across)) }
	return notebook.Exercise{Name: "exercise-gain",
		Ask:    notebook.Say("A dial whose gain is {} shows {} across a ring of {}. What is the tilt?", notebook.Stepped(gain, 0.001, notebook.Numbers), height(shown), length(across)),
		Answer: over(dial.True(shown)),
		Worked: []notebook.Text{
			notebook.Say("The true difference is {} over {}: {}.", height(shown), notebook.Stepped(gain, 0.001, notebook.Numbers), height(dial.True(shown))),
			notebook.Say("Over {} that is {}.", length(across), over(dial.True(shown))),
		},
		Wrong: []notebook.WrongTurn{
			{Value: over(dial.Shown(shown)), Why: notebook.Plain("Multiplied by the gain.")},
			{Value: over(shown), Why: notebook.Plain("The gain was left out.")},
			{Value: over(2 * dial.True(shown)), Why: notebook.Plain("The radius of the ring was taken for its diameter.")},
		}}
}
