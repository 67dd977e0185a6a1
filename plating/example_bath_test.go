package plating_test

import (
	"fmt"

	"example.org/thouspan/plating"
	"gonum.org/v1/gonum/unit"
)

// An odd part wrapped in kitchen foil: its area from the foil's weight.
func ExampleFoilWrap() {
	const cm2, gram = 1e-4 * unit.Area(1), unit.Milli * unit.Kilogram
	piece, err := plating.Area("a square of the foil", 100*cm2, 0.3*cm2)
	if err != nil {
		fmt.Println(err)
		return
	}
	part, err := plating.FoilWrap(piece, 0.43*gram, 0.31*gram, 0.008*gram, 0.03)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f cm2, standard uncertainty %.0f cm2\n", float64(part.Area/cm2), float64(part.U/cm2))
	// Output: 72 cm2, standard uncertainty 3 cm2
}

// The last two runs before acid was added and the two after it.
func ExampleCompareStates() {
	d, err := plating.CompareStates(
		[]plating.EfficiencyReading{{Efficiency: 0.924, U: 0.006}, {Efficiency: 0.901, U: 0.019}},
		[]plating.EfficiencyReading{{Efficiency: 0.949, U: 0.019}, {Efficiency: 0.951, U: 0.005}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %%, standard uncertainty %.1f %%: %.1f of them\n", 100*d.Change, 100*d.U, d.InUncertainties())
	// Output: 2.9 %, standard uncertainty 0.8 %: 3.5 of them
}

// Boric acid is used by nothing: what had to be added says how much bath was
// carried out.
func ExampleDragOutFromAdditions() {
	lost, err := plating.DragOutFromAdditions(0.73*unit.Milli*unit.Kilogram, 40*plating.GramPerLitre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mL\n", float64(lost/(unit.Milli*unit.Litre)))
	// Output: 18 mL
}

// Three litres from a cool shop to 55 degrees with a small heater.
func ExampleHeatUpTime() {
	const celsius = 273.15
	t, err := plating.HeatUpTime(3*unit.Litre, (18+celsius)*unit.Kelvin, (55+celsius)*unit.Kelvin, 300*unit.Watt, 20*unit.Watt)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("about %.0f min\n", float64(t)/60)
	// Output: about 24 min
}
