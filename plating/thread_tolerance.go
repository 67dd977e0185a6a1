package plating

// Screw-thread tolerances for plated parts. The tables hold what was read in
// reproductions of ISO 4042:1999 or is remembered from ISO 965-1; each says
// which. The standards themselves rule.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Position is the tolerance position of an external metric thread: how far its
// largest pitch diameter stays below the basic one.
type Position string

// The positions, from none to wide.
const (
	PositionH Position = "h" // no allowance
	PositionG Position = "g"
	PositionF Position = "f"
	PositionE Position = "e"
)

// threadRow is a row of the deviations of coarse threads, in um, all to be
// taken below the basic profile.
type threadRow struct {
	pitch, g, f, e float64 // mm, um
}

// deviationTable is ISO 4042:1999, table 2, as read in a reproduction (M3 to
// M12). Its rounded figures stand up to 2 um from the rule of ISO 965-1.
func deviationTable() []threadRow {
	return []threadRow{
		{0.5, 20, 36, 50},
		{0.7, 22, 38, 56},
		{0.8, 24, 38, 60},
		{1, 26, 40, 60},
		{1.25, 28, 42, 63},
		{1.75, 34, 48, 71},
	}
}

// Known says whether a figure stands in a table that was read or follows a rule
// from memory.
type Known string

// How a deviation is known.
const (
	FromTable Known = "table read in a reproduction of ISO 4042:1999"
	FromRule  Known = "rule of ISO 965-1, from memory"
)

// Allowance returns the fundamental deviation of an external thread as a
// positive length: how far its largest pitch diameter lies below the basic one
// before plating, which is what a coat may fill. Pitches of 0.5, 0.7, 0.8, 1,
// 1.25 and 1.75 mm come from the table; others of 0.2 to 6 mm follow the rule
// 15, 30 or 50 um plus 11 um for each millimetre of pitch (g, f, e), which can
// be 2 um off the standard's rounded figure.
func Allowance(pitch unit.Length, position Position) (unit.Length, Known, error) {
	p := float64(pitch / (1e-3 * unit.Metre))
	if !(p >= 0.2 && p <= 6) {
		return 0, "", fmt.Errorf("plating: pitch is %s, must be 0.2 mm to 6 mm", inMillimetre.of(float64(pitch)))
	}
	if position == PositionH {
		return 0, FromTable, nil
	}
	for _, row := range deviationTable() {
		if math.Abs(p-row.pitch) < 1e-9 {
			switch position {
			case PositionG:
				return unit.Length(row.g) * um, FromTable, nil
			case PositionF:
				return unit.Length(row.f) * um, FromTable, nil
			case PositionE:
				return unit.Length(row.e) * um, FromTable, nil
			}
		}
	}
	switch position {
	case PositionG:
		return unit.Length(15+11*p) * um, FromRule, nil
	case PositionF:
		return unit.Length(30+11*p) * um, FromRule, nil
	case PositionE:
		return unit.Length(50+11*p) * um, FromRule, nil
	}
	return 0, "", fmt.Errorf("plating: thread position %q is not h, g, f or e", position)
}

// um is the micrometre.
const um = 1e-6 * unit.Metre

// BasicPitchDiameter returns the pitch diameter of the basic ISO profile,
// d - 3/4 H with H = sqrt(3)/2 P (ISO 724, from memory; exact geometry).
func BasicPitchDiameter(diameter, pitch unit.Length) (unit.Length, error) {
	d2 := diameter - unit.Length(0.75*math.Sqrt(3)/2)*pitch
	if err := firstError(positive("thread diameter", float64(diameter), inMillimetre), positive("pitch", float64(pitch), inMillimetre)); err != nil {
		return 0, err
	}
	if d2 <= diameter/2 {
		return 0, fmt.Errorf("plating: pitch is %s, too coarse for a diameter of %s", inMillimetre.of(float64(pitch)), inMillimetre.of(float64(diameter)))
	}
	return d2, nil
}

