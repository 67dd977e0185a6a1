package wear

// Something is done to the machine, an outlet cleared or a habit changed, and
// one asks whether it helped. The depth of wear cannot jump on that day, only its
// rate can: the model is a line with a bend,
//
//	y = a + b t + c (t - date)+,
//
// with b the rate before and b + c the rate after. With the date known this is a
// linear fit and its uncertainties are exact.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// Event is what a known date did to the rate of wear.
type Event struct {
	// Before and After are the rates, with their standard uncertainties.
	Before, BeforeU, After, AfterU WearRate
	// Change is After less Before: negative when it helped. ChangeU is its
	// standard uncertainty, which knows that the two rates share the depth at
	// the date.
	Change, ChangeU WearRate
	// At is the depth on the date, AtU its standard uncertainty.
	At, AtU unit.Length
	// Helped is the chance that the rate is lower after than before, as the
	// readings alone tell it: 0.5 when they cannot say.
	Helped float64
	// Scatter and Freedom are as in [Forecast]; so is Agreement, of the bent
	// line.
	Scatter   unit.Length
	Freedom   float64
	Agreement float64

	date       unit.Time
	solution   [3]float64
	covariance *mat.SymDense
}

// FitEvent fits the rates before and after a date on the clock of the readings.
// On each side at least one reading must lie beyond the other side's reach: two
// on or before the date and one after it, or one and two, are the least that fix
// both rates.
//
// It says what changed on the date, not why: whatever else changed then is in it
// too. A second way that nothing was done to tells that apart (see
// [Event.Beyond]).
//
// It returns an error for too few readings (four, or three if all state their
// uncertainty), a date that does not lie between the first and the last clock,
// readings that do not fix both rates, or what [ForecastLine] would refuse.
func FitEvent(readings []MeasuredDepth, date unit.Time) (Event, error) {
	d, err := readDepths(readings, 3)
	if err != nil {
		return Event{}, err
	}
	first, last := ends(d.t)
	if !(float64(date) > first && float64(date) < last) {
		return Event{}, fmt.Errorf("wear: the date at %g s must lie between the first and the last reading, %g and %g s", float64(date), first, last)
	}
	// Time in spans and depth in units of its own size keep the equations of
	// one size.
	span := last - first
	a, b := mat.NewDense(len(d.t), 3, nil), mat.NewVecDense(len(d.t), nil)
	for i := range d.t {
		x := (d.t[i] - float64(date)) / span
		a.SetRow(i, []float64{d.w[i], d.w[i] * math.Min(x, 0), d.w[i] * math.Max(x, 0)})
		b.SetVec(i, d.w[i]*d.y[i])
	}
	var normal mat.SymDense
	normal.SymOuterK(1, a.T())
	var factor mat.Cholesky
	if !finite(mat.Sum(&normal)) || !factor.Factorize(&normal) || factor.Cond() > 1e12 {
		return Event{}, errors.New("wear: the readings do not fix both rates: there must be two clocks on one side of the date and one on the other")
	}
	var inverse mat.SymDense
	if err := factor.InverseTo(&inverse); err != nil && !isCondition(err) {
		return Event{}, errors.New("wear: the readings do not fix both rates")
	}
	var right, solution mat.VecDense
	right.MulVec(a.T(), b)
	solution.MulVec(&inverse, &right)
	var residual mat.VecDense
	residual.MulVec(a, &solution)
	residual.SubVec(b, &residual)
	return newEvent(d, date, span, &solution, &inverse, mat.Dot(&residual, &residual))
}

// ends returns the least and the greatest of clocks.
func ends(t []float64) (first, last float64) {
	first, last = t[0], t[0]
	for _, x := range t {
		first, last = math.Min(first, x), math.Max(last, x)
	}
	return first, last
}

