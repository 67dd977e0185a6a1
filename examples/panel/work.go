package panel

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// elements is what is asked of the solver for the cell.
const elements = 160

// answer is everything that follows from the inputs.
type answer struct {
	in    Inputs
	panel plating.Panel
	// read is the range by the trade's formula.
	read plating.PanelRange
	// primary is the cell without kinetics, bath with the bath's own.
	primary, bath plating.Profile
	volts         unit.Voltage
	ratio         float64 // resistance of the cell times conductivity times depth
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a, err := in.solve()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addDrawing, a.addRange, a.addScale, a.addCurves, a.addWrong, a.addExercises, a.addChecks, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// solve reads the panel and solves its cell twice.
func (in Inputs) solve() (answer, error) {
	a := answer{in: in, panel: plating.Panel{Current: in.Current}}
	var err error
	if a.read, err = a.panel.Read(plating.PanelReading{From: in.From, To: in.To, U: in.U}); err != nil {
		return answer{}, notebook.InField("from", err)
	}
	field, err := plating.NewField(plating.PanelSection(), elements)
	if err != nil {
		return answer{}, err
	}
	plain, err := field.Solve(plating.Conditions{Conductivity: in.Conductivity, Current: in.Current})
	if err != nil {
		return answer{}, notebook.InField("current", err)
	}
	coefficient := float64(plating.TafelSlope(1, in.Temperature) / in.Tafel)
	bath, err := field.Solve(plating.Conditions{Conductivity: in.Conductivity, Current: in.Current,
		Cathode: plating.Kinetics{Exchange: in.Exchange, Cathodic: coefficient, Anodic: coefficient, Temperature: in.Temperature}})
	if err != nil {
		return answer{}, notebook.InField("tafel", err)
	}
	a.primary, _ = plain.Profile("panel")
	a.bath, _ = bath.Profile("panel")
	a.volts = bath.Voltage
	a.ratio = float64(plain.Resistance()) * float64(in.Conductivity) * float64(plating.PanelSection().Depth)
	return a, nil
}

// The quantities of the answer as they are shown.
func density(j plating.CurrentDensity) notebook.Quantity {
	return notebook.Exact(j, notebook.CurrentDensities).WithDigits(2)
}
func place(l unit.Length) notebook.Quantity { return notebook.Stepped(l, 1*mm, notebook.Lengths) }
func share(x float64) notebook.Quantity     { return notebook.Stepped(x, 0.01, notebook.Percents) }

// lowMean and highMean are the means between which the part's thinnest place is
// not under the range and its thickest not over it.
func (a answer) lowMean() plating.CurrentDensity {
	return a.read.Low / plating.CurrentDensity(a.in.Thinnest)
}
func (a answer) highMean() plating.CurrentDensity {
	return a.read.High / plating.CurrentDensity(a.in.Thickest)
}

// addRange adds the usable range and what it means for the part.
func (a answer) addRange(sheet *notebook.Sheet) error {
	note := func(open bool, words string) notebook.Text {
		if open {
			return notebook.Plain(words)
		}
		return notebook.Text{}
	}
	low := notebook.Figure{Name: "low", Label: "Lowest good current density", Value: notebook.Of(a.read.Low, a.read.LowU, notebook.CurrentDensities),
		Note: note(a.read.LowOpen, "Good to the far end: it may be lower still.")}
	high := notebook.Figure{Name: "high", Label: "Highest good current density", Value: notebook.Of(a.read.High, a.read.HighU, notebook.CurrentDensities),
		Note: note(a.read.HighOpen, "Good to the near end: it may be higher still. Run a panel at more current.")}
	sheet.Add(low, high,
		notebook.Figure{Name: "low-bath", Label: "The same place by the computed cell, far border", Value: density(a.bath.At(a.in.To))},
		notebook.Figure{Name: "high-bath", Label: "The same place by the computed cell, near border", Value: density(a.bath.At(a.in.From))},
		notebook.Figure{Name: "volts", Label: "Voltage of the cell, computed", Value: notebook.Exact(a.volts, notebook.Same(notebook.Volt)).WithDigits(2)},
		a.partVerdict())
	return nil
}

// partVerdict says which mean suits the part.
func (a answer) partVerdict() notebook.Verdict {
	low, high := a.lowMean(), a.highMean()
	if low >= high {
		return notebook.Verdict{Name: "part", Tone: notebook.Stop, Text: notebook.Say(
			"No mean suits this part: its thickest place needs a mean of at most {}, its thinnest at least {}. Make the coat more even, with a thief, a shield or rounder edges, before you set any current.",
			density(high), density(low))}
	}
	return notebook.Verdict{Name: "part", Tone: notebook.Good, Text: notebook.Say(
		"Set the part to a mean of {} to {}. Below that its thinnest place turns dull, above it its thickest burns.", density(low), density(high))}
}

// addScale adds the table of places and current densities.
func (a answer) addScale(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "scale", Title: "What stands where on the panel at this current",
		Columns: []notebook.Column{notebook.ColIn("From the high-current end", notebook.Lengths), notebook.ColIn("Formula", notebook.CurrentDensities),
			notebook.ColIn("Computed, this bath", notebook.CurrentDensities), notebook.ColIn("Computed, no overpotential", notebook.CurrentDensities)},
		Note: notebook.Plain("The formula is an average of many baths, for a fresh panel in a still cell.")}
	for at := 10 * mm; at <= 80*mm+0.1*mm; at += 10 * mm {
		j, err := a.panel.At(at)
		if err != nil {
			return err
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Val(place(at)), notebook.Val(density(j)),
			notebook.Val(density(a.bath.At(at))), notebook.Val(density(a.primary.At(at)))})
	}
	sheet.Add(table)
	return nil
}

