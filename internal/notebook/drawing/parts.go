package drawing

import "math"

// Parts are things that several lessons draw, each drawn here once. Sizes are
// in canvas units.

// Dial draws a dial indicator's face: a bezel, ticks all round, and the needle
// at the given fraction of a turn clockwise from the top.
func (c *Canvas) Dial(centre Point, r, turn float64) {
	c.Circle(Body, centre, r)
	c.Circle(Glass, centre, r*0.86)
	for i := range 20 {
		angle := math.Pi/2 - 2*math.Pi*float64(i)/20
		inner := 0.74
		if i%5 == 0 {
			inner = 0.64
		}
		c.Line(Thin, Polar(centre, r*inner, angle), Polar(centre, r*0.84, angle))
	}
	angle := math.Pi/2 - 2*math.Pi*turn
	c.Face(Solid, Polar(centre, r*0.74, angle), Polar(centre, r*0.08, angle+math.Pi/2), Polar(centre, r*0.2, angle+math.Pi), Polar(centre, r*0.08, angle-math.Pi/2))
	c.Circle(Solid, centre, r*0.09)
}

// Plunger draws a dial with a stem that points down to the tip.
func (c *Canvas) Plunger(tip Point, r, turn float64) {
	c.Box(Steel, tip.Add(-2, -r*0.55), tip.Add(2, -3), 0)
	c.Box(Body, tip.Add(-4.5, -r*0.95), tip.Add(4.5, -r*0.5), 1)
	c.Circle(Solid, tip.Add(0, -2.5), 2.5)
	c.Dial(tip.Add(0, -r*1.85), r, turn)
}

// Lever draws a lever indicator whose stylus reaches down to the tip at the
// given angle to the surface, its body to the left of it, or to the right when
// the angle is over a right angle.
func (c *Canvas) Lever(tip Point, length, angle float64) {
	root := Polar(tip, length, angle)
	c.Line(Visible, tip.Add(0, -2.5), root)
	c.Circle(Solid, tip.Add(0, -2.5), 2.5)
	along := Polar(root, length*0.9, angle)
	n := math.Pi/2 + angle
	const half = 7
	c.Face(Body, Polar(root, half*0.6, n), Polar(along, half, n), Polar(along, half, n+math.Pi), Polar(root, half*0.6, n+math.Pi))
	c.Dial(Polar(root, length*0.9+12, angle), 14, 0)
}

// Level draws a precision level standing on a surface: its middle at the given
// point of the surface, tilted by the angle (positive: right end high), the
// bubble off its middle by the given fraction of the vial's half length, and
// its marked end to the right, or to the left when turned.
func (c *Canvas) Level(middle Point, length, angle, bubble float64, turned bool) {
	place := func(x, y float64) Point {
		return Point{middle.X + x*math.Cos(angle) - y*math.Sin(angle), middle.Y - x*math.Sin(angle) - y*math.Cos(angle)}
	}
	half, high := length/2, length*0.2
	c.Face(Body, place(-half, 0), place(half, 0), place(half, high*0.55), place(half*0.62, high), place(-half*0.62, high), place(-half, high*0.55))
	c.Face(Steel, place(-half, 0), place(-half, 3), place(half, 3), place(half, 0))
	vial, low, top := half*0.48, high*0.45, high*0.85
	c.Face(Glass, place(-vial, low), place(vial, low), place(vial, top), place(-vial, top))
	for _, s := range []float64{-0.55, -0.3, 0.3, 0.55} {
		c.Line(Thin, place(vial*s, low), place(vial*s, top))
	}
	at := place(vial*bubble*0.6, (low+top)/2)
	c.Ellipse(Marked, at, vial*0.26, (top-low)*0.36)
	mark := place(half*0.82, high*0.28)
	if turned {
		mark = place(-half*0.82, high*0.28)
	}
	c.Circle(Solid, mark, 3)
}

