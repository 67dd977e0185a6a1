package threelitres

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// balance is the bath after one entry, with and without what the anode gives.
type balance struct {
	Entry
	dragOut, evaporated unit.Volume
	// dragged is the bath that only loses; whole is the bath as it is.
	dragged, whole plating.Bath
}

// answer is everything that follows from the inputs.
type answer struct {
	in      Inputs
	recipe  plating.Recipe
	shelf   plating.Dose // the sulfate that is on the shelf
	masses  []unit.Mass
	entries []balance
	// Totals over the book.
	dragOut, evaporated unit.Volume
	charge              unit.Charge
	hot                 unit.Time
	acidGone            unit.Mass   // as pure sulfuric acid
	acidBottle          unit.Volume // the same, from the bottle
	dose                unit.Volume // by the trial on a sample
	anode               unit.Mass
	loss                unit.Power
	heatUp              unit.Time
	heatUpWhy           string
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a := answer{in: in}
	for _, step := range []func() error{a.makeUp, a.book, a.acid, a.heat} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addDrawing, a.addRecipe, a.addBalance, a.addAcid, a.addHeat, a.addEffect, a.addWrong, addExercises, addChecks, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// makeUp works out what to weigh.
func (a *answer) makeUp() error {
	a.recipe = plating.WattsRecipe(a.in.Sulfate, a.in.Chloride, a.in.Boric)
	waters := 6
	if a.in.Hydrate == heptahydrate {
		waters = 7
	}
	salt, err := plating.NickelSulfate(waters)
	if err != nil {
		return notebook.InField("hydrate", err)
	}
	if a.shelf, err = a.recipe[0].Instead(salt); err != nil {
		return notebook.InField("sulfate", err)
	}
	a.recipe[0] = a.shelf
	a.masses, err = a.recipe.Weighed(a.in.Volume)
	return notebook.InField("volume", err)
}

// book runs the balance through the bath book.
func (a *answer) book() error {
	drag := plating.DragOut{PerArea: a.in.DragOut, Dips: a.in.Dips}
	start := plating.Bath{Volume: a.in.Volume, Nickel: a.in.Nickel, Boric: a.in.Boric}
	dragged, whole := start, start
	for i, e := range a.in.Book {
		out, err := drag.Volume(e.Area)
		if err != nil {
			return notebook.InRow("book", i+1, "area", err)
		}
		// What is added holds the level, so it is what left.
		evaporated := max(0, e.Water-out)
		if dragged, err = dragged.After(plating.Work{DragOut: out, Evaporated: evaporated}); err != nil {
			return notebook.InRow("book", i+1, "water", err)
		}
		work := plating.Work{DragOut: out, Evaporated: evaporated, Charge: e.Charge, CathodeEfficiency: a.in.Cathode, AnodeEfficiency: a.in.Anode}
		if whole, err = whole.After(work); err != nil {
			return notebook.InRow("book", i+1, "charge", err)
		}
		a.entries = append(a.entries, balance{e, out, evaporated, dragged, whole})
		a.dragOut += out
		a.evaporated += evaporated
		a.charge += e.Charge
		a.hot += e.Hot
	}
	return nil
}

// last returns the bath after the last entry: there is always one.
func (a answer) last() balance { return a.entries[len(a.entries)-1] }

// acid works out what acid is gone and what to add.
func (a *answer) acid() error {
	var err error
	gone := max(0, a.last().whole.AcidLost)
	if a.acidGone, err = plating.SulfuricAcid(gone); err != nil {
		return notebook.InField("cathode", err)
	}
	if a.acidBottle, err = plating.DilutedVolume(a.acidGone, a.in.Acid, a.in.AcidDensity); err != nil {
		return notebook.InField("acid", err)
	}
	if a.dose, err = plating.DoseFromSample(a.in.SampleDose, a.in.Sample, a.in.Volume); err != nil {
		return notebook.InField("sample", err)
	}
	a.anode, err = plating.AnodeUse(a.charge, a.in.Anode)
	return notebook.InField("anode", err)
}

// heat works out what evaporation costs and how long warming takes.
func (a *answer) heat() error {
	var err error
	if a.hot > 0 {
		if a.loss, err = plating.EvaporationPower(a.evaporated, a.hot); err != nil {
			return notebook.InField("book", err)
		}
	}
	// While it warms up the bath loses about half of what it loses when warm.
	a.heatUp, err = plating.HeatUpTime(a.in.Volume, a.in.Room, a.in.Work, a.in.Heater, a.loss/2)
	if err != nil {
		a.heatUpWhy = err.Error()
	}
	return nil
}

// Quantities as they are shown.
func grams(m unit.Mass, digits int) notebook.Quantity {
	return notebook.Exact(m, notebook.Masses).WithDigits(digits)
}
func perLitre(c plating.Concentration, digits int) notebook.Quantity {
	return notebook.Exact(c, concentrations).WithDigits(digits)
}
func millilitres(v unit.Volume, digits int) notebook.Quantity {
	return notebook.Exact(v, notebook.Same(notebook.Millilitre)).WithDigits(digits)
}

// concentrations shows g/L, or ounces to the US gallon.
var concentrations = notebook.Pair{Metric: notebook.GramPerLitre, Inch: ouncePerGallon}

// addRecipe adds what to weigh out.
func (a answer) addRecipe(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "make-up", Title: "What to weigh out",
		Columns: []notebook.Column{notebook.Col("Salt"), notebook.ColIn("In the bath", concentrations), notebook.ColIn("To weigh", notebook.Masses), notebook.ColIn("Nickel in it", notebook.Masses)}}
	for i, d := range a.recipe {
		nickel := a.masses[i] * unit.Mass(d.Salt.NickelFraction())
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(d.Salt.Name + ", " + subscripts(d.Salt.Formula)), notebook.Val(perLitre(d.Concentration, 3)),
			notebook.Val(grams(a.masses[i], 3)), notebook.Val(grams(nickel, 3))})
	}
	sheet.Add(table,
		notebook.Figure{Name: "nickel-metal", Label: "Nickel metal in that bath", Value: perLitre(a.recipe.Nickel(), 3)},
		notebook.Figure{Name: "chloride-ion", Label: "Chloride in that bath", Value: perLitre(a.recipe.Chloride(), 3)})
	return nil
}

