package wear

// From the motion of a table back to the wear of the two ways under it. Every
// reading is a weighted sum of depths at the places where the saddle bears,
//
//	along(u)  = a + [m(u - L/2) - m(u + L/2)]/L,    m = (front + rear)/2
//	across(u) = b + [d(u - L/2) + d(u + L/2)]/2,    d = (front - rear)/B
//	dial(u,y) = c + e u + h t(u) - [m(u - L/2) + m(u + L/2)]/2 + y [d(u - L/2) + d(u + L/2)]/2
//
// with the lean of the machine in a and b, the set-up of the dial in c and e, and
// the bow h of the surface that it runs on, t being a parabola. What is left of
// the flaking tells the depth itself. The two ways are taken as independent
// Gaussian processes with a Matern 5/2 covariance (C. E. Rasmussen and C. K. I.
// Williams, Gaussian Processes for Machine Learning, 2006, section 4.2, from
// memory). Its depth and length are not chosen: the answer is the average over a
// grid of both, weighted by how well each explains the readings. Pockets that are
// gone enter through their likelihood, by Laplace's approximation (the same,
// section 3.4, from memory).
//
// What the readings do not see keeps the uncertainty of the process: that is how
// the answer says so.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/unit"
)

// HeightTrack is a run of a dial that stands still over the table while the table
// travels.
type HeightTrack struct {
	// Across is where the dial stands, from the middle between the ways,
	// positive to the rear.
	Across unit.Length
	// Points are its readings against the place u = -X, positive when the table
	// has risen. Their zero and a straight line through them are free.
	Points []Point
	// U is the standard uncertainty of one reading.
	U unit.Length
}

// WayReadings is what is known of two ways. Each kind of reading may be missing.
type WayReadings struct {
	// Bearing is the distance along x between the two places where the table
	// bears on the saddle, Apart that between the ways along y.
	Bearing, Apart unit.Length
	// Along and Across are slopes read on the table at u = -X. The lean of the
	// machine, common to all of a direction, is free.
	Along, Across []SlopePoint
	// Tracks are runs of a dial over the table, and TopBow the standard
	// uncertainty of the bow of the surface it runs on, common to all tracks: the
	// rise of its middle above its ends. Zero means that it is straight.
	Tracks []HeightTrack
	TopBow unit.Length
	// Front and Rear are what is left of the flaking, and Pockets what it was
	// like when new.
	Front, Rear []PocketStation
	Pockets     PocketOptions
}

// WayFit is the wear of two ways as the readings know it.
type WayFit struct {
	// Ways holds the most likely depths. FrontU and RearU are their standard
	// uncertainties.
	Ways          WornWays
	FrontU, RearU []unit.Length
	// Covariance is that of all the depths, those in front first, in m^2.
	Covariance *mat.SymDense
	// PriorU is the standard uncertainty of a depth before any reading: that of
	// the process, averaged like the answer.
	PriorU unit.Length
	// AlongLeft, AcrossLeft and TracksLeft are the readings less what the fitted
	// ways explain, in the order of the readings.
	AlongLeft, AcrossLeft []Slope
	TracksLeft            [][]unit.Length
	// TopBow is the bow of the surface under the dial, TopBowU its standard
	// uncertainty; both zero where none was allowed for.
	TopBow, TopBowU unit.Length

	prior *mat.SymDense
}

// maxWayReadings and maxWayPlaces bound the work, which grows with their cubes.
const maxWayReadings, maxWayPlaces = 200, 200

// FitWays returns the wear of the front and the rear way that best explains the
// readings, at the places given, with what they leave open in its covariance. No
// places means 25 from end to end of what the readings reach.
//
// It takes errors of reading to be independent and normal, the table to bear at
// the ends of the saddle (see [TwoPointMotion]), and wear to be as smooth as the
// readings let it be. Depths may come out below zero within their uncertainty.
//
// It returns an error for fewer than three readings or more than 200, more than
// 200 places, a bearing or a distance of the ways that is not above zero, an
// uncertainty that is not above zero, places that do not grow, or pockets that
// [ReadPockets] would refuse.
func FitWays(readings WayReadings, places []unit.Length) (WayFit, error) {
	if err := readings.check(); err != nil {
		return WayFit{}, err
	}
	if len(places) == 0 {
		from, to := readings.reach()
		for i := range 25 {
			places = append(places, from+(to-from)*unit.Length(i)/24)
		}
	}
	if len(places) > maxWayPlaces {
		return WayFit{}, fmt.Errorf("wear: ways at %d places; there may be at most %d", len(places), maxWayPlaces)
	}
	for i, u := range places {
		if !finite(float64(u)) || i > 0 && !(u > places[i-1]) {
			return WayFit{}, fmt.Errorf("wear: ways, place %d at %.6g mm must be finite and lie beyond the one before", i+1, float64(u)*1e3)
		}
	}
	model := newWayModel(readings)
	return model.average(readings, places)
}

// reach returns the ends of the ways that the readings touch.
func (r WayReadings) reach() (from, to unit.Length) {
	from, to = unit.Length(math.Inf(1)), unit.Length(math.Inf(-1))
	take := func(u, half unit.Length) { from, to = min(from, u-half), max(to, u+half) }
	for _, slopes := range [][]SlopePoint{r.Along, r.Across} {
		for _, p := range slopes {
			take(p.Position, r.Bearing/2)
		}
	}
	for _, t := range r.Tracks {
		for _, p := range t.Points {
			take(p.Position, r.Bearing/2)
		}
	}
	for _, stations := range [][]PocketStation{r.Front, r.Rear} {
		for _, s := range stations {
			take(s.Place, 0)
		}
	}
	return from, to
}

