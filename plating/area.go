package plating

// Surfaces and their standard uncertainties. Every shape is a function of a few
// dimensions; its uncertainty is first order in them (JCGM 100:2008, 5.1.2),
// with slopes taken over one standard uncertainty, and the dimensions are taken
// as independent. Shapes are added as independent; many of one shape share their
// dimensions' errors.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Dimension is a length with its standard uncertainty. A dimension read to a
// step (a rule's, a calliper's) with nothing else wrong has a standard
// uncertainty of step/sqrt(12).
type Dimension struct {
	Value, U unit.Length
}

// Exactly returns the dimension without uncertainty, as for a check value.
func Exactly(value unit.Length) Dimension { return Dimension{Value: value} }

// Share is what one input contributes to the standard uncertainty of a result.
type Share struct {
	// Name says which input.
	Name string
	// U is the contribution to the result's standard uncertainty, in the SI
	// unit of the result.
	U float64
}

// Surface is a wetted area with its standard uncertainty.
type Surface struct {
	Name string
	// Area and its standard uncertainty U.
	Area, U unit.Area
	// Shares says what each dimension, or each part of a sum, contributes to U,
	// in m2. They add as squares.
	Shares []Share
}

// Shape is a solid whose wetted surface is known from its dimensions.
type Shape interface {
	// Surface returns the area and its standard uncertainty, or an error that
	// names the dimension that is wrong.
	Surface() (Surface, error)
}

// Area is a surface that was measured or typed in as a whole.
func Area(name string, area, u unit.Area) (Surface, error) {
	if err := firstError(positive("area of "+name, float64(area), inSquareCM),
		notNegative("standard uncertainty of the area of "+name, float64(u), inSquareCM)); err != nil {
		return Surface{}, err
	}
	s := Surface{Name: name, Area: area, U: u}
	if u > 0 {
		s.Shares = []Share{{name, float64(u)}}
	}
	return s, nil
}

// Sum returns the surface of several parts whose areas were found
// independently: areas add, standard uncertainties add as squares.
func Sum(name string, parts ...Surface) Surface {
	total := Surface{Name: name}
	var squares float64
	for _, p := range parts {
		total.Area += p.Area
		squares += float64(p.U) * float64(p.U)
		if p.U > 0 {
			total.Shares = append(total.Shares, Share{p.Name, float64(p.U)})
		}
	}
	total.U = unit.Area(math.Sqrt(squares))
	return total
}

// Times returns the surface of n equal parts measured once: the error of the
// measured part is the error of all, so the uncertainty grows with n, not with
// its root. It returns an error for n below 1.
func (s Surface) Times(n int) (Surface, error) {
	if n < 1 {
		return Surface{}, fmt.Errorf("plating: count of %s is %d, must be 1 or more", s.Name, n)
	}
	many := Surface{Name: s.Name, Area: s.Area * unit.Area(n), U: s.U * unit.Area(n)}
	for _, share := range s.Shares {
		many.Shares = append(many.Shares, Share{share.Name, share.U * float64(n)})
	}
	return many, nil
}

// RackItem is a number of equal parts on a rack.
type RackItem struct {
	Name  string
	Shape Shape
	Count int
}

// Rack returns the surface of a rack of many parts, each kind measured once and
// independently of the others. Bare wire and hooks that take metal are items
// like any other.
func Rack(name string, items ...RackItem) (Surface, error) {
	if len(items) == 0 {
		return Surface{}, fmt.Errorf("plating: rack %q holds nothing", name)
	}
	var parts []Surface
	for i, item := range items {
		if item.Shape == nil {
			return Surface{}, fmt.Errorf("plating: item %d of the rack has no shape", i+1)
		}
		one, err := item.Shape.Surface()
		if err != nil {
			return Surface{}, err
		}
		if item.Name != "" {
			one.Name = item.Name
		}
		many, err := one.Times(item.Count)
		if err != nil {
			return Surface{}, err
		}
		parts = append(parts, many)
	}
	return Sum(name, parts...), nil
}

