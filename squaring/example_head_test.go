package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// Tightening moves the head a little differently each time. The next single
// tightening is less sure than the mean of the six before it.
func ExampleShift_NextU() {
	var trials []squaring.Slope
	for _, s := range []squaring.Slope{16, 21, 11, 21, 16, 16} {
		trials = append(trials, s*squaring.Microradian)
	}
	shift, err := squaring.SummariseShift(trials, 2*squaring.Microradian)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean %.0f um/m, u %.1f um/m; the next one u %.1f um/m\n",
		shift.Mean.Microradians(), shift.MeanU.Microradians(), shift.NextU().Microradians())
	// Output:
	// mean 17 um/m, u 1.5 um/m; the next one u 4.1 um/m
}

// When a new try is as likely to worsen as to better: at 0.674 of a scatter that
// is known, farther out when it comes from six settings only.
func ExampleNextTry_Break() {
	known := squaring.NextTry{Scatter: 8 * squaring.Microradian}
	few := squaring.NextTry{Scatter: 8 * squaring.Microradian, DegreesOfFreedom: 6 - 1}
	fmt.Printf("scatter 8 um/m, well known: even at %.1f um/m\n", known.Break().Microradians())
	fmt.Printf("scatter 8 um/m, from six settings: even at %.1f um/m\n", few.Break().Microradians())
	// Output:
	// scatter 8 um/m, well known: even at 5.4 um/m
	// scatter 8 um/m, from six settings: even at 5.8 um/m
}

// How many settings until one has likely come within 10 um/m, when each scatters
// by 15 um/m: plan the afternoon by it, or find a better way of tightening.
func ExampleTryChances_TriesNeeded() {
	chances, err := squaring.NextTry{Residual: 30 * squaring.Microradian, Scatter: 15 * squaring.Microradian, Tolerance: 10 * squaring.Microradian}.Chances()
	if err != nil {
		fmt.Println(err)
		return
	}
	tries, ok := chances.TriesNeeded(0.9)
	fmt.Printf("one try comes within with chance %.2f; %d tries for nine times in ten, %v\n", chances.Within, tries, ok)
	// Output:
	// one try comes within with chance 0.50; 4 tries for nine times in ten, true
}

// The sun on the front of the column: one kelvin across 200 mm of cast iron, half
// a metre high, nods the head by more than a good setting's scatter.
func ExampleColumnNod() {
	nod, err := squaring.ColumnNod(500*mm, 200*mm, squaring.CastIronExpansion, 1*unit.Kelvin)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f um/m, %.4f mm over 300 mm\n", nod.Microradians(), float64(nod.Per300()/mm))
	// Output:
	// 27 um/m, 0.0081 mm over 300 mm
}
