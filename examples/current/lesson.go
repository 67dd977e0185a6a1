// Package current is the lesson "Where the current goes": the current
// distribution on a taped coupon in a small tank as it follows from the place of
// the anode, how far the solver can be trusted, and how that is found out.
package current

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
	// Distance is from the coupon's face to the anode's, Sideways how far the
	// anode's middle stands off the coupon's, AnodeWidth its size.
	Distance, Sideways, AnodeWidth unit.Length
	// Width of the coupon along the cut, Height square to it.
	Width, Height unit.Length
	// TankLength is from the wall that the coupon is taped to, to the wall behind
	// the anode; TankWidth is across.
	TankLength, TankWidth unit.Length
	Mean                  plating.CurrentDensity
	Time                  unit.Time
	// Conductivity, Tafel (the rise of overpotential for a tenfold current
	// density), Exchange and Temperature are the bath's; the U are relative
	// standard uncertainties.
	Conductivity            plating.Conductivity
	ConductivityU           float64
	Tafel                   unit.Voltage
	TafelU                  float64
	Exchange                plating.CurrentDensity
	Temperature             unit.Temperature
	Efficiency, EfficiencyU float64
}

// Defaults returns a coupon of the action shop's run 6, taped flat to the wall of
// its tank so that one face takes nickel. Where the anode stood and what the bath
// conducts were not written down: they are set to what is usual.
func Defaults() Inputs {
	run := actionshop.PlatingLog()[5]
	return Inputs{Distance: 60 * mm, Sideways: 15 * mm, AnodeWidth: 40 * mm, Width: 50 * mm, Height: 25 * mm,
		TankLength: 120 * mm, TankWidth: 120 * mm, Mean: 3 * aDM2, Time: run.Time,
		Conductivity: 8 * plating.SiemensPerMetre, ConductivityU: 0.15, Tafel: 0.12 * volt, TafelU: 0.1, Exchange: 0.001 * aDM2, Temperature: run.Bath,
		Efficiency: 0.95, EfficiencyU: 0.01}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "current",
		Title:    "Where the current goes",
		Question: "If I move the anode, where does the nickel go, and how far can I trust a computer that says so?",
		Asked:    "I want to see what the anode's place does",
		Track:    notebook.Nickel,
		Summary:  "A coupon on the wall, an anode to push about, a shield and a thief: the coat along the coupon with its uncertainty, and the solver held against theory, against a finer mesh and against its own charge.",
		Minutes:  20,
		After:    []string{"corners"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

var (
	lengths   = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	densities = []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}
	percent   = []notebook.Unit{notebook.Percent}
)

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := []notebook.Field{
		notebook.Measure("distance", &in.Distance, notebook.Spec{Label: "Coupon to anode", Help: "From face to face. Push it and watch.", Units: lengths, Limits: notebook.Between(20*mm, 1*unit.Metre)}),
		notebook.Measure("sideways", &in.Sideways, notebook.Spec{Label: "Anode off the middle", Help: "Towards the right-hand edge of the coupon, as you face it from the anode; below zero to the left.", Units: lengths, Limits: notebook.Between(-500*mm, 500*mm)}),
		notebook.Measure("anode-width", &in.AnodeWidth, notebook.Spec{Label: "Width of the anode", Help: "Across the tank; it is 5 mm thick.", Units: lengths, Limits: notebook.Between(5*mm, 1*unit.Metre)}),
		notebook.Measure("mean", &in.Mean, notebook.Spec{Label: "Mean current density on the coupon", Help: "2 to 4 A/dm² suits a small nickel bath.", Units: densities, Limits: notebook.Between(0.05*aDM2, 50*aDM2)}),
		notebook.Measure("time", &in.Time, notebook.Spec{Label: "Time", Help: "Run 6 hung for 30 minutes.", Units: []notebook.Unit{notebook.Minute, notebook.Hour}, Limits: notebook.Between(1*unit.Second, 6000*minute)}),
	}
	fields = append(fields, notebook.Grouped("Coupon and tank", tankFields(in)...)...)
	return append(fields, notebook.Grouped("What the bath does, and how well it is known", bathFields(in)...)...)
}

// tankFields binds coupon and tank.
func tankFields(in *Inputs) []notebook.Field {
	tank := notebook.Between(50*mm, 1*unit.Metre)
	return []notebook.Field{
		notebook.Measure("width", &in.Width, notebook.Spec{Label: "Width of the coupon", Help: "Along the cut, between the tapes.", Units: lengths, Limits: notebook.Between(10*mm, 900*mm)}),
		notebook.Measure("height", &in.Height, notebook.Spec{Label: "Height of the coupon", Help: "It only sets the amps: the cut is the same all the way up.", Units: lengths, Limits: notebook.Between(5*mm, 1*unit.Metre)}),
		notebook.Measure("tank-length", &in.TankLength, notebook.Spec{Label: "Tank, from the coupon's wall to the one behind the anode", Help: "Inside.", Units: lengths, Limits: tank}),
		notebook.Measure("tank-width", &in.TankWidth, notebook.Spec{Label: "Tank, across", Help: "Inside.", Units: lengths, Limits: tank}),
	}
}

// bathFields binds the bath.
func bathFields(in *Inputs) []notebook.Field {
	doubt := notebook.Between(0.0, 0.5)
	return []notebook.Field{
		notebook.Measure("conductivity", &in.Conductivity, notebook.Spec{Label: "Conductivity", Help: "7 to 10 S/m is said of nickel baths at 50 to 60 °C (from memory). A meter tells.", Units: []notebook.Unit{notebook.Siemens}, Limits: notebook.Between(0.1*plating.SiemensPerMetre, 100*plating.SiemensPerMetre)}),
		notebook.Measure("conductivity-u", &in.ConductivityU, notebook.Spec{Label: "Its standard uncertainty", Help: "15 % for a remembered figure, 2 % by meter.", Units: percent, Limits: doubt}),
		notebook.Measure("tafel", &in.Tafel, notebook.Spec{Label: "Overpotential for ten times the current density", Help: "0.10 to 0.13 V is said of nickel baths (from memory).", Units: []notebook.Unit{notebook.Millivolt, notebook.Volt}, Limits: notebook.Between(0.02*volt, 1*volt)}),
		notebook.Measure("tafel-u", &in.TafelU, notebook.Spec{Label: "Its standard uncertainty", Help: "10 % covers what is said.", Units: percent, Limits: doubt}),
		notebook.Measure("exchange", &in.Exchange, notebook.Spec{Label: "Exchange current density", Help: "It sets the volts, hardly the shares.", Units: densities, Limits: notebook.Between(1e-8*aDM2, 1*aDM2), Decimals: 4}),
		notebook.Measure("temperature", &in.Temperature, notebook.Spec{Label: "Temperature", Help: "50 to 55 °C.", Units: []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}, Limits: notebook.Between(plating.Celsius(5), plating.Celsius(95))}),
		notebook.Measure("efficiency", &in.Efficiency, notebook.Spec{Label: "Cathode efficiency", Help: "93 to 96 % in good order; taken as the same everywhere.", Units: percent, Limits: notebook.AboveUpTo(0.0, 1.0)}),
		notebook.Measure("efficiency-u", &in.EfficiencyU, notebook.Spec{Label: "Its standard uncertainty", Help: "1 % when weighed, 3 % when not.", Units: percent, Limits: notebook.Between(0.0, 0.2)}),
	}
}
