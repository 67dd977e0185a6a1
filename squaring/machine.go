package squaring

// A knee mill as a chain of rigid bodies: column, knee (Z), saddle (Y), table
// (X), work on the one side, column, spindle, quill, tool on the other. Every
// error is small, so to first order the deviation of the work is a sum of the
// errors, each times its lever arm. That sum is written once, in shares: the
// value, its uncertainty and the ISO 230-1 names all come from it. The exact
// product of the bodies' transforms is in machine_exact.go.
//
// Source of the model: ISO 230-1:2012, Test code for machine tools, part 1,
// clause 3 (names of the errors, from memory); lever arms derived here.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Vector is a point or a displacement in the machine frame: X to the right, Y
// to the column, Z up.
type Vector struct {
	X, Y, Z unit.Length
}

// Plus returns the sum of two vectors.
func (v Vector) Plus(w Vector) Vector { return Vector{X: v.X + w.X, Y: v.Y + w.Y, Z: v.Z + w.Z} }

// Minus returns v less w.
func (v Vector) Minus(w Vector) Vector { return Vector{X: v.X - w.X, Y: v.Y - w.Y, Z: v.Z - w.Z} }

// Norm returns the length of the vector.
func (v Vector) Norm() unit.Length {
	return unit.Length(math.Sqrt(float64(v.X)*float64(v.X) + float64(v.Y)*float64(v.Y) + float64(v.Z)*float64(v.Z)))
}

// AxisErrors are the six errors of one slide's motion at one place of its
// travel: what the slide has moved and turned beyond what was asked.
type AxisErrors struct {
	// EX, EY and EZ are displacements along x, y and z.
	EX, EY, EZ unit.Length
	// EA, EB and EC are turns about x, y and z, right-handed: EA lifts the
	// back, EB lifts the left and EC turns anticlockwise seen from above.
	EA, EB, EC unit.Angle
}

// Motion gives a slide's errors, and their standard uncertainties, at a travel
// of that slide. Travel is the work's: the table to the right, the saddle to
// the back, the knee up. A nil Motion is a perfect slide.
type Motion func(travel unit.Length) (errors, uncertainty AxisErrors)

// Machine is a knee mill with a table on a saddle on a knee, a fixed spindle
// and a quill. The zero Machine is perfect.
type Machine struct {
	// X, Y and Z are the motions of table, saddle and knee.
	X, Y, Z Motion
	// C0Y, B0Z and A0Z are the squareness errors of Y to X about z, of Z to X
	// about y and of Z to Y about x: right-handed turns of the second slide's
	// line of travel away from square. Their standard uncertainties follow.
	C0Y, B0Z, A0Z    unit.Angle
	C0YU, B0ZU, A0ZU unit.Angle
	// Tilt is the slope of the plane square to the spindle's axis: X positive
	// when that plane is high on the right, Y when it is high at the back.
	// TiltU holds the standard uncertainties.
	Tilt, TiltU Gradient
	// Top is the form of the table's top: its height above the table's plane
	// at u to the right and v to the back of the table's middle. Nil is flat.
	Top func(u, v unit.Length) unit.Length
}

// Position is where the slides stand.
type Position struct {
	// X, Y and Z are the travels of table (right), saddle (back) and knee (up)
	// from the place where the table's middle is under the spindle and touches
	// the tool.
	X, Y, Z unit.Length
	// Quill is how far the quill is out, positive downward.
	Quill unit.Length
}

// AtTool returns the point of the table, in the table's own frame, that a
// perfect machine would have at the tip of the tool.
func (p Position) AtTool() Vector { return Vector{X: -p.X, Y: -p.Y, Z: -p.Z - p.Quill} }

// share is what one error of the machine does to a point of the work: the
// displacement is value times effect.
type share struct {
	name   string
	value  float64 // metres or radians
	u      float64 // its standard uncertainty
	effect [3]float64
	// fixed is true for what is the same wherever the slides stand.
	fixed bool
}

// WorkError returns how far a point of the table is from where a perfect
// machine would have it, to first order in the errors. The point is in the
// table's frame, whose origin is the middle of the top. The second vector holds
// the standard uncertainties, the errors of the machine taken as independent.
//
//	e = EX + EY + EZ + squareness + wZ x (X+P, Y+P, P) + wY x (X+P, P, P) + wX x P
//
// A turn of the table acts on the point alone, one of the saddle also on the
// table's travel, one of the knee on both travels. Travels and point must be
// finite, and so must the errors there.
func (m Machine) WorkError(at Position, point Vector) (displacement, uncertainty Vector, err error) {
	shares, err := m.workShares(at, point)
	if err != nil {
		return Vector{}, Vector{}, err
	}
	displacement, uncertainty = sumShares(shares)
	return displacement, uncertainty, nil
}

// Deviation is how far the tool is from where it should be in the work.
type Deviation struct {
	// Tool is the displacement of the tool's tip relative to the work: Z
	// positive when the tool is too high and leaves metal.
	Tool Vector
	// U holds the standard uncertainties of its parts.
	U Vector
}

// Deviation returns how far the tool's tip is from its place in the work, to
// first order: the tilted quill's sideways step less the work's own error at
// the point under the tool.
//
//	deviation = (tilt.X quill, tilt.Y quill, 0) - work error
//
// The uncertainty takes the errors as independent; when they come from one
// survey use [Adjustment.Predict], which does not.
func (m Machine) Deviation(at Position) (Deviation, error) {
	shares, err := m.toolShares(at)
	if err != nil {
		return Deviation{}, err
	}
	tool, u := sumShares(shares)
	return Deviation{Tool: tool, U: u}, nil
}

