package sweep

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises on the shop's readings.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ squaring.Sweep) error {
	in := Defaults()
	two, err := twoReadingExercise(in.Radius, 0*squaring.Thou, 0.75*squaring.Thou)
	if err != nil {
		return err
	}
	s.Add(two, limitExercise(in.Radius, 25*um))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	radius := func(r *rand.Rand) unit.Length { return notebook.Steps(r, 12, 30, 5*mm) }
	return []notebook.Drill{
		{Name: "exercise-two", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			left := notebook.Steps(r, -8, 8, 0.25*squaring.Thou)
			return twoReadingExercise(radius(r), left+notebook.Either(r, notebook.Steps(r, 2, 10, 0.25*squaring.Thou)), left)
		}},
		{Name: "exercise-limit", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return limitExercise(radius(r), notebook.Steps(r, 2, 10, 5*um)), nil
		}},
	}
}

// twoReadingExercise asks for the tilt that two readings of a sweep tell of.
func twoReadingExercise(radius, right, left unit.Length) (notebook.Exercise, error) {
	division := Defaults().Division
	step := squaring.Indicator{Division: division}.Resolution()
	shown := func(l unit.Length) notebook.Quantity { return notebook.Stepped(l, step, notebook.FineLengths) }
	across := 2 * radius
	rounding := squaring.Indicator{Division: division}.RoundingU() * unit.Length(math.Sqrt2)
	answer, err := squaring.MeasureSlope(right-left, rounding, across, 0*mm)
	return notebook.Exercise{Name: "exercise-two",
		Ask: notebook.Say("With the table run {} to the right, a sweep of {} radius shows {} at the right and {} at the left, read to {}, and closes. What is the tilt in x from these two readings alone, and how sure is it?",
			length(150*mm), length(radius), shown(right), shown(left), shown(step)),
		Answer: notebook.Of(answer.Slope, answer.Uncertainty, notebook.Slopes),
		Worked: []notebook.Text{
			notebook.Say("Right less left is {}, over the diameter of {}.", shown(right-left), length(across)),
			notebook.Say("Each reading is rounded to {}: divided by √12 that is {} of standard uncertainty, and for a difference of two √2 times as much, {}.",
				shown(step), height(rounding/unit.Length(math.Sqrt2)), height(rounding)),
			notebook.Plain("All eight readings of that sweep do better: they halve this part of the doubt."),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(2 * answer.Slope), Why: notebook.Plain("The radius was taken instead of the diameter.")},
			{Value: slope(answer.Slope / 2), Why: notebook.Plain("The difference was halved: half of it belongs to the radius, all of it to the diameter.")},
			{Value: slope(-answer.Slope), Why: notebook.Plain("The sign was turned: the dial reads more where the table is higher.")},
		}}, err
}

// limitExercise asks how much of a limit over 300 mm a sweep may show.
func limitExercise(radius, rise unit.Length) notebook.Exercise {
	limit := squaring.Slope(rise/mm) * squaring.MillimetrePer300
	across := limit.Rise(2 * radius)
	return notebook.Exercise{Name: "exercise-limit",
		Ask: notebook.Say("A drawing allows {}. How far may right and left differ on a sweep of {} radius, the dial being perfect?",
			notebook.Exact(limit, spans), length(radius)),
		Answer: height(across),
		Worked: []notebook.Text{
			notebook.Say("{} over 300 mm is a slope of {}.", notebook.Exact(limit.Per300(), notebook.Lengths), slope(limit)),
			notebook.Say("Over the diameter of {} that is {}.", length(2*radius), height(across)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: height(limit.Per300()), Why: notebook.Plain("The figure for 300 mm was used on another circle.")},
			{Value: height(limit.Rise(radius)), Why: notebook.Plain("The radius was taken instead of the diameter.")},
		}}
}
