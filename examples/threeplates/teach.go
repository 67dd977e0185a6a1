package threeplates

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	plate, err := plateExercise(3*um, -2*um, 7*um)
	if err != nil {
		return err
	}
	zero, err := zeroExercise(0.2*um, 10)
	if err != nil {
		return err
	}
	s.Add(plate, zero)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-plate", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			gap := func() unit.Length { return notebook.Either(r, notebook.Steps(r, 1, 12, 1*um)) }
			return plateExercise(gap(), gap(), gap())
		}},
		{Name: "exercise-zero", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return zeroExercise(notebook.Steps(r, 1, 10, 0.1*um), 2*(2+r.IntN(6)))
		}},
	}
}

// plateExercise asks for one plate out of three gaps.
func plateExercise(ab, ac, bc unit.Length) (notebook.Exercise, error) {
	a, _, _, _, err := wear.ThreePlates([]unit.Length{ab}, []unit.Length{ac}, []unit.Length{bc}, 0)
	if err != nil {
		return notebook.Exercise{}, err
	}
	half := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 0.5*um, notebook.FineLengths) }
	return notebook.Exercise{Name: "exercise-plate",
		Ask:    notebook.Say("In their middles A and B together stand out by {}, A and C by {}, B and C by {}. How far does A stand out by itself?", half(ab), half(ac), half(bc)),
		Answer: half(a[0]),
		Worked: []notebook.Text{notebook.Say("A and B with A and C make twice A with B and C: {}.", half(ab+ac)),
			notebook.Say("Less B and C, {}, that is twice A: {}. Half of it is {}.", half(bc), half(ab+ac-bc), half(a[0]))},
		Wrong: []notebook.WrongTurn{
			{Value: half(ab / 2), Why: notebook.Plain("Half of one gap: that takes A and B for equals.")},
			{Value: half(2 * a[0]), Why: notebook.Plain("The half was forgotten: A is in two of the three gaps.")},
		}}, nil
}

// zeroExercise asks what a constant error of the zeros bends into a straight way.
func zeroExercise(zero unit.Length, pitches int) (notebook.Exercise, error) {
	readings := make([]wear.ProbeReading, pitches-1)
	for i := range readings {
		readings[i].C = zero
	}
	p, err := wear.ThreeProbes(50*mm, readings, 0, 0)
	if err != nil {
		return notebook.Exercise{}, err
	}
	bend := p.Points[pitches/2].Height
	n := notebook.Whole(pitches)
	return notebook.Exercise{Name: "exercise-zero",
		Ask:    notebook.Say("A way is straight. Three probes go along it in {} pitches, the zero of the one ahead {} too high. How far does the middle of the profile depart from the line through its ends?", n, tenth(zero)),
		Answer: tenth(bend),
		Worked: []notebook.Text{notebook.Say("The second difference is {} at every row instead of nothing. Summed twice that is a parabola.", tenth(zero)),
			notebook.Say("Less the line through the ends it is {} × k (k − n)/2 at step k; in the middle, k = n/2, with n = {}: {}.", tenth(zero), n, tenth(bend))},
		Wrong: []notebook.WrongTurn{
			{Value: tenth(-bend), Why: notebook.Plain("The sign: a constant that bends upward along the whole way leaves the middle below the line through its ends.")},
			{Value: tenth(zero), Why: notebook.Plain("It is not added once but summed twice.")},
		}}, nil
}

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	a, b, _, _, err := wear.ThreePlates([]unit.Length{3 * um}, []unit.Length{-1.5 * um}, []unit.Length{7.5 * um}, 0)
	if err != nil {
		return err
	}
	ma, mb, mc := []float64{0.2, 1.5, 1.9, 3.7, 5.2, 2.6}, []float64{0.7, 3.7, 3.3, 3.6, 3.4, 1.4}, []float64{2.2, 5.4, 2.7, 2.5, 2.1, -0.3}
	rows := make([]wear.ProbeReading, len(ma))
	for i := range rows {
		rows[i] = wear.ProbeReading{A: unit.Length(ma[i]) * um, B: unit.Length(mb[i]) * um, C: unit.Length(mc[i]) * um}
	}
	p, err := wear.ThreeProbes(100*mm, rows, 0, 0)
	if err != nil {
		return err
	}
	zero, err := zeroExercise(0.2*um, 10)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-a", "plates-a", float64(a[0]/um)),
		notebook.CheckRow("check-b", "plates-b", float64(b[0]/um)),
		notebook.CheckRow("check-probes", "probes-top", float64(p.Points[3].Height/um)),
		notebook.CheckRow("check-zero", "probes-zero", zero.Answer.SI/1e-6),
	)
	return nil
}
