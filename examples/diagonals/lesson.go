// Package diagonals is the lesson "Four holes and two diagonals": whether the
// travels of table and saddle are square to one another.
package diagonals

import (
	"fmt"
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Corner is what one corner of a block shows over a reference angle.
type Corner struct{ Over unit.Angle }

// Inputs is what the lesson asks for.
type Inputs struct {
	X, Y unit.Length
	// AC runs from front left to rear right, BD from front right to rear left.
	AC, BD []Reading
	Step   unit.Length
	// PinsU is the standard uncertainty that pins and holes add to a diagonal.
	PinsU unit.Length
	Limit squaring.Slope
	// Corners are those of a block that has gone round an angle gauge, CornerU
	// the standard uncertainty of one comparison.
	Corners []Corner
	CornerU unit.Angle
}

// Reading is one measurement of a diagonal.
type Reading struct{ Length unit.Length }

// Defaults returns the action shop's four holes.
func Defaults() Inputs {
	h := actionshop.Holes()
	in := Inputs{X: h.X, Y: h.Y, AC: []Reading{{h.AC}}, BD: []Reading{{h.BD}}, Step: h.Step, PinsU: 0 * um,
		Limit: 0.010 * squaring.MillimetrePer300, CornerU: 0.5 * squaring.Arcsecond}
	for _, c := range []unit.Angle{4.2, -1.6, 3.0, -2.4} {
		in.Corners = append(in.Corners, Corner{c * squaring.Arcsecond})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre, notebook.InchUnit}
	measure := func(name, label, help string, units []notebook.Unit, limits notebook.Limits, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: units, Limits: limits})
	}
	diagonal := func(name, label, help string, p *[]Reading) notebook.Field {
		return notebook.Rows(name, p, notebook.Spec{Label: label, Help: help, MinRows: 1, MaxRows: 20}, func(r *Reading) []notebook.Field {
			return []notebook.Field{notebook.Measure("length", &r.Length, notebook.Spec{Label: "Centre to centre", Help: "Over both pins, less half of each pin.",
				Units: lengths, Limits: notebook.AboveUpTo(0*mm, 10000*mm), Decimals: 3})}
		})
	}
	fields := []notebook.Field{
		measure("x", "Stepped off in x", "Between the holes, by the dial or the scale.", lengths, notebook.Between(10*mm, 2000*mm), &in.X),
		measure("y", "Stepped off in y", "The same in y.", lengths, notebook.Between(10*mm, 2000*mm), &in.Y),
		diagonal("ac", "Diagonal from front left to rear right", "One line a measurement.", &in.AC),
		diagonal("bd", "Diagonal from front right to rear left", "One line a measurement.", &in.BD),
	}
	fields = append(fields, notebook.Grouped("How surely",
		measure("step", "Read to", "The vernier's or the micrometer's step.", fine, notebook.Between(0*mm, 1*mm), &in.Step),
		measure("pins-u", "Standard uncertainty from pins and holes", "What play and burrs add to one diagonal.", fine, notebook.Between(0*mm, 1*mm), &in.PinsU),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Skew that the work allows", Help: "Either way.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
	)...)
	return append(fields, notebook.Grouped("A block that proves its own corners",
		notebook.Rows("corners", &in.Corners, notebook.Spec{Label: "Corner over the reference angle", Help: "All corners in turn against one and the same angle, which need not be known.", MinRows: 4, MaxRows: 4},
			func(c *Corner) []notebook.Field {
				return []notebook.Field{notebook.Measure("over", &c.Over, notebook.Spec{Label: "Wider by", Help: "Plus when the corner is wider than the reference.",
					Units: []notebook.Unit{notebook.ArcSecond}, Limits: notebook.Between(-3600*squaring.Arcsecond, 3600*squaring.Arcsecond), Decimals: 1})}
			}),
		notebook.Measure("corner-u", &in.CornerU, notebook.Spec{Label: "Standard uncertainty of one comparison", Help: "From repeats on one corner.",
			Units: []notebook.Unit{notebook.ArcSecond}, Limits: notebook.AboveUpTo(0*squaring.Arcsecond, 600*squaring.Arcsecond)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "diagonals",
		Title:    "Four holes and two diagonals",
		Question: "Are the travels of my table and saddle square to one another?",
		Asked:    "The pattern fits one way up only",
		Track:    notebook.Ways,
		Summary: "Four holes stepped off on the dials make a rectangle only if the travels are square. The difference of its diagonals gives the skew, " +
			"with its sign and its uncertainty, and their sum what the screws gain or lose.",
		Minutes: 8,
		After:   []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// worked is the rectangle worked out.
type worked struct {
	// ac and bd are the diagonals with their standard uncertainties.
	ac, bd squaring.MeasuredLength
	// skew is how far the corner at the front left is open over a right angle.
	skew squaring.MeasuredSlope
	// scale is how much longer the diagonals are than stepped off, as a share.
	scale squaring.MeasuredSlope
	// asked is the diagonal as stepped off.
	asked unit.Length
}

// mean returns the mean of a diagonal's readings. Repeats on one mark lessen
// nothing: the larger of their scatter and of the step counts.
func (in Inputs) mean(readings []Reading) (squaring.MeasuredLength, error) {
	shown := make([]unit.Length, len(readings))
	for i, r := range readings {
		shown[i] = r.Length
	}
	h, err := squaring.Indicator{Division: in.Step, ReadTo: 1}.Measure(shown...)
	return squaring.MeasuredLength{Length: h.Value, Uncertainty: unit.Length(math.Hypot(float64(h.Uncertainty), float64(in.PinsU)))}, err
}

// work works skew and scale out of the diagonals.
func (in Inputs) work() (worked, error) {
	var w worked
	var err error
	if w.ac, err = in.mean(in.AC); err != nil {
		return w, notebook.InField("ac", err)
	}
	if w.bd, err = in.mean(in.BD); err != nil {
		return w, notebook.InField("bd", err)
	}
	a, b, ac, bd := float64(in.X), float64(in.Y), float64(w.ac.Length), float64(w.bd.Length)
	d := math.Hypot(a, b)
	w.asked = unit.Length(d)
	for field, x := range map[string]float64{"ac": ac, "bd": bd} {
		if math.Abs(x/d-1) > 0.02 {
			return w, notebook.InField(field, fmt.Errorf("is %.6g mm on the mean, far from the %.6g mm stepped off: look for a slipped digit", x*1e3, d*1e3))
		}
	}
	// The cosine rule in both triangles: BD^2 - AC^2 = 4 a b sin(skew).
	w.skew.Slope = squaring.Slope((bd*bd - ac*ac) / (4 * a * b))
	w.skew.Uncertainty = squaring.Slope(math.Hypot(bd*float64(w.bd.Uncertainty), ac*float64(w.ac.Uncertainty)) / (2 * a * b))
	// And their squares sum to 2 (a^2 + b^2), whatever the skew.
	mean := math.Sqrt((ac*ac + bd*bd) / 2)
	w.scale.Slope = squaring.Slope(mean/d - 1)
	w.scale.Uncertainty = squaring.Slope(math.Hypot(float64(w.ac.Uncertainty), float64(w.bd.Uncertainty)) / (2 * d))
	return w, nil
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{answerItems, drawItems, blockItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
