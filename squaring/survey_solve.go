package squaring

// The least-squares solution. Rows are divided by their uncertainties, columns
// by their norms; a Householder QR of the rows with the readings beside them
// leaves a triangle, and a singular value decomposition of that triangle alone
// gives rank, estimates, covariance and what is free:
//
//	A = Q R,  R = U S V',  x = V1 S1^-1 U1' Q'y,  cov = V1 S1^-2 V1',  free = V2
//
// When a bound on the condition number proves that every singular value is far
// above nought, the decomposition would tell nothing more than the inverse of the
// triangle, which takes a tenth of the time. Nothing is squared. Source of the method: G. H. Golub and C. F. Van Loan,
// Matrix Computations, chapter 5, rank-deficient least squares (from memory).

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	// rankTolerance is the ratio to the largest singular value below which a
	// combination of unknowns is not seen at all: the columns have unit norm,
	// and a combination really seen has far more than this.
	rankTolerance = 1e-10
	// freeTolerance is the share of a feature along a free combination above
	// which it is undetermined.
	freeTolerance = 1e-7
	// soundCondition is the condition number of the triangle, in the norm of
	// column sums, below which its rank is full without a singular value being
	// looked at: least over greatest singular value is at least 1/(n condition),
	// above rankTolerance for as many unknowns as a survey may have.
	soundCondition = 1e7
)

// Parameter is one unknown of the survey with its estimate.
type Parameter struct {
	// Name says which unknown it is.
	Name string
	// OfSetup says that it belongs to a set-up or a gauge, not to the machine.
	OfSetup bool
	// Estimate is its value.
	Estimate
}

// Estimate is a value that a survey gives.
type Estimate struct {
	// Kind says whether Value is a length or a slope.
	Kind SurveyKind
	// Determined says that the readings tell the value. When it is false Value
	// and U are zero and mean nothing, and Why says in a sentence why not.
	Determined bool
	// Value is in SI, metres or rise over run; U is its standard uncertainty.
	Value, U float64
	// FromPrior is the share of U squared that comes from priors and from
	// smoothness: near 0 the readings tell the value, near 1 it is an
	// assumption.
	FromPrior float64
	// Why is empty when the value is determined.
	Why string
}

// ReadingResult is a reading, or a piece of prior knowledge, after the
// adjustment.
type ReadingResult struct {
	// Observation is the observation's kind and name, Number the reading's
	// number in it, from 1, and Where its place in words.
	Observation string
	Number      int
	Where       string
	// Prior marks prior knowledge: smoothness, or what was known before.
	Prior bool
	// Kind says whether the values are lengths or slopes.
	Kind SurveyKind
	// Value is the reading, Residual the reading less what the adjusted machine
	// says, U the stated standard uncertainty of the reading; in SI.
	Value, Residual, U float64
	// Redundancy is the share of an error in the reading that shows in its own
	// residual: 0 for a reading that nothing checks, near 1 for one well
	// checked by others.
	Redundancy float64
	// Test is the residual over its own standard deviation, zero when nothing
	// checks the reading.
	Test float64
	// Detectable is the smallest error of the reading that the test finds with
	// the chance asked for: +Inf when nothing checks the reading.
	Detectable float64
}

// Adjustment is the outcome of a survey.
type Adjustment struct {
	// Parameters are the unknowns, those of the machine and those of the
	// set-ups, in the order in which the readings met them.
	Parameters []Parameter
	// Readings are the readings in the survey's order, then the priors, then
	// the smoothness of the curves.
	Readings []ReadingResult
	// Redundancy is the number of readings and priors beyond what the solution
	// takes: the degrees of freedom of ChiSquare.
	Redundancy int
	// ChiSquare is the sum of the squared residuals, each over its own
	// uncertainty. If the stated uncertainties are right it is near Redundancy,
	// and Chance is the probability of one as large or larger; it is 1 when
	// there is no redundancy. Smoothness counts in both.
	ChiSquare, Chance float64

	options   SurveyOptions
	set       *unknowns
	equations []equation
	x         []float64 // scaled unknowns: true value times scale
	known     knowledge
	priors    [][]surveyTerm // weighted, scaled rows of priors and smoothness
	free      []freeCombination
}

// knowledge is what is known of the unknowns: their covariance, and an
// orthonormal basis of the combinations that are free. Both are of the unknowns
// times their scale.
type knowledge struct {
	scale []float64
	cov   *mat.Dense // n x n
	free  *mat.Dense // n x q; nil when nothing is free
}

// freeCount returns how many combinations are free.
func (k knowledge) freeCount() int {
	if k.free == nil {
		return 0
	}
	_, q := k.free.Dims()
	return q
}

