package wear

import (
	"math"
	"testing"
)

// A published worked example: a mirror on a foot of 100 mm, seven readings forward
// and seven back, in minutes and seconds of arc. Its 3 um come of one second over
// 100 mm taken as 0.5 um; exactly it is 0.484814 um, and the straightness 2.9089
// um. Source: lecture slides on straightness by autocollimator (readings and 3 um
// read; the rest recomputed).
func TestAutocollimatorExample(t *testing.T) {
	minutes := func(m, s float64) float64 { return 60*m + s }
	forward := []float64{minutes(2, 8), minutes(2, 8), minutes(2, 11), minutes(2, 15), minutes(2, 8), minutes(2, 9), minutes(2, 14)}
	back := []float64{minutes(2, 12), minutes(2, 12), minutes(2, 15), minutes(2, 19), minutes(2, 8), minutes(2, 11), minutes(2, 14)}
	rounded := Slope(0.5 * um / (100 * mm)) // what the slides take a second for
	for _, test := range []struct {
		name             string
		second           Slope
		end, least, zone float64 // um
		tolerance        float64 // um, figures stated
	}{
		{"as printed", rounded, 3, 3.035714, 3, 1e-6},
		// All three in proportion: 0.484814 over 0.5.
		{"exact", ArcSecond, 2.908882, 2.943512, 2.908882, 2e-6},
	} {
		t.Run(test.name, func(t *testing.T) {
			var steps []Step
			for i := range forward {
				steps = append(steps, Step{Base: 100 * mm, Slope: test.second * Slope((forward[i]+back[i])/2-130)})
			}
			// The first reading is that of the datum, not of a step: the slides
			// start the heights at it.
			profile, err := ProfileFromSteps(0, steps[1:], 0)
			if err != nil {
				t.Fatal(err)
			}
			for _, reference := range []struct {
				reference Reference
				want      float64
			}{{EndPoints, test.end}, {LeastSquares, test.least}, {MinimumZone, test.zone}} {
				got, err := StraightnessOf(profile.Points, reference.reference)
				if err != nil {
					t.Fatal(err)
				}
				if v := float64(got.Value / um); math.Abs(v-reference.want) > test.tolerance {
					t.Errorf("%v: %.6f um, want %.6f", reference.reference, v, reference.want)
				}
			}
		})
	}
}
