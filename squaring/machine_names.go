package squaring

// The names and signs of ISO 230-1:2012 (from memory: E, the direction of the
// error, the axis of motion; squareness as a turn, 0, the axis turned). This is
// the one place where our signs become the standard's.
//
// Ours are those of the slide that carries the work: travel positive when the
// table moves right, the saddle back, the knee up. The standard's are those of
// the tool relative to the work, whose coordinate grows when the table moves
// left. So an error of the standard at its coordinate s is ours at travel -s
// with the sign turned. A squareness is an angle between two lines and keeps
// its sign when both are run the other way.

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// NamedError is one of the 21 errors of a three-axis machine.
type NamedError struct {
	// Name is the standard's name: EXX, EBX, C0Y.
	Name string
	// Length is the error and LengthU its standard uncertainty when it is a
	// displacement; Angle and AngleU when it is a turn.
	Length, LengthU unit.Length
	Angle, AngleU   unit.Angle
}

// Turns reports whether the error is a turn, not a displacement.
func (e NamedError) Turns() bool {
	return len(e.Name) > 1 && (e.Name[1] >= 'A' && e.Name[1] <= 'C' || e.Name[1] == '0')
}

// NamedErrors returns the 21 errors under their names of ISO 230-1:2012, with
// the standard's signs, when the tool stands at the coordinates (x, y, z)
// relative to the work: each of X, Y and Z's three displacements and three
// turns, then C0Y, B0Z and A0Z. The coordinates and the errors must be finite.
func (m Machine) NamedErrors(x, y, z unit.Length) ([]NamedError, error) {
	at := Position{X: -x, Y: -y, Z: -z}
	if _, err := m.workShares(at, Vector{}); err != nil {
		return nil, err
	}
	var named []NamedError
	for i, motion := range []Motion{m.X, m.Y, m.Z} {
		var e, u AxisErrors
		if motion != nil {
			e, u = motion([]unit.Length{at.X, at.Y, at.Z}[i])
		}
		axis := string("XYZ"[i])
		named = append(named,
			NamedError{Name: "EX" + axis, Length: 0 - e.EX, LengthU: u.EX},
			NamedError{Name: "EY" + axis, Length: 0 - e.EY, LengthU: u.EY},
			NamedError{Name: "EZ" + axis, Length: 0 - e.EZ, LengthU: u.EZ},
			NamedError{Name: "EA" + axis, Angle: 0 - e.EA, AngleU: u.EA},
			NamedError{Name: "EB" + axis, Angle: 0 - e.EB, AngleU: u.EB},
			NamedError{Name: "EC" + axis, Angle: 0 - e.EC, AngleU: u.EC})
	}
	return append(named,
		NamedError{Name: "C0Y", Angle: m.C0Y, AngleU: m.C0YU},
		NamedError{Name: "B0Z", Angle: m.B0Z, AngleU: m.B0ZU},
		NamedError{Name: "A0Z", Angle: m.A0Z, AngleU: m.A0ZU}), nil
}

// String returns the name with its value in micrometres or in micrometres a
// metre.
func (e NamedError) String() string {
	if e.Name == "" {
		return "no error named"
	}
	if e.Turns() {
		return fmt.Sprintf("%s %.2f um/m", e.Name, float64(e.Angle)*1e6)
	}
	return fmt.Sprintf("%s %.2f um", e.Name, float64(e.Length)*1e6)
}
