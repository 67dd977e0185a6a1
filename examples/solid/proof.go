package solid

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// theoryBath conducts 1 S/m, so that a resistance is one over 4 pi times the
// capacitance over 4 pi eps.
var theoryBath = plating.Conditions{Conductivity: 1 * plating.SiemensPerMetre, Current: 1 * unit.Ampere}

// capacitance returns the capacitance over 4 pi eps, in m, of a body that stands
// on a mirror in a wide bath and is made whole by it, and how many triangles
// the body took.
func capacitance(solid plating.Solid) (float64, int, error) {
	field, err := plating.NewSpaceField(plating.Space{Unbounded: true, Mirror: true, Bodies: []plating.Body{{Name: "body", Role: plating.RolePart, Solid: solid}}})
	if err != nil {
		return 0, 0, err
	}
	d, err := field.Solve(theoryBath)
	return 1 / (2 * math.Pi * float64(d.Resistance())), field.Triangles(), err
}

// cubeExact is the capacitance of a cube over 4 pi eps and its edge.
const cubeExact = 0.6606782

// cube returns half a cube of 1 m.
func cube(steps int) plating.Solid {
	return plating.Block{X: 1 * unit.Metre, Y: 1 * unit.Metre, Z: 1 * unit.Metre, Steps: steps, Half: [3]bool{false, false, true}}
}

// square is a square sheet of 1 m in the mirror with so many steps to a side,
// shorter towards the edges.
type square struct{ steps int }

// Mesh returns the sheet, facing upwards.
func (s square) Mesh(finer int) (plating.Mesh, error) {
	steps := s.steps * finer
	m := plating.Mesh{Name: "square"}
	place := func(i int) unit.Length {
		return unit.Length(-math.Cos(math.Pi*float64(i)/float64(steps)) / 2)
	}
	for i := range steps + 1 {
		for j := range steps + 1 {
			m.Points = append(m.Points, plating.Point{X: place(i), Y: place(j)})
			if i == 0 || j == 0 {
				continue
			}
			k := i*(steps+1) + j
			a, b, c, d := k-steps-2, k-1, k, k-steps-1
			// The diagonal runs alike in the four quarters.
			if (2*i <= steps) == (2*j <= steps) {
				m.Triangles = append(m.Triangles, [3]int{a, b, c}, [3]int{a, c, d})
			} else {
				m.Triangles = append(m.Triangles, [3]int{b, c, d}, [3]int{b, d, a})
			}
		}
	}
	return m, nil
}

// addProof adds the cube on two meshes, the three solvers beside one
// another, and the checks.
func addProof(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "converge", Title: "A cube on two meshes",
		Columns: []notebook.Column{notebook.Col("Triangles on the cube"), notebook.Col("Capacitance over 4π ε and the edge"), notebook.ColIn("Error", notebook.Percents)},
		Note:    notebook.Plain("Sides half as long make four times as many triangles.")}
	var found, errors [2]float64
	for i, steps := range []int{2, 4} {
		c, n, err := capacitance(cube(steps))
		if err != nil {
			return err
		}
		found[i], errors[i] = c, c/cubeExact-1
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Val(notebook.Whole(2 * n)), notebook.Val(notebook.Exact(c, notebook.Numbers).WithDigits(5)), notebook.Val(notebook.Exact(errors[i], notebook.Percents).WithDigits(2))})
	}
	table.Rows = append(table.Rows, []notebook.Cell{notebook.Str("published"), notebook.Val(notebook.Exact(cubeExact, notebook.Numbers).WithDigits(7)), notebook.Str("")})
	sheet.Add(table, notebook.Figure{Name: "order", Label: "Order of convergence", Value: notebook.Exact(math.Log2(errors[0]/errors[1]), notebook.Numbers).WithDigits(2),
		Note: notebook.Plain("The error falls as this power of the triangles' size.")})
	if err := addSolvers(sheet); err != nil {
		return err
	}
	return addChecks(sheet, found[1])
}

// addChecks sets bodies with known answers beside those.
func addChecks(sheet *notebook.Sheet, cubeC float64) error {
	plate, _, err := capacitance(square{8})
	if err != nil {
		return err
	}
	ball, _, err := capacitance(halfBall(10))
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-cube", "space-cube", cubeC),
		notebook.CheckRow("check-square", "space-square", plate),
		notebook.CheckRow("check-ball", "space-ball", ball),
	)
	return nil
}

// halfBall returns half a ball of 1 m radius on the mirror.
func halfBall(around int) plating.Solid {
	one := 1 * unit.Metre
	return plating.Spun{Around: around, Turned: plating.Turned{Name: "ball", Profile: []plating.ProfilePoint{{}, {R: plating.Exactly(one)}, {X: plating.Exactly(one), Arc: one}}}}
}

