// Package square is the lesson "The square turned round": the lean of the knee
// and the square's own error, told apart by turning the square end for end.
package square

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

// Reading is one height: what the dial showed in each position of the square.
type Reading struct {
	Height         unit.Length
	Marked, Turned unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Step  unit.Length
	X, Y  []Reading
	Rise  unit.Length
	Limit squaring.Slope
}

// Defaults returns the action shop's readings.
func Defaults() Inputs {
	in := Inputs{Step: actionshop.SquareStep, Rise: 120 * mm, Limit: 0.025 * squaring.MillimetrePer300}
	for _, run := range actionshop.SquareRuns() {
		var rows []Reading
		for i, h := range actionshop.SquareHeights() {
			rows = append(rows, Reading{h, run.Marked[i], run.Turned[i]})
		}
		if run.Axis == "X" {
			in.X = rows
		} else {
			in.Y = rows
		}
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre}
	run := func(name, label, help string, rows *[]Reading) notebook.Field {
		return notebook.Rows(name, rows, notebook.Spec{Label: label, Help: help, MaxRows: 40}, func(r *Reading) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("height", &r.Height, notebook.Spec{Label: "Knee raised by", Help: "From the first reading.", Units: lengths, Limits: notebook.Between(-1000*mm, 1000*mm)}),
				notebook.Measure("marked", &r.Marked, notebook.Spec{Label: "As marked", Help: "Dial, square as marked.", Units: fine, Limits: notebook.Between(-10*mm, 10*mm), Decimals: 3}),
				notebook.Measure("turned", &r.Turned, notebook.Spec{Label: "Turned", Help: "Dial, square turned end for end.", Units: fine, Limits: notebook.Between(-10*mm, 10*mm), Decimals: 3}),
			}
		})
	}
	return []notebook.Field{
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The dial is read to", Help: "Its division, or half of it.", Units: fine, Limits: notebook.Between(0*mm, 0.1*mm)}),
		run("x", "Blade facing along x", "Dial on the right of the blade; plus when its stem is pushed in. May be empty.", &in.X),
		run("y", "Blade facing along y", "Dial at the back of the blade; plus when its stem is pushed in. May be empty.", &in.Y),
		notebook.Measure("rise", &in.Rise, notebook.Spec{Label: "The knee moves between two tools by", Help: "Say from a drill to a reamer.", Units: lengths, Limits: notebook.Between(0*mm, 1000*mm)}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Lean of the knee that is allowed", Help: "Either way, in each direction.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "square",
		Title:    "The square turned round",
		Question: "Does the knee lean, or is my square out?",
		Asked:    "I raised the knee past a square",
		Track:    notebook.Ways,
		Summary:  "A square read as marked and turned end for end gives the lean of the knee and the square's own error apart, and what the lean does to a hole when the knee moves between two tools.",
		Minutes:  10,
		After:    []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the answer in one direction.
type result struct {
	name, plus string
	rows       []Reading
	read       bool
	square     squaring.SquareReversal
}

// results works both directions.
func (in Inputs) results() ([2]result, error) {
	results := [2]result{{name: "along x", plus: "right", rows: in.X}, {name: "along y", plus: "back", rows: in.Y}}
	for i, field := range []string{"x", "y"} {
		r := &results[i]
		if len(r.rows) == 0 {
			continue
		}
		var readings []squaring.EdgeReading
		for _, row := range r.rows {
			readings = append(readings, squaring.EdgeReading{Height: row.Height, Reading: row.Marked}, squaring.EdgeReading{Height: row.Height, Reading: row.Turned, Turned: true})
		}
		var err error
		if r.square, err = squaring.ReverseSquare(readings, in.Step); err != nil {
			return results, notebook.InField(field, err)
		}
		r.read = true
	}
	if !results[0].read && !results[1].read {
		return results, notebook.InField("x", fmt.Errorf("is empty, and so is the other direction: there is nothing to work on"))
	}
	return results, nil
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	results, err := in.results()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, [2]result) error{setUpItems, answerItems, chartItems, workItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, results); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
