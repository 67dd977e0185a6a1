package squaring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// edge makes the readings of a square at even heights, mm.
func edge(marked, turned []float64) []EdgeReading {
	var readings []EdgeReading
	for i, v := range marked {
		readings = append(readings, EdgeReading{Height: unit.Length(50*i) * mm, Reading: unit.Length(v) * mm})
	}
	for i, v := range turned {
		readings = append(readings, EdgeReading{Height: unit.Length(50*i) * mm, Reading: unit.Length(v) * mm, Turned: true})
	}
	return readings
}

// +0.018 and -0.006 mm over 250 mm: lean 0.006 mm, 4.950355 arc seconds; square
// 0.012 mm, 9.900711. Constructed, arithmetic.
func TestReverseSquareByHand(t *testing.T) {
	s, err := ReverseSquare([]EdgeReading{{}, {Height: 250 * mm, Reading: 0.018 * mm}, {Turned: true}, {Height: 250 * mm, Reading: -0.006 * mm, Turned: true}}, 0.002*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "lean", s.Lean.Slope.Arcseconds(), 4.950355, 1e-6)
	near(t, "square", s.Square.Slope.Arcseconds(), 9.900711, 1e-6)
	// Four readings sure to 0.577 um: over 250 mm, 1.155 um over twice the span.
	near(t, "u", s.Lean.Uncertainty.Microradians(), 2*2/math.Sqrt(12)/0.25/2, 1e-6)
	near(t, "u of the square", float64(s.Square.Uncertainty), float64(s.Lean.Uncertainty), 1e-15)
}

// The demonstration shop's knee and square: +20, -60 and 28 urad made up, within
// three stated standard uncertainties.
func TestReverseSquareRecoversTruth(t *testing.T) {
	for _, test := range []struct {
		name           string
		marked, turned []float64
		lean, square   float64
	}{
		{"x", []float64{0, 0.002, 0.004, 0.008}, []float64{0, -0.002, 0, 0}, 20, 28},
		{"y", []float64{0, -0.002, -0.002, -0.004}, []float64{0, -0.006, -0.008, -0.012}, -60, 28},
	} {
		s, err := ReverseSquare(edge(test.marked, test.turned), 0.002*mm)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: lean %v u %v, square %v u %v, bow %.2f um", test.name, s.Lean.Slope, s.Lean.Uncertainty, s.Square.Slope, s.Square.Uncertainty, float64(s.Bow.Length/um))
		near(t, test.name+" lean", s.Lean.Slope.Microradians(), test.lean, 3*s.Lean.Uncertainty.Microradians())
		near(t, test.name+" square", s.Square.Slope.Microradians(), test.square, 3*s.Square.Uncertainty.Microradians())
	}
}

// Turning the names of the positions turns the square's sign and keeps the lean;
// a dial on the other side turns both; a bow is found and does not disturb.
func TestReverseSquareLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(19, 20))
	for range 50 {
		var readings, swapped, mirrored, bowed []EdgeReading
		for i := range 10 {
			r := EdgeReading{Height: unit.Length(25*(i%5)) * mm, Reading: unit.Length(random.NormFloat64()) * um, Turned: i >= 5}
			readings = append(readings, r)
			swapped = append(swapped, EdgeReading{r.Height, r.Reading, !r.Turned})
			mirrored = append(mirrored, EdgeReading{r.Height, -r.Reading, r.Turned})
			x := (float64(r.Height) - 0.05) / 0.05
			bowed = append(bowed, EdgeReading{r.Height, r.Reading + unit.Length(1-x*x)*10*um, r.Turned})
		}
		var got [4]SquareReversal
		for i, set := range [][]EdgeReading{readings, swapped, mirrored, bowed} {
			var err error
			if got[i], err = ReverseSquare(set, 0); err != nil {
				t.Fatal(err)
			}
		}
		near(t, "swapped lean", float64(got[1].Lean.Slope), float64(got[0].Lean.Slope), 1e-17)
		near(t, "swapped square", float64(got[1].Square.Slope), float64(-got[0].Square.Slope), 1e-17)
		near(t, "mirrored lean", float64(got[2].Lean.Slope), float64(-got[0].Lean.Slope), 1e-17)
		near(t, "bowed lean", float64(got[3].Lean.Slope), float64(got[0].Lean.Slope), 1e-17)
		near(t, "bow", float64(got[3].Bow.Length-got[0].Bow.Length), 10e-6, 1e-16)
	}
}

