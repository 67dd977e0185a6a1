package squaring

// Standards that prove themselves by closure. The corners of a polygon sum to a
// known whole, so a reference angle that is compared with every corner need not
// be known; three squares compared two by two give all three. Neither finds a
// corner or a square mistaken for another: that takes a second round.
//
// Source of the principle: C. J. Evans, R. J. Hocken and W. T. Estler,
// Self-calibration: reversal, redundancy, error separation and absolute
// testing, CIRP Annals 45/2 (1996), from memory; the relations are derived here.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/unit"
)

// MeasuredAngle is an angle with its standard uncertainty.
type MeasuredAngle struct {
	Angle, Uncertainty unit.Angle
}

// Polygon is what comparing every corner of a polygon with one angle says.
type Polygon struct {
	// Reference is the reference angle less an even corner of the polygon, 90
	// degrees for four.
	Reference MeasuredAngle
	// Corners are how much larger each interior corner is than an even one.
	// They sum to zero.
	Corners []MeasuredAngle
	// Scatter is the standard deviation of one reading between rounds, zero
	// with one round; the larger of it and the stated uncertainty counts.
	Scatter unit.Angle
	// DegreesOfFreedom are those of the scatter when it counts, else +Inf.
	DegreesOfFreedom float64
	// Rounds judges each round after the first against the first.
	Rounds []SecondRound
}

// SecondRound says whether a round measured what the first did.
type SecondRound struct {
	// Ratio is the variance of the differences over what the reading's
	// uncertainty explains, about one when both rounds saw the same corners.
	Ratio float64
	// Chance is that of a ratio as large or larger, were they the same.
	Chance float64
	// Same is false when that chance is below one in a hundred.
	Same bool
	// BegunAt is the corner, counted from 1, at which the round would have to
	// have begun to agree best with the first, and Backward says that it would
	// have had to go the other way round: 1 and false when it is in order.
	BegunAt  int
	Backward bool
}

// ClosePolygon compares the corners of a polygon, each read against one and the
// same reference angle, in one or more rounds. A reading is corner less
// reference; u is the standard uncertainty of one, above zero.
//
//	reference = even corner - mean of the readings
//
// (the interior corners of an n-gon sum to (n - 2) half turns). Every round must
// hold the same number of corners, at least three, all finite and within ten
// degrees. The rounds' scatter is judged after each has given up its own mean,
// since the reference may have been set anew.
func ClosePolygon(rounds [][]unit.Angle, u unit.Angle) (Polygon, error) {
	if err := checkRounds(rounds, u); err != nil {
		return Polygon{}, err
	}
	n, k := len(rounds[0]), len(rounds)
	errors, reference := make([]float64, n), 0.0
	var level [][]float64
	for _, round := range rounds {
		mean, left := centred(round)
		reference -= mean / float64(k)
		level = append(level, left)
		for i, x := range left {
			errors[i] += x / float64(k)
		}
	}
	p := Polygon{DegreesOfFreedom: math.Inf(1)}
	single := float64(u)
	if k > 1 {
		squares := 0.0
		for _, left := range level {
			for i, x := range left {
				squares += (x - errors[i]) * (x - errors[i])
			}
		}
		spare := float64((n - 1) * (k - 1))
		p.Scatter = unit.Angle(math.Sqrt(squares / spare))
		if p.Scatter > u {
			single, p.DegreesOfFreedom = float64(p.Scatter), spare
		}
	}
	size := float64(n * k)
	p.Reference = MeasuredAngle{unit.Angle(reference), unit.Angle(single / math.Sqrt(size))}
	for _, e := range errors {
		p.Corners = append(p.Corners, MeasuredAngle{unit.Angle(e), unit.Angle(single * math.Sqrt((1-1/float64(n))/float64(k)))})
	}
	for _, left := range level[1:] {
		p.Rounds = append(p.Rounds, judgeRound(level[0], left, float64(u)))
	}
	return p, nil
}

// checkRounds checks the readings.
func checkRounds(rounds [][]unit.Angle, u unit.Angle) error {
	if len(rounds) == 0 || len(rounds[0]) < 3 {
		return fmt.Errorf("squaring: a polygon needs one round of at least three corners")
	}
	if !(u > 0) || math.IsInf(float64(u), 0) {
		return fmt.Errorf("squaring: uncertainty of a comparison is %s, must be above zero", degrees(u))
	}
	for k, round := range rounds {
		if len(round) != len(rounds[0]) {
			return fmt.Errorf("squaring: round %d has %d corners, the first %d", k+1, len(round), len(rounds[0]))
		}
		for i, x := range round {
			if !(math.Abs(float64(x)) <= float64(10*Degree)) {
				return fmt.Errorf("squaring: corner %d of round %d is %s from the reference, must be a number within %s", i+1, k+1, degrees(x), degrees(10*Degree))
			}
		}
	}
	return nil
}

