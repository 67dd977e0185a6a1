package wear

// A table that bears on its saddle at two places a distance L apart rides on
// the chord of its worn ways: a level on it reads the slope of the chord,
//
//	slope(u) = (h(u + L/2) - h(u - L/2)) / L,
//
// while the height of the motion is that of its middle,
//
//	height(u) = (h(u + L/2) + h(u - L/2)) / 2,
//
// with h the height of the ways. The slope of the one is not the rate of change
// of the other, and cumulating the level makes a hollow that is shorter than
// about four bearings come out too deep.
//
// The ways h are estimated as a Gaussian process: a free straight line plus an
// integrated Wiener process, which is the cubic spline of least bending
// (G. Wahba, Spline Models for Observational Data, 1990, chapter 1, from
// memory). Its one parameter, how lively the ways run, is found from the
// readings by restricted maximum likelihood. The heights and their covariance
// are then the best linear prediction, with the free line fitted (universal
// kriging). The covariance holds the errors of reading, what happens between
// the stations, and what the readings cannot see at all: wear that repeats in
// the bearing length lifts both ends of the chord alike.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// MotionOptions says how a table rides on its ways.
type MotionOptions struct {
	// Bearing is the distance along the travel between the two places where the
	// table bears on its saddle. Zero means that it follows its ways at one
	// place, as a level does that is walked along a bed.
	Bearing unit.Length
	// At are the places u where heights are wanted, within the run of the
	// stations; nil means at the stations.
	At []unit.Length
}

// Motion is the height of a table's motion, found from slopes.
type Motion struct {
	// Profile holds the height of the middle of the table against the place u
	// of the table that is over the middle of the saddle (u = -X), positive up,
	// above the first place. Only its shape is meant: a straight line is the
	// lean of the machine.
	Profile
	// Liveliness is the intensity of the process for the ways: the variance of
	// their change of slope per metre of way, in 1/m. Zero when the readings
	// can be explained by a straight way and errors of reading.
	Liveliness float64
}

// maxMotionStations bounds the work, which grows with the cube of the stations.
const maxMotionStations = 300

// MotionFromSlopes returns the height of the motion of a table from slopes that
// were read on it, at u = -X, with the covariance of the heights. It takes the
// ways to be as smooth as the readings let them be, the errors of the slopes to
// be independent with the standard uncertainties given, and the liveliness that
// fits best to be the true one. With fewer than five stations that is little to
// go by and the covariance is too small.
//
// It returns an error for fewer than three stations or more than 300, an
// uncertainty that is not above zero, a bearing below 0 or above 10 m, or input
// that [ProfileFromSlopes] would refuse.
func MotionFromSlopes(slopes []SlopePoint, options MotionOptions) (Motion, error) {
	run, err := sortedRun(slopes)
	if err != nil {
		return Motion{}, err
	}
	if len(run) < 3 || len(run) > maxMotionStations {
		return Motion{}, fmt.Errorf("wear: the motion needs from 3 to %d stations, got %d", maxMotionStations, len(run))
	}
	for i, p := range slopes {
		if !(p.U > 0) {
			return Motion{}, fmt.Errorf("wear: station %d: standard uncertainty of the slope %g must be above zero", i+1, float64(p.U))
		}
	}
	if !(options.Bearing >= 0) || float64(options.Bearing) > 10 {
		return Motion{}, fmt.Errorf("wear: bearing length %.6g mm must be from 0 to 10 m", float64(options.Bearing)*1e3)
	}
	at, err := ProfileOptions{At: options.At}.places(run)
	if err != nil {
		return Motion{}, err
	}
	model := newRide(run, float64(options.Bearing))
	if err := model.findLiveliness(); err != nil {
		return Motion{}, err
	}
	return model.predict(at)
}

// term is weight * h(at), or weight * h'(at) for a slope.
type term struct {
	weight, at float64
	slope      bool
}

// ride is the model of a table on its ways and the slopes read on it.
type ride struct {
	half    float64 // half the bearing, m
	origin  float64 // leftmost place of the ways that matters, m
	seen    [][2]term
	slopes  *mat.VecDense
	noise   []float64 // variances of the slopes
	kernel  *mat.SymDense
	lively  float64
	factor  mat.Cholesky  // of the covariance of the slopes
	byOne   *mat.VecDense // that covariance's inverse times ones
	oneByIt float64       // ones times byOne
}

