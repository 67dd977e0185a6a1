package fiveyears

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// setUpItems adds the drawing and the caution.
func setUpItems(s *notebook.Sheet, in Inputs, o outlook) error {
	d, err := levelsDrawing(in, o)
	if err != nil {
		return err
	}
	s.Add(d)
	s.Add(notebook.Caution{Name: "caution-rebuild", Text: notebook.Plain(
		"Table, saddle and knee weigh more than a person can hold. Taking them off is work for rated lifting gear, slings at the maker's points, and two people who have done it; block the knee before the screw is let go, and never put a hand between faces that hang. Old scrapings and grinding dust are not for lungs: wet them or draw them off.")})
	return nil
}

// levelsDrawing draws the track today, five years on and at the limit, below the
// strip that never wore.
func levelsDrawing(in Inputs, o outlook) (notebook.Drawing, error) {
	ahead := o.now.Hours + in.LikelyUse*horizon/year
	now, _ := o.line.At(o.now.Hours)
	five, _ := o.line.At(ahead)
	low, high := o.line.Interval(ahead, 0.95, 0)
	most := max(max(high, in.Limit), max(now, 1*um))
	const top, tall = 60.0, 120.0
	down := func(d unit.Length) float64 { return top + tall*math.Max(float64(d/most), 0) }
	c := drawing.New("levels-drawing", "The way now, in five years, and at the limit",
		"A way in section, seen along the table: a strip at the left that never wore, and beside it the track at its depth now, in five years with its range, and at the limit.", 420, 250)
	at := func(x, y float64) drawing.Point { return drawing.Point{X: x, Y: y} }
	c.Face(drawing.Body, at(40, top), at(110, top), at(110, down(now)), at(270, down(now)), at(270, 215), at(40, 215))
	c.Face(drawing.Wedge, at(110, down(low)), at(270, down(low)), at(270, down(high)), at(110, down(high)))
	c.Line(drawing.Marked, at(110, down(now)), at(270, down(now)))
	c.Line(drawing.Visible, at(110, down(five)), at(270, down(five)))
	c.Line(drawing.Hidden, at(110, down(in.Limit)), at(290, down(in.Limit)))
	c.Line(drawing.Thin, at(110, top), at(290, top))
	c.Words(at(75, top-8), drawing.Middle, "as new")
	// Labels at the right, kept apart.
	y := 0.0
	for _, l := range []struct {
		at   float64
		text notebook.Text
	}{{down(now), notebook.Say("now {}", depthOf(now))}, {down(five), notebook.Say("5 yr {}", depthOf(five))}, {down(in.Limit), notebook.Say("limit {}", depthOf(in.Limit))}} {
		y = math.Max(l.at+5, y+18)
		c.Label(at(298, y), drawing.Start, l.text)
	}
	// The track, 160 units wide, is 40 mm of way: a quarter of a millimetre a
	// unit.
	c.Exaggerated("Depths", math.Max(math.Round(tall*0.25e-3/float64(most)/10)*10, 1))
	return c.Item(notebook.Say("The shaded band is where the track lies in five years with 95 %: {} to {}.", depthOf(low), depthOf(high)))
}

// checkItems adds the checks against published values.
func checkItems(s *notebook.Sheet) error {
	var six []wear.MeasuredDepth
	for i, t := range []unit.Time{0, 1.5, 3, 4, 6, 8} {
		six = append(six, wear.MeasuredDepth{Clock: t * year, Depth: unit.Length([]float64{2.0, 6.1, 8.7, 12.2, 16.1, 22.4}[i]) * um})
	}
	line, err := wear.ForecastLine(six)
	if err != nil {
		return err
	}
	reach, err := line.Reach(30*um, 0.95, 0)
	if err != nil {
		return err
	}
	var slid []wear.MeasuredDepth
	for i, cycles := range []unit.Time{2, 5, 10, 20, 50, 100, 200, 500} {
		slid = append(slid, wear.MeasuredDepth{Clock: cycles, Depth: unit.Length([]float64{3.168, 4.063, 4.453, 4.744, 5.838, 6.786, 7.737, 9.593}[i]) * um})
	}
	power, err := wear.FitPower(slid)
	if err != nil {
		return err
	}
	straight, err := wear.ForecastLine(slid)
	if err != nil {
		return err
	}
	further, _ := straight.At(1000)
	level, err := wear.WorthOfRebuild(wear.Rebuild{LossPerMicrometre: wear.Sure(1), Depth: 1 * um, RateAfter: wear.Sure(1), Interest: wear.Sure(0.05), Years: 10}, 100, 1)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-at", "fieller-at", float64(reach.At/year)),
		notebook.CheckRow("check-low", "fieller-low", float64(reach.Low/year)),
		notebook.CheckRow("check-high", "fieller-high", float64(reach.High/year)),
		notebook.CheckRow("check-power", "sliding-power", float64(power.At(1000)/um)),
		notebook.CheckRow("check-straight", "sliding-line", float64(further/um)),
		notebook.CheckRow("check-annuity", "annuity", level.MostToPay),
	)
	return nil
}
