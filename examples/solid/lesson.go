// Package solid is the lesson "All round the part": the coat on the whole skin
// of a part in a box-shaped tank with its anodes, in three dimensions, seen from
// three sides.
package solid

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/examples/ownpart"
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

// The parts that can hang in the tank.
const (
	fourPlates = "four escutcheons, two by two"
	onePlate   = "one escutcheon"
	screw      = "a thumb screw"
	ownTurned  = "a turned part of your own"
	// ownFile cannot be chosen: a file that is given takes the part's place.
	ownFile = "a part of your own, from its file"
)

// The anodes and the meshes.
const (
	bothSides = "one on either side"
	oneSide   = "one, on the right"
	quick     = "quick"
	finer     = "finer"
)

// Point is a point of the turned part's profile.
type Point struct{ Place, Diameter unit.Length }

// Inputs is what the lesson asks for.
type Inputs struct {
	Part, Anodes, Mesh string
	// Own, when there is one, takes the place of Part.
	Own ownpart.Part
	// Distance is from the middle of the tank, where the part hangs, to the
	// face of an anode; Sideways is how far the anodes stand off the middle
	// across the tank.
	Distance, Sideways      unit.Length
	AnodeWidth, AnodeHeight unit.Length
	Mean, Burns             plating.CurrentDensity
	Time                    unit.Time
	// PlateLength hangs upright, PlateWidth lies across the tank.
	PlateLength, PlateWidth, PlateThickness, Rounding, Gap unit.Length
	// Points are the profile of a turned part, from its lower end upward.
	Points []Point
	// TankLength is from wall to wall behind the anodes, TankWidth across, and
	// TankDepth that of the bath.
	TankLength, TankWidth, TankDepth unit.Length
	Conductivity                     plating.Conductivity
	Tafel                            unit.Voltage
	Exchange                         plating.CurrentDensity
	Temperature                      unit.Temperature
	Efficiency                       float64
}

