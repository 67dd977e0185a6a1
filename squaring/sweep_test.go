package squaring

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// round makes a sweep from readings at even azimuths, starting at 0.
func round(scale unit.Length, values ...float64) []SweepReading {
	readings := make([]SweepReading, len(values))
	for i, v := range values {
		readings[i] = SweepReading{Azimuth: unit.Angle(i) * 360 * Degree / unit.Angle(len(values)), Reading: unit.Length(v) * scale}
	}
	return readings
}

// leverA is the demonstration shop's lever indicator: 0.0005 in divisions, gain
// from its own run over blocks.
func leverA() Indicator {
	return Indicator{Division: 0.5 * Thou, Gain: 0.985, GainU: 0.0025, Turn: 30 * Thou}
}

// asFound is the demonstration shop's sweep of 2025 before the head was reset.
func asFound() ([]SweepReading, SweepOptions) {
	closing := 0 * Thou
	return round(Thou, 0, -0.5, 0, 1, 2, 2.5, 2, 1),
		SweepOptions{Radius: 110 * mm, Indicator: leverA(), Closing: &closing, OneWay: true}
}

// Four readings, arithmetic: constructed, to ten figures.
func TestFitSweepFourPoints(t *testing.T) {
	s, err := FitSweep(round(mm, 0.030, 0.010, -0.010, -0.006), SweepOptions{Radius: 150 * mm})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", s.Tilt.X.Microradians(), 133.3333333, 1e-7)
	near(t, "y", s.Tilt.Y.Microradians(), 53.3333333, 1e-7)
	near(t, "steepest", s.Tilt.Steepest().Microradians(), 143.6044, 1e-4)
	near(t, "azimuth", float64(s.Tilt.Azimuth()/Degree), 21.801409, 1e-6)
	near(t, "mean", float64(s.Mean/mm), 0.006, 1e-12)
	// (R0 + R180 - R90 - R270)/4 = 0.004: every residual of four is that, in turn.
	for i, r := range s.Residuals {
		near(t, "residual", float64(r/mm), 0.004*math.Pow(-1, float64(i)), 1e-12)
	}
	near(t, "dilution", s.Dilution, 1, 1e-12)
}

// Twelve readings, first harmonic by least squares: constructed, recomputed to
// nine figures.
func TestFitSweepTwelvePoints(t *testing.T) {
	s, err := FitSweep(round(um, 12, 18, 21, 19, 13, 4, -5, -11, -14, -12, -6, 3), SweepOptions{Radius: 150 * mm})
	if err != nil {
		t.Fatal(err)
	}
	r := 150e-3
	near(t, "mean", float64(s.Mean/um), 3.5, 1e-7)
	near(t, "cos", float64(s.Tilt.X)*r*1e6, 8.20811855, 1e-7)
	near(t, "sin", float64(s.Tilt.Y)*r*1e6, 15.4608953, 1e-7)
	near(t, "amplitude", float64(s.Tilt.Steepest())*r*1e6, 17.50464206, 1e-7)
	near(t, "azimuth", float64(s.Tilt.Azimuth()/Degree), 62.036372, 1e-6)
	near(t, "s", float64(s.Scatter/um), 0.241531713, 1e-9)
	near(t, "sd(cos)", float64(s.TiltU.X)*r*1e6, 0.098604909, 1e-9)
	near(t, "sd(sin)", float64(s.TiltU.Y)*r*1e6, 0.098604909, 1e-9)
	near(t, "tilt in arc seconds", s.Tilt.Steepest().Arcseconds(), 24.070611, 1e-6)
	if s.Redundancy != 9 || s.DegreesOfFreedomX != 9 {
		t.Errorf("redundancy %d, degrees of freedom %v, want 9", s.Redundancy, s.DegreesOfFreedomX)
	}
	_, u := s.Expect(0)
	near(t, "u of the line", float64(u/um), 0.241531713*math.Sqrt(1.0/12+1.0/6), 1e-8)
}

