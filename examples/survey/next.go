package survey

import (
	"fmt"
	"math"
	"slices"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// candidate is a reading that might be taken next: its words may hold one place.
type candidate struct {
	words string
	place *unit.Length
	squaring.Candidate
}

// candidates returns what may be read next, at the costs given.
func candidates(in Inputs) []candidate {
	again := in.again()
	var list []candidate
	for _, cost := range in.Costs {
		add := func(words string, at *unit.Length, observations ...squaring.Observation) {
			for i, observation := range observations {
				observations[i] = renamed(observation, fmt.Sprintf("next %d", len(list)+1))
			}
			list = append(list, candidate{words, at, squaring.Candidate{Name: words, Observations: observations, Minutes: float64(cost.Time) / 60}})
		}
		switch cost.Kind {
		case kindSweep, kindGauge:
			for _, x := range places(in) {
				if cost.Kind == kindSweep {
					add("a sweep at X = {}", &x, sweepAt(in, x))
				} else {
					add("the two-dial gauge turned half a turn at X = {}", &x, gaugeAt(in, x))
				}
			}
		case kindRun:
			for i, words := range []string{"the table run, front track", "the table run, middle track", "the table run, rear track"} {
				add(words, nil, runsOf(again)[i])
			}
		case kindBar:
			add("the ground bar, both ways", nil, barsOf(again)...)
		case kindLevel:
			add("the level, turned at each station", nil, levelOf(again)...)
		case kindSkim:
			add("a bar skimmed", nil, skimOf(again)...)
		case kindKnee:
			add("the square, both ways, in x and y", nil, kneeOf(again)...)
		case kindJaw:
			add("a run along the jaw", nil, jawOf(again)...)
		case kindHoles:
			add("four holes and their diagonals", nil, holesOf(again)...)
		}
	}
	return list
}

// places are the travels at which a sweep may be taken: the middle, the work and
// both ends of the part, each once.
func places(in Inputs) []unit.Length {
	list := []unit.Length{0}
	for _, x := range []unit.Length{-in.Place, -in.Place - in.Length/2, -in.Place + in.Length/2} {
		if !slices.Contains(list, x) {
			list = append(list, x)
		}
	}
	return list
}

// again returns the inputs with each empty table filled with places as the shop
// reads them, so that there is something to propose.
func (in Inputs) again() Inputs {
	demo := Defaults()
	if len(in.Run) == 0 {
		in.Run = demo.Run
	}
	if len(in.Bar) == 0 {
		in.Bar = demo.Bar
	}
	if len(in.Level) == 0 {
		in.Level = demo.Level
	}
	if len(in.Skim) == 0 {
		in.Skim = demo.Skim
	}
	if len(in.Knee) == 0 {
		in.Knee = demo.Knee
	}
	if len(in.Jaw) == 0 {
		in.Jaw = demo.Jaw
	}
	if len(in.Holes) == 0 {
		in.Holes = demo.Holes
	}
	return in
}

// renamed gives a repeated observation a set-up of its own: its dial is zeroed
// anew.
func renamed(observation squaring.Observation, name string) squaring.Observation {
	switch o := observation.(type) {
	case squaring.ObservedSweep:
		o.Name = name
		return o
	case squaring.ObservedTwoDial:
		o.Name = name
		return o
	case squaring.ObservedRun:
		o.Name = name + " " + o.Name
		return o
	case squaring.ObservedBar:
		o.Name = name + " " + o.Name
		return o
	case squaring.ObservedLevel:
		o.Name = name
		return o
	case squaring.ObservedSkim:
		o.Name = name
		return o
	case squaring.ObservedKnee:
		o.Name = name + " " + o.Name
		return o
	case squaring.ObservedJaw:
		o.Name = name
		return o
	case squaring.ObservedDiagonals:
		o.Name = name + " " + o.Name
		return o
	}
	return observation
}

func sweepAt(in Inputs, x unit.Length) squaring.Observation {
	o := squaring.ObservedSweep{Setup: squaring.Setup{Head: in.Head}, X: x, Radius: in.Radius, Drift: true, ReadingU: in.SweepU}
	for i := range 9 {
		o.Readings = append(o.Readings, squaring.SweepReading{Azimuth: unit.Angle(45*i) * squaring.Degree})
	}
	return o
}

func gaugeAt(in Inputs, x unit.Length) squaring.Observation {
	o := squaring.ObservedTwoDial{Setup: squaring.Setup{Head: in.Head}, Gauge: theGauge, X: x, Span: in.Span, ReadingU: in.GaugeU}
	for i := range 4 {
		o.Readings = append(o.Readings, squaring.TwoDialReading{Azimuth: unit.Angle(90*i) * squaring.Degree})
	}
	return o
}

// nextItems adds which reading to take next, and the next three.
func (o outcome) nextItems(s *notebook.Sheet) error {
	list := candidates(o.in)
	goal := goalOf(o.in)
	plain := make([]squaring.Candidate, len(list))
	for i, c := range list {
		plain[i] = c.Candidate
		plain[i].Name = fmt.Sprint(i)
	}
	ranked, err := o.adjustment.NextBest(plain, goal.Feature)
	if err != nil {
		return notebook.InField("costs", err)
	}
	plan, err := o.adjustment.Plan(plain, goal.Feature, 3)
	if err != nil {
		return notebook.InField("costs", err)
	}
	foretold, err := o.foretold(list, ranked)
	if err != nil {
		return notebook.InField("costs", err)
	}
	s.Add(o.nextVerdict(list, goal, ranked), foretold, nextTable("next", "What each reading would do for the "+o.in.Goal, list, ranked[:min(len(ranked), 8)]),
		nextTable("plan", "The next three, each the best after those before it", list, plan))
	return nil
}

// wordsOf returns a candidate's words with its place.
func wordsOf(c candidate) notebook.Text {
	if c.place == nil {
		return notebook.Plain(c.words)
	}
	return notebook.Say(c.words, place(*c.place))
}

// chosen returns the candidate that an answer is about.
func chosen(list []candidate, next squaring.NextReading) candidate {
	for i, c := range list {
		if next.Name == fmt.Sprint(i) {
			return c
		}
	}
	return candidate{}
}

func (o outcome) nextVerdict(list []candidate, goal feature, ranked []squaring.NextReading) notebook.Verdict {
	v := notebook.Verdict{Name: "next-best", Tone: notebook.Note}
	if len(ranked) == 0 {
		v.Text = notebook.Plain("You have named no reading that could be taken.")
		return v
	}
	best := ranked[0]
	took := notebook.Stepped(minutes(best.Minutes), 60, notebook.Minutes)
	after := sizeOf(best.After.U, goal.Kind)
	switch {
	case !(best.PerMinute > 0):
		v.Text = notebook.Plain("None of these readings would tell more of the " + o.in.Goal + ".")
	case math.IsInf(best.PerMinute, 1):
		v.Text = notebook.Plain("Nothing read so far tells the " + o.in.Goal + ". Take next:").And(wordsOf(chosen(list, best))).
			And(notebook.Say("({}). It leaves a standard uncertainty of {}.", took, after))
	default:
		v.Text = notebook.Plain("For the " + o.in.Goal + " take next:").And(wordsOf(chosen(list, best))).
			And(notebook.Say("({}). It brings the standard uncertainty from {} to {}, more for each minute than any other.", took, sizeOf(best.Before.U, goal.Kind), after))
	}
	return v
}

// foretold says what the best next reading should show, before it is taken: one
// reading of it less its first, in which the dial's zero drops out.
func (o outcome) foretold(list []candidate, ranked []squaring.NextReading) (notebook.Verdict, error) {
	v := notebook.Verdict{Name: "foretold", Tone: notebook.Note, Text: notebook.Plain("There is no next reading to foretell.")}
	if len(ranked) == 0 {
		return v, nil
	}
	next := chosen(list, ranked[0]).Observations[0]
	number, words, u := telling(next)
	if number < 2 {
		v.Text = notebook.Plain("What it will show cannot be foretold: it is one reading only.")
		return v, nil
	}
	e, err := o.adjustment.Predict(squaring.ReadingChange(next, number, 1))
	if err != nil {
		return v, err
	}
	if !e.Determined {
		v.Text = notebook.Plain("What it will show cannot be foretold: nothing read so far says enough about it.")
		return v, nil
	}
	v.Text = notebook.Say("Write down beforehand what it should show: "+words+" is {u}, its own errors counted in. Off by more than three times that doubt, it has found something new, or it is wrong.",
		notebook.Of(e.Value, math.Sqrt(e.U*e.U+2*u*u), pairOf(e.Kind)))
	return v, nil
}

// telling returns the number of the reading of a set that tells most when the
// first is taken off, the difference in words, and the standard uncertainty of one.
func telling(observation squaring.Observation) (number int, words string, u float64) {
	middle := func(n int, u unit.Length) (int, string, float64) {
		return n/2 + 1, fmt.Sprintf("reading %d less reading 1", n/2+1), float64(u)
	}
	switch o := observation.(type) {
	case squaring.ObservedSweep:
		return 5, "the reading at 180° less that at 0°", float64(o.ReadingU)
	case squaring.ObservedTwoDial:
		return 3, "turned half a turn less as marked", float64(o.ReadingU)
	case squaring.ObservedLevel:
		row := len(o.Readings) / 8
		return 4*row + 1, fmt.Sprintf("along in row %d less along in row 1", row+1), float64(o.ReadingU)
	case squaring.ObservedDiagonals:
		return 2, "the falling diagonal less the rising one", float64(o.ReadingU)
	case squaring.ObservedRun:
		return middle(len(o.Readings), o.ReadingU)
	case squaring.ObservedBar:
		return middle(len(o.Readings), o.ReadingU)
	case squaring.ObservedSkim:
		return middle(len(o.Readings), o.ReadingU)
	case squaring.ObservedKnee:
		return middle(len(o.Readings), o.ReadingU)
	case squaring.ObservedJaw:
		return middle(len(o.Readings), o.ReadingU)
	}
	return 1, "", 0
}

// sizeOf is an uncertainty by itself, to two digits.
func sizeOf(u float64, kind squaring.SurveyKind) notebook.Quantity {
	return notebook.Quantity{SI: u, Show: pairOf(kind), Digits: 2}
}

func nextTable(name, title string, list []candidate, ranked []squaring.NextReading) notebook.Table {
	table := notebook.Table{Name: name, Title: title, Columns: []notebook.Column{notebook.Col("Reading"), notebook.ColIn("At X", notebook.Lengths),
		notebook.ColIn("Takes", notebook.Minutes), notebook.Col("Doubt before"), notebook.Col("Doubt after")},
		Note: notebook.Plain("Doubt is the standard uncertainty. What the reading will show does not matter for it, so it is known beforehand.")}
	for _, next := range ranked {
		c := chosen(list, next)
		at := notebook.Str("")
		if c.place != nil {
			at = notebook.Val(place(*c.place))
		}
		words := c.words
		if c.place != nil {
			words = words[:len(words)-len(" at X = {}")]
		}
		doubt := func(e squaring.Estimate) notebook.Cell {
			if !e.Determined {
				return notebook.Str("not told")
			}
			return notebook.Val(sizeOf(e.U, e.Kind))
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(words), at, notebook.Val(notebook.Stepped(minutes(next.Minutes), 60, notebook.Minutes)),
			doubt(next.Before), doubt(next.After)})
	}
	return table
}
