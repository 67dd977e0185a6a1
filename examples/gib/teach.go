package gib

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	set, err := settingExercise(30*um, 55*um, 10*um)
	if err != nil {
		return err
	}
	turn, err := turnExercise(30*um, 50, 1*mm)
	if err != nil {
		return err
	}
	s.Add(set, turn)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-setting", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			tight := notebook.Steps(r, 10, 40, 2*um)
			return settingExercise(tight, tight+notebook.Steps(r, 5, 25, 2*um), notebook.Pick(r, 6*um, 8*um, 10*um, 12*um))
		}},
		{Name: "exercise-turn", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return turnExercise(notebook.Steps(r, 5, 40, 2*um), notebook.Pick(r, 40.0, 50, 60, 100), notebook.Pick(r, 1*mm, 1.25*mm, 1.5*mm))
		}},
	}
}

// settingExercise asks for the play that stays at the loose place.
func settingExercise(tight, loose, film unit.Length) (notebook.Exercise, error) {
	s, err := wear.SetGib([]wear.Play{{Travel: -300 * mm, Clear: tight}, {Travel: 0, Clear: loose}}, wear.GibOptions{Film: film})
	return notebook.Exercise{Name: "exercise-setting",
		Ask:    notebook.Say("A table has {} of play at the end of its travel and {} in the middle. The oil needs {}. How much play stays in the middle when the gib is closed as far as it goes? Take the readings as exact.", micron(tight), micron(loose), micron(film)),
		Answer: micron(s.Worst),
		Worked: []notebook.Text{notebook.Say("The end lets it close by {} less {}: {}.", micron(tight), micron(film), micron(s.Close)),
			notebook.Say("The middle then has {} less {}: {}.", micron(loose), micron(s.Close), micron(s.Worst))},
		Wrong: []notebook.WrongTurn{
			{Value: micron(film), Why: notebook.Plain("That is the setting by the middle: the table then binds at the end.")},
			{Value: micron(loose - tight), Why: notebook.Plain("The film was left out: the end has no oil.")},
		}}, err
}

// turnExercise asks for the turns of a gib's screw.
func turnExercise(close unit.Length, taper float64, pitch unit.Length) (notebook.Exercise, error) {
	s, err := wear.SetGib([]wear.Play{{Clear: close}}, wear.GibOptions{Taper: wear.Slope(1 / taper), Pitch: pitch})
	number := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Numbers) }
	return notebook.Exercise{Name: "exercise-turn",
		Ask:    notebook.Say("A gib with a taper of 1 in {} is pushed along by a screw of {} pitch. How many turns close it by {}?", notebook.Stepped(taper, 1, notebook.Numbers), notebook.Stepped(pitch, 0.01*mm, notebook.Lengths), micron(close)),
		Answer: number(s.Turns),
		Worked: []notebook.Text{notebook.Say("One turn moves the gib along by {} and across by {}.", notebook.Stepped(pitch, 0.01*mm, notebook.Lengths), micron(pitch/unit.Length(taper))),
			notebook.Say("{} over {} is {} turns.", micron(close), micron(pitch/unit.Length(taper)), number(s.Turns))},
		Wrong: []notebook.WrongTurn{
			{Value: number(float64(close / pitch)), Why: notebook.Plain("The taper was forgotten: the screw moves the gib along, and only the taper moves it across.")},
			{Value: number(2 * s.Turns), Why: notebook.Plain("The play was taken on each side. There is one gap, and the gib is in it.")},
		}}, err
}

// checks adds the checks.
func checks(s *notebook.Sheet) error {
	g, err := wear.SetGib([]wear.Play{{Clear: 20 * um, U: 1 * um}}, wear.GibOptions{})
	if err != nil {
		return err
	}
	turns, err := wear.SetGib([]wear.Play{{Clear: 20 * um}}, wear.GibOptions{Taper: 1.0 / 50, Pitch: 1 * mm})
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-margin", "gib-margin", float64((20*um-g.Close)/um)), notebook.CheckRow("check-turns", "gib-turns", turns.Turns))
	return nil
}
