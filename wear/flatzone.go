package wear

// The minimum zone of a surface is the narrowest pair of parallel planes that
// holds all points, measured upright: the best Chebyshev plane. It is a linear
// programme of three unknowns and one width. Its dual has four active points,
// and is solved by the simplex method on those four: lay the plane that they
// fix, look through all points for the one that is farthest outside, take it in
// and let one of the four go (E. L. Stiefel, Note on Jordan elimination, linear
// programming and Tchebycheff approximation, Numerische Mathematik 2 (1960) 1,
// from memory). A few dozen rounds do. Of many points only a few can matter: the
// rounds run over the farthest points of each block, then all points are looked
// at once for such as lie outside, which join them, until there are none.
// The dual's weights are also the rates at which the value follows the heights,
// which give its uncertainty.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// planeFrame holds the points with their plane of least squares taken off, x
// and y from -1 to 1 and heights from -1 to 1, so that nothing is lost on a
// steep or a tiny surface.
type planeFrame struct {
	plane              Plane
	x, y, z            []float64
	scaleXY, scaleZ    float64
	centreX, centreY   float64
	sxx, sxy, syy, num float64
}

func newPlaneFrame(points []SurfacePoint) (*planeFrame, error) {
	if err := checkSurface(points); err != nil {
		return nil, err
	}
	if len(points) < 3 {
		return nil, fmt.Errorf("wear: flatness needs at least 3 points, got %d", len(points))
	}
	f := &planeFrame{num: float64(len(points))}
	// Sums from the first point, so that they neither lose figures nor overflow.
	first := points[0]
	var sumX, sumY, sumZ float64
	for i := range points {
		p := &points[i]
		sumX, sumY, sumZ = sumX+float64(p.X-first.X), sumY+float64(p.Y-first.Y), sumZ+float64(p.Height-first.Height)
	}
	f.centreX, f.centreY = float64(first.X)+sumX/f.num, float64(first.Y)+sumY/f.num
	meanZ := float64(first.Height) + sumZ/f.num
	var sxz, syz, reach float64
	for i := range points {
		p := &points[i]
		dx, dy, dz := float64(p.X)-f.centreX, float64(p.Y)-f.centreY, float64(p.Height)-meanZ
		f.sxx, f.sxy, f.syy = f.sxx+dx*dx, f.sxy+dx*dy, f.syy+dy*dy
		sxz, syz = sxz+dx*dz, syz+dy*dz
		if dx > reach || -dx > reach {
			reach = math.Abs(dx)
		}
		if dy > reach || -dy > reach {
			reach = math.Abs(dy)
		}
	}
	f.scaleXY = reach
	det := f.sxx*f.syy - f.sxy*f.sxy
	if !(det > 1e-12*(f.sxx+f.syy)*(f.sxx+f.syy)) {
		return nil, errors.New("wear: the points of the surface lie in one line as seen from above; flatness needs three apart")
	}
	f.plane = Plane{Through: SurfacePoint{unit.Length(f.centreX), unit.Length(f.centreY), unit.Length(meanZ)},
		SlopeX: Slope((sxz*f.syy - syz*f.sxy) / det), SlopeY: Slope((syz*f.sxx - sxz*f.sxy) / det)}
	if !finite(float64(f.plane.SlopeX)) || !finite(float64(f.plane.SlopeY)) || !finite(meanZ) {
		return nil, errors.New("wear: flatness cannot be computed: places or heights too large")
	}
	f.x, f.y, f.z = make([]float64, len(points)), make([]float64, len(points)), make([]float64, len(points))
	for i := range points {
		p := &points[i]
		f.x[i] = (float64(p.X) - f.centreX) / f.scaleXY
		f.y[i] = (float64(p.Y) - f.centreY) / f.scaleXY
		f.z[i] = float64(p.Height - f.plane.At(p.X, p.Y))
		if z := f.z[i]; !(z <= f.scaleZ && -z <= f.scaleZ) {
			f.scaleZ = math.Abs(z)
		}
	}
	if !finite(f.scaleZ) {
		return nil, errors.New("wear: flatness cannot be computed: places or heights too large")
	}
	if f.scaleZ > 0 {
		for i := range f.z {
			f.z[i] /= f.scaleZ
		}
	}
	return f, nil
}

// planeOf returns the plane z = c[0] + c[1] x + c[2] y of the frame.
func (f *planeFrame) planeOf(c [3]float64) Plane {
	p := f.plane
	p.Through.Height += unit.Length(c[0] * f.scaleZ)
	p.SlopeX += Slope(c[1] * f.scaleZ / f.scaleXY)
	p.SlopeY += Slope(c[2] * f.scaleZ / f.scaleXY)
	return p
}

