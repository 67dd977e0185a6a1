package squaring

import (
	"math"

	"gonum.org/v1/gonum/unit"
)

// The action shop's readings of 24 May 2025, tables D2 to D13 of the scenario,
// and the hidden truth that they were made from. Uncertainties are those that a
// person would state: the dial's step, its hysteresis and the setting of the
// stylus.

const shopEpoch = "2025-05-24"

// shopWays is the motion of the table on its worn ways in 2025: four contacts
// 360 mm apart along and 190 mm across, on the wear of the hidden truth.
func shopWays(x unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle) {
	bell := func(u, middle, width float64) float64 {
		return math.Exp(-0.5 * (u - middle) * (u - middle) / (width * width))
	}
	const grownFront, grownRear = 6.1*3.335 + 2.0*2.683, 1.8 * 6.018 // um, years times rates
	front := func(u float64) float64 {
		return (44*bell(u, 0.040, 0.210) + grownFront*bell(u, -0.180, 0.140)) * 1e-6
	}
	rear := func(u float64) float64 {
		return (31*bell(u, 0.040, 0.210) + grownRear*bell(u, -0.180, 0.140)) * 1e-6
	}
	right, left := 0.180-float64(x), -0.180-float64(x)
	height = unit.Length(-(front(right) + rear(right) + front(left) + rear(left)) / 4)
	along = -(front(right) + rear(right) - front(left) - rear(left)) / 2 / 0.360
	across = (front(right) + front(left) - rear(right) - rear(left)) / 2 / 0.190
	return height, along, across, 0, 0
}

// shopTop is the form of the table's top.
func shopTop(u, v unit.Length) unit.Length {
	return unit.Length(-8e-6*float64(u/0.5)*float64(u/0.5) - 2e-6*float64(v/0.115)*float64(v/0.115))
}

func travelReadings(fromMM, stepMM float64, readingsMM ...float64) []TravelReading {
	var readings []TravelReading
	for i, r := range readingsMM {
		readings = append(readings, TravelReading{X: unit.Length((fromMM + float64(i)*stepMM) * 1e-3), Reading: unit.Length(r * 1e-3)})
	}
	return readings
}

// shopSweep is a row of D3, in thousandths of an inch.
func shopSweep(head, name string, x float64, thou ...float64) ObservedSweep {
	o := ObservedSweep{Setup: Setup{name, shopEpoch, head}, X: unit.Length(x * 1e-3), Radius: 0.110, Drift: true, ReadingU: 2.5e-6}
	for i, r := range thou {
		// The dial's gain is 0.985: table D1.
		o.Readings = append(o.Readings, SweepReading{Azimuth: unit.Angle(i) * 45 * Degree, Reading: unit.Length(r/0.985) * Thou})
	}
	return o
}

func shopSweeps() []Observation {
	return []Observation{
		shopSweep("found", "found, X = 0", 0, 0, -0.5, 0, 1, 2, 2.5, 2, 1, 0),
		shopSweep("left", "left, X = -300", -300, 0, -.25, -.5, -.5, -.5, -.25, 0, .25, .25),
		shopSweep("left", "left, X = -150", -150, 0, -.25, -.5, -.5, -.5, -.25, 0, 0, 0),
		shopSweep("left", "left, X = 0", 0, 0, 0, -.25, 0, 0, 0, 0, 0, 0),
		shopSweep("left", "left, X = 150", 150, 0, 0, .25, .25, .75, .75, .5, .25, 0),
		shopSweep("left", "left, X = 300", 300, 0, 0, .25, .75, 1, 1, .5, .25, .25),
	}
}

// shopTwoDial is the two rows of D2 for a head, B first and C second dial.
func shopTwoDial(head string, x0, x180, y0, y180 float64) ObservedTwoDial {
	mm := func(v float64) unit.Length { return unit.Length(v * 1e-3) }
	return ObservedTwoDial{Setup: Setup{head, shopEpoch, head}, Gauge: "two-dial gauge", Span: 0.190, ReadingU: 3e-6,
		Readings: []TwoDialReading{{0, mm(x0)}, {180 * Degree, mm(x180)}, {90 * Degree, mm(y0)}, {270 * Degree, mm(y180)}}}
}

func shopTwoDials() []Observation {
	return []Observation{
		shopTwoDial("found", 0.610-0.620, 0.655-0.580, 0.610-0.620, 0.655-0.575),
		shopTwoDial("left", 0.035, 0.035, 0.035, 0.035),
	}
}

func shopRuns() []Observation {
	run := func(name string, track float64, mm ...float64) Observation {
		return ObservedRun{Setup: Setup{Name: name, Epoch: shopEpoch}, Track: unit.Length(track * 1e-3), Readings: travelReadings(-360, 60, mm...), ReadingU: 1e-6}
	}
	return []Observation{
		run("front", -80, 0, -.004, -.006, -.012, -.016, -.018, -.020, -.018, -.016, -.012, -.010, -.010, -.008),
		run("middle", 0, 0, -.002, -.004, -.010, -.012, -.012, -.014, -.014, -.012, -.010, -.010, -.006, -.004),
		run("rear", 80, 0, -.004, -.002, -.006, -.008, -.010, -.010, -.008, -.008, -.006, -.006, -.004, -.002),
	}
}

