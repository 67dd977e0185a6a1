package drawing

import (
	"errors"
	"fmt"
	"html"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// Point is a place on a canvas, x to the right and y downward.
type Point struct{ X, Y float64 }

// Add returns the point moved by dx, dy.
func (p Point) Add(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

// Style is how a line or a face is drawn. It is the class of the element.
type Style string

// The styles. The first five are lines, the others closed faces with an
// outline.
const (
	Visible Style = "ln"   // a visible edge
	Thin    Style = "thin" // an auxiliary line
	Hidden  Style = "hid"  // an edge that is covered: dashed
	Centre  Style = "ctr"  // an axis: dash-dot
	Marked  Style = "acc"  // the thing that is measured, or its direction

	Body   Style = "body"   // a body
	Steel  Style = "steel"  // a machined face
	Brass  Style = "brass"  // brass
	Nickel Style = "nickel" // nickel, or an anode
	Bath   Style = "bath"   // a liquid
	Glass  Style = "glass"  // a window, a dial's face
	Wedge  Style = "wedge"  // the gap that a slope makes
	Bubble Style = "bubble" // a level's bubble
	Solid  Style = "solid"  // filled with the ink: arrow heads, needles
)

// Canvas is a drawing in the making. Its first error, such as a coordinate
// that is not finite, is kept and returned by [Canvas.SVG].
type Canvas struct {
	name, title, says string
	width, height     float64
	body              strings.Builder
	err               error
}

// New returns an empty canvas. The name is unique on the page, as an item's
// is; the title and what the drawing says are for those who cannot see it.
func New(name, title, says string, width, height float64) *Canvas {
	c := &Canvas{name: name, title: title, says: says, width: width, height: height}
	if !(width > 0 && height > 0) || math.IsInf(width, 0) || math.IsInf(height, 0) {
		c.fail(fmt.Errorf("drawing %q: size %g by %g is not above zero", name, width, height))
	}
	return c
}

func (c *Canvas) fail(err error) {
	if c.err == nil {
		c.err = err
	}
}

// farthest is the largest coordinate that is drawn.
const farthest = 1e5

// number writes a coordinate with two decimals at most.
func (c *Canvas) number(x float64) string {
	if math.IsNaN(x) || math.Abs(x) > farthest {
		c.fail(fmt.Errorf("drawing %q: coordinate %g is off the sheet", c.name, x))
		return "0"
	}
	text := strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64)
	if text == "-0" {
		return "0"
	}
	return text
}

func (c *Canvas) point(p Point) string { return c.number(p.X) + " " + c.number(p.Y) }

// path writes one path element.
func (c *Canvas) path(style Style, data string) {
	c.body.WriteString(`<path class="` + string(style) + `" d="` + data + `"/>`)
}

// Line draws straight lines from point to point.
func (c *Canvas) Line(style Style, points ...Point) { c.polygon(style, points, "") }

// Face draws a closed outline, filled as the style says.
func (c *Canvas) Face(style Style, points ...Point) { c.polygon(style, points, "Z") }

func (c *Canvas) polygon(style Style, points []Point, end string) {
	if len(points) < 2 {
		c.fail(fmt.Errorf("drawing %q: a line of %d points", c.name, len(points)))
		return
	}
	var d strings.Builder
	for i, p := range points {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		d.WriteString(letter + c.point(p))
	}
	c.path(style, d.String()+end)
}

// Soft draws a closed outline with its corners rounded by r, or by less where a
// side is short.
func (c *Canvas) Soft(style Style, r float64, points ...Point) {
	n := len(points)
	if n < 3 {
		c.fail(fmt.Errorf("drawing %q: an outline of %d points", c.name, n))
		return
	}
	var d strings.Builder
	for i, p := range points {
		from, to := toward(p, points[(i+n-1)%n], r), toward(p, points[(i+1)%n], r)
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		d.WriteString(letter + c.point(from) + "Q" + c.point(p) + " " + c.point(to))
	}
	c.path(style, d.String()+"Z")
}

// toward returns the point at distance r from p on the way to q, at most half
// of it.
func toward(p, q Point, r float64) Point {
	length := math.Hypot(q.X-p.X, q.Y-p.Y)
	if length == 0 {
		return p
	}
	share := math.Min(r/length, 0.5)
	return Point{p.X + (q.X-p.X)*share, p.Y + (q.Y-p.Y)*share}
}

// Box draws an upright rectangle between two opposite corners, its corners
// rounded by r.
func (c *Canvas) Box(style Style, a, b Point, r float64) {
	x, y := math.Min(a.X, b.X), math.Min(a.Y, b.Y)
	c.body.WriteString(`<rect class="` + string(style) + `" x="` + c.number(x) + `" y="` + c.number(y) +
		`" width="` + c.number(math.Abs(a.X-b.X)) + `" height="` + c.number(math.Abs(a.Y-b.Y)) + `"`)
	if r > 0 {
		c.body.WriteString(` rx="` + c.number(r) + `"`)
	}
	c.body.WriteString("/>")
}

// Circle draws a circle.
func (c *Canvas) Circle(style Style, centre Point, r float64) {
	c.body.WriteString(`<circle class="` + string(style) + `" cx="` + c.number(centre.X) + `" cy="` + c.number(centre.Y) + `" r="` + c.number(r) + `"/>`)
}

// Ellipse draws an ellipse with its axes along x and y.
func (c *Canvas) Ellipse(style Style, centre Point, rx, ry float64) {
	c.body.WriteString(`<ellipse class="` + string(style) + `" cx="` + c.number(centre.X) + `" cy="` + c.number(centre.Y) +
		`" rx="` + c.number(rx) + `" ry="` + c.number(ry) + `"/>`)
}

// Arc draws part of a circle between two angles in radians, counted
// anticlockwise from the right as seen on the page.
func (c *Canvas) Arc(style Style, centre Point, r, from, to float64) {
	c.path(style, c.arc(centre, r, from, to))
}

func (c *Canvas) arc(centre Point, r, from, to float64) string {
	large, sweep := "0", "0"
	if math.Abs(to-from) > math.Pi {
		large = "1"
	}
	if to < from {
		sweep = "1"
	}
	return "M" + c.point(Polar(centre, r, from)) + "A" + c.number(r) + " " + c.number(r) + " 0 " + large + " " + sweep + " " + c.point(Polar(centre, r, to))
}

// Polar returns the point at distance r from the centre in the direction of
// the angle, in radians anticlockwise from the right as seen on the page.
func Polar(centre Point, r, angle float64) Point {
	return Point{centre.X + r*math.Cos(angle), centre.Y - r*math.Sin(angle)}
}

// headLength and headHalf are the size of an arrow head.
const headLength, headHalf = 9, 3.2

// Arrow draws an arrow from one point to another.
func (c *Canvas) Arrow(style Style, from, to Point) {
	c.Line(style, from, to)
	c.head(to, math.Atan2(from.Y-to.Y, to.X-from.X))
}

// TurnArrow draws an arrow along part of a circle.
func (c *Canvas) TurnArrow(style Style, centre Point, r, from, to float64) {
	c.Arc(style, centre, r, from, to)
	turn := math.Pi / 2
	if to < from {
		turn = -turn
	}
	c.head(Polar(centre, r, to), to+turn)
}

// head draws an arrow head with its tip at p, pointing in the direction of the
// angle.
func (c *Canvas) head(tip Point, angle float64) {
	back := Polar(tip, headLength, angle+math.Pi)
	c.Face(Solid, tip, Polar(back, headHalf, angle+math.Pi/2), Polar(back, headHalf, angle-math.Pi/2))
}

// Anchor says which end of a label stands at its point.
type Anchor string

// The anchors.
const (
	Start  Anchor = "start"
	Middle Anchor = "middle"
	End    Anchor = "end"
)

// Label writes a sentence at a point, its quantities in both systems of units.
func (c *Canvas) Label(at Point, anchor Anchor, text notebook.Text) {
	c.letters("lbl", at, anchor, text)
}

// Words writes a label without quantities.
func (c *Canvas) Words(at Point, anchor Anchor, words string) {
	c.Label(at, anchor, notebook.Plain(words))
}

func (c *Canvas) letters(class string, at Point, anchor Anchor, text notebook.Text) {
	metric, inch := text.In(notebook.Metric), text.In(notebook.Inch)
	place := ` x="` + c.number(at.X) + `" y="` + c.number(at.Y) + `" text-anchor="` + string(anchor) + `">`
	if metric == inch {
		c.body.WriteString(`<text class="` + class + `"` + place + escaped(metric) + "</text>")
		return
	}
	c.body.WriteString(`<text class="` + class + ` metric"` + place + escaped(metric) + "</text>")
	c.body.WriteString(`<text class="` + class + ` inch"` + place + escaped(inch) + "</text>")
}

// escaped returns words as they may stand in an SVG element or attribute,
// without what XML does not allow.
func escaped(words string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(words, "\ufffd")))
}

