package plate

import (
	"math"

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
	s.Add(notebook.CheckRow("check-classical", "plate-classical", float64(r.classicalRange/um)),
		notebook.CheckRow("check-we", "plate-closure-we", float64(r.classical.Closure[0]/um)),
		notebook.CheckRow("check-sn", "plate-closure-sn", float64(r.classical.Closure[1]/um)),
		notebook.CheckRow("check-zone", "flat-scattered-zone", float64(flat.Value/um)),
		notebook.CheckRow("check-grade", "plate-grade-12", float64(limit/inch*1e6)))
	return nil
}
