package wear

import (
	"math"
	"testing"
)

func TestSlopeUnits(t *testing.T) {
	tests := []struct {
		name      string
		got, want float64
		tolerance float64 // digits of the stated value
	}{
		// Conversions from the definition of the arc second, pi/648000 rad, and
		// of the inch, 25.4 mm.
		{"1 arcsec over 100 mm in um", float64(ArcSecond.Rise(100*mm) / um), 0.4848137, 1e-7},
		{"0.02 mm/m in arcsec", float64(0.02 * MillimetrePerMetre / ArcSecond), 4.125296, 1e-6},
		{"0.02 mm/m over 200 mm in um", float64((0.02 * MillimetrePerMetre).Rise(200*mm) / um), 4, 1e-12},
		{"0.0005 in/ft in mm/m", float64(0.0005 * InchPerFoot / MillimetrePerMetre), 0.0416667, 1e-7},
		{"0.0005 in/ft in arcsec", float64(0.0005 * InchPerFoot / ArcSecond), 8.594367, 1e-6},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if math.Abs(test.got-test.want) > test.tolerance {
				t.Errorf("got %.9g, want %.9g", test.got, test.want)
			}
		})
	}
}
