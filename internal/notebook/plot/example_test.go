package plot_test

import (
	"fmt"
	"math"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
)

// Readings with their uncertainties, the curve that fits them, and a tolerance.
func ExampleXY() {
	readings := plot.Series{Label: "readings", Style: plot.Dots}
	curve := plot.Series{Label: "best curve", Style: plot.Curve}
	for i := range 4 {
		azimuth := float64(i) * math.Pi / 2
		readings.X = append(readings.X, azimuth)
		readings.Y = append(readings.Y, 20e-6*math.Cos(azimuth)+1e-6)
		readings.U = append(readings.U, 2e-6)
	}
	for i := range 73 {
		azimuth := float64(i) * math.Pi / 36
		curve.X = append(curve.X, azimuth)
		curve.Y = append(curve.Y, 20e-6*math.Cos(azimuth))
	}
	chart, err := plot.XY{Name: "fit", Title: "Once round", Caption: notebook.Plain("A tilt is one wave a turn."),
		X:      plot.Axis{Label: "Azimuth", Show: notebook.Angles, Range: notebook.Between(0, 2*math.Pi)},
		Y:      plot.Axis{Label: "Reading", Show: notebook.FineLengths},
		Series: []plot.Series{readings, curve},
		Limits: []plot.Limit{{Label: "tolerance", Y: 25e-6}}}.Chart()
	if err != nil {
		fmt.Println(err)
		return
	}
	row := chart.Data.Rows[1]
	for _, system := range notebook.Systems() {
		text := row[0].Words + ", " + row[1].Quantity.In(system).String() + ": " + row[2].Quantity.In(system).Full()
		fmt.Println(strings.ReplaceAll(text, "\u00a0", " "))
	}
	// Output:
	// readings, 90°: 1.0 µm (u 2.0 µm)
	// readings, 90°: 0.04 thou (u 0.08 thou)
}

// A value that cannot be drawn is named.
func ExampleBars() {
	_, err := plot.Bars{Name: "by-date", What: "Date", Groups: []string{"2019", "2021"},
		Value:  plot.Axis{Label: "Side tilt", Show: notebook.Slopes},
		Series: []plot.BarSeries{{Label: "head", Values: []float64{60e-6, math.NaN()}}}}.Chart()
	fmt.Println(err)
	// Output: plot: chart "by-date": series 1 ("head"): point 2: Side tilt is NaN, which is not finite
}
