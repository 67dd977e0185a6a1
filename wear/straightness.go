package wear

// The minimum zone is the narrowest pair of parallel lines that holds all
// points. Measured upright, its width is the largest upright gap between the
// upper and the lower convex hull of the points (linear programming duality:
// the smallest width over all directions equals the largest gap over all
// places), and the lines run along a hull edge at that place. Points in order
// of position give both hulls in one pass (A. M. Andrew, Another efficient
// algorithm for convex hulls in two dimensions, Information Processing Letters
// 9 (1979) 216, from memory), so that the whole search takes time in proportion
// to the number of points and is exact up to rounding: no iteration, no
// tolerance.

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// Reference is a way of laying a straight line, or a plane, through measured
// heights.
type Reference int

const (
	// MinimumZone lays it in the middle of the narrowest zone that holds all
	// points: the least value that any line or plane can give.
	MinimumZone Reference = iota
	// LeastSquares makes the sum of the squared deviations least.
	LeastSquares
	// EndPoints lays a line through the first and the last point.
	EndPoints
)

// String returns the name of the reference in words.
func (r Reference) String() string {
	switch r {
	case MinimumZone:
		return "minimum zone"
	case LeastSquares:
		return "least squares"
	case EndPoints:
		return "end points"
	}
	return fmt.Sprintf("reference %d", int(r))
}

// Line is a straight line in the plane of a profile.
type Line struct {
	// Through is a point on the line.
	Through Point
	// Slope is its rise over run.
	Slope Slope
}

// At returns the height of the line at a place.
func (l Line) At(position unit.Length) unit.Length {
	return l.Through.Height + l.Slope.Rise(position-l.Through.Position)
}

// Straightness is how far a profile departs from a straight line.
type Straightness struct {
	// Reference is how the line was laid.
	Reference Reference
	// Value is the largest deviation from the line less the smallest one, so
	// zero for a straight profile.
	Value unit.Length
	// RMS is the root mean square of the deviations from the line: the mean taken
	// over the points, however they stand.
	RMS unit.Length
	// U is the standard uncertainty of Value to first order; zero unless it
	// comes from a profile with covariance.
	U unit.Length
	// Line is the reference line. For the minimum zone it runs in the middle of
	// the zone.
	Line Line
	// Highest and Lowest are the indices of the points that are farthest above
	// and below the line; for the minimum zone they are its points of contact,
	// of which one side has at least two.
	Highest, Lowest []int

	// pair are the two points that give the slope of a minimum zone or an
	// end-point line; facing is the contact on the other side of the zone.
	pair   [2]int
	facing int
}

// StraightnessOf returns the straightness of points along a line, heights
// measured upright. Points in order of growing position are taken as they are,
// in time proportional to their number; others are sorted first, in a copy.
// Several points may share a position. Indices in the answer count the caller's
// points from zero.
//
// It returns an error for fewer than two points, a value that is not finite,
// points that all lie at one position, or a reference that is not one of the
// three.
func StraightnessOf(points []Point, reference Reference) (Straightness, error) {
	sorted, order, err := inOrder(points)
	if err != nil {
		return Straightness{}, err
	}
	s := Straightness{Reference: reference}
	switch reference {
	case MinimumZone:
		s.layZone(sorted)
	case LeastSquares:
		s.Line = leastSquaresLine(sorted)
	case EndPoints:
		s.pair = [2]int{0, len(sorted) - 1}
		s.Line = lineThrough(sorted[0], sorted[len(sorted)-1])
	default:
		return Straightness{}, fmt.Errorf("wear: no %v to measure straightness from", reference)
	}
	s.measure(sorted)
	if !finite(float64(s.Value)) {
		return Straightness{}, errors.New("wear: straightness cannot be computed: positions or heights too large")
	}
	s.renumber(order)
	return s, nil
}

// inOrder returns the points in order of position, and for points that had to
// be sorted the index that each had.
func inOrder(points []Point) ([]Point, []int, error) {
	if len(points) < 2 {
		return nil, nil, fmt.Errorf("wear: straightness needs at least 2 points, got %d", len(points))
	}
	sorted := true
	for i, p := range points {
		if !finite(float64(p.Position)) || !finite(float64(p.Height)) {
			return nil, nil, fmt.Errorf("wear: point %d: position %g m and height %g m must be finite", i+1, float64(p.Position), float64(p.Height))
		}
		sorted = sorted && (i == 0 || p.Position >= points[i-1].Position)
	}
	var order []int
	if !sorted {
		order = make([]int, len(points))
		for i := range order {
			order[i] = i
		}
		sort.SliceStable(order, func(i, j int) bool { return points[order[i]].Position < points[order[j]].Position })
		unsorted := points
		points = make([]Point, len(order))
		for i, k := range order {
			points[i] = unsorted[k]
		}
	}
	if points[0].Position == points[len(points)-1].Position {
		return nil, nil, fmt.Errorf("wear: all points lie at %.6g mm; straightness needs two places", float64(points[0].Position)*1e3)
	}
	return points, order, nil
}

