package skin

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	cone, err := coneExercise(20*mm, 12*mm, 15*mm)
	if err != nil {
		return err
	}
	cove, err := coveExercise(20*mm, 3*mm)
	if err != nil {
		return err
	}
	sheet.Add(cone, cove)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-cone", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			small := notebook.Steps(r, 6, 20, 1*mm)
			return coneExercise(small+notebook.Steps(r, 4, 15, 2*mm), small, notebook.Steps(r, 5, 30, 1*mm))
		}},
		{Name: "exercise-cove", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return coveExercise(notebook.Steps(r, 6, 30, 1*mm), notebook.Steps(r, 4, 12, 0.5*mm))
		}},
	}
}

// skin and length are values of the exercises.
func skin(a unit.Area) notebook.Quantity     { return notebook.Exact(a, notebook.Areas) }
func length(x unit.Length) notebook.Quantity { return notebook.Exact(x, notebook.Lengths) }

// coneExercise asks for the skin of a turned cone.
func coneExercise(large, small, long unit.Length) (notebook.Exercise, error) {
	cone, err := plating.Turned{Profile: []plating.ProfilePoint{{X: exact(0), R: exact(large / 2)}, {X: exact(long), R: exact(small / 2)}}}.Surface()
	if err != nil {
		return notebook.Exercise{}, err
	}
	mean := (large + small) / 2
	times := func(a, b unit.Length) unit.Area { return unit.Area(math.Pi * float64(a) * float64(b)) }
	slant := unit.Length(math.Hypot(float64(long), float64(large-small)/2))
	return notebook.Exercise{Name: "exercise-cone",
		Ask:    notebook.Say("A cone turned from {} diameter to {} over {}: how much skin, without its ends?", length(large), length(small), length(long)),
		Answer: skin(cone.Area),
		Worked: []notebook.Text{notebook.Say("The slant is {}.", length(slant).WithDigits(4)),
			notebook.Say("Times the path of its middle, a circle of {} diameter: {}.", length(mean), skin(cone.Area))},
		Wrong: []notebook.WrongTurn{
			{Value: skin(times(mean, long)), Why: notebook.Plain("This takes the length along the axis. The skin follows the slant.")},
			{Value: skin(times(large, slant)), Why: notebook.Plain("This goes round at the large end. The middle of the slant goes round a smaller circle.")},
			{Value: skin(2 * cone.Area), Why: notebook.Plain("This takes the diameters for radii.")},
		}}, nil
}

// coveExercise asks for the skin of a hollow quarter round.
func coveExercise(shaft, radius unit.Length) (notebook.Exercise, error) {
	cove, err := plating.Turned{Profile: []plating.ProfilePoint{{X: exact(0), R: exact(shaft/2 + radius)}, {X: exact(radius), R: exact(shaft / 2), Arc: -radius}}}.Surface()
	if err != nil {
		return notebook.Exercise{}, err
	}
	arc := math.Pi / 2 * float64(radius)
	about := func(r unit.Length) unit.Area { return unit.Area(arc * 2 * math.Pi * float64(r)) }
	return notebook.Exercise{Name: "exercise-cove",
		Ask:    notebook.Say("A shaft of {} diameter meets a shoulder in a hollow quarter round of {} radius. How much skin has the hollow?", length(shaft), length(radius)),
		Answer: skin(cove.Area),
		Worked: []notebook.Text{
			notebook.Say("The arc, a quarter of a circle, is {} long.", length(unit.Length(arc))),
			notebook.Say("Its centroid lies 2/π of the radius from the arc's own centre towards the shaft, {} from the axis (Pappus).", length(shaft/2+radius-radius*2/math.Pi)),
			notebook.Say("Arc times the path of the centroid is {}.", skin(cove.Area)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: skin(about(shaft/2 + radius)), Why: notebook.Plain("This turns the arc about its centre's radius. A hollow lies nearer the axis than its centre.")},
			{Value: skin(about(shaft / 2)), Why: notebook.Plain("This turns the arc about the shaft's own radius. The hollow lies farther out.")},
		}}, nil
}
