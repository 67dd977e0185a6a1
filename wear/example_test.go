package wear_test

import (
	"fmt"
	"math"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// run is a level along the table, divisions of 0.02 mm/m, at three stations.
var run = []wear.LevelStation{
	{Position: -240 * mm, Normal: 2.0, Turned: -4.0},
	{Position: 0 * mm, Normal: 8.5, Turned: -10.5},
	{Position: 240 * mm, Normal: 11.5, Turned: -14.0},
}

func ExampleReadLevel() {
	survey, err := wear.ReadLevel(run, wear.LevelOptions{Division: 0.02 * wear.MillimetrePerMetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range survey.Points {
		fmt.Printf("u = %4.0f mm: slope %5.1f um/m, standard uncertainty %.1f um/m\n", float64(p.Position/mm),
			float64(p.Slope/wear.MicrometrePerMetre), float64(p.SlopeU/wear.MicrometrePerMetre))
	}
	fmt.Printf("level zero: %.1f um/m\n", float64(survey.Zero/wear.MicrometrePerMetre))
	// Output:
	// u = -240 mm: slope  60.0 um/m, standard uncertainty 2.9 um/m
	// u =    0 mm: slope 190.0 um/m, standard uncertainty 2.9 um/m
	// u =  240 mm: slope 255.0 um/m, standard uncertainty 2.9 um/m
	// level zero: -21.7 um/m
}

func ExampleProfileFromSteps() {
	// A level with a base of 250 mm and divisions of 20 um/m, walked along a bed.
	var walk []wear.Step
	for _, divisions := range []wear.Slope{1, 0.5, 0, -0.5, 0.5, -1, -1.5, -0.5} {
		walk = append(walk, wear.Step{Base: 250 * mm, Slope: divisions * 20 * wear.MicrometrePerMetre, U: 2 * wear.MicrometrePerMetre})
	}
	profile, err := wear.ProfileFromSteps(0, walk, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, reference := range []wear.Reference{wear.EndPoints, wear.LeastSquares, wear.MinimumZone} {
		s, err := profile.Straightness(reference)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %.2f um, standard uncertainty %.2f um\n", reference, float64(s.Value/um), float64(s.U/um))
	}
	// Output:
	// end points: 12.19 um, standard uncertainty 0.68 um
	// least squares: 13.33 um, standard uncertainty 0.66 um
	// minimum zone: 12.19 um, standard uncertainty 0.68 um
}

func ExampleProfile_Less() {
	survey, err := wear.ReadLevel(run, wear.LevelOptions{Division: 0.02 * wear.MillimetrePerMetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	profile, err := wear.ProfileFromSlopes(survey.SlopePoints(), wear.ProfileOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	less, line, err := profile.Less(wear.EndPoints)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("line: %.0f um/m\n", float64(line.Slope/wear.MicrometrePerMetre))
	for i, p := range less.Points {
		fmt.Printf("u = %4.0f mm: %6.2f um, standard uncertainty %.2f um\n", float64(p.Position/mm), float64(p.Height/um), float64(less.U(i)/um))
	}
	// Output:
	// line: 179 um/m
	// u = -240 mm:   0.00 um, standard uncertainty 0.00 um
	// u =    0 mm: -11.70 um, standard uncertainty 0.24 um
	// u =  240 mm:   0.00 um, standard uncertainty 0.00 um
}

func ExampleStraightnessOf() {
	points := []wear.Point{{0 * mm, 0 * um}, {80 * mm, 5 * um}, {200 * mm, 2 * um}, {410 * mm, 7 * um},
		{500 * mm, 6 * um}, {640 * mm, -1 * um}, {800 * mm, 3 * um}}
	s, err := wear.StraightnessOf(points, wear.MinimumZone)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f um, touching points %v above and %v below\n", float64(s.Value/um), s.Highest, s.Lowest)
	// Output:
	// 7.6406 um, touching points [3] above and [0 5] below
}

func ExampleLocalStraightness() {
	points := []wear.Point{{0 * mm, 0 * um}, {300 * mm, 6 * um}, {600 * mm, 2 * um}, {900 * mm, 1 * um}, {1200 * mm, 0 * um}}
	worst, from, err := wear.LocalStraightness(points, 300*mm, wear.MinimumZone)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("worst over 300 mm: %.2f um, from %.0f mm\n", float64(worst.Value/um), float64(from/mm))
	// Output:
	// worst over 300 mm: 2.50 um, from 150 mm
}

func ExampleProfile_StraightnessTrials() {
	// A straight bed read with an uncertainty of 10 um/m does not look straight.
	walk := make([]wear.Step, 8)
	for i := range walk {
		walk[i] = wear.Step{Base: 100 * mm, U: 10 * wear.MicrometrePerMetre}
	}
	profile, err := wear.ProfileFromSteps(0, walk, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	trials, err := profile.StraightnessTrials(wear.MinimumZone, 5000, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("straightness by chance alone: %.1f um, bias %.1f um\n", float64(trials.Mean/um), float64(trials.Bias/um))
	// Output:
	// straightness by chance alone: 2.1 um, bias 2.1 um
}

func ExampleMotionFromSlopes() {
	survey, err := wear.ReadLevel(run, wear.LevelOptions{Division: 0.02 * wear.MillimetrePerMetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, bearing := range []unit.Length{0, 360 * mm} {
		motion, err := wear.MotionFromSlopes(survey.SlopePoints(), wear.MotionOptions{Bearing: bearing})
		if err != nil {
			fmt.Println(err)
			return
		}
		s, err := motion.Straightness(wear.EndPoints)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("bearing %3.0f mm: hollow %.1f um, standard uncertainty %.1f um\n", float64(bearing/mm), float64(s.Value/um), float64(s.U/um))
	}
	// Output:
	// bearing   0 mm: hollow 11.7 um, standard uncertainty 5.0 um
	// bearing 360 mm: hollow 10.2 um, standard uncertainty 3.8 um
}

func ExampleCompareSlopes() {
	before := []wear.SlopePoint{{Position: 0, Slope: 10e-6, U: 3e-6}, {Position: 300 * mm, Slope: 12e-6, U: 3e-6}, {Position: 600 * mm, Slope: 9e-6, U: 3e-6}}
	after := []wear.SlopePoint{{Position: 0, Slope: 55e-6, U: 3e-6}, {Position: 300 * mm, Slope: 95e-6, U: 3e-6}, {Position: 600 * mm, Slope: 50e-6, U: 3e-6}}
	change, err := wear.CompareSlopes(before, after, wear.ChangeOptions{Unworn: []unit.Length{0, 600 * mm}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("floor: %.0f um/m, standard uncertainty %.0f um/m\n", float64(change.Floor/wear.MicrometrePerMetre), float64(change.FloorU/wear.MicrometrePerMetre))
	for _, s := range change.Stations {
		fmt.Printf("%3.0f mm: own change %3.0f um/m, changed: %v\n", float64(s.Position/mm), float64(s.Own/wear.MicrometrePerMetre), s.Changed)
	}
	// Output:
	// floor: 43 um/m, standard uncertainty 3 um/m
	//   0 mm: own change   2 um/m, changed: false
	// 300 mm: own change  40 um/m, changed: true
	// 600 mm: own change  -2 um/m, changed: false
}

func ExampleDifference() {
	before := []wear.SlopePoint{{Position: 0, Slope: 10e-6, U: 3e-6}, {Position: 300 * mm, Slope: 12e-6, U: 3e-6}}
	after := []wear.SlopePoint{{Position: 300 * mm, Slope: 95e-6, U: 4e-6}, {Position: 0, Slope: 55e-6, U: 4e-6}}
	difference, err := wear.Difference(before, after)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range difference {
		fmt.Printf("%3.0f mm: %.0f um/m, standard uncertainty %.0f um/m\n", float64(d.Position/mm), float64(d.Slope/wear.MicrometrePerMetre), float64(d.U/wear.MicrometrePerMetre))
	}
	// Output:
	//   0 mm: 45 um/m, standard uncertainty 5 um/m
	// 300 mm: 83 um/m, standard uncertainty 5 um/m
}

func ExampleFitTrend() {
	const year = 365.25 * 86400 * unit.Second
	trend, err := wear.FitTrend([]wear.DatedDepth{
		{Clock: 0 * year, Depth: 2.0 * um}, {Clock: 1.5 * year, Depth: 6.1 * um}, {Clock: 3 * year, Depth: 8.7 * um},
		{Clock: 4 * year, Depth: 12.2 * um}, {Clock: 6 * year, Depth: 16.1 * um}, {Clock: 8 * year, Depth: 22.4 * um},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	depth, _, readingU := trend.At(10 * year)
	fmt.Printf("rate %.2f um/yr, standard uncertainty %.2f um/yr\n", float64(trend.Rate/wear.MicrometrePerYear), float64(trend.RateU/wear.MicrometrePerYear))
	fmt.Printf("in year 10: %.1f um; 95 %% of readings within %.1f um of that\n", float64(depth/um), trend.Coverage(0.95)*float64(readingU/um))
	// Output:
	// rate 2.49 um/yr, standard uncertainty 0.10 um/yr
	// in year 10: 26.8 um; 95 % of readings within 2.6 um of that
}

func ExampleBowOfCut() {
	survey, err := wear.ReadLevel(run, wear.LevelOptions{Division: 0.02 * wear.MillimetrePerMetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	bow, err := wear.BowOfCut(survey.SlopePoints(), 360*mm, 0*mm, 400*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("a part of 400 mm comes out %.1f um high in the middle, standard uncertainty %.1f um\n", float64(bow.Value/um), float64(bow.U/um))
	// Output:
	// a part of 400 mm comes out 7.2 um high in the middle, standard uncertainty 3.5 um
}

func ExampleReverseBar() {
	// Travel from 240 to -240 mm under the dial, so u from -240 to 240 mm.
	first := []unit.Length{0, -4 * um, -8 * um, -14 * um, -20 * um}
	second := []unit.Length{0, 10 * um, 16 * um, 18 * um, 20 * um}
	var readings []wear.ReversalReading
	for i := range first {
		readings = append(readings, wear.ReversalReading{Position: unit.Length(i-2) * 120 * mm, First: first[i], Second: second[i]})
	}
	s, err := wear.ReverseBar(readings, wear.Gauge{Step: 2 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, p := range s.Motion.Points {
		fmt.Printf("u = %4.0f mm: motion %5.2f um, bar %5.2f um, standard uncertainty %.2f um\n",
			float64(p.Position/mm), float64(p.Height/um), float64(s.Reference.Points[i].Height/um), float64(s.Motion.U(i)/um))
	}
	// Output:
	// u = -240 mm: motion  0.00 um, bar  0.00 um, standard uncertainty 0.00 um
	// u = -120 mm: motion -2.00 um, bar  3.00 um, standard uncertainty 0.52 um
	// u =    0 mm: motion -2.00 um, bar  4.00 um, standard uncertainty 0.50 um
	// u =  120 mm: motion -1.00 um, bar  2.00 um, standard uncertainty 0.52 um
	// u =  240 mm: motion  0.00 um, bar  0.00 um, standard uncertainty 0.00 um
}

func ExampleReverseStraightedge() {
	readings := []wear.ReversalReading{{Position: 0}, {Position: 400 * mm, First: 2.2 * um, Second: 6.6 * um}, {Position: 800 * mm}}
	s, err := wear.ReverseStraightedge(readings, wear.Gauge{Step: 1 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("way %.1f um, edge %.1f um\n", float64(s.Motion.Points[1].Height/um), float64(s.Reference.Points[1].Height/um))
	// Output:
	// way 4.4 um, edge -2.2 um
}

func ExampleThreePlates() {
	a, b, c, u, err := wear.ThreePlates([]unit.Length{2 * um}, []unit.Length{-1 * um}, []unit.Length{5 * um}, 1*um)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f, %.1f and %.1f um, standard uncertainty %.2f um\n", float64(a[0]/um), float64(b[0]/um), float64(c[0]/um), float64(u/um))
	// Output:
	// -2.0, 4.0 and 1.0 um, standard uncertainty 0.87 um
}

func ExampleThreeProbes() {
	readings := []wear.ProbeReading{{A: 0.2 * um, B: 0.7 * um, C: 2.2 * um}, {A: 1.5 * um, B: 3.7 * um, C: 5.4 * um}, {A: 1.9 * um, B: 3.3 * um, C: 2.7 * um}}
	profile, err := wear.ThreeProbes(50*mm, readings, 0.1*um, 0.2*um)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, p := range profile.Points {
		fmt.Printf("%3.0f mm: %5.2f um, standard uncertainty %.2f um\n", float64(p.Position/mm), float64(p.Height/um), float64(profile.U(i)/um))
	}
	// Output:
	//   0 mm:  0.00 um, standard uncertainty 0.00 um
	//  50 mm:  0.00 um, standard uncertainty 0.38 um
	// 100 mm:  1.00 um, standard uncertainty 0.50 um
	// 150 mm:  1.50 um, standard uncertainty 0.38 um
	// 200 mm:  0.00 um, standard uncertainty 0.00 um
}

func ExampleBeamSag() {
	steel := wear.Beam{Length: 500 * mm, Width: 25 * mm, Height: 50 * mm, Stiffness: 210e9, Density: 7850}
	for _, support := range []unit.Length{0, 500 * mm * wear.Airy} {
		sag, err := wear.BeamSag(steel, support, []unit.Length{250 * mm})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("supports %.0f mm from the ends: %.2f um in the middle\n", float64(support/mm), float64(sag[0]/um))
	}
	// Output:
	// supports 0 mm from the ends: 1.43 um in the middle
	// supports 106 mm from the ends: 0.06 um in the middle
}

func ExampleMotionFromSkimmedBar() {
	places := []wear.SkimmedPlace{{Position: -300 * mm, Thickness: 19.976 * mm}, {Position: 0, Thickness: 19.985 * mm}, {Position: 300 * mm, Thickness: 19.971 * mm}}
	motion, err := wear.MotionFromSkimmedBar(places, wear.Gauge{Step: 1 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := motion.Straightness(wear.EndPoints)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the table sinks %.1f um in the middle, standard uncertainty %.1f um\n", float64(s.Value/um), float64(s.U/um))
	// Output:
	// the table sinks 11.5 um in the middle, standard uncertainty 0.4 um
}

func ExampleFlatnessOf() {
	points := []wear.SurfacePoint{{0, 0, 0}, {600 * mm, 0, 0}, {600 * mm, 400 * mm, 0}, {0, 400 * mm, 12 * um},
		{300 * mm, 200 * mm, -5 * um}, {300 * mm, 0, 4 * um}, {300 * mm, 400 * mm, 2 * um}}
	for _, reference := range []wear.Reference{wear.LeastSquares, wear.MinimumZone} {
		f, err := wear.FlatnessOf(points, reference)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %.2f um\n", reference, float64(f.Value/um))
	}
	// Output:
	// least squares: 12.33 um
	// minimum zone: 11.00 um
}

func ExampleTwoPointMotion() {
	ways := wear.WornWays{Apart: 190 * mm, Bearing: 360 * mm,
		Places: []unit.Length{-360 * mm, -180 * mm, 0, 180 * mm, 360 * mm},
		Front:  []unit.Length{18 * um, 51 * um, 54 * um, 37 * um, 14 * um},
		Rear:   []unit.Length{10 * um, 29 * um, 35 * um, 25 * um, 10 * um}}
	motion, err := wear.TwoPointMotion(ways)
	if err != nil {
		fmt.Println(err)
		return
	}
	height, along, across, _, _ := motion(0)
	fmt.Printf("height %.1f um, slope %.0f um/m along and %.0f um/m across\n", float64(height/um), along*1e6, across*1e6)
	// Output:
	// height -35.5 um, slope 25 um/m along and 89 um/m across
}

func ExamplePressedMotion() {
	ways := wear.WornWays{Apart: 190 * mm, Bearing: 360 * mm,
		Places: []unit.Length{-360 * mm, -180 * mm, 0, 180 * mm, 360 * mm},
		Front:  []unit.Length{18 * um, 51 * um, 54 * um, 37 * um, 14 * um},
		Rear:   []unit.Length{10 * um, 29 * um, 35 * um, 25 * um, 10 * um}}
	r, err := wear.PressedMotion(ways, wear.Bed{Stiffness: 5e12, Width: 40 * mm, Load: 2500}, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("height %.1f um, slope %.0f um/m along; %.0f %% of the faces touch\n", float64(r.Height/um), r.Along*1e6, 100*r.Touching)
	// Output:
	// height -33.9 um, slope 31 um/m along; 3 % of the faces touch
}

func ExampleReadPockets() {
	options := wear.PocketOptions{New: 52 * um, NewU: 1.5 * um, Spread: 6.2 * um, Floor: 3 * um}
	wears, err := wear.ReadPockets([]wear.PocketStation{
		{Place: -120 * mm, Depth: 6 * um, Found: 1, Total: 5},
		{Place: 0, Found: 0, Total: 5},
		{Place: 120 * mm, Depth: 10 * um, Found: 4, Total: 5},
	}, options)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range wears {
		if w.AtLeast {
			fmt.Printf("u = %4.0f mm: at least %.0f um\n", float64(w.Place/mm), float64(w.Wear/um))
			continue
		}
		fmt.Printf("u = %4.0f mm: %.1f um, standard uncertainty %.1f um; forgetting the missing ones %.0f um\n",
			float64(w.Place/mm), float64(w.Wear/um), float64(w.U/um), float64(w.Plain/um))
	}
	// Output:
	// u = -120 mm: 54.4 um, standard uncertainty 4.1 um; forgetting the missing ones 46 um
	// u =    0 mm: at least 49 um
	// u =  120 mm: 44.1 um, standard uncertainty 3.2 um; forgetting the missing ones 42 um
}

func ExampleFitBoundedTrend() {
	const year = 365.25 * 86400 * unit.Second
	var readings []wear.BoundedDepth
	for i, depth := range []unit.Length{0, 0, 0, 8.1 * um, 9.4 * um, 12.2 * um, 13.6 * um, 16.4 * um} {
		r := wear.BoundedDepth{Clock: unit.Time(i+1) * year, Low: depth, High: depth}
		if depth == 0 { // the gauge shows nothing below 5 um
			r.Low, r.High = unit.Length(math.Inf(-1)), 5*um
		}
		readings = append(readings, r)
	}
	trend, err := wear.FitBoundedTrend(readings)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("rate %.2f um/yr, with a chance of 95 %% from %.2f to %.2f um/yr\n", float64(trend.Rate/wear.MicrometrePerYear),
		float64(trend.RateLow/wear.MicrometrePerYear), float64(trend.RateHigh/wear.MicrometrePerYear))
	// Output:
	// rate 2.22 um/yr, with a chance of 95 % from 1.98 to 2.54 um/yr
}
