package wear

import (
	"math"
	"strings"
	"testing"
)

// plainRebuild is a case with no guesses, simple enough for paper.
func plainRebuild() Rebuild {
	return Rebuild{Cost: Sure(1000), LossPerMicrometre: Sure(10), Harmless: 20 * um, Depth: 40 * um, Rate: 2 * MicrometrePerYear,
		RateAfter: Sure(1), Resale: Sure(0), Interest: Sure(0), Years: 10}
}

func TestRebuildOnPaper(t *testing.T) {
	// Left alone, year n costs 10 (20 + 2 (n - 1/2)) = 190 + 20 n; rebuilt, the
	// depth is below 20 um for ten years. Ten years: 1900 + 1100 = 3000.
	w, err := WorthOfRebuild(plainRebuild(), 100, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "left alone", w.Without[10], 3000, 1e-6)
	near(t, "rebuilt", w.With[10], 1000, 1e-6)
	near(t, "worth", w.Worth, 2000, 1e-6)
	near(t, "most to pay", w.MostToPay, 3000, 1e-6)
	// Four years: 760 + 200 = 960; the fifth costs 290.
	near(t, "break-even", w.BreakEven, 4+40.0/290, 1e-6)
	near(t, "low", w.Low, w.Worth, 1e-6)
	if w.Pays < 0.999 {
		t.Errorf("pays in %g of the draws", w.Pays)
	}
	// At the most to pay it comes out even.
	r := plainRebuild()
	r.Cost = Sure(w.MostToPay)
	even, err := WorthOfRebuild(r, 100, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "even", even.Worth, 0, 1e-6)
	near(t, "even after", even.BreakEven, 10, 1e-9)
}

func TestRebuildInterest(t *testing.T) {
	// A level loss: the worth is the annuity, paid in the middle of the years.
	r := plainRebuild()
	r.Rate, r.Interest = 0, Sure(0.05)
	r.Resale = Sure(300)
	w, err := WorthOfRebuild(r, 100, 1)
	if err != nil {
		t.Fatal(err)
	}
	annuity := (1 - math.Pow(1.05, -10)) / 0.05 * math.Sqrt(1.05)
	near(t, "worth", w.Worth, 200*annuity-1000+300*math.Pow(1.05, -10), 1e-6)
}

func TestNoWearNeverPays(t *testing.T) {
	r := plainRebuild()
	r.Depth, r.Rate = 10*um, 0
	w, err := WorthOfRebuild(r, 200, 1)
	if err != nil {
		t.Fatal(err)
	}
	if !math.IsInf(w.BreakEven, 1) || !math.IsInf(w.BreakEvenLow, 1) || w.Pays != 0 || w.Worth != -1000 {
		t.Errorf("no wear: break-even %g (%g), pays %g, worth %g", w.BreakEven, w.BreakEvenLow, w.Pays, w.Worth)
	}
	r.Cost = Sure(0)
	if w, err = WorthOfRebuild(r, 200, 1); err != nil || w.BreakEven != 0 {
		t.Errorf("for nothing: break-even %g, %v", w.BreakEven, err)
	}
}

func TestGuessIsATriangle(t *testing.T) {
	g := Guess{2, 3, 7}
	near(t, "least", g.at(0), 2, 1e-12)
	near(t, "likely", g.at(0.2), 3, 1e-12)
	near(t, "greatest", g.at(1), 7, 1e-12)
	mean := 0.0
	for i := range 10_000 {
		mean += g.at((float64(i)+0.5)/10_000) / 10_000
	}
	near(t, "mean", mean, 4, 1e-4)
}

func TestRebuildRanges(t *testing.T) {
	r := plainRebuild()
	r.Cost, r.LossPerMicrometre, r.RateU, r.DepthU = Guess{500, 1000, 4000}, Guess{5, 10, 20}, MicrometrePerYear, 4*um
	w, err := WorthOfRebuild(r, 4000, 3)
	if err != nil {
		t.Fatal(err)
	}
	if !(w.Low < w.Median && w.Median < w.High) || !(w.Pays > 0.5 && w.Pays < 1) || !(w.BreakEvenLow < w.BreakEvenHigh) {
		t.Errorf("%g %g %g, pays %g, break-even %g to %g", w.Low, w.Median, w.High, w.Pays, w.BreakEvenLow, w.BreakEvenHigh)
	}
	again, _ := WorthOfRebuild(r, 4000, 3)
	if again.Low != w.Low {
		t.Error("the same seed gave another answer")
	}
	// Four thousand draws settle the chance to a hundredth.
	other, _ := WorthOfRebuild(r, 4000, 4)
	near(t, "pays", other.Pays, w.Pays, 0.04)
	if r.check() != nil || len(w.With) != 11 || len(w.WithLow) != 11 {
		t.Error("years are missing")
	}
}

func TestRebuildRefuses(t *testing.T) {
	order, years, rate := plainRebuild(), plainRebuild(), plainRebuild()
	order.Cost = Guess{3, 2, 1}
	years.Years = 0
	rate.Rate = WearRate(math.NaN())
	for want, r := range map[string]Rebuild{"cost from 3": order, "0 years": years, "rate must be": rate} {
		if _, err := WorthOfRebuild(r, 100, 1); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
	if _, err := WorthOfRebuild(plainRebuild(), 1, 1); err == nil {
		t.Error("one draw was accepted")
	}
}
