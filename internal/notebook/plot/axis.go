package plot

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/thouspan/internal/notebook"
)

// Axis says what is drawn along one axis and in which units.
type Axis struct {
	// Label names what is drawn; the unit is added.
	Label string
	// Show is the pair of units.
	Show notebook.Pair
	// Range, when it has a minimum or a maximum (in SI), makes the axis reach
	// at least that far: notebook.AtLeast(0.0), notebook.Between(0, 2*math.Pi).
	Range notebook.Limits
	// Log makes the axis logarithmic; every value must then be above zero.
	Log bool
	// Dates makes the values dates: seconds since 1970 as [Day] gives them.
	// Only for the X axis of an [XY].
	Dates bool
}

// scale is an axis in one system of units.
type scale struct {
	axis   Axis
	system notebook.System
	unit   notebook.Unit
	// min, max and step of the ticks, in the unit (milliseconds for dates).
	min, max, step float64
	// fine is the SI step to which tables and tooltips give values that have no
	// uncertainty.
	fine float64
}

// unitOf returns the axis's unit in a system; an empty pair is a pure number.
func (a Axis) unitOf(system notebook.System) notebook.Unit {
	unit := a.Show.In(system)
	if unit.Scale == 0 {
		unit.Scale = 1
	}
	return unit
}

// largest is the largest value that is drawn, far above anything measured.
const largest = 1e100

// check returns what is wrong with a value of the axis, or nil.
func (a Axis) check(si float64) error {
	switch {
	case math.IsNaN(si) || math.IsInf(si, 0):
		return fmt.Errorf("%s is %g, which is not finite", a.Label, si)
	case math.Abs(si) > largest:
		return fmt.Errorf("%s is %g SI, which is too large to draw; the most is %g", a.Label, si, largest)
	case a.Log && si <= 0:
		return fmt.Errorf("%s is %g SI, but a logarithmic axis takes only values above zero", a.Label, si)
	}
	return nil
}

// checkSelf returns what is wrong with the axis itself, or nil.
func (a Axis) checkSelf() error {
	if strings.TrimSpace(a.Label) == "" {
		return fmt.Errorf("an axis has no label")
	}
	if a.Range.HasMin {
		if err := a.check(a.Range.Min); err != nil {
			return fmt.Errorf("the axis's least value: %w", err)
		}
	}
	if a.Range.HasMax {
		if err := a.check(a.Range.Max); err != nil {
			return fmt.Errorf("the axis's greatest value: %w", err)
		}
	}
	return nil
}

// span is a growing range of values.
type span struct {
	lo, hi float64
	some   bool
}

func (s *span) add(values ...float64) {
	for _, x := range values {
		if !s.some {
			s.lo, s.hi, s.some = x, x, true
		}
		s.lo, s.hi = math.Min(s.lo, x), math.Max(s.hi, x)
	}
}

// scaleFor returns the axis in one system of units for data of the given span,
// with about the given number of steps.
func (a Axis) scaleFor(system notebook.System, data span, steps int) scale {
	if a.Range.HasMin {
		data.add(a.Range.Min)
	}
	if a.Range.HasMax {
		data.add(a.Range.Max)
	}
	s := scale{axis: a, system: system, unit: a.unitOf(system)}
	if a.Dates {
		s.min, s.max, s.step = dateEnds(data.lo, data.hi)
		return s
	}
	lo, hi := s.unit.FromSI(data.lo), s.unit.FromSI(data.hi)
	if a.Log {
		s.min, s.max, s.step = decadesAround(lo, hi)
		return s
	}
	s.min, s.max, s.step = ticksAround(lo, hi, steps, s.unit.Symbol == notebook.Degree.Symbol)
	s.fine = s.step / 100 * s.unit.Scale
	return s
}

// as returns the scale with values given no finer than the listed ones need:
// stations at 0, 40 and 80 mm are not called 0.00, 40.00 and 80.00.
func (s scale) as(values []float64) scale {
	if s.fine == 0 {
		return s
	}
	shown := make([]float64, len(values))
	for i, v := range values {
		shown[i] = s.unit.FromSI(v)
	}
	s.fine = math.Pow10(-fewestDecimals(s.step/200, shown...)) * s.unit.Scale
	return s
}

// decadesAround returns the powers of ten around 0 < lo <= hi.
func decadesAround(lo, hi float64) (least, most, step float64) {
	low := math.Floor(math.Log10(lo) + 1e-9)
	high := math.Ceil(math.Log10(hi) - 1e-9)
	if high <= low {
		high = low + 1
	}
	return math.Pow(10, low), math.Pow(10, high), math.Pow(10, low)
}

