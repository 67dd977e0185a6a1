package plating

// Integrals of 1/r and of its slope along the normal over flat triangles, and
// the same with the share that the images' smooth sum takes off.

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// solidAngle returns the solid angle of the facet from a place, positive when
// the facet is seen from behind. With corners at a, b and c from the place,
//
//	tan(angle/2) = a.(b x c) / (|a||b||c| + (a.b)|c| + (b.c)|a| + (c.a)|b|)
//
// (A. van Oosterom, J. Strackee, "The solid angle of a plane triangle", IEEE
// Trans. Biomed. Eng. 30 (1983) 125; from memory). In the facet's plane, which
// is taken to be a billionth of its size thick for the rounding of far places,
// it is zero.
func (f *facet) solidAngle(x r3.Vec) float64 {
	a, b, c := r3.Sub(f.a, x), r3.Sub(f.b, x), r3.Sub(f.c, x)
	la, lb, lc := norm(a), norm(b), norm(c)
	height := r3.Dot(a, f.normal)
	if math.Abs(height) <= 1e-9*f.reach {
		return 0
	}
	// a.(b x c), without loss near the plane.
	return 2 * math.Atan2(height*2*f.area, la*lb*lc+r3.Dot(a, b)*lc+r3.Dot(b, c)*la+r3.Dot(c, a)*lb)
}

// norm returns the length of a vector, without [r3.Norm]'s care for overflow: it
// is taken very often, of lengths within a tank.
func norm(v r3.Vec) float64 { return math.Sqrt(r3.Norm2(v)) }

// exact returns the integral of 1/r over the facet from a place, and the solid
// angle. With the distance d from the plane, and for each side its length L,
// the distances ra and rb of its ends and the distance P of its line from the
// foot of the perpendicular, outwards,
//
//	integral = sum of P ln((ra + rb + L)/(ra + rb - L)) - |d| |angle|
//
// (D. R. Wilton et al., "Potential integrals for uniform and linear source
// distributions on polygonal and polyhedral domains", IEEE Trans. Antennas
// Propag. 32 (1984) 276; from memory, and held to quadrature by a test).
func (f *facet) exact(x r3.Vec) (inverse, angle float64) {
	angle = f.solidAngle(x)
	corners := [3]r3.Vec{f.a, f.b, f.c}
	var to [3]r3.Vec
	var r [3]float64
	for i, p := range corners {
		to[i] = r3.Sub(p, x)
		r[i] = norm(to[i])
	}
	for i := range 3 {
		j := (i + 1) % 3
		along := r3.Sub(corners[j], corners[i])
		length := norm(along)
		// P is to[i] times the unit vector outwards in the plane.
		p := r3.Dot(to[i], r3.Cross(along, f.normal)) / length
		if math.Abs(p) <= 1e-13*f.reach {
			continue
		}
		ends := r[i] + r[j]
		inverse += p * math.Log((ends+length)/math.Max(ends-length, 1e-16*ends))
	}
	return inverse - math.Abs(r3.Dot(to[0], f.normal)*angle), angle
}

// kernelPair holds the integrals of a Green function G over a facet: of G
// itself in m, and of its slope along the normal into the body, a number; both
// times 4 pi.
type kernelPair struct{ g, h float64 }

// Beyond so many of its own lengths a facet is integrated by three places, and
// further by its middle alone, with an error of a few parts in ten thousand of
// its share.
const (
	nearFacet = 3.0
	farFacet  = 10.0
)

// places returns the three inner places of the rule that is exact for squares
// (A. H. Stroud, Approximate calculation of multiple integrals, 1971; from
// memory): each weighs a third of the area.
func (f *facet) places() [3]r3.Vec {
	third := r3.Scale(0.5, f.mid)
	return [3]r3.Vec{r3.Add(third, r3.Scale(0.5, f.a)), r3.Add(third, r3.Scale(0.5, f.b)), r3.Add(third, r3.Scale(0.5, f.c))}
}

// pointKernel returns the kernel between two places a vector apart, for 1/r.
func pointKernel(to, normal r3.Vec) kernelPair {
	rr := r3.Norm2(to)
	inverse := 1 / math.Sqrt(rr)
	return kernelPair{inverse, r3.Dot(to, normal) * inverse / rr}
}

