package wear

// The law of sliding wear in its usual form: the volume worn is in proportion to
// the load and to the distance slid,
//
//	V = k W s,
//
// with k the wear factor (J. F. Archard, Contact and rubbing of flat surfaces,
// Journal of Applied Physics 24 (1953) 981, from memory). Divided by the area,
// depth is k times pressure times distance. It holds only while the state of the
// surfaces stays what it is: the same oil, the same dirt, and after running-in.
//
// The same law is written with a pure number K and the hardness H of the softer
// face in two ways that differ by a factor of three; [Spelling] names which.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// WearRate is depth of wear per time, in m/s.
type WearRate float64

// The shop's ways of saying a wear rate. A year is 365.25 days.
const (
	MicrometrePerYear         WearRate = 1e-6 / (365.25 * 86400)
	MicrometrePerThousandHour WearRate = 1e-6 / (1000 * 3600)
)

// WearFactor is volume worn per load and distance slid, in m^3/(N m), which is
// 1/Pa.
type WearFactor float64

// The usual ways of saying a wear factor. The inch one is in^3 min/(lbf ft h):
// the wear in cubic inches an hour under a pound at a foot a minute.
const (
	CubicMillimetrePerNewtonMetre   WearFactor = 1e-9
	CubicInchMinutePerPoundFootHour WearFactor = inch * inch * inch / (poundForce * 12 * inch * 60)
)

// inch is in m, exact; poundForce in N, exact.
const (
	inch       = 0.0254
	poundForce = 4.4482216152605
)

// KilogramForcePerSquareMillimetre is the unit of a Brinell number, as a
// hardness in pascals.
const KilogramForcePerSquareMillimetre = 9.80665e6 * unit.Pascal

// Spelling is how a table of dimensionless coefficients writes the law.
type Spelling int

const (
	// WithoutThree is V = K W s / H.
	WithoutThree Spelling = iota
	// WithThree is V = K W s / (3 H): K is then the chance that a junction of
	// hemispheres sheds a particle.
	WithThree
)

// String returns the law as it is written.
func (s Spelling) String() string {
	if s == WithThree {
		return "V = K W s / (3 H)"
	}
	return "V = K W s / H"
}

// divisor returns what K is divided by besides the hardness.
func (s Spelling) divisor() (float64, error) {
	switch s {
	case WithoutThree:
		return 1, nil
	case WithThree:
		return 3, nil
	}
	return 0, fmt.Errorf("wear: no spelling of number %d for the law of wear", int(s))
}

// FactorFromCoefficient returns the wear factor for a dimensionless coefficient
// K of the given spelling and the hardness of the softer face.
//
// It returns an error for a coefficient below zero or not finite, or a hardness
// that is not above zero.
func FactorFromCoefficient(coefficient float64, hardness unit.Pressure, spelling Spelling) (WearFactor, error) {
	divisor, err := spelling.divisor()
	if err != nil {
		return 0, err
	}
	if !(coefficient >= 0) || !finite(coefficient) {
		return 0, fmt.Errorf("wear: coefficient %g must be zero or more", coefficient)
	}
	if !(hardness > 0) || !finite(float64(hardness)) {
		return 0, fmt.Errorf("wear: hardness %g Pa must be above zero", float64(hardness))
	}
	return WearFactor(coefficient / divisor / float64(hardness)), nil
}

// Coefficient returns the dimensionless coefficient K of the given spelling that
// the factor stands for on a softer face of the given hardness; the errors are
// those of [FactorFromCoefficient].
func (k WearFactor) Coefficient(hardness unit.Pressure, spelling Spelling) (float64, error) {
	divisor, err := spelling.divisor()
	if err != nil {
		return 0, err
	}
	if !(hardness > 0) || !finite(float64(hardness)) {
		return 0, fmt.Errorf("wear: hardness %g Pa must be above zero", float64(hardness))
	}
	return float64(k) * float64(hardness) * divisor, nil
}

// Volume returns what a load wears off over a distance.
func (k WearFactor) Volume(load unit.Force, distance unit.Length) unit.Volume {
	return unit.Volume(float64(k) * float64(load) * float64(distance))
}

// Depth returns what a pressure wears off over a distance.
func (k WearFactor) Depth(pressure unit.Pressure, distance unit.Length) unit.Length {
	return unit.Length(float64(k) * float64(pressure) * float64(distance))
}

// Distance returns over what distance a pressure wears off a depth. It is
// infinite where nothing wears, and zero for no depth.
func (k WearFactor) Distance(depth unit.Length, pressure unit.Pressure) unit.Length {
	if depth == 0 {
		return 0
	}
	return unit.Length(float64(depth) / (float64(k) * float64(pressure)))
}

