package wear

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// Inside the model heights are in micrometres, slopes in micrometres per metre
// and places in metres.
const waysScale = 1e6

// wayTerm is weight times the depth of a way at a place.
type wayTerm struct {
	rear       bool
	at, weight float64
}

// extra is weight times one of the numbers that are not wear.
type extra struct {
	number int
	weight float64
}

// waySum is a reading without its error.
type waySum struct {
	terms  []wayTerm
	extras []extra
}

// wayModel is all readings in one row.
type wayModel struct {
	sums    []waySum
	value   []float64 // readings; not used for pockets
	noise   []float64 // their variances
	pockets []pocketLikelihood
	firstP  int       // the index of the first pocket reading
	spread  float64   // of single pockets
	fresh   float64   // depth when new
	extras  []float64 // prior variances of the numbers that are not wear
	bow     int       // the number of the bow under the dial, or -1
	scale   float64   // about as deep as the wear is
	span    float64   // of the ways, in m
}

// free is the prior standard deviation of a number of which nothing is known, in
// micrometres and micrometres per metre.
const free = 1e4

func newWayModel(r WayReadings) *wayModel {
	from, to := r.reach()
	m := &wayModel{bow: -1, scale: 1, span: math.Max(float64(to-from), 1e-3)}
	half, apart := float64(r.Bearing)/2, float64(r.Apart)
	m.addSlopes(r.Along, func(u float64) []wayTerm { return alongTerms(u, half) }, float64(r.Bearing))
	m.addSlopes(r.Across, func(u float64) []wayTerm { return acrossTerms(u, half, apart, 1) }, apart)
	m.addTracks(r, half, apart)
	m.addPockets(r)
	return m
}

func alongTerms(u, half float64) []wayTerm {
	w := 1 / (4 * half)
	return []wayTerm{{false, u - half, w}, {true, u - half, w}, {false, u + half, -w}, {true, u + half, -w}}
}

func acrossTerms(u, half, apart, times float64) []wayTerm {
	w := times / (2 * apart)
	return []wayTerm{{false, u - half, w}, {false, u + half, w}, {true, u - half, -w}, {true, u + half, -w}}
}

func heightTerms(u, half, apart, across float64) []wayTerm {
	terms := acrossTerms(u, half, apart, across)
	for i := range terms {
		terms[i].weight -= 0.25
	}
	return terms
}

// unknown adds a number with a prior standard deviation and returns its number.
func (m *wayModel) unknown(sd float64) int {
	m.extras = append(m.extras, sd*sd)
	return len(m.extras) - 1
}

func (m *wayModel) add(sum waySum, value, u float64) {
	m.sums, m.value, m.noise = append(m.sums, sum), append(m.value, value), append(m.noise, u*u)
}

func (m *wayModel) addSlopes(points []SlopePoint, terms func(u float64) []wayTerm, lever float64) {
	if len(points) == 0 {
		return
	}
	lean, low, high := m.unknown(free), math.Inf(1), math.Inf(-1)
	for _, p := range points {
		s := float64(p.Slope) * waysScale
		m.add(waySum{terms(float64(p.Position)), []extra{{lean, 1}}}, s, float64(p.U)*waysScale)
		low, high = math.Min(low, s), math.Max(high, s)
	}
	m.scale = math.Max(m.scale, (high-low)*lever)
}

func (m *wayModel) addTracks(r WayReadings, half, apart float64) {
	if r.TopBow > 0 && len(r.Tracks) > 0 {
		m.bow = m.unknown(float64(r.TopBow) * waysScale)
	}
	first, last := math.Inf(1), math.Inf(-1)
	for _, t := range r.Tracks {
		for _, p := range t.Points {
			first, last = math.Min(first, float64(p.Position)), math.Max(last, float64(p.Position))
		}
	}
	middle, reach := (first+last)/2, math.Max((last-first)/2, 1e-9)
	for _, t := range r.Tracks {
		zero, line, low, high := m.unknown(free), m.unknown(free), math.Inf(1), math.Inf(-1)
		for _, p := range t.Points {
			u, h := float64(p.Position), float64(p.Height)*waysScale
			sum := waySum{heightTerms(u, half, apart, float64(t.Across)), []extra{{zero, 1}, {line, u - middle}}}
			if m.bow >= 0 {
				sum.extras = append(sum.extras, extra{m.bow, 1 - math.Pow((u-middle)/reach, 2)})
			}
			m.add(sum, h, float64(t.U)*waysScale)
			low, high = math.Min(low, h), math.Max(high, h)
		}
		if len(t.Points) > 0 {
			m.scale = math.Max(m.scale, high-low)
		}
	}
}

