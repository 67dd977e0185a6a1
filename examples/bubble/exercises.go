package bubble

import (
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises on the shop's readings.
func exerciseItems(s *notebook.Sheet) error {
	reading, err := readingExercise()
	if err != nil {
		return err
	}
	floor, err := floorExercise()
	if err != nil {
		return err
	}
	s.Add(reading, floor)
	return nil
}

// divisions is a number of divisions, read to a quarter at the finest.
func divisions(x float64) notebook.Quantity {
	return notebook.Stepped(x, 0.25, notebook.Numbers)
}

// read is a reading of the level, in divisions.
func read(x float64) notebook.Quantity { return notebook.Stepped(x, 0.1, notebook.Numbers) }

func slope(x wear.Slope) notebook.Quantity { return notebook.Stepped(x, 1e-6, notebook.Slopes) }

// readingExercise asks for the slope and the zero of one station of 2025.
func readingExercise() (notebook.Exercise, error) {
	_, rows := actionshop.SecondLevelSurvey()
	r := rows[1]
	survey, err := wear.ReadLevel([]wear.LevelStation{{Position: -r.Travel, Normal: r.AlongNormal, Turned: r.AlongTurned}},
		wear.LevelOptions{Division: actionshop.LevelDivision})
	if err != nil {
		return notebook.Exercise{}, err
	}
	p := survey.Points[0]
	division := wear.Slope(actionshop.LevelDivision)
	return notebook.Exercise{Name: "exercise-reading",
		Ask: notebook.Say("At X = {} in 2025 the level along the table reads {} divisions, and {} turned end for end. One division is {}. What is the slope of the table there, and what is the zero of the level?",
			place(r.Travel), read(r.AlongNormal), read(r.AlongTurned), slope(division)),
		Answer: notebook.Of(p.Slope, p.SlopeU, notebook.Slopes),
		Worked: []notebook.Text{
			notebook.Say("Half the difference is {} divisions: the slope.", divisions((r.AlongNormal-r.AlongTurned)/2)),
			notebook.Say("Half the sum is {} divisions, or {}: the zero of the level.", divisions((r.AlongNormal+r.AlongTurned)/2), slope(p.Zero)),
			notebook.Say("Rounded to half a division, one station alone is sure to {}.", notebook.Stepped(p.SlopeU, 0.1e-6, notebook.Slopes)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(2 * p.Slope), Why: notebook.Plain("The difference was not halved.")},
			{Value: slope(p.Zero), Why: notebook.Plain("The sum was taken: that is the level's own error.")},
			{Value: slope(wear.Slope(r.AlongNormal) * division), Why: notebook.Plain("One reading was believed: it still holds the level's error.")},
		}}, nil
}

// floorExercise asks how much of the change at X = 0 is the ways' own.
func floorExercise() (notebook.Exercise, error) {
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
	return notebook.Exercise{Name: "exercise-floor",
		Ask: notebook.Say("Between 2019 and 2025 the slope along the table changed by {} at X = 0. At X = {}, where the ways are hardly used, it changed by {}. How much of the change at X = 0 is wear?",
			slope(middle.Total), place(*in.Spared), slope(change.Floor)),
		Answer: notebook.Of(middle.Own, middle.OwnU, notebook.Slopes),
		Worked: []notebook.Text{
			notebook.Say("A floor that settles tilts the whole machine: it adds the same {} at every station.", slope(change.Floor)),
			notebook.Say("{} less {} leaves {}.", slope(middle.Total), slope(change.Floor), slope(middle.Own)),
			notebook.Say("Each change is sure to {}, so their difference is sure to {}.", notebook.Stepped(middle.TotalU, 0.1e-6, notebook.Slopes), notebook.Stepped(middle.OwnU, 0.1e-6, notebook.Slopes)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(middle.Total), Why: notebook.Plain("The floor was left in.")},
			{Value: slope(middle.Total + change.Floor), Why: notebook.Plain("The floor was added instead of taken off.")},
			{Value: slope(middle.Own / 2), Why: notebook.Plain("The difference was halved: only the two readings at one station are.")},
		}}, nil
}

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
