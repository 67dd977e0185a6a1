package squaring

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// known asserts that a feature is determined and lies within three stated
// standard uncertainties of the truth: of some eighty comparisons one in five
// surveys would have one outside.
func known(t *testing.T, a *Adjustment, f Feature, truth float64) Estimate {
	t.Helper()
	e, err := a.Predict(f)
	if err != nil {
		t.Fatalf("%s: %v", f.Name, err)
	}
	if !e.Determined {
		t.Errorf("%s is not determined: %s", f.Name, e.Why)
		return e
	}
	if math.Abs(e.Value-truth) > 3*e.U {
		t.Errorf("%s = %s (u %s), true %s: %.1f standard uncertainties off", f.Name, f.Kind.text(e.Value), f.Kind.text(e.U), f.Kind.text(truth), (e.Value-truth)/e.U)
	}
	return e
}

// The hidden truth of the scenario, tables T2 and T3, D5, D9, D12 and D13, from
// the readings of one day.
func TestSurveyRecoversTheActionShop(t *testing.T) {
	a, err := shopSurvey().Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	h0, x0, y0, _, _ := shopWays(0)
	tilts := []struct {
		head         string
		x, y, within float64
	}{{"found", 232e-6, 231e-6, 10e-6}, {"left", -9e-6, 14e-6, 10e-6}}
	for _, tilt := range tilts {
		x := known(t, a, SpindleSquareness(tilt.head, shopEpoch, AlongX, 0), tilt.x)
		y := known(t, a, SpindleSquareness(tilt.head, shopEpoch, AlongY, 0), tilt.y)
		if x.U > tilt.within || y.U > tilt.within {
			t.Errorf("tilt %s is known within %g and %g, want %g: seventeen readings see it", tilt.head, x.U, y.U, tilt.within)
		}
	}
	for mm := -360.0; mm <= 360; mm += 60 {
		x := lengthOf(mm * 1e-3)
		h, sx, sy, _, _ := shopWays(x)
		known(t, a, TableHeight(shopEpoch, x), float64(h-h0))
		known(t, a, TableSlope(shopEpoch, AlongX, x), sx-x0)
		known(t, a, TableSlope(shopEpoch, AlongY, x), sy-y0)
	}
	known(t, a, TopForm(0.3, 0), float64(shopTop(0.3, 0)))
	known(t, a, TopForm(0, 0.1), float64(shopTop(0, 0.1)))
	known(t, a, KneeLean(shopEpoch, AlongX), 20e-6)
	known(t, a, KneeLean(shopEpoch, AlongY), -60e-6)
	known(t, a, TravelSquareness(shopEpoch), 35e-6)
	known(t, a, LeanToLevel(shopEpoch, AlongX), 165e-6+x0)
	known(t, a, LeanToLevel(shopEpoch, AlongY), -85e-6+y0)
	bow := known(t, a, PartBow(shopEpoch, 0, 0.600), 13.0e-6)
	if bow.U > 1e-6 {
		t.Errorf("bow of a long part is known within %g m, want 1 um", bow.U)
	}
	for i, angle := range []float64{540e-6, -130e-6, 40e-6, -12e-6} {
		known(t, a, JawAngle("jaw, setting "+strconv.Itoa(i+1), shopEpoch, -0.180, 0.120), angle)
	}
	for _, p := range a.Parameters {
		switch p.Name {
		case "mismatch of two-dial gauge":
			near(t, "mismatch, um", p.Value*1e6, 34, 3*p.U*1e6)
		case "error of 200 mm square":
			near(t, "square, um/m", p.Value*1e6, 28, 3*p.U*1e6)
		case "zero of the level":
			near(t, "level, um/m", p.Value*1e6, -22, 3*p.U*1e6)
		}
	}
	if free := a.Undetermined(); len(free) != 0 {
		t.Errorf("everything is measured, yet undetermined: %s", free[0].Sentence)
	}
	if len(a.Suspects()) != 0 {
		t.Errorf("sound readings are suspected: %+v", a.Suspects())
	}
}

