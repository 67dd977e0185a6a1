package plating

// Reading a current distribution in space, and the coat by Faraday's law.

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/unit"
)

// Facet is the state of one triangle of an electrode.
type Facet struct {
	// Triangle is its number in the body's mesh with every step halved, from 0.
	Triangle int
	// Corners run anticlockwise seen from the bath; Middle is their mean.
	Corners [3]Point
	Middle  Point
	Area    unit.Area
	// CurrentDensity and Overpotential are positive when metal is laid down.
	CurrentDensity CurrentDensity
	Overpotential  unit.Voltage
}

// Skin is the current over one body's surface.
type Skin struct {
	Body string
	Role Role
	// Current is the sum over the body, positive when metal is laid down; Mean
	// is over its Area.
	Current unit.Current
	Area    unit.Area
	Mean    CurrentDensity
	Facets  []Facet
}

// SpacePlace is a triangle of a body and the current density there.
type SpacePlace struct {
	Body           string
	Triangle       int
	Middle         Point
	CurrentDensity CurrentDensity
}

// SpaceDistribution is a solved current distribution in space. Its figures are
// those of [Distribution].
type SpaceDistribution struct {
	// Skins are those of parts, anodes and thieves.
	Skins                       []Skin
	Current                     unit.Current
	Voltage                     unit.Voltage
	Ohmic, Cathode, Anode, Rest unit.Voltage
	// Mean, Thinnest and Thickest are on the parts alone, without thieves; the
	// two places are single triangles.
	Mean               CurrentDensity
	Thinnest, Thickest SpacePlace
	// Thick and Thin are the means over the tenth of the parts' area that has
	// most and that has least. They settle as the mesh is made finer, where a
	// single triangle at an edge goes on growing: without kinetics a sharp edge
	// has no highest current density at all. ThickChange and ThinChange compare
	// their shares of the mean with those on the coarser mesh, as Change does.
	Thick, Thin             CurrentDensity
	ThickChange, ThinChange float64
	Spread                  float64
	Utilisation             float64
	// ChargeError is what the anodes give less what the cathodes take, as a
	// share of the current; zero with an anode at infinity. The balance is one
	// of the equations, so that more than rounding means that they were not
	// solved; how good the mesh is, Change says.
	ChargeError float64
	// Change compares with the mesh whose steps are twice as long.
	Change Change
	// Steps is how many steps Newton's method took, Residual what was left, as
	// a share of the mean current density.
	Steps    int
	Residual float64
}

// solve returns the distribution on one mesh.
func (s *spaceSystem) solve(c Conditions) (SpaceDistribution, error) {
	p, err := newProblem(&s.network, c)
	if err != nil {
		return SpaceDistribution{}, err
	}
	st, err := p.solve()
	if err != nil {
		return SpaceDistribution{}, err
	}
	all, partArea := p.totals(st)
	d := SpaceDistribution{Skins: s.skins(st), Current: all.Current, Voltage: all.Voltage,
		Ohmic: all.Ohmic, Cathode: all.Cathode, Anode: all.Anode, Rest: all.Rest,
		Mean: all.Mean, Utilisation: all.Utilisation, Steps: all.Steps, Residual: all.Residual}
	d.extremes(partArea)
	if !s.farAnode {
		net := 0.0
		for e, j := range st.current {
			net += j * s.area[e]
		}
		d.ChargeError = math.Abs(net) / float64(d.Current)
	}
	return d, nil
}

// skins returns the bodies' skins in the order of the space.
func (s *spaceSystem) skins(st *state) []Skin {
	skins := make([]Skin, len(s.space.Bodies))
	for i, b := range s.space.Bodies {
		skins[i].Body, skins[i].Role = b.Name, b.Role
	}
	for e := range s.facets {
		f := &s.facets[e]
		skin := &skins[f.body]
		skin.Facets = append(skin.Facets, Facet{Triangle: f.triangle,
			Corners: [3]Point{pointAt(f.a), pointAt(f.b), pointAt(f.c)}, Middle: pointAt(f.mid), Area: unit.Area(f.area),
			CurrentDensity: CurrentDensity(st.current[e]), Overpotential: volt(st.overpotential[e])})
		skin.Area += unit.Area(f.area)
		skin.Current += unit.Current(st.current[e] * f.area)
	}
	for i := range skins {
		skins[i].Mean = CurrentDensity(float64(skins[i].Current) / float64(skins[i].Area))
	}
	return slices.DeleteFunc(skins, func(s Skin) bool { return !s.Role.electrode() })
}

// extremes fills in the thinnest and thickest place and the spread.
func (d *SpaceDistribution) extremes(partArea float64) {
	d.Thinnest.CurrentDensity, d.Thickest.CurrentDensity = CurrentDensity(math.Inf(1)), CurrentDensity(math.Inf(-1))
	square := 0.0
	for _, skin := range d.Skins {
		if skin.Role != RolePart {
			continue
		}
		for _, f := range skin.Facets {
			off := float64(f.CurrentDensity - d.Mean)
			square += float64(f.Area) * off * off
			here := SpacePlace{skin.Body, f.Triangle, f.Middle, f.CurrentDensity}
			if f.CurrentDensity < d.Thinnest.CurrentDensity {
				d.Thinnest = here
			}
			if f.CurrentDensity > d.Thickest.CurrentDensity {
				d.Thickest = here
			}
		}
	}
	d.Spread = math.Sqrt(square/partArea) / float64(d.Mean)
	d.Thick, d.Thin = d.bands(partArea / 10)
}

