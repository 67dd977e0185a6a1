package current

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// The cells with exact answers: bath of 8 S/m, 1 A.
var theoryBath = plating.Conditions{Conductivity: 8 * plating.SiemensPerMetre, Current: 1 * unit.Ampere}

// discRadius is that of the disc in an insulating plane.
const discRadius = 10 * mm

// disc is a disc in an insulating plane, its anode at infinity.
func disc() plating.Section {
	return plating.Section{Axisymmetric: true, Mirror: true, Unbounded: true, Outlines: []plating.Outline{
		{Name: "disc", Role: plating.RolePart, Corners: []plating.Corner{{}, {X: discRadius}}}}}
}

// strips are two strips in the wall of a half-space.
func strips() plating.Section {
	return plating.Section{Depth: 1 * unit.Metre, Mirror: true, Unbounded: true, Outlines: []plating.Outline{
		{Name: "part", Role: plating.RolePart, Corners: []plating.Corner{{X: -20 * mm}, {X: -10 * mm}}},
		{Name: "anode", Role: plating.RoleAnode, Corners: []plating.Corner{{X: 10 * mm}, {X: 20 * mm}}}}}
}

// duct is a straight duct of 100 mm each way.
func duct() plating.Section { return ductOf(100*mm, 100*mm, 100*mm) }

// ductOf is a straight duct whose two ends are anode and coupon: the current is
// even and its resistance length over conductivity and area.
func ductOf(long, wide, deep unit.Length) plating.Section {
	return plating.Section{Depth: deep, Outlines: []plating.Outline{
		{Name: "floor", Role: plating.RoleWall, Corners: []plating.Corner{{}, {X: long}}},
		{Name: "anode", Role: plating.RoleAnode, Corners: []plating.Corner{{X: long}, {X: long, Y: wide}}},
		{Name: "top", Role: plating.RoleWall, Corners: []plating.Corner{{X: long, Y: wide}, {Y: wide}}},
		{Name: "coupon", Role: plating.RolePart, Corners: []plating.Corner{{Y: wide}, {}}}}}
}

// solveFor returns the distribution of a section and how many elements it took.
func solveFor(s plating.Section, c plating.Conditions, elements int) (plating.Distribution, int, error) {
	field, err := plating.NewField(s, elements)
	if err != nil {
		return plating.Distribution{}, 0, err
	}
	d, err := field.Solve(c)
	return d, field.Elements(), err
}

// convergence is the error of a cell's resistance against element counts.
type convergence struct {
	elements, errors []float64
	// order is by what power of the element count the error falls.
	order float64
}

// converge solves a cell on ever finer meshes against its exact resistance.
func converge(s plating.Section, exact float64) (convergence, error) {
	var c convergence
	var x, y []float64
	for _, ask := range []int{12, 24, 48, 96} {
		d, n, err := solveFor(s, theoryBath, ask)
		if err != nil {
			return convergence{}, err
		}
		if len(c.elements) > 0 && c.elements[len(c.elements)-1] == float64(n) {
			continue
		}
		off := math.Abs(float64(d.Resistance())/exact - 1)
		c.elements, c.errors = append(c.elements, float64(n)), append(c.errors, off)
		x, y = append(x, math.Log(float64(n))), append(y, math.Log(off))
	}
	_, slope := stat.LinearRegression(x, y, nil, false)
	c.order = -slope
	return c, nil
}

// The exact resistance of the disc, 1/(4 kappa a), in ohm, and the exact
// conductance of the strips over the conductivity, by a conformal map.
const (
	discResistance = 1 / (4 * 8 * 0.010)
	stripsOverK    = 0.639631
)

