package notebook

// Marking a typed answer: the number is read with its unit, set beside the
// right answer and beside what the usual wrong turns give, and the nearest of
// them decides.

import (
	"math"
	"strings"
	"unicode"
)

// Marking is what is said to a typed answer.
type Marking struct {
	Grade Grade
	// Said is a sentence or two to the reader. Only when the answer is right
	// does it hold the right answer.
	Said Text
}

// Grade is how an answer is taken.
type Grade string

// The grades.
const (
	Right  Grade = "right"  // within the tolerance
	Turn   Grade = "turn"   // wrong, by a wrong turn that is recognised
	Wrong  Grade = "wrong"  // wrong, and too large or too small
	Unread Grade = "unread" // not a number with a unit that measures this
)

// AcceptedShare is how far from the right answer an answer may be, as a share
// of it, unless the exercise says otherwise. A reader who works with the
// numbers as they are printed, three digits each, stays within it.
const AcceptedShare = 0.02

// Mark marks a typed answer to the exercise. It takes any unit that measures
// the same kind of thing. Right is what lies within [AcceptedShare] of the
// answer, or within what the exercise says, or half of the last digit as
// printed, whichever is more, and nearer to it than to what any of the
// exercise's wrong turns gives. It never panics, whatever is typed.
func Mark(e Exercise, typed string) Marking {
	si, unit, amiss := readAnswer(e.Answer.Show, typed)
	if amiss != "" {
		return Marking{Unread, Plain(amiss)}
	}
	best, found := Marking{}, math.Inf(1)
	offer := func(q Quantity, m Marking) {
		if away := math.Abs(si - q.SI); away <= e.accepted(q, unit) && away < found {
			best, found = m, away
		}
	}
	offer(e.Answer, Marking{Right, Plain("Right.").And(Say("It is {u}.", e.Answer))})
	for _, wrong := range e.Wrong {
		offer(wrong.Value, Marking{Turn, Plain("Not right, and a usual wrong turn.").And(wrong.Why)})
	}
	if !math.IsInf(found, 1) {
		return best
	}
	if words := slipOf(e, si, unit); words != "" {
		return Marking{Turn, Plain(words)}
	}
	return Marking{Wrong, Plain(offBy(unit.FromSI(e.Answer.SI), unit.FromSI(si)))}
}

// accepted returns how far, in SI, a value typed in the unit may be from q,
// the answer or what a wrong turn gives.
func (e Exercise) accepted(q Quantity, unit Unit) float64 {
	system := Metric
	if unit.Symbol == q.Show.Inch.Symbol && unit.Symbol != q.Show.Metric.Symbol {
		system = Inch
	}
	if isCount(q) {
		return 0
	}
	slack := 1e-9 * (math.Abs(q.SI) + math.Abs(unit.Scale))
	if q.Show.Metric.Offset != 0 { // a share of a temperature means nothing
		return halfDigit(q, system) + slack
	}
	within := e.Within
	if within == 0 {
		within = AcceptedShare * math.Abs(q.SI)
	}
	return math.Max(within, halfDigit(q, system)) + slack
}

// isCount reports whether q counts a few things: then only the very number is
// right.
func isCount(q Quantity) bool { return q.Step == 1 && symbols(q.Show) == "" && math.Abs(q.SI) < 100 }

// halfDigit returns half of the last digit that q shows in the system, in SI.
func halfDigit(q Quantity, s System) float64 {
	unit := q.Show.In(s)
	if unit.Scale == 0 {
		unit.Scale = 1
	}
	value := unit.FromSI(q.SI)
	switch {
	case q.U > 0:
		return unit.Scale * math.Pow10(-uncertaintyDecimals(q.U/unit.Scale)) / 2
	case value == 0 && q.Step == 0:
		return 0 // shown as a plain 0
	}
	return unit.Scale * math.Pow10(-q.decimals(value, unit)) / 2
}

// distinctTurns returns the exercise's wrong turns without those whose value,
// as printed in either system, could be taken for the right answer or for a
// turn before them.
func distinctTurns(e Exercise) []WrongTurn {
	var kept []WrongTurn
	for _, turn := range e.Wrong {
		distinct := tellApart(turn.Value, e.Answer)
		for _, before := range kept {
			distinct = distinct && tellApart(turn.Value, before.Value)
		}
		if distinct {
			kept = append(kept, turn)
		}
	}
	return kept
}

