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

var colourOf = regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`)

// Every kind is drawn with all its words, legibly, in the page's colours only.
func TestEveryKindIsDrawn(t *testing.T) {
	r := NewRenderer(asset(t))
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
			option, err := chart.Option(notebook.Metric)
			if err != nil {
				t.Fatal(err)
			}
			svg, err := r.SVG("x-"+chart.Name, option, 680, chart.Height)
			if err != nil {
				t.Fatal(err)
			}
			for _, want := range words[chart.Name] {
				if strings.Count(svg, want) < 2 {
					t.Errorf("%q is not in both pictures", want)
				}
			}
			if chart.Name == "dates" && strings.Contains(svg, ">2021<") {
				t.Error("ECharts chose the dates itself")
			}
			for _, m := range colourOf.FindAllStringSubmatch(svg, -1) {
				if c := m[1]; !strings.HasPrefix(c, "var(--") && !strings.HasPrefix(c, "url(#x-") && c != "none" && c != "transparent" {
					t.Errorf("the colour %q is not the page's: …%s", c, around(svg, m[0]))
				}
			}
			for _, picture := range strings.SplitAfter(svg, "</svg>") {
				legible(t, picture)
				clipped(t, picture)
			}
		})
	}
}

var (
	clip   = regexp.MustCompile(`<clipPath id="([^"]*)">(.*?)</clipPath>`)
	clipBy = regexp.MustCompile(`clip-path="url\(#([^)]*)\)"`)
)

// clipped checks that what is cut out of a picture is cut by a shape with an
// extent: an empty one would hide a whole curve.
func clipped(t *testing.T, picture string) {
	t.Helper()
	shapes := map[string]string{}
	for _, m := range clip.FindAllStringSubmatch(picture, -1) {
		shapes[m[1]] = m[2]
	}
	for _, m := range clipBy.FindAllStringSubmatch(picture, -1) {
		if !strings.Contains(shapes[m[1]], `d="M`) {
			t.Errorf("a curve is clipped by %q, which is %q", m[1], shapes[m[1]])
		}
	}
}

// written is a piece of text as it stands in a picture, by a plain reckoning of
// its width.
type written struct {
	words                  string
	left, right, top, foot float64
	turned                 bool
}

var (
	frame = regexp.MustCompile(`viewBox="0 0 (\d+) (\d+)"`)
	text  = regexp.MustCompile(`<text ([^>]*)>([^<]*)</text>`)
	place = regexp.MustCompile(`(?:translate\(|matrix\(0,-?1,-?1,0,)(-?[\d.]+)[ ,](-?[\d.]+)\)| x="(-?[\d.]+)"| y="(-?[\d.]+)"`)
)

// texts returns all that is written in a picture.
func texts(t *testing.T, picture string) []written {
	t.Helper()
	number := func(s string) float64 {
		if s == "" {
			return 0
		}
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	var all []written
	for _, m := range text.FindAllStringSubmatch(picture, -1) {
		x, y := 0.0, 0.0
		for _, p := range place.FindAllStringSubmatch(" "+m[1], -1) {
			x, y = x+number(p[1])+number(p[3]), y+number(p[2])+number(p[4])
		}
		words := strings.TrimSpace(m[2])
		wide := 6 * float64(len([]rune(words)))
		switch {
		case strings.Contains(m[1], `text-anchor="middle"`):
			x -= wide / 2
		case strings.Contains(m[1], `text-anchor="end"`):
			x -= wide
		}
		all = append(all, written{words, x, x + wide, y - 6, y + 6, strings.Contains(m[1], "matrix")})
	}
	return all
}

// legible checks that what is written in a picture stands inside it, and that
// no two pieces stand in each other's place.
func legible(t *testing.T, picture string) {
	t.Helper()
	size := frame.FindStringSubmatch(picture)
	if size == nil {
		return // what follows the last picture
	}
	wide, _ := strconv.ParseFloat(size[1], 64)
	high, _ := strconv.ParseFloat(size[2], 64)
	all := texts(t, picture)
	if len(all) < 5 {
		t.Errorf("only %d pieces of text", len(all))
	}
	for i, a := range all {
		if a.turned {
			continue
		}
		if a.left < 0 || a.right > wide+6 || a.top < 0 || a.foot > high {
			t.Errorf("%q runs from %.0f, %.0f to %.0f, %.0f, out of %.0f by %.0f", a.words, a.left, a.top, a.right, a.foot, wide, high)
		}
		for _, b := range all[:i] {
			if !b.turned && a.left < b.right && b.left < a.right && a.top+1 < b.foot && b.top+1 < a.foot {
				t.Errorf("%q and %q overlap at %.0f, %.0f in a picture %.0f wide", a.words, b.words, a.left, a.top, wide)
			}
		}
	}
}

// However many names a legend has, it takes no place from the plot.
func TestLegendsKeepTheirPlace(t *testing.T) {
	r := NewRenderer(asset(t))
	r.cache = ""
	names := []string{"as marked", "turned", "knee alone", "where the next reading should fall", "u", "least squares", "minimum zone", "x"}
	for n := 2; n <= len(names); n++ {
		for first := 0; first+n <= len(names); first += 3 {
			c := plot.XY{Name: "legend", X: plot.Axis{Label: "Place", Show: notebook.Lengths}, Y: plot.Axis{Label: "Reading", Show: notebook.FineLengths}}
			for _, name := range names[first : first+n] {
				c.Series = append(c.Series, plot.Series{Label: name, Style: plot.Line, X: []float64{0, 1}, Y: []float64{0, 1e-6}})
			}
			chart, err := c.Chart()
			if err != nil {
				t.Fatal(err)
			}
			option, err := chart.Option(notebook.Metric)
			if err != nil {
				t.Fatal(err)
			}
			svg, err := r.picture("legend", "narrow", option, narrowWidth, chart.Height)
			if err != nil {
				t.Fatal(err)
			}
			legible(t, svg)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	a, err := Load(b.Context(), "")
	if err != nil {
		b.Skip(err)
	}
	r := NewRenderer(a)
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
