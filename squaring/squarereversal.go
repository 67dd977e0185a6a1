package squaring

// A square stood on the table and run past a dial shows the lean of the travel
// and its own error together. Turned end for end about the upright, its error
// changes sign and the travel's does not:
//
//	reading = zero + (lean + error) height        as marked
//	reading = zero' + (lean - error) height       turned
//
// All readings of both positions are fitted together by least squares, with a
// zero for each position. The same algebra holds for a straight edge, an angle
// plate, or a block held against a jaw and turned over.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// EdgeReading is one reading of a dial along the edge of a square.
type EdgeReading struct {
	// Height is how far the knee has risen past the dial, which stays.
	Height unit.Length
	// Reading is what the dial showed, positive when its stem was pushed in.
	Reading unit.Length
	// Turned says that the square was turned end for end.
	Turned bool
}

// SquareReversal is what a square turned round says.
type SquareReversal struct {
	// Lean is how far the table moves toward the dial for each length it rises,
	// against the square to its top: with the dial on the right of the blade,
	// or at the back of it, the X or Y of [Hole.KneeLean].
	Lean MeasuredSlope
	// Square is what the square's own error, as marked, adds to the reading for
	// each length risen. The dial goes down the edge as the knee rises, so a
	// positive error is an edge that leans away from the dial toward its top.
	Square MeasuredSlope
	// Scatter is the standard deviation of one reading about the two lines,
	// Rounding what the dial's step leaves in one; the larger counts.
	Scatter, Rounding unit.Length
	// DegreesOfFreedom are the readings beyond the four unknowns when the
	// scatter counts, +Inf when the rounding does.
	DegreesOfFreedom float64
	// Bow is how far the middle of the edge stands out of the line through its
	// ends, averaged over both positions: of square and travel together, since
	// turning end for end does not tell them apart. It is zero with fewer than
	// three heights.
	Bow MeasuredLength
}

// MeasuredLength is a length with its standard uncertainty.
type MeasuredLength struct {
	// Length is the best estimate and Uncertainty its standard uncertainty.
	Length, Uncertainty unit.Length
}

// ReverseSquare fits both positions. Each must hold at least two different
// heights. Readings must be finite, and within 10 m; the step must not be
// negative. A dial's gain is taken out beforehand with [Indicator.True].
func ReverseSquare(readings []EdgeReading, step unit.Length) (SquareReversal, error) {
	if err := notNegative("reading step", step); err != nil {
		return SquareReversal{}, err
	}
	middle, err := checkEdge(readings)
	if err != nil {
		return SquareReversal{}, err
	}
	fit, bowed := smallFit{unknowns: 4}, smallFit{unknowns: 5}
	for _, r := range readings {
		row := edgeRow(r, middle)
		fit.add(row, float64(r.Reading))
		bowed.add(row, float64(r.Reading))
	}
	if fit.weakest() < 1e-6 {
		return SquareReversal{}, fmt.Errorf("squaring: the square was read at one height only in a position: read it at two, far apart")
	}
	b, c := fit.solve(), fit.covariance()
	s := SquareReversal{Rounding: rounding(step), DegreesOfFreedom: math.Inf(1)}
	spare := fit.degreesOfFreedom()
	if spare > 0 {
		s.Scatter = unit.Length(math.Sqrt(fit.rss / float64(spare)))
	}
	reading := math.Max(float64(s.Scatter), float64(s.Rounding))
	if spare > 0 && s.Scatter >= s.Rounding {
		s.DegreesOfFreedom = float64(spare)
	}
	s.Lean = MeasuredSlope{Slope: Slope(b[2]), Uncertainty: Slope(reading * math.Sqrt(c[2][2]))}
	s.Square = MeasuredSlope{Slope: Slope(b[3]), Uncertainty: Slope(reading * math.Sqrt(c[3][3]))}
	s.Bow = edgeBow(bowed, readings, float64(s.Rounding))
	return s, nil
}

// checkEdge checks the readings and returns the middle of their heights.
func checkEdge(readings []EdgeReading) (middle float64, err error) {
	if len(readings) < 4 {
		return 0, fmt.Errorf("squaring: %d readings of the square, at least 4 are needed: two heights in each position", len(readings))
	}
	low, high := math.Inf(1), math.Inf(-1)
	positions := [2]int{}
	for i, r := range readings {
		if !(math.Abs(float64(r.Height)) <= float64(maxLength)) || !(math.Abs(float64(r.Reading)) <= float64(maxLength)) {
			return 0, fmt.Errorf("squaring: reading %d of the square is %s at %s, both must be numbers within %s", i+1, millimetres(r.Reading), millimetres(r.Height), millimetres(maxLength))
		}
		low, high = math.Min(low, float64(r.Height)), math.Max(high, float64(r.Height))
		if r.Turned {
			positions[1]++
		} else {
			positions[0]++
		}
	}
	if positions[0] < 2 || positions[1] < 2 {
		return 0, fmt.Errorf("squaring: the square has %d readings as marked and %d turned, at least 2 of each are needed: turn it end for end", positions[0], positions[1])
	}
	if !(high > low) {
		return 0, fmt.Errorf("squaring: the square was read at one height only, %s: read it at two, far apart", millimetres(unit.Length(low)))
	}
	return (low + high) / 2, nil
}

// edgeRow is the design row of a reading: the two zeros, lean, square, bow.
// Heights count from the middle of the range, so that the zeros do not pull.
func edgeRow(r EdgeReading, middle float64) row5 {
	h := float64(r.Height) - middle
	if r.Turned {
		return row5{0, 1, h, -h, h * h}
	}
	return row5{1, 0, h, h, h * h}
}

// edgeBow turns the fitted curvature into the height of the middle over the
// chord: minus the curvature times the square of half the length read.
func edgeBow(fit smallFit, readings []EdgeReading, rounded float64) MeasuredLength {
	if fit.degreesOfFreedom() == 0 || fit.weakest() < 1e-6 {
		return MeasuredLength{}
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range readings {
		low, high = math.Min(low, float64(r.Height)), math.Max(high, float64(r.Height))
	}
	half := (high - low) / 2
	b, c := fit.solve(), fit.covariance()
	reading := math.Max(rounded, math.Sqrt(fit.rss/float64(fit.degreesOfFreedom())))
	return MeasuredLength{Length: unit.Length(-b[4] * half * half), Uncertainty: unit.Length(reading * math.Sqrt(c[4][4]) * half * half)}
}