// The sweeps alone, taken at face value, are biased by the form of the top: the
// scenario's exercise fits -112 um/m at X = +300 where the truth is -131. With
// the level beside them the survey finds the form and the truth.
func TestSurveySeparatesFormFromMotion(t *testing.T) {
	a, err := shopSurvey().Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	e := known(t, a, SpindleSquareness("left", shopEpoch, AlongX, 0.300), 131e-6)
	if math.Abs(e.Value-112e-6) < e.U {
		t.Errorf("tilt at X = 300 is %g, still the biased 112 um/m", e.Value)
	}
}

// A published levelling network with its solution: C. D. Ghilani and P. R. Wolf,
// Adjustment Computations, 4th edition, 2006, chapter 12: seven lines between two
// bench marks and three new ones (from memory). Printed to a millimetre in feet.
func TestSurveyLevellingNetwork(t *testing.T) {
	const x, y = 100.00, 107.50
	lines := []struct {
		weights [3]float64 // A, B, C
		value   float64
		length  float64 // miles
	}{
		{[3]float64{1, 0, 0}, x + 5.10, 4},
		{[3]float64{1, 0, 0}, y - 2.34, 3},
		{[3]float64{0, 0, 1}, y - 1.25, 2},
		{[3]float64{0, 0, 1}, x + 6.13, 3},
		{[3]float64{-1, 1, 0}, -0.68, 2},
		{[3]float64{0, 1, 0}, y - 3.00, 2},
		{[3]float64{0, -1, 1}, 1.70, 2},
	}
	tests := []struct {
		name string
		u    func(length float64) float64
		want [3]float64
	}{
		{"equal weights", func(float64) float64 { return 0.05 }, [3]float64{105.141, 104.483, 106.188}},
		{"weights by length", func(l float64) float64 { return 0.03 * math.Sqrt(l) }, [3]float64{105.150, 104.489, 106.197}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			set := &unknowns{}
			keys := []unknown{{family: zeroOf, of: "A"}, {family: zeroOf, of: "B"}, {family: zeroOf, of: "C"}}
			var equations []equation
			for i, line := range lines {
				e := equation{of: "line", number: i + 1, value: line.value, u: test.u(line.length), surveyRow: surveyRow{set: set}}
				for k, w := range line.weights {
					e.add(keys[k], w)
				}
				equations = append(equations, e)
			}
			o, err := SurveyOptions{}.defaults()
			if err != nil {
				t.Fatal(err)
			}
			a, err := solveSurvey(set, equations, o)
			if err != nil {
				t.Fatal(err)
			}
			if a.Redundancy != 4 {
				t.Errorf("redundancy %d, want 4", a.Redundancy)
			}
			var sum float64
			for _, r := range a.Readings {
				sum += r.Redundancy
			}
			near(t, "sum of redundancy numbers", sum, 4, 1e-9)
			for k, key := range keys {
				i, _ := set.find(key)
				near(t, key.of, a.Parameters[i].Value, test.want[k], 0.0006)
			}
		})
	}
}

// Simulated shops: true values lie inside the stated 95 % intervals as often as
// stated, 93 to 97 times in 100 for each parameter that is determined. Three
// thousand shops scatter by 0.4 in 100, which a band of 2 either way bears for a
// hundred parameters; SURVEY_SHOPS sets another number (4000: 94.2 to 95.9). A
// short run makes 60 and holds all parameters together only.
func TestSurveyIntervalsHoldTheTruth(t *testing.T) {
	shops := 3000
	if testing.Short() {
		shops = 60
	}
	if text := os.Getenv("SURVEY_SHOPS"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		shops = n
	}
	random := rand.New(rand.NewPCG(95, 1))
	var inside []int
	var names []string
	for range shops {
		sim := simulateSurvey(t, shopSurvey(), SurveyOptions{}, random)
		a := sim.adjust(t)
		if inside == nil {
			inside, names = make([]int, len(a.Parameters)), make([]string, len(a.Parameters))
		}
		for i, p := range a.Parameters {
			names[i] = p.Name
			if !p.Determined {
				t.Fatalf("%s is not determined", p.Name)
			}
			if math.Abs(p.Value-sim.truth[i]) <= 1.959964*p.U {
				inside[i]++
			}
		}
	}
	total, least, most := 0, shops, 0
	for i, n := range inside {
		total, least, most = total+n, min(least, n), max(most, n)
		if share := float64(n) / float64(shops); shops >= 1000 && (share < 0.93 || share > 0.97) {
			t.Errorf("%s lies inside its interval in %.1f of 100 shops", names[i], 100*share)
		}
	}
	// Sixty shops of a hundred linked parameters: about two thousand
	// independent trials, a standard deviation of half a percent.
	near(t, "share inside", float64(total)/float64(shops*len(inside)), 0.95, 0.02)
	t.Logf("%d shops, %d parameters: %.2f of 100 inside, from %.1f to %.1f", shops, len(inside),
		100*float64(total)/float64(shops*len(inside)), 100*float64(least)/float64(shops), 100*float64(most)/float64(shops))
}

