package oilline

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exerciseItems adds two exercises on the shop's depths.
func exerciseItems(s *notebook.Sheet) error {
	in := Defaults()
	f, err := find(in)
	if err != nil {
		return err
	}
	first, then := f.front[0], f.front[4]
	s.Add(
		rateExercise(first.Depth, then.Depth, in.StepU, then.Clock-first.Clock, f.front[len(f.front)-1].Clock),
		witnessExercise(measuredRate{f.frontEvent.Change, f.frontEvent.ChangeU}, measuredRate{f.rearEvent.Change, f.rearEvent.ChangeU}),
	)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-rate", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			first, run := notebook.Steps(r, 15, 50, 1*um), notebook.Steps(r, 16, 50, 25*hour)
			return rateExercise(first, first+notebook.Steps(r, 8, 30, 1*um), notebook.Steps(r, 2, 4, 0.5*um), run, run+notebook.Steps(r, 8, 30, 25*hour)), nil
		}},
		{Name: "exercise-witness", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			u := func() wear.WearRate { return notebook.Steps(r, 4, 20, 0.1*wear.MicrometrePerThousandHour) }
			front := measuredRate{notebook.Steps(r, -150, -60, 0.1*wear.MicrometrePerThousandHour), u()}
			return witnessExercise(front, measuredRate{notebook.Either(r, notebook.Steps(r, 5, 30, 0.1*wear.MicrometrePerThousandHour)), u()}), nil
		}},
	}
}

// measuredRate is a rate or a change of one, with its standard uncertainty.
type measuredRate struct{ value, u wear.WearRate }

var hourRates = clock{}.rates()

// rate is a rate without an uncertainty.
func rate(x wear.WearRate) notebook.Quantity {
	return notebook.Stepped(x, 0.1*wear.MicrometrePerThousandHour, hourRates)
}

// rateExercise asks for the rate from two depths, each sure to u, so many hours
// apart. All is the hours to the last entry of the book.
func rateExercise(first, then, u unit.Length, run, all unit.Time) notebook.Exercise {
	depth := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }
	doubt := notebook.Stepped(u, 0.5*um, notebook.FineLengths)
	hours := func(t unit.Time) notebook.Quantity { return notebook.Stepped(t, 1*hour, notebook.Hours) }
	over := func(l unit.Length, t unit.Time) wear.WearRate { return wear.WearRate(float64(l) / float64(t)) }
	found, sure := over(then-first, run), over(u*math.Sqrt2, run)
	return notebook.Exercise{Name: "exercise-rate",
		Ask: notebook.Say("The front way was {} deep at the start and {} after {} under power, each sure to {}; the book goes on to {}. What was its rate between the two, and how sure is it?",
			depth(first), depth(then), hours(run), doubt, hours(all)),
		Answer: notebook.Of(found, sure, hourRates),
		Worked: []notebook.Text{
			notebook.Say("It wore {} in {}.", depth(then-first), hours(run)),
			notebook.Say("That is {}.", rate(found)),
			notebook.Say("The difference of two depths is sure to √2 times {}, so the rate is sure to {}.", doubt, rate(sure)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: rate(over(then, run)), Why: notebook.Plain("The depth at the start was counted in: it was worn before the book began.")},
			{Value: rate(over(then-first, all)), Why: notebook.Plain("Divided by all the hours in the book.")},
		}}
}

// witnessExercise asks how much of one way's change is its own, when another
// way has changed too.
func witnessExercise(front, rear measuredRate) notebook.Exercise {
	own, u := front.value-rear.value, wear.WearRate(math.Hypot(float64(front.u), float64(rear.u)))
	return notebook.Exercise{Name: "exercise-witness",
		Ask: notebook.Say("The rate of the front way changed by {u} on the day, that of the rear way by {u}. How much of the change belongs to the outlet?",
			notebook.Of(front.value, front.u, hourRates), notebook.Of(rear.value, rear.u, hourRates)),
		Answer: notebook.Of(own, u, hourRates),
		Worked: []notebook.Text{
			notebook.Plain("What changed for both ways alike, the pump, the job, the hand, is in both. Take the rear way's change off."),
			notebook.Say("The uncertainties add as squares: {}.", rate(u)),
			notebook.Say("The change is {} times its uncertainty.", notebook.Stepped(math.Abs(float64(own/u)), 0.1, notebook.Numbers)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: rate(front.value), Why: notebook.Plain("The witness was not asked.")},
			{Value: rate(front.value + rear.value), Why: notebook.Plain("The witness's change was added instead of taken off.")},
			{Value: rate(-own), Why: notebook.Plain("The sign was turned: less wear than before is a minus.")},
		}}
}
