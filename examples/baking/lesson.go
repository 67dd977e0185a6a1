// Package baking is the lesson "Baking and breathing": which plated steel must be
// baked, for how long and how soon, and what the air over a nickel bath may
// hold.
package baking

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	hour       = 3600 * unit.Second
	cubicMetre = unit.Volume(1)
)

// Whether the surface is hardened.
const (
	throughHard = "hard right through"
	caseHard    = "hard at the surface only"
)

// Inputs is what the lesson asks for.
type Inputs struct {
	// Hardness is that of the steel, Rockwell C; of the case when it is hard at
	// the surface only.
	Hardness float64
	Surface  string
	// Since is how long ago the part came out of the bath.
	Since unit.Time
	// Current is the most that flows, Room the volume of the room, Air how
	// often its air is changed in an hour.
	Current unit.Current
	Room    unit.Volume
	Air     float64
	// Nickel is the nickel metal in the bath, Warmth the room's temperature.
	Nickel plating.Concentration
	Warmth unit.Temperature
}

// Defaults returns a spring anchor of the action shop and its bath.
func Defaults() Inputs {
	return Inputs{Hardness: 44, Surface: throughHard, Since: 1 * hour,
		Current: 3.4 * unit.Ampere, Room: 30 * cubicMetre, Air: 2, Nickel: 75 * plating.GramPerLitre, Warmth: plating.Celsius(20)}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "baking",
		Title:    "Baking and breathing",
		Question: "Must this steel be baked, and is the air in my shop fit to breathe?",
		Asked:    "I plate hard steel, or I plate indoors",
		Track:    notebook.Nickel,
		Summary:  "The bake that plated hard steel needs and how soon, the limits for nickel in air, and the draught that keeps hydrogen thin.",
		Minutes:  10,
		After:    []string{"amps"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Number("hardness", &in.Hardness, notebook.Spec{Label: "Hardness of the steel, Rockwell C",
			Help: "From the drawing or a hardness test, after heat treatment. Bright mild steel is below 20; spring steel 42 to 50.", Limits: notebook.Between(0.0, 70.0)}),
		notebook.Choice("surface", &in.Surface, notebook.Spec{Label: "The part is", Options: []string{throughHard, caseHard},
			Help: "A case-hardened part is judged by its case."}),
		notebook.Measure("since", &in.Since, notebook.Spec{Label: "Out of the bath for",
			Help: "Hydrogen moves while you wait.", Units: []notebook.Unit{notebook.Hour, notebook.Minute}, Limits: notebook.Between(0, 10000*hour)}),
		notebook.Measure("current", &in.Current, notebook.Spec{Label: "Most current that flows", Help: "From your largest load.",
			Units: []notebook.Unit{notebook.Ampere}, Limits: notebook.AboveUpTo(0, 10000*unit.Ampere)}),
		notebook.Measure("room", &in.Room, notebook.Spec{Label: "Volume of the room", Help: "Length times width times height.",
			Units: []notebook.Unit{roomMetre, roomFoot}, Limits: notebook.AboveUpTo(0, 100000*cubicMetre)}),
		notebook.Number("air", &in.Air, notebook.Spec{Label: "Air changes in an hour", Help: "0.5 with windows shut, 5 and more with a fan that leads outside.", Limits: notebook.Between(0.0, 200.0)}),
		notebook.Measure("nickel", &in.Nickel, notebook.Spec{Label: "Nickel metal in the bath", Help: "65 to 80 g/L in a Watts-type bath.",
			Units: []notebook.Unit{notebook.GramPerLitre}, Limits: notebook.AboveUpTo(0, 300*plating.GramPerLitre)}),
		notebook.Measure("warmth", &in.Warmth, notebook.Spec{Label: "Room temperature", Help: "Gas takes more room when warm.",
			Units: []notebook.Unit{notebook.Celsius, notebook.Fahrenheit}, Limits: notebook.Between(plating.Celsius(-20), plating.Celsius(60))}),
	}
}

// The units of a room.
var (
	roomMetre = notebook.Unit{Symbol: "m³", Plain: []string{"m3"}, Scale: 1}
	roomFoot  = notebook.Unit{Symbol: "ft³", Plain: []string{"ft3"}, Scale: 0.3048 * 0.3048 * 0.3048}
)
