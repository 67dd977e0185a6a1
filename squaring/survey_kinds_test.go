package squaring

import (
	"testing"

	"gonum.org/v1/gonum/unit"
)

// A tilt worked out before enters as what it is: table slope less spindle tilt.
func TestObservedTilt(t *testing.T) {
	a, err := Survey{Observations: []Observation{
		ObservedTilt{Setup: Setup{Name: "middle"}, Tilt: Gradient{X: 140 * Microradian, Y: -370 * Microradian}, TiltU: Gradient{X: 5 * Microradian, Y: 7 * Microradian}},
	}}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for axis, want := range map[SurveyAxis][2]float64{AlongX: {-140e-6, 5e-6}, AlongY: {370e-6, 7e-6}} {
		e, err := a.Predict(SpindleSquareness("", "", axis, 0))
		if err != nil || !e.Determined {
			t.Fatalf("%v %s", err, e.Why)
		}
		near(t, "tilt "+axisWords[axis], e.Value, want[0], 1e-15)
		near(t, "u of tilt "+axisWords[axis], e.U, want[1], 1e-15)
	}
}

// A sweep and its own fitted tilt say the same of the spindle.
func TestObservedTiltAgainstSweep(t *testing.T) {
	sweep := ObservedSweep{Setup: Setup{Name: "ring"}, X: 0.1, Radius: 0.110, Readings: evenRound(8), ReadingU: 2e-6}
	var x, y float64
	for i := range sweep.Readings {
		cos, sin := cosSin(sweep.Readings[i].Azimuth)
		height := 12e-6*cos - 30e-6*sin + float64(i%3)*1e-6
		sweep.Readings[i].Reading = unit.Length(height)
		x, y = x+height*cos/4, y+height*sin/4
	}
	u := Slope(2e-6 / 2 / 0.110) // sigma over the root of half the readings, over the radius
	tilt := ObservedTilt{Setup: Setup{Name: "ring"}, X: 0.1, Tilt: Gradient{X: Slope(x / 0.110), Y: Slope(y / 0.110)}, TiltU: Gradient{X: u, Y: u}}
	var answers [2]Estimate
	for i, o := range []Observation{sweep, tilt} {
		a, err := Survey{Observations: []Observation{o}}.Adjust(SurveyOptions{})
		if err != nil {
			t.Fatal(err)
		}
		answers[i], err = a.Predict(SpindleSquareness("", "", AlongX, 0.1))
		if err != nil || !answers[i].Determined {
			t.Fatalf("%v %s", err, answers[i].Why)
		}
	}
	// The ring also sees the top's own bend, which its second harmonic half
	// tells: a hundredth of the uncertainty.
	near(t, "tilt by ring and by its fit", answers[0].Value, answers[1].Value, 0.05*answers[1].U)
	near(t, "their uncertainties", answers[0].U, answers[1].U, 0.02*answers[1].U)
}

// A run on a parallel of unknown wedge tells the curve of the motion and not its
// ramp, and nothing of the top.
func TestObservedRunOnAParallel(t *testing.T) {
	run := ObservedRun{Setup: Setup{Name: "parallel"}, FreeRamp: true, Readings: evenRun(-0.36, 0.36, 13), ReadingU: 1e-6}
	for i, r := range run.Readings {
		x := float64(r.X)
		run.Readings[i].Reading = unit.Length(100e-6*x*x - 40e-6*x)
	}
	a, err := Survey{Observations: []Observation{run}}.Adjust(SurveyOptions{HeightBend: 1e-3})
	if err != nil {
		t.Fatal(err)
	}
	bow, err := a.Predict(PartBow("", 0, 0.6))
	if err != nil || !bow.Determined {
		t.Fatalf("%v %s", err, bow.Why)
	}
	near(t, "bow", bow.Value, 100e-6*0.09, 1e-9)
	far, err := a.Predict(TableHeight("", 0.3))
	if err != nil || far.Determined {
		t.Errorf("height at the far end known through an unknown wedge: %+v, %v", far, err)
	}
	form, err := a.Predict(TopForm(0.3, 0))
	if err != nil || form.Determined {
		t.Errorf("form of the top known from a parallel: %+v, %v", form, err)
	}
}

