package plot

// The pieces of an XY chart as series of ECharts. Uncertainty bars are short
// lines with gaps between them, and a band is one outline that runs along its
// lower edge and back along its upper one, so that neither needs a function.

import (
	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// drawing gathers the series of one chart in one system of units.
type drawing struct {
	line             *charts.Line
	x, y             scale
	metricX, metricY scale
	// polar drawings take X as the angle and Y as the radius.
	polar bool
	// more holds, for each series, what go-echarts has no field for.
	more []tree
}

// gap breaks a line: ECharts skips a point without numbers.
var gap = opts.LineData{Value: [2]any{nil, nil}}

func (d *drawing) addLine(name string, data []opts.LineData, more tree, options ...charts.SeriesOpts) {
	d.line.AddSeries(name, data, options...)
	if d.polar {
		more["coordinateSystem"] = "polar"
	}
	d.more = append(d.more, more)
}

func (d *drawing) at(x, y float64) opts.LineData {
	return d.place(d.x.value(x), d.y.value(y))
}

// place returns the point at x and y in the units shown.
func (d *drawing) place(x, y float64) opts.LineData {
	if d.polar {
		x, y = y, x
	}
	return opts.LineData{Value: [2]any{x, y}}
}

// band fills between the edges of a band.
func (d *drawing) band(s Series, l look) {
	var outline []opts.LineData
	for i := range s.X {
		outline = append(outline, d.at(s.X[i], s.Low[i]))
	}
	for i := len(s.X) - 1; i >= 0; i-- {
		outline = append(outline, d.at(s.X[i], s.High[i]))
	}
	d.addLine(s.Label, outline, tree{"silent": true, "z": 1, "tooltip": tree{"show": false}},
		charts.WithLineChartOpts(opts.LineChart{Symbol: "none"}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: l.colour, Opacity: opts.Float(0.2)}),
		charts.WithLineStyleOpts(opts.LineStyle{Color: l.colour, Width: 1, Opacity: opts.Float(0.5)}),
		charts.WithAreaStyleOpts(opts.AreaStyle{Color: l.colour, Opacity: opts.Float(0.2)}))
}

// bars draws one standard uncertainty either way of each point, with caps.
func (d *drawing) bars(s Series, l look) {
	if len(s.U) == 0 {
		return
	}
	reach := (d.x.max - d.x.min) * 0.008
	var strokes []opts.LineData
	for i, u := range s.U {
		if u == 0 {
			continue
		}
		low, high := d.y.value(s.Y[i]-u), d.y.value(s.Y[i]+u)
		if d.y.axis.Log && s.Y[i] <= u {
			low = d.y.min
		}
		strokes = append(strokes, d.barStroke(d.x.value(s.X[i]), low, high, reach)...)
	}
	d.addLine(s.Label, strokes, tree{"silent": true, "z": 2, "tooltip": tree{"show": false}},
		charts.WithLineChartOpts(opts.LineChart{Symbol: "none", ConnectNulls: opts.Bool(false)}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: l.colour}),
		charts.WithLineStyleOpts(opts.LineStyle{Color: l.colour, Width: 1.5, Type: "solid"}))
}

// barStroke returns the upright and its two caps. In a circle and on a
// logarithmic x axis the caps are left out: their width has no meaning there.
func (d *drawing) barStroke(x, low, high, reach float64) []opts.LineData {
	upright := []opts.LineData{d.place(x, low), d.place(x, high), gap}
	if d.polar || d.x.axis.Log {
		return upright
	}
	left, right := d.x.round(x-reach), d.x.round(x+reach)
	return append(upright, d.place(left, low), d.place(right, low), gap, d.place(left, high), d.place(right, high), gap)
}

// points draws a series' symbols or line.
func (d *drawing) points(s Series, l look) {
	switch s.Style {
	case Dots:
		d.symbols(s, l, l.symbol, 10, 0)
	case AtLeast:
		d.symbols(s, l, arrow, []int{9, 18}, 0)
	case AtMost:
		d.symbols(s, l, arrow, []int{9, 18}, 180)
	case Line, Curve:
		d.joined(s, l)
	}
}

