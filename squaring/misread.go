package squaring

// Misread readings are named, not swallowed. When the residuals are larger than
// reading the dial in steps can explain, each reading in turn is left out, the
// plane fitted to the rest, and the reading compared with what the rest foretell
// for its place: the deleted (externally studentised) residual, against
// Student's t at 1 % shared out over all readings (Bonferroni). So an honest
// sweep is accused about once in a hundred.
// Source: R. D. Cook and S. Weisberg, Residuals and Influence in Regression,
// 1982, section 2.2 (from memory).

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// Doubt says whether a sweep's readings hang together.
type Doubt string

const (
	// NoDoubt: a plane and the dial's step explain the readings.
	NoDoubt Doubt = ""
	// Unchecked: three readings always fit a plane, so nothing is checked.
	Unchecked Doubt = "three readings always fit a plane: nothing checks them"
	// TooFew: the readings disagree, but there are too few to tell which one is
	// wrong, or whether the table is not flat.
	TooFew Doubt = "the readings disagree, and there are too few to tell which is wrong"
	// Uneven: the readings leave the plane by more than the dial's step
	// explains, and no single one is to blame: the table's form, dirt, a burr, a
	// loose arm.
	Uneven Doubt = "the readings leave a plane by more than the dial's step, and no single one is to blame"
	// Misread: one reading, or one run of them, stands out; see the suspects.
	Misread Doubt = "a reading stands out from the others"
)

// Slip says what a misread reading likely was.
type Slip string

const (
	// WholeTurn: the hand was read on the wrong turn of the dial.
	WholeTurn Slip = "one whole turn of the dial"
	// SignSlip: read with the wrong sign, on the wrong side of zero.
	SignSlip Slip = "the wrong side of zero"
	// PointSlip: the decimal point one place out.
	PointSlip Slip = "the decimal point one place out"
	// MarkSlip: out by a whole number of the dial's ten-division marks.
	MarkSlip Slip = "a wrong numbered mark"
	// OddSlip: none of these; read it again.
	OddSlip Slip = "no simple slip"
)

// Suspect is a reading, or a run of readings, that the others contradict.
type Suspect struct {
	// First and Last number the readings, counted from 1; alike for a single
	// one. The closing reading has the number after the last.
	First, Last int
	// Shown is what the dial was read as at First.
	Shown unit.Length
	// Expected is what the others say it should have shown there, ExpectedU the
	// standard uncertainty of that.
	Expected, ExpectedU unit.Length
	// Likely says what the slip likely was.
	Likely Slip
	// Ratio is the difference in units of its standard deviation, and Limit the
	// most that chance is granted.
	Ratio, Limit float64
	// Tilt is the tilt without the reading, or with the run put on the right
	// turn.
	Tilt Gradient
}

const (
	// accuse is the chance of accusing any reading of an honest sweep.
	accuse = 0.01
	// unlikely is the chance of residuals so large below which they are looked
	// into.
	unlikely = 0.001
	// maxRunReadings bounds the search for runs on the wrong turn, which grows
	// with the cube of the number of readings.
	maxRunReadings = 72
)

// findMisreads sets Doubt and Suspects.
func (s *Sweep) findMisreads(stations []station, readings []SweepReading, rss float64, o SweepOptions) {
	if s.Redundancy == 0 {
		s.Doubt = Unchecked
		return
	}
	floor := s.readingFloor(stations)
	if s.Scatter <= unit.Length(floor) || planeChance(rss, floor, s.Redundancy) >= unlikely {
		return
	}
	if o.Indicator.Division > 0 {
		s.Doubt = Uneven
		if s.Redundancy == 1 {
			s.Doubt = TooFew
			return
		}
	}
	search := misreadSearch{readings: readings, options: o, floor: floor}
	s.Suspects = search.singles()
	if len(s.Suspects) == 0 && o.Indicator.Turn > 0 && len(readings) <= maxRunReadings {
		s.Suspects = search.runs(rss)
	}
	if len(s.Suspects) > 0 {
		s.Doubt = Misread
	}
}

// readingFloor returns the least standard deviation a reading can be granted:
// the dial's step, and never less than the arithmetic's own rounding.
func (s *Sweep) readingFloor(stations []station) float64 {
	largest := 0.0
	for i := range stations {
		largest = math.Max(largest, math.Abs(stations[i].height))
	}
	return math.Max(float64(s.Rounding), 1e-12*largest+1e-15)
}

// misreadSearch fits the sweep again and again, a reading left out or moved.
type misreadSearch struct {
	readings []SweepReading
	options  SweepOptions
	floor    float64
}

// singles leaves out each reading in turn, the closing one last, and returns
// those that the others contradict, the worst first.
func (m misreadSearch) singles() []Suspect {
	n, total := len(m.readings), len(m.readings)
	if m.options.Closing != nil {
		total++
	}
	var found []Suspect
	for i := 0; i < total; i++ {
		rest, options, at := m.without(i)
		suspect, ok := m.judge(i, n, rest, options, at, total)
		if ok {
			found = append(found, suspect)
		}
	}
	sort.SliceStable(found, func(i, j int) bool { return math.Abs(found[i].Ratio) > math.Abs(found[j].Ratio) })
	return found
}

