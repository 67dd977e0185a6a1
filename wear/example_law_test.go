package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	exampleMillimetre = unit.Milli * unit.Metre
	exampleMicrometre = unit.Micro * unit.Metre
	exampleHour       = 3600 * unit.Second
	exampleYear       = 365.25 * 86400 * unit.Second
)

func ExampleWearFactor_Depth() {
	// A boundary-lubricated pair of K 1e-7 on iron of 2000 N/mm2.
	k, err := wear.FactorFromCoefficient(1e-7, 2e9*unit.Pascal, wear.WithoutThree)
	if err != nil {
		fmt.Println(err)
		return
	}
	depth := k.Depth(0.05e6*unit.Pascal, 2e6*unit.Metre)
	fmt.Printf("%.1f um\n", float64(depth/exampleMicrometre))
	// Output: 5.0 um
}

func ExampleFitEvent() {
	// Depths of one way by hours; its oil outlet was cleared at 1047 h.
	var readings []wear.MeasuredDepth
	for i, hours := range []unit.Time{0, 319, 636, 785, 943, 1102, 1250, 1553, 1860} {
		depth := unit.Length([]float64{25, 32, 37, 40, 43, 46, 48, 50, 52}[i])
		readings = append(readings, wear.MeasuredDepth{Clock: hours * exampleHour, Depth: depth * exampleMicrometre, U: 1 * exampleMicrometre})
	}
	e, err := wear.FitEvent(readings, 1047*exampleHour)
	if err != nil {
		fmt.Println(err)
		return
	}
	per := func(r wear.WearRate) float64 { return float64(r / wear.MicrometrePerThousandHour) }
	fmt.Printf("before %.1f, after %.1f, change %.1f, u %.1f um/1000 h; helped with a chance of %.4f\n",
		per(e.Before), per(e.After), per(e.Change), per(e.ChangeU), e.Helped)
	// Output: before 19.4, after 8.5, change -10.9, u 2.2 um/1000 h; helped with a chance of 1.0000
}

func ExampleForecast_Reach() {
	// Two surveys six years apart: is there a date at all?
	for _, later := range []unit.Length{22, 15} {
		line, err := wear.ForecastLine([]wear.MeasuredDepth{
			{Clock: 0, Depth: 10 * exampleMicrometre, U: 3 * exampleMicrometre},
			{Clock: 6 * exampleYear, Depth: later * exampleMicrometre, U: 3 * exampleMicrometre}})
		if err != nil {
			fmt.Println(err)
			return
		}
		c, err := line.Reach(40*exampleMicrometre, 0.95, 0)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: best %.0f, from %.0f, to %.0f yr\n", c.Kind, float64(c.At/exampleYear), float64(c.Low/exampleYear), float64(c.High/exampleYear))
	}
	// Output:
	// between two dates: best 15, from 10, to 42 yr
	// never, or not before: best 36, from 15, to +Inf yr
}

func ExampleSimulate() {
	// Five years with the work left of the middle, on a new way.
	way := wear.SlidingWay{From: -560 * exampleMillimetre, To: 560 * exampleMillimetre, Stations: 113, Bearing: 460 * exampleMillimetre, Width: 50 * exampleMillimetre,
		Load: 1000 * unit.Newton, Thrust: 200 * unit.Newton, Stiffness: 1e10,
		Table: 1e-6 * wear.CubicMillimetrePerNewtonMetre, Saddle: 1e-6 * wear.CubicMillimetrePerNewtonMetre}
	h, err := wear.Simulate(way, nil, []wear.Spell{{Time: 1500 * exampleHour, Speed: 0.01,
		Placements: []wear.Placement{{Place: -100 * exampleMillimetre, Stroke: 180 * exampleMillimetre, Share: 1}}}}, wear.HistoryOptions{Step: 5 * exampleHour})
	if err != nil {
		fmt.Println(err)
		return
	}
	depth, place := h.Deepest()
	fmt.Printf("%.1f mm3 lost; deepest %.1f um at %.0f mm\n", float64(h.TableVolume)*1e9, float64(depth/exampleMicrometre), float64(place/exampleMillimetre))
	// Output: 64.8 mm3 lost; deepest 5.1 um at 40 mm
}

func ExampleReadPositioning() {
	p, err := wear.ReadPositioning([]wear.Target{
		{Place: 0, Up: []unit.Length{1e-6, 2e-6}, Down: []unit.Length{-49e-6, -51e-6}},
		{Place: 0.3, Up: []unit.Length{1e-6, 3e-6}, Down: []unit.Length{-118e-6, -120e-6}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("lost motion %.0f um at %.0f mm; alike along the screw with a chance of %.6f\n", float64(p.Lost/exampleMicrometre), float64(p.LostAt/exampleMillimetre), p.VariesP)
	// Output: lost motion 121 um at 300 mm; alike along the screw with a chance of 0.000003
}

func ExampleSetGib() {
	plays := []wear.Play{{Travel: -0.3, Clear: 30e-6, U: 1e-6}, {Travel: 0, Clear: 55e-6, U: 1e-6}, {Travel: 0.3, Clear: 32e-6, U: 1e-6}}
	s, err := wear.SetGib(plays, wear.GibOptions{Film: 10 * exampleMicrometre, Rock: 40 * exampleMicrometre})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("close by %.0f um; %.0f um remain at the loose place; possible %v\n", float64(s.Close/exampleMicrometre), float64(s.Worst/exampleMicrometre), s.Possible)
	// Output: close by 18 um; 37 um remain at the loose place; possible true
}

func ExamplePlanScraping() {
	ways := wear.WornWays{Apart: 190 * exampleMillimetre, Bearing: 300 * exampleMillimetre,
		Places: []unit.Length{-0.4, -0.2, 0, 0.2, 0.4},
		Front:  []unit.Length{0, 12e-6, 30e-6, 12e-6, 0}, Rear: []unit.Length{0, 8e-6, 20e-6, 8e-6, 0}}
	plan, err := wear.PlanScraping(ways, 50*exampleMillimetre, wear.ScrapeOptions{Light: 2 * exampleMicrometre, Heavy: 10 * exampleMicrometre})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("most %.0f um, %d to %d passes; the new plane leans %.0f um/m across\n", float64(plan.Most/exampleMicrometre), plan.FewestPasses, plan.MostPasses, float64(plan.Across)*1e6)
	// Output: most 30 um, 3 to 15 passes; the new plane leans 53 um/m across
}

func ExampleWorthOfRebuild() {
	r := wear.Rebuild{Cost: wear.Sure(1000), LossPerMicrometre: wear.Sure(10), Harmless: 20 * exampleMicrometre, Depth: 40 * exampleMicrometre,
		Rate: 2 * wear.MicrometrePerYear, RateAfter: wear.Sure(1), Years: 10}
	w, err := wear.WorthOfRebuild(r, 100, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("worth %.0f, paid back after %.1f years\n", w.Worth, w.BreakEven)
	r.Depth, r.Rate = 10*exampleMicrometre, 0
	if w, err = wear.WorthOfRebuild(r, 100, 1); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("without wear: worth %.0f, paid back after %.1f years\n", w.Worth, w.BreakEven)
	// Output:
	// worth 2000, paid back after 4.1 years
	// without wear: worth -1000, paid back after +Inf years
}
