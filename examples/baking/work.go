package baking

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// answer is everything that follows from the inputs.
type answer struct {
	in   Inputs
	bake plating.Bake
	// refused says why the part is not plated at all, empty when it is.
	refused string
	// gas is the hydrogen if all current made it, fresh the air that keeps it
	// thin, both in m3/s; change is the fresh air that there is.
	gas, fresh, change float64
}

// thin is the fraction of hydrogen in air that is aimed at: a quarter of the
// least that can be lit.
const thin = plating.HydrogenLowerLimit / 4

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a := answer{in: in}
	var err error
	if a.bake, err = plating.BakeForHardness(in.Hardness); err != nil {
		a.refused = "steel this hard is off the bake table, which ends at 51 HRC"
	}
	if a.gas, err = plating.AirForHydrogen(in.Current, 1, in.Warmth); err != nil {
		return nil, notebook.InField("current", err)
	}
	if a.fresh, err = plating.AirForHydrogen(in.Current, thin, in.Warmth); err != nil {
		return nil, notebook.InField("current", err)
	}
	a.change = in.Air * float64(in.Room) / 3600
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{a.addDrawing, a.addBake, a.addAir, a.addLimits, a.addWrong, addExercises, addChecks, addCautions} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// Quantities as they are shown.
func hours(t unit.Time) notebook.Quantity { return notebook.Exact(t, notebook.Hours).WithDigits(2) }
func warmth(t unit.Temperature) notebook.Quantity {
	return notebook.Stepped(t, unit.Temperature(1), notebook.Temperatures)
}
func litresAnHour(flow float64) notebook.Quantity {
	return notebook.Exact(flow, notebook.Same(notebook.Unit{Symbol: "L/h", Scale: 1e-3 / 3600})).WithDigits(2)
}
func milligrams(c plating.Concentration) notebook.Quantity {
	return notebook.Exact(c, notebook.Same(notebook.Unit{Symbol: "mg/m³", Scale: 1e-6})).WithDigits(2)
}

