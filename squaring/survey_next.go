package squaring

// Which reading to take next. What a reading would add does not depend on what
// it will show, so each candidate's effect on the uncertainty of the feature
// that matters is worked out beforehand. With rows A (each over its own
// uncertainty), covariance C and free combinations N,
//
//	W = 1 + A C A',   k = A C f,   M = A N,   m = N'f
//	variance of f = f'C f - k'W^-1 k + (m - M'W^-1 k)' (M'W^-1 M)^+ (m - M'W^-1 k)
//
// provided m lies among the rows of M; else f stays undetermined. The first two
// terms are the familiar low-rank update; the last is what it costs that the
// candidate must first settle its own zero, or what nobody had measured yet.

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
)

// Candidate is a reading, or a set of readings, that might be taken next.
type Candidate struct {
	// Name says what it is.
	Name string
	// Observations are what would be read; the values of their readings do not
	// matter.
	Observations []Observation
	// Minutes is what it costs, above zero for [Adjustment.NextBest].
	Minutes float64
}

// NextReading is what a candidate would do.
type NextReading struct {
	// Name and Minutes are the candidate's.
	Name    string
	Minutes float64
	// Before and After say whether the feature is determined, and its standard
	// uncertainty U in SI; their Value means nothing.
	Before, After Estimate
	// PerMinute is the drop of the uncertainty for each minute, in SI; it is
	// +Inf when the candidate makes an undetermined feature determined.
	PerMinute float64

	place int // among the candidates
}

// NextBest returns what each candidate would do to the uncertainty of the
// feature, the best for the minute first. Candidates that make an undetermined
// feature determined come first of all; of these the best is the one that leaves
// the least variance times minutes, since the variance of repeated readings falls
// with the time spent. Errors name the candidate.
func (a *Adjustment) NextBest(candidates []Candidate, feature Feature) ([]NextReading, error) {
	planner, err := a.planner(candidates, feature)
	if err != nil {
		return nil, err
	}
	return planner.rank(), nil
}

// Plan returns the next readings to take, at most count of them, each chosen as
// the best for the minute after those before it, and none twice.
func (a *Adjustment) Plan(candidates []Candidate, feature Feature, count int) ([]NextReading, error) {
	planner, err := a.planner(candidates, feature)
	if err != nil {
		return nil, err
	}
	var plan []NextReading
	for range count {
		ranked := planner.rank()
		if len(ranked) == 0 || !(ranked[0].PerMinute > 0) {
			break
		}
		best := ranked[0]
		plan = append(plan, best)
		if err := planner.take(best.place); err != nil {
			return nil, err
		}
	}
	return plan, nil
}

// planner holds what is known while a plan is made.
type planner struct {
	candidates []Candidate
	rows       [][][]surveyTerm // of each candidate, weighted and scaled; nil once taken
	feature    []surveyTerm     // scaled
	kind       SurveyKind
	known      knowledge
	// unseen are the parts of the machine in the feature that no reading has
	// seen yet: smoothness alone is no knowledge of them. brings are those that
	// each candidate would see.
	unseen map[unknown]bool
	brings []map[unknown]bool
}

