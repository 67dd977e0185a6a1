package plot

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"example.org/thouspan/internal/notebook"
)

// Strip is a map of cells coloured by their value: one row for a heat strip,
// several for a plate. Values on both sides of zero go from one colour through
// a level one to another; values on one side go from level to dark.
type Strip struct {
	Name, Title string
	Caption     notebook.Text
	// X is the axis along the cells; Xs are the cells' middles in SI.
	X  Axis
	Xs []float64
	// Y is the axis across the rows; Ys are the rows' middles in SI, lowest
	// row first. When Rows is given, the rows are named and Ys is not used.
	Y    Axis
	Ys   []float64
	Rows []string
	// Value says what the colour means; Values holds a row of cells for each
	// row. A cell that is NaN is left blank: nothing is known there.
	Value  Axis
	Values [][]float64
	// Height is in CSS pixels; zero suits most charts.
	Height int
}

// maxCells is the most cells that a strip may have.
const maxCells = 4000

// Chart returns the chart. The error says which list is empty, too long or of
// another length, or which cell is infinite.
func (c Strip) Chart() (notebook.Chart, error) {
	a := about{c.Name, c.Title, c.Caption, c.Height}
	if err := c.check(a); err != nil {
		return notebook.Chart{}, a.fail(err)
	}
	option := func(system notebook.System) (json.RawMessage, error) { return c.option(a, system) }
	return a.figure(c.height(), option, c.table()), nil
}

func (c Strip) height() int {
	return min(420, 110+c.keyRows()*legendRow+34*c.rows())
}

// key returns the key of the colours, which is the chart's legend: ECharts'
// own key of colours runs out of a telephone's screen in one line.
func (c Strip) key(value scale) []entry {
	var entries []entry
	for _, p := range c.pieces(value) {
		entries = append(entries, entry{name: p.words(value), icon: "rect"})
	}
	return entries
}

// keyRows returns how many rows the key takes on a small telephone, whichever
// the system of units.
func (c Strip) keyRows() int {
	rows := 1
	for _, system := range notebook.Systems() {
		rows = max(rows, legendRows(c.key(c.scale(system))))
	}
	return rows
}

func (c Strip) rows() int { return len(c.Values) }

func (c Strip) check(a about) error {
	if err := a.check(); err != nil {
		return err
	}
	if err := c.checkAxes(); err != nil {
		return err
	}
	known := 0
	for r, row := range c.Values {
		if len(row) != len(c.Xs) {
			return fmt.Errorf("row %d has %d cells for %d places", r+1, len(row), len(c.Xs))
		}
		for i, v := range row {
			if math.IsInf(v, 0) {
				return fmt.Errorf("row %d, cell %d: %s is %g, which is not finite", r+1, i+1, c.Value.Label, v)
			}
			if !math.IsNaN(v) {
				known++
			}
		}
	}
	if known == 0 {
		return fmt.Errorf("none of its cells has a value")
	}
	if cells := c.rows() * len(c.Xs); cells > maxCells {
		return fmt.Errorf("it has %d cells; the most is %d", cells, maxCells)
	}
	return nil
}

func (c Strip) checkAxes() error {
	axes := []Axis{c.X, c.Value}
	names := len(c.Rows)
	if c.Rows == nil {
		axes, names = append(axes, c.Y), len(c.Ys)
	}
	for _, axis := range axes {
		if axis.Log || axis.Dates {
			return fmt.Errorf("the axes of a strip are neither logarithmic nor of dates")
		}
		if err := axis.checkSelf(); err != nil {
			return err
		}
	}
	if len(c.Xs) == 0 || c.rows() == 0 {
		return fmt.Errorf("it has no cells")
	}
	if names != c.rows() {
		return fmt.Errorf("it has %d rows of cells and %d names of rows", c.rows(), names)
	}
	if err := checkValues(c.X, c.Xs, len(c.Xs)); err != nil {
		return err
	}
	if c.Rows == nil {
		return checkValues(c.Y, c.Ys, len(c.Ys))
	}
	return nil
}

