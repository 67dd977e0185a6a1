package amps

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addChecks sets the law that the lesson uses beside published figures.
func (a answer) addChecks(sheet *notebook.Sheet) error {
	sheet.Add(notebook.CheckRow("check-faraday", "plating-faraday", plating.Faraday))
	if err := a.checkHour(sheet); err != nil {
		return err
	}
	return a.checkTable(sheet)
}

// checkHour checks mass and thickness for a charge.
func (a answer) checkHour(sheet *notebook.Sheet) error {
	hour, err := a.nickel.Mass(1*plating.AmpereHour, 1)
	if err != nil {
		return err
	}
	perMinute, err := plating.Coat{Deposit: a.nickel, CurrentDensity: 1 * plating.AmperePerSquareDecimetre, Time: 1 * minute, Efficiency: 1}.Solve()
	if err != nil {
		return err
	}
	thou, err := plating.Coat{Deposit: a.nickel, Area: 1 * plating.SquareFoot, Thickness: 1 * plating.Thou, Efficiency: 1}.Solve()
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-hour", "plating-nickel-ampere-hour", float64(hour/gram)),
		notebook.CheckRow("check-minute", "plating-nickel-ampere-minute", float64(perMinute.Thickness/um)),
		notebook.CheckRow("check-thou", "plating-nickel-thou", float64(thou.Charge/plating.AmpereHour)),
	)
	return nil
}

// checkTable checks rows of a printed table of minutes, made at 95.5 %.
func (a answer) checkTable(sheet *notebook.Sheet) error {
	const tableEfficiency = 0.955
	rows := []struct {
		name, id           string
		micrometres, asked float64 // um, A/dm2
	}{
		{"check-2um-half", "plating-2um-half", 2, 0.5},
		{"check-2um-two", "plating-2um-two", 2, 2},
		{"check-4um-four", "plating-4um-four", 4, 4},
		{"check-16um-two", "plating-16um-two", 16, 2},
	}
	for _, row := range rows {
		t, err := a.nickel.TimeFor(unit.Length(row.micrometres)*um, plating.CurrentDensity(row.asked)*plating.AmperePerSquareDecimetre, tableEfficiency)
		if err != nil {
			return err
		}
		sheet.Add(notebook.CheckRow(row.name, row.id, float64(t/minute)))
	}
	mass, err := a.nickel.MassOfCoat(2*um, 1*plating.SquareDecimetre)
	if err != nil {
		return err
	}
	sheet.Add(notebook.CheckRow("check-2um-mass", "plating-2um-mass", float64(mass/gram)))
	return nil
}

// addCautions adds what can hurt someone, each at its step.
func addCautions(sheet *notebook.Sheet) error {
	perCubicMetre := notebook.Same(notebook.Unit{Symbol: "mg/m³", Scale: 1e-6})
	limits := plating.NickelAirLimits()
	gas, err := plating.AirForHydrogen(2*unit.Ampere, 1, plating.Celsius(20)) // m3/s of the gas itself
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.Caution{Name: "caution-salts", Body: limits[0].Body + ", " + limits[2].Body,
			Text: notebook.Say("Nickel salts make the skin allergic, for life, and are treated as carcinogens when breathed. Nitrile gloves without pinholes, goggles, no food, no bare hands in the tank. Keep below boiling, keep a lid or floating balls on, and draw the air away from your face. Limits for nickel in air are {} (recommended) and {} (permitted, 8 h); your own country's law decides.",
				notebook.Exact(limits[0].Limit, perCubicMetre).WithDigits(2), notebook.Exact(limits[2].Limit, perCubicMetre).WithDigits(1))},
		notebook.Caution{Name: "caution-acid", Text: notebook.Plain("Acid goes into water, never water into acid. Never mix acid with bleach or with chlorinated cleaners: that makes chlorine.")},
		notebook.Caution{Name: "caution-supply", Text: notebook.Plain("Switch the supply off and unplug it before you hang or lift a part, work behind a residual-current device, and keep its case where nothing can drip on it.")},
		notebook.Caution{Name: "caution-hydrogen", Text: notebook.Say("The work gives off hydrogen: at 2 A it would be {} an hour if all the current made gas. Never seal the tank; no flame and no spark near it.",
			notebook.Exact(gas*3600, notebook.Same(notebook.Litre)).WithDigits(1))},
		notebook.Caution{Name: "caution-waste", Text: notebook.Plain("Bath, first rinse and wiping cloths are hazardous waste. Nothing goes down the drain; ask your local authority where they are taken.")},
		notebook.Caution{Name: "caution-steel", Body: "ASTM B850",
			Text: notebook.Plain("Hard steel can snap hours or days after plating. From about 31 HRC it must be baked at 190 to 220 °C soon after, and above 51 HRC it is not work for this bench: the table and its limits are in the standard.")},
	)
	return nil
}
