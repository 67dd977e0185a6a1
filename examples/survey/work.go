package survey

import (
	"errors"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// outcome is the adjusted survey with the features that the page shows.
type outcome struct {
	in         Inputs
	adjustment *squaring.Adjustment
}

// Work is the lesson's pure function: one adjustment of every reading.
func Work(in Inputs) (*notebook.Sheet, error) {
	adjustment, err := adjust(in)
	if err != nil {
		return nil, err
	}
	o := outcome{in, adjustment}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		o.answerItems, o.machineItems, o.motionItems, o.gaugeItems, o.aloneItems,
		o.unknownItems, o.suspectItems, o.nextItems, o.setUpItems, questionsAndChecks,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// questionsAndChecks adds what depends on no input: the exercises on the shop's
// readings, and the checks.
var questionsAndChecks = notebook.Once(func(s *notebook.Sheet) error { return errors.Join(exerciseItems(s), checkItems(s)) })

// feature is one thing that a person wants to know of the machine.
type feature struct {
	name, label string
	squaring.Feature
}

// features returns what the page tells of the machine, in order.
func features(in Inputs) []feature {
	work := -in.Place
	return []feature{
		{"side-middle", "Side tilt of the head, table in the middle", squaring.SpindleSquareness(in.Head, "", squaring.AlongX, 0)},
		{"nod-middle", "Nod of the head, table in the middle", squaring.SpindleSquareness(in.Head, "", squaring.AlongY, 0)},
		{"side-work", "Side tilt of the head at the work", squaring.SpindleSquareness(in.Head, "", squaring.AlongX, work)},
		{"nod-work", "Nod of the head at the work", squaring.SpindleSquareness(in.Head, "", squaring.AlongY, work)},
		{"bow", "Bow of the part", squaring.PartBow("", in.Place, in.Length)},
		{"hole", "Lean of a hole by the quill, to the right", squaring.ToolDeviation(in.Head, "", squaring.Position{X: work, Quill: in.Depth})[0]},
		{"knee-x", "Lean of the knee in x", squaring.KneeLean("", squaring.AlongX)},
		{"knee-y", "Lean of the knee in y", squaring.KneeLean("", squaring.AlongY)},
		{"skew", "Travels out of square", squaring.TravelSquareness("")},
		{"jaw-angle", "Turn of the vise's jaw to the travel", squaring.JawAngle(theJaw, "", in.JawMiddle, in.JawWidth)},
		{"jaw-hollow", "Hollow of the jaw", squaring.JawHollow(theJaw)},
		{"level-x", "Lean of the table to level along x", squaring.LeanToLevel("", squaring.AlongX)},
		{"level-y", "Lean of the table to level along y", squaring.LeanToLevel("", squaring.AlongY)},
	}
}

// goalOf returns the feature that the reader cares about most.
func goalOf(in Inputs) feature {
	byGoal := map[string]string{goalBow: "bow", goalSide: "side-work", goalNod: "nod-work", goalKneeX: "knee-x", goalKneeY: "knee-y"}
	all := features(in)
	for _, f := range all {
		if f.name == byGoal[in.Goal] {
			return f
		}
	}
	return all[4]
}

// pairOf is the pair of units for a kind of value.
func pairOf(kind squaring.SurveyKind) notebook.Pair {
	if kind == squaring.SlopeValue {
		return notebook.Slopes
	}
	return notebook.FineLengths
}

// told reports whether readings, not assumptions alone, tell an estimate.
func told(e squaring.Estimate) bool { return e.Determined && e.FromPrior < 0.95 }

// quantity is an estimate as the page shows it.
func quantity(e squaring.Estimate) notebook.Quantity {
	return notebook.Of(e.Value, e.U, pairOf(e.Kind))
}

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

// tidied is a value without an uncertainty, to a tenth of a micrometre or of a
// micrometre a metre.
func tidied(x float64, kind squaring.SurveyKind) notebook.Quantity {
	return notebook.Stepped(x, 0.1e-6, pairOf(kind))
}

// notTold says why a figure is not known.
const notTold = "these readings do not tell it"