func shopBars() []Observation {
	bar := func(name string, down bool, mm ...float64) Observation {
		return ObservedBar{Setup: Setup{Name: name, Epoch: shopEpoch}, Bar: "500 mm bar", Down: down, Readings: travelReadings(-240, 60, mm...), ReadingU: 1e-6}
	}
	return []Observation{
		bar("edge up", false, 0, -.004, -.008, -.014, -.020, -.022, -.026, -.028, -.028),
		bar("edge down", true, 0, .010, .016, .018, .020, .018, .014, .012, .010),
	}
}

func shopSkim() Observation {
	o := ObservedSkim{Setup: Setup{Name: "long bar", Epoch: shopEpoch}, ReadingU: 0.7e-6}
	for i, mm := range []float64{19.976, 19.979, 19.983, 19.985, 19.982, 19.977, 19.971} {
		o.Readings = append(o.Readings, SkimReading{U: unit.Length(-0.3 + 0.1*float64(i)), Thickness: unit.Length(mm * 1e-3)})
	}
	return o
}

func shopLevel() Observation {
	o := ObservedLevel{Setup: Setup{Name: "2025", Epoch: shopEpoch}, Gauge: "the level", ReadingU: 4 * Microradian}
	rows := [][4]float64{{11.5, -13.5, -4.0, 1.5}, {11.5, -14.0, -3.0, 1.0}, {11.0, -13.5, -2.0, 0}, {8.5, -10.5, -1.0, -1.0},
		{4.5, -6.5, -1.5, -1.0}, {2.0, -4.0, -2.0, 0}, {2.0, -4.0, -2.5, 0.5}}
	for i, r := range rows {
		x := unit.Length(-0.360 + 0.120*float64(i))
		for k, divisions := range r {
			o.Readings = append(o.Readings, LevelReading{X: x, Axis: SurveyAxis(k / 2), Reversed: k%2 == 1, Reading: Slope(divisions) * 20 * Microradian})
		}
	}
	return o
}

func shopKnee() []Observation {
	knee := func(name string, axis SurveyAxis, turned bool, mm ...float64) Observation {
		o := ObservedKnee{Setup: Setup{Name: name, Epoch: shopEpoch}, Square: "200 mm square", Axis: axis, Turned: turned, ReadingU: 1e-6}
		for i, r := range mm {
			o.Readings = append(o.Readings, KneeReading{Z: unit.Length(0.050 * float64(i)), Reading: unit.Length(r * 1e-3)})
		}
		return o
	}
	return []Observation{
		knee("marked, x", AlongX, false, 0, .002, .004, .008),
		knee("marked, y", AlongY, false, 0, -.002, -.002, -.004),
		knee("turned, x", AlongX, true, 0, -.002, 0, 0),
		knee("turned, y", AlongY, true, 0, -.006, -.008, -.012),
	}
}

func shopHoles() Observation {
	return ObservedDiagonals{Setup: Setup{Name: "test plate", Epoch: shopEpoch}, A: 0.300, B: 0.160, Rising: 0.339995, Falling: 0.340005, ReadingU: 2e-6}
}

// shopJaw is a row of D9.
func shopJaw(name string, mm ...float64) Observation {
	o := ObservedJaw{Setup: Setup{Name: name, Epoch: shopEpoch}, Jaw: "jaw, setting " + name, Middle: -0.180, Width: 0.120, ReadingU: 1e-6}
	for i, r := range mm {
		o.Readings = append(o.Readings, JawReading{Along: unit.Length(-0.060 + 0.020*float64(i)), Reading: unit.Length(r * 1e-3)})
	}
	return o
}

func shopJaws() []Observation {
	return []Observation{
		shopJaw("1", .002, .008, .016, .026, .038, .050, .066),
		shopJaw("2", 0, -.008, -.010, -.014, -.014, -.018, -.014),
		shopJaw("3", 0, -.002, -.004, -.004, -.002, 0, .004),
		shopJaw("4", 0, -.004, -.006, -.008, -.006, -.006, -.002),
	}
}

// shopSurvey is everything of 24 May 2025 together.
func shopSurvey() Survey {
	var all []Observation
	all = append(all, shopTwoDials()...)
	all = append(all, shopSweeps()...)
	all = append(all, shopRuns()...)
	all = append(all, shopBars()...)
	all = append(all, shopLevel(), shopSkim(), shopHoles())
	all = append(all, shopKnee()...)
	return Survey{Observations: append(all, shopJaws()...)}
}

func lengthOf(metres float64) unit.Length { return unit.Length(metres) }
