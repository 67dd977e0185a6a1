package plating

import (
	"fmt"
	"math"
)

// Plate is a rectangular block plated on its six faces.
type Plate struct {
	Length, Width, Thickness Dimension
}

// Surface returns 2 (L W + L T + W T).
func (p Plate) Surface() (Surface, error) {
	return surfaceOf("plate", func(x []float64) float64 {
		return 2 * (x[0]*x[1] + x[0]*x[2] + x[1]*x[2])
	}, named{"length", p.Length}, named{"width", p.Width}, named{"thickness", p.Thickness})
}

// Rod is a round bar, a disc or a wire.
type Rod struct {
	Diameter, Length Dimension
	// OpenEnds is how many of the two flat ends take no metal: masked, or
	// joined to another part.
	OpenEnds int
}

// Surface returns pi D L and pi D^2/4 for each end that is plated.
func (r Rod) Surface() (Surface, error) {
	if err := openEnds("rod", r.OpenEnds); err != nil {
		return Surface{}, err
	}
	ends := float64(2 - r.OpenEnds)
	return surfaceOf("rod", func(x []float64) float64 {
		return math.Pi*x[0]*x[1] + ends*math.Pi/4*x[0]*x[0]
	}, named{"diameter", r.Diameter}, named{"length", r.Length})
}

// Tube is a sleeve, open right through, plated on its two ring ends.
type Tube struct {
	Outside, Inside, Length Dimension
	// BoreShare is the bore's mean thickness over that of the outside, 0 to 1:
	// little current reaches into a bore. Zero leaves the bore out. BoreShareU
	// is its standard uncertainty.
	BoreShare, BoreShareU float64
}

// Surface returns the effective area that the current is shared over: the
// outside, the ring ends, and the bore counted at its share. Divide the charge
// by this area for the outside's thickness; the bore's is BoreShare times that.
func (t Tube) Surface() (Surface, error) {
	if !(t.BoreShare >= 0 && t.BoreShare <= 1) {
		return Surface{}, fmt.Errorf("plating: bore share of the tube is %.4g, must be 0 to 1", t.BoreShare)
	}
	if err := notNegative("standard uncertainty of the bore share of the tube", t.BoreShareU, inPlain); err != nil {
		return Surface{}, err
	}
	if t.Inside.Value >= t.Outside.Value {
		return Surface{}, fmt.Errorf("plating: inside diameter of the tube is %s, must be below the outside, %s",
			inMillimetre.of(float64(t.Inside.Value)), inMillimetre.of(float64(t.Outside.Value)))
	}
	s, err := surfaceOf("tube", func(x []float64) float64 {
		return math.Pi*x[0]*x[2] + math.Pi/2*(x[0]*x[0]-x[1]*x[1]) + t.BoreShare*math.Pi*x[1]*x[2]
	}, named{"outside diameter", t.Outside}, named{"inside diameter", t.Inside}, named{"length", t.Length})
	if err != nil {
		return Surface{}, err
	}
	bore := math.Pi * float64(t.Inside.Value) * float64(t.Length.Value)
	return withShares(s.Name, float64(s.Area), append(s.Shares, Share{"bore share", bore * t.BoreShareU})), nil
}

// Sphere is a ball.
type Sphere struct {
	Diameter Dimension
}

// Surface returns pi D^2.
func (b Sphere) Surface() (Surface, error) {
	return surfaceOf("sphere", func(x []float64) float64 { return math.Pi * x[0] * x[0] }, named{"diameter", b.Diameter})
}

// Torus is a ring of round section.
type Torus struct {
	// MeanDiameter is that of the circle through the section's centres,
	// SectionDiameter that of the section; the ring must have a hole.
	MeanDiameter, SectionDiameter Dimension
}