// tellApart reports whether two values differ by more than the last digit
// that either shows in either system.
func tellApart(a, b Quantity) bool {
	digit := 0.0
	for _, s := range systems {
		digit = math.Max(digit, 2*math.Max(halfDigit(a, s), halfDigit(b, s)))
	}
	return math.Abs(a.SI-b.SI) > digit*(1+1e-9)+1e-12*(math.Abs(a.SI)+math.Abs(b.SI))
}

// slips are the wrong turns of every trade: a factor and what it tells. The
// first that fits is named.
var slips = []struct {
	factor     float64
	more, less string // said when the answer is that many times too large, or too small
}{
	{1, "", ""},
	{2, "That is twice as much as it is: a diameter and a radius, or a difference and its half.",
		"That is half of it: a diameter and a radius, or a difference and its half."},
	{4, "That is four times as much as it is: two halves too many.", "That is a quarter of it: it was halved twice too often."},
	{10, "That is ten times too large: look where the decimal point stands.", "That is ten times too small: look where the decimal point stands."},
	{12, "That is twelve times too large: a foot and an inch were taken for one another.",
		"That is twelve times too small: a foot and an inch were taken for one another."},
	{25.4, "That is 25.4 times too large: inches and millimetres were taken for one another.",
		"That is 25.4 times too small: inches and millimetres were taken for one another."},
	{60, "That is sixty times too large: minutes and hours, or seconds.", "That is sixty times too small: minutes and hours, or seconds."},
	{100, "That is a hundred times too large: look at the percent sign and at squared units.",
		"That is a hundred times too small: look at the percent sign and at squared units."},
	{1000, "That is a thousand times too large: look at the units.", "That is a thousand times too small: look at the units."},
	{1e6, "That is a million times too large: look at the units.", "That is a million times too small: look at the units."},
}

// slipOf says which of the slips leads from the answer to the typed value, or
// nothing.
func slipOf(e Exercise, si float64, unit Unit) string {
	answer := e.Answer
	if answer.SI == 0 || unit.Offset != 0 || isCount(answer) {
		return ""
	}
	turned := si*answer.SI < 0
	for _, slip := range slips {
		for _, way := range [2]struct {
			factor float64
			words  string
		}{{slip.factor, slip.more}, {1 / slip.factor, slip.less}} {
			meant := way.factor * answer.SI
			if math.Abs(math.Abs(si)-math.Abs(meant)) > way.factor*e.accepted(answer, unit) {
				continue
			}
			switch {
			case way.words == "" && turned:
				return "The size is right and the sign is turned."
			case turned:
				return way.words + " And the sign is turned."
			case way.words != "":
				return way.words
			}
		}
	}
	return ""
}

// offBy says whether a typed value is too large or too small.
func offBy(answer, typed float64) string {
	words, size, right := "", math.Abs(typed), math.Abs(answer)
	switch {
	case size > right && size < 1.1*right:
		words = "Close, but a little too large"
	case size < right && size > 0.9*right:
		words = "Close, but a little too small"
	case size > right:
		words = "Too large"
	default:
		words = "Too small"
	}
	if typed*answer < 0 {
		return words + ", and the sign is turned."
	}
	if answer < 0 {
		return words + ", the sign left aside."
	}
	return words + "."
}

// kinds are the units of one kind of thing each, for reading an answer.
var kinds = [][]Unit{
	{Micrometre, Millimetre, Centimetre, Metre, InchUnit, Thou, {Symbol: "ft", Plain: []string{"foot", "feet"}, Scale: 12 * inch}},
	{MicrometrePerMetre, MillimetrePerMetre, MillimetrePer300, ThouPerFoot, InchPerFoot, Degree, ArcSecond, Radian},
	{SquareMillimetre, SquareCentimetre, SquareDecimetre, {Symbol: "m²", Plain: []string{"m2"}, Scale: 1}, SquareInch, SquareFoot},
	{Litre, Millilitre, USGallon},
	{Gram, Kilogram, {Symbol: "mg", Scale: 1e-6}, Ounce},
	{Second, Minute, Hour, Days, Year},
	{Ampere, {Symbol: "mA", Scale: 1e-3}},
	{AmpereHour, {Symbol: "A·min", Plain: []string{"A min"}, Scale: 60}, {Symbol: "A·s", Plain: []string{"As", "C"}, Scale: 1}},
	{Volt, Millivolt},
	{Watt},
	{AmperePerDM2, AmperePerFT2, {Symbol: "A/m²", Plain: []string{"A/m2"}, Scale: 1}},
	{Celsius, Fahrenheit},
	{Newton, PoundForce},
	{One, Percent},
}