func newRide(run []SlopePoint, bearing float64) *ride {
	r := &ride{half: bearing / 2, slopes: mat.NewVecDense(len(run), nil), noise: make([]float64, len(run))}
	r.origin = float64(run[0].Position) - r.half
	for i, p := range run {
		r.slopes.SetVec(i, float64(p.Slope))
		r.noise[i] = float64(p.U) * float64(p.U)
		r.seen = append(r.seen, r.slopeTerms(float64(p.Position)))
	}
	r.kernel = mat.NewSymDense(len(run), nil)
	for i := range r.seen {
		for j := i; j < len(r.seen); j++ {
			r.kernel.SetSym(i, j, r.covariance(r.seen[i], r.seen[j]))
		}
	}
	return r
}

// slopeTerms returns the slope that a level reads at u, in terms of the ways.
func (r *ride) slopeTerms(u float64) [2]term {
	if r.half == 0 {
		return [2]term{{weight: 1, at: u - r.origin, slope: true}}
	}
	w := 1 / (2 * r.half)
	return [2]term{{weight: w, at: u + r.half - r.origin}, {weight: -w, at: u - r.half - r.origin}}
}

// heightTerms returns the height of the motion at u, in terms of the ways.
func (r *ride) heightTerms(u float64) [2]term {
	return [2]term{{weight: 0.5, at: u + r.half - r.origin}, {weight: 0.5, at: u - r.half - r.origin}}
}

// covariance returns the covariance of two sums of terms for ways of unit
// liveliness, h(s) being the integral of (s-v) dW(v) from the origin to s.
func (r *ride) covariance(a, b [2]term) float64 {
	var sum float64
	for _, p := range a {
		for _, q := range b {
			if p.weight != 0 && q.weight != 0 {
				sum += p.weight * q.weight * waysCovariance(p, q)
			}
		}
	}
	return sum
}

func waysCovariance(p, q term) float64 {
	m := math.Max(math.Min(p.at, q.at), 0)
	switch {
	case p.slope && q.slope:
		return m
	case p.slope:
		return q.at*m - m*m/2
	case q.slope:
		return p.at*m - m*m/2
	}
	return m * m * (math.Abs(p.at-q.at)/2 + m/3)
}

// set fixes the liveliness and factorizes the covariance of the slopes.
func (r *ride) set(lively float64) bool {
	n := len(r.noise)
	v := mat.NewSymDense(n, nil)
	for i := 0; i < n; i++ {
		for j := i; j < n; j++ {
			v.SetSym(i, j, lively*r.kernel.At(i, j))
		}
		v.SetSym(i, i, v.At(i, i)+r.noise[i])
	}
	if !r.factor.Factorize(v) {
		return false
	}
	ones := mat.NewVecDense(n, nil)
	for i := 0; i < n; i++ {
		ones.SetVec(i, 1)
	}
	r.byOne = mat.NewVecDense(n, nil)
	if err := r.factor.SolveVecTo(r.byOne, ones); err != nil && !isCondition(err) {
		return false
	}
	r.lively, r.oneByIt = lively, mat.Sum(r.byOne)
	return r.oneByIt > 0 && finite(r.oneByIt)
}

func isCondition(err error) bool {
	var condition mat.Condition
	return errors.As(err, &condition) && !math.IsInf(float64(condition), 0)
}

// lean returns the fitted slope of the free line.
func (r *ride) lean() float64 { return mat.Dot(r.byOne, r.slopes) / r.oneByIt }

// rest returns the slopes less the fitted lean, and the covariance's inverse
// times them.
func (r *ride) rest() (rest, solved *mat.VecDense) {
	n := r.slopes.Len()
	rest, solved = mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	lean := r.lean()
	for i := 0; i < n; i++ {
		rest.SetVec(i, r.slopes.AtVec(i)-lean)
	}
	// A poor condition is harmless here: set has accepted the factor.
	_ = r.factor.SolveVecTo(solved, rest)
	return rest, solved
}

