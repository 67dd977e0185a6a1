package process

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// answer is everything that follows from the inputs.
type answer struct {
	in Inputs
	// class is the class chosen; its name is empty for the reader's own least
	// thickness.
	class  plating.ServiceClass
	demand plating.LocalDemand
	aim    plating.Aim
	job    plating.Job
	sheet  plating.ProcessSheet
	bath   bath
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a, err := in.solve()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addAnswer, a.addFigures, a.addClasses, a.addLine, a.addSheet, a.addShares, a.addTimes, a.addBath, a.addWrong, a.addExercises, a.addChecks, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// chosen returns the class of the inputs and the least thickness that it asks.
func (in Inputs) chosen() (plating.ServiceClass, unit.Length) {
	for _, c := range classes() {
		if c.Name == in.Class {
			return c, c.LocalLeast
		}
	}
	return plating.ServiceClass{}, in.Own
}

// solve works from the class to the mean, and from the mean to the sheet.
func (in Inputs) solve() (answer, error) {
	a := answer{in: in}
	least := unit.Length(0)
	a.class, least = in.chosen()
	plan := plating.Plan{Deposit: plating.Nickel().Deposit(), Area: plating.Surface{Name: in.Name, Area: in.Area, U: in.Area * unit.Area(in.AreaU)},
		Thickness: least / unit.Length(in.Thinnest), CurrentDensity: in.Mean, Efficiency: in.Efficiency, EfficiencyU: in.EfficiencyU,
		Supply: plating.Supply{Step: in.Step, Most: in.Most}, Spread: plating.Spread{Thinnest: in.Thinnest, Thickest: in.Thickest}}
	first, err := plan.Setting()
	if err != nil {
		return answer{}, notebook.InField("mean", err)
	}
	a.demand = plating.LocalDemand{Least: least, Share: in.Thinnest, ShareU: in.ThinnestU, MeanU: float64(first.MeanU / first.Mean), Chance: in.Chance}
	if a.aim, err = a.demand.Aim(); err != nil {
		return answer{}, notebook.InField("thinnest-u", err)
	}
	plan.Thickness = a.aim.Mean
	a.job = plating.Job{Base: plating.BaseMetal(in.Base), RockwellC: in.Hardness, SurfaceHardened: in.Surface == caseHard, Plan: plan, Bath: in.Bath}
	if a.sheet, err = plating.ProcessFor(a.job); err != nil {
		return answer{}, notebook.InField("base", err)
	}
	a.bath, err = in.analyse()
	return a, err
}

// refused reports whether the job is not done at this bench.
func (a answer) refused() bool { return a.sheet.Refused != "" }

// The quantities of the answer as they are shown.
func thin(t unit.Length) notebook.Quantity {
	return notebook.Exact(t, notebook.FineLengths).WithDigits(3)
}
func minutes(t unit.Time) notebook.Quantity { return notebook.Exact(t, notebook.Minutes).WithDigits(2) }
func share(x float64) notebook.Quantity     { return notebook.Stepped(x, 0.01, notebook.Percents) }
func amperes2(a answer, i unit.Current) notebook.Quantity {
	return notebook.Stepped(i, a.in.Step, notebook.Currents)
}
func density(j plating.CurrentDensity) notebook.Quantity {
	return notebook.Exact(j, notebook.CurrentDensities).WithDigits(2)
}
func warmth(t unit.Temperature) notebook.Quantity {
	return notebook.Stepped(t, unit.Temperature(1), notebook.Temperatures)
}

// addAnswer adds the answer in a sentence, and what the burning limit says.
func (a answer) addAnswer(sheet *notebook.Sheet) error {
	s := a.sheet.Setting
	if a.refused() {
		sheet.Add(notebook.Verdict{Name: "answer", Tone: notebook.Stop, Text: notebook.Plain("Do not plate it here: " + a.sheet.Refused + ".")},
			notebook.Verdict{Name: "burn", Tone: notebook.Note, Text: notebook.Plain("Nothing is set for a job that is not done.")})
		return nil
	}
	tone := notebook.Good
	if a.in.Base == string(plating.BaseHardenedSteel) {
		tone = notebook.Watch
	}
	sheet.Add(notebook.Verdict{Name: "answer", Tone: tone, Text: notebook.Say(
		"{} steps. Aim at a mean of {u}: set {} for {}, and the thinnest place has its {} with a chance of {}.",
		notebook.Whole(len(a.sheet.Steps)), notebook.Of(s.Mean, s.MeanU, notebook.FineLengths), amperes2(a, s.Current), minutes(s.Time), thin(a.demand.Least), share(a.in.Chance))})
	burn := notebook.Verdict{Name: "burn", Tone: notebook.Good, Text: notebook.Say("The thickest place has {}, below the {} at which this bath burns.", density(s.PeakCurrentDensity), density(a.in.Burns))}
	if s.PeakCurrentDensity > a.in.Burns {
		most, err := plating.MostCurrentDensity(a.in.Burns, a.in.Thickest)
		if err != nil {
			return notebook.InField("thickest", err)
		}
		burn.Tone, burn.Text = notebook.Stop, notebook.Say("The thickest place has {} and burns. Set a mean of {} at the most.", density(s.PeakCurrentDensity), density(most))
	}
	sheet.Add(burn)
	return nil
}

// addFigures adds the figures of the setting.
func (a answer) addFigures(sheet *notebook.Sheet) error {
	s := a.sheet.Setting
	why := ""
	if a.refused() {
		why = "the job is not done at this bench"
	}
	figure := func(name, label string, value notebook.Quantity, note notebook.Text) {
		sheet.Add(notebook.Figure{Name: name, Label: label, Value: value, Note: note, Unknown: why})
	}
	figure("least", "Asked at the thinnest place that counts", thin(a.demand.Least), notebook.Plain("A local minimum, not a mean."))
	figure("bare", "Mean that gives it, were all known", thin(a.aim.Bare), notebook.Say("The thinnest place gets {} of the mean.", share(a.in.Thinnest)))
	figure("aim", "Mean to aim at", notebook.Of(s.Mean, s.MeanU, notebook.FineLengths),
		notebook.Say("The thinnest place is aimed {} of its standard uncertainties above what is asked.", notebook.Exact(a.aim.Coverage, notebook.Numbers).WithDigits(3)))
	figure("local", "Thinnest place, to expect", notebook.Of(a.aim.Mean*unit.Length(a.in.Thinnest), a.aim.LocalU, notebook.FineLengths), nil)
	figure("thickest", "Thickest place, to expect", thin(s.Thickest), notebook.Plain("Check it against the fit: a pin grows by twice this."))
	figure("amps", "Current to set", amperes2(a, s.Current), nil)
	figure("minutes", "Time", minutes(s.Time), nil)
	figure("gain", "Gain on the scale, to expect", notebook.Of(s.Mass, s.MassU, notebook.Masses), notebook.Plain("It proves the mean, not the thinnest place."))
	figure("bench", "Time at the bench, at the most", minutes(a.sheet.AtBench()), notebook.Plain("Of the steps that state a time, without a bake."))
	bake := notebook.Figure{Name: "bake", Label: "Bake for at least", Unknown: why}
	switch {
	case why != "":
	case a.sheet.Bake.Needed:
		bake.Value = notebook.Exact(a.sheet.Bake.Least, notebook.Hours).WithDigits(2)
	default:
		bake.Unknown = "no bake is asked of this metal"
	}
	sheet.Add(bake)
	return nil
}

// addClasses adds the classes of service and what each would ask of this job.
func (a answer) addClasses(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "classes", Title: "What service asks, and the mean to aim at on this part",
		Columns: []notebook.Column{notebook.Col("Class"), notebook.Col("Standard"), notebook.Col("Service"), notebook.ColIn("Least", notebook.FineLengths),
			notebook.ColIn("Mean to aim at", notebook.FineLengths), notebook.Col("Nickel"), notebook.Col("Known")},
		Note: notebook.Plain("B456 classes include chromium on top, which is work for licensed plants; nickel alone tarnishes and is not of the class.")}
	for _, c := range classes() {
		d := a.demand
		d.Least = c.LocalLeast
		aim, err := d.Aim()
		if err != nil {
			return notebook.InField("thinnest-u", err)
		}
		name, layers := notebook.Str(c.Name), "one layer"
		if c.Name == a.class.Name {
			name = name.Marked("chosen")
		}
		if c.DoubleLayer {
			layers = "two layers"
		}
		table.Rows = append(table.Rows, []notebook.Cell{name, notebook.Str(c.Standard), notebook.Str(c.Service), notebook.Val(thin(c.LocalLeast)),
			notebook.Val(thin(aim.Mean)), notebook.Str(layers), notebook.Str(string(c.Known))})
	}
	sheet.Add(table, a.classVerdict())
	return nil
}

