package corners

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// The section is seen from above. X runs from the left anode to the right one
// with the plates' middle plane at zero, Y across the tank from its middle line,
// which is a mirror: only the half above it is solved.

const (
	// anodeThickness is that of an anode; behind it is at least anodeBack.
	anodeThickness = 5 * mm
	anodeBack      = 3 * mm
	// elements is what is asked of the solver for the tank as it is set up, and
	// fewer for what is only set beside it; it takes more where a section needs
	// them.
	elements, fewer = 160, 100
)

// Sizes of a thief rod beside the outermost edge and of a shield in front of it.
const (
	thiefRadius     = 1.5 * mm
	thiefOff        = 6 * mm
	shieldOff       = 10 * mm
	shieldThickness = 1.5 * mm
	shieldInside    = 3 * mm
	shieldOutside   = 10 * mm
)

// layout is one way of hanging the plates.
type layout struct {
	in            Inputs
	thief, shield bool
}

// outermost returns how far the outermost edge lies from the tank's middle.
func (in Inputs) outermost() unit.Length {
	n := unit.Length(in.Count)
	return (n*in.Width + (n-1)*in.Gap) / 2
}

// point returns a corner of an outline.
func point(x, y unit.Length) plating.Corner { return plating.Corner{X: x, Y: y} }

// rounded returns a corner with the plate's rounding.
func (in Inputs) rounded(x, y unit.Length) plating.Corner {
	return plating.Corner{X: x, Y: y, Round: in.Rounding}
}

// section returns the half of the tank above its middle line.
func (l layout) section() plating.Section {
	in := l.in
	half, across := in.TankLength/2, in.TankWidth/2
	s := plating.Section{Depth: in.Through, Mirror: true, Outlines: []plating.Outline{
		{Name: "tank", Role: plating.RoleWall, Corners: []plating.Corner{point(-half, 0), point(-half, across), point(half, across), point(half, 0)}},
		in.anode("left anode", -(in.Thickness/2 + in.Left), -anodeThickness),
		in.anode("right anode", in.Thickness/2+in.Right, anodeThickness),
	}}
	s.Outlines = append(s.Outlines, in.plates()...)
	edge := in.outermost()
	if l.thief {
		s.Outlines = append(s.Outlines, plating.Circle("thief", plating.RoleThief, 0, edge+thiefOff, thiefRadius))
	}
	if l.shield {
		off := in.Thickness/2 + shieldOff
		s.Outlines = append(s.Outlines,
			plating.Box("left shield", plating.RoleShield, -off-shieldThickness, edge-shieldInside, -off, edge+shieldOutside),
			plating.Box("right shield", plating.RoleShield, off, edge-shieldInside, off+shieldThickness, edge+shieldOutside))
	}
	return s
}

// anode returns the half of an anode whose face stands at x and whose back lies
// a thickness further.
func (in Inputs) anode(name string, x, thickness unit.Length) plating.Outline {
	return plating.Outline{Name: name, Role: plating.RoleAnode, Corners: []plating.Corner{
		point(x, 0), point(x, in.AnodeWidth/2), point(x+thickness, in.AnodeWidth/2), point(x+thickness, 0)}}
}

// plates returns the plates above the middle line, the innermost first. With an
// odd number the first is the half of the plate that lies across it.
func (in Inputs) plates() []plating.Outline {
	h := in.Thickness / 2
	var plates []plating.Outline
	from := in.Gap / 2
	if in.Count%2 == 1 {
		plates = append(plates, plating.Outline{Name: "plate 1", Role: plating.RolePart, Corners: []plating.Corner{
			point(h, 0), in.rounded(h, in.Width/2), in.rounded(-h, in.Width/2), point(-h, 0)}})
		from = in.Width/2 + in.Gap
	}
	for range in.Count / 2 {
		plates = append(plates, plating.Outline{Name: fmt.Sprintf("plate %d", len(plates)+1), Role: plating.RolePart, Closed: true,
			Corners: []plating.Corner{in.rounded(-h, from), in.rounded(h, from), in.rounded(h, from+in.Width), in.rounded(-h, from+in.Width)}})
		from += in.Width + in.Gap
	}
	return plates
}

// area returns the area of the half of the plates that is solved.
func (in Inputs) area() unit.Area {
	cut := 2*float64(in.Width+in.Thickness) - (8-2*math.Pi)*float64(in.Rounding)
	return unit.Area(float64(in.Count) / 2 * cut * float64(in.Through))
}

// conditions returns the bath at a mean current density on the plates, when the
// given share of the current goes to them.
func (in Inputs) conditions(mean plating.CurrentDensity, toPlates float64) plating.Conditions {
	coefficient := float64(plating.TafelSlope(1, in.Temperature) / in.Tafel)
	return plating.Conditions{
		Conductivity: in.Conductivity,
		Current:      unit.Current(float64(mean) * float64(in.area()) / toPlates),
		Cathode: plating.Kinetics{Exchange: in.Exchange, Cathodic: coefficient, Anodic: coefficient,
			Temperature: in.Temperature},
	}
}