// A gross error of eight standard uncertainties in a reading with redundancy
// over 0.3 is pointed at first in at least 95 of 100.
func TestSurveyPointsAtTheBlunder(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 1))
	trials := 400
	if testing.Short() {
		trials = 60
	}
	found := 0
	for range trials {
		sim := simulateSurvey(t, shopSurvey(), SurveyOptions{}, random)
		sound := sim.adjust(t)
		wrong := random.IntN(len(sim.equations))
		for sound.Readings[wrong].Prior || sound.Readings[wrong].Redundancy <= 0.3 {
			wrong = random.IntN(len(sim.equations))
		}
		e := &sim.equations[wrong]
		e.value += 8 * e.u
		suspects := sim.adjust(t).Suspects()
		if len(suspects) > 0 && suspects[0].Reading == wrong {
			found++
		}
	}
	t.Logf("found first in %d of %d", found, trials)
	if 100*found < 95*trials {
		t.Errorf("the wrong reading is pointed at first in %d of %d, want 95 in 100", found, trials)
	}
}

// Two readings of a level, one way on one spot, with one reading the other way: when
// the two differ nothing tells which is wrong, and the third is not to blame.
func TestSurveySuspectsNameTheTwin(t *testing.T) {
	level := func(epoch string, normal []Slope, turned ...Slope) Observation {
		o := ObservedLevel{Setup: Setup{Name: epoch, Epoch: epoch}, ReadingU: 3 * Microradian}
		for _, v := range normal {
			o.Readings = append(o.Readings, LevelReading{Reading: v * Microradian})
		}
		for _, v := range turned {
			o.Readings = append(o.Readings, LevelReading{Reading: v * Microradian, Reversed: true})
		}
		return o
	}
	// The second date is sound and only brings readings to spare.
	a, err := Survey{Observations: []Observation{level("first", []Slope{100, 160}, -80), level("second", []Slope{50, 51, 49}, -40, -41, -39)}}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	suspects := a.Suspects()
	if len(suspects) != 1 {
		t.Fatalf("suspects %+v, want one", suspects)
	}
	named := append([]int{suspects[0].Reading}, suspects[0].OrElse...)
	slices.Sort(named)
	if !slices.Equal(named, []int{0, 1}) {
		t.Errorf("readings %v are named, want the two that differ, 0 and 1", named)
	}
	near(t, "error, um/m", math.Abs(suspects[0].Error)*1e6, 60, 1e-6)
}

