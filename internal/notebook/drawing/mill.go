package drawing

import "math"

// The mill and what stands on it. Sizes are in canvas units.

// Spindle draws a mill's head, quill and spindle: its axis through the given
// point of its nose, leaning by the angle (positive: the nose to the left, the
// top to the right).
func (c *Canvas) Spindle(nose Point, width, height, angle float64) {
	at := standing(nose, -angle)
	half := width / 2
	band := func(style Style, wide, from, to float64) {
		c.Face(style, at(-half*wide, height*from), at(half*wide, height*from), at(half*wide, height*to), at(-half*wide, height*to))
	}
	c.Soft(Body, 5, at(-half, height), at(-half, height*0.5), at(-half*0.82, height*0.38), at(half*0.82, height*0.38), at(half, height*0.5), at(half, height))
	c.Line(Thin, at(-half, height*0.52), at(half, height*0.52))
	c.Line(Thin, at(-half, height*0.92), at(half, height*0.92))
	band(Steel, 0.66, 0.15, 0.38)
	c.Line(Thin, at(-half*0.66, height*0.2), at(half*0.66, height*0.2))
	for _, x := range []float64{-0.5, 0.5} { // the light along a round thing
		c.Line(Thin, at(half*x, height*0.22), at(half*x, height*0.36))
	}
	c.Face(Steel, at(-half*0.36, 0), at(half*0.36, 0), at(half*0.48, height*0.15), at(-half*0.48, height*0.15))
	c.Line(Thin, at(-half*0.4, height*0.05), at(half*0.4, height*0.05))
	c.Line(Centre, at(0, -height*0.3), at(0, height*1.12))
}

// TableFront draws a mill's table from the front, its top between two points,
// on its saddle.
func (c *Canvas) TableFront(left, right Point, thick float64) {
	length := math.Hypot(right.X-left.X, right.Y-left.Y)
	at := standing(Point{(left.X + right.X) / 2, (left.Y + right.Y) / 2}, math.Atan2(left.Y-right.Y, right.X-left.X))
	half, saddle := length/2, length*0.24
	c.Soft(Steel, 2, at(-saddle, -thick), at(saddle, -thick), at(saddle*1.1, -thick*1.9), at(-saddle*1.1, -thick*1.9))
	c.Line(Thin, at(-saddle*1.04, -thick*1.34), at(saddle*1.04, -thick*1.34))
	c.Face(Body, at(-half, 0), at(half, 0), at(half, -thick*0.78), at(half*0.97, -thick), at(-half*0.97, -thick), at(-half, -thick*0.78))
	c.Line(Thin, at(-half, -thick*0.22), at(half, -thick*0.22))
	c.Line(Thin, at(-half, -thick*0.5), at(half, -thick*0.5))
	c.Line(Thin, at(-half, -thick*0.62), at(half, -thick*0.62))
}

// TableSide draws a mill's table from its end, its top's middle at the given
// point, with its T-slots in section, on its saddle.
func (c *Canvas) TableSide(top Point, width, thick float64) {
	at := standing(top, 0)
	half := width / 2
	slot, neck, head := width*0.035, thick*0.28, thick*0.5
	outline := []Point{at(-half, 0)}
	for _, x := range []float64{-0.28, 0, 0.28} {
		m := width * x
		outline = append(outline, at(m-slot, 0), at(m-slot, -neck), at(m-2*slot, -neck), at(m-2*slot, -head),
			at(m+2*slot, -head), at(m+2*slot, -neck), at(m+slot, -neck), at(m+slot, 0))
	}
	outline = append(outline, at(half, 0), at(half, -thick*0.7), at(half*0.72, -thick*0.7), at(half*0.56, -thick), at(-half*0.56, -thick), at(-half*0.72, -thick*0.7), at(-half, -thick*0.7))
	c.Face(Body, outline...)
	c.Face(Steel, at(-half*1.1, -thick*1.5), at(-half*1.1, -thick*0.78), at(-half*0.78, -thick*0.78), at(-half*0.6, -thick*1.06),
		at(half*0.6, -thick*1.06), at(half*0.78, -thick*0.78), at(half*1.1, -thick*0.78), at(half*1.1, -thick*1.5))
}