// measure finds the value and the farthest points from the line.
func (s *Straightness) measure(points []Point) {
	high, low, size := unit.Length(math.Inf(-1)), unit.Length(math.Inf(1)), unit.Length(0)
	l := s.Line
	for i := range points {
		p := &points[i]
		d := p.Height - l.At(p.Position)
		if d > high {
			high = d
		}
		if d < low {
			low = d
		}
		if p.Height > size {
			size = p.Height
		} else if -p.Height > size {
			size = -p.Height
		}
	}
	s.Value = high - low
	tolerance := 1e-12*(high-low) + 8*eps*size
	high, low = high-tolerance, low+tolerance
	var squares float64
	for i := range points {
		p := &points[i]
		d := p.Height - l.At(p.Position)
		if s.Value > 0 {
			squares += float64(d/s.Value) * float64(d/s.Value)
		}
		if d >= high {
			s.Highest = append(s.Highest, i)
		}
		if d <= low {
			s.Lowest = append(s.Lowest, i)
		}
	}
	s.RMS = s.Value * unit.Length(math.Sqrt(squares/float64(len(points))))
}

// eps is the distance from 1 to the next float64.
const eps = 0x1p-52

func (s *Straightness) renumber(order []int) {
	if order == nil {
		return
	}
	for _, list := range [][]int{s.Highest, s.Lowest, s.pair[:]} {
		for i, k := range list {
			list[i] = order[k]
		}
	}
	s.facing = order[s.facing]
}

// lineThrough returns the line through two points at different places.
func lineThrough(a, b Point) Line {
	return Line{Through: a, Slope: Slope(float64(b.Height-a.Height) / float64(b.Position-a.Position))}
}

// leastSquaresLine returns the line of least squares through the mean point.
func leastSquaresLine(points []Point) Line {
	x0, z0 := float64(points[0].Position), float64(points[0].Height)
	var mx, mz, sxx, sxz float64
	n := float64(len(points))
	for _, p := range points {
		mx += (float64(p.Position) - x0) / n
		mz += (float64(p.Height) - z0) / n
	}
	for _, p := range points {
		dx := float64(p.Position) - x0 - mx
		sxx += dx * dx
		sxz += dx * (float64(p.Height) - z0 - mz)
	}
	return Line{Through: Point{unit.Length(x0 + mx), unit.Length(z0 + mz)}, Slope: Slope(sxz / sxx)}
}

// vertex is a point of a hull, with the end-point line of the profile taken off
// its height so that no figures are lost on a steep profile.
type vertex struct {
	x, z  float64
	index int
}

// layZone finds the minimum zone of points in order of position.
func (s *Straightness) layZone(points []Point) {
	upper, lower := hulls(points)
	x := widestPlace(upper, lower)
	edge, other := widestEdge(upper, lower, x)
	slope := (edge[1].z - edge[0].z) / (edge[1].x - edge[0].x)
	facing, farthest := other[0], 0.0
	for _, v := range other {
		d := math.Abs(v.z - edge[0].z - slope*(v.x-edge[0].x))
		if d > farthest {
			facing, farthest = v, d
		}
	}
	s.pair, s.facing = [2]int{edge[0].index, edge[1].index}, facing.index
	a, b, c := points[s.pair[0]], points[s.pair[1]], points[s.facing]
	s.Line = lineThrough(a, b)
	s.Line.Through.Height += (c.Height - s.Line.At(c.Position)) / 2
}

// block is the number of points of which a first rough hull takes only the
// highest and the lowest.
const block = 256

// hulls returns the upper and the lower convex hull of points in order of
// position, both from the first position to the last. A rough hull through the
// highest and the lowest point of each block comes first: points inside it
// cannot be on the hull, and they are nearly all.
func hulls(points []Point) (upper, lower []vertex) {
	base := lineThrough(points[0], points[len(points)-1])
	rough := [2][]vertex{roughHull(points, base, -1), roughHull(points, base, 1)}
	upper, lower = make([]vertex, 0, len(points)), make([]vertex, 0, len(points))
	above, below := bound{hull: rough[0]}, bound{hull: rough[1]}
	for i := range points {
		p := &points[i]
		v := vertex{float64(p.Position), float64(p.Height - base.At(p.Position)), i}
		end := i == 0 || i == len(points)-1
		if end || v.z >= above.at(v.x) {
			upper = push(upper, v, -1)
		}
		if end || v.z <= below.at(v.x) {
			lower = push(lower, v, 1)
		}
	}
	return upper, lower
}

// roughHull returns the hull of the farthest points of each block, on the upper
// side for side -1 and on the lower one for side 1.
func roughHull(points []Point, base Line, side float64) []vertex {
	at := func(i int) vertex {
		return vertex{float64(points[i].Position), float64(points[i].Height - base.At(points[i].Position)), i}
	}
	hull := []vertex{at(0)}
	for start := 0; start < len(points); start += block {
		farthest := at(start)
		for i := start + 1; i < min(start+block, len(points)); i++ {
			if v := at(i); side*v.z < side*farthest.z {
				farthest = v
			}
		}
		hull = push(hull, farthest, side)
	}
	return push(hull, at(len(points)-1), side)
}

