// Package corners is the lesson "Corners, faces and bores": where a plate in a
// small tank gets its nickel thick and thin, where it burns, and what another
// place of the anodes, a thief or a shield does.
package corners

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	mm     = unit.Milli * unit.Metre
	um     = unit.Micro * unit.Metre
	minute = 60 * unit.Second
	volt   = unit.Volt
	aDM2   = plating.AmperePerSquareDecimetre
)

// Inputs is what the lesson asks for.
type Inputs struct {
	// Width is the size of a plate along the cut, Through that of all plates
	// square to it, Thickness that of one plate, Rounding the radius of its
	// edges.
	Width, Through, Thickness, Rounding unit.Length
	// Count plates hang side by side in the cut, Gap apart.
	Count int
	Gap   unit.Length
	// TankLength is from wall to wall behind the anodes, TankWidth across.
	TankLength, TankWidth unit.Length
	// AnodeWidth is the size of an anode along the cut; Left and Right are the
	// distances from the plates' faces to the anodes' faces.
	AnodeWidth, Left, Right unit.Length
	// Conductivity, Tafel and Exchange are the bath's: conductivity, rise of
	// overpotential for a tenfold current density, and exchange current density.
	Conductivity plating.Conductivity
	Tafel        unit.Voltage
	Exchange     plating.CurrentDensity
	Temperature  unit.Temperature
	// Mean is the mean current density on the plates, Burns the local one at
	// which the bath burns.
	Mean, Burns plating.CurrentDensity
	Efficiency  float64
	Time        unit.Time
	// Wanted is the least thickness anywhere on the cut.
	Wanted unit.Length
	// Inside, Outside and Length are those of a sleeve, open at both ends.
	Inside, Outside, Length unit.Length
}

