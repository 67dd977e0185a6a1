package scraping

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	off, err := offExercise(30*um, 18*um)
	if err != nil {
		return err
	}
	sag, err := sagExercise(1000*mm, 2)
	if err != nil {
		return err
	}
	s.Add(off, sag)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-off", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			rear := notebook.Steps(r, 4, 30, 1*um)
			return offExercise(rear+notebook.Steps(r, 2, 30, 1*um), rear)
		}},
		{Name: "exercise-sag", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return sagExercise(notebook.Pick(r, 500*mm, 600*mm, 800*mm, 1000*mm), notebook.Pick(r, 1.5, 2, 3))
		}},
	}
}

// offExercise asks what comes off ways that are worn in the middle, kept level.
func offExercise(front, rear unit.Length) (notebook.Exercise, error) {
	ways := wear.WornWays{Places: []unit.Length{-400 * mm, 0, 400 * mm}, Front: []unit.Length{0, front, 0}, Rear: []unit.Length{0, rear, 0}, Apart: 190 * mm, Bearing: 300 * mm}
	plan, err := wear.PlanScraping(ways, 50*mm, wear.ScrapeOptions{Light: 2 * um, Heavy: 8 * um, Level: true})
	return notebook.Exercise{Name: "exercise-off",
		Ask:    notebook.Say("Two ways are as new at both ends. In the middle the front one is worn by {} and the rear one by {}. They are to be scraped into one plane that lies level along and across. How much comes off the ends?", micron(front), micron(rear)),
		Answer: micron(plan.Most),
		Worked: []notebook.Text{notebook.Say("The plane may nowhere stand above what is there: it touches the lowest place, {} down.", micron(front)),
			notebook.Say("At the ends nothing is worn, so all of {} comes off; in the middle of the rear way {}.", micron(front), micron(front-rear))},
		Wrong: []notebook.WrongTurn{
			{Value: micron(rear), Why: notebook.Plain("The rear way was followed: the front one then still has a hollow.")},
			{Value: micron((front + rear) / 2), Why: notebook.Plain("The mean of the two was taken. A plane through the mean would need metal put on.")},
		}}, err
}

// sagExercise asks for the sag of a straightedge of the same section, longer.
func sagExercise(length unit.Length, times float64) (notebook.Exercise, error) {
	edge := wear.Beam{Length: length, Width: 25 * mm, Height: 60 * mm, Stiffness: ironStiffness, Density: ironDensity}
	short, err := wear.BeamSag(edge, 0, []unit.Length{length / 2})
	if err != nil {
		return notebook.Exercise{}, err
	}
	edge.Length *= unit.Length(times)
	long, err := wear.BeamSag(edge, 0, []unit.Length{edge.Length / 2})
	if err != nil {
		return notebook.Exercise{}, err
	}
	number := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.1, notebook.Numbers) }
	return notebook.Exercise{Name: "exercise-sag",
		Ask:    notebook.Say("A straightedge of {} on its ends hangs by {} in the middle. How much does one of the same section hang that is {} times as long?", place(length), tenth(short[0]), number(times)),
		Answer: tenth(long[0]),
		Worked: []notebook.Text{notebook.Plain("Sag on two supports goes with the fourth power of the length: the load, and the span three times over."),
			notebook.Say("{} to the fourth power is {}; times {} that is {}.", number(times), number(times*times*times*times), tenth(short[0]), tenth(long[0]))},
		Wrong: []notebook.WrongTurn{
			{Value: tenth(short[0] * unit.Length(times)), Why: notebook.Plain("In proportion to the length.")},
			{Value: tenth(short[0] * unit.Length(times*times*times)), Why: notebook.Plain("The third power holds for a load in the middle; a longer bar is also heavier.")},
		}}, nil
}

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	iron := wear.Beam{Length: 1000 * mm, Width: 25 * mm, Height: 60 * mm, Stiffness: 110e9, Density: 7200}
	unitSag := 12 * 7200 * 9.80665 / (110e9 * 0.06 * 0.06)
	ends, err := wear.BeamSag(iron, 0, []unit.Length{500 * mm})
	if err != nil {
		return err
	}
	bessel, err := wear.BeamSag(iron, 1000*mm*wear.Bessel, []unit.Length{0})
	if err != nil {
		return err
	}
	in := Inputs{EdgeLength: 1000 * mm, EdgeWidth: 25 * mm, EdgeHeight: 60 * mm}
	_, _, airy, err := in.sag(1000 * mm * wear.Airy)
	if err != nil {
		return err
	}
	// A section of 200 by 60 mm that weighs 500 N/m.
	arm := wear.Beam{Width: 200 * mm, Height: 60 * mm, Stiffness: 110e9, Density: 500 / 9.80665 / 0.2 / 0.06}
	weight, _, err := arm.Overhang(350*mm, 0)
	if err != nil {
		return err
	}
	loaded, _, err := arm.Overhang(350*mm, 400*unit.Newton)
	if err != nil {
		return err
	}
	spacing, err := wear.PointSpacing(25)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-ends", "sag-on-ends", float64(ends[0])/unitSag),
		notebook.CheckRow("check-airy", "sag-airy-range", float64(airy/um)),
		notebook.CheckRow("check-bessel", "sag-bessel-end", float64(bessel[0]/um)),
		notebook.CheckRow("check-load", "overhang-load", float64((loaded-weight)/um)),
		notebook.CheckRow("check-weight", "overhang-weight", float64(weight/um)),
		notebook.CheckRow("check-spacing", "points-spacing-25", float64(spacing/mm)),
	)
	return nil
}
