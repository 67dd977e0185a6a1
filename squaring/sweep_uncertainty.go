package squaring

// What a sweep's tilt is uncertain by: the readings' scatter or rounding, passed
// through the fit and through the drift that was taken out, and what gain, stylus
// angle, radius and hysteresis do to every slope alike.

import (
	"math"

	"gonum.org/v1/gonum/unit"
)

// spread is how one reading's variance spreads: into the covariance of the
// three unknowns, and into the sum of squared residuals, both over sigma^2.
type spread struct {
	unknowns [3][3]float64
	residual float64
}

// plainSpread is the spread of n readings that were fitted as they were read.
func plainSpread(c [maxUnknowns]row5, n int) spread {
	s := spread{residual: float64(n - 3)}
	for i := range s.unknowns {
		copy(s.unknowns[i][:], c[i][:3])
	}
	return s
}

// closedSpread is the spread of readings corrected by a closing reading. The
// corrected readings are y - w (closing - y0), w the order of reading, so their
// covariance over sigma^2 is I + w e0' + e0 w' + 2 w w', e0 being one for the
// first reading. With g = the fit to w, and G = the fit to e0, the unknowns'
// covariance is (X'X)^-1 + g G' + G g' + 2 g g'.
func closedSpread(c [maxUnknowns]row5, stations []station) spread {
	var sums row5 // X'w
	squares := 0.0
	for i := range stations {
		w := stations[i].order
		sums[0], sums[1], sums[2] = sums[0]+w, sums[1]+w*stations[i].cos, sums[2]+w*stations[i].sin
		squares += w * w
	}
	first := stations[0].row3()
	var g, h row5
	for i := range 3 {
		g[i], h[i] = dot5(c[i], sums), dot5(c[i], first)
	}
	s := plainSpread(c, len(stations))
	for i := range s.unknowns {
		for j := range s.unknowns {
			s.unknowns[i][j] += g[i]*h[j] + h[i]*g[j] + 2*g[i]*g[j]
		}
	}
	s.residual += 2*(squares-dot5(g, sums)) - 2*dot5(g, first)
	return s
}

// judgeReadings sets Scatter, Rounding and ReadingU.
func (s *Sweep) judgeReadings(rss float64, spread spread, o SweepOptions) {
	if s.Redundancy > 0 && spread.residual > 0 {
		s.Scatter = unit.Length(math.Sqrt(rss / spread.residual))
	}
	// A stylus a little off its azimuth meets another height of the slope: on
	// average over the circle, slope * r / sqrt(2) for each radian.
	aside := float64(s.Tilt.Steepest()) * float64(o.Radius) / math.Sqrt2 * float64(o.AzimuthU)
	s.Rounding = unit.Length(math.Hypot(s.factor*float64(o.Indicator.RoundingU()), aside))
	s.ReadingU = max(s.Scatter, s.Rounding)
}

// combine sets the uncertainties of the tilt.
func (s *Sweep) combine(spread spread, o SweepOptions) {
	r, variance := float64(o.Radius), float64(s.ReadingU*s.ReadingU)
	for i := range s.covariance {
		for j := range s.covariance {
			s.covariance[i][j] = variance * spread.unknowns[i][j]
		}
	}
	s.FromReadings = Gradient{
		X: Slope(math.Sqrt(math.Max(0, s.covariance[1][1])) / r),
		Y: Slope(math.Sqrt(math.Max(0, s.covariance[2][2])) / r),
	}
	scale, hysteresis := s.scaleU(o), s.hysteresisU(o)
	s.FromScale = Gradient{
		X: Slope(math.Hypot(scale*float64(s.Tilt.X), hysteresis)),
		Y: Slope(math.Hypot(scale*float64(s.Tilt.Y), hysteresis)),
	}
	s.TiltU = Gradient{
		X: Slope(math.Hypot(float64(s.FromReadings.X), float64(s.FromScale.X))),
		Y: Slope(math.Hypot(float64(s.FromReadings.Y), float64(s.FromScale.Y))),
	}
	if product := float64(s.TiltU.X * s.TiltU.Y); product > 0 {
		together := s.covariance[1][2]/(r*r) + scale*scale*float64(s.Tilt.X*s.Tilt.Y)
		s.Correlation = math.Max(-1, math.Min(1, together/product))
	}
	s.DegreesOfFreedomX = s.effective(s.FromReadings.X, s.TiltU.X)
	s.DegreesOfFreedomY = s.effective(s.FromReadings.Y, s.TiltU.Y)
}

// effective returns the effective degrees of freedom of an uncertainty u of
// which the readings have the given share (Welch-Satterthwaite, the scale's
// share being taken as known).
func (s *Sweep) effective(share, u Slope) float64 {
	if s.Scatter < s.ReadingU || s.Redundancy == 0 || share == 0 {
		return math.Inf(1)
	}
	ratio := float64(u / share)
	return float64(s.Redundancy) * ratio * ratio * ratio * ratio
}

// scaleU returns the relative standard uncertainty that gain, stylus angle and
// radius put on every slope alike.
func (s *Sweep) scaleU(o SweepOptions) float64 {
	factor, factorU := o.Indicator.Factor()
	return math.Hypot(factorU/factor, float64(o.RadiusU)/float64(o.Radius))
}

// hysteresisU returns the standard uncertainty of each slope from hysteresis: a
// dial that lags by h/2 uphill and h/2 downhill adds a square wave whose first
// harmonic is 2 h / pi high, square to the tilt; taken as the limit of an even
// spread, since a stem that is tapped or vibrates lags less.
func (s *Sweep) hysteresisU(o SweepOptions) float64 {
	if o.OneWay {
		return 0
	}
	height := 2 / math.Pi * s.factor * math.Abs(float64(o.Indicator.Hysteresis))
	return height / float64(o.Radius) / math.Sqrt(3)
}
