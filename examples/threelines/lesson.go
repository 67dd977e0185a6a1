// Package threelines is the lesson "Three lines through one profile": how
// straight is it, and why three answers to that are all right.
package threelines

import (
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Reading is a height at a place.
type Reading struct {
	Place, Height unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Step is the step to which the dial is read, RepeatU the standard
	// uncertainty of a reading beyond that.
	Step, RepeatU unit.Length
	Readings      []Reading
	// Stretch is the length over which local straightness is looked at.
	Stretch unit.Length
}

// Defaults returns the middle track of the action shop's table run of 2025, at
// the places u = -X.
func Defaults() Inputs {
	in := Inputs{Step: actionshop.DialD, Stretch: 300 * mm}
	_, rows := actionshop.SecondTableRun()
	for i := range rows {
		r := rows[len(rows)-1-i]
		in.Readings = append(in.Readings, Reading{0 - r.Travel, r.Middle})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.InchUnit, notebook.Micrometre, notebook.Thou}
	return []notebook.Field{
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The dial is read to", Help: "A whole division, or half of one.", Units: fine, Limits: notebook.AboveUpTo(0*mm, 1*mm)}),
		notebook.Measure("repeat", &in.RepeatU, notebook.Spec{Label: "One reading repeats to", Help: "One standard deviation of five tries at one spot; 0 when the needle always comes back.", Units: fine, Limits: notebook.Between(0*mm, 1*mm)}),
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Readings", Help: "One row a place, in any order. Plus: higher.", MinRows: 3, MaxRows: 200}, func(r *Reading) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("place", &r.Place, notebook.Spec{Label: "Place", Help: "Along the line.", Units: lengths, Limits: notebook.Between(-20000*mm, 20000*mm)}),
				notebook.Measure("height", &r.Height, notebook.Spec{Label: "Height", Help: "As the dial reads.", Units: fine, Limits: notebook.Between(-10*mm, 10*mm)}),
			}
		}),
		notebook.Measure("stretch", &in.Stretch, notebook.Spec{Label: "Local over", Help: "The length over which a drawing or a standard asks for local straightness.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 20000*mm)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "threelines",
		Title:    "Three lines through one profile",
		Question: "How straight is it? I get one figure from the ends, another from the computer and a third from the standard.",
		Asked:    "How straight is it?",
		Track:    notebook.Ways,
		Summary:  "End points, least squares, minimum zone: three straight lines through one row of heights, what each is for, and how sure the figure is.",
		Minutes:  10,
		After:    []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// references are the three lines, in the order in which they are taught.
var references = [3]wear.Reference{wear.EndPoints, wear.LeastSquares, wear.MinimumZone}

// result is the readings, worked.
type result struct {
	in      Inputs
	profile wear.Profile // above the line through the ends
	lines   [3]wear.Straightness
	trials  wear.Trials
	local   wear.Straightness
	from    unit.Length
}

func work(in Inputs) (result, error) {
	r := result{in: in}
	points := make([]wear.Point, len(in.Readings))
	for i, row := range in.Readings {
		points[i] = wear.Point{Position: row.Place, Height: row.Height}
	}
	profile, err := wear.ProfileFromReadings(points, wear.Gauge{Step: in.Step, RepeatU: in.RepeatU})
	if err != nil {
		return r, notebook.InField("readings", err)
	}
	for i, reference := range references {
		if r.lines[i], err = profile.Straightness(reference); err != nil {
			return r, notebook.InField("readings", err)
		}
	}
	if r.trials, err = profile.StraightnessTrials(wear.MinimumZone, 4000, 1); err != nil {
		return r, notebook.InField("readings", err)
	}
	if r.local, r.from, err = wear.LocalStraightness(profile.Points, in.Stretch, wear.MinimumZone); err != nil {
		return r, notebook.InField("stretch", err)
	}
	r.profile, _, err = profile.Less(wear.EndPoints)
	if err != nil {
		return r, notebook.InField("readings", err)
	}
	for i, reference := range references { // the lines as seen above the first one
		above, err := wear.StraightnessOf(r.profile.Points, reference)
		if err != nil {
			return r, notebook.InField("readings", err)
		}
		above.U = r.lines[i].U
		r.lines[i] = above
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
	for _, add := range []func(*notebook.Sheet) error{r.answers, r.pictures, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
