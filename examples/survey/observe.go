package survey

import (
	"fmt"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// The kinds of reading.
const (
	kindSweep = "sweep"
	kindGauge = "two-dial gauge"
	kindRun   = "table run"
	kindBar   = "ground bar"
	kindLevel = "level"
	kindSkim  = "skimmed bar"
	kindKnee  = "square on the knee"
	kindJaw   = "jaw run"
	kindHoles = "four holes"
)

// The shop's gauges, whose own errors the adjustment finds.
const (
	theGauge  = "the two-dial gauge"
	theLevel  = "the level"
	theBar    = "the ground bar"
	theSquare = "the square"
	theJaw    = "the vise's fixed jaw"
)

// kind is one kind of reading: the field it is typed into and its observations.
type kind struct {
	name, field string
	observe     func(Inputs) []squaring.Observation
}

func kinds() []kind {
	return []kind{
		{kindSweep, "sweeps", sweepsOf}, {kindGauge, "gauge", gaugeOf}, {kindRun, "run", runsOf}, {kindBar, "bar", barsOf},
		{kindLevel, "level", levelOf}, {kindSkim, "skim", skimOf}, {kindKnee, "knee", kneeOf},
		{kindJaw, "jaw", jawOf}, {kindHoles, "holes", holesOf},
	}
}

func kindNames() []string {
	var names []string
	for _, k := range kinds() {
		names = append(names, k.name)
	}
	return names
}

// observationsOf returns every observation of the inputs.
func observationsOf(in Inputs) []squaring.Observation {
	var all []squaring.Observation
	for _, k := range kinds() {
		all = append(all, k.observe(in)...)
	}
	return all
}

func sweepsOf(in Inputs) []squaring.Observation {
	var list []squaring.Observation
	for i, row := range in.Sweep {
		o := squaring.ObservedSweep{Setup: squaring.Setup{Name: fmt.Sprint(i + 1), Head: row.Head}, X: row.Travel, Radius: in.Radius, Drift: true, ReadingU: in.SweepU}
		for place, shown := range row.Shown {
			o.Readings = append(o.Readings, squaring.SweepReading{Azimuth: unit.Angle(45*place) * squaring.Degree, Reading: shown / unit.Length(in.Gain)})
		}
		list = append(list, o)
	}
	return list
}

func gaugeOf(in Inputs) []squaring.Observation {
	var list []squaring.Observation
	for i, row := range in.Gauge {
		azimuth := 0 * squaring.Degree
		if row.Axis == axisY {
			azimuth = 90 * squaring.Degree
		}
		list = append(list, squaring.ObservedTwoDial{Setup: squaring.Setup{Name: fmt.Sprint(i + 1), Head: row.Head}, Gauge: theGauge, Span: in.Span, ReadingU: in.GaugeU,
			Readings: []squaring.TwoDialReading{{Azimuth: azimuth, Difference: row.C - row.B}, {Azimuth: azimuth + 180*squaring.Degree, Difference: row.CTurned - row.BTurned}}})
	}
	return list
}

func runsOf(in Inputs) []squaring.Observation {
	if len(in.Run) == 0 {
		return nil
	}
	run := func(name string, track unit.Length, pick func(RunRow) unit.Length) squaring.Observation {
		o := squaring.ObservedRun{Setup: squaring.Setup{Name: name}, Track: track, ReadingU: in.DialU}
		for _, row := range in.Run {
			o.Readings = append(o.Readings, squaring.TravelReading{X: row.Travel, Reading: pick(row)})
		}
		return o
	}
	return []squaring.Observation{
		run("front", -in.Track, func(r RunRow) unit.Length { return r.Front }),
		run("middle", 0, func(r RunRow) unit.Length { return r.Middle }),
		run("rear", in.Track, func(r RunRow) unit.Length { return r.Rear }),
	}
}

func barsOf(in Inputs) []squaring.Observation {
	if len(in.Bar) == 0 {
		return nil
	}
	up := squaring.ObservedBar{Setup: squaring.Setup{Name: "edge up"}, Bar: theBar, ReadingU: in.DialU}
	down := squaring.ObservedBar{Setup: squaring.Setup{Name: "edge down"}, Bar: theBar, Down: true, ReadingU: in.DialU}
	for _, row := range in.Bar {
		up.Readings = append(up.Readings, squaring.TravelReading{X: row.Travel, Reading: row.Up})
		down.Readings = append(down.Readings, squaring.TravelReading{X: row.Travel, Reading: row.Down})
	}
	return []squaring.Observation{up, down}
}

func levelOf(in Inputs) []squaring.Observation {
	if len(in.Level) == 0 {
		return nil
	}
	o := squaring.ObservedLevel{Setup: squaring.Setup{Name: "survey"}, Gauge: theLevel, ReadingU: in.LevelU}
	for _, row := range in.Level {
		for i, divisions := range []float64{row.AlongNormal, row.AlongTurned, row.AcrossNormal, row.AcrossTurned} {
			o.Readings = append(o.Readings, squaring.LevelReading{X: row.Travel, Axis: squaring.SurveyAxis(i / 2), Reversed: i%2 == 1,
				Reading: squaring.Slope(divisions) * in.Division})
		}
	}
	return []squaring.Observation{o}
}

func skimOf(in Inputs) []squaring.Observation {
	if len(in.Skim) == 0 {
		return nil
	}
	o := squaring.ObservedSkim{Setup: squaring.Setup{Name: "long"}, ReadingU: in.MicrometerU}
	for _, row := range in.Skim {
		o.Readings = append(o.Readings, squaring.SkimReading{U: row.Place, Thickness: row.Thickness})
	}
	return []squaring.Observation{o}
}

func kneeOf(in Inputs) []squaring.Observation {
	if len(in.Knee) == 0 {
		return nil
	}
	var list []squaring.Observation
	for i, name := range []string{"marked, x", "marked, y", "turned, x", "turned, y"} {
		o := squaring.ObservedKnee{Setup: squaring.Setup{Name: name}, Square: theSquare, Axis: squaring.SurveyAxis(i % 2), Turned: i > 1, ReadingU: in.DialU}
		for _, row := range in.Knee {
			o.Readings = append(o.Readings, squaring.KneeReading{Z: row.Raised,
				Reading: []unit.Length{row.MarkedX, row.MarkedY, row.TurnedX, row.TurnedY}[i]})
		}
		list = append(list, o)
	}
	return list
}

func jawOf(in Inputs) []squaring.Observation {
	if len(in.Jaw) == 0 {
		return nil
	}
	o := squaring.ObservedJaw{Setup: squaring.Setup{Name: "jaw"}, Jaw: theJaw, Middle: in.JawMiddle, Width: in.JawWidth, ReadingU: in.DialU}
	for _, row := range in.Jaw {
		o.Readings = append(o.Readings, squaring.JawReading{Along: row.Along, Reading: row.Shown})
	}
	return []squaring.Observation{o}
}

func holesOf(in Inputs) []squaring.Observation {
	var list []squaring.Observation
	for i, row := range in.Holes {
		list = append(list, squaring.ObservedDiagonals{Setup: squaring.Setup{Name: fmt.Sprint(i + 1)}, A: row.A, B: row.B, Rising: row.Rising, Falling: row.Falling, ReadingU: in.HoleU})
	}
	return list
}

// options draws the curves over every place that the part or a candidate for
// the next reading touches.
func options(in Inputs) squaring.SurveyOptions {
	wide := squaring.SurveyOptions{From: min(-in.Place-in.Length/2, 0), To: max(-in.Place+in.Length/2, 0)}
	reach := func(x unit.Length) { wide.From, wide.To = min(wide.From, x), max(wide.To, x) }
	again := in.again()
	for _, r := range again.Run {
		reach(r.Travel)
	}
	for _, r := range again.Bar {
		reach(r.Travel)
	}
	for _, r := range again.Level {
		reach(r.Travel)
	}
	for _, r := range again.Skim {
		reach(-r.Place)
	}
	for _, r := range again.Jaw {
		reach(-again.JawMiddle - r.Along)
	}
	return wide
}

// surveyOf returns the observations as a survey, with what is known of the
// bearing when heights or slopes are read at all.
func surveyOf(in Inputs, observations []squaring.Observation) squaring.Survey {
	survey := squaring.Survey{Observations: observations}
	if in.Bearing <= 0 {
		return survey
	}
	wide := options(in)
	var travels []unit.Length
	for x := wide.From; x+in.Bearing <= wide.To && len(travels) < 60; x += 60 * mm {
		travels = append(travels, x)
	}
	survey.Priors = squaring.ContactPriors("", in.Bearing, travels, bearingU)
	return survey
}

// bearingU is how far a table may be from resting on the ends of its bearing
// alone: common practice, a scraped saddle worn hollow.
const bearingU = 1 * um

// adjust adjusts every reading together. An error is put at the table whose
// readings alone give one too.
func adjust(in Inputs) (*squaring.Adjustment, error) {
	observations := observationsOf(in)
	if len(observations) == 0 {
		return nil, fmt.Errorf("there are no readings: every table is empty")
	}
	adjustment, err := surveyOf(in, observations).Adjust(options(in))
	if err == nil {
		return adjustment, nil
	}
	for _, k := range kinds() {
		if list := k.observe(in); len(list) > 0 {
			if _, alone := (squaring.Survey{Observations: list}).Adjust(options(in)); alone != nil {
				return nil, notebook.InField(k.field, alone)
			}
		}
	}
	return nil, err
}
