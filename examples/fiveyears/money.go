package fiveyears

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
)

// money is an amount in the reader's own money, to three digits.
func money(x float64) notebook.Quantity {
	step := math.Pow(10, math.Floor(math.Log10(math.Max(math.Abs(x), 1)))-2)
	return notebook.Stepped(x, math.Max(step, 1), notebook.Numbers)
}

// yearsOf is a number of years.
func yearsOf(x float64) notebook.Quantity {
	return notebook.Stepped(x*float64(year), 0.1*float64(year), notebook.Same(notebook.Year))
}

// rebuildItems adds what a rebuild is worth.
func rebuildItems(s *notebook.Sheet, in Inputs, o outlook) error {
	w := o.worth
	s.Add(paysVerdict(in, w),
		notebook.Figure{Name: "worth", Label: "Worth of a rebuild today, in your money", Value: money(w.Worth),
			Note: notebook.Say("From the likely figures. The middle 95 % of 2000 draws of all the guesses runs from {} to {}.", money(w.Low), money(w.High))},
		breakEvenFigure(w),
		notebook.Figure{Name: "most-to-pay", Label: "Most to pay for it, in your money", Value: money(math.Max(w.MostToPay, 0)),
			Note: notebook.Plain("At this cost the likely figures come out even.")},
		stoppedVerdict(in, o),
	)
	chart, err := costChart(in, w)
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// paysVerdict says whether to spend.
func paysVerdict(in Inputs, w wear.RebuildWorth) notebook.Verdict {
	v := notebook.Verdict{Name: "pays"}
	kept := notebook.Say(fmt.Sprintf("within %d years in {} of 100 draws of the guesses.", in.Years), notebook.Stepped(100*w.Pays, 1, notebook.Numbers))
	switch {
	case w.Pays >= 0.8:
		v.Tone, v.Text = notebook.Good, notebook.Plain("Rebuild: it pays").And(kept)
	case w.Pays <= 0.2:
		v.Tone, v.Text = notebook.Stop, notebook.Plain("Do not rebuild yet: it pays").And(kept)
	default:
		v.Tone, v.Text = notebook.Watch, notebook.Plain("It may go either way: a rebuild pays").And(kept).And(notebook.Plain("Narrow the guess that is widest before you spend."))
	}
	return v
}

// breakEvenFigure is the year by which the cost is paid back.
func breakEvenFigure(w wear.RebuildWorth) notebook.Figure {
	f := notebook.Figure{Name: "break-even", Label: "Paid back after"}
	if math.IsInf(w.BreakEven, 1) {
		f.Unknown = "never, within the years that the machine is kept"
		return f
	}
	f.Value = yearsOf(w.BreakEven)
	if math.IsInf(w.BreakEvenHigh, 1) {
		f.Note = notebook.Say("From the likely figures; at the earliest after {}, at the worst never.", yearsOf(w.BreakEvenLow))
	} else {
		f.Note = notebook.Say("From the likely figures; the middle 95 % of the draws runs from {} to {}.", yearsOf(w.BreakEvenLow), yearsOf(w.BreakEvenHigh))
	}
	return f
}

// stoppedVerdict says what a rebuild would be worth if the wear had stopped.
func stoppedVerdict(in Inputs, o outlook) notebook.Verdict {
	v := notebook.Verdict{Name: "stopped", Tone: notebook.Note}
	depth, _ := o.line.At(o.now.Hours)
	switch {
	case depth <= in.Harmless:
		v.Text = notebook.Plain("If the wear stopped today a rebuild would never pay: what is worn now does no harm.")
	case math.IsInf(o.stopped.BreakEven, 1):
		v.Text = notebook.Say("If the wear stopped today a rebuild would not pay back within the years; it would then be worth {} in your money.", money(o.stopped.Worth))
	default:
		v.Text = notebook.Say("Even if the wear stopped today a rebuild would pay back after {}: what is worn now costs that much.", yearsOf(o.stopped.BreakEven))
	}
	return v
}

// costChart draws what has been spent by each year, left alone and rebuilt.
func costChart(in Inputs, w wear.RebuildWorth) (notebook.Chart, error) {
	x := make([]float64, len(w.With))
	for i := range x {
		x[i] = float64(i) * float64(year)
	}
	return plot.XY{Name: "cost-chart", Title: "Spent by the end of each year, in today's worth",
		Caption: notebook.Plain("In your money, resale not counted. The lines are the likely figures, the bands the middle 95 % of the draws. Where the lines cross the rebuild is paid back."),
		X:       plot.Axis{Label: "Years from now", Show: notebook.Same(notebook.Year)}, Y: plot.Axis{Label: "Spent, your money", Show: notebook.Numbers, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{
			{Label: "left alone", Style: plot.Line, X: x, Y: w.Without},
			{Label: "left alone, 95 %", Style: plot.Band, X: x, Low: w.WithoutLow, High: w.WithoutHigh},
			{Label: "rebuilt", Style: plot.Line, X: x, Y: w.With},
			{Label: "rebuilt, 95 %", Style: plot.Band, X: x, Low: w.WithLow, High: w.WithHigh},
		}}.Chart()
}