// A sweep of 1 degree at 100 mm radius shows 3.491 mm across (about 3.5, read
// in a public discussion; tan 1 degree exactly).
func TestSweepOfOneDegree(t *testing.T) {
	slope, err := SlopeFromAngle(1 * Degree)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "across", float64(slope.Rise(200*mm)/mm), 3.491013, 1e-6)
	near(t, "by sine", math.Sin(float64(slope.Angle()))*200, 3.490481, 1e-6)
}

// The demonstration sweep: -238, -238 urad as read, -232, -231 made up. The
// reading step alone gives about 8 urad a direction, and the corrected fit must lie
// within two standard uncertainties of the truth.
func TestFitSweepAsFound(t *testing.T) {
	readings, options := asFound()
	plain := options
	plain.Indicator.Gain, plain.Indicator.GainU = 0, 0
	s, err := FitSweep(readings, plain)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x as read", s.Tilt.X.Microradians(), -238, 0.6)
	near(t, "y as read", s.Tilt.Y.Microradians(), -238, 0.6)
	s, err = FitSweep(readings, options)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", s.Tilt.X.Microradians(), -232, 2*s.TiltU.X.Microradians())
	near(t, "y", s.Tilt.Y.Microradians(), -231, 2*s.TiltU.Y.Microradians())
	if u := s.TiltU.X.Microradians(); u < 7 || u > 16 {
		t.Errorf("u(x) = %.1f urad, want that of a 0.00025 in step over 110 mm: 7 to 16", u)
	}
	if s.Doubt != NoDoubt {
		t.Errorf("doubt: %q", s.Doubt)
	}
	if !s.Closed || s.Drift != 0 {
		t.Errorf("closed %v, drift %v", s.Closed, float64(s.Drift))
	}
}

// The sweeps as left, at five places of the table. The truth is the table's
// slope there less the spindle's (tables of the made-up machine, interpolated),
// and the slope of the table top's own form, -8(u/500)^2 um, at u = -X. Each
// must lie within three stated standard uncertainties, and all ten together
// leave a sum of squares that chance grants: 10 degrees of freedom, 0.1 %: 29.6.
func TestFitSweepAsLeft(t *testing.T) {
	tests := []struct {
		x        float64
		readings []float64
		closing  float64
		wantX    float64
		wantY    float64
	}{
		// Slopes of T2 at X by four-point interpolation, less those at 0, plus
		// (+9, -14) as left at 0, plus the form's 64e-6 X (X in mm) along x.
		{-300, []float64{0, -0.25, -0.5, -0.5, -0.5, -0.25, 0, 0.25}, 0.25, 72.6 - 19.2, -62},
		{-150, []float64{0, -0.25, -0.5, -0.5, -0.5, -0.25, 0, 0}, 0, 72.3 - 9.6, -34.0},
		{0, []float64{0, 0, -0.25, 0, 0, 0, 0, 0}, 0, 9, -14},
		{150, []float64{0, 0, 0.25, 0.25, 0.75, 0.75, 0.5, 0.25}, 0, -86 + 9.6, -25},
		{300, []float64{0, 0, 0.25, 0.75, 1, 1, 0.5, 0.25}, 0.25, -131 + 19.2, -35},
	}
	squares := 0.0
	for _, test := range tests {
		closing := unit.Length(test.closing) * Thou
		s, err := FitSweep(round(Thou, test.readings...), SweepOptions{Radius: 110 * mm, Indicator: leverA(), Closing: &closing, OneWay: true})
		if err != nil {
			t.Fatal(err)
		}
		x, y := s.Tilt.X.Microradians(), s.Tilt.Y.Microradians()
		near(t, "x", x, test.wantX, 3*s.TiltU.X.Microradians())
		near(t, "y", y, test.wantY, 3*s.TiltU.Y.Microradians())
		squares += math.Pow((x-test.wantX)/s.TiltU.X.Microradians(), 2) + math.Pow((y-test.wantY)/s.TiltU.Y.Microradians(), 2)
		t.Logf("X %4.0f: %6.1f %6.1f u %4.1f %4.1f want %6.1f %6.1f %s", test.x, x, y, s.TiltU.X.Microradians(), s.TiltU.Y.Microradians(), test.wantX, test.wantY, s.Doubt)
	}
	if squares > 29.6 {
		t.Errorf("sum of squared deviations over uncertainties %.1f, more than 29.6", squares)
	}
}