// bound walks along a hull from left to right.
type bound struct {
	hull []vertex
	next int // index of the right end of the edge; 0 before the first one
	from vertex
	rate float64
}

// at returns the height of the hull at x, which never goes back.
func (b *bound) at(x float64) float64 {
	for b.next == 0 || b.next < len(b.hull)-1 && x >= b.hull[b.next].x {
		b.next++
		b.from = b.hull[b.next-1]
		b.rate = (b.hull[b.next].z - b.from.z) / (b.hull[b.next].x - b.from.x)
	}
	return b.from.z + b.rate*(x-b.from.x)
}

// push adds a point to the right end of a hull that is convex downward for side
// 1 and upward for side -1.
func push(hull []vertex, v vertex, side float64) []vertex {
	if n := len(hull); n > 0 && hull[n-1].x == v.x {
		if side*(v.z-hull[n-1].z) >= 0 {
			return hull
		}
		hull = hull[:n-1]
	}
	for n := len(hull); n >= 2; n = len(hull) {
		a, b := &hull[n-2], &hull[n-1]
		if side*((b.x-a.x)*(v.z-a.z)-(b.z-a.z)*(v.x-a.x)) > 0 {
			break
		}
		hull = hull[:n-1]
	}
	return append(hull, v)
}

// widestPlace returns the position of the vertex at which the upper hull is
// farthest above the lower one.
func widestPlace(upper, lower []vertex) float64 {
	best, place := -1.0, upper[0].x
	look := func(vertices, across []vertex) {
		j := 0
		for _, v := range vertices {
			for j < len(across)-2 && across[j+1].x < v.x {
				j++
			}
			a, b := across[j], across[j+1]
			gap := math.Abs(v.z - a.z - (b.z-a.z)*((v.x-a.x)/(b.x-a.x)))
			if gap > best {
				best, place = gap, v.x
			}
		}
	}
	look(upper, lower)
	look(lower, upper)
	return place
}

// widestEdge returns the hull edge along which the zone at the widest place x
// runs, and the hull on its other side. The slopes that keep the zone narrowest
// reach from the larger of the upper hull's slope to the right of x and the
// lower hull's to the left; that larger one is taken.
func widestEdge(upper, lower []vertex, x float64) (edge [2]vertex, other []vertex) {
	steepest := math.Inf(-1)
	if i := sort.Search(len(upper), func(i int) bool { return upper[i].x > x }); i < len(upper) {
		edge, other = [2]vertex{upper[i-1], upper[i]}, lower
		steepest = (edge[1].z - edge[0].z) / (edge[1].x - edge[0].x)
	}
	if i := sort.Search(len(lower), func(i int) bool { return lower[i].x >= x }); i > 0 {
		a, b := lower[i-1], lower[i]
		if (b.z-a.z)/(b.x-a.x) >= steepest {
			return [2]vertex{a, b}, upper
		}
	}
	return edge, other
}

// lineWeights returns the weights with which the heights of the points give the
// height of the line at s.Line.Through and its slope.
func (s Straightness) lineWeights(points []Point) (offset, slope []float64) {
	n := len(points)
	offset, slope = make([]float64, n), make([]float64, n)
	if s.Reference == LeastSquares {
		var sxx float64
		for _, p := range points {
			dx := float64(p.Position - s.Line.Through.Position)
			sxx += dx * dx
		}
		for i, p := range points {
			offset[i] = 1 / float64(n)
			slope[i] = float64(p.Position-s.Line.Through.Position) / sxx
		}
		return offset, slope
	}
	a, b := s.pair[0], s.pair[1]
	run := float64(points[b].Position - points[a].Position)
	slope[a], slope[b] = -1/run, 1/run
	offset[a] = 1
	if s.Reference == MinimumZone {
		c := s.facing
		across := float64(points[c].Position - points[a].Position)
		offset[a] = 0.5
		offset[c] += 0.5
		offset[a] -= across / 2 * slope[a]
		offset[b] -= across / 2 * slope[b]
	}
	return offset, slope
}

// weights returns the weights with which the heights of the points give the
// value: the gradient of Value, where the farthest points stay the same.
func (s Straightness) weights(points []Point) []float64 {
	_, w := s.lineWeights(points)
	high, low := s.Highest[0], s.Lowest[0]
	run := float64(points[high].Position - points[low].Position)
	for i := range w {
		w[i] *= -run
	}
	w[high]++
	w[low]--
	return w
}

// Straightness returns the straightness of the profile with its standard
// uncertainty to first order: as if the same points stayed the farthest ones
// when the heights move by their errors. Where several points are nearly as far
// out as the farthest, or the profile is straight within its errors, the first
// order is too small and the value too large; [Profile.StraightnessTrials]
// tells by how much.
func (p Profile) Straightness(reference Reference) (Straightness, error) {
	if err := p.check(); err != nil {
		return Straightness{}, err
	}
	s, err := StraightnessOf(p.Points, reference)
	if err != nil || p.Covariance == nil {
		return s, err
	}
	w := mat.NewVecDense(len(p.Points), s.weights(p.Points))
	s.U = unit.Length(math.Sqrt(math.Max(mat.Inner(w, p.Covariance, w), 0)))
	return s, nil
}
