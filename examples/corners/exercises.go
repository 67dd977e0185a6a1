package corners

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func (a answer) addExercises(sheet *notebook.Sheet) error {
	wagner, err := wagnerExercise(8*plating.SiemensPerMetre, 120e-3*unit.Volt, 19*mm, 3*aDM2)
	if err != nil {
		return err
	}
	sheet.Add(cornerExercise(1.75, 5*aDM2), wagner)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-corner", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return cornerExercise(notebook.Steps(r, 25, 50, 0.05), notebook.Steps(r, 6, 16, 0.5*aDM2)), nil
		}},
		{Name: "exercise-wagner", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return wagnerExercise(notebook.Steps(r, 5, 20, 1*plating.SiemensPerMetre), notebook.Steps(r, 8, 15, 10e-3*unit.Volt),
				notebook.Steps(r, 2, 20, 5*mm), notebook.Steps(r, 2, 12, 0.5*aDM2))
		}},
	}
}

// cornerExercise asks for the mean that keeps a corner below its limit.
func cornerExercise(factor float64, limit plating.CurrentDensity) notebook.Exercise {
	shown := func(j plating.CurrentDensity) notebook.Quantity { return notebook.Exact(j, notebook.CurrentDensities) }
	j := limit / plating.CurrentDensity(factor)
	return notebook.Exercise{Name: "exercise-corner",
		Ask:    notebook.Say("A corner gets {} of the mean. What mean keeps it at {}?", share(factor), density(limit)),
		Answer: shown(j),
		Worked: []notebook.Text{notebook.Say("The corner has {} times the mean, so the mean is the corner's current density over {}.",
			notebook.Stepped(factor, 0.01, notebook.Numbers), notebook.Stepped(factor, 0.01, notebook.Numbers))},
		Wrong: []notebook.WrongTurn{
			{Value: shown(limit * plating.CurrentDensity(factor)), Why: notebook.Plain("This multiplies: it takes the limit for the mean.")},
			{Value: shown(limit), Why: notebook.Plain("This forgets the corner: the mean is not what the corner gets.")},
			{Value: shown(limit * plating.CurrentDensity(2-factor)), Why: notebook.Plain("This takes the corner's surplus off the limit; the surplus is of the mean.")},
		}}
}

// wagnerExercise asks for the Wagner number of a plate. Tenfold is the step of
// the overpotential for ten times the current density.
func wagnerExercise(conductivity plating.Conductivity, tenfold unit.Voltage, long unit.Length, j plating.CurrentDensity) (notebook.Exercise, error) {
	slope := plating.AreaResistance(float64(tenfold) / math.Ln10 / float64(j))
	wagner, err := plating.WagnerNumber(conductivity, slope, long)
	number := func(x float64) notebook.Quantity { return notebook.Exact(x, notebook.Numbers).WithDigits(2) }
	volts := notebook.Exact(tenfold, notebook.Same(notebook.Millivolt))
	siemens := notebook.Exact(conductivity, notebook.Same(notebook.Siemens)).WithDigits(2)
	return notebook.Exercise{Name: "exercise-wagner",
		Ask:    notebook.Say("A bath of {}, {} for ten times the current density, a plate of {} at {}. What is the Wagner number?", siemens, volts, size(long), density(j)),
		Answer: number(wagner),
		Worked: []notebook.Text{
			notebook.Say("The slope of the overpotential is {} over 2.303 and over {}: {}.", volts, notebook.Exact(j, notebook.Same(notebook.Unit{Symbol: "A/m²", Scale: 1})),
				notebook.Exact(slope, notebook.Same(notebook.Unit{Symbol: "Ω·m²", Scale: 1}))),
			notebook.Say("Times {} and over {} that is {}. Well below 1 the shape of the tank rules; well above it the bath evens out.", siemens, size(long), number(wagner)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: number(wagner * math.Ln10), Why: notebook.Plain("This leaves out the 2.303: the slope is per factor e, the step of the overpotential per factor ten.")},
			{Value: number(wagner * 100), Why: notebook.Plain("This takes A/dm² for A/m².")},
			{Value: number(1 / wagner), Why: notebook.Plain("This is upside down: the slope and the conductivity stand above, the length below.")},
		}}, err
}
