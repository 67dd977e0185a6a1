package squaring

// The face that a tilted cutter leaves, point by point, on a table whose travel
// may rise, sink and lean on its way.
//
// Only the circle of the cutting edges cuts. While the spindle runs along its
// track that circle crosses a point of the face exactly twice: with its front
// when the spindle is still short of the point by
//
//	c = sqrt(R^2 - v^2)
//
// where v is the point's distance from the track, and with its back when the
// spindle is beyond the point by the same c. So the envelope of all positions of
// the cutter is the lower of two heights, whatever the motion, and a map costs
// two evaluations a point and pass. With the table at rest in height and slope
// the two are the halves of the ellipse that [Facing] describes.
//
// Feed marks (the scallops from tooth to tooth), deflection and chatter are left
// out; so is what the tilt takes off the circle's reach, half its square times
// R: 0.003 um at 300 urad and 60 mm.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Bounds of a map: more points than can be seen, more passes than are cut.
const (
	maxMapPoints = 4_000_000
	maxMapTracks = 1000
)

// FeedMotion is how the table carries the work while it is fed, each function
// given the place of the spindle along the face. A nil function is zero.
type FeedMotion struct {
	// Height is how far the table has risen at the line across = 0.
	Height func(along unit.Length) unit.Length
	// Along is the table's slope going along the feed, positive when the far
	// end is high; Across its slope going to the left of the feed.
	Along, Across func(along unit.Length) Slope
}

// CutFace is a face cut in one or more passes by a cutter on a tilted spindle.
// A place on it is given by how far it lies along the feed and how far to the
// left of the face's right edge, both seen along the feed.
type CutFace struct {
	// Tilt is table slope minus spindle tilt, as a sweep gives it.
	Tilt Gradient
	// Feed is the azimuth toward which the cutter goes over the work.
	Feed unit.Angle
	// Diameter is the circle of the cutting edges.
	Diameter unit.Length
	// Length is the face along the feed, Width across it.
	Length, Width unit.Length
	// Tracks are how far across each pass of the spindle's axis lies. Whether a
	// pass is cut there or back makes no difference to what the circle leaves.
	Tracks []unit.Length
	// From and To are where along the face the spindle's axis begins and ends
	// each pass: To beyond From. Both zero means from clear off one end to
	// clear off the other.
	From, To unit.Length
	// Motion is that of the table; its zero value is a straight travel.
	Motion FeedMotion
	// Passes are the motions of the passes, one a track, where each pass runs at
	// another place of the machine; nil means Motion for all of them.
	Passes []FeedMotion
	// Columns and Rows are the numbers of points along and across, at least two.
	Columns, Rows int
}

// HeightMap is the height of a face at a grid of points.
type HeightMap struct {
	// Along and Across are the places of the columns and of the rows.
	Along, Across []unit.Length
	// Heights holds a row of points after the other, the right edge of the face
	// first; each is the height above the plane that a square head and a
	// straight travel would leave with the same centre of the cutter. A point
	// that the cutter never crossed is NaN.
	Heights []unit.Length
	// Leading, Trailing and Uncut count the points made by the front of the
	// cutter, by its back, and those never crossed. Where both pass alike the
	// front is counted.
	Leading, Trailing, Uncut int
}

// Map returns the height map. Diameter, length and width must be above zero, at
// least one track be given, and the points number no more than four million.
func (f CutFace) Map() (HeightMap, error) {
	if err := f.validate(); err != nil {
		return HeightMap{}, err
	}
	m := HeightMap{Along: evenly(f.Length, f.Columns), Across: evenly(f.Width, f.Rows), Heights: make([]unit.Length, f.Columns*f.Rows)}
	front, sum := make([]bool, f.Columns), 0.0
	for row, across := range m.Across {
		heights := m.Heights[row*f.Columns : (row+1)*f.Columns]
		for i := range heights {
			heights[i], front[i] = unit.Length(math.Inf(1)), false
		}
		for pass := range f.Tracks {
			sum += f.cutRow(heights, front, m.Along, float64(across), pass)
		}
		m.count(heights, front)
	}
	if err := finite("the motion of the table", sum); err != nil {
		return HeightMap{}, err
	}
	return m, nil
}

func (f CutFace) validate() error {
	for _, check := range []error{
		finite("tilt in x", float64(f.Tilt.X)), finite("tilt in y", float64(f.Tilt.Y)), finite("feed direction", float64(f.Feed)),
		positiveLength("cutter diameter", f.Diameter), positiveLength("length of the face", f.Length), positiveLength("width of the face", f.Width),
		finite("start of the pass", float64(f.From)), finite("end of the pass", float64(f.To)),
	} {
		if check != nil {
			return check
		}
	}
	switch {
	case f.Tilt.Steepest() > 0.1:
		return fmt.Errorf("squaring: tilt is %s, must be within 0.1 rad for a height map", degrees(f.Tilt.Steepest().Angle()))
	case f.Columns < 2 || f.Rows < 2 || f.Columns > maxMapPoints || f.Rows > maxMapPoints/f.Columns:
		return fmt.Errorf("squaring: map is %d by %d points, must be at least 2 each way and %d together at most", f.Columns, f.Rows, maxMapPoints)
	case len(f.Tracks) == 0 || len(f.Tracks) > maxMapTracks:
		return fmt.Errorf("squaring: %d passes, must be 1 to %d", len(f.Tracks), maxMapTracks)
	case f.Passes != nil && len(f.Passes) != len(f.Tracks):
		return fmt.Errorf("squaring: %d motions for %d passes, must be one each", len(f.Passes), len(f.Tracks))
	case !(f.To > f.From) && !(f.To == 0 && f.From == 0):
		return fmt.Errorf("squaring: the pass runs from %s to %s, must run forward", millimetres(f.From), millimetres(f.To))
	}
	for i, track := range f.Tracks {
		if err := finite(fmt.Sprintf("track %d", i+1), float64(track)); err != nil {
			return err
		}
	}
	return nil
}

