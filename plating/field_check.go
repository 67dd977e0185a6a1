package plating

// The checks that a section can be solved, each with an error that names the
// outline and the place.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// checkOutlines checks names, roles and numbers, and returns the size of the
// section.
func (s Section) checkOutlines() (size float64, err error) {
	if !s.Axisymmetric {
		if err := positive("depth of a plane section", float64(s.Depth), inMillimetre); err != nil {
			return 0, err
		}
	}
	parts, anodes := 0, 0
	seen := map[string]bool{}
	low, high := r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for i, o := range s.Outlines {
		if o.Name == "" || seen[o.Name] {
			return 0, fmt.Errorf("plating: outline %d is named %q, must have a name of its own", i+1, o.Name)
		}
		seen[o.Name] = true
		switch o.Role {
		case RolePart:
			parts++
		case RoleAnode:
			anodes++
		case RoleWall, RoleShield, RoleThief:
		default:
			return 0, fmt.Errorf("plating: outline %q has an unknown role, %d", o.Name, int(o.Role))
		}
		if len(o.Corners) < 2 {
			return 0, fmt.Errorf("plating: outline %q has %d corners, must have at least 2", o.Name, len(o.Corners))
		}
		for j, v := range o.Corners {
			sum := float64(v.X) + float64(v.Y) + v.Bulge + float64(v.Round)
			if math.IsNaN(sum) || math.IsInf(sum, 0) {
				return 0, fmt.Errorf("plating: corner %d of outline %q is at (%v, %v) m with bulge %v and rounding %v m, must be finite",
					j+1, o.Name, float64(v.X), float64(v.Y), v.Bulge, float64(v.Round))
			}
			low = r2.Vec{X: math.Min(low.X, float64(v.X)), Y: math.Min(low.Y, float64(v.Y))}
			high = r2.Vec{X: math.Max(high.X, float64(v.X)), Y: math.Max(high.Y, float64(v.Y))}
		}
	}
	switch {
	case parts == 0:
		return 0, fmt.Errorf("plating: section has no part")
	case anodes == 0 && !s.farAnode():
		return 0, fmt.Errorf("plating: section has no anode")
	}
	if size = r2.Norm(r2.Sub(high, low)); size < 1e-9 || size > 1e6 {
		return 0, fmt.Errorf("plating: section is %.4g m across, must be 1e-9 to 1e6 m", size)
	}
	return size, nil
}

// checkSide returns an error for an edge beyond or along the axis, or below the
// mirror line.
func (c sectionCheck) checkSide(name string, e edge) error {
	onAxis := true
	for _, p := range e.chords() {
		if c.section.Axisymmetric && p.X < -c.tolerance {
			return fmt.Errorf("plating: outline %q is beyond the axis at %s, X must not be negative", name, place(p))
		}
		if c.section.Mirror && p.Y < -c.tolerance {
			return fmt.Errorf("plating: outline %q is below the mirror line at %s, Y must not be negative", name, place(p))
		}
		onAxis = onAxis && math.Abs(p.X) <= c.tolerance
	}
	if c.section.Axisymmetric && onAxis {
		return fmt.Errorf("plating: outline %q runs along the axis at %s, leave that line out", name, place(e.a))
	}
	return nil
}

// checkCorners returns an error where a loop folds back on itself or a part
// meets an anode.
func (c sectionCheck) checkCorners(loops []loop) error {
	for i := range loops {
		l := &loops[i]
		for j := range l.edges {
			k := (j + 1) % len(l.edges)
			if k == 0 && !l.closed {
				continue
			}
			e, next := &l.edges[j], &l.edges[k]
			_, t := e.at(e.length)
			_, u := next.at(0)
			if r2.Dot(t, u) < -0.9998 {
				return fmt.Errorf("plating: outline %q folds back on itself at %s", c.name(*e), place(e.b))
			}
			ra, rb := c.section.Outlines[e.outline].Role, c.section.Outlines[next.outline].Role
			if ra.electrode() && rb.electrode() && ra.cathodic() != rb.cathodic() {
				return fmt.Errorf("plating: %s %q touches %s %q at %s", ra, c.name(*e), rb, c.name(*next), place(e.b))
			}
		}
	}
	return nil
}

// chord is one straight piece of an edge, as the checks see it.
type chord struct {
	a, b             r2.Vec
	loop, edge, name int
}

// checkCrossings returns an error where lines cross or touch other than end to
// end.
func (c sectionCheck) checkCrossings(loops []loop) error {
	var all []chord
	for i := range loops {
		for j := range loops[i].edges {
			e := &loops[i].edges[j]
			points := e.chords()
			for k := 1; k < len(points); k++ {
				all = append(all, chord{points[k-1], points[k], i, j, e.outline})
			}
		}
	}
	for i, p := range all {
		for _, q := range all[i+1:] {
			if p.loop == q.loop && (p.edge == q.edge || c.share(p, q)) {
				continue
			}
			if math.Min(p.a.X, p.b.X) > math.Max(q.a.X, q.b.X)+c.tolerance || math.Min(q.a.X, q.b.X) > math.Max(p.a.X, p.b.X)+c.tolerance {
				continue
			}
			dist, where := segmentDistance(p.a, p.b, q.a, q.b)
			if dist > c.tolerance {
				continue
			}
			op, oq := c.section.Outlines[p.name], c.section.Outlines[q.name]
			if p.name == q.name {
				return fmt.Errorf("plating: outline %q crosses itself at %s", op.Name, place(where))
			}
			return fmt.Errorf("plating: %s %q crosses or touches %s %q at %s", op.Role, op.Name, oq.Role, oq.Name, place(where))
		}
	}
	return nil
}

// share reports whether two pieces of one loop meet end to end.
func (c sectionCheck) share(p, q chord) bool {
	return r2.Norm(r2.Sub(p.b, q.a)) <= c.tolerance || r2.Norm(r2.Sub(q.b, p.a)) <= c.tolerance
}

// checkNested checks that a hole lies inside the outermost loop and outside the
// other holes.
func (c sectionCheck) checkNested(hole, other *loop, outermost bool) error {
	for i := range hole.edges {
		e := &hole.edges[i]
		p, t := e.at(e.length / 2)
		// A hair into the electrolyte, off the axis and the mirror line.
		p = r2.Add(p, r2.Scale(5*c.tolerance, r2.Vec{X: -t.Y, Y: t.X}))
		o := c.section.Outlines[e.outline]
		if in := inside(p, other.polygon); in != outermost {
			if outermost {
				return fmt.Errorf("plating: %s %q is outside %q at %s", o.Role, o.Name, c.name(other.edges[0]), place(p))
			}
			return fmt.Errorf("plating: %s %q is inside %q at %s", o.Role, o.Name, c.name(other.edges[0]), place(p))
		}
	}
	return nil
}
