package fiveplaces

import (
	"math"

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
	ways := far.Tilt.X - middle.Tilt.X
	u := squaring.Slope(math.Hypot(float64(far.TiltU.X), float64(middle.TiltU.X)))
	curve, at := -32e-6, 300*mm // the bend of a top 8 um high in the middle of a metre, in 1/m
	top := squaring.Slope(-2 * curve * float64(at))
	s.Add(
		notebook.Exercise{Name: "exercise-change",
			Ask: notebook.Say("A sweep shows {} with the table in the middle and {} with it at {}; nothing else was touched. How much of the second is the table's, and how sure is that?",
				notebook.Of(middle.Tilt.X, middle.TiltU.X, notebook.Slopes), notebook.Of(far.Tilt.X, far.TiltU.X, notebook.Slopes), place(at)),
			Answer: notebook.Of(ways, u, notebook.Slopes),
			Worked: []notebook.Text{notebook.Plain("The head is in both readings alike and drops out of their difference."),
				notebook.Say("The doubts of both join by their squares: {}.", slope(u))},
			Wrong: []notebook.WrongTurn{
				{Value: slope(far.Tilt.X), Why: notebook.Plain("The head's share was left in.")},
				{Value: slope(far.Tilt.X + middle.Tilt.X), Why: notebook.Plain("The two were added: the head has to be taken away.")},
			}},
		notebook.Exercise{Name: "exercise-top",
			Ask:    notebook.Say("A table's top is {} high in the middle of {}, as a parabola. How much slope does that add to a sweep with the table at {}, against one in the middle?", fine(8*um), place(1000*mm), place(at)),
			Answer: slope(top),
			Worked: []notebook.Text{
				notebook.Say("The place under the spindle is then {} left of the top's middle, on the side that climbs to the right: plus.", place(at)),
				notebook.Say("Slope is twice the bend times the distance: 2 × {} / (500 mm)² × {} = {}.", fine(8*um), place(at), slope(top)),
			},
			Wrong: []notebook.WrongTurn{
				{Value: slope(-top), Why: notebook.Plain("The table moves right, so the spindle goes left on it.")},
				{Value: slope(top / 2), Why: notebook.Plain("Height over distance was taken: a parabola is twice as steep at its end.")},
			}},
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
