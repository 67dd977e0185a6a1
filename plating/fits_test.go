package plating

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestAllowanceTable(t *testing.T) {
	// A-T4: ISO 4042:1999, table 2, read in a reproduction, um.
	tests := []struct{ pitch, g, f, e float64 }{
		{0.5, 20, 36, 50}, {0.7, 22, 38, 56}, {0.8, 24, 38, 60}, {1, 26, 40, 60}, {1.25, 28, 42, 63}, {1.75, 34, 48, 71},
	}
	for _, test := range tests {
		for position, want := range map[Position]float64{PositionH: 0, PositionG: test.g, PositionF: test.f, PositionE: test.e} {
			got, known, err := Allowance(unit.Length(test.pitch)*millimetre, position)
			if err != nil {
				t.Fatal(err)
			}
			if !scalar.EqualWithinAbs(float64(got/micrometre), want, 1e-9) || known != FromTable {
				t.Errorf("pitch %v, %s: %v um (%s), want %v from the table", test.pitch, position, float64(got/micrometre), known, want)
			}
			// The rule stays near the table: 2 um for g and f. e is rounded
			// more coarsely; 6 um covers every row.
			if position == PositionH {
				continue
			}
			base := map[Position]float64{PositionG: 15, PositionF: 30, PositionE: 50}[position]
			if rule := base + 11*test.pitch; math.Abs(rule-want) > 6 {
				t.Errorf("pitch %v, %s: the rule gives %v um, the table %v", test.pitch, position, rule, want)
			}
		}
	}
	got, known, err := Allowance(1.5*millimetre, PositionG)
	if err != nil || known != FromRule || !scalar.EqualWithinAbs(float64(got/micrometre), 31.5, 1e-9) {
		t.Errorf("pitch 1.5, g: %v um (%s), %v; want 31.5 from the rule", float64(got/micrometre), known, err)
	}
}

func TestLargestClass(t *testing.T) {
	// A-T5: ISO 4042:1999, read and reproduced by arithmetic: the largest
	// nominal class, um. The printed 3 at g, P 1, length 5d to 10d is left out
	// as in the check list.
	tests := []struct {
		position Position
		pitch    float64
		length   float64 // in diameters
		want     float64
	}{
		{PositionG, 0.8, 5, 5}, {PositionG, 1, 5, 5}, {PositionG, 1.25, 5, 5}, {PositionG, 1.75, 5, 8},
		{PositionF, 1, 5, 10}, {PositionF, 1.75, 5, 12},
		{PositionE, 0.8, 5, 15}, {PositionE, 0.8, 10, 12}, {PositionE, 0.8, 15, 10},
		{PositionF, 1, 10, 8}, {PositionF, 1, 15, 5},
	}
	for _, test := range tests {
		a, _, err := Allowance(unit.Length(test.pitch)*millimetre, test.position)
		if err != nil {
			t.Fatal(err)
		}
		c, ok, err := LargestClass(a, test.length)
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		if got := float64(c.Nominal / micrometre); !scalar.EqualWithinAbs(got, test.want, 1e-9) {
			t.Errorf("%s, P %v, %v d: class %v, want %v um", test.position, test.pitch, test.length, got, test.want)
		}
	}
	if _, ok, err := LargestClass(11*micrometre, 3); ok || err != nil {
		t.Errorf("an allowance of 11 um: fits %v, %v; want no class", ok, err)
	}
}

func TestAllowanceFor(t *testing.T) {
	// A-T6: ISO 4042:1999, read: printed rows follow 4t, 5t, 6t.
	tests := []struct{ thickness, length, want float64 }{
		{3, 4, 12}, {3, 8, 15}, {3, 12, 18}, {5, 5, 20}, {5, 10, 25}, {8, 15, 48}, {10, 8, 50}, {10, 12, 60}, {12, 5, 48}, {12, 12, 72},
	}
	for _, test := range tests {
		got, err := AllowanceFor(unit.Length(test.thickness)*micrometre, test.length)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinAbs(float64(got/micrometre), test.want, 1e-9) {
			t.Errorf("%v um at %v d needs %v um, want %v", test.thickness, test.length, float64(got/micrometre), test.want)
		}
	}
}

