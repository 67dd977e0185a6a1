package plating

// The electric field in a plating tank, on a plane or an axisymmetric section:
// what the caller describes. The boundary files turn a section into equations,
// the other field files solve them and read the answer.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Role says what an outline is to the current.
type Role int

// The roles of an outline.
const (
	// RoleWall is an insulating boundary: tank wall, floor, free surface.
	RoleWall Role = iota
	// RoleShield is an insulating body or lacquer that keeps current away.
	RoleShield
	// RolePart is a cathode whose coat is wanted.
	RolePart
	// RoleAnode is an anode; all anodes hang on one bar.
	RoleAnode
	// RoleThief is a cathode on the same bar as the parts that takes current
	// away from their edges.
	RoleThief
)

// String returns the role in a word.
func (r Role) String() string {
	switch r {
	case RoleWall:
		return "wall"
	case RoleShield:
		return "shield"
	case RolePart:
		return "part"
	case RoleAnode:
		return "anode"
	case RoleThief:
		return "thief"
	}
	return fmt.Sprintf("role %d", int(r))
}

// electrode reports whether current passes through the outline.
func (r Role) electrode() bool { return r == RolePart || r == RoleAnode || r == RoleThief }

// cathodic reports whether the outline hangs on the cathode bar.
func (r Role) cathodic() bool { return r == RolePart || r == RoleThief }

// Corner is a corner of an outline and the way to the next one.
type Corner struct {
	// X and Y are the place in the section. On an axisymmetric section X is the
	// distance from the axis, never negative, and Y the height along it.
	X, Y unit.Length
	// Bulge makes the way to the next corner a circular arc: the tangent of a
	// quarter of the arc's angle, positive when the arc turns anticlockwise.
	// Zero is a straight line, 1 a half circle.
	Bulge float64
	// Round is the radius that rounds the corner where two straight lines meet;
	// zero leaves it sharp. The ends of an open outline have none.
	Round unit.Length
}

// Outline is a named line of the section. A closed outline is a whole body or
// tank; an open one must join other outlines end to end, or end on the axis or
// the mirror line, so that the lines together close.
type Outline struct {
	Name    string
	Role    Role
	Corners []Corner
	// Closed joins the last corner to the first.
	Closed bool
}

// Box returns the closed rectangle between two opposite corners.
func Box(name string, role Role, x0, y0, x1, y1 unit.Length) Outline {
	return Outline{Name: name, Role: role, Closed: true,
		Corners: []Corner{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}}
}

// Circle returns the closed circle of a radius about a centre.
func Circle(name string, role Role, x, y, radius unit.Length) Outline {
	quarter := math.Tan(math.Pi / 8)
	return Outline{Name: name, Role: role, Closed: true, Corners: []Corner{
		{X: x + radius, Y: y, Bulge: quarter}, {X: x, Y: y + radius, Bulge: quarter},
		{X: x - radius, Y: y, Bulge: quarter}, {X: x, Y: y - radius, Bulge: quarter}}}
}

// Section is a cut through a tank with all that hangs in it. Where outlines
// nest, the electrolyte fills the room between the outermost one and the others.
type Section struct {
	Outlines []Outline
	// Axisymmetric turns the section about the line X = 0; otherwise it is a
	// plane section that goes on unchanged through Depth.
	Axisymmetric bool
	// Depth is the length square to a plane section over which the current
	// spreads; it must be above zero there and is not used on an axisymmetric
	// one.
	Depth unit.Length
	// Mirror makes the line Y = 0 an insulating floor or a plane of symmetry:
	// only the half above it is drawn and counted.
	Mirror bool
	// Unbounded lets the electrolyte reach to infinity: there is no outermost
	// outline. On an axisymmetric section without an anode the current then
	// comes from an anode at infinity.
	Unbounded bool
}

// farAnode reports whether the current comes from infinity.
func (s Section) farAnode() bool {
	if !s.Unbounded || !s.Axisymmetric {
		return false
	}
	for _, o := range s.Outlines {
		if o.Role == RoleAnode {
			return false
		}
	}
	return true
}

