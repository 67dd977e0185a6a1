package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// shopMap is the map of the demonstration's table in 2025.
func shopMap(t *testing.T) (TableMap, []SlopePoint) {
	t.Helper()
	survey, err := ReadLevel(stations(level2025, true), shopLevel)
	if err != nil {
		t.Fatal(err)
	}
	m, err := MapTable(survey.SlopePoints(), 360*mm)
	if err != nil {
		t.Fatal(err)
	}
	return m, survey.SlopePoints()
}

func TestSpotIsBowOfCut(t *testing.T) {
	m, slopes := shopMap(t)
	for _, part := range []struct{ place, length unit.Length }{{0, 600 * mm}, {-180 * mm, 150 * mm}, {120 * mm, 400 * mm}} {
		want, err := BowOfCut(slopes, 360*mm, part.place, part.length)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Spot(part.place, part.length, 0)
		if err != nil {
			t.Fatal(err)
		}
		// The map averages over the liveliness; the other takes the best for true.
		near(t, "bow", float64(s.Bow/um), float64(want.Value/um), 0.3*float64(want.U/um))
		near(t, "bow's u", float64(s.BowU/um), 1.25*float64(want.U/um), 0.25*float64(want.U/um))
	}
}

func TestSpotRecoversTheHiddenTruth(t *testing.T) {
	m, _ := shopMap(t)
	// T2 and the two-point model: 13.0 um over 600 mm in the middle.
	s, err := m.Spot(0, 600*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bow", float64(s.Bow/um), 13.0, 2*float64(s.BowU/um))
	// Slopes of T2 at X = +240 and 0: -107.0 and 25.6.
	near(t, "lean", float64(func() Slope { s, _ := m.Spot(-240*mm, 100*mm, 0); return s.Lean }()*1e6), -132.6, 3*float64(s.LeanU*1e6)+15)
	flank, err := m.Spot(240*mm, 150*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	bottom, err := m.Spot(0, 150*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bow at the bottom", float64(bottom.Bow/um), 1.4, 2*float64(bottom.BowU/um))
	near(t, "bow on the flank", float64(flank.Bow/um), 0.05, 2*float64(flank.BowU/um))
}

func TestBestPlaces(t *testing.T) {
	m, _ := shopMap(t)
	for _, aim := range []Aim{LeastBow, LeastLean, LeastTurn} {
		best, err := m.Best(150*mm, 0, aim)
		if err != nil {
			t.Fatal(err)
		}
		spots, err := m.Spots(150*mm, 0, 81)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range spots {
			if aim.badness(s) < aim.badness(best) {
				t.Errorf("aim %d: %g at %g mm is better", aim, aim.badness(s), float64(s.Place/mm))
			}
		}
	}
	if s, _ := m.Spot(0, 150*mm, 0); s.Lean != 0 || s.LeanU != 0 {
		t.Errorf("a place leans %g against itself", float64(s.Lean))
	}
	lean, _ := m.Best(150*mm, 0, LeastLean)
	near(t, "least lean", float64(lean.Place/mm), 0, 15)
}

func TestMapTurnsWithTheMachine(t *testing.T) {
	// A lean of the whole machine changes neither bow nor lean against the head.
	_, slopes := shopMap(t)
	for i := range slopes {
		slopes[i].Slope += 300e-6
	}
	tipped, err := MapTable(slopes, 360*mm)
	if err != nil {
		t.Fatal(err)
	}
	m, _ := shopMap(t)
	a, _ := m.Spot(60*mm, 300*mm, 0)
	b, _ := tipped.Spot(60*mm, 300*mm, 0)
	near(t, "bow", float64(b.Bow/um), float64(a.Bow/um), 1e-3)
	near(t, "lean", float64(b.Lean*1e6), float64(a.Lean*1e6), 1e-3)
	near(t, "turn", float64(b.Turn*1e6), float64(a.Turn*1e6), 1e-3)
}

func TestTwoSettings(t *testing.T) {
	m, _ := shopMap(t)
	two, err := m.InTwoSettings(600*mm, 100*mm, 1*um)
	if err != nil {
		t.Fatal(err)
	}
	one, _ := m.Best(600*mm, 0, LeastBow)
	if math.Abs(float64(two.Bow)) > 0.85*math.Abs(float64(one.Bow)) {
		t.Errorf("two settings %g um, one %g um", float64(two.Bow/um), float64(one.Bow/um))
	}
	near(t, "piece", float64(two.Piece/mm), 350, 1e-9)
	worst := 0.0
	for _, p := range two.Shape {
		worst = math.Max(worst, math.Abs(float64(p.Height)))
	}
	// The grid's straight pieces leave a hundredth of a micrometre.
	near(t, "shape", worst*1e6, math.Abs(float64(two.Bow/um)), 0.02)
	near(t, "ends", float64(two.Shape[0].Height-two.Shape[len(two.Shape)-1].Height), 0, 1e-15)
	sharp, err := m.InTwoSettings(600*mm, 100*mm, 0)
	if err != nil || !(sharp.BowU < two.BowU) {
		t.Errorf("without the dial's error u is %g um, with it %g; %v", float64(sharp.BowU/um), float64(two.BowU/um), err)
	}
}

func TestTwoSettingsOfAParabola(t *testing.T) {
	// A motion of constant curvature gives the same parabola in any setting, and
	// the two pieces join into one: the bow is that of the whole length.
	var slopes []SlopePoint
	for i := range 9 {
		u := unit.Length(100*(i-4)) * mm
		slopes = append(slopes, SlopePoint{Position: u, Slope: Slope(200e-6 * float64(u)), U: 0.5e-6})
	}
	m, err := MapTable(slopes, 0)
	if err != nil {
		t.Fatal(err)
	}
	two, err := m.InTwoSettings(1000*mm, 200*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bow", float64(two.Bow/um), 200.0/8, 0.3)
}

func TestBowCoverage(t *testing.T) {
	// Ways drawn from the model's own kind, read with errors, worked back.
	coverage(t, "bow of a part", 31, surveys()/2, func(normal func() float64) bool {
		const step = 0.02
		var slope, height float64
		at, h, s := []float64{}, []float64{}, []float64{}
		for u := -0.5; u <= 0.5001; u += step {
			at, h, s = append(at, u), append(h, height), append(s, slope)
			next := slope + 1e-4*math.Sqrt(step)*normal()*3
			height += step * (slope + next) / 2
			slope = next
		}
		var slopes []SlopePoint
		for i := 0; i < len(at); i += 5 {
			slopes = append(slopes, SlopePoint{Position: unit.Length(at[i]), Slope: Slope(s[i] + 8e-6*normal()), U: 8e-6})
		}
		m, err := MapTable(slopes, 0)
		if err != nil {
			t.Fatal(err)
		}
		// The middle of a part of 400 mm against its chord.
		value, u := m.estimate(m.departure(0, 0.4, 0))
		truth := h[25] - (h[15]+h[35])/2
		return math.Abs(value-truth) <= 1.96*u
	})
}

func TestFairPlaces(t *testing.T) {
	// A hollow right of the middle: the fairest place lies left of it, and with
	// no wear to come all places are alike.
	var at, depths, tries []unit.Length
	for i := range 41 {
		u := unit.Length(25*(i-20)) * mm
		at = append(at, u)
		depths = append(depths, unit.Length(30*math.Exp(-math.Pow(float64(u)-0.1, 2)/2/0.15/0.15))*um)
	}
	for i := range 13 {
		tries = append(tries, unit.Length(50*(i-6))*mm)
	}
	fair, best, err := FairPlaces(at, depths, 300*mm, 150*mm, 10*um, tries)
	if err != nil {
		t.Fatal(err)
	}
	if fair[best].Place > -50*mm {
		t.Errorf("fairest at %g mm", float64(fair[best].Place/mm))
	}
	// On the hollow itself the depths add up.
	near(t, "deepest", float64(fair[8].Deepest/um), 40, 0.1)
	same, _, err := FairPlaces(at, depths, 300*mm, 150*mm, 0, tries)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range same {
		near(t, "uneven", float64(f.Uneven), float64(same[0].Uneven), 1e-15)
	}
}

func TestPlaceRefuses(t *testing.T) {
	m, slopes := shopMap(t)
	_, bearing := MapTable(slopes, -1)
	_, empty := TableMap{}.Spot(0, 1, 0)
	_, long := m.Best(900*mm, 0, LeastBow)
	_, off := m.Spot(300*mm, 300*mm, 0)
	_, set := m.Spot(0, 300*mm, 900*mm)
	_, aim := m.Best(100*mm, 0, 7)
	_, overlap := m.InTwoSettings(100*mm, 100*mm, 0)
	_, piece := m.InTwoSettings(2000*mm, 100*mm, 0)
	_, dial := m.InTwoSettings(200*mm, 100*mm, unit.Length(math.NaN()))
	_, _, depths := FairPlaces(nil, nil, 1, 1, 1, nil)
	_, _, order := FairPlaces([]unit.Length{0, 0, 1}, make([]unit.Length, 3), 1, 1, 1, []unit.Length{0})
	_, count := m.Spots(100*mm, 0, 0)
	for want, err := range map[string]error{"bearing": bearing, "map of the table is empty": empty, "900 mm": long, "part of 300": off, "head was set": set, "no aim": aim,
		"overlap of 100": overlap, "part of 1050": piece, "dial": dial, "3 depths": depths, "place 2": order, "0 places": count} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}

func BenchmarkSpots(b *testing.B) {
	survey, err := ReadLevel(stations(level2025, true), shopLevel)
	if err != nil {
		b.Fatal(err)
	}
	m, err := MapTable(survey.SlopePoints(), 360*mm)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := m.Spots(150*mm, 0, 25); err != nil {
			b.Fatal(err)
		}
	}
}

func TestShapeHoldsTheBow(t *testing.T) {
	m, _ := shopMap(t)
	s, err := m.Spot(0, 600*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	shape := m.Shape(0, 600*mm, spotSamples)
	most := 0.0
	for _, p := range shape {
		most = math.Max(most, math.Abs(float64(p.Height)))
	}
	near(t, "bow", most, math.Abs(float64(s.Bow)), 1e-12)
	near(t, "ends", float64(shape[0].Height-shape[len(shape)-1].Height), 0, 1e-15)
	if m.Shape(0, 9, 5) != nil || m.Shape(0, 600*mm, 1) != nil {
		t.Error("a part beyond the stations has a shape")
	}
}
