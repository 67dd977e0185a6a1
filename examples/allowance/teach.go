package allowance

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// chanceChart sets the chance that the nut runs against the mean thickness.
func (a answer) chanceChart() (notebook.Chart, error) {
	most := math.Max(2.5*float64(a.flankLimit), 2*float64(a.in.Mean))
	if most == 0 {
		most = 10e-6
	}
	relative := 0.03
	if a.in.Mean > 0 {
		relative = float64(a.in.MeanU / a.in.Mean)
	}
	worst := plot.Series{Label: "tightest pair of the class", Style: plot.Curve}
	pair := plot.Series{Label: "pair at random", Style: plot.Curve}
	if a.in.Clearance != nil {
		pair.Label = "measured pair"
	}
	const points = 81
	for i := range points {
		mean := unit.Length(most * float64(i) / (points - 1))
		coat := plating.LocalCoat{Mean: mean, MeanU: mean * unit.Length(relative), Share: a.in.Flank, ShareU: a.in.FlankU}
		for _, s := range []struct {
			series *plot.Series
			fit    plating.ThreadFit
		}{{&worst, plating.ThreadFit{Clearance: a.room}}, {&pair, a.fit}} {
			fit := s.fit
			fit.Screw = coat
			if a.in.NutPlated == nutPlated {
				fit.Nut = coat
			}
			left, err := fit.AfterPlating()
			if err != nil {
				return notebook.Chart{}, err
			}
			s.series.X, s.series.Y = append(s.series.X, float64(mean)), append(s.series.Y, left.Runs)
		}
	}
	return plot.XY{
		Name: "chance-chart", Title: "Chance that the nut runs",
		Caption: notebook.Say("The chance that clearance is left, against the mean thickness of the load. The upright line is your coat, {}.", fine(a.in.Mean)),
		X:       plot.Axis{Label: "Mean thickness", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Y:       plot.Axis{Label: "Chance", Show: notebook.Percents, Range: notebook.Between(0.0, 1.0)},
		Series:  []plot.Series{worst, pair},
		Marks:   []plot.Mark{{Label: "your coat", X: float64(a.in.Mean)}},
	}.Chart()
}

// addDrawing draws one flank of the thread with its coat, much exaggerated.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("flank", "A thread with its coat, in section",
		"The profile of a 60 degree screw thread. The coat lies square to each flank; along the radius it shows twice as thick.", 420, 250)
	const (
		pitch  = 150.0 // canvas units a pitch
		crestY = 70.0
		rootY  = crestY + pitch*0.5413 // height of the basic profile over the pitch
		coat   = 14.0
		right  = 385.0
	)
	// A coat t thick lifts flats by t and moves each corner sideways by t/sqrt(3),
	// so that it is t thick square to the flanks too.
	profile := func(t float64) []drawing.Point {
		var points []drawing.Point
		aside := t / math.Sqrt(3)
		for i := -1; i <= 2; i++ {
			x := 60 + float64(i)*pitch
			points = append(points, drawing.Point{X: x + aside, Y: rootY - t}, drawing.Point{X: x + pitch/4 - aside, Y: rootY - t},
				drawing.Point{X: x + pitch*9/16 - aside, Y: crestY - t}, drawing.Point{X: x + pitch*11/16 + aside, Y: crestY - t})
		}
		return clip(points, 20, right)
	}
	outer, body := profile(coat), profile(0)
	foot := 215.0
	c.Face(drawing.Nickel, append(append([]drawing.Point(nil), outer...), drawing.Point{X: right, Y: foot}, drawing.Point{X: 20, Y: foot})...)
	c.Face(drawing.Steel, append(append([]drawing.Point(nil), body...), drawing.Point{X: right, Y: foot}, drawing.Point{X: 20, Y: foot})...)
	// A point of a flank, the coat square to it and along the radius.
	at := drawing.Point{X: 60 + pitch*0.40625, Y: (rootY + crestY) / 2}
	square := at.Add(-coat*math.Cos(math.Pi/6), -coat*math.Sin(math.Pi/6))
	up := at.Add(0, -2*coat)
	c.Line(drawing.Marked, at, square)
	c.Line(drawing.Marked, at, up)
	c.Leader(drawing.Point{X: 95, Y: 38}, drawing.End, "coat t", square)
	c.Leader(drawing.Point{X: 150, Y: 22}, drawing.Start, "2 t along the radius", up)
	c.Leader(drawing.Point{X: 330, Y: 190}, drawing.Middle, "screw", drawing.Point{X: 300, Y: 165})
	times := coat / (float64(a.in.Flank) * math.Max(float64(a.in.Mean), 1e-9) / float64(a.in.Pitch) * pitch)
	if times > 1 && times < 1e4 {
		c.Exaggerated("The coat is", math.Round(times))
	}
	item, err := c.Item(notebook.Say("Square to the flank the coat is t thick. Along the radius that is t over the sine of 30°, so 2 t; on the diameter 4 t. Yours is {}.",
		fine(a.in.Mean*unit.Length(a.in.Flank))))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// clip keeps the part of a profile between two places, cut on the lines.
