package current

import (
	"errors"
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
	plain  solved
	// places hold the coat at the left edge, the middle and the right edge.
	places [3]place
	// helps are the other layouts.
	helps []help
}

// place is the coat at a place of the coupon.
type place struct {
	name string
	// share is local over mean; thickness and u are of the coat.
	share        float64
	thickness, u unit.Length
	// doubts are what each input brings to u.
	doubts []plating.Share
}

// help is a layout beside the one set up.
type help struct {
	name string
	s    solved
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a := answer{in: in, nickel: plating.Nickel().Deposit()}
	if err := a.solve(); err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addDrawing, a.addAnswer, a.addDoubt, a.addCharge, a.addAlong, a.addHelps, a.addDistance, a.addSideways, a.addWagner, known, addWrong, addExercises, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// known adds cells with exact answers, and how fast they are neared; it depends
// on no input.
var known = notebook.Once(func(sheet *notebook.Sheet) error { return errors.Join(addConvergence(sheet), addDisc(sheet)) })

// solve works out the tank as it is set up, its doubts and its helps.
func (a *answer) solve() error {
	if err := a.in.check(); err != nil {
		return err
	}
	var err error
	if a.plain, err = (layout{in: a.in}).solve(); err != nil {
		return notebook.InField("distance", err)
	}
	if err := a.findPlaces(); err != nil {
		return err
	}
	a.helps = []help{{"as set up", a.plain}}
	middle, err := a.plain.moved(a.in.Distance, 0)
	if err != nil {
		return notebook.InField("sideways", err)
	}
	a.helps = append(a.helps, help{"anode before the middle", middle})
	for _, l := range []struct {
		name string
		layout
	}{{"shield before each edge", layout{in: a.in, shield: true}}, {"thief beside each edge", layout{in: a.in, thief: true}}} {
		s, err := l.solve()
		if err != nil {
			return notebook.InField("distance", fmt.Errorf("%s: %w", l.name, err))
		}
		a.helps = append(a.helps, help{l.name, s})
	}
	return nil
}

// findPlaces works out the coat at three places with its doubts: those of
// conductivity and overpotential by solving again with each one standard
// uncertainty up, the mesh's is the change from a coarser mesh.
func (a *answer) findPlaces() error {
	rate, err := a.nickel.Rate(a.in.Mean, a.in.Efficiency)
	if err != nil {
		return notebook.InField("efficiency", err)
	}
	mean := float64(rate) * float64(a.in.Time)
	up := func(change func(*Inputs)) (shares, error) {
		l := a.plain.layout
		change(&l.in)
		s, err := l.at(a.plain.field)
		return s.shares(), err
	}
	conducts, err := up(func(in *Inputs) { in.Conductivity *= plating.Conductivity(1 + in.ConductivityU) })
	if err != nil {
		return notebook.InField("conductivity-u", err)
	}
	tafel, err := up(func(in *Inputs) { in.Tafel *= unit.Voltage(1 + in.TafelU) })
	if err != nil {
		return notebook.InField("tafel-u", err)
	}
	coarse, err := a.sharesOn(elements * 2 / 3)
	if err != nil {
		return notebook.InField("distance", err)
	}
	x := a.plain.shares()
	set := func(i int, name string, share, k, t, c float64) {
		p := place{name: name, share: share, thickness: unit.Length(mean * share), doubts: []plating.Share{
			{Name: "conductivity", U: mean * math.Abs(k-share)}, {Name: "overpotential", U: mean * math.Abs(t-share)},
			{Name: "efficiency", U: mean * share * a.in.EfficiencyU / a.in.Efficiency}, {Name: "mesh", U: mean * math.Abs(c-share)}}}
		for _, d := range p.doubts {
			p.u = unit.Length(math.Hypot(float64(p.u), d.U))
		}
		a.places[i] = p
	}
	set(0, "left edge", x.left, conducts.left, tafel.left, coarse.left)
	set(1, "middle", x.middle, conducts.middle, tafel.middle, coarse.middle)
	set(2, "right edge", x.right, conducts.right, tafel.right, coarse.right)
	return nil
}

// sharesOn returns the shares on a mesh of another number of elements.
func (a *answer) sharesOn(elements int) (shares, error) {
	field, err := plating.NewField(a.plain.section(), elements)
	if err != nil {
		return shares{}, err
	}
	s, err := a.plain.layout.at(field)
	return s.shares(), err
}

// The quantities of the answer as they are shown.
func share(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Percents) }
func coat(p place) notebook.Quantity {
	return notebook.Of(p.thickness, p.u, notebook.FineLengths)
}
func size(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths).WithDigits(2) }
func density(j plating.CurrentDensity) notebook.Quantity {
	return notebook.Exact(j, notebook.CurrentDensities).WithDigits(2)
}
func minutes(t unit.Time) notebook.Quantity { return notebook.Exact(t, notebook.Minutes).WithDigits(2) }
func number(x float64) notebook.Quantity    { return notebook.Exact(x, notebook.Numbers).WithDigits(2) }

