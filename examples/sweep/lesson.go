// Package sweep is the lesson "Once round the clock": what a dial swung round by
// the spindle says of the head, how surely, and what that does to the work.
package sweep

import (
	"errors"
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

// How the stylus comes to each place.
const (
	overBlock = "a block is slid under the stylus"
	dragged   = "the stylus is dragged round"
)

// Reading is one place of the sweep and what the dial showed there.
type Reading struct {
	Azimuth unit.Angle
	Shown   unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Division, ReadTo and Turn are the dial's mark, the fraction of it that is
	// read, and one turn of the hand (nil when it cannot go round).
	Division unit.Length
	ReadTo   float64
	Turn     *unit.Length
	// Gain, GainU and Hysteresis come from a run over gauge blocks.
	Gain, GainU float64
	Hysteresis  unit.Length
	// StylusAngle is between a lever and the surface.
	StylusAngle, StylusAngleU unit.Angle
	// Radius is from the spindle's centre to the stylus.
	Radius, RadiusU unit.Length
	// AzimuthU is how surely each place was found.
	AzimuthU unit.Angle
	// Approach is overBlock or dragged.
	Approach string
	Readings []Reading
	// Closing is the reading back at the first place; nil when not taken.
	Closing *unit.Length
	// PivotBehind is how far behind the spindle the head's nod pivot lies.
	PivotBehind unit.Length
	// Limit is the tilt that the work allows, either way in each direction.
	Limit squaring.Slope
	// Cutter, Width and StepOver are of a face to be cut, Depth of a hole.
	Cutter, Width, StepOver, Depth unit.Length
}

// Defaults returns the action shop's sweep of 2025-05-24, head as found, with
// the gain that dial A showed over gauge blocks.
func Defaults() Inputs {
	sweep := actionshop.SweepAsFound()
	readings := make([]Reading, len(sweep.Readings))
	for i, shown := range sweep.Readings {
		readings[i] = Reading{Azimuth: unit.Angle(45*i) * squaring.Degree, Shown: shown}
	}
	turn, dial := actionshop.LeverTurn, dialA()
	return Inputs{
		Division: actionshop.LeverDivision, ReadTo: 0.5, Turn: &turn,
		Gain: rounded(dial.Gain, 4), GainU: rounded(dial.GainU, 4), Hysteresis: 0.2 * squaring.Thou,
		StylusAngle: 0 * squaring.Degree, StylusAngleU: 5 * squaring.Degree,
		Radius: actionshop.SweepRadius, RadiusU: 0.5 * mm, AzimuthU: 2 * squaring.Degree,
		Approach: overBlock, Readings: readings, Closing: &sweep.Closing,
		PivotBehind: 0 * mm, Limit: 0.025 * squaring.MillimetrePer300,
		Cutter: 120 * mm, Width: 90 * mm, StepOver: 50 * mm, Depth: 60 * mm,
	}
}

// dialA calibrates the lever on the sweep arm from its run over gauge blocks.
func dialA() squaring.Calibration {
	run := actionshop.DialRuns()[0]
	var readings []squaring.BlockReading
	for _, b := range run.Blocks {
		readings = append(readings, squaring.BlockReading{Block: b.Block, Shown: b.Rising},
			squaring.BlockReading{Block: b.Block, Shown: b.Falling, Falling: true})
	}
	calibration, err := squaring.CalibrateIndicator(readings, run.Step)
	if err != nil {
		// The demo data are ours and tested.
		panic(err)
	}
	return calibration
}

// rounded rounds a number that is typed into the form to the decimals shown.
func rounded(x float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(x*p) / p
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := sweepFields(in)
	fields = append(fields, notebook.Grouped("The dial", dialFields(in)...)...)
	fields = append(fields, notebook.Grouped("How the sweep was taken", careFields(in)...)...)
	return append(fields, notebook.Grouped("The head and the cut", workFields(in)...)...)
}

var (
	lengthUnits = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fineUnits   = []notebook.Unit{notebook.Thou, notebook.Millimetre, notebook.Micrometre, notebook.InchUnit}
	angleUnits  = []notebook.Unit{notebook.Degree}
	slopeUnits  = []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot, notebook.MillimetrePerMetre}
)