// seen returns the integrals of 1/r over the facet from a place.
func (f *facet) seen(x r3.Vec) kernelPair {
	to := r3.Sub(f.mid, x)
	rr := r3.Norm2(to)
	switch {
	case rr > farFacet*farFacet*f.reach*f.reach:
		k := pointKernel(to, f.normal)
		return kernelPair{k.g * f.area, k.h * f.area}
	case rr > nearFacet*nearFacet*f.reach*f.reach:
		var sum kernelPair
		for _, y := range f.places() {
			k := pointKernel(r3.Sub(y, x), f.normal)
			sum.g += k.g * f.area / 3
			sum.h += k.h * f.area / 3
		}
		return sum
	}
	g, h := f.exact(x)
	return kernelPair{g, h}
}

// screen is 1/r without its smooth far part: erfc(a r)/r with a in 1/m, taken
// as nothing beyond a reach.
type screen struct {
	a, reach float64
	// table holds at even steps of t = a r, from 0 to the cut, what is left of
	// 1/r and of its slope, with their derivatives.
	table []screenAt
}

// screenAt holds erfc(t), erfc(t) + 2 t exp(-t2)/sqrt(pi), and their derivatives
// times the table's step.
type screenAt struct{ left, slope, dLeft, dSlope float64 }

// tableSteps is how many steps the table has: a cubic over one is good to 1e-10.
const tableSteps = 512

// newScreen returns the screen whose reach is a cut over a.
func newScreen(a float64) screen {
	s := screen{a: a, reach: screenCut / a, table: make([]screenAt, tableSteps+2)}
	step := screenCut / tableSteps
	for i := range s.table {
		t := float64(i) * step
		bell := 2 / math.SqrtPi * math.Exp(-t*t)
		s.table[i] = screenAt{math.Erfc(t), math.Erfc(t) + t*bell, -bell * step, -2 * t * t * bell * step}
	}
	return s
}

// at returns what is left of 1/r and of its slope at t = a r, by the cubic
// between two places of the table.
func (s screen) at(t float64) (left, slope float64) {
	x := t * (tableSteps / screenCut)
	i := int(x)
	p, q, u := &s.table[i], &s.table[i+1], x-float64(i)
	v := 1 - u
	p0, q0 := v*v*(1+2*u), u*u*(1+2*v)
	p1, q1 := u*v*v, -u*u*v
	return p0*p.left + q0*q.left + p1*p.dLeft + q1*q.dLeft, p0*p.slope + q0*q.slope + p1*p.dSlope + q1*q.dSlope
}

// seen returns the integrals of the screened kernel over the facet from a place.
func (s screen) seen(f *facet, x r3.Vec) kernelPair {
	to := r3.Sub(f.mid, x)
	rr := r3.Norm2(to)
	if rr > s.reach*s.reach {
		return kernelPair{}
	}
	if rr > farFacet*farFacet*f.reach*f.reach {
		k := s.point(to, f.normal)
		return kernelPair{k.g * f.area, k.h * f.area}
	}
	var sum kernelPair
	if rr > nearFacet*nearFacet*f.reach*f.reach {
		for _, y := range f.places() {
			k := s.point(r3.Sub(y, x), f.normal)
			sum.g += k.g * f.area / 3
			sum.h += k.h * f.area / 3
		}
		return sum
	}
	sum.g, sum.h = f.exact(x)
	for _, y := range f.places() {
		k := s.smooth(r3.Sub(y, x), f.normal)
		sum.g -= k.g * f.area / 3
		sum.h -= k.h * f.area / 3
	}
	return sum
}

// point returns the screened kernel between two places a vector apart.
func (s screen) point(to, normal r3.Vec) kernelPair {
	rr := r3.Norm2(to)
	r := math.Sqrt(rr)
	if r >= s.reach {
		return kernelPair{}
	}
	left, slope := s.at(s.a * r)
	return kernelPair{left / r, r3.Dot(to, normal) * slope / (rr * r)}
}

// smooth returns what the screen takes off: the kernel of erf(a r)/r, by its
// series where r is small.
func (s screen) smooth(to, normal r3.Vec) kernelPair {
	rr := r3.Norm2(to)
	r := math.Sqrt(rr)
	t := s.a * r
	if t < 0.2 {
		tt := t * t
		return kernelPair{2 * s.a / math.SqrtPi * (1 - tt*(1.0/3-tt*(1.0/10-tt/42))),
			r3.Dot(to, normal) * 4 * s.a * s.a * s.a / (3 * math.SqrtPi) * (1 - tt*(3.0/5-tt*(3.0/14-tt/18)))}
	}
	left, slope := 0.0, 0.0
	if r < s.reach {
		left, slope = s.at(t)
	}
	return kernelPair{(1 - left) / r, r3.Dot(to, normal) * (1 - slope) / (rr * r)}
}
