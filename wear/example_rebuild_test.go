package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// hollowWays are two ways that have worn in the middle.
func hollowWays() wear.WornWays {
	return wear.WornWays{Apart: 190 * mm, Bearing: 360 * mm,
		Places: []unit.Length{-480 * mm, -240 * mm, 0, 240 * mm, 480 * mm},
		Front:  []unit.Length{4 * um, 40 * um, 54 * um, 28 * um, 5 * um}, Rear: []unit.Length{2 * um, 22 * um, 35 * um, 20 * um, 3 * um}}
}

// A table run out beyond its saddle droops by its own weight and by the vise's.
func ExampleBeam_Overhang() {
	table := wear.Beam{Width: 200 * mm, Height: 60 * mm, Stiffness: 110e9, Density: 7200}
	for _, load := range []unit.Force{0, 400} {
		droop, slope, err := table.Overhang(350*mm, load)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%3.0f N at its end: %.1f um down, leaning %.0f um/m\n", float64(load), float64(droop/um), float64(slope/wear.MicrometrePerMetre))
	}
	// Output:
	// 0 N at its end: 4.0 um down, leaning 15 um/m
	// 400 N at its end: 18.4 um down, leaning 77 um/m
}

// The saddle rests on what it covers: the table can travel only as far as wear is
// known under both its ends.
func ExampleWornWays_Travel() {
	from, to := hollowWays().Travel()
	fmt.Printf("from %.0f to %.0f mm\n", float64(from/mm), float64(to/mm))
	// Output:
	// from -300 to 300 mm
}

// A grinder takes one plane, below the deepest mark and what is not known of it.
func ExamplePlanGrinding() {
	plan, err := wear.PlanScraping(hollowWays(), 50*mm, wear.ScrapeOptions{Light: 2 * um, Heavy: 10 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	grind, err := wear.PlanGrinding(plan, wear.GrindOptions{DeepestU: 2 * um, SetUpU: 3 * um, Clean: 5 * um, Cut: 10 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f um in %d cuts, of which %.0f um are margin\n", float64(grind.Depth/um), grind.Cuts, float64(grind.Margin/um))
	// Output:
	// 61 um in 7 cuts, of which 6 um are margin
}

// A glued sheet brings a table back to its height; what is too thick is milled off
// first.
func ExampleLining_Fit() {
	fit, err := wear.Lining{Thickness: 0.8 * mm, ThicknessU: 0.02 * mm, Glue: 0.1 * mm, GlueU: 0.02 * mm, Proud: 0.05 * mm}.Fit(0.15*mm, 0.01*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mill off %.2f mm; the height is then sure to %.2f mm\n", float64(fit.Mill/mm), float64(fit.U/mm))
	// Output:
	// mill off 0.70 mm; the height is then sure to 0.03 mm
}

// Chrome is through before the mean depth says so, for neither depth nor coat is
// sure.
func ExampleChanceThrough() {
	for _, depth := range []unit.Length{40 * um, 50 * um, 60 * um} {
		p, err := wear.ChanceThrough(depth, 4*um, 50*um, 5*um)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f um: %.2f\n", float64(depth/um), p)
	}
	// Output:
	// 40 um: 0.06
	// 50 um: 0.50
	// 60 um: 0.94
}

// Points to the square inch, said as a distance that one can see.
func ExamplePointSpacing() {
	for _, n := range []float64{10, 25} {
		apart, err := wear.PointSpacing(n)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f to the square inch: %.1f mm apart\n", n, float64(apart/mm))
	}
	// Output:
	// 10 to the square inch: 8.0 mm apart
	// 25 to the square inch: 5.1 mm apart
}

// Squares counted here and there tell how many points there are, and whether they
// are alike.
func ExampleCountPoints() {
	count, err := wear.CountPoints([]int{12, 14, 11, 15, 13}, 25.4*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f to the square inch, standard uncertainty %.1f, from %.0f to %.0f: %s\n", count.PerSquareInch, count.U, count.Least, count.Most, count.Class)
	// Output:
	// 13 to the square inch, standard uncertainty 0.7, from 11 to 15: ordinary ways
}

// shopScrew is a lead screw of five turns to the inch.
func shopScrew() wear.Screw {
	return wear.Screw{Lead: 5.08 * mm, Pitch: 22 * mm, Nut: 40 * mm, Depth: 2.54 * mm}
}

// Both flanks of a thread wear, and the table can be pushed by what both have lost.
func ExampleScrew_LostMotion() {
	lost, err := shopScrew().LostMotion(0.02*mm, 0.03*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f mm\n", float64(lost/mm))
	// Output:
	// 0.050 mm
}

// A nut wears all over, a screw only where the work lies: the wear of the nut's
// flank after a length of travel.
func ExampleScrew_NutWear() {
	worn, err := shopScrew().NutWear(1e-7*wear.CubicMillimetrePerNewtonMetre, 500, 20_000*unit.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um\n", float64(worn/um))
	// Output:
	// 9.9 um
}

// Lost motion as the hand feels it: a quarter of a millimetre is a twentieth of a
// turn.
func ExampleScrew_Handwheel() {
	turn, err := shopScrew().Handwheel(0.254 * mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f degrees\n", float64(turn)*57.29578)
	// Output:
	// 18.0 degrees
}
