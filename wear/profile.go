package wear

// Heights are a linear function of the slopes, h = W s, so that their
// covariance is W C W'. The matrix W integrates an interpolant of the slopes
// from the first station to each place asked for. Heights far along the run
// share the slopes of all stations before them: they are strongly correlated,
// and a reference line must be taken off the covariance as well as off the
// heights.

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// SlopePoint is the slope of a surface at a place.
type SlopePoint struct {
	// Position is the place along the surface; for a level on a travelling
	// table u = -X.
	Position unit.Length
	// Slope is the rise over run there, in the direction of growing Position.
	Slope Slope
	// U is the standard uncertainty of Slope.
	U Slope
	// Freedom is the number of degrees of freedom of U; zero, and infinity,
	// mean that U is known without measuring.
	Freedom float64
}

// Rule says how a slope is taken to run between two stations.
type Rule int

const (
	// Smooth joins the slopes by a cubic between two stations that takes their
	// rate of change from each station's two neighbours: right for slopes that
	// run as a parabola, and far closer than Trapezoid on the smooth hollows of
	// wear.
	Smooth Rule = iota
	// Trapezoid joins the slopes by straight lines, so that a step of height is
	// the mean of the slopes at its ends times its length: what one does with a
	// pencil.
	Trapezoid
)

// ProfileOptions says how slopes become heights. The zero value gives the
// profile under the Smooth rule, at the stations. It is the profile of the
// surface that the level walks on; for the motion of a table that carries the
// level along see [MotionFromSlopes].
type ProfileOptions struct {
	// Rule is how the slopes run between the stations.
	Rule Rule
	// At are the places where heights are wanted, within the run; nil means at
	// the stations.
	At []unit.Length
	// ScaleU is the relative standard uncertainty of the division of the level,
	// common to all slopes; 0.02 for 2 %.
	ScaleU float64
}

// Step is one step of a level that is walked along a surface, or of a mirror on
// a foot that an autocollimator watches.
type Step struct {
	// Base is the length of the step, from foot to foot; above zero.
	Base unit.Length
	// Slope is the slope of the step and U its standard uncertainty.
	Slope, U Slope
}

// Point is a height at a place.
type Point struct {
	Position, Height unit.Length
}

// Profile is a row of heights with the covariance of their errors. The zero
// value is no profile.
type Profile struct {
	// Points are the heights in order of growing position, positive up.
	Points []Point
	// Covariance holds the covariances of the heights, in m^2: one row and one
	// column a point. Nil means that nothing is known of it.
	Covariance *mat.SymDense
}

// maxPlaces is the largest number of places of a profile with covariance, which
// takes its square in memory: 8 MB.
const maxPlaces = 1000

// ProfileFromSlopes cumulates slopes at stations into heights above the first
// station, under the rule of the options. The stations may lie in any order and
// at unequal steps, but no two at one place.
//
// The errors of the slopes are taken as independent, from station to station;
// an error common to all slopes is a straight line in the heights, and goes
// with the reference line ([Profile.Less]).
//
// It returns an error for fewer than two stations or more than 1000, two
// stations at one place, a place of At outside the run, a value that is not
// finite, or a negative uncertainty.
func ProfileFromSlopes(slopes []SlopePoint, options ProfileOptions) (Profile, error) {
	run, err := sortedRun(slopes)
	if err != nil {
		return Profile{}, err
	}
	at, err := options.places(run)
	if err != nil {
		return Profile{}, err
	}
	weights := newCumulation(run, options).weights(at)
	s, variance := make([]float64, len(run)), make([]float64, len(run))
	for i, p := range run {
		s[i], variance[i] = float64(p.Slope), float64(p.U)*float64(p.U)
	}
	return newProfile(at, weights, s, variance, options.ScaleU)
}

