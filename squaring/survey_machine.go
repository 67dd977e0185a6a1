package squaring

// From the adjusted survey back to a machine of rigid bodies, and from the
// unknowns to what the tool does in the work.

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// Machine returns the machine at the survey's estimates, for an epoch and a
// head setting, in the frame of the survey. It carries no uncertainties, since
// those of its parts hang together: for a figure with its uncertainty use
// [Adjustment.Predict], with [ToolDeviation] or another feature. What the
// readings do not tell is taken as nought and named in unknown; so, without a
// name, is the straightness of saddle and knee, which no observation here sees.
// Beyond the surveyed travel the motion at its end holds on.
func (a *Adjustment) Machine(epoch, head string) (machine Machine, unknown []string) {
	value := func(f Feature) float64 {
		e, err := a.Predict(f)
		if err != nil || !e.Determined {
			unknown = append(unknown, f.Name)
			return 0
		}
		return e.Value
	}
	machine.Tilt.X = Slope(value(SpindleSquareness(head, epoch, AlongX, a.options.Datum)))
	machine.Tilt.Y = Slope(value(SpindleSquareness(head, epoch, AlongY, a.options.Datum)))
	machine.C0Y = unit.Angle(value(TravelSquareness(epoch)))
	machine.B0Z = unit.Angle(value(KneeLean(epoch, AlongX)))
	machine.A0Z = unit.Angle(-value(KneeLean(epoch, AlongY))) // a turn about x takes z toward -y
	along := value(TopForm(formReferenceU, 0))
	across := value(TopForm(0, formReferenceV))
	both := value(TopForm(formReferenceU, formReferenceV))
	machine.Top = func(u, v unit.Length) unit.Length {
		s, t := float64(u)/formReferenceU, float64(v)/formReferenceV
		return unit.Length(along*s*s + (both-along-across)*s*t + across*t*t)
	}
	machine.X, unknown = a.tableMotion(epoch, unknown)
	return machine, unknown
}

// tableMotion returns the table's motion as the curves have it. A curve that is
// not known at every knot is left out and added to the names of the unknown.
func (a *Adjustment) tableMotion(epoch string, unknownSoFar []string) (Motion, []string) {
	k := a.set.knots
	curves := map[family][]float64{}
	for f := heightCurve; f <= sidewaysCurve; f++ {
		var values []float64
		for i := k.first; i <= k.last; i++ {
			e := a.curveAt(f, epoch, k.at(i))
			if !e.Determined {
				unknownSoFar, values = append(unknownSoFar, unknown{family: f, of: epoch}.group()), nil
				break
			}
			values = append(values, e.Value)
		}
		curves[f] = values
	}
	at := func(f family, x unit.Length) (value float64) {
		first, weights, err := k.weights(min(max(float64(x), k.at(k.first)), k.at(k.last)))
		if err != nil || curves[f] == nil {
			return 0
		}
		for i, w := range weights {
			value += w * curves[f][first+i-k.first]
		}
		return value
	}
	return MotionFromWays(func(x unit.Length) (unit.Length, float64, float64, unit.Length, unit.Angle) {
		return unit.Length(at(heightCurve, x)), at(slopeXCurve, x), at(slopeYCurve, x), unit.Length(at(sidewaysCurve, x)), 0
	}), unknownSoFar
}

// curveAt returns a curve's value at a travel.
func (a *Adjustment) curveAt(f family, epoch string, x float64) Estimate {
	e, err := a.Predict(Feature{Name: familyFacts[f].name, Kind: familyFacts[f].kind, build: func(r *surveyRow) error {
		r.curve(f, epoch, x, 1)
		return nil
	}})
	if err != nil {
		return Estimate{}
	}
	return e
}