// The stated uncertainty must be honest: of many simulated sweeps, read in
// steps with an uncertain gain, 95 % intervals must hold the truth 95 times in
// a hundred. 4000 intervals: three standard deviations of that share are 1 %.
// An interval may be wider than asked, since the larger of scatter and step is
// taken, but not twice.
func TestSweepCoverage(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for _, n := range []int{4, 8, 12} {
		for _, closed := range []bool{false, true} {
			inside, trials := 0, 2000
			for range trials {
				truth := Gradient{X: Slope(random.NormFloat64() * 150e-6), Y: Slope(random.NormFloat64() * 150e-6)}
				d := leverA()
				gain := d.Gain + d.GainU*random.NormFloat64()
				drift := 0.0
				if closed {
					drift = random.NormFloat64() * 0.5e-3
				}
				readings, closing := simulate(random, n, 110*mm, truth, gain, drift, 0.25*Thou)
				o := SweepOptions{Radius: 110 * mm, Indicator: d, OneWay: true}
				if closed {
					o.Closing = &closing
				}
				s, err := FitSweep(readings, o)
				if err != nil {
					t.Fatal(err)
				}
				half, err := s.Expanded(0.95)
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(float64(s.Tilt.X-truth.X)) <= float64(half.X) {
					inside++
				}
				if math.Abs(float64(s.Tilt.Y-truth.Y)) <= float64(half.Y) {
					inside++
				}
			}
			share := float64(inside) / float64(2*trials)
			t.Logf("n %d closed %v: %.3f inside", n, closed, share)
			if share < 0.94 {
				t.Errorf("n %d, closed %v: %.3f of the 95 %% intervals hold the truth", n, closed, share)
			}
		}
	}
}

// simulate reads a plane in steps, from an arbitrary zero.
func simulate(random *rand.Rand, n int, radius unit.Length, tilt Gradient, gain, driftInThou float64, step unit.Length) ([]SweepReading, unit.Length) {
	zero := random.Float64() * float64(step)
	read := func(i int) (unit.Angle, unit.Length) {
		azimuth := unit.Angle(i) * 360 * Degree / unit.Angle(n)
		height := zero + gain*float64(tilt.Along(azimuth).Rise(radius)) + driftInThou*float64(Thou)*float64(i)/float64(n)
		return azimuth, unit.Length(math.Round(height/float64(step))) * step
	}
	readings := make([]SweepReading, n)
	for i := range readings {
		readings[i].Azimuth, readings[i].Reading = read(i)
	}
	_, closing := read(n)
	return readings, closing
}

