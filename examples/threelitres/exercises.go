package threelitres

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	acid, err := acidExercise(13.85*plating.AmpereHour, 0.95)
	if err != nil {
		return err
	}
	nickel, err := nickelExercise(5*litre, 300, 45)
	if err != nil {
		return err
	}
	sheet.Add(acid, nickel)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-acid", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return acidExercise(notebook.Steps(r, 10, 80, 0.5*plating.AmpereHour), notebook.Steps(r, 90, 97, 0.01))
		}},
		{Name: "exercise-nickel", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return nickelExercise(notebook.Steps(r, 4, 20, 0.5*litre), notebook.Steps(r, 24, 33, plating.Concentration(10)), notebook.Pick[plating.Concentration](r, 35, 40, 45, 50, 60))
		}},
	}
}

// acidExercise asks for the sulfuric acid that a charge uses up.
func acidExercise(charge unit.Charge, efficiency float64) (notebook.Exercise, error) {
	bath, err := plating.Bath{Volume: 3 * litre, Nickel: 75 * plating.GramPerLitre}.After(plating.Work{Charge: charge, CathodeEfficiency: efficiency, AnodeEfficiency: 1})
	if err != nil {
		return notebook.Exercise{}, err
	}
	acid, err := plating.SulfuricAcid(bath.AcidLost)
	moles := notebook.Exact(bath.AcidLost, notebook.Same(notebook.Unit{Symbol: "mol", Scale: 1})).WithDigits(2)
	percent := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Percents) }
	return notebook.Exercise{Name: "exercise-acid",
		Ask:    notebook.Say("{} went through a bath whose cathode works at {} and whose anode at 100 %. How much sulfuric acid, as 100 %, is gone?", notebook.Exact(charge, notebook.Charges).WithDigits(4), percent(efficiency)),
		Answer: grams(acid, 3),
		Worked: []notebook.Text{
			notebook.Say("{} of the charge, over the charge of a mole of electrons, is {} of hydrogen ions.", percent(1-efficiency), moles),
			notebook.Say("Each molecule of sulfuric acid brings two: {}.", grams(acid, 3)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: grams(2*acid, 3), Why: notebook.Plain("This takes one hydrogen ion from each molecule of acid; there are two.")},
			{Value: grams(acid*unit.Mass(efficiency/(1-efficiency)), 3), Why: notebook.Plain("This takes the share that lays down nickel. The other share makes the hydrogen.")},
			{Value: grams(acid/unit.Mass(1-efficiency), 3), Why: notebook.Plain("This lets the whole charge make hydrogen.")},
		}}, err
}

// nickelExercise asks for the metal in a bath.
func nickelExercise(volume unit.Volume, sulfate, chloride plating.Concentration) (notebook.Exercise, error) {
	watts := plating.WattsRecipe(sulfate*plating.GramPerLitre, chloride*plating.GramPerLitre, 40*plating.GramPerLitre)
	masses, err := watts.Weighed(volume)
	if err != nil {
		return notebook.Exercise{}, err
	}
	nickel := unit.Mass(float64(watts.Nickel()) * float64(volume))
	return notebook.Exercise{Name: "exercise-nickel",
		Ask: notebook.Say("{} of a bath with {} of nickel sulfate hexahydrate and {} of nickel chloride hexahydrate: how much nickel metal is that?",
			notebook.Exact(volume, notebook.Volumes).WithDigits(3), perLitre(sulfate*plating.GramPerLitre, 3), perLitre(chloride*plating.GramPerLitre, 3)),
		Answer: grams(nickel, 4),
		Worked: []notebook.Text{notebook.Say("{} of sulfate and {} of chloride, of which 22.33 % and 24.69 % are nickel.", grams(masses[0], 4), grams(masses[1], 3))},
		Wrong: []notebook.WrongTurn{
			{Value: grams(masses[0]+masses[1], 4), Why: notebook.Plain("This counts the salts as metal. Most of a salt is water and sulfate.")},
			{Value: grams(nickel/unit.Mass(volume/litre), 4), Why: notebook.Plain("This is for one litre.")},
		}}, nil
}
