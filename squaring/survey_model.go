package squaring

// The unknowns of a survey and the rows of its design. An unknown is known by
// its key: a family (spindle tilt along x), what it belongs to (a head setting,
// a date, a gauge) and, for a curve, the knot. Rows are sparse: a reading sees
// a few knots of a few curves and its own set-up's zero.

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/unit"
)

// family is a sort of unknown.
type family int

const (
	tiltX family = iota
	tiltY
	heightCurve
	slopeXCurve
	slopeYCurve
	sidewaysCurve
	formU
	formUV
	formV
	kneeX
	kneeY
	levelX
	levelY
	squareXY
	// From here on the unknowns belong to a set-up, not to the machine.
	zeroOf
	driftOf
	rampOf
	mismatchOf
	levelZeroOf
	squareErrorOf
	barShapeOf
	jawAngleOf
	jawHollowOf
	commonOf
	contactOf
)

// SurveyKind says whether a value is a length or a slope.
type SurveyKind int

// The kinds of value in a survey.
const (
	// LengthValue is in metres.
	LengthValue SurveyKind = iota
	// SlopeValue is rise over run, or a small angle.
	SlopeValue
)

// text writes a value of the kind for a message, in micrometres or in
// micrometres a metre.
func (k SurveyKind) text(value float64) string {
	if k == SlopeValue {
		return fmt.Sprintf("%.4g um/m", value*1e6)
	}
	return fmt.Sprintf("%.4g um", value*1e6)
}

// familyFacts says what each family is called and of what kind it is.
var familyFacts = [...]struct {
	name string
	kind SurveyKind
}{
	tiltX:         {"spindle tilt along x", SlopeValue},
	tiltY:         {"spindle tilt along y", SlopeValue},
	heightCurve:   {"table height", LengthValue},
	slopeXCurve:   {"table slope along x", SlopeValue},
	slopeYCurve:   {"table slope along y", SlopeValue},
	sidewaysCurve: {"sideways motion of the table", LengthValue},
	formU:         {"table-top form along x", LengthValue},
	formUV:        {"table-top twist", LengthValue},
	formV:         {"table-top form along y", LengthValue},
	kneeX:         {"knee lean along x", SlopeValue},
	kneeY:         {"knee lean along y", SlopeValue},
	levelX:        {"lean of the table to level along x", SlopeValue},
	levelY:        {"lean of the table to level along y", SlopeValue},
	squareXY:      {"squareness of Y travel to X travel", SlopeValue},
	zeroOf:        {"zero of", LengthValue},
	driftOf:       {"drift of", LengthValue},
	rampOf:        {"ramp of", SlopeValue},
	mismatchOf:    {"mismatch of", LengthValue},
	levelZeroOf:   {"zero of", SlopeValue},
	squareErrorOf: {"error of", SlopeValue},
	barShapeOf:    {"shape of", LengthValue},
	jawAngleOf:    {"angle of", SlopeValue},
	jawHollowOf:   {"hollow of", LengthValue},
	commonOf:      {"length error common to", LengthValue},
	contactOf:     {"constant of the contact of", LengthValue},
}

// isCurve reports whether the family's unknowns stand on the knots of travel.
func (f family) isCurve() bool { return f >= heightCurve && f <= sidewaysCurve }

// ofSetup reports whether the unknown belongs to a set-up or a gauge.
func (f family) ofSetup() bool { return f >= zeroOf }

// unknown is the key of one unknown.
type unknown struct {
	family family
	// of is the head setting, the date, the set-up or the gauge.
	of string
	// place is the travel of a curve's knot, or the place on a bar, in whole
	// micrometres, so that equal places are equal keys.
	place int64
}

func micrometresOf(x float64) int64 { return int64(math.Round(x * 1e6)) }

// placeText writes a travel.
func placeText(place int64) string { return fmt.Sprintf("%.6g mm", float64(place)/1e3) }

// name returns the unknown's name for a person.
func (k unknown) name() string { return k.group() + k.where() }

// group returns the unknown's name without its place on a curve.
func (k unknown) group() string {
	name := familyFacts[k.family].name
	switch {
	case k.family.ofSetup():
		return name + " " + quoteOr(k.of, "the set-up")
	case k.of == "":
		return name
	case k.family <= tiltY:
		return name + " (head " + k.of + ")"
	default:
		return name + " (" + k.of + ")"
	}
}

