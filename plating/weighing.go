package plating

// Cathode efficiency by weighing. The load is dried and weighed before and
// after; current and time are read. With gain g, equivalent k, current I and
// time t
//
//	eta = g / (k I t)
//
// and, first order (JCGM 100:2008, 5.1.2),
//
//	u(eta)^2 = (u(g)/(k I t))^2 + (eta u(I)/I)^2 + (eta u(t)/t)^2

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Scale is a weighing scale and what handling adds.
type Scale struct {
	// Resolution is the step of the display. A reading is anywhere within half
	// a step of the truth, so its standard uncertainty is at least
	// Resolution/sqrt(12).
	Resolution unit.Mass
	// Handling is the standard uncertainty of a gain from everything else:
	// water left in a bore, a fingerprint, drift.
	Handling unit.Mass
}

// validate returns what is wrong with the scale's figures.
func (s Scale) validate() error {
	return firstError(
		positive("resolution of the scale", float64(s.Resolution), inGram),
		notNegative("standard uncertainty of handling", float64(s.Handling), inGram),
	)
}

// GainU returns the standard uncertainty of the difference of two single
// readings: sqrt(Resolution^2/6 + Handling^2).
func (s Scale) GainU() unit.Mass {
	return unit.Mass(math.Hypot(float64(s.Resolution)/math.Sqrt(6), float64(s.Handling)))
}

// reading returns the mean of repeated readings and its standard uncertainty.
// Readings that repeat to the same step say nothing better than the step;
// scatter adds s/sqrt(n).
func (s Scale) reading(name string, readings []unit.Mass) (mean, u float64, err error) {
	if len(readings) == 0 {
		return 0, 0, fmt.Errorf("plating: no readings of the mass %s", name)
	}
	for i, m := range readings {
		if err := positive(fmt.Sprintf("reading %d of the mass %s", i+1, name), float64(m), inGram); err != nil {
			return 0, 0, err
		}
		mean += float64(m)
	}
	n := float64(len(readings))
	mean /= n
	u = float64(s.Resolution) / math.Sqrt(12)
	if len(readings) > 1 {
		squares := 0.0
		for _, m := range readings {
			squares += (float64(m) - mean) * (float64(m) - mean)
		}
		u = math.Hypot(u, math.Sqrt(squares/(n-1)/n))
	}
	return mean, u, nil
}

// Run is one weighed plating run.
type Run struct {
	Deposit Deposit
	// Before and After are the readings of the dry load; repeats are averaged.
	Before, After []unit.Mass
	Scale         Scale
	// Current is the mean current and CurrentU its standard uncertainty.
	Current, CurrentU unit.Current
	// Time is how long the current flowed and TimeU its standard uncertainty.
	Time, TimeU unit.Time
}

// Weighed is the answer of a weighed run.
type Weighed struct {
	// Gain is the mass gained and GainU its standard uncertainty.
	Gain, GainU unit.Mass
	// Charge is the charge passed.
	Charge unit.Charge
	// Efficiency is the cathode efficiency and U its standard uncertainty.
	Efficiency, U float64
	// Shares says what weighing, current and time contribute to U.
	Shares []Share
}

// ImplausibleError says that a weighed run contradicts Faraday's law by more
// than twice its standard uncertainty. The answer comes with it, to be looked
// at, not used.
type ImplausibleError struct {
	// Efficiency and U are the answer that cannot be.
	Efficiency, U float64
	// Reason names the usual causes.
	Reason string
}

// Error returns the sentence.
func (e *ImplausibleError) Error() string {
	return fmt.Sprintf("plating: efficiency %.1f %% with a standard uncertainty of %.1f %% cannot be: %s", 100*e.Efficiency, 100*e.U, e.Reason)
}

// plausibleCoverage is the number of standard uncertainties by which an
// efficiency may lie below 0 or above 1.
const plausibleCoverage = 2

// Efficiency returns the cathode efficiency of a weighed run with its standard
// uncertainty. An efficiency that is negative, or above 1, by more than twice
// its standard uncertainty comes with an [*ImplausibleError]; within that it is
// returned as it is, since it is the honest reading.
func (r Run) Efficiency() (Weighed, error) {
	before, after, err := r.masses()
	if err != nil {
		return Weighed{}, err
	}
	handling := float64(r.Scale.Handling)
	gain := after.mean - before.mean
	gainU := math.Sqrt(before.u*before.u + after.u*after.u + handling*handling)
	charge := float64(r.Current) * float64(r.Time)
	full := float64(r.Deposit.Equivalent) * charge
	eta := gain / full
	w := Weighed{Gain: unit.Mass(gain), GainU: unit.Mass(gainU), Charge: unit.Charge(charge), Efficiency: eta}
	w.Shares = []Share{
		{"weighing", gainU / full},
		{"current", math.Abs(eta) * float64(r.CurrentU/r.Current)},
		{"time", math.Abs(eta) * float64(r.TimeU/r.Time)},
	}
	w.U = rootSumSquares(w.Shares)
	if !isFinite(eta) || !isFinite(w.U) {
		return Weighed{}, fmt.Errorf("plating: charge %s is too small for an efficiency", inAmpereHour.of(charge))
	}
	if eta < -plausibleCoverage*w.U {
		return w, &ImplausibleError{eta, w.U, "the load lost mass; are before and after swapped, the polarity reversed, or a piece missing?"}
	}
	if eta > 1+plausibleCoverage*w.U {
		return w, &ImplausibleError{eta, w.U, "more metal than the charge can lay down; was the load wet, the wire weighed once only, or the current or time misread?"}
	}
	return w, nil
}

