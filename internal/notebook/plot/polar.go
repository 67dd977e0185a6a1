package plot

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"

	"example.org/thouspan/internal/notebook"
)

// Polar is a chart of values around a circle: angle 0 points right and angles
// grow anticlockwise, as a sweep is seen from above.
type Polar struct {
	Name, Title string
	Caption     notebook.Text
	// Angle says what the angle is called; its unit is degrees.
	Angle string
	// Radius is what grows outward. The centre is the axis's least value, which
	// may be below zero; the zero circle is then drawn.
	Radius Axis
	// Series hold the angle in radians in X and the value in Y. Bands are not
	// drawn in a circle.
	Series []Series
	// Limits are drawn as circles.
	Limits []Limit
	// Height is in CSS pixels; zero suits most charts.
	Height int
}

// polarHeight leaves the circle large enough to read on a telephone.
const polarHeight = 380

// Chart returns the chart. The errors are those of [XY].
func (c Polar) Chart() (notebook.Chart, error) {
	a := about{c.Name, c.Title, c.Caption, c.Height}
	flat := c.flat()
	if err := c.check(a, flat); err != nil {
		return notebook.Chart{}, a.fail(err)
	}
	entries := flat.entries()
	for _, limit := range c.Limits {
		entries = append(entries, entry{name: limit.Label, bare: true})
	}
	option := func(system notebook.System) (json.RawMessage, error) { return c.option(a, flat, system, entries) }
	angle, radius := flat.scales(notebook.Metric)
	return a.figure(polarHeight+legendRows(entries)*legendRow, option, flat.table(angle, radius)), nil
}

// flat returns the same data as an XY chart: its checks and its table serve
// here too.
func (c Polar) flat() XY {
	angle := Axis{Label: c.Angle, Show: notebook.Angles, Range: notebook.Between(0, 2*math.Pi)}
	return XY{Name: c.Name, Title: c.Title, Caption: c.Caption, X: angle, Y: c.Radius, Series: c.Series, Limits: c.Limits, round: true}
}

func (c Polar) check(a about, flat XY) error {
	if c.Radius.Log || c.Radius.Dates {
		return fmt.Errorf("the radius of a polar chart is neither logarithmic nor of dates")
	}
	for i, s := range c.Series {
		if s.Style == Band {
			return fmt.Errorf("series %d (%q): a polar chart draws no bands", i+1, s.Label)
		}
	}
	return flat.check(a)
}

func (c Polar) option(a about, flat XY, system notebook.System, entries []entry) (json.RawMessage, error) {
	angle, radius := flat.scales(system)
	metricAngle, metricRadius := flat.scales(notebook.Metric)
	d := &drawing{line: charts.NewLine(), x: angle, y: radius, metricX: metricAngle, metricY: metricRadius, polar: true}
	if radius.min < 0 && radius.max > 0 {
		d.circle("", 0, "solid", 1)
	}
	for i, s := range c.Series {
		d.bars(s, lookOf(i))
	}
	for i, s := range c.Series {
		d.points(s, lookOf(i))
	}
	for _, limit := range c.Limits {
		d.circle(limit.Label, radius.value(limit.Y), "dashed", 1.5)
	}
	rows := legendRows(entries)
	d.line.SetGlobalOptions(frame(a, system, entries)...)
	d.line.SetGlobalOptions(charts.WithTitleOpts(opts.Title{Title: "Outward: " + c.Radius.nameIn(system), Left: "0", Top: fmt.Sprint(rows * legendRow),
		TitleStyle: &opts.TextStyle{Color: ink, FontSize: nameSize, FontWeight: "normal"}}),
		charts.WithPolarOps(opts.Polar{Center: []string{"50%", "56%"}, Radius: []string{"0%", "68%"}}),
		charts.WithAngleAxisOps(opts.AngleAxis{PolarAxisBase: opts.PolarAxisBase{Type: "value", Max: 360, Interval: 45}, Clockwise: opts.Bool(false)}),
		charts.WithRadiusAxisOps(opts.RadiusAxis{PolarAxisBase: opts.PolarAxisBase{Type: "value"}}))
	return optionJSON(d.line, sharedMore(), polarMore(radius), tree{"series": d.more})
}

// polarMore gives the polar axes their ends, of which go-echarts drops every
// zero, and their look, for which it has no fields.
func polarMore(radius scale) tree {
	line := tree{"show": true, "lineStyle": tree{"color": faint, "width": 1}}
	rings := tree{"show": true, "lineStyle": tree{"color": grid, "width": 1}}
	label := func(format types.FuncStr) tree {
		more := tree{"show": true, "color": faint, "fontSize": textSize, "backgroundColor": paper}
		if format != "" {
			more["formatter"] = format
		}
		return more
	}
	return tree{
		"angleAxis": tree{"min": 0, "startAngle": 0, "axisLine": line, "splitLine": rings,
			"axisTick": tree{"show": false}, "axisLabel": label("{value}°")},
		"radiusAxis": tree{"min": radius.min, "max": radius.max, "interval": radius.step, "axisLine": line,
			"splitLine": rings, "axisTick": tree{"show": true}, "axisLabel": label(axisLabel(radius).Formatter)},
	}
}

// circle draws a level, in the unit shown, all the way round.
func (d *drawing) circle(name string, level float64, dash string, width float32) {
	var data []opts.LineData
	for angle := 0; angle <= 360; angle += 5 {
		data = append(data, opts.LineData{Value: [2]any{level, angle}})
	}
	d.addLine(name, data, tree{"silent": true, "z": 2, "tooltip": tree{"show": false}},
		charts.WithLineChartOpts(opts.LineChart{Symbol: "none"}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: ink}),
		charts.WithLineStyleOpts(opts.LineStyle{Color: ink, Width: width, Type: dash}))
}
