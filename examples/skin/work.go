package skin

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// answer is everything that follows from the inputs.
type answer struct {
	in    Inputs
	plain plating.Turned
	// mesh is the skin of the reader's own part, zero without one.
	mesh plating.Mesh
	// bare is one part without its knurl, drawn one part with it, foil one part
	// by the wrap, best the two together.
	bare, drawn, foil, best plating.Surface
	// apart is how far drawing and foil lie apart, in standard uncertainties.
	apart float64
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a := answer{in: in}
	for _, step := range []func() error{a.profile, a.own, a.knurl, a.wrap, a.pool} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{a.addDrawing, a.addOwn, a.addPieces, a.addAreas, a.addEffect, addWrong, addExercises, addChecks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// profile works out the area of the turned part.
func (a *answer) profile() error {
	if a.in.Own.Given() {
		return nil
	}
	u := a.in.Good / unit.Length(math.Sqrt(3))
	a.plain = plating.Turned{Name: "part"}
	for i, p := range a.in.Points {
		v := plating.ProfilePoint{X: plating.Dimension{Value: p.Place, U: u}, R: plating.Dimension{Value: p.Diameter / 2, U: u / 2}}
		if p.Diameter == 0 { // a point on the axis is there exactly
			v.R.U = 0
		}
		if p.How != straight {
			if p.Radius == nil {
				return notebook.InRow("points", i+1, "radius", fmt.Errorf("a %s needs its radius", p.How))
			}
			v.Arc = *p.Radius
			if p.How == cove {
				v.Arc = -v.Arc
			}
		}
		if p.Fillet != nil {
			v.Fillet = *p.Fillet
		}
		a.plain.Profile = append(a.plain.Profile, v)
	}
	var err error
	a.bare, err = a.plain.Surface()
	if err == nil && a.bare.Area == 0 {
		err = fmt.Errorf("the profile sweeps no area")
	}
	return notebook.InField("points", err)
}

// knurl adds the teeth.
func (a *answer) knurl() error {
	a.drawn = a.bare
	a.drawn.Name = "drawing"
	if a.in.Knurled == 0 {
		return nil
	}
	share := unit.Area(a.in.Knurled)
	teeth, err := plating.Knurl{Plain: plating.Surface{Name: "knurled", Area: a.bare.Area * share}, Degrees: float64(a.in.Angle) / degree}.Surface()
	if err != nil {
		return notebook.InField("angle", err)
	}
	grown := plating.Surface{Name: "plain", Area: a.bare.Area * (1 - share), U: a.bare.U}
	a.drawn = plating.Sum("drawing", grown, teeth)
	return nil
}

// wrap works out the area of one part from the foil.
func (a *answer) wrap() error {
	piece := plating.Surface{Name: "piece", Area: a.in.PieceArea, U: a.in.PieceArea * unit.Area(a.in.PieceAreaU)}
	massU := a.in.ScaleStep / unit.Mass(math.Sqrt(12))
	all, err := plating.FoilWrap(piece, a.in.PieceMass, a.in.WrapMass, massU, a.in.FitU)
	if err != nil {
		return notebook.InField("wrap-mass", err)
	}
	n := unit.Area(a.in.Wrapped)
	a.foil = plating.Surface{Name: "foil", Area: all.Area / n, U: all.U / n}
	for _, s := range all.Shares {
		a.foil.Shares = append(a.foil.Shares, plating.Share{Name: s.Name, U: s.U / float64(n)})
	}
	return nil
}

// pool joins drawing and foil, each by its weight.
func (a *answer) pool() error {
	u := math.Hypot(float64(a.drawn.U), float64(a.foil.U))
	if u > 0 {
		a.apart = float64(a.foil.Area-a.drawn.Area) / u
	}
	wd, wf := weight(a.drawn.U), weight(a.foil.U)
	area := (wd*float64(a.drawn.Area) + wf*float64(a.foil.Area)) / (wd + wf)
	a.best = plating.Surface{Name: "both", Area: unit.Area(area), U: unit.Area(1 / math.Sqrt(wd+wf))}
	return nil
}

// weight is one over the square of a standard uncertainty; an area said to be
// exact counts as known to a thousandth of a square millimetre.
func weight(u unit.Area) float64 {
	const least = 1e-9
	return 1 / (math.Max(float64(u), least) * math.Max(float64(u), least))
}

// area shows a surface.
func area(s plating.Surface) notebook.Quantity { return notebook.Of(s.Area, s.U, notebook.Areas) }

// addPieces adds the area piece by piece.
func (a answer) addPieces(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "pieces", Title: "Piece by piece",
		Columns: []notebook.Column{notebook.Col("From point to point"), notebook.Col("Reached by"), notebook.ColIn("Area", notebook.Areas)},
		Note:    notebook.Plain("Sharp corners: the fillets are counted in the whole only.")}
	if a.in.Own.Given() {
		table.Note = notebook.Plain("The file takes the place of the points.")
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(fmt.Sprintf("%d triangles of the file", len(a.mesh.Triangles))), notebook.Str("–"), notebook.Val(notebook.Exact(a.bare.Area, notebook.Areas))})
		sheet.Add(table)
		return nil
	}
	for i := 1; i < len(a.plain.Profile); i++ {
		from, to := a.plain.Profile[i-1], a.plain.Profile[i]
		from.Arc, from.Fillet, to.Fillet = 0, 0, 0
		s, err := plating.Turned{Name: "piece", Profile: []plating.ProfilePoint{from, to}}.Surface()
		if err != nil {
			return notebook.InRow("points", i+1, "place", err)
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(fmt.Sprintf("%d to %d", i, i+1)), notebook.Str(a.in.Points[i].How),
			notebook.Val(notebook.Exact(s.Area, notebook.Areas))})
	}
	sheet.Add(table)
	return nil
}

