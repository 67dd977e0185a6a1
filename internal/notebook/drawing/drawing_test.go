package drawing

import (
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// everything draws each kind of line and each part once.
func everything() *Canvas {
	c := New("everything", "Every part", "Each part of the drawings, once.", 420, 1010)
	c.TablePlan(Point{20, 20}, Point{400, 110})
	for i := range 8 {
		c.Number(Polar(Point{210, 65}, 38, 2*math.Pi*float64(i)/8), i+1)
	}
	c.TurnArrow(Marked, Point{210, 65}, 20, 0.3, 1.2)
	c.Frame(Point{34, 102}, "x", "y")
	c.TableFront(Point{20, 260}, Point{230, 252}, 26)
	c.Spindle(Point{125, 215}, 60, 80, 0.08)
	c.TableSide(Point{300, 258}, 90, 24)
	c.Plunger(Point{285, 258}, 22, 0.15)
	c.Lever(Point{375, 220}, 34, 2.2)
	c.Dial(Point{380, 150}, 32, 0.3)
	c.Level(Point{100, 370}, 150, 0.05, 0.6, false)
	c.Level(Point{300, 370}, 150, 0.05, -0.4, true)
	c.Dimension(Point{25, 372}, Point{175, 365}, -26, notebook.Say("{}", notebook.Exact(0.2, notebook.Lengths)))
	plus, minus := c.Supply(Point{20, 420}, Point{150, 500})
	c.Tank(Point{220, 450}, Point{390, 590}, 0.8)
	c.Bar(Point{205, 442}, Point{405, 442})
	c.Anode(Point{246, 442}, 12, 120)
	c.Anode(Point{364, 442}, 12, 120)
	c.Box(Brass, Point{296, 500}, Point{314, 550}, 0)
	c.Wire(plus, plus.Add(0, 30), Point{190, plus.Y + 30}, Point{190, 425}, Point{246, 425}, Point{246, 439})
	c.Wire(minus, minus.Add(0, 45), Point{180, minus.Y + 45}, Point{180, 412}, Point{305, 412}, Point{305, 502})
	c.Leader(Point{100, 560}, End, "part <here>", Point{300, 530})
	c.Angle(Point{30, 620}, 50, 0, 0.6, notebook.Plain("lean"))
	c.Vise(Point{60, 700}, 60, 40)
	c.Square(Point{270, 700}, 60, 44)
	c.Hatch(Point{340, 640}, Point{400, 665})
	c.HatchFace(Point{340, 680}, Point{400, 690}, Point{370, 720})
	c.MillFront(Point{125, 980}, 210)
	m := c.MillSide(Point{320, 980}, 210)
	c.Leader(Point{240, 850}, Middle, "ram", m.Ram)
	c.Note(Point{20, 1004}, Start, "A note.")
	c.Exaggerated("Heights", 1000)
	return c
}

func TestEverythingGolden(t *testing.T) {
	got, err := everything().SVG()
	if err != nil {
		t.Fatal(err)
	}
	got = strings.ReplaceAll(got, "><", ">\n<") + "\n"
	file := filepath.Join("testdata", "everything.golden.svg")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", file, diff)
	}
	if strings.Contains(got, "part <here>") || !strings.Contains(got, "part &lt;here&gt;") {
		t.Error("a label was not written as text")
	}
}

func TestErrorsAreKept(t *testing.T) {
	tests := []struct {
		name string
		draw func(c *Canvas)
	}{
		{"not a number", func(c *Canvas) { c.Circle(Thin, Point{math.NaN(), 0}, 1) }},
		{"off the sheet", func(c *Canvas) { c.Line(Thin, Point{0, 0}, Point{math.Inf(1), 0}) }},
		{"two corners", func(c *Canvas) { c.Soft(Body, 2, Point{0, 0}, Point{1, 1}) }},
		{"part off the sheet", func(c *Canvas) { c.Level(Point{0, 0}, math.Inf(1), 0, 0, false) }},
		{"one point", func(c *Canvas) { c.Line(Thin, Point{0, 0}) }},
		{"no length", func(c *Canvas) { c.Dimension(Point{1, 1}, Point{1, 1}, 5, nil) }},
		{"nothing drawn", func(*Canvas) {}},
		{"hatch off the sheet", func(c *Canvas) { c.Hatch(Point{math.Inf(-1), 0}, Point{5, 5}) }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := New("x", "t", "s", 100, 100)
			test.draw(c)
			if svg, err := c.SVG(); err == nil || svg != "" {
				t.Errorf("SVG() = %q, %v, want an error", svg, err)
			}
		})
	}
	if _, err := New("x", "t", "s", 0, 10).SVG(); err == nil {
		t.Error("a canvas of no width gave no error")
	}
}