// Rank-one removal gives what a fresh adjustment without the reading gives.
func TestSurveySuspectsAgainstRefit(t *testing.T) {
	sim := simulateSurvey(t, shopSurvey(), SurveyOptions{}, rand.New(rand.NewPCG(3, 3)))
	sim.equations[30].value += 15 * sim.equations[30].u
	sim.equations[70].value -= 12 * sim.equations[70].u
	a := sim.adjust(t)
	suspects := a.Suspects()
	if len(suspects) < 2 {
		t.Fatalf("%d suspects of two wrong readings", len(suspects))
	}
	near(t, "error over uncertainty", suspects[0].Error/sim.equations[30].u, 15, 4*suspects[0].ErrorU/sim.equations[30].u)
	var kept []equation
	for i, e := range sim.equations {
		if i != suspects[0].Reading && i != suspects[1].Reading {
			kept = append(kept, e)
		}
	}
	o, _ := SurveyOptions{}.defaults()
	refit, err := solveSurvey(sim.set, kept, o)
	if err != nil {
		t.Fatal(err)
	}
	// 1e-6: two rank-one steps against a fresh decomposition.
	near(t, "chi-square", suspects[1].ChiSquare, refit.ChiSquare, 1e-6*refit.ChiSquare)
	if suspects[1].Redundancy != refit.Redundancy {
		t.Errorf("redundancy %d, want %d", suspects[1].Redundancy, refit.Redundancy)
	}
}

// Readings of an exact rigid-body machine on truly worn ways, not of the
// survey's own rows, give the machine back.
func TestSurveyOfAnExactMachine(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 1))
	inside, all := 0, 0
	for range 40 {
		m := Machine{X: MotionFromWays(shopWays), Top: shopTop,
			Tilt: Gradient{X: Slope(200e-6 * random.NormFloat64()), Y: Slope(200e-6 * random.NormFloat64())}}
		a, err := Survey{Observations: exactReadings(t, m, random)}.Adjust(SurveyOptions{})
		if err != nil {
			t.Fatal(err)
		}
		h0, x0, y0, _, _ := shopWays(0)
		truths := map[string]float64{}
		features := []Feature{SpindleSquareness("h", "", AlongX, 0), SpindleSquareness("h", "", AlongY, 0), PartBow("", 0, 0.6)}
		truths[features[0].Name], truths[features[1].Name] = float64(m.Tilt.X)-x0, float64(m.Tilt.Y)-y0
		left, _, _, _, _ := shopWays(-0.3)
		right, _, _, _, _ := shopWays(0.3)
		truths[features[2].Name] = float64(left+right)/2 - float64(h0)
		for _, x := range []unit.Length{-0.24, -0.15, 0.1, 0.3} {
			_, sx, _, _, _ := shopWays(x)
			f := TableSlope("", AlongX, x)
			features, truths[f.Name] = append(features, f), sx-x0
		}
		for _, f := range features {
			e, err := a.Predict(f)
			if err != nil || !e.Determined {
				t.Fatalf("%s: %v %s", f.Name, err, e.Why)
			}
			all++
			if math.Abs(e.Value-truths[f.Name]) <= 2*e.U {
				inside++
			}
		}
	}
	// The ways are not drawn from the smoothness prior, so only a lower bound:
	// 95 in 100 less three standard deviations of 280 trials.
	if share := float64(inside) / float64(all); share < 0.91 {
		t.Errorf("%.1f of 100 true values lie within two standard uncertainties, want 91 or more", 100*share)
	}
}