// dialFields are those of the dial.
func dialFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the dial", Help: "What one mark of the dial is worth; printed on its face.",
			Units: fineUnits, Limits: notebook.AboveUpTo(0*mm, 1*mm)}),
		notebook.Number("read-to", &in.ReadTo, notebook.Spec{Label: "Read to a fraction of a division", Help: "0.5 when you read to half a division, 1 when to the nearest mark.",
			Limits: notebook.Between(0.05, 1.0)}),
		notebook.MeasureMaybe("turn", &in.Turn, notebook.Spec{Label: "One whole turn of the hand", Help: "What the dial shows for one turn. A reading taken on the wrong turn is then found. Leave empty if the hand does not go round.",
			Units: fineUnits, Limits: notebook.AboveUpTo(0*mm, 10*mm)}),
		notebook.Number("gain", &in.Gain, notebook.Spec{Label: "Gain of the dial", Help: "What it shows over what it moves, from a run over gauge blocks. Type 1 if you have not measured it.",
			Limits: notebook.Between(0.8, 1.25)}),
		notebook.Number("gain-u", &in.GainU, notebook.Spec{Label: "Standard uncertainty of the gain", Help: "From the same run. If you have not measured the gain, 0.02 is honest.",
			Limits: notebook.Between(0.0, 0.2)}),
		notebook.Measure("hysteresis", &in.Hysteresis, notebook.Spec{Label: "Hysteresis of the dial", Help: "What it shows falling less what it shows rising, at the same height.",
			Units: fineUnits, Limits: notebook.Between(-0.1*mm, 0.1*mm)}),
		notebook.Measure("stylus", &in.StylusAngle, notebook.Spec{Label: "Angle of the lever to the surface", Help: "0 when the lever lies along the surface, and for a plunger square to it.",
			Units: angleUnits, Limits: notebook.Between(0*squaring.Degree, 60*squaring.Degree)}),
		notebook.Measure("stylus-u", &in.StylusAngleU, notebook.Spec{Label: "Standard uncertainty of that angle", Help: "By eye, about 5°.",
			Units: angleUnits, Limits: notebook.Between(0*squaring.Degree, 20*squaring.Degree)}),
	}
}

// sweepFields are those of the sweep.
func sweepFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("radius", &in.Radius, notebook.Spec{Label: "Radius of the sweep", Help: "From the spindle's centre to the tip of the stylus.",
			Units: lengthUnits, Limits: notebook.Between(5*mm, 2000*mm)}),
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Readings", Help: "In the order taken. 0° is to the right, 90° at the column, anticlockwise seen from above. Plus means the dial's stem is pushed in: the table is higher there.",
			MinRows: 3, MaxRows: 72}, func(r *Reading) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("azimuth", &r.Azimuth, notebook.Spec{Label: "Azimuth", Help: "0° right, 90° rear, 180° left, 270° front.",
					Units: angleUnits, Limits: notebook.Between(-720*squaring.Degree, 720*squaring.Degree)}),
				notebook.Measure("shown", &r.Shown, notebook.Spec{Label: "Dial shows", Help: "From wherever the dial was zeroed.",
					Units: fineUnits, Limits: notebook.Between(-100*mm, 100*mm), Decimals: 2}),
			}
		}),
		notebook.MeasureMaybe("closing", &in.Closing, notebook.Spec{Label: "Closing reading", Help: "Back at the first azimuth after the whole turn. Leave empty if you did not take it.",
			Units: fineUnits, Limits: notebook.Between(-100*mm, 100*mm), Decimals: 2}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Tilt that the work allows", Help: "Either way, in each direction.",
			Units: slopeUnits, Limits: notebook.AboveUpTo(0, 10e-3)}),
	}
}

