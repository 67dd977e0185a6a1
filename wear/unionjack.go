package wear

// A plate is surveyed along eight lines that make a Union Jack: two diagonals,
// four sides and two lines through the middle. Each line is read with its own
// zero, so that each is known up to a straight line only; the lines are tied
// together where they cross. The classical way (J. C. Moody, How to calibrate
// surface plates in the plant, The Tool Engineer, October 1955, from memory)
// hangs the sides on the diagonals and keeps the two middle lines for a check.
// Least squares uses all eight and spreads the disagreement over them, with the
// covariance of the heights.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// PlateLines are the readings along the eight lines of a plate as seen from
// above: x to the right, or east, y to the back, or north. A line's readings are
// the slopes of its steps in the direction named, from first to last, equally
// long steps that fill the line, an even number of them. A constant added to a
// line changes nothing.
type PlateLines struct {
	// SWtoNE and NWtoSE are the diagonals.
	SWtoNE, NWtoSE []Slope
	// SWtoSE and NWtoNE are the front and the back side, SWtoNW and SEtoNE the
	// left and the right one.
	SWtoSE, NWtoNE, SWtoNW, SEtoNE []Slope
	// WtoE and StoN run through the middle.
	WtoE, StoN []Slope
}

// PlateSurvey is the result of a Union Jack survey.
type PlateSurvey struct {
	// Surface holds the heights of the distinct points, from the plane in which
	// all four corners balance, with their covariance.
	Surface
	// Closure holds by how much the height in the middle of the line WtoE, and
	// of StoN, differs from that of the diagonals, by the classical way: both
	// are zero but for the errors of reading.
	Closure [2]unit.Length
	// Scatter is the standard uncertainty of one reading that the disagreement
	// of the lines tells, with Freedom degrees of freedom: few, so a rough
	// figure. Only from least squares.
	Scatter Slope
	Freedom int
}

// plateLine is one line: where it begins and ends, in shares of the length and
// the width, and its readings.
type plateLine struct {
	name           string
	x0, y0, x1, y1 float64
	slopes         []Slope
}

func (l PlateLines) lines() [8]plateLine {
	return [8]plateLine{
		{"SWtoNE", 0, 0, 1, 1, l.SWtoNE}, {"NWtoSE", 0, 1, 1, 0, l.NWtoSE},
		{"SWtoSE", 0, 0, 1, 0, l.SWtoSE}, {"NWtoNE", 0, 1, 1, 1, l.NWtoNE},
		{"SWtoNW", 0, 0, 0, 1, l.SWtoNW}, {"SEtoNE", 1, 0, 1, 1, l.SEtoNE},
		{"WtoE", 0, 0.5, 1, 0.5, l.WtoE}, {"StoN", 0.5, 0, 0.5, 1, l.StoN},
	}
}

// plate is a survey being worked: the lines, the steps they are made of and the
// distinct points that they run through.
type plate struct {
	length, width float64
	lines         [8]plateLine
	base          [8]float64
	points        []SurfacePoint // heights zero
	at            [8][]int       // the points of each line, in order
}

// SurveyPlateClassical works a Union Jack survey of a plate of the given length
// (x) and width (y) by the classical way: each diagonal level from corner to
// corner and both zero where they cross, the sides laid between the corners, the
// middle lines between the middles of the sides. readingU is the standard
// uncertainty of one slope; it may be zero, and the covariance is then zero.
//
// It returns an error for a length, a width or a reading that is not finite and
// in range, or a line with an odd number of steps, none, or more than 200.
func SurveyPlateClassical(length, width unit.Length, readings PlateLines, readingU Slope) (PlateSurvey, error) {
	p, err := newPlate(length, width, readings, readingU)
	if err != nil {
		return PlateSurvey{}, err
	}
	slopes := p.slopes()
	heights, closure := p.classical(slopes)
	survey := PlateSurvey{Surface: Surface{Points: p.points, Covariance: mat.NewSymDense(len(p.points), nil)}, Closure: closure}
	weights := mat.NewDense(len(p.points), len(slopes), nil)
	unitSlope := make([]float64, len(slopes))
	for k := range slopes { // the heights are linear in the readings
		unitSlope[k] = 1
		h, _ := p.classical(unitSlope)
		weights.SetCol(k, h)
		unitSlope[k] = 0
	}
	survey.Covariance.SymOuterK(float64(readingU*readingU), weights)
	return survey, survey.setHeights(heights)
}

