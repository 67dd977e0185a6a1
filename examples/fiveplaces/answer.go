package fiveplaces

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 1*squaring.Microradian, notebook.Slopes)
}
func of(m squaring.MeasuredSlope) notebook.Quantity {
	return notebook.Of(m.Slope, m.Uncertainty, notebook.Slopes)
}
func place(l unit.Length) notebook.Quantity { return notebook.Stepped(l, 1*mm, notebook.Lengths) }
func fine(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}

// at returns the tilt in x at a travel, on the straight line between the places
// swept; false beyond them.
func (w worked) at(travel unit.Length) (squaring.MeasuredSlope, bool) {
	for i := 1; i < len(w.places); i++ {
		a, b := w.places[i-1], w.places[i]
		if travel < a.travel || travel > b.travel {
			continue
		}
		t := float64((travel - a.travel) / (b.travel - a.travel))
		return squaring.MeasuredSlope{Slope: a.whole.Slope + squaring.Slope(t)*(b.whole.Slope-a.whole.Slope),
			Uncertainty: squaring.Slope(math.Hypot((1-t)*float64(a.whole.Uncertainty), t*float64(b.whole.Uncertainty)))}, true
	}
	return squaring.MeasuredSlope{}, false
}

// answerItems adds the tilt at the work, the split and the advice.
func answerItems(s *notebook.Sheet, in Inputs, w worked) error {
	here := notebook.Figure{Name: "here", Label: "Tilt in x where you will cut"}
	v := notebook.Verdict{Name: "answer", Tone: notebook.Watch}
	tilt, known := w.at(in.WorkAt)
	middle := w.places[w.middle]
	if !known {
		here.Unknown = "no sweep was taken on that side of it"
		v.Text = notebook.Say("You will cut with the table at {}, beyond the places swept. Sweep there.", place(in.WorkAt))
	} else {
		here.Value = of(tilt)
		here.Note = notebook.Say("On the straight line between the two nearest sweeps; with the table at {}.", place(in.WorkAt))
		size, doubt := squaring.Slope(math.Abs(float64(tilt.Slope))), 2*tilt.Uncertainty
		v.Text = notebook.Say("With the table at {} the sweep would show {u}; with it at {} it shows {u}. ", place(in.WorkAt), of(tilt), place(middle.travel), of(middle.whole))
		switch {
		case size-doubt > in.Limit:
			v.Tone, v.Text = notebook.Stop, append(v.Text, notebook.Say("That is beyond the {} that the work allows: sweep and set the head there, not in the middle.", slope(in.Limit))...)
		case size+doubt <= in.Limit:
			v.Tone, v.Text = notebook.Good, append(v.Text, notebook.Say("That is within the {} that the work allows.", slope(in.Limit))...)
		default:
			v.Text = append(v.Text, notebook.Say("Whether that is within {} lies inside the doubt: sweep there.", slope(in.Limit))...)
		}
	}
	s.Add(v, here, headVerdict(w), splitTable(w),
		notebook.Figure{Name: "top", Label: "Form of the top over the length of the bar", Value: notebook.Of(unit.Length(w.form.curve*w.half()*w.half()), unit.Length(w.form.curveU*w.half()*w.half()), notebook.FineLengths),
			Note: notebook.Plain("How far its ends stand above its middle, as a parabola; minus when the middle is high. Table run less ground bar.")},
		notebook.Caution{Name: "isolate", Text: notebook.Plain("Isolate the machine before a hand or a dial goes near the spindle, put the spindle in neutral and turn it by hand. Take the dial out before the machine is switched on. Hold the head up before you slacken its bolts.")},
	)
	return viewDrawing(s)
}

// half is half the length over which run and bar overlap.
func (w worked) half() float64 {
	x := w.form.travel
	return (x[len(x)-1] - x[0]) / 2
}

// headVerdict says what a spanner can cure.
func headVerdict(w worked) notebook.Verdict {
	low, high := w.places[0].whole.Slope, w.places[0].whole.Slope
	for _, p := range w.places {
		low, high = min(low, p.whole.Slope), max(high, p.whole.Slope)
	}
	return notebook.Verdict{Name: "spanner", Tone: notebook.Note, Text: notebook.Say("A spanner moves all places alike. They lie {} apart, so the best that one setting can do for all of them is {} either way, with the head turned until mid-table shows {}.",
		slope(high-low), slope((high-low)/2), slope(w.places[w.middle].whole.Slope-(high+low)/2))}
}

// splitTable lists the shares by place.
func splitTable(w worked) notebook.Table {
	t := notebook.Table{Name: "split", Title: "What the sweep saw, parted",
		Columns: []notebook.Column{notebook.ColIn("Table at", notebook.Lengths), notebook.ColIn("Sweep, x", notebook.Slopes), notebook.ColIn("Head", notebook.Slopes),
			notebook.ColIn("Ways", notebook.Slopes), notebook.ColIn("Top", notebook.Slopes), notebook.ColIn("Sweep, y", notebook.Slopes)},
		Note: notebook.Plain("Head: what the sweep nearest to mid-travel shows, so head and level of the table together. Ways and top: what has changed since.")}
	for i, p := range w.places {
		cell := notebook.Val(place(p.travel))
		if i == w.middle {
			cell = cell.Marked("middle")
		}
		t.Rows = append(t.Rows, []notebook.Cell{cell, notebook.Val(of(p.whole)), notebook.Val(of(p.head)), notebook.Val(of(p.ways)), notebook.Val(of(p.top)), notebook.Val(of(p.wholeY))})
	}
	return t
}

