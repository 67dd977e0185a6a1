package plating_test

import (
	"fmt"

	"example.org/thouspan/plating"
	"gonum.org/v1/gonum/unit"
)

// From a coat back to its charge, and how long that takes: 20 um of nickel on
// 50 cm2 at 3 A/dm2, of whose current 95 in 100 lays down metal.
func ExampleDeposit_TimeFor() {
	const um, efficiency = unit.Micro * unit.Metre, 0.95
	nickel := plating.Nickel().Deposit()
	mass, err := nickel.MassOfCoat(20*um, 50*plating.SquareCentimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	charge, err := nickel.Charge(mass, efficiency)
	if err != nil {
		fmt.Println(err)
		return
	}
	time, err := nickel.TimeFor(20*um, 3*plating.AmperePerSquareDecimetre, efficiency)
	if err != nil {
		fmt.Println(err)
		return
	}
	rate, err := nickel.Rate(3*plating.AmperePerSquareDecimetre, efficiency)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f g, %.2f A h, %.0f min at %.2f um/min\n", float64(mass)*1e3, float64(charge/plating.AmpereHour), float64(time)/60, float64(rate)*60e6)
	// Output: 0.89 g, 0.86 A h, 34 min at 0.58 um/min
}

// And forward: what the scale should show after two ampere hours, and the mean
// thickness that this is on a square decimetre.
func ExampleDeposit_Mass() {
	nickel := plating.Nickel().Deposit()
	mass, err := nickel.Mass(2*plating.AmpereHour, 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	thickness, err := nickel.Thickness(mass, 1*plating.SquareDecimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f g, %.1f um\n", float64(mass)*1e3, float64(thickness)*1e6)
	// Output: 2.08 g, 23.4 um
}

// The same charge lays down much more of a metal whose ions take up one electron
// than of one whose ions take up three.
func ExampleMetal_Equivalent() {
	for _, metal := range []plating.Metal{plating.Nickel(), plating.Cobalt(), plating.Copper(), plating.Zinc(), plating.Tin(), plating.Silver(), plating.Gold(), plating.Iron()} {
		fmt.Printf("%s: %.3f g/(A h)\n", metal.Name, float64(metal.Equivalent()/plating.GramPerAmpereHour))
	}
	// Output:
	// nickel: 1.095 g/(A h)
	// cobalt: 1.099 g/(A h)
	// copper: 1.185 g/(A h)
	// zinc: 1.220 g/(A h)
	// tin: 2.215 g/(A h)
	// silver: 4.025 g/(A h)
	// gold: 7.349 g/(A h)
	// iron: 1.042 g/(A h)
}

// A bronze, its make-up given in atoms, not in grams.
func ExampleAlloyByMole() {
	bronze, err := plating.AlloyByMole("bronze", 8.8*plating.GramPerCubicCentimetre,
		plating.AlloyShare{Metal: plating.Copper(), Share: 0.9}, plating.AlloyShare{Metal: plating.Tin(), Share: 0.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f g/(A h)\n", float64(bronze.Equivalent/plating.GramPerAmpereHour))
	// Output: 1.288 g/(A h)
}

// How big a test piece must be for a scale of 0.01 g to say something: 0.5 g in
// 15 um.
func ExampleDeposit_AreaForGain() {
	area, err := plating.Nickel().Deposit().AreaForGain(0.5*unit.Milli*unit.Kilogram, 15*unit.Micro*unit.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f cm2\n", float64(area/plating.SquareCentimetre))
	// Output: 37 cm2
}

// How many runs bring a doubt of 2 in 100 a run down to half a percent, when the
// doubts are independent.
func ExampleQuestion_RunsNeeded() {
	runs, err := plating.Question{Change: 0.03, Efficiency: 0.95}.RunsNeeded(0.02)
	fmt.Println(runs, err)
	// Output: 4 <nil>
}

// What the mean thickness is, and which doubt is the largest.
func ExampleWeighed_MeanThickness() {
	const gram = unit.Milli * unit.Kilogram
	scale := plating.Scale{Resolution: 0.01 * gram, Handling: 0.005 * gram}
	part, err := plating.Area("bracket", 62*plating.SquareCentimetre, 2*plating.SquareCentimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	weighed := plating.Weighed{Gain: 0.83 * gram, GainU: scale.GainU()}
	thickness, u, shares, err := weighed.MeanThickness(plating.Nickel().Deposit(), part)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um, standard uncertainty %.1f um\n", float64(thickness)*1e6, float64(u)*1e6)
	for _, share := range shares {
		fmt.Printf("%s: %.2f um\n", share.Name, share.U*1e6)
	}
	// Output:
	// 15.0 um, standard uncertainty 0.5 um
	// weighing: 0.12 um
	// area: 0.48 um
	// density: 0.01 um
}

// Four weighed runs as one figure. The chi-squared says whether they agree: with
// four runs about 3 is usual.
func ExamplePoolEfficiency() {
	pooled, err := plating.PoolEfficiency([]plating.EfficiencyReading{
		{Efficiency: 0.957, U: 0.010}, {Efficiency: 0.943, U: 0.012}, {Efficiency: 0.949, U: 0.007}, {Efficiency: 0.961, U: 0.015}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %%, standard uncertainty %.1f %%, chi-squared %.1f\n", 100*pooled.Efficiency, 100*pooled.U, pooled.ChiSquared)
	// Output: 95.1 %, standard uncertainty 0.5 %, chi-squared 1.3
}

// A bath's efficiency falls at low current density; between the points it goes
// straight.
func ExampleEfficiencyCurve_At() {
	curve := plating.EfficiencyCurve{
		{CurrentDensity: 0.5 * plating.AmperePerSquareDecimetre, Efficiency: 0.90},
		{CurrentDensity: 2 * plating.AmperePerSquareDecimetre, Efficiency: 0.96}}
	if err := curve.Validate(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f\n", curve.At(1*plating.AmperePerSquareDecimetre))
	curve[1].CurrentDensity = 0
	fmt.Println(curve.Validate())
	// Output:
	// 0.92
	// plating: current density of efficiency point 2 is 0 A/dm2, must be above that of the point before, 0.5 A/dm2
}

// A soft start, the run, and the lead that fell off for four minutes: what charge
// had passed after twenty minutes, and when the coat has its 10 um.
func ExampleSchedule_TimeTo() {
	run := plating.Schedule{
		{From: 0, To: 2 * unit.Ampere, Time: 2 * minute},
		plating.Steady(2*unit.Ampere, 10*minute),
		plating.Pause(4 * minute),
		plating.Steady(2*unit.Ampere, 40*minute),
	}
	if err := run.Validate(); err != nil {
		fmt.Println(err)
		return
	}
	soFar := run.Until(20 * minute)
	fmt.Printf("%.0f of %.0f min, %.2f A h\n", float64(soFar.Time()/minute), float64(run.Time()/minute), float64(soFar.Charge()/plating.AmpereHour))
	t, err := run.TimeTo(10*unit.Micro*unit.Metre, plating.Nickel().Deposit(), 66*plating.SquareCentimetre, plating.ConstantEfficiency(0.95))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("10 um after %.0f min\n", float64(t/minute))
	// Output:
	// 20 of 56 min, 0.50 A h
	// 10 um after 22 min
}

// What the supply's display is worth: steps of 10 mA, 1 in 100 of what it shows.
func ExampleSupply_CurrentU() {
	supply := plating.Supply{Step: 10 * unit.Milli * unit.Ampere, Accuracy: 0.01, Most: 3 * unit.Ampere}
	fmt.Printf("%.0f mA\n", float64(supply.CurrentU(2*unit.Ampere))*1e3)
	// Output: 20 mA
}
