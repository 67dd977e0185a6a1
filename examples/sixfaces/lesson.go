// Package sixfaces is the lesson "Six faces in order": how a vise's errors pass
// from face to face of a block, and which order and seat keep them small.
package sixfaces

import (
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// The words of the choices.
const (
	flatOnJaw = "flat on the fixed jaw"
	flatOnBed = "flat on the parallels"
	bar       = "a round bar at the moving jaw"
	noBar     = "clamped jaw to jaw"
)

// Inputs is what the lesson asks for.
type Inputs struct {
	Lean, LeanU     squaring.Slope
	BedX, BedY      squaring.Slope
	BedU            squaring.Slope
	Lift, LiftU     squaring.Slope
	Square, SquareU squaring.Slope
	Seat, Holding   string
	// Size is the length over which out-of-square is shown.
	Size   unit.Length
	Limit  squaring.Slope
	Wedged squaring.Slope
}

// Defaults returns the action shop's vise and square, and a 60 mm block.
func Defaults() Inputs {
	return Inputs{
		Lean: squaring.Slope(actionshop.JawLean / actionshop.JawHeight), LeanU: 20 * squaring.Microradian,
		BedU: 15 * squaring.Microradian,
		Lift: squaring.Slope(actionshop.JawLift / actionshop.BlockSize), LiftU: 30 * squaring.Microradian,
		Square: 25 * squaring.Microradian, SquareU: 5 * squaring.Microradian,
		Seat: flatOnBed, Holding: bar, Size: actionshop.BlockSize, Limit: 0.05 * squaring.MillimetrePer300, Wedged: 0.05 * squaring.MillimetrePer300,
	}
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	slopes := []notebook.Unit{notebook.MicrometrePerMetre, notebook.MillimetrePer300, notebook.ThouPerFoot, notebook.MillimetrePerMetre}
	slope := func(name, label, help string, p *squaring.Slope) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: slopes, Limits: notebook.Between(-10e-3, 10e-3), Decimals: 1})
	}
	doubt := func(name, label, help string, p *squaring.Slope) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: slopes, Limits: notebook.Between(0, 10e-3), Decimals: 1})
	}
	limit := func(name, label string, p *squaring.Slope) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: "Either way.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)})
	}
	return []notebook.Field{
		slope("lean", "The fixed jaw leans back by", "Plus when its top stands away from the work.", &in.Lean),
		doubt("lean-u", "Its standard uncertainty", "From the readings up a block.", &in.LeanU),
		slope("bed-x", "The parallels rise to the right by", "Against the cut.", &in.BedX),
		slope("bed-y", "The parallels rise to the back by", "Against the cut.", &in.BedY),
		doubt("bed-u", "Standard uncertainty of both", "Parallels, bed and chips.", &in.BedU),
		slope("lift", "Lift of the moving jaw's side", "The rise on clamping over the depth held.", &in.Lift),
		doubt("lift-u", "Its standard uncertainty", "From repeats of the clamping.", &in.LiftU),
		slope("square", "The square leans to the right by", "At its top, when the ends are set upright by it.", &in.Square),
		doubt("square-u", "Its standard uncertainty", "From turning it round.", &in.SquareU),
		notebook.Choice("seat", &in.Seat, notebook.Spec{Label: "The second of two opposite faces is cut with the block", Help: "Which of the two held faces lies flat.", Options: []string{flatOnBed, flatOnJaw}}),
		notebook.Choice("holding", &in.Holding, notebook.Spec{Label: "Held by", Help: "What touches the moving jaw.", Options: []string{bar, noBar}}),
		notebook.Measure("size", &in.Size, notebook.Spec{Label: "Size of the block", Help: "Over which out-of-square is shown.",
			Units: []notebook.Unit{notebook.Millimetre, notebook.InchUnit}, Limits: notebook.AboveUpTo(0*mm, 2000*mm)}),
		limit("limit", "Out of square that is allowed", &in.Limit),
		limit("wedged", "Taper between opposite faces that is allowed", &in.Wedged),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "sixfaces",
		Title:    "Six faces in order",
		Question: "Which face first, which way round, and where do the vise's errors end up on the block?",
		Asked:    "My block comes out a parallelogram",
		Track:    notebook.Holding,
		Summary: "Every error of jaw, bed, square and clamping passes from face to face. The lesson carries them through the six cuts and shows " +
			"which way of seating the block doubles an error and which cancels it.",
		Minutes: 12,
		After:   []string{"jaw", "square"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// errors is the vise as the reader describes it.
func (in Inputs) errors() squaring.ViseErrors {
	return squaring.ViseErrors{
		JawLean: squaring.MeasuredSlope{Slope: in.Lean, Uncertainty: in.LeanU},
		BedX:    squaring.MeasuredSlope{Slope: in.BedX, Uncertainty: in.BedU}, BedY: squaring.MeasuredSlope{Slope: in.BedY, Uncertainty: in.BedU},
		Lift:   squaring.MeasuredSlope{Slope: in.Lift, Uncertainty: in.LiftU},
		Square: squaring.MeasuredSlope{Slope: in.Square, Uncertainty: in.SquareU},
	}
}

// way is one way of doing the whole block.
type way struct {
	seat, holding string
	block         squaring.SquaredBlock
}

// work carries the errors through one way.
func (in Inputs) work(seat, holding string) (way, error) {
	on := squaring.OnBed
	if seat == flatOnJaw {
		on = squaring.OnJaw
	}
	block, err := squaring.SquareBlock(squaring.SixFaces(on, holding == noBar), in.errors())
	return way{seat, holding, block}, notebook.InField("lean", err)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	chosen, err := in.work(in.Seat, in.Holding)
	if err != nil {
		return nil, err
	}
	var ways []way
	for _, seat := range []string{flatOnBed, flatOnJaw} {
		for _, holding := range []string{bar, noBar} {
			w, err := in.work(seat, holding)
			if err != nil {
				return nil, err
			}
			ways = append(ways, w)
		}
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, way, []way) error{setUpItems, answerItems, wayItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, chosen, ways); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
