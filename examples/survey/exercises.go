package survey

import (
	"fmt"
	"math"
	"math/rand/v2"

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
	next, err := shopNextExercise(in, a)
	if err != nil {
		return err
	}
	s.Add(shopRedundancyExercise(a), next)
	return nil
}

// drills ask the exercises with new numbers. The adjustment itself takes a
// while: they ask of what it says.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-redundancy", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			run := notebook.Pick(r, "the table run on the front track", "the table run on the rear track", "a sweep", "the level survey along the table")
			return redundancyExercise(1+r.IntN(9), run, notebook.Steps(r, 15, 90, 0.01), notebook.Steps(r, 4, 40, 1e-6)), nil
		}},
		{Name: "exercise-next", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			before := notebook.Steps(r, 12, 30, 1e-6)
			sweep := remedy{after: before * notebook.Steps(r, 6, 16, 0.05), minutes: notebook.Steps(r, 2, 5, 5.0)}
			level := remedy{after: before * notebook.Steps(r, 6, 16, 0.05), minutes: notebook.Steps(r, 4, 12, 5.0)}
			return nextExercise(before, sweep, level), nil
		}},
	}
}

func length(x float64) notebook.Quantity { return tidied(x, squaring.LengthValue) }

// shopRedundancyExercise asks how much of an error in one of the shop's readings
// shows.
func shopRedundancyExercise(a *squaring.Adjustment) notebook.Exercise {
	var r squaring.ReadingResult
	for _, result := range a.Readings {
		if result.Observation == "table run middle" && result.Number == 7 {
			r = result
		}
	}
	e := redundancyExercise(7, "the table run on the middle track", r.Redundancy, 10e-6)
	e.Worked = append(e.Worked, notebook.Say("Over its own doubt, {}, that is enough to be suspected from an error of {} on.", length(r.U*math.Sqrt(r.Redundancy)), length(r.Detectable)))
	return e
}

// redundancyExercise asks how much of an error shows, in a reading that others
// check to the given share.
func redundancyExercise(number int, run string, redundancy, wrong float64) notebook.Exercise {
	share := notebook.Quantity{SI: redundancy, Show: notebook.Percents, Step: 0.01}
	return notebook.Exercise{Name: "exercise-redundancy",
		Ask: notebook.Say("Reading {} of "+run+" is checked by others to {}. A chip under the stylus makes it {} too high. How far does it then stand off the adjusted machine, besides where it stood before?",
			notebook.Whole(number), share, length(wrong)),
		Answer: notebook.Stepped(wrong*redundancy, 0.1e-6, notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("The machine gives way to a wrong reading by the share that nothing checks and stands firm by the share that others check: {} of {}.", share, length(wrong)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: length(wrong), Why: notebook.Plain("The whole error shows only if the reading is checked completely by others.")},
			{Value: length(wrong * (1 - redundancy)), Why: notebook.Plain("That is the part that is hidden: it has bent the answer.")},
		}}
}

// remedy is a reading that could be taken next: the doubt that it leaves, as a
// slope, and the minutes that it takes.
type remedy struct{ after, minutes float64 }

// shopNextExercise asks which reading takes more doubt from the shop's machine
// in a minute.
func shopNextExercise(in Inputs, a *squaring.Adjustment) (notebook.Exercise, error) {
	var before float64
	var sweep, level remedy
	for _, c := range candidates(in) {
		ranked, err := a.NextBest([]squaring.Candidate{c.Candidate}, squaring.SpindleSquareness(in.Head, "", squaring.AlongX, -in.Place))
		if err != nil {
			return notebook.Exercise{}, err
		}
		found := remedy{ranked[0].After.U, ranked[0].Minutes}
		switch {
		case c.place != nil && *c.place == -in.Place && sweep.minutes == 0:
			before, sweep = ranked[0].Before.U, found
		case c.Name == "the level, turned at each station":
			level = found
		}
	}
	return nextExercise(before, sweep, level), nil
}

// nextExercise asks which of two readings takes more doubt away in a minute.
func nextExercise(before float64, sweep, level remedy) notebook.Exercise {
	doubt := func(u float64) notebook.Quantity { return notebook.Quantity{SI: u, Show: notebook.Slopes, Digits: 3} }
	perMinute := func(r remedy) notebook.Quantity { return doubt((before - r.after) / r.minutes).WithDigits(2) }
	time := func(r remedy) notebook.Quantity { return notebook.Stepped(minutes(r.minutes), 60, notebook.Minutes) }
	better, other := sweep, level
	if (before-level.after)/level.minutes > (before-sweep.after)/sweep.minutes {
		better, other = level, sweep
	}
	return notebook.Exercise{Name: "exercise-next",
		Ask: notebook.Say("The side tilt at the work is known to {}. A sweep there takes {} and would bring that to {}. Another round with the level takes {} and would bring it to {}. How much doubt does the better of the two take away in a minute?",
			doubt(before), time(sweep), doubt(sweep.after), time(level), doubt(level.after)),
		Answer: perMinute(better),
		Worked: []notebook.Text{
			notebook.Say("The sweep takes away {} in {}, or {} a minute.", doubt(before-sweep.after), time(sweep), perMinute(sweep)),
			notebook.Say("The level takes away {} in {}, or {} a minute.", doubt(before-level.after), time(level), perMinute(level)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: perMinute(other), Why: notebook.Plain("That is the other one.")},
			{Value: doubt(before - better.after), Why: notebook.Plain("What it takes away in all says nothing before the minutes are counted.")},
		}}
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
