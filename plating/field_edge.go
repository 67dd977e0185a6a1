package plating

// Edges of outlines: straight lines and circular arcs.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// edge is a straight line or an arc from one vertex to the next. The
// electrolyte lies on its left once the loops are oriented.
type edge struct {
	a, b   r2.Vec
	length float64
	// radius is zero on a straight edge; on an arc the angle runs from start
	// through sweep about the centre.
	centre               r2.Vec
	radius, start, sweep float64
	// outline is the index of the outline; from is where the edge's a lies
	// along the outline in the caller's direction, which back runs against.
	outline int
	from    float64
	back    bool
}

// newEdge returns the edge between two points with a bulge.
func newEdge(a, b r2.Vec, bulge float64) edge {
	chord := r2.Sub(b, a)
	e := edge{a: a, b: b, length: r2.Norm(chord)}
	if bulge == 0 {
		return e
	}
	e.sweep = 4 * math.Atan(bulge)
	half := e.length / 2
	left := r2.Vec{X: -chord.Y, Y: chord.X}
	e.centre = r2.Add(r2.Scale(0.5, r2.Add(a, b)), r2.Scale(0.5/math.Tan(e.sweep/2), left))
	e.radius = half / math.Abs(math.Sin(e.sweep/2))
	e.start = math.Atan2(a.Y-e.centre.Y, a.X-e.centre.X)
	e.length = e.radius * math.Abs(e.sweep)
	return e
}

// at returns the point at a distance along the edge and the unit tangent there.
func (e *edge) at(s float64) (point, tangent r2.Vec) {
	if e.radius == 0 {
		t := r2.Scale(1/e.length, r2.Sub(e.b, e.a))
		return r2.Add(e.a, r2.Scale(s, t)), t
	}
	sin, cos := math.Sincos(e.start + e.sweep*s/e.length)
	turn := math.Copysign(1, e.sweep)
	return r2.Vec{X: e.centre.X + e.radius*cos, Y: e.centre.Y + e.radius*sin}, r2.Vec{X: -turn * sin, Y: turn * cos}
}

// reversed returns the edge run the other way.
func (e edge) reversed() edge {
	r := e
	r.a, r.b = e.b, e.a
	r.start, r.sweep = e.start+e.sweep, -e.sweep
	r.back = !e.back
	r.from = e.from + e.length
	if e.back {
		r.from = e.from - e.length
	}
	return r
}

// along returns where a distance along the edge lies along the outline.
func (e *edge) along(s float64) float64 {
	if e.back {
		return e.from - s
	}
	return e.from + s
}

// An arc is taken as so many straight lines at least, and as lines of so large
// an angle at most, when lines are checked against each other.
const (
	fewestChords = 8
	chordAngle   = math.Pi / 18
)

// chords returns the points of the edge as a chain of straight lines.
func (e *edge) chords() []r2.Vec {
	n := 1
	if e.radius > 0 {
		n = fewestChords + int(math.Abs(e.sweep)/chordAngle)
	}
	points := make([]r2.Vec, n+1)
	for i := range points {
		points[i], _ = e.at(e.length * float64(i) / float64(n))
	}
	points[0], points[n] = e.a, e.b
	return points
}

// segmentDistance returns the distance between two straight lines a-b and c-d
// and the place on the first where it is met.
func segmentDistance(a, b, c, d r2.Vec) (float64, r2.Vec) {
	u, v, w := r2.Sub(b, a), r2.Sub(d, c), r2.Sub(c, a)
	if cross := r2.Cross(u, v); cross != 0 {
		s, t := r2.Cross(w, v)/cross, r2.Cross(w, u)/cross
		if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			return 0, r2.Add(a, r2.Scale(s, u))
		}
	}
	best, place := math.Inf(1), a
	for _, try := range []struct{ p, q, r, at r2.Vec }{{a, c, d, a}, {b, c, d, b}, {c, a, b, c}, {d, a, b, d}} {
		if dist := pointDistance(try.p, try.q, try.r); dist < best {
			best, place = dist, try.at
		}
	}
	return best, place
}

// pointDistance returns the distance of a point from the straight line a-b.
func pointDistance(p, a, b r2.Vec) float64 {
	u, w := r2.Sub(b, a), r2.Sub(p, a)
	s := 0.0
	if n := r2.Norm2(u); n > 0 {
		s = math.Max(0, math.Min(1, r2.Dot(w, u)/n))
	}
	return r2.Norm(r2.Sub(w, r2.Scale(s, u)))
}

// inside reports whether a point lies inside a polygon, by the number of its
// sides crossed by a ray.
func inside(p r2.Vec, polygon []r2.Vec) bool {
	in := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// polygonArea returns the area of a polygon, positive when it runs
// anticlockwise.
func polygonArea(polygon []r2.Vec) float64 {
	sum := 0.0
	for i, a := range polygon {
		sum += r2.Cross(a, polygon[(i+1)%len(polygon)]) / 2
	}
	return sum
}

// place writes a point for an error message.
func place(p r2.Vec) string { return fmt.Sprintf("(%.4g, %.4g) mm", p.X*1e3, p.Y*1e3) }
