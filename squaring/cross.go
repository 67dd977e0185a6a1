package squaring

// A head's two axes upset one another: nodding it also turns it a little from
// side to side, and tightening in one direction drags the other. To first order
// the change of tilt is a linear map of the turns asked for,
//
//	change x = xx side + xy nod
//	change y = yx side + yy nod
//
// whose four figures are fitted by least squares to before-and-after pairs. With
// the map known both axes can be set in one go, each to the target that the
// other's turn will bring right; without it, setting them in turn and again
// nears square by the factor xy yx / (xx yy) each round.

import (
	"fmt"
	"math"
)

// AxisTrial is one turn of the head and what came of it.
type AxisTrial struct {
	// Asked is the turn made: the change of spindle tilt wanted on the side
	// tilt (X) and on the nod (Y).
	Asked Gradient
	// Before and After are the spindle's tilt, or minus what a sweep shows.
	Before, After Gradient
}

// CrossEffect is what turning one axis does to both.
type CrossEffect struct {
	// XX and YY are the own effects, what an axis does for each unit asked; XY
	// is what the nod does to the side tilt, YX what the side tilt does to the
	// nod.
	XX, XY, YX, YY float64
	// XXU, XYU, YXU and YYU are their standard uncertainties.
	XXU, XYU, YXU, YYU float64
	// Scatter is the standard deviation of one change about the map, in each
	// direction; the larger of it and the readings' own uncertainty counts.
	Scatter Gradient
	// DegreesOfFreedom are the trials beyond two.
	DegreesOfFreedom int
}

// FitCrossEffect fits the map to at least two trials that turn the axes in
// different ways. The uncertainty u is that of one change of tilt, from two
// sweeps, in each direction.
func FitCrossEffect(trials []AxisTrial, u Gradient) (CrossEffect, error) {
	if !(u.X >= 0) || !(u.Y >= 0) || math.IsInf(float64(u.X+u.Y), 0) {
		return CrossEffect{}, fmt.Errorf("squaring: uncertainty of a change of tilt is %s and %s, must not be negative", u.X, u.Y)
	}
	x, y := smallFit{unknowns: 2}, smallFit{unknowns: 2}
	for i, trial := range trials {
		for _, s := range []Slope{trial.Asked.X, trial.Asked.Y, trial.Before.X, trial.Before.Y, trial.After.X, trial.After.Y} {
			if !(math.Abs(float64(s)) <= 0.1) {
				return CrossEffect{}, fmt.Errorf("squaring: trial %d holds a slope of %s, must be a number within 0.1", i+1, s)
			}
		}
		change := trial.After.Minus(trial.Before)
		row := row5{float64(trial.Asked.X), float64(trial.Asked.Y)}
		x.add(row, float64(change.X))
		y.add(row, float64(change.Y))
	}
	if len(trials) < 2 || x.weakest() < 1e-6 {
		return CrossEffect{}, fmt.Errorf("squaring: %d trials that turn the axes one way only: turn each axis at least once by itself", len(trials))
	}
	c := CrossEffect{DegreesOfFreedom: x.degreesOfFreedom()}
	bx, by, cov := x.solve(), y.solve(), x.covariance()
	c.XX, c.XY, c.YX, c.YY = bx[0], bx[1], by[0], by[1]
	if c.DegreesOfFreedom > 0 {
		spare := float64(c.DegreesOfFreedom)
		c.Scatter = Gradient{X: Slope(math.Sqrt(x.rss / spare)), Y: Slope(math.Sqrt(y.rss / spare))}
	}
	ux, uy := math.Max(float64(c.Scatter.X), float64(u.X)), math.Max(float64(c.Scatter.Y), float64(u.Y))
	side, nod := math.Sqrt(cov[0][0]), math.Sqrt(cov[1][1])
	c.XXU, c.XYU, c.YXU, c.YYU = ux*side, ux*nod, uy*side, uy*nod
	if det := c.XX*c.YY - c.XY*c.YX; !(math.Abs(det) > 1e-3*math.Max(math.Abs(c.XX*c.YY), math.Abs(c.XY*c.YX))) {
		return c, fmt.Errorf("squaring: both axes move the head in the same direction, so it cannot be set with them")
	}
	return c, nil
}

// Axis is one of the head's two.
type Axis string