// misfit returns minus twice the restricted log likelihood, up to a constant.
func (r *ride) misfit(lively float64) float64 {
	if !r.set(lively) {
		return math.Inf(1)
	}
	rest, solved := r.rest()
	return r.factor.LogDet() + math.Log(r.oneByIt) + mat.Dot(rest, solved)
}

// findLiveliness searches the liveliness that fits the slopes best, on a
// logarithmic scale from far below the errors of reading to far above the
// slopes, by a coarse scan and a golden section; zero if that fits as well.
func (r *ride) findLiveliness() error {
	n := float64(len(r.noise))
	var typical, spread, noise float64
	for i := range r.noise {
		typical += r.kernel.At(i, i) / n
		noise += r.noise[i] / n
		spread += math.Pow(r.slopes.AtVec(i)-mat.Sum(r.slopes)/n, 2) / n
	}
	const scan = 33
	low, high := math.Log(1e-6*noise/typical), math.Log(1e3*(spread+noise)/typical)
	best, at := math.Inf(1), low
	for k := range scan {
		x := low + (high-low)*float64(k)/(scan-1)
		if f := r.misfit(math.Exp(x)); f < best {
			best, at = f, x
		}
	}
	step := (high - low) / (scan - 1)
	x := goldenSection(func(x float64) float64 { return r.misfit(math.Exp(x)) }, at-step, at+step)
	lively := math.Exp(x)
	if straight := r.misfit(0); straight <= r.misfit(lively) {
		lively = 0
	}
	if !r.set(lively) {
		return errors.New("wear: the motion cannot be computed: slopes or uncertainties are too far apart in size")
	}
	return nil
}

// goldenSection returns where f is least between a and b, to a thousandth of a
// unit, for an f with one valley.
func goldenSection(f func(float64) float64, a, b float64) float64 {
	golden := (math.Sqrt(5) - 1) / 2
	c, d := b-golden*(b-a), a+golden*(b-a)
	fc, fd := f(c), f(d)
	for b-a > 1e-3 {
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - golden*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + golden*(b-a)
			fd = f(d)
		}
	}
	return (a + b) / 2
}

// predict returns the heights at the places at above the first of them.
func (r *ride) predict(at []float64) (Motion, error) {
	n, m := len(r.noise), len(at)
	lean := r.lean()
	_, solved := r.rest()
	cross, prior := mat.NewDense(m, n, nil), mat.NewSymDense(m, nil)
	heights := make([][2]term, m)
	for i, u := range at {
		heights[i] = r.heightTerms(u)
	}
	first := heights[0]
	for i := range at {
		for j, s := range r.seen {
			cross.Set(i, j, r.lively*(r.covariance(heights[i], s)-r.covariance(first, s)))
		}
		for j := i; j < m; j++ {
			prior.SetSym(i, j, r.lively*(r.covariance(heights[i], heights[j])-r.covariance(first, heights[j])-
				r.covariance(heights[i], first)+r.covariance(first, first)))
		}
	}
	var explained, byCross mat.Dense
	if err := r.factor.SolveTo(&byCross, cross.T()); err != nil && !isCondition(err) {
		return Motion{}, fmt.Errorf("wear: the motion cannot be computed: %w", err)
	}
	explained.Mul(cross, &byCross)
	motion := Motion{Liveliness: r.lively, Profile: Profile{Points: make([]Point, m), Covariance: mat.NewSymDense(m, nil)}}
	free := make([]float64, m) // how a height depends on the lean beyond what the slopes say
	for i, u := range at {
		run := u - at[0]
		h := lean*run + mat.Dot(cross.RowView(i), solved)
		motion.Points[i] = Point{unit.Length(u), unit.Length(h)}
		free[i] = run - mat.Dot(cross.RowView(i), r.byOne)
		if !finite(h) {
			return Motion{}, fmt.Errorf("wear: the motion at %.6g mm cannot be computed: slopes too large", u*1e3)
		}
	}
	for i := range at {
		for j := i; j < m; j++ {
			c := prior.At(i, j) - (explained.At(i, j)+explained.At(j, i))/2 + free[i]*free[j]/r.oneByIt
			motion.Covariance.SetSym(i, j, c)
		}
	}
	return motion, nil
}
