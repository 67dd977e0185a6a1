package bubble

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// part is what the motion does to a part of the given length: where it lies, and
// in other places along the table.
type part struct {
	here wear.Spot
	// spots are evenly spread from as far left as the part can lie to as far
	// right; flattest is the one with the least bow.
	spots    []wear.Spot
	flattest wear.Spot
}

// tried is how many places along the table the part is tried at; every third of
// them is shown.
const tried, shown = 13, 3

// partOf finds the bow of the part here and elsewhere from one map of the table.
func partOf(in Inputs, latest survey) (part, error) {
	table, err := wear.MapTable(latest.along.SlopePoints(), in.Bearing)
	if err != nil {
		return part{}, err
	}
	from, to := table.Run()
	middle := (from + to) / 2 // where the head is set does not bear on the bow
	var p part
	if p.spots, err = table.Spots(in.PartLength, middle, tried); err != nil {
		return part{}, notebook.InField("part-length", err)
	}
	if p.here, err = table.Spot(in.PartPlace, in.PartLength, middle); err != nil {
		return part{}, notebook.InField("part-place", err)
	}
	p.flattest = p.spots[0]
	for _, s := range p.spots {
		if math.Abs(float64(s.Bow)) < math.Abs(float64(p.flattest.Bow)) {
			p.flattest = s
		}
	}
	return p, nil
}

// partItems adds the bow of the part and the best place for it.
func partItems(s *notebook.Sheet, in Inputs, p part) error {
	s.Add(notebook.Figure{Name: "part-bow", Label: "Bow of the part where it lies",
		Value: notebook.Of(p.here.Bow, p.here.BowU, notebook.FineLengths),
		Note:  notebook.Say("Over {} with its middle at u = {}. Plus: high in the middle.", place(in.PartLength), place(in.PartPlace))},
		notebook.Verdict{Name: "part", Tone: shapeTone(p.here.Bow, p.here.BowU), Text: bowSentence(in, p.here)},
		notebook.Verdict{Name: "best-place", Tone: notebook.Note,
			Text: notebook.Say("A part of {} comes out flattest with its middle at u = {}: its bow there is {u}.",
				place(in.PartLength), place(p.flattest.Place), notebook.Of(p.flattest.Bow, p.flattest.BowU, notebook.FineLengths))},
		placesTable(p))
	return nil
}

// placesTable lists the bow by place, from left to right.
func placesTable(p part) notebook.Table {
	t := notebook.Table{Name: "bow-places", Title: "Bow of the part, by place on the table",
		Columns: []notebook.Column{notebook.ColIn("Middle of the part u", notebook.Lengths), notebook.ColIn("Bow", notebook.FineLengths)},
		Note:    notebook.Plain("Plus: the part comes out high in its middle.")}
	for i := 0; i < len(p.spots); i += shown {
		s := p.spots[i]
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(s.Place)), notebook.Val(notebook.Of(s.Bow, s.BowU, notebook.FineLengths))})
	}
	return t
}

func bowSentence(in Inputs, b wear.Spot) notebook.Text {
	bow := notebook.Of(unit.Length(math.Abs(float64(b.Bow))), b.BowU, notebook.FineLengths)
	length, at := place(in.PartLength), place(in.PartPlace)
	switch {
	case math.Abs(float64(b.Bow)) < 2*float64(b.BowU):
		return notebook.Say("A part of {} with its middle at u = {} comes out straight as far as these readings can tell: its bow is {u}.", length, at, bow)
	case b.Bow > 0:
		return notebook.Say("A part of {} with its middle at u = {} comes out {u} high in its middle: the table sinks there and the cutter takes less.", length, at, bow)
	}
	return notebook.Say("A part of {} with its middle at u = {} comes out {u} low in its middle: the table rises there and the cutter takes more.", length, at, bow)
}
