package actionshop

import "gonum.org/v1/gonum/unit"

// EdgeGaps are the gaps between three straightedges A, B and C laid edge to edge,
// two at a time, at one place: positive where the edges stand out toward one
// another.
type EdgeGaps struct{ Place, AB, AC, BC unit.Length }

// EdgeGapU is the standard uncertainty of one gap.
const EdgeGapU = 0.0008 * mm

// ThreeEdges returns the gaps at nine places. They were made from edges of
// A = -8 s, B = 11 s + 2 sin(pi k/4) and C = 3 s - 2.5 sin(pi k/4) um at place
// k = 0 to 8, with s = 1 - ((k - 4)/4)^2, errors of one standard uncertainty, and
// rounded to a micrometre.
func ThreeEdges() []EdgeGaps {
	const um = mm / 1000
	var gaps []EdgeGaps
	for i, g := range [][3]float64{{0, 0, 0}, {2, -3, 5}, {4, -6, 9}, {5, -6, 13}, {2, -5, 13}, {1, -2, 14}, {0, -1, 12}, {-2, 0, 5}, {0, 0, 0}} {
		gaps = append(gaps, EdgeGaps{unit.Length(i) * 50 * mm, unit.Length(g[0]) * um, unit.Length(g[1]) * um, unit.Length(g[2]) * um})
	}
	return gaps
}

// ProbeRow is what three probes in a row, 50 mm apart, read on a carriage that is
// moved along straightedge B by 50 mm a row, with the carriage's own tilt by a
// level on it.
type ProbeRow struct {
	A, B, C unit.Length
	Tilt    float64
}

// The probes' pitch, and the standard uncertainties of a reading and of a tilt.
const (
	ProbePitch = 50 * mm
	ProbeU     = 0.0003 * mm
	ProbeTiltU = 2.6e-6
)

// ThreeProbes returns seven rows. They were made from straightedge B, a carriage
// that lifts and tilts by chance, errors of a quarter of a micrometre, and a zero
// of probe C that is 0.3 um out; read to half a micrometre and 2.5 um/m.
func ThreeProbes() []ProbeRow {
	const um = mm / 1000
	var rows []ProbeRow
	for _, r := range [][4]float64{{-2, 4.5, 8.5, 2.5}, {5.5, 7.5, 7, 40}, {14, 16.5, 16, -5}, {8, 8, 6, -5}, {10, 7, 4.5, 15}, {11, 6.5, 4.5, 15}, {2.5, 1, -1, -27.5}} {
		rows = append(rows, ProbeRow{unit.Length(r[0]) * um, unit.Length(r[1]) * um, unit.Length(r[2]) * um, r[3] * 1e-6})
	}
	return rows
}