// leastSquaresRates returns the rates at which the difference of the deviations
// of two points from the plane of least squares follows the heights.
func (f *planeFrame) leastSquaresRates(points []SurfacePoint, high, low int) map[int]float64 {
	det := f.sxx*f.syy - f.sxy*f.sxy
	ex, ey := float64(points[high].X-points[low].X), float64(points[high].Y-points[low].Y)
	rates := make(map[int]float64, len(points))
	for i, p := range points {
		dx, dy := float64(p.X)-f.centreX, float64(p.Y)-f.centreY
		rates[i] = -((dx*f.syy-dy*f.sxy)*ex + (dy*f.sxx-dx*f.sxy)*ey) / det
	}
	rates[high]++
	rates[low]--
	return rates
}

// exchange is the simplex method on four active points. Active point k lies on
// the upper plane for side 1 and on the lower for side -1, with weight w[k].
type exchange struct {
	frame *planeFrame
	point [4]int
	side  [4]float64
	w     [4]float64
	plane [3]float64
	half  float64 // half the width of the zone, in the frame's units
}

// maxRounds bounds the exchanges; a few dozen are usual.
const maxRounds = 2000

// flatBlock is the number of points of which the first rounds take only the
// highest and the lowest.
const flatBlock = 512

// narrowest finds the minimum zone.
func (f *planeFrame) narrowest() (*exchange, error) {
	if len(f.z) < 4*flatBlock {
		return f.exchangeAll()
	}
	few, index := &planeFrame{}, f.beyond([3]float64{}, 0, nil)
	for _, i := range index {
		few.x, few.y, few.z = append(few.x, f.x[i]), append(few.y, f.y[i]), append(few.z, f.z[i])
	}
	for {
		e, err := few.exchangeAll()
		if err != nil { // the farthest points may lie in one line where all do not
			return f.exchangeAll()
		}
		known := len(index)
		if index = f.beyond(e.plane, e.half+zoneTolerance, index); len(index) == known {
			e.frame = f
			for k, i := range e.point {
				e.point[k] = index[i]
			}
			return e, nil
		}
		for _, i := range index[known:] {
			few.x, few.y, few.z = append(few.x, f.x[i]), append(few.y, f.y[i]), append(few.z, f.z[i])
		}
	}
}

// beyond adds to a list of indices those of the points that lie highest and
// lowest in their block, where they are farther than half from a plane.
func (f *planeFrame) beyond(plane [3]float64, half float64, index []int) []int {
	for start := 0; start < len(f.z); start += flatBlock {
		end := min(start+flatBlock, len(f.z))
		x, y, z := f.x[start:end], f.y[start:end], f.z[start:end]
		highest, lowest, high, low := -1, -1, half, -half
		for i := range z {
			d := z[i] - plane[0] - plane[1]*x[i] - plane[2]*y[i]
			if d > high {
				highest, high = i, d
			} else if d < low {
				lowest, low = i, d
			}
		}
		if highest >= 0 {
			index = append(index, start+highest)
		}
		if lowest >= 0 {
			index = append(index, start+lowest)
		}
	}
	return index
}

// zoneTolerance is how far outside the zone a point may lie, in the frame's
// units, and count as on it: some hundred roundings.
const zoneTolerance = 4e-14

// exchangeAll finds the minimum zone by exchanges over all points of the frame.
func (f *planeFrame) exchangeAll() (*exchange, error) {
	e := &exchange{frame: f}
	if err := e.start(); err != nil {
		return nil, err
	}
	best, idle := -1.0, 0
	for range maxRounds {
		if !e.solve() {
			return nil, errors.New("wear: the minimum zone cannot be computed: its points of contact are nearly in one line")
		}
		if e.half > best+1e-15 {
			best, idle = e.half, 0
		} else {
			idle++
		}
		enter, side := e.outside(idle > 8)
		if enter < 0 {
			return e, nil
		}
		e.take(enter, side)
	}
	return nil, fmt.Errorf("wear: the minimum zone is not found in %d exchanges", maxRounds)
}