// PitchDiameterTolerance returns the widths of the pitch-diameter tolerances of
// an external thread of grade 6 and of the internal thread of grade 6 that goes
// with it. They follow the rule of ISO 965-1 (from memory)
//
//	Td2 = 90 P^0.4 d^0.1 um,  TD2 = 1.32 Td2
//
// with pitch and diameter in mm, d the geometric middle of its range of
// diameters, which here is taken as the diameter itself: within 6 % of the
// rounded figures of the standard for M3 to M12.
func PitchDiameterTolerance(diameter, pitch unit.Length) (external, internal unit.Length, err error) {
	if _, err := BasicPitchDiameter(diameter, pitch); err != nil {
		return 0, 0, err
	}
	d, p := float64(diameter)*1e3, float64(pitch)*1e3
	external = unit.Length(90*math.Pow(p, 0.4)*math.Pow(d, 0.1)) * um
	return external, 1.32 * external, nil
}

// CoatingClass is a nominal coating thickness with its limits.
type CoatingClass struct {
	Nominal unit.Length
	// LocalLeast is the least thickness at the measuring place; MeanLeast and
	// MeanMost bound the mean of a batch.
	LocalLeast, MeanLeast, MeanMost unit.Length
}

// CoatingClasses returns the nominal thicknesses of coated fasteners (ISO
// 4042:1999, table 1, read in a reproduction).
func CoatingClasses() []CoatingClass {
	rows := [][4]float64{{3, 3, 3, 5}, {5, 5, 4, 6}, {8, 8, 7, 10}, {10, 10, 9, 12}, {12, 12, 11, 15},
		{15, 15, 14, 18}, {20, 20, 18, 23}, {25, 25, 23, 28}, {30, 30, 27, 35}}
	classes := make([]CoatingClass, len(rows))
	for i, r := range rows {
		classes[i] = CoatingClass{unit.Length(r[0]) * um, unit.Length(r[1]) * um, unit.Length(r[2]) * um, unit.Length(r[3]) * um}
	}
	return classes
}

// lengthFactor returns by how much a thread's pitch diameter grows over its
// local thickness, when its length over diameter is as given and the coat is
// thicker at the ends than where it is measured (ISO 4042:1999: 4, 5 and 6 for
// lengths up to 5, 10 and 15 diameters, read in a reproduction).
func lengthFactor(slenderness float64) (float64, error) {
	switch {
	case !(slenderness > 0) || slenderness > 15:
		return 0, fmt.Errorf("plating: length over diameter is %.4g, must be above 0 and at most 15", slenderness)
	case slenderness <= 5:
		return 4, nil
	case slenderness <= 10:
		return 5, nil
	}
	return 6, nil
}

// LargestClass returns the thickest nominal class whose coat fits an allowance
// on a thread whose length over diameter is as given, at most 15. The second
// result is false when even the thinnest class does not fit.
func LargestClass(allowance unit.Length, slenderness float64) (CoatingClass, bool, error) {
	if err := notNegative("allowance", float64(allowance), inMicrometre); err != nil {
		return CoatingClass{}, false, err
	}
	factor, err := lengthFactor(slenderness)
	if err != nil {
		return CoatingClass{}, false, err
	}
	var largest CoatingClass
	for _, c := range CoatingClasses() {
		if float64(c.Nominal)*factor <= float64(allowance)*(1+1e-12) {
			largest = c
		}
	}
	return largest, largest.Nominal > 0, nil
}

// AllowanceFor returns the allowance that a nominal thickness needs on a thread
// whose length over diameter is as given, at most 15.
func AllowanceFor(thickness unit.Length, slenderness float64) (unit.Length, error) {
	if err := notNegative("thickness", float64(thickness), inMicrometre); err != nil {
		return 0, err
	}
	factor, err := lengthFactor(slenderness)
	if err != nil {
		return 0, err
	}
	return thickness * unit.Length(factor), nil
}