// SurveyPlate works a Union Jack survey by least squares over all eight lines,
// each with its own unknown zero. It returns what [SurveyPlateClassical] does,
// and the scatter that the disagreement of the lines tells. The heights are
// those above the plane in which the corners balance.
func SurveyPlate(length, width unit.Length, readings PlateLines, readingU Slope) (PlateSurvey, error) {
	p, err := newPlate(length, width, readings, readingU)
	if err != nil {
		return PlateSurvey{}, err
	}
	slopes := p.slopes()
	_, closure := p.classical(slopes)
	survey := PlateSurvey{Surface: Surface{Points: p.points}, Closure: closure}
	design, rises := p.design(slopes)
	free := p.freedoms()
	rows, unknowns := design.Dims()
	var normal mat.SymDense
	normal.SymOuterK(1, design.T())
	for k := range 3 {
		normal.SymRankOne(&normal, 1, free.ColView(k))
	}
	var factor mat.Cholesky
	if !factor.Factorize(&normal) {
		return PlateSurvey{}, errors.New("wear: the lines of the plate do not fix its heights")
	}
	var right, solution mat.VecDense
	right.MulVec(design.T(), mat.NewVecDense(rows, rises))
	if err := factor.SolveVecTo(&solution, &right); err != nil && !isCondition(err) {
		return PlateSurvey{}, fmt.Errorf("wear: the lines of the plate do not fix its heights: %w", err)
	}
	survey.Freedom = rows - (unknowns - 3)
	survey.Scatter = p.scatter(design, rises, &solution, survey.Freedom)
	survey.Covariance = p.covariance(&factor, free, float64(readingU))
	return survey, survey.setHeights(solution.RawVector().Data[:len(p.points)])
}

// newPlate checks the input and finds the distinct points.
func newPlate(length, width unit.Length, readings PlateLines, readingU Slope) (*plate, error) {
	for _, side := range []unit.Length{length, width} {
		if !(side > 0) || side > 100*unit.Metre {
			return nil, fmt.Errorf("wear: a side of the plate is %.6g mm; it must be above 0 and at most 100 m", float64(side)*1e3)
		}
	}
	if !(readingU >= 0) || readingU > 1 {
		return nil, fmt.Errorf("wear: standard uncertainty of a reading on the plate is %g; it must be from 0 to 1", float64(readingU))
	}
	p := &plate{length: float64(length), width: float64(width), lines: readings.lines()}
	for k, l := range p.lines {
		n := len(l.slopes)
		if n == 0 || n%2 != 0 || n > 200 {
			return nil, fmt.Errorf("wear: line %s of the plate has %d steps; it must be an even number from 2 to 200", l.name, n)
		}
		for i, s := range l.slopes {
			if !(math.Abs(float64(s)) <= 1) {
				return nil, fmt.Errorf("wear: line %s of the plate, step %d: slope %g is outside -1 to 1", l.name, i+1, float64(s))
			}
		}
		p.base[k] = math.Hypot((l.x1-l.x0)*p.length, (l.y1-l.y0)*p.width) / float64(n)
		for i := 0; i <= n; i++ {
			t := float64(i) / float64(n)
			p.at[k] = append(p.at[k], p.pointAt(l.x0+t*(l.x1-l.x0), l.y0+t*(l.y1-l.y0)))
		}
	}
	return p, nil
}

// pointAt returns the index of the point at shares of length and width, added
// when it is new.
func (p *plate) pointAt(x, y float64) int {
	place := SurfacePoint{X: unit.Length(x * p.length), Y: unit.Length(y * p.width)}
	near := unit.Length(1e-9 * (p.length + p.width))
	for i, q := range p.points {
		if dx, dy := q.X-place.X, q.Y-place.Y; dx < near && dx > -near && dy < near && dy > -near {
			return i
		}
	}
	p.points = append(p.points, place)
	return len(p.points) - 1
}

// slopes returns all readings, line after line.
func (p *plate) slopes() []float64 {
	var all []float64
	for _, l := range p.lines {
		for _, s := range l.slopes {
			all = append(all, float64(s))
		}
	}
	return all
}

// classical returns the heights of the points and the two closures.
func (p *plate) classical(slopes []float64) (heights []float64, closure [2]unit.Length) {
	heights = make([]float64, len(p.points))
	done := make([]bool, len(p.points))
	for k := range p.lines {
		at := p.at[k]
		n := len(at) - 1
		run := make([]float64, n+1)
		for i := range n {
			run[i+1] = run[i] + slopes[i]*p.base[k]
		}
		slopes = slopes[n:]
		first, last := heights[at[0]], heights[at[n]]
		climb := run[n]
		for i := range run {
			t := float64(i) / float64(n)
			run[i] += first + t*(last-first-climb)
		}
		if k < 2 { // a diagonal: level from corner to corner, zero in its middle
			middle := run[n/2]
			for i := range run {
				run[i] -= middle
			}
		}
		if k >= 6 {
			closure[k-6] = unit.Length(run[n/2] - heights[at[n/2]])
		}
		for i, point := range at {
			if !done[point] {
				heights[point], done[point] = run[i], true
			}
		}
	}
	return heights, closure
}

