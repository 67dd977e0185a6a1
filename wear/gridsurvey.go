package wear

// A rectangle of places is walked row by row and column by column. Every mesh
// closes, so that the readings outnumber the heights and least squares spreads
// what does not close over all of them. That needs a level, which shows every step
// against the same gravity. With an autocollimator each line has a zero of its
// own, and the surface z = x y, which has a straight line over every row and
// column, is then in no reading: diagonals must be read too (SurveyPlate).

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// GridReadings are the slopes of the steps along a rectangle of places.
type GridReadings struct {
	// X and Y are the places of the columns and of the rows, growing.
	X, Y []unit.Length
	// Along holds for each row the slopes of its steps in x, one fewer than X has
	// places; Across for each column those in y.
	Along, Across [][]Slope
	// U is the standard uncertainty of one slope. A zero of the level that is
	// common to all steps of a direction is a tilt, and drops out.
	U Slope
}

// GridSurvey is a surface from its steps.
type GridSurvey struct {
	// Surface holds the heights row by row, from the plane of least squares, with
	// their covariance.
	Surface
	// Scatter is the standard uncertainty of one slope that the meshes tell by not
	// closing, with Freedom degrees of freedom.
	Scatter Slope
	Freedom int
}

// maxGrid is the most places that a grid may have.
const maxGrid = 400

// SurveyGrid works the steps along a rectangle of places by least squares.
//
// It returns an error for fewer than two rows or columns or more than 400 places,
// places that do not grow, lists of another length than the places ask for, a
// slope outside -1 to 1, or an uncertainty that is not from 0 to 1.
func SurveyGrid(r GridReadings) (GridSurvey, error) {
	if err := r.check(); err != nil {
		return GridSurvey{}, err
	}
	design, slopes := r.design()
	rows, unknowns := design.Dims()
	n := len(r.X) * len(r.Y)
	survey := GridSurvey{Freedom: rows - (unknowns - 1)}
	var normal mat.SymDense
	normal.SymOuterK(1, design.T())
	up := mat.NewVecDense(n, nil) // all heights alike: no reading sees it
	for k := range n {
		up.SetVec(k, 1)
	}
	normal.SymRankOne(&normal, 1, up)
	var factor mat.Cholesky
	if !factor.Factorize(&normal) {
		return GridSurvey{}, errors.New("wear: the steps of the grid do not fix its heights: places too close together beside others")
	}
	var right, solution, residual mat.VecDense
	right.MulVec(design.T(), slopes)
	if err := factor.SolveVecTo(&solution, &right); err != nil && !isCondition(err) {
		return GridSurvey{}, fmt.Errorf("wear: the steps of the grid do not fix its heights: %w", err)
	}
	residual.MulVec(design, &solution)
	residual.SubVec(slopes, &residual)
	if survey.Freedom > 0 {
		survey.Scatter = Slope(mat.Norm(&residual, 2) / math.Sqrt(float64(survey.Freedom)))
	}
	var inverse mat.SymDense
	if err := factor.InverseTo(&inverse); err != nil && !isCondition(err) {
		return GridSurvey{}, errors.New("wear: the steps of the grid do not fix its heights")
	}
	flat := r.offPlane()
	above := mat.NewVecDense(n, nil)
	above.MulVec(flat, &solution)
	c := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			c.SetSym(i, j, float64(r.U*r.U)*inverse.At(i, j))
		}
	}
	survey.Covariance = congruence(flat, c)
	for k := range n {
		if !finite(above.AtVec(k)) {
			return GridSurvey{}, errors.New("wear: the heights of the grid cannot be computed: readings too large")
		}
		survey.Points = append(survey.Points, SurfacePoint{r.X[k%len(r.X)], r.Y[k/len(r.X)], unit.Length(above.AtVec(k))})
	}
	return survey, nil
}

// check returns what is wrong with the readings.
func (r GridReadings) check() error {
	nx, ny := len(r.X), len(r.Y)
	if nx < 2 || ny < 2 || nx*ny > maxGrid {
		return fmt.Errorf("wear: a grid of %d by %d places; it must have 2 or more either way and at most %d in all", nx, ny, maxGrid)
	}
	if len(r.Along) != ny || len(r.Across) != nx {
		return fmt.Errorf("wear: a grid of %d by %d places was read along %d rows and %d columns; all of them are needed", nx, ny, len(r.Along), len(r.Across))
	}
	if !(r.U >= 0 && r.U <= 1) {
		return fmt.Errorf("wear: standard uncertainty of a slope on the grid is %g; it must be from 0 to 1", float64(r.U))
	}
	for _, places := range [][]unit.Length{r.X, r.Y} {
		for i, p := range places {
			if !(math.Abs(float64(p)) <= 100) || i > 0 && !(p-places[i-1] > 1e-6) {
				return fmt.Errorf("wear: place %d of the grid is at %.6g mm; places must grow by a micrometre or more and lie within 100 m", i+1, float64(p)*1e3)
			}
		}
	}
	for k, lines := range [][][]Slope{r.Along, r.Across} {
		for i, line := range lines {
			if want := []int{nx - 1, ny - 1}[k]; len(line) != want {
				return fmt.Errorf("wear: line %d %s the grid has %d steps; it must have %d", i+1, []string{"along", "across"}[k], len(line), want)
			}
			for j, s := range line {
				if !(math.Abs(float64(s)) <= 1) {
					return fmt.Errorf("wear: line %d %s the grid, step %d: slope %g is outside -1 to 1", i+1, []string{"along", "across"}[k], j+1, float64(s))
				}
			}
		}
	}
	return nil
}

// design returns the matrix of the steps, each a difference of two heights over
// its base; and the slopes.
func (r GridReadings) design() (*mat.Dense, *mat.VecDense) {
	nx, ny := len(r.X), len(r.Y)
	rows := ny*(nx-1) + nx*(ny-1)
	design, slopes := mat.NewDense(rows, nx*ny, nil), mat.NewVecDense(rows, nil)
	row := 0
	step := func(from, to int, base unit.Length, s Slope) {
		design.Set(row, from, -1/float64(base))
		design.Set(row, to, 1/float64(base))
		slopes.SetVec(row, float64(s))
		row++
	}
	for j, line := range r.Along {
		for i, s := range line {
			step(j*nx+i, j*nx+i+1, r.X[i+1]-r.X[i], s)
		}
	}
	for i, line := range r.Across {
		for j, s := range line {
			step(j*nx+i, (j+1)*nx+i, r.Y[j+1]-r.Y[j], s)
		}
	}
	return design, slopes
}

// offPlane returns the matrix that takes the plane of least squares off heights.
func (r GridReadings) offPlane() *mat.Dense {
	nx, n := len(r.X), len(r.X)*len(r.Y)
	basis := make([]*mat.VecDense, 3)
	for k := range basis {
		basis[k] = mat.NewVecDense(n, nil)
		for i := range n {
			basis[k].SetVec(i, []float64{1, float64(r.X[i%nx]), float64(r.Y[i/nx])}[k])
		}
		for range 2 { // twice, for places far from their origin
			for _, b := range basis[:k] {
				basis[k].AddScaledVec(basis[k], -mat.Dot(basis[k], b), b)
			}
		}
		basis[k].ScaleVec(1/mat.Norm(basis[k], 2), basis[k])
	}
	off := mat.NewDense(n, n, nil)
	for i := range n {
		off.Set(i, i, 1)
	}
	for _, b := range basis {
		off.RankOne(off, -1, b, b)
	}
	return off
}
