package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// shopMap is a table that runs in a hollow, read with a level.
func shopMap() (wear.TableMap, error) {
	var slopes []wear.SlopePoint
	for i, slope := range []wear.Slope{60, 60, 110, 190, 245, 255, 250} {
		slopes = append(slopes, wear.SlopePoint{Position: unit.Length(120*(i-3)) * mm, Slope: slope * wear.MicrometrePerMetre, U: 2e-6})
	}
	return wear.MapTable(slopes, 360*mm)
}

// A map answers only where readings stand.
func ExampleTableMap_Run() {
	table, err := shopMap()
	if err != nil {
		fmt.Println(err)
		return
	}
	from, to := table.Run()
	fmt.Printf("from %.0f to %.0f mm\n", float64(from/mm), float64(to/mm))
	// Output:
	// from -360 to 360 mm
}

// The place where a part comes out straightest, with what the readings leave open.
func ExampleTableMap_Best() {
	table, err := shopMap()
	if err != nil {
		fmt.Println(err)
		return
	}
	spot, err := table.Best(300*mm, 0, wear.LeastBow)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("at u = %.0f mm: bow %.1f um, standard uncertainty %.1f um\n", float64(spot.Place/mm), float64(spot.Bow/um), float64(spot.BowU/um))
	// Output:
	// at u = -94 mm: bow 1.8 um, standard uncertainty 2.5 um
}

