// Package lostmotion is the lesson "The wheel turns and the table waits": lost
// motion along the travel of a screw, from both sides.
package lostmotion

import (
	"fmt"
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

// Reading is one run to a place from both sides: where the table stood less where
// it was sent.
type Reading struct{ Travel, Up, Down unit.Length }

// Inputs is what the lesson asks for.
type Inputs struct {
	Readings []Reading
	// Lead is the travel of one turn, Division that of one division of the
	// handwheel.
	Lead, Division unit.Length
	// Pitch is the pitch diameter of the screw, Nut the length of its nut, Depth
	// the working depth of the thread, Flank the angle of its flanks.
	Pitch, Nut, Depth unit.Length
	Flank             unit.Angle
	// Force draws the table, Factor is the wear factor of screw and nut.
	Force  unit.Force
	Factor float64 // in 1e-9 mm^3/(N m)
	// Chip is the feed of one tooth in the cut.
	Chip unit.Length
}

// Defaults returns the action shop's table screw.
func Defaults() Inputs {
	in := Inputs{Lead: actionshop.ScrewLead, Division: actionshop.ScrewDivision, Pitch: actionshop.ScrewPitch, Nut: actionshop.ScrewNut, Depth: actionshop.ScrewDepth,
		Flank: 15 * math.Pi / 180, Force: 250 * unit.Newton, Factor: 100, Chip: 0.04 * mm}
	for _, r := range actionshop.ScrewRuns() {
		in.Readings = append(in.Readings, Reading(r))
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.Micrometre, notebook.Thou, notebook.InchUnit}
	size := notebook.AboveUpTo(0*mm, 1000*mm)
	fields := []notebook.Field{
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Runs", MinRows: 2, MaxRows: 200, Help: "One row a run, at least two runs at each place. Where the table stood less where it was sent."}, func(r *Reading) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("travel", &r.Travel, notebook.Spec{Label: "Place X", Help: "Plus when the table has moved right.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				notebook.Measure("up", &r.Up, notebook.Spec{Label: "Coming up", Help: "The last turn moved the table right.", Units: fine, Limits: notebook.Between(-20*mm, 20*mm)}),
				notebook.Measure("down", &r.Down, notebook.Spec{Label: "Coming down", Help: "The last turn moved it left.", Units: fine, Limits: notebook.Between(-20*mm, 20*mm)}),
			}
		}),
		notebook.Measure("lead", &in.Lead, notebook.Spec{Label: "One turn moves the table", Help: "The lead of the screw.", Units: lengths, Limits: notebook.Between(0.2*mm, 100*mm)}),
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the handwheel", Help: "As it is engraved.", Units: fine, Limits: notebook.Between(0.001*mm, 10*mm)}),
		notebook.Measure("chip", &in.Chip, notebook.Spec{Label: "Feed of one tooth", Help: "Feed over speed and number of teeth.", Units: fine, Limits: notebook.AboveUpTo(0*mm, 5*mm)}),
	}
	return append(fields, notebook.Grouped("The screw and what draws it",
		notebook.Measure("pitch", &in.Pitch, notebook.Spec{Label: "Pitch diameter", Help: "Outside diameter less one depth of thread.", Units: lengths, Limits: notebook.Between(2*mm, 500*mm)}),
		notebook.Measure("nut", &in.Nut, notebook.Spec{Label: "Length of the nut", Help: "In engagement.", Units: lengths, Limits: size}),
		notebook.Measure("depth", &in.Depth, notebook.Spec{Label: "Working depth of the thread", Help: "About half the lead of a single thread.", Units: lengths, Limits: size}),
		notebook.Measure("flank", &in.Flank, notebook.Spec{Label: "Angle of the flank", Help: "From square to the axis: 15° trapezoidal, 14.5° Acme, 0 square.", Units: []notebook.Unit{notebook.Degree}, Limits: notebook.Between(unit.Angle(0), unit.Angle(45*math.Pi/180))}),
		notebook.Measure("force", &in.Force, notebook.Spec{Label: "Force that draws the table", Help: "Friction and cut, the mean over all travel.", Units: []notebook.Unit{notebook.Newton, notebook.PoundForce}, Limits: notebook.Between(1*unit.Newton, 1e5*unit.Newton)}),
		notebook.Number("factor", &in.Factor, notebook.Spec{Label: "Wear factor, in 10⁻⁹ mm³/(N·m)", Help: "Boundary lubrication: about 10 to 1000; dry ten times that and more.", Limits: notebook.Between(0.001, 1e6)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "lostmotion",
		Title:    "The wheel turns and the table waits",
		Question: "I turn back and the table does not follow at once. How much is lost, where, and what of it can the nut take out?",
		Asked:    "My handwheel has play",
		Track:    notebook.Ways,
		Summary:  "Lost motion read from both sides at several places says whether the nut is worn or the screw, what an adjustment can win and what the rest does to the work.",
		Minutes:  12,
		After:    []string{"thousandth", "dial"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the readings, worked.
type result struct {
	in    Inputs
	p     wear.Positioning
	runs  int // at each place
	least wear.TargetResult
	most  wear.TargetResult
	screw wear.Screw
	// flanks is what both flanks together have lost where the screw is worn most,
	// travel the way of the table that wears another 10 um off the nut.
	flanks, flanksU, travel unit.Length
}

// lost is the size of the lost motion at a place.
func lost(t wear.TargetResult) unit.Length { return unit.Length(math.Abs(float64(t.Lost))) }

func work(in Inputs) (result, error) {
	r := result{in: in, screw: wear.Screw{Lead: in.Lead, Pitch: in.Pitch, Nut: in.Nut, Depth: in.Depth, Flank: in.Flank}}
	targets := grouped(in.Readings)
	for _, t := range targets {
		if len(t.Up) < 2 {
			return r, notebook.InField("readings", fmt.Errorf("there is one run at X = %g mm; at least two are needed at each place to know the scatter", float64(t.Place/mm)))
		}
	}
	var err error
	if r.p, err = wear.ReadPositioning(targets); err != nil {
		return r, notebook.InField("readings", err)
	}
	r.least, r.most, r.runs = r.p.Targets[0], r.p.Targets[0], len(targets[0].Up)
	for _, t := range r.p.Targets {
		if lost(t) < lost(r.least) {
			r.least = t
		}
		if lost(t) > lost(r.most) {
			r.most = t
		}
	}
	axial, err := r.screw.LostMotion(1, 0) // axial play for a metre off one flank
	if err != nil {
		return r, notebook.InField("pitch", err)
	}
	r.flanks, r.flanksU = lost(r.most)/axial, r.most.LostU/axial
	per, err := r.screw.NutWear(wear.WearFactor(in.Factor)*1e-9*wear.CubicMillimetrePerNewtonMetre, in.Force, 1*unit.Metre)
	if err != nil {
		return r, notebook.InField("factor", err)
	}
	r.travel = 10 * um / per
	return r, nil
}

// grouped returns the runs place by place, in order of place.
func grouped(rows []Reading) []wear.Target {
	var targets []wear.Target
	for _, row := range rows {
		k := 0
		for k < len(targets) && targets[k].Place < row.Travel {
			k++
		}
		if k == len(targets) || targets[k].Place != row.Travel {
			targets = append(targets[:k], append([]wear.Target{{Place: row.Travel}}, targets[k:]...)...)
		}
		targets[k].Up, targets[k].Down = append(targets[k].Up, row.Up), append(targets[k].Down, row.Down)
	}
	return targets
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{setUp, r.answers, r.charts, r.harm, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
