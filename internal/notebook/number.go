package notebook

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// parseNumber reads a number as a person writes it: a decimal point or a
// decimal comma, any of the minus signs, an exponent, or a fraction ("3/8",
// "1 3/8"). It refuses anything that can be read in two ways.
func parseNumber(text string) (float64, error) {
	s := strings.TrimSpace(text)
	s = strings.NewReplacer("\u2212", "-", "\u2013", "-", "\u00a0", " ", "\u202f", " ").Replace(s)
	if s == "" {
		return 0, fmt.Errorf("is empty; type a number")
	}
	if strings.Contains(s, "/") {
		return parseFraction(s)
	}
	if strings.Contains(s, ",") {
		if strings.Count(s, ",") > 1 || strings.Contains(s, ".") {
			return 0, fmt.Errorf("%s has a comma that can be read in two ways; write 1234.5", quoted(text))
		}
		s = strings.Replace(s, ",", ".", 1)
	}
	return parsePlain(s, text)
}

// parsePlain reads digits with an optional sign, point and exponent.
func parsePlain(s, original string) (float64, error) {
	if strings.Trim(s, "0123456789+-.eE") != "" {
		return 0, fmt.Errorf("%s is not a number", quoted(original))
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%s is not a number", quoted(original))
	}
	return x, nil
}

// parseFraction reads "3/8", "-3/8" or "1 3/8".
func parseFraction(s string) (float64, error) {
	sign, rest := 1.0, s
	if strings.HasPrefix(rest, "-") {
		sign, rest = -1, rest[1:]
	}
	whole := 0.0
	if parts := strings.Fields(rest); len(parts) == 2 {
		w, err := strconv.ParseUint(parts[0], 10, 32)
		if err != nil {
			return 0, fmt.Errorf("%s is not a number", quoted(s))
		}
		whole, rest = float64(w), parts[1]
	}
	top, bottom, _ := strings.Cut(rest, "/")
	a, errA := strconv.ParseUint(top, 10, 32)
	b, errB := strconv.ParseUint(bottom, 10, 32)
	if errA != nil || errB != nil || b == 0 {
		return 0, fmt.Errorf("%s is not a fraction; write it as 3/8", quoted(s))
	}
	return sign * (whole + float64(a)/float64(b)), nil
}

// splitUnit splits "110 mm" into its number and its unit. The unit is the
// longest listed spelling that ends the text.
func splitUnit(text string, units []Unit) (number string, unit Unit, found bool) {
	s := strings.TrimSpace(text)
	best := -1
	for _, u := range units {
		for _, symbol := range append([]string{u.Symbol}, u.Plain...) {
			if symbol != "" && len(symbol) > best && endsWithUnit(s, symbol) {
				best, unit = len(symbol), u
			}
		}
	}
	if best < 0 {
		return s, Unit{}, false
	}
	return strings.TrimSpace(s[:len(s)-best]), unit, true
}

// endsWithUnit reports whether the text ends with the symbol as a word of its
// own: "50 mL" does not end with the unit L.
func endsWithUnit(s, symbol string) bool {
	before, found := strings.CutSuffix(s, symbol)
	if !found {
		return false
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	return !unicode.IsLetter(last) || !unicode.IsLetter([]rune(symbol)[0])
}

// quoted returns the text in quotation marks, cut to a readable length, with
// control characters made visible.
func quoted(text string) string {
	const most = 40
	runes := []rune(text)
	if len(runes) > most {
		return strconv.Quote(string(runes[:most])) + "…"
	}
	return strconv.Quote(text)
}

// unitList names the units for a message: "mm, µm or in".
func unitList(units []Unit) string {
	symbols := make([]string, len(units))
	for i, u := range units {
		symbols[i] = u.Symbol
	}
	return orList(symbols)
}

// orList joins words with commas and a last "or".
func orList(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// check returns why the SI value is outside the limits, in the unit in which
// it was typed, or nil.
func (l Limits) check(si float64, unit Unit) error {
	show := func(x float64) string {
		return strconv.FormatFloat(roundTo(unit.FromSI(x), 9), 'g', -1, 64) + spaced(unit.Symbol)
	}
	switch {
	case l.HasMin && l.OpenAtMin && si <= l.Min:
		return fmt.Errorf("%s is not above %s", show(si), show(l.Min))
	case l.HasMin && si < l.Min-tiny(l.Min):
		return fmt.Errorf("%s is below the least, %s", show(si), show(l.Min))
	case l.HasMax && si > l.Max+tiny(l.Max):
		return fmt.Errorf("%s is above the most, %s", show(si), show(l.Max))
	}
	return nil
}

// tiny is the rounding that a limit forgives, so that a value typed equal to
// the limit in another unit passes.
func tiny(limit float64) float64 { return 1e-12 * math.Abs(limit) }

// roundTo rounds x to n significant digits.
func roundTo(x float64, n int) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', n, 64), 64)
	if err != nil {
		return x
	}
	return y
}
