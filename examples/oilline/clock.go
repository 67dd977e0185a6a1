package oilline

import (
	"errors"
	"fmt"
	"time"

	"example.org/thouspan/internal/notebook"
	"gonum.org/v1/gonum/unit"
)

// clock turns days into what the wear is counted against.
type clock struct {
	calendar    bool
	first, last time.Time
	use         []Year
}

// newClock checks the use book.
func newClock(in Inputs) (clock, error) {
	c := clock{calendar: in.Clock == byCalendar, first: in.FirstDay, last: in.LastDay, use: in.Use}
	if !in.LastDay.After(in.FirstDay) {
		return c, notebook.InField("last-day", errors.New("the use book must end after it begins"))
	}
	for i, y := range in.Use {
		if want := in.FirstDay.Year() + i; y.Year != want {
			return c, notebook.InRow("use", i+1, "year", fmt.Errorf("%d stands where %d should: one row a year, from the book's first day on", y.Year, want))
		}
	}
	if n := in.LastDay.Year() - in.FirstDay.Year() + 1; len(in.Use) != n {
		return c, notebook.InField("use", fmt.Errorf("%d years are written down; from the first to the last day there are %d", len(in.Use), n))
	}
	return c, nil
}

// span returns the part of a year that the book covers.
func (c clock) span(year int) (from, to time.Time) {
	from = time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC)
	to = time.Date(year+1, 1, 1, 0, 0, 0, 0, time.UTC)
	if from.Before(c.first) {
		from = c.first
	}
	if to.After(c.last) {
		to = c.last
	}
	return from, to
}

// at returns the clock on a day: seconds since the first day of the book, under
// power or by the calendar. Hours are spread evenly over each year.
func (c clock) at(day time.Time) (unit.Time, error) {
	if day.Before(c.first) || day.After(c.last) {
		return 0, fmt.Errorf("%s lies outside the use book, which is kept from %s to %s", day.Format(time.DateOnly), c.first.Format(time.DateOnly), c.last.Format(time.DateOnly))
	}
	if c.calendar {
		return unit.Time(day.Sub(c.first).Seconds()), nil
	}
	var sum unit.Time
	for _, y := range c.use {
		from, to := c.span(y.Year)
		if day.Before(from) {
			break
		}
		if day.After(to) || to.Equal(from) {
			sum += y.Hours
			continue
		}
		sum += y.Hours * unit.Time(day.Sub(from).Seconds()/to.Sub(from).Seconds())
	}
	return sum, nil
}

// day returns the day on which the clock stood at a time, to the day.
func (c clock) day(at unit.Time) time.Time {
	from, to := c.first, c.last
	for to.Sub(from) > 12*time.Hour {
		middle := from.Add(to.Sub(from) / 2)
		if t, err := c.at(middle); err == nil && t < at {
			from = middle
		} else {
			to = middle
		}
	}
	return to.Round(24 * time.Hour)
}

// rates is the pair in which a rate is shown.
func (c clock) rates() notebook.Pair {
	if c.calendar {
		return notebook.Pair{
			Metric: notebook.Unit{Symbol: "µm/yr", Scale: 1e-6 / (365.25 * 86400)},
			Inch:   notebook.Unit{Symbol: "thou/yr", Scale: 25.4e-6 / (365.25 * 86400)}}
	}
	return notebook.Pair{
		Metric: notebook.Unit{Symbol: "µm/1000 h", Scale: 1e-6 / 3.6e6},
		Inch:   notebook.Unit{Symbol: "thou/1000 h", Scale: 25.4e-6 / 3.6e6}}
}

// times is the pair in which the clock is shown.
func (c clock) times() notebook.Pair {
	if c.calendar {
		return notebook.Same(notebook.Year)
	}
	return notebook.Hours
}

// words names the clock.
func (c clock) words() string {
	if c.calendar {
		return byCalendar
	}
	return byHours
}