// bands returns the mean current density over the parts' triangles that have
// most, up to an area in m2, and over those that have least; the last triangle
// counts with what is wanting.
func (d *SpaceDistribution) bands(area float64) (thick, thin CurrentDensity) {
	var facets []Facet
	for _, skin := range d.Skins {
		if skin.Role == RolePart {
			facets = append(facets, skin.Facets...)
		}
	}
	slices.SortStableFunc(facets, func(a, b Facet) int { return cmp.Compare(b.CurrentDensity, a.CurrentDensity) })
	mean := func() CurrentDensity {
		left, sum := area, 0.0
		for _, f := range facets {
			share := math.Min(left, float64(f.Area))
			sum += share * float64(f.CurrentDensity)
			if left -= share; left <= 0 {
				break
			}
		}
		return CurrentDensity(sum / area)
	}
	thick = mean()
	slices.Reverse(facets)
	return thick, mean()
}

// plain returns the figures that a change is read from.
func (d SpaceDistribution) plain() Distribution {
	return Distribution{Ohmic: d.Ohmic, Current: d.Current, Mean: d.Mean, Spread: d.Spread,
		Thinnest: Place{CurrentDensity: d.Thinnest.CurrentDensity}, Thickest: Place{CurrentDensity: d.Thickest.CurrentDensity}}
}

// Resistance returns the ohmic share of the cell voltage over the current, zero
// for the zero value.
func (d SpaceDistribution) Resistance() unit.Resistance { return d.plain().Resistance() }

// Skin returns the skin of the named body, and whether there is one.
func (d SpaceDistribution) Skin(body string) (Skin, bool) {
	for _, s := range d.Skins {
		if s.Body == body {
			return s, true
		}
	}
	return Skin{}, false
}

// Over returns the triangles of the parts whose current density is over a
// limit, such as the burning limit of the bath, in the order of the skins, and
// their area and its share of the parts'. The limit must be above zero.
func (d SpaceDistribution) Over(limit CurrentDensity) (places []SpacePlace, area unit.Area, share float64, err error) {
	if err := positive("limit of the current density", float64(limit), inAPerDM2); err != nil {
		return nil, 0, 0, err
	}
	var all unit.Area
	for _, skin := range d.Skins {
		if skin.Role != RolePart {
			continue
		}
		all += skin.Area
		for _, f := range skin.Facets {
			if f.CurrentDensity > limit {
				area += f.Area
				places = append(places, SpacePlace{skin.Body, f.Triangle, f.Middle, f.CurrentDensity})
			}
		}
	}
	if all == 0 {
		return nil, 0, 0, errNoPart
	}
	return places, area, float64(area / all), nil
}

// SpaceGrowth is the coat that a current distribution in space lays down in a
// time.
type SpaceGrowth struct {
	Time unit.Time
	// Mean is over the parts' area, Mass what the parts gain; both leave
	// thieves out.
	Mean unit.Length
	Mass unit.Mass
	// Thinnest and Thickest are on the parts, single triangles.
	Thinnest, Thickest SpaceGrowthPlace
	// Skins hold parts and thieves.
	Skins []GrowthSkin
}

// SpaceGrowthPlace is a triangle of a part and the coat there.
type SpaceGrowthPlace struct {
	Body      string
	Triangle  int
	Middle    Point
	Thickness unit.Length
}

// GrowthSkin is the coat on one body: Thickness on each of the facets of its
// [Skin], in their order.
type GrowthSkin struct {
	Body      string
	Thickness []unit.Length
}

// Grow returns the coat after a time at steady current, as [Distribution.Grow]
// does.
func (d SpaceDistribution) Grow(deposit Deposit, efficiency EfficiencyCurve, t unit.Time) (SpaceGrowth, error) {
	if err := firstError(deposit.validate(), efficiency.Validate(), notNegative("time", float64(t), inMinute)); err != nil {
		return SpaceGrowth{}, err
	}
	g := SpaceGrowth{Time: t}
	g.Thinnest.Thickness, g.Thickest.Thickness = unit.Length(math.Inf(1)), unit.Length(math.Inf(-1))
	volume, area := 0.0, 0.0
	for _, skin := range d.Skins {
		if !skin.Role.cathodic() {
			continue
		}
		coat := GrowthSkin{Body: skin.Body}
		for _, f := range skin.Facets {
			thickness := unit.Length(growthRate(f.CurrentDensity, deposit, efficiency) * float64(t))
			coat.Thickness = append(coat.Thickness, thickness)
			if skin.Role != RolePart {
				continue
			}
			volume += float64(thickness) * float64(f.Area)
			area += float64(f.Area)
			here := SpaceGrowthPlace{skin.Body, f.Triangle, f.Middle, thickness}
			if thickness < g.Thinnest.Thickness {
				g.Thinnest = here
			}
			if thickness > g.Thickest.Thickness {
				g.Thickest = here
			}
		}
		g.Skins = append(g.Skins, coat)
	}
	if area == 0 {
		return SpaceGrowth{}, errNoPart
	}
	g.Mean = unit.Length(volume / area)
	g.Mass = unit.Mass(volume * float64(deposit.Density))
	return g, nil
}
