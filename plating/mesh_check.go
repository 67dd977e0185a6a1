package plating

// The checks that bodies can stand in a tank, each with an error that names the
// body and the triangle.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// side is one of the plane insulating sides of a space.
type side struct {
	axis  int
	place float64
	// inward is 1 when the bath lies above it along the axis, -1 below.
	inward float64
}

// component returns one of the three components of a vector.
func component(v r3.Vec, axis int) float64 { return [3]float64{v.X, v.Y, v.Z}[axis] }

// planes returns the insulating sides.
func (s Space) planes() []side {
	if s.Unbounded {
		if s.Mirror {
			return []side{{2, 0, 1}}
		}
		return nil
	}
	var all []side
	for axis, l := range s.sides() {
		all = append(all, side{axis, 0, 1}, side{axis, l, -1})
	}
	return all
}

// spaceCheck carries what the checks share.
type spaceCheck struct {
	space Space
	sides []side
	// tolerance is the distance below which two places are one.
	tolerance float64
}

// facets returns the facets of all bodies at a fineness, without what lies in
// the sides of the box.
func (s Space) facets(finer int) ([]facet, error) {
	var meshes []Mesh
	low, high := r3.Vec{}, r3.Vec{X: float64(s.Length), Y: float64(s.Width), Z: float64(s.Depth)}
	for _, b := range s.Bodies {
		m, err := b.Solid.Mesh(finer)
		if err != nil {
			return nil, fmt.Errorf("%w (body %q)", err, b.Name)
		}
		if _, err := m.Surface(); err != nil {
			return nil, fmt.Errorf("%w (body %q)", err, b.Name)
		}
		m = m.Shifted(b.At)
		meshes = append(meshes, m)
		l, h := m.box()
		low, high = lower(low, l), upper(high, h)
	}
	c := spaceCheck{space: s, sides: s.planes(), tolerance: 1e-7 * r3.Norm(r3.Sub(high, low))}
	var all []facet
	starts := make([]int, 0, len(meshes)+1)
	for i, m := range meshes {
		starts = append(starts, len(all))
		facets, err := c.body(i, m)
		if err != nil {
			return nil, err
		}
		all = append(all, facets...)
	}
	if len(all) > mostTriangles {
		return nil, fmt.Errorf("plating: the meshes have %d triangles with every step halved, must have at most %d: take fewer steps", len(all), mostTriangles)
	}
	return all, c.apart(all, append(starts, len(all)), meshes)
}

// body checks one mesh and returns its facets in the bath.
func (c spaceCheck) body(index int, m Mesh) ([]facet, error) {
	name := c.space.Bodies[index].Name
	if err := c.inside(name, m); err != nil {
		return nil, err
	}
	if err := c.closed(name, m); err != nil {
		return nil, err
	}
	var facets []facet
	for t := range m.Triangles {
		f := newFacet(m.corners(t))
		f.body, f.triangle = index, t
		in := false
		for _, s := range c.sides {
			if c.on(s, f.a) && c.on(s, f.b) && c.on(s, f.c) {
				f.flush = component(f.normal, s.axis)*s.inward > 0
				// A shield that lies in a side is the side.
				in = !f.flush || c.space.Bodies[index].Role == RoleShield
			}
		}
		if !in {
			facets = append(facets, f)
		}
	}
	if len(facets) == 0 {
		return nil, fmt.Errorf("plating: body %q lies wholly in the sides of the tank and faces out of it", name)
	}
	return facets, nil
}

// on reports whether a place lies in a side.
func (c spaceCheck) on(s side, v r3.Vec) bool {
	return math.Abs(component(v, s.axis)-s.place) <= c.tolerance
}

// inside returns an error for a corner out of the tank.
func (c spaceCheck) inside(name string, m Mesh) error {
	for t, k := range m.Triangles {
		for _, i := range k {
			v := m.Points[i].vec()
			for _, s := range c.sides {
				if (component(v, s.axis)-s.place)*s.inward < -c.tolerance {
					return fmt.Errorf("plating: triangle %d of body %q is outside the tank at %s, beyond %s = %s", t+1, name, where(v),
						string(rune('X'+s.axis)), inMillimetre.of(s.place))
				}
			}
		}
	}
	return nil
}

// runs returns the triangle on whose left each side of a triangle runs, from
// corner to corner, or an error when two triangles run the same way along one.
func (m Mesh) runs(name string) (map[[2]int]int, error) {
	runs := make(map[[2]int]int, 3*len(m.Triangles))
	for t, k := range m.Triangles {
		for i := range 3 {
			way := [2]int{k[i], k[(i+1)%3]}
			if other, ok := runs[way]; ok {
				return nil, fmt.Errorf("plating: triangles %d and %d of %s run the same way along their side at %s: they face opposite ways, or one is there twice",
					other+1, t+1, name, where(m.Points[k[i]].vec()))
			}
			runs[way] = t
		}
	}
	return runs, nil
}

// Closed returns an error that names the triangle for a mesh that is not the
// whole skin of a solid: one that [Mesh.Surface] refuses, with a free side, with
// two triangles that run the same way along a side, or facing inwards. It does
// not look for a skin that cuts through itself.
func (m Mesh) Closed() error {
	if _, err := m.Surface(); err != nil {
		return err
	}
	runs, err := m.runs(m.name())
	if err != nil {
		return err
	}
	for t, k := range m.Triangles {
		for i := range 3 {
			if _, ok := runs[[2]int{k[(i+1)%3], k[i]}]; !ok {
				return fmt.Errorf("plating: triangle %d of %s has a free side at %s: the mesh is not closed", t+1, m.name(), where(m.Points[k[i]].vec()))
			}
		}
	}
	if v := m.Volume(); !(v > 0) {
		return fmt.Errorf("plating: %s encloses %.4g mm3, must enclose more than 0 mm3: its triangles face inwards, turn their corners about", m.name(), float64(v)*1e9)
	}
	return nil
}

