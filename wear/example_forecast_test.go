package wear_test

import (
	"fmt"
	"math"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// yearly returns depths in micrometres read once a year, from the first day on.
func yearly(u unit.Length, depths ...float64) []wear.MeasuredDepth {
	var r []wear.MeasuredDepth
	for i, d := range depths {
		r = append(r, wear.MeasuredDepth{Clock: unit.Time(i) * exampleYear, Depth: unit.Length(d) * um, U: u})
	}
	return r
}

// A line knows its own depth less well the farther it is carried on.
func ExampleForecast_At() {
	line, err := wear.ForecastLine(yearly(1*um, 10, 12.5, 14, 17, 19))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, year := range []unit.Time{2, 4, 10} {
		depth, u := line.At(year * exampleYear)
		fmt.Printf("year %2.0f: %.1f um, standard uncertainty %.1f um\n", float64(year), float64(depth/um), float64(u/um))
	}
	// Output:
	// year  2: 14.5 um, standard uncertainty 0.4 um
	// year  4: 19.0 um, standard uncertainty 0.8 um
	// year 10: 32.5 um, standard uncertainty 2.6 um
}

// Where the line lies is one question, what the next reading will show another:
// its own scatter comes on top.
func ExampleForecast_Interval() {
	line, err := wear.ForecastLine(yearly(0, 10, 12.5, 14, 17, 19))
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := line.Interval(6*exampleYear, 0.95, 0)
	fmt.Printf("the depth: %.1f to %.1f um\n", float64(low/um), float64(high/um))
	low, high = line.Interval(6*exampleYear, 0.95, line.Scatter)
	fmt.Printf("a reading: %.1f to %.1f um\n", float64(low/um), float64(high/um))
	// Output:
	// the depth: 22.0 to 25.0 um
	// a reading: 21.6 to 25.4 um
}

// A chance is asked of a day, not of a rate: one year changes it from hardly to
// almost surely.
func ExampleForecast_ChanceAbove() {
	line, err := wear.ForecastLine(yearly(1*um, 10, 12.5, 14, 17, 19))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, year := range []unit.Time{8, 9, 11} {
		fmt.Printf("year %2.0f: %.2f\n", float64(year), line.ChanceAbove(30*um, year*exampleYear))
	}
	// Output:
	// year  8: 0.15
	// year  9: 0.54
	// year 11: 0.95
}

// Running-in slows down by itself: a power law sees it where a line overshoots.
func ExampleFitPower() {
	var readings []wear.MeasuredDepth
	for i, cycles := range []unit.Time{2, 5, 10, 20, 50, 100, 200, 500} {
		depth := []float64{3.168, 4.063, 4.453, 4.744, 5.838, 6.786, 7.737, 9.593}[i]
		readings = append(readings, wear.MeasuredDepth{Clock: cycles, Depth: unit.Length(depth) * um})
	}
	power, err := wear.FitPower(readings)
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := power.Interval(1000, 0.95)
	fmt.Printf("depth grows as use to the power of %.2f; after 1000 cycles %.1f um, a reading from %.1f to %.1f um\n",
		power.Exponent, float64(power.At(1000)/um), float64(low/um), float64(high/um))
	// Output:
	// depth grows as use to the power of 0.19; after 1000 cycles 10.6 um, a reading from 9.5 to 11.9 um
}

// Wear that levels off has a depth that it will not pass; a straight line through the
// same readings would go on.
func ExampleForecastSaturating() {
	curve, err := wear.ForecastSaturating(yearly(0.5*um, 5, 13.5, 19.6, 24, 27.1, 29.3, 30.9, 32.1))
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := curve.Interval(15*exampleYear, 0.95, 0)
	fmt.Printf("levels off at %.0f um; in year 15 at %.0f um, from %.0f to %.0f um\n",
		float64(curve.Final/um), float64(curve.At(15*exampleYear)/um), float64(low/um), float64(high/um))
	// Output:
	// levels off at 35 um; in year 15 at 35 um, from 33 to 36 um
}

// A limit above the level is never reached, whatever a straight line would say.
func ExampleSaturating_Reach() {
	curve, err := wear.ForecastSaturating(yearly(0.5*um, 5, 13.5, 19.6, 24, 27.1, 29.3, 30.9, 32.1))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, limit := range []unit.Length{33.5 * um, 45 * um} {
		c, err := curve.Reach(limit, 0.95, 7*exampleYear, 60*exampleYear)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f um: %v\n", float64(limit/um), c.Kind)
	}
	// Output:
	// 33.5 um: never, or not before
	// 45.0 um: never
}

// What a gauge could not see still counts: below its floor is a reading.
func ExampleReachBounded() {
	var readings []wear.BoundedDepth
	for i, depth := range []unit.Length{0, 0, 0, 8.1 * um, 9.4 * um, 12.2 * um, 13.6 * um, 16.4 * um} {
		r := wear.BoundedDepth{Clock: unit.Time(i+1) * exampleYear, Low: depth, High: depth}
		if depth == 0 { // the gauge shows nothing below 5 um
			r.Low, r.High = unit.Length(math.Inf(-1)), 5*um
		}
		readings = append(readings, r)
	}
	c, err := wear.ReachBounded(readings, 30*um, 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("30 um after %.1f years, from %.1f to %.1f\n", float64(c.At/exampleYear), float64(c.Low/exampleYear), float64(c.High/exampleYear))
	// Output:
	// 30 um after 14.2 years, from 12.6 to 15.8
}

// A rate before and one after share the depth on the day: few readings leave the
// factor of their interval well above 2.
func ExampleEvent_Coverage() {
	event, err := wear.FitEvent(yearly(0, 0, 6.3, 12, 18.4, 20, 22.3, 24), 3*exampleYear)
	if err != nil {
		fmt.Println(err)
		return
	}
	half := event.Coverage(0.95) * float64(event.ChangeU/wear.MicrometrePerYear)
	fmt.Printf("the rate changed by %.1f um/yr, give or take %.1f with a chance of 95 %%\n", float64(event.Change/wear.MicrometrePerYear), half)
	// Output:
	// the rate changed by -4.1 um/yr, give or take 0.4 with a chance of 95 %
}

// Depth of the bent line on any day, with what the readings leave open there.
func ExampleEvent_Depth() {
	event, err := wear.FitEvent(yearly(1*um, 0, 6.3, 12, 18.4, 20, 22.3, 24), 3*exampleYear)
	if err != nil {
		fmt.Println(err)
		return
	}
	depth, u := event.Depth(8 * exampleYear)
	fmt.Printf("in year 8: %.0f um, standard uncertainty %.0f um\n", float64(depth/um), float64(u/um))
	// Output:
	// in year 8: 28 um, standard uncertainty 2 um
}

// The way that was cleared beside the one that was not: what changed for both, a
// kinder job perhaps, drops out.
func ExampleEvent_Beyond() {
	cleared, err := wear.FitEvent(yearly(1*um, 0, 6, 12, 18, 20, 22, 24), 3*exampleYear)
	if err != nil {
		fmt.Println(err)
		return
	}
	other, err := wear.FitEvent(yearly(1*um, 0, 4, 8, 12, 15, 18, 21), 3*exampleYear)
	if err != nil {
		fmt.Println(err)
		return
	}
	beyond := cleared.Beyond(other)
	fmt.Printf("alone %.1f um/yr; beyond the other way %.1f um/yr, helped with a chance of %.2f\n",
		float64(cleared.Change/wear.MicrometrePerYear), float64(beyond.Change/wear.MicrometrePerYear), beyond.Helped)
	// Output:
	// alone -4.0 um/yr; beyond the other way -3.0 um/yr, helped with a chance of 1.00
}

// Three wipers changed, three still good: leaving out the good ones would make life
// look shorter than it is.
func ExampleSurviving() {
	s, err := wear.Surviving([]wear.Life{{Time: 400 * exampleHour, Failed: true}, {Time: 500 * exampleHour}, {Time: 700 * exampleHour, Failed: true},
		{Time: 800 * exampleHour}, {Time: 900 * exampleHour, Failed: true}, {Time: 1200 * exampleHour}})
	if err != nil {
		fmt.Println(err)
		return
	}
	share, u := s.At(750 * exampleHour)
	fmt.Printf("%.2f last beyond 750 h, standard uncertainty %.2f; half have failed by %.0f h\n", share, u, float64(s.Median()/exampleHour))
	// Output:
	// 0.62 last beyond 750 h, standard uncertainty 0.21; half have failed by 900 h
}
