package plating

// From burette and hydrometer back to what is in the bath. Nickel is titrated
// with EDTA, chloride with silver nitrate and boric acid, bound to mannitol,
// with sodium hydroxide; each reacts one to one (common practice). Chloride has
// an old indicator that is a chromate: use one without hexavalent chromium, or a
// silver electrode.

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/unit"
)

// AmountConcentration is an amount of substance over a volume in mol/m3.
type AmountConcentration float64

// MolePerLitre is the unit on a bottle of titrant: 1 mol/L.
const MolePerLitre AmountConcentration = 1000

var (
	inMillilitre   = shown{"mL", 1e-6}
	inMolePerLitre = shown{"mol/L", 1000}
)

// Titration is one burette reading.
type Titration struct {
	// Sample is the volume of bath in the flask, before it was thinned with
	// water; Used is the titrant that it took and Blank what a flask without bath
	// takes.
	Sample, Used, Blank unit.Volume
	// Strength of the titrant.
	Strength AmountConcentration
	// SampleU and UsedU are standard uncertainties; the blank's is in UsedU.
	SampleU, UsedU unit.Volume
	StrengthU      AmountConcentration
}

// Titrated is what a titration says of the bath.
type Titrated struct {
	Concentration, U Concentration
	// Shares says what sample, burette and titrant contribute to U, in kg/m3.
	Shares []Share
}

// Nickel returns the nickel metal in the bath from a titration with EDTA.
func (t Titration) Nickel() (Titrated, error) { return t.of(weightNi) }

// Chloride returns the chloride in the bath from a titration with silver
// nitrate.
func (t Titration) Chloride() (Titrated, error) { return t.of(weightCl) }

// BoricAcid returns the boric acid in the bath from a titration with sodium
// hydroxide after mannitol, between the two end points: what the free acid of
// the bath took before mannitol goes into Blank.
func (t Titration) BoricAcid() (Titrated, error) {
	return t.of(float64(BoricAcid().MolarMass / GramPerMole))
}

// of returns the concentration of a substance of a molar mass in g/mol that
// reacts one to one:
//
//	c = M C (V(used) - V(blank)) / V(sample)
func (t Titration) of(molar float64) (Titrated, error) {
	if err := firstError(
		positive("volume of the sample", float64(t.Sample), inMillilitre),
		notNegative("titrant used", float64(t.Used), inMillilitre),
		notNegative("blank", float64(t.Blank), inMillilitre),
		positive("strength of the titrant", float64(t.Strength), inMolePerLitre),
		notNegative("uncertainty of the sample", float64(t.SampleU), inMillilitre),
		notNegative("uncertainty of the titrant used", float64(t.UsedU), inMillilitre),
		notNegative("uncertainty of the titrant's strength", float64(t.StrengthU), inMolePerLitre),
	); err != nil {
		return Titrated{}, err
	}
	net := float64(t.Used - t.Blank)
	if net < 0 {
		return Titrated{}, fmt.Errorf("plating: titrant used is %s, less than the blank's %s", inMillilitre.of(float64(t.Used)), inMillilitre.of(float64(t.Blank)))
	}
	each := molar * float64(GramPerMole) * float64(t.Strength) / float64(t.Sample)
	c := each * net
	shares := []Share{
		{"sample", c * float64(t.SampleU/t.Sample)},
		{"burette", each * float64(t.UsedU)},
		{"titrant", c * float64(t.StrengthU/t.Strength)},
	}
	return Titrated{Concentration(c), Concentration(rootSum(shares)), shares}, nil
}

// rootSum returns the root of the sum of the squares of shares.
func rootSum(shares []Share) float64 {
	u := 0.0
	for _, s := range shares {
		u = math.Hypot(u, s.U)
	}
	return u
}

// Analysis is what is dissolved in a Watts-type bath, with standard
// uncertainties.
type Analysis struct {
	Nickel, NickelU     Concentration
	Chloride, ChlorideU Concentration
	Boric, BoricU       Concentration
}

// SaltFound is one salt of a bath as analysed.
type SaltFound struct {
	Salt             Salt
	Concentration, U Concentration
}

