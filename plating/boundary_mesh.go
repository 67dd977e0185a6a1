package plating

// Boundary elements on the loops of a section. Their size grows in proportion
// to the distance from each corner, so that a given number of elements serves a
// field that is infinite there, and stays below the width of the gap in front
// of them. One factor on all sizes gives the wanted number.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// element is a piece of an edge on which the current density is taken as
// constant and the potential as a straight line.
type element struct {
	edge *edge
	// s0 and s1 are its ends along the edge, p0 and p1 their places.
	s0, s1 float64
	p0, p1 r2.Vec
	// mid is the middle, normal points out of the electrolyte there.
	mid, normal r2.Vec
	length      float64
	// area is per unit of depth on a plane section, the whole ring otherwise.
	area float64
	// loop and index say which edge of the section it lies on.
	loop, index int
	// flat is true when the element lies in the mirror line.
	flat bool
	role Role
	// Along the element the potential is a straight line whose slope is that
	// between the middles of the elements before and after on the same edge:
	// slope times the potential of after less that of before.
	before, after int
	slope         float64
}

// place sets what follows from where the element lies: its ends on the edge are
// known.
func (el *element) place(e *edge, axisymmetric bool) {
	el.edge = e
	el.length = el.s1 - el.s0
	el.p0, _ = e.at(el.s0)
	el.p1, _ = e.at(el.s1)
	mid, tangent := e.at((el.s0 + el.s1) / 2)
	el.mid, el.normal = mid, r2.Vec{X: tangent.Y, Y: -tangent.X}
	el.area = el.length
	if axisymmetric {
		el.area *= 2 * math.Pi * el.meanX()
	}
}

// meanX returns the mean distance of the element from the axis.
func (el *element) meanX() float64 {
	e := el.edge
	if e.radius == 0 {
		return el.mid.X
	}
	a0 := e.start + e.sweep*el.s0/e.length
	a1 := e.start + e.sweep*el.s1/e.length
	return e.centre.X + e.radius*(math.Sin(a1)-math.Sin(a0))/(a1-a0)
}

// mesher decides the size of elements on the edges of a section.
type mesher struct {
	section Section
	loops   []loop
	edges   []meshedEdge
}

// meshedEdge is an edge with what bounds the size of its elements.
type meshedEdge struct {
	edge *edge
	// loop and index say which edge of the section it is.
	loop, index int
	role        Role
	flat        bool
	// first and last are the sizes wanted at the two ends.
	first, last float64
	// near holds the distance to the nearest other line at even steps, at most
	// the edge's own length.
	near []float64
}

// nearSteps is the number of steps at which gaps are measured along an edge.
const nearSteps = 48

// largestArc is the largest angle of an arc that one element spans.
const largestArc = math.Pi / 8

// newMesher prepares the loops for any number of elements.
func newMesher(section Section, loops []loop) *mesher {
	m := &mesher{section: section, loops: loops}
	for i := range loops {
		l := &loops[i]
		for j := range l.edges {
			e := &l.edges[j]
			m.edges = append(m.edges, meshedEdge{edge: e, loop: i, index: j, flat: l.flat, role: section.Outlines[e.outline].Role,
				first: math.Inf(1), last: math.Inf(1)})
		}
	}
	at := 0
	for i := range loops {
		n := len(loops[i].edges)
		m.gradeLoop(m.edges[at:at+n], loops[i].closed)
		at += n
	}
	for i := range m.edges {
		m.edges[i].near = m.gaps(i)
	}
	return m
}

// gradeLoop sets the sizes wanted at the corners of a loop.
func (m *mesher) gradeLoop(edges []meshedEdge, closed bool) {
	n := len(edges)
	for j := range edges {
		e, next := &edges[j], &edges[(j+1)%n]
		if j == n-1 && !closed {
			e.last = m.terminalSize(e, e.edge.length)
			edges[0].first = m.terminalSize(&edges[0], 0)
			continue
		}
		_, t := e.edge.at(e.edge.length)
		_, u := next.edge.at(0)
		angle := math.Pi - math.Atan2(r2.Cross(t, u), r2.Dot(t, u))
		same := e.role.electrode() == next.role.electrode()
		size := cornerSize(angle, e.role.electrode(), same) * math.Min(e.edge.length, next.edge.length)
		e.last, next.first = size, size
	}
}

