package wear

// Lost motion is what the handwheel turns before the table follows. It is found
// by coming to the same dial reading of the screw from both sides and looking
// where the table stands. The quantities are those of ISO 230-2:2014,
// Determination of accuracy and repeatability of positioning (definitions from
// memory, text not read).

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/unit"
)

// Target is a place to which the table was sent from both sides, several times.
type Target struct {
	// Place is the place along the travel.
	Place unit.Length
	// Up and Down are where the table stood less where it was sent: coming up in
	// the positive direction, and down. Equally many, at least two each.
	Up, Down []unit.Length
}

// TargetResult is what one target tells.
type TargetResult struct {
	Place unit.Length
	// UpMean and DownMean are the mean deviations, UpS and DownS their standard
	// deviations from run to run.
	UpMean, DownMean, UpS, DownS unit.Length
	// Lost is UpMean less DownMean, the reversal value: its size is the lost
	// motion there. A table that is dragged along stops short, so that lost
	// motion between screw and table makes it negative; between the table and a
	// scale on the screw's far side positive. LostU is its standard uncertainty.
	Lost, LostU unit.Length
	// UpRepeat and DownRepeat are four standard deviations; Repeat is the
	// repeatability from both sides.
	UpRepeat, DownRepeat, Repeat unit.Length
}

// Positioning is what all the targets tell.
type Positioning struct {
	Targets []TargetResult
	// Lost is the largest lost motion, regardless of sign, and LostAt its place;
	// MeanLost is the mean over the targets, with sign.
	Lost, LostAt, MeanLost unit.Length
	// Repeat is the largest repeatability from both sides, UpRepeat and
	// DownRepeat the largest from each.
	Repeat, UpRepeat, DownRepeat unit.Length
	// Systematic is the systematic error from both sides (E), UpSystematic and
	// DownSystematic from each; MeanRange is the range of the means of both
	// sides (M).
	Systematic, UpSystematic, DownSystematic, MeanRange unit.Length
	// Accuracy is A, and UpAccuracy and DownAccuracy those from each side.
	Accuracy, UpAccuracy, DownAccuracy unit.Length
	// VariesP is the chance of lost motions that differ along the travel as much
	// as these by scatter alone: small when the screw is worn in one place.
	VariesP float64
}

// ReadPositioning works readings from both sides at several places:
//
//	B = mean up - mean down,  R = max(2 s_up + 2 s_down + |B|, 4 s_up, 4 s_down),
//	E = range of all means,   A = range of means +- 2 s.
//
// It returns an error for no targets, fewer than two runs at a target or a number
// that differs between the sides, or a value that is not finite.
func ReadPositioning(targets []Target) (Positioning, error) {
	if len(targets) == 0 {
		return Positioning{}, errors.New("wear: no targets were read")
	}
	p := Positioning{Targets: make([]TargetResult, len(targets))}
	up, down, middle := newRange(), newRange(), newRange()
	upWide, downWide := newRange(), newRange()
	for i, target := range targets {
		r, err := target.read(i + 1)
		if err != nil {
			return Positioning{}, err
		}
		p.Targets[i] = r
		p.MeanLost += r.Lost / unit.Length(len(targets))
		if size := unit.Length(math.Abs(float64(r.Lost))); size > p.Lost || i == 0 {
			p.Lost, p.LostAt = size, r.Place
		}
		p.Repeat, p.UpRepeat, p.DownRepeat = max(p.Repeat, r.Repeat), max(p.UpRepeat, r.UpRepeat), max(p.DownRepeat, r.DownRepeat)
		up.take(r.UpMean)
		down.take(r.DownMean)
		middle.take((r.UpMean + r.DownMean) / 2)
		upWide.take(r.UpMean-2*r.UpS, r.UpMean+2*r.UpS)
		downWide.take(r.DownMean-2*r.DownS, r.DownMean+2*r.DownS)
	}
	p.UpSystematic, p.DownSystematic, p.MeanRange = up.size(), down.size(), middle.size()
	p.UpAccuracy, p.DownAccuracy = upWide.size(), downWide.size()
	up.take(down.low, down.high)
	upWide.take(downWide.low, downWide.high)
	p.Systematic, p.Accuracy = up.size(), upWide.size()
	p.VariesP = variesP(targets, p.Targets)
	return p, nil
}

// valueRange is the range of values taken in.
type valueRange struct{ low, high unit.Length }

func newRange() valueRange {
	return valueRange{unit.Length(math.Inf(1)), unit.Length(math.Inf(-1))}
}

func (r *valueRange) take(values ...unit.Length) {
	for _, v := range values {
		r.low, r.high = min(r.low, v), max(r.high, v)
	}
}

func (r valueRange) size() unit.Length { return r.high - r.low }

// read works the n-th target.
func (t Target) read(n int) (TargetResult, error) {
	if len(t.Up) != len(t.Down) || len(t.Up) < 2 {
		return TargetResult{}, fmt.Errorf("wear: target %d: %d runs up and %d down; they must be equally many and at least 2", n, len(t.Up), len(t.Down))
	}
	if !finite(float64(t.Place)) {
		return TargetResult{}, fmt.Errorf("wear: target %d: place %g m is not finite", n, float64(t.Place))
	}
	side := func(runs []unit.Length) (mean, s float64, err error) {
		x := make([]float64, len(runs))
		for i, v := range runs {
			if x[i] = float64(v); !(math.Abs(x[i]) <= 1) {
				return 0, 0, fmt.Errorf("wear: target %d, run %d: deviation %g m must be within a metre", n, i+1, x[i])
			}
		}
		mean, s = stat.MeanStdDev(x, nil)
		return mean, s, nil
	}
	upMean, upS, err := side(t.Up)
	if err != nil {
		return TargetResult{}, err
	}
	downMean, downS, err := side(t.Down)
	if err != nil {
		return TargetResult{}, err
	}
	lost := upMean - downMean
	return TargetResult{Place: t.Place,
		UpMean: unit.Length(upMean), DownMean: unit.Length(downMean), UpS: unit.Length(upS), DownS: unit.Length(downS),
		Lost: unit.Length(lost), LostU: unit.Length(math.Hypot(upS, downS) / math.Sqrt(float64(len(t.Up)))),
		UpRepeat: unit.Length(4 * upS), DownRepeat: unit.Length(4 * downS),
		Repeat: unit.Length(math.Max(2*upS+2*downS+math.Abs(lost), 4*math.Max(upS, downS)))}, nil
}

