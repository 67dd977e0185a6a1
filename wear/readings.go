package wear

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// Gauge says how finely a dial, a micrometer or a depth gauge is read and how
// well its readings repeat.
type Gauge struct {
	// Step is the smallest step to which it is read: half a division, say.
	Step unit.Length
	// RepeatU is the standard uncertainty of one reading that rounding does not
	// cover.
	RepeatU unit.Length
}

// U returns the standard uncertainty of one reading: rounding, Step/sqrt(12)
// (JCGM 100:2008, 4.3.7), and repeat, squared and added.
func (g Gauge) U() unit.Length {
	return unit.Length(math.Hypot(float64(g.Step)/math.Sqrt(12), float64(g.RepeatU)))
}

func (g Gauge) check() error {
	const most = 0.1 // m
	if !(g.Step >= 0 && float64(g.Step) <= most) || !(g.RepeatU >= 0 && float64(g.RepeatU) <= most) {
		return fmt.Errorf("wear: gauge with steps of %.6g mm and repeat of %.6g mm; both must be from 0 to 100 mm", float64(g.Step)*1e3, float64(g.RepeatU)*1e3)
	}
	return nil
}

// ProfileFromReadings returns the profile of heights that were read one by one
// with a gauge, such as a table run under a dial, in order of growing position.
// The errors are independent.
//
// It returns an error for fewer than two readings or more than 1000, two at one
// place, a value that is not finite or more than 1 m, or a gauge out of range.
func ProfileFromReadings(readings []Point, gauge Gauge) (Profile, error) {
	if err := gauge.check(); err != nil {
		return Profile{}, err
	}
	if len(readings) > maxPlaces {
		return Profile{}, fmt.Errorf("wear: %d readings; a profile takes at most %d", len(readings), maxPlaces)
	}
	for i, p := range readings {
		if !(math.Abs(float64(p.Height)) <= 1) {
			return Profile{}, fmt.Errorf("wear: reading %d: %g m is outside -1 to 1 m", i+1, float64(p.Height))
		}
	}
	sorted, _, err := inOrder(readings)
	if err != nil {
		return Profile{}, err
	}
	for i := 1; i < len(sorted); i++ {
		if sorted[i].Position == sorted[i-1].Position {
			return Profile{}, fmt.Errorf("wear: two readings at %.6g mm; a profile needs one a place", float64(sorted[i].Position)*1e3)
		}
	}
	variance := float64(gauge.U()) * float64(gauge.U())
	covariance := mat.NewSymDense(len(sorted), nil)
	for i := range sorted {
		covariance.SetSym(i, i, variance)
	}
	return Profile{Points: append([]Point(nil), sorted...), Covariance: covariance}, nil
}

// SkimmedPlace is the thickness of a skimmed bar at a place.
type SkimmedPlace struct {
	// Position is the place u on the table, positive to the right of its middle.
	Position unit.Length
	// Thickness is the bar's thickness there, after the skim.
	Thickness unit.Length
}

// MotionFromSkimmedBar returns the height of the motion of the table from the
// thickness of a bar that was skimmed in one setting in line with x. Where the
// table sinks the cutter takes less, so
//
//	thickness(u) = constant - height(u),
//
// and the heights returned are the mean thickness less the thickness. The
// underside of the bar is taken as straight, as it is when the bar was skimmed,
// turned over and skimmed again, and the clamps as not bending it.
//
// It returns an error as [ProfileFromReadings] does, for a thickness that is
// not above zero, or for fewer than three places.
func MotionFromSkimmedBar(places []SkimmedPlace, gauge Gauge) (Profile, error) {
	if len(places) < 3 {
		return Profile{}, fmt.Errorf("wear: a skimmed bar needs at least 3 places, got %d", len(places))
	}
	var mean float64
	for i, p := range places {
		if !(p.Thickness > 0 && float64(p.Thickness) <= 1) {
			return Profile{}, fmt.Errorf("wear: skimmed bar, place %d: thickness %.6g mm must be above 0 and at most 1 m", i+1, float64(p.Thickness)*1e3)
		}
		mean += float64(p.Thickness) / float64(len(places))
	}
	readings := make([]Point, len(places))
	for i, p := range places {
		readings[i] = Point{p.Position, unit.Length(mean) - p.Thickness}
	}
	return ProfileFromReadings(readings, gauge)
}
