package squaring

// What can be observed on a knee mill, and what each reading is in terms of the
// machine's unknowns. Each kind of observation brings its own unknowns where
// the set-up has some: the zero of a dial, the mismatch of a two-dial gauge,
// the shape of a bar, the error of a square.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Setup says under what name, when, and with which head setting an observation
// was made.
type Setup struct {
	// Name is what the person calls the observation; messages and results use
	// it. Two observations of one kind and one name are one set-up and share
	// its zero. An empty name becomes the observation's number.
	Name string
	// Epoch names the state of ways, knee and feet: the date of a survey. Each
	// epoch has its own motion, lean and squareness. Empty is an epoch too.
	Epoch string
	// Head names the setting of the head: "found", "left". Each has its own
	// spindle tilt.
	Head string
}

// Observation is one set of readings: an [ObservedSweep], [ObservedTilt],
// [ObservedTwoDial], [ObservedRun], [ObservedLevel], [ObservedBar],
// [ObservedSkim], [ObservedJaw], [ObservedKnee] or [ObservedDiagonals].
type Observation interface {
	// setup returns the set-up and the kind of observation in a word or two.
	setup() (setup Setup, kind string)
	// travels returns the table travels that the readings see, in metres.
	travels() []float64
	// observe adds the readings to the survey.
	observe(b *surveyBuilder)
}

// ObservedSweep is a dial swung round by the spindle. Each reading sees the
// table's top above the plane square to the spindle, and the dial's zero, in
// which the table's height there is lost. Correct the readings for the dial's gain first (see [Indicator]).
type ObservedSweep struct {
	Setup
	// X and Y are the travels of table and saddle.
	X, Y unit.Length
	// Radius is from the spindle's axis to the stylus, above zero.
	Radius unit.Length
	// Readings are in the order in which they were taken; a closing reading,
	// back at the first azimuth, is one more.
	Readings []SweepReading
	// Drift asks for a drift in proportion to the order of the readings. It
	// takes a closing reading to tell it well.
	Drift bool
	// ReadingU is the standard uncertainty of one reading, above zero.
	ReadingU unit.Length
}

// ObservedTilt is the result of a sweep worked out before: table slope minus
// spindle tilt, the top's form included.
type ObservedTilt struct {
	Setup
	// X and Y are the travels of table and saddle.
	X, Y unit.Length
	// Tilt is table slope minus spindle tilt and TiltU the standard
	// uncertainties, above zero.
	Tilt, TiltU Gradient
}

// TwoDialReading is one stand of a two-dial gauge.
type TwoDialReading struct {
	// Azimuth is where the second dial stood, seen from the spindle.
	Azimuth unit.Angle
	// Difference is second dial minus first.
	Difference unit.Length
}

// ObservedTwoDial is a gauge of two dials on a bar in the spindle, turned. Each
// difference sees table slope minus spindle tilt over the span, plus the
// mismatch of the dials' zeros. Two stands half a turn apart tell the two
// apart.
type ObservedTwoDial struct {
	Setup
	// Gauge names the gauge whose mismatch it is; observations with the same
	// gauge share it. Empty means a mismatch of its own.
	Gauge string
	// X and Y are the travels of table and saddle.
	X, Y unit.Length
	// Span is between the dials' styli, above zero.
	Span unit.Length
	// Readings are the stands.
	Readings []TwoDialReading
	// ReadingU is the standard uncertainty of one difference, above zero.
	ReadingU unit.Length
}

// TravelReading is a reading at a travel of the table.
type TravelReading struct {
	// X is the table's travel, positive to the right.
	X unit.Length
	// Reading is what the dial showed, positive when its stem was pushed in.
	Reading unit.Length
}

// ObservedRun is the table run under a dial that stands still: height of the
// motion at the spindle, the top's form there, and the dial's zero. It never
// sees the head.
type ObservedRun struct {
	Setup
	// Track is how far behind the table's middle line the dial touches.
	Track unit.Length
	// Readings are along the travel.
	Readings []TravelReading
	// FreeRamp says that the dial ran on a plate or parallel whose wedge is not
	// known, so that the run tells the curve but not its ramp, and nothing of
	// the top's form.
	FreeRamp bool
	// ReadingU is the standard uncertainty of one reading, above zero.
	ReadingU unit.Length
}

