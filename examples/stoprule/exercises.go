package stoprule

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
)

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ []weighed) error {
	for _, e := range []struct {
		name     string
		residual squaring.Slope
	}{{"exercise-go", 9 * squaring.Microradian}, {"exercise-stop", 4 * squaring.Microradian}} {
		exercise, err := tryExercise(e.name, e.residual, 8*squaring.Microradian)
		if err != nil {
			return err
		}
		s.Add(exercise)
	}
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	drill := func(name string, least, most int) notebook.Drill {
		return notebook.Drill{Name: name, Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			scatter := notebook.Steps(r, 5, 14, 1*squaring.Microradian)
			residual := notebook.Steps(r, least, most, scatter/10)
			return tryExercise(name, residual, scatter)
		}}
	}
	return []notebook.Drill{drill("exercise-go", 8, 20), drill("exercise-stop", 1, 6)}
}

// tryExercise asks for the chance that a new try ends nearer.
func tryExercise(name string, residual, scatter squaring.Slope) (notebook.Exercise, error) {
	chances, err := squaring.NextTry{Residual: residual, Scatter: scatter}.Chances()
	advice := "One more try is worth it."
	if chances.Better < 0.5 {
		advice = "Stop: a try is likelier to worsen it."
	}
	tenth := func(s squaring.Slope) notebook.Quantity {
		return notebook.Stepped(s, 0.1*squaring.Microradian, notebook.Slopes)
	}
	return notebook.Exercise{Name: name,
		Ask:    notebook.Say("{} stands, known well, and settings scatter by {}. With what chance does a new try end nearer?", tenth(residual), slope(scatter)),
		Answer: chance(chances.Better),
		Worked: []notebook.Text{
			notebook.Say("What stands is {} of the scatter.", notebook.Exact(float64(residual/scatter), notebook.Numbers)),
			notebook.Say("A normal spread lies within that many standard deviations with chance {}. "+advice, chance(chances.Better)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: chance(0.5), Why: notebook.Plain("Half and half, as if where it stands now did not matter.")},
			{Value: chance(1 - chances.Better), Why: notebook.Plain("That is the chance of ending farther.")},
			{Value: chance((1 + chances.Better) / 2), Why: notebook.Plain("Only one side was counted: a try can end too far either way.")},
		}}, err
}