// subscripts writes a formula's numbers small and its waters with a dot.
func subscripts(formula string) string {
	var out []rune
	small := []rune("₀₁₂₃₄₅₆₇₈₉")
	last := ' '
	for _, r := range formula {
		switch {
		case r == '.':
			out = append(out, '·')
		case r >= '0' && r <= '9' && last != '.':
			out = append(out, small[r-'0'])
		default:
			out = append(out, r)
		}
		last = r
	}
	return string(out)
}

// unbrokenDay is the ISO date with hyphens at which a line does not break.
const unbrokenDay = "2006\u201101\u201102"

// addBalance adds the running balance.
func (a answer) addBalance(sheet *notebook.Sheet) error {
	small := notebook.Same(notebook.Millilitre)
	table := notebook.Table{Name: "balance", Title: "The bath, entry by entry",
		Columns: []notebook.Column{notebook.Col("Date"), notebook.ColIn("Drag-out", small), notebook.ColIn("Evaporated", small),
			notebook.ColIn("Nickel, drag-out only", concentrations), notebook.ColIn("Nickel, with the anode", concentrations), notebook.ColIn("Boric acid", concentrations)}}
	for _, e := range a.entries {
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(e.Day.Format(unbrokenDay)), notebook.Val(millilitres(e.dragOut, 2)), notebook.Val(millilitres(e.evaporated, 2)),
			notebook.Val(notebook.Stepped(e.dragged.Nickel, 0.1, concentrations)), notebook.Val(notebook.Stepped(e.whole.Nickel, 0.1, concentrations)), notebook.Val(notebook.Stepped(e.whole.Boric, 0.1, concentrations))})
	}
	end := a.last()
	boric := unit.Mass(float64(a.in.Boric-end.whole.Boric) * float64(a.in.Volume))
	sheet.Add(table,
		notebook.Figure{Name: "drag-out-total", Label: "Dragged out in all", Value: millilitres(a.dragOut, 2)},
		notebook.Figure{Name: "evaporated-total", Label: "Evaporated in all", Value: millilitres(a.evaporated, 2)},
		notebook.Figure{Name: "lost", Label: "Nickel that drag-out took", Value: perLitre(a.in.Nickel-end.dragged.Nickel, 2)},
		notebook.Figure{Name: "gained", Label: "Nickel that the anode gave over", Value: perLitre(end.whole.Nickel-end.dragged.Nickel, 2)},
		notebook.Figure{Name: "nickel-now", Label: "Nickel now", Value: perLitre(end.whole.Nickel, 3)},
		notebook.Figure{Name: "anode-use", Label: "Anode dissolved", Value: grams(a.anode, 3)},
		notebook.Figure{Name: "boric-add", Label: "Boric acid to put back", Value: grams(boric, 2)},
		a.nickelVerdict())
	chart, err := a.nickelChart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// nickelVerdict says whether the bath needs nickel.