// LevelReading is one reading of a level on the table.
type LevelReading struct {
	// X is the table's travel.
	X unit.Length
	// Axis is the direction in which the level lies.
	Axis SurveyAxis
	// Reversed says that the level was turned end for end.
	Reversed bool
	// Reading is positive when the end is high that is to the right, or to the
	// back, before it is reversed.
	Reading Slope
}

// ObservedLevel is a level that stays at one place of the table while the table
// travels: table slope plus the machine's lean to level plus the level's zero,
// which a reversal tells apart.
type ObservedLevel struct {
	Setup
	// Gauge names the level whose zero it is; observations with the same gauge
	// share it. Empty means a zero of its own.
	Gauge string
	// AtU and AtV are where on the table the level stands, to the right and to
	// the back of its middle.
	AtU, AtV unit.Length
	// Readings are the stations.
	Readings []LevelReading
	// ReadingU is the standard uncertainty of one reading, above zero.
	ReadingU Slope
}

// ObservedBar is a bar on two blocks on the table, run under a dial: motion
// plus the bar's shape plus a zero and a ramp. Rolled about its length, the
// marked edge is below with the dial under it, and the motion changes sign.
type ObservedBar struct {
	Setup
	// Bar names the bar; observations with the same bar share its shape, which
	// is counted from the line through its two end stations.
	Bar string
	// Down says that the marked edge is below and the dial touches it from
	// below.
	Down bool
	// Readings are along the travel; the station on the bar is -X.
	Readings []TravelReading
	// ReadingU is the standard uncertainty of one reading, above zero.
	ReadingU unit.Length
}

// SkimReading is the thickness of a skimmed bar at a place.
type SkimReading struct {
	// U is the place along the bar, to the right of the table's middle.
	U unit.Length
	// Thickness is by micrometer.
	Thickness unit.Length
}

// ObservedSkim is a bar skimmed in one setting in line with x: its thickness is
// a constant less the height of the motion, and a wedge. It is thick where the
// ways are worn.
type ObservedSkim struct {
	Setup
	// Readings are along the bar.
	Readings []SkimReading
	// ReadingU is the standard uncertainty of one thickness, above zero.
	ReadingU unit.Length
}

// JawReading is a reading at a place of a vise's jaw.
type JawReading struct {
	// Along is the place on the jaw, to the right of its middle.
	Along unit.Length
	// Reading is what the dial showed, positive when its stem was pushed in.
	Reading unit.Length
}

// ObservedJaw is a vise's fixed jaw run under a dial that points to the column:
// the jaw's angle to the travel, its hollow, the table's sideways motion (which
// takes the jaw away from the dial) and the dial's zero.
type ObservedJaw struct {
	Setup
	// Jaw names the jaw and its setting: observations with the same jaw share
	// angle and hollow.
	Jaw string
	// Middle is the jaw's middle, to the right of the table's.
	Middle unit.Length
	// Width is the jaw's width, above zero: the hollow is that over the width.
	Width unit.Length
	// Readings are along the jaw.
	Readings []JawReading
	// ReadingU is the standard uncertainty of one reading, above zero.
	ReadingU unit.Length
}

// KneeReading is a reading at a height of the knee.
type KneeReading struct {
	// Z is how far the knee was raised.
	Z unit.Length
	// Reading is positive when the blade has moved to the right, or the back,
	// where the dial is.
	Reading unit.Length
}

// ObservedKnee is a square standing on the table with a dial on its blade while
// the knee is raised: knee lean against the table, plus or minus the square's
// own error, plus the dial's zero.
type ObservedKnee struct {
	Setup
	// Square names the square; observations with the same square share its
	// error, positive when the blade as marked leans away from the dial toward
	// its top.
	Square string
	// Axis is the direction in which the dial feels.
	Axis SurveyAxis
	// Turned says that the square was turned end for end, the dial on its other
	// edge.
	Turned bool
	// X is the table's travel.
	X unit.Length
	// Readings are up the knee.
	Readings []KneeReading
	// ReadingU is the standard uncertainty of one reading, above zero.
	ReadingU unit.Length
}

