package squaring_test

import (
	"fmt"
	"math"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// wornWays sink by 40 um in the middle of a travel of 720 mm, as a parabola; the
// table leans toward the middle from either side.
func wornWays(x unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle) {
	s := float64(x / (360 * mm))
	return 40 * um * unit.Length(s*s-1), -2 * 40e-6 * s / 0.360, 0, 0, 0
}

// wornMill has such a table and travels that are open by 35 um/m.
func wornMill() squaring.Machine {
	return squaring.Machine{X: squaring.MotionFromWays(wornWays), C0Y: 35 * unit.Micro * unit.Rad}
}

// Where the work is when the dials say X = 200 mm and Y = -80 mm: the table has
// sunk and leans, and the saddle has gone aside. What the sum of errors times
// arms leaves out, products of two errors, is nothing to a mill.
func ExampleMachine_WorkError() {
	at := squaring.Position{X: 200 * mm, Y: -80 * mm}
	point := at.AtTool() // the place of the table that should be at the tool
	e, _, err := wornMill().WorkError(at, point)
	if err != nil {
		fmt.Println(err)
		return
	}
	exact, err := wornMill().WorkErrorExact(at, point)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um to the right, %.1f um up, %.1f um in all\n", float64(e.X/um), float64(e.Z/um), float64(e.Norm()/um))
	fmt.Println("left out less than 0.01 um:", exact.Minus(e).Norm() < 0.01*um)
	// Output:
	// 2.8 um to the right, -27.7 um up, 27.8 um in all
	// left out less than 0.01 um: true
}

// The same from the tool's side: the place of the table that the tip touches. A
// hole drilled there lies this far from where it was meant.
func ExampleMachine_ToolInWork() {
	mill := squaring.Machine{Tilt: squaring.Gradient{X: 232 * squaring.Microradian}, C0Y: 35 * unit.Micro * unit.Rad}
	at := squaring.Position{Y: -160 * mm, Quill: 60 * mm}
	touched, err := mill.ToolInWork(at)
	if err != nil {
		fmt.Println(err)
		return
	}
	off := touched.Minus(at.AtTool())
	fmt.Printf("meant y %.0f mm; off by %.1f um in x\n", float64(at.AtTool().Y/mm), float64(off.X/um))
	hole := at.AtTool().Plus(off)
	fmt.Printf("hole at x %.4f mm\n", float64(hole.X/mm))
	// Output:
	// meant y 160 mm; off by 8.3 um in x
	// hole at x 0.0083 mm
}

// A dial held by the column sees the table sink as it travels; one swung by the
// spindle sees it lean. Neither alone tells the whole.
func ExampleMachine_TopHeight() {
	mill := wornMill()
	for _, x := range []unit.Length{0 * mm, 180 * mm, 360 * mm} {
		at := squaring.Position{X: x}
		height, err := mill.TopHeight(at, 0, 0)
		if err != nil {
			fmt.Println(err)
			return
		}
		right, err := mill.SweepHeight(at, 110*mm, 0)
		if err != nil {
			fmt.Println(err)
			return
		}
		left, err := mill.SweepHeight(at, 110*mm, 180*squaring.Degree)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("X = %3.0f mm: column dial %5.1f um, sweep right less left %4.1f um\n", float64(x/mm), float64(height/um), float64((right-left)/um))
	}
	// Output:
	// X =   0 mm: column dial -40.0 um, sweep right less left  0.0 um
	// X = 180 mm: column dial -30.0 um, sweep right less left -24.4 um
	// X = 360 mm: column dial   0.0 um, sweep right less left -48.9 um
}

// Four holes 300 mm by 160 mm, stepped off on the dials with travels open by 35
// um/m: the two diagonals tell.
func ExampleMachine_BodyDiagonals() {
	mill := squaring.Machine{C0Y: 35 * unit.Micro * unit.Rad}
	corner := squaring.Position{X: 150 * mm, Y: 80 * mm}
	diagonals, err := mill.BodyDiagonals(corner, 300*mm, 160*mm, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("asked %.3f mm, rising %+.1f um, falling %+.1f um\n", float64(diagonals[0].Asked/mm),
		float64(diagonals[0].Error()/um), float64(diagonals[1].Error()/um))
	// Output:
	// asked 340.000 mm, rising -4.9 um, falling +4.9 um
}

// One side of the same rectangle: a square travel would make it just as long.
// Squareness does not show along a slide, only across.
func ExampleMachine_Span() {
	mill := squaring.Machine{C0Y: 35 * unit.Micro * unit.Rad, C0YU: 5 * unit.Micro * unit.Rad}
	side, err := mill.Span(squaring.Position{}, squaring.Position{Y: -160 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	diagonal, err := mill.Span(squaring.Position{X: 150 * mm, Y: 80 * mm}, squaring.Position{X: -150 * mm, Y: -80 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("side out by less than 0.001 um: %v; diagonal %+.1f um, u %.1f um\n", math.Abs(float64(side.Error()/um)) < 0.001,
		float64(diagonal.Error()/um), float64(diagonal.U/um))
	// Output:
	// side out by less than 0.001 um: true; diagonal -4.9 um, u 0.7 um
}

// Of the 21 errors of a three-axis machine nine are lengths and twelve are turns.
// A turn does nothing by itself, only times an arm.
func ExampleNamedError_Turns() {
	errors, err := squaring.Machine{}.NamedErrors(0, 0, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	turns := 0
	for _, e := range errors {
		if e.Turns() {
			turns++
		}
	}
	fmt.Printf("%d errors, %d turns; the first is %s\n", len(errors), turns, errors[0])
	// Output:
	// 21 errors, 12 turns; the first is EXX 0.00 um
}

// What worn ways do is told at the spindle, where the dial is; a machine keeps it
// at the table's middle. There and back nothing is lost.
func ExampleWaysFromMotion() {
	motion := squaring.MotionFromWays(wornWays)
	e, _ := motion(180 * mm)
	height, along, _, _, _ := squaring.WaysFromMotion(motion)(180 * mm)
	fmt.Printf("at the spindle %.0f um, leaning %.0f um/m; at the table's middle, 180 mm away, %.0f um\n",
		float64(height/um), along*1e6, float64(e.EZ/um))
	// Output:
	// at the spindle -30 um, leaning -111 um/m; at the table's middle, 180 mm away, -50 um
}
