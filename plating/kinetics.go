package plating

// Electrode kinetics: what overpotential a current density costs, and the
// reverse. The sign is this package's: current density and overpotential are
// both positive when metal is laid down, the opposite of the IUPAC's.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// gasConstant is exact: the Avogadro constant times the Boltzmann constant of
// the SI (BIPM, The International System of Units, 9th edition, 2019, section
// 2.2), in J/(mol K).
const gasConstant = avogadro * 1.380649e-23

// Conductivity is the electrical conductivity of a solution in S/m. Bath
// conductivities are inputs everywhere in this package: a Watts-type bath at 50
// to 60 degrees Celsius is said to have 7 to 10 S/m (from memory), but the
// figure belongs to the bath at hand.
type Conductivity float64

// SiemensPerMetre is the SI unit of conductivity.
const SiemensPerMetre Conductivity = 1

// AreaResistance is the slope of overpotential against current density in
// ohm m2.
type AreaResistance float64

// OhmSquareMetre is the SI unit of area resistance.
const OhmSquareMetre AreaResistance = 1

// At returns the conductivity at a temperature from that at a reference
// temperature, by a straight line:
//
//	kappa(T) = kappa (1 + c (T - T0))
//
// with the coefficient c in 1/K, which is an input (1 to 3 % a kelvin is usual
// for water solutions, from memory). It returns an error for a temperature at
// or below zero, or where the line falls to zero.
func (k Conductivity) At(t, reference unit.Temperature, coefficient float64) (Conductivity, error) {
	if err := firstError(
		positive("conductivity", float64(k), inSPerM),
		positive("temperature", float64(t), inKelvin),
		positive("reference temperature", float64(reference), inKelvin),
	); err != nil {
		return 0, err
	}
	got := k * Conductivity(1+coefficient*float64(t-reference))
	if err := positive(fmt.Sprintf("conductivity at %.4g K", float64(t)), float64(got), inSPerM); err != nil {
		return 0, err
	}
	return got, nil
}

// Units of error messages.
var (
	inSPerM  = shown{"S/m", 1}
	inKelvin = shown{"K", 1}
	inVolt   = shown{"V", 1}
	inOhmM2  = shown{"ohm m2", 1}
)

// Nernst returns the equilibrium potential of a metal in its ions, against the
// scale of the standard potential:
//
//	E = E0 + (R T / n F) ln a
//
// with activity a above zero, temperature T above zero and n electrons an ion.
func Nernst(standard unit.Voltage, activity float64, electrons int, t unit.Temperature) (unit.Voltage, error) {
	if electrons < 1 {
		return 0, fmt.Errorf("plating: electrons an ion is %d, must be 1 or more", electrons)
	}
	if err := firstError(
		finite("standard potential", float64(standard), inVolt),
		positive("activity", activity, inPlain),
		positive("temperature", float64(t), inKelvin),
	); err != nil {
		return 0, err
	}
	return standard + unit.Voltage(gasConstant*float64(t)/(float64(electrons)*Faraday)*math.Log(activity)), nil
}

// TafelSlope returns the overpotential that a tenfold current density costs
// where the back reaction no longer counts:
//
//	b = ln(10) R T / (alpha F)
//
// with transfer coefficient alpha above zero (for n electrons in one step it is
// their number times the symmetry factor) and temperature above zero. It
// returns NaN outside.
func TafelSlope(coefficient float64, t unit.Temperature) unit.Voltage {
	if !(coefficient > 0) || !(t > 0) {
		return unit.Voltage(math.NaN())
	}
	return unit.Voltage(math.Ln10 * gasConstant * float64(t) / (coefficient * Faraday))
}

// LimitingCurrent returns the largest current density that diffusion through a
// layer of still solution can feed:
//
//	jL = n F D c / delta
//
// with n electrons an ion, diffusion coefficient D in m2/s, ion concentration c
// in mol/m3 and layer thickness delta. All must be above zero; the thickness
// falls with stirring, and the coefficient with cold, both several-fold.
func LimitingCurrent(electrons int, diffusion, concentration float64, layer unit.Length) (CurrentDensity, error) {
	if electrons < 1 {
		return 0, fmt.Errorf("plating: electrons an ion is %d, must be 1 or more", electrons)
	}
	if err := firstError(
		positive("diffusion coefficient", diffusion, shown{"m2/s", 1}),
		positive("ion concentration", concentration, shown{"mol/m3", 1}),
		positive("diffusion layer", float64(layer), inMicrometre),
	); err != nil {
		return 0, err
	}
	return CurrentDensity(float64(electrons) * Faraday * diffusion * concentration / float64(layer)), nil
}

