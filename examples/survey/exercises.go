package survey

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises on the shop's readings.
func exerciseItems(s *notebook.Sheet) error {
	in := Defaults()
	a, err := adjust(in)
	if err != nil {
		return err
	}
	next, err := nextExercise(in, a)
	if err != nil {
		return err
	}
	s.Add(redundancyExercise(a), next)
	return nil
}

// redundancyExercise asks how much of an error in a reading shows.
func redundancyExercise(a *squaring.Adjustment) notebook.Exercise {
	var r squaring.ReadingResult
	for _, result := range a.Readings {
		if result.Observation == "table run middle" && result.Number == 7 {
			r = result
		}
	}
	const wrong = 10e-6
	length := func(x float64) notebook.Quantity { return tidied(x, squaring.LengthValue) }
	share := notebook.Quantity{SI: r.Redundancy, Show: notebook.Percents, Step: 0.01}
	return notebook.Exercise{Name: "exercise-redundancy",
		Ask: notebook.Say("Reading 7 of the table run on the middle track is checked by others to {}. A chip under the stylus makes it {} too high. How far does it then stand off the adjusted machine, besides where it stood before?",
			share, length(wrong)),
		Answer: notebook.Stepped(wrong*r.Redundancy, 0.1e-6, notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("The machine gives way to a wrong reading by the share that nothing checks and stands firm by the share that others check: {} of {}.", share, length(wrong)),
			notebook.Say("Over its own doubt, {}, that is enough to be suspected from an error of {} on.", length(r.U*math.Sqrt(r.Redundancy)), length(r.Detectable)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: length(wrong), Why: notebook.Plain("The whole error shows only if the reading is checked completely by others.")},
			{Value: length(wrong * (1 - r.Redundancy)), Why: notebook.Plain("That is the part that is hidden: it has bent the answer.")},
		}}
}

// nextExercise asks which reading takes more doubt away in a minute.
func nextExercise(in Inputs, a *squaring.Adjustment) (notebook.Exercise, error) {
	var sweep, level squaring.NextReading
	for _, c := range candidates(in) {
		ranked, err := a.NextBest([]squaring.Candidate{c.Candidate}, squaring.SpindleSquareness(in.Head, "", squaring.AlongX, -in.Place))
		if err != nil {
			return notebook.Exercise{}, err
		}
		switch {
		case c.place != nil && *c.place == -in.Place && sweep.Minutes == 0:
			sweep = ranked[0]
		case c.Name == "the level, turned at each station":
			level = ranked[0]
		}
	}
	perMinute := func(next squaring.NextReading) notebook.Quantity {
		return notebook.Quantity{SI: (next.Before.U - next.After.U) / next.Minutes, Show: notebook.Slopes, Digits: 2}
	}
	time := func(next squaring.NextReading) notebook.Quantity {
		return notebook.Stepped(minutes(next.Minutes), 60, notebook.Minutes)
	}
	doubt := func(u float64) notebook.Quantity { return notebook.Quantity{SI: u, Show: notebook.Slopes, Digits: 3} }
	return notebook.Exercise{Name: "exercise-next",
		Ask: notebook.Say("The side tilt at the work is known to {}. A sweep there takes {} and would bring that to {}. Another round with the level takes {} and would bring it to {}. How much doubt does the better of the two take away in a minute?",
			doubt(sweep.Before.U), time(sweep), doubt(sweep.After.U), time(level), doubt(level.After.U)),
		Answer: perMinute(sweep),
		Worked: []notebook.Text{
			notebook.Say("The sweep takes away {} in {}.", doubt(sweep.Before.U-sweep.After.U), time(sweep)),
			notebook.Say("The level takes away {} in {}, or {} a minute.", doubt(level.Before.U-level.After.U), time(level), perMinute(level)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: perMinute(level), Why: notebook.Plain("That is the other one.")},
			{Value: doubt(sweep.Before.U - sweep.After.U), Why: notebook.Plain("What it takes away in all says nothing before the minutes are counted.")},
		}}, nil
}

// checkItems adds the checks: a published network of levelled lines, which the
// same adjustment solves when its unknown heights stand for places of travel.
func checkItems(s *notebook.Sheet) error {
	for _, weighting := range []struct {
		suffix string
		u      func(miles float64) float64
	}{
		{"", func(float64) float64 { return 0.05 }},
		{"-length", func(miles float64) float64 { return 0.03 * math.Sqrt(miles) }},
	} {
		heights, err := levelledNetwork(weighting.u)
		if err != nil {
			return err
		}
		for i, point := range []string{"a", "b", "c"} {
			s.Add(notebook.CheckRow("check-"+point+weighting.suffix, "survey-network-"+point+weighting.suffix, heights[i]))
		}
	}
	return nil
}

// levelledNetwork returns the heights of A, B and C, in feet.
func levelledNetwork(u func(miles float64) float64) ([3]float64, error) {
	points := [3]squaring.Feature{}
	for i := range points {
		points[i] = squaring.TableHeight("", unit.Length(60*(i+1))*mm)
	}
	var survey squaring.Survey
	line := func(value, miles float64, from, to int) {
		f := points[to]
		if from >= 0 {
			f = squaring.Combine("line", []squaring.Feature{points[to], points[from]}, []float64{1, -1})
		}
		survey.Priors = append(survey.Priors, squaring.Prior{Name: fmt.Sprint("line ", len(survey.Priors)+1), Feature: f, Value: value, ValueU: u(miles)})
	}
	const x, y, known = 100.00, 107.50, -1 // the two bench marks, in feet
	const a, b, c = 0, 1, 2
	line(x+5.10, 4, known, a)
	line(y-2.34, 3, known, a)
	line(y-1.25, 2, known, c)
	line(x+6.13, 3, known, c)
	line(-0.68, 2, a, b)
	line(y-3.00, 2, known, b)
	line(1.70, 2, b, c)
	adjusted, err := survey.Adjust(squaring.SurveyOptions{HeightBend: -1, To: 240 * mm})
	if err != nil {
		return [3]float64{}, err
	}
	var heights [3]float64
	for i, f := range points {
		e, err := adjusted.Predict(f)
		if err != nil {
			return heights, err
		}
		heights[i] = e.Value
	}
	return heights, nil
}
