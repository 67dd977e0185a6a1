// Package panel is the lesson "One panel, every current density": reading the
// usable range of a bath off a test panel, and setting a part's current by it.
package panel

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	mm   = unit.Milli * unit.Metre
	aDM2 = plating.AmperePerSquareDecimetre
)

// Inputs is what the lesson asks for.
type Inputs struct {
	// Current through the panel.
	Current unit.Current
	// From and To are where the good deposit begins and ends, from the
	// high-current end; U is the standard uncertainty of either.
	From, To, U unit.Length
	// Thinnest and Thickest are the shares of the mean that the part to be
	// plated gets at its thinnest and thickest place.
	Thinnest, Thickest float64
	// Conductivity, Tafel, Exchange and Temperature are the bath's, for the cell
	// that is computed.
	Conductivity plating.Conductivity
	Tafel        unit.Voltage
	Exchange     plating.CurrentDensity
	Temperature  unit.Temperature
}

// Defaults returns a panel made up for this page, for a bath that burns at
// about 8 A/dm2 and turns dull below about 0.9, and the shares that the
// micrometer found on the action shop's escutcheons.
func Defaults() Inputs {
	return Inputs{
		Current: 2 * unit.Ampere, From: 17 * mm, To: 78 * mm, U: 1 * mm,
		Thinnest: 0.68, Thickest: 1.77,
		Conductivity: 8 * plating.SiemensPerMetre, Tafel: 0.12 * unit.Volt, Exchange: 0.001 * aDM2, Temperature: plating.Celsius(55),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "panel",
		Title:    "One panel, every current density",
		Question: "From which to which current density does this bath plate well?",
		Asked:    "I do not know how hard I may push my bath",
		Track:    notebook.Nickel,
		Summary:  "A slanted test panel shows burnt, bright and dull side by side. Where they meet, read off the current density, and set the part so that its edge and its middle both lie between.",
		Minutes:  12,
		After:    []string{"corners"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	place := notebook.Between(0, 102*mm)
	percent := []notebook.Unit{notebook.Percent}
	return []notebook.Field{
		notebook.Measure("current", &in.Current, notebook.Spec{Label: "Current through the panel",
			Help: "1 to 3 A for 5 to 10 minutes is usual.", Units: []notebook.Unit{notebook.Ampere}, Limits: notebook.Between(0.05*unit.Ampere, 20*unit.Ampere)}),
		notebook.Measure("from", &in.From, notebook.Spec{Label: "Good deposit begins at",
			Help: "From the high-current end, the one near the anode, along the middle of the panel. 0 if nothing is burnt.", Units: lengths, Limits: place}),
		notebook.Measure("to", &in.To, notebook.Spec{Label: "Good deposit ends at",
			Help: "From the same end. 102 mm is the whole panel.", Units: lengths, Limits: place}),
		notebook.Measure("u", &in.U, notebook.Spec{Label: "Standard uncertainty of a border",
			Help: "1 mm for a sharp border, 3 mm for one that fades.", Units: lengths, Limits: notebook.Between(0, 20*mm)}),
		notebook.Measure("thinnest", &in.Thinnest, notebook.Spec{Label: "The part's thinnest place gets",
			Help: "Of its mean. 68 % was measured at the middle of an escutcheon's face.", Units: percent, Limits: notebook.AboveUpTo(0.0, 1.0)}),
		notebook.Measure("thickest", &in.Thickest, notebook.Spec{Label: "The part's thickest place gets",
			Help: "Of its mean. 177 % was measured at an escutcheon's corner.", Units: percent, Limits: notebook.Between(1.0, 20.0)}),
		notebook.Measure("conductivity", &in.Conductivity, notebook.Spec{Label: "Conductivity of the bath",
			Help:  "For the computed cell. 7 to 10 S/m is said of nickel baths at 50 to 60 °C (from memory).",
			Units: []notebook.Unit{notebook.Siemens}, Limits: notebook.Between(0.1*plating.SiemensPerMetre, 100*plating.SiemensPerMetre)}),
		notebook.Measure("tafel", &in.Tafel, notebook.Spec{Label: "Overpotential for ten times the current density",
			Help:  "0.10 to 0.13 V is said of nickel baths (from memory).",
			Units: []notebook.Unit{notebook.Millivolt, notebook.Volt}, Limits: notebook.Between(0.02*unit.Volt, 1*unit.Volt)}),
		notebook.Measure("exchange", &in.Exchange, notebook.Spec{Label: "Exchange current density",
			Help: "It sets the volts, hardly the shares.", Units: []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2},
			Limits: notebook.Between(1e-8*aDM2, 1*aDM2), Decimals: 4}),
		notebook.Measure("temperature", &in.Temperature, notebook.Spec{Label: "Temperature of the cell",
			Help: "That of the bath it stands for.", Units: []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}, Limits: notebook.Between(plating.Celsius(5), plating.Celsius(95))}),
	}
}
