package defects

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	corner, err := cornerExercise(1.75, 5*plating.AmperePerSquareDecimetre)
	if err != nil {
		return err
	}
	panel, err := panelExercise(2*unit.Ampere, 30*mm)
	if err != nil {
		return err
	}
	sheet.Add(corner, panel)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	halfAmpere := 0.5 * unit.Ampere
	return []notebook.Drill{
		{Name: "exercise-corner", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return cornerExercise(notebook.Steps(r, 25, 50, 0.05), notebook.Steps(r, 6, 16, 0.5*plating.AmperePerSquareDecimetre))
		}},
		{Name: "exercise-panel", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return panelExercise(notebook.Pick[unit.Current](r, 1, 3, 4, 5, 6)*halfAmpere, notebook.Steps(r, 2, 14, 5*mm))
		}},
	}
}

// cornerExercise asks for the mean that keeps a corner below its limit.
func cornerExercise(factor float64, limit plating.CurrentDensity) (notebook.Exercise, error) {
	most, err := plating.MostCurrentDensity(limit, factor)
	times := notebook.Stepped(factor, 0.01, notebook.Numbers)
	return notebook.Exercise{Name: "exercise-corner",
		Ask:    notebook.Say("A corner gets {} times the mean. At what mean does it stay below {}?", times, density(limit).WithDigits(2)),
		Answer: density(most),
		Worked: []notebook.Text{notebook.Say("{} over {}.", density(limit).WithDigits(2), times)},
		Wrong: []notebook.WrongTurn{
			{Value: density(limit), Why: notebook.Plain("This sets the mean to what the corner may have.")},
			{Value: density(limit * plating.CurrentDensity(factor)), Why: notebook.Plain("This multiplies.")},
		}}, err
}

// panelExercise asks what current density a place on a panel had.
func panelExercise(current unit.Current, place unit.Length) (notebook.Exercise, error) {
	at, err := plating.Panel{Current: current}.At(place)
	if err != nil {
		return notebook.Exercise{}, err
	}
	one, err := plating.Panel{Current: 1 * unit.Ampere}.At(place)
	amperes := notebook.Exact(current, notebook.Currents).WithDigits(2)
	return notebook.Exercise{Name: "exercise-panel",
		Ask:    notebook.Say("A panel run at {} turns good {} from its high end. What current density is that?", amperes, notebook.Exact(place, notebook.Lengths)),
		Answer: density(at),
		Worked: []notebook.Text{notebook.Say("At 1 A it is {} there; the current is {} times that.", density(one), notebook.Exact(float64(current), notebook.Numbers).WithDigits(2))},
		Wrong: []notebook.WrongTurn{
			{Value: density(one), Why: notebook.Plain("This forgets the current: the trade's formula is for one ampere.")},
			{Value: density(one * one / at), Why: notebook.Plain("This divides by the current: more amperes give more everywhere on the panel.")},
		}}, err
}
