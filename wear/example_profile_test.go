package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
)

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
