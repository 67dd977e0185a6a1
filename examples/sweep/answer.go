package sweep

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// spans shows a slope as the shop says it over a span.
var spans = notebook.Pair{Metric: notebook.MillimetrePer300, Inch: notebook.InchPerFoot}

// slope, height and length are values without an uncertainty.
func slope(s squaring.Slope) notebook.Quantity {
	return notebook.Stepped(s, 1*squaring.Microradian, notebook.Slopes)
}
func height(l unit.Length) notebook.Quantity {
	return notebook.Stepped(l, 0.1*um, notebook.FineLengths)
}
func length(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths) }
func angle(a unit.Angle) notebook.Quantity {
	return notebook.Stepped(a, 1*squaring.Degree, notebook.Angles)
}

// number is a pure number with n significant digits.
func number(x float64, digits int) notebook.Quantity {
	return notebook.Exact(x, notebook.Numbers).WithDigits(digits)
}

// answerItems adds the tilt and what it rests on.
func answerItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	half, err := sweep.Expanded(0.95)
	if err != nil {
		return err
	}
	steepest := sweep.Steepest()
	s.Add(
		notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: answerText(sweep, half)},
		notebook.Figure{Name: "tilt-x", Label: "Tilt across the machine, x", Value: notebook.Of(sweep.Tilt.X, sweep.TiltU.X, notebook.Slopes),
			Note: notebook.Say("Table slope less spindle tilt; plus when the table looks high on the right. 95 times in a hundred the true value lies within {} of it.", slope(half.X))},
		notebook.Figure{Name: "tilt-y", Label: "Tilt front to back, y", Value: notebook.Of(sweep.Tilt.Y, sweep.TiltU.Y, notebook.Slopes),
			Note: notebook.Say("Plus when the table looks high at the back. 95 times in a hundred the true value lies within {} of it.", slope(half.Y))},
		notebook.Figure{Name: "steepest", Label: "Tilt in its steepest direction", Value: notebook.Of(steepest.Slope, steepest.Uncertainty, spans),
			Note: notebook.Say("Toward {}, the "+windOf(sweep.Tilt.Azimuth())+". Near zero this figure is always too large, since scatter alone makes some slope; the two tilts above are not.", angle(sweep.Tilt.Azimuth()))},
		limitVerdict(in, sweep, half),
		budgetTable(in, sweep),
	)
	return nil
}

// windOf names the direction of an azimuth in one of eight ways.
func windOf(azimuth unit.Angle) string {
	winds := [8]string{"right", "rear right", "rear", "rear left", "left", "front left", "front", "front right"}
	i := int(math.Round(float64(azimuth/(45*squaring.Degree)))) % 8
	return winds[(i+8)%8]
}

// answerText says the tilt in a sentence.
func answerText(sweep squaring.Sweep, half squaring.Gradient) notebook.Text {
	side := func(t, u, half squaring.Slope, plus, minus string) notebook.Text {
		switch {
		case t > half:
			return notebook.Say("the table is high on the "+plus+" by {u}", notebook.Of(t, u, notebook.Slopes))
		case t < -half:
			return notebook.Say("the table is high on the "+minus+" by {u}", notebook.Of(-t, u, notebook.Slopes))
		}
		return notebook.Say("between "+plus+" and "+minus+" these readings cannot tell it from square, {u}", notebook.Of(t, u, notebook.Slopes))
	}
	x := side(sweep.Tilt.X, sweep.TiltU.X, half.X, "right", "left")
	y := side(sweep.Tilt.Y, sweep.TiltU.Y, half.Y, "column side", "operator's side")
	text := append(notebook.Plain("Measured from the spindle, "), x...)
	text = append(append(text, notebook.Plain(", and ")...), y...)
	return append(text, notebook.Plain(".")...)
}

