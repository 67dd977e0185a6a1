package bubble

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// checkItems adds the checks against published values.
func checkItems(s *notebook.Sheet) error {
	reversed, err := wear.ReadLevel([]wear.LevelStation{{Normal: 35, Turned: 11}}, wear.LevelOptions{Division: 1e-6})
	if err != nil {
		return err
	}
	p := reversed.Points[0]
	s.Add(
		notebook.CheckRow("check-arcsec", "level-002-arcsec", float64(0.02*wear.MillimetrePerMetre/wear.ArcSecond)),
		notebook.CheckRow("check-rise", "level-arcsec-100mm", float64(wear.ArcSecond.Rise(100*mm)/um)),
		notebook.CheckRow("check-surface", "level-reversal-surface", float64(p.Slope/wear.MillimetrePerMetre)),
		notebook.CheckRow("check-zero", "level-reversal-zero", float64(p.Zero/wear.MillimetrePerMetre)),
	)
	walk := make([]wear.Step, 0, 8)
	for _, reading := range []wear.Slope{1, 0.5, 0, -0.5, 0.5, -1, -1.5, -0.5} {
		walk = append(walk, wear.Step{Base: 250 * mm, Slope: reading * 20e-6, U: 2e-6})
	}
	profile, err := wear.ProfileFromSteps(0, walk, 0)
	if err != nil {
		return err
	}
	for i, row := range []string{"straight-level-ends", "straight-level-least", "straight-level-zone"} {
		straight, err := wear.StraightnessOf(profile.Points, references[i])
		if err != nil {
			return err
		}
		s.Add(notebook.CheckRow("check-"+[]string{"ends", "least", "zone"}[i], row, float64(straight.Value/um)))
	}
	return nil
}

// exerciseItems adds two exercises on the shop's readings.
func exerciseItems(s *notebook.Sheet) error {
	_, rows := actionshop.SecondLevelSurvey()
	reading, err := readingExercise(rows[1].Travel, rows[1].AlongNormal, rows[1].AlongTurned)
	if err != nil {
		return err
	}
	floor, err := shopFloorExercise()
	if err != nil {
		return err
	}
	s.Add(reading, floor)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	travel := func(r *rand.Rand) unit.Length { return notebook.Either(r, notebook.Steps(r, 2, 6, 60*mm)) }
	return []notebook.Drill{
		{Name: "exercise-reading", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			table, zero := notebook.Either(r, notebook.Steps(r, 3, 30, 0.5)), notebook.Either(r, notebook.Steps(r, 1, 8, 0.5))
			return readingExercise(travel(r), table+zero, zero-table)
		}},
		{Name: "exercise-floor", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			u := notebook.Steps(r, 2, 5, wear.Slope(1e-6))
			floor := notebook.Either(r, notebook.Steps(r, 20, 60, wear.Slope(1e-6)))
			own := notebook.Either(r, notebook.Steps(r, 15, 90, wear.Slope(1e-6)))
			return floorExercise(travel(r), floor+own, floor, u, wear.Slope(math.Sqrt2)*u), nil
		}},
	}
}

// divisions is a number of divisions, read to a quarter at the finest.
func divisions(x float64) notebook.Quantity {
	return notebook.Stepped(x, 0.25, notebook.Numbers)
}

// read is a reading of the level, in divisions.
func read(x float64) notebook.Quantity { return notebook.Stepped(x, 0.1, notebook.Numbers) }

func slope(x wear.Slope) notebook.Quantity { return notebook.Stepped(x, 1e-6, notebook.Slopes) }

// readingExercise asks for the slope at one station and the level's zero.
func readingExercise(travel unit.Length, normal, turned float64) (notebook.Exercise, error) {
	survey, err := wear.ReadLevel([]wear.LevelStation{{Position: -travel, Normal: normal, Turned: turned}},
		wear.LevelOptions{Division: actionshop.LevelDivision})
	if err != nil {
		return notebook.Exercise{}, err
	}
	p := survey.Points[0]
	division := wear.Slope(actionshop.LevelDivision)
	return notebook.Exercise{Name: "exercise-reading",
		Ask: notebook.Say("At X = {} the level along the table reads {} divisions, and {} turned end for end. One division is {}. What is the slope of the table there? And what is the zero of the level?",
			place(travel), read(normal), read(turned), slope(division)),
		Answer: notebook.Of(p.Slope, p.SlopeU, notebook.Slopes),
		Worked: []notebook.Text{
			notebook.Say("Half the difference is {} divisions: the slope.", divisions((normal-turned)/2)),
			notebook.Say("Half the sum is {} divisions, or {}: the zero of the level.", divisions((normal+turned)/2), slope(p.Zero)),
			notebook.Say("Rounded to half a division, one station alone is sure to {}.", notebook.Stepped(p.SlopeU, 0.1e-6, notebook.Slopes)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(2 * p.Slope), Why: notebook.Plain("The difference was not halved.")},
			{Value: slope(p.Zero), Why: notebook.Plain("The sum was taken: that is the level's own error.")},
			{Value: slope(wear.Slope(normal) * division), Why: notebook.Plain("One reading was believed: it still holds the level's error.")},
			{Value: slope(-p.Slope), Why: notebook.Plain("The sign was turned: the first reading counts, less the turned one.")},
		}}, nil
}

// shopFloorExercise asks how much of the shop's change at X = 0 is the ways'
// own.
func shopFloorExercise() (notebook.Exercise, error) {
	in := Defaults()
	first, err := readSurvey(in, "first", in.FirstDay, in.First)
	if err != nil {
		return notebook.Exercise{}, err
	}
	second, err := readSurvey(in, "second", in.SecondDay, in.Second)
	if err != nil {
		return notebook.Exercise{}, err
	}
	change, err := wear.CompareSlopes(first.along.SlopePoints(), second.along.SlopePoints(), wear.ChangeOptions{Unworn: []unit.Length{-*in.Spared}})
	if err != nil {
		return notebook.Exercise{}, err
	}
	middle := change.Stations[len(change.Stations)/2]
	return floorExercise(*in.Spared, middle.Total, change.Floor, middle.TotalU, middle.OwnU), nil
}

// floorExercise asks how much of a change at X = 0 is wear, when a place hardly
// used has changed too.
func floorExercise(spared unit.Length, total, floor, totalU, ownU wear.Slope) notebook.Exercise {
	own := total - floor
	return notebook.Exercise{Name: "exercise-floor",
		Ask: notebook.Say("Between two surveys the slope along the table changed by {} at X = 0. At X = {}, where the ways are hardly used, it changed by {}. How much of the change at X = 0 is wear?",
			slope(total), place(spared), slope(floor)),
		Answer: notebook.Of(own, ownU, notebook.Slopes),
		Worked: []notebook.Text{
			notebook.Say("A floor that settles tilts the whole machine: it adds the same {} at every station.", slope(floor)),
			notebook.Say("{} less {} leaves {}.", slope(total), slope(floor), slope(own)),
			notebook.Say("Each change is sure to {}, so their difference is sure to {}.", notebook.Stepped(totalU, 0.1e-6, notebook.Slopes), notebook.Stepped(ownU, 0.1e-6, notebook.Slopes)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(total), Why: notebook.Plain("The floor was left in.")},
			{Value: slope(total + floor), Why: notebook.Plain("The floor was added instead of taken off.")},
			{Value: slope(own / 2), Why: notebook.Plain("The difference was halved: only the two readings at one station are.")},
		}}
}
