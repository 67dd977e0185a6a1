package plating

// The integrals of the Laplace equation's fundamental solution over one
// element, seen from one point:
//
//	g = integral of G,  h = integral of dG/dn,  m = integral of s dG/dn
//
// with s the distance along the element from its middle, G = -ln r / 2 pi on a plane section and, on an axisymmetric one, the
// potential of a ring of unit strength. The normal n points out of the
// electrolyte. (C. A. Brebbia, J. Dominguez, Boundary Elements: An Introductory
// Course, 1989, chapters 2 and 4, has the method; the formulas are derived
// here.)

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r2"
)

// kernel integrates over elements of one kind of section.
type kernel struct{ axisymmetric bool }

// integrals are g, h and m of an element seen from a point.
type integrals struct{ g, h, m float64 }

// plus returns the sum of two sets of integrals.
func (a integrals) plus(b integrals) integrals { return integrals{a.g + b.g, a.h + b.h, a.m + b.m} }

// pair returns the integrals of an element seen from a point that is not on it.
func (k kernel) pair(x r2.Vec, el *element) integrals {
	if !k.axisymmetric && el.edge.radius == 0 {
		return planeStraight(x, el)
	}
	v := k.integrate(x, el, el.s0, el.s1, 0)
	if !k.axisymmetric {
		// The closed form is exact where the rule is only near.
		v.h = planeArcTurn(x, el)
	}
	return v
}

// planeStraight is the closed form for a straight element on a plane section:
// with u along the element from the foot of the perpendicular, w its distance
// from x, r the distances of its ends and a the angle that it fills,
//
//	g = -(u2 ln r2 - u1 ln r1 - L + w a) / 2 pi
//	h = -a / 2 pi
//	m = -w ln(r2/r1) / 2 pi - h (u1 + u2) / 2
func planeStraight(x r2.Vec, el *element) integrals {
	dx, dy := el.p0.X-x.X, el.p0.Y-x.Y
	tx, ty := -el.normal.Y, el.normal.X
	u1 := dx*tx + dy*ty
	w := dx*el.normal.X + dy*el.normal.Y
	u2 := u1 + el.length
	w2 := w * w
	angle := math.Atan2(w*el.length, w2+u1*u2)
	l1, l2 := math.Log(u1*u1+w2)/2, math.Log(u2*u2+w2)/2
	h := -angle / (2 * math.Pi)
	return integrals{
		g: -(u2*l2 - u1*l1 - el.length + w*angle) / (2 * math.Pi),
		h: h,
		m: -w*(l2-l1)/(2*math.Pi) - h*(u1+u2)/2,
	}
}

// planeArcTurn is h for an arc on a plane section: the angle through which the
// sight line from x turns along it. It is that along the chord, and a whole turn
// more when x lies between chord and arc.
func planeArcTurn(x r2.Vec, el *element) float64 {
	a, b := r2.Sub(el.p0, x), r2.Sub(el.p1, x)
	angle := math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
	e := el.edge
	chord := r2.Sub(el.p1, el.p0)
	turn := math.Copysign(1, e.sweep)
	if r2.Norm(r2.Sub(x, e.centre)) < e.radius && turn*r2.Cross(chord, r2.Sub(x, el.p0)) < 0 {
		angle += turn * 2 * math.Pi
	}
	return -angle / (2 * math.Pi)
}

// gauss holds Gauss-Legendre points and weights on -1 to 1 (exact values of the
// rules, computed to 16 digits).
type gauss struct{ points, weights []float64 }

var (
	gauss2 = gauss{[]float64{-0.5773502691896257, 0.5773502691896257}, []float64{1, 1}}
	gauss3 = gauss{[]float64{-0.7745966692414834, 0, 0.7745966692414834},
		[]float64{0.5555555555555556, 0.8888888888888888, 0.5555555555555556}}
	gauss4 = gauss{[]float64{-0.8611363115940526, -0.3399810435848563, 0.3399810435848563, 0.8611363115940526},
		[]float64{0.3478548451374538, 0.6521451548625461, 0.6521451548625461, 0.3478548451374538}}
	gauss6 = gauss{[]float64{-0.9324695142031521, -0.6612093864662645, -0.2386191860831969,
		0.2386191860831969, 0.6612093864662645, 0.9324695142031521},
		[]float64{0.1713244923791704, 0.3607615730481386, 0.4679139345726910,
			0.4679139345726910, 0.3607615730481386, 0.1713244923791704}}
)

// deepest is how often an element is halved towards a point very near it.
const deepest = 40

