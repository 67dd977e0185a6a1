package squaring

// A dial carried round by the spindle at radius r reads, at azimuth p,
//
//	reading = mean + r (tilt.X cos p + tilt.Y sin p) + what the table's own form adds
//
// where tilt is table slope minus spindle tilt. Mean and tilt come by least
// squares (see smallfit.go), with their covariance. A closing reading, taken
// back at the first azimuth, tells how far the dial drifted; the drift is taken
// out in proportion to the order of reading. It is not fitted together with the
// tilt: the table's own form, which repeats each turn, would pull such a fit
// aside, while the closing reading is taken on the very same spot.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/unit"
)

// SweepReading is one reading of a dial swung round by the spindle.
type SweepReading struct {
	// Azimuth is where the stylus stood: 0 at the right, anticlockwise seen
	// from above, 90 degrees at the column. Any angle will do, in any order.
	Azimuth unit.Angle
	// Reading is what the dial showed, positive when its stem was pushed in
	// (the table higher there). Where the dial was zeroed does not matter.
	Reading unit.Length
}

// SweepOptions says how a sweep was taken.
type SweepOptions struct {
	// Radius is from the spindle's axis to the stylus, above zero and up to
	// 10 m, and RadiusU its standard uncertainty.
	Radius, RadiusU unit.Length
	// Indicator is the dial. Its hysteresis counts unless OneWay is set.
	Indicator Indicator
	// AzimuthU is the standard uncertainty of each azimuth.
	AzimuthU unit.Angle
	// Closing is the reading taken back at the first azimuth after one whole
	// turn; nil when none was taken. It must not also be among the readings.
	Closing *unit.Length
	// OneWay says that at every azimuth the stem was brought to its reading
	// from the same side, as when a block is slid under it: then the dial's
	// hysteresis shifts all readings alike. Otherwise the dial reads one way
	// uphill and another downhill, which looks like a tilt square to the true
	// one, and is counted as uncertainty.
	OneWay bool
}

// Sweep is what a sweep says.
type Sweep struct {
	// Tilt is table slope minus spindle tilt, corrected for gain, stylus angle
	// and drift: positive X when the table looks high on the right.
	Tilt Gradient
	// TiltU holds the combined standard uncertainties of Tilt.X and Tilt.Y.
	TiltU Gradient
	// Correlation is the correlation coefficient of Tilt.X and Tilt.Y.
	Correlation float64
	// DegreesOfFreedomX and Y are the effective degrees of freedom of TiltU.X
	// and TiltU.Y, +Inf when they rest on the dial's step alone.
	DegreesOfFreedomX, DegreesOfFreedomY float64
	// FromReadings and FromScale are the two shares of TiltU: what the readings'
	// scatter or rounding leaves, and what gain, stylus angle, radius and
	// hysteresis leave.
	FromReadings, FromScale Gradient

	// Mean is the mean height of the swept circle from the dial's zero.
	Mean unit.Length
	// Closed says that there was a closing reading, and Drift is closing minus
	// first, as a true move; it has been taken out.
	Closed bool
	Drift  unit.Length

	// Scatter is the standard deviation of one reading about the fitted plane
	// (zero when no reading is to spare), Rounding what the dial's step and the
	// azimuths' uncertainty alone give. The larger is ReadingU, from which the
	// tilt's uncertainty follows: the scatter holds the rounding, so that adding
	// both would count it twice, but few readings may by luck hide it.
	Scatter, Rounding, ReadingU unit.Length
	// Redundancy is the number of readings beyond the three that a plane takes:
	// the degrees of freedom of Scatter.
	Redundancy int
	// Residuals are corrected reading minus fitted plane, as true heights in
	// the order of the readings.
	Residuals []unit.Length
	// Dilution compares the azimuths with a full even round of as many
	// readings: the worst direction's uncertainty is Dilution times as large. It
	// is 1 for an even round.
	Dilution float64
	// Second is the part of the readings that repeats twice a turn.
	Second SecondHarmonic

	// Doubt says whether the readings hang together, and Suspects names those
	// that do not, the worst first. Suspects have not been left out of Tilt.
	Doubt    Doubt
	Suspects []Suspect

	covariance [3][3]float64 // of mean, r tilt.X, r tilt.Y, from the readings
	radius     unit.Length
	factor     float64
}

