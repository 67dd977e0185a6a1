package corners

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	slow, err := a.plain.layout.at(a.plain.field, a.in.Mean/3)
	if err != nil {
		return err
	}
	burnt, err := a.plain.layout.at(a.plain.field, 9*aDM2)
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	note("wrong-double", notebook.Say("The mean is the same, the edge is not. At {} it gets {} of the mean, at {} it gets {}: the overpotential counts for more when the current is small.",
		density(a.in.Mean), share(a.plain.toMean(a.plain.d.Thickest.CurrentDensity)), density(a.in.Mean/3), share(slow.toMean(slow.d.Thickest.CurrentDensity))))
	note("wrong-mean", notebook.Say("Run 5 was set to a mean of {}. On this cut the edge then has {}, and its corners, where edges meet, more.",
		density(9*aDM2), density(burnt.d.Thickest.CurrentDensity)))
	note("wrong-bore", notebook.Say("This bore of {} takes {} of the outside on average.", size(a.in.Inside), share(a.sleeve.bore)))
	return nil
}

// addChecks solves cells with exact answers and sets them beside those.
func addChecks(sheet *notebook.Sheet) error {
	one := plating.Conditions{Conductivity: 8 * plating.SiemensPerMetre, Current: 1 * unit.Ampere}
	disc, err := solveFor(plating.Section{Axisymmetric: true, Mirror: true, Unbounded: true, Outlines: []plating.Outline{
		{Name: "disc", Role: plating.RolePart, Corners: []plating.Corner{{}, {X: 10 * mm}}}}}, one)
	if err != nil {
		return err
	}
	face, _ := disc.Profile("disc")
	resisting := one
	resisting.Cathode.Resistance = 0.01 / 8 * plating.OhmSquareMetre
	secondary, err := solveFor(plating.Section{Axisymmetric: true, Mirror: true, Unbounded: true, Outlines: []plating.Outline{
		{Name: "disc", Role: plating.RolePart, Corners: []plating.Corner{{}, {X: 10 * mm}}}}}, resisting)
	if err != nil {
		return err
	}
	cylinders, err := solveFor(plating.Section{Depth: 1 * unit.Metre, Unbounded: true, Outlines: []plating.Outline{
		plating.Circle("part", plating.RolePart, -20*mm, 0, 5*mm), plating.Circle("anode", plating.RoleAnode, 20*mm, 0, 5*mm)}}, one)
	if err != nil {
		return err
	}
	strips, err := solveFor(plating.Section{Depth: 1 * unit.Metre, Mirror: true, Unbounded: true, Outlines: []plating.Outline{
		{Name: "part", Role: plating.RolePart, Corners: []plating.Corner{{X: -20 * mm}, {X: -10 * mm}}},
		{Name: "anode", Role: plating.RoleAnode, Corners: []plating.Corner{{X: 10 * mm}, {X: 20 * mm}}}}}, one)
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-disc", "field-disc-resistance", float64(disc.Resistance())),
		notebook.CheckRow("check-disc-half", "field-disc-half", float64(face.At(5*mm)/disc.Mean)),
		notebook.CheckRow("check-disc-secondary", "field-disc-secondary", float64(secondary.Voltage)*4*8*0.01),
		notebook.CheckRow("check-cylinder", "field-cylinder-plane", float64(cylinders.Resistance())/2*2*math.Pi*8),
		notebook.CheckRow("check-strips", "field-strips", 1/float64(strips.Resistance())/8),
	)
	return nil
}

// solveFor returns the distribution of a section.
func solveFor(s plating.Section, c plating.Conditions) (plating.Distribution, error) {
	field, err := plating.NewField(s, 100)
	if err != nil {
		return plating.Distribution{}, err
	}
	return field.Solve(c)
}

// addCautions adds the cautions.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-supply", Text: notebook.Plain("Switch the supply off before you move an anode, a thief or a part. A short between them throws sparks and hot metal, and hydrogen stands above the bath. No flame, no spark, a window open.")},
		notebook.Caution{Name: "caution-salts", Body: "NIOSH, OSHA",
			Text: notebook.Plain("Nickel salts sensitise the skin, for life, and are treated as causing cancer when breathed in. Gloves without pinholes, goggles, no food nearby. Limits for nickel in air over a shift: 0.015 mg/m³ (NIOSH), 1 mg/m³ (OSHA). Your local rules decide.")},
		notebook.Caution{Name: "caution-burnt", Text: notebook.Plain("Do not grind or wire-brush burnt nickel off dry: the dust is what the limits are about. Stripping nickel takes strong acids: leave it to a licensed shop.")},
		notebook.Caution{Name: "caution-thief", Text: notebook.Plain("A thief grows trees of nickel that reach across and short. Look at it after every run, and throw it away with the metal waste, not in the bin.")},
	)
	return nil
}
