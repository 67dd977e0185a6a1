package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// asFound returns the sweep of the head as it was found.
func asFound() (squaring.Sweep, error) {
	thou := []float64{0, -0.5, 0, 1, 2, 2.5, 2, 1}
	readings := make([]squaring.SweepReading, len(thou))
	for i, v := range thou {
		readings[i] = squaring.SweepReading{Azimuth: unit.Angle(45*i) * squaring.Degree, Reading: unit.Length(v) * squaring.Thou}
	}
	return squaring.FitSweep(readings, squaring.SweepOptions{Radius: 110 * mm, Indicator: squaring.Indicator{Division: 0.5 * squaring.Thou}})
}

// A standard uncertainty holds the truth two times in three. What to promise is
// the interval that holds it nineteen times in twenty.
func ExampleSweep_Expanded() {
	sweep, err := asFound()
	if err != nil {
		fmt.Println(err)
		return
	}
	half, err := sweep.Expanded(0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("side tilt %.0f um/m, u %.0f um/m, within %.0f um/m either way at 95 %%\n",
		sweep.Tilt.X.Microradians(), sweep.TiltU.X.Microradians(), half.X.Microradians())
	// Output:
	// side tilt -238 um/m, u 8 um/m, within 16 um/m either way at 95 %
}

// The lean in its own direction, and along a feed to the left and a little back.
func ExampleSweep_Along() {
	sweep, err := asFound()
	if err != nil {
		fmt.Println(err)
		return
	}
	steepest, along := sweep.Steepest(), sweep.Along(165*squaring.Degree)
	fmt.Printf("steepest %.0f um/m, u %.0f um/m\n", steepest.Slope.Microradians(), steepest.Uncertainty.Microradians())
	fmt.Printf("along 165 deg %.0f um/m, u %.0f um/m\n", along.Slope.Microradians(), along.Uncertainty.Microradians())
	// Output:
	// steepest 336 um/m, u 8 um/m
	// along 165 deg 168 um/m, u 8 um/m
}

// Read the dial once more, where it was not read: if it shows something else than
// this, the arm is loose or the table is not flat.
func ExampleSweep_Expect() {
	sweep, err := asFound()
	if err != nil {
		fmt.Println(err)
		return
	}
	shown, u := sweep.Expect(200 * squaring.Degree)
	fmt.Printf("at 200 deg it should show %.2f thou, u %.2f thou\n", float64(shown/squaring.Thou), float64(u/squaring.Thou))
	// Output:
	// at 200 deg it should show 2.32 thou, u 0.04 thou
}

// Readings over a sixth of the circle give a tilt, and a warning that it is worth
// little.
func ExampleDilutionError() {
	var readings []squaring.SweepReading
	for i, v := range []float64{0, 2, 3, 3} {
		readings = append(readings, squaring.SweepReading{Azimuth: unit.Angle(10*i) * squaring.Degree, Reading: unit.Length(v) * um})
	}
	_, err := squaring.FitSweep(readings, squaring.SweepOptions{Radius: 110 * mm, Indicator: squaring.Indicator{Division: 2 * um}})
	fmt.Println(err)
	// Output:
	// squaring: the azimuths cover too little of the circle: the tilt is 47 times less sure than from an even round, the limit is 10
}
