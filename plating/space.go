package plating

// The electric field in a tank in three dimensions: what the caller describes,
// in the manner of [Section] and [Field].

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"
)

// Body is a thing in the tank: a part, an anode, a thief or an insulating shield.
// Walls are not drawn; the tank brings them.
type Body struct {
	Name string
	Role Role
	// Solid is its shape, which At moves to its place.
	Solid Solid
	At    Point
}

// Space is a tank with all that hangs in it. The bath fills the box from the
// origin to Length along X, Width along Y and Depth along Z, whose six sides
// (walls, floor and free surface) all insulate.
//
// A body may stand against sides of the box: what it has in them is left out,
// and an open mesh must end in them. A side against which half a body is drawn
// is thereby a mirror that makes it whole.
type Space struct {
	Length, Width, Depth unit.Length
	// Unbounded lets the bath reach to infinity; Length, Width and Depth are
	// then not used. Without an anode the current comes from one at infinity.
	Unbounded bool
	// Mirror makes the plane Z = 0 of an unbounded space an insulating floor.
	Mirror bool
	Bodies []Body
}

// farAnode reports whether the current comes from infinity.
func (s Space) farAnode() bool {
	for _, b := range s.Bodies {
		if b.Role == RoleAnode {
			return false
		}
	}
	return s.Unbounded
}

// SpaceField is a space made ready to be solved under any [Conditions]. It is
// never changed by its methods and may be used from several goroutines.
//
// The model is that of [Field], with the sides of the box in it exactly (see
// [NewSpaceField]). Potential and current density are constant on each
// triangle, so that square edges without kinetics only say how fine the mesh
// is, and a wall thinner than the triangles beside it is poorly seen.
type SpaceField struct {
	space        Space
	fine, coarse *spaceSystem
}

// mostTriangles bounds the mesh: the equations take 8 bytes for each pair of
// triangles several times over.
const mostTriangles = 6000

// NewSpaceField makes a space ready: once on the meshes as the solids describe
// them, and once with every step halved, which has four times the triangles
// and is the answer; [SpaceDistribution.Change] compares the two. The finer
// mesh may have 6000 triangles; time grows as the cube of their number and
// memory as the square, about 150 MB at 2000.
//
// The method is the direct boundary-element method with collocation at the
// middles of triangles. The sides of the box are no elements: the Green
// function is that of the insulating box, all mirror images summed by P. P.
// Ewald's method (Annalen der Physik 369 (1921) 253; from memory), so that they
// cost no unknowns and an even field stays even.
//
// It returns an error that names the body and the triangle for a mesh that is
// not closed, faces inwards, has a triangle without area or leaves the tank,
// and for bodies that touch, cross or hold one another.
func NewSpaceField(space Space) (*SpaceField, error) {
	space.Bodies = append([]Body(nil), space.Bodies...)
	if err := space.validate(); err != nil {
		return nil, err
	}
	var facets [2][]facet
	for i := range facets {
		var err error
		if facets[i], err = space.facets(1 + i); err != nil {
			return nil, err
		}
	}
	return &SpaceField{space, newSpaceSystem(space, facets[1]), newSpaceSystem(space, facets[0])}, nil
}

// Triangles returns the number of triangles in use on the finer mesh.
func (f *SpaceField) Triangles() int { return len(f.fine.facets) }

// Solve returns the current distribution under conditions, with the errors of
// [Field.Solve].
func (f *SpaceField) Solve(c Conditions) (SpaceDistribution, error) {
	if err := c.validate(); err != nil {
		return SpaceDistribution{}, err
	}
	d, err := f.fine.solve(c)
	if err != nil {
		return SpaceDistribution{}, err
	}
	coarse, err := f.coarse.solve(c)
	if err != nil {
		return SpaceDistribution{}, fmt.Errorf("%w (on the coarser mesh)", err)
	}
	d.Change = changeBetween(coarse.plain(), d.plain())
	d.ThickChange = changed(float64(coarse.Thick/coarse.Mean), float64(d.Thick/d.Mean))
	d.ThinChange = changed(float64(coarse.Thin/coarse.Mean), float64(d.Thin/d.Mean))
	return d, nil
}

// validate returns what is wrong with the tank, the names and the roles.
func (s Space) validate() error {
	if !s.Unbounded {
		if s.Mirror {
			return fmt.Errorf("plating: space is bounded and has a mirror: its floor is one already")
		}
		if err := firstError(positive("length of the tank", float64(s.Length), inMillimetre),
			positive("width of the tank", float64(s.Width), inMillimetre), positive("depth of the tank", float64(s.Depth), inMillimetre)); err != nil {
			return err
		}
		if long, short := max(s.Length, s.Width, s.Depth), min(s.Length, s.Width, s.Depth); long > 50*short {
			return fmt.Errorf("plating: longest side of the tank is %s, must be at most 50 times the shortest, %s",
				inMillimetre.of(float64(long)), inMillimetre.of(float64(short)))
		}
	}
	parts, anodes := 0, 0
	seen := map[string]bool{}
	for i, b := range s.Bodies {
		switch {
		case b.Name == "" || seen[b.Name]:
			return fmt.Errorf("plating: body %d is named %q, must have a name of its own", i+1, b.Name)
		case b.Solid == nil:
			return fmt.Errorf("plating: body %q has no solid", b.Name)
		case !b.Role.electrode() && b.Role != RoleShield:
			return fmt.Errorf("plating: body %q is a %s, must be a part, an anode, a thief or a shield", b.Name, b.Role)
		case !isFinite(float64(b.At.X + b.At.Y + b.At.Z)):
			return fmt.Errorf("plating: place of body %q is %s, must be finite", b.Name, where(b.At.vec()))
		}
		seen[b.Name] = true
		if b.Role == RolePart {
			parts++
		}
		if b.Role == RoleAnode {
			anodes++
		}
	}
	if parts == 0 {
		return fmt.Errorf("plating: space has no part")
	}
	if anodes == 0 && !s.farAnode() {
		return fmt.Errorf("plating: space has no anode")
	}
	return nil
}

// sides returns the sides of the box in m.
func (s Space) sides() [3]float64 {
	return [3]float64{float64(s.Length), float64(s.Width), float64(s.Depth)}
}

// facet is a triangle on which potential and current density are constant.
type facet struct {
	a, b, c, mid r3.Vec
	// normal points out of the body into the bath.
	normal r3.Vec
	area   float64
	// reach is the length of the longest side.
	reach float64
	// body and triangle say whose it is, in the mesh in use.
	body, triangle int
	// flush is true when it lies in a side of the box.
	flush bool
}

// newFacet returns the facet of three corners.
func newFacet(a, b, c r3.Vec) facet {
	cross := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	twice := r3.Norm(cross)
	return facet{a: a, b: b, c: c, mid: r3.Scale(1.0/3, r3.Add(a, r3.Add(b, c))), normal: r3.Scale(1/twice, cross), area: twice / 2,
		reach: max(r3.Norm(r3.Sub(b, a)), r3.Norm(r3.Sub(c, b)), r3.Norm(r3.Sub(a, c)))}
}
