package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// symmetric is Butler-Volmer kinetics with both transfer coefficients 1.
func symmetric(exchange CurrentDensity, t unit.Temperature) Kinetics {
	return Kinetics{Exchange: exchange, Cathodic: 1, Anodic: 1, Temperature: t}
}

func TestNernst(t *testing.T) {
	// Standard potential of nickel from memory (CRC Handbook); the arithmetic is
	// exact. Tolerance: five decimals published.
	got, err := Nernst(-0.257, 0.1, 2, 298.15)
	if err != nil || !scalar.EqualWithinAbs(float64(got), -0.28658, 1e-5) {
		t.Errorf("Nernst(nickel, 0.1) = %v, %v, want -0.28658 V", float64(got), err)
	}
	for name, call := range map[string]func() (unit.Voltage, error){
		"no electrons":    func() (unit.Voltage, error) { return Nernst(0, 1, 0, 298) },
		"no activity":     func() (unit.Voltage, error) { return Nernst(0, 0, 2, 298) },
		"NaN potential":   func() (unit.Voltage, error) { return Nernst(unit.Voltage(math.NaN()), 1, 2, 298) },
		"zero kelvin":     func() (unit.Voltage, error) { return Nernst(0, 1, 2, 0) },
		"infinite kelvin": func() (unit.Voltage, error) { return Nernst(0, 1, 2, unit.Temperature(math.Inf(1))) },
	} {
		if got, err := call(); err == nil {
			t.Errorf("%s: Nernst = %v, want an error", name, got)
		}
	}
}

func TestTafelSlope(t *testing.T) {
	// ln(10) R T / F from exact constants; tolerance: digits published.
	tests := []struct {
		alpha, kelvin, want, tol float64
	}{
		{1, 298.15, 0.059159, 1e-6},
		{1, 328.15, 0.065112, 1e-6},
		{0.5, 298.15, 0.11832, 1e-5},
	}
	for _, test := range tests {
		got := float64(TafelSlope(test.alpha, unit.Temperature(test.kelvin)))
		if !scalar.EqualWithinAbs(got, test.want, test.tol) {
			t.Errorf("TafelSlope(%v, %v K) = %v, want %v", test.alpha, test.kelvin, got, test.want)
		}
	}
	if got := TafelSlope(0, 298); !math.IsNaN(float64(got)) {
		t.Errorf("TafelSlope(0) = %v, want NaN", got)
	}
}

func TestLimitingCurrent(t *testing.T) {
	// Computed from the formula; tolerance: 0.1 %, the digits stated.
	got, err := LimitingCurrent(2, 6e-10, 1390, 200e-6*unit.Metre)
	if err != nil || !scalar.EqualWithinRel(float64(got), 804.7, 1e-3) {
		t.Errorf("LimitingCurrent = %v, %v, want 804.7 A/m2", got, err)
	}
	if _, err := LimitingCurrent(2, 6e-10, 1390, 0); err == nil {
		t.Error("LimitingCurrent with no layer gave no error")
	}
}

func TestWagnerNumber(t *testing.T) {
	// Tafel slope 0.12 V a decade at 300 A/m2, 8 S/m, 0.1 m: computed from the
	// definition, five digits.
	slope := AreaResistance(0.12 / math.Ln10 / 300)
	got, err := WagnerNumber(8, slope, 0.1*unit.Metre)
	if err != nil || !scalar.EqualWithinRel(got, 0.013897, 1e-4) {
		t.Errorf("WagnerNumber = %v, %v, want 0.013897", got, err)
	}
	if _, err := WagnerNumber(8, slope, 0); err == nil {
		t.Error("WagnerNumber with no length gave no error")
	}
}

func TestOverpotentialPublished(t *testing.T) {
	// Inverse hyperbolic sine, exact; the first case lies where neither the Tafel
	// form (19.601 mV) nor the linear form (28.278 mV) will do.
	tests := []struct {
		name         string
		exchange, j  CurrentDensity
		want, relTol float64
	}{
		{"between the laws", 0.5 * AmperePerSquareDecimetre, 1 * AmperePerSquareDecimetre, 0.024923, 1e-4},
		{"far out", 0.001 * AmperePerSquareDecimetre, 3 * AmperePerSquareDecimetre, 0.226402, 1e-5},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := symmetric(test.exchange, 328.15).Overpotential(test.j)
			if err != nil || !scalar.EqualWithinRel(float64(got), test.want, test.relTol) {
				t.Errorf("Overpotential(%v) = %v, %v, want %v", test.j, got, err, test.want)
			}
		})
	}
}