func (k unknown) where() string {
	switch {
	case k.family.isCurve():
		return " at X = " + placeText(k.place)
	case k.family == barShapeOf:
		return " at " + placeText(k.place)
	case k.family == formU:
		return ", 500 mm from the middle"
	case k.family == formUV:
		return ", 500 mm along and 100 mm across from the middle"
	case k.family == formV:
		return ", 100 mm from the middle"
	}
	return ""
}

// quoteOr returns the name, or the words when it is empty.
func quoteOr(name, words string) string {
	if strings.TrimSpace(name) == "" {
		return words
	}
	return name
}

// knots are the places of travel on which the curves stand: datum + i step.
type knots struct {
	datum, step float64 // metres
	first, last int     // i of the ends
}

func (k knots) at(i int) float64 { return k.datum + float64(i)*k.step }

func (k knots) key(f family, of string, i int) unknown {
	return unknown{f, of, micrometresOf(k.at(i))}
}

// weights returns the first knot and the weights of the cubic through the four
// knots nearest to travel x (Lagrange): exact for any cubic, and a single one
// when x is a knot.
func (k knots) weights(x float64) (first int, weights []float64, err error) {
	s := (x - k.datum) / k.step
	if i := math.Round(s); math.Abs(s-i) < 1e-9*(1+math.Abs(i)) && int(i) >= k.first && int(i) <= k.last {
		return int(i), []float64{1}, nil
	}
	if s < float64(k.first) || s > float64(k.last) {
		return 0, nil, fmt.Errorf("travel X = %s is outside the surveyed travel, %s to %s",
			millimetres(unit.Length(x)), millimetres(unit.Length(k.at(k.first))), millimetres(unit.Length(k.at(k.last))))
	}
	count := min(4, k.last-k.first+1)
	first = min(max(int(math.Floor(s))-1, k.first), k.last-count+1)
	weights = make([]float64, count)
	for a := range weights {
		w := 1.0
		for b := range weights {
			if b != a {
				w *= (s - float64(first+b)) / float64(a-b)
			}
		}
		weights[a] = w
	}
	return first, weights, nil
}

// unknowns numbers the unknowns in the order in which they are met. One set may
// stand on another, which it does not change: the numbers go on from there.
type unknowns struct {
	base  *unknowns
	knots knots
	index map[unknown]int
	keys  []unknown
	// barEnds holds, for each bar, the stations at which its shape is zero.
	barEnds map[string][2]int64
}

func (s *unknowns) len() int {
	if s.base != nil {
		return s.base.len() + len(s.keys)
	}
	return len(s.keys)
}

// find returns the number of the unknown, and whether it has one.
func (s *unknowns) find(key unknown) (int, bool) {
	if s.base != nil {
		if i, ok := s.base.find(key); ok {
			return i, true
		}
	}
	i, ok := s.index[key]
	return i, ok
}

// number returns the number of the unknown, giving it one if need be.
func (s *unknowns) number(key unknown) int {
	if i, ok := s.find(key); ok {
		return i
	}
	if s.index == nil {
		s.index = map[unknown]int{}
	}
	i := s.len()
	s.index[key] = i
	s.keys = append(s.keys, key)
	return i
}

// key returns the unknown with the number.
func (s *unknowns) key(i int) unknown {
	if s.base != nil {
		if n := s.base.len(); i < n {
			return s.base.key(i)
		} else {
			return s.keys[i-n]
		}
	}
	return s.keys[i]
}

// over returns a new set that stands on s.
func (s *unknowns) over() *unknowns { return &unknowns{base: s, knots: s.knots, barEnds: s.barEnds} }

// surveyTerm is one unknown's weight in a row.
type surveyTerm struct {
	unknown int
	weight  float64
}

// surveyRow is one sparse row of the design: what a reading, or a feature, is in
// terms of the unknowns. The first error met is kept.
type surveyRow struct {
	set   *unknowns
	terms []surveyTerm
	err   error
}

