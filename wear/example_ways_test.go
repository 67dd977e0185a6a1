package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// The slopes of a table that runs in a hollow, and pockets that are left at its
// ends only: the depth in the middle comes from both.
func ExampleFitWays() {
	const mm, um = unit.Milli * unit.Metre, unit.Micro * unit.Metre
	readings := wear.WayReadings{Bearing: 300 * mm, Apart: 200 * mm,
		Pockets: wear.PocketOptions{New: 40 * um, NewU: 1 * um, Spread: 5 * um, Floor: 3 * um}}
	for i, slope := range []wear.Slope{-92, -70, 1, 71, 91} {
		readings.Along = append(readings.Along, wear.SlopePoint{Position: unit.Length(150*(i-2)) * mm, Slope: slope * 1e-6, U: 2e-6})
		readings.Across = append(readings.Across, wear.SlopePoint{Position: unit.Length(150*(i-2)) * mm, Slope: 0, U: 2e-6})
	}
	for _, u := range []unit.Length{-450 * mm, 450 * mm} {
		s := wear.PocketStation{Place: u, Depth: 38 * um, Found: 5, Total: 5}
		readings.Front, readings.Rear = append(readings.Front, s), append(readings.Rear, s)
	}
	fit, err := wear.FitWays(readings, []unit.Length{-450 * mm, 0 * mm, 450 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, u := range fit.Ways.Places {
		fmt.Printf("u = %4.0f mm: front %.0f um, standard uncertainty %.0f um\n",
			float64(u/mm), float64(fit.Ways.Front[i]/um), float64(fit.FrontU[i]/um))
	}
	// Output:
	// u = -450 mm: front 2 um, standard uncertainty 2 um
	// u =    0 mm: front 36 um, standard uncertainty 3 um
	// u =  450 mm: front 2 um, standard uncertainty 2 um
}
