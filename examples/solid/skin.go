package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"example.org/thouspan/plating"
)

// facet is a triangle of the part that is drawn, about the part's own middle.
type facet struct {
	corners        [3]r3.Vec
	middle, normal r3.Vec
	area           float64
	// share is the local over the mean current density.
	share float64
}

// vec returns a point in metres.
func vec(p plating.Point) r3.Vec { return r3.Vec{X: float64(p.X), Y: float64(p.Y), Z: float64(p.Z)} }

// origin returns the middle of the tank in the solved space.
func (l layout) origin() r3.Vec {
	mirror := l.mirrored()
	var o [3]float64
	for axis, size := range l.in.tank() {
		if !mirror[axis] {
			o[axis] = float64(size) / 2
		}
	}
	return r3.Vec{X: o[0], Y: o[1], Z: o[2]}
}

// inPart returns a place of the solved space about the middle of the part that
// it lies on, and the part's size.
func (a answer) inPart(p plating.Point) (at, size [3]float64) {
	parts, err := a.plain.part()
	if err != nil {
		return at, [3]float64{1, 1, 1}
	}
	x := r3.Sub(vec(p), a.plain.origin())
	best := math.Inf(1)
	for _, h := range parts {
		off := r3.Sub(x, r3.Vec{X: float64(h.at[0]), Y: float64(h.at[1]), Z: float64(h.at[2])})
		if d := r3.Norm(off); d < best {
			best, at = d, [3]float64{off.X, off.Y, off.Z}
			size = [3]float64{float64(h.size[0]), float64(h.size[1]), float64(h.size[2])}
		}
	}
	return at, size
}

// facets returns the whole skin of the part that is drawn: of four plates the
// far upper one. What a mirror stands for is put beside it.
func (s solved) facets() []facet {
	parts, err := s.part()
	if err != nil {
		return nil
	}
	h, origin := parts[0], s.origin()
	middle := r3.Add(origin, r3.Vec{X: float64(h.at[0]), Y: float64(h.at[1]), Z: float64(h.at[2])})
	skin, _ := s.d.Skin(h.name)
	var all []facet
	for _, f := range skin.Facets {
		var g facet
		for i, c := range f.Corners {
			g.corners[i] = r3.Sub(vec(c), middle)
		}
		g.share = s.toMean(f.CurrentDensity)
		all = append(all, g.ready())
	}
	for axis, mirrored := range s.mirrored() {
		if !mirrored || h.at[axis] != 0 {
			continue
		}
		for _, f := range all[:len(all):len(all)] {
			all = append(all, f.reflected(axis))
		}
	}
	return all
}

// ready returns the facet with what follows from its corners.
func (f facet) ready() facet {
	f.middle = r3.Scale(1.0/3, r3.Add(f.corners[0], r3.Add(f.corners[1], f.corners[2])))
	cross := r3.Cross(r3.Sub(f.corners[1], f.corners[0]), r3.Sub(f.corners[2], f.corners[0]))
	f.area = r3.Norm(cross) / 2
	f.normal = r3.Unit(cross)
	return f
}

// reflected returns the facet in the mirror of a middle plane, its corners in
// the other order so that it still faces outwards.
func (f facet) reflected(axis int) facet {
	turn := func(v r3.Vec) r3.Vec {
		switch axis {
		case 0:
			v.X = -v.X
		case 1:
			v.Y = -v.Y
		default:
			v.Z = -v.Z
		}
		return v
	}
	f.corners = [3]r3.Vec{turn(f.corners[0]), turn(f.corners[2]), turn(f.corners[1])}
	return f.ready()
}

// meanShare returns the mean share over the facets that a test takes, weighed
// by area; NaN for none.
func (a answer) meanShare(take func(facet) bool) float64 {
	sum, area := 0.0, 0.0
	for _, f := range a.skin {
		if take(f) {
			sum += f.share * f.area
			area += f.area
		}
	}
	return sum / area
}

// onFace returns the share at a place of a plate's right face, from its middle:
// the facets of the flat weighed by their nearness.
func (a answer) onFace(y, z float64) float64 {
	half := float64(a.in.PlateThickness) / 2
	sum, weight := 0.0, 0.0
	for _, f := range a.skin {
		if f.middle.X < 0.999*half {
			continue
		}
		off := math.Hypot(f.middle.Y-y, f.middle.Z-z)
		w := f.area / math.Pow(off+0.2e-3, 4)
		sum += w * f.share
		weight += w
	}
	return sum / weight
}
