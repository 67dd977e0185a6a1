package plating

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

const (
	micrometre = 1e-6 * unit.Metre
	millimetre = 1e-3 * unit.Metre
	minute     = 60 * unit.Second
	gram       = 1e-3 * unit.Kilogram
)

func TestPlatingConstantProblem(t *testing.T) {
	// A-F9: Groover, Fundamentals of Modern Manufacturing, electroplating
	// section (problem as reproduced): nickel, C 3.42e-2 mm3/(A s), E 0.95,
	// faces 130 x 160 mm of a plate 3.2 mm thick, 25 A, 60 min. Tolerance 0.1 %.
	const constant = 3.42e-2 * 1e-9 // m3/(A s)
	deposit := Deposit{Name: "as printed", Equivalent: Equivalent(constant * 8908), Density: 8.908 * GramPerCubicCentimetre}
	s, err := Plate{Length: Exactly(160 * millimetre), Width: Exactly(130 * millimetre), Thickness: Exactly(3.2 * millimetre)}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(s.Area) * 1e6; !scalar.EqualWithinRel(got, 43456, 1e-9) {
		t.Errorf("area = %v mm2, want 43456", got)
	}
	c, err := Coat{Deposit: deposit, Area: s.Area, Current: 25 * unit.Ampere, Time: 60 * minute, Efficiency: 0.95}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(c.Thickness / millimetre); !scalar.EqualWithinRel(got, 0.06729, 1e-3) {
		t.Errorf("thickness = %v mm, want 0.06729 (0.0744 divides by the efficiency, a known slip)", got)
	}
	nickel := Nickel().Deposit()
	if got := float64(nickel.Equivalent) / float64(nickel.Density) * 1e9; !scalar.EqualWithinRel(got, 3.4144e-2, 1e-4) {
		t.Errorf("M/(n F rho) = %v mm3/(A s), want 3.4144e-2", got)
	}
}

func TestMassThicknessTime(t *testing.T) {
	nickel := Nickel().Deposit()
	// A-F10, computed, tolerance 0.05 %.
	c, err := Coat{Deposit: nickel, Area: 75 * SquareCentimetre, Current: 2 * unit.Ampere, Time: 3600 * unit.Second, Efficiency: 0.95}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(c.Mass / gram); !scalar.EqualWithinRel(got, 2.0804, 5e-4) {
		t.Errorf("A-F10 mass = %v g, want 2.0804", got)
	}
	if got := float64(c.Thickness / micrometre); !scalar.EqualWithinRel(got, 31.14, 5e-4) {
		t.Errorf("A-F10 thickness = %v um, want 31.14", got)
	}
	// A-F11, computed, tolerance 0.05 %.
	c, err = Coat{Deposit: nickel, Area: 1.5 * SquareDecimetre, CurrentDensity: 3 * AmperePerSquareDecimetre, Thickness: 25 * micrometre, Efficiency: 0.96}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(c.Time / minute); !scalar.EqualWithinRel(got, 42.37, 5e-4) {
		t.Errorf("A-F11 time = %v min, want 42.37", got)
	}
	if got := float64(c.Current); !scalar.EqualWithinRel(got, 4.5, 1e-12) {
		t.Errorf("A-F11 current = %v A, want 4.5", got)
	}
	// A-C2: copper coulometer, gain 1.2345 g: 3748.8 C. Tolerance 1e-4.
	q, err := Copper().Deposit().Charge(1.2345*gram, 1)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinRel(float64(q), 3748.8, 1e-4) {
		t.Errorf("A-C2 charge = %v C, want 3748.8", float64(q))
	}
	// A-C1: 1 A for 1 h lays down 4.0247 g of silver.
	m, err := Silver().Deposit().Mass(1*AmpereHour, 1)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinRel(float64(m/gram), 4.0247, 2e-5) {
		t.Errorf("A-C1 mass = %v g, want 4.0247", float64(m/gram))
	}
}

func TestUnits(t *testing.T) {
	// A-F12: exact by definition, printed figures within 1e-4.
	tests := []struct {
		name      string
		got, want float64
	}{
		{"A/dm2 in A/ft2", float64(AmperePerSquareDecimetre / AmperePerSquareFoot), 9.290304},
		{"oz/gal in g/L", float64(OuncePerUSGallon / GramPerLitre), 7.48915},
		{"30 oz/gal in g/L", float64(30 * OuncePerUSGallon / GramPerLitre), 224.67},
		{"45 A/ft2 in A/dm2", float64(45 * AmperePerSquareFoot / AmperePerSquareDecimetre), 4.8438},
		{"10 A/ft2 in A/dm2", float64(10 * AmperePerSquareFoot / AmperePerSquareDecimetre), 1.0764},
		{"1 ft2 x 0.001 in, cm3", float64(SquareFoot) * float64(Thou) * 1e6, 2.35974},
		{"55 degrees Celsius in K", float64(Celsius(55)), 328.15},
	}
	for _, test := range tests {
		if !scalar.EqualWithinRel(test.got, test.want, 1e-4) {
			t.Errorf("%s = %v, want %v", test.name, test.got, test.want)
		}
	}
}