// ObservedDiagonals is a rectangle of four holes stepped off on the dials, with
// both diagonals measured. What sideways motion and yaw of the table do between
// the holes counts as squareness.
type ObservedDiagonals struct {
	Setup
	// A and B are the commanded sides along x and y, above zero.
	A, B unit.Length
	// Rising is the diagonal from lower left to upper right, Falling that from
	// lower right to upper left.
	Rising, Falling unit.Length
	// ReadingU is the standard uncertainty of one diagonal, above zero. An error
	// of the rule or of the screws that both share does no harm.
	ReadingU unit.Length
}

func (o ObservedSweep) setup() (Setup, string)     { return o.Setup, "sweep" }
func (o ObservedTilt) setup() (Setup, string)      { return o.Setup, "tilt" }
func (o ObservedTwoDial) setup() (Setup, string)   { return o.Setup, "two-dial gauge" }
func (o ObservedRun) setup() (Setup, string)       { return o.Setup, "table run" }
func (o ObservedLevel) setup() (Setup, string)     { return o.Setup, "level" }
func (o ObservedBar) setup() (Setup, string)       { return o.Setup, "ground bar" }
func (o ObservedSkim) setup() (Setup, string)      { return o.Setup, "skimmed bar" }
func (o ObservedJaw) setup() (Setup, string)       { return o.Setup, "jaw run" }
func (o ObservedKnee) setup() (Setup, string)      { return o.Setup, "square on the knee" }
func (o ObservedDiagonals) setup() (Setup, string) { return o.Setup, "hole diagonals" }

func (o ObservedSweep) travels() []float64   { return []float64{float64(o.X)} }
func (o ObservedTilt) travels() []float64    { return []float64{float64(o.X)} }
func (o ObservedTwoDial) travels() []float64 { return []float64{float64(o.X)} }
func (o ObservedRun) travels() []float64     { return travelsOf(o.Readings) }
func (o ObservedBar) travels() []float64     { return travelsOf(o.Readings) }
func (o ObservedKnee) travels() []float64    { return []float64{float64(o.X)} }
func (ObservedDiagonals) travels() []float64 { return nil }

func (o ObservedLevel) travels() []float64 {
	x := make([]float64, len(o.Readings))
	for i, r := range o.Readings {
		x[i] = float64(r.X)
	}
	return x
}

func (o ObservedSkim) travels() []float64 {
	x := make([]float64, len(o.Readings))
	for i, r := range o.Readings {
		x[i] = -float64(r.U)
	}
	return x
}

func (o ObservedJaw) travels() []float64 {
	x := make([]float64, len(o.Readings))
	for i, r := range o.Readings {
		x[i] = -float64(o.Middle + r.Along)
	}
	return x
}

func travelsOf(readings []TravelReading) []float64 {
	x := make([]float64, len(readings))
	for i, r := range readings {
		x[i] = float64(r.X)
	}
	return x
}

// cosSin returns cosine and sine of an azimuth, nought where they are rounding:
// a stylus at 180 degrees sees nothing along y.
func cosSin(azimuth unit.Angle) (cos, sin float64) {
	sin, cos = math.Sincos(float64(azimuth))
	if math.Abs(sin) < 1e-12 {
		sin = 0
	}
	if math.Abs(cos) < 1e-12 {
		cos = 0
	}
	return cos, sin
}

