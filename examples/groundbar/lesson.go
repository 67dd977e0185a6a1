// Package groundbar is the lesson "Turning the bar over": a ground bar on the
// table, read from above and, rolled over, from below, tells its own shape from
// the motion of the machine.
package groundbar

import (
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Reading is one travel with the two readings of the dial.
type Reading struct {
	Travel, Up, Down unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Step is the step to which the dial is read, and RepeatU the standard
	// uncertainty of a reading beyond that.
	Step, RepeatU unit.Length
	Readings      []Reading
	// Length and Height are the bar's, Support the distance of its two blocks
	// from its ends, Material what it is made of.
	Length, Height, Support unit.Length
	Material                string
}

// The materials of a bar.
const (
	steel = "steel"
	iron  = "grey iron"
)

// Defaults returns the action shop's ground bar of 2025 on its Airy points.
func Defaults() Inputs {
	in := Inputs{Step: actionshop.DialD, Length: 500 * mm, Height: 50 * mm, Support: 106 * mm, Material: steel}
	for _, r := range actionshop.GroundBar() {
		in.Readings = append(in.Readings, Reading(r))
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Millimetre, notebook.InchUnit, notebook.Micrometre, notebook.Thou}
	return []notebook.Field{
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The dial is read to", Help: "A whole division, or half of one.",
			Units: fine, Limits: notebook.AboveUpTo(0*mm, 1*mm)}),
		notebook.Measure("repeat", &in.RepeatU, notebook.Spec{Label: "One reading repeats to", Help: "One standard deviation of five tries at one spot; 0 when the needle always comes back.",
			Units: fine, Limits: notebook.Between(0*mm, 1*mm)}),
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Readings", MinRows: 3, MaxRows: 100,
			Help: "One row a travel. Plus: the stem is pushed in."}, func(r *Reading) []notebook.Field {
			limits := notebook.Between(-5*mm, 5*mm)
			return []notebook.Field{
				notebook.Measure("travel", &r.Travel, notebook.Spec{Label: "Travel X", Help: "Positive with the table to the right.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				notebook.Measure("up", &r.Up, notebook.Spec{Label: "Edge up", Help: "Dial above the bar.", Units: fine, Limits: limits}),
				notebook.Measure("down", &r.Down, notebook.Spec{Label: "Edge down", Help: "Bar rolled over, dial below it.", Units: fine, Limits: limits}),
			}
		}),
		notebook.Measure("length", &in.Length, notebook.Spec{Label: "Length of the bar", Help: "From end to end.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 5000*mm)}),
		notebook.Measure("height", &in.Height, notebook.Spec{Label: "Height of the bar", Help: "Upright, as it stands on the blocks: this sets how much it hangs.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 500*mm)}),
		notebook.Measure("support", &in.Support, notebook.Spec{Label: "Blocks from the ends", Help: "Distance of each block from its end of the bar; 0.211 of the length is best.", Units: lengths, Limits: notebook.Between(0*mm, 2500*mm)}),
		notebook.Choice("material", &in.Material, notebook.Spec{Label: "Material", Help: "What the bar is made of.", Options: []string{steel, iron}}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "groundbar",
		Title:    "Turning the bar over",
		Question: "The dial wanders along my ground bar. Is that the bar or the machine?",
		Asked:    "I ran a dial along a ground bar",
		Track:    notebook.Ways,
		Summary:  "Read the bar from above, roll it over, read the same edge from below: half the difference is the machine, half the sum is the bar.",
		Minutes:  12,
		After:    []string{"threelines"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the readings, worked.
type result struct {
	in        Inputs
	separated wear.Separated
	// sag is how far the bar hangs, above the line through the ends of the run,
	// positive down; machine is the motion with the sag put back.
	sag, machine []unit.Length
	motion, bar  bow
}

// bow is a largest departure from the line through the ends of a run.
type bow struct {
	height, u, at unit.Length
}

// work separates the bar from the machine.
func work(in Inputs) (result, error) {
	r := result{in: in}
	readings := make([]wear.ReversalReading, len(in.Readings))
	for i, row := range in.Readings {
		readings[i] = wear.ReversalReading{Position: -row.Travel, First: row.Up, Second: row.Down}
	}
	var err error
	if r.separated, err = wear.ReverseBar(readings, wear.Gauge{Step: in.Step, RepeatU: in.RepeatU}); err != nil {
		return r, notebook.InField("readings", err)
	}
	if r.sag, err = sagAlong(in, r.separated.Motion.Points); err != nil {
		return r, err
	}
	r.machine = make([]unit.Length, len(r.sag))
	for i, p := range r.separated.Motion.Points {
		r.machine[i] = p.Height + r.sag[i]
	}
	r.motion = largest(r.separated.Motion, r.machine)
	heights := make([]unit.Length, len(r.sag))
	for i, p := range r.separated.Reference.Points {
		heights[i] = p.Height
	}
	r.bar = largest(r.separated.Reference, heights)
	return r, nil
}

// sagAlong returns how far the bar hangs at each place, less the line through
// the ends of the run. The bar's middle lies in the middle of the run.
func sagAlong(in Inputs, points []wear.Point) ([]unit.Length, error) {
	first, last := points[0].Position, points[len(points)-1].Position
	places := make([]unit.Length, len(points))
	for i, p := range points {
		places[i] = in.Length/2 + p.Position - (first+last)/2
	}
	beam := wear.Beam{Length: in.Length, Width: in.Height / 2, Height: in.Height, Stiffness: 210e9, Density: 7850}
	if in.Material == iron {
		beam.Stiffness, beam.Density = 110e9, 7200
	}
	sag, err := wear.BeamSag(beam, in.Support, places)
	if err != nil {
		if in.Support >= in.Length/2 {
			return nil, notebook.InField("support", err)
		}
		return nil, notebook.InField("length", err)
	}
	n := len(sag) - 1
	start, end := sag[0], sag[n]
	for i, p := range points {
		sag[i] -= start + (end-start)*(p.Position-first)/(last-first)
	}
	return sag, nil
}

// largest returns the largest of the heights, with the uncertainty that the
// profile has there.
func largest(profile wear.Profile, heights []unit.Length) bow {
	b := bow{u: profile.U(len(heights) / 2), at: profile.Points[len(heights)/2].Position}
	for i, h := range heights {
		if math.Abs(float64(h)) > math.Abs(float64(b.height)) {
			b = bow{h, profile.U(i), profile.Points[i].Position}
		}
	}
	return b
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{setUp, r.answers, r.charts, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(b bow) notebook.Quantity {
	return notebook.Of(unit.Length(math.Abs(float64(b.height))), b.u, notebook.FineLengths)
}

// answers adds the verdict, the figures and the table.
func (r result) answers(s *notebook.Sheet) error {
	n := len(r.sag) / 2
	most := bow{}
	for i, sag := range r.sag {
		if math.Abs(float64(sag)) > math.Abs(float64(most.height)) {
			most, n = bow{height: sag}, i
		}
	}
	points := r.separated.Motion.Points
	length := points[len(points)-1].Position - points[0].Position
	s.Add(notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: r.sentence(length)},
		notebook.Figure{Name: "motion-bow", Label: "Motion of the machine, largest departure", Value: notebook.Of(r.motion.height, r.motion.u, notebook.FineLengths),
			Note: notebook.Say("At u = {}, from the line through the ends of the run. Minus: the table sinks there.", place(r.motion.at))},
		notebook.Figure{Name: "bar-bow", Label: "Edge of the bar, largest departure", Value: notebook.Of(r.bar.height, r.bar.u, notebook.FineLengths),
			Note: notebook.Say("At u = {}. Plus: the marked edge stands out there.", place(r.bar.at))},
		notebook.Figure{Name: "sag", Label: "What the bar's own weight adds", Value: notebook.Exact(most.height, notebook.FineLengths).WithDigits(2),
			Note: notebook.Say("At u = {}, already put back into the motion. Rolling does not turn it over: it hangs down both times.", place(points[n].Position))},
		r.table())
	return nil
}

func (r result) sentence(length unit.Length) notebook.Text {
	move := "sinks"
	if r.motion.height > 0 {
		move = "rises"
	}
	machine := notebook.Say("Over {} the table "+move+" {u} between the ends of its run", place(length), fine(r.motion))
	if math.Abs(float64(r.motion.height)) < 2*float64(r.motion.u) {
		machine = notebook.Say("Over {} the motion cannot be told from straight: {u}", place(length), fine(r.motion))
	}
	if math.Abs(float64(r.bar.height)) < 2*float64(r.bar.u) {
		return machine.And(notebook.Say("and the bar cannot be told from straight: {u}.", fine(r.bar)))
	}
	return machine.And(notebook.Say("and the edge of the bar is out by {u}.", fine(r.bar)))
}

func (r result) table() notebook.Table {
	t := notebook.Table{Name: "separated", Title: "Machine and bar, place by place", Columns: []notebook.Column{
		notebook.ColIn("Place u", notebook.Lengths), notebook.ColIn("Machine", notebook.FineLengths), notebook.ColIn("Bar", notebook.FineLengths), notebook.ColIn("Sag put back", notebook.FineLengths)},
		Note: notebook.Plain("Lines through the ends taken off: neither run knows them.")}
	for i, p := range r.separated.Motion.Points {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(p.Position)),
			notebook.Val(notebook.Of(r.machine[i], r.separated.Motion.U(i), notebook.FineLengths)),
			notebook.Val(notebook.Of(r.separated.Reference.Points[i].Height, r.separated.Reference.U(i), notebook.FineLengths)),
			notebook.Val(notebook.Stepped(r.sag[i], 0.01*um, notebook.FineLengths))})
	}
	return t
}

// charts adds the readings as they were taken, and what they separate into.
func (r result) charts(s *notebook.Sheet) error {
	along := plot.Axis{Label: "Place on the table u", Show: notebook.Lengths}
	up, down := plot.Series{Label: "edge up", Style: plot.Line}, plot.Series{Label: "edge down", Style: plot.Line}
	for _, row := range sortedReadings(r.in.Readings) {
		x := float64(-row.Travel)
		up.X, up.Y = append(up.X, x), append(up.Y, float64(row.Up))
		down.X, down.Y = append(down.X, x), append(down.Y, float64(row.Down))
	}
	readings, err := plot.XY{Name: "readings-chart", Title: "The two runs as read", Caption: notebook.Plain("Each holds the machine and the bar."),
		X: along, Y: plot.Axis{Label: "Reading", Show: notebook.FineLengths}, Series: []plot.Series{up, down}}.Chart()
	if err != nil {
		return err
	}
	machine, bar := plot.Series{Label: "machine", Style: plot.Line}, plot.Series{Label: "bar", Style: plot.Line}
	for i, p := range r.separated.Motion.Points {
		x, u := float64(p.Position), float64(r.separated.Motion.U(i))
		machine.X, machine.Y, machine.U = append(machine.X, x), append(machine.Y, float64(r.machine[i])), append(machine.U, u)
		bar.X, bar.Y, bar.U = append(bar.X, x), append(bar.Y, float64(r.separated.Reference.Points[i].Height)), append(bar.U, u)
	}
	separated, err := plot.XY{Name: "separated-chart", Title: "Machine and bar told apart", Caption: notebook.Plain("Above the lines through the ends, with one standard uncertainty either way."),
		X: along, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: []plot.Series{machine, bar}}.Chart()
	if err != nil {
		return err
	}
	s.Add(readings, separated)
	return nil
}