// exactReadings takes sweeps, runs and levels of a machine, with noise.
func exactReadings(t *testing.T, m Machine, random *rand.Rand) []Observation {
	t.Helper()
	noise := func(u float64) unit.Length { return unit.Length(u * random.NormFloat64()) }
	var list []Observation
	for _, x := range []unit.Length{-0.3, -0.15, 0, 0.15, 0.3} {
		o := ObservedSweep{Setup: Setup{Name: millimetres(x), Head: "h"}, X: x, Radius: 0.11, Readings: evenRound(8), ReadingU: 2e-6}
		for i := range o.Readings {
			height, err := m.SweepHeight(Position{X: x}, o.Radius, o.Readings[i].Azimuth)
			if err != nil {
				t.Fatal(err)
			}
			o.Readings[i].Reading = height + 12e-6 + noise(2e-6)
		}
		list = append(list, o)
	}
	run := ObservedRun{Setup: Setup{Name: "run"}, Readings: evenRun(-0.36, 0.36, 13), ReadingU: 1e-6}
	for i := range run.Readings {
		height, err := m.TopHeight(Position{X: run.Readings[i].X}, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		run.Readings[i].Reading = height + 5e-6 + noise(1e-6)
	}
	level := ObservedLevel{Setup: Setup{Name: "level"}, ReadingU: 4e-6}
	for x := unit.Length(-0.36); x < 0.361; x += 0.12 {
		_, sx, sy, _, _ := shopWays(x)
		for k, s := range []float64{sx + 165e-6, sy - 85e-6} {
			level.Readings = append(level.Readings,
				LevelReading{X: x, Axis: SurveyAxis(k), Reading: Slope(s - 22e-6 + float64(noise(4e-6)))},
				LevelReading{X: x, Axis: SurveyAxis(k), Reversed: true, Reading: Slope(-s - 22e-6 + float64(noise(4e-6)))})
		}
	}
	return append(list, run, level)
}

// Laws: the order of the readings does not matter; mirroring the shop mirrors
// the answer; scaling every uncertainty scales the uncertainties alone; reading
// everything twice halves the variance.
func TestSurveyLaws(t *testing.T) {
	base := simulateSurvey(t, shopSurvey(), SurveyOptions{}, rand.New(rand.NewPCG(1, 2)))
	a := base.adjust(t)
	variant := func(change func([]equation) []equation) *Adjustment {
		equations := make([]equation, len(base.equations))
		copy(equations, base.equations)
		return surveySimulation{base.set, change(equations), base.truth}.adjust(t)
	}
	compare := func(name string, b *Adjustment, factor float64) {
		t.Helper()
		for i, p := range a.Parameters {
			// 1e-7 of the uncertainty: two decompositions of one problem.
			if math.Abs(b.Parameters[i].Value-p.Value) > 1e-7*p.U+1e-15 || math.Abs(b.Parameters[i].U-factor*p.U) > 1e-7*p.U {
				t.Errorf("%s: %s is %g (u %g), want %g (u %g)", name, p.Name, b.Parameters[i].Value, b.Parameters[i].U, p.Value, factor*p.U)
			}
		}
	}
	compare("order", variant(func(e []equation) []equation {
		rand.New(rand.NewPCG(5, 5)).Shuffle(len(e), func(i, j int) { e[i], e[j] = e[j], e[i] })
		return e
	}), 1)
	compare("uncertainties doubled", variant(func(e []equation) []equation {
		for i := range e {
			e[i].u *= 2
		}
		return e
	}), 2)
	twice := variant(func(e []equation) []equation { return append(e, e...) })
	compare("twice", twice, math.Sqrt(0.5))
	near(t, "chi-square of twice", twice.ChiSquare, 2*a.ChiSquare, 1e-6*a.ChiSquare)
}

// The two ways of solving a well-determined survey agree, and each with an
// oracle that squares nothing either: a fresh least-squares solution by gonum.
func TestSurveySolversAgree(t *testing.T) {
	sim := simulateSurvey(t, shopSurvey(), SurveyOptions{}, rand.New(rand.NewPCG(11, 4)))
	quick := sim.adjust(t)
	scale := columnNorms(sim.equations, sim.set.len())
	triangle, rotated := triangulate(sim.equations, scale)
	thorough := &Adjustment{}
	var svd mat.SVD
	if !svd.Factorize(triangle, mat.SVDFull) {
		t.Fatal("no singular values")
	}
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	n := len(scale)
	half := mat.NewDense(n, n, nil)
	along := make([]float64, n)
	for j, s := range svd.Values(nil) {
		for i := range n {
			half.Set(i, j, v.At(i, j)/s)
			along[j] += u.At(i, j) * rotated[i]
		}
	}
	thorough.known = knowledge{scale: scale, cov: mat.NewDense(n, n, nil)}
	thorough.solve(half, along)

	rows := mat.NewDense(len(sim.equations), n, nil)
	values := mat.NewVecDense(len(sim.equations), nil)
	for i, e := range sim.equations {
		for _, term := range e.terms {
			rows.Set(i, term.unknown, term.weight/e.u/scale[term.unknown])
		}
		values.SetVec(i, e.value/e.u)
	}
	var oracle mat.VecDense
	if err := oracle.SolveVec(rows, values); err != nil {
		t.Fatal(err)
	}
	for i := range n {
		// 1e-8 of the uncertainty: the condition number is some thousands.
		tol := 1e-8 * math.Sqrt(quick.known.cov.At(i, i))
		near(t, "inverse against singular values", quick.x[i], thorough.x[i], tol)
		near(t, "inverse against oracle", quick.x[i], oracle.AtVec(i), tol)
		near(t, "variance", quick.known.cov.At(i, i), thorough.known.cov.At(i, i), 1e-8*quick.known.cov.At(i, i))
	}
}

// Mirror the shop left to right: travels and slopes along x change sign.
func TestSurveyMirror(t *testing.T) {
	var mirrored []Observation
	for _, observation := range append(append(shopSweeps(), shopRuns()...), shopLevel()) {
		switch o := observation.(type) {
		case ObservedSweep:
			o.X = -o.X
			o.Readings = append([]SweepReading(nil), o.Readings...)
			for i := range o.Readings {
				o.Readings[i].Azimuth = 180*Degree - o.Readings[i].Azimuth
			}
			mirrored = append(mirrored, o)
		case ObservedRun:
			o.Readings = append([]TravelReading(nil), o.Readings...)
			for i := range o.Readings {
				o.Readings[i].X = -o.Readings[i].X
			}
			mirrored = append(mirrored, o)
		case ObservedLevel:
			o.Readings = append([]LevelReading(nil), o.Readings...)
			for i := range o.Readings {
				o.Readings[i].X = -o.Readings[i].X
				if o.Readings[i].Axis == AlongX {
					o.Readings[i].Reversed = !o.Readings[i].Reversed
				}
			}
			mirrored = append(mirrored, o)
		}
	}
	a, err := Survey{Observations: append(append(shopSweeps(), shopRuns()...), shopLevel())}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := Survey{Observations: mirrored}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	same := func(f, g Feature, sign float64) {
		t.Helper()
		e, err := a.Predict(f)
		if err != nil {
			t.Fatal(err)
		}
		m, err := b.Predict(g)
		if err != nil {
			t.Fatal(err)
		}
		near(t, f.Name, m.Value, sign*e.Value, 1e-6*e.U)
		near(t, "u of "+f.Name, m.U, e.U, 1e-6*e.U)
	}
	for _, x := range []unit.Length{-0.3, -0.1, 0.05, 0.24} {
		same(TableHeight(shopEpoch, x), TableHeight(shopEpoch, -x), 1)
		same(TableSlope(shopEpoch, AlongX, x), TableSlope(shopEpoch, AlongX, -x), -1)
		same(TableSlope(shopEpoch, AlongY, x), TableSlope(shopEpoch, AlongY, -x), 1)
		same(SpindleSquareness("left", shopEpoch, AlongX, x), SpindleSquareness("left", shopEpoch, AlongX, -x), -1)
	}
}

// Turning the head by a known amount changes the sweeps' tilt by it and the
// table not at all: readings superpose.
func TestSurveySuperposes(t *testing.T) {
	turned := make([]Observation, 0, 6)
	for _, observation := range shopSweeps() {
		o := observation.(ObservedSweep)
		o.Readings = append([]SweepReading(nil), o.Readings...)
		for i, r := range o.Readings {
			o.Readings[i].Reading -= (Gradient{X: 100 * Microradian, Y: -40 * Microradian}).Along(r.Azimuth).Rise(o.Radius)
		}
		turned = append(turned, o)
	}
	a, err := Survey{Observations: append(shopSweeps(), shopLevel())}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := Survey{Observations: append(turned, shopLevel())}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range a.Parameters {
		want := p.Value
		switch {
		case strings.HasPrefix(p.Name, "spindle tilt along x"):
			want += 100e-6
		case strings.HasPrefix(p.Name, "spindle tilt along y"):
			want -= 40e-6
		}
		near(t, p.Name, b.Parameters[i].Value, want, 1e-7*p.U)
	}
}

func TestSurveyPriorIsAReading(t *testing.T) {
	s := Survey{Observations: shopSweeps(), Priors: []Prior{
		{Name: "left last year", Feature: SpindleSquareness("left", shopEpoch, AlongX, 0), Value: 171e-6, ValueU: 1e-6}}}
	a, err := s.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	shown := 0
	for _, r := range a.Readings {
		if r.Prior && strings.HasPrefix(r.Observation, "prior knowledge left last year") {
			shown++
			if r.Value != 171e-6 {
				t.Errorf("prior shown with value %g", r.Value)
			}
		}
	}
	if shown != 1 {
		t.Errorf("the prior is shown %d times, want once", shown)
	}
	// The prior is wrong by 180 um/m: either it or a sweep must be suspected.
	if suspects := a.Suspects(); len(suspects) == 0 || !a.Readings[suspects[0].Reading].Prior {
		t.Errorf("a prior 180 um/m off is not the first suspect: %+v", suspects)
	}
}

// A table that truly rests on the two ends of its bearing obeys the contact
// priors; with them the height curve is known better.
func TestContactPriors(t *testing.T) {
	travels := []unit.Length{-0.36, -0.3, -0.24, -0.18, -0.12, -0.06, 0}
	var constant float64
	for i, x := range travels {
		h1, s1, _, _, _ := shopWays(x)
		h2, s2, _, _, _ := shopWays(x + 0.36)
		c := float64(h1) - 0.18*s1 - float64(h2) - 0.18*s2
		if i == 0 {
			constant = c
		}
		near(t, "constant of the contact", c, constant, 1e-15)
	}
	s := shopSurvey()
	without, err := s.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	s.Priors = ContactPriors(shopEpoch, 0.360, travels, 1e-6)
	with, err := s.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	before := known(t, without, PartBow(shopEpoch, 0, 0.6), 13e-6)
	after := known(t, with, PartBow(shopEpoch, 0, 0.6), 13e-6)
	if !(after.U < before.U) {
		t.Errorf("contact leaves u = %g, was %g", after.U, before.U)
	}
}

func TestSurveyMachine(t *testing.T) {
	a, err := shopSurvey().Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	m, missing := a.Machine(shopEpoch, "left")
	if len(missing) != 0 {
		t.Errorf("unknown parts %v of a machine wholly surveyed", missing)
	}
	// The machine drills where the features say: exact chain against first
	// order, 5e-9 m.
	for _, at := range []Position{{X: 0.2, Y: -0.05, Z: 0.1, Quill: 0.06}, {X: -0.27, Y: 0.08}} {
		hole, err := m.ToolInWork(at)
		if err != nil {
			t.Fatal(err)
		}
		d := hole.Minus(at.AtTool())
		for i, f := range ToolDeviation("left", shopEpoch, at) {
			e, err := a.Predict(f)
			if err != nil || !e.Determined {
				t.Fatalf("%s: %v %s", f.Name, err, e.Why)
			}
			near(t, f.Name, float64([]unit.Length{d.X, d.Y, d.Z}[i]), e.Value, 5e-9)
		}
	}
	// And the machine's sweep shows what the survey predicts.
	o := ObservedSweep{Setup: Setup{"s", shopEpoch, "left"}, X: 0.22, Radius: 0.1, Readings: evenRound(4), ReadingU: 1e-6}
	one, err := m.SweepHeight(Position{X: 0.22}, 0.1, 0)
	if err != nil {
		t.Fatal(err)
	}
	other, err := m.SweepHeight(Position{X: 0.22}, 0.1, 180*Degree)
	if err != nil {
		t.Fatal(err)
	}
	e, err := a.Predict(ReadingChange(o, 1, 3))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sweep across", float64(one-other), e.Value, 1e-9)

	bare, err := Survey{Observations: shopSweeps()[:1]}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if _, missing := bare.Machine(shopEpoch, "found"); len(missing) < 5 {
		t.Errorf("one sweep leaves only %v unknown", missing)
	}
}
