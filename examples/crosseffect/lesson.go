// Package crosseffect is the lesson "One axis upsets the other": what turning the
// head one way does to the other way, and how to set both without going round
// and round.
package crosseffect

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
)

// Trial is one turn of the head: what was asked, and what the sweep showed
// before and after, all in the sweep's sign.
type Trial struct {
	AskedX, AskedY, BeforeX, BeforeY, AfterX, AfterY squaring.Slope
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Trials []Trial
	// U is the standard uncertainty of one tilt in one direction.
	U squaring.Slope
	// NowX and NowY are shown now, AimX and AimY are wanted.
	NowX, NowY, AimX, AimY squaring.Slope
	Limit                  squaring.Slope
}

// Defaults returns seven turns of the action shop's head, read to 2 µm/m.
func Defaults() Inputs {
	in := Inputs{U: 5 * squaring.Microradian, NowX: -238 * squaring.Microradian, NowY: -238 * squaring.Microradian, Limit: 15 * squaring.Microradian}
	for _, t := range [][6]float64{
		{200, 0, -238, -238, -50, -278}, {0, 200, -50, -278, -30, -98}, {60, 0, -30, -98, 22, -112}, {0, 60, 22, -112, 36, -54},
		{-150, 0, 36, -54, -100, -20}, {0, -150, -100, -20, -114, -156}, {120, 120, -114, -156, 4, -68},
	} {
		of := func(i int) squaring.Slope { return squaring.Slope(t[i]) * squaring.Microradian }
		in.Trials = append(in.Trials, Trial{of(0), of(1), of(2), of(3), of(4), of(5)})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	slopes := []notebook.Unit{notebook.MicrometrePerMetre, notebook.MillimetrePer300, notebook.ThouPerFoot}
	within := notebook.Between(-10e-3, 10e-3)
	tilt := func(name, label, help string, limits notebook.Limits, p *squaring.Slope) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: slopes, Limits: limits})
	}
	fields := []notebook.Field{
		notebook.Rows("trials", &in.Trials, notebook.Spec{Label: "Turns of the head", Help: "Each axis by itself at least once; both together if you like. All as the sweep shows it: table less spindle.", MinRows: 2, MaxRows: 60},
			func(t *Trial) []notebook.Field {
				return []notebook.Field{
					tilt("asked-x", "Asked, side", "By how much you meant the side-to-side tilt to change.", within, &t.AskedX),
					tilt("asked-y", "Asked, nod", "By how much you meant the front-to-back tilt to change.", within, &t.AskedY),
					tilt("before-x", "Before, side", "Shown before, right high is plus.", within, &t.BeforeX),
					tilt("before-y", "Before, nod", "Shown before, back high is plus.", within, &t.BeforeY),
					tilt("after-x", "After, side", "Shown after, bolts tight.", within, &t.AfterX),
					tilt("after-y", "After, nod", "Shown after, bolts tight.", within, &t.AfterY),
				}
			}),
		tilt("now-x", "Shown now, side to side", "From the sweep.", within, &in.NowX),
		tilt("now-y", "Shown now, front to back", "From the sweep.", within, &in.NowY),
		tilt("limit", "Good enough within", "Either way, in each direction.", notebook.AboveUpTo(0, 10e-3), &in.Limit),
	}
	return append(fields, notebook.Grouped("Aim and doubt",
		tilt("aim-x", "Wanted, side to side", "Zero for square, or what is left for tightening.", within, &in.AimX),
		tilt("aim-y", "Wanted, front to back", "Zero for square, or what is left for tightening.", within, &in.AimY),
		tilt("u", "Standard uncertainty of one tilt shown", "From the sweep.", notebook.AboveUpTo(0, 1e-3), &in.U),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "crosseffect",
		Title:    "One axis upsets the other",
		Question: "I set the side tilt, then the nod, and the side tilt is out again. How do I set both?",
		Asked:    "Setting one way spoils the other",
		Track:    notebook.Spindle,
		Summary: "A few turns with readings before and after give what each axis does to both. With that map both are set in two turns, " +
			"the first to a figure that is not zero.",
		Minutes: 9,
	}, Defaults, form, Work).WithDrills(drills()...)
}

// worked is the map and the plan.
type worked struct {
	effect   squaring.CrossEffect
	plan     squaring.AxisPlan
	now, aim squaring.Gradient
}

// work fits the map and plans.
func (in Inputs) work() (worked, error) {
	w := worked{now: squaring.Gradient{X: in.NowX, Y: in.NowY}, aim: squaring.Gradient{X: in.AimX, Y: in.AimY}}
	var trials []squaring.AxisTrial
	for _, t := range in.Trials {
		trials = append(trials, squaring.AxisTrial{Asked: squaring.Gradient{X: t.AskedX, Y: t.AskedY},
			Before: squaring.Gradient{X: t.BeforeX, Y: t.BeforeY}, After: squaring.Gradient{X: t.AfterX, Y: t.AfterY}})
	}
	// A change is the difference of two tilts.
	u := in.U * math.Sqrt2
	var err error
	if w.effect, err = squaring.FitCrossEffect(trials, squaring.Gradient{X: u, Y: u}); err != nil {
		return w, notebook.InField("trials", err)
	}
	w.plan, err = w.effect.Plan(w.now, w.aim, in.Limit)
	return w, notebook.InField("limit", err)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{setUpItems, planItems, mapItems, pathItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
