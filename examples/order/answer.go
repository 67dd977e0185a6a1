package order

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// fine is a length without an uncertainty, chance a probability.
func fine(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.FineLengths) }
func chance(p float64) notebook.Quantity {
	return notebook.Stepped(p, 0.001, notebook.Percents)
}

// answerItems adds the decision, the chance both ways and what to start.
func answerItems(s *notebook.Sheet, in Inputs, w worked) error {
	t := w.trials
	s.Add(
		decision(in, w),
		notebook.Figure{Name: "chance", Label: "Chance that a piece is good", Value: notebook.Of(t.Conforming, math.Max(t.ConformingU, 1e-4), notebook.Percents),
			Note: notebook.Say("From {} trials, the same each time; the uncertainty is what that number leaves open, not what you know of your shares.", notebook.Whole(t.Number))},
		notebook.Figure{Name: "law", Label: "The same, error taken as normal", Value: chance(w.forecast.Conforming),
			Note: notebook.Plain("By the root of the sum of squares.")},
		parting(w),
		notebook.Figure{Name: "error", Label: "Error of a piece", Value: notebook.Of(unit.Length(w.forecast.Mean), unit.Length(w.forecast.Uncertainty), notebook.FineLengths),
			Note: notebook.Say("95 of a hundred pieces between {} and {}, of {} allowed.", fine(unit.Length(t.Low)), fine(unit.Length(t.High)), fine(in.Limit))},
		startFigure(in, w),
	)
	return spreadChart(s, in, w)
}

// parting says whether the law and the trials part.
func parting(w worked) notebook.Verdict {
	a := w.forecast.Against(w.trials)
	worst := unit.Length(math.Max(a.Low, a.High))
	v := notebook.Verdict{Name: "parting", Tone: notebook.Good, Text: notebook.Say("Law and trials agree: the ends of the range that holds 95 of a hundred differ by {} at most, and {} would still be no more than half a unit in the first digit of the uncertainty.",
		fine(worst), fine(unit.Length(a.Tolerance)))}
	if !a.Agree {
		v.Tone, v.Text = notebook.Watch, notebook.Say("Law and trials part: the ends of the range that holds 95 of a hundred differ by {}, more than {}. The sum is not normal, mostly because one rectangular share rules. Believe the trials, and do not add these spreads by their squares elsewhere.",
			fine(worst), fine(unit.Length(a.Tolerance)))
	}
	return v
}

// decision says whether to take the order.
func decision(in Inputs, w worked) notebook.Verdict {
	p, doubt := w.trials.Conforming, 2*w.trials.ConformingU
	v := notebook.Verdict{Name: "decision", Tone: notebook.Stop, Text: notebook.Say("Refuse it as things stand, price the scrap, or send it out: {} of the pieces would be good, and you ask for {}.", chance(p), chance(in.Wanted))}
	best := math.Max(p, math.Max(most(w.forecast.Halved), most(w.forecast.Corrected)))
	switch {
	case p-doubt >= in.Wanted:
		v.Tone, v.Text = notebook.Good, notebook.Say("Take it: {} of the pieces would be good, and you ask for {}.", chance(p), chance(in.Wanted))
	case best >= in.Wanted:
		v.Tone, v.Text = notebook.Watch, notebook.Say("Not yet: {} of the pieces would be good, and you ask for {}. One improvement gets you there; it is named below.", chance(p), chance(in.Wanted))
	}
	return v
}

// most returns the largest of the values.
func most(values []float64) float64 {
	top := 0.0
	for _, v := range values {
		top = math.Max(top, v)
	}
	return top
}

// startFigure says how many to start with for the pieces ordered.
func startFigure(in Inputs, w worked) notebook.Figure {
	f := notebook.Figure{Name: "start", Label: "Pieces to start with"}
	p := w.trials.Conforming
	if p < 0.01 {
		f.Unknown = "hardly a piece would be good"
		return f
	}
	mean := float64(in.Pieces) / p
	f.Value = notebook.Whole(int(math.Ceil(mean - 1e-9)))
	f.Note = notebook.Say("For {} good ones, on the mean: the price has to carry the rest. A shared error spoils them all alike, so look at the first piece before the second.", notebook.Whole(in.Pieces))
	return f
}

// bins is the number of steps in which the trials are drawn.
const bins = 40

