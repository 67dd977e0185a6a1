package wear

// Where the work lies decides where the way wears.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// unevenness returns the root mean square of heights about their best straight
// line.
func unevenness(points []Point) unit.Length {
	line, sum := leastSquaresLine(points), 0.0
	for _, p := range points {
		sum += math.Pow(float64(p.Height-line.At(p.Position)), 2)
	}
	return unit.Length(math.Sqrt(sum / float64(len(points))))
}

// FairPlace is what the coming wear makes of a way when the work lies at a place.
type FairPlace struct {
	Place unit.Length
	// Deepest is the deepest wear then, Uneven the root mean square of the depths
	// about their best straight line.
	Deepest, Uneven unit.Length
}

// FairPlaces returns, for each place where the work may lie, what the way looks
// like after more wear there, and the index of the fairest: the one that leaves
// the way straightest. Depths are those of the way at growing places; added is
// the depth that the most used part of the way will lose; saddle and stroke say
// over what stretch.
//
// It takes the pressure as even under the saddle (see [Simulate] for what is
// not).
//
// It returns an error for fewer than three depths or places that do not grow, no
// place to try, an added depth below zero, or what [SlidingAt] would refuse.
func FairPlaces(at, depths []unit.Length, saddle, stroke, added unit.Length, tries []unit.Length) ([]FairPlace, int, error) {
	if len(at) < 3 || len(depths) != len(at) || len(tries) == 0 {
		return nil, 0, fmt.Errorf("wear: %d places with %d depths and %d places to try; there must be 3 depths, one a place, and 1 to try", len(at), len(depths), len(tries))
	}
	if !(added >= 0) || !finite(float64(added)) {
		return nil, 0, fmt.Errorf("wear: added depth %g m must be zero or more", float64(added))
	}
	for i := range at {
		if !finite(float64(depths[i])) || i > 0 && !(at[i] > at[i-1]) {
			return nil, 0, fmt.Errorf("wear: place %d at %.6g mm must lie beyond the one before it and its depth %g m be finite", i+1, float64(at[i])*1e3, float64(depths[i]))
		}
	}
	fair, best := make([]FairPlace, len(tries)), 0
	full := min(saddle, stroke)
	for i, place := range tries {
		slid, err := SlidingAt(saddle, Placement{Place: place, Stroke: stroke}, at)
		if err != nil {
			return nil, 0, err
		}
		points := make([]Point, len(at))
		fair[i].Place = place
		for j := range at {
			depth := depths[j] + added*slid[j]/full
			points[j] = Point{at[j], depth}
			fair[i].Deepest = max(fair[i].Deepest, depth)
		}
		fair[i].Uneven = unevenness(points)
		if fair[i].Uneven < fair[best].Uneven {
			best = i
		}
	}
	return fair, best, nil
}