const (
	// SideAxis is the side tilt, NodAxis the nod.
	SideAxis Axis = "side tilt"
	NodAxis  Axis = "nod"
)

// AxisPlan is how to set both axes.
type AxisPlan struct {
	// Turn is the turn of each axis that brings both right at once, and TurnU
	// its standard uncertainty from the map.
	Turn, TurnU Gradient
	// First is the axis to turn first: the one that is less upset by the other.
	First Axis
	// AfterFirst is the tilt to be shown when the first axis has been turned
	// and the second not yet. It is not zero on the first axis: the second
	// turn brings it there.
	AfterFirst Gradient
	// ByTurns is how many settings it takes to come within the limit on both
	// axes when each is set to zero by itself, first one and then the other,
	// and again; -1 when that never gets there. With the plan it is two.
	ByTurns int
}

// Plan returns how to bring the spindle's tilt from now to aim, on both axes
// within the limit. The limit must be above zero.
func (c CrossEffect) Plan(now, aim Gradient, limit Slope) (AxisPlan, error) {
	det := c.XX*c.YY - c.XY*c.YX
	if err := finite("map of the two axes", 1/det); err != nil {
		return AxisPlan{}, err
	}
	for _, s := range []Slope{now.X, now.Y, aim.X, aim.Y} {
		if !(math.Abs(float64(s)) <= 0.1) {
			return AxisPlan{}, fmt.Errorf("squaring: tilt of %s, must be a number within 0.1", s)
		}
	}
	if !(limit > 0) {
		return AxisPlan{}, fmt.Errorf("squaring: limit of the tilt is %s, must be above zero", limit)
	}
	want := aim.Minus(now)
	p := AxisPlan{Turn: c.solve(want)}
	p.TurnU = c.turnU(p.Turn)
	// What the second turn does to the first axis, against what it is to do.
	side, nod := Slope(c.YX)*p.Turn.X, Slope(c.XY)*p.Turn.Y
	p.First = NodAxis
	first := Gradient{Y: p.Turn.Y}
	if math.Abs(float64(nod)) < math.Abs(float64(side)) {
		p.First, first = SideAxis, Gradient{X: p.Turn.X}
	}
	p.AfterFirst = now.Plus(c.apply(first))
	p.ByTurns = c.byTurns(want, p.First, limit)
	return p, nil
}

// apply returns the change that turns make.
func (c CrossEffect) apply(turn Gradient) Gradient {
	return Gradient{X: Slope(c.XX)*turn.X + Slope(c.XY)*turn.Y, Y: Slope(c.YX)*turn.X + Slope(c.YY)*turn.Y}
}

// solve returns the turns that make a change.
func (c CrossEffect) solve(change Gradient) Gradient {
	det := Slope(c.XX*c.YY - c.XY*c.YX)
	return Gradient{X: (Slope(c.YY)*change.X - Slope(c.XY)*change.Y) / det, Y: (Slope(c.XX)*change.Y - Slope(c.YX)*change.X) / det}
}

// turnU carries the map's uncertainty into the turns: an error of the map by dM
// misses by dM turn, which M inverse turns back into turns.
func (c CrossEffect) turnU(turn Gradient) Gradient {
	det := c.XX*c.YY - c.XY*c.YX
	x, y := float64(turn.X), float64(turn.Y)
	missX, missY := math.Hypot(c.XXU*x, c.XYU*y), math.Hypot(c.YXU*x, c.YYU*y)
	return Gradient{X: Slope(math.Hypot(c.YY*missX, c.XY*missY) / math.Abs(det)), Y: Slope(math.Hypot(c.XX*missY, c.YX*missX) / math.Abs(det))}
}

// byTurns counts the settings needed when each axis is set to zero by itself.
func (c CrossEffect) byTurns(left Gradient, first Axis, limit Slope) int {
	const patience = 100
	axis := first
	for n := 0; n <= patience; n++ {
		if math.Abs(float64(left.X)) <= float64(limit) && math.Abs(float64(left.Y)) <= float64(limit) {
			return n
		}
		if axis == SideAxis {
			left, axis = left.Minus(c.apply(Gradient{X: left.X / Slope(c.XX)})), NodAxis
		} else {
			left, axis = left.Minus(c.apply(Gradient{Y: left.Y / Slope(c.YY)})), SideAxis
		}
		if !(left.Steepest() < 10) {
			return -1
		}
	}
	return -1
}
