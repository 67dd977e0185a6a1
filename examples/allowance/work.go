package allowance

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// answer is everything that follows from the inputs.
type answer struct {
	in    Inputs
	coat  plating.LocalCoat
	room  unit.Length // the class's allowance
	known plating.Known
	// flankLimit is the thickness on the flanks that uses the allowance up.
	flankLimit unit.Length
	// worst is a screw and a nut with no more than the allowance between them;
	// pair is the measured pair or, without one, a pair taken at random.
	worst, pair plating.Left
	fit         plating.ThreadFit // of the pair
	cut         unit.Length
	plain       plating.Plated
	chance      float64
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a := answer{in: in, coat: plating.LocalCoat{Mean: in.Mean, MeanU: in.MeanU, Share: in.Flank, ShareU: in.FlankU}}
	for _, step := range []func() error{a.thread, a.plainFit} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addDrawing, a.addRoom, a.addThread, a.addPlain, a.addEffect, a.addWrong, addExercises, addChecks,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// thread works out what the coat leaves of the thread's clearance.
func (a *answer) thread() error {
	var err error
	if a.room, a.known, err = plating.Allowance(a.in.Pitch, plating.Position(a.in.Position)); err != nil {
		return notebook.InField("pitch", err)
	}
	middle, u, least, err := plating.ClassClearance(a.in.Diameter, a.in.Pitch, plating.Position(a.in.Position))
	if err != nil {
		return notebook.InField("pitch", err)
	}
	if a.flankLimit, err = plating.FlankThicknessLimit(a.room, plating.ISOThread); err != nil {
		return notebook.InField("position", err)
	}
	worst := plating.ThreadFit{Clearance: least, Screw: a.coat}
	a.fit = plating.ThreadFit{Clearance: middle, ClearanceU: u, Screw: a.coat}
	if a.in.Clearance != nil {
		a.fit.Clearance, a.fit.ClearanceU = *a.in.Clearance, a.in.ClearanceU
	}
	if a.in.NutPlated == nutPlated {
		worst.Nut, a.fit.Nut = a.coat, a.coat
	}
	if a.worst, err = worst.AfterPlating(); err != nil {
		return notebook.InField("mean", err)
	}
	a.pair, err = a.fit.AfterPlating()
	return notebook.InField("clearance", err)
}

// plainFit works out the size to cut a pin or a bore.
func (a *answer) plainFit() error {
	limits := plating.Limits{Least: a.in.Least, Greatest: a.in.Greatest}
	coat := plating.LocalCoat{Mean: a.in.Mean, MeanU: a.in.MeanU, Share: a.in.PlainShare, ShareU: a.in.PlainShareU}
	feature := plating.Feature(a.in.Feature)
	var err error
	if a.cut, err = plating.CutSize(feature, limits, coat); err != nil {
		return notebook.InField("greatest", err)
	}
	if a.plain, err = plating.PlatedSize(feature, plating.Dimension{Value: a.cut, U: a.in.CutU}, coat); err != nil {
		return notebook.InField("cut-u", err)
	}
	a.chance, err = a.plain.ChanceWithin(limits)
	return notebook.InField("greatest", err)
}

// Quantities as they are shown.
func fine(t unit.Length) notebook.Quantity     { return notebook.Exact(t, notebook.FineLengths) }
func fineU(t, u unit.Length) notebook.Quantity { return notebook.Of(t, u, notebook.FineLengths) }
func size(t unit.Length) notebook.Quantity     { return notebook.Stepped(t, um, notebook.Lengths) }
func percent(x float64, n int) notebook.Quantity {
	return notebook.Exact(x, notebook.Percents).WithDigits(n)
}

// addRoom adds what each tolerance position leaves room for.
func (a answer) addRoom(sheet *notebook.Sheet) error {
	slenderness := float64(a.in.Length / a.in.Diameter)
	table := notebook.Table{Name: "positions", Title: "Room for nickel at this pitch",
		Columns: []notebook.Column{notebook.Col("Position"), notebook.ColIn("Allowance", notebook.FineLengths),
			notebook.ColIn("Most on the flanks", notebook.FineLengths), notebook.ColIn("Largest nominal coat", notebook.FineLengths)},
		Note: notebook.Say("The last column is that of ISO 4042:1999 for a thread {} diameters long.", notebook.Exact(slenderness, notebook.Numbers).WithDigits(2))}
	for _, position := range []plating.Position{plating.PositionH, plating.PositionG, plating.PositionF, plating.PositionE} {
		room, _, err := plating.Allowance(a.in.Pitch, position)
		if err != nil {
			return notebook.InField("pitch", err)
		}
		most, err := plating.FlankThicknessLimit(room, plating.ISOThread)
		if err != nil {
			return err
		}
		class, ok, err := plating.LargestClass(room, slenderness)
		if err != nil {
			return notebook.InField("length", err)
		}
		cell := notebook.Str("none")
		if ok {
			cell = notebook.Val(fine(class.Nominal).WithDigits(2))
		}
		name := string(position)
		if name == a.in.Position {
			name += ", yours"
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(name), notebook.Val(fine(room).WithDigits(2)), notebook.Val(fine(most).WithDigits(2)), cell})
	}
	sheet.Add(table,
		notebook.Figure{Name: "room", Label: "Allowance of your thread", Value: fine(a.room).WithDigits(2), Note: notebook.Plain("Known by: " + string(a.known) + ".")},
		notebook.Figure{Name: "flank-limit", Label: "Most on the flanks before it is used up", Value: fine(a.flankLimit)},
		a.timeFigure())
	return nil
}

