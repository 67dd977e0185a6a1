package squaring

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// Exercise: d0 = 0.000, d180 = +0.070 over 190 mm: -184 urad and +0.035 mm; four
// readings to 0.005 mm leave 7.6 urad.
func TestTwoDialsByHand(t *testing.T) {
	dial := Indicator{Division: 0.01 * mm}
	g, err := ReadTwoDials([]DialPair{{First: 0.620 * mm, Second: 0.620 * mm}, {First: 0.585 * mm, Second: 0.655 * mm, Turned: true}},
		TwoDialOptions{Span: 190 * mm, First: dial, Second: dial})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tilt", g.Tilt.Slope.Microradians(), -184.2, 0.05)
	near(t, "u", g.Tilt.Uncertainty.Microradians(), 7.6, 0.05)
	near(t, "mismatch mm", float64(g.Mismatch/mm), 0.035, 1e-12)
	near(t, "u(mismatch) um", float64(g.MismatchU/um), 5/math.Sqrt(12)*math.Sqrt2*math.Sqrt2/2, 1e-9)
	near(t, "believed", g.Believed.Microradians(), 0, 1e-9)
	near(t, "left when alike", g.WhenAlike.Microradians(), -184.2, 0.05)
	// A mismatch of 0.034 over 190 is 179 urad of tilt with both dials the same.
	near(t, "0.034 over 190", float64(0.034*mm/(190*mm))*1e6, 179, 0.1)
}

// twoDialSet is one line of the demonstration shop's two-dial readings, mm, and
// the made-up truth (spindle minus table, urad; mismatch, mm).
type twoDialSet struct {
	name                 string
	b0, c0, b180, c180   float64
	spindle, mismatch    float64
	printedTilt, printed float64
}

func twoDialSets() []twoDialSet {
	return []twoDialSet{
		{"2019 found X", 0.625, 0.590, 0.575, 0.635, 240, 0.012, -250, 0.0125},
		{"2019 found Y", 0.570, 0.640, 0.630, 0.580, -310, 0.012, 316, 0.0100},
		{"2019 left X", 0.605, 0.610, 0.595, 0.620, 58, 0.012, -53, 0.0150},
		{"2019 left Y", 0.610, 0.605, 0.590, 0.620, 66, 0.012, -92, 0.0125},
		{"2021 found X", 0.610, 0.605, 0.595, 0.620, 83, 0.012, -79, 0.0100},
		{"2021 found Y", 0.610, 0.600, 0.590, 0.620, 98, 0.012, -105, 0.0100},
		{"2021 left X", 0.605, 0.605, 0.595, 0.620, 61, 0.012, -66, 0.0125},
		{"2021 left Y", 0.605, 0.605, 0.595, 0.615, 59, 0.012, -53, 0.0100},
		{"2023 found X", 0.610, 0.625, 0.590, 0.640, 96, 0.034, -92, 0.0325},
		{"2023 found Y", 0.610, 0.625, 0.590, 0.645, 101, 0.034, -105, 0.0350},
		{"2023 left X", 0.620, 0.620, 0.585, 0.655, 171, 0.034, -184, 0.0350},
		{"2023 left Y", 0.615, 0.615, 0.580, 0.650, 184, 0.034, -184, 0.0350},
		{"2025 found X", 0.620, 0.610, 0.580, 0.655, 232, 0.034, -224, 0.0325},
		{"2025 found Y", 0.620, 0.610, 0.575, 0.655, 231, 0.034, -237, 0.0350},
		{"2025 left X", 0.600, 0.635, 0.600, 0.635, -9, 0.034, 0, 0.0350},
		{"2025 left Y", 0.600, 0.635, 0.600, 0.635, 14, 0.034, 0, 0.0350},
	}
}

