// Package dial is the lesson "Which dial can I believe?": gain, hysteresis and
// scatter of a dial from a run over gauge blocks, and the slanted stylus.
package dial

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

// Block is one gauge block of a run.
type Block struct{ Height, Rising, Falling unit.Length }

// Inputs is what the lesson asks for.
type Inputs struct {
	Step   unit.Length
	Blocks []Block
	// Reading is a reading that is going to be corrected, Span the span over
	// which it is read.
	Reading, Span unit.Length
	StylusAngle   unit.Angle
	StylusAngleU  unit.Angle
}

// Defaults returns the action shop's dial C, the worst of its four.
func Defaults() Inputs {
	run := actionshop.DialRuns()[2]
	in := Inputs{Step: run.Step, Reading: 0.1 * mm, Span: actionshop.GaugeSpan}
	for _, b := range run.Blocks {
		in.Blocks = append(in.Blocks, Block{b.Block, b.Rising, b.Falling})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fine := []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.InchUnit, notebook.Micrometre}
	reading := func(name, label, help string, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: fine, Limits: notebook.Between(-100*mm, 100*mm), Decimals: 4})
	}
	return []notebook.Field{
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The dial is read to", Help: "Half a division, say.", Units: fine, Limits: notebook.Between(0*mm, 1*mm)}),
		notebook.Rows("blocks", &in.Blocks, notebook.Spec{Label: "Run over gauge blocks", Help: "Up through the blocks, and down again without changing the zero. Heights count from the first block.", MinRows: 2, MaxRows: 60},
			func(b *Block) []notebook.Field {
				return []notebook.Field{reading("block", "Block", "Height above the first one.", &b.Height), reading("rising", "Rising", "Shown on the way up.", &b.Rising), reading("falling", "Falling", "Shown on the way down.", &b.Falling)}
			}),
		reading("reading", "A reading to correct", "What the dial shows, from its zero.", &in.Reading),
		notebook.Measure("span", &in.Span, notebook.Spec{Label: "Span over which it is read", Help: "The bar, or the diameter of the sweep.", Units: []notebook.Unit{notebook.Millimetre, notebook.InchUnit}, Limits: notebook.AboveUpTo(0*mm, 5000*mm)}),
		notebook.Measure("stylus", &in.StylusAngle, notebook.Spec{Label: "Angle of a lever to the surface", Help: "0 for a plunger square to it, or a lever lying along it. The run above was made at 0.", Units: []notebook.Unit{notebook.Degree}, Limits: notebook.Between(0*squaring.Degree, 60*squaring.Degree)}),
		notebook.Measure("stylus-u", &in.StylusAngleU, notebook.Spec{Label: "Standard uncertainty of that angle", Help: "By eye, about 5°.", Units: []notebook.Unit{notebook.Degree}, Limits: notebook.Between(0*squaring.Degree, 20*squaring.Degree)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "dial",
		Title:    "Which dial can I believe?",
		Question: "How far can I trust what the dial shows?",
		Asked:    "I want to check a dial",
		Track:    notebook.Foundations,
		Summary: "A run over gauge blocks, up and down again, gives a dial's gain, its hysteresis and its scatter, each with its uncertainty, " +
			"and says what they do to a reading and to a tilt.",
		Minutes: 10,
		After:   []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// fit calibrates the dial.
func (in Inputs) fit() (squaring.Calibration, error) {
	c, err := squaring.CalibrateIndicator(readings(in.Blocks), in.Step)
	return c, notebook.InField("blocks", err)
}

// readings lists a run, each block rising and falling.
func readings(blocks []Block) []squaring.BlockReading {
	var list []squaring.BlockReading
	for _, b := range blocks {
		list = append(list, squaring.BlockReading{Block: b.Height, Shown: b.Rising}, squaring.BlockReading{Block: b.Height, Shown: b.Falling, Falling: true})
	}
	return list
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	c, err := in.fit()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, squaring.Calibration) error{setUpItems, answerItems, correctItems, shopItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, c); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
