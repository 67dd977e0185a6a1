package squaring

// What the readings cannot tell, in words. The free combinations are reduced to
// row echelon form, so that each names as few unknowns as it can, and each
// becomes a sentence: these may change together and no reading would notice.
// The cure is found by trying the usual readings on the model itself.

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// Undetermined is one combination of unknowns that the readings leave free.
type Undetermined struct {
	// Sentence says what cannot be told from what, and Cure which usual reading
	// would tell; Cure is empty when none of the usual ones does.
	Sentence, Cure string
	// Parties are what the sentence names, in its order.
	Parties []Party
	// Together are the unknowns that may change together, with their changes in
	// SI for one such change.
	Together []Change
}

// Party is one of those that cannot be told apart: an unknown, or a whole curve
// or shape as far as it may change.
type Party struct {
	// Name says what it is, without a place.
	Name string
	// Curve says that it is a curve or a shape; From and To are then the ends of
	// the stretch that may change, as table travel or as place on the bar.
	Curve    bool
	From, To unit.Length
	// OfSetup says that it belongs to a set-up or a gauge, not to the machine.
	OfSetup bool
}

// String returns the name, with its places in millimetres.
func (p Party) String() string {
	switch {
	case !p.Curve:
		return p.Name
	case p.From == p.To:
		return p.Name + " at " + millimetres(p.From)
	}
	return fmt.Sprintf("%s from %s to %s", p.Name, millimetres(p.From), millimetres(p.To))
}

// Change is a change of one unknown.
type Change struct {
	// Name says which unknown.
	Name string
	// Kind says whether Amount is a length or a slope.
	Kind SurveyKind
	// Amount is the change in SI.
	Amount float64

	key unknown
}

// Undetermined returns the combinations of unknowns that no reading sees, the
// machine's before the set-ups' own. It is empty when every unknown is
// determined.
func (a *Adjustment) Undetermined() []Undetermined {
	var list []Undetermined
	usual := map[[2]string]*remedies{}
	for _, free := range a.free {
		together := a.changes(free.direction)
		epoch, head := a.epochAndHead(free.direction)
		tried, ok := usual[[2]string{epoch, head}]
		if !ok {
			tried = &remedies{of: a, untried: a.usual(epoch, head)}
			usual[[2]string{epoch, head}] = tried
		}
		list = append(list, Undetermined{Sentence: sentence(together), Cure: tried.cure(free), Parties: partiesOf(together), Together: together})
	}
	sort.SliceStable(list, func(i, j int) bool {
		return !list[i].Together[0].key.family.ofSetup() && list[j].Together[0].key.family.ofSetup()
	})
	return list
}

// freeCombination is a combination of scaled unknowns that no reading sees.
type freeCombination struct {
	direction []float64
	// pivot is an unknown that is in no other combination: whatever tells it
	// settles this one.
	pivot int
}

// echelon returns a basis of the free combinations in which each has an unknown
// of its own and as many noughts as can be: reduced row echelon form with
// complete pivoting.
func (k knowledge) echelon() []freeCombination {
	q := k.freeCount()
	if q == 0 {
		return nil
	}
	n, _ := k.free.Dims()
	rows := make([][]float64, q)
	pivots := make([]int, q)
	for j := range rows {
		rows[j] = mat.Col(nil, j, k.free)
	}
	for done := range rows {
		best, pivot := done, 0
		for i := done; i < q; i++ {
			for c := range n {
				if math.Abs(rows[i][c]) > math.Abs(rows[best][pivot])*(1+1e-9) {
					best, pivot = i, c
				}
			}
		}
		rows[done], rows[best] = rows[best], rows[done]
		pivots[done] = pivot
		lead := rows[done][pivot]
		for c := range rows[done] {
			rows[done][c] /= lead
		}
		for i := range rows {
			if factor := rows[i][pivot]; i != done && factor != 0 {
				for c := range rows[i] {
					rows[i][c] -= factor * rows[done][c]
				}
			}
		}
	}
	list := make([]freeCombination, q)
	for j, r := range rows {
		for c := range r {
			if math.Abs(r[c]) < freeTolerance {
				r[c] = 0
			}
		}
		list[j] = freeCombination{direction: r, pivot: pivots[j]}
	}
	return list
}

