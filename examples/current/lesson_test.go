package current

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"

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
	if !ok {
		t.Fatalf("no figure called %s", name)
	}
	return f.Value.SI
}

// solveIn returns the tank of the inputs.
func solveIn(t *testing.T, in Inputs) solved {
	t.Helper()
	s, err := layout{in: in}.solve()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestDefaults(t *testing.T) {
	sheet := work(t, Defaults())
	// 50 by 25 mm, one face, at 3 A/dm2: 0.375 A.
	if got := value(t, sheet, "amps"); !scalar.EqualWithinAbs(got, 0.375, 1e-9) {
		t.Errorf("amps = %v, want 0.375", got)
	}
	// 30 min: 0.1875 A h, in and out.
	for _, name := range []string{"charge-in", "charge-out"} {
		if got := value(t, sheet, name); !scalar.EqualWithinRel(got, 0.375*1800, 1e-6) {
			t.Errorf("%s = %v C, want 675", name, got)
		}
	}
	if got := value(t, sheet, "charge-lost"); math.Abs(got) > 0.005 {
		t.Errorf("the mesh loses %v of the charge", got)
	}
	// Second order is what the method should give at the least.
	if disc, strips := value(t, sheet, "order"), value(t, sheet, "order-strips"); disc < 2 || strips < 2 || disc > 5 || strips > 5 {
		t.Errorf("orders of convergence are %v and %v", disc, strips)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestMirrorSwapsEdges(t *testing.T) {
	in := Defaults()
	right := solveIn(t, in).shares()
	in.Sideways = -in.Sideways
	left := solveIn(t, in).shares()
	if !scalar.EqualWithinRel(right.left, left.right, 1e-3) || !scalar.EqualWithinRel(right.right, left.left, 1e-3) || !scalar.EqualWithinRel(right.middle, left.middle, 1e-3) {
		t.Errorf("the anode mirrored: %v against %v", right, left)
	}
	if right.right <= right.left {
		t.Errorf("the edge next to the anode gets %v, the other %v", right.right, right.left)
	}
	in.Sideways = 0
	if x := solveIn(t, in).shares(); !scalar.EqualWithinRel(x.left, x.right, 1e-3) {
		t.Errorf("with the anode in the middle the edges get %v and %v", x.left, x.right)
	}
}

func TestMovedIsTheSameAsSetUpThere(t *testing.T) {
	in := Defaults()
	moved, err := solveIn(t, in).moved(40*mm, -10*mm)
	if err != nil {
		t.Fatal(err)
	}
	in.Distance, in.Sideways = 40*mm, -10*mm
	there := solveIn(t, in).shares()
	// 1 %: the mesh of the moved tank is not graded anew.
	if x := moved.shares(); !scalar.EqualWithinRel(x.left, there.left, 0.01) || !scalar.EqualWithinRel(x.right, there.right, 0.01) {
		t.Errorf("moved there %v, set up there %v", x, there)
	}
}

func TestHelpsHelp(t *testing.T) {
	in := Defaults()
	in.Sideways = 0
	plain := solveIn(t, in).shares()
	shield, err := layout{in: in, shield: true}.solve()
	if err != nil {
		t.Fatal(err)
	}
	thief, err := layout{in: in, thief: true}.solve()
	if err != nil {
		t.Fatal(err)
	}
	for name, s := range map[string]solved{"shield": shield, "thief": thief} {
		if x := s.shares(); x.left >= plain.left {
			t.Errorf("%s: the edge gets %v, without it %v", name, x.left, plain.left)
		}
		// The mean on the coupon stays what was asked.
		if !scalar.EqualWithinRel(float64(s.d.Mean), float64(in.Mean), 1e-3) {
			t.Errorf("%s: the mean is %v, want %v", name, s.d.Mean, in.Mean)
		}
	}
	if thief.d.Utilisation >= 1 || thief.d.Utilisation < 0.2 {
		t.Errorf("with thieves %v of the current goes to the coupon", thief.d.Utilisation)
	}
}

func TestMeanOverTheCoupon(t *testing.T) {
	// Law: the profile's mean over the whole coupon is what was set.
	s := solveIn(t, Defaults())
	if got := s.profile().MeanBetween(0, s.in.Width); !scalar.EqualWithinRel(float64(got), float64(s.in.Mean), 1e-6) {
		t.Errorf("mean over the coupon is %v, want %v", got, s.in.Mean)
	}
}

func TestUncertaintyCoversFineMesh(t *testing.T) {
	// A mesh of four times the elements must agree within two of the standard
	// uncertainties that the mesh alone is given, or a thousandth.
	in := Defaults()
	a := answer{in: in, nickel: plating.Nickel().Deposit()}
	if err := a.solve(); err != nil {
		t.Fatal(err)
	}
	fine, err := a.sharesOn(4 * elements)
	if err != nil {
		t.Fatal(err)
	}
	mean := float64(a.places[1].thickness) / a.places[1].share
	for i, want := range []float64{fine.left, fine.middle, fine.right} {
		p := a.places[i]
		mesh := p.doubts[3].U / mean
		if off := math.Abs(p.share - want); off > math.Max(2*mesh, 2e-3) {
			t.Errorf("%s: %v of the mean, on a fine mesh %v, the mesh's uncertainty is %v", p.name, p.share, want, mesh)
		}
	}
}

func TestBadInput(t *testing.T) {
	for want, change := range map[string]func(*Inputs){
		"distance of 115 mm":   func(in *Inputs) { in.Distance = 115 * mm },
		"coupon of 100 mm":     func(in *Inputs) { in.Width = 100 * mm },
		"anode reaches 65 mm":  func(in *Inputs) { in.Sideways = 45 * mm },
		"anode reaches 100 mm": func(in *Inputs) { in.Sideways, in.AnodeWidth = 0, 200*mm },
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
