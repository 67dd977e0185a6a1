package wear

// How long do parts last, when some are still good on the day of asking? A wiper
// changed at 300 h has lasted 300 h; one that is good after 500 h has lasted longer,
// nobody knows how much. To leave it out, or to count 500 h as its end, makes life
// look too short. The product of the shares that live through each failure,
//
//	S(t) = product over failures up to t of (1 - failed/at risk),
//
// counts it for as long as it was seen (E. L. Kaplan and P. Meier, Nonparametric
// estimation from incomplete observations, Journal of the American Statistical
// Association 53 (1958) 457, from memory). Its standard uncertainty is M.
// Greenwood's (The natural duration of cancer, 1926, from memory):
//
//	u(S)^2 = S^2 * sum of failed/(at risk (at risk - failed)).

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// Life is how long one part lasted, or has lasted so far.
type Life struct {
	// Time is that in use, above zero.
	Time unit.Time
	// Failed reports that the part failed then; a part that is still good, or was
	// taken off for another reason, has not.
	Failed bool
}

// LifeStep is a time at which parts failed.
type LifeStep struct {
	Time unit.Time
	// AtRisk is how many parts had lasted until then and were being watched; Failed
	// how many of them failed.
	AtRisk, Failed int
	// Share is the share of parts that last beyond Time and U its standard
	// uncertainty: too small where few are at risk, and zero when none is left.
	Share, U float64
}

// Survival is the share of parts that last how long, with a step at each failure.
type Survival struct {
	Steps []LifeStep
	// Watched is the longest time of any part: beyond it nothing is known.
	Watched unit.Time
}

// Surviving returns how many parts last how long. It assumes that parts not yet
// failed are no better and no worse than the others: one taken off because it was
// about to fail has failed.
//
// It returns an error for no parts or a time that is not above zero and finite.
func Surviving(lives []Life) (Survival, error) {
	if len(lives) == 0 {
		return Survival{}, fmt.Errorf("wear: survival needs at least one part")
	}
	for i, l := range lives {
		if !(l.Time > 0) || !finite(float64(l.Time)) {
			return Survival{}, fmt.Errorf("wear: part %d: a time of %g s must be above zero and finite", i+1, float64(l.Time))
		}
	}
	sorted := append([]Life(nil), lives...)
	sort.Slice(sorted, func(i, j int) bool { return sorted[i].Time < sorted[j].Time })
	s := Survival{Watched: sorted[len(sorted)-1].Time}
	share, sum := 1.0, 0.0
	for i := 0; i < len(sorted); {
		step := LifeStep{Time: sorted[i].Time, AtRisk: len(sorted) - i}
		for ; i < len(sorted) && sorted[i].Time == step.Time; i++ {
			if sorted[i].Failed {
				step.Failed++
			}
		}
		if step.Failed == 0 {
			continue
		}
		n, d := float64(step.AtRisk), float64(step.Failed)
		share *= 1 - d/n
		if d < n {
			sum += d / n / (n - d)
			step.U = share * math.Sqrt(sum)
		}
		step.Share = share
		s.Steps = append(s.Steps, step)
	}
	return s, nil
}

// At returns the share of parts that last beyond a time, and its standard
// uncertainty: 1 and 0 before the first failure. Beyond [Survival].Watched it is
// the last share seen, which can only be too large.
func (s Survival) At(t unit.Time) (share, u float64) {
	share = 1
	for _, step := range s.Steps {
		if step.Time > t {
			break
		}
		share, u = step.Share, step.U
	}
	return share, u
}

// Median returns the time by which half of the parts have failed; infinite when
// fewer than half have.
func (s Survival) Median() unit.Time {
	for _, step := range s.Steps {
		if step.Share <= 0.5 {
			return step.Time
		}
	}
	return unit.Time(math.Inf(1))
}
