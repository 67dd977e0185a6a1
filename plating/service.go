package plating

// Service thickness: what a class of service asks of the nickel at its thinnest
// place, and the mean that has to be aimed at so that this place gets it.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// How other figures of this package are known.
const (
	KnownRead       Known = "read"
	KnownFromMemory Known = "from memory"
	KnownPractice   Known = "common practice"
	KnownComputed   Known = "computed"
)

// ServiceClass is a class of service with the nickel that it asks for on the
// significant surface. The figure is a local minimum, not a mean.
type ServiceClass struct {
	// Name is the class, such as "SC 3" or "50", with what tells two coats of one
	// class apart.
	Name string
	// Service says in words what the part meets; empty where the standard leaves
	// it to the buyer.
	Service  string
	Standard string
	// LocalLeast is the least nickel at any place of the significant surface.
	LocalLeast unit.Length
	// DoubleLayer is true for semibright nickel under bright nickel, of which the
	// semibright layer is 60 % of the total on steel (read).
	DoubleLayer bool
	// Chromium is true where the class includes chromium on top, which is work
	// for licensed plants: without it the coat is not of the class.
	Chromium bool
	// Known says how the thickness is known.
	Known Known
}

// DecorativeClasses returns the service conditions of ASTM B456 for nickel and
// chromium on steel, the hardest service first. Where a class allows two coats
// each is given. The thicknesses of SC 5, the two of SC 3 and 30 um under SC 4
// agree with an extract of the Metal Finishing Guidebook that was read; the
// others, and all the words for the service, are from memory.
func DecorativeClasses() []ServiceClass {
	class := func(name, service string, micrometres float64, double bool, known Known) ServiceClass {
		return ServiceClass{name, service, "ASTM B456, on steel", unit.Length(micrometres * 1e-6), double, true, known}
	}
	const worst, outdoors, wet, warm, dry = "outdoors for years, hit and scratched", "outdoors, hit and scratched", "often wet, outdoors now and then", "indoors, condensing now and then", "indoors, warm and dry"
	return []ServiceClass{
		class("SC 5", worst, 35, true, KnownRead),
		class("SC 4, regular chromium", outdoors, 40, true, KnownFromMemory),
		class("SC 4, micro-discontinuous chromium", outdoors, 30, true, KnownRead),
		class("SC 3, regular chromium", wet, 30, true, KnownRead),
		class("SC 3, micro-discontinuous chromium", wet, 25, true, KnownRead),
		class("SC 2, regular chromium", warm, 20, false, KnownFromMemory),
		class("SC 2, micro-discontinuous chromium", warm, 15, false, KnownFromMemory),
		class("SC 1", dry, 10, false, KnownFromMemory),
	}
}

// EngineeringClasses returns the thickness classes of ASTM B689, thinnest first
// (from memory). The class X, a thickness that the buyer names, has no row.
func EngineeringClasses() []ServiceClass {
	var classes []ServiceClass
	for _, micrometres := range []float64{5, 25, 50, 100, 200} {
		classes = append(classes, ServiceClass{Name: fmt.Sprintf("class %.0f", micrometres), Standard: "ASTM B689",
			LocalLeast: unit.Length(micrometres * 1e-6), Known: KnownFromMemory})
	}
	return classes
}

// LocalDemand is a thickness that the thinnest place must have.
type LocalDemand struct {
	// Least is the local minimum, above zero.
	Least unit.Length
	// Share is local over mean thickness at the thinnest place that counts,
	// above 0 and at most 1, and ShareU its standard uncertainty.
	Share, ShareU float64
	// MeanU is the relative standard uncertainty of the mean thickness: its
	// area, current, time and efficiency together.
	MeanU float64
	// Chance with which the place is to have its least, 0.5 or more and below 1.
	Chance float64
}

// Aim is the mean thickness to aim at for a local minimum.
type Aim struct {
	// Mean is the thickness to aim at, Bare what it would be without any doubt.
	Mean, Bare unit.Length
	// LocalU is the standard uncertainty of the thickness at the thinnest place
	// when Mean is aimed at.
	LocalU unit.Length
	// Coverage is by how many of them the thinnest place is aimed above its
	// least.
	Coverage float64
}

// Aim returns the mean to aim at. With local = mean times share,
//
//	u(local)/local = sqrt((u(share)/share)^2 + u(mean)^2)
//	mean = least / (share (1 - k u(local)/local))
//
// and k the one-sided coverage of the chance under a normal distribution: a guard
// band on the safe side (JCGM 106:2012, section 8.3, from memory). It returns an
// error when the doubt is so large that no mean will do.
func (d LocalDemand) Aim() (Aim, error) {
	if err := firstError(
		positive("least thickness", float64(d.Least), inMicrometre),
		fraction("share at the thinnest place", d.Share),
		notNegative("uncertainty of that share", d.ShareU, inPlain),
		notNegative("relative uncertainty of the mean", d.MeanU, inPlain),
	); err != nil {
		return Aim{}, err
	}
	if !(d.Chance >= 0.5 && d.Chance < 1) {
		return Aim{}, fmt.Errorf("plating: chance is %.4g, must be 0.5 or more and below 1", d.Chance)
	}
	k := math.Sqrt2 * math.Erfinv(2*d.Chance-1)
	relative := math.Hypot(d.ShareU/d.Share, d.MeanU)
	if k*relative >= 1 {
		return Aim{}, fmt.Errorf("plating: with a relative uncertainty of %.2g at the thinnest place no mean gives a chance of %.4g", relative, d.Chance)
	}
	bare := d.Least / unit.Length(d.Share)
	mean := bare / unit.Length(1-k*relative)
	return Aim{Mean: mean, Bare: bare, LocalU: mean * unit.Length(d.Share*relative), Coverage: k}, nil
}
