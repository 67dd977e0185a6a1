package amps

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// answer is everything that follows from the inputs.
type answer struct {
	in      Inputs
	nickel  plating.Deposit
	load    plating.Surface
	rows    []plating.Surface
	setting plating.Setting
	run     checkRun
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a := answer{in: in, nickel: plating.Nickel().Deposit()}
	var err error
	if a.load, a.rows, err = in.load(); err != nil {
		return nil, err
	}
	if a.setting, err = in.plan(a.nickel, a.load).Setting(); err != nil {
		return nil, notebook.InField(in.blame(), err)
	}
	if a.run, err = in.weigh(a.nickel, a.load); err != nil {
		return nil, notebook.InField("run-current", err)
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addDrawing, a.addSetting, a.addBudget, a.addGrowth, a.addCheckRun, a.addEffects, a.addWrong, addExercises, a.addChecks, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// plan returns what is wanted, as the library asks for it.
func (in Inputs) plan(nickel plating.Deposit, load plating.Surface) plating.Plan {
	p := plating.Plan{
		Deposit: nickel, Area: load, Thickness: in.Thickness, CurrentDensity: in.Density,
		Efficiency: in.Efficiency, EfficiencyU: in.EfficiencyU,
		Supply: plating.Supply{Step: in.SupplyStep, Most: in.SupplyMost},
		TimeU:  in.timeU(),
		Spread: plating.Spread{Thinnest: in.Thinnest, Thickest: in.Thickest},
	}
	if in.Current != nil {
		p.Current, p.CurrentDensity = *in.Current, 0
	}
	return p
}

// timeU returns the standard uncertainty of a time: rectangular, on and off
// together.
func (in Inputs) timeU() unit.Time { return in.Switching / unit.Time(math.Sqrt(3)) }

// blame names the field that the current came from.
func (in Inputs) blame() string {
	if in.Current != nil {
		return "current"
	}
	return "density"
}

// checkRun is the weighed run: what it proves, or why it proves nothing.
type checkRun struct {
	weighed    plating.Weighed
	thickness  unit.Length
	thicknessU unit.Length
	// impossible says why the readings cannot be true, empty when they can.
	impossible string
}

// weigh works out the check run.
func (in Inputs) weigh(nickel plating.Deposit, load plating.Surface) (checkRun, error) {
	supply := plating.Supply{Step: in.SupplyStep}
	w, err := plating.Run{
		Deposit: nickel, Before: []unit.Mass{in.Before}, After: []unit.Mass{in.After},
		Scale:   plating.Scale{Resolution: in.ScaleStep, Handling: in.Handling},
		Current: in.RunCurrent, CurrentU: supply.CurrentU(in.RunCurrent), Time: in.RunTime, TimeU: in.timeU(),
	}.Efficiency()
	var implausible *plating.ImplausibleError
	if errors.As(err, &implausible) {
		return checkRun{weighed: w, impossible: implausible.Reason}, nil
	}
	if err != nil {
		return checkRun{}, err
	}
	run := checkRun{weighed: w}
	if w.Gain > 0 {
		run.thickness, run.thicknessU, _, err = w.MeanThickness(nickel, load)
	}
	return run, err
}

// addSetting adds what to set and what to expect.
func (a answer) addSetting(sheet *notebook.Sheet) error {
	s := a.setting
	sheet.Add(
		loadTable(a.load, a.rows),
		notebook.Figure{Name: "area", Label: "Wetted area of the load", Value: a.area()},
		notebook.Figure{Name: "current", Label: "Set the supply to", Value: a.current()},
		notebook.Figure{Name: "current-density", Label: "Mean current density",
			Value: notebook.Of(s.CurrentDensity, s.CurrentDensityU, notebook.CurrentDensities)},
		notebook.Figure{Name: "time", Label: "Leave it on for", Value: a.time()},
		notebook.Figure{Name: "charge", Label: "Charge", Value: notebook.Exact(s.Charge, notebook.Charges)},
		notebook.Figure{Name: "mean", Label: "Mean thickness to expect", Value: a.mean()},
		notebook.Figure{Name: "thinnest", Label: "At the thinnest place", Value: notebook.Exact(s.Thinnest, notebook.FineLengths)},
		notebook.Figure{Name: "thickest", Label: "At the thickest place", Value: notebook.Exact(s.Thickest, notebook.FineLengths)},
		notebook.Figure{Name: "gain", Label: "The scale should show a gain of", Value: a.gain()},
		a.setVerdict(), a.burnVerdict(), a.countFigure(),
	)
	return nil
}

// The quantities of the answer as they are shown.
func (a answer) area() notebook.Quantity { return notebook.Of(a.load.Area, a.load.U, notebook.Areas) }
func (a answer) current() notebook.Quantity {
	return notebook.Stepped(a.setting.Current, a.in.SupplyStep, notebook.Currents)
}
func (a answer) time() notebook.Quantity {
	return notebook.Stepped(a.setting.Time, minute/2, notebook.Minutes)
}
func (a answer) mean() notebook.Quantity {
	return notebook.Of(a.setting.Mean, a.setting.MeanU, notebook.FineLengths)
}
func (a answer) gain() notebook.Quantity {
	return notebook.Of(a.setting.Mass, a.setting.MassU, notebook.Masses)
}

func (a answer) setVerdict() notebook.Verdict {
	return notebook.Verdict{Name: "set", Tone: notebook.Good, Text: notebook.Say(
		"Set {} and leave it on for {}: expect a mean of {u}, and {u} on the scale.", a.current(), a.time(), a.mean(), a.gain())}
}

// burnVerdict sets the current density at the thickest place against the one at
// which the bath burns.
func (a answer) burnVerdict() notebook.Verdict {
	peak := notebook.Exact(a.setting.PeakCurrentDensity, notebook.CurrentDensities)
	burns := notebook.Exact(a.in.Burns, notebook.CurrentDensities)
	v := notebook.Verdict{Name: "burn", Tone: notebook.Good,
		Text: notebook.Say("The thickest place sees {}, below the {} at which this bath burns.", peak, burns)}
	if a.setting.PeakCurrentDensity < a.in.Burns {
		return v
	}
	v.Tone = notebook.Stop
	v.Text = notebook.Say("The thickest place sees {}; this bath burns at {}.", peak, burns)
	if most, err := plating.MostCurrentDensity(a.in.Burns, a.in.Thickest); err == nil {
		v.Text = v.Text.And(notebook.Say("Keep the mean below {}, and give it longer.", notebook.Exact(most, notebook.CurrentDensities)))
	}
	return v
}

// countFigure says what mean can be counted on: nineteen runs of twenty come
// out above it when the uncertainty is normal.
func (a answer) countFigure() notebook.Figure {
	const oneSided = 1.645 // standard uncertainties, 95 %
	least := a.setting.Mean - oneSided*a.setting.MeanU
	return notebook.Figure{Name: "least", Label: "Nineteen runs of twenty come out above", Value: notebook.Exact(max(least, 0), notebook.FineLengths)}
}

// addCheckRun adds what the weighed run proves.
func (a answer) addCheckRun(sheet *notebook.Sheet) error {
	r := a.run
	efficiency := notebook.Figure{Name: "efficiency", Label: "Efficiency of the weighed run", Unknown: r.impossible}
	thickness := notebook.Figure{Name: "weighed-thickness", Label: "Mean thickness that the scale proves", Unknown: r.impossible}
	if r.impossible == "" {
		efficiency.Value = notebook.Of(r.weighed.Efficiency, r.weighed.U, notebook.Percents)
		thickness.Value = notebook.Of(r.thickness, r.thicknessU, notebook.FineLengths)
		if r.thickness <= 0 {
			thickness.Unknown = "the load gained nothing that this scale can tell from nothing"
		}
	}
	sheet.Add(
		notebook.Figure{Name: "run-gain", Label: "Gain of the weighed run", Value: notebook.Of(r.weighed.Gain, r.weighed.GainU, notebook.Masses)},
		efficiency, thickness, a.runVerdict())
	chart, err := a.logChart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// runVerdict says whether the weighed run agrees with the efficiency typed in.
func (a answer) runVerdict() notebook.Verdict {
	r := a.run
	v := notebook.Verdict{Name: "run", Tone: notebook.Stop}
	if r.impossible != "" {
		v.Text = notebook.Plain("These weighings cannot be true: " + r.impossible)
		return v
	}
	w := notebook.Of(r.weighed.Efficiency, r.weighed.U, notebook.Percents)
	stated := notebook.Of(a.in.Efficiency, a.in.EfficiencyU, notebook.Percents)
	apart := math.Abs(r.weighed.Efficiency-a.in.Efficiency) / math.Hypot(r.weighed.U, a.in.EfficiencyU)
	v.Tone, v.Text = notebook.Good, notebook.Say("The run gave {u}, which agrees with the {u} that the setting counts on.", w, stated)
	if apart > 2 {
		v.Tone, v.Text = notebook.Watch, notebook.Say("The run gave {u}, not the {u} that the setting counts on: look at the bath's pH and the supply's ammeter, then type the new figure in.", w, stated)
	}
	return v
}
