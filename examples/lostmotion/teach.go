package lostmotion

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	inch = 25.4 * mm
	thou = inch / 1000
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	wheel, err := wheelExercise(10*thou, 200)
	if err != nil {
		return err
	}
	flank, err := flankExercise(60*um, 15)
	if err != nil {
		return err
	}
	s.Add(wheel, flank)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-wheel", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return wheelExercise(notebook.Steps(r, 3, 40, 1*thou), notebook.Pick(r, 100.0, 125, 200))
		}},
		{Name: "exercise-flank", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return flankExercise(notebook.Steps(r, 4, 40, 5*um), notebook.Pick(r, 0.0, 14.5, 15))
		}},
	}
}

// wheelExercise asks for a lost motion at the handwheel of a screw of five
// threads to the inch.
func wheelExercise(lost unit.Length, divisions float64) (notebook.Exercise, error) {
	const lead = 0.2 * inch
	turn, err := wear.Screw{Lead: lead}.Handwheel(lost)
	angle := func(a unit.Angle) notebook.Quantity { return notebook.Stepped(a, math.Pi/1800, notebook.Angles) }
	thous := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*thou, notebook.FineLengths) }
	share := float64(lost / lead)
	return notebook.Exercise{Name: "exercise-wheel",
		Ask:    notebook.Say("A screw has five threads to the inch and a handwheel of {} divisions. The dial on the table stays still over a lost motion of {}. How far does the handwheel turn before the table moves?", notebook.Stepped(divisions, 1, notebook.Numbers), thous(lost)),
		Answer: angle(turn),
		Worked: []notebook.Text{notebook.Say("One turn is {}.", notebook.Stepped(lead, 0.1*thou, notebook.Lengths)),
			notebook.Say("{} of that is {} of a turn: {}, or {} divisions.", thous(lost), notebook.Exact(share, notebook.Numbers), angle(turn), notebook.Stepped(share*divisions, 0.1, notebook.Numbers))},
		Wrong: []notebook.WrongTurn{
			{Value: angle(turn / 2), Why: notebook.Plain("Half was taken, as for a tilt read across a diameter. The whole gap is crossed each time you turn back.")},
			{Value: angle(turn * 5), Why: notebook.Plain("A lead of an inch was used; the screw moves a fifth of that in a turn.")},
		}}, err
}

// flankExercise asks for the lost motion that worn flanks make.
func flankExercise(worn unit.Length, degrees float64) (notebook.Exercise, error) {
	screw := wear.Screw{Lead: 5 * mm, Pitch: 22.5 * mm, Flank: unit.Angle(degrees * math.Pi / 180)}
	lost, err := screw.LostMotion(worn, worn/2)
	tenth := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 0.1*um, notebook.FineLengths) }
	return notebook.Exercise{Name: "exercise-flank",
		Ask: notebook.Say("A screw of {} lead and {} pitch diameter has flanks at {}. The flanks that push the table right have lost {} square to their faces, the others half of that. What is the lost motion?",
			notebook.Stepped(screw.Lead, 1*mm, notebook.Lengths), notebook.Stepped(screw.Pitch, 0.1*mm, notebook.Lengths), notebook.Stepped(screw.Flank, math.Pi/1800, notebook.Angles), tenth(worn)),
		Answer: tenth(lost),
		Worked: []notebook.Text{notebook.Say("Both sides count: {} and {} make {}.", tenth(worn), tenth(worn/2), tenth(worn*1.5)),
			notebook.Plain("Along the axis a slanted flank's wear is longer: divide by the cosine of the flank's angle and of the lead angle."),
			notebook.Say("That gives {}.", tenth(lost))},
		Wrong: []notebook.WrongTurn{
			{Value: tenth(worn), Why: notebook.Plain("Only one flank was counted. The table must cross what both have lost.")},
			{Value: tenth(worn * 1.5 * unit.Length(math.Cos(degrees*math.Pi/180))), Why: notebook.Plain("Multiplied by the cosine instead of divided.")},
		}}, err
}

// checks adds the checks: readings that were made up so that all quantities of
// ISO 230-2 can be reckoned by hand.
func checks(s *notebook.Sheet) error {
	up := [][5]float64{{1.2, 0.8, 1.0, 1.4, 1.1}, {2.6, 2.2, 2.9, 2.4, 2.4}, {3.1, 3.7, 3.3, 3.5, 3.4}, {4.9, 4.4, 4.6, 5.0, 4.6}, {4.0, 4.3, 3.8, 4.1, 3.8}}
	down := [][5]float64{{-2.1, -1.7, -2.0, -1.9, -2.3}, {-0.6, -1.0, -0.7, -0.9, -0.8}, {0.4, 0.1, 0.5, 0.2, 0.3}, {1.9, 1.5, 1.6, 1.8, 1.7}, {1.3, 0.9, 1.1, 1.0, 1.2}}
	targets := make([]wear.Target, len(up))
	for i := range targets {
		targets[i].Place = unit.Length(i) * 100 * mm
		for k := range up[i] {
			targets[i].Up, targets[i].Down = append(targets[i].Up, unit.Length(up[i][k])*um), append(targets[i].Down, unit.Length(down[i][k])*um)
		}
	}
	p, err := wear.ReadPositioning(targets)
	if err != nil {
		return err
	}
	wheel, err := wear.Screw{Lead: 0.2 * inch}.Handwheel(10 * thou)
	if err != nil {
		return err
	}
	square, err := wear.Screw{Lead: 5 * mm, Pitch: 22.5 * mm}.LostMotion(0.02*mm, 0.03*mm)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-lost", "iso-lost", float64(p.Lost/um)),
		notebook.CheckRow("check-repeat", "iso-repeat", float64(p.Repeat/um)),
		notebook.CheckRow("check-systematic", "iso-systematic", float64(p.Systematic/um)),
		notebook.CheckRow("check-range", "iso-mean-range", float64(p.MeanRange/um)),
		notebook.CheckRow("check-accuracy", "iso-accuracy", float64(p.Accuracy/um)),
		notebook.CheckRow("check-wheel", "screw-handwheel", float64(wheel)*180/math.Pi),
		notebook.CheckRow("check-flanks", "screw-square-flanks", float64(square/mm)),
	)
	return nil
}