// changes returns a free combination as changes of unknowns, the machine's
// first, scaled so that the largest slope is 100 um/m or, without slopes, the
// largest length 10 um.
func (a *Adjustment) changes(direction []float64) []Change {
	var list []Change
	most := map[SurveyKind]float64{}
	for i, d := range direction {
		if d == 0 {
			continue
		}
		key := a.set.key(i)
		kind := familyFacts[key.family].kind
		amount := d / a.known.scale[i]
		most[kind] = math.Max(most[kind], math.Abs(amount))
		list = append(list, Change{Name: key.name(), Kind: kind, Amount: amount, key: key})
	}
	sort.SliceStable(list, func(i, j int) bool { return less(list[i].key, list[j].key) })
	factor := 0.0
	if len(list) > 0 {
		factor = 100e-6 / most[SlopeValue]
		if most[SlopeValue] == 0 {
			factor = 10e-6 / most[LengthValue]
		}
		factor = math.Copysign(factor, list[0].Amount)
	}
	for i := range list {
		list[i].Amount *= factor
	}
	return list
}

// less orders unknowns by family, owner and place.
func less(a, b unknown) bool {
	if a.family != b.family {
		return a.family < b.family
	}
	if a.of != b.of {
		return a.of < b.of
	}
	return a.place < b.place
}

// sentence says what the changes mean: one party alone is not seen at all,
// several cannot be told apart.
func sentence(together []Change) string {
	parties := partiesOf(together)
	switch len(parties) {
	case 0:
		return ""
	case 1:
		return "No reading says anything about the " + parties[0].String() + "."
	}
	var machine, setup []string
	for _, p := range parties {
		if p.OfSetup {
			setup = append(setup, "the "+p.String())
		} else {
			machine = append(machine, "the "+p.String())
		}
	}
	names := append(machine, setup...)
	if len(machine) > 0 && len(setup) > 3 {
		names = append(machine, fmt.Sprintf("%d zeros, ramps and shapes of set-ups", len(setup)))
	}
	return fmt.Sprintf("These readings cannot tell %s from %s.", names[0], joinNames(names[1:]))
}

// partiesOf gathers the changes of one curve or one bar under one name.
func partiesOf(together []Change) []Party {
	var parties []Party
	for i := 0; i < len(together); {
		key := together[i].key
		j := i
		for j < len(together) && together[j].key.family == key.family && together[j].key.of == key.of {
			j++
		}
		p := Party{Name: key.group(), OfSetup: key.family.ofSetup()}
		if key.family.isCurve() || key.family == barShapeOf {
			p.Curve = true
			p.From, p.To = unit.Length(float64(key.place)*1e-6), unit.Length(float64(together[j-1].key.place)*1e-6)
		}
		parties = append(parties, p)
		i = j
	}
	return parties
}

