package drawing

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// everything draws each kind of line and each part once.
func everything() *Canvas {
	c := New("everything", "Every part", "Each part of the drawings, once.", 420, 640)
	c.TablePlan(Point{20, 20}, Point{400, 110})
	for i := range 8 {
		p := Polar(Point{210, 65}, 38, 2*math.Pi*float64(i)/8)
		c.Circle(Solid, p, 3)
	}
	c.TurnArrow(Marked, Point{210, 65}, 38, 0.3, 1.2)
	c.Frame(Point{30, 100}, "x", "y")
	c.TableFront(Point{20, 260}, Point{260, 252}, 26)
	c.Spindle(Point{140, 215}, 60, 80, 0.08)
	c.Plunger(Point{320, 260}, 26, 0.15)
	c.Lever(Point{375, 260}, 34, 2.2)
	c.Level(Point{100, 370}, 150, 0.05, 0.6, false)
	c.Level(Point{300, 370}, 150, 0.05, -0.4, true)
	c.Dimension(Point{25, 372}, Point{175, 365}, -26, notebook.Say("{}", notebook.Exact(0.2, notebook.Lengths)))
	plus, minus := c.Supply(Point{30, 420}, Point{150, 500})
	c.Tank(Point{220, 450}, Point{390, 590}, 0.8)
	c.Box(Nickel, Point{240, 440}, Point{252, 560}, 0)
	c.Box(Nickel, Point{358, 440}, Point{370, 560}, 0)
	c.Box(Brass, Point{296, 490}, Point{314, 540}, 0)
	c.Line(Visible, plus, Point{plus.X, 430}, Point{246, 430}, Point{246, 440})
	c.Line(Visible, minus, Point{minus.X, 520}, Point{200, 520}, Point{200, 440}, Point{305, 440}, Point{305, 490})
	c.Leader(Point{100, 560}, End, "part <here>", Point{300, 520})
	c.Angle(Point{30, 620}, 50, 0, 0.6, notebook.Plain("lean"))
	c.Number(Point{180, 600}, 3)
	c.Hatch(Point{120, 590}, Point{160, 615})
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
