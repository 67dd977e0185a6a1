package notebook

// System is one of the two ways in which everything is shown.
type System int

// The two systems of shop units.
const (
	Metric System = iota
	Inch
)

// Systems lists both, in the order in which they index a pair.
var systems = [2]System{Metric, Inch}

// Systems returns both systems, metric first.
func Systems() []System { return systems[:] }

// String returns "metric" or "inch".
func (s System) String() string {
	if s == Inch {
		return "inch"
	}
	return "metric"
}

// Unit is a unit in which a value is typed or shown.
type Unit struct {
	// Symbol is what is printed after the number: "mm", "µm/m", "A/dm²".
	Symbol string
	// Plain lists other spellings that are accepted when typed: "um" for "µm".
	Plain []string
	// Scale is the size of one unit in SI: 0.001 for mm.
	Scale float64
	// Offset is the SI value of zero on the unit's scale; only temperatures
	// have one.
	Offset float64
}

// FromSI returns the SI value expressed in u.
func (u Unit) FromSI(si float64) float64 { return (si - u.Offset) / u.Scale }

// ToSI returns the SI value of x in u.
func (u Unit) ToSI(x float64) float64 { return x*u.Scale + u.Offset }

// named reports whether the typed symbol means u.
func (u Unit) named(symbol string) bool {
	if symbol == u.Symbol {
		return true
	}
	for _, plain := range u.Plain {
		if symbol == plain {
			return true
		}
	}
	return false
}

// Pair is the metric and the inch unit in which one kind of value is shown.
type Pair struct {
	Metric, Inch Unit
}

// In returns the pair's unit in the given system.
func (p Pair) In(s System) Unit {
	if s == Inch {
		return p.Inch
	}
	return p.Metric
}

// Same returns the pair that shows one unit in both systems.
func Same(u Unit) Pair { return Pair{u, u} }

// inch is the length of the international inch in metres: exact by the
// international yard and pound agreement of 1959.
const inch = 0.0254

// Units of length.
var (
	Micrometre = Unit{Symbol: "µm", Plain: []string{"um", "μm", "micron", "microns"}, Scale: 1e-6}
	Millimetre = Unit{Symbol: "mm", Scale: 1e-3}
	Centimetre = Unit{Symbol: "cm", Scale: 1e-2}
	Metre      = Unit{Symbol: "m", Scale: 1}
	InchUnit   = Unit{Symbol: "in", Plain: []string{"\"", "inch"}, Scale: inch}
	Thou       = Unit{Symbol: "thou", Plain: []string{"mil", "in/1000"}, Scale: inch / 1000}
)

// Units of slope (rise over run) and angle.
var (
	MicrometrePerMetre = Unit{Symbol: "µm/m", Plain: []string{"um/m", "μm/m", "urad", "µrad"}, Scale: 1e-6}
	MillimetrePerMetre = Unit{Symbol: "mm/m", Scale: 1e-3}
	MillimetrePer300   = Unit{Symbol: "mm/300 mm", Plain: []string{"mm/300mm", "mm/300"}, Scale: 1e-3 / 0.3}
	ThouPerFoot        = Unit{Symbol: "thou/ft", Scale: 1e-3 / 12}
	InchPerFoot        = Unit{Symbol: "in/ft", Scale: 1.0 / 12}
	Degree             = Unit{Symbol: "°", Plain: []string{"deg", "degrees"}, Scale: pi / 180}
	ArcSecond          = Unit{Symbol: "arcsec", Plain: []string{"″", "''", "sec"}, Scale: pi / 180 / 3600}
	Radian             = Unit{Symbol: "rad", Scale: 1}
)

const pi = 3.14159265358979323846264338327950288

