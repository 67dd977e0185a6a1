package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// BlockReading is one reading of a dial over a gauge block.
type BlockReading struct {
	// Block is the block's height above the one on which the run began.
	Block unit.Length
	// Shown is what the dial showed.
	Shown unit.Length
	// Falling says that the dial came down to the block; otherwise it rose.
	Falling bool
}

// Calibration is what a run over gauge blocks says about a dial.
type Calibration struct {
	// Gain is the length shown over the length moved, GainU its standard
	// uncertainty.
	Gain, GainU float64
	// Hysteresis is what the dial shows falling minus rising, and HysteresisU
	// its standard uncertainty; both zero when nothing was read falling.
	Hysteresis, HysteresisU unit.Length
	// Zero is what the fitted line shows, rising, on the first block.
	Zero unit.Length
	// Scatter is the standard deviation of one reading about the fit, from the
	// residuals; Rounding is what reading in steps alone would give. The larger
	// is the ReadingU from which the uncertainties follow: the residuals hold
	// the rounding, but a few readings may hide it.
	Scatter, Rounding, ReadingU unit.Length
	// DegreesOfFreedom are the readings beyond the unknowns.
	DegreesOfFreedom int
	// Residuals are reading minus fit, in the order given.
	Residuals []unit.Length
}

// CalibrateIndicator fits, by least squares,
//
//	shown = zero + gain * block + hysteresis (when falling)
//
// to a run over gauge blocks, with the dial read in the given step. At least
// two different blocks are needed, and three readings, or four when some were
// taken falling. The blocks' own error, a fraction of a micrometre, is left
// out. One straight line stands for the whole run: look at the residuals before
// trusting it over a longer range than was read.
func CalibrateIndicator(readings []BlockReading, step unit.Length) (Calibration, error) {
	if err := notNegative("reading step", step); err != nil {
		return Calibration{}, err
	}
	fit, err := fitBlocks(readings)
	if err != nil {
		return Calibration{}, err
	}
	b, c := fit.solve(), fit.covariance()
	result := Calibration{
		Zero: unit.Length(b[0]), Gain: b[1], Hysteresis: unit.Length(b[2]),
		Rounding: rounding(step), DegreesOfFreedom: fit.degreesOfFreedom(),
		Residuals: make([]unit.Length, len(readings)),
	}
	result.Scatter = unit.Length(math.Sqrt(fit.rss / float64(result.DegreesOfFreedom)))
	result.ReadingU = max(result.Scatter, result.Rounding)
	result.GainU = float64(result.ReadingU) * math.Sqrt(c[1][1])
	result.HysteresisU = result.ReadingU * unit.Length(math.Sqrt(c[2][2]))
	for i, r := range readings {
		result.Residuals[i] = r.Shown - unit.Length(dot5(b, blockRow(r)))
	}
	if b[1] < 0.5 || b[1] > 2 {
		return result, fmt.Errorf("squaring: the fitted gain is %.4g, must lie between 0.5 and 2: look for a wrong block or a wrong unit", b[1])
	}
	return result, nil
}

// fitBlocks checks the readings and fits them.
func fitBlocks(readings []BlockReading) (smallFit, error) {
	fit := smallFit{unknowns: 2}
	for i, r := range readings {
		if err := finite(fmt.Sprintf("block of reading %d", i+1), float64(r.Block)); err != nil {
			return fit, err
		}
		if err := finite(fmt.Sprintf("reading %d", i+1), float64(r.Shown)); err != nil {
			return fit, err
		}
		if r.Falling {
			fit.unknowns = 3
		}
	}
	if len(readings) <= fit.unknowns {
		return fit, fmt.Errorf("squaring: %d readings over gauge blocks, at least %d are needed", len(readings), fit.unknowns+1)
	}
	for _, r := range readings {
		fit.add(blockRow(r), float64(r.Shown))
	}
	if !(fit.blockSpread() > 1e-9) || fit.unknowns == 3 && !(math.Abs(fit.r[2][2]) > 1e-6) {
		return fit, fmt.Errorf("squaring: the blocks, or rising and falling, do not differ enough to tell gain from zero and hysteresis")
	}
	return fit, nil
}

// blockSpread returns how far the blocks spread about their mean, as a root
// sum of squares over the readings' root number, in metres.
func (f *smallFit) blockSpread() float64 { return math.Abs(f.r[1][1]) / math.Abs(f.r[0][0]) }

// blockRow is the design row of a reading: zero, gain, hysteresis.
func blockRow(r BlockReading) row5 {
	row := row5{1, float64(r.Block), 0}
	if r.Falling {
		row[2] = 1
	}
	return row
}

// Of returns the indicator with the calibrated gain and hysteresis.
func (c Calibration) Of(d Indicator) Indicator {
	d.Gain, d.GainU, d.Hysteresis = c.Gain, c.GainU, c.Hysteresis
	return d
}
