package plating

// Newton's method on the electrodes. On each element the state is a pair of
// current density j and overpotential eta that obeys the kinetics exactly; the
// equations ask that the field agree,
//
//	G j + kappa H (V - E + eta) = c d,  sum of area times j = 0
//
// with G and H those of the network, V the metal's potential and E that at rest;
// c and the balance are there in three dimensions only. A step
// moves along the tangent of the kinetics and then back onto the curve in
// whichever of j and eta is the gentler there, which tames both the exponential
// and the limiting current.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// largestResidual is the disagreement, as a share of the mean current density,
// at which Newton's method stops; mostSteps is when it gives up.
const (
	largestResidual = 1e-9
	mostSteps       = 80
)

// state is a solution under way on one mesh.
type state struct {
	// current density in A/m2 and overpotential in V, positive for deposition,
	// on each electrode element.
	current, overpotential []float64
	// voltage of the cell in V, and the constant of the balance of charge in
	// A/m2.
	voltage, constant float64
	// residual and steps say how Newton's method went.
	residual float64
	steps    int
}

// problem is a network under conditions.
type problem struct {
	*network
	c     Conditions
	kappa float64
	// offset is added to the potential of each electrode element in V; it
	// serves tests of uneven electrodes and is usually nil.
	offset []float64
	// driven is how the solution's potential at each element answers the cell
	// voltage, and field is H driven.
	driven, field []float64
	// cathodeArea and anodeArea are those of parts and thieves and of anodes,
	// and resistance is the primary resistance of the cell, in three dimensions
	// a rough one: it guides and is in no answer.
	cathodeArea, anodeArea, resistance float64
	// newton has room for the equations of a step, and factors those that were
	// factorised last.
	newton  *mat.Dense
	factors *factors
}

// newProblem prepares a network for conditions known to be valid.
func newProblem(s *network, c Conditions) (*problem, error) {
	p := &problem{network: s, c: c, kappa: float64(c.Conductivity)}
	n := len(s.area)
	p.driven, p.field = make([]float64, n), make([]float64, n)
	for e := range n {
		switch {
		case !s.roles[e].electrode():
		case p.cathodic(e):
			p.cathodeArea += s.area[e]
			if s.farAnode {
				p.driven[e] = -1
			}
		default:
			p.anodeArea += s.area[e]
			p.driven[e] = 1
		}
	}
	p.product(p.field, nil, p.driven, 1)
	conductance := p.kappa * p.primary(p.field)
	p.resistance = 1 / conductance
	if !(conductance > 0) {
		return nil, fmt.Errorf("plating: no current finds a way from the anodes to the parts (conductance %.3g S)", conductance)
	}
	return p, p.checkLimit()
}

// roughAccuracy is the share of the potentials that may be left in the rough
// primary solution: most of them is the mean, which the balance takes up.
const roughAccuracy = 1e-4

// primary returns the current without kinetics that the driven potentials send
// to the cathodes, over the conductivity, in m.
func (p *problem) primary(field []float64) float64 {
	if p.single == nil {
		return -p.cathodeCurrent(field)
	}
	// The electrodes alone, without shields.
	n := len(p.area)
	size := n
	if p.balance != nil {
		size++
	}
	right := make([]float64, size)
	copy(right, field)
	multiply := func(dst, x []float64) {
		current := make([]float64, n)
		for e, r := range p.roles {
			if r.electrode() {
				current[e] = x[e]
			}
		}
		p.product(dst[:n], current, nil, 0)
		for e, r := range p.roles {
			if !r.electrode() {
				dst[e] += x[e]
			}
		}
		if size > n {
			for e, d := range p.balance {
				dst[e] += d * x[n]
			}
			dst[n] = p.charge(current)
		}
	}
	x, ok := minimalResidual(multiply, func([]float64) {}, right, roughAccuracy, 200)
	if !ok {
		return math.Sqrt(p.cathodeArea)
	}
	return -p.cathodeCurrent(x)
}

// cathodic reports whether an electrode element hangs on the cathode bar.
func (p *problem) cathodic(e int) bool { return p.roles[e].cathodic() }