// SecondHarmonic is a height that repeats twice a turn: a table top that is
// bent or wound, or a spindle bearing that is not round. It does not disturb
// the tilt of an even round of readings.
type SecondHarmonic struct {
	// Known says that the azimuths could tell it: at least five of them, well
	// spread.
	Known bool
	// Amplitude is half the height from hollow to ridge, never negative; noise
	// alone gives about 1.3 times Uncertainty.
	Amplitude unit.Length
	// Ridge is the azimuth of the ridge, from 0 up to 180 degrees; the other end
	// of the ridge is half a turn on.
	Ridge unit.Angle
	// Uncertainty is the standard uncertainty of Amplitude, from the readings.
	Uncertainty unit.Length
}

const (
	maxSweepReadings = 1000
	maxLength        = 10 * unit.Metre
	// worstDilution is the dilution beyond which a tilt comes with an error.
	worstDilution = 10
	// singularFit is the ratio of diagonal elements below which an unknown
	// cannot be told.
	singularFit = 1e-7
)

// DilutionError says that the azimuths lie so close together that the tilt,
// though given, is hardly known.
type DilutionError struct {
	// Dilution is the sweep's, and Limit the most accepted.
	Dilution, Limit float64
}

// Error returns the message.
func (e *DilutionError) Error() string {
	return fmt.Sprintf("squaring: the azimuths cover too little of the circle: the tilt is %.0f times less sure than from an even round, the limit is %.0f",
		e.Dilution, e.Limit)
}

// station is one reading, ready for the fit.
type station struct {
	cos, sin float64
	order    float64 // 0 for the first reading, 1 for the closing one
	height   float64 // true height from the dial's zero, m
}

// row returns the design row of a plane, or of a plane and a second harmonic.
func (s *station) row() row5 {
	return row5{1, s.cos, s.sin, s.cos*s.cos - s.sin*s.sin, 2 * s.cos * s.sin}
}

// FitSweep returns the tilt behind three or more readings of a sweep.
//
// Three readings give a tilt and no check on it; from five on, a single misread
// reading can be named (see [Suspect]). Four to thirty-six are usual, one
// thousand the most. The readings must be finite and within 10 m of zero. When
// the azimuths are all alike or only two differ, an error is returned; when
// they cover so little of the circle that Dilution exceeds 10, the sweep is
// returned together with a [*DilutionError].
//
// The readings are taken as independent and alike in quality; the plane swept
// is that of the table top at the radius, not the travel of the table.
func FitSweep(readings []SweepReading, options SweepOptions) (Sweep, error) {
	if err := options.validate(); err != nil {
		return Sweep{}, err
	}
	if err := validateReadings(readings, options.Closing); err != nil {
		return Sweep{}, err
	}
	var buffer [36]station
	stations, drift := prepare(readings, options, buffer[:0])
	return fitStations(stations, drift, readings, options)
}

func (o SweepOptions) validate() error {
	if err := positiveLength("sweep radius", o.Radius); err != nil {
		return err
	}
	if o.Radius > maxLength {
		return fmt.Errorf("squaring: sweep radius is %s, must be at most %s", millimetres(o.Radius), millimetres(maxLength))
	}
	if err := notNegative("uncertainty of the sweep radius", o.RadiusU); err != nil {
		return err
	}
	if err := notNegativeNumber("uncertainty of the azimuths", float64(o.AzimuthU)); err != nil {
		return err
	}
	return o.Indicator.validate()
}

