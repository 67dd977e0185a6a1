package plating

// What a small bath gains and loses. Drag-out carries bath away on the parts
// and is made up with water; evaporation takes water only; the anode gives
// nickel and the cathode takes it; the hydrogen made at the cathode takes acid.
// Volume is held by topping up, so concentrations change and the volume does
// not.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// DragOut is what clings to the parts at each dip.
type DragOut struct {
	// PerArea is the volume carried over per area and dip, in metres (m3/m2):
	// 0.15 L/m2 is 0.15 mm, usual for flat parts that drain well (common
	// practice).
	PerArea unit.Length
	// Dips is how many times the area is lifted out.
	Dips int
}

// Volume returns the volume of bath that an area carries out.
func (d DragOut) Volume(area unit.Area) (unit.Volume, error) {
	if d.Dips < 0 {
		return 0, fmt.Errorf("plating: dips are %d, must be 0 or more", d.Dips)
	}
	if err := firstError(notNegative("drag-out", float64(d.PerArea), shown{"mL/dm2", 1e-4}), notNegative("area", float64(area), inSquareCM)); err != nil {
		return 0, err
	}
	return unit.Volume(float64(d.PerArea) * float64(area) * float64(d.Dips)), nil
}

// Bath is the state of a bath.
type Bath struct {
	Volume unit.Volume
	// Nickel is the concentration of nickel metal, Boric that of boric acid.
	Nickel, Boric Concentration
	// AcidLost is the amount of acid, as hydrogen ions, used up by hydrogen at
	// the cathode and carried out by nothing else: what has to be put back to
	// hold the pH, less what the anode and the air do.
	AcidLost unit.Mole
	// WaterAdded is all water that was put in since the start.
	WaterAdded unit.Volume
}

// Work is what a bath went through between two entries of its book.
type Work struct {
	// DragOut is the volume carried out, Evaporated the water lost to the air.
	DragOut, Evaporated unit.Volume
	// Charge is the charge passed, with the efficiencies of cathode and anode.
	Charge                             unit.Charge
	CathodeEfficiency, AnodeEfficiency float64
}

// After returns the bath after some work, topped up with water to its volume.
//
//	c(after) = c (1 - V(dragged)/V) + k Q (eta(anode) - eta(cathode)) / V
//
// for nickel, and without the second term for boric acid. It returns an error
// for a negative figure and when more is dragged out than there is.
func (b Bath) After(w Work) (Bath, error) {
	if err := firstError(
		positive("volume of the bath", float64(b.Volume), inLitre),
		notNegative("nickel in the bath", float64(b.Nickel), inGramPerLitre),
		notNegative("boric acid in the bath", float64(b.Boric), inGramPerLitre),
		notNegative("drag-out", float64(w.DragOut), inLitre),
		notNegative("evaporation", float64(w.Evaporated), inLitre),
		notNegative("charge", float64(w.Charge), inAmpereHour),
	); err != nil {
		return Bath{}, err
	}
	if w.DragOut+w.Evaporated > b.Volume {
		return Bath{}, fmt.Errorf("plating: drag-out and evaporation of %s are more than the bath's %s",
			inLitre.of(float64(w.DragOut+w.Evaporated)), inLitre.of(float64(b.Volume)))
	}
	gain := 0.0 // kg/m3
	if w.Charge > 0 {
		if err := firstError(fraction("cathode efficiency", w.CathodeEfficiency), fraction("anode efficiency", w.AnodeEfficiency)); err != nil {
			return Bath{}, err
		}
		surplus := w.AnodeEfficiency - w.CathodeEfficiency
		gain = float64(Nickel().Equivalent()) * float64(w.Charge) * surplus / float64(b.Volume)
		b.AcidLost += unit.Mole(float64(w.Charge) * surplus / Faraday)
	}
	keep := Concentration(1 - float64(w.DragOut/b.Volume))
	b.Nickel = b.Nickel*keep + Concentration(gain)
	b.Boric *= keep
	b.WaterAdded += w.DragOut + w.Evaporated
	if b.Nickel < 0 {
		return Bath{}, fmt.Errorf("plating: the work takes more nickel than the bath holds")
	}
	return b, nil
}

// sulfuricMolar is the molar mass of sulfuric acid, H2SO4, in kg/mol.
const sulfuricMolar = (2*weightH + weightS + 4*weightO) * 1e-3

// SulfuricAcid returns the mass of pure sulfuric acid that gives back an amount
// of hydrogen ions, two a molecule. Sulfuric acid goes into water, never water
// into acid, and into the bath only after it is diluted.
func SulfuricAcid(acid unit.Mole) (unit.Mass, error) {
	if err := notNegative("acid", float64(acid), shown{"mol", 1}); err != nil {
		return 0, err
	}
	return unit.Mass(float64(acid) / 2 * sulfuricMolar), nil
}

// DilutedVolume returns the volume of an acid solution that holds a mass of the
// pure acid. Strength is the mass fraction of acid in the solution, above 0 and
// at most 1, and density that of the solution.
func DilutedVolume(pure unit.Mass, strength float64, density Density) (unit.Volume, error) {
	if err := firstError(notNegative("mass of acid", float64(pure), inGram), fraction("strength of the acid", strength),
		positive("density of the acid", float64(density), inGramPerCM3)); err != nil {
		return 0, err
	}
	return unit.Volume(float64(pure) / (strength * float64(density))), nil
}

