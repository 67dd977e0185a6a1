package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// JawPoint is one reading of a dial run along a jaw, the table moving.
type JawPoint struct {
	// Place is where along the jaw the stylus stood, positive to the right.
	Place unit.Length
	// Reading is what the dial showed, positive when its stem was pushed in:
	// the jaw is nearer to the dial there.
	Reading unit.Length
}

// JawRun is what a run along a jaw says: a line, its turn to the travel, and
// how hollow the jaw is.
type JawRun struct {
	// Yaw is how far the jaw comes toward the dial for each length to the
	// right, the hollow taken out.
	Yaw MeasuredSlope
	// Hollow is how far the middle of the jaw stands back from the line through
	// its ends, positive when it is hollow, over Length.
	Hollow MeasuredLength
	// Length is the length read, from the first place to the last.
	Length unit.Length
	// Scatter is the standard deviation of one reading about the curve, Rounding
	// what the dial's step leaves; the larger counts.
	Scatter, Rounding unit.Length
	// DegreesOfFreedom are the readings beyond the three unknowns when the
	// scatter counts, +Inf when the rounding does.
	DegreesOfFreedom float64
	// Residuals are reading less curve, in the order given.
	Residuals []unit.Length

	zero, slope, curve, middle float64
}

// FitJawRun fits a line and a parabola to three or more readings along a jaw,
// read in the given step. The dial's zero does not matter. Readings must be
// finite and within 10 m, at three different places at least.
//
// The run sees the jaw against the travel of the table: a table travel that is
// itself curved looks like a hollow jaw.
func FitJawRun(points []JawPoint, step unit.Length) (JawRun, error) {
	if err := notNegative("reading step", step); err != nil {
		return JawRun{}, err
	}
	low, high, err := checkJaw(points)
	if err != nil {
		return JawRun{}, err
	}
	// Places count from the middle in half lengths, so that the three unknowns
	// weigh alike.
	middle, half := (low+high)/2, (high-low)/2
	fit := smallFit{unknowns: 3}
	for _, p := range points {
		fit.add(jawRow((float64(p.Place)-middle)/half), float64(p.Reading))
	}
	if fit.weakest() < 1e-6 {
		return JawRun{}, fmt.Errorf("squaring: the jaw was read at two places only: three are needed to tell its turn from its hollow")
	}
	b, c := fit.solve(), fit.covariance()
	j := JawRun{Length: unit.Length(high - low), Rounding: rounding(step), DegreesOfFreedom: math.Inf(1), Residuals: make([]unit.Length, len(points)),
		zero: b[0], slope: b[1] / half, curve: b[2] / (half * half), middle: middle}
	spare := fit.degreesOfFreedom()
	if spare > 0 {
		j.Scatter = unit.Length(math.Sqrt(fit.rss / float64(spare)))
	}
	reading := math.Max(float64(j.Scatter), float64(j.Rounding))
	if spare > 0 && j.Scatter >= j.Rounding {
		j.DegreesOfFreedom = float64(spare)
	}
	for i, p := range points {
		j.Residuals[i] = p.Reading - unit.Length(dot5(b, jawRow((float64(p.Place)-middle)/half)))
	}
	j.Yaw = MeasuredSlope{Slope: Slope(b[1] / half), Uncertainty: Slope(reading * math.Sqrt(c[1][1]) / half)}
	j.Hollow = MeasuredLength{Length: unit.Length(b[2]), Uncertainty: unit.Length(reading * math.Sqrt(c[2][2]))}
	return j, nil
}

// jawRow is the design row at a place in half lengths from the middle: zero,
// turn, hollow. The parabola is one at the ends and zero in the middle.
func jawRow(x float64) row5 { return row5{1, x, x * x} }

// checkJaw checks the points and returns the range of their places.
func checkJaw(points []JawPoint) (low, high float64, err error) {
	if len(points) < 3 {
		return 0, 0, fmt.Errorf("squaring: %d readings along the jaw, at least 3 are needed", len(points))
	}
	low, high = math.Inf(1), math.Inf(-1)
	for i, p := range points {
		if !(math.Abs(float64(p.Place)) <= float64(maxLength)) || !(math.Abs(float64(p.Reading)) <= float64(maxLength)) {
			return 0, 0, fmt.Errorf("squaring: reading %d along the jaw is %s at %s, both must be numbers within %s", i+1, millimetres(p.Reading), millimetres(p.Place), millimetres(maxLength))
		}
		low, high = math.Min(low, float64(p.Place)), math.Max(high, float64(p.Place))
	}
	if !(high > low) {
		return 0, 0, fmt.Errorf("squaring: the jaw was read at one place only, %s", millimetres(unit.Length(low)))
	}
	return low, high, nil
}

// Expect returns what the fitted curve says the dial shows at a place.
func (j JawRun) Expect(place unit.Length) unit.Length {
	x := float64(place) - j.middle
	return unit.Length(j.zero + j.slope*x + j.curve*x*x)
}

// SitsBack returns how far a part of the given length, held with its middle at
// the place, leaves the jaw's hollow open at its deepest: the part touches with
// its two ends.
//
//	gap = hollow (length of the part / length read)^2
//
// A part longer than what was read is taken at that length. On a jaw that is
// not hollow but crowned the part rocks on the crown, and the gap, at its ends,
// comes out negative.
func (j JawRun) SitsBack(part unit.Length) MeasuredLength {
	if j.Length <= 0 {
		return MeasuredLength{}
	}
	ratio := math.Min(1, math.Abs(float64(part/j.Length)))
	scale := unit.Length(ratio * ratio)
	return MeasuredLength{Length: j.Hollow.Length * scale, Uncertainty: j.Hollow.Uncertainty * scale}
}

// TapAt returns how far to tap the vise at the given distance from the bolt
// about which it turns, so that the run comes to nothing: positive means that
// the place must go away from the dial.
func (j JawRun) TapAt(distance unit.Length) MeasuredLength {
	return MeasuredLength{Length: j.Yaw.Slope.Rise(distance), Uncertainty: j.Yaw.Uncertainty.Rise(unit.Length(math.Abs(float64(distance))))}
}
