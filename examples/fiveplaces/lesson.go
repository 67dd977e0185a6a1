// Package fiveplaces is the lesson "Same head, five places": one head swept at
// several places of the table, and what of it belongs to the head, to the ways
// and to the table's top.
package fiveplaces

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

// Sweep is one round of eight readings, 45° apart from the right anticlockwise,
// at one place of the table.
type Sweep struct {
	Travel                         unit.Length
	R0, R1, R2, R3, R4, R5, R6, R7 unit.Length
	Closing                        unit.Length
}

// Run is one place of a table run under a still dial, and of the ground bar's two
// runs.
type Run struct{ Travel, Shown unit.Length }

// Bar is one place of the runs on a ground bar.
type Bar struct{ Travel, Up, Down unit.Length }

// Inputs is what the lesson asks for.
type Inputs struct {
	Sweeps   []Sweep
	Radius   unit.Length
	Division unit.Length
	Limit    squaring.Slope
	// WorkAt is the travel at which the work will be cut.
	WorkAt  unit.Length
	Run     []Run
	Bar     []Bar
	RunStep unit.Length
}

// Defaults returns the action shop's sweeps of 2025-05-24, head as left, with the
// table run and the ground bar of the same day.
func Defaults() Inputs {
	in := Inputs{Radius: actionshop.SweepRadius, Division: actionshop.LeverDivision, Limit: 0.010 * squaring.MillimetrePer300,
		WorkAt: 180 * mm, RunStep: 0.002 * mm}
	for _, s := range actionshop.SweepsAsLeft() {
		in.Sweeps = append(in.Sweeps, sweepOf(s))
	}
	_, run := actionshop.SecondTableRun()
	for _, r := range run {
		in.Run = append(in.Run, Run{r.Travel, r.Middle})
	}
	for _, b := range actionshop.GroundBar() {
		in.Bar = append(in.Bar, Bar(b))
	}
	return in
}

