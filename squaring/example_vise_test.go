package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// A hollow jaw, run with a dial: how far to tap the vise, and how much of the
// hollow a short part sees.
func ExampleJawRun() {
	var points []squaring.JawPoint
	for i, v := range []float64{0, 0.002, 0.006, 0.012, 0.022, 0.034, 0.048} {
		points = append(points, squaring.JawPoint{Place: unit.Length(20*i-60) * mm, Reading: unit.Length(v) * mm})
	}
	jaw, err := squaring.FitJawRun(points, 0.002*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	tap := jaw.TapAt(100 * mm) // from the bolt about which the vise turns
	fmt.Printf("tap 0.%03.0f mm away at 100 mm from the bolt, u %.1f um\n", float64(tap.Length/um), float64(tap.Uncertainty/um))
	for _, part := range []unit.Length{120 * mm, 40 * mm} {
		gap := jaw.SitsBack(part)
		fmt.Printf("a part of %3.0f mm stands off by %.1f um, u %.1f um\n", float64(part/mm), float64(gap.Length/um), float64(gap.Uncertainty/um))
	}
	fmt.Printf("at +50 mm the dial should show %.3f mm\n", float64(jaw.Expect(50*mm)/mm))
	// Output:
	// tap 0.040 mm away at 100 mm from the bolt, u 0.5 um
	// a part of 120 mm stands off by 11.6 um, u 0.6 um
	// a part of  40 mm stands off by 1.3 um, u 0.1 um
	// at +50 mm the dial should show 0.041 mm
}

// Face 2 is cut with face 1 at the jaw; the face that must come out parallel to
// it is the one on the other side.
func ExampleFace_Opposite() {
	for _, face := range []squaring.Face{1, 2, 5} {
		fmt.Printf("%d faces %d\n", face, face.Opposite())
	}
	// Output:
	// 1 faces 3
	// 2 faces 4
	// 5 faces 6
}
