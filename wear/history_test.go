package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// shopWay is a way like those of the demonstration's table.
func shopWay() SlidingWay {
	return SlidingWay{From: -560 * mm, To: 560 * mm, Stations: 281, Bearing: 360 * mm, Width: 50 * mm,
		Load: 800 * newton, Thrust: 200 * newton, Stiffness: 1e11, Table: 2e-8 * perNewton, Saddle: 2e-8 * perNewton}
}

func TestHistoryKeepsVolume(t *testing.T) {
	way := shopWay()
	way.LoadAt = 20 * mm
	way.Saddle = 0.5 * way.Table
	spells := []Spell{
		{Time: 300 * testHour, Speed: 0.01, Placements: []Placement{{-100 * mm, 200 * mm, 0.7}, {60 * mm, 300 * mm, 0.3}}},
		{Time: 100 * testHour, Speed: 0.02, Placements: []Placement{{0, 100 * mm, 1}}, Times: 3},
	}
	h, err := Simulate(way, nil, spells, HistoryOptions{})
	if err != nil {
		t.Fatal(err)
	}
	slid := (300*0.01 + 3*100*0.02) * 3600.0
	want := float64(way.Table.Volume(1000*newton, unit.Length(slid)))
	near(t, "volume of the table", float64(h.TableVolume), want, 1e-9*want)
	near(t, "volume of the saddle", float64(h.SaddleVolume), want/2, 1e-9*want)
	area := float64(way.Width) * 1.12 / 280
	sum := 0.0
	for _, w := range h.Worn {
		sum += float64(w) * area
	}
	near(t, "volume by stations", sum, want, 1e-9*want)
	if len(h.After) != 2 || len(h.Worn) != 281 || len(h.SaddleWorn) != 90 {
		t.Errorf("%d spells, %d stations, %d places on the saddle", len(h.After), len(h.Worn), len(h.SaddleWorn))
	}
}

func TestHistoryIsTheHistogramWithoutFeedback(t *testing.T) {
	// A soft bed spreads the load evenly whatever is worn: the depth is then the
	// law's, with the sliding that exact geometry gives. Loads that stand on the
	// saddle only.
	way := SlidingWay{From: 0, To: 500 * mm, Stations: 1001, Bearing: 300 * mm, Width: 50 * mm, Thrust: 900 * newton,
		Stiffness: 1e6, Table: 5e-8 * perNewton, Saddle: 5e-8 * perNewton}
	// 0.06 N/mm2 over 1e6 strokes of 200 mm, one way.
	h, err := Simulate(way, nil, []Spell{{Time: 2000 * testHour, Speed: unit.Velocity(2e5 / (2000 * 3600)), Placements: []Placement{{250 * mm, 200 * mm, 1}}}}, HistoryOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0, 0.15, 0.3, 0.45, 0.6, 0.6, 0.6, 0.45, 0.3, 0.15, 0} {
		// Cells of half a millimetre: a part in 400 of the ramp.
		near(t, "wear", float64(h.Worn[100*i]/um), want, 0.003)
	}
	for _, w := range h.SaddleWorn {
		near(t, "wear of the saddle", float64(w/um), 0.6, 1e-4)
	}
}

func TestLoadMovesToWhatStands(t *testing.T) {
	// A hollow presses less in its middle: there the next hours wear less than on
	// a new way, and at its rim more. Stiffer faces do it more.
	fresh := shopWay()
	spell := []Spell{{Time: 50 * testHour, Speed: 0.01, Placements: []Placement{{0, 40 * mm, 1}}}}
	hollow := make([]unit.Length, fresh.Stations)
	for i := range hollow {
		u := -0.56 + 1.12*float64(i)/280
		hollow[i] = unit.Length(2*math.Exp(-u*u/2/0.1/0.1)) * um
	}
	share := func(stiffness float64, worn []unit.Length) (middle, rim float64) {
		fresh.Stiffness = stiffness
		h, err := Simulate(fresh, worn, spell, HistoryOptions{})
		if err != nil {
			t.Fatal(err)
		}
		start := func(i int) unit.Length {
			if worn == nil {
				return 0
			}
			return worn[i]
		}
		return float64(h.Worn[140] - start(140)), float64(h.Worn[105] - start(105))
	}
	newMiddle, newRim := share(3e10, nil)
	softMiddle, _ := share(1e10, hollow)
	middle, rim := share(3e10, hollow)
	if !(middle < softMiddle && softMiddle < newMiddle) || !(rim > newRim) {
		t.Errorf("middle %g (soft %g, new %g), rim %g (new %g)", middle, softMiddle, newMiddle, rim, newRim)
	}
}

func TestHistoryIsMirrored(t *testing.T) {
	way := shopWay()
	way.LoadAt = 50 * mm
	spells := []Spell{{Time: 40 * testHour, Speed: 0.02, Placements: []Placement{{-60 * mm, 100 * mm, 1}}}}
	h, err := Simulate(way, nil, spells, HistoryOptions{Step: testHour / 4})
	if err != nil {
		t.Fatal(err)
	}
	way.LoadAt, spells[0].Placements[0].Place = -50*mm, 60*mm
	m, err := Simulate(way, nil, spells, HistoryOptions{Step: testHour / 4})
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for _, w := range h.Worn {
		most = math.Max(most, float64(w))
	}
	for i, w := range h.Worn {
		// Positions are shifted one way along the stroke in both runs.
		near(t, "mirrored wear", float64(m.Worn[len(h.Worn)-1-i]), float64(w), 0.02*most)
	}
}

