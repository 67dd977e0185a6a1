package plating

// Nickel baths as chemistry by mass: what salts hold, what to weigh out, and
// what a stated concentration of metal means. Molar masses follow from the
// standard atomic weights (IUPAC, Meija et al., 2016, conventional values for
// the light elements, read).

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// The standard atomic weights used for salts, in g/mol.
const (
	weightH  = 1.008
	weightB  = 10.81
	weightN  = 14.007
	weightO  = 15.999
	weightS  = 32.06
	weightCl = 35.45
	weightNi = 58.6934
)

// waterMolar is the molar mass of water in g/mol.
const waterMolar = 2*weightH + weightO

// Salt is a chemical of a nickel bath.
type Salt struct {
	Name, Formula string
	MolarMass     MolarMass
	// Nickel and Chloride count the atoms of each in a formula unit.
	Nickel, Chloride int
}

// salt builds a salt of an anhydrous molar mass in g/mol with some waters of
// crystallisation.
func salt(name, formula string, anhydrous float64, waters int, nickel, chloride int) Salt {
	return Salt{name, formula, MolarMass(anhydrous+float64(waters)*waterMolar) * GramPerMole, nickel, chloride}
}

// NickelSulfate returns nickel sulfate with the given number of waters of
// crystallisation, 0 to 7; the shop's green crystals have 6, some have 7.
func NickelSulfate(waters int) (Salt, error) {
	return hydrate("nickel sulfate", "NiSO4", weightNi+weightS+4*weightO, waters, 1, 0)
}

// NickelChloride returns nickel chloride with the given number of waters of
// crystallisation, 0 to 6; the usual salt has 6.
func NickelChloride(waters int) (Salt, error) {
	return hydrate("nickel chloride", "NiCl2", weightNi+2*weightCl, waters, 1, 2)
}

// NickelSulfamate returns nickel sulfamate, Ni(SO3NH2)2, with the given number
// of waters of crystallisation, 0 to 4.
func NickelSulfamate(waters int) (Salt, error) {
	return hydrate("nickel sulfamate", "Ni(SO3NH2)2", weightNi+2*(weightS+3*weightO+weightN+2*weightH), waters, 1, 0)
}

// BoricAcid returns boric acid, H3BO3, the bath's buffer.
func BoricAcid() Salt { return salt("boric acid", "H3BO3", 3*weightH+weightB+3*weightO, 0, 0, 0) }

// hydrate builds a salt that crystallises with up to 7 waters.
func hydrate(name, formula string, anhydrous float64, waters, nickel, chloride int) (Salt, error) {
	if waters < 0 || waters > 7 {
		return Salt{}, fmt.Errorf("plating: waters of crystallisation of %s are %d, must be 0 to 7", name, waters)
	}
	if waters > 0 {
		formula = fmt.Sprintf("%s.%dH2O", formula, waters)
	}
	return salt(name, formula, anhydrous, waters, nickel, chloride), nil
}

// NickelFraction returns the mass fraction of nickel in the salt; zero for the
// zero value.
func (s Salt) NickelFraction() float64 { return s.fraction(s.Nickel, weightNi) }

// ChlorideFraction returns the mass fraction of chloride in the salt; zero for
// the zero value.
func (s Salt) ChlorideFraction() float64 { return s.fraction(s.Chloride, weightCl) }

func (s Salt) fraction(atoms int, weight float64) float64 {
	if s.MolarMass <= 0 {
		return 0
	}
	return float64(atoms) * weight * float64(GramPerMole) / float64(s.MolarMass)
}

// Dose is a salt at a concentration in the bath.
type Dose struct {
	Salt          Salt
	Concentration Concentration
	// Solubility is the most of it that this bath holds when it is coldest; zero
	// leaves it unchecked. It is an input, for other salts of the bath change it:
	// of boric acid water alone is said to hold about 47 g/L at 20 °C and 60 at
	// 30 °C (from memory).
	Solubility Concentration
}