// spread returns the distribution in a space.
func spread(s plating.Space, c plating.Conditions) (plating.SpaceDistribution, error) {
	field, err := plating.NewSpaceField(s)
	if err != nil {
		return plating.SpaceDistribution{}, err
	}
	return field.Solve(c)
}

// inSection returns the distribution on a section.
func inSection(s plating.Section, c plating.Conditions) (plating.Distribution, error) {
	field, err := plating.NewField(s, 100)
	if err != nil {
		return plating.Distribution{}, err
	}
	return field.Solve(c)
}

// addSolvers sets the solver in space beside those on sections, on cells that
// both can hold, with kinetics.
func addSolvers(sheet *notebook.Sheet) error {
	c := plating.Conditions{Conductivity: 8 * plating.SiemensPerMetre, Current: 0.2 * unit.Ampere,
		Cathode: plating.Kinetics{Exchange: 0.001 * aDM2, Cathodic: 0.5, Anodic: 0.5, Temperature: plating.Celsius(55)}}
	// A bar and an anode from floor to surface are a plane section.
	bar, err := spread(plating.Space{Length: 80 * mm, Width: 30 * mm, Depth: 20 * mm, Bodies: []plating.Body{
		{Name: "bar", Role: plating.RolePart, Solid: plating.Block{X: 4 * mm, Y: 20 * mm, Z: 20 * mm, Steps: 2, Half: [3]bool{false, true, false}}, At: plating.Point{X: 22 * mm, Z: 10 * mm}},
		{Name: "anode", Role: plating.RoleAnode, Solid: plating.Block{X: 4 * mm, Y: 30 * mm, Z: 20 * mm, Steps: 2, Half: [3]bool{false, true, false}}, At: plating.Point{X: 62 * mm, Z: 10 * mm}}}}, c)
	if err != nil {
		return err
	}
	plane, err := inSection(plating.Section{Depth: 20 * mm, Mirror: true, Outlines: []plating.Outline{
		{Name: "tank", Role: plating.RoleWall, Corners: []plating.Corner{{}, {Y: 30 * mm}, {X: 80 * mm, Y: 30 * mm}, {X: 80 * mm}}},
		{Name: "bar", Role: plating.RolePart, Corners: []plating.Corner{{X: 20 * mm}, {X: 20 * mm, Y: 10 * mm}, {X: 24 * mm, Y: 10 * mm}, {X: 24 * mm}}},
		{Name: "anode", Role: plating.RoleAnode, Corners: []plating.Corner{{X: 60 * mm}, {X: 60 * mm, Y: 15 * mm}, {X: 64 * mm, Y: 15 * mm}, {X: 64 * mm}}}}}, c)
	if err != nil {
		return err
	}
	// Half a rod with round ends on the mirror of a wide bath is one on rings.
	r, h := 5*mm, 15*mm
	rod, err := spread(plating.Space{Unbounded: true, Mirror: true, Bodies: []plating.Body{{Name: "rod", Role: plating.RolePart, Solid: plating.Spun{Around: 10, Turned: plating.Turned{Name: "rod", Profile: []plating.ProfilePoint{
		{}, {R: plating.Exactly(r)}, {X: plating.Exactly(h), R: plating.Exactly(r)}, {X: plating.Exactly(h + r), Arc: r}}}}}}}, c)
	if err != nil {
		return err
	}
	rings, err := inSection(plating.Section{Axisymmetric: true, Unbounded: true, Mirror: true, Outlines: []plating.Outline{{Name: "rod", Role: plating.RolePart, Corners: []plating.Corner{
		{X: r}, {X: r, Y: h, Bulge: math.Tan(math.Pi / 8)}, {Y: h + r}}}}}, c)
	if err != nil {
		return err
	}
	table := notebook.Table{Name: "solvers", Title: "One cell, two solvers",
		Columns: []notebook.Column{notebook.Col("Cell"), notebook.Col("Figure"), notebook.Col("On a section"), notebook.Col("In space")},
		Note:    notebook.Plain("The rod's facets lie within its round, which makes it about a hundredth smaller.")}
	number := func(x float64) notebook.Cell { return notebook.Val(notebook.Exact(x, notebook.Numbers).WithDigits(4)) }
	row := func(cell, figure string, flat, space float64) {
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(cell), notebook.Str(figure), number(flat), number(space)})
	}
	row("bar from floor to surface, plane", "resistance in ohm", float64(plane.Resistance()), float64(bar.Resistance()))
	row("bar from floor to surface, plane", "spread", plane.Spread, bar.Spread)
	row("rod with round ends, rings", "resistance in ohm", float64(rings.Resistance()), float64(rod.Resistance()))
	row("rod with round ends, rings", "thickest, of the mean", float64(rings.Thickest.CurrentDensity/rings.Mean), float64(rod.Thickest.CurrentDensity/rod.Mean))
	sheet.Add(table)
	return nil
}
