package panel

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds a question with its computed answer.
func (a answer) addExercises(sheet *notebook.Sheet) error {
	place, err := placeExercise(2*unit.Ampere, 4*aDM2)
	if err != nil {
		return err
	}
	sheet.Add(place)
	return nil
}

// drills ask the exercise with new numbers.
func drills() []notebook.Drill {
	halfAmpere := 0.5 * unit.Ampere
	return []notebook.Drill{{Name: "exercise-place", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
		current := notebook.Pick[unit.Current](r, 1, 3, 4, 5, 6) * halfAmpere
		perAmpere := notebook.Steps(r, 5, 18, 0.1*aDM2) // within the panel at 1 A too, whatever the current
		return placeExercise(current, perAmpere*plating.CurrentDensity(max(1, float64(current))))
	}}}
}

// placeExercise asks where a current density stands on a panel.
func placeExercise(current unit.Current, j plating.CurrentDensity) (notebook.Exercise, error) {
	at, err := plating.Panel{Current: current}.Place(j)
	if err != nil {
		return notebook.Exercise{}, err
	}
	forgot, err := plating.Panel{Current: 1 * unit.Ampere}.Place(j)
	if err != nil {
		return notebook.Exercise{}, err
	}
	long := func(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths).WithDigits(3) }
	plain := func(x float64) notebook.Quantity { return notebook.Exact(x, notebook.Numbers).WithDigits(3) }
	perAmpere := float64(j/aDM2) / float64(current)
	return notebook.Exercise{Name: "exercise-place",
		Ask:    notebook.Say("Where does {} stand on a panel run at {}?", density(j), notebook.Exact(current, notebook.Currents).WithDigits(2)),
		Answer: long(at),
		Worked: []notebook.Text{
			notebook.Say("For each ampere that is {} A/dm². In the formula, 5.10 − 5.24 log L is {} when log L is {}.", plain(perAmpere), plain(perAmpere), plain((5.10-perAmpere)/5.24)),
			notebook.Say("So L is {}.", long(at)),
		},
		Wrong: []notebook.WrongTurn{{Value: long(forgot), Why: notebook.Plain("This forgets the current: every current density on the panel goes with it, and the formula is for 1 A.")}},
	}, nil
}
