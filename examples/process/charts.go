package process

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// addShares adds the chart of the mean to aim at against how little the thinnest
// place gets.
func (a answer) addShares(sheet *notebook.Sheet) error {
	sure := plot.Series{Label: "with the chance wanted", Style: plot.Curve}
	even := plot.Series{Label: "with an even chance", Style: plot.Curve}
	for s := 0.3; s < 1.001; s += 0.05 {
		d := a.demand
		d.Share = min(s, 1)
		// The doubt of a share is taken in proportion, so that the two curves can
		// be compared from end to end.
		d.ShareU *= d.Share / a.demand.Share
		aim, err := d.Aim()
		if err != nil {
			return notebook.InField("thinnest-u", err)
		}
		sure.X, sure.Y = append(sure.X, d.Share), append(sure.Y, float64(aim.Mean))
		even.X, even.Y = append(even.X, d.Share), append(even.Y, float64(aim.Bare))
	}
	var marks []plot.Mark
	if a.in.Thinnest >= sure.X[0] {
		marks = append(marks, plot.Mark{Label: "yours", X: a.in.Thinnest})
	}
	chart, err := plot.XY{Name: "shares", Title: "The mean that a thin place costs",
		Caption: notebook.Say("For {} at the thinnest place: where it gets {} of the mean, {} must be aimed at; a recess of half the mean asks twice what is wanted.",
			thin(a.demand.Least), share(a.in.Thinnest), thin(a.aim.Mean)),
		X:      plot.Axis{Label: "Thinnest place, of the mean", Show: notebook.Percents, Range: notebook.Between(0.3, 1.0)},
		Y:      plot.Axis{Label: "Mean to aim at", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{sure, even},
		Marks:  marks,
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// addTimes adds the chart of where the time at the bench goes.
func (a answer) addTimes(sheet *notebook.Sheet) error {
	bars := plot.Bars{Name: "times", Title: "Where the time goes", What: "Step", Horizontal: true, Value: plot.Axis{Label: "Time", Show: notebook.Minutes}}
	longest := plot.BarSeries{Label: "at the most"}
	for i, s := range a.sheet.Steps {
		if t := max(s.TimeFrom, s.TimeTo); t > 0 && s.Kind != plating.StepBake {
			bars.Groups = append(bars.Groups, fmt.Sprintf("%d %s", i+1, s.Kind))
			longest.Values = append(longest.Values, float64(t))
		}
	}
	if len(bars.Groups) == 0 {
		bars.Groups, longest.Values = []string{"no step"}, []float64{0}
	}
	bars.Series = []plot.BarSeries{longest}
	bars.Caption = notebook.Say("{} in all, of which {} under current. A bake comes on top.", minutes(a.sheet.AtBench()), minutes(a.underCurrent()))
	chart, err := bars.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// underCurrent returns the time that the load hangs under the nickel's current.
func (a answer) underCurrent() unit.Time {
	if a.refused() {
		return 0
	}
	return a.sheet.Setting.Time
}

// addLine draws the vessels in the order of work.
func (a answer) addLine(sheet *notebook.Sheet) error {
	const perRow, width, left, rowHeight = 5, 60.0, 30.0, 85.0
	vessels := 0
	for _, s := range a.sheet.Steps {
		if vessel(s.Kind) {
			vessels++
		}
	}
	rows := max(1, (vessels+perRow-1)/perRow)
	c := drawing.New("line", "The vessels in the order of work", "A row of vessels over two lines, numbered as the steps of the sheet, with an arrow from each to the next.", 420, 15+rowHeight*float64(rows))
	place := 0
	for i, s := range a.sheet.Steps {
		if !vessel(s.Kind) {
			continue
		}
		x, y := left+float64(place%perRow)*(width+16), 50+float64(place/perRow)*rowHeight
		drawStep(c, s.Kind, x, y, width)
		c.Number(drawing.Point{X: x + width/2, Y: y - 22}, i+1)
		c.Note(drawing.Point{X: x + width/2, Y: y + 42}, drawing.Middle, string(s.Kind))
		if place%perRow > 0 {
			c.Arrow(drawing.Marked, drawing.Point{X: x - 15, Y: y + 10}, drawing.Point{X: x - 2, Y: y + 10})
		}
		place++
	}
	if a.refused() {
		c.Words(drawing.Point{X: 210, Y: 50}, drawing.Middle, "no vessel: not at this bench")
	}
	item, err := c.Item(notebook.Plain("Numbered as on the sheet. Keep acid and nickel apart by a rinse, always, and stand the vessels so that nothing drips on the floor between."))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// vessel reports whether a step of the kind stands at a vessel of its own.
func vessel(kind plating.StepKind) bool {
	return kind != plating.StepInspect && kind != plating.StepRelieve
}

// drawStep draws one vessel, oven or blower.
func drawStep(c *drawing.Canvas, kind plating.StepKind, x, y, width float64) {
	at := func(dx, dy float64) drawing.Point { return drawing.Point{X: x + dx, Y: y + dy} }
	switch kind {
	case plating.StepBake, plating.StepDry:
		c.Box(drawing.Body, at(0, -8), at(width, 28), 5)
		c.Box(drawing.Glass, at(9, -1), at(width-9, 20), 3)
	default:
		c.Box(drawing.Bath, at(0, 2), at(width, 28), 3)
		c.Line(drawing.Visible, at(0, -8), at(0, 28), at(width, 28), at(width, -8))
	}
	if kind == plating.StepPlate || kind == plating.StepStrike {
		c.Box(drawing.Nickel, at(5, 0), at(10, 24), 1)
		c.Box(drawing.Nickel, at(width-10, 0), at(width-5, 24), 1)
	}
	c.Box(drawing.Brass, at(width/2-6, 4), at(width/2+6, 22), 1)
}
