// Package order is the lesson "Can I take this order?": whether the shares of the
// work's error fit into its tolerance, and what to improve first.
package order

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// How the tolerance is meant.
const (
	eitherWay = "either way of nominal"
	upTo      = "up to the limit, on one side only"
)

// demoTrials is how many trials a lesson makes: enough for a chance to a tenth of
// a per cent, and quick in a browser.
const demoTrials = 100_000

// Share is one share as it is typed.
type Share struct {
	Source string
	Value  unit.Length
	Spread string
	Width  unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Shares []Share
	Limit  unit.Length
	Sides  string
	// Pieces are ordered, and Wanted is the chance that the shop asks for before
	// it promises a piece.
	Pieces int
	Wanted float64
	// MeasureU is the standard uncertainty of the inspection, Guard how many of
	// it each limit is drawn in by.
	MeasureU unit.Length
	Guard    float64
	// First and Second, counted from 1, go together by Together.
	First, Second int
	Together      float64
}

// Defaults returns an order for twenty blocks square within 0.02 mm over 60 mm,
// to be milled in the action shop's vise.
func Defaults() Inputs {
	return Inputs{
		Shares: []Share{
			{"Table leans here, head set mid-table", 6 * um, string(squaring.FixedSpread), 0 * um},
			{"Jaw after shimming", 2 * um, string(squaring.NormalSpread), 3 * um},
			{"Jaw lifts the work", 0 * um, string(squaring.NormalSpread), 5 * um},
			{"Dirt and burr under the block", 0 * um, string(squaring.RectangularSpread), 4 * um},
			{"Head after tightening", 0 * um, string(squaring.NormalSpread), 0.5 * um},
			{"Square that sets the jaw", 0 * um, string(squaring.RectangularSpread), 1 * um},
		},
		Limit: 20 * um, Sides: eitherWay, Pieces: 20, Wanted: 0.95,
		MeasureU: 2 * um, Guard: 1, First: 2, Second: 6, Together: 0,
	}
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fine := []notebook.Unit{notebook.Micrometre, notebook.Millimetre, notebook.Thou}
	measure := func(name, label, help string, limits notebook.Limits, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: fine, Limits: limits})
	}
	spreads := []string{string(squaring.FixedSpread), string(squaring.NormalSpread), string(squaring.RectangularSpread), string(squaring.TriangularSpread)}
	fields := []notebook.Field{
		notebook.Rows("shares", &in.Shares, notebook.Spec{Label: "What goes into the error", Help: "One line a source, each as what it does to this piece of work, not as a slope.",
			MinRows: 1, MaxRows: 20}, func(s *Share) []notebook.Field {
			if s.Spread == "" {
				s.Spread = string(squaring.NormalSpread)
			}
			return []notebook.Field{
				notebook.Words("source", &s.Source, notebook.Spec{Label: "Source", Help: "In your own words."}),
				measure("value", "On the mean", "What it adds to every piece, with its sign.", notebook.Between(-10*mm, 10*mm), &s.Value),
				notebook.Choice("spread", &s.Spread, notebook.Spec{Label: "Varies", Help: "Fixed: the same on each. Normal: mostly near the middle. Rectangular: anywhere within the width. Triangular: never beyond it, and mostly near the middle.", Options: spreads}),
				measure("width", "By", "Standard deviation if normal, half the whole width if rectangular or triangular; not used if fixed.", notebook.Between(0*mm, 10*mm), &s.Width),
			}
		}),
		measure("limit", "The drawing allows", "The limit of the error.", notebook.AboveUpTo(0*mm, 10*mm), &in.Limit),
		notebook.Choice("sides", &in.Sides, notebook.Spec{Label: "It is meant", Help: "Squareness is mostly either way; run-out and flatness only up.", Options: []string{eitherWay, upTo}}),
	}
	fields = append(fields, notebook.Grouped("The order and its inspection",
		notebook.Count("pieces", &in.Pieces, notebook.Spec{Label: "Pieces ordered", Help: "Good ones to be delivered.", Limits: notebook.Between(1.0, 1e6)}),
		notebook.Number("wanted", &in.Wanted, notebook.Spec{Label: "Chance that you ask for", Help: "Before you promise a piece: 0.95 is nineteen in twenty.", Limits: notebook.Between(0.5, 0.9999)}),
		measure("measure-u", "Standard uncertainty of the inspection", "Of measuring a finished piece; 0 when none is measured.", notebook.Between(0*mm, 10*mm), &in.MeasureU),
		notebook.Number("guard", &in.Guard, notebook.Spec{Label: "Draw each limit in by how many of it", Help: "0 accepts up to the limit, 2 is the full guard band.", Limits: notebook.Between(0.0, 5.0)}),
	)...)
	return append(fields, notebook.Grouped("Two shares that go together",
		notebook.Count("first", &in.First, notebook.Spec{Label: "The one, by its line", Help: "Counted from 1.", Limits: notebook.Between(1.0, 20.0)}),
		notebook.Count("second", &in.Second, notebook.Spec{Label: "The other, by its line", Help: "Counted from 1.", Limits: notebook.Between(1.0, 20.0)}),
		notebook.Number("together", &in.Together, notebook.Spec{Label: "Correlation", Help: "0 when they have nothing to do with one another, 1 when one follows the other, −1 when it goes against.", Limits: notebook.Between(-1.0, 1.0)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "order",
		Title:    "Can I take this order?",
		Question: "Everything on my machine is a little out. Do the shares fit into this tolerance, and what do I mend first?",
		Asked:    "Can I promise that?",
		Track:    notebook.Deciding,
		Summary: "Every error of machine, vise and gauge is a share of the work's error. From the shares follow the chance that a piece is good, " +
			"how many to start, what inspection lets through, and which share to improve first.",
		Minutes: 12,
		After:   []string{"facetilt", "longrail"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// order returns the order as the domain knows it.
func (in Inputs) order() (squaring.Order, error) {
	o := squaring.Order{Tolerance: squaring.Within(float64(in.Limit))}
	if in.Sides == upTo {
		o.Tolerance.Low = math.Inf(-1)
	}
	for _, s := range in.Shares {
		o.Shares = append(o.Shares, squaring.OrderShare{Source: s.Source, Value: float64(s.Value), Spread: squaring.Spread(s.Spread), Width: float64(s.Width)})
	}
	if in.Together != 0 {
		n := len(in.Shares)
		if in.First > n || in.Second > n || in.First == in.Second {
			return o, notebook.InField("second", fmt.Errorf("shares %d and %d cannot go together: name two of the %d lines", in.First, in.Second, n))
		}
		o.Correlations = []squaring.Correlation{{First: in.First - 1, Second: in.Second - 1, Coefficient: in.Together}}
	}
	return o, nil
}

// worked is the order worked out both ways.
type worked struct {
	order    squaring.Order
	forecast squaring.Forecast
	trials   squaring.Trials
	accept   squaring.Tolerance
}

// work works the order out.
func (in Inputs) work() (worked, error) {
	o, err := in.order()
	if err != nil {
		return worked{}, err
	}
	w := worked{order: o}
	if w.forecast, err = o.Forecast(); err != nil {
		return w, notebook.InField("shares", err)
	}
	if w.accept, err = o.Tolerance.Accept(in.Guard, float64(in.MeasureU)); err != nil {
		return w, notebook.InField("guard", err)
	}
	w.trials, err = o.Trials(squaring.TrialOptions{Trials: demoTrials, Seed: 1,
		Inspection: squaring.Inspection{Uncertainty: float64(in.MeasureU), Accept: w.accept}})
	return w, notebook.InField("together", err)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{answerItems, shareItems, inspectItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