func TestOverpotentialLaws(t *testing.T) {
	laws := map[string]Kinetics{
		"linear":       {Resistance: 1e-3},
		"symmetric":    symmetric(5, 328.15),
		"asymmetric":   {Exchange: 0.3, Cathodic: 0.5, Anodic: 1.5, Temperature: 300},
		"with a limit": {Exchange: 2, Cathodic: 0.6, Anodic: 1.4, Temperature: 328, Limit: 800},
	}
	for name, k := range laws {
		t.Run(name, func(t *testing.T) {
			for _, j := range []CurrentDensity{-5e4, -300, -1, -1e-9, 0, 1e-12, 1e-3, 1, 300, 799.9999} {
				eta, err := k.Overpotential(j)
				if err != nil {
					t.Fatalf("Overpotential(%v): %v", j, err)
				}
				back := k.CurrentDensity(eta)
				// At the limit one ulp of overpotential is worth little current, but
				// one ulp of current is worth much overpotential: compare currents.
				if !scalar.EqualWithinAbsOrRel(float64(back), float64(j), 1e-24, 1e-11) {
					t.Errorf("CurrentDensity(Overpotential(%v)) = %v", j, back)
				}
				h := 1e-6
				rise := float64(k.CurrentDensity(eta+unit.Voltage(h)) - k.CurrentDensity(eta-unit.Voltage(h)))
				// The central difference is good to h2 times the third derivative.
				if got := 1 / float64(k.Slope(j)); !scalar.EqualWithinAbsOrRel(got, rise/(2*h), 1e-3, 1e-5) {
					t.Errorf("slope at %v = %v, want %v by differences", j, got, rise/(2*h))
				}
			}
		})
	}
}

func TestCurrentDensityEnds(t *testing.T) {
	k := Kinetics{Exchange: 2, Cathodic: 0.6, Anodic: 1.4, Temperature: 328, Limit: 800}
	if got := k.CurrentDensity(1e6); got != 800 {
		t.Errorf("current density far out = %v, want the limit 800 A/m2", got)
	}
	for _, eta := range []unit.Voltage{-1e6, -30, -1, 0, 1, 30, 1e6} {
		for _, k := range []Kinetics{k, symmetric(2, 300)} {
			if j := float64(k.CurrentDensity(eta)); math.IsNaN(j) {
				t.Errorf("CurrentDensity(%v) is NaN", float64(eta))
			}
		}
	}
	if _, err := k.Overpotential(800); err == nil {
		t.Error("Overpotential at the limiting current gave no error")
	}
}

func TestKineticsValidate(t *testing.T) {
	bad := map[string]Kinetics{
		"negative resistance": {Resistance: -1},
		"both laws":           {Resistance: 1, Exchange: 1, Cathodic: 1, Anodic: 1, Temperature: 300},
		"no coefficient":      {Exchange: 1, Anodic: 1, Temperature: 300},
		"no temperature":      {Exchange: 1, Cathodic: 1, Anodic: 1},
		"limit alone":         {Limit: 800},
		"NaN equilibrium":     {Equilibrium: unit.Voltage(math.NaN())},
		"infinite exchange":   {Exchange: CurrentDensity(math.Inf(1)), Cathodic: 1, Anodic: 1, Temperature: 300},
	}
	for name, k := range bad {
		if err := k.Validate(); err == nil {
			t.Errorf("%s: Validate gave no error", name)
		}
	}
}

func TestConductivityAt(t *testing.T) {
	got, err := Conductivity(8).At(Celsius(45), Celsius(55), 0.02)
	if err != nil || !scalar.EqualWithinRel(float64(got), 6.4, 1e-12) {
		t.Errorf("At = %v, %v, want 6.4 S/m", got, err)
	}
	if _, err := Conductivity(8).At(Celsius(0), Celsius(55), 0.02); err == nil {
		t.Error("At where the line falls below zero gave no error")
	}
}
