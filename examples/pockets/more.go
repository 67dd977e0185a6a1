package pockets

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// setUp adds the drawing and the caution.
func setUp(s *notebook.Sheet) error {
	c := drawing.New("setup-drawing", "Pockets in a way, new and worn",
		"A section through a way. Above, as new: pockets of somewhat different depths. Below, worn: the surface has come down, the pockets are shallower and the shallowest one is gone.", 420, 270)
	depths := []float64{56, 64, 28, 60, 50}
	for i, worn := range []float64{0, 32} {
		top := 60 + 120*float64(i)
		c.Box(drawing.Body, drawing.Point{X: 30, Y: top + worn}, drawing.Point{X: 390, Y: top + 76}, 0)
		for k, depth := range depths {
			x := 66 + 72*float64(k)
			left := depth - worn
			if left <= 0 {
				c.Line(drawing.Hidden, drawing.Point{X: x - 18, Y: top}, drawing.Point{X: x, Y: top + depth}, drawing.Point{X: x + 18, Y: top})
				continue
			}
			half := 18 * left / depth
			c.Face(drawing.Wedge, drawing.Point{X: x - half, Y: top + worn}, drawing.Point{X: x, Y: top + depth}, drawing.Point{X: x + half, Y: top + worn})
		}
	}
	c.Line(drawing.Hidden, drawing.Point{X: 30, Y: 180}, drawing.Point{X: 390, Y: 180})
	c.Dimension(drawing.Point{X: 400, Y: 180}, drawing.Point{X: 400, Y: 212}, 4, nil)
	c.Words(drawing.Point{X: 30, Y: 48}, drawing.Start, "as new")
	c.Words(drawing.Point{X: 30, Y: 172}, drawing.Start, "worn: the third pocket is gone")
	item, err := c.Item(notebook.Plain("Section through a way, depths drawn some hundred times too large. The broken line is the surface as new."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-ways", Text: notebook.Plain(
		"Isolate the machine before you reach under the table. Run the table by hand, and take your fingers out before you move it: table and saddle shear. Scraped edges cut. Take old oil up with a cloth and keep it off your skin.")})
	return nil
}

// shop is the flaking of the exercises.
var shop = wear.PocketOptions{New: 52 * um, Spread: 6.2 * um, Floor: 3 * um}

// exercises adds two exercises.
func exercises(s *notebook.Sheet) error {
	wears, err := wear.ReadPockets([]wear.PocketStation{{Depth: 10 * um, Found: 4, Total: 5}, {Found: 0, Total: 5}}, shop)
	if err != nil {
		return err
	}
	some, none := wears[0], wears[1]
	fine := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 0.1*um, notebook.FineLengths) }
	s.Add(notebook.Exercise{Name: "exercise-some",
		Ask: notebook.Say("Pockets were {} deep when new and differ by {}. Of five looked for, four are found with a mean depth of {}; a pocket below {} cannot be seen. How deep is the wear?",
			fine(shop.New), fine(shop.Spread), fine(10*um), fine(shop.Floor)),
		Answer: notebook.Of(some.Wear, some.U, notebook.FineLengths),
		Worked: []notebook.Text{
			notebook.Say("Those found say {}: too little, for the one that is gone was the shallowest.", fine(some.Plain)),
			notebook.Say("The most likely depth that is left, with one of five below {}, is {}.", fine(shop.Floor), fine(shop.New-some.Wear)),
			notebook.Say("So the wear is {u}.", notebook.Of(some.Wear, some.U, notebook.FineLengths)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(some.Plain), Why: notebook.Plain("The missing pocket was forgotten.")},
			{Value: fine(shop.New - 8*um), Why: notebook.Plain("The missing pocket was counted as zero deep: it is below the floor, and may be a good deal more worn than level.")},
			{Value: fine(10 * um), Why: notebook.Plain("That is what is left, not what is gone.")},
		}},
		notebook.Exercise{Name: "exercise-none",
			Ask:    notebook.Plain("At another place none of the five is left. What can you say of the wear there?"),
			Answer: notebook.Stepped(none.Wear, 0.1*um, notebook.FineLengths),
			Worked: []notebook.Text{
				notebook.Plain("Only a lower bound. Were the wear less, then at least one of five pockets would still be found, more often than nineteen times in twenty."),
				notebook.Say("Each pocket must then be gone with a chance of {}, the fifth root of 0.05.", notebook.Exact(math.Pow(0.05, 0.2), notebook.Numbers)),
				notebook.Say("That gives at least {}.", fine(none.Wear)),
			},
			Wrong: []notebook.WrongTurn{
				{Value: fine(shop.New), Why: notebook.Plain("The depth when new is neither the wear nor its bound: single pockets differ.")},
				{Value: fine(0), Why: notebook.Plain("Nothing to read was taken for no wear.")},
			}})
	return nil
}

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	const year = 365.25 * 86400 * unit.Second
	var readings []wear.BoundedDepth
	for i, depth := range []unit.Length{0, 0, 0, 8.1 * um, 9.4 * um, 12.2 * um, 13.6 * um, 16.4 * um} {
		r := wear.BoundedDepth{Clock: unit.Time(i+1) * year, Low: depth, High: depth}
		if depth == 0 {
			r.Low, r.High = unit.Length(math.Inf(-1)), 5*um
		}
		readings = append(readings, r)
	}
	trend, err := wear.FitBoundedTrend(readings)
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-rate", "bounded-rate", float64(trend.Rate/wear.MicrometrePerYear)),
		notebook.CheckRow("check-start", "bounded-start", float64(trend.Start/um)),
		notebook.CheckRow("check-scatter", "bounded-scatter", float64(trend.Scatter/um)))
	return nil
}
