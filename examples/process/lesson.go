// Package process is the lesson "The process sheet": the order of work for one
// job of nickel, from the service it has to stand to the sheet that hangs over
// the bench.
package process

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	um     = unit.Micro * unit.Metre
	minute = 60 * unit.Second
	mL     = unit.Milli * unit.Litre
	cm2    = plating.SquareCentimetre
	aDM2   = plating.AmperePerSquareDecimetre
)

// ownThickness is the class under which the reader names the thickness.
const ownThickness = "my own least thickness"

// Whether the surface is hardened.
const (
	throughHard = "hard right through"
	caseHard    = "hard at the surface only"
)

// Inputs is what the lesson asks for.
type Inputs struct {
	// Name of the job.
	Name string
	// Base is the metal; Hardness and Surface count for hardened steel.
	Base     string
	Hardness float64
	Surface  string
	// Area of the load and its relative standard uncertainty.
	Area  unit.Area
	AreaU float64
	// Class is a class of service, or ownThickness with Own.
	Class string
	Own   unit.Length
	// Thinnest and Thickest are shares of the mean; ThinnestU is a standard
	// uncertainty. Chance is that of the thinnest place having its least.
	Thinnest, ThinnestU, Thickest, Chance float64
	// The bath and the supply.
	Mean, Burns             plating.CurrentDensity
	Efficiency, EfficiencyU float64
	Bath                    unit.Temperature
	Step, Most              unit.Current
	// The analysis: the sample of bath, the titrants' strength in mol/L and the
	// millilitres that each titration took, less its blank.
	Volume                         unit.Volume
	Sample, Nickel, Silver, Boric  unit.Volume
	Edta, SilverStrength, Soda     float64
	Sulfate, Chloride, BoricRecipe plating.Concentration
	// Stays is the boric acid that stays dissolved when the bath is cold.
	Stays plating.Concentration
}

// Defaults returns four escutcheons of the action shop on brass. The analysis was
// made up: a bath that was made to 300/45/40 g/L and has lost some to drag-out.
func Defaults() Inputs {
	run := actionshop.PlatingLog()[2]
	return Inputs{Name: "four escutcheons", Base: string(plating.BaseBrass), Hardness: 44, Surface: throughHard,
		Area: run.Area, AreaU: 0.01, Class: ownThickness, Own: 20 * um, Thinnest: 0.68, ThinnestU: 0.02, Thickest: 1.77, Chance: 0.95,
		Mean: 3 * aDM2, Burns: 8 * aDM2, Efficiency: 0.95, EfficiencyU: 0.01, Bath: run.Bath, Step: actionshop.SupplyStep, Most: 10 * unit.Ampere,
		Volume: actionshop.BathVolume, Sample: 1 * mL, Nickel: 12.3 * mL, Silver: 3.65 * mL, Boric: 5.7 * mL, Edta: 0.1, SilverStrength: 0.1, Soda: 0.1,
		Sulfate: 300, Chloride: 45, BoricRecipe: 40, Stays: 35}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "process",
		Title:    "The process sheet",
		Question: "What do I do to this part, in which order, and what does its service ask of the coat?",
		Asked:    "I want the whole job on one sheet",
		Track:    notebook.Nickel,
		Summary:  "From the service a part has to stand to the mean thickness to aim at, the bath to trust and the steps to take, with amps, minutes and cautions, on a sheet to print.",
		Minutes:  15,
		After:    []string{"amps", "baking"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

var (
	percent   = []notebook.Unit{notebook.Percent}
	densities = []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}
	fine      = []notebook.Unit{notebook.Micrometre, notebook.Thou}
	warmths   = []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}
	amperes   = []notebook.Unit{notebook.Ampere}
	grams     = []notebook.Unit{notebook.GramPerLitre}
	smallVols = []notebook.Unit{notebook.Millilitre}
)

// classes returns the classes of service that the form offers.
func classes() []plating.ServiceClass {
	return append(plating.DecorativeClasses(), plating.EngineeringClasses()...)
}

