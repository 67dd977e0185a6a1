// Package jaw is the lesson "Jaw: twist, hollow, lean, lift": a dial run along
// the fixed jaw, up a block against it, and on the work while it is clamped.
package jaw

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

// Point is one reading along the jaw.
type Point struct{ Place, Shown unit.Length }

// Trial is a block squared in one way of holding: how far its second face is out
// over its height, by a square and by turning the block end for end.
type Trial struct {
	Holding             string
	BySquare, ByReverse unit.Length
}

// The ways of holding, as the shop's trials name them.
const (
	asClamped = "as clamped"
	withBar   = "round bar at the moving jaw"
	withShim  = "round bar, and a shim high on the fixed jaw"
)

// Inputs is what the lesson asks for.
type Inputs struct {
	Step unit.Length
	// Run is the last run along the jaw, Before the one before the last tap;
	// it may be empty.
	Run, Before []Point
	// Bolt is the place of the bolt about which the vise turns, Tap the place
	// where it is tapped.
	Bolt, Tap unit.Length
	// Lean is how far the jaw's face leans back over JawHeight, read up a ground
	// block against it; LeanOver the same with the block upside down, nil when
	// not read.
	Lean, JawHeight unit.Length
	LeanOver        *unit.Length
	// Trials are blocks that were squared; they may be empty.
	Trials []Trial
	// Lift is how far the work rises on clamping.
	Lift unit.Length
	// Part is the length of a part along the jaw, High its height, Deep its
	// depth from jaw to jaw.
	Part, High, Deep unit.Length
	// Limit is what the work allows of turn and lean.
	Limit squaring.Slope
}

// Defaults returns the action shop's last two settings of the vise, and its
// blocks.
func Defaults() Inputs {
	runs := actionshop.JawRuns()
	in := Inputs{Step: actionshop.JawStep, Run: points(runs[3]), Before: points(runs[2]), Bolt: 0 * mm, Tap: 60 * mm,
		Lean: actionshop.JawLean, JawHeight: actionshop.JawHeight, Lift: actionshop.JawLift, Part: 60 * mm, High: actionshop.BlockSize, Deep: actionshop.BlockSize, Limit: 0.05 * squaring.MillimetrePer300}
	for _, b := range actionshop.BlockTrials() {
		in.Trials = append(in.Trials, Trial(b))
	}
	return in
}

