package bubble

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// ride is the motion of the table, from the latest survey.
type ride struct {
	// above holds the motion above the line through its ends, at many places.
	above wear.Profile
	// lines are the three ways to judge it, in the order of references.
	lines []wear.Straightness
	// cumulated is the level cumulated without regard to the bearing, above the
	// line through its ends; ends is its straightness from that line.
	cumulated wear.Profile
	ends      wear.Straightness
	trials    wear.Trials
}

// references are the three lines, in the order in which they are taught.
var references = [3]wear.Reference{wear.EndPoints, wear.LeastSquares, wear.MinimumZone}

// places is how many places along the travel the motion is computed at.
const places = 17

// repeats is how often the motion is drawn anew from its errors.
const repeats = 800

// rideOf finds the motion and its straightness.
func rideOf(in Inputs, latest survey) (ride, error) {
	slopes := latest.along.SlopePoints()
	at := spread(slopes, places)
	motion, err := wear.MotionFromSlopes(slopes, wear.MotionOptions{Bearing: in.Bearing, At: at})
	if err != nil {
		return ride{}, err
	}
	var r ride
	if r.above, _, err = motion.Less(wear.EndPoints); err != nil {
		return ride{}, err
	}
	for _, reference := range references {
		s, err := r.above.Straightness(reference)
		if err != nil {
			return ride{}, err
		}
		r.lines = append(r.lines, s)
	}
	if r.trials, err = r.above.StraightnessTrials(wear.MinimumZone, repeats, 1); err != nil {
		return ride{}, err
	}
	level, err := wear.ProfileFromSlopes(slopes, wear.ProfileOptions{At: at})
	if err != nil {
		return ride{}, err
	}
	if r.cumulated, _, err = level.Less(wear.EndPoints); err != nil {
		return ride{}, err
	}
	r.ends, err = r.cumulated.Straightness(wear.EndPoints)
	return r, err
}

// spread returns n places evenly from the first station to the last.
func spread(slopes []wear.SlopePoint, n int) []unit.Length {
	low, high := slopes[0].Position, slopes[0].Position
	for _, p := range slopes {
		low, high = min(low, p.Position), max(high, p.Position)
	}
	at := make([]unit.Length, n)
	for i := range at {
		at[i] = low + (high-low)*unit.Length(i)/unit.Length(n-1)
	}
	return at
}

// sag returns the largest departure of the motion from the line through its
// ends, negative for a hollow, with its standard uncertainty and its place.
func (r ride) sag() (depth, u, at unit.Length) {
	for i, p := range r.above.Points {
		if math.Abs(float64(p.Height)) > math.Abs(float64(depth)) {
			depth, u, at = p.Height, r.above.U(i), p.Position
		}
	}
	return depth, u, at
}

// rideItems adds the motion: verdict, figures, table, chart.
func rideItems(s *notebook.Sheet, latest survey, r ride) error {
	depth, u, at := r.sag()
	points := r.above.Points
	length := points[len(points)-1].Position - points[0].Position
	zone := r.lines[2]
	s.Add(
		notebook.Verdict{Name: "answer", Tone: shapeTone(depth, u), Text: shapeSentence(depth, u, at, length)},
		notebook.Figure{Name: "straightness", Label: "Straightness of the motion, minimum zone",
			Value: notebook.Of(zone.Value, zone.U, notebook.FineLengths),
			Note:  notebook.Say("Over {}, on "+day(latest.day)+".", place(length))},
		notebook.Figure{Name: "straightness-trials", Label: fmt.Sprintf("The same, from %d repeats drawn from the errors", repeats),
			Value: notebook.Of(r.trials.Mean, r.trials.U, notebook.FineLengths),
			Note: notebook.Say("Middle 95 % from {} to {}. Errors of reading alone lift the mean by {}: a range only grows when errors are added.",
				notebook.Stepped(r.trials.Low, 0.1*um, notebook.FineLengths), notebook.Stepped(r.trials.High, 0.1*um, notebook.FineLengths),
				notebook.Stepped(r.trials.Bias, 0.1*um, notebook.FineLengths))},
		linesTable(r),
	)
	chart, err := profileChart(r)
	if err != nil {
		return err
	}
	lines, err := linesDrawing(r)
	if err != nil {
		return err
	}
	s.Add(chart, lines)
	return nil
}

func shapeTone(depth, u unit.Length) notebook.Tone {
	if math.Abs(float64(depth)) < 2*float64(u) {
		return notebook.Good
	}
	return notebook.Note
}

func shapeSentence(depth, u, at, length unit.Length) notebook.Text {
	q := notebook.Of(unit.Length(math.Abs(float64(depth))), u, notebook.FineLengths)
	switch {
	case math.Abs(float64(depth)) < 2*float64(u):
		return notebook.Say("Over {} the motion cannot be told from straight: it departs by {u} from the line through its ends.", place(length), q)
	case depth < 0:
		return notebook.Say("Over {} the table runs in a hollow: at u = {} it sinks {u} below the line through its ends.", place(length), place(at), q)
	}
	return notebook.Say("Over {} the table runs over a crown: at u = {} it rises {u} above the line through its ends.", place(length), place(at), q)
}

// place is a position or a length as it is said: to the millimetre.
func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

// linesTable sets the three lines side by side.
func linesTable(r ride) notebook.Table {
	t := notebook.Table{Name: "three-lines", Title: "Three lines through one motion",
		Columns: []notebook.Column{notebook.Col("Line"), notebook.ColIn("Straightness", notebook.FineLengths),
			notebook.ColIn("Line climbs", notebook.Slopes), notebook.Col("Highest at u"), notebook.Col("Lowest at u")},
		Note: notebook.Plain("Climb is counted from the line through the ends. The minimum zone is never larger than the other two.")}
	for i, line := range r.lines {
		t.Rows = append(t.Rows, []notebook.Cell{
			notebook.Str(references[i].String()),
			notebook.Val(notebook.Of(line.Value, line.U, notebook.FineLengths)),
			notebook.Val(notebook.Stepped(line.Line.Slope, 0.1e-6, notebook.Slopes)),
			notebook.Val(place(r.above.Points[line.Highest[0]].Position)),
			notebook.Val(place(r.above.Points[line.Lowest[0]].Position)),
		})
	}
	return t
}

// profileChart draws the motion with its band, and what the level gives when it is merely cumulated.
func profileChart(r ride) (notebook.Chart, error) {
	n := len(r.above.Points)
	x, y, low, high, raw := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range r.above.Points {
		u := float64(r.above.U(i))
		x[i], y[i] = float64(p.Position), float64(p.Height)
		low[i], high[i] = y[i]-2*u, y[i]+2*u
		raw[i] = float64(r.cumulated.Points[i].Height)
	}
	series := []plot.Series{
		{Label: "motion", Style: plot.Curve, X: x, Y: y},
		{Label: "motion ± 2u", Style: plot.Band, X: x, Low: low, High: high},
		{Label: "level cumulated", Style: plot.Curve, X: x, Y: raw},
	}
	return plot.XY{Name: "profile-chart", Title: "Height of the motion above the line through its ends",
		Caption: notebook.Plain("Left to right along the table. The level cumulated as it stands makes the hollow too deep: the table bridges it."),
		X:       alongTable, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: series}.Chart()
}

// alongTable is the axis of places on the table.
var alongTable = plot.Axis{Label: "Place on the table u", Show: notebook.Lengths}
