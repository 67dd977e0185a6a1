package process

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

func work(t *testing.T, in Inputs) *notebook.Sheet {
	t.Helper()
	sheet, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := sheet.Validate(); err != nil {
		t.Fatal(err)
	}
	return sheet
}

// value returns the value of a figure of the sheet.
func value(t *testing.T, sheet *notebook.Sheet, name string) float64 {
	t.Helper()
	f, ok := sheet.Find(name).(notebook.Figure)
	if !ok || f.Unknown != "" {
		t.Fatalf("no figure called %s, or unknown: %q", name, f.Unknown)
	}
	return f.Value.SI
}

func TestDefaults(t *testing.T) {
	sheet := work(t, Defaults())
	// 20 um at 68 % is 29.41 um; u of the mean 1.46 % (area 1, efficiency 1.05, the
	// supply's step less), of the share 2.94 %: 29.41 um over 1 less
	// 1.645 times 3.28 %, 31.09 um.
	if got := value(t, sheet, "bare") * 1e6; !scalar.EqualWithinAbs(got, 29.41, 0.01) {
		t.Errorf("bare mean %v um, want 29.41", got)
	}
	if got := value(t, sheet, "aim") * 1e6; !scalar.EqualWithinAbs(got, 31.09, 0.02) {
		t.Errorf("mean to aim at %v um, want 31.09", got)
	}
	// 3 A/dm2 on 0.7494 dm2 is 2.248 A, in steps of 0.01.
	if got := value(t, sheet, "amps"); !scalar.EqualWithinAbs(got, 2.25, 1e-9) {
		t.Errorf("set %v A, want 2.25", got)
	}
	if rows := len(sheet.Find("sheet").(notebook.Table).Rows); rows != 10 {
		t.Errorf("the sheet has %d steps, want 10", rows)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestEveryBaseMetal(t *testing.T) {
	for _, test := range []struct {
		base     plating.BaseMetal
		hardness float64
		tone     notebook.Tone
		steps    int
	}{
		{plating.BaseCopper, 44, notebook.Good, 10}, {plating.BaseMildSteel, 44, notebook.Good, 10},
		{plating.BaseHardenedSteel, 44, notebook.Watch, 14}, {plating.BaseHardenedSteel, 25, notebook.Watch, 12},
		{plating.BaseHardenedSteel, 55, notebook.Stop, 0}, {plating.BaseCastZinc, 44, notebook.Stop, 0},
	} {
		in := Defaults()
		in.Base, in.Hardness = string(test.base), test.hardness
		sheet := work(t, in)
		if got := sheet.Find("answer").(notebook.Verdict).Tone; got != test.tone {
			t.Errorf("%s of %v HRC: %s, want %s", test.base, test.hardness, got, test.tone)
		}
		if got := len(sheet.Find("sheet").(notebook.Table).Rows); got != test.steps {
			t.Errorf("%s of %v HRC: %d steps, want %d", test.base, test.hardness, got, test.steps)
		}
	}
}

func TestClassSetsLeast(t *testing.T) {
	in := Defaults()
	in.Class = "class 50"
	if got := value(t, work(t, in), "least") * 1e6; !scalar.EqualWithinAbs(got, 50, 1e-9) {
		t.Errorf("class 50 asks %v um", got)
	}
	in.Class = "SC 2, regular chromium"
	sheet := work(t, in)
	if got := value(t, sheet, "least") * 1e6; !scalar.EqualWithinAbs(got, 20, 1e-9) {
		t.Errorf("SC 2 asks %v um", got)
	}
	if v := sheet.Find("class").(notebook.Verdict); v.Tone != notebook.Watch {
		t.Errorf("a class with chromium has the tone %s", v.Tone)
	}
}

func TestBathAnalysis(t *testing.T) {
	// 12.3 mL of 0.1 mol/L on 1 mL is 1.23 mol/L nickel, 72.19 g/L; chloride
	// 0.365 mol/L takes half as many moles of nickel, so 1.0475 mol/L are left:
	// 275.3 g/L sulfate, 24.7 g/L short, 74.0 g in 3 L.
	rows := work(t, Defaults()).Find("bath").(notebook.Table).Rows
	if got := rows[0][3].Quantity.SI; !scalar.EqualWithinAbs(got, 0.0740, 2e-4) {
		t.Errorf("add %v kg of nickel sulfate, want 0.0740", got)
	}
	in := Defaults()
	in.Nickel, in.Silver, in.Boric = 13.307*mL, 3.7866*mL, 6.469*mL // 300/45/40 exactly
	if v := work(t, in).Find("bath-verdict").(notebook.Verdict); v.Tone != notebook.Good {
		t.Errorf("a bath on its recipe: %s, %s", v.Tone, v.Text.In(notebook.Metric))
	}
}

func TestBurns(t *testing.T) {
	in := Defaults()
	in.Mean = 9 * aDM2
	if v := work(t, in).Find("burn").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Errorf("9 A/dm2 on a corner of 1.75: %s", v.Tone)
	}
}

func TestBadInput(t *testing.T) {
	for want, change := range map[string]func(*Inputs){
		"most":            func(in *Inputs) { in.Most = 1 * unit.Ampere },
		"no mean gives":   func(in *Inputs) { in.Thinnest, in.ThinnestU = 0.2, 0.2 },
		"other chlorides": func(in *Inputs) { in.Nickel = 0.5 * mL },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Work gave %v, want an error with %q", err, want)
		}
	}
}

func BenchmarkWork(b *testing.B) {
	for b.Loop() {
		if _, err := Work(Defaults()); err != nil {
			b.Fatal(err)
		}
	}
}
