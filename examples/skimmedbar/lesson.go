// Package skimmedbar is the lesson "Let the cut do the measuring": a bar skimmed
// along the table and measured with a micrometer shows the motion of the machine
// with no dial at all.
package skimmedbar

import (
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Reading is the thickness of the skimmed bar at a place of the table.
type Reading struct {
	Place, Thickness unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Step is the step to which the micrometer is read, RepeatU the standard
	// uncertainty of a reading beyond that.
	Step, RepeatU unit.Length
	Readings      []Reading
	// PartLength is the length of the parts to be cut.
	PartLength unit.Length
}

// Defaults returns the action shop's skimmed bar.
func Defaults() Inputs {
	in := Inputs{Step: actionshop.Micrometer, RepeatU: 0.5 * um, PartLength: 200 * mm}
	for _, r := range actionshop.SkimmedBar() {
		in.Readings = append(in.Readings, Reading(r))
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre, notebook.InchUnit}
	return []notebook.Field{
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The micrometer is read to", Help: "A whole division, or half of one.", Units: fine, Limits: notebook.AboveUpTo(0*um, 1000*um)}),
		notebook.Measure("repeat", &in.RepeatU, notebook.Spec{Label: "One reading repeats to", Help: "One standard deviation of five tries at one spot.", Units: fine, Limits: notebook.Between(0*um, 1000*um)}),
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Readings", Help: "One row a place. Mark the places on the bar while it is still clamped.", MinRows: 3, MaxRows: 100}, func(r *Reading) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("place", &r.Place, notebook.Spec{Label: "Place u", Help: "Right of the table's middle positive.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				notebook.Measure("thickness", &r.Thickness, notebook.Spec{Label: "Thickness", Help: "By micrometer.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 500*mm)}),
			}
		}),
		notebook.Measure("part-length", &in.PartLength, notebook.Spec{Label: "Length of your parts", Help: "Where along the bar would a part of that length come out worst?", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 5000*mm)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "skimmedbar",
		Title:    "Let the cut do the measuring",
		Question: "I have a mill, a bar and a micrometer, and no dial that I trust. How straight does the table run?",
		Asked:    "I skimmed a long bar",
		Track:    notebook.Ways,
		Summary:  "A light cut along a bar copies the motion of the table upside down into its thickness. A micrometer reads it off.",
		Minutes:  9,
		After:    []string{"groundbar"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the readings, worked.
type result struct {
	in      Inputs
	motion  wear.Profile // above the line through the ends
	zone    wear.Straightness
	least   wear.Straightness
	depth   unit.Length // largest departure, minus for a hollow
	depthU  unit.Length
	depthAt unit.Length
	part    wear.Straightness
	from    unit.Length
}

func work(in Inputs) (result, error) {
	r := result{in: in}
	places := make([]wear.SkimmedPlace, len(in.Readings))
	for i, row := range in.Readings {
		places[i] = wear.SkimmedPlace{Position: row.Place, Thickness: row.Thickness}
	}
	motion, err := wear.MotionFromSkimmedBar(places, wear.Gauge{Step: in.Step, RepeatU: in.RepeatU})
	if err != nil {
		return r, notebook.InField("readings", err)
	}
	if r.zone, err = motion.Straightness(wear.MinimumZone); err == nil {
		r.least, err = motion.Straightness(wear.LeastSquares)
	}
	if err != nil {
		return r, notebook.InField("readings", err)
	}
	if r.part, r.from, err = wear.LocalStraightness(motion.Points, in.PartLength, wear.EndPoints); err != nil {
		return r, notebook.InField("part-length", err)
	}
	if r.motion, _, err = motion.Less(wear.EndPoints); err != nil {
		return r, notebook.InField("readings", err)
	}
	middle := len(r.motion.Points) / 2
	r.depthU, r.depthAt = r.motion.U(middle), r.motion.Points[middle].Position
	for i, p := range r.motion.Points {
		if math.Abs(float64(p.Height)) > math.Abs(float64(r.depth)) {
			r.depth, r.depthU, r.depthAt = p.Height, r.motion.U(i), p.Position
		}
	}
	return r, nil
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{setUp, r.answers, agreement, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
