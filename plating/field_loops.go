package plating

// From outlines to closed loops with the electrolyte on their left.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// loop is a closed line of edges, closed by the axis or the mirror line where
// it does not close itself.
type loop struct {
	edges []edge
	// closed is false when the axis or the mirror line closes the loop.
	closed bool
	// hole is true when the electrolyte lies outside the loop.
	hole bool
	// flat is true for an electrode that lies in the mirror line.
	flat    bool
	polygon []r2.Vec
}

// sectionCheck carries what the checks of one section share.
type sectionCheck struct {
	section Section
	// tolerance is the distance below which two points are one.
	tolerance float64
}

// loops returns the closed loops of the section, the electrolyte on their left.
func (s Section) loops() ([]loop, error) {
	size, err := s.checkOutlines()
	if err != nil {
		return nil, err
	}
	c := sectionCheck{section: s, tolerance: 1e-7 * size}
	chains := make([][]edge, len(s.Outlines))
	for i := range s.Outlines {
		if chains[i], err = c.chain(i); err != nil {
			return nil, err
		}
	}
	loops, err := c.join(chains)
	if err != nil {
		return nil, err
	}
	for i := range loops {
		if err := c.close(&loops[i]); err != nil {
			return nil, err
		}
	}
	if err := c.checkCorners(loops); err != nil {
		return nil, err
	}
	if err := c.checkCrossings(loops); err != nil {
		return nil, err
	}
	return loops, c.orient(loops)
}

// chain returns the edges of an outline in the caller's direction.
func (c sectionCheck) chain(outline int) ([]edge, error) {
	o := c.section.Outlines[outline]
	points, bulges, err := c.rounded(o)
	if err != nil {
		return nil, err
	}
	n := len(points)
	count := n - 1
	if o.Closed {
		count = n
	}
	edges := make([]edge, 0, count)
	from := 0.0
	for j := range count {
		e := newEdge(points[j], points[(j+1)%n], bulges[j])
		e.outline, e.from = outline, from
		if err := c.checkSide(o.Name, e); err != nil {
			return nil, err
		}
		edges = append(edges, e)
		from += e.length
	}
	return edges, nil
}

// rounded returns the points of an outline and the bulges that follow them,
// with two points and an arc in place of each rounded corner.
func (c sectionCheck) rounded(o Outline) (points []r2.Vec, bulges []float64, err error) {
	n := len(o.Corners)
	at := func(j int) r2.Vec {
		v := o.Corners[(j+n)%n]
		return r2.Vec{X: float64(v.X), Y: float64(v.Y)}
	}
	for j, v := range o.Corners {
		last := j == n-1 && !o.Closed
		if !last && r2.Norm(r2.Sub(at(j+1), at(j))) <= 10*c.tolerance {
			return nil, nil, fmt.Errorf("plating: outline %q has no length between corners %d and %d at %s", o.Name, j+1, (j+1)%n+1, place(at(j)))
		}
		if math.Abs(v.Bulge) > 20 {
			return nil, nil, fmt.Errorf("plating: bulge of corner %d of outline %q is %.4g, must be -20 to 20", j+1, o.Name, v.Bulge)
		}
		if v.Round == 0 {
			points, bulges = append(points, at(j)), append(bulges, v.Bulge)
			continue
		}
		before := o.Corners[(j+n-1)%n]
		if v.Round < 0 || v.Bulge != 0 || before.Bulge != 0 || !o.Closed && (j == 0 || last) {
			return nil, nil, fmt.Errorf("plating: rounding of corner %d of outline %q is %s, must be above zero between two straight lines",
				j+1, o.Name, inMillimetre.of(float64(v.Round)))
		}
		in, out := r2.Unit(r2.Sub(at(j), at(j-1))), r2.Unit(r2.Sub(at(j+1), at(j)))
		turn := math.Atan2(r2.Cross(in, out), r2.Dot(in, out))
		cut := float64(v.Round) * math.Abs(math.Tan(turn/2))
		// Each corner may use its own part of the lines beside it.
		room := math.Min(r2.Norm(r2.Sub(at(j), at(j-1))), r2.Norm(r2.Sub(at(j+1), at(j))))
		room -= 20 * c.tolerance
		if before.Round != 0 || o.Corners[(j+1)%n].Round != 0 {
			room /= 2
		}
		if cut > room || cut < 10*c.tolerance {
			return nil, nil, fmt.Errorf("plating: rounding of corner %d of outline %q needs %s of the lines beside it, which leave it %s",
				j+1, o.Name, inMillimetre.of(cut), inMillimetre.of(room))
		}
		points = append(points, r2.Sub(at(j), r2.Scale(cut, in)), r2.Add(at(j), r2.Scale(cut, out)))
		bulges = append(bulges, math.Tan(turn/4), 0)
	}
	return points, bulges, nil
}

// terminal reports whether a line may end at the point: on the axis or the
// mirror line.
func (c sectionCheck) terminal(p r2.Vec) bool {
	return c.section.Axisymmetric && math.Abs(p.X) <= c.tolerance || c.section.Mirror && math.Abs(p.Y) <= c.tolerance
}

// join links chains of edges end to end into loops.
func (c sectionCheck) join(chains [][]edge) ([]loop, error) {
	var loops []loop
	used := make([]bool, len(chains))
	for i, o := range c.section.Outlines {
		if o.Closed {
			loops = append(loops, loop{edges: chains[i], closed: true})
			used[i] = true
		}
	}
	// Lines that begin on the axis or the mirror line come first, so that the
	// rest can only be rings.
	for _, ringsToo := range []bool{false, true} {
		for i := range chains {
			if used[i] {
				continue
			}
			first := chains[i]
			startFree, endFree, err := c.freeEnds(chains, i)
			if err != nil {
				return nil, err
			}
			if !startFree && endFree {
				first = reversedChain(first)
			}
			if !startFree && !endFree && !ringsToo {
				continue
			}
			used[i] = true
			l, err := c.follow(first, chains, used)
			if err != nil {
				return nil, err
			}
			loops = append(loops, l)
		}
	}
	return loops, nil
}

