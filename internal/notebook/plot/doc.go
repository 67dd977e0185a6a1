// Package plot builds the charts of the lessons in one look.
//
// A lesson describes a chart once, with values in SI: an [XY], a [Polar], a
// [Bars] or a [Strip]. Its Chart method returns the [notebook.Chart] with the
// ECharts options in metric and in inch units, made with go-echarts, and with
// the table of the chart's data.
//
//	chart, err := plot.XY{
//		Name: "fit", Title: "Once round the clock",
//		Caption: notebook.Say("The best curve leaves {} at the most.", worst),
//		X: plot.Axis{Label: "Azimuth", Show: notebook.Angles, Range: notebook.Between(0, 2*math.Pi)},
//		Y: plot.Axis{Label: "Reading", Show: notebook.FineLengths},
//		Series: []plot.Series{
//			{Label: "readings", Style: plot.Dots, X: azimuth, Y: reading, U: u},
//			{Label: "best curve", Style: plot.Curve, X: fineAzimuth, Y: fitted},
//		},
//		Limits: []plot.Limit{{Label: "tolerance", Y: 20e-6}},
//	}.Chart()
//
// What holds for every chart:
//
//   - Options hold no functions and no NaN. A value that is not finite, a series
//     that is empty or longer than [MaxPoints], and lists of unequal length are
//     errors that name the series and the point.
//   - Axes end on round numbers and step in round numbers of the unit shown, in
//     either system, so that no tick reads 4.330709.
//   - Colours are the tokens of [Tokens] and nothing else: whoever shows the
//     chart puts the page's colours in their place.
//   - No series is told by colour alone: each has its own symbol, dash or
//     pattern.
//   - Text is at least 12 px and lies clear at a width of 340 px, the inside of a
//     telephone's screen.
//   - Equal descriptions give equal bytes.
//
// The package compiles to WebAssembly. It never calls a Render function of
// go-echarts: those bring templates and random numbers.
package plot
