package plating

// Closed meshes with another number of triangles, for a solver that cannot hold
// those of a drawing. Sides are drawn together where that moves the skin least,
// by the sum of squared distances to the planes that met there (M. Garland,
// P. S. Heckbert, Surface simplification using quadric error metrics, SIGGRAPH
// 1997, section 4; from memory), and then the longest sides are cut in two,
// which moves nothing.

import (
	"container/heap"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Remeshed returns a closed mesh with at most the given number of triangles, 12
// to 100,000, of sides as even as that allows: a mesh with more is coarsened to
// three quarters of them first. Its flats and edges stay where they can; rounded
// places become facets, so that area and volume shrink. The caller compares
// them. It returns an error for what [Mesh.Closed] refuses and for a mesh that
// cannot be coarsened so far without turning a facet over.
func (m Mesh) Remeshed(triangles int) (Mesh, error) {
	const least, most = 12, 100_000
	if triangles < least || triangles > most {
		return Mesh{}, fmt.Errorf("plating: %s is to have %d triangles, must be %d to %d", m.name(), triangles, least, most)
	}
	if err := m.Closed(); err != nil {
		return Mesh{}, err
	}
	s := newSkin(m)
	if s.count > triangles {
		s.coarsen(max(least, triangles*3/4))
	}
	if s.count > triangles {
		return Mesh{}, fmt.Errorf("plating: %s has %d triangles and keeps %d when it is coarsened as far as its shape allows, must have at most %d: draw it with fewer details",
			m.name(), len(m.Triangles), s.count, triangles)
	}
	s.refine(triangles)
	out := s.mesh(m.Name)
	if err := out.Closed(); err != nil {
		return Mesh{}, fmt.Errorf("plating: %s cannot be coarsened to %d triangles: %w", m.name(), triangles, err)
	}
	return out, nil
}

// skin is a closed mesh that is being changed.
type skin struct {
	points    []r3.Vec
	triangles [][3]int
	alive     []bool
	count     int
	// around holds the living triangles at each point.
	around [][]int
}

// newSkin returns the mesh to be changed; the caller's stays as it is.
func newSkin(m Mesh) *skin {
	s := &skin{triangles: slices.Clone(m.Triangles), alive: make([]bool, len(m.Triangles)), count: len(m.Triangles), around: make([][]int, len(m.Points))}
	for _, p := range m.Points {
		s.points = append(s.points, p.vec())
	}
	for t, k := range s.triangles {
		s.alive[t] = true
		for _, p := range k {
			s.around[p] = append(s.around[p], t)
		}
	}
	return s
}

// mesh returns what the skin has become, without points that no triangle has.
func (s *skin) mesh(name string) Mesh {
	m := Mesh{Name: name}
	number := make([]int, len(s.points))
	for t, k := range s.triangles {
		if !s.alive[t] {
			continue
		}
		for i, p := range k {
			if number[p] == 0 {
				m.Points = append(m.Points, pointAt(s.points[p]))
				number[p] = len(m.Points)
			}
			k[i] = number[p] - 1
		}
		m.Triangles = append(m.Triangles, k)
	}
	return m
}

// ridge is a side between two points, the lower number first, with what it is
// sorted by.
type ridge struct {
	a, b int
	key  float64
	// at is where the points are drawn together; stamp tells that neither has
	// changed since.
	at    r3.Vec
	stamp int
}

// ridges is a heap of ridges, least key first; numbers decide between equals, so that the
// same mesh comes out everywhere.
type ridges []ridge

func (e ridges) Len() int      { return len(e) }
func (e ridges) Swap(i, j int) { e[i], e[j] = e[j], e[i] }
func (e ridges) Less(i, j int) bool {
	if e[i].key != e[j].key {
		return e[i].key < e[j].key
	}
	if e[i].a != e[j].a {
		return e[i].a < e[j].a
	}
	return e[i].b < e[j].b
}
func (e *ridges) Push(x any) { *e = append(*e, x.(ridge)) }
func (e *ridges) Pop() any {
	last := len(*e) - 1
	x := (*e)[last]
	*e = (*e)[:last]
	return x
}

// quadric is the sum of squared distances from planes, weighed by area: the
// upper half of a symmetric matrix of four, row by row.
type quadric [10]float64

// add adds another.
func (q *quadric) add(p quadric) {
	for i := range q {
		q[i] += p[i]
	}
}

// planeQuadric returns that of a triangle's plane.
func planeQuadric(a, b, c r3.Vec) quadric {
	n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	twice := r3.Norm(n)
	n = r3.Scale(1/twice, n)
	d := -r3.Dot(n, a)
	q := quadric{n.X * n.X, n.X * n.Y, n.X * n.Z, n.X * d, n.Y * n.Y, n.Y * n.Z, n.Y * d, n.Z * n.Z, n.Z * d, d * d}
	for i := range q {
		q[i] *= twice / 2
	}
	return q
}

// at returns the sum at a place.
func (q quadric) at(v r3.Vec) float64 {
	return q[0]*v.X*v.X + q[4]*v.Y*v.Y + q[7]*v.Z*v.Z + q[9] +
		2*(q[1]*v.X*v.Y+q[2]*v.X*v.Z+q[3]*v.X+q[5]*v.Y*v.Z+q[6]*v.Y+q[8]*v.Z)
}

// least returns the place where the sum is least, and whether the planes meet
// sharply enough to have one.
func (q quadric) least() (r3.Vec, bool) {
	x, y, z := r3.Vec{X: q[0], Y: q[1], Z: q[2]}, r3.Vec{X: q[1], Y: q[4], Z: q[5]}, r3.Vec{X: q[2], Y: q[5], Z: q[7]}
	d := r3.Vec{X: -q[3], Y: -q[6], Z: -q[8]}
	det, trace := r3.Dot(x, r3.Cross(y, z)), q[0]+q[4]+q[7]
	if !(det > 1e-5*trace*trace*trace) {
		return r3.Vec{}, false
	}
	// Cramer's rule; the matrix is symmetric, so that its rows are its columns.
	return r3.Scale(1/det, r3.Vec{X: r3.Dot(d, r3.Cross(y, z)), Y: r3.Dot(x, r3.Cross(d, z)), Z: r3.Dot(x, r3.Cross(y, d))}), true
}

// coarsen draws sides together, the one that moves the skin least first, until
// the skin has at most so many triangles or no side is left that can be.
func (s *skin) coarsen(most int) {
	// About the first point and in units of the whole, so that no digits are
	// lost on a part far from the origin.
	origin, planes := s.points[0], make([]quadric, len(s.points))
	off := func(p int) r3.Vec { return r3.Sub(s.points[p], origin) }
	for _, k := range s.triangles {
		q := planeQuadric(off(k[0]), off(k[1]), off(k[2]))
		for _, p := range k {
			planes[p].add(q)
		}
	}
	stamps := make([]int, len(s.points))
	queue := &ridges{}
	push := func(a, b int) {
		q := planes[a]
		q.add(planes[b])
		best := ridge{a: min(a, b), b: max(a, b), key: math.Inf(1), stamp: stamps[a] + stamps[b]}
		length := r3.Norm2(r3.Sub(s.points[a], s.points[b]))
		middle := r3.Scale(0.5, r3.Add(off(best.a), off(best.b)))
		places := []r3.Vec{middle, off(best.a), off(best.b)}
		if v, ok := q.least(); ok && r3.Norm2(r3.Sub(v, middle)) < length {
			places = append(places, v)
		}
		for _, v := range places {
			// The last term prefers short sides where the skin is flat.
			if key := math.Max(q.at(v), 0) + 1e-6*length*length; key < best.key {
				best.key, best.at = key, r3.Add(v, origin)
			}
		}
		heap.Push(queue, best)
	}
	for t, k := range s.triangles {
		for i := range 3 {
			if a, b := k[i], k[(i+1)%3]; s.alive[t] && a < b {
				push(a, b)
			}
		}
	}
	for s.count > most && queue.Len() > 0 {
		e := heap.Pop(queue).(ridge)
		if e.stamp != stamps[e.a]+stamps[e.b] || len(s.around[e.a]) == 0 || len(s.around[e.b]) == 0 || !s.together(e.a, e.b, e.at) {
			continue
		}
		planes[e.a].add(planes[e.b])
		stamps[e.a]++
		stamps[e.b]++
		for _, p := range s.neighbours(e.a) {
			push(e.a, p)
		}
	}
}

// neighbours returns the points that share a side with a point, in order.
func (s *skin) neighbours(p int) []int {
	var all []int
	for _, t := range s.around[p] {
		for _, c := range s.triangles[t] {
			if c != p {
				all = append(all, c)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// together draws two points together at a place, unless that would turn a
// triangle over, make a needle of it or tie the skin in a knot; it reports
// whether it did.
func (s *skin) together(a, b int, at r3.Vec) bool {
	shared := 0
	na, nb := s.neighbours(a), s.neighbours(b)
	for _, p := range na {
		if _, ok := slices.BinarySearch(nb, p); ok {
			shared++
			if len(s.around[p]) <= 3 {
				return false
			}
		}
	}
	if shared != 2 || s.spoils(a, b, at) || s.spoils(b, a, at) {
		return false
	}
	s.points[a] = at
	for _, t := range s.around[b] {
		k := &s.triangles[t]
		if slices.Contains(k[:], a) {
			s.drop(t)
			continue
		}
		k[slices.Index(k[:], b)] = a
		s.around[a] = append(s.around[a], t)
	}
	s.around[b] = nil
	return true
}

// drop takes a triangle out of the lists of its points but the one that is
// being drawn away.
func (s *skin) drop(t int) {
	s.alive[t] = false
	s.count--
	for _, p := range s.triangles[t] {
		if i := slices.Index(s.around[p], t); i >= 0 {
			s.around[p] = slices.Delete(slices.Clone(s.around[p]), i, i+1)
		}
	}
}

// spoils reports whether a triangle at one point, but those that it shares with
// another, would turn over or become a needle with the point elsewhere.
func (s *skin) spoils(p, other int, at r3.Vec) bool {
	for _, t := range s.around[p] {
		k := s.triangles[t]
		if slices.Contains(k[:], other) {
			continue
		}
		var now, then [3]r3.Vec
		for i, c := range k {
			now[i], then[i] = s.points[c], s.points[c]
			if c == p {
				then[i] = at
			}
		}
		before := r3.Cross(r3.Sub(now[1], now[0]), r3.Sub(now[2], now[0]))
		after := r3.Cross(r3.Sub(then[1], then[0]), r3.Sub(then[2], then[0]))
		longest := max(r3.Norm2(r3.Sub(then[1], then[0])), r3.Norm2(r3.Sub(then[2], then[1])), r3.Norm2(r3.Sub(then[0], then[2])))
		if r3.Dot(before, after) < 0.3*r3.Norm(before)*r3.Norm(after) || r3.Norm(after) < 0.02*longest {
			return true
		}
	}
	return false
}

// refine cuts the longest side in two until the skin has so many triangles.
func (s *skin) refine(most int) {
	queue := &ridges{}
	push := func(a, b int) {
		heap.Push(queue, ridge{a: min(a, b), b: max(a, b), key: -r3.Norm2(r3.Sub(s.points[a], s.points[b]))})
	}
	for t, k := range s.triangles {
		for i := range 3 {
			if a, b := k[i], k[(i+1)%3]; s.alive[t] && a < b {
				push(a, b)
			}
		}
	}
	for s.count+2 <= most {
		e := heap.Pop(queue).(ridge)
		middle := len(s.points)
		s.points = append(s.points, r3.Scale(0.5, r3.Add(s.points[e.a], s.points[e.b])))
		s.around = append(s.around, nil)
		for _, t := range slices.Clone(s.around[e.a]) {
			k := s.triangles[t]
			if !slices.Contains(k[:], e.b) {
				continue
			}
			// The triangle keeps a; a new one takes b's half.
			half, i, j := k, slices.Index(k[:], e.b), slices.Index(k[:], e.a)
			s.triangles[t][i], half[j] = middle, middle
			third := k[3-i-j]
			s.around[e.b][slices.Index(s.around[e.b], t)] = len(s.triangles)
			s.around[third] = append(s.around[third], len(s.triangles))
			s.around[middle] = append(s.around[middle], t, len(s.triangles))
			s.triangles, s.alive = append(s.triangles, half), append(s.alive, true)
			s.count++
			push(middle, third)
		}
		push(e.a, middle)
		push(e.b, middle)
	}
}