// freeEnds reports which ends of a chain meet no other chain's end.
func (c sectionCheck) freeEnds(chains [][]edge, i int) (start, end bool, err error) {
	free := [2]bool{}
	for k, p := range []r2.Vec{chains[i][0].a, chains[i][len(chains[i])-1].b} {
		met := c.meeting(chains, p)
		name := c.section.Outlines[i].Name
		if met > 2 {
			return false, false, fmt.Errorf("plating: %d outlines end at %s, where %q ends; only two may", met, place(p), name)
		}
		free[k] = met < 2
		if free[k] && !c.terminal(p) {
			return false, false, fmt.Errorf("plating: outline %q is open at %s: it must join another outline there or be closed", name, place(p))
		}
	}
	return free[0], free[1], nil
}

// meeting returns how many ends of open chains lie at a point.
func (c sectionCheck) meeting(chains [][]edge, p r2.Vec) int {
	n := 0
	for i, chain := range chains {
		if c.section.Outlines[i].Closed {
			continue
		}
		for _, q := range []r2.Vec{chain[0].a, chain[len(chain)-1].b} {
			if r2.Norm(r2.Sub(p, q)) <= c.tolerance {
				n++
			}
		}
	}
	return n
}

// follow walks from chain to chain until the loop closes or ends on the axis or
// the mirror line.
func (c sectionCheck) follow(first []edge, chains [][]edge, used []bool) (loop, error) {
	l := loop{edges: append([]edge(nil), first...)}
	for {
		end := l.edges[len(l.edges)-1].b
		if r2.Norm(r2.Sub(end, l.edges[0].a)) <= c.tolerance {
			l.closed = true
			return l, nil
		}
		next := -1
		for i, chain := range chains {
			if used[i] {
				continue
			}
			if r2.Norm(r2.Sub(chain[0].a, end)) <= c.tolerance {
				next = i
				l.edges = append(l.edges, chain...)
			} else if r2.Norm(r2.Sub(chain[len(chain)-1].b, end)) <= c.tolerance {
				next = i
				l.edges = append(l.edges, reversedChain(chain)...)
			} else {
				continue
			}
			break
		}
		if next < 0 {
			if !c.terminal(end) {
				return loop{}, fmt.Errorf("plating: outline %q is open at %s: it must join another outline there or be closed",
					c.name(l.edges[len(l.edges)-1]), place(end))
			}
			return l, nil
		}
		used[next] = true
	}
}

// reversedChain returns the edges run the other way.
func reversedChain(chain []edge) []edge {
	r := make([]edge, len(chain))
	for i, e := range chain {
		r[len(chain)-1-i] = e.reversed()
	}
	return r
}

// name returns the name of the edge's outline.
func (c sectionCheck) name(e edge) string { return c.section.Outlines[e.outline].Name }

// close gives the loop its polygon, with the corner of axis and mirror line
// where it needs one, and finds electrodes that lie in the mirror line.
func (c sectionCheck) close(l *loop) error {
	l.polygon = nil
	for i := range l.edges {
		points := l.edges[i].chords()
		l.polygon = append(l.polygon, points[:len(points)-1]...)
	}
	last := l.edges[len(l.edges)-1].b
	if !l.closed {
		l.polygon = append(l.polygon, last)
		start := l.edges[0].a
		if math.Abs(start.X-last.X) > c.tolerance && math.Abs(start.Y-last.Y) > c.tolerance {
			l.polygon = append(l.polygon, r2.Vec{})
		}
	}
	if !c.section.Mirror {
		return nil
	}
	inLine := 0
	for _, e := range l.edges {
		if e.radius == 0 && math.Abs(e.a.Y) <= c.tolerance && math.Abs(e.b.Y) <= c.tolerance {
			inLine++
		}
	}
	if inLine == len(l.edges) {
		l.flat = true
		for _, e := range l.edges {
			if !c.section.Outlines[e.outline].Role.electrode() {
				return fmt.Errorf("plating: outline %q lies in the mirror line, which insulates by itself: leave it out", c.name(e))
			}
		}
		return nil
	}
	if inLine > 0 {
		return fmt.Errorf("plating: outline %q lies partly in the mirror line; leave that line out", c.name(l.edges[0]))
	}
	return nil
}

// orient turns every loop so that the electrolyte lies on its left, and checks
// that the outermost one holds the others and that none holds another.
func (c sectionCheck) orient(loops []loop) error {
	outer := -1
	if !c.section.Unbounded {
		for i, l := range loops {
			if !l.flat && (outer < 0 || math.Abs(polygonArea(l.polygon)) > math.Abs(polygonArea(loops[outer].polygon))) {
				outer = i
			}
		}
		if outer < 0 {
			return fmt.Errorf("plating: nothing bounds the electrolyte: draw the tank, or say that the section is unbounded")
		}
	}
	for i := range loops {
		l := &loops[i]
		l.hole = i != outer
		turned := (polygonArea(l.polygon) > 0) == l.hole
		if l.flat {
			turned = l.edges[0].b.X < l.edges[0].a.X
		}
		if turned {
			l.edges = reversedChain(l.edges)
		}
	}
	for i := range loops {
		if i == outer {
			continue
		}
		for j := range loops {
			if j == i || loops[j].flat || loops[i].flat && j != outer {
				continue
			}
			if err := c.checkNested(&loops[i], &loops[j], j == outer); err != nil {
				return err
			}
		}
	}
	return nil
}