// ToolDeviation returns how far the tool's tip is from its place in the work
// along x, y and z, as features, to first order in the errors and with all their
// covariances: the same sum as [Machine.Deviation] for the errors that a survey
// can tell. A hole's lean is the change of the deviation down its depth.
//
//	x = tilt.X quill - slope.X (Z + quill) - knee.X Z + C0Y Y
//	y = tilt.Y quill - slope.Y (Z + quill) - knee.Y Z - sideways
//	z = -(height - slope.Y Y)
//
// Terms whose arm is nought are left out, so that a machine whose knee nobody
// has surveyed can still drill by the quill.
func ToolDeviation(head, epoch string, at Position) [3]Feature {
	x, y, z, q := float64(at.X), float64(at.Y), float64(at.Z), float64(at.Quill)
	name := fmt.Sprintf("tool in the work at X = %s, Y = %s, Z = %s, quill %s", millimetres(at.X), millimetres(at.Y), millimetres(at.Z), millimetres(at.Quill))
	lean := func(axis SurveyAxis, r *surveyRow) {
		r.add(unknown{family: axis.pick(tiltX), of: head}, q)
		r.curve(axis.pick(slopeXCurve), epoch, x, -z-q)
		r.add(unknown{family: axis.pick(kneeX), of: epoch}, -z)
	}
	return [3]Feature{
		{Name: name + ", along x", Kind: LengthValue, build: func(r *surveyRow) error {
			lean(AlongX, r)
			r.add(unknown{family: squareXY, of: epoch}, y)
			return nil
		}},
		{Name: name + ", along y", Kind: LengthValue, build: func(r *surveyRow) error {
			lean(AlongY, r)
			if _, surveyed := r.set.find(r.set.knots.key(sidewaysCurve, epoch, 0)); surveyed {
				r.curve(sidewaysCurve, epoch, x, -1)
			}
			return nil
		}},
		{Name: name + ", along z", Kind: LengthValue, build: func(r *surveyRow) error {
			r.curve(heightCurve, epoch, x, -1)
			r.curve(slopeYCurve, epoch, x, y)
			return nil
		}},
	}
}

// JawAngle is the angle of a vise's jaw to the travel of the table over the
// jaw's width: positive when the jaw comes toward the operator to the right. Jaw
// is the name given in [ObservedJaw], or that observation's kind and name.
func JawAngle(jaw, epoch string, middle, width unit.Length) Feature {
	return Feature{Name: "angle of " + jaw + " to the travel", Kind: SlopeValue, build: func(r *surveyRow) error {
		if !(width > 0) {
			return fmt.Errorf("width of the jaw is %s, must be above zero", millimetres(width))
		}
		r.add(unknown{family: jawAngleOf, of: jaw}, 1)
		r.curve(sidewaysCurve, epoch, -float64(middle+width/2), -1/float64(width))
		r.curve(sidewaysCurve, epoch, -float64(middle-width/2), 1/float64(width))
		return nil
	}}
}

// JawHollow is how much further back a jaw's middle lies than its ends.
func JawHollow(jaw string) Feature {
	return Feature{Name: "hollow of " + jaw, Kind: LengthValue, build: func(r *surveyRow) error {
		r.add(unknown{family: jawHollowOf, of: jaw}, 1)
		return nil
	}}
}

// ContactPriors returns what it means that a table rests on a saddle of the
// given bearing length by the two ends of that bearing: the end that bears at
// travel X bears, for the same place of the table, at travel X + length as the
// other end. So
//
//	height(X) - length/2 slope(X) - height(X+length) - length/2 slope(X+length)
//
// is the same for every X, which ties the curve of heights to that of slopes.
// There is one prior for each of the travels, standard uncertainty valueU: how
// far the table may be from resting on just those ends, and above zero.
func ContactPriors(epoch string, length unit.Length, travels []unit.Length, valueU unit.Length) []Prior {
	var priors []Prior
	for _, travel := range travels {
		x, l := float64(travel), float64(length)
		feature := Feature{Name: "at X = " + millimetres(travel), Kind: LengthValue, build: func(r *surveyRow) error {
			r.curve(heightCurve, epoch, x, 1)
			r.curve(slopeXCurve, epoch, x, -l/2)
			r.curve(heightCurve, epoch, x+l, -1)
			r.curve(slopeXCurve, epoch, x+l, -l/2)
			r.add(unknown{family: contactOf, of: quoteOr(epoch, "the table")}, 1)
			return nil
		}}
		priors = append(priors, Prior{Name: "contact at both ends of the saddle", Feature: feature, ValueU: float64(valueU)})
	}
	return priors
}