func TestView(t *testing.T) {
	v := View{Origin: Point{100, 200}, Along: 1000, Up: 1e6}
	if got, want := v.At(0.05, 10e-6), (Point{150, 190}); math.Hypot(got.X-want.X, got.Y-want.Y) > 1e-9 {
		t.Errorf("At = %v, want %v", got, want)
	}
	if v.Times() != 1000 {
		t.Errorf("Times = %v, want 1000", v.Times())
	}
}

// Every style, and every class that a drawing uses, has its rule in the style
// sheet, and no drawing names a colour or a width itself.
func TestStylesAreInTheStyleSheet(t *testing.T) {
	sheet, err := os.ReadFile("../../../site/assets/drawing.css")
	if err != nil {
		t.Fatal(err)
	}
	svg, err := everything().SVG()
	if err != nil {
		t.Fatal(err)
	}
	classes := map[string]bool{}
	for _, s := range []Style{Visible, Thin, Hidden, Centre, Marked, Body, Steel, Brass, Nickel, Bath, Glass, Wedge, Bubble, Solid} {
		classes[string(s)] = true
	}
	for _, m := range regexp.MustCompile(`class="([a-z]+)`).FindAllStringSubmatch(svg, -1) {
		classes[m[1]] = true
	}
	for class := range classes {
		if !strings.Contains(string(sheet), "."+class+" {") {
			t.Errorf("the style sheet has no rule for .%s", class)
		}
	}
	for _, bad := range []string{"style=", "fill=", "stroke", "#"} {
		if strings.Contains(strings.ReplaceAll(svg, "&#", ""), bad) {
			t.Errorf("the drawing holds %s", bad)
		}
	}
}

// A turned part is the same part turned: the ends of a level keep their
// distance, and its marked end changes sides.
func TestStanding(t *testing.T) {
	at := standing(Point{100, 50}, math.Pi/6)
	if got := at(0, 0); got != (Point{100, 50}) {
		t.Errorf("the foot stands at %v", got)
	}
	right, up := at(10, 0), at(0, 10)
	if right.Y >= 50 || math.Abs(math.Hypot(right.X-100, right.Y-50)-10) > 1e-9 {
		t.Errorf("turned anticlockwise, 10 to the right is %v", right)
	}
	if up.Y >= 50 || up.X >= 100 {
		t.Errorf("turned anticlockwise, 10 up is %v", up)
	}
}

func TestHatchStaysInside(t *testing.T) {
	c := New("x", "t", "s", 100, 100)
	c.HatchFace(Point{10, 10}, Point{60, 10}, Point{10, 60})
	svg, err := c.SVG()
	if err != nil {
		t.Fatal(err)
	}
	lines := regexp.MustCompile(`M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)`).FindAllStringSubmatch(svg, -1)
	if len(lines) < 4 {
		t.Fatalf("only %d lines in %s", len(lines), svg)
	}
	for _, line := range lines {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(line[i+1], 64)
		}
		for i := 0; i < 4; i += 2 {
			if x, y := v[i], v[i+1]; x < 9.99 || y < 9.99 || x+y > 70.02 {
				t.Errorf("a line leaves the face: %v", line[0])
			}
		}
	}
}

// A label with a quantity is written twice, once for each system of units.
func TestLabelsInBothSystems(t *testing.T) {
	c := New("x", "t", "s", 100, 100)
	c.Label(Point{1, 2}, Start, notebook.Say("span {}", notebook.Exact(0.254, notebook.Lengths)))
	svg, err := c.SVG()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`class="lbl metric"`, "span 254\u00a0mm", `class="lbl inch"`, "span 10.0\u00a0in"} {
		if !strings.Contains(svg, want) {
			t.Errorf("%s lacks %s", svg, want)
		}
	}
}

