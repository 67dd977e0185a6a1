package process

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func (a answer) addExercises(sheet *notebook.Sheet) error {
	mean, err := meanExercise(30*um, 0.75)
	if err != nil {
		return err
	}
	boric, err := boricExercise(3*unit.Litre, 36, 40)
	if err != nil {
		return err
	}
	sheet.Add(mean, boric)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-mean", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return meanExercise(notebook.Steps(r, 4, 20, 2*um), notebook.Steps(r, 8, 17, 0.05))
		}},
		{Name: "exercise-boric", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			recipe := notebook.Pick(r, 38.0, 40, 45)
			return boricExercise(notebook.Steps(r, 2, 10, 1*unit.Litre), recipe-notebook.Steps(r, 2, 10, 1.0), recipe)
		}},
	}
}

// meanExercise asks for the mean that gives the thinnest place what is asked.
func meanExercise(least unit.Length, part float64) (notebook.Exercise, error) {
	bare, err := plating.LocalDemand{Least: least, Share: part, Chance: 0.5}.Aim()
	return notebook.Exercise{Name: "exercise-mean",
		Ask:    notebook.Say("{} are asked everywhere, and the thinnest place gets {} of the mean. What mean gives just that?", thin(least), share(part)),
		Answer: thin(bare.Mean),
		Worked: []notebook.Text{notebook.Say("The mean times {} is what the thinnest place gets, so the mean is what is asked over {}.",
			notebook.Stepped(part, 0.01, notebook.Numbers), notebook.Stepped(part, 0.01, notebook.Numbers))},
		Wrong: []notebook.WrongTurn{
			{Value: thin(least * unit.Length(part)), Why: notebook.Plain("This multiplies: it is what the thinnest place gets of a mean of what is asked.")},
			{Value: thin(least * unit.Length(2-part)), Why: notebook.Plain("This adds what the place lacks to what is asked; the share is of the mean.")},
			{Value: thin(least), Why: notebook.Plain("This takes the mean for the thinnest place.")},
		}}, err
}

// boricExercise asks how much boric acid brings a bath back. Held and recipe
// are in g/L.
func boricExercise(volume unit.Volume, held, recipe float64) (notebook.Exercise, error) {
	now, wanted := plating.WattsRecipe(300, 45, plating.Concentration(held)), plating.WattsRecipe(300, 45, plating.Concentration(recipe))
	additions, err := plating.Analysis{Nickel: now.Nickel(), Chloride: now.Chloride(), Boric: plating.Concentration(held)}.Additions(wanted, volume)
	if err != nil {
		return notebook.Exercise{}, err
	}
	var boric unit.Mass
	for _, x := range additions {
		if x.Mass > boric {
			boric = x.Mass // nothing else is missing
		}
	}
	mass := func(m unit.Mass) notebook.Quantity { return notebook.Exact(m, notebook.Masses).WithDigits(2) }
	litres := notebook.Exact(volume, notebook.Same(notebook.Litre)).WithDigits(2)
	perLitre := func(c float64) notebook.Quantity {
		return notebook.Stepped(c, 1, notebook.Same(notebook.GramPerLitre))
	}
	return notebook.Exercise{Name: "exercise-boric",
		Ask:    notebook.Say("{} of bath hold {} of boric acid; the recipe says {}. How much brings it back?", litres, perLitre(held), perLitre(recipe)),
		Answer: mass(boric),
		Worked: []notebook.Text{notebook.Say("{} are missing, in {}.", perLitre(recipe-held), litres)},
		Wrong: []notebook.WrongTurn{
			{Value: mass(unit.Mass(recipe-held) * unit.Milli * unit.Kilogram), Why: notebook.Plain("This is for one litre.")},
			{Value: mass(unit.Mass(recipe * float64(volume))), Why: notebook.Plain("This makes the bath up from nothing.")},
			{Value: mass(unit.Mass(held * float64(volume))), Why: notebook.Plain("This is what the bath holds already.")},
		}}, nil
}