// WagnerNumber returns how the resistance of the electrode compares with that
// of the bath:
//
//	Wa = (kappa / l) d eta / d j
//
// with conductivity kappa and a length l of the part (IUPAC, "current
// distribution", Pure Appl. Chem. 53 (1981) 1827; read). Well below 1 the coat
// follows the geometry (primary distribution), well above 1 it is even. All
// arguments must be above zero, and the slope may be zero.
func WagnerNumber(k Conductivity, slope AreaResistance, length unit.Length) (float64, error) {
	if err := firstError(
		positive("conductivity", float64(k), inSPerM),
		notNegative("slope of the overpotential", float64(slope), inOhmM2),
		positive("length", float64(length), inMillimetre),
	); err != nil {
		return 0, err
	}
	return float64(k) * float64(slope) / float64(length), nil
}

// Kinetics is how an electrode's overpotential answers the current density. Its
// zero value has none (primary distribution). With Resistance set it is a
// straight line,
//
//	eta = r j
//
// and with Exchange set it is the Butler-Volmer law, in which a Limit, if any,
// takes the share of the ions that the surface has lost:
//
//	j = j0 ((1 - j/jL) exp(ac F eta / R T) - exp(-aa F eta / R T))
//
// Current density j and overpotential eta are positive when metal is laid down.
// Values for a bath are inputs: exchange current densities in the literature
// spread over decades and move with boric acid, additives and temperature.
type Kinetics struct {
	// Equilibrium is the potential at rest against any one reference, the same
	// for every electrode of a cell.
	Equilibrium unit.Voltage
	// Resistance r is the slope of the straight-line law.
	Resistance AreaResistance
	// Exchange j0 is the exchange current density.
	Exchange CurrentDensity
	// Cathodic ac and Anodic aa are transfer coefficients: at n electrons in
	// one step, n times the symmetry factor. Both must be above zero when
	// Exchange is set.
	Cathodic, Anodic float64
	// Temperature T of the electrode; needed when Exchange is set.
	Temperature unit.Temperature
	// Limit jL is the limiting current density of deposition; zero means none.
	// It needs Exchange.
	Limit CurrentDensity
}

// Validate returns what is wrong with the figures: a negative or infinite one,
// a straight line and an exchange current density at once, or an exchange
// current density without coefficients and temperature.
func (k Kinetics) Validate() error {
	if err := firstError(
		finite("equilibrium potential", float64(k.Equilibrium), inVolt),
		notNegative("area resistance", float64(k.Resistance), inOhmM2),
		notNegative("exchange current density", float64(k.Exchange), inAPerDM2),
		notNegative("limiting current density", float64(k.Limit), inAPerDM2),
	); err != nil {
		return err
	}
	if k.Exchange == 0 {
		if k.Limit > 0 {
			return fmt.Errorf("plating: limiting current density %s needs an exchange current density", inAPerDM2.of(float64(k.Limit)))
		}
		return nil
	}
	if k.Resistance > 0 {
		return fmt.Errorf("plating: area resistance %s and exchange current density %s are both set, give one",
			inOhmM2.of(float64(k.Resistance)), inAPerDM2.of(float64(k.Exchange)))
	}
	return firstError(
		positive("cathodic transfer coefficient", k.Cathodic, inPlain),
		positive("anodic transfer coefficient", k.Anodic, inPlain),
		positive("temperature", float64(k.Temperature), inKelvin),
	)
}

// finite returns an error unless v is a finite number.
func finite(name string, v float64, in shown) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("plating: %s is %s, must be finite", name, in.of(v))
	}
	return nil
}

// exponents returns ac F / R T and aa F / R T in 1/V.
func (k Kinetics) exponents() (cathodic, anodic float64) {
	f := Faraday / (gasConstant * float64(k.Temperature))
	return k.Cathodic * f, k.Anodic * f
}

