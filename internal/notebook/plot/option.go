package plot

// The part that all charts share: the frame around the data, and the way from
// a go-echarts chart to option JSON that says what was meant.

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"

	"example.org/thouspan/internal/notebook"
)

// MaxPoints is the most points that a series may have: more cannot be seen and
// would make the page slow.
const MaxPoints = 2000

// maxSeries is the most series that a chart may have.
const maxSeries = 12

// Sizes in CSS pixels.
const (
	plainHeight = 320
	textSize    = 12
	nameSize    = 13
	legendRow   = 28
	narrow      = 340 // the chart's width on a small telephone
	letterWidth = 6.6 // of the legend's text, on average
	legendIcon  = 30
	legendGap   = 14
	edge        = "12" // free at the left, where letters may be wider than reckoned
)

// font is the chart's font; pages replace it by their own.
const font = "system-ui, sans-serif"

// about is what every chart is called and says.
type about struct {
	Name, Title string
	Caption     notebook.Text
	Height      int
}

func (a about) check() error {
	if a.Name == "" {
		return fmt.Errorf("it has no name")
	}
	if a.Height < 0 || a.Height > 2000 {
		return fmt.Errorf("its height of %d px is not between 0 and 2000", a.Height)
	}
	return nil
}

// fail names the chart in an error.
func (a about) fail(err error) error { return fmt.Errorf("plot: chart %q: %w", a.Name, err) }

// figure joins the parts of a chart.
func (a about) figure(height int, option func(notebook.System) (json.RawMessage, error), data notebook.Table) notebook.Chart {
	if a.Height > 0 {
		height = a.Height
	}
	data.Name, data.Title = a.Name, a.Title
	return notebook.Chart{Name: a.Name, Title: a.Title, Caption: a.Caption, Option: option, Data: data, Height: height}
}

// spoken is what a screen reader says for the chart.
func (a about) spoken(system notebook.System) string {
	return strings.TrimSpace(a.Title + ". " + a.Caption.In(system))
}

// entry is one name of the legend.
type entry struct {
	name, icon string
	// bare entries show a line without a symbol.
	bare bool
}

// legendRows returns how many rows the legend takes on a small telephone; none
// when there is only one thing to name.
func legendRows(entries []entry) int {
	if len(entries) < 2 {
		return 0
	}
	rows, used := 1, 0.0
	for _, e := range entries {
		width := float64(legendIcon+legendGap+5+nameSize) + textWidth(e.name)
		if used > 0 && used+width-legendGap > narrow-20 { // less the legend's own rim
			rows, used = rows+1, 0
		}
		used += width
	}
	return rows
}

// textWidth reckons how wide a text of the legend is.
func textWidth(text string) float64 { return letterWidth * float64(len([]rune(text))) }

// wrap breaks a text into lines of at most most letters, where it has spaces.
func wrap(text string, most int) string {
	var lines []string
	for _, word := range strings.Fields(text) {
		last := len(lines) - 1
		if last >= 0 && len([]rune(lines[last]))+1+len([]rune(word)) <= most {
			lines[last] += " " + word
		} else {
			lines = append(lines, word)
		}
	}
	return strings.Join(lines, "\n")
}

// frame returns the options that all charts share. The chart's ID is set, since
// go-echarts otherwise draws one at random.
func frame(a about, system notebook.System, entries []entry) []charts.GlobalOpts {
	return []charts.GlobalOpts{
		charts.WithInitializationOpts(opts.Initialization{ChartID: a.Name, AssetsHost: "assets/"}),
		charts.WithColorsOpts(seriesColours[:]),
		charts.WithAnimation(false),
		charts.WithLegendOpts(legend(entries)),
		charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true),
			Label: &opts.AriaLabel{Enabled: opts.Bool(true), Description: a.spoken(system)}}),
		charts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item",
			Formatter: types.FuncStr("{a}<br/>{b}"), BackgroundColor: paper, BorderColor: faint}),
	}
}

func legend(entries []entry) opts.Legend {
	data := []tree{}
	for _, e := range entries {
		item := tree{"name": e.name}
		if e.icon != "" {
			item["icon"] = e.icon
		}
		if e.bare {
			item["itemStyle"] = tree{"opacity": 0}
		}
		data = append(data, item)
	}
	// The wide space after each name keeps names apart where letters are wider
	// than ECharts reckons when it draws without a browser.
	return opts.Legend{Show: opts.Bool(len(entries) > 1), Type: "plain", Left: "0", Top: "0", Data: data, Formatter: "{name}\u2003",
		ItemWidth: legendIcon, ItemHeight: 10, InactiveColor: grid,
		TextStyle: &opts.TextStyle{Color: ink, FontSize: nameSize}}
}