// viewDrawing draws what the sweep and the run each see.
func viewDrawing(s *notebook.Sheet) error {
	c := drawing.New("views", "What each of them sees", "Left, a sweep: the dial turns with the spindle over a table that leans on its ways. Right, a table run: the spindle stands still and the table moves under the dial.", 420, 250)
	for i, x := range []float64{105, 315} {
		tip := drawing.Point{X: x, Y: 110}
		c.Spindle(tip, 44, 80, 0)
		c.TableFront(drawing.Point{X: x - 92, Y: 178}, drawing.Point{X: x + 92, Y: 190 - 24*float64(i)}, 14)
		if i == 0 {
			c.Line(drawing.Marked, drawing.Point{X: x - 62, Y: 122}, drawing.Point{X: x + 62, Y: 122})
			c.Line(drawing.Thin, drawing.Point{X: x - 62, Y: 122}, drawing.Point{X: x - 62, Y: 176})
			c.Line(drawing.Thin, drawing.Point{X: x + 62, Y: 122}, drawing.Point{X: x + 62, Y: 184})
		} else {
			c.Line(drawing.Marked, tip, drawing.Point{X: x, Y: 170})
			c.Arrow(drawing.Visible, drawing.Point{X: x + 24, Y: 150}, drawing.Point{X: x + 84, Y: 150})
		}
		c.Words(drawing.Point{X: x, Y: 244}, drawing.Middle, [2]string{"head, ways, top", "ways and top"}[i])
		c.Words(drawing.Point{X: x, Y: 16}, drawing.Middle, [2]string{"sweep", "table run"}[i])
	}
	item, err := c.Item(notebook.Plain("The sweep compares both sides of the spindle at one place: it sees slope. The run compares one point with itself as the table goes by: it sees height, and never the head."))
	if err != nil {
		return err
	}
	s.Add(item)
	return nil
}

// chartItems adds tilt by place, the shares, and the two runs.
func chartItems(s *notebook.Sheet, in Inputs, w worked) error {
	var travel, x, xu, y, yu []float64
	var names []string
	parts := [3]plot.BarSeries{{Label: "head"}, {Label: "ways"}, {Label: "top"}}
	for _, p := range w.places {
		travel = append(travel, float64(p.travel))
		x, xu = append(x, float64(p.whole.Slope)), append(xu, float64(p.whole.Uncertainty))
		y, yu = append(y, float64(p.wholeY.Slope)), append(yu, float64(p.wholeY.Uncertainty))
		names = append(names, fmt.Sprintf("%.0f mm", float64(p.travel/mm)))
		for i, m := range []squaring.MeasuredSlope{p.head, p.ways, p.top} {
			parts[i].Values = append(parts[i].Values, float64(m.Slope))
		}
	}
	slopes := plot.Axis{Label: "Tilt", Show: notebook.Slopes}
	along := plot.Axis{Label: "Table at", Show: notebook.Lengths}
	tilts, err := plot.XY{Name: "tilts", Title: "One head, swept at several places",
		Caption: notebook.Say("Nothing but the table was moved between the sweeps. Lines: the limit of {}.", slope(in.Limit)),
		X:       along, Y: slopes, Series: []plot.Series{{Label: "x", Style: plot.Line, X: travel, Y: x, U: xu}, {Label: "y", Style: plot.Line, X: travel, Y: y, U: yu}},
		Limits: []plot.Limit{{Label: "limit", Y: float64(in.Limit)}, {Label: "limit", Y: -float64(in.Limit)}}}.Chart()
	if err != nil {
		return err
	}
	shares, err := plot.Bars{Name: "shares", Title: "Whose tilt it is", What: "Table at", Groups: names, Stacked: true, Horizontal: true,
		Caption: notebook.Plain("The three shares of the tilt in x at each place. Only the head's can be cured with a spanner."), Value: slopes, Series: parts[:]}.Chart()
	if err != nil {
		return err
	}
	runs, err := plot.XY{Name: "runs", Title: "Table run and ground bar",
		Caption: notebook.Say("Both with the line through their ends taken out. The run sees travel and top, the bar rolled over the travel alone. The run bows by {}.", fine(unit.Length(deepest(w.form.run)))),
		X:       along, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths},
		Series: []plot.Series{{Label: "run on the top", Style: plot.Line, X: w.form.travel, Y: w.form.run}, {Label: "bar: travel alone", Style: plot.Line, X: w.form.travel, Y: w.form.motion}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(tilts, shares, runs)
	return nil
}

// deepest returns the largest departure from zero.
func deepest(heights []float64) float64 {
	most := 0.0
	for _, h := range heights {
		most = math.Max(most, math.Abs(h))
	}
	return most
}