// sweepOf takes over a sweep of the shop.
func sweepOf(s actionshop.Sweep) Sweep {
	r := s.Readings
	return Sweep{s.Travel, r[0], r[1], r[2], r[3], r[4], r[5], r[6], r[7], s.Closing}
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre}
	lever := []notebook.Unit{notebook.Thou, notebook.Millimetre, notebook.Micrometre}
	reach := notebook.Between(-10*mm, 10*mm)
	travel := func(p *unit.Length) notebook.Field {
		return notebook.Measure("travel", p, notebook.Spec{Label: "Table at", Help: "Plus when the table has moved right.", Units: lengths, Limits: notebook.Between(-1000*mm, 1000*mm)})
	}
	fields := []notebook.Field{
		notebook.Rows("sweeps", &in.Sweeps, notebook.Spec{Label: "Sweeps", Help: "One line a place: eight readings 45° apart, from the right anticlockwise seen from above, and back at the right.",
			MinRows: 3, MaxRows: 15}, func(s *Sweep) []notebook.Field {
			columns := []notebook.Field{travel(&s.Travel)}
			places := [9]string{"right", "right rear", "rear", "left rear", "left", "left front", "front", "right front", "right again"}
			for i, p := range []*unit.Length{&s.R0, &s.R1, &s.R2, &s.R3, &s.R4, &s.R5, &s.R6, &s.R7, &s.Closing} {
				columns = append(columns, notebook.Measure(fmt.Sprintf("r%d", 45*i), p, notebook.Spec{Label: places[i], Help: fmt.Sprintf("At %d°.", 45*i), Units: lever, Limits: reach, Decimals: 2}))
			}
			return columns
		}),
		notebook.Measure("work-at", &in.WorkAt, notebook.Spec{Label: "You will cut with the table at", Help: "Where the spindle then stands over your work.", Units: lengths, Limits: notebook.Between(-1000*mm, 1000*mm)}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Tilt that the work allows", Help: "Either way, in x.",
			Units: []notebook.Unit{notebook.MillimetrePer300, notebook.MicrometrePerMetre, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
	}
	fields = append(fields, notebook.Grouped("The sweep arm",
		notebook.Measure("radius", &in.Radius, notebook.Spec{Label: "Radius of the sweep", Help: "From the spindle's centre to the tip of the stylus.", Units: lengths, Limits: notebook.Between(5*mm, 2000*mm)}),
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of its dial", Help: "Read to half of it.", Units: lever, Limits: notebook.AboveUpTo(0*mm, 1*mm)}),
	)...)
	return append(fields, notebook.Grouped("Table run and ground bar",
		notebook.Rows("run", &in.Run, notebook.Spec{Label: "Table run, dial on the table's top", Help: "Spindle and dial still, table moving.", MinRows: 3, MaxRows: 40}, func(r *Run) []notebook.Field {
			return []notebook.Field{travel(&r.Travel), notebook.Measure("shown", &r.Shown, notebook.Spec{Label: "Dial shows", Help: "From any zero.", Units: fine, Limits: reach, Decimals: 3})}
		}),
		notebook.Rows("bar", &in.Bar, notebook.Spec{Label: "The same on a ground bar", Help: "Edge up with the dial above, then rolled over with the dial below.", MinRows: 4, MaxRows: 40}, func(b *Bar) []notebook.Field {
			return []notebook.Field{travel(&b.Travel),
				notebook.Measure("up", &b.Up, notebook.Spec{Label: "Edge up", Help: "Dial above.", Units: fine, Limits: reach, Decimals: 3}),
				notebook.Measure("down", &b.Down, notebook.Spec{Label: "Edge down", Help: "Dial below.", Units: fine, Limits: reach, Decimals: 3})}
		}),
		notebook.Measure("run-step", &in.RunStep, notebook.Spec{Label: "That dial is read to", Help: "The step that you write down.", Units: fine, Limits: notebook.AboveUpTo(0*mm, 1*mm)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "fiveplaces",
		Title:    "Same head, five places",
		Question: "The head is square in the middle of the table. Is it square where I cut, and why does running the table give another answer?",
		Asked:    "Sweep and table run disagree",
		Track:    notebook.Spindle,
		Summary: "A head set at mid-table is not square elsewhere when the ways are worn. Sweeps at several places, a table run and a ground bar " +
			"part the tilt into head, ways and top, and say which of them a spanner can cure.",
		Minutes: 12,
		After:   []string{"sweep"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// fit fits one sweep.
func (in Inputs) fit(s Sweep) (squaring.Sweep, error) {
	var readings []squaring.SweepReading
	for i, r := range []unit.Length{s.R0, s.R1, s.R2, s.R3, s.R4, s.R5, s.R6, s.R7} {
		readings = append(readings, squaring.SweepReading{Azimuth: unit.Angle(45*i) * squaring.Degree, Reading: r})
	}
	return squaring.FitSweep(readings, squaring.SweepOptions{Radius: in.Radius, Closing: &s.Closing, OneWay: true, Indicator: squaring.Indicator{Division: in.Division}})
}

// split is the tilt in x at one place, parted.
type split struct {
	travel          unit.Length
	whole           squaring.MeasuredSlope
	wholeY          squaring.MeasuredSlope
	head, ways, top squaring.MeasuredSlope
}

// worked is all places with the form of the top.
type worked struct {
	places []split
	// middle is the place among them that is nearest to mid-travel.
	middle int
	form   topForm
}

// work fits every sweep and parts it.
func (in Inputs) work() (worked, error) {
	form, err := in.topForm()
	if err != nil {
		return worked{}, err
	}
	w := worked{form: form}
	for i, s := range in.Sweeps {
		fit, err := in.fit(s)
		if err != nil {
			return w, notebook.InRow("sweeps", i+1, "travel", err)
		}
		if i > 0 && s.Travel <= in.Sweeps[i-1].Travel {
			return w, notebook.InRow("sweeps", i+1, "travel", fmt.Errorf("is not beyond the line before: list the places from left to right"))
		}
		w.places = append(w.places, split{travel: s.Travel, whole: squaring.MeasuredSlope{Slope: fit.Tilt.X, Uncertainty: fit.TiltU.X}, wholeY: squaring.MeasuredSlope{Slope: fit.Tilt.Y, Uncertainty: fit.TiltU.Y}})
		if math.Abs(float64(s.Travel)) < math.Abs(float64(w.places[w.middle].travel)) {
			w.middle = i
		}
	}
	for i := range w.places {
		w.places[i].part(w.places[w.middle], form)
	}
	return w, nil
}

// part splits the tilt: the head is what the sweep in the middle sees, the top
// what its form adds since, the ways the rest.
func (p *split) part(middle split, form topForm) {
	p.head = middle.whole
	p.top = form.slopeSince(p.travel, middle.travel)
	p.ways.Slope = p.whole.Slope - p.head.Slope - p.top.Slope
	if p.travel != middle.travel {
		p.ways.Uncertainty = squaring.Slope(math.Sqrt(square(p.whole.Uncertainty) + square(p.head.Uncertainty) + square(p.top.Uncertainty)))
	}
}

func square(s squaring.Slope) float64 { return float64(s) * float64(s) }

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{answerItems, chartItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
