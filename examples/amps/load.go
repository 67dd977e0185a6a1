package amps

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// The shapes that a part can have.
const (
	shapePlate   = "plate"
	shapeRod     = "rod or disc"
	shapeTube    = "tube"
	shapeHexagon = "hexagon"
	shapeThread  = "thread"
	shapeBall    = "ball"
)

func shapeNames() []string {
	return []string{shapePlate, shapeRod, shapeTube, shapeHexagon, shapeThread, shapeBall}
}

// need is a dimension that a shape cannot do without.
type need struct {
	column string
	value  *unit.Length
}

// load returns the wetted surface of everything on the rack, and that of each
// row.
func (in Inputs) load() (whole plating.Surface, rows []plating.Surface, err error) {
	for i, p := range in.Parts {
		s, err := in.row(p, i+1)
		if err != nil {
			return whole, nil, err
		}
		rows = append(rows, s)
	}
	if in.Extra != nil {
		s, err := plating.Area("area typed in", *in.Extra, *in.Extra*unit.Area(in.ExtraU))
		if err != nil {
			return whole, nil, notebook.InField("extra", err)
		}
		rows = append(rows, s)
	}
	if len(rows) == 0 {
		return whole, nil, notebook.InField("parts", fmt.Errorf("nothing is on the rack: give a part, or type an area in"))
	}
	return plating.Sum("load", rows...), rows, nil
}

// row returns the surface of one row of parts.
func (in Inputs) row(p Part, n int) (plating.Surface, error) {
	needs := []need{{"length", p.Length}, {"width", p.Width}}
	if p.Shape == shapeBall { // which has no length
		needs[0] = needs[1]
	}
	if p.Shape == shapePlate || p.Shape == shapeTube || p.Shape == shapeThread {
		needs = append(needs, need{"third", p.Third})
	}
	var d []plating.Dimension
	for _, need := range needs {
		if need.value == nil {
			return plating.Surface{}, notebook.InRow("parts", n, need.column, fmt.Errorf("a %s needs this dimension", p.Shape))
		}
		d = append(d, plating.Dimension{Value: *need.value, U: in.Good / unit.Length(math.Sqrt(3))})
	}
	one, err := in.shape(p.Shape, d).Surface()
	if err != nil {
		return plating.Surface{}, notebook.InRow("parts", n, "shape", err)
	}
	one.Name = fmt.Sprintf("row %d, %s", n, p.Shape)
	many, err := one.Times(p.Count)
	return many, notebook.InRow("parts", n, "count", err)
}

// shape returns the solid of a name from its dimensions: as many as row found
// it to need.
func (in Inputs) shape(name string, d []plating.Dimension) plating.Shape {
	switch name {
	case shapeRod:
		return plating.Rod{Length: d[0], Diameter: d[1]}
	case shapeTube:
		return plating.Tube{Length: d[0], Outside: d[1], Inside: d[2], BoreShare: in.BoreShare, BoreShareU: in.BoreShare / 2}
	case shapeHexagon:
		return plating.Hexagon{Length: d[0], AcrossFlats: d[1]}
	case shapeThread:
		// A pitch is a thread's name, not a reading.
		return plating.Thread{Length: d[0], Diameter: d[1], Pitch: plating.Exactly(d[2].Value)}
	case shapeBall:
		return plating.Sphere{Diameter: d[1]}
	}
	return plating.Plate{Length: d[0], Width: d[1], Thickness: d[2]}
}

// loadTable shows the area of each row of the rack.
func loadTable(whole plating.Surface, rows []plating.Surface) notebook.Table {
	t := notebook.Table{Name: "load", Title: "The load",
		Columns: []notebook.Column{notebook.Col("On the rack"), notebook.ColIn("Wetted area", notebook.Areas)}}
	for _, s := range append(append([]plating.Surface(nil), rows...), whole) {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(s.Name), notebook.Val(notebook.Of(s.Area, s.U, notebook.Areas))})
	}
	return t
}
