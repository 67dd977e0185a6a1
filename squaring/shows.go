package squaring

// What a person finds on the finished work: a straightedge and feelers on a
// face, a square at a milled wall, a bore gauge in a hole.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// StraightedgeGap is what a straightedge laid on a line of a face shows.
type StraightedgeGap struct {
	// Gap is the widest opening between edge and work, and Place where along
	// the line it is, from its beginning.
	Gap   unit.Length
	Place unit.Length
	// Left and Right are the two places on which the edge rests; they are alike
	// when it rocks on one.
	Left, Right unit.Length
}

// StraightedgeAlong returns what a straightedge shows that is laid along the feed on a row
// of points, counted from zero: it rests on the two high places that carry it
// over the row's middle. Points that were not cut are left out; at least two
// must be there.
func (m HeightMap) StraightedgeAlong(row int) (StraightedgeGap, error) {
	if row < 0 || row >= len(m.Across) {
		return StraightedgeGap{}, fmt.Errorf("squaring: row %d of a map of %d rows", row, len(m.Across))
	}
	return straightedge(m.Along, m.Heights[row*len(m.Along):(row+1)*len(m.Along)])
}

// StraightedgeAcross returns the same for a straightedge laid across the feed on
// a column of points.
func (m HeightMap) StraightedgeAcross(column int) (StraightedgeGap, error) {
	if column < 0 || column >= len(m.Along) {
		return StraightedgeGap{}, fmt.Errorf("squaring: column %d of a map of %d columns", column, len(m.Along))
	}
	heights := make([]unit.Length, len(m.Across))
	for row := range heights {
		heights[row] = m.Height(row, column)
	}
	return straightedge(m.Across, heights)
}

// straightedge finds the side of the upper convex hull over the middle, and the
// deepest point below it anywhere on the line.
func straightedge(places, heights []unit.Length) (StraightedgeGap, error) {
	var x, y []float64
	for i, h := range heights {
		if !math.IsNaN(float64(h)) {
			x, y = append(x, float64(places[i])), append(y, float64(h))
		}
	}
	if len(x) < 2 {
		return StraightedgeGap{}, fmt.Errorf("squaring: %d points cut on this line, a straightedge needs two", len(x))
	}
	var hull []int
	for i := range x {
		for n := len(hull); n >= 2; n = len(hull) {
			a, b := hull[n-2], hull[n-1]
			if (y[b]-y[a])*(x[i]-x[a]) > (y[i]-y[a])*(x[b]-x[a]) {
				break
			}
			hull = hull[:n-1]
		}
		hull = append(hull, i)
	}
	middle, rest := (x[0]+x[len(x)-1])/2, 1
	for rest < len(hull)-1 && x[hull[rest]] < middle {
		rest++
	}
	a, b := hull[rest-1], hull[rest]
	g := StraightedgeGap{Left: unit.Length(x[a]), Right: unit.Length(x[b]), Place: unit.Length(x[a])}
	slope := (y[b] - y[a]) / (x[b] - x[a])
	for i := range x {
		if gap := unit.Length(y[a] + slope*(x[i]-x[a]) - y[i]); gap > g.Gap {
			g.Gap, g.Place = gap, unit.Length(x[i])
		}
	}
	return g, nil
}

// Wall is a face milled with the side of the cutter, the table or the saddle
// fed along it.
type Wall struct {
	// Tilt is table slope minus spindle tilt, as a sweep gives it, and TiltU its
	// standard uncertainty.
	Tilt, TiltU Gradient
	// Outward is the azimuth to which the wall faces.
	Outward unit.Angle
	// Depth is how deep the wall is milled, zero or more.
	Depth unit.Length
	// Wander is how far the table's travel leaves a straight line sideways over
	// the wall's length, and WanderU its standard uncertainty: from the motion's
	// EYX or EXY.
	Wander, WanderU unit.Length
}

// MilledWall is what the side of the cutter leaves.
type MilledWall struct {
	// Lean is how much the wall leans outward toward its foot against the square
	// to the table: a square on the table touches at the top when it is negative
	// and at the foot when it is positive.
	Lean MeasuredSlope
	// Gap is what stands open between wall and square over the depth, at the top
	// when AtTop is true and at the foot otherwise.
	Gap   MeasuredLength
	AtTop bool
	// Straightness is the gap under a straightedge along the wall: the wander of
	// the travel, copied.
	Straightness MeasuredLength
}

// Made returns what a square and a straightedge will show on the wall:
//
//	lean = -tilt toward the outside
//
// since the wall is the plane that holds the spindle's axis and the feed. It is
// straight up and down whatever the tilt, and the part of the tilt that lies
// along the feed does nothing.
func (w Wall) Made() (MilledWall, error) {
	for _, check := range []error{
		finite("tilt in x", float64(w.Tilt.X)), finite("tilt in y", float64(w.Tilt.Y)), finite("direction of the wall", float64(w.Outward)),
		notNegativeNumber("uncertainty of the tilt in x", float64(w.TiltU.X)), notNegativeNumber("uncertainty of the tilt in y", float64(w.TiltU.Y)),
		notNegative("depth of the wall", w.Depth),
		finite("wander of the travel", float64(w.Wander)), notNegative("uncertainty of the wander", w.WanderU),
	} {
		if check != nil {
			return MilledWall{}, check
		}
	}
	if w.Tilt.Steepest() > 1 {
		return MilledWall{}, fmt.Errorf("squaring: tilt is %s, more than 45 deg", degrees(w.Tilt.Steepest().Angle()))
	}
	sin, cos := math.Sincos(float64(w.Outward))
	m := MilledWall{Lean: MeasuredSlope{
		Slope:       -w.Tilt.Along(w.Outward),
		Uncertainty: Slope(math.Hypot(cos*float64(w.TiltU.X), sin*float64(w.TiltU.Y))),
	}}
	m.Gap = MeasuredLength{Length: unit.Length(math.Abs(float64(m.Lean.Slope.Rise(w.Depth)))), Uncertainty: m.Lean.Uncertainty.Rise(w.Depth)}
	m.AtTop = m.Lean.Slope > 0
	m.Straightness = MeasuredLength{Length: unit.Length(math.Abs(float64(w.Wander))), Uncertainty: w.WanderU}
	return m, nil
}

// Across returns what a bore gauge across the hole shows, toward the azimuth. A
// hole bored by the knee is an ellipse, short toward the slope between spindle
// and way; by the quill it is round. No gauge in the hole sees its lean: that
// takes a pin and a square.
func (h Hole) Across(azimuth unit.Angle) (unit.Length, error) {
	if err := h.validate(); err != nil {
		return 0, err
	}
	if err := finite("direction of the bore gauge", float64(azimuth)); err != nil {
		return 0, err
	}
	if h.Feed == ByQuill {
		return h.Diameter, nil
	}
	slope := h.Tilt.Minus(h.KneeLean)
	short := 1 - oneMinusCos(slope.Steepest())
	sin, cos := math.Sincos(float64(azimuth - slope.Azimuth()))
	return h.Diameter * unit.Length(short/math.Hypot(cos, short*sin)), nil
}
