// Package oilline is the lesson "The oil line that was shut": whether clearing an
// oil outlet slowed the wear of a way, from depths measured over the years.
package oilline

import (
	"time"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm   = unit.Milli * unit.Metre
	um   = unit.Micro * unit.Metre
	hour = 3600 * unit.Second
)

// What the wear is counted against.
const (
	byHours    = "hours under power"
	byCalendar = "the calendar"
)

// Step is the depth of both ways on one day.
type Step struct {
	Day         time.Time
	Front, Rear unit.Length
}

// Year is what the use book says of a calendar year.
type Year struct {
	Year, Pulls int
	Hours       unit.Time
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Steps []Step
	// StepU is the standard uncertainty of each depth.
	StepU unit.Length
	// Event is the day on which something was done.
	Event time.Time
	// Clock is what the wear is counted against.
	Clock string
	// Use is the use book, from FirstDay to LastDay.
	FirstDay, LastDay time.Time
	Use               []Year
	// Apart is the distance between the two ways.
	Apart unit.Length
}

// Defaults returns the action shop's wear steps and use book.
func Defaults() Inputs {
	first, last := actionshop.FirstAndLastUse()
	in := Inputs{StepU: actionshop.WearStepU, Event: actionshop.OutletCleared(), Clock: byHours, FirstDay: first, LastDay: last, Apart: 190 * mm}
	for _, s := range actionshop.WearSteps() {
		in.Steps = append(in.Steps, Step{s.Date, s.Front, s.Rear})
	}
	for _, y := range actionshop.UseBook() {
		in.Use = append(in.Use, Year{y.Year, y.Pulls, y.Hours})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre}
	depth := notebook.Between(-1000*um, 5000*um)
	fields := []notebook.Field{
		notebook.Rows("steps", &in.Steps, notebook.Spec{Label: "Depth of wear by date",
			Help:    "The same place on both ways every time, from the strip beside the track that the saddle never reaches.",
			MinRows: 4, MaxRows: 60}, func(s *Step) []notebook.Field {
			return []notebook.Field{
				notebook.Day("day", &s.Day, notebook.Spec{Label: "Date"}),
				notebook.Measure("front", &s.Front, notebook.Spec{Label: "Front", Help: "The way that the outlet feeds.", Units: fine, Limits: depth}),
				notebook.Measure("rear", &s.Rear, notebook.Spec{Label: "Rear", Help: "The way to which nothing was done.", Units: fine, Limits: depth}),
			}
		}),
		notebook.Day("event", &in.Event, notebook.Spec{Label: "Day on which the outlet was cleared", Help: "Between the first and the last depth."}),
	}
	return append(fields, notebook.Grouped("The gauge, the ways and the use book",
		notebook.Measure("step-u", &in.StepU, notebook.Spec{Label: "A depth is sure to", Help: "Standard uncertainty of one depth in the table: measure one place ten times on different days, from the beginning, and take the scatter.",
			Units: fine, Limits: notebook.AboveUpTo(0*um, 100*um)}),
		notebook.Choice("clock", &in.Clock, notebook.Spec{Label: "Count the wear against", Help: "Hours are the better clock: a machine that stands does not wear.", Options: []string{byHours, byCalendar}}),
		notebook.Measure("apart", &in.Apart, notebook.Spec{Label: "Ways apart", Help: "Front to rear, middle to middle.", Units: []notebook.Unit{notebook.Millimetre, notebook.InchUnit}, Limits: notebook.AboveUpTo(0*mm, 3000*mm)}),
		notebook.Day("first-day", &in.FirstDay, notebook.Spec{Label: "Use book kept from", Help: "Its first year is counted from here."}),
		notebook.Day("last-day", &in.LastDay, notebook.Spec{Label: "Use book kept until", Help: "Its last year is counted up to here."}),
		notebook.Rows("use", &in.Use, notebook.Spec{Label: "Use book", Help: "One row a calendar year, without a gap.", MinRows: 1, MaxRows: 60}, func(y *Year) []notebook.Field {
			return []notebook.Field{
				notebook.Count("year", &y.Year, notebook.Spec{Label: "Year", Limits: notebook.Between(1900.0, 2200.0)}),
				notebook.Measure("hours", &y.Hours, notebook.Spec{Label: "Under power", Units: []notebook.Unit{notebook.Hour}, Limits: notebook.Between(0*hour, 9000*hour)}),
				notebook.Count("pulls", &y.Pulls, notebook.Spec{Label: "Pulls of the oil pump", Limits: notebook.Between(0.0, 1e6)}),
			}
		}))...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "oilline",
		Title:    "The oil line that was shut",
		Question: "I found an oil outlet blocked and cleared it. Did that slow the wear, or do I only hope so?",
		Asked:    "I cleared an oil line",
		Track:    notebook.Ways,
		Summary:  "Rates of wear before and after a date, each with its uncertainty, the chance that it helped, and the way that nothing was done to as a witness.",
		Minutes:  14,
		After:    []string{"pockets"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// found is what the depths say of the two ways.
type found struct {
	clock       clock
	event       unit.Time
	days        []time.Time
	front, rear []wear.MeasuredDepth
	frontEvent  wear.Event
	rearEvent   wear.Event
	beyond      wear.Beyond
	straight    wear.Forecast
	search      wear.FoundEvent
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	f, err := find(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		func(s *notebook.Sheet) error { return setUpItems(s, f) },
		func(s *notebook.Sheet) error { return rateItems(s, f) },
		func(s *notebook.Sheet) error { return dateItems(s, f) },
		func(s *notebook.Sheet) error { return pullItems(s, in, f) },
		func(s *notebook.Sheet) error { return workItems(s, in, f) },
		exerciseItems,
		checkItems,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// find fits both ways.
func find(in Inputs) (found, error) {
	c, err := newClock(in)
	if err != nil {
		return found{}, err
	}
	f := found{clock: c}
	for i, s := range in.Steps {
		at, err := c.at(s.Day)
		if err != nil {
			return found{}, notebook.InRow("steps", i+1, "day", err)
		}
		f.days = append(f.days, s.Day)
		f.front = append(f.front, wear.MeasuredDepth{Clock: at, Depth: s.Front, U: in.StepU})
		f.rear = append(f.rear, wear.MeasuredDepth{Clock: at, Depth: s.Rear, U: in.StepU})
	}
	if f.event, err = c.at(in.Event); err != nil {
		return found{}, notebook.InField("event", err)
	}
	if f.frontEvent, err = wear.FitEvent(f.front, f.event); err != nil {
		return found{}, notebook.InField("event", err)
	}
	if f.rearEvent, err = wear.FitEvent(f.rear, f.event); err != nil {
		return found{}, notebook.InField("event", err)
	}
	f.beyond = f.frontEvent.Beyond(f.rearEvent)
	if f.straight, err = wear.ForecastLine(f.front); err != nil {
		return found{}, notebook.InField("steps", err)
	}
	f.search, err = wear.FindEvent(f.front, wear.EventSearch{Dates: 40, Draws: 500, Seed: 1})
	return f, notebook.InField("steps", err)
}
