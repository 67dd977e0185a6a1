package pockets

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds three exercises.
func exercises(s *notebook.Sheet) error {
	some, err := someExercise(shop, wear.PocketStation{Depth: 10 * um, Found: 4, Total: 5})
	if err != nil {
		return err
	}
	none, err := noneExercise(shop, 5)
	if err != nil {
		return err
	}
	last, err := lastExercise([3]unit.Time{400 * hour, 700 * hour, 900 * hour}, [3]unit.Time{500 * hour, 800 * hour, 1200 * hour}, 750*hour)
	if err != nil {
		return err
	}
	s.Add(some, none, last)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	flaking := func(r *rand.Rand) wear.PocketOptions {
		return wear.PocketOptions{New: notebook.Steps(r, 40, 60, 1*um), Spread: notebook.Steps(r, 4, 8, 1*um), Floor: 3 * um}
	}
	return []notebook.Drill{
		{Name: "exercise-some", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			total := 5 + r.IntN(3)
			return someExercise(flaking(r), wear.PocketStation{Depth: notebook.Steps(r, 8, 16, 1*um), Found: total - 1 - r.IntN(2), Total: total})
		}},
		{Name: "exercise-none", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return noneExercise(flaking(r), 4+r.IntN(5))
		}},
		{Name: "exercise-last", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			first, second := notebook.Steps(r, 30, 45, 10*hour), notebook.Steps(r, 60, 75, 10*hour)
			early, late := notebook.Steps(r, 46, 55, 10*hour), notebook.Steps(r, 85, 95, 10*hour)
			return lastExercise([3]unit.Time{first, second, late + 50*hour}, [3]unit.Time{early, late, late + 300*hour}, 800*hour)
		}},
	}
}

func fine(x unit.Length) notebook.Quantity {
	return notebook.Stepped(x, 0.1*um, notebook.FineLengths)
}

// someExercise asks for the wear where some of the pockets are left.
func someExercise(flaking wear.PocketOptions, station wear.PocketStation) (notebook.Exercise, error) {
	wears, err := wear.ReadPockets([]wear.PocketStation{station}, flaking)
	if err != nil {
		return notebook.Exercise{}, err
	}
	w := wears[0]
	counted := station.Depth * unit.Length(station.Found) / unit.Length(station.Total)
	return notebook.Exercise{Name: "exercise-some",
		Ask: notebook.Say("Pockets were {} deep when new and differ by {} (standard deviation). Of {} looked for, {} are found with a mean depth of {}; a pocket below {} cannot be seen. How deep is the wear?",
			fine(flaking.New), fine(flaking.Spread), notebook.Whole(station.Total), notebook.Whole(station.Found), fine(station.Depth), fine(flaking.Floor)),
		Answer: notebook.Of(w.Wear, w.U, notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("Those found say {}: too little, for those that are gone were the shallowest.", fine(w.Plain)),
			notebook.Say("The most likely depth that is left, with {} of {} below {}, is {}.", notebook.Whole(station.Total-station.Found), notebook.Whole(station.Total), fine(flaking.Floor), fine(flaking.New-w.Wear)),
			notebook.Say("So the wear is {u}.", notebook.Of(w.Wear, w.U, notebook.FineLengths)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(w.Plain), Why: notebook.Plain("What is missing was forgotten.")},
			{Value: fine(flaking.New - counted), Why: notebook.Plain("What is missing was counted as zero deep: it is below the floor, and may be a good deal more worn than level.")},
			{Value: fine(station.Depth), Why: notebook.Plain("That is what is left, not what is gone.")},
		}}, nil
}

// noneExercise asks for the least wear where none of the pockets is left.
func noneExercise(flaking wear.PocketOptions, total int) (notebook.Exercise, error) {
	wears, err := wear.ReadPockets([]wear.PocketStation{{Total: total}}, flaking)
	if err != nil {
		return notebook.Exercise{}, err
	}
	least := wears[0].Wear
	return notebook.Exercise{Name: "exercise-none",
		Ask: notebook.Say("Pockets were {} deep when new and differ by {} (standard deviation); one below {} cannot be seen. At one place none of {} is left. What can you say of the wear there, 95 times in a hundred?",
			fine(flaking.New), fine(flaking.Spread), fine(flaking.Floor), notebook.Whole(total)),
		Answer: fine(least),
		Worked: []notebook.Text{
			notebook.Say("Only a lower bound. Were the wear less, then at least one of {} pockets would still be found, more often than nineteen times in twenty.", notebook.Whole(total)),
			notebook.Say("Each pocket must then be gone with a chance of {}: multiplied with itself, once for each pocket, it is 0.05.", notebook.Exact(math.Pow(0.05, 1/float64(total)), notebook.Numbers)),
			notebook.Say("That gives at least {}.", fine(least)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(flaking.New), Why: notebook.Plain("The depth when new is neither the wear nor its bound: single pockets differ.")},
			{Value: fine(0), Why: notebook.Plain("Nothing to read was taken for no wear.")},
		}}, nil
}
