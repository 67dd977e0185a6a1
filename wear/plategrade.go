package wear

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// PlateGrade is a grade of a surface plate.
type PlateGrade int

// The grades, from the finest.
const (
	GradeAA PlateGrade = iota
	GradeA
	GradeB
)

// String returns the grade's letters.
func (g PlateGrade) String() string {
	switch g {
	case GradeAA:
		return "AA"
	case GradeA:
		return "A"
	case GradeB:
		return "B"
	}
	return fmt.Sprintf("grade %d", int(g))
}

// PlateLimit returns the flatness that a grade allows a plate of the given
// diagonal:
//
//	AA = 40 + D^2/25 microinches, D in inches;  A = 2 AA;  B = 4 AA
//
// (US Federal Specification GGG-P-463c, as quoted by two calibration pages; the
// specification itself was not read, and its own list of sizes is rounded
// otherwise).
//
// It returns an error for a diagonal outside 0 to 10 m or an unknown grade.
func PlateLimit(diagonal unit.Length, grade PlateGrade) (unit.Length, error) {
	if !(diagonal > 0) || diagonal > 10 {
		return 0, fmt.Errorf("wear: diagonal of a plate %.6g mm must be above 0 and at most 10 m", float64(diagonal)*1e3)
	}
	if grade < GradeAA || grade > GradeB {
		return 0, fmt.Errorf("wear: no %v of a plate", grade)
	}
	const inch, microinch = 0.0254, 0.0254e-6
	d := float64(diagonal) / inch
	limit := (40 + d*d/25) * microinch
	for range grade {
		limit *= 2
	}
	return unit.Length(limit), nil
}

// PlateLimitDIN returns the flatness that DIN 876 allows a plate by its longest
// side L, in mm, for the grades 0, 1, 2 and 3:
//
//	4 + L/250,  10 + L/100,  20 + L/50,  40 + L/25  um
//
// (as printed in the data page of a plate's maker; the standard itself was not
// read).
//
// It returns an error for a side outside 0 to 10 m or another grade.
func PlateLimitDIN(longest unit.Length, grade int) (unit.Length, error) {
	if !(longest > 0) || longest > 10 {
		return 0, fmt.Errorf("wear: longest side of a plate %.6g mm must be above 0 and at most 10 m", float64(longest)*1e3)
	}
	limits := []struct{ base, per float64 }{{4, 250}, {10, 100}, {20, 50}, {40, 25}}
	if grade < 0 || grade >= len(limits) {
		return 0, fmt.Errorf("wear: grade %d of a plate by DIN 876, must be 0 to 3", grade)
	}
	g := limits[grade]
	return unit.Length((g.base + float64(longest)*1e3/g.per) * 1e-6), nil
}
