package examples_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// A table on ways that are worn in the middle, given to the machine: how far
// the tool is from its place in the work, in height, at three travels.
func Example_wornWays() {
	const mm, um = unit.Milli * unit.Metre, unit.Micro * unit.Metre
	ways, err := wear.TwoPointMotion(wear.WornWays{Apart: 190 * mm, Bearing: 360 * mm,
		Places: []unit.Length{-360 * mm, -180 * mm, 0, 180 * mm, 360 * mm},
		Front:  []unit.Length{18 * um, 51 * um, 54 * um, 37 * um, 14 * um},
		Rear:   []unit.Length{10 * um, 29 * um, 35 * um, 25 * um, 10 * um}})
	if err != nil {
		fmt.Println(err)
		return
	}
	mill := squaring.Machine{X: squaring.MotionFromWays(ways)}
	for _, x := range []unit.Length{-180 * mm, 0, 180 * mm} {
		d, err := mill.Deviation(squaring.Position{X: x})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("X = %4.0f mm: the tool is %.1f um too high\n", float64(x/mm), float64(d.Tool.Z/um))
	}
	// Output:
	// X = -180 mm: the tool is 28.2 um too high
	// X =    0 mm: the tool is 35.5 um too high
	// X =  180 mm: the tool is 29.2 um too high
}