func TestReverseSquareRejects(t *testing.T) {
	nan := unit.Length(math.NaN())
	good := edge([]float64{0, 1}, []float64{0, 1})
	for name, readings := range map[string][]EdgeReading{
		"none": nil, "not turned": edge([]float64{0, 1, 2, 3}, nil), "one turned": edge([]float64{0, 1, 2}, []float64{0}),
		"one height":   {{}, {}, {Turned: true}, {Turned: true}},
		"one position": {{}, {Height: 1}, {Turned: true}, {Turned: true}},
		"nan":          append(append([]EdgeReading{}, good...), EdgeReading{Reading: nan}),
		"inf height":   append(append([]EdgeReading{}, good...), EdgeReading{Height: unit.Length(math.Inf(1))}),
	} {
		if s, err := ReverseSquare(readings, 0); err == nil {
			t.Errorf("%s: %+v, want an error", name, s)
		}
	}
	if _, err := ReverseSquare(good, -1); err == nil {
		t.Error("a negative step was accepted")
	}
}

// jawPoints makes a run at -60 to 60 mm in steps of 20.
func jawPoints(values ...float64) []JawPoint {
	points := make([]JawPoint, len(values))
	for i, v := range values {
		points[i] = JawPoint{Place: unit.Length(20*i-60) * mm, Reading: unit.Length(v) * mm}
	}
	return points
}

// The demonstration shop's four settings of the vise: fits printed with the data
// (532, -118, 32, -18 urad) and made-up truth 540, -130, 40, -12, within three
// stated standard uncertainties. The made-up hollow is 0.010 mm over a jaw whose
// length is not stated, so that over the 120 mm read it can only be bounded: each
// run must find some, less than that, and all four the same within three.
func TestFitJawRun(t *testing.T) {
	for _, test := range []struct {
		run          []JawPoint
		fitted, want float64
	}{
		{jawPoints(0.002, 0.008, 0.016, 0.026, 0.038, 0.050, 0.066), 532, 540},
		{jawPoints(0, -0.008, -0.010, -0.014, -0.014, -0.018, -0.014), -118, -130},
		{jawPoints(0, -0.002, -0.004, -0.004, -0.002, 0, 0.004), 32, 40},
		{jawPoints(0, -0.004, -0.006, -0.008, -0.006, -0.006, -0.002), -18, -12},
	} {
		j, err := FitJawRun(test.run, 0.002*mm)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "yaw as printed", j.Yaw.Slope.Microradians(), test.fitted, 0.5)
		near(t, "yaw", j.Yaw.Slope.Microradians(), test.want, 3*j.Yaw.Uncertainty.Microradians())
		near(t, "hollow um, against the four runs' mean", float64(j.Hollow.Length/um), 6.5, 3*float64(j.Hollow.Uncertainty/um))
		if j.Hollow.Length > 10*um || j.Hollow.Length < 3*j.Hollow.Uncertainty {
			t.Errorf("hollow %.1f um, u %.1f um", float64(j.Hollow.Length/um), float64(j.Hollow.Uncertainty/um))
		}
		near(t, "length mm", float64(j.Length/mm), 120, 1e-12)
		for i, p := range test.run {
			near(t, "curve and residual", float64(j.Expect(p.Place)+j.Residuals[i]), float64(p.Reading), 1e-15)
		}
	}
}

func TestJawRunByHand(t *testing.T) {
	// 100 urad of turn and 8 um of hollow over 120 mm, exact, zero anywhere.
	var run []JawPoint
	for i := range 7 {
		x := unit.Length(20*i-60) * mm
		half := float64(x / (60 * mm))
		run = append(run, JawPoint{Place: x + 200*mm, Reading: x*100e-6 + unit.Length(8*half*half)*um + 0.3*mm})
	}
	j, err := FitJawRun(run, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "yaw", j.Yaw.Slope.Microradians(), 100, 1e-6)
	near(t, "hollow um", float64(j.Hollow.Length/um), 8, 1e-6)
	near(t, "a part half as long, um", float64(j.SitsBack(60*mm).Length/um), 2, 1e-6)
	near(t, "a part too long, um", float64(j.SitsBack(500*mm).Length/um), 8, 1e-6)
	near(t, "tap at the right end, um", float64(j.TapAt(60*mm).Length/um), 6, 1e-6)
	near(t, "tap at the left end, um", float64(j.TapAt(-60*mm).Length/um), -6, 1e-6)
	if got := (JawRun{}).SitsBack(1); got != (MeasuredLength{}) {
		t.Errorf("nothing measured: %v", got)
	}
}

func TestFitJawRunRejects(t *testing.T) {
	nan := unit.Length(math.NaN())
	for name, points := range map[string][]JawPoint{
		"none": nil, "two": jawPoints(0, 1), "two places": {{Place: 1}, {Place: 2}, {Place: 1}, {Place: 2}}, "one place": {{}, {}, {}},
		"nan": {{}, {Place: 1}, {Place: 2, Reading: nan}}, "nan place": {{}, {Place: nan}, {Place: 2}},
	} {
		if j, err := FitJawRun(points, 0); err == nil {
			t.Errorf("%s: %+v, want an error", name, j)
		}
	}
	if _, err := FitJawRun(jawPoints(0, 1, 2), nan); err == nil {
		t.Error("a step that is not a number was accepted")
	}
}
