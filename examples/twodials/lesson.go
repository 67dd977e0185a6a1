// Package twodials is the lesson "Two dials, half a turn": a two-dial gauge in
// the spindle, and how to tell a tilted head from dials that disagree.
package twodials

import (
	"fmt"
	"time"

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
	sideToSide  = "side to side"
	frontToBack = "front to back"
	asMarked    = "as marked"
	halfTurned  = "turned half a turn"
	anySide     = "from either side"
	oneSide     = "always from the same side"
)

// Pair is one pair of readings.
type Pair struct {
	Direction, Position string
	First, Second       unit.Length
}

// Visit is one earlier reading of the gauge, both ways.
type Visit struct {
	Day                                    time.Time
	Head, Direction                        string
	First, Second, FirstTurned, SecondTurn unit.Length
}

// Dial is one of the two dials.
type Dial struct {
	Gain, GainU float64
	Hysteresis  unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Span, SpanU   unit.Length
	Division      unit.Length
	ReadTo        float64
	First, Second Dial
	Approach      string
	// Day is when Pairs were read; Visits are other readings of the gauge.
	Day           time.Time
	Pairs         []Pair
	Visits        []Visit
	Limit         squaring.Slope
	Cutter, Width unit.Length
	StepOver      unit.Length
}

// Defaults returns the action shop's gauge as it was when the head was set on
// 2023-05-20, and every other reading of it.
func Defaults() Inputs {
	in := Inputs{
		Span: actionshop.GaugeSpan, SpanU: 0.2 * mm, Division: 0.01 * mm, ReadTo: 0.5,
		First: dial(1), Second: dial(2), Approach: anySide,
		Limit: 0.025 * squaring.MillimetrePer300, Cutter: 120 * mm, Width: 90 * mm, StepOver: 50 * mm,
	}
	directions := map[string]string{"X": sideToSide, "Y": frontToBack}
	for _, r := range actionshop.GaugeReadings() {
		if r.Head == "left" && r.Date.Year() == 2023 {
			in.Day = r.Date
			in.Pairs = append(in.Pairs, Pair{directions[r.Axis], asMarked, r.B, r.C}, Pair{directions[r.Axis], halfTurned, r.BTurned, r.CTurned})
			continue
		}
		in.Visits = append(in.Visits, Visit{r.Date, r.Head, directions[r.Axis], r.B, r.C, r.BTurned, r.CTurned})
	}
	return in
}

// dial calibrates one of the shop's dials from its run over gauge blocks.
func dial(which int) Dial {
	run := actionshop.DialRuns()[which]
	var readings []squaring.BlockReading
	for _, b := range run.Blocks {
		readings = append(readings, squaring.BlockReading{Block: b.Block, Shown: b.Rising},
			squaring.BlockReading{Block: b.Block, Shown: b.Falling, Falling: true})
	}
	c, err := squaring.CalibrateIndicator(readings, run.Step)
	if err != nil {
		// The demo data are ours and tested.
		panic(err)
	}
	return Dial{Gain: rounded(c.Gain, 1e-4), GainU: rounded(c.GainU, 1e-4), Hysteresis: unit.Length(rounded(float64(c.Hysteresis), 1e-7))}
}

// rounded rounds a value that is typed into the form.
func rounded(x, step float64) float64 { return float64(int64(x/step+0.5)) * step }

var (
	lengthUnits = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fineUnits   = []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre, notebook.InchUnit}
	directions  = []string{sideToSide, frontToBack}
)

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := []notebook.Field{
		notebook.Measure("span", &in.Span, notebook.Spec{Label: "Distance between the dials", Help: "From stem to stem along the bar.",
			Units: lengthUnits, Limits: notebook.Between(20*mm, 2000*mm)}),
		notebook.Measure("span-u", &in.SpanU, notebook.Spec{Label: "Standard uncertainty of that distance", Help: "With a rule, about 0.2 mm.",
			Units: lengthUnits, Limits: notebook.Between(0*mm, 20*mm)}),
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the dials", Help: "What one mark is worth; printed on the face.",
			Units: fineUnits, Limits: notebook.AboveUpTo(0*mm, 1*mm)}),
		notebook.Number("read-to", &in.ReadTo, notebook.Spec{Label: "Read to a fraction of a division", Help: "0.5 when you read to half a division.",
			Limits: notebook.Between(0.05, 1.0)}),
		notebook.Choice("approach", &in.Approach, notebook.Spec{Label: "How the stems come to a reading", Help: "Always from the same side, when both are lifted and let down each time: then hysteresis drops out.",
			Options: []string{anySide, oneSide}}),
	}
	fields = append(fields, dialFields("first", "first dial", &in.First)...)
	fields = append(fields, dialFields("second", "second dial", &in.Second)...)
	day := notebook.Day("day", &in.Day, notebook.Spec{Label: "Date of these readings", Help: "Their place on the charts."})
	fields = append(fields, day, pairField(&in.Pairs), visitField(&in.Visits))
	return append(fields,
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Tilt that the work allows", Help: "Either way, in each direction.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
		notebook.Measure("cutter", &in.Cutter, notebook.Spec{Label: "Diameter of the facing cutter", Help: "The circle of its edges.",
			Units: lengthUnits, Limits: notebook.AboveUpTo(0*mm, 1000*mm)}),
		notebook.Measure("width", &in.Width, notebook.Spec{Label: "Width of one pass", Help: "At most the cutter's diameter.",
			Units: lengthUnits, Limits: notebook.AboveUpTo(0*mm, 1000*mm)}),
		notebook.Measure("step-over", &in.StepOver, notebook.Spec{Label: "Step from pass to pass", Help: "0 for a single pass.",
			Units: lengthUnits, Limits: notebook.Between(0*mm, 1000*mm)}))
}

