package plating

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

const millilitre unit.Volume = 1e-6

// titrationOf returns the noise-free titration that a concentration in g/L of a
// substance of a molar mass would give with a 1 mL sample.
func titrationOf(gramsPerLitre, molar, strength float64) Titration {
	moles := gramsPerLitre / molar * 1e-3 // in 1 mL
	return Titration{Sample: 1 * millilitre, Used: unit.Volume(moles/strength*1e-3) + 0.1*millilitre, Blank: 0.1 * millilitre,
		Strength: AmountConcentration(strength) * MolePerLitre, SampleU: 0.006 * millilitre, UsedU: 0.03 * millilitre, StrengthU: 0.0002 * MolePerLitre}
}

func TestTitrationRecoversRecipe(t *testing.T) {
	// 240/45/30 g/L holds 64.71 g/L nickel and 13.42 g/L chloride (computed,
	// tolerance 0.05 %).
	nickel, err1 := titrationOf(64.71, 58.6934, 0.1).Nickel()
	chloride, err2 := titrationOf(13.42, 35.45, 0.1).Chloride()
	boric, err3 := titrationOf(30, 61.831, 0.1).BoricAcid()
	if err := firstError(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	found, err := Analysis{Nickel: nickel.Concentration, NickelU: nickel.U, Chloride: chloride.Concentration, ChlorideU: chloride.U,
		Boric: boric.Concentration, BoricU: boric.U}.Salts()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{240, 45, 30} {
		if !scalar.EqualWithinRel(float64(found[i].Concentration), want, 5e-4) {
			t.Errorf("%s is %v, want %v g/L", found[i].Salt.Name, found[i].Concentration, want)
		}
		if !(found[i].U > 0) {
			t.Errorf("%s has no uncertainty", found[i].Salt.Name)
		}
	}
	// The shares add as squares to the uncertainty.
	sum := 0.0
	for _, s := range nickel.Shares {
		sum += s.U * s.U
	}
	if !scalar.EqualWithinRel(math.Sqrt(sum), float64(nickel.U), 1e-12) {
		t.Errorf("shares add up to %v, want %v", math.Sqrt(sum), nickel.U)
	}
}

func TestTitrationUncertaintyBySampling(t *testing.T) {
	// Law: the uncertainty is that of the formula under small shifts.
	base := titrationOf(70, 58.6934, 0.1)
	got, err := base.Nickel()
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, shift := range []func(*Titration){
		func(t *Titration) { t.Sample += t.SampleU / 100 },
		func(t *Titration) { t.Used += t.UsedU / 100 },
		func(t *Titration) { t.Strength += t.StrengthU / 100 },
	} {
		moved := base
		shift(&moved)
		there, err := moved.Nickel()
		if err != nil {
			t.Fatal(err)
		}
		sum += math.Pow(100*float64(there.Concentration-got.Concentration), 2)
	}
	// 1e-3: the shift is finite.
	if !scalar.EqualWithinRel(math.Sqrt(sum), float64(got.U), 1e-3) {
		t.Errorf("uncertainty is %v, by shifting %v", got.U, math.Sqrt(sum))
	}
}

func TestAdditionsBringTheBathBack(t *testing.T) {
	recipe := WattsRecipe(300, 45, 40)
	poor := WattsRecipe(270, 50, 33)
	a := Analysis{Nickel: poor.Nickel(), NickelU: 0.5, Chloride: poor.Chloride(), ChlorideU: 0.3, Boric: 33, BoricU: 0.5}
	additions, err := a.Additions(recipe, 3*unit.Litre)
	if err != nil {
		t.Fatal(err)
	}
	// 3 L of 30, -5 and 7 g/L.
	for i, want := range []float64{0.090, -0.015, 0.021} {
		if !scalar.EqualWithinAbs(float64(additions[i].Mass), want, 1e-9) {
			t.Errorf("%s: add %v kg, want %v", additions[i].Salt.Name, additions[i].Mass, want)
		}
	}
	if !additions[0].Clear() || !additions[2].Clear() {
		t.Error("additions of many uncertainties are not called clear")
	}
	// A bath on its recipe needs nothing that stands out.
	same, err := Analysis{Nickel: recipe.Nickel(), NickelU: 0.5, Chloride: recipe.Chloride(), ChlorideU: 0.3, Boric: 40, BoricU: 0.5}.Additions(recipe, 3*unit.Litre)
	if err != nil {
		t.Fatal(err)
	}
	for _, add := range same {
		if math.Abs(float64(add.Mass)) > 1e-9 || add.Clear() {
			t.Errorf("a bath on its recipe is to be given %v kg of %s", add.Mass, add.Salt.Name)
		}
	}
}

func TestStrengthByDensity(t *testing.T) {
	s, u, err := StrengthByDensity(1190, 1210, 1000, 2)
	if err != nil || !scalar.EqualWithinRel(s, 190.0/210, 1e-12) || !scalar.EqualWithinRel(u, 2.0/210*math.Hypot(1, 190.0/210), 1e-12) {
		t.Errorf("strength is %v +- %v, %v", s, u, err)
	}
	if _, _, err := StrengthByDensity(1190, 990, 1000, 2); err == nil || !strings.Contains(err.Error(), "above water's 1 g/cm3") {
		t.Errorf("a bath lighter than water gave %v", err)
	}
}

func TestFallsOut(t *testing.T) {
	// The solubility is an input: 40 g/L where 25 stay leaves 15 g/L of 3 L.
	if got, err := FallsOut(40, 25, 3*unit.Litre); err != nil || !scalar.EqualWithinRel(float64(got), 0.045, 1e-12) {
		t.Errorf("falls out %v kg, %v, want 0.045", got, err)
	}
	if got, err := FallsOut(20, 25, 3*unit.Litre); err != nil || got != 0 {
		t.Errorf("falls out %v kg, %v, want none", got, err)
	}
}

func TestTitrateErrors(t *testing.T) {
	good := titrationOf(70, 58.6934, 0.1)
	none, less, bad := good, good, good
	none.Sample, less.Used, bad.Strength = 0, 0, AmountConcentration(math.Inf(1))
	for want, titration := range map[string]Titration{"volume of the sample": none, "less than the blank's 0.1 mL": less, "strength of the titrant": bad} {
		if _, err := titration.Nickel(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Nickel gave %v, want an error with %q", err, want)
		}
	}
	if _, err := (Analysis{Nickel: 5, NickelU: 0.1, Chloride: 20, ChlorideU: 0.1}).Salts(); err == nil || !strings.Contains(err.Error(), "other chlorides") {
		t.Errorf("too much chloride gave %v", err)
	}
	a := Analysis{Nickel: 70, Chloride: 13, Boric: 35}
	if _, err := a.Additions(WattsRecipe(300, 45, 40)[:2], 1); err == nil || !strings.Contains(err.Error(), "holds no boric acid") {
		t.Errorf("a recipe without boric acid gave %v", err)
	}
	other, err := NickelSulfamate(4)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := a.Additions(append(WattsRecipe(300, 45, 40), Dose{Salt: other, Concentration: 10}), 1); err == nil || !strings.Contains(err.Error(), "does not find") {
		t.Errorf("a recipe with sulfamate gave %v", err)
	}
}

func FuzzAnalysisAdditions(f *testing.F) {
	f.Add(78.0, 13.4, 40.0, 3e-3)
	f.Add(0.0, 0.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, nickel, chloride, boric, volume float64) {
		additions, err := Analysis{Nickel: Concentration(nickel), NickelU: 0.1, Chloride: Concentration(chloride), ChlorideU: 0.1, Boric: Concentration(boric)}.
			Additions(WattsRecipe(300, 45, 40), unit.Volume(volume))
		if err == nil && len(additions) != 3 {
			t.Errorf("%d additions", len(additions))
		}
	})
}

func ExampleAnalysis_Additions() {
	analysis := Analysis{Nickel: 72, NickelU: 0.4, Chloride: 12.9, ChlorideU: 0.2, Boric: 34, BoricU: 0.4}
	additions, err := analysis.Additions(WattsRecipe(300, 45, 40), 3*unit.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range additions {
		fmt.Printf("%s: %.0f g, standard uncertainty %.0f g\n", a.Salt.Name, float64(a.Mass)*1e3, float64(a.MassU)*1e3)
	}
	// Output:
	// nickel sulfate: 76 g, standard uncertainty 6 g
	// nickel chloride: 5 g, standard uncertainty 2 g
	// boric acid: 18 g, standard uncertainty 1 g
}
