package threelitres

import (
	"time"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// nickelChart sets the nickel of the bath against the date.
func (a answer) nickelChart() (notebook.Chart, error) {
	var days []time.Time
	dragged := plot.Series{Label: "drag-out only", Style: plot.Line}
	whole := plot.Series{Label: "with the anode", Style: plot.Line}
	for _, e := range a.entries {
		days = append(days, e.Day)
		dragged.Y, whole.Y = append(dragged.Y, float64(e.dragged.Nickel)), append(whole.Y, float64(e.whole.Nickel))
	}
	dragged.X, whole.X = plot.Days(days), plot.Days(days)
	return plot.XY{
		Name: "nickel-chart", Title: "Nickel in the bath",
		Caption: notebook.Say("From {} at the start. Drag-out takes nickel, the anode gives a little more than the work takes; mind how small the scale of this chart is beside that.", perLitre(a.in.Nickel, 3)),
		X:       plot.Axis{Label: "Date", Dates: true},
		Y:       plot.Axis{Label: "Nickel", Show: concentrations},
		Series:  []plot.Series{dragged, whole},
	}.Chart()
}

// addDrawing draws the bath with what comes and goes.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("flows", "What comes and goes", "A tank of bath with arrows: water and acid in, water vapour, hydrogen and drag-out out, nickel from the anode.", 420, 270)
	const left, right, top, foot, level = 80.0, 260.0, 95.0, 235.0, 120.0
	point := func(x, y float64) drawing.Point { return drawing.Point{X: x, Y: y} }
	c.Box(drawing.Bath, point(left, level), point(right, foot), 4)
	c.Line(drawing.Visible, point(left, top), point(left, foot), point(right, foot), point(right, top))
	c.Box(drawing.Nickel, point(left+16, level-8), point(left+30, foot-25), 2)
	c.Box(drawing.Brass, point(right-60, level+25), point(right-30, foot-40), 2)
	c.Line(drawing.Visible, point(right-45, 78), point(right-45, level+25))
	c.Arrow(drawing.Marked, point(left+36, 195), point(right-66, 195))
	c.Words(point((left+right)/2-12, 187), drawing.Middle, "nickel")
	c.Arrow(drawing.Marked, point(58, 52), point(left+52, level-4))
	c.Label(point(8, 42), drawing.Start, notebook.Say("water {}", millilitres(a.evaporated+a.dragOut, 2)))
	c.Arrow(drawing.Thin, point(168, level-6), point(168, 62))
	c.Label(point(150, 52), drawing.Start, notebook.Say("vapour {}", millilitres(a.evaporated, 2)))
	c.Arrow(drawing.Thin, point(right-40, 90), point(right+20, 90))
	c.Label(point(right+26, 95), drawing.Start, notebook.Say("drag-out {}", millilitres(a.dragOut, 2)))
	c.Arrow(drawing.Thin, point(right-24, 165), point(right-14, 128))
	c.Line(drawing.Thin, point(right-19, 147), point(right+20, 165))
	c.Label(point(right+26, 170), drawing.Start, notebook.Say("acid {}", grams(a.acidGone, 2)))
	c.Note(point(right+26, 190), drawing.Start, "gone as hydrogen")
	c.Note(point((left+right)/2, 258), drawing.Middle, "over the whole bath book")
	item, err := c.Item(notebook.Say("{} of bath over {} of work: what went in and out.", notebook.Exact(a.in.Volume, notebook.Volumes).WithDigits(2), notebook.Exact(a.charge, notebook.Charges)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// addEffect says what a bath out of balance does to the part.
func (a answer) addEffect(sheet *notebook.Sheet) error {
	sheet.Add(notebook.Verdict{Name: "effect", Tone: notebook.Note, Text: notebook.Plain(
		"Too little acid: haze, pits, a brittle coat, and less of the current makes nickel. Too little boric acid: burnt corners. Too little chloride: anodes that stop dissolving. Too little nickel is the rarest of the four in a small bath.")})
	return nil
}

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	drag := plating.DragOut{PerArea: actionshop.DragOutPerArea, Dips: actionshop.DragOutDips}
	bath := plating.Bath{Volume: actionshop.BathVolume, Nickel: actionshop.BathNickel * plating.GramPerLitre}
	lost := bath
	var charge unit.Charge
	for _, r := range actionshop.PlatingLog() {
		v, err := drag.Volume(r.Area)
		if err != nil {
			return err
		}
		if lost, err = lost.After(plating.Work{DragOut: v}); err != nil {
			return err
		}
		charge += unit.Charge(float64(r.Current) * float64(r.Time))
	}
	gained, err := bath.After(plating.Work{Charge: charge, CathodeEfficiency: 0.95, AnodeEfficiency: 1})
	if err != nil {
		return err
	}
	note("wrong-nickel", notebook.Say("{} of work gained {} and drag-out took {}, of {}. After two years the bath has lost less than one part in a hundred.",
		notebook.Exact(charge, notebook.Charges), perLitre(gained.Nickel-bath.Nickel, 2), perLitre(bath.Nickel-lost.Nickel, 2), perLitre(bath.Nickel, 2)))
	six, err := plating.NickelSulfate(6)
	if err != nil {
		return err
	}
	seven, err := plating.NickelSulfate(7)
	if err != nil {
		return err
	}
	swapped := plating.Dose{Salt: six, Concentration: 300 * plating.GramPerLitre}
	right, err := swapped.Instead(seven)
	if err != nil {
		return err
	}
	note("wrong-hydrate", notebook.Say("{} of the salt with six waters holds as much nickel as {} with seven: taking one for the other is wrong by {}.",
		perLitre(swapped.Concentration, 3), perLitre(right.Concentration, 3), notebook.Exact(float64(right.Concentration/swapped.Concentration)-1, notebook.Percents).WithDigits(2)))
	dilution, err := plating.DilutionToLimit(bath.Nickel, plating.SewerNickelLimit())
	if err != nil {
		return err
	}
	note("wrong-drain", notebook.Say("A bath at {} holds {} times the most that a US metal finisher may put into a public sewer, {}. Diluting it to get there is forbidden too.",
		perLitre(bath.Nickel, 2), notebook.Exact(dilution, notebook.Numbers).WithDigits(2),
		notebook.Exact(plating.SewerNickelLimit(), notebook.Same(notebook.Unit{Symbol: "mg/L", Scale: 1e-3}))))
	return nil
}

// addChecks sets the chemistry beside published figures.
func addChecks(sheet *notebook.Sheet) error {
	small := plating.WattsRecipe(240*plating.GramPerLitre, 45*plating.GramPerLitre, 30*plating.GramPerLitre)
	large := plating.WattsRecipe(300*plating.GramPerLitre, 45*plating.GramPerLitre, 40*plating.GramPerLitre)
	seven, err := plating.NickelSulfate(7)
	if err != nil {
		return err
	}
	hepta, err := large[0].Instead(seven)
	if err != nil {
		return err
	}
	sulfamate, err := plating.NickelSulfamate(4)
	if err != nil {
		return err
	}
	rinse, err := plating.RinseRatio(99, 1)
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-240", "plating-watts-240", float64(small.Nickel()/plating.GramPerLitre)),
		notebook.CheckRow("check-300", "plating-watts-300", float64(large.Nickel()/plating.GramPerLitre)),
		notebook.CheckRow("check-hepta", "plating-heptahydrate", float64(hepta.Concentration/plating.GramPerLitre)),
		notebook.CheckRow("check-sulfamate", "plating-sulfamate", float64(plating.Recipe{{Salt: sulfamate, Concentration: 550 * plating.GramPerLitre}}.Nickel()/plating.GramPerLitre)),
		notebook.CheckRow("check-rinse", "plating-rinse", rinse),
	)
	return nil
}

// addCautions adds what can hurt someone, each at its step.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-salts", Body: "UK guidance on nickel plating; ECHA",
			Text: notebook.Plain("Nickel salts sensitise the skin for life; as dust they are the most dangerous thing on this page: weigh them damp or under a hood, never dry in a draught. They are classed as carcinogens when breathed and as harmful to the unborn child; boric acid is classed as toxic to reproduction. Gloves, goggles, a mask that fits, no food, and wash before you leave. Your own country's law and the safety data sheets decide.")},
		notebook.Caution{Name: "caution-acid", Text: notebook.Plain("Acid into water, slowly, never water into acid: it boils and throws acid. Buy it dilute. Goggles and gloves; water within reach.")},
		notebook.Caution{Name: "caution-heat", Text: notebook.Plain("A heater above the level cracks or burns the tank: fit a level switch or never leave it. Use an isolated supply and a residual-current device.")},
		notebook.Caution{Name: "caution-waste", Body: "40 CFR 433.15 for the US figure",
			Text: notebook.Plain("Bath, kept rinse, filters and anode dirt are hazardous waste, in closed marked drums, to whoever your local authority names. Never down the drain, never on the ground, never evaporated in the open.")},
	)
	return nil
}
