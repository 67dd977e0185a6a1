package setoff

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
)

// exerciseItems adds two exercises on the shop's trials.
func exerciseItems(s *notebook.Sheet, _ Inputs, _, _, _ shifts) error {
	in := Defaults()
	cross, err := in.shiftsOf(crosswise)
	if err != nil {
		return err
	}
	half, err := cross.nod.Interval(0.95)
	if err != nil {
		return err
	}
	off := cross.nod.SetOff()
	factor, err := squaring.CoverageFactor(0.95, cross.nod.DegreesOfFreedom)
	if err != nil {
		return err
	}
	changes := []notebook.Quantity{length(in.Span)}
	for _, t := range in.Trials {
		if t.How == crosswise {
			changes = append(changes, notebook.Stepped(t.Nod, in.Step, notebook.FineLengths))
		}
	}
	naive := 2 * cross.nod.MeanU
	s.Add(
		notebook.Exercise{Name: "exercise-leave",
			Ask:    notebook.Say("Six crosswise tightenings moved the front-to-back difference over {} by {}, {}, {}, {}, {} and {}. What do you leave standing before the last pass?", changes...),
			Answer: notebook.Of(off.Slope.Rise(in.Span), off.Uncertainty.Rise(in.Span), notebook.FineLengths),
			Worked: []notebook.Text{
				notebook.Say("The mean change is {}, a slope of {}.", height(cross.nod.Mean.Rise(in.Span)), slope(cross.nod.Mean)),
				notebook.Say("Leave as much the other way. The mean is sure to {}.", height(cross.nod.MeanU.Rise(in.Span))),
			},
			Wrong: []notebook.WrongTurn{
				{Value: height(cross.nod.Mean.Rise(in.Span)), Why: notebook.Plain("The sign was not turned: that doubles the shift instead of taking it away.")},
				{Value: height(0 * mm), Why: notebook.Plain("It was set dead true before tightening.")},
			}},
		notebook.Exercise{Name: "exercise-next",
			Ask:    notebook.Say("The same six: within how much of square does a single new tightening end, 95 times in a hundred?"),
			Answer: notebook.Stepped(half, 0.1*squaring.Microradian, notebook.Slopes),
			Worked: []notebook.Text{
				notebook.Say("The scatter of one is {} and the mean of six has its own, so the next one scatters by {}: the root of one and a sixth times as much.", slope(cross.nod.Deviation), notebook.Stepped(cross.nod.NextU(), 0.1*squaring.Microradian, notebook.Slopes)),
				notebook.Say("With five degrees of freedom Student's factor is {}.", notebook.Exact(factor, notebook.Numbers).WithDigits(3)),
			},
			Wrong: []notebook.WrongTurn{
				{Value: slope(naive), Why: notebook.Plain("Twice the uncertainty of the mean was taken: that is where the mean lies, not the next one.")},
				{Value: slope(2 * cross.nod.Deviation), Why: notebook.Plain("A factor of two was taken, as if the scatter were known from many trials.")},
			}})
	return nil
}

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
	gauge := squaring.Budget{
		{Source: "standard", Uncertainty: 25, DegreesOfFreedom: 18},
		{Source: "repeats", Uncertainty: 13 / math.Sqrt(5), DegreesOfFreedom: 24},
		{Source: "comparator, random", Uncertainty: 10 / 2.5706, DegreesOfFreedom: 5},
		{Source: "comparator, systematic", Uncertainty: 20.0 / 3, DegreesOfFreedom: 8},
		{Source: "expansion", Uncertainty: 50000623 * 0.1 * 1e-6 / math.Sqrt(3), DegreesOfFreedom: 50},
		{Source: "temperature", Uncertainty: 50000623 * 11.5e-6 * 0.05 / math.Sqrt(3), DegreesOfFreedom: 2},
	}
	s.Add(
		notebook.CheckRow("check-mean", "dial-gum-repeats-mean", twenty.Mean.Microradians()),
		notebook.CheckRow("check-u", "dial-gum-repeats-u", twenty.MeanU.Microradians()),
		notebook.CheckRow("check-t", "dial-gum-t-16", t),
		notebook.CheckRow("check-combined", "dial-gum-h1-u", gauge.Combined()),
		notebook.CheckRow("check-welch", "dial-gum-h1-nu", gauge.DegreesOfFreedom()),
	)
	return nil
}
