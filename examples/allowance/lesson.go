// Package allowance is the lesson "Leave room for nickel": what to cut a thread,
// a pin or a bore to, so that it fits after plating, and how likely that is.
package allowance

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Inputs is what the lesson asks for.
type Inputs struct {
	// Diameter, Pitch, Position and Length are those of the screw; Length is
	// how much of it is engaged.
	Diameter, Pitch unit.Length
	Position        string
	Length          unit.Length
	// Clearance is the measured clearance on the pitch diameter before plating,
	// nil when only the class is known; ClearanceU its standard uncertainty.
	Clearance  *unit.Length
	ClearanceU unit.Length
	// Mean is the mean thickness of the load, MeanU its standard uncertainty.
	// Flank is the share of it that the flanks get, FlankU its standard
	// uncertainty.
	Mean, MeanU   unit.Length
	Flank, FlankU float64
	// NutPlated says whether the nut is plated too, at the same mean.
	NutPlated string
	// Feature is a plain pin or bore with its limits after plating; its coat is
	// the same mean at a share of its own. CutU is the standard uncertainty to
	// which it can be cut.
	Feature         string
	Least, Greatest unit.Length
	PlainShare      float64
	PlainShareU     float64
	CutU            unit.Length
	Density         plating.CurrentDensity
	Efficiency      float64
}

// The answers to whether the nut is plated.
const (
	nutBare   = "bare"
	nutPlated = "plated too"
)

// Defaults returns the action shop's thumb screw of run 14 and a hinge pin.
func Defaults() Inputs {
	return Inputs{
		Diameter: 4 * mm, Pitch: 0.7 * mm, Position: string(plating.PositionG), Length: 8 * mm,
		ClearanceU: 5 * um,
		Mean:       5.2 * um, MeanU: 0.15 * um, Flank: 1, FlankU: 0.15, NutPlated: nutBare,
		Feature: string(plating.Pin), Least: 2.986 * mm, Greatest: 3 * mm, PlainShare: 1.1, PlainShareU: 0.1, CutU: 2 * um,
		Density: 1.5 * plating.AmperePerSquareDecimetre, Efficiency: 0.95,
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "allowance",
		Title:    "Leave room for nickel",
		Question: "How much smaller must I cut it, so that it still fits when it is plated?",
		Asked:    "My nut will not run after plating",
		Track:    notebook.Nickel,
		Summary:  "Growth on pins, bores and threads, the coat that a thread class leaves room for, the size to cut, and the chance that the nut runs.",
		Minutes:  13,
		After:    []string{"amps"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre}
	percent := []notebook.Unit{notebook.Percent}
	return []notebook.Field{
		notebook.Measure("diameter", &in.Diameter, notebook.Spec{Label: "Thread: nominal diameter",
			Help: "4 mm for M4.", Units: lengths, Limits: notebook.Between(1*mm, 100*mm)}),
		notebook.Measure("pitch", &in.Pitch, notebook.Spec{Label: "Thread: pitch",
			Help: "0.7 mm for a coarse M4. For an inch thread, one inch over the threads in an inch.", Units: lengths, Limits: notebook.Between(0.2*mm, 6*mm)}),
		notebook.Choice("position", &in.Position, notebook.Spec{Label: "Thread: tolerance position",
			Help:    "g for an ordinary screw (6g); f and e are cut with more room; h has none.",
			Options: []string{string(plating.PositionH), string(plating.PositionG), string(plating.PositionF), string(plating.PositionE)}}),
		notebook.Measure("length", &in.Length, notebook.Spec{Label: "Thread: length",
			Help: "Long threads plate thicker at the ends, so they need more room.", Units: lengths, Limits: notebook.AboveUpTo(0, 1*unit.Metre)}),
		notebook.MeasureMaybe("clearance", &in.Clearance, notebook.Spec{Label: "Clearance measured before plating",
			Help: "Nut's pitch diameter less the screw's, by wires or gauges. Leave empty to work from the class.", Units: fine, Limits: notebook.Between(-1*mm, 1*mm)}),
		notebook.Measure("clearance-u", &in.ClearanceU, notebook.Spec{Label: "Standard uncertainty of that clearance",
			Help: "About 5 µm for three wires and a micrometer.", Units: fine, Limits: notebook.Between(0, 0.2*mm)}),
		notebook.Measure("mean", &in.Mean, notebook.Spec{Label: "Mean thickness of the load",
			Help: "From amps and minutes, or from the scale.", Units: fine, Limits: notebook.Between(0, 500*um)}),
		notebook.Measure("mean-u", &in.MeanU, notebook.Spec{Label: "Standard uncertainty of the mean",
			Help: "2 to 3 % of it for a weighed bath.", Units: fine, Limits: notebook.Between(0, 100*um)}),
		notebook.Measure("flank", &in.Flank, notebook.Spec{Label: "Flanks get",
			Help: "Of the mean. Crests take more and roots less; flanks lie near the mean, more on the end threads.", Units: percent, Limits: notebook.Between(0.0, 5.0)}),
		notebook.Measure("flank-u", &in.FlankU, notebook.Spec{Label: "Standard uncertainty of that share",
			Help: "15 % when you have not measured it.", Units: percent, Limits: notebook.Between(0.0, 1.0)}),
		notebook.Choice("nut", &in.NutPlated, notebook.Spec{Label: "The nut is", Options: []string{nutBare, nutPlated},
			Help: "A plated nut takes room as well; its bore gets less than the outside, which is not counted here."}),
		notebook.Choice("feature", &in.Feature, notebook.Spec{Label: "Plain fit: what it is", Options: []string{string(plating.Pin), string(plating.Bore)}, Help: "A pin grows, a bore shrinks."}),
		notebook.Measure("least", &in.Least, notebook.Spec{Label: "Plain fit: least diameter after plating",
			Help: "The lower limit of the drawing, over the nickel.", Units: lengths, Limits: notebook.AboveUpTo(0, 1*unit.Metre)}),
		notebook.Measure("greatest", &in.Greatest, notebook.Spec{Label: "Plain fit: greatest diameter after plating",
			Help: "The upper limit.", Units: lengths, Limits: notebook.AboveUpTo(0, 1*unit.Metre)}),
		notebook.Measure("plain-share", &in.PlainShare, notebook.Spec{Label: "That place gets",
			Help: "Of the mean. Measure one plated part: growth over two, over the mean.", Units: percent, Limits: notebook.Between(0.0, 5.0)}),
		notebook.Measure("plain-share-u", &in.PlainShareU, notebook.Spec{Label: "Standard uncertainty of that share",
			Help: "10 % after measuring one part.", Units: percent, Limits: notebook.Between(0.0, 1.0)}),
		notebook.Measure("cut-u", &in.CutU, notebook.Spec{Label: "You can cut to",
			Help: "Standard uncertainty of the diameter as cut.", Units: fine, Limits: notebook.Between(0, 0.2*mm)}),
		notebook.Measure("density", &in.Density, notebook.Spec{Label: "Current density",
			Help: "Screws are plated slowly, so that the crests do not burn.", Units: []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}, Limits: notebook.AboveUpTo(0, 100*plating.AmperePerSquareDecimetre)}),
		notebook.Measure("efficiency", &in.Efficiency, notebook.Spec{Label: "Cathode efficiency",
			Help: "93 to 96 % for a nickel bath in good order.", Units: percent, Limits: notebook.AboveUpTo(0.0, 1.0)}),
	}
}
