package plot

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"example.org/thouspan/internal/notebook"
)

// BarSeries is one set of bars, a bar a group.
type BarSeries struct {
	Label string
	// Values are in SI, as many as the chart has groups.
	Values []float64
	// U, when given, holds the standard uncertainties of the values, drawn as
	// bars of one standard uncertainty either way. Not in a stack.
	U []float64
}

// Bars is a chart of bars in groups, side by side or stacked.
type Bars struct {
	Name, Title string
	Caption     notebook.Text
	// What names what the groups are: "Date", "Run".
	What string
	// Groups are the names along the axis. Long names need Horizontal.
	Groups []string
	// Value is the axis of the bars' lengths; it always takes in zero.
	Value  Axis
	Series []BarSeries
	// Stacked sets the bars of a group one on the other, those below zero
	// downward.
	Stacked bool
	// Horizontal draws the bars from left to right, the first group on top.
	Horizontal bool
	Limits     []Limit
	// Height is in CSS pixels; zero suits most charts.
	Height int
}

// maxGroups is the most groups that can be named on a telephone.
const maxGroups = 60

// Chart returns the chart. The error names the series and the group at which a
// value is not finite, or says which list is empty or of another length.
func (c Bars) Chart() (notebook.Chart, error) {
	a := about{c.Name, c.Title, c.Caption, c.Height}
	if err := c.check(a); err != nil {
		return notebook.Chart{}, a.fail(err)
	}
	option := func(system notebook.System) (json.RawMessage, error) { return c.option(a, system) }
	return a.figure(c.height(), option, c.table()), nil
}

func (c Bars) height() int {
	rows := legendRows(c.entries())
	if !c.Horizontal {
		return plainHeight + max(0, rows-1)*legendRow
	}
	bars := len(c.Groups)
	if !c.Stacked {
		bars *= len(c.Series)
	}
	return max(220, rows*legendRow+100+18*bars+12*len(c.Groups))
}

func (c Bars) check(a about) error {
	if err := a.check(); err != nil {
		return err
	}
	if err := c.Value.checkSelf(); err != nil {
		return err
	}
	if c.Value.Log || c.Value.Dates {
		return fmt.Errorf("bars begin at zero, so their axis is neither logarithmic nor of dates")
	}
	if len(c.Groups) == 0 || len(c.Groups) > maxGroups {
		return fmt.Errorf("it has %d groups; it takes 1 to %d", len(c.Groups), maxGroups)
	}
	if len(c.Series) == 0 || len(c.Series) > maxSeries {
		return fmt.Errorf("it has %d series; it takes 1 to %d", len(c.Series), maxSeries)
	}
	for i, s := range c.Series {
		if err := c.checkSeries(s); err != nil {
			return fmt.Errorf("series %d (%q): %w", i+1, s.Label, err)
		}
	}
	for _, limit := range c.Limits {
		if err := c.Value.check(limit.Y); err != nil {
			return fmt.Errorf("limit %q: %w", limit.Label, err)
		}
	}
	return nil
}

func (c Bars) checkSeries(s BarSeries) error {
	if strings.TrimSpace(s.Label) == "" {
		return fmt.Errorf("it has no label")
	}
	if c.Stacked && len(s.U) > 0 {
		return fmt.Errorf("a stack shows no uncertainties")
	}
	if err := checkValues(c.Value, s.Values, len(c.Groups)); err != nil {
		return err
	}
	return checkUncertainties(s.U, len(c.Groups))
}

func (c Bars) entries() []entry {
	var entries []entry
	for _, s := range c.Series {
		entries = append(entries, entry{name: s.Label, icon: "rect"})
	}
	return entries
}

// scale returns the axis of the bars' lengths.
func (c Bars) scale(system notebook.System) scale {
	var s span
	s.add(0)
	for g := range c.Groups {
		above, below := 0.0, 0.0
		for _, series := range c.Series {
			v := series.Values[g]
			s.add(v)
			if len(series.U) > 0 {
				s.add(v-series.U[g], v+series.U[g])
			}
			above, below = above+max(v, 0), below+min(v, 0)
		}
		if c.Stacked {
			s.add(above, below)
		}
	}
	for _, limit := range c.Limits {
		s.add(limit.Y)
	}
	return c.Value.scaleFor(system, s, 5)
}