// solveSurvey solves the equations and judges every reading.
func solveSurvey(set *unknowns, equations []equation, options SurveyOptions) (*Adjustment, error) {
	n := set.len()
	if n == 0 {
		return nil, fmt.Errorf("squaring: these readings see nothing of the machine: there is nothing to solve for")
	}
	a := &Adjustment{options: options, set: set, equations: equations}
	scale := columnNorms(equations, n)
	triangle, rotated := triangulate(equations, scale)
	if err := a.decompose(triangle, rotated, scale); err != nil {
		return nil, err
	}
	for _, e := range equations {
		if e.prior {
			a.priors = append(a.priors, a.known.weighted(e))
		}
	}
	a.Redundancy = len(equations) - (n - a.known.freeCount())
	a.free = a.known.echelon()
	a.judge()
	a.report()
	return a, nil
}

// columnNorms returns the norm of each column of the weighted rows, 1 for an
// unknown with no weight.
func columnNorms(equations []equation, n int) []float64 {
	norms := make([]float64, n)
	for _, e := range equations {
		for _, t := range e.terms {
			norms[t.unknown] += (t.weight / e.u) * (t.weight / e.u)
		}
	}
	for i, s := range norms {
		norms[i] = math.Sqrt(s)
		if s == 0 {
			norms[i] = 1
		}
	}
	return norms
}

// triangulate returns the triangle of the weighted, scaled rows and the
// readings rotated with them.
func triangulate(equations []equation, scale []float64) (triangle *mat.TriDense, rotated []float64) {
	n := len(scale)
	rows := mat.NewDense(max(len(equations), n+1), n+1, nil)
	for i, e := range equations {
		for _, t := range e.terms {
			rows.Set(i, t.unknown, t.weight/e.u/scale[t.unknown])
		}
		rows.Set(i, n, e.value/e.u)
	}
	var qr mat.QR
	qr.Factorize(rows)
	var r mat.Dense
	qr.RTo(&r)
	rotated = make([]float64, n)
	triangle = mat.NewTriDense(n, mat.Upper, nil)
	for i := range n {
		for j := i; j < n; j++ {
			triangle.SetTri(i, j, r.At(i, j))
		}
		rotated[i] = r.At(i, n)
	}
	return triangle, rotated
}

// decompose finds the rank, the estimates, their covariance and the free
// combinations from the triangle.
func (a *Adjustment) decompose(triangle *mat.TriDense, rotated, scale []float64) error {
	n := len(scale)
	a.known = knowledge{scale: scale, cov: mat.NewDense(n, n, nil)}
	var inverse mat.TriDense
	if err := inverse.InverseTri(triangle); err == nil && mat.Norm(triangle, 1)*mat.Norm(&inverse, 1) < soundCondition {
		a.solve(mat.DenseCopyOf(&inverse), rotated)
		return nil
	}
	var svd mat.SVD
	if !svd.Factorize(triangle, mat.SVDFull) {
		return fmt.Errorf("squaring: the singular values of %d unknowns did not settle", n)
	}
	values := svd.Values(nil)
	rank := 0
	for rank < n && values[rank] > rankTolerance*values[0] {
		rank++
	}
	if rank == 0 {
		return fmt.Errorf("squaring: these readings see nothing of the machine: there is nothing to solve for")
	}
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	along := make([]float64, rank)
	half := mat.NewDense(n, rank, nil)
	for i := range n {
		for j := range rank {
			half.Set(i, j, v.At(i, j)/values[j])
			along[j] += u.At(i, j) * rotated[i]
		}
	}
	a.solve(half, along)
	if rank < n {
		a.known.free = mat.DenseCopyOf(v.Slice(0, n, rank, n))
	}
	return nil
}

// solve takes half, whose product with its own transpose is the covariance:
// V1 S1^-1, or R^-1. The unknowns are half times the readings along it.
func (a *Adjustment) solve(half *mat.Dense, along []float64) {
	var x mat.VecDense
	x.MulVec(half, mat.NewVecDense(len(along), along))
	a.x = x.RawVector().Data
	a.known.cov.Mul(half, half.T())
}

// judge works out residuals, redundancies and tests.
func (a *Adjustment) judge() {
	critical := criticalValue(a.options.FalseAlarm)
	detectable := critical + distuv.UnitNormal.Quantile(a.options.DetectionChance)
	a.Readings = make([]ReadingResult, len(a.equations))
	a.ChiSquare = 0
	for i, e := range a.equations {
		terms := a.known.weighted(e)
		residual := e.value/e.u - dotTerms(terms, a.x)
		redundancy := min(max(1-a.known.quadratic(terms), 0), 1)
		a.ChiSquare += residual * residual
		result := ReadingResult{Observation: e.of, Number: e.number, Where: e.where, Prior: e.prior, Kind: e.kind,
			Value: e.value, Residual: residual * e.u, U: e.u, Redundancy: redundancy, Detectable: math.Inf(1)}
		if redundancy > leastRedundancy {
			result.Test = residual / math.Sqrt(redundancy)
			result.Detectable = detectable * e.u / math.Sqrt(redundancy)
		}
		a.Readings[i] = result
	}
	a.Chance = 1
	if a.Redundancy > 0 {
		a.Chance = distuv.ChiSquared{K: float64(a.Redundancy)}.Survival(a.ChiSquare)
	}
}