// Against gonum's QR and the general covariance formula, with a closing
// reading, at random azimuths.
func TestFitSweepAgainstQR(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for range 30 {
		n := 6 + random.IntN(12)
		readings := make([]SweepReading, n)
		for i := range readings {
			readings[i] = SweepReading{Azimuth: unit.Angle(random.Float64() * 2 * math.Pi), Reading: unit.Length(random.NormFloat64()) * um}
		}
		closing := unit.Length(random.NormFloat64()) * um
		s, err := FitSweep(readings, SweepOptions{Radius: 100 * mm, Closing: &closing})
		var dilution *DilutionError
		if err != nil && !errors.As(err, &dilution) {
			t.Fatal(err)
		}
		// The n+1 readings as shown, corrected by the matrix B.
		design, correct, shown := mat.NewDense(n, 3, nil), mat.NewDense(n, n+1, nil), mat.NewVecDense(n+1, nil)
		for i, r := range readings {
			sin, cos := math.Sincos(float64(r.Azimuth))
			design.SetRow(i, []float64{1, cos, sin})
			w := float64(i) / float64(n)
			correct.Set(i, i, 1)
			correct.Set(i, 0, correct.At(i, 0)+w)
			correct.Set(i, n, -w)
			shown.SetVec(i, float64(r.Reading))
		}
		shown.SetVec(n, float64(closing))
		var corrected, unknowns mat.VecDense
		corrected.MulVec(correct, shown)
		var qr mat.QR
		qr.Factorize(design)
		if err := qr.SolveVecTo(&unknowns, false, &corrected); err != nil {
			t.Fatal(err)
		}
		near(t, "x", float64(s.Tilt.X), unknowns.AtVec(1)/0.1, 1e-16)
		near(t, "y", float64(s.Tilt.Y), unknowns.AtVec(2)/0.1, 1e-16)
		// Residual maker M, E(RSS)/sigma^2 = trace(M B B' M).
		var inverse, normal, solver, hat mat.Dense
		normal.Mul(design.T(), design)
		if err := inverse.Inverse(&normal); err != nil {
			t.Fatal(err)
		}
		solver.Mul(&inverse, design.T())
		hat.Mul(design, &solver)
		var bb, mb, mbm mat.Dense
		bb.Mul(correct, correct.T())
		m := mat.NewDense(n, n, nil)
		for i := range n {
			for j := range n {
				m.Set(i, j, -hat.At(i, j))
			}
			m.Set(i, i, 1-hat.At(i, i))
		}
		mb.Mul(m, &bb)
		mbm.Mul(&mb, m)
		var residual mat.VecDense
		residual.MulVec(m, &corrected)
		sigma := math.Sqrt(math.Pow(mat.Norm(&residual, 2), 2) / mat.Trace(&mbm))
		near(t, "scatter", float64(s.Scatter), sigma, 1e-8*sigma)
		var sb, c mat.Dense
		sb.Mul(&solver, &bb)
		c.Mul(&sb, solver.T())
		near(t, "u(x)", float64(s.TiltU.X), sigma*math.Sqrt(c.At(1, 1))/0.1, 1e-8*float64(s.TiltU.X))
		near(t, "u(y)", float64(s.TiltU.Y), sigma*math.Sqrt(c.At(2, 2))/0.1, 1e-8*float64(s.TiltU.Y))
		near(t, "correlation", s.Correlation, c.At(1, 2)/math.Sqrt(c.At(1, 1)*c.At(2, 2)), 1e-8)
	}
}

func TestSweepLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	for range 100 {
		n := 5 + random.IntN(20)
		readings := make([]SweepReading, n)
		for i := range readings {
			readings[i] = SweepReading{Azimuth: unit.Angle(float64(i)+0.3*random.Float64()) * 360 * Degree / unit.Angle(n), Reading: unit.Length(random.NormFloat64()) * 10 * um}
		}
		closing := unit.Length(random.NormFloat64()) * um
		options := SweepOptions{Radius: 120 * mm, Indicator: Indicator{Division: 2 * um, Gain: 1.02, GainU: 0.01}, Closing: &closing, OneWay: true}
		change := func(azimuth func(unit.Angle) unit.Angle, reading func(unit.Length) unit.Length) Sweep {
			moved := append([]SweepReading(nil), readings...)
			for i := range moved {
				moved[i] = SweepReading{Azimuth: azimuth(moved[i].Azimuth), Reading: reading(moved[i].Reading)}
			}
			o := options
			c := reading(closing)
			o.Closing = &c
			s, err := FitSweep(moved, o)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		same, keep := func(a unit.Angle) unit.Angle { return a }, func(l unit.Length) unit.Length { return l }
		s := change(same, keep)
		turn := unit.Angle(random.Float64()) * 360 * Degree
		rotated := change(func(a unit.Angle) unit.Angle { return a + turn }, keep)
		want := GradientToward(s.Tilt.Azimuth()+turn, s.Tilt.Steepest())
		near(t, "rotated x", float64(rotated.Tilt.X), float64(want.X), 1e-15)
		near(t, "rotated y", float64(rotated.Tilt.Y), float64(want.Y), 1e-15)
		near(t, "rotated scatter", float64(rotated.Scatter), float64(s.Scatter), 1e-17)
		mirrored := change(func(a unit.Angle) unit.Angle { return 180*Degree - a }, keep)
		near(t, "mirrored x", float64(mirrored.Tilt.X), float64(-s.Tilt.X), 1e-15)
		near(t, "mirrored y", float64(mirrored.Tilt.Y), float64(s.Tilt.Y), 1e-15)
		near(t, "mirrored u", float64(mirrored.TiltU.X), float64(s.TiltU.X), 1e-15)
		near(t, "mirrored correlation", mirrored.Correlation, -s.Correlation, 1e-9)
		lifted := change(same, func(l unit.Length) unit.Length { return l + 1*mm })
		near(t, "lifted x", float64(lifted.Tilt.X), float64(s.Tilt.X), 1e-14)
		scaled := change(same, func(l unit.Length) unit.Length { return 3 * l })
		near(t, "scaled x", float64(scaled.Tilt.X), float64(3*s.Tilt.X), 1e-15)
		near(t, "scaled scatter", float64(scaled.Scatter), float64(3*s.Scatter), 1e-17)
	}
}