func (c Bars) option(a about, system notebook.System) (json.RawMessage, error) {
	value, metric := c.scale(system), c.scale(notebook.Metric)
	bar := charts.NewBar()
	var more []tree
	for i, s := range c.Series {
		bar.AddSeries(s.Label, c.barData(s, value, metric), c.barStyle(i)...)
		more = append(more, tree{"z": 2, "itemStyle": tree{"decal": pattern(i)}})
	}
	strokes := &drawing{line: charts.NewLine(), x: value, y: value}
	for i, s := range c.Series {
		c.strokes(strokes, s, i, value)
	}
	for _, limit := range c.Limits {
		c.limit(strokes, limit, value)
	}
	bar.Overlap(strokes.line)
	rows := legendRows(c.entries())
	bar.SetGlobalOptions(frame(a, system, c.entries())...)
	bar.SetGlobalOptions(room(rows))
	c.setAxes(bar, value)
	return optionJSON(bar, sharedMore(), c.axesMore(value), tree{"series": append(more, strokes.more...)})
}

func (c Bars) barData(s BarSeries, value, metric scale) []opts.BarData {
	var data []opts.BarData
	for g, v := range s.Values {
		u := 0.0
		if len(s.U) > 0 {
			u = s.U[g]
		}
		data = append(data, opts.BarData{Name: c.Groups[g] + ": " + value.words(v, u, metric), Value: value.value(v)})
	}
	return data
}

// The width of the groups: the share of a group's place that its bars fill, as
// barCategoryGap says the other way round.
const groupFill = 0.7

func (c Bars) barStyle(i int) []charts.SeriesOpts {
	option := opts.BarChart{BarGap: "0%", BarCategoryGap: "30%"}
	if c.Stacked {
		option.Stack = "all"
	}
	return []charts.SeriesOpts{charts.WithBarChartOpts(option),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: lookOf(i).colour, BorderColor: paper, BorderWidth: 1})}
}

// pattern returns the hatching by which a series' bars are told from others
// without their colour.
func pattern(i int) tree {
	p := tree{"color": paper, "symbol": "rect", "symbolSize": 1, "rotation": 0}
	switch i % len(looks) {
	case 0:
		return tree{"symbol": "none"}
	case 1: // rising strokes
		p["dashArrayX"], p["dashArrayY"], p["rotation"] = []int{1, 0}, []int{2, 5}, -0.7854
	case 2: // dots
		p["symbol"], p["symbolSize"] = "circle", 0.7
		p["dashArrayX"], p["dashArrayY"] = [][]int{{5, 5}, {0, 5, 5, 0}}, []int{5, 0}
	case 3: // falling strokes
		p["dashArrayX"], p["dashArrayY"], p["rotation"] = []int{1, 0}, []int{2, 5}, 0.7854
	case 4: // level strokes
		p["dashArrayX"], p["dashArrayY"] = []int{1, 0}, []int{2, 4}
	case 5: // upright strokes
		p["dashArrayX"], p["dashArrayY"], p["rotation"] = []int{1, 0}, []int{2, 4}, 1.5708
	}
	return p
}

// strokes draws the uncertainties of one series over its bars, on a hidden axis
// on which group g is the number g.
func (c Bars) strokes(d *drawing, s BarSeries, i int, value scale) {
	if len(s.U) == 0 {
		return
	}
	width := groupFill / float64(len(c.Series))
	offset := -groupFill/2 + (float64(i)+0.5)*width
	reach := min(0.06, width/4)
	var data []opts.LineData
	for g, u := range s.U {
		if u == 0 {
			continue
		}
		at := float64(g) + offset
		low, high := value.value(s.Values[g]-u), value.value(s.Values[g]+u)
		data = append(data, c.spot(at, low), c.spot(at, high), gap,
			c.spot(at-reach, low), c.spot(at+reach, low), gap, c.spot(at-reach, high), c.spot(at+reach, high), gap)
	}
	d.addLine(s.Label, data, c.onHidden(), charts.WithLineChartOpts(opts.LineChart{Symbol: "none"}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: lookOf(i).colour}),
		charts.WithLineStyleOpts(opts.LineStyle{Color: ink, Width: 1.5, Type: "solid"}))
}

// spot returns the point at a place along the groups and a value.
func (c Bars) spot(at, value float64) opts.LineData {
	at = significant(at, 6)
	if c.Horizontal {
		return opts.LineData{Value: [2]any{value, at}}
	}
	return opts.LineData{Value: [2]any{at, value}}
}

// onHidden puts a series on the hidden second axis.
func (c Bars) onHidden() tree {
	more := tree{"silent": true, "z": 4, "tooltip": tree{"show": false}}
	more[map[bool]string{true: "yAxisIndex", false: "xAxisIndex"}[c.Horizontal]] = 1
	return more
}

