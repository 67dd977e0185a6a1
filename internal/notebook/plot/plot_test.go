package plot

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/thouspan/internal/notebook"
)

var (
	azimuths = Axis{Label: "Azimuth", Show: notebook.Angles, Range: notebook.Between(0, 2*math.Pi)}
	readings = Axis{Label: "Reading", Show: notebook.FineLengths}
)

// charter is any of the package's descriptions.
type charter interface {
	Chart() (notebook.Chart, error)
}

func sweep() XY {
	s := Series{Label: "readings", Style: Dots}
	curve := Series{Label: "best curve", Style: Curve}
	band := Series{Label: "next reading", Style: Band}
	for i := range 8 {
		a := float64(i) * math.Pi / 4
		s.X, s.Y, s.U = append(s.X, a), append(s.Y, 26e-6*math.Cos(a)), append(s.U, 2e-6)
	}
	for i := range 73 {
		a := float64(i) * math.Pi / 36
		v := 26e-6 * math.Cos(a)
		curve.X, curve.Y = append(curve.X, a), append(curve.Y, v)
		band.Low, band.High = append(band.Low, v-5e-6), append(band.High, v+5e-6)
	}
	band.X = curve.X
	return XY{Name: "sweep-fit", Title: "Once round", Caption: notebook.Say("The slope is {}.", notebook.Exact(238e-6, notebook.Slopes)),
		X: azimuths, Y: readings, Series: []Series{s, curve, band}, Limits: []Limit{{"tolerance", 20e-6}}}
}

func round() Polar {
	s := sweep()
	return Polar{Name: "round", Title: "From above", Angle: "Azimuth", Radius: readings, Series: s.Series[:2], Limits: s.Limits}
}

func paired() Bars {
	return Bars{Name: "by-date", Title: "By date", What: "Date", Groups: []string{"2019", "2023"}, Value: Axis{Label: "Tilt", Show: notebook.Slopes},
		Series: []BarSeries{{"side tilt", []float64{60e-6, 171e-6}, []float64{8e-6, 0}}, {"nod", []float64{0, -184e-6}, nil}},
		Limits: []Limit{{"limit", 100e-6}}}
}

func shares() Bars {
	b := paired()
	b.Name, b.Stacked, b.Horizontal = "shares", true, true
	b.Series[0].U = nil
	return b
}

func bow() Strip {
	return Strip{Name: "bow", Title: "Where to work", X: Axis{Label: "Place", Show: notebook.Lengths}, Xs: []float64{-0.2, 0, 0.2},
		Rows: []string{"150 mm part", "600 mm part"}, Value: Axis{Label: "Bow", Show: notebook.FineLengths},
		Values: [][]float64{{-3e-6, 0, 13e-6}, {4e-6, math.NaN(), 2e-6}}}
}

