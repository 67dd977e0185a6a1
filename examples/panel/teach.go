package panel

import (
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
	"gonum.org/v1/gonum/unit"
)

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	middle := 51 * mm
	j, err := a.panel.At(middle)
	if err != nil {
		return err
	}
	mean := a.primary.Mean
	where, err := a.panel.Place(mean)
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	note("wrong-middle", notebook.Say("The middle of the panel, {} from its end, has {}. The mean over the panel is {}, and it stands at {}.",
		place(middle), density(j), density(mean), place(where)))
	near, err := a.panel.At(10 * mm)
	if err != nil {
		return err
	}
	twice, err := a.panel.At(20 * mm)
	if err != nil {
		return err
	}
	note("wrong-half", notebook.Say("From {} to {} the current density falls from {} to {}, not to a half: it goes down by the same amount for each doubling of the distance.",
		place(10*mm), place(20*mm), density(near), density(twice)))
	note("wrong-range", notebook.Say("This panel is good from {} to {}. A part whose corner gets {} of its mean and whose face {} may be set from {} to {} only.",
		density(a.read.Low), density(a.read.High), share(a.in.Thickest), share(a.in.Thinnest), density(min(a.lowMean(), a.highMean())), density(max(a.lowMean(), a.highMean()))))
	return nil
}

// addChecks sets formula and solver beside published values.
func (a answer) addChecks(sheet *notebook.Sheet) error {
	one, err := plating.Panel{Current: 1 * unit.Ampere}.At(10 * mm)
	if err != nil {
		return err
	}
	five, err := plating.Panel{Current: 2 * unit.Ampere}.At(50 * mm)
	if err != nil {
		return err
	}
	const length = 101.669 * mm
	ratio := func(at unit.Length) float64 { return float64(a.primary.At(at) / a.primary.Mean) }
	sheet.Add(
		notebook.CheckRow("check-formula-1", "panel-formula-1", float64(one/aDM2)),
		notebook.CheckRow("check-formula-5", "panel-formula-5", float64(five/aDM2)),
		notebook.CheckRow("check-tenth", "panel-primary-tenth", ratio(length/10)),
		notebook.CheckRow("check-six", "panel-primary-six", ratio(length*6/10)),
		notebook.CheckRow("check-resistance", "panel-resistance", a.ratio),
		notebook.CheckRow("check-inch", "panel-table-one-inch", ratio(1.02*25.4*mm)),
	)
	return nil
}

// addCautions adds the cautions.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-salts", Body: "NIOSH, OSHA",
			Text: notebook.Plain("A small cell is still a nickel bath. Nickel salts sensitise the skin, for life, and are treated as causing cancer when breathed in. Gloves, goggles, a lid when it is warm, no food nearby. Limits for nickel in air over a shift: 0.015 mg/m³ (NIOSH), 1 mg/m³ (OSHA). Your local rules decide.")},
		notebook.Caution{Name: "caution-gas", Text: notebook.Plain("The near end makes hydrogen. Do not cover the cell tightly, and keep flames away.")},
		notebook.Caution{Name: "caution-waste", Text: notebook.Plain("Pour the sample back into the bath, or into the hazardous waste if it got anything that the bath must not have. Not down the drain.")},
	)
	return nil
}