// Leader writes a label with a thin line from it to the thing it names.
func (c *Canvas) Leader(at Point, anchor Anchor, words string, thing Point) {
	from := at.Add(4, -4)
	switch anchor {
	case Middle:
		from = at.Add(0, 5)
		if thing.Y < at.Y {
			from = at.Add(0, -14)
		}
	case Start:
		from = at.Add(-4, -4)
	}
	c.Line(Thin, from, thing)
	c.Circle(Solid, thing, 1.8)
	c.Words(at, anchor, words)
}

// Number draws a numbered circle, for a step of the text.
func (c *Canvas) Number(at Point, n int) {
	c.Circle(Glass, at, 10)
	c.letters("num", at.Add(0, 5), Middle, notebook.Plain(strconv.Itoa(n)))
}

// extension is how far extension lines stand off the thing and past the
// dimension line.
const standOff, extension = 3, 5

// Dimension draws the distance from a to b: extension lines, a line with
// arrows at the given offset to the left of the way from a to b (downward and
// to the right are the page's axes), and a label at its middle.
func (c *Canvas) Dimension(a, b Point, offset float64, text notebook.Text) {
	length := math.Hypot(b.X-a.X, b.Y-a.Y)
	if !(length > 0) {
		c.fail(fmt.Errorf("drawing %q: a dimension of no length", c.name))
		return
	}
	nx, ny := (b.Y-a.Y)/length, -(b.X-a.X)/length
	side := math.Copysign(1, offset)
	from, to := a.Add(nx*offset, ny*offset), b.Add(nx*offset, ny*offset)
	for _, end := range []struct{ thing, line Point }{{a, from}, {b, to}} {
		c.Line(Thin, end.thing.Add(nx*side*standOff, ny*side*standOff), end.line.Add(nx*side*extension, ny*side*extension))
	}
	angle := math.Atan2(a.Y-b.Y, b.X-a.X)
	c.Line(Thin, from, to)
	if length < 3*headLength {
		c.head(from, angle)
		c.head(to, angle+math.Pi)
	} else {
		c.head(from, angle+math.Pi)
		c.head(to, angle)
	}
	middle := Point{(from.X + to.X) / 2, (from.Y + to.Y) / 2}
	switch {
	case math.Abs(nx) < 0.5:
		c.Label(middle.Add(0, -5), Middle, text)
	case nx*side > 0:
		c.Label(middle.Add(6, 5), Start, text)
	default:
		c.Label(middle.Add(-6, 5), End, text)
	}
}

