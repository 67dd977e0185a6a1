package wear_test

import (
	"fmt"
	"math"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

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
	// rate 2.22 um/yr, with a chance of 95 % from 1.87 to 2.72 um/yr
}
