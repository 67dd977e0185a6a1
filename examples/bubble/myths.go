package bubble

import (
	"math"
	"sort"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
)

// byPlace returns slopes in order of place.
func byPlace(slopes []wear.SlopePoint) []wear.SlopePoint {
	sorted := append([]wear.SlopePoint(nil), slopes...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].Position < sorted[j].Position })
	return sorted
}

// mythItems adds the numbers that correct what people get wrong.
func mythItems(s *notebook.Sheet, latest survey, r ride) error {
	slopes := byPlace(latest.along.SlopePoints())
	steep, flat := slopes[0], slopes[0]
	for _, p := range slopes {
		if p.Slope > steep.Slope {
			steep = p
		}
		if p.Slope < flat.Slope {
			flat = p
		}
	}
	depth, u, _ := r.sag()
	s.Add(
		notebook.Figure{Name: "hidden-bow", Label: "Bow with both ends at zero",
			Value: notebook.Of(max(depth, -depth), u, notebook.FineLengths)},
		notebook.Figure{Name: "slope-range", Label: "Steepest slope less shallowest",
			Value: notebook.Of(steep.Slope-flat.Slope, hypot(steep.U, flat.U), notebook.Slopes),
			Note:  notebook.Say("Between u = {} and u = {}.", place(steep.Position), place(flat.Position))},
		notebook.Figure{Name: "cumulated-bow", Label: "The same bow from the level cumulated as it stands",
			Value: notebook.Of(r.ends.Value, r.ends.U, notebook.FineLengths)},
		tramFigure(slopes),
	)
	return nil
}

func hypot(a, b wear.Slope) wear.Slope {
	return wear.Slope(math.Hypot(float64(a), float64(b)))
}

// tramFigure is by how much a head set square at the middle station is out at
// the worst other one.
func tramFigure(slopes []wear.SlopePoint) notebook.Figure {
	middle := slopes[len(slopes)/2]
	worst := slopes[0]
	for _, p := range slopes {
		if abs(p.Slope-middle.Slope) > abs(worst.Slope-middle.Slope) {
			worst = p
		}
	}
	return notebook.Figure{Name: "tram-drift", Label: "Set square at the middle station, out at the worst",
		Value: notebook.Of(abs(worst.Slope-middle.Slope), hypot(worst.U, middle.U), notebook.Slopes),
		Note:  notebook.Say("Set at X = {}, out at X = {}.", place(-middle.Position), place(-worst.Position))}
}

func abs(s wear.Slope) wear.Slope { return wear.Slope(math.Abs(float64(s))) }