// room returns the place of the plot below a legend of the given rows.
func room(rows int) charts.GlobalOpts {
	return charts.WithGridOpts(opts.Grid{Left: edge, Right: "20", Top: fmt.Sprint(rows*legendRow + 30),
		Bottom: "30", ContainLabel: opts.Bool(true)})
}

// tree is a JSON object.
type tree = map[string]any

// sharedMore is what go-echarts has no field for on any chart.
func sharedMore() tree {
	return tree{
		"textStyle": tree{"fontFamily": font, "fontSize": textSize, "color": ink},
		"tooltip":   tree{"confine": true, "textStyle": tree{"color": ink, "fontSize": nameSize}},
		"legend":    tree{"itemGap": legendGap, "itemStyle": tree{"borderWidth": 1}, "inactiveBorderColor": grid},
	}
}

// chart is what the go-echarts charts have in common.
type chart interface {
	Validate()
	JSON() map[string]any
}

// optionJSON returns the chart's option with more laid over it. Laying over
// gives back what go-echarts drops, which is every zero in a plain number, and
// what it has no field for. In more, a list of trees lays its members over the
// members of the option's list, one by one.
func optionJSON(c chart, more ...tree) (json.RawMessage, error) {
	c.Validate()
	text, err := json.Marshal(c.JSON())
	if err != nil {
		return nil, err
	}
	option := tree{}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	if err := decoder.Decode(&option); err != nil {
		return nil, err
	}
	delete(option, "toolbox")
	for _, m := range more {
		lay(option, m)
	}
	return json.Marshal(option)
}

// lay lays one tree over another.
func lay(below, above tree) {
	for key, value := range above {
		below[key] = laid(below[key], value)
	}
}

func laid(below, above any) any {
	switch above := above.(type) {
	case tree:
		if under, ok := below.(tree); ok {
			lay(under, above)
			return under
		}
	case []tree:
		under, _ := below.([]any)
		for i, member := range above {
			if i < len(under) {
				under[i] = laid(under[i], member)
			} else {
				under = append(under, member)
			}
		}
		return under
	}
	return above
}

// axisMore is what go-echarts has no field for on an axis of a chart.
func axisMore(s scale, vertical bool) tree {
	more := tree{"nameTextStyle": tree{"color": ink, "fontSize": nameSize}, "axisLabel": tree{"fontSize": textSize}}
	if vertical {
		more["nameTextStyle"].(tree)["align"] = "left"
		more["axisTick"] = tree{"show": true}
	}
	switch {
	case s.axis.Dates:
		ticks, _ := dateTicks(s.min, s.max)
		more["axisLabel"].(tree)["customValues"] = ticks
		more["axisTick"] = tree{"customValues": ticks}
		more["splitLine"] = tree{"customValues": ticks}
	case !s.axis.Log:
		more["interval"] = s.step
	}
	return more
}

// acrossOption and upOption return the two axes as go-echarts has them.
func acrossOption(s scale) opts.XAxis {
	return opts.XAxis{Type: s.kind(), Name: s.name(), NameLocation: "middle", NameGap: 30,
		Min: s.min, Max: s.max, SplitLine: gridLine(), AxisLine: axisLine(), AxisLabel: axisLabel(s),
		AxisTick: &opts.AxisTick{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: faint}}}
}

func upOption(s scale) opts.YAxis {
	return opts.YAxis{Type: s.kind(), Name: s.name(), NameLocation: "end", NameGap: 12,
		Min: s.min, Max: s.max, SplitLine: gridLine(), AxisLine: axisLine(), AxisLabel: axisLabel(s)}
}

// kind is ECharts' name for the kind of axis.
func (s scale) kind() string {
	switch {
	case s.axis.Dates:
		return "time"
	case s.axis.Log:
		return "log"
	}
	return "value"
}

func axisLabel(s scale) *opts.AxisLabel {
	label := &opts.AxisLabel{Show: opts.Bool(true), Color: faint, FontSize: textSize, HideOverlap: opts.Bool(true)}
	switch {
	case s.axis.Dates:
		_, label.Formatter = dateTicks(s.min, s.max)
	case s.onTicks():
		label.Formatter = types.FuncStr("{value}" + s.unit.Symbol)
	}
	return label
}

func gridLine() *opts.SplitLine {
	return &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: grid, Width: 1}}
}

// axisLine stands at the edge of the plot, not at zero in its middle.
func axisLine() *opts.AxisLine {
	return &opts.AxisLine{Show: opts.Bool(true), OnZero: opts.Bool(false), LineStyle: &opts.LineStyle{Color: faint, Width: 1}}
}

// thin returns the indices of at most most of n points, evenly spread, the
// first and the last among them.
func thin(n, most int) []int {
	if n <= most {
		most = n
	}
	indices := make([]int, most)
	for i := range indices {
		if most > 1 {
			indices[i] = int(math.Round(float64(i) * float64(n-1) / float64(most-1)))
		}
	}
	return indices
}