// centred returns the mean of a round and what each corner has more.
func centred(round []unit.Angle) (mean float64, left []float64) {
	for i, x := range round {
		mean += (float64(x) - mean) / float64(i+1)
	}
	for _, x := range round {
		left = append(left, float64(x)-mean)
	}
	return mean, left
}

// judgeRound sets a round against the first, and tries every start and both
// ways round.
func judgeRound(first, round []float64, u float64) SecondRound {
	n := len(first)
	misfit := func(start int, backward bool) float64 {
		sum := 0.0
		for i, x := range round {
			at := start + i
			if backward {
				at = start - i
			}
			d := x - first[((at%n)+n)%n]
			sum += d * d
		}
		return sum
	}
	s := SecondRound{BegunAt: 1}
	inOrder := misfit(0, false)
	s.Ratio = inOrder / (2 * u * u * float64(n-1))
	s.Chance = chiSquaredAbove(inOrder/(2*u*u), float64(n-1))
	s.Same = s.Chance >= 0.01
	best := inOrder
	for start := 0; start < n; start++ {
		for _, backward := range []bool{false, true} {
			if m := misfit(start, backward); m < best*(1-1e-9) {
				best, s.BegunAt, s.Backward = m, start+1, backward
			}
		}
	}
	return s
}

// chiSquaredAbove returns the chance that chi-squared is as large as x or larger.
func chiSquaredAbove(x, degreesOfFreedom float64) float64 {
	return distuv.ChiSquared{K: degreesOfFreedom}.Survival(x)
}

// ThreeSquares is what comparing three squares two by two says.
type ThreeSquares struct {
	// Errors are those of the first, second and third square: how much each is
	// over a right angle, as rise over run.
	Errors [3]MeasuredSlope
	// Scatter is the standard deviation of one comparison among its repeats,
	// zero without repeats; the larger of it and the stated uncertainty counts.
	Scatter Slope
	// DegreesOfFreedom are those of the scatter when it counts, else +Inf.
	DegreesOfFreedom float64
	// Chance is that of repeats scattering as much or more, were the same thing
	// measured each time; one without repeats. Same is false below one in a
	// hundred.
	Chance float64
	Same   bool
}

// CompareSquares works three squares out of three comparisons of two at a time,
// blade against blade on one plate so that their errors add. A comparison is the
// opening between the blades at the top over their height, positive when they
// touch at the bottom; u is the standard uncertainty of one.
//
//	first = (first and second + first and third - second and third) / 2
//
// with standard uncertainty u root(3)/2, since each comparison counts half. Each
// pair may be compared several times. Readings must be finite and within 0.1,
// and u be above zero.
func CompareSquares(firstSecond, secondThird, firstThird []Slope, u Slope) (ThreeSquares, error) {
	if !(u > 0) || math.IsInf(float64(u), 0) {
		return ThreeSquares{}, fmt.Errorf("squaring: uncertainty of a comparison is %s, must be above zero", u)
	}
	s := ThreeSquares{DegreesOfFreedom: math.Inf(1), Chance: 1, Same: true}
	var means [3]float64
	squares, spare := 0.0, 0.0
	for i, pair := range [3][]Slope{firstSecond, secondThird, firstThird} {
		name := [3]string{"first and second", "second and third", "first and third"}[i]
		if len(pair) == 0 {
			return ThreeSquares{}, fmt.Errorf("squaring: the %s square were not compared", name)
		}
		for k, x := range pair {
			if !(math.Abs(float64(x)) <= 0.1) {
				return ThreeSquares{}, fmt.Errorf("squaring: comparison %d of the %s square is %s, must be a number within 0.1", k+1, name, x)
			}
			step := float64(x) - means[i]
			means[i] += step / float64(k+1)
			squares += step * (float64(x) - means[i])
		}
		spare += float64(len(pair) - 1)
	}
	single := float64(u)
	if spare > 0 {
		s.Scatter = Slope(math.Sqrt(squares / spare))
		s.Chance = chiSquaredAbove(squares/(single*single), spare)
		s.Same = s.Chance >= 0.01
		if s.Scatter > u {
			single, s.DegreesOfFreedom = float64(s.Scatter), spare
		}
	}
	counts := 0.0
	for _, pair := range [3][]Slope{firstSecond, secondThird, firstThird} {
		counts += 1 / float64(len(pair))
	}
	half := MeasuredSlope{Uncertainty: Slope(single * math.Sqrt(counts) / 2)}
	for i, signs := range [3][3]float64{{1, -1, 1}, {1, 1, -1}, {-1, 1, 1}} {
		s.Errors[i] = half
		for k, sign := range signs {
			s.Errors[i].Slope += Slope(sign * means[k] / 2)
		}
	}
	return s, nil
}
