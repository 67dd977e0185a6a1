package depthmotion

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func slope(x, u float64) notebook.Quantity { return notebook.Of(x, u, notebook.Slopes) }

func height(x, u unit.Length) notebook.Quantity { return notebook.Of(x, u, notebook.FineLengths) }

var alongTable = plot.Axis{Label: "Place on the table u", Show: notebook.Lengths}

// forwardItems adds what the pockets foretell beside what the level and the dial
// saw.
func forwardItems(s *notebook.Sheet, a answers) error {
	s.Add(explainsVerdict(a), slopesTable(a), notebook.Figure{Name: "pressed-differs", Label: "Largest slope by which pressed faces and two points differ",
		Value: notebook.Stepped(pressedDiffers(a), 1e-6, notebook.Slopes),
		Note:  notebook.Say("The faces press over at least {} of their length.", notebook.Stepped(a.atCurve.touching, 0.01, notebook.Percents))})
	along, err := plot.XY{Name: "along-chart", Title: "Slope along the table: foretold and seen",
		Caption: notebook.Plain("Foretold from the pockets alone, with two standard uncertainties either way. The level's readings have the lean of the machine taken off."),
		X:       alongTable, Y: plot.Axis{Label: "Slope", Show: notebook.Slopes}, Series: []plot.Series{
			band("two points ± 2u", a.atCurve.places, a.atCurve.along, a.atCurve.alongU),
			{Label: "two points", Style: plot.Curve, X: a.atCurve.places, Y: a.atCurve.along},
			{Label: "pressed faces", Style: plot.Curve, X: a.atCurve.places, Y: a.atCurve.pressedAlong},
			{Label: "level", Style: plot.Dots, X: a.atStations.places, Y: a.seenAlong, U: slopeUs(a.readings.Along)}}}.Chart()
	if err != nil {
		return err
	}
	dial := plot.Series{Label: "dial, middle track", Style: plot.Dots, Y: a.seenHeight}
	for _, p := range a.readings.Tracks[1].Points {
		dial.X, dial.U = append(dial.X, float64(p.Position)), append(dial.U, float64(a.in.DialU))
	}
	heights, err := plot.XY{Name: "height-chart", Title: "Height of the table: foretold and seen",
		Caption: notebook.Plain("Below the height on unworn ways. The dial's zero, a straight line and the bow of the table's top are taken off; they come from all readings together."),
		X:       alongTable, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: []plot.Series{
			band("two points ± 2u", a.atCurve.places, a.atCurve.height, a.atCurve.heightU),
			{Label: "two points", Style: plot.Curve, X: a.atCurve.places, Y: a.atCurve.height}, dial}}.Chart()
	if err != nil {
		return err
	}
	s.Add(along, heights)
	return nil
}

func slopeUs(points []wear.SlopePoint) []float64 {
	u := make([]float64, len(points))
	for i, p := range points {
		u[i] = float64(p.U)
	}
	return u
}

func band(label string, x, y, u []float64) plot.Series {
	s := plot.Series{Label: label, Style: plot.Band, X: x}
	for i := range x {
		s.Low, s.High = append(s.Low, y[i]-2*u[i]), append(s.High, y[i]+2*u[i])
	}
	return s
}

func pressedDiffers(a answers) float64 {
	most := 0.0
	for i := range a.atCurve.along {
		most = math.Max(most, math.Abs(a.atCurve.along[i]-a.atCurve.pressedAlong[i]))
	}
	return most
}

// explainsVerdict says whether the wear explains the slopes.
func explainsVerdict(a answers) notebook.Verdict {
	root, limit := notebook.Exact(math.Sqrt(a.misfit), notebook.Numbers).WithDigits(2), notebook.Exact(math.Sqrt(a.limit), notebook.Numbers).WithDigits(2)
	if a.misfit <= a.limit {
		return notebook.Verdict{Name: "answer", Tone: notebook.Good, Text: notebook.Say(
			"The wear explains the motion: the level differs from what the pockets foretell by {} standard uncertainties (root mean square), and chance alone reaches {} one time in twenty.", root, limit)}
	}
	return notebook.Verdict{Name: "answer", Tone: notebook.Watch, Text: notebook.Say(
		"The wear does not explain the motion: the level differs from what the pockets foretell by {} standard uncertainties, and chance alone stays below {} nineteen times in twenty. Look for a loose gib, a chip on a way, a wrong bearing length, or a station to read again.", root, limit)}
}

