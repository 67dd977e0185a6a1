package echarts

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
)

// kinds is one chart of each kind that package plot builds.
func kinds(t *testing.T) []notebook.Chart {
	t.Helper()
	reading := plot.Axis{Label: "Reading", Show: notebook.FineLengths}
	x := []float64{0, 1, 2, 3}
	y := []float64{-20e-6, 5e-6, 12e-6, -4e-6}
	u := []float64{2e-6, 2e-6, 2e-6, 2e-6}
	points := []plot.Series{{Label: "readings", Style: plot.Dots, X: x, Y: y, U: u}, {Label: "joined", Style: plot.Line, X: x, Y: y}}
	band := plot.Series{Label: "interval", Style: plot.Band, X: x, Low: []float64{-25e-6, 0, 5e-6, -8e-6}, High: y}
	bars := plot.Bars{Name: "bars", What: "Date", Groups: []string{"2019", "2021"}, Value: reading,
		Series: []plot.BarSeries{{Label: "side", Values: y[:2], U: u[:2]}, {Label: "nod", Values: y[2:]}}, Limits: []plot.Limit{{Label: "limit", Y: 10e-6}}}
	lying := bars
	lying.Name, lying.Horizontal, lying.Stacked = "lying", true, true
	lying.Series = []plot.BarSeries{{Label: "side", Values: y[:2]}, {Label: "nod", Values: y[2:]}}
	day := func(year int) float64 { return plot.Day(time.Date(year, 5, 18, 0, 0, 0, 0, time.UTC)) }
	var charts []notebook.Chart
	for _, c := range []interface {
		Chart() (notebook.Chart, error)
	}{
		plot.XY{Name: "points", X: plot.Axis{Label: "Place", Show: notebook.Lengths}, Y: reading, Series: append(points, band),
			Limits: []plot.Limit{{Label: "limit", Y: 10e-6}}, Marks: []plot.Mark{{Label: "here", X: 1}}},
		plot.Polar{Name: "circle", Angle: "Azimuth", Radius: reading, Series: points, Limits: []plot.Limit{{Label: "limit", Y: 10e-6}}},
		bars, lying,
		plot.XY{Name: "dates", X: plot.Axis{Label: "Date", Dates: true}, Y: reading,
			Series: []plot.Series{{Label: "front", Style: plot.Line, X: []float64{day(2019), day(2021), day(2023), day(2025)}, Y: y}}},
		plot.Strip{Name: "strip", X: plot.Axis{Label: "Place", Show: notebook.Lengths}, Xs: x, Rows: []string{"one", "two"}, Value: reading,
			Values: [][]float64{y, {1e-6, math.NaN(), 3e-6, 4e-6}}},
	} {
		chart, err := c.Chart()
		if err != nil {
			t.Fatal(err)
		}
		charts = append(charts, chart)
	}
	return charts
}

var (
	colourOf = regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`)
	word     = regexp.MustCompile(`<text [^>]*>`)
	place    = regexp.MustCompile(`(?:translate\(|matrix\(0,-?1,-?1,0,)(-?[\d.]+)[ ,](-?[\d.]+)\)| x="(-?[\d.]+)"| y="(-?[\d.]+)"`)
	frame    = regexp.MustCompile(`viewBox="0 0 (\d+) (\d+)"`)
)

// Every kind is drawn with all its words, inside its frame, in the page's
// colours only.
func TestEveryKindIsDrawn(t *testing.T) {
	r, err := NewRenderer(asset(t))
	if err != nil {
		t.Fatal(err)
	}
	r.cache = t.TempDir()
	words := map[string][]string{
		"points": {"readings", "joined", "interval", "Reading (µm)", "Place (mm)", "limit 10", "here", "−20"},
		"circle": {"readings", "joined", "Outward: Reading (µm)", "limit", "90°", "−20"},
		"bars":   {"side", "nod", "2019", "2021", "Reading (µm)", "limit 10"},
		"dates":  {">2020<", ">2022<", ">2024<", "Date"},
		"lying":  {"side", "nod", "2019", "2021", "Reading (µm)"},
		"strip":  {"one", "two", "Place (mm)", "−20 to −15", "1000"},
	}
	for _, chart := range kinds(t) {
		t.Run(chart.Name, func(t *testing.T) {
			svg, err := r.SVG("x-"+chart.Name, chart.Option[notebook.Metric], 680, chart.Height)
			if err != nil {
				t.Fatal(err)
			}
			for _, want := range words[chart.Name] {
				if strings.Count(svg, want) < 2 {
					t.Errorf("%q is not in both pictures", want)
				}
			}
			if name := chart.Name; name == "dates" && strings.Count(svg, ">2021<") > 0 {
				t.Error("ECharts chose the dates itself")
			}
			for _, m := range colourOf.FindAllStringSubmatch(svg, -1) {
				if c := m[1]; !strings.HasPrefix(c, "var(--") && !strings.HasPrefix(c, "url(#x-") && c != "none" && c != "transparent" {
					t.Errorf("the colour %q is not the page's: …%s", c, around(svg, m[0]))
				}
			}
			for _, picture := range strings.SplitAfter(svg, "</svg>") {
				inFrame(t, picture)
			}
		})
	}
}

// inFrame checks that every word of a picture stands inside it.
func inFrame(t *testing.T, picture string) {
	t.Helper()
	size := frame.FindStringSubmatch(picture)
	if size == nil {
		return // what follows the last picture
	}
	number := func(s string) float64 {
		x, err := strconv.ParseFloat("0"+strings.TrimPrefix(s, "-"), 64)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(s, "-") {
			return -x
		}
		return x
	}
	found := word.FindAllString(picture, -1)
	if len(found) < 5 {
		t.Errorf("only %d words", len(found))
	}
	for _, text := range found {
		x, y := 0.0, 0.0
		for _, m := range place.FindAllStringSubmatch(text, -1) {
			x, y = x+number(m[1])+number(m[3]), y+number(m[2])+number(m[4])
		}
		if x < 0 || x > number(size[1]) || y < 0 || y > number(size[2]) {
			t.Errorf("a word stands at %g, %g, outside %s by %s: %s", x, y, size[1], size[2], text)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	a, err := Load(b.Context(), "")
	if err != nil {
		b.Skip(err)
	}
	r, err := NewRenderer(a)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := r.draw(option(), 680, 320); err != nil {
			b.Fatal(err)
		}
	}
}

// around returns the element in which a piece of an SVG first stands.
func around(svg, piece string) string {
	at := strings.Index(svg, piece)
	return svg[strings.LastIndex(svg[:at], "<") : at+len(piece)]
}
