package squaring

import (
	"testing"

	"gonum.org/v1/gonum/unit"
)

// Angles over spans: exact arithmetic, the half micrometre of an arc second over
// 100 mm being the rounding of texts on straightness.
func TestArcSecondsOverSpans(t *testing.T) {
	ten, err := SlopeFromAngle(10 * Arcsecond)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "10 arcsec over 300 mm, um", float64(ten.Rise(0.300))*1e6, 14.54441044, 1e-8)
	one, err := SlopeFromAngle(Arcsecond)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "1 arcsec over 100 mm, um", float64(one.Rise(0.100))*1e6, 0.484813681, 1e-8)
	minute, err := SlopeFromAngle(60 * Arcsecond)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "60 arcsec over 12 in, in", float64(minute.Rise(Foot)/Inch), 0.0034906586, 1e-9)
	near(t, "60 arcsec over 300 mm, mm", float64(minute.Rise(0.300))*1e3, 0.0872664651, 1e-9)
	near(t, "60 arcsec over 100 mm, um", float64(minute.Rise(0.100))*1e6, 29.08882169, 1e-8)
}

// Ratios of a 12 in granite square's face as a trade article gives them (S.
// Smith, Reversal techniques for measurement, read): the angles follow.
func TestSquareRatios(t *testing.T) {
	for _, test := range []struct{ ratio, microinch, arcsec float64 }{{120_000, 100, 1.718873}, {250_000, 48, 0.825059}} {
		s := Slope(1 / test.ratio)
		near(t, "over 12 in, uin", float64(s.PerFoot()/Inch)*1e6, test.microinch, 1e-6)
		near(t, "arcsec", s.Arcseconds(), test.arcsec, 1e-6)
	}
}

// JCGM 100:2008, 4.4.5 (numbers from memory, recomputed): limits of 96 and 104
// taken as even.
func TestRectangularShare(t *testing.T) {
	near(t, "u", OrderShare{Spread: RectangularSpread, Width: 4}.Uncertainty(), 2.309401, 1e-6)
}

// What a Type B length is worth when it is known to a hundredth of a millimetre
// by the same rule: the dial's rounding, a rectangle half a step either way.
func TestRoundingIsRectangular(t *testing.T) {
	const step unit.Length = 0.01e-3
	half := OrderShare{Spread: RectangularSpread, Width: float64(step / 2)}
	near(t, "u, um", float64(Indicator{Division: step, ReadTo: 1}.RoundingU())*1e6, half.Uncertainty()*1e6, 1e-12)
}