// check returns an error at its field for a layout that does not fit, before the
// solver finds out.
func (in Inputs) check() error {
	room := in.TankLength/2 - in.Thickness/2 - anodeThickness - anodeBack
	for _, side := range []struct {
		field    string
		distance unit.Length
	}{{"left", in.Left}, {"right", in.Right}} {
		if side.distance > room {
			return notebook.InField(side.field, fmt.Errorf("a distance of %.4g mm does not fit: the tank leaves %.4g mm before an anode of 5 mm with 3 mm behind it",
				float64(side.distance/mm), float64(room/mm)))
		}
	}
	if in.Rounding >= 0.49*min(in.Thickness, in.Width) {
		return notebook.InField("rounding", fmt.Errorf("a radius of %.4g mm is not below half the thickness, %.4g mm",
			float64(in.Rounding/mm), float64(in.Thickness/mm)/2))
	}
	if need, have := 2*(in.outermost()+2*mm), in.TankWidth; need > have {
		return notebook.InField("count", fmt.Errorf("%d plates with their gaps need %.4g mm, the tank is %.4g mm across", in.Count, float64(need/mm), float64(have/mm)))
	}
	if in.AnodeWidth > in.TankWidth-4*mm {
		return notebook.InField("anode-width", fmt.Errorf("an anode of %.4g mm does not fit across a tank of %.4g mm with 2 mm to spare at either end",
			float64(in.AnodeWidth/mm), float64(in.TankWidth/mm)))
	}
	return nil
}

// solved is a layout with its field and its distribution.
type solved struct {
	layout
	field *plating.Field
	d     plating.Distribution
}

// solve returns the distribution of a layout at a mean current density on the
// plates, with about so many elements.
func (l layout) solve(mean plating.CurrentDensity, elements int) (solved, error) {
	field, err := plating.NewField(l.section(), elements)
	if err != nil {
		return solved{}, err
	}
	return l.at(field, mean)
}

// at returns the distribution of a ready field at a mean current density on the
// plates. A thief takes its share on top, which is found in two rounds.
func (l layout) at(field *plating.Field, mean plating.CurrentDensity) (solved, error) {
	s := solved{layout: l, field: field}
	toPlates := 1.0
	for range 3 {
		var err error
		if s.d, err = field.Solve(l.in.conditions(mean, toPlates)); err != nil {
			return solved{}, err
		}
		if !l.thief || math.Abs(s.d.Utilisation-toPlates) < 1e-3 {
			break
		}
		toPlates = s.d.Utilisation
	}
	return s, nil
}

// spot is a place on the faces of the outermost plate.
type spot struct {
	// y is the distance from the tank's middle line.
	y float64
	// left and right are the current densities on the two faces.
	left, right plating.CurrentDensity
}

// both is the mean of the two faces.
func (s spot) both() plating.CurrentDensity { return (s.left + s.right) / 2 }

// faces returns the places along the faces of the outermost plate, from its
// inner edge to its outer.
func (s solved) faces() []spot {
	name := fmt.Sprintf("plate %d", (s.in.Count+1)/2)
	profile, _ := s.d.Profile(name)
	side := func(x unit.Length) []plating.Sample {
		var samples []plating.Sample
		for _, p := range profile.Samples {
			if math.Abs(float64(p.X-x)) < 1e-9 {
				samples = append(samples, p)
			}
		}
		sort.Slice(samples, func(i, j int) bool { return samples[i].Y < samples[j].Y })
		return samples
	}
	left, right := side(-s.in.Thickness/2), side(s.in.Thickness/2)
	var spots []spot
	for _, p := range left {
		spots = append(spots, spot{float64(p.Y), p.CurrentDensity, between(right, p.Y)})
	}
	return spots
}

// between returns the current density at a place among samples sorted by Y.
func between(samples []plating.Sample, y unit.Length) plating.CurrentDensity {
	for i := 1; i < len(samples); i++ {
		if a, b := samples[i-1], samples[i]; y <= b.Y || i == len(samples)-1 {
			return a.CurrentDensity + plating.CurrentDensity((y-a.Y)/(b.Y-a.Y))*(b.CurrentDensity-a.CurrentDensity)
		}
	}
	return plating.CurrentDensity(math.NaN())
}

// atSpot returns the mean of the two faces at a place.
func atSpot(spots []spot, y unit.Length) plating.CurrentDensity {
	var samples []plating.Sample
	for _, s := range spots {
		samples = append(samples, plating.Sample{Y: unit.Length(s.y), CurrentDensity: s.both()})
	}
	return between(samples, y)
}