// Spindle draws a mill's quill and spindle from the front: its axis through
// the given point of its nose, leaning by the angle (positive: the nose to the
// left, the top to the right).
func (c *Canvas) Spindle(nose Point, width, height, angle float64) {
	place := func(x, up float64) Point {
		return Point{nose.X + x*math.Cos(angle) + up*math.Sin(angle), nose.Y + x*math.Sin(angle) - up*math.Cos(angle)}
	}
	half := width / 2
	c.Face(Body, place(-half, height*0.38), place(half, height*0.38), place(half, height), place(-half, height))
	c.Face(Steel, place(-half*0.68, height*0.14), place(half*0.68, height*0.14), place(half*0.68, height*0.38), place(-half*0.68, height*0.38))
	c.Face(Steel, place(-half*0.42, 0), place(half*0.42, 0), place(half*0.5, height*0.14), place(-half*0.5, height*0.14))
	c.Line(Centre, place(0, -height*0.3), place(0, height*1.12))
}

// TableFront draws a mill's table from the front: its top between two points,
// T-slots at its ends, on a saddle.
func (c *Canvas) TableFront(left, right Point, thick float64) {
	c.Face(Body, left, right, right.Add(0, thick), left.Add(0, thick))
	c.Line(Thin, left.Add(0, thick*0.32), right.Add(0, thick*0.32))
	middle := Point{(left.X + right.X) / 2, (left.Y + right.Y) / 2}
	reach := (right.X - left.X) * 0.24
	c.Box(Steel, middle.Add(-reach, thick), middle.Add(reach, thick*1.9), 0)
}

// TablePlan draws a mill's table from above between two corners, with its
// T-slots.
func (c *Canvas) TablePlan(a, b Point) {
	c.Box(Body, a, b, 3)
	x0, x1 := math.Min(a.X, b.X), math.Max(a.X, b.X)
	y0, high := math.Min(a.Y, b.Y), math.Abs(b.Y-a.Y)
	for i := 1; i <= 3; i++ {
		y := y0 + high*float64(i)/4
		c.Line(Thin, Point{x0, y - 2.5}, Point{x1, y - 2.5})
		c.Line(Thin, Point{x0, y + 2.5}, Point{x1, y + 2.5})
	}
}

// Tank draws a small plating tank in section between two corners, its liquid up
// to the given fraction of its height.
func (c *Canvas) Tank(a, b Point, full float64) {
	x0, x1 := math.Min(a.X, b.X), math.Max(a.X, b.X)
	y0, y1 := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	surface := y1 - (y1-y0)*full
	c.Box(Bath, Point{x0, surface}, Point{x1, y1}, 0)
	c.Line(Visible, Point{x0, y0}, Point{x0, y1}, Point{x1, y1}, Point{x1, y0})
	c.Line(Thin, Point{x0, surface}, Point{x1, surface})
}

// Supply draws a bench supply between two corners: two meters and two
// terminals, whose places it returns, plus first.
func (c *Canvas) Supply(a, b Point) (plus, minus Point) {
	x0, x1 := math.Min(a.X, b.X), math.Max(a.X, b.X)
	y0, y1 := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	wide, high := x1-x0, y1-y0
	c.Box(Body, a, b, 4)
	for i, letter := range []string{"A", "V"} {
		left := Point{x0 + wide*(0.08+0.46*float64(i)), y0 + high*0.14}
		c.Box(Glass, left, left.Add(wide*0.38, high*0.36), 2)
		c.Words(left.Add(wide*0.19, high*0.36-5), Middle, letter)
	}
	plus, minus = Point{x0 + wide*0.27, y1 - high*0.22}, Point{x0 + wide*0.73, y1 - high*0.22}
	c.Circle(Marked, plus, 5)
	c.Circle(Solid, minus, 5)
	c.Words(plus.Add(-9, 5), End, "+")
	c.Words(minus.Add(9, 5), Start, "−")
	return plus, minus
}

// Frame draws the machine's axes with their signs at a point: the first to the
// right, the second upward.
func (c *Canvas) Frame(at Point, first, second string) {
	const long = 30
	c.Arrow(Visible, at, at.Add(long, 0))
	c.Arrow(Visible, at, at.Add(0, -long))
	c.Words(at.Add(long+4, 5), Start, first)
	c.Words(at.Add(0, -long-5), Middle, second)
}