// timeFigure gives how long the limit takes.
func (a answer) timeFigure() notebook.Figure {
	f := notebook.Figure{Name: "limit-time", Label: "Time to that at your current density"}
	if a.in.Flank == 0 {
		f.Unknown = "the flanks get nothing"
		return f
	}
	t, err := plating.Nickel().Deposit().TimeFor(a.flankLimit/unit.Length(a.in.Flank), a.in.Density, a.in.Efficiency)
	if err != nil {
		f.Unknown = err.Error()
		return f
	}
	f.Value = notebook.Exact(t, notebook.Minutes)
	return f
}

// addThread adds what is left of the clearance.
func (a answer) addThread(sheet *notebook.Sheet) error {
	growth, err := plating.PlatedSize(plating.ExternalThread, plating.Exactly(a.in.Diameter), a.coat)
	if err != nil {
		return notebook.InField("mean", err)
	}
	what := "a pair taken at random from its class"
	if a.in.Clearance != nil {
		what = "the pair you measured"
	}
	sheet.Add(
		notebook.Figure{Name: "growth", Label: "Growth of the screw's pitch diameter", Value: fineU(growth.Growth, growth.U)},
		notebook.Figure{Name: "worst-left", Label: "Clearance left, tightest pair of the class", Value: fineU(a.worst.Clearance, a.worst.U)},
		notebook.Figure{Name: "worst-chance", Label: "Chance that this pair runs", Value: percent(a.worst.Runs, 2)},
		notebook.Figure{Name: "pair-left", Label: "Clearance left, " + what, Value: fineU(a.pair.Clearance, a.pair.U)},
		notebook.Figure{Name: "pair-chance", Label: "Chance that it runs", Value: percent(a.pair.Runs, 2)},
		a.runVerdict(),
	)
	chart, err := a.chanceChart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// runVerdict says whether the nut will run.
func (a answer) runVerdict() notebook.Verdict {
	v := notebook.Verdict{Name: "runs", Tone: notebook.Good}
	deciding, sure := a.worst, "even the tightest pair of the class"
	if a.in.Clearance != nil {
		deciding, sure = a.pair, "the pair you measured"
	}
	left, chance := fineU(deciding.Clearance, deciding.U), percent(deciding.Runs, 2)
	switch {
	case deciding.Runs >= 0.975:
		v.Text = notebook.Say("The nut runs: "+sure+" keeps {u} of clearance.", left)
	case deciding.Runs >= 0.5:
		v.Tone, v.Text = notebook.Watch, notebook.Say("The nut probably runs: "+sure+" keeps {u}, and runs with a chance of {}. Try one before you plate the rest.", left, chance)
	default:
		v.Tone, v.Text = notebook.Stop, notebook.Say("Do not count on the nut: "+sure+" is left with {u}, and runs with a chance of {}. Cut the thread with more room, or plate it thinner.", left, chance)
	}
	return v
}

// addPlain adds the size to cut a pin or bore.
func (a answer) addPlain(sheet *notebook.Sheet) error {
	budget := notebook.Table{Name: "plain-budget", Title: "What makes the plated diameter uncertain",
		Columns: []notebook.Column{notebook.Col("From"), notebook.ColIn("Contributes", notebook.FineLengths)}}
	for _, s := range a.plain.Shares {
		budget.Rows = append(budget.Rows, []notebook.Cell{notebook.Str(s.Name), notebook.Val(notebook.Exact(s.U, notebook.FineLengths).WithDigits(2))})
	}
	v := notebook.Verdict{Name: "plain", Tone: notebook.Good, Text: notebook.Say(
		"Cut the "+a.in.Feature+" to {}: plated it comes to {}, and lies within its limits with a chance of {}.", size(a.cut), size(a.plain.Size), percent(a.chance, 3))}
	if a.chance < 0.95 {
		v.Tone = notebook.Watch
		v.Text = v.Text.And(notebook.Plain("The limits are too close for that: " + largest(a.plain.Shares) + " contributes the most."))
	}
	sheet.Add(
		notebook.Figure{Name: "cut", Label: "Cut it to", Value: size(a.cut)},
		notebook.Figure{Name: "plain-growth", Label: "Change of diameter by plating", Value: fineU(a.plain.Growth, a.plain.U)},
		notebook.Figure{Name: "plain-chance", Label: "Chance that it lies within its limits", Value: percent(a.chance, 3)},
		budget, v)
	return nil
}

// largest names the share that contributes most.
func largest(shares []plating.Share) string {
	most := plating.Share{Name: "nothing"}
	for _, s := range shares {
		if s.U > most.U {
			most = s
		}
	}
	return most.Name
}

// addEffect says what a thread that binds does.
func (a answer) addEffect(sheet *notebook.Sheet) error {
	needed, err := plating.AllowanceFor(a.in.Mean*unit.Length(a.in.Flank), float64(a.in.Length/a.in.Diameter))
	if err != nil {
		return notebook.InField("length", err)
	}
	basic, err := plating.BasicPitchDiameter(a.in.Diameter, a.in.Pitch)
	if err != nil {
		return notebook.InField("pitch", err)
	}
	sheet.Add(notebook.Verdict{Name: "cut-thread", Tone: notebook.Note, Text: notebook.Say(
		"To hold that coat and still pass as the basic thread, the largest pitch diameter before plating is {}: the basic {} less {}.",
		size(basic-needed), size(basic), fine(needed))},
		notebook.Caution{Name: "caution-force", Text: notebook.Plain("Do not force a nut over a tight plated thread: nickel galls, small screws shear, and a chip of nickel flies. Hard screws can also snap later from hydrogen; see the baking table before you plate them.")},
		notebook.Caution{Name: "caution-strip", Text: notebook.Plain("Stripping nickel off a tight thread means strong acid or an anodic strip, with fumes and nickel waste. It is safer to cut a new screw.")},
	)
	return nil
}
