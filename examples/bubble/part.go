package bubble

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// part is what the motion does to a part of the given length: where it lies, and
// in other places along the table.
type part struct {
	here   wear.Bow
	places []unit.Length
	bows   []wear.Bow
	// flattest is the index of the place with the least bow.
	flattest int
}

// tried is how many places along the table the part is tried at.
const tried = 13

// partOf finds the bow of the part here and elsewhere.
func partOf(in Inputs, latest survey) (part, error) {
	slopes := latest.along.SlopePoints()
	ends := spread(slopes, 2)
	if in.PartLength > ends[1]-ends[0] {
		_, err := wear.BowOfCut(slopes, in.Bearing, 0, in.PartLength)
		return part{}, notebook.InField("part-length", err)
	}
	var p part
	var err error
	if p.here, err = wear.BowOfCut(slopes, in.Bearing, in.PartPlace, in.PartLength); err != nil {
		return part{}, notebook.InField("part-place", err)
	}
	room := ends[1] - ends[0] - in.PartLength
	n := tried
	if room <= 0 {
		n = 1
	}
	for i := range n {
		at := (ends[0] + ends[1]) / 2
		if n > 1 {
			at = ends[0] + in.PartLength/2 + room*unit.Length(i)/unit.Length(n-1)
		}
		bow, err := wear.BowOfCut(slopes, in.Bearing, at, in.PartLength)
		if err != nil {
			return part{}, notebook.InField("part-length", err)
		}
		if p.places, p.bows = append(p.places, at), append(p.bows, bow); math.Abs(float64(bow.Value)) < math.Abs(float64(p.bows[p.flattest].Value)) {
			p.flattest = i
		}
	}
	return p, nil
}

// partItems adds the bow of the part and the best place for it.
func partItems(s *notebook.Sheet, in Inputs, p part) error {
	best := p.bows[p.flattest]
	s.Add(notebook.Figure{Name: "part-bow", Label: "Bow of the part where it lies",
		Value: notebook.Of(p.here.Value, p.here.U, notebook.FineLengths),
		Note:  notebook.Say("Over {} with its middle at u = {}. Plus: high in the middle.", place(in.PartLength), place(in.PartPlace))},
		notebook.Verdict{Name: "part", Tone: shapeTone(p.here.Value, p.here.U), Text: bowSentence(in, p.here)},
		notebook.Verdict{Name: "best-place", Tone: notebook.Note,
			Text: notebook.Say("A part of {} comes out flattest with its middle at u = {}: its bow there is {u}.",
				place(in.PartLength), place(p.places[p.flattest]), notebook.Of(best.Value, best.U, notebook.FineLengths))})
	x, y, u := make([]float64, len(p.bows)), make([]float64, len(p.bows)), make([]float64, len(p.bows))
	for i, b := range p.bows {
		x[i], y[i], u[i] = float64(p.places[i]), float64(b.Value), float64(b.U)
	}
	chart, err := plot.XY{Name: "bow-chart", Title: "Bow of the part, by place on the table",
		Caption: notebook.Plain("Plus: the part comes out high in its middle. One standard uncertainty either way."),
		X:       plot.Axis{Label: "Middle of the part u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Bow", Show: notebook.FineLengths},
		Series: []plot.Series{{Label: "bow of the part", Style: plot.Line, X: x, Y: y, U: u}},
		Limits: []plot.Limit{{Label: "straight", Y: 0}}}.Chart()
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

func bowSentence(in Inputs, b wear.Bow) notebook.Text {
	bow := notebook.Of(unit.Length(math.Abs(float64(b.Value))), b.U, notebook.FineLengths)
	length, at := place(in.PartLength), place(in.PartPlace)
	switch {
	case math.Abs(float64(b.Value)) < 2*float64(b.U):
		return notebook.Say("A part of {} with its middle at u = {} comes out straight as far as these readings can tell: its bow is {u}.", length, at, bow)
	case b.Value > 0:
		return notebook.Say("A part of {} with its middle at u = {} comes out {u} high in its middle: the table sinks there and the cutter takes less.", length, at, bow)
	}
	return notebook.Say("A part of {} with its middle at u = {} comes out {u} low in its middle: the table rises there and the cutter takes more.", length, at, bow)
}
