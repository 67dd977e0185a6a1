package fiveyears

import (
	"math"
	"time"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// month is a date as a forecast may say it.
func month(t time.Time) string {
	if t.IsZero() {
		return "after 2200"
	}
	return t.Format("January 2006")
}

func percent(p float64) notebook.Quantity {
	step := 0.01
	if p > 0.99 || p < 0.01 {
		step = 0.001
	}
	return notebook.Stepped(math.Min(math.Max(p, 0.001), 0.999), step, notebook.Percents)
}

func depthOf(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }

// yearRates is the pair in which a rate is shown.
var yearRates = notebook.Pair{
	Metric: notebook.Unit{Symbol: "µm/yr", Scale: 1e-6 / (365.25 * 86400)},
	Inch:   notebook.Unit{Symbol: "thou/yr", Scale: 25.4e-6 / (365.25 * 86400)}}

// hourRates is the pair for a rate against hours.
var hourRates = notebook.Pair{
	Metric: notebook.Unit{Symbol: "µm/1000 h", Scale: 1e-6 / 3.6e6},
	Inch:   notebook.Unit{Symbol: "thou/1000 h", Scale: 25.4e-6 / 3.6e6}}

// forecastItems adds when the limit is reached.
func forecastItems(s *notebook.Sheet, in Inputs, o outlook) error {
	ahead := o.now.Hours + in.LikelyUse*horizon/year
	depth, u := o.line.At(ahead)
	low, high := o.line.Interval(ahead, 0.95, 0)
	share := wear.WearRate(in.LikelyUse / year)
	nowDepth, nowU := o.line.At(o.now.Hours)
	s.Add(
		reachVerdict("answer", in, o, o.reach, "By a straight line in hours"),
		notebook.Figure{Name: "depth-now", Label: "Depth at the last date, by the line", Value: notebook.Of(nowDepth, nowU, notebook.FineLengths)},
		notebook.Figure{Name: "rate", Label: "Rate", Value: notebook.Of(o.line.Rate, o.line.RateU, hourRates),
			Note: notebook.Say("At {} a year that is {u}.", notebook.Stepped(in.LikelyUse, 1*hour, notebook.Hours), notebook.Of(o.line.Rate*share, o.line.RateU*share, yearRates))},
		notebook.Figure{Name: "depth-ahead", Label: "Depth five years on", Value: notebook.Of(depth, u, notebook.FineLengths),
			Note: notebook.Say("With 95 % between {} and {}, if nothing changes.", depthOf(low), depthOf(high))},
		notebook.Figure{Name: "chance-ahead", Label: "Chance that the limit is passed within five years", Value: percent(o.line.ChanceAbove(in.Limit, ahead))},
		agreement(in, o),
		curveVerdict(in, o),
	)
	chart, err := fanChart(in, o)
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// reachVerdict says when a limit is reached, or why nobody can say.
func reachVerdict(name string, in Inputs, o outlook, c wear.Crossing, law string) notebook.Verdict {
	limit := depthOf(in.Limit)
	day := func(clock unit.Time) string { return month(o.dayAt(clock, in.LikelyUse)) }
	v := notebook.Verdict{Name: name, Tone: notebook.Note}
	past := c.At <= o.now.Hours && !math.IsInf(float64(c.At), 0)
	switch {
	case c.Kind == wear.Never:
		v.Tone, v.Text = notebook.Good, notebook.Say(law+" the limit of {} is never reached: the depth does not grow that far.", limit)
	case c.Kind == wear.Anytime:
		v.Tone, v.Text = notebook.Watch, notebook.Say(law+" these depths exclude no date for the limit of {}, nor that it is never reached. Measure again in a year.", limit)
	case c.Kind == wear.NotAfter, past:
		v.Tone, v.Text = notebook.Stop, notebook.Say(law+" the limit of {} has been reached already.", limit)
	case c.Kind == wear.NotBefore && math.IsInf(float64(c.At), 1):
		v.Text = notebook.Say(law+" the limit of {} is reached never, or not before "+day(c.Low)+": the depths do not show that the way is still wearing.", limit)
	case c.Kind == wear.NotBefore:
		v.Text = notebook.Say(law+" the limit of {} is reached never, or not before "+day(c.Low)+". The best guess is "+day(c.At)+", but the rate is too uncertain to promise that it is reached at all.", limit)
	case float64(c.Low) <= float64(o.now.Hours):
		v.Tone, v.Text = notebook.Watch, notebook.Say(law+" the limit of {} may have been reached already, and is with 95 % by "+day(c.High)+"; most likely in "+day(c.At)+".", limit)
	default:
		v.Text = notebook.Say(law+" the limit of {} is reached between "+day(c.Low)+" and "+day(c.High)+" with 95 %, most likely in "+day(c.At)+".", limit)
	}
	return v
}

// agreement says whether a straight line will do.
func agreement(in Inputs, o outlook) notebook.Verdict {
	v := notebook.Verdict{Name: "agreement", Tone: notebook.Good}
	switch {
	case len(o.depths) == 2:
		v.Tone, v.Text = notebook.Watch, notebook.Plain("Two depths give a line and nothing to judge it by. All that is known of its uncertainty is what you state for a depth.")
	case o.line.Agreement < 0.05:
		v.Tone, v.Text = notebook.Watch, notebook.Say("The depths do not keep to a straight line within {} (chance {}): something changed on the way, or a depth is less sure than you say. The forecast is not to be trusted.", notebook.Exact(in.DepthU, notebook.FineLengths).WithDigits(2), percent(o.line.Agreement))
	default:
		v.Text = notebook.Say("The depths keep to a straight line within {}.", notebook.Exact(in.DepthU, notebook.FineLengths).WithDigits(2))
	}
	return v
}

// curveVerdict says what a law that levels off would make of it.
func curveVerdict(in Inputs, o outlook) notebook.Verdict {
	if o.curve == nil {
		return notebook.Verdict{Name: "curve", Tone: notebook.Note, Text: notebook.Plain("Whether the wear is slowing down cannot be seen from depths at fewer than three clocks.")}
	}
	v := reachVerdict("curve", in, o, o.curveMet, "By a curve that may level off")
	if o.curveMet.Kind == wear.NotBefore && math.IsInf(float64(o.curveMet.At), 1) {
		v.Text = notebook.Say("By a curve that may level off the limit of {} is reached never, or not before "+month(o.dayAt(o.curveMet.Low, in.LikelyUse))+": the best curve levels off below it.", depthOf(in.Limit))
	}
	if o.curveMet.Kind == wear.Never {
		v.Text = notebook.Say("By a curve that may level off the limit of {} is not reached in sixty years.", depthOf(in.Limit))
	}
	v.Text = v.Text.And(notebook.Plain("It leaves open what the straight line takes for granted, that the rate stays what it is; the truth lies within the wider of the two."))
	return v
}

// fanChart draws the depths, the line with its fan, and the limit.
func fanChart(in Inputs, o outlook) (notebook.Chart, error) {
	dots := plot.Series{Label: "depths", Style: plot.Dots}
	for _, d := range in.Depths {
		dots.X, dots.Y, dots.U = append(dots.X, plot.Day(d.Day)), append(dots.Y, float64(d.Depth)), append(dots.U, float64(in.DepthU))
	}
	line := plot.Series{Label: "straight line", Style: plot.Curve}
	band := plot.Series{Label: "line, 95 %", Style: plot.Band}
	bent := plot.Series{Label: "curve that may level off, 95 %", Style: plot.Band}
	first := in.Depths[0]
	const parts = 24
	for i := 0; i <= parts; i++ {
		// Behind, the days run as they did from the first depth to the last;
		// ahead, at the likely use.
		t, day := first.Hours, first.Day
		if f := float64(i) / (parts / 3); i <= parts/3 {
			t += (o.now.Hours - first.Hours) * unit.Time(f)
			day = day.Add(time.Duration(f * float64(o.now.Day.Sub(first.Day))))
		} else {
			f := float64(i-parts/3) / (parts - parts/3)
			t = o.now.Hours + in.LikelyUse*2*horizon/year*unit.Time(f)
			day = o.dayAt(t, in.LikelyUse)
		}
		x := plot.Day(day)
		depth, _ := o.line.At(t)
		low, high := o.line.Interval(t, 0.95, 0)
		line.X, line.Y = append(line.X, x), append(line.Y, float64(depth))
		band.X, band.Low, band.High = append(band.X, x), append(band.Low, float64(low)), append(band.High, float64(high))
		if o.curve != nil {
			low, high := o.curve.Interval(t, 0.95, 0)
			bent.X, bent.Low, bent.High = append(bent.X, x), append(bent.Low, float64(low)), append(bent.High, float64(high))
		}
	}
	series := []plot.Series{dots, line, band}
	if o.curve != nil {
		series = append(series, bent)
	}
	return plot.XY{Name: "fan-chart", Title: "Depth of wear, behind and ahead",
		Caption: notebook.Plain("The fan holds the depth with 95 %. It opens with every year ahead; the date at which it meets the limit is a range, not a day."),
		X:       plot.Axis{Label: "Date, at the likely hours a year", Dates: true}, Y: plot.Axis{Label: "Depth of wear", Show: notebook.FineLengths},
		Series: series, Limits: []plot.Limit{{Label: "limit", Y: float64(in.Limit)}}}.Chart()
}

// useItems adds the dates for less and more use.
func useItems(s *notebook.Sheet, in Inputs, o outlook) error {
	t := notebook.Table{Name: "use-table", Title: "When the limit is reached, by how much the machine runs",
		Columns: []notebook.Column{notebook.ColIn("Hours a year", notebook.Hours), notebook.Col("Earliest"), notebook.Col("Most likely"), notebook.Col("Latest")},
		Note:    notebook.Plain("The wear goes by hours. A machine that stands half the week reaches its limit in twice the years.")}
	for _, use := range []unit.Time{in.LeastUse, in.LikelyUse, in.MostUse} {
		cell := func(clock unit.Time) notebook.Cell {
			switch {
			case math.IsInf(float64(clock), 1):
				return notebook.Str("never")
			case math.IsInf(float64(clock), -1), clock <= o.now.Hours:
				return notebook.Str("already")
			}
			return notebook.Str(month(o.dayAt(clock, use)))
		}
		row := []notebook.Cell{notebook.Val(notebook.Stepped(use, 1*hour, notebook.Hours)), cell(o.reach.Low), cell(o.reach.At), cell(o.reach.High)}
		if o.reach.Kind == wear.Never || o.reach.Kind == wear.Anytime {
			word := "never"
			if o.reach.Kind == wear.Anytime {
				word = "not known"
			}
			row = []notebook.Cell{row[0], notebook.Str(word), notebook.Str(word), notebook.Str(word)}
		}
		t.Rows = append(t.Rows, row)
	}
	s.Add(t)
	return nil
}
