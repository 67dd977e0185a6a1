package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
)

// A lever held at 30 degrees shows more than the work has moved, and its marks
// leave a doubt of their own.
func ExampleIndicator() {
	lever := squaring.Indicator{Division: 0.002 * mm, StylusAngle: 30 * squaring.Degree, StylusAngleU: 3 * squaring.Degree}
	factor, u := lever.Factor()
	fmt.Printf("read to %.1f um, rounding leaves u %.2f um\n", float64(lever.Resolution()/um), float64(lever.RoundingU()/um))
	fmt.Printf("true over shown %.3f, u %.3f\n", factor, u)
	fmt.Printf("0.200 mm shown is %.3f mm; for 0.100 mm it shows %.4f mm\n",
		float64(lever.True(0.200*mm)/mm), float64(lever.Shown(0.100*mm)/mm))
	// Output:
	// read to 1.0 um, rounding leaves u 0.29 um
	// true over shown 0.866, u 0.026
	// 0.200 mm shown is 0.173 mm; for 0.100 mm it shows 0.1155 mm
}

// What a run over gauge blocks found goes into the dial and comes out of every
// reading from then on.
func ExampleCalibration_Of() {
	run := []squaring.BlockReading{{Block: 0 * mm, Shown: 0 * mm}, {Block: 0.5 * mm, Shown: 0.515 * mm}, {Block: 1 * mm, Shown: 1.030 * mm}}
	c, err := squaring.CalibrateIndicator(run, 0.005*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	dial := c.Of(squaring.Indicator{Division: 0.01 * mm})
	fmt.Printf("gain %.3f: where it shows 0.800 mm the work has moved %.3f mm\n", dial.Gain, float64(dial.True(0.800*mm)/mm))
	// Output:
	// gain 1.030: where it shows 0.800 mm the work has moved 0.777 mm
}
