// Package pockets is the lesson "Reading the oil pockets": how deep a way has
// worn, from the flaking that is left and the pockets that are gone.
package pockets

import (
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

// Reading is one place with what is left of its pockets on both ways.
type Reading struct {
	Place      unit.Length
	Front      unit.Length
	FrontFound int
	Rear       unit.Length
	RearFound  int
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// New is the depth of the pockets when new, NewU its standard uncertainty,
	// Spread the standard deviation of single ones, Floor the least depth that
	// can be found, Total how many were looked for at each place and way.
	New, NewU, Spread, Floor unit.Length
	Total                    int
	FirstDay                 time.Time
	First                    []Reading
	SecondDay                time.Time
	Second                   []Reading
	// Bearing is the distance between the places where the table bears along x,
	// Apart that between the ways.
	Bearing, Apart unit.Length
}

// Defaults returns the action shop's flaking of 2019 and 2025.
func Defaults() Inputs {
	firstDay, first := actionshop.FirstPockets()
	secondDay, second := actionshop.SecondPockets()
	return Inputs{New: actionshop.FlakingNew, NewU: 1.5 * um, Spread: 6.2 * um, Floor: 3 * um, Total: actionshop.PocketsLookedFor,
		FirstDay: firstDay, First: readings(first), SecondDay: secondDay, Second: readings(second),
		Bearing: actionshop.BearingLength, Apart: 190 * mm}
}

func readings(rows []actionshop.PocketReading) []Reading {
	r := make([]Reading, len(rows))
	for i, row := range rows {
		r[i] = Reading(row)
	}
	return r
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre, notebook.InchUnit}
	depth := notebook.Between(0*um, 1000*um)
	return []notebook.Field{
		notebook.Measure("new", &in.New, notebook.Spec{Label: "Depth of the pockets when new", Help: "The mean of ten or more where nothing has run: under the end caps, beyond the travel.", Units: fine, Limits: depth}),
		notebook.Measure("new-u", &in.NewU, notebook.Spec{Label: "That mean is sure to", Help: "Standard uncertainty: the spread over the square root of how many were measured.", Units: fine, Limits: depth}),
		notebook.Measure("spread", &in.Spread, notebook.Spec{Label: "Single pockets differ by", Help: "One standard deviation of single pockets where nothing has run.", Units: fine, Limits: notebook.AboveUpTo(0*um, 1000*um)}),
		notebook.Measure("floor", &in.Floor, notebook.Spec{Label: "Shallowest pocket you can find", Help: "With the light and the gauge you use.", Units: fine, Limits: depth}),
		notebook.Count("total", &in.Total, notebook.Spec{Label: "Pockets looked for", Help: "At each place, on each way.", Limits: notebook.Between(1.0, 1000.0)}),
		notebook.Day("first-day", &in.FirstDay, notebook.Spec{Label: "Date of the first survey", Help: "The earlier one. Not used while it is empty."}),
		readingsField("first", &in.First, "First survey", "Empty it if you have one survey only.", 0),
		notebook.Day("second-day", &in.SecondDay, notebook.Spec{Label: "Date of the latest survey", Help: "The one that counts."}),
		readingsField("second", &in.Second, "Latest survey", "One row a place.", 2),
		notebook.Measure("bearing", &in.Bearing, notebook.Spec{Label: "Bearing length of the table on the saddle", Help: "Along x, between the two places that carry the table.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 3000*mm)}),
		notebook.Measure("apart", &in.Apart, notebook.Spec{Label: "Ways apart", Help: "Across, middle to middle.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 3000*mm)}),
	}
}

func readingsField(name string, rows *[]Reading, label, help string, least int) notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou}
	depth, found := notebook.Between(0*um, 1000*um), notebook.Between(0.0, 1000.0)
	return notebook.Rows(name, rows, notebook.Spec{Label: label, MinRows: least, MaxRows: 60, Help: help + " Depths are means of the pockets that were found; type 0 where none was."}, func(r *Reading) []notebook.Field {
		return []notebook.Field{
			notebook.Measure("place", &r.Place, notebook.Spec{Label: "Place u", Help: "Right of the table's middle positive.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
			notebook.Measure("front", &r.Front, notebook.Spec{Label: "Front, depth", Help: "Mean of those found on the front way.", Units: fine, Limits: depth}),
			notebook.Count("front-found", &r.FrontFound, notebook.Spec{Label: "Front, found", Help: "How many of them.", Limits: found}),
			notebook.Measure("rear", &r.Rear, notebook.Spec{Label: "Rear, depth", Help: "Mean of those found on the rear way.", Units: fine, Limits: depth}),
			notebook.Count("rear-found", &r.RearFound, notebook.Spec{Label: "Rear, found", Help: "How many of them.", Limits: found}),
		}
	})
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "pockets",
		Title:    "Reading the oil pockets",
		Question: "The flaking on my ways is fading. How deep is the wear, and what of the pockets that are gone?",
		Asked:    "My flaking is fading",
		Track:    notebook.Ways,
		Summary:  "Oil pockets are a gauge of wear that is always at hand, once the missing ones are counted and not forgotten.",
		Minutes:  12,
		After:    []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// survey is one date, worked.
type survey struct {
	day         time.Time
	front, rear []wear.PocketWear
}

func readSurvey(in Inputs, field string, day time.Time, rows []Reading) (survey, error) {
	s := survey{day: day}
	if len(rows) == 0 {
		return s, nil
	}
	front, rear := make([]wear.PocketStation, len(rows)), make([]wear.PocketStation, len(rows))
	for i, r := range rows {
		front[i] = wear.PocketStation{Place: r.Place, Depth: r.Front, Found: r.FrontFound, Total: in.Total}
		rear[i] = wear.PocketStation{Place: r.Place, Depth: r.Rear, Found: r.RearFound, Total: in.Total}
	}
	options := wear.PocketOptions{New: in.New, NewU: in.NewU, Spread: in.Spread, Floor: in.Floor}
	var err error
	if s.front, err = wear.ReadPockets(front, options); err == nil {
		s.rear, err = wear.ReadPockets(rear, options)
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
	ride, err := predict(in, second)
	if err != nil {
		return nil, notebook.InField("second", err)
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		setUp,
		func(s *notebook.Sheet) error { return answers(s, in, first, second) },
		func(s *notebook.Sheet) error { return rideItems(s, ride) },
		exercises,
		floorDates,
		checks,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