// closed returns an error for a mesh with a free side that does not lie in a
// side of the tank, with a side that two triangles run the same way, or that
// faces inwards.
func (c spaceCheck) closed(name string, m Mesh) error {
	runs, err := m.runs(fmt.Sprintf("body %q", name))
	if err != nil {
		return err
	}
	open := map[side]bool{}
	for t, k := range m.Triangles {
		for i := range 3 {
			a, b := k[i], k[(i+1)%3]
			if _, ok := runs[[2]int{b, a}]; ok {
				continue
			}
			va, vb := m.Points[a].vec(), m.Points[b].vec()
			in := false
			for _, s := range c.sides {
				if c.on(s, va) && c.on(s, vb) {
					open[s], in = true, true
				}
			}
			if !in {
				return fmt.Errorf("plating: triangle %d of body %q has a free side at %s: the mesh is not closed", t+1, name, where(va))
			}
		}
	}
	return c.outward(name, m, open)
}

// outward returns an error for a mesh that faces inwards. Its volume is counted
// by columns along an axis from the one side in which it is open; a mesh open
// in both sides of every axis is passed over, and so is a sheet from side to
// side, which may have its solid on either hand.
func (c spaceCheck) outward(name string, m Mesh, open map[side]bool) error {
	for axis := range 3 {
		count, from := 0, component(m.Points[m.Triangles[0][0]].vec(), axis)
		for s := range open {
			if s.axis == axis {
				count++
				from = s.place
			}
		}
		if count > 1 {
			continue
		}
		volume, net, all := 0.0, 0.0, 0.0
		for t := range m.Triangles {
			p, q, r := m.corners(t)
			share := component(r3.Cross(r3.Sub(q, p), r3.Sub(r, p)), axis) / 2
			volume += share * ((component(p, axis)+component(q, axis)+component(r, axis))/3 - from)
			net += share
			all += math.Abs(share)
		}
		if count == 0 && math.Abs(net) > 1e-6*all {
			return nil
		}
		if volume < 0 {
			return fmt.Errorf("plating: triangle 1 of body %q faces inwards like the rest (volume %.4g mm3): turn its corners about", name, volume*1e9)
		}
		return nil
	}
	return nil
}

// apart returns an error for two bodies that touch, cross or hold one another.
func (c spaceCheck) apart(all []facet, starts []int, meshes []Mesh) error {
	for i := range meshes {
		for j := range meshes {
			if i == j {
				continue
			}
			a, b := all[starts[i]:starts[i+1]], all[starts[j]:starts[j+1]]
			if i < j {
				if err := c.touching(a, b); err != nil {
					return err
				}
			}
			if c.holds(meshes[j], a[0].mid) {
				return fmt.Errorf("plating: triangle %d of %s lies within %s", a[0].triangle+1, c.title(i), c.title(j))
			}
		}
	}
	return nil
}

// title names a body with its role.
func (c spaceCheck) title(body int) string {
	b := c.space.Bodies[body]
	return fmt.Sprintf("%s %q", b.Role, b.Name)
}

// holds reports whether a place lies in the metal of a closed mesh, by the
// solid angle of the mesh seen from it.
func (c spaceCheck) holds(m Mesh, x r3.Vec) bool {
	low, high := m.box()
	if x != lower(upper(x, low), high) {
		return false
	}
	sum := 0.0
	for t := range m.Triangles {
		f := newFacet(m.corners(t))
		sum += f.solidAngle(x)
	}
	return sum > 3*math.Pi
}

// touching returns an error for two facets of two bodies that touch.
func (c spaceCheck) touching(a, b []facet) error {
	for i := range a {
		f := &a[i]
		for j := range b {
			g := &b[j]
			if r3.Norm(r3.Sub(f.mid, g.mid)) > f.reach+g.reach+c.tolerance || !f.near(g, c.tolerance) {
				continue
			}
			return fmt.Errorf("plating: triangle %d of %s touches triangle %d of %s at %s", f.triangle+1, c.title(f.body), g.triangle+1, c.title(g.body), where(g.mid))
		}
	}
	return nil
}

// near reports whether two facets cross or come within a distance.
func (f *facet) near(g *facet, distance float64) bool {
	return f.cut(g, distance) || g.cut(f, distance)
}

// cut reports whether a side or a corner of g comes within a distance of f.
func (f *facet) cut(g *facet, distance float64) bool {
	corners := [3]r3.Vec{g.a, g.b, g.c}
	for i, p := range corners {
		q := corners[(i+1)%3]
		hp, hq := r3.Dot(r3.Sub(p, f.a), f.normal), r3.Dot(r3.Sub(q, f.a), f.normal)
		t := 0.0
		switch {
		case hp*hq < 0:
			t = hp / (hp - hq)
		case math.Abs(hp) > distance:
			continue
		}
		if f.covers(r3.Add(p, r3.Scale(t, r3.Sub(q, p))), distance) {
			return true
		}
	}
	return false
}

// covers reports whether a place near the facet's plane lies on it or within a
// distance of its sides.
func (f *facet) covers(x r3.Vec, distance float64) bool {
	corners := [3]r3.Vec{f.a, f.b, f.c}
	for i, p := range corners {
		along := r3.Unit(r3.Sub(corners[(i+1)%3], p))
		if r3.Dot(r3.Sub(x, p), r3.Cross(along, f.normal)) > distance {
			return false
		}
	}
	return true
}
