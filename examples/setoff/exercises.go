package setoff

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// checkItems sets what this lesson computes with against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _, _, _ shifts) error {
	var trials []squaring.Slope
	for _, v := range []float64{96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72} {
		trials = append(trials, squaring.Slope(v)*squaring.Microradian)
	}
	twenty, err := squaring.SummariseShift(trials, 0)
	if err != nil {
		return err
	}
	t, err := squaring.CoverageFactor(0.95, 16)
	if err != nil {
		return err
	}
	// What the guide only judges: the comparator to a quarter, the expansion to a
	// tenth, the temperature to a half.
	var judged [3]float64
	for i, reliability := range []float64{0.25, 0.10, 0.50} {
		if judged[i], err = squaring.DegreesFromReliability(reliability); err != nil {
			return err
		}
	}
	gauge := squaring.Budget{
		{Source: "standard", Uncertainty: 25, DegreesOfFreedom: 18},
		{Source: "repeats", Uncertainty: 13 / math.Sqrt(5), DegreesOfFreedom: 24},
		{Source: "comparator, random", Uncertainty: 10 / 2.5706, DegreesOfFreedom: 5},
		{Source: "comparator, systematic", Uncertainty: 20.0 / 3, DegreesOfFreedom: judged[0]},
		{Source: "expansion", Uncertainty: 50000623 * 0.1 * squaring.RectangularSpread.Uncertainty(1e-6), DegreesOfFreedom: judged[1]},
		{Source: "temperature", Uncertainty: 50000623 * 11.5e-6 * squaring.RectangularSpread.Uncertainty(0.05), DegreesOfFreedom: judged[2]},
	}
	s.Add(
		notebook.CheckRow("check-mean", "dial-gum-repeats-mean", twenty.Mean.Microradians()),
		notebook.CheckRow("check-u", "dial-gum-repeats-u", twenty.MeanU.Microradians()),
		notebook.CheckRow("check-t", "dial-gum-t-16", t),
		notebook.CheckRow("check-judged", "gum-reliability-25", judged[0]),
		notebook.CheckRow("check-combined", "dial-gum-h1-u", gauge.Combined()),
		notebook.CheckRow("check-welch", "dial-gum-h1-nu", gauge.DegreesOfFreedom()),
	)
	return nil
}

// exerciseItems adds two exercises on the shop's trials.
func exerciseItems(s *notebook.Sheet, _ Inputs, _, _, _ shifts) error {
	in := Defaults()
	var changes []unit.Length
	for _, t := range in.Trials {
		if t.How == crosswise {
			changes = append(changes, t.Nod)
		}
	}
	leave, next, err := sixExercises(in, changes)
	if err != nil {
		return err
	}
	s.Add(leave, next)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	draw := func(r *rand.Rand) (Inputs, []unit.Length) {
		in := Defaults()
		in.Span = notebook.Steps(r, 15, 25, 10*mm)
		mean, changes := notebook.Either(r, notebook.Steps(r, 4, 12, in.Step)), make([]unit.Length, 6)
		for i := range changes {
			changes[i] = mean + notebook.Steps(r, -2, 2, in.Step)
		}
		return in, changes
	}
	return []notebook.Drill{
		{Name: "exercise-leave", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			in, changes := draw(r)
			leave, _, err := sixExercises(in, changes)
			return leave, err
		}},
		{Name: "exercise-next", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			in, changes := draw(r)
			_, next, err := sixExercises(in, changes)
			return next, err
		}},
	}
}

// sixExercises asks, of six changes of the front-to-back difference, what to
// leave standing and how near the next tightening ends.
func sixExercises(in Inputs, changes []unit.Length) (leave, next notebook.Exercise, err error) {
	in.Trials = nil
	told := []notebook.Quantity{length(in.Span)}
	for _, change := range changes {
		in.Trials = append(in.Trials, Trial{How: crosswise, Nod: change})
		told = append(told, notebook.Stepped(change, in.Step, notebook.FineLengths))
	}
	cross, err := in.shiftsOf(crosswise)
	if err != nil {
		return leave, next, err
	}
	half, err := cross.nod.Interval(0.95)
	if err != nil {
		return leave, next, err
	}
	factor, err := squaring.CoverageFactor(0.95, cross.nod.DegreesOfFreedom)
	const trials = "Six crosswise tightenings moved the front-to-back difference over {} by {}, {}, {}, {}, {} and {}. "
	return leaveExercise(in, cross.nod, notebook.Say(trials+"What do you leave standing before the last pass?", told...)),
		nextExercise(cross.nod, half, factor, notebook.Say(trials+"Set off by their mean, within how much of square does a single new tightening end, 95 times in a hundred?", told...)), err
}

// leaveExercise asks what to leave standing before the last tightening.
func leaveExercise(in Inputs, nod squaring.Shift, ask notebook.Text) notebook.Exercise {
	off := nod.SetOff()
	return notebook.Exercise{Name: "exercise-leave",
		Ask:    ask,
		Answer: notebook.Of(off.Slope.Rise(in.Span), off.Uncertainty.Rise(in.Span), notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("The mean change is {}, a slope of {}.", height(nod.Mean.Rise(in.Span)), slope(nod.Mean)),
			notebook.Say("Leave as much the other way. The mean is sure to {}.", height(nod.MeanU.Rise(in.Span))),
		},
		Wrong: []notebook.WrongTurn{
			{Value: height(nod.Mean.Rise(in.Span)), Why: notebook.Plain("The sign was not turned: that doubles the shift instead of taking it away.")},
			{Value: height(0 * mm), Why: notebook.Plain("It was set dead true before tightening.")},
			{Value: height(6 * off.Slope.Rise(in.Span)), Why: notebook.Plain("The six were added and not divided by six.")},
		}}
}

// nextExercise asks how near to square the next tightening ends.
func nextExercise(nod squaring.Shift, half squaring.Slope, factor float64, ask notebook.Text) notebook.Exercise {
	factorIs := notebook.Exact(factor, notebook.Numbers).WithDigits(3)
	freedom := notebook.Say("The six scatter no more than their rounding, whose size is known: the normal law's factor is {}.", factorIs)
	if !math.IsInf(nod.DegreesOfFreedom, 1) {
		freedom = notebook.Say("With {} degrees of freedom Student's factor is {}.", notebook.Exact(nod.DegreesOfFreedom, notebook.Numbers).WithDigits(1), factorIs)
	}
	return notebook.Exercise{Name: "exercise-next",
		Ask:    ask,
		Answer: notebook.Stepped(half, 0.1*squaring.Microradian, notebook.Slopes),
		Worked: []notebook.Text{
			notebook.Say("The scatter of one is {} and the mean of six has its own, so the next one scatters by {}: the root of one and a sixth times as much.", slope(nod.Deviation), notebook.Stepped(nod.NextU(), 0.1*squaring.Microradian, notebook.Slopes)),
			freedom,
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(2 * nod.MeanU), Why: notebook.Plain("Twice the uncertainty of the mean was taken: that is where the mean lies, not the next one.")},
			{Value: slope(2 * nod.Deviation), Why: notebook.Plain("A factor of two was taken, as if the scatter were known from many trials.")},
			{Value: slope(nod.Deviation), Why: notebook.Plain("One standard deviation was taken: two in three end within it, not 95 in a hundred.")},
		}}
}
