package squaring

// A face looked up once, on a coarse grid, for one place and one way of feeding. A
// tilt of the head changes the height of the cutter's circle over each point by
//
//	left v +- ahead c
//
// only, so that another head setting costs one pass over the points.

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/unit"
)

// placeColumns and placeRows are the points of the grid.
const placeColumns, placeRows = 21, 13

// coarse is a face looked up at one place and one way of feeding.
type coarse struct {
	// v is a point's distance from a track, c how far ahead the circle crosses
	// it, front and back what the table has done there then. One entry a point
	// and pass that reaches it.
	point               []int32
	v, c, front, back   []float64
	along, across, bend []float64 // of the points
	feed                unit.Angle
	heights             []float64 // scratch
	inverse             [3][3]float64
}

// look finds out what the table does at each point and pass of a coarse map.
func (j FaceJob) look(f FaceOnTable) (*coarse, error) {
	if err := f.validate(); err != nil {
		return nil, err
	}
	b := f.body()
	r := float64(f.Diameter) / 2
	k := &coarse{feed: f.Feed}
	for row := range placeRows {
		across := b.width * float64(row) / (placeRows - 1)
		for column := range placeColumns {
			along := b.length * float64(column) / (placeColumns - 1)
			k.along, k.across = append(k.along, along), append(k.across, across)
			// The ways bow the part along the table, however it is fed.
			s := along / b.length
			if b.ahead[0] == 0 {
				s = across / b.width
			}
			k.bend = append(k.bend, 4*s*(1-s))
		}
	}
	sum := 0.0
	for _, track := range b.tracks {
		motion, err := j.Machine.motion(f, b, track)
		if err != nil {
			return nil, err
		}
		for i := range k.along {
			v := k.across[i] - track
			if math.Abs(v) > r {
				continue
			}
			c := math.Sqrt(r*r - v*v)
			front, back := motion.at(k.along[i]-c, c, k.across[i]), motion.at(k.along[i]+c, -c, k.across[i])
			sum += front + back
			k.point, k.v, k.c = append(k.point, int32(i)), append(k.v, v), append(k.c, c)
			k.front, k.back = append(k.front, front), append(k.back, back)
		}
	}
	if err := finite("the motion of the table under this face", sum); err != nil {
		return nil, err
	}
	k.heights = make([]float64, len(k.along))
	covered := make([]bool, len(k.along))
	for _, i := range k.point {
		covered[i] = true
	}
	if slices.Contains(covered, false) {
		return nil, fmt.Errorf("squaring: %d passes of a %s cutter, %s apart, leave part of the face uncut", len(b.tracks), millimetres(f.Diameter), millimetres(f.StepOver))
	}
	k.level()
	return k, nil
}

// level works out the inverse of the normal matrix of the least-squares plane on
// the grid; its columns are centred, so that it is well conditioned.
func (k *coarse) level() {
	n := float64(len(k.along))
	for _, list := range [][]float64{k.along, k.across} {
		mean := 0.0
		for _, x := range list {
			mean += x / n
		}
		for i := range list {
			list[i] -= mean
		}
	}
	k.inverse[0][0] = 1 / n
	for axis, list := range [][]float64{k.along, k.across} {
		square := 0.0
		for _, x := range list {
			square += x * x
		}
		k.inverse[axis+1][axis+1] = 1 / square
	}
}

// zone returns the zone of the face for a tilt of the spindle and a bow added.
func (k *coarse) zone(kind ZoneKind, tilt Gradient, bow float64) float64 {
	for i := range k.heights {
		k.heights[i] = math.Inf(1)
	}
	ahead, left := float64(tilt.Along(k.feed)), float64(tilt.Along(k.feed+90*Degree))
	for n, i := range k.point {
		plane, tip := left*k.v[n], ahead*k.c[n]
		k.heights[i] = min(k.heights[i], plane+tip-k.front[n], plane-tip-k.back[n])
	}
	var mean, along, across float64
	if kind == FlatZone {
		for i, h := range k.heights {
			h += bow * k.bend[i]
			mean, along, across = mean+h, along+h*k.along[i], across+h*k.across[i]
		}
		mean, along, across = mean*k.inverse[0][0], along*k.inverse[1][1], across*k.inverse[2][2]
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i, h := range k.heights {
		h += bow*k.bend[i] - mean - along*k.along[i] - across*k.across[i]
		low, high = min(low, h), max(high, h)
	}
	return high - low
}
