// Package amps is the lesson "Amps, minutes, microns": what to set on the supply
// and the clock for a thickness of nickel, how sure that is, and how a scale
// proves it.
package amps

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	mm     = unit.Milli * unit.Metre
	um     = unit.Micro * unit.Metre
	gram   = unit.Milli * unit.Kilogram
	minute = 60 * unit.Second
)

// Part is one kind of part on the rack.
type Part struct {
	Shape string
	// Length, Width and Third are what the shape needs of them; see shapes.
	Length, Width, Third *unit.Length
	Count                int
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Parts []Part
	// Good is how far a dimension may be off either way.
	Good unit.Length
	// BoreShare is at what share of the outside a bore is plated.
	BoreShare float64
	// Extra is area typed in as a whole, such as hooks and wire; nil when there
	// is none. ExtraU is its standard uncertainty as a fraction.
	Extra  *unit.Area
	ExtraU float64
	// Thickness is the mean wanted. Thinnest and Thickest are the shares of it
	// at the thinnest and the thickest place.
	Thickness          unit.Length
	Thinnest, Thickest float64
	// Density is the mean current density, used when Current is nil.
	Density plating.CurrentDensity
	Current *unit.Current
	// Burns is the current density at which this bath burns.
	Burns plating.CurrentDensity
	// Efficiency is the cathode efficiency, EfficiencyU its standard
	// uncertainty.
	Efficiency, EfficiencyU float64
	// SupplyStep is the step of the supply's reading, SupplyMost the most it
	// gives. Switching is how far the time may be off either way.
	SupplyStep, SupplyMost unit.Current
	Switching              unit.Time
	// The check run: current and time as read, the load before and after.
	RunCurrent    unit.Current
	RunTime       unit.Time
	Before, After unit.Mass
	// ScaleStep is the scale's step, Handling the standard uncertainty that
	// drying and touching add to a gain.
	ScaleStep, Handling unit.Mass
}

// Defaults returns the four escutcheons of the action shop's run 3.
func Defaults() Inputs {
	length, width, thickness := actionshop.EscutcheonLength, actionshop.EscutcheonWidth, actionshop.EscutcheonThickness
	run := actionshop.PlatingLog()[2]
	return Inputs{
		Parts: []Part{{Shape: shapePlate, Length: &length, Width: &width, Third: &thickness, Count: 4}},
		Good:  0.1 * mm, BoreShare: 0.13, ExtraU: 0.2,
		Thickness: 25 * um, Thinnest: 0.68, Thickest: 1.77,
		Density: 3 * plating.AmperePerSquareDecimetre, Burns: 8 * plating.AmperePerSquareDecimetre,
		Efficiency: 0.95, EfficiencyU: 0.01,
		SupplyStep: actionshop.SupplyStep, SupplyMost: 10 * unit.Ampere, Switching: 10 * unit.Second,
		RunCurrent: run.Current, RunTime: run.Time, Before: run.Before, After: run.After,
		ScaleStep: actionshop.ScaleStep, Handling: actionshop.ScaleHandling,
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "amps",
		Title:    "Amps, minutes, microns",
		Question: "How many amps, for how long, give this part the nickel it needs?",
		Asked:    "I have a part to plate",
		Track:    notebook.Nickel,
		Summary:  "From the parts on the rack to the current on the supply and the minutes on the clock, with the thickness to expect, how sure it is, and the gain on the scale that proves it.",
		Minutes:  15,
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := append(loadFields(in), coatFields(in)...)
	fields = append(fields, notebook.Grouped("The area, the spread of the coat and what the bath stands", spreadFields(in)...)...)
	fields = append(fields, notebook.Grouped("The supply and the clock", supplyFields(in)...)...)
	return append(fields, notebook.Grouped("A run that was weighed", weighingFields(in)...)...)
}

var (
	lengths   = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	masses    = []notebook.Unit{notebook.Gram, notebook.Ounce}
	amperes   = []notebook.Unit{notebook.Ampere}
	densities = []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}
	percent   = []notebook.Unit{notebook.Percent}
)

