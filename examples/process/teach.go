package process

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	note("wrong-mean", notebook.Say("A mean of {} leaves {} at the thinnest place of this part. The standard is read there, not on the scale.",
		thin(a.demand.Least), thin(a.demand.Least*unit.Length(a.in.Thinnest))))
	even := a.demand
	even.Chance = 0.5
	aim, err := even.Aim()
	if err != nil {
		return notebook.InField("thinnest-u", err)
	}
	note("wrong-exact", notebook.Say("Aimed at {}, one load in two has a place that is too thin. {} buys a chance of {}.", thin(aim.Mean), thin(a.aim.Mean), share(a.in.Chance)))
	note("wrong-zinc", notebook.Plain("It blackens and blisters: an acid bath eats cast zinc faster than nickel covers it. The copper strike that saves it is as a rule a cyanide bath. Send it out."))
	return nil
}

// addChecks sets computed figures beside published ones.
func (a answer) addChecks(sheet *notebook.Sheet) error {
	sc3, err := plating.LocalDemand{Least: plating.DecorativeClasses()[3].LocalLeast, Share: 0.75, Chance: 0.5}.Aim()
	if err != nil {
		return err
	}
	sure, err := plating.LocalDemand{Least: 1 * um, Share: 1, Chance: 0.95}.Aim()
	if err != nil {
		return err
	}
	plan := plating.Plan{Deposit: plating.Nickel().Deposit(), Area: plating.Surface{Name: "load", Area: 75 * cm2}, Thickness: 10 * um, CurrentDensity: 2 * aDM2,
		Efficiency: 0.95, Supply: plating.Supply{Step: 0.01 * unit.Ampere}}
	hard, err := plating.ProcessFor(plating.Job{Base: plating.BaseHardenedSteel, RockwellC: 44, Plan: plan, Bath: plating.Celsius(50)})
	if err != nil {
		return err
	}
	var top unit.Current
	var bake unit.Time
	for _, s := range hard.Steps {
		switch s.Kind {
		case plating.StepStrike:
			top = s.CurrentTo
		case plating.StepBake:
			bake = s.TimeFrom
		}
	}
	recipe := plating.WattsRecipe(300, 45, 40)
	fromNothing, err := plating.Analysis{}.Additions(recipe, 5*unit.Litre)
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-sc3", "process-sc3-mean", float64(sc3.Mean/um)),
		notebook.CheckRow("check-normal", "process-normal-95", sure.Coverage),
		notebook.CheckRow("check-wood", "process-wood-top", float64(top)),
		notebook.CheckRow("check-bake", "plating-bake-44hrc", float64(bake)/3600),
		notebook.CheckRow("check-chloride", "process-chloride", float64(recipe.Chloride())),
		notebook.CheckRow("check-make-up", "process-make-up", float64(fromNothing[0].Mass)*1e3),
	)
	return nil
}

// addCautions adds what can hurt someone, each at its step.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-order", Text: notebook.Plain("Lye, acid and nickel stand side by side here. Goggles, long gloves without pinholes, water to flush an eye within reach, and nobody alone. Acid goes into water, never water into acid; never let acid meet bleach, chlorinated cleaner or anything with cyanide.")},
		notebook.Caution{Name: "caution-salts", Body: "NIOSH, OSHA", Text: notebook.Plain("Nickel salts sensitise the skin, for life, and cause cancer when breathed in. Limits for nickel in air over a shift: 0.015 mg/m³ (NIOSH), 1 mg/m³ (OSHA). Draw the air off at the bath, no food nearby. Boric acid is held to harm the unborn child (EU, from memory). Your local rules decide.")},
		notebook.Caution{Name: "caution-licence", Text: notebook.Plain("Steps marked licensed practice are written down so that you know what to ask for, not so that you do them in a shed. Cyanide copper, chromium from hexavalent baths and stripping in strong acid are never done here.")},
		notebook.Caution{Name: "caution-waste", Body: "US 40 CFR 433.15", Text: notebook.Plain("Spent bath, first rinse and titrated samples are hazardous waste. A US metal finisher may let 3.98 mg/L of nickel into a public sewer on any day; a hobby has no such permit. Ask your waste authority.")},
		notebook.Caution{Name: "caution-burette", Text: notebook.Plain("Silver nitrate stains and burns skin, sodium hydroxide blinds. Do not use potassium chromate as indicator for chloride: it is hexavalent chromium. Take one of the fluorescein kind, or a silver electrode. Never pipette by mouth.")},
	)
	return nil
}
