package plating

// The lines along which the current runs, for a drawing: from the parts up the
// potential to the anodes, each with the same share of a part's current, so that
// they stand close where the coat grows fast.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/unit"
)

// LinePoint is a point of a line of current on the section.
type LinePoint struct{ X, Y unit.Length }

// mostLines and mostLineSteps bound the work of [Field.Lines].
const (
	mostLines     = 200
	mostLineSteps = 400
)

// Lines returns so many lines of current to each part, from its skin on, each of
// which carries the same share of the part's current. The distribution is one of
// this field's, solved at the conductivity. A line ends where it comes to
// another electrode. The potential is taken as even on each element and the
// elements as straight: the lines are for a drawing.
//
// It returns an error for an axisymmetric section, a number of lines outside 1
// to 200, a conductivity that is not above zero, and for a distribution of
// another field.
func (f *Field) Lines(d Distribution, conductivity Conductivity, each int) ([][]LinePoint, error) {
	s := f.fine
	if s.section.Axisymmetric {
		return nil, errors.New("plating: lines of current are drawn on plane sections only")
	}
	if each < 1 || each > mostLines {
		return nil, fmt.Errorf("plating: %d lines of current, must be 1 to %d", each, mostLines)
	}
	if k := float64(conductivity); !(k > 0) || math.IsInf(k, 0) {
		return nil, fmt.Errorf("plating: conductivity is %.3g S/m, must be above zero and finite", k)
	}
	b, err := s.bath(d, float64(conductivity))
	if err != nil {
		return nil, err
	}
	var lines [][]LinePoint
	for _, p := range d.Profiles {
		if p.Role != RolePart || p.Current <= 0 {
			continue
		}
		passed, next := 0.0, 0.5
		for _, sample := range p.Samples {
			passed += float64(sample.CurrentDensity) * float64(sample.Area) / float64(p.Current) * float64(each)
			for ; passed > next; next++ {
				lines = append(lines, b.line(r2.Vec{X: float64(sample.X), Y: float64(sample.Y)}))
			}
		}
	}
	return lines, nil
}

// bathSource is a straight element with its potential and the gradient of the
// potential into it.
type bathSource struct {
	from, along, normal r2.Vec
	length              float64
	potential, gradient float64
	electrode           bool
}

// bathField is the potential between the elements.
type bathField struct {
	sources []bathSource
	mirror  bool
	reach   float64 // the longest step
}

// bath returns the potential of a distribution on the section.
func (s *system) bath(d Distribution, kappa float64) (*bathField, error) {
	type place struct{ x, y unit.Length }
	samples := map[place]Sample{}
	for _, p := range d.Profiles {
		for _, sample := range p.Samples {
			samples[place{sample.X, sample.Y}] = sample
		}
	}
	ne := len(s.electrodes)
	potential, gradient := make([]float64, len(s.elements)), make([]float64, ne)
	for e, i := range s.electrodes {
		at := place{unit.Length(s.elements[i].mid.X), unit.Length(s.elements[i].mid.Y)}
		sample, ok := samples[at]
		if !ok {
			return nil, fmt.Errorf("plating: the distribution is not of this field: it has nothing at (%s, %s)", inMillimetre.of(float64(at.x)), inMillimetre.of(float64(at.y)))
		}
		potential[i] = float64(sample.Overpotential)
		if !s.roles[e].cathodic() {
			potential[i] += float64(d.Voltage - d.Rest)
		}
		gradient[e] = -float64(sample.CurrentDensity) / kappa
	}
	if err := s.wallPotentials(potential, gradient); err != nil {
		return nil, err
	}
	b := &bathField{mirror: s.section.Mirror}
	low, high := s.elements[0].mid, s.elements[0].mid
	for i := range s.elements {
		el := &s.elements[i]
		chord := r2.Sub(el.p1, el.p0)
		length := r2.Norm(chord)
		along := r2.Scale(1/length, chord)
		b.sources = append(b.sources, bathSource{from: el.p0, along: along, normal: r2.Vec{X: along.Y, Y: -along.X}, length: length,
			potential: potential[i], electrode: el.role.electrode()})
		low = r2.Vec{X: math.Min(low.X, el.mid.X), Y: math.Min(low.Y, el.mid.Y)}
		high = r2.Vec{X: math.Max(high.X, el.mid.X), Y: math.Max(high.Y, el.mid.Y)}
	}
	for e, i := range s.electrodes {
		b.sources[i].gradient = gradient[e]
	}
	b.reach = r2.Norm(r2.Sub(high, low)) / 64
	return b, nil
}

