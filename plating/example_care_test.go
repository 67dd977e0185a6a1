package plating_test

import (
	"fmt"

	"example.org/thouspan/plating"
	"gonum.org/v1/gonum/unit"
)

// How much current asks for how much voltage: a thin layer of still solution sets
// the most that can arrive, and the slope of the kinetics sets how even the coat
// will be.
func ExampleWagnerNumber() {
	const celsius = 273.15
	most, err := plating.LimitingCurrent(2, 6e-10, 1200, 0.1*unit.Milli*unit.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	rest, err := plating.Nernst(-0.257*unit.Volt, 0.5, 2, (50+celsius)*unit.Kelvin)
	if err != nil {
		fmt.Println(err)
		return
	}
	tenfold := plating.TafelSlope(0.6, (50+celsius)*unit.Kelvin)
	nickel := plating.Kinetics{Equilibrium: rest, Exchange: 0.01 * plating.AmperePerSquareDecimetre, Cathodic: 0.6, Anodic: 1.4, Temperature: (50 + celsius) * unit.Kelvin, Limit: most}
	if err := nickel.Validate(); err != nil {
		fmt.Println(err)
		return
	}
	at := 3 * plating.AmperePerSquareDecimetre
	over, err := nickel.Overpotential(at)
	if err != nil {
		fmt.Println(err)
		return
	}
	back := nickel.CurrentDensity(over)
	wagner, err := plating.WagnerNumber(8*plating.SiemensPerMetre, nickel.Slope(at), 20*millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("at most %.0f A/dm2; at rest %.3f V; tenfold costs %.0f mV\n", float64(most/plating.AmperePerSquareDecimetre), float64(rest), float64(tenfold)*1e3)
	fmt.Printf("%.0f mV for %.1f A/dm2; Wagner number %.2f over 20 mm\n", float64(over)*1e3, float64(back/plating.AmperePerSquareDecimetre), wagner)
	// Output:
	// at most 14 A/dm2; at rest -0.267 V; tenfold costs 107 mV
	// 276 mV for 3.0 A/dm2; Wagner number 0.08 over 20 mm
}

// The highest mean current density that keeps a corner below where it burns, when
// the corner gets 1.8 times the mean.
func ExampleMostCurrentDensity() {
	mean, err := plating.MostCurrentDensity(8*plating.AmperePerSquareDecimetre, 1.8)
	fmt.Printf("%.1f A/dm2 %v\n", float64(mean/plating.AmperePerSquareDecimetre), err)
	// Output: 4.4 A/dm2 <nil>
}

// A cell with its near cathode five times nearer: polarisation evens the current.
func ExampleCurrentRatio() {
	for _, wagner := range []float64{0, 1, 10} {
		ratio, err := plating.CurrentRatio(5, wagner)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("Wagner number %.0f: %.2f\n", wagner, ratio)
	}
	// Output:
	// Wagner number 0: 5.00
	// Wagner number 1: 3.00
	// Wagner number 10: 1.36
}

// One salt in the place of another: the hydrate at hand holds other water, so its
// grams differ for the same nickel.
func ExampleDose_Instead() {
	six, err := plating.NickelSulfate(6)
	if err != nil {
		fmt.Println(err)
		return
	}
	seven, err := plating.NickelSulfate(7)
	if err != nil {
		fmt.Println(err)
		return
	}
	chloride, err := plating.NickelChloride(6)
	if err != nil {
		fmt.Println(err)
		return
	}
	dose := plating.Dose{Salt: six, Concentration: 260 * plating.GramPerLitre}
	other, err := dose.Instead(seven)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% and %.1f %% nickel: %.0f g/L for 260 g/L, %.2f mol/L in both\n", 100*six.NickelFraction(), 100*seven.NickelFraction(),
		float64(other.Concentration/plating.GramPerLitre), other.Moles())
	fmt.Printf("%s: %.1f %% nickel, %.1f %% chloride\n", chloride.Name, 100*chloride.NickelFraction(), 100*chloride.ChlorideFraction())
	// Output:
	// 22.3 % and 20.9 % nickel: 278 g/L for 260 g/L, 0.99 mol/L in both
	// nickel chloride: 24.7 % nickel, 29.8 % chloride
}

// A Watts bath says what chloride it holds, and is refused where it cannot be.
func ExampleRecipe_Validate() {
	watts := plating.WattsRecipe(260*plating.GramPerLitre, 45*plating.GramPerLitre, 35*plating.GramPerLitre)
	fmt.Printf("chloride %.1f g/L, nickel %.1f g/L\n", float64(watts.Chloride()), float64(watts.Nickel()))
	fmt.Println(watts.Validate())
	watts[2].Concentration = -1
	fmt.Println(watts.Validate())
	// Output:
	// chloride 13.4 g/L, nickel 69.2 g/L
	// <nil>
	// plating: concentration of boric acid is -1 g/L, must be zero or more and finite
}

// Boric acid that a cold bath cannot hold falls out.
func ExampleFallsOut() {
	crystals, err := plating.FallsOut(40*plating.GramPerLitre, 36*plating.GramPerLitre, 3*unit.Litre)
	fmt.Printf("%.0f g %v\n", float64(crystals/gram), err)
	// Output: 12 g <nil>
}

// A hydrometer sees how much salt there is, not which.
func ExampleStrengthByDensity() {
	const g = plating.GramPerCubicCentimetre
	strength, u, err := plating.StrengthByDensity(1.172*g, 1.190*g, 0.998*g, 0.002*g)
	fmt.Printf("%.0f %%, standard uncertainty %.0f %% %v\n", 100*strength, 100*u, err)
	// Output: 91 %, standard uncertainty 1 % <nil>
}

// What two hours at 2 A cost: nickel off the anodes, and the heat that makes up for
// a glass of water gone into the air.
func ExampleAnodeUse() {
	nickel, err := plating.AnodeUse(4*plating.AmpereHour, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	power, err := plating.EvaporationPower(200*unit.Milli*unit.Litre, 2*3600*unit.Second)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f g of nickel, %.0f W\n", float64(nickel/gram), float64(power))
	// Output: 4.38 g of nickel, 66 W
}

// How much bath hangs on the parts, and what two rinses in a row leave of it.
func ExampleRinseRatio() {
	for tanks := 1; tanks <= 3; tanks++ {
		ratio, err := plating.RinseRatio(50, tanks)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%d: 1 in %.0f\n", tanks, ratio)
	}
	// Output:
	// 1: 1 in 51
	// 2: 1 in 2551
	// 3: 1 in 127551
}

// The pH is brought down on a sample first: then half of what that says goes into
// the bath, and it is measured again.
func ExampleDoseFromSample() {
	const mL = unit.Milli * unit.Litre
	dose, err := plating.DoseFromSample(0.6*mL, 100*mL, 3*unit.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	brightener, err := plating.AdditionByCharge(15*mL, 10*plating.AmpereHour, 4*plating.AmpereHour)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mL, the first half now; %.0f mL of brightener\n", float64(dose/mL), float64(brightener/mL))
	// Output: 18 mL, the first half now; 6 mL of brightener
}

// What the current makes besides nickel: gas, and less acid in the bath.
func ExampleHydrogenFromCharge() {
	const celsius = 273.15
	made, err := plating.HydrogenFromCharge(4*plating.AmpereHour, 0.95, (20+celsius)*unit.Kelvin, 101325*unit.Pascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	acid, err := plating.SulfuricAcid(made.Acid)
	if err != nil {
		fmt.Println(err)
		return
	}
	volume, err := plating.DilutedVolume(acid, 0.10, 1.07*plating.GramPerCubicCentimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	air, err := plating.AirForHydrogen(2*unit.Ampere, plating.HydrogenLowerLimit/4, (20+celsius)*unit.Kelvin)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mL of hydrogen; %.2f g of acid, %.1f mL at 10 %%; %.1f L/min of air\n",
		float64(made.Volume/unit.Litre)*1e3, float64(acid/gram), float64(volume/unit.Litre)*1e3, air*60e3)
	// Output: 90 mL of hydrogen; 0.37 g of acid, 3.4 mL at 10 %; 1.5 L/min of air
}

// What a spill of a bath means, and how little mist is too much for a room.
func ExampleDilutionToLimit() {
	const nickel = 70 * plating.GramPerLitre
	times, err := plating.DilutionToLimit(nickel, plating.SewerNickelLimit())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("1 in %.0f to the sewer's limit; local rules come first\n", times)
	for _, limit := range plating.NickelAirLimits() {
		drop, err := plating.MistToLimit(50*1000*unit.Litre, nickel, limit.Limit)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s %s: %.0f uL in 50 m3\n", limit.Body, limit.Name, float64(drop/unit.Litre)*1e6)
	}
	// Output:
	// 1 in 17588 to the sewer's limit; local rules come first
	// NIOSH (US) recommended exposure limit: 11 uL in 50 m3
	// HSE (UK) workplace exposure limit: 71 uL in 50 m3
	// OSHA (US) permissible exposure limit: 714 uL in 50 m3
	// NIOSH (US) immediately dangerous to life or health: 7143 uL in 50 m3
}

// A titration of each thing that a bath lives on, and the salts that it found.
func ExampleAnalysis_Salts() {
	const mL = unit.Milli * unit.Litre
	chloride, err := plating.Titration{Sample: 5 * mL, Used: 18.6 * mL, Strength: 100, UsedU: 0.05 * mL}.Chloride()
	if err != nil {
		fmt.Println(err)
		return
	}
	boric, err := plating.Titration{Sample: 2 * mL, Used: 11.4 * mL, Strength: 100, UsedU: 0.05 * mL}.BoricAcid()
	if err != nil {
		fmt.Println(err)
		return
	}
	analysis := plating.Analysis{Nickel: 66 * plating.GramPerLitre, NickelU: 0.5 * plating.GramPerLitre,
		Chloride: chloride.Concentration, ChlorideU: chloride.U, Boric: boric.Concentration, BoricU: boric.U}
	salts, err := analysis.Salts()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range salts {
		fmt.Printf("%s %.1f g/L\n", s.Salt.Name, float64(s.Concentration/plating.GramPerLitre))
	}
	// Output:
	// nickel sulfate 246.7 g/L
	// nickel chloride 44.2 g/L
	// boric acid 35.2 g/L
}

// Steel of great strength is baked after plating, and one that is hard or was
// ground is relieved of stress before.
func ExampleBakeForTensile() {
	bake, err := plating.BakeForTensile(1300 * unit.Mega * unit.Pascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bake.Needed, plating.StressReliefNeeded(52, false))
	// Output: true true
}

// How long a part is at the bench, by what it is made of.
func ExampleProcessSheet_AtBench() {
	part, err := plating.Area("bracket", 62*plating.SquareCentimetre, 2*plating.SquareCentimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan := plating.Plan{Deposit: plating.Nickel().Deposit(), Area: part, Thickness: 12 * unit.Micro * unit.Metre,
		CurrentDensity: 3 * plating.AmperePerSquareDecimetre, Efficiency: 0.95, EfficiencyU: 0.01,
		Supply: plating.Supply{Step: 10 * unit.Milli * unit.Ampere, Accuracy: 0.01, Most: 3 * unit.Ampere}}
	for _, base := range plating.BaseMetals() {
		sheet, err := plating.ProcessFor(plating.Job{Base: base, RockwellC: 45, Plan: plan, Bath: plating.Celsius(50)})
		if err != nil {
			fmt.Println(err)
			return
		}
		if sheet.Refused != "" {
			fmt.Printf("%s: %s\n", base, sheet.Refused)
			continue
		}
		fmt.Printf("%s: %.0f min\n", base, float64(sheet.AtBench()/minute))
	}
	// Output:
	// brass: 50 min
	// copper: 50 min
	// mild steel: 50 min
	// hardened steel: 52 min
	// cast zinc alloy: acid nickel eats cast zinc, and the copper strike that has to come first is as a rule a cyanide bath: that is work for a licensed plater
}

// What nickel must be at its thinnest, by where the part lives.
func ExampleEngineeringClasses() {
	for _, class := range plating.EngineeringClasses()[:2] {
		fmt.Printf("%s: %.0f um at the least (%s)\n", class.Name, float64(class.LocalLeast)*1e6, class.Known)
	}
	worst := plating.DecorativeClasses()[0]
	fmt.Printf("%s, %s: %.0f um at the least (%s)\n", worst.Name, worst.Service, float64(worst.LocalLeast)*1e6, worst.Known)
	fmt.Println(len(plating.CoatingClasses()), "classes for threads")
	// Output:
	// class 5: 5 um at the least (from memory)
	// class 25: 25 um at the least (from memory)
	// SC 5, outdoors for years, hit and scratched: 35 um at the least (read)
	// 9 classes for threads
}

// Every fault that the causes can be asked for.
func ExampleDefects() {
	for _, defect := range plating.Defects() {
		fmt.Println(defect)
	}
	// Output:
	// dark, rough corners and edges
	// round, shiny pits, most on upper faces
	// ragged pits with dirt in them
	// peels, the metal below is bare
	// peels, nickel from nickel
	// dull or dark band in a recess
	// grey haze all over
	// roughness on upward faces
	// nut or pin too tight
	// coat thinner than worked out
}

// The panel's formula turned round: where along it a current density stands, and
// the cell that the solver is given to check it.
func ExamplePanel_Place() {
	panel := plating.Panel{Current: 2 * unit.Ampere}
	place, err := panel.Place(3 * plating.AmperePerSquareDecimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	there, err := panel.At(place)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm from the near end, %.1f A/dm2; %d outlines\n", float64(place/millimetre), float64(there/plating.AmperePerSquareDecimetre), len(plating.PanelSection().Outlines))
	// Output: 49 mm from the near end, 3.0 A/dm2; 4 outlines
}
