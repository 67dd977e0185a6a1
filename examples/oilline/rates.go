package oilline

import (
	"fmt"
	"math"
	"time"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// day is a date inside a sentence.
func day(t time.Time) string { return t.Format("2 January 2006") }

// percent is a chance, never shown as a certainty.
func percent(p float64) notebook.Quantity {
	step := 0.01
	if p > 0.99 || p < 0.01 {
		step = 0.001
	}
	return notebook.Stepped(math.Min(math.Max(p, 0.001), 0.999), step, notebook.Percents)
}

// rateItems adds the rates before and after, and whether it helped.
func rateItems(s *notebook.Sheet, f found) error {
	rate := func(v, u wear.WearRate) notebook.Quantity { return notebook.Of(v, u, f.clock.rates()) }
	front, rear := f.frontEvent, f.rearEvent
	s.Add(
		answer(f),
		notebook.Figure{Name: "front-before", Label: "Front way, rate before", Value: rate(front.Before, front.BeforeU)},
		notebook.Figure{Name: "front-after", Label: "Front way, rate after", Value: rate(front.After, front.AfterU)},
		notebook.Figure{Name: "front-change", Label: "Front way, change of rate", Value: rate(front.Change, front.ChangeU),
			Note: notebook.Say("The two rates share the depth on the day, so the change is less sure than either. The chance that the rate fell at all is {}.", percent(front.Helped))},
		notebook.Figure{Name: "rear-change", Label: "Rear way, change of rate", Value: rate(rear.Change, rear.ChangeU),
			Note: notebook.Say("From {u} to {u}. Nothing was done to it: what changed here changed for both.", rate(rear.Before, rear.BeforeU), rate(rear.After, rear.AfterU))},
		notebook.Figure{Name: "beyond", Label: "Change of the front way beyond that of the rear", Value: rate(f.beyond.Change, f.beyond.ChangeU),
			Note: notebook.Say("This is what the clearing did, whatever else was new: the chance that it helped is {}.", percent(f.beyond.Helped))},
		scatterVerdict(f),
	)
	chart, err := hingeChart(f)
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// answer says whether it helped.
func answer(f found) notebook.Verdict {
	rate := func(v, u wear.WearRate) notebook.Quantity { return notebook.Of(v, u, f.clock.rates()) }
	e, p := f.frontEvent, f.beyond.Helped
	rates := notebook.Say("The front way wore {u} before the day and {u} after.", rate(e.Before, e.BeforeU), rate(e.After, e.AfterU))
	v := notebook.Verdict{Name: "answer"}
	switch {
	case p >= 0.95:
		v.Tone = notebook.Good
		v.Text = notebook.Say("Clearing the outlet helped: the chance is {}, the rear way being the witness.", percent(p)).And(rates)
	case p <= 0.05:
		v.Tone = notebook.Stop
		v.Text = notebook.Say("It got worse: the chance that it helped is {}. Look what else was changed on that day.", percent(p)).And(rates)
	default:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("These depths cannot tell yet: the chance that it helped is {}.", percent(p)).And(rates).
			And(notebook.Plain("More depths after the day, and further from it, will."))
	}
	return v
}

// scatterVerdict says whether the depths keep to their stated uncertainty.
func scatterVerdict(f found) notebook.Verdict {
	v := notebook.Verdict{Name: "scatter", Tone: notebook.Good}
	least := math.Min(f.frontEvent.Agreement, f.rearEvent.Agreement)
	if least < 0.05 {
		v.Tone = notebook.Watch
		v.Text = notebook.Say("The depths scatter about their bent lines by more than {} explains (chance {}): the gauge is less sure than you say, the place was not the same, or the rate changed more than once.",
			notebook.Exact(f.front[0].U, notebook.FineLengths).WithDigits(2), percent(least))
		return v
	}
	v.Text = notebook.Say("The depths scatter about their bent lines as much as a standard uncertainty of {} lets them.", notebook.Exact(f.front[0].U, notebook.FineLengths).WithDigits(2))
	return v
}

// hingeChart draws the depths and the bent lines.
func hingeChart(f found) (notebook.Chart, error) {
	var series []plot.Series
	for _, way := range []struct {
		label    string
		readings []wear.MeasuredDepth
		event    wear.Event
	}{{"front way", f.front, f.frontEvent}, {"rear way", f.rear, f.rearEvent}} {
		dots := plot.Series{Label: way.label, Style: plot.Dots}
		least, most := way.readings[0].Clock, way.readings[0].Clock
		for _, r := range way.readings {
			dots.X, dots.Y, dots.U = append(dots.X, float64(r.Clock)), append(dots.Y, float64(r.Depth)), append(dots.U, float64(r.U))
			least, most = min(least, r.Clock), max(most, r.Clock)
		}
		line := plot.Series{Label: way.label + ", bent line", Style: plot.Curve}
		band := plot.Series{Label: way.label + " ± 2u", Style: plot.Band}
		for _, t := range ruler(least, f.event, most) {
			depth, u := way.event.Depth(t)
			line.X, line.Y = append(line.X, float64(t)), append(line.Y, float64(depth))
			band.X, band.Low, band.High = append(band.X, float64(t)), append(band.Low, float64(depth-2*u)), append(band.High, float64(depth+2*u))
		}
		series = append(series, dots, line, band)
	}
	return plot.XY{Name: "hinge-chart", Title: "Depth of wear, and the bent lines through it",
		Caption: notebook.Plain("Front way above, rear way below, with one standard uncertainty a depth and two for the lines. The mark is the day of the clearing."),
		X:       plot.Axis{Label: "Clock, " + f.clock.words(), Show: f.clock.times()},
		Y:       plot.Axis{Label: "Depth of wear", Show: notebook.FineLengths}, Series: series,
		Marks: []plot.Mark{{Label: "outlet cleared", X: float64(f.event)}}}.Chart()
}

// ruler returns clocks from the first over the event to the last.
func ruler(first, event, last unit.Time) []unit.Time {
	const parts = 5
	var t []unit.Time
	for i := range parts {
		t = append(t, first+(event-first)*unit.Time(i)/parts)
	}
	for i := 0; i <= parts; i++ {
		t = append(t, event+(last-event)*unit.Time(i)/parts)
	}
	return t
}

// dateItems adds what the depths alone say of the day.
func dateItems(s *notebook.Sheet, f found) error {
	found := f.search
	low, high := f.clock.day(found.Low), f.clock.day(found.High)
	v := notebook.Verdict{Name: "found-date", Tone: notebook.Good}
	switch {
	case found.NoChangeP > 0.05:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("Had nobody written the day down, these depths alone would not show that anything changed: a straight line scatters into a bend like theirs with a chance of {}.", percent(found.NoChangeP))
	case found.Open:
		v.Tone = notebook.Note
		v.Text = notebook.Say("Had nobody written the day down, these depths alone would show a change (chance of none: {}), most likely about "+day(f.clock.day(found.Date))+", but not shut the day in: it may lie at the end of the readings.", percent(found.NoChangeP))
	default:
		v.Text = notebook.Say(fmt.Sprintf("Had nobody written the day down, these depths alone would show a change (chance of none: {}) and put it between %s and %s, most likely about %s.", day(low), day(high), day(f.clock.day(found.Date))), percent(found.NoChangeP))
	}
	s.Add(v)
	days := make([]time.Time, len(found.Dates))
	for i, t := range found.Dates {
		days[i] = f.clock.day(t)
	}
	written := f.clock.day(f.event)
	chart, err := plot.XY{Name: "date-chart", Title: "How badly each day fits",
		Caption: notebook.Plain("A day is not excluded where the misfit lies below the allowed one, which is found by drawing readings with a bend on just that day."),
		X:       plot.Axis{Label: "Day of the change", Dates: true}, Y: plot.Axis{Label: "Misfit beyond that of the best day", Show: notebook.Numbers, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{{Label: "misfit", Style: plot.Curve, X: plot.Days(days), Y: found.Excess},
			{Label: "allowed at 95 %", Style: plot.Curve, X: plot.Days(days), Y: found.Allowed}},
		Marks: []plot.Mark{{Label: "written down", X: plot.Day(written)}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}