// Angle draws the angle at a corner between two directions, in radians
// anticlockwise from the right, with a label outside its middle.
func (c *Canvas) Angle(corner Point, r, from, to float64, text notebook.Text) {
	c.TurnArrow(Thin, corner, r, from, to)
	at := Polar(corner, r+8, (from+to)/2)
	anchor := Start
	if at.X < corner.X-r/2 {
		anchor = End
	}
	c.Label(at.Add(0, 5), anchor, text)
}

// Hatch fills an upright rectangle with the thin lines of a cut face.
func (c *Canvas) Hatch(a, b Point) {
	c.HatchFace(a, Point{b.X, a.Y}, b, Point{a.X, b.Y})
}

// HatchFace fills a closed outline with the thin lines of a cut face.
func (c *Canvas) HatchFace(points ...Point) {
	const step = 7 * math.Sqrt2
	least, most := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		if math.IsNaN(p.X+p.Y) || math.Abs(p.X)+math.Abs(p.Y) > farthest {
			c.number(p.X)
			c.number(p.Y)
			return
		}
		least, most = math.Min(least, p.X+p.Y), math.Max(most, p.X+p.Y)
	}
	for s := math.Ceil(least/step) * step; s < most; s += step {
		cuts := crossings(points, s)
		for i := 0; i+1 < len(cuts); i += 2 {
			c.Line(Thin, Point{cuts[i], s - cuts[i]}, Point{cuts[i+1], s - cuts[i+1]})
		}
	}
}