// limitVerdict sets both tilts against what the work allows.
func limitVerdict(in Inputs, sweep squaring.Sweep, half squaring.Gradient) notebook.Verdict {
	v := notebook.Verdict{Name: "limit-verdict"}
	within, beyond := true, false
	for _, axis := range [2][2]squaring.Slope{{sweep.Tilt.X, half.X}, {sweep.Tilt.Y, half.Y}} {
		size := squaring.Slope(math.Abs(float64(axis[0])))
		within = within && size+axis[1] <= in.Limit
		beyond = beyond || size-axis[1] > in.Limit
	}
	limit := slope(in.Limit)
	switch {
	case sweep.Doubt == squaring.Misread:
		v.Tone, v.Text = notebook.Stop, notebook.Say("Whether the tilt is within {} cannot be said before the reading named below is taken again.", limit)
	case beyond:
		v.Tone, v.Text = notebook.Stop, notebook.Say("The tilt is beyond the {} that the work allows, whatever the readings' doubt. Turn the head.", limit)
	case within:
		v.Tone, v.Text = notebook.Good, notebook.Say("Both tilts lie within {}, doubt included. Leave the head alone.", limit)
	default:
		v.Tone, v.Text = notebook.Watch, notebook.Say("The limit of {} lies inside the readings' doubt: they cannot say whether the head is good enough. Take more readings, a longer arm or a finer dial.", limit)
	}
	return v
}

// budgetTable splits the uncertainty by its sources.
func budgetTable(in Inputs, sweep squaring.Sweep) notebook.Table {
	cell := func(x squaring.Slope) notebook.Cell {
		return notebook.Val(notebook.Stepped(x, 0.1*squaring.Microradian, notebook.Slopes))
	}
	reading := "Rounding of the readings, and azimuth by eye"
	if sweep.Scatter >= sweep.Rounding && sweep.Redundancy > 0 {
		reading = fmt.Sprintf("Scatter of the readings, %d to spare", sweep.Redundancy)
	}
	return notebook.Table{Name: "budget", Title: "Where the uncertainty comes from",
		Columns: []notebook.Column{notebook.Col("Source"), notebook.ColIn("in x", notebook.Slopes), notebook.ColIn("in y", notebook.Slopes)},
		Rows: [][]notebook.Cell{
			{notebook.Str(reading), cell(sweep.FromReadings.X), cell(sweep.FromReadings.Y)},
			{notebook.Str("Gain, stylus, radius, hysteresis"), cell(sweep.FromScale.X), cell(sweep.FromScale.Y)},
			{notebook.Str("Together"), cell(sweep.TiltU.X), cell(sweep.TiltU.Y)},
		},
		Note: notebook.Say("Standard uncertainties; the last row is the root of the sum of squares. One reading is sure to {}; its rounding alone leaves {}.",
			height(sweep.ReadingU), height(sweep.Rounding)),
	}
}

// trustItems adds whether the readings hang together.
func trustItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	s.Add(trustVerdict(in, sweep), driftFigure(sweep), secondFigure(sweep), coverFigure(sweep), residualTable(in, sweep))
	return nil
}

// trustVerdict says what the residuals say.
func trustVerdict(in Inputs, sweep squaring.Sweep) notebook.Verdict {
	v := notebook.Verdict{Name: "trust", Tone: notebook.Watch}
	switch sweep.Doubt {
	case squaring.NoDoubt:
		v.Tone = notebook.Good
		v.Text = notebook.Say("The readings agree: they scatter by {} about one plane (standard deviation), and reading the dial in steps explains {}.",
			height(sweep.Scatter), height(sweep.Rounding))
	case squaring.Unchecked:
		v.Text = notebook.Plain("Three readings always fit a plane, so nothing checks these. Take eight: then a misread one can be named.")
	case squaring.TooFew:
		v.Text = notebook.Say("The readings disagree by {} and there are too few to tell which is wrong, or whether the table is not flat. Take eight.", height(sweep.Scatter))
	case squaring.Uneven:
		v.Text = notebook.Say("The readings leave the plane by {} (standard deviation), more than the {} of the dial's steps, and no single one is to blame. Look for dirt, a burr, a T-slot under the block, a table top that is not flat, or a loose arm.",
			height(sweep.Scatter), height(sweep.Rounding))
	case squaring.Misread:
		v.Tone = notebook.Stop
		v.Text = suspectText(in, sweep.Suspects[0])
	}
	return v
}

