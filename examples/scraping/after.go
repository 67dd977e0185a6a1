package scraping

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// sagPlaces is the number of places at which the sag is computed.
const sagPlaces = 41

// sag returns the straightedge's sag on supports at a distance from its ends, at
// even places, and the range of it.
func (in Inputs) sag(support unit.Length) (at, sag []unit.Length, spread unit.Length, err error) {
	beam := wear.Beam{Length: in.EdgeLength, Width: in.EdgeWidth, Height: in.EdgeHeight, Stiffness: ironStiffness, Density: ironDensity}
	at = make([]unit.Length, sagPlaces)
	for i := range at {
		at[i] = min(in.EdgeLength*unit.Length(i)/(sagPlaces-1), in.EdgeLength)
	}
	if sag, err = wear.BeamSag(beam, support, at); err != nil {
		return nil, nil, 0, err
	}
	low, high := sag[0], sag[0]
	for _, x := range sag {
		low, high = min(low, x), max(high, x)
	}
	return at, sag, high - low, nil
}

// edgeItems adds what the straightedge does by itself, and the count of points.
func (r result) edgeItems(s *notebook.Sheet) error {
	in := r.in
	_, _, own, err := in.sag(in.Support)
	if err != nil {
		return notebook.InField("support", err)
	}
	var series []plot.Series
	spans := map[string]unit.Length{}
	for _, hold := range []struct {
		name    string
		support unit.Length
	}{{"at its ends", 0}, {"Airy points", in.EdgeLength * wear.Airy}, {"Bessel points", in.EdgeLength * wear.Bessel}, {"where you hold it", in.Support}} {
		at, sag, spread, err := in.sag(hold.support)
		if err != nil {
			return err
		}
		spans[hold.name] = spread
		if hold.name == "at its ends" {
			continue // it would dwarf the others
		}
		line := plot.Series{Label: hold.name, Style: plot.Curve}
		for i := range at {
			line.X, line.Y = append(line.X, float64(at[i])), append(line.Y, -float64(sag[i]))
		}
		series = append(series, line)
	}
	chart, err := plot.XY{Name: "sag-chart", Title: "The straightedge under its own weight", Caption: notebook.Say("Height of its face above its supports. Held at its ends it would hang by {}.", tenth(spans["at its ends"])),
		X: plot.Axis{Label: "From its left end", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: series}.Chart()
	if err != nil {
		return err
	}
	tone := notebook.Good
	words := "Held at {} from its ends the straightedge is out by {} over its length; best at {}, where it is {}. It is no part of the plan."
	if own > in.Light {
		tone, words = notebook.Watch, "Held at {} from its ends the straightedge is out by {} over its length, more than a light pass: you would scrape that into the way. Hold it at {}, where it is {}."
	}
	spots := notebook.Figure{Name: "points", Label: "Points in a square inch", Value: notebook.Of(r.points.PerSquareInch, r.points.U, notebook.Numbers),
		Note: notebook.Say("As for: "+r.points.Class+" (common practice). From {} to {} in the squares: even counts more than many.", notebook.Stepped(r.points.Least, 1, notebook.Numbers), notebook.Stepped(r.points.Most, 1, notebook.Numbers))}
	spacing := notebook.Figure{Name: "spacing", Label: "Points stand apart by", Value: notebook.Stepped(r.spacing, 0.1*mm, notebook.Lengths), Note: notebook.Plain("On average: the side of each point's square.")}
	if r.spacing == 0 {
		spacing.Unknown = "no point was counted"
	}
	s.Add(chart, notebook.Verdict{Name: "edge", Tone: tone, Text: notebook.Say(words, place(in.Support), tenth(own), place(in.EdgeLength*wear.Bessel), tenth(spans["Bessel points"]))}, spots, spacing)
	return nil
}

// afterItems adds grinding, lining and overhang.
func (r result) afterItems(s *notebook.Sheet) error {
	g, l := r.grind, r.lining
	layer := notebook.Figure{Name: "layer", Label: "Left of the hard layer", Value: micron(g.Left), Note: notebook.Plain("At its thinnest. Zero or less: ground through, and the soft spot will wear first.")}
	through := notebook.Figure{Name: "through", Label: "Chance that the wear has gone through it already", Note: notebook.Plain("At the deepest place. Below the layer iron wears at its own, higher rate.")}
	if r.in.Layer > 0 {
		deepest := 0 * um
		for i := range r.ways.Places {
			deepest = max(deepest, r.ways.Front[i], r.ways.Rear[i])
		}
		chance, err := wear.ChanceThrough(deepest, r.in.DepthU, r.in.Layer, 0)
		if err != nil {
			return notebook.InField("layer", err)
		}
		through.Value = notebook.Stepped(chance, 0.01, notebook.Percents)
	} else {
		layer.Unknown, through.Unknown = "no hard layer is given", "no hard layer is given"
	}
	fit := notebook.Verdict{Name: "lining", Tone: notebook.Good, Text: notebook.Say("Mill {u} off the moving face, glue the sheet on, and it stands {} proud of its old height, to be scraped in.", fine(l.Mill, l.U), micron(r.in.Proud))}
	if l.Pack > 0 {
		fit.Tone, fit.Text = notebook.Watch, notebook.Say("The sheet is too thin to make the height good: put {u} under it, or take one of {} and more.", fine(l.Pack, l.U), micron(l.Thinnest))
	}
	s.Add(
		notebook.Figure{Name: "grind", Label: "Ground instead, it would take off", Value: fine(g.Depth, unit.Length(math.Hypot(float64(r.mostU), float64(r.in.SetUpU)))),
			Note: notebook.Say("In {} cuts: the plan, {} for what is not known, and {} to clean up. That is {} deeper than scraping.", notebook.Whole(g.Cuts), tenth(g.Margin), tenth(r.in.Clean), tenth(g.Deeper))},
		layer, through, fit,
		notebook.Figure{Name: "droop", Label: "The end of the table droops by", Value: notebook.Exact(r.droop, notebook.FineLengths).WithDigits(2),
			Note: notebook.Say("Reaching out {} under its own weight and {}: a slope of {}. It is not wear, and no scraping takes it out.", place(r.in.Reach), notebook.Exact(float64(r.in.Load), notebook.Pair{Metric: notebook.Newton, Inch: notebook.PoundForce}), notebook.Exact(float64(r.droopSlope), notebook.Slopes).WithDigits(2))})
	return nil
}

// wrongItems adds what people get wrong.
func (r result) wrongItems(s *notebook.Sheet) error {
	_, _, ends, err := r.in.sag(0)
	if err != nil {
		return err
	}
	deepest := 0 * um
	for i := range r.ways.Places {
		deepest = max(deepest, r.ways.Front[i], r.ways.Rear[i])
	}
	s.Add(
		notebook.Verdict{Name: "wrong-hollow", Tone: notebook.Note, Text: notebook.Say("The hollow is {} deep and not touched at all. What comes off is everything else, up to {}.", micron(deepest), micron(r.plan.Most))},
		notebook.Verdict{Name: "wrong-ends", Tone: notebook.Note, Text: notebook.Say("Held at its ends this straightedge hangs by {}, {} light passes: blued and carried like that, it marks a way hollow that is straight.", tenth(ends), notebook.Stepped(float64(ends/r.in.Light), 1, notebook.Numbers))},
		notebook.Verdict{Name: "wrong-nut", Tone: notebook.Note, Text: notebook.Say("The nut of the screw stays where it was and everything else sits {} lower: it then bends the screw by that at each end of the travel.", micron(max(r.plan.Sinks, 0)+r.in.Moving))})
	return nil
}