func TestSolveFromAnyPair(t *testing.T) {
	whole, err := Coat{Deposit: Nickel().Deposit(), Area: 74.9 * SquareCentimetre, Current: 2.25 * unit.Ampere, Time: 45 * minute, Efficiency: 0.95}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name string
		give func(c *Coat)
	}{
		{"density and thickness", func(c *Coat) {
			c.Area, c.CurrentDensity, c.Thickness, c.Efficiency = whole.Area, whole.CurrentDensity, whole.Thickness, whole.Efficiency
		}},
		{"current and mass", func(c *Coat) {
			c.Area, c.Current, c.Mass, c.Efficiency = whole.Area, whole.Current, whole.Mass, whole.Efficiency
		}},
		{"charge and time", func(c *Coat) {
			c.Area, c.Charge, c.Time, c.Efficiency = whole.Area, whole.Charge, whole.Time, whole.Efficiency
		}},
		{"mass, charge, time and area give the efficiency", func(c *Coat) {
			c.Area, c.Charge, c.Time, c.Mass = whole.Area, whole.Charge, whole.Time, whole.Mass
		}},
		{"mass and thickness give the area", func(c *Coat) {
			c.Mass, c.Thickness, c.Efficiency, c.Time = whole.Mass, whole.Thickness, whole.Efficiency, whole.Time
		}},
		{"everything", func(c *Coat) { *c = whole }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := Coat{Deposit: whole.Deposit}
			test.give(&c)
			got, err := c.Solve()
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(coatNumbers(whole), coatNumbers(got), withinRel(1e-12)); diff != "" {
				t.Errorf("solved coat differs (-want +got):\n%s", diff)
			}
		})
	}
}

// coatNumbers returns the fields of a coat that Solve finds, in SI.
func coatNumbers(c Coat) []float64 {
	return []float64{float64(c.Area), c.Efficiency, float64(c.Current), float64(c.CurrentDensity), float64(c.Time),
		float64(c.Charge), float64(c.Mass), float64(c.Thickness)}
}

// withinRel compares float64 values within a relative tolerance.
func withinRel(tol float64) cmp.Option {
	return cmp.Comparer(func(a, b float64) bool { return scalar.EqualWithinRel(a, b, tol) })
}

func TestSolveWithoutArea(t *testing.T) {
	c, err := Coat{Deposit: Nickel().Deposit(), CurrentDensity: 3 * AmperePerSquareDecimetre, Thickness: 10 * micrometre, Efficiency: 0.95}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	// 10 um at 3 A/dm2 and 95 %: 17.1 min (exercise, arithmetic rounded to 0.1).
	if got := float64(c.Time / minute); !scalar.EqualWithinAbs(got, 17.1, 0.05) {
		t.Errorf("time = %v min, want 17.1", got)
	}
	if c.Mass != 0 || c.Area != 0 || c.Charge != 0 {
		t.Errorf("without an area: mass %v, area %v, charge %v, want zeros", float64(c.Mass), float64(c.Area), float64(c.Charge))
	}
}

func TestSolveErrors(t *testing.T) {
	nickel := Nickel().Deposit()
	tests := []struct {
		name    string
		coat    Coat
		wantErr string
	}{
		{"no deposit", Coat{Area: 1 * SquareDecimetre}, "electrochemical equivalent"},
		{"nothing", Coat{Deposit: nickel}, "nothing is given"},
		{"area alone", Coat{Deposit: nickel, Area: 1 * SquareDecimetre}, "nothing follows from area alone"},
		{"negative time", Coat{Deposit: nickel, Time: -3 * minute}, "time is -3 min"},
		{"not a number", Coat{Deposit: nickel, Current: unit.Current(math.NaN())}, "current is NaN A"},
		{"infinite", Coat{Deposit: nickel, Thickness: unit.Length(math.Inf(1))}, "thickness is +Inf um"},
		{"percent", Coat{Deposit: nickel, Efficiency: 95, Charge: 1 * AmpereHour}, "95 % is 0.95"},
		{"contradiction", Coat{Deposit: nickel, Current: 2 * unit.Ampere, Time: 3600 * unit.Second, Charge: 3 * AmpereHour},
			"charge is 3 A h, but current and time give 2 A h"},
		{"too much metal", Coat{Deposit: nickel, Charge: 1 * AmpereHour, Mass: 1.2 * gram}, "above 1"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := test.coat.Solve()
			if err == nil || !strings.Contains(err.Error(), test.wantErr) {
				t.Errorf("error = %v, want one with %q", err, test.wantErr)
			}
			if err != nil && !strings.HasPrefix(err.Error(), "plating: ") {
				t.Errorf("error %q does not name the package", err)
			}
		})
	}
}