func (m *wayModel) addPockets(r WayReadings) {
	m.firstP = len(m.sums)
	if len(r.Front)+len(r.Rear) == 0 {
		return
	}
	m.spread, m.fresh = float64(r.Pockets.Spread)*waysScale, float64(r.Pockets.New)*waysScale
	m.scale = math.Max(m.scale, m.spread)
	fresh := m.unknown(float64(r.Pockets.NewU) * waysScale)
	for k, stations := range [][]PocketStation{r.Front, r.Rear} {
		for _, s := range stations {
			p := pocketLikelihood{mean: float64(s.Depth / r.Pockets.Spread), floor: float64(r.Pockets.Floor / r.Pockets.Spread),
				found: float64(s.Found), missing: float64(s.Total - s.Found)}
			start := m.fresh - p.mean*m.spread
			if s.Found == 0 {
				start = m.fresh - p.floor*m.spread + m.spread
			}
			m.scale = math.Max(m.scale, start)
			m.pockets = append(m.pockets, p)
			m.add(waySum{[]wayTerm{{k == 1, float64(s.Place), 1}}, []extra{{fresh, -1}}}, start, 0)
		}
	}
}

// matern returns the Matern 5/2 correlation at a distance in lengths.
func matern(distance float64) float64 {
	r := math.Sqrt(5) * distance
	return (1 + r + r*r/3) * math.Exp(-r)
}

// ofWear returns the covariance of the wear in two sums for a process of unit
// depth.
func ofWear(a, b waySum, length float64) float64 {
	var sum float64
	for _, p := range a.terms {
		for _, q := range b.terms {
			if p.rear == q.rear {
				sum += p.weight * q.weight * matern(math.Abs(p.at-q.at)/length)
			}
		}
	}
	return sum
}

// ofExtras returns the covariance of the numbers that are not wear.
func (m *wayModel) ofExtras(a, b waySum) float64 {
	var sum float64
	for _, p := range a.extras {
		for _, q := range b.extras {
			if p.number == q.number {
				sum += p.weight * q.weight * m.extras[p.number]
			}
		}
	}
	return sum
}

// wayState is the fit at one depth and length of the process.
type wayState struct {
	factor   mat.Cholesky  // of the readings' covariance, errors included
	alpha    *mat.VecDense // its inverse times the readings
	fitted   *mat.VecDense // the readings as explained
	evidence float64       // log likelihood of the readings, up to a constant
}

// settle finds the most likely readings without their errors, by Newton's method
// on the pockets' likelihood, for a covariance of the sums.
func (m *wayModel) settle(k *mat.SymDense) (wayState, bool) {
	n := len(m.sums)
	var s wayState
	target, noise := mat.NewVecDense(n, append([]float64(nil), m.value...)), append([]float64(nil), m.noise...)
	at := append([]float64(nil), m.value...)
	s.alpha, s.fitted = mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	for range 60 {
		for i, p := range m.pockets {
			_, first, second := p.slopes((m.fresh - at[m.firstP+i]) / m.spread)
			weight := math.Max(-second, 1e-6) / m.spread / m.spread
			noise[m.firstP+i] = 1 / weight
			target.SetVec(m.firstP+i, at[m.firstP+i]-first/m.spread/weight)
		}
		v := mat.NewSymDense(n, nil)
		v.CopySym(k)
		for i := range n {
			v.SetSym(i, i, v.At(i, i)+noise[i])
		}
		if !s.factor.Factorize(v) {
			return s, false
		}
		if err := s.factor.SolveVecTo(s.alpha, target); err != nil && !isCondition(err) {
			return s, false
		}
		s.fitted.MulVec(k, s.alpha)
		moved := 0.0
		for i := m.firstP; i < n; i++ {
			step := math.Max(math.Min(s.fitted.AtVec(i)-at[i], 3*m.spread), -3*m.spread)
			at[i] += step
			moved = math.Max(moved, math.Abs(step))
		}
		if moved <= 1e-6*m.spread {
			break
		}
	}
	s.evidence = -mat.Dot(s.alpha, s.fitted)/2 - s.factor.LogDet()/2
	for i := range n {
		if i < m.firstP {
			s.evidence -= math.Pow(m.value[i]-s.fitted.AtVec(i), 2) / noise[i] / 2
			continue
		}
		value, _, _ := m.pockets[i-m.firstP].slopes((m.fresh - s.fitted.AtVec(i)) / m.spread)
		s.evidence += value + math.Log(noise[i])/2
	}
	return s, finite(s.evidence)
}