// design returns the matrix of the steps: the rise of a step is the difference
// of two heights, less the base times the zero of its line; and the rises read.
func (p *plate) design(slopes []float64) (*mat.Dense, []float64) {
	unknowns := len(p.points) + len(p.lines)
	design, rises := mat.NewDense(len(slopes), unknowns, nil), make([]float64, len(slopes))
	row := 0
	for k := range p.lines {
		for i := 0; i+1 < len(p.at[k]); i++ {
			// Divided by the base, so that every row has the same uncertainty.
			design.Set(row, p.at[k][i+1], 1/p.base[k])
			design.Set(row, p.at[k][i], -1/p.base[k])
			design.Set(row, len(p.points)+k, 1)
			rises[row] = slopes[row]
			row++
		}
	}
	return design, rises
}

// freedoms returns the three ways in which all heights and zeros can move and
// no reading changes: up and down, and the two tilts. The columns are
// orthonormal.
func (p *plate) freedoms() *mat.Dense {
	n := len(p.points)
	free := mat.NewDense(n+len(p.lines), 3, nil)
	for i, q := range p.points {
		free.SetRow(i, []float64{1, float64(q.X) - p.length/2, float64(q.Y) - p.width/2})
	}
	for k, l := range p.lines {
		dx, dy := (l.x1-l.x0)*p.length, (l.y1-l.y0)*p.width
		size := math.Hypot(dx, dy)
		free.SetRow(n+k, []float64{0, -dx / size, -dy / size})
	}
	for k := range 3 {
		column := free.ColView(k).(*mat.VecDense)
		for j := range k {
			other := free.ColView(j).(*mat.VecDense)
			column.AddScaledVec(column, -mat.Dot(column, other), other)
		}
		column.ScaleVec(1/mat.Norm(column, 2), column)
	}
	return free
}

// scatter returns the standard deviation of the readings about the solution.
func (p *plate) scatter(design *mat.Dense, rises []float64, solution *mat.VecDense, freedom int) Slope {
	var fitted mat.VecDense
	fitted.MulVec(design, solution)
	var squares float64
	for i, r := range rises {
		squares += (r - fitted.AtVec(i)) * (r - fitted.AtVec(i))
	}
	return Slope(math.Sqrt(squares / float64(freedom)))
}

// covariance returns the covariance of the heights for readings of standard
// uncertainty u.
func (p *plate) covariance(factor *mat.Cholesky, free *mat.Dense, u float64) *mat.SymDense {
	var inverse mat.SymDense
	if err := factor.InverseTo(&inverse); err != nil && !isCondition(err) {
		return nil
	}
	n := len(p.points)
	c := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			v := inverse.At(i, j)
			for k := range 3 {
				v -= free.At(i, k) * free.At(j, k)
			}
			c.SetSym(i, j, u*u*v)
		}
	}
	return c
}

// setHeights puts heights on the points, above the plane in which the corners
// balance: the mean height of the corners zero, and no slope of the corners
// along either side. The covariance goes through the same change.
func (s *PlateSurvey) setHeights(heights []float64) error {
	n := len(s.Points)
	points := append([]SurfacePoint(nil), s.Points...)
	var length, width unit.Length
	for _, p := range points {
		length, width = max(length, p.X), max(width, p.Y)
	}
	take := mat.NewDense(n, n, nil)
	for i, p := range points {
		take.Set(i, i, 1)
		for j, corner := range points {
			if !atEnd(corner.X, length) || !atEnd(corner.Y, width) {
				continue
			}
			share := 0.25 + sideOf(corner.X, length)*float64(p.X/length-0.5)/2 + sideOf(corner.Y, width)*float64(p.Y/width-0.5)/2
			take.Set(i, j, take.At(i, j)-share)
		}
	}
	var above mat.VecDense
	above.MulVec(take, mat.NewVecDense(n, append([]float64(nil), heights[:n]...)))
	for i := range points {
		points[i].Height = unit.Length(above.AtVec(i))
		if !finite(above.AtVec(i)) {
			return errors.New("wear: the heights of the plate cannot be computed: readings too large")
		}
	}
	s.Points = points
	if s.Covariance != nil {
		s.Covariance = congruence(take, s.Covariance)
	}
	return nil
}

// atEnd reports whether x is at 0 or at the end.
func atEnd(x, end unit.Length) bool { return x < 1e-9*end || x > end*(1-1e-9) }

// sideOf returns -1 at 0 and 1 at the end.
func sideOf(x, end unit.Length) float64 {
	if x < end/2 {
		return -1
	}
	return 1
}
