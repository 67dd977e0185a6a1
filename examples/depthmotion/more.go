package depthmotion

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// setUp adds the drawing of the bridge and the caution.
func setUp(s *notebook.Sheet, a answers) error {
	c := drawing.New("setup-drawing", "A table that bridges its worn ways",
		"Seen from the front. The underside of the table is hollow with wear. It rests at the two ends of the saddle, so it leans by the difference of the wear at the two places and sinks by their mean. Wear between them does nothing.", 420, 245)
	// The underside, worn by the joined front profile, in the saddle's frame at the
	// travel where the table leans most.
	steep := 0
	for i, x := range a.atStations.along {
		if math.Abs(x) > math.Abs(a.atStations.along[steep]) {
			steep = i
		}
	}
	middle := a.atStations.places[steep]
	deep := float64(a.joint.Ways.Front[deepest(a.joint)])
	first, last := float64(a.places[0]), float64(a.places[len(a.places)-1])
	view := drawing.View{Along: 360 / (last - first), Up: 46 / math.Max(deep, 1e-6)}
	x := func(u float64) float64 { return 30 + view.Along*(u-first) }
	const saddle, top = 145.0, 45.0
	half := float64(a.in.Bearing) / 2
	outline := []drawing.Point{{X: 30, Y: top}, {X: 390, Y: top}}
	contact := saddle
	for i := len(a.places) - 1; i >= 0; i-- {
		outline = append(outline, drawing.Point{X: x(float64(a.places[i])), Y: contact - view.Up*float64(a.joint.Ways.Front[i])})
	}
	c.Face(drawing.Body, outline...)
	c.Line(drawing.Hidden, drawing.Point{X: 30, Y: saddle}, drawing.Point{X: 390, Y: saddle})
	c.Box(drawing.Steel, drawing.Point{X: x(middle - half), Y: saddle + 8}, drawing.Point{X: x(middle + half), Y: saddle + 40}, 0)
	for _, end := range []float64{-half, half} {
		c.Arrow(drawing.Marked, drawing.Point{X: x(middle + end), Y: saddle + 8}, drawing.Point{X: x(middle + end), Y: saddle - 14})
	}
	c.Dimension(drawing.Point{X: x(middle - half), Y: saddle + 40}, drawing.Point{X: x(middle + half), Y: saddle + 40}, -22, notebook.Say("L = {}", place(a.in.Bearing)))
	c.Words(drawing.Point{X: 40, Y: top + 20}, drawing.Start, "table")
	c.Words(drawing.Point{X: x(middle), Y: saddle + 29}, drawing.Middle, "saddle")
	c.Words(drawing.Point{X: 30, Y: 32}, drawing.Start, "broken line: the front way as new")
	c.Exaggerated("Depths", significant(view.Up/view.Along))
	item, err := c.Item(notebook.Say("The table at X = {}, seen from the front, before it settles: it comes down onto the two arrows, by their mean, and leans by their difference.", place(unit.Length(-middle))))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-ways", Text: notebook.Plain(
		"Isolate the machine before you reach under the table or lean over it to read the vial. Move the table by hand, with your fingers out: table and saddle shear. Scraped edges cut.")})
	return nil
}

// significant rounds a number above zero to one significant digit.
func significant(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	return math.Round(x/power) * power
}

// mythItems adds the numbers that correct what people get wrong.
func mythItems(s *notebook.Sheet, a answers) error {
	r := a.atCurve
	motion, err := a.ride(a.joint, r.places)
	if err != nil {
		return err
	}
	at, low, high, middle := deepest(a.joint), 0, 0, len(r.places)/2
	for i := range motion.along {
		if motion.along[i] < motion.along[low] {
			low = i
		}
		if motion.along[i] > motion.along[high] {
			high = i
		}
	}
	down := func(i int) notebook.Quantity {
		return height(unit.Length(-motion.height[i]), unit.Length(motion.heightU[i]))
	}
	s.Add(
		notebook.Figure{Name: "deepest", Label: "Deepest wear", Value: height(a.joint.Ways.Front[at], a.joint.FrontU[at])},
		notebook.Figure{Name: "sinks-middle", Label: "The table sinks in the middle of the travel", Value: down(middle)},
		notebook.Figure{Name: "sinks-end", Label: "and at its right end of the ways", Value: down(len(r.places) - 1)},
		notebook.Figure{Name: "slope-range", Label: "Slope from shallowest to steepest",
			Value: slope(motion.along[high]-motion.along[low], math.Hypot(motion.alongU[high], motion.alongU[low]))},
		goneFigure(a))
	return nil
}

// goneFigure is the wear at the place where no pocket is left.
func goneFigure(a answers) notebook.Figure {
	f := notebook.Figure{Name: "gone", Label: "Wear where no pocket is left", Unknown: "pockets are left at every place"}
	for k, stations := range [][]wear.PocketStation{a.readings.Front, a.readings.Rear} {
		for _, station := range stations {
			if station.Found > 0 {
				continue
			}
			at := 0
			for i, u := range a.places {
				if math.Abs(float64(u-station.Place)) < math.Abs(float64(a.places[at]-station.Place)) {
					at = i
				}
			}
			bound, err := wear.ReadPockets([]wear.PocketStation{station}, a.readings.Pockets)
			if err != nil {
				continue // the readings were worked before: this cannot be
			}
			f.Unknown = ""
			f.Value = height(a.joint.Ways.Front[at], a.joint.FrontU[at])
			if k == 1 {
				f.Value = height(a.joint.Ways.Rear[at], a.joint.RearU[at])
			}
			f.Note = notebook.Say("At u = {}. The pockets alone say: at least {}.", place(station.Place), notebook.Stepped(bound[0].Wear, 0.1*um, notebook.FineLengths))
			return f
		}
	}
	return f
}

// checks adds the checks: the two contact models on cases worked by hand.
func checks(s *notebook.Sheet) error {
	wave := wear.WornWays{Apart: 200 * mm, Bearing: 300 * mm}
	flat := wear.WornWays{Apart: 200 * mm, Bearing: 300 * mm}
	for i := range 121 {
		u := unit.Length(10*i-600) * mm
		depth := 10 * um * unit.Length(math.Sin(math.Pi*float64(u)/0.3))
		wave.Places, flat.Places = append(wave.Places, u), append(flat.Places, u)
		wave.Front, flat.Front = append(wave.Front, depth), append(flat.Front, 0)
		wave.Rear, flat.Rear = append(wave.Rear, depth), append(flat.Rear, 0)
	}
	motion, err := wear.TwoPointMotion(wave)
	if err != nil {
		return err
	}
	sinks, _, _, _, _ := motion(-60 * mm)
	_, along, _, _, _ := motion(0)
	pad, err := wear.PressedMotion(flat, wear.Bed{Stiffness: 1e11, Width: 30 * mm, Load: 1200, LoadAt: 30 * mm}, 0)
	if err != nil {
		return err
	}
	s.Add(notebook.CheckRow("check-chord", "ways-chord-slope", along*1e6),
		notebook.CheckRow("check-blind", "ways-chord-height", float64(sinks/um)),
		notebook.CheckRow("check-pad", "ways-pad-peak", pad.Peak/1e3))
	return nil
}