// loadFields binds what hangs on the rack.
func loadFields(in *Inputs) []notebook.Field {
	size := notebook.AboveUpTo(0, 2*unit.Metre)
	return []notebook.Field{
		notebook.Rows("parts", &in.Parts, notebook.Spec{Label: "Parts on the rack",
			Help:    "One row a kind of part. Plate: length, width, thickness. Rod or disc: length, diameter. Tube: length, outside, bore. Hexagon: length, across flats. Thread: length, diameter, pitch. Ball: diameter under width.",
			MinRows: 0, MaxRows: 20},
			func(p *Part) []notebook.Field {
				return []notebook.Field{
					notebook.Choice("shape", &p.Shape, notebook.Spec{Label: "Shape", Options: shapeNames()}),
					notebook.MeasureMaybe("length", &p.Length, notebook.Spec{Label: "Length", Units: lengths, Limits: size}),
					notebook.MeasureMaybe("width", &p.Width, notebook.Spec{Label: "Width or diameter", Units: lengths, Limits: size}),
					notebook.MeasureMaybe("third", &p.Third, notebook.Spec{Label: "Thickness, bore or pitch", Units: lengths, Limits: size}),
					notebook.Count("count", &p.Count, notebook.Spec{Label: "How many", Limits: notebook.Between(1.0, 1000.0)}),
				}
			}),
	}
}

// coatFields binds what is wanted.
func coatFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("thickness", &in.Thickness, notebook.Spec{Label: "Mean thickness wanted",
			Help:  "The mean over the whole area; the places below say what corners and faces get.",
			Units: []notebook.Unit{notebook.Micrometre, notebook.Thou}, Limits: notebook.AboveUpTo(0, 500*um)}),
		notebook.Measure("density", &in.Density, notebook.Spec{Label: "Mean current density",
			Help:  "2 to 4 A/dm² suits a small still nickel bath at 50 to 55 °C.",
			Units: densities, Limits: notebook.AboveUpTo(0, 100*plating.AmperePerSquareDecimetre)}),
		notebook.Measure("efficiency", &in.Efficiency, notebook.Spec{Label: "Cathode efficiency",
			Help:  "93 to 96 % for a nickel bath in good order; weigh a run to know.",
			Units: percent, Limits: notebook.AboveUpTo(0.0, 1.0)}),
	}
}

// spreadFields binds how well the area is known, how the coat spreads over it
// and what the bath and its efficiency allow.
func spreadFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("good", &in.Good, notebook.Spec{Label: "Dimensions good to, either way",
			Help:  "0.1 mm for a calliper on filed edges, 0.5 mm for a rule.",
			Units: lengths, Limits: notebook.Between(0, 20*mm)}),
		notebook.Measure("bore-share", &in.BoreShare, notebook.Spec{Label: "Bores counted at",
			Help:  "How thick a bore gets beside the outside. A narrow bore gets little: 13 % for the shop's sleeve, whose bore is five times as long as wide (lesson corners); 0 % for a plugged one.",
			Units: percent, Limits: notebook.Between(0.0, 1.0)}),
		notebook.MeasureMaybe("extra", &in.Extra, notebook.Spec{Label: "More area, typed in",
			Help:  "A cast or turned part from its drawing, or bare hooks and wire. Leave empty for none.",
			Units: []notebook.Unit{notebook.SquareCentimetre, notebook.SquareDecimetre, notebook.SquareInch}, Limits: notebook.AboveUpTo(0, 1*unit.Area(1))}),
		notebook.Measure("extra-u", &in.ExtraU, notebook.Spec{Label: "Standard uncertainty of that area",
			Help:  "5 % for a careful drawing or foil wrap, 20 % for a guess.",
			Units: percent, Limits: notebook.Between(0.0, 0.5)}),
		notebook.Measure("thinnest", &in.Thinnest, notebook.Spec{Label: "Thinnest place that matters gets",
			Help:  "Of the mean. 68 % was measured at the middle of an escutcheon's face; 100 % if you do not know.",
			Units: percent, Limits: notebook.AboveUpTo(0.0, 1.0)}),
		notebook.Measure("thickest", &in.Thickest, notebook.Spec{Label: "Thickest place gets",
			Help:  "Of the mean. 177 % was measured at an escutcheon's corner; 100 % if you do not know.",
			Units: percent, Limits: notebook.Between(1.0, 10.0)}),
		notebook.MeasureMaybe("current", &in.Current, notebook.Spec{Label: "Or the current itself",
			Help:  "Leave empty to let the current follow from the current density.",
			Units: amperes, Limits: notebook.AboveUpTo(0, 1000*unit.Ampere)}),
		notebook.Measure("burns", &in.Burns, notebook.Spec{Label: "The bath burns at",
			Help:  "Local current density at which a test strip comes out dark and rough. 7 A/dm² is the top of the usual range for the mean.",
			Units: densities, Limits: notebook.AboveUpTo(0, 200*plating.AmperePerSquareDecimetre)}),
		notebook.Measure("efficiency-u", &in.EfficiencyU, notebook.Spec{Label: "Standard uncertainty of the efficiency",
			Help:  "1 % when it was weighed this month, 2 % when not.",
			Units: percent, Limits: notebook.Between(0.0, 0.3)}),
	}
}

