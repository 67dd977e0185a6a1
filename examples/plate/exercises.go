package plate

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	line, err := lineExercise(100*mm, [4]float64{12, 14, 13, 9})
	if err != nil {
		return err
	}
	grade, err := gradeExercise(24, 36, wear.GradeA)
	if err != nil {
		return err
	}
	s.Add(line, grade)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-line", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			a, b, c := notebook.Steps(r, 1, 5, 1.0), notebook.Steps(r, 1, 4, 1.0), notebook.Steps(r, -3, -1, 1.0)
			zero, sign := notebook.Steps(r, 8, 20, 1.0), notebook.Either(r, 1.0)
			return lineExercise(notebook.Pick(r, 50*mm, 75*mm, 100*mm, 125*mm, 150*mm), [4]float64{zero + sign*a, zero + sign*b, zero + sign*c, zero - sign*(a+b+c)})
		}},
		{Name: "exercise-grade", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			wide := notebook.Steps(r, 3, 8, 6.0)
			return gradeExercise(wide, wide+notebook.Steps(r, 0, 4, 6.0), notebook.Pick(r, wear.GradeA, wear.GradeB))
		}},
	}
}

// lineExercise asks how high a line of four tilts, in arc seconds, stands in
// its middle.
func lineExercise(base unit.Length, tilts [4]float64) (notebook.Exercise, error) {
	var walk []wear.Step
	var shown []notebook.Quantity
	arc := func(x float64) notebook.Quantity {
		return notebook.Stepped(wear.Slope(x)*wear.ArcSecond, wear.ArcSecond, notebook.Same(notebook.ArcSecond))
	}
	mean := (tilts[0] + tilts[1] + tilts[2] + tilts[3]) / 4
	left := make([]notebook.Quantity, 0, len(tilts)+1)
	left = append(left, arc(mean))
	for _, t := range tilts {
		walk = append(walk, wear.Step{Base: base, Slope: wear.Slope(t) * wear.ArcSecond})
		shown, left = append(shown, arc(t)), append(left, arc(t-mean))
	}
	profile, err := wear.ProfileFromSteps(0, walk, 0)
	if err != nil {
		return notebook.Exercise{}, err
	}
	level, _, err := profile.Less(wear.EndPoints)
	if err != nil {
		return notebook.Exercise{}, err
	}
	middle := level.Points[2].Height
	exact := func(x unit.Length) notebook.Quantity { return notebook.Exact(x, notebook.FineLengths) }
	return notebook.Exercise{Name: "exercise-line",
		Ask:    notebook.Say("Along a line of four steps of {} the tilts are {}, {}, {} and {}. How high is its middle above the line through its ends?", append([]notebook.Quantity{place(base)}, shown...)...),
		Answer: exact(middle),
		Worked: []notebook.Text{
			notebook.Say("One arc second lifts {} over {}.", exact(wear.ArcSecond.Rise(base)).WithDigits(4), place(base)),
			notebook.Say("The mean tilt is {}: it is the zero of the line, and goes. Left are {}, {}, {} and {}.", left...),
			notebook.Say("Up to the middle that is {} steps' worth of one arc second: {}.", notebook.Stepped(tilts[0]+tilts[1]-2*mean, 1, notebook.Numbers), exact(middle)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: exact(profile.Points[2].Height), Why: notebook.Plain("The zero of the line was left in.")},
			{Value: exact(2 * middle), Why: notebook.Plain("The tilt was doubled: an instrument scaled for tilt has halved the beam already.")},
			{Value: exact(-middle), Why: notebook.Plain("The sign was turned: a tilt above the mean climbs.")},
		}}, nil
}

// gradeExercise asks what flatness a grade allows a plate of so many inches.
func gradeExercise(wide, long float64, grade wear.PlateGrade) (notebook.Exercise, error) {
	const inch = 25.4 * mm
	limit, err := wear.PlateLimit(unit.Length(math.Hypot(wide, long))*inch, grade)
	if err != nil {
		return notebook.Exercise{}, err
	}
	least, err := wear.PlateLimit(unit.Length(math.Hypot(wide, long))*inch, wear.GradeAA)
	if err != nil {
		return notebook.Exercise{}, err
	}
	across, err := wear.PlateLimit(unit.Length(long)*inch, grade)
	size := func(x float64) notebook.Quantity {
		return notebook.Stepped(unit.Length(x)*inch, inch, notebook.Lengths)
	}
	exact := func(x unit.Length) notebook.Quantity { return notebook.Exact(x, notebook.FineLengths) }
	number := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Numbers) }
	squared := wide*wide + long*long
	return notebook.Exercise{Name: "exercise-grade",
		Ask:    notebook.Say("What flatness does grade "+grade.String()+" allow a plate of {} by {}?", size(wide), size(long)),
		Answer: exact(limit),
		Worked: []notebook.Text{
			notebook.Say("The diagonal squared is {} square inches; a twenty-fifth of that and 40 make {} microinches for grade AA.", notebook.Stepped(squared, 1, notebook.Numbers), number(40+squared/25)),
			notebook.Say("Grade "+grade.String()+" allows {} times that: {}.", notebook.Stepped(float64(limit/least), 1, notebook.Numbers), exact(limit)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: exact(least), Why: notebook.Plain("That is grade AA.")},
			{Value: exact(across), Why: notebook.Plain("The long side was taken for the diagonal.")},
		}}, err
}
