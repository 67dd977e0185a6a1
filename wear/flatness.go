package wear

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
