package groundbar

import (
	"math/rand/v2"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	var middle actionshop.BarReading
	rows := actionshop.GroundBar()
	for _, r := range rows {
		if r.Travel == 0 {
			middle = r
		}
	}
	three, err := middleExercise([3]actionshop.BarReading{rows[0], middle, rows[len(rows)-1]})
	if err != nil {
		return err
	}
	sag, err := sagExercise(wear.Beam{Length: 500 * mm, Width: 25 * mm, Height: 50 * mm})
	if err != nil {
		return err
	}
	s.Add(three, sag)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-middle", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			// Steps of a dial to 0.002 mm; a motion and a bar of the size of the shop's.
			step := func(least, most int) unit.Length { return notebook.Steps(r, least, most, 2*um) }
			hollow, bow, lies := step(3, 12), notebook.Either(r, step(1, 5)), step(-6, 6)
			var rows [3]actionshop.BarReading
			for i, travel := range []unit.Length{-240 * mm, 0, 240 * mm} {
				motion, bar := lies*unit.Length(i), step(-1, 1)
				if i == 1 {
					motion, bar = motion-hollow, bar+bow
				}
				rows[i] = actionshop.BarReading{Travel: travel, Up: bar + motion, Down: bar - motion}
			}
			return middleExercise(rows)
		}},
		{Name: "exercise-sag", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return sagExercise(wear.Beam{Length: notebook.Steps(r, 6, 20, 50*mm), Width: notebook.Pick(r, 16*mm, 20*mm, 25*mm), Height: notebook.Pick(r, 30*mm, 40*mm, 50*mm, 60*mm)})
		}},
	}
}

// middleExercise asks, of a bar read with either edge up at both ends and in the
// middle, how far the machine departs in the middle.
func middleExercise(rows [3]actionshop.BarReading) (notebook.Exercise, error) {
	var readings []wear.ReversalReading
	for _, r := range rows {
		readings = append(readings, wear.ReversalReading{Position: -r.Travel, First: r.Up, Second: r.Down})
	}
	separated, err := wear.ReverseBar(readings, wear.Gauge{Step: actionshop.DialD})
	if err != nil {
		return notebook.Exercise{}, err
	}
	reading := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }
	first, middle, last := rows[0], rows[1], rows[2]
	half := func(r actionshop.BarReading) unit.Length { return (r.Up - r.Down) / 2 }
	machine := separated.Motion.Points[1].Height
	where := notebook.Say("The machine is {} below it.", reading(-machine))
	if machine > 0 {
		where = notebook.Say("The machine is {} above it.", reading(machine))
	}
	return notebook.Exercise{Name: "exercise-middle",
		Ask: notebook.Say("At one end the readings are {} with the edge up and {} with it down, in the middle {} and {}, at the other end {} and {}. How far does the machine depart in the middle from the line through its ends?",
			reading(first.Up), reading(first.Down), reading(middle.Up), reading(middle.Down), reading(last.Up), reading(last.Down)),
		Answer: notebook.Of(machine, separated.Motion.U(1), notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("Half the differences are {}, {} and {}.", reading(half(first)), reading(half(middle)), reading(half(last))),
			notebook.Say("The line through the ends passes the middle at {}.", reading((half(first)+half(last))/2)),
			where,
		},
		Wrong: []notebook.WrongTurn{
			{Value: reading(half(middle)), Why: notebook.Plain("The line was left in: the bar does not lie parallel to the travel, and that is not the machine.")},
			{Value: reading((middle.Up+middle.Down)/2 - (first.Up+first.Down+last.Up+last.Down)/4), Why: notebook.Plain("Half the sum was taken: that is the bar.")},
			{Value: reading(middle.Up - (first.Up+last.Up)/2), Why: notebook.Plain("One run was believed: it holds the bar too.")},
			{Value: reading(2 * machine), Why: notebook.Plain("The differences were not halved.")},
		}}, nil
}

// sagExercise asks how far a steel bar on its ends hangs in the middle.
func sagExercise(bar wear.Beam) (notebook.Exercise, error) {
	bar.Stiffness, bar.Density = 210e9, 7850
	hangs := func(b wear.Beam) (notebook.Quantity, error) {
		sag, err := wear.BeamSag(b, 0, []unit.Length{b.Length / 2})
		if err != nil {
			return notebook.Quantity{}, err
		}
		return notebook.Exact(sag[0], notebook.FineLengths), nil
	}
	upright, err := hangs(bar)
	if err != nil {
		return notebook.Exercise{}, err
	}
	lying := bar
	lying.Height, lying.Width = bar.Width, bar.Height
	flat, err := hangs(lying)
	twice := upright
	twice.SI *= 2
	return notebook.Exercise{Name: "exercise-sag",
		Ask: notebook.Say("A steel bar of {} by {} stands upright, {} high, on blocks under its very ends. How far does it hang in the middle?",
			place(bar.Length), place(bar.Width), place(bar.Height)),
		Answer: upright,
		Worked: []notebook.Text{
			notebook.Plain("5/384 of w L⁴/(E I); for a rectangle that is 5/32 of ρ g L⁴/(E h²): the width drops out."),
			notebook.Say("With 7850 kg/m³ and 210 GPa it comes to {}.", upright),
		},
		Wrong: []notebook.WrongTurn{
			{Value: flat, Why: notebook.Plain("The bar was laid flat: what hangs goes with one over the height squared.")},
			{Value: twice, Why: notebook.Plain("A factor of two too much: I of a rectangle is b h³/12, not over 24.")},
		}}, err
}
