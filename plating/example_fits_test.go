package plating_test

import (
	"fmt"

	"example.org/thouspan/plating"
	"gonum.org/v1/gonum/unit"
)

// A pin whose journal is to be 8 mm h7 after plating: what it becomes, and the
// chance that it is in its limits.
func ExamplePlatedSize() {
	const um, mm = unit.Micro * unit.Metre, unit.Milli * unit.Metre
	coat := plating.LocalCoat{Mean: 12 * um, MeanU: 0.8 * um, Share: 1, ShareU: 0.05}
	plated, err := plating.PlatedSize(plating.Pin, plating.Dimension{Value: 7.968 * mm, U: 2 * um}, coat)
	if err != nil {
		fmt.Println(err)
		return
	}
	chance, err := plated.ChanceWithin(plating.Limits{Least: 7.985 * mm, Greatest: 8 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f mm, standard uncertainty %.1f um; %.0f in 100\n", float64(plated.Size/mm), float64(plated.U)*1e6, 100*chance)
	// Output: 7.992 mm, standard uncertainty 2.8 um; 99 in 100
}

// Why a thread grows so much more than a pin: the same coat twice on a diameter,
// four times on the pitch diameter of a 60-degree thread, and more on a 29-degree
// one.
func ExamplePitchDiameterGrowth() {
	const coat = 10 * unit.Micro * unit.Metre
	pin, err := plating.Pin.Factor()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("pin: %.0f um, %.0f times the coat\n", float64(plating.DiameterGrowth(coat))*1e6, pin)
	for _, degrees := range []float64{60, 29} {
		growth, err := plating.PitchDiameterGrowth(coat, degrees)
		if err != nil {
			fmt.Println(err)
			return
		}
		factor, err := plating.PitchDiameterFactor(degrees)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f degrees: %.0f um, %.2f times\n", degrees, float64(growth)*1e6, factor)
	}
	// Output:
	// pin: 20 um, 2 times the coat
	// 60 degrees: 40 um, 4.00 times
	// 29 degrees: 80 um, 7.99 times
}

// How much room there is between a screw M8 and its nut before they are plated,
// and the largest class of coat that it takes.
func ExampleLargestClass() {
	const um, mm = unit.Micro * unit.Metre, unit.Milli * unit.Metre
	diameter, err := plating.BasicPitchDiameter(8*mm, 1.25*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	screw, nut, err := plating.PitchDiameterTolerance(8*mm, 1.25*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	middle, u, least, err := plating.ClassClearance(8*mm, 1.25*mm, plating.PositionG)
	if err != nil {
		fmt.Println(err)
		return
	}
	class, ok, err := plating.LargestClass(least, 3)
	if err != nil || !ok {
		fmt.Println(err, ok)
		return
	}
	needs, err := plating.AllowanceFor(class.Nominal, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("pitch diameter %.3f mm, tolerances %.0f and %.0f um\n", float64(diameter/mm), float64(screw/um), float64(nut/um))
	fmt.Printf("clearance %.0f um, standard uncertainty %.0f um, never below %.0f um\n", float64(middle/um), float64(u/um), float64(least/um))
	fmt.Printf("at most a coat of nominal %.0f um, which needs %.0f um\n", float64(class.Nominal/um), float64(needs/um))
	// Output:
	// pitch diameter 7.188 mm, tolerances 121 and 160 um
	// clearance 169 um, standard uncertainty 58 um, never below 28 um
	// at most a coat of nominal 5 um, which needs 20 um
}

// A thread's area two ways: by its flanks, and by the helix that they follow.
func ExampleThread_HelixSurface() {
	const mm = unit.Milli * unit.Metre
	thread := plating.Thread{Diameter: plating.Exactly(8 * mm), Pitch: plating.Exactly(1.25 * mm), Length: plating.Exactly(20 * mm)}
	rings, err := thread.Surface()
	if err != nil {
		fmt.Println(err)
		return
	}
	helix, err := thread.HelixSurface()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f cm2 and %.2f cm2\n", float64(rings.Area/plating.SquareCentimetre), float64(helix.Area/plating.SquareCentimetre))
	// Output: 7.42 cm2 and 7.43 cm2
}

// Between what a knurl's area lies, as a multiple of the plain surface, when its
// form is not known.
func ExampleKnurl_Bounds() {
	low, high, err := plating.Knurl{Degrees: 90}.Bounds()
	fmt.Printf("%.2f to %.2f times %v\n", low, high, err)
	// Output: 1.00 to 1.41 times <nil>
}

// Parts on one rack, and the sum of surfaces of one part.
func ExampleSum() {
	flange, err := plating.Area("flange", 40*plating.SquareCentimetre, 1*plating.SquareCentimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	stem, err := plating.Area("stem", 22*plating.SquareCentimetre, 0.5*plating.SquareCentimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	six, err := plating.Sum("plunger", flange, stem).Times(6)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f cm2, standard uncertainty %.0f cm2\n", float64(six.Area/plating.SquareCentimetre), float64(six.U/plating.SquareCentimetre))
	// Output: 372 cm2, standard uncertainty 7 cm2
}

// The outline of a turned part as radii along its axis, for a drawing.
func ExampleTurned_Trace() {
	point := func(x, r unit.Length) plating.ProfilePoint {
		return plating.ProfilePoint{X: plating.Exactly(x), R: plating.Exactly(r)}
	}
	cone := plating.Turned{Name: "cone", Profile: []plating.ProfilePoint{point(0, 4*millimetre), point(12*millimetre, 10*millimetre)}}
	places, radii, err := cone.Trace(4)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i := range places {
		fmt.Printf("%.0f mm: radius %.1f mm\n", float64(places[i]/millimetre), float64(radii[i]/millimetre))
	}
	// Output:
	// 0 mm: radius 4.0 mm
	// 12 mm: radius 10.0 mm
}
