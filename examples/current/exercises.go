package current

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	resistance, err := ductExercise(100*mm, 100*mm, 100*mm)
	if err != nil {
		return err
	}
	wagner, err := wagnerExercise(50*mm, 3*aDM2, 0.5)
	if err != nil {
		return err
	}
	sheet.Add(resistance, wagner)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-duct", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return ductExercise(notebook.Steps(r, 5, 15, 20*mm), notebook.Steps(r, 3, 8, 20*mm), notebook.Steps(r, 3, 8, 20*mm))
		}},
		{Name: "exercise-wagner", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return wagnerExercise(notebook.Steps(r, 2, 12, 10*mm), notebook.Steps(r, 2, 8, 0.5*aDM2), notebook.Pick(r, 0.25, 0.5, 1.5, 2, 3))
		}},
	}
}

// ductExercise asks for the resistance of a straight duct, and answers it with
// the field of such a duct.
func ductExercise(long, wide, deep unit.Length) (notebook.Exercise, error) {
	d, _, err := solveFor(ductOf(long, wide, deep), theoryBath, 48)
	if err != nil {
		return notebook.Exercise{}, err
	}
	k := float64(theoryBath.Conductivity)
	r := float64(d.Resistance())
	ohms := func(r float64) notebook.Quantity { return notebook.Exact(r, notebook.Same(notebook.Ohm)) }
	siemens := notebook.Exact(theoryBath.Conductivity, notebook.Same(notebook.Siemens)).WithDigits(1)
	area := unit.Area(float64(wide) * float64(deep))
	return notebook.Exercise{Name: "exercise-duct",
		Ask:    notebook.Say("A duct, {} long and {} by {} across, is full of bath of {}. Its ends are anode and coupon. What is its resistance?", size(long), size(wide), size(deep), siemens),
		Answer: ohms(r),
		Worked: []notebook.Text{notebook.Say("Length over conductivity and area: {} over {} and {}.", size(long), siemens, notebook.Exact(area, notebook.Areas))},
		Wrong: []notebook.WrongTurn{
			{Value: ohms(r * k * k), Why: notebook.Plain("This multiplies by the conductivity instead of dividing.")},
			{Value: ohms(float64(area) / (k * float64(long))), Why: notebook.Plain("This divides the area by the length: a long duct has more resistance, not less.")},
		}}, nil
}

// wagnerExercise asks what becomes of a coupon's Wagner number at so many times
// the current.
func wagnerExercise(long unit.Length, j plating.CurrentDensity, times float64) (notebook.Exercise, error) {
	at := func(j plating.CurrentDensity) (float64, error) {
		return plating.WagnerNumber(theoryBath.Conductivity, plating.AreaResistance(0.12/math.Ln10/float64(j)), long)
	}
	then := j * plating.CurrentDensity(times)
	before, err := at(j)
	if err != nil {
		return notebook.Exercise{}, err
	}
	after, err := at(then)
	return notebook.Exercise{Name: "exercise-wagner",
		Ask:    notebook.Say("A coupon of {} has a Wagner number of {} at {}. What is it at {}?", size(long), number(before), density(j), density(then)),
		Answer: number(after),
		Worked: []notebook.Text{
			notebook.Plain("Where the overpotential rises by a fixed step for each tenfold current, its slope is that step over 2.303 and over the current density."),
			notebook.Say("The current is {} times as much, so the slope, and the number with it, {} times.", number(times), number(1/times))},
		Wrong: []notebook.WrongTurn{
			{Value: number(before * times), Why: notebook.Plain("This goes the wrong way. The slope grows when the current falls.")},
			{Value: number(before), Why: notebook.Plain("This holds for a straight line alone, where the slope is the same everywhere.")},
		}}, err
}