// careFields say with what care the sweep was taken.
func careFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Choice("approach", &in.Approach, notebook.Spec{Label: "How the stylus comes to each place", Help: "A block slid under brings the dial up every time, so that its hysteresis drops out.",
			Options: []string{overBlock, dragged}}),
		notebook.Measure("radius-u", &in.RadiusU, notebook.Spec{Label: "Standard uncertainty of the radius", Help: "With a rule, about 0.5 mm.",
			Units: lengthUnits, Limits: notebook.Between(0*mm, 50*mm)}),
		notebook.Measure("azimuth-u", &in.AzimuthU, notebook.Spec{Label: "Standard uncertainty of each azimuth", Help: "By eye, about 2°.",
			Units: angleUnits, Limits: notebook.Between(0*squaring.Degree, 20*squaring.Degree)}),
	}
}

// workFields are those of the head and of the work.
func workFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Measure("pivot", &in.PivotBehind, notebook.Spec{Label: "Nod pivot behind the spindle", Help: "How far the pivot of the nod lies toward the column from the spindle's centre. With 0, trust the differences between front and rear and not the readings themselves.",
			Units: lengthUnits, Limits: notebook.Between(-1000*mm, 1000*mm)}),
		notebook.Measure("cutter", &in.Cutter, notebook.Spec{Label: "Diameter of the facing cutter", Help: "The circle of its edges.",
			Units: lengthUnits, Limits: notebook.AboveUpTo(0*mm, 1000*mm)}),
		notebook.Measure("width", &in.Width, notebook.Spec{Label: "Width of one pass", Help: "At most the cutter's diameter.",
			Units: lengthUnits, Limits: notebook.AboveUpTo(0*mm, 1000*mm)}),
		notebook.Measure("step-over", &in.StepOver, notebook.Spec{Label: "Step from pass to pass", Help: "0 for a single pass.",
			Units: lengthUnits, Limits: notebook.Between(0*mm, 1000*mm)}),
		notebook.Measure("depth", &in.Depth, notebook.Spec{Label: "Depth of a hole by quill", Help: "From the top face to the bottom.",
			Units: lengthUnits, Limits: notebook.Between(0*mm, 1000*mm)}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "sweep",
		Title:    "Once round the clock",
		Question: "I swung a dial round from the spindle. Which way does the head lean, how much, and how sure is that?",
		Asked:    "I swept the head",
		Track:    notebook.Spindle,
		Summary: "A ring of dial readings gives the tilt between spindle and table in both directions, with its uncertainty, " +
			"names a misread reading, and says which way to turn the head and what will be left on the work.",
		Minutes: 15,
		After:   []string{"thousandth", "dial"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// indicator is the dial as the reader describes it.
func (in Inputs) indicator() squaring.Indicator {
	d := squaring.Indicator{Division: in.Division, ReadTo: in.ReadTo, Gain: in.Gain, GainU: in.GainU, Hysteresis: in.Hysteresis,
		StylusAngle: in.StylusAngle, StylusAngleU: in.StylusAngleU}
	if in.Turn != nil {
		d.Turn = *in.Turn
	}
	return d
}

// fit fits the sweep. A sweep whose azimuths cover too little of the circle is
// an answer too: its uncertainty says so.
func (in Inputs) fit() (squaring.Sweep, error) {
	readings := make([]squaring.SweepReading, len(in.Readings))
	for i, r := range in.Readings {
		readings[i] = squaring.SweepReading{Azimuth: r.Azimuth, Reading: r.Shown}
	}
	sweep, err := squaring.FitSweep(readings, squaring.SweepOptions{
		Radius: in.Radius, RadiusU: in.RadiusU, Indicator: in.indicator(),
		AzimuthU: in.AzimuthU, Closing: in.Closing, OneWay: in.Approach == overBlock,
	})
	var dilution *squaring.DilutionError
	if errors.As(err, &dilution) {
		err = nil
	}
	return sweep, notebook.InField("readings", err)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	if in.Width > in.Cutter {
		return nil, notebook.InField("width", fmt.Errorf("is %.4g mm, wider than the cutter, %.4g mm", float64(in.Width/mm), float64(in.Cutter/mm)))
	}
	sweep, err := in.fit()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, squaring.Sweep) error{
		setUpItems, drawingItems, answerItems, trustItems, chartItems, turnItems, workItems, mythItems, exerciseItems, checkItems,
	} {
		if err := add(sheet, in, sweep); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
