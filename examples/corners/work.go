package corners

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// answer is everything that follows from the inputs.
type answer struct {
	in     Inputs
	nickel plating.Deposit
	curve  plating.EfficiencyCurve
	// plain is the tank as it is set up.
	plain solved
	grown plating.Growth
	// until is the time for the thinnest place, and then the coat by that time.
	until unit.Time
	then  plating.Growth
	// most is the mean current density at which the thickest place just burns.
	most   plating.CurrentDensity
	sleeve sleeve
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a, err := in.solve()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addDrawing, a.addAnswer, a.addAlong, a.addSpots, a.addHelps, a.addDistance, a.addBore, a.addWrong, a.addExercises, checks, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// checks adds cells with exact answers; they depend on no input.
var checks = notebook.Once(addChecks)

// solve works out the tank as it is set up, and the sleeve.
func (in Inputs) solve() (answer, error) {
	a := answer{in: in, nickel: plating.Nickel().Deposit(), curve: plating.ConstantEfficiency(in.Efficiency)}
	if err := in.check(); err != nil {
		return answer{}, err
	}
	var err error
	if a.plain, err = (layout{in: in}).solve(in.Mean, elements); err != nil {
		return answer{}, notebook.InField("width", err)
	}
	if a.grown, err = a.plain.d.Grow(a.nickel, a.curve, in.Time); err != nil {
		return answer{}, notebook.InField("time", err)
	}
	if a.until, err = a.plain.d.TimeFor(in.Wanted, a.nickel, a.curve); err != nil {
		return answer{}, notebook.InField("wanted", err)
	}
	if a.then, err = a.plain.d.Grow(a.nickel, a.curve, a.until); err != nil {
		return answer{}, notebook.InField("wanted", err)
	}
	if a.most, err = a.plain.mostBefore(in.Burns); err != nil {
		return answer{}, notebook.InField("burns", err)
	}
	if a.sleeve, err = in.solveSleeve(); err != nil {
		return answer{}, notebook.InField("inside", err)
	}
	return a, nil
}

// mostBefore returns the mean current density on the plates at which the
// thickest place reaches a limit. The shares change little with the current, so
// a few rounds of proportion find it.
func (s solved) mostBefore(limit plating.CurrentDensity) (plating.CurrentDensity, error) {
	mean := limit * s.d.Mean / s.d.Thickest.CurrentDensity
	for range 4 {
		there, err := s.layout.at(s.field, mean)
		if err != nil {
			return 0, err
		}
		by := limit / there.d.Thickest.CurrentDensity
		mean *= by
		if math.Abs(float64(by)-1) < 1e-4 {
			break
		}
	}
	return mean, nil
}

// The quantities of the answer as they are shown.
func density(j plating.CurrentDensity) notebook.Quantity {
	return notebook.Exact(j, notebook.CurrentDensities).WithDigits(2)
}
func fine(t unit.Length) notebook.Quantity {
	return notebook.Exact(t, notebook.FineLengths).WithDigits(2)
}
func share(x float64) notebook.Quantity {
	return notebook.Stepped(x, 0.01, notebook.Percents)
}
func minutes(t unit.Time) notebook.Quantity { return notebook.Exact(t, notebook.Minutes).WithDigits(2) }
func size(l unit.Length) notebook.Quantity  { return notebook.Exact(l, notebook.Lengths).WithDigits(2) }

// toMean returns a current density as a share of the mean on the plates.
func (s solved) toMean(j plating.CurrentDensity) float64 { return float64(j / s.d.Mean) }

// addAnswer adds what the tank does as it is set up.
func (a answer) addAnswer(sheet *notebook.Sheet) error {
	d := a.plain.d
	wagner, err := plating.WagnerNumber(a.in.Conductivity, plating.AreaResistance(float64(a.in.Tafel)/math.Ln10/float64(a.in.Mean)), a.in.Width)
	if err != nil {
		return err
	}
	volts := notebook.Same(notebook.Volt)
	sheet.Add(
		notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: notebook.Say(
			"In {} at a mean of {} the cut gets a mean of {}: {} at the edge where it is thickest, {} where it is thinnest.",
			minutes(a.in.Time), density(d.Mean), fine(a.grown.Mean), fine(a.grown.Thickest.Thickness), fine(a.grown.Thinnest.Thickness))},
		a.burnVerdict(),
		notebook.Figure{Name: "amps", Label: "Current for these plates", Value: notebook.Exact(2*d.Current, notebook.Currents)},
		notebook.Figure{Name: "edge", Label: "Thickest place, of the mean", Value: share(a.plain.toMean(d.Thickest.CurrentDensity))},
		notebook.Figure{Name: "thin", Label: "Thinnest place, of the mean", Value: share(a.plain.toMean(d.Thinnest.CurrentDensity))},
		notebook.Figure{Name: "spread", Label: "Spread over the cut, standard deviation of the mean", Value: share(d.Spread)},
		notebook.Figure{Name: "volts", Label: "Cell voltage", Value: notebook.Exact(d.Voltage, volts).WithDigits(2),
			Note: notebook.Say("The bath takes {} of it, the plates' overpotential {}; that of the anodes, the wires and the contacts come on top.",
				notebook.Exact(d.Ohmic, volts).WithDigits(2), notebook.Exact(d.Cathode, volts).WithDigits(2))},
		notebook.Figure{Name: "wagner", Label: "Wagner number, with the plate's size", Value: notebook.Exact(wagner, notebook.Numbers).WithDigits(2),
			Note: notebook.Plain("Far below 1 the coat follows the shape of the tank; far above 1 it is even.")},
		notebook.Figure{Name: "until", Label: "Time until the thinnest place has what is wanted", Value: minutes(a.until),
			Note: notebook.Say("The thickest place then has {}.", fine(a.then.Thickest.Thickness))},
		notebook.Figure{Name: "settled", Label: "Change of the thickest place on twice as fine a mesh", Value: share(d.Change.Thickest),
			Note: notebook.Say("The thinnest changed by {}. This is the solver's own doubt, not that of the inputs.", share(d.Change.Thinnest))},
	)
	return nil
}

