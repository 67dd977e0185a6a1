package wear

import (
	"fmt"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// LocalStraightness returns the worst straightness over any stretch of the
// given length, and where the stretch begins. The profile is taken as straight
// between its points; the stretches tried begin at, end at and are centred on
// each point. That is the worst one where a stretch holds one bend or very many
// points, and close to it otherwise.
//
// The indices of the answer count the points of the worst stretch; the heights
// at a stretch's ends are interpolated where no point lies there. The points
// must stand in order of growing position, no two at one place.
//
// It returns an error for points that [StraightnessOf] would refuse, points out
// of order, or a length that is not above zero or is longer than the profile.
func LocalStraightness(points []Point, length unit.Length, reference Reference) (worst Straightness, from unit.Length, err error) {
	if len(points) < 2 {
		return worst, 0, fmt.Errorf("wear: straightness needs at least 2 points, got %d", len(points))
	}
	for i := 1; i < len(points); i++ {
		if !(points[i].Position > points[i-1].Position) {
			return worst, 0, fmt.Errorf("wear: point %d at %.6g mm does not stand beyond point %d", i+1, float64(points[i].Position)*1e3, i)
		}
	}
	first, last := points[0].Position, points[len(points)-1].Position
	if !(length > 0) || length > last-first {
		return worst, 0, fmt.Errorf("wear: a stretch of %.6g mm must be longer than 0 and at most the %.6g mm of the profile", float64(length)*1e3, float64(last-first)*1e3)
	}
	slack := 1e-12 * (last - first)
	try := func(begin unit.Length) error {
		s, err := StraightnessOf(stretch(points, begin, begin+length), reference)
		if err == nil && s.Value >= worst.Value {
			worst, from = s, begin
		}
		return err
	}
	for _, p := range points {
		for _, begin := range []unit.Length{p.Position, p.Position - length, p.Position - length/2} {
			if begin < first-slack || begin+length > last+slack {
				continue
			}
			if err := try(begin); err != nil {
				return Straightness{}, 0, err
			}
		}
	}
	return worst, from, nil
}

// stretch returns the points from begin to end, with the ends interpolated
// where they fall between two points.
func stretch(points []Point, begin, end unit.Length) []Point {
	i := sort.Search(len(points), func(i int) bool { return points[i].Position >= begin })
	j := sort.Search(len(points), func(j int) bool { return points[j].Position > end })
	cut := make([]Point, 0, j-i+2)
	if i > 0 && i < len(points) && points[i].Position > begin {
		cut = append(cut, Point{begin, lineThrough(points[i-1], points[i]).At(begin)})
	}
	cut = append(cut, points[i:j]...)
	if j > 0 && j < len(points) && points[j-1].Position < end {
		cut = append(cut, Point{end, lineThrough(points[j-1], points[j]).At(end)})
	}
	return cut
}
