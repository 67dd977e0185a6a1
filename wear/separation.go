package wear

// A reading against a straightedge, a plate or a bar holds the error of the
// reference and of the thing alike. Turning the reference over, or a third
// piece, gives the second equation. What no such method can give is a straight
// line: each run sets its own zero and its own tilt.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// ReversalReading is a pair of readings at one place, before and after the
// reference was turned over.
type ReversalReading struct {
	// Position is the place along the run; for a bar on a travelling table the
	// place u = -X of the table over the middle of the saddle.
	Position unit.Length
	// First is the reading before and Second that after turning over, positive
	// when the stem is pushed in.
	First, Second unit.Length
}

// Separated is what turning over has told apart.
type Separated struct {
	// Motion is the height of the motion, or of the way, and Reference that of
	// the bar's or straightedge's face, positive outward from its body. Both
	// have the line through their end points taken off, with the covariance
	// carried along.
	Motion, Reference Profile
}

// ReverseBar separates the motion of a table from the shape of a ground bar
// that lies on it along x: read first with its marked edge up and the dial above
// it, then rolled about its length so that the marked edge faces down, with the
// dial below it. The dial stands still and the table travels, so
//
//	first  = motion + edge,   second = -motion + edge,
//
// with the edge positive outward. The bar's own sag does not turn over with it:
// both times it hangs down, and the motion returned is too low by the sag
// ([BeamSag]).
//
// It returns an error for fewer than three places, two readings at one place, a
// value that is not finite or more than 1 m, or a gauge out of range.
func ReverseBar(readings []ReversalReading, gauge Gauge) (Separated, error) {
	turned := make([]ReversalReading, len(readings))
	for i, r := range readings {
		turned[i] = ReversalReading{r.Position, r.First, -r.Second}
	}
	return ReverseStraightedge(turned, gauge)
}

// ReverseStraightedge separates a way from a straightedge whose edge was turned
// over so that its errors point the other way while the dial looks in the same
// direction:
//
//	first = way + edge,   second = way - edge.
//
// It returns an error as [ReverseBar] does.
func ReverseStraightedge(readings []ReversalReading, gauge Gauge) (Separated, error) {
	if len(readings) < 3 {
		return Separated{}, fmt.Errorf("wear: a reversal needs at least 3 places, got %d", len(readings))
	}
	sum, difference := make([]Point, len(readings)), make([]Point, len(readings))
	for i, r := range readings {
		if !(math.Abs(float64(r.First)) <= 1) || !(math.Abs(float64(r.Second)) <= 1) {
			return Separated{}, fmt.Errorf("wear: reversal, place %d: readings %g and %g m must lie within 1 m", i+1, float64(r.First), float64(r.Second))
		}
		sum[i] = Point{r.Position, (r.First + r.Second) / 2}
		difference[i] = Point{r.Position, (r.First - r.Second) / 2}
	}
	if err := gauge.check(); err != nil {
		return Separated{}, err
	}
	half := Gauge{RepeatU: gauge.U() / math.Sqrt2} // half a sum of two readings
	var s Separated
	for _, part := range []struct {
		points []Point
		to     *Profile
	}{{sum, &s.Motion}, {difference, &s.Reference}} {
		profile, err := ProfileFromReadings(part.points, half)
		if err != nil {
			return Separated{}, err
		}
		if *part.to, _, err = profile.Less(EndPoints); err != nil {
			return Separated{}, err
		}
	}
	return s, nil
}

// ThreePlates finds the profiles of three plates, or straightedges, from the
// gaps between them laid face to face, two at a time, at the same places along
// one line:
//
//	a = (ab + ac - bc)/2,   b = (ab + bc - ac)/2,   c = (ac + bc - ab)/2.
//
// A pair's reading is the sum of the two profiles, so positive where the faces
// stand out toward one another. gapU is the standard uncertainty of one reading;
// that of a profile is sqrt(3)/2 of it at every place. The plates must meet at
// the same places with the same side up the line; each profile is known up to a
// straight line.
//
// It returns an error for no readings, lists of unequal length, a value that is
// not finite, or a negative uncertainty.
func ThreePlates(ab, ac, bc []unit.Length, gapU unit.Length) (a, b, c []unit.Length, u unit.Length, err error) {
	if len(ab) == 0 || len(ac) != len(ab) || len(bc) != len(ab) {
		return nil, nil, nil, 0, fmt.Errorf("wear: three plates have %d, %d and %d readings; the lists must be equally long and not empty", len(ab), len(ac), len(bc))
	}
	if !(gapU >= 0) || !finite(float64(gapU)) {
		return nil, nil, nil, 0, fmt.Errorf("wear: standard uncertainty of a gap %g m must be zero or more", float64(gapU))
	}
	for i := range ab {
		if sum := float64(ab[i]) + float64(ac[i]) + float64(bc[i]); !finite(sum) {
			return nil, nil, nil, 0, fmt.Errorf("wear: three plates, place %d: readings %g, %g and %g m must be finite", i+1, float64(ab[i]), float64(ac[i]), float64(bc[i]))
		}
		a = append(a, (ab[i]+ac[i]-bc[i])/2)
		b = append(b, (ab[i]+bc[i]-ac[i])/2)
		c = append(c, (ac[i]+bc[i]-ab[i])/2)
	}
	return a, b, c, unit.Length(math.Sqrt(3) / 2 * float64(gapU)), nil
}

