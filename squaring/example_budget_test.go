package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
)

// What goes into the doubt of a tilt: eight readings, a gain good to 0.35 % and a
// radius taken with a rule, of which one only says that it lies within half a
// millimetre. The readings rule; a better rule would gain nothing.
func ExampleBudget() {
	const tilt, urad = 240e-6, 1e-6
	// Judged good to a quarter: it counts like eight degrees of freedom.
	judged, err := squaring.DegreesFromReliability(0.25)
	if err != nil {
		fmt.Println(err)
		return
	}
	budget := squaring.Budget{
		{Source: "readings", Uncertainty: 8 * urad, DegreesOfFreedom: 8 - 3},
		{Source: "gain", Uncertainty: 0.0035 * tilt, DegreesOfFreedom: 10},
		{Source: "radius, within 0.5 mm of 110 mm", Uncertainty: squaring.RectangularSpread.Uncertainty(0.5/110) * tilt, DegreesOfFreedom: judged},
	}
	u, nu := budget.Combined(), budget.DegreesOfFreedom()
	factor, err := squaring.CoverageFactor(0.95, nu)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("u %.1f um/m with %.1f degrees of freedom; 95 %% lie within %.0f um/m\n", u/urad, nu, factor*u/urad)
	// Output:
	// u 8.1 um/m with 5.2 degrees of freedom; 95 % lie within 21 um/m
}

// Limits say how far, not how often. Where the middle is likelier, as with a part
// seated against a stop, the standard uncertainty is smaller by a root of two.
func ExampleSpread_Uncertainty() {
	for _, spread := range []squaring.Spread{squaring.RectangularSpread, squaring.TriangularSpread} {
		share := squaring.OrderShare{Source: "seating", Spread: spread, Width: 4e-6}
		fmt.Printf("within 4 um, %s: u %.1f um\n", spread, share.Uncertainty()*1e6)
	}
	// Output:
	// within 4 um, rectangular: u 2.3 um
	// within 4 um, triangular: u 1.6 um
}

// A figure that may itself be wrong by half is worth two degrees of freedom.
func ExampleDegreesFromReliability() {
	for _, reliability := range []float64{0.10, 0.25, 0.50} {
		nu, err := squaring.DegreesFromReliability(reliability)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("good to %.0f %%: %.0f\n", 100*reliability, nu)
	}
	// Output:
	// good to 10 %: 50
	// good to 25 %: 8
	// good to 50 %: 2
}