// TablePlan draws a mill's table from above between two corners, with its
// T-slots and the troughs at its ends.
func (c *Canvas) TablePlan(a, b Point) {
	x0, x1 := math.Min(a.X, b.X), math.Max(a.X, b.X)
	y0, y1 := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	c.Box(Body, a, b, 4)
	trough := math.Min(10, (x1-x0)*0.04)
	for _, x := range []float64{x0 + trough, x1 - trough} {
		c.Line(Thin, Point{x, y0}, Point{x, y1})
	}
	slot := math.Min(3, (y1-y0)*0.03)
	for i := 1; i <= 3; i++ {
		y := y0 + (y1-y0)*float64(i)/4
		c.Box(Steel, Point{x0 + trough, y - slot}, Point{x1 - trough, y + slot}, 0)
	}
}

// Vise draws a vise from the side. Its seat is the corner where the work meets
// the fixed jaw, which stands to the left, and the bed; the moving jaw stands
// the opening away to the right. The jaws rise height above the bed.
func (c *Canvas) Vise(seat Point, opening, height float64) {
	at := standing(seat, 0)
	deep, jaw := height*0.55, height*0.8
	end := opening + jaw*1.9
	screw := -deep * 0.45
	c.Box(Steel, at(end-2, screw+height*0.09), at(end+jaw*0.75, screw-height*0.09), 1)
	c.Box(Steel, at(end+jaw*0.75, screw+height*0.18), at(end+jaw*1.05, screw-height*0.18), 2)
	c.Soft(Body, 3, at(-jaw*1.2, -deep), at(-jaw*1.2, -deep*0.55), at(-jaw*0.9, -deep*0.4), at(-jaw*0.9, height*0.86), at(-jaw*0.7, height), at(-4, height), at(-4, 0),
		at(end, 0), at(end, -deep))
	c.Soft(Body, 3, at(opening+4, height), at(opening+jaw*0.55, height), at(opening+jaw*1.3, height*0.25), at(opening+jaw*1.3, 1), at(opening+4, 1))
	c.Box(Steel, at(-5, height-1), at(0, height*0.12), 0)
	c.Box(Steel, at(opening, height-1), at(opening+5, height*0.12), 0)
	c.Line(Thin, at(-jaw*0.9, -deep*0.4), at(end, -deep*0.4))
	c.Line(Hidden, at(opening+jaw*0.3, screw), at(end, screw))
}

// Square draws an engineer's square, its inner corner at the given point, the
// blade upward and the beam to the right, or to the left when its length is
// below zero.
func (c *Canvas) Square(corner Point, blade, beam float64) {
	thick, side := math.Abs(beam)*0.2, math.Copysign(1, beam)
	c.Box(Steel, corner.Add(-side*thick*0.7, thick), corner.Add(0, -blade), 0)
	c.Box(Body, corner.Add(-side*thick*1.1, thick), corner.Add(beam, 0), 1)
}

// Mill holds the places on a drawn mill to which labels and leaders point.
type Mill struct {
	Nose, Head, Quill, Ram, Table, Saddle, Knee, Column, Base Point
}

// MillFront draws a knee mill as its operator sees it, with its foot's middle
// at the given point and the given height.
func (c *Canvas) MillFront(foot Point, height float64) Mill {
	at := scaled(foot, height/100)
	c.Box(Body, at(-12, 4), at(12, 78), 2)                                               // column
	c.Soft(Body, 2, at(-21, 0), at(-21, 5), at(-13, 9), at(13, 9), at(21, 5), at(21, 0)) // base
	c.Box(Body, at(-9, 76), at(9, 84), 2)                                                // ram
	c.Soft(Body, 2, at(-11, 22), at(11, 22), at(13, 40), at(-13, 40))                    // knee
	c.Line(Thin, at(-12, 36), at(12, 36))
	c.Box(Steel, at(-2.4, 5), at(2.4, 22), 0)                                                        // the knee's screw
	c.Box(Steel, at(-17, 40), at(17, 45), 1)                                                         // saddle
	c.Soft(Body, 1.5, at(-42, 45.5), at(-43, 47), at(-43, 52), at(43, 52), at(43, 47), at(42, 45.5)) // table
	c.Line(Thin, at(-43, 50.4), at(43, 50.4))
	c.Line(Thin, at(-43, 48.6), at(43, 48.6))
	c.wheel(at(-47, 48.6), at(-43, 48.6), height*0.035)
	c.wheel(at(47, 48.6), at(43, 48.6), height*0.035)
	c.millHead(at, 9, 7, 5, at(16, 82))
	return Mill{Nose: at(0, 58.5), Head: at(-5, 82), Quill: at(-4, 66), Ram: at(-8, 80), Table: at(-30, 52), Saddle: at(-14, 42.5),
		Knee: at(-8, 30), Column: at(-11, 15), Base: at(-16, 4)}
}

