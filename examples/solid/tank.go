package solid

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/ownpart"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// X runs from the left wall to the right one, Y away from you and Z up, all from
// the middle of the tank. Where tank and load are alike on both sides of a
// middle plane only the half beyond it is solved: its wall is the mirror.

const (
	anodeThickness = 5 * mm
	// clear is the least room left to walls, floor, surface and other bodies.
	clear = 2 * mm
)

// layout is one way of hanging the load.
type layout struct {
	in Inputs
	// own is the reader's own part made fit for the solver, about its middle.
	own plating.Mesh
	// steps is how fine the mesh of another part is.
	steps int
}

// mirrored says of which middle planes only one side is solved.
func (l layout) mirrored() [3]bool {
	if l.in.Part == ownFile {
		return [3]bool{}
	}
	return [3]bool{l.in.Anodes == bothSides, l.in.Sideways == 0 && l.in.flat(), l.in.flat()}
}

// flat reports whether the part is a plate.
func (in Inputs) flat() bool { return in.Part == fourPlates || in.Part == onePlate }

// hung is a body about the middle of the tank.
type hung struct {
	name  string
	role  plating.Role
	solid plating.Solid
	// size is that of the box about it, at its middle.
	size, at [3]unit.Length
}

// part returns the parts.
func (l layout) part() ([]hung, error) {
	in := l.in
	if in.Part == ownFile {
		size, _ := ownpart.Size(l.own)
		return []hung{{"part", plating.RolePart, l.own, size, [3]unit.Length{}}}, nil
	}
	if !in.flat() {
		h, err := in.turned(l.steps)
		return []hung{h}, err
	}
	size := [3]unit.Length{in.PlateThickness, in.PlateWidth, in.PlateLength}
	block := plating.Block{X: size[0], Y: size[1], Z: size[2], Round: in.Rounding, Steps: l.steps}
	if in.Part == onePlate {
		return []hung{{"plate", plating.RolePart, block, size, [3]unit.Length{}}}, nil
	}
	var all []hung
	for i, sign := range [][2]unit.Length{{1, 1}, {-1, 1}, {1, -1}, {-1, -1}} {
		all = append(all, hung{fmt.Sprintf("plate %d", i+1), plating.RolePart, block, size,
			[3]unit.Length{0, sign[0] * (in.Gap + in.PlateWidth) / 2, sign[1] * (in.Gap + in.PlateLength) / 2}})
	}
	return all, nil
}

// The thumb screw of the shop: an M4 shank as a plain rod of its pitch diameter,
// a neck and a head.
func thumbScrew() []Point {
	return []Point{{0, 3.5 * mm}, {14 * mm, 3.5 * mm}, {14 * mm, 6 * mm}, {16 * mm, 6 * mm}, {16 * mm, 12 * mm}, {21 * mm, 12 * mm}}
}

// turned returns the turned part, upright with its middle in that of the tank.
func (in Inputs) turned(steps int) (hung, error) {
	points, field := thumbScrew(), "part"
	if in.Part == ownTurned {
		points, field = in.Points, "points"
	}
	profile := []plating.ProfilePoint{{X: plating.Exactly(points[0].Place)}}
	widest := unit.Length(0)
	for i, p := range points {
		if i > 0 && (p.Place < points[i-1].Place || p == points[i-1]) {
			return hung{}, notebook.InRow(field, i+1, "place", fmt.Errorf("point at %.4g mm, diameter %.4g mm, must lie above the one before or beside it with another diameter",
				float64(p.Place/mm), float64(p.Diameter/mm)))
		}
		profile = append(profile, plating.ProfilePoint{X: plating.Exactly(p.Place), R: plating.Exactly(p.Diameter / 2)})
		widest = max(widest, p.Diameter)
	}
	first, last := points[0].Place, points[len(points)-1].Place
	if last == first {
		return hung{}, notebook.InField(field, fmt.Errorf("the profile is 0 mm long, must be above 0 mm"))
	}
	for i := range profile {
		profile[i].X.Value -= (first + last) / 2
	}
	profile = append(profile, plating.ProfilePoint{X: profile[len(profile)-1].X})
	roundCorners(profile, in.Rounding)
	return hung{"part", plating.RolePart, plating.Spun{Around: 2 * steps, Turned: plating.Turned{Name: "part", Profile: profile}},
		[3]unit.Length{widest, widest, last - first}, [3]unit.Length{}}, nil
}

// roundCorners rounds the corners of a profile by a radius, or by less where a
// piece is short.
func roundCorners(profile []plating.ProfilePoint, radius unit.Length) {
	length := func(i int) unit.Length {
		a, b := profile[i-1], profile[i]
		return unit.Length(math.Hypot(float64(b.X.Value-a.X.Value), float64(b.R.Value-a.R.Value)))
	}
	for i := 1; i < len(profile)-1; i++ {
		profile[i].Fillet = min(radius, 0.3*length(i), 0.3*length(i+1))
	}
}

