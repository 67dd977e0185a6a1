package plating

// The graded-current panel: a test panel in a small slanted cell, on which one
// run shows what the bath does over a range of current densities.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Panel is a plated panel from the 267 mL cell.
type Panel struct {
	// Current through the cell, above zero.
	Current unit.Current
}

// The places on the panel between which the formula of [Panel.At] holds.
const (
	PanelNearest  unit.Length = 0.25 * 0.0254
	PanelFarthest unit.Length = 3.25 * 0.0254
)

// At returns the current density at a distance from the high-current end, by
// the trade's formula for the 267 mL cell,
//
//	j = I (27.7 - 48.7 log10 L)   (A/ft2, A, in)
//
// (Metal Finishing Guidebook, 2013, chapter on plating cells; read). It holds
// for 0.25 to 3.25 in; a place outside is an error. The formula is an average
// over baths: the primary distribution of the same cell lies 14 % below it at
// 10 mm and meets it near 40 mm, and [PanelSection] gives the one that belongs
// to the bath's own kinetics and conductivity.
func (p Panel) At(distance unit.Length) (CurrentDensity, error) {
	if err := positive("current through the panel", float64(p.Current), inAmpere); err != nil {
		return 0, err
	}
	if !(distance >= PanelNearest && distance <= PanelFarthest) {
		return 0, fmt.Errorf("plating: place on the panel is %s from the high-current end, must be %s to %s",
			inMillimetre.of(float64(distance)), inMillimetre.of(float64(PanelNearest)), inMillimetre.of(float64(PanelFarthest)))
	}
	return p.formula(distance), nil
}

// formula is the trade's formula without its limits.
func (p Panel) formula(distance unit.Length) CurrentDensity {
	inches := float64(distance) / 0.0254
	return CurrentDensity(float64(p.Current)*(27.7-48.7*math.Log10(inches))) * AmperePerSquareFoot
}

// Place returns where on the panel a current density stands: the inverse of
// [Panel.At]. A current density that stands nowhere within its limits is an
// error.
func (p Panel) Place(j CurrentDensity) (unit.Length, error) {
	low, err := p.At(PanelFarthest)
	if err != nil {
		return 0, err
	}
	high := p.formula(PanelNearest)
	if !(j >= low && j <= high) {
		return 0, fmt.Errorf("plating: current density %s is not on the panel, which shows %s to %s at %s",
			inAPerDM2.of(float64(j)), inAPerDM2.of(float64(low)), inAPerDM2.of(float64(high)), inAmpere.of(float64(p.Current)))
	}
	share := float64(j/AmperePerSquareFoot) / float64(p.Current)
	return unit.Length(0.0254 * math.Pow(10, (27.7-share)/48.7)), nil
}

// PanelReading is where on a panel the deposit is good.
type PanelReading struct {
	// From and To are distances from the high-current end, 0 at the end itself.
	From, To unit.Length
	// U is the standard uncertainty with which each border can be told.
	U unit.Length
}

// PanelRange is the usable range of current density read from a panel.
type PanelRange struct {
	Low, High CurrentDensity
	// LowU and HighU are standard uncertainties from that of the borders alone.
	LowU, HighU CurrentDensity
	// LowOpen and HighOpen are true where the good deposit goes on beyond what
	// the formula covers: the range then reaches at least so far.
	LowOpen, HighOpen bool
}

// Read returns the usable range of current density from where the deposit is
// good:
//
//	U(j) = I 48.7 / (ln 10 L) U(L)
//
// A reading out of order, beyond the panel, or wholly outside the formula's
// limits is an error.
func (p Panel) Read(r PanelReading) (PanelRange, error) {
	if err := firstError(
		positive("current through the panel", float64(p.Current), inAmpere),
		notNegative("near border of the good deposit", float64(r.From), inMillimetre),
		notNegative("far border of the good deposit", float64(r.To), inMillimetre),
		notNegative("standard uncertainty of a border", float64(r.U), inMillimetre),
	); err != nil {
		return PanelRange{}, err
	}
	if length := panelLength(); !(r.From < r.To && float64(r.To) <= 1.001*length) {
		return PanelRange{}, fmt.Errorf("plating: good deposit runs from %s to %s, must run away from the high-current end and stay on the panel of %s",
			inMillimetre.of(float64(r.From)), inMillimetre.of(float64(r.To)), inMillimetre.of(length))
	}
	if r.To <= PanelNearest || r.From >= PanelFarthest {
		return PanelRange{}, fmt.Errorf("plating: good deposit from %s to %s lies outside the places that can be read, %s to %s",
			inMillimetre.of(float64(r.From)), inMillimetre.of(float64(r.To)), inMillimetre.of(float64(PanelNearest)), inMillimetre.of(float64(PanelFarthest)))
	}
	got := PanelRange{HighOpen: r.From < PanelNearest, LowOpen: r.To > PanelFarthest}
	near, far := max(r.From, PanelNearest), min(r.To, PanelFarthest)
	got.High, got.Low = p.formula(near), p.formula(far)
	got.HighU, got.LowU = p.formulaU(near, r.U), p.formulaU(far, r.U)
	return got, nil
}

// formulaU returns the standard uncertainty of the formula's value from that of
// the place.
func (p Panel) formulaU(distance, u unit.Length) CurrentDensity {
	return CurrentDensity(float64(p.Current)*48.7/math.Ln10*float64(u)/float64(distance)) * AmperePerSquareFoot
}

// The plan of the 267 mL cell in metres (from memory of the trade's drawings)
// and its volume in m3. The panel closes the slanted side.
const (
	panelAnodeWidth = 63.5e-3
	panelLongWall   = 127.0e-3
	panelShortWall  = 47.6e-3
	panelVolume     = 267e-6
)

// panelLength returns the length of the panel in m.
func panelLength() float64 { return math.Hypot(panelLongWall-panelShortWall, panelAnodeWidth) }

// PanelSection returns the 267 mL cell in plan, filled to its volume, for
// [NewField]. Its outlines are "anode", "short wall", "panel" and "long wall";
// distances along the panel run from the high-current end.
func PanelSection() Section {
	plan := panelAnodeWidth * (panelLongWall + panelShortWall) / 2
	at := func(x, y float64) Corner { return Corner{X: unit.Length(x), Y: unit.Length(y)} }
	a, b := at(0, 0), at(0, panelAnodeWidth)
	c, d := at(panelShortWall, panelAnodeWidth), at(panelLongWall, 0)
	return Section{Depth: unit.Length(panelVolume / plan), Outlines: []Outline{
		{Name: "anode", Role: RoleAnode, Corners: []Corner{a, b}},
		{Name: "short wall", Role: RoleWall, Corners: []Corner{b, c}},
		{Name: "panel", Role: RolePart, Corners: []Corner{c, d}},
		{Name: "long wall", Role: RoleWall, Corners: []Corner{d, a}},
	}}
}
