package plating

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// CurrentDensity is a current over an area in A/m2, positive when metal is laid
// down.
type CurrentDensity float64

// Units of current density. The square foot is exact by the international yard
// and pound agreement of 1959 (1 ft = 0.3048 m).
const (
	AmperePerSquareMetre     CurrentDensity = 1
	AmperePerSquareDecimetre CurrentDensity = 100
	AmperePerSquareFoot      CurrentDensity = 1 / (0.3048 * 0.3048)
)

// Density is a mass over a volume in kg/m3.
type Density float64

// Units of density.
const (
	KilogramPerCubicMetre  Density = 1
	GramPerCubicCentimetre Density = 1000
)

// MolarMass is a mass over an amount of substance in kg/mol.
type MolarMass float64

// GramPerMole is the unit in which atomic weights are tabulated.
const GramPerMole MolarMass = 1e-3

// Concentration is a mass of dissolved substance over a volume of solution in
// kg/m3.
type Concentration float64

// Units of concentration. The ounce is the avoirdupois ounce, the gallon the
// US gallon of 231 cubic inches; both are exact by definition.
const (
	GramPerLitre     Concentration = 1
	OuncePerUSGallon Concentration = 0.028349523125 / (231 * 0.0254 * 0.0254 * 0.0254)
)

// Equivalent is an electrochemical equivalent: the mass laid down by a charge
// at 100 % efficiency, in kg/C.
type Equivalent float64

// Units of the electrochemical equivalent.
const (
	MilligramPerCoulomb Equivalent = 1e-6
	GramPerAmpereHour   Equivalent = 1e-3 / 3600
)

// Units that package unit does not name.
const (
	// AmpereHour is 3600 C.
	AmpereHour unit.Charge = 3600
	// SquareCentimetre, SquareDecimetre and SquareFoot are areas in m2.
	SquareCentimetre unit.Area = 1e-4
	SquareDecimetre  unit.Area = 1e-2
	SquareFoot       unit.Area = 0.3048 * 0.3048
	// Thou is one thousandth of an inch.
	Thou unit.Length = 25.4e-6
)

// Celsius returns the temperature of a reading in degrees Celsius.
func Celsius(degrees float64) unit.Temperature {
	return unit.Temperature(degrees + 273.15)
}

// shown is a unit in which an error message prints a value.
type shown struct {
	symbol string
	scale  float64
}

// The units of error messages.
var (
	inAmpere         = shown{"A", 1}
	inAmpereHour     = shown{"A h", 3600}
	inAPerDM2        = shown{"A/dm2", 100}
	inMinute         = shown{"min", 60}
	inGram           = shown{"g", 1e-3}
	inMicrometre     = shown{"um", 1e-6}
	inMillimetre     = shown{"mm", 1e-3}
	inSquareCM       = shown{"cm2", 1e-4}
	inGramPerCM3     = shown{"g/cm3", 1000}
	inGramPerMole    = shown{"g/mol", 1e-3}
	inGramPerLitre   = shown{"g/L", 1}
	inLitre          = shown{"L", 1e-3}
	inPlain          = shown{"", 1}
	inGramPerAmpHour = shown{"g/(A h)", 1e-3 / 3600}
)

// of returns v written in the unit.
func (s shown) of(v float64) string {
	if s.symbol == "" {
		return fmt.Sprintf("%.4g", v)
	}
	return fmt.Sprintf("%.4g %s", v/s.scale, s.symbol)
}

// isFinite reports whether v is neither infinite nor NaN.
func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// positive returns an error unless v is finite and above zero.
func positive(name string, v float64, in shown) error {
	if !(v > 0) || math.IsInf(v, 0) {
		return fmt.Errorf("plating: %s is %s, must be above zero and finite", name, in.of(v))
	}
	return nil
}

// notNegative returns an error unless v is finite and zero or more.
func notNegative(name string, v float64, in shown) error {
	if !(v >= 0) || math.IsInf(v, 0) {
		return fmt.Errorf("plating: %s is %s, must be zero or more and finite", name, in.of(v))
	}
	return nil
}

// fraction returns an error unless v lies above 0 and at most 1; it names the
// usual slip of typing a percentage.
func fraction(name string, v float64) error {
	if v > 1 && v <= 100 {
		return fmt.Errorf("plating: %s is %.4g, must be a fraction of at most 1 (%.4g %% is %.4g)", name, v, v, v/100)
	}
	if !(v > 0 && v <= 1) {
		return fmt.Errorf("plating: %s is %.4g, must be above 0 and at most 1", name, v)
	}
	return nil
}

// firstError returns the first error that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
