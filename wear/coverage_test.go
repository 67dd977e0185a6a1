package wear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// surveys returns how often simulated surveys are drawn: enough to tell 93 to 97
// in 100 from what is not, and more when WEAR_LONG is set.
func surveys() int {
	switch {
	case os.Getenv("WEAR_LONG") != "":
		return 10_000
	case testing.Short():
		return 500
	}
	return 2000
}

// What WEAR_LONG measured, in 100 surveys that hold the truth; the number of draws
// behind each, in thousands:
//
//	depth and reading to come by the line      94.6 to 95.5  10
//	date of a limit by the line (Fieller)      94.2 to 95.5  10
//	curve that settles; its date               94.6 to 95.5; 94.9  5
//	reading on a power law                     95.0  10
//	rate with bounds; date of a limit          94.1 to 95.0  2.5; 93.5 to 94.9  1.25
//	rates before and after, their change       94.8 to 95.2  10
//	change beyond another way's                95.1  10
//	date of an unknown event                   93.2 to 94.6  1.25 (93.8 to 95.1 with
//	                                           the default's 400 draws a date)
//	wear from pockets                          94.1 to 95.9  7.5
//	wear of both ways from all readings        95.6  10.8 depths of 600 machines
//	change of a station; profile; floor        96.0; 94.6; 96.3  10
//	profile by level; twist                    95.5; 95.9  5
//	bow of a part                              95.8  5
//	factor from two surveys; ratio of two      95.7  1; 95.0 to 95.5  10
//	lost motion at a target                    94.9  10
//	three plates; three probes                 95.0; 95.1  10
//	flatness; heights of a grid                95.1  10; 94.7 to 95.1  5
//	share of parts that last, 80 parts         93.3  2

// coverage draws surveys and fails where fewer than 93 or more than 97 in 100
// hold the truth. Few draws scatter: three standard deviations of a share of 95
// are allowed where they are wider.
func coverage(t *testing.T, what string, seed uint64, count int, holds func(normal func() float64) bool) {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 11))
	held := 0
	for range count {
		if holds(random.NormFloat64) {
			held++
		}
	}
	share := 100 * float64(held) / float64(count)
	t.Logf("%s: %.1f in 100 of %d", what, share, count)
	if band := math.Max(2, 3*math.Sqrt(95*5/float64(count))); math.Abs(share-95) > band {
		t.Errorf("%s holds the truth in %.1f of 100 surveys, want %.1f to %.1f", what, share, 95-band, 95+band)
	}
}

// TestBoundedTrendCoverage draws wear that begins below what the gauge can show.
func TestBoundedTrendCoverage(t *testing.T) {
	const start, rate, floor = -1.0, 2.2, 5.0
	for _, test := range []struct {
		n       int
		scatter float64
	}{{8, 0.8}, {8, 2}, {5, 0.8}, {20, 2}} {
		draw := func(normal func() float64) []BoundedDepth {
			for {
				r, exact := make([]BoundedDepth, test.n), 0
				for i := range r {
					w := start + rate*float64(8*(i+1))/float64(test.n) + test.scatter*normal()
					r[i] = BoundedDepth{unit.Time(i+1) * testYear, unit.Length(w) * um, unit.Length(w) * um}
					if w < floor {
						r[i].Low, r[i].High = unit.Length(math.Inf(-1)), floor*um
					} else {
						exact++
					}
				}
				if exact >= 3 {
					return r
				}
			}
		}
		truth := rate * 8 / float64(test.n)
		coverage(t, "rate with bounds", uint64(test.n), surveys()/4, func(normal func() float64) bool {
			trend, err := FitBoundedTrend(draw(normal))
			if err != nil {
				t.Fatal(err)
			}
			return float64(trend.RateLow/MicrometrePerYear) <= truth && truth <= float64(trend.RateHigh/MicrometrePerYear)
		})
		end := unit.Time(float64(test.n) * 1.75)
		coverage(t, "date of a limit with bounds", uint64(test.n)+50, surveys()/8, func(normal func() float64) bool {
			c, err := ReachBounded(draw(normal), unit.Length(start+truth*float64(end))*um, 0.95)
			if err != nil {
				t.Fatal(err)
			}
			at := end * testYear
			return c.Low <= at && at <= c.High
		})
	}
}

