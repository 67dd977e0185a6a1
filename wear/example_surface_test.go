package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// corners are the corners and the middle of a plate.
func corners() []wear.SurfacePoint {
	return []wear.SurfacePoint{{X: 0, Y: 0}, {X: 600 * mm, Y: 0, Height: 4 * um}, {X: 0, Y: 400 * mm, Height: -2 * um},
		{X: 600 * mm, Y: 400 * mm, Height: 8 * um}, {X: 300 * mm, Y: 200 * mm, Height: 5 * um}}
}

// A plate levelled on three of its corners: the plane through them, seen at the
// fourth.
func ExamplePlaneThrough() {
	c := corners()
	plane, err := wear.PlaneThrough(c[0], c[1], c[2])
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the fourth corner stands %.0f um above the plane of the other three\n", float64((c[3].Height-plane.At(600*mm, 400*mm))/um))
	// Output:
	// the fourth corner stands 6 um above the plane of the other three
}

// Flatness from three corners is another number than the least possible one: say
// which was meant.
func ExampleFlatnessFrom() {
	c := corners()
	plane, err := wear.PlaneThrough(c[0], c[1], c[2])
	if err != nil {
		fmt.Println(err)
		return
	}
	from, err := wear.FlatnessFrom(c, plane)
	if err != nil {
		fmt.Println(err)
		return
	}
	least, err := wear.FlatnessOf(c, wear.MinimumZone)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("from three corners %.1f um, least %.1f um\n", float64(from.Value/um), float64(least.Value/um))
	// Output:
	// from three corners 6.0 um, least 4.0 um
}

// With what is known of the heights the flatness knows its own uncertainty.
func ExampleSurface_Flatness() {
	s := wear.Surface{Points: corners(), Covariance: mat.NewSymDense(5, nil)}
	for i := range 5 {
		s.Covariance.SetSym(i, i, 0.5e-6*0.5e-6) // 0.5 um each, independent
	}
	f, err := s.Flatness(wear.MinimumZone)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um, standard uncertainty %.1f um\n", float64(f.Value/um), float64(f.U/um))
	// Output:
	// 4.0 um, standard uncertainty 0.6 um
}

// Steps of a level along a grid close round every mesh, and so tell their own
// scatter.
func ExampleSurveyGrid() {
	u := func(slopes ...wear.Slope) []wear.Slope {
		for i := range slopes {
			slopes[i] *= wear.MicrometrePerMetre
		}
		return slopes
	}
	s, err := wear.SurveyGrid(wear.GridReadings{X: []unit.Length{0, 200 * mm, 400 * mm}, Y: []unit.Length{0, 200 * mm}, U: 2 * wear.MicrometrePerMetre,
		Along: [][]wear.Slope{u(10, -10), u(22, -21)}, Across: [][]wear.Slope{u(5), u(18), u(4)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := s.Flatness(wear.MinimumZone)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("flat to %.1f um (u %.1f); %d meshes say a slope scatters by %.1f um/m\n", float64(f.Value/um), float64(f.U/um), s.Freedom, float64(s.Scatter/wear.MicrometrePerMetre))
	// Output:
	// flat to 4.4 um (u 0.3); 2 meshes say a slope scatters by 1.1 um/m
}

// What a grade allows grows with the square of the diagonal.
func ExamplePlateLimit() {
	for _, grade := range []wear.PlateGrade{wear.GradeAA, wear.GradeA, wear.GradeB} {
		limit, err := wear.PlateLimit(1000*mm, grade)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %.1f um\n", grade, float64(limit/um))
	}
	// Output:
	// AA: 2.6 um
	// A: 5.2 um
	// B: 10.4 um
}

// unionJack are readings along the eight lines of a plate of 800 by 600 mm, in arc
// seconds.
func unionJack() wear.PlateLines {
	s := func(readings ...wear.Slope) []wear.Slope {
		for i := range readings {
			readings[i] *= wear.ArcSecond
		}
		return readings
	}
	return wear.PlateLines{
		SWtoNE: s(18.5, 17.8, 17.1, 16.8, 17.5, 19.7, 21.6, 21.6, 20.8, 20.0),
		NWtoSE: s(14.4, 13.8, 13.3, 13.0, 12.8, 13.3, 16.0, 18.1, 17.9, 16.2),
		SWtoSE: s(15.7, 15.4, 15.6, 16.6, 18.1, 20.4, 21.4, 20.8),
		NWtoNE: s(6.7, 6.4, 6.8, 8.1, 10.0, 11.1, 11.7, 11.4),
		SWtoNW: s(16.8, 16.1, 15.5, 14.7, 14.2, 13.6),
		SEtoNE: s(10.3, 10.0, 9.6, 9.0, 8.6, 7.6),
		WtoE:   s(6.9, 6.3, 6.0, 6.7, 8.7, 11.9, 13.6, 12.5),
		StoN:   s(8.3, 8.1, 9.1, 9.1, 8.1, 6.8),
	}
}

// Eight lines worked all together: the classical way leaves the two middle lines
// to close or not, least squares uses them.
func ExampleSurveyPlate() {
	s, err := wear.SurveyPlate(800*mm, 600*mm, unionJack(), 0.1*wear.ArcSecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := s.Flatness(wear.MinimumZone)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("flat to %.1f um, standard uncertainty %.1f um\n", float64(f.Value/um), float64(f.U/um))
	// Output:
	// flat to 5.7 um, standard uncertainty 0.1 um
}

// How far the lines through the middle fail to meet the diagonals tells whether the
// readings are worth working at all.
func ExampleSurveyPlateClassical() {
	s, err := wear.SurveyPlateClassical(800*mm, 600*mm, unionJack(), 0.1*wear.ArcSecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the middle closes to %.2f and %.2f um\n", float64(s.Closure[0]/um), float64(s.Closure[1]/um))
	// Output:
	// the middle closes to -0.10 and -0.05 um
}

// The other family of grades goes by the longest side.
func ExamplePlateLimitDIN() {
	for grade := range 4 {
		limit, err := wear.PlateLimitDIN(630*mm, grade)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("grade %d: %.1f um\n", grade, float64(limit)*1e6)
	}
	// Output:
	// grade 0: 6.5 um
	// grade 1: 16.3 um
	// grade 2: 32.6 um
	// grade 3: 65.2 um
}