// without returns the readings with reading i left out, and the reading itself.
// Without the closing reading, or the first, there is no drift to take out; and
// then the closing reading stands in for the first.
func (m misreadSearch) without(i int) (rest []SweepReading, options SweepOptions, at SweepReading) {
	options = m.options
	n := len(m.readings)
	switch {
	case i == n:
		options.Closing = nil
		return m.readings, options, SweepReading{Azimuth: m.readings[0].Azimuth, Reading: *m.options.Closing}
	case i == 0 && options.Closing != nil:
		rest = append(rest, m.readings...)
		rest[0].Reading = *options.Closing
		options.Closing = nil
		return rest, options, m.readings[0]
	}
	rest = append(rest, m.readings[:i]...)
	return append(rest, m.readings[i+1:]...), options, m.readings[i]
}

// judge compares a left-out reading with what the rest foretell, and reports
// whether the difference is beyond the limit.
func (m misreadSearch) judge(i, n int, rest []SweepReading, options SweepOptions, at SweepReading, total int) (Suspect, bool) {
	stations, _ := prepare(rest, options, nil)
	fit := fitPlane(stations)
	spare := fit.degreesOfFreedom()
	if spare < 1 || fit.weakest() < singularFit {
		return Suspect{}, false
	}
	sigma := math.Max(m.floor, math.Sqrt(fit.rss/float64(spare)))
	sin, cos := math.Sincos(float64(at.Azimuth))
	row := row5{1, cos, sin}
	b, half := fit.solve(), fit.half(row)
	factor, _ := m.options.Indicator.Factor()
	expected := dot5(b, row)
	if options.Closing != nil {
		// The drift so far belongs to the reading as it was shown.
		drift := factor * float64(*options.Closing-m.readings[0].Reading)
		expected += drift * float64(i) / float64(n)
	}
	expectedU := sigma * math.Sqrt(dot5(half, half))
	difference := factor*float64(at.Reading) - expected
	suspect := Suspect{
		First: i + 1, Last: i + 1, Shown: at.Reading,
		Expected: unit.Length(expected / factor), ExpectedU: unit.Length(expectedU / factor),
		Ratio: difference / math.Hypot(sigma, expectedU), Limit: twoSided(accuse/float64(total), float64(spare)),
		Tilt: Gradient{X: Slope(b[1] / float64(options.Radius)), Y: Slope(b[2] / float64(options.Radius))},
	}
	suspect.Likely = m.options.Indicator.slip(suspect)
	return suspect, math.Abs(suspect.Ratio) > suspect.Limit
}

// slip names what likely made the difference between shown and expected.
func (d Indicator) slip(s Suspect) Slip {
	slack := float64(d.Resolution()) + 4*float64(s.ExpectedU)
	shown, expected := float64(s.Shown), float64(s.Expected)
	like := func(value float64) bool { return math.Abs(expected-value) <= slack }
	marks := 10 * float64(d.Division)
	whole := func(step float64) bool {
		turns := math.Round((shown - expected) / step)
		return turns != 0 && like(shown-turns*step)
	}
	switch {
	case d.Turn > 0 && slack < float64(d.Turn)/4 && whole(float64(d.Turn)):
		return WholeTurn
	case math.Abs(shown) > 2*slack && like(-shown):
		return SignSlip
	case math.Abs(shown) > 2*slack && (like(shown/10) || math.Abs(expected) > 2*slack && math.Abs(expected-10*shown) <= slack):
		return PointSlip
	case marks > 0 && slack < marks/4 && whole(marks):
		return MarkSlip
	}
	return OddSlip
}

// runs looks for a run of neighbouring readings read on the wrong turn of the
// dial, as when the hand passes zero unseen and the count stays wrong for a
// while, perhaps to the closing reading. A single reading, too, may pass here
// when there are too few for the test by scatter. A run, and the rest of the sweep moved
// the other way, come to the same, so runs of up to half the readings are
// tried. A run is named only when moving it brings the residuals down to about
// the dial's step, and no other run does so with another tilt.
func (m misreadSearch) runs(rss float64) []Suspect {
	total := len(m.readings)
	if m.options.Closing != nil {
		total++
	}
	spare := float64(len(m.readings) - 3)
	accepted := 9 * spare * m.floor * m.floor
	if !(rss > 4*accepted) {
		return nil
	}
	var found []Suspect
	for first := 0; first < total; first++ {
		for last := first; last < total && last-first < total/2; last++ {
			for _, move := range []unit.Length{-m.options.Indicator.Turn, m.options.Indicator.Turn} {
				if suspect, left := m.moveRun(first, last, move); left <= accepted {
					suspect.Ratio, suspect.Limit = math.Sqrt(rss/spare)/m.floor, 3
					found = append(found, suspect)
				}
			}
		}
	}
	for i := range found {
		if found[i].Tilt.Minus(found[0].Tilt).Steepest() > Slope(m.floor/float64(m.options.Radius)) {
			return nil
		}
	}
	return found[:min(1, len(found))]
}

// moveRun moves the readings from first to last, the closing one counted as the
// last of all, and returns the run as a suspect with the residual sum of squares
// that remains.
func (m misreadSearch) moveRun(first, last int, move unit.Length) (Suspect, float64) {
	moved, options := append([]SweepReading(nil), m.readings...), m.options
	for i := first; i <= last && i < len(moved); i++ {
		moved[i].Reading += move
	}
	shown := options.Closing
	if last == len(moved) {
		closing := *options.Closing + move
		options.Closing = &closing
	}
	if first < len(moved) {
		shown = &m.readings[first].Reading
	}
	stations, _ := prepare(moved, options, nil)
	fit := fitPlane(stations)
	b, r := fit.solve(), float64(options.Radius)
	return Suspect{
		First: first + 1, Last: last + 1, Shown: *shown, Expected: *shown + move, Likely: WholeTurn,
		Tilt: Gradient{X: Slope(b[1] / r), Y: Slope(b[2] / r)},
	}, fit.rss
}