// FoilWrap returns the area of an odd part from the foil that just covers it: a
// piece of known area of the same foil is weighed, and the wrapping without
// overlap is weighed, so that
//
//	A = A(piece) m(wrap) / m(piece)
//
// The standard uncertainties are those of the piece's area, of either weighing
// (one figure for both), and of the fit of the wrapping as a fraction of the
// area; a careful wrap fits within a few per cent (common practice).
func FoilWrap(piece Surface, pieceMass, wrapMass, massU unit.Mass, fitU float64) (Surface, error) {
	if err := firstError(
		positive("area of the foil piece", float64(piece.Area), inSquareCM),
		notNegative("standard uncertainty of the area of the foil piece", float64(piece.U), inSquareCM),
		positive("mass of the foil piece", float64(pieceMass), inGram),
		positive("mass of the foil wrapping", float64(wrapMass), inGram),
		notNegative("standard uncertainty of the foil masses", float64(massU), inGram),
		notNegative("standard uncertainty of the fit", fitU, inPlain),
	); err != nil {
		return Surface{}, err
	}
	a := float64(piece.Area) * float64(wrapMass/pieceMass)
	return withShares("foil wrap", a, []Share{
		{"area of the foil piece", a * float64(piece.U/piece.Area)},
		{"mass of the foil piece", a * float64(massU/pieceMass)},
		{"mass of the wrapping", a * float64(massU/wrapMass)},
		{"fit of the wrapping", a * fitU},
	}), nil
}

// withShares returns the surface of area a whose standard uncertainty is the
// root of the sum of the squares of the shares; shares of nothing are left out.
func withShares(name string, a float64, shares []Share) Surface {
	s := Surface{Name: name, Area: unit.Area(a)}
	var squares float64
	for _, share := range shares {
		if share.U != 0 {
			s.Shares = append(s.Shares, share)
			squares += share.U * share.U
		}
	}
	s.U = unit.Area(math.Sqrt(squares))
	return s
}

// named is a dimension with the name it has in messages.
type named struct {
	name string
	Dimension
}

// largestRelative is the largest standard uncertainty of a dimension, as a
// fraction of it, for which first-order uncertainties are given.
const largestRelative = 0.3

// validate returns an error unless the dimension is above zero, its standard
// uncertainty zero or more and at most 30 % of it.
func (d named) validate() error {
	if err := firstError(positive(d.name, float64(d.Value), inMillimetre),
		notNegative("standard uncertainty of "+d.name, float64(d.U), inMillimetre)); err != nil {
		return err
	}
	if float64(d.U) > largestRelative*float64(d.Value) {
		return fmt.Errorf("plating: standard uncertainty of %s is %s, must be at most %.0f %% of %s",
			d.name, inMillimetre.of(float64(d.U)), 100*largestRelative, inMillimetre.of(float64(d.Value)))
	}
	return nil
}

// surfaceOf returns the surface whose area is a function of the dimensions, in
// metres and square metres, each of which must be above zero.
func surfaceOf(name string, area func(x []float64) float64, dims ...named) (Surface, error) {
	for _, d := range dims {
		d.name += " of the " + name
		if err := d.validate(); err != nil {
			return Surface{}, err
		}
	}
	return propagate(name, area, dims)
}

// propagate returns the surface with its first-order uncertainty, or an error
// when one of the two is not finite.
func propagate(name string, area func(x []float64) float64, dims []named) (Surface, error) {
	x := make([]float64, len(dims))
	for i, d := range dims {
		x[i] = float64(d.Value)
	}
	var shares []Share
	for i, d := range dims {
		if d.U > 0 {
			shares = append(shares, Share{d.name, contribution(area, x, i, float64(d.U))})
		}
	}
	s := withShares(name, area(x), shares)
	if !isFinite(float64(s.Area)) || !isFinite(float64(s.U)) {
		return Surface{}, fmt.Errorf("plating: the %s is too large, or its dimensions too uncertain, for an area", name)
	}
	return s, nil
}

// contribution returns the larger of the changes of the area when the i-th
// dimension is u more and u less (JCGM 100:2008, 5.1.3, note 2, has their mean;
// the larger also serves at an edge, such as a tip on the axis, where only one
// side can be).
func contribution(area func(x []float64) float64, x []float64, i int, u float64) float64 {
	moved := append([]float64(nil), x...)
	middle := area(moved)
	moved[i] = x[i] + u
	up := area(moved)
	moved[i] = x[i] - u
	down := area(moved)
	return math.Max(math.Abs(up-middle), math.Abs(down-middle))
}

// openEnds returns an error unless the number of ends that are not plated is 0,
// 1 or 2.
func openEnds(name string, n int) error {
	if n < 0 || n > 2 {
		return fmt.Errorf("plating: open ends of the %s are %d, must be 0, 1 or 2", name, n)
	}
	return nil
}