// The depths and lengths of the process that are averaged over: depths as shares
// of the scale of the readings, lengths as shares of the ways.
func wayDepths() []float64  { return []float64{0.25, 0.5, 1, 2} }
func wayLengths() []float64 { return []float64{0.12, 0.2, 0.33, 0.55, 0.9} }

// wayAnswer is the prediction of the wanted sums at one depth and length.
type wayAnswer struct {
	evidence    float64
	mean        *mat.VecDense // of the wanted sums
	spread      *mat.SymDense
	prior       *mat.SymDense
	fitted      *mat.VecDense
	depthSquare float64
}

// average returns the fit averaged over the grid.
func (m *wayModel) average(r WayReadings, places []unit.Length) (WayFit, error) {
	wanted := m.wanted(places)
	var answers []wayAnswer
	best := math.Inf(-1)
	for _, share := range wayLengths() {
		for _, a := range m.atLength(share*m.span, best, wanted) {
			answers, best = append(answers, a), math.Max(best, a.evidence)
		}
	}
	if len(answers) == 0 {
		return WayFit{}, errors.New("wear: the ways cannot be computed: readings or uncertainties are too far apart in size")
	}
	n := len(wanted)
	mean, fitted := mat.NewVecDense(n, nil), mat.NewVecDense(len(m.sums), nil)
	var sum, depth float64
	for i := range answers {
		weight := math.Exp(answers[i].evidence - best)
		answers[i].evidence, sum = weight, sum+weight
	}
	cov, prior := mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	for _, a := range answers {
		mean.AddScaledVec(mean, a.evidence/sum, a.mean)
		fitted.AddScaledVec(fitted, a.evidence/sum, a.fitted)
		depth += a.evidence / sum * a.depthSquare
	}
	for _, a := range answers {
		off := mat.NewVecDense(n, nil)
		off.SubVec(a.mean, mean)
		a.spread.SymRankOne(a.spread, 1, off)
		addScaled(cov, a.evidence/sum, a.spread)
		addScaled(prior, a.evidence/sum, a.prior)
	}
	fit := WayFit{PriorU: unit.Length(math.Sqrt(depth) / waysScale)}
	fit.write(m, r, places, mean, cov, prior)
	fit.left(m, r, fitted)
	return fit, nil
}

func addScaled(to *mat.SymDense, f float64, s *mat.SymDense) {
	n := to.SymmetricDim()
	for i := range n {
		for j := i; j < n; j++ {
			to.SetSym(i, j, to.At(i, j)+f*s.At(i, j))
		}
	}
}

// wanted returns the depths in front, then at the rear, then the bow.
func (m *wayModel) wanted(places []unit.Length) []waySum {
	var w []waySum
	for _, rear := range []bool{false, true} {
		for _, u := range places {
			w = append(w, waySum{terms: []wayTerm{{rear, float64(u), 1}}})
		}
	}
	if m.bow >= 0 {
		w = append(w, waySum{extras: []extra{{m.bow, 1}}})
	}
	return w
}

// negligible is how far below the best evidence an answer is left out: a weight of
// less than a millionth.
const negligible = 15