// slopesTable sets what is foretold beside what was seen.
func slopesTable(a answers) notebook.Table {
	t := notebook.Table{Name: "slopes", Title: "Slopes foretold from the pockets and seen by the level", Columns: []notebook.Column{
		notebook.ColIn("Travel X", notebook.Lengths), notebook.ColIn("Along, foretold", notebook.Slopes), notebook.ColIn("seen", notebook.Slopes),
		notebook.ColIn("Across, foretold", notebook.Slopes), notebook.ColIn("seen", notebook.Slopes)},
		Note: notebook.Plain("Seen: less the lean of the machine, one number for each direction.")}
	r := a.atStations
	for i, u := range r.places {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(unit.Length(-u))),
			notebook.Val(slope(r.along[i], r.alongU[i])), notebook.Val(slope(a.seenAlong[i], float64(a.readings.Along[i].U))),
			notebook.Val(slope(r.across[i], r.acrossU[i])), notebook.Val(slope(a.seenAcross[i], float64(a.readings.Across[i].U)))})
	}
	return t
}

// backItems adds the wear that motion and pockets tell together.
func backItems(s *notebook.Sheet, a answers) error {
	at := deepest(a.joint)
	s.Add(notebook.Verdict{Name: "back", Tone: notebook.Note, Text: notebook.Say(
		"Motion and pockets together: the front way has worn most at u = {}, by {u}, and the rear way there by {u}. From the motion alone the front way would be known to {} only.",
		place(a.places[at]), height(a.joint.Ways.Front[at], a.joint.FrontU[at]), height(a.joint.Ways.Rear[at], a.joint.RearU[at]),
		notebook.Stepped(a.motion.FrontU[at], 1*um, notebook.FineLengths))},
		notebook.Figure{Name: "level-left", Label: "Left of the level's slopes, root mean square",
			Value: notebook.Stepped(rootMeanSquare(append(append([]wear.Slope(nil), a.joint.AlongLeft...), a.joint.AcrossLeft...)), 0.1e-6, notebook.Slopes),
			Note:  notebook.Say("A slope is sure to {}.", notebook.Stepped(a.readings.Along[0].U, 0.1e-6, notebook.Slopes))},
		notebook.Figure{Name: "dial-left", Label: "Left of the dial's heights, root mean square",
			Value: notebook.Stepped(rootMeanSquare(append(append(append([]unit.Length(nil), a.joint.TracksLeft[0]...), a.joint.TracksLeft[1]...), a.joint.TracksLeft[2]...)), 0.01*um, notebook.FineLengths),
			Note:  notebook.Say("A reading is sure to {}.", notebook.Stepped(a.in.DialU, 0.01*um, notebook.FineLengths))},
		topFigure(a), wearTable(a))
	patterns, err := patternsTable(a)
	if err != nil {
		return err
	}
	chart, err := wearChart(a)
	if err != nil {
		return err
	}
	s.Add(patterns, chart)
	return nil
}

func deepest(f wear.WayFit) int {
	at := 0
	for i, d := range f.Ways.Front {
		if d > f.Ways.Front[at] {
			at = i
		}
	}
	return at
}

func rootMeanSquare[T ~float64](left []T) T {
	var sum float64
	for _, x := range left {
		sum += float64(x) * float64(x)
	}
	return T(math.Sqrt(sum / float64(len(left))))
}

func topFigure(a answers) notebook.Figure {
	f := notebook.Figure{Name: "top-bow", Label: "Bow of the table's top under the dial"}
	if a.in.TopBow == 0 {
		f.Unknown = "the top was taken to be straight"
		return f
	}
	f.Value = height(a.joint.TopBow, a.joint.TopBowU)
	f.Note = notebook.Plain("Plus: the middle of the top stands above its ends. The level does not see it, the dial does: that is how it is found.")
	return f
}

// wearTable lists the wear at the places of the pockets.
func wearTable(a answers) notebook.Table {
	t := notebook.Table{Name: "wear", Title: "Wear of both ways, from motion and pockets together", Columns: []notebook.Column{
		notebook.ColIn("Place u", notebook.Lengths), notebook.ColIn("Front", notebook.FineLengths), notebook.ColIn("Rear", notebook.FineLengths)}}
	for i := 0; i < len(a.places); i += 3 {
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Val(place(a.places[i])),
			notebook.Val(height(a.joint.Ways.Front[i], a.joint.FrontU[i])), notebook.Val(height(a.joint.Ways.Rear[i], a.joint.RearU[i]))})
	}
	return t
}

