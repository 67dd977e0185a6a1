package squaring

// One adjustment of every reading. The machine is a few numbers and a few
// curves; each reading is a weighted sum of them plus its set-up's own zero. The
// sums, each divided by its reading's uncertainty, are one linear least-squares
// problem (survey_solve.go), whose answer says what is known, how well, what is
// not (survey_undetermined.go), which reading looks wrong (survey_suspect.go)
// and which to take next (survey_next.go).

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Survey is any mix of observations of one machine, and what was known before.
//
// The frame: slopes, heights and leans are counted from the table at the datum
// travel, since nothing in a machine shop says which way is up but the machine
// itself. Spindle tilt is therefore tilt against the table as it lies at the
// datum, knee lean likewise; a level tells how the table there lies to gravity.
// The table's plane is that of its top at its middle. Slopes of the motion and
// its height at the spindle are separate curves: a table may pitch without
// rising.
type Survey struct {
	Observations []Observation
	Priors       []Prior
}

// Prior is knowledge from elsewhere: what was left last year, a table maker's
// figure. It enters the adjustment as a reading and is shown as one, marked.
type Prior struct {
	// Name says where the knowledge comes from.
	Name string
	// Feature is what is known.
	Feature Feature
	// Value is its value in SI, metres or rise over run, and ValueU its
	// standard uncertainty, above zero.
	Value, ValueU float64
}

// SurveyOptions says how the curves are drawn and the readings judged. The zero
// value is the documented default.
type SurveyOptions struct {
	// Datum is the table travel at which heights and slopes are zero.
	Datum unit.Length
	// From and To widen the travel for which curves are drawn beyond the
	// readings, for features and candidates there. Equal values add nothing.
	From, To unit.Length
	// KnotStep is between the knots of the curves: zero means 60 mm.
	KnotStep unit.Length
	// HeightBend, SlopeBend and SidewaysBend say how smooth the curves are, as
	// standard deviations of how far the value at a place departs from the mean
	// of those 100 mm to either side. Zero means 3 um, 25 um/m and 3 um; a
	// negative value leaves the curve free. They enter as pseudo-observations,
	// one a knot, and are shown as such.
	HeightBend   unit.Length
	SlopeBend    Slope
	SidewaysBend unit.Length
	// TopForm says how flat the table's top is: the standard deviation of its
	// form 500 mm from the middle along x; that of its twist, and of its form
	// 100 mm from the middle along y, is three tenths of it. Zero means 10 um; a
	// negative value leaves the form free. It enters as pseudo-observations too.
	TopForm unit.Length
	// FalseAlarm is the chance that a sound reading is called suspect: zero
	// means 0.001. DetectionChance is that with which a detectable error is
	// found: zero means 0.80.
	FalseAlarm, DetectionChance float64
}

const (
	defaultKnotStep     = 0.060 // metres
	defaultHeightBend   = 3e-6  // metres
	defaultSlopeBend    = 25e-6 // rise over run
	defaultSidewaysBend = 3e-6  // metres
	defaultTopForm      = 10e-6 // metres
	topFormAcross       = 0.3   // of that along the table
	bendSpan            = 0.100 // metres: the span over which a bend is stated
	mostKnots           = 120   // on either side of the datum
	mostUnknowns        = 600
)

// defaults returns the options with every zero replaced, or an error naming the
// one that is wrong.
func (o SurveyOptions) defaults() (SurveyOptions, error) {
	for i, x := range []float64{float64(o.Datum), float64(o.From), float64(o.To), float64(o.HeightBend), float64(o.SlopeBend), float64(o.SidewaysBend), float64(o.TopForm)} {
		if err := finite([...]string{"datum travel", "travel from", "travel to", "bend of the height", "bend of the slopes", "bend of the sideways motion", "form of the top"}[i], x); err != nil {
			return o, err
		}
	}
	if o.KnotStep == 0 {
		o.KnotStep = defaultKnotStep
	}
	if err := positiveLength("step between knots", o.KnotStep); err != nil {
		return o, err
	}
	if o.HeightBend == 0 {
		o.HeightBend = defaultHeightBend
	}
	if o.SlopeBend == 0 {
		o.SlopeBend = defaultSlopeBend
	}
	if o.SidewaysBend == 0 {
		o.SidewaysBend = defaultSidewaysBend
	}
	if o.TopForm == 0 {
		o.TopForm = defaultTopForm
	}
	if o.FalseAlarm == 0 {
		o.FalseAlarm = 0.001
	}
	if o.DetectionChance == 0 {
		o.DetectionChance = 0.80
	}
	if !(o.FalseAlarm > 0 && o.FalseAlarm < 1) {
		return o, fmt.Errorf("squaring: chance of a false alarm is %g, must lie between 0 and 1", o.FalseAlarm)
	}
	if !(o.DetectionChance > 0 && o.DetectionChance < 1) {
		return o, fmt.Errorf("squaring: chance of detection is %g, must lie between 0 and 1", o.DetectionChance)
	}
	return o, nil
}

