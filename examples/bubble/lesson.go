// Package bubble is the lesson "A bubble along the table": what a level that is
// turned end for end says of the ways, and which part of a change is the floor.
package bubble

import (
	"fmt"
	"time"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Reading is one station: the travel and the four readings in divisions.
type Reading struct {
	Travel                     unit.Length
	AlongNormal, AlongTurned   float64
	AcrossNormal, AcrossTurned float64
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Division is the slope of one division of the level; ReadTo the fraction
	// of a division to which it is read.
	Division wear.Slope
	ReadTo   float64
	// Bearing is the distance between the places where the table bears.
	Bearing unit.Length
	// FirstDay and First are the earlier survey; SecondDay and Second the later
	// one, which may be empty.
	FirstDay  time.Time
	First     []Reading
	SecondDay time.Time
	Second    []Reading
	// Spared is the travel of the station that has worn least; nil when none is
	// known.
	Spared *unit.Length
	// PartLength is the length of a part and PartPlace where on the table its
	// middle lies, positive to the right of the table's middle.
	PartLength, PartPlace unit.Length
}

// Defaults returns the action shop's surveys of 2019 and 2025.
func Defaults() Inputs {
	firstDay, first := actionshop.FirstLevelSurvey()
	secondDay, second := actionshop.SecondLevelSurvey()
	spared := -360 * mm
	return Inputs{
		Division: actionshop.LevelDivision, ReadTo: 0.5, Bearing: actionshop.BearingLength,
		FirstDay: firstDay, First: readings(first),
		SecondDay: secondDay, Second: readings(second),
		Spared: &spared, PartLength: 600 * mm, PartPlace: 0 * mm,
	}
}

func readings(rows []actionshop.LevelReading) []Reading {
	r := make([]Reading, len(rows))
	for i, row := range rows {
		r[i] = Reading(row)
	}
	return r
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fields := []notebook.Field{
		notebook.Day("first-day", &in.FirstDay, notebook.Spec{Label: "Date of the first survey", Help: "The earlier one."}),
		surveyField("first", &in.First, "First survey", 3),
		notebook.Day("second-day", &in.SecondDay, notebook.Spec{Label: "Date of the second survey", Help: "Not used while the second survey is empty."}),
		surveyField("second", &in.Second, "Second survey", 0),
		notebook.Measure("part-length", &in.PartLength, notebook.Spec{Label: "Length of a part",
			Help: "Along the table.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 5000*mm)}),
		notebook.Measure("part-place", &in.PartPlace, notebook.Spec{Label: "Place of the part on the table",
			Help:  "Its middle, right of the table's middle positive.",
			Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
	}
	return append(fields, notebook.Grouped("The level, the saddle and the station to trust",
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the level",
			Help:   "Engraved beside the vial, or in the maker's sheet.",
			Units:  []notebook.Unit{notebook.MillimetrePerMetre, notebook.ArcSecond, notebook.ThouPerFoot, notebook.MicrometrePerMetre},
			Limits: notebook.AboveUpTo(0, 10e-3)}),
		notebook.Number("read-to", &in.ReadTo, notebook.Spec{Label: "Read to a fraction of a division",
			Help: "0.5 when you read to half a division.", Limits: notebook.AboveUpTo(0.0, 2.0)}),
		notebook.Measure("bearing", &in.Bearing, notebook.Spec{Label: "Bearing length of the table on the saddle",
			Help:  "Along x, between the two places that carry the table. On a worn saddle it rides near the ends of the saddle ways; type 0 for a level walked along a bed.",
			Units: lengths, Limits: notebook.Between(0*mm, 3000*mm)}),
		notebook.MeasureMaybe("spared", &in.Spared, notebook.Spec{Label: "Travel X of the station that has worn least",
			Help:  "Where the saddle bears on the least used piece of the ways, say with the table run all the way to the side you never work on. Leave empty if you do not know.",
			Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
	)...)
}

// surveyField binds a table of four readings a station.
func surveyField(name string, rows *[]Reading, label string, least int) notebook.Field {
	reading := func(column string, p *float64, label, help string) notebook.Field {
		return notebook.Number(column, p, notebook.Spec{Label: label, Help: help, Limits: notebook.Between(-1000.0, 1000.0)})
	}
	help := "One row a station, readings in divisions, plus when the bubble runs toward the marked end of the level."
	if least == 0 {
		help += " The same stations as before; empty it if you have one survey only."
	}
	return notebook.Rows(name, rows, notebook.Spec{Label: label, Help: help, MinRows: least, MaxRows: 60}, func(r *Reading) []notebook.Field {
		return []notebook.Field{
			notebook.Measure("travel", &r.Travel, notebook.Spec{Label: "Travel X", Help: "Positive with the table to the right.",
				Units: []notebook.Unit{notebook.Millimetre, notebook.InchUnit}, Limits: notebook.Between(-5000*mm, 5000*mm)}),
			reading("along", &r.AlongNormal, "Along", "Marked end to the right."),
			reading("along-turned", &r.AlongTurned, "Along, turned", "Marked end to the left."),
			reading("across", &r.AcrossNormal, "Across", "Marked end to the back."),
			reading("across-turned", &r.AcrossTurned, "Across, turned", "Marked end to the front."),
		}
	})
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "bubble",
		Title:    "A bubble along the table",
		Question: "My level says the table has moved. Is that wear, or has the floor settled?",
		Asked:    "I ran a level along the table",
		Track:    notebook.Ways,
		Summary: "A level turned end for end at each station gives the slope of the table along its travel, " +
			"and two surveys years apart tell the wear of the ways from the settling of the floor.",
		Minutes: 15,
		After:   []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// survey is one date's readings, worked.
type survey struct {
	day           time.Time
	rows          []Reading
	along, across wear.LevelSurvey
}

// given reports whether the survey has readings.
func (s survey) given() bool { return len(s.rows) > 0 }

// readSurvey works one survey; an empty one gives the zero survey.
func readSurvey(in Inputs, field string, day time.Time, rows []Reading) (survey, error) {
	s := survey{day: day, rows: rows}
	if !s.given() {
		return s, nil
	}
	along, across := make([]wear.LevelStation, len(rows)), make([]wear.LevelStation, len(rows))
	for i, r := range rows {
		along[i] = wear.LevelStation{Position: -r.Travel, Normal: r.AlongNormal, Turned: r.AlongTurned}
		across[i] = wear.LevelStation{Position: -r.Travel, Normal: r.AcrossNormal, Turned: r.AcrossTurned}
	}
	options := wear.LevelOptions{Division: in.Division, Step: in.ReadTo}
	var err error
	if s.along, err = wear.ReadLevel(along, options); err == nil {
		s.across, err = wear.ReadLevel(across, options)
	}
	if err == nil && len(rows) < 3 {
		err = fmt.Errorf("has %d stations; a profile needs at least 3", len(rows))
	}
	return s, notebook.InField(field, err)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	first, err := readSurvey(in, "first", in.FirstDay, in.First)
	if err != nil {
		return nil, err
	}
	second, err := readSurvey(in, "second", in.SecondDay, in.Second)
	if err != nil {
		return nil, err
	}
	latest, field := first, "first"
	if second.given() {
		latest, field = second, "second"
	}
	ride, err := rideOf(in, latest)
	if err != nil {
		return nil, notebook.InField(field, err)
	}
	moved, err := changeOf(in, first, second)
	if err != nil {
		return nil, err
	}
	part, err := partOf(in, latest)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		func(s *notebook.Sheet) error { return setUpItems(s, latest) },
		func(s *notebook.Sheet) error { return slopeItems(s, first, second) },
		func(s *notebook.Sheet) error { return rideItems(s, latest, ride) },
		func(s *notebook.Sheet) error { return partItems(s, in, part) },
		func(s *notebook.Sheet) error { return changeItems(s, moved) },
		func(s *notebook.Sheet) error { return mythItems(s, latest, ride) },
		exerciseItems,
		checkItems,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