// anodes returns the anodes.
func (l layout) anodes() []hung {
	in := l.in
	size := [3]unit.Length{anodeThickness, in.AnodeWidth, in.AnodeHeight}
	block := plating.Block{X: size[0], Y: size[1], Z: size[2], Steps: 2}
	x := in.Distance + anodeThickness/2
	all := []hung{{"right anode", plating.RoleAnode, block, size, [3]unit.Length{x, in.Sideways, 0}}}
	if in.Anodes == bothSides {
		all = append(all, hung{"left anode", plating.RoleAnode, block, size, [3]unit.Length{-x, in.Sideways, 0}})
	}
	return all
}

// tank returns the sizes of the tank.
func (in Inputs) tank() [3]unit.Length {
	return [3]unit.Length{in.TankLength, in.TankWidth, in.TankDepth}
}

// space returns what is solved: the tank, or the part of it beyond its mirrors.
func (l layout) space() (plating.Space, error) {
	parts, err := l.part()
	if err != nil {
		return plating.Space{}, err
	}
	var s plating.Space
	mirror, tank := l.mirrored(), l.in.tank()
	var origin [3]unit.Length
	for axis := range 3 {
		if mirror[axis] {
			tank[axis] /= 2
		} else {
			origin[axis] = tank[axis] / 2
		}
	}
	s.Length, s.Width, s.Depth = tank[0], tank[1], tank[2]
	for _, h := range append(parts, l.anodes()...) {
		keep, half := true, [3]bool{}
		for axis := range 3 {
			half[axis] = mirror[axis] && h.at[axis] == 0
			keep = keep && !(mirror[axis] && h.at[axis] < 0)
		}
		if keep {
			s.Bodies = append(s.Bodies, plating.Body{Name: h.name, Role: h.role, Solid: halved(h.solid, half),
				At: plating.Point{X: h.at[0] + origin[0], Y: h.at[1] + origin[1], Z: h.at[2] + origin[2]}})
		}
	}
	return s, nil
}

// halved returns the half of a solid beyond the mirrors that it lies across.
func halved(s plating.Solid, half [3]bool) plating.Solid {
	switch s := s.(type) {
	case plating.Block:
		s.Half = half
		return s
	case plating.Spun:
		s.Half = half[0]
		return s
	}
	return s
}

// share is how much of the whole load is solved.
func (l layout) share() float64 {
	share := 1.0
	for _, m := range l.mirrored() {
		if m {
			share /= 2
		}
	}
	return share
}

// check returns an error at its field for a layout that does not fit.
func (l layout) check() error {
	in := l.in
	parts, err := l.part()
	if err != nil {
		return err
	}
	if in.flat() && in.Rounding >= 0.49*min(in.PlateThickness, in.PlateWidth, in.PlateLength) {
		return notebook.InField("rounding", fmt.Errorf("a radius of %.4g mm is not below half the least size of the plate, %.4g mm",
			float64(in.Rounding/mm), float64(min(in.PlateThickness, in.PlateWidth, in.PlateLength)/mm)/2))
	}
	tank, names := in.tank(), [3]string{"tank-length", "tank-width", "tank-depth"}
	reach := [3]unit.Length{}
	for _, h := range parts {
		for axis := range 3 {
			reach[axis] = max(reach[axis], h.size[axis]/2+unit.Length(math.Abs(float64(h.at[axis]))))
			if need := 2 * (reach[axis] + clear); need > tank[axis] {
				return notebook.InField(names[axis], fmt.Errorf("a tank of %.4g mm is too small: the load with 2 mm to spare needs %.4g mm", float64(tank[axis]/mm), float64(need/mm)))
			}
		}
	}
	if in.Distance < reach[0]+clear {
		return notebook.InField("distance", fmt.Errorf("an anode %.4g mm from the middle touches the part, which reaches %.4g mm: leave 2 mm", float64(in.Distance/mm), float64(reach[0]/mm)))
	}
	if most := in.TankLength/2 - anodeThickness - clear; in.Distance > most {
		return notebook.InField("distance", fmt.Errorf("an anode %.4g mm from the middle does not fit: the tank leaves %.4g mm", float64(in.Distance/mm), float64(most/mm)))
	}
	if in.AnodeHeight > in.TankDepth-2*clear {
		return notebook.InField("anode-height", fmt.Errorf("an anode of %.4g mm does not fit in a bath %.4g mm deep with 2 mm to spare", float64(in.AnodeHeight/mm), float64(in.TankDepth/mm)))
	}
	if most := in.TankWidth/2 - clear; unit.Length(math.Abs(float64(in.Sideways)))+in.AnodeWidth/2 > most {
		field := "sideways"
		if in.AnodeWidth/2 > most {
			field = "anode-width"
		}
		return notebook.InField(field, fmt.Errorf("the anode reaches %.4g mm from the middle across the tank, the tank leaves %.4g mm",
			math.Abs(float64(in.Sideways/mm))+float64(in.AnodeWidth/mm)/2, float64(most/mm)))
	}
	return nil
}