// A second harmonic alone is found, and does not disturb the tilt.
func TestSecondHarmonic(t *testing.T) {
	readings := round(um, make([]float64, 12)...)
	for i := range readings {
		a := float64(readings[i].Azimuth)
		readings[i].Reading = unit.Length(20*math.Cos(a)-7*math.Sin(a)+5*math.Cos(2*(a-0.7))) * um
	}
	s, err := FitSweep(readings, SweepOptions{Radius: 100 * mm})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", s.Tilt.X.Microradians(), 200, 1e-9)
	near(t, "y", s.Tilt.Y.Microradians(), -70, 1e-9)
	if !s.Second.Known {
		t.Fatal("second harmonic not known")
	}
	near(t, "amplitude", float64(s.Second.Amplitude/um), 5, 1e-9)
	near(t, "ridge", float64(s.Second.Ridge), 0.7, 1e-9)
	four, err := FitSweep(round(um, 1, 2, 3, 4), SweepOptions{Radius: 100 * mm})
	if err != nil || four.Second.Known {
		t.Errorf("four readings cannot know a second harmonic: %v, %v", four.Second, err)
	}
}

// Gain, stylus angle and radius scale the tilt and widen it.
func TestSweepScaleUncertainty(t *testing.T) {
	readings := round(um, 100, 0, -100, 0)
	s, err := FitSweep(readings, SweepOptions{Radius: 100 * mm, RadiusU: 1 * mm, AzimuthU: 1 * Degree,
		Indicator: Indicator{Gain: 1.03, GainU: 0.002, StylusAngle: 15 * Degree, StylusAngleU: 5 * Degree, Hysteresis: 7 * um}})
	if err != nil {
		t.Fatal(err)
	}
	factor := math.Cos(15*math.Pi/180) / 1.03
	near(t, "x", s.Tilt.X.Microradians(), 1000*factor, 1e-9)
	relative := math.Sqrt(0.01*0.01 + math.Pow(0.002/1.03, 2) + math.Pow(math.Tan(15*math.Pi/180)*5*math.Pi/180, 2))
	hysteresis := 2 / math.Pi * 7 * factor / 0.1 / math.Sqrt(3)
	near(t, "scale share", s.FromScale.X.Microradians(), math.Hypot(1000*factor*relative, hysteresis), 1e-9)
	near(t, "hysteresis alone, across", s.FromScale.Y.Microradians(), hysteresis, 1e-9)
	near(t, "rounding from azimuths um", float64(s.Rounding/um), 100*factor/math.Sqrt2*math.Pi/180, 1e-9)
	along := s.Along(s.Tilt.Azimuth())
	near(t, "u along", float64(along.Uncertainty), float64(s.TiltU.X), 1e-12)
}

// The dial's lag does what the formula says: a square wave against the slope.
func TestHysteresisHarmonic(t *testing.T) {
	const n = 720
	readings := round(um, make([]float64, n)...)
	for i := range readings {
		sin := math.Sin(float64(readings[i].Azimuth) + 1e-9)
		readings[i].Reading = unit.Length(100*math.Cos(float64(readings[i].Azimuth))+math.Copysign(3.5, sin)) * um
	}
	s, err := FitSweep(readings, SweepOptions{Radius: 100 * mm})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", s.Tilt.X.Microradians(), 1000, 0.2)
	near(t, "y", s.Tilt.Y.Microradians(), 2/math.Pi*7/0.1, 0.2)
}

