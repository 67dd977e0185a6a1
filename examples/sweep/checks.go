package sweep

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// checkItems sets what this lesson computes with against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ squaring.Sweep) error {
	for _, add := range []func(*notebook.Sheet) error{ringChecks, dialChecks, leaveChecks} {
		if err := add(s); err != nil {
			return err
		}
	}
	return nil
}

// ringOfReadings makes an even round from the right, anticlockwise.
func ringOfReadings(scale unit.Length, values ...float64) []squaring.SweepReading {
	readings := make([]squaring.SweepReading, len(values))
	for i, v := range values {
		readings[i] = squaring.SweepReading{Azimuth: unit.Angle(i) * 360 * squaring.Degree / unit.Angle(len(values)), Reading: unit.Length(v) * scale}
	}
	return readings
}

// ringChecks are sums over an even ring.
func ringChecks(s *notebook.Sheet) error {
	options := squaring.SweepOptions{Radius: 150 * mm}
	four, err := squaring.FitSweep(ringOfReadings(mm, 0.030, 0.010, -0.010, -0.006), options)
	if err != nil {
		return err
	}
	twelve, err := squaring.FitSweep(ringOfReadings(um, 12, 18, 21, 19, 13, 4, -5, -11, -14, -12, -6, 3), options)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-four-x", "ring-four-x", four.Tilt.X.Microradians()),
		notebook.CheckRow("check-four-y", "ring-four-y", four.Tilt.Y.Microradians()),
		notebook.CheckRow("check-four-plane", "ring-four-plane", float64(four.Residuals[0]/um)),
		notebook.CheckRow("check-twelve", "ring-twelve", twelve.Tilt.Steepest().Arcseconds()),
		notebook.CheckRow("check-twelve-azimuth", "ring-twelve-azimuth", float64(twelve.Tilt.Azimuth()/squaring.Degree)),
		notebook.CheckRow("check-twelve-sd", "ring-twelve-sd", float64(twelve.Scatter/um)),
	)
	return nil
}

// norris is the certified set Norris of NIST's Statistical Reference Datasets:
// pairs of x and y.
func norris() [][2]float64 {
	return [][2]float64{{0.2, 0.1}, {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2}, {226.5, 228.1}, {666.3, 668.5}, {996.3, 998.5},
		{448.6, 449.1}, {777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3}, {0.6, 0.1}, {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9},
		{11.6, 10.8}, {556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3}, {0.3, 0.6}, {556.8, 557.6},
		{339.1, 339.3}, {887.2, 888.0}, {999.0, 998.5}, {779.0, 778.9}, {11.1, 10.2}, {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4},
		{448.9, 449.2}, {0.5, 0.2}}
}

// dialChecks are the line that gives a dial its gain, and what a slanted lever
// and a few readings are worth.
func dialChecks(s *notebook.Sheet) error {
	var run []squaring.BlockReading
	for _, pair := range norris() {
		run = append(run, squaring.BlockReading{Block: unit.Length(pair[0]) * mm, Shown: unit.Length(pair[1]) * mm})
	}
	line, err := squaring.CalibrateIndicator(run, 0*mm)
	if err != nil {
		return err
	}
	factor, _ := squaring.Indicator{StylusAngle: 30 * squaring.Degree}.Factor()
	t, err := squaring.CoverageFactor(0.95, 16)
	if err != nil {
		return err
	}
	thou, err := squaring.SlopeFromRise(1*squaring.Thou, 12*squaring.Inch)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-line", "dial-norris-slope", line.Gain),
		notebook.CheckRow("check-line-constant", "dial-norris-constant", float64(line.Zero/mm)),
		notebook.CheckRow("check-line-sd", "dial-norris-slope-sd", line.GainU),
		notebook.CheckRow("check-line-scatter", "dial-norris-residual-sd", float64(line.Scatter/mm)),
		notebook.CheckRow("check-lever", "lever-30", factor),
		notebook.CheckRow("check-t", "dial-gum-t-16", t),
		notebook.CheckRow("check-thou", "slope-thou-per-foot", thou.Microradians()),
	)
	return nil
}

// leaveChecks are what a tilt leaves on the work.
func leaveChecks(s *notebook.Sheet) error {
	tilt := squaring.Gradient{X: 0.02 * squaring.MillimetrePer300}
	narrow, err := squaring.Facing{Tilt: tilt, Diameter: 100 * mm, Width: 80 * mm}.Surface()
	if err != nil {
		return err
	}
	full, err := squaring.Facing{Tilt: tilt, Diameter: 100 * mm, Width: 100 * mm}.Surface()
	if err != nil {
		return err
	}
	stepped, err := squaring.Facing{Tilt: squaring.Gradient{Y: 231e-6}, Diameter: 120 * mm, Width: 90 * mm, StepOver: 50 * mm}.Surface()
	if err != nil {
		return err
	}
	hole, err := squaring.Hole{Feed: squaring.ByQuill, Tilt: squaring.Gradient{X: 232e-6}, Depth: 60 * mm}.Made()
	if err != nil {
		return err
	}
	bore, err := squaring.Hole{Feed: squaring.ByKnee, Tilt: squaring.Gradient{Y: squaring.Slope(math.Tan(math.Pi / 180))}, Diameter: 50 * mm}.Made()
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-dish", "dish-100-80", float64(narrow.Dish/um)),
		notebook.CheckRow("check-dish-full", "dish-100-100", float64(full.Dish/um)),
		notebook.CheckRow("check-step", "step-231-50", float64(stepped.Step/um)),
		notebook.CheckRow("check-hole", "hole-232-60", float64(hole.Shift/um)),
		notebook.CheckRow("check-oval", "oval-50-degree", float64(bore.Ovality/um)),
	)
	return nil
}