func TestCoatingClasses(t *testing.T) {
	// A-T3: ISO 4042:1999, table 1, read: class 10 is 10 local, 9 to 12 mean.
	for _, c := range CoatingClasses() {
		if c.LocalLeast != c.Nominal || !(c.MeanLeast <= c.Nominal && c.Nominal < c.MeanMost) {
			t.Errorf("class %v um has local %v, mean %v to %v", float64(c.Nominal/micrometre), float64(c.LocalLeast/micrometre), float64(c.MeanLeast/micrometre), float64(c.MeanMost/micrometre))
		}
	}
	if c := CoatingClasses()[3]; c.MeanLeast != 9*um || c.MeanMost != 12*um {
		t.Errorf("class 10: mean %v to %v um, want 9 to 12", float64(c.MeanLeast/micrometre), float64(c.MeanMost/micrometre))
	}
}

func TestPitchDiameters(t *testing.T) {
	// M8 x 1.25: d2 = 7.188 mm (ISO 724, from memory; exact geometry).
	got, err := BasicPitchDiameter(8*millimetre, 1.25*millimetre)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinAbs(float64(got/millimetre), 7.188, 5e-4) {
		t.Errorf("d2 of M8 = %v mm, want 7.188", float64(got/millimetre))
	}
	// Tolerances of grade 6 in um (ISO 965-1, from memory), within 6 %.
	tests := []struct{ d, p, external, internal float64 }{
		{3, 0.5, 75, 100}, {4, 0.7, 90, 118}, {5, 0.8, 95, 125}, {6, 1, 112, 150}, {8, 1.25, 118, 160}, {12, 1.75, 150, 200},
	}
	for _, test := range tests {
		external, internal, err := PitchDiameterTolerance(unit.Length(test.d)*millimetre, unit.Length(test.p)*millimetre)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(external/micrometre), test.external, 0.06) || !scalar.EqualWithinRel(float64(internal/micrometre), test.internal, 0.06) {
			t.Errorf("M%v: %v and %v um, want %v and %v", test.d, float64(external/micrometre), float64(internal/micrometre), test.external, test.internal)
		}
	}
}

func TestPlatedSize(t *testing.T) {
	even := LocalCoat{Mean: 12.5 * micrometre, Share: 1}
	// A-T2 and A-T1: exact.
	tests := []struct {
		feature Feature
		want    float64 // mm, from 20.000
	}{
		{Pin, 20.025}, {Bore, 19.975}, {ExternalThread, 20.050}, {InternalThread, 19.950},
	}
	for _, test := range tests {
		p, err := PlatedSize(test.feature, mm(20), even)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinAbs(float64(p.Size/millimetre), test.want, 1e-9) || p.U != 0 {
			t.Errorf("%s: %v mm, want %v", test.feature, float64(p.Size/millimetre), test.want)
		}
	}
	t.Run("uncertainty against draws", func(t *testing.T) {
		coat := LocalCoat{Mean: 25 * micrometre, MeanU: 1 * micrometre, Share: 1.35, ShareU: 0.1}
		p, err := PlatedSize(Pin, mmU(10, 0.002), coat)
		if err != nil {
			t.Fatal(err)
		}
		random := rand.New(rand.NewPCG(5, 6))
		const n = 40000
		sum, squares := 0.0, 0.0
		for range n {
			size := 10e-3 + 2e-6*random.NormFloat64() + 2*(25e-6+1e-6*random.NormFloat64())*(1.35+0.1*random.NormFloat64()) - float64(p.Size)
			sum += size
			squares += size * size
		}
		// A standard deviation from n draws scatters by 0.35 %; the product
		// adds a term of second order below 0.5 %.
		if got := math.Sqrt(squares/n - sum*sum/n/n); !scalar.EqualWithinRel(float64(p.U), got, 0.015) {
			t.Errorf("u = %v m, draws give %v", float64(p.U), got)
		}
	})
	t.Run("cut size comes back to the middle", func(t *testing.T) {
		coat := LocalCoat{Mean: 25 * micrometre, MeanU: 1 * micrometre, Share: 0.8}
		limits := Limits{9.991 * millimetre, 10.000 * millimetre}
		for _, f := range []Feature{Pin, Bore, ExternalThread, InternalThread} {
			cut, err := CutSize(f, limits, coat)
			if err != nil {
				t.Fatal(err)
			}
			p, err := PlatedSize(f, Exactly(cut), coat)
			if err != nil {
				t.Fatal(err)
			}
			if !scalar.EqualWithinAbs(float64(p.Size/millimetre), 9.9955, 1e-9) {
				t.Errorf("%s: plated size %v mm, want the middle, 9.9955", f, float64(p.Size/millimetre))
			}
		}
	})
}