// ProfileFromSteps cumulates the steps of a walked level, or of an
// autocollimator's mirror, into heights above the start: each step rises by its
// slope times its base. The errors of the steps are taken as independent;
// scaleU is the relative standard uncertainty of the division of the
// instrument, common to all.
//
// It returns an error for no steps or more than 999, a base that is not above
// zero, a value that is not finite, or a negative uncertainty.
func ProfileFromSteps(start unit.Length, steps []Step, scaleU float64) (Profile, error) {
	if len(steps) == 0 || len(steps) >= maxPlaces {
		return Profile{}, fmt.Errorf("wear: a walked profile needs from 1 to %d steps, got %d", maxPlaces-1, len(steps))
	}
	if !finite(float64(start)) || !(scaleU >= 0 && scaleU < 1) {
		return Profile{}, fmt.Errorf("wear: start %g m must be finite and relative uncertainty %g from 0 to 1", float64(start), scaleU)
	}
	n := len(steps)
	at := make([]float64, n+1)
	at[0] = float64(start)
	weights := mat.NewDense(n+1, n, nil)
	s, variance := make([]float64, n), make([]float64, n)
	for i, step := range steps {
		if !(step.Base > 0) || !finite(float64(step.Base)) {
			return Profile{}, fmt.Errorf("wear: step %d: base %g m must be above zero", i+1, float64(step.Base))
		}
		if err := checkSlope(step.Slope, step.U, "step", i+1); err != nil {
			return Profile{}, err
		}
		s[i], variance[i] = float64(step.Slope), float64(step.U)*float64(step.U)
		at[i+1] = at[i] + float64(step.Base)
		for k := i + 1; k <= n; k++ {
			weights.Set(k, i, float64(step.Base))
		}
	}
	return newProfile(at, weights, s, variance, scaleU)
}

// newProfile returns heights and covariance of h = weights * s.
func newProfile(at []float64, weights *mat.Dense, s, variance []float64, scaleU float64) (Profile, error) {
	var h mat.VecDense
	h.MulVec(weights, mat.NewVecDense(len(s), s))
	scaled := mat.DenseCopyOf(weights)
	scaled.Apply(func(_, j int, w float64) float64 { return w * math.Sqrt(variance[j]) }, scaled)
	covariance := mat.NewSymDense(len(at), nil)
	covariance.SymOuterK(1, scaled)
	covariance.SymRankOne(covariance, scaleU*scaleU, &h)
	profile := Profile{Points: make([]Point, len(at)), Covariance: covariance}
	for i := range at {
		profile.Points[i] = Point{unit.Length(at[i]), unit.Length(h.AtVec(i))}
		if !finite(h.AtVec(i)) || !finite(covariance.At(i, i)) {
			return Profile{}, fmt.Errorf("wear: height at %.6g mm cannot be computed: slopes or steps too large", at[i]*1e3)
		}
	}
	return profile, nil
}

// checkSlope returns what is wrong with the n-th slope.
func checkSlope(s, u Slope, what string, n int) error {
	if !finite(float64(s)) {
		return fmt.Errorf("wear: %s %d: slope %g is not finite", what, n, float64(s))
	}
	if !(u >= 0) || !finite(float64(u)) {
		return fmt.Errorf("wear: %s %d: standard uncertainty of the slope %g must be zero or more", what, n, float64(u))
	}
	return nil
}

// sortedRun returns the slopes in order of position, checked.
func sortedRun(slopes []SlopePoint) ([]SlopePoint, error) {
	if len(slopes) < 2 || len(slopes) > maxPlaces {
		return nil, fmt.Errorf("wear: a profile needs from 2 to %d stations, got %d", maxPlaces, len(slopes))
	}
	for i, p := range slopes {
		if !finite(float64(p.Position)) {
			return nil, fmt.Errorf("wear: station %d: position %g m is not finite", i+1, float64(p.Position))
		}
		if err := checkSlope(p.Slope, p.U, "station", i+1); err != nil {
			return nil, err
		}
	}
	run := append([]SlopePoint(nil), slopes...)
	sort.SliceStable(run, func(i, j int) bool { return run[i].Position < run[j].Position })
	for i := 1; i < len(run); i++ {
		if run[i].Position == run[i-1].Position {
			return nil, fmt.Errorf("wear: two stations stand at %.6g mm; a profile needs one slope a place", float64(run[i].Position)*1e3)
		}
	}
	return run, nil
}