// DoseFromSample returns how much of a correcting solution the whole bath takes
// when a sample of it took some to come to the right pH. A bath is buffered, so
// its need cannot be computed from the pH: it is tried on a sample. Add half,
// stir, and measure again.
func DoseFromSample(dose, sample, bath unit.Volume) (unit.Volume, error) {
	if err := firstError(notNegative("dose of the sample", float64(dose), inLitre), positive("volume of the sample", float64(sample), inLitre),
		positive("volume of the bath", float64(bath), inLitre)); err != nil {
		return 0, err
	}
	if sample > bath {
		return 0, fmt.Errorf("plating: sample is %s, more than the bath's %s", inLitre.of(float64(sample)), inLitre.of(float64(bath)))
	}
	return dose * (bath / sample), nil
}

// AdditionByCharge returns the volume of an additive that is dosed by the
// charge passed: so much for every so many ampere hours.
func AdditionByCharge(dose unit.Volume, per, passed unit.Charge) (unit.Volume, error) {
	if err := firstError(notNegative("dose", float64(dose), inLitre), positive("charge that the dose is for", float64(per), inAmpereHour),
		notNegative("charge passed", float64(passed), inAmpereHour)); err != nil {
		return 0, err
	}
	return dose * unit.Volume(passed/per), nil
}

// DragOutFromAdditions returns the volume carried out of a bath over a time in
// which a substance that nothing else uses was added to hold its concentration:
// boric acid is the marker of a nickel bath (trade note, read).
func DragOutFromAdditions(added unit.Mass, held Concentration) (unit.Volume, error) {
	if err := firstError(notNegative("mass added", float64(added), inGram), positive("concentration held", float64(held), inGramPerLitre)); err != nil {
		return 0, err
	}
	return unit.Volume(float64(added) / float64(held)), nil
}

// RinseRatio returns by how much bath is diluted in the last of some rinse
// tanks in a row, water running against the parts, mixed well: with q the water
// over the drag-out,
//
//	1 + q + q^2 + ... + q^tanks
//
// by mass balance. One tank gives 1 + q.
func RinseRatio(waterOverDragOut float64, tanks int) (float64, error) {
	if tanks < 1 || tanks > 10 {
		return 0, fmt.Errorf("plating: rinse tanks are %d, must be 1 to 10", tanks)
	}
	if err := positive("water over drag-out", waterOverDragOut, inPlain); err != nil {
		return 0, err
	}
	ratio, power := 1.0, 1.0
	for range tanks {
		power *= waterOverDragOut
		ratio += power
	}
	if math.IsInf(ratio, 0) {
		return 0, fmt.Errorf("plating: water over drag-out is %.4g, too large to compute", waterOverDragOut)
	}
	return ratio, nil
}

// AnodeUse returns the nickel that an anode gives up for a charge at its
// efficiency, above 0 and at most 1.
func AnodeUse(charge unit.Charge, efficiency float64) (unit.Mass, error) {
	return Nickel().Deposit().Mass(charge, efficiency)
}

// Water's heats for [HeatUpTime] and [EvaporationPower].
const (
	waterHeat    = 4186.0 // J/(kg K), near 20 degrees Celsius (from memory)
	waterEvap    = 2.37e6 // J/kg at about 55 degrees Celsius (from memory)
	bathSpecific = 0.85   // heat capacity of a Watts-type bath by volume over that of water, about (common practice)
	waterDensity = 1000.0 // kg/m3
)

// HeatUpTime returns how long a heater takes to warm a bath, its losses taken
// as a steady power: the bath is counted as 0.85 of its volume of water, which
// is rough, so expect 10 % either way. It returns an error when the heater does
// not beat the losses.
func HeatUpTime(volume unit.Volume, from, to unit.Temperature, heater, loss unit.Power) (unit.Time, error) {
	watt := shown{"W", 1}
	if err := firstError(positive("volume of the bath", float64(volume), inLitre), positive("temperature at the start", float64(from), shown{"K", 1}),
		positive("temperature wanted", float64(to), shown{"K", 1}), positive("power of the heater", float64(heater), watt), notNegative("loss", float64(loss), watt)); err != nil {
		return 0, err
	}
	if to < from {
		return 0, fmt.Errorf("plating: temperature wanted is %.1f degrees Celsius, below the start's %.1f", float64(to)-273.15, float64(from)-273.15)
	}
	if heater <= loss {
		return 0, fmt.Errorf("plating: heater gives %s, must be above the loss of %s", watt.of(float64(heater)), watt.of(float64(loss)))
	}
	heat := float64(volume) * waterDensity * bathSpecific * waterHeat * float64(to-from)
	return unit.Time(heat / float64(heater-loss)), nil
}

// EvaporationPower returns the power that evaporation takes from a bath which
// loses a volume of water in a time. A lid or floating balls save it, and keep
// the mist down.
func EvaporationPower(water unit.Volume, time unit.Time) (unit.Power, error) {
	if err := firstError(notNegative("water evaporated", float64(water), inLitre), positive("time", float64(time), inMinute)); err != nil {
		return 0, err
	}
	return unit.Power(float64(water) * waterDensity * waterEvap / float64(time)), nil
}
