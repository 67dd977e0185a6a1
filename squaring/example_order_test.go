package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func ExampleOrder_Forecast() {
	const um = 1e-6 // metres
	f, err := squaring.Order{Tolerance: squaring.Within(20 * um), Shares: []squaring.OrderShare{
		{Source: "ways", Value: 6 * um, Spread: squaring.FixedSpread},
		{Source: "setting", Spread: squaring.NormalSpread, Width: 5 * um},
		{Source: "dirt", Spread: squaring.RectangularSpread, Width: 4 * um},
	}}.Forecast()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("error %.1f um, u %.1f um; %.1f %% good\n", f.Mean/um, f.Uncertainty/um, 100*f.Conforming)
	fmt.Printf("share %d has %.0f %% of the variance\n", f.Largest+1, 100*f.Parts[f.Largest])
	// Output:
	// error 6.0 um, u 5.5 um; 99.4 % good
	// share 2 has 82 % of the variance
}

func ExampleOrder_Trials() {
	o := squaring.Order{Tolerance: squaring.Within(3), Shares: []squaring.OrderShare{
		{Source: "one", Spread: squaring.RectangularSpread, Width: 2},
		{Source: "other", Spread: squaring.RectangularSpread, Width: 2},
	}}
	t, err := o.Trials(squaring.TrialOptions{Trials: 200_000, Seed: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	// A triangle from -4 to 4: one sixteenth lies beyond 3.
	fmt.Printf("%.0f %% within\n", 100*t.Conforming)
	// Output:
	// 94 % within
}

func ExampleCutFace_Map() {
	const mm = unit.Milli * unit.Metre
	m, err := squaring.CutFace{Tilt: squaring.Gradient{X: 200 * squaring.Microradian}, Diameter: 120 * mm, Length: 150 * mm, Width: 90 * mm,
		Tracks: []unit.Length{45 * mm}, Columns: 31, Rows: 91}.Map()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("hollow %.2f um, leading edge %d of %d points\n", float64(m.Flatness()/(unit.Micro*unit.Metre)), m.Leading, len(m.Heights))
	// Output:
	// hollow 4.06 um, leading edge 2821 of 2821 points
}

func ExampleFitCrossEffect() {
	turns := []squaring.AxisTrial{
		{Asked: squaring.Gradient{X: 200e-6}, After: squaring.Gradient{X: 190e-6, Y: -20e-6}},
		{Asked: squaring.Gradient{Y: 200e-6}, After: squaring.Gradient{X: 40e-6, Y: 210e-6}},
	}
	c, err := squaring.FitCrossEffect(turns, squaring.Gradient{X: 8e-6, Y: 10e-6})
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := c.Plan(squaring.Gradient{X: 232e-6, Y: 231e-6}, squaring.Gradient{}, 15e-6)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("a nod of 100 um/m turns the head by %.0f; first the %s, until it shows %.0f and %.0f um/m\n",
		100*c.XY, p.First, p.AfterFirst.X.Microradians(), p.AfterFirst.Y.Microradians())
	// Output:
	// a nod of 100 um/m turns the head by 20; first the nod, until it shows 184 and -19 um/m
}

func ExampleClosePolygon() {
	var round []unit.Angle
	for _, over := range []unit.Angle{4.2, -1.6, 3.0, -2.4} {
		round = append(round, over*squaring.Arcsecond)
	}
	p, err := squaring.ClosePolygon([][]unit.Angle{round}, 0.5*squaring.Arcsecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("reference 90 deg %+.1f arcsec; first corner 90 deg %+.1f arcsec\n",
		float64(p.Reference.Angle/squaring.Arcsecond), float64(p.Corners[0].Angle/squaring.Arcsecond))
	// Output:
	// reference 90 deg -0.8 arcsec; first corner 90 deg +3.4 arcsec
}

func ExampleCompareSquares() {
	s, err := squaring.CompareSquares([]squaring.Slope{16e-6}, []squaring.Slope{-7e-6}, []squaring.Slope{33e-6}, 4*squaring.Microradian)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, e := range s.Errors {
		fmt.Printf("square %d: %.0f um/m, u %.1f\n", i+1, e.Slope.Microradians(), e.Uncertainty.Microradians())
	}
	// Output:
	// square 1: 28 um/m, u 3.5
	// square 2: -12 um/m, u 3.5
	// square 3: 5 um/m, u 3.5
}

// One rectangular share that rules: the law takes it for a bell and promises a
// wider range than there is. The trials show it.
func ExampleForecast_Against() {
	const um = 1e-6 // metres
	o := squaring.Order{Tolerance: squaring.Within(20 * um), Shares: []squaring.OrderShare{
		{Source: "dirt", Spread: squaring.RectangularSpread, Width: 12 * um},
		{Source: "setting", Spread: squaring.NormalSpread, Width: 1 * um},
	}}
	law, err := o.Forecast()
	if err != nil {
		fmt.Println(err)
		return
	}
	trials, err := o.Trials(squaring.TrialOptions{Trials: 100_000, Seed: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	v := law.Against(trials)
	fmt.Printf("ends of the 95 %% range %.0f um apart, %.1f um allowed: agree %v\n", v.High/um, v.Tolerance/um, v.Agree)
	// Output:
	// ends of the 95 % range 2 um apart, 0.5 um allowed: agree false
}