// Surface returns pi^2 D d, by Pappus.
func (r Torus) Surface() (Surface, error) {
	if r.SectionDiameter.Value >= r.MeanDiameter.Value {
		return Surface{}, fmt.Errorf("plating: section diameter of the torus is %s, must be below the mean diameter, %s",
			inMillimetre.of(float64(r.SectionDiameter.Value)), inMillimetre.of(float64(r.MeanDiameter.Value)))
	}
	return surfaceOf("torus", func(x []float64) float64 { return math.Pi * math.Pi * x[0] * x[1] },
		named{"mean diameter", r.MeanDiameter}, named{"section diameter", r.SectionDiameter})
}

// Hexagon is a hexagonal bar or a nut blank without its hole.
type Hexagon struct {
	AcrossFlats, Length Dimension
	// OpenEnds is how many of the two ends take no metal.
	OpenEnds int
}

// Surface returns 2 sqrt(3) s L and sqrt(3)/2 s^2 for each end that is plated,
// with s across the flats.
func (h Hexagon) Surface() (Surface, error) {
	if err := openEnds("hexagon", h.OpenEnds); err != nil {
		return Surface{}, err
	}
	ends := float64(2 - h.OpenEnds)
	return surfaceOf("hexagon", func(x []float64) float64 {
		return 2*math.Sqrt(3)*x[0]*x[1] + ends*math.Sqrt(3)/2*x[0]*x[0]
	}, named{"width across flats", h.AcrossFlats}, named{"length", h.Length})
}

// Spring is a helical spring of round wire with open coils.
type Spring struct {
	WireDiameter Dimension
	// MeanDiameter is that of the coil, wire centre to wire centre.
	MeanDiameter Dimension
	// Pitch is the advance of a turn. It must exceed the wire diameter: closed
	// coils touch, and where they touch nothing is plated.
	Pitch Dimension
	// Turns counts all turns and need not be whole.
	Turns float64
}

// Surface returns the skin of the wire and its two ends,
//
//	pi d N sqrt((pi D)^2 + p^2) + pi d^2 / 2
//
// which is exact (Pappus for a tube about a curve) while the wire is thinner
// than twice the radius of curvature of its own centre line.
func (s Spring) Surface() (Surface, error) {
	if err := positive("turns of the spring", s.Turns, inPlain); err != nil {
		return Surface{}, err
	}
	if s.Pitch.Value <= s.WireDiameter.Value {
		return Surface{}, fmt.Errorf("plating: pitch of the spring is %s, must be above the wire diameter, %s (closed coils touch)",
			inMillimetre.of(float64(s.Pitch.Value)), inMillimetre.of(float64(s.WireDiameter.Value)))
	}
	if s.MeanDiameter.Value <= s.WireDiameter.Value {
		return Surface{}, fmt.Errorf("plating: mean diameter of the spring is %s, must be above the wire diameter, %s",
			inMillimetre.of(float64(s.MeanDiameter.Value)), inMillimetre.of(float64(s.WireDiameter.Value)))
	}
	return surfaceOf("spring", func(x []float64) float64 {
		return math.Pi*x[0]*s.Turns*math.Hypot(math.Pi*x[1], x[2]) + math.Pi/2*x[0]*x[0]
	}, named{"wire diameter", s.WireDiameter}, named{"mean diameter", s.MeanDiameter}, named{"pitch", s.Pitch})
}

// Thread is the flanks, crests and roots of an ISO 60 degree thread on a rod or
// in a hole, without end faces.
type Thread struct {
	// Diameter is the major (nominal) diameter, Pitch the advance of a turn,
	// Length the threaded length along the axis.
	Diameter, Pitch, Length Dimension
}

// isoHeight is the height of the basic profile between crest and root flats
// over the pitch: 5/8 of the sharp triangle's sqrt(3)/2 (ISO 68-1, from memory;
// it gives the tabulated minor diameter of M8, 6.647 mm).
const isoHeight = 5.0 / 8 * 0.86602540378443864676

