package plating

// Newton's method on the electrodes. On each element the state is a pair of
// current density j and overpotential eta that obeys the kinetics exactly; the
// equations ask that the field agree,
//
//	j + kappa D (V - E + eta) = 0
//
// with D the reduced field, V the metal's potential and E that at rest. A step
// moves along the tangent of the kinetics and then back onto the curve in
// whichever of j and eta is the gentler there, which tames both the exponential
// and the limiting current.

import (
	"fmt"
	"math"

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
	// voltage of the cell in V.
	voltage float64
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
	// voltage, and field is D driven.
	driven, field []float64
	// cathodeArea is the area of parts and thieves, and resistance the primary
	// resistance of the cell.
	cathodeArea, resistance float64
	// newton has room for the equations of a step.
	newton *mat.Dense
}

// newProblem prepares a network for conditions known to be valid.
func newProblem(s *network, c Conditions) (*problem, error) {
	p := &problem{network: s, c: c, kappa: float64(c.Conductivity)}
	n := len(s.area)
	p.driven, p.field = make([]float64, n), make([]float64, n)
	for e := range n {
		switch {
		case s.farAnode:
			p.driven[e] = -1
		case !p.cathodic(e):
			p.driven[e] = 1
		}
		if p.cathodic(e) {
			p.cathodeArea += s.area[e]
		}
	}
	p.multiply(p.field, p.driven)
	conductance := 0.0
	for e := range n {
		if p.cathodic(e) {
			conductance -= p.kappa * p.field[e] * s.area[e]
		}
	}
	p.resistance = 1 / conductance
	if !(conductance > 0) {
		return nil, fmt.Errorf("plating: no current finds a way from the anodes to the parts (conductance %.3g S)", conductance)
	}
	return p, p.checkLimit()
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

// multiply sets dst to D x.
func (p *problem) multiply(dst, x []float64) {
	mat.NewVecDense(len(dst), dst).MulVec(p.toGradient, mat.NewVecDense(len(x), x))
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
// in A/m2, and at the end the excess of current in A when it is prescribed.
func (p *problem) miss(st *state) []float64 {
	n := len(p.area)
	potential := p.potential(st)
	miss := make([]float64, n, n+1)
	p.multiply(miss, potential)
	total := 0.0
	for e := range n {
		miss[e] = st.current[e] + p.kappa*miss[e]
		if p.cathodic(e) {
			total += st.current[e] * p.area[e]
		}
	}
	if p.c.Current > 0 {
		miss = append(miss, total-float64(p.c.Current))
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
// over the area, or the miss of the total over the area of the cathodes.
func (p *problem) norm(miss []float64) float64 {
	sum, area := 0.0, 0.0
	for e, a := range p.area {
		sum += a * miss[e] * miss[e]
		area += a
	}
	norm := math.Sqrt(sum / area)
	if len(miss) > len(p.area) {
		norm = math.Max(norm, math.Abs(miss[len(p.area)])/p.cathodeArea)
	}
	return norm
}

// step takes one Newton step, shortened while it makes matters worse.
func (p *problem) step(st *state, miss []float64, scale float64) (*state, []float64, error) {
	slope := make([]float64, len(p.area))
	for e := range slope {
		k := p.kinetics(e)
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
//
// Each element's unknown u stands for both changes, j = a u and eta = b u with
// b/a the slope, so that neither a slope of zero nor a very large one spoils
// the equations.
func (p *problem) linearStep(slope, miss []float64) (*state, error) {
	n := len(p.area)
	size := len(miss)
	a, b := p.shares(slope)
	if p.newton == nil {
		p.newton = mat.NewDense(size, size, nil)
	}
	m := p.newton
	for e := range n {
		row, d := m.RawRowView(e), p.toGradient.RawRowView(e)
		for k := range n {
			row[k] = p.kappa * d[k] * b[k]
		}
		row[e] += a[e]
		if size > n {
			row[n] = p.kappa * p.field[e]
			balance := 0.0
			if p.cathodic(e) {
				balance = a[e] * p.area[e]
			}
			m.Set(n, e, balance)
			m.Set(n, n, 0)
		}
	}
	answer := mat.NewDense(size, 1, nil)
	for e, v := range miss {
		answer.Set(e, 0, -v)
	}
	if err := factorize(m).solve(answer); err != nil {
		return nil, err
	}
	step := &state{current: make([]float64, n), overpotential: make([]float64, n)}
	for e := range n {
		step.current[e], step.overpotential[e] = a[e]*answer.At(e, 0), b[e]*answer.At(e, 0)
	}
	if size > n {
		step.voltage = answer.At(n, 0)
	}
	return step, nil
}

// shares returns a and b of linearStep for each element.
func (p *problem) shares(slope []float64) (a, b []float64) {
	// The bath's own resistance over an area sets what a large slope is.
	bath := p.resistance * p.cathodeArea
	a, b = make([]float64, len(slope)), make([]float64, len(slope))
	for e, r := range slope {
		if math.IsInf(r, 0) {
			b[e] = bath
			continue
		}
		a[e] = bath / (bath + r)
		b[e] = bath * r / (bath + r)
	}
	return a, b
}

// moved returns the state after a share of a step, put back on the kinetics.
func (p *problem) moved(st, step *state, share float64) *state {
	n := len(p.area)
	to := &state{current: make([]float64, n), overpotential: make([]float64, n),
		voltage: st.voltage + share*step.voltage, residual: st.residual, steps: st.steps}
	for e := range n {
		k := p.kinetics(e)
		j := st.current[e] + share*step.current[e]
		eta := st.overpotential[e] + share*step.overpotential[e]
		switch {
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