// addConvergence adds the chart of the error against the element count.
func addConvergence(sheet *notebook.Sheet) error {
	round, err := converge(disc(), discResistance)
	if err != nil {
		return err
	}
	flat, err := converge(strips(), 1/(8*stripsOverK))
	if err != nil {
		return err
	}
	series := func(label string, c convergence) plot.Series {
		return plot.Series{Label: label, Style: plot.Line, X: c.elements, Y: c.errors}
	}
	last := len(round.errors) - 1
	chart, err := plot.XY{Name: "converge", Title: "Finer mesh, smaller error",
		Caption: notebook.Say("Error of the resistance against theory. Twice the elements leave {} of the disc's error and {} of the strips'.", share(math.Pow(2, -round.order)), share(math.Pow(2, -flat.order))),
		X:       plot.Axis{Label: "Elements", Show: notebook.Numbers, Log: true},
		Y:       plot.Axis{Label: "Error of the resistance", Show: notebook.Percents, Log: true},
		Series:  []plot.Series{series("disc", round), series("two strips", flat)},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart,
		notebook.Figure{Name: "order", Label: "Order of convergence, disc", Value: number(round.order), Note: notebook.Plain("The error falls as this power of the number of elements. Second order or better is what straight elements graded towards the edges should give.")},
		notebook.Figure{Name: "order-strips", Label: "Order of convergence, strips", Value: number(flat.order)},
		notebook.Figure{Name: "finest", Label: "Error of the disc's resistance on the finest of these", Value: notebook.Exact(round.errors[last], notebook.Percents).WithDigits(1)})
	return nil
}

// addDisc adds the disc against theory, and the checks.
func addDisc(sheet *notebook.Sheet) error {
	d, _, err := solveFor(disc(), theoryBath, 48)
	if err != nil {
		return err
	}
	profile, _ := d.Profile("disc")
	dots := plot.Series{Label: "solver, middles of elements", Style: plot.Dots}
	curve := plot.Series{Label: "theory", Style: plot.Curve}
	for i, s := range profile.Samples {
		if r := float64(s.X / discRadius); i%3 == 0 && r < 0.98 {
			dots.X, dots.Y = append(dots.X, float64(s.X)), append(dots.Y, float64(s.CurrentDensity/d.Mean))
		}
	}
	for r := 0.0; r < 0.981; r += 0.04 {
		curve.X, curve.Y = append(curve.X, r*float64(discRadius)), append(curve.Y, 0.5/math.Sqrt(1-r*r))
	}
	chart, err := plot.XY{Name: "disc", Title: "The disc against theory",
		Caption: notebook.Say("Current density on a disc of {} radius in a wide bath, without kinetics. The middle gets half of the mean, and the edge without end.", size(discRadius)),
		X:       plot.Axis{Label: "From the middle", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)},
		Y:       plot.Axis{Label: "Of the mean", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series:  []plot.Series{curve, dots},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return addChecks(sheet, d, profile)
}

// addChecks sets solved cells beside exact answers.
func addChecks(sheet *notebook.Sheet, round plating.Distribution, face plating.Profile) error {
	resisting := theoryBath
	resisting.Cathode.Resistance = 0.01 / 8 * plating.OhmSquareMetre // a Wagner number of 1 with the radius
	secondary, _, err := solveFor(disc(), resisting, 48)
	if err != nil {
		return err
	}
	flat, _, err := solveFor(strips(), theoryBath, 96)
	if err != nil {
		return err
	}
	straight := theoryBath
	straight.Cathode.Resistance = 0.001 * plating.OhmSquareMetre
	even, _, err := solveFor(duct(), straight, 48)
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-disc", "field-disc-resistance", float64(round.Resistance())),
		notebook.CheckRow("check-half", "field-disc-half", float64(face.At(discRadius/2)/round.Mean)),
		notebook.CheckRow("check-eight", "current-disc-eight", float64(face.At(0.8*discRadius)/round.Mean)),
		notebook.CheckRow("check-secondary", "field-disc-secondary", float64(secondary.Voltage)*4*8*0.01),
		notebook.CheckRow("check-strips", "field-strips", 1/float64(flat.Resistance())/8),
		notebook.CheckRow("check-duct", "current-duct-volts", float64(even.Voltage)),
		notebook.CheckRow("check-duct-even", "current-duct-even", float64(even.Thickest.CurrentDensity/even.Mean)),
	)
	return nil
}
