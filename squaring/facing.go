package squaring

// A cutter whose spindle leans along the feed cuts with the lower half of its
// circle. Seen across the feed, that half circle, tipped by t, is
//
//	height(v) = -sin|t| sqrt(R^2 - v^2)
//
// with R the cutter's radius and v the distance from the spindle's track: a
// hollow. A lean across the feed leaves a flat but sloping track, and so a step
// to the next. Derived for a round cutter of sharp corner, fed in a straight
// line; the chord of a wide track is often replaced by W^2/(4 D), which is a
// fifth too low when W = 0.8 D and half the truth when W = D.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Facing is a face cut with a tilted spindle.
type Facing struct {
	// Tilt is table slope minus spindle tilt, as a sweep gives it, and TiltU its
	// standard uncertainty. What counts is the travel of the table; the table's
	// top stands for it here, as far as the two are parallel.
	Tilt, TiltU Gradient
	// Feed is the azimuth toward which the cutter goes over the work: 0 when
	// the table is fed to the left.
	Feed unit.Angle
	// Diameter is the circle of the cutting edges, above zero.
	Diameter unit.Length
	// Width is the width cut in one pass, above zero and within the cutter.
	Width unit.Length
	// Offset is how far the middle of that width lies to the left of the
	// spindle's track, seen along the feed.
	Offset unit.Length
	// StepOver is the distance from one pass to the next, zero for one pass.
	StepOver unit.Length
}

// CuttingEdge says which side of the cutter makes the finished surface.
type CuttingEdge string

const (
	// BothEdges: front and back cut alike, and the marks cross.
	BothEdges CuttingEdge = "both edges"
	// LeadingEdge: the front is low and the heel runs clear.
	LeadingEdge CuttingEdge = "the leading edge"
	// TrailingEdge: the back is low and the heel cuts again.
	TrailingEdge CuttingEdge = "the trailing edge"
)

// FacedSurface is what a tilted cutter leaves.
type FacedSurface struct {
	// Along is the slope of the cutter's plane against the table going along
	// the feed, positive when its front is high; Across the same going to the
	// left of the feed.
	Along, Across MeasuredSlope
	// Dish is how far the deepest place of one pass lies below the straight
	// line through its edges, DishU its standard uncertainty.
	Dish, DishU unit.Length
	// Slope is the slope of that line, going to the left of the feed.
	Slope MeasuredSlope
	// Drop is the height of the pass's left edge over its right, DropU its
	// standard uncertainty.
	Drop, DropU unit.Length
	// Step is the height of the ridge between passes, never negative, StepU its
	// standard uncertainty.
	Step, StepU unit.Length
	// HeelLift is how far the cutter's high side clears the surface.
	HeelLift unit.Length
	// Cuts is the edge that makes the surface. It is [BothEdges] when the slope
	// along the feed lies within two standard uncertainties of zero.
	Cuts CuttingEdge
}

func (f Facing) validate() error {
	for _, check := range []error{
		finite("tilt in x", float64(f.Tilt.X)), finite("tilt in y", float64(f.Tilt.Y)), finite("feed direction", float64(f.Feed)),
		notNegativeNumber("uncertainty of the tilt in x", float64(f.TiltU.X)),
		notNegativeNumber("uncertainty of the tilt in y", float64(f.TiltU.Y)),
		positiveLength("cutter diameter", f.Diameter), positiveLength("width of cut", f.Width),
		finite("offset of the cut", float64(f.Offset)), notNegative("step-over", f.StepOver),
	} {
		if check != nil {
			return check
		}
	}
	if f.Tilt.Steepest() > 1 {
		return fmt.Errorf("squaring: tilt is %s, more than 45 deg", degrees(f.Tilt.Steepest().Angle()))
	}
	reach := f.Width/2 + unit.Length(math.Abs(float64(f.Offset)))
	if reach > f.Diameter/2*(1+1e-12) {
		return fmt.Errorf("squaring: the cut reaches %s from the spindle's track, the cutter only %s",
			millimetres(reach), millimetres(f.Diameter/2))
	}
	return nil
}

