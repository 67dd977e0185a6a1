package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// tableDeposit is a deposit with the molar mass and density that a printed
// table states, which may be rounded or old.
func tableDeposit(molarMass float64, valence int, density float64) Deposit {
	return Metal{Name: "as printed", MolarMass: MolarMass(molarMass) * GramPerMole, Valence: valence,
		Density: Density(density) * GramPerCubicCentimetre}.Deposit()
}

func TestThicknessPerAmpereHour(t *testing.T) {
	// A-F4, arithmetic from A-F1 and A-F2, tolerance 0.05 %: um of mean
	// thickness for 1 A h over 1 dm2 at 100 %.
	tests := []struct {
		name    string
		deposit Deposit
		want    float64
	}{
		{"nickel", tableDeposit(58.6934, 2, 8.908), 12.292},
		{"copper", tableDeposit(63.546, 2, 8.96), 13.231},
		{"zinc", tableDeposit(65.38, 2, 7.14), 17.083},
		{"silver", tableDeposit(107.8682, 1, 10.49), 38.367},
		{"chromium from six-valent solution, as a number", tableDeposit(51.9961, 6, 7.19), 4.497},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, err := Coat{Deposit: test.deposit, Area: 1 * SquareDecimetre, Charge: 1 * AmpereHour, Efficiency: 1}.Solve()
			if err != nil {
				t.Fatal(err)
			}
			if got := float64(c.Thickness / micrometre); !scalar.EqualWithinRel(got, test.want, 5e-4) {
				t.Errorf("thickness = %v um, want %v", got, test.want)
			}
		})
	}
}

func TestThicknessPerAmpereMinute(t *testing.T) {
	// A-F5: a parts supplier's surface-finishing tutorial no. 166 (2013),
	// table 1, read; um for 1 A min over 1 dm2 at 100 %, printed to 0.001.
	tests := []struct {
		name      string
		molarMass float64
		valence   int
		density   float64
		want      float64
	}{
		{"nickel", 58.70, 2, 8.9, 0.205},
		{"copper", 63.55, 2, 8.92, 0.222},
		{"zinc", 65.38, 2, 7.1, 0.286},
		{"silver", 107.9, 1, 10.5, 0.639},
		{"chromium, as a number", 52.00, 6, 7.1, 0.076},
		{"tin", 118.7, 2, 7.3, 0.506},
		{"iron", 55.85, 2, 7.9, 0.220},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, err := Coat{Deposit: tableDeposit(test.molarMass, test.valence, test.density),
				CurrentDensity: 1 * AmperePerSquareDecimetre, Time: 1 * minute, Efficiency: 1}.Solve()
			if err != nil {
				t.Fatal(err)
			}
			if got := float64(c.Thickness / micrometre); !scalar.EqualWithinAbs(got, test.want, 0.001) {
				t.Errorf("thickness = %v um, want %v", got, test.want)
			}
		})
	}
}

func TestChargePerThou(t *testing.T) {
	// A-F6: handbook table "Electrochemical Equivalents", read: A h for
	// 0.001 in over 1 ft2. The printed zinc figure (14.3) does not follow from
	// the table's own molar mass and density; 13.81 does.
	tests := []struct {
		name      string
		molarMass float64
		valence   int
		density   float64
		want      float64
		tol       float64
	}{
		{"nickel", 58.71, 2, 8.9, 19, 0.19},
		{"copper", 63.54, 2, 8.96, 17.8, 0.05},
		{"silver", 107.87, 1, 10.5, 6.2, 0.062},
		{"tin", 118.69, 2, 7.3, 7.8, 0.05},
		{"cobalt", 58.93, 2, 8.9, 19, 0.19},
		{"zinc, recomputed", 65.38, 2, 7.14, 13.81, 0.005},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, err := Coat{Deposit: tableDeposit(test.molarMass, test.valence, test.density),
				Area: 1 * SquareFoot, Thickness: 1 * Thou, Efficiency: 1}.Solve()
			if err != nil {
				t.Fatal(err)
			}
			if got := float64(c.Charge / AmpereHour); !scalar.EqualWithinAbs(got, test.want, test.tol) {
				t.Errorf("charge = %v A h, want %v within %v", got, test.want, test.tol)
			}
		})
	}
}

func TestNickelTimeTable(t *testing.T) {
	// A-F7: S. F. Rudy, Clarifying facts about nickel plating, Finishing &
	// Coating, table rows 2 and 4 um, read; every printed minute is the one
	// computed at 95.5 % rounded to two figures. A-F8, rows 8, 12, 16 um: the
	// same table from memory of the Nickel Plating Handbook (2014), computed
	// at 95.5 %, tolerance 0.1 %.
	deposit := tableDeposit(58.69, 2, 8.907)
	densities := []float64{0.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12} // A/dm2
	tests := []struct {
		thickness, mass, charge float64 // um, g/dm2, A h/dm2
		minutes                 []float64
	}{
		{2, 0.18, 0.17, []float64{20, 10, 6.8, 5.1, 3.4, 2.6, 2, 1.7, 1.3, 1, 0.9}},
		{4, 0.36, 0.34, []float64{41, 20, 14, 10, 6.8, 5.1, 4.1, 3.4, 2.6, 2, 1.7}},
	}
	for _, test := range tests {
		for i, j := range densities {
			c, err := Coat{Deposit: deposit, Area: 1 * SquareDecimetre, Thickness: unit.Length(test.thickness) * micrometre,
				CurrentDensity: CurrentDensity(j) * AmperePerSquareDecimetre, Efficiency: 0.955}.Solve()
			if err != nil {
				t.Fatal(err)
			}
			if got := float64(c.Time / minute); !sameRounded(got, test.minutes[i]) {
				t.Errorf("%v um at %v A/dm2: %v min, printed %v", test.thickness, j, got, test.minutes[i])
			}
			if got := float64(c.Mass / gram); !scalar.EqualWithinAbs(got, test.mass, 0.005) {
				t.Errorf("%v um: %v g, printed %v", test.thickness, got, test.mass)
			}
			if got := float64(c.Charge / AmpereHour); !scalar.EqualWithinAbs(got, test.charge, 0.005) {
				t.Errorf("%v um: %v A h, printed %v", test.thickness, got, test.charge)
			}
		}
	}
	rows := []struct{ thickness, mass, charge, at1, at2, at4 float64 }{
		{8, 0.713, 0.682, 40.89, 20.44, 10.22},
		{12, 1.069, 1.022, 61.33, 30.67, 15.33},
		{16, 1.425, 1.363, 81.78, 40.89, 20.44},
	}
	for _, row := range rows {
		for j, want := range map[float64]float64{1: row.at1, 2: row.at2, 4: row.at4} {
			got, err := deposit.TimeFor(unit.Length(row.thickness)*micrometre, CurrentDensity(j)*AmperePerSquareDecimetre, 0.955)
			if err != nil {
				t.Fatal(err)
			}
			if !scalar.EqualWithinRel(float64(got/minute), want, 1e-3) {
				t.Errorf("%v um at %v A/dm2: %v min, want %v", row.thickness, j, float64(got/minute), want)
			}
		}
	}
}

// sameRounded reports whether got rounds to the printed figure at one or two
// significant figures, a figure on the edge passing either way.
func sameRounded(got, printed float64) bool {
	step := 0.1
	if printed >= 10 {
		step = 1
	}
	return math.Abs(got-printed) <= step/2*1.01
}
