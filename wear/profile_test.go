package wear

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

func TestProfileFromStepsOfALevel(t *testing.T) {
	// Constructed: base 250 mm, divisions of 20 um/m; heights by hand.
	want := []float64{0, 5, 7.5, 7.5, 5, 7.5, 2.5, -5, -7.5}
	var walk []Step
	for _, reading := range []float64{1, 0.5, 0, -0.5, 0.5, -1, -1.5, -0.5} {
		walk = append(walk, Step{Base: 250 * mm, Slope: Slope(reading) * 20 * MicrometrePerMetre, U: 2 * MicrometrePerMetre})
	}
	profile, err := ProfileFromSteps(0, walk, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, h := range want {
		if got := float64(profile.Points[i].Height / um); math.Abs(got-h) > 1e-9 {
			t.Errorf("height %d = %g um, want %g", i, got, h)
		}
		// Independent steps of 0.5 um each: the variance grows by one a step,
		// and two heights share the steps below the lower of them.
		if got := float64(profile.U(i) / um); math.Abs(got-0.5*math.Sqrt(float64(i))) > 1e-9 {
			t.Errorf("uncertainty %d = %g um, want %g", i, got, 0.5*math.Sqrt(float64(i)))
		}
		for j := range want {
			if got := profile.Covariance.At(i, j) * 1e12; math.Abs(got-0.25*float64(min(i, j))) > 1e-9 {
				t.Errorf("covariance %d, %d = %g um^2, want %g", i, j, got, 0.25*float64(min(i, j)))
			}
		}
	}
}

func TestProfileLessAReference(t *testing.T) {
	walk := make([]Step, 6)
	for i := range walk {
		walk[i] = Step{Base: unit.Length(100+30*i) * mm, Slope: Slope(40-20*i) * MicrometrePerMetre, U: 3 * MicrometrePerMetre}
	}
	profile, err := ProfileFromSteps(0, walk, 0)
	if err != nil {
		t.Fatal(err)
	}
	ends, _, err := profile.Less(EndPoints)
	if err != nil {
		t.Fatal(err)
	}
	last := len(walk)
	for _, i := range []int{0, last} {
		if math.Abs(float64(ends.Points[i].Height)) > 1e-20 || ends.U(i) > 1e-15 {
			t.Errorf("end %d: height %g, uncertainty %g; both are zero by choice of the line", i, float64(ends.Points[i].Height), float64(ends.U(i)))
		}
	}
	// A bridge: with equal variances v a metre the height at distance a from
	// one end and b from the other has the variance v a b/(a+b); here the
	// variance of a step is (3 um/m)^2 base^2.
	var a, b float64
	for i, step := range walk {
		square := 9e-12 * float64(step.Base*step.Base)
		if i < 3 {
			a += square
		} else {
			b += square
		}
	}
	x := float64(profile.Points[3].Position / profile.Points[last].Position)
	want := math.Sqrt(a*(1-x)*(1-x) + b*x*x)
	if got := float64(ends.U(3)); math.Abs(got-want) > 1e-15 {
		t.Errorf("uncertainty in the middle = %g, want %g", got, want)
	}
	for _, reference := range []Reference{EndPoints, LeastSquares, MinimumZone} {
		tilted := profile
		tilted.Points = append([]Point(nil), profile.Points...)
		for i := range tilted.Points {
			tilted.Points[i].Height += 5*um + Slope(70e-6).Rise(tilted.Points[i].Position)
		}
		one, _, err1 := profile.Less(reference)
		two, _, err2 := tilted.Less(reference)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for i := range one.Points {
			if math.Abs(float64(one.Points[i].Height-two.Points[i].Height)) > 1e-18 {
				t.Errorf("%v: a line added changed height %d", reference, i)
			}
		}
	}
}

// TestCovarianceOfEachReference draws slopes many times and compares the
// scatter of what comes out with the covariance that was carried through.
func TestCovarianceOfEachReference(t *testing.T) {
	slopes := leveled(t, level2025, true).SlopePoints()
	profile, err := ProfileFromSlopes(slopes, ProfileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	random := newNormal(21)
	const draws = 4000
	for _, reference := range []Reference{EndPoints, LeastSquares, MinimumZone} {
		less, _, err := profile.Less(reference)
		if err != nil {
			t.Fatal(err)
		}
		s, err := profile.Straightness(reference)
		if err != nil {
			t.Fatal(err)
		}
		n := len(slopes)
		sum, squares := make([]float64, n), make([]float64, n)
		var value, valueSquares float64
		for range draws {
			drawn := append([]SlopePoint(nil), slopes...)
			for i := range drawn {
				drawn[i].Slope += Slope(random()) * drawn[i].U / 10 // small, so that contacts stay
			}
			p, err := ProfileFromSlopes(drawn, ProfileOptions{})
			if err != nil {
				t.Fatal(err)
			}
			l, _, err := p.Less(reference)
			if err != nil {
				t.Fatal(err)
			}
			for i := range l.Points {
				d := float64(l.Points[i].Height-less.Points[i].Height) * 10
				sum[i], squares[i] = sum[i]+d, squares[i]+d*d
			}
			q, err := p.Straightness(reference)
			if err != nil {
				t.Fatal(err)
			}
			d := float64(q.Value-s.Value) * 10
			value, valueSquares = value+d, valueSquares+d*d
		}
		for i := range sum {
			sd := math.Sqrt(squares[i]/draws - sum[i]*sum[i]/draws/draws)
			// The scatter of 4000 draws is known to 1.1 %.
			if math.Abs(sd-float64(less.U(i))) > 0.06*float64(less.U(i))+1e-12 {
				t.Errorf("%v: height %d scatters by %.3g, carried through %.3g", reference, i, sd, float64(less.U(i)))
			}
		}
		if sd := math.Sqrt(valueSquares/draws - value*value/draws/draws); math.Abs(sd/float64(s.U)-1) > 0.06 {
			t.Errorf("%v: straightness scatters by %.3g, first order says %.3g", reference, sd, float64(s.U))
		}
	}
}

// TestRulesOnKnownSlopes holds both rules against slopes whose integral is
// known: straight slopes for both, a parabola for the smooth one.
func TestRulesOnKnownSlopes(t *testing.T) {
	x := []float64{-0.4, -0.25, -0.1, 0.02, 0.2, 0.45}
	tests := []struct {
		name        string
		rule        Rule
		slope, rise func(float64) float64 // rise is the integral of slope
	}{
		{"straight, trapezoid", Trapezoid, func(x float64) float64 { return 3 - 2*x }, func(x float64) float64 { return 3*x - x*x }},
		{"straight, smooth", Smooth, func(x float64) float64 { return 3 - 2*x }, func(x float64) float64 { return 3*x - x*x }},
		{"parabola, smooth", Smooth, func(x float64) float64 { return x * x }, func(x float64) float64 { return x * x * x / 3 }},
	}
	at := []unit.Length{-0.4, -0.33, -0.25, 0, 0.1, 0.3, 0.449, 0.45}
	for _, test := range tests {
		slopes := make([]SlopePoint, len(x))
		for i := range x {
			slopes[i] = SlopePoint{Position: unit.Length(x[i]), Slope: Slope(test.slope(x[i]))}
		}
		profile, err := ProfileFromSlopes(slopes, ProfileOptions{Rule: test.rule, At: at})
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range profile.Points {
			want := test.rise(float64(at[i])) - test.rise(-0.4)
			if math.Abs(float64(p.Height)-want) > 1e-12 {
				t.Errorf("%s: height at %g = %.12g, want %.12g", test.name, float64(at[i]), float64(p.Height), want)
			}
		}
	}
}

func TestProfileKeepsTheOrderOut(t *testing.T) {
	slopes := leveled(t, level2025, true).SlopePoints() // u falls from 360 to -360 mm
	backward := make([]SlopePoint, len(slopes))
	for i := range slopes {
		backward[i] = slopes[len(slopes)-1-i]
	}
	one, err1 := ProfileFromSlopes(slopes, ProfileOptions{})
	two, err2 := ProfileFromSlopes(backward, ProfileOptions{})
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	if !mat.Equal(one.Covariance, two.Covariance) {
		t.Error("the covariance depends on the order of the stations")
	}
	for i := range one.Points {
		if one.Points[i] != two.Points[i] {
			t.Errorf("point %d = %v and %v", i, one.Points[i], two.Points[i])
		}
	}
	if slopes[0].Position != 360*mm {
		t.Error("the caller's stations were sorted")
	}
}

func TestScaleIsCommonToAllHeights(t *testing.T) {
	walk := []Step{{Base: 1, Slope: 1e-4}, {Base: 1, Slope: 1e-4}, {Base: 1, Slope: -2e-4}}
	profile, err := ProfileFromSteps(0, walk, 0.02)
	if err != nil {
		t.Fatal(err)
	}
	// Heights 0, 100, 200, 0 um, all wrong together by 2 %.
	if got := profile.Covariance.At(1, 2); math.Abs(got-0.02*0.02*1e-4*2e-4) > 1e-20 {
		t.Errorf("covariance = %g, want %g", got, 0.02*0.02*1e-4*2e-4)
	}
	s, err := profile.Straightness(EndPoints)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(s.U/s.Value)-0.02) > 1e-12 {
		t.Errorf("straightness %g with uncertainty %g, want 2 %%", float64(s.Value), float64(s.U))
	}
}

func TestStraightnessTrials(t *testing.T) {
	profile, err := ProfileFromSlopes(leveled(t, level2025, true).SlopePoints(), ProfileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	first, err := profile.Straightness(LeastSquares)
	if err != nil {
		t.Fatal(err)
	}
	trials, err := profile.StraightnessTrials(LeastSquares, 20000, 1)
	if err != nil {
		t.Fatal(err)
	}
	// A clear hollow: the first order holds within a fifth.
	if ratio := float64(trials.U / first.U); ratio < 0.8 || ratio > 1.2 {
		t.Errorf("trials scatter by %g um, first order %g", float64(trials.U/um), float64(first.U/um))
	}
	if trials.Low > first.Value || trials.High < first.Value {
		t.Errorf("the value %g lies outside its interval %g to %g", float64(first.Value), float64(trials.Low), float64(trials.High))
	}
	again, err := profile.StraightnessTrials(LeastSquares, 20000, 1)
	if err != nil || again != trials {
		t.Errorf("equal seeds gave %v and %v, %v", trials, again, err)
	}
	// A straight way measured with errors: its straightness is all bias.
	flat := make([]Step, 8)
	for i := range flat {
		flat[i] = Step{Base: 100 * mm, U: 10 * MicrometrePerMetre}
	}
	straight, err := ProfileFromSteps(0, flat, 0)
	if err != nil {
		t.Fatal(err)
	}
	noise, err := straight.StraightnessTrials(MinimumZone, 2000, 2)
	if err != nil {
		t.Fatal(err)
	}
	if noise.Bias != noise.Mean || noise.Mean < noise.U {
		t.Errorf("a straight way gives mean %g, bias %g, scatter %g", float64(noise.Mean), float64(noise.Bias), float64(noise.U))
	}
	for _, trials := range []int{0, 99, 1_000_001} {
		if _, err := straight.StraightnessTrials(MinimumZone, trials, 1); err == nil {
			t.Errorf("%d trials gave no error", trials)
		}
	}
}

func TestProfileErrors(t *testing.T) {
	good := leveled(t, level2025, true).SlopePoints()
	with := func(change func(p *SlopePoint)) []SlopePoint {
		bad := append([]SlopePoint(nil), good...)
		change(&bad[2])
		return bad
	}
	tests := []struct {
		name    string
		slopes  []SlopePoint
		options ProfileOptions
		want    string
	}{
		{"one station", good[:1], ProfileOptions{}, "from 2 to 1000 stations, got 1"},
		{"twice the same place", with(func(p *SlopePoint) { p.Position = 240 * mm }), ProfileOptions{}, "two stations stand at 240 mm"},
		{"place not a number", with(func(p *SlopePoint) { p.Position = unitNaN }), ProfileOptions{}, "station 3: position"},
		{"slope not a number", with(func(p *SlopePoint) { p.Slope = Slope(math.NaN()) }), ProfileOptions{}, "station 3: slope NaN"},
		{"negative uncertainty", with(func(p *SlopePoint) { p.U = -1 }), ProfileOptions{}, "station 3: standard uncertainty"},
		{"outside the run", good, ProfileOptions{At: []unit.Length{0, 400 * mm}}, "place 2 at 400 mm is outside the run, -360 to 360 mm"},
		{"no places", good, ProfileOptions{At: []unit.Length{}}, "at 0 places"},
		{"no such rule", good, ProfileOptions{Rule: 7}, "no rule of number 7"},
		{"scale", good, ProfileOptions{ScaleU: 1.5}, "relative uncertainty of the division 1.5"},
		{"too large", with(func(p *SlopePoint) { p.Slope = 1e300; p.U = 1e300 }), ProfileOptions{}, "too large"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := ProfileFromSlopes(test.slopes, test.options)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
	for name, walk := range map[string][]Step{"none": nil, "no base": {{Slope: 1e-6}}, "backward": {{Base: -1}}, "slope": {{Base: 1, Slope: Slope(math.Inf(1))}}} {
		if _, err := ProfileFromSteps(0, walk, 0); err == nil {
			t.Errorf("steps: %s: no error", name)
		}
	}
	var none Profile
	if _, _, err := none.Less(EndPoints); err == nil {
		t.Error("no error from an empty profile")
	}
	if none.U(3) != 0 {
		t.Error("an empty profile has an uncertainty")
	}
	if _, err := (Profile{Points: []Point{{0, 0}, {1, 0}}, Covariance: mat.NewSymDense(3, nil)}).Straightness(EndPoints); err == nil {
		t.Error("no error from a covariance that does not fit")
	}
}

func FuzzProfile(f *testing.F) {
	f.Add(-0.36, 0.0, 0.36, 1e-4, -1e-4, 2e-5, 2e-6)
	f.Add(0.0, 1e-300, 2e-300, 1.0, 1.0, 1.0, 1.0)
	f.Add(-1e308, 0.0, 1e308, 1e308, 1.0, -1e308, 1e308)
	f.Fuzz(func(t *testing.T, x0, x1, x2, s0, s1, s2, u float64) {
		slopes := []SlopePoint{{unit.Length(x0), Slope(s0), Slope(u), 0}, {unit.Length(x1), Slope(s1), Slope(u), 3}, {unit.Length(x2), Slope(s2), Slope(u), 0}}
		profile, err := ProfileFromSlopes(slopes, ProfileOptions{})
		if err != nil {
			return
		}
		for _, reference := range []Reference{MinimumZone, LeastSquares, EndPoints} {
			s, err := profile.Straightness(reference)
			if err == nil && !finite(float64(s.Value)) {
				t.Errorf("straightness %v of %v", s, slopes)
			}
		}
	})
}

func BenchmarkProfileLess(b *testing.B) {
	random := rand.New(rand.NewPCG(9, 9))
	walk := make([]Step, 100)
	for i := range walk {
		walk[i] = Step{Base: 100 * mm, Slope: Slope(random.NormFloat64() * 1e-5), U: 2e-6}
	}
	profile, err := ProfileFromSteps(0, walk, 0)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, _, err := profile.Less(LeastSquares); err != nil {
			b.Fatal(err)
		}
	}
}
