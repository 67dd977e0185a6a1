package wear

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func TestPlateLimit(t *testing.T) {
	const inch = 25.4 * mm
	// The formula as quoted; microinches, exact arithmetic.
	for _, test := range []struct {
		x, y  float64
		grade PlateGrade
		want  float64
	}{{12, 12, GradeAA, 51.52}, {18, 24, GradeAA, 76}, {24, 36, GradeAA, 114.88}, {12, 12, GradeA, 103.04}, {12, 12, GradeB, 206.08}} {
		got, err := PlateLimit(unit.Length(math.Hypot(test.x, test.y))*inch, test.grade)
		if err != nil {
			t.Fatal(err)
		}
		if micro := float64(got / inch * 1e6); math.Abs(micro-test.want) > 1e-9 {
			t.Errorf("%g x %g, grade %v: %g microinches, want %g", test.x, test.y, test.grade, micro, test.want)
		}
	}
	limit, err := PlateLimit(unit.Length(math.Hypot(24, 36))*inch, GradeAA)
	if err != nil {
		t.Fatal(err)
	}
	holdsRow(t, "plate-grade-metric", float64(limit/um))
	for _, diagonal := range []unit.Length{0, -1, unitNaN, 11} {
		if _, err := PlateLimit(diagonal, GradeAA); err == nil {
			t.Errorf("no error for a diagonal of %g m", float64(diagonal))
		}
	}
	if _, err := PlateLimit(1, 3); err == nil {
		t.Error("no error for an unknown grade")
	}
}

func TestPlateLimitDIN(t *testing.T) {
	for side, want := range map[unit.Length][]float64{1: {8, 20, 40, 80}, 0.630: {6.52, 16.3, 32.6, 65.2}} {
		for grade, micrometres := range want {
			got, err := PlateLimitDIN(side, grade)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(float64(got)*1e6-micrometres) > 1e-9 {
				t.Errorf("grade %d of %g m: %g um, want %g", grade, float64(side), float64(got)*1e6, micrometres)
			}
		}
	}
	limit, err := PlateLimitDIN(0.630, 1)
	if err != nil {
		t.Fatal(err)
	}
	holdsRow(t, "plate-din-630", float64(limit/um))
	for _, bad := range []struct {
		side  unit.Length
		grade int
	}{{0, 1}, {-1, 1}, {11, 1}, {unit.Length(math.NaN()), 1}, {1, -1}, {1, 4}} {
		if got, err := PlateLimitDIN(bad.side, bad.grade); err == nil {
			t.Errorf("grade %d of %g m: %g, want an error", bad.grade, float64(bad.side), float64(got))
		}
	}
}
