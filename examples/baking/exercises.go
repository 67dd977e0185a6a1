package baking

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	spring, err := springExercise("A flat spring", 46)
	if err != nil {
		return err
	}
	gas, err := gasExercise(2*unit.Ampere, 1)
	if err != nil {
		return err
	}
	sheet.Add(spring, gas)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-spring", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			part := notebook.Pick(r, "A flat spring", "A leaf spring", "A spring anchor", "A hardened screw", "A hard pin")
			return springExercise(part, 33+r.IntN(19))
		}},
		{Name: "exercise-gas", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			halfAmpere := 0.5 * unit.Ampere
			return gasExercise(notebook.Steps(r, 1, 20, halfAmpere), notebook.Steps(r, 1, 8, 0.5))
		}},
	}
}

// bakeHours returns the bake of a whole degree of hardness and the bounds of the
// table's row that it lies in.
func bakeHours(hardness int) (bake plating.Bake, from, to int, err error) {
	if bake, err = plating.BakeForHardness(float64(hardness)); err != nil {
		return bake, 0, 0, err
	}
	same := func(other int) bool {
		b, err := plating.BakeForHardness(float64(other))
		return err == nil && b.Needed && b.Least == bake.Least
	}
	for from = hardness; same(from - 1); {
		from--
	}
	for to = hardness + 1; same(to); {
		to++
	}
	return bake, from, min(to, 51), nil
}

// springExercise asks for the bake of a hard part.
func springExercise(part string, hardness int) (notebook.Exercise, error) {
	bake, from, to, err := bakeHours(hardness)
	if err != nil {
		return notebook.Exercise{}, err
	}
	softer, below, _, err := bakeHours(from - 1)
	if err != nil {
		return notebook.Exercise{}, err
	}
	whole := func(n int) notebook.Quantity { return notebook.Whole(n) }
	return notebook.Exercise{Name: "exercise-spring",
		Ask:    notebook.Say(part+" of {} HRC has been plated. How long must it be baked at least?", whole(hardness)),
		Answer: hours(bake.Least),
		Worked: []notebook.Text{notebook.Say("{} lies in the row {} to {}. Where two rows meet, the longer time counts.", whole(hardness), whole(from), whole(to))},
		Wrong: []notebook.WrongTurn{
			{Value: hours(softer.Least), Why: notebook.Say("This takes the row below, {} to {}. Go to the longer time.", whole(below), whole(from))},
			{Value: hours(0 * unit.Second), Why: notebook.Plain("Steel from 31 HRC on is baked.")},
		}}, nil
}

// gasExercise asks for the hydrogen that a current makes at the most.
func gasExercise(current unit.Current, hours float64) (notebook.Exercise, error) {
	flow, err := plating.AirForHydrogen(current, 1, plating.Celsius(20))
	if err != nil {
		return notebook.Exercise{}, err
	}
	litres := func(v float64) notebook.Quantity {
		return notebook.Exact(v, notebook.Same(notebook.Litre)).WithDigits(2)
	}
	seconds := hours * 3600
	made := flow * seconds
	charge := float64(current) * seconds
	plain := func(x float64) notebook.Quantity { return notebook.Exact(x, notebook.Numbers).WithDigits(2) }
	return notebook.Exercise{Name: "exercise-gas",
		Ask: notebook.Say("{} flow, and suppose that all of it makes hydrogen, at {}. How much gas is that in {}?",
			notebook.Exact(current, notebook.Currents).WithDigits(2), notebook.Stepped(plating.Celsius(20), 1*unit.Kelvin, notebook.Temperatures), notebook.Exact(seconds, notebook.Hours).WithDigits(2)),
		Answer: litres(made),
		Worked: []notebook.Text{notebook.Say("{} C over two moles of electrons' charge is {} mol; at 20 °C a mole of gas takes 24 L.",
			notebook.Stepped(charge, 100, notebook.Numbers), plain(charge/(2*96485)))},
		Wrong: []notebook.WrongTurn{{Value: litres(2 * made), Why: notebook.Plain("This takes one electron for a molecule of hydrogen; it takes two.")},
			{Value: litres(flow * 3600), Why: notebook.Plain("This is for one hour.")},
		}}, nil
}
