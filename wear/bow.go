package wear

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Bow is how far the middle of a cut departs from the straight line between its
// ends.
type Bow struct {
	// Value is the largest departure, positive when the work comes out high in
	// its middle, and U its standard uncertainty.
	Value, U unit.Length
	// At is the place u on the table where the departure is largest.
	At unit.Length
}

// bowPlaces is the number of places along a part at which its bow is looked
// for.
const bowPlaces = 25

// BowOfCut returns the bow that the motion of the table leaves on a part of the
// given length, bolted down with its middle at the place u of the table and cut
// along x in one pass with the spindle at rest. The slopes were read on the
// table at u = -X, as for [MotionFromSlopes], which finds the motion. Where the
// table sinks in the middle of the travel the cutter takes less and the part
// comes out high: a hollow in the ways is a crown on the work.
//
// The part and the table are rigid, the cutter is small against the part, and
// clamping bends nothing.
//
// It returns an error for a length that is not above zero, a part that reaches
// beyond the run of the stations, or input that [MotionFromSlopes] would
// refuse.
func BowOfCut(slopes []SlopePoint, bearing, place, length unit.Length) (Bow, error) {
	run, err := sortedRun(slopes)
	if err != nil {
		return Bow{}, err
	}
	first, last := run[0].Position, run[len(run)-1].Position
	if !(length > 0) || !(length <= last-first) {
		return Bow{}, fmt.Errorf("wear: part of %.6g mm must be longer than 0 and at most the %.6g mm between the first and the last station", float64(length)*1e3, float64(last-first)*1e3)
	}
	slack := 1e-9 * (last - first)
	if !(place-length/2 >= first-slack && place+length/2 <= last+slack) {
		return Bow{}, fmt.Errorf("wear: part from %.6g to %.6g mm reaches beyond the stations, %.6g to %.6g mm", float64(place-length/2)*1e3, float64(place+length/2)*1e3, float64(first)*1e3, float64(last)*1e3)
	}
	at := make([]unit.Length, bowPlaces)
	for i := range at {
		at[i] = place - length/2 + length*unit.Length(i)/(bowPlaces-1)
	}
	motion, err := MotionFromSlopes(slopes, MotionOptions{Bearing: bearing, At: at})
	if err != nil {
		return Bow{}, err
	}
	less, _, err := motion.Less(EndPoints)
	if err != nil {
		return Bow{}, err
	}
	bow := Bow{At: place, U: less.U(bowPlaces / 2)}
	for i, p := range less.Points {
		if math.Abs(float64(p.Height)) > math.Abs(float64(bow.Value)) {
			bow = Bow{Value: -p.Height, U: less.U(i), At: p.Position}
		}
	}
	return bow, nil
}