// terminalSize returns the size wanted where an edge ends on the axis or the
// mirror line.
func (m *mesher) terminalSize(e *meshedEdge, s float64) float64 {
	p, t := e.edge.at(s)
	square := math.Abs(t.Y) // a line square to the axis runs along X
	if m.section.Mirror && math.Abs(p.Y) < math.Abs(p.X) {
		square = math.Abs(t.X)
		if e.flat {
			// An electrode ends against the insulating floor.
			return cornerSize(math.Pi, true, false) * e.edge.length
		}
	}
	if square < 1e-3 {
		return math.Inf(1)
	}
	return cornerSize(math.Pi/2, e.role.electrode(), true) * e.edge.length
}

// cornerSize returns the size of the elements at a corner as a share of the
// shorter edge there. Near a corner with electrolyte angle beta the current
// density goes as s^p, with p = pi/beta - 1 between two electrodes or two
// insulators and p = pi/(2 beta) - 1 between one of each; the share keeps the
// current of the last element a small share of the whole.
func cornerSize(beta float64, electrode, same bool) float64 {
	if same && math.Abs(beta-math.Pi) < 1e-3 {
		// Smooth, but a short arc beside a long line wants short elements there.
		return 0.25
	}
	p := math.Pi/beta - 1
	share := 3e-3
	if !same {
		p = math.Pi/(2*beta) - 1
	} else if !electrode {
		share = 2e-2
	}
	if p > 0.02 {
		// The current dies away in the corner, or does not matter there.
		if electrode {
			return 0.02
		}
		return 0.1
	}
	return math.Max(1e-6, math.Pow(share, 1/(1+p)))
}

// gaps measures the distance from an edge to the nearest line that it does not
// meet.
func (m *mesher) gaps(i int) []float64 {
	e := &m.edges[i]
	near := make([]float64, nearSteps+1)
	for k := range near {
		near[k] = e.edge.length
	}
	for j := range m.edges {
		o := &m.edges[j]
		if i == j || e.loop == o.loop && touching(e.edge, o.edge) {
			continue
		}
		through := 1.0
		if e.loop == o.loop && e.role.electrode() && o.role.electrode() {
			through = 3 // the gap is filled with metal of one potential
		}
		points := o.edge.chords()
		for k := range near {
			p, _ := e.edge.at(e.edge.length * float64(k) / nearSteps)
			for q := 1; q < len(points); q++ {
				near[k] = math.Min(near[k], through*pointDistance(p, points[q-1], points[q]))
			}
		}
	}
	if m.section.Mirror && !e.flat && math.Min(e.edge.a.Y, e.edge.b.Y) > 1e-6*e.edge.length {
		for k := range near {
			p, _ := e.edge.at(e.edge.length * float64(k) / nearSteps)
			near[k] = math.Min(near[k], 2*p.Y)
		}
	}
	return near
}

// touching reports whether two edges share an end.
func touching(e, o *edge) bool { return e.a == o.a || e.a == o.b || e.b == o.a || e.b == o.b }

// size returns the size at a scale wanted at a distance along the edge. No scale
// makes elements longer than the gap in front of them.
func (e *meshedEdge) size(s, scale float64) float64 {
	l := e.edge.length
	x := s / l * nearSteps
	k := min(int(x), nearSteps-1)
	f := x - float64(k)
	near := (1-f)*e.near[k] + f*e.near[k+1]
	step := scale * e.role.coarser() * math.Min(math.Min(l/4, near), math.Min(e.first+s, e.last+l-s))
	if e.edge.radius > 0 {
		step = math.Min(step, largestArc*e.edge.radius)
	}
	return math.Max(math.Min(step, near), 1e-9*l)
}

