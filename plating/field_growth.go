package plating

// From a current distribution to a coat, by Faraday's law place by place.

import (
	"math"

	"gonum.org/v1/gonum/unit"
)

// GrowthPlace is a place on a part and the coat there.
type GrowthPlace struct {
	Outline     string
	X, Y, Along unit.Length
	Thickness   unit.Length
}

// GrowthProfile is the coat along one outline: Thickness at the places Along it.
type GrowthProfile struct {
	Outline          string
	Along, Thickness []unit.Length
}

// Growth is the coat that a current distribution lays down in a time.
type Growth struct {
	Time unit.Time
	// Mean is over the parts' area, Mass what the parts gain; both leave
	// thieves out.
	Mean unit.Length
	Mass unit.Mass
	// Thinnest and Thickest are on the parts, single elements.
	Thinnest, Thickest GrowthPlace
	// Profiles hold parts and thieves.
	Profiles []GrowthProfile
}

// Grow returns the coat after a time at steady current, with the efficiency
// taken at each place's own current density:
//
//	thickness = k eta(j) j t / rho
//
// The coat must be thin beside the part's roundings, for the shape is not moved.
// A place where metal dissolves is given no coat. A negative time, a deposit or
// an efficiency curve out of range is an error.
func (d Distribution) Grow(deposit Deposit, efficiency EfficiencyCurve, t unit.Time) (Growth, error) {
	if err := firstError(deposit.validate(), efficiency.Validate(), notNegative("time", float64(t), inMinute)); err != nil {
		return Growth{}, err
	}
	g := Growth{Time: t}
	g.Thinnest.Thickness, g.Thickest.Thickness = unit.Length(math.Inf(1)), unit.Length(math.Inf(-1))
	volume, area := 0.0, 0.0
	for _, p := range d.Profiles {
		if !p.Role.cathodic() {
			continue
		}
		profile := GrowthProfile{Outline: p.Outline}
		for _, s := range p.Samples {
			thickness := unit.Length(growthRate(s.CurrentDensity, deposit, efficiency) * float64(t))
			profile.Along = append(profile.Along, s.Along)
			profile.Thickness = append(profile.Thickness, thickness)
			if p.Role != RolePart {
				continue
			}
			volume += float64(thickness) * float64(s.Area)
			area += float64(s.Area)
			here := GrowthPlace{p.Outline, s.X, s.Y, s.Along, thickness}
			if thickness < g.Thinnest.Thickness {
				g.Thinnest = here
			}
			if thickness > g.Thickest.Thickness {
				g.Thickest = here
			}
		}
		g.Profiles = append(g.Profiles, profile)
	}
	if area == 0 {
		return Growth{}, errNoPart
	}
	g.Mean = unit.Length(volume / area)
	g.Mass = unit.Mass(volume * float64(deposit.Density))
	return g, nil
}

// growthRate returns the growth of the coat in m/s at a current density.
func growthRate(j CurrentDensity, deposit Deposit, efficiency EfficiencyCurve) float64 {
	if j <= 0 {
		return 0
	}
	return float64(deposit.Equivalent) * efficiency.At(j) * float64(j) / float64(deposit.Density)
}

// TimeFor returns how long the thinnest place takes to reach a thickness at
// steady current; [Distribution.Grow] then says what the worst place has by
// that time. It is an error when some place gets no metal.
func (d Distribution) TimeFor(thickness unit.Length, deposit Deposit, efficiency EfficiencyCurve) (unit.Time, error) {
	if err := notNegative("thickness", float64(thickness), inMicrometre); err != nil {
		return 0, err
	}
	g, err := d.Grow(deposit, efficiency, 1*unit.Second)
	if err != nil {
		return 0, err
	}
	if err := positive("growth in one second at the thinnest place", float64(g.Thinnest.Thickness), inMicrometre); err != nil {
		return 0, err
	}
	return unit.Time(float64(thickness) / float64(g.Thinnest.Thickness)), nil
}