func dialFields(name, label string, d *Dial) []notebook.Field {
	return []notebook.Field{
		notebook.Number(name+"-gain", &d.Gain, notebook.Spec{Label: "Gain of the " + label, Help: "What it shows over what it moves, from a run over gauge blocks; 1 if not measured.",
			Limits: notebook.Between(0.8, 1.25)}),
		notebook.Number(name+"-gain-u", &d.GainU, notebook.Spec{Label: "Standard uncertainty of that gain", Help: "From the same run; 0.02 is honest if not measured.",
			Limits: notebook.Between(0.0, 0.2)}),
		notebook.Measure(name+"-hysteresis", &d.Hysteresis, notebook.Spec{Label: "Hysteresis of the " + label, Help: "What it shows falling less what it shows rising.",
			Units: fineUnits, Limits: notebook.Between(-0.1*mm, 0.1*mm), Decimals: 4}),
	}
}

func pairField(pairs *[]Pair) notebook.Field {
	return notebook.Rows("pairs", pairs, notebook.Spec{Label: "Readings", Help: "Side to side: the first dial is the left one as marked. Front to back: the first is the front one. Repeat a line to repeat a reading; one direction is enough.",
		MinRows: 1, MaxRows: 60}, func(p *Pair) []notebook.Field {
		return []notebook.Field{
			notebook.Choice("direction", &p.Direction, notebook.Spec{Label: "Direction", Help: "How the bar lies.", Options: directions}),
			notebook.Choice("position", &p.Position, notebook.Spec{Label: "Bar", Help: "As marked, or turned half a turn with the spindle.", Options: []string{asMarked, halfTurned}}),
			reading("first", "First dial", &p.First), reading("second", "Second dial", &p.Second),
		}
	})
}

func reading(name, label string, p *unit.Length) notebook.Field {
	return notebook.Measure(name, p, notebook.Spec{Label: label, Help: "What it shows, with its sign.",
		Units: fineUnits, Limits: notebook.Between(-100*mm, 100*mm), Decimals: 3})
}

func visitField(visits *[]Visit) notebook.Field {
	return notebook.Rows("visits", visits, notebook.Spec{Label: "Readings at other dates", Help: "One line a date and direction, both positions of the bar. May be empty.",
		MaxRows: 100}, func(v *Visit) []notebook.Field {
		return []notebook.Field{
			notebook.Day("day", &v.Day, notebook.Spec{Label: "Date", Help: "When it was read."}),
			notebook.Choice("head", &v.Head, notebook.Spec{Label: "Head", Help: "As found, or as left after setting it.", Options: []string{"found", "left"}}),
			notebook.Choice("direction", &v.Direction, notebook.Spec{Label: "Direction", Help: "How the bar lay.", Options: directions}),
			reading("first", "First", &v.First), reading("second", "Second", &v.Second),
			reading("first-turned", "First, turned", &v.FirstTurned), reading("second-turned", "Second, turned", &v.SecondTurn),
		}
	})
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "twodials",
		Title:    "Two dials, half a turn",
		Question: "Both dials on my bar show the same. Is the head square, or do the dials lie alike?",
		Asked:    "I set the head with two dials",
		Track:    notebook.Spindle,
		Summary: "A bar with two dials read once as it is and once turned half a turn gives the tilt of the head and the mismatch of the dials apart, " +
			"each with its uncertainty, and shows what setting the dials alike would have left.",
		Minutes: 12,
		After:   []string{"sweep"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// options is the gauge as the reader describes it.
func (in Inputs) options() squaring.TwoDialOptions {
	indicator := func(d Dial) squaring.Indicator {
		return squaring.Indicator{Division: in.Division, ReadTo: in.ReadTo, Gain: d.Gain, GainU: d.GainU, Hysteresis: d.Hysteresis}
	}
	return squaring.TwoDialOptions{Span: in.Span, SpanU: in.SpanU, First: indicator(in.First), Second: indicator(in.Second), OneWay: in.Approach == oneSide}
}

// result is the gauge's answer in one direction.
type result struct {
	name, minus, plus string
	read              bool
	gauge             squaring.TwoDials
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	if in.Width > in.Cutter {
		return nil, notebook.InField("width", fmt.Errorf("is %.4g mm, wider than the cutter, %.4g mm", float64(in.Width/mm), float64(in.Cutter/mm)))
	}
	results, err := in.results()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, [2]result) error{
		setUpItems, answerItems, historyItems, workItems, mythItems, exerciseItems, checkItems,
	} {
		if err := add(sheet, in, results); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// results reads both directions.
func (in Inputs) results() ([2]result, error) {
	results := [2]result{{name: sideToSide, minus: "left", plus: "right"}, {name: frontToBack, minus: "operator's side", plus: "column side"}}
	for i := range results {
		var pairs []squaring.DialPair
		for _, p := range in.Pairs {
			if p.Direction == results[i].name {
				pairs = append(pairs, squaring.DialPair{First: p.First, Second: p.Second, Turned: p.Position == halfTurned})
			}
		}
		if len(pairs) == 0 {
			continue
		}
		gauge, err := squaring.ReadTwoDials(pairs, in.options())
		if err != nil {
			return results, notebook.InField("pairs", fmt.Errorf("of the readings %s, counted by themselves: %w", results[i].name, err))
		}
		results[i].gauge, results[i].read = gauge, true
	}
	return results, nil
}