func history() XY {
	day := func(y int) time.Time { return time.Date(y, 5, 20, 0, 0, 0, 0, time.UTC) }
	return XY{Name: "wear", Title: "Wear", X: Axis{Label: "Date", Dates: true},
		Y: Axis{Label: "Depth", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Series: []Series{{Label: "front", Style: Line, X: Days([]time.Time{day(2019), day(2022), day(2025)}), Y: []float64{44e-6, 60e-6, 66e-6}, Gaps: []int{0}},
			{Label: "pocket gone", Style: AtLeast, X: []float64{Day(day(2025))}, Y: []float64{49e-6}},
			{Label: "pocket left", Style: AtMost, X: []float64{Day(day(2025))}, Y: []float64{80e-6}}},
		Marks: []Mark{{"outlet cleared", Day(day(2022))}}}
}

func decades() XY {
	return XY{Name: "minutes", Title: "Minutes", X: Axis{Label: "Current density", Show: notebook.CurrentDensities, Log: true},
		Y:      Axis{Label: "Time", Show: notebook.Minutes, Log: true},
		Series: []Series{{Label: "10 µm", Style: Line, X: []float64{50, 100, 400}, Y: []float64{6000, 3000, 750}, U: []float64{100, 4000, 20}}}}
}

func all() []charter {
	return []charter{sweep(), round(), paired(), shares(), bow(), history(), decades()}
}

// options returns the options of all charts in both systems, each with a name
// for messages.
func options(t *testing.T) map[string]json.RawMessage {
	t.Helper()
	found := map[string]json.RawMessage{}
	for _, c := range all() {
		chart, err := c.Chart()
		if err != nil {
			t.Fatal(err)
		}
		for _, system := range notebook.Systems() {
			found[chart.Name+" "+system.String()] = optionOf(t, chart, system)
		}
	}
	return found
}

func TestOptionsAreJSONWithoutFunctions(t *testing.T) {
	for name, option := range options(t) {
		if !json.Valid(option) {
			t.Errorf("%s: not JSON: %s", name, option)
		}
		for _, bad := range []string{"__f__", "function", "NaN", "go-echarts", "http", "</"} {
			if bytes.Contains(option, []byte(bad)) {
				t.Errorf("%s: the option holds %q", name, bad)
			}
		}
	}
}

func TestChartsStandOnASheet(t *testing.T) {
	sheet := &notebook.Sheet{}
	for _, c := range all() {
		chart, err := c.Chart()
		if err != nil {
			t.Fatal(err)
		}
		if len(chart.Data.Rows) == 0 || chart.Height < 200 {
			t.Errorf("%s has %d rows of data and a height of %d", chart.Name, len(chart.Data.Rows), chart.Height)
		}
		sheet.Add(chart)
	}
	if err := sheet.Validate(); err != nil {
		t.Error(err)
	}
}

func TestOnlyTokensAreUsed(t *testing.T) {
	known := map[string]bool{}
	for _, token := range Tokens() {
		known[token.Light] = true
	}
	colour := regexp.MustCompile(`"#[^"]*"|"(rgba?|hsl)[^"]*"`)
	for name, option := range options(t) {
		for _, match := range colour.FindAllString(string(option), -1) {
			if !known[strings.Trim(match, `"`)] {
				t.Errorf("%s: %s is not a token", name, match)
			}
		}
	}
}

func TestTokensAreDistinctAndLegible(t *testing.T) {
	seen := map[string]bool{}
	for _, token := range Tokens() {
		if seen[token.Name] || seen[token.Light] {
			t.Errorf("%s or %s comes twice", token.Name, token.Light)
		}
		seen[token.Name], seen[token.Light] = true, true
	}
	page := Tokens()[slices.IndexFunc(Tokens(), func(t Token) bool { return t.Name == "paper" })]
	for _, token := range Tokens() {
		// WCAG 2.2: 4.5 to 1 for text (1.4.3), 3 to 1 for what a picture needs
		// to be understood (1.4.11).
		least := 0.0
		switch {
		case token.Name == "ink" || token.Name == "faint":
			least = 4.5
		case strings.HasPrefix(token.Name, "data-"):
			least = 3
		}
		if got := contrast(t, token.Light, page.Light); got < least {
			t.Errorf("%s on light paper: contrast %.2f, want %.1f", token.Name, got, least)
		}
		if got := contrast(t, token.Dark, page.Dark); got < least {
			t.Errorf("%s on dark paper: contrast %.2f, want %.1f", token.Name, got, least)
		}
	}
}

// contrast is the contrast ratio of two colours as WCAG 2.2 defines it.
func contrast(t *testing.T, a, b string) float64 {
	la, lb := luminance(t, a), luminance(t, b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	var r, g, b int
	if _, err := fmt.Sscanf(colour, "#%02x%02x%02x", &r, &g, &b); err != nil {
		t.Fatalf("%q is not a colour", colour)
	}
	linear := func(c int) float64 {
		x := float64(c) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

func TestSeriesDifferWithoutColour(t *testing.T) {
	symbols, dashes, patterns := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for i, l := range looks {
		symbols[l.symbol] = true
		if icons[l.symbol] == "" {
			t.Errorf("the legend cannot draw %s", l.symbol)
		}
		dashes[fmt.Sprint(l.dash)] = true
		patterns[fmt.Sprint(pattern(i))] = true
	}
	if len(symbols) != 6 || len(dashes) != 6 || len(patterns) != 6 {
		t.Errorf("six series have %d symbols, %d dashes and %d patterns", len(symbols), len(dashes), len(patterns))
	}
}

func TestEqualDescriptionsGiveEqualBytes(t *testing.T) {
	first := options(t)
	for range 3 {
		if diff := cmp.Diff(first, options(t)); diff != "" {
			t.Fatalf("the same charts differ:\n%s", diff)
		}
	}
}

// optionOf returns a chart's option in one system of units.
func optionOf(t *testing.T, chart notebook.Chart, system notebook.System) json.RawMessage {
	t.Helper()
	option, err := chart.Option(system)
	if err != nil {
		t.Fatal(err)
	}
	return option
}

// dig returns the value at a path of names and numbers in JSON.
func dig(t *testing.T, option json.RawMessage, path ...any) any {
	t.Helper()
	var at any
	if err := json.Unmarshal(option, &at); err != nil {
		t.Fatal(err)
	}
	for _, step := range path {
		switch step := step.(type) {
		case string:
			at = at.(map[string]any)[step]
		case int:
			at = at.([]any)[step]
		}
	}
	return at
}

func TestZerosSurvive(t *testing.T) {
	polar, _ := round().Chart()
	strip, _ := bow().Chart()
	plate := bow()
	plate.Values = [][]float64{{1e-6, 2e-6, 0}, {4e-6, 3e-6, 2e-6}}
	oneSided, _ := plate.Chart()
	bars, _ := paired().Chart()
	horizontal, _ := shares().Chart()
	wear, _ := history().Chart()
	lone, _ := decades().Chart()
	tests := []struct {
		name string
		got  any
		want any
	}{
		{"angle axis from 0", dig(t, optionOf(t, polar, 0), "angleAxis", "min"), 0.0},
		{"angle 0 to the right", dig(t, optionOf(t, polar, 0), "angleAxis", "startAngle"), 0.0},
		{"angles grow anticlockwise", dig(t, optionOf(t, polar, 0), "angleAxis", "clockwise"), false},
		{"a step of colour begins at 0", dig(t, optionOf(t, oneSided, 0), "visualMap", 0, "pieces", 0, "gte"), 0.0},
		{"a step of colour ends at 0", dig(t, optionOf(t, strip, 0), "visualMap", 0, "pieces", 0, "lt"), 0.0},
		{"a cell's tooltip", dig(t, optionOf(t, strip, 0), "series", 0, "data", 1, "name"), "0\u00a0mm, 150 mm part: 0.00\u00a0µm"},
		{"a bar of no length", dig(t, optionOf(t, bars, 0), "series", 1, "data", 0, "value"), 0.0},
		{"every group is named", dig(t, optionOf(t, bars, 0), "xAxis", 0, "axisLabel", "interval"), 0.0},
		{"axis from 0", dig(t, optionOf(t, wear, 0), "yAxis", 0, "min"), 0.0},
		{"no animation", dig(t, optionOf(t, bars, 0), "animation"), false},
		{"hidden axis", dig(t, optionOf(t, bars, 0), "xAxis", 1, "show"), false},
		{"hidden axis across", dig(t, optionOf(t, horizontal, 0), "yAxis", 1, "show"), false},
		{"no legend of one series", dig(t, optionOf(t, lone, 0), "legend", "show"), false},
	}
	for _, test := range tests {
		if test.got != test.want {
			t.Errorf("%s: got %v, want %v", test.name, test.got, test.want)
		}
	}
}

func TestBothSystems(t *testing.T) {
	chart, err := sweep().Chart()
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name           string
		path           []any
		metric, inches any
	}{
		{"name of the axis", []any{"yAxis", 0, "name"}, "Reading (µm)", "Reading (thou)"},
		{"step of the axis", []any{"yAxis", 0, "interval"}, 20.0, 0.5},
		{"end of the axis", []any{"yAxis", 0, "max"}, 40.0, 1.5},
		{"first reading: 26 µm", []any{"series", 2, "data", 0, "value", 1}, 26.0, 1.0236},
		{"its tooltip", []any{"series", 2, "data", 0, "name"}, "0°: 26.0\u00a0µm (u 2.0\u00a0µm)", "0°: 1.02\u00a0thou (u 0.08\u00a0thou)"},
		{"limit", []any{"series", 4, "markLine", "data", 0, "yAxis"}, 20.0, 0.7874},
		{"words of the limit", []any{"series", 4, "markLine", "data", 0, "name"}, "tolerance 20\u00a0µm", "tolerance 0.787\u00a0thou"},
		{"description", []any{"aria", "label", "description"}, "Once round. The slope is 238\u00a0µm/m.", "Once round. The slope is 2.86\u00a0thou/ft."},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := dig(t, optionOf(t, chart, notebook.Metric), test.path...); got != test.metric {
				t.Errorf("metric: got %v, want %v", got, test.metric)
			}
			if got := dig(t, optionOf(t, chart, notebook.Inch), test.path...); got != test.inches {
				t.Errorf("inch: got %v, want %v", got, test.inches)
			}
		})
	}
}

func TestUncertaintyBarsAndBandsNeedNoFunction(t *testing.T) {
	chart, err := sweep().Chart()
	if err != nil {
		t.Fatal(err)
	}
	option := optionOf(t, chart, notebook.Metric)
	band := dig(t, option, "series", 0, "data").([]any)
	if len(band) != 2*73 {
		t.Errorf("the band's outline has %d points, want there and back over 73", len(band))
	}
	first, last := dig(t, option, "series", 0, "data", 0, "value", 1), dig(t, option, "series", 0, "data", 145, "value", 1)
	if first != 21.0 || last != 31.0 {
		t.Errorf("the band begins at %v and comes back to %v, want 21 and 31", first, last)
	}
	// The bar of the first reading: 26 ± 2 µm, then a gap.
	want := []any{[]any{0.0, 24.0}, []any{0.0, 28.0}, []any{nil, nil}}
	var got []any
	for i := range 3 {
		got = append(got, dig(t, option, "series", 1, "data", i, "value"))
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("the first uncertainty bar (-want +got):\n%s", diff)
	}
	if name := dig(t, option, "series", 1, "name"); name != "readings" {
		t.Errorf("the bars are called %v; the legend could not hide them with the readings", name)
	}
}

func TestTextFromAReaderStaysText(t *testing.T) {
	c := paired()
	c.Groups = []string{"</script><script>alert(1)</script>", "ok"}
	chart, err := c.Chart()
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(optionOf(t, chart, 0), []byte("</script>")) {
		t.Errorf("the option would close its script element: %s", optionOf(t, chart, 0))
	}
}

func TestTableComesFromTheDescription(t *testing.T) {
	chart, err := paired().Chart()
	if err != nil {
		t.Fatal(err)
	}
	var heads []string
	for _, c := range chart.Data.Columns {
		heads = append(heads, c.Label)
	}
	if diff := cmp.Diff([]string{"Date", "side tilt", "nod"}, heads); diff != "" {
		t.Errorf("columns (-want +got):\n%s", diff)
	}
	if q := chart.Data.Rows[1][2].Quantity; q.SI != -184e-6 || q.In(notebook.Metric).Value != "−184" {
		t.Errorf("nod of 2023 is %v, shown as %q", q.SI, q.In(notebook.Metric).Value)
	}
	if q := chart.Data.Rows[0][1].Quantity; q.U != 8e-6 {
		t.Errorf("side tilt of 2019 has the uncertainty %v, want 8e-6", q.U)
	}
	if note := chart.Data.Note.In(notebook.Metric); note != "limit: 100\u00a0µm/m." {
		t.Errorf("note %q", note)
	}
}

func TestTableThinsCurves(t *testing.T) {
	chart, err := sweep().Chart()
	if err != nil {
		t.Fatal(err)
	}
	// 8 readings, 13 points of the curve, 13 of each edge of the band.
	if got, want := len(chart.Data.Rows), 8+13+13+13; got != want {
		t.Errorf("%d rows, want %d", got, want)
	}
	last := chart.Data.Rows[8+12]
	if last[1].Quantity.SI != 2*math.Pi {
		t.Errorf("the curve's last row stands at %v, want its end", last[1].Quantity.SI)
	}
}

func TestWhatIsRefused(t *testing.T) {
	spoil := func(change func(*XY)) XY {
		c := sweep()
		change(&c)
		return c
	}
	long := make([]float64, MaxPoints+1)
	tests := []struct {
		name string
		c    charter
		want []string
	}{
		{"NaN", spoil(func(c *XY) { c.Series[0].Y[2] = math.NaN() }), []string{"sweep-fit", "readings", "point 3", "NaN", "Reading"}},
		{"infinite", spoil(func(c *XY) { c.Series[1].X[0] = math.Inf(1) }), []string{"best curve", "point 1", "+Inf", "Azimuth"}},
		{"absurd", spoil(func(c *XY) { c.Series[1].Y[0] = -1e300 }), []string{"best curve", "point 1", "-1e+300", "too large"}},
		{"infinite edge", spoil(func(c *XY) { c.Series[2].High[4] = math.Inf(-1) }), []string{"next reading", "point 5"}},
		{"negative uncertainty", spoil(func(c *XY) { c.Series[0].U[7] = -1e-6 }), []string{"point 8", "-1e-06"}},
		{"unequal lists", spoil(func(c *XY) { c.Series[0].Y = c.Series[0].Y[:7] }), []string{"8 places and 7 values"}},
		{"no points", spoil(func(c *XY) { c.Series[0] = Series{Label: "none", Style: Dots} }), []string{`"none"`, "no points"}},
		{"too long", spoil(func(c *XY) { c.Series[0] = Series{Label: "long", Style: Dots, X: long, Y: long} }), []string{"2001 points", "2000"}},
		{"no series", XY{Name: "a", X: azimuths, Y: readings}, []string{"0 series"}},
		{"no style", spoil(func(c *XY) { c.Series[0].Style = "" }), []string{`"" is not a style`}},
		{"no label", spoil(func(c *XY) { c.Series[0].Label = " " }), []string{"no label"}},
		{"axis without label", spoil(func(c *XY) { c.Y.Label = "" }), []string{"axis has no label"}},
		{"band with Y", spoil(func(c *XY) { c.Series[2].Y = c.Series[2].X }), []string{"Low and High"}},
		{"limit", spoil(func(c *XY) { c.Limits[0].Y = math.NaN() }), []string{`limit "tolerance"`}},
		{"no name", spoil(func(c *XY) { c.Name = "" }), []string{"no name"}},
		{"zero on a logarithmic axis", spoil(func(c *XY) { c.Y.Log = true }), []string{"logarithmic", "above zero"}},
		{"band in a circle", Polar{Name: "p", Angle: "Azimuth", Radius: readings, Series: sweep().Series}, []string{"no bands"}},
		{"bars of unequal number", Bars{Name: "b", Value: readings, Groups: []string{"a", "b"}, Series: []BarSeries{{"s", []float64{1}, nil}}}, []string{"2 places and 1 values"}},
		{"NaN bar", Bars{Name: "b", Value: readings, Groups: []string{"a"}, Series: []BarSeries{{"s", []float64{math.NaN()}, nil}}}, []string{"point 1", "NaN"}},
		{"uncertain stack", Bars{Name: "b", Stacked: true, Value: readings, Groups: []string{"a"}, Series: []BarSeries{{"s", []float64{1}, []float64{1}}}}, []string{"stack"}},
		{"no groups", Bars{Name: "b", Value: readings}, []string{"0 groups"}},
		{"ragged strip", Strip{Name: "s", X: azimuths, Xs: []float64{0, 1}, Rows: []string{"r"}, Value: readings, Values: [][]float64{{1}}}, []string{"row 1 has 1 cells for 2"}},
		{"nothing known", Strip{Name: "s", X: azimuths, Xs: []float64{0}, Rows: []string{"r"}, Value: readings, Values: [][]float64{{math.NaN()}}}, []string{"none of its cells"}},
		{"infinite cell", Strip{Name: "s", X: azimuths, Xs: []float64{0}, Rows: []string{"r"}, Value: readings, Values: [][]float64{{math.Inf(1)}}}, []string{"row 1, cell 1"}},
		{"strip without cells", Strip{Name: "s", X: azimuths, Value: readings, Rows: []string{}}, []string{"no cells"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := test.c.Chart()
			if err == nil {
				t.Fatal("no error")
			}
			for _, want := range append(test.want, "plot: chart") {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("%q does not say %q", err, want)
				}
			}
		})
	}
}

