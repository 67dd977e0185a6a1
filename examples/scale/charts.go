package scale

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
)

// trendChart sets the runs' efficiencies against pH, with the line and its band.
func (a answer) trendChart() (notebook.Chart, error) {
	var series []plot.Series
	low, high := 4.0, 4.0
	for i, use := range []string{useTrend, useBefore, useAfter} {
		s := plot.Series{Label: []string{"other runs", "before", "after"}[i], Style: plot.Dots}
		for _, r := range a.runs {
			if r.used() && r.Use == use {
				s.X, s.Y, s.U = append(s.X, r.PH), append(s.Y, r.Efficiency), append(s.U, r.U)
				low, high = math.Min(low, r.PH), math.Max(high, r.PH)
			}
		}
		if len(s.X) > 0 {
			series = append(series, s)
		}
	}
	if a.noTrend == "" {
		const points = 31
		line := plot.Series{Label: "line", Style: plot.Curve}
		band := plot.Series{Label: "within 2 u", Style: plot.Band}
		for i := range points {
			ph := low + (high-low)*float64(i)/(points-1)
			e, u := a.trend.At(ph)
			line.X, line.Y = append(line.X, ph), append(line.Y, e)
			band.X, band.Low, band.High = append(band.X, ph), append(band.Low, e-2*u), append(band.High, e+2*u)
		}
		series = append(series, line, band)
	}
	if len(series) == 0 { // every run is left out or impossible
		series = []plot.Series{{Label: "nothing left", Style: plot.Dots, X: []float64{a.in.PH}, Y: []float64{0}}}
	}
	return plot.XY{
		Name: "trend-chart", Title: "Efficiency against pH",
		Caption: notebook.Plain("Bars are one standard uncertainty: short for large loads, long for single coupons. The line gives each run the weight that its bar deserves."),
		X:       plot.Axis{Label: "pH", Show: notebook.Numbers},
		Y:       plot.Axis{Label: "Efficiency", Show: notebook.Percents},
		Series:  series,
	}.Chart()
}

// needChart sets the scale's share of the uncertainty against the gain.
func (a answer) needChart() (notebook.Chart, error) {
	u := float64(a.in.scale().GainU())
	lo, hi := float64(a.need.couponGain), float64(a.need.gain)
	var runs plot.Series
	runs.Label, runs.Style = "runs", plot.Dots
	for _, r := range a.runs {
		if r.used() && r.Gain > 0 {
			runs.X, runs.Y = append(runs.X, float64(r.Gain)), append(runs.Y, float64(r.GainU/r.Gain))
			lo, hi = math.Min(lo, float64(r.Gain)), math.Max(hi, float64(r.Gain))
		}
	}
	curve := plot.Series{Label: "scale alone", Style: plot.Curve}
	const points = 61
	for i := range points {
		g := lo / 2 * math.Pow(4*hi/lo, float64(i)/(points-1))
		curve.X, curve.Y = append(curve.X, g), append(curve.Y, u/g)
	}
	series := []plot.Series{curve}
	if len(runs.X) > 0 {
		series = append(series, runs)
	}
	return plot.XY{
		Name: "need-chart", Title: "What a gain is worth",
		Caption: notebook.Say("The scale's standard uncertainty of {} over the gain. Below the line the change can be seen; it takes a gain of {} or more.",
			notebook.Exact(u, notebook.Masses).WithDigits(1), notebook.Exact(a.need.gain, notebook.Masses).WithDigits(2)),
		X:      plot.Axis{Label: "Gain of the load", Show: notebook.Masses, Log: true},
		Y:      plot.Axis{Label: "Scale's share", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series: series,
		Limits: []plot.Limit{{Label: "needed", Y: a.need.allowed}},
	}.Chart()
}
