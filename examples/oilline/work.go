package oilline

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// pullItems adds the use book and whether more oil by the pump explains it.
func pullItems(s *notebook.Sheet, in Inputs, f found) error {
	t := notebook.Table{Name: "use-table", Title: "The use book", Columns: []notebook.Column{
		notebook.Col("Year"), notebook.ColIn("Under power", notebook.Hours), notebook.Col("Pulls"), notebook.Col("Pulls an hour")}}
	var before, after, hoursBefore, hoursAfter float64
	for _, y := range in.Use {
		hours := float64(y.Hours / hour)
		rate := notebook.Str("–")
		if hours > 0 {
			rate = notebook.Val(notebook.Stepped(float64(y.Pulls)/hours, 0.01, notebook.Numbers))
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(fmt.Sprint(y.Year)), notebook.Val(notebook.Stepped(y.Hours, hour, notebook.Hours)), notebook.Val(notebook.Whole(y.Pulls)), rate})
		switch from, to := f.clock.span(y.Year); {
		case !to.After(in.Event):
			before, hoursBefore = before+float64(y.Pulls), hoursBefore+hours
		case !from.Before(in.Event):
			after, hoursAfter = after+float64(y.Pulls), hoursAfter+hours
		}
	}
	s.Add(t)
	v := notebook.Verdict{Name: "pulls", Tone: notebook.Note}
	if hoursBefore == 0 || hoursAfter == 0 {
		v.Text = notebook.Plain("The use book has no whole year on both sides of the day, so the pulls cannot be compared.")
	} else {
		pull := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.01, notebook.Numbers) }
		v.Text = notebook.Say("The pump was pulled {} times an hour in the whole years before and {} in those after. It feeds both ways, so if pulling cured the wear the rear way would have slowed as well; its rate changed by {u}.",
			pull(before/hoursBefore), pull(after/hoursAfter), notebook.Of(f.rearEvent.Change, f.rearEvent.ChangeU, f.clock.rates()))
	}
	s.Add(v)
	return nil
}

// workItems adds what the wear does to the work and what was spared.
func workItems(s *notebook.Sheet, in Inputs, f found) error {
	last := f.front[0].Clock
	for _, r := range f.front {
		last = max(last, r.Clock)
	}
	run := float64(last - f.event)
	spared := unit.Length(-float64(f.frontEvent.Change) * run)
	sparedU := unit.Length(float64(f.frontEvent.ChangeU) * run)
	front, frontU := f.frontEvent.Depth(last)
	rear, rearU := f.rearEvent.Depth(last)
	lean := wear.Slope((front - rear) / in.Apart)
	leanU := wear.Slope(math.Hypot(float64(frontU), float64(rearU)) / float64(in.Apart))
	without := lean + wear.Slope(spared/in.Apart)
	later := last + 1000*hour
	if f.clock.calendar {
		later = last + 3*unit.Time(notebook.Year.Scale)
	}
	bent := front + unit.Length(float64(f.frontEvent.After)*float64(later-last))
	bentU := unit.Length(math.Hypot(float64(frontU), float64(f.frontEvent.AfterU)*float64(later-last)))
	straight, straightU := f.straight.At(later)
	s.Add(
		notebook.Figure{Name: "spared", Label: "Wear spared on the front way since", Value: notebook.Of(spared, sparedU, notebook.FineLengths),
			Note: notebook.Say("Over {} since the day.", notebook.Exact(unit.Time(run), f.clock.times()))},
		notebook.Figure{Name: "lean", Label: "Lean of the table to the front, from the two depths", Value: notebook.Of(lean, leanU, notebook.Slopes),
			Note: notebook.Say("Front deeper than rear by {u}, over {}. Without the clearing it would be {}.", notebook.Of(front-rear, unit.Length(math.Hypot(float64(frontU), float64(rearU))), notebook.FineLengths), notebook.Stepped(in.Apart, 1*mm, notebook.Lengths), notebook.Of(without, leanU, notebook.Slopes))},
		notebook.Figure{Name: "ahead-bent", Label: "Front way some time ahead, by the bent line", Value: notebook.Of(bent, bentU, notebook.FineLengths),
			Note: notebook.Say("After {} more at the rate since the day.", notebook.Exact(later-last, f.clock.times()))},
		notebook.Figure{Name: "ahead-straight", Label: "The same by one straight line through everything", Value: notebook.Of(straight, straightU, notebook.FineLengths),
			Note: straightNote(f)},
	)
	return nil
}

// straightNote says whether one line could stand for all the depths.
func straightNote(f found) notebook.Text {
	if f.straight.Agreement < 0.05 {
		return notebook.Say("The depths scatter too much about it for their uncertainty (chance {}): it is the wrong law.", percent(f.straight.Agreement))
	}
	return notebook.Say("The depths do not contradict it (chance {}).", percent(f.straight.Agreement))
}

// checkItems adds the checks against published values.
func checkItems(s *notebook.Sheet) error {
	for _, c := range []struct {
		name, row string
		spelling  wear.Spelling
	}{{"check-with-three", "law-with-three", wear.WithThree}, {"check-without-three", "law-without-three", wear.WithoutThree}} {
		k, err := wear.FactorFromCoefficient(7e-3, 1.176e9*unit.Pascal, c.spelling)
		if err != nil {
			return err
		}
		s.Add(notebook.CheckRow(c.name, c.row, float64(k.Volume(100*unit.Newton, 1000*unit.Metre))*1e9))
	}
	var six []wear.MeasuredDepth
	year := unit.Time(notebook.Year.Scale)
	for i, t := range []unit.Time{0, 1.5, 3, 4, 6, 8} {
		six = append(six, wear.MeasuredDepth{Clock: t * year, Depth: unit.Length([]float64{2.0, 6.1, 8.7, 12.2, 16.1, 22.4}[i]) * um})
	}
	line, err := wear.ForecastLine(six)
	if err != nil {
		return err
	}
	reach, err := line.Reach(30*um, 0.95, 0)
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-line", "fieller-at", float64(reach.At/year)))
	return nil
}
