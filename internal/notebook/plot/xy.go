package plot

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"example.org/thouspan/internal/notebook"
)

// Style says how a series is drawn.
type Style string

// The styles of a series.
const (
	// Dots draws a symbol at each point: readings.
	Dots Style = "dots"
	// Line joins the points and draws a symbol at each: a run of readings.
	Line Style = "line"
	// Curve joins the points without symbols: a model.
	Curve Style = "curve"
	// Band fills between Low and High: an interval about a curve.
	Band Style = "band"
	// AtLeast draws an arrow up at each point: the value is there or above.
	AtLeast Style = "at least"
	// AtMost draws an arrow down at each point: the value is there or below.
	AtMost Style = "at most"
)

// Series is one set of points, in SI.
type Series struct {
	// Label names the series in the legend and in the table.
	Label string
	Style Style
	// X holds the points' places, as long as Y, or as Low and High for a Band.
	X []float64
	// Y holds the values; not for a Band.
	Y []float64
	// U, when given, holds the standard uncertainties of Y, drawn as bars of
	// one standard uncertainty either way. Not for a Band.
	U []float64
	// Low and High are the edges of a Band.
	Low, High []float64
	// Gaps lists the indices of points after which the line is broken; only
	// for Line and Curve.
	Gaps []int
}

// Limit is a level line across the chart: a tolerance.
type Limit struct {
	Label string
	// Y is the level in SI.
	Y float64
}

// Mark is an upright line across the chart: the day on which something changed.
type Mark struct {
	Label string
	// X is its place in SI.
	X float64
}

// XY is a chart of series over a common pair of axes.
type XY struct {
	Name, Title string
	Caption     notebook.Text
	X, Y        Axis
	Series      []Series
	Limits      []Limit
	Marks       []Mark
	// Height is in CSS pixels; zero suits most charts.
	Height int

	round bool // drawn in a circle
}

// Chart returns the chart. The error names the series and the point at which a
// value is not finite, or says which list is empty, too long or of another
// length.
func (c XY) Chart() (notebook.Chart, error) {
	a := about{c.Name, c.Title, c.Caption, c.Height}
	if err := c.check(a); err != nil {
		return notebook.Chart{}, a.fail(err)
	}
	entries := c.entries()
	option := func(system notebook.System) (json.RawMessage, error) { return c.option(a, system, entries) }
	x, y := c.scales(notebook.Metric)
	height := plainHeight + max(0, legendRows(entries)-1)*legendRow
	return a.figure(height, option, c.table(x, y)), nil
}

func (c XY) check(a about) error {
	if err := a.check(); err != nil {
		return err
	}
	if c.Y.Dates {
		return fmt.Errorf("only the X axis can be of dates")
	}
	for _, axis := range []Axis{c.X, c.Y} {
		if err := axis.checkSelf(); err != nil {
			return err
		}
	}
	if len(c.Series) == 0 || len(c.Series) > maxSeries {
		return fmt.Errorf("it has %d series; it takes 1 to %d", len(c.Series), maxSeries)
	}
	for i, s := range c.Series {
		if err := s.check(c.X, c.Y); err != nil {
			return fmt.Errorf("series %d (%q): %w", i+1, s.Label, err)
		}
	}
	return c.checkLines()
}

func (c XY) checkLines() error {
	for _, limit := range c.Limits {
		if err := c.Y.check(limit.Y); err != nil {
			return fmt.Errorf("limit %q: %w", limit.Label, err)
		}
	}
	for _, mark := range c.Marks {
		if err := c.X.check(mark.X); err != nil {
			return fmt.Errorf("mark %q: %w", mark.Label, err)
		}
	}
	return nil
}

// lists returns the series' lists of values along Y.
func (s Series) lists() [][]float64 {
	if s.Style == Band {
		return [][]float64{s.Low, s.High}
	}
	return [][]float64{s.Y}
}

func (s Series) check(x, y Axis) error {
	switch s.Style {
	case Dots, Line, Curve, AtLeast, AtMost:
	case Band:
		if len(s.Y) > 0 || len(s.U) > 0 {
			return fmt.Errorf("a band takes Low and High, not Y and U")
		}
	default:
		return fmt.Errorf("%q is not a style", s.Style)
	}
	if strings.TrimSpace(s.Label) == "" {
		return fmt.Errorf("it has no label")
	}
	if len(s.X) == 0 {
		return fmt.Errorf("it has no points")
	}
	if len(s.X) > MaxPoints {
		return fmt.Errorf("it has %d points; the most is %d", len(s.X), MaxPoints)
	}
	if err := checkValues(x, s.X, len(s.X)); err != nil {
		return err
	}
	for _, list := range s.lists() {
		if err := checkValues(y, list, len(s.X)); err != nil {
			return err
		}
	}
	return checkUncertainties(s.U, len(s.X))
}