func (a answer) nickelVerdict() notebook.Verdict {
	end := a.last().whole
	change := float64(end.Nickel/a.in.Nickel) - 1
	v := notebook.Verdict{Name: "nickel-need", Tone: notebook.Good, Text: notebook.Say(
		"The bath needs no nickel: it stands at {}, {} of where it began. Acid is what went: {} of sulfuric acid, 100 %.",
		perLitre(end.Nickel, 3), notebook.Exact(1+change, notebook.Percents).WithDigits(3), grams(a.acidGone, 2))}
	if change < -0.10 {
		v.Tone, v.Text = notebook.Watch, notebook.Say("The bath is down to {}, {} of where it began. Have it analysed, then bring it back with nickel sulfate.",
			perLitre(end.Nickel, 3), notebook.Exact(1+change, notebook.Percents).WithDigits(2))
	}
	if change > 0.10 {
		v.Tone, v.Text = notebook.Watch, notebook.Say("Nickel has built up to {}, {} of where it began: the work takes less than the anodes give.",
			perLitre(end.Nickel, 3), notebook.Exact(1+change, notebook.Percents).WithDigits(3))
	}
	return v
}

// addAcid adds the acid's balance and the dose.
func (a answer) addAcid(sheet *notebook.Sheet) error {
	moles := notebook.Exact(a.last().whole.AcidLost, notebook.Same(notebook.Unit{Symbol: "mol", Scale: 1})).WithDigits(2)
	sheet.Add(
		notebook.Figure{Name: "acid-moles", Label: "Hydrogen ions gone as gas", Value: moles},
		notebook.Figure{Name: "acid-pure", Label: "That is, of sulfuric acid at 100 %", Value: grams(a.acidGone, 2)},
		notebook.Figure{Name: "acid-bottle", Label: "Or from your bottle, over the whole book", Value: millilitres(a.acidBottle, 2)},
		notebook.Figure{Name: "dose", Label: "By your trial the bath now takes", Value: millilitres(a.dose, 2)},
		notebook.Verdict{Name: "dose-half", Tone: notebook.Note, Text: notebook.Say(
			"Add half of that, {}, drop by drop with stirring; wait ten minutes; measure the pH; then decide.", millilitres(a.dose/2, 2))})
	return nil
}

// addHeat adds what warmth costs.
func (a answer) addHeat(sheet *notebook.Sheet) error {
	rate := notebook.Figure{Name: "evaporation", Label: "Evaporation while warm", Unknown: "the book has no warm hours"}
	loss := notebook.Figure{Name: "loss", Label: "Heat that evaporation takes", Unknown: rate.Unknown}
	if a.hot > 0 {
		perHour := notebook.Unit{Symbol: "mL/h", Scale: 1e-6 / 3600}
		rate = notebook.Figure{Name: rate.Name, Label: rate.Label, Value: notebook.Exact(float64(a.evaporated)/float64(a.hot), notebook.Same(perHour)).WithDigits(2)}
		loss = notebook.Figure{Name: loss.Name, Label: loss.Label, Value: notebook.Exact(a.loss, notebook.Same(notebook.Watt)).WithDigits(2)}
	}
	up := notebook.Figure{Name: "heat-up", Label: "Time to warm up, about", Unknown: a.heatUpWhy}
	if a.heatUpWhy == "" {
		up.Value = notebook.Exact(a.heatUp, notebook.Minutes).WithDigits(2)
	}
	ratio, err := plating.RinseRatio(math.Max(float64(a.in.RinseWater), 1e-9)/math.Max(float64(a.dragOut), 1e-9), 1)
	if err != nil {
		return notebook.InField("rinse-water", err)
	}
	sheet.Add(rate, loss, up,
		notebook.Figure{Name: "rinse", Label: "Nickel in the first rinse by now", Value: perLitre(a.in.Nickel/plating.Concentration(ratio), 2)})
	return nil
}
