package defects

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	causes, err := plating.Causes(plating.Defect(in.Defect), in.circumstances())
	if err != nil {
		return nil, notebook.InField("defect", err)
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		func(s *notebook.Sheet) error { return addCauses(s, causes) },
		in.addTold, in.addPanel, addLog, in.addEffect, addWrong, addExercises, addChecks, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// circumstances returns what is known, as the library wants it.
func (in Inputs) circumstances() plating.Circumstances {
	c := plating.Circumstances{Mean: in.Mean, Thickest: in.Thickest, Burns: in.Burns, PH: in.PH,
		Interrupted: answer(in.Interrupted), Stirred: answer(in.Stirred), Bagged: answer(in.Bagged), Purged: answer(in.Purged), Activated: answer(in.Activated),
		Weighed: in.Weighed, Counted: in.Counted, GrowthFactor: 2}
	if in.Thread == featureThread {
		c.GrowthFactor = 4
	}
	if in.Bath != nil {
		c.Bath = *in.Bath
	}
	if in.Nickel != nil {
		c.Nickel = *in.Nickel
	}
	if in.Boric != nil {
		c.Boric = *in.Boric
	}
	if in.Local != nil && in.Room != nil {
		c.Local, c.Allowance = *in.Local, *in.Room
	}
	return c
}

// answer returns a form's answer as the library's.
func answer(words string) plating.Answer {
	if words == notKnown {
		return plating.NotKnown
	}
	return plating.Answer(words)
}

// share shows a cause's share.
func share(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Percents) }

// addCauses adds the ranked causes and what to try first.
func addCauses(sheet *notebook.Sheet, causes []plating.Cause) error {
	ranked := notebook.Table{Name: "causes", Title: "Causes, the likeliest first",
		Columns: []notebook.Column{notebook.Col("Cause"), notebook.ColIn("Share", notebook.Percents), notebook.Col("Points to it"), notebook.Col("Speaks against it")},
		Note:    notebook.Plain("Shares order what to look at first. They come from rules of the trade and what you told, not from measured frequencies.")}
	tests := notebook.Table{Name: "tests", Title: "How to tell, and what then",
		Columns: []notebook.Column{notebook.Col("Cause"), notebook.Col("Test"), notebook.Col("Remedy")}}
	var names []string
	var values []float64
	for _, c := range causes {
		ranked.Rows = append(ranked.Rows, []notebook.Cell{notebook.Str(c.Name), notebook.Val(share(c.Share)), notebook.Str(list(c.For)), notebook.Str(list(c.Against))})
		tests.Rows = append(tests.Rows, []notebook.Cell{notebook.Str(c.Name), notebook.Str(c.Test), notebook.Str(c.Remedy)})
		names, values = append(names, c.Name), append(values, c.Share)
	}
	chart, err := plot.Bars{Name: "causes-chart", Title: "Where to look first",
		Caption: notebook.Plain("Shares of the causes from rules of the trade and what you told of the run."),
		What:    "Cause", Groups: names, Value: plot.Axis{Label: "Share", Show: notebook.Percents},
		Series: []plot.BarSeries{{Label: "share", Values: values}}, Horizontal: true}.Chart()
	if err != nil {
		return err
	}
	first := causes[0]
	sheet.Add(ranked, tests, chart, notebook.Verdict{Name: "first", Tone: notebook.Watch, Text: notebook.Say(
		"Look first at: "+first.Name+" ({}). To tell: "+sentence(first.Test)+" If so: "+sentence(first.Remedy)+" Change that one thing only.", share(first.Share))})
	return nil
}

// sentence ends words with a full stop unless they end with a question.
func sentence(words string) string {
	if strings.HasSuffix(words, "?") {
		return words
	}
	return words + "."
}

// list joins words, or says that there are none.
func list(words []string) string {
	if len(words) == 0 {
		return "nothing known"
	}
	return strings.Join(words, "; ")
}

// addTold adds what was told beside the usual range.
func (in Inputs) addTold(sheet *notebook.Sheet) error {
	peak := in.Mean * plating.CurrentDensity(in.Thickest)
	table := notebook.Table{Name: "told", Title: "What you told of the run",
		Columns: []notebook.Column{notebook.Col("What"), notebook.Col("Yours"), notebook.Col("Usual for a Watts-type bath")}}
	add := func(what string, yours notebook.Cell, usual string) {
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(what), yours, notebook.Str(usual)})
	}
	density := func(j plating.CurrentDensity) notebook.Cell {
		if j == 0 {
			return notebook.Str(notKnown)
		}
		return notebook.Val(notebook.Exact(j, notebook.CurrentDensities))
	}
	add("Current density at the thickest place", density(peak), "below burning")
	add("The bath burns at", density(in.Burns), "see the panel")
	add("Temperature", temperature(in.Bath), "50 to 60 °C (122 to 140 °F)")
	add("pH", known(in.PH, notebook.Numbers), "3.5 to 4.5")
	add("Nickel metal", concentration(in.Nickel), "60 to 80 g/L")
	add("Boric acid", concentration(in.Boric), "30 to 45 g/L")
	sheet.Add(table)
	return nil
}

func temperature(t *unit.Temperature) notebook.Cell {
	if t == nil {
		return notebook.Str(notKnown)
	}
	return notebook.Val(notebook.Stepped(*t, unit.Temperature(1), notebook.Temperatures))
}

func concentration(c *plating.Concentration) notebook.Cell {
	if c == nil {
		return notebook.Str(notKnown)
	}
	return notebook.Val(notebook.Exact(*c, notebook.Same(notebook.GramPerLitre)))
}

