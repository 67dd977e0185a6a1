package plating

// Fits before and after plating. A plated size is the size before plus a factor
// times the local thickness: 2 for a pin, -2 for a bore, 4 and -4 for the pitch
// diameter of an outer and an inner 60 degree thread. The local thickness is a
// share of the mean, and both are uncertain:
//
//	after = before + f s d
//	u(after)^2 = u(before)^2 + (f s u(d))^2 + (f d u(s))^2

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Feature is what is plated and has to fit.
type Feature string

// The features.
const (
	Pin            Feature = "pin"
	Bore           Feature = "bore"
	ExternalThread Feature = "external thread" // its pitch diameter, 60 degrees
	InternalThread Feature = "internal thread" // its pitch diameter, 60 degrees
)

// Factor returns the growth of the feature's diameter over the local
// thickness, negative for features that shrink, and an error for a feature that
// is not one of the four.
func (f Feature) Factor() (float64, error) {
	switch f {
	case Pin:
		return 2, nil
	case Bore:
		return -2, nil
	case ExternalThread:
		return 4, nil
	case InternalThread:
		return -4, nil
	}
	return 0, fmt.Errorf("plating: feature %q is not a pin, bore, external thread or internal thread", string(f))
}

// LocalCoat is a coat where it matters for a fit.
type LocalCoat struct {
	// Mean is the mean thickness over the load and MeanU its standard
	// uncertainty.
	Mean, MeanU unit.Length
	// Share is local over mean thickness there and ShareU its standard
	// uncertainty; a share of zero means no coat.
	Share, ShareU float64
}

// local returns the local thickness and its standard uncertainty in metres.
func (c LocalCoat) local() (t, u float64, err error) {
	if err := firstError(
		notNegative("mean thickness", float64(c.Mean), inMicrometre),
		notNegative("standard uncertainty of the mean thickness", float64(c.MeanU), inMicrometre),
		notNegative("share of the place", c.Share, inPlain),
		notNegative("standard uncertainty of the share", c.ShareU, inPlain),
	); err != nil {
		return 0, 0, err
	}
	return c.Share * float64(c.Mean), math.Hypot(c.Share*float64(c.MeanU), c.ShareU*float64(c.Mean)), nil
}

// Plated is a size after plating.
type Plated struct {
	// Size after plating and its standard uncertainty U; Growth is after less
	// before, negative for bores and inner threads.
	Size, U, Growth unit.Length
	// Shares says what the size before, the mean thickness and the share of the
	// place contribute to U, in metres.
	Shares []Share
}

// PlatedSize returns the size of a feature after a coat.
func PlatedSize(f Feature, before Dimension, coat LocalCoat) (Plated, error) {
	factor, err := f.Factor()
	if err != nil {
		return Plated{}, err
	}
	if err := (named{"size before plating", before}).validate(); err != nil {
		return Plated{}, err
	}
	t, _, err := coat.local()
	if err != nil {
		return Plated{}, err
	}
	after := float64(before.Value) + factor*t
	if after <= 0 {
		return Plated{}, fmt.Errorf("plating: a coat of %s closes the %s of %s", inMicrometre.of(t), f, inMillimetre.of(float64(before.Value)))
	}
	shares := []Share{
		{"size before", float64(before.U)},
		{"mean thickness", math.Abs(factor) * coat.Share * float64(coat.MeanU)},
		{"share of the place", math.Abs(factor) * coat.ShareU * float64(coat.Mean)},
	}
	u := rootSumSquares(shares)
	if !isFinite(after) || !isFinite(u) {
		return Plated{}, fmt.Errorf("plating: size, coat or their uncertainties are too large to compute with")
	}
	return Plated{unit.Length(after), unit.Length(u), unit.Length(factor * t), shares}, nil
}

// Limits are the least and the greatest size that is accepted.
type Limits struct {
	Least, Greatest unit.Length
}

// validate returns an error unless the limits are finite and in order.
func (l Limits) validate() error {
	if !isFinite(float64(l.Least)) || !isFinite(float64(l.Greatest)) || l.Least > l.Greatest {
		return fmt.Errorf("plating: limits %s and %s must be finite and in order", inMillimetre.of(float64(l.Least)), inMillimetre.of(float64(l.Greatest)))
	}
	return nil
}