func TestStepDoesNotMatter(t *testing.T) {
	way := shopWay()
	way.Stiffness = 1e13
	spells := []Spell{{Time: 400 * testHour, Speed: 0.02, Placements: []Placement{{-60 * mm, 100 * mm, 1}}}}
	fine, err := Simulate(way, nil, spells, HistoryOptions{Step: testHour})
	if err != nil {
		t.Fatal(err)
	}
	coarse, err := Simulate(way, nil, spells, HistoryOptions{Step: 8 * testHour})
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for _, w := range fine.Worn {
		most = math.Max(most, float64(w))
	}
	for i := range fine.Worn {
		near(t, "wear", float64(coarse.Worn[i]), float64(fine.Worn[i]), 0.05*most)
	}
}

func TestEvenWearIsEven(t *testing.T) {
	h := History{Places: []unit.Length{0, 1, 2, 3}, Worn: []unit.Length{1 * um, 3 * um, 5 * um, 7 * um}}
	near(t, "uneven", float64(h.Uneven()), 0, 1e-18)
	h.Worn = []unit.Length{1 * um, -1 * um, -1 * um, 1 * um}
	near(t, "uneven", float64(h.Uneven()/um), 1, 1e-12)
	if depth, place := h.Deepest(); depth != 1*um || place != 0 {
		t.Errorf("deepest %g um at %g m", float64(depth/um), float64(place))
	}
	if (History{}).Uneven() != 0 {
		t.Error("no history is uneven")
	}
}

func TestFitFactor(t *testing.T) {
	way := shopWay()
	way.Stiffness, way.LoadAt, way.Table, way.Saddle = 1e10, -100*mm, 1e-6*perNewton, 1e-6*perNewton
	spells := []Spell{{Time: 600 * testHour, Speed: 0.02, Placements: []Placement{{-180 * mm, 150 * mm, 1}}}}
	start := make([]unit.Length, way.Stations)
	stations := make([]RewornStation, 9)
	for i := range start {
		u := -0.56 + 1.12*float64(i)/280
		start[i] = unit.Length(44*math.Exp(-(u-0.04)*(u-0.04)/2/0.21/0.21)) * um
	}
	truth := append([]Spell(nil), spells...)
	truth[0].Times = 4
	h, err := Simulate(way, start, truth, HistoryOptions{Step: 4 * testHour})
	if err != nil {
		t.Fatal(err)
	}
	normal := newNormal(4)
	for i := range stations {
		at := unit.Length(120*(i-4)) * mm
		stations[i] = RewornStation{at, unit.Length(depthAt(h.Places, start, at)), 0.3 * um, unit.Length(depthAt(h.Places, h.Worn, at) + 0.3e-6*normal()), 0.3 * um}
	}
	fit, err := FitFactor(way, stations, spells, HistoryOptions{Step: 4 * testHour})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(fit.Times-4) > 2*fit.TimesU+0.2 || fit.TimesU > 0.6 || fit.Agreement < 0.01 {
		t.Errorf("factor times %g, u %g, agreement %g; want 4", fit.Times, fit.TimesU, fit.Agreement)
	}
	stations[4].BeforeU = 0
	if _, err := FitFactor(way, stations, spells, HistoryOptions{}); err == nil || !strings.Contains(err.Error(), "station 5") {
		t.Errorf("error = %v", err)
	}
}