// addCurves adds the chart of current density along the panel.
func (a answer) addCurves(sheet *notebook.Sheet) error {
	var x, y []float64
	for i := range 60 {
		at := plating.PanelNearest + unit.Length(i)/59*(plating.PanelFarthest-plating.PanelNearest)
		j, err := a.panel.At(min(at, plating.PanelFarthest))
		if err != nil {
			return err
		}
		x, y = append(x, float64(at)), append(y, float64(j))
	}
	computed := func(label string, p plating.Profile) plot.Series {
		s := plot.Series{Label: label, Style: plot.Curve}
		for _, sample := range p.Samples {
			// The last millimetres at the near end have no end to their current.
			if sample.Along >= 2*mm {
				s.X, s.Y = append(s.X, float64(sample.Along)), append(s.Y, float64(sample.CurrentDensity))
			}
		}
		return s
	}
	chart, err := plot.XY{
		Name: "curves", Title: "Current density along the panel",
		Caption: notebook.Say("At {}: good from {} to {}, that is {} down to {} by the formula.", notebook.Exact(a.in.Current, notebook.Currents),
			place(a.in.From), place(a.in.To), density(a.read.High), density(a.read.Low)),
		X: plot.Axis{Label: "From the high-current end", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)},
		Y: plot.Axis{Label: "Current density", Show: notebook.CurrentDensities, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{{Label: "formula", Style: plot.Curve, X: x, Y: y},
			computed("computed, this bath", a.bath), computed("computed, no overpotential", a.primary)},
		Marks: []plot.Mark{{Label: "good from", X: float64(a.in.From)}, {Label: "good to", X: float64(a.in.To)}},
	}.Chart()
	if err != nil {
		return err
	}
	at := max(a.in.From, plating.PanelNearest)
	sheet.Add(chart, notebook.Verdict{Name: "three", Tone: notebook.Note, Text: notebook.Say(
		"At {} the formula says {}, the computed cell {} with this bath's overpotential and {} without. Use one and the same for panel after panel: what you compare then does not hang on which is right.",
		place(at), density(a.read.High), density(a.bath.At(at)), density(a.primary.At(at)))})
	return nil
}
