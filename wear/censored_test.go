package wear

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// TestCensoredOnTobin refits the durable goods data of J. Tobin (Econometrica
// 26, 1958) as filed with the R survival package; the published fit was read in
// a test of an open port of that package.
func TestCensoredOnTobin(t *testing.T) {
	durable := []float64{0, 0.7, 0, 0, 0, 0, 0, 3.7, 0, 3.0, 10.4, 0, 0, 0, 1.5, 0, 0, 3.5, 6.1, 0}
	age := []float64{57.7, 50.9, 48.5, 41.7, 47.7, 59.8, 44.3, 45.1, 51.7, 50.0, 46.8, 58.0, 58.9, 40.0, 34.1, 39.9, 33.4, 48.1, 46.6, 53.1}
	quant := []float64{236, 283, 207, 220, 238, 216, 284, 221, 275, 269, 207, 249, 246, 277, 231, 219, 240, 266, 214, 251}
	readings := make([]censoredReading, len(durable))
	for i, d := range durable {
		readings[i] = censoredReading{d, d, 1, []float64{1, age[i], quant[i]}}
		if d == 0 {
			readings[i].low = math.Inf(-1)
		}
	}
	fit, err := fitCensored(readings, normalLaw, 5)
	if err != nil {
		t.Fatal(err)
	}
	for i, pair := range [][2]float64{
		{fit.coefficients[0], 15.1448663607}, {fit.coefficients[1], -0.129059284097}, {fit.coefficients[2], -0.0455416629543},
		{fit.scale, 5.57253976309}, {fit.logLikelihood, -28.9401331997},
	} {
		// The published iteration stops at about seven figures.
		if math.Abs(pair[0]-pair[1]) > 1e-5*(1+math.Abs(pair[1])) {
			t.Errorf("value %d = %.10g, want %.10g", i, pair[0], pair[1])
		}
	}
}

// TestCensoredOnCracks refits the part cracking data (167 parts found cracked
// between inspections) as filed with the R survival package, with its published
// Weibull fit, and the normal fit of our own.
func TestCensoredOnCracks(t *testing.T) {
	days := []float64{186, 606, 902, 1077, 1209, 1377, 1592, 1932}
	found := []float64{5, 16, 12, 18, 18, 2, 6, 17}
	build := func(scale func(float64) float64) []censoredReading {
		var readings []censoredReading
		low := math.Inf(-1)
		for i, d := range days {
			readings = append(readings, censoredReading{low, scale(d), found[i], []float64{1}})
			low = scale(d)
		}
		return append(readings, censoredReading{low, math.Inf(1), 73, []float64{1}})
	}
	weibull, err := fitCensored(build(math.Log), smallestLaw, 1)
	if err != nil {
		t.Fatal(err)
	}
	// The filed likelihood is that of the days, not of their logarithms; for
	// intervals the two are one.
	for i, pair := range [][2]float64{{weibull.coefficients[0], 7.687999}, {math.Log(weibull.scale), -0.395258}, {weibull.logLikelihood, -309.631181}} {
		if math.Abs(pair[0]-pair[1]) > 1e-4 {
			t.Errorf("Weibull value %d = %.7g, want %.7g", i, pair[0], pair[1])
		}
	}
	normal, err := fitCensored(build(func(d float64) float64 { return d }), normalLaw, 500)
	if err != nil {
		t.Fatal(err)
	}
	for i, pair := range [][2]float64{{normal.coefficients[0], 1717.623}, {normal.scale, 971.7015}, {normal.logLikelihood, -314.859925}} {
		if math.Abs(pair[0]-pair[1]) > 1e-3 {
			t.Errorf("normal value %d = %.7g, want %.7g", i, pair[0], pair[1])
		}
	}
}

// gauged is a constructed run of wear with a gauge that shows nothing below 5.
func gauged() []BoundedDepth {
	var readings []BoundedDepth
	for i, w := range []float64{0, 0, 0, 8.1, 9.4, 12.2, 13.6, 16.4} {
		r := BoundedDepth{Clock: unit.Time(i + 1), Low: unit.Length(w) * um, High: unit.Length(w) * um}
		if w == 0 {
			r.Low, r.High = unit.Length(math.Inf(-1)), 5*um
		}
		readings = append(readings, r)
	}
	return readings
}
