package solid

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// solved is a layout with its distribution and coat.
type solved struct {
	layout
	field *plating.SpaceField
	d     plating.SpaceDistribution
	grown plating.SpaceGrowth
}

// answer is everything that follows from the inputs.
type answer struct {
	in    Inputs
	plain solved
	// file is the reader's own part as its file has it, zero without one.
	file  plating.Mesh
	skin  []facet
	helps []help
}

// The steps along the longest side of a plate, and half of those around a turned
// part.
const (
	quickSteps, finerSteps, turnedQuick, turnedFiner, fewSteps = 4, 6, 4, 6, 2
)

// steps returns how fine the mesh is to be.
func (in Inputs) steps() int {
	switch {
	case in.flat() && in.Mesh == finer:
		return finerSteps
	case in.flat():
		return quickSteps
	case in.Mesh == finer:
		return turnedFiner
	}
	return turnedQuick
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	if in.Own.Given() {
		in.Part = ownFile
	}
	a := answer{in: in}
	l := layout{in: in, steps: in.steps()}
	var err error
	if a.file, l.own, err = in.ownMesh(); err != nil {
		return nil, err
	}
	if a.plain, err = l.solve(); err != nil {
		return nil, err
	}
	a.skin = a.plain.facets()
	a.helps = a.tryHelps()
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addTank, a.addOwn, a.addAnswer, a.addViews, a.addBands, a.addSpots, a.addHelps, addProof, addWrong, addExercises, addCautions,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// conditions returns the bath at the mean current density on the parts.
func (l layout) conditions() (plating.Conditions, error) {
	s, err := l.space()
	if err != nil {
		return plating.Conditions{}, err
	}
	in, area := l.in, 0.0
	for _, b := range s.Bodies {
		if b.Role != plating.RolePart {
			continue
		}
		// The answer's mesh is the one with every step cut in two.
		m, err := b.Solid.Mesh(2)
		if err != nil {
			return plating.Conditions{}, err
		}
		surface, err := m.Surface()
		if err != nil {
			return plating.Conditions{}, err
		}
		area += float64(surface.Area)
	}
	coefficient := float64(plating.TafelSlope(1, in.Temperature) / in.Tafel)
	return plating.Conditions{Conductivity: in.Conductivity, Current: unit.Current(float64(in.Mean) * area),
		Cathode: plating.Kinetics{Exchange: in.Exchange, Cathodic: coefficient, Anodic: coefficient, Temperature: in.Temperature}}, nil
}

// solve returns the distribution and the coat of a layout.
func (l layout) solve() (solved, error) {
	if err := l.check(); err != nil {
		return solved{}, err
	}
	space, err := l.space()
	if err != nil {
		return solved{}, err
	}
	field, err := plating.NewSpaceField(space)
	if err != nil {
		return solved{}, notebook.InField(l.in.shapeField(), err)
	}
	return l.at(field)
}

// at returns the distribution and the coat in a ready field.
func (l layout) at(field *plating.SpaceField) (solved, error) {
	c, err := l.conditions()
	if err != nil {
		return solved{}, notebook.InField(l.in.shapeField(), err)
	}
	s := solved{layout: l, field: field}
	if s.d, err = field.Solve(c); err != nil {
		return solved{}, notebook.InField("mean", err)
	}
	if s.grown, err = s.d.Grow(plating.Nickel().Deposit(), plating.ConstantEfficiency(l.in.Efficiency), l.in.Time); err != nil {
		return solved{}, notebook.InField("time", err)
	}
	return s, nil
}

// shapeField is the field of the part's shape.
func (in Inputs) shapeField() string {
	switch in.Part {
	case ownTurned:
		return "points"
	case ownFile:
		return "own"
	}
	return "part"
}

// The quantities of the answer as they are shown.
func share(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Percents) }
func fine(t unit.Length) notebook.Quantity {
	return notebook.Exact(t, notebook.FineLengths).WithDigits(2)
}
func size(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths).WithDigits(2) }
func density(j plating.CurrentDensity) notebook.Quantity {
	return notebook.Exact(j, notebook.CurrentDensities).WithDigits(2)
}
func minutes(t unit.Time) notebook.Quantity { return notebook.Exact(t, notebook.Minutes).WithDigits(2) }

// toMean returns a current density as a share of the mean on the part.
func (s solved) toMean(j plating.CurrentDensity) float64 { return float64(j / s.d.Mean) }

// coat returns the thickness where the current density is a share of the mean.
func (s solved) coat(share float64) unit.Length {
	return s.grown.Mean * unit.Length(share)
}

