package wear

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

const testYear = 365.25 * 86400 * unit.Second

// sixSurveys is a constructed case, worked independently with scipy.
func sixSurveys() []MeasuredDepth {
	var r []MeasuredDepth
	for i, t := range []float64{0, 1.5, 3, 4, 6, 8} {
		r = append(r, MeasuredDepth{Clock: unit.Time(t) * testYear, Depth: unit.Length([]float64{2.0, 6.1, 8.7, 12.2, 16.1, 22.4}[i]) * um})
	}
	return r
}

func TestForecastLine(t *testing.T) {
	f, err := ForecastLine(sixSurveys())
	if err != nil {
		t.Fatal(err)
	}
	const perYear = float64(MicrometrePerYear)
	near(t, "rate", float64(f.Rate)/perYear, 2.4892128, 1e-7)
	near(t, "rate's u", float64(f.RateU)/perYear, 0.0987904, 1e-7)
	near(t, "scatter", float64(f.Scatter/um), 0.6468696, 1e-7)
	depth, u := f.At(10 * testYear)
	near(t, "depth", float64(depth/um), 26.80758, 1e-5)
	near(t, "half width of the mean", 2.776445*float64(u/um), 1.864506, 1e-5)
	low, high := f.Interval(10*testYear, 0.95, f.Scatter)
	near(t, "low", float64(low/um), 24.21876, 1e-5)
	near(t, "high", float64(high/um), 29.39640, 1e-5)
	for _, test := range []struct {
		reading   unit.Length
		low, high float64
	}{{0, 10.48414, 12.26603}, {f.Scatter, 10.22584, 12.52433}} {
		c, err := f.Reach(30*um, 0.95, test.reading)
		if err != nil {
			t.Fatal(err)
		}
		if c.Kind != Bounded {
			t.Fatalf("crossing is %v", c.Kind)
		}
		near(t, "at", float64(c.At/testYear), 11.28250, 1e-5)
		near(t, "low", float64(c.Low/testYear), test.low, 1e-5)
		near(t, "high", float64(c.High/testYear), test.high, 1e-5)
	}
}

