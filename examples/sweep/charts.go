package sweep

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// curveSteps is the number of steps in which a fitted curve is drawn.
const curveSteps = 72

// ring is the sweep as lists for the charts: true heights from the middle of
// the swept circle.
type ring struct {
	azimuth, height, u, residual []float64
	fineAzimuth, plane           []float64
	low, high                    []float64
}

// ringOf gathers the charts' lists.
func ringOf(in Inputs, sweep squaring.Sweep) ring {
	var g ring
	for i, r := range in.Readings {
		turn := 2 * math.Pi
		azimuth := math.Mod(math.Mod(float64(r.Azimuth), turn)+turn, turn)
		plane := sweep.Tilt.Along(r.Azimuth).Rise(in.Radius)
		g.azimuth = append(g.azimuth, azimuth)
		g.height = append(g.height, float64(plane+sweep.Residuals[i]))
		g.u = append(g.u, float64(sweep.ReadingU))
		g.residual = append(g.residual, float64(sweep.Residuals[i]))
	}
	factor, _ := in.indicator().Factor()
	for i := 0; i <= curveSteps; i++ {
		azimuth := 2 * math.Pi * float64(i) / curveSteps
		plane := float64(sweep.Tilt.Along(unit.Angle(azimuth)).Rise(in.Radius))
		_, u := sweep.Expect(unit.Angle(azimuth))
		half := 2 * factor * float64(u)
		g.fineAzimuth, g.plane = append(g.fineAzimuth, azimuth), append(g.plane, plane)
		g.low, g.high = append(g.low, plane-half), append(g.high, plane+half)
	}
	return g
}

// outward is the axis of the heights with its centre so far below them that a
// tilt looks like a circle moved aside.
func (g ring) outward(heights plot.Axis) plot.Axis {
	largest := 1e-6
	for _, h := range append(append([]float64{}, g.height...), g.plane...) {
		largest = math.Max(largest, math.Abs(h))
	}
	heights.Range = notebook.Between(-3*largest, 1.2*largest)
	return heights
}

// chartItems adds the ring as a circle, unrolled, and what is left over.
func chartItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	g := ringOf(in, sweep)
	heights := plot.Axis{Label: "Height", Show: notebook.FineLengths}
	angles := plot.Axis{Label: "Azimuth", Show: notebook.Angles, Range: notebook.Between(0, 2*math.Pi)}
	readings := plot.Series{Label: "readings, corrected", Style: plot.Dots, X: g.azimuth, Y: g.height, U: g.u}
	plane := plot.Series{Label: "plane", Style: plot.Curve, X: g.fineAzimuth, Y: g.plane}
	circle, err := plot.Polar{Name: "circle", Title: "The sweep as a circle", Angle: "Azimuth",
		Caption: notebook.Say("Right is 0°, the column is at the top. Height above the middle of the circle grows outward; the plane is {} out toward {}.",
			height(sweep.Tilt.Steepest().Rise(in.Radius)), angle(sweep.Tilt.Azimuth())),
		Radius: g.outward(heights), Series: []plot.Series{readings, plane}}.Chart()
	if err != nil {
		return err
	}
	unrolled, err := plot.XY{Name: "unrolled", Title: "The same ring, unrolled",
		Caption: notebook.Say("A tilt is a wave once a turn, {} high. The band is two standard uncertainties of the plane either way, from the readings alone.", height(sweep.Tilt.Steepest().Rise(in.Radius))),
		X:       angles, Y: heights,
		Series: []plot.Series{{Label: "plane, 2 u", Style: plot.Band, X: g.fineAzimuth, Low: g.low, High: g.high}, plane, readings}}.Chart()
	if err != nil {
		return err
	}
	step := float64(sweep.Rounding)
	left, err := plot.XY{Name: "left-over", Title: "What the plane does not explain",
		Caption: notebook.Say("Reading less plane. The lines are twice what reading in steps explains, {} either way.", height(2*sweep.Rounding)),
		X:       angles, Y: plot.Axis{Label: "Left over", Show: notebook.FineLengths},
		Series: []plot.Series{{Label: "left over", Style: plot.Dots, X: g.azimuth, Y: g.residual}},
		Limits: []plot.Limit{{Label: "rounding, +2 u:", Y: 2 * step}, {Label: "rounding, −2 u:", Y: -2 * step}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(circle, unrolled, left)
	return nil
}
