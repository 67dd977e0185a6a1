package squaring

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// True move of a slanted lever. Sources: cosine, six figures; and the printed
// factors .98, .94, .87 of a measuring-instrument maker's reference booklet
// (read; older printings cut 30 degrees to .86), held to 0.002 mm in 0.2.
func TestStylusAngle(t *testing.T) {
	tests := []struct{ degrees, factor, printed float64 }{
		{0, 1, 1}, {5, 0.996195, 0}, {10, 0.984808, 0.98}, {12, 0.978148, 0}, {15, 0.965926, 0},
		{20, 0.939693, 0.94}, {25, 0.906308, 0}, {30, 0.866025, 0.87},
	}
	for _, test := range tests {
		d := Indicator{StylusAngle: unit.Angle(test.degrees) * Degree}
		move := d.True(0.2 * mm)
		near(t, "true move", float64(move/mm), 0.2*test.factor, 1e-6)
		if test.printed != 0 {
			near(t, "printed", float64(move/mm), 0.2*test.printed, 0.002)
		}
		near(t, "there and back", float64(d.Shown(move)/mm), 0.2, 1e-15)
	}
	// A move of 10 on a lever at 30 degrees shows as 11.5.
	near(t, "shown", float64((Indicator{StylusAngle: 30 * Degree}).Shown(10*um)/um), 11.547, 1e-3)
}

func TestFactorUncertainty(t *testing.T) {
	d := Indicator{Gain: 0.985, GainU: 0.002, StylusAngle: 20 * Degree, StylusAngleU: 3 * Degree}
	factor, u := d.Factor()
	const step = 1e-6
	numeric := func(change func(*Indicator)) float64 {
		moved := d
		change(&moved)
		f, _ := moved.Factor()
		return (f - factor) / step
	}
	byGain := numeric(func(d *Indicator) { d.Gain += step }) * d.GainU
	byAngle := numeric(func(d *Indicator) { d.StylusAngle += step }) * float64(d.StylusAngleU)
	near(t, "u against numerical derivatives", u, math.Hypot(byGain, byAngle), 1e-7)
}

// Source: JCGM 100:2008, 4.4.3: 20 readings, mean 100.145, s 1.488844,
// s(mean) 0.332916 (read). The numbers stand for micrometres here.
func TestMeasureRepeats(t *testing.T) {
	values := []float64{96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68,
		100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72}
	readings := make([]unit.Length, len(values))
	for i, v := range values {
		readings[i] = unit.Length(v) * um
	}
	h, err := Indicator{}.Measure(readings...)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", float64(h.Value/um), 100.145, 1e-9)
	near(t, "s(mean)", float64(h.Uncertainty/um), 0.332915747, 1e-9)
	near(t, "degrees of freedom", h.DegreesOfFreedom, 19, 1e-9)
}

func TestMeasureRounding(t *testing.T) {
	// Two readings alike to 0.005 mm: rounding 0.005/sqrt(12) stays.
	d := Indicator{Division: 0.01 * mm, Gain: 1.031, GainU: 0.001}
	h, err := d.Measure(0.2*mm, 0.2*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "value", float64(h.Value/mm), 0.2/1.031, 1e-12)
	near(t, "rounding", float64(h.Rounding/um), 5/math.Sqrt(12)/1.031, 1e-9)
	near(t, "scale", float64(h.Scale/um), 200/1.031*0.001/1.031, 1e-9)
	near(t, "u", float64(h.Uncertainty), math.Hypot(float64(h.Rounding), float64(h.Scale)), 1e-18)
	if !math.IsInf(h.DegreesOfFreedom, 1) {
		t.Errorf("degrees of freedom %v, want +Inf", h.DegreesOfFreedom)
	}
}

func TestIndicatorRejects(t *testing.T) {
	nan := math.NaN()
	for _, d := range []Indicator{
		{Division: -1 * mm}, {Division: unit.Length(nan)}, {ReadTo: 2}, {ReadTo: -0.5}, {ReadTo: nan}, {Turn: -1}, {Gain: -1}, {Gain: 25.4},
		{Gain: nan}, {GainU: -1}, {Hysteresis: unit.Length(nan)}, {StylusAngle: 61 * Degree}, {StylusAngle: unit.Angle(nan)}, {StylusAngleU: -1},
	} {
		if h, err := d.Measure(0); err == nil {
			t.Errorf("%+v: measured %v, want an error", d, h)
		}
	}
	if _, err := (Indicator{}).Measure(); err == nil {
		t.Error("no readings accepted")
	}
	if _, err := (Indicator{}).Measure(0, unit.Length(nan)); err == nil {
		t.Error("a reading that is not a number was accepted")
	}
}