// integrate returns the integrals over a stretch of an element by Gauss's rule,
// halving the stretch until it is no longer than its distance from x. The rule
// grows with nearness so that each stretch is good to about one part in a
// million.
func (k kernel) integrate(x r2.Vec, el *element, s0, s1 float64, depth int) integrals {
	half, middle := (s1-s0)/2, (s0+s1)/2
	centre, tangent := el.edge.at(middle)
	distance := math.Hypot(centre.X-x.X, centre.Y-x.Y) / (2 * half)
	var rule *gauss
	switch {
	case distance >= 8:
		rule = &gauss2
	case distance >= 3:
		rule = &gauss3
	case distance >= 1.5:
		rule = &gauss4
	case distance >= 0.9 || depth == deepest:
		rule = &gauss6
	default:
		return k.integrate(x, el, s0, middle, depth+1).plus(k.integrate(x, el, middle, s1, depth+1))
	}
	var sum integrals
	for i, t := range rule.points {
		y := r2.Vec{X: centre.X + half*t*tangent.X, Y: centre.Y + half*t*tangent.Y}
		n := el.normal
		if el.edge.radius > 0 {
			var along r2.Vec
			y, along = el.edge.at(middle + half*t)
			n = r2.Vec{X: along.Y, Y: -along.X}
		}
		g, h := k.source(x, y, n)
		w := half * rule.weights[i]
		sum.g += w * g
		sum.h += w * h
		sum.m += w * h * (middle + half*t - (el.s0+el.s1)/2)
	}
	return sum
}

// source returns the fundamental solution from y at x and its derivative along
// n at y.
func (k kernel) source(x, y, n r2.Vec) (g, h float64) {
	if k.axisymmetric {
		return ring(x, y, n)
	}
	dx, dy := y.X-x.X, y.Y-x.Y
	r := dx*dx + dy*dy
	return -math.Log(r) / (4 * math.Pi), -(dx*n.X + dy*n.Y) / (2 * math.Pi * r)
}

// ring returns y.X times the potential at x of a ring through y of unit
// strength, and its derivative along n at y:
//
//	G = K(m) / (pi a)
//	dG/dX = ((x.X2 - y.X2 + d2) E(m) / b2 - K(m)) / (2 pi a y.X)
//	dG/dY = -d E(m) / (pi a b2)
//
// with K and E the complete elliptic integrals of parameter m = 1 - b2/a2, a2 =
// (x.X + y.X)2 + d2, b2 = (x.X - y.X)2 + d2 and d = y.Y - x.Y.
func ring(x, y, n r2.Vec) (g, h float64) {
	d := y.Y - x.Y
	sum, diff := x.X+y.X, x.X-y.X
	a2, b2 := sum*sum+d*d, diff*diff+d*d
	kk, ee := ellipticKE(b2 / a2)
	a := math.Sqrt(a2)
	g = y.X * kk / (math.Pi * a)
	h = n.X*((x.X*x.X-y.X*y.X+d*d)*ee/b2-kk)/(2*math.Pi*a) - n.Y*y.X*d*ee/(math.Pi*a*b2)
	return g, h
}

// ellipticKE returns the complete elliptic integrals of the first and second
// kind for the complementary parameter m1 = 1 - m, above 0 and at most 1. Below
// 1e-5, where forming m would lose digits of m1, it takes the first two terms
// of their series (M. Abramowitz, I. A. Stegun, Handbook of Mathematical
// Functions, 1964, section 17.3; from memory, and held against the other branch
// by a test).
func ellipticKE(m1 float64) (k, e float64) {
	if m1 < 1e-5 {
		l := math.Log(16/m1) / 2
		return l + (l-1)*m1/4, 1 + (l-0.5)*m1/2
	}
	m := 1 - m1
	return mathext.CompleteK(m), mathext.CompleteE(m)
}

// self returns g and m of an element seen from its own middle; h is left to the
// sum of the row. The logarithm in g is integrated in closed form; what is left
// of the axisymmetric kernel goes as s ln s, which the substitution s = t2 makes
// smooth enough for Gauss's rule.
func (k kernel) self(el *element) integrals {
	half := el.length / 2
	logarithm := -(math.Log(half) - 1) * el.length / (2 * math.Pi)
	if !k.axisymmetric {
		if el.edge.radius == 0 {
			return integrals{g: logarithm}
		}
		// r = 2 R sin(q/2): add the integral of -ln(sin(q/2)/(q/2)) / 2 pi, by
		// its series. The kernel of h is even about the middle, so m is zero.
		q := half / el.edge.radius
		return integrals{g: logarithm + el.edge.radius*(q*q*q/36+q*q*q*q*q/7200)/(2*math.Pi)}
	}
	sum := integrals{g: logarithm}
	middle := (el.s0 + el.s1) / 2
	for _, side := range []float64{-1, 1} {
		for i, p := range gauss6.points {
			t := (1 + p) / 2
			s := half * t * t
			y, along := el.edge.at(middle + side*s)
			g, h := ring(el.mid, y, r2.Vec{X: along.Y, Y: -along.X})
			w := gauss6.weights[i] * half * t
			sum.g += w * (g + math.Log(s)/(2*math.Pi))
			sum.m += w * h * side * s
		}
	}
	return sum
}
