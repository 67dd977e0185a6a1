package amps

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	minutes, err := minutesExercise(10*um, 3*plating.AmperePerSquareDecimetre, ninetyFive)
	if err != nil {
		return err
	}
	run := actionshop.PlatingLog()[2]
	thickness, err := thicknessExercise("Four escutcheons", plating.Coat{Area: run.Area, Current: run.Current, Time: run.Time, Efficiency: ninetyFive})
	if err != nil {
		return err
	}
	sheet.Add(minutes, thickness)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	efficiency := func(r *rand.Rand) float64 { return notebook.Steps(r, 90, 97, 0.01) }
	return []notebook.Drill{
		{Name: "exercise-minutes", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return minutesExercise(notebook.Steps(r, 3, 25, 1*um), notebook.Steps(r, 2, 12, 0.5*plating.AmperePerSquareDecimetre), efficiency(r))
		}},
		{Name: "exercise-thickness", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			parts := notebook.Pick(r, "Six valve levers", "Twenty reed-frame blanks", "A dozen spring anchors", "Three hinge sleeves")
			area, density := notebook.Steps(r, 4, 15, unit.Area(10e-4)), notebook.Pick(r, 100.0, 150, 200, 250, 300, 400) // m2, A/m2
			return thicknessExercise(parts, plating.Coat{Area: area, Current: unit.Current(float64(area) * density),
				Time: notebook.Steps(r, 3, 12, unit.Time(300)*unit.Second), Efficiency: efficiency(r)})
		}},
	}
}

// share is an efficiency.
func share(x float64) notebook.Quantity { return notebook.Exact(x, notebook.Percents).WithDigits(2) }

// minutesExercise asks for the time of a thickness.
func minutesExercise(thickness unit.Length, j plating.CurrentDensity, efficiency float64) (notebook.Exercise, error) {
	nickel := plating.Nickel().Deposit()
	t, err := nickel.TimeFor(thickness, j, efficiency)
	if err != nil {
		return notebook.Exercise{}, err
	}
	full, err := nickel.TimeFor(thickness, j, 1)
	if err != nil {
		return notebook.Exercise{}, err
	}
	rate, err := nickel.Rate(j, efficiency)
	if err != nil {
		return notebook.Exercise{}, err
	}
	asked := notebook.Exact(thickness, notebook.FineLengths)
	return notebook.Exercise{Name: "exercise-minutes",
		Ask:    notebook.Say("How long does a mean of {} take at {} and {}?", asked, notebook.Exact(j, notebook.CurrentDensities), share(efficiency)),
		Answer: notebook.Exact(t, notebook.Minutes),
		Worked: []notebook.Text{
			notebook.Say("At that current density the mean grows {} a minute.", notebook.Exact(float64(rate)*60, notebook.FineLengths)),
			notebook.Say("{} over that is {}.", asked, notebook.Exact(t, notebook.Minutes)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Exact(full, notebook.Minutes), Why: notebook.Plain("This forgets the efficiency: part of the current makes hydrogen.")},
			{Value: notebook.Exact(float64(full)*efficiency, notebook.Minutes), Why: notebook.Plain("This multiplies by the efficiency. Less metal for each ampere takes longer, not shorter.")},
		}}, nil
}

// thicknessExercise asks for the mean thickness of a run.
func thicknessExercise(parts string, run plating.Coat) (notebook.Exercise, error) {
	run.Deposit = plating.Nickel().Deposit()
	coat, err := run.Solve()
	if err != nil {
		return notebook.Exercise{}, err
	}
	shown := notebook.Exact(coat.Thickness, notebook.FineLengths)
	return notebook.Exercise{Name: "exercise-thickness",
		Ask: notebook.Say(parts+", {} together, hung for {} at {} and {}. How thick is the nickel on average?",
			notebook.Exact(run.Area, notebook.Areas), notebook.Exact(run.Time, notebook.Minutes).WithDigits(2), notebook.Exact(run.Current, notebook.Currents), share(run.Efficiency)),
		Answer: shown,
		Worked: []notebook.Text{
			notebook.Say("The charge is {}.", notebook.Exact(coat.Charge, notebook.Charges)),
			notebook.Say("At {} that lays down {}.", share(run.Efficiency), notebook.Exact(coat.Mass, notebook.Masses)),
			notebook.Say("Over {} at {} that is {}.", notebook.Exact(run.Area, notebook.Areas),
				notebook.Exact(plating.Nickel().Density, notebook.Same(notebook.GramPerCM3)).WithDigits(4), shown),
		},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Exact(2*coat.Thickness, notebook.FineLengths), Why: notebook.Plain("This counts one face only. Metal goes on every wetted face.")},
			{Value: notebook.Exact(coat.Thickness/unit.Length(run.Efficiency*run.Efficiency), notebook.FineLengths), Why: notebook.Plain("This divides by the efficiency, a slip that stands in a widely copied textbook solution.")},
			{Value: notebook.Exact(coat.Thickness/unit.Length(run.Efficiency), notebook.FineLengths), Why: notebook.Plain("This forgets the efficiency: part of the current makes hydrogen.")},
		}}, nil
}