// add adds weight times the unknown.
func (r *surveyRow) add(key unknown, weight float64) {
	if weight == 0 {
		return
	}
	i := r.set.number(key)
	for t := range r.terms {
		if r.terms[t].unknown == i {
			r.terms[t].weight += weight
			return
		}
	}
	r.terms = append(r.terms, surveyTerm{i, weight})
}

// tidy drops the terms that cancel, rounding included, and returns an error when
// a weight is not finite.
func (r *surveyRow) tidy() error {
	var most float64
	for _, t := range r.terms {
		if math.IsNaN(t.weight) || math.IsInf(t.weight, 0) {
			return fmt.Errorf("a place, a length or an angle is not a finite number")
		}
		most = math.Max(most, math.Abs(t.weight))
	}
	kept := r.terms[:0]
	for _, t := range r.terms {
		if math.Abs(t.weight) > cancelled*most {
			kept = append(kept, t)
		}
	}
	r.terms = kept
	return nil
}

// cancelled is the share of a row's largest weight below which a weight is the
// rounding of one that cancels: the sine of 180 degrees.
const cancelled = 1e-13

// curve adds weight times the curve's value at travel x. The curves count from
// the datum: height and slopes are zero there, and sideways motion is zero at
// the two knots beside it, so that the frame's x runs along the travel there.
func (r *surveyRow) curve(f family, epoch string, x, weight float64) {
	first, weights, err := r.set.knots.weights(x)
	if err != nil {
		if r.err == nil {
			r.err = err
		}
		return
	}
	for a, w := range weights {
		if i := first + a; !pinned(f, i) {
			r.add(r.set.knots.key(f, epoch, i), weight*w)
		}
	}
}

// pinned reports whether the curve is zero at knot i by the choice of frame.
func pinned(f family, i int) bool {
	if f == sidewaysCurve {
		return i == 1 || i == -1
	}
	return i == 0
}

// The places at which the coefficients of the form of the top are stated.
const (
	formReferenceU = 0.500 // metres
	formReferenceV = 0.100 // metres
)

// form adds weight times the height of the table-top form at (u, v):
//
//	f = formU (u/500 mm)^2 + formUV (u/500 mm)(v/100 mm) + formV (v/100 mm)^2
//
// The form has no height or slope at the middle of the table: those belong to
// the table's plane, whose motion the curves tell.
func (r *surveyRow) form(u, v, weight float64) {
	u, v = u/formReferenceU, v/formReferenceV
	r.add(unknown{family: formU}, weight*u*u)
	r.add(unknown{family: formUV}, weight*u*v)
	r.add(unknown{family: formV}, weight*v*v)
}

// formSlope adds weight times the slope of the form at (u, v).
func (r *surveyRow) formSlope(axis SurveyAxis, u, v, weight float64) {
	u, v = u/formReferenceU, v/formReferenceV
	if axis == AlongX {
		r.add(unknown{family: formU}, weight*2*u/formReferenceU)
		r.add(unknown{family: formUV}, weight*v/formReferenceU)
		return
	}
	r.add(unknown{family: formUV}, weight*u/formReferenceV)
	r.add(unknown{family: formV}, weight*2*v/formReferenceV)
}

// top adds weight times the height of the table's top at the machine place
// (x, y), with the table at travel (tx, ty), above the table's plane under the
// spindle.
func (r *surveyRow) top(epoch string, x, y, tx, ty, weight float64) {
	r.curve(slopeXCurve, epoch, tx, weight*x)
	r.curve(slopeYCurve, epoch, tx, weight*(y-ty))
	r.form(x-tx, y-ty, weight)
}

// SurveyAxis is a direction in which a slope or a lean is counted.
type SurveyAxis int

// The directions.
const (
	// AlongX is to the operator's right: side tilt of the head.
	AlongX SurveyAxis = iota
	// AlongY is toward the column: nod of the head.
	AlongY
)

// pick returns the family for x, or the one after it, for y.
func (a SurveyAxis) pick(x family) family {
	if a == AlongY {
		return x + 1
	}
	return x
}

func (a SurveyAxis) valid() error {
	if a != AlongX && a != AlongY {
		return fmt.Errorf("direction is %d, must be AlongX or AlongY", int(a))
	}
	return nil
}