// ProbeReading is what three dials show at one place of the carriage that holds
// them in a row, one pitch apart: A behind, B in the middle, C ahead.
type ProbeReading struct {
	A, B, C unit.Length
}

// ThreeProbes finds the profile of a way from three dials on one carriage that
// is moved by one pitch from reading to reading. The carriage may lift and pitch
// as it likes: the second difference A - 2B + C holds the way alone, and summed
// twice gives the profile, n readings giving n+2 places. Its line through the
// end points is taken off.
//
// readingU is the standard uncertainty of one dial's reading, and zeroU that of
// the one thing this method is helpless against: how far the three dials' zeros
// are from lying in one line, as A - 2B + C. A constant error there bends the
// whole profile into a parabola, the worse the longer the run.
//
// It returns an error for no readings or more than 998, a pitch that is not
// above zero, a value that is not finite, or a negative uncertainty.
func ThreeProbes(pitch unit.Length, readings []ProbeReading, readingU, zeroU unit.Length) (Profile, error) {
	n := len(readings)
	if n == 0 || n+2 > maxPlaces {
		return Profile{}, fmt.Errorf("wear: three probes need from 1 to %d readings, got %d", maxPlaces-2, n)
	}
	if !(pitch > 0) || !finite(float64(pitch)) {
		return Profile{}, fmt.Errorf("wear: pitch of the three probes %.6g mm must be above zero", float64(pitch)*1e3)
	}
	if !(readingU >= 0) || !(zeroU >= 0) || !finite(float64(readingU+zeroU)) {
		return Profile{}, fmt.Errorf("wear: standard uncertainties %g and %g m of the three probes must be zero or more", float64(readingU), float64(zeroU))
	}
	weights := mat.NewDense(n+2, n, nil)
	second := make([]float64, n)
	for i, r := range readings {
		second[i] = float64(r.A - 2*r.B + r.C)
		if !(math.Abs(second[i]) <= 1) {
			return Profile{}, fmt.Errorf("wear: three probes, reading %d: second difference %g m must lie within 1 m", i+1, second[i])
		}
		for k := i + 2; k < n+2; k++ {
			weights.Set(k, i, float64(k-1-i))
		}
	}
	var heights mat.VecDense
	heights.MulVec(weights, mat.NewVecDense(n, second))
	p := Profile{Points: make([]Point, n+2), Covariance: mat.NewSymDense(n+2, nil)}
	p.Covariance.SymOuterK(6*float64(readingU)*float64(readingU), weights) // 1 + 4 + 1
	common := mat.NewVecDense(n+2, nil)
	for k := range p.Points {
		p.Points[k] = Point{unit.Length(k) * pitch, unit.Length(heights.AtVec(k))}
		common.SetVec(k, float64(k)*float64(k-1)/2)
	}
	p.Covariance.SymRankOne(p.Covariance, float64(zeroU)*float64(zeroU), common)
	less, _, err := p.Less(EndPoints)
	return less, err
}

// ProbePair is what two dials show at one place of the carriage that holds them
// one pitch apart: A behind, B ahead. Tilt is the carriage's own slope there, as
// a level on it shows, positive when the end ahead is high; zero where it is not
// read.
type ProbePair struct {
	A, B unit.Length
	Tilt Slope
}

// TwoProbes finds the profile of a way from two dials on one carriage that is
// moved by one pitch from reading to reading. The lift of the carriage drops out
// of B - A; its tilt does not, and must be read or be small:
//
//	rise of a step = B - A + Tilt * pitch.
//
// n readings give n+1 places. A constant error between the zeros of the dials is
// a straight line in the profile, and goes with the line through its end points,
// which is taken off: here two dials are better off than three. readingU is the
// standard uncertainty of one dial's reading, tiltU that of the tilt at one place,
// read or not.
//
// It returns an error for no readings or more than 999, a pitch that is not above
// zero, a value that is not finite, or a negative uncertainty.
func TwoProbes(pitch unit.Length, readings []ProbePair, readingU unit.Length, tiltU Slope) (Profile, error) {
	if !(pitch > 0) || !finite(float64(pitch)) {
		return Profile{}, fmt.Errorf("wear: pitch of the two probes %.6g mm must be above zero", float64(pitch)*1e3)
	}
	if !(readingU >= 0) || !(tiltU >= 0) || !finite(float64(readingU)+float64(tiltU)) {
		return Profile{}, fmt.Errorf("wear: standard uncertainties %g m and %g of the two probes must be zero or more", float64(readingU), float64(tiltU))
	}
	steps := make([]Step, len(readings))
	for i, r := range readings {
		rise := float64(r.B - r.A)
		if !(math.Abs(rise) <= 1) || !(math.Abs(float64(r.Tilt)) <= 1) {
			return Profile{}, fmt.Errorf("wear: two probes, reading %d: difference %g m and tilt %g must lie within 1", i+1, rise, float64(r.Tilt))
		}
		steps[i] = Step{Base: pitch, Slope: Slope(rise/float64(pitch)) + r.Tilt,
			U: Slope(math.Hypot(math.Sqrt2*float64(readingU)/float64(pitch), float64(tiltU)))}
	}
	p, err := ProfileFromSteps(0, steps, 0)
	if err != nil {
		return Profile{}, err
	}
	less, _, err := p.Less(EndPoints)
	return less, err
}
