package usehours

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	use, err := useExercise(100*mm, 300*mm, 70)
	if err != nil {
		return err
	}
	wearing, err := wearExercise(20, 60)
	if err != nil {
		return err
	}
	s.Add(use, wearing)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-use", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return useExercise(notebook.Steps(r, 5, 15, 10*mm), notebook.Steps(r, 10, 25, 20*mm), 10*(5+r.IntN(5)))
		}},
		{Name: "exercise-wear", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return wearExercise(notebook.Steps(r, 2, 20, 5.0), notebook.Steps(r, 4, 20, 5.0))
		}},
	}
}

// useExercise asks how far the middle of the work slides in a mean stroke.
func useExercise(short, long unit.Length, percent int) (notebook.Exercise, error) {
	share := float64(percent) / 100
	mean, err := wear.UseHistogram(600*mm, []wear.Placement{{Place: 0, Stroke: short, Share: share}, {Place: 0, Stroke: long, Share: 1 - share}}, []unit.Length{0})
	if err != nil {
		return notebook.Exercise{}, err
	}
	p := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Percents) }
	return notebook.Exercise{Name: "exercise-use",
		Ask:    notebook.Say("All work lies in the middle of the table. {} of the strokes are {} long, the others {}. The saddle is longer than either. How far does the middle of the way slide in a mean stroke?", p(share), place(short), place(long)),
		Answer: place(mean[0]),
		Worked: []notebook.Text{notebook.Plain("The saddle never leaves the middle, so that it slides the whole of every stroke."),
			notebook.Say("{} of {} and {} of {} make {}.", p(share), place(short), p(1-share), place(long), place(mean[0]))},
		Wrong: []notebook.WrongTurn{
			{Value: place((short + long) / 2), Why: notebook.Plain("The plain mean of the two: their shares were forgotten.")},
			{Value: place(unit.Length(share) * short), Why: notebook.Plain("The long strokes wear the middle too.")},
		}}, nil
}

// wearExercise asks for the depth that a pressure wears off over a distance, with
// a factor of 1e-7 mm^3/(N m).
func wearExercise(kilopascals, kilometres float64) (notebook.Exercise, error) {
	depth := nominal.Depth(unit.Pressure(kilopascals)*1e3*unit.Pascal, unit.Length(kilometres)*1e3*unit.Metre)
	tenth := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 0.01*um, notebook.FineLengths) }
	number := func(x float64) notebook.Quantity { return notebook.Stepped(x, 1, notebook.Numbers) }
	return notebook.Exercise{Name: "exercise-wear",
		Ask:    notebook.Say("A way under {} kPa slides {} km. Its wear factor is 10⁻⁷ mm³/(N·m). How deep does it wear?", number(kilopascals), number(kilometres)),
		Answer: tenth(depth),
		Worked: []notebook.Text{notebook.Say("Depth is factor × pressure × distance: 10⁻⁷ × {} N/mm² × {} m, in mm.", notebook.Stepped(kilopascals/1000, 0.001, notebook.Numbers), number(kilometres*1000)),
			notebook.Say("That is {}.", tenth(depth))},
		Wrong: []notebook.WrongTurn{
			{Value: tenth(depth * 1000), Why: notebook.Plain("Kilopascals are thousandths of N/mm².")},
			{Value: tenth(depth / 3), Why: notebook.Plain("The three of the other spelling belongs to a coefficient with the hardness, not to a factor.")},
		}}, nil
}

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	const inch, minute = 25.4 * mm, 60 * unit.Second
	bushing := wear.Bushing{Bore: inch, Length: inch, Load: 700 * 4.4482216152605 * unit.Newton, Speed: unit.Velocity(33 * 12 * inch / unit.Length(minute)),
		Factor: 0.6e-10 * wear.CubicInchMinutePerPoundFootHour, Motion: 1.3, Surroundings: 1}
	life, _, err := bushing.Life(0.005 * inch)
	if err != nil {
		return err
	}
	slid, err := wear.UseHistogram(300*mm, []wear.Placement{{Place: 250 * mm, Stroke: 200 * mm, Share: 1}}, []unit.Length{100 * mm})
	if err != nil {
		return err
	}
	hardness := 120 * 9.8e6 * unit.Pascal
	with, err := wear.FactorFromCoefficient(7e-3, hardness, wear.WithThree)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-bushing", "law-bushing", float64(life/hour)),
		notebook.CheckRow("check-saddle", "law-saddle-sliding", float64(slid[0]/mm)),
		notebook.CheckRow("check-law", "law-with-three", float64(with.Volume(100*unit.Newton, 1000*unit.Metre))*1e9),
	)
	return nil
}
