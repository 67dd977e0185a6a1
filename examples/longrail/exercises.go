package longrail

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
	r, err := find(in)
	if err != nil {
		return err
	}
	quarter, err := r.table.Spot(0, in.Length/2, 0)
	if err != nil {
		return err
	}
	whole, err := r.table.Spot(0, in.Length, 0)
	if err != nil {
		return err
	}
	half := halfExercise(in.Length, in.Length/2, whole.Bow)
	half.Worked = append(half.Worked, notebook.Say("The map of the shop's table says {u}. Where it differs, the motion is no parabola: the hollow bends most at its bottom.", fine(quarter.Bow, quarter.BowU)))
	s.Add(half, jointExercise(in.DialU, in.Overlap, r.two.Piece))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-half", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			long := notebook.Steps(r, 4, 8, 120*mm)
			return halfExercise(long, long*notebook.Pick[unit.Length](r, 1, 1, 2, 3)/4, notebook.Either(r, notebook.Steps(r, 20, 60, 0.5*um))), nil
		}},
		{Name: "exercise-joint", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return jointExercise(notebook.Steps(r, 5, 20, 0.1*um), notebook.Steps(r, 5, 12, 10*mm), notebook.Steps(r, 12, 24, 20*mm)), nil
		}},
	}
}

func step(x unit.Length) notebook.Quantity {
	return notebook.Stepped(x, 0.1*um, notebook.FineLengths)
}

// halfExercise asks for the bow of a shorter rail where the motion is a
// parabola.
func halfExercise(long, short, bow unit.Length) notebook.Exercise {
	ratio := short / long
	share := notebook.Exact(ratio, notebook.Numbers).WithDigits(2)
	less := bow * ratio * ratio
	return notebook.Exercise{Name: "exercise-half",
		Ask:    notebook.Say("A rail of {} bows {}. If the motion is a parabola there, by how much does a rail of {} bow?", place(long), step(bow), place(short)),
		Answer: step(less),
		Worked: []notebook.Text{
			notebook.Say("A parabola leaves its chord by the square of the length: {} of the length, {} of the bow.", share, notebook.Exact(ratio*ratio, notebook.Numbers).WithDigits(2)),
			notebook.Say("Of {} that is {}.", step(bow), step(less)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: step(bow * ratio), Why: notebook.Plain("Bow does not go with the length but with its square.")},
			{Value: step(bow), Why: notebook.Plain("That is the bow of the whole rail.")},
		}}
}

// jointExercise asks how far the far end of a second piece may be out.
func jointExercise(dialU, over, piece unit.Length) notebook.Exercise {
	both := dialU * math.Sqrt2
	lift := both / over * piece
	return notebook.Exercise{Name: "exercise-joint",
		Ask: notebook.Say("The second piece is set by a dial that is sure to {} at each end of an overlap of {}. The piece is {} long. By how much may its far end be out, from the near end of the overlap?",
			step(dialU), place(over), place(piece)),
		Answer: step(lift),
		Worked: []notebook.Text{
			notebook.Say("The difference of the two readings is sure to √2 times {}.", step(dialU)),
			notebook.Say("Over {} that is an angle of {}.", place(over), notebook.Stepped(wear.Slope(both/over), 0.1e-6, notebook.Slopes)),
			notebook.Say("Times {} it is {}.", place(piece), step(lift)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: step(both), Why: notebook.Plain("That is at the end of the overlap. The piece is longer, and the error grows with it.")},
			{Value: step(lift / math.Sqrt2), Why: notebook.Plain("Both readings may be wrong, not one.")},
			{Value: step(lift * math.Sqrt2), Why: notebook.Plain("The two doubts were added plainly: they add by their squares.")},
		}}
}
