package jaw

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, r result) error {
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	short := r.run.SitsBack(25 * mm)
	lift, err := in.liftSlope()
	if err != nil {
		return err
	}
	s.Add(
		note("wrong-ends", notebook.Say("Zero at both ends says that the ends are alike. In between the jaw stands {} back. A part of {} in the middle bridges a gap of only {}, and sits that whole hollow farther back than one at the end.", height(r.run.Hollow.Length), length(25*mm), height(short.Length))),
		note("wrong-calliper", notebook.Say("A calliper says parallel, and it is: both faces lean alike. The block of {} is out of square by {} all the same.", length(in.High), height(r.lean.Slope.Rise(in.High)))),
		note("wrong-harder", notebook.Say("Clamping harder lifts more. The lift of {} over {} is {}: as much as a jaw that leans {} over its height.", height(in.Lift), length(in.Deep), slope(lift.Slope), height(lift.Slope.Rise(in.JawHeight)))),
	)
	return nil
}

// checkItems sets what this lesson computes with against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ result) error {
	r, err := squaring.ReverseSquare([]squaring.EdgeReading{{}, {Height: 250 * mm, Reading: 18 * um}, {Turned: true}, {Height: 250 * mm, Reading: -6 * um, Turned: true}}, 0*mm)
	if err != nil {
		return err
	}
	var points []squaring.JawPoint
	for _, x := range []float64{-60, -30, 0, 30, 60} {
		half := x / 60
		points = append(points, squaring.JawPoint{Place: unit.Length(x) * mm, Reading: unit.Length(x*0.1+8*half*half) * um})
	}
	run, err := squaring.FitJawRun(points, 0*mm)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-yaw", "jaw-yaw", run.Yaw.Slope.Microradians()),
		notebook.CheckRow("check-hollow", "jaw-hollow", float64(run.Hollow.Length/um)),
		notebook.CheckRow("check-axis", "square-reversal-axis", r.Lean.Slope.Arcseconds()),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ result) error {
	lean, err := leanExercise(0.012*mm, 45*mm, 60*mm)
	if err != nil {
		return err
	}
	lift, err := liftExercise(0.012*mm, 45*mm, 60*mm, 0.030*mm)
	if err != nil {
		return err
	}
	s.Add(lean, lift)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-lean", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return leanExercise(notebook.Steps(r, 3, 12, 0.002*mm), notebook.Steps(r, 7, 10, 5*mm), notebook.Steps(r, 12, 24, 5*mm))
		}},
		{Name: "exercise-lift", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return liftExercise(notebook.Steps(r, 3, 12, 0.002*mm), notebook.Steps(r, 7, 10, 5*mm), notebook.Steps(r, 12, 24, 5*mm), notebook.Steps(r, 2, 10, 0.005*mm))
		}},
	}
}

// shown is a dial's reading.
func shown(l unit.Length) notebook.Quantity { return notebook.Stepped(l, 1*um, notebook.FineLengths) }

// leanOf returns the lean of a jaw that stands back by so much over its height.
func leanOf(leaning, over unit.Length) (squaring.MeasuredSlope, error) {
	rounding := squaring.Indicator{Division: 0.002 * mm, ReadTo: 1}.RoundingU() * math.Sqrt2
	return squaring.MeasureSlope(leaning, rounding, over, 0*mm)
}

// leanExercise asks how far out of square a leaning jaw leaves a block.
func leanExercise(leaning, over, block unit.Length) (notebook.Exercise, error) {
	lean, err := leanOf(leaning, over)
	out := lean.Slope.Rise(block)
	return notebook.Exercise{Name: "exercise-lean",
		Ask:    notebook.Say("The fixed jaw leans back {} over {}. How far out of square does a block {} high come, held with a round bar at the moving jaw?", shown(leaning), length(over), length(block)),
		Answer: notebook.Of(out, lean.Uncertainty.Rise(block), notebook.FineLengths),
		Worked: []notebook.Text{notebook.Say("{} over {} is {}.", shown(leaning), length(over), slope(lean.Slope)), notebook.Say("Over {} that is {}.", length(block), height(out))},
		Wrong: []notebook.WrongTurn{
			{Value: height(leaning), Why: notebook.Plain("The jaw's own reading was taken; the block is higher than the jaw.")},
			{Value: height(2 * out), Why: notebook.Plain("Turning the block doubles what the dial shows, not what the block is.")},
		}}, err
}

// liftExercise asks how far out of square a leaning jaw and a lift leave a
// block, as deep as high.
func liftExercise(leaning, over, block, lift unit.Length) (notebook.Exercise, error) {
	lean, err := leanOf(leaning, over)
	out := lean.Slope.Rise(block)
	return notebook.Exercise{Name: "exercise-lift",
		Ask: notebook.Say("The fixed jaw leans back {} over {}. A block {} high, and as deep, is held without the bar: clamping lifts its moving-jaw side by {}. How far out is it?",
			shown(leaning), length(over), length(block), shown(lift)),
		Answer: shown(out + lift),
		Worked: []notebook.Text{notebook.Say("The lift over the depth is a slope of {}.", slope(squaring.Slope(lift/block))), notebook.Say("Over the height it makes {}, and the lean {}.", shown(lift), shown(out))},
		Wrong: []notebook.WrongTurn{
			{Value: shown(lift - out), Why: notebook.Plain("They were taken to cancel. A jaw that leans back and a side that lifts tip the work the same way.")},
			{Value: shown(out), Why: notebook.Plain("The lift was forgotten.")},
			{Value: shown(lift), Why: notebook.Plain("The lean was forgotten.")},
		}}, err
}
