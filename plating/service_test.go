package plating

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestServiceClasses(t *testing.T) {
	// ASTM B456 on steel and ASTM B689, thicknesses in um.
	for _, test := range []struct {
		classes []ServiceClass
		want    []float64
	}{
		{DecorativeClasses(), []float64{35, 40, 30, 30, 25, 20, 15, 10}},
		{EngineeringClasses(), []float64{5, 25, 50, 100, 200}},
	} {
		names := make(map[string]bool)
		for i, c := range test.classes {
			if math.Abs(float64(c.LocalLeast)*1e6-test.want[i]) > 1e-9 {
				t.Errorf("%s %s asks %v, want %v um", c.Standard, c.Name, c.LocalLeast, test.want[i])
			}
			if names[c.Name] || c.Known == "" || c.Standard == "" {
				t.Errorf("%q: used twice, or without a standard or how it is known", c.Name)
			}
			names[c.Name] = true
		}
	}
}

func TestLocalDemandAim(t *testing.T) {
	// Without doubt the mean is the least over the share: 25/0.82 = 30.49 um.
	plain, err := LocalDemand{Least: 25e-6, Share: 0.82, Chance: 0.95}.Aim()
	if err != nil || !scalar.EqualWithinRel(float64(plain.Mean), 25e-6/0.82, 1e-12) {
		t.Errorf("mean is %v, %v, want 30.49 um", plain.Mean, err)
	}
	// The one-sided 95 % point of the normal distribution is 1.644854.
	d := LocalDemand{Least: 25e-6, Share: 0.82, ShareU: 0.02, MeanU: 0.015, Chance: 0.95}
	aim, err := d.Aim()
	if err != nil || !scalar.EqualWithinAbs(aim.Coverage, 1.644854, 1e-6) {
		t.Fatalf("coverage is %v, %v, want 1.644854", aim.Coverage, err)
	}
	// Law: the thinnest place then lies its coverage above its least.
	if got := float64(aim.Mean)*d.Share - aim.Coverage*float64(aim.LocalU); !scalar.EqualWithinRel(got, 25e-6, 1e-12) {
		t.Errorf("the thinnest place less its doubt is %v, want 25 um", got)
	}
	// An even chance needs no margin whatever the doubt.
	d.Chance = 0.5
	if aim, err = d.Aim(); err != nil || aim.Mean != aim.Bare {
		t.Errorf("at an even chance the mean is %v, %v, want %v", aim.Mean, err, aim.Bare)
	}
}

func TestLocalDemandErrors(t *testing.T) {
	for want, d := range map[string]LocalDemand{
		"least thickness":  {Share: 0.8, Chance: 0.9},
		"80 % is 0.8":      {Least: 1e-6, Share: 80, Chance: 0.9},
		"chance":           {Least: 1e-6, Share: 0.8, Chance: 1},
		"no mean gives":    {Least: 1e-6, Share: 0.3, ShareU: 0.3, Chance: 0.99},
		"uncertainty of":   {Least: 1e-6, Share: 0.8, ShareU: math.NaN(), Chance: 0.9},
		"relative uncerta": {Least: 1e-6, Share: 0.8, MeanU: -1, Chance: 0.9},
	} {
		if _, err := d.Aim(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Aim gave %v, want an error with %q", err, want)
		}
	}
}

func FuzzLocalDemandAim(f *testing.F) {
	f.Add(25e-6, 0.82, 0.02, 0.015, 0.95)
	f.Add(1e-6, 1.0, 0.0, 0.0, 0.5)
	f.Fuzz(func(t *testing.T, least, share, shareU, meanU, chance float64) {
		aim, err := LocalDemand{Least: unit.Length(least), Share: share, ShareU: shareU, MeanU: meanU, Chance: chance}.Aim()
		if err == nil && !(float64(aim.Mean) >= least) {
			t.Errorf("aimed at %v for a least of %v", aim.Mean, least)
		}
	})
}

func ExampleLocalDemand_Aim() {
	// 25 um in the middle of a face that gets 82 % of the mean, give or take 2 %.
	aim, err := LocalDemand{Least: 25e-6, Share: 0.82, ShareU: 0.02, MeanU: 0.015, Chance: 0.95}.Aim()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("aim at a mean of %.1f um, not %.1f\n", float64(aim.Mean)*1e6, float64(aim.Bare)*1e6)
	// Output: aim at a mean of 32.0 um, not 30.5
}