func TestDescriptionsAreNotChanged(t *testing.T) {
	c, same := sweep(), sweep()
	if _, err := c.Chart(); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(same, c, cmp.AllowUnexported(XY{})); diff != "" {
		t.Errorf("Chart changed its description:\n%s", diff)
	}
}

func TestTicksAreRound(t *testing.T) {
	tests := []struct {
		lo, hi  float64
		degrees bool
		want    [3]float64
	}{
		{0, 110, false, [3]float64{0, 150, 50}},
		{0, 4.330709, false, [3]float64{0, 5, 1}},
		{-26, 26, false, [3]float64{-40, 40, 20}},
		{0, 360, true, [3]float64{0, 360, 90}},
		{0, 1, true, [3]float64{0, 1, 0.2}},
		{7, 7, false, [3]float64{6, 8, 0.5}},
		{0, 0, false, [3]float64{-1e-12, 1e-12, 5e-13}},
		{0.30000000000000004, 0.7, false, [3]float64{0.3, 0.7, 0.1}},
	}
	for _, test := range tests {
		least, most, step := ticksAround(test.lo, test.hi, 5, test.degrees)
		if got := [3]float64{least, most, step}; got != test.want {
			t.Errorf("ticksAround(%g, %g) = %v, want %v", test.lo, test.hi, got, test.want)
		}
	}
}

