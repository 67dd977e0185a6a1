package wear

// The minimum zone of a surface is the narrowest pair of parallel planes that
// holds all points, measured upright: the best Chebyshev plane. It is a linear
// programme of three unknowns and one width. Its dual has four active points,
// and is solved by the simplex method on those four: lay the plane that they
// fix, look through all points for the one that is farthest outside, take it in
// and let one of the four go (E. L. Stiefel, Note on Jordan elimination, linear
// programming and Tchebycheff approximation, Numerische Mathematik 2 (1960) 1,
// from memory). Each round looks at every point once; a few dozen rounds do.
// The dual's weights are also the rates at which the value follows the heights,
// which give its uncertainty.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// SurfacePoint is a height at a place of a surface.
type SurfacePoint struct {
	X, Y, Height unit.Length
}

// Plane is a plane over the x, y of a surface.
type Plane struct {
	// Through is a point on the plane.
	Through SurfacePoint
	// SlopeX and SlopeY are dz/dx and dz/dy.
	SlopeX, SlopeY Slope
}

// At returns the height of the plane at a place.
func (p Plane) At(x, y unit.Length) unit.Length {
	return p.Through.Height + p.SlopeX.Rise(x-p.Through.X) + p.SlopeY.Rise(y-p.Through.Y)
}

// PlaneThrough returns the plane through three points. It returns an error when
// they lie in one line as seen from above.
func PlaneThrough(a, b, c SurfacePoint) (Plane, error) {
	bx, by, cx, cy := float64(b.X-a.X), float64(b.Y-a.Y), float64(c.X-a.X), float64(c.Y-a.Y)
	bz, cz := float64(b.Height-a.Height), float64(c.Height-a.Height)
	area := bx*cy - by*cx
	if !(math.Abs(area) > 1e-12*(bx*bx+by*by+cx*cx+cy*cy)) {
		return Plane{}, errors.New("wear: the three points of a plane lie in one line")
	}
	p := Plane{Through: a, SlopeX: Slope((bz*cy - by*cz) / area), SlopeY: Slope((bx*cz - bz*cx) / area)}
	if !finite(float64(p.SlopeX)) || !finite(float64(p.SlopeY)) {
		return Plane{}, errors.New("wear: the plane through three points cannot be computed: points too far apart in size")
	}
	return p, nil
}

// Flatness is how far a surface departs from a plane.
type Flatness struct {
	// Value is the largest deviation from the plane less the smallest one.
	Value unit.Length
	// U is the standard uncertainty of Value to first order; zero unless it
	// comes from a surface with covariance.
	U unit.Length
	// Plane is the reference plane; for the minimum zone, in its middle.
	Plane Plane
	// Highest and Lowest are the indices of the points farthest above and below
	// the plane; for the minimum zone, the points of contact.
	Highest, Lowest []int

	// rates are the rates at which Value follows each height.
	rates map[int]float64
}

// FlatnessOf returns the flatness of points from the plane of least squares or
// of the minimum zone, heights measured upright. Several points may share a
// place. A surface for which several zones are equally narrow gets one of them.
//
// It returns an error for fewer than three points, points in one line, a value
// that is not finite, or a reference other than those two.
func FlatnessOf(points []SurfacePoint, reference Reference) (Flatness, error) {
	if reference != LeastSquares && reference != MinimumZone {
		return Flatness{}, fmt.Errorf("wear: no %v to measure flatness from", reference)
	}
	frame, err := newPlaneFrame(points)
	if err != nil {
		return Flatness{}, err
	}
	f := Flatness{Plane: frame.plane}
	var zone *exchange
	if reference == MinimumZone {
		if zone, err = frame.narrowest(); err != nil {
			return Flatness{}, err
		}
		f.Plane = frame.planeOf(zone.plane)
	}
	f.measure(points)
	if !finite(float64(f.Value)) {
		return Flatness{}, errors.New("wear: flatness cannot be computed: places or heights too large")
	}
	if zone != nil {
		f.rates = zone.rates()
	} else {
		f.rates = frame.leastSquaresRates(points, f.Highest[0], f.Lowest[0])
	}
	return f, nil
}

// FlatnessFrom returns the flatness of points from a given plane: one through
// three corners, say, or parallel to both diagonals.
//
// It returns an error for no points, or a value that is not finite.
func FlatnessFrom(points []SurfacePoint, plane Plane) (Flatness, error) {
	if err := checkSurface(points); err != nil {
		return Flatness{}, err
	}
	f := Flatness{Plane: plane}
	f.measure(points)
	if !finite(float64(f.Value)) {
		return Flatness{}, errors.New("wear: flatness cannot be computed: places, heights or slopes too large")
	}
	return f, nil
}

