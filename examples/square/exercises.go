package square

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ [2]result) error {
	lean, err := leanExercise(150*mm, -0.004*mm, -0.012*mm)
	if err != nil {
		return err
	}
	s.Add(lean, shiftExercise(-60*squaring.Microradian, 120*mm))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-lean", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			knee, square := notebook.Either(r, notebook.Steps(r, 2, 10, 0.002*mm)), notebook.Either(r, notebook.Steps(r, 1, 8, 0.002*mm))
			return leanExercise(notebook.Steps(r, 10, 20, 10*mm), knee+square, knee-square)
		}},
		{Name: "exercise-shift", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return shiftExercise(notebook.Either(r, notebook.Steps(r, 4, 24, 5*squaring.Microradian)), notebook.Steps(r, 6, 20, 10*mm)), nil
		}},
	}
}

// shown is a dial's reading.
func shown(l unit.Length) notebook.Quantity { return notebook.Stepped(l, 1*um, notebook.FineLengths) }

// leanExercise asks for the lean of the knee from a square turned both ways.
func leanExercise(at, marked, turned unit.Length) (notebook.Exercise, error) {
	answer, err := squaring.ReverseSquare([]squaring.EdgeReading{{}, {Height: at, Reading: marked}, {Turned: true}, {Height: at, Reading: turned, Turned: true}}, 0.002*mm)
	return notebook.Exercise{Name: "exercise-lean",
		Ask:    notebook.Say("Zeroed at the foot, the dial shows {} after a rise of {} with the square as marked, and {} with it turned. How much does the knee lean?", shown(marked), length(at), shown(turned)),
		Answer: measured(answer.Lean),
		Worked: []notebook.Text{
			notebook.Say("Half the sum is {}, over {}: {}.", shown((marked+turned)/2), length(at), slope(answer.Lean.Slope)),
			notebook.Say("Half the difference, {}, is the square: {}.", shown((marked-turned)/2), slope(answer.Square.Slope)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(squaring.Slope(marked / at)), Why: notebook.Plain("The square was trusted.")},
			{Value: slope(answer.Square.Slope), Why: notebook.Plain("The difference was taken: that is the square.")},
			{Value: slope(2 * answer.Lean.Slope), Why: notebook.Plain("The sum was not halved.")},
		}}, err
}

// shiftExercise asks how far a raised knee shifts a hole under the tool.
func shiftExercise(lean squaring.Slope, rise unit.Length) notebook.Exercise {
	tool := -lean.Rise(rise)
	where := notebook.Say("The table goes {} to the front as it rises, so the tool stands as far to the back.", height(tool))
	if tool < 0 {
		where = notebook.Say("The table goes {} to the back as it rises, so the tool stands as far to the front: minus.", height(-tool))
	}
	return notebook.Exercise{Name: "exercise-shift",
		Ask:    notebook.Say("The knee leans {} along y. A hole is drilled, the knee raised by {}, and the hole reamed. How far to the back of the hole does the reamer stand?", slope(lean), length(rise)),
		Answer: height(tool),
		Worked: []notebook.Text{where},
		Wrong:  []notebook.WrongTurn{{Value: height(-tool), Why: notebook.Plain("That is how the table moves; the tool goes the other way over the work.")}}}
}
