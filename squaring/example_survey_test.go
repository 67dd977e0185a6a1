package squaring_test

import (
	"fmt"
	"math"

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

// shopBench is a small survey of one day: a table run, a level carried along, a
// sweep, the knee against a square both ways, four holes and a vise's jaw.
func shopBench() squaring.Survey {
	setup := squaring.Setup{Epoch: "2025", Head: "left"}
	run := squaring.ObservedRun{Setup: setup, ReadingU: 1 * um}
	for i, v := range []float64{0, -4, -12, -14, -12, -10, -4} {
		run.Readings = append(run.Readings, squaring.TravelReading{X: unit.Length(120*i-360) * mm, Reading: unit.Length(v) * um})
	}
	level := squaring.ObservedLevel{Setup: setup, ReadingU: 4 * squaring.Microradian}
	for i, divisions := range [][4]float64{{11.5, -13.5, -4, 1.5}, {11.5, -14, -3, 1}, {11, -13.5, -2, 0}, {8.5, -10.5, -1, -1}, {4.5, -6.5, -1.5, -1}, {2, -4, -2, 0}, {2, -4, -2.5, 0.5}} {
		for k, d := range divisions {
			level.Readings = append(level.Readings, squaring.LevelReading{X: unit.Length(120*i-360) * mm, Axis: squaring.SurveyAxis(k / 2),
				Reversed: k%2 == 1, Reading: squaring.Slope(d) * 20 * squaring.Microradian})
		}
	}
	sweep := squaring.ObservedSweep{Setup: setup, X: 150 * mm, Radius: 110 * mm, ReadingU: 2.5 * um}
	for i, thou := range []float64{0, 0, 0.25, 0.25, 0.75, 0.75, 0.5, 0.25} {
		sweep.Readings = append(sweep.Readings, squaring.SweepReading{Azimuth: unit.Angle(45*i) * squaring.Degree, Reading: unit.Length(thou) * squaring.Thou})
	}
	observations := []squaring.Observation{run, level, sweep,
		squaring.ObservedDiagonals{Setup: setup, A: 300 * mm, B: 160 * mm, Rising: 339.995 * mm, Falling: 340.005 * mm, ReadingU: 2 * um}}
	for i, readings := range [][]float64{{0, 2, 4, 8}, {0, -2, 0, 0}, {0, -2, -2, -4}, {0, -6, -8, -12}} {
		knee := squaring.ObservedKnee{Setup: squaring.Setup{Name: fmt.Sprint("stand ", i+1), Epoch: "2025"}, Square: "square",
			Axis: squaring.SurveyAxis(i / 2), Turned: i%2 == 1, ReadingU: 1 * um}
		for k, v := range readings {
			knee.Readings = append(knee.Readings, squaring.KneeReading{Z: unit.Length(50*k) * mm, Reading: unit.Length(v) * um})
		}
		observations = append(observations, knee)
	}
	jaw := squaring.ObservedJaw{Setup: setup, Jaw: "fixed jaw", Middle: -180 * mm, Width: 120 * mm, ReadingU: 1 * um}
	for i, v := range []float64{0, -4, -6, -8, -6, -6, -2} {
		jaw.Readings = append(jaw.Readings, squaring.JawReading{Along: unit.Length(20*i-60) * mm, Reading: unit.Length(v) * um})
	}
	return squaring.Survey{Observations: append(observations, jaw)}
}

// Everything that a survey tells of a machine, each with its doubt: what the head
// leaves at the work, how the ways bow a part, what knee, travels and jaw do.
func ExampleAdjustment_Predict() {
	a, err := shopBench().Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, feature := range []squaring.Feature{
		squaring.SpindleSquareness("left", "2025", squaring.AlongX, 150*mm),
		squaring.TableSlope("2025", squaring.AlongX, 240*mm),
		squaring.LeanToLevel("2025", squaring.AlongX),
		squaring.KneeLean("2025", squaring.AlongY),
		squaring.TravelSquareness("2025"),
		squaring.JawAngle("fixed jaw", "2025", -180*mm, 120*mm),
		squaring.TableHeight("2025", 240*mm),
		squaring.PartBow("2025", 0, 400*mm),
		squaring.JawHollow("fixed jaw"),
		squaring.TopForm(300*mm, 0),
	} {
		e, err := a.Predict(feature)
		if err != nil {
			fmt.Println(err)
			return
		}
		in := "um"
		if e.Kind == squaring.SlopeValue {
			in = "um/m"
		}
		fmt.Printf("%s: %.0f, u %.0f %s\n", feature.Name, e.Value*1e6, e.U*1e6, in)
	}
	// Output:
	// spindle tilt against the table at X = 150 mm along x: 72, u 16 um/m
	// table slope at X = 240 mm along x: -130, u 4 um/m
	// lean of the table to level along x: 190, u 3 um/m
	// knee lean against the table along y: -50, u 6 um/m
	// squareness of Y travel to X travel: 35, u 10 um/m
	// angle of fixed jaw to the travel: -18, u 10 um/m
	// table height at X = 240 mm: 4, u 3 um
	// bow of a part of 400 mm at u = 0 mm: 5, u 2 um
	// hollow of fixed jaw: 6, u 2 um
	// form of the table top at u = 300 mm, v = 0 mm: 1, u 3 um
}

// How much more the table leans at 240 mm than at -240 mm. Both slopes hang on the
// same readings, so their doubts do not add as if they did not know each other.
func ExampleCombine() {
	a, err := shopBench().Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	right, left := squaring.TableSlope("2025", squaring.AlongX, 240*mm), squaring.TableSlope("2025", squaring.AlongX, -240*mm)
	e, err := a.Predict(squaring.Combine("change of slope", []squaring.Feature{right, left}, []float64{1, -1}))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f um/m, u %.0f um/m\n", e.Value*1e6, e.U*1e6)
	// Output:
	// -195 um/m, u 4 um/m
}

// What a dial not yet set up should show: the table run along a track 80 mm behind
// the middle, from one end to the middle. A reading far from it is worth a second
// look before it is written down.
func ExampleReadingChange() {
	a, err := shopBench().Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	rear := squaring.ObservedRun{Setup: squaring.Setup{Name: "rear track", Epoch: "2025"}, Track: 80 * mm, ReadingU: 1 * um,
		Readings: []squaring.TravelReading{{X: -360 * mm}, {X: 0 * mm}}}
	e, err := a.Predict(squaring.ReadingChange(rear, 2, 1))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("middle less left end: %.0f um, u %.0f um\n", e.Value*1e6, e.U*1e6)
	// Output:
	// middle less left end: -10 um, u 2 um
}

// From the survey to a hole: how far its bottom lies from its top when the quill
// drills 60 mm down at X = 240 mm, with all that was read counted in.
func ExampleToolDeviation() {
	a, err := shopBench().Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	top := squaring.ToolDeviation("left", "2025", squaring.Position{X: 240 * mm})
	bottom := squaring.ToolDeviation("left", "2025", squaring.Position{X: 240 * mm, Quill: 60 * mm})
	e, err := a.Predict(squaring.Combine("lean of the hole", []squaring.Feature{bottom[0], top[0]}, []float64{1, -1}))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um to the right, u %.1f um\n", e.Value*1e6, e.U*1e6)

	// The machine of the survey says the same, and what it was not told.
	machine, unknown := a.Machine("2025", "left")
	at := func(quill unit.Length) unit.Length {
		d, err := machine.Deviation(squaring.Position{X: 240 * mm, Quill: quill})
		if err != nil {
			fmt.Println(err)
		}
		return d.Tool.X
	}
	fmt.Printf("%.1f um by the machine; not known: %v\n", float64((at(60*mm)-at(0*mm))/um), unknown)
	// Output:
	// 6.3 um to the right, u 1.0 um
	// 6.3 um by the machine; not known: []
}

// The head was swept at X = 150 mm, so that its tilt hangs on the table's slope
// there: their errors go together, and the difference, which is what a cutter sees
// there, is surer than if they did not.
func ExampleAdjustment_Covariance() {
	a, err := shopBench().Adjust(squaring.SurveyOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	place := map[string]int{}
	for i, p := range a.Parameters {
		place[p.Name] = i
	}
	tilt, slope := place["spindle tilt along x (head left)"], place["table slope along x (2025) at X = 120 mm"]
	tiltU, slopeU := a.Parameters[tilt].U, a.Parameters[slope].U
	together := a.Covariance(tilt, slope)
	fmt.Printf("correlation %.2f\n", together/tiltU/slopeU)
	fmt.Printf("u of the difference %.1f um/m, not %.1f um/m\n", 1e6*math.Sqrt(tiltU*tiltU+slopeU*slopeU-2*together), 1e6*math.Hypot(tiltU, slopeU))
	// Output:
	// correlation 0.22
	// u of the difference 17.0 um/m, not 17.9 um/m
}

// A table rests on its saddle by the two ends of the bearing, so its height and
// its slope belong together. Said as a prior, that lets a level alone tell how
// the table rises, which without it no level does.
func ExampleContactPriors() {
	level := shopBench().Observations[1]
	survey := squaring.Survey{Observations: []squaring.Observation{level}}
	bow := squaring.PartBow("2025", 0, 400*mm)
	for range 2 {
		a, err := survey.Adjust(squaring.SurveyOptions{})
		if err != nil {
			fmt.Println(err)
			return
		}
		e, err := a.Predict(bow)
		if err != nil {
			fmt.Println(err)
			return
		}
		if e.Determined {
			fmt.Printf("bow %.0f um, u %.0f um\n", e.Value*1e6, e.U*1e6)
		} else {
			fmt.Println(e.Why)
		}
		var travels []unit.Length
		for x := -360 * mm; x <= 0; x += 60 * mm {
			travels = append(travels, x)
		}
		survey.Priors = squaring.ContactPriors("2025", 360*mm, travels, 1*um)
	}
	// Output:
	// No reading says anything about the table height (2025) at X = -300 mm.
	// bow 6 um, u 3 um
}
