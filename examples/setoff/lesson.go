// Package setoff is the lesson "Set it off before you tighten": how far a head
// moves when its bolts are tightened, and what to leave standing for it.
package setoff

import (
	"fmt"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// The two ways of tightening.
const (
	inTurn    = "each in turn, round the ring"
	crosswise = "crosswise, in three passes"
)

// Trial is one tightening: the change of the difference over the bar.
type Trial struct {
	How       string
	Side, Nod unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Span is the bar over which the change was read, Step what the dial is
	// read to.
	Span, Step unit.Length
	Trials     []Trial
	// How is the way of tightening that is going to be used.
	How string
	// Limit is the tilt that the work allows.
	Limit squaring.Slope
}

// Defaults returns the action shop's twelve trials.
func Defaults() Inputs {
	in := Inputs{Span: actionshop.GaugeSpan, Step: actionshop.TighteningStep, How: crosswise, Limit: 0.010 * squaring.MillimetrePer300}
	for _, t := range actionshop.Tightenings() {
		how := inTurn
		if t.Crosswise {
			how = crosswise
		}
		in.Trials = append(in.Trials, Trial{how, t.Side, t.Nod})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre}
	ways := []string{inTurn, crosswise}
	change := func(name, label, help string, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: fine, Limits: notebook.Between(-1*mm, 1*mm), Decimals: 3})
	}
	return []notebook.Field{
		notebook.Measure("span", &in.Span, notebook.Spec{Label: "Span of the readings", Help: "The bar, or the diameter of the sweep, over which the change is read.",
			Units: lengths, Limits: notebook.Between(20*mm, 2000*mm)}),
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The dial is read to", Help: "Half a division, say.",
			Units: fine, Limits: notebook.Between(0*mm, 0.1*mm)}),
		notebook.Rows("trials", &in.Trials, notebook.Spec{Label: "Trials", Help: "Tight less nipped, in the order made. Side to side plus when the right gains, front to back plus when the back gains.",
			MinRows: 2, MaxRows: 100}, func(t *Trial) []notebook.Field {
			return []notebook.Field{
				notebook.Choice("how", &t.How, notebook.Spec{Label: "Bolts tightened", Help: "In which order.", Options: ways}),
				change("side", "Side to side", "Change of the difference over the span.", &t.Side),
				change("nod", "Front to back", "Change of the difference over the span.", &t.Nod),
			}
		}),
		notebook.Choice("how", &in.How, notebook.Spec{Label: "The bolts are going to be tightened", Help: "The answer is for this way.", Options: ways}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Tilt that the work allows", Help: "Either way, in each direction.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "setoff",
		Title:    "Set it off before you tighten",
		Question: "The head moves when I tighten it. How much should I leave standing, and how near will it end?",
		Asked:    "It moves when I tighten it",
		Track:    notebook.Spindle,
		Summary: "A few trials of tightening give the mean shift, which can be set off, and the scatter, which cannot; " +
			"and say whether the order of the bolts matters.",
		Minutes: 10,
		After:   []string{"twodials"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// shifts are the trials of one way of tightening in both directions.
type shifts struct {
	side, nod squaring.Shift
	known     bool
}

// shiftsOf summarises one way of tightening; fewer than two trials are not
// known.
func (in Inputs) shiftsOf(how string) (shifts, error) {
	var side, nod []squaring.Slope
	for _, t := range in.Trials {
		if t.How != how {
			continue
		}
		for _, one := range []struct {
			to     *[]squaring.Slope
			change unit.Length
		}{{&side, t.Side}, {&nod, t.Nod}} {
			s, err := squaring.SlopeFromRise(one.change, in.Span)
			if err != nil {
				return shifts{}, notebook.InField("trials", err)
			}
			*one.to = append(*one.to, s)
		}
	}
	if len(side) < 2 {
		return shifts{}, nil
	}
	// A change is the difference of two rounded readings.
	rounding := squaring.Indicator{Division: in.Step, ReadTo: 1}.RoundingU()
	u, err := squaring.MeasureSlope(0*mm, rounding*1.4142135623730951, in.Span, 0*mm)
	if err != nil {
		return shifts{}, notebook.InField("step", err)
	}
	s := shifts{known: true}
	if s.side, err = squaring.SummariseShift(side, u.Uncertainty); err != nil {
		return shifts{}, notebook.InField("trials", err)
	}
	s.nod, err = squaring.SummariseShift(nod, u.Uncertainty)
	return s, notebook.InField("trials", err)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	round, err := in.shiftsOf(inTurn)
	if err != nil {
		return nil, err
	}
	cross, err := in.shiftsOf(crosswise)
	if err != nil {
		return nil, err
	}
	chosen := cross
	if in.How == inTurn {
		chosen = round
	}
	if !chosen.known {
		return nil, notebook.InField("trials", fmt.Errorf("holds fewer than 2 trials with the bolts tightened %s", in.How))
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, shifts, shifts, shifts) error{
		setUpItems, answerItems, tableItems, chartItems, mythItems, exerciseItems, checkItems,
	} {
		if err := add(sheet, in, chosen, round, cross); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
