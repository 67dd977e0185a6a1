package plating

import (
	"fmt"
	"math"
)

// avogadro and elementaryCharge are exact by the definition of the SI
// (BIPM, The International System of Units, 9th edition, 2019, section 2.2).
const (
	avogadro         = 6.02214076e23   // 1/mol
	elementaryCharge = 1.602176634e-19 // C
)

// Faraday is the charge of one mole of electrons in C/mol: the product of the
// exact SI values of the Avogadro constant and the elementary charge
// (96485.33212..., CODATA 2018 and 2022).
const Faraday = avogadro * elementaryCharge

// Metal is a pure metal as it is laid down from a bath.
type Metal struct {
	Name   string
	Symbol string
	// MolarMass is the standard atomic weight.
	MolarMass MolarMass
	// Valence is the number of electrons that lay down one atom.
	Valence int
	// Density is that of the massive metal at 20 degrees Celsius, DensityU its
	// standard uncertainty as a figure for a sound deposit. Deposits with
	// additives can be a few per cent lighter.
	Density, DensityU Density
	// MolarMassSource and DensitySource say where the two figures are from and
	// how they are known.
	MolarMassSource, DensitySource string
}

// iupac is the source of the atomic weights: the figures were read in open
// tables that cite it; the last digits of gold are from memory.
const iupac = "IUPAC, Meija et al., Pure Appl. Chem. 88 (2016) 265, standard atomic weights (read)"

// elementTable is the source of the densities that were read.
const elementTable = "open element table, density at 20 degrees Celsius (read)"

// Nickel returns divalent nickel. Its density is 8.908 g/cm3 from memory of
// handbooks; figures of 8.90, 8.902 and 8.907 were read, and the standard
// uncertainty covers them.
func Nickel() Metal {
	return Metal{Name: "nickel", Symbol: "Ni", MolarMass: 58.6934 * GramPerMole, Valence: 2,
		Density: 8.908 * GramPerCubicCentimetre, DensityU: 0.004 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: "handbook figure 8.908 g/cm3 (from memory; 8.90 to 8.907 read)"}
}

// Copper returns copper from an acid (divalent) bath.
func Copper() Metal {
	return Metal{Name: "copper", Symbol: "Cu", MolarMass: 63.546 * GramPerMole, Valence: 2,
		Density: 8.96 * GramPerCubicCentimetre, DensityU: 0.02 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: elementTable}
}

// Zinc returns divalent zinc.
func Zinc() Metal {
	return Metal{Name: "zinc", Symbol: "Zn", MolarMass: 65.38 * GramPerMole, Valence: 2,
		Density: 7.14 * GramPerCubicCentimetre, DensityU: 0.01 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: "plating tables, 7.14 g/cm3 (read; an open element table has 7.133)"}
}

// Tin returns tin from an acid (divalent) bath.
func Tin() Metal {
	return Metal{Name: "tin", Symbol: "Sn", MolarMass: 118.710 * GramPerMole, Valence: 2,
		Density: 7.31 * GramPerCubicCentimetre, DensityU: 0.02 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: elementTable}
}

// Silver returns monovalent silver, as a number: its usual baths are outside
// this package.
func Silver() Metal {
	return Metal{Name: "silver", Symbol: "Ag", MolarMass: 107.8682 * GramPerMole, Valence: 1,
		Density: 10.50 * GramPerCubicCentimetre, DensityU: 0.01 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: elementTable}
}

// Gold returns monovalent gold, as a number: its usual baths are outside this
// package.
func Gold() Metal {
	return Metal{Name: "gold", Symbol: "Au", MolarMass: 196.96657 * GramPerMole, Valence: 1,
		Density: 19.3 * GramPerCubicCentimetre, DensityU: 0.05 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: elementTable}
}

// Cobalt returns divalent cobalt, which is laid down with nickel in some
// alloys.
func Cobalt() Metal {
	return Metal{Name: "cobalt", Symbol: "Co", MolarMass: 58.933194 * GramPerMole, Valence: 2,
		Density: 8.9 * GramPerCubicCentimetre, DensityU: 0.05 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: "plating supplier's table, 8.9 g/cm3 (read)"}
}

// Iron returns divalent iron, which is laid down with nickel in some alloys.
func Iron() Metal {
	return Metal{Name: "iron", Symbol: "Fe", MolarMass: 55.845 * GramPerMole, Valence: 2,
		Density: 7.87 * GramPerCubicCentimetre, DensityU: 0.02 * GramPerCubicCentimetre,
		MolarMassSource: iupac, DensitySource: "handbook figure 7.87 g/cm3 (from memory)"}
}

