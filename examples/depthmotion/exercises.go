package depthmotion

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	forth, err := forthExercise([2]unit.Length{20 * um, 52 * um}, [2]unit.Length{12 * um, 30 * um}, 190*mm)
	if err != nil {
		return err
	}
	s.Add(backExercise(-107e-6, 360*mm), forth)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-back", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return backExercise(notebook.Either(r, notebook.Steps(r, 20, 150, 1e-6)), notebook.Steps(r, 15, 25, 20*mm)), nil
		}},
		{Name: "exercise-forth", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			depth := func(least, most int) unit.Length { return notebook.Steps(r, least, most, 2*um) }
			rear := [2]unit.Length{depth(2, 20), depth(2, 20)}
			return forthExercise([2]unit.Length{rear[0] + depth(1, 8), rear[1] + depth(3, 15)}, rear, notebook.Steps(r, 15, 24, 10*mm))
		}},
	}
}

func tenth(x unit.Length) notebook.Quantity {
	return notebook.Stepped(x, 0.1*um, notebook.FineLengths)
}

func lean(x float64) notebook.Quantity { return notebook.Stepped(x, 1e-6, notebook.Slopes) }

// backExercise asks what a lean along the table says of the ways.
func backExercise(tilt float64, bearing unit.Length) notebook.Exercise {
	rise := unit.Length(-tilt * float64(bearing))
	low := "The right side is low, so the right place is the more worn one."
	if tilt > 0 {
		low = "The right side is high, so the right place is the less worn one: minus."
	}
	return notebook.Exercise{Name: "exercise-back",
		Ask: notebook.Say("At one travel the table leans by {} along, the lean of the machine taken off. It bears at two places {} apart. By how much more are the ways worn at the right one than at the left?",
			lean(tilt), place(bearing)),
		Answer: tenth(rise),
		Worked: []notebook.Text{
			notebook.Plain(low),
			notebook.Say("The difference is slope times bearing: {} over {} is {}.", lean(-tilt), place(bearing), tenth(rise)),
			notebook.Plain("How deep either place is, the slope does not say."),
		},
		Wrong: []notebook.WrongTurn{
			{Value: tenth(-rise), Why: notebook.Plain("The sign: where the table is low the ways are worn more.")},
			{Value: tenth(rise / 2), Why: notebook.Plain("Half: the slope is over the whole bearing, not over half of it.")},
		}}
}

// forthExercise asks for the lean across that four depths make: in front and at
// the rear, each at the left and the right bearing place. The front is the
// deeper one.
func forthExercise(front, rear [2]unit.Length, apart unit.Length) (notebook.Exercise, error) {
	ways := wear.WornWays{Places: []unit.Length{-180 * mm, 180 * mm}, Front: front[:], Rear: rear[:], Apart: apart, Bearing: 360 * mm}
	motion, err := wear.TwoPointMotion(ways)
	if err != nil {
		return notebook.Exercise{}, err
	}
	_, _, across, _, _ := motion(0)
	mean := func(d [2]unit.Length) unit.Length { return (d[0] + d[1]) / 2 }
	return notebook.Exercise{Name: "exercise-forth",
		Ask: notebook.Say("In front the ways are worn {} at the left bearing place and {} at the right one, at the rear {} and {}. The ways are {} apart. How does the table lean across, plus with the rear high?",
			tenth(front[0]), tenth(front[1]), tenth(rear[0]), tenth(rear[1]), place(apart)),
		Answer: lean(across),
		Worked: []notebook.Text{
			notebook.Say("In front the mean is {}, at the rear {}.", tenth(mean(front)), tenth(mean(rear))),
			notebook.Say("The front is deeper by {}, over {}: the rear stands high by {}.", tenth(mean(front)-mean(rear)), place(apart), lean(across)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: lean(-across), Why: notebook.Plain("The front is the deeper one, so the rear is high.")},
			{Value: lean(2 * across), Why: notebook.Plain("The means were not taken: the sums of two were set against one distance.")},
			{Value: lean(float64((front[1] - rear[1]) / apart)), Why: notebook.Plain("Only the right ends were taken; the table rests on all four.")},
		}}, nil
}
