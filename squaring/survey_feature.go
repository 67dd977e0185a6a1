package squaring

// Features: what a person wants of the machine or of a part, as a weighted sum
// of the unknowns. A feature can be predicted with its uncertainty, can be a
// piece of prior knowledge, and can be what the next reading is chosen for.

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// Feature is a quantity that a survey may tell. Make one with the functions of
// this file; the zero Feature is nought.
type Feature struct {
	// Name says what it is.
	Name string
	// Kind says whether it is a length or a slope.
	Kind SurveyKind

	build func(*surveyRow) error
}

// into adds the feature to the row, leaving out what cancels: the zero of a
// set-up in the difference of two of its readings.
func (f Feature) into(r *surveyRow) error {
	if f.build == nil {
		return nil
	}
	if err := f.build(r); err != nil {
		return err
	}
	if err := r.tidy(); err != nil {
		return err
	}
	return r.err
}

var axisWords = [...]string{AlongX: "along x", AlongY: "along y"}

// axisFeature returns a feature for a direction, refusing one that is neither.
func axisFeature(name string, axis SurveyAxis, build func(*surveyRow)) Feature {
	if axis.valid() != nil {
		return Feature{Name: name, Kind: SlopeValue, build: func(*surveyRow) error { return axis.valid() }}
	}
	return Feature{Name: name + " " + axisWords[axis], Kind: SlopeValue, build: func(r *surveyRow) error { build(r); return nil }}
}

// SpindleSquareness is the spindle's tilt minus the table's slope at travel x:
// what a cutter there sees. It is positive when the plane square to the spindle
// is high on the right (or at the back) of the table.
func SpindleSquareness(head, epoch string, axis SurveyAxis, x unit.Length) Feature {
	return axisFeature("spindle tilt against the table at X = "+millimetres(x), axis, func(r *surveyRow) {
		r.add(unknown{family: axis.pick(tiltX), of: head}, 1)
		r.curve(axis.pick(slopeXCurve), epoch, float64(x), -1)
	})
}

// TableSlope is the table's slope at travel x, counted from that at the datum.
func TableSlope(epoch string, axis SurveyAxis, x unit.Length) Feature {
	return axisFeature("table slope at X = "+millimetres(x), axis, func(r *surveyRow) {
		r.curve(axis.pick(slopeXCurve), epoch, float64(x), 1)
	})
}

// TableHeight is the height of the table's plane under the spindle at travel x,
// counted from that at the datum.
func TableHeight(epoch string, x unit.Length) Feature {
	return Feature{Name: "table height at X = " + millimetres(x), Kind: LengthValue, build: func(r *surveyRow) error {
		r.curve(heightCurve, epoch, float64(x), 1)
		return nil
	}}
}

// PartBow is how much thicker in the middle than at its ends a part comes out
// that is skimmed in line with x: the depth of the motion's height below its
// chord. The part's middle lies at u to the right of the table's middle.
func PartBow(epoch string, u, length unit.Length) Feature {
	name := fmt.Sprintf("bow of a part of %s at u = %s", millimetres(length), millimetres(u))
	return Feature{Name: name, Kind: LengthValue, build: func(r *surveyRow) error {
		if !(length > 0) {
			return fmt.Errorf("length of the part is %s, must be above zero", millimetres(length))
		}
		x := -float64(u)
		r.curve(heightCurve, epoch, x, -1)
		r.curve(heightCurve, epoch, x-float64(length)/2, 0.5)
		r.curve(heightCurve, epoch, x+float64(length)/2, 0.5)
		return nil
	}}
}

// KneeLean is how far the knee's travel leans from square to the table at the
// datum: positive when the work moves to the right, or to the back, as it
// rises.
func KneeLean(epoch string, axis SurveyAxis) Feature {
	return axisFeature("knee lean against the table", axis, func(r *surveyRow) {
		r.add(unknown{family: axis.pick(kneeX), of: epoch}, 1)
	})
}

// TravelSquareness is the squareness of Y travel to X travel, C0Y of ISO 230-1:
// positive when a hole moved to the back drifts to the left.
func TravelSquareness(epoch string) Feature {
	return Feature{Name: "squareness of Y travel to X travel", Kind: SlopeValue, build: func(r *surveyRow) error {
		r.add(unknown{family: squareXY, of: epoch}, 1)
		return nil
	}}
}

// LeanToLevel is the slope to level of the table as it lies at the datum.
func LeanToLevel(epoch string, axis SurveyAxis) Feature {
	return axisFeature("lean of the table to level", axis, func(r *surveyRow) {
		r.add(unknown{family: axis.pick(levelX), of: epoch}, 1)
	})
}

// TopForm is the height of the table-top's form at (u, v) above the plane of
// its middle.
func TopForm(u, v unit.Length) Feature {
	return Feature{Name: fmt.Sprintf("form of the table top at u = %s, v = %s", millimetres(u), millimetres(v)), Kind: LengthValue,
		build: func(r *surveyRow) error {
			r.form(float64(u), float64(v), 1)
			return nil
		}}
}

// ReadingChange is one reading of an observation less another, by number from
// 1; with second zero it is the first reading itself, the set-up's zero
// included. The observation need not have been made: its readings' values do
// not matter.
func ReadingChange(observation Observation, first, second int) Feature {
	name := fmt.Sprintf("reading %d of an observation", first)
	kind := LengthValue
	if observation != nil {
		setup, what := observation.setup()
		name = fmt.Sprintf("reading %d of %s %s", first, what, quoteOr(setup.Name, "1"))
	}
	switch observation.(type) {
	case ObservedLevel, ObservedTilt:
		kind = SlopeValue
	}
	if second != 0 {
		name += fmt.Sprintf(" less reading %d", second)
	}
	return Feature{Name: name, Kind: kind, build: func(r *surveyRow) error {
		b := surveyBuilder{set: r.set}
		b.observe([]Observation{observation})
		if b.err != nil {
			return b.err
		}
		for i, number := range []int{first, second} {
			if i == 1 && number == 0 {
				break
			}
			if number < 1 || number > len(b.equations) {
				return fmt.Errorf("there is no reading %d of %d", number, len(b.equations))
			}
			for _, term := range b.equations[number-1].terms {
				r.add(r.set.key(term.unknown), []float64{1, -1}[i]*term.weight)
			}
		}
		return nil
	}}
}

// Combine is a weighted sum of features, one weight each: the change of a slope
// between two dates, the mean of two places. All must be of one kind.
func Combine(name string, features []Feature, weights []float64) Feature {
	combined := Feature{Name: name}
	if len(features) > 0 {
		combined.Kind = features[0].Kind
	}
	parts, factors := append([]Feature(nil), features...), append([]float64(nil), weights...)
	combined.build = func(r *surveyRow) error {
		if len(parts) != len(factors) || len(parts) == 0 {
			return fmt.Errorf("%d features with %d weights: there must be as many, and at least one", len(parts), len(factors))
		}
		for i, part := range parts {
			if part.Kind != combined.Kind {
				return fmt.Errorf("%s and %s are not of one kind", parts[0].Name, part.Name)
			}
			if err := finite("weight of "+part.Name, factors[i]); err != nil {
				return err
			}
			sub := surveyRow{set: r.set}
			if err := part.into(&sub); err != nil {
				return err
			}
			for _, term := range sub.terms {
				r.add(r.set.key(term.unknown), factors[i]*term.weight)
			}
		}
		return nil
	}
	return combined
}
