package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

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
