package squaring

// The exact chain of transforms. Each body's pose is a rotation and a
// translation; the chain multiplies them as they stand on one another. It
// judges what the first-order sum leaves out: products of two errors.

import (
	"math"

	"gonum.org/v1/gonum/unit"
)

// pose is a rigid transform: point -> turn * point + shift.
type pose struct {
	turn  [3][3]float64
	shift [3]float64
}

// of returns the transformed point.
func (p pose) of(point [3]float64) [3]float64 {
	out := p.shift
	for i := range out {
		for j := range point {
			out[i] += p.turn[i][j] * point[j]
		}
	}
	return out
}

// back returns the point that the pose takes to the given one.
func (p pose) back(point [3]float64) [3]float64 {
	var out [3]float64
	for i := range out {
		for j := range point {
			out[i] += p.turn[j][i] * (point[j] - p.shift[j])
		}
	}
	return out
}

// turned returns the rotation about x, then y, then z, each right-handed.
func turned(a, b, c float64) [3][3]float64 {
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	sc, cc := math.Sincos(c)
	return [3][3]float64{
		{cc * cb, cc*sb*sa - sc*ca, cc*sb*ca + sc*sa},
		{sc * cb, sc*sb*sa + cc*ca, sc*sb*ca - cc*sa},
		{-sb, cb * sa, cb * ca},
	}
}

// slide returns the pose of a slide on the one below, when its line of travel
// is turned by square.
func (motion Motion) slide(travel [3]float64, square [3]float64, along int) pose {
	var e AxisErrors
	if motion != nil {
		e, _ = motion(unit.Length(travel[along]))
	}
	line := pose{turn: turned(square[0], square[1], square[2])}.of(travel)
	return pose{
		turn:  turned(float64(e.EA), float64(e.EB), float64(e.EC)),
		shift: [3]float64{line[0] + float64(e.EX), line[1] + float64(e.EY), line[2] + float64(e.EZ)},
	}
}

// slides returns the poses of table on saddle, saddle on knee, knee on column.
func (m Machine) slides(at Position) (table, saddle, knee pose) {
	table = m.X.slide([3]float64{float64(at.X), 0, 0}, [3]float64{}, 0)
	saddle = m.Y.slide([3]float64{0, float64(at.Y), 0}, [3]float64{0, 0, float64(m.C0Y)}, 1)
	knee = m.Z.slide([3]float64{0, 0, float64(at.Z)}, [3]float64{float64(m.A0Z), float64(m.B0Z), 0}, 2)
	return table, saddle, knee
}

// WorkErrorExact returns how far a point of the table is from where a perfect
// machine would have it, by the exact product of the slides' transforms. It
// differs from [Machine.WorkError] by products of two errors only: for a worn
// mill, less than a hundredth of a micrometre.
func (m Machine) WorkErrorExact(at Position, point Vector) (Vector, error) {
	if _, err := m.workShares(at, point); err != nil {
		return Vector{}, err
	}
	table, saddle, knee := m.slides(at)
	p := [3]float64{float64(point.X), float64(point.Y), float64(point.Z)}
	moved := vectorOf(knee.of(saddle.of(table.of(p))))
	return moved.Minus(point).Minus(Vector{X: at.X, Y: at.Y, Z: at.Z}), nil
}

// ToolInWork returns the point of the table, in the table's own frame, that the
// tip of the tool touches: exactly, with the quill out along its tilted axis. It
// is where a hole lands.
func (m Machine) ToolInWork(at Position) (Vector, error) {
	if _, err := m.toolShares(at); err != nil {
		return Vector{}, err
	}
	a, b, q := float64(m.Tilt.X), float64(m.Tilt.Y), float64(at.Quill)
	out := q / math.Sqrt(1+a*a+b*b)
	tip := [3]float64{a * out, b * out, -out}
	table, saddle, knee := m.slides(at)
	return vectorOf(table.back(saddle.back(knee.back(tip)))), nil
}
