// Package defects is the lesson "What went wrong with this piece?": the causes of
// a plating defect, ranked by what is known of the run, and the next test.
package defects

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// notKnown is how a question that was not looked into is answered.
const notKnown = "not known"

// Inputs is what the lesson asks for.
type Inputs struct {
	Defect string
	// Mean is the mean current density, Thickest the share at the thickest
	// place, Burns the current density at which the bath burns.
	Mean     plating.CurrentDensity
	Thickest float64
	Burns    plating.CurrentDensity
	// Bath is nil and PH is 0 when they were not measured; so are Nickel and
	// Boric.
	Bath          *unit.Temperature
	PH            float64
	Nickel, Boric *plating.Concentration
	// The questions are answered yes, no or not known.
	Interrupted, Stirred, Bagged, Purged, Activated string
	// Local is the thickness on the place that has to fit, Room the allowance
	// for it, Thread whether it is a thread's pitch diameter.
	Local, Room *unit.Length
	Thread      string
	// Weighed and Counted are efficiencies, 0 when not known.
	Weighed, Counted float64
	// PanelCurrent and PanelBurnt are those of a test panel: it is burnt from
	// its high end to there.
	PanelCurrent unit.Current
	PanelBurnt   unit.Length
}

// Defaults returns the action shop's run 5, which burnt.
func Defaults() Inputs {
	run := actionshop.PlatingLog()[4]
	bath := run.Bath
	return Inputs{
		Defect: string(plating.BurntCorners),
		Mean:   9 * plating.AmperePerSquareDecimetre, Thickest: 1.77, Burns: 8 * plating.AmperePerSquareDecimetre,
		Bath: &bath, PH: run.PH,
		Interrupted: notKnown, Stirred: notKnown, Bagged: string(plating.Yes), Purged: notKnown, Activated: notKnown,
		Thread: feature(true), PanelCurrent: 2 * unit.Ampere, PanelBurnt: 16 * mm,
	}
}

// The features that a fit can be of.
const (
	featureThread   = "pitch diameter of a 60° thread"
	featureDiameter = "plain diameter"
)

func feature(thread bool) string {
	if thread {
		return featureThread
	}
	return featureDiameter
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "defects",
		Title:    "What went wrong with this piece?",
		Question: "It came out burnt, pitted, hazy or peeling: what is the cause, and what do I try first?",
		Asked:    "My nickel came out wrong",
		Track:    notebook.Nickel,
		Summary:  "Causes of a defect ranked by what you know of the run, the test that tells them apart, and a test panel that shows where the bath burns.",
		Minutes:  12,
		After:    []string{"panel", "threelitres"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	densities := []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}
	answers := []string{notKnown, string(plating.Yes), string(plating.No)}
	var names []string
	for _, d := range plating.Defects() {
		names = append(names, string(d))
	}
	fields := []notebook.Field{
		notebook.Choice("defect", &in.Defect, notebook.Spec{Label: "What you see", Options: names, Help: "Look with a lens before you choose."}),
		notebook.Measure("mean", &in.Mean, notebook.Spec{Label: "Mean current density", Help: "Current over wetted area.", Units: densities, Limits: notebook.Between(0, 100*plating.AmperePerSquareDecimetre)}),
		notebook.Measure("thickest", &in.Thickest, notebook.Spec{Label: "Thickest place gets", Help: "Of the mean. 177 % was measured at an escutcheon's corner.",
			Units: []notebook.Unit{notebook.Percent}, Limits: notebook.Between(1.0, 10.0)}),
		notebook.Measure("burns", &in.Burns, notebook.Spec{Label: "The bath burns at", Help: "From a panel, below, or 0 when you do not know.", Units: densities, Limits: notebook.Between(0, 200*plating.AmperePerSquareDecimetre)}),
		notebook.MeasureMaybe("bath", &in.Bath, notebook.Spec{Label: "Temperature of the bath", Help: "Leave empty when not measured.",
			Units: []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}, Limits: notebook.Between(plating.Celsius(0), plating.Celsius(100))}),
		notebook.Number("ph", &in.PH, notebook.Spec{Label: "pH of the bath", Help: "0 when not measured.", Limits: notebook.Between(0.0, 14.0)}),
		notebook.MeasureMaybe("nickel", &in.Nickel, notebook.Spec{Label: "Nickel metal", Help: "From an analysis. Leave empty when not known.",
			Units: []notebook.Unit{notebook.GramPerLitre}, Limits: notebook.AboveUpTo(0, 300*plating.GramPerLitre)}),
		notebook.MeasureMaybe("boric", &in.Boric, notebook.Spec{Label: "Boric acid", Help: "From an analysis. Leave empty when not known.",
			Units: []notebook.Unit{notebook.GramPerLitre}, Limits: notebook.AboveUpTo(0, 300*plating.GramPerLitre)}),
	}
	questions := []struct {
		name, label, help string
		p                 *string
	}{
		{"interrupted", "Was the current lost for a time?", "Even for a minute.", &in.Interrupted},
		{"stirred", "Did bath or work move?", "Rocked by hand counts.", &in.Stirred},
		{"bagged", "Are the anodes in bags?", "Whole ones.", &in.Bagged},
		{"purged", "A low-current purge lately?", "An hour or more at 0.2 to 0.5 A/dm² on scrap sheet.", &in.Purged},
		{"activated", "Was it activated just before?", "In acid, and still wet when it went in.", &in.Activated},
	}
	for _, q := range questions {
		fields = append(fields, notebook.Choice(q.name, q.p, notebook.Spec{Label: q.label, Help: q.help, Options: answers}))
	}
	return append(fields, fitFields(in)...)
}

// fitFields binds fit, efficiency and panel.
func fitFields(in *Inputs) []notebook.Field {
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou}
	percent := []notebook.Unit{notebook.Percent}
	return []notebook.Field{
		notebook.MeasureMaybe("local", &in.Local, notebook.Spec{Label: "Thickness where it has to fit", Help: "Leave empty when it is not a question of fit.", Units: fine, Limits: notebook.AboveUpTo(0, 500*um)}),
		notebook.MeasureMaybe("room", &in.Room, notebook.Spec{Label: "Room for it on the diameter", Help: "The allowance of the thread, or the clearance of the pin.", Units: fine, Limits: notebook.Between(0, 2000*um)}),
		notebook.Choice("thread", &in.Thread, notebook.Spec{Label: "It is a", Options: []string{featureThread, featureDiameter}, Help: "A thread grows four times the thickness, a pin twice."}),
		notebook.Measure("weighed", &in.Weighed, notebook.Spec{Label: "Efficiency weighed", Help: "0 when not weighed.", Units: percent, Limits: notebook.Between(0.0, 1.0)}),
		notebook.Measure("counted", &in.Counted, notebook.Spec{Label: "Efficiency counted on", Help: "0 when not known.", Units: percent, Limits: notebook.Between(0.0, 1.0)}),
		notebook.Measure("panel-current", &in.PanelCurrent, notebook.Spec{Label: "Test panel: current", Help: "Through the 267 mL cell with the sloping cathode, for five minutes.",
			Units: []notebook.Unit{notebook.Ampere}, Limits: notebook.AboveUpTo(0, 20*unit.Ampere)}),
		notebook.Measure("panel-burnt", &in.PanelBurnt, notebook.Spec{Label: "Test panel: burnt up to", Help: "From the end near the anode to where it turns good.",
			Units: []notebook.Unit{notebook.Millimetre, notebook.InchUnit}, Limits: notebook.Between(7*mm, 82*mm)}),
	}
}
