package survey

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
)

// suspectItems adds which reading looks wrong, and the readings that fit worst.
func (o outcome) suspectItems(s *notebook.Sheet) error {
	s.Add(o.suspectVerdict(), o.worstTable(), o.uncheckedFigure())
	return nil
}

// suspectVerdict proposes what to read again. Nothing has been left out.
func (o outcome) suspectVerdict() notebook.Verdict {
	a := o.adjustment
	suspects := a.Suspects()
	if len(suspects) == 0 {
		return notebook.Verdict{Name: "suspect", Tone: notebook.Good, Text: notebook.Say(
			"No reading stands out: none is further from what the others say than chance explains. The worst is {} times its own doubt away; a reading is suspected from {} on.",
			notebook.Stepped(math.Abs(a.Readings[worstOf(a)[0]].Test), 0.1, notebook.Numbers), notebook.Stepped(3.29, 0.01, notebook.Numbers))}
	}
	v := notebook.Verdict{Name: "suspect", Tone: notebook.Watch}
	for _, suspect := range suspects[:min(len(suspects), 3)] {
		r := a.Readings[suspect.Reading]
		if r.Prior {
			v.Text = v.Text.And(notebook.Plain("Not a reading but an assumption stands out: the " + r.Observation + ". The machine bends there more than the curve is allowed to."))
			continue
		}
		v.Text = v.Text.And(notebook.Say("Read again: the "+placeOf(r)+" shows {}; the others say that it is {u} too high.",
			tidied(r.Value, r.Kind), notebook.Of(suspect.Error, suspect.ErrorU, pairOf(r.Kind))))
		for _, other := range suspect.OrElse {
			twin := a.Readings[other]
			v.Text = v.Text.And(notebook.Plain("It may as well be the " + placeOf(twin) + ": an error in either would look the same."))
		}
	}
	v.Text = v.Text.And(notebook.Plain("Nothing has been left out of the answer. Go back to the machine first; a reading is struck out only when it is read again."))
	return v
}

// placeOf says which reading it is by what the form shows: the row of its table,
// and the column where a row holds several.
func placeOf(r squaring.ReadingResult) string {
	number := r.Number - 1
	switch kind, row, _ := strings.Cut(r.Observation, " "); kind {
	case "sweep":
		place := "closing reading"
		if number < 8 {
			place = fmt.Sprintf("reading at %d°", 45*number)
		}
		return fmt.Sprintf("sweep in row %s, %s,", row, place)
	case "level":
		column := []string{"along", "along, turned", "across", "across, turned"}[number%4]
		return fmt.Sprintf("level in row %d, %s,", number/4+1, column)
	}
	return fmt.Sprintf("%s, reading %d,", r.Observation, r.Number)
}

// worstOf returns the places of the readings that can be tested, the worst fit
// first.
func worstOf(a *squaring.Adjustment) []int {
	var order []int
	for i, r := range a.Readings {
		if !r.Prior {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(i, j int) bool {
		return math.Abs(a.Readings[order[i]].Test) > math.Abs(a.Readings[order[j]].Test)
	})
	return order
}

// worstTable lists the readings that fit worst.
func (o outcome) worstTable() notebook.Table {
	table := notebook.Table{Name: "worst", Title: "The readings that fit worst",
		Columns: []notebook.Column{notebook.Col("Reading"), notebook.Col("Reading less the machine's"), notebook.Col("Times its doubt"),
			notebook.Col("Checked by others"), notebook.Col("An error shows from")},
		Note: notebook.Plain("\"Checked by others\" is the share of an error in the reading that shows in its own misfit. Where it is small the reading is hardly checked, and only a large error would be noticed.")}
	for _, i := range worstOf(o.adjustment)[:min(6, len(worstOf(o.adjustment)))] {
		r := o.adjustment.Readings[i]
		shows := notebook.Str("never")
		if !math.IsInf(r.Detectable, 0) {
			shows = notebook.Val(tidied(r.Detectable, r.Kind))
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(strings.TrimSuffix(placeOf(r), ",")), notebook.Val(tidied(r.Residual, r.Kind)),
			notebook.Val(notebook.Stepped(r.Test, 0.1, notebook.Numbers)), notebook.Val(notebook.Quantity{SI: r.Redundancy, Show: notebook.Percents, Step: 0.01}), shows})
	}
	return table
}

// uncheckedFigure counts the readings that nothing checks.
func (o outcome) uncheckedFigure() notebook.Figure {
	unchecked, all := 0, 0
	for _, r := range o.adjustment.Readings {
		if r.Prior {
			continue
		}
		all++
		if r.Redundancy < 0.1 {
			unchecked++
		}
	}
	return notebook.Figure{Name: "unchecked", Label: "Readings that hardly anything checks", Value: notebook.Whole(unchecked),
		Note: notebook.Say("Of {}: less than a tenth of an error in one of them would show.", notebook.Whole(all))}
}
