package plating

// Amps and minutes for a thickness. The mean thickness of a run is
//
//	d = k eta I t / (rho A)
//
// a product of powers, so its relative standard uncertainty is the root of the
// sum of the squares of those of efficiency, current, time, area and density
// (JCGM 100:2008, 5.1.6).

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Supply is a bench supply as a source of current.
type Supply struct {
	// Step is the step to which its current is set and read, above zero.
	Step unit.Current
	// Accuracy is the relative standard uncertainty of its reading beside the
	// step, from a check against a meter or its manual.
	Accuracy float64
	// Most is the largest current it gives; zero means no limit is known.
	Most unit.Current
}

// CurrentU returns the standard uncertainty of a current read on the supply:
// sqrt(Step^2/12 + (Accuracy I)^2).
func (s Supply) CurrentU(current unit.Current) unit.Current {
	return unit.Current(math.Hypot(float64(s.Step)/math.Sqrt(12), s.Accuracy*float64(current)))
}

// validate returns what is wrong with the supply's figures.
func (s Supply) validate() error {
	return firstError(
		positive("step of the supply", float64(s.Step), inAmpere),
		notNegative("relative standard uncertainty of the supply", s.Accuracy, inPlain),
		notNegative("largest current of the supply", float64(s.Most), inAmpere),
	)
}

// Spread is how unevenly a coat lies: local over mean thickness, which is also
// local over mean current density. The zero value is an even coat.
type Spread struct {
	// Thinnest is the share at the thinnest place that matters, above 0 and at
	// most 1, and Thickest that at the thickest, 1 or more; zero means 1.
	Thinnest, Thickest float64
}

// orEven returns the spread with its zeros put to 1, or an error.
func (s Spread) orEven() (Spread, error) {
	if s.Thinnest == 0 {
		s.Thinnest = 1
	}
	if s.Thickest == 0 {
		s.Thickest = 1
	}
	if !(s.Thinnest > 0 && s.Thinnest <= 1) {
		return s, fmt.Errorf("plating: share of the thinnest place is %.4g, must be above 0 and at most 1", s.Thinnest)
	}
	if !(s.Thickest >= 1) || math.IsInf(s.Thickest, 0) {
		return s, fmt.Errorf("plating: share of the thickest place is %.4g, must be 1 or more", s.Thickest)
	}
	return s, nil
}

// Plan is a coat that is wanted on a load.
type Plan struct {
	Deposit Deposit
	// Area is the wetted surface of the whole load.
	Area Surface
	// Thickness is the mean thickness wanted, above zero.
	Thickness unit.Length
	// CurrentDensity is the mean wanted over the area. When Current is above
	// zero it is the setting and CurrentDensity must be zero.
	CurrentDensity CurrentDensity
	Current        unit.Current
	// Efficiency is the cathode efficiency expected and EfficiencyU its
	// standard uncertainty.
	Efficiency, EfficiencyU float64
	Supply                  Supply
	// TimeU is the standard uncertainty of switching on and off by the clock.
	TimeU unit.Time
	// Spread is how unevenly the coat will lie.
	Spread Spread
}

// Setting is what to set for a plan, and what to expect.
type Setting struct {
	// Current is to be set on the supply: a whole number of its steps.
	// CurrentU is its standard uncertainty.
	Current, CurrentU unit.Current
	// CurrentDensity is the mean over the area, with its standard uncertainty
	// from current and area.
	CurrentDensity, CurrentDensityU CurrentDensity
	// PeakCurrentDensity is that at the thickest place.
	PeakCurrentDensity CurrentDensity
	// Time is how long the current must flow.
	Time unit.Time
	// Charge is the charge that passes.
	Charge unit.Charge
	// Mass is the gain to expect on the scale and MassU its standard
	// uncertainty. The area does not come into it: the scale cannot tell a wrong
	// area.
	Mass, MassU unit.Mass
	// Mean is the mean thickness to expect and MeanU its standard uncertainty.
	// Thinnest and Thickest are the local thicknesses where the spread is so.
	Mean, MeanU        unit.Length
	Thinnest, Thickest unit.Length
	// Shares says what each input contributes to MeanU, in metres.
	Shares []Share
}

// Setting returns the amps and minutes of a plan. The current is rounded to the
// supply's step first and the time follows from the rounded current, so that
// rounding costs nothing.
//
// It returns an error that names the input when one is out of range, when the
// current is below half a step of the supply, or above the most it gives.
func (p Plan) Setting() (Setting, error) {
	spread, err := p.validate()
	if err != nil {
		return Setting{}, err
	}
	current, err := p.setCurrent()
	if err != nil {
		return Setting{}, err
	}
	coat, err := Coat{Deposit: p.Deposit, Area: p.Area.Area, Thickness: p.Thickness, Current: current, Efficiency: p.Efficiency}.Solve()
	if err != nil {
		return Setting{}, err
	}
	return p.setting(coat, spread)
}