// Zone is a stretch of a way and its share of all the sliding.
type Zone struct {
	// Length is the length of the zone along the way.
	Length unit.Length
	// Share is the part of the whole sliding distance that it sees, from 0 to 1.
	Share float64
}

// ZoneWear is what a zone has lost.
type ZoneWear struct {
	Volume unit.Volume
	Depth  unit.Length
}

// WearByUse returns what each zone of a way of the given width loses when the
// load slides the given distance in all, shared over the zones. The pressure
// within a zone is taken as even.
//
// It returns an error for no zones, a length or width that is not above zero, a
// share below zero, shares that sum to more than one, or a factor, load or
// distance below zero.
func WearByUse(factor WearFactor, load unit.Force, width, distance unit.Length, zones []Zone) ([]ZoneWear, error) {
	if len(zones) == 0 {
		return nil, fmt.Errorf("wear: no zones to share the sliding over")
	}
	if !(factor >= 0) || !(load >= 0) || !(distance >= 0) || !(width > 0) || !finite(float64(factor)*float64(load)*float64(distance)/float64(width)) {
		return nil, fmt.Errorf("wear: factor %g 1/Pa, load %g N and distance %g m must be zero or more and the width %.6g mm above zero",
			float64(factor), float64(load), float64(distance), float64(width)*1e3)
	}
	sum := 0.0
	worn := make([]ZoneWear, len(zones))
	for i, z := range zones {
		if !(z.Length > 0) || !finite(float64(z.Length)) || !(z.Share >= 0) {
			return nil, fmt.Errorf("wear: zone %d: length %.6g mm must be above zero and share %g zero or more", i+1, float64(z.Length)*1e3, z.Share)
		}
		sum += z.Share
		v := float64(factor.Volume(load, distance)) * z.Share
		worn[i] = ZoneWear{unit.Volume(v), unit.Length(v / float64(width) / float64(z.Length))}
	}
	if sum > 1+1e-9 {
		return nil, fmt.Errorf("wear: the zones' shares sum to %g; they must not exceed 1", sum)
	}
	return worn, nil
}

// Placement is one way in which a machine is used: the place on the table of the
// middle of the work, how far it travels there, and how much of all the sliding
// that makes.
type Placement struct {
	// Place is the place u on the table that is over the middle of the saddle
	// at the middle of the stroke.
	Place unit.Length
	// Stroke is the length of the travel.
	Stroke unit.Length
	// Share is the part of all the strokes made there.
	Share float64
}

// SlidingAt returns the distance that places of the table's ways slide on the
// saddle in one stroke: the length of the stroke for which the saddle, of the
// given length, covers the place. Every point of the saddle slides the whole
// stroke as long as the table overhangs it.
//
// It returns an error for a saddle or stroke that is not above zero, or a place
// that is not finite.
func SlidingAt(saddle unit.Length, p Placement, places []unit.Length) ([]unit.Length, error) {
	if !(saddle > 0) || !(p.Stroke > 0) || !finite(float64(saddle+p.Stroke+p.Place)) {
		return nil, fmt.Errorf("wear: saddle %.6g mm and stroke %.6g mm at %.6g mm; both lengths must be above zero", float64(saddle)*1e3, float64(p.Stroke)*1e3, float64(p.Place)*1e3)
	}
	slid := make([]unit.Length, len(places))
	for i, u := range places {
		if !finite(float64(u)) {
			return nil, fmt.Errorf("wear: place %d at %g m is not finite", i+1, float64(u))
		}
		from := max(u-saddle/2, p.Place-p.Stroke/2)
		to := min(u+saddle/2, p.Place+p.Stroke/2)
		slid[i] = max(to-from, 0)
	}
	return slid, nil
}

// UseHistogram returns, for each place, the mean distance slid there in one
// stroke of a mixture of placements, weighted by their shares.
//
// It returns an error for no placements, shares that do not sum to 1 within a
// thousandth, a share below zero, or what [SlidingAt] would refuse.
func UseHistogram(saddle unit.Length, placements []Placement, places []unit.Length) ([]unit.Length, error) {
	if err := checkShares(placements); err != nil {
		return nil, err
	}
	mean := make([]unit.Length, len(places))
	for i, p := range placements {
		slid, err := SlidingAt(saddle, p, places)
		if err != nil {
			return nil, fmt.Errorf("placement %d: %w", i+1, err)
		}
		for j, s := range slid {
			mean[j] += s * unit.Length(p.Share)
		}
	}
	return mean, nil
}

