package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// A level along a table that runs in a hollow: what does a rail of 600 mm
// come out like at two places?
func ExampleMapTable() {
	var slopes []wear.SlopePoint
	for i, slope := range []wear.Slope{60, 60, 110, 190, 245, 255, 250} {
		slopes = append(slopes, wear.SlopePoint{Position: unit.Length(120*(i-3)) * mm, Slope: slope * 1e-6, U: 2e-6})
	}
	table, err := wear.MapTable(slopes, 360*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, place := range []unit.Length{0, -60 * mm} {
		s, err := table.Spot(place, 600*mm, 0)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("at u = %.0f mm: bow %.1f um, standard uncertainty %.1f um\n", float64(s.Place/mm), float64(s.Bow/um), float64(s.BowU/um))
	}
	// Output:
	// at u = 0 mm: bow 11.9 um, standard uncertainty 1.5 um
	// at u = -60 mm: bow 10.8 um, standard uncertainty 1.5 um
}

// Depths of one way by hours, the day of the change forgotten: the readings
// alone put it between two dates, or say that there was none.
func ExampleFindEvent() {
	var readings []wear.MeasuredDepth
	for i, hours := range []unit.Time{0, 319, 636, 785, 943, 1102, 1250, 1553, 1860} {
		depth := unit.Length([]float64{25, 32, 37, 40, 43, 46, 48, 50, 52}[i])
		readings = append(readings, wear.MeasuredDepth{Clock: hours * exampleHour, Depth: depth * exampleMicrometre, U: 1 * exampleMicrometre})
	}
	found, err := wear.FindEvent(readings, wear.EventSearch{Dates: 30, Draws: 200, Seed: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("a straight line would do this less than once in a hundred:", found.NoChangeP < 0.01)
	fmt.Println("the day it was cleared, 1047 h, lies between:", found.Low <= 1047*exampleHour && 1047*exampleHour <= found.High)
	// Output:
	// a straight line would do this less than once in a hundred: true
	// the day it was cleared, 1047 h, lies between: true
}

// Where the work lies the way wears: two thirds of the sliding on a quarter of
// the length.
func ExampleWearByUse() {
	worn, err := wear.WearByUse(1e-7*wear.CubicMillimetrePerNewtonMetre, 1500, 40*mm, 200000*unit.Metre,
		[]wear.Zone{{Length: 200 * mm, Share: 2.0 / 3}, {Length: 600 * mm, Share: 1.0 / 3}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, z := range worn {
		fmt.Printf("%.1f um\n", float64(z.Depth/um))
	}
	// Output:
	// 2.5 um
	// 0.4 um
}