// validate returns what is wrong with the metal's figures.
func (m Metal) validate() error {
	if m.Valence < 1 {
		return fmt.Errorf("plating: valence of %q is %d, must be 1 or more", m.Name, m.Valence)
	}
	return firstError(
		positive("molar mass of "+m.Name, float64(m.MolarMass), inGramPerMole),
		positive("density of "+m.Name, float64(m.Density), inGramPerCM3),
		notNegative("standard uncertainty of the density of "+m.Name, float64(m.DensityU), inGramPerCM3),
	)
}

// Equivalent returns the electrochemical equivalent of the metal in kg/C:
//
//	k = M / (n F)
//
// with molar mass M in kg/mol, valence n and Faraday constant F in C/mol. It
// returns NaN for a metal without a valence.
func (m Metal) Equivalent() Equivalent {
	if m.Valence < 1 {
		return Equivalent(math.NaN())
	}
	return Equivalent(float64(m.MolarMass) / (float64(m.Valence) * Faraday))
}

// Deposit is what Faraday's law needs to know of a metal or an alloy.
type Deposit struct {
	Name string
	// Equivalent is the mass laid down by a charge at 100 % efficiency.
	Equivalent Equivalent
	// Density is that of the deposit and DensityU its standard uncertainty.
	Density, DensityU Density
}

// Deposit returns the metal as a deposit.
func (m Metal) Deposit() Deposit {
	return Deposit{Name: m.Name, Equivalent: m.Equivalent(), Density: m.Density, DensityU: m.DensityU}
}

// validate returns what is wrong with the deposit's figures.
func (d Deposit) validate() error {
	return firstError(
		positive("electrochemical equivalent of the deposit "+d.Name, float64(d.Equivalent), inGramPerAmpHour),
		positive("density of the deposit "+d.Name, float64(d.Density), inGramPerCM3),
		notNegative("standard uncertainty of the density of the deposit "+d.Name, float64(d.DensityU), inGramPerCM3),
	)
}

// AlloyShare is one metal of an alloy and its share, by mass or by mole.
type AlloyShare struct {
	Metal Metal
	Share float64
}

// AlloyByMass returns the deposit of an alloy whose shares are mass fractions.
// The charge of a kilogram is the sum of its metals' charges:
//
//	1/k = sum of w / k(metal)
//
// When density is zero that of an ideal mixture of volumes is taken, 1/rho =
// sum of w / rho(metal), with a standard uncertainty of 1 % because real alloys
// shrink or swell; otherwise the given density is taken as exact.
//
// The shares must be above zero and sum to 1 within 0.001; they are scaled to
// sum to 1 exactly.
func AlloyByMass(name string, density Density, shares ...AlloyShare) (Deposit, error) {
	return alloy(name, density, shares, func(AlloyShare) float64 { return 1 })
}

// AlloyByMole returns the deposit of an alloy whose shares are mole fractions;
// see [AlloyByMass] for the rest.
func AlloyByMole(name string, density Density, shares ...AlloyShare) (Deposit, error) {
	return alloy(name, density, shares, func(s AlloyShare) float64 { return float64(s.Metal.MolarMass) })
}

// alloy mixes metals whose share times weight is proportional to their mass.
func alloy(name string, density Density, shares []AlloyShare, weight func(AlloyShare) float64) (Deposit, error) {
	if len(shares) == 0 {
		return Deposit{}, fmt.Errorf("plating: alloy %q has no metals", name)
	}
	if err := notNegative("density of alloy "+name, float64(density), inGramPerCM3); err != nil {
		return Deposit{}, err
	}
	sum, mass := 0.0, 0.0
	for _, s := range shares {
		if err := firstError(s.Metal.validate(), fraction("share of "+s.Metal.Name+" in "+name, s.Share)); err != nil {
			return Deposit{}, err
		}
		sum += s.Share
		mass += s.Share * weight(s)
	}
	if math.Abs(sum-1) > 1e-3 {
		return Deposit{}, fmt.Errorf("plating: shares of alloy %q sum to %.4g, must sum to 1", name, sum)
	}
	chargePerMass, volumePerMass := 0.0, 0.0
	for _, s := range shares {
		w := s.Share * weight(s) / mass
		chargePerMass += w / float64(s.Metal.Equivalent())
		volumePerMass += w / float64(s.Metal.Density)
	}
	d := Deposit{Name: name, Equivalent: Equivalent(1 / chargePerMass), Density: density}
	if density == 0 {
		d.Density = Density(1 / volumePerMass)
		d.DensityU = d.Density / 100
	}
	return d, nil
}