// Defaults returns run 3 of the action shop, as four escutcheons would hang two
// by two in its three-litre tank. How they hung, the tank's shape and the bath's
// conductivity and kinetics were not written down: they are set to what is
// usual. The turned part is a knob of the shop's.
func Defaults() Inputs {
	run := actionshop.PlatingLog()[2]
	return Inputs{
		Part: fourPlates, Anodes: bothSides, Mesh: quick, Own: ownpart.None(),
		Distance: 70 * mm, AnodeWidth: 60 * mm, AnodeHeight: 100 * mm,
		Mean: 3 * aDM2, Burns: 8 * aDM2, Time: run.Time,
		PlateLength: actionshop.EscutcheonLength, PlateWidth: actionshop.EscutcheonWidth, PlateThickness: actionshop.EscutcheonThickness,
		Rounding: 0.2 * mm, Gap: 20 * mm,
		Points:     []Point{{0, 6 * mm}, {14 * mm, 6 * mm}, {14 * mm, 12 * mm}, {22 * mm, 12 * mm}, {25 * mm, 8 * mm}},
		TankLength: 200 * mm, TankWidth: 120 * mm, TankDepth: 125 * mm,
		Conductivity: 8 * plating.SiemensPerMetre, Tafel: 0.12 * volt, Exchange: 0.001 * aDM2, Temperature: run.Bath, Efficiency: 0.95,
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "solid",
		Title:    "All round the part",
		Question: "Where on the whole part is the nickel thick and thin: face, edge, corner, head and shank?",
		Asked:    "I want to see the coat on the whole part, from all sides",
		Track:    notebook.Nickel,
		Summary:  "A part in a tank with its anodes, in three dimensions: the coat on every triangle of its skin from three sides, what burns, how even it is, and what the mesh leaves open.",
		Minutes:  15,
		After:    []string{"corners"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

var (
	lengths   = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	densities = []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}
)

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := []notebook.Field{
		notebook.Choice("part", &in.Part, notebook.Spec{Label: "Part", Help: "It hangs in the middle of the tank. The sizes stand further down.", Options: []string{fourPlates, onePlate, screw, ownTurned}}),
		notebook.Choice("anodes", &in.Anodes, notebook.Spec{Label: "Anodes", Help: "Plates 5 mm thick, their middle at the height of the part's.", Options: []string{bothSides, oneSide}}),
		notebook.Measure("distance", &in.Distance, notebook.Spec{Label: "Middle of the tank to the face of an anode", Help: "Type it, or drag the anode in the drawing.", Units: lengths, Limits: notebook.Between(10*mm, 1*unit.Metre)}),
		notebook.Measure("sideways", &in.Sideways, notebook.Spec{Label: "Anodes off the middle", Help: "Across the tank, away from you; below zero towards you.", Units: lengths, Limits: notebook.Between(-500*mm, 500*mm)}),
		notebook.Measure("mean", &in.Mean, notebook.Spec{Label: "Mean current density on the part", Help: "2 to 4 A/dm² suits a small nickel bath.", Units: densities, Limits: notebook.Between(0.05*aDM2, 50*aDM2)}),
		notebook.Measure("burns", &in.Burns, notebook.Spec{Label: "The bath burns at", Help: "The local current density at which a test panel turns dark and rough.", Units: densities, Limits: notebook.Between(0.1*aDM2, 200*aDM2)}),
		notebook.Measure("time", &in.Time, notebook.Spec{Label: "Time", Help: "Run 3 hung for 45 minutes.", Units: []notebook.Unit{notebook.Minute, notebook.Hour}, Limits: notebook.Between(1*unit.Second, 6000*minute)}),
		notebook.Choice("mesh", &in.Mesh, notebook.Spec{Label: "Mesh", Help: "The finer one has about twice the triangles and takes four times as long.", Options: []string{quick, finer}}),
	}
	fields = append(fields, notebook.Grouped("A part of your own, from a drawing program", in.Own.Fields("It hangs with its Z upright, its X towards the right anode, and takes the place of the part chosen above.")...)...)
	fields = append(fields, notebook.Grouped("The part's sizes", partFields(in)...)...)
	fields = append(fields, notebook.Grouped("Tank and anodes", tankFields(in)...)...)
	return append(fields, notebook.Grouped("What the bath does", bathFields(in)...)...)
}

// partFields binds the sizes of the parts.
func partFields(in *Inputs) []notebook.Field {
	size := notebook.Between(2*mm, 500*mm)
	return []notebook.Field{
		notebook.Measure("plate-length", &in.PlateLength, notebook.Spec{Label: "Plate, length", Help: "Upright.", Units: lengths, Limits: size}),
		notebook.Measure("plate-width", &in.PlateWidth, notebook.Spec{Label: "Plate, width", Help: "Across the tank.", Units: lengths, Limits: size}),
		notebook.Measure("plate-thickness", &in.PlateThickness, notebook.Spec{Label: "Plate, thickness", Help: "Bare.", Units: lengths, Limits: notebook.Between(0.4*mm, 50*mm)}),
		notebook.Measure("rounding", &in.Rounding, notebook.Spec{Label: "Plate, radius of edges and corners", Help: "0.2 mm is an edge broken with a file. A sharp edge has no answer.", Units: lengths, Limits: notebook.Between(0.05*mm, 20*mm), Decimals: 2}),
		notebook.Measure("gap", &in.Gap, notebook.Spec{Label: "Gap between four plates", Help: "Side by side and one above the other.", Units: lengths, Limits: notebook.Between(2*mm, 300*mm)}),
		notebook.Rows("points", &in.Points, notebook.Spec{Label: "Turned part, point by point", Help: "From the lower end upward; the ends are closed by flats.", MinRows: 2, MaxRows: 12},
			func(p *Point) []notebook.Field {
				return []notebook.Field{
					notebook.Measure("place", &p.Place, notebook.Spec{Label: "Place", Units: lengths, Limits: notebook.Between(0, 500*mm)}),
					notebook.Measure("diameter", &p.Diameter, notebook.Spec{Label: "Diameter", Units: lengths, Limits: notebook.Between(1*mm, 500*mm)}),
				}
			}),
	}
}

// tankFields binds the tank and the anodes' size.
func tankFields(in *Inputs) []notebook.Field {
	tank := notebook.Between(30*mm, 1*unit.Metre)
	return []notebook.Field{
		notebook.Measure("tank-length", &in.TankLength, notebook.Spec{Label: "Tank, from wall to wall behind the anodes", Help: "Inside.", Units: lengths, Limits: tank}),
		notebook.Measure("tank-width", &in.TankWidth, notebook.Spec{Label: "Tank, across", Help: "Inside.", Units: lengths, Limits: tank}),
		notebook.Measure("tank-depth", &in.TankDepth, notebook.Spec{Label: "Depth of the bath", Help: "From the floor to the surface.", Units: lengths, Limits: tank}),
		notebook.Measure("anode-width", &in.AnodeWidth, notebook.Spec{Label: "Anode, width", Help: "Across the tank.", Units: lengths, Limits: notebook.Between(5*mm, 1*unit.Metre)}),
		notebook.Measure("anode-height", &in.AnodeHeight, notebook.Spec{Label: "Anode, height", Help: "In the bath.", Units: lengths, Limits: notebook.Between(5*mm, 1*unit.Metre)}),
	}
}

// bathFields binds the bath.
func bathFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("conductivity", &in.Conductivity, notebook.Spec{Label: "Conductivity", Help: "7 to 10 S/m is said of nickel baths at 50 to 60 °C (from memory). A meter tells.", Units: []notebook.Unit{notebook.Siemens}, Limits: notebook.Between(0.1*plating.SiemensPerMetre, 100*plating.SiemensPerMetre)}),
		notebook.Measure("tafel", &in.Tafel, notebook.Spec{Label: "Overpotential for ten times the current density", Help: "0.10 to 0.13 V is said of nickel baths (from memory).", Units: []notebook.Unit{notebook.Millivolt, notebook.Volt}, Limits: notebook.Between(0.02*volt, 1*volt)}),
		notebook.Measure("exchange", &in.Exchange, notebook.Spec{Label: "Exchange current density", Help: "It sets the volts, hardly the shares.", Units: densities, Limits: notebook.Between(1e-8*aDM2, 1*aDM2), Decimals: 4}),
		notebook.Measure("temperature", &in.Temperature, notebook.Spec{Label: "Temperature", Help: "50 to 55 °C.", Units: []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}, Limits: notebook.Between(plating.Celsius(5), plating.Celsius(95))}),
		notebook.Measure("efficiency", &in.Efficiency, notebook.Spec{Label: "Cathode efficiency", Help: "93 to 96 % in good order; taken as the same everywhere.", Units: []notebook.Unit{notebook.Percent}, Limits: notebook.AboveUpTo(0.0, 1.0)}),
	}
}
