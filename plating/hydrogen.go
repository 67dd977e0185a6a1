package plating

import (
	"gonum.org/v1/gonum/unit"
)

// Hydrogen is the gas that the part of the current not used for metal makes at
// the cathode.
type Hydrogen struct {
	// Amount is the amount of H2 and Volume its volume as an ideal gas.
	Amount unit.Mole
	Volume unit.Volume
	// Acid is the amount of hydrogen ions, from acid, that the gas uses up.
	// When the anode dissolves at 100 % nothing puts it back, so the pH rises.
	Acid unit.Mole
}

// HydrogenFromCharge returns the hydrogen of a charge at a cathode efficiency
// above 0 and at most 1, taking all current that lays down no metal to make
// hydrogen: two electrons a molecule. Temperature and pressure, above zero, are
// those at which the volume is wanted.
func HydrogenFromCharge(charge unit.Charge, efficiency float64, temperature unit.Temperature, pressure unit.Pressure) (Hydrogen, error) {
	if err := firstError(
		notNegative("charge", float64(charge), inAmpereHour), fraction("efficiency", efficiency),
		positive("temperature", float64(temperature), shown{"K", 1}), positive("pressure", float64(pressure), shown{"Pa", 1}),
	); err != nil {
		return Hydrogen{}, err
	}
	electrons := float64(charge) * (1 - efficiency) / Faraday
	amount := electrons / 2
	return Hydrogen{
		Amount: unit.Mole(amount),
		Volume: unit.Volume(amount * gasConstant * float64(temperature) / float64(pressure)),
		Acid:   unit.Mole(electrons),
	}, nil
}