// The demonstration readings give back the made-up truth within three stated
// standard uncertainties each, and all sixteen together with a sum of squares
// that chance grants (16 degrees of freedom, 0.1 %: 39.3).
func TestTwoDialsRecoverTruth(t *testing.T) {
	b := Indicator{Division: 0.01 * mm, Gain: 1.004, GainU: 0.003, Hysteresis: 3 * um}
	c := Indicator{Division: 0.01 * mm, Gain: 1.031, GainU: 0.003, Hysteresis: 7 * um}
	squares := 0.0
	for _, set := range twoDialSets() {
		t.Run(set.name, func(t *testing.T) {
			readings := []DialPair{
				{First: unit.Length(set.b0) * mm, Second: unit.Length(set.c0) * mm},
				{First: unit.Length(set.b180) * mm, Second: unit.Length(set.c180) * mm, Turned: true},
			}
			plain, err := ReadTwoDials(readings, TwoDialOptions{Span: 190 * mm})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "tilt as printed with the data", plain.Tilt.Slope.Microradians(), set.printedTilt, 0.5)
			near(t, "mismatch as printed", float64(plain.Mismatch/mm), set.printed, 1e-9)
			g, err := ReadTwoDials(readings, TwoDialOptions{Span: 190 * mm, First: b, Second: c})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "tilt", g.Tilt.Slope.Microradians(), -set.spindle, 3*g.Tilt.Uncertainty.Microradians())
			near(t, "mismatch mm", float64(g.Mismatch/mm), set.mismatch, 3*float64(g.MismatchU/mm))
			squares += math.Pow((g.Tilt.Slope.Microradians()+set.spindle)/g.Tilt.Uncertainty.Microradians(), 2)
		})
	}
	t.Logf("sum of squares %.1f", squares)
	if squares > 39.3 {
		t.Errorf("sum of squared deviations over uncertainties %.1f, more than 39.3", squares)
	}
}

// Gains by hand: each dial's change is divided by its own gain.
func TestTwoDialsGain(t *testing.T) {
	o := TwoDialOptions{Span: 200 * mm, SpanU: 2 * mm, First: Indicator{Gain: 0.5, GainU: 0.01}, Second: Indicator{Gain: 2, GainU: 0.02}}
	g, err := ReadTwoDials([]DialPair{{First: 10 * um, Second: 80 * um}, {First: 20 * um, Second: 0 * um, Turned: true}}, o)
	if err != nil {
		t.Fatal(err)
	}
	tilt := (80/2.0 - 10/0.5 - (0/2.0 - 20/0.5)) / 400e-3 // um over m
	near(t, "tilt", g.Tilt.Slope.Microradians(), tilt, 1e-9)
	near(t, "u", g.Tilt.Uncertainty.Microradians(), tilt*math.Hypot(math.Hypot(0.02, 0.01)/2, 0.01), 1e-9)
}

func TestTwoDialsRepeats(t *testing.T) {
	// Three repeats either way: pooled scatter, four degrees of freedom.
	var readings []DialPair
	for _, v := range []float64{20, 23, 26} {
		readings = append(readings, DialPair{Second: unit.Length(v) * um}, DialPair{Second: unit.Length(v-40) * um, Turned: true})
	}
	g, err := ReadTwoDials(readings, TwoDialOptions{Span: 200 * mm})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tilt", g.Tilt.Slope.Microradians(), 100, 1e-9)
	near(t, "scatter um", float64(g.Scatter/um), 3, 1e-9)
	near(t, "u", g.Tilt.Uncertainty.Microradians(), 3/math.Sqrt(3)*math.Sqrt2/0.4, 1e-9)
	// Welch-Satterthwaite with both shares pooled on 4: 8 by the formula.
	near(t, "degrees of freedom", g.DegreesOfFreedom, 8, 1e-9)
	// On one mark, repeats do not lessen the rounding.
	dial := Indicator{Division: 0.01 * mm}
	alike := []DialPair{{}, {}, {}, {Turned: true}, {Turned: true}, {Turned: true}}
	g, err = ReadTwoDials(alike, TwoDialOptions{Span: 190 * mm, First: dial, Second: dial})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u", g.Tilt.Uncertainty.Microradians(), 7.6, 0.05)
}

