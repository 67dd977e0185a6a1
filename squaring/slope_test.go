package squaring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// close reports an error unless got lies within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %.2g", what, got, want, tol)
	}
}

// Sources: arithmetic from the definitions of the inch, the foot and the arc
// second, to ten figures. The tolerance is the last figure kept.
func TestSlopeConversions(t *testing.T) {
	tests := []struct {
		name              string
		rise, span        unit.Length
		urad, linear, tan float64 // urad, arc seconds taken linearly, arc seconds exactly
		inPerFoot         float64
		degrees           float64
	}{
		{"0.001 in over 12 in", 1 * Thou, 12 * Inch, 83.3333333, 17.18873385, 17.18873381, 0.001, 0.004774648},
		{"0.025 mm over 300 mm", 0.025 * mm, 300 * mm, 83.3333333, 17.18873385, 17.18873381, 0.001, 0.004774648},
		{"0.02 mm over 300 mm", 0.02 * mm, 300 * mm, 66.6666667, 13.75098708, 13.75098706, 0.0008, 0.003819719},
		{"0.01 mm over 100 mm", 0.01 * mm, 100 * mm, 100, 20.62648062, 20.62648056, 0.0012, 0.005729578},
		{"1 mm over 1 m", 1 * mm, 1 * unit.Metre, 1000, 206.26480625, 206.26473749, 0.012, 0.057295761},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s, err := SlopeFromRise(test.rise, test.span)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "urad", s.Microradians(), test.urad, 1e-7)
			near(t, "linear arc seconds", s.Arcseconds(), test.linear, 1e-8)
			near(t, "exact arc seconds", float64(s.Angle()/Arcsecond), test.tan, 1e-8)
			near(t, "inches per foot", float64(s.PerFoot()/Inch), test.inPerFoot, 1e-12)
			near(t, "degrees", float64(s.Angle()/Degree), test.degrees, 1e-9)
		})
	}
	// One arc second is 4.848 136 811 095 36 urad by definition; 1e-14 relative.
	s, err := SlopeFromAngle(1 * Arcsecond)
	if err != nil || !scalar.EqualWithinRel(s.Microradians(), 4.84813681109536, 1e-11) {
		t.Errorf("1 arc second = %v, %v, want 4.848 urad (tan differs by 1e-11)", s, err)
	}
	if !scalar.EqualWithinRel(float64(Arcsecond), 4.84813681109536e-6, 1e-14) {
		t.Errorf("Arcsecond = %.16g rad", float64(Arcsecond))
	}
}

// Exercise: 0.0012 in across an 8 in ring is 150 urad, 0.045 mm over 300; and
// 0.025 mm over 300 is 0.00067 in across that ring. 60 arc seconds over 12 in,
// 300 mm and 100 mm: arithmetic, ten figures.
func TestRise(t *testing.T) {
	s, err := SlopeFromRise(1.2*Thou, 8*Inch)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "urad", s.Microradians(), 150, 1e-9)
	near(t, "mm over 300", float64(s.Per300()/mm), 0.045, 1e-12)
	near(t, "mm over 1 m", float64(s.PerMetre()/mm), 0.15, 1e-12)
	limit := 0.025 * MillimetrePer300
	near(t, "in over 8 in", float64(limit.Rise(8*Inch)/Inch), 0.000666667, 1e-9)
	minute, err := SlopeFromAngle(1 * Arcminute)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "in over 12 in", float64(minute.Rise(12*Inch)/Inch), 0.0034906586, 2e-10)
	near(t, "mm over 300 mm", float64(minute.Per300()/mm), 0.0872664651, 3e-9)
	near(t, "um over 100 mm", float64(minute.Rise(100*mm)/um), 29.08882169, 1e-6)
}

func TestSlopeRejects(t *testing.T) {
	nan, inf := unit.Length(math.NaN()), unit.Length(math.Inf(1))
	for _, in := range [][2]unit.Length{{nan, 1}, {inf, 1}, {1, 0}, {1, -1}, {1, nan}, {1, inf}, {1e300, 1e-300}} {
		if s, err := SlopeFromRise(in[0], in[1]); err == nil {
			t.Errorf("SlopeFromRise(%v, %v) = %v, want an error", float64(in[0]), float64(in[1]), s)
		}
	}
	for _, a := range []unit.Angle{90 * Degree, -90 * Degree, unit.Angle(math.NaN())} {
		if s, err := SlopeFromAngle(a); err == nil {
			t.Errorf("SlopeFromAngle(%v) = %v, want an error", float64(a), s)
		}
	}
	for _, u := range [][2]unit.Length{{-1, 0}, {0, -1}, {nan, 0}} {
		if _, err := MeasureSlope(1, u[0], 1, u[1]); err == nil {
			t.Errorf("MeasureSlope with uncertainties %v accepted", u)
		}
	}
}

// The law of propagation for a quotient, against the relative form.
func TestMeasureSlope(t *testing.T) {
	m, err := MeasureSlope(0.03*mm, 0.003*mm, 200*mm, 1*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", m.Slope.Microradians(), 150, 1e-9)
	near(t, "u", m.Uncertainty.Microradians(), 150*math.Hypot(0.1, 0.005), 1e-9)
}

func TestGradientLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		g := Gradient{X: Slope(random.NormFloat64()), Y: Slope(random.NormFloat64())}
		back := GradientToward(g.Azimuth(), g.Steepest())
		near(t, "x there and back", float64(back.X), float64(g.X), 1e-14)
		near(t, "y there and back", float64(back.Y), float64(g.Y), 1e-14)
		near(t, "steepest along its azimuth", float64(g.Along(g.Azimuth())), float64(g.Steepest()), 1e-14)
		near(t, "level across it", float64(g.Along(g.Azimuth()+90*Degree)), 0, 1e-14)
		if a := g.Azimuth(); a < 0 || a >= 2*math.Pi {
			t.Errorf("azimuth %v outside one turn", a)
		}
		near(t, "height", float64(g.Height(2, 3)), float64(2*g.X+3*g.Y), 1e-14)
		if got := g.Plus(g).Minus(g); math.Abs(float64(got.X-g.X)) > 1e-15 {
			t.Errorf("g + g - g = %v, want %v", got, g)
		}
	}
}
