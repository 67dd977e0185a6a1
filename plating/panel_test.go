package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestPanelSection(t *testing.T) {
	// Computed from the plan of the 267 mL cell (dimensions from memory): 0.1 %.
	s := PanelSection()
	panel := s.Outlines[2].Corners
	length := math.Hypot(float64(panel[1].X-panel[0].X), float64(panel[1].Y-panel[0].Y))
	if !scalar.EqualWithinRel(length, 101.669e-3, 1e-3) || !scalar.EqualWithinRel(float64(s.Depth), 48.164e-3, 1e-3) {
		t.Errorf("panel is %v by %v m, want 0.101669 by 0.048164", length, float64(s.Depth))
	}
	if area := length * float64(s.Depth) / float64(SquareDecimetre); !scalar.EqualWithinRel(area, 0.4897, 1e-3) {
		t.Errorf("panel has %v dm2, want 0.4897", area)
	}
}

func TestPanelAt(t *testing.T) {
	// Metal Finishing Guidebook, 2013, plating cells (read), turned into A/dm2 and
	// cm; tolerance: the last digit of the table.
	for cm, want := range map[float64]float64{1: 5.10, 2: 3.52, 3: 2.60, 5: 1.44, 7: 0.67} {
		for _, ampere := range []float64{1, 2, 3} {
			p := Panel{Current: unit.Current(ampere)}
			at := unit.Length(cm) * unit.Centi * unit.Metre
			got, err := p.At(at)
			if err != nil || !scalar.EqualWithinAbs(float64(got/AmperePerSquareDecimetre), ampere*want, 0.01+0.005*ampere) {
				t.Errorf("At(%v cm) at %v A = %v, %v, want %v A/dm2", cm, ampere, got/AmperePerSquareDecimetre, err, ampere*want)
			}
			back, err := p.Place(got)
			if err != nil || !scalar.EqualWithinRel(float64(back), float64(at), 1e-12) {
				t.Errorf("Place(At(%v cm)) = %v, %v", cm, float64(back), err)
			}
		}
	}
	if _, err := (Panel{Current: 1}).At(1 * millimetre); err == nil {
		t.Error("At before the first inch quarter gave no error")
	}
	if _, err := (Panel{Current: 1}).Place(100 * AmperePerSquareDecimetre); err == nil {
		t.Error("Place of a current density that is not on the panel gave no error")
	}
	if _, err := (Panel{}).Place(1); err == nil {
		t.Error("Place without a current gave no error")
	}
}

func TestPanelPrimary(t *testing.T) {
	// A. C. West, M. Matlosz, D. Landolt, J. Appl. Electrochem. 22 (1992) 301
	// (abstract read), method re-derived: the conformal map of the cell.
	// Tolerance 0.5 % at the places of the table, the demand being 2 %; 2 % at
	// 0.9, where the current dies away. kappa depth R = 1.05596, 0.1 %.
	d := solved(t, PanelSection(), 400, oneAmpere)
	p := profile(t, d, "panel")
	for share, want := range map[float64]float64{0.1: 2.1348, 0.2: 1.5285, 0.4: 0.9276, 0.6: 0.5260, 0.8: 0.2085, 0.9: 0.0830} {
		tol := 5e-3
		if share > 0.85 {
			tol = 2e-2
		}
		if got := float64(p.At(unit.Length(share*panelLength())) / d.Mean); !scalar.EqualWithinRel(got, want, tol) {
			t.Errorf("current density at %v of the panel = %v of the mean, want %v", share, got, want)
		}
	}
	if got := 8 * 48.164e-3 * float64(d.Resistance()); !scalar.EqualWithinRel(got, 1.05596, 1e-3) {
		t.Errorf("kappa depth R = %v, want 1.05596", got)
	}
	// M. McCormick, A. T. Kuhn, "The Haring-Blum cell", Trans. IMF 71 (1993) 74,
	// Table 1 (read): ratios 2.50 and 1.292 at 0.26 and 1.02 in; 5 %.
	for inch, want := range map[float64]float64{0.26: 2.50, 1.02: 1.292} {
		if got := float64(p.At(unit.Length(inch*0.0254)) / d.Mean); !scalar.EqualWithinRel(got, want, 0.05) {
			t.Errorf("current density at %v in = %v of the mean, want %v", inch, got, want)
		}
	}
	// Ends: 141.35 degrees against an insulator gives p = -0.3633, 38.65 gives
	// 1.329; the slope is fitted from the ends over 0.5 to 3 mm, 0.03 absolute.
	for _, end := range []struct {
		from float64
		want float64
	}{{0, -0.3633}, {panelLength(), 1.329}} {
		var x, y []float64
		for _, s := range p.Samples {
			if off := math.Abs(float64(s.Along) - end.from); off > 2e-4 && off < 2e-3 {
				x, y = append(x, math.Log(off)), append(y, math.Log(float64(s.CurrentDensity)))
			}
		}
		if got := slopeOf(x, y); !scalar.EqualWithinAbs(got, end.want, 0.03) {
			t.Errorf("exponent at %v m = %v, want %v (%d elements)", end.from, got, end.want, len(x))
		}
	}
}

func TestPanelRead(t *testing.T) {
	p := Panel{Current: 2 * unit.Ampere}
	got, err := p.Read(PanelReading{From: 20 * millimetre, To: 70 * millimetre, U: 1 * millimetre})
	if err != nil {
		t.Fatal(err)
	}
	// The table of the formula at 2 A: 7.05 and 1.34; two decimals.
	if !scalar.EqualWithinAbs(float64(got.High/AmperePerSquareDecimetre), 7.05, 0.015) ||
		!scalar.EqualWithinAbs(float64(got.Low/AmperePerSquareDecimetre), 1.34, 0.015) || got.LowOpen || got.HighOpen {
		t.Errorf("Read = %+v, want 1.34 to 7.05 A/dm2", got)
	}
	// The uncertainty is the slope of the formula, here by a difference.
	near, _ := p.At(19.5 * millimetre)
	far, _ := p.At(20.5 * millimetre)
	if !scalar.EqualWithinRel(float64(got.HighU), float64(near-far), 1e-3) {
		t.Errorf("HighU = %v, want %v", got.HighU, near-far)
	}
	open, err := p.Read(PanelReading{From: 0, To: unit.Length(panelLength())})
	if err != nil || !open.LowOpen || !open.HighOpen {
		t.Errorf("Read of a panel good all over = %+v, %v, want both ends open", open, err)
	}
	for name, r := range map[string]PanelReading{
		"out of order":   {From: 50 * millimetre, To: 20 * millimetre},
		"off the panel":  {From: 50 * millimetre, To: 120 * millimetre},
		"before formula": {From: 0, To: 5 * millimetre},
		"beyond formula": {From: 90 * millimetre, To: 100 * millimetre},
		"NaN":            {From: unit.Length(math.NaN()), To: 20 * millimetre},
	} {
		if got, err := p.Read(r); err == nil {
			t.Errorf("%s: Read = %+v, want an error", name, got)
		}
	}
}