// With the mismatch known one position is enough, and both positions agree.
func TestTwoDialsKnownMismatch(t *testing.T) {
	mismatch := 0.034 * mm
	o := TwoDialOptions{Span: 190 * mm, Mismatch: (*unit.Length)(&mismatch), MismatchU: 0.002 * mm}
	for _, r := range []DialPair{{First: 0.6 * mm, Second: 0.653 * mm}, {First: 0.6 * mm, Second: 0.615 * mm, Turned: true}} {
		g, err := ReadTwoDials([]DialPair{r}, o)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "tilt", g.Tilt.Slope.Microradians(), 100, 1e-6)
		near(t, "u", g.Tilt.Uncertainty.Microradians(), 2/0.19, 1e-6)
		if g.Reversed {
			t.Error("one position counted as reversed")
		}
	}
}

// Swapping the dials' names and turning the bar are the same; a lift of the
// whole bar changes nothing; turning the machine's sense turns the sign.
func TestTwoDialsLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 18))
	for range 50 {
		var readings, swapped, lifted []DialPair
		for i := range 6 {
			r := DialPair{First: unit.Length(random.NormFloat64()) * 20 * um, Second: unit.Length(random.NormFloat64()) * 20 * um, Turned: i%2 == 1}
			readings = append(readings, r)
			swapped = append(swapped, DialPair{First: r.Second, Second: r.First, Turned: !r.Turned})
			lifted = append(lifted, DialPair{First: r.First + 100*um, Second: r.Second + 100*um, Turned: r.Turned})
		}
		o := TwoDialOptions{Span: 190 * mm, First: Indicator{Gain: 0.99}, Second: Indicator{Gain: 0.99}}
		var got [3]TwoDials
		for i, set := range [][]DialPair{readings, swapped, lifted} {
			var err error
			if got[i], err = ReadTwoDials(set, o); err != nil {
				t.Fatal(err)
			}
		}
		near(t, "swapped tilt", float64(got[1].Tilt.Slope), float64(got[0].Tilt.Slope), 1e-15)
		near(t, "swapped mismatch", float64(got[1].Mismatch), float64(-got[0].Mismatch), 1e-17)
		near(t, "lifted tilt", float64(got[2].Tilt.Slope), float64(got[0].Tilt.Slope), 1e-15)
	}
}

func TestTwoDialsReject(t *testing.T) {
	both := []DialPair{{}, {Turned: true}}
	nan := unit.Length(math.NaN())
	for name, in := range map[string]struct {
		readings []DialPair
		options  TwoDialOptions
	}{
		"none":       {nil, TwoDialOptions{Span: 190 * mm}},
		"no span":    {both, TwoDialOptions{}},
		"span u":     {both, TwoDialOptions{Span: 190 * mm, SpanU: -1}},
		"reading":    {[]DialPair{{First: nan}, {Turned: true}}, TwoDialOptions{Span: 190 * mm}},
		"gain":       {both, TwoDialOptions{Span: 190 * mm, Second: Indicator{Gain: 9}}},
		"mismatch":   {both[:1], TwoDialOptions{Span: 190 * mm, Mismatch: &nan}},
		"mismatch u": {both, TwoDialOptions{Span: 190 * mm, MismatchU: nan}},
	} {
		if g, err := ReadTwoDials(in.readings, in.options); err == nil {
			t.Errorf("%s: %+v, want an error", name, g)
		}
	}
	_, err := ReadTwoDials(both[:1], TwoDialOptions{Span: 190 * mm})
	if err == nil || !strings.Contains(err.Error(), "half a turn") {
		t.Errorf("one position: %v, want a message that says to turn the bar", err)
	}
}
