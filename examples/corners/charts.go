package corners

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// measured is a place of run 3's escutcheon that lies on a cut across its
// middle: how far from the long edge, and the coat there of the mean.
type measured struct {
	place string
	in    unit.Length
	share float64
	u     float64
}

// micrometerU is the standard uncertainty of a growth by micrometer: two
// readings in steps of 0.001 mm, each rectangular.
const micrometerU = 0.41 * um

// runThreeMean returns the mean thickness of run 3 by weighing.
func runThreeMean() (unit.Length, error) {
	run := actionshop.PlatingLog()[2]
	return plating.Nickel().Deposit().Thickness(run.After-run.Before, run.Area)
}

// onTheCut returns the measured places, or none when the cut is not that of an
// escutcheon across its middle.
func (in Inputs) onTheCut() ([]measured, error) {
	if math.Abs(float64(in.Width-actionshop.EscutcheonWidth)) > 1e-6 {
		return nil, nil
	}
	mean, err := runThreeMean()
	if err != nil {
		return nil, err
	}
	spots := actionshop.PlateSpots()
	var all []measured
	for _, m := range []struct {
		spot actionshop.PlateSpot
		in   unit.Length
	}{{spots[1], 1 * mm}, {spots[3], in.Width / 4}, {spots[2], in.Width / 2}} {
		// The growth is over both faces.
		all = append(all, measured{m.spot.Place, m.in, float64(m.spot.Growth / 2 / mean), float64(micrometerU / 2 / mean)})
	}
	return all, nil
}

// addAlong adds the chart of the coat along the outermost plate.
func (a answer) addAlong(sheet *notebook.Sheet) error {
	places, err := a.in.onTheCut()
	if err != nil {
		return err
	}
	edge := float64(a.in.outermost())
	var x, left, right []float64
	for _, s := range a.plain.faces() {
		x = append(x, edge-s.y)
		left, right = append(left, a.plain.toMean(s.left)), append(right, a.plain.toMean(s.right))
	}
	series := []plot.Series{
		{Label: "left face", Style: plot.Curve, X: x, Y: left},
		{Label: "right face", Style: plot.Curve, X: x, Y: right},
	}
	if len(places) > 0 {
		dots := plot.Series{Label: "run 3 by micrometer", Style: plot.Dots}
		for _, p := range places {
			dots.X, dots.Y, dots.U = append(dots.X, float64(p.in)), append(dots.Y, p.share), append(dots.U, p.u)
		}
		series = append(series, dots)
	}
	chart, err := plot.XY{
		Name: "along", Title: "Nickel along the outermost plate, of the mean",
		Caption: notebook.Say("Zero is where the flat face begins at the outermost edge. The rounding beyond it gets up to {} of the mean.",
			share(a.plain.toMean(a.plain.d.Thickest.CurrentDensity))),
		X:      plot.Axis{Label: "From the outermost edge", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)},
		Y:      plot.Axis{Label: "Of the mean on the plates", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series: series,
		Limits: []plot.Limit{{Label: "burns", Y: a.plain.toMean(a.in.Burns)}},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// addSpots adds the measured places beside the computed ones.
func (a answer) addSpots(sheet *notebook.Sheet) error {
	places, err := a.in.onTheCut()
	if err != nil {
		return err
	}
	table := notebook.Table{Name: "spots", Title: "Run 3 by micrometer, and the cut",
		Columns: []notebook.Column{notebook.Col("Place"), notebook.ColIn("Measured, of the mean", notebook.Percents), notebook.ColIn("Computed, of the mean", notebook.Percents)},
		Note:    notebook.Plain("Computed is the mean of both faces of the outermost plate, on its outer half.")}
	if len(places) == 0 {
		sheet.Add(table, notebook.Verdict{Name: "honest", Tone: notebook.Note,
			Text: notebook.Say("The measured places lie on a cut of {}. This cut is another, so there is nothing to set beside it.", size(actionshop.EscutcheonWidth))})
		return nil
	}
	spots := a.plain.faces()
	worst, where := 0.0, ""
	for _, p := range places {
		computed := a.plain.toMean(atSpot(spots, a.in.outermost()-p.in))
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(p.place),
			notebook.Val(notebook.Of(p.share, p.u, notebook.Percents)), notebook.Val(share(computed))})
		if off := computed - p.share; math.Abs(off) > math.Abs(worst) {
			worst, where = off, p.place
		}
	}
	corner := actionshop.PlateSpots()[0]
	mean, err := runThreeMean()
	if err != nil {
		return err
	}
	table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(corner.Place),
		notebook.Val(notebook.Of(float64(corner.Growth/2/mean), float64(micrometerU/2/mean), notebook.Percents)), notebook.Str("in no plane cut")})
	sheet.Add(table, notebook.Verdict{Name: "honest", Tone: notebook.Watch, Text: notebook.Say(
		"The cut and the micrometer differ most at "+where+": by {} of the mean. A plane cut has no upper and lower ends, and ends take current from the rest; a micrometer rests on the highest place under its anvil, which near an edge is the edge side.",
		share(math.Abs(worst)))})
	return nil
}

// distances is how many places of the anodes are tried.
const distances = 5

// addDistance adds the chart of what the distance of the anodes does. The
// anodes are moved in the field that is already there.
func (a answer) addDistance(sheet *notebook.Sheet) error {
	room := a.in.TankLength/2 - a.in.Thickness/2 - anodeThickness - anodeBack
	var x, edge, thin []float64
	for i := range distances {
		to := 15*mm + unit.Length(i)/(distances-1)*(room-15*mm)
		moved, err := a.plain.field.Moved(
			plating.Move{Outline: "left anode", X: a.in.Left - to}, plating.Move{Outline: "right anode", X: to - a.in.Right})
		if err != nil {
			continue
		}
		there, err := a.plain.layout.at(moved, a.in.Mean)
		if err != nil {
			return err
		}
		x = append(x, float64(to))
		edge = append(edge, there.toMean(there.d.Thickest.CurrentDensity))
		thin = append(thin, there.toMean(there.d.Thinnest.CurrentDensity))
	}
	chart, err := plot.XY{
		Name: "distance", Title: "Both anodes moved together",
		Caption: notebook.Say("From {} to {}: the edge goes from {} to {} of the mean, the thinnest place from {} to {}.",
			size(unit.Length(x[0])), size(unit.Length(x[len(x)-1])), share(edge[0]), share(edge[len(edge)-1]), share(thin[0]), share(thin[len(thin)-1])),
		X: plot.Axis{Label: "Plate to anode", Show: notebook.Lengths},
		Y: plot.Axis{Label: "Of the mean on the plates", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{
			{Label: "thickest place", Style: plot.Line, X: x, Y: edge},
			{Label: "thinnest place", Style: plot.Line, X: x, Y: thin},
		},
	}.Chart()
	if err != nil {
		return err
	}
	text := "further off is better"
	if edge[len(edge)-1] > edge[0] {
		text = "further off is worse"
	}
	sheet.Add(chart, notebook.Verdict{Name: "far", Tone: notebook.Note, Text: notebook.Say(
		"In this tank "+text+" for the edge: {} of the mean with the anodes at {}, {} at {}. Near anodes as wide as the load feed its middle; far ones let the current spread and come in at the edges. But near anodes make every small error of hanging count: half-way between them is then a matter of millimetres.",
		share(edge[0]), size(unit.Length(x[0])), share(edge[len(edge)-1]), size(unit.Length(x[len(x)-1])))})
	return nil
}
