// Package skin is the lesson "How much skin has it?": the wetted area of an odd
// turned part from its drawing and from a foil wrap, and what an error in it
// does to the coat.
package skin

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/ownpart"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	mm   = unit.Milli * unit.Metre
	um   = unit.Micro * unit.Metre
	gram = unit.Milli * unit.Kilogram
)

// How the profile gets from one point to the next.
const (
	straight = "straight"
	bead     = "bead (bulging)"
	cove     = "cove (hollow)"
)

// Point is a point of the profile.
type Point struct {
	Place, Diameter unit.Length
	// How the profile gets here, and the radius of the arc if it is one.
	How    string
	Radius *unit.Length
	// Fillet rounds the corner at this point, nil for a sharp one.
	Fillet *unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Points []Point
	// Own, when there is one, takes the place of the profile.
	Own ownpart.Part
	// Good is how far a place or a diameter may be off either way.
	Good  unit.Length
	Count int
	// Knurled is the share of the skin that is knurled, Angle that of its teeth.
	Knurled float64
	Angle   unit.Angle
	// Wrapped is how many parts the foil covers.
	Wrapped             int
	PieceArea           unit.Area
	PieceAreaU          float64
	PieceMass, WrapMass unit.Mass
	ScaleStep           unit.Mass
	FitU                float64
	// Thickness is the mean wanted, Density the mean current density.
	Thickness unit.Length
	Density   plating.CurrentDensity
}

// Defaults returns a turned knob of the action shop, and ten of them in foil.
func Defaults() Inputs {
	radius := func(x unit.Length) *unit.Length { return &x }
	return Inputs{
		Points: []Point{
			{Place: 0, Diameter: 0, How: straight},
			{Place: 0, Diameter: 8 * mm, How: straight},
			{Place: 3 * mm, Diameter: 12 * mm, How: bead, Radius: radius(4 * mm)},
			{Place: 8 * mm, Diameter: 12 * mm, How: straight},
			{Place: 11 * mm, Diameter: 6 * mm, How: cove, Radius: radius(3 * mm)},
			{Place: 22 * mm, Diameter: 6 * mm, How: straight, Fillet: radius(0.5 * mm)},
			{Place: 22 * mm, Diameter: 0, How: straight},
		},
		Own:  ownpart.None(),
		Good: 0.1 * mm, Count: 8, Knurled: 0, Angle: 90 * unit.Angle(degree),
		Wrapped: 10, PieceArea: 100 * plating.SquareCentimetre, PieceAreaU: 0.01, PieceMass: 0.54 * gram, WrapMass: 0.39 * gram, ScaleStep: 0.01 * gram, FitU: 0.03,
		Thickness: 12 * um, Density: 2 * plating.AmperePerSquareDecimetre,
	}
}

