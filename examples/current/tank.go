package current

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// The section is seen from above. The coupon lies in the wall at X = 0 about the
// middle Y = 0; the bath is on the side of positive X, with the anode in it.

// Sizes of what stands in the tank.
const (
	anodeThickness = 5 * mm
	clear          = 3 * mm
	// A shield is a strip of plastic before either edge.
	shieldOff, shieldThickness, shieldInside, shieldOutside = 8 * mm, 2 * mm, 3 * mm, 7 * mm
	// A thief is a rod beside either edge, off the wall.
	thiefRadius, thiefBeside, thiefOff = 1.5 * mm, 5 * mm, 4 * mm
	// elements is what is asked of the solver.
	elements = 150
	// strip is the width over which a coat is averaged: right at an edge a point
	// only tells how fine the mesh is, the mean over a strip settles.
	strip = 3 * mm
)

// layout is one way of setting up the tank.
type layout struct {
	in            Inputs
	shield, thief bool
}

func point(x, y unit.Length) plating.Corner { return plating.Corner{X: x, Y: y} }

// section returns the tank.
func (l layout) section() plating.Section {
	in := l.in
	half, across := in.Width/2, in.TankWidth/2
	s := plating.Section{Depth: in.Height, Outlines: []plating.Outline{
		{Name: "tank", Role: plating.RoleWall, Corners: []plating.Corner{point(0, half), point(0, across), point(in.TankLength, across), point(in.TankLength, -across), point(0, -across), point(0, -half)}},
		{Name: "coupon", Role: plating.RolePart, Corners: []plating.Corner{point(0, -half), point(0, half)}},
		plating.Box("anode", plating.RoleAnode, in.Distance, in.Sideways-in.AnodeWidth/2, in.Distance+anodeThickness, in.Sideways+in.AnodeWidth/2),
	}}
	for _, side := range []unit.Length{-1, 1} {
		name := map[unit.Length]string{-1: "left ", 1: "right "}[side]
		if l.shield {
			inner, outer := side*(half-shieldInside), side*(half+shieldOutside)
			s.Outlines = append(s.Outlines, plating.Box(name+"shield", plating.RoleShield, shieldOff, min(inner, outer), shieldOff+shieldThickness, max(inner, outer)))
		}
		if l.thief {
			s.Outlines = append(s.Outlines, plating.Circle(name+"thief", plating.RoleThief, thiefOff, side*(half+thiefBeside), thiefRadius))
		}
	}
	return s
}

// current returns the coupon's share of the supply's current.
func (in Inputs) current() unit.Current {
	return unit.Current(float64(in.Mean) * float64(in.Width) * float64(in.Height))
}

// conditions returns the bath when the given share of the current goes to the
// coupon.
func (in Inputs) conditions(toCoupon float64) plating.Conditions {
	coefficient := float64(plating.TafelSlope(1, in.Temperature) / in.Tafel)
	return plating.Conditions{Conductivity: in.Conductivity, Current: in.current() / unit.Current(toCoupon),
		Cathode: plating.Kinetics{Exchange: in.Exchange, Cathodic: coefficient, Anodic: coefficient, Temperature: in.Temperature}}
}

// check returns an error at its field for a layout that does not fit.
func (in Inputs) check() error {
	if most := in.TankLength - anodeThickness - clear; in.Distance > most {
		return notebook.InField("distance", fmt.Errorf("a distance of %.4g mm does not fit: the tank leaves %.4g mm before an anode of 5 mm with 3 mm behind it", float64(in.Distance/mm), float64(most/mm)))
	}
	if most := in.TankWidth - 24*mm; in.Width > most {
		return notebook.InField("width", fmt.Errorf("a coupon of %.4g mm does not fit: shields and thieves need 12 mm at either side, which leaves %.4g mm", float64(in.Width/mm), float64(most/mm)))
	}
	reach := math.Abs(float64(in.Sideways)) + float64(in.AnodeWidth)/2
	if most := float64(in.TankWidth/2 - clear); reach > most {
		field := "sideways"
		if float64(in.AnodeWidth)/2 > most {
			field = "anode-width"
		}
		return notebook.InField(field, fmt.Errorf("the anode reaches %.4g mm from the middle, the tank leaves %.4g mm", reach*1e3, most*1e3))
	}
	return nil
}

// solved is a layout with its field and its distribution.
type solved struct {
	layout
	field *plating.Field
	d     plating.Distribution
}

// solve returns the distribution of a layout.
func (l layout) solve() (solved, error) {
	field, err := plating.NewField(l.section(), elements)
	if err != nil {
		return solved{}, err
	}
	return l.at(field)
}

// at returns the distribution of a ready field. A thief takes its share on top,
// which is found in a few rounds.
func (l layout) at(field *plating.Field) (solved, error) {
	s := solved{layout: l, field: field}
	toCoupon := 1.0
	for range 4 {
		var err error
		if s.d, err = field.Solve(l.in.conditions(toCoupon)); err != nil {
			return solved{}, err
		}
		if math.Abs(s.d.Utilisation-toCoupon) < 1e-4 {
			break
		}
		toCoupon = s.d.Utilisation
	}
	return s, nil
}

// moved returns the distribution with the anode elsewhere, in the field that is
// already there.
func (s solved) moved(distance, sideways unit.Length) (solved, error) {
	field, err := s.field.Moved(plating.Move{Outline: "anode", X: distance - s.in.Distance, Y: sideways - s.in.Sideways})
	if err != nil {
		return solved{}, err
	}
	l := s.layout
	l.in.Distance, l.in.Sideways = distance, sideways
	return l.at(field)
}

// profile returns the current along the coupon, from its left edge.
func (s solved) profile() plating.Profile {
	p, _ := s.d.Profile("coupon")
	return p
}

// shares are local over mean current density at three places.
type shares struct{ left, middle, right float64 }

// shares returns them over a strip at either edge and in the middle.
func (s solved) shares() shares {
	p := s.profile()
	from := func(along unit.Length) float64 { return float64(p.MeanBetween(along, along+strip) / p.Mean) }
	return shares{from(0), from((s.in.Width - strip) / 2), from(s.in.Width - strip)}
}

// uneven is the greatest of the three shares over the least.
func (x shares) uneven() float64 {
	return max(x.left, x.middle, x.right) / min(x.left, x.middle, x.right)
}
