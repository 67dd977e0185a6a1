package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// The middle of the way slides through every stroke; its ends only while the saddle
// is over them.
func ExampleSlidingAt() {
	slid, err := wear.SlidingAt(300*mm, wear.Placement{Stroke: 200 * mm, Share: 1}, []unit.Length{-200 * mm, -100 * mm, 0, 250 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range slid {
		fmt.Printf("%.0f mm\n", float64(s/mm))
	}
	// Output:
	// 50 mm
	// 150 mm
	// 200 mm
	// 0 mm
}

// Where the work lay, weighted by how much of it: the sliding that a mean stroke
// makes at each place.
func ExampleUseHistogram() {
	slid, err := wear.UseHistogram(360*mm, []wear.Placement{{Place: -180 * mm, Stroke: 150 * mm, Share: 0.9}, {Place: 0, Stroke: 300 * mm, Share: 0.1}},
		[]unit.Length{-180 * mm, 0, 180 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f, %.0f and %.0f mm a stroke\n", float64(slid[0]/mm), float64(slid[1]/mm), float64(slid[2]/mm))
	// Output:
	// 150, 98 and 15 mm a stroke
}

// A load beyond the middle third lifts one end of the pad, and the rest carries all.
func ExamplePressureUnderPad() {
	for _, off := range []unit.Length{0, 30 * mm, 75 * mm} {
		p, err := wear.PressureUnderPad(1200, 300*mm, 60*mm, off)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f mm off: %.0f to %.0f kPa over %.0f mm\n", float64(off/mm), float64(p.Least)/1e3, float64(p.Most)/1e3, float64(p.Touching/mm))
	}
	// Output:
	// 0 mm off: 67 to 67 kPa over 300 mm
	// 30 mm off: 27 to 107 kPa over 300 mm
	// 75 mm off: 0 to 178 kPa over 225 mm
}

// A bushing wears by the law of the ways, with the pressure running round it as a
// cosine.
func ExampleBushing_Life() {
	life, turns, err := wear.Bushing{Bore: 16 * mm, Length: 20 * mm, Load: 120, Speed: 0.05, Factor: 2e-6 * wear.CubicMillimetrePerNewtonMetre}.Life(0.1 * mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f h, %.1f million turns\n", float64(life/exampleHour), turns/1e6)
	// Output:
	// 582 h, 2.1 million turns
}

// Tables give a pure number in one of two spellings: the same wear, a factor of
// three apart.
func ExampleWearFactor_Coefficient() {
	k := 5e-8 * wear.CubicMillimetrePerNewtonMetre
	for _, spelling := range []wear.Spelling{wear.WithoutThree, wear.WithThree} {
		c, err := k.Coefficient(2e9*unit.Pascal, spelling)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %.1e\n", spelling, c)
	}
	// Output:
	// V = K W s / H: 1.0e-07
	// V = K W s / (3 H): 3.0e-07
}

// A coefficient out of a table becomes a factor with a unit, once its hardness and
// its spelling are known.
func ExampleFactorFromCoefficient() {
	k, err := wear.FactorFromCoefficient(1e-4, 2e9*unit.Pascal, wear.WithoutThree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0e mm3/(N m)\n", float64(k/wear.CubicMillimetrePerNewtonMetre))
	// Output:
	// 5e-05 mm3/(N m)
}

// What is lost does not hang on the size of the face, only on load and distance.
func ExampleWearFactor_Volume() {
	k := 5e-8 * wear.CubicMillimetrePerNewtonMetre
	fmt.Printf("%.1f mm3\n", float64(k.Volume(950, 100_000*unit.Metre))*1e9)
	// Output:
	// 4.8 mm3
}

// How far a way may slide until a limit: the law turned round.
func ExampleWearFactor_Distance() {
	k := 5e-8 * wear.CubicMillimetrePerNewtonMetre
	fmt.Printf("%.0f km\n", float64(k.Distance(20*um, 0.06e6*unit.Pascal))/1e3)
	// Output:
	// 6667 km
}

// Moving the vise spreads the wear to come: the fairest place leaves the way
// straightest, not least worn.
func ExampleFairPlaces() {
	at := []unit.Length{-400 * mm, -200 * mm, 0, 200 * mm, 400 * mm}
	depths := []unit.Length{0, 4 * um, 12 * um, 20 * um, 12 * um}
	fair, best, err := wear.FairPlaces(at, depths, 360*mm, 200*mm, 10*um, []unit.Length{-200 * mm, 0, 200 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, f := range fair {
		fmt.Printf("work at %4.0f mm: uneven by %.1f um, fairest: %v\n", float64(f.Place/mm), float64(f.Uneven/um), i == best)
	}
	// Output:
	// work at -200 mm: uneven by 4.3 um, fairest: true
	// work at    0 mm: uneven by 6.9 um, fairest: false
	// work at  200 mm: uneven by 6.6 um, fairest: false
}

// The same use followed on a way as it was: by what its factor must be multiplied to
// explain the later survey.
func ExampleFitFactor() {
	fit, err := wear.FitFactor(shopWay(), resurveyed(12), fiveYears(), wear.HistoryOptions{Step: 50 * exampleHour})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f times the factor assumed, standard uncertainty %.1f; agrees: %v\n", fit.Times, fit.TimesU, fit.Agreement > 0.05)
	// Output:
	// 2.6 times the factor assumed, standard uncertainty 0.4; agrees: true
}

// Two ways, one use: a ratio of two uncertain factors reaches farther up than down.
func ExampleFactorFit_Over() {
	front, err := wear.FitFactor(shopWay(), resurveyed(24), fiveYears(), wear.HistoryOptions{Step: 50 * exampleHour})
	if err != nil {
		fmt.Println(err)
		return
	}
	rear, err := wear.FitFactor(shopWay(), resurveyed(10), fiveYears(), wear.HistoryOptions{Step: 50 * exampleHour})
	if err != nil {
		fmt.Println(err)
		return
	}
	ratio, err := front.Over(rear, 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f times as fast, from %.1f to %.1f with a chance of 95 %%\n", ratio.Times, ratio.Low, ratio.High)
	// Output:
	// 2.4 times as fast, from 1.7 to 3.8 with a chance of 95 %
}

// A way that wears in one place goes hollow: how far it departs from a straight line
// of its own.
func ExampleHistory_Uneven() {
	h, err := wear.Simulate(shopWay(), nil, fiveYears(), wear.HistoryOptions{Step: 50 * exampleHour})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um root mean square about the best line\n", float64(h.Uneven()/um))
	// Output:
	// 1.9 um root mean square about the best line
}

// shopWay is a way with its load over the middle, fiveYears its use.
func shopWay() wear.SlidingWay {
	return wear.SlidingWay{From: -560 * mm, To: 560 * mm, Stations: 57, Bearing: 360 * mm, Width: 50 * mm,
		Load: 350 * unit.Newton, Thrust: 600 * unit.Newton, Stiffness: 2.4e9,
		Table: 1e-6 * wear.CubicMillimetrePerNewtonMetre, Saddle: 1e-6 * wear.CubicMillimetrePerNewtonMetre}
}

func fiveYears() []wear.Spell {
	return []wear.Spell{{Time: 1500 * exampleHour, Speed: 0.015, Placements: []wear.Placement{{Place: -100 * mm, Stroke: 180 * mm, Share: 1}}}}
}

// resurveyed returns two surveys between which a way lost up to a depth in
// micrometres where the saddle ran.
func resurveyed(lost float64) []wear.RewornStation {
	var stations []wear.RewornStation
	for i, share := range []float64{0, 0.3, 0.9, 1, 0.8, 0.2, 0} {
		stations = append(stations, wear.RewornStation{Place: unit.Length(120*(i-3))*mm - 60*mm, BeforeU: 2 * um, After: unit.Length(lost*share) * um, AfterU: 2 * um})
	}
	return stations
}
