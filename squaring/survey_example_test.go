package squaring_test

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/squaring"
)

// The head was swept at the right end of the travel only. Where the table's own
// slope changes along the travel, that says nothing of the head in the middle.
func ExampleSurvey_Adjust() {
	const um = unit.Micro * unit.Metre
	sweep := func(x unit.Length, right, rear, left, front unit.Length) squaring.Observation {
		return squaring.ObservedSweep{
			Setup:  squaring.Setup{Name: fmt.Sprintf("at %.0f mm", float64(x)*1e3)},
			X:      x,
			Radius: 110 * unit.Milli * unit.Metre,
			Readings: []squaring.SweepReading{{Azimuth: 0, Reading: right}, {Azimuth: 90 * squaring.Degree, Reading: rear},
				{Azimuth: 180 * squaring.Degree, Reading: left}, {Azimuth: 270 * squaring.Degree, Reading: front}},
			ReadingU: 2 * um,
		}
	}
	middle := squaring.SpindleSquareness("", "", squaring.AlongX, 0)

	survey := squaring.Survey{Observations: []squaring.Observation{sweep(300*unit.Milli*unit.Metre, 0, 12*um, 24*um, 12*um)}}
	first, err := survey.Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	tilt, err := first.Predict(middle)
	fmt.Println(tilt.Determined, err)
	fmt.Println(tilt.Why)
	fmt.Println(first.Undetermined()[0].Cure)

	survey.Observations = append(survey.Observations, sweep(0, 0, 1*um, 2*um, 1*um))
	second, err := survey.Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	tilt, err = second.Predict(middle)
	fmt.Printf("%.0f um/m, standard uncertainty %.0f um/m, %v\n", tilt.Value*1e6, tilt.U*1e6, err)
	// Output:
	// false <nil>
	// These readings cannot tell the spindle tilt along x from the table slope along x from -60 mm to 300 mm.
	// A sweep with the table at X = 0 would tell.
	// 9 um/m, standard uncertainty 13 um/m, <nil>
}