// The head was set square in the middle: what it is out by elsewhere on the table.
func ExampleTableMap_Spots() {
	table, err := shopMap()
	if err != nil {
		fmt.Println(err)
		return
	}
	spots, err := table.Spots(200*mm, 0, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range spots {
		fmt.Printf("u = %4.0f mm: leans %4.0f um/m\n", float64(s.Place/mm), float64(s.Lean/wear.MicrometrePerMetre))
	}
	// Output:
	// u = -260 mm: leans -133 um/m
	// u =    0 mm: leans    0 um/m
	// u =  260 mm: leans   65 um/m
}

// How a rail of 600 mm comes out, above the line through its ends.
func ExampleTableMap_Shape() {
	table, err := shopMap()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range table.Shape(0, 600*mm, 5) {
		fmt.Printf("%3.0f mm: %.0f um\n", float64(p.Position/mm), float64(p.Height/um))
	}
	// Output:
	// 0 mm: 0 um
	// 150 mm: 8 um
	// 300 mm: 12 um
	// 450 mm: 10 um
	// 600 mm: 0 um
}

// A rail longer than the travel, cut in two settings: its bow is that of its whole
// length, joint and all.
func ExampleTableMap_InTwoSettings() {
	table, err := shopMap()
	if err != nil {
		fmt.Println(err)
		return
	}
	two, err := table.InTwoSettings(900*mm, 200*mm, 1*um)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("pieces of %.0f mm; bow %.0f um, standard uncertainty %.0f um\n", float64(two.Piece/mm), float64(two.Bow/um), float64(two.BowU/um))
	// Output:
	// pieces of 550 mm; bow 24 um, standard uncertainty 3 um
}

// Heights read one by one, as with a table run under a dial: the dial's step is what
// they are sure to.
func ExampleProfileFromReadings() {
	p, err := wear.ProfileFromReadings([]wear.Point{{Position: 0}, {Position: 200 * mm, Height: 6 * um}, {Position: 400 * mm, Height: 2 * um}},
		wear.Gauge{Step: 2 * um, RepeatU: 0.5 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := p.Straightness(wear.EndPoints)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("each height to %.2f um; straight to %.0f um (u %.1f)\n", float64(p.U(1)/um), float64(s.Value/um), float64(s.U/um))
	// Output:
	// each height to 0.76 um; straight to 5 um (u 0.9)
}

// Two ways that wore unlike each other twist the table as it travels.
func ExampleTwist() {
	run := func(heights ...float64) (wear.Profile, error) {
		var points []wear.Point
		for i, h := range heights {
			points = append(points, wear.Point{Position: unit.Length(200*i) * mm, Height: unit.Length(h) * um})
		}
		return wear.ProfileFromReadings(points, wear.Gauge{Step: 1 * um})
	}
	front, err := run(0, -40, -10)
	if err != nil {
		fmt.Println(err)
		return
	}
	rear, err := run(0, -20, -8)
	if err != nil {
		fmt.Println(err)
		return
	}
	twist, err := wear.Twist(front, rear, 190*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range twist {
		fmt.Printf("%3.0f mm: %3.0f um/m, rear high (u %.0f)\n", float64(t.Position/mm), float64(t.Slope/wear.MicrometrePerMetre), float64(t.U/wear.MicrometrePerMetre))
	}
	// Output:
	// 0 mm:   0 um/m, rear high (u 2)
	// 200 mm: 105 um/m, rear high (u 2)
	// 400 mm:  11 um/m, rear high (u 2)
}

// Two dials on one carriage see the way without the carriage's own lift.
func ExampleTwoProbes() {
	p, err := wear.TwoProbes(100*mm, []wear.ProbePair{{A: 3 * um, B: 7 * um}, {A: -2 * um, B: 1 * um}, {A: 5 * um, B: 3 * um}, {A: 0, B: -5 * um}}, 0.5*um, 2*wear.MicrometrePerMetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, point := range p.Points {
		fmt.Printf("%3.0f mm: %.1f um (u %.1f)\n", float64(point.Position/mm), float64(point.Height/um), float64(p.U(i)/um))
	}
	// Output:
	// 0 mm: 0.0 um (u 0.0)
	// 100 mm: 4.0 um (u 0.6)
	// 200 mm: 7.0 um (u 0.7)
	// 300 mm: 5.0 um (u 0.6)
	// 400 mm: 0.0 um (u 0.0)
}

// A thousandth means nothing until the span is said: one slope, two spans.
func ExampleSlope_Rise() {
	slope := 20 * wear.MicrometrePerMetre
	fmt.Printf("%.0f um over 100 mm, %.0f um over 600 mm\n", float64(slope.Rise(100*mm)/um), float64(slope.Rise(600*mm)/um))
	// Output:
	// 2 um over 100 mm, 12 um over 600 mm
}

// The reference line of a straightness is a line to measure from anywhere.
func ExampleLine_At() {
	s, err := wear.StraightnessOf([]wear.Point{{Position: 0}, {Position: 500 * mm, Height: 12 * um}, {Position: 1000 * mm, Height: 4 * um}}, wear.EndPoints)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("from the end points the middle stands %.0f um high\n", float64((12*um-s.Line.At(500*mm))/um))
	// Output:
	// from the end points the middle stands 10 um high
}

// A level cannot see an even depth of wear: no pattern is known better after reading
// than the readings can tell.
func ExampleWayFit_Pattern() {
	readings := wear.WayReadings{Bearing: 360 * mm, Apart: 190 * mm}
	for i := range 7 {
		u := unit.Length(120*(i-3)) * mm
		readings.Along = append(readings.Along, wear.SlopePoint{Position: u, Slope: wear.Slope(300e-6 * float64(u)), U: 3e-6})
		readings.Across = append(readings.Across, wear.SlopePoint{Position: u, U: 3e-6})
	}
	fit, err := wear.FitWays(readings, []unit.Length{-240 * mm, 0, 240 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, pattern := range [][]float64{{1, 1, 1}, {-1, 2, -1}} {
		_, before, after, err := fit.Pattern(pattern, pattern)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("pattern %v: %.0f %% of what was open is left\n", pattern, 100*float64(after/before))
	}
	// Output:
	// pattern [1 1 1]: 86 % of what was open is left
	// pattern [-1 2 -1]: 14 % of what was open is left
}
