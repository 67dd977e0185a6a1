package squaring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// A slip is put into the demonstration sweep; it must be named, with its kind,
// and the tilt given without it must be near the honest one.
func TestMisreadNamed(t *testing.T) {
	honest, options := asFound()
	clean, err := FitSweep(honest, options)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name   string
		number int
		change func(unit.Length) unit.Length
		likely Slip
	}{
		{"a turn high", 4, func(l unit.Length) unit.Length { return l + 30*Thou }, WholeTurn},
		{"a turn low", 6, func(l unit.Length) unit.Length { return l - 30*Thou }, WholeTurn},
		{"first, a turn high", 1, func(l unit.Length) unit.Length { return l + 30*Thou }, WholeTurn},
		{"last, two turns high", 8, func(l unit.Length) unit.Length { return l + 60*Thou }, WholeTurn},
		{"closing, a turn low", 9, func(l unit.Length) unit.Length { return l - 30*Thou }, WholeTurn},
		{"wrong side of zero", 6, func(l unit.Length) unit.Length { return -l }, SignSlip},
		{"point slipped", 6, func(l unit.Length) unit.Length { return 10 * l }, PointSlip},
		{"a numbered mark", 3, func(l unit.Length) unit.Length { return l + 5*Thou }, MarkSlip},
		{"something else", 3, func(l unit.Length) unit.Length { return l + 8*Thou }, OddSlip},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			readings, o := append([]SweepReading(nil), honest...), options
			if test.number <= len(readings) {
				readings[test.number-1].Reading = test.change(readings[test.number-1].Reading)
			} else {
				closing := test.change(*o.Closing)
				o.Closing = &closing
			}
			s, err := FitSweep(readings, o)
			if err != nil {
				t.Fatal(err)
			}
			if s.Doubt != Misread || len(s.Suspects) == 0 {
				t.Fatalf("doubt %q, suspects %+v", s.Doubt, s.Suspects)
			}
			got := s.Suspects[0]
			if got.First != test.number || got.Last != test.number || got.Likely != test.likely {
				t.Errorf("named reading %d to %d as %q, want %d, %q", got.First, got.Last, got.Likely, test.number, test.likely)
			}
			if math.Abs(got.Ratio) <= got.Limit {
				t.Errorf("ratio %.1f within the limit %.1f", got.Ratio, got.Limit)
			}
			// Leaving one out costs a little of the evenness, no more.
			if away := got.Tilt.Minus(clean.Tilt).Steepest().Microradians(); away > 20 {
				t.Errorf("tilt without it is %.1f urad from the honest one", away)
			}
			want := 0.0 // what the honest dial showed there
			if test.number <= len(honest) {
				want = float64(honest[test.number-1].Reading / Thou)
			}
			near(t, "expected reading, thou", float64(got.Expected/Thou), want, 0.7)
		})
	}
}

// The hand passes zero unseen and three readings, or the last three with the
// closing one, are a turn off.
func TestMisreadRun(t *testing.T) {
	for _, closed := range []bool{false, true} {
		for _, run := range [][2]int{{2, 4}, {6, 8}, {3, 5}, {7, 9}} {
			readings, options := asFound()
			if !closed {
				options.Closing = nil
				if run[1] == 9 {
					continue
				}
			}
			clean, err := FitSweep(readings, options)
			if err != nil {
				t.Fatal(err)
			}
			for i := run[0]; i <= run[1] && i <= len(readings); i++ {
				readings[i-1].Reading -= 30 * Thou
			}
			if run[1] == 9 {
				closing := *options.Closing - 30*Thou
				options.Closing = &closing
			}
			s, err := FitSweep(readings, options)
			if err != nil {
				t.Fatal(err)
			}
			if s.Doubt != Misread || len(s.Suspects) != 1 {
				t.Errorf("closed %v, run %v: doubt %q, suspects %+v", closed, run, s.Doubt, s.Suspects)
				continue
			}
			got := s.Suspects[0]
			if got.First != run[0] || got.Last != run[1] || got.Likely != WholeTurn {
				t.Errorf("closed %v, run %v: named %d to %d as %q", closed, run, got.First, got.Last, got.Likely)
			}
			if away := got.Tilt.Minus(clean.Tilt).Steepest(); away > 1e-9 {
				t.Errorf("run %v: tilt put right is %v from the honest one", run, away)
			}
		}
	}
}