// wagner returns the Wagner number of the coupon at its mean current density.
func (in Inputs) wagner() (float64, error) {
	return plating.WagnerNumber(in.Conductivity, plating.AreaResistance(float64(in.Tafel)/math.Ln10/float64(in.Mean)), in.Width)
}

// addAnswer adds the coat at three places.
func (a answer) addAnswer(sheet *notebook.Sheet) error {
	wagner, err := a.in.wagner()
	if err != nil {
		return notebook.InField("conductivity", err)
	}
	left, middle, right := a.places[0], a.places[1], a.places[2]
	volts := notebook.Same(notebook.Volt)
	sheet.Add(
		notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: notebook.Say(
			"In {} at a mean of {} the left edge gets {u}, the middle {u} and the right edge {u}, each the mean over {}.", minutes(a.in.Time), density(a.in.Mean), coat(left), coat(middle), coat(right), size(strip))},
		a.anodeVerdict(),
		notebook.Figure{Name: "uneven", Label: "Thickest over thinnest of the three", Value: notebook.Exact(a.plain.shares().uneven(), notebook.Numbers)},
		notebook.Figure{Name: "amps", Label: "Current to the coupon", Value: notebook.Exact(a.in.current(), notebook.Currents)},
		notebook.Figure{Name: "volts", Label: "Cell voltage", Value: notebook.Exact(a.plain.d.Voltage, volts).WithDigits(2),
			Note: notebook.Say("The bath takes {}, the coupon {}; anode, wires and contacts come on top.", notebook.Exact(a.plain.d.Ohmic, volts).WithDigits(2), notebook.Exact(a.plain.d.Cathode, volts).WithDigits(2))},
		notebook.Figure{Name: "wagner", Label: "Wagner number, with the coupon's width", Value: number(wagner), Note: notebook.Plain("Far below 1 the shape of the tank rules; far above 1 the coat is even.")},
	)
	return nil
}

// anodeVerdict says what the anode's place does.
func (a answer) anodeVerdict() notebook.Verdict {
	x := a.plain.shares()
	side, off := "right", x.right-x.left
	if off < 0 {
		side, off = "left", -off
	}
	v := notebook.Verdict{Name: "anode", Tone: notebook.Good, Text: notebook.Say("Both edges get the same, to {} of the mean: the anode favours neither.", share(0.01))}
	if off >= 0.01 {
		v.Tone, v.Text = notebook.Watch, notebook.Say("The "+side+" edge gets {} of the mean more than the other: the anode stands {} off the middle.", share(off), size(unit.Length(math.Abs(float64(a.in.Sideways)))))
	}
	return v
}