// classVerdict says what the class does and does not promise.
func (a answer) classVerdict() notebook.Verdict {
	v := notebook.Verdict{Name: "class", Tone: notebook.Note, Text: notebook.Say("No class is chosen: {} is your own word to the buyer.", thin(a.demand.Least))}
	switch {
	case a.class.Chromium:
		v.Tone, v.Text = notebook.Watch, notebook.Say("{} is the nickel of "+a.class.Name+" ("+a.class.Standard+", "+string(a.class.Known)+"). The class also asks for chromium, which a licensed plater lays on. Do not sell nickel alone under its name, nor a class for steel on another metal.", thin(a.demand.Least))
	case a.class.Name != "":
		v.Text = notebook.Say("{} is asked by "+a.class.Standard+", "+a.class.Name+" ("+string(a.class.Known)+"). Read the standard before you write it on an invoice.", thin(a.demand.Least))
	}
	return v
}

// span returns the two cells of a range, empty where nothing is stated.
func span(from, to float64, show func(float64) notebook.Quantity) []notebook.Cell {
	cells := []notebook.Cell{notebook.Str(""), notebook.Str("")}
	if from > 0 {
		cells[0] = notebook.Val(show(from))
	}
	if to > 0 && to != from {
		cells[1] = notebook.Val(show(to))
	}
	return cells
}