// workShares returns the shares of the slides and their squareness in the
// displacement of a point of the table.
func (m Machine) workShares(at Position, point Vector) ([]share, error) {
	for i, value := range []unit.Length{at.X, at.Y, at.Z, at.Quill, point.X, point.Y, point.Z} {
		name := [...]string{"travel X", "travel Y", "travel Z", "quill", "point x", "point y", "point z"}[i]
		if err := finite(name, float64(value)); err != nil {
			return nil, err
		}
	}
	px, py, pz := float64(point.X), float64(point.Y), float64(point.Z)
	x, y, z := float64(at.X), float64(at.Y), float64(at.Z)
	shares := make([]share, 0, 23)
	shares = m.X.shares(shares, errorsOfX, at.X, [3]float64{px, py, pz})
	shares = m.Y.shares(shares, errorsOfY, at.Y, [3]float64{x + px, py, pz})
	shares = m.Z.shares(shares, errorsOfZ, at.Z, [3]float64{x + px, y + py, pz})
	shares = append(shares,
		share{"C0Y", float64(m.C0Y), float64(m.C0YU), [3]float64{-y, 0, 0}, true},
		share{"B0Z", float64(m.B0Z), float64(m.B0ZU), [3]float64{z, 0, 0}, true},
		share{"A0Z", float64(m.A0Z), float64(m.A0ZU), [3]float64{0, -z, 0}, true})
	for _, s := range shares {
		if err := finite(s.name, s.value); err != nil {
			return nil, err
		}
		if err := notNegativeNumber("standard uncertainty of "+s.name, s.u); err != nil {
			return nil, err
		}
	}
	return shares, nil
}

// The names of the slides' errors.
var (
	errorsOfX = [6]string{"EXX", "EYX", "EZX", "EAX", "EBX", "ECX"}
	errorsOfY = [6]string{"EXY", "EYY", "EZY", "EAY", "EBY", "ECY"}
	errorsOfZ = [6]string{"EXZ", "EYZ", "EZZ", "EAZ", "EBZ", "ECZ"}
)

// shares appends the six errors of one slide: a displacement moves the point as
// it stands, a turn w moves it by w x arm.
func (motion Motion) shares(shares []share, names [6]string, travel unit.Length, arm [3]float64) []share {
	if motion == nil {
		return shares
	}
	e, u := motion(travel)
	return append(shares,
		share{names[0], float64(e.EX), float64(u.EX), [3]float64{1, 0, 0}, false},
		share{names[1], float64(e.EY), float64(u.EY), [3]float64{0, 1, 0}, false},
		share{names[2], float64(e.EZ), float64(u.EZ), [3]float64{0, 0, 1}, false},
		share{names[3], float64(e.EA), float64(u.EA), [3]float64{0, -arm[2], arm[1]}, false},
		share{names[4], float64(e.EB), float64(u.EB), [3]float64{arm[2], 0, -arm[0]}, false},
		share{names[5], float64(e.EC), float64(u.EC), [3]float64{-arm[1], arm[0], 0}, false})
}

// toolShares returns the shares in the displacement of the tool relative to the
// work: the work's with the sign turned, and the spindle's tilt.
func (m Machine) toolShares(at Position) ([]share, error) {
	shares, err := m.workShares(at, at.AtTool())
	if err != nil {
		return nil, err
	}
	for i := range shares {
		for k := range shares[i].effect {
			shares[i].effect[k] = -shares[i].effect[k]
		}
	}
	q := float64(at.Quill)
	tilts := []share{
		{"spindle tilt along x", float64(m.Tilt.X), float64(m.TiltU.X), [3]float64{q, 0, 0}, true},
		{"spindle tilt along y", float64(m.Tilt.Y), float64(m.TiltU.Y), [3]float64{0, q, 0}, true},
	}
	for _, s := range tilts {
		if err := finite(s.name, s.value); err != nil {
			return nil, err
		}
		if err := notNegativeNumber("standard uncertainty of "+s.name, s.u); err != nil {
			return nil, err
		}
	}
	return append(shares, tilts...), nil
}

// sumShares adds the shares up, and their uncertainties in quadrature.
func sumShares(shares []share) (sum, uncertainty Vector) {
	var s, v [3]float64
	for _, share := range shares {
		for k, effect := range share.effect {
			s[k] += share.value * effect
			v[k] += share.u * share.u * effect * effect
		}
	}
	return vectorOf(s), vectorOf([3]float64{math.Sqrt(v[0]), math.Sqrt(v[1]), math.Sqrt(v[2])})
}

func vectorOf(v [3]float64) Vector {
	return Vector{X: unit.Length(v[0]), Y: unit.Length(v[1]), Z: unit.Length(v[2])}
}

// TopHeight returns the height of the table's top above the plane through the
// origin, at the place (x, y) of the machine frame, less the knee's travel: what
// an indicator held there by the column sees.
func (m Machine) TopHeight(at Position, x, y unit.Length) (unit.Length, error) {
	point := Vector{X: x - at.X, Y: y - at.Y}
	e, _, err := m.WorkError(at, point)
	if err != nil {
		return 0, err
	}
	height := e.Z
	if m.Top != nil {
		height += m.Top(point.X, point.Y)
	}
	return height, finite(fmt.Sprintf("form of the top at u = %s, v = %s", millimetres(point.X), millimetres(point.Y)), float64(height))
}

// SweepHeight returns what an ideal indicator, swung by the spindle at the
// radius, shows at the azimuth: the table's top above the plane square to the
// spindle.
func (m Machine) SweepHeight(at Position, radius unit.Length, azimuth unit.Angle) (unit.Length, error) {
	sin, cos := math.Sincos(float64(azimuth))
	x, y := radius*unit.Length(cos), radius*unit.Length(sin)
	height, err := m.TopHeight(at, x, y)
	return height - m.Tilt.Height(x, y), err
}