func TestDrift(t *testing.T) {
	// A plane with 8 um of drift over the turn comes back exactly.
	readings := round(um, make([]float64, 8)...)
	for i := range readings {
		readings[i].Reading = unit.Length(30*math.Cos(float64(readings[i].Azimuth))+float64(i)) * um
	}
	closing := 38 * um
	s, err := FitSweep(readings, SweepOptions{Radius: 100 * mm, Closing: (*unit.Length)(&closing), Indicator: Indicator{Division: 1 * um}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", s.Tilt.X.Microradians(), 300, 1e-9)
	near(t, "y", s.Tilt.Y.Microradians(), 0, 1e-9)
	near(t, "drift", float64(s.Drift/um), 8, 1e-9)
	open, err := FitSweep(readings, SweepOptions{Radius: 100 * mm, Indicator: Indicator{Division: 1 * um}})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(open.Tilt.Y.Microradians()) < 10 {
		t.Errorf("drift unseen should look like a tilt, got y %v", open.Tilt.Y)
	}
	if s.FromReadings.Y <= Slope(s.Rounding/(100*mm))/2 {
		t.Errorf("u(y) = %v with drift removed, must exceed an even round's", s.FromReadings.Y)
	}
}

func TestSweepIllConditioned(t *testing.T) {
	at := func(azimuths ...float64) []SweepReading {
		readings := make([]SweepReading, len(azimuths))
		for i, a := range azimuths {
			readings[i] = SweepReading{Azimuth: unit.Angle(a) * Degree, Reading: unit.Length(i) * um}
		}
		return readings
	}
	o := SweepOptions{Radius: 100 * mm, Indicator: Indicator{Division: 2 * um}}
	for _, alike := range [][]float64{{30, 30, 30, 30}, {0, 180, 0, 180}, {0, 360, 720}, {10, 10, 50, 50}} {
		if s, err := FitSweep(at(alike...), o); err == nil {
			t.Errorf("azimuths %v: tilt %v, want an error", alike, s.Tilt)
		}
	}
	s, err := FitSweep(at(0, 10, 20, 30, 40), o)
	var dilution *DilutionError
	if !errors.As(err, &dilution) || dilution.Dilution <= worstDilution || s.TiltU.X == 0 {
		t.Errorf("azimuths within 40 degrees: %v, u %v, want a dilution error and the tilt", err, s.TiltU)
	}
	if _, err := FitSweep(at(0, 45, 90, 135, 180), o); err != nil {
		t.Errorf("half a circle: %v", err)
	}
	if s, err := FitSweep(at(0, 120, 240), o); err != nil || s.Doubt != Unchecked {
		t.Errorf("three readings: %v, doubt %q, want unchecked", err, s.Doubt)
	}
}

func TestFitSweepRejects(t *testing.T) {
	good, options := asFound()
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name   string
		change func(*[]SweepReading, *SweepOptions)
	}{
		{"no readings", func(r *[]SweepReading, o *SweepOptions) { *r = nil }},
		{"two readings", func(r *[]SweepReading, o *SweepOptions) { *r = (*r)[:2] }},
		{"too many", func(r *[]SweepReading, o *SweepOptions) { *r = make([]SweepReading, maxSweepReadings+1) }},
		{"reading not a number", func(r *[]SweepReading, o *SweepOptions) { (*r)[3].Reading = unit.Length(nan) }},
		{"reading infinite", func(r *[]SweepReading, o *SweepOptions) { (*r)[3].Reading = unit.Length(inf) }},
		{"reading absurd", func(r *[]SweepReading, o *SweepOptions) { (*r)[3].Reading = 25 * unit.Metre }},
		{"azimuth not a number", func(r *[]SweepReading, o *SweepOptions) { (*r)[3].Azimuth = unit.Angle(nan) }},
		{"azimuth infinite", func(r *[]SweepReading, o *SweepOptions) { (*r)[3].Azimuth = unit.Angle(inf) }},
		{"no radius", func(r *[]SweepReading, o *SweepOptions) { o.Radius = 0 }},
		{"radius below zero", func(r *[]SweepReading, o *SweepOptions) { o.Radius = -110 * mm }},
		{"radius absurd", func(r *[]SweepReading, o *SweepOptions) { o.Radius = 110 * unit.Metre }},
		{"radius uncertainty", func(r *[]SweepReading, o *SweepOptions) { o.RadiusU = -1 * mm }},
		{"azimuth uncertainty", func(r *[]SweepReading, o *SweepOptions) { o.AzimuthU = unit.Angle(nan) }},
		{"gain", func(r *[]SweepReading, o *SweepOptions) { o.Indicator.Gain = 25.4 }},
		{"closing", func(r *[]SweepReading, o *SweepOptions) { c := unit.Length(nan); o.Closing = &c }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r, o := append([]SweepReading(nil), good...), options
			test.change(&r, &o)
			if s, err := FitSweep(r, o); err == nil {
				t.Errorf("tilt %v, want an error", s.Tilt)
			} else {
				t.Log(err)
			}
		})
	}
}