// validate returns the plan's spread, or what is wrong with the plan.
func (p Plan) validate() (Spread, error) {
	spread, err := p.Spread.orEven()
	return spread, firstError(err,
		p.Deposit.validate(), p.Supply.validate(),
		positive("area", float64(p.Area.Area), inSquareCM),
		notNegative("standard uncertainty of the area", float64(p.Area.U), inSquareCM),
		positive("thickness", float64(p.Thickness), inMicrometre),
		notNegative("current density", float64(p.CurrentDensity), inAPerDM2),
		notNegative("current", float64(p.Current), inAmpere),
		fraction("efficiency", p.Efficiency),
		notNegative("standard uncertainty of the efficiency", p.EfficiencyU, inPlain),
		notNegative("standard uncertainty of the time", float64(p.TimeU), inMinute),
	)
}

// setCurrent returns the current to set: the wanted one to the nearest step.
func (p Plan) setCurrent() (unit.Current, error) {
	wanted := float64(p.Current)
	switch {
	case p.Current > 0 && p.CurrentDensity > 0:
		return 0, fmt.Errorf("plating: both a current, %s, and a current density, %s, are given; give one",
			inAmpere.of(wanted), inAPerDM2.of(float64(p.CurrentDensity)))
	case p.Current == 0 && p.CurrentDensity == 0:
		return 0, fmt.Errorf("plating: neither a current nor a current density is given")
	case p.Current == 0:
		wanted = float64(p.CurrentDensity) * float64(p.Area.Area)
	}
	step := float64(p.Supply.Step)
	current := math.Round(wanted/step) * step
	if !(current > 0) || math.IsInf(current, 0) {
		return 0, fmt.Errorf("plating: current is %s, must be at least half the supply's step of %s", inAmpere.of(wanted), inAmpere.of(step))
	}
	if most := float64(p.Supply.Most); most > 0 && current > most*(1+1e-12) {
		return 0, fmt.Errorf("plating: current is %s, must be at most the %s that the supply gives; plate fewer parts at once or at a lower current density",
			inAmpere.of(current), inAmpere.of(most))
	}
	return unit.Current(current), nil
}

// setting fills in the answer from the coat that the plan comes to.
func (p Plan) setting(c Coat, spread Spread) (Setting, error) {
	currentU := p.Supply.CurrentU(c.Current)
	mean := float64(c.Thickness)
	relative := []Share{
		{"area", float64(p.Area.U / p.Area.Area)},
		{"efficiency", p.EfficiencyU / p.Efficiency},
		{"current", float64(currentU / c.Current)},
		{"time", float64(p.TimeU / c.Time)},
		{"density", float64(p.Deposit.DensityU / p.Deposit.Density)},
	}
	massU := float64(c.Mass) * rootSumSquares(relative[1:4])
	densityU := float64(c.CurrentDensity) * math.Hypot(relative[0].U, relative[2].U)
	for i := range relative {
		relative[i].U *= mean
	}
	s := Setting{
		Current: c.Current, CurrentU: currentU,
		CurrentDensity: c.CurrentDensity, CurrentDensityU: CurrentDensity(densityU),
		PeakCurrentDensity: c.CurrentDensity * CurrentDensity(spread.Thickest),
		Time:               c.Time, Charge: c.Charge,
		Mass: c.Mass, MassU: unit.Mass(massU),
		Mean: c.Thickness, MeanU: unit.Length(rootSumSquares(relative)),
		Thinnest: c.Thickness * unit.Length(spread.Thinnest), Thickest: c.Thickness * unit.Length(spread.Thickest),
		Shares: relative,
	}
	if !isFinite(float64(s.Time)) || !isFinite(float64(s.MeanU)) || !isFinite(float64(s.PeakCurrentDensity)) || s.Time == 0 {
		return Setting{}, fmt.Errorf("plating: thickness %s at %s is out of the range that can be computed",
			inMicrometre.of(mean), inAmpere.of(float64(c.Current)))
	}
	return s, nil
}

// ChanceAtLeast returns the chance that the mean thickness comes out at or
// above a limit, with a normal distribution about the mean expected. With no
// uncertainty it is 0 or 1, and 1 at the limit itself.
func (s Setting) ChanceAtLeast(limit unit.Length) float64 {
	if s.MeanU == 0 {
		if s.Mean >= limit {
			return 1
		}
		return 0
	}
	return math.Erfc(float64(limit-s.Mean)/(float64(s.MeanU)*math.Sqrt2)) / 2
}

// MostCurrentDensity returns the largest mean current density at which the
// thickest place, where the local current density is the given share (1 or
// more) of the mean, stays at or below a limit such as the burning limit.
func MostCurrentDensity(limit CurrentDensity, thickest float64) (CurrentDensity, error) {
	if err := positive("limit of the current density", float64(limit), inAPerDM2); err != nil {
		return 0, err
	}
	spread, err := Spread{Thickest: thickest}.orEven()
	if err != nil {
		return 0, err
	}
	return limit / CurrentDensity(spread.Thickest), nil
}