func TestDepositErrors(t *testing.T) {
	nickel := Nickel().Deposit()
	nan := math.NaN()
	calls := map[string]func() error{
		"mass of no charge":       func() error { _, err := nickel.Mass(unit.Charge(nan), 0.95); return err },
		"mass at efficiency 0":    func() error { _, err := nickel.Mass(1*AmpereHour, 0); return err },
		"charge of negative mass": func() error { _, err := nickel.Charge(-1*gram, 0.95); return err },
		"thickness on no area":    func() error { _, err := nickel.Thickness(1*gram, 0); return err },
		"coat of no thickness":    func() error { _, err := nickel.MassOfCoat(unit.Length(nan), 1*SquareDecimetre); return err },
		"rate at NaN":             func() error { _, err := nickel.Rate(CurrentDensity(nan), 0.95); return err },
		"time at no current":      func() error { _, err := nickel.TimeFor(1*micrometre, 0, 0.95); return err },
		"time at efficiency 2":    func() error { _, err := nickel.TimeFor(1*micrometre, 100*AmperePerSquareMetre, 2); return err },
		"empty deposit":           func() error { _, err := (Deposit{}).Mass(1*AmpereHour, 1); return err },
	}
	for name, call := range calls {
		if call() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestFaradayLaws(t *testing.T) {
	nickel := Nickel().Deposit()
	base := Coat{Deposit: nickel, Area: 2 * SquareDecimetre, Current: 3 * unit.Ampere, Time: 30 * minute, Efficiency: 0.9}
	one, err := base.Solve()
	if err != nil {
		t.Fatal(err)
	}
	t.Run("twice the amps for half the time is the same mean thickness", func(t *testing.T) {
		c := base
		c.Current *= 2
		c.Time /= 2
		got, err := c.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(got.Thickness), float64(one.Thickness), 1e-12) {
			t.Errorf("thickness %v, want %v", float64(got.Thickness), float64(one.Thickness))
		}
	})
	t.Run("there and back", func(t *testing.T) {
		m, err := nickel.Mass(one.Charge, 0.9)
		if err != nil {
			t.Fatal(err)
		}
		q, err := nickel.Charge(m, 0.9)
		if err != nil {
			t.Fatal(err)
		}
		d, err := nickel.Thickness(m, base.Area)
		if err != nil {
			t.Fatal(err)
		}
		back, err := nickel.MassOfCoat(d, base.Area)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(q), float64(one.Charge), 1e-12) || !scalar.EqualWithinRel(float64(back), float64(m), 1e-12) {
			t.Errorf("charge %v and mass %v do not come back to %v and %v", float64(q), float64(back), float64(one.Charge), float64(m))
		}
	})
	t.Run("sums of masses", func(t *testing.T) {
		a, _ := nickel.Mass(1*AmpereHour, 0.9)
		b, _ := nickel.Mass(2.5*AmpereHour, 0.9)
		both, _ := nickel.Mass(3.5*AmpereHour, 0.9)
		if !scalar.EqualWithinRel(float64(a+b), float64(both), 1e-12) {
			t.Errorf("%v + %v is not %v", float64(a), float64(b), float64(both))
		}
	})
}

func TestLayers(t *testing.T) {
	copper := Layer{Deposit: Copper().Deposit(), Thickness: 5 * micrometre, CurrentDensity: 2 * AmperePerSquareDecimetre, Efficiency: 1}
	nickel := Layer{Deposit: Nickel().Deposit(), Thickness: 20 * micrometre, CurrentDensity: 2.5 * AmperePerSquareDecimetre, Efficiency: 0.95}
	coats, thickness, mass, err := Layers(1*SquareDecimetre, copper, nickel)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinRel(float64(thickness/micrometre), 25, 1e-12) {
		t.Errorf("total = %v um, want 25", float64(thickness/micrometre))
	}
	// 20 um at 2.5 A/dm2 and 95 %: 41.1 min (exercise, rounded to 0.1).
	if got := float64(coats[1].Time / minute); !scalar.EqualWithinAbs(got, 41.1, 0.05) {
		t.Errorf("nickel takes %v min, want 41.1", got)
	}
	// 5 um of copper and 20 um of nickel on 1 dm2: rho times volume.
	if got, want := float64(mass/gram), 0.448+1.7816; !scalar.EqualWithinRel(got, want, 1e-9) {
		t.Errorf("mass = %v g, want %v", got, want)
	}
	bad := nickel
	bad.Efficiency = 95
	if _, _, _, err := Layers(1*SquareDecimetre, copper, bad); err == nil || !strings.Contains(err.Error(), "layer 2") {
		t.Errorf("error = %v, want one naming layer 2", err)
	}
	if _, _, _, err := Layers(1 * SquareDecimetre); err == nil {
		t.Error("no layers: no error")
	}
}