// start lays the first active points: the highest one on both planes and two
// others that span a wide triangle with it.
func (e *exchange) start() error {
	f := e.frame
	a := 0
	for i := range f.z {
		if f.z[i] > f.z[a] {
			a = i
		}
	}
	b, far := a, 0.0
	for i := range f.x {
		if d := math.Hypot(f.x[i]-f.x[a], f.y[i]-f.y[a]); d > far {
			b, far = i, d
		}
	}
	c, wide := a, 0.0
	for i := range f.x {
		if d := math.Abs((f.x[b]-f.x[a])*(f.y[i]-f.y[a]) - (f.y[b]-f.y[a])*(f.x[i]-f.x[a])); d > wide {
			c, wide = i, d
		}
	}
	if wide == 0 {
		return errors.New("wear: the points of the surface lie in one line as seen from above; flatness needs three apart")
	}
	e.point, e.side = [4]int{a, a, b, c}, [4]float64{1, -1, 1, 1}
	return nil
}

// columns returns the matrix of the active points: a column is the side times
// (1, x, y), and 1.
func (e *exchange) columns() [4][4]float64 {
	var m [4][4]float64
	for k, i := range e.point {
		m[0][k], m[1][k], m[2][k], m[3][k] = e.side[k], e.side[k]*e.frame.x[i], e.side[k]*e.frame.y[i], 1
	}
	return m
}

// solve finds the weights, and the plane and half width on which the active
// points lie.
func (e *exchange) solve() bool {
	m := e.columns()
	w, ok := solve4(m, [4]float64{0, 0, 0, 1})
	if !ok {
		return false
	}
	var transposed [4][4]float64
	var heights [4]float64
	for k, i := range e.point {
		for row := range m {
			transposed[k][row] = m[row][k]
		}
		heights[k] = e.side[k] * e.frame.z[i]
	}
	plane, ok := solve4(transposed, heights)
	if !ok {
		return false
	}
	e.w, e.plane, e.half = w, [3]float64{plane[0], plane[1], plane[2]}, plane[3]
	return true
}

// outside returns the point that is farthest outside the zone and its side, or
// -1. When careful it returns the first one instead, which cannot go round in
// circles (Bland's rule).
func (e *exchange) outside(careful bool) (point int, side float64) {
	f := e.frame
	point, worst := -1, e.half+zoneTolerance
	for i, z := range f.z {
		d := z - e.plane[0] - e.plane[1]*f.x[i] - e.plane[2]*f.y[i]
		if d > worst {
			point, side, worst = i, 1, d
		} else if -d > worst {
			point, side, worst = i, -1, -d
		}
		if careful && point >= 0 {
			return point, side
		}
	}
	return point, side
}

// take brings a point in and lets the active point go whose weight reaches zero
// first; among equals the one of the lowest index.
func (e *exchange) take(enter int, side float64) {
	f := e.frame
	direction, ok := solve4(e.columns(), [4]float64{side, side * f.x[enter], side * f.y[enter], 1})
	if !ok {
		return
	}
	leave, least := -1, math.Inf(1)
	for k, d := range direction {
		if d <= 1e-13 {
			continue
		}
		ratio := math.Max(e.w[k], 0) / d
		if ratio < least-1e-15 || (ratio <= least+1e-15 && leave >= 0 && e.point[k] < e.point[leave]) {
			leave, least = k, ratio
		}
	}
	if leave >= 0 {
		e.point[leave], e.side[leave] = enter, side
	}
}

// rates returns the rates at which the width of the zone follows the heights:
// twice the weights, with their sides.
func (e *exchange) rates() map[int]float64 {
	rates := map[int]float64{}
	for k, i := range e.point {
		rates[i] += 2 * e.side[k] * e.w[k]
	}
	return rates
}

// solve4 solves four linear equations by elimination with row pivoting; false
// when they are singular.
func solve4(m [4][4]float64, b [4]float64) ([4]float64, bool) {
	for col := range 4 {
		pivot := col
		for row := col + 1; row < 4; row++ {
			if math.Abs(m[row][col]) > math.Abs(m[pivot][col]) {
				pivot = row
			}
		}
		if math.Abs(m[pivot][col]) < 1e-14 {
			return b, false
		}
		m[col], m[pivot] = m[pivot], m[col]
		b[col], b[pivot] = b[pivot], b[col]
		for row := col + 1; row < 4; row++ {
			factor := m[row][col] / m[col][col]
			for j := col; j < 4; j++ {
				m[row][j] -= factor * m[col][j]
			}
			b[row] -= factor * b[col]
		}
	}
	for row := 3; row >= 0; row-- {
		for j := row + 1; j < 4; j++ {
			b[row] -= m[row][j] * b[j]
		}
		b[row] /= m[row][row]
	}
	return b, true
}