// coarser is how much larger than on a part the elements may be elsewhere.
func (r Role) coarser() float64 {
	switch r {
	case RolePart, RoleThief:
		return 1
	case RoleAnode:
		return 2
	}
	return 1.2
}

// half returns the ends of the elements on the first half of the edge, or, run
// from the other end, on the second, in distances from that end.
func (e *meshedEdge) half(scale float64, fromLast bool, most int) []float64 {
	l := e.edge.length
	size := func(s float64) float64 {
		s = math.Min(s, l/2)
		if fromLast {
			s = l - s
		}
		return e.size(s, scale)
	}
	ends := []float64{0}
	for s := 0.0; s < l/2 && len(ends) <= most; {
		step := size(s)
		step = size(s + step/2)
		if s > 0 && s+step/2 > l/2 {
			break
		}
		s += step
		ends = append(ends, s)
	}
	stretch := l / 2 / ends[len(ends)-1]
	for i := range ends {
		ends[i] *= stretch
	}
	return ends
}

// count returns the number of elements at a scale, or more than most.
func (m *mesher) count(scale float64, most int) int {
	n := 0
	for i := range m.edges {
		n += len(m.edges[i].half(scale, false, most)) + len(m.edges[i].half(scale, true, most)) - 2
		if n > most {
			break
		}
	}
	return n
}

// largestScale bounds how coarse a mesh may get: elements then grow fivefold
// from one to the next.
const largestScale = 4

// mostNeeded is the largest number of elements that a section may need beyond
// what was asked for.
const mostNeeded = 1000

// mesh returns about the wanted number of elements, never fewer than the
// section needs. A section that needs very many has a gap too narrow for its
// lines, and gives an error that names it.
func (m *mesher) mesh(want int) ([]element, error) {
	if most := max(want, mostNeeded); m.count(largestScale, most) > most {
		return nil, m.narrowest(most)
	}
	low, high := math.Log(1e-3), math.Log(largestScale)
	for range 20 {
		mid := (low + high) / 2
		if m.count(math.Exp(mid), want) > want {
			low = mid
		} else {
			high = mid
		}
	}
	scale := math.Exp(high)
	var elements []element
	for i := range m.edges {
		e := &m.edges[i]
		first, last := e.half(scale, false, math.MaxInt), e.half(scale, true, math.MaxInt)
		ends := first
		for k := len(last) - 2; k >= 0; k-- {
			ends = append(ends, e.edge.length-last[k])
		}
		for k := 1; k < len(ends); k++ {
			el := element{s0: ends[k-1], s1: ends[k], loop: e.loop, index: e.index, flat: e.flat, role: e.role}
			el.place(e.edge, m.section.Axisymmetric)
			elements = append(elements, el)
		}
	}
	linkNeighbours(elements)
	return elements, nil
}

// narrowest returns the error that names the narrowest gap.
func (m *mesher) narrowest(most int) error {
	best, name, at := math.Inf(1), "", r2.Vec{}
	for i := range m.edges {
		e := &m.edges[i]
		for k, gap := range e.near {
			if share := gap / e.edge.length; share < best {
				best, name = share, m.section.Outlines[e.edge.outline].Name
				at, _ = e.edge.at(e.edge.length * float64(k) / nearSteps)
			}
		}
	}
	return fmt.Errorf("plating: section needs more than %d boundary elements: outline %q has a very narrow gap at %s", most, name, place(at))
}

// linkNeighbours sets where each element takes its slope from.
func linkNeighbours(elements []element) {
	for i := range elements {
		el := &elements[i]
		el.before, el.after = i, i
		if i > 0 && elements[i-1].edge == el.edge {
			el.before = i - 1
		}
		if i+1 < len(elements) && elements[i+1].edge == el.edge {
			el.after = i + 1
		}
		b, a := &elements[el.before], &elements[el.after]
		el.slope = 2 / (a.s0 + a.s1 - b.s0 - b.s1)
	}
}
