package amps

import (
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	minutes, err := minutesExercise()
	if err != nil {
		return err
	}
	thickness, err := thicknessExercise()
	if err != nil {
		return err
	}
	sheet.Add(minutes, thickness)
	return nil
}

// minutesExercise asks for the time of a thickness.
func minutesExercise() (notebook.Exercise, error) {
	nickel, j := plating.Nickel().Deposit(), 3*plating.AmperePerSquareDecimetre
	t, err := nickel.TimeFor(10*um, j, ninetyFive)
	if err != nil {
		return notebook.Exercise{}, err
	}
	full, err := nickel.TimeFor(10*um, j, 1)
	if err != nil {
		return notebook.Exercise{}, err
	}
	rate, err := nickel.Rate(j, ninetyFive)
	if err != nil {
		return notebook.Exercise{}, err
	}
	perMinute := notebook.Exact(float64(rate)*60*float64(um)/float64(um), notebook.FineLengths)
	return notebook.Exercise{Name: "exercise-minutes",
		Ask: notebook.Say("How long does a mean of {} take at {} and 95 %?", notebook.Exact(10*um, notebook.FineLengths).WithDigits(2),
			notebook.Exact(j, notebook.CurrentDensities)),
		Answer: notebook.Exact(t, notebook.Minutes),
		Worked: []notebook.Text{
			notebook.Say("At that current density the mean grows {} a minute.", perMinute),
			notebook.Say("{} over that is {}.", notebook.Exact(10*um, notebook.FineLengths).WithDigits(2), notebook.Exact(t, notebook.Minutes)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Exact(full, notebook.Minutes), Why: notebook.Plain("This forgets the efficiency: 5 % of the current makes hydrogen.")},
			{Value: notebook.Exact(full*ninetyFive, notebook.Minutes), Why: notebook.Plain("This multiplies by the efficiency. Less metal for each ampere takes longer, not shorter.")},
		}}, nil
}

// thicknessExercise asks for the mean thickness of run 3.
func thicknessExercise() (notebook.Exercise, error) {
	run := actionshop.PlatingLog()[2]
	coat, err := plating.Coat{Deposit: plating.Nickel().Deposit(), Area: run.Area, Current: run.Current, Time: run.Time, Efficiency: ninetyFive}.Solve()
	if err != nil {
		return notebook.Exercise{}, err
	}
	shown := notebook.Exact(coat.Thickness, notebook.FineLengths)
	return notebook.Exercise{Name: "exercise-thickness",
		Ask: notebook.Say("Four escutcheons, {} together, hung for {} at {} and 95 %. How thick is the nickel on average?",
			notebook.Exact(run.Area, notebook.Areas), notebook.Exact(run.Time, notebook.Minutes).WithDigits(2), notebook.Exact(run.Current, notebook.Currents)),
		Answer: shown,
		Worked: []notebook.Text{
			notebook.Say("The charge is {}.", notebook.Exact(coat.Charge, notebook.Charges)),
			notebook.Say("At 95 % that lays down {}.", notebook.Exact(coat.Mass, notebook.Masses)),
			notebook.Say("Over {} at {} that is {}.", notebook.Exact(run.Area, notebook.Areas),
				notebook.Exact(plating.Nickel().Density, notebook.Same(notebook.GramPerCM3)).WithDigits(4), shown),
		},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Exact(2*coat.Thickness, notebook.FineLengths), Why: notebook.Plain("This counts one face only. Metal goes on every wetted face.")},
			{Value: notebook.Exact(coat.Thickness/(ninetyFive*ninetyFive), notebook.FineLengths), Why: notebook.Plain("This divides by the efficiency, a slip that stands in a widely copied textbook solution.")},
		}}, nil
}
