package wear_test

import (
	"fmt"

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