func TestMisreadTooFewToTell(t *testing.T) {
	// Four readings, one a turn off: any of the four could be wrong.
	s, err := FitSweep(round(Thou, 0, 1, 32, 1), SweepOptions{Radius: 110 * mm, Indicator: leverA()})
	if err != nil {
		t.Fatal(err)
	}
	if s.Doubt != TooFew || len(s.Suspects) != 0 {
		t.Errorf("doubt %q, suspects %+v, want too few", s.Doubt, s.Suspects)
	}
	// Five can tell a whole turn.
	s, err = FitSweep(round(Thou, 1, 0.25, 29.25, -0.75, 0.25), SweepOptions{Radius: 110 * mm, Indicator: leverA()})
	if err != nil {
		t.Fatal(err)
	}
	if s.Doubt != Misread || s.Suspects[0].First != 3 {
		t.Errorf("doubt %q, suspects %+v, want reading 3", s.Doubt, s.Suspects)
	}
}

// A bent table is not a misread reading.
func TestUnevenTable(t *testing.T) {
	readings := round(Thou, make([]float64, 12)...)
	for i := range readings {
		readings[i].Reading = unit.Length(math.Round(8*math.Cos(2*float64(readings[i].Azimuth)))/4) * Thou
	}
	s, err := FitSweep(readings, SweepOptions{Radius: 110 * mm, Indicator: leverA()})
	if err != nil {
		t.Fatal(err)
	}
	if s.Doubt != Uneven || len(s.Suspects) != 0 {
		t.Errorf("doubt %q, suspects %+v, want uneven", s.Doubt, s.Suspects)
	}
	near(t, "second harmonic, thou", float64(s.Second.Amplitude/Thou)*0.985, 2, 0.1)
}

// Honest sweeps are seldom accused: 1 % of those looked into, and only one in a
// thousand is looked into when the step is all there is. With noise of three
// steps every sweep is looked into; 2000 sweeps at 1 % give 20 with a standard
// deviation of 4.5.
func TestHonestSweepsSeldomAccused(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	accused, doubted := 0, 0
	for range 2000 {
		readings := round(um, make([]float64, 8)...)
		for i := range readings {
			readings[i].Reading = unit.Length(random.NormFloat64()) * 20 * um
		}
		s, err := FitSweep(readings, SweepOptions{Radius: 110 * mm, Indicator: leverA()})
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Suspects) > 0 {
			accused++
		}
		stepped, _ := simulate(random, 8, 110*mm, Gradient{X: 2e-4, Y: -1e-4}, 0.985, 0, 0.25*Thou)
		s, err = FitSweep(stepped, SweepOptions{Radius: 110 * mm, Indicator: leverA()})
		if err != nil {
			t.Fatal(err)
		}
		if s.Doubt != NoDoubt {
			doubted++
		}
	}
	t.Logf("%d of 2000 noisy sweeps accused, %d of 2000 stepped ones doubted", accused, doubted)
	if accused > 34 {
		t.Errorf("%d of 2000 honest sweeps accused, want about 20", accused)
	}
	if doubted > 8 {
		t.Errorf("%d of 2000 sweeps read in steps doubted, want about 2", doubted)
	}
}

// Without a stated division nothing is known about the step, so only a reading
// that the others contradict by their own scatter is named.
func TestMisreadWithoutDivision(t *testing.T) {
	values := []float64{10.1, 7.2, 0.2, -7.3, -9.8, 92.9, 0.1, 7.1}
	s, err := FitSweep(round(um, values...), SweepOptions{Radius: 100 * mm})
	if err != nil {
		t.Fatal(err)
	}
	if s.Doubt != Misread || s.Suspects[0].First != 6 {
		t.Errorf("doubt %q, suspects %+v, want reading 6", s.Doubt, s.Suspects)
	}
	values[5] = -7.1
	s, err = FitSweep(round(um, values...), SweepOptions{Radius: 100 * mm})
	if err != nil || s.Doubt != NoDoubt {
		t.Errorf("doubt %q, %v, want none", s.Doubt, err)
	}
}
