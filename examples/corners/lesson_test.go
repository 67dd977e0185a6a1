package corners

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
)

// figure returns the value of a figure of the sheet.
func figure(t *testing.T, sheet *notebook.Sheet, name string) float64 {
	t.Helper()
	f, ok := sheet.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure called %s", name)
	}
	return f.Value.SI
}

func TestDefaults(t *testing.T) {
	sheet, err := Lesson().Demo()
	if err != nil {
		t.Fatal(err)
	}
	// Four plates of 19 by 44 by 1.6 mm without their ends, at 3 A/dm2: 2(19+1.6)
	// mm round, less 0.34 mm for the roundings, times 88 mm, twice: 0.719 dm2 and
	// 2.157 A. The supply read 2.25 A, with the ends.
	if got := figure(t, sheet, "amps"); !scalar.EqualWithinAbs(got, 2.157, 0.001) {
		t.Errorf("amps = %v, want 2.157", got)
	}
	if edge, thin := figure(t, sheet, "edge"), figure(t, sheet, "thin"); !(edge > 1.5 && thin < 0.95 && thin > 0.4) {
		t.Errorf("edge and thinnest place get %v and %v of the mean", edge, thin)
	}
	if got := figure(t, sheet, "settled"); got > 0.05 {
		t.Errorf("the thickest place changed by %v on a finer mesh", got)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestCutAgainstHiddenShares(t *testing.T) {
	// A plane cut does not hold the ends, which in three dimensions take much of
	// the mean: its shares lie above those from which the readings were made, by
	// up to 35 % of the mean, in the same order.
	in := Defaults()
	s, err := layout{in: in}.solve(in.Mean, elements)
	if err != nil {
		t.Fatal(err)
	}
	spots, edge, truth := s.faces(), in.outermost(), actionshop.PlateShares()
	before := math.Inf(1)
	for _, place := range []struct {
		name  string
		in    float64
		truth float64
	}{{"edge", 1e-3, truth[1]}, {"quarter", 4.75e-3, truth[3]}, {"centre", 9.5e-3, truth[2]}} {
		got := s.toMean(atSpot(spots, edge-unit.Length(place.in)))
		if got < place.truth || got > place.truth+0.35 || got >= before {
			t.Errorf("%s: computed %v of the mean, made with %v", place.name, got, place.truth)
		}
		before = got
	}
}

func TestMostBefore(t *testing.T) {
	in := Defaults()
	s, err := layout{in: in}.solve(in.Mean, elements)
	if err != nil {
		t.Fatal(err)
	}
	most, err := s.mostBefore(in.Burns)
	if err != nil {
		t.Fatal(err)
	}
	there, err := s.layout.at(s.field, most)
	if err != nil || !scalar.EqualWithinRel(float64(there.d.Thickest.CurrentDensity), float64(in.Burns), 1e-3) {
		t.Errorf("at a mean of %v the edge has %v, %v; want %v", most, there.d.Thickest.CurrentDensity, err, in.Burns)
	}
}

func TestSleeve(t *testing.T) {
	// Down a round bore the primary current dies away as exp(-2.405 x/r), by the
	// first zero of the Bessel function J0; kinetics let it reach a little
	// deeper. The slope is taken between one and one and a half diameters.
	in := Defaults()
	in.Length, in.Tafel, in.Exchange = 40*mm, 0.02*volt, 1*aDM2
	s, err := in.solveSleeve()
	if err != nil {
		t.Fatal(err)
	}
	rate := math.Log(s.at(2*mm)/s.at(4*mm)) / (2.0 / 3)
	if rate > 2.405 || rate < 1.2 {
		t.Errorf("the current dies away as exp(-%v x/r), want somewhat below 2.405", rate)
	}
	// Deep down the solver's noise is left, a millionth of the outside.
	for i := 1; i < len(s.share); i++ {
		if s.share[i] > s.share[i-1]+1e-5 {
			t.Fatalf("the current grows from %v to %v down the bore", s.share[i-1], s.share[i])
		}
	}
}

func TestBadInput(t *testing.T) {
	tests := []struct {
		name   string
		change func(*Inputs)
		want   string
	}{
		{"anode in the wall", func(in *Inputs) { in.Left = 95 * mm }, "95 mm"},
		{"too many plates", func(in *Inputs) { in.Count = 6 }, "6 plates"},
		{"too round", func(in *Inputs) { in.Rounding = 1 * mm }, "radius of 1 mm"},
		{"anode too wide", func(in *Inputs) { in.AnodeWidth = 119 * mm }, "anode of 119 mm"},
		{"a bore too deep", func(in *Inputs) { in.Inside, in.Length = 2*mm, 60*mm }, "over 10 diameters"},
		{"no wall to the sleeve", func(in *Inputs) { in.Inside = 9 * mm }, "bore of 9 mm"},
	}
	for _, test := range tests {
		in := Defaults()
		test.change(&in)
		if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: Work gave %v, want an error with %q", test.name, err, test.want)
		}
	}
}

func TestOtherTanks(t *testing.T) {
	// Whatever fits gives a whole sheet.
	for name, change := range map[string]func(*Inputs){
		"one plate":        func(in *Inputs) { in.Count = 1 },
		"three plates":     func(in *Inputs) { in.Count = 3; in.Gap = 10 * mm },
		"the long cut":     func(in *Inputs) { in.Width, in.Through, in.Count = 44*mm, 76*mm, 1 },
		"one side near":    func(in *Inputs) { in.Left = 15 * mm },
		"burning":          func(in *Inputs) { in.Mean = 9 * aDM2 },
		"no room at edges": func(in *Inputs) { in.Width, in.Count, in.AnodeWidth = 110*mm, 1, 110*mm },
	} {
		in := Defaults()
		change(&in)
		sheet, err := Work(in)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if err := sheet.Validate(); err != nil {
			t.Errorf("%s: %v", name, err)
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