// classOptions returns their names, with the reader's own thickness first.
func classOptions() []string {
	options := []string{ownThickness}
	for _, c := range classes() {
		options = append(options, c.Name)
	}
	return options
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	var bases []string
	for _, b := range plating.BaseMetals() {
		bases = append(bases, string(b))
	}
	fields := []notebook.Field{
		notebook.Words("name", &in.Name, notebook.Spec{Label: "Job", Help: "Stands at the head of the sheet."}),
		notebook.Choice("base", &in.Base, notebook.Spec{Label: "Base metal", Options: bases, Help: "When you do not know it, do not plate it."}),
		notebook.Measure("area", &in.Area, notebook.Spec{Label: "Area of the whole load", Help: "Four escutcheons have 74.94 cm².",
			Units: []notebook.Unit{notebook.SquareCentimetre, notebook.SquareDecimetre, notebook.SquareInch}, Limits: notebook.Between(0.1*cm2, 1*unit.Area(1))}),
		notebook.Choice("class", &in.Class, notebook.Spec{Label: "Class of service", Options: classOptions(),
			Help: "SC: ASTM B456, nickel and chromium on steel. The others: ASTM B689, micrometres."}),
		notebook.Measure("own", &in.Own, notebook.Spec{Label: "Or your own least thickness", Help: "At the thinnest place that counts. Used when no class is chosen.",
			Units: fine, Limits: notebook.Between(0.5*um, 300*um)}),
		notebook.Measure("mean", &in.Mean, notebook.Spec{Label: "Mean current density", Help: "2 to 4 A/dm² suits a small nickel bath.",
			Units: densities, Limits: notebook.Between(0.1*aDM2, 20*aDM2)}),
	}
	fields = append(fields, notebook.Grouped("Hard steel", hardFields(in)...)...)
	fields = append(fields, notebook.Grouped("How the coat spreads and how sure it must be", spreadFields(in)...)...)
	fields = append(fields, notebook.Grouped("The bath and the supply", bathFields(in)...)...)
	return append(fields, notebook.Grouped("The bath's analysis", analysisFields(in)...)...)
}

// hardFields binds what counts for hardened steel alone.
func hardFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Number("hardness", &in.Hardness, notebook.Spec{Label: "Hardness, Rockwell C", Help: "Counts for hardened steel only.", Limits: notebook.Between(20.0, 70.0)}),
		notebook.Choice("surface", &in.Surface, notebook.Spec{Label: "The part is", Options: []string{throughHard, caseHard}}),
	}
}

// spreadFields binds the spread of the coat.
func spreadFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("area-u", &in.AreaU, notebook.Spec{Label: "Standard uncertainty of the area", Help: "1 % for a plate by calliper, 5 % for a turned part, 20 % for a guess.", Units: percent, Limits: notebook.Between(0.0, 0.25)}),
		notebook.Measure("thinnest", &in.Thinnest, notebook.Spec{Label: "Thinnest place that counts gets", Help: "Of the mean. 68 % was measured in the middle of an escutcheon's face.", Units: percent, Limits: notebook.Between(0.05, 1.0)}),
		notebook.Measure("thinnest-u", &in.ThinnestU, notebook.Spec{Label: "Standard uncertainty of that share", Help: "Percent of the mean.", Units: percent, Limits: notebook.Between(0.0, 0.2)}),
		notebook.Measure("thickest", &in.Thickest, notebook.Spec{Label: "Thickest place gets", Help: "Of the mean. 177 % was measured at an escutcheon's corner.", Units: percent, Limits: notebook.Between(1.0, 10.0)}),
		notebook.Measure("chance", &in.Chance, notebook.Spec{Label: "Wanted chance that the thinnest place has its least", Help: "50 % aims at it and leaves the rest to luck.", Units: percent, Limits: notebook.Between(0.5, 0.999)}),
	}
}

