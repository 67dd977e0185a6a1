package plating

// Efficiencies of many weighed runs taken together. Each comes with its own
// standard uncertainty, so all means and lines are weighted by 1/u^2 (weighted
// least squares). When the runs scatter more than their uncertainties allow,
// something else moved, and the uncertainty of the result is enlarged by the
// root of chi-squared over its degrees of freedom.

import (
	"fmt"
	"math"
)

// EfficiencyReading is one run of a log: its efficiency, standard uncertainty
// and what may explain it.
type EfficiencyReading struct {
	Efficiency, U float64
	// Explain is the quantity that the efficiency may follow, such as the pH.
	Explain float64
}

// checkReadings returns an error unless there are at least so many readings,
// each finite with an uncertainty above zero.
func checkReadings(readings []EfficiencyReading, least int) error {
	if len(readings) < least {
		return fmt.Errorf("plating: %d runs are too few, needs %d or more", len(readings), least)
	}
	for i, r := range readings {
		if !isFinite(r.Efficiency) || !isFinite(r.Explain) {
			return fmt.Errorf("plating: run %d is not finite", i+1)
		}
		if err := positive(fmt.Sprintf("standard uncertainty of run %d", i+1), r.U, inPlain); err != nil {
			return err
		}
	}
	return nil
}

// Pooled is the weighted mean of several runs.
type Pooled struct {
	// Efficiency is the weighted mean and U its standard uncertainty, enlarged
	// when the runs scatter more than they should.
	Efficiency, U float64
	// ChiSquared is the sum of the squared deviations in standard
	// uncertainties; about Runs - 1 when all is well.
	ChiSquared float64
	Runs       int
}

// PoolEfficiency returns the weighted mean of one run or more.
func PoolEfficiency(readings []EfficiencyReading) (Pooled, error) {
	if err := checkReadings(readings, 1); err != nil {
		return Pooled{}, err
	}
	sumW, sum := 0.0, 0.0
	for _, r := range readings {
		w := 1 / (r.U * r.U)
		sumW += w
		sum += w * r.Efficiency
	}
	p := Pooled{Efficiency: sum / sumW, Runs: len(readings)}
	for _, r := range readings {
		z := (r.Efficiency - p.Efficiency) / r.U
		p.ChiSquared += z * z
	}
	p.U = math.Sqrt(1/sumW) * enlargement(p.ChiSquared, p.Runs-1)
	if !isFinite(p.Efficiency) || !isFinite(p.U) {
		return Pooled{}, fmt.Errorf("plating: standard uncertainties of the runs are too small or too unequal to pool")
	}
	return p, nil
}

// enlargement returns the root of chi-squared over degrees of freedom when that
// is above 1.
func enlargement(chiSquared float64, freedom int) float64 {
	if freedom < 1 {
		return 1
	}
	return math.Max(1, math.Sqrt(chiSquared/float64(freedom)))
}

// Difference is how far two states of a bath lie apart.
type Difference struct {
	// Change is the second state less the first, U its standard uncertainty.
	Change, U float64
	// Before and After are the two states.
	Before, After Pooled
}

// InUncertainties returns the change over its standard uncertainty; beyond 2 a
// change is news, within it is not told from scatter. Zero without an
// uncertainty.
func (d Difference) InUncertainties() float64 {
	if d.U == 0 {
		return 0
	}
	return d.Change / d.U
}

// CompareStates returns the difference between the runs of two states, each one
// run or more.
func CompareStates(before, after []EfficiencyReading) (Difference, error) {
	b, err := PoolEfficiency(before)
	if err != nil {
		return Difference{}, fmt.Errorf("plating: first state: %w", err)
	}
	a, err := PoolEfficiency(after)
	if err != nil {
		return Difference{}, fmt.Errorf("plating: second state: %w", err)
	}
	return Difference{a.Efficiency - b.Efficiency, math.Hypot(a.U, b.U), b, a}, nil
}

// Trend is the weighted straight line of efficiency against what explains it.
type Trend struct {
	// Centre is the weighted mean of Explain; Level is the efficiency there,
	// LevelU its standard uncertainty. Taken at the centre, level and slope are
	// not correlated.
	Centre, Level, LevelU float64
	// Slope is the change of efficiency for one unit of Explain, SlopeU its
	// standard uncertainty.
	Slope, SlopeU float64
	ChiSquared    float64
	// Residuals are the runs' deviations from the line in their own standard
	// uncertainties, in the order of the runs.
	Residuals []float64
}

// EfficiencyTrend returns the weighted line through three runs or more, at
// least two of them at different values of Explain.
func EfficiencyTrend(readings []EfficiencyReading) (Trend, error) {
	if err := checkReadings(readings, 3); err != nil {
		return Trend{}, err
	}
	sumW, sumX, sumY := 0.0, 0.0, 0.0
	for _, r := range readings {
		w := 1 / (r.U * r.U)
		sumW += w
		sumX += w * r.Explain
		sumY += w * r.Efficiency
	}
	t := Trend{Centre: sumX / sumW, Level: sumY / sumW}
	sumXX, sumXY, largest := 0.0, 0.0, 0.0
	for _, r := range readings {
		w, x := 1/(r.U*r.U), r.Explain-t.Centre
		sumXX += w * x * x
		sumXY += w * x * r.Efficiency
		largest = math.Max(largest, math.Abs(r.Explain))
	}
	if !(sumXX > 1e-18*sumW*largest*largest) {
		return Trend{}, fmt.Errorf("plating: all runs have the same %.4g to explain them, so no line can be drawn", t.Centre)
	}
	t.Slope = sumXY / sumXX
	for _, r := range readings {
		z := (r.Efficiency - t.Level - t.Slope*(r.Explain-t.Centre)) / r.U
		t.Residuals = append(t.Residuals, z)
		t.ChiSquared += z * z
	}
	wider := enlargement(t.ChiSquared, len(readings)-2)
	t.LevelU, t.SlopeU = wider/math.Sqrt(sumW), wider/math.Sqrt(sumXX)
	if !isFinite(t.Level) || !isFinite(t.Slope) || !isFinite(t.SlopeU) || !isFinite(t.LevelU) {
		return Trend{}, fmt.Errorf("plating: standard uncertainties of the runs are too small or too unequal for a line")
	}
	return t, nil
}

// At returns the efficiency of the line at a value of Explain and its standard
// uncertainty. Far outside the runs it is a guess.
func (t Trend) At(explain float64) (efficiency, u float64) {
	x := explain - t.Centre
	return t.Level + t.Slope*x, math.Hypot(t.LevelU, t.SlopeU*x)
}
