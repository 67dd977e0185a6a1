package plate

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	rise := wear.ArcSecond.Rise(100 * mm)
	readings := []wear.Slope{12, 14, 13, 9}
	var walk []wear.Step
	for _, r := range readings {
		walk = append(walk, wear.Step{Base: 100 * mm, Slope: r * wear.ArcSecond})
	}
	profile, err := wear.ProfileFromSteps(0, walk, 0)
	if err != nil {
		return err
	}
	level, _, err := profile.Less(wear.EndPoints)
	if err != nil {
		return err
	}
	answer := level.Points[2].Height
	const inch = 25.4 * mm
	limit, err := wear.PlateLimit(unit.Length(math.Hypot(24, 36))*inch, wear.GradeA)
	if err != nil {
		return err
	}
	s.Add(notebook.Exercise{Name: "exercise-line",
		Ask:    notebook.Say("Along a line of four steps of {} the tilts are 12, 14, 13 and 9 arc seconds. How high is its middle above the line through its ends?", place(100*mm)),
		Answer: notebook.Exact(answer, notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("One arc second lifts {} over {}.", notebook.Exact(rise, notebook.FineLengths).WithDigits(4), place(100*mm)),
			notebook.Plain("The mean tilt is 12 arc seconds: it is the zero of the line, and goes. Left are 0, 2, 1 and −3."),
			notebook.Say("Up to the middle that is 2 steps' worth of one arc second: {}.", notebook.Exact(answer, notebook.FineLengths)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Exact(profile.Points[2].Height, notebook.FineLengths), Why: notebook.Plain("The zero of the line was left in.")},
			{Value: notebook.Exact(2*answer, notebook.FineLengths), Why: notebook.Plain("The tilt was doubled: an instrument scaled for tilt has halved the beam already.")},
		}},
		notebook.Exercise{Name: "exercise-grade",
			Ask:    notebook.Say("What flatness does grade A allow a plate of {} by {}?", notebook.Stepped(24*inch, inch, notebook.Lengths), notebook.Stepped(36*inch, inch, notebook.Lengths)),
			Answer: notebook.Exact(limit, notebook.FineLengths),
			Worked: []notebook.Text{
				notebook.Plain("The diagonal squared is 24² + 36² = 1872 square inches; a twenty-fifth of that and 40 make 114.88 microinches for grade AA."),
				notebook.Say("Grade A allows twice that: {}.", notebook.Exact(limit, notebook.FineLengths)),
			},
			Wrong: []notebook.WrongTurn{{Value: notebook.Exact(limit/2, notebook.FineLengths), Why: notebook.Plain("That is grade AA.")}}})
	return nil
}

// checks adds the checks against published values, on the demo's readings.
func checks(s *notebook.Sheet) error {
	r, err := work(Defaults())
	if err != nil {
		return err
	}
	scattered := []wear.SurfacePoint{{}, {X: 600 * mm}, {X: 600 * mm, Y: 400 * mm}, {Y: 400 * mm, Height: 12 * um}, {X: 300 * mm, Y: 200 * mm, Height: -5 * um}, {X: 300 * mm, Height: 4 * um}, {X: 300 * mm, Y: 400 * mm, Height: 2 * um}}
	flat, err := wear.FlatnessOf(scattered, wear.MinimumZone)
	if err != nil {
		return err
	}
	const inch = 25.4 * mm
	limit, err := wear.PlateLimit(unit.Length(math.Hypot(12, 12))*inch, wear.GradeAA)
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-classical", "plate-classical", float64(r.classicalRange/um)),
		notebook.CheckRow("check-we", "plate-closure-we", float64(r.classical.Closure[0]/um)),
		notebook.CheckRow("check-sn", "plate-closure-sn", float64(r.classical.Closure[1]/um)),
		notebook.CheckRow("check-zone", "flat-scattered-zone", float64(flat.Value/um)),
		notebook.CheckRow("check-grade", "plate-grade-12", float64(limit/inch*1e6)))
	return nil
}