// Salts returns the nickel sulfate hexahydrate, nickel chloride hexahydrate and
// boric acid that make up the analysis: all chloride is counted to nickel
// chloride, and the nickel that is left to nickel sulfate. It returns an error
// for a figure that is negative, or when the chloride wants more nickel than
// there is by over twice the standard uncertainty; within that the sulfate is
// given as it comes out.
func (a Analysis) Salts() ([]SaltFound, error) {
	if err := firstError(
		notNegative("nickel", float64(a.Nickel), inGramPerLitre), notNegative("uncertainty of nickel", float64(a.NickelU), inGramPerLitre),
		notNegative("chloride", float64(a.Chloride), inGramPerLitre), notNegative("uncertainty of chloride", float64(a.ChlorideU), inGramPerLitre),
		notNegative("boric acid", float64(a.Boric), inGramPerLitre), notNegative("uncertainty of boric acid", float64(a.BoricU), inGramPerLitre),
	); err != nil {
		return nil, err
	}
	sulfate, _ := NickelSulfate(6)
	chloride, _ := NickelChloride(6)
	perChloride := 1 / chloride.ChlorideFraction()
	bound := chloride.NickelFraction() * perChloride // nickel that goes with chloride, by mass
	perNickel := 1 / sulfate.NickelFraction()
	free := float64(a.Nickel) - bound*float64(a.Chloride)
	freeU := math.Hypot(float64(a.NickelU), bound*float64(a.ChlorideU))
	if free < -2*freeU {
		return nil, fmt.Errorf("plating: chloride of %s wants %s of nickel, but only %s was found: other chlorides are in the bath, or a titration is off",
			inGramPerLitre.of(float64(a.Chloride)), inGramPerLitre.of(bound*float64(a.Chloride)), inGramPerLitre.of(float64(a.Nickel)))
	}
	return []SaltFound{
		{sulfate, Concentration(free * perNickel), Concentration(freeU * perNickel)},
		{chloride, a.Chloride * Concentration(perChloride), a.ChlorideU * Concentration(perChloride)},
		{BoricAcid(), a.Boric, a.BoricU},
	}, nil
}

// Addition is what a bath takes of one salt to come back to its recipe.
type Addition struct {
	Salt Salt
	// Found and Wanted are its concentrations, FoundU the standard uncertainty.
	Found, FoundU, Wanted Concentration
	// Mass to add and its standard uncertainty. Below zero the bath holds so
	// much more than the recipe: nothing is added, and only drag-out or dilution
	// takes it out.
	Mass, MassU unit.Mass
}

// Clear reports whether the addition, or the surplus, stands out of the doubt of
// the analysis by twice its standard uncertainty: within it leave the bath be.
func (a Addition) Clear() bool { return math.Abs(float64(a.Mass)) > 2*float64(a.MassU) }

// Additions returns what a bath of a volume takes to come back from an analysis
// to a recipe of the same three salts, as [WattsRecipe] makes it. The volume is
// taken as held: fill up with water last. Add half, stir, and analyse again.
func (a Analysis) Additions(recipe Recipe, volume unit.Volume) ([]Addition, error) {
	found, err := a.Salts()
	if err := firstError(err, recipe.Validate(), positive("volume of the bath", float64(volume), inLitre)); err != nil {
		return nil, err
	}
	wanted := make(map[string]Concentration)
	for _, d := range recipe {
		wanted[d.Salt.Formula] += d.Concentration
	}
	additions := make([]Addition, len(found))
	for i, f := range found {
		want, ok := wanted[f.Salt.Formula]
		if !ok {
			return nil, fmt.Errorf("plating: the recipe holds no %s (%s)", f.Salt.Name, f.Salt.Formula)
		}
		additions[i] = Addition{f.Salt, f.Concentration, f.U, want,
			unit.Mass(float64(want-f.Concentration) * float64(volume)), unit.Mass(float64(f.U) * float64(volume))}
	}
	for _, d := range recipe {
		if !slices.ContainsFunc(found, func(f SaltFound) bool { return f.Salt.Formula == d.Salt.Formula }) {
			return nil, fmt.Errorf("plating: the recipe holds %s, which this analysis does not find", d.Salt.Formula)
		}
	}
	return additions, nil
}

// StrengthByDensity returns how much salt a bath holds, all salts together, as a
// share of the fresh bath's, from its density by a hydrometer and those of the
// fresh bath and of water, all at one temperature:
//
//	strength = (rho - rho(water)) / (rho(fresh) - rho(water))
//
// on a straight line, which is good for the small steps of bath keeping. densityU
// is the standard uncertainty of one reading, in both bath densities. A
// hydrometer cannot tell nickel from sodium or any other salt: titrate.
func StrengthByDensity(measured, fresh, water, densityU Density) (strength, u float64, err error) {
	if err := firstError(positive("density measured", float64(measured), inGramPerCM3), positive("density of the fresh bath", float64(fresh), inGramPerCM3),
		positive("density of water", float64(water), inGramPerCM3), notNegative("uncertainty of the density", float64(densityU), inGramPerCM3)); err != nil {
		return 0, 0, err
	}
	span := float64(fresh - water)
	if span <= 0 {
		return 0, 0, fmt.Errorf("plating: density of the fresh bath is %s, must be above water's %s", inGramPerCM3.of(float64(fresh)), inGramPerCM3.of(float64(water)))
	}
	strength = float64(measured-water) / span
	return strength, float64(densityU) / span * math.Hypot(1, strength), nil
}

// FallsOut returns the mass of a substance that falls out of a bath when it
// cools to where only so much stays dissolved, zero when all of it does. The
// solubility is an input, at the temperature and in the bath at hand: that of
// boric acid falls with cold, and no figure for a nickel bath was read.
func FallsOut(held, solubility Concentration, volume unit.Volume) (unit.Mass, error) {
	if err := firstError(notNegative("concentration held", float64(held), inGramPerLitre), notNegative("solubility", float64(solubility), inGramPerLitre),
		positive("volume of the bath", float64(volume), inLitre)); err != nil {
		return 0, err
	}
	return unit.Mass(math.Max(0, float64(held-solubility)) * float64(volume)), nil
}