// kinetics returns the law at an electrode element.
func (p *problem) kinetics(e int) Kinetics {
	if p.cathodic(e) {
		return p.c.Cathode
	}
	return p.c.Anode
}

// insulates reports whether an element passes no current. Its potential then
// stands in the place of the overpotential.
func (p *problem) insulates(e int) bool { return !p.roles[e].electrode() }

// charge returns the sum of a current density over all elements, as a mean in
// A/m2.
func (p *problem) charge(current []float64) float64 {
	return floats.Dot(current, p.area) / floats.Sum(p.area)
}

// cathodeCurrent returns the current in A that a current density brings to parts
// and thieves.
func (p *problem) cathodeCurrent(current []float64) float64 {
	sum := 0.0
	for e, a := range p.area {
		if p.cathodic(e) {
			sum += current[e] * a
		}
	}
	return sum
}

// checkLimit returns an error for a prescribed current over the limiting one.
func (p *problem) checkLimit() error {
	mean := float64(p.c.Current) / p.cathodeArea
	if limit := float64(p.c.Cathode.Limit); limit > 0 && mean >= limit {
		return fmt.Errorf("plating: current %s is a mean of %s on the cathodes, not below the limiting %s",
			inAmpere.of(float64(p.c.Current)), inAPerDM2.of(mean), inAPerDM2.of(limit))
	}
	return nil
}

// atRest returns the potential at rest of an electrode element.
func (p *problem) atRest(e int) float64 {
	if p.insulates(e) {
		return 0
	}
	rest := float64(p.kinetics(e).Equilibrium)
	if p.offset != nil {
		rest -= p.offset[e]
	}
	return rest
}

// solve runs Newton's method.
func (p *problem) solve() (*state, error) {
	st, err := p.start()
	if err != nil {
		return nil, err
	}
	scale := p.scale(st)
	miss := p.miss(st)
	for ; st.steps < mostSteps; st.steps++ {
		st.residual = p.norm(miss) / scale
		if st.residual < largestResidual {
			return st, nil
		}
		if st, miss, err = p.step(st, miss, scale); err != nil {
			return nil, err
		}
	}
	return nil, fmt.Errorf("plating: the current distribution did not settle in %d steps: residual %.2g of the mean current density", mostSteps, st.residual)
}

// scale returns the mean current density by which residuals are judged.
func (p *problem) scale(st *state) float64 {
	if p.c.Current > 0 {
		return float64(p.c.Current) / p.cathodeArea
	}
	sum := 0.0
	for e, j := range st.current {
		if p.cathodic(e) {
			sum += math.Abs(j) * p.area[e]
		}
	}
	return sum / p.cathodeArea
}

// miss returns by how much the field disagrees with the state at each element,
// in A/m2, and after them the charge left over and the excess of current, where
// there is a balance and where a current is prescribed, in A/m2 too.
func (p *problem) miss(st *state) []float64 {
	n := len(p.area)
	miss := make([]float64, n, n+2)
	p.product(miss, st.current, p.potential(st), p.kappa)
	if p.balance != nil {
		for e, d := range p.balance {
			miss[e] -= d * st.constant
		}
		miss = append(miss, p.charge(st.current))
	}
	if p.c.Current > 0 {
		miss = append(miss, (p.cathodeCurrent(st.current)-float64(p.c.Current))/p.cathodeArea)
	}
	return miss
}

// potential returns the potential of the solution at each element.
func (p *problem) potential(st *state) []float64 {
	potential := make([]float64, len(p.area))
	for e := range potential {
		potential[e] = st.voltage*p.driven[e] - p.atRest(e) + st.overpotential[e]
	}
	return potential
}

// norm returns the size of a miss as a current density: the root mean square
// over the area, or the miss of a total.
func (p *problem) norm(miss []float64) float64 {
	sum, area := 0.0, 0.0
	for e, a := range p.area {
		sum += a * miss[e] * miss[e]
		area += a
	}
	norm := math.Sqrt(sum / area)
	for _, v := range miss[len(p.area):] {
		norm = math.Max(norm, math.Abs(v))
	}
	return norm
}