// atLength returns the answers for one length and all depths, without those whose
// evidence is negligible beside the best so far.
func (m *wayModel) atLength(length, best float64, wanted []waySum) []wayAnswer {
	n, w := len(m.sums), len(wanted)
	unitK, extraK := mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			unitK.SetSym(i, j, ofWear(m.sums[i], m.sums[j], length))
			extraK.SetSym(i, j, m.ofExtras(m.sums[i], m.sums[j]))
		}
	}
	unitC, extraC := mat.NewDense(n, w, nil), mat.NewDense(n, w, nil)
	unitP, extraP := mat.NewSymDense(w, nil), mat.NewSymDense(w, nil)
	for j := range w {
		for i := range n {
			unitC.Set(i, j, ofWear(m.sums[i], wanted[j], length))
			extraC.Set(i, j, m.ofExtras(m.sums[i], wanted[j]))
		}
		for i := range j + 1 {
			unitP.SetSym(i, j, ofWear(wanted[i], wanted[j], length))
			extraP.SetSym(i, j, m.ofExtras(wanted[i], wanted[j]))
		}
	}
	var answers []wayAnswer
	for _, share := range wayDepths() {
		square := math.Pow(share*m.scale, 2)
		k := mat.NewSymDense(n, nil)
		addScaled(k, square, unitK)
		addScaled(k, 1, extraK)
		state, ok := m.settle(k)
		if !ok || state.evidence < best-negligible {
			continue
		}
		best = math.Max(best, state.evidence)
		cross, prior := mat.NewDense(n, w, nil), mat.NewSymDense(w, nil)
		cross.Scale(square, unitC)
		cross.Add(cross, extraC)
		addScaled(prior, square, unitP)
		addScaled(prior, 1, extraP)
		if a, ok := state.predict(cross, prior); ok {
			a.depthSquare = square
			answers = append(answers, a)
		}
	}
	return answers
}

func (s wayState) predict(cross *mat.Dense, prior *mat.SymDense) (wayAnswer, bool) {
	_, w := cross.Dims()
	a := wayAnswer{evidence: s.evidence, mean: mat.NewVecDense(w, nil), spread: mat.NewSymDense(w, nil), prior: prior, fitted: s.fitted}
	a.mean.MulVec(cross.T(), s.alpha)
	var solved, seen mat.Dense
	if err := s.factor.SolveTo(&solved, cross); err != nil && !isCondition(err) {
		return a, false
	}
	seen.Mul(cross.T(), &solved)
	for i := range w {
		for j := i; j < w; j++ {
			a.spread.SetSym(i, j, prior.At(i, j)-(seen.At(i, j)+seen.At(j, i))/2)
		}
		if !finite(a.mean.AtVec(i)) || !finite(a.spread.At(i, i)) {
			return a, false
		}
	}
	return a, true
}

// write puts the depths and their covariance into the fit.
func (f *WayFit) write(m *wayModel, r WayReadings, places []unit.Length, mean *mat.VecDense, cov, prior *mat.SymDense) {
	n := len(places)
	f.Ways = WornWays{Places: append([]unit.Length(nil), places...), Apart: r.Apart, Bearing: r.Bearing}
	sd := func(i int) unit.Length { return unit.Length(math.Sqrt(math.Max(cov.At(i, i), 0)) / waysScale) }
	for i := range n {
		f.Ways.Front = append(f.Ways.Front, unit.Length(mean.AtVec(i)/waysScale))
		f.Ways.Rear = append(f.Ways.Rear, unit.Length(mean.AtVec(n+i)/waysScale))
		f.FrontU, f.RearU = append(f.FrontU, sd(i)), append(f.RearU, sd(n+i))
	}
	if m.bow >= 0 {
		f.TopBow, f.TopBowU = unit.Length(mean.AtVec(2*n)/waysScale), sd(2*n)
	}
	f.Covariance, f.prior = mat.NewSymDense(2*n, nil), mat.NewSymDense(2*n, nil)
	for i := range 2 * n {
		for j := i; j < 2*n; j++ {
			f.Covariance.SetSym(i, j, cov.At(i, j)/waysScale/waysScale)
			f.prior.SetSym(i, j, prior.At(i, j)/waysScale/waysScale)
		}
	}
}

// left puts what is not explained into the fit.
func (f *WayFit) left(m *wayModel, r WayReadings, fitted *mat.VecDense) {
	next := 0
	rest := func() float64 { next++; return (m.value[next-1] - fitted.AtVec(next-1)) / waysScale }
	for range r.Along {
		f.AlongLeft = append(f.AlongLeft, Slope(rest()))
	}
	for range r.Across {
		f.AcrossLeft = append(f.AcrossLeft, Slope(rest()))
	}
	for _, t := range r.Tracks {
		track := make([]unit.Length, len(t.Points))
		for i := range track {
			track[i] = unit.Length(rest())
		}
		f.TracksLeft = append(f.TracksLeft, track)
	}
}
