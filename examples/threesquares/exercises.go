package threesquares

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	hidden := 50 * squaring.Microradian
	pair := w.squares.Errors[0].Slope + w.squares.Errors[1].Slope
	mean := (w.squares.Errors[0].Slope + w.squares.Errors[1].Slope + w.squares.Errors[2].Slope) / 3
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-agree", notebook.Say("Blade to blade a square {} too open and one {} too tight show no light at all. Your first and second show {} together, and that does not tell how it is shared.", slope(hidden), slope(hidden), slope(pair))),
		note("wrong-mean", notebook.Say("Makers err the same way: the mean of your three is {}, not nought. Three comparisons give each error by itself, so no mean is needed.", slope(mean))),
		note("wrong-light", notebook.Say("Light through a gap of {} is easily seen, and over {} that is {}. See which end it is at, or you have the size and not the sign.", fine(2*um), length(in.Height), slope(squaring.Slope(2*um/in.Height)))),
		note("wrong-turn", notebook.Say("A block whose corners all read alike is true, and the reading is the square's own: here the corners read {} on the mean, of which the block has nothing.", slope(-turned(w.polygon.Reference).Slope))),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	three, err := threeExercise(8*um, 2*um, -4*um, 200*mm)
	if err != nil {
		return err
	}
	corners, err := cornerExercise([4]unit.Length{4 * um, -2 * um, 3 * um, -1 * um}, 100*mm)
	if err != nil {
		return err
	}
	s.Add(three, corners)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-three", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return threeExercise(notebook.Steps(r, 3, 12, 1*um), notebook.Either(r, notebook.Steps(r, 1, 8, 1*um)), notebook.Either(r, notebook.Steps(r, 1, 8, 1*um)), notebook.Pick(r, 100*mm, 150*mm, 200*mm, 250*mm))
		}},
		{Name: "exercise-corners", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			var c [4]unit.Length
			for i := range c {
				c[i] = notebook.Steps(r, -6, 6, 1*um)
			}
			return cornerExercise(c, notebook.Pick(r, 50*mm, 60*mm, 80*mm, 100*mm))
		}},
	}
}

// threeExercise asks for the first of three squares.
func threeExercise(firstSecond, secondThird, firstThird, high unit.Length) (notebook.Exercise, error) {
	over := func(l unit.Length) []squaring.Slope { return []squaring.Slope{squaring.Slope(l / high)} }
	w, err := squaring.CompareSquares(over(firstSecond), over(secondThird), over(firstThird), squaring.Slope(1*um/high))
	if err != nil {
		return notebook.Exercise{}, err
	}
	error1 := w.Errors[0].Slope
	return notebook.Exercise{Name: "exercise-three",
		Ask: notebook.Say("Blade to blade over {}, the first and second square stand open at the top by {}, the second and third by {}, the first and third by {}. (Minus: open at the foot.) By how much is the first out?",
			length(high), fine(firstSecond), fine(secondThird), fine(firstThird)),
		Answer: slope(error1),
		Worked: []notebook.Text{
			notebook.Say("First and second plus first and third is twice the first plus the other two: {}.", fine(firstSecond+firstThird)),
			notebook.Say("Take the other two off and halve: {} over {}, {}.", fine(error1.Rise(high)), length(high), slope(error1)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(squaring.Slope(firstSecond / 2 / high)), Why: notebook.Plain("One comparison was halved: that shares the error as if both squares were out alike.")},
			{Value: slope(2 * error1), Why: notebook.Plain("It was not halved: both comparisons hold the first square.")},
			{Value: slope(squaring.Slope((firstSecond + firstThird + secondThird) / 2 / high)), Why: notebook.Plain("The pair without the first was added, not taken off.")},
		}}, nil
}

// cornerExercise asks for the error of the square that read four corners.
func cornerExercise(readings [4]unit.Length, side unit.Length) (notebook.Exercise, error) {
	var round []unit.Angle
	sum := 0 * um
	for _, r := range readings {
		round = append(round, unit.Angle(r/side))
		sum += r
	}
	p, err := squaring.ClosePolygon([][]unit.Angle{round}, unit.Angle(1*um/side))
	if err != nil {
		return notebook.Exercise{}, err
	}
	reference := squaring.Slope(p.Reference.Angle)
	return notebook.Exercise{Name: "exercise-corners",
		Ask: notebook.Say("The four corners of a block, read over {} with one square, are open by {}, {}, {} and {} against it. By how much is the square more open than a right angle?",
			length(side), fine(readings[0]), fine(readings[1]), fine(readings[2]), fine(readings[3])),
		Answer: slope(reference),
		Worked: []notebook.Text{
			notebook.Say("A block's own corners sum to nothing, so the mean reading, {}, is the square's with the sign turned.", fine(sum/4)),
			notebook.Say("Over {} that is {}.", length(side), slope(reference)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(-reference), Why: notebook.Plain("The sign was not turned: a square that is too open makes corners look too tight.")},
			{Value: slope(4 * reference), Why: notebook.Plain("The sum was taken, not the mean: each of the four readings holds the square once.")},
			{Value: slope(squaring.Slope(readings[0] / side)), Why: notebook.Plain("One corner was taken for the square.")},
		}}, nil
}

// checkItems sets closure and comparison against exact arithmetic.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	arcsec := func(a float64) unit.Angle { return unit.Angle(a) * squaring.Arcsecond }
	four, err := squaring.ClosePolygon([][]unit.Angle{{arcsec(4.2), arcsec(-1.6), arcsec(3.0), arcsec(-2.4)}}, arcsec(0.5))
	if err != nil {
		return err
	}
	of := func(a float64) []squaring.Slope { return []squaring.Slope{squaring.Slope(a) * squaring.Microradian} }
	three, err := squaring.CompareSquares(of(8), of(2), of(-4), 1*squaring.Microradian)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-reference", "corner-reference", float64(four.Reference.Angle/squaring.Arcsecond)),
		notebook.CheckRow("check-first", "corner-first", float64(four.Corners[0].Angle/squaring.Arcsecond)),
		notebook.CheckRow("check-square-first", "three-first", three.Errors[0].Slope.Microradians()),
		notebook.CheckRow("check-square-second", "three-second", three.Errors[1].Slope.Microradians()),
		notebook.CheckRow("check-square-third", "three-third", three.Errors[2].Slope.Microradians()),
		notebook.CheckRow("check-square-u", "three-u", three.Errors[0].Uncertainty.Microradians()),
	)
	return nil
}