// patternsTable says how well each pattern of wear is known.
func patternsTable(a answers) (notebook.Table, error) {
	t := notebook.Table{Name: "patterns", Title: "What motion sees of the wear, and what it does not", Columns: []notebook.Column{
		notebook.Col("Pattern"), notebook.ColIn("Known without readings to", notebook.FineLengths), notebook.ColIn("by motion to", notebook.FineLengths), notebook.ColIn("with the pockets to", notebook.FineLengths)},
		Note: notebook.Plain("Standard uncertainties of a pattern's size. Where motion is little better than no reading at all, motion is blind.")}
	bearing := float64(a.in.Bearing)
	wave := func(length float64) func(u float64) float64 {
		return func(u float64) float64 { return math.Sin(2 * math.Pi * u / length) }
	}
	even := func(float64) float64 { return 1 }
	for _, p := range []struct {
		words string
		shape func(u float64) float64
		rear  float64
	}{
		{"Even depth all over", even, 1},
		{"Front deeper than rear, evenly", even, -1},
		{"Waves two bearings long, both ways alike", wave(2 * bearing), 1},
		{"Waves two bearings long, front against rear", wave(2 * bearing), -1},
		{"Waves one bearing long, both ways alike", wave(bearing), 1},
	} {
		front, rear := make([]float64, len(a.places)), make([]float64, len(a.places))
		for i, u := range a.places {
			front[i] = p.shape(float64(u))
			rear[i] = p.rear * front[i]
		}
		_, before, motion, err := a.motion.Pattern(front, rear)
		if err != nil {
			return t, err
		}
		_, _, joint, err := a.joint.Pattern(front, rear)
		if err != nil {
			return t, err
		}
		row := []notebook.Cell{notebook.Str(p.words)}
		for _, u := range []unit.Length{before, motion, joint} {
			row = append(row, notebook.Val(notebook.Stepped(u, 0.1*um, notebook.FineLengths)))
		}
		if motion > before/2 {
			row[2].Mark = "blind"
		}
		t.Rows = append(t.Rows, row)
	}
	return t, nil
}

// wearChart draws the wear of both ways with what the pockets say.
func wearChart(a answers) (notebook.Chart, error) {
	var series []plot.Series
	for _, way := range []struct {
		words    string
		depth, u []unit.Length
		stations []wear.PocketStation
	}{{"front", a.joint.Ways.Front, a.joint.FrontU, a.readings.Front}, {"rear", a.joint.Ways.Rear, a.joint.RearU, a.readings.Rear}} {
		var x, y, u []float64
		for i := 0; i < len(a.places); i += 2 {
			x, y, u = append(x, float64(a.places[i])), append(y, float64(way.depth[i])), append(u, float64(way.u[i]))
		}
		series = append(series, plot.Series{Label: way.words, Style: plot.Curve, X: x, Y: y}, band(way.words+" ± 2u", x, y, u))
		pockets, err := wear.ReadPockets(way.stations, a.readings.Pockets)
		if err != nil {
			return notebook.Chart{}, err
		}
		known, bound := plot.Series{Label: way.words + ", pockets", Style: plot.Dots}, plot.Series{Label: way.words + ", gone: at least", Style: plot.AtLeast}
		for _, p := range pockets {
			if p.AtLeast {
				bound.X, bound.Y = append(bound.X, float64(p.Place)), append(bound.Y, float64(p.Wear))
				continue
			}
			known.X, known.Y = append(known.X, float64(p.Place)), append(known.Y, float64(p.Wear))
		}
		for _, s := range []plot.Series{known, bound} {
			if len(s.X) > 0 {
				series = append(series, s)
			}
		}
	}
	return plot.XY{Name: "wear-chart", Title: "Wear of the ways, from motion and pockets together",
		Caption: notebook.Plain("Curves: all readings together, with two standard uncertainties either way. Dots: the pockets alone, place by place; an arrow means at least."),
		X:       alongTable, Y: plot.Axis{Label: "Wear", Show: notebook.FineLengths}, Series: series}.Chart()
}