// joinNames joins names as a person would say them.
func joinNames(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// why says why a sum of scaled unknowns is undetermined, by the free
// combination that has most of it.
func (a *Adjustment) why(scaled []surveyTerm) string {
	var most float64
	var worst []float64
	for _, free := range a.free {
		if share := math.Abs(dotTerms(scaled, free.direction)); share > most {
			most, worst = share, free.direction
		}
	}
	if worst == nil {
		return "These readings do not tell it."
	}
	return sentence(a.changes(worst))
}

// remedy is one of the usual readings, set up over the survey's unknowns.
type remedy struct {
	name    string
	known   knowledge
	reduced *reduction
}

// remedies are the usual readings for an epoch and a head setting, the quickest
// first. Each is set up only when those before it have not served.
type remedies struct {
	of      *Adjustment
	untried []Candidate
	ready   []remedy
}

// cure returns the first of the usual readings that would settle the free
// combination, whatever its own new zeros do, in words; empty when none does.
func (r *remedies) cure(free freeCombination) string {
	for i := 0; ; i++ {
		for i == len(r.ready) && len(r.untried) > 0 {
			r.setUp()
		}
		if i == len(r.ready) {
			return ""
		}
		share := r.ready[i].known.alongFree([]surveyTerm{{free.pivot, 1}})
		if name := r.ready[i].name; norm2(r.ready[i].reduced.left(share)) < freeTolerance {
			return strings.ToUpper(name[:1]) + name[1:] + " would tell."
		}
	}
}

// setUp makes the next of the untried ready, if it can be read on this survey.
func (r *remedies) setUp() {
	candidate := r.untried[0]
	r.untried = r.untried[1:]
	set := r.of.set.over()
	rows, err := candidateRows(set, candidate)
	if err != nil {
		return
	}
	known, err := r.of.smoothed(set, [][]equation{rows})
	if err != nil {
		return
	}
	weighted := make([][]surveyTerm, len(rows))
	for i, e := range rows {
		weighted[i] = known.weighted(e)
	}
	if reduced, err := known.reduce(weighted); err == nil {
		r.ready = append(r.ready, remedy{candidate.Name, known, reduced})
	}
}

// epochAndHead returns an epoch and a head setting that the survey knows, those
// of the combination if it has any.
func (a *Adjustment) epochAndHead(direction []float64) (epoch, head string) {
	for pass := range 2 {
		for i := a.set.len() - 1; i >= 0; i-- {
			if pass == 1 && direction[i] == 0 {
				continue
			}
			switch key := a.set.key(i); {
			case key.family <= tiltY:
				head = key.of
			case key.family.isCurve() || key.family >= kneeX && key.family <= squareXY:
				epoch = key.of
			}
		}
	}
	return epoch, head
}

// usual returns the readings that a shop would think of, the quickest first.
func (a *Adjustment) usual(epoch, head string) []Candidate {
	datum := a.options.Datum
	k := a.set.knots
	from, to := unit.Length(k.at(k.first)), unit.Length(k.at(k.last))
	const u, uSlope = 2e-6, 5 * Microradian // any uncertainty will do: only what is seen matters
	named := func(what string) Setup { return Setup{Name: "next: " + what, Epoch: epoch, Head: head} }
	sweep := func(x unit.Length, where string) Candidate {
		name := "a sweep with the table at " + where
		return Candidate{Name: name, Observations: []Observation{ObservedSweep{Setup: named(name), X: x, Radius: 0.1,
			Readings: evenRound(8), ReadingU: u}}}
	}
	run := func(track unit.Length, where string) Candidate {
		name := "a run of the table under a still dial, on " + where
		return Candidate{Name: name, Observations: []Observation{ObservedRun{Setup: named(name), Track: track,
			Readings: evenRun(from, to, 9), ReadingU: u}}}
	}
	level := func(reversed bool) Candidate {
		name := "a level on the table along the travel"
		if reversed {
			name += ", turned end for end at each station"
		}
		o := ObservedLevel{Setup: named(name), ReadingU: uSlope}
		for _, r := range evenRun(from, to, 7) {
			for _, axis := range []SurveyAxis{AlongX, AlongY} {
				o.Readings = append(o.Readings, LevelReading{X: r.X, Axis: axis})
				if reversed {
					o.Readings = append(o.Readings, LevelReading{X: r.X, Axis: axis, Reversed: true})
				}
			}
		}
		return Candidate{Name: name, Observations: []Observation{o}}
	}
	middle := "X = 0"
	if datum != 0 {
		middle = "X = " + millimetres(datum)
	}
	candidates := []Candidate{sweep(datum, middle), sweep(from, "the left end of its travel"), sweep(to, "the right end of its travel")}
	candidates = append(candidates, a.reversals(named("reversal"))...)
	return append(candidates, run(0, "the middle track"), run(0.08, "a track behind the middle"), level(false), level(true),
		Candidate{Name: "a square on the table with the knee raised, both ways of the square", Observations: bothWays(named("square"), datum)},
		Candidate{Name: "four holes stepped off and both diagonals measured", Observations: []Observation{
			ObservedDiagonals{Setup: named("holes"), A: 0.3, B: 0.16, ReadingU: u}}})
}

// reversals returns, for each gauge whose own error the survey does not know,
// that gauge turned.
func (a *Adjustment) reversals(setup Setup) []Candidate {
	var candidates []Candidate
	for i := range a.set.len() {
		key := a.set.key(i)
		switch key.family {
		case mismatchOf:
			candidates = append(candidates, Candidate{Name: "the " + key.of + " turned half a turn", Observations: []Observation{
				ObservedTwoDial{Setup: setup, Gauge: key.of, X: a.options.Datum, Span: 0.19, ReadingU: 2e-6,
					Readings: []TwoDialReading{{Azimuth: 0}, {Azimuth: 90 * Degree}, {Azimuth: 180 * Degree}, {Azimuth: 270 * Degree}}}}})
		case levelZeroOf:
			o := ObservedLevel{Setup: setup, Gauge: key.of, ReadingU: 5 * Microradian}
			for _, axis := range []SurveyAxis{AlongX, AlongY} {
				o.Readings = append(o.Readings, LevelReading{X: a.options.Datum, Axis: axis}, LevelReading{X: a.options.Datum, Axis: axis, Reversed: true})
			}
			candidates = append(candidates, Candidate{Name: "the level turned end for end", Observations: []Observation{o}})
		case squareErrorOf:
			o := bothWays(setup, a.options.Datum)
			for i, observation := range o {
				knee := observation.(ObservedKnee)
				knee.Square = key.of
				o[i] = knee
			}
			candidates = append(candidates, Candidate{Name: "the square turned end for end", Observations: o})
		case barShapeOf:
			if i > 0 && a.set.key(i-1).family == barShapeOf {
				continue
			}
			k := a.set.knots
			o := ObservedBar{Setup: setup, Bar: key.of, ReadingU: 2e-6}
			o.Readings = evenRun(unit.Length(k.at(k.first)), unit.Length(k.at(k.last)), k.last-k.first+1)
			up, down := o, o
			up.Name, down.Name, down.Down = "bar up", "bar down", true
			candidates = append(candidates, Candidate{Name: "the bar rolled over", Observations: []Observation{up, down}})
		}
	}
	return candidates
}

// bothWays is a square on the knee, as marked and turned, in both directions.
func bothWays(setup Setup, x unit.Length) []Observation {
	var observations []Observation
	for _, axis := range []SurveyAxis{AlongX, AlongY} {
		for _, turned := range []bool{false, true} {
			o := ObservedKnee{Setup: setup, Square: "the next square", Axis: axis, Turned: turned, X: x, ReadingU: 2e-6,
				Readings: []KneeReading{{Z: 0}, {Z: 0.05}, {Z: 0.1}, {Z: 0.15}}}
			o.Name = fmt.Sprintf("%s %d %v", setup.Name, axis, turned)
			observations = append(observations, o)
		}
	}
	return observations
}

// evenRound is a round of readings of nought.
func evenRound(n int) []SweepReading {
	readings := make([]SweepReading, n)
	for i := range readings {
		readings[i].Azimuth = unit.Angle(2 * math.Pi * float64(i) / float64(n))
	}
	return readings
}

// evenRun is a run of readings of nought.
func evenRun(from, to unit.Length, n int) []TravelReading {
	readings := make([]TravelReading, n)
	for i := range readings {
		readings[i].X = from + (to-from)*unit.Length(float64(i)/float64(n-1))
	}
	return readings
}