// criticalValue returns the size of a normal deviate that is passed with the
// given chance, both sides together.
func criticalValue(chance float64) float64 { return distuv.UnitNormal.Quantile(1 - chance/2) }

// weighted returns the row divided by its uncertainty and by the columns'
// scales.
func (k knowledge) weighted(e equation) []surveyTerm {
	terms := make([]surveyTerm, len(e.terms))
	for i, t := range e.terms {
		terms[i] = surveyTerm{t.unknown, t.weight / e.u / k.scale[t.unknown]}
	}
	return terms
}

// dotTerms returns the product of a sparse row with a vector.
func dotTerms(terms []surveyTerm, x []float64) float64 {
	var sum float64
	for _, t := range terms {
		sum += t.weight * x[t.unknown]
	}
	return sum
}

// quadratic returns terms' cov terms: the variance of that sum of unknowns.
func (k knowledge) quadratic(terms []surveyTerm) float64 {
	raw := k.cov.RawMatrix()
	var sum float64
	for i, s := range terms {
		row := raw.Data[s.unknown*raw.Stride:]
		inner := 0.5 * s.weight * row[s.unknown]
		for _, t := range terms[i+1:] {
			inner += t.weight * row[t.unknown]
		}
		sum += 2 * s.weight * inner
	}
	return sum
}

// report writes the parameters with their estimates.
func (a *Adjustment) report() {
	n := a.set.len()
	a.Parameters = make([]Parameter, n)
	for i := range n {
		key := a.set.key(i)
		a.Parameters[i] = Parameter{Name: key.name(), OfSetup: key.family.ofSetup(),
			Estimate: a.estimate(familyFacts[key.family].kind, []surveyTerm{{i, 1}})}
	}
}

// estimate returns the value of a sum of unknowns, or why it has none.
func (a *Adjustment) estimate(kind SurveyKind, terms []surveyTerm) Estimate {
	scaled := make([]surveyTerm, len(terms))
	var norm float64
	for i, t := range terms {
		scaled[i] = surveyTerm{t.unknown, t.weight / a.known.scale[t.unknown]}
		norm += scaled[i].weight * scaled[i].weight
	}
	if free := a.known.alongFree(scaled); norm2(free) > freeTolerance*math.Sqrt(norm) {
		return Estimate{Kind: kind, Why: a.why(scaled)}
	}
	variance := max(a.known.quadratic(scaled), 0)
	estimate := Estimate{Kind: kind, Determined: true, Value: dotTerms(scaled, a.x), U: math.Sqrt(variance)}
	if variance > 0 {
		gain := a.known.covTimes(scaled)
		for _, row := range a.priors {
			share := dotTerms(row, gain)
			estimate.FromPrior += share * share / variance
		}
	}
	return estimate
}

// alongFree returns the share of a sum of unknowns along each free combination.
func (k knowledge) alongFree(terms []surveyTerm) []float64 {
	shares := make([]float64, k.freeCount())
	for j := range shares {
		for _, t := range terms {
			shares[j] += t.weight * k.free.At(t.unknown, j)
		}
	}
	return shares
}

func norm2(v []float64) float64 {
	var sum float64
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum)
}

// Predict returns a feature of the machine or the part, or any reading not yet
// taken, with its standard uncertainty: all covariances are taken into account.
// When the readings do not tell it, the estimate says so and why. The error is
// for a feature that cannot be meant, such as a place outside the surveyed
// travel.
func (a *Adjustment) Predict(feature Feature) (Estimate, error) {
	r := surveyRow{set: a.set.over()}
	if err := feature.into(&r); err != nil {
		return Estimate{}, fmt.Errorf("squaring: %s: %w", feature.Name, err)
	}
	n := a.set.len()
	for _, t := range r.terms {
		if t.unknown >= n {
			return Estimate{Kind: feature.Kind, Why: "No reading says anything about the " + r.set.key(t.unknown).name() + "."}, nil
		}
	}
	return a.estimate(feature.Kind, r.terms), nil
}

// Covariance returns the covariance of two determined parameters, by their
// places in Parameters, in the product of their SI units; zero when either is
// not determined or not there.
func (a *Adjustment) Covariance(first, second int) float64 {
	n := len(a.Parameters)
	if first < 0 || second < 0 || first >= n || second >= n || !a.Parameters[first].Determined || !a.Parameters[second].Determined {
		return 0
	}
	return a.known.cov.At(first, second) / a.known.scale[first] / a.known.scale[second]
}