// variesP tests whether the lost motions are alike, with the scatter of all
// targets pooled, by the F test of equal means.
func variesP(targets []Target, results []TargetResult) float64 {
	n := float64(len(targets))
	if n < 2 {
		return 1
	}
	mean, weights := 0.0, 0.0
	for i, r := range results {
		mean, weights = mean+float64(r.Lost)*float64(len(targets[i].Up)), weights+float64(len(targets[i].Up))
	}
	mean /= weights
	var between, within, freedom float64
	for i, r := range results {
		runs := float64(len(targets[i].Up))
		between += runs * math.Pow(float64(r.Lost)-mean, 2) / 2
		within += (runs - 1) * (math.Pow(float64(r.UpS), 2) + math.Pow(float64(r.DownS), 2))
		freedom += 2 * (runs - 1)
	}
	if between == 0 {
		return 1
	}
	return fisherAbove(between/(n-1)/(within/freedom), n-1, freedom)
}

// Screw is a lead screw with its nut.
type Screw struct {
	// Lead is the travel of one turn.
	Lead unit.Length
	// Pitch is the pitch diameter, Nut the length of the nut in engagement,
	// Depth the working depth of the thread.
	Pitch, Nut, Depth unit.Length
	// Flank is the angle of the working flank from square to the axis: 0 for a
	// square thread, 14.5 degrees for Acme, 15 for trapezoidal.
	Flank unit.Angle
}

// LostMotion returns the lost motion along the axis that wear of the flanks
// makes, when the working flanks of both hands of travel have lost the given
// depths square to their faces: the sum, each divided by the cosines of the
// flank's angle and of the lead angle. For a square thread of small lead it is
// the sum of the two depths.
//
// It returns an error for a screw whose lead or pitch diameter is not above
// zero, a flank outside 0 to 60 degrees, or a depth that is not finite.
func (s Screw) LostMotion(one, other unit.Length) (unit.Length, error) {
	if !(s.Lead > 0) || !(s.Pitch > 0) || !finite(float64(s.Lead+s.Pitch)) || !(s.Flank >= 0 && s.Flank <= math.Pi/3) {
		return 0, fmt.Errorf("wear: screw of lead %.6g mm, pitch diameter %.6g mm and flank %.4g degrees; the lengths must be above zero and the flank 0 to 60", float64(s.Lead)*1e3, float64(s.Pitch)*1e3, float64(s.Flank)*180/math.Pi)
	}
	if !finite(float64(one + other)) {
		return 0, fmt.Errorf("wear: depths %g and %g m worn off the flanks must be finite", float64(one), float64(other))
	}
	lead := math.Atan(float64(s.Lead) / math.Pi / float64(s.Pitch))
	return unit.Length(float64(one+other) / math.Cos(float64(s.Flank)) / math.Cos(lead)), nil
}

// NutWear returns the depth worn off the nut's flank, square to its face, when
// the table is drawn by a force over a travel: the thread slides pi d over the
// cosine of the lead angle for every lead of travel, under the force spread over
// the flanks in engagement.
//
// It returns an error for a size of the screw that is not above zero, a force,
// travel or factor below zero, or a flank outside 0 to 60 degrees.
func (s Screw) NutWear(factor WearFactor, force unit.Force, travel unit.Length) (unit.Length, error) {
	if _, err := s.LostMotion(0, 0); err != nil {
		return 0, err
	}
	if !(s.Nut > 0) || !(s.Depth > 0) || !finite(float64(s.Nut+s.Depth)) {
		return 0, fmt.Errorf("wear: nut of %.6g mm with threads %.6g mm deep; both must be above zero", float64(s.Nut)*1e3, float64(s.Depth)*1e3)
	}
	if !(factor >= 0) || !(force >= 0) || !(travel >= 0) || !finite(float64(factor)*float64(force)*float64(travel)) {
		return 0, fmt.Errorf("wear: factor %g 1/Pa, force %g N and travel %g m must be zero or more", float64(factor), float64(force), float64(travel))
	}
	turn := math.Hypot(math.Pi*float64(s.Pitch), float64(s.Lead))
	slid := float64(travel) / float64(s.Lead) * turn
	// Seen along the axis the flanks in engagement are pi d times the working
	// depth for every lead of nut, and the pressure on the slanted face is the
	// axial force over that.
	area := math.Pi * float64(s.Pitch) * float64(s.Depth) * float64(s.Nut) / float64(s.Lead)
	return factor.Depth(unit.Pressure(float64(force)/area), unit.Length(slid)), nil
}

// Handwheel returns what a length is in turns of the handwheel.
//
// It returns an error for a lead that is not above zero.
func (s Screw) Handwheel(length unit.Length) (unit.Angle, error) {
	if !(s.Lead > 0) || !finite(float64(s.Lead)) {
		return 0, fmt.Errorf("wear: lead %.6g mm must be above zero", float64(s.Lead)*1e3)
	}
	return unit.Angle(2 * math.Pi * float64(length) / float64(s.Lead)), nil
}
