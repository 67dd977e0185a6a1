// Package threelitres is the lesson "Three litres for two years": what a small
// nickel bath is made of, what it loses and gains, and what to add.
package threelitres

import (
	"time"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	litre      = unit.Litre
	millilitre = unit.Milli * unit.Litre
	gram       = unit.Milli * unit.Kilogram
)

// Entry is an entry of the bath book.
type Entry struct {
	Day    time.Time
	Hot    unit.Time
	Area   unit.Area
	Water  unit.Volume
	Charge unit.Charge
}

// The hydrates of nickel sulfate that are sold.
const (
	hexahydrate  = "6 waters (hexahydrate)"
	heptahydrate = "7 waters (heptahydrate)"
)

// Inputs is what the lesson asks for.
type Inputs struct {
	Volume unit.Volume
	// Sulfate is that of the recipe, as hexahydrate; Hydrate says which salt
	// is on the shelf.
	Sulfate, Chloride, Boric plating.Concentration
	Hydrate                  string
	// Nickel is the metal in the bath at the first entry.
	Nickel plating.Concentration
	Book   []Entry
	// DragOut is the volume that clings to an area at one dip, as a thickness.
	DragOut unit.Length
	Dips    int
	Cathode float64
	Anode   float64
	// Acid is the mass fraction of sulfuric acid in the bottle, AcidDensity its
	// density.
	Acid        float64
	AcidDensity plating.Density
	// Sample and SampleDose are a trial: so much acid brought a sample of the
	// bath to the right pH.
	Sample, SampleDose unit.Volume
	// Room and Work are the temperatures of the room and of the warm bath,
	// Heater the power of the heater.
	Room, Work unit.Temperature
	Heater     unit.Power
	// RinseWater is the volume of the first rinse.
	RinseWater unit.Volume
}

// Defaults returns the action shop's bath and its book.
func Defaults() Inputs {
	in := Inputs{
		Volume: actionshop.BathVolume, Sulfate: 285 * plating.GramPerLitre, Chloride: 45 * plating.GramPerLitre, Boric: 40 * plating.GramPerLitre,
		Hydrate: hexahydrate, Nickel: actionshop.BathNickel * plating.GramPerLitre,
		DragOut: actionshop.DragOutPerArea, Dips: actionshop.DragOutDips, Cathode: 0.95, Anode: 1,
		Acid: 0.10, AcidDensity: 1.066 * plating.GramPerCubicCentimetre,
		Sample: 100 * millilitre, SampleDose: 0.4 * millilitre,
		Room: plating.Celsius(18), Work: plating.Celsius(55), Heater: 300 * unit.Watt, RinseWater: 2 * litre,
	}
	for _, e := range actionshop.BathBook() {
		in.Book = append(in.Book, Entry{e.Month, e.Hot, e.Area, e.Water, e.Charge})
	}
	return in
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "threelitres",
		Title:    "Three litres for two years",
		Question: "What does my small bath need: nickel, acid, boric acid or only water?",
		Asked:    "I keep a small nickel bath",
		Track:    notebook.Nickel,
		Summary:  "What to weigh out for a bath, and the running balance of a bath book: drag-out, evaporation, nickel from the anode, acid gone as hydrogen, heat.",
		Minutes:  15,
		After:    []string{"amps"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	return append(append(bathFields(in), bookFields(in)...), upkeepFields(in)...)
}

// Units of the form that the notebook does not name.
var (
	millilitrePerDM2 = notebook.Unit{Symbol: "mL/dm²", Plain: []string{"mL/dm2", "ml/dm2"}, Scale: 1e-4}
	litrePerM2       = notebook.Unit{Symbol: "L/m²", Plain: []string{"L/m2", "l/m2"}, Scale: 1e-3}
	ouncePerGallon   = notebook.Unit{Symbol: "oz/US gal", Plain: []string{"oz/gal"}, Scale: float64(plating.OuncePerUSGallon)}
)

// bathFields binds what the bath is made of.
func bathFields(in *Inputs) []notebook.Field {
	concentrations := []notebook.Unit{notebook.GramPerLitre, ouncePerGallon}
	most := 500 * plating.GramPerLitre
	return []notebook.Field{
		notebook.Measure("volume", &in.Volume, notebook.Spec{Label: "Volume of the bath", Help: "At its usual level, warm.",
			Units: []notebook.Unit{notebook.Litre, notebook.Millilitre, notebook.USGallon}, Limits: notebook.AboveUpTo(0, 1000*litre)}),
		notebook.Measure("sulfate", &in.Sulfate, notebook.Spec{Label: "Nickel sulfate, as hexahydrate", Help: "240 to 300 g/L in a Watts-type bath.",
			Units: concentrations, Limits: notebook.Between(0, most)}),
		notebook.Choice("hydrate", &in.Hydrate, notebook.Spec{Label: "The sulfate on your shelf has", Help: "Read it on the jar: the two look alike.",
			Options: []string{hexahydrate, heptahydrate}}),
		notebook.Measure("chloride", &in.Chloride, notebook.Spec{Label: "Nickel chloride, hexahydrate", Help: "30 to 90 g/L; it keeps the anodes dissolving.",
			Units: concentrations, Limits: notebook.Between(0, most)}),
		notebook.Measure("boric", &in.Boric, notebook.Spec{Label: "Boric acid", Help: "30 to 45 g/L; it buffers the film at the work. More falls out when the bath is cold.",
			Units: concentrations, Limits: notebook.Between(0, most)}),
		notebook.Measure("nickel", &in.Nickel, notebook.Spec{Label: "Nickel metal at the first entry", Help: "From an analysis, or from the recipe below.",
			Units: concentrations, Limits: notebook.AboveUpTo(0, most)}),
	}
}

// bookFields binds the bath book.
func bookFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Rows("book", &in.Book, notebook.Spec{Label: "Bath book", Help: "A row a month, or a run: how long the bath was warm, the area that went through, the water added to hold the level, the charge passed.",
			MinRows: 1, MaxRows: 120},
			func(e *Entry) []notebook.Field {
				return []notebook.Field{
					notebook.Day("day", &e.Day, notebook.Spec{Label: "Date"}),
					notebook.Measure("hot", &e.Hot, notebook.Spec{Label: "Warm for", Units: []notebook.Unit{notebook.Hour, notebook.Minute}, Limits: notebook.Between(0, 10000*unit.Time(3600))}),
					notebook.Measure("area", &e.Area, notebook.Spec{Label: "Area through", Units: []notebook.Unit{notebook.SquareDecimetre, notebook.SquareCentimetre, notebook.SquareInch}, Limits: notebook.Between(0, unit.Area(1000))}),
					notebook.Measure("water", &e.Water, notebook.Spec{Label: "Water added", Units: []notebook.Unit{notebook.Millilitre, notebook.Litre}, Limits: notebook.Between(0, 1000*litre)}),
					notebook.Measure("charge", &e.Charge, notebook.Spec{Label: "Charge", Units: []notebook.Unit{notebook.AmpereHour}, Limits: notebook.Between(0, 1e6*plating.AmpereHour), Decimals: 2}),
				}
			}),
		notebook.Measure("drag-out", &in.DragOut, notebook.Spec{Label: "Drag-out at one dip", Help: "0.6 mL/dm² for small parts shaken once; 1.5 for flat parts lifted straight out.",
			Units: []notebook.Unit{millilitrePerDM2, litrePerM2}, Limits: notebook.Between(0, 5e-3*unit.Metre)}),
		notebook.Count("dips", &in.Dips, notebook.Spec{Label: "Times each part leaves the bath", Help: "Strike, look, plate, look: four.", Limits: notebook.Between(0.0, 50.0)}),
		notebook.Measure("cathode", &in.Cathode, notebook.Spec{Label: "Cathode efficiency", Help: "From the scale.", Units: []notebook.Unit{notebook.Percent}, Limits: notebook.AboveUpTo(0.0, 1.0)}),
		notebook.Measure("anode", &in.Anode, notebook.Spec{Label: "Anode efficiency", Help: "100 % for clean nickel anodes with enough chloride.", Units: []notebook.Unit{notebook.Percent}, Limits: notebook.AboveUpTo(0.0, 1.0)}),
	}
}

