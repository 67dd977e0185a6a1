package skimmedbar

import (
	"math/rand/v2"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	rows := actionshop.SkimmedBar()
	middle, err := middleExercise([3]actionshop.Thickness{rows[0], rows[len(rows)/2], rows[len(rows)-1]})
	if err != nil {
		return err
	}
	s.Add(middle, twiceExercise(-unit.Length(middle.Answer.SI)))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-middle", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			left := notebook.Steps(r, 19800, 20200, 1*um)
			taper, crown := notebook.Either(r, notebook.Steps(r, 2, 10, 2*um)), notebook.Either(r, notebook.Steps(r, 5, 25, 1*um))
			return middleExercise([3]actionshop.Thickness{{Place: -250 * mm, Thickness: left}, {Thickness: left + taper/2 + crown}, {Place: 250 * mm, Thickness: left + taper}})
		}},
		{Name: "exercise-twice", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return twiceExercise(notebook.Steps(r, 6, 60, 0.5*um)), nil
		}},
	}
}

func tenth(x unit.Length) notebook.Quantity {
	return notebook.Stepped(x, 0.1*um, notebook.FineLengths)
}

// middleExercise asks, of three thicknesses of a skimmed bar, how far the table
// departs in the middle.
func middleExercise(bar [3]actionshop.Thickness) (notebook.Exercise, error) {
	places := make([]wear.SkimmedPlace, len(bar))
	for i, r := range bar {
		places[i] = wear.SkimmedPlace{Position: r.Place, Thickness: r.Thickness}
	}
	motion, err := wear.MotionFromSkimmedBar(places, wear.Gauge{Step: actionshop.Micrometer})
	if err != nil {
		return notebook.Exercise{}, err
	}
	less, _, err := motion.Less(wear.EndPoints)
	if err != nil {
		return notebook.Exercise{}, err
	}
	thick := func(x unit.Length) notebook.Quantity {
		return notebook.Stepped(x, actionshop.Micrometer, notebook.Lengths)
	}
	middle := less.Points[1].Height
	where := notebook.Say("The middle is {} thicker, so the table runs {} low there.", tenth(-middle), tenth(-middle))
	if middle > 0 {
		where = notebook.Say("The middle is {} thinner, so the table runs {} high there.", tenth(middle), tenth(middle))
	}
	return notebook.Exercise{Name: "exercise-middle",
		Ask: notebook.Say("A bar skimmed along the table measures {} at its left end, {} in the middle and {} at its right end. How far does the table depart in the middle from the line through the ends?",
			thick(bar[0].Thickness), thick(bar[1].Thickness), thick(bar[2].Thickness)),
		Answer: fine(middle, less.U(1)),
		Worked: []notebook.Text{
			notebook.Say("The mean of the ends is {}.", notebook.Stepped((bar[0].Thickness+bar[2].Thickness)/2, 0.5*um, notebook.Lengths)),
			where,
		},
		Wrong: []notebook.WrongTurn{
			{Value: tenth(-middle), Why: notebook.Plain("The sign: a thick bar tells of a low table.")},
			{Value: tenth(bar[0].Thickness - bar[1].Thickness), Why: notebook.Plain("Only one end was used: the taper was left in.")},
		}}, nil
}

// twiceExercise asks for the gap between two crowned faces.
func twiceExercise(crown unit.Length) notebook.Exercise {
	return notebook.Exercise{Name: "exercise-twice",
		Ask:    notebook.Say("Two bars are skimmed like that and laid face to face, cut on cut. They touch in the middle and gape at the ends. If each has a crown of {}, how wide is the gap at the ends?", tenth(crown)),
		Answer: tenth(2 * crown),
		Worked: []notebook.Text{notebook.Plain("Each face falls away from the other by its own crown: the gap is the sum."), notebook.Say("Twice {} is {}: what you see is twice what each has.", tenth(crown), tenth(2*crown))},
		Wrong: []notebook.WrongTurn{
			{Value: tenth(crown), Why: notebook.Plain("The gap was taken for one bar's crown.")},
			{Value: tenth(0), Why: notebook.Plain("Equal faces do not fit unless one is turned inside out: crown on crown rocks.")},
		}}
}