// planner sets every candidate's rows up over the survey's unknowns.
func (a *Adjustment) planner(candidates []Candidate, feature Feature) (*planner, error) {
	set := a.set.over()
	goal := surveyRow{set: set}
	if err := feature.into(&goal); err != nil {
		return nil, fmt.Errorf("squaring: %s: %w", feature.Name, err)
	}
	p := &planner{candidates: candidates, kind: feature.Kind}
	raw := make([][]equation, len(candidates))
	for i, candidate := range candidates {
		if !(candidate.Minutes > 0) || math.IsInf(candidate.Minutes, 0) {
			return nil, fmt.Errorf("squaring: candidate %d, %s: it costs %g minutes, must be finite and above zero", i+1, candidate.Name, candidate.Minutes)
		}
		rows, err := candidateRows(set, candidate)
		if err != nil {
			return nil, fmt.Errorf("squaring: candidate %d, %s: %w", i+1, candidate.Name, err)
		}
		raw[i] = rows
	}
	known, err := a.smoothed(set, raw)
	if err != nil {
		return nil, err
	}
	p.known = known
	p.rows = make([][][]surveyTerm, len(candidates))
	for i, rows := range raw {
		p.rows[i] = make([][]surveyTerm, len(rows))
		for r, e := range rows {
			p.rows[i][r] = p.known.weighted(e)
		}
	}
	p.unseen = a.newParts(set, goal.terms)
	p.brings = make([]map[unknown]bool, len(candidates))
	for i, rows := range raw {
		p.brings[i] = map[unknown]bool{}
		for _, e := range rows {
			for part := range a.newParts(set, e.terms) {
				p.brings[i][part] = true
			}
		}
	}
	for _, t := range goal.terms {
		p.feature = append(p.feature, surveyTerm{t.unknown, t.weight / p.known.scale[t.unknown]})
	}
	return p, nil
}

// newParts returns the parts of the machine, a curve counting as one, that the
// terms name and the survey has not seen.
func (a *Adjustment) newParts(set *unknowns, terms []surveyTerm) map[unknown]bool {
	parts := map[unknown]bool{}
	for _, t := range terms {
		if t.unknown >= a.set.len() {
			key := set.key(t.unknown)
			parts[unknown{family: key.family, of: key.of}] = true
		}
	}
	return parts
}

// touched reports whether every part of the feature will have been seen once
// candidate i is read; with i < 0, whether it has been.
func (p *planner) touched(i int) bool {
	for part := range p.unseen {
		if i < 0 || !p.brings[i][part] {
			return false
		}
	}
	return true
}

// candidateRows returns the candidate's readings as rows over the set, which
// learns the unknowns that they bring.
func candidateRows(set *unknowns, candidate Candidate) ([]equation, error) {
	b := surveyBuilder{set: set}
	b.observe(candidate.Observations)
	if b.err != nil {
		return nil, b.err
	}
	if len(b.equations) == 0 {
		return nil, fmt.Errorf("it has no readings")
	}
	return b.equations, nil
}

// smoothed returns what is known of the survey's unknowns and of those that the
// candidates bring, the smoothness of curves that nobody had seen before
// included.
func (a *Adjustment) smoothed(set *unknowns, candidates [][]equation) (knowledge, error) {
	b := surveyBuilder{set: set}
	b.smooth(a.options)
	if b.err != nil {
		return knowledge{}, b.err
	}
	known := a.known.extended(set.len(), append(candidates[:len(candidates):len(candidates)], b.equations))
	if len(b.equations) == 0 {
		return known, nil
	}
	rows := make([][]surveyTerm, len(b.equations))
	for i, e := range b.equations {
		rows[i] = known.weighted(e)
	}
	return known.update(rows)
}

// extended returns what is known of n unknowns, those beyond the survey's own
// being free. Their scales come from the rows.
func (k knowledge) extended(n int, candidates [][]equation) knowledge {
	old := len(k.scale)
	out := knowledge{scale: append([]float64(nil), k.scale...), cov: mat.NewDense(n, n, nil)}
	out.cov.Slice(0, old, 0, old).(*mat.Dense).Copy(k.cov)
	for len(out.scale) < n {
		out.scale = append(out.scale, 0)
	}
	for _, rows := range candidates {
		for _, e := range rows {
			for _, t := range e.terms {
				if t.unknown >= old {
					out.scale[t.unknown] = math.Max(out.scale[t.unknown], math.Abs(t.weight/e.u))
				}
			}
		}
	}
	for i := old; i < n; i++ {
		if out.scale[i] == 0 {
			out.scale[i] = 1
		}
	}
	q := k.freeCount()
	if q+n-old > 0 {
		out.free = mat.NewDense(n, q+n-old, nil)
		for j := range q {
			for i := range old {
				out.free.Set(i, j, k.free.At(i, j))
			}
		}
		for i := old; i < n; i++ {
			out.free.Set(i, q+i-old, 1)
		}
	}
	return out
}