// addAnswer adds what the tank does as it is set up.
func (a answer) addAnswer(sheet *notebook.Sheet) error {
	s := a.plain
	d := s.d
	volts := notebook.Same(notebook.Volt)
	current := d.Current / unit.Current(s.share())
	sheet.Add(
		notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: notebook.Say(
			"In {} at a mean of {} the part gets {} of nickel on average, {} on the tenth of its skin that gets most and {} on the tenth that gets least.",
			minutes(a.in.Time), density(d.Mean), fine(s.grown.Mean), fine(s.coat(s.toMean(d.Thick))), fine(s.coat(s.toMean(d.Thin))))},
		a.burnVerdict(),
		notebook.Figure{Name: "thick", Label: "Tenth of the skin that gets most, of the mean", Value: share(s.toMean(d.Thick)), Note: notebook.Plain(a.whereWords(d.Thickest.Middle))},
		notebook.Figure{Name: "thin", Label: "Tenth of the skin that gets least, of the mean", Value: share(s.toMean(d.Thin)), Note: notebook.Plain(a.whereWords(d.Thinnest.Middle))},
		notebook.Figure{Name: "peak", Label: "Single thickest triangle, of the mean", Value: share(s.toMean(d.Thickest.CurrentDensity)),
			Note: notebook.Plain("It lies on an edge or a corner. It hangs on their radius and on the mesh: on a perfectly sharp edge, without overpotential, it would grow without end as the triangles shrink. It tells whether an edge burns, not what a micrometer reads.")},
		notebook.Figure{Name: "spread", Label: "Spread over the skin, standard deviation of the mean", Value: share(d.Spread)},
		notebook.Figure{Name: "amps", Label: "Current for the whole load", Value: notebook.Exact(current, notebook.Currents)},
		notebook.Figure{Name: "volts", Label: "Cell voltage", Value: notebook.Exact(d.Voltage, volts).WithDigits(2),
			Note: notebook.Say("The bath takes {}, the part's overpotential {}; anodes, wires and contacts come on top.", notebook.Exact(d.Ohmic, volts).WithDigits(2), notebook.Exact(d.Cathode, volts).WithDigits(2))},
	)
	return a.addTrust(sheet)
}

// addTrust adds what one step of refinement changes, and the charge.
func (a answer) addTrust(sheet *notebook.Sheet) error {
	d := a.plain.d
	table := notebook.Table{Name: "settled", Title: "What changed when every step of the mesh was halved",
		Columns: []notebook.Column{notebook.Col("Figure"), notebook.ColIn("Change of itself", notebook.Percents)},
		Note:    notebook.Say("{} triangles stand for the load and its anodes, after one with a quarter as many. The error falls about as the square of the triangles' size, so that about a third of a change is still open.", notebook.Whole(a.plain.field.Triangles()))}
	worst := 0.0
	for _, row := range []struct {
		name   string
		change float64
	}{{"tenth that gets most, of the mean", d.ThickChange}, {"tenth that gets least, of the mean", d.ThinChange}, {"spread", d.Change.Spread}, {"resistance of the bath", d.Change.Resistance}} {
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(row.name), notebook.Val(notebook.Stepped(row.change, 0.001, notebook.Percents))})
		worst = math.Max(worst, row.change)
	}
	table.Rows = append(table.Rows, []notebook.Cell{notebook.Str("single thickest triangle, of the mean"), notebook.Val(notebook.Stepped(d.Change.Thickest, 0.001, notebook.Percents))})
	trust := notebook.Verdict{Name: "trust", Tone: notebook.Good, Text: notebook.Say("No figure but that of a single triangle moved by more than {}: the mesh is fine enough for a micrometer.", share(worst))}
	if worst > 0.1 {
		trust.Tone, trust.Text = notebook.Watch, notebook.Say("One figure over a patch still moves by {}, so that about {} is open. Take the finer mesh, or trust faces more than edges.", share(worst), share(worst/3))
	}
	net, gross := 0.0, 0.0
	for _, skin := range d.Skins {
		net += float64(skin.Current)
		if skin.Role == plating.RolePart {
			gross += float64(skin.Current)
		}
	}
	sheet.Add(table, trust, notebook.Figure{Name: "charge", Label: "Charge that leaves the anodes and does not arrive, of all, at most", Value: notebook.Exact(math.Max(math.Abs(net/gross), leastLoss), notebook.Percents).WithDigits(1),
		Note: notebook.Plain("The balance is one of the equations, so this tells only that they were solved. The table above tells how good the mesh is.")})
	return nil
}

// leastLoss is the share of the charge below which a loss is but the rounding of
// sums, which differs from one machine to the next and is not shown.
const leastLoss = 1e-10

// burnVerdict says whether a place burns and on how much of the skin.
func (a answer) burnVerdict() notebook.Verdict {
	d := a.plain.d
	most := a.in.Mean * a.in.Burns / d.Thickest.CurrentDensity
	_, _, over, err := d.Over(a.in.Burns)
	if err != nil || over == 0 {
		return notebook.Verdict{Name: "burn", Tone: notebook.Good, Text: notebook.Say(
			"No triangle is over {}: the thickest has {}. At a mean of about {} it would be there.", density(a.in.Burns), density(d.Thickest.CurrentDensity), density(most))}
	}
	return notebook.Verdict{Name: "burn", Tone: notebook.Stop, Text: notebook.Say(
		"{} of the skin is over the {} at which this bath burns; its thickest place has {}. Set a mean of at most about {}.",
		share(over), density(a.in.Burns), density(d.Thickest.CurrentDensity), density(most))}
}

// whereWords says where on the part a place of the solved space lies.
func (a answer) whereWords(p plating.Point) string {
	at, size := a.inPart(p)
	words := ""
	for axis, name := range [3][2]string{{"left face", "right face"}, {"near edge", "far edge"}, {"lower end", "upper end"}} {
		if share := at[axis] / (size[axis] / 2); math.Abs(share) > 0.8 {
			if words != "" {
				words += ", "
			}
			side := name[0]
			if share > 0 {
				side = name[1]
			}
			words += side
		}
	}
	if words == "" {
		words = "away from faces and ends"
	}
	return "At: " + words + "."
}