// unitsLike returns the units in which an answer shown in the pair may be
// typed: the pair's own first.
func unitsLike(show Pair) []Unit {
	units := []Unit{show.Metric}
	if show.Inch.Symbol != show.Metric.Symbol {
		units = append(units, show.Inch)
	}
	for _, kind := range kinds {
		if !holds(kind, show.Metric) && !holds(kind, show.Inch) {
			continue
		}
		for _, u := range kind {
			if !holds(units, u) {
				units = append(units, u)
			}
		}
	}
	return units
}

// holds reports whether the unit is among those listed.
func holds(units []Unit, unit Unit) bool {
	for _, u := range units {
		if u.Symbol == unit.Symbol && u.Scale == unit.Scale {
			return true
		}
	}
	return false
}

// maxAnswer bounds a typed answer, in characters.
const maxAnswer = 80

// readAnswer reads a typed answer as a value in SI and the unit in which it was
// typed. An uncertainty after it, "150 ± 8 µm/m" or "150 µm/m (u 8 µm/m)", is
// passed over. If it cannot be read, amiss says why, to the reader.
func readAnswer(show Pair, typed string) (si float64, unit Unit, amiss string) {
	text := strings.TrimSpace(typed)
	units := unitsLike(show)
	switch {
	case text == "":
		return 0, Unit{}, "Type a number" + withUnit(show) + "."
	case len([]rune(text)) > maxAnswer:
		return 0, Unit{}, "That is too long for an answer. Type a number" + withUnit(show) + "."
	}
	number, unit, found := splitUnit(withoutDoubt(text), units)
	x, err := parseNumber(number)
	switch {
	case err != nil:
		return 0, Unit{}, notAnAnswer(text, number, show)
	case !found && symbols(show) != "":
		return 0, Unit{}, text + " of what? Say the unit too: " + symbols(show) + ", for one."
	case !found:
		unit = One
	}
	if si = unit.ToSI(x); math.IsInf(si, 0) {
		return 0, Unit{}, "That is too large to be read."
	}
	return si, unit, ""
}

// withoutDoubt returns the text without an uncertainty: "150 ± 8 µm/m" becomes
// "150 µm/m".
func withoutDoubt(text string) string {
	text = strings.NewReplacer("+/-", "±", "+-", "±").Replace(text)
	if before, _, cut := strings.Cut(text, "("); cut {
		text = before
	}
	value, after, cut := strings.Cut(text, "±")
	if !cut {
		return strings.TrimSpace(text)
	}
	after = strings.TrimLeft(strings.TrimSpace(after), "0123456789., ")
	return strings.TrimSpace(strings.TrimSpace(value) + " " + after)
}

// notAnAnswer says what stands in the way of reading the answer.
func notAnAnswer(text, number string, show Pair) string {
	digits := strings.IndexFunc(number, unicode.IsDigit)
	rest := strings.TrimSpace(strings.TrimLeft(strings.TrimPrefix(strings.TrimPrefix(number, "-"), "\u2212"), "0123456789.,/ "))
	if digits >= 0 && rest != "" {
		for _, kind := range kinds {
			for _, u := range kind {
				if u.named(rest) {
					return u.Symbol + " does not measure what is asked. Answer" + inUnit(show) + "."
				}
			}
		}
	}
	return quoted(text) + " is not a number" + withUnit(show) + "."
}

// withUnit returns " with its unit, such as µm/m or thou/ft", or nothing for a
// pure number.
func withUnit(show Pair) string {
	if symbols(show) == "" {
		return ""
	}
	return " with its unit, such as " + symbols(show)
}

// inUnit returns " in µm/m or thou/ft", or words for a pure number.
func inUnit(show Pair) string {
	if symbols(show) == "" {
		return " with a number alone"
	}
	return " in " + symbols(show)
}

// symbols returns the pair's units: "µm/m or thou/ft".
func symbols(show Pair) string {
	if show.Metric.Symbol == show.Inch.Symbol {
		return show.Metric.Symbol
	}
	return show.Metric.Symbol + " or " + show.Inch.Symbol
}
