package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// near reports a value that is not within a tolerance of the expected one.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, tolerance)
	}
}

const (
	newton     = unit.Newton
	perNewton  = CubicMillimetrePerNewtonMetre
	megapascal = 1e6 * unit.Pascal // N/mm2
)

// Encyclopaedia article "Wear coefficient", read: K 7e-3 for mild steel on mild
// steel and H 1.176e9 Pa; the volumes are arithmetic on them.
func TestLawInItsTwoSpellings(t *testing.T) {
	for _, test := range []struct {
		spelling Spelling
		want     float64 // mm3
	}{{WithThree, 198.4127}, {WithoutThree, 595.2381}} {
		k, err := FactorFromCoefficient(7e-3, 1.176e9*unit.Pascal, test.spelling)
		if err != nil {
			t.Fatal(err)
		}
		near(t, test.spelling.String(), float64(k.Volume(100*newton, 1000*unit.Metre))*1e9, test.want, 1e-3)
		back, err := k.Coefficient(1.176e9*unit.Pascal, test.spelling)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "coefficient", back, 7e-3, 1e-15)
	}
	// K 1e-4 and 1e-7 at 2000 N/mm2: by definition.
	for coefficient, want := range map[float64]float64{1e-4: 5e-5, 1e-7: 5e-8} {
		k, err := FactorFromCoefficient(coefficient, 2000*megapascal, WithoutThree)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "factor", float64(k/perNewton), want, 1e-12)
	}
}

func TestInchFactor(t *testing.T) {
	// Conversion by definition, published as 201.44130 to 1e-4.
	near(t, "1 in3 min/(lbf ft h)", float64(CubicInchMinutePerPoundFootHour/perNewton), 201.44130, 1e-4)
}

func TestDepthAndDistance(t *testing.T) {
	near(t, "depth", float64((2e-8*perNewton).Depth(0.05*megapascal, 2e6*unit.Metre)/um), 2, 1e-9)
	// A yearly slide of 180 km: 200 double strokes an hour of 0.3 m, 6 h a day,
	// 250 days.
	year := 200 * 2 * 0.3 * 6 * 250 * unit.Metre
	near(t, "depth a year", float64((1e-8*perNewton).Depth(0.04*megapascal, year)/um), 0.072, 1e-9)
	near(t, "depth a year", float64((1e-7*perNewton).Depth(0.04*megapascal, year)/um), 0.72, 1e-9)
	near(t, "distance", float64((5e-8*perNewton).Distance(20*um, 0.06*megapascal)), 6.666667e6, 1)
	if d := WearFactor(0).Distance(20*um, 1); !math.IsInf(float64(d), 1) {
		t.Errorf("without wear the limit is reached after %g m", float64(d))
	}
}

func TestBushing(t *testing.T) {
	// Shigley's Mechanical Engineering Design, boundary-lubricated bearings,
	// first example, from memory: about 2180 h and 16.5e6 turns; the digits are
	// arithmetic on its inputs.
	b := Bushing{Bore: inch * unit.Metre, Length: inch * unit.Metre, Load: 700 * poundForce * newton,
		Speed: unit.Velocity(33 * 12 * inch / 60), Factor: 0.6e-10 * CubicInchMinutePerPoundFootHour, Motion: 1.3}
	life, turns, err := b.Life(0.005 * inch * unit.Metre)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "life", float64(life/3600), 2179.48, 0.01)
	near(t, "turns", turns, 16.4835e6, 1e3)
	b.Load = 0
	if _, _, err := b.Life(1 * um); err == nil {
		t.Error("a bushing without load was accepted")
	}
}

func TestSaddleAndBed(t *testing.T) {
	// Exact geometry: saddle 300, stroke 200; x counted from the bed's end, so
	// that the saddle's middle runs from 150 to 350.
	want := []float64{0, 50, 100, 150, 200, 200, 200, 150, 100, 50, 0}
	places := make([]unit.Length, len(want))
	for i := range places {
		places[i] = unit.Length(50*i) * mm
	}
	slid, err := SlidingAt(300*mm, Placement{Place: 250 * mm, Stroke: 200 * mm}, places)
	if err != nil {
		t.Fatal(err)
	}
	for i := range want {
		near(t, "sliding", float64(slid[i]/mm), want[i], 1e-9)
	}
	near(t, "wear of the bed at 100", float64((5e-8*perNewton).Depth(0.06*megapascal, slid[2]*1e6)/um), 0.3, 1e-9)
	mixed, err := UseHistogram(300*mm, []Placement{{250 * mm, 200 * mm, 0.25}, {250 * mm, 200 * mm, 0.75}}, places)
	if err != nil {
		t.Fatal(err)
	}
	for i := range want {
		near(t, "mean sliding", float64(mixed[i]/mm), want[i], 1e-9)
	}
}

func TestWearByUse(t *testing.T) {
	zones := []Zone{{100 * mm, 0.05}, {100 * mm, 0.15}, {100 * mm, 0.40}, {100 * mm, 0.30}, {100 * mm, 0.10}}
	worn, err := WearByUse(2e-8*perNewton, 1500*newton, 80*mm, 1.5e6*unit.Metre, zones)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for i, want := range []float64{0.28125, 0.84375, 2.25, 1.6875, 0.5625} {
		near(t, "depth", float64(worn[i].Depth/um), want, 1e-9)
		sum += float64(worn[i].Volume) * 1e9
	}
	near(t, "volume", sum, 45, 1e-9)
}

func TestPad(t *testing.T) {
	p, err := PressureUnderPad(1200*newton, 300*mm, 60*mm, 30*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", float64(p.Mean/megapascal), 0.0666667, 1e-7)
	near(t, "most", float64(p.Most/megapascal), 0.1066667, 1e-7)
	near(t, "least", float64(p.Least/megapascal), 0.0266667, 1e-7)
	// Beyond the middle third the pressure still carries load and moment, and
	// the two rules meet at a sixth.
	for _, off := range []float64{50, 50.0001, 80, 140} {
		p, err := PressureUnderPad(1200*newton, 300*mm, 60*mm, unit.Length(off)*mm)
		if err != nil {
			t.Fatal(err)
		}
		touching, most := float64(p.Touching), float64(p.Most)
		near(t, "load", most*touching/2*0.06, 1200, 1e-2)
		near(t, "place of the load", (0.15-touching/3)*1e3, off, 1e-2)
	}
}

func TestLawRefuses(t *testing.T) {
	_, spelled := FactorFromCoefficient(1e-4, 1e9, 7)
	_, hard := FactorFromCoefficient(1e-4, 0, WithThree)
	_, negative := FactorFromCoefficient(-1, 1e9, WithThree)
	_, soft := WearFactor(1).Coefficient(unit.Pressure(math.NaN()), WithThree)
	_, zones := WearByUse(1, 1, 1, 1, nil)
	_, share := WearByUse(1, 1, 1, 1, []Zone{{1, 0.7}, {1, 0.7}})
	_, zone := WearByUse(1, 1, 1, 1, []Zone{{1, 0.7}, {0, 0.3}})
	_, tips := PressureUnderPad(1, 1, 1, 0.5)
	_, stroke := SlidingAt(1, Placement{}, nil)
	_, none := UseHistogram(1, nil, nil)
	_, sum := UseHistogram(1, []Placement{{0, 1, 0.5}}, nil)
	for want, err := range map[string]error{"spelling": spelled, "hardness 0": hard, "coefficient": negative, "hardness NaN": soft, "no zones": zones,
		"sum to 1.4": share, "zone 2": zone, "tips": tips, "stroke": stroke, "no placements": none, "sum to 0.5": sum} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}
