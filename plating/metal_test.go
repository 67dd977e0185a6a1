package plating

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
)

// The cases named A-F are those of the check list: constants from CODATA 2018,
// atomic weights from IUPAC (Meija et al., 2016), printed tables as cited.

func TestFaradayConstant(t *testing.T) {
	// CODATA 2018, Faraday constant, read: 96485.33212 C/mol. Tolerance 1e-9
	// relative: ten printed figures.
	if want := 96485.33212; !scalar.EqualWithinRel(Faraday, want, 1e-9) {
		t.Errorf("Faraday = %v C/mol, want %v", Faraday, want)
	}
	if got, want := Faraday/float64(AmpereHour), 26.80148114; !scalar.EqualWithinRel(got, want, 1e-9) {
		t.Errorf("Faraday = %v A h/mol, want %v", got, want)
	}
}

func TestEquivalent(t *testing.T) {
	// A-F3: arithmetic from the constants above, rounded to five figures;
	// printed is a handbook table "Electrochemical Equivalents", 100 %
	// efficiency, read, good to 0.001 g/(A h).
	tests := []struct {
		metal              Metal
		mgPerC, gPerAh     float64
		printed, tolerance float64
	}{
		{Nickel(), 0.30416, 1.0950, 1.095, 0.001},
		{Copper(), 0.32930, 1.1855, 1.186, 0.001},
		{Zinc(), 0.33881, 1.2197, 1.219, 0.001},
		{Silver(), 1.11798, 4.0247, 4.024, 0.001},
		{Gold(), 2.04141, 7.3491, 7.348, 0.0015},
		{Cobalt(), 0.30540, 1.0994, 1.099, 0.001},
	}
	for _, test := range tests {
		t.Run(test.metal.Name, func(t *testing.T) {
			k := test.metal.Equivalent()
			if got := float64(k / MilligramPerCoulomb); !scalar.EqualWithinRel(got, test.mgPerC, 2e-4) {
				t.Errorf("equivalent = %v mg/C, want %v", got, test.mgPerC)
			}
			got := float64(k / GramPerAmpereHour)
			if !scalar.EqualWithinRel(got, test.gPerAh, 2e-4) {
				t.Errorf("equivalent = %v g/(A h), want %v", got, test.gPerAh)
			}
			if !scalar.EqualWithinAbs(got, test.printed, test.tolerance) {
				t.Errorf("equivalent = %v g/(A h), printed table %v", got, test.printed)
			}
		})
	}
	if k := (Metal{}).Equivalent(); !math.IsNaN(float64(k)) {
		t.Errorf("equivalent of a metal without valence = %v, want NaN", float64(k))
	}
}

func TestSilverCoulometer(t *testing.T) {
	// A-C1: Craig et al., NBS, 1960, read: 1.117972 mg/C. Tolerance 1e-5.
	if got := float64(Silver().Equivalent() / MilligramPerCoulomb); !scalar.EqualWithinRel(got, 1.117972, 1e-5) {
		t.Errorf("silver = %v mg/C, want 1.117972", got)
	}
}

func TestAlloy(t *testing.T) {
	t.Run("one metal alone is that metal", func(t *testing.T) {
		for _, make := range []func(string, Density, ...AlloyShare) (Deposit, error){AlloyByMass, AlloyByMole} {
			d, err := make("all nickel", 0, AlloyShare{Nickel(), 1})
			if err != nil {
				t.Fatal(err)
			}
			n := Nickel().Deposit()
			if !scalar.EqualWithinRel(float64(d.Equivalent), float64(n.Equivalent), 1e-15) || !scalar.EqualWithinRel(float64(d.Density), float64(n.Density), 1e-15) {
				t.Errorf("alloy of nickel alone = %+v, want nickel's %+v", d, n)
			}
		}
	})
	t.Run("mass and mole shares of one alloy agree", func(t *testing.T) {
		byMass, err := AlloyByMass("nickel-iron", 0, AlloyShare{Nickel(), 0.8}, AlloyShare{Iron(), 0.2})
		if err != nil {
			t.Fatal(err)
		}
		ni, fe := 0.8/float64(Nickel().MolarMass), 0.2/float64(Iron().MolarMass)
		byMole, err := AlloyByMole("nickel-iron", 0, AlloyShare{Nickel(), ni / (ni + fe)}, AlloyShare{Iron(), fe / (ni + fe)})
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(byMass.Equivalent), float64(byMole.Equivalent), 1e-12) {
			t.Errorf("equivalents %v and %v differ", float64(byMass.Equivalent), float64(byMole.Equivalent))
		}
		// The charge of 1 kg is the charge of its 0.8 kg and its 0.2 kg.
		want := 0.8/float64(Nickel().Equivalent()) + 0.2/float64(Iron().Equivalent())
		if got := 1 / float64(byMass.Equivalent); !scalar.EqualWithinRel(got, want, 1e-12) {
			t.Errorf("charge of a kilogram = %v C, want %v", got, want)
		}
	})
	t.Run("silver and a divalent metal by mole", func(t *testing.T) {
		// Half silver, half copper by mole: 1.5 electrons a mole of alloy.
		d, err := AlloyByMole("half", 9.5*GramPerCubicCentimetre, AlloyShare{Silver(), 0.5}, AlloyShare{Copper(), 0.5})
		if err != nil {
			t.Fatal(err)
		}
		want := (107.8682 + 63.546) / 2 * 1e-3 / (1.5 * Faraday)
		if got := float64(d.Equivalent); !scalar.EqualWithinRel(got, want, 1e-12) {
			t.Errorf("equivalent = %v kg/C, want %v", got, want)
		}
		if d.DensityU != 0 {
			t.Errorf("a given density has uncertainty %v", float64(d.DensityU))
		}
	})
	errs := []struct {
		name    string
		density Density
		shares  []AlloyShare
		wantErr string
	}{
		{"none", 0, nil, "no metals"},
		{"percent", 0, []AlloyShare{{Nickel(), 80}, {Iron(), 20}}, "fraction"},
		{"sum", 0, []AlloyShare{{Nickel(), 0.8}, {Iron(), 0.3}}, "sum to 1.1"},
		{"density", -1, []AlloyShare{{Nickel(), 1}}, "density"},
		{"blank metal", 0, []AlloyShare{{Metal{Name: "x"}, 1}}, "valence"},
	}
	for _, test := range errs {
		t.Run(test.name, func(t *testing.T) {
			_, err := AlloyByMass(test.name, test.density, test.shares...)
			if err == nil || !strings.Contains(err.Error(), test.wantErr) {
				t.Errorf("error = %v, want one with %q", err, test.wantErr)
			}
		})
	}
}
