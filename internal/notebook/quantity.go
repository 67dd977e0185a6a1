package notebook

import (
	"math"
	"strconv"
	"strings"
)

// Quantity is one value in SI with its standard uncertainty and the pair of
// units in which it is shown.
type Quantity struct {
	// SI is the value in SI units.
	SI float64
	// U is the standard uncertainty (GUM) in SI units; zero when none is
	// stated, as for an exact or a typed value.
	U float64
	// Show is the pair of units in which the value is shown.
	Show Pair
	// Step is the smallest step, in SI, that the value can show: a dial's
	// resolution, say. It sets the decimals when U is zero.
	Step float64
	// Digits is the number of significant digits when both U and Step are
	// zero; zero means three.
	Digits int
}

// Of returns the quantity v with standard uncertainty u, both in SI.
func Of[T ~float64](v, u T, show Pair) Quantity {
	return Quantity{SI: float64(v), U: float64(u), Show: show}
}

// Exact returns the quantity v with no uncertainty, shown to three significant
// digits unless Digits or Step is set on it.
func Exact[T ~float64](v T, show Pair) Quantity {
	return Quantity{SI: float64(v), Show: show}
}

// Stepped returns the quantity v as it was read, in steps of the given size.
func Stepped[T ~float64](v, step T, show Pair) Quantity {
	return Quantity{SI: float64(v), Step: float64(step), Show: show}
}

// Whole returns a count.
func Whole(n int) Quantity {
	return Quantity{SI: float64(n), Step: 1, Show: Numbers}
}

// WithDigits returns q shown to n significant digits when it has neither an
// uncertainty nor a step.
func (q Quantity) WithDigits(n int) Quantity {
	q.Digits = n
	return q
}

// Finite reports whether the value and its uncertainty are finite and the
// uncertainty is not negative.
func (q Quantity) Finite() bool {
	return !math.IsNaN(q.SI) && !math.IsInf(q.SI, 0) && !math.IsNaN(q.U) && !math.IsInf(q.U, 0) && q.U >= 0
}

// Shown is a quantity as it is printed in one system of units.
type Shown struct {
	// Value is the rounded number, with a true minus sign.
	Value string
	// U is the rounded standard uncertainty, empty when none is stated.
	U string
	// Unit is the symbol, empty for a pure number.
	Unit string
}

// String returns the value and its unit, without the uncertainty.
func (s Shown) String() string { return s.Value + spaced(s.Unit) }

// Full returns the value, its unit and, when stated, its standard uncertainty.
func (s Shown) Full() string {
	if s.U == "" {
		return s.String()
	}
	return s.String() + " (u " + s.U + spaced(s.Unit) + ")"
}

// spaced returns the unit with the space that goes before it; degrees and
// percent signs follow the number directly.
func spaced(unit string) string {
	switch unit {
	case "":
		return ""
	case "°", "%":
		return unit
	}
	return "\u00a0" + unit
}

// In returns the quantity as printed in the given system, value and standard
// uncertainty rounded alike: the uncertainty to one significant digit, or to
// two when it begins with 1 or 2 (JCGM 100:2008, 7.2.6 allows at most two).
func (q Quantity) In(s System) Shown {
	unit := q.Show.In(s)
	if unit.Scale == 0 {
		unit.Scale = 1
	}
	if !q.Finite() {
		return Shown{Value: "not finite", Unit: unit.Symbol}
	}
	value, u := unit.FromSI(q.SI), q.U/unit.Scale
	if u > 0 {
		decimals := uncertaintyDecimals(u)
		return Shown{Value: FormatNumber(value, decimals), U: FormatNumber(u, decimals), Unit: unit.Symbol}
	}
	return Shown{Value: FormatNumber(value, q.decimals(value, unit)), Unit: unit.Symbol}
}

// decimals returns how many decimals show a value that has no uncertainty.
func (q Quantity) decimals(value float64, unit Unit) int {
	if q.Step > 0 {
		return stepDecimals(q.Step / unit.Scale)
	}
	digits := q.Digits
	if digits == 0 {
		digits = 3
	}
	if value == 0 {
		return 0
	}
	return digits - 1 - exponent(value)
}

// uncertaintyDecimals returns the decimals to which an uncertainty u > 0, and
// the value with it, is rounded.
func uncertaintyDecimals(u float64) int {
	text := strconv.FormatFloat(u, 'e', 1, 64)
	exp, _ := strconv.Atoi(text[strings.IndexByte(text, 'e')+1:])
	if text[0] == '1' || text[0] == '2' {
		return 1 - exp
	}
	return -exp
}

// stepDecimals returns the decimals that show every multiple of a step > 0: up
// to four significant digits of the step are kept, so that 0.0025 keeps four
// decimals and 0.5 keeps one, while an inexact step (0.005 mm in inches) keeps
// one digit more than its size.
func stepDecimals(step float64) int {
	for decimals := -exponent(step); decimals <= -exponent(step)+2; decimals++ {
		scaled := step * math.Pow10(decimals)
		if math.Abs(scaled-math.Round(scaled)) < 1e-6*scaled {
			return decimals
		}
	}
	return -exponent(step)
}

// exponent returns the decimal exponent of x != 0: 2 for 345, -1 for 0.2.
func exponent(x float64) int {
	text := strconv.FormatFloat(math.Abs(x), 'e', 15, 64)
	exp, _ := strconv.Atoi(text[strings.IndexByte(text, 'e')+1:])
	return exp
}

// FormatNumber returns x rounded to the given number of decimals (tens and
// hundreds when negative) with a true minus sign, and never "-0". Numbers too
// large or too small for a plain reading are written with a power of ten. What
// floating point leaves beyond twelve significant digits does not decide a
// rounding, so that every processor prints the same digits.
func FormatNumber(x float64, decimals int) string {
	x = roundTo(x, 12)
	if x != 0 && (math.Abs(x) >= 1e9 || decimals > 9) {
		return strings.Replace(strconv.FormatFloat(x, 'g', 4, 64), "-", "\u2212", -1)
	}
	if decimals < 0 {
		p := math.Pow10(-decimals)
		x, decimals = math.Round(x/p)*p, 0
	}
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.HasPrefix(text, "-") {
		if strings.Trim(text, "-0.") == "" {
			return text[1:]
		}
		return "\u2212" + text[1:]
	}
	return text
}