// evenly returns n places from zero to length.
func evenly(length unit.Length, n int) []unit.Length {
	places := make([]unit.Length, n)
	for i := range places {
		places[i] = length * unit.Length(i) / unit.Length(n-1)
	}
	return places
}

// cutRow lowers the heights of one row to what a pass leaves there, and notes
// where the front did it. It returns the sum of all heights met, which is finite
// only when each is.
func (f CutFace) cutRow(heights []unit.Length, front []bool, along []unit.Length, across float64, pass int) (sum float64) {
	r := float64(f.Diameter) / 2
	v := across - float64(f.Tracks[pass])
	if math.Abs(v) > r {
		return 0
	}
	c := math.Sqrt(r*r - v*v)
	from, to := float64(f.From), float64(f.To)
	if from == 0 && to == 0 {
		from, to = -r, float64(f.Length)+r
	}
	motion := f.Motion
	if f.Passes != nil {
		motion = f.Passes[pass]
	}
	// The plane of the circle falls where the table seems to rise.
	ahead, left := -float64(f.Tilt.Along(f.Feed)), -float64(f.Tilt.Along(f.Feed+90*Degree))
	for i, place := range along {
		s := float64(place)
		if spindle := s - c; spindle >= from && spindle <= to {
			h := left*v + ahead*c - motion.at(spindle, c, across)
			if sum += h; h < float64(heights[i]) {
				heights[i], front[i] = unit.Length(h), true
			}
		}
		if spindle := s + c; spindle >= from && spindle <= to {
			h := left*v - ahead*c - motion.at(spindle, -c, across)
			if sum += h; h < float64(heights[i]) {
				heights[i], front[i] = unit.Length(h), false
			}
		}
	}
	return sum
}

// at returns how far the motion has raised a point that lies ahead of the
// spindle, and across.
func (m FeedMotion) at(spindle, ahead, across float64) float64 {
	sum := 0.0
	if m.Height != nil {
		sum += float64(m.Height(unit.Length(spindle)))
	}
	if m.Along != nil {
		sum += float64(m.Along(unit.Length(spindle))) * ahead
	}
	if m.Across != nil {
		sum += float64(m.Across(unit.Length(spindle))) * across
	}
	return sum
}

// count takes a row's points into the counts and marks those never crossed.
func (m *HeightMap) count(heights []unit.Length, front []bool) {
	for i, h := range heights {
		switch {
		case math.IsInf(float64(h), 1):
			heights[i] = unit.Length(math.NaN())
			m.Uncut++
		case front[i]:
			m.Leading++
		default:
			m.Trailing++
		}
	}
}

// Height returns the height at a row and a column, counted from zero; NaN
// beyond the map or where the cutter never crossed.
func (m HeightMap) Height(row, column int) unit.Length {
	if row < 0 || row >= len(m.Across) || column < 0 || column >= len(m.Along) {
		return unit.Length(math.NaN())
	}
	return m.Heights[row*len(m.Along)+column]
}

// Range returns the lowest and the highest point cut; both zero when nothing
// was.
func (m HeightMap) Range() (lowest, highest unit.Length) {
	if m.Leading+m.Trailing == 0 {
		return 0, 0
	}
	low, high := math.Inf(1), math.Inf(-1)
	m.each(func(_, _, h float64) { low, high = math.Min(low, h), math.Max(high, h) })
	return unit.Length(low), unit.Length(high)
}

// Levelled returns the map with the least-squares plane of the points cut taken
// out: their heights above it. A map of points in line, or of none, comes back as
// it is.
func (m HeightMap) Levelled() HeightMap {
	fit := smallFit{unknowns: 3}
	m.each(func(along, across, h float64) { fit.add(row5{1, along, across}, h) })
	if fit.weakest() < 1e-9 {
		return m
	}
	plane := fit.solve()
	level := m
	level.Heights = make([]unit.Length, len(m.Heights))
	for i, h := range m.Heights {
		along, across := m.Along[i%len(m.Along)], m.Across[i/len(m.Along)]
		level.Heights[i] = h - unit.Length(dot5(plane, row5{1, float64(along), float64(across)}))
	}
	return level
}

// Flatness returns the range of the points cut about their least-squares plane;
// the zone of least width can only be narrower (ISO 12781-1:2011, from memory).
// It is zero when nothing was cut.
func (m HeightMap) Flatness() unit.Length {
	lowest, highest := m.Levelled().Range()
	return highest - lowest
}

// each calls f with each point cut.
func (m HeightMap) each(f func(along, across, height float64)) {
	for row, across := range m.Across {
		for column, along := range m.Along {
			if h := float64(m.Heights[row*len(m.Along)+column]); !math.IsNaN(h) {
				f(float64(along), float64(across), h)
			}
		}
	}
}