func known(x float64, show notebook.Pair) notebook.Cell {
	if x == 0 {
		return notebook.Str(notKnown)
	}
	return notebook.Val(notebook.Stepped(x, 0.1, show))
}

// addPanel adds the test panel: what current density stands where, and where it
// burns.
func (in Inputs) addPanel(sheet *notebook.Sheet) error {
	panel := plating.Panel{Current: in.PanelCurrent}
	burns, err := panel.At(in.PanelBurnt)
	if err != nil {
		return notebook.InField("panel-burnt", err)
	}
	curve := plot.Series{Label: "on the panel", Style: plot.Curve}
	const points = 61
	for i := range points {
		at := plating.PanelNearest + (plating.PanelFarthest-plating.PanelNearest)*unit.Length(i)/(points-1)
		at = min(at, plating.PanelFarthest)
		j, err := panel.At(at)
		if err != nil {
			return notebook.InField("panel-current", err)
		}
		curve.X, curve.Y = append(curve.X, float64(at)), append(curve.Y, float64(j))
	}
	chart, err := plot.XY{Name: "panel-chart", Title: "Current density along the test panel",
		Caption: notebook.Say("At {} the panel that is burnt up to {} says that this bath burns from {}.", notebook.Exact(in.PanelCurrent, notebook.Currents),
			notebook.Exact(in.PanelBurnt, notebook.Lengths), notebook.Exact(burns, notebook.CurrentDensities)),
		X:      plot.Axis{Label: "From the high end", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)},
		Y:      plot.Axis{Label: "Current density", Show: notebook.CurrentDensities, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{curve},
		Marks:  []plot.Mark{{Label: "burnt up to here", X: float64(in.PanelBurnt)}},
	}.Chart()
	if err != nil {
		return err
	}
	most, err := plating.MostCurrentDensity(burns, in.Thickest)
	if err != nil {
		return notebook.InField("thickest", err)
	}
	sheet.Add(chart,
		notebook.Figure{Name: "panel-burns", Label: "By the panel the bath burns from", Value: notebook.Exact(burns, notebook.CurrentDensities)},
		notebook.Figure{Name: "panel-mean", Label: "So keep the mean of your part below", Value: notebook.Exact(most, notebook.CurrentDensities)})
	return nil
}

// badRuns returns the runs of the log that came out wrong and what was seen.
func badRuns() map[int]plating.Defect {
	return map[int]plating.Defect{
		5: plating.BurntCorners, 7: plating.PeelsFromBase, 8: plating.ThreadTight,
		9: plating.RoundPits, 10: plating.DullRecess, 11: plating.Haze,
	}
}

// addLog adds the bad runs of the shop's log with the cause that comes out
// first.
func addLog(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "log", Title: "The bad runs of the shop's log",
		Columns: []notebook.Column{notebook.Col("Run"), notebook.Col("Looks"), notebook.Col("pH"), notebook.ColIn("Mean current density", notebook.CurrentDensities), notebook.Col("First cause"), notebook.ColIn("Share", notebook.Percents)}}
	for _, r := range actionshop.PlatingLog() {
		defect, bad := badRuns()[r.Run]
		if !bad {
			continue
		}
		j := plating.CurrentDensity(float64(r.Current) / float64(r.Area))
		causes, err := plating.Causes(defect, logCircumstances(r, j))
		if err != nil {
			return err
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Val(notebook.Whole(r.Run)), notebook.Str(r.Looks), notebook.Val(notebook.Stepped(r.PH, 0.1, notebook.Numbers)),
			notebook.Val(notebook.Exact(j, notebook.CurrentDensities).WithDigits(2)), notebook.Str(causes[0].Name), notebook.Val(share(causes[0].Share))})
	}
	sheet.Add(table)
	return nil
}

// logCircumstances returns what the log says of a run. No purge was made before
// run 12.
func logCircumstances(r actionshop.PlatingRun, j plating.CurrentDensity) plating.Circumstances {
	c := plating.Circumstances{Mean: j, Thickest: 1.77, Burns: 8 * plating.AmperePerSquareDecimetre, Bath: r.Bath, PH: r.PH, Purged: plating.No}
	if r.Run == 8 {
		c.Local, c.Allowance, c.GrowthFactor = 11.7*um, 22*um, 4
	}
	return c
}

// addEffect says what the defect does in use.
func (in Inputs) addEffect(sheet *notebook.Sheet) error {
	effects := map[plating.Defect]string{
		plating.BurntCorners: "Burnt nickel is brittle and porous: corners chip and rust from there. It is stripped, not polished.",
		plating.RoundPits:    "Each pit is a thin place, often bare at its bottom; steel rusts through it first.", plating.RaggedPits: "Dirt grown in stands out after polishing and lets go in use.",
		plating.PeelsFromBase: "A coat that peels anywhere holds nowhere: the edge beside the flake is no better.", plating.PeelsInLayers: "The upper layer comes off in wear; the lower one may be sound.",
		plating.DullRecess: "The band is impure or thin nickel: it tarnishes, and a pin wears through it.", plating.Haze: "Haze is brittle nickel with more stress in it; thin parts may curl.",
		plating.RoughShelf: "Grains stand up by more than the coat's thickness: nothing slides on them.", plating.ThreadTight: "Forced, it galls and shears.",
		plating.CoatThin: "Life under wear and weather goes with the thinnest place.",
	}
	words, ok := effects[plating.Defect(in.Defect)]
	if !ok {
		return fmt.Errorf("defects: no effect is written for %q", in.Defect)
	}
	sheet.Add(notebook.Verdict{Name: "effect", Tone: notebook.Note, Text: notebook.Plain(words)})
	return nil
}