// check returns what is wrong with the readings.
func (r WayReadings) check() error {
	if !(r.Bearing > 0 && r.Bearing <= 10) || !(r.Apart > 0 && r.Apart <= 10) {
		return fmt.Errorf("wear: a bearing of %.6g mm and ways %.6g mm apart; both must be above zero and at most 10 m", float64(r.Bearing)*1e3, float64(r.Apart)*1e3)
	}
	count := len(r.Along) + len(r.Across) + len(r.Front) + len(r.Rear)
	for _, t := range r.Tracks {
		count += len(t.Points)
	}
	if count < 3 || count > maxWayReadings {
		return fmt.Errorf("wear: the ways need from 3 to %d readings in all, got %d", maxWayReadings, count)
	}
	if err := r.checkSlopes(); err != nil {
		return err
	}
	if err := r.checkTracks(); err != nil {
		return err
	}
	if len(r.Front)+len(r.Rear) == 0 {
		return nil
	}
	if err := r.Pockets.check(); err != nil {
		return err
	}
	for _, stations := range [][]PocketStation{r.Front, r.Rear} {
		for i, s := range stations {
			if err := s.check(i+1, r.Pockets); err != nil {
				return err
			}
			if math.Abs(float64(s.Place)) > 100 {
				return fmt.Errorf("wear: flaking, station %d: place %g m lies beyond 100 m", i+1, float64(s.Place))
			}
		}
	}
	return nil
}

func (r WayReadings) checkSlopes() error {
	for _, run := range []struct {
		name   string
		points []SlopePoint
	}{{"along", r.Along}, {"across", r.Across}} {
		for i, p := range run.points {
			if !(math.Abs(float64(p.Position)) <= 100) || !(math.Abs(float64(p.Slope)) <= 1) {
				return fmt.Errorf("wear: slope %s, station %d: position %g m and slope %g must be within 100 m and 1", run.name, i+1, float64(p.Position), float64(p.Slope))
			}
			if !(p.U >= 1e-9 && p.U <= 1) {
				return fmt.Errorf("wear: slope %s, station %d: standard uncertainty %g must be from 1e-9 to 1", run.name, i+1, float64(p.U))
			}
		}
	}
	return nil
}

func (r WayReadings) checkTracks() error {
	if !(r.TopBow >= 0 && r.TopBow <= 0.1) {
		return fmt.Errorf("wear: bow under the dial, standard uncertainty %g m, must be from 0 to 100 mm", float64(r.TopBow))
	}
	for k, t := range r.Tracks {
		if !(math.Abs(float64(t.Across)) <= 10) || !(t.U >= 1e-9 && t.U <= 0.1) {
			return fmt.Errorf("wear: track %d: %g m across and a standard uncertainty of %g m must be within 10 m and from 1 nm to 100 mm", k+1, float64(t.Across), float64(t.U))
		}
		for i, p := range t.Points {
			if !(math.Abs(float64(p.Position)) <= 100) || !(math.Abs(float64(p.Height)) <= 0.1) {
				return fmt.Errorf("wear: track %d, point %d: position %g m and height %g m must be within 100 m and 100 mm", k+1, i+1, float64(p.Position), float64(p.Height))
			}
		}
	}
	return nil
}

// Pattern returns how well the amount of a pattern of wear is known. The pattern
// is given at the places of the fit, front and rear, and scaled to a mean square
// of 1; the amount is what a least squares fit of it to the wear gives, together
// with a straight line in front and another at the rear unless the pattern is
// such lines itself. Before is its standard uncertainty without any reading, after
// with them. Where the two are alike the readings do not see the pattern.
//
// It returns an error for a pattern of another length than the places, that is
// not finite or zero all over.
func (f WayFit) Pattern(front, rear []float64) (amount, before, after unit.Length, err error) {
	n := len(f.Ways.Places)
	if f.prior == nil || len(front) != n || len(rear) != n {
		return 0, 0, 0, fmt.Errorf("wear: a pattern at %d and %d places of ways that are known at %d", len(front), len(rear), n)
	}
	p, w := mat.NewVecDense(2*n, nil), mat.NewVecDense(2*n, nil)
	for i := range n {
		p.SetVec(i, front[i])
		p.SetVec(n+i, rear[i])
		w.SetVec(i, float64(f.Ways.Front[i]))
		w.SetVec(n+i, float64(f.Ways.Rear[i]))
	}
	square := mat.Dot(p, p)
	if !(square > 0) || !finite(square) {
		return 0, 0, 0, fmt.Errorf("wear: a pattern with a sum of squares of %g; it must be above zero and finite", square)
	}
	p.ScaleVec(math.Sqrt(2*float64(n)/square), p)
	beyond := mat.VecDenseCopyOf(p)
	f.takeLines(beyond.RawVector().Data)
	if rest := mat.Dot(beyond, beyond); rest > 1e-9*float64(n) {
		p.ScaleVec(1/rest, beyond)
	} else {
		p.ScaleVec(1/(2*float64(n)), p)
	}
	return unit.Length(mat.Dot(p, w)), unit.Length(math.Sqrt(math.Max(mat.Inner(p, f.prior, p), 0))),
		unit.Length(math.Sqrt(math.Max(mat.Inner(p, f.Covariance, p), 0))), nil
}

// takeLines takes the straight line of least squares off a pattern in front and
// at the rear.
func (f WayFit) takeLines(pattern []float64) {
	n := len(f.Ways.Places)
	if n < 2 {
		return
	}
	u := make([]float64, n)
	for i, p := range f.Ways.Places {
		u[i] = float64(p)
	}
	for _, half := range [][]float64{pattern[:n], pattern[n:]} {
		zero, slope := stat.LinearRegression(u, half, nil, false)
		for i := range half {
			half[i] -= zero + slope*u[i]
		}
	}
}
