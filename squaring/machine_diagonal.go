package squaring

// Lengths between places where the tool has stood: steps along a slide and
// diagonals of a rectangle or a box. Diagonals of equal commanded length differ
// when the travels are not square.
//
// Source of the tests: ISO 230-6:2002, diagonal displacement tests (from
// memory); the relations are derived here.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Span is the distance, in the work, between two places of the tool.
type Span struct {
	// Length is the distance that the machine makes, Asked the distance that
	// the slides were moved.
	Length, Asked unit.Length
	// U is the standard uncertainty of Length.
	U unit.Length
}

// Error returns how much longer the distance is than was asked.
func (s Span) Error() unit.Length { return s.Length - s.Asked }

// Span returns the distance in the work between the tool's places at two
// positions of the slides, by the exact chain. The uncertainty is first order:
// squareness and spindle tilt are the same at both, the slides' errors at the
// two places are taken as independent. The two places must differ.
func (m Machine) Span(from, to Position) (Span, error) {
	one, err := m.ToolInWork(from)
	if err != nil {
		return Span{}, err
	}
	two, err := m.ToolInWork(to)
	if err != nil {
		return Span{}, err
	}
	asked := to.AtTool().Minus(from.AtTool())
	span := Span{Length: two.Minus(one).Norm(), Asked: asked.Norm()}
	if span.Asked == 0 {
		return Span{}, fmt.Errorf("squaring: the two positions are the same, X = %s, Y = %s, Z = %s: no span between them",
			millimetres(from.X), millimetres(from.Y), millimetres(from.Z))
	}
	span.U, err = m.spanU(from, to, asked)
	return span, err
}

// spanU returns the standard uncertainty of the distance along the asked
// vector.
func (m Machine) spanU(from, to Position, asked Vector) (unit.Length, error) {
	one, err := m.toolShares(from)
	if err != nil {
		return 0, err
	}
	two, err := m.toolShares(to)
	if err != nil {
		return 0, err
	}
	n := float64(asked.Norm())
	along := func(s share) float64 {
		return (s.effect[0]*float64(asked.X) + s.effect[1]*float64(asked.Y) + s.effect[2]*float64(asked.Z)) / n
	}
	var variance float64
	for i := range one {
		a, b := along(one[i])*one[i].u, along(two[i])*two[i].u
		if one[i].fixed {
			variance += (b - a) * (b - a)
		} else {
			variance += a*a + b*b
		}
	}
	return unit.Length(math.Sqrt(variance)), nil
}

// BodyDiagonals returns the four body diagonals of the box that the tool spans
// when the slides move from a corner by sides a along x, b along y and c along
// z of the tool relative to the work. They run from the corners (0 0 0), (a 0
// 0), (0 b 0) and (a b 0) to the opposite ones. A side may be zero: with c zero
// the first two are the diagonals of the rectangle's one kind and the last two,
// read backward, repeat them. In a box whose travels are only out of square the
// errors are
//
//	(+-C0Y a b +- B0Z a c +- A0Z b c) / diagonal
//
// so that their sum is nought and each squareness shows in a difference.
func (m Machine) BodyDiagonals(corner Position, a, b, c unit.Length) ([4]Span, error) {
	var spans [4]Span
	for i := range spans {
		from, to := corner, corner
		to.X, to.Y, to.Z = corner.X-a, corner.Y-b, corner.Z-c
		if i&1 == 1 {
			from.X, to.X = to.X, from.X
		}
		if i&2 == 2 {
			from.Y, to.Y = to.Y, from.Y
		}
		span, err := m.Span(from, to)
		if err != nil {
			return [4]Span{}, err
		}
		spans[i] = span
	}
	return spans, nil
}