// upkeepFields binds acid, heat and rinse.
func upkeepFields(in *Inputs) []notebook.Field {
	temperatures := []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}
	warm := notebook.Between(plating.Celsius(0), plating.Celsius(100))
	return []notebook.Field{
		notebook.Measure("acid", &in.Acid, notebook.Spec{Label: "Sulfuric acid in the bottle, by mass", Help: "Use it dilute: 10 % is strong enough.",
			Units: []notebook.Unit{notebook.Percent}, Limits: notebook.AboveUpTo(0.0, 1.0)}),
		notebook.Measure("acid-density", &in.AcidDensity, notebook.Spec{Label: "Density of that acid", Help: "1.066 g/cm³ at 10 %.",
			Units: []notebook.Unit{notebook.GramPerCM3}, Limits: notebook.Between(1*plating.GramPerCubicCentimetre, 1.9*plating.GramPerCubicCentimetre)}),
		notebook.Measure("sample", &in.Sample, notebook.Spec{Label: "Trial: sample of the bath", Help: "100 mL in a beaker.",
			Units: []notebook.Unit{notebook.Millilitre}, Limits: notebook.AboveUpTo(0, 1*litre)}),
		notebook.Measure("sample-dose", &in.SampleDose, notebook.Spec{Label: "Trial: acid to bring it to pH 4", Help: "Drop by drop, stirring, from a syringe.",
			Units: []notebook.Unit{notebook.Millilitre}, Limits: notebook.Between(0, 1*litre)}),
		notebook.Measure("room", &in.Room, notebook.Spec{Label: "Bath at the start", Help: "Temperature of the room.", Units: temperatures, Limits: warm}),
		notebook.Measure("work", &in.Work, notebook.Spec{Label: "Bath at work", Help: "50 to 55 °C.", Units: temperatures, Limits: warm}),
		notebook.Measure("heater", &in.Heater, notebook.Spec{Label: "Heater", Help: "From its plate.", Units: []notebook.Unit{notebook.Watt}, Limits: notebook.AboveUpTo(0, 20000*unit.Watt)}),
		notebook.Measure("rinse-water", &in.RinseWater, notebook.Spec{Label: "Water in the first rinse", Help: "A still rinse that is kept, not a running one.",
			Units: []notebook.Unit{notebook.Litre, notebook.USGallon}, Limits: notebook.AboveUpTo(0, 1000*litre)}),
	}
}