// places returns the middles as words without their unit.
func places(axis Axis, values []float64, system notebook.System) []string {
	unit := axis.unitOf(system)
	shown := make([]float64, len(values))
	for i, v := range values {
		shown[i] = unit.FromSI(v)
	}
	decimals := fewestDecimals(narrowest(shown)/50, shown...)
	words := make([]string, len(values))
	for i, x := range shown {
		words[i] = notebook.FormatNumber(x, decimals)
	}
	return words
}

// narrowest returns the least distance between neighbours, or the size of the
// value when there is only one place.
func narrowest(values []float64) float64 {
	least := math.Abs(values[0])
	for i := 1; i < len(values); i++ {
		if d := math.Abs(values[i] - values[i-1]); i == 1 || d < least {
			least = d
		}
	}
	return least
}

func (c Strip) rowNames(system notebook.System) []string {
	if c.Rows != nil {
		return c.Rows
	}
	return places(c.Y, c.Ys, system)
}

// scale returns the scale of the values; its step is that of the colours.
func (c Strip) scale(system notebook.System) scale {
	var s span
	for _, row := range c.Values {
		for _, v := range row {
			if !math.IsNaN(v) {
				s.add(v)
			}
		}
	}
	axis := c.Value
	if s.lo < 0 && s.hi > 0 || axis.Range.HasMin && axis.Range.Min < 0 && s.hi > 0 {
		return axis.scaleFor(system, s, 7)
	}
	return axis.scaleFor(system, s, 4)
}

// piece is one step of the colours.
type piece struct {
	low, high float64
	colour    string
}

// words says from where to where the step reaches.
func (p piece) words(s scale) string {
	decimals := max(0, -decimalExponent(s.step))
	return notebook.FormatNumber(p.low, decimals) + " to " + notebook.FormatNumber(p.high, decimals)
}

// pieces returns the steps of the colours from low to high. With values on both
// sides of zero the steps are counted from zero.
func (c Strip) pieces(s scale) []piece {
	n := int(math.Round((s.max - s.min) / s.step))
	below := int(math.Round(-s.min / s.step))
	var pieces []piece
	for i := range n {
		p := piece{low: significant(s.min+float64(i)*s.step, 9), high: significant(s.min+float64(i+1)*s.step, 9)}
		switch {
		case below > 0 && below < n && i < below:
			p.colour = lowColours[min(below-1-i, len(lowColours)-1)]
		case below > 0 && below < n:
			p.colour = highColours[min(i-below, len(highColours)-1)]
		case i == 0:
			p.colour = levelColour
		default:
			p.colour = highColours[min(i-1, len(highColours)-1)]
		}
		pieces = append(pieces, p)
	}
	return pieces
}

func (c Strip) option(a about, system notebook.System) (json.RawMessage, error) {
	value, metric := c.scale(system), c.scale(notebook.Metric)
	columns, rows := places(c.X, c.Xs, system), c.rowNames(system)
	heat := charts.NewHeatMap()
	heat.AddSeries(c.Value.Label, c.cells(value, metric, columns, rows),
		charts.WithItemStyleOpts(opts.ItemStyle{BorderColor: paper, BorderWidth: 1}))
	label := &opts.AxisLabel{Show: opts.Bool(true), Color: faint, FontSize: textSize, HideOverlap: opts.Bool(true)}
	key := charts.NewScatter()
	for _, p := range c.pieces(value) {
		key.AddSeries(p.words(value), nil, charts.WithItemStyleOpts(opts.ItemStyle{Color: p.colour, BorderColor: faint, BorderWidth: 1, Opacity: opts.Float(1)}))
	}
	heat.Overlap(key)
	heat.SetGlobalOptions(frame(a, system, c.key(value))...)
	heat.SetGlobalOptions(room(c.keyRows()),
		charts.WithXAxisOpts(opts.XAxis{Type: "category", Data: columns, Name: c.X.nameIn(system),
			NameLocation: "middle", NameGap: 28, AxisLabel: label, AxisLine: axisLine()}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Data: rows, Name: c.rowsName(system),
			NameLocation: "end", NameGap: 10, AxisLabel: label, AxisLine: axisLine()}))
	return optionJSON(heat, sharedMore(), c.more(value))
}

