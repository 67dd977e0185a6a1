package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
)

// One slope in every way the shop says it: the table leans by 100 um/m.
func ExampleSlope() {
	s := 100 * squaring.Microradian
	fmt.Printf("%.2f mm in a metre, %.3f mm in 300 mm, %.4f in in a foot\n",
		float64(s.PerMetre()/mm), float64(s.Per300()/mm), float64(s.PerFoot()/squaring.Inch))
	fmt.Printf("%.1f arc seconds; over a 90 mm face it rises %.0f um\n", s.Arcseconds(), float64(s.Rise(90*mm)/um))
	// Output:
	// 0.10 mm in a metre, 0.030 mm in 300 mm, 0.0012 in in a foot
	// 20.6 arc seconds; over a 90 mm face it rises 9 um
}

// Slope and angle are one number as long as the angle is small. A swivel of one
// degree is the first at which it shows, by a third of an arc second.
func ExampleSlopeFromAngle() {
	s, err := squaring.SlopeFromAngle(1 * squaring.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	over := float64((s.LinearAngle() - s.Angle()) / squaring.Arcsecond)
	fmt.Printf("%.2f mm in 100 mm; reckoned as an angle it is %.2f arc seconds too large\n", float64(s.Rise(100*mm)/mm), over)
	// Output:
	// 1.75 mm in 100 mm; reckoned as an angle it is 0.37 arc seconds too large
}

// A cone's taper is told on the diameter, so a tail stock or a sine bar is set by
// half of it. Drawn: 0.938 in down to 0.778 in over 3 3/16 in, a Morse 3.
func ExampleTaperFromDiameters() {
	taper, err := squaring.TaperFromDiameters(0.938*squaring.Inch, 0.778*squaring.Inch, 3.1875*squaring.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	half, err := squaring.HalfAngleFromTaper(taper)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f in per foot, half angle %.3f deg\n", float64(taper.PerFoot()/squaring.Inch), float64(half/squaring.Degree))
	// Output:
	// 0.6024 in per foot, half angle 1.438 deg
}

// The top slide is swung to 5 degrees: the diameter grows by twice the slope.
func ExampleTaperFromHalfAngle() {
	taper, err := squaring.TaperFromHalfAngle(5 * squaring.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f mm larger in diameter for each 10 mm along\n", float64(taper.Rise(10*mm)/mm))
	// Output:
	// 1.75 mm larger in diameter for each 10 mm along
}

// The head as found, seen by a sweep: high at the left and the front. The two
// slopes are one lean in one direction, and the lean along a slanted feed is a
// mixture of both.
func ExampleGradient() {
	g := squaring.Gradient{X: -232 * squaring.Microradian, Y: -231 * squaring.Microradian}
	fmt.Printf("steepest %.0f um/m, climbing toward %.0f deg\n", g.Steepest().Microradians(), float64(g.Azimuth()/squaring.Degree))
	fmt.Printf("toward 45 deg %.0f um/m, toward 135 deg %.0f um/m\n",
		g.Along(45*squaring.Degree).Microradians(), g.Along(135*squaring.Degree).Microradians())
	fmt.Printf("a dial 110 mm to the left of the spindle shows %.1f um\n", float64(g.Height(-110*mm, 0*mm)/um))
	// Output:
	// steepest 327 um/m, climbing toward 225 deg
	// toward 45 deg -327 um/m, toward 135 deg 1 um/m
	// a dial 110 mm to the left of the spindle shows 25.5 um
}

// A sweep sees table slope minus spindle tilt. A level on the table and a sweep
// together therefore tell how the spindle itself stands to level.
func ExampleGradient_Minus() {
	table := squaring.GradientToward(180*squaring.Degree, 150*squaring.Microradian) // by level: high at the left
	sweep := squaring.Gradient{X: -232 * squaring.Microradian, Y: -231 * squaring.Microradian}
	spindle := table.Minus(sweep)
	fmt.Printf("spindle to level: %.0f um/m in x, %.0f um/m in y\n", spindle.X.Microradians(), spindle.Y.Microradians())
	back := spindle.Plus(sweep)
	fmt.Printf("table to level: %.0f um/m in x\n", back.X.Microradians())
	// Output:
	// spindle to level: 82 um/m in x, 231 um/m in y
	// table to level: -150 um/m in x
}