// weighing is a mean reading and its standard uncertainty, in kg.
type weighing struct{ mean, u float64 }

// masses checks the run and returns its two weighings.
func (r Run) masses() (before, after weighing, err error) {
	if err := firstError(
		r.Deposit.validate(), r.Scale.validate(),
		positive("current", float64(r.Current), inAmpere),
		notNegative("standard uncertainty of the current", float64(r.CurrentU), inAmpere),
		positive("time", float64(r.Time), inMinute),
		notNegative("standard uncertainty of the time", float64(r.TimeU), inMinute),
	); err != nil {
		return before, after, err
	}
	if before.mean, before.u, err = r.Scale.reading("before", r.Before); err != nil {
		return before, after, err
	}
	after.mean, after.u, err = r.Scale.reading("after", r.After)
	return before, after, err
}

// MeanThickness returns the mean thickness that the gain proves on a surface,
// its standard uncertainty and what gain, area and density contribute to it.
// Current and time do not come in: the scale proves the mass, the area turns it
// into a thickness.
func (w Weighed) MeanThickness(d Deposit, s Surface) (thickness, u unit.Length, shares []Share, err error) {
	if err := firstError(
		notNegative("standard uncertainty of the area", float64(s.U), inSquareCM),
		notNegative("standard uncertainty of the gain", float64(w.GainU), inGram),
	); err != nil {
		return 0, 0, nil, err
	}
	thickness, err = d.Thickness(w.Gain, s.Area)
	if err != nil {
		return 0, 0, nil, err
	}
	t := float64(thickness)
	shares = []Share{
		{"weighing", float64(w.GainU) / (float64(d.Density) * float64(s.Area))},
		{"area", t * float64(s.U/s.Area)},
		{"density", t * float64(d.DensityU/d.Density)},
	}
	return thickness, unit.Length(rootSumSquares(shares)), shares, nil
}

// rootSumSquares returns the standard uncertainty that shares add up to.
func rootSumSquares(shares []Share) float64 {
	squares := 0.0
	for _, s := range shares {
		squares += s.U * s.U
	}
	return math.Sqrt(squares)
}

// Question is what a scale is asked: to see a change of efficiency.
type Question struct {
	// Change is the change of efficiency to be seen, a fraction above zero.
	Change float64
	// Efficiency is about what the bath gives, above 0 and at most 1.
	Efficiency float64
	// Coverage is by how many standard uncertainties the change must stand
	// out; zero means 2.
	Coverage float64
	// States is 1 to compare a weighed state with a known value, 2 to compare
	// two weighed states; zero means 2.
	States int
	// ChargeU is the relative standard uncertainty of current times time that
	// is not common to the states; no load makes it smaller.
	ChargeU float64
}

// GainNeeded returns the smallest gain of a load, all parts weighed together,
// with which a scale of the given gain uncertainty answers the question:
//
//	eta u(g)/g and eta u(Q)/Q, together, at most change/(coverage sqrt(states))
//
// It returns an error when the uncertainty of current and time alone is too
// large, so that no load will do.
func (q Question) GainNeeded(gainU unit.Mass) (unit.Mass, error) {
	allowed, err := q.allowed()
	if err != nil {
		return 0, err
	}
	if err := positive("standard uncertainty of the gain", float64(gainU), inGram); err != nil {
		return 0, err
	}
	room := allowed*allowed - q.ChargeU*q.ChargeU
	if room <= 0 {
		return 0, fmt.Errorf("plating: current and time are known to %.2g %%, must be better than %.2g %% to see a change of %.2g %%; no load will do",
			100*q.ChargeU, 100*allowed, 100*q.Change)
	}
	return unit.Mass(float64(gainU) / math.Sqrt(room)), nil
}

// RunsNeeded returns how many equal runs must be weighed one by one and
// averaged, for each state, when one run has the given relative standard
// uncertainty of its efficiency, all of it independent from run to run.
func (q Question) RunsNeeded(relativeU float64) (int, error) {
	allowed, err := q.allowed()
	if err != nil {
		return 0, err
	}
	if err := positive("relative standard uncertainty of a run", relativeU, inPlain); err != nil {
		return 0, err
	}
	n := math.Ceil(relativeU*relativeU/(allowed*allowed) - 1e-9)
	if n > 1e6 {
		return 0, fmt.Errorf("plating: %.3g runs would be needed; no number of runs will do", n)
	}
	return max(1, int(n)), nil
}

// allowed returns the largest relative standard uncertainty of the efficiency
// of one state that still answers the question.
func (q Question) allowed() (float64, error) {
	if q.Coverage == 0 {
		q.Coverage = 2
	}
	if q.States == 0 {
		q.States = 2
	}
	if q.States != 1 && q.States != 2 {
		return 0, fmt.Errorf("plating: states compared are %d, must be 1 or 2", q.States)
	}
	if err := firstError(fraction("change of efficiency", q.Change), fraction("efficiency", q.Efficiency),
		positive("coverage", q.Coverage, inPlain), notNegative("relative standard uncertainty of the charge", q.ChargeU, inPlain)); err != nil {
		return 0, err
	}
	return q.Change / (q.Coverage * math.Sqrt(float64(q.States)) * q.Efficiency), nil
}

// AreaForGain returns the area that gains a mass at a mean thickness above
// zero; it tells how many coupons to hang in.
func (d Deposit) AreaForGain(gain unit.Mass, thickness unit.Length) (unit.Area, error) {
	if err := firstError(d.validate(), positive("gain", float64(gain), inGram), positive("thickness", float64(thickness), inMicrometre)); err != nil {
		return 0, err
	}
	return unit.Area(float64(gain) / (float64(d.Density) * float64(thickness))), nil
}
