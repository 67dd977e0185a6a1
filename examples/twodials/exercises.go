package twodials

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises on the shop's readings.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ [2]result) error {
	in := Defaults()
	reverse, err := reverseExercise(in, in.Pairs[0].Second-in.Pairs[0].First, in.Pairs[1].Second-in.Pairs[1].First)
	if err != nil {
		return err
	}
	single, err := singleExercise(in, 1.5*squaring.Thou)
	if err != nil {
		return err
	}
	s.Add(reverse, single)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	gauge := func(r *rand.Rand) Inputs {
		in := Defaults()
		in.Span = notebook.Steps(r, 15, 30, 10*mm)
		return in
	}
	return []notebook.Drill{
		{Name: "exercise-reverse", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			// Even numbers of steps, so that the halves can be read off a dial too.
			tilt, mismatch := notebook.Either(r, notebook.Steps(r, 2, 10, 0.010*mm)), notebook.Either(r, notebook.Steps(r, 1, 9, 0.005*mm))
			return reverseExercise(gauge(r), mismatch+tilt, mismatch-tilt)
		}},
		{Name: "exercise-single", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return singleExercise(gauge(r), notebook.Steps(r, 4, 40, 0.1*squaring.Thou))
		}},
	}
}

// reverseExercise asks for the tilt from a gauge turned by half a turn: the
// second dial over the first before, and after.
func reverseExercise(in Inputs, before, after unit.Length) (notebook.Exercise, error) {
	dial := squaring.Indicator{Division: in.Division, ReadTo: in.ReadTo}
	gauge, err := squaring.ReadTwoDials([]squaring.DialPair{{Second: before}, {Second: after, Turned: true}}, squaring.TwoDialOptions{Span: in.Span, First: dial, Second: dial})
	return notebook.Exercise{Name: "exercise-reverse",
		Ask: notebook.Say("Over a span of {} the second dial shows {} more than the first, and {} more when the bar is turned half a turn. The dials are perfect but for their zeros. What is the tilt, and how sure is it, read to {}?",
			length(in.Span), shown(in, before), shown(in, after), shown(in, dial.Resolution())),
		Answer: tilt(gauge.Tilt),
		Worked: []notebook.Text{
			notebook.Say("Half of {} less {}, over {}, is {}.", shown(in, before), shown(in, after), length(in.Span), slope(gauge.Tilt.Slope)),
			notebook.Say("Half of the sum is the mismatch, {}.", shown(in, gauge.Mismatch)),
			notebook.Say("Four readings, each sure to {}, make {} over twice the span: {}.", height(dial.RoundingU()), height(2*dial.RoundingU()), notebook.Stepped(gauge.Tilt.Uncertainty, 0.1*squaring.Microradian, notebook.Slopes)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(gauge.Believed), Why: notebook.Plain("The first pair was believed; the bar was not turned.")},
			{Value: slope(2 * gauge.Tilt.Slope), Why: notebook.Plain("The difference of the differences was not halved.")},
			{Value: slope(-gauge.WhenAlike), Why: notebook.Plain("The sum was taken: that is the gauge's own error.")},
			{Value: slope(-gauge.Tilt.Slope), Why: notebook.Plain("The sign was turned: the first position less the turned one.")},
		}}, err
}

// singleExercise asks for the tilt from one difference of two dials that agree.
func singleExercise(in Inputs, apart unit.Length) (notebook.Exercise, error) {
	dial := squaring.Indicator{Division: in.Division, ReadTo: in.ReadTo}
	simple, err := squaring.MeasureSlope(apart, dial.RoundingU()*unit.Length(math.Sqrt2), in.Span, 0*mm)
	return notebook.Exercise{Name: "exercise-single",
		Ask: notebook.Say("On a gauge whose dials are known to agree, the second dial shows {} more than the first over {}. What is the tilt?",
			notebook.Stepped(apart, 0.1*squaring.Thou, notebook.FineLengths), length(in.Span)),
		Answer: tilt(simple),
		Worked: []notebook.Text{notebook.Say("All of it over the span: {} over {}.", height(apart), length(in.Span))},
		Wrong:  []notebook.WrongTurn{{Value: slope(simple.Slope / 2), Why: notebook.Plain("Half of it was taken. Half belongs to half the span.")}}}, err
}