// observe adds one reading for each azimuth.
func (o ObservedSweep) observe(b *surveyBuilder) {
	b.length("radius", o.Radius)
	b.place("travel Y", float64(o.Y))
	x, y, r := float64(o.X), float64(o.Y), float64(o.Radius)
	for i, reading := range o.Readings {
		cos, sin := cosSin(reading.Azimuth)
		b.reading(LengthValue, fmt.Sprintf("at %.4g deg", float64(reading.Azimuth/Degree)), float64(reading.Reading), float64(o.ReadingU))
		b.top(o.Epoch, r*cos, r*sin, x, y, 1)
		b.add(unknown{family: tiltX, of: o.Head}, -r*cos)
		b.add(unknown{family: tiltY, of: o.Head}, -r*sin)
		b.add(unknown{family: zeroOf, of: b.title}, 1)
		if o.Drift && len(o.Readings) > 1 {
			b.add(unknown{family: driftOf, of: b.title}, float64(i)/float64(len(o.Readings)-1))
		}
	}
}

// observe adds the slopes along x and along y.
func (o ObservedTilt) observe(b *surveyBuilder) {
	b.place("travel Y", float64(o.Y))
	values, us := []Slope{o.Tilt.X, o.Tilt.Y}, []Slope{o.TiltU.X, o.TiltU.Y}
	for i, axis := range []SurveyAxis{AlongX, AlongY} {
		b.reading(SlopeValue, []string{"along x", "along y"}[i], float64(values[i]), float64(us[i]))
		b.curve(axis.pick(slopeXCurve), o.Epoch, float64(o.X), 1)
		b.formSlope(axis, -float64(o.X), -float64(o.Y), 1)
		b.add(unknown{family: axis.pick(tiltX), of: o.Head}, -1)
	}
}

// observe adds one difference for each stand.
func (o ObservedTwoDial) observe(b *surveyBuilder) {
	b.length("span", o.Span)
	b.place("travel Y", float64(o.Y))
	for _, reading := range o.Readings {
		cos, sin := cosSin(reading.Azimuth)
		dx, dy := float64(o.Span)*cos, float64(o.Span)*sin
		b.reading(LengthValue, fmt.Sprintf("at %.4g deg", float64(reading.Azimuth/Degree)), float64(reading.Difference), float64(o.ReadingU))
		b.top(o.Epoch, dx/2, dy/2, float64(o.X), float64(o.Y), 1)
		b.top(o.Epoch, -dx/2, -dy/2, float64(o.X), float64(o.Y), -1)
		b.add(unknown{family: tiltX, of: o.Head}, -dx)
		b.add(unknown{family: tiltY, of: o.Head}, -dy)
		b.add(unknown{family: mismatchOf, of: quoteOr(o.Gauge, b.title)}, 1)
	}
}

// observe adds one reading for each place of the run.
func (o ObservedRun) observe(b *surveyBuilder) {
	b.place("track", float64(o.Track))
	for _, reading := range o.Readings {
		x, v := float64(reading.X), float64(o.Track)
		b.reading(LengthValue, "at X = "+millimetres(reading.X), float64(reading.Reading), float64(o.ReadingU))
		b.add(unknown{family: zeroOf, of: b.title}, 1)
		b.curve(heightCurve, o.Epoch, x, 1)
		if o.FreeRamp {
			b.curve(slopeYCurve, o.Epoch, x, v)
			b.add(unknown{family: rampOf, of: b.title}, x)
			continue
		}
		b.top(o.Epoch, 0, 0, x, -v, 1)
	}
}

// observe adds one reading for each station, way round and direction.
func (o ObservedLevel) observe(b *surveyBuilder) {
	b.place("place along the table", float64(o.AtU))
	b.place("place across the table", float64(o.AtV))
	for _, reading := range o.Readings {
		sign := 1.0
		where := []string{"along x", "along y"}[min(max(int(reading.Axis), 0), 1)] + " at X = " + millimetres(reading.X)
		if reading.Reversed {
			sign, where = -1, where+", reversed"
		}
		b.reading(SlopeValue, where, float64(reading.Reading), float64(o.ReadingU))
		b.check(reading.Axis.valid())
		b.curve(reading.Axis.pick(slopeXCurve), o.Epoch, float64(reading.X), sign)
		b.formSlope(reading.Axis, float64(o.AtU), float64(o.AtV), sign)
		b.add(unknown{family: reading.Axis.pick(levelX), of: o.Epoch}, sign)
		b.add(unknown{family: levelZeroOf, of: quoteOr(o.Gauge, b.title)}, 1)
	}
}

