package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// What comes to a shop's readings sooner or later: a clear word, and what still
// can be said.

func TestStationsOutOfOrder(t *testing.T) {
	run := []SlopePoint{{Position: 0, Slope: 1e-5, U: 1e-6}, {Position: 0.1, Slope: 3e-5, U: 1e-6}, {Position: 0.3, Slope: -2e-5, U: 1e-6}}
	turned := []SlopePoint{run[2], run[0], run[1]}
	a, err := ProfileFromSlopes(run, ProfileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := ProfileFromSlopes(turned, ProfileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Points { // any order, unequal steps: the same profile
		if a.Points[i] != b.Points[i] {
			t.Errorf("point %d: %v in order, %v out of it", i, a.Points[i], b.Points[i])
		}
	}
	run[1].Position = 0
	if _, err := ProfileFromSlopes(run, ProfileOptions{}); err == nil || !strings.Contains(err.Error(), "0 mm") {
		t.Errorf("a station repeated: error = %v", err)
	}
}

func TestOneSurveyLonger(t *testing.T) {
	run := []SlopePoint{{Position: 0, U: 1e-6}, {Position: 0.1, U: 1e-6}, {Position: 0.3, U: 1e-6}}
	if _, err := CompareSlopes(run, run[:2], ChangeOptions{}); err == nil || !strings.Contains(err.Error(), "3 stations, the later one 2") {
		t.Errorf("error = %v", err)
	}
	moved := append([]SlopePoint(nil), run...)
	moved[2].Position = 0.31
	if _, err := CompareSlopes(run, moved, ChangeOptions{}); err == nil || !strings.Contains(err.Error(), "no station within") {
		t.Errorf("error = %v", err)
	}
}

func TestPocketsDeeperThanNew(t *testing.T) {
	// Five pockets of 57 um where new ones measure 52: no wear, within what five
	// of a spread of 6.2 allow; the interval holds zero.
	w, err := ReadPockets([]PocketStation{{Depth: 57 * um, Found: 5, Total: 5}}, PocketOptions{New: 52 * um, NewU: 1.5 * um, Spread: 6.2 * um, Floor: 3 * um})
	if err != nil {
		t.Fatal(err)
	}
	if w[0].Wear >= 0 || !(w[0].Low < 0 && w[0].High > 0) {
		t.Errorf("wear %g, from %g to %g um", float64(w[0].Wear/um), float64(w[0].Low/um), float64(w[0].High/um))
	}
}

func TestDatesAndLimits(t *testing.T) {
	alike := []MeasuredDepth{{testYear, 10 * um, 1 * um}, {testYear, 12 * um, 1 * um}}
	if _, err := ForecastLine(alike); err == nil || !strings.Contains(err.Error(), "one clock") {
		t.Errorf("dates alike: error = %v", err)
	}
	line := func(depths ...float64) Forecast {
		var r []MeasuredDepth
		for i, d := range depths {
			r = append(r, MeasuredDepth{unit.Time(i) * testYear, unit.Length(d) * um, 0.5 * um})
		}
		f, err := ForecastLine(r)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	passed, err := line(10, 15, 20, 25).Reach(12*um, 0.95, 0)
	if err != nil || passed.Kind != Bounded || !(passed.High < 3*testYear) {
		t.Errorf("a limit that is passed: %+v, %v; want dates behind the last reading", passed, err)
	}
	still, err := line(10, 10, 10, 10).Reach(30*um, 0.95, 0)
	if err != nil || still.Kind != NotBefore || !math.IsInf(float64(still.At), 1) || !(still.Low > 3*testYear) {
		t.Errorf("a rate of zero: %+v, %v; want never, or not before", still, err)
	}
}

func TestLoadOutsideTheMiddleThird(t *testing.T) {
	// At a quarter of the length the load stands 75 mm from one end, and presses
	// over three times that: 225 of 300 mm, with twice the mean over them.
	p, err := PressureUnderPad(900*unit.Newton, 300*mm, 60*mm, 75*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "touching", float64(p.Touching/mm), 225, 1e-9)
	near(t, "most", float64(p.Most), 2*900/0.225/0.06, 1e-6)
	if p.Least != 0 {
		t.Errorf("the lifted end presses by %g Pa", float64(p.Least))
	}
	if _, err := PressureUnderPad(900*unit.Newton, 300*mm, 60*mm, 150*mm); err == nil {
		t.Error("a load on the very end does not tip the pad")
	}
	ways := WornWays{Places: []unit.Length{-0.5, 0, 0.5}, Front: make([]unit.Length, 3), Rear: make([]unit.Length, 3), Apart: 190 * mm, Bearing: 300 * mm}
	bed := Bed{Stiffness: 1e12, Width: 50 * mm, Load: 800, LoadAt: 75 * mm}
	r, err := PressedMotion(ways, bed, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "share that touches", r.Touching, 0.75, 0.02) // cells of a sixtieth
	bed.LoadAt = 160 * mm
	if _, err := PressedMotion(ways, bed, 0); err == nil || !strings.Contains(err.Error(), "tip") {
		t.Errorf("a load beyond the saddle: error = %v", err)
	}
}

// TestStationRepeated: two readings at one station cannot both be heights of one
// profile. Each entry says so, naming the place or the reading.
func TestStationRepeated(t *testing.T) {
	twice := []SlopePoint{{Position: 0, U: 1e-6}, {Position: 0.1, U: 1e-6}, {Position: 0.1, U: 1e-6}, {Position: 0.2, U: 1e-6}}
	_, motion := MotionFromSlopes(twice, MotionOptions{Bearing: 0.3})
	_, table := MapTable(twice, 0.3)
	_, compared := CompareSlopes(twice, twice, ChangeOptions{})
	_, difference := Difference(twice, twice)
	_, readings := ProfileFromReadings([]Point{{0, 0}, {0.1, 0}, {0.1, 1 * um}}, Gauge{Step: 1 * um})
	_, bar := ReverseBar([]ReversalReading{{Position: 0}, {Position: 0.1}, {Position: 0.1}}, Gauge{Step: 1 * um})
	_, skimmed := MotionFromSkimmedBar([]SkimmedPlace{{}, {}}, Gauge{Step: 1 * um})
	_, pressed := PlanScraping(WornWays{Places: []unit.Length{0, 0}, Front: make([]unit.Length, 2), Rear: make([]unit.Length, 2), Apart: 0.2, Bearing: 0.1}, 0.05, ScrapeOptions{Light: 2 * um, Heavy: 9 * um})
	for name, err := range map[string]error{"motion": motion, "table": table, "compared": compared, "difference": difference, "readings": readings, "bar": bar, "skimmed bar": skimmed, "scraping": pressed} {
		if err == nil || !strings.Contains(err.Error(), "mm") && !strings.Contains(err.Error(), " m") {
			t.Errorf("%s: error = %v, want one that names the place", name, err)
		}
	}
	// Straightness takes several heights at one place: each must lie in the zone.
	s, err := StraightnessOf([]Point{{0, 0}, {0.1, 0}, {0.1, 3 * um}, {0.2, 0}}, MinimumZone)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "straightness", float64(s.Value/um), 3, 1e-9)
}

// TestUnequalBases: a level walked with feet of 250 and of 100 mm gives the heights
// of the same bed; a base of nothing is refused by its number.
func TestUnequalBases(t *testing.T) {
	bed := func(x float64) float64 { return 160e-6 * x * (1 - x) }
	var walk []Step
	x := 0.0
	for _, base := range []float64{0.25, 0.1, 0.1, 0.25, 0.1, 0.2} {
		walk = append(walk, Step{Base: unit.Length(base), Slope: Slope((bed(x+base) - bed(x)) / base), U: 1e-6})
		x += base
	}
	p, err := ProfileFromSteps(0, walk, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, point := range p.Points {
		near(t, "height", float64(point.Height), bed(float64(point.Position)), 1e-15)
		if i > 0 && !(p.U(i) > p.U(i-1)) {
			t.Errorf("the uncertainty does not grow at step %d", i)
		}
	}
	walk[3].Base = 0
	if _, err := ProfileFromSteps(0, walk, 0); err == nil || !strings.Contains(err.Error(), "step 4") {
		t.Errorf("a base of nothing: error = %v", err)
	}
}

// TestDatesAlikeEverywhere: what stands on clocks says so when all are one.
func TestDatesAlikeEverywhere(t *testing.T) {
	var r []MeasuredDepth
	var bounded []BoundedDepth
	for i := range 6 {
		d := unit.Length(10+i) * um
		r, bounded = append(r, MeasuredDepth{testYear, d, 1 * um}), append(bounded, BoundedDepth{testYear, d, d})
	}
	_, line := ForecastLine(r)
	_, curve := ForecastSaturating(r)
	_, power := FitPower(r)
	_, event := FitEvent(r, testYear)
	_, found := FindEvent(r, EventSearch{})
	_, trend := FitBoundedTrend(bounded)
	_, reach := ReachBounded(bounded, 30*um, 0.95)
	for name, err := range map[string]error{"line": line, "curve": curve, "power": power, "event": event, "found": found, "trend": trend, "reach": reach} {
		if err == nil {
			t.Errorf("%s: no error", name)
			continue
		}
		said := false
		for _, word := range []string{"clock", "between the first and the last", "too few places"} {
			said = said || strings.Contains(err.Error(), word)
		}
		if !said {
			t.Errorf("%s: error = %v, want one about the clocks", name, err)
		}
	}
}

// TestLimitPassedAlready: a limit behind the last reading is told from one ahead, by
// the line, by the curve and where depths are bounds.
func TestLimitPassedAlready(t *testing.T) {
	r := bent(8, 9, 5, 5, 0.5, true, newNormal(3))
	curve, err := ForecastSaturating(r)
	if err != nil {
		t.Fatal(err)
	}
	c, err := curve.Reach(10*um, 0.95, 7*testYear, 30*testYear)
	if err != nil || c.Kind != NotAfter || c.High != 7*testYear {
		t.Errorf("curve: %+v, %v", c, err)
	}
	var bounded []BoundedDepth
	for _, m := range r {
		bounded = append(bounded, BoundedDepth{m.Clock, m.Depth, m.Depth})
	}
	if c, err = ReachBounded(bounded, 10*um, 0.95); err != nil || c.Kind != Bounded || !(c.High < 3*testYear) {
		t.Errorf("bounds: %+v, %v; want dates behind the last reading", c, err)
	}
}