// TestChangeCoverage draws two surveys of one way, a floor that settled, wear at
// some stations, and holds the floor, the stations' own change and the change of
// the profile against them.
func TestChangeCoverage(t *testing.T) {
	const n, u, floor = 9, 6e-6, 45e-6
	own := []float64{0, 0, 12e-6, 30e-6, 5e-6, -20e-6, -8e-6, 0, 0}
	draw := func(normal func() float64) (before, after []SlopePoint) {
		for i := range n {
			p := unit.Length(i) * 100 * mm
			s := 1e-4 * math.Sin(float64(i))
			before = append(before, SlopePoint{Position: p, Slope: Slope(s + u*normal()), U: u})
			after = append(after, SlopePoint{Position: p, Slope: Slope(s + floor + own[i] + u*normal()), U: u})
		}
		return before, after
	}
	options := ChangeOptions{Unworn: []unit.Length{0, 100 * mm, 700 * mm, 800 * mm}}
	compare := func(normal func() float64) Change {
		before, after := draw(normal)
		c, err := CompareSlopes(before, after, options)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	coverage(t, "own change of a station", 61, surveys(), func(normal func() float64) bool {
		s := compare(normal).Stations[3]
		return math.Abs(float64(s.Own)-own[3]) <= 1.96*float64(s.OwnU)
	})
	// The change of the profile, less its end-point line, under the same rule of
	// cumulating.
	var exact []SlopePoint
	for i := range n {
		exact = append(exact, SlopePoint{Position: unit.Length(i) * 100 * mm, Slope: Slope(own[i]), U: u})
	}
	profile := func(slopes []SlopePoint) Profile {
		p, err := ProfileFromSlopes(slopes, ProfileOptions{})
		if err != nil {
			t.Fatal(err)
		}
		less, _, err := p.Less(EndPoints)
		if err != nil {
			t.Fatal(err)
		}
		return less
	}
	truth := profile(exact)
	coverage(t, "change of the profile", 62, surveys(), func(normal func() float64) bool {
		difference, err := Difference(draw(normal))
		if err != nil {
			t.Fatal(err)
		}
		p := profile(difference)
		return math.Abs(float64(p.Points[4].Height-truth.Points[4].Height)) <= 1.96*float64(p.U(4))
	})
}

// TestPocketsCoverage counts how often the interval holds the wear, for pockets of
// every depth left, from all found to nearly all gone. The wear is set by the
// chance that a station has no pocket left: 4 in 100 is where the least is held,
// 60 in 100 where the 5 % lies on one side alone. With the 5 % halved there too,
// 98 in 100 were held. Measured with 4,000 draws each for 3, 5, 10, 20, 40 and 100
// pockets and chances of 0.1 to 95 in 100: 93.4 to 95.9 of 100 up to a chance of 6,
// then rising to 97 (5 pockets) and 98.2 (40) at 85 in 100, where a single find is
// all that can contradict. A station that is empty in 97 of 100 surveys is right in
// as many, whatever is done about the rest.
func TestPocketsCoverage(t *testing.T) {
	for _, newU := range []float64{0, 1.5} {
		for _, wear := range []float64{20, 43, 48, 49, 50.5, 54, 57} {
			coverage(t, fmt.Sprintf("wear of %g um from pockets, depth when new to %g um", wear, newU), uint64(2*wear), surveys()*3/4, func(normal func() float64) bool {
				s := PocketStation{Total: 5}
				fresh, sum := 52+newU*normal(), 0.0
				for range 5 {
					if d := fresh - wear + 6.2*normal(); d >= 3 {
						s.Found++
						sum += d
					}
				}
				if s.Found > 0 {
					s.Depth = unit.Length(sum/float64(s.Found)) * um
				}
				options := shopFlaking
				options.NewU = unit.Length(newU) * um
				w, err := ReadPockets([]PocketStation{s}, options)
				if err != nil {
					t.Fatal(err)
				}
				return w[0].Low <= unit.Length(wear)*um && unit.Length(wear)*um <= w[0].High
			})
		}
	}
}

func TestPowerCoverage(t *testing.T) {
	coverage(t, "reading on a power law", 71, surveys(), func(normal func() float64) bool {
		var r []MeasuredDepth
		for i := range 6 {
			clock := math.Pow(3, float64(i))
			r = append(r, MeasuredDepth{Clock: unit.Time(clock), Depth: unit.Length(3e-6 * math.Pow(clock, 0.2) * math.Exp(0.05*normal()))})
		}
		p, err := FitPower(r)
		if err != nil {
			t.Fatal(err)
		}
		low, high := p.Interval(2000, 0.95)
		next := unit.Length(3e-6 * math.Pow(2000, 0.2) * math.Exp(0.05*normal()))
		return low <= next && next <= high
	})
}

func TestLostMotionCoverage(t *testing.T) {
	coverage(t, "lost motion at a target", 72, surveys(), func(normal func() float64) bool {
		target := Target{}
		for range 5 {
			target.Up = append(target.Up, unit.Length(4+normal())*um)
			target.Down = append(target.Down, unit.Length(-36+normal())*um)
		}
		p, err := ReadPositioning([]Target{target})
		if err != nil {
			t.Fatal(err)
		}
		r := p.Targets[0]
		return math.Abs(float64(r.Lost-40*um)) <= coverageFactor(0.95, 8)*float64(r.LostU)
	})
}

// TestFactorCoverage draws two surveys of a way that wears by a known factor.
func TestFactorCoverage(t *testing.T) {
	if testing.Short() {
		t.Skip("follows several hundred histories")
	}
	way := shopWay()
	way.Stations, way.Stiffness, way.LoadAt, way.Table, way.Saddle = 57, 1e10, -100*mm, 4e-6*perNewton, 4e-6*perNewton
	spells := []Spell{{Time: 600 * testHour, Speed: 0.02, Placements: []Placement{{-180 * mm, 150 * mm, 1}}}}
	truth, err := Simulate(way, nil, spells, HistoryOptions{Step: 20 * testHour})
	if err != nil {
		t.Fatal(err)
	}
	coverage(t, "wear factor from two surveys", 73, 1000, func(normal func() float64) bool {
		var stations []RewornStation
		for k := 4; k < len(truth.Places); k += 6 {
			stations = append(stations, RewornStation{Place: truth.Places[k], Before: unit.Length(0.5*normal()) * um, BeforeU: 0.5 * um,
				After: truth.Worn[k] + unit.Length(0.5*normal())*um, AfterU: 0.5 * um})
		}
		fit, err := FitFactor(way, stations, spells, HistoryOptions{Step: 20 * testHour})
		if err != nil {
			t.Fatal(err)
		}
		return math.Abs(fit.Times-1) <= 1.96*fit.TimesU
	})
}

// TestSeparationCoverage draws gaps and probes with errors and holds the profiles
// against the truth.
func TestSeparationCoverage(t *testing.T) {
	coverage(t, "plate from three plates", 74, surveys(), func(normal func() float64) bool {
		gap := func(true float64) []unit.Length { return lengthsOf(true + normal()) }
		a, _, _, u, err := ThreePlates(gap(2), gap(-1), gap(5), 1*um)
		if err != nil {
			t.Fatal(err)
		}
		return math.Abs(float64(a[0]+2*um)) <= 1.96*float64(u)
	})
	coverage(t, "way from three probes", 75, surveys(), func(normal func() float64) bool {
		zero := 0.1 * normal()
		readings := make([]ProbeReading, 9)
		for i := range readings {
			readings[i] = ProbeReading{unit.Length(normal()) * um, unit.Length(normal()) * um, unit.Length(normal()+zero) * um}
		}
		p, err := ThreeProbes(100*mm, readings, 1*um, 0.1*um)
		if err != nil {
			t.Fatal(err)
		}
		return math.Abs(float64(p.Points[5].Height)) <= 1.96*float64(p.U(5))
	})
}

// TestPlateCoverage draws a plate from its own readings.
func TestPlateCoverage(t *testing.T) {
	flat := Surface{Points: gridOf([][]float64{{0, 3, 5}, {2, 9, 7}, {4, 8, 1}}), Covariance: mat.NewSymDense(9, nil)}
	for i := range 9 {
		flat.Covariance.SetSym(i, i, 0.09e-12)
	}
	truth, err := flat.Flatness(MinimumZone)
	if err != nil {
		t.Fatal(err)
	}
	coverage(t, "flatness", 76, surveys(), func(normal func() float64) bool {
		drawn := Surface{Points: append([]SurfacePoint(nil), flat.Points...), Covariance: flat.Covariance}
		for i := range drawn.Points {
			drawn.Points[i].Height += unit.Length(0.3*normal()) * um
		}
		f, err := drawn.Flatness(MinimumZone)
		if err != nil {
			t.Fatal(err)
		}
		return math.Abs(float64(f.Value-truth.Value)) <= 1.96*float64(f.U)
	})
}

// TestLevelProfileCoverage draws a bed read with a level that is out of zero, its
// bubble read to half a division and unsteady by 0.3, and holds one height of the
// profile and the twist of two such ways against the truth.
func TestLevelProfileCoverage(t *testing.T) {
	const n = 9
	options := LevelOptions{Division: 20 * MicrometrePerMetre, Step: 0.5, ReadingU: 0.3}
	slope := func(i int, way float64) Slope { return Slope((8 + 20*math.Sin(float64(i)+way)) * 1e-6) }
	shape := func(slopes []SlopePoint) Profile {
		p, err := ProfileFromSlopes(slopes, ProfileOptions{})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	read := func(way float64, normal func() float64) Profile {
		zero, stations := normal(), make([]LevelStation, n)
		bubble := func(x float64) float64 { return math.Round(2*(x+zero+0.3*normal())) / 2 }
		for i := range stations {
			d := float64(slope(i, way) / options.Division)
			stations[i] = LevelStation{Position: unit.Length(i) * 100 * mm, Normal: bubble(d), Turned: bubble(-d)}
		}
		survey, err := ReadLevel(stations, options)
		if err != nil {
			t.Fatal(err)
		}
		return shape(survey.SlopePoints())
	}
	exact := func(way float64) Profile {
		var points []SlopePoint
		for i := range n {
			points = append(points, SlopePoint{Position: unit.Length(i) * 100 * mm, Slope: slope(i, way), U: 1e-9})
		}
		return shape(points)
	}
	front, rear := exact(0), exact(2)
	coverage(t, "height of a profile by level", 77, surveys()/2, func(normal func() float64) bool {
		p := read(0, normal)
		return math.Abs(float64(p.Points[n-1].Height-front.Points[n-1].Height)) <= 1.96*float64(p.U(n-1))
	})
	truth, err := Twist(front, rear, 200*mm)
	if err != nil {
		t.Fatal(err)
	}
	coverage(t, "twist of two ways by level", 78, surveys()/2, func(normal func() float64) bool {
		twist, err := Twist(read(0, normal), read(2, normal), 200*mm)
		if err != nil {
			t.Fatal(err)
		}
		return math.Abs(float64(twist[5].Slope-truth[5].Slope)) <= 1.96*float64(twist[5].U)
	})
}

// TestFloorCoverage draws two surveys of a way that did not wear and holds the
// settling of the floor against the truth.
func TestFloorCoverage(t *testing.T) {
	coverage(t, "settling of the floor", 79, surveys(), func(normal func() float64) bool {
		var before, after []SlopePoint
		for i := range 5 {
			p := unit.Length(i) * 100 * mm
			before = append(before, SlopePoint{Position: p, Slope: Slope(6e-6 * normal()), U: 6e-6})
			after = append(after, SlopePoint{Position: p, Slope: Slope(45e-6 + 6e-6*normal()), U: 6e-6})
		}
		c, err := CompareSlopes(before, after, ChangeOptions{Unworn: []unit.Length{0, 100 * mm, 400 * mm}})
		if err != nil {
			t.Fatal(err)
		}
		return math.Abs(float64(c.Floor-45e-6)) <= 1.96*float64(c.FloorU)
	})
}

// TestRatioCoverage draws the factors of two ways, the lower one hardly worn, and
// holds the bounds of their ratio against the truth.
func TestRatioCoverage(t *testing.T) {
	for _, u := range []float64{0.5, 1, 2} {
		coverage(t, fmt.Sprintf("ratio of two factors, the lower to %g of 5", u), 80, surveys(), func(normal func() float64) bool {
			for {
				a, b := FactorFit{Times: 12 + 2*normal(), TimesU: 2}, FactorFit{Times: 5 + u*normal(), TimesU: u}
				if a.Times <= 0 || b.Times <= 0 { // no factor was found: drawn again
					continue
				}
				r, err := a.Over(b, 0.95)
				if err != nil {
					t.Fatal(err)
				}
				return r.Low <= 2.4 && 2.4 <= r.High
			}
		})
	}
}

// TestBeyondCoverage draws an event on one way and none on another, and holds what
// the event did beyond the other way against the truth.
func TestBeyondCoverage(t *testing.T) {
	coverage(t, "change of rate beyond another way's", 81, surveys(), func(normal func() float64) bool {
		var events [2]Event
		for k, after := range []float64{2, 5} {
			var err error
			if events[k], err = FitEvent(bent(7, 3.34, 6.1, after, 1.2, true, normal), 3.34*testYear); err != nil {
				t.Fatal(err)
			}
		}
		b := events[0].Beyond(events[1])
		return math.Abs(float64(b.Change+3*MicrometrePerYear)) <= 1.96*float64(b.ChangeU)
	})
}

// TestSaturatingReachCoverage draws wear that levels off and holds the date of a
// limit against the truth.
func TestSaturatingReachCoverage(t *testing.T) {
	curve := func(x float64) float64 { return 30 * -math.Expm1(-x/6) }
	coverage(t, "date of the limit on a curve", 82, surveys()/2, func(normal func() float64) bool {
		var r []MeasuredDepth
		for i := range 10 {
			r = append(r, MeasuredDepth{unit.Time(i) * testYear, unit.Length(curve(float64(i))+0.6*normal()) * um, 0.6 * um})
		}
		s, err := ForecastSaturating(r)
		if err != nil {
			t.Fatal(err)
		}
		c, err := s.Reach(unit.Length(curve(12))*um, 0.95, 0, 60*testYear)
		if err != nil {
			t.Fatal(err)
		}
		return c.Kind != Never && c.Low <= 12*testYear && 12*testYear <= c.High
	})
}