// Defaults returns run 3 of the action shop, as four escutcheons would hang two
// by two, upright, in its three-litre tank. How they hung, the tank's shape and
// the bath's conductivity and kinetics were not written down: they are set to
// what is usual.
func Defaults() Inputs {
	run := actionshop.PlatingLog()[2]
	return Inputs{
		Width: actionshop.EscutcheonWidth, Through: 2 * actionshop.EscutcheonLength, Thickness: actionshop.EscutcheonThickness,
		Rounding: 0.2 * mm, Count: 2, Gap: 20 * mm,
		TankLength: 200 * mm, TankWidth: 120 * mm,
		AnodeWidth: 60 * mm, Left: 70 * mm, Right: 70 * mm,
		Conductivity: 8 * plating.SiemensPerMetre, Tafel: 0.12 * volt, Exchange: 0.001 * aDM2, Temperature: run.Bath,
		Mean: 3 * aDM2, Burns: 8 * aDM2, Efficiency: 0.95, Time: run.Time, Wanted: 20 * um,
		Inside: 6 * mm, Outside: 9 * mm, Length: 28 * mm,
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "corners",
		Title:    "Corners, faces and bores",
		Question: "Where is the nickel thick, where is it thin, and what can I do about it?",
		Asked:    "My corners burn or my recesses stay bare",
		Track:    notebook.Nickel,
		Summary:  "The current in a tank computed from the shape of tank, anodes and plates: thickness along the plate, what burns, and what moving the anodes, a thief or a shield does.",
		Minutes:  20,
		After:    []string{"amps"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

var (
	lengths   = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	densities = []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}
)

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := plateFields(in)
	fields = append(fields, tankFields(in)...)
	fields = append(fields, bathFields(in)...)
	return append(fields, sleeveFields(in)...)
}

// plateFields binds the plates.
func plateFields(in *Inputs) []notebook.Field {
	size := notebook.Between(2*mm, 500*mm)
	return []notebook.Field{
		notebook.Measure("width", &in.Width, notebook.Spec{Label: "Plate, size along the cut",
			Help: "19 mm cuts an upright escutcheon across its middle; 44 mm cuts one along.", Units: lengths, Limits: size}),
		notebook.Measure("through", &in.Through, notebook.Spec{Label: "Plates, size square to the cut",
			Help: "All rows together: two escutcheons of 44 mm one above the other make 88 mm. It only sets the amps.", Units: lengths, Limits: size}),
		notebook.Measure("thickness", &in.Thickness, notebook.Spec{Label: "Thickness of the plate",
			Help: "Of the bare plate.", Units: lengths, Limits: notebook.Between(0.4*mm, 50*mm)}),
		notebook.Measure("rounding", &in.Rounding, notebook.Spec{Label: "Radius of its edges",
			Help: "0.2 mm is an edge broken with a file. A sharp edge has no smallest radius, and no answer.", Units: lengths, Limits: notebook.Between(0.05*mm, 20*mm), Decimals: 2}),
		notebook.Count("count", &in.Count, notebook.Spec{Label: "Plates side by side",
			Help: "In the cut. They shade one another's edges.", Limits: notebook.Between(1.0, 6.0)}),
		notebook.Measure("gap", &in.Gap, notebook.Spec{Label: "Gap between them",
			Help: "From edge to edge. Not used for one plate.", Units: lengths, Limits: notebook.Between(1*mm, 300*mm)}),
	}
}

// tankFields binds the tank and its anodes.
func tankFields(in *Inputs) []notebook.Field {
	tank := notebook.Between(30*mm, 1*unit.Metre)
	return []notebook.Field{
		notebook.Measure("tank-length", &in.TankLength, notebook.Spec{Label: "Tank, from wall to wall behind the anodes",
			Help: "Inside, at the height of the plates.", Units: lengths, Limits: tank}),
		notebook.Measure("tank-width", &in.TankWidth, notebook.Spec{Label: "Tank, across", Help: "Inside.", Units: lengths, Limits: tank}),
		notebook.Measure("anode-width", &in.AnodeWidth, notebook.Spec{Label: "Width of an anode",
			Help: "Across the tank; 5 mm thick, in the middle of its side.", Units: lengths, Limits: notebook.Between(5*mm, 1*unit.Metre)}),
		notebook.Measure("left", &in.Left, notebook.Spec{Label: "Plate to left anode",
			Help: "From face to face.", Units: lengths, Limits: notebook.Between(10*mm, 1*unit.Metre)}),
		notebook.Measure("right", &in.Right, notebook.Spec{Label: "Plate to right anode",
			Help: "From face to face.", Units: lengths, Limits: notebook.Between(10*mm, 1*unit.Metre)}),
	}
}

// bathFields binds the bath and the run.
func bathFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("conductivity", &in.Conductivity, notebook.Spec{Label: "Conductivity of the bath",
			Help:  "7 to 10 S/m is said of nickel baths at 50 to 60 °C (from memory). A meter tells.",
			Units: []notebook.Unit{notebook.Siemens}, Limits: notebook.Between(0.1*plating.SiemensPerMetre, 100*plating.SiemensPerMetre)}),
		notebook.Measure("tafel", &in.Tafel, notebook.Spec{Label: "Overpotential for ten times the current density",
			Help:  "0.10 to 0.13 V is said of nickel baths (from memory). More makes the coat more even.",
			Units: []notebook.Unit{notebook.Millivolt, notebook.Volt}, Limits: notebook.Between(0.02*volt, 1*volt)}),
		notebook.Measure("exchange", &in.Exchange, notebook.Spec{Label: "Exchange current density",
			Help: "It sets the volts, hardly the shares. Published figures lie decades apart.", Units: densities,
			Limits: notebook.Between(1e-8*aDM2, 1*aDM2), Decimals: 4}),
		notebook.Measure("temperature", &in.Temperature, notebook.Spec{Label: "Temperature of the bath",
			Help: "50 to 55 °C.", Units: []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}, Limits: notebook.Between(plating.Celsius(5), plating.Celsius(95))}),
		notebook.Measure("mean", &in.Mean, notebook.Spec{Label: "Mean current density on the plates",
			Help: "2 to 4 A/dm² suits a small nickel bath.", Units: densities, Limits: notebook.Between(0.05*aDM2, 50*aDM2)}),
		notebook.Measure("burns", &in.Burns, notebook.Spec{Label: "The bath burns at",
			Help: "The local current density at which a test panel turns dark and rough.", Units: densities, Limits: notebook.Between(0.1*aDM2, 200*aDM2)}),
		notebook.Measure("efficiency", &in.Efficiency, notebook.Spec{Label: "Cathode efficiency",
			Help: "93 to 96 % in good order; taken as the same everywhere.", Units: []notebook.Unit{notebook.Percent}, Limits: notebook.AboveUpTo(0.0, 1.0)}),
		notebook.Measure("time", &in.Time, notebook.Spec{Label: "Time", Help: "Run 3 hung for 45 minutes.",
			Units: []notebook.Unit{notebook.Minute, notebook.Hour}, Limits: notebook.Between(1*unit.Second, 6000*minute)}),
		notebook.Measure("wanted", &in.Wanted, notebook.Spec{Label: "Least thickness wanted anywhere",
			Help: "On the cut: plate until the thinnest place has it.", Units: []notebook.Unit{notebook.Micrometre, notebook.Thou}, Limits: notebook.Between(0.1*um, 500*um)}),
	}
}

// sleeveFields binds the sleeve whose bore is looked into.
func sleeveFields(in *Inputs) []notebook.Field {
	size := notebook.Between(0.5*mm, 300*mm)
	return []notebook.Field{
		notebook.Measure("inside", &in.Inside, notebook.Spec{Label: "Sleeve, bore", Help: "Diameter of the bore, open at both ends.", Units: lengths, Limits: size}),
		notebook.Measure("outside", &in.Outside, notebook.Spec{Label: "Sleeve, outside", Help: "Diameter.", Units: lengths, Limits: size}),
		notebook.Measure("sleeve-length", &in.Length, notebook.Spec{Label: "Sleeve, length", Help: "From end to end.", Units: lengths, Limits: size}),
	}
}