// rank returns what each candidate not yet taken would do, the best first.
func (p *planner) rank() []NextReading {
	before := p.now()
	covF := p.known.covTimes(p.feature)
	var list []NextReading
	for i, rows := range p.rows {
		if rows == nil {
			continue
		}
		next := NextReading{Name: p.candidates[i].Name, Minutes: p.candidates[i].Minutes, Before: before, place: i}
		next.After = p.after(i, before, covF)
		switch {
		case next.After.Determined && !before.Determined:
			next.PerMinute = math.Inf(1)
		case next.After.Determined:
			next.PerMinute = math.Max(before.U-next.After.U, 0) / next.Minutes
		}
		list = append(list, next)
	}
	sort.SliceStable(list, func(i, j int) bool {
		if list[i].PerMinute != list[j].PerMinute {
			return list[i].PerMinute > list[j].PerMinute
		}
		return list[i].After.Determined && list[i].After.U*math.Sqrt(list[i].Minutes) < list[j].After.U*math.Sqrt(list[j].Minutes)
	})
	return list
}

// now returns how well the feature is known.
func (p *planner) now() Estimate {
	if !p.touched(-1) || norm2(p.known.alongFree(p.feature)) > freeTolerance*termNorm(p.feature) {
		return Estimate{Kind: p.kind, Why: "These readings do not tell it."}
	}
	return Estimate{Kind: p.kind, Determined: true, U: math.Sqrt(math.Max(p.known.quadratic(p.feature), 0))}
}

func termNorm(terms []surveyTerm) float64 {
	var sum float64
	for _, t := range terms {
		sum += t.weight * t.weight
	}
	return math.Sqrt(sum)
}

// covTimes returns the covariance of every unknown with a sum of unknowns.
func (k knowledge) covTimes(terms []surveyTerm) []float64 {
	n := len(k.scale)
	out := make([]float64, n)
	raw := k.cov.RawMatrix()
	for _, t := range terms {
		row := raw.Data[t.unknown*raw.Stride : t.unknown*raw.Stride+n]
		for i, c := range row {
			out[i] += t.weight * c
		}
	}
	return out
}

// after returns how well the feature would be known with candidate i.
func (p *planner) after(i int, before Estimate, covF []float64) Estimate {
	rows := p.rows[i]
	u, err := p.known.reduce(rows)
	if err != nil {
		return before
	}
	k := make([]float64, len(rows))
	for r, row := range rows {
		k[r] = dotTerms(row, covF)
	}
	u.forward(k)
	free := p.known.alongFree(p.feature)
	variance := p.known.quadratic(p.feature) - norm2(k)*norm2(k)
	// What it costs that the free part of the feature must be settled first:
	// along a singular direction M is sigma times its image.
	for s, direction := range u.directions {
		var share, coupling float64
		for j, d := range direction {
			share += d * free[j]
		}
		for r, x := range u.images[s] {
			coupling += x * k[r]
		}
		cost := share/u.sigma[s] - coupling
		variance += cost * cost
	}
	if !p.touched(i) || norm2(u.left(free)) > freeTolerance*termNorm(p.feature) {
		return Estimate{Kind: p.kind, Why: "These readings would still not tell it."}
	}
	return Estimate{Kind: p.kind, Determined: true, U: math.Sqrt(math.Max(variance, 0))}
}

// take adds the candidate's readings to what is known.
func (p *planner) take(i int) error {
	known, err := p.known.update(p.rows[i])
	if err != nil {
		return fmt.Errorf("squaring: candidate %d, %s: %w", i+1, p.candidates[i].Name, err)
	}
	p.known, p.rows[i] = known, nil
	for part := range p.brings[i] {
		delete(p.unseen, part)
	}
	return nil
}
