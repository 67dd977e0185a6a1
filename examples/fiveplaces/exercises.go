package fiveplaces

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	demo := Defaults()
	found, err := demo.fit(sweepOf(actionshop.SweepAsFound()))
	if err != nil {
		return err
	}
	left, err := demo.fit(sweepOf(actionshop.SweepsAsLeft()[2]))
	if err != nil {
		return err
	}
	first, last, middle := w.places[0], w.places[len(w.places)-1], w.places[w.middle]
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-run", notebook.Say("In the shop's last setting the head was moved by {} in x and the table run changed by {}: a run never sees the head.",
			slope(left.Tilt.X-found.Tilt.X), fine(0*um))),
		note("wrong-ends", notebook.Say("Zero at both ends says that the ends are level with one another. Between them this run is {} out.", fine(unit.Length(deepest(w.form.run))))),
		note("wrong-middle", notebook.Say("Mid-table shows {}; with the table at {} the same head shows {}, and at {} it shows {}.",
			slope(middle.whole.Slope), place(first.travel), slope(first.whole.Slope), place(last.travel), slope(last.whole.Slope))),
		note("wrong-tilt-head", notebook.Say("Turn the head to cure the {} at the end of the travel and it is wrong by as much in the middle. Worn ways are cured by a scraper, or by where you put the work.",
			slope(last.whole.Slope-middle.whole.Slope))),
	)
	return nil
}

// checkItems sets ring and line against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	var ring []squaring.SweepReading
	for i, v := range []unit.Length{12, 18, 21, 19, 13, 4, -5, -11, -14, -12, -6, 3} {
		ring = append(ring, squaring.SweepReading{Azimuth: unit.Angle(30*i) * squaring.Degree, Reading: v * um})
	}
	twelve, err := squaring.FitSweep(ring, squaring.SweepOptions{Radius: 150 * mm})
	if err != nil {
		return err
	}
	level, err := squaring.SlopeFromRise(0.02*mm, 1000*mm)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-twelve", "ring-twelve", twelve.Tilt.Steepest().Arcseconds()),
		notebook.CheckRow("check-twelve-azimuth", "ring-twelve-azimuth", float64(twelve.Tilt.Azimuth()/squaring.Degree)),
		notebook.CheckRow("check-level", "span-arcsec", level.Arcseconds()),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	demo := Defaults()
	far, err := demo.fit(demo.Sweeps[4])
	if err != nil {
		return err
	}
	middle, err := demo.fit(demo.Sweeps[2])
	if err != nil {
		return err
	}
	s.Add(
		changeExercise(squaring.MeasuredSlope{Slope: middle.Tilt.X, Uncertainty: middle.TiltU.X}, squaring.MeasuredSlope{Slope: far.Tilt.X, Uncertainty: far.TiltU.X}, 300*mm),
		topExercise(8*um, 1000*mm, 300*mm),
	)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	travel := func(r *rand.Rand) unit.Length { return notebook.Steps(r, 8, 18, 20*mm) }
	return []notebook.Drill{
		{Name: "exercise-change", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			one := func(s squaring.Slope) squaring.MeasuredSlope {
				return squaring.MeasuredSlope{Slope: s, Uncertainty: notebook.Steps(r, 3, 9, 1*squaring.Microradian)}
			}
			middle := notebook.Either(r, notebook.Steps(r, 10, 60, 1*squaring.Microradian))
			far := middle + notebook.Either(r, notebook.Steps(r, 25, 140, 1*squaring.Microradian))
			return changeExercise(one(middle), one(far), travel(r)), nil
		}},
		{Name: "exercise-top", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return topExercise(notebook.Steps(r, 4, 20, 1*um), notebook.Steps(r, 8, 12, 100*mm), travel(r)), nil
		}},
	}
}

// changeExercise asks how much of a sweep's tilt is the table's.
func changeExercise(middle, far squaring.MeasuredSlope, at unit.Length) notebook.Exercise {
	ways := far.Slope - middle.Slope
	u := squaring.Slope(math.Hypot(float64(far.Uncertainty), float64(middle.Uncertainty)))
	return notebook.Exercise{Name: "exercise-change",
		Ask: notebook.Say("A sweep shows {u} with the table in the middle and {u} with it at {}; nothing else was touched. How much of the second is the table's, and how sure is that?",
			of(middle), of(far), place(at)),
		Answer: notebook.Of(ways, u, notebook.Slopes),
		Worked: []notebook.Text{notebook.Plain("The head is in both readings alike and drops out of their difference."),
			notebook.Say("The doubts of both join by their squares: {}.", slope(u))},
		Wrong: []notebook.WrongTurn{
			{Value: slope(far.Slope), Why: notebook.Plain("The head's share was left in.")},
			{Value: slope(far.Slope + middle.Slope), Why: notebook.Plain("The two were added: the head has to be taken away.")},
			{Value: slope(-ways), Why: notebook.Plain("The second was taken from the first.")},
		}}
}

// topExercise asks what slope a crowned table top adds to a sweep.
func topExercise(crown, long, at unit.Length) notebook.Exercise {
	half := float64(long) / 2
	top := squaring.Slope(2 * float64(crown) * float64(at) / (half * half))
	return notebook.Exercise{Name: "exercise-top",
		Ask: notebook.Say("A table's top is {} high in the middle of {}, as a parabola. How much slope does that add to a sweep with the table at {}, against one in the middle?",
			fine(crown), place(long), place(at)),
		Answer: slope(top),
		Worked: []notebook.Text{
			notebook.Say("The place under the spindle is then {} left of the top's middle, on the side that climbs to the right: plus.", place(at)),
			notebook.Say("Slope is twice the bend times the distance: 2 × {} / ({})² × {} = {}.", fine(crown), place(long/2), place(at), slope(top)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: slope(-top), Why: notebook.Plain("The table moves right, so the spindle goes left on it.")},
			{Value: slope(top / 2), Why: notebook.Plain("Height over distance was taken: a parabola is twice as steep at its end.")},
			{Value: slope(top / 4), Why: notebook.Plain("The whole length was squared; the crown stands over half of it.")},
		}}
}