// words says what one point is, for its tooltip.
func (d *drawing) words(s Series, i int) string {
	u := 0.0
	if len(s.U) > 0 {
		u = s.U[i]
	}
	return d.x.words(s.X[i], 0, d.metricX) + ": " + d.y.words(s.Y[i], u, d.metricY)
}

func (d *drawing) symbols(s Series, l look, symbol string, size any, turn int) {
	var data []opts.ScatterData
	for i := range s.X {
		data = append(data, opts.ScatterData{Name: d.words(s, i), Value: d.at(s.X[i], s.Y[i]).Value})
	}
	scatter := charts.NewScatter()
	scatter.AddSeries(s.Label, data,
		charts.WithScatterChartOpts(opts.ScatterChart{Symbol: symbol, SymbolSize: size}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: l.colour, Opacity: opts.Float(1)}))
	d.line.Overlap(scatter)
	more := tree{"z": 4}
	if d.polar {
		more["coordinateSystem"] = "polar"
	}
	if symbol == arrow {
		more["symbolRotate"] = turn
		more["symbolOffset"] = []any{0, map[int]string{0: "-50%", 180: "50%"}[turn]}
	}
	d.more = append(d.more, more)
}

func (d *drawing) joined(s Series, l look) {
	broken := map[int]bool{}
	for _, i := range s.Gaps {
		broken[i] = true
	}
	var data []opts.LineData
	for i := range s.X {
		point := d.at(s.X[i], s.Y[i])
		if s.Style == Line {
			point.Name = d.words(s, i)
		}
		data = append(data, point)
		if broken[i] {
			data = append(data, gap)
		}
	}
	symbol, size := "none", 0
	if s.Style == Line {
		symbol, size = l.symbol, 8
	}
	d.addLine(s.Label, data, tree{"z": 3, "lineStyle": tree{"type": l.dash}},
		charts.WithLineChartOpts(opts.LineChart{Symbol: symbol, SymbolSize: size,
			ShowSymbol: opts.Bool(s.Style == Line), ConnectNulls: opts.Bool(false)}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: l.colour}),
		charts.WithLineStyleOpts(opts.LineStyle{Color: l.colour, Width: 2}))
}

// across draws a limit or a mark, as a series without points of its own. Its
// words stand along the line at the given end, clear of what lies below them
// by a rim in the colour of the paper.
func (d *drawing) across(name, end string, place charts.SeriesOpts) {
	rim := tree{"distance": 4, "textBorderColor": paper, "textBorderWidth": 4}
	d.addLine(name, []opts.LineData{}, tree{"silent": true, "z": 3,
		"markLine": tree{"silent": true, "animation": false, "label": rim}},
		charts.WithItemStyleOpts(opts.ItemStyle{Color: ink}),
		place,
		charts.WithMarkLineStyleOpts(opts.MarkLineStyle{Symbol: []string{"none", "none"},
			LineStyle: &opts.LineStyle{Color: ink, Width: 1.5, Type: "dashed"},
			Label: &opts.Label{Show: opts.Bool(true), Formatter: "{b}", Position: end,
				Color: ink, FontSize: textSize}}))
}

// The ends of a line at which its words may stand.
const (
	lineEnd   = "insideEndTop"
	lineStart = "insideStartTop"
)

// quietEnd returns the end of a level line at which less is drawn just above
// it, where its words stand.
func (c XY) quietEnd(level float64, x, y scale) string {
	reach, high := (x.max-x.min)*0.4, (y.max-y.min)*0.15
	above := func(v float64) bool { return v > y.value(level)-high/3 && v < y.value(level)+high }
	left, right := 0, 0
	for _, s := range c.Series {
		for _, list := range s.lists() {
			for i, v := range list {
				at := x.value(s.X[i])
				if above(y.value(v)) && at < x.min+reach {
					left++
				}
				if above(y.value(v)) && at > x.max-reach {
					right++
				}
			}
		}
	}
	if left < right {
		return lineStart
	}
	return lineEnd
}
