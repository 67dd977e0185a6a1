package pockets

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const year = 365.25 * 86400 * unit.Second

// gaugeFloor is the least depth that the gauge of the case shows, and caseLimit the
// depth whose date is asked.
const gaugeFloor, caseLimit = 5 * um, 30 * um

// gaugedDepths is the case of a gauge that shows nothing below its floor, read once
// a year; zero where it showed nothing.
func gaugedDepths() []unit.Length {
	return []unit.Length{0, 0, 0, 8.1 * um, 9.4 * um, 12.2 * um, 13.6 * um, 16.4 * um}
}

// bounded returns the case with what the first years do say.
func bounded() []wear.BoundedDepth {
	var readings []wear.BoundedDepth
	for i, depth := range gaugedDepths() {
		r := wear.BoundedDepth{Clock: unit.Time(i+1) * year, Low: depth, High: depth}
		if depth == 0 {
			r.Low, r.High = unit.Length(math.Inf(-1)), gaugeFloor
		}
		readings = append(readings, r)
	}
	return readings
}

// plainReach returns when a line through the case reaches the limit, the years
// without a reading left out, or written as the floor.
func plainReach(written bool) (wear.Crossing, error) {
	var readings []wear.MeasuredDepth
	for i, depth := range gaugedDepths() {
		switch {
		case depth > 0:
		case written:
			depth = gaugeFloor
		default:
			continue
		}
		readings = append(readings, wear.MeasuredDepth{Clock: unit.Time(i+1) * year, Depth: depth})
	}
	line, err := wear.ForecastLine(readings)
	if err != nil {
		return wear.Crossing{}, err
	}
	return line.Reach(caseLimit, 0.95, 0)
}

// floorDates adds when the case reaches its limit, worked in three ways.
func floorDates(s *notebook.Sheet) error {
	counted, err := wear.ReachBounded(bounded(), caseLimit, 0.95)
	if err != nil {
		return err
	}
	left, err := plainReach(false)
	if err != nil {
		return err
	}
	written, err := plainReach(true)
	if err != nil {
		return err
	}
	t := notebook.Table{Name: "floor-dates", Title: "When is a wear reached that a gauge could not see at first?",
		Columns: []notebook.Column{notebook.Col("What is done with the first years"), notebook.ColIn("Reached after", years), notebook.ColIn("95 % from", years), notebook.ColIn("to", years)}}
	for _, row := range []struct {
		words string
		c     wear.Crossing
	}{{"counted as below the floor", counted}, {"left out", left}, {"written as the floor", written}} {
		q := func(x unit.Time) notebook.Cell { return notebook.Val(notebook.Stepped(x, 0.1*year, years)) }
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(row.words), q(row.c.At), q(row.c.Low), q(row.c.High)})
	}
	s.Add(t)
	return nil
}

// years shows a time in years, from new.
var years = notebook.Same(notebook.Unit{Symbol: "yr", Scale: float64(year)})

// checks adds the checks against published values.
func checks(s *notebook.Sheet) error {
	trend, err := wear.FitBoundedTrend(bounded())
	if err != nil {
		return err
	}
	var lives []wear.Life
	for _, weeks := range []unit.Time{9, 13, -13, 18, 23, -28, 31, 34, -45, 48, -161} { // below zero: still well then
		lives = append(lives, wear.Life{Time: max(weeks, -weeks), Failed: weeks > 0})
	}
	lasting, err := wear.Surviving(lives)
	if err != nil {
		return err
	}
	share, shareU := lasting.At(31)
	s.Add(notebook.CheckRow("check-lasting", "surviving-31", share), notebook.CheckRow("check-lasting-u", "surviving-31-u", shareU))
	s.Add(notebook.CheckRow("check-rate", "bounded-rate", float64(trend.Rate/wear.MicrometrePerYear)),
		notebook.CheckRow("check-start", "bounded-start", float64(trend.Start/um)),
		notebook.CheckRow("check-scatter", "bounded-scatter", float64(trend.Scatter/um)))
	return nil
}