// Units for nickel, time and the bench.
var (
	SquareMillimetre = Unit{Symbol: "mm²", Plain: []string{"mm2"}, Scale: 1e-6}
	SquareCentimetre = Unit{Symbol: "cm²", Plain: []string{"cm2"}, Scale: 1e-4}
	SquareDecimetre  = Unit{Symbol: "dm²", Plain: []string{"dm2"}, Scale: 1e-2}
	SquareInch       = Unit{Symbol: "in²", Plain: []string{"in2", "sq in"}, Scale: inch * inch}
	SquareFoot       = Unit{Symbol: "ft²", Plain: []string{"ft2", "sq ft"}, Scale: 144 * inch * inch}
	Litre            = Unit{Symbol: "L", Plain: []string{"l", "litre"}, Scale: 1e-3}
	Millilitre       = Unit{Symbol: "mL", Plain: []string{"ml"}, Scale: 1e-6}
	CubicCentimetre  = Unit{Symbol: "cm³", Plain: []string{"cm3"}, Scale: 1e-6}
	CubicInch        = Unit{Symbol: "in³", Plain: []string{"in3", "cu in"}, Scale: inch * inch * inch}
	USGallon         = Unit{Symbol: "US gal", Plain: []string{"gal"}, Scale: 231 * inch * inch * inch}
	Gram             = Unit{Symbol: "g", Scale: 1e-3}
	Kilogram         = Unit{Symbol: "kg", Scale: 1}
	Ounce            = Unit{Symbol: "oz", Scale: 0.028349523125}
	Second           = Unit{Symbol: "s", Scale: 1}
	Minute           = Unit{Symbol: "min", Scale: 60}
	Hour             = Unit{Symbol: "h", Scale: 3600}
	Days             = Unit{Symbol: "d", Plain: []string{"day", "days"}, Scale: 86400}
	Year             = Unit{Symbol: "yr", Plain: []string{"year", "years", "a"}, Scale: 365.25 * 86400}
	Ampere           = Unit{Symbol: "A", Scale: 1}
	AmpereHour       = Unit{Symbol: "A·h", Plain: []string{"Ah", "A h"}, Scale: 3600}
	Volt             = Unit{Symbol: "V", Scale: 1}
	Millivolt        = Unit{Symbol: "mV", Scale: 1e-3}
	Ohm              = Unit{Symbol: "Ω", Plain: []string{"ohm"}, Scale: 1}
	Watt             = Unit{Symbol: "W", Scale: 1}
	AmperePerDM2     = Unit{Symbol: "A/dm²", Plain: []string{"A/dm2", "ASD"}, Scale: 100}
	AmperePerFT2     = Unit{Symbol: "A/ft²", Plain: []string{"A/ft2", "ASF"}, Scale: 1 / (144 * inch * inch)}
	GramPerLitre     = Unit{Symbol: "g/L", Plain: []string{"g/l"}, Scale: 1}
	GramPerCM3       = Unit{Symbol: "g/cm³", Plain: []string{"g/cm3"}, Scale: 1000}
	Celsius          = Unit{Symbol: "°C", Plain: []string{"degC", "C"}, Scale: 1, Offset: 273.15}
	Fahrenheit       = Unit{Symbol: "°F", Plain: []string{"degF", "F"}, Scale: 5.0 / 9, Offset: 273.15 - 32*5.0/9}
	Kelvin           = Unit{Symbol: "K", Scale: 1}
	Newton           = Unit{Symbol: "N", Scale: 1}
	PoundForce       = Unit{Symbol: "lbf", Scale: 4.4482216152605}
	Siemens          = Unit{Symbol: "S/m", Scale: 1}
	One              = Unit{Symbol: "", Scale: 1}
	Percent          = Unit{Symbol: "%", Scale: 0.01}
)

// Pairs in which the pages show things.
var (
	// FineLengths shows micrometres, or thousandths of an inch.
	FineLengths = Pair{Micrometre, Thou}
	// Lengths shows millimetres, or inches.
	Lengths = Pair{Millimetre, InchUnit}
	// Slopes shows micrometres per metre, or thousandths per foot.
	Slopes = Pair{MicrometrePerMetre, ThouPerFoot}
	// Angles shows degrees in both systems.
	Angles = Same(Degree)
	// Areas shows square centimetres, or square inches.
	Areas = Pair{SquareCentimetre, SquareInch}
	// CurrentDensities shows A/dm², or A/ft².
	CurrentDensities = Pair{AmperePerDM2, AmperePerFT2}
	// Temperatures shows degrees Celsius, or Fahrenheit.
	Temperatures = Pair{Celsius, Fahrenheit}
	// Currents, Charges, Minutes, Hours, Masses and the like are the same in
	// both systems.
	Currents = Same(Ampere)
	Charges  = Same(AmpereHour)
	Minutes  = Same(Minute)
	Hours    = Same(Hour)
	Masses   = Same(Gram)
	Voltages = Same(Volt)
	Percents = Same(Percent)
	Numbers  = Same(One)
	Volumes  = Pair{Litre, USGallon}
	// PartVolumes shows cubic centimetres, or cubic inches.
	PartVolumes = Pair{CubicCentimetre, CubicInch}
)