func TestTwoSurveysGiveAWideAnswer(t *testing.T) {
	// Two surveys 6 years apart, each sure to 3 um: a change of 12 is 2.8 of its
	// uncertainties, so there is a date; a change of 5 is not, so there is none.
	survey := func(change float64) Forecast {
		f, err := ForecastLine([]MeasuredDepth{{0, 10 * um, 3 * um}, {6 * testYear, unit.Length(10+change) * um, 3 * um}})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	sure, err := survey(12).Reach(40*um, 0.95, 0)
	if err != nil {
		t.Fatal(err)
	}
	if sure.Kind != Bounded || sure.High-sure.Low < 8*testYear {
		t.Errorf("change of 12: %v from %g to %g yr", sure.Kind, float64(sure.Low/testYear), float64(sure.High/testYear))
	}
	open, err := survey(5).Reach(40*um, 0.95, 0)
	if err != nil {
		t.Fatal(err)
	}
	if open.Kind != NotBefore || !math.IsInf(float64(open.High), 1) || !(open.Low > 6*testYear) {
		t.Errorf("change of 5: %v from %g to %g yr", open.Kind, float64(open.Low/testYear), float64(open.High/testYear))
	}
	// At the bound the line's interval holds the limit exactly.
	if _, high := survey(5).Interval(open.Low, 0.95, 0); math.Abs(float64(high-40*um)) > 1e-12 {
		t.Errorf("at the bound the interval ends at %g um", float64(high/um))
	}
	if c, err := survey(0).Reach(40*um, 0.95, 0); err != nil || c.Kind != NotBefore || !math.IsInf(float64(c.At), 1) {
		t.Errorf("change of 0: %+v, %v", c, err)
	}
	if c, err := survey(-12).Reach(40*um, 0.95, 0); err != nil || c.Kind != Never {
		t.Errorf("change of -12: %+v, %v", c, err)
	}
	if c, err := survey(5).Reach(12*um, 0.95, 0); err != nil || c.Kind != Anytime {
		t.Errorf("limit among the readings: %+v, %v", c, err)
	}
	if c, err := survey(5).Reach(-40*um, 0.95, 0); err != nil || c.Kind != NotAfter {
		t.Errorf("limit passed: %+v, %v", c, err)
	}
}

func TestNoWearNeverReaches(t *testing.T) {
	flat := []MeasuredDepth{{0, 10 * um, 0}, {1 * testYear, 10 * um, 0}, {2 * testYear, 10 * um, 0}}
	f, err := ForecastLine(flat)
	if err != nil {
		t.Fatal(err)
	}
	if c, err := f.Reach(40*um, 0.95, 0); err != nil || c.Kind != Never {
		t.Errorf("no wear: %+v, %v", c, err)
	}
	if p := f.ChanceAbove(40*um, 100*testYear); p != 0 {
		t.Errorf("chance %g", p)
	}
}

func TestForecastLaws(t *testing.T) {
	// Another unit of time or of depth changes nothing but the units.
	for _, scale := range []float64{1e-3, 7, 1e4} {
		var r []MeasuredDepth
		for _, s := range sixSurveys() {
			r = append(r, MeasuredDepth{s.Clock * unit.Time(scale), s.Depth * unit.Length(scale), 0})
		}
		f, err := ForecastLine(r)
		if err != nil {
			t.Fatal(err)
		}
		c, err := f.Reach(30*um*unit.Length(scale), 0.95, 0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "low", float64(c.Low/testYear)/scale, 10.48414, 1e-5)
	}
	// Twice the stated uncertainty gives twice the interval.
	one, two := sixSurveys(), sixSurveys()
	for i := range one {
		one[i].U, two[i].U = 1*um, 2*um
	}
	f, _ := ForecastLine(one)
	g, _ := ForecastLine(two)
	near(t, "widening", float64(g.RateU/f.RateU), 2, 1e-12)
	if !(f.Agreement > 0.3) || !(g.Agreement > f.Agreement) {
		t.Errorf("agreement %g and %g", f.Agreement, g.Agreement)
	}
}

// slidTest is unit 101 of the sliding-wear test of a metal alloy at 10 g in
// W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability Data, 1998;
// data as distributed with the package SMRD.data (read), fits our own.
func slidTest() []MeasuredDepth {
	var r []MeasuredDepth
	for i, cycles := range []float64{2, 5, 10, 20, 50, 100, 200, 500} {
		r = append(r, MeasuredDepth{Clock: unit.Time(cycles), Depth: unit.Length([]float64{3.168, 4.063, 4.453, 4.744, 5.838, 6.786, 7.737, 9.593}[i]) * um})
	}
	return r
}

func TestRunningInIsNotAStraightLine(t *testing.T) {
	p, err := FitPower(slidTest())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "exponent", p.Exponent, 0.1921649, 1e-7)
	near(t, "exponent's u", p.ExponentU, 0.0074175, 1e-7)
	near(t, "scatter", p.Scatter, 0.0371750, 1e-7)
	near(t, "R2", p.RSquared, 0.9911396, 1e-7)
	near(t, "at 1000", float64(p.At(1000)/um), 10.619, 1e-3)
	low, high := p.Interval(1000, 0.95)
	near(t, "low at 1000", float64(low/um), 9.465, 1e-3)
	near(t, "high at 1000", float64(high/um), 11.914, 1e-3)
	f, err := ForecastLine(slidTest())
	if err != nil {
		t.Fatal(err)
	}
	depth, _ := f.At(1000)
	near(t, "line at 1000", float64(depth/um), 15.953, 1e-3)
	low, high = f.Interval(1000, 0.95, f.Scatter)
	near(t, "line's low", float64(low/um), 10.825, 1e-3)
	near(t, "line's high", float64(high/um), 21.081, 1e-3)
}

func TestSaturatingHoldsTheLine(t *testing.T) {
	// Readings on a straight line: the best curve is the line, and its interval
	// holds that of the line, being wider for what it leaves open.
	var r []MeasuredDepth
	for i := range 8 {
		r = append(r, MeasuredDepth{unit.Time(i) * testYear, unit.Length(3*i) * um, 1 * um})
	}
	s, err := ForecastSaturating(r)
	if err != nil {
		t.Fatal(err)
	}
	if !math.IsInf(float64(s.Settling), 1) {
		t.Errorf("settling time of a straight line: %g yr", float64(s.Settling/testYear))
	}
	f, _ := ForecastLine(r)
	for _, at := range []unit.Time{3, 8, 12} {
		low, high := f.Interval(at*testYear, 0.95, 0)
		lowest, highest := s.Interval(at*testYear, 0.95, 0)
		if lowest > low+1e-12 || highest < high-1e-12 {
			t.Errorf("at %g yr: %g to %g um does not hold %g to %g", float64(at), float64(lowest/um), float64(highest/um), float64(low/um), float64(high/um))
		}
	}
}

