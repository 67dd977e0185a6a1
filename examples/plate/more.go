package plate

import (
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// checks adds the checks against published values, on the demo's readings.
func checks(s *notebook.Sheet) error {
	r, err := work(Defaults())
	if err != nil {
		return err
	}
	scattered := []wear.SurfacePoint{{}, {X: 600 * mm}, {X: 600 * mm, Y: 400 * mm}, {Y: 400 * mm, Height: 12 * um}, {X: 300 * mm, Y: 200 * mm, Height: -5 * um}, {X: 300 * mm, Height: 4 * um}, {X: 300 * mm, Y: 400 * mm, Height: 2 * um}}
	flat, err := wear.FlatnessOf(scattered, wear.MinimumZone)
	if err != nil {
		return err
	}
	const inch = 25.4 * mm
	limit, err := wear.PlateLimit(unit.Length(math.Hypot(12, 12))*inch, wear.GradeAA)
	if err != nil {
		return err
	}
	din, err := wear.PlateLimitDIN(630*mm, 1)
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-classical", "plate-classical", float64(r.classicalRange/um)),
		notebook.CheckRow("check-we", "plate-closure-we", float64(r.classical.Closure[0]/um)),
		notebook.CheckRow("check-sn", "plate-closure-sn", float64(r.classical.Closure[1]/um)),
		notebook.CheckRow("check-zone", "flat-scattered-zone", float64(flat.Value/um)),
		notebook.CheckRow("check-grade", "plate-grade-12", float64(limit/inch*1e6)),
		notebook.CheckRow("check-din", "plate-din-630", float64(din/um)))
	return nil
}

// byLevel works the shop's nine places by a level, against the same places out of
// the eight lines.
func byLevel(s *notebook.Sheet) error {
	along, across := actionshop.PlateGrid()
	readings := wear.GridReadings{X: []unit.Length{0, actionshop.PlateLength / 2, actionshop.PlateLength}, Y: []unit.Length{0, actionshop.PlateWidth / 2, actionshop.PlateWidth},
		U: wear.Slope(math.Hypot(1, 1/math.Sqrt(12))) * wear.MicrometrePerMetre}
	for k := range along {
		readings.Along = append(readings.Along, []wear.Slope{wear.Slope(along[k][0]) * wear.MicrometrePerMetre, wear.Slope(along[k][1]) * wear.MicrometrePerMetre})
		readings.Across = append(readings.Across, []wear.Slope{wear.Slope(across[k][0]) * wear.MicrometrePerMetre, wear.Slope(across[k][1]) * wear.MicrometrePerMetre})
	}
	grid, err := wear.SurveyGrid(readings)
	if err != nil {
		return err
	}
	nine, err := grid.Flatness(wear.MinimumZone)
	if err != nil {
		return err
	}
	r, err := work(Defaults())
	if err != nil {
		return err
	}
	same, err := wear.FlatnessOf(among(r.least.Points, grid.Points), wear.MinimumZone)
	if err != nil {
		return err
	}
	s.Add(notebook.Figure{Name: "by-level", Label: "The shop's plate at nine places, by a level", Value: fine(nine.Value, nine.U),
		Note: notebook.Say("Minimum zone of three rows and three columns. The eight lines give {} at the same nine places.", hundredth(same.Value))})
	return nil
}

// among returns the points that lie at the places of others.
func among(points, places []wear.SurfacePoint) []wear.SurfacePoint {
	var found []wear.SurfacePoint
	for _, q := range places {
		for _, p := range points {
			if math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) < 1e-6 {
				found = append(found, p)
			}
		}
	}
	return found
}