func clip(points []drawing.Point, from, to float64) []drawing.Point {
	cut := func(p, q drawing.Point, x float64) drawing.Point {
		return drawing.Point{X: x, Y: p.Y + (q.Y-p.Y)*(x-p.X)/(q.X-p.X)}
	}
	var kept []drawing.Point
	for i, p := range points {
		if i > 0 {
			last := points[i-1]
			for _, edge := range []float64{from, to} {
				if last.X < edge && p.X > edge {
					kept = append(kept, cut(last, p, edge))
				}
			}
		}
		if p.X >= from && p.X <= to {
			kept = append(kept, p)
		}
	}
	return kept
}

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	twenty := 20 * um
	thread, err := plating.PitchDiameterGrowth(twenty, plating.ISOThread)
	if err != nil {
		return err
	}
	acme, err := plating.PitchDiameterGrowth(twenty, plating.AcmeThread)
	if err != nil {
		return err
	}
	note("wrong-twenty", notebook.Say("{} add {} to a diameter, {} to the pitch diameter of a 60° thread and {} to that of a 29° one.",
		fine(twenty).WithDigits(2), fine(plating.DiameterGrowth(twenty)).WithDigits(2), fine(thread).WithDigits(2), fine(acme)))
	room, _, err := plating.Allowance(0.7*mm, plating.PositionG)
	if err != nil {
		return err
	}
	fits, err := plating.FlankThicknessLimit(room, plating.ISOThread)
	if err != nil {
		return err
	}
	note("wrong-6g", notebook.Say("6g on M4 × 0.7 leaves {}, which {} on the flanks uses up. It is room for a thin coat only.", fine(room).WithDigits(2), fine(fits)))
	tight, err := plating.ThreadFit{Clearance: room, Screw: plating.LocalCoat{Mean: 11.7 * um, MeanU: 0.2 * um, Share: 1, ShareU: 0.15}}.AfterPlating()
	if err != nil {
		return err
	}
	runs, err := plating.ThreadFit{Clearance: room, Screw: plating.LocalCoat{Mean: 5.2 * um, MeanU: 0.15 * um, Share: 1, ShareU: 0.15}}.AfterPlating()
	if err != nil {
		return err
	}
	note("wrong-half", notebook.Say("The shop's run 8, {} thick, left the tightest pair {}: it was tight. Run 14, {}, left {}: it ran.",
		fine(11.7*um), fine(tight.Clearance), fine(5.2*um).WithDigits(2), fine(runs.Clearance).WithDigits(2)))
	return nil
}

// addChecks sets threads and classes beside published figures.
func addChecks(sheet *notebook.Sheet) error {
	iso, err := plating.PitchDiameterFactor(plating.ISOThread)
	if err != nil {
		return err
	}
	acme, err := plating.PitchDiameterFactor(plating.AcmeThread)
	if err != nil {
		return err
	}
	m4, _, err := plating.Allowance(0.7*mm, plating.PositionG)
	if err != nil {
		return err
	}
	class := func(pitch unit.Length, position plating.Position, slenderness float64) (float64, error) {
		room, _, err := plating.Allowance(pitch, position)
		if err != nil {
			return 0, err
		}
		c, _, err := plating.LargestClass(room, slenderness)
		return float64(c.Nominal / um), err
	}
	m6, err := class(1*mm, plating.PositionF, 5)
	if err != nil {
		return err
	}
	m5, err := class(0.8*mm, plating.PositionE, 15)
	if err != nil {
		return err
	}
	ten, err := plating.AllowanceFor(10*um, 8)
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-iso", "plating-pitch-diameter", iso),
		notebook.CheckRow("check-acme", "plating-acme", acme),
		notebook.CheckRow("check-m4", "plating-m4-g", float64(m4/um)),
		notebook.CheckRow("check-m6", "plating-m6-f-class", m6),
		notebook.CheckRow("check-m5", "plating-m5-e-class", m5),
		notebook.CheckRow("check-ten", "plating-allowance-10", float64(ten/um)),
	)
	return nil
}