// equation is one reading, or one piece of prior knowledge, as a row.
type equation struct {
	of     string // the observation's title
	number int    // the reading's number within it, from 1
	where  string
	kind   SurveyKind
	prior  bool
	value  float64
	u      float64
	surveyRow
}

// surveyBuilder turns observations into equations, checking as it goes. The
// first error is kept.
type surveyBuilder struct {
	set       *unknowns
	equations []equation
	title     string // of the observation in hand
	number    int    // of the reading in hand
	err       error
}

// check keeps the error if it is the first, saying to which reading it belongs.
func (b *surveyBuilder) check(err error) {
	if err == nil || b.err != nil {
		return
	}
	where := b.title
	if b.number > 0 {
		where = fmt.Sprintf("%s, reading %d", b.title, b.number)
	}
	b.err = fmt.Errorf("squaring: %s: %w", where, err)
}

// length checks a length of the set-up that must be above zero.
func (b *surveyBuilder) length(what string, l unit.Length) {
	b.place(what, float64(l))
	if b.err == nil && l <= 0 {
		b.check(fmt.Errorf("%s is %s, must be above zero", what, millimetres(l)))
	}
}

// place checks a place of the set-up: finite and within a hundred metres.
func (b *surveyBuilder) place(what string, x float64) {
	if math.IsNaN(x) || math.Abs(x) > 100 {
		b.check(fmt.Errorf("%s is %g m, must lie within 100 m", what, x))
	}
}

// reading begins the next reading; add and curve then say what it sees.
func (b *surveyBuilder) reading(kind SurveyKind, where string, value, u float64) {
	b.number++
	b.equations = append(b.equations, equation{of: b.title, number: b.number, where: where, kind: kind, value: value, u: u,
		surveyRow: surveyRow{set: b.set}})
	if math.IsNaN(value) || math.Abs(value) > 1e3 {
		b.check(fmt.Errorf("the value %s is %g in SI units, must be finite and within 1000", where, value))
	}
	if !(u >= 1e-12 && u <= 1e3) {
		b.check(fmt.Errorf("the standard uncertainty is %g in SI units, must lie between 1e-12 and 1000", u))
	}
}

func (b *surveyBuilder) last() *surveyRow { return &b.equations[len(b.equations)-1].surveyRow }

func (b *surveyBuilder) add(key unknown, weight float64) {
	if math.IsNaN(weight) || math.IsInf(weight, 0) {
		b.check(fmt.Errorf("%s is seen with weight %g: a place or an angle is not a finite number", key.name(), weight))
		return
	}
	b.last().add(key, weight)
}

func (b *surveyBuilder) curve(f family, epoch string, x, weight float64) {
	b.last().curve(f, epoch, x, weight)
	b.check(b.last().err)
}

func (b *surveyBuilder) top(epoch string, x, y, tx, ty, weight float64) {
	b.last().top(epoch, x, y, tx, ty, weight)
	b.check(b.last().err)
}

func (b *surveyBuilder) formSlope(axis SurveyAxis, u, v, weight float64) {
	b.last().formSlope(axis, u, v, weight)
}

// observe adds every observation's equations.
func (b *surveyBuilder) observe(observations []Observation) {
	b.set.learnBars(observations)
	for i, observation := range observations {
		if observation == nil {
			b.title, b.number = fmt.Sprintf("observation %d", i+1), 0
			b.check(fmt.Errorf("there is none"))
			return
		}
		setup, kind := observation.setup()
		b.title, b.number = fmt.Sprintf("%s %s", kind, quoteOr(setup.Name, fmt.Sprint(i+1))), 0
		before := len(b.equations)
		observation.observe(b)
		if b.err != nil {
			return
		}
		if len(b.equations) == before {
			b.check(fmt.Errorf("it has no readings"))
			return
		}
		for e := range b.equations[before:] {
			row := &b.equations[before+e]
			b.number = row.number
			b.check(row.tidy())
		}
		if b.err != nil {
			return
		}
	}
}

// learnBars notes the end stations of bars not met before.
func (s *unknowns) learnBars(observations []Observation) {
	ends := map[string][2]int64{}
	for bar, known := range s.barEnds {
		ends[bar] = known
	}
	for _, observation := range observations {
		o, ok := observation.(ObservedBar)
		if !ok {
			continue
		}
		bar := quoteOr(o.Bar, "the bar")
		if _, known := s.barEnds[bar]; known {
			continue
		}
		for _, reading := range o.Readings {
			station := micrometresOf(-float64(reading.X))
			pair, met := ends[bar]
			if !met {
				pair = [2]int64{station, station}
			}
			ends[bar] = [2]int64{min(pair[0], station), max(pair[1], station)}
		}
	}
	s.barEnds = ends
}