// checkValues returns the first thing wrong with a list of n values.
func checkValues(axis Axis, values []float64, n int) error {
	if len(values) != n {
		return fmt.Errorf("it has %d places and %d values of %s", n, len(values), axis.Label)
	}
	for i, v := range values {
		if err := axis.check(v); err != nil {
			return fmt.Errorf("point %d: %w", i+1, err)
		}
	}
	return nil
}

func checkUncertainties(u []float64, n int) error {
	if len(u) != 0 && len(u) != n {
		return fmt.Errorf("it has %d values and %d standard uncertainties", n, len(u))
	}
	for i, v := range u {
		if !(v >= 0 && v <= largest) {
			return fmt.Errorf("point %d: its standard uncertainty is %g, which is not finite and not negative", i+1, v)
		}
	}
	return nil
}

// scales returns both axes in one system of units, wide enough for everything
// that is drawn.
func (c XY) scales(system notebook.System) (x, y scale) {
	var xs, ys span
	for _, s := range c.Series {
		xs.add(s.X...)
		for _, list := range s.lists() {
			ys.add(list...)
		}
		for i, u := range s.U {
			if ys.add(s.Y[i] + u); !c.Y.Log || s.Y[i] > u {
				ys.add(s.Y[i] - u)
			}
		}
	}
	for _, limit := range c.Limits {
		ys.add(limit.Y)
	}
	for _, mark := range c.Marks {
		xs.add(mark.X)
	}
	var places []float64
	for _, s := range c.Series {
		places = append(places, s.X...)
	}
	return c.X.scaleFor(system, xs, 6).as(places), c.Y.scaleFor(system, ys, c.steps())
}

// steps is about how many steps the Y axis has.
func (c XY) steps() int {
	if c.round {
		return 3 // the radius is only half as long
	}
	return 5
}

// entries returns the legend's names.
func (c XY) entries() []entry {
	var entries []entry
	for i, s := range c.Series {
		e := entry{name: s.Label}
		switch s.Style {
		case Band:
			e.icon = "rect"
		case Curve:
			e.bare = true
		case Dots:
			e.icon = icons[lookOf(i).symbol]
		case AtLeast, AtMost:
			e.icon = arrow
		}
		entries = append(entries, e)
	}
	return entries
}

// icons are the symbols as the legend draws them: as paths, for it stretches its
// own to the length of a line.
var icons = map[string]string{
	"circle":      "path://M0 5A5 5 0 1 0 10 5A5 5 0 1 0 0 5Z",
	"rect":        "path://M0 0L10 0L10 10L0 10Z",
	"triangle":    "path://M5 0L10 10L0 10Z",
	"diamond":     "path://M5 0L10 5L5 10L0 5Z",
	"emptyCircle": "path://M0 5A5 5 0 1 0 10 5A5 5 0 1 0 0 5ZM2 5A3 3 0 1 1 8 5A3 3 0 1 1 2 5Z",
	"emptyRect":   "path://M0 0L10 0L10 10L0 10ZM2 2L2 8L8 8L8 2Z",
}

const arrow = "path://M5 0 L10 8 L6 8 L6 20 L4 20 L4 8 L0 8 Z"

// option returns the chart's option in one system of units.
func (c XY) option(a about, system notebook.System, entries []entry) (json.RawMessage, error) {
	d := c.draw(system)
	d.line.SetGlobalOptions(frame(a, system, entries)...)
	d.line.SetGlobalOptions(room(legendRows(entries)),
		charts.WithXAxisOpts(acrossOption(d.x)), charts.WithYAxisOpts(upOption(d.y)))
	more := tree{"series": d.more, "xAxis": []tree{axisMore(d.x, false)}, "yAxis": []tree{axisMore(d.y, true)}}
	if c.X.Dates {
		more["useUTC"] = true
	}
	return optionJSON(d.line, sharedMore(), more)
}

// draw returns every series and line in one system of units.
func (c XY) draw(system notebook.System) *drawing {
	x, y := c.scales(system)
	metricX, metricY := c.scales(notebook.Metric)
	d := &drawing{line: charts.NewLine(), x: x, y: y, metricX: metricX, metricY: metricY}
	for i, s := range c.Series {
		if s.Style == Band {
			d.band(s, lookOf(i))
		}
	}
	for i, s := range c.Series {
		d.bars(s, lookOf(i))
	}
	for i, s := range c.Series {
		d.points(s, lookOf(i))
	}
	for _, limit := range c.Limits {
		words := limit.Label + " " + y.level(limit.Y)
		d.across(words, c.quietEnd(limit.Y, x, y), charts.WithMarkLineNameYAxisItemOpts(opts.MarkLineNameYAxisItem{Name: words, YAxis: y.value(limit.Y)}))
	}
	for _, mark := range c.Marks {
		d.across(mark.Label, lineEnd, charts.WithMarkLineNameXAxisItemOpts(opts.MarkLineNameXAxisItem{Name: mark.Label, XAxis: x.value(mark.X)}))
	}
	return d
}