// addAreas adds the areas by drawing and by foil, and what makes them uncertain.
func (a answer) addAreas(sheet *notebook.Sheet) error {
	rack, err := a.best.Times(a.in.Count)
	if err != nil {
		return notebook.InField("count", err)
	}
	v := notebook.Verdict{Name: "agree", Tone: notebook.Good, Text: notebook.Say("Drawing and foil agree: {u} and {u}. Count on {u} a part.", area(a.drawn), area(a.foil), area(a.best))}
	if math.Abs(a.apart) > 2 {
		v.Tone, v.Text = notebook.Watch, notebook.Say("Drawing and foil do not agree: {u} and {u}. Look for a dimension typed wrong, a bore or slot left out, or foil that overlaps, before you count on either.", area(a.drawn), area(a.foil))
	}
	chart, err := plot.Bars{Name: "compare", Title: "Drawing, foil and both",
		Caption: notebook.Plain("Area of one part with one standard uncertainty either way."), What: "By",
		Groups: []string{"drawing", "foil", "both"}, Value: plot.Axis{Label: "Area of one part", Show: notebook.Areas},
		Series: []plot.BarSeries{{Label: "area", Values: []float64{float64(a.drawn.Area), float64(a.foil.Area), float64(a.best.Area)},
			U: []float64{float64(a.drawn.U), float64(a.foil.U), float64(a.best.U)}}}}.Chart()
	if err != nil {
		return err
	}
	foil := notebook.Table{Name: "foil-budget", Title: "What makes the foil's figure uncertain",
		Columns: []notebook.Column{notebook.Col("From"), notebook.ColIn("Contributes", notebook.Areas)}}
	for _, s := range a.foil.Shares {
		foil.Rows = append(foil.Rows, []notebook.Cell{notebook.Str(s.Name), notebook.Val(notebook.Exact(s.U, notebook.Areas).WithDigits(2))})
	}
	sheet.Add(
		notebook.Figure{Name: "drawn", Label: "One part, by drawing", Value: area(a.drawn)},
		notebook.Figure{Name: "foil", Label: "One part, by foil", Value: area(a.foil)},
		notebook.Figure{Name: "best", Label: "One part, both together", Value: area(a.best)},
		notebook.Figure{Name: "rack", Label: "All on the rack", Value: area(rack)},
		v, chart, foil)
	return nil
}

// addEffect adds what the area and its error do to the setting.
func (a answer) addEffect(sheet *notebook.Sheet) error {
	rack, err := a.best.Times(a.in.Count)
	if err != nil {
		return notebook.InField("count", err)
	}
	current := unit.Current(float64(a.in.Density) * float64(rack.Area))
	relative := float64(a.best.U / a.best.Area)
	sheet.Add(
		notebook.Figure{Name: "current", Label: "Current for the rack", Value: notebook.Of(current, current*unit.Current(relative), notebook.Currents)},
		notebook.Verdict{Name: "effect", Tone: notebook.Note, Text: notebook.Say(
			"The area's standard uncertainty of {} makes a mean of {} uncertain by {}. An area that is a tenth too small gives a coat a tenth too thin.",
			notebook.Exact(relative, notebook.Percents).WithDigits(2), notebook.Exact(a.in.Thickness, notebook.FineLengths).WithDigits(2),
			notebook.Exact(a.in.Thickness*unit.Length(relative), notebook.FineLengths).WithDigits(2))})
	return nil
}
