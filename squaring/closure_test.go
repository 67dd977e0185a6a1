package squaring

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func seconds(values ...float64) []unit.Angle {
	angles := make([]unit.Angle, len(values))
	for i, v := range values {
		angles[i] = unit.Angle(v) * Arcsecond
	}
	return angles
}

// Four corners against one unknown angle: exact arithmetic on the readings.
func TestFourCorners(t *testing.T) {
	p, err := ClosePolygon([][]unit.Angle{seconds(4.2, -1.6, 3.0, -2.4)}, 0.5*Arcsecond)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(p.Reference.Angle / Arcsecond); math.Abs(got+0.8) > 1e-12 {
		t.Errorf("reference %g arcsec, want -0.8", got)
	}
	if got := float64(p.Reference.Uncertainty / Arcsecond); math.Abs(got-0.25) > 1e-12 {
		t.Errorf("u of the reference %g arcsec, want 0.25", got)
	}
	for i, want := range []float64{3.4, -2.4, 2.2, -3.2} {
		if got := float64(p.Corners[i].Angle / Arcsecond); math.Abs(got-want) > 1e-12 {
			t.Errorf("corner %d: %g, want %g", i+1, got, want)
		}
		if got := float64(p.Corners[i].Uncertainty / Arcsecond); math.Abs(got-0.5*math.Sqrt(0.75)) > 1e-12 {
			t.Errorf("u of corner %d: %g, want %g", i+1, got, 0.5*math.Sqrt(0.75))
		}
	}
}

// A made-up twelve-sided polygon read in three rounds is recovered within its
// stated uncertainty, and a round begun at the wrong corner, or gone the other
// way, is named.
func TestPolygonRounds(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 0))
	truth := []float64{3, -2, 5, -4, 1, 0, -6, 2, 4, -1, -3, 1}
	round := func(start, step int) []unit.Angle {
		r := make([]unit.Angle, 12)
		for i := range r {
			r[i] = unit.Angle(truth[((start+step*i)%12+12)%12]+7+0.3*random.NormFloat64()) * Arcsecond
		}
		return r
	}
	p, err := ClosePolygon([][]unit.Angle{round(0, 1), round(0, 1), round(0, 1)}, 0.3*Arcsecond)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for i, c := range p.Corners {
		if miss := math.Abs(float64(c.Angle/Arcsecond) - truth[i]); miss > 3.5*float64(c.Uncertainty/Arcsecond) {
			t.Errorf("corner %d misses by %g arcsec, u %g", i+1, miss, float64(c.Uncertainty/Arcsecond))
		}
		sum += float64(c.Angle)
	}
	if math.Abs(sum) > 1e-15 {
		t.Errorf("the corners sum to %g", sum)
	}
	for i, r := range p.Rounds {
		if !r.Same || r.BegunAt != 1 || r.Backward {
			t.Errorf("round %d: %+v, want it to be in order", i+2, r)
		}
	}
	p, err = ClosePolygon([][]unit.Angle{round(0, 1), round(4, 1), round(2, -1)}, 0.3*Arcsecond)
	if err != nil {
		t.Fatal(err)
	}
	if r := p.Rounds[0]; r.Same || r.BegunAt != 5 || r.Backward {
		t.Errorf("begun at the fifth: %+v", r)
	}
	if r := p.Rounds[1]; r.Same || r.BegunAt != 3 || !r.Backward {
		t.Errorf("backward from the third: %+v", r)
	}
	if p.Scatter < 2*Arcsecond || p.DegreesOfFreedom != 22 {
		t.Errorf("scatter %g arcsec with %g degrees of freedom does not own up to the mix-up", float64(p.Scatter/Arcsecond), p.DegreesOfFreedom)
	}
}

func TestThreeSquares(t *testing.T) {
	a, b, c := 28*Microradian, -12*Microradian, 5*Microradian
	s, err := CompareSquares([]Slope{a + b}, []Slope{b + c}, []Slope{a + c}, 4*Microradian)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []Slope{a, b, c} {
		if math.Abs(float64(s.Errors[i].Slope-want)) > 1e-18 || math.Abs(s.Errors[i].Uncertainty.Microradians()-2*math.Sqrt(3)) > 1e-9 {
			t.Errorf("square %d: %v u %v, want %v u 3.46", i+1, s.Errors[i].Slope, s.Errors[i].Uncertainty, want)
		}
	}
	if !s.Same || s.Chance != 1 {
		t.Errorf("without repeats: %+v", s)
	}
	// A square set down on its other side between the repeats.
	s, err = CompareSquares([]Slope{a + b, -a + b}, []Slope{b + c, b + c}, []Slope{a + c, a + c}, 4*Microradian)
	if err != nil || s.Same || s.DegreesOfFreedom != 3 {
		t.Errorf("%+v, %v: want it to say that the repeats are of different things", s, err)
	}
}

func TestClosureRefuses(t *testing.T) {
	nan := unit.Angle(math.NaN())
	for want, rounds := range map[string][][]unit.Angle{"at least three": {{1e-6, 2e-6}}, "round 2 has": {{0, 0, 0}, {0, 0}}, "corner 2 of round 1": {{0, nan, 0}}} {
		if _, err := ClosePolygon(rounds, 1e-6); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if _, err := ClosePolygon([][]unit.Angle{{0, 0, 0}}, 0); err == nil {
		t.Error("an uncertainty of zero is accepted")
	}
	one := []Slope{0}
	if _, err := CompareSquares(one, nil, one, 1e-6); err == nil || !strings.Contains(err.Error(), "second and third") {
		t.Errorf("%v", err)
	}
	if _, err := CompareSquares(one, one, []Slope{Slope(math.Inf(1))}, 1e-6); err == nil || !strings.Contains(err.Error(), "first and third") {
		t.Errorf("%v", err)
	}
	if _, err := CompareSquares(one, one, one, Slope(math.NaN())); err == nil {
		t.Error("an uncertainty of NaN is accepted")
	}
}

func FuzzClosePolygon(f *testing.F) {
	f.Add(4.2, -1.6, 3.0, -2.4, 0.5)
	f.Fuzz(func(t *testing.T, a, b, c, d, u float64) {
		p, err := ClosePolygon([][]unit.Angle{seconds(a, b, c, d), seconds(d, c, b, a)}, unit.Angle(u)*Arcsecond)
		if err == nil && (math.IsNaN(float64(p.Reference.Angle)) || len(p.Corners) != 4) {
			t.Errorf("%+v", p)
		}
	})
}