// addSheet adds the process sheet, and what is to be known at each step.
func (a answer) addSheet(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "sheet", Title: "Process sheet: " + a.in.Name + ", nickel on " + a.in.Base,
		Columns: []notebook.Column{notebook.Col("Step"), notebook.Col("Do"), notebook.ColIn("Time", notebook.Minutes), notebook.ColIn("up to", notebook.Minutes),
			notebook.ColIn("Warmth", notebook.Temperatures), notebook.ColIn("up to", notebook.Temperatures), notebook.ColIn("Current", notebook.Currents), notebook.ColIn("up to", notebook.Currents), notebook.Col("Figures")},
		Note: notebook.Plain("One figure alone is a setting, or the least for a bake. Common practice and memory are places to begin: the maker's sheet of your cleaner, acid and bath comes first.")}
	why := notebook.Table{Name: "cautions", Title: "Why, and what can hurt, step by step",
		Columns: []notebook.Column{notebook.Col("Step"), notebook.Col("Why"), notebook.Col("Caution"), notebook.Col("Source of the figures")},
		Note:    notebook.Plain("Print both tables. Local law, the safety data sheets and licensed practice stand above them.")}
	for i, s := range a.sheet.Steps {
		name := notebook.Str(fmt.Sprintf("%d %s", i+1, s.Kind))
		if s.Licensed {
			name = name.Marked("licensed practice")
		}
		row := []notebook.Cell{name, notebook.Str(s.What)}
		row = append(row, span(float64(s.TimeFrom), float64(s.TimeTo), func(x float64) notebook.Quantity { return minutes(unit.Time(x)) })...)
		row = append(row, span(float64(s.TemperatureFrom), float64(s.TemperatureTo), func(x float64) notebook.Quantity { return warmth(unit.Temperature(x)) })...)
		row = append(row, span(float64(s.CurrentFrom), float64(s.CurrentTo), func(x float64) notebook.Quantity { return amperes2(a, unit.Current(x)) })...)
		table.Rows = append(table.Rows, append(row, notebook.Str(string(s.Known))))
		caution := s.Caution
		if caution == "" {
			caution = "none beyond the shop's own"
		}
		why.Rows = append(why.Rows, []notebook.Cell{name, notebook.Str(s.Why), notebook.Str(caution), notebook.Str(s.Source)})
	}
	if a.refused() {
		table.Note = notebook.Plain("No sheet: " + a.sheet.Refused + ".")
	}
	sheet.Add(table, why)
	return nil
}