// Surface returns what the cut leaves. Lengths must be above zero (the step-over
// may be zero), and the cut within the cutter. Uncertainties are taken to first
// order, the two tilts as independent.
func (f Facing) Surface() (FacedSurface, error) {
	if err := f.validate(); err != nil {
		return FacedSurface{}, err
	}
	s := FacedSurface{Along: f.planeSlope(f.Feed), Across: f.planeSlope(f.Feed + 90*Degree)}
	depth, chord := f.arc()
	sin := math.Sin(math.Abs(float64(s.Along.Slope.Angle())))
	s.Dish = unit.Length(sin * depth)
	s.DishU = s.Along.Uncertainty.Rise(unit.Length(depth))
	s.Slope = MeasuredSlope{
		Slope:       s.Across.Slope + Slope(sin*chord),
		Uncertainty: Slope(math.Hypot(float64(s.Across.Uncertainty), chord*float64(s.Along.Uncertainty))),
	}
	s.Drop, s.DropU = s.Slope.Slope.Rise(f.Width), s.Slope.Uncertainty.Rise(f.Width)
	s.Step = unit.Length(math.Abs(float64(s.Across.Slope.Rise(f.StepOver))))
	s.StepU = s.Across.Uncertainty.Rise(f.StepOver)
	s.HeelLift = unit.Length(sin * float64(f.Diameter))
	s.Cuts = BothEdges
	switch {
	case s.Along.Slope > 2*s.Along.Uncertainty:
		s.Cuts = TrailingEdge
	case s.Along.Slope < -2*s.Along.Uncertainty:
		s.Cuts = LeadingEdge
	}
	return s, nil
}

// planeSlope returns the slope of the cutter's plane against the table going
// toward the azimuth.
func (f Facing) planeSlope(azimuth unit.Angle) MeasuredSlope {
	sin, cos := math.Sincos(float64(azimuth))
	return MeasuredSlope{
		Slope:       -f.Tilt.Along(azimuth),
		Uncertainty: Slope(math.Hypot(cos*float64(f.TiltU.X), sin*float64(f.TiltU.Y))),
	}
}

// arc returns, for a cutter of one unit of sine, the depth in metres of the arc
// below its chord over the width cut, and the chord's slope.
func (f Facing) arc() (depth, chord float64) {
	r := float64(f.Diameter) / 2
	right, left := float64(f.Offset-f.Width/2), float64(f.Offset+f.Width/2)
	height := func(v float64) float64 { return -math.Sqrt(math.Max(0, r*r-v*v)) }
	chord = (height(left) - height(right)) / (left - right)
	// The arc is farthest below the chord where it is parallel to it: at
	// v = r chord / sqrt(1 + chord^2).
	deepest := r * chord / math.Sqrt(1+chord*chord)
	return height(right) + chord*(deepest-right) - height(deepest), chord
}

// Profile returns the height of one pass at the distance v to the left of the
// spindle's track, from the plane through the spindle's centre; the distance
// must lie within the cutter.
func (f Facing) Profile(v unit.Length) (unit.Length, error) {
	if err := f.validate(); err != nil {
		return 0, err
	}
	r := float64(f.Diameter) / 2
	if !(math.Abs(float64(v)) <= r) {
		return 0, fmt.Errorf("squaring: %s from the spindle's track is beyond the cutter, %s", millimetres(v), millimetres(f.Diameter/2))
	}
	sin := math.Sin(math.Abs(float64(f.planeSlope(f.Feed).Slope.Angle())))
	across := f.planeSlope(f.Feed + 90*Degree).Slope
	return across.Rise(v) - unit.Length(sin*math.Sqrt(r*r-float64(v)*float64(v))), nil
}