// addBake adds the bake.
func (a answer) addBake(sheet *notebook.Sheet) error {
	least := notebook.Figure{Name: "bake-hours", Label: "Bake for at least", Unknown: a.refused}
	left := notebook.Figure{Name: "time-left", Label: "Time left to begin", Unknown: a.refused}
	if a.refused == "" {
		least.Value = hours(a.bake.Least)
		if !a.bake.Needed {
			least.Unknown, left.Unknown = "the table asks no bake of steel below 31 HRC", "no bake is asked"
		} else {
			left.Value = hours(max(0, a.bake.StartWithin-a.in.Since))
		}
	}
	relief := notebook.Verdict{Name: "relief", Tone: notebook.Good, Text: notebook.Plain("No relief of stress is asked before plating.")}
	if plating.StressReliefNeeded(a.in.Hardness, a.in.Surface == caseHard) {
		relief.Tone, relief.Text = notebook.Watch, notebook.Plain("Relieve the part of stress before plating: ISO 9587 asks it of steel from 31 HRC and of surface-hardened parts. How hot and how long depends on how it was tempered; ask who hardened it.")
	}
	sheet.Add(a.bakeVerdict(), least, left, relief)
	chart, err := a.bakeChart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// bakeVerdict says what to do with the part.
func (a answer) bakeVerdict() notebook.Verdict {
	hardness := notebook.Exact(a.in.Hardness, notebook.Numbers).WithDigits(2)
	switch {
	case a.refused != "":
		return notebook.Verdict{Name: "bake", Tone: notebook.Stop, Text: notebook.Say(
			"Do not plate it: at {} HRC "+a.refused+". Send it to a licensed plater, or use a coat that brings no hydrogen.", hardness)}
	case !a.bake.Needed:
		return notebook.Verdict{Name: "bake", Tone: notebook.Good, Text: notebook.Say("At {} HRC the table asks for no bake.", hardness)}
	case a.in.Since > a.bake.StartWithin:
		return notebook.Verdict{Name: "bake", Tone: notebook.Stop, Text: notebook.Say(
			"It is too late to count on a bake: {} since the bath, and baking should begin within {}. Hydrogen may have cracked it already; scrap a part that carries load.", hours(a.in.Since), hours(a.bake.StartWithin))}
	}
	return notebook.Verdict{Name: "bake", Tone: notebook.Watch, Text: notebook.Say(
		"Bake it at {} to {} for at least {}, beginning within {}.", warmth(a.bake.From), warmth(a.bake.To), hours(a.bake.Least), hours(a.bake.StartWithin-a.in.Since))}
}

// bakeChart draws the table as steps.
func (a answer) bakeChart() (notebook.Chart, error) {
	steps := plot.Series{Label: "least bake", Style: plot.Curve}
	for h := 20.0; h <= 51; h += 0.25 {
		b, err := plating.BakeForHardness(h)
		if err != nil {
			return notebook.Chart{}, err
		}
		steps.X, steps.Y = append(steps.X, h), append(steps.Y, float64(b.Least))
	}
	return plot.XY{
		Name: "bake-chart", Title: "The harder, the longer",
		Caption: notebook.Plain("Shortest bake against hardness, ASTM B850 as reproduced by a job shop. Below 31 HRC the table asks nothing; above 51 it ends."),
		X:       plot.Axis{Label: "Hardness, HRC", Show: notebook.Numbers, Range: notebook.Between(20.0, 55.0)},
		Y:       plot.Axis{Label: "Bake", Show: notebook.Hours, Range: notebook.AtLeast(0.0)},
		Series:  []plot.Series{steps},
		Marks:   []plot.Mark{{Label: "yours", X: math.Max(20, a.in.Hardness)}},
	}.Chart()
}

// addAir adds hydrogen and the draught that it needs.
func (a answer) addAir(sheet *notebook.Sheet) error {
	v := notebook.Verdict{Name: "air", Tone: notebook.Good, Text: notebook.Say(
		"For hydrogen the air of the room is enough by far: {} come in, {} would do. It must still get to the tank: never seal the lid.", litresAnHour(a.change), litresAnHour(a.fresh))}
	if a.change < a.fresh {
		v.Tone, v.Text = notebook.Stop, notebook.Say("Too little air: if all the current made hydrogen, {} of fresh air would be needed to keep it thin, and only {} come in.", litresAnHour(a.fresh), litresAnHour(a.change))
	}
	sheet.Add(
		notebook.Figure{Name: "hydrogen", Label: "Hydrogen, if all current made gas", Value: litresAnHour(a.gas)},
		notebook.Figure{Name: "fresh-air", Label: "Fresh air that keeps it at a quarter of what can be lit", Value: litresAnHour(a.fresh)},
		notebook.Figure{Name: "air-there", Label: "Fresh air that comes in", Value: litresAnHour(a.change)}, v)
	return nil
}

// addLimits adds the limits for nickel in air and what they mean as mist.
func (a answer) addLimits(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "limits", Title: "Nickel in the air",
		Columns: []notebook.Column{notebook.Col("Issued by"), notebook.Col("Name"), notebook.Col("For"), notebook.Col("Limit"), notebook.Col("Bath as mist that fills your room to it")},
		Note:    notebook.Plain("The last column takes still air. It shows why a bath is never boiled, sprayed or blown through with air in the open.")}
	for _, l := range plating.NickelAirLimits() {
		mist, err := plating.MistToLimit(a.in.Room, a.in.Nickel, l.Limit)
		if err != nil {
			return notebook.InField("room", err)
		}
		drops := notebook.Exact(mist, notebook.Same(notebook.Unit{Symbol: "mL", Scale: 1e-6})).WithDigits(2)
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(l.Body), notebook.Str(l.Name), notebook.Str(l.What), notebook.Val(milligrams(l.Limit)), notebook.Val(drops)})
	}
	sheet.Add(table)
	return nil
}