// knotsFor returns the knots that cover every travel seen, the range asked for
// and the datum with a knot on either side.
func knotsFor(observations []Observation, o SurveyOptions) (knots, error) {
	k := knots{datum: float64(o.Datum), step: float64(o.KnotStep), first: -1, last: 1}
	cover := func(x float64, what string) error {
		s := (x - k.datum) / k.step
		if math.IsNaN(s) || math.Abs(s) > mostKnots {
			return fmt.Errorf("squaring: %s: travel X = %s is not finite or is more than %d knots of %s from the datum",
				what, millimetres(unit.Length(x)), mostKnots, millimetres(o.KnotStep))
		}
		k.first = min(k.first, int(math.Floor(s+1e-9)))
		k.last = max(k.last, int(math.Ceil(s-1e-9)))
		return nil
	}
	if o.From != o.To {
		for _, x := range []unit.Length{o.From, o.To} {
			if err := cover(float64(x), "travel asked for"); err != nil {
				return k, err
			}
		}
	}
	for i, observation := range observations {
		if observation == nil {
			continue
		}
		setup, kind := observation.setup()
		for r, x := range observation.travels() {
			if err := cover(x, fmt.Sprintf("%s %s, reading %d", kind, quoteOr(setup.Name, fmt.Sprint(i+1)), r+1)); err != nil {
				return k, err
			}
		}
	}
	return k, nil
}

// smooth adds the smoothness of every curve and the flatness of the top, where
// they have been met, as pseudo-observations. For a curve the
// second difference at each inner knot is zero, with a standard deviation that
// grows with the step as that of a wandering slope does, step^1.5.
func (b *surveyBuilder) smooth(o SurveyOptions) {
	scale := 2 * math.Pow(float64(o.KnotStep)/bendSpan, 1.5)
	bends := map[family]float64{heightCurve: float64(o.HeightBend), slopeXCurve: float64(o.SlopeBend),
		slopeYCurve: float64(o.SlopeBend), sidewaysCurve: float64(o.SidewaysBend)}
	met := map[unknown]bool{}
	for i := range b.set.keys {
		key := b.set.keys[i]
		if key.family >= formU && key.family <= formV && o.TopForm > 0 {
			u := float64(o.TopForm)
			if key.family != formU {
				u *= topFormAcross
			}
			b.title, b.number = "flatness of the table top", 0
			b.reading(LengthValue, key.name(), 0, u)
			b.equations[len(b.equations)-1].prior = true
			b.add(key, 1)
		}
		curve := unknown{family: key.family, of: key.of}
		if !key.family.isCurve() || met[curve] || !(bends[key.family] > 0) {
			continue
		}
		met[curve] = true
		b.smoothCurve(curve, bends[key.family]*scale)
	}
}

func (b *surveyBuilder) smoothCurve(curve unknown, u float64) {
	k := b.set.knots
	b.title, b.number = "smoothness of "+curve.group(), 0
	for i := k.first + 1; i < k.last; i++ {
		b.reading(familyFacts[curve.family].kind, "about X = "+placeText(micrometresOf(k.at(i))), 0, u)
		b.equations[len(b.equations)-1].prior = true
		for j, w := range []float64{1, -2, 1} {
			if knot := i - 1 + j; !pinned(curve.family, knot) {
				b.add(k.key(curve.family, curve.of, knot), w)
			}
		}
	}
}

// prior adds the pieces of prior knowledge.
func (b *surveyBuilder) prior(priors []Prior) {
	for i, prior := range priors {
		b.title, b.number = "prior knowledge "+quoteOr(prior.Name, fmt.Sprint(i+1)), 0
		b.reading(prior.Feature.Kind, prior.Feature.Name, prior.Value, prior.ValueU)
		b.equations[len(b.equations)-1].prior = true
		b.check(prior.Feature.into(b.last()))
	}
}

// Adjust solves for everything that the readings and priors can tell. Every
// reading must be finite with an uncertainty above zero; the travel may reach
// over 120 knots on either side of the datum, and the unknowns may be 600 in
// all. Errors name the observation and the reading by number. Readings that leave parts of the
// machine undetermined are no error: see [Adjustment.Undetermined].
func (s Survey) Adjust(options SurveyOptions) (*Adjustment, error) {
	options, err := options.defaults()
	if err != nil {
		return nil, err
	}
	if len(s.Observations)+len(s.Priors) == 0 {
		return nil, fmt.Errorf("squaring: a survey of no readings cannot be adjusted")
	}
	k, err := knotsFor(s.Observations, options)
	if err != nil {
		return nil, err
	}
	b := surveyBuilder{set: &unknowns{knots: k}}
	b.observe(s.Observations)
	b.prior(s.Priors)
	b.smooth(options)
	if b.err != nil {
		return nil, b.err
	}
	if n := b.set.len(); n > mostUnknowns {
		return nil, fmt.Errorf("squaring: the survey has %d unknowns, at most %d can be solved: set a wider step between knots than %s", n, mostUnknowns, millimetres(options.KnotStep))
	}
	return solveSurvey(b.set, b.equations, options)
}
