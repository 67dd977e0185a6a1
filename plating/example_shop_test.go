package plating_test

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/plating"
)

// What to weigh out for five litres of a Watts-type bath.
func ExampleRecipe_Weighed() {
	recipe := plating.WattsRecipe(300*plating.GramPerLitre, 45*plating.GramPerLitre, 40*plating.GramPerLitre)
	masses, err := recipe.Weighed(5 * unit.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, dose := range recipe {
		fmt.Printf("%s: %.0f g\n", dose.Salt.Formula, float64(masses[i]/gram))
	}
	fmt.Printf("nickel metal: %.1f g/L\n", float64(recipe.Nickel()/plating.GramPerLitre))
	// Output:
	// NiSO4.6H2O: 1500 g
	// NiCl2.6H2O: 225 g
	// H3BO3: 200 g
	// nickel metal: 78.1 g/L
}

// Two years of work in three litres: nickel comes back from the anode, acid
// does not.
func ExampleBath_After() {
	bath, err := plating.Bath{Volume: 3 * unit.Litre, Nickel: 75 * plating.GramPerLitre, Boric: 40 * plating.GramPerLitre}.After(plating.Work{
		DragOut: 0.018 * unit.Litre, Evaporated: 0.44 * unit.Litre,
		Charge: 13.85 * plating.AmpereHour, CathodeEfficiency: 0.95, AnodeEfficiency: 1,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	acid, err := plating.SulfuricAcid(bath.AcidLost)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("nickel %.1f g/L, acid gone %.2f g\n", float64(bath.Nickel/plating.GramPerLitre), float64(acid/gram))
	// Output:
	// nickel 74.8 g/L, acid gone 1.27 g
}

// Will a nut run on an M4 screw at 6g with 5.2 um on its flanks?
func ExampleThreadFit_AfterPlating() {
	room, _, err := plating.Allowance(0.7*millimetre, plating.PositionG)
	if err != nil {
		fmt.Println(err)
		return
	}
	left, err := plating.ThreadFit{Clearance: room, ClearanceU: 2 * micrometre,
		Screw: plating.LocalCoat{Mean: 5.2 * micrometre, MeanU: 0.15 * micrometre, Share: 1, ShareU: 0.1}}.AfterPlating()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um left with a standard uncertainty of %.1f um: it runs with a chance of %.0f %%\n",
		float64(left.Clearance/micrometre), float64(left.U/micrometre), 100*left.Runs)
	// Output:
	// 1.2 um left with a standard uncertainty of 2.9 um: it runs with a chance of 66 %
}

// What to turn a pin to, so that it lies within its limits over the nickel.
func ExampleCutSize() {
	limits := plating.Limits{Least: 9.991 * millimetre, Greatest: 10 * millimetre}
	cut, err := plating.CutSize(plating.Pin, limits, plating.LocalCoat{Mean: 20 * micrometre, Share: 1.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f mm\n", float64(cut/millimetre))
	// Output:
	// 9.9515 mm
}

// The efficiency of a bath against its pH, from three weighed runs.
func ExampleEfficiencyTrend() {
	trend, err := plating.EfficiencyTrend([]plating.EfficiencyReading{
		{Efficiency: 0.953, U: 0.005, Explain: 4.1},
		{Efficiency: 0.932, U: 0.004, Explain: 4.6},
		{Efficiency: 0.924, U: 0.006, Explain: 4.8},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	e, u := trend.At(4.2)
	fmt.Printf("%.1f %% with a standard uncertainty of %.1f %% at pH 4.2\n", 100*e, 100*u)
	// Output:
	// 94.9 % with a standard uncertainty of 0.4 % at pH 4.2
}

// A part came out with burnt corners: what to look at first.
func ExampleCauses() {
	causes, err := plating.Causes(plating.BurntCorners, plating.Circumstances{
		Mean: 9 * plating.AmperePerSquareDecimetre, Thickest: 1.75, Burns: 8 * plating.AmperePerSquareDecimetre,
		Bath: plating.Celsius(48), PH: 4.3,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(causes[0].Name)
	fmt.Println(causes[0].For[0])
	// Output:
	// too much current at the corners
	// the thickest place saw more current than the bath stands
}

// The bake that a plated spring of 46 HRC needs.
func ExampleBakeForHardness() {
	bake, err := plating.BakeForHardness(46)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f h at %.0f to %.0f degrees Celsius\n", float64(bake.Least)/3600, float64(bake.From)-273.15, float64(bake.To)-273.15)
	// Output:
	// 18 h at 190 to 220 degrees Celsius
}

// A layer of copper under nickel on one square decimetre.
func ExampleLayers() {
	coats, thickness, mass, err := plating.Layers(1*plating.SquareDecimetre,
		plating.Layer{Deposit: plating.Copper().Deposit(), Thickness: 5 * micrometre, CurrentDensity: 2 * plating.AmperePerSquareDecimetre, Efficiency: 1},
		plating.Layer{Deposit: plating.Nickel().Deposit(), Thickness: 20 * micrometre, CurrentDensity: 2.5 * plating.AmperePerSquareDecimetre, Efficiency: 0.95},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range coats {
		fmt.Printf("%s: %.1f min\n", c.Deposit.Name, float64(c.Time/minute))
	}
	fmt.Printf("%.0f um, %.2f g\n", float64(thickness/micrometre), float64(mass/gram))
	// Output:
	// copper: 11.3 min
	// nickel: 41.1 min
	// 25 um, 2.23 g
}

// A nickel alloy with a fifth of iron by mass.
func ExampleAlloyByMass() {
	alloy, err := plating.AlloyByMass("nickel-iron", 0,
		plating.AlloyShare{Metal: plating.Nickel(), Share: 0.8}, plating.AlloyShare{Metal: plating.Iron(), Share: 0.2})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f g/(A h), %.2f g/cm3\n", float64(alloy.Equivalent/plating.GramPerAmpereHour), float64(alloy.Density/plating.GramPerCubicCentimetre))
	// Output:
	// 1.0839 g/(A h), 8.68 g/cm3
}

// Near and far gain of a throwing-power cell: always say which formula.
func ExampleThrowingPowerFromMasses() {
	t, err := plating.ThrowingPowerFromMasses(5, 4)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("Haring-Blum %.0f %%, Heatley %.0f %%, Field %.1f %%\n", 100*t.HaringBlum, 100*t.Heatley, 100*t.Field)
	// Output:
	// Haring-Blum 20 %, Heatley 25 %, Field 14.3 %
}
