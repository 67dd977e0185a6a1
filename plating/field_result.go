package plating

// Reading a current distribution: the thinnest and the thickest place, what
// burns, the shares of the cell voltage, and the coat by Faraday's law.

import (
	"errors"
	"math"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// Sample is the state of one boundary element of an electrode.
type Sample struct {
	// X and Y are the middle of the element, Along its distance along the
	// outline from the first corner in the caller's direction.
	X, Y, Along unit.Length
	// Length is the element's, Area that of its strip or ring.
	Length unit.Length
	Area   unit.Area
	// CurrentDensity and Overpotential are positive when metal is laid down.
	CurrentDensity CurrentDensity
	Overpotential  unit.Voltage
}

// Profile is the current along one electrode's outline, in the order of the
// caller's corners.
type Profile struct {
	Outline string
	Role    Role
	// Current is the sum over the outline, positive when metal is laid down;
	// Mean is over its area.
	Current unit.Current
	Mean    CurrentDensity
	Samples []Sample
}

// Place is a place on an outline and the current density there.
type Place struct {
	Outline        string
	X, Y, Along    unit.Length
	CurrentDensity CurrentDensity
}

// Change is how far the answer moved, as a share of itself, when the number of
// elements was doubled. The error that is left is usually smaller; a Thickest
// that will not settle is the mark of a sharp corner without kinetics.
type Change struct {
	Resistance, Thinnest, Thickest, Spread float64
}

// Distribution is a solved current distribution.
type Distribution struct {
	Profiles []Profile
	// Current is the supply's, Voltage the cell's.
	Current unit.Current
	Voltage unit.Voltage
	// Ohmic, Cathode, Anode and Rest are the shares of the cell voltage: the
	// bath's, the two overpotentials averaged over the current, and the
	// difference of the potentials at rest. They add up to Voltage.
	Ohmic, Cathode, Anode, Rest unit.Voltage
	// Mean, Thinnest and Thickest are on the parts alone, without thieves; the
	// two places are single elements.
	Mean               CurrentDensity
	Thinnest, Thickest Place
	// Spread is the standard deviation of the current density over the parts'
	// area, as a share of the mean: 0 is perfectly even.
	Spread float64
	// Utilisation is the share of the current that goes to the parts; the rest
	// goes to thieves.
	Utilisation float64
	// ChargeError is the share of the current that the mesh lost between anodes
	// and cathodes before it was made good; it measures the mesh. It is zero on
	// an unbounded section, where nothing is left to measure it by.
	ChargeError float64
	// Change compares with a mesh of half as many elements.
	Change Change
	// Steps is how many steps Newton's method took, Residual what was left, as
	// a share of the mean current density.
	Steps    int
	Residual float64
}

// totals reads from a state what does not depend on where the elements lie, and
// the parts' area.
func (p *problem) totals(st *state) (d Distribution, partArea float64) {
	d = Distribution{Voltage: volt(st.voltage), Steps: st.steps, Residual: st.residual}
	var cathode, anode, cathodeRest, anodeRest, partCurrent float64
	for e, j := range st.current {
		current := j * p.area[e]
		if !p.cathodic(e) {
			anode -= current * st.overpotential[e]
			anodeRest -= current * p.atRest(e)
			continue
		}
		d.Current += unit.Current(current)
		cathode += current * st.overpotential[e]
		cathodeRest += current * p.atRest(e)
		if p.roles[e] == RolePart {
			partCurrent += current
			partArea += p.area[e]
		}
	}
	total := float64(d.Current)
	// An anode lies at minus its overpotential's sign: both shares are costs.
	d.Cathode, d.Anode = volt(cathode/total), volt(-anode/total)
	d.Rest = volt((anodeRest - cathodeRest) / total)
	d.Ohmic = d.Voltage - d.Cathode - d.Anode - d.Rest
	d.Utilisation = partCurrent / total
	d.Mean = CurrentDensity(partCurrent / partArea)
	d.ChargeError = math.Abs(p.kappa * p.loss(p.potential(st)) / total)
	return d, partArea
}

// extremes fills in the thinnest and thickest place and the spread.
func (d *Distribution) extremes(partArea float64) {
	d.Thinnest.CurrentDensity, d.Thickest.CurrentDensity = CurrentDensity(math.Inf(1)), CurrentDensity(math.Inf(-1))
	square := 0.0
	for _, profile := range d.Profiles {
		if profile.Role != RolePart {
			continue
		}
		for _, s := range profile.Samples {
			off := float64(s.CurrentDensity - d.Mean)
			square += float64(s.Area) * off * off
			here := Place{profile.Outline, s.X, s.Y, s.Along, s.CurrentDensity}
			if s.CurrentDensity < d.Thinnest.CurrentDensity {
				d.Thinnest = here
			}
			if s.CurrentDensity > d.Thickest.CurrentDensity {
				d.Thickest = here
			}
		}
	}
	d.Spread = math.Sqrt(square/partArea) / float64(d.Mean)
}

// profiles returns the electrodes' profiles in the order of the section's
// outlines.
func (s *system) profiles(st *state) []Profile {
	byOutline := make([][]Sample, len(s.section.Outlines))
	for e, i := range s.electrodes {
		el := &s.elements[i]
		byOutline[el.edge.outline] = append(byOutline[el.edge.outline], Sample{
			X: unit.Length(el.mid.X), Y: unit.Length(el.mid.Y),
			Along:  unit.Length(el.edge.along((el.s0 + el.s1) / 2)),
			Length: unit.Length(el.length), Area: unit.Area(s.area[e]),
			CurrentDensity: CurrentDensity(st.current[e]), Overpotential: volt(st.overpotential[e])})
	}
	var profiles []Profile
	for o, samples := range byOutline {
		if len(samples) == 0 {
			continue
		}
		sortByAlong(samples)
		profile := Profile{Outline: s.section.Outlines[o].Name, Role: s.section.Outlines[o].Role, Samples: samples}
		area := 0.0
		for _, s := range samples {
			profile.Current += unit.Current(float64(s.CurrentDensity) * float64(s.Area))
			area += float64(s.Area)
		}
		profile.Mean = CurrentDensity(float64(profile.Current) / area)
		profiles = append(profiles, profile)
	}
	return profiles
}

// changeBetween compares the distribution on a coarser mesh with that on a
// finer one.
func changeBetween(coarse, fine Distribution) Change {
	return Change{
		Resistance: changed(float64(coarse.Ohmic)/float64(coarse.Current), float64(fine.Ohmic)/float64(fine.Current)),
		Thinnest:   changed(float64(coarse.Thinnest.CurrentDensity/coarse.Mean), float64(fine.Thinnest.CurrentDensity/fine.Mean)),
		Thickest:   changed(float64(coarse.Thickest.CurrentDensity/coarse.Mean), float64(fine.Thickest.CurrentDensity/fine.Mean)),
		// An even coat has a spread near zero, which must not be divided by.
		Spread: math.Abs(coarse.Spread-fine.Spread) / (1 + fine.Spread),
	}
}

// changed returns the difference of two figures as a share of the second.
func changed(a, b float64) float64 {
	return math.Abs(a-b) / math.Max(math.Abs(b), math.SmallestNonzeroFloat64)
}

// Resistance returns the ohmic share of the cell voltage over the current, zero
// for the zero value.
func (d Distribution) Resistance() unit.Resistance {
	if d.Current == 0 {
		return 0
	}
	return unit.Resistance(float64(d.Ohmic) / float64(d.Current))
}

// Profile returns the profile of the named outline, and whether there is one.
func (d Distribution) Profile(outline string) (Profile, bool) {
	for _, p := range d.Profiles {
		if p.Outline == outline {
			return p, true
		}
	}
	return Profile{}, false
}

// At returns the current density at a place along the outline, by straight
// lines between the middles of elements and level beyond the ends. It returns
// NaN for a profile without samples.
func (p Profile) At(along unit.Length) CurrentDensity {
	if len(p.Samples) == 0 || math.IsNaN(float64(along)) {
		return CurrentDensity(math.NaN())
	}
	if along <= p.Samples[0].Along {
		return p.Samples[0].CurrentDensity
	}
	for i := 1; i < len(p.Samples); i++ {
		a, b := p.Samples[i-1], p.Samples[i]
		if along <= b.Along {
			s := float64(along-a.Along) / float64(b.Along-a.Along)
			return a.CurrentDensity + CurrentDensity(s)*(b.CurrentDensity-a.CurrentDensity)
		}
	}
	return p.Samples[len(p.Samples)-1].CurrentDensity
}

// MeanBetween returns the mean current density between two places along the
// outline, each element counted by the share of it that lies between. It
// returns NaN when nothing lies between.
func (p Profile) MeanBetween(from, to unit.Length) CurrentDensity {
	sum, area := 0.0, 0.0
	for _, s := range p.Samples {
		low := math.Max(float64(from), float64(s.Along-s.Length/2))
		high := math.Min(float64(to), float64(s.Along+s.Length/2))
		if high <= low {
			continue
		}
		a := float64(s.Area) * (high - low) / float64(s.Length)
		sum += float64(s.CurrentDensity) * a
		area += a
	}
	return CurrentDensity(sum / area)
}

// errNoPart is what the zero distribution answers.
var errNoPart = errors.New("plating: the distribution holds no part")

// Stretch is a piece of an outline over a limit.
type Stretch struct {
	Outline string
	// From and To lie along the outline.
	From, To unit.Length
	// Peak is the highest current density on it.
	Peak CurrentDensity
}

// Over returns the stretches of the parts whose current density is over a
// limit, such as the burning limit of the bath, and the share of the parts'
// area that they make up. The limit must be above zero.
func (d Distribution) Over(limit CurrentDensity) (stretches []Stretch, share float64, err error) {
	if err := positive("limit of the current density", float64(limit), inAPerDM2); err != nil {
		return nil, 0, err
	}
	over, all := 0.0, 0.0
	for _, p := range d.Profiles {
		if p.Role != RolePart {
			continue
		}
		open := false
		for _, s := range p.Samples {
			all += float64(s.Area)
			if s.CurrentDensity <= limit {
				open = false
				continue
			}
			over += float64(s.Area)
			if !open {
				stretches = append(stretches, Stretch{Outline: p.Outline, From: s.Along - s.Length/2})
				open = true
			}
			last := &stretches[len(stretches)-1]
			last.To = s.Along + s.Length/2
			last.Peak = max(last.Peak, s.CurrentDensity)
		}
	}
	if all == 0 {
		return nil, 0, errNoPart
	}
	return stretches, over / all, nil
}

// sortByAlong sorts samples by their place along the outline.
func sortByAlong(samples []Sample) {
	sort.Slice(samples, func(i, j int) bool { return samples[i].Along < samples[j].Along })
}
