package diagonals

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-equal", notebook.Say("Equal within one step of {} still leaves {} of skew open on your rectangle (two standard uncertainties).", fine(in.Step), slope(2*w.skew.Uncertainty))),
		note("wrong-sides", notebook.Say("The sides cannot show it: a skew of {} makes the y side longer by {} only, and the diagonals differ by {}.",
			slope(100*squaring.Microradian), notebook.Exact(in.Y*unit.Length(math.Sqrt(1+1e-8)-1), notebook.FineLengths).WithDigits(2),
			fine(unit.Length(2*100e-6*float64(in.X)*float64(in.Y)/float64(w.asked))))),
		note("wrong-head", notebook.Plain("Tilt and skew are two things. The head can be dead square to the table while the saddle runs askew to the table's travel: no spanner on the head moves it.")),
	)
	return nil
}

// checkItems sets skew and closure against plane geometry.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	in := Defaults()
	w, err := in.work()
	if err != nil {
		return err
	}
	var round []unit.Angle
	for _, c := range in.Corners {
		round = append(round, c.Over)
	}
	p, err := squaring.ClosePolygon([][]unit.Angle{round}, in.CornerU)
	if err != nil {
		return err
	}
	// A machine with that skew gives back those diagonals.
	m := squaring.Machine{C0Y: unit.Angle(w.skew.Slope)}
	spans, err := m.BodyDiagonals(squaring.Position{}, in.X, in.Y, 0*mm)
	if err != nil {
		return err
	}
	modelled := float64(spans[1].Length-spans[0].Length) * float64(w.asked) / (2 * float64(in.X) * float64(in.Y))
	s.Add(
		notebook.CheckRow("check-skew", "corner-skew", w.skew.Slope.Microradians()),
		notebook.CheckRow("check-skew-u", "corner-skew-u", w.skew.Uncertainty.Microradians()),
		notebook.CheckRow("check-machine", "corner-skew", math.Abs(modelled)*1e6),
		notebook.CheckRow("check-reference", "corner-reference", float64(p.Reference.Angle/squaring.Arcsecond)),
		notebook.CheckRow("check-corner", "corner-first", float64(p.Corners[0].Angle/squaring.Arcsecond)),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	in := Defaults()
	w, err := in.work()
	if err != nil {
		return err
	}
	s.Add(skewExercise(in, w), flipExercise(w.skew.Slope, in.X, in.Y))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	hole := func(r *rand.Rand) (x, y unit.Length) {
		return notebook.Steps(r, 10, 20, 20*mm), notebook.Steps(r, 4, 10, 20*mm)
	}
	return []notebook.Drill{
		{Name: "exercise-skew", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			in := Defaults()
			in.X, in.Y = hole(r)
			middle := unit.Length(math.Round(math.Hypot(float64(in.X), float64(in.Y))/float64(in.Step))) * in.Step
			half := notebook.Either(r, notebook.Steps(r, 1, 6, in.Step))
			in.AC, in.BD = []Reading{{middle - half}}, []Reading{{middle + half}}
			w, err := in.work()
			return skewExercise(in, w), err
		}},
		{Name: "exercise-flip", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			x, y := hole(r)
			return flipExercise(notebook.Steps(r, 4, 30, 5*squaring.Microradian), x, y), nil
		}},
	}
}

// skewExercise asks for the skew that two diagonals tell of.
func skewExercise(in Inputs, w worked) notebook.Exercise {
	difference := w.bd.Length - w.ac.Length
	worth := "" // said of a figure that its doubt leaves poor
	if math.Abs(float64(w.skew.Slope)) < 10*float64(w.skew.Uncertainty) {
		worth = " The sign can be trusted, the figure only roughly."
	}
	return notebook.Exercise{Name: "exercise-skew",
		Ask: notebook.Say("Four holes, {} by {}, have diagonals of {} (front left to rear right) and {}, each read to {}. How far are the travels out of square, plus when the corner at the front left is open?",
			side(in.X), side(in.Y), side(w.ac.Length), side(w.bd.Length), fine(in.Step)),
		Answer: of(w.skew),
		Worked: []notebook.Text{
			notebook.Say("The difference is {}; times the diagonal and over twice both sides it is {}.", fine(difference), slope(w.skew.Slope)),
			notebook.Say("Each reading leaves {} of standard uncertainty, the difference √2 times that: {} of skew."+worth,
				fine(w.ac.Uncertainty), slope(w.skew.Uncertainty)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(squaring.Slope(float64(difference) / float64(w.asked))), Why: notebook.Plain("The difference was set over the diagonal: most of it would be lost if it were a slope.")},
			{Value: slope(2 * w.skew.Slope), Why: notebook.Plain("The difference is made by both diagonals, one longer and one shorter.")},
			{Value: slope(-w.skew.Slope), Why: notebook.Plain("The sign: a corner that is open has the longer diagonal across from it.")},
		}}
}

// flipExercise asks how far two skewed patterns miss, one turned over.
func flipExercise(skew squaring.Slope, x, y unit.Length) notebook.Exercise {
	drift := skew.Rise(y)
	return notebook.Exercise{Name: "exercise-flip",
		Ask: notebook.Say("Four holes, {} along x by {} along y, were bored on a machine whose travels are {} out of square. The plate is turned over left for right onto pins that were bored on the same machine. How far do the rear holes miss, if the front two are pinned?",
			side(x), side(y), slope(skew)),
		Answer: fine(2 * drift),
		Worked: []notebook.Text{
			notebook.Say("Each pattern drifts by {} over its {}.", fine(drift), side(y)),
			notebook.Say("Turned over, one drifts left and the other right: {}.", fine(2*drift)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(drift), Why: notebook.Plain("The drift of one pattern only was counted.")},
			{Value: fine(0 * um), Why: notebook.Plain("It fits the same way up; turned over it shows the error twice.")},
			{Value: fine(2 * skew.Rise(x)), Why: notebook.Plain("The wrong side was taken: the rear holes lie one y away from the pins.")},
		}}
}
