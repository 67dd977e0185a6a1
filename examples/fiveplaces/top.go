package fiveplaces

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// topForm is the form of the table's top along x as a parabola: a dial on the top
// sees travel and top together, a ground bar rolled over the travel alone, and
// what differs is the top.
type topForm struct {
	// curve is that parabola's bend, height over length squared, and curveU its
	// standard uncertainty, in 1/m; below zero where the top is high in the
	// middle.
	curve, curveU float64
	// travel, motion and run are the places that both have, each run with the
	// straight line through its ends taken out.
	travel, motion, run []float64
}

// topForm fits the top. Run and bar need three places in common.
func (in Inputs) topForm() (topForm, error) {
	shown := map[unit.Length]unit.Length{}
	for i, r := range in.Run {
		if _, twice := shown[r.Travel]; twice {
			return topForm{}, notebook.InRow("run", i+1, "travel", fmt.Errorf("stands there twice"))
		}
		shown[r.Travel] = r.Shown
	}
	var f topForm
	var points []squaring.JawPoint
	for i, b := range in.Bar {
		if i > 0 && b.Travel <= in.Bar[i-1].Travel {
			return f, notebook.InRow("bar", i+1, "travel", fmt.Errorf("is not beyond the line before: list the places from left to right"))
		}
		run, ok := shown[b.Travel]
		if !ok {
			continue
		}
		motion := (b.Up - b.Down) / 2
		points = append(points, squaring.JawPoint{Place: b.Travel, Reading: run - motion})
		f.travel, f.motion, f.run = append(f.travel, float64(b.Travel)), append(f.motion, float64(motion)), append(f.run, float64(run))
	}
	if len(points) < 4 {
		return f, notebook.InField("bar", fmt.Errorf("has %d places in common with the table run, at least 4 are needed", len(points)))
	}
	// One reading of the run and half the difference of two of the bar: together
	// as unsure as one dial read in steps root 1.5 as large.
	fit, err := squaring.FitJawRun(points, in.RunStep*unit.Length(math.Sqrt(1.5)))
	if err != nil {
		return f, notebook.InField("bar", err)
	}
	half := float64(fit.Length) / 2
	f.curve, f.curveU = float64(fit.Hollow.Length)/(half*half), float64(fit.Hollow.Uncertainty)/(half*half)
	f.motion, f.run = level(f.travel, f.motion), level(f.travel, f.run)
	return f, nil
}

// level takes the straight line through the ends out of the heights.
func level(x, heights []float64) []float64 {
	last := len(x) - 1
	slope := (heights[last] - heights[0]) / (x[last] - x[0])
	out := make([]float64, len(x))
	for i := range x {
		out[i] = heights[i] - heights[0] - slope*(x[i]-x[0])
	}
	return out
}

// slopeSince returns how much more the top slopes under the spindle at one travel
// than at another. The place under the spindle is minus the travel, so the slope
// grows by minus twice the bend for each length of travel.
func (f topForm) slopeSince(travel, from unit.Length) squaring.MeasuredSlope {
	d := float64(travel - from)
	return squaring.MeasuredSlope{Slope: squaring.Slope(-2 * f.curve * d), Uncertainty: squaring.Slope(2 * f.curveU * math.Abs(d))}
}