// ticksAround returns round ends around lo and hi and the round step between
// them: 1, 2 or 5 times a power of ten, or for wide angles in degrees a
// fraction of the circle.
func ticksAround(lo, hi float64, steps int, degrees bool) (least, most, step float64) {
	if hi-lo <= 1e-9*math.Max(math.Abs(lo), math.Abs(hi)) {
		room := math.Max(math.Abs(lo)*0.1, 1e-12)
		lo, hi = lo-room, hi+room
	}
	step = roundStep((hi - lo) / float64(steps))
	if degrees && hi-lo >= 90 {
		step = circleStep((hi - lo) / float64(steps+2))
	}
	const forgive = 1e-6 // of a step: a limit given in another unit
	least = significant(step*math.Floor(lo/step+forgive), 12)
	most = significant(step*math.Ceil(hi/step-forgive), 12)
	return least, most, significant(step, 6)
}

// roundStep returns the least of 1, 2 or 5 times a power of ten that is not
// below x > 0.
func roundStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= x*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

func circleStep(x float64) float64 {
	for _, step := range []float64{15, 30, 45, 90, 180} {
		if step >= x*(1-1e-9) {
			return step
		}
	}
	return 360 * math.Ceil(x/360)
}

// name returns the axis's name, with its unit when the ticks do not show it.
func (s scale) name() string {
	if s.axis.Dates || s.onTicks() {
		return s.axis.Label
	}
	return s.axis.nameIn(s.system)
}

// nameIn returns the axis's name with its unit.
func (a Axis) nameIn(system notebook.System) string {
	if unit := a.unitOf(system); unit.Symbol != "" {
		return a.Label + " (" + unit.Symbol + ")"
	}
	return a.Label
}

// onTicks reports whether the unit is written at each tick: 45°, 95%.
func (s scale) onTicks() bool {
	return s.unit.Symbol == notebook.Degree.Symbol || s.unit.Symbol == notebook.Percent.Symbol
}

// value returns an SI value in the unit, rounded far below what can be seen, so
// that options are short and the same on every machine.
func (s scale) value(si float64) float64 {
	if s.axis.Dates {
		return math.Round(si * 1000)
	}
	x := s.unit.FromSI(si)
	if s.axis.Log {
		return significant(x, 6)
	}
	return s.round(x)
}

// round rounds a value in the unit to a thousandth of a step or better.
func (s scale) round(x float64) float64 { return rounded(x, max(0, 3-decimalExponent(s.step))) }

// rounded rounds to a number of decimals, and never to minus zero.
func rounded(x float64, decimals int) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', decimals, 64), 64)
	if err != nil || y == 0 {
		return 0
	}
	return y
}

// decimalExponent returns the power of ten of x > 0: -1 for 0.5.
func decimalExponent(x float64) int { return int(math.Floor(math.Log10(x) + 1e-9)) }

// significant rounds x to n significant digits.
func significant(x float64, n int) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', n, 64), 64)
	if err != nil {
		return x
	}
	return y
}

// quantity returns an SI value of the axis for tables and tooltips; metric is
// the axis's metric scale, by which both systems are rounded alike.
func (a Axis) quantity(si, u float64, metric scale) notebook.Quantity {
	return notebook.Quantity{SI: si, U: u, Show: a.Show, Step: metric.fine}
}

// words returns a value as a tooltip says it.
func (s scale) words(si, u float64, metric scale) string {
	if s.axis.Dates {
		return dateWords(si)
	}
	return s.axis.quantity(si, u, metric).In(s.system).Full()
}

// level returns a limit as its line says it, with no more decimals than it
// needs.
func (s scale) level(si float64) string {
	x := s.unit.FromSI(si)
	return notebook.Shown{Value: notebook.FormatNumber(x, fewestDecimals(0.001*math.Abs(x), x)), Unit: s.unit.Symbol}.String()
}

// fewestDecimals returns the fewest decimals, up to nine, that give every value
// to within the given error.
func fewestDecimals(within float64, values ...float64) int {
	decimals := 0
	for _, x := range values {
		for decimals < 9 && math.Abs(x-math.Round(x*math.Pow10(decimals))/math.Pow10(decimals)) > within {
			decimals++
		}
	}
	return decimals
}

func dateWords(si float64) string {
	return time.Unix(int64(math.Round(si)), 0).UTC().Format("2006-01-02")
}

// column returns the head of a table's column for the axis.
func (a Axis) column(label string) notebook.Column {
	if a.Dates {
		return notebook.Col(label)
	}
	return notebook.ColIn(label, a.Show)
}

// cell returns a value as a table's cell.
func (a Axis) cell(si, u float64, metric scale) notebook.Cell {
	if a.Dates {
		return notebook.Str(dateWords(si))
	}
	return notebook.Val(a.quantity(si, u, metric))
}