// crossings returns, in order, the x at which the line x + y = s crosses the
// outline.
func crossings(points []Point, s float64) []float64 {
	var cuts []float64
	for i, p := range points {
		q := points[(i+1)%len(points)]
		before, after := p.X+p.Y-s, q.X+q.Y-s
		if before < 0 != (after < 0) {
			cuts = append(cuts, p.X+(q.X-p.X)*before/(before-after))
		}
	}
	slices.Sort(cuts)
	return cuts
}

// Exaggerated writes at the foot of the drawing how much it exaggerates.
func (c *Canvas) Exaggerated(what string, times float64) {
	c.letters("fine", Point{c.width / 2, c.height - 6}, Middle,
		notebook.Plain(what+" drawn "+notebook.FormatNumber(times, 0)+" times too large."))
}

// Note writes small words at a point.
func (c *Canvas) Note(at Point, anchor Anchor, words string) {
	c.letters("fine", at, anchor, notebook.Plain(words))
}

// SVG returns the drawing as one svg element, or the first error.
func (c *Canvas) SVG() (string, error) {
	size := c.number(c.width) + " " + c.number(c.height)
	if c.err == nil && c.body.Len() == 0 {
		c.err = errors.New("drawing \"" + c.name + "\" is empty")
	}
	if c.err != nil {
		return "", c.err
	}
	id := escaped("drawing-" + c.name)
	return `<svg viewBox="0 0 ` + size + `" role="img" aria-labelledby="` + id + `-title ` + id + `-says">` +
		`<title id="` + id + `-title">` + escaped(c.title) + "</title>" +
		`<desc id="` + id + `-says">` + escaped(c.says) + "</desc>" + c.body.String() + "</svg>", nil
}

// Item returns the drawing as an item of a sheet.
func (c *Canvas) Item(caption notebook.Text) (notebook.Drawing, error) {
	svg, err := c.SVG()
	return notebook.Drawing{Name: c.name, Title: c.title, Caption: caption, SVG: svg}, err
}

// View maps a world in metres, its second axis upward, onto a canvas.
type View struct {
	// Origin is where the world's origin stands.
	Origin Point
	// Along and Up are canvas units a metre, along the first axis and along
	// the second.
	Along, Up float64
}

// At returns the place of a point of the world.
func (v View) At(x, up float64) Point { return Point{v.Origin.X + v.Along*x, v.Origin.Y - v.Up*up} }

// Times is how many times too large the second axis is drawn.
func (v View) Times() float64 { return v.Up / v.Along }