// observe adds one reading for each station of the bar.
func (o ObservedBar) observe(b *surveyBuilder) {
	sign := 1.0
	if o.Down {
		sign = -1
	}
	bar := quoteOr(o.Bar, "the bar")
	ends := b.set.barEnds[bar]
	for _, reading := range o.Readings {
		b.reading(LengthValue, "at X = "+millimetres(reading.X), float64(reading.Reading), float64(o.ReadingU))
		b.curve(heightCurve, o.Epoch, float64(reading.X), sign)
		b.add(unknown{family: zeroOf, of: b.title}, 1)
		b.add(unknown{family: rampOf, of: b.title}, float64(reading.X))
		if station := micrometresOf(-float64(reading.X)); station != ends[0] && station != ends[1] {
			b.add(unknown{barShapeOf, bar, station}, 1)
		}
	}
}

// observe adds one thickness for each place.
func (o ObservedSkim) observe(b *surveyBuilder) {
	for _, reading := range o.Readings {
		x := -float64(reading.U)
		b.reading(LengthValue, "at u = "+millimetres(reading.U), float64(reading.Thickness), float64(o.ReadingU))
		b.curve(heightCurve, o.Epoch, x, -1)
		b.add(unknown{family: zeroOf, of: b.title}, 1)
		b.add(unknown{family: rampOf, of: b.title}, x)
	}
}

// observe adds one reading for each place on the jaw.
func (o ObservedJaw) observe(b *surveyBuilder) {
	b.place("middle of the jaw", float64(o.Middle))
	b.length("width of the jaw", o.Width)
	jaw := quoteOr(o.Jaw, b.title)
	for _, reading := range o.Readings {
		w, half := float64(reading.Along), float64(o.Width)/2
		b.reading(LengthValue, "at "+millimetres(reading.Along), float64(reading.Reading), float64(o.ReadingU))
		b.curve(sidewaysCurve, o.Epoch, -float64(o.Middle)-w, -1)
		b.add(unknown{family: jawAngleOf, of: jaw}, w)
		b.add(unknown{family: jawHollowOf, of: jaw}, w*w/(half*half))
		b.add(unknown{family: zeroOf, of: b.title}, 1)
	}
}

// observe adds one reading for each height of the knee.
func (o ObservedKnee) observe(b *surveyBuilder) {
	b.check(o.Axis.valid())
	sign := 1.0
	if o.Turned {
		sign = -1
	}
	for _, reading := range o.Readings {
		z := float64(reading.Z)
		b.reading(LengthValue, "at Z = "+millimetres(reading.Z), float64(reading.Reading), float64(o.ReadingU))
		b.add(unknown{family: o.Axis.pick(kneeX), of: o.Epoch}, z)
		b.curve(o.Axis.pick(slopeXCurve), o.Epoch, float64(o.X), z)
		b.add(unknown{family: squareErrorOf, of: quoteOr(o.Square, "the square")}, sign*z)
		b.add(unknown{family: zeroOf, of: b.title}, 1)
	}
}

// observe adds the two diagonals, each less the diagonal that was asked: with C
// the squareness they differ from it by -+ab C/d and a common error.
func (o ObservedDiagonals) observe(b *surveyBuilder) {
	b.length("side along x", o.A)
	b.length("side along y", o.B)
	a, s := float64(o.A), float64(o.B)
	d := math.Hypot(a, s)
	for i, diagonal := range []unit.Length{o.Rising, o.Falling} {
		b.reading(LengthValue, []string{"rising", "falling"}[i], float64(diagonal)-d, float64(o.ReadingU))
		b.add(unknown{family: squareXY, of: o.Epoch}, []float64{-1, 1}[i]*a*s/d)
		b.add(unknown{family: commonOf, of: b.title}, 1)
	}
}
