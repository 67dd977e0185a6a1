package plating

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// AirLimit is a limit for nickel in the air that is breathed.
type AirLimit struct {
	// Body issued the limit and Name is its name.
	Body, Name string
	// What it covers.
	What string
	// Limit is the mass of nickel over the volume of air.
	Limit Concentration
	// Source says how the figure is known.
	Source string
}

// mgPerCubicMetre is the unit of limits in air.
const mgPerCubicMetre Concentration = 1e-6

// NickelAirLimits returns limits for nickel in air, lowest first. They differ
// by country and change: the law where the work is done decides.
func NickelAirLimits() []AirLimit {
	return []AirLimit{
		{"NIOSH (US)", "recommended exposure limit", "nickel metal and compounds, a potential occupational carcinogen", 0.015 * mgPerCubicMetre, "NIOSH page on nickel (read)"},
		{"HSE (UK)", "workplace exposure limit", "water-soluble nickel compounds, 8 h", 0.1 * mgPerCubicMetre, "UK guidance on nickel plating (read)"},
		{"OSHA (US)", "permissible exposure limit", "nickel metal, soluble and insoluble compounds, 8 h", 1 * mgPerCubicMetre, "OSHA chemical sampling page (read)"},
		{"NIOSH (US)", "immediately dangerous to life or health", "nickel metal and compounds", 10 * mgPerCubicMetre, "NIOSH page on nickel (read)"},
	}
}

// SewerNickelLimit returns the most nickel that a US metal finisher may put
// into a public sewer on any day, 3.98 mg/L (40 CFR 433.15, 2007 text, read).
// Local permits rule, and a hobby has none: bath and first rinse go to hazardous
// waste.
func SewerNickelLimit() Concentration { return 3.98e-3 * GramPerLitre }

// DilutionToLimit returns by how much a bath of the given nickel would have to
// be diluted to come to a limit. It is a way to see what a spill means, not a
// way to get rid of a bath: diluting to meet a limit is itself forbidden in
// many places.
func DilutionToLimit(nickel, limit Concentration) (float64, error) {
	if err := firstError(notNegative("nickel", float64(nickel), inGramPerLitre), positive("limit", float64(limit), inGramPerLitre)); err != nil {
		return 0, err
	}
	return max(1, float64(nickel/limit)), nil
}

// MistToLimit returns the volume of bath that, as mist in a room of the given
// volume and without any draught, brings the air to a limit.
func MistToLimit(room unit.Volume, nickel, limit Concentration) (unit.Volume, error) {
	if err := firstError(positive("volume of the room", float64(room), shown{"m3", 1}), positive("nickel in the bath", float64(nickel), inGramPerLitre),
		positive("limit", float64(limit), inGramPerLitre)); err != nil {
		return 0, err
	}
	return room * unit.Volume(limit/nickel), nil
}

// HydrogenLowerLimit is the volume fraction of hydrogen in air from which it can
// be lit, 4 % (common handbook figure, from memory).
const HydrogenLowerLimit = 0.04

// AirForHydrogen returns the flow of fresh air that keeps hydrogen, when all of
// a current made gas, below a fraction of the air: at most a quarter of
// [HydrogenLowerLimit] is usual (common practice). The fraction is above 0 and
// at most 1; the temperature is that of the air, at 101325 Pa.
func AirForHydrogen(current unit.Current, fraction float64, temperature unit.Temperature) (volumePerSecond float64, err error) {
	if !(fraction > 0 && fraction <= 1) {
		return 0, fmt.Errorf("plating: fraction of hydrogen in air is %.4g, must be above 0 and at most 1", fraction)
	}
	if err := firstError(notNegative("current", float64(current), inAmpere), positive("temperature", float64(temperature), shown{"K", 1})); err != nil {
		return 0, err
	}
	gas := float64(current) / (2 * Faraday) * gasConstant * float64(temperature) / 101325
	return gas / fraction, nil
}