// Recipe is what a bath is made of, dose by dose.
type Recipe []Dose

// WattsRecipe returns a Watts-type bath of nickel sulfate hexahydrate, nickel
// chloride hexahydrate and boric acid at the given concentrations. Usual are
// 240 to 300, 30 to 90 and 30 to 45 g/L (from memory of the Nickel Plating
// Handbook and the Metal Finishing Guidebook).
func WattsRecipe(sulfate, chloride, boric Concentration) Recipe {
	s, _ := NickelSulfate(6)
	c, _ := NickelChloride(6)
	return Recipe{{Salt: s, Concentration: sulfate}, {Salt: c, Concentration: chloride}, {Salt: BoricAcid(), Concentration: boric}}
}

// Validate returns what is wrong with the recipe: no doses, a salt without a
// molar mass, or a concentration that is negative or not finite.
func (r Recipe) Validate() error {
	if len(r) == 0 {
		return fmt.Errorf("plating: recipe is empty")
	}
	for i, d := range r {
		if err := firstError(
			positive(fmt.Sprintf("molar mass of salt %d of the recipe", i+1), float64(d.Salt.MolarMass), inGramPerMole),
			notNegative("concentration of "+d.Salt.Name, float64(d.Concentration), inGramPerLitre),
			notNegative("solubility of "+d.Salt.Name, float64(d.Solubility), inGramPerLitre),
		); err != nil {
			return err
		}
		if d.Solubility > 0 && d.Concentration > d.Solubility {
			return fmt.Errorf("plating: recipe has %s of %s, over its solubility of %s: the rest falls out",
				inGramPerLitre.of(float64(d.Concentration)), d.Salt.Name, inGramPerLitre.of(float64(d.Solubility)))
		}
	}
	return nil
}

// Nickel returns the concentration of nickel metal.
func (r Recipe) Nickel() Concentration { return r.sum(Salt.NickelFraction) }

// Chloride returns the concentration of chloride.
func (r Recipe) Chloride() Concentration { return r.sum(Salt.ChlorideFraction) }

func (r Recipe) sum(fraction func(Salt) float64) Concentration {
	total := Concentration(0)
	for _, d := range r {
		total += d.Concentration * Concentration(fraction(d.Salt))
	}
	return total
}

// Weighed returns the mass of each dose for a volume of bath, in the recipe's
// order. Salts are stirred into about two thirds of the water, warm, and the
// volume made up at the end.
func (r Recipe) Weighed(volume unit.Volume) ([]unit.Mass, error) {
	if err := firstError(r.Validate(), positive("volume", float64(volume), inLitre)); err != nil {
		return nil, err
	}
	masses := make([]unit.Mass, len(r))
	for i, d := range r {
		masses[i] = unit.Mass(float64(d.Concentration) * float64(volume))
	}
	return masses, nil
}

// Instead returns the concentration of another salt that brings the same
// nickel: the same bath from the heptahydrate, say. Both salts must hold
// nickel.
func (d Dose) Instead(other Salt) (Dose, error) {
	if err := notNegative("concentration of "+d.Salt.Name, float64(d.Concentration), inGramPerLitre); err != nil {
		return Dose{}, err
	}
	if d.Salt.NickelFraction() == 0 || other.NickelFraction() == 0 {
		return Dose{}, fmt.Errorf("plating: %s and %s must both hold nickel to stand for one another", d.Salt.Name, other.Name)
	}
	return Dose{Salt: other, Concentration: d.Concentration * Concentration(d.Salt.NickelFraction()/other.NickelFraction())}, nil
}

// Moles returns the amount of substance of the salt in a litre of bath, in
// mol/L; zero for the zero value.
func (d Dose) Moles() float64 {
	if d.Salt.MolarMass <= 0 {
		return 0
	}
	return float64(d.Concentration) / float64(d.Salt.MolarMass) / 1000
}