func points(run actionshop.JawRun) []Point {
	var rows []Point
	for i, place := range actionshop.JawPlaces() {
		rows = append(rows, Point{place, run.Readings[i]})
	}
	return rows
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre}
	place := func(name, label, help string, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: lengths, Limits: notebook.Between(-1000*mm, 1000*mm)})
	}
	size := func(name, label, help string, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: lengths, Limits: notebook.AboveUpTo(0*mm, 1000*mm)})
	}
	reading := func(name, label, help string, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: fine, Limits: notebook.Between(-10*mm, 10*mm), Decimals: 3})
	}
	run := func(name, label, help string, least int, rows *[]Point) notebook.Field {
		return notebook.Rows(name, rows, notebook.Spec{Label: label, Help: help, MinRows: least, MaxRows: 60}, func(p *Point) []notebook.Field {
			return []notebook.Field{place("place", "Place", "From the middle of the jaw, right is plus.", &p.Place), reading("shown", "Dial", "Plus when its stem is pushed in.", &p.Shown)}
		})
	}
	return []notebook.Field{
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The dial is read to", Help: "Its division, or half of it.", Units: fine, Limits: notebook.Between(0*mm, 0.1*mm)}),
		run("run", "Along the jaw, now", "The table moves, the dial stays.", 3, &in.Run),
		run("before", "Along the jaw, before the last tap", "May be empty.", 0, &in.Before),
		place("bolt", "Place of the bolt that stays", "About which the vise turns when it is tapped.", &in.Bolt),
		place("tap", "Place where you tap", "Along the jaw, from its middle.", &in.Tap),
		reading("lean", "The jaw leans back by", "Dial up a ground block held against the fixed jaw, over the height below; plus when its top stands away from the work.", &in.Lean),
		size("jaw-height", "Height over which that was read", "About the height of the jaw.", &in.JawHeight),
		notebook.MeasureMaybe("lean-over", &in.LeanOver, notebook.Spec{Label: "The same, block upside down", Help: "Turned over, the block's own error drops out. Leave empty if not read.",
			Units: fine, Limits: notebook.Between(-10*mm, 10*mm), Decimals: 3}),
		reading("lift", "The work rises on clamping by", "Dial on top of the work beside the moving jaw while you clamp.", &in.Lift),
		size("part", "Length of a part along the jaw", "What is going to be held.", &in.Part),
		size("high", "Height of the part", "From its bottom to the face that is cut.", &in.High),
		size("deep", "Depth of the part, jaw to jaw", "The distance that the jaws hold.", &in.Deep),
		notebook.Rows("trials", &in.Trials, notebook.Spec{Label: "Blocks squared", Help: "How far the second face is out over the height of the part. May be empty.", MaxRows: 30},
			func(t *Trial) []notebook.Field {
				return []notebook.Field{
					notebook.Choice("holding", &t.Holding, notebook.Spec{Label: "Held", Help: "How it was clamped.", Options: []string{asClamped, withBar, withShim}}),
					reading("square", "By a square", "Reading change over the height.", &t.BySquare),
					reading("reverse", "By turning it", "Block turned end for end: twice the error.", &t.ByReverse),
				}
			}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Out of square that is allowed", Help: "Either way.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "jaw",
		Title:    "Jaw: twist, hollow, lean, lift",
		Question: "I indicated the vise to zero at both ends and the blocks still come out wrong. What is the matter with it?",
		Asked:    "I indicated the vise",
		Track:    notebook.Holding,
		Summary: "Four things are wrong with a vise, each with a reading of its own: the jaw is turned to the travel, worn hollow, leans, and lifts the work. " +
			"The lesson tells them apart and says what each does to a block.",
		Minutes: 12,
		After:   []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is everything worked out.
type result struct {
	run, before squaring.JawRun
	hasBefore   bool
	lean        squaring.MeasuredSlope
}

// work fits the runs and the block.
func (in Inputs) work() (result, error) {
	var r result
	var err error
	if r.run, err = fit(in.Run, in.Step); err != nil {
		return r, notebook.InField("run", err)
	}
	if r.hasBefore = len(in.Before) > 0; r.hasBefore {
		if r.before, err = fit(in.Before, in.Step); err != nil {
			return r, notebook.InField("before", err)
		}
	}
	if r.lean, err = in.leanOfJaw(); err != nil {
		return r, notebook.InField("jaw-height", err)
	}
	if in.Tap == in.Bolt {
		return r, notebook.InField("tap", fmt.Errorf("is the same place as the bolt: the vise would not turn"))
	}
	return r, nil
}

// leanOfJaw is the jaw's lean, the block's own error taken out when it was
// turned over.
func (in Inputs) leanOfJaw() (squaring.MeasuredSlope, error) {
	// Each lean is the difference of two rounded readings.
	u := squaring.Indicator{Division: in.Step, ReadTo: 1}.RoundingU() * unit.Length(math.Sqrt2)
	rise := in.Lean
	if in.LeanOver != nil {
		rise, u = (in.Lean+*in.LeanOver)/2, u/unit.Length(math.Sqrt2)
	}
	return squaring.MeasureSlope(rise, u, in.JawHeight, 0*mm)
}

func fit(rows []Point, step unit.Length) (squaring.JawRun, error) {
	points := make([]squaring.JawPoint, len(rows))
	for i, p := range rows {
		points[i] = squaring.JawPoint{Place: p.Place, Reading: p.Shown}
	}
	return squaring.FitJawRun(points, step)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, result) error{setUpItems, turnItems, hollowItems, leanItems, liftItems, blockItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, r); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
