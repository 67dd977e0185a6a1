package plating

// The first state of Newton's method.

import (
	"fmt"
	"math"
)

// start returns a first state: the kinetics replaced by their chord up to the
// mean current density.
func (p *problem) start() (*state, error) {
	total := float64(p.c.Current)
	if total == 0 {
		var err error
		if total, err = p.guessCurrent(); err != nil {
			return nil, err
		}
	}
	n := len(p.area)
	slope := make([]float64, n)
	for e := range n {
		if p.insulates(e) {
			slope[e] = math.Inf(1)
			continue
		}
		mean := total / p.cathodeArea
		if !p.cathodic(e) {
			mean = -total / p.anodeArea
		}
		k := p.kinetics(e)
		if k.Limit > 0 {
			mean = math.Min(mean, 0.9*float64(k.Limit))
		}
		slope[e] = k.overpotential(mean) / mean
	}
	st := &state{current: make([]float64, n), overpotential: make([]float64, n), voltage: float64(p.c.Voltage)}
	steps, err := p.linearStep(slope, p.miss(st))
	if err != nil {
		return nil, err
	}
	st.voltage += steps.voltage
	st.constant = steps.constant
	for e := range n {
		if p.insulates(e) {
			st.overpotential[e] = steps.overpotential[e]
			continue
		}
		k, j := p.kinetics(e), steps.current[e]
		if k.Limit > 0 {
			j = math.Min(j, 0.95*float64(k.Limit))
		}
		st.current[e], st.overpotential[e] = j, k.overpotential(j)
	}
	return st, nil
}

// guessCurrent returns the current that a cell voltage would drive if both
// electrodes were even, by halving.
func (p *problem) guessCurrent() (float64, error) {
	rest := float64(p.c.Anode.Equilibrium - p.c.Cathode.Equilibrium)
	if p.farAnode {
		rest = -float64(p.c.Cathode.Equilibrium)
	}
	drive := float64(p.c.Voltage) - rest
	if !(drive > 0) {
		return 0, fmt.Errorf("plating: cell voltage %s does not exceed the voltage at rest, %s",
			inVolt.of(float64(p.c.Voltage)), inVolt.of(rest))
	}
	low, high := 0.0, drive/p.resistance
	if limit := float64(p.c.Cathode.Limit); limit > 0 {
		high = math.Min(high, 0.999*limit*p.cathodeArea)
	}
	for range 60 {
		current := (low + high) / 2
		need := current*p.resistance + p.c.Cathode.overpotential(current/p.cathodeArea)
		if p.anodeArea > 0 {
			need -= p.c.Anode.overpotential(-current / p.anodeArea)
		}
		if need > drive {
			high = current
		} else {
			low = current
		}
	}
	return high, nil
}
