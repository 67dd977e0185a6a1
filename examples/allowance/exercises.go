package allowance

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// coarse is a screw of the coarse series.
type coarse struct {
	name  string
	pitch unit.Length
}

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	screw, err := screwExercise(coarse{"M4 × 0.7", 0.7 * mm}, 1.5*plating.AmperePerSquareDecimetre)
	if err != nil {
		return err
	}
	pin, err := pinExercise(10*mm, 20*um)
	if err != nil {
		return err
	}
	sheet.Add(screw, pin)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-screw", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			screw := notebook.Pick(r, coarse{"M3 × 0.5", 0.5 * mm}, coarse{"M4 × 0.7", 0.7 * mm}, coarse{"M5 × 0.8", 0.8 * mm},
				coarse{"M6 × 1", 1 * mm}, coarse{"M8 × 1.25", 1.25 * mm}, coarse{"M12 × 1.75", 1.75 * mm})
			return screwExercise(screw, notebook.Steps(r, 4, 16, 0.25*plating.AmperePerSquareDecimetre))
		}},
		{Name: "exercise-pin", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return pinExercise(notebook.Steps(r, 6, 60, 0.5*mm), notebook.Steps(r, 5, 30, 1*um))
		}},
	}
}

// screwExercise asks how long a screw may be plated.
func screwExercise(screw coarse, j plating.CurrentDensity) (notebook.Exercise, error) {
	const efficiency = 0.95
	room, _, err := plating.Allowance(screw.pitch, plating.PositionG)
	if err != nil {
		return notebook.Exercise{}, err
	}
	most, err := plating.FlankThicknessLimit(room, plating.ISOThread)
	if err != nil {
		return notebook.Exercise{}, err
	}
	t, err := plating.Nickel().Deposit().TimeFor(most, j, efficiency)
	minutes := func(t unit.Time) notebook.Quantity { return notebook.Exact(t, notebook.Minutes) }
	return notebook.Exercise{Name: "exercise-screw",
		Ask: notebook.Say("An "+screw.name+" screw at 6g has an allowance of {}. How long may it be plated at {} and {} before the basic size is passed?",
			fine(room).WithDigits(2), notebook.Exact(j, notebook.CurrentDensities), percent(efficiency, 2)),
		Answer: minutes(t),
		Worked: []notebook.Text{notebook.Say("A quarter of the allowance may lie on the flanks: {}.", fine(most)), notebook.Say("That takes {}.", minutes(t))},
		Wrong: []notebook.WrongTurn{
			{Value: minutes(2 * t), Why: notebook.Plain("This treats the thread as a plain pin, twice the thickness on the diameter.")},
			{Value: minutes(4 * t), Why: notebook.Plain("This puts the whole allowance on the flank.")},
			{Value: minutes(t * efficiency), Why: notebook.Plain("This forgets the efficiency: part of the current makes hydrogen.")},
		}}, err
}

// pinExercise asks what a pin is turned to before plating.
func pinExercise(over, nickel unit.Length) (notebook.Exercise, error) {
	cut, err := plating.CutSize(plating.Pin, plating.Limits{Least: over, Greatest: over}, plating.LocalCoat{Mean: nickel, Share: 1})
	return notebook.Exercise{Name: "exercise-pin",
		Ask:    notebook.Say("A pin must measure {} over {} of nickel. What do you turn it to?", size(over), fine(nickel)),
		Answer: size(cut),
		Within: float64(2 * um),
		Worked: []notebook.Text{notebook.Say("Two thicknesses on the diameter: {} off.", fine(2*nickel))},
		Wrong: []notebook.WrongTurn{
			{Value: size(over - nickel), Why: notebook.Plain("This counts one side only.")},
			{Value: size(over + 2*nickel), Why: notebook.Plain("This adds the nickel: the pin must be smaller before plating.")},
			{Value: size(over), Why: notebook.Plain("This leaves no room for the nickel.")},
		}}, err
}