// spreadChart draws the trials, the normal law and the limits.
func spreadChart(s *notebook.Sheet, in Inputs, w worked) error {
	low, high := w.trials.Sorted[0], w.trials.Sorted[len(w.trials.Sorted)-1]
	pad := math.Max((high-low)*0.05, 0.1e-6)
	low, high = low-pad, high+pad
	step := (high - low) / bins
	counts := make([]float64, bins)
	for _, x := range w.trials.Sorted {
		counts[min(bins-1, int((x-low)/step))] += 100 / float64(w.trials.Number)
	}
	var x, trials, law []float64
	for i, c := range counts {
		at := low + (float64(i)+0.5)*step
		x, trials = append(x, at), append(trials, c/100)
		if u := w.forecast.Uncertainty; u > 0 {
			z := (at - w.forecast.Mean) / u
			law = append(law, step/u/math.Sqrt(2*math.Pi)*math.Exp(-z*z/2))
		}
	}
	series := []plot.Series{{Label: "trials", Style: plot.Line, X: x, Y: trials}}
	if law != nil && w.forecast.Uncertainty > step/4 {
		series = append(series, plot.Series{Label: "normal law", Style: plot.Curve, X: x, Y: law})
	}
	marks := []plot.Mark{{Label: "limit", X: float64(in.Limit)}}
	if in.Sides == eitherWay {
		marks = append(marks, plot.Mark{Label: "limit", X: -float64(in.Limit)})
	}
	chart, err := plot.XY{Name: "spread", Title: "How the pieces would come out",
		Caption: notebook.Say("Share of the pieces for each {} of error. {} lie beyond the limit.", fine(unit.Length(step)), chance(1-w.trials.Conforming)),
		X:       plot.Axis{Label: "Error", Show: notebook.FineLengths}, Y: plot.Axis{Label: "Share of pieces", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series: series, Marks: marks}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// shareItems adds the shares, drawn and listed, and what to improve.
func shareItems(s *notebook.Sheet, in Inputs, w worked) error {
	f := w.forecast
	t := notebook.Table{Name: "shares-table", Title: "Share by share",
		Columns: []notebook.Column{notebook.Col("Source"), notebook.ColIn("On the mean", notebook.FineLengths), notebook.ColIn("Standard uncertainty", notebook.FineLengths),
			notebook.ColIn("Part of the variance", notebook.Percents), notebook.ColIn("Good, spread halved", notebook.Percents), notebook.ColIn("Good, mean made zero", notebook.Percents)},
		Note: notebook.Plain("The parts sum to the whole. A negative part belongs to a share that counters another. Chances by the normal law."),
	}
	var names []string
	var means, spreads []float64
	for i, share := range w.order.Shares {
		name := share.Source
		if name == "" {
			name = fmt.Sprintf("Share %d", i+1)
		}
		part := notebook.Val(notebook.Stepped(f.Parts[i], 0.01, notebook.Percents))
		if i == f.Largest {
			part = part.Marked("largest")
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(name), notebook.Val(fine(unit.Length(share.Value))), notebook.Val(fine(unit.Length(share.Uncertainty()))),
			part, notebook.Val(chance(f.Halved[i])), notebook.Val(chance(f.Corrected[i]))})
		names = append(names, fmt.Sprintf("line %d", i+1))
		means, spreads = append(means, math.Abs(share.Value)), append(spreads, 2*share.Uncertainty())
	}
	chart, err := plot.Bars{Name: "shares-chart", Title: "What eats the tolerance", What: "Share", Groups: names, Horizontal: true, Stacked: true,
		Caption: notebook.Say("Each share's mean, and twice its standard uncertainty, of the {} allowed. Means add; spreads add by their squares, so they come to less than they look.", fine(in.Limit)),
		Value:   plot.Axis{Label: "Error", Show: notebook.FineLengths}, Series: []plot.BarSeries{{Label: "mean", Values: means}, {Label: "2 u", Values: spreads}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(t, chart, improveVerdict(w))
	return nil
}

// improveVerdict names what to improve first.
func improveVerdict(w worked) notebook.Verdict {
	f := w.forecast
	if f.Improve < 0 {
		return notebook.Verdict{Name: "improve", Tone: notebook.Note, Text: notebook.Plain("No single share, halved or corrected, betters the chance that can be seen.")}
	}
	share := w.order.Shares[f.Improve]
	if f.ByValue {
		return notebook.Verdict{Name: "improve", Tone: notebook.Note, Text: append(notebook.Plain(fmt.Sprintf("First: line %d, %q. ", f.Improve+1, share.Source)),
			notebook.Say("Its {} is the same on every piece, so it can be set off: that takes the chance from {} to {}.", fine(unit.Length(share.Value)), chance(f.Conforming), chance(f.Corrected[f.Improve]))...)}
	}
	return notebook.Verdict{Name: "improve", Tone: notebook.Note, Text: append(notebook.Plain(fmt.Sprintf("First: line %d, %q. ", f.Improve+1, share.Source)),
		notebook.Say("Halving its {} takes the chance from {} to {}.", fine(unit.Length(share.Uncertainty())), chance(f.Conforming), chance(f.Halved[f.Improve]))...)}
}

// inspectItems adds what measuring every piece does.
func inspectItems(s *notebook.Sheet, in Inputs, w worked) error {
	v := notebook.Verdict{Name: "inspect", Tone: notebook.Note}
	t := notebook.Table{Name: "guards", Title: "What the inspection lets through, by how far the limits are drawn in",
		Columns: []notebook.Column{notebook.ColIn("Limits drawn in by", notebook.FineLengths), notebook.ColIn("Sent, and should not be", notebook.Percents), notebook.ColIn("Kept back, and good", notebook.Percents)},
		Note:    notebook.Plain("Of all pieces made; error of the pieces taken as normal (JCGM 106, 9.5).")}
	if in.MeasureU == 0 {
		v.Text = notebook.Say("Nothing is measured, so {} of what is sent is beyond the limit.", chance(1-w.trials.Conforming))
	} else {
		r := w.trials.Risks
		v.Text = notebook.Say("Measured with {} of standard uncertainty and accepted up to {}: {} of all pieces are sent and should not be, {} are kept back and are good.",
			fine(in.MeasureU), fine(unit.Length(w.accept.High)), chance(r.Consumer), chance(r.Producer))
		for _, guard := range []float64{0, 0.5, 1, 1.64, 2} {
			accept, err := w.order.Tolerance.Accept(guard, float64(in.MeasureU))
			if err != nil || w.forecast.Uncertainty == 0 {
				continue
			}
			risks, err := w.order.Tolerance.GlobalRisks(accept, w.forecast.Mean, w.forecast.Uncertainty, float64(in.MeasureU))
			if err != nil {
				return err
			}
			t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(fine(unit.Length(guard) * in.MeasureU)), notebook.Val(chance(risks.Consumer)), notebook.Val(chance(risks.Producer))})
		}
	}
	s.Add(v, t, notebook.Caution{Name: "clamp", Text: notebook.Plain("A loose parallel or a block that lifts is thrown by the cutter. If lifting is your largest share, cure the clamping before you cut the order, and never reach in to feel it with the spindle turning.")})
	return nil
}

// mythItems adds what people get wrong.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	worst := math.Abs(w.forecast.Mean)
	for _, share := range w.order.Shares {
		reach := share.Width
		if share.Spread == squaring.NormalSpread {
			reach *= 2
		} else if share.Spread == squaring.FixedSpread {
			reach = 0
		}
		worst += reach
	}
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-worst", notebook.Say("Added up at their worst the shares come to {}; nineteen pieces in twenty stay between {} and {}. Not all go wrong the same way at once, unless they hang together.",
			fine(unit.Length(worst)), fine(unit.Length(w.trials.Low)), fine(unit.Length(w.trials.High)))),
		note("wrong-mean", notebook.Say("The mean error is {}, the limit {}. What counts is how many pieces lie beyond: {}.",
			fine(unit.Length(w.forecast.Mean)), fine(in.Limit), chance(1-w.trials.Conforming))),
		note("wrong-small", notebook.Say("Three shares of {}, {} and {} together make {}. Do away with the smallest and it is still {}; halve the largest and it is {}.",
			fine(5*um), fine(3*um), fine(1*um), fine(unit.Length(math.Sqrt(35))*um), fine(unit.Length(math.Sqrt(34))*um), fine(unit.Length(math.Sqrt(6.25+10))*um))),
	)
	return nil
}