// blockRun makes readings from block heights, rising and falling.
func blockRun(scale unit.Length, blocks, rising, falling []float64) []BlockReading {
	var run []BlockReading
	for i, b := range blocks {
		run = append(run, BlockReading{Block: unit.Length(b) * scale, Shown: unit.Length(rising[i]) * scale})
	}
	for i, b := range blocks {
		run = append(run, BlockReading{Block: unit.Length(b) * scale, Shown: unit.Length(falling[i]) * scale, Falling: true})
	}
	return run
}

// The demonstration shop's four dials: the made-up truth must lie within 2.5
// stated standard uncertainties of the fit (8 figures, so 1.2 % a figure).
func TestCalibrateRecoversTruth(t *testing.T) {
	fifth := []float64{0, 0.2, 0.4, 0.6, 0.8, 1.0}
	tests := []struct {
		name       string
		run        []BlockReading
		step       unit.Length
		gain       float64
		hysteresis unit.Length
		gainWorst  float64 // more than this and the run was wasted
	}{
		{"A lever", blockRun(Inch, []float64{0, 0.005, 0.010, 0.015, 0.020, 0.025},
			[]float64{0, 0.005, 0.00975, 0.015, 0.01975, 0.0245}, []float64{0.00025, 0.00525, 0.01, 0.015, 0.02, 0.02475}),
			0.25 * Thou, 0.985, 0.22 * Thou, 0.005},
		{"B plunger", blockRun(mm, fifth, []float64{0, 0.205, 0.405, 0.6, 0.8, 1.005}, []float64{0.005, 0.205, 0.405, 0.605, 0.8, 1.005}),
			0.005 * mm, 1.004, 0.003 * mm, 0.003},
		{"C plunger", blockRun(mm, fifth, []float64{0, 0.21, 0.415, 0.615, 0.82, 1.03}, []float64{0.01, 0.22, 0.425, 0.62, 0.825, 1.04}),
			0.005 * mm, 1.031, 0.007 * mm, 0.004},
		{"D lever", blockRun(mm, []float64{0, 0.02, 0.05, 0.1, 0.15}, []float64{0, 0.021, 0.051, 0.1, 0.149}, []float64{0.001, 0.021, 0.051, 0.101, 0.15}),
			0.001 * mm, 0.996, 0.0008 * mm, 0.005},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, err := CalibrateIndicator(test.run, test.step)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "gain", c.Gain, test.gain, 2.5*c.GainU)
			near(t, "hysteresis um", float64(c.Hysteresis/um), float64(test.hysteresis/um), 2.5*float64(c.HysteresisU/um))
			if c.GainU > test.gainWorst {
				t.Errorf("u(gain) = %.4f, more than %.4f", c.GainU, test.gainWorst)
			}
			if c.ReadingU < c.Rounding || c.DegreesOfFreedom != len(test.run)-3 || len(c.Residuals) != len(test.run) {
				t.Errorf("u(reading) %v, rounding %v, %d degrees of freedom", float64(c.ReadingU), float64(c.Rounding), c.DegreesOfFreedom)
			}
			d := c.Of(Indicator{Division: 2 * test.step})
			near(t, "corrected full reading", float64(d.True(c.Residuals[0]+unit.Length(c.Gain)*mm)/mm), 1, 0.01)
		})
	}
}

func TestCalibrateRejects(t *testing.T) {
	good := blockRun(mm, []float64{0, 1}, []float64{0, 1}, []float64{0, 1})
	if _, err := CalibrateIndicator(good, 0); err != nil {
		t.Fatal(err)
	}
	alike := blockRun(mm, []float64{1, 1, 1}, []float64{0, 0, 0}, []float64{0, 0, 0})
	wrongUnit := blockRun(mm, []float64{0, 1, 2}, []float64{0, 25.4, 50.8}, []float64{0, 25.4, 50.8})
	onlyFalling := good[2:]
	for name, run := range map[string][]BlockReading{
		"none": nil, "three with falling": good[:3], "blocks alike": alike, "wrong unit": wrongUnit, "only falling": append(onlyFalling, onlyFalling...),
		"not a number": {{Block: unit.Length(math.NaN())}, {}, {}, {}},
	} {
		if c, err := CalibrateIndicator(run, 0.01*mm); err == nil {
			t.Errorf("%s: %+v, want an error", name, c)
		}
	}
}
