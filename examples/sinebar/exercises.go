package sinebar

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	quarter := squaring.Slope(0.25) * squaring.InchPerFoot
	half, err := squaring.HalfAngleFromTaper(quarter)
	if err != nil {
		return err
	}
	level := squaring.SineBar{Length: in.Bar, LengthU: in.BarU}
	uAt := func(d float64) (unit.Angle, error) {
		stack, err := level.Stack(unit.Angle(d) * squaring.Degree)
		if err != nil {
			return 0, err
		}
		_, u, err := level.Angle(stack, in.StackU)
		return u, err
	}
	ten, err := uAt(10)
	if err != nil {
		return err
	}
	eighty, err := uAt(80)
	if err != nil {
		return err
	}
	by := func(a unit.Angle) unit.Angle {
		return unit.Angle(math.Tan(float64(a)) - math.Sin(float64(a)))
	}
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-half", notebook.Say("A taper is told on diameter. A quarter of an inch in a foot stands at {} to the axis, not at {}.", degrees(half), degrees(quarter.Angle()))),
		note("wrong-tangent", notebook.Say("The bar is the slanted side, so it is a sine. Your angle by its tangent would ask for {} more of blocks.", fine(in.Bar*unit.Length(by(w.included))))),
		note("wrong-steep", notebook.Say("Set to 10° this bar is sure to {}, to 80° only to {}. Set the other angle, and use an angle plate.", arc(ten), arc(eighty))),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	stack, err := stackExercise(5*squaring.Inch, 27*squaring.Degree)
	if err != nil {
		return err
	}
	cone, err := coneExercise(30*mm, 26*mm, 80*mm)
	if err != nil {
		return err
	}
	s.Add(stack, cone)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-stack", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return stackExercise(notebook.Pick(r, 100*mm, 5*squaring.Inch, 200*mm, 10*squaring.Inch), notebook.Steps(r, 6, 80, 0.5*squaring.Degree))
		}},
		{Name: "exercise-cone", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			small := notebook.Steps(r, 10, 60, 1*mm)
			return coneExercise(small+notebook.Steps(r, 4, 24, 0.5*mm), small, notebook.Steps(r, 8, 20, 5*mm))
		}},
	}
}

// stackExercise asks what blocks set an angle.
func stackExercise(bar unit.Length, angle unit.Angle) (notebook.Exercise, error) {
	stack, err := squaring.SineBar{Length: bar}.Stack(angle)
	show := func(l unit.Length) notebook.Quantity { return notebook.Stepped(l, 1*um, notebook.Lengths) }
	return notebook.Exercise{Name: "exercise-stack",
		Ask:    notebook.Say("What blocks set a sine bar of {} to {}?", short(bar), notebook.Exact(angle, notebook.Angles)),
		Answer: show(stack),
		Worked: []notebook.Text{notebook.Say("The sine of {} is {}, times {}: {}.", notebook.Exact(angle, notebook.Angles), notebook.Exact(float64(stack/bar), notebook.Numbers).WithDigits(6), short(bar), show(stack))},
		Wrong: []notebook.WrongTurn{
			{Value: show(bar * unit.Length(math.Tan(float64(angle)))), Why: notebook.Plain("The tangent was taken: the bar is the slanted side.")},
			{Value: show(bar * unit.Length(math.Cos(float64(angle)))), Why: notebook.Plain("The cosine was taken: that is the way along the plate.")},
			{Value: show(bar * unit.Length(math.Sin(float64(angle)/2))), Why: notebook.Plain("The angle was halved.")},
		}}, err
}

// coneExercise asks for the angle at which a slide is set for a cone.
func coneExercise(large, small, apart unit.Length) (notebook.Exercise, error) {
	t, err := squaring.TaperFromDiameters(large, small, apart)
	if err != nil {
		return notebook.Exercise{}, err
	}
	half, err := squaring.HalfAngleFromTaper(t)
	show := func(a unit.Angle) notebook.Quantity {
		return notebook.Stepped(a, 0.001*squaring.Degree, notebook.Angles)
	}
	return notebook.Exercise{Name: "exercise-cone",
		Ask:    notebook.Say("A cone is {} at one end and {} at the other, {} apart. To what angle do you set the slide?", short(large), short(small), short(apart)),
		Answer: show(half),
		Worked: []notebook.Text{
			notebook.Say("The radius changes by {} over {}.", short((large-small)/2), short(apart)),
			notebook.Say("That is {} to the axis.", show(half)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: show(t.Angle()), Why: notebook.Plain("The diameters were taken for radii.")},
			{Value: show(2 * half), Why: notebook.Plain("That is the included angle: the slide stands at half of it.")},
			{Value: show(half / 2), Why: notebook.Plain("It was halved once too often.")},
		}}, err
}

// checkItems sets the conversions against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	half := func(perFoot float64) (float64, error) {
		a, err := squaring.HalfAngleFromTaper(squaring.Slope(perFoot) * squaring.InchPerFoot)
		return float64(a / squaring.Degree), err
	}
	var halves []float64
	for _, perFoot := range []float64{0.5986, 0.6024, 0.6315, 3.5} {
		a, err := half(perFoot)
		if err != nil {
			return err
		}
		halves = append(halves, a)
	}
	radius := float64((squaring.Slope(0.25) * squaring.InchPerFoot).Angle() / squaring.Degree)
	five, err := squaring.SineBar{Length: 5 * squaring.Inch}.Stack(27 * squaring.Degree)
	if err != nil {
		return err
	}
	hundred := squaring.SineBar{Length: 100 * mm}
	slips, _, err := squaring.SineBar{Length: 112 * mm}.Angle(10*mm, 0*mm)
	if err != nil {
		return err
	}
	at45, err := hundred.Stack(45 * squaring.Degree)
	if err != nil {
		return err
	}
	_, u45, err := hundred.Angle(at45, 1*um)
	if err != nil {
		return err
	}
	ten, err := squaring.TaperFromHalfAngle(5 * squaring.Degree)
	if err != nil {
		return err
	}
	shank, err := squaring.TaperFromDiameters(0.938*squaring.Inch, 0.778*squaring.Inch, 3.1875*squaring.Inch)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-morse-1", "taper-morse-1", halves[0]),
		notebook.CheckRow("check-morse-3", "taper-morse-3", halves[1]),
		notebook.CheckRow("check-morse-5", "taper-morse-5", halves[2]),
		notebook.CheckRow("check-steep", "taper-steep", 2*halves[3]),
		notebook.CheckRow("check-radius", "taper-radius", radius),
		notebook.CheckRow("check-stack", "sine-27", float64(five/squaring.Inch)),
		notebook.CheckRow("check-slips", "sine-slips", float64(slips/squaring.Degree)),
		notebook.CheckRow("check-tangent", "sine-u-45", float64(u45/squaring.Arcsecond)),
		notebook.CheckRow("check-ten", "taper-ten", float64(ten.PerFoot()/squaring.Inch)),
		notebook.CheckRow("check-shank", "taper-shank", float64(shank.PerFoot()/squaring.Inch)),
	)
	return nil
}