func (c Strip) rowsName(system notebook.System) string {
	if c.Rows != nil {
		return c.Y.Label
	}
	return c.Y.nameIn(system)
}

func (c Strip) cells(value, metric scale, columns, rows []string) []opts.HeatMapData {
	var data []opts.HeatMapData
	decimals := max(0, 1-decimalExponent(value.step)) // as written in the cell
	for r, row := range c.Values {
		for i, v := range row {
			if math.IsNaN(v) {
				continue
			}
			place := notebook.Shown{Value: columns[i], Unit: c.X.unitOf(value.system).Symbol}
			name := fmt.Sprintf("%s, %s: %s", place, rows[r], value.words(v, 0, metric))
			data = append(data, opts.HeatMapData{Name: name, Value: []any{i, r, rounded(value.unit.FromSI(v), decimals)}})
		}
	}
	return data
}

// widestLabelled is the most columns in which each cell's value can be written
// on a telephone.
const widestLabelled = 9

// more gives the steps of the colours, of which go-echarts drops every zero, and
// writes the values into the cells where they fit.
func (c Strip) more(value scale) tree {
	var pieces []tree
	for _, p := range c.pieces(value) {
		pieces = append(pieces, tree{"gte": p.low, "lt": p.high, "color": p.colour})
	}
	last := pieces[len(pieces)-1]
	delete(last, "lt")
	last["lte"] = value.max
	names := tree{"nameTextStyle": tree{"color": ink, "fontSize": nameSize}}
	upward := tree{"nameTextStyle": tree{"color": ink, "fontSize": nameSize, "align": "left"}}
	label := tree{"show": false}
	if len(c.Xs) <= widestLabelled {
		label = tree{"show": true, "formatter": "{@[2]}", "fontSize": textSize, "color": ink, "backgroundColor": paper, "padding": []int{1, 3}, "borderRadius": 2}
	}
	return tree{
		"xAxis": []tree{names}, "yAxis": []tree{upward},
		"series":    []tree{{"label": label}},
		"visualMap": []tree{{"type": "piecewise", "show": false, "seriesIndex": 0, "dimension": 2, "pieces": pieces}},
		"legend":    tree{"selectedMode": false},
	}
}

// table returns the cells' values, a row of the table for each place along X.
func (c Strip) table() notebook.Table {
	var s span
	s.add(c.Xs...)
	x, value := c.X.scaleFor(notebook.Metric, s, 5).as(c.Xs), c.scale(notebook.Metric)
	table := notebook.Table{Columns: []notebook.Column{c.X.column(c.X.Label)}}
	if c.Rows == nil {
		return c.longTable(x, value)
	}
	for _, name := range c.Rows {
		table.Columns = append(table.Columns, c.Value.column(name))
	}
	for _, i := range thin(len(c.Xs), 40) {
		row := []notebook.Cell{c.X.cell(c.Xs[i], 0, x)}
		for r := range c.Values {
			row = append(row, c.cell(r, i, value))
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// longTable returns a line for each of a plate's cells, thinned both ways.
func (c Strip) longTable(x, value scale) notebook.Table {
	var s span
	s.add(c.Ys...)
	y := c.Y.scaleFor(notebook.Metric, s, 5).as(c.Ys)
	table := notebook.Table{Columns: []notebook.Column{c.X.column(c.X.Label), c.Y.column(c.Y.Label), c.Value.column(c.Value.Label)}}
	for _, r := range thin(c.rows(), 9) {
		for _, i := range thin(len(c.Xs), 9) {
			table.Rows = append(table.Rows, []notebook.Cell{c.X.cell(c.Xs[i], 0, x), c.Y.cell(c.Ys[r], 0, y), c.cell(r, i, value)})
		}
	}
	return table
}

func (c Strip) cell(r, i int, value scale) notebook.Cell {
	if math.IsNaN(c.Values[r][i]) {
		return notebook.Str("not known")
	}
	return c.Value.cell(c.Values[r][i], 0, value)
}
