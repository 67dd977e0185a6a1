package squaring

// Worn ways move the table. What they do is told at the spindle, where the
// indicator and the cutter are; the chain of bodies wants it at the table's
// middle. This file turns one into the other.

import "gonum.org/v1/gonum/unit"

// WayMotion is what worn ways do to the table at a travel x: the height of the
// table's plane under the spindle, positive when it has risen; its slopes dz/dx
// along and dz/dy across the table; how far the table has moved toward the
// column there; and its yaw, anticlockwise seen from above. It takes and gives
// plain types, and is an alias, so that a package that knows nothing of this one
// can make it.
type WayMotion = func(x unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle)

// MotionFromWays returns the motion of a table on worn ways, taken as exactly
// known. At the table point under the spindle, u = -x, the six errors do what
// the ways say:
//
//	EZ = height + along x,  EB = -along,  EA = across,  EY = sideways + yaw x,  EC = yaw
//
// A nil WayMotion gives a nil, perfect, Motion.
func MotionFromWays(ways WayMotion) Motion {
	if ways == nil {
		return nil
	}
	return func(x unit.Length) (errors, uncertainty AxisErrors) {
		height, along, across, sideways, yaw := ways(x)
		return AxisErrors{
			EY: sideways + unit.Length(float64(yaw)*float64(x)),
			EZ: height + unit.Length(along*float64(x)),
			EA: unit.Angle(across),
			EB: unit.Angle(-along),
			EC: yaw,
		}, AxisErrors{}
	}
}

// WaysFromMotion returns what a table's motion does at the spindle: the inverse
// of [MotionFromWays]. A nil Motion gives nil.
func WaysFromMotion(motion Motion) WayMotion {
	if motion == nil {
		return nil
	}
	return func(x unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle) {
		e, _ := motion(x)
		along = -float64(e.EB)
		return e.EZ - unit.Length(along*float64(x)), along, float64(e.EA), e.EY - unit.Length(float64(e.EC)*float64(x)), e.EC
	}
}