func (c Bars) limit(d *drawing, limit Limit, value scale) {
	words := limit.Label + " " + value.level(limit.Y)
	place := charts.WithMarkLineNameYAxisItemOpts(opts.MarkLineNameYAxisItem{Name: words, YAxis: value.value(limit.Y)})
	if c.Horizontal {
		place = charts.WithMarkLineNameXAxisItemOpts(opts.MarkLineNameXAxisItem{Name: words, XAxis: value.value(limit.Y)})
	}
	d.across(words, lineEnd, place)
	more := d.more[len(d.more)-1]
	lay(more, c.onHidden())
	if c.Horizontal { // above the plot, for the groups run downward
		lay(more, tree{"markLine": tree{"label": tree{"position": "start"}}})
	}
}

// setAxes sets the axis of the groups, the axis of the values, and the hidden
// axis beside that of the groups.
func (c Bars) setAxes(bar *charts.Bar, value scale) {
	bar.SetXAxis(c.Groups)
	if c.Horizontal {
		bar.SetXAxis(wrapped(c.Groups))
	}
	label := &opts.AxisLabel{Show: opts.Bool(true), Color: ink, FontSize: textSize}
	if c.Horizontal {
		bar.XYReversal()
		bar.ExtendYAxis(opts.YAxis{Type: "value", Show: opts.Bool(false), Inverse: opts.Bool(true), Min: -0.5, Max: float64(len(c.Groups)) - 0.5})
		bar.SetGlobalOptions(charts.WithXAxisOpts(acrossOption(value)),
			charts.WithYAxisOpts(opts.YAxis{Type: "category", Name: c.What, NameLocation: "start", NameGap: 12, Inverse: opts.Bool(true), AxisLabel: label, AxisLine: axisLine()}))
		return
	}
	bar.ExtendXAxis(opts.XAxis{Type: "value", Show: opts.Bool(false), Min: -0.5, Max: float64(len(c.Groups)) - 0.5})
	bar.SetGlobalOptions(charts.WithYAxisOpts(upOption(value)),
		charts.WithXAxisOpts(opts.XAxis{Type: "category", Name: c.What, NameLocation: "middle", NameGap: 30, AxisLabel: label, AxisLine: axisLine()}))
}

// wrapped breaks names into lines that leave room for the bars.
func wrapped(names []string) []string {
	lines := make([]string, len(names))
	for i, name := range names {
		lines[i] = wrap(name, 13)
	}
	return lines
}

// axesMore is what go-echarts has no field for on the two axes. Every group is
// named; names too long to stand side by side on a telephone are turned.
func (c Bars) axesMore(value scale) tree {
	names := tree{"nameTextStyle": tree{"color": ink, "fontSize": nameSize}, "axisLabel": tree{"interval": 0},
		"axisTick": tree{"show": true, "alignWithLabel": true}}
	letters := 0
	for _, g := range c.Groups {
		letters = max(letters, len([]rune(g)))
	}
	if c.Horizontal {
		names["nameTextStyle"].(tree)["align"] = "left"
		return tree{"yAxis": []tree{names}, "xAxis": []tree{axisMore(value, false)}}
	}
	if float64(letters*len(c.Groups))*letterWidth > narrow-60 {
		names["axisLabel"] = tree{"interval": 0, "rotate": 60}
		names["nameLocation"], names["nameGap"] = "middle", 12+int(6*float64(min(letters, 14)))
	}
	return tree{"xAxis": []tree{names}, "yAxis": []tree{axisMore(value, true)}}
}

// table returns the bars' values, a row a group.
func (c Bars) table() notebook.Table {
	what := c.What
	if what == "" {
		what = "Group"
	}
	metric := c.scale(notebook.Metric)
	table := notebook.Table{Columns: []notebook.Column{notebook.Col(what)}}
	for _, s := range c.Series {
		table.Columns = append(table.Columns, c.Value.column(s.Label))
	}
	for g, name := range c.Groups {
		row := []notebook.Cell{notebook.Str(name)}
		for _, s := range c.Series {
			u := 0.0
			if len(s.U) > 0 {
				u = s.U[g]
			}
			row = append(row, c.Value.cell(s.Values[g], u, metric))
		}
		table.Rows = append(table.Rows, row)
	}
	for _, limit := range c.Limits {
		table.Note = table.Note.And(notebook.Plain(limit.Label + ":")).And(notebook.Say("{}.", c.Value.quantity(limit.Y, 0, metric)))
	}
	return table
}
