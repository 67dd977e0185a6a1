package drawing

import "math"

// The plating bench. Sizes are in canvas units.

// Tank draws a small plating tank in section between two corners, its liquid up
// to the given fraction of its height.
func (c *Canvas) Tank(a, b Point, full float64) {
	x0, x1 := math.Min(a.X, b.X), math.Max(a.X, b.X)
	y0, y1 := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	surface := y1 - (y1-y0)*full
	const wall, lip = 5, 6
	c.Box(Bath, Point{x0, surface}, Point{x1, y1 - wall}, 0)
	c.Soft(Glass, 4, Point{x0 - lip, y0}, Point{x0, y0}, Point{x0, y1 - wall}, Point{x1, y1 - wall}, Point{x1, y0}, Point{x1 + lip, y0},
		Point{x1 + wall, y0 + wall}, Point{x1 + wall, y1}, Point{x0 - wall, y1}, Point{x0 - wall, y0 + wall})
	c.Line(Thin, Point{x0, surface}, Point{x1, surface})
	for i, share := range []float64{0.14, 0.5, 0.82} { // the sign of a liquid's surface
		x, y := x0+(x1-x0)*share, surface+6+4*float64(i%2)
		c.Line(Thin, Point{x - 8, y}, Point{x + 8, y})
	}
}

// Anode draws an anode that hangs by a hook from the given point, its bag
// dashed about it.
func (c *Canvas) Anode(hook Point, width, length float64) {
	half, neck := width/2, math.Min(14, length*0.2)
	c.Line(Visible, hook.Add(-4, 4), hook.Add(-4, -1), hook.Add(0, -4), hook.Add(3, -1), hook.Add(0, neck))
	c.Box(Nickel, hook.Add(-half, neck), hook.Add(half, length), 2)
	c.Box(Hidden, hook.Add(-half-4, neck+4), hook.Add(half+4, length+5), 3)
}

// Wire draws a wire through the points, with a hook at its last.
func (c *Canvas) Wire(points ...Point) {
	c.Line(Visible, points...)
	if len(points) > 0 {
		c.Circle(Solid, points[len(points)-1], 2.6)
	}
}

// Bar draws a bar across the top of a tank, seen along its length, from which
// anodes or parts hang.
func (c *Canvas) Bar(left, right Point) { c.Box(Brass, left.Add(0, -3), right.Add(0, 3), 2) }

// Supply draws a bench supply between two corners: two meters, two knobs and
// two terminals, whose places it returns, plus first.
func (c *Canvas) Supply(a, b Point) (plus, minus Point) {
	x0, x1 := math.Min(a.X, b.X), math.Max(a.X, b.X)
	y0, y1 := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	wide, high := x1-x0, y1-y0
	for _, share := range []float64{0.1, 0.78} { // feet
		c.Box(Solid, Point{x0 + wide*share, y1}, Point{x0 + wide*(share+0.12), y1 + 4}, 1)
	}
	c.Box(Body, a, b, 5)
	for i, letter := range []string{"A", "V"} {
		left := Point{x0 + wide*(0.07+0.46*float64(i)), y0 + high*0.1}
		c.Box(Glass, left, left.Add(wide*0.4, high*0.34), 2)
		c.Words(left.Add(wide*0.2, high*0.17+5), Middle, letter)
		knob := Point{x0 + wide*(0.39+0.22*float64(i)), y1 - high*0.26}
		c.Circle(Steel, knob, high*0.1)
		c.Line(Thin, knob, Polar(knob, high*0.1, 2.2-1.2*float64(i)))
	}
	plus, minus = Point{x0 + wide*0.15, y1 - high*0.18}, Point{x0 + wide*0.85, y1 - high*0.18}
	c.Circle(Marked, plus, 5)
	c.Circle(Solid, minus, 5)
	c.Words(plus.Add(0, -10), Middle, "+")
	c.Words(minus.Add(0, -10), Middle, "−")
	return plus, minus
}

// Frame draws the machine's axes with their signs at a point: the first to the
// right, the second upward.
func (c *Canvas) Frame(at Point, first, second string) {
	const long = 30
	c.Arrow(Visible, at, at.Add(long, 0))
	c.Arrow(Visible, at, at.Add(0, -long))
	c.Circle(Solid, at, 2)
	c.Words(at.Add(long+4, 5), Start, first)
	c.Words(at.Add(0, -long-5), Middle, second)
}