// CurrentDensity returns the current density at an overpotential. It stays
// finite at any overpotential that drives deposition against a limit, and grows
// to infinity, never to NaN, elsewhere. An electrode without kinetics has no
// answer: the result is NaN.
func (k Kinetics) CurrentDensity(overpotential unit.Voltage) CurrentDensity {
	j, _ := k.current(float64(overpotential))
	return CurrentDensity(j)
}

// Slope returns the slope of overpotential against current density, in ohm m2,
// at a current density below the limit. It is zero without kinetics, and NaN at
// or beyond the limit.
func (k Kinetics) Slope(j CurrentDensity) AreaResistance {
	if k.Exchange == 0 {
		return k.Resistance
	}
	eta, err := k.Overpotential(j)
	if err != nil {
		return AreaResistance(math.NaN())
	}
	_, slope := k.current(float64(eta))
	return AreaResistance(1 / slope)
}

// Overpotential returns the overpotential at a current density: the inverse of
// [Kinetics.CurrentDensity], zero without kinetics. A current density that is
// not finite, or at or over the limit, is an error.
func (k Kinetics) Overpotential(j CurrentDensity) (unit.Voltage, error) {
	if err := firstError(k.Validate(), finite("current density", float64(j), inAPerDM2)); err != nil {
		return 0, err
	}
	if k.Exchange > 0 && k.Limit > 0 && j >= k.Limit {
		return 0, fmt.Errorf("plating: current density %s is not below the limiting %s",
			inAPerDM2.of(float64(j)), inAPerDM2.of(float64(k.Limit)))
	}
	return unit.Voltage(k.overpotential(float64(j))), nil
}

// current returns current density and its slope at an overpotential, for
// kinetics known to be valid. Each sign divides by its own large exponential,
// so neither end overflows to NaN.
func (k Kinetics) current(eta float64) (j, slope float64) {
	if k.Exchange == 0 {
		return eta / float64(k.Resistance), 1 / float64(k.Resistance)
	}
	c, a := k.exponents()
	j0, inverseLimit := float64(k.Exchange), 0.0
	if k.Limit > 0 {
		inverseLimit = 1 / float64(k.Limit)
	}
	if eta >= 0 {
		back, gone := math.Exp(-(c+a)*eta), math.Exp(-c*eta)
		under := gone/j0 + inverseLimit
		j = -math.Expm1(-(c+a)*eta) / under
		return j, ((c+a)*back + j*c*gone/j0) / under
	}
	back, gone := math.Exp((c+a)*eta), math.Exp(a*eta)
	under := gone/j0 + back*inverseLimit
	j = math.Expm1((c+a)*eta) / under
	return j, ((c+a)*back - j*(a*gone/j0+(c+a)*back*inverseLimit)) / under
}

// overpotential inverts current by Newton's method on logarithms, where the law
// is nearly straight, for a current density known to be below the limit.
func (k Kinetics) overpotential(j float64) float64 {
	if k.Exchange == 0 {
		return j * float64(k.Resistance)
	}
	c, a := k.exponents()
	ratio, depletion := j/float64(k.Exchange), 0.0
	if k.Limit > 0 {
		depletion = -j / float64(k.Limit)
	}
	if j < 0 {
		// a x = ln(-ratio + (1 + depletion) exp(-c x)), x = -eta.
		return -invertLaw(a, c, -ratio, depletion, 0)
	}
	// c x = ln(ratio + exp(-a x)) - ln(1 + depletion), x = eta.
	return invertLaw(c, a, ratio, 0, math.Log1p(depletion))
}

// invertLaw solves p x = ln(r + (1 + d) exp(-q x)) - shift for x, where p and q
// are above zero and r and d are not negative. The left side less the right
// grows with a slope between p and p + q, so Newton's method cannot stray.
func invertLaw(p, q, r, d, shift float64) float64 {
	x := (math.Log1p(r+d) - shift) / (p + q)
	for range 100 {
		e := (1 + d) * math.Exp(-q*x)
		// The sum r + e written as 1 + small keeps its digits near x = 0.
		miss := p*x - math.Log1p(r+d+(1+d)*math.Expm1(-q*x)) + shift
		step := miss / (p + q*e/(r+e))
		x -= step
		if math.Abs(step) <= 1e-15*math.Abs(x) {
			break
		}
	}
	return x
}