// burnVerdict says whether the edge burns and how much current it would bear.
func (a answer) burnVerdict() notebook.Verdict {
	d := a.plain.d
	most := density(a.most)
	if d.Thickest.CurrentDensity <= a.in.Burns {
		return notebook.Verdict{Name: "burn", Tone: notebook.Good, Text: notebook.Say(
			"No place is over {}: the edge has {}. A mean of {} would take it there.", density(a.in.Burns), density(d.Thickest.CurrentDensity), most)}
	}
	_, over, err := d.Over(a.in.Burns)
	if err != nil {
		over = 0
	}
	return notebook.Verdict{Name: "burn", Tone: notebook.Stop, Text: notebook.Say(
		"The edge has {}, over the {} at which this bath burns, on {} of the cut. Set a mean of at most {}.",
		density(d.Thickest.CurrentDensity), density(a.in.Burns), share(over), most)}
}

// help is one thing to try.
type help struct {
	name string
	s    solved
}

// helps solves the tank with one thing changed at a time.
func (a answer) helps() ([]help, error) {
	in := a.in
	tries := []struct {
		name string
		l    layout
		mean plating.CurrentDensity
	}{
		{"anodes at a third of the distance", layout{in: in.withDistances(max(in.Left/3, 10*mm), max(in.Right/3, 10*mm))}, in.Mean},
		{"anodes half as wide", layout{in: in.withAnode(in.AnodeWidth / 2)}, in.Mean},
		{"a third of the current", a.plain.layout, in.Mean / 3},
		{"thief rods outside the outermost edges", layout{in: in, thief: true}, in.Mean},
		{"shields in front of the outermost edges", layout{in: in, shield: true}, in.Mean},
	}
	all := []help{{"as set up", a.plain}}
	for _, try := range tries {
		var s solved
		var err error
		if try.l == a.plain.layout {
			s, err = try.l.at(a.plain.field, try.mean)
		} else {
			s, err = try.l.solve(try.mean, fewer)
		}
		if err != nil {
			// No room for it in this tank: the table says so.
			s = solved{}
		}
		all = append(all, help{try.name, s})
	}
	return all, nil
}

// withDistances returns the inputs with the anodes elsewhere.
func (in Inputs) withDistances(left, right unit.Length) Inputs {
	in.Left, in.Right = left, right
	return in
}

// withAnode returns the inputs with another width of anode.
func (in Inputs) withAnode(width unit.Length) Inputs {
	in.AnodeWidth = width
	return in
}

// addHelps adds the table of what helps.
func (a answer) addHelps(sheet *notebook.Sheet) error {
	all, err := a.helps()
	if err != nil {
		return err
	}
	table := notebook.Table{Name: "helps", Title: "One thing changed at a time, at the same mean on the plates",
		Columns: []notebook.Column{notebook.Col("What"), notebook.ColIn("Thickest of mean", notebook.Percents), notebook.ColIn("Thinnest of mean", notebook.Percents),
			notebook.ColIn("Spread", notebook.Percents), notebook.ColIn("Current to the plates", notebook.Percents), notebook.ColIn("Time to the least wanted", notebook.Minutes)},
		Note: notebook.Say("The thieves are rods of {} beside the outermost edges, {} off, on the plates' wire; the shields are plastic strips {} in front of them.",
			size(2*thiefRadius), size(thiefOff-thiefRadius), size(shieldOff))}
	best := all[0]
	for _, h := range all {
		if h.s.field == nil {
			none := notebook.Str("no room")
			table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(h.name), none, none, none, none, none})
			continue
		}
		until, err := h.s.d.TimeFor(a.in.Wanted, a.nickel, a.curve)
		if err != nil {
			return fmt.Errorf("%s: %w", h.name, err)
		}
		row := []notebook.Cell{notebook.Str(h.name), notebook.Val(share(h.s.toMean(h.s.d.Thickest.CurrentDensity))),
			notebook.Val(share(h.s.toMean(h.s.d.Thinnest.CurrentDensity))), notebook.Val(share(h.s.d.Spread)),
			notebook.Val(share(h.s.d.Utilisation)), notebook.Val(minutes(until))}
		table.Rows = append(table.Rows, row)
		if h.s.d.Spread < best.s.d.Spread {
			best = h
		}
	}
	text := notebook.Plain("None of them makes this coat more even than it is as set up.")
	if best.name != all[0].name {
		text = notebook.Say("Most even of these: "+best.name+". The spread goes from {} to {}.", share(all[0].s.d.Spread), share(best.s.d.Spread))
	}
	sheet.Add(table, notebook.Verdict{Name: "best", Tone: notebook.Note, Text: text})
	return nil
}