func TestSaturatingFindsTheLevel(t *testing.T) {
	var r []MeasuredDepth
	for i := range 13 {
		y := 5 + 30*(1-math.Exp(-float64(i)/3))
		r = append(r, MeasuredDepth{unit.Time(i) * testYear, unit.Length(y) * um, 0.5 * um})
	}
	s, err := ForecastSaturating(r)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "level", float64(s.Final/um), 35, 0.5)
	near(t, "settling", float64(s.Settling/testYear), 3, 0.2)
	c, err := s.Reach(45*um, 0.95, 12*testYear, 100*testYear)
	if err != nil || c.Kind != Never {
		t.Errorf("a limit above the level: %+v, %v", c, err)
	}
	c, err = s.Reach(25*um, 0.95, 0, 12*testYear)
	if err != nil || c.Kind != Bounded {
		t.Fatalf("a limit below the level: %+v, %v", c, err)
	}
	near(t, "reached", float64(c.At/testYear), -3*math.Log(1-20.0/30), 0.1)
	if c, err = s.Reach(10*um, 0.95, 5*testYear, 12*testYear); err != nil || c.Kind != NotAfter {
		t.Errorf("a limit passed: %+v, %v", c, err)
	}
}

func TestReachBounded(t *testing.T) {
	// The constructed gauge with a floor of 5 um; the line by maximum likelihood
	// is -1.488251 + 2.222238 t, so 30 um comes at 14.17 years.
	var r []BoundedDepth
	for i, w := range []float64{0, 0, 0, 8.1, 9.4, 12.2, 13.6, 16.4} {
		b := BoundedDepth{Clock: unit.Time(i+1) * testYear, Low: unit.Length(w) * um, High: unit.Length(w) * um}
		if w == 0 {
			b.Low, b.High = unit.Length(math.Inf(-1)), 5*um
		}
		r = append(r, b)
	}
	c, err := ReachBounded(r, 30*um, 0.95)
	if err != nil || c.Kind != Bounded {
		t.Fatalf("%+v, %v", c, err)
	}
	near(t, "at", float64(c.At/testYear), (30+1.488251)/2.222238, 1e-4)
	if !(c.Low < c.At && c.At < c.High) || c.High-c.Low > 4*testYear {
		t.Errorf("from %g to %g yr", float64(c.Low/testYear), float64(c.High/testYear))
	}
	// Readings that hardly grow leave the date open.
	for i := range r {
		r[i] = BoundedDepth{r[i].Clock, unit.Length(6+math.Mod(float64(i*7), 5)) * um, unit.Length(6+math.Mod(float64(i*7), 5)) * um}
	}
	if c, err = ReachBounded(r, 30*um, 0.95); err != nil || c.Kind != NotBefore {
		t.Errorf("no growth: %+v, %v", c, err)
	}
	if _, err = ReachBounded(r, 30*um, 1); err == nil {
		t.Error("a chance of 1 was accepted")
	}
}

func TestForecastRefuses(t *testing.T) {
	good := sixSurveys()
	mixed := sixSurveys()
	mixed[2].U = 1 * um
	_, few := ForecastLine(good[:2])
	_, some := ForecastLine(mixed)
	_, clock := ForecastLine([]MeasuredDepth{{1, 1, 1}, {1, 2, 1}})
	_, nan := ForecastLine([]MeasuredDepth{{1, 1, 1}, {2, unit.Length(math.NaN()), 1}})
	_, curve := ForecastSaturating(good[:3])
	_, power := FitPower(good)
	f, _ := ForecastLine(good)
	_, chance := f.Reach(1, 1.5, 0)
	_, zero := Forecast{}.Reach(1, 0.5, 0)
	for want, err := range map[string]error{"needs 3 readings": few, "reading 3": some, "one clock": clock, "reading 2": nan, "needs 4": curve,
		"above zero for a power": power, "chance 1.5": chance, "not fitted": zero} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}

