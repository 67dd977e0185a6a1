package scale

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func (a answer) addExercises(sheet *notebook.Sheet) error {
	two, err := twoStatesExercise(0.02, 0.03)
	if err != nil {
		return err
	}
	sheet.Add(oneCouponExercise(0.40*gram, 0.008*gram, 5.3*gram), two)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-one", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return oneCouponExercise(notebook.Steps(r, 10, 60, 0.02*gram), notebook.Steps(r, 4, 9, 0.001*gram), notebook.Steps(r, 30, 90, 0.1*gram)), nil
		}},
		{Name: "exercise-two", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return twoStatesExercise(notebook.Steps(r, 10, 35, 0.001), notebook.Pick(r, 0.02, 0.025, 0.03, 0.04, 0.05))
		}},
	}
}

// oneCouponExercise asks how well one coupon's gain gives the efficiency.
func oneCouponExercise(gain, u, coupon unit.Mass) notebook.Exercise {
	mass := func(m unit.Mass) notebook.Quantity { return notebook.Exact(m, notebook.Masses) }
	percent := func(x float64) notebook.Quantity { return notebook.Exact(x, notebook.Percents).WithDigits(2) }
	ratio := func(a, b unit.Mass) float64 { return float64(a / b) }
	return notebook.Exercise{Name: "exercise-one",
		Ask: notebook.Say("A coupon of {} gains {}; the scale's standard uncertainty is {}. How well does that give the efficiency, as a standard uncertainty of it?",
			mass(coupon).WithDigits(2), mass(gain), mass(u).WithDigits(1)),
		Answer: percent(ratio(u, gain)),
		Worked: []notebook.Text{notebook.Say("{} over {}.", mass(u).WithDigits(1), mass(gain))},
		Wrong: []notebook.WrongTurn{
			{Value: percent(ratio(0.01*gram, gain)), Why: notebook.Plain("This takes the step of the scale for its standard uncertainty.")},
			{Value: percent(ratio(u, coupon)), Why: notebook.Plain("This divides by the mass of the coupon. Only the gain is nickel.")},
		}}
}

// twoStatesExercise asks how many coupons show a fall of the efficiency, when
// one gives it with the relative standard uncertainty.
func twoStatesExercise(relative, fall float64) (notebook.Exercise, error) {
	q := plating.Question{Change: fall, Efficiency: 1, Coverage: 2, States: 1}
	known, err := q.RunsNeeded(relative)
	if err != nil {
		return notebook.Exercise{}, err
	}
	q.States = 2
	two, err := q.RunsNeeded(relative)
	if err != nil {
		return notebook.Exercise{}, err
	}
	q.Coverage = 1
	one, err := q.RunsNeeded(relative)
	percent := func(x float64) notebook.Quantity { return notebook.Exact(x, notebook.Percents).WithDigits(2) }
	return notebook.Exercise{Name: "exercise-two",
		Ask: notebook.Say("One coupon gives the efficiency with a standard uncertainty of {}. How many, run one by one and averaged, does it take in each of two states of the bath to see a fall of {} at two standard uncertainties?",
			percent(relative), percent(fall)),
		Answer: notebook.Whole(two),
		Worked: []notebook.Text{
			notebook.Say("The difference of two single coupons has a standard uncertainty of {}.", percent(relative*math.Sqrt2)),
			notebook.Say("Twice that must be at most {}; averaging n of each divides it by the root of n.", percent(fall)),
			notebook.Say("So n is {}, the next whole number up.", notebook.Whole(two)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Whole(known), Why: notebook.Plain("This compares one state with a value known without error. Both states are weighed.")},
			{Value: notebook.Whole(one), Why: notebook.Plain("This asks for one standard uncertainty only.")},
		}}, err
}
