package squaring

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// Source: machine taper dimensions as reproduced in a public table of standard
// tapers (2009), four-place taper per foot and four-place half angle (read).
// The 2e-4 degree tolerance is the rounding of the four-place taper; the
// second figure is recomputed and held to 1e-5.
func TestHalfAngleFromTaper(t *testing.T) {
	tests := []struct {
		name              string
		perFoot           float64
		printed, computed float64
	}{
		{"Morse 0", 0.6246, 1.4908, 1.49079},
		{"Morse 1", 0.5986, 1.4287, 1.42876},
		{"Morse 3", 0.6024, 1.4377, 1.43782},
		{"Morse 5", 0.6315, 1.5073, 1.50725},
		{"Morse 7", 0.6240, 1.4894, 1.48935},
		{"Jarno", 0.6000, 1.4321, 1.43210},
		{"7/24", 3.5, 8.29714, 8.29714},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			half, err := HalfAngleFromTaper(Slope(test.perFoot) * InchPerFoot)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "half angle, printed", float64(half/Degree), test.printed, 2e-4)
			near(t, "half angle, computed", float64(half/Degree), test.computed, 1e-5)
			back, err := TaperFromHalfAngle(half)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "taper back", float64(back/InchPerFoot), test.perFoot, 1e-12)
		})
	}
	// Morse 3 and 7 from their end diameters; printed .6024 and .6240.
	for _, test := range []struct{ large, small, length, want float64 }{
		{0.938, 0.778, 3 + 3.0/16, 0.602353}, {3.270, 2.750, 10, 0.624},
	} {
		taper, err := TaperFromDiameters(unit.Length(test.large)*Inch, unit.Length(test.small)*Inch, unit.Length(test.length)*Inch)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "in per foot", float64(taper/InchPerFoot), test.want, 1e-6)
	}
}

// 1/4 in per foot on the radius is 1.1934894 degrees and on the diameter
// 1 deg 11' 37.03" included: a taper on the radius is not half of one on the
// diameter, and neither is asin. Arithmetic; the first read in a worked answer.
func TestQuarterInchPerFoot(t *testing.T) {
	onRadius := (0.25 * InchPerFoot).Angle()
	near(t, "on the radius", float64(onRadius/Degree), 1.1934894, 1e-7)
	half, err := HalfAngleFromTaper(0.25 * InchPerFoot)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "on the diameter, included", float64(2*half/Arcsecond), 3600+11*60+37.03, 0.01)
}

// Included angle to taper per foot, 24 tan(angle/2): arithmetic, seven figures.
func TestTaperFromIncludedAngle(t *testing.T) {
	for included, want := range map[float64]float64{1: 0.2094448, 10: 2.0997279, 20: 4.2318475, 30: 6.4307806, 45: 9.9411255} {
		taper, err := TaperFromHalfAngle(unit.Angle(included) / 2 * Degree)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "in per foot", float64(taper/InchPerFoot), want, 1e-6)
	}
}

// Stack for 27 degrees on a 5 in bar: 2.270 in, read in a published worked
// example. Slips 47.667 and 37.667 under a 112 mm bar: textbook exercise
// (inputs read). Bar errors: relation read in an examination item, numbers ours.
func TestSineBar(t *testing.T) {
	stack, err := SineBar{Length: 5 * Inch}.Stack(27 * Degree)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "stack", float64(stack/Inch), 2.2699525, 1e-7)
	angle, u, err := SineBar{Length: 112 * mm}.Angle(10*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "angle", float64(angle/Arcsecond), 5*3600+7*60+21.06, 0.01)
	near(t, "u", float64(u), 0, 0)
	for degree, want := range map[float64]float64{45: 2.917025, 10: 2.094468} {
		bar := SineBar{Length: 100 * mm}
		stack, err := bar.Stack(unit.Angle(degree) * Degree)
		if err != nil {
			t.Fatal(err)
		}
		angle, u, err := bar.Angle(stack, 1*um)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "angle there and back", float64(angle/Degree), degree, 1e-12)
		near(t, "u", float64(u/Arcsecond), want, 1e-5)
	}
	// u(length) alone: tan(angle) u(length)/length.
	_, u, err = SineBar{Length: 100 * mm, LengthU: 2 * um}.Angle(50*mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u from the bar", float64(u), math.Tan(math.Pi/6)*2e-5, 1e-15)
	if _, _, err := (SineBar{Length: 100 * mm}).Angle(100*mm, 0); err == nil {
		t.Error("a stack as long as the bar was accepted")
	}
	if _, err := (SineBar{}).Stack(10 * Degree); err == nil {
		t.Error("a bar of no length was accepted")
	}
}