// bathFields binds the bath and the supply.
func bathFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("bath", &in.Bath, notebook.Spec{Label: "Temperature of the nickel bath", Help: "40 to 60 °C for a Watts-type bath.", Units: warmths, Limits: notebook.Between(plating.Celsius(10), plating.Celsius(80))}),
		notebook.Measure("efficiency", &in.Efficiency, notebook.Spec{Label: "Cathode efficiency", Help: "93 to 96 %; weigh a run to know.", Units: percent, Limits: notebook.Between(0.3, 1.0)}),
		notebook.Measure("efficiency-u", &in.EfficiencyU, notebook.Spec{Label: "Its standard uncertainty", Help: "1 % when weighed, 3 % when not.", Units: percent, Limits: notebook.Between(0.0, 0.2)}),
		notebook.Measure("burns", &in.Burns, notebook.Spec{Label: "The bath burns at", Help: "Local current density, from a test panel.", Units: densities, Limits: notebook.Between(0.1*aDM2, 100*aDM2)}),
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "Supply reads to", Help: "The last digit of its ammeter.", Units: amperes, Limits: notebook.AboveUpTo(0, 1*unit.Ampere)}),
		notebook.Measure("most", &in.Most, notebook.Spec{Label: "Most that it gives", Help: "From its plate.", Units: amperes, Limits: notebook.AboveUpTo(0, 10000*unit.Ampere)}),
	}
}

// analysisFields binds the burette readings and the recipe.
func analysisFields(in *Inputs) []notebook.Field {
	burette := notebook.Between(0, 100*mL)
	strength := notebook.Between(0.001, 2.0)
	salt := notebook.Between(0, 600*plating.GramPerLitre)
	return []notebook.Field{
		notebook.Measure("volume", &in.Volume, notebook.Spec{Label: "Volume of the bath", Help: "At its mark.", Units: []notebook.Unit{notebook.Litre, notebook.USGallon}, Limits: notebook.Between(0.1*unit.Litre, 10000*unit.Litre)}),
		notebook.Measure("sample", &in.Sample, notebook.Spec{Label: "Bath in each flask", Help: "By pipette, before thinning with water.", Units: smallVols, Limits: notebook.Between(0.1*mL, 50*mL)}),
		notebook.Measure("nickel", &in.Nickel, notebook.Spec{Label: "EDTA for nickel", Help: "Burette reading less that of a blank.", Units: smallVols, Limits: burette}),
		notebook.Number("edta", &in.Edta, notebook.Spec{Label: "Strength of EDTA, mol/L", Help: "From its label.", Limits: strength}),
		notebook.Measure("silver", &in.Silver, notebook.Spec{Label: "Silver nitrate for chloride", Help: "Less a blank. Use no chromate indicator.", Units: smallVols, Limits: burette}),
		notebook.Number("silver-strength", &in.SilverStrength, notebook.Spec{Label: "Strength of silver nitrate, mol/L", Help: "From its label.", Limits: strength}),
		notebook.Measure("boric", &in.Boric, notebook.Spec{Label: "Sodium hydroxide for boric acid", Help: "After mannitol, from the first to the second end point.", Units: smallVols, Limits: burette}),
		notebook.Number("soda", &in.Soda, notebook.Spec{Label: "Strength of sodium hydroxide, mol/L", Help: "From its label.", Limits: strength}),
		notebook.Measure("sulfate", &in.Sulfate, notebook.Spec{Label: "Recipe: nickel sulfate, hexahydrate", Help: "240 to 300 g/L.", Units: grams, Limits: salt}),
		notebook.Measure("chloride", &in.Chloride, notebook.Spec{Label: "Recipe: nickel chloride, hexahydrate", Help: "30 to 90 g/L.", Units: grams, Limits: salt}),
		notebook.Measure("boric-recipe", &in.BoricRecipe, notebook.Spec{Label: "Recipe: boric acid", Help: "30 to 45 g/L.", Units: grams, Limits: salt}),
		notebook.Measure("stays", &in.Stays, notebook.Spec{Label: "Boric acid that stays dissolved when cold", Help: "Yours to find: chill a weighed sample overnight. The 35 g/L is only a place to start.", Units: grams, Limits: salt}),
	}
}