// degree is a degree of angle in radians.
const degree = 3.14159265358979323846 / 180

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "skin",
		Title:    "How much skin has it?",
		Question: "What is the area of this odd part, and how sure am I of it?",
		Asked:    "I have a turned or knurled part to plate",
		Track:    notebook.Nickel,
		Summary:  "The area of a turned part point by point, by beads, coves and fillets; the same area from foil on a scale; and what an error in it does to current and coat.",
		Minutes:  11,
		After:    []string{"amps"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	percent := []notebook.Unit{notebook.Percent}
	masses := []notebook.Unit{notebook.Gram}
	fields := []notebook.Field{
		notebook.Rows("points", &in.Points, notebook.Spec{Label: "Profile, point by point",
			Help:    "Along the axis from one end to the other, metal between the profile and the axis. Begin and end at diameter 0 when the ends are plated. A bead or a cove needs its radius; a fillet rounds the corner at its point.",
			MinRows: 2, MaxRows: 60},
			func(p *Point) []notebook.Field {
				size := notebook.AboveUpTo(0, 2*unit.Metre)
				return []notebook.Field{
					notebook.Measure("place", &p.Place, notebook.Spec{Label: "Place", Units: lengths, Limits: notebook.Between(-2*unit.Metre, 2*unit.Metre)}),
					notebook.Measure("diameter", &p.Diameter, notebook.Spec{Label: "Diameter", Units: lengths, Limits: notebook.Between(0, 2*unit.Metre)}),
					notebook.Choice("how", &p.How, notebook.Spec{Label: "Reached by", Options: []string{straight, bead, cove}}),
					notebook.MeasureMaybe("radius", &p.Radius, notebook.Spec{Label: "Arc radius", Units: lengths, Limits: size}),
					notebook.MeasureMaybe("fillet", &p.Fillet, notebook.Spec{Label: "Fillet", Units: lengths, Limits: size}),
				}
			}),
	}
	fields = append(fields, notebook.Grouped("A part of your own, from a drawing program", in.Own.Fields("Its skin takes the place of the profile. Leave it out to count the profile.")...)...)
	return append(fields,
		notebook.Measure("good", &in.Good, notebook.Spec{Label: "Places and diameters good to, either way", Help: "0.1 mm for a calliper, 0.5 mm for a rule.", Units: lengths, Limits: notebook.Between(0, 20*mm)}),
		notebook.Count("count", &in.Count, notebook.Spec{Label: "Parts on the rack", Help: "All alike.", Limits: notebook.Between(1.0, 10000.0)}),
		notebook.Measure("knurled", &in.Knurled, notebook.Spec{Label: "Share of the skin that is knurled", Help: "0 % for none.", Units: percent, Limits: notebook.Between(0.0, 1.0)}),
		notebook.Measure("angle", &in.Angle, notebook.Spec{Label: "Angle of the knurl's teeth", Help: "90° is usual.", Units: []notebook.Unit{notebook.Degree}, Limits: notebook.Between(10*degree, 170*degree)}),
		notebook.Count("wrapped", &in.Wrapped, notebook.Spec{Label: "Foil: parts wrapped", Help: "Wrap several and weigh the foil together: one is too light for a bench scale.", Limits: notebook.Between(1.0, 10000.0)}),
		notebook.Measure("piece-area", &in.PieceArea, notebook.Spec{Label: "Foil: area of the known piece", Help: "A square cut with a blade, 100 × 100 mm.", Units: []notebook.Unit{notebook.SquareCentimetre, notebook.SquareInch}, Limits: notebook.AboveUpTo(0, 1*unit.Area(1))}),
		notebook.Measure("piece-area-u", &in.PieceAreaU, notebook.Spec{Label: "Foil: standard uncertainty of that area", Help: "1 % with a rule and a blade.", Units: percent, Limits: notebook.Between(0.0, 0.3)}),
		notebook.Measure("piece-mass", &in.PieceMass, notebook.Spec{Label: "Foil: mass of the known piece", Help: "Folded up on the scale.", Units: masses, Limits: notebook.AboveUpTo(0, 100*gram), Decimals: 2}),
		notebook.Measure("wrap-mass", &in.WrapMass, notebook.Spec{Label: "Foil: mass of all wrappings", Help: "Trimmed so that nothing overlaps.", Units: masses, Limits: notebook.AboveUpTo(0, 1000*gram), Decimals: 2}),
		notebook.Measure("scale-step", &in.ScaleStep, notebook.Spec{Label: "Scale reads to", Help: "The last digit of its display.", Units: masses, Limits: notebook.AboveUpTo(0, 10*gram)}),
		notebook.Measure("fit-u", &in.FitU, notebook.Spec{Label: "Foil: standard uncertainty of the fit", Help: "3 % for a careful wrap; foil bridges coves and creases on beads.", Units: percent, Limits: notebook.Between(0.0, 0.3)}),
		notebook.Measure("thickness", &in.Thickness, notebook.Spec{Label: "Mean thickness wanted", Help: "To see what an error in the area does.", Units: []notebook.Unit{notebook.Micrometre, notebook.Thou}, Limits: notebook.AboveUpTo(0, 500*um)}),
		notebook.Measure("density", &in.Density, notebook.Spec{Label: "Mean current density", Help: "2 to 4 A/dm² in a small nickel bath.", Units: []notebook.Unit{notebook.AmperePerDM2, notebook.AmperePerFT2}, Limits: notebook.AboveUpTo(0, 100*plating.AmperePerSquareDecimetre)}),
	)
}