// addDrawing draws bath, clock and oven.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("steps", "From the bath to the oven", "Three boxes in a row: plate, wait no longer than some hours, bake. Below each its time.", 420, 190)
	point := func(x, y float64) drawing.Point { return drawing.Point{X: x, Y: y} }
	c.Box(drawing.Bath, point(20, 70), point(120, 130), 4)
	c.Line(drawing.Visible, point(20, 55), point(20, 130), point(120, 130), point(120, 55))
	c.Box(drawing.Steel, point(60, 80), point(80, 118), 2)
	c.Line(drawing.Visible, point(70, 40), point(70, 80))
	c.Words(point(70, 28), drawing.Middle, "plate")
	c.Circle(drawing.Glass, point(210, 95), 34)
	c.Line(drawing.Visible, point(210, 95), point(210, 70))
	c.Line(drawing.Visible, point(210, 95), point(226, 105))
	c.Words(point(210, 28), drawing.Middle, "no longer than")
	c.Box(drawing.Body, point(300, 55), point(400, 130), 6)
	c.Box(drawing.Glass, point(316, 68), point(384, 108), 3)
	c.Box(drawing.Steel, point(340, 78), point(360, 106), 2)
	c.Words(point(350, 28), drawing.Middle, "bake")
	c.Arrow(drawing.Marked, point(130, 95), point(168, 95))
	c.Arrow(drawing.Marked, point(252, 95), point(292, 95))
	if a.refused == "" && a.bake.Needed {
		c.Label(point(210, 155), drawing.Middle, notebook.Say("{}", hours(a.bake.StartWithin)))
		c.Label(point(350, 155), drawing.Middle, notebook.Say("{} or more", hours(a.bake.Least)))
		c.Label(point(350, 176), drawing.Middle, notebook.Say("{} to {}", warmth(a.bake.From), warmth(a.bake.To)))
	} else {
		c.Note(point(350, 155), drawing.Middle, "not for this steel")
	}
	item, err := c.Item(notebook.Plain("The clock starts when the part leaves the bath. The hours of the bake count from when the part, not the oven, is hot."))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	soft, err := plating.BakeForHardness(31)
	if err != nil {
		return err
	}
	hard, err := plating.BakeForHardness(50)
	if err != nil {
		return err
	}
	gas, err := plating.AirForHydrogen(2*unit.Ampere, 1, plating.Celsius(20))
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	note("wrong-stronger", notebook.Say("Hard steel is weaker for it until it is baked, and sometimes after: from 31 HRC {}, at 50 HRC {}. The standard itself says that a bake does not guarantee freedom from hydrogen.", hours(soft.Least), hours(hard.Least)))
	note("wrong-gas", notebook.Say("Hydrogen is little at this size, {} at 2 A if all of it made gas; under a sealed lid it is enough to burst the tank. The mist is worse: it carries nickel.", litresAnHour(gas)))
	limits := plating.NickelAirLimits()
	note("wrong-smell", notebook.Say("Nickel has no smell. The lowest limit, {}, is {} times below the one in the US law.", milligrams(limits[0].Limit),
		notebook.Exact(float64(limits[2].Limit/limits[0].Limit), notebook.Numbers).WithDigits(2)))
	return nil
}

// addChecks sets the table beside the published figures.
func addChecks(sheet *notebook.Sheet) error {
	for _, row := range []struct {
		name, id string
		mpa      float64
	}{{"check-1050", "plating-bake-1050", 1050}, {"check-1450", "plating-bake-1450", 1450}, {"check-1750", "plating-bake-1750", 1750}} {
		b, err := plating.BakeForTensile(unit.Pressure(row.mpa * 1e6))
		if err != nil {
			return err
		}
		sheet.Add(notebook.CheckRow(row.name, row.id, float64(b.Least/hour)))
	}
	b, err := plating.BakeForHardness(44)
	if err != nil {
		return err
	}
	sheet.Add(notebook.CheckRow("check-44", "plating-bake-44hrc", float64(b.Least/hour)))
	return nil
}

// addCautions adds what can hurt someone, each at its step.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-snap", Body: "ASTM B850, ISO 9587", Text: notebook.Plain("A hard screw or spring with hydrogen in it snaps hours or days later, under a load that it held before. Do not stand over it, and never put a plated hard part where its break can hurt someone on the word of a web page: the standards and the customer's specialist decide.")},
		notebook.Caution{Name: "caution-oven", Text: notebook.Plain("An oven at 220 °C burns skin and lights rags. No parts wet with solvent, no food in that oven again, gloves, and somebody in the house.")},
		notebook.Caution{Name: "caution-lungs", Body: "NIOSH, OSHA, HSE", Text: notebook.Plain("Nickel compounds in air cause cancer and asthma. Keep the bath below boiling and covered, draw the air off at the tank and out of the house, and wipe up dried salt wet, never with a brush. The limits above are others' law: find your own.")},
		notebook.Caution{Name: "caution-mix", Text: notebook.Plain("Never let bleach or chlorinated cleaners meet acid (chlorine), nor anything with cyanide meet acid (hydrogen cyanide); there is no place for cyanide or hexavalent chromium at this bench. Stainless anodes make hexavalent chromium: never use them.")},
	)
	return nil
}