// suspectText names a misread reading or run, by number and azimuth.
func suspectText(in Inputs, suspect squaring.Suspect) notebook.Text {
	name, at := "The closing reading", []notebook.Quantity(nil)
	azimuth := func(number int) notebook.Quantity { return angle(in.Readings[number-1].Azimuth) }
	switch n := len(in.Readings); {
	case suspect.First <= n && suspect.Last > n:
		name, at = fmt.Sprintf("The run from reading %d, at {}, to the closing one", suspect.First), []notebook.Quantity{azimuth(suspect.First)}
	case suspect.Last > suspect.First:
		name = fmt.Sprintf("The run of readings %d to %d, from {} to {},", suspect.First, suspect.Last)
		at = []notebook.Quantity{azimuth(suspect.First), azimuth(suspect.Last)}
	case suspect.First <= n:
		name, at = fmt.Sprintf("Reading %d, at {},", suspect.First), []notebook.Quantity{azimuth(suspect.First)}
	}
	step := in.Division / 10
	return notebook.Say(name+" shows {}; the others say {}. Likely slip: "+string(suspect.Likely)+". Take it again. It is still in the answer above; without it the tilt would be {} in x and {} in y.",
		append(at, notebook.Stepped(suspect.Shown, step, notebook.FineLengths), notebook.Stepped(suspect.Expected, step, notebook.FineLengths),
			slope(suspect.Tilt.X), slope(suspect.Tilt.Y))...)
}

// driftFigure is what the closing reading says.
func driftFigure(sweep squaring.Sweep) notebook.Figure {
	f := notebook.Figure{Name: "drift", Label: "Drift of the dial over the turn"}
	if !sweep.Closed {
		f.Unknown = "there is no closing reading: a dial that slipped would look like a tilt"
		return f
	}
	f.Value = notebook.Of(sweep.Drift, sweep.Rounding*unit.Length(math.Sqrt2), notebook.FineLengths)
	f.Note = notebook.Plain("Closing reading less first. It has been taken out, a share for each reading in the order taken, and what it adds to the uncertainty is counted. If it is more than a division, find what moved and sweep again.")
	return f
}

// secondFigure is what repeats twice a turn.
func secondFigure(sweep squaring.Sweep) notebook.Figure {
	f := notebook.Figure{Name: "second", Label: "Table form, twice a turn"}
	if !sweep.Second.Known {
		f.Unknown = "it takes at least five readings, well spread"
		return f
	}
	f.Value = notebook.Of(sweep.Second.Amplitude, sweep.Second.Uncertainty, notebook.FineLengths)
	f.Note = notebook.Say("Half the height from hollow to ridge. Rounding alone makes about {}, so there is no ridge to speak of.", height(sweep.Second.Uncertainty*1.25))
	if sweep.Second.Amplitude > 2.5*sweep.Second.Uncertainty {
		f.Note = notebook.Say("Half the height from hollow to ridge, the ridge lying toward {}. Rounding alone makes about {}. It does not disturb the tilt of an even round of readings.",
			angle(sweep.Second.Ridge), height(sweep.Second.Uncertainty*1.25))
	}
	return f
}

// coverFigure says how well the azimuths cover the circle.
func coverFigure(sweep squaring.Sweep) notebook.Figure {
	return notebook.Figure{Name: "cover", Label: "Loss from uneven azimuths", Value: number(sweep.Dilution, 3),
		Note: notebook.Plain("How many times less sure the worst direction is than from an even round of as many readings. An even round has 1; beyond 10 the answer is a guess.")}
}

// residualTable lists every reading with what the plane says.
func residualTable(in Inputs, sweep squaring.Sweep) notebook.Table {
	t := notebook.Table{Name: "residuals", Title: "Reading by reading",
		Columns: []notebook.Column{notebook.Col("No."), notebook.ColIn("Azimuth", notebook.Angles), notebook.ColIn("Dial showed", notebook.FineLengths),
			notebook.ColIn("Plane says", notebook.FineLengths), notebook.ColIn("Left over, true height", notebook.FineLengths)},
		Note: notebook.Plain("What the plane says is in the dial's own units, drift included. What is left over is corrected for gain and stylus.")}
	for i, r := range in.Readings {
		plane, _ := sweep.Expect(r.Azimuth)
		if sweep.Closed {
			plane += (*in.Closing - in.Readings[0].Shown) * unit.Length(i) / unit.Length(len(in.Readings))
		}
		left := notebook.Val(height(sweep.Residuals[i]))
		for _, suspect := range sweep.Suspects {
			if i+1 >= suspect.First && i+1 <= suspect.Last {
				left.Mark = "read again"
			}
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(notebook.Whole(i + 1)), notebook.Val(angle(r.Azimuth)),
			notebook.Val(notebook.Stepped(r.Shown, in.indicator().Resolution(), notebook.FineLengths)), notebook.Val(height(plane)), left})
	}
	return t
}