// places returns where heights are wanted, checked against the run.
func (o ProfileOptions) places(run []SlopePoint) ([]float64, error) {
	if o.Rule != Smooth && o.Rule != Trapezoid {
		return nil, fmt.Errorf("wear: no rule of number %d for cumulating slopes", int(o.Rule))
	}
	first, last := float64(run[0].Position), float64(run[len(run)-1].Position)
	if !(o.ScaleU >= 0 && o.ScaleU < 1) {
		return nil, fmt.Errorf("wear: relative uncertainty of the division %g must be from 0 to 1", o.ScaleU)
	}
	if o.At == nil {
		at := make([]float64, len(run))
		for i, p := range run {
			at[i] = float64(p.Position)
		}
		return at, nil
	}
	if len(o.At) == 0 || len(o.At) > maxPlaces {
		return nil, fmt.Errorf("wear: heights are wanted at %d places; it must be 1 to %d", len(o.At), maxPlaces)
	}
	slack := 1e-9 * (last - first)
	at := make([]float64, len(o.At))
	for i, p := range o.At {
		if !(float64(p) >= first-slack && float64(p) <= last+slack) {
			return nil, fmt.Errorf("wear: place %d at %.6g mm is outside the run, %.6g to %.6g mm", i+1, float64(p)*1e3, first*1e3, last*1e3)
		}
		at[i] = math.Min(math.Max(float64(p), first), last)
	}
	sort.Float64s(at)
	return at, nil
}

// cumulation integrates slopes along a run.
type cumulation struct {
	x      []float64  // positions, growing
	change *mat.Dense // row i gives the rate of change of slope at station i
	smooth bool
}

func newCumulation(run []SlopePoint, options ProfileOptions) cumulation {
	c := cumulation{x: make([]float64, len(run)), smooth: options.Rule == Smooth}
	for i, p := range run {
		c.x[i] = float64(p.Position)
	}
	c.change = changeWeights(c.x)
	return c
}

// changeWeights returns the matrix that turns slopes at x into their rates of
// change there: the derivative of the parabola through three neighbours.
func changeWeights(x []float64) *mat.Dense {
	n := len(x)
	d := mat.NewDense(n, n, nil)
	if n == 2 {
		h := x[1] - x[0]
		d.SetRow(0, []float64{-1 / h, 1 / h})
		d.SetRow(1, []float64{-1 / h, 1 / h})
		return d
	}
	for i := range x {
		a := min(max(i-1, 0), n-3)
		for j := a; j < a+3; j++ {
			k, l := a, a+1 // the two nodes other than j
			if j == a {
				k, l = a+1, a+2
			} else if j == a+1 {
				k, l = a, a+2
			}
			d.Set(i, j, (2*x[i]-x[k]-x[l])/((x[j]-x[k])*(x[j]-x[l])))
		}
	}
	return d
}

// weights returns the matrix from slopes to heights at the places at, which
// grow, above the height at the first station.
func (c cumulation) weights(at []float64) *mat.Dense {
	n := len(c.x)
	w := mat.NewDense(len(at), n, nil)
	before := make([]float64, n) // heights at station k
	k := 0
	for row, x := range at {
		for k < n-2 && x > c.x[k+1] {
			c.addIntegral(before, k, 1)
			k++
		}
		to := w.RawRowView(row)
		copy(to, before)
		tau := (x - c.x[k]) / (c.x[k+1] - c.x[k])
		c.addIntegral(to, k, tau)
	}
	return w
}