// wallPotentials fills in the potentials of the insulators, which follow from
// those of the electrodes and the gradients there, with no charge lost.
func (s *system) wallPotentials(potential, gradient []float64) error {
	nw := len(s.insulators)
	if nw == 0 {
		return nil
	}
	// Columns: the answer to the electrodes, and to a constant.
	answer := mat.NewDense(nw, 2, nil)
	for r, i := range s.insulators {
		h, g, sum := s.h.RawRowView(i), s.g.RawRowView(i), 0.0
		for e, j := range s.electrodes {
			sum += g[e]*gradient[e] - h[j]*potential[j]
		}
		answer.Set(r, 0, sum)
		answer.Set(r, 1, 1)
	}
	if err := s.walls.solve(answer); err != nil {
		return err
	}
	var mean [2]float64
	for r := range nw {
		for c := range mean {
			mean[c] += answer.At(r, c) * s.shift()
		}
	}
	constant := 0.0
	if s.shift() > 0 {
		constant = mean[0] / (1 - mean[1])
	}
	for r, i := range s.insulators {
		potential[i] = answer.At(r, 0) + constant*answer.At(r, 1)
	}
	return nil
}

// slope returns the gradient of the potential at a point between the elements.
func (b *bathField) slope(x r2.Vec) r2.Vec {
	var sum r2.Vec
	for i := range b.sources {
		sum = r2.Add(sum, b.sources[i].slope(x))
		if b.mirror {
			image := b.sources[i].slope(r2.Vec{X: x.X, Y: -x.Y})
			sum = r2.Add(sum, r2.Vec{X: image.X, Y: -image.Y})
		}
	}
	return sum
}

// slope is the share of one element: its gradient times that of g, less its
// potential times that of h, with g and h those of [planeStraight]:
//
//	grad g = (t ln(r2/r1) + n a) / 2 pi
//	grad h = (t (w/r2^2 - w/r1^2) + n (u1/r1^2 - u2/r2^2)) / 2 pi
func (e *bathSource) slope(x r2.Vec) r2.Vec {
	to := r2.Sub(e.from, x)
	u1, w := r2.Dot(to, e.along), r2.Dot(to, e.normal)
	u2 := u1 + e.length
	s1, s2 := u1*u1+w*w, u2*u2+w*w
	t := -e.potential * (w/s2 - w/s1)
	n := -e.potential * (u1/s1 - u2/s2)
	if e.gradient != 0 {
		t += e.gradient * math.Log(s2/s1) / 2
		n += e.gradient * math.Atan2(w*e.length, w*w+u1*u2)
	}
	return r2.Scale(1/(2*math.Pi), r2.Add(r2.Scale(t, e.along), r2.Scale(n, e.normal)))
}

// nearest returns the element nearest to a point, the point on it, and how far off
// that is.
func (b *bathField) nearest(x r2.Vec) (element *bathSource, foot r2.Vec, off float64) {
	off = math.Inf(1)
	for i := range b.sources {
		e := &b.sources[i]
		along := math.Max(0, math.Min(e.length, r2.Dot(r2.Sub(x, e.from), e.along)))
		on := r2.Add(e.from, r2.Scale(along, e.along))
		if distance := r2.Norm(r2.Sub(x, on)); distance < off {
			element, foot, off = e, on, distance
		}
	}
	return element, foot, off
}

// unitOrZero returns a vector of length 1, or of none where there is no direction:
// where the potential is level, and on the very corner of an element.
func unitOrZero(v r2.Vec) r2.Vec {
	if n := r2.Norm(v); n > 0 && !math.IsInf(n, 0) {
		return r2.Scale(1/n, v)
	}
	return r2.Vec{}
}

// direction is the way up the potential. Within an element's length of an
// insulator, where the potential that is even on each element tells it badly, it
// does not lead into the insulator.
func (b *bathField) direction(x r2.Vec) r2.Vec {
	way := unitOrZero(b.slope(x))
	near, _, off := b.nearest(x)
	if into := r2.Dot(way, near.normal); !near.electrode && off < near.length && into > 0 {
		return unitOrZero(r2.Sub(way, r2.Scale(into, near.normal)))
	}
	return way
}

// line follows the potential up from the middle of an element.
func (b *bathField) line(from r2.Vec) []LinePoint {
	point := func(x r2.Vec) LinePoint { return LinePoint{unit.Length(x.X), unit.Length(x.Y)} }
	points := []LinePoint{point(from)}
	start, _, _ := b.nearest(from)
	x := r2.Sub(from, r2.Scale(start.length/2, start.normal))
	for range mostLineSteps {
		points = append(points, point(x))
		near, foot, off := b.nearest(x)
		step := math.Max(near.length/2, math.Min(b.reach, off/2))
		if near.electrode && near.gradient > 0 && off <= step {
			return append(points, point(foot)) // an anode is reached
		}
		// The direction half a step ahead (the midpoint rule).
		way := b.direction(r2.Add(x, r2.Scale(step/2, b.direction(x))))
		if way == (r2.Vec{}) {
			break
		}
		x = r2.Add(x, r2.Scale(step, way))
		if b.mirror && x.Y < 0 {
			x.Y = -x.Y
		}
	}
	return points
}
