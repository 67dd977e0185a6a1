package thousandth

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, measured squaring.MeasuredSlope, _ squaring.Slope) error {
	over := func(span unit.Length) (notebook.Quantity, error) {
		x, err := squaring.SlopeFromRise(1*squaring.Thou, span)
		return slope(x), err
	}
	six, err := over(6 * squaring.Inch)
	if err != nil {
		return err
	}
	ten, err := over(10 * squaring.Inch)
	if err != nil {
		return err
	}
	two, err := over(24 * squaring.Inch)
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	hundred := 100 * squaring.Microradian
	s.Add(
		note("wrong-thou", notebook.Say("Out of what span? {} over {} is {}; over {} it is {}; over {} it is {}.",
			fine(1*squaring.Thou), length(6*squaring.Inch), six, length(10*squaring.Inch), ten, length(24*squaring.Inch), two)),
		note("wrong-arm", notebook.Say("The slope is the same, the reading bigger: {} is {} across a sweep of {} radius and {} across one of {}. What shrinks with a long arm is the doubt: one step of {} is {} over your span and half that over twice the span.",
			slope(hundred), fine(hundred.Rise(220*mm)), length(110*mm), fine(hundred.Rise(100*mm)), length(50*mm), fine(10*um), slope(squaring.Slope(float64(10*um)/float64(in.Span))))),
		note("wrong-half", notebook.Say("The whole difference belongs to the whole span. Halve it and your {} becomes {}.", slope(measured.Slope), slope(measured.Slope/2))),
		note("wrong-length", notebook.Say("On a part of {} your slope is {}; on a hole {} deep it is {}. Say which before you say whether it matters.",
			length(300*mm), fine(measured.Slope.Rise(300*mm)), length(20*mm), fine(measured.Slope.Rise(20*mm)))),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ squaring.MeasuredSlope, _ squaring.Slope) error {
	tilt, err := tiltExercise(1.2*squaring.Thou, 8*squaring.Inch)
	if err != nil {
		return err
	}
	limit, err := limitExercise(25*um, 8*squaring.Inch)
	if err != nil {
		return err
	}
	s.Add(tilt, limit)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	ring := func(r *rand.Rand) unit.Length { return notebook.Steps(r, 8, 24, 0.5*squaring.Inch) }
	return []notebook.Drill{
		{Name: "exercise-tilt", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return tiltExercise(notebook.Steps(r, 4, 30, 0.1*squaring.Thou), ring(r))
		}},
		{Name: "exercise-limit", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return limitExercise(notebook.Pick(r, 10*um, 15*um, 20*um, 25*um, 30*um, 40*um, 50*um), ring(r))
		}},
	}
}

// tiltExercise asks for the tilt that a difference across a ring tells of.
func tiltExercise(reading, span unit.Length) (notebook.Exercise, error) {
	tilt, err := squaring.SlopeFromRise(reading, span)
	return notebook.Exercise{Name: "exercise-tilt",
		Ask:    notebook.Say("A dial differs by {} across a ring of {} diameter. What is the tilt?", fine(reading), length(span)),
		Answer: slope(tilt),
		Worked: []notebook.Text{notebook.Say("{} over {} is {}.", fine(reading), length(span), slope(tilt)),
			notebook.Say("Over 300 mm that is {}, over a foot {}.", fine(tilt.Per300()), fine(tilt.PerFoot()))},
		Wrong: []notebook.WrongTurn{
			{Value: slope(2 * tilt), Why: notebook.Plain("The radius of the ring was taken for the span.")},
			{Value: slope(tilt / 2), Why: notebook.Plain("Half the difference was set over the whole span.")},
		}}, err
}

// limitExercise asks how much of a limit over 300 mm a ring may show.
func limitExercise(rise, span unit.Length) (notebook.Exercise, error) {
	limit, err := squaring.SlopeFromRise(rise, 300*mm)
	allowed := notebook.Stepped(rise, 1*um, notebook.Same(notebook.Millimetre))
	return notebook.Exercise{Name: "exercise-limit",
		Ask:    notebook.Say("A limit is {} over 300 mm. How much may the dial differ across a ring of {}?", allowed, length(span)),
		Answer: fine(limit.Rise(span)),
		Worked: []notebook.Text{notebook.Say("{} over 300 mm is a slope of {}.", allowed, slope(limit)),
			notebook.Say("Over {} that is {}.", length(span), fine(limit.Rise(span)))},
		Wrong: []notebook.WrongTurn{
			{Value: fine(rise), Why: notebook.Plain("The figure for 300 mm was used on another span.")},
			{Value: fine(limit.Rise(span / 2)), Why: notebook.Plain("The radius of the ring was taken for the span.")},
		}}, err
}

// checkItems sets the conversions against what follows from the definitions.
func checkItems(s *notebook.Sheet, _ Inputs, _ squaring.MeasuredSlope, _ squaring.Slope) error {
	of := func(rise, span unit.Length) (squaring.Slope, error) { return squaring.SlopeFromRise(rise, span) }
	foot, err := of(1*squaring.Thou, 1*squaring.Foot)
	if err != nil {
		return err
	}
	six, err := of(1*squaring.Thou, 6*squaring.Inch)
	if err != nil {
		return err
	}
	twelve, err := of(1.2*squaring.Thou, 8*squaring.Inch)
	if err != nil {
		return err
	}
	limit, err := of(0.025*mm, 300*mm)
	if err != nil {
		return err
	}
	level, err := of(0.02*mm, 1000*mm)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-foot", "slope-thou-per-foot", foot.Microradians()),
		notebook.CheckRow("check-foot-arcsec", "slope-thou-per-foot-arcsec", foot.Arcseconds()),
		notebook.CheckRow("check-six", "span-thou-6", six.Microradians()),
		notebook.CheckRow("check-twelve", "span-twelve-8", twelve.Microradians()),
		notebook.CheckRow("check-twelve-300", "span-twelve-300", float64(twelve.Per300()/mm)),
		notebook.CheckRow("check-limit", "span-limit-8", float64(limit.Rise(8*squaring.Inch)/squaring.Inch)),
		notebook.CheckRow("check-level", "span-arcsec", level.Arcseconds()),
	)
	return nil
}