func validateReadings(readings []SweepReading, closing *unit.Length) error {
	if n := len(readings); n < 3 || n > maxSweepReadings {
		return fmt.Errorf("squaring: a sweep has %d readings, needs 3 to %d", n, maxSweepReadings)
	}
	for i := range readings {
		azimuth := float64(readings[i].Azimuth)
		if math.IsNaN(azimuth) || math.Abs(azimuth) > 1000*math.Pi {
			return fmt.Errorf("squaring: azimuth of reading %d is %s, must be a number within 500 turns", i+1, degrees(readings[i].Azimuth))
		}
		if x := readings[i].Reading; !(math.Abs(float64(x)) <= float64(maxLength)) {
			return fmt.Errorf("squaring: reading %d is %s, must be a number within %s", i+1, millimetres(x), millimetres(maxLength))
		}
	}
	if closing != nil && !(math.Abs(float64(*closing)) <= float64(maxLength)) {
		return fmt.Errorf("squaring: closing reading is %s, must be a number within %s", millimetres(*closing), millimetres(maxLength))
	}
	return nil
}

// prepare appends the readings as stations to the given slice, corrected for
// gain, stylus angle and drift, and returns them with the drift.
func prepare(readings []SweepReading, o SweepOptions, stations []station) ([]station, float64) {
	factor, _ := o.Indicator.Factor()
	drift := 0.0
	if o.Closing != nil {
		drift = factor * float64(*o.Closing-readings[0].Reading)
	}
	for i := range readings {
		sin, cos := math.Sincos(float64(readings[i].Azimuth))
		order := float64(i) / float64(len(readings))
		height := factor*float64(readings[i].Reading) - order*drift
		stations = append(stations, station{cos: cos, sin: sin, order: order, height: height})
	}
	return stations, drift
}

// fitPlane fits mean, r tilt.X and r tilt.Y to the stations.
func fitPlane(stations []station) smallFit { return fitHarmonics(stations, 3) }

// fitHarmonics fits mean and first harmonic (three unknowns), or the second
// harmonic too (five).
func fitHarmonics(stations []station, unknowns int) smallFit {
	fit := smallFit{unknowns: unknowns}
	for i := range stations {
		fit.add(stations[i].row(), stations[i].height)
	}
	return fit
}

// fitStations does the work of FitSweep on checked readings.
func fitStations(stations []station, drift float64, readings []SweepReading, o SweepOptions) (Sweep, error) {
	whole := fitHarmonics(stations, 5)
	fit := whole.first(3)
	if fit.weakest() < singularFit {
		return Sweep{}, fmt.Errorf("squaring: the azimuths of the %d readings do not differ enough to tell a tilt: three directions are needed", len(stations))
	}
	b, c := fit.solve(), fit.covariance()
	factor, _ := o.Indicator.Factor()
	r := float64(o.Radius)
	s := Sweep{
		Tilt: Gradient{X: Slope(b[1] / r), Y: Slope(b[2] / r)}, Mean: unit.Length(b[0]),
		Closed: o.Closing != nil, Drift: unit.Length(drift),
		Redundancy: len(stations) - 3, Residuals: make([]unit.Length, len(stations)),
		Dilution: dilution(c, len(stations)), radius: o.Radius, factor: factor,
	}
	for i := range stations {
		s.Residuals[i] = unit.Length(stations[i].height - dot5(b, stations[i].row3()))
	}
	spread := plainSpread(c, len(stations))
	if s.Closed {
		spread = closedSpread(c, stations)
	}
	s.judgeReadings(fit.rss, spread, o)
	s.combine(spread, o)
	s.Second = secondHarmonic(&whole, float64(s.Rounding))
	s.findMisreads(stations, readings, fit.rss, o)
	if s.Dilution > worstDilution {
		return s, &DilutionError{Dilution: s.Dilution, Limit: worstDilution}
	}
	return s, nil
}

// row3 is the row of a plane alone.
func (s *station) row3() row5 { return row5{1, s.cos, s.sin} }