// MillSide draws a knee mill from its right-hand side, the operator to the
// left, with the middle of its foot at the given point and the given height.
func (c *Canvas) MillSide(foot Point, height float64) Mill {
	at := scaled(foot, height/100)
	c.Soft(Body, 2, at(-34, 0), at(-34, 5), at(4, 9), at(30, 9), at(30, 0))       // base
	c.Soft(Body, 2, at(4, 8), at(6, 78), at(26, 78), at(28, 8))                   // column
	c.Soft(Body, 2, at(-28, 77), at(-28, 85), at(30, 85), at(30, 79), at(26, 77)) // ram
	c.Line(Thin, at(-28, 79), at(30, 79))
	c.Box(Steel, at(-12, 8), at(-7, 24), 0)                                                   // the knee's screw
	c.Soft(Body, 2, at(-25, 31), at(-25, 40), at(5, 40), at(5, 17), at(-3, 17), at(-18, 25))  // knee
	c.Soft(Steel, 1, at(-27, 40), at(-27, 45), at(2, 45), at(2, 40))                          // saddle
	c.Face(Body, at(-24, 45.5), at(-28, 47), at(-28, 52), at(0, 52), at(0, 47), at(-4, 45.5)) // table
	c.Line(Thin, at(-28, 50.4), at(0, 50.4))
	c.wheel(at(-32, 42.5), at(-27, 42.5), height*0.035)
	c.millHead(scaled(at(-17, 0), height/100), 9.5, 7.5, 5, at(-31, 74))
	return Mill{Nose: at(-17, 58.5), Head: at(-24, 84), Quill: at(-20, 66), Ram: at(12, 82), Table: at(-24, 51), Saddle: at(-24, 42.5),
		Knee: at(-10, 30), Column: at(16, 50), Base: at(-20, 3)}
}

// millHead draws the head, its motor and its quill about an axis, each of the
// given half width, and the quill's lever with its knob.
func (c *Canvas) millHead(at func(x, up float64) Point, head, motor, quill float64, knob Point) {
	c.Line(Visible, Point{at(math.Copysign(quill, knob.X-at(0, 0).X), 0).X, at(0, 78).Y}, knob)
	c.Circle(Solid, knob, 3)
	c.Soft(Body, 3, at(-head, 92), at(-head, 72), at(2-head, 69), at(head-2, 69), at(head, 72), at(head, 92))
	c.Box(Body, at(-motor, 92), at(motor, 101), 3)
	c.Line(Thin, at(-motor, 94), at(motor, 94))
	c.Box(Steel, at(-quill, 63), at(quill, 69), 0)
	c.Face(Steel, at(-2.4, 58.5), at(2.4, 58.5), at(3.4, 63), at(-3.4, 63))
	c.Line(Centre, at(0, 54), at(0, 104))
}

// wheel draws a handwheel from its edge, on a shaft that ends at the hub.
func (c *Canvas) wheel(rim, hub Point, r float64) {
	c.Line(Visible, rim, hub)
	c.Box(Steel, rim.Add(-1.5, -r), rim.Add(1.5, r), 1)
}

// scaled returns places in a grid of the given unit above a foot.
func scaled(foot Point, unit float64) func(x, up float64) Point {
	return func(x, up float64) Point { return foot.Add(x*unit, -up*unit) }
}