// Two dates in one survey, with the level of each: the change of slope against
// the middle of the travel is the ways' own, whatever the floor has done. True
// changes from table T2 of the scenario.
func TestSurveyOfTwoDates(t *testing.T) {
	first := ObservedLevel{Setup: Setup{Name: "2019", Epoch: "2019-05-18"}, Gauge: "the level in 2019", ReadingU: 4 * Microradian}
	rows := [][4]float64{{11.5, -8.5, .5, 3}, {12, -8.5, 1, 2.5}, {10, -6.5, 1, 2}, {6.5, -3, 1, 2.5}, {4, 0, .5, 2.5}, {3.5, 0, .5, 3}, {4.5, -1.5, -.5, 3.5}}
	for i, r := range rows {
		for k, divisions := range r {
			first.Readings = append(first.Readings, LevelReading{X: unit.Length(-0.360 + 0.120*float64(i)), Axis: SurveyAxis(k / 2), Reversed: k%2 == 1,
				Reading: Slope(divisions) * 20 * Microradian})
		}
	}
	a, err := Survey{Observations: []Observation{first, shopLevel()}}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	truth2019, truth2025 := [7]float64{77.3, 83.4, 44.6, -23.2, -75.6, -83.5, -57.9}, [7]float64{79.1, 95.1, 79.6, 25.6, -52.2, -107.0, -106.7}
	for i := range truth2019 {
		x := unit.Length(-0.360 + 0.120*float64(i))
		change := Combine("change of slope", []Feature{TableSlope(shopEpoch, AlongX, x), TableSlope("2019-05-18", AlongX, x)}, []float64{1, -1})
		want := (truth2025[i] - truth2025[3] - truth2019[i] + truth2019[3]) * 1e-6
		known(t, a, change, want)
	}
	floor := Combine("settling", []Feature{LeanToLevel(shopEpoch, AlongX), LeanToLevel("2019-05-18", AlongX)}, []float64{1, -1})
	known(t, a, floor, (45+25.6+23.2)*1e-6)
	if a.Chance < 0.001 {
		t.Errorf("sound readings of two dates have chance %g", a.Chance)
	}
	// The level was set anew in between: taken as one zero, the readings
	// contradict one another, and the test says so.
	first.Gauge = "the level"
	shared, err := Survey{Observations: []Observation{first, shopLevel()}}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if shared.Chance > 1e-6 {
		t.Errorf("a zero that moved by 50 um/m between dates has chance %g", shared.Chance)
	}
}

// The floor settles: the whole machine turns by a little. Every level reading
// changes alike, and nothing in the answer but the lean to level: a common turn
// of head, table and knee is no news to the machine.
func TestSurveyOnASettlingFloor(t *testing.T) {
	settled := shopSurvey()
	for i, observation := range settled.Observations {
		o, ok := observation.(ObservedLevel)
		if !ok {
			continue
		}
		o.Readings = append([]LevelReading(nil), o.Readings...)
		for k, r := range o.Readings {
			turn := []Slope{80 * Microradian, -30 * Microradian}[r.Axis]
			if r.Reversed {
				turn = -turn
			}
			o.Readings[k].Reading += turn
		}
		settled.Observations[i] = o
	}
	a, err := shopSurvey().Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := settled.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range a.Parameters {
		want := p.Value
		switch a.set.key(i).family {
		case levelX:
			want += 80e-6
		case levelY:
			want -= 30e-6
		}
		near(t, p.Name, b.Parameters[i].Value, want, 1e-7*p.U)
	}
	near(t, "chi-square", b.ChiSquare, a.ChiSquare, 1e-7*a.ChiSquare)
}