// ChanceWithin returns the chance that the plated size lies within limits, with
// a normal distribution (JCGM 106:2012, 7.2, two-sided tolerance).
func (p Plated) ChanceWithin(l Limits) (float64, error) {
	if err := l.validate(); err != nil {
		return 0, err
	}
	return below(float64(l.Greatest-p.Size), float64(p.U)) - below(float64(l.Least-p.Size), float64(p.U)), nil
}

// below returns the chance that a normal deviate of standard deviation u is at
// most x; with u zero it is 0 or 1, and 1 at x = 0.
func below(x, u float64) float64 {
	if u == 0 {
		if x >= 0 {
			return 1
		}
		return 0
	}
	return math.Erfc(-x/(u*math.Sqrt2)) / 2
}

// CutSize returns the size to cut before plating so that the plated size falls
// in the middle of its limits.
func CutSize(f Feature, l Limits, coat LocalCoat) (unit.Length, error) {
	factor, err := f.Factor()
	if err != nil {
		return 0, err
	}
	if err := firstError(l.validate(), positive("least size", float64(l.Least), inMillimetre)); err != nil {
		return 0, err
	}
	t, _, err := coat.local()
	if err != nil {
		return 0, err
	}
	cut := (float64(l.Least)+float64(l.Greatest))/2 - factor*t
	if cut <= 0 {
		return 0, fmt.Errorf("plating: a coat of %s leaves nothing of the %s to cut", inMicrometre.of(t), f)
	}
	return unit.Length(cut), nil
}

// ThreadFit is a screw and a nut before plating.
type ThreadFit struct {
	// Clearance is the nut's pitch diameter less the screw's before plating,
	// measured or from [ClassClearance], and ClearanceU its standard
	// uncertainty. Lead and angle errors eat clearance: take them off.
	Clearance, ClearanceU unit.Length
	// Screw is the coat on the screw's flanks, Nut that in the nut; the zero
	// value is no coat.
	Screw, Nut LocalCoat
}

// Left is what a thread fit has left after plating.
type Left struct {
	// Clearance on the pitch diameter, negative when the thread binds, and its
	// standard uncertainty U.
	Clearance, U unit.Length
	// Runs is the chance that the nut runs: that the clearance is above zero.
	Runs float64
}

// AfterPlating returns what clearance the coats leave.
func (f ThreadFit) AfterPlating() (Left, error) {
	if !isFinite(float64(f.Clearance)) {
		return Left{}, fmt.Errorf("plating: clearance is not finite")
	}
	if err := notNegative("standard uncertainty of the clearance", float64(f.ClearanceU), inMicrometre); err != nil {
		return Left{}, err
	}
	screw, screwU, err := f.Screw.local()
	if err != nil {
		return Left{}, err
	}
	nut, nutU, err := f.Nut.local()
	if err != nil {
		return Left{}, err
	}
	const perFlank = 4 // 60 degrees
	left := float64(f.Clearance) - perFlank*(screw+nut)
	u := math.Sqrt(float64(f.ClearanceU)*float64(f.ClearanceU) + perFlank*perFlank*(screwU*screwU+nutU*nutU))
	if !isFinite(left) || !isFinite(u) {
		return Left{}, fmt.Errorf("plating: clearance, coat or their uncertainties are too large to compute with")
	}
	return Left{unit.Length(left), unit.Length(u), below(left, u)}, nil
}

// ClassClearance returns the clearance on the pitch diameter of an uncoated
// screw of grade 6 at the given position with a nut of 6H, each anywhere in its
// tolerance (rectangular): the middle and its standard uncertainty. The least
// is the allowance alone.
func ClassClearance(diameter, pitch unit.Length, position Position) (middle, u, least unit.Length, err error) {
	least, _, err = Allowance(pitch, position)
	if err != nil {
		return 0, 0, 0, err
	}
	external, internal, err := PitchDiameterTolerance(diameter, pitch)
	if err != nil {
		return 0, 0, 0, err
	}
	return least + (external+internal)/2, unit.Length(math.Hypot(float64(external), float64(internal)) / math.Sqrt(12)), least, nil
}
