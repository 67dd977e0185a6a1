package squaring

import (
	"math"
	"testing"
)

// Source: JCGM 100:2008, table G.2 (nu = 16 read, the rest recomputed from the
// t integral). 5e-5 is the table's last figure, rounded.
func TestCoverageFactor(t *testing.T) {
	tests := []struct{ probability, nu, want float64 }{
		{0.95, 1, 12.7062}, {0.95, 2, 4.3027}, {0.95, 3, 3.1824}, {0.95, 4, 2.7764}, {0.95, 5, 2.5706}, {0.95, 6, 2.4469},
		{0.95, 7, 2.3646}, {0.95, 8, 2.3060}, {0.95, 9, 2.2622}, {0.95, 10, 2.2281}, {0.95, 16, 2.1199}, {0.95, 20, 2.0860},
		{0.95, 25, 2.0595}, {0.95, 50, 2.0086}, {0.95, 100, 1.9840}, {0.9545, 16, 2.1689}, {0.99, 4, 4.6041},
		{0.99, 5, 4.0321}, {0.99, 8, 3.3554}, {0.99, 10, 3.1693}, {0.99, 16, 2.9208}, {0.99, 20, 2.8453},
		{0.95, math.Inf(1), 1.959964}, {0.99, 1e7, 2.575829},
	}
	for _, test := range tests {
		got, err := CoverageFactor(test.probability, test.nu)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "coverage factor", got, test.want, 6e-5)
	}
	for _, bad := range [][2]float64{{0, 5}, {1, 5}, {math.NaN(), 5}, {0.95, 0}, {0.95, -1}, {0.95, math.NaN()}} {
		if k, err := CoverageFactor(bad[0], bad[1]); err == nil {
			t.Errorf("CoverageFactor(%v) = %v, want an error", bad, k)
		}
	}
}

// Source: JCGM 100:2008, H.1, end gauge (main figures read, all recomputed).
// The printed U99 of 93 nm multiplies a rounded u; unrounded it is 92.5 nm.
func TestBudgetEndGauge(t *testing.T) {
	difference := Budget{{"repeats", 5.81378, 24}, {"comparator, random", 3.89017, 5}, {"comparator, systematic", 6.66667, 8}}
	near(t, "u(d)", difference.Combined(), 9.66322, 1e-5)
	near(t, "nu(d)", difference.DegreesOfFreedom(), 25.62, 0.01)
	whole := Budget{
		{"standard", 25, 18}, {"difference", difference.Combined(), difference.DegreesOfFreedom()},
		{"expansion, difference", 50000623 * 0.1 * 0.57735e-6, 50}, {"temperature, difference", 50000623 * 11.5e-6 * 0.0288675, 2},
	}
	near(t, "u", whole.Combined(), 31.658, 0.001)
	near(t, "nu", whole.DegreesOfFreedom(), 16.741, 0.002)
	k, err := CoverageFactor(0.99, math.Floor(whole.DegreesOfFreedom()))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "U99", k*whole.Combined(), 92.47, 0.01)
}

func TestBudgetEmptyAndKnown(t *testing.T) {
	if u, nu := (Budget{}).Combined(), (Budget{}).DegreesOfFreedom(); u != 0 || !math.IsInf(nu, 1) {
		t.Errorf("empty budget: u %v, nu %v", u, nu)
	}
	if nu := (Budget{{"known", 1, 0}}).DegreesOfFreedom(); !math.IsInf(nu, 1) {
		t.Errorf("all known: nu %v, want +Inf", nu)
	}
}