// dilution compares the worst direction's uncertainty with an even round's.
func dilution(c [maxUnknowns]row5, n int) float64 {
	half := (c[1][1] + c[2][2]) / 2
	worst := half + math.Hypot((c[1][1]-c[2][2])/2, c[1][2])
	return math.Sqrt(worst * float64(n) / 2)
}

// secondHarmonic reads the second harmonic off a fit of five unknowns.
func secondHarmonic(fit *smallFit, rounding float64) SecondHarmonic {
	if fit.rows < 5 || fit.weakest() < 0.05 {
		return SecondHarmonic{}
	}
	b := fit.solve()
	reading := rounding
	if spare := fit.degreesOfFreedom(); spare > 0 {
		reading = math.Max(reading, math.Sqrt(fit.rss/float64(spare)))
	}
	ridge := math.Atan2(b[4], b[3]) / 2
	if ridge < 0 {
		ridge += math.Pi
	}
	amplitude := math.Hypot(b[3], b[4])
	phase := row5{3: 1}
	if amplitude > 0 {
		phase[3], phase[4] = b[3]/amplitude, b[4]/amplitude
	}
	half := fit.half(phase)
	return SecondHarmonic{Known: true, Amplitude: unit.Length(amplitude), Ridge: unit.Angle(ridge),
		Uncertainty: unit.Length(reading * math.Sqrt(dot5(half, half)))}
}

// planeChance returns the chance that a flat table, read to the given standard
// deviation, would leave a residual sum of squares as large or larger.
func planeChance(rss, reading float64, degreesOfFreedom int) float64 {
	if degreesOfFreedom == 0 || reading <= 0 {
		return 1
	}
	return mathext.GammaIncRegComp(float64(degreesOfFreedom)/2, rss/(2*reading*reading))
}

// Expanded returns the half width of the interval about Tilt.X, and about
// Tilt.Y, that holds the true value with the given probability, each taken by
// itself. The probability must lie between 0 and 1.
func (s Sweep) Expanded(probability float64) (Gradient, error) {
	if s.radius == 0 {
		return Gradient{}, nil
	}
	kx, err := CoverageFactor(probability, s.DegreesOfFreedomX)
	if err != nil {
		return Gradient{}, err
	}
	ky, err := CoverageFactor(probability, s.DegreesOfFreedomY)
	return Gradient{X: Slope(kx) * s.TiltU.X, Y: Slope(ky) * s.TiltU.Y}, err
}

// Along returns the tilt met going toward the azimuth.
func (s Sweep) Along(azimuth unit.Angle) MeasuredSlope {
	sin, cos := math.Sincos(float64(azimuth))
	x, y := cos*float64(s.TiltU.X), sin*float64(s.TiltU.Y)
	variance := x*x + 2*s.Correlation*x*y + y*y
	return MeasuredSlope{Slope: s.Tilt.Along(azimuth), Uncertainty: Slope(math.Sqrt(math.Max(0, variance)))}
}

// Steepest returns the tilt in its own direction. Near zero it is no longer
// spread evenly about the true value, but always above it.
func (s Sweep) Steepest() MeasuredSlope { return s.Along(s.Tilt.Azimuth()) }

// Expect returns what the dial would show at the azimuth, drift taken out, were
// the table a plane, and the standard uncertainty that the readings leave in
// that line.
func (s Sweep) Expect(azimuth unit.Angle) (shown, uncertainty unit.Length) {
	if s.radius == 0 {
		return 0, 0
	}
	sin, cos := math.Sincos(float64(azimuth))
	x := [3]float64{1, cos, sin}
	variance := 0.0
	for i := range x {
		for j := range x {
			variance += x[i] * x[j] * s.covariance[i][j]
		}
	}
	height := s.Mean + s.Tilt.Along(azimuth).Rise(s.radius)
	return height / unit.Length(s.factor), unit.Length(math.Sqrt(math.Max(0, variance)) / s.factor)
}
