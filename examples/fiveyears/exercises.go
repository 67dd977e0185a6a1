package fiveyears

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
	o, err := look(in)
	if err != nil {
		return err
	}
	depth, u := o.line.At(o.now.Hours)
	s.Add(yearsExercise(wornWay{depth: depth, u: u, rate: o.line.Rate, rateU: o.line.RateU}, in.Limit, in.LikelyUse), moneyExercise(400, 10, 0.05))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-years", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			rate := notebook.Steps(r, 40, 150, 0.1*wear.MicrometrePerThousandHour)
			way := wornWay{depth: notebook.Steps(r, 30, 60, 1*um), u: notebook.Steps(r, 10, 25, 0.1*um), rate: rate, rateU: rate * wear.WearRate(notebook.Steps(r, 8, 25, 0.01))}
			return yearsExercise(way, way.depth+notebook.Steps(r, 2, 8, 5*um), notebook.Steps(r, 4, 16, 50*hour)), nil
		}},
		{Name: "exercise-money", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return moneyExercise(notebook.Steps(r, 6, 30, 50.0), 5+r.IntN(11), notebook.Steps(r, 4, 16, 0.005)), nil
		}},
	}
}

// wornWay is how deep a way is worn and how fast it wears, each with its
// standard uncertainty.
type wornWay struct {
	depth, u    unit.Length
	rate, rateU wear.WearRate
}

// yearsExercise asks in how many years a way reaches its limit, at so much use
// a year.
func yearsExercise(way wornWay, limit unit.Length, use unit.Time) notebook.Exercise {
	perYear := float64(way.rate) * float64(use)
	left := float64(limit-way.depth) / perYear
	// To first order: the two errors of depth and rate, taken apart.
	leftU := math.Hypot(float64(way.u)/perYear, left*float64(way.rateU/way.rate))
	return notebook.Exercise{Name: "exercise-years",
		Ask: notebook.Say("The way is {u} deep and wears {u}; it runs {} a year. In how many years does it reach {}?",
			notebook.Of(way.depth, way.u, notebook.FineLengths), notebook.Of(way.rate, way.rateU, hourRates), notebook.Stepped(use, 1*hour, notebook.Hours), depthOf(limit)),
		Answer: notebook.Of(left*float64(year), leftU*float64(year), notebook.Same(notebook.Year)),
		Worked: []notebook.Text{
			notebook.Say("There are {} to go.", notebook.Stepped(limit-way.depth, 0.1*um, notebook.FineLengths)),
			notebook.Say("A year takes {}.", notebook.Stepped(wear.WearRate(perYear/float64(year)), 0.01*wear.MicrometrePerYear, yearRates)),
			notebook.Say("That is {}. The rate is sure to {}, and so is the answer, nearly.", yearsOf(left), percent(float64(way.rateU/way.rate))),
		},
		Wrong: []notebook.WrongTurn{
			{Value: yearsOf(float64(limit) / perYear), Why: notebook.Plain("Counted from new: the way is worn already.")},
			{Value: yearsOf(float64(limit-way.depth) / (float64(way.rate) * float64(1000*hour))), Why: notebook.Plain("Took a thousand hours for a year.")},
			{Value: yearsOf(left / (365.25 * 24) * float64(use/hour)), Why: notebook.Plain("Let the machine wear day and night.")},
		}}
}

// moneyExercise asks for the worth today of a yearly cost, each year's in its
// middle.
func moneyExercise(cost float64, years int, interest float64) notebook.Exercise {
	today := func(year int) float64 { return math.Pow(1+interest, 0.5-float64(year)) }
	sum := 0.0
	for y := 1; y <= years; y++ {
		sum += today(y)
	}
	factor := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.001, notebook.Numbers) }
	return notebook.Exercise{Name: "exercise-money",
		Ask: notebook.Say("Wear costs {} a year for {} years, and money earns {}. What is the most to pay for a rebuild that ends it?",
			money(cost), notebook.Whole(years), notebook.Stepped(interest, 0.001, notebook.Percents)),
		Answer: money(sum * cost),
		Worked: []notebook.Text{
			notebook.Say("The cost of each year falls in its middle and is worth {} to the power of minus its time today: {} of it in the first year, {} in the last.", factor(1+interest), factor(today(1)), factor(today(years))),
			notebook.Say("The {} factors sum to {}.", notebook.Whole(years), factor(sum)),
			notebook.Say("Times {} it is {}.", money(cost), money(sum*cost)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: money(cost * float64(years)), Why: notebook.Plain("Added up without interest: money in years to come is not money today.")},
			{Value: money(cost / interest), Why: notebook.Plain("That would be the worth of the yearly cost for ever.")},
			{Value: money(cost * float64(years) * today(years)), Why: notebook.Plain("The whole sum was taken as paid in the last year.")},
		}}
}
