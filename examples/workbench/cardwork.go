package workbench

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// The chances at which the card says good and not good; between them it says
// that it is too close to tell.
const (
	surely   = 0.95
	scarcely = 0.05
)

// wider is how much wider than the pass the cutter of a facing job is taken.
const wider = 4.0 / 3

// work is the table of what the machine is good for.
func (c *card) work() (notebook.Table, error) {
	t := notebook.Table{Name: "work", Title: "Good for, and not good for",
		Columns: []notebook.Column{notebook.Col("Work"), notebook.ColIn("Error now", notebook.FineLengths), notebook.ColIn("Tolerance", notebook.FineLengths),
			notebook.Col("Chance to keep it"), notebook.Col("So")},
		Note: notebook.Plain("At the place of the work, table fed along x, what the machine alone adds: holding, heat and the tool come on top. An order counts all the shares written down with it.")}
	orders := c.orders()
	if len(c.machine.Jobs) == 0 {
		t.Rows, t.Note = orders, notebook.Plain("No work is written down in the machine’s record.")
		return t, nil
	}
	for i, job := range c.machine.Jobs {
		name := job.What
		if name == "" {
			name = fmt.Sprintf("work %d", i+1)
		}
		tolerance := notebook.Val(notebook.Exact(job.Tolerance, notebook.FineLengths).WithDigits(2))
		value, u, err := c.effect(job)
		if err != nil {
			c.missing = append(c.missing, fmt.Sprintf("%s: %v.", name, err))
			t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(name), notebook.Str("not known"), tolerance, notebook.Str("–"), notebook.Str("not known")})
			continue
		}
		chance, err := squaring.Within(float64(job.Tolerance)).Conformance(float64(value), math.Max(float64(u), 1e-12))
		if err != nil {
			return t, fmt.Errorf("card, %s: %w", name, err)
		}
		so := notebook.Str("good")
		switch {
		case chance < scarcely:
			so = notebook.Str("NOT GOOD").Marked("beyond")
		case chance < surely:
			so = notebook.Str("too close to tell").Marked("read again")
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(name), notebook.Val(notebook.Of(value, u, notebook.FineLengths)), tolerance,
			chanceCell(chance), so})
	}
	t.Rows = append(t.Rows, orders...)
	return t, nil
}

// chanceCell shows a chance, never as none or as certain.
func chanceCell(chance float64) notebook.Cell {
	switch {
	case chance > 0.99:
		return notebook.Str("over 99%")
	case chance < 0.01:
		return notebook.Str("under 1%")
	}
	// As words, to stand in line with them; a percentage is one in both systems.
	return notebook.Str(notebook.Quantity{SI: chance, Show: notebook.Percents, Step: 0.01}.In(notebook.Metric).String())
}

// errNotTold says that the readings do not tell a job's error.
var errNotTold = errors.New("the readings do not tell it")

// effect is the error that the machine now leaves in a job, and its standard
// uncertainty.
func (c *card) effect(job machine.JobRow) (value, u unit.Length, err error) {
	switch job.Kind {
	case machine.JobPart:
		return c.bow(job.Size)
	case machine.JobKnee:
		lean, leanU, err := c.gradient("knee-x", "knee-y")
		if err != nil {
			return 0, 0, err
		}
		made, err := squaring.Hole{Feed: squaring.ByKnee, KneeLean: lean, KneeLeanU: leanU, Depth: job.Size}.Made()
		return made.Shift, made.ShiftU, err
	}
	tilt, tiltU, err := c.gradient("side-work", "nod-work")
	if err != nil {
		return 0, 0, err
	}
	switch job.Kind {
	case machine.JobHole:
		made, err := squaring.Hole{Feed: squaring.ByQuill, Tilt: tilt, TiltU: tiltU, Depth: job.Size}.Made()
		return made.Shift, made.ShiftU, err
	case machine.JobFace:
		cut, err := squaring.Facing{Tilt: tilt, TiltU: tiltU, Diameter: wider * job.Size, Width: job.Size}.Surface()
		return cut.Dish, cut.DishU, err
	case machine.JobStep:
		cut, err := squaring.Facing{Tilt: tilt, TiltU: tiltU, Diameter: wider * job.Size, Width: job.Size, StepOver: job.Size}.Surface()
		return cut.Step, cut.StepU, err
	}
	return 0, 0, fmt.Errorf("what can go wrong is not said")
}

// gradient is two figures of the survey as a table's slope less the spindle's.
func (c *card) gradient(x, y string) (g, u squaring.Gradient, err error) {
	fx, okX := c.figures[x]
	fy, okY := c.figures[y]
	if !okX || !okY || fx.Unknown != "" || fy.Unknown != "" {
		return g, u, errNotTold
	}
	return squaring.Gradient{X: squaring.Slope(fx.Value.SI), Y: squaring.Slope(fy.Value.SI)},
		squaring.Gradient{X: squaring.Slope(fx.Value.U), Y: squaring.Slope(fy.Value.U)}, nil
}

// bow is the bow of a part of a length at the place of the work: the survey is
// adjusted anew for it.
func (c *card) bow(length unit.Length) (value, u unit.Length, err error) {
	if c.survey.Document == nil {
		return 0, 0, errNotTold
	}
	in := inputsOf(entryInputs(c.survey.Document))
	in.setText("length", strconv.FormatFloat(float64(length)*1000, 'g', -1, 64)+" mm")
	sheet, err := workSurvey(machine.Entry{Of: "survey", InputsFormat: notebook.Format, Inputs: in.raw()}.Document())
	if err != nil {
		return 0, 0, errors.New(inOneLine(err))
	}
	f, ok := sheet.Find("bow").(notebook.Figure)
	if !ok || f.Unknown != "" {
		return 0, 0, errNotTold
	}
	return unit.Length(math.Abs(f.Value.SI)), unit.Length(f.Value.U), nil
}
