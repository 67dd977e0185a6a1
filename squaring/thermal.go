package squaring

import (
	"math"

	"gonum.org/v1/gonum/unit"
)

// Expansion is a coefficient of linear thermal expansion, per kelvin.
type Expansion float64

// Typical expansion coefficients near 20 degrees Celsius. Rounded: a real
// piece may differ by a tenth, which belongs in the uncertainty.
const (
	// SteelExpansion is typical of steel. Source: D. A. Swyt, Uncertainties in
	// dimensional measurements made at nonstandard temperatures, Journal of
	// Research of NIST 99 (1994), section 1.
	SteelExpansion Expansion = 11.5e-6
	// AluminiumExpansion is typical of aluminium. Source: as SteelExpansion.
	AluminiumExpansion Expansion = 23.1e-6
	// CastIronExpansion is typical of grey cast iron (6 per million per degree
	// Fahrenheit in trade tables).
	CastIronExpansion Expansion = 10.8e-6
)

// Warming is a piece that is warmer, or colder, than it was or than its
// neighbour.
type Warming struct {
	// Length is the length that changes, zero or more.
	Length unit.Length
	// Expansion is the coefficient of linear expansion and ExpansionU its
	// standard uncertainty.
	Expansion, ExpansionU Expansion
	// Change is the temperature change in kelvins, positive when warmer, and
	// ChangeU its standard uncertainty.
	Change, ChangeU unit.Temperature
}

// Growth returns the change of length and its standard uncertainty:
//
//	growth = length expansion change
//	u^2 = (length change u(expansion))^2 + (length expansion u(change))^2
//
// to first order (JCGM 100:2008, 5.1.2), the three inputs independent. The
// length must not be negative, nor the uncertainties.
func (w Warming) Growth() (growth, uncertainty unit.Length, err error) {
	if err := notNegative("length", w.Length); err != nil {
		return 0, 0, err
	}
	for _, check := range []error{
		finite("expansion", float64(w.Expansion)),
		finite("temperature change", float64(w.Change)),
		notNegativeNumber("uncertainty of the expansion", float64(w.ExpansionU)),
		notNegativeNumber("uncertainty of the temperature change", float64(w.ChangeU)),
	} {
		if check != nil {
			return 0, 0, check
		}
	}
	length, alpha, dt := float64(w.Length), float64(w.Expansion), float64(w.Change)
	ua, ut := float64(w.ExpansionU), float64(w.ChangeU)
	u := length * math.Hypot(dt*ua, alpha*ut)
	return unit.Length(length * alpha * dt), unit.Length(u), finite("growth", math.Max(u, math.Abs(length*alpha*dt)))
}

// ColumnNod returns the slope by which a column leans when its front is warmer
// than its back, the warmth falling evenly across its depth:
//
//	slope = height expansion change / depth
//
// A warmer front grows taller and leans the head backward, positive here.
// The depth must be above zero and the height not negative.
func ColumnNod(height, depth unit.Length, expansion Expansion, change unit.Temperature) (Slope, error) {
	growth, _, err := Warming{Length: height, Expansion: expansion, Change: change}.Growth()
	if err != nil {
		return 0, err
	}
	return SlopeFromRise(growth, depth)
}