// supplyFields binds the supply and the clock.
func supplyFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("supply-step", &in.SupplyStep, notebook.Spec{Label: "Supply reads to",
			Help: "The last digit of its ammeter.", Units: amperes, Limits: notebook.AboveUpTo(0, 5*unit.Ampere)}),
		notebook.Measure("supply-most", &in.SupplyMost, notebook.Spec{Label: "Supply gives at most",
			Help: "From its plate.", Units: amperes, Limits: notebook.AboveUpTo(0, 1000*unit.Ampere)}),
		notebook.Measure("switching", &in.Switching, notebook.Spec{Label: "Time good to, either way",
			Help: "Switching on and off by hand: about 10 s.", Units: []notebook.Unit{notebook.Second, notebook.Minute}, Limits: notebook.Between(0, 10*minute)}),
	}
}

// weighingFields binds the check run.
func weighingFields(in *Inputs) []notebook.Field {
	load := notebook.AboveUpTo(0, 10*unit.Kilogram)
	return []notebook.Field{
		notebook.Measure("run-current", &in.RunCurrent, notebook.Spec{Label: "Check run: current as read",
			Help: "The mean over the run, from the supply's ammeter.", Units: amperes, Limits: notebook.AboveUpTo(0, 1000*unit.Ampere)}),
		notebook.Measure("run-time", &in.RunTime, notebook.Spec{Label: "Check run: time",
			Help: "From switching on to switching off.", Units: []notebook.Unit{notebook.Minute, notebook.Hour}, Limits: notebook.AboveUpTo(0, 100*60*minute)}),
		notebook.Measure("before", &in.Before, notebook.Spec{Label: "Load before",
			Help: "Clean and dry, with its wire if the wire is plated too.", Units: masses, Limits: load, Decimals: 2}),
		notebook.Measure("after", &in.After, notebook.Spec{Label: "Load after",
			Help: "Rinsed, dry, cool, with the same wire.", Units: masses, Limits: load, Decimals: 2}),
		notebook.Measure("scale-step", &in.ScaleStep, notebook.Spec{Label: "Scale reads to",
			Help: "The last digit of its display.", Units: masses, Limits: notebook.AboveUpTo(0, 10*gram)}),
		notebook.Measure("handling", &in.Handling, notebook.Spec{Label: "Handling adds",
			Help:  "Standard uncertainty of a gain from water, fingerprints and drift. Weigh one part ten times, wetting and drying it between.",
			Units: masses, Limits: notebook.Between(0, 10*gram)}),
	}
}
