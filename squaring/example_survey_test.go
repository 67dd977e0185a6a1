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

// Three readings of a level on one spot say what is wrong with the third.
func ExampleAdjustment_Suspects() {
	const um = squaring.Microradian
	level := squaring.ObservedLevel{Setup: squaring.Setup{Name: "at X = 0"}, ReadingU: 3 * um}
	for _, reading := range []squaring.Slope{190 * um, 188 * um, 250 * um, 191 * um} {
		level.Readings = append(level.Readings, squaring.LevelReading{Reading: reading})
	}
	level.Readings = append(level.Readings, squaring.LevelReading{Reading: -232 * um, Reversed: true}, squaring.LevelReading{Reading: -230 * um, Reversed: true})
	adjustment, err := squaring.Survey{Observations: []squaring.Observation{level}}.Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, suspect := range adjustment.Suspects() {
		r := adjustment.Readings[suspect.Reading]
		fmt.Printf("%s, reading %d: %.0f um/m too high, %.0f times its doubt\n", r.Observation, r.Number, suspect.Error*1e6, suspect.Test)
	}
	// Output:
	// level at X = 0, reading 3: 60 um/m too high, 17 times its doubt
}

// The head was swept in the middle and is to cut at X = 200. Which reading next? A
// sweep there also sees the bend of the table's top; a level that travels with the
// table does not.
func ExampleAdjustment_NextBest() {
	const um = unit.Micro * unit.Metre
	sweep := func(x unit.Length) squaring.ObservedSweep {
		o := squaring.ObservedSweep{Setup: squaring.Setup{Name: fmt.Sprintf("at %.0f mm", float64(x)*1e3)}, X: x, Radius: 110 * unit.Milli * unit.Metre, ReadingU: 2 * um}
		for place := range 8 {
			o.Readings = append(o.Readings, squaring.SweepReading{Azimuth: unit.Angle(45*place) * squaring.Degree})
		}
		return o
	}
	adjustment, err := squaring.Survey{Observations: []squaring.Observation{sweep(0)}}.Adjust(squaring.SurveyOptions{To: 200 * unit.Milli * unit.Metre})
	if err != nil {
		fmt.Println(err)
		return
	}
	level := squaring.ObservedLevel{Setup: squaring.Setup{Name: "level"}, ReadingU: 4 * squaring.Microradian}
	for _, x := range []unit.Length{0, 100 * unit.Milli * unit.Metre, 200 * unit.Milli * unit.Metre} {
		level.Readings = append(level.Readings, squaring.LevelReading{X: x}, squaring.LevelReading{X: x, Reversed: true})
	}
	ranked, err := adjustment.NextBest([]squaring.Candidate{
		{Name: "a sweep there", Observations: []squaring.Observation{sweep(200 * unit.Milli * unit.Metre)}, Minutes: 6},
		{Name: "a level at three stations", Observations: []squaring.Observation{level}, Minutes: 20},
		{Name: "a second sweep in the middle", Observations: []squaring.Observation{sweep(0)}, Minutes: 4},
	}, squaring.SpindleSquareness("", "", squaring.AlongX, 200*unit.Milli*unit.Metre))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, next := range ranked {
		fmt.Printf("%s: %v, then %v, %.0f um/m\n", next.Name, next.Before.Determined, next.After.Determined, next.After.U*1e6)
	}
	// Output:
	// a level at three stations: false, then true, 10 um/m
	// a sweep there: false, then true, 18 um/m
	// a second sweep in the middle: false, then false, 0 um/m
}

// A quill that leans by 232 um/m drills a hole that leans by 13.9 um in 60 mm.
func ExampleMachine_Deviation() {
	mill := squaring.Machine{Tilt: squaring.Gradient{X: 232 * squaring.Microradian}, TiltU: squaring.Gradient{X: 10 * squaring.Microradian}}
	deviation, err := mill.Deviation(squaring.Position{Quill: 60 * unit.Milli * unit.Metre})
	fmt.Printf("%.1f um, standard uncertainty %.1f um, %v\n", float64(deviation.Tool.X)*1e6, float64(deviation.U.X)*1e6, err)
	// Output:
	// 13.9 um, standard uncertainty 0.6 um, <nil>
}