// newEvent turns the solution (depth on the date, rates a span) into an event.
func newEvent(d depthData, date unit.Time, span float64, solution *mat.VecDense, inverse *mat.SymDense, rss float64) (Event, error) {
	e := Event{Freedom: math.Inf(1), Agreement: 1, date: date, covariance: mat.NewSymDense(3, nil)}
	spare, variance := float64(len(d.t)-3), 1.0
	if d.known && spare > 0 {
		e.Agreement = chiSquareAbove(rss, spare)
	}
	if !d.known {
		e.Freedom, variance = spare, rss/spare
		e.Scatter = unit.Length(math.Sqrt(variance))
	}
	per := [3]float64{1, 1 / span, 1 / span}
	for i := range per {
		e.solution[i] = solution.AtVec(i) * per[i]
		for j := i; j < 3; j++ {
			e.covariance.SetSym(i, j, variance*inverse.At(i, j)*per[i]*per[j])
		}
	}
	u := func(i int) float64 { return math.Sqrt(math.Max(e.covariance.At(i, i), 0)) }
	e.At, e.AtU = unit.Length(e.solution[0]), unit.Length(u(0))
	e.Before, e.BeforeU = WearRate(e.solution[1]), WearRate(u(1))
	e.After, e.AfterU = WearRate(e.solution[2]), WearRate(u(2))
	e.Change = e.After - e.Before
	e.ChangeU = WearRate(math.Sqrt(math.Max(e.covariance.At(1, 1)+e.covariance.At(2, 2)-2*e.covariance.At(1, 2), 0)))
	if !finite(float64(e.Change)) || !finite(float64(e.ChangeU)) {
		return Event{}, errors.New("wear: the readings are too far apart in size to fit")
	}
	e.Helped = chanceBelowZero(float64(e.Change), float64(e.ChangeU), e.Freedom)
	return e, nil
}

// chanceBelowZero returns the chance that a value is below zero.
func chanceBelowZero(x, u, freedom float64) float64 {
	switch {
	case u == 0 && x == 0:
		return 0.5
	case u == 0 && x < 0:
		return 1
	case u == 0:
		return 0
	}
	return chanceBelow(-x/u, freedom)
}

// Depth returns the depth of the bent line at a clock and its standard
// uncertainty.
func (e Event) Depth(clock unit.Time) (depth, u unit.Length) {
	if e.covariance == nil {
		return 0, 0
	}
	t := float64(clock - e.date)
	c := mat.NewVecDense(3, []float64{1, math.Min(t, 0), math.Max(t, 0)})
	return unit.Length(mat.Dot(c, mat.NewVecDense(3, append([]float64(nil), e.solution[:]...)))),
		unit.Length(math.Sqrt(math.Max(mat.Inner(c, e.covariance, c), 0)))
}

// Coverage returns the factor of an interval that holds a value of the event
// with the given chance; NaN outside 0 to 1 and for an event that was not
// fitted.
func (e Event) Coverage(chance float64) float64 { return coverageFactor(chance, e.Freedom) }

// Beyond is how much more a rate changed than that of a way to which nothing was
// done.
type Beyond struct {
	// Change is the change of the one less that of the other; ChangeU its
	// standard uncertainty.
	Change, ChangeU WearRate
	// Helped is the chance that Change is below zero.
	Helped float64
}

// Beyond compares the event with that of another way that ran the same hours
// under the same hands, to which nothing was done. What changed for both alike,
// more oil by the pump or a kinder job, drops out. Readings of the two must be
// independent.
func (e Event) Beyond(other Event) Beyond {
	b := Beyond{Change: e.Change - other.Change, ChangeU: WearRate(math.Hypot(float64(e.ChangeU), float64(other.ChangeU)))}
	freedom := jointFreedom(
		SlopePoint{U: Slope(e.ChangeU), Freedom: e.Freedom},
		SlopePoint{U: Slope(other.ChangeU), Freedom: other.Freedom})
	b.Helped = chanceBelowZero(float64(b.Change), float64(b.ChangeU), freedom)
	return b
}