func TestChanceWithin(t *testing.T) {
	p := Plated{Size: 10 * millimetre, U: 1 * micrometre}
	// Normal: 68.27 % within one standard uncertainty, 95.45 % within two.
	for k, want := range map[float64]float64{1: 0.682689, 2: 0.954500} {
		off := unit.Length(k) * micrometre
		got, err := p.ChanceWithin(Limits{10*millimetre - off, 10*millimetre + off})
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinAbs(got, want, 1e-6) {
			t.Errorf("within %v u: %v, want %v", k, got, want)
		}
	}
	if _, err := p.ChanceWithin(Limits{2, 1}); err == nil {
		t.Error("limits the wrong way round: no error")
	}
}

func TestThumbScrews(t *testing.T) {
	// The scenario's two runs of M4 x 0.7 screws at 6g: 11.7 um mean ("tight
	// in the nut") and 5.2 um ("runs in the nut"), flanks at the mean. With the
	// guaranteed clearance alone, 22 um, the thick coat must bind and the thin
	// one must run.
	fit := ThreadFit{Clearance: 22 * micrometre, ClearanceU: 2 * micrometre}
	fit.Screw = LocalCoat{Mean: 11.7 * micrometre, MeanU: 0.3 * micrometre, Share: 1, ShareU: 0.1}
	tight, err := fit.AfterPlating()
	if err != nil {
		t.Fatal(err)
	}
	fit.Screw.Mean = 5.2 * micrometre
	runs, err := fit.AfterPlating()
	if err != nil {
		t.Fatal(err)
	}
	if tight.Runs > 0.01 || !scalar.EqualWithinAbs(float64(tight.Clearance/micrometre), 22-46.8, 1e-9) {
		t.Errorf("11.7 um: %v um left, runs with chance %v; want -24.8 um and hardly any", float64(tight.Clearance/micrometre), tight.Runs)
	}
	if !(runs.Runs > 0.6 && runs.Clearance > 0) {
		t.Errorf("5.2 um: %v um left, runs with chance %v; want above zero and likely", float64(runs.Clearance/micrometre), runs.Runs)
	}
	t.Run("coats on screw and nut add", func(t *testing.T) {
		both := fit
		both.Nut = fit.Screw
		left, err := both.AfterPlating()
		if err != nil {
			t.Fatal(err)
		}
		if want := float64(fit.Clearance) - 2*float64(fit.Clearance-runs.Clearance); !scalar.EqualWithinAbs(float64(left.Clearance), want, 1e-12) {
			t.Errorf("both coated: %v m left, want %v", float64(left.Clearance), want)
		}
	})
	t.Run("a class's clearance", func(t *testing.T) {
		middle, u, least, err := ClassClearance(4*millimetre, 0.7*millimetre, PositionG)
		if err != nil {
			t.Fatal(err)
		}
		if least != 22*um {
			t.Errorf("least = %v um, want the allowance, 22", float64(least/micrometre))
		}
		external, internal, _ := PitchDiameterTolerance(4*millimetre, 0.7*millimetre)
		random := rand.New(rand.NewPCG(7, 8))
		const n = 40000
		sum, squares := 0.0, 0.0
		for range n {
			c := float64(least) + float64(external)*random.Float64() + float64(internal)*random.Float64() - float64(middle)
			sum += c
			squares += c * c
		}
		if got := math.Sqrt(squares / n); math.Abs(sum/n) > 0.02*float64(u) || !scalar.EqualWithinRel(got, float64(u), 0.015) {
			t.Errorf("draws: mean off by %v m, scatter %v; want 0 and %v", sum/n, got, float64(u))
		}
	})
}

