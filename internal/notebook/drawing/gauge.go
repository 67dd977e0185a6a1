package drawing

import "math"

// Gauges: dials, a lever indicator and a level. Sizes are in canvas units.

// standing returns places on a thing that stands at a point, turned
// anticlockwise by the angle: x along it, up away from what it stands on.
func standing(at Point, angle float64) func(x, up float64) Point {
	sin, cos := math.Sincos(angle)
	return func(x, up float64) Point { return Point{at.X + x*cos - up*sin, at.Y - x*sin - up*cos} }
}

// Dial draws a dial indicator's face: a bezel, graduations all round, and the
// needle at the given fraction of a turn clockwise from the top. A large dial
// has more graduations and a small hand that counts the turns.
func (c *Canvas) Dial(centre Point, r, turn float64) {
	c.Circle(Body, centre, r)
	c.Circle(Glass, centre, r*0.84)
	graduations, long := 20, 5
	if r >= 30 {
		graduations, long = 50, 10
	}
	for i := range graduations {
		angle := math.Pi/2 - 2*math.Pi*float64(i)/float64(graduations)
		if i%long == 0 {
			c.Line(Visible, Polar(centre, r*0.64, angle), Polar(centre, r*0.78, angle))
		} else {
			c.Line(Thin, Polar(centre, r*0.7, angle), Polar(centre, r*0.78, angle))
		}
	}
	if r >= 24 {
		c.turnCounter(centre.Add(0, r*0.36), r*0.17, turn)
	}
	angle := math.Pi/2 - 2*math.Pi*turn
	c.Face(Solid, Polar(centre, r*0.74, angle), Polar(centre, r*0.07, angle+math.Pi/2),
		Polar(centre, r*0.24, angle+math.Pi), Polar(centre, r*0.07, angle-math.Pi/2))
	c.Circle(Solid, centre, r*0.1)
	c.Circle(Glass, centre, r*0.035)
}

// turnCounter draws the small hand of a dial.
func (c *Canvas) turnCounter(centre Point, r, turn float64) {
	c.Circle(Glass, centre, r)
	c.Line(Thin, centre, Polar(centre, r*0.8, math.Pi/2-2*math.Pi*turn/10))
}

// Plunger draws a dial with a stem that points down to the tip.
func (c *Canvas) Plunger(tip Point, r, turn float64) {
	bush, rod := r*0.2, r*0.08
	c.Box(Steel, tip.Add(-rod, -r*0.6), tip.Add(rod, -r*0.22), 0)
	c.Face(Steel, tip.Add(-rod*1.7, -r*0.24), tip.Add(rod*1.7, -r*0.24), tip.Add(1, -3), tip.Add(-1, -3))
	c.Circle(Solid, tip.Add(0, -2.2), 2.2)
	c.Box(Steel, tip.Add(-bush, -r*1.1), tip.Add(bush, -r*0.46), 1.5)
	c.Line(Thin, tip.Add(-bush, -r*0.56), tip.Add(bush, -r*0.56))
	c.Box(Steel, tip.Add(-bush*0.8, -r*3.04), tip.Add(bush*0.8, -r*2.7), 1.5)
	c.Dial(tip.Add(0, -r*1.85), r, turn)
}

// Lever draws a lever indicator whose stylus reaches down to the tip at the
// given angle to the surface, its body to the right of it, or to the left when
// the angle is over a right angle.
func (c *Canvas) Lever(tip Point, length, angle float64) {
	const half = 7
	ball := tip.Add(0, -2.5)
	root := Polar(tip, length, angle)
	at := standing(root, angle)
	c.Face(Steel, Polar(ball, 1.2, angle+math.Pi/2), at(0, 2.4), at(0, -2.4), Polar(ball, 1.2, angle-math.Pi/2))
	c.Circle(Solid, ball, 2.5)
	c.Soft(Steel, 1, at(length*0.5, -half-4), at(length*0.95, -half-4), at(length*0.9, half+4), at(length*0.55, half+4))
	c.Soft(Body, 3, at(-4, half*0.75), at(length*0.3, half), at(length, half), at(length, -half), at(length*0.3, -half), at(-4, -half*0.75))
	c.Circle(Steel, root, 3.4)
	c.Circle(Solid, root, 1)
	c.Dial(at(length*0.9+12, 0), 15, 0.03)
}

// Level draws a precision level standing on a surface: its middle at the given
// point of the surface, tilted by the angle (positive: right end high), the
// bubble off its middle by the given fraction of the vial's half length, and
// its marked end, with a dot, to the right, or to the left when turned.
func (c *Canvas) Level(middle Point, length, angle, bubble float64, turned bool) {
	at := standing(middle, angle)
	half, high := length/2, length*0.2
	foot, gap := half*0.42, high*0.1
	c.Soft(Body, 2.5, at(-half, gap), at(-half, high*0.5), at(-half*0.66, high*0.62), at(-half*0.6, high),
		at(half*0.6, high), at(half*0.66, high*0.62), at(half, high*0.5), at(half, gap))
	c.Face(Steel, at(-half, 0), at(-foot, 0), at(-foot+gap, gap), at(foot-gap, gap), at(foot, 0), at(half, 0), at(half, gap*2.2), at(-half, gap*2.2))
	c.vial(at, half*0.5, high*0.42, high*0.86, bubble)
	mark := half * 0.84
	if turned {
		mark = -mark
	}
	c.Circle(Solid, at(mark, high*0.38), 3)
}

// vial draws a level's glass with its lines and its bubble.
func (c *Canvas) vial(at func(x, up float64) Point, half, low, top, bubble float64) {
	c.Soft(Glass, (top-low)*0.45, at(-half, low), at(half, low), at(half, top), at(-half, top))
	for _, s := range []float64{0.36, 0.5, 0.64} {
		c.Line(Thin, at(half*s, low), at(half*s, top))
		c.Line(Thin, at(-half*s, low), at(-half*s, top))
	}
	x, middle := half*math.Max(-1, math.Min(1, bubble))*0.58, (low+top)/2
	long, tall := half*0.32, (top-low)*0.3
	c.Soft(Bubble, tall*0.95, at(x-long, middle-tall), at(x+long, middle-tall), at(x+long, middle+tall), at(x-long, middle+tall))
}