// Surface returns the developed area by rings: over each pitch a crest flat
// P/8, a root flat P/4 and two flanks of 0.625 P at the mean of major and minor
// diameter. The helix adds about one part in a thousand; see
// [Thread.HelixSurface]. Rounded roots and blunt crests take away a little, so
// trust it to about 2 % (common practice).
func (t Thread) Surface() (Surface, error) {
	return t.surface(ringsPerPitch)
}

// HelixSurface returns the area with the true helical flanks, which slant to
// the axis by the lead as well.
func (t Thread) HelixSurface() (Surface, error) {
	return t.surface(helixPerPitch)
}

func (t Thread) surface(perPitch func(d, p float64) float64) (Surface, error) {
	// The root must keep some core: the minor radius is above zero.
	if minor := float64(t.Diameter.Value) - 2*isoHeight*float64(t.Pitch.Value); !(minor > 0) && t.Diameter.Value > 0 {
		return Surface{}, fmt.Errorf("plating: pitch of the thread is %s, too coarse for a diameter of %s",
			inMillimetre.of(float64(t.Pitch.Value)), inMillimetre.of(float64(t.Diameter.Value)))
	}
	return surfaceOf("thread", func(x []float64) float64 {
		return perPitch(x[0], x[1]) * x[2] / x[1]
	}, named{"diameter", t.Diameter}, named{"pitch", t.Pitch}, named{"length", t.Length})
}

// ringsPerPitch returns the area of one pitch as rings.
func ringsPerPitch(d, p float64) float64 {
	minor := d - 2*isoHeight*p
	return math.Pi * p * (d/8 + minor/4 + 2*0.625*(d+minor)/2)
}

// helixPerPitch returns the area of one turn of the helical surface. With the
// profile's arc length s, radius r(s) and lead p the area of a turn is
//
//	2 pi integral sqrt(r^2 + (p/2pi)^2 (dr/ds)^2) ds
//
// On flats dr/ds is 0; on flanks it is cos 30, which makes the integral closed.
func helixPerPitch(d, p float64) float64 {
	minor := d - 2*isoHeight*p
	slope := math.Sqrt(3) / 2
	c := p / (2 * math.Pi) * slope
	primitive := func(r float64) float64 {
		return (r*math.Hypot(r, c) + c*c*math.Asinh(r/c)) / 2
	}
	flank := (primitive(d/2) - primitive(minor/2)) / slope
	return math.Pi*p*(d/8+minor/4) + 2*2*math.Pi*flank
}

// Knurl is a rolled or cut pattern of teeth on a plain surface.
type Knurl struct {
	// Plain is the surface before knurling.
	Plain Surface
	// Angle is the included angle of the teeth in degrees, above 0 and below
	// 180: 90 is usual.
	Degrees float64
}

// Bounds returns the factors between which the area of straight or pyramid
// teeth lies: 1 for no teeth and 1/sin(angle/2) for perfectly sharp ones.
func (k Knurl) Bounds() (low, high float64, err error) {
	if !(k.Degrees > 0 && k.Degrees < 180) {
		return 0, 0, fmt.Errorf("plating: angle of the knurl is %.4g degrees, must be above 0 and below 180", k.Degrees)
	}
	return 1, 1 / math.Sin(k.Degrees/2*math.Pi/180), nil
}

// Surface returns the plain area times the middle of the bounds. The truth may
// be anywhere between them (rectangular), which gives the share "teeth".
func (k Knurl) Surface() (Surface, error) {
	low, high, err := k.Bounds()
	if err != nil {
		return Surface{}, err
	}
	if err := firstError(positive("plain area of the knurl", float64(k.Plain.Area), inSquareCM),
		notNegative("standard uncertainty of the plain area of the knurl", float64(k.Plain.U), inSquareCM)); err != nil {
		return Surface{}, err
	}
	middle := (low + high) / 2
	a := float64(k.Plain.Area)
	return withShares("knurl", a*middle, []Share{
		{"plain area", float64(k.Plain.U) * middle},
		{"teeth", a * (high - low) / math.Sqrt(12)},
	}), nil
}