func TestForecastCoverage(t *testing.T) {
	draw := func(normal func() float64, n int, rate, u float64, state bool) []MeasuredDepth {
		r := make([]MeasuredDepth, n)
		for i := range r {
			r[i] = MeasuredDepth{unit.Time(i) * testYear, unit.Length(10+rate*float64(i)+u*normal()) * um, 0}
			if state {
				r[i].U = unit.Length(u) * um
			}
		}
		return r
	}
	for _, n := range []int{2, 3, 4, 8} {
		for _, state := range []bool{true, false} {
			if !state && n < 3 {
				continue
			}
			for _, rate := range []float64{0.2, 2.5} {
				what := fmt.Sprintf("%d surveys, uncertainty stated %v, %g um/yr", n, state, rate)
				end := unit.Time(n+4) * testYear
				truth := unit.Length(10+rate*float64(n+4)) * um
				coverage(t, "depth to come, "+what, uint64(n), surveys(), func(normal func() float64) bool {
					f, err := ForecastLine(draw(normal, n, rate, 2, state))
					if err != nil {
						t.Fatal(err)
					}
					low, high := f.Interval(end, 0.95, 0)
					return low <= truth && truth <= high
				})
				coverage(t, "reading to come, "+what, uint64(n), surveys(), func(normal func() float64) bool {
					f, err := ForecastLine(draw(normal, n, rate, 2, state))
					if err != nil {
						t.Fatal(err)
					}
					reading := f.Scatter
					if state {
						reading = 2 * um
					}
					low, high := f.Interval(end, 0.95, reading)
					next := truth + unit.Length(2*normal())*um
					return low <= next && next <= high
				})
				coverage(t, "date of the limit, "+what, uint64(n), surveys(), func(normal func() float64) bool {
					f, err := ForecastLine(draw(normal, n, rate, 2, state))
					if err != nil {
						t.Fatal(err)
					}
					c, err := f.Reach(truth, 0.95, 0)
					if err != nil {
						t.Fatal(err)
					}
					return c.Kind != Never && c.Low <= end && (c.Kind == Anytime || end <= c.High)
				})
			}
		}
	}
}

func TestSaturatingCoverage(t *testing.T) {
	for _, settling := range []float64{3, 8, math.Inf(1)} {
		curve := func(x float64) float64 {
			if math.IsInf(settling, 1) {
				return 3 * x
			}
			return 30 * -math.Expm1(-x/settling)
		}
		for _, state := range []bool{true, false} {
			coverage(t, fmt.Sprintf("curve settling in %g yr, uncertainty stated %v", settling, state), 5, surveys()/2, func(normal func() float64) bool {
				r := make([]MeasuredDepth, 10)
				for i := range r {
					r[i] = MeasuredDepth{unit.Time(i) * testYear, unit.Length(curve(float64(i))+normal()) * um, 0}
					if state {
						r[i].U = 1 * um
					}
				}
				s, err := ForecastSaturating(r)
				if err != nil {
					t.Fatal(err)
				}
				low, high := s.Interval(14*testYear, 0.95, 0)
				return float64(low/um) <= curve(14) && curve(14) <= float64(high/um)
			})
		}
	}
}

func FuzzForecast(f *testing.F) {
	f.Add(0.0, 1.0, 2.0, 1e-6, 2e-6, 5e-6, 1e-6, 30e-6)
	f.Add(-1e9, 0.0, 1e9, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1e-300, 2e-300, 1e300, -1e300, 1e300, 0.0, 1e-300, 1e300)
	f.Fuzz(func(t *testing.T, a, b, c, x, y, z, u, limit float64) {
		r := []MeasuredDepth{{unit.Time(a), unit.Length(x), unit.Length(u)}, {unit.Time(b), unit.Length(y), unit.Length(u)}, {unit.Time(c), unit.Length(z), unit.Length(u)}}
		if line, err := ForecastLine(r); err == nil {
			if crossing, err := line.Reach(unit.Length(limit), 0.95, 0); err == nil && crossing.Kind == Bounded && crossing.Low > crossing.High {
				t.Errorf("bounds %g to %g", float64(crossing.Low), float64(crossing.High))
			}
		}
		if curve, err := ForecastSaturating(r); err == nil {
			curve.Interval(unit.Time(c), 0.95, 0)
		}
		if power, err := FitPower(r); err == nil {
			power.Interval(1, 0.95)
		}
	})
}
