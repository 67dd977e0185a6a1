package sixfaces

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ way, _ []way) error {
	last, err := lastExercise(100 * squaring.Microradian)
	if err != nil {
		return err
	}
	parallel, err := parallelExercise(100*squaring.Microradian, 60*mm)
	if err != nil {
		return err
	}
	s.Add(last, parallel)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	lean := func(r *rand.Rand) squaring.Slope { return notebook.Steps(r, 4, 40, 10*squaring.Microradian) }
	return []notebook.Drill{
		{Name: "exercise-last", Draw: func(r *rand.Rand) (notebook.Exercise, error) { return lastExercise(lean(r)) }},
		{Name: "exercise-parallel", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return parallelExercise(lean(r), notebook.Steps(r, 5, 25, 5*mm))
		}},
	}
}

// worstOf returns the worst corner of a block squared by its first four faces.
func worstOf(seat squaring.Seat, lean squaring.Slope) (squaring.Slope, error) {
	block, err := squaring.SquareBlock(squaring.SixFaces(seat, false)[:4], squaring.ViseErrors{JawLean: squaring.MeasuredSlope{Slope: lean}})
	if err != nil {
		return 0, err
	}
	return squaring.Slope(math.Abs(float64(block.WorstSquare.Angle.Slope))), nil
}

// lastExercise asks for the last angle of a block.
func lastExercise(lean squaring.Slope) (notebook.Exercise, error) {
	last, err := worstOf(squaring.OnJaw, lean)
	return notebook.Exercise{Name: "exercise-last",
		Ask:    notebook.Say("Three angles of a block are each closed by {}. How far is the fourth open?", slope(lean)),
		Answer: slope(last),
		Worked: []notebook.Text{notebook.Plain("The four inside angles make a whole turn, whatever the vise does."), notebook.Say("So the last is open by all three together, {}.", slope(last))},
		Wrong: []notebook.WrongTurn{
			{Value: slope(lean), Why: notebook.Plain("Taken as alike: then the four would not make a whole turn.")},
			{Value: slope(0 * lean), Why: notebook.Plain("Taken to cancel in pairs.")},
			{Value: slope(4 * lean), Why: notebook.Plain("Four were added: three are closed, the fourth makes up for them.")},
		}}, err
}

// parallelExercise asks how far a parallel block is out of square.
func parallelExercise(lean squaring.Slope, size unit.Length) (notebook.Exercise, error) {
	worst, err := worstOf(squaring.OnBed, lean)
	out := worst.Rise(size)
	return notebook.Exercise{Name: "exercise-parallel",
		Ask:    notebook.Say("The jaw leans back by {}. The second of each pair of faces is cut flat on true parallels. The block is parallel; how far out of square is it over {}?", slope(lean), length(size)),
		Answer: height(out),
		Worked: []notebook.Text{notebook.Say("Every angle is out by the jaw's lean, open and closed in turn: {} over {}.", slope(worst), length(size))},
		Wrong: []notebook.WrongTurn{
			{Value: height(0 * mm), Why: notebook.Plain("Parallel was taken for square.")},
			{Value: height(2 * out), Why: notebook.Plain("That is what turning the block end for end on a square would show.")},
		}}, err
}