// addDoubt adds where the uncertainty comes from.
func (a answer) addDoubt(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "doubt", Title: "Where the doubt comes from, as standard uncertainties of the coat",
		Columns: []notebook.Column{notebook.Col("Place"), notebook.ColIn("Of the mean", notebook.Percents), notebook.ColIn("Coat", notebook.FineLengths)},
		Note:    notebook.Plain("Each input was moved by its standard uncertainty and the tank solved again. The mesh's share is the change from a mesh of two thirds of the elements. What a plane cut leaves out is in none of them: top and bottom of the coupon, stirring, gas.")}
	for _, d := range a.places[0].doubts {
		table.Columns = append(table.Columns, notebook.ColIn(d.Name, notebook.FineLengths))
	}
	for _, p := range a.places {
		row := []notebook.Cell{notebook.Str(p.name), notebook.Val(share(p.share)), notebook.Val(coat(p))}
		for _, d := range p.doubts {
			row = append(row, notebook.Val(notebook.Exact(d.U, notebook.FineLengths).WithDigits(1)))
		}
		table.Rows = append(table.Rows, row)
	}
	sheet.Add(table)
	return nil
}

// addCharge adds the balance of charge, and how the mesh settles.
func (a answer) addCharge(sheet *notebook.Sheet) error {
	in, out := 0.0, 0.0
	for _, p := range a.plain.d.Profiles {
		if p.Role == plating.RoleAnode {
			in -= float64(p.Current)
		} else {
			out += float64(p.Current)
		}
	}
	charge := func(i float64) notebook.Quantity {
		return notebook.Exact(i*float64(a.in.Time), notebook.Charges).WithDigits(5)
	}
	sheet.Add(
		notebook.Figure{Name: "charge-in", Label: "Charge that leaves the anode", Value: charge(in)},
		notebook.Figure{Name: "charge-out", Label: "Charge that reaches the coupon", Value: charge(out)},
		notebook.Figure{Name: "charge-lost", Label: "Lost between them by the mesh, before it was made good", Value: notebook.Exact(a.plain.d.ChargeError, notebook.Percents).WithDigits(1),
			Note: notebook.Plain("Nothing in the bath keeps charge. What is lost is the mesh's error.")},
		notebook.Figure{Name: "settled", Label: "Change of the resistance on twice as many elements", Value: notebook.Exact(math.Abs(a.plain.d.Change.Resistance), notebook.Percents).WithDigits(1),
			Note: notebook.Say("{} elements are in use.", notebook.Whole(a.plain.field.Elements()))})
	return nil
}

// addHelps adds what shield, thief and a middle place do.
func (a answer) addHelps(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "helps", Title: "What helps, at the same mean on the coupon",
		Columns: []notebook.Column{notebook.Col("Set up"), notebook.ColIn("Left edge", notebook.Percents), notebook.ColIn("Middle", notebook.Percents), notebook.ColIn("Right edge", notebook.Percents),
			notebook.Col("Thickest over thinnest"), notebook.ColIn("Current to the coupon", notebook.Percents)},
		Note: notebook.Say("Of the mean on the coupon. Shields: plastic, {} off, from {} inside the edge to {} outside. Thieves: rods of {}, on the coupon's wire.", size(shieldOff), size(shieldInside), size(shieldOutside), size(2*thiefRadius))}
	best := a.helps[0]
	for _, h := range a.helps {
		x := h.s.shares()
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(h.name), notebook.Val(share(x.left)), notebook.Val(share(x.middle)), notebook.Val(share(x.right)),
			notebook.Val(notebook.Exact(x.uneven(), notebook.Numbers)), notebook.Val(share(h.s.d.Utilisation))})
		if x.uneven() < best.s.shares().uneven() {
			best = h
		}
	}
	sheet.Add(table, notebook.Verdict{Name: "best", Tone: notebook.Note, Text: notebook.Say("Most even of these: "+best.name+", {} times from thinnest to thickest.", notebook.Exact(best.s.shares().uneven(), notebook.Numbers))})
	return nil
}