func checkSurface(points []SurfacePoint) error {
	if len(points) == 0 {
		return errors.New("wear: a surface needs points, got 0")
	}
	for i, p := range points {
		if !finite(float64(p.X)) || !finite(float64(p.Y)) || !finite(float64(p.Height)) {
			return fmt.Errorf("wear: surface point %d: x %g m, y %g m and height %g m must be finite", i+1, float64(p.X), float64(p.Y), float64(p.Height))
		}
	}
	return nil
}

// measure finds the value and the farthest points from the plane.
func (f *Flatness) measure(points []SurfacePoint) {
	high, low, size := math.Inf(-1), math.Inf(1), 0.0
	for i := range points {
		p := &points[i]
		d := float64(p.Height - f.Plane.At(p.X, p.Y))
		if d > high {
			high = d
		}
		if d < low {
			low = d
		}
		size = math.Max(size, math.Abs(float64(p.Height)))
	}
	f.Value = unit.Length(high - low)
	tolerance := 1e-10*(high-low) + 16*eps*size
	for i := range points {
		p := &points[i]
		d := float64(p.Height - f.Plane.At(p.X, p.Y))
		if d >= high-tolerance {
			f.Highest = append(f.Highest, i)
		}
		if d <= low+tolerance {
			f.Lowest = append(f.Lowest, i)
		}
	}
}

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
	var meanZ float64
	for _, p := range points {
		f.centreX += float64(p.X) / f.num
		f.centreY += float64(p.Y) / f.num
		meanZ += float64(p.Height) / f.num
	}
	var sxz, syz float64
	for _, p := range points {
		dx, dy, dz := float64(p.X)-f.centreX, float64(p.Y)-f.centreY, float64(p.Height)-meanZ
		f.sxx, f.sxy, f.syy = f.sxx+dx*dx, f.sxy+dx*dy, f.syy+dy*dy
		sxz, syz = sxz+dx*dz, syz+dy*dz
		f.scaleXY = math.Max(f.scaleXY, math.Max(math.Abs(dx), math.Abs(dy)))
	}
	det := f.sxx*f.syy - f.sxy*f.sxy
	if !(det > 1e-12*(f.sxx+f.syy)*(f.sxx+f.syy)) {
		return nil, errors.New("wear: the points of the surface lie in one line as seen from above; flatness needs three apart")
	}
	f.plane = Plane{Through: SurfacePoint{unit.Length(f.centreX), unit.Length(f.centreY), unit.Length(meanZ)},
		SlopeX: Slope((sxz*f.syy - syz*f.sxy) / det), SlopeY: Slope((syz*f.sxx - sxz*f.sxy) / det)}
	f.x, f.y, f.z = make([]float64, len(points)), make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		f.x[i] = (float64(p.X) - f.centreX) / f.scaleXY
		f.y[i] = (float64(p.Y) - f.centreY) / f.scaleXY
		f.z[i] = float64(p.Height - f.plane.At(p.X, p.Y))
		f.scaleZ = math.Max(f.scaleZ, math.Abs(f.z[i]))
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

// narrowest finds the minimum zone.
func (f *planeFrame) narrowest() (*exchange, error) {
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
	const tolerance = 4e-14
	point, worst := -1, e.half+tolerance
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

// Surface is a set of heights with the covariance of their errors.
type Surface struct {
	// Points are the heights, positive up.
	Points []SurfacePoint
	// Covariance holds the covariances of the heights, in m^2; nil means that
	// nothing is known of it.
	Covariance *mat.SymDense
}

// Flatness returns the flatness of the surface with its standard uncertainty to
// first order: as if the same points stayed the farthest ones, or the contacts
// of the zone, when the heights move by their errors.
//
// It returns an error for points that [FlatnessOf] would refuse, or a
// covariance of another size.
func (s Surface) Flatness(reference Reference) (Flatness, error) {
	f, err := FlatnessOf(s.Points, reference)
	if err != nil || s.Covariance == nil {
		return f, err
	}
	if s.Covariance.SymmetricDim() != len(s.Points) {
		return Flatness{}, fmt.Errorf("wear: a surface of %d points has a covariance of %d rows", len(s.Points), s.Covariance.SymmetricDim())
	}
	var variance float64
	for i, a := range f.rates {
		for j, b := range f.rates {
			variance += a * b * s.Covariance.At(i, j)
		}
	}
	f.U = unit.Length(math.Sqrt(math.Max(variance, 0)))
	return f, nil
}