func TestFitErrors(t *testing.T) {
	coat := LocalCoat{Mean: 10 * micrometre, Share: 1}
	tests := []struct {
		name    string
		call    func() error
		wantErr string
	}{
		{"feature", func() error { _, err := PlatedSize("slot", mm(1), coat); return err }, `"slot"`},
		{"size", func() error { _, err := PlatedSize(Pin, Exactly(0), coat); return err }, "size before plating is 0 mm"},
		{"closed bore", func() error { _, err := PlatedSize(Bore, mm(0.01), coat); return err }, "closes the bore"},
		{"negative share", func() error { _, err := PlatedSize(Pin, mm(1), LocalCoat{Share: -1}); return err }, "share of the place"},
		{"limits", func() error {
			_, err := CutSize(Pin, Limits{Least: unit.Length(math.NaN())}, coat)
			return err
		}, "finite and in order"},
		{"nothing to cut", func() error { _, err := CutSize(Pin, Limits{1e-6, 2e-6}, coat); return err }, "leaves nothing"},
		{"pitch", func() error { _, _, err := Allowance(10*millimetre, PositionG); return err }, "0.2 mm to 6 mm"},
		{"position", func() error { _, _, err := Allowance(1*millimetre, "k"); return err }, `"k"`},
		{"position off the table", func() error { _, _, err := Allowance(1.5*millimetre, "k"); return err }, `"k"`},
		{"long thread", func() error { _, err := AllowanceFor(5*micrometre, 20); return err }, "at most 15"},
		{"class of NaN", func() error { _, _, err := LargestClass(unit.Length(math.NaN()), 3); return err }, "allowance"},
		{"coarse", func() error { _, err := BasicPitchDiameter(1*millimetre, 1*millimetre); return err }, "too coarse"},
		{"clearance", func() error {
			_, err := ThreadFit{Clearance: unit.Length(math.Inf(1))}.AfterPlating()
			return err
		}, "clearance is not finite"},
		{"clearance uncertainty", func() error { _, err := ThreadFit{ClearanceU: -1}.AfterPlating(); return err }, "standard uncertainty"},
	}
	for _, test := range tests {
		if err := test.call(); err == nil || !strings.Contains(err.Error(), test.wantErr) {
			t.Errorf("%s: error = %v, want one with %q", test.name, err, test.wantErr)
		}
	}
}

// FuzzThreadFit holds that any coat and clearance give an error or a finite
// answer whose chance lies between 0 and 1.
func FuzzThreadFit(f *testing.F) {
	f.Add(22.0, 2.0, 11.7, 0.2, 1.0, 0.1)
	f.Add(22.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(-1e300, 1e300, 1e300, 1e300, 1e300, 1e300)
	f.Fuzz(func(t *testing.T, clearance, clearanceU, mean, meanU, share, shareU float64) {
		left, err := ThreadFit{Clearance: unit.Length(clearance) * um, ClearanceU: unit.Length(clearanceU) * um,
			Screw: LocalCoat{Mean: unit.Length(mean) * um, MeanU: unit.Length(meanU) * um, Share: share, ShareU: shareU}}.AfterPlating()
		if err != nil {
			return
		}
		if !isFinite(float64(left.Clearance)) || !isFinite(float64(left.U)) || !(left.Runs >= 0 && left.Runs <= 1) {
			t.Errorf("left %v +- %v m, chance %v", float64(left.Clearance), float64(left.U), left.Runs)
		}
	})
}
