// Package stoprule is the lesson "When another try is a waste": whether to leave
// a head as it stands or to slacken it once more.
package stoprule

import (
	"fmt"
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// The two directions.
const (
	sideToSide  = "side to side"
	frontToBack = "front to back"
)

// Direction is what stands in one direction and how a setting scatters there.
type Direction struct {
	Name                string
	Residual, ResidualU squaring.Slope
	Scatter             squaring.Slope
	Trials              int
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Directions []Direction
	Limit      squaring.Slope
	Minutes    unit.Time
}

// Defaults returns the action shop's head as left in 2025, by its own sweep, and
// the scatter of its crosswise tightenings.
func Defaults() Inputs {
	left := actionshop.SweepsAsLeft()[2]
	readings := make([]squaring.SweepReading, len(left.Readings))
	for i, shown := range left.Readings {
		readings[i] = squaring.SweepReading{Azimuth: unit.Angle(45*i) * squaring.Degree, Reading: shown}
	}
	sweep, err := squaring.FitSweep(readings, squaring.SweepOptions{Radius: actionshop.SweepRadius, Closing: &left.Closing, OneWay: true,
		Indicator: squaring.Indicator{Division: actionshop.LeverDivision}})
	if err != nil {
		// The demo data are ours and tested.
		panic(err)
	}
	var side, nod []squaring.Slope
	for _, t := range actionshop.Tightenings() {
		if t.Crosswise {
			side = append(side, squaring.Slope(t.Side/actionshop.GaugeSpan))
			nod = append(nod, squaring.Slope(t.Nod/actionshop.GaugeSpan))
		}
	}
	return Inputs{
		Directions: []Direction{direction(sideToSide, sweep.Tilt.X, sweep.TiltU.X, side), direction(frontToBack, sweep.Tilt.Y, sweep.TiltU.Y, nod)},
		Limit:      0.010 * squaring.MillimetrePer300, Minutes: 20 * 60 * unit.Second,
	}
}

// direction rounds what is typed into the form to a tenth of a microradian.
func direction(name string, residual, u squaring.Slope, trials []squaring.Slope) Direction {
	shift, err := squaring.SummariseShift(trials, 0)
	if err != nil {
		// The demo data are ours and tested.
		panic(err)
	}
	tenth := func(s squaring.Slope) squaring.Slope { return squaring.Slope(math.Round(float64(s)*1e7)) / 1e7 }
	return Direction{Name: name, Residual: tenth(residual), ResidualU: tenth(u), Scatter: tenth(shift.Deviation), Trials: shift.Count}
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	slopes := []notebook.Unit{notebook.MicrometrePerMetre, notebook.MillimetrePer300, notebook.ThouPerFoot}
	slope := func(name, label, help string, limits notebook.Limits, p *squaring.Slope) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: slopes, Limits: limits, Decimals: 1})
	}
	return []notebook.Field{
		notebook.Rows("directions", &in.Directions, notebook.Spec{Label: "What stands now, bolts tight", Help: "One line a direction. A new try slackens the head, and so throws both directions again.",
			MinRows: 1, MaxRows: 2}, func(d *Direction) []notebook.Field {
			return []notebook.Field{
				notebook.Choice("direction", &d.Name, notebook.Spec{Label: "Direction", Help: "Which tilt.", Options: []string{sideToSide, frontToBack}}),
				slope("residual", "Tilt now", "From the last sweep, all bolts tight.", notebook.Between(-10e-3, 10e-3), &d.Residual),
				slope("residual-u", "Its standard uncertainty", "From the same sweep.", notebook.Between(0, 10e-3), &d.ResidualU),
				slope("scatter", "Scatter of one setting", "Standard deviation over earlier settings, set-off made.", notebook.AboveUpTo(0, 10e-3), &d.Scatter),
				notebook.Count("trials", &d.Trials, notebook.Spec{Label: "From how many settings", Help: "Few settings know their scatter badly.", Limits: notebook.Between(2.0, 1000.0)}),
			}
		}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Tilt that the work allows", Help: "Either way, in each direction.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
		notebook.Measure("minutes", &in.Minutes, notebook.Spec{Label: "Time for one try", Help: "Slacken, set, tighten, sweep.",
			Units: []notebook.Unit{notebook.Minute, notebook.Hour}, Limits: notebook.AboveUpTo(0*unit.Second, 86400*unit.Second)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "stoprule",
		Title:    "When another try is a waste",
		Question: "The head is nearly true. Do I slacken it once more, or leave it?",
		Asked:    "One more tap?",
		Track:    notebook.Spindle,
		Summary: "A new setting ends wherever its scatter throws it. From the tilt that stands, the scatter and the tolerance follow the chance " +
			"that another try is better, and the time it would take.",
		Minutes: 8,
		After:   []string{"setoff"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// weighed is one direction with its chances.
type weighed struct {
	Direction
	try     squaring.NextTry
	chances squaring.TryChances
}

// weigh works out the chances of every direction.
func (in Inputs) weigh() ([]weighed, error) {
	var all []weighed
	for i, d := range in.Directions {
		if i > 0 && d.Name == in.Directions[0].Name {
			return nil, notebook.InRow("directions", i+1, "direction", fmt.Errorf("%q stands there twice", d.Name))
		}
		try := squaring.NextTry{Residual: d.Residual, ResidualU: d.ResidualU, Scatter: d.Scatter, DegreesOfFreedom: float64(d.Trials - 1), Tolerance: in.Limit}
		chances, err := try.Chances()
		if err != nil {
			return nil, notebook.InRow("directions", i+1, "scatter", err)
		}
		all = append(all, weighed{d, try, chances})
	}
	if len(all) == 0 {
		return nil, notebook.InField("directions", fmt.Errorf("is empty"))
	}
	return all, nil
}

// both returns the chance that every direction is within the limit now, and
// after a new try, the directions taken as independent.
func both(all []weighed) (now, next float64) {
	now, next = 1, 1
	for _, w := range all {
		now, next = now*w.chances.WithinNow, next*w.chances.Within
	}
	return now, next
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	all, err := in.weigh()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, []weighed) error{answerItems, ladderItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, all); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