// Whatever is written and wherever, the drawing is an error or well-formed.
func FuzzDrawing(f *testing.F) {
	f.Add("rail <b>&\"'", 10.0, 20.0, 0.3)
	f.Add("\x00\xff]]>", math.Inf(1), 0.0, math.NaN())
	f.Add("", 1e300, -1e300, 7.0)
	f.Fuzz(func(t *testing.T, words string, x, y, angle float64) {
		c := New(words, words, words, 420, 300)
		c.Words(Point{x, y}, Start, words)
		c.Leader(Point{x, y}, End, words, Point{y, x})
		c.Level(Point{x, y}, 100, angle, y, false)
		c.Spindle(Point{x, y}, 50, 90, angle)
		c.Lever(Point{x, y}, 30, angle)
		c.Dimension(Point{0, 0}, Point{x, y}, angle, notebook.Plain(words))
		c.HatchFace(Point{0, 0}, Point{math.Mod(x, 500), 10}, Point{10, math.Mod(y, 500)})
		svg, err := c.SVG()
		if err != nil {
			return
		}
		decoder := xml.NewDecoder(strings.NewReader(svg))
		for {
			if _, err := decoder.Token(); err == io.EOF {
				return
			} else if err != nil {
				t.Fatalf("not well-formed: %v\n%s", err, svg)
			}
		}
	})
}

func TestTints(t *testing.T) {
	triangle := func(x float64) []Point { return []Point{{x, 0}, {x + 10.26, 0}, {x, 10.04}} }
	c := New("tints", "t", "s", 200, 100)
	c.Tint(0, triangle(0), triangle(20))
	c.Tint(7)
	c.TintScale(Point{10, 60}, 20, []string{"60", "80", "90", "110", "130", "160", "200"})
	svg, err := c.SVG()
	if err != nil {
		t.Fatal(err)
	}
	if want := `<path class="tint tint0" d="M0 0L10.2 0L0 10ZM20 0L30.2 0L20 10Z"/>`; !strings.Contains(svg, want) {
		t.Errorf("no %s in %s", want, svg)
	}
	if n := strings.Count(svg, "<path"); n != 1+Tints {
		t.Errorf("%d paths, want one for two triangles, none for none and %d for the scale", n, Tints)
	}
	for name, draw := range map[string]func(*Canvas){
		"no such tint":  func(c *Canvas) { c.Tint(Tints, triangle(0)) },
		"below all":     func(c *Canvas) { c.Tint(-1, triangle(0)) },
		"two points":    func(c *Canvas) { c.Tint(0, triangle(0)[:2]) },
		"NaN":           func(c *Canvas) { c.Tint(0, triangle(math.NaN())) },
		"too few words": func(c *Canvas) { c.TintScale(Point{}, 10, []string{"1"}) },
	} {
		c := New(name, "t", "s", 100, 100)
		draw(c)
		if svg, err := c.SVG(); err == nil {
			t.Errorf("%s: SVG() = %q, want an error", name, svg)
		}
	}
}

func TestHandle(t *testing.T) {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	across := Grip{Field: "distance", Says: "Distance", PerUnit: 0.00025, Step: 0.001, Units: lengths}
	c := New("handle", "t", "s", 100, 100)
	c.Handle(Point{50, 50}, "Anode <1>", across, Grip{})
	svg, err := c.SVG()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`class="handle" aria-label="Anode &lt;1&gt;"`, `data-across="distance"`, `data-across-per="0.00025"`, `data-across-step="0.001"`, `data-across-units="mm=0.001;in=0.0254"`} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %s in %s", want, svg)
		}
	}
	if strings.Contains(svg, "data-up") || strings.Count(svg, `class="solid"`) != 2 {
		t.Errorf("a handle that moves across only has a way up: %s", svg)
	}
	for name, g := range map[string]Grip{"no step": {Field: "x", PerUnit: 1, Units: lengths}, "no scale": {Field: "x", Step: 1, Units: lengths},
		"no units": {Field: "x", PerUnit: 1, Step: 1}, "infinite": {Field: "x", PerUnit: math.Inf(1), Step: 1, Units: lengths}} {
		c := New(name, "t", "s", 100, 100)
		c.Handle(Point{50, 50}, "h", across, g)
		if _, err := c.SVG(); err == nil {
			t.Errorf("%s gave no error", name)
		}
	}
}