// Every axis takes in all that is drawn, however small or large.
func TestTicksHoldTheData(t *testing.T) {
	for e := -12; e < 9; e++ {
		for _, m := range []float64{1, 1.7, 3.3, 9.99} {
			hi := m * math.Pow10(e)
			for _, lo := range []float64{-hi, -0.3 * hi, 0, 0.2 * hi, 0.999 * hi} {
				least, most, step := ticksAround(lo, hi, 5, false)
				n := (most - least) / step
				if least > lo+1e-5*step || most < hi-1e-5*step || n > 9 || math.Abs(n-math.Round(n)) > 1e-6 {
					t.Errorf("ticksAround(%g, %g) = %g to %g by %g", lo, hi, least, most, step)
				}
			}
		}
	}
}

// Dates stand on round days, at least two of them and few enough to be read on
// a telephone, however long the axis is.
func TestDateTicks(t *testing.T) {
	for _, days := range []int{2, 5, 9, 20, 45, 100, 200, 500, 900, 2200, 4000, 9000, 30000} {
		for _, month := range []time.Month{1, 4, 8, 12} {
			from := time.Date(2019, month, 18, 0, 0, 0, 0, time.UTC)
			least, most, _ := dateEnds(Day(from), Day(from.AddDate(0, 0, days)))
			ticks, format := dateTicks(least, most)
			if len(ticks) < 2 || len(ticks) > mostDates {
				t.Errorf("%d days from %v: %d ticks", days, from, len(ticks))
			}
			for _, ms := range ticks {
				tick := time.UnixMilli(int64(ms)).UTC()
				if ms < least || ms > most || format != "{MM}-{dd}" && tick.Day() != 1 || format == "{yyyy}" && tick.Month() != 1 {
					t.Errorf("%d days from %v: a tick at %v written %s", days, from, tick, format)
				}
			}
		}
	}
	if ticks, _ := dateTicks(0, 1e16); len(ticks) != 2 {
		t.Errorf("an absurd span has %d ticks", len(ticks))
	}
}

func FuzzXY(f *testing.F) {
	f.Add(0.0, 1e-6, -2e-6, 1e-7, "readings", false)
	f.Add(math.NaN(), 1.0, 2.0, 0.0, "x", true)
	f.Add(1e308, -1e308, 1e-308, 1e308, "<b>", false)
	f.Fuzz(func(t *testing.T, x, y0, y1, u float64, label string, log bool) {
		c := XY{Name: "fuzz", X: azimuths, Y: readings, Series: []Series{{Label: label, Style: Line, X: []float64{x, x + 1}, Y: []float64{y0, y1}, U: []float64{u, 0}}}}
		c.Y.Log = log
		chart, err := c.Chart()
		if err == nil && (!json.Valid(optionOf(t, chart, 0)) || !json.Valid(optionOf(t, chart, 1))) {
			t.Errorf("the option of %s is not JSON", chart.Name)
		}
	})
}

func BenchmarkXY(b *testing.B) {
	c := sweep()
	for b.Loop() {
		if _, err := c.Chart(); err != nil {
			b.Fatal(err)
		}
	}
}