func TestHistoryRefuses(t *testing.T) {
	good := []Spell{{Time: testHour, Speed: 0.01, Placements: []Placement{{0, 40 * mm, 1}}}}
	try := func(change func(*SlidingWay), spells []Spell, options HistoryOptions) error {
		way := shopWay()
		if change != nil {
			change(&way)
		}
		_, err := Simulate(way, nil, spells, options)
		return err
	}
	off := []Spell{{Time: testHour, Speed: 0.01, Placements: []Placement{{300 * mm, 400 * mm, 1}}}}
	long := []Spell{{Time: 1e6 * testHour, Speed: 0.01, Placements: good[0].Placements}}
	_, depths := Simulate(shopWay(), make([]unit.Length, 3), good, HistoryOptions{})
	for want, err := range map[string]error{
		"2 stations":         try(func(w *SlidingWay) { w.Stations = 2 }, good, HistoryOptions{}),
		"no longer than":     try(func(w *SlidingWay) { w.Bearing = 2 }, good, HistoryOptions{}),
		"not both zero":      try(func(w *SlidingWay) { w.Load, w.Thrust = 0, 0 }, good, HistoryOptions{}),
		"stiffness":          try(func(w *SlidingWay) { w.Stiffness = math.NaN() }, good, HistoryOptions{}),
		"the table tips":     try(func(w *SlidingWay) { w.LoadAt = 300 * mm }, good, HistoryOptions{}),
		"off the way":        try(nil, off, HistoryOptions{}),
		"steps":              try(nil, long, HistoryOptions{}),
		"positions":          try(nil, good, HistoryOptions{Positions: 5000}),
		"3 depths":           depths,
		"no placements":      try(nil, []Spell{{Time: 1}}, HistoryOptions{}),
		"spell 1: wear: tim": try(nil, []Spell{{Time: -1}}, HistoryOptions{}),
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}

// BenchmarkTenYears is ten years of daily steps on 2,000 stations: to be done in
// a second.
func BenchmarkTenYears(b *testing.B) {
	way := shopWay()
	way.Stations, way.Stiffness, way.LoadAt = 2000, 1e12, -60*mm
	spells := []Spell{{Time: 3650 * testHour, Speed: 0.01, Placements: []Placement{{-180 * mm, 150 * mm, 0.8}, {60 * mm, 120 * mm, 0.2}}}}
	for b.Loop() {
		if _, err := Simulate(way, nil, spells, HistoryOptions{Positions: 6}); err != nil {
			b.Fatal(err)
		}
	}
}

// TestFactorOverAnother holds the ratio's bounds against their definition, and
// against Fieller's theorem worked by hand for one case: factors 10 and 5, both to
// 1, k = 1.959964: q from 0.67174 to 1.69137 times the ratio of 2.
func TestFactorOverAnother(t *testing.T) {
	a, b := FactorFit{Times: 10, TimesU: 1}, FactorFit{Times: 5, TimesU: 1}
	r, err := a.Over(b, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ratio", r.Times, 2, 1e-15)
	near(t, "u", r.TimesU, 2*math.Hypot(0.1, 0.2), 1e-15)
	for _, q := range []float64{r.Low, r.High} {
		near(t, "ends in standard uncertainties", math.Abs(10-5*q)/math.Hypot(1, q), 1.959964, 1e-5)
	}
	if !(r.Low < 2 && 2 < r.High && r.High-2 > 2-r.Low) {
		t.Errorf("from %g to %g", r.Low, r.High)
	}
	// Turned round, the bounds are the reciprocals.
	back, err := b.Over(a, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low of the reciprocal", back.Low, 1/r.High, 1e-12)
	near(t, "high of the reciprocal", back.High, 1/r.Low, 1e-12)
	near(t, "chance", r.Faster+back.Faster, 1, 1e-12)
	// A lower factor that may be zero leaves the ratio open upward.
	if r, err = a.Over(FactorFit{Times: 1, TimesU: 1}, 0.95); err != nil || !math.IsInf(r.High, 1) || !(r.Low > 0) {
		t.Errorf("over a factor that may be zero: %+v, %v", r, err)
	}
	for _, bad := range []FactorFit{{}, {Times: 1}, {Times: math.NaN(), TimesU: 1}} {
		if _, err := a.Over(bad, 0.95); err == nil {
			t.Errorf("no error for %v", bad)
		}
	}
	if _, err := a.Over(b, 1); err == nil {
		t.Error("a chance of 1 was accepted")
	}
}

// TestTwoSurveysOfTheShop draws the shop's surveys of 2019 and 2025 anew from the
// hidden wear. What the rear way lost between them has no bias, but comes out only
// to 2.3 um of 10.8, so that the ratio of the ways, 2.4, is drawn from 1.6 to 3.6
// in 95 of 100: the shop's own surveys gave 1.7.
func TestTwoSurveysOfTheShop(t *testing.T) {
	normal := newNormal(77)
	shape := func(u unit.Length) float64 { return math.Exp(-math.Pow((float64(u/mm)+180)/140, 2) / 2) }
	const pairs = 60
	var front, rear, squares float64
	for range pairs {
		fresh := 52 + 1.5*normal()
		var fits [2]WayFit
		for k, lost := range [][2]float64{{0, 0}, {25.7, 10.8}} {
			wear := func(u float64) (float64, float64) { return hiddenWear(1000*u, lost[0], lost[1]) }
			r := WayReadings{Bearing: 0.36, Apart: 0.19, TopBow: 10 * um, Pockets: shopFlaking}
			r.Pockets.NewU = 1.5 * um
			r.ride(wear, 4.15e-6, normal)
			r.flake(wear, fresh, normal)
			var err error
			if fits[k], err = FitWays(r, wayPlaces()); err != nil {
				t.Fatal(err)
			}
		}
		var f, b, s float64
		for i, u := range fits[0].Ways.Places {
			f += shape(u) * float64((fits[1].Ways.Front[i]-fits[0].Ways.Front[i])/um)
			b += shape(u) * float64((fits[1].Ways.Rear[i]-fits[0].Ways.Rear[i])/um)
			s += shape(u) * shape(u)
		}
		front, rear, squares = front+f/s/pairs, rear+b/s/pairs, squares+math.Pow(b/s-10.8, 2)/pairs
	}
	near(t, "front way lost", front, 25.7, 1) // three standard deviations of a mean of 60
	near(t, "rear way lost", rear, 10.8, 1)
	near(t, "scatter of the rear way", math.Sqrt(squares), 2.25, 0.7)
}
