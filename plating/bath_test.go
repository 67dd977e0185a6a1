package plating

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

const litre = unit.Litre

// sulfate returns nickel sulfate, failing the test if it cannot.
func mustSalt(t *testing.T, make func(int) (Salt, error), waters int) Salt {
	t.Helper()
	s, err := make(waters)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSalts(t *testing.T) {
	// A-B3: computed from the atomic weights, 0.01 %.
	tests := []struct {
		salt         Salt
		molar, share float64 // g/mol, % Ni
	}{
		{mustSalt(t, NickelSulfate, 6), 262.839, 22.331},
		{mustSalt(t, NickelSulfate, 7), 280.854, 20.898},
		{mustSalt(t, NickelChloride, 6), 237.683, 24.694},
		{BoricAcid(), 61.831, 0},
		{mustSalt(t, NickelSulfamate, 0), 250.853, 23.397},
		{mustSalt(t, NickelSulfamate, 4), 322.913, 18.176},
	}
	for _, test := range tests {
		if got := float64(test.salt.MolarMass / GramPerMole); !scalar.EqualWithinRel(got, test.molar, 1e-4) {
			t.Errorf("%s: %v g/mol, want %v", test.salt.Formula, got, test.molar)
		}
		if got := 100 * test.salt.NickelFraction(); !scalar.EqualWithinAbsOrRel(got, test.share, 1e-12, 1e-4) {
			t.Errorf("%s: %v %% Ni, want %v", test.salt.Formula, got, test.share)
		}
	}
	if (Salt{}).NickelFraction() != 0 || (Dose{}).Moles() != 0 {
		t.Error("the zero salt must hold nothing")
	}
}

func TestWattsContent(t *testing.T) {
	// A-B4 and A-B5: computed, 0.05 %.
	tests := []struct {
		sulfate, chloride, boric   float64
		nickel, nickelMoles, cl, b float64
	}{
		{240, 45, 30, 64.71, 1.1024, 13.42, 0.4852},
		{300, 45, 40, 78.10, 1.3307, 13.42, 0.6469},
	}
	for _, test := range tests {
		r := WattsRecipe(Concentration(test.sulfate), Concentration(test.chloride), Concentration(test.boric))
		for name, pair := range map[string][2]float64{
			"nickel, g/L": {float64(r.Nickel()), test.nickel}, "nickel, mol/L": {float64(r.Nickel()) / 58.6934, test.nickelMoles},
			"chloride, g/L": {float64(r.Chloride()), test.cl}, "boric acid, mol/L": {r[2].Moles(), test.b},
		} {
			if !scalar.EqualWithinRel(pair[0], pair[1], 5e-4) {
				t.Errorf("%v/%v/%v: %s = %v, want %v", test.sulfate, test.chloride, test.boric, name, pair[0], pair[1])
			}
		}
	}
}

func TestMakeUp(t *testing.T) {
	// A-B6: 5 L of 300/45/40, exact; from the heptahydrate 320.56 g/L, 0.05 %.
	r := WattsRecipe(300*GramPerLitre, 45*GramPerLitre, 40*GramPerLitre)
	masses, err := r.Weighed(5 * litre)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{1500, 225, 200} {
		if got := float64(masses[i] / gram); !scalar.EqualWithinRel(got, want, 1e-12) {
			t.Errorf("%s: %v g, want %v", r[i].Salt.Name, got, want)
		}
	}
	if got := float64(r.Nickel()) * 5; !scalar.EqualWithinRel(got, 390.5, 5e-4) {
		t.Errorf("nickel in the bath = %v g, want 390.5", got)
	}
	hepta, err := r[0].Instead(mustSalt(t, NickelSulfate, 7))
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(hepta.Concentration); !scalar.EqualWithinRel(got, 320.56, 5e-4) {
		t.Errorf("heptahydrate = %v g/L, want 320.56", got)
	}
	// A-B7: supplier's sheet, read: 550 g/L sulfamate and 100 g/L Ni fit the
	// tetrahydrate (99.97), not the anhydrous salt (128.7).
	for waters, want := range map[int]float64{4: 99.97, 0: 128.7} {
		got := float64(Recipe{{Salt: mustSalt(t, NickelSulfamate, waters), Concentration: 550 * GramPerLitre}}.Nickel())
		if !scalar.EqualWithinRel(got, want, 1e-3) {
			t.Errorf("550 g/L sulfamate with %d waters: %v g/L Ni, want %v", waters, got, want)
		}
	}
	// A-B2: 240 g/L NiCl2.6H2O holds 59.27 g/L Ni, 0.1 %.
	if got := float64(Recipe{{Salt: mustSalt(t, NickelChloride, 6), Concentration: 240 * GramPerLitre}}.Nickel()); !scalar.EqualWithinRel(got, 59.27, 1e-3) {
		t.Errorf("240 g/L chloride: %v g/L Ni, want 59.27", got)
	}
}

func TestBathErrors(t *testing.T) {
	watts := WattsRecipe(300*GramPerLitre, 45*GramPerLitre, 40*GramPerLitre)
	tests := []struct {
		name    string
		call    func() error
		wantErr string
	}{
		{"waters", func() error { _, err := NickelSulfate(8); return err }, "0 to 7"},
		{"empty recipe", func() error { _, err := Recipe(nil).Weighed(1 * litre); return err }, "empty"},
		{"blank salt", func() error { return Recipe{{}}.Validate() }, "molar mass of salt 1"},
		{"negative", func() error { return Recipe{{Salt: BoricAcid(), Concentration: -1}}.Validate() }, "boric acid"},
		{"volume", func() error { _, err := watts.Weighed(0); return err }, "volume is 0 L"},
		{"instead", func() error { _, err := watts[2].Instead(watts[0].Salt); return err }, "both hold nickel"},
	}
	for _, test := range tests {
		if err := test.call(); err == nil || !strings.Contains(err.Error(), test.wantErr) {
			t.Errorf("%s: error = %v, want one with %q", test.name, err, test.wantErr)
		}
	}
}

// bookEntry is a row of the scenario's bath book, P3: hours hot, area through,
// water added, and the computed truth of drag-out and nickel.
type bookEntry struct {
	month              string
	hours, area, water float64 // h, dm2, mL
	dragOut, nickel    float64 // mL, g/L
}

func bathBook() []bookEntry {
	return []bookEntry{
		{"2023-10", 2.6, 1.9, 150, 4.6, 74.9},
		{"2023-11", 0.8, 0.6, 40, 1.4, 74.9},
		{"2024-01", 0.8, 1.0, 40, 2.4, 74.8},
		{"2024-03", 0.7, 0.8, 40, 1.9, 74.7},
		{"2024-05", 0.6, 0.8, 30, 1.9, 74.7},
		{"2024-08", 0.9, 1.2, 50, 2.9, 74.6},
		{"2024-11", 0.9, 0.7, 50, 1.7, 74.6},
		{"2025-02", 1.2, 0.6, 60, 1.4, 74.5},
	}
}

func TestBathBook(t *testing.T) {
	// 0.6 mL per dm2 and dip, 4 dips, 3 L, 75 g/L at the start. The truth
	// counts drag-out alone. Areas are printed to 0.1 dm2: 0.12 mL.
	drag := DragOut{PerArea: 0.6e-4 * unit.Metre, Dips: 4}
	b := Bath{Volume: 3 * litre, Nickel: 75 * GramPerLitre, Boric: 40 * GramPerLitre}
	for _, row := range bathBook() {
		v, err := drag.Volume(unit.Area(row.area) * SquareDecimetre)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(v) * 1e6; !scalar.EqualWithinAbs(got, row.dragOut, 0.13) {
			t.Errorf("%s: drag-out %v mL, want %v", row.month, got, row.dragOut)
		}
		b, err = b.After(Work{DragOut: v})
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(b.Nickel); !scalar.EqualWithinAbs(got, row.nickel, 0.06) {
			t.Errorf("%s: nickel %v g/L, want %v", row.month, got, row.nickel)
		}
	}
	if got := float64(b.Boric / 40); !scalar.EqualWithinRel(got, float64(b.Nickel/75), 1e-12) {
		t.Errorf("boric acid is diluted to %v, nickel to %v", got, float64(b.Nickel/75))
	}
}

func TestNickelGainAndAcid(t *testing.T) {
	// A-B12: 100 A h, 20 L, anode 100 %, cathode 95.5 %: 4.927 g, 0.2464 g/L
	// before drag-out. Computed, 0.1 %.
	b, err := Bath{Volume: 20 * litre, Nickel: 75 * GramPerLitre}.After(Work{Charge: 100 * AmpereHour, CathodeEfficiency: 0.955, AnodeEfficiency: 1})
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(b.Nickel) - 75; !scalar.EqualWithinRel(got, 0.2464, 1e-3) {
		t.Errorf("rise = %v g/L, want 0.2464", got)
	}
	// The log: 13.85 A h at 5 % in 3 L: 0.25 g/L, 0.026 mol, 1.27 g H2SO4
	// (exercise, rounded as printed).
	b, err = Bath{Volume: 3 * litre, Nickel: 75 * GramPerLitre}.After(Work{Charge: 13.85 * AmpereHour, CathodeEfficiency: 0.95, AnodeEfficiency: 1})
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(b.Nickel) - 75; !scalar.EqualWithinAbs(got, 0.25, 0.005) {
		t.Errorf("log: rise = %v g/L, want 0.25", got)
	}
	if got := float64(b.AcidLost); !scalar.EqualWithinAbs(got, 0.026, 5e-4) {
		t.Errorf("log: acid = %v mol, want 0.026", got)
	}
	acid, err := SulfuricAcid(b.AcidLost)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(acid / gram); !scalar.EqualWithinAbs(got, 1.27, 0.006) {
		t.Errorf("log: %v g H2SO4, want 1.27", got)
	}
	// A-B12: 250 A h at 100 % takes 273.7 g off the anode.
	use, err := AnodeUse(250*AmpereHour, 1)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(use / gram); !scalar.EqualWithinRel(got, 273.7, 2e-4) {
		t.Errorf("anode use = %v g, want 273.7", got)
	}
}

func TestBalanceLaws(t *testing.T) {
	// With equal efficiencies of anode and cathode nothing is gained; splitting
	// the work in two changes nothing but the second order of the drag-out.
	b := Bath{Volume: 3 * litre, Nickel: 75 * GramPerLitre, Boric: 40 * GramPerLitre}
	same, err := b.After(Work{Charge: 5 * AmpereHour, CathodeEfficiency: 0.95, AnodeEfficiency: 0.95})
	if err != nil {
		t.Fatal(err)
	}
	if same.Nickel != b.Nickel || same.AcidLost != 0 {
		t.Errorf("equal efficiencies: %v g/L, acid %v mol", float64(same.Nickel), float64(same.AcidLost))
	}
	work := Work{DragOut: 0.01 * litre, Evaporated: 0.1 * litre, Charge: 4 * AmpereHour, CathodeEfficiency: 0.9, AnodeEfficiency: 1}
	half := Work{DragOut: 0.005 * litre, Evaporated: 0.05 * litre, Charge: 2 * AmpereHour, CathodeEfficiency: 0.9, AnodeEfficiency: 1}
	whole, err := b.After(work)
	if err != nil {
		t.Fatal(err)
	}
	first, err := b.After(half)
	if err != nil {
		t.Fatal(err)
	}
	second, err := first.After(half)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinAbs(float64(second.Nickel), float64(whole.Nickel), 75*3e-6) || !scalar.EqualWithinRel(float64(second.WaterAdded), float64(whole.WaterAdded), 1e-12) {
		t.Errorf("two halves: %v g/L, whole: %v g/L", float64(second.Nickel), float64(whole.Nickel))
	}
}

func TestDragOutCases(t *testing.T) {
	// A-B9: 20 parts of 0.012 m2, 0.15 L/m2, 78.104 g/L: 0.0360 L, 2.812 g.
	v, err := DragOut{PerArea: 0.15e-3 * unit.Metre, Dips: 1}.Volume(20 * 0.012)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(v / litre); !scalar.EqualWithinRel(got, 0.0360, 1e-9) {
		t.Errorf("drag-out = %v L, want 0.0360", got)
	}
	if got := float64(v) * 78.104 * 1e3; !scalar.EqualWithinRel(got, 2.812, 1e-3) {
		t.Errorf("nickel lost = %v g, want 2.812", got)
	}
	// A-B10: 1000 lb at 20 oz/gal: 800 US gal. Exact.
	const gallon = 231 * 0.0254 * 0.0254 * 0.0254
	v, err = DragOutFromAdditions(unit.Mass(1000*0.45359237), 20*OuncePerUSGallon)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(v) / gallon; !scalar.EqualWithinRel(got, 800, 1e-9) {
		t.Errorf("drag-out = %v gal, want 800", got)
	}
	// A-B11: exact.
	for tanks, want := range map[int]float64{1: 100, 2: 9901} {
		got, err := RinseRatio(99, tanks)
		if err != nil {
			t.Fatal(err)
		}
		if got != want {
			t.Errorf("%d tanks: ratio %v, want %v", tanks, got, want)
		}
	}
	// A-B13: 1 L per 10 000 A h, 35 A h: 3.5 mL. Exact.
	v, err = AdditionByCharge(1*litre, 10000*AmpereHour, 35*AmpereHour)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(v) * 1e6; !scalar.EqualWithinRel(got, 3.5, 1e-9) {
		t.Errorf("addition = %v mL, want 3.5", got)
	}
	// A-B8: 142 g/L of concentrated hydrochloric acid at 1.19 g/mL is 119.3
	// mL/L: here the mass of solution, strength 1.
	v, err = DilutedVolume(142*gram, 1, 1.19*GramPerCubicCentimetre)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(v) * 1e6; !scalar.EqualWithinRel(got, 119.33, 1e-4) {
		t.Errorf("volume = %v mL, want 119.33", got)
	}
	v, err = DoseFromSample(0.4e-3*litre, 0.1*litre, 3*litre)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(v) * 1e6; !scalar.EqualWithinRel(got, 12, 1e-9) {
		t.Errorf("dose = %v mL, want 12", got)
	}
}

func TestHeat(t *testing.T) {
	// 3 L from 20 to 55 degrees Celsius at 300 W with 60 W lost, by hand:
	// 3 kg x 0.85 x 4186 J x 35 K over 240 W.
	got, err := HeatUpTime(3*litre, Celsius(20), Celsius(55), 300, 60)
	if err != nil {
		t.Fatal(err)
	}
	if want := 3 * 0.85 * 4186 * 35 / 240.0; !scalar.EqualWithinRel(float64(got), want, 1e-9) {
		t.Errorf("time = %v s, want %v", float64(got), want)
	}
	p, err := EvaporationPower(0.06*litre, 3600*unit.Second)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(p); !scalar.EqualWithinRel(got, 0.06*2.37e6/3600, 1e-9) {
		t.Errorf("power = %v W, want 39.5", got)
	}
}

func TestBalanceErrors(t *testing.T) {
	b := Bath{Volume: 3 * litre, Nickel: 75 * GramPerLitre}
	tests := []struct {
		name    string
		call    func() error
		wantErr string
	}{
		{"no bath", func() error { _, err := (Bath{}).After(Work{}); return err }, "volume of the bath"},
		{"empties it", func() error { _, err := b.After(Work{DragOut: 2 * litre, Evaporated: 2 * litre}); return err }, "more than the bath"},
		{"efficiency", func() error {
			_, err := b.After(Work{Charge: 1 * AmpereHour, CathodeEfficiency: 95, AnodeEfficiency: 1})
			return err
		}, "cathode efficiency"},
		{"more nickel than there is", func() error {
			_, err := b.After(Work{Charge: 1e6 * AmpereHour, CathodeEfficiency: 1, AnodeEfficiency: 0.01})
			return err
		}, "more nickel than"},
		{"dips", func() error { _, err := DragOut{Dips: -1}.Volume(1); return err }, "dips are -1"},
		{"acid", func() error { _, err := SulfuricAcid(-1); return err }, "acid is -1 mol"},
		{"strength", func() error { _, err := DilutedVolume(1, 98, 1840); return err }, "98 % is 0.98"},
		{"sample", func() error { _, err := DoseFromSample(1, 2, 1); return err }, "more than the bath"},
		{"addition", func() error { _, err := AdditionByCharge(1, 0, 1); return err }, "charge that the dose is for"},
		{"marker", func() error { _, err := DragOutFromAdditions(1, 0); return err }, "concentration held"},
		{"tanks", func() error { _, err := RinseRatio(99, 0); return err }, "1 to 10"},
		{"water", func() error { _, err := RinseRatio(1e300, 3); return err }, "too large"},
		{"weak heater", func() error { _, err := HeatUpTime(3*litre, Celsius(20), Celsius(55), 50, 60); return err }, "above the loss"},
		{"cooling", func() error { _, err := HeatUpTime(3*litre, Celsius(55), Celsius(20), 50, 0); return err }, "below the start"},
		{"no time", func() error { _, err := EvaporationPower(1, 0); return err }, "time is 0 min"},
	}
	for _, test := range tests {
		if err := test.call(); err == nil || !strings.Contains(err.Error(), test.wantErr) {
			t.Errorf("%s: error = %v, want one with %q", test.name, err, test.wantErr)
		}
	}
}

func TestRecipeOverSolubility(t *testing.T) {
	recipe := WattsRecipe(300, 45, 60)
	recipe[2].Solubility = 47 * GramPerLitre
	for name, err := range map[string]error{"validate": recipe.Validate(), "weighed": func() error { _, err := recipe.Weighed(3 * unit.Litre); return err }()} {
		if err == nil || !strings.Contains(err.Error(), "60 g/L") || !strings.Contains(err.Error(), "solubility of 47 g/L") {
			t.Errorf("%s: error = %v, want one that names 60 and 47 g/L", name, err)
		}
	}
	recipe[2].Concentration = 47
	if err := recipe.Validate(); err != nil {
		t.Errorf("at its solubility: %v", err)
	}
	recipe[2].Solubility = -1
	if err := recipe.Validate(); err == nil {
		t.Error("a negative solubility gave no error")
	}
}

// FuzzBath holds that any work on any bath gives an error or a bath that is
// finite and holds no less than nothing.
func FuzzBath(f *testing.F) {
	f.Add(3.0, 75.0, 40.0, 0.018, 0.44, 13.85, 0.95, 1.0)
	f.Add(3.0, 75.0, 40.0, 3.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1e300, 1e300, 1e300, 1e300, 1e-300, 1e300, 1.0, 1e-300)
	f.Fuzz(func(t *testing.T, volume, nickel, boric, dragOut, evaporated, charge, cathode, anode float64) {
		b, err := Bath{Volume: unit.Volume(volume) * litre, Nickel: Concentration(nickel), Boric: Concentration(boric)}.After(Work{
			DragOut: unit.Volume(dragOut) * litre, Evaporated: unit.Volume(evaporated) * litre,
			Charge: unit.Charge(charge) * AmpereHour, CathodeEfficiency: cathode, AnodeEfficiency: anode})
		if err != nil {
			return
		}
		for _, v := range []float64{float64(b.Nickel), float64(b.Boric), float64(b.WaterAdded)} {
			if !isFinite(v) || v < 0 {
				t.Errorf("bath %+v", b)
			}
		}
	})
}