func TestSweepKeepsCallersReadings(t *testing.T) {
	readings, options := asFound()
	before := append([]SweepReading(nil), readings...)
	closing := *options.Closing
	if _, err := FitSweep(readings, options); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(before, readings) || *options.Closing != closing {
		t.Error("the caller's readings were changed")
	}
}

func TestSweepZeroValue(t *testing.T) {
	var s Sweep
	if half, err := s.Expanded(0.95); err != nil || half != (Gradient{}) {
		t.Errorf("Expanded of nothing measured = %v, %v", half, err)
	}
	if shown, u := s.Expect(1); shown != 0 || u != 0 {
		t.Errorf("Expect of nothing measured = %v, %v", shown, u)
	}
	if got := s.Steepest(); got != (MeasuredSlope{}) {
		t.Errorf("Steepest of nothing measured = %v", got)
	}
}

func FuzzFitSweep(f *testing.F) {
	f.Add(0.0, 0.0, 45.0, -12.7, 90.0, 0.0, 135.0, 25.4, 180.0, 50.8, 110.0, 0.0, true)
	f.Add(0.0, 1e9, 1e-9, -1e9, 2e-9, 0.0, 3.0, 1.0, 180.0, math.MaxFloat64, 1e-300, 1.0, false)
	f.Add(math.NaN(), 0.0, math.Inf(1), 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, true)
	f.Fuzz(func(t *testing.T, a1, r1, a2, r2, a3, r3, a4, r4, a5, r5, radius, closing float64, closed bool) {
		var readings []SweepReading
		for _, v := range [][2]float64{{a1, r1}, {a2, r2}, {a3, r3}, {a4, r4}, {a5, r5}} {
			readings = append(readings, SweepReading{Azimuth: unit.Angle(v[0]) * Degree, Reading: unit.Length(v[1]) * um})
		}
		o := SweepOptions{Radius: unit.Length(radius) * mm, Indicator: Indicator{Division: 2 * um, Turn: 200 * um}}
		if closed {
			c := unit.Length(closing) * um
			o.Closing = &c
		}
		s, err := FitSweep(readings, o)
		var dilution *DilutionError
		if err != nil && !errors.As(err, &dilution) {
			return
		}
		for _, x := range []float64{float64(s.Tilt.X), float64(s.Tilt.Y), float64(s.TiltU.X), float64(s.TiltU.Y), s.Correlation, float64(s.Mean), float64(s.Scatter), s.Dilution} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("not finite: %+v", s)
			}
		}
		if s.TiltU.X < 0 || s.TiltU.Y < 0 {
			t.Fatalf("negative uncertainty: %+v", s)
		}
	})
}

func BenchmarkFitSweep(b *testing.B) {
	readings, options := asFound()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := FitSweep(readings, options); err != nil {
			b.Fatal(err)
		}
	}
}
