package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// 0.0012 in over a ring of 8 in: the slope, and what of its doubt is the span's.
func ExampleMeasureSlope() {
	s, err := squaring.MeasureSlope(1.2*squaring.Thou, 0.1*squaring.Thou, 8*squaring.Inch, 0.04*squaring.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f um/m, standard uncertainty %.0f um/m\n", s.Slope.Microradians(), s.Uncertainty.Microradians())
	fmt.Printf("%.1f um over 300 mm\n", float64(s.Slope.Per300()/(unit.Micro*unit.Metre)))
	// Output:
	// 150 um/m, standard uncertainty 13 um/m
	// 45.0 um over 300 mm
}

// The same head bolts tightened round and crosswise, six times each.
func ExampleCompareShifts() {
	summarise := func(trials ...squaring.Slope) squaring.Shift {
		for i := range trials {
			trials[i] *= squaring.Microradian
		}
		shift, err := squaring.SummariseShift(trials, 2*squaring.Microradian)
		if err != nil {
			fmt.Println(err)
		}
		return shift
	}
	round, crosswise := summarise(53, 63, 32, 63, 58, 63), summarise(16, 21, 11, 21, 16, 16)
	d, err := squaring.CompareShifts(round, crosswise)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the means differ by %.0f um/m, standard uncertainty %.0f um/m\n", d.Mean.Microradians(), d.MeanU.Microradians())
	fmt.Println("by chance alone less than once in a hundred:", d.Chance < 0.01)
	// Output:
	// the means differ by 38 um/m, standard uncertainty 5 um/m
	// by chance alone less than once in a hundred: true
}

// A process that makes parts with a scatter of 12 um against a tolerance of
// 20 um either way, measured to 2 um: how often does the gauge decide wrongly?
func ExampleTolerance_GlobalRisks() {
	const um = 1e-6
	limits := squaring.Within(20 * um)
	for _, guard := range []float64{0, 2 * um} {
		accept := squaring.Within(20*um - guard)
		r, err := limits.GlobalRisks(accept, 0, 12*um, 2*um)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("guard band %.0f um: bad ones passed %.2f %%, good ones refused %.2f %%\n", guard/um, 100*r.Consumer, 100*r.Producer)
	}
	// Output:
	// guard band 0 um: bad ones passed 1.11 %, good ones refused 1.57 %
	// guard band 2 um: bad ones passed 0.24 %, good ones refused 4.58 %
}

// A mill whose travels are open by 35 um/m and whose table sinks and leans,
// under the names that ISO 230-1 gives to its errors.
func ExampleMachine_NamedErrors() {
	mill := squaring.Machine{C0Y: 35 * unit.Micro * unit.Rad, X: squaring.MotionFromWays(
		func(x unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle) {
			return -20 * unit.Micro * unit.Metre, 40e-6, 0, 0, 0
		})}
	errors, err := mill.NamedErrors(100*unit.Milli*unit.Metre, 0, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range errors {
		if e.Length != 0 || e.Angle != 0 {
			fmt.Println(e)
		}
	}
	// Output:
	// EZX 24.00 um
	// EBX 40.00 um/m
	// C0Y 35.00 um/m
}