// addIntegral adds to row the weights of the integral of the slope from station
// k to the fraction t of the way to station k+1.
func (c cumulation) addIntegral(row []float64, k int, t float64) {
	h := c.x[k+1] - c.x[k]
	if !c.smooth {
		row[k] += h * t * (1 - t/2)
		row[k+1] += h * t * t / 2
		return
	}
	row[k] += h * t * (1 + t*t*(t/2-1))
	row[k+1] += h * t * t * t * (1 - t/2)
	c.addChange(row, k, h*h*t*t*(0.5+t*(t/4-2.0/3)))
	c.addChange(row, k+1, h*h*t*t*t*(t/4-1.0/3))
}

// addChange adds to row the weights of the rate of change of slope at station i
// times a factor.
func (c cumulation) addChange(row []float64, i int, factor float64) {
	for j, d := range c.change.RawRowView(i) {
		row[j] += factor * d
	}
}

// U returns the standard uncertainty of the height of point i, or zero when the
// profile has no covariance or no such point.
func (p Profile) U(i int) unit.Length {
	if p.Covariance == nil || i < 0 || i >= p.Covariance.SymmetricDim() {
		return 0
	}
	return unit.Length(math.Sqrt(math.Max(p.Covariance.At(i, i), 0)))
}

// Less returns the profile less a reference line fitted to it, with the
// covariance carried through the fit: the heights of a profile with an end-point
// line taken off are exactly zero, and exactly known, at both ends. For the
// minimum zone the line is taken to keep its points of contact when the heights
// move by their errors, which is true to first order. It returns the line too.
//
// It returns an error for a profile that [StraightnessOf] would refuse.
func (p Profile) Less(reference Reference) (Profile, Line, error) {
	if err := p.check(); err != nil {
		return Profile{}, Line{}, err
	}
	s, err := StraightnessOf(p.Points, reference)
	if err != nil {
		return Profile{}, Line{}, err
	}
	less := Profile{Points: make([]Point, len(p.Points))}
	for i, point := range p.Points {
		less.Points[i] = Point{point.Position, point.Height - s.Line.At(point.Position)}
	}
	if p.Covariance == nil {
		return less, s.Line, nil
	}
	n := len(p.Points)
	take := mat.NewDense(n, n, nil)
	offset, slope := s.lineWeights(p.Points)
	for i, point := range p.Points {
		row := take.RawRowView(i)
		for j := range row {
			row[j] = -offset[j] - slope[j]*float64(point.Position-s.Line.Through.Position)
		}
		row[i]++
	}
	less.Covariance = mat.NewSymDense(n, nil)
	less.Covariance.CopySym(congruence(take, p.Covariance))
	return less, s.Line, nil
}

// congruence returns a*c*a', made symmetric.
func congruence(a *mat.Dense, c *mat.SymDense) *mat.SymDense {
	var ac, aca mat.Dense
	ac.Mul(a, c)
	aca.Mul(&ac, a.T())
	n, _ := aca.Dims()
	sym := mat.NewSymDense(n, nil)
	for i := 0; i < n; i++ {
		for j := i; j < n; j++ {
			sym.SetSym(i, j, (aca.At(i, j)+aca.At(j, i))/2)
		}
	}
	return sym
}

// check returns an error when the covariance does not fit the points.
func (p Profile) check() error {
	if len(p.Points) == 0 {
		return errors.New("wear: the profile is empty")
	}
	if p.Covariance != nil && p.Covariance.SymmetricDim() != len(p.Points) {
		return fmt.Errorf("wear: a profile of %d points has a covariance of %d rows", len(p.Points), p.Covariance.SymmetricDim())
	}
	if !sort.SliceIsSorted(p.Points, func(i, j int) bool { return p.Points[i].Position < p.Points[j].Position }) {
		return errors.New("wear: the points of a profile must stand in order of growing position")
	}
	return nil
}
