package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestChange(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// The change tells the truth: against a much finer mesh, the answer is nearer
	// than a few times the change, or than a tenth of a per cent.
	finest := solved(t, hangingPlate(0.01), 1000, bathConditions)
	for _, elements := range []int{10, 300, 480} {
		d := solved(t, hangingPlate(0.01), elements, bathConditions)
		off := changeBetween(d, finest)
		for _, v := range []struct {
			name        string
			change, off float64
		}{
			{"resistance", d.Change.Resistance, off.Resistance}, {"thinnest", d.Change.Thinnest, off.Thinnest},
			{"thickest", d.Change.Thickest, off.Thickest}, {"spread", d.Change.Spread, off.Spread},
		} {
			if v.off > math.Max(3*v.change, 2e-3) || v.change > 0.05 {
				t.Errorf("%d elements asked for: %s is off by %v, change says %v", elements, v.name, v.off, v.change)
			}
		}
	}
	// A sharp corner without kinetics does not settle, and says so.
	primary := solved(t, hangingPlate(0.01), 480, Conditions{Conductivity: 8, Current: 2})
	if primary.Change.Thickest < 0.1 {
		t.Errorf("thickest place of a sharp primary corner changes by %v only", primary.Change.Thickest)
	}
}

func TestRoundedCornerSettles(t *testing.T) {
	s := hangingPlate(0.01)
	for i := range s.Outlines[3].Corners {
		s.Outlines[3].Corners[i].Round = 0.4 * millimetre
	}
	d := solved(t, s, 400, Conditions{Conductivity: 8, Current: 2})
	if d.Change.Thickest > 0.02 {
		t.Errorf("thickest place of a rounded primary corner changes by %v, want below 0.02", d.Change.Thickest)
	}
	length := 2*(44.0+1.6)*1e-3 - (8-2*math.Pi)*0.4e-3
	if p := profile(t, d, "plate"); !scalar.EqualWithinRel(outlineLength(p), length, 1e-9) {
		t.Errorf("rounded outline is %v m long, want %v", outlineLength(p), length)
	}
}

// outlineLength returns the sum of a profile's elements in m.
func outlineLength(p Profile) float64 {
	var lengths []float64
	for _, s := range p.Samples {
		lengths = append(lengths, float64(s.Length))
	}
	return floats.Sum(lengths)
}

func TestGrow(t *testing.T) {
	d := solved(t, hangingPlate(0.01), 200, bathConditions)
	nickel := Nickel().Deposit()
	g, err := d.Grow(nickel, ConstantEfficiency(0.95), 30*minute)
	if err != nil {
		t.Fatal(err)
	}
	// With one efficiency everywhere the mass is that of the whole charge.
	want, err := nickel.Mass(2*1800*unit.Coulomb, 0.95)
	if err != nil || !scalar.EqualWithinRel(float64(g.Mass), float64(want), 1e-9) {
		t.Errorf("mass = %v kg, want %v", float64(g.Mass), float64(want))
	}
	if ratio := float64(g.Thickest.Thickness / g.Mean); !scalar.EqualWithinRel(ratio, float64(d.Thickest.CurrentDensity/d.Mean), 1e-9) {
		t.Errorf("thickest over mean = %v, want that of the current", ratio)
	}
	// An efficiency that falls with current density evens the coat.
	falling, err := d.Grow(nickel, EfficiencyCurve{{0, 0.98}, {d.Thickest.CurrentDensity, 0.7}}, 30*minute)
	if err != nil || falling.Thickest.Thickness/falling.Thinnest.Thickness >= g.Thickest.Thickness/g.Thinnest.Thickness {
		t.Errorf("thickest over thinnest = %v with a falling efficiency, %v with a level one (%v)",
			falling.Thickest.Thickness/falling.Thinnest.Thickness, g.Thickest.Thickness/g.Thinnest.Thickness, err)
	}
	long, err := d.TimeFor(10*micrometre, nickel, ConstantEfficiency(0.95))
	if err != nil {
		t.Fatal(err)
	}
	then, err := d.Grow(nickel, ConstantEfficiency(0.95), long)
	if err != nil || !scalar.EqualWithinRel(float64(then.Thinnest.Thickness), 10e-6, 1e-9) {
		t.Errorf("thinnest after the time for 10 um = %v m, %v", float64(then.Thinnest.Thickness), err)
	}
}

func TestOver(t *testing.T) {
	d := solved(t, hangingPlate(0.01), 200, bathConditions)
	limit := 2 * d.Mean
	stretches, share, err := d.Over(limit)
	if err != nil || len(stretches) == 0 || share <= 0 || share > 0.3 {
		t.Fatalf("Over(twice the mean) = %v, %v, %v; want the edges", stretches, share, err)
	}
	peak := CurrentDensity(0)
	for _, s := range stretches {
		peak = max(peak, s.Peak)
	}
	if peak != d.Thickest.CurrentDensity {
		t.Errorf("highest peak = %v, want %v", peak, d.Thickest.CurrentDensity)
	}
	if none, share, err := d.Over(2 * d.Thickest.CurrentDensity); err != nil || len(none) != 0 || share != 0 {
		t.Errorf("Over(beyond the thickest) = %v, %v, %v, want nothing", none, share, err)
	}
	if _, _, err := d.Over(0); err == nil {
		t.Error("Over(0) gave no error")
	}
}

func TestMeanBetween(t *testing.T) {
	d := solved(t, hangingPlate(0.01), 200, bathConditions)
	p := profile(t, d, "plate")
	if got := p.MeanBetween(0, unit.Length(outlineLength(p))); !scalar.EqualWithinRel(float64(got), float64(p.Mean), 1e-9) {
		t.Errorf("mean over the whole outline = %v, want %v", got, p.Mean)
	}
	if got := p.MeanBetween(1, 2); !math.IsNaN(float64(got)) {
		t.Errorf("mean beyond the outline = %v, want NaN", got)
	}
}