// checkShares returns what is wrong with the shares of placements.
func checkShares(placements []Placement) error {
	if len(placements) == 0 {
		return fmt.Errorf("wear: no placements of the work are given")
	}
	sum := 0.0
	for i, p := range placements {
		if !(p.Share >= 0) {
			return fmt.Errorf("wear: placement %d: share %g must be zero or more", i+1, p.Share)
		}
		sum += p.Share
	}
	if !(math.Abs(sum-1) <= 1e-3) {
		return fmt.Errorf("wear: the shares of the placements sum to %g; they must sum to 1", sum)
	}
	return nil
}

// PadPressure is the pressure under a pad.
type PadPressure struct {
	// Mean is the load over the whole face; Least and Most are the pressures at
	// the two ends.
	Mean, Least, Most unit.Pressure
	// Touching is the length of the face that presses: the whole length while
	// the load stands in the middle third.
	Touching unit.Length
}

// PressureUnderPad returns the pressure under a pad of the given length and
// width whose load stands off its middle along the length, with the pressure
// running straight from end to end: Mean (1 +- 6 e/L). Beyond a sixth of the
// length one end lifts, and the rest carries all.
//
// It returns an error for a size that is not above zero, a load below zero, or
// one at or beyond the end of the pad, where it would tip.
func PressureUnderPad(load unit.Force, length, width, off unit.Length) (PadPressure, error) {
	l, b, e := float64(length), float64(width), math.Abs(float64(off))
	if !(l > 0) || !(b > 0) || !(load >= 0) || !finite(float64(load)/l/b) {
		return PadPressure{}, fmt.Errorf("wear: a load of %g N on a pad of %.6g by %.6g mm; the sizes must be above zero", float64(load), l*1e3, b*1e3)
	}
	if !(e < l/2) {
		return PadPressure{}, fmt.Errorf("wear: the load stands %.6g mm off the middle of a pad of %.6g mm; from half the length on it tips", e*1e3, l*1e3)
	}
	mean := float64(load) / l / b
	if e <= l/6 {
		return PadPressure{unit.Pressure(mean), unit.Pressure(mean * (1 - 6*e/l)), unit.Pressure(mean * (1 + 6*e/l)), length}, nil
	}
	touching := 3 * (l/2 - e)
	return PadPressure{Mean: unit.Pressure(mean), Most: unit.Pressure(2 * float64(load) / b / touching), Touching: unit.Length(touching)}, nil
}

// Bushing is a plain bearing in boundary lubrication, its shaft turning.
type Bushing struct {
	// Bore and Length are the size of the bushing.
	Bore, Length unit.Length
	// Load is carried square to the axis.
	Load unit.Force
	// Speed is that of the shaft's surface.
	Speed unit.Velocity
	// Factor is the wear factor of the pair.
	Factor WearFactor
	// Motion and Surroundings multiply the factor for the kind of motion and
	// for heat and dirt: f1 and f2 of handbooks. Zero means 1.
	Motion, Surroundings float64
}

// Life returns how long the bushing runs until it has worn by the given depth at
// the place of highest pressure, and the shaft's turns in that time:
//
//	t = pi D L w / (4 f1 f2 k V F),
//
// the pressure being a cosine with the peak (4/pi) F/(D L) (R. G. Budynas and
// J. K. Nisbett, Shigley's Mechanical Engineering Design, section on
// boundary-lubricated bearings, from memory).
//
// It returns an error for a size, load, speed, factor or depth that is not above
// zero, or a multiplier below zero.
func (b Bushing) Life(depth unit.Length) (life unit.Time, turns float64, err error) {
	for _, x := range []float64{float64(b.Bore), float64(b.Length), float64(b.Load), float64(b.Speed), float64(b.Factor), float64(depth)} {
		if !(x > 0) || !finite(x) {
			return 0, 0, fmt.Errorf("wear: bushing of %.6g by %.6g mm, %g N, %g m/s, factor %g 1/Pa, wear %.6g mm; all must be above zero",
				float64(b.Bore)*1e3, float64(b.Length)*1e3, float64(b.Load), float64(b.Speed), float64(b.Factor), float64(depth)*1e3)
		}
	}
	times := 1.0
	for _, f := range []float64{b.Motion, b.Surroundings} {
		if !(f >= 0) || !finite(f) {
			return 0, 0, fmt.Errorf("wear: bushing: multiplier %g of the wear factor must be above zero", f)
		}
		if f > 0 {
			times *= f
		}
	}
	t := math.Pi * float64(b.Bore) * float64(b.Length) * float64(depth) / (4 * times * float64(b.Factor) * float64(b.Speed) * float64(b.Load))
	return unit.Time(t), t * float64(b.Speed) / (math.Pi * float64(b.Bore)), nil
}