// step takes one Newton step, shortened while it makes matters worse.
func (p *problem) step(st *state, miss []float64, scale float64) (*state, []float64, error) {
	slope := make([]float64, len(p.area))
	for e := range slope {
		k := p.kinetics(e)
		if p.insulates(e) {
			slope[e] = math.Inf(1)
			continue
		}
		if k.Exchange == 0 {
			slope[e] = float64(k.Resistance)
			continue
		}
		_, conductance := k.current(st.overpotential[e])
		slope[e] = 1 / conductance
	}
	full, err := p.linearStep(slope, miss)
	if err != nil {
		return nil, nil, err
	}
	before := p.norm(miss)
	var best *state
	var bestMiss []float64
	for share := 1.0; share > 1e-3; share /= 2 {
		try := p.moved(st, full, share)
		tryMiss := p.miss(try)
		norm := p.norm(tryMiss)
		if math.IsNaN(norm) || math.IsInf(norm, 0) {
			continue
		}
		if best == nil || norm < p.norm(bestMiss) {
			best, bestMiss = try, tryMiss
		}
		if norm < before || norm < largestResidual*scale {
			break
		}
	}
	if best == nil {
		return nil, nil, fmt.Errorf("plating: the current distribution runs away after %d steps: residual %.2g of the mean current density", st.steps, st.residual)
	}
	return best, bestMiss, nil
}

// linearStep solves the equations made linear, with the given slope of
// overpotential against current density on each element, for the step that
// takes a miss to zero.
func (p *problem) linearStep(slope, miss []float64) (*state, error) {
	n := len(p.area)
	t := newTangent(p, slope)
	x, err := t.solve(miss)
	if err != nil {
		return nil, err
	}
	step := &state{current: make([]float64, n), overpotential: make([]float64, n)}
	for e := range n {
		step.current[e], step.overpotential[e] = t.a[e]*x[e], t.b[e]*x[e]
	}
	x = x[n:]
	if p.balance != nil {
		step.constant, x = x[0], x[1:]
	}
	if len(x) > 0 {
		step.voltage = x[0]
	}
	return step, nil
}

// moved returns the state after a share of a step, put back on the kinetics.
func (p *problem) moved(st, step *state, share float64) *state {
	n := len(p.area)
	to := &state{current: make([]float64, n), overpotential: make([]float64, n), constant: st.constant + share*step.constant,
		voltage: st.voltage + share*step.voltage, residual: st.residual, steps: st.steps}
	for e := range n {
		k := p.kinetics(e)
		j := st.current[e] + share*step.current[e]
		eta := st.overpotential[e] + share*step.overpotential[e]
		switch {
		case p.insulates(e):
			j = 0
		case k.Exchange == 0:
			eta = k.overpotential(j)
		case math.Abs(j) > math.Abs(st.current[e]) && (k.Limit == 0 || j < 0.98*float64(k.Limit)):
			// Outward along the exponential: a step in j is the gentler.
			eta = k.overpotential(j)
		default:
			j, _ = k.current(eta)
		}
		to.current[e], to.overpotential[e] = j, eta
	}
	return to
}

// Solve returns the current distribution under conditions. The field's own work
// is reused: only the electrodes' equations are solved. It returns an error for
// conditions out of range, a mean current density not below the limiting one, a
// cell voltage not above that at rest, and when Newton's method does not settle.
func (f *Field) Solve(c Conditions) (Distribution, error) {
	if err := c.validate(); err != nil {
		return Distribution{}, err
	}
	d, err := f.fine.solve(c)
	if err != nil {
		return Distribution{}, err
	}
	coarse, err := f.coarse.solve(c)
	if err != nil {
		return Distribution{}, fmt.Errorf("%w (on the coarser mesh)", err)
	}
	d.Change = changeBetween(coarse, d)
	return d, nil
}

// solve returns the distribution on one mesh.
func (s *system) solve(c Conditions) (Distribution, error) {
	p, err := newProblem(&s.network, c)
	if err != nil {
		return Distribution{}, err
	}
	st, err := p.solve()
	if err != nil {
		return Distribution{}, err
	}
	d, partArea := p.totals(st)
	d.Profiles = s.profiles(st)
	d.extremes(partArea)
	return d, nil
}

// volt is a short way to a typed voltage.
func volt(v float64) unit.Voltage { return unit.Voltage(v) }
