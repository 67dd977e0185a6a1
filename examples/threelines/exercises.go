package threelines

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	ends, err := endsExercise(600*mm, 2*um, 9*um, 4*um)
	if err != nil {
		return err
	}
	zone, err := zoneExercise(unequal())
	if err != nil {
		return err
	}
	s.Add(ends, zone)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-ends", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			height := func() unit.Length { return notebook.Steps(r, -10, 20, 1*um) }
			left, right := height(), height()
			return endsExercise(notebook.Steps(r, 4, 10, 100*mm), left, (left+right)/2+notebook.Either(r, notebook.Steps(r, 3, 12, 1*um)), right)
		}},
		{Name: "exercise-zone", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			points := make([]wear.Point, 5)
			for i := range points {
				points[i] = wear.Point{Position: unit.Length(i) * 200 * mm, Height: notebook.Steps(r, -6, 9, 1*um)}
			}
			points[1+r.IntN(3)].Height = 16 * um // so that they are never in one line
			return zoneExercise(points)
		}},
	}
}

func height(x unit.Length) notebook.Quantity {
	return notebook.Stepped(x, 0.1*um, notebook.FineLengths)
}

// endsExercise asks for the straightness of three heights from the end points.
func endsExercise(long, left, middle, right unit.Length) (notebook.Exercise, error) {
	ends, err := wear.StraightnessOf([]wear.Point{{Position: 0, Height: left}, {Position: long / 2, Height: middle}, {Position: long, Height: right}}, wear.EndPoints)
	where := "The middle stands {} above it, and the ends are on it."
	if middle < (left+right)/2 {
		where = "The middle lies {} below it, and the ends are on it."
	}
	return notebook.Exercise{Name: "exercise-ends",
		Ask:    notebook.Say("Heights of {}, {} and {} at 0, half and all of {}. How straight is that from the end points?", height(left), height(middle), height(right), place(long)),
		Answer: height(ends.Value),
		Worked: []notebook.Text{
			notebook.Say("The line through the ends is at {} in the middle.", height((left+right)/2)),
			notebook.Say(where, height(ends.Value)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: height(max(left, middle, right) - min(left, middle, right)), Why: notebook.Plain("Highest less lowest: the tilt was left in.")},
			{Value: height(ends.Value / 2), Why: notebook.Plain("That is how far the profile lies either side of a line in its middle; straightness is the whole width.")},
		}}, err
}

// zoneExercise asks for the width of a profile's minimum zone.
func zoneExercise(points []wear.Point) (notebook.Exercise, error) {
	var values [3]unit.Length
	var zone wear.Straightness
	for i, reference := range []wear.Reference{wear.EndPoints, wear.LeastSquares, wear.MinimumZone} {
		var err error
		if zone, err = wear.StraightnessOf(points, reference); err != nil {
			return notebook.Exercise{}, err
		}
		values[i] = zone.Value
	}
	pair, one, pairIs, oneIs := zone.Lowest, zone.Highest, "lower", "upper"
	if len(pair) < 2 {
		pair, one, pairIs, oneIs = one, pair, "upper", "lower"
	}
	a, b, c := points[pair[0]], points[pair[len(pair)-1]], points[one[0]]
	across := c.Height - (a.Height + (b.Height-a.Height)*(c.Position-a.Position)/(b.Position-a.Position))
	exact := func(x unit.Length) notebook.Quantity {
		return notebook.Exact(x, notebook.FineLengths).WithDigits(4)
	}
	highest, lowest := points[0].Height, points[0].Height
	var heights, places []notebook.Quantity
	for _, p := range points {
		highest, lowest = max(highest, p.Height), min(lowest, p.Height)
		heights, places = append(heights, notebook.Stepped(p.Height, 1*um, notebook.FineLengths)), append(places, place(p.Position))
	}
	ask := notebook.Plain("Heights of").And(listed(heights)).And(notebook.Plain("stand at")).And(listed(places)).
		And(notebook.Say("in turn. The "+pairIs+" line of the minimum zone touches at {} and at {}, the "+oneIs+" one at {}. How wide is the zone?", place(a.Position), place(b.Position), place(c.Position)))
	return notebook.Exercise{Name: "exercise-zone",
		Ask:    ask,
		Answer: exact(values[2]),
		Worked: []notebook.Text{
			notebook.Say("The "+pairIs+" line runs from {} at {} to {} at {}.", height(a.Height), place(a.Position), height(b.Height), place(b.Position)),
			notebook.Say("At {} it is at {}.", place(c.Position), exact(c.Height-across)),
			notebook.Say("The height there is {}, so the zone is {} wide.", height(c.Height), exact(values[2])),
		},
		Wrong: []notebook.WrongTurn{
			{Value: exact(highest - lowest), Why: notebook.Plain("Highest less lowest: the zone may tilt.")},
			{Value: exact(values[0]), Why: notebook.Plain("That is from the end points.")},
			{Value: exact(values[1]), Why: notebook.Plain("That is by least squares.")},
		}}, nil
}

// listed returns the quantities as a list in a sentence.
func listed(quantities []notebook.Quantity) notebook.Text {
	last := len(quantities) - 1
	var text notebook.Text
	for i, q := range quantities {
		pattern := "{},"
		switch i {
		case last - 1:
			pattern = "{} and"
		case last:
			pattern = "{}"
		}
		text = text.And(notebook.Say(pattern, q))
	}
	return text
}