// Conditions are the bath and the supply in one solve.
type Conditions struct {
	// Conductivity of the bath, above zero and the same everywhere.
	Conductivity Conductivity
	// Current is what the supply drives through parts and thieves together (on
	// a mirrored section, through the half drawn); Voltage is the cell voltage.
	// Exactly one is set, and is above zero.
	Current unit.Current
	Voltage unit.Voltage
	// Cathode holds for parts and thieves, Anode for anodes; an anode at
	// infinity has none. A law with a limit at the anode bounds the reverse
	// reaction only.
	Cathode, Anode Kinetics
}

// validate returns what is wrong with the conditions.
func (c Conditions) validate() error {
	if err := firstError(
		positive("conductivity", float64(c.Conductivity), inSPerM),
		notNegative("current", float64(c.Current), inAmpere),
		notNegative("cell voltage", float64(c.Voltage), inVolt),
	); err != nil {
		return err
	}
	if (c.Current > 0) == (c.Voltage > 0) {
		return fmt.Errorf("plating: current is %s and cell voltage %s, exactly one must be above zero",
			inAmpere.of(float64(c.Current)), inVolt.of(float64(c.Voltage)))
	}
	if err := c.Cathode.Validate(); err != nil {
		return fmt.Errorf("%w (at the cathode)", err)
	}
	if err := c.Anode.Validate(); err != nil {
		return fmt.Errorf("%w (at the anode)", err)
	}
	return nil
}

// Field is a section made ready to be solved under any [Conditions]: the
// Laplace equation reduced once to the electrodes. It is never changed by its
// methods and may be used from several goroutines.
//
// The model: a bath of one conductivity, no differences of concentration other
// than through a limiting current density, no gas, and a coat too thin to change
// the shape. A plane section has no ends: nothing of what happens at the ends
// of the part along Depth is in it. Without kinetics (primary distribution) the
// current density is infinite at outer corners of an electrode and at its edge
// against an insulator, so that the thickest place only says how fine the mesh
// is; [Distribution.Change] shows it. Real corners are rounded and real
// electrodes have kinetics: draw the rounding and give the kinetics.
type Field struct {
	section      Section
	fine, coarse *system
}

// defaultElements is the number of boundary elements when none is asked for.
const defaultElements = 300

// NewField makes a section ready with about the given number of boundary
// elements on it, graded towards edges and narrow gaps; zero means 300, and a
// section that needs more gets more. A second field with half as many goes along
// to judge the first. Time and memory grow as the cube and the square of the
// number.
//
// It returns an error that names the outline and the place for a section that
// cannot be solved: an outline with too few corners, a length of zero, a value
// that is not finite, an open end, lines that cross or touch, a part outside
// the tank or against an anode, no part or no anode.
func NewField(section Section, elements int) (*Field, error) {
	if elements == 0 {
		elements = defaultElements
	}
	if elements < 8 || elements > 20000 {
		return nil, fmt.Errorf("plating: %d boundary elements asked for, must be 8 to 20000", elements)
	}
	loops, err := section.loops()
	if err != nil {
		return nil, err
	}
	f := &Field{section: section.clone()}
	if f.coarse, err = newSystem(f.section, loops, elements/2); err != nil {
		return nil, err
	}
	f.fine, err = newSystem(f.section, loops, max(elements, 2*len(f.coarse.elements)))
	return f, err
}

// clone returns a section that shares no slice with s.
func (s Section) clone() Section {
	outlines := make([]Outline, len(s.Outlines))
	for i, o := range s.Outlines {
		o.Corners = append([]Corner(nil), o.Corners...)
		outlines[i] = o
	}
	s.Outlines = outlines
	return s
}

// Section returns the section as it was given, or as it was moved.
func (f *Field) Section() Section { return f.section.clone() }

// Elements returns the number of boundary elements in use.
func (f *Field) Elements() int { return len(f.fine.elements) }
